package colour_test

import (
	"fmt"

	"mullwright/formulate/optics"
	"mullwright/pigments/colour"
)

func ExampleOf() {
	d, ok, err := colour.Of("cobalt-yellow")
	if err != nil || !ok {
		fmt.Println(ok, err)
		return
	}
	film := d.Films[0]
	ladder, err := optics.Glazes(film.ChartFilm, colour.Chart(), []optics.Films{1, 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(film.Label, film.Record.Locator)
	for _, c := range ladder.Chips[0] {
		fmt.Printf("%s measured %v\n", c.Screen.Hex(), c.Measured)
	}
	// Output:
	// cobalt yellow YL_3_3_p2
	// #f9da40 measured true
	// #f1c412 measured false
}

func ExampleHidingRank() {
	rank, err := colour.HidingRank()
	if err != nil {
		fmt.Println(err)
		return
	}
	// The most transparent films of the chart.
	for _, h := range rank[len(rank)-3:] {
		fmt.Printf("%s %.2f\n", h.ID, float64(h.Contrast))
	}
	// Output:
	// atacamite 0.22
	// ultramarine-red 0.21
	// egyptian-blue 0.21
}
