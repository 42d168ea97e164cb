package gum

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// ShareRelation is the strength of a solution.
var ShareRelation = trace.Relation{
	Name:     "share of gum in a solution",
	Equation: "w = 1/(1 + r)",
	Source:   "definition of the ratio 1 : r by mass",
}

// Share is the share by mass of what is dissolved in a solution of 1 : r, r the
// mass of liquid for one of gum, both as weighed. r = 0 is the dry powder.
func Share(r quantity.Ratio) quantity.MassFraction { return quantity.MassFraction(1 / (1 + r)) }

// RatioOfShare is the r of a solution 1 : r that holds the share w.
func RatioOfShare(w quantity.MassFraction) (quantity.Ratio, error) {
	if !(w > 0 && w <= 1) {
		return 0, fmt.Errorf("a strength of %g %% holds no gum or more than everything: want above 0 %% and at most 100 %%", 100*float64(w))
	}
	return quantity.Ratio(1/w - 1), nil
}

// HumectantRatioRelation is the hidden number of a recipe.
var HumectantRatioRelation = trace.Relation{
	Name:     "humectant to gum",
	Equation: "h = mhumectant/mgum",
	Source:   "definition, both as weighed",
}

// HumectantRatio is humectant over gum by mass, both as weighed; 0 without gum.
func HumectantRatio(humectant, gum quantity.Mass) quantity.Ratio {
	if gum == 0 {
		return 0
	}
	return quantity.Ratio(humectant / gum)
}
