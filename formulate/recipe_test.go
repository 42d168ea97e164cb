package formulate

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"

	"pgregory.net/rapid"
)

// alone is a liquid or a powder of one material.
func alone(t interface{ Fatal(...any) }, m *material.Material) Liquid {
	l, err := NewLiquid(m, []LiquidPart{NewLiquidPart(ready(t, m), 1, nil)})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func massLine(t interface{ Fatal(...any) }, m *material.Material, mass quantity.Mass) RecipeLine {
	return RecipeLine{Of: alone(t, m), By: WeighedOut, Mass: mass}
}

// waxInOil is the published "2 per cent" recipe: 30 g of wax to 980 ml of oil.
// Johansen, Paint making: grinding oils; the true shares computed.
func waxInOil(t interface{ Fatal(...any) }) RecipeRequest {
	return RecipeRequest{
		Lines: []RecipeLine{
			massLine(t, liquid("wax", material.Wax, 0.96), 30),
			{Of: alone(t, liquid("oil", material.Oil, 0.93)), By: PouredOut, Volume: evidence.Distribution[quantity.Volume]{Median: 980}},
		},
		Says:     []Saying{{Written: "2 % wax", Share: 0.02, Half: 0.005, Subject: Subject{Name: "wax", Lines: []int{0}}}},
		Sampling: Sampling{Exact: true},
	}
}

func TestRecipeStatedPercent(t *testing.T) {
	r, err := TrueComposition(waxInOil(t))
	if err != nil {
		t.Fatal(err)
	}
	s := r.Sayings[0]
	if s.Truth != Untrue || s.Read.Basis != (PercentBasis{OfPaste, MassPercent}) {
		t.Errorf("30 g of wax in 980 ml of oil called 2 %%: truth %d, read %v", s.Truth, s.Read.Basis)
	}
	near(t, "of the paste by mass", float64(s.Read.True.Typical), 30/(30+980*0.93), 1e-12)
	want := map[PercentBasis]float64{
		{OfPaste, MassPercent}:    30 / (30 + 911.4),
		{OfPaste, VolumePercent}:  31.25 / (31.25 + 980),
		{OfBinder, MassPercent}:   30 / 911.4,
		{OfBinder, VolumePercent}: 31.25 / 980,
		{OfBinder, MassInVolume}:  30. / 980,
		{OfPaste, MassInVolume}:   30 / (31.25 + 980),
	}
	for _, b := range s.Bases {
		w, ok := want[b.Basis]
		if !ok {
			t.Errorf("basis %v is one too many: it says nothing new", b.Basis)
			continue
		}
		delete(want, b.Basis)
		near(t, fmt.Sprintf("basis %v", b.Basis), float64(b.True.Typical), w, 1e-12)
	}
	for b := range want {
		t.Errorf("basis %v is missing", b)
	}
	if s.Nearest.Basis != (PercentBasis{OfPaste, MassInVolume}) {
		t.Errorf("nearest is %v", s.Nearest.Basis)
	}
}

// "16 per cent" of oil in an old table is of the pigment: 13.8 % of the paste.
// Church (1901), white lead.
func TestRecipeOfPigmentOrOfPaste(t *testing.T) {
	req := RecipeRequest{
		Lines:    []RecipeLine{massLine(t, powder("lead", 6.7, 10), 100), massLine(t, liquid("oil", material.Oil, 0.93), 16)},
		Says:     []Saying{{Written: "16 % oil", Share: 0.16, Half: 0.005, Subject: Subject{Name: "oil", Roles: []Role{Binder}}}},
		Sampling: Sampling{Exact: true},
	}
	r, err := TrueComposition(req)
	if err != nil {
		t.Fatal(err)
	}
	s := r.Sayings[0]
	near(t, "of the paste", 100*float64(s.Read.True.Typical), 13.8, 0.05)
	if s.Truth != TrueOtherwise {
		t.Errorf("16 %% of the pigment: truth %d", s.Truth)
	}
	for _, b := range s.Bases {
		if b.Fits != (b.Basis == PercentBasis{OfPowder, MassPercent}) {
			t.Errorf("basis %v fits: %v", b.Basis, b.Fits)
		}
	}
	// Named as it is meant, it is right.
	req.Says[0].Basis = PercentBasis{Of: OfPowder}
	if r, err = TrueComposition(req); err != nil {
		t.Fatal(err)
	}
	if s := r.Sayings[0]; s.Truth != TrueAsSaid {
		t.Errorf("16 %% of the pigment, said so: truth %d", s.Truth)
	}
}

// Published: five US gallons of oil and 100 lb of paste lead are said to make
// 6½ gallons; the volumes add up to 7.9. Sabin, House Painting, chapter 2.
func TestRecipeYieldThatCannotBe(t *testing.T) {
	const gallon, pound = 3785.411784, 453.59237
	paste := powder("paste-lead", 100*pound/(2.9*gallon), 10) // 2.9 gallons by the source's own figures
	req := RecipeRequest{
		Lines:    []RecipeLine{massLine(t, paste, 100*pound), {Of: alone(t, liquid("oil", material.Oil, 0.93)), By: PouredOut, Volume: evidence.Distribution[quantity.Volume]{Median: 5 * gallon}}},
		Makes:    []Making{{Written: "6.5 gal", Volume: 6.5 * gallon, Half: 0.05 / 6.5}},
		Sampling: Sampling{Exact: true},
	}
	r, err := TrueComposition(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "gallons", float64(r.Makings[0].Volume.Typical)/gallon, 7.9, 0.05)
	if r.Makings[0].Fits {
		t.Error("6.5 gallons were believed")
	}
}

// Published both ways: 3.5 spoons of loose ultramarine to one of oil are 2.3 to
// 1 by weight. Massey (1967).
func TestRecipeBySpoon(t *testing.T) {
	blue := powder("blue", 2.34, 30)
	req := RecipeRequest{
		Lines: []RecipeLine{
			{Of: alone(t, blue), By: SpoonedOut, Volume: evidence.Distribution[quantity.Volume]{Median: 3.5 * 15}, Bulk: Bulk{Density: evidence.Distribution[quantity.Density]{Median: 0.93 * 2.3 / 3.5}}},
			{Of: alone(t, liquid("oil", material.Oil, 0.93)), By: PouredOut, Volume: evidence.Distribution[quantity.Volume]{Median: 15}},
		},
		Sampling: Sampling{Exact: true},
	}
	r, err := TrueComposition(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pigment to oil by weight", float64(r.Entries[0].Mass.Typical/r.Entries[1].Mass.Typical), 2.3, 1e-9)
	near(t, "oil per 100 g", float64(r.Figures.OilPerPigment.Typical), 43.5, 0.05)
}

// Whatever a recipe holds, its shares sum to 1, mass and volume are conserved,
// parts scale to a hundred grams, and a true percentage is found right.
func TestRecipeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := RecipeRequest{Sampling: Sampling{Exact: true}, Relative: rapid.Bool().Draw(t, "parts")}
		kinds := []material.Kind{material.Pigment, material.Extender, material.Oil, material.Solvent, material.Wax, material.Water}
		for i := range rapid.IntRange(1, 8).Draw(t, "lines") {
			kind := rapid.SampledFrom(kinds).Draw(t, "kind")
			density := quantity.Density(rapid.Float64Range(0.7, 9).Draw(t, "density"))
			m := liquid(fmt.Sprintf("m%d", i), kind, density)
			if kind == material.Pigment || kind == material.Extender {
				m = powder(m.ID, density, 30)
				m.Kind = kind
			}
			l := RecipeLine{Line: i + 1, Of: alone(t, m), By: WeighedOut, Mass: quantity.Mass(rapid.Float64Range(0.01, 1000).Draw(t, "mass"))}
			if kind == material.Pigment && rapid.Bool().Draw(t, "damp") {
				l.Moisture = 0.1
			}
			req.Lines = append(req.Lines, l)
		}
		at := rapid.IntRange(0, len(req.Lines)-1).Draw(t, "subject")
		first, err := TrueComposition(req)
		if err != nil {
			t.Fatal(err)
		}
		var mass, volume, ms, vs float64
		for _, e := range first.Entries {
			mass += float64(e.Mass.Typical)
			volume += float64(e.Volume.Typical)
			ms += float64(e.MassShare.Typical)
			vs += float64(e.VolumeShare.Typical)
		}
		if math.Abs(ms-1) > 1e-12 || math.Abs(vs-1) > 1e-12 {
			t.Fatalf("shares sum to %v by mass and %v by volume", ms, vs)
		}
		if f := first.Figures; math.Abs(mass/float64(f.Mass.Typical)-1) > 1e-12 || math.Abs(volume/float64(f.Volume.Typical)-1) > 1e-12 {
			t.Fatalf("lines hold %v g and %v ml, the whole %v and %v", mass, volume, f.Mass.Typical, f.Volume.Typical)
		}
		if req.Relative && math.Abs(mass-100) > 1e-9 {
			t.Fatalf("parts come to %v g", mass)
		}
		truth := first.Entries[at].MassShare.Typical
		req.Says = []Saying{{Written: "true", Share: quantity.Ratio(truth), Subject: Subject{Name: "it", Lines: []int{at}}}, {Written: "false", Share: quantity.Ratio(truth) * 1.5, Subject: Subject{Name: "it", Lines: []int{at}}, Basis: PercentBasis{Of: OfPaste}}}
		second, err := TrueComposition(req)
		if err != nil {
			t.Fatal(err)
		}
		if got := second.Sayings[0]; got.Truth != TrueAsSaid {
			t.Fatalf("the true share %v is called %d; truly %v", truth, got.Truth, got.Read.True.Typical)
		}
		if got := second.Sayings[1]; got.Truth == TrueAsSaid {
			t.Fatalf("half as much again as the true share %v is called right", truth)
		}
	})
}

func TestRecipeConsistency(t *testing.T) {
	req := RecipeRequest{
		Lines:    []RecipeLine{massLine(t, powder("blue", 2.34, 38), 100), massLine(t, liquid("oil", material.Oil, 0.93), 200)},
		Sampling: Sampling{Exact: true},
	}
	r, err := TrueComposition(req)
	if err != nil {
		t.Fatal(err)
	}
	if r.Consistency == nil || r.Consistency.Typical < 2 {
		t.Errorf("two grams of oil to a gram of pigment: %v", r.Consistency)
	}
	// Gum is no oil: nothing is said of its consistency.
	req.Lines[1] = massLine(t, liquid("gum", material.Gum, 1.4), 20)
	if r, err = TrueComposition(req); err != nil {
		t.Fatal(err)
	}
	if r.Consistency != nil {
		t.Errorf("a gum paint is judged by oil: %v", *r.Consistency)
	}
	req.Lines = req.Lines[:1]
	if r, err = TrueComposition(req); err != nil {
		t.Fatal(err)
	}
	if len(r.Warnings) == 0 || !strings.Contains(r.Warnings[0], "nothing in it binds") {
		t.Errorf("powder alone: warnings %q", r.Warnings)
	}
}

func TestRecipeRefuses(t *testing.T) {
	tests := []struct {
		name, says string
		change     func(*RecipeRequest)
	}{
		{"empty", "no lines", func(r *RecipeRequest) { r.Lines = nil; r.Says = nil }},
		{"no amount", "above nothing", func(r *RecipeRequest) { r.Lines[0].Mass = 0 }},
		{"negative", "above nothing", func(r *RecipeRequest) { r.Lines[0].Mass = -1 }},
		{"infinite", "above nothing", func(r *RecipeRequest) { r.Lines[0].Mass = quantity.Mass(math.Inf(1)) }},
		{"spoon without bulk density", "no bulk density", func(r *RecipeRequest) {
			r.Lines[0] = RecipeLine{Of: r.Lines[0].Of, By: SpoonedOut, Volume: evidence.Distribution[quantity.Volume]{Median: 5}}
		}},
		{"all water", "water in a damp powder", func(r *RecipeRequest) { r.Lines[0].Moisture = 1 }},
		{"percentage of nothing", "is not in the recipe", func(r *RecipeRequest) { r.Says[0].Basis.Of = OfPowder }},
		{"percentage about nothing", "there is no solvent", func(r *RecipeRequest) { r.Says[0].Subject = Subject{Name: "solvent", Roles: []Role{Volatile}} }},
		{"percentage of 0", "above nothing", func(r *RecipeRequest) { r.Says[0].Share = 0 }},
	}
	for _, tt := range tests {
		r := waxInOil(t)
		tt.change(&r)
		_, err := TrueComposition(r)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: error %v, want one that says %q", tt.name, err, tt.says)
		}
	}
	r := waxInOil(t)
	r.Lines[1].Line = 7
	r.Lines[1].Volume.Median = 0
	var at *LineError
	if _, err := TrueComposition(r); !errors.As(err, &at) || at.Line != 7 {
		t.Errorf("error %v does not name its line", err)
	}
}
