package powder_test

import (
	"fmt"

	"mullwright/formulate/evidence"
	"mullwright/formulate/powder"
	"mullwright/formulate/quantity"
)

func ExampleDryingTest_Moisture() {
	w, err := powder.DryingTest{Container: 25.10, Damp: 30.13, Dried: 29.98, Digit: 0.01}.Moisture()
	if err != nil {
		fmt.Println(err)
		return
	}
	m := powder.DampMass(50, w.Value)
	fmt.Printf("%.1f ± %.1f %% water; for 50 g dry weigh %.1f g\n", 100*float64(w.Value), 100*float64(w.U), float64(m))
	// Output: 3.0 ± 0.1 % water; for 50 g dry weigh 51.5 g
}

func ExamplePyknometer_Density() {
	d, err := powder.Pyknometer{
		Empty: 31.42, Powder: 43.55, Topped: 90.77, Full: 81.30,
		Liquid: evidence.Given[quantity.Density](0.9982, 0.0003),
		Digit:  0.01, Filling: 0.02,
	}.Density()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f ± %.2f g/ml\n", float64(d.Value), float64(d.U))
	// Output: 4.55 ± 0.05 g/ml
}

func ExampleCarrIndex() {
	carr, err := powder.CarrIndex(0.45, 0.60)
	if err != nil {
		fmt.Println(err)
		return
	}
	flow, err := powder.FlowOf(carr)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f %%: %s\n", 100*float64(carr), flow)
	// Output: 25 %: passable
}

func ExampleSpecificSurface() {
	s, err := powder.SpecificSurface(0.25, 4.2)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m²/g\n", float64(s))
	// Output: 5.7 m²/g
}
