package powder

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// SpecificSurfaceRelation is the surface of spheres.
var SpecificSurfaceRelation = trace.Relation{
	Name:     "specific surface of spheres",
	Equation: "S = 6/(ρ·d)",
	Source:   "geometry",
}

// SpecificSurface is the surface of smooth spheres, 6/(ρ·d): m²/g with ρ in
// g/cm³ and d in µm. For many sizes d is the Sauter mean d₃₂.
func SpecificSurface(d quantity.ParticleSize, rho quantity.Density) (quantity.SpecificSurface, error) {
	if err := positive("diameter", d, "µm"); err != nil {
		return 0, err
	}
	if err := positive("density", rho, "g/ml"); err != nil {
		return 0, err
	}
	return quantity.SpecificSurface(6 / (float64(rho) * float64(d))), nil
}

// EquivalentDiameterRelation is the sphere that has a surface.
var EquivalentDiameterRelation = trace.Relation{
	Name:     "diameter from specific surface",
	Equation: "d = 6/(ρ·S)",
	Source:   "geometry",
}

// EquivalentDiameter is the diameter of spheres with a specific surface. From
// gas adsorption it is that of the primary grains, not of their clumps.
func EquivalentDiameter(s quantity.SpecificSurface, rho quantity.Density) (quantity.ParticleSize, error) {
	if err := positive("specific surface", s, "m²/g"); err != nil {
		return 0, err
	}
	if err := positive("density", rho, "g/ml"); err != nil {
		return 0, err
	}
	return quantity.ParticleSize(6 / (float64(rho) * float64(s))), nil
}

// PlateSurfaceRelation and RodSurfaceRelation are those of other shapes.
var (
	PlateSurfaceRelation = trace.Relation{Name: "specific surface of thin plates", Equation: "S = 2/(ρ·h)", Source: "geometry, edges left out"}
	RodSurfaceRelation   = trace.Relation{Name: "specific surface of long rods", Equation: "S = 4/(ρ·d)", Source: "geometry, ends left out"}
)

// PlateSurface is the surface of thin plates of thickness h, 2/(ρ·h).
func PlateSurface(h quantity.ParticleSize, rho quantity.Density) (quantity.SpecificSurface, error) {
	s, err := SpecificSurface(h, rho)
	return s / 3, err
}

// RodSurface is the surface of long rods of diameter d, 4/(ρ·d).
func RodSurface(d quantity.ParticleSize, rho quantity.Density) (quantity.SpecificSurface, error) {
	s, err := SpecificSurface(d, rho)
	return s * 2 / 3, err
}

// LayerThickness is that of the oil held on a pigment's surface, in nm.
type LayerThickness float64

const (
	// ThinLayer to ThickLayer is the adsorbed layer of the two-term rule.
	ThinLayer  LayerThickness = 2.5
	ThickLayer LayerThickness = 4
	// ApparentLayer is the layer that the two ends of published ground calcium
	// carbonate would need (9 to 21 g/100 g over 1 to 15 m²/g): finer grades also
	// pack looser.
	ApparentLayer LayerThickness = 9
	// RandomPacking is random close packing of equal spheres.
	RandomPacking quantity.VolumeFraction = 0.64
)

// OilOfSurfaceRelation is the two-term rule of oil absorption.
var OilOfSurfaceRelation = trace.Relation{
	Name:     "oil absorption from surface and packing",
	Equation: "OAv = 0.1·S·δ + 100·(1 − φ)/(φ·ρp)",
	Source:   "two causes of oil absorption, Russian trade literature; arithmetic of this program",
}

// OilOfSurface is the oil of a film on the surface and of the voids between the
// grains, ml/100 g. Published pairs lie at 0.46 to 1.11 of it (see the package
// comment), aggregated powders above.
func OilOfSurface(s quantity.SpecificSurface, layer LayerThickness, packing quantity.VolumeFraction, rho quantity.Density) (quantity.AbsorptionVolume, error) {
	if err := positive("specific surface", s, "m²/g"); err != nil {
		return 0, err
	}
	if err := notNegative("layer", layer, "nm"); err != nil {
		return 0, err
	}
	if err := positive("density", rho, "g/ml"); err != nil {
		return 0, err
	}
	if !(packing > 0 && packing <= 1) {
		return 0, fmt.Errorf("packing is %g: it is a share of the volume, above 0 and at most 1", float64(packing))
	}
	voids := 100 * float64((1-packing)/packing) / float64(rho)
	return quantity.AbsorptionVolume(film(s, layer) + voids), nil
}

// film is the oil on the surface, ml/100 g: m²/g times nm is 10⁻³ ml/g.
func film(s quantity.SpecificSurface, layer LayerThickness) float64 {
	return 0.1 * float64(s) * float64(layer)
}

// FinerRelation is what finer grinding adds.
var FinerRelation = trace.Relation{
	Name:     "oil added by finer grinding",
	Equation: "ΔOAv = 0.1·δ·(S₂ − S₁)",
	Source:   "difference of the two-term rule, packing unchanged",
}

// FinerOil is the oil that more surface takes, ml/100 g, if the grains pack as
// before: least with [ThinLayer], most with [ApparentLayer].
func FinerOil(from, to quantity.SpecificSurface, layer LayerThickness) (quantity.AbsorptionVolume, error) {
	if err := positive("surface before", from, "m²/g"); err != nil {
		return 0, err
	}
	if err := positive("surface after", to, "m²/g"); err != nil {
		return 0, err
	}
	if to < from {
		return 0, fmt.Errorf("surface falls from %g to %g m²/g: grinding only adds to it", float64(from), float64(to))
	}
	if err := notNegative("layer", layer, "nm"); err != nil {
		return 0, err
	}
	return quantity.AbsorptionVolume(film(to, layer) - film(from, layer)), nil
}
