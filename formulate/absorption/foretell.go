package absorption

import (
	"math"
	"strings"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Coefficients are what the published demands were fitted with, all in natural
// logarithms. See the package documentation for the model and package refit for
// the fit itself.
type Coefficients struct {
	Intercept  float64 // a
	Slope      float64 // b
	Ground     float64 // s: ground paste beside tube colour
	Colourless float64 // w: whites and extenders beside coloured pigments
	Flowing    float64 // brush-ready beside paste, within one handbook

	Covariance Covariance // of a, b and w
	Misfit     float64    // ω: spread between pigments
	Between    float64    // τ: spread between authorities for one pigment
	// BetweenWeight is how many degrees of freedom τ counts for beside a
	// pigment's own spread.
	BetweenWeight float64

	// RubOutMean and RubOutSpread describe ln r over the pigments of the fit.
	RubOutMean, RubOutSpread float64
}

// Covariance holds the variances and covariances of fitted coefficients:
// intercept A, slope B, colourless W.
type Covariance struct{ AA, AB, BB, AW, BW, WW float64 }

// Fitted returns the coefficients in use.
func Fitted() Coefficients { return fitted }

// Colourless reports whether a pigment is a white or an extender, the one trait
// beside oil absorption that the foretelling uses. Whites are known by their
// Colour Index name, PW and a number.
func Colourless(m *material.Material) bool {
	return m.Kind == material.Extender || strings.HasPrefix(strings.ToUpper(m.CIName), "PW")
}

// ForetellRelation is the demand that an oil absorption foretells.
var ForetellRelation = trace.Relation{
	Name:     "artists' demand foretold from oil absorption",
	Equation: "ln d = a + b·ln r + w, r = OAv·ρp/100, d = D·ρp/100, w for whites and extenders only",
	Source:   "fitted to published oil contents of artists' paints, see package absorption",
}

// lnForetold is ln d: d in ml of oil per ml of pigment at tube colour.
func (c *Coefficients) lnForetold(lnRubOut, white float64) float64 {
	return c.Intercept + c.Slope*lnRubOut + c.Colourless*white
}

// variance is that of a pigment's own ln d about the foretold one.
func (c *Coefficients) variance(lnRubOut, white float64) float64 {
	v, x := c.Covariance, lnRubOut
	return c.Misfit*c.Misfit + v.AA + 2*x*v.AB + x*x*v.BB + white*(2*v.AW+2*x*v.BW+v.WW)
}

// Foretell is the artists' demand at tube colour that a pigment's oil
// absorption foretells where none is published for the pigment itself. Its
// spread is that of one more authority with one more lot.
func (c *Coefficients) Foretell(oil quantity.AbsorptionVolume, density quantity.Density, colourless bool) evidence.Distribution[quantity.Absorption] {
	x := math.Log(oilPerPigment(oil, density))
	w := indicator(colourless)
	return evidence.Distribution[quantity.Absorption]{
		Median: perHundred(math.Exp(c.lnForetold(x, w)), density).ByMass(quantity.ReportingOilDensity),
		Sigma:  math.Sqrt(c.variance(x, w) + c.Between*c.Between),
	}
}

// Foretell is [Coefficients.Foretell] with the coefficients in use.
func Foretell(oil quantity.AbsorptionVolume, density quantity.Density, colourless bool) evidence.Distribution[quantity.Absorption] {
	return fitted.Foretell(oil, density, colourless)
}

// indicator is 1 for true and 0 for false.
func indicator(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// perHundred turns ml per ml of pigment into ml per 100 g of pigment.
func perHundred(oilPerPigment float64, density quantity.Density) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(100 * oilPerPigment / float64(density))
}
