package optics

import (
	"fmt"
	"strconv"

	"mullwright/formulate/quantity"
)

// String names a thickness: "½ film", "1 film", "2 films".
func (x Films) String() string {
	switch x {
	case 0.25:
		return "¼ film"
	case 0.5:
		return "½ film"
	case 1:
		return "1 film"
	}
	return strconv.FormatFloat(float64(x), 'g', -1, 64) + " films"
}

// Step names a step of the ladder: "masstone", "1 : 3 white".
func (l TintLadder) Step(i int) string { return tintName(l.White[i]) }

func tintName(white quantity.Parts) string {
	if white == 0 {
		return "masstone"
	}
	return "1 : " + strconv.FormatFloat(float64(white), 'g', -1, 64) + " white"
}

// Ground names a ground of the ladder by its place, light to dark, and its
// reflectance: "white, 91 %".
func (l GlazeLadder) Ground(i int) string {
	n := len(l.Grounds)
	name := "grey"
	switch {
	case i == 0:
		name = "white"
	case i == n-1:
		name = "black"
	case n == 4:
		name = [...]string{"", "light grey", "dark grey"}[i]
	}
	return fmt.Sprintf("%s, %.0f %%", name, 100*float64(l.Grounds[i]))
}
