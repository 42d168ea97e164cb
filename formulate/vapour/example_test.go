package vapour_test

import (
	"fmt"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/vapour"
)

func ExampleAssess() {
	// 20 ml of an invented spirit of 0.78 g/ml leaves a glaze evenly over four
	// hours, in a room of 30 m³ that is aired once in two hours.
	spirit := vapour.Substance{
		Name: "bench spirit", MolarMass: 142, LowerExplosive: 0.009,
		Limits: []material.Limit{{Authority: "invented", Kind: "8 h", MgPerM3: 350}},
	}
	a, err := vapour.Assess(
		vapour.Room{Volume: 30, AirChanges: 0.5},
		vapour.Release{Profile: vapour.Evenly, Mass: 15.6, Over: 4 * 3600},
		spirit, vapour.OrdinaryAir, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("peak %.0f mg/m³ after %.0f h, %.0f ppm\n", float64(a.Peak), float64(a.PeakAt)/3600, float64(a.PeakPPM))
	for _, c := range a.Comparisons {
		fmt.Printf("worst %s: %.0f mg/m³, %.0f %% of the limit\n", c.Limit.Kind, float64(c.Level), 100*float64(c.Share))
	}
	fmt.Println(a.Cautions[len(a.Cautions)-1])
	// Output:
	// peak 225 mg/m³ after 4 h, 39 ppm
	// worst 8 h: 123 mg/m³, 35 % of the limit
	// A figure below a limit is no clearance: the product's safety data sheet, local rules and licensed practice decide. Limits differ by country and year.
}

func ExampleConcentration() {
	vm, err := vapour.MolarVolumeAt(25, vapour.StandardPressure)
	if err != nil {
		fmt.Println(err)
		return
	}
	c := vapour.Concentration(100, quantity.MolarMass(136.2), vm)
	fmt.Printf("%.0f mg/m³\n", float64(c))
	// Output: 557 mg/m³
}
