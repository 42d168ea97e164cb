package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
	"mullwright/formulate/trace"
)

// TrueDensityRequest is a powder sunk in a liquid, weighed in a pyknometer or
// read in a measuring cylinder.
type TrueDensityRequest struct {
	Pigment *material.Material // nil where it was not named
	// Unlisted is set where the maker named a jar that no catalogue holds.
	Unlisted bool
	// Pyknometer or, where that is nil, Cylinder. The pyknometer's liquid is set
	// from Liquid here.
	Pyknometer  *powders.Pyknometer
	Cylinder    *powders.Displacement
	Liquid      *material.Material // of the pyknometer
	OwnLiquid   evidence.Estimate[quantity.Density]
	Temperature quantity.Celsius
	// Within is how far the temperature may lie off.
	Within quantity.Celsius
}

// TrueDensityResult is the answer.
type TrueDensityResult struct {
	Request   TrueDensityRequest
	Density   evidence.Estimate[quantity.Density]
	Low, High quantity.Density                    // 95 %
	Liquid    evidence.Estimate[quantity.Density] // zero for a cylinder
	Published evidence.Range[quantity.Density]    // zero where none is known
	Standing  Standing
	Cautions  []Caution
	Warnings  []string
	Steps     []trace.Step
}

// warmPerKelvin is how much of its density a liquid loses for a kelvin, where
// only its density at 20 °C is known: 0.0007 (oils) to 0.0011 (spirit).
// Basis: common practice.
const warmPerKelvin = 0.001

// PowderDensity works a displacement out.
func PowderDensity(req TrueDensityRequest) (*TrueDensityResult, error) {
	res := &TrueDensityResult{Request: req, Cautions: req.cautions()}
	if req.Pigment != nil {
		if err := aPowder(req.Pigment); err != nil {
			return nil, err
		}
	}
	var tr trace.Tracer
	var err error
	switch {
	case req.Pyknometer != nil:
		if res.Liquid, err = req.liquid(&tr); err != nil {
			return nil, err
		}
		p := *req.Pyknometer
		p.Liquid = res.Liquid
		if res.Density, err = p.Density(); err != nil {
			return nil, err
		}
		tr.Note(powders.PyknometerRelation, "powder", trace.T("ρ", res.Density.Value, "g/ml"), trace.T("ρl", p.Liquid.Value, "g/ml"),
			trace.T("m₁", p.Empty, "g"), trace.T("m₂", p.Powder, "g"), trace.T("m₃", p.Topped, "g"), trace.T("m₄", p.Full, "g"))
	case req.Cylinder != nil:
		c := *req.Cylinder
		if res.Density, err = c.Density(); err != nil {
			return nil, err
		}
		tr.Note(powders.DisplacementRelation, "powder", trace.T("ρ", res.Density.Value, "g/ml"), trace.T("m", c.Powder.Value, "g"),
			trace.T("V₁", c.Before.Value, "ml"), trace.T("V₂", c.After.Value, "ml"))
	default:
		return nil, errors.New("no weighings given")
	}
	half, err := res.Density.Expanded(intervalConfidence)
	if err != nil {
		return nil, err
	}
	res.Low, res.High = max(res.Density.Value-half, 0), res.Density.Value+half
	tr.Note(evidence.PropagateRelation, "powder", trace.T("u(ρ)", res.Density.U, "g/ml"))
	if err := res.believable(); err != nil {
		return nil, err
	}
	res.compare()
	res.Warnings = res.warnings()
	res.Steps = tr.Steps()
	return res, nil
}

// Densities between which a powder is believed: the pigments of the catalogue lie
// between 1.3 and 9.7 g/ml.
const (
	lightestPowder quantity.Density = 1
	heaviestPowder quantity.Density = 12
)

func (res *TrueDensityResult) believable() error {
	switch d := res.Density.Value; {
	case d <= res.Liquid.Value:
		return refuse("that is %.3g g/ml, no denser than the liquid, in which the powder would not sink: check the weighings", float64(d))
	case d < lightestPowder || d > heaviestPowder:
		return refuse("that is %.3g g/ml, outside the %g to %g of any pigment: check the weighings", float64(d), float64(lightestPowder), float64(heaviestPowder))
	}
	return nil
}

func (r *TrueDensityRequest) cautions() []Caution {
	if r.Liquid == nil {
		return powderCautions(DryPowder, r.Pigment)
	}
	when := DryPowder
	switch r.Liquid.Kind {
	case material.Oil:
		when |= InOil
	case material.Solvent:
		when |= WithSolvent
	}
	return powderCautions(when, r.Pigment, r.Liquid)
}

// liquid is its density at the temperature with what is not known of it.
func (r *TrueDensityRequest) liquid(tr *trace.Tracer) (evidence.Estimate[quantity.Density], error) {
	if r.OwnLiquid.Value > 0 {
		return r.OwnLiquid, nil
	}
	if r.Liquid == nil {
		return evidence.Estimate[quantity.Density]{}, errors.New("the liquid is not known")
	}
	if r.Liquid.Kind == material.Water {
		return waterEstimate(r.Temperature, r.Within, tr)
	}
	d := r.Liquid.DensityDistribution()
	if !d.Known() {
		return evidence.Estimate[quantity.Density]{}, fmt.Errorf("%s: no density is known; weigh the full flask and give the liquid's density", r.Liquid.ID)
	}
	// Known at 20 °C: what the temperature does to it is uncertainty here.
	own := quantity.Density(d.Sigma) * d.Median
	away := math.Abs(float64(r.Temperature)-20) + float64(r.Within)
	drift := evidence.Rectangular(d.Median * quantity.Density(warmPerKelvin*away))
	return evidence.Given(d.Median, evidence.RootSum(own, drift)), nil
}

// waterEstimate is water at a temperature known to within a span either way.
func waterEstimate(t, within quantity.Celsius, tr *trace.Tracer) (evidence.Estimate[quantity.Density], error) {
	var none evidence.Estimate[quantity.Density]
	at, err := rheology.WaterDensity(t)
	if err != nil {
		return none, err
	}
	tr.Note(rheology.WaterDensityRelation, "water", trace.T("ρ", at, "g/ml"), trace.T("t", t, "°C"))
	colder, err := rheology.WaterDensity(max(t-within, rheology.WaterFreezes))
	if err != nil {
		return none, err
	}
	warmer, err := rheology.WaterDensity(min(t+within, rheology.WaterBoils))
	if err != nil {
		return none, err
	}
	return evidence.Given(at, evidence.Rectangular(max(colder-at, at-colder, at-warmer, warmer-at))), nil
}

func (res *TrueDensityResult) compare() {
	p := res.Request.Pigment
	if p == nil {
		return
	}
	d := p.DensityDistribution()
	if !d.Known() {
		return
	}
	res.Published = d.Range()
	switch {
	case res.High < res.Published.Low:
		res.Standing = Below
	case res.Low > res.Published.High:
		res.Standing = Above
	default:
		res.Standing = Within
	}
}

func (res *TrueDensityResult) warnings() []string {
	out := []string{"air that clings to the powder makes it come out too light: wet it with a drop of spirit or soap, stir, wait, tap, and take the highest of three (common practice)"}
	if l := res.Request.Liquid; l != nil && l.Kind == material.Water {
		out = append(out, "use water only for a powder that does not dissolve or swell in it; for others take an oil or white spirit")
	}
	if u := float64(res.Density.U / res.Density.Value); u > 0.03 {
		out = append(out, say("weighing and reading leave %.2g %% of it uncertain: take more powder, or a smaller vessel", 100*u))
	}
	if r := res.Request; r.Pyknometer != nil && r.Liquid != nil && r.Liquid.Kind != material.Water && r.OwnLiquid.Value == 0 && r.Temperature != 20 {
		out = append(out, fmt.Sprintf("the density of %s is known at 20 °C only; the other temperature is taken in as uncertainty. Better weigh the flask full of water too and work out the liquid's own density", r.Liquid.Name))
	}
	return out
}
