package absorption

import (
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Coefficients are what the published demands were fitted with. All are in
// natural logarithms. See the package documentation for the model and
// package refit for the fit itself.
type Coefficients struct {
	Intercept float64 // a
	Slope     float64 // b
	Ground    float64 // ground paste beside tube colour
	Flowing   float64 // brush-ready beside paste, within one handbook

	// Families, in the order of [Families], with the variance of a foretold
	// demand about the pigment's own: V0 + 2·V1·x + V2·x², x = ln of the oil
	// volume per pigment volume at the rub-out.
	Families []FamilyEffect
	Unknown  FamilyEffect // a family not met in the fit
	V2       float64

	// RubOutMean and RubOutSpread describe ln r over the pigments of the fit.
	RubOutMean, RubOutSpread float64

	Misfit       float64 // spread between pigments of a family, part of V0
	FamilySpread float64 // spread between families
	Between      float64 // spread between authorities for one pigment
	// BetweenWeight is how many degrees of freedom the common spread between
	// authorities counts for beside a pigment's own.
	BetweenWeight float64
}

// A FamilyEffect is one family's shift and the two family terms of its variance.
type FamilyEffect struct {
	Family Family
	Effect float64
	V0, V1 float64
}

// Families lists the families of the fit.
func Families() []Family {
	return []Family{White, Extender, Earth, IronOxide, Mineral, Organic, Black}
}

// Fitted returns the coefficients in use.
func Fitted() Coefficients {
	c := fitted
	c.Families = append([]FamilyEffect(nil), fitted.Families...)
	return c
}

func (c *Coefficients) family(f Family) FamilyEffect {
	for _, e := range c.Families {
		if e.Family == f {
			return e
		}
	}
	return c.Unknown
}

// variance is the variance of the foretold demand about the pigment's own.
func (c *Coefficients) variance(e FamilyEffect, lnRubOut float64) float64 {
	return e.V0 + 2*e.V1*lnRubOut + c.V2*lnRubOut*lnRubOut
}

// ForetellRelation is the demand that an oil absorption foretells.
var ForetellRelation = trace.Relation{
	Name:     "artists' demand foretold from oil absorption",
	Equation: "ln d = a + b·ln r + g, r = OAv·ρp/100, d = D·ρp/100",
	Source:   "fitted to published oil contents of artists' paints, see the package documentation",
}

// lnForetold is ln d: d in ml of oil per ml of pigment at tube colour.
func lnForetold(e FamilyEffect, lnRubOut float64) float64 {
	return fitted.Intercept + fitted.Slope*lnRubOut + e.Effect
}

// Foretell is the artists' demand at tube colour that a pigment's oil
// absorption foretells where none is published for the pigment itself. Its
// spread is that of one more authority with one more lot.
func Foretell(oil quantity.AbsorptionVolume, density quantity.Density, family Family) evidence.Distribution[quantity.Absorption] {
	e := fitted.family(family)
	x := math.Log(oilPerPigment(oil, density))
	return evidence.Distribution[quantity.Absorption]{
		Median: perHundred(math.Exp(lnForetold(e, x)), density).ByMass(quantity.ReportingOilDensity),
		Sigma:  math.Sqrt(fitted.variance(e, x) + fitted.Between*fitted.Between),
	}
}

// perHundred turns ml per ml of pigment into ml per 100 g of pigment.
func perHundred(oilPerPigment float64, density quantity.Density) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(100 * oilPerPigment / float64(density))
}
