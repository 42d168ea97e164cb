package formulate_test

import (
	"strings"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// paintOf is a paint of one shipped powder in one shipped oil at a named body.
func paintOf(t *testing.T, powder, oil, body string) formulate.MullRequest {
	t.Helper()
	ready := func(id string) formulate.Ingredient {
		in, err := formulate.NewIngredient(shipped(t, id)[0])
		if err != nil {
			t.Fatal(err)
		}
		return in
	}
	step, ok := absorption.NamedBody(body)
	if !ok {
		t.Fatalf("no body %q", body)
	}
	return formulate.MullRequest{
		Pigments: []formulate.Share{{Ingredient: ready(powder), Parts: 1}},
		Oils:     []formulate.Share{{Ingredient: ready(oil), Parts: 1}},
		Amount:   formulate.Amount{Kind: formulate.ByPaintVolume, Volume: 10},
		Target:   formulate.Target{Kind: formulate.AtBody, Body: step},
	}
}

func thinOf(t *testing.T, req formulate.ThinRequest) *formulate.ThinResult {
	t.Helper()
	if req.Sampling.Draws == 0 {
		req.Sampling.Draws = 256
	}
	res, err := formulate.Thin(req)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// Where the oil absorption calls a tube paint crumbly and the demand does not,
// the film is undecided, and nobody is told to pour oil.
func TestContradictingWitnesses(t *testing.T) {
	for _, id := range []string{"viridian", "carbon-black", "manganese-brown"} {
		for _, body := range []string{"stiff", "buttery"} {
			paint := paintOf(t, id, "linseed-oil", body)
			b := thinOf(t, formulate.ThinRequest{Paint: paint, Temperature: 20}).Bound
			if b.Verdict != formulate.Undecided || !b.Contradicted || b.Nearest != nil || !strings.HasPrefix(b.Reason, "oil absorption and demand contradict each other") {
				t.Errorf("%s, %s: %v, contradicted %t, reduced PVC %.3g: %s; nearest %+v", id, body, b.Verdict, b.Contradicted, float64(b.Reduced.Typical), b.Reason, b.Nearest)
			}
			res, err := formulate.Layers(formulate.LayersRequest{Sampling: formulate.Sampling{Draws: 256},
				Layers: []formulate.LayerAsked{{Name: "one", Thin: formulate.ThinRequest{Paint: paint, Wet: 60, Temperature: 20}}}})
			if err != nil {
				t.Fatal(err)
			}
			if f := res.Layers[0].Findings[0]; res.First != nil || len(res.Mends) > 0 || f.Verdict != formulate.Undecided || f.Text != b.Reason {
				t.Errorf("%s, %s, as a layer: fault %+v, finding %+v", id, body, res.First, f)
			}
		}
	}
}

// A film that both call too lean is at fault, and the oil named for it is what
// the stiff paste holds, less than the oil absorption would have.
func TestBothWitnessesAgainst(t *testing.T) {
	req := formulate.ThinRequest{Paint: paintOf(t, "viridian", "linseed-oil", "stiff"), Wet: 40, Absorbed: 5, GroundKnown: true, Temperature: 20}
	b := thinOf(t, req).Bound
	if b.Verdict != formulate.Fails || b.Nearest == nil {
		t.Fatalf("%v, nearest %+v", b.Verdict, b.Nearest)
	}
	if n := b.Nearest.Bond; n.Verdict == formulate.Fails || n.Paste.High > 1+1e-6 || n.Paste.High < 0.99 {
		t.Errorf("the nearest recipe: %+v", n)
	}
	if !strings.Contains(b.Reason, "by what the stiffest artists' paste of it holds") {
		t.Error(b.Reason)
	}
}

// Whatever the powder and the oil, a paint at a named body is never called
// under-bound: it is what the demand of its pigment says.
func TestNamedBodiesAreNeverAtFault(t *testing.T) {
	for _, m := range catalogue(t) {
		if m.Kind != material.Pigment && m.Kind != material.Extender {
			continue
		}
		if _, err := formulate.NewIngredient(m); err != nil {
			continue // no density or no evidence of its oil
		}
		for _, oil := range []string{"linseed-oil", "stand-oil"} {
			for _, s := range absorption.Steps() {
				if b := thinOf(t, formulate.ThinRequest{Paint: paintOf(t, m.ID, oil, s.Name), Temperature: 20, Sampling: formulate.Sampling{Draws: 64}}).Bound; b.Verdict == formulate.Fails {
					t.Errorf("%s in %s, %s: %+v", m.ID, oil, s.Name, b.Bond)
				}
			}
		}
	}
}

// The stiff paste itself stands at 1 whatever the draw, half of its oil above.
func TestOverStiffPaste(t *testing.T) {
	for _, oil := range []string{"linseed-oil", "stand-oil"} {
		for _, id := range []string{"prussian-blue", "lead-white", "viridian"} {
			p := thinOf(t, formulate.ThinRequest{Paint: paintOf(t, id, oil, "stiff"), Temperature: 20}).Bound.Paste
			for _, v := range []quantity.Ratio{p.Low, p.Typical, p.High} {
				if v < 1-1e-9 || v > 1+1e-9 {
					t.Errorf("%s in %s: PVC over that of stiff paste %v, want 1", id, oil, p)
				}
			}
		}
	}
}
