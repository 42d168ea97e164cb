package absorption

import (
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// A Group is the kind of pigment, as far as it bears on the demand.
type Group string

// fit holds the coefficients of the foretelling.
type fit struct {
	Intercept     float64
	Slope         float64
	Groups        map[Group]float64
	Misfit        float64 // log spread between pigments about the line
	Between       float64 // log spread between authorities for one pigment
	BetweenWeight float64 // degrees of freedom the common spread counts for
}

// provisional until the fit stands.
var coefficients = fit{Intercept: 0.45, Slope: 0.9, Misfit: 0.35, Between: 0.25, BetweenWeight: 3}

func (f *fit) intercept(g Group) float64 { return f.Intercept + f.Groups[g] }

// Foretell is the artists' demand at tube colour that an oil absorption
// foretells.
func Foretell(oil quantity.AbsorptionVolume, density quantity.Density, group Group) evidence.Distribution[quantity.Absorption] {
	m := DemandModel{intercept: coefficients.intercept(group)}
	return evidence.Distribution[quantity.Absorption]{
		Median: grams(m.lnForetold(oil, float64(density))),
		Sigma:  math.Sqrt(coefficients.Misfit*coefficients.Misfit + coefficients.Between*coefficients.Between),
	}
}
