package formulate

import (
	"errors"
	"fmt"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// CorrectGumRequest asks for one change to a gum colour: by what is seen of it,
// or to a PVC of the dry film.
type CorrectGumRequest struct {
	Batch GumBatch
	// Formula, where given, is what the batch was made by; Batch and Means are
	// then taken from it.
	Formula  *WatercolourRequest
	Symptom  Symptom                 // "" where a PVC is asked
	PVC      quantity.VolumeFraction // 0 where a symptom is told
	Means    GumMeans
	Scale    quantity.Mass
	Sampling Sampling
}

// GumToGoal is what brings a gum colour to a PVC: gum solution, or more of its
// own pigment.
type GumToGoal struct {
	Want        quantity.VolumeFraction
	Add         *material.Material // the solution; nil: pigment
	AddMass     quantity.Mass
	PigmentMore quantity.Ratio
}

// CorrectGumResult is the batch as it is, the change, and the batch after it.
type CorrectGumResult struct {
	Request   CorrectGumRequest
	Now       *RecipeResult
	After     *RecipeResult // nil where the batch is to be thrown away
	Remedy    *GumRemedy
	ToGoal    *GumToGoal
	Humectant quantity.Ratio // to gum, as it is
	Cautions  []Caution
}

// Steps is the derivation: of the batch as it is, then of the batch after.
func (r *CorrectGumResult) Steps() []trace.Step {
	out := append([]trace.Step(nil), r.Now.Steps...)
	if r.After != nil {
		out = append(out, r.After.Steps...)
	}
	return out
}

// CorrectGum works one correction of a gum colour out.
func CorrectGum(req CorrectGumRequest) (*CorrectGumResult, error) {
	if (req.Symptom == "") == (req.PVC == 0) {
		return nil, errors.New("one thing is to be said: what is wrong with the paint, or the PVC it should have")
	}
	if req.Formula != nil {
		made, err := Watercolour(*req.Formula)
		if err != nil {
			return nil, err
		}
		req.Batch, req.Means = made.Batch, req.Formula.Means
	}
	if err := req.Batch.check(); err != nil {
		return nil, err
	}
	res := &CorrectGumResult{Request: req, Humectant: req.Batch.HumectantRatio()}
	var err error
	if res.Now, err = req.composition(req.Batch); err != nil {
		return nil, err
	}
	after, err := req.change(res)
	switch {
	case err != nil:
		return nil, err
	case res.Remedy != nil && res.Remedy.Discard:
		res.Cautions = res.Now.Cautions
		return res, nil
	}
	if res.After, err = req.composition(after); err != nil {
		return nil, err
	}
	res.Cautions = res.After.Cautions
	return res, nil
}

// change finds the one change, notes it in the result and makes it.
func (r *CorrectGumRequest) change(res *CorrectGumResult) (GumBatch, error) {
	if r.Symptom == "" {
		goal, after, err := r.toPVC()
		res.ToGoal = goal
		return after, err
	}
	remedy, err := GumCorrection(r.Batch, r.Symptom, r.Means)
	if err != nil {
		return r.Batch, err
	}
	res.Remedy = &remedy
	if remedy.Discard {
		return r.Batch, nil
	}
	return r.with(remedy.Add, remedy.AddMass, remedy.PigmentMore)
}

// toPVC goes the way that is open: gum where the film is too lean, pigment
// where it is too fat.
func (r *CorrectGumRequest) toPVC() (*GumToGoal, GumBatch, error) {
	goal := &GumToGoal{Want: r.PVC}
	var err error
	if r.Batch.Paint().Figures().PVC() > r.PVC {
		goal.Add = r.Means.Solution.Material
		if goal.AddMass, err = GumToPVC(r.Batch, r.PVC, r.Means.Solution); err != nil {
			return nil, r.Batch, err
		}
	} else if goal.PigmentMore, err = PigmentToPVC(r.Batch, r.PVC); err != nil {
		return nil, r.Batch, err
	}
	after, err := r.with(goal.Add, goal.AddMass, goal.PigmentMore)
	return goal, after, err
}

// with is the batch after an addition.
func (r *CorrectGumRequest) with(add *material.Material, mass quantity.Mass, more quantity.Ratio) (GumBatch, error) {
	if add == nil {
		return r.Batch.PlusPigment(more), nil
	}
	m := &r.Means
	for _, l := range []Liquid{m.Solution, m.Humectant, m.Wetting, m.Preservative, m.Water} {
		if l.Material == add {
			return r.Batch.Plus(l, mass), nil
		}
	}
	return r.Batch, fmt.Errorf("%s is not at hand", add.ID)
}

// composition is what a batch truly holds, by the path of a recipe.
func (r *CorrectGumRequest) composition(b GumBatch) (*RecipeResult, error) {
	req := RecipeRequest{Sampling: r.Sampling}
	for i := range b.Powders {
		p := &b.Powders[i]
		l, err := NewLiquid(p.Material, []LiquidPart{NewLiquidPart(p.Ingredient, 1, nil)})
		if err != nil {
			return nil, err
		}
		req.Lines = append(req.Lines, RecipeLine{Of: l, By: WeighedOut, Mass: p.Mass})
	}
	for i := range b.Pours {
		req.Lines = append(req.Lines, RecipeLine{Of: b.Pours[i].Liquid, By: WeighedOut, Mass: b.Pours[i].Mass})
	}
	return TrueComposition(req)
}
