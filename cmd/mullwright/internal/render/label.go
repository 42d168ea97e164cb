package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
)

// OnEveryLabel stands on every label, whatever is in the paint.
const OnEveryLabel = "Not for children, not near food."

// LabelSheet says what labels will say, with the sources of the hazards.
func LabelSheet(r *formulate.LabelResult, cite Cite) *Sheet {
	req := &r.Request
	s := &Sheet{Title: fmt.Sprintf("Labels for %ss", req.On), Lead: labelLead(r)}
	for _, t := range r.Texts {
		sec := Section{Title: t.Name}
		for _, f := range [][2]string{
			{"Colour Index name", strings.Join(t.Index, " + ")}, {"in", strings.Join(t.Binder, ", ")}, {"with", strings.Join(t.Extenders, ", ")},
			{"batch", req.Batch}, {"date", req.Date}, {"maker", req.Maker},
		} {
			if f[1] != "" {
				sec.Fields = append(sec.Fields, Field{Label: f[0], Text: f[1]})
			}
		}
		for _, h := range t.Hazards {
			sec.Lines = append(sec.Lines, h.Of+": "+h.Text+" ["+cite(h.Source)+"]")
		}
		if len(t.NotAssessed) > 0 {
			sec.Lines = append(sec.Lines, "Hazards not assessed: "+strings.Join(t.NotAssessed, ", ")+". That is not a clearance: read the safety data sheet.")
		}
		sec.Lines = append(sec.Lines, OnEveryLabel)
		sec.Marked = true
		s.Add(sec)
	}
	return s
}

func labelLead(r *formulate.LabelResult) string {
	n := len(r.Texts) * r.Request.Copies
	lead := fmt.Sprintf("%d labels at true size with --out FILE.pdf.", n)
	if n == 1 {
		lead = "One label at true size with --out FILE.pdf."
	}
	return lead + " They repeat what the catalogue holds and replace no label that the law asks for."
}

// LabelJSONVersion is the version of the labels' JSON contract.
const LabelJSONVersion = 1

// LabelJSON is the labels' JSON contract.
type LabelJSON struct {
	Version int             `json:"version"`
	Kind    string          `json:"kind"`
	On      string          `json:"on"`
	Copies  int             `json:"copies_of_each"`
	Maker   string          `json:"maker"`
	Batch   string          `json:"batch"`
	Date    string          `json:"date"`
	Labels  []LabelTextJSON `json:"labels"`
}

// LabelTextJSON is what one label says.
type LabelTextJSON struct {
	Name        string           `json:"name"`
	Index       []string         `json:"colour_index_names"`
	Binder      []string         `json:"binder"`
	Extenders   []string         `json:"extenders"`
	Hazards     []HazardTextJSON `json:"hazards"`
	NotAssessed []string         `json:"hazards_not_assessed"`
	Always      string           `json:"always"`
}

// HazardTextJSON is one statement.
type HazardTextJSON struct {
	Of     string `json:"of"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

// LabelView is the JSON view of labels.
func LabelView(r *formulate.LabelResult) LabelJSON {
	req := &r.Request
	v := LabelJSON{Version: LabelJSONVersion, Kind: "label", On: string(req.On), Copies: req.Copies, Maker: req.Maker, Batch: req.Batch, Date: req.Date, Labels: []LabelTextJSON{}}
	for _, t := range r.Texts {
		j := LabelTextJSON{Name: t.Name, Index: orEmpty(t.Index), Binder: orEmpty(t.Binder), Extenders: orEmpty(t.Extenders), Hazards: []HazardTextJSON{}, NotAssessed: orEmpty(t.NotAssessed), Always: OnEveryLabel}
		for _, h := range t.Hazards {
			j.Hazards = append(j.Hazards, HazardTextJSON(h))
		}
		v.Labels = append(v.Labels, j)
	}
	return v
}
