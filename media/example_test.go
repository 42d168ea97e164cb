package media_test

import (
	"fmt"

	"mullwright/media"
)

func ExampleNew() {
	oil, err := media.New().Lookup("cold-pressed linseed oil")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %.2f g/ml, %d readings\n", oil.ID, float64(oil.DensityDistribution().Median), len(oil.Density))
	// Output: linseed-oil: 0.93 g/ml, 8 readings
}

func ExampleContainers() {
	for _, c := range media.Containers() {
		if c.ID == "half-pan" {
			fmt.Println(c.Name, c.Brim.Value, c.Brim.Source)
		}
	}
	// Output: watercolour half pan 2 ml box-maker-pans
}

func ExampleDropMasses() {
	for _, d := range media.DropMasses() {
		fmt.Println(d.Liquid, d.Twenty.Value, d.Twenty.Low, d.Twenty.High)
	}
	// Output:
	// water 0.998 g 0 g 0 g
	// thin essential oil 0.66 g 0 g 0 g
	// thin essential oil 0 g 0.3 g 0.9 g
	// drying oil 0 g 0.558 g 0.93 g
}
