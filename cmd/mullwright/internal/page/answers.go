package page

import (
	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

// correctAsked is package ask's correction with its answer.
type correctAsked struct{ ask.Correct }

func (c *correctAsked) answer(b *Bench, explain bool) (*answer, error) {
	req, err := c.Request(b.workshop, b.sampling)
	if err != nil {
		return nil, err
	}
	res, err := formulate.Correct(req)
	if err != nil {
		return nil, err
	}
	return &answer{sheet: render.CorrectSheet(res, b.workshop.Cite, explain)}, nil
}

// compareAsked is package ask's comparison with its answer.
type compareAsked struct{ ask.Compare }

func (c *compareAsked) answer(b *Bench, explain bool) (*answer, error) {
	if c.Like != "" {
		of, others, err := c.Looks(b.workshop)
		if err != nil {
			return nil, err
		}
		return &answer{sheet: render.AlikeSheet(of, formulate.Alike(of, others))}, nil
	}
	req, err := c.Request(b.workshop, b.sampling)
	if err != nil {
		return nil, err
	}
	res, err := formulate.Compare(req)
	if err != nil {
		return nil, err
	}
	a := &answer{sheet: render.CompareSheet(res, b.workshop.Cite)}
	bars := show.CompareBars(res, ask.Colour)
	a.charts = []chart{charted("Oil", bars, func(v *picture.BarsData) *picture.Frame { return &v.Frame }, picture.Bars)}
	return a, nil
}
