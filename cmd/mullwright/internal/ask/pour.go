package ask

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Pour looks a liquid up and makes it ready to be poured: an oil, a solvent, a
// gum, or a made-up medium, which is taken apart into what it is made of.
func (w *Workshop) Pour(name string) (formulate.Liquid, error) {
	m, err := w.MediumNamed(name)
	if err != nil {
		return formulate.Liquid{}, err
	}
	parts, err := w.expand(m, 1, nil)
	if err != nil {
		return formulate.Liquid{}, err
	}
	return formulate.NewLiquid(m, parts)
}

// expand takes a material apart. path holds the media it is a part of.
func (w *Workshop) expand(m *material.Material, share quantity.MassFraction, path []string) ([]formulate.LiquidPart, error) {
	for _, id := range path {
		if id == m.ID {
			return nil, fmt.Errorf("%s is made of itself: %s", m.ID, strings.Join(append(path, m.ID), " > "))
		}
	}
	if len(m.Parts) == 0 {
		p, err := w.liquidPart(m, share)
		return []formulate.LiquidPart{p}, err
	}
	var sum quantity.Parts
	for _, p := range m.Parts {
		sum += p.Mass
	}
	// A path of its own: two parts must not share one array.
	path = append(append([]string(nil), path...), m.ID)
	var out []formulate.LiquidPart
	for _, p := range m.Parts {
		of, err := w.MediumNamed(p.ID)
		if err != nil {
			return nil, fmt.Errorf("part of %s: %w", m.ID, err)
		}
		parts, err := w.expand(of, share*quantity.MassFraction(p.Mass/sum), path)
		if err != nil {
			return nil, err
		}
		out = append(out, parts...)
	}
	return out, nil
}

func (w *Workshop) liquidPart(m *material.Material, share quantity.MassFraction) (formulate.LiquidPart, error) {
	in, err := formulate.NewIngredient(m)
	if err != nil || len(m.NonVolatile) == 0 {
		return formulate.NewLiquidPart(in, share, nil), err
	}
	leaves, err := w.Medium(orOne(m.Volatile, "water"))
	if err != nil {
		return formulate.LiquidPart{}, fmt.Errorf("what leaves %s as it dries: %w", m.ID, err)
	}
	return formulate.NewLiquidPart(in, share, &leaves), nil
}
