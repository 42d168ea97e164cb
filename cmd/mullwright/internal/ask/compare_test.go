package ask

import (
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
)

// The whole catalogue with every oil at every body, 10,000 draws each.
func BenchmarkCompareCatalogue(b *testing.B) {
	w, err := Open("", nil)
	if err != nil {
		b.Fatal(err)
	}
	q := Compare{MaxOil: "2000g/100g", Extender: true} // takes every one
	req, err := q.Request(w, formulate.Sampling{Draws: 10000})
	if err != nil {
		b.Fatal(err)
	}
	entries, err := w.Media.Entries()
	if err != nil {
		b.Fatal(err)
	}
	var oils []formulate.Ingredient
	for _, e := range entries {
		if e.Kind == material.Oil {
			if in, err := w.Medium(e.ID); err == nil {
				oils = append(oils, in)
			}
		}
	}
	b.Logf("%d pigments, %d oils, %d bodies", len(req.Pigments), len(oils), len(absorption.Steps()))
	for b.Loop() {
		palette := formulate.NewPalette(req.Pigments, req.Sampling)
		for _, body := range absorption.Steps() {
			for _, oil := range oils {
				req.Oil, req.Body = oil, body
				if _, err := palette.Compare(req); err != nil {
					b.Fatal(err)
				}
			}
		}
	}
}
