package film

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// VOC is a content of volatile organic compounds in g/l of whatever volume it
// is counted on.
type VOC float64

// PerUSGallon gives the content in pounds per US gallon.
func (v VOC) PerUSGallon() PoundsPerGallon {
	return PoundsPerGallon(float64(v) * litresPerGallon / quantity.GramsPerPound)
}

// VOCRelation is the content of the whole paint.
var VOCRelation = trace.Relation{
	Name:     "volatile organic compounds of a paint",
	Equation: "VOC = mv/V",
	Source:   "definition; VOC in three forms, coating maker's questions and answers (n.d.)",
}

// VOCOf is the mass of volatile organic compounds over a volume: that of the
// whole paint, or that of its solids for the content on solids.
func VOCOf(organic quantity.Mass, volume quantity.Volume) (VOC, error) {
	if !(organic >= 0 && organic < 1e12) {
		return 0, fmt.Errorf("mass of volatile organic compounds is %g g: want a number from zero", float64(organic))
	}
	if err := positive("volume", volume, "ml"); err != nil {
		return 0, err
	}
	return VOC(1000 * float64(organic) / float64(volume)), nil
}

// VOCLessWaterRelation is the content on the paint without its water.
var VOCLessWaterRelation = trace.Relation{
	Name:     "volatile organic compounds less water",
	Equation: "VOC = mv/(V − Vw)",
	Source:   "VOC in three forms, coating maker's questions and answers (n.d.)",
}

// VOCLessWater is the mass of volatile organic compounds over the volume of the
// paint without its water.
func VOCLessWater(organic quantity.Mass, paint, water quantity.Volume) (VOC, error) {
	if !(water >= 0 && water < paint) {
		return 0, fmt.Errorf("water is %g ml in %g ml of paint: want zero or more and less than the paint", float64(water), float64(paint))
	}
	return VOCOf(organic, paint-water)
}

// VOCBySharesRelation is the content from shares by mass.
var VOCBySharesRelation = trace.Relation{
	Name:     "volatile organic compounds less water, from shares by mass",
	Equation: "VOC = (1 − s − w)·ρ/(1 − w·ρ/ρw)",
	Source:   "Joseph, VOC minus water (2004)",
}

// VOCByShares is the content of a paint of which s stays and w is water, both
// by mass: of the whole paint and less water.
func VOCByShares(solids, water quantity.MassFraction, paint, waterDensity quantity.Density) (whole, lessWater VOC, err error) {
	if !(solids >= 0 && water >= 0 && solids+water <= 1) {
		return 0, 0, fmt.Errorf("solids are %.4g %% and water %.4g %% by mass: want both zero or more and together at most 100 %%", 100*float64(solids), 100*float64(water))
	}
	if err := positive("paint density", paint, "g/ml"); err != nil {
		return 0, 0, err
	}
	if err := positive("water density", waterDensity, "g/ml"); err != nil {
		return 0, 0, err
	}
	const litre quantity.Volume = 1000
	mass := litre.Mass(paint)
	organic := mass * quantity.Mass(1-solids-water)
	if whole, err = VOCOf(organic, litre); err != nil {
		return 0, 0, err
	}
	lessWater, err = VOCLessWater(organic, litre, (mass * quantity.Mass(water)).Volume(waterDensity))
	return whole, lessWater, err
}
