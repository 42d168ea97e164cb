package formulate

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"mullwright/formulate/material"
)

// allSettings lists every setting there is; everySetting is all of them at once.
var allSettings = []Setting{DryPowder, InOil, InWater, WithSolvent, Heated, Kept}

const everySetting = DryPowder | InOil | InWater | WithSolvent | Heated | Kept

// inventedOf is an invented material whose hazards were assessed.
func inventedOf(id string, classes ...material.Class) *material.Material {
	return &material.Material{ID: id, Name: id, Kind: material.Pigment, Classes: classes, Hazards: material.Hazards{Assessed: true}}
}

// pairCautions are those about two materials meeting.
func pairCautions(list []Caution) []Caution {
	return slices.DeleteFunc(list, func(c Caution) bool { return !isPairCaution(c) })
}

// Every pair rule fires where its two classes meet, whatever stands between
// them and in whichever order, and in any setting; and not where one of the two
// is missing.
func TestEveryPairRuleFires(t *testing.T) {
	plain := inventedOf("plain")
	for _, r := range pairRules {
		a, b := inventedOf("zz-first", r.a), inventedOf("aa-second", r.b)
		for _, list := range [][]*material.Material{{a, plain, b}, {b, plain, a}} {
			for _, when := range append([]Setting{0, everySetting}, allSettings...) {
				got := pairCautions(Cautions(when, list...))
				if len(got) != 1 {
					t.Errorf("%s: %d pair cautions in setting %b, want 1: %v", r.about, len(got), when, got)
					continue
				}
				c := got[0]
				if c.About != r.about || c.Source != r.source || !slices.Equal(c.Of, []string{"aa-second", "zz-first"}) {
					t.Errorf("%s: got %+v", r.about, c)
				}
				if !strings.EqualFold(c.Text, r.text+".") || c.Text[:1] != strings.ToUpper(c.Text[:1]) {
					t.Errorf("%s: says %q, the rule says %q", r.about, c.Text, r.text)
				}
			}
		}
		for _, alone := range [][]*material.Material{{a}, {b}, {a, plain}, {b, plain}, {a, inventedOf("another", r.a)}, {b, inventedOf("another", r.b)}} {
			if got := pairCautions(Cautions(everySetting, alone...)); len(got) != 0 {
				t.Errorf("%s: fires for %s and %v alone", r.about, alone[0].Classes, len(alone))
			}
		}
	}
}

// A material does not quarrel with itself, even where it is of both classes or
// is named twice; two materials of both classes quarrel once.
func TestNoPairWithinOneMaterial(t *testing.T) {
	for _, r := range pairRules {
		both := inventedOf("both", r.a, r.b)
		for _, list := range [][]*material.Material{{both}, {both, both}, {both, inventedOf("plain")}} {
			if got := pairCautions(Cautions(everySetting, list...)); len(got) != 0 {
				t.Errorf("%s: %d × one material quarrels with itself: %v", r.about, len(list), got)
			}
		}
		got := pairCautions(Cautions(everySetting, both, inventedOf("other", r.a, r.b)))
		if len(got) != 1 || got[0].About != r.about {
			t.Errorf("%s: two materials of both classes give %v", r.about, got)
		}
	}
}

// Every hazard rule fires for a material of its class in each of its settings,
// and in no other.
func TestEveryHazardRuleFires(t *testing.T) {
	for _, r := range hazardRules {
		if r.when == 0 || r.when&^everySetting != 0 {
			t.Errorf("%s: settings %b are none or unknown", r.about, r.when)
		}
		of := inventedOf("of-the-class", r.class)
		for _, when := range allSettings {
			fired := slices.IndexFunc(Cautions(when, inventedOf("plain"), of), func(c Caution) bool { return c.About == r.about && c.Text == r.text })
			if want := r.when&when != 0; (fired >= 0) != want {
				t.Errorf("%s: fired in setting %b: %v, want %v", r.about, when, fired >= 0, want)
			} else if want {
				c := Cautions(when, inventedOf("plain"), of)[fired]
				if c.Source != r.source || !slices.Equal(c.Of, []string{"of-the-class"}) {
					t.Errorf("%s: got %+v", r.about, c)
				}
			}
		}
		for _, c := range Cautions(everySetting, inventedOf("plain")) {
			if c.Text == r.text {
				t.Errorf("%s: fires without a material of class %s", r.about, r.class)
			}
		}
	}
}

// Rules are told apart by what they are about, and each reads as a sentence,
// names its source and is about classes that a catalogue may hold.
func TestRulesAreWellFormed(t *testing.T) {
	abouts := map[string]bool{"dust": true, "kitchen": true, "not assessed": true}
	known := func(c material.Class) bool {
		for _, p := range material.Validate(inventedOf("x", c), func(string) bool { return true }) {
			if p.Field == "classes" {
				return false
			}
		}
		return true
	}
	pairs := map[string]bool{}
	for _, r := range pairRules {
		if abouts[r.about] {
			t.Errorf("two rules are about %q", r.about)
		}
		abouts[r.about] = true
		one, other := min(r.a, r.b), max(r.a, r.b)
		if key := fmt.Sprint(one, "+", other); pairs[key] {
			t.Errorf("two rules for %s", key)
		} else {
			pairs[key] = true
		}
		if !known(r.a) || !known(r.b) {
			t.Errorf("%s: class %s or %s is not one a catalogue may hold", r.about, r.a, r.b)
		}
		if r.text == "" || r.source == "" || strings.HasSuffix(r.text, ".") || r.text[:1] != strings.ToLower(r.text[:1]) {
			t.Errorf("%s: text %q is made a sentence where it is shown; source %q", r.about, r.text, r.source)
		}
	}
	hazards := map[string]bool{}
	for _, r := range hazardRules {
		if abouts[r.about] || hazards[r.about] {
			t.Errorf("two rules are about %q", r.about)
		}
		hazards[r.about] = true
		if !known(r.class) {
			t.Errorf("%s: class %s is not one a catalogue may hold", r.about, r.class)
		}
		if r.source == "" || !strings.HasSuffix(r.text, ".") || r.text[:1] != strings.ToUpper(r.text[:1]) {
			t.Errorf("%s: want a sentence and a source, got %q from %q", r.about, r.text, r.source)
		}
		if strings.Contains(strings.ToLower(r.text), "is safe") {
			t.Errorf("%s: states that something is safe", r.about)
		}
	}
}

// The work's own cautions come first, then hazards in their order, then pairs,
// then what was not assessed; water needs no assessing.
func TestCautionOrder(t *testing.T) {
	unread := inventedOf("unread")
	unread.Hazards.Assessed = false
	water := &material.Material{ID: "water", Kind: material.Water}
	blue, lime := inventedOf("blue", material.IronCyanide), inventedOf("lime", material.Alkaline)
	var abouts []string
	for _, c := range Cautions(DryPowder|InOil|Kept, unread, lime, water, blue, inventedOf("oil", material.DryingOil)) {
		abouts = append(abouts, c.About)
		if c.About == "not assessed" && !slices.Equal(c.Of, []string{"unread"}) {
			t.Errorf("not assessed: %v, want the unread one alone", c.Of)
		}
	}
	want := []string{"dust", "kitchen", "iron cyanide", OilyRags, "iron blue with alkali", "not assessed"}
	if !slices.Equal(abouts, want) {
		t.Errorf("got %q, want %q", abouts, want)
	}
	if got := Cautions(0); len(got) != 0 {
		t.Errorf("nothing in no setting gives %v", got)
	}
}

// Nobody is told that something is harmless: an unread material is named as
// unread, with the deferral to its data sheet.
func TestUnassessedIsNoClearance(t *testing.T) {
	m := inventedOf("unread")
	m.Hazards.Assessed = false
	got := Cautions(InOil, m)
	if len(got) != 1 || !strings.Contains(got[0].Text, "unread") || !strings.Contains(got[0].Text, "not a clearance") || !strings.Contains(got[0].Text, "safety data sheet") {
		t.Errorf("got %+v", got)
	}
}

// In water media a lead colour is said to blacken, and no poisonous pigment goes
// where a brush goes to the lips; in oil neither is said, nor of a harmless pigment.
func TestLeadAndLipsInWater(t *testing.T) {
	lead, listed, plain := inventedOf("lead-white", material.Lead), inventedOf("listed"), inventedOf("plain")
	listed.Hazards.Listed = true
	gum := inventedOf("gum", material.Lead)
	gum.Kind = material.Gum
	about := func(list []Caution, what string) []string {
		for _, c := range list {
			if c.About == what {
				return c.Of
			}
		}
		return nil
	}
	in := Cautions(InWater|Kept, lead, listed, plain, gum)
	if got := about(in, "brush and mouth"); !slices.Equal(got, []string{"lead-white", "listed"}) {
		t.Errorf("lips: %v", got)
	}
	if got := about(in, "lead in water colour"); !slices.Contains(got, "lead-white") {
		t.Errorf("blackening: %v", got)
	}
	for _, list := range [][]Caution{Cautions(everySetting&^InWater, lead, listed), Cautions(InWater, plain)} {
		if about(list, "brush and mouth") != nil || about(list, "lead in water colour") != nil {
			t.Errorf("said out of place: %v", list)
		}
	}
}
