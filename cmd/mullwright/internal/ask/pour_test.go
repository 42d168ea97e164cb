package ask

import (
	"math"
	"strings"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/material"
)

func TestPourEveryMedium(t *testing.T) {
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range w.Media.IDs() {
		m, err := w.Media.Lookup(id)
		if err != nil {
			t.Fatal(err)
		}
		if m.Kind != material.Medium && len(m.NonVolatile) == 0 {
			continue
		}
		l, err := w.Pour(id)
		if err != nil {
			t.Errorf("%s: %v", id, err)
			continue
		}
		var seats formulate.Roster
		l.Sit(&seats)
		f := formulate.Paint{Components: l.Pour(nil, 10, make([]float64, seats.Inputs()))}.Figures()
		if math.Abs(float64(f.Mass)-10) > 1e-9 {
			t.Errorf("%s: 10 g poured, %v g arrived", id, f.Mass)
		}
		if d := f.Density(); d < 0.7 || d > 2.2 {
			t.Errorf("%s: density %v g/ml is no liquid's", id, d)
		}
		for _, p := range l.Parts {
			if p.Material.Kind == material.Medium {
				t.Errorf("%s: %s was not taken apart", id, p.Material.ID)
			}
		}
	}
}

// The glaze medium is 1 : 1 : 5 of stand oil, damar varnish and turpentine.
func TestPourGlazeMedium(t *testing.T) {
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	l, err := w.Pour("glaze-medium")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]formulate.Role{"stand-oil": formulate.Binder, "dammar": formulate.Binder, "turpentine": formulate.Volatile}
	for _, p := range l.Parts {
		if p.Role() != want[p.Material.ID] {
			t.Errorf("%s is %s, want %s", p.Material.ID, p.Role(), want[p.Material.ID])
		}
	}
	if len(l.Parts) != len(want) {
		t.Errorf("%d parts, want %d", len(l.Parts), len(want))
	}
}

func TestPourRefusesCycle(t *testing.T) {
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Add("own.toml", `
[medium.thick]
name = "Thick"
kind = "medium"
parts = [{ id = "linseed-oil", parts = "1" }, { id = "thin", parts = "1" }]
[medium.thin]
name = "Thin"
kind = "medium"
parts = [{ id = "turpentine", parts = "1" }, { id = "thick", parts = "1" }]
`); err != nil {
		t.Fatal(err)
	}
	_, err = w.Pour("thick")
	if err == nil || !strings.Contains(err.Error(), "thick > thin > thick") {
		t.Errorf("pour of a medium made of itself: %v", err)
	}
}
