package optics

import (
	"fmt"
	"math"

	"mullwright/formulate/trace"
)

// RatioOfHidingRelation is the hiding-film equation solved for K/S.
var RatioOfHidingRelation = trace.Relation{
	Name:     "K/S of a hiding film",
	Equation: "K/S = (1 − R∞)²/(2·R∞)",
	Source:   "Kubelka and Munk (1931)",
}

// RatioOfHiding returns K/S of a film that hides, from its reflectance:
//
//	K/S = (1 − R∞)²/(2·R∞)
//
// R∞ is greater than 0 and at most 1, without surface reflection. Source:
// Kubelka and Munk, 1931.
func RatioOfHiding(r Reflectance) (AbsorptionRatio, error) {
	if !(r > 0 && r <= 1) {
		return 0, fmt.Errorf("reflectance %g of a hiding film: want more than 0 and at most 1", float64(r))
	}
	u := float64(1 - r)
	return AbsorptionRatio(u * u / (2 * float64(r))), nil
}

// HidingReflectanceRelation is the reflectance of a film thick enough to hide.
var HidingReflectanceRelation = trace.Relation{
	Name:     "reflectance of a hiding film",
	Equation: "R∞ = 1 + K/S − √((K/S)² + 2·K/S)",
	Source:   "Kubelka and Munk (1931)",
}

// HidingReflectance returns R∞, the reflectance of a film so thick that more
// of it changes nothing:
//
//	R∞ = 1 + q − √(q² + 2q) = 1/(1 + q + √(q² + 2q)),  q = K/S
//
// The second form, used here, loses no digits where q is large. A film that
// scatters nothing gives back nothing. Source: Kubelka and Munk, 1931.
func HidingReflectance(c Constants) Reflectance {
	k, s := float64(c.K), float64(c.S)
	if s <= 0 {
		return 0
	}
	return Reflectance(s / (k + s + math.Sqrt(float64(k*k)+float64(2*k*s))))
}

// FilmRelation is reflectance and transmittance of one film.
var FilmRelation = trace.Relation{
	Name:     "two-flux film",
	Equation: "R₀ = sinh(bSX)/D, T = b/D, D = a·sinh(bSX) + b·cosh(bSX), a = 1 + K/S, b = √(a² − 1)",
	Source:   "Kubelka (1948)",
}

// Film returns the reflectance over black and the transmittance of a layer of
// thickness X:
//
//	R₀ = sinh(bSX)/D, T = b/D, D = a·sinh(bSX) + b·cosh(bSX)
//	a = 1 + K/S, b = √(a² − 1)
//
// It is worked with α = bSX = X·√(K² + 2KS), which stays finite where K or S
// is nothing: T = 1/(cosh α + (K+S)X·sinh α/α), R₀ = SX·(sinh α/α)·T. So
// T = exp(−KX) without scattering and R₀ = SX/(1 + SX) without absorption come
// out by themselves. Diffuse light, one wavelength, no surface reflection.
// Source: Kubelka, JOSA 38, 1948.
func Film(c Constants, x Films) Layer {
	p, q := float64(c.S)*float64(x), float64(c.K)*float64(x)
	alpha := math.Sqrt(float64(q*q) + float64(2*p*q))
	// Divided through by exp(α), so that a thick film does not overflow.
	e2 := math.Exp(-2 * alpha)
	cosh, sinhc := (1+e2)/2, 1.0
	if alpha > 1e-8 {
		sinhc = -math.Expm1(-2*alpha) / (2 * alpha)
	}
	d := cosh + float64((p+q)*sinhc)
	return even(p*sinhc/d, math.Exp(-alpha)/d)
}

// even is a layer alike from both sides.
func even(r, t float64) Layer {
	return Layer{R: Reflectance(r), Under: Reflectance(r), T: Transmittance(t)}
}

// OverGroundRelation is the reflectance of a film seen over a ground.
var OverGroundRelation = trace.Relation{
	Name:     "film over a ground",
	Equation: "R = R₀ + T²·Rg/(1 − R₀·Rg)",
	Source:   "Kubelka (1954)",
}

// OverGround returns the reflectance of a layer over a ground Rg:
//
//	R = R₀ + T²·Rg/(1 − R₀·Rg)
//
// the R₀ below the line being the one from below. For one film it equals
// Kubelka's [1 − Rg(a − b·coth bSX)]/[a − Rg + b·coth bSX]. Source: Kubelka,
// JOSA 44, 1954.
func OverGround(l Layer, ground Reflectance) Reflectance {
	t, g := float64(l.T), float64(ground)
	d := 1 - float64(l.Under)*g
	if d <= 0 { // a perfect mirror over a perfect mirror
		return 1
	}
	return l.R + Reflectance(t*t*g/d)
}

// StackRelation is the rule for two layers in contact.
var StackRelation = trace.Relation{
	Name:     "two layers",
	Equation: "R = R₁ + T₁²·R₂/(1 − R₁'·R₂), T = T₁·T₂/(1 − R₁'·R₂), R₁' from below",
	Source:   "Kubelka (1954)",
}

// Stack returns the layer that an upper and a lower layer make together:
//
//	R = R₁ + T₁²·R₂/(1 − R₁'·R₂), T = T₁·T₂/(1 − R₁'·R₂)
//
// R₁' being the upper layer's reflectance from below. The layers are in optical
// contact: no air between, no step in refractive index. Source: Kubelka, JOSA
// 44, 1954.
func Stack(upper, lower Layer) Layer {
	d := 1 - float64(upper.Under)*float64(lower.R)
	if d <= 0 {
		return Layer{R: 1, Under: 1}
	}
	upturned := Layer{R: lower.Under, Under: lower.R, T: lower.T}
	return Layer{
		R:     OverGround(upper, lower.R),
		Under: OverGround(upturned, upper.Under),
		T:     Transmittance(float64(upper.T) * float64(lower.T) / d),
	}
}

// ConstantsOfLayerRelation is the film equation solved for K and S.
var ConstantsOfLayerRelation = trace.Relation{
	Name:     "K and S of a film",
	Equation: "cosh α = (1 − R₀² + T²)/(2T), SX = (R₀/T)·α/sinh α, KX = [(1 − R₀)² − T²]/(2T)·α/sinh α",
	Source:   "Kubelka (1948), solved for K and S",
}

// ConstantsOfLayer returns K and S, per film of the thickness measured, of a
// even layer whose R₀ and T are known. It is the inverse of [Film] at X = 1:
//
//	cosh α = (1 − R₀² + T²)/(2T)
//	S = (R₀/T)·α/sinh α,  K = [(1 − R₀)² − T²]/(2T)·α/sinh α
//
// A layer that lets nothing through has no single answer, and one that gives
// back and passes more than it got is none: both are errors.
func ConstantsOfLayer(l Layer) (Constants, error) {
	r, t := float64(l.R), float64(l.T)
	if !(t > 0 && r >= 0) {
		return Constants{}, fmt.Errorf("layer with reflectance %g and transmittance %g: want a layer that lets some light through", r, t)
	}
	if r+t > 1+1e-12 {
		return Constants{}, fmt.Errorf("layer with reflectance %g and transmittance %g: their sum is above 1", r, t)
	}
	alpha := math.Acosh(max(1, (1-r*r+t*t)/(2*t)))
	f := 1.0
	if alpha > 1e-8 {
		f = alpha / math.Sinh(alpha)
	}
	k := max(0, ((1-r)*(1-r)-t*t)/(2*t)*f)
	return Constants{K: Absorbing(k), S: Scattering(r / t * f)}, nil
}

// LayerOverTwoGroundsRelation is the back-calculation from two readings.
var LayerOverTwoGroundsRelation = trace.Relation{
	Name:     "film from readings over two grounds",
	Equation: "R₀·(1 + Rᵢ·gᵢ) + (T² − R₀²)·gᵢ = Rᵢ for both grounds gᵢ",
	Source:   "Kubelka (1954), solved for R₀ and T",
}

// LayerOverTwoGrounds returns the layer that reads dark over one ground and
// light over another. The rule of [OverGround] is linear in R₀ and u = T² − R₀²:
//
//	R₀·(1 + Rᵢ·gᵢ) + u·gᵢ = Rᵢ
//
// so two readings settle both. Readings that no film can give are refused.
func LayerOverTwoGrounds(overDark, overLight, dark, light Reflectance) (Layer, error) {
	rb, rw, gb, gw := float64(overDark), float64(overLight), float64(dark), float64(light)
	if !(gb >= 0 && gb < gw && gw <= 1) {
		return Layer{}, fmt.Errorf("grounds of reflectance %g and %g: want a dark one and a lighter one, between 0 and 1", gb, gw)
	}
	if !(rb >= 0 && rb <= rw && rw <= 1) {
		return Layer{}, fmt.Errorf("film reads %g over the dark and %g over the light ground: want 0 ≤ dark ≤ light ≤ 1", rb, rw)
	}
	det := gw*(1+rb*gb) - gb*(1+rw*gw)
	r0 := (rb*gw - rw*gb) / det
	u := ((1+rb*gb)*rw - (1+rw*gw)*rb) / det
	t2 := u + r0*r0
	const noise = 1e-12
	if r0 < -noise || t2 < -noise || max(r0, 0)+math.Sqrt(max(t2, 0)) > 1+noise {
		return Layer{}, fmt.Errorf("film reads %g over a ground of %g and %g over one of %g: no film of the two-flux model does that", rb, gb, rw, gw)
	}
	return even(max(r0, 0), math.Sqrt(max(t2, 0))), nil
}
