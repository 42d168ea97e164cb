package film

import "mullwright/formulate/quantity"

// US measures, as NIST Handbook 44, appendix C, defines them: the gallon is 231
// cubic inches. A mil is a thousandth of an inch; package quantity reads it.
type (
	// SquareFeetPerGallon is a spreading rate in ft² per US gallon.
	SquareFeetPerGallon float64
	// PoundsPerGallon is a content in lb per US gallon.
	PoundsPerGallon float64
)

const (
	litresPerGallon     = 3.785411784
	squareMetresPerFoot = 0.09290304
)

// PerUSGallon gives a spreading rate in square feet per US gallon. One gallon
// of solids at one mil goes 1604 ft².
func PerUSGallon(rate quantity.SpreadingRate) SquareFeetPerGallon {
	return SquareFeetPerGallon(float64(rate) * litresPerGallon / squareMetresPerFoot)
}

// PerLitre gives the spreading rate in m²/l.
func (r SquareFeetPerGallon) PerLitre() quantity.SpreadingRate {
	return quantity.SpreadingRate(float64(r) * squareMetresPerFoot / litresPerGallon)
}

// PerLitre gives the content in g/l.
func (c PoundsPerGallon) PerLitre() VOC {
	return VOC(float64(c) * quantity.GramsPerPound / litresPerGallon)
}
