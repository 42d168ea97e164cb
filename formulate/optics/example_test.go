package optics_test

import (
	"fmt"

	"mullwright/formulate/optics"
)

// A light paint hides by scattering: how many of its films hide black from a
// white of 0.80?
func ExampleHidingThickness() {
	paint := optics.Constants{K: 0.01, S: 1}
	x, err := optics.HidingThickness(paint, optics.ChartWhite, optics.HidingCriterion)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("a hiding film gives back %.3f; %.2f films hide\n", float64(optics.HidingReflectance(paint)), float64(x))
	// Output: a hiding film gives back 0.868; 8.17 films hide
}

// A glaze over a ground: one film, then two.
func ExampleOverGround() {
	glaze := optics.Constants{K: 0.5, S: 0.05}
	for _, x := range []optics.Films{1, 2} {
		fmt.Printf("%.3f ", float64(optics.OverGround(optics.Film(glaze, x), 0.9)))
	}
	// Output: 0.339 0.145
}

// A film read over black and over white gives its K and S back.
func ExampleLayerOverTwoGrounds() {
	layer, err := optics.LayerOverTwoGrounds(0.281, 0.604, 0, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := optics.ConstantsOfLayer(layer)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("K %.2f S %.2f per film\n", float64(c.K), float64(c.S))
	// Output: K 0.28 S 0.55 per film
}

// A spectrum is a colour: here one that gives back only long waves.
func ExampleColourOf() {
	c := optics.ColourOf(optics.Spectrum{
		At: []optics.Nanometre{400, 580, 620, 700},
		R:  []optics.Reflectance{0.05, 0.05, 0.5, 0.6},
	})
	fmt.Printf("L* %.1f a* %.1f b* %.1f, %s, outside the screen: %v\n", c.Lab.L, c.Lab.A, c.Lab.B, c.Screen.Hex(), c.Screen.Outside)
	// Output: L* 41.7 a* 49.7 b* 25.8, #b1363b, outside the screen: false
}

func ExampleCIEDE2000() {
	d := optics.CIEDE2000(optics.Lab{L: 50, A: 2.6772, B: -79.7751}, optics.Lab{L: 50, A: 0, B: -82.7485})
	fmt.Printf("%.4f\n", float64(d))
	// Output: 2.0425
}
