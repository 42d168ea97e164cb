package formulate

import (
	"slices"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

const day quantity.Duration = 86400

func dryingOil(id string, days ...quantity.Duration) *material.Material {
	m := liquid(id, material.Oil, 0.93)
	m.DryingClass = []material.Statement{{Text: id + " class", Source: "invented"}}
	for _, d := range days {
		m.DryingTime = append(m.DryingTime, evidence.Reading[quantity.Duration]{Value: d * day, Source: "invented"})
	}
	return m
}

// The time is that of the slowest oil, whatever the order; what sources say of
// pigments is handed on, and pigments of which nothing is known are named.
func TestDryingOf(t *testing.T) {
	fast, slow, untimed := dryingOil("fast", 3), dryingOil("slow", 6, 7), dryingOil("untimed")
	lead := powder("lead", 6.7, 10)
	lead.DryingEffect = []material.Statement{{Text: "speeds drying", Source: "book"}, {Text: "dries fast", Source: "other book"}}
	unknown := powder("unknown", 2, 30)
	filler := powder("filler", 2.7, 17)
	filler.Kind = material.Extender
	wax := liquid("wax", material.Wax, 0.96)
	wax.DryingEffect = []material.Statement{{Text: "not asked", Source: "book"}}

	alone := DryingOf([]*material.Material{slow})
	for _, list := range [][]*material.Material{
		{lead, fast, unknown, slow, untimed, filler, wax},
		{slow, wax, untimed, fast, lead, unknown, filler},
	} {
		d := DryingOf(list)
		if d.Oil != alone.Oil || !(d.Oil.Low < d.Oil.Typical && d.Oil.Typical < d.Oil.High) {
			t.Errorf("oil dries in %v, want that of the slowest, %v", d.Oil, alone.Oil)
		}
		near(t, "slowest oil, days", float64(d.Oil.Typical/day), 6.48, 0.02) // the geometric middle of 6 and 7
		if got := len(d.OilClass); got != 3 {
			t.Errorf("%d oil classes, want each oil's: %v", got, d.OilClass)
		}
		if !slices.Equal(d.Pigments, []Remark{{"lead", "speeds drying", "book"}, {"lead", "dries fast", "other book"}}) {
			t.Errorf("pigments: %v", d.Pigments)
		}
		if !slices.Equal(d.NotKnown, []string{"unknown", "filler"}) {
			t.Errorf("not known: %q", d.NotKnown)
		}
		if d.Conditions == "" {
			t.Error("a time without its conditions")
		}
	}
}

// Without a published time none is made up.
func TestDryingNotMadeUp(t *testing.T) {
	if d := DryingOf([]*material.Material{dryingOil("untimed"), powder("blue", 2, 30)}); d.Oil != (evidence.Range[quantity.Duration]{}) {
		t.Errorf("got %v", d.Oil)
	}
}
