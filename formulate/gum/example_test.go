package gum_test

import (
	"fmt"

	"mullwright/formulate/gum"
)

func ExamplePanPours() {
	pours, err := gum.PanPours(2, 0.85, 0.43, 1.0/3)
	if err != nil {
		fmt.Println(err)
		return
	}
	last := pours[len(pours)-1]
	fmt.Printf("%d pours, the first of %.2f ml, fill %.0f %% of the pan when dry\n", len(pours), float64(pours[0].Wet), 100*float64(last.Fill))
	// Output: 7 pours, the first of 0.59 ml, fill 85 % of the pan when dry
}

func ExampleShare() {
	fmt.Printf("1 : 2 is %.1f %% of gum\n", 100*float64(gum.Share(2)))
	// Output: 1 : 2 is 33.3 % of gum
}
