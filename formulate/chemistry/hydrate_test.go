package chemistry

import (
	"testing"

	"mullwright/formulate/quantity"
)

func TestWaterOver(t *testing.T) {
	for _, c := range []struct {
		f, g      string
		low, high quantity.Ratio
		ok        bool
	}{
		{"Fe4[Fe(CN)6]3·14-16H2O", "Fe4[Fe(CN)6]3", 14, 16, true},
		{"Cr2O3·2H2O", "Cr2O3", 2, 2, true},
		{"CaSO4·2H2O", "CaSO4·0.5H2O", 1.5, 1.5, true},
		{"Fe3(PO4)2·8H2O", "Fe3P2O8", 8, 8, true},
		{"Cr2O3·2H2O", "Cr2O3·2H2O", 0, 0, false},
		{"Cr2O3", "Cr2O3·2H2O", 0, 0, false},
		{"Cu(OH)2", "CuO", 0, 0, false}, // its water is not bound water
		{"Fe4[Fe(CN)6]3·14-16H2O", "KFe[Fe(CN)6]", 0, 0, false},
		{"CaSO4·2H2O", "CaSO3", 0, 0, false},
		{"FeO·H2O", "Fe", 0, 0, false},
	} {
		f, err := ParseFormula(c.f)
		if err != nil {
			t.Fatal(err)
		}
		g, err := ParseFormula(c.g)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := f.WaterOver(g)
		if ok != c.ok || ok && (got.Low != c.low || got.High != c.high) {
			t.Errorf("%s over %s: %v, %t; want %g to %g, %t", c.f, c.g, got, ok, float64(c.low), float64(c.high), c.ok)
		}
	}
}
