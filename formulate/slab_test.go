package formulate

import (
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
