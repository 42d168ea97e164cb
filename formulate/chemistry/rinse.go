package chemistry

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// SaltsLeftRelation is what rinsing leaves.
var SaltsLeftRelation = trace.Relation{
	Name:     "salts left after rinsing",
	Equation: "w = (r/(r + v))ⁿ",
	Source:   "Waldbauer and Cortelyou, Optimum volume for a wash portion; James, Modern Engineering Mathematics, 6th edition, chapter 1",
}

// SaltsLeft is the share of the dissolved salts still there after n rinses with
// v of water each, when r of liquid stays behind in the settled or drained
// powder each time: (r/(r + v))ⁿ. It holds for salts that dissolve and mix fully;
// what the pigment holds by adsorption stays longer.
func SaltsLeft(rinses int, added, retained quantity.Volume) (quantity.MassFraction, error) {
	if rinses < 0 {
		return 0, fmt.Errorf("%d rinses: it cannot be fewer than none", rinses)
	}
	keep, err := kept(added, retained)
	return quantity.MassFraction(math.Pow(keep, float64(rinses))), err
}

func kept(added, retained quantity.Volume) (float64, error) {
	v, r := float64(added), float64(retained)
	switch {
	case !(v > 0) || math.IsInf(v, 1):
		return 0, fmt.Errorf("water of one rinse is %g ml: it must be positive and finite", v)
	case !(r > 0) || math.IsInf(r, 1):
		return 0, fmt.Errorf("liquid held back is %g ml: it must be positive and finite", r)
	}
	return r / (r + v), nil
}

// RinsesForRelation is how many rinses reach a share.
var RinsesForRelation = trace.Relation{
	Name:     "rinses for a share of salts",
	Equation: "n = ln w/ln(r/(r + v)), rounded up",
	Source:   "Waldbauer and Cortelyou, Optimum volume for a wash portion",
}

// RinsesFor is how many rinses leave no more than a share of the salts.
func RinsesFor(share quantity.MassFraction, added, retained quantity.Volume) (int, error) {
	if !(share > 0 && share <= 1) {
		return 0, fmt.Errorf("share of salts is %g: it lies above 0 and is at most 1", float64(share))
	}
	keep, err := kept(added, retained)
	if err != nil {
		return 0, err
	}
	n := math.Ceil(math.Log(float64(share))/math.Log(keep) - 1e-9)
	if n > 1e6 {
		return 0, fmt.Errorf("it would take %.0f rinses: use more water for each", n)
	}
	return int(n), nil
}
