package formulate

import (
	"math"
	"strings"
	"testing"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

func gumColour(t *testing.T) CorrectGumRequest {
	water := pourable(t, "water", material.Water, 0.9982, 0)
	gum := pourable(t, "gum", material.Gum, 1.4, 0)
	solution, err := NewLiquid(&material.Material{ID: "gum-water", Name: "Gum water", Kind: material.Medium},
		[]LiquidPart{NewLiquidPart(gum, 1, nil), NewLiquidPart(water, 2, nil)})
	if err != nil {
		t.Fatal(err)
	}
	pour := func(in Ingredient) Liquid {
		l, err := NewLiquid(in.Material, []LiquidPart{NewLiquidPart(in, 1, nil)})
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	glycerine := pour(pourable(t, "glycerine", material.Humectant, 1.26, 0))
	return CorrectGumRequest{
		Batch: GumBatch{
			Powders: []GumPowder{{ready(t, powder("blue", 2.34, 30)), 20}},
			Pours:   []GumPour{{solution, 18}, {glycerine, 2}},
		},
		Means: GumMeans{Solution: solution, Humectant: glycerine, Water: pour(water)},
		Scale: 0.1, Sampling: Sampling{Exact: true},
	}
}

// Asked for a PVC, the batch lands on it: by gum where it is too lean, by
// pigment where it is too fat.
func TestCorrectGumToPVC(t *testing.T) {
	for _, want := range []float64{0.3, 0.45, 0.6, 0.75} {
		req := gumColour(t)
		req.PVC = quantity.VolumeFraction(want)
		r, err := CorrectGum(req)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(r.After.Figures.PVC.Typical); math.Abs(got-want) > 1e-9 {
			t.Errorf("asked for a PVC of %v, got %v", want, got)
		}
		lean := r.Now.Figures.PVC.Typical > req.PVC
		if lean != (r.ToGoal.Add != nil) || lean != (r.ToGoal.PigmentMore == 0) {
			t.Errorf("PVC %v to %v: %+v", r.Now.Figures.PVC.Typical, want, r.ToGoal)
		}
		added := r.ToGoal.AddMass + 20*quantity.Mass(r.ToGoal.PigmentMore)
		if got := r.After.Figures.Mass.Typical - r.Now.Figures.Mass.Typical; math.Abs(float64(got-added)) > 1e-9 {
			t.Errorf("%v g were added, the batch grew by %v g", added, got)
		}
	}
}

func TestCorrectGumSymptom(t *testing.T) {
	req := gumColour(t)
	req.Symptom = PowdersOff
	r, err := CorrectGum(req)
	if err != nil {
		t.Fatal(err)
	}
	if r.Remedy.Add == nil || r.After.Figures.PVC.Typical >= r.Now.Figures.PVC.Typical {
		t.Errorf("powders off: remedy %+v, PVC %v to %v", r.Remedy, r.Now.Figures.PVC.Typical, r.After.Figures.PVC.Typical)
	}
	near(t, "PVC after, by both paths", float64(r.After.Figures.PVC.Typical), float64(r.Remedy.PVCAfter), 1e-12)
	near(t, "humectant to gum", float64(r.Humectant), 2.0/6, 1e-12)
	req.Symptom = Glossy
	if r, err = CorrectGum(req); err != nil {
		t.Fatal(err)
	}
	if r.Remedy.PigmentMore <= 0 || r.After.Figures.PVC.Typical <= r.Now.Figures.PVC.Typical {
		t.Errorf("glossy: remedy %+v", r.Remedy)
	}
}

func TestCorrectGumRefuses(t *testing.T) {
	for _, tt := range []struct {
		name, says string
		change     func(*CorrectGumRequest)
	}{
		{"nothing asked", "one thing", func(*CorrectGumRequest) {}},
		{"both asked", "one thing", func(r *CorrectGumRequest) { r.Symptom, r.PVC = Glossy, 0.5 }},
		{"no gum", "no gum", func(r *CorrectGumRequest) { r.PVC, r.Batch.Pours = 0.5, r.Batch.Pours[1:] }},
		{"no pigment", "no pigment", func(r *CorrectGumRequest) { r.PVC, r.Batch.Powders = 0.5, nil }},
		{"PVC over 100 %", "below 100 %", func(r *CorrectGumRequest) { r.PVC = 1.2 }},
		{"nothing to wet with", "no wetting agent", func(r *CorrectGumRequest) { r.Symptom = Beads }},
	} {
		req := gumColour(t)
		tt.change(&req)
		if _, err := CorrectGum(req); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: error %v, want one that says %q", tt.name, err, tt.says)
		}
	}
}
