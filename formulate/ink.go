package formulate

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"mullwright/formulate/evidence"
	"mullwright/formulate/film"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
	"mullwright/formulate/settling"
	"mullwright/formulate/trace"
)

// InkUse is the tool an ink is for.
type InkUse string

const (
	DipPen      InkUse = "dip-pen"
	BrushInk    InkUse = "brush"
	Fountain    InkUse = "fountain"
	ReliefPrint InkUse = "relief-print"
)

// A Tool is what is known of a tool: common practice, no sourced target was found.
type Tool struct {
	Use     InkUse
	Pigment quantity.VolumeFraction // of the ink, usual
	// Viscosity that suits it, low to high; 0: not known.
	Thin, Thick quantity.Viscosity
	Slit        quantity.Thickness // narrowest passage, 0: none
	Width       quantity.Length    // of a line, 0: it prints areas
	WetFilm     quantity.Thickness
}

// tools are the usual figures of each tool, all common practice. 6 % of pigment
// by volume is what one published ink sheet's 23 % by mass makes of a pigment of
// 4.5 g/ml.
var tools = []Tool{
	{DipPen, 0.06, 2, 20, 60, 0.05, 25},
	{BrushInk, 0.08, 2, 100, 0, 0.3, 30},
	{Fountain, 0.04, 1, 5, 20, 0.05, 15},
	{ReliefPrint, 0.12, 0, 0, 0, 0, 8},
}

// ToolBasis is what a tool's figures rest on.
const ToolBasis = "common practice: no sourced target was found"

// ToolFor finds a tool by its use.
func ToolFor(use InkUse) (Tool, error) {
	var names []string
	for _, t := range tools {
		if t.Use == use {
			return t, nil
		}
		names = append(names, string(t.Use))
	}
	return Tool{}, fmt.Errorf("%q is not a use; accepted: %s", use, strings.Join(names, ", "))
}

// InkUses lists the uses.
func InkUses() []InkUse {
	out := make([]InkUse, len(tools))
	for i, t := range tools {
		out[i] = t.Use
	}
	return out
}

// InkRequest is everything an ink asks, as understood.
type InkRequest struct {
	Tool Tool

	// Oil is the mull of an ink in drying oil; then only Tool and WetFilm count.
	Oil *MullRequest

	Pigments    []Share
	Solution    Liquid
	Humectants  []GumHumectant
	Additives   []GumAdditive
	Binding     Binding
	Wetness     Wetness
	Moisture    quantity.MassFraction
	Amount      Amount
	Loss        quantity.MassFraction
	Scale       quantity.Mass
	Temperature quantity.Celsius

	// Grain is what settles, as the maker gives it; zero: as GrainAfterMulling has it.
	Grain    evidence.Distribution[quantity.ParticleSize]
	Height   quantity.Length    // of ink in the bottle
	Slit     quantity.Thickness // narrowest passage, 0: none
	Width    quantity.Length    // of a line, 0: none
	WetFilm  quantity.Thickness
	Sampling Sampling
}

// InkSettling is how one pigment settles in the bottle.
type InkSettling struct {
	Material *material.Material
	Grain    evidence.Range[quantity.ParticleSize] // that settles
	Primary  Sizes                                 // published primary grain, zero: none
	// Clumped is set where clumps of the primary grain settle, not the grain itself.
	Clumped bool
	// Clear is the time for clear liquid over the whole height, Shake that until
	// the top tenth is clear.
	Clear, Shake evidence.Range[quantity.Duration]
	Speed        evidence.Range[quantity.Speed]
	// Brownian is the size below which single grains stay up for good.
	Brownian quantity.ParticleSize
}

// InkNib is what passes the tool.
type InkNib struct {
	Slit    quantity.Thickness
	Largest quantity.ParticleSize // that passes
	Bridges quantity.ParticleSize // from which grains bridge the slit
	Sieve   *settling.Sieve       // that takes out the coarse share, nil: none so fine
	// Levigate is the wait that leaves none larger in a depth of water; zero for a
	// pigment that does not sink.
	Levigate evidence.Range[quantity.Duration]
	Depth    quantity.Length
	Clogs    quantity.Ratio // chance that a middling grain is too large to pass freely
}

// InkFilm is what a line or an inked area takes.
type InkFilm struct {
	WetFilm     quantity.Thickness
	Width       quantity.Length
	PerArea     evidence.Range[quantity.MassPerArea] // pigment
	PerMetre    evidence.Range[quantity.Mass]        // pigment in a metre of line
	InkPerMetre quantity.Volume
	Metres      evidence.Range[quantity.Ratio] // of line from the batch
	Area        evidence.Range[quantity.Area]  // inked by the batch
}

// InkResult is the answer.
type InkResult struct {
	Request InkRequest
	Oil     *MullResult // of an ink in oil; then only Film is filled besides

	// Against says why the ink does not belong in its tool; empty: it may.
	Against []string

	Pigments    []GumWeigh
	Solution    GumWeigh // as poured
	SolutionGum quantity.Mass
	Water       evidence.Range[quantity.Mass]
	CakeWater   quantity.Mass
	Humectants  []GumWeigh
	Additives   []GumWeigh

	Figures         FigureRanges
	Yield           FigureYield
	Composition     []PaintLine
	PigmentByMass   evidence.Range[quantity.MassFraction]
	PigmentByVolume evidence.Range[quantity.VolumeFraction]
	Humectant       quantity.Ratio
	OfBinder        quantity.MassFraction
	Published       []evidence.Reading[quantity.Ratio]
	Doses           []GumDose
	// Wanted is the dry binder of the demand hypothesis over what is in.
	Wanted evidence.Range[quantity.Ratio]

	Vehicle  *evidence.Range[quantity.Viscosity]
	Ink      *evidence.Range[quantity.Viscosity]
	WhyNot   string                                // viscosity is not known
	Grain    evidence.Range[quantity.ParticleSize] // that settles, of the coarsest pigment
	Settling []InkSettling
	Nib      *InkNib
	Film     InkFilm

	Paint      Paint
	Muller     []MullerNote
	Hypotheses []string
	Cautions   []Caution
	Warnings   []string
	Steps      []trace.Step
}

// passes and bridges are the grain over the slit at which it still passes freely
// and at which it bridges: a seventh and a third.
const (
	passes  = 1.0 / 7
	bridges = 1.0 / 3
)

// Relations of an ink.
var (
	nibRelation  = trace.Relation{Name: "largest grain that passes freely", Equation: "d = slit/7; from slit/3 on grains bridge it", Source: "Abrams, J. Pet. Technol. 29 (1977) 586, for pores in rock, from memory; taken over for a slit"}
	lineRelation = trace.Relation{Name: "pigment in a metre of line", Equation: "m = c·w·h", Source: "definition"}
)

// PigmentPerMetre is the pigment in a metre of line: its concentration in the ink
// times the line's width times the wet film.
func PigmentPerMetre(perArea quantity.MassPerArea, width quantity.Length) quantity.Mass {
	return quantity.Mass(float64(perArea) * float64(width) / 100)
}

// Ink works out an ink.
func Ink(req InkRequest) (*InkResult, error) {
	if req.Oil != nil {
		return oilInk(req)
	}
	if err := req.validate(); err != nil {
		return nil, err
	}
	binder, err := BinderMix(req.Solution, req.Humectants)
	if err != nil {
		return nil, err
	}
	mix, err := newWaterMix(req.Pigments, binder, req.Additives, req.Binding, req.Wetness, req.Moisture)
	if err != nil {
		return nil, err
	}
	var tr trace.Tracer
	typical := mix.at(make([]float64, mix.inputs()), &tr)
	k := req.Amount.times(typical.paint.Figures(), typical.binder, req.Loss, req.Moisture)
	if err := mix.tooWet(typical, k); err != nil {
		return nil, err
	}
	if typical.water < 0 {
		return nil, errors.New("the binder alone brings more water than an ink of this strength holds: use a stronger solution, or ask for less pigment")
	}

	res := &InkResult{Request: req, Published: gum.HumectantRatios(), Grain: req.coarsest().Range()}
	var dry quantity.Mass
	res.Pigments, dry = pigmentsOnScale(req.Pigments, nil, req.Moisture, req.Scale, k)
	res.Paint = typical.paint.Scaled(quantity.Ratio(dry))
	noteFigures(&tr, res.Paint.Figures())
	d := mix.draw(req.Sampling, dry, req.Loss)
	res.Figures, res.Yield, res.Water, res.CakeWater = d.figures, d.yield, d.water, typical.cake*dry
	res.Composition = compositionOf(res.Paint)
	res.weigh(binder, typical, dry, d)
	res.shares()
	vehicle, err := res.viscosity(binder, typical, &tr)
	if err != nil {
		return nil, err
	}
	if err := res.settle(vehicle, &tr); err != nil {
		return nil, err
	}
	if err := res.nib(&tr); err != nil {
		return nil, err
	}
	if res.Film, err = inkFilm(&req, res.Figures.PigmentMass, res.Figures.Volume, res.Yield.Volume, &tr); err != nil {
		return nil, err
	}
	res.Against = res.against()
	for i := range req.Pigments {
		res.Muller = append(res.Muller, mullerNote(req.Pigments[i].Material))
	}
	res.Cautions = Cautions(DryPowder|InWater|Kept, req.materials()...)
	res.Hypotheses = req.hypotheses()
	res.Warnings = res.warnings()
	res.Steps = tr.Steps()
	return res, nil
}

// oilInk is an ink for block printing: the paste of the oil mull.
func oilInk(req InkRequest) (*InkResult, error) {
	m, err := Mull(*req.Oil)
	if err != nil {
		return nil, err
	}
	res := &InkResult{Request: req, Oil: m, Figures: m.Figures, Yield: m.Yield}
	if res.Film, err = inkFilm(&req, m.Figures.PigmentMass, m.Figures.Volume, m.Yield.Volume, nil); err != nil {
		return nil, err
	}
	if req.Tool.Use != ReliefPrint {
		res.Against = []string{fmt.Sprintf("ink in oil is a paste for rolling out and printing: it does not flow from a %s", req.Tool.Use)}
	}
	res.Steps = m.Steps
	return res, nil
}

// weigh lists solution, humectants and additives.
func (res *InkResult) weigh(binder Liquid, typical waterPoint, dry quantity.Mass, d waterDraws) {
	req := &res.Request
	binderMass := rangeOf[quantity.Mass](d.binder)
	base := bindingShare(binder)
	ofSolution := quantity.Ratio(base / bindingShare(req.Solution))
	res.Solution = GumWeigh{Material: req.Solution.Material, Role: Binder, Mass: binderMass.Times(ofSolution), OnScale: onScale(typical.binder*dry*quantity.Mass(ofSolution), req.Scale)}
	res.SolutionGum = typical.binder * dry * quantity.Mass(base)
	res.Humectants = weighHumectants(req.Humectants, binder, typical.binder*dry, binderMass, req.Scale)
	res.Additives, res.Doses = weighAdditives(req.Additives, typical, dry, d.additives, req.Scale)
	res.Humectant, res.OfBinder = humectantIn(binder)
	// What the hypothesis would have put in.
	s := gum.Scale().Range()
	in := res.Paint.Figures()
	oil := float64(typical.oil) * float64(dry) / float64(in.BinderVolume+in.AdditiveVolume)
	res.Wanted = s.Times(quantity.Ratio(oil))
}

// shares are the pigment's shares of the ink.
func (res *InkResult) shares() {
	f := res.Figures
	res.PigmentByVolume = f.WetPigment
	res.PigmentByMass = evidence.Range[quantity.MassFraction]{
		Low:     quantity.MassFraction(f.PigmentMass.Typical / f.Mass.High),
		Typical: quantity.MassFraction(f.PigmentMass.Typical / f.Mass.Typical),
		High:    quantity.MassFraction(f.PigmentMass.Typical / f.Mass.Low),
	}
}

// viscosity works out vehicle and ink and returns the liquid the grains fall in.
// Where the vehicle's viscosity is unknown that of water stands in, and the
// settling is the fastest it can be.
func (res *InkResult) viscosity(binder Liquid, pt waterPoint, tr *trace.Tracer) (inkVehicle, error) {
	req := &res.Request
	f := res.Paint.Figures()
	v := inkVehicle{density: quantity.Density(float64(f.Mass-f.PigmentMass) / float64(f.Volume-f.PigmentVolume)), solids: f.WetPigment()}
	r, why := viscosityOf(binder, pt.binder, pt.cake+max(pt.water, 0), req.Temperature, tr)
	if why != "" {
		res.WhyNot = why
		water, err := waterAt(req.Temperature, tr)
		if err != nil {
			return v, err
		}
		v.viscosity = evidence.Distribution[quantity.Viscosity]{Median: water.Viscosity}
		return v, nil
	}
	res.Vehicle = &r
	v.viscosity = evidence.Distribution[quantity.Viscosity]{Median: r.Typical, Sigma: evidence.Reading[quantity.Viscosity]{Low: r.Low, High: r.High}.LogSpread()}
	ink, err := rheology.SuspensionRange(r, v.solids, f.CPVC())
	if err != nil {
		res.WhyNot = err.Error()
		return v, nil
	}
	res.Ink = &ink
	if tr.On() {
		tr.Note(rheology.SuspensionRelation, "ink", trace.T("η", ink.Typical, "mPa·s"), trace.T("ηvehicle", r.Typical, "mPa·s"), trace.T("φ", v.solids, ""), trace.T("φm", f.CPVC(), ""), trace.T("[η]", rheology.IntrinsicViscosity().Median, ""))
	}
	return v, nil
}

// inkVehicle is the liquid that grains fall in.
type inkVehicle struct {
	density   quantity.Density
	viscosity evidence.Distribution[quantity.Viscosity]
	solids    quantity.VolumeFraction
}

// topShare is the share of the bottle's height that may clear before it is
// shaken: common practice.
const topShare = 0.1

// settle works out each pigment's fall in the bottle. Draws: the pigment's
// density, the index of hindered settling, the grain and the vehicle.
func (res *InkResult) settle(v inkVehicle, tr *trace.Tracer) error {
	req := &res.Request
	for i := range req.Pigments {
		p := &req.Pigments[i]
		grain := req.grain(p.Material)
		fall := func(z []float64) (quantity.Speed, error) {
			pt := fallPoint{density: p.Density.At(z[0]), index: hinderedIndex(z[1]), solids: v.solids,
				liquid: settling.Liquid{Density: v.density, Viscosity: v.viscosity.At(z[3])}}
			return pt.speed(grain.At(z[2]))
		}
		typical, err := fall(make([]float64, 4))
		if err != nil {
			return err
		}
		out := InkSettling{Material: p.Material, Grain: grain.Range(), Primary: PrimaryGrain(p.Material), Clumped: !coarserThanClumps(p.Material)}
		if typical <= 0 {
			res.Settling = append(res.Settling, out) // as light as its vehicle: it stays
			continue
		}
		columns := req.Sampling.run(4, 2, func() func(z, out []float64) {
			return func(z, out []float64) {
				s, err := fall(z)
				if err != nil || s <= 0 {
					s = typical // a draw as light as the vehicle: the typical grain stands in
				}
				t, err := settling.FallTime(req.Height, s)
				if err != nil {
					t = 0
				}
				out[0], out[1] = float64(s), float64(t)
			}
		})
		out.Speed, out.Clear = rangeOf[quantity.Speed](columns[0]), rangeOf[quantity.Duration](columns[1])
		out.Shake = out.Clear.Times(topShare)
		if out.Brownian, err = settling.BrownianLimit(req.Height, p.Density.Median, v.density, req.Temperature); err != nil {
			return err
		}
		res.Settling = append(res.Settling, out)
		if tr.On() {
			tr.Note(settling.HinderedRelation, p.Material.ID, trace.T("vh", typical, "m/s"), trace.T("d", grain.Median, "µm"), trace.T("ρp", p.Density.Median, "g/ml"), trace.T("ρ", v.density, "g/ml"), trace.T("µ", v.viscosity.Median, "mPa·s"), trace.T("φ", v.solids, ""), trace.T("n", hinderedIndex(0), ""))
			tr.Note(settling.FallTimeRelation, p.Material.ID, trace.T("t", out.Clear.Typical, "s"), trace.T("h", req.Height, "cm"), trace.T("v", typical, "m/s"))
		}
	}
	return nil
}

// A levigation jar: common practice.
const (
	washDepth  quantity.Length       = 10
	washPowder quantity.MassFraction = 0.05
)

// nib works out what passes the tool's narrowest place.
func (res *InkResult) nib(tr *trace.Tracer) error {
	req := &res.Request
	if req.Slit == 0 {
		return nil
	}
	n := &InkNib{Slit: req.Slit, Largest: quantity.ParticleSize(req.Slit) * passes, Bridges: quantity.ParticleSize(req.Slit) * bridges, Depth: washDepth}
	if tr.On() {
		tr.Note(nibRelation, "nib", trace.T("d", n.Largest, "µm"), trace.T("slit", req.Slit, "µm"))
	}
	if s, err := settling.SieveHolding(n.Largest); err == nil {
		n.Sieve = &s
	}
	// The lightest pigment falls slowest: its wait serves them all.
	lightest := &req.Pigments[0]
	for i := range req.Pigments {
		if req.Pigments[i].Density.Median < lightest.Density.Median {
			lightest = &req.Pigments[i]
		}
	}
	if lightest.Density.Median > waterDensity {
		wait, err := Settle(SettleRequest{Name: lightest.Material.Name, Material: lightest.Material, Density: lightest.Density, Cut: n.Largest, Depth: washDepth,
			Powder: washPowder, Washes: 1, Temperature: req.Temperature, Sampling: req.Sampling})
		if err != nil {
			return err
		}
		n.Levigate = wait.Time
	}
	grain := req.coarsest()
	above := math.Log(float64(n.Largest/grain.Median)) / math.Max(grain.Sigma, 1e-9)
	n.Clogs = quantity.Ratio(0.5 * math.Erfc(above/math.Sqrt2))
	res.Nib = n
	return nil
}

// inkFilm is what a line or an area takes.
func inkFilm(req *InkRequest, pigment evidence.Range[quantity.Mass], made, use evidence.Range[quantity.Volume], tr *trace.Tracer) (InkFilm, error) {
	f := InkFilm{WetFilm: req.WetFilm, Width: req.Width}
	rate, err := film.SpreadingRate(req.WetFilm)
	if err != nil {
		return f, err
	}
	perArea := func(v quantity.Volume) quantity.MassPerArea {
		return film.MassPerArea(req.WetFilm, quantity.Density(float64(pigment.Typical)/float64(v)))
	}
	f.PerArea = evidence.Falling(made, perArea)
	f.Area = evidence.Rising(use, func(v quantity.Volume) quantity.Area { return film.Coverage(v, rate) })
	tr.Note(film.MassPerAreaRelation, "pigment", trace.T("m/A", f.PerArea.Typical, "g/m²"), trace.T("WFT", req.WetFilm, "µm"), trace.T("ρ", float64(pigment.Typical)/float64(made.Typical), "g/ml"))
	if req.Width == 0 {
		return f, nil
	}
	f.PerMetre = evidence.Rising(f.PerArea, func(a quantity.MassPerArea) quantity.Mass { return PigmentPerMetre(a, req.Width) })
	metre := quantity.Area(float64(req.Width) / 100)
	f.InkPerMetre = film.FilmVolume(metre, req.WetFilm)
	f.Metres = evidence.Rising(f.Area, func(a quantity.Area) quantity.Ratio { return quantity.Ratio(a / metre) })
	tr.Note(lineRelation, "line", trace.T("m", f.PerMetre.Typical, "g"), trace.T("c", float64(pigment.Typical)/float64(made.Typical), "g/ml"), trace.T("w", req.Width, "cm"), trace.T("h", req.WetFilm, "µm"))
	return f, nil
}

// against says why an ink does not belong in its tool.
func (res *InkResult) against() []string {
	req := &res.Request
	switch req.Tool.Use {
	case Fountain:
		out := []string{
			"an ink of pigment and gum or shellac does not belong in a fountain pen: it dries in the feed, does not dissolve again there and blocks it for good",
			say("grains of %.2g µm settle in the feed whenever the pen rests", float64(req.coarsest().Median)),
			"fountain pen inks are dyes, or pigment ground and guarded far finer than a muller can; they want a surface tension of about 38 to 45 mN/m, which this recipe does not control",
			"use it in a dip pen or a brush: the recipe is as good for those",
		}
		return out
	case ReliefPrint:
		return []string{"ink in water beads on a roller and dries on the block: it prints only in the water-based manner, brushed on the block and rubbed off on damp paper; for a roller use drying oil"}
	}
	return nil
}

func (r *InkRequest) materials() []*material.Material {
	w := WatercolourRequest{Pigments: r.Pigments, Solution: r.Solution, Humectants: r.Humectants, Additives: r.Additives}
	return w.materials()
}

func (r *InkRequest) hypotheses() []string {
	out := []string{fmt.Sprintf("the tool's figures (pigment share, viscosity, slit, line, wet film) are %s", ToolBasis)}
	if r.Binding.Rule == BinderByDemand {
		out = append(out, demandHypothesis())
	}
	if !r.Grain.Known() {
		out = append(out, fmt.Sprintf("the grains that settle are taken as clumps of %g to %g µm after mulling (common practice), or as the primary grain where that is known to be coarser: look through a loupe or a grind gauge and give yours", float64(clumps.Low), float64(clumps.High)))
	}
	return append(out, "settling is reckoned for grains that keep apart: clotted ink falls far faster, and colloids guarded by gum (carbon most) defy it and may stay up for months")
}

func (res *InkResult) warnings() []string {
	req := &res.Request
	var out []string
	if res.WhyNot != "" {
		out = append(out, "viscosity is not known: "+res.WhyNot)
		if res.Vehicle == nil {
			out = append(out, "the settling is worked out as in water: really it is slower")
		}
	}
	if t := req.Tool; res.Ink != nil && t.Thick > 0 {
		switch {
		case res.Ink.Typical < t.Thin:
			out = append(out, fmt.Sprintf("thinner than usual for a %s (%g to %g mPa·s, %s): it may drip", t.Use, float64(t.Thin), float64(t.Thick), ToolBasis))
		case res.Ink.Typical > t.Thick:
			out = append(out, fmt.Sprintf("thicker than usual for a %s (%g to %g mPa·s, %s): it may not flow", t.Use, float64(t.Thin), float64(t.Thick), ToolBasis))
		}
	}
	for _, x := range res.Settling {
		if req.Grain.Known() && x.Primary.Low > x.Grain.High {
			out = append(out, say("%s: its published primary grain of %g to %g µm is coarser than the %.2g µm given; clumps are no smaller than their grains, so this is another grade or a finer one", x.Material.Name, float64(x.Primary.Low), float64(x.Primary.High), float64(req.Grain.Median)))
		}
	}
	if n := res.Nib; n != nil && n.Clogs > 0.05 {
		out = append(out, say("the slit passes grains up to %.2g µm freely: mull finer, or take the coarse share out", float64(n.Largest)))
	}
	if req.Binding.Rule == BinderUndiluted {
		w := res.Wanted
		switch {
		case w.Low > 1:
			out = append(out, "by the gum demand hypothesis this vehicle binds too little for the pigment: it may rub off")
		case w.High < 1:
			out = append(out, "by the gum demand hypothesis this vehicle binds more than the pigment takes: it may dry shiny or crack")
		}
	}
	if len(res.Doses) == 0 && gumStrength(req.Solution) > 0 {
		out = append(out, "no preservative: ink in gum moulds within weeks")
	}
	for _, d := range res.Doses {
		if d.High > 0 && d.Share > d.High {
			out = append(out, say("%s: %.2g %% of the ink is above its published use of up to %.2g %%", d.Material.Name, 100*float64(d.Share), 100*float64(d.High)))
		}
	}
	return out
}

func (r *InkRequest) validate() error {
	switch {
	case len(r.Pigments) == 0:
		return errors.New("no pigment given")
	case r.Solution.Material == nil || bindingShare(r.Solution) == 0:
		return errors.New("no binder given: a gum or a resin in water")
	case negative(r.Scale):
		return errors.New("the scale division must not be negative")
	case math.IsNaN(float64(r.Grain.Median)) || r.Grain.Median < 0 || r.Grain.Median > 1000:
		return errors.New("the grain size after mulling is above nothing and up to 1 mm")
	case !(r.Height > 0 && r.Height < 1000):
		return errors.New("the height of ink in the bottle is above nothing")
	case !(r.WetFilm > 0) || negative(r.Slit) || negative(r.Width):
		return errors.New("wet film, slit and line width must not be negative, and the film above nothing")
	}
	if err := checkShares(r.Moisture, r.Loss); err != nil {
		return err
	}
	if p := r.Wetness.Pigment; r.Wetness.ByMass == 0 && !(p > 0 && p <= 0.5) {
		return errors.New("pigment is above 0 and up to 50 % of an ink's volume")
	}
	if p := r.Wetness.ByMass; p < 0 || p > 0.8 {
		return errors.New("pigment is above 0 and up to 80 % of an ink's mass")
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
	if r.Binding.Rule == BinderByMeasure {
		return errors.New("an ink's binder goes by demand, PVC or an undiluted solution")
	}
	if err := r.Binding.check(len(r.Pigments)); err != nil {
		return err
	}
	if r.Amount.Kind == ByOilMass {
		return errors.New("an amount of oil means nothing in water")
	}
	return r.Amount.check()
}
