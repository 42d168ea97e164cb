package formulate

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/material"
	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
)

func look(t interface{ Fatal(...any) }, id, family string, density quantity.Density, oa quantity.Absorption, words ...string) Look {
	m := powder(id, density, oa)
	m.Family = family
	if len(words) > 0 {
		m.Opacity = []material.Statement{{Text: words[0], Source: "invented"}}
	}
	if len(words) > 1 {
		m.DryingEffect = []material.Statement{{Text: words[1], Source: "invented"}}
	}
	return Look{Ingredient: ready(t, m)}
}

func (l Look) coloured(lab optics.Lab) Look { l.Lab, l.Known = lab, true; return l }

// The weights are shares of one whole, hue first.
func TestLikenessWeights(t *testing.T) {
	w := LikenessWeights
	near(t, "weights", float64(w.Hue+w.Loading+w.Density+w.Opacity+w.Drying), 1, 1e-12)
	for _, other := range []quantity.Ratio{w.Loading, w.Density, w.Opacity, w.Drying} {
		if !(other > 0 && other < w.Hue) {
			t.Errorf("weight %v, want above nothing and below hue's %v", other, w.Hue)
		}
	}
}

// A pigment is wholly like its twin, is not listed beside itself, and the
// nearest comes first; equals go by id.
func TestAlikeRanks(t *testing.T) {
	blue := optics.Lab{L: 30, A: 10, B: -50}
	of := look(t, "blue", "blue", 2.3, 38, "semi-transparent", "dries slowly").coloured(blue)
	twin := look(t, "twin", "blue", 2.3, 38, "semi-transparent", "dries slowly").coloured(blue)
	twin2 := look(t, "another-twin", "blue", 2.3, 38, "semi-transparent", "dries slowly").coloured(blue)
	near2 := look(t, "near", "blue", 2.5, 45, "transparent", "dries slowly").coloured(optics.Lab{L: 32, A: 8, B: -48})
	yellow := look(t, "yellow", "yellow", 2.3, 38, "semi-transparent", "dries slowly").coloured(optics.Lab{L: 80, A: 10, B: 80})
	got := Alike(of, []Look{yellow, near2, twin, of, twin2})
	want := []string{"another-twin", "twin", "near"} // yellow is another colour
	if len(got) != len(want) {
		t.Fatalf("%d are ranked, want %v", len(got), want)
	}
	for i, id := range want {
		if got[i].Material.ID != id {
			t.Errorf("place %d: %s (%.3f), want %s", i+1, got[i].Material.ID, float64(got[i].All), id)
		}
	}
	near(t, "twin", float64(got[0].All), 1, 1e-12)
	near(t, "twin's known weight", float64(got[0].Known), 1, 1e-12)
	if y := alike(&of, &yellow); y.Hue != 0 || !(y.All < 0.4) {
		t.Errorf("another hue is not made good by all the rest: %+v", y)
	}
}

// What is not known does not count, in either direction.
func TestAlikeUnknownParts(t *testing.T) {
	of := look(t, "of", "blue", 2.3, 38, "opaque", "dries fast")
	full, bare := look(t, "full", "blue", 2.3, 38, "opaque", "dries fast"), look(t, "bare", "blue", 2.3, 38)
	for _, l := range Alike(of, []Look{full, bare}) {
		if l.Hue != familyHue {
			t.Errorf("%s: hue %v without measured colour, want the family's %v", l.Material.ID, l.Hue, familyHue)
		}
		if l.Material.ID == "bare" {
			if l.Opacity != -1 || l.Drying != -1 {
				t.Errorf("bare: opacity %v, drying %v, want -1 for not known", l.Opacity, l.Drying)
			}
			near(t, "bare's known weight", float64(l.Known), 0.75, 1e-12)
		} else if l.Opacity != 1 || l.Drying != 1 {
			t.Errorf("full: opacity %v, drying %v, want 1", l.Opacity, l.Drying)
		}
	}
	nameless := look(t, "nameless", "", 2.3, 38)
	if l := Alike(of, []Look{nameless})[0]; l.Hue != -1 {
		t.Errorf("hue of a pigment without colour or family is %v, want -1", l.Hue)
	}
	if l := Alike(of, []Look{look(t, "red", "red", 2.3, 38)}); len(l) != 0 {
		t.Errorf("a red is ranked as like a blue: %+v", l)
	}
}

// Worked by hand: density and loading at known ratios, words two places apart.
func TestAlikeByHand(t *testing.T) {
	of := look(t, "of", "blue", 2, 40, "opaque", "dries at the usual rate")
	half := look(t, "half", "blue", 2*math.Sqrt2, 40, "between opaque and clear", "dries very slowly")
	l := Alike(of, []Look{half})[0]
	near(t, "density a half octave apart", float64(l.Density), 0.5, 1e-12)
	near(t, "opacity two places of four apart", float64(l.Opacity), 0.5, 1e-12)
	near(t, "drying two places of four apart", float64(l.Drying), 0.5, 1e-12)
	// Loading is oil by volume of the solid: √2 apart where the absorption is the same.
	near(t, "loading", float64(l.Loading), 0.5, 0.02)
	want := math.Exp(0.4*math.Log(familyHue) + 0.25*math.Log(float64(l.Loading)) + 0.35*math.Log(0.5))
	near(t, "all", float64(l.All), want, 1e-12)
}

// Likeness is the same from either side, and stays within its bounds.
func TestAlikeSymmetric(t *testing.T) {
	words := []string{"opaque", "semi-opaque", "between", "semi-transparent", "transparent"}
	effects := []string{"speeds", "dries fast", "dries at", "dries slowly", "dries very slowly"}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(id string) Look {
			l := look(t, id, rapid.SampledFrom([]string{"blue", "red"}).Draw(t, "family"),
				quantity.Density(rapid.Float64Range(1, 8).Draw(t, "density")), quantity.Absorption(rapid.Float64Range(8, 120).Draw(t, "oa")),
				rapid.SampledFrom(words).Draw(t, "opacity"), rapid.SampledFrom(effects).Draw(t, "drying"))
			if rapid.Bool().Draw(t, "coloured") {
				l = l.coloured(optics.Lab{L: rapid.Float64Range(5, 95).Draw(t, "L"), A: rapid.Float64Range(-80, 80).Draw(t, "a"), B: rapid.Float64Range(-80, 80).Draw(t, "b")})
			}
			return l
		}
		a, b := draw("a"), draw("b")
		ab, ba := alike(&a, &b), alike(&b, &a)
		if math.Abs(float64(ab.All-ba.All)) > 1e-9 {
			t.Fatalf("a is like b by %v, b like a by %v", ab.All, ba.All)
		}
		if !(ab.All >= leastPart-1e-12 && ab.All <= 1+1e-12) {
			t.Fatalf("likeness %v is outside %v to 1", ab.All, leastPart)
		}
	})
}
