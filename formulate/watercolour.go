package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// PansAsked is how many pans of one sort are to be filled.
type PansAsked struct {
	Name  string          // "half pan"
	Brim  quantity.Volume // how much one holds
	Count int
	// Fill is the share of the pan that dry paint is to fill, Deepest the largest
	// share of it poured at a time.
	Fill, Deepest quantity.VolumeFraction
}

// WatercolourRequest is everything a watercolour asks, as understood.
type WatercolourRequest struct {
	Pigments   []Share
	Solution   Liquid // gum solution as poured, or the gum itself
	Humectants []GumHumectant
	Air        gum.Air
	Additives  []GumAdditive // wetting agent, preservative
	Binding    Binding
	Body       absorption.Step // of the wet paint, as an oil paste's
	Moisture   quantity.MassFraction
	Amount     Amount     // unless pans are asked
	Pans       *PansAsked // nil: by amount
	Vessels    []PansAsked
	Loss       quantity.MassFraction
	Slab       Slab
	Scale      quantity.Mass
	Symptom    Symptom // "" for none
	Means      GumMeans
	Sampling   Sampling
}

// GumWeigh is one line of what to weigh.
type GumWeigh struct {
	Material *material.Material
	Role     Role
	Mass     evidence.Range[quantity.Mass] // for the weighed pigment
	OnScale  quantity.Mass
	Parts    quantity.Parts        // of a pigment
	Share    quantity.MassFraction // of an additive, of the wet paint; of a pigment, of all pigment
	Ratio    quantity.Ratio        // of a humectant, to the gum
	Bulk     *Bulk                 // of a pigment, where measures were read
}

// BinderDose is the binder, mixed first and added so that the rub test decides.
type BinderDose struct {
	First, Typical, Most quantity.Mass
	// Totals is the binder in all after each addition, First to Most.
	Totals []quantity.Mass
	// What makes up the typical amount, as weighed.
	Solution quantity.Mass
	Gum      quantity.Mass // in that solution
	Water    quantity.Mass // in that solution
}

// PansFilled is how the pans come out.
type PansFilled struct {
	Asked   PansAsked
	Count   evidence.Range[quantity.Ratio] // that the batch fills
	Pours   []gum.Pour                     // into one pan
	AtHalf  int                            // pours, were each up to half of the pan; 0: they are, or it does not fill
	PourFor []quantity.Mass                // each pour by mass
}

// PaintLine is one component of the paint as it stands and as it dries.
type PaintLine struct {
	ID   string
	Role Role
	Mass quantity.Mass
	Vol  quantity.Volume
	// Shares of the wet paint, and of the dry film; 0 there for what leaves.
	WetMass quantity.MassFraction
	WetVol  quantity.VolumeFraction
	DryVol  quantity.VolumeFraction
}

// GumDose is a preservative or wetting agent beside its published use.
type GumDose struct {
	Material *material.Material
	Share    quantity.MassFraction
	Mass     quantity.Mass
	Low      quantity.MassFraction // published use; 0: only the most is known
	High     quantity.MassFraction // 0: none is known
	Source   string
}

// WatercolourResult is the answer.
type WatercolourResult struct {
	Request WatercolourRequest // as it was worked out; see Cake

	Pigments   []GumWeigh
	Binder     BinderDose
	BinderMass evidence.Range[quantity.Mass]
	Humectants []GumWeigh
	Additives  []GumWeigh
	Water      evidence.Range[quantity.Mass] // to add
	CakeWater  quantity.Mass
	// Cake is what the request was changed by, for damp pigment that brings more
	// water than the paint as asked takes; nil where it was not.
	Cake *WetCake

	Figures     FigureRanges
	Yield       FigureYield
	Composition []PaintLine
	Shrinkage   evidence.Range[quantity.VolumeFraction]

	// The hidden ratio, beside what is published.
	Humectant         quantity.Ratio
	HumectantOfBinder quantity.MassFraction // of the dry binder
	Published         []evidence.Reading[quantity.Ratio]

	Pans  []PansFilled // the asked sort, or every usual sort
	Tubes *TubesFilled
	Mulls *Mulls
	Doses []GumDose

	Batch  GumBatch
	Paint  Paint
	Remedy *GumRemedy

	Muller     []MullerNote
	Hypotheses []string
	Cautions   []Caution
	Warnings   []string
	Steps      []trace.Step
}

// The binder begins at the low end of what 8 batches in 10 take, and each
// addition makes at most a third more of what is in. Common practice: little by
// little, with a test after each.
const (
	binderStart  = 0.10
	binderMost   = 0.90
	binderGrowth = 1.0 / 3
)

// Watercolour works out a watercolour.
func Watercolour(req WatercolourRequest) (*WatercolourResult, error) {
	if err := req.validate(); err != nil {
		return nil, err
	}
	cake, err := req.fitCake()
	if err != nil {
		return nil, err
	}
	binder, err := BinderMix(req.Solution, req.Humectants)
	if err != nil {
		return nil, err
	}
	mix, err := newWaterMix(req.Pigments, binder, req.Additives, req.Binding, Wetness{Body: req.Body}, req.Moisture)
	if err != nil {
		return nil, err
	}
	var tr trace.Tracer
	typical := mix.at(make([]float64, mix.inputs()), &tr)
	k := req.times(typical)
	if err := mix.tooWet(typical, k); err != nil {
		return nil, err
	}

	res := &WatercolourResult{Request: req, Cake: cake}
	var dry quantity.Mass
	res.Pigments, dry = pigmentsOnScale(req.Pigments, req.Binding.Bulk, req.Moisture, req.Scale, k)
	paint := typical.paint.Scaled(quantity.Ratio(dry))
	figures := paint.Figures()
	noteFigures(&tr, figures)
	tr.Note(gum.ShrinkageRelation, "batch", trace.T("s", gum.Shrinkage(figures.SolidsByVolume()), ""), trace.T("VS", figures.SolidsByVolume(), ""))

	d := mix.draw(req.Sampling, dry, req.Loss)
	res.Paint = paint
	res.Binder = req.dose(d.binder, binder, typical.binder*dry)
	res.BinderMass = rangeOf[quantity.Mass](d.binder)
	res.Water, res.CakeWater = d.water, typical.cake*dry
	res.Figures, res.Yield = d.figures, d.yield
	res.Additives, res.Doses = weighAdditives(req.Additives, typical, dry, d.additives, req.Scale)
	res.Humectants = weighHumectants(req.Humectants, binder, typical.binder*dry, res.BinderMass, req.Scale)
	res.Batch = req.batch(binder, typical, dry)
	res.Humectant = res.Batch.HumectantRatio()
	_, res.HumectantOfBinder = humectantIn(binder)
	res.Published = gum.HumectantRatios()
	res.Composition = compositionOf(paint)

	if err := res.fillVessels(d.dry, figures); err != nil {
		return nil, err
	}
	tr.Note(gum.HumectantRatioRelation, "batch", trace.T("h", res.Humectant, ""))
	if req.Pans != nil {
		tr.Note(gum.PanPoursRelation, req.Pans.Name, trace.T("n", quantity.Ratio(len(res.Pans[0].Pours)), "pours"), trace.T("V", req.Pans.Brim, "ml"), trace.T("f", req.Pans.Fill, ""), trace.T("VS", figures.SolidsByVolume(), ""), trace.T("p", req.Pans.Deepest, ""))
	}
	res.Shrinkage = evidence.Falling(res.Figures.SolidsByVolume, gum.Shrinkage)
	if req.Pans == nil && req.Amount.Kind == ByTubes {
		res.Tubes = tubesFilled(req.Amount, res.Yield.Volume)
	}
	if req.Slab != (Slab{}) {
		res.Mulls = split(req.Slab, res.Figures.Volume.Typical)
	}
	if req.Symptom != "" {
		r, err := GumCorrection(res.Batch, req.Symptom, req.Means)
		if err != nil {
			return nil, err
		}
		res.Remedy = &r
	}
	for i := range req.Pigments {
		res.Muller = append(res.Muller, mullerNote(req.Pigments[i].Material))
	}
	res.Hypotheses = req.hypotheses()
	res.Cautions = Cautions(DryPowder|InWater|Kept, req.materials()...)
	res.Warnings = req.warnings(res, typical)
	res.Steps = tr.Steps()
	return res, nil
}

// times returns how many times the paint of one gram of dry pigment is made.
func (r *WatercolourRequest) times(pt waterPoint) quantity.Ratio {
	f := pt.paint.Figures()
	if p := r.Pans; p != nil {
		want := float64(p.Brim) * float64(p.Count) * float64(p.Fill) / (1 - float64(r.Loss))
		return quantity.Ratio(want / float64(f.Volume-f.VolatileVolume))
	}
	return r.Amount.times(f, pt.binder, r.Loss, r.Moisture)
}

// weighHumectants lists the humectants in a mass of mixed binder.
func weighHumectants(list []GumHumectant, binder Liquid, typical quantity.Mass, mass evidence.Range[quantity.Mass], scale quantity.Mass) []GumWeigh {
	var out []GumWeigh
	base := quantity.Ratio(bindingShare(binder))
	for i := range list {
		h := &list[i]
		per := base * h.Ratio
		out = append(out, GumWeigh{Material: h.Material, Role: Additive, Ratio: h.Ratio, Mass: mass.Times(per), OnScale: onScale(typical*quantity.Mass(per), scale)})
	}
	return out
}

// weighAdditives lists the additives of a paint of so much dry pigment, and each
// beside its published use.
func weighAdditives(list []GumAdditive, typical waterPoint, dry quantity.Mass, mass []evidence.Range[quantity.Mass], scale quantity.Mass) ([]GumWeigh, []GumDose) {
	var weigh []GumWeigh
	var doses []GumDose
	for i := range list {
		a, m := &list[i], typical.additives[i]*dry
		weigh = append(weigh, GumWeigh{Material: a.Material, Role: Additive, Share: a.Share, Mass: mass[i], OnScale: onScale(m, scale)})
		doses = append(doses, doseOf(a.Material, a.Share, m))
	}
	return weigh, doses
}

// humectantIn is the humectant of a mixed binder: to its gum as weighed, and of
// its dry mass.
func humectantIn(binder Liquid) (toGum quantity.Ratio, ofDry quantity.MassFraction) {
	b := GumBatch{Pours: []GumPour{{binder, 1}}}
	f := b.Paint().Figures()
	return b.HumectantRatio(), quantity.MassFraction(share(float64(f.AdditiveMass), float64(f.AdditiveMass+f.BinderMass)))
}

// pigmentsOnScale lists the pigments as they are put on the balance and returns
// the dry pigment in them.
func pigmentsOnScale(pigments []Share, bulk []Bulk, moisture quantity.MassFraction, scale quantity.Mass, k quantity.Ratio) ([]GumWeigh, quantity.Mass) {
	var total quantity.Parts
	for i := range pigments {
		total += pigments[i].Parts
	}
	var list []GumWeigh
	var dry quantity.Mass
	for i := range pigments {
		p := &pigments[i]
		role := RoleOf(p.Material.Kind)
		w := GumWeigh{Material: p.Material, Role: role, Parts: p.Parts, Share: quantity.MassFraction(p.Parts / total)}
		w.OnScale = onScale(powders.DampMass(quantity.Mass(float64(k)*float64(p.Parts/total)), moisture), scale)
		w.Mass = evidence.Exactly(w.OnScale)
		if len(bulk) > i {
			w.Bulk = &bulk[i]
		}
		dry += powders.DryMass(w.OnScale, moisture)
		list = append(list, w)
	}
	return list, dry
}

// dose turns the binder the weighed pigment may take into a start and additions.
func (r *WatercolourRequest) dose(column []float64, binder Liquid, typical quantity.Mass) BinderDose {
	d := BinderDose{Typical: onScale(typical, r.Scale)}
	d.First = onScale(quantity.Mass(evidence.Quantile(column, binderStart)), r.Scale)
	d.Most = onScale(quantity.Mass(evidence.Quantile(column, binderMost)), r.Scale)
	if d.Most > d.First {
		ratio := math.Log(float64(d.Most / d.First))
		n := math.Ceil(ratio / math.Log1p(binderGrowth))
		for i := range int(n) + 1 {
			total := onScale(d.First*quantity.Mass(math.Exp(ratio*float64(i)/n)), r.Scale)
			if k := len(d.Totals); k == 0 || total > d.Totals[k-1] {
				d.Totals = append(d.Totals, total)
			}
		}
	}
	inBinder := (GumBatch{Pours: []GumPour{{binder, 1}}})
	solution := (GumBatch{Pours: []GumPour{{r.Solution, 1}}})
	d.Gum = typical * inBinder.Weighed(material.Gum)
	d.Solution = d.Gum / solution.Weighed(material.Gum)
	d.Water = d.Solution * solution.Weighed(material.Water)
	return d
}

// batch is the paint at the typical values, as it was weighed; the water is in it
// where the request's means hold water.
func (r *WatercolourRequest) batch(binder Liquid, pt waterPoint, dry quantity.Mass) GumBatch {
	var b GumBatch
	var total quantity.Parts
	for i := range r.Pigments {
		total += r.Pigments[i].Parts
	}
	for i := range r.Pigments {
		b.Powders = append(b.Powders, GumPowder{r.Pigments[i].Ingredient, dry * quantity.Mass(r.Pigments[i].Parts/total)})
	}
	b = b.Plus(binder, pt.binder*dry)
	for i := range r.Additives {
		b = b.Plus(r.Additives[i].Liquid, pt.additives[i]*dry)
	}
	if w := (max(pt.water, 0) + pt.cake) * dry; w > 0 && r.Means.Water.Material != nil {
		b = b.Plus(r.Means.Water, w)
	}
	return b
}

// doseOf puts an additive beside its published use.
func doseOf(m *material.Material, share quantity.MassFraction, mass quantity.Mass) GumDose {
	d := GumDose{Material: m, Share: share, Mass: mass}
	for _, u := range m.UseLevel {
		if u.Aside != "" {
			continue
		}
		low, high := u.Low, u.High
		if u.Value > 0 {
			low, high = 0, u.Value // a single figure is the most
		}
		if d.High == 0 {
			d.Low, d.High, d.Source = low, high, u.Source
		}
	}
	return d
}

// UsualShare is the middle of an additive's published use, to two digits; false
// where none is known.
func UsualShare(m *material.Material) (quantity.MassFraction, bool) {
	d := doseOf(m, 0, 0)
	if d.High == 0 {
		return 0, false
	}
	middle := float64(d.High) / 2
	if d.Low > 0 {
		middle = math.Sqrt(float64(d.Low) * float64(d.High))
	}
	p := math.Pow(10, 1-math.Floor(math.Log10(middle)))
	return quantity.MassFraction(math.Round(middle*p) / p), true
}

// compositionOf lists a paint wet and dry.
func compositionOf(p Paint) []PaintLine {
	f := p.Figures()
	dry := f.Volume - f.VolatileVolume
	joined := Mixed(p) // one line a material and role
	out := make([]PaintLine, 0, len(joined.Components))
	for _, c := range joined.Components {
		l := PaintLine{ID: c.ID, Role: c.Role, Mass: c.Mass, Vol: c.Volume(),
			WetMass: quantity.MassFraction(share(float64(c.Mass), float64(f.Mass))),
			WetVol:  quantity.VolumeFraction(share(float64(c.Volume()), float64(f.Volume)))}
		if c.Role != Volatile {
			l.DryVol = quantity.VolumeFraction(share(float64(c.Volume()), float64(dry)))
		}
		out = append(out, l)
	}
	return out
}

// deepestPour is the largest pour that published practice has: see [gum.PanPours].
const deepestPour quantity.VolumeFraction = 0.5

// manyPours is more pours than makers like to give a pan: common practice.
const manyPours = 8

// fillVessels works out the pans: the asked sort, or every usual one.
func (res *WatercolourResult) fillVessels(yield evidence.Range[quantity.Volume], f Figures) error {
	req := &res.Request
	vessels := req.Vessels
	if req.Pans != nil {
		vessels = []PansAsked{*req.Pans}
	}
	for _, v := range vessels {
		pours, err := gum.PanPours(v.Brim, v.Fill, f.SolidsByVolume(), v.Deepest)
		if err != nil {
			if req.Pans == nil {
				continue
			}
			return err
		}
		p := PansFilled{Asked: v, Pours: pours, Count: vesselsFilled(yield, v.Brim, v.Fill)}
		if deeper, err := gum.PanPours(v.Brim, v.Fill, f.SolidsByVolume(), deepestPour); err == nil && v.Deepest < deepestPour {
			p.AtHalf = len(deeper)
		}
		for _, x := range pours {
			p.PourFor = append(p.PourFor, x.Wet.Mass(f.Density()))
		}
		res.Pans = append(res.Pans, p)
	}
	return nil
}

func (r *WatercolourRequest) materials() []*material.Material {
	var out []*material.Material
	for i := range r.Pigments {
		out = append(out, r.Pigments[i].Material)
	}
	out = append(out, r.Solution.Materials()...)
	for i := range r.Humectants {
		out = append(out, r.Humectants[i].Material)
	}
	for i := range r.Additives {
		out = append(out, r.Additives[i].Materials()...)
	}
	return once(out)
}

// once drops a material that stands in a list twice.
func once(list []*material.Material) []*material.Material {
	seen := map[string]bool{}
	var out []*material.Material
	for _, m := range list {
		if !seen[m.ID] {
			seen[m.ID] = true
			out = append(out, m)
		}
	}
	return out
}

// hypotheses names what is assumed and not known.
func (r *WatercolourRequest) hypotheses() []string {
	var out []string
	if r.Binding.Rule == BinderByDemand {
		out = append(out, demandHypothesis())
	}
	out = append(out, "the water is taken to be what makes as much liquid, by volume, as oil for the same body: hold some back",
		"all water is taken to leave: a real pan keeps a little and shrinks a little less")
	return out
}

// demandHypothesis says what the binder rests on.
func demandHypothesis() string {
	s := gum.Scale().Range()
	return fmt.Sprintf("how much gum a pigment takes is scaled from its oil absorption by volume, as %.2f (%.2f–%.2f) of that oil: linseed absorption is not water demand, and no published table by pigment was found; six published recipes span that range, and your rub and wash test decides",
		float64(s.Typical), float64(s.Low), float64(s.High))
}

// warnings are remarks on the numbers, not on health.
func (r *WatercolourRequest) warnings(res *WatercolourResult, pt waterPoint) []string {
	var out []string
	f := res.Paint.Figures()
	if f.ReducedPVC() > 1 {
		out = append(out, fmt.Sprintf("the dry film's PVC is %.2f of the critical PVC for oil: in gum that is no fault, the film is matt and porous; the rub test decides", float64(f.ReducedPVC())))
	}
	if pt.water < 0 {
		out = append(out, fmt.Sprintf("the binder alone brings more water than a %s body takes, so the paint starts thinner (body %.2f): use a stronger solution, or let it stand open", bodyName(r.Body), float64(f.Body())))
	}
	published := gum.HumectantRatios()
	low, high := published[0].Middle(), published[len(published)-1].Middle()
	switch {
	case res.Humectant < low:
		out = append(out, fmt.Sprintf("humectant is %.2f of the gum, below every published recipe (%.2f to %.2f)", float64(res.Humectant), float64(low), float64(high)))
	case res.Humectant > high:
		out = append(out, fmt.Sprintf("humectant is %.2f of the gum, above every published recipe (%.2f to %.2f): likely to stay sticky", float64(res.Humectant), float64(low), float64(high)))
	}
	for _, w := range res.Pigments {
		if w.Bulk != nil && w.Bulk.Basis == BulkEstimated {
			out = append(out, fmt.Sprintf("%s: its loose bulk density is estimated, within a factor of two and a half: weigh a level spoon", w.Material.Name))
		}
	}
	if s := gumStrength(r.Solution); s > 0.45 && s < 0.999 {
		out = append(out, fmt.Sprintf("a gum solution of %.0f %% is as thick as honey and slow to dissolve", 100*float64(s)))
	}
	for _, d := range res.Doses {
		if d.High > 0 && d.Share > d.High {
			out = append(out, say("%s: %.2g %% of the paint is above its published use of up to %.2g %%", d.Material.Name, 100*float64(d.Share), 100*float64(d.High)))
		}
		if d.Low > 0 && d.Share < d.Low {
			out = append(out, say("%s: %.2g %% of the paint is below its published use of at least %.2g %%", d.Material.Name, 100*float64(d.Share), 100*float64(d.Low)))
		}
	}
	if !r.preserved() {
		out = append(out, "no preservative: the wet paint moulds within days to weeks; keep it cold, pour and dry the pans at once")
	}
	if r.Pans != nil && len(res.Pans) > 0 && len(res.Pans[0].Pours) > manyPours {
		out = append(out, fmt.Sprintf("%d pours into each pan are many: by the hypothesis on water the paint leaves only %.0f %% of its volume. A stiffer paint needs fewer; so does one that stood open until it is as thick as cream",
			len(res.Pans[0].Pours), 100*float64(f.SolidsByVolume())))
	}
	if len(r.Pigments) > 1 {
		out = append(out, "demands are added by mass; powders of very unlike size pack closer and take less")
	}
	return out
}

func (r *WatercolourRequest) preserved() bool {
	for _, m := range r.materials() {
		if m.Kind == material.Preservative {
			return true
		}
	}
	return false
}

// gumStrength is the share of gum, as weighed, in a solution.
func gumStrength(l Liquid) quantity.MassFraction {
	return quantity.MassFraction((GumBatch{Pours: []GumPour{{l, 1}}}).Weighed(material.Gum))
}

func bodyName(s absorption.Step) string {
	if s.Name != "" {
		return s.Name
	}
	return fmt.Sprintf("%.2f", float64(s.Typical))
}

func (r *WatercolourRequest) validate() error {
	switch {
	case len(r.Pigments) == 0:
		return errors.New("no pigment given")
	case r.Solution.Material == nil:
		return errors.New("no gum given")
	case gumStrength(r.Solution) == 0:
		return fmt.Errorf("%s holds no gum", r.Solution.Material.ID)
	case negative(r.Scale):
		return errors.New("the scale division must not be negative")
	}
	if err := checkShares(r.Moisture, r.Loss); err != nil {
		return err
	}
	if err := checkPowders(r.Pigments); err != nil {
		return err
	}
	if err := checkHumectants(r.Humectants); err != nil {
		return err
	}
	if err := checkAdditives(r.Additives); err != nil {
		return err
	}
	if err := r.Binding.check(len(r.Pigments)); err != nil {
		return err
	}
	if r.Binding.Rule == BinderUndiluted {
		return errors.New("a watercolour's binder goes by demand, PVC or measure")
	}
	if b := r.Body.Typical; !(b >= absorption.LeastBody && b <= absorption.MostBody) {
		return fmt.Errorf("a body is a ratio from %g to %g", float64(absorption.LeastBody), float64(absorption.MostBody))
	}
	if p := r.Pans; p != nil {
		switch {
		case p.Count < 1 || p.Count > 10000:
			return errors.New("pans are given as a count from 1 to 10000 and a size")
		case !positive(p.Brim):
			return errors.New("a pan's volume is above nothing")
		case !(p.Fill > 0 && p.Fill <= gum.MostFill):
			return fmt.Errorf("a pan's fill is above 0 and up to %g %%", 100*float64(gum.MostFill))
		case !(p.Deepest > 0 && p.Deepest <= 1):
			return errors.New("a pour is above 0 and up to 100 % of the pan")
		}
		return nil
	}
	if r.Amount.Kind == ByOilMass {
		return errors.New("an amount of oil means nothing in gum")
	}
	return r.Amount.check()
}

// checkPowders refuses what cannot be the pigment of a paint in water.
func checkPowders(list []Share) error {
	seen := map[string]bool{}
	for i := range list {
		p := &list[i]
		if !p.Material.Kind.IsPigment() {
			return fmt.Errorf("%s (%s) cannot be the pigment", p.Material.ID, p.Material.Kind)
		}
		if seen[p.Material.ID] {
			return fmt.Errorf("%s is given twice; add its parts together", p.Material.ID)
		}
		seen[p.Material.ID] = true
		if !positive(p.Parts) {
			return fmt.Errorf("%s: parts must be above nothing", p.Material.ID)
		}
	}
	return nil
}

// checkHumectants refuses what is no humectant, or no ratio.
func checkHumectants(list []GumHumectant) error {
	for i := range list {
		h := &list[i]
		if h.Material.Kind != material.Humectant {
			return fmt.Errorf("%s (%s) cannot be the humectant", h.Material.ID, h.Material.Kind)
		}
		if !(h.Ratio > 0 && h.Ratio <= 10) {
			return fmt.Errorf("%s: a humectant's ratio to the gum is above 0 and up to 10", h.Material.ID)
		}
	}
	return nil
}

// checkAdditives refuses what does not belong in a few per cent of a paint.
func checkAdditives(list []GumAdditive) error {
	var sum quantity.MassFraction
	for i := range list {
		a := &list[i]
		switch a.Material.Kind {
		case material.WettingAgent, material.Preservative, material.Additive, material.Solvent, material.Humectant, material.Gum, material.Medium:
		default:
			return fmt.Errorf("%s (%s) cannot be a wetting agent or a preservative", a.Material.ID, a.Material.Kind)
		}
		if !(a.Share > 0) {
			return fmt.Errorf("%s: its share of the paint must be above 0", a.Material.ID)
		}
		sum += a.Share
	}
	if sum >= 0.25 {
		return refuse("wetting agent and preservative make up %.3g %% of the paint; under 25 %% is accepted", 100*float64(sum))
	}
	return nil
}
