package render

import (
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// CorrectGumSheet lays out the one change to a gum colour.
func CorrectGumSheet(r *formulate.CorrectGumResult, cite Cite, explain bool) *Sheet {
	var names []string
	for i := range r.Request.Batch.Powders {
		names = append(names, titleOf(r.Request.Batch.Powders[i].Material))
	}
	s := &Sheet{Title: "Correction in gum: " + strings.Join(names, " + "), Lead: "One change at a time, then the test. " + spreadText(r.Request.Sampling, "batches")}
	byMass, _ := contentsSections(r.Now)
	byMass.Title = "The batch now"
	s.Add(byMass)
	if r.Remedy != nil {
		s.Add(RemedySection(r.Remedy, r.Request.Scale))
	}
	if r.ToGoal != nil {
		s.Add(goalOfGum(r))
	}
	s.Add(afterGum(r))
	return s.finish(nil, r.Cautions, r.Steps(), SourceKeys(gumMaterials(r)...), cite, explain)
}

func gumMaterials(r *formulate.CorrectGumResult) []*material.Material {
	out := recipeMaterials(r.Now)
	if r.After != nil {
		out = append(out, recipeMaterials(r.After)...)
	}
	return out
}

// goalOfGum is what brings the batch to the PVC asked for.
func goalOfGum(r *formulate.CorrectGumResult) Section {
	g := r.ToGoal
	sec := Section{Title: "To a dry PVC of " + percent(g.Want)}
	if g.Add != nil {
		sec.Fields = append(sec.Fields,
			Field{Label: "it is", Text: "under-bound: too little gum for its pigment"},
			Field{Label: "add", Text: OnScale(g.AddMass, r.Request.Scale) + " of " + strings.ToLower(g.Add.Name), Value: one(g.AddMass)},
			Field{Label: "test", Text: "paint out, dry, rub hard with a finger and with paper: nothing may come off"})
	} else {
		sec.Fields = append(sec.Fields,
			Field{Label: "it is", Text: "over-bound: too much gum for its pigment"},
			Field{Label: "add pigment", Text: Digits(float64(g.PigmentMore)*100, 3) + " % more of each", Note: "· rubbed to a paste with water first",
				Value: single(g.PigmentMore*100, "%")},
			Field{Label: "test", Text: "paint out, dry: no shine, and a second wash over it lies evenly"})
	}
	sec.Fields = append(sec.Fields, Field{Label: "humectant to gum", Text: Digits(float64(r.Humectant), 2), Note: "· as it is"})
	return sec
}

// afterGum sets the batch before and after side by side.
func afterGum(r *formulate.CorrectGumResult) Section {
	if r.After == nil {
		return Section{}
	}
	now, after := &r.Now.Figures, &r.After.Figures
	t := &Table{Columns: []Column{{Title: ""}, {Title: "now", Right: true}, {Title: "then", Right: true}}}
	for _, x := range []struct {
		label     string
		now, then string
	}{
		{"batch, g", pairOf(now.Mass, 1), pairOf(after.Mass, 1)},
		{"batch, ml", pairOf(now.Volume, 1), pairOf(after.Volume, 1)},
		{"dry PVC, %", pairOf(now.PVC, 100), pairOf(after.PVC, 100)},
		{"dry gum to 100 g of powder, g", pairOf(now.OilPerPigment, 1), pairOf(after.OilPerPigment, 1)},
		{"water that leaves, % of the mass", pairOf(now.VolatileByMass, 100), pairOf(after.VolatileByMass, 100)},
	} {
		t.Rows = append(t.Rows, []string{x.label, x.now, x.then})
	}
	return Section{Title: "What it makes of the batch", Under: "Dry gum is gum without the water that it holds as weighed.", Table: t}
}

func pairOf[Q quantity.Real](r evidence.Range[Q], scale float64) string {
	return bare(Range(r, scale, 3, ""))
}

// CorrectGumJSON is the JSON contract of a correction in gum.
type CorrectGumJSON struct {
	Version    int           `json:"version"`
	Kind       string        `json:"kind"`
	Draws      string        `json:"answer"`
	Humectant  float64       `json:"humectant_to_gum"`
	Now        FiguresJSON   `json:"now"`
	Remedy     *RemedyJSON   `json:"remedy"`
	ToPVC      *GumGoalJSON  `json:"to_pvc"`
	After      *FiguresJSON  `json:"after"`
	Cautions   []CautionView `json:"cautions"`
	Sources    []SourceView  `json:"sources"`
	Derivation []StepView    `json:"derivation,omitempty"`
}

// GumGoalJSON is what brings a gum colour to a PVC.
type GumGoalJSON struct {
	PVC         float64 `json:"pvc"`
	Add         string  `json:"add"`
	AddG        float64 `json:"add_g"`
	PigmentMore float64 `json:"pigment_more"`
}

// CorrectGumView is the JSON view of a correction in gum.
func CorrectGumView(r *formulate.CorrectGumResult, cite Cite, explain bool) CorrectGumJSON {
	v := CorrectGumJSON{
		Version: CorrectJSONVersion, Kind: "correct_gum", Draws: answerKind(r.Request.Sampling), Humectant: float64(r.Humectant),
		Now: figuresView(&r.Now.Figures), Remedy: RemedyView(r.Remedy), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(SourceKeys(gumMaterials(r)...), cite), Derivation: stepViews(r.Steps(), explain),
	}
	if g := r.ToGoal; g != nil {
		v.ToPVC = &GumGoalJSON{PVC: float64(g.Want), AddG: float64(g.AddMass), PigmentMore: float64(g.PigmentMore)}
		if g.Add != nil {
			v.ToPVC.Add = g.Add.ID
		}
	}
	if r.After != nil {
		f := figuresView(&r.After.Figures)
		v.After = &f
	}
	return v
}
