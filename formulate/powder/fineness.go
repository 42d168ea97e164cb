package powder

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Hegman is a reading of the Hegman or National Standard scale, 0 coarse to 8.
type Hegman float64

// HegmanRelation is the Hegman scale.
var HegmanRelation = trace.Relation{
	Name:     "Hegman scale",
	Equation: "d = 101.6 − 12.7·H µm, 4 − H/2 mil",
	Source:   "Hegman gauge; the standards are ASTM D1210 and ISO 1524",
}

// Depth is the depth of the groove at a reading, and so the size of the coarsest
// clumps and grains: 101.6 − 12.7·H µm. Gauges in micrometres are engraved from
// 100 by 12.5, see [Hegman.Engraved].
func (h Hegman) Depth() (quantity.ParticleSize, error) {
	if !(h >= 0 && h <= 8) {
		return 0, fmt.Errorf("hegman reading is %g: the scale goes from 0 to 8", float64(h))
	}
	return quantity.ParticleSize(101.6 - 12.7*float64(h)), nil
}

// Engraved is the depth as gauges in micrometres are engraved, 100 − 12.5·H.
func (h Hegman) Engraved() (quantity.ParticleSize, error) {
	d, err := h.Depth()
	return d * 100 / 101.6, err
}

// HegmanOf is the reading of a depth, 8 − d/12.7.
func HegmanOf(d quantity.ParticleSize) (Hegman, error) {
	if !(d >= 0 && d <= 101.6) {
		return 0, fmt.Errorf("depth is %g µm: the scale goes from 0 to 101.6", float64(d))
	}
	return Hegman(8 - float64(d)/12.7), nil
}

// SieveResidueRelation is what a sieve holds back.
var SieveResidueRelation = trace.Relation{
	Name:     "sieve residue",
	Equation: "R = m(residue)/m",
	Source:   "definition",
}

// SieveResidue is the share of a powder that stays on a sieve.
func SieveResidue(residue, powder quantity.Mass) (quantity.MassFraction, error) {
	if err := positive("mass sieved", powder, "g"); err != nil {
		return 0, err
	}
	if err := notNegative("residue", residue, "g"); err != nil {
		return 0, err
	}
	if residue > powder {
		return 0, fmt.Errorf("residue is %g g of %g g: it cannot be more than the whole", float64(residue), float64(powder))
	}
	return quantity.MassFraction(residue / powder), nil
}
