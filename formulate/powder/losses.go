package powder

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Stage is one step of the work with the dry mass before and after it: wet
// cake to dry, dry to ground, ground to sieved, sieved to paint. Reckon damp
// masses dry first.
type Stage struct {
	Name    string
	In, Out quantity.Mass
}

// A Loss is what one stage cost.
type Loss struct {
	Stage
	Kept quantity.MassFraction // Out/In
	Lost quantity.Mass         // In − Out
}

// A Yield is what is kept through all stages.
type Yield struct {
	Losses []Loss
	Kept   quantity.MassFraction // product of the stages'
	Worst  string                // the stage that keeps least
}

// YieldRelation is the yield through stages.
var YieldRelation = trace.Relation{
	Name:     "yield through stages",
	Equation: "Y = Π(mᵢ,after/mᵢ,before)",
	Source:   "conservation of mass",
}

// Through multiplies the shares that each stage keeps. A stage need not begin
// with what the one before gave: samples taken on the way do not count as lost.
func Through(stages []Stage) (Yield, error) {
	if len(stages) == 0 {
		return Yield{}, fmt.Errorf("no stage was given")
	}
	y := Yield{Kept: 1}
	least := quantity.MassFraction(2)
	for _, s := range stages {
		if err := positive(s.Name+": mass before", s.In, "g"); err != nil {
			return Yield{}, err
		}
		if err := notNegative(s.Name+": mass after", s.Out, "g"); err != nil {
			return Yield{}, err
		}
		if s.Out > s.In {
			return Yield{}, fmt.Errorf("%s: %g g became %g g: more comes out than went in; is one of them damp, or did salts stay in it", s.Name, float64(s.In), float64(s.Out))
		}
		l := Loss{Stage: s, Kept: quantity.MassFraction(s.Out / s.In), Lost: s.In - s.Out}
		if l.Kept < least {
			least, y.Worst = l.Kept, s.Name
		}
		y.Losses = append(y.Losses, l)
		y.Kept *= l.Kept
	}
	return y, nil
}
