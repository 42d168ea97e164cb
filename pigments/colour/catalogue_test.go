package colour_test

import (
	"slices"
	"testing"

	"mullwright/pigments"
	"mullwright/pigments/colour"
)

// Pigments that have a measured colour and no catalogue entry, for want of a
// density or an oil figure. They serve a maker's own entry of that name.
var uncatalogued = []string{
	"aniline-black", "atacamite", "bistre", "green-earth-burnt", "hematite", "indigo", "jarosite", "magnetite",
	"mars-brown", "mars-orange", "pyrrole-orange", "quinacridone-red", "sepia", "smalt", "terra-pozzuoli",
	"transparent-red-iron-oxide", "transparent-yellow-iron-oxide", "ultramarine-red",
}

// Every other colour stands under an identifier of the catalogue, so that a
// renamed entry does not lose its colour unnoticed.
func TestColoursBelongToEntries(t *testing.T) {
	known := pigments.New().IDs()
	for _, id := range colour.IDs() {
		if !slices.Contains(known, id) && !slices.Contains(uncatalogued, id) {
			t.Errorf("colour of %q belongs to no pigment", id)
		}
	}
}
