package formulate

import (
	"slices"
	"strings"

	"mullwright/formulate/chemistry"
	"mullwright/formulate/material"
)

// routeRules are cautions of wet chemistry, which no catalogue material calls
// for: they fire on the classes that the formulas of a reaction show.
var routeRules = []hazardRule{
	{material.IronCyanide, InWater, "cyanide from ferrocyanide", "Acid or heat frees hydrogen cyanide, a poisonous gas. Solutions of iron(III), aluminium and other metal salts are acid by themselves: a working extractor or the open air, no added acid, no heating, never alone.", "IPCS safety card 1132 (a ferrocyanide); that such solutions are acid: from memory"},
	{material.Acid, InWater, "acid", "Acids burn skin and eyes and free gases from carbonates, sulphides and cyanides: goggles, gloves, acid into water and never the other way.", "common practice"},
	{material.Sulphide, InWater, "sulphide", "Sulphides free hydrogen sulphide, a poisonous gas, with acid, weak acid too. The nose stops smelling it: rely on ventilation.", "IPCS safety card 0165 (hydrogen sulphide), from memory"},
	{material.Alkaline, InWater, "strong alkali", "Caustic alkali burns skin and eyes, eyes worst: goggles and gloves.", "common practice"},
}

// metalsInWater must not go down a drain with the wash water.
var metalsInWater = []material.Class{
	material.Lead, material.Arsenic, material.Mercury, material.Cadmium, material.Chromate, material.Barium,
	material.Antimony, material.Cobalt, material.Nickel, material.ReactiveCopper, material.Zinc, material.IronCyanide,
}

// routeCautions names the hazards that the formulas of a reaction show.
func routeCautions(r *YieldRequest) []Caution {
	return substanceCautions(append(append([]chemistry.Term(nil), r.Reaction.Reactants...), r.Reaction.Products...))
}

// substanceCautions are the cautions of substances written as formulas: those of
// the route first, then those that any material of such a class calls for.
func substanceCautions(terms []chemistry.Term) []Caution {
	var mats []*material.Material
	for _, t := range terms {
		mats = append(mats, &material.Material{ID: t.Formula.String(), Classes: substanceClasses(t.Formula), Hazards: material.Hazards{Assessed: true}})
	}
	out := []Caution{{About: "not a procedure", Text: "This checks weighings. It is no instruction for making anything, and what its formulas do not show is not named here: that is not a clearance. " + deferral, Source: "common practice"}}
	for _, rule := range routeRules {
		if ids := withClass(mats, rule.class); len(ids) > 0 {
			out = append(out, Caution{About: rule.about, Text: rule.text, Of: ids, Source: rule.source})
		}
	}
	var poisoned []string
	for _, c := range metalsInWater {
		poisoned = append(poisoned, withClass(mats, c)...)
	}
	if len(poisoned) > 0 {
		out = append(out, Caution{About: "wash water", Text: "Liquor and wash water carry it too: collect them, nothing down the drain or into the ground, hand them in as local rules say.", Of: union(poisoned, nil), Source: "common practice"})
	}
	return append(out, Cautions(DryPowder|InWater|Heated|Kept, mats...)...)
}

// substanceClasses are the traits a formula shows: those that the chemistry
// names, and sulphide, carbonate and caustic alkali, for what they do with acid.
func substanceClasses(f chemistry.Formula) []material.Class {
	out := f.Classes()
	n := map[string]float64{}
	for _, a := range f.Atoms() {
		n[a.Symbol] = a.Count
	}
	add := func(c material.Class) {
		if !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	if n["Ba"] > 0 && n["S"] > 0 && n["O"] >= 4 {
		// Barium sulphate does not dissolve.
		out = slices.DeleteFunc(out, func(c material.Class) bool { return c == material.Barium })
	}
	if n["S"] > 0 && n["O"] == 0 && n["C"] == 0 {
		add(material.Sulphide)
	}
	if strings.Contains(f.String(), "CO3") {
		add(material.Carbonate)
	}
	if len(n) == 3 && n["H"] == 1 && n["O"] == 1 && n["Na"]+n["K"]+n["Li"] == 1 {
		add(material.Alkaline)
	}
	return out
}
