package formulate

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/quantity"
)

// The slab's size says how much is mulled at a time, and its user's own figure
// goes before it; the mulls are equal and none is over it.
func TestSplitOnTheSlab(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Slab{Width: quantity.Length(rapid.Float64Range(10, 80).Draw(t, "width")), Depth: quantity.Length(rapid.Float64Range(10, 80).Draw(t, "depth"))}
		batch := quantity.Volume(rapid.Float64Range(1, 500).Draw(t, "batch"))
		most := PastePerMull(s)
		own := rapid.Bool().Draw(t, "own")
		if own {
			s.PerMull = quantity.Volume(rapid.Float64Range(1, 60).Draw(t, "per mull"))
			most = s.PerMull
		}
		m := split(s, batch)
		if m.OnSlab != most || m.Own != own {
			t.Fatalf("%g ml at a time, own %t; want %g, %t", float64(m.OnSlab), m.Own, float64(most), own)
		}
		if each := float64(m.Each); each > float64(most)*(1+1e-6) || !closeTo(each*float64(m.Count), float64(batch), 1e-9) || m.Count > 1 && each < float64(most)/2 {
			t.Fatalf("%d mulls of %g ml for %g ml, %g at a time", m.Count, each, float64(batch), float64(most))
		}
	})
}

// Masses that a balance shows carry no binary dust: a pour's running total, the
// powder in a dish.
func TestMassesAreTidy(t *testing.T) {
	dusty := func(m quantity.Mass) bool { return len(strconv.FormatFloat(float64(m), 'g', -1, 64)) > 9 }
	rapid.Check(t, func(t *rapid.T) {
		req := request(t)
		req.Sampling.Draws, req.Amount.Mass = 128, quantity.Mass(rapid.IntRange(10, 400).Draw(t, "pigment"))
		r, err := Mull(req)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range r.Pours.Ladder {
			if p.Drops == 0 && (dusty(p.Total) || dusty(p.Add)) {
				t.Fatalf("pour of %v to %v", float64(p.Add), float64(p.Total))
			}
		}
		dish, damp := rapid.IntRange(1000, 3000).Draw(t, "dish"), rapid.IntRange(200, 900).Draw(t, "damp")
		m, err := PowderMoisture(MoistureRequest{Dish: quantity.Mass(float64(dish) / 100), Damp: quantity.Mass(float64(dish+damp) / 100), Dried: []quantity.Mass{quantity.Mass(float64(dish+damp-15) / 100)}, Scale: 0.01})
		if err != nil {
			t.Fatal(err)
		}
		if dusty(m.Powder) || dusty(m.Dry) || dusty(m.Water) {
			t.Fatalf("powder %v, dry %v, water %v", float64(m.Powder), float64(m.Dry), float64(m.Water))
		}
	})
}

// Pours up to half of a pan are never more than thinner ones.
func TestPoursAtHalf(t *testing.T) {
	req := gumRequest(t)
	req.Pans = &PansAsked{Name: "half pan", Brim: 2, Count: 12, Fill: 0.85, Deepest: 0.33}
	r := watercolour(t, req)
	if p := r.Pans[0]; !(p.AtHalf > 0 && p.AtHalf < len(p.Pours)) {
		t.Errorf("%d pours at a third, %d at half", len(p.Pours), p.AtHalf)
	}
	req.Pans.Deepest = 0.6
	if p := watercolour(t, req).Pans[0]; p.AtHalf != 0 {
		t.Errorf("pours of 60 %% are set beside %d of 50 %%", p.AtHalf)
	}
}
