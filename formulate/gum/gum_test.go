package gum_test

import (
	"math"
	"testing"

	"mullwright/formulate/gum"
	"mullwright/formulate/quantity"

	"pgregory.net/rapid"
)

func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Max(math.Abs(want), 1e-12)
}

// The pours of a pan leave the share asked for, none is too deep, none runs over,
// and one pour fewer would not do.
func TestPanPours(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		brim := rapid.Float64Range(0.1, 50).Draw(r, "brim")
		fill := rapid.Float64Range(0.01, float64(gum.MostFill)).Draw(r, "fill")
		solids := rapid.Float64Range(0.15, 1).Draw(r, "solids")
		deepest := rapid.Float64Range(0.1, 1).Draw(r, "deepest")
		pours, err := gum.PanPours(quantity.Volume(brim), quantity.VolumeFraction(fill), quantity.VolumeFraction(solids), quantity.VolumeFraction(deepest))
		if err != nil {
			// Refused only where MostPours of the largest pours do not reach.
			most := 0.0
			for range gum.MostPours {
				most += solids * math.Min(deepest, 1-most)
			}
			if most >= fill {
				r.Fatalf("refused though %d pours reach %g: %v", gum.MostPours, most, err)
			}
			return
		}
		level := 0.0
		for i, p := range pours {
			if float64(p.Wet) > brim*deepest*(1+1e-9) {
				r.Errorf("pour %d of %g ml is deeper than %g of the pan", i+1, float64(p.Wet), deepest)
			}
			if over := level + float64(p.Wet); over > brim*(1+1e-9) {
				r.Errorf("pour %d brings %g ml into a pan of %g", i+1, over, brim)
			}
			if !near(float64(p.Dry), float64(p.Wet)*solids, 1e-9) {
				r.Errorf("pour %d of %g ml leaves %g", i+1, float64(p.Wet), float64(p.Dry))
			}
			level += float64(p.Dry)
			if !near(float64(p.Fill)*brim, level, 1e-9) {
				r.Errorf("after pour %d the pan is said %g full and is %g", i+1, float64(p.Fill), level/brim)
			}
		}
		if !near(level, brim*fill, 1e-9) {
			r.Errorf("dry pours sum to %g ml of %g, want the share %g", level, brim, fill)
		}
		if n := len(pours); n > 1 {
			least := 0.0
			for range n - 1 {
				least += solids * math.Min(deepest, 1-least)
			}
			if least >= fill*(1+1e-9) {
				r.Errorf("%d pours where %d reach %g", n, n-1, least)
			}
		}
	})
}

// Pours to the brim are the closed form.
func TestPanPoursToTheBrim(t *testing.T) {
	for n := 1; n <= 6; n++ {
		fill := gum.FillAfter(n, 0.57)
		pours, err := gum.PanPours(2, fill, 0.43, 1)
		if err != nil {
			t.Fatal(err)
		}
		if len(pours) != n {
			t.Errorf("%d pours fill %g, the closed form takes %d", len(pours), float64(fill), n)
		}
		for i, p := range pours {
			if want := gum.FillAfter(i+1, 0.57); !near(float64(p.Fill), float64(want), 1e-9) {
				t.Errorf("after %d of %d pours: %g full, want %g", i+1, n, float64(p.Fill), float64(want))
			}
		}
	}
}

func TestPanPoursRefuse(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name                        string
		brim, fill, solids, deepest float64
	}{
		{"no pan", 0, 0.85, 0.4, 0.3}, {"pan not a number", nan, 0.85, 0.4, 0.3}, {"no fill", 2, 0, 0.4, 0.3}, {"over full", 2, 0.99, 0.4, 0.3},
		{"no solids", 2, 0.85, 0, 0.3}, {"solids not a number", 2, 0.85, nan, 0.3}, {"no pour", 2, 0.85, 0.4, 0}, {"pour over the brim", 2, 0.85, 0.4, 1.1},
		{"too watery", 2, 0.95, 0.001, 1},
	} {
		if p, err := gum.PanPours(quantity.Volume(c.brim), quantity.VolumeFraction(c.fill), quantity.VolumeFraction(c.solids), quantity.VolumeFraction(c.deepest)); err == nil {
			t.Errorf("%s: accepted, %d pours", c.name, len(p))
		}
	}
}

func TestStrengths(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		x := quantity.Ratio(rapid.Float64Range(0, 1000).Draw(r, "r"))
		back, err := gum.RatioOfShare(gum.Share(x))
		if err != nil || math.Abs(float64(back-x)) > 1e-9*(1+float64(x)) {
			r.Errorf("1 : %g becomes %g (%v)", float64(x), float64(back), err)
		}
	})
	for _, w := range []float64{0, -0.1, 1.1, math.NaN()} {
		if _, err := gum.RatioOfShare(quantity.MassFraction(w)); err == nil {
			t.Errorf("a strength of %g is accepted", w)
		}
	}
}

// Damp air gets less humectant than dry, and all lie within what is published.
func TestHumectantByAir(t *testing.T) {
	published := gum.HumectantRatios()
	low, high := published[0].Middle(), published[len(published)-1].Middle()
	last := quantity.Ratio(0)
	for _, a := range []gum.Air{gum.DampAir, gum.OrdinaryAir, gum.DryAir} {
		h, err := gum.HumectantFor(a)
		if err != nil {
			t.Fatal(err)
		}
		if !(h > last && h > low && h < high) {
			t.Errorf("%s air: %g after %g, published %g to %g", a, float64(h), float64(last), float64(low), float64(high))
		}
		last = h
	}
	if _, err := gum.HumectantFor("moist"); err == nil {
		t.Error(`air "moist" is accepted`)
	}
	for i := 1; i < len(published); i++ {
		if published[i].Middle() < published[i-1].Middle() {
			t.Errorf("published ratios are not in order at %d", i)
		}
	}
}
