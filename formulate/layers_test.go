package formulate

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

const aDay quantity.Duration = 86400

func dries(m *material.Material, low, high quantity.Duration) *material.Material {
	m.DryingTime = []evidence.Reading[quantity.Duration]{{Low: low * aDay, High: high * aDay, Source: "invented"}}
	return m
}

// layer is an invented paint at a PVC, in a film of 40 µm, left two weeks.
func layer(t interface{ Fatal(...any) }, name string, pigment *material.Material, pvc quantity.VolumeFraction) LayerAsked {
	req := request(t)
	req.Pigments = []Share{{ready(t, pigment), 1}}
	req.Oils = []Share{{ready(t, dries(liquid("oil", material.Oil, 0.93), 3, 5)), 1}}
	req.Target = Target{Kind: AtPVC, PVC: pvc, AboveCritical: true}
	left := 14 * aDay
	return LayerAsked{Name: name, Thin: ThinRequest{Paint: req, Wet: 40, Temperature: 20}, Dried: &left}
}

func speaks(m *material.Material, drying string) *material.Material {
	m.DryingEffect = []material.Statement{{Text: drying, Source: "invented"}}
	return m
}

// quickWhite and quickBlue are invented pigments that dry as fast as each other.
func quickWhite() *material.Material { return speaks(powder("white", 6.7, 11), "dries fast") }
func quickBlue() *material.Material  { return speaks(powder("blue", 2.34, 34), "dries fast") }

func judged(t interface{ Fatal(...any) }, layers ...LayerAsked) *LayersResult {
	res, err := Layers(LayersRequest{Layers: layers, Sampling: Sampling{Draws: 256}})
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func verdictOf(l LayerResult, rule Rule) Verdict {
	for _, f := range l.Findings {
		if f.Rule == rule {
			return f.Verdict
		}
	}
	return NotKnown
}

func TestFatOverLean(t *testing.T) {
	lean, fat := layer(t, "lean", quickWhite(), 0.5), layer(t, "fat", quickBlue(), 0.3)
	res := judged(t, lean, fat)
	if res.First != nil || verdictOf(res.Layers[1], FatOverLean) != Holds {
		t.Errorf("fat over lean: %+v", res.Layers[1].Findings)
	}
	res = judged(t, fat, lean)
	if res.First == nil || res.First.Layer != 1 || res.First.Finding.Rule != FatOverLean {
		t.Fatalf("lean over fat: first fault %+v", res.First)
	}
	if len(res.Mends) != 1 || res.Mends[0].Then != nil {
		t.Fatalf("mends %+v", res.Mends)
	}
}

// By weight the order can be the other way round; by volume counts.
func TestVolumeNotMass(t *testing.T) {
	// White lead at 15 g and Prussian blue at 72 g of oil (Church 1901): by weight
	// 13.0 and 41.9 %, by volume 51.9 and 58.6 %; a white at 53 % by volume over a
	// blue at 50 % is fatter and looks far leaner on a balance.
	res := judged(t, layer(t, "blue", powder("blue", 1.83, 40), 0.50), layer(t, "white", powder("white", 6.7, 10), 0.47))
	if verdictOf(res.Layers[1], FatOverLean) != Holds {
		t.Errorf("%+v", res.Layers[1].Findings)
	}
	if len(res.ByMass) != 1 {
		t.Errorf("by mass: %q, want a remark that the balance misleads", res.ByMass)
	}
}

// The shares of published oil by weight and by volume, through a layer: the
// volume share is worked out from Church's grams with the densities of Gettens
// and Stout, and the layer at that volume share has the printed share by weight.
func TestLayerSharesPublished(t *testing.T) {
	for _, c := range []struct {
		pigment          string
		density          quantity.Density
		byMass, byVolume float64 // per cent
	}{
		{"white lead, 16 g", 6.70, 13.8, 53.5},
		{"raw sienna, 147 g", 3.14, 59.5, 83.2},
		{"vermilion, 23 g", 8.09, 18.7, 66.7},
		{"Prussian blue, 72 g", 1.83, 41.9, 58.6},
		{"ultramarine, 34 g", 2.34, 25.4, 46.1},
		{"burnt umber, 97 g", 3.64, 49.2, 79.2},
		{"Van Dyke brown, 72 g", 1.66, 41.9, 56.2},
	} {
		asked := layer(t, c.pigment, powder("pigment", c.density, 30), quantity.VolumeFraction(1-c.byVolume/100))
		res, err := Layers(LayersRequest{Layers: []LayerAsked{asked}, Sampling: Sampling{Exact: true}})
		if err != nil {
			t.Fatal(err)
		}
		// Half a unit of the last digit of either: the slope of the share by mass is
		// ρo·ρp/(f·ρo + (1 − f)·ρp)².
		const oil = 0.93
		f, p := c.byVolume/100, float64(c.density)
		slope := oil * p / math.Pow(f*oil+(1-f)*p, 2)
		near(t, c.pigment+": % of oil by mass", 100*float64(res.Layers[0].ByMass.Typical), c.byMass, 0.05+0.05*slope)
	}
}

// Overlapping ranges are undecided, unless both layers come from the same jars.
func TestUndecided(t *testing.T) {
	a, b := layer(t, "a", powder("a", 3, 30), 0), layer(t, "b", powder("b", 3.2, 30), 0)
	for _, l := range []*LayerAsked{&a, &b} {
		l.Thin.Paint.Target = request(t).Target // a body: a wide range of oil
	}
	res := judged(t, a, b)
	if v := verdictOf(res.Layers[1], FatOverLean); v != Undecided {
		t.Errorf("two unlike paints at one body: %v", v)
	}
	same := a
	same.Name = "the same again"
	if v := verdictOf(judged(t, a, same).Layers[1], FatOverLean); v != Holds {
		t.Errorf("the same paint twice: %v", v)
	}
	fatter := a
	fatter.Thin.Media = []Poured{poured(t, dries(liquid("oil", material.Oil, 0.93), 3, 5), 1)}
	fatter.Thin.Thinning = Thinning{Kind: ByParts, Paint: 20, Medium: 1}
	res = judged(t, a, fatter)
	if v := verdictOf(res.Layers[1], FatOverLean); v != Holds {
		t.Errorf("the same paint with a little oil over itself: %v, although the ranges overlap", v)
	}
	if v := verdictOf(judged(t, fatter, a).Layers[1], FatOverLean); v != Fails {
		t.Errorf("the same paint over itself with a little oil: %v", v)
	}
}

func TestLayerRules(t *testing.T) {
	for _, c := range []struct {
		name   string
		layers func() []LayerAsked
		rule   Rule
		change Change
	}{
		{"too soon", func() []LayerAsked {
			a, b := layer(t, "a", quickBlue(), 0.4), layer(t, "b", quickBlue(), 0.35)
			soon := aDay / 2
			a.Dried = &soon
			return []LayerAsked{a, b}
		}, LongEnough, Wait},
		{"slow oil below", func() []LayerAsked {
			a, b := layer(t, "a", quickBlue(), 0.4), layer(t, "b", quickBlue(), 0.35)
			a.Thin.Paint.Oils = []Share{{ready(t, dries(liquid("slow", material.Oil, 0.92), 40, 60)), 1}}
			long := 90 * aDay
			a.Dried = &long
			return []LayerAsked{a, b}
		}, DryingOrder, OtherOil},
		{"slow pigment below", func() []LayerAsked {
			// Only layers above the lowest change places.
			ground, a, b := layer(t, "ground", quickBlue(), 0.4), layer(t, "a", speaks(powder("slow", 2.34, 34), "dries slowly"), 0.4), layer(t, "b", quickBlue(), 0.4)
			return []LayerAsked{ground, a, b}
		}, DryingOrder, Swap},
		{"thin over thick", func() []LayerAsked {
			a, b := layer(t, "a", quickBlue(), 0.4), layer(t, "b", quickBlue(), 0.35)
			a.Thin.Wet, b.Thin.Wet = 120, 100
			return []LayerAsked{a, b}
		}, ThickOverThin, Thinner},
		{"under-bound", func() []LayerAsked {
			return []LayerAsked{layer(t, "a", quickBlue(), 0.75)}
		}, HoldsPigment, MoreOil},
		{"lean over fat by a medium", func() []LayerAsked {
			a, b := layer(t, "a", quickBlue(), 0.4), layer(t, "b", quickBlue(), 0.4)
			a.Thin.Media = []Poured{poured(t, dries(liquid("stand", material.Oil, 0.96), 3, 5), 1)}
			a.Thin.Thinning = Thinning{Kind: ByParts, Paint: 5, Medium: 1}
			return []LayerAsked{a, b}
		}, FatOverLean, LessMedium},
	} {
		layers := c.layers()
		res := judged(t, layers...)
		if res.First == nil || res.First.Finding.Rule != c.rule {
			t.Errorf("%s: first fault %+v, want %s", c.name, res.First, c.rule)
			continue
		}
		if len(res.Mends) != 1 || res.Mends[0].Change != c.change || res.Mends[0].Then != nil || res.Advice != "" {
			t.Errorf("%s: mends %+v, want %s alone", c.name, res.Mends, c.change)
		}
	}
}

// Whatever the stack, a change that is named mends the fault, and the changed
// painting asked anew agrees.
func TestMendMends(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lower := layer(t, "lower", quickBlue(), quantity.VolumeFraction(rapid.Float64Range(0.2, 0.5).Draw(t, "lower PVC")))
		upper := layer(t, "upper", quickWhite(), quantity.VolumeFraction(rapid.Float64Range(0.2, 0.5).Draw(t, "upper PVC")))
		res := judged(t, lower, upper)
		if res.First == nil {
			if len(res.Mends) > 0 || res.Advice != "" {
				t.Fatalf("mends %+v without a fault", res.Mends)
			}
			return
		}
		if res.First.Finding.Rule != FatOverLean {
			t.Fatalf("first fault %+v", res.First)
		}
		if len(res.Mends) == 0 {
			if res.Advice == "" {
				t.Fatal("no change and no advice")
			}
			return
		}
		mend := res.Mends[0]
		if mend.Change == Drinks {
			l := lower
			l.Thin.Absorbed, l.Thin.GroundKnown = mend.Absorbed, true
			if r := judged(t, l, upper); r.First != nil {
				t.Fatalf("%s: %+v is left", mend.Text, r.First)
			}
			l.Thin.Absorbed *= 0.9
			if verdictOf(judged(t, l, upper).Layers[1], FatOverLean) == Holds {
				t.Errorf("a tenth less than %q holds too", mend.Text)
			}
			return
		}
		if mend.Change != MoreOil {
			t.Fatalf("%+v", mend)
		}
		again := func(ml quantity.Volume) Verdict {
			u := upper
			u.Thin.Media = []Poured{poured(t, u.Thin.Paint.Oils[0].Material, 1)}
			u.Thin.Thinning = Thinning{Kind: ByParts, Paint: 100, Medium: quantity.Parts(ml)}
			return verdictOf(judged(t, lower, u).Layers[1], FatOverLean)
		}
		if v := again(mend.Volume); v != Holds {
			t.Errorf("with %v: %v", mend.Text, v)
		}
		if v := again(mend.Volume * 0.9); v == Holds {
			t.Errorf("a tenth less than %q holds too: it is not the smallest", mend.Text)
		}
	})
}

// Thinning with solvent alone changes no layer's fat; a ground that drinks
// makes its layer leaner.
func TestLayersSolventAndGround(t *testing.T) {
	a := layer(t, "a", quickBlue(), 0.4)
	plain := judged(t, a).Layers[0]
	a.Thin.Solvents = []Poured{poured(t, spirit("spirit", 0.78), 1)}
	a.Thin.Thinning = Thinning{Kind: ByParts, Paint: 1, Solvent: 1}
	with := judged(t, a).Layers[0]
	near(t, "binder by volume", float64(with.ByVolume.Typical), float64(plain.ByVolume.Typical), 1e-12)
	near(t, "dry film of one to one", float64(with.Dry.Typical), 20, 0.2)
	a.Thin.Absorbed, a.Thin.GroundKnown = 3, true
	if drunk := judged(t, a).Layers[0]; !(drunk.ByVolume.High < with.ByVolume.Low) {
		t.Errorf("the ground took 3 g/m² and the binder went from %v to %v", with.ByVolume, drunk.ByVolume)
	}
}

func TestLayersRefuses(t *testing.T) {
	good := layer(t, "good", quickBlue(), 0.4)
	for _, c := range []struct {
		name   string
		layers func() []LayerAsked
		want   string
	}{
		{"nothing", func() []LayerAsked { return nil }, "no layer"},
		{"too many", func() []LayerAsked { return make([]LayerAsked, MostLayers+1) }, "too many"},
		{"no film", func() []LayerAsked { l := good; l.Thin.Wet = 0; return []LayerAsked{good, l} }, "layer 2 (good): its wet film"},
		{"negative film", func() []LayerAsked { l := good; l.Thin.Wet = -1; return []LayerAsked{l} }, "negative"},
		{"not a number", func() []LayerAsked {
			l := good
			l.Thin.Absorbed = quantity.MassPerArea(math.NaN())
			return []LayerAsked{l}
		}, "negative"},
		{"above critical unawares", func() []LayerAsked {
			l := good
			l.Thin.Paint.Target = Target{Kind: AtPVC, PVC: 0.9}
			return []LayerAsked{l}
		}, "critical"},
	} {
		if _, err := Layers(LayersRequest{Layers: c.layers(), Sampling: Sampling{Draws: 16}}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", c.name, err, c.want)
		}
	}
}

// A wash below is not said to be too fat until it is known what the ground
// takes; on a sealed ground it is.
func TestWashBelow(t *testing.T) {
	wash, body := layer(t, "drawing", quickBlue(), 0.3), layer(t, "body", quickWhite(), 0.5)
	wash.Thin.Solvents = []Poured{poured(t, spirit("spirit", 0.78), 1)}
	wash.Thin.Thinning = Thinning{Kind: ByParts, Paint: 1, Solvent: 2}
	res := judged(t, wash, body)
	f := res.Layers[1].Findings[1]
	if f.Rule != FatOverLean || f.Verdict != Undecided || !strings.Contains(f.Text, "a wash with 2.9 times as much solvent as binder") || res.First != nil {
		t.Errorf("over a wash: %+v", f)
	}
	wash.Thin.GroundKnown = true // and it takes nothing
	if res := judged(t, wash, body); res.First == nil || res.First.Finding.Rule != FatOverLean {
		t.Errorf("over a wash on a sealed ground: %+v", res.Layers[1].Findings)
	}
	little := wash
	little.Thin.GroundKnown = false
	little.Thin.Thinning.Solvent = 0.5 // no more solvent than binder
	if res := judged(t, little, body); res.First == nil {
		t.Errorf("over paint that is hardly thinned: %+v", res.Layers[1].Findings)
	}
}

// Nothing is laid under the lowest layer, and no wash over the body of a
// painting, whatever the order of drying asks for.
func TestNoDrawingOnTop(t *testing.T) {
	slow, quick := layer(t, "slow", speaks(powder("slow", 2.34, 34), "dries slowly"), 0.4), layer(t, "quick", quickBlue(), 0.4)
	if res := judged(t, slow, quick); res.First == nil || len(res.Mends) > 0 || res.Advice == "" {
		t.Errorf("the lowest layer: mends %+v, advice %q", res.Mends, res.Advice)
	}
	wash := slow
	wash.Thin.Solvents = []Poured{poured(t, spirit("spirit", 0.78), 1)}
	wash.Thin.Thinning = Thinning{Kind: ByParts, Paint: 1, Solvent: 1}
	if res := judged(t, layer(t, "ground", quickBlue(), 0.4), wash, quick); res.First == nil || len(res.Mends) > 0 {
		t.Errorf("a wash: mends %+v", res.Mends)
	}
}

// Faults that have nothing to do with each other are mended one after the other,
// and nothing fails at the end.
func TestMendsTogether(t *testing.T) {
	fat, lean, soon := layer(t, "fat", quickBlue(), 0.4), layer(t, "lean", quickBlue(), 0.42), layer(t, "top", quickBlue(), 0.3)
	half := aDay / 2
	lean.Dried = &half
	res := judged(t, fat, lean, soon)
	if len(res.Mends) != 2 || res.Mends[0].Then == nil || res.Mends[1].For != *res.Mends[0].Then || res.Mends[1].Then != nil {
		t.Fatalf("%+v", res.Mends)
	}
	if a, b := res.Mends[0].For.Finding.Rule, res.Mends[1].Change; a != FatOverLean || b != Wait {
		t.Errorf("first for %v, then %v", a, b)
	}
}

// Whatever three layers are piled up, a list of changes only ever leaves faults
// that were there, and advice stands where one is left.
func TestMendsMakeNoFault(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var layers []LayerAsked
		for _, name := range []string{"a", "b", "c"} {
			pigment := rapid.SampledFrom([]*material.Material{quickBlue(), quickWhite(), speaks(powder("slow", 3, 30), "dries slowly")}).Draw(t, name+" pigment")
			l := layer(t, name, pigment, quantity.VolumeFraction(rapid.Float64Range(0.2, 0.7).Draw(t, name+" PVC")))
			l.Thin.Wet = quantity.Thickness(rapid.Float64Range(20, 150).Draw(t, name+" film"))
			left := aDay * quantity.Duration(rapid.Float64Range(0.5, 10).Draw(t, name+" days"))
			l.Dried = &left
			if rapid.Bool().Draw(t, name+" thinned") {
				l.Thin.Solvents = []Poured{poured(t, spirit("spirit", 0.78), 1)}
				l.Thin.Thinning = Thinning{Kind: ByParts, Paint: 1, Solvent: 1}
			}
			layers = append(layers, l)
		}
		res := judged(t, layers...)
		failed := map[int]map[Rule]bool{}
		for i := range res.Layers {
			failed[i] = map[Rule]bool{}
			for _, f := range res.Layers[i].Findings {
				failed[i][f.Rule] = f.Verdict == Fails
			}
		}
		for _, m := range res.Mends {
			if !failed[m.For.Layer][m.For.Finding.Rule] || m.Then != nil && !failed[m.Then.Layer][m.Then.Finding.Rule] {
				t.Fatalf("%+v: not a fault of the painting as it was", m)
			}
		}
		if left := res.left(); (left == nil) != (res.Advice == "") {
			t.Fatalf("left %+v, advice %q", left, res.Advice)
		}
	})
}

func TestInDays(t *testing.T) {
	for d, want := range map[quantity.Duration]string{aDay: "1 day", aDay / 2: "0.5 days", 1.9 * aDay: "1.9 days", 7 * aDay: "7 days", 42 * aDay: "42 days", 120 * aDay: "120 days"} {
		if got := inDays(d); got != want {
			t.Errorf("%v s: %q, want %q", float64(d), got, want)
		}
	}
}
