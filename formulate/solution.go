package formulate

import (
	"errors"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
	"mullwright/formulate/trace"
)

// SolutionRequest asks for a stock solution or a made-up medium.
type SolutionRequest struct {
	Solution    Liquid
	Humectants  []GumHumectant
	Additives   []GumAdditive // preservative, of the whole
	Amount      Amount        // by mass or by volume
	Temperature quantity.Celsius
	Scale       quantity.Mass
}

// SolutionPart is one thing to weigh for a solution.
type SolutionPart struct {
	Material *material.Material
	Mass     quantity.Mass
	OnScale  quantity.Mass
	Share    quantity.MassFraction // of the whole, as weighed
}

// SolutionResult is the answer.
type SolutionResult struct {
	Request SolutionRequest
	Parts   []SolutionPart
	Mass    quantity.Mass
	Volume  quantity.Volume
	Density quantity.Density
	// Gum is the share of gum or resin as weighed; Dry what is left of all of it.
	Gum quantity.MassFraction
	Dry quantity.MassFraction
	// PerWater is gum or resin for 100 ml of water.
	PerWater quantity.Mass
	// Humectant to gum by mass as weighed, and of what dries.
	Humectant      quantity.Ratio
	HumectantOfDry quantity.MassFraction
	Published      []evidence.Reading[quantity.Ratio]
	// Viscosity is known for gum arabic in water with or without glycerine.
	Viscosity *evidence.Range[quantity.Viscosity]
	WhyNot    string // it is not known
	Doses     []GumDose

	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// Solution works out a stock solution.
func Solution(req SolutionRequest) (*SolutionResult, error) {
	if err := req.check(); err != nil {
		return nil, err
	}
	base := req.Solution
	var err error
	if len(req.Humectants) > 0 {
		if base, err = BinderMix(req.Solution, req.Humectants); err != nil {
			return nil, err
		}
	}
	// Additives are shares of the whole.
	parts := append([]LiquidPart(nil), base.Parts...)
	var rest quantity.MassFraction = 1
	for i := range req.Additives {
		rest -= req.Additives[i].Share
	}
	for i := range parts {
		parts[i].Share *= rest
	}
	for i := range req.Additives {
		for _, p := range req.Additives[i].Parts {
			p.Share *= req.Additives[i].Share
			parts = append(parts, p)
		}
	}
	whole, err := NewLiquid(base.Material, parts)
	if err != nil {
		return nil, err
	}
	res := &SolutionResult{Request: req, Published: gum.HumectantRatios()}
	unit := (GumBatch{Pours: []GumPour{{whole, 1}}}).Paint()
	f := unit.Figures()
	res.Density = f.Density()
	res.Mass = req.Amount.Mass
	if req.Amount.Kind == ByPaintVolume {
		res.Mass = req.Amount.Volume.Mass(res.Density)
	}
	res.Volume = res.Mass.Volume(res.Density)
	res.Dry = f.SolidsByMass()
	res.HumectantOfDry = quantity.MassFraction(share(float64(f.AdditiveMass), float64(f.AdditiveMass+f.BinderMass)))
	batch := GumBatch{Pours: []GumPour{{whole, res.Mass}}}
	for _, p := range whole.Parts {
		m := res.Mass * quantity.Mass(p.Share)
		res.Parts = append(res.Parts, SolutionPart{Material: p.Material, Mass: m, OnScale: onScale(m, req.Scale), Share: p.Share})
	}
	res.Gum = bindingShare(whole)
	if water := batch.Weighed(material.Water); water > 0 {
		res.PerWater = res.Mass * quantity.Mass(res.Gum) / quantity.Mass(water.Volume(waterDensity)) * 100
	}
	res.Humectant = batch.HumectantRatio()
	var tr trace.Tracer
	res.viscosity(whole, &tr)
	for i := range req.Additives {
		a := &req.Additives[i]
		d := doseOf(a.Material, a.Share, res.Mass*quantity.Mass(a.Share))
		res.Doses = append(res.Doses, d)
		if d.High > 0 && a.Share > d.High {
			res.Warnings = append(res.Warnings, say("%s: %.2g %% is above its published use of up to %.2g %%", a.Material.Name, 100*float64(a.Share), 100*float64(d.High)))
		}
	}
	mats := whole.Materials()
	res.Cautions = Cautions(InWater|Kept|dustOf(mats), mats...)
	res.Steps = tr.Steps()
	return res, nil
}

// dustOf says whether a loose powder is handled.
func dustOf(list []*material.Material) Setting {
	for _, m := range list {
		if m.Kind == material.Gum || m.Kind.IsPigment() {
			return DryPowder
		}
	}
	return 0
}

// vehicleViscosity is the viscosity of gum arabic in water and glycerine. Gum is
// taken by its share of gum and water alone, times what the glycerine does to the
// water: the two effects are taken as independent, which no source was found for.
var vehicleRelation = trace.Relation{
	Name:     "viscosity of gum in water and glycerine",
	Equation: "η = ηgum(w, t)·ηglycerine water(c, t)/ηwater(t)",
	Source:   "the two effects taken as independent: common practice, no measurement found",
}

// gumVehicleViscosity is the viscosity of a vehicle whose gum, glycerine and
// water are given by mass, as weighed.
func gumVehicleViscosity(gumMass, glycerine, water quantity.Mass, t quantity.Celsius, tr *trace.Tracer) (evidence.Range[quantity.Viscosity], error) {
	var out evidence.Range[quantity.Viscosity]
	w := quantity.MassFraction(gumMass / (gumMass + water))
	thick, err := rheology.GumArabic(w, t)
	if err != nil {
		return out, err
	}
	c := quantity.MassFraction(glycerine / (glycerine + water))
	wet, err := rheology.GlycerineViscosity(c, t)
	if err != nil {
		return out, err
	}
	plain, err := rheology.GlycerineViscosity(0, t)
	if err != nil {
		return out, err
	}
	if tr.On() {
		tr.Note(rheology.GumArabicRelation, "vehicle", trace.T("ηgum", thick, "mPa·s"), trace.T("w", w, ""), trace.T("t", t, "°C"))
		tr.Note(rheology.GlycerineViscosityRelation, "vehicle", trace.T("ηglycerine water", wet, "mPa·s"), trace.T("C", c, ""), trace.T("t", t, "°C"))
	}
	v := thick * wet / plain
	if tr.On() {
		tr.Note(vehicleRelation, "vehicle", trace.T("η", v, "mPa·s"), trace.T("ηgum", thick, "mPa·s"), trace.T("ηglycerine water", wet, "mPa·s"), trace.T("ηwater", plain, "mPa·s"))
	}
	grade := rheology.GumGrade()
	if gumMass == 0 {
		grade.Median, grade.Sigma = 1, 0
	}
	r := grade.Range()
	out.Low, out.Typical, out.High = v*quantity.Viscosity(r.Low), v*quantity.Viscosity(r.Typical), v*quantity.Viscosity(r.High)
	return out, nil
}

// viscosity works out that of a gum arabic solution, or says why it is unknown.
func (res *SolutionResult) viscosity(l Liquid, tr *trace.Tracer) {
	v, why := viscosityOf(l, 1, 0, res.Request.Temperature, tr)
	if why != "" {
		res.WhyNot = why
		return
	}
	res.Viscosity = &v
}

// The materials whose solutions are tabulated.
const (
	gumArabic = "gum-arabic"
	glycerol  = "glycerine"
)

// viscosityOf is the viscosity of a mass of a liquid of gum arabic, glycerine and
// water, and more water added to it; small shares of anything else are passed
// over. The text says why it is not known.
func viscosityOf(l Liquid, mass, water quantity.Mass, t quantity.Celsius, tr *trace.Tracer) (evidence.Range[quantity.Viscosity], string) {
	var gumMass, glycerine, other quantity.Mass
	for _, p := range l.Parts {
		m := mass * quantity.Mass(p.Share)
		switch {
		case p.Material.ID == gumArabic:
			gumMass += m
		case p.Material.ID == glycerol:
			glycerine += m
		case p.Material.Kind == material.Water:
			water += m
		default:
			other += m
		}
	}
	const passOver = 0.05
	switch {
	case other > passOver*(gumMass+glycerine+water+other):
		return evidence.Range[quantity.Viscosity]{}, "published tables hold gum arabic, glycerine and water only"
	case water == 0:
		return evidence.Range[quantity.Viscosity]{}, "there is no water in it"
	}
	v, err := gumVehicleViscosity(gumMass, glycerine, water, t, tr)
	if err != nil {
		return v, err.Error()
	}
	return v, ""
}

func (r *SolutionRequest) check() error {
	if len(r.Solution.Parts) == 0 {
		return errors.New("nothing to dissolve given")
	}
	if err := checkHumectants(r.Humectants); err != nil {
		return err
	}
	if err := checkAdditives(r.Additives); err != nil {
		return err
	}
	if math.IsNaN(float64(r.Scale)) || r.Scale < 0 {
		return errors.New("the scale division must not be negative")
	}
	if r.Amount.Kind != ByPaintMass && r.Amount.Kind != ByPaintVolume {
		return errors.New("the amount is a mass or a volume")
	}
	return r.Amount.check()
}
