package ask

import (
	"math"
	"strings"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/material"
)

func workshop(t *testing.T) *Workshop {
	t.Helper()
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func TestReadTest(t *testing.T) {
	for text, want := range map[string]formulate.RubOutTest{
		"2.05g":                       {Pigment: 5, Read: formulate.Weighed, Oil: 2.05},
		"2,05 g on 5.02 g":            {Pigment: 5.02, Read: formulate.Weighed, Oil: 2.05},
		"2.2ml":                       {Pigment: 5, Read: formulate.Measured, Volume: 2.2},
		"67 drops":                    {Pigment: 5, Read: formulate.Counted, Drops: 67},
		"67 drops on 10g":             {Pigment: 10, Read: formulate.Counted, Drops: 67},
		"85.32g to 83.27g":            {Pigment: 5, Read: formulate.Weighed, Oil: 2.05},
		"85.32 to 83.27g on 15g":      {Pigment: 15, Read: formulate.Weighed, Oil: 2.05},
		"83.27g to 85.32g":            {Pigment: 5, Read: formulate.Weighed, Oil: 2.05},
		"0ml to 3.2ml":                {Pigment: 5, Read: formulate.Measured, Volume: 3.2},
		"0 to 3.2 ml on 10g":          {Pigment: 10, Read: formulate.Measured, Volume: 3.2},
		"1.2ml to 4.4ml on 10.00g   ": {Pigment: 10, Read: formulate.Measured, Volume: 3.2},
	} {
		got, err := readTest(text, 5)
		if err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"2.05":           "unit is missing",
		"":               "empty",
		"-2g":            "negative",
		"nan":            "number",
		"2g to 2g":       "alike",
		"2g to 2ml":      "one reading is a mass",
		"0 drops":        "count of drops",
		"2.5 drops":      "unknown unit",
		"2g on":          "unknown unit",
		"2g on 5ml":      "unit of volume",
		"1e9999g":        "cannot be read",
		"2.05m2/g":       "specific surface",
		"0.0000000001ml": "outside",
	} {
		if _, err := readTest(text, 5); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v, want one about %q", text, err, want)
		}
	}
}

// What is saved is a catalogue file: it reads back, keeps what is published and
// lays the tests beside it.
func TestOwnEntry(t *testing.T) {
	w := workshop(t)
	entry := func(q RubOut) string {
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
	lookup := func(text string) *material.Material {
		t.Helper()
		w = workshop(t)
		if err := w.Add("own.toml", text); err != nil {
			t.Fatalf("%v in\n%s", err, text)
		}
		m, err := w.Pigments.Lookup("prussian-blue")
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	first := lookup(entry(RubOut{Pigment: []string{"PB27"}, PigmentMass: "5g", Took: []string{"2ml", "2.1ml"}, Lot: `jar "3"`, Date: "1 May"}))
	published := mustLookup(t, workshop(t))
	n := len(published.OilAbsorption)
	d, method := formulate.AbsorptionOf(first)
	if want := math.Sqrt(40 * 42); math.Abs(float64(d.Median)/want-1) > 0.005 || d.Sigma > 0.02 || method != material.RubOut || len(first.OilAbsorption) != n+2 {
		t.Errorf("%+v by %s from %d readings, want %v by rub-out from %d", d, method, len(first.OilAbsorption), want, n+2)
	}
	before, _ := published.AbsorptionDistribution()
	if was, _ := first.PublishedAbsorption(); was != before {
		t.Errorf("what is published is now %+v, was %+v", was, before)
	}
	if r := first.OilAbsorption[n]; r.Source != material.OwnMeasurement || r.At != "1 May" || r.Lot != `jar "3"` || !strings.HasPrefix(r.Note, `test 1 of 2, linseed-oil, 2 ml of oil measured on 5 g`) {
		t.Errorf("first reading %+v", r)
	}
	// The next lot is written beside the first.
	if second := lookup(entry(RubOut{Pigment: []string{"PB27"}, PigmentMass: "5g", Took: []string{"2.2ml"}, Lot: "4"})); len(second.OilAbsorption) != n+3 {
		t.Errorf("%d readings after the second lot, want %d", len(second.OilAbsorption), n+3)
	}
	// A stirred test stands beside the published rub-outs and does not count with them.
	w = workshop(t)
	after, method := lookup(entry(RubOut{Pigment: []string{"PB27"}, PigmentMass: "5g", Took: []string{"4ml"}, EndPoint: "gardner-coleman"})).AbsorptionDistribution()
	if after != before || method == material.GardnerColeman {
		t.Errorf("a stirred test moved the rub-out from %+v to %+v (%s)", before, after, method)
	}
	// So does a test with a thick oil, set aside.
	w = workshop(t)
	thick := lookup(entry(RubOut{Pigment: []string{"PB27"}, PigmentMass: "5g", Took: []string{"4ml"}, Oil: "stand-oil"}))
	if got, _ := thick.AbsorptionDistribution(); got != before {
		t.Errorf("a test with stand oil moved the rub-out from %+v to %+v", before, got)
	}
	if last := thick.OilAbsorption[len(thick.OilAbsorption)-1]; last.Aside == "" {
		t.Errorf("%+v is not set aside", last)
	}
}

func mustLookup(t *testing.T, w *Workshop) *material.Material {
	t.Helper()
	m, err := w.Pigments.Lookup("prussian-blue")
	if err != nil {
		t.Fatal(err)
	}
	return m
}
