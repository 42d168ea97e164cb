package optics

import (
	"fmt"

	"mullwright/formulate/trace"
)

const (
	// HidingCriterion is the contrast ratio that counts as hiding. Source: ISO
	// 6504-1 (1983), abstract.
	HidingCriterion ContrastRatio = 0.98
	// ChartWhite is the luminance of the white of a hiding chart. Source: Kubelka
	// and Munk's R over 0.80, in use since; the figure itself from memory.
	ChartWhite Reflectance = 0.80
)

// ContrastRelation is the contrast ratio of a film.
var ContrastRelation = trace.Relation{
	Name:     "contrast ratio",
	Equation: "CR = R over black / R over white",
	Source:   "ISO 6504-1 (1983)",
}

// Contrast returns the contrast ratio, luminance over black by that over white:
//
//	CR = R_black/R_white
func Contrast(overBlack, overWhite Reflectance) (ContrastRatio, error) {
	if !(overWhite > 0 && overBlack >= 0) {
		return 0, fmt.Errorf("contrast of %g over black and %g over white: want more than 0 over white", float64(overBlack), float64(overWhite))
	}
	return ContrastRatio(float64(overBlack) / float64(overWhite)), nil
}

// FilmContrast returns the contrast ratio of a film, over perfect black and a
// white ground.
func FilmContrast(c Constants, x Films, white Reflectance) (ContrastRatio, error) {
	l := Film(c, x)
	return Contrast(l.R, OverGround(l, white))
}

// HidingThicknessRelation solves the film equation for a contrast ratio.
var HidingThicknessRelation = trace.Relation{
	Name:     "thickness that hides",
	Equation: "X with R₀(X)/R(X, Rg) = CR",
	Source:   "Kubelka and Munk (1931), solved by bisection",
}

// HidingThickness returns the thickness, in films, at which the contrast ratio
// over a white ground reaches the wanted one. The contrast ratio rises with
// thickness, so halving the bracket finds it. A paint that scatters nothing
// never reaches it by this measure: R over black stays 0.
func HidingThickness(c Constants, white Reflectance, want ContrastRatio) (Films, error) {
	if !(want > 0 && want < 1) {
		return 0, fmt.Errorf("contrast ratio %g: want one between 0 and 1", float64(want))
	}
	if !(white > 0 && white <= 1) {
		return 0, fmt.Errorf("white ground of reflectance %g: want more than 0 and at most 1", float64(white))
	}
	if !(c.S > 0) || !(c.K >= 0) {
		return 0, fmt.Errorf("coefficients K %g and S %g: a film that scatters nothing has no contrast ratio to reach", float64(c.K), float64(c.S))
	}
	reached := func(x float64) bool {
		cr, err := FilmContrast(c, Films(x), white)
		return err == nil && cr >= want
	}
	lo, hi := 0.0, 1/float64(c.S)
	for !reached(hi) {
		lo, hi = hi, 2*hi
		if hi > 1e9 {
			return 0, fmt.Errorf("contrast ratio %g is not reached by any thickness", float64(want))
		}
	}
	for range 200 {
		mid := lo + (hi-lo)/2
		if mid == lo || mid == hi {
			break
		}
		if reached(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return Films(hi), nil
}
