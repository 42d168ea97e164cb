package ask

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Gum reports whether the colour to correct is bound in gum.
func (c *Correct) Gum() (bool, error) {
	switch strings.ToLower(strings.TrimSpace(c.In)) {
	case "", "oil":
		return false, nil
	case "gum":
		return true, nil
	}
	return false, at("in", fmt.Errorf("%q is not a binder to correct in; accepted: oil, gum", c.In))
}

// only refuses fields that belong to the other binder.
func (c *Correct) only(in string, others ...string) error {
	for _, f := range c.Fields() {
		if f.set() && slices.Contains(others, f.Name) {
			other := "gum"
			if in == "gum" {
				other = "oil"
			}
			return at(f.Name, fmt.Errorf("this is said of a colour in %s; the one to correct is in %s", other, in))
		}
	}
	return nil
}

// ofOil are the fields that mean nothing in gum.
var ofOil = []string{
	"oil", "extender", "wax", "paste-mass", "oil-mass", "oil-volume", "oil-drops", "paste-density", "filled", "air", "over-drops", "over-mass", "wept", "feels", "sign",
	"body", "reduced-pvc", "above-critical", "add", "have", "stiffen-with", "stabilise-with", "next", "tube", "fill", "twenty-drops",
}

// GumRequest turns a question about a colour in gum into a request.
func (c *Correct) GumRequest(w *Workshop, s formulate.Sampling) (formulate.CorrectGumRequest, error) {
	req := formulate.CorrectGumRequest{Sampling: s}
	if err := c.only("gum", ofOil...); err != nil {
		return req, err
	}
	var err error
	if req.Symptom, err = optional(c.Symptom, formulate.ParseSymptom); err != nil {
		return req, at("symptom", err)
	}
	if c.PVC != "" {
		if err := req.PVC.Set(c.PVC); err != nil {
			return req, at("pvc", err)
		}
	}
	if (req.Symptom == "") == (req.PVC == 0) {
		return req, errors.New("say what is wrong with --symptom, or where it should be with --pvc: one of the two")
	}
	if err := req.Scale.Set(orOne(c.Scale, DefaultScale)); err != nil {
		return req, at("scale", err)
	}
	if c.From != "" {
		return req, c.gumFormula(w, s, &req)
	}
	return req, c.gumBatch(w, &req)
}

// gumFormula takes the batch from a [watercolour] file.
func (c *Correct) gumFormula(w *Workshop, s formulate.Sampling, req *formulate.CorrectGumRequest) error {
	if len(c.Pigments)+len(c.Poured) > 0 || c.PigmentMass != "" {
		return errors.New("the formula says what is in it already; give either --from or pigments, --pigment-mass and --poured")
	}
	text, err := ReadFile(c.From)
	if err != nil {
		return at("from", err)
	}
	var q Watercolour
	if err := Load(c.From, text, "watercolour", q.Fields()); err != nil {
		return err
	}
	made, err := q.Request(w, s)
	if err != nil {
		return err
	}
	req.Formula = &made
	return nil
}

// gumBatch takes the batch as it was weighed.
func (c *Correct) gumBatch(w *Workshop, req *formulate.CorrectGumRequest) error {
	price, err := w.readPrices(c.Prices)
	if err != nil {
		return at("price", err)
	}
	pigments, err := w.waterPigments(c.Pigments, c.PartsBy, nil, price)
	if err != nil {
		return err
	}
	if c.PigmentMass == "" {
		return errors.New("how much pigment is in it: --pigment-mass, as weighed")
	}
	whole, err := quantity.ParseMass(c.PigmentMass)
	if err != nil {
		return at("pigment-mass", err)
	}
	damp, err := shareOr(c.Moisture, 0)
	if err != nil {
		return at("moisture", err)
	}
	if damp >= 1 {
		return at("moisture", errors.New("a powder holds less water than all of its damp mass"))
	}
	var parts quantity.Parts
	for i := range pigments {
		parts += pigments[i].Parts
	}
	for i := range pigments {
		req.Batch.Powders = append(req.Batch.Powders, formulate.GumPowder{
			Ingredient: pigments[i].Ingredient, Mass: whole * quantity.Mass(1-damp) * quantity.Mass(pigments[i].Parts/parts),
		})
	}
	var humectants []formulate.GumHumectant
	var additives []formulate.GumAdditive
	for _, text := range c.Poured {
		n, err := splitNamed(text)
		if err == nil && !n.given {
			err = fmt.Errorf("%q: what it weighs is missing, as in %s=14g", text, n.name)
		}
		if err != nil {
			return at("poured", err)
		}
		l, err := w.Pour(n.name)
		if err != nil {
			return at("poured", err)
		}
		m, err := quantity.ParseMass(n.value)
		if err != nil {
			return at("poured", fmt.Errorf("%s: %w", n.name, err))
		}
		req.Batch.Pours = append(req.Batch.Pours, formulate.GumPour{Liquid: l, Mass: m})
		switch l.Material.Kind {
		case material.Humectant:
			humectants = append(humectants, formulate.GumHumectant{LiquidPart: l.Parts[0]})
		case material.WettingAgent, material.Preservative:
			additives = append(additives, formulate.GumAdditive{Liquid: l})
		}
	}
	if len(c.Poured) == 0 {
		return errors.New("what is in it beside the pigment: --poured NAME=MASS, as in --poured gum-arabic-solution=14g")
	}
	if req.Means, err = w.gumMeans("", humectants, additives); err != nil {
		return err
	}
	if damp > 0 {
		req.Batch.Pours = append(req.Batch.Pours, formulate.GumPour{Liquid: req.Means.Water, Mass: whole * quantity.Mass(damp)})
	}
	return nil
}
