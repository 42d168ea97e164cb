package absorption

import (
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// The named bodies. Each is a share of the oil of tube colour; its body follows
// for a common pigment, a coloured one with the mean oil absorption of the fit.
var steps = [...]Step{
	step("stiff", quantity.Ratio(math.Exp(fitted.Ground)), "stands where it is put, folds under the knife like putty",
		"fitted: ground pastes beside tube colours"),
	step("buttery", 1, "holds a peak and spreads like butter; tube colour",
		"fitted: published artists' paints"),
	step("soft", quantity.Ratio(math.Exp(fitted.Flowing/2)), "peaks bend over, drags without effort",
		"common practice: half way from buttery to flowing"),
	step("flowing", quantity.Ratio(math.Exp(fitted.Flowing)), "runs off the knife in a ribbon and levels",
		"fitted: brush-ready beside paste in one handbook, three pigments"),
}

func step(name string, oil quantity.Ratio, feel, basis string) Step {
	rubOut := math.Exp(fitted.RubOutMean)
	spread := math.Sqrt(fitted.variance(fitted.RubOutMean, 0) + fitted.Between*fitted.Between)
	at := func(z float64) Body {
		d := math.Exp(fitted.lnForetold(fitted.RubOutMean, 0)+spread*z) * float64(oil)
		return Body((1 + rubOut) / (1 + d))
	}
	return Step{Name: name, Low: at(evidence.Z90), Typical: at(0), High: at(-evidence.Z90), Oil: oil, Feel: feel, Basis: basis}
}
