package absorption

import (
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// OilMassFractionRelation is the oil's share of the paste by mass.
var OilMassFractionRelation = trace.Relation{
	Name:     "oil in the paste by mass",
	Equation: "w = M/(100 + M)",
	Source:   "definition",
}

// OilMassFraction is the oil's share of a pure pigment and oil paste by mass,
// M/(100 + M) with M in g per 100 g of pigment. "16 per cent" in an old table
// is M = 16, which is 13.8 per cent of the paste.
func OilMassFraction(m quantity.Absorption) quantity.MassFraction {
	return quantity.MassFraction(m / (100 + m))
}

// AbsorptionOfMassFractionRelation is the inverse.
var AbsorptionOfMassFractionRelation = trace.Relation{
	Name:     "oil per 100 g pigment from the share by mass",
	Equation: "M = 100·w/(1 − w)",
	Source:   "definition",
}

// AbsorptionOfMassFraction is the oil per 100 g of pigment of a paste whose oil
// share by mass is w: 100·w/(1 − w).
func AbsorptionOfMassFraction(w quantity.MassFraction) quantity.Absorption {
	return quantity.Absorption(100 * w / (1 - w))
}

// OilVolumeFractionRelation is the oil's share of the paste by volume.
var OilVolumeFractionRelation = trace.Relation{
	Name:     "oil in the paste by volume",
	Equation: "f = (M/ρo)/(M/ρo + 100/ρp)",
	Source:   "definition",
}

// OilVolumeFraction is the oil's share of a pure pigment and oil paste by
// volume, (M/ρo)/(M/ρo + 100/ρp). The pigment has the rest.
func OilVolumeFraction(m quantity.Absorption, oil, pigment quantity.Density) quantity.VolumeFraction {
	vo, vp := float64(m)/float64(oil), 100/float64(pigment)
	return quantity.VolumeFraction(vo / (vo + vp))
}

// AbsorptionOfVolumeFractionRelation is the inverse.
var AbsorptionOfVolumeFractionRelation = trace.Relation{
	Name:     "oil per 100 g pigment from the share by volume",
	Equation: "M = 100·ρo·f/(ρp·(1 − f))",
	Source:   "definition",
}

// AbsorptionOfVolumeFraction is the oil per 100 g of pigment that gives the oil
// share f by volume: 100·ρo·f/(ρp·(1 − f)).
func AbsorptionOfVolumeFraction(f quantity.VolumeFraction, oil, pigment quantity.Density) quantity.Absorption {
	return quantity.Absorption(100 * float64(oil) / float64(pigment) * float64(f/(1-f)))
}

// PowderDensityRelation is the bulk density that two published ratios imply.
var PowderDensityRelation = trace.Relation{
	Name:     "bulk density from a weight and a volume ratio",
	Equation: "ρbulk = ρo·w/u",
	Source:   "definition",
}

// PowderDensity is the bulk density of a dry pigment that follows when one
// recipe is printed both ways: w parts of pigment to one of oil by weight, and
// u parts of loose powder to one of oil by volume: ρo·w/u.
func PowderDensity(byWeight, byVolume quantity.Ratio, oil quantity.Density) quantity.Density {
	return oil * quantity.Density(byWeight/byVolume)
}

// AbsorptionOfRatioRelation turns a recipe's ratio into oil per 100 g.
var AbsorptionOfRatioRelation = trace.Relation{
	Name:     "oil per 100 g pigment from a ratio by weight",
	Equation: "M = 100/w",
	Source:   "definition",
}

// AbsorptionOfRatio is the oil per 100 g of pigment of a recipe that gives w
// parts of pigment to one of oil by weight: 100/w.
func AbsorptionOfRatio(pigmentToOil quantity.Ratio) quantity.Absorption {
	return quantity.Absorption(100 / pigmentToOil)
}
