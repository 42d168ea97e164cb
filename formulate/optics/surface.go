package optics

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// FresnelRelation is reflection at a clean step in refractive index.
var FresnelRelation = trace.Relation{
	Name:     "Fresnel reflection at normal incidence",
	Equation: "F = ((n − m)/(n + m))²",
	Source:   "Fresnel, as used by Polymer Science Learning Center, inorganic pigments",
}

// Fresnel returns the reflection at the border of two media met head on:
//
//	F = ((n − m)/(n + m))²
//
// With n of a pigment and m of what surrounds it, it ranks how well the pigment
// can scatter in oil, gum, water or air. It is no hiding power: particle size
// and crowding rule that.
func Fresnel(n, m quantity.RefractiveIndex) Reflectance {
	f := float64(n-m) / float64(n+m)
	return Reflectance(f * f)
}

// RelativeOpacityRelation compares two pigments by their Fresnel reflection.
var RelativeOpacityRelation = trace.Relation{
	Name:     "relative opacity by index contrast",
	Equation: "F(n, m)/F(n_ref, m)",
	Source:   "Polymer Science Learning Center, inorganic pigments",
}

// RelativeOpacity returns the Fresnel reflection of a pigment as a ratio to
// that of a reference pigment (rutile, in the published table) in one medium.
func RelativeOpacity(n, reference, medium quantity.RefractiveIndex) quantity.Ratio {
	return quantity.Ratio(float64(Fresnel(n, medium)) / float64(Fresnel(reference, medium)))
}

// A Surface is the pair of Saunderson's correction: K1 of the light falling on
// the paint is turned back at its surface, K2 of the diffuse light coming up
// from inside. Excluded is set where the instrument does not see the gloss.
type Surface struct {
	K1, K2   Reflectance
	Excluded bool
}

// SeenRelation is Saunderson's correction from the paint's body to what is
// measured; its inverse is [Surface.Body].
var SeenRelation = trace.Relation{
	Name:     "Saunderson surface correction",
	Equation: "Rm = k₁ + (1 − k₁)(1 − k₂)·R/(1 − k₂·R), without the first k₁ where gloss is excluded",
	Source:   "Saunderson (1942), from memory; constants as in Berns (2016)",
}

// Seen returns what is measured of a paint whose body has reflectance R:
//
//	Rm = k₁ + (1 − k₁)(1 − k₂)·R/(1 − k₂·R)
//
// without the first k₁ where gloss is excluded.
func (s Surface) Seen(r Reflectance) Reflectance {
	k1, k2, x := float64(s.K1), float64(s.K2), float64(r)
	d := 1 - k2*x
	if d <= 0 {
		return 1
	}
	body := (1 - k1) * (1 - k2) * x / d
	if s.Excluded {
		return Reflectance(body)
	}
	return Reflectance(k1 + body)
}

// BodyRelation is the inverse of Saunderson's correction.
var BodyRelation = trace.Relation{
	Name:     "Saunderson surface correction, inverse",
	Equation: "R = M/((1 − k₁)(1 − k₂) + k₂·M), M = Rm − k₁, or Rm where gloss is excluded",
	Source:   "Saunderson (1942), from memory, solved for R",
}

// Body returns the reflectance of the paint's body from what is measured:
//
//	R = M/((1 − k₁)(1 − k₂) + k₂·M),  M = Rm − k₁ (M = Rm, gloss excluded)
func (s Surface) Body(measured Reflectance) (Reflectance, error) {
	k1, k2, m := float64(s.K1), float64(s.K2), float64(measured)
	if !s.Excluded {
		m -= k1
	}
	if !(m >= 0 && m <= 1) {
		return 0, fmt.Errorf("measured reflectance %g: below the %g that the surface alone gives back, or above 1", float64(measured), k1)
	}
	return Reflectance(m / ((1-k1)*(1-k2) + k2*m)), nil
}
