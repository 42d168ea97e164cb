package ask

import (
	"errors"
	"fmt"

	"mullwright/formulate"
	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
	"mullwright/pigments/colour"
)

// Swatch is a question for the look of pigments.
type Swatch struct {
	Pigments []string
	Tints    bool
	Glazes   bool
}

// Fields lists what may be said of it.
func (s *Swatch) Fields() []Field {
	return []Field{
		{Name: "pigments", Many: &s.Pigments, Help: "pigments to show", FileOnly: true},
		{Name: "tints", Yes: &s.Tints, Help: "let each down with titanium white, where its paint's K and S are known"},
		{Name: "glazes", Yes: &s.Glazes, Help: "lay each thinner and thicker over grounds, where a film of it was read over several"},
	}
}

// The steps of the ladders: white to one of colour by volume of paint, and
// multiples of the chart's own film.
var (
	tintSteps  = []quantity.Parts{0, 1, 3, 10, 30, 100}
	glazeSteps = []optics.Films{0.5, 1, 2, 4}
)

// Request turns the question into a request.
func (s *Swatch) Request(w *Workshop) (formulate.SwatchRequest, error) {
	req := formulate.SwatchRequest{Chart: colour.Chart()}
	if len(s.Pigments) == 0 {
		return req, errors.New("no pigment given")
	}
	seen := map[string]bool{}
	for _, name := range s.Pigments {
		m, err := w.PigmentNamed(name)
		if err != nil {
			return req, at("pigment", err)
		}
		if seen[m.ID] {
			return req, at("pigment", fmt.Errorf("%s is named twice", m.ID))
		}
		seen[m.ID] = true
		c, err := coloured(m.ID)
		if err != nil {
			return req, err
		}
		c.Material = m
		req.Pigments = append(req.Pigments, c)
	}
	if s.Tints {
		white, err := colour.White()
		if err != nil {
			return req, err
		}
		req.White, req.Tints = sample(white.RelativePaint, white.Record), tintSteps
	}
	if s.Glazes {
		req.Glazes = glazeSteps
	}
	rank, err := colour.HidingRank()
	if err != nil {
		return req, err
	}
	for _, h := range rank {
		req.Hiders = append(req.Hiders, formulate.Hider(h))
	}
	return req, nil
}

// coloured gathers what was measured of a pigment's colour.
func coloured(id string) (formulate.Coloured, error) {
	var c formulate.Coloured
	d, ok, err := colour.Of(id)
	if err != nil || !ok {
		return c, err
	}
	for _, p := range d.Paints {
		c.Paints = append(c.Paints, sample(p.RelativePaint, p.Record))
	}
	for _, f := range d.Films {
		c.Films = append(c.Films, sample(f.ChartFilm, f.Record))
	}
	for _, p := range d.Powders {
		c.Powders = append(c.Powders, sample(p.Powder, p.Record))
	}
	return c, nil
}

func sample[T any](of T, from colour.Record) formulate.Sample[T] {
	return formulate.Sample[T]{Of: of, Credit: colour.AttributionOf(from).Line()}
}

// Colour is the best plain colour of a pigment with the credit of its data set;
// false where none was measured.
func Colour(id string) (formulate.PlainSwatch, bool) {
	c, err := coloured(id)
	if err != nil {
		return formulate.PlainSwatch{}, false
	}
	s, err := formulate.BestSwatch(c, colour.Chart())
	if err != nil || s == nil {
		return formulate.PlainSwatch{}, false
	}
	return *s, true
}
