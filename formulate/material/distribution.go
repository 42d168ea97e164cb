package material

import (
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// DensityDistribution combines the published densities; zero where none is
// known.
func (m *Material) DensityDistribution() evidence.Distribution[quantity.Density] {
	width := DensityWidth
	switch m.Kind {
	case Oil, Solvent, Water:
		width = LiquidDensityWidth
	}
	return evidence.Combine(m.Density, width)
}

// AbsorptionDistribution combines the published oil absorptions, as
// millilitres of test oil per 100 g, and says which method the answer rests on.
// Spatula rub-outs and figures printed without a method stand together (the
// rub-out is what is meant where nothing is said) and are reported as [RubOut],
// or as [Unstated] where no reading names the method. A stirred
// [GardnerColeman] figure, then an [Absorptometer] figure, is used alone and
// only where there is nothing else; the caller says so to the maker. Without
// evidence the distribution is zero and the method empty.
func (m *Material) AbsorptionDistribution() (evidence.Distribution[quantity.AbsorptionVolume], Method) {
	return m.absorptionOf(func(OilReading) bool { return true })
}

// PublishedAbsorption is [Material.AbsorptionDistribution] without rub-outs of
// the maker's own.
func (m *Material) PublishedAbsorption() (evidence.Distribution[quantity.AbsorptionVolume], Method) {
	return m.absorptionOf(func(r OilReading) bool { return !r.OwnRubOut() })
}

func (m *Material) absorptionOf(counts func(OilReading) bool) (evidence.Distribution[quantity.AbsorptionVolume], Method) {
	for _, group := range [][]Method{{RubOut, Unstated}, {GardnerColeman}, {Absorptometer}} {
		var readings []evidence.Reading[quantity.AbsorptionVolume]
		rests := group[len(group)-1]
		for _, r := range m.OilAbsorption {
			if r.Aside != "" || !counts(r) || r.Method != group[0] && r.Method != group[len(group)-1] {
				continue
			}
			if r.Method == group[0] {
				rests = group[0]
			}
			readings = append(readings, r.ByVolume())
		}
		if len(readings) > 0 {
			return evidence.Combine(readings, AbsorptionWidth), rests
		}
	}
	return evidence.Distribution[quantity.AbsorptionVolume]{}, ""
}
