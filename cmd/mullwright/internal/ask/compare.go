package ask

import (
	"errors"
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/shelf"
)

// Compare is a comparison as asked.
type Compare struct {
	Pigments []string
	Oil      string
	At       string
	Body     string
	PVC      string
	OilPer   string
	Tube     string
	Fill     string
	Film     string
	Sort     string
	Family   string
	CI       string
	MaxOil   string
	NoHazard bool
	Extender bool
	Like     string
	Prices   []string
}

// Fields lists what may be said of a comparison.
func (c *Compare) Fields() []Field {
	return []Field{
		{Name: "pigments", Many: &c.Pigments, Help: "pigments to compare", FileOnly: true},
		{Name: "at", One: &c.At, Help: "what is held equal: body, pvc, same-oil (g per 100 g), same-volume (one filled tube) (default body)"},
		{Name: "body", One: &c.Body, Help: "the body (default " + DefaultBody + ")"},
		{Name: "pvc", One: &c.PVC, Help: "the PVC for --at pvc, as in 40%"},
		{Name: "oil-per-100g", One: &c.OilPer, Help: "the oil for --at same-oil, as in 60g/100g"},
		{Name: "oil", One: &c.Oil, Help: "drying oil (default " + DefaultOil + ")"},
		{Name: "sort", One: &c.Sort, Help: "order by " + strings.Join(formulate.CompareColumns(), ", ")},
		{Name: "tube", One: &c.Tube, Help: "tube size (default 40 ml)"},
		{Name: "fill", One: &c.Fill, Help: "how much of a tube is filled (default " + DefaultFill + ")"},
		{Name: "film", One: &c.Film, Help: "wet film for the cost per area (default 100 µm)"},
		{Name: "family", One: &c.Family, Help: "all pigments of a family, as in blue or earth"},
		{Name: "ci", One: &c.CI, Help: "all pigments whose Colour Index name begins so, as in PR or PB15"},
		{Name: "max-oil", One: &c.MaxOil, Help: "only those whose known oil absorption (not demand) is at most this, as in 40g/100g"},
		{Name: "no-listed-hazard", Yes: &c.NoHazard, Help: "only those assessed and without a listed hazard or a caution of their own; one not assessed never passes"},
		{Name: "extenders", Yes: &c.Extender, Help: "let a filter take extenders too"},
		{Name: "like", One: &c.Like, Help: "rank all others by likeness to this pigment"},
		{Name: "price", Many: &c.Prices, Help: "price NAME=AMOUNT, as in prussian-blue=0.12/g"},
	}
}

func (c *Compare) filtered() bool {
	return c.Family != "" || c.CI != "" || c.MaxOil != "" || c.NoHazard
}

// Request turns the question into a request.
func (c *Compare) Request(w *Workshop, s formulate.Sampling) (formulate.CompareRequest, error) {
	req := formulate.CompareRequest{Sampling: s, Sort: c.Sort, At: formulate.Basis(orOne(c.At, string(formulate.SameBody)))}
	price, err := w.readPrices(c.Prices)
	if err != nil {
		return req, at("price", err)
	}
	if req.Pigments, err = c.chosen(w); err != nil {
		return req, err
	}
	for i := range req.Pigments {
		req.Pigments[i].Price = price[req.Pigments[i].Material.ID]
	}
	if req.Oil, err = w.Medium(orOne(c.Oil, DefaultOil)); err != nil {
		return req, at("oil", err)
	}
	req.Oil.Price = price[req.Oil.Material.ID]
	if req.Body, err = absorption.ParseBody(orOne(c.Body, DefaultBody)); err != nil {
		return req, at("body", err)
	}
	if req.At == formulate.SamePVC && c.PVC == "" {
		return req, at("pvc", errors.New("--at pvc needs one, as in --pvc 40%"))
	}
	if req.At == formulate.SameOil && c.OilPer == "" {
		return req, at("oil-per-100g", errors.New("--at same-oil needs one, as in --oil-per-100g 60g/100g"))
	}
	for _, f := range []struct {
		name, text string
		set        func(string) error
	}{
		{"pvc", c.PVC, req.PVC.Set}, {"oil-per-100g", c.OilPer, req.OilPer.Set},
		{"tube", orOne(c.Tube, DefaultTube), req.Tube.Set}, {"fill", orOne(c.Fill, DefaultFill), req.Fill.Set}, {"film", orOne(c.Film, "100 µm"), req.Film.Set},
	} {
		if f.text != "" {
			if err := f.set(f.text); err != nil {
				return req, at(f.name, err)
			}
		}
	}
	return req, nil
}

// chosen gathers the pigments named and those a filter takes.
func (c *Compare) chosen(w *Workshop) ([]formulate.Ingredient, error) {
	var out []formulate.Ingredient
	seen := map[string]bool{}
	for _, name := range c.Pigments {
		in, err := w.Pigment(name)
		if err != nil {
			return nil, at("pigment", err)
		}
		if seen[in.Material.ID] {
			return nil, at("pigment", fmt.Errorf("%s is named twice", in.Material.ID))
		}
		seen[in.Material.ID] = true
		out = append(out, in)
	}
	if !c.filtered() {
		if len(out) == 0 {
			return nil, errors.New("nothing to compare: name pigments, or filter with --family, --ci, --max-oil or --no-listed-hazard")
		}
		return out, nil
	}
	var most quantity.Absorption
	if c.MaxOil != "" {
		if err := most.Set(c.MaxOil); err != nil {
			return nil, at("max-oil", err)
		}
	}
	entries, err := w.Pigments.Entries()
	if err != nil {
		return nil, err
	}
	for _, en := range entries {
		if seen[en.ID] || !c.takes(en) {
			continue
		}
		in, err := w.Pigment(en.ID)
		if err != nil {
			continue // its density or its oil is not known: nothing to compare
		}
		if most > 0 && in.Method == "" {
			continue // no oil absorption is known, only inferred
		}
		if most > 0 && in.Demand.OilAbsorption(0).ByMass(quantity.ReportingOilDensity) > most {
			continue
		}
		if c.NoHazard && (!in.Material.Hazards.Assessed || formulate.DustHazard(in.Material)) {
			continue
		}
		out = append(out, in)
	}
	if len(out) == 0 {
		return nil, errors.New("no pigment passes the filter")
	}
	return out, nil
}

func (c *Compare) takes(en shelf.Entry) bool {
	if en.Kind != material.Pigment && !c.Extender {
		return false
	}
	if c.Family != "" && !en.OfFamily(c.Family) {
		return false
	}
	return c.CI == "" || underIndex(en.CIName, c.CI)
}

// underIndex reports whether a Colour Index name begins as asked: PB takes PB15
// and not PBr7, PB15 takes PB15:3.
func underIndex(name, asked string) bool {
	if len(name) < len(asked) || !strings.EqualFold(name[:len(asked)], asked) {
		return false
	}
	rest := name[len(asked):]
	letter := func(c byte) bool { return c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' }
	digit := func(c byte) bool { return c >= '0' && c <= '9' }
	last := asked[len(asked)-1]
	return rest == "" || letter(last) && !letter(rest[0]) || digit(last) && !digit(rest[0])
}

// Looks gathers every pigment for a likeness: the one asked for and all others.
func (c *Compare) Looks(w *Workshop) (of formulate.Look, others []formulate.Look, err error) {
	in, err := w.Pigment(c.Like)
	if err != nil {
		return of, nil, at("like", err)
	}
	of = look(in)
	all := *c
	all.Pigments, all.Extender = nil, all.Extender || in.Material.Kind == material.Extender
	entries, err := w.Pigments.Entries()
	if err != nil {
		return of, nil, err
	}
	if c.filtered() {
		list, err := all.chosen(w)
		if err != nil {
			return of, nil, err
		}
		for _, in := range list {
			others = append(others, look(in))
		}
		return of, others, nil
	}
	for _, en := range entries {
		if !all.takes(en) {
			continue
		}
		if in, err := w.Pigment(en.ID); err == nil {
			others = append(others, look(in))
		}
	}
	return of, others, nil
}

func look(in formulate.Ingredient) formulate.Look {
	l := formulate.Look{Ingredient: in}
	if c, ok := Colour(in.Material.ID); ok {
		l.Lab, l.Known = c.Chip.Lab, true
	}
	return l
}
