package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// FinenessRequest is what was found of a powder's or a paste's fineness: a
// reading of the grind gauge, what stayed on a sieve, how far a stirred jar had
// cleared. At least one is given.
type FinenessRequest struct {
	Pigment *material.Material // nil where it was not named
	Gauge   quantity.ParticleSize
	Hegman  powders.Hegman
	ByScale bool // the gauge was read in Hegman, which may be 0
	Sieve   *SieveTest
	Settled *SettleRequest // with Time and Depth
}

// SieveTest is a powder put through a sieve.
type SieveTest struct {
	Opening quantity.ParticleSize
	Number  int // 0: given by its opening
	Powder  quantity.Mass
	Residue quantity.Mass
	Scale   quantity.Mass
}

// FinenessResult is the answer, a part for each test that was given.
type FinenessResult struct {
	Request FinenessRequest
	Gauge   *GaugeFinding
	Sieve   *SieveFinding
	// Settled is the largest grain that was still up.
	Settled  *SettleResult
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// GaugeFinding is a reading on both scales.
type GaugeFinding struct {
	Depth  quantity.ParticleSize
	Hegman powders.Hegman
	// Engraved is the depth on a gauge of 100 µm in steps of 12.5.
	Engraved quantity.ParticleSize
}

// SieveFinding is what a sieve told.
type SieveFinding struct {
	Residue evidence.Estimate[quantity.MassFraction]
	Passed  quantity.MassFraction
}

// PowderFineness works the tests out.
func PowderFineness(req FinenessRequest) (*FinenessResult, error) {
	if req.Gauge == 0 && !req.ByScale && req.Sieve == nil && req.Settled == nil {
		return nil, errors.New("no test given: a reading of the gauge, a sieve with its residue, or how far a stirred jar had cleared")
	}
	res := &FinenessResult{Request: req, Cautions: powderCautions(DryPowder, req.Pigment)}
	if req.Pigment != nil {
		if err := aPowder(req.Pigment); err != nil {
			return nil, err
		}
	}
	var tr trace.Tracer
	if req.Gauge > 0 || req.ByScale {
		g, err := gaugeFinding(&req, &tr)
		if err != nil {
			return nil, err
		}
		res.Gauge = g
		res.Warnings = append(res.Warnings, "a gauge shows the coarsest clumps and grains of a wet paste, not the grain of the powder; mulling breaks clumps and grinds nothing finer")
	}
	if req.Sieve != nil {
		s, err := sieveFinding(req.Sieve, &tr)
		if err != nil {
			return nil, err
		}
		res.Sieve = s
		res.Warnings = append(res.Warnings, "a dry sieve holds clumps back with the grit: wash it through, dry the residue and weigh that (common practice)")
	}
	if req.Settled != nil {
		s, err := Settle(*req.Settled)
		if err != nil {
			return nil, err
		}
		res.Settled = s
		res.Warnings = append(res.Warnings, s.Warnings...)
	}
	res.Steps = tr.Steps()
	if res.Settled != nil {
		res.Steps = append(res.Steps, res.Settled.Steps...)
	}
	return res, nil
}

func gaugeFinding(req *FinenessRequest, tr *trace.Tracer) (*GaugeFinding, error) {
	g := &GaugeFinding{Depth: req.Gauge, Hegman: req.Hegman}
	var err error
	if req.ByScale {
		g.Depth, err = req.Hegman.Depth()
	} else {
		g.Hegman, err = powders.HegmanOf(req.Gauge)
	}
	if err != nil {
		return nil, err
	}
	if g.Engraved, err = g.Hegman.Engraved(); err != nil {
		return nil, err
	}
	tr.Note(powders.HegmanRelation, "gauge", trace.T("d", g.Depth, "µm"), trace.T("H", g.Hegman, ""))
	return g, nil
}

func sieveFinding(s *SieveTest, tr *trace.Tracer) (*SieveFinding, error) {
	r, err := powders.SieveResidue(s.Residue, s.Powder)
	if err != nil {
		return nil, err
	}
	half := evidence.Rectangular(s.Scale / 2)
	u := quantity.MassFraction(evidence.RootSum(half, half) / s.Powder)
	tr.Note(powders.SieveResidueRelation, fmt.Sprintf("sieve of %g µm", float64(s.Opening)), trace.T("R", r, ""), trace.T("m(residue)", s.Residue, "g"), trace.T("m", s.Powder, "g"))
	return &SieveFinding{Residue: evidence.Given(r, u), Passed: 1 - r}, nil
}

// GrainShape is the shape a specific surface is reckoned for.
type GrainShape string

const (
	Sphere GrainShape = "sphere"
	Plate  GrainShape = "plate" // the size is its thickness
	Rod    GrainShape = "rod"   // the size is its diameter
)

// GrainShapes lists them.
func GrainShapes() []GrainShape { return []GrainShape{Sphere, Plate, Rod} }

// SurfaceRequest asks what surface a powder has, what oil that surface and its
// voids would take, and what finer grinding adds.
type SurfaceRequest struct {
	Name    string
	Pigment *material.Material // nil for a powder of the maker's own
	Density evidence.Distribution[quantity.Density]
	// Size or Surface; the other is worked out.
	Size     evidence.Distribution[quantity.ParticleSize]
	Surface  evidence.Distribution[quantity.SpecificSurface]
	SizeBy   string
	Shape    GrainShape
	Finer    quantity.ParticleSize // to grind down to; 0: not asked
	Sampling Sampling
}

// SurfaceResult is the answer.
type SurfaceResult struct {
	Request SurfaceRequest
	Size    evidence.Range[quantity.ParticleSize]
	Surface evidence.Range[quantity.SpecificSurface]
	// Rule is the oil by the two-term rule; published figures lie at RuleLow to
	// RuleHigh of it.
	Rule      evidence.Range[quantity.AbsorptionVolume]
	Published evidence.Range[quantity.AbsorptionVolume] // oil absorption of the catalogue; zero: none
	Finer     *FinerFinding
	Cautions  []Caution
	Warnings  []string
	Steps     []trace.Step
}

// Published pairs of surface and oil absorption lie between these shares of what
// the two-term rule gives: see the table of package powder.
const (
	RuleLow  quantity.Ratio = 0.46
	RuleHigh quantity.Ratio = 1.11
)

// FinerFinding is what grinding to a finer size adds, at typical values.
type FinerFinding struct {
	Surface quantity.SpecificSurface
	// Oil added with the thin and the thick layer of the rule, and with the layer
	// that published carbonates would need.
	Thin, Thick, Apparent quantity.AbsorptionVolume
	// The thin and the apparent layer's oil over the published absorption, 0
	// where none is published.
	MoreLow, MoreHigh quantity.Ratio
}

// ruleLayer is the middle of the layer of the two-term rule.
const ruleLayer powders.LayerThickness = 3

// PowderSurface works it out.
func PowderSurface(req SurfaceRequest) (*SurfaceResult, error) {
	if err := req.check(); err != nil {
		return nil, err
	}
	res := &SurfaceResult{Request: req, Cautions: powderCautions(DryPowder, req.Pigment)}
	if req.Pigment != nil {
		if d, _ := req.Pigment.AbsorptionDistribution(); d.Known() {
			res.Published = d.Range()
		}
	}
	const inputs = 2
	var tr trace.Tracer
	typical, err := req.at(make([]float64, inputs), &tr)
	if err != nil {
		return nil, err
	}
	columns := req.Sampling.run(inputs, 3, func() func(z, out []float64) {
		return func(z, out []float64) {
			p, err := req.at(z, nil)
			if err != nil {
				p.oil = quantity.AbsorptionVolume(math.NaN())
			}
			out[0], out[1], out[2] = float64(p.size), float64(p.surface), float64(p.oil)
		}
	})
	for _, v := range columns[2] {
		if math.IsNaN(v) {
			return nil, fmt.Errorf("%s: size and density do not make a surface", req.Name)
		}
	}
	res.Size, res.Surface, res.Rule = rangeOf[quantity.ParticleSize](columns[0]), rangeOf[quantity.SpecificSurface](columns[1]), rangeOf[quantity.AbsorptionVolume](columns[2])
	if req.Finer > 0 {
		if res.Finer, err = req.finer(typical, &tr); err != nil {
			return nil, err
		}
		if p := res.Published.Typical; p > 0 {
			res.Finer.MoreLow, res.Finer.MoreHigh = quantity.Ratio(res.Finer.Thin/p), quantity.Ratio(res.Finer.Apparent/p)
		}
	}
	res.Warnings = []string{
		fmt.Sprintf("the rule of layer and voids is for judging a change, not for a recipe: published figures lie at %.2f to %.2f of it, clumped powders above", float64(RuleLow), float64(RuleHigh)),
		"a size on a data sheet may be of grains or of clumps; the surface holds for smooth grains of that size, real ones are rough",
	}
	res.Steps = tr.Steps()
	return res, nil
}

// surfacePoint is one draw.
type surfacePoint struct {
	density quantity.Density
	size    quantity.ParticleSize
	surface quantity.SpecificSurface
	oil     quantity.AbsorptionVolume
}

func (r *SurfaceRequest) at(z []float64, tr *trace.Tracer) (surfacePoint, error) {
	p := surfacePoint{density: r.Density.At(z[0])}
	var err error
	if r.Surface.Known() {
		p.surface = r.Surface.At(z[1])
		if p.size, err = powders.EquivalentDiameter(p.surface, p.density); err != nil {
			return p, err
		}
		tr.Note(powders.EquivalentDiameterRelation, r.Name, trace.T("d", p.size, "µm"), trace.T("S", p.surface, "m²/g"), trace.T("ρ", p.density, "g/ml"))
	} else {
		p.size = r.Size.At(z[1])
		if p.surface, err = r.surface(p.size, p.density, tr); err != nil {
			return p, err
		}
	}
	p.oil, err = powders.OilOfSurface(p.surface, ruleLayer, powders.RandomPacking, p.density)
	tr.Note(powders.OilOfSurfaceRelation, r.Name, trace.T("OAv", p.oil, "ml/100g"), trace.T("S", p.surface, "m²/g"), trace.T("δ", ruleLayer, "nm"),
		trace.T("φ", powders.RandomPacking, ""), trace.T("ρp", p.density, "g/ml"))
	return p, err
}

func (r *SurfaceRequest) surface(d quantity.ParticleSize, rho quantity.Density, tr *trace.Tracer) (quantity.SpecificSurface, error) {
	work, relation := powders.SpecificSurface, powders.SpecificSurfaceRelation
	switch r.Shape {
	case Plate:
		work, relation = powders.PlateSurface, powders.PlateSurfaceRelation
	case Rod:
		work, relation = powders.RodSurface, powders.RodSurfaceRelation
	}
	s, err := work(d, rho)
	tr.Note(relation, r.Name, trace.T("S", s, "m²/g"), trace.T("d", d, "µm"), trace.T("ρ", rho, "g/ml"))
	return s, err
}

func (r *SurfaceRequest) finer(now surfacePoint, tr *trace.Tracer) (*FinerFinding, error) {
	if r.Finer >= now.size {
		return nil, refuse("%.3g µm is not finer than the %.3g µm it has: give a smaller size", float64(r.Finer), float64(now.size))
	}
	f := &FinerFinding{}
	var err error
	if f.Surface, err = r.surface(r.Finer, now.density, tr); err != nil {
		return nil, err
	}
	for _, x := range []struct {
		layer powders.LayerThickness
		to    *quantity.AbsorptionVolume
	}{{powders.ThinLayer, &f.Thin}, {powders.ThickLayer, &f.Thick}, {powders.ApparentLayer, &f.Apparent}} {
		if *x.to, err = powders.FinerOil(now.surface, f.Surface, x.layer); err != nil {
			return nil, err
		}
		tr.Note(powders.FinerRelation, r.Name, trace.T("ΔOAv", *x.to, "ml/100g"), trace.T("δ", x.layer, "nm"), trace.T("S₁", now.surface, "m²/g"), trace.T("S₂", f.Surface, "m²/g"))
	}
	return f, nil
}

func (r *SurfaceRequest) check() error {
	switch {
	case r.Pigment != nil && !r.Pigment.Kind.IsPigment():
		return aPowder(r.Pigment)
	case !r.Density.Known():
		return fmt.Errorf("%s: no density is known; give one", r.Name)
	case r.Size.Known() && r.Surface.Known():
		return errors.New("a size and a surface are given together; give one, the other is worked out")
	case !r.Size.Known() && !r.Surface.Known():
		return fmt.Errorf("%s: no grain size is known; give one, or its specific surface", r.Name)
	case r.Surface.Known() && r.Shape != Sphere:
		return errors.New("a measured surface is turned into the size of spheres only; leave the shape out")
	}
	return nil
}
