package film_test

import (
	"fmt"

	"mullwright/formulate/film"
)

// A glaze of 60 % solids, a dry film of 12 µm: how thick to lay it and how far
// 20 ml go.
func Example() {
	wet, _ := film.WetThickness(12, 0.60)
	rate, _ := film.SpreadingRate(wet)
	fmt.Printf("lay it %.0f µm wet; 20 ml cover %.2f m², %.0f g/m²\n",
		wet, film.Coverage(20, rate), film.MassPerArea(wet, 1.1))
	// Output: lay it 20 µm wet; 20 ml cover 1.00 m², 22 g/m²
}

func ExampleThinned() {
	vs, _ := film.Thinned(0.60, 0.25) // a quart of thinner in a gallon
	fmt.Printf("%.0f %%\n", 100*vs)
	// Output: 48 %
}

func ExampleVOCByShares() {
	whole, less, _ := film.VOCByShares(0.50, 0.30, 1.2, 0.998)
	fmt.Printf("%.0f g/l, %.0f g/l less water\n", whole, less)
	// Output: 240 g/l, 375 g/l less water
}
