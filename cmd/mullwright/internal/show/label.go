package show

import (
	"strings"

	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/formulate"
)

const millimetres = 10 // to a centimetre

// Labels lays labels out, each in so many copies.
func Labels(r *formulate.LabelResult) []picture.LabelData {
	req := &r.Request
	kinds := map[formulate.LabelOn]picture.LabelKind{formulate.OnTube: picture.TubeLabel, formulate.OnPan: picture.PanLabel, formulate.OnBottle: picture.BottleLabel}
	var out []picture.LabelData
	for _, t := range r.Texts {
		l := picture.LabelData{
			Kind: kinds[req.On], W: float64(req.Width) * millimetres, H: float64(req.Height) * millimetres,
			Name: t.Name, Index: strings.Join(t.Index, " + "), Binder: strings.Join(append(t.Binder, t.Extenders...), ", "),
			Batch: req.Batch, Date: req.Date, Maker: req.Maker, Assessed: true,
		}
		for i, h := range t.Hazards {
			text := upperFirst(strings.TrimSuffix(h.Text, ".")) + "."
			if i == 0 || t.Hazards[i-1].Of != h.Of {
				text = h.Of + ": " + text
			}
			l.Hazards = append(l.Hazards, text)
		}
		switch {
		case len(t.NotAssessed) > 0 && len(t.Hazards) == 0:
			l.Assessed = false
		case len(t.NotAssessed) > 0:
			l.Hazards = append(l.Hazards, "Hazards not assessed: "+strings.Join(t.NotAssessed, ", ")+".")
		}
		for range req.Copies {
			out = append(out, l)
		}
	}
	return out
}
