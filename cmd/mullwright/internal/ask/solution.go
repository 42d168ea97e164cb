package ask

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// DefaultStrength is that of a gum solution where the maker says nothing: the
// commonest of published recipes.
const DefaultStrength = "1:2"

// None leaves out what would otherwise be put in.
const None = "none"

// Powder is the strength of gum stirred in dry.
const Powder = "powder"

// Solution is a stock solution as asked.
type Solution struct {
	What         []string
	Strength     string
	Amount       string
	Humectants   []string
	Preservative string
	Temperature  string
	Scale        string
}

// Fields lists what may be said of a stock solution.
func (q *Solution) Fields() []Field {
	return []Field{
		{Name: "of", Many: &q.What, Help: "gum, resin or made-up medium", FileOnly: true},
		{Name: "amount", One: &q.Amount, Help: "solution wanted, as in 200ml or 150g"},
		{Name: "strength", One: &q.Strength, Help: "gum to water by mass as in 1:2, or gum by mass as in 33% (default " + DefaultStrength + ")"},
		{Name: "humectant", Many: &q.Humectants, Help: "humectant NAME=RATIO to the gum by mass, as in glycerine=0.5; repeat for more"},
		{Name: "preservative", One: &q.Preservative, Help: "preservative NAME=SHARE of the whole, as in phenoxyethanol=0.5%"},
		{Name: "temperature", One: &q.Temperature, Help: "for the viscosity (default " + DefaultTemperature + ")"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
	}
}

// Request turns the question into a request.
func (q *Solution) Request(w *Workshop) (formulate.SolutionRequest, error) {
	var req formulate.SolutionRequest
	var err error
	switch len(q.What) {
	case 0:
		return req, errors.New("nothing to dissolve given: name a gum or a made-up medium, as in gum-arabic or watercolour-binder")
	case 1:
	default:
		return req, fmt.Errorf("%s: give one gum or medium at a time", strings.Join(q.What, ", "))
	}
	if q.Amount == "" {
		return req, errors.New("no amount given: say --amount, as in 200ml or 150g")
	}
	if strings.EqualFold(strings.TrimSpace(q.Strength), Powder) {
		return req, at("strength", errors.New("powder is no solution; give gum to water as in 1:2, or a share as in 33%"))
	}
	if req.Solution, err = w.Solution(q.What[0], q.Strength); err != nil {
		return req, err
	}
	if req.Humectants, err = w.humectants(q.Humectants); err != nil {
		return req, at("humectant", err)
	}
	if q.Preservative != "" && q.Preservative != None {
		a, err := w.additive(q.Preservative)
		if err != nil {
			return req, at("preservative", err)
		}
		req.Additives = append(req.Additives, a)
	}
	if req.Amount, err = massOrVolume(q.Amount); err != nil {
		return req, at("amount", err)
	}
	if err := req.Temperature.Set(orOne(q.Temperature, DefaultTemperature)); err != nil {
		return req, at("temperature", err)
	}
	return req, at("scale", req.Scale.Set(orOne(q.Scale, DefaultScale)))
}

// Solution makes a gum or resin ready in water at a strength, or takes a made-up
// medium as it is.
func (w *Workshop) Solution(name, strength string) (formulate.Liquid, error) {
	m, err := w.MediumNamed(name)
	if err != nil {
		return formulate.Liquid{}, err
	}
	if len(m.Parts) > 0 {
		if strength != "" {
			return formulate.Liquid{}, at("strength", fmt.Errorf("%s has its own strength; leave it out, or name the gum itself", m.ID))
		}
		return w.Pour(name)
	}
	if m.Kind != material.Gum {
		err := fmt.Errorf("%s (%s) is not a gum or a made-up medium", m.ID, m.Kind)
		if made := w.mediaWith(m.ID); len(made) > 0 {
			err = fmt.Errorf("%w; made up with it: %s", err, strings.Join(made, ", "))
		}
		return formulate.Liquid{}, err
	}
	r, err := parseStrength(orOne(strength, DefaultStrength))
	if err != nil {
		return formulate.Liquid{}, at("strength", err)
	}
	dissolved, err := w.liquidPart(m, 1)
	if err != nil {
		return formulate.Liquid{}, err
	}
	parts := []formulate.LiquidPart{dissolved}
	if r == 0 {
		return formulate.NewLiquid(m, parts)
	}
	water, err := w.Medium("water")
	if err != nil {
		return formulate.Liquid{}, err
	}
	parts = append(parts, formulate.NewLiquidPart(water, quantity.MassFraction(r), nil))
	made := &material.Material{ID: m.ID + "-solution", Name: m.Name + " in water, " + strengthText(r), Kind: material.Medium, Note: m.Note}
	return formulate.NewLiquid(made, parts)
}

// mediaWith lists the made-up media that hold a material.
func (w *Workshop) mediaWith(id string) []string {
	var out []string
	for _, name := range w.Media.IDs() {
		m, err := w.MediumNamed(name)
		if err != nil {
			continue // a fault in another entry is that entry's own story
		}
		if slices.ContainsFunc(m.Parts, func(p material.Part) bool { return p.ID == id }) {
			out = append(out, name)
		}
	}
	return out
}

// strengthText prints a strength as makers say it.
func strengthText(r quantity.Ratio) string { return fmt.Sprintf("1:%.3g", float64(r)) }

// parseStrength reads "1:2", "33%" or "powder" as water for one of gum, by mass.
func parseStrength(text string) (quantity.Ratio, error) {
	t := strings.TrimSpace(text)
	switch {
	case strings.EqualFold(t, Powder):
		return 0, nil
	case strings.Contains(t, ":"):
		a, b, err := pair(t)
		if err != nil {
			return 0, err
		}
		r := quantity.Ratio(b / a)
		if !(r >= 0.5 && r <= 1000) {
			return 0, fmt.Errorf("%q: gum dissolves from 1:0.5; accepted: 1:0.5 to 1:1000", text)
		}
		return r, nil
	}
	s, err := quantity.ParseMassFraction(t)
	if err != nil {
		return 0, fmt.Errorf("%q is not a strength; accepted: gum to water as in 1:2, a share as in 33%%, or powder", text)
	}
	r, err := gum.RatioOfShare(s)
	if err != nil {
		return 0, err
	}
	if !(r >= 0.5 && r <= 1000) {
		return 0, fmt.Errorf("%q: gum dissolves up to 66 %%; accepted: 0.1 %% to 66 %%, or powder", text)
	}
	return r, nil
}

// pair reads "1:2".
func pair(text string) (a, b quantity.Parts, err error) {
	x, y, ok := strings.Cut(text, ":")
	if !ok {
		return 0, 0, fmt.Errorf("%q: want two numbers with a colon, as in 1:2", text)
	}
	if a, err = quantity.ParseParts(x); err != nil {
		return 0, 0, err
	}
	b, err = quantity.ParseParts(y)
	return a, b, err
}

// massOrVolume reads an amount in grams or in millilitres.
func massOrVolume(text string) (formulate.Amount, error) {
	var a formulate.Amount
	if err := a.Mass.Set(text); err == nil {
		a.Kind = formulate.ByPaintMass
		return a, nil
	}
	a.Kind = formulate.ByPaintVolume
	if err := a.Volume.Set(text); err != nil {
		return a, fmt.Errorf("%q is neither a mass nor a volume; accepted: as in 150g or 200ml", text)
	}
	return a, nil
}

// humectants reads "glycerine=0.5": a ratio to the gum by mass.
func (w *Workshop) humectants(list []string) ([]formulate.GumHumectant, error) {
	var out []formulate.GumHumectant
	seen := map[string]bool{}
	for _, text := range list {
		n, err := splitNamed(text)
		if err != nil {
			return nil, err
		}
		if n.name == None && !n.given {
			if len(list) > 1 {
				return nil, errors.New("none and a humectant are given together")
			}
			return nil, nil
		}
		if !n.given {
			return nil, fmt.Errorf("%q: the ratio to the gum is missing, as in %s=0.5", text, n.name)
		}
		ratio, err := quantity.ParseRatio(n.value)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", n.name, err)
		}
		h, err := w.humectant(n.name, ratio)
		if err != nil {
			return nil, err
		}
		if seen[h.Material.ID] {
			return nil, fmt.Errorf("%s is given twice; add its ratios together", h.Material.ID)
		}
		seen[h.Material.ID] = true
		out = append(out, h)
	}
	return out, nil
}

func (w *Workshop) humectant(name string, ratio quantity.Ratio) (formulate.GumHumectant, error) {
	m, err := w.MediumNamed(name)
	if err != nil {
		return formulate.GumHumectant{}, err
	}
	p, err := w.liquidPart(m, 1)
	return formulate.GumHumectant{LiquidPart: p, Ratio: ratio}, err
}

// additive reads "ox-gall=1%": a share of the paint. Without a share it takes
// the middle of the published use.
func (w *Workshop) additive(text string) (formulate.GumAdditive, error) {
	n, err := splitNamed(text)
	if err != nil {
		return formulate.GumAdditive{}, err
	}
	l, err := w.Pour(n.name)
	if err != nil {
		return formulate.GumAdditive{}, err
	}
	a := formulate.GumAdditive{Liquid: l}
	if n.given {
		if a.Share, err = fraction(n.value); err != nil {
			return a, fmt.Errorf("%s: %w", n.name, err)
		}
		return a, nil
	}
	var known bool
	if a.Share, known = formulate.UsualShare(l.Material); !known {
		return a, fmt.Errorf("%q: the share is missing and no published use is known, as in %s=0.5%%", text, n.name)
	}
	return a, nil
}

// orAt names a field unless the error names one already.
func orAt(field string, err error) error {
	var f *FieldError
	if errors.As(err, &f) {
		return err
	}
	return at(field, err)
}
