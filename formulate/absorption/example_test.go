package absorption_test

import (
	"fmt"

	"mullwright/formulate/absorption"
	"mullwright/formulate/quantity"
)

// Rutile with an oil absorption of 20 g/100 g, in the literature's form.
func ExampleCriticalPVCByMass() {
	c := absorption.CriticalPVCByMass(20, 4.2, quantity.TestOilDensity)
	fmt.Printf("%.1f %%\n", 100*float64(c))
	// Output: 52.7 %
}

// Church's table gives white lead 16 g of oil to 100 g of pigment.
func ExampleOilMassFraction() {
	fmt.Printf("%.1f %% by mass, %.1f %% by volume\n",
		100*float64(absorption.OilMassFraction(16)),
		100*float64(absorption.OilVolumeFraction(16, 0.93, 6.70)))
	// Output: 13.8 % by mass, 53.5 % by volume
}

// A red of density 5 that takes 22 ml of oil in the rub-out.
func ExampleForetell() {
	r := absorption.Foretell(22, 5, false).Range()
	fmt.Printf("%.0f (%.0f–%.0f) g per 100 g\n", r.Typical, r.Low, r.High)
	// Output: 37 (23–61) g per 100 g
}

func ExampleParseBody() {
	step, _ := absorption.ParseBody("buttery")
	fmt.Printf("%s: %s\n", step, step.Feel)
	_, err := absorption.ParseBody("runny")
	fmt.Println(err)
	// Output:
	// buttery: holds a peak and spreads like butter; tube colour
	// "runny" is not a body: no step has this name; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5
}
