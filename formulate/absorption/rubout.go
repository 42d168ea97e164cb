package absorption

import (
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// OilAbsorptionRelation is the result of the rub-out as a volume.
var OilAbsorptionRelation = trace.Relation{
	Name:     "oil absorption by volume",
	Equation: "OAv = 100·V/m",
	Source:   "ISO 787-5:1980",
}

// OilAbsorption is what the spatula rub-out gives: 100·V/m, V the oil used in
// ml, m the pigment in g. ISO 787-5:1980.
func OilAbsorption(oil quantity.Volume, pigment quantity.Mass) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(100 * float64(oil) / float64(pigment))
}

// ReportedAbsorptionRelation is the result of the rub-out in grams.
var ReportedAbsorptionRelation = trace.Relation{
	Name:     "oil absorption by mass, as reported",
	Equation: "OA = 93·V/m",
	Source:   "ISO 787-5:1980; ASTM D281-12 gives the same arithmetic (equation from memory)",
}

// ReportedAbsorption is the same result in grams, with the fixed 0.93 g/ml of
// the method and not the density of the bottle at hand: 93·V/m.
// ISO 787-5:1980; ASTM D281-12 (equation from memory).
func ReportedAbsorption(oil quantity.Volume, pigment quantity.Mass) quantity.Absorption {
	return OilAbsorption(oil, pigment).ByMass(quantity.ReportingOilDensity)
}

// Reported turns a range in ml per 100 g into the grams that ISO 787-5 reports.
func Reported(r evidence.Range[quantity.AbsorptionVolume]) evidence.Range[quantity.Absorption] {
	return evidence.Rising(r, func(v quantity.AbsorptionVolume) quantity.Absorption { return v.ByMass(quantity.ReportingOilDensity) })
}

// WeighedBottleRelation is the rub-out with a weighed oil bottle.
var WeighedBottleRelation = trace.Relation{
	Name:     "oil absorption by weighed bottle",
	Equation: "OA = 100·(B − C)/A",
	Source:   "Hansen, Oil adsorption (spatula)",
}

// WeighedBottle is the rub-out with the oil weighed by difference, which needs
// no density: 100·(B − C)/A, A the pigment, B and C the bottle before and after.
func WeighedBottle(pigment, before, after quantity.Mass) quantity.Absorption {
	return quantity.Absorption(100 * float64(before-after) / float64(pigment))
}

// AbsorptionUncertaintyRelation is the standard uncertainty of one rub-out.
var AbsorptionUncertaintyRelation = trace.Relation{
	Name:     "uncertainty of an oil absorption",
	Equation: "u(OA) = OA·√((uV/V)² + (uρ/ρ)² + (um/m)²)",
	Source:   "JCGM 100:2008, clause 5.1.6 (relative uncertainties of a product)",
}

// AbsorptionUncertainty is the standard uncertainty of an oil absorption that
// comes from reading the volume and the balance alone, by the rule of
// [evidence.Product]. It leaves out the hand:
// the end point is the larger part. JCGM 100:2008, clause 5.1.6.
func AbsorptionUncertainty(oa quantity.Absorption, oil, uOil quantity.Volume, density, uDensity quantity.Density, pigment, uPigment quantity.Mass) quantity.Absorption {
	return oa * quantity.Absorption(evidence.RootSum(float64(uOil/oil), float64(uDensity/density), float64(uPigment/pigment)))
}

// TestPortionRelation is the mass of pigment to take for a rub-out.
var TestPortionRelation = trace.Relation{
	Name:     "test portion",
	Equation: "table: expected OA under 10: 20 g; to 30: 10 g; to 50: 5 g; to 80: 2 g; above: 1 g; organic pigments 5 g",
	Source:   "IS 33 and IS 3493, as restated by a pigment maker",
}

// TestPortion is the mass of pigment to take for a rub-out, by the oil
// absorption expected of it. IS 33 (inorganic) and IS 3493 (organic).
func TestPortion(expected quantity.Absorption, organic bool) quantity.Mass {
	switch {
	case organic:
		return 5
	case expected < 10:
		return 20
	case expected <= 30:
		return 10
	case expected <= 50:
		return 5
	case expected <= 80:
		return 2
	}
	return 1
}
