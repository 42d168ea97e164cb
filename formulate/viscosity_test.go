package formulate

import (
	"math"
	"testing"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

func at(t quantity.Celsius, v quantity.Viscosity, source string) material.Measured[quantity.Viscosity] {
	return material.Measured[quantity.Viscosity]{Value: v, Temperature: &t, Source: source}
}

func TestViscosityOf(t *testing.T) {
	linseed := liquid("linseed", material.Oil, 0.931)
	// Rescorla and Carnahan (1936): 30 mm²/s at 100 °F, 7 mm²/s at 210 °F.
	linseed.Viscosity = []material.Measured[quantity.Viscosity]{at(37.8, 27.5, "rescorla-1936"), at(98.9, 6.14, "rescorla-1936")}
	d, err := ViscosityOf(linseed, 37.8)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "at a measured point", float64(d.Median), 27.5, 1e-9)
	d, err = ViscosityOf(linseed, 20)
	if err != nil {
		t.Fatal(err)
	}
	if v := float64(d.Median); v < 48 || v > 60 { // 50 to 55 mPa·s at 20 °C: from memory
		t.Errorf("linseed oil at 20 °C: %v mPa·s", v)
	}
	// Magne and Skau (1945), soya oil: 99.8 mPa·s at 10 °C, 29.1 at 40, 50.5 at 25.
	soya := liquid("soya", material.Oil, 0.92)
	soya.Viscosity = []material.Measured[quantity.Viscosity]{at(10, 99.8, "magne-1945"), at(40, 29.1, "magne-1945")}
	if d, err = ViscosityOf(soya, 25); err != nil || math.Abs(float64(d.Median)/50.5-1) > 0.03 {
		t.Errorf("soya oil at 25 °C: %v, %v; published 50.5 mPa·s", d.Median, err)
	}
	one := liquid("stand", material.Oil, 0.96)
	one.Viscosity = []material.Measured[quantity.Viscosity]{at(20, 6000, material.FromMemory)}
	if d, err = ViscosityOf(one, 20); err != nil || math.Abs(float64(d.Median)/6000-1) > 1e-9 || d.Sigma < 0.3 {
		t.Errorf("one point from memory: %+v, %v; want it wide", d, err)
	}
	for name, temperature := range map[string]quantity.Celsius{"too hot": 60, "too cold": -5} {
		if _, err := ViscosityOf(one, temperature); err == nil {
			t.Errorf("%s: carried too far from its one point", name)
		}
	}
	if _, err := ViscosityOf(liquid("resin", material.Resin, 1), 20); err == nil {
		t.Error("a viscosity was made up")
	}
}
