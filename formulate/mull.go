package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Share is one ingredient of a request with its parts among its like.
type Share struct {
	Ingredient
	Parts quantity.Parts
}

// Portion is an extender or a wax with its share: an extender's of the pigment
// mass, a wax's of the paste.
type Portion struct {
	Ingredient
	Share quantity.MassFraction
}

// AmountKind says which one amount the maker gave.
type AmountKind uint8

const (
	ByPigmentMass AmountKind = iota + 1 // as weighed, damp where it is damp
	ByPaintMass                         // left after losses
	ByPaintVolume                       // left after losses
	ByOilMass                           // all of it
	ByTubes                             // filled so far, after losses
)

// Amount is how much is wanted. For tubes Volume is that of one tube to the
// brim.
type Amount struct {
	Kind   AmountKind
	Mass   quantity.Mass
	Volume quantity.Volume
	Tubes  int
	Fill   quantity.VolumeFraction
}

// Each is what one tube or bottle of the amount holds.
func (a Amount) Each() quantity.Volume { return a.Volume * quantity.Volume(a.Fill) }

// TargetKind says how the stiffness is asked for.
type TargetKind uint8

const (
	AtBody       TargetKind = iota + 1 // by stiffness, named or as a ratio
	AtPVC                              // by the pigment's share of the dry film
	AtReducedPVC                       // by that share over the critical one
)

// Target is where the paste should be.
type Target struct {
	Kind    TargetKind
	Body    absorption.Step
	PVC     quantity.VolumeFraction
	Reduced quantity.Ratio
	// AboveCritical allows a PVC above the critical one knowingly.
	AboveCritical bool
}

// MullRequest is everything a mull asks, as understood.
type MullRequest struct {
	Pigments  []Share
	Extenders []Portion
	Oils      []Share
	Waxes     []Portion
	Amount    Amount
	Target    Target
	Moisture  quantity.MassFraction // water in the damp pigment, of the damp mass
	Loss      quantity.MassFraction // left on slab, knife and muller, of what was made
	Have      quantity.Mass         // pigment there is beyond this batch, as weighed; 0: not said
	Slab      Slab
	Scale     quantity.Mass // one division of the balance
	DropMass  quantity.Mass // one drop of the oil
	Sampling  Sampling
	Settings  Setting
}

// Slab is the mulling slab; the zero value is none given.
type Slab struct {
	Width, Depth quantity.Length
	// PerMull is how much paste its user mulls at a time; 0: as PastePerMull has it.
	PerMull quantity.Volume
}

// PastePerMull is how much paste one mull takes on a slab.
// A tablespoonful for a slab of 18 by 24 inches with a muller of 3½ inches
// (Kay, The Painter's Guide to Studio Methods and Materials, 1983, pp. 58–59);
// other slabs in proportion to their area (common practice).
func PastePerMull(s Slab) quantity.Volume {
	const spoon, area = quantity.MlPerTablespoon, 18 * 24 * 2.54 * 2.54
	return quantity.Volume(spoon * float64(s.Width) * float64(s.Depth) / area)
}

// Weigh is one material to weigh: the amount the batch needs, as a range, and
// the amount to put on the balance.
type Weigh struct {
	Material  *material.Material
	Role      Role
	Parts     quantity.Parts
	Share     quantity.MassFraction               // of an extender or a wax
	Mass      evidence.Range[quantity.Mass]       // powder for the amount asked, dry; the rest for the powder weighed
	AsWeighed evidence.Range[quantity.Mass]       // the same as it goes on the balance: damp pigment with its water
	OnScale   quantity.Mass                       // what to weigh, damp pigment as it is, rounded to the scale
	Volume    evidence.Range[quantity.Volume]     // true volume
	Evidence  []absorption.Evidence               // what the demand rests on
	Method    material.Method                     // of the oil absorption
	Basis     absorption.OilBasis                 // what the oil absorption rests on
	OA        evidence.Range[quantity.Absorption] // oil absorption used, g linseed oil per 100 g
	Learned   *LearnResult                        // what the maker's own tests taught of it, nil for nothing
	Prices    quantity.PricePerGram
}

// Pour is one addition of oil, with the running total.
type Pour struct {
	Add   quantity.Mass
	Drops int // counted instead of weighed where over 0
	Total quantity.Mass
	// Reached is the chance that the paste is already at its target here.
	Reached quantity.Ratio
}

// Pours is the oil, poured so that over-oiling is unlikely.
type Pours struct {
	First         quantity.Mass
	FirstOver     quantity.Ratio // chance that the first pour already passes the target
	Step          quantity.Mass
	StepDrops     int           // 0: weigh the steps
	Most          quantity.Mass // 95 of 100 jars need no more
	Typical       quantity.Mass
	Ladder        []Pour
	WeighableFrom quantity.Mass // pigment mass from which the steps can be weighed, 0: they can
	DropMass      quantity.Mass
	// Mends is the oil that all the pigment there is still brings to the target:
	// past it the paste stays too oily. Zero where nobody said what there is.
	Mends evidence.Range[quantity.Mass]
}

// Mulls is how the batch is split on the slab.
type Mulls struct {
	Count  int
	Each   quantity.Volume
	OnSlab quantity.Volume // what the slab takes at a time
	Own    bool            // by its user's own figure
}

// TubesFilled is how many tubes the batch fills.
type TubesFilled struct {
	Size  quantity.Volume
	Fill  quantity.VolumeFraction
	Asked int
	Count evidence.Range[quantity.Ratio]
}

// tubesFilled is how many tubes of an amount in tubes a yield fills.
func tubesFilled(a Amount, made evidence.Range[quantity.Volume]) *TubesFilled {
	return &TubesFilled{Size: a.Volume, Fill: a.Fill, Asked: a.Tubes, Count: vesselsFilled(made, a.Volume, a.Fill)}
}

// vesselsFilled is how many vessels of a size, filled so far, a volume fills.
func vesselsFilled(made evidence.Range[quantity.Volume], size quantity.Volume, fill quantity.VolumeFraction) evidence.Range[quantity.Ratio] {
	each := quantity.Volume(float64(size) * float64(fill))
	return evidence.Rising(made, func(v quantity.Volume) quantity.Ratio { return quantity.Ratio(v / each) })
}

// MullResult is the answer to a mull: one result, of which the card, the JSON
// and the page are faces.
type MullResult struct {
	Request MullRequest

	Weigh []Weigh // pigments, extenders, oils, waxes, in that order
	Water evidence.Range[quantity.Mass]
	Pours Pours

	// Figures of the batch made from the weighed pigment, oil to the target.
	Figures FigureRanges
	Yield   FigureYield
	Mulls   *Mulls
	Tubes   *TubesFilled

	Paint    Paint // at the typical values, as weighed
	Target   Target
	Drying   Drying
	Muller   []MullerNote
	Stock    []OnHand // of the materials whose stock the maker keeps
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step

	// BeyondUse is set where a wax is above its published use: nobody says how
	// such a paste feels.
	BeyondUse bool
}

// FigureYield is what is left to use after losses.
type FigureYield struct {
	Mass   evidence.Range[quantity.Mass]
	Volume evidence.Range[quantity.Volume]
}

// MullerNote is how one pigment behaves under the muller; an empty behaviour
// is unknown.
type MullerNote struct {
	ID, Behaviour, Note, Source string
}

// FirstPourRisk is the greatest chance the first pour may have of passing the
// target.
const FirstPourRisk = 0.05

// unit is the paint for one gram of dry pigment (extenders come on top), at
// one draw.
type unit struct {
	paint Paint
	oil   quantity.Mass
}

// mull composes the paint for one gram of dry pigment at one draw. It is the
// one path: draws, the exact answer and the explanation all run it.
type mull struct {
	req     *MullRequest
	scratch []Component
}

func (r *MullRequest) inputs() int {
	return deviatesEach * (len(r.Pigments) + len(r.Extenders) + len(r.Oils) + len(r.Waxes))
}

// Relations of the mull itself.
var (
	blendDensity = trace.Relation{Name: "density of a blend of oils", Equation: "ρ = Σp/Σ(p/ρᵢ)", Source: "additive volumes"}
	demandOfBody = trace.Relation{Name: "oil demand at the body", Equation: "D(b) between the rub-out (b = 1) and the demand of tube colour", Source: "absorption, fit of published artists' demand"}
	oilOfBody    = trace.Relation{Name: "oil for the body", Equation: "V = Σ m·D(b)/100", Source: "additive rule by mass, see absorption.DemandRelation"}
	oilBesideWax = trace.Relation{Name: "oil beside the wax", Equation: "V = VL − Vwax", Source: "volumes add; wax counts as binder in a PVC"}
	massOfVolume = trace.Relation{Name: "mass of a volume", Equation: "m = V·ρ", Source: "definition of density"}
	waxOfPaste   = trace.Relation{Name: "wax in the paste", Equation: "m = w·(mpigment + moil + mwater)/(1 − Σw)", Source: "share of the paste by mass"}
	madeOfYield  = trace.Relation{Name: "paint to make for the yield", Equation: "made = wanted/(1 − loss)", Source: "definition of loss"}
)

// unitPaint composes the paint for one gram of dry pigment. z holds the
// deviates of every ingredient in the order pigments, extenders, oils, waxes.
func (m *mull) unitPaint(z []float64, tr *trace.Tracer) (unit, error) {
	r := m.req
	comp := m.scratch[:0]
	next := func() []float64 {
		head := z[:deviatesEach]
		z = z[deviatesEach:]
		return head
	}

	var total quantity.Parts
	for i := range r.Pigments {
		total += r.Pigments[i].Parts
	}
	var bodyOil quantity.Volume
	powder := func(in *Ingredient, role Role, mass quantity.Mass) {
		v := in.At(next())
		comp = append(comp, in.Component(v, role, mass))
		if r.Target.Kind == AtBody {
			demand := in.Demand.OilAt(r.Target.Body, v.Density, v.zLot, v.zDemand)
			bodyOil += demand.TakenBy(mass)
			if tr.On() {
				tr.Note(demandOfBody, in.Material.ID, trace.T("D", demand, "ml/100g"), trace.T("b", r.Target.Body.Typical, ""),
					trace.T("OAv", v.Absorption, "ml/100g"), trace.T("ρp", v.Density, "g/ml"))
			}
		}
		if tr.On() {
			cpvc := absorption.CriticalPVC(v.Absorption, v.Density)
			tr.Note(absorption.CriticalPVCRelation, in.Material.ID, trace.T("CPVC", cpvc, ""),
				trace.T("OAv", v.Absorption, "ml/100g"), trace.T("ρp", v.Density, "g/ml"))
		}
	}
	for i := range r.Pigments {
		powder(&r.Pigments[i].Ingredient, Pigment, quantity.Mass(r.Pigments[i].Parts/total))
	}
	for i := range r.Extenders {
		powder(&r.Extenders[i].Ingredient, Extender, quantity.Mass(r.Extenders[i].Share))
	}
	solids := Paint{comp}.Figures()

	// The oil blend: one volume, shared out by mass.
	var parts, blendVolume float64
	doubt := 1.0
	firstOil := len(comp)
	for i := range r.Oils {
		o := &r.Oils[i]
		zo := next()
		v := o.At(zo)
		parts += float64(o.Parts)
		blendVolume += float64(o.Parts) / float64(v.Density)
		comp = append(comp, o.Component(v, Binder, quantity.Mass(o.Parts)))
		if o.Material.AbsorptionDoubtful != "" {
			doubt *= math.Exp(doubtfulOilSigma * zo[2] * float64(o.Parts) / r.oilParts())
		}
	}
	rho := quantity.Density(parts / blendVolume)
	if tr.On() && len(r.Oils) > 1 {
		tr.Note(blendDensity, "oils", trace.T("ρ", rho, "g/ml"))
	}

	// Waxes: their share is of the paste, so their volume depends on the oil.
	var waxShare, waxSpecific float64 // Σw, Σw/ρ
	firstWax := len(comp)
	for i := range r.Waxes {
		w := &r.Waxes[i]
		v := w.At(next())
		waxShare += float64(w.Share)
		waxSpecific += float64(w.Share) / float64(v.Density)
		comp = append(comp, w.Component(v, Additive, quantity.Mass(w.Share)))
	}
	water := quantity.Mass(0)
	if r.Moisture > 0 {
		// The unit is one gram of dry pigment; extenders are dry.
		water = quantity.Mass(powders.DryBasis(r.Moisture))
		if tr.On() {
			tr.Note(powders.DryBasisRelation, "water with 1 g of dry pigment", trace.T("X", water, ""), trace.T("W", r.Moisture, ""))
		}
	}

	var oilVolume quantity.Volume
	switch r.Target.Kind {
	case AtBody:
		oilVolume = quantity.Volume(float64(bodyOil) * doubt)
		if tr.On() {
			tr.Note(oilOfBody, "1 g of pigment", trace.T("V", oilVolume, "ml"), trace.T("b", r.Target.Body.Typical, ""))
		}
	default:
		want := r.Target.PVC
		if r.Target.Kind == AtReducedPVC {
			want = quantity.VolumeFraction(float64(solids.CPVC()) * float64(r.Target.Reduced))
		}
		liquid := absorption.LiquidAtPVC(solids.PigmentVolume, want)
		k := waxSpecific / (1 - waxShare)
		oilVolume = quantity.Volume((float64(liquid) - k*float64(solids.PigmentMass+water)) / (1 + k*float64(rho)))
		if tr.On() {
			tr.Note(absorption.LiquidAtPVCRelation, "binder for 1 g of pigment", trace.T("VL", liquid, "ml"), trace.T("Vp", solids.PigmentVolume, "ml"), trace.T("φ", want, ""))
			if len(r.Waxes) > 0 {
				tr.Note(oilBesideWax, "1 g of pigment", trace.T("V", oilVolume, "ml"), trace.T("VL", liquid, "ml"))
			}
		}
		if !(oilVolume > 0) {
			return unit{}, refuse("a PVC of %.3g leaves no room for oil beside the wax", float64(want))
		}
	}
	oil := oilVolume.Mass(rho)
	if tr.On() {
		tr.Note(massOfVolume, "oil for 1 g of pigment", trace.T("m", oil, "g"), trace.T("V", oilVolume, "ml"), trace.T("ρ", rho, "g/ml"))
	}
	for i := firstOil; i < firstWax; i++ {
		comp[i].Mass = oil * quantity.Mass(float64(comp[i].Mass)/parts)
	}
	paste := float64(solids.PigmentMass+oil+water) / (1 - waxShare)
	for i := firstWax; i < len(comp); i++ {
		comp[i].Mass *= quantity.Mass(paste)
		if tr.On() {
			tr.Note(waxOfPaste, comp[i].ID, trace.T("m", comp[i].Mass, "g"), trace.T("mpigment", solids.PigmentMass, "g"), trace.T("moil", oil, "g"), trace.T("mwater", water, "g"), trace.T("Σw", waxShare, ""))
		}
	}
	if water > 0 {
		comp = append(comp, waterComponent(water))
	}
	m.scratch = comp
	return unit{paint: Paint{comp}, oil: oil}, nil
}

// waterDensity is that of water at 20 °C.
// Source: IAPWS-95 tables, 0.9982 g/ml.
const waterDensity quantity.Density = 0.9982

// waterComponent is the water that came in with damp pigment.
func waterComponent(mass quantity.Mass) Component {
	return Component{ID: "water", Role: Volatile, Mass: mass, Density: waterDensity}
}

func (r *MullRequest) oilParts() float64 {
	var p float64
	for i := range r.Oils {
		p += float64(r.Oils[i].Parts)
	}
	return p
}

// scaleTo returns how many times the unit paint the amount takes.
func (r *MullRequest) scaleTo(u unit, tr *trace.Tracer) quantity.Ratio {
	f := u.paint.Figures()
	k := r.Amount.times(f, u.oil, r.Loss, r.Moisture)
	if tr.On() && r.Loss > 0 && r.Amount.Kind != ByPigmentMass && r.Amount.Kind != ByOilMass {
		tr.Note(madeOfYield, "batch", trace.T("made", float64(f.Mass)*float64(k), "g"), trace.T("loss", r.Loss, ""))
	}
	return k
}

// times returns how many times a paint of one gram of dry pigment, with its
// binder as poured, makes the amount after losses.
func (a Amount) times(f Figures, binder quantity.Mass, loss, moisture quantity.MassFraction) quantity.Ratio {
	keep := 1 - float64(loss)
	var k float64
	switch a.Kind {
	case ByPigmentMass:
		// As weighed: damp pigment holds water.
		k = float64(powders.DryMass(a.Mass, moisture))
	case ByOilMass:
		k = float64(a.Mass) / float64(binder)
	case ByPaintMass:
		k = float64(a.Mass) / keep / float64(f.Mass)
	case ByPaintVolume:
		k = float64(a.Volume) / keep / float64(f.Volume)
	case ByTubes:
		k = float64(a.Volume) * float64(a.Tubes) * float64(a.Fill) / keep / float64(f.Volume)
	}
	return quantity.Ratio(k)
}

// Mull works out a mull.
func Mull(req MullRequest) (*MullResult, error) {
	if err := req.validate(); err != nil {
		return nil, err
	}
	inputs := req.inputs()
	nComp := len(req.Pigments) + len(req.Extenders) + len(req.Oils) + len(req.Waxes)

	// The typical batch settles what to weigh.
	var tr trace.Tracer
	typical := &mull{req: &req}
	u, err := typical.unitPaint(make([]float64, inputs), &tr)
	if err != nil {
		return nil, err
	}
	k := req.scaleTo(u, &tr)
	paint := u.paint.Scaled(k)
	figures := paint.Figures()
	if err := checkTarget(&req, figures); err != nil {
		return nil, err
	}
	noteFigures(&tr, figures)

	weighed := req.dryPigmentOnScale(k)

	// Columns: the figures, the oil for the weighed pigment, the loss-free
	// yield, then each component's mass and volume for the amount asked.
	const oilColumn, yieldMass, yieldVolume, fixed = figureCount, figureCount + 1, figureCount + 2, figureCount + 3
	columns := req.Sampling.run(inputs, fixed+2*nComp+nComp, func() func(z, out []float64) {
		m := &mull{req: &req}
		return func(z, out []float64) {
			u, err := m.unitPaint(z, nil)
			if err != nil {
				for i := range out {
					out[i] = math.NaN()
				}
				return
			}
			asked := float64(req.scaleTo(u, nil))
			for i := range nComp {
				c := &u.paint.Components[i]
				// Powder for the amount asked; what goes to it, for the powder
				// that is weighed.
				k := asked
				if c.Role != Pigment && c.Role != Extender {
					k = float64(weighed)
				}
				out[fixed+i] = float64(c.Mass) * k
				out[fixed+nComp+i] = float64(c.Volume()) * k
				out[fixed+2*nComp+i] = float64(c.Absorption)
			}
			for i := range u.paint.Components {
				u.paint.Components[i].Mass *= weighed
			}
			f := u.paint.Figures()
			f.vector(out[:figureCount])
			out[oilColumn] = float64(u.oil * weighed)
			out[yieldMass] = float64(f.Mass) * (1 - float64(req.Loss))
			out[yieldVolume] = float64(f.Volume) * (1 - float64(req.Loss))
		}
	})
	for _, v := range columns[oilColumn] {
		if math.IsNaN(v) {
			return nil, errors.New("the target leaves no room for oil beside the wax; lower the PVC or the wax")
		}
	}

	res := &MullResult{Request: req, Paint: paint, Target: req.Target}
	res.Pours = pours(&req, columns[oilColumn], weighed, req.leastPublished(weighed))
	res.Figures = figureRanges(columns[:figureCount])
	res.Pours.Mends = req.mends(res.Figures.BinderMass, weighed, &tr)
	res.Yield = FigureYield{rangeOf[quantity.Mass](columns[yieldMass]), rangeOf[quantity.Volume](columns[yieldVolume])}
	res.Weigh = req.weighList(k, columns[fixed:], nComp)
	if i := paint.Find("water", Volatile); i >= 0 {
		res.Water = evidence.Exactly(paint.Components[i].Mass)
	}
	if req.Slab != (Slab{}) {
		res.Mulls = split(req.Slab, res.Figures.Volume.Typical)
	}
	if req.Amount.Kind == ByTubes {
		res.Tubes = tubesFilled(req.Amount, res.Yield.Volume)
	}
	mats := req.materials()
	res.Drying = DryingOf(mats)
	for i := range req.Pigments {
		res.Muller = append(res.Muller, mullerNote(req.Pigments[i].Material))
	}
	when := DryPowder | InOil | Kept | req.Settings
	res.Cautions = Cautions(when, mats...)
	res.Warnings = req.warnings(res)
	for i := range req.Waxes {
		most, ok := mostUse(req.Waxes[i].Material)
		res.BeyondUse = res.BeyondUse || ok && req.Waxes[i].Share > most
	}
	res.Stock = req.onHand(res)
	res.Steps = tr.Steps()
	return res, nil
}

func noteFigures(tr *trace.Tracer, f Figures) {
	tr.Note(absorption.PVCRelation, "batch", trace.T("PVC", f.PVC(), ""), trace.T("Vp", f.PigmentVolume, "ml"), trace.T("Vb", f.BinderVolume+f.AdditiveVolume, "ml"))
	tr.Note(absorption.CriticalPVCOfMixRelation, "batch", trace.T("CPVC", f.CPVC(), ""), trace.T("Vp", f.PigmentVolume, "ml"), trace.T("Voil", f.Demand, "ml"))
	tr.Note(absorption.ReducedPVCRelation, "batch", trace.T("Λ", f.ReducedPVC(), ""), trace.T("PVC", f.PVC(), ""), trace.T("CPVC", f.CPVC(), ""))
	tr.Note(absorption.BodyOfRelation, "batch", trace.T("b", f.Body(), ""), trace.T("φ", f.WetPigment(), ""), trace.T("CPVC", f.CPVC(), ""))
}

// dryPigmentOnScale is the dry pigment that really goes on the slab once the
// weights are rounded to the scale.
func (r *MullRequest) dryPigmentOnScale(k quantity.Ratio) quantity.Mass {
	var dry quantity.Mass
	var total quantity.Parts
	for i := range r.Pigments {
		total += r.Pigments[i].Parts
	}
	for i := range r.Pigments {
		m := powders.DampMass(quantity.Mass(float64(k)*float64(r.Pigments[i].Parts/total)), r.Moisture)
		dry += powders.DryMass(onScale(m, r.Scale), r.Moisture)
	}
	return dry
}

// onScale rounds a mass to what the balance shows, never to nothing.
func onScale(m, division quantity.Mass) quantity.Mass {
	if division <= 0 {
		return m
	}
	n := math.Round(float64(m / division))
	return tidy(max(n, 1), division)
}

// tidy multiplies a count by a division without leaving binary dust behind:
// 3 divisions of 0.1 g are 0.3 g.
func tidy(n float64, division quantity.Mass) quantity.Mass {
	v := n * float64(division)
	p := math.Pow(10, 9-math.Ceil(math.Log10(max(v, 1e-9))))
	return quantity.Mass(math.Round(v*p) / p)
}

func (r *MullRequest) weighList(k quantity.Ratio, columns [][]float64, n int) []Weigh {
	var out []Weigh
	i := 0
	add := func(in *Ingredient, role Role, w Weigh) {
		w.Material, w.Role, w.Prices = in.Material, role, in.Price
		if role == Pigment || role == Extender {
			w.Evidence, w.Method, w.Basis = in.Demand.Evidence(), in.Method, in.Demand.Basis()
			w.Learned = in.Learned
			w.OA = absorption.Reported(rangeOf[quantity.AbsorptionVolume](columns[2*n+i]))
		}
		w.Mass = rangeOf[quantity.Mass](columns[i])
		w.AsWeighed = w.Mass
		if role == Pigment {
			w.AsWeighed = evidence.Rising(w.Mass, func(dry quantity.Mass) quantity.Mass { return powders.DampMass(dry, r.Moisture) })
		}
		w.Volume = rangeOf[quantity.Volume](columns[n+i])
		i++
		out = append(out, w)
	}
	var total quantity.Parts
	for j := range r.Pigments {
		total += r.Pigments[j].Parts
	}
	for j := range r.Pigments {
		p := &r.Pigments[j]
		add(&p.Ingredient, Pigment, Weigh{Parts: p.Parts, OnScale: onScale(powders.DampMass(quantity.Mass(float64(k)*float64(p.Parts/total)), r.Moisture), r.Scale)})
	}
	for j := range r.Extenders {
		e := &r.Extenders[j]
		add(&e.Ingredient, Extender, Weigh{Share: e.Share, OnScale: onScale(quantity.Mass(float64(k)*float64(e.Share)), r.Scale)})
	}
	for j := range r.Oils {
		add(&r.Oils[j].Ingredient, Binder, Weigh{Parts: r.Oils[j].Parts})
	}
	for j := range r.Waxes {
		add(&r.Waxes[j].Ingredient, Additive, Weigh{Share: r.Waxes[j].Share})
		w := &out[len(out)-1]
		w.OnScale = onScale(w.Mass.Typical, r.Scale)
	}
	return out
}

// leastPublished is the oil for the weighed powder by the smallest figure
// published for each pigment itself: a first pour stays below it, whatever the
// spread of all sources says. 0 where nothing is published.
func (r *MullRequest) leastPublished(dry quantity.Mass) quantity.Mass {
	var total quantity.Parts
	for i := range r.Pigments {
		total += r.Pigments[i].Parts
	}
	var ml float64
	found := false
	powder := func(in *Ingredient, mass quantity.Mass) {
		least, ok := in.Demand.LeastPublished(r.Target.Body)
		found = found || ok
		typical := in.Demand.OilAt(r.Target.Body, in.Density.Median, 0, 0)
		if ok {
			typical = min(typical, least.ByVolume(quantity.ReportingOilDensity))
		}
		ml += float64(mass) * float64(typical) / 100
	}
	for i := range r.Pigments {
		powder(&r.Pigments[i].Ingredient, dry*quantity.Mass(r.Pigments[i].Parts/total))
	}
	for i := range r.Extenders {
		powder(&r.Extenders[i].Ingredient, dry*quantity.Mass(r.Extenders[i].Share))
	}
	if !found || r.Target.Kind != AtBody {
		return 0
	}
	var parts, volume float64
	for i := range r.Oils {
		parts += float64(r.Oils[i].Parts)
		volume += float64(r.Oils[i].Parts) / float64(r.Oils[i].Density.Median)
	}
	return quantity.Mass(ml * parts / volume)
}

// pours turns the oil the weighed pigment may need into a first pour and steps.
// The first pour stays below least where that is over 0.
func pours(r *MullRequest, oil []float64, dry, least quantity.Mass) Pours {
	first := quantity.Mass(evidence.Quantile(oil, FirstPourRisk))
	if least > 0 {
		first = min(first, least)
	}
	p := Pours{
		First:    first,
		Typical:  quantity.Mass(evidence.Quantile(oil, 0.5)),
		Most:     quantity.Mass(evidence.Quantile(oil, 1-FirstPourRisk)),
		DropMass: r.DropMass,
	}
	exact := len(oil) == 1
	if r.Scale > 0 {
		p.First = tidy(math.Floor(float64(p.First/r.Scale)+1e-9), r.Scale)
		p.Most = tidy(math.Ceil(float64(p.Most/r.Scale)-1e-9), r.Scale)
		if exact {
			p.First = onScale(p.Typical, r.Scale)
			p.Most = p.First
		}
	}
	p.FirstOver = chance(oil, p.First)
	if exact {
		p.FirstOver = 0
		return p
	}
	step := (p.Most - p.First) / stepsInLadder
	p.Step = step
	if r.Scale > 0 {
		if step < minDivisions*r.Scale && r.DropMass > 0 {
			p.StepDrops = int(max(1, math.Round(float64(step/r.DropMass))))
			p.Step = quantity.Mass(p.StepDrops) * r.DropMass
			p.WeighableFrom = powders.DampMass(dry*minDivisions*r.Scale/step, r.Moisture)
		} else {
			p.Step = onScale(step, r.Scale)
		}
	}
	if p.Step <= 0 {
		return p
	}
	p.Ladder = []Pour{{Add: p.First, Total: p.First, Reached: p.FirstOver}}
	// The last step only goes as far as the most that should be needed.
	for total := p.First; p.Most-total > p.Step/2 && len(p.Ladder) < maxLadder; {
		add := p.Step
		if total+add > p.Most {
			if add = p.Most - total; r.Scale > 0 {
				add = onScale(add, r.Scale)
			}
		}
		total = min(tidy(1, total+p.Step), p.Most)
		p.Ladder = append(p.Ladder, Pour{Add: add, Drops: p.StepDrops, Total: total, Reached: chance(oil, total)})
	}
	return p
}

const (
	stepsInLadder = 8 // common practice: first the bulk, then tenths
	maxLadder     = 40
	farApart      = 2.5 // published demands further apart than this are remarked on
	minDivisions  = 3   // a step under three divisions of the balance is counted in drops
)

// chance is the share of draws that need less oil than this.
func chance(oil []float64, m quantity.Mass) quantity.Ratio {
	n := 0
	for _, v := range oil {
		if v < float64(m) {
			n++
		}
	}
	return quantity.Ratio(float64(n) / float64(len(oil)))
}

// split divides a batch over the slab in equal mulls.
func split(s Slab, batch quantity.Volume) *Mulls {
	each := s.PerMull
	if each == 0 {
		each = PastePerMull(s)
	}
	n := int(math.Ceil(float64(batch/each) - 1e-9))
	n = max(n, 1)
	return &Mulls{Count: n, Each: batch / quantity.Volume(n), OnSlab: each, Own: s.PerMull > 0}
}

func mullerNote(m *material.Material) MullerNote {
	n := MullerNote{ID: m.ID}
	if m.Muller != nil {
		n.Behaviour, n.Note, n.Source = m.Muller.Behaviour, m.Muller.Note, m.Muller.Source
	}
	return n
}

func (r *MullRequest) materials() []*material.Material {
	var out []*material.Material
	for i := range r.Pigments {
		out = append(out, r.Pigments[i].Material)
	}
	for i := range r.Extenders {
		out = append(out, r.Extenders[i].Material)
	}
	for i := range r.Oils {
		out = append(out, r.Oils[i].Material)
	}
	for i := range r.Waxes {
		out = append(out, r.Waxes[i].Material)
	}
	return out
}

// warnings are remarks on the numbers, not on health.
func (r *MullRequest) warnings(res *MullResult) []string {
	var out []string
	for i := range r.Oils {
		if why := r.Oils[i].Material.AbsorptionDoubtful; why != "" {
			out = append(out, fmt.Sprintf("%s: the same volume as linseed oil is assumed, which is doubtful (%s); the range is widened", r.Oils[i].Material.Name, why))
		}
	}
	for i := range r.Pigments {
		out = append(out, r.Pigments[i].Learned.Doubts()...)
	}
	for i := range r.Extenders {
		out = append(out, r.Extenders[i].Learned.Doubts()...)
	}
	for _, w := range res.Weigh {
		switch w.Method {
		case material.GardnerColeman, material.Absorptometer:
			out = append(out, fmt.Sprintf("%s: the one figure known is by %s, not by rub-out; expect it to differ", w.Material.Name, w.Method))
		}
	}
	if r.Target.Kind == AtBody && r.Target.Body.Name != "" && res.Figures.Body.Typical > 1 {
		out = append(out, say("the demand of such pigments lies below what this oil absorption (critical PVC %.2g %%) would call crumbly: the two disagree, so trust the feel of the paste and add by small steps", 100*float64(res.Figures.CPVC.Typical)))
	}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		least, ok := p.Demand.LeastPublished(r.Target.Body)
		if most := p.Demand.GreatestPublished(r.Target.Body); ok && r.Target.Kind == AtBody && most > farApart*least {
			out = append(out, fmt.Sprintf("%s: published demands run from %.0f to %.0f g per 100 g, by lot and maker: the first pour stays below the least of them, and the paste decides", p.Material.Name, float64(least), float64(most)))
		}
	}
	for i := range r.Oils {
		if o := r.Oils[i].Material; !o.Has(material.DryingOil) {
			out = append(out, fmt.Sprintf("%s is no drying oil: paint made with it stays wet", o.Name))
		}
	}
	if len(r.Pigments)+len(r.Extenders) > 1 {
		out = append(out, "oil demands are added by mass; powders of very unlike size pack closer and take less")
	}
	for i := range r.Waxes {
		w := &r.Waxes[i]
		if most, ok := mostUse(w.Material); ok && w.Material.Kind == material.Drier {
			out = append(out, say("%s: the published use of up to %.3g %% is of metal on the oil, not of drier: the bottle says what share is metal", w.Material.Name, 100*float64(most)))
		} else if ok && w.Share > most {
			out = append(out, say("%s: %.3g %% of the paste is above the published use of up to %.3g %%", w.Material.Name, 100*float64(w.Share), 100*float64(most)))
		}
	}
	if r.Moisture > 0 {
		out = append(out, say("the pigment is taken as %.3g %% water of the damp mass: damp powder lumps in oil, dry it first where its heat caution allows", 100*float64(r.Moisture)))
	}
	return out
}

func mostUse(m *material.Material) (quantity.MassFraction, bool) {
	var most quantity.MassFraction
	for _, u := range m.UseLevel {
		if u.Aside == "" {
			most = max(most, u.High, u.Value)
		}
	}
	return most, most > 0
}

func checkTarget(r *MullRequest, f Figures) error {
	var asked quantity.Ratio
	switch r.Target.Kind {
	case AtPVC:
		asked = quantity.Ratio(r.Target.PVC / f.CPVC())
	case AtReducedPVC:
		asked = r.Target.Reduced
	case AtBody:
		return nil
	}
	if asked > 1 && !r.Target.AboveCritical {
		return fmt.Errorf("that is above the critical PVC (about %.1f %%): the oil would not fill the voids and the paste would crumble; "+
			"ask for less, or say that it is meant", 100*float64(f.CPVC()))
	}
	return nil
}

func (r *MullRequest) validate() error {
	switch {
	case len(r.Pigments) == 0:
		return errors.New("no pigment given")
	case len(r.Oils) == 0:
		return errors.New("no oil given")
	case r.inputs() > evidence.MaxInputs:
		return fmt.Errorf("%d ingredients are too many for one mull; at most %d", r.inputs()/deviatesEach, evidence.MaxInputs/deviatesEach)
	case negative(r.Have):
		return errors.New("the pigment there is must not be below nothing")
	case negative(r.Scale) || negative(r.DropMass):
		return errors.New("scale division and drop mass must not be negative")
	}
	if err := checkShares(r.Moisture, r.Loss); err != nil {
		return err
	}
	add := func(m *material.Material, as string, kinds ...material.Kind) error {
		if before, given := r.givenAs(m, as); given > 1 {
			return fmt.Errorf("%s is given twice (as %s and as %s); add its parts together", m.ID, before, as)
		}
		for _, k := range kinds {
			if m.Kind == k {
				return nil
			}
		}
		return fmt.Errorf("%s is a %s, it cannot be the %s", m.ID, m.Kind, as)
	}
	for i := range r.Pigments {
		if err := add(r.Pigments[i].Material, "pigment", material.Pigment, material.Extender); err != nil {
			return err
		}
		if !positive(r.Pigments[i].Parts) {
			return fmt.Errorf("%s: parts must be above nothing", r.Pigments[i].Material.ID)
		}
	}
	for i := range r.Extenders {
		e := &r.Extenders[i]
		if err := add(e.Material, "extender", material.Extender, material.Pigment); err != nil {
			return err
		}
		if !(e.Share > 0) || e.Share > 10 {
			return fmt.Errorf("%s: an extender's share is of the pigment mass, above 0 and up to 1000 %%", e.Material.ID)
		}
	}
	for i := range r.Oils {
		if err := add(r.Oils[i].Material, "oil", material.Oil); err != nil {
			return err
		}
		if !positive(r.Oils[i].Parts) {
			return fmt.Errorf("%s: parts must be above nothing", r.Oils[i].Material.ID)
		}
	}
	var wax quantity.MassFraction
	for i := range r.Waxes {
		w := &r.Waxes[i]
		if err := add(w.Material, "wax", material.Wax, material.Stabiliser, material.Drier, material.Resin, material.Additive); err != nil {
			return err
		}
		if !(w.Share > 0) {
			return fmt.Errorf("%s: a wax's share is of the paste, above 0", w.Material.ID)
		}
		wax += w.Share
	}
	if wax >= 0.5 {
		return refuse("waxes and additives make up %.3g %% of the paste; under 50 %% is accepted", 100*float64(wax))
	}
	return r.validateAmount()
}

// givenAs counts how often a material is given, and names the other place. A
// request is short: looking through it beats a map.
func (r *MullRequest) givenAs(m *material.Material, as string) (other string, times int) {
	other = as
	see := func(x *material.Material, place string) {
		if x.ID == m.ID {
			times++
			if place != as {
				other = place
			}
		}
	}
	for i := range r.Pigments {
		see(r.Pigments[i].Material, "pigment")
	}
	for i := range r.Extenders {
		see(r.Extenders[i].Material, "extender")
	}
	for i := range r.Oils {
		see(r.Oils[i].Material, "oil")
	}
	for i := range r.Waxes {
		see(r.Waxes[i].Material, "wax")
	}
	return other, times
}

func (r *MullRequest) validateAmount() error {
	if err := r.Amount.check(); err != nil {
		return err
	}
	switch r.Target.Kind {
	case AtBody:
		if b := r.Target.Body.Typical; !(b >= absorption.LeastBody && b <= absorption.MostBody) {
			return fmt.Errorf("a body is a ratio from %g to %g", float64(absorption.LeastBody), float64(absorption.MostBody))
		}
	case AtPVC:
		if !(r.Target.PVC > 0 && r.Target.PVC < 1) {
			return errors.New("a PVC is above 0 and below 100 %")
		}
	case AtReducedPVC:
		if !(r.Target.Reduced > 0 && r.Target.Reduced <= 2) {
			return errors.New("a reduced PVC is above 0 and up to 2")
		}
	default:
		return errors.New("no body, PVC or reduced PVC given")
	}
	return nil
}

// check refuses an amount of nothing.
func (a Amount) check() error {
	switch a.Kind {
	case ByPigmentMass, ByPaintMass, ByOilMass:
		if !positive(a.Mass) {
			return errors.New("the amount must be above nothing")
		}
	case ByPaintVolume:
		if !positive(a.Volume) {
			return errors.New("the amount must be above nothing")
		}
	case ByTubes:
		if !positive(a.Volume) || a.Tubes < 1 || a.Tubes > 10000 {
			return errors.New("tubes are given as a count from 1 to 10000 and a size")
		}
		if !(a.Fill > 0 && a.Fill <= 1) {
			return errors.New("a tube's fill is above 0 and up to 100 %")
		}
	default:
		return errors.New("no amount given")
	}
	return nil
}
