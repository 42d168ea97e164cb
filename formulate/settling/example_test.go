package settling_test

import (
	"fmt"

	"mullwright/formulate/settling"
)

// An earth is washed: how long until nothing above 20 µm is left in the upper
// 10 cm of water, and how much of the 10 µm grains one wash leaves behind.
func Example() {
	water := settling.Liquid{Density: 0.998, Viscosity: 1.002}
	cut := settling.Grain{Size: 20, Density: 2.7}
	wait, _ := settling.CutTime(10, cut, water)
	fine, _ := settling.Terminal(settling.Grain{Size: 10, Density: 2.7}, water)
	share, _ := settling.DecantedShare(fine.Speed, wait, 10)
	left, _ := settling.StaysBehind(share, 3)
	fmt.Printf("wait %.1f min; one wash takes %.0f %% of the 10 µm grains, three leave %.1f %%\n",
		float64(wait)/60, 100*share, 100*left)
	// Output: wait 4.5 min; one wash takes 75 % of the 10 µm grains, three leave 1.6 %
}

// A bottle of ink: how fast a 0.5 µm grain falls, and how fine it must be to stay up.
func ExampleBrownianLimit() {
	ink := settling.Liquid{Density: 1.0, Viscosity: 3}
	f, _ := settling.Terminal(settling.Grain{Size: 0.5, Density: 1.8}, ink)
	t, _ := settling.FallTime(5, f.Speed)
	d, _ := settling.BrownianLimit(5, 1.8, ink.Density, 20)
	fmt.Printf("5 cm in %.0f days; kept up below %.0f nm\n", float64(t)/86400, 1000*d)
	// Output: 5 cm in 16 days; kept up below 27 nm
}

func ExampleHindered() {
	v, _ := settling.Hindered(1.1e-3, 0.20, settling.SlowestIndex)
	fmt.Printf("%.2f mm/s\n", 1000*v)
	// Output: 0.39 mm/s
}

func ExampleNearestSieve() {
	s, _ := settling.NearestSieve(60)
	fmt.Printf("no. %d, %g µm\n", s.Number, s.Opening)
	// Output: no. 230, 63 µm
}
