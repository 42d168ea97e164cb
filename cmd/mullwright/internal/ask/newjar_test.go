package ask

import (
	"strings"
	"testing"

	"mullwright/formulate"
)

// What is saved of a jar that no catalogue holds stands by itself: it reads
// back, a mull can be worked out from it, and a later test is written beside the
// first.
func TestNewJarIsSavedWhole(t *testing.T) {
	save := func(w *Workshop, q RubOut) string {
		t.Helper()
		req, err := q.Request(w)
		if err != nil {
			t.Fatal(err)
		}
		res, err := formulate.RubOut(req)
		if err != nil {
			t.Fatal(err)
		}
		text, err := w.OwnEntry(res)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	first := save(workshop(t), RubOut{NewJar: NewJar{Name: "Quarry Lane violet"}, Density: "5.0g/ml", PigmentMass: "5g", Took: []string{"1.2ml", "1.22ml"}})
	w := workshop(t)
	if err := w.Add("jar.toml", first+"\n[source.my-sheet]\nauthor = \"a\"\ntitle = \"t\"\nyear = \"n.d.\"\n"); err != nil {
		t.Fatalf("%v in\n%s", err, first)
	}
	m, err := w.PigmentNamed("quarry-lane-violet")
	if err != nil {
		t.Fatal(err)
	}
	if m.Name != "Quarry Lane violet" || m.Family != "violet" || m.Density[0].Value != 5 || len(m.OilAbsorption) != 2 || m.Hazards.Assessed {
		t.Errorf("read back as %+v", m)
	}
	req, err := (&Mull{Pigments: []string{"quarry-lane-violet"}, PigmentMass: "20g"}).Request(w, formulate.Sampling{Draws: 64})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := formulate.Mull(req); err != nil {
		t.Errorf("no mull from it: %v", err)
	}
	// An entry keeps what else its maker wrote, sources too.
	m.Density[0].Source = "my-sheet"
	second := save(w, RubOut{Pigment: []string{"quarry-lane-violet"}, PigmentMass: "5g", Took: []string{"1.3ml"}, Lot: "2"})
	w = workshop(t)
	if err := w.Add("jar.toml", second); err != nil {
		t.Fatalf("%v in\n%s", err, second)
	}
	if m, err = w.PigmentNamed("quarry-lane-violet"); err != nil || len(m.OilAbsorption) != 3 || m.Density[0].Source != "my-sheet" {
		t.Errorf("after the second test %+v, %v", m, err)
	}
}

func TestNewJarRefuses(t *testing.T) {
	w := workshop(t)
	for want, q := range map[string]RubOut{
		"is in the catalogue, as yellow-ochre": {NewJar: NewJar{Name: "Yellow Ochre"}},
		"give one of the two":                  {NewJar: NewJar{Name: "Jar three"}, Pigment: []string{"chalk"}},
		"holds no letter":                      {NewJar: NewJar{Name: "—"}},
		"one line of at most":                  {NewJar: NewJar{Name: "a\nb"}},
		"give its --name too":                  {Pigment: []string{"chalk"}, Density: "2.7g/ml"},
		"this is the hue of a jar":             {Pigment: []string{"chalk"}, NewJar: NewJar{Family: "white"}},
		`write --name "violet hematite"`:       {Pigment: []string{"violet hematite"}},
	} {
		if _, err := q.Request(w); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want one about %q", q.NewJar, err, want)
		}
	}
	for want, q := range map[string]RubOut{
		"its density is missing": {NewJar: NewJar{Name: "Jar violet"}},
		"says no hue":            {NewJar: NewJar{Name: "Jar three"}, Density: "5g/ml"},
		"accepted: white":        {NewJar: NewJar{Name: "Jar three", Family: "mauve"}, Density: "5g/ml"},
	} {
		q.Took = []string{"1g on 5g"}
		req, err := q.Request(w)
		if err != nil {
			t.Fatal(err)
		}
		res, err := formulate.RubOut(req)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.OwnEntry(res); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: saved with %v, want an error about %q", q.NewJar, err, want)
		}
	}
}
