package shelf

import (
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/material"
)

func TestIDOf(t *testing.T) {
	for name, want := range map[string]string{
		"Violet hematite":      "violet-hematite",
		"  Ochre, Quarry Lane": "ochre-quarry-lane",
		"Grün №3 (deep)":       "grun-3-deep",
		"—":                    "",
	} {
		if got := IDOf(name); got != want {
			t.Errorf("IDOf(%q) = %q, want %q", name, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		if id := IDOf(rapid.String().Draw(t, "name")); id != "" && !material.IsID(id) {
			t.Fatalf("%q is not an id", id)
		}
	})
}
