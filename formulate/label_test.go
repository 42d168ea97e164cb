package formulate

import (
	"slices"
	"strings"
	"testing"

	"mullwright/formulate/material"
)

func hazard(m *material.Material, listed bool, texts ...string) *material.Material {
	m.Hazards.Assessed, m.Hazards.Listed = true, listed
	for _, t := range texts {
		m.Hazards.Statements = append(m.Hazards.Statements, material.Statement{Text: t, Source: "invented"})
	}
	return m
}

func texts(list []HazardText) string {
	var out []string
	for _, h := range list {
		out = append(out, h.Of+": "+h.Text)
	}
	return strings.Join(out, "\n")
}

// A label says what harms and how to handle it, not what a test found or how the
// law sorts it; where nothing else is known of a hazard, its class speaks.
func TestLabelKeepsToHazards(t *testing.T) {
	blue := hazard(powder("blue", 2, 40), true, "gives off a gas with acid", "of a medicinal grade: 21 to 28 µg of it per g came free in 24 h at pH 7", "codes turned from the older EU risk phrases", "does not burn; hardly soluble in water")
	if got, want := texts(Labelled{Materials: []*material.Material{blue}}.text().Hazards), "blue: gives off a gas with acid"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	teal := hazard(powder("teal", 4, 20), true, "compounds are placed in groups by kind; where this pigment falls is not stated")
	teal.Classes = []material.Class{material.Cobalt}
	if got := texts(Labelled{Materials: []*material.Material{teal}}.text().Hazards); !strings.HasPrefix(got, "teal: Cobalt compound: dust harms the lungs") {
		t.Errorf("nothing is left of a listed hazard but %q", got)
	}
}

func TestLabels(t *testing.T) {
	red := hazard(powder("red", 4, 20), true, "poisonous dust", "does not burn", "a relative of it did not irritate skin")
	red.CIName = "PR1"
	red.Hazards.Codes, red.Hazards.CodesSource = []string{"H302", "H373"}, "a sheet"
	blue := hazard(powder("blue", 2, 40), false, "one producer's sheet gives no hazard class")
	blue.CIName = "PB1"
	chalk := powder("chalk", 2.7, 20)
	chalk.Kind = material.Extender
	oil := hazard(liquid("oil", material.Oil, 0.93), true, "Rags wet with it heat up by themselves.", "Self-heating doubles for every 10 degrees.", "can irritate the skin")
	oil.Classes = []material.Class{material.DryingOil}
	nutOil := hazard(liquid("nut oil", material.Oil, 0.92), true)
	nutOil.Classes = oil.Classes
	water := liquid("water", material.Water, 1)

	res, err := Labels(LabelRequest{On: OnTube, Copies: 2, Paints: []Labelled{
		{Materials: []*material.Material{red, blue, chalk, oil, nutOil, water}},
		{Name: "sky", Materials: []*material.Material{blue, oil}},
		{Materials: []*material.Material{chalk, water}},
	}})
	if err != nil {
		t.Fatal(err)
	}
	mixed, sky, plain := res.Texts[0], res.Texts[1], res.Texts[2]
	if mixed.Name != "red + blue" || !slices.Equal(mixed.Index, []string{"PR1", "PB1"}) || !slices.Equal(mixed.Binder, []string{"oil", "nut oil"}) || !slices.Equal(mixed.Extenders, []string{"chalk"}) {
		t.Errorf("the label says %+v", mixed)
	}
	want := "red: poisonous dust\nred: H302 H373\noil: can irritate the skin\noil: " + ragsLine
	if got := texts(mixed.Hazards); got != want {
		t.Errorf("hazards\n%s\nwant\n%s", got, want)
	}
	// Chalk was never assessed and must be said so; water is no material to assess.
	if !slices.Equal(mixed.NotAssessed, []string{"chalk"}) || !slices.Equal(plain.NotAssessed, []string{"chalk"}) {
		t.Errorf("not assessed: %v and %v, want chalk", mixed.NotAssessed, plain.NotAssessed)
	}
	if sky.Name != "sky" || len(sky.NotAssessed) != 0 {
		t.Errorf("a named paint says %+v", sky)
	}
	if plain.Name != "chalk" {
		t.Errorf("a paint of extender is named %q", plain.Name)
	}
	for _, req := range []LabelRequest{{Copies: 1}, {Paints: []Labelled{{}}, Copies: 1}, {Paints: []Labelled{{Name: "x"}}}} {
		if _, err := Labels(req); err == nil {
			t.Errorf("%+v was taken", req)
		}
	}
}
