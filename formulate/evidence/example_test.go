package evidence_test

import (
	"fmt"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

func ExampleRepeat() {
	// Three rub-outs, ml of oil per 100 g.
	tests := []quantity.AbsorptionVolume{41.2, 43.0, 42.1}
	r, err := evidence.Repeat(tests)
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high, err := r.Interval(0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f, 95 %% between %.1f and %.1f\n", float64(r.Mean), float64(low), float64(high))
	// Output: 42.1, 95 % between 39.9 and 44.3
}

func ExampleGrubbs() {
	tests := []quantity.Absorption{41.2, 43.0, 42.1, 55.0}
	o, err := evidence.Grubbs(tests, 0.05, evidence.TwoSided)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: %.3f against %.3f, rejected %t\n", o.Value, o.Statistic, o.Critical, o.Rejected)
	// Output: 55 g/100g: 1.490 against 1.481, rejected true
}

func ExampleProduct() {
	// 100·V·ρ/m of a rub-out: 3.20 ± 0.05 ml of oil on 10 g.
	c, err := evidence.Product(100,
		evidence.Factor{Input: evidence.In("oil", evidence.Given[quantity.Volume](3.20, 0.05)), Power: 1},
		evidence.Factor{Input: evidence.In("density", evidence.Given[quantity.Density](0.930, 0.002)), Power: 1},
		evidence.Factor{Input: evidence.In("pigment", evidence.Given[quantity.Mass](10.00, 0.01)), Power: -1},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f ± %.2f g/100g\n", c.Value, c.U)
	// Output: 29.76 ± 0.47 g/100g
}

func ExampleUpdate() {
	// The catalogue's 30 to 60 g/100g, and three rub-outs of one jar.
	catalogue := evidence.Distribution[quantity.Absorption]{Median: 42.4, Sigma: 0.27}
	prior, err := evidence.Split(catalogue, evidence.EvenSplit)
	if err != nil {
		fmt.Println(err)
		return
	}
	var tests []evidence.Observation[quantity.Absorption]
	for _, oil := range []quantity.Absorption{43.0, 44.5, 42.5} {
		tests = append(tests, evidence.Observation[quantity.Absorption]{Lot: "jar 3", Value: oil, Scatter: 0.05})
	}
	p, err := evidence.Update(prior, tests)
	if err != nil {
		fmt.Println(err)
		return
	}
	show := func(what string, d evidence.Distribution[quantity.Absorption]) {
		r := d.Range()
		fmt.Printf("%-9s %.0f to %.0f\n", what, float64(r.Low), float64(r.High))
	}
	show("catalogue", catalogue)
	show("jar 3", p.Lot("jar 3"))
	show("next jar", p.NewLot)
	// Output:
	// catalogue 30 to 60
	// jar 3     42 to 45
	// next jar  32 to 58
}
