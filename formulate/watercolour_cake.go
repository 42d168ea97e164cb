package formulate

import (
	"errors"

	"mullwright/formulate/absorption"
	"mullwright/formulate/quantity"
)

// WetCake says what was changed so that damp pigment goes into the paint as it
// is, with all its water.
type WetCake struct {
	Brings quantity.Mass         // water in the damp pigment, in the batch as asked
	Room   quantity.Mass         // that the batch as asked takes; below zero: none
	Dry    quantity.MassFraction // moisture of the pigment that the batch as asked takes; 0: none
	Powder bool                  // the gum goes in dry instead of in solution
	Asked  absorption.Step       // body that was asked
	Body   absorption.Body       // that the paint has instead; 0: as asked
}

// slightlyThinner is how much of the body that was asked a paint may keep and
// still be made unasked: the step between the two softest bodies that have a name.
func slightlyThinner() quantity.Ratio {
	steps := absorption.Steps()
	last := len(steps) - 1
	return quantity.Ratio(steps[last].Typical / steps[last-1].Typical)
}

// fitCake changes a request whose damp pigment brings more water than the paint
// takes: the gum goes in dry and, where that is not enough, the body is one step
// thinner at the most. It returns nil where nothing need be changed, and a
// [*TooWetError] where that is not enough.
func (r *WatercolourRequest) fitCake() (*WetCake, error) {
	if r.Moisture == 0 {
		return nil, nil
	}
	binder, err := BinderMix(r.Solution, r.Humectants)
	if err != nil {
		return nil, err
	}
	mix, err := newWaterMix(r.Pigments, binder, r.Additives, r.Binding, Wetness{Body: r.Body}, r.Moisture)
	if err != nil {
		return nil, err
	}
	z := make([]float64, mix.inputs())
	asked := mix.at(z, nil)
	err = mix.tooWet(asked, r.times(asked))
	var wet *TooWetError
	if !errors.As(err, &wet) {
		return nil, err
	}
	c := &WetCake{Brings: wet.Cake, Room: wet.Room, Dry: wet.Dry, Asked: r.Body}
	if len(r.Solution.Parts) > 1 {
		gum, ok, err := inPowder(r.Solution)
		if err != nil {
			return nil, err
		}
		if !ok {
			return nil, wet // a made-up binder cannot be had dry
		}
		r.Solution, c.Powder = gum, true
	}
	if wet.Powder {
		return c, nil
	}
	dry := mix.clone()
	dry.cake = 0
	body := dry.at(z, nil).paint.Figures().Body()
	c.Body = wet.BodyToAsk()
	if c.Body < absorption.LeastBody || quantity.Ratio(c.Body/body) < slightlyThinner() {
		return nil, wet
	}
	r.Body = absorption.Step{Low: c.Body, Typical: c.Body, High: c.Body, Basis: "what the water in the pigment leaves"}
	return c, nil
}

// inPowder is the gum of a solution without its water; ok is false where more
// than one gum is dissolved in it.
func inPowder(l Liquid) (gum Liquid, ok bool, err error) {
	var dry []LiquidPart
	for _, p := range l.Parts {
		if p.Role() != Volatile {
			dry = append(dry, p)
		}
	}
	if len(dry) != 1 {
		return l, false, nil
	}
	gum, err = NewLiquid(dry[0].Material, dry)
	return gum, err == nil, err
}
