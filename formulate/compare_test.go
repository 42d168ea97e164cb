package formulate

import (
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

func compareRequest(t interface{ Fatal(...any) }) CompareRequest {
	body, _ := absorption.NamedBody("buttery")
	return CompareRequest{
		Pigments: []Ingredient{ready(t, powder("thirsty", 2, 90)), ready(t, powder("spare", 6, 12)), ready(t, powder("middling", 3, 40))},
		Oil:      ready(t, liquid("oil", material.Oil, 0.93)),
		At:       SameBody, Body: body, Tube: 40, Fill: 0.78, Film: 100, Sort: "oil",
	}
}

func TestCompareOrders(t *testing.T) {
	r, err := Compare(compareRequest(t))
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, row := range r.Rows {
		ids = append(ids, row.Material.ID)
	}
	if ids[0] != "spare" || ids[1] != "middling" || ids[2] != "thirsty" {
		t.Errorf("by oil: %v", ids)
	}
	if c := r.Rows[0].Certain; c < OrderMatters {
		t.Errorf("12 against 40 g/100 g: certain only to %v, less than an order worth naming", c)
	}
	if c := r.Rows[2].Certain; c != 0 {
		t.Errorf("the last has no next, certain %v", c)
	}
}

// Two lots of the same evidence cannot be put in order.
func TestCompareUndecided(t *testing.T) {
	req := compareRequest(t)
	req.Pigments = []Ingredient{ready(t, powder("one", 3, 40)), ready(t, powder("other", 3, 41))}
	r, err := Compare(req)
	if err != nil {
		t.Fatal(err)
	}
	if c := r.Rows[0].Certain; c > 0.6 || c < 0.4 {
		t.Errorf("40 before 41 g/100 g is certain to %v, want about a half", c)
	}
}

func TestCompareBases(t *testing.T) {
	req := compareRequest(t)
	req.Sampling.Exact = true
	req.At, req.PVC = SamePVC, 0.3
	r, err := Compare(req)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range r.Rows {
		near(t, row.Material.ID+" PVC", float64(row.PVC.Typical), 0.3, 1e-12)
	}
	req.At, req.OilPer = SameOil, 50
	r, _ = Compare(req)
	for _, row := range r.Rows {
		near(t, row.Material.ID+" oil", float64(row.Oil.Typical), 50, 1e-9)
	}
	req.At = SameVolume
	r, _ = Compare(req)
	for _, row := range r.Rows {
		near(t, row.Material.ID+" fills the tube", float64(row.Powder.Typical)/100*float64(row.Paint.Typical), 40*0.78, 1e-9)
	}
}

func TestAlikeRanksItselfFirst(t *testing.T) {
	a := Look{Ingredient: ready(t, powder("a", 3, 40))}
	twin := Look{Ingredient: ready(t, powder("twin", 3, 40))}
	far := Look{Ingredient: ready(t, powder("far", 1.5, 20))}
	got := Alike(a, []Look{far, twin, a})
	if len(got) != 2 || got[0].Material.ID != "twin" || got[0].All != 1 {
		t.Errorf("Alike = %+v, want twin first with 1, and not the pigment itself", got)
	}
	if got[1].All >= quantity.Ratio(0.5) {
		t.Errorf("a pigment of half the density and a quarter of the oil by volume is alike to %v", got[1].All)
	}
}

// The whole catalogue with every oil at every body: see DEVELOPERS.md.
func BenchmarkCompare(b *testing.B) {
	req := compareRequest(b)
	req.Sampling.Draws = 10000
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Compare(req); err != nil {
			b.Fatal(err)
		}
	}
}
