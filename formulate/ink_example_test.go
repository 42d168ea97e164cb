package formulate_test

import (
	"fmt"

	"mullwright/formulate"
)

// A line half a millimetre wide, with 4 g of pigment on each inked square metre.
func ExamplePigmentPerMetre() {
	fmt.Printf("%.1f mg\n", 1000*float64(formulate.PigmentPerMetre(4, 0.05)))
	// Output: 2.0 mg
}

func ExampleParseSymptom() {
	_, err := formulate.ParseSymptom("sad")
	fmt.Println(err)
	// Output: "sad" is not a symptom; accepted: powders, glossy, cracks, curls, sticky, mouldy, will-not-rewet, beads, dried-up
}
