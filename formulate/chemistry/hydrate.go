package chemistry

import (
	"math"

	"mullwright/formulate/quantity"
)

// WaterOver is the bound water that f holds more than g, in molecules to one of
// g: 14 to 16 of Fe4[Fe(CN)6]3·14-16H2O over Fe4[Fe(CN)6]3. It reports false
// where the two differ in anything but water written after a dot, or not at all.
func (f Formula) WaterOver(g Formula) (Span[quantity.Ratio], bool) {
	var none Span[quantity.Ratio]
	if g.water.High > 0 {
		return none, false
	}
	n := countOf(f.atoms, "H")/2 - countOf(g.atoms, "H")/2
	if n < 0 || n > f.dot+1e-9 {
		return none, false
	}
	for _, m := range unlike(f.atoms, g.atoms) {
		water := 0.0
		switch m.Symbol {
		case "H":
			water = 2 * n
		case "O":
			water = n
		}
		if math.Abs(m.Left-m.Right-water) > 1e-9 {
			return none, false
		}
	}
	if n > 0 && countOf(f.atoms, "O")-countOf(g.atoms, "O") < n-1e-9 {
		return none, false
	}
	over := Span[quantity.Ratio]{Low: quantity.Ratio(n) + f.water.Low, High: quantity.Ratio(n) + f.water.High}
	return over, over.High > 0
}
