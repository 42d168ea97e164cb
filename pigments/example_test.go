package pigments_test

import (
	"fmt"

	"mullwright/pigments"
)

func ExampleNew() {
	m, err := pigments.New().Lookup("Pigment Green 18")
	if err != nil {
		fmt.Println(err)
		return
	}
	d := m.DensityDistribution().Range()
	fmt.Printf("%s: %.1f g/ml (%.1f to %.1f)\n", m.Name, float64(d.Typical), float64(d.Low), float64(d.High))
	// Output: Viridian: 3.3 g/ml (3.2 to 3.5)
}
