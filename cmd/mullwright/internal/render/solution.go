package render

import (
	"fmt"

	"mullwright/formulate"
	"mullwright/formulate/material"
)

// SolutionSheet lays a stock solution out.
func SolutionSheet(r *formulate.SolutionResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	s := &Sheet{Title: "Stock: " + req.Solution.Material.Name, Lead: "For " + amountText(req.Amount, "solution") + ". Volumes are taken to add up."}
	weigh := Section{Title: "Weigh"}
	for _, p := range r.Parts {
		weigh.Fields = append(weigh.Fields, Field{Label: p.Material.Name, Text: OnScale(p.OnScale, req.Scale), Note: "· " + Digits(100*float64(p.Share), 3) + " % of the whole", Value: one(p.Mass)})
	}
	s.Add(weigh)
	what := Section{Title: "What it is", Fields: []Field{
		number("volume", float64(r.Volume), 3, "ml", ""),
		number("mass", float64(r.Mass), 3, "g", ""),
		number("density", float64(r.Density), 3, "g/ml", ""),
	}}
	if r.Gum > 0 {
		what.Fields = append(what.Fields, number("gum or resin", 100*float64(r.Gum), 3, "%", "by mass, as weighed"))
	}
	if r.PerWater > 0 && r.Gum > 0 {
		what.Fields = append(what.Fields, number("", float64(r.PerWater), 3, "g", "to 100 ml of water"))
	}
	what.Fields = append(what.Fields, number("dries to", 100*float64(r.Dry), 3, "%", "of its mass"))
	switch {
	case r.Viscosity != nil:
		what.Fields = append(what.Fields, RangeField("viscosity", *r.Viscosity, 1, 2, "mPa·s", fmt.Sprintf("at %s °C; water is about 1. Gums differ by a factor of two", Given(req.Temperature))))
	case r.WhyNot != "":
		what.Fields = append(what.Fields, Field{Label: "viscosity", Text: "not known", Note: "· " + r.WhyNot})
	}
	s.Add(what)
	if hasGum(r) {
		s.Add(humectantSection(r.Humectant, r.HumectantOfDry, r.Published, "", cite))
	}
	s.Add(doseSection(r.Doses, cite))
	next := Section{Title: "Next", Marked: true}
	if hasGum(r) {
		next.Lines = append(next.Lines, "Stir the gum into the water, not the water into the gum; leave it a day or two, stirring now and then; strain through cloth.",
			"Clean jar, cold, labelled with strength and date: about a month. Sour smell or skin: throw it away.")
	}
	if n := req.Solution.Material.Note; n != "" {
		next.Lines = append(next.Lines, n)
	}
	s.Add(next)
	return s.finish(r.Warnings, r.Cautions, r.Steps, solutionSources(r), cite, explain)
}

func hasGum(r *formulate.SolutionResult) bool {
	for _, p := range r.Parts {
		if p.Material.Kind == material.Gum {
			return true
		}
	}
	return false
}

func solutionSources(r *formulate.SolutionResult) []string {
	var mats []*material.Material
	for _, p := range r.Parts {
		mats = append(mats, p.Material)
	}
	keys := append(SourceKeys(mats...), doseKeys(r.Doses, r.Request.Solution.Material)...)
	if hasGum(r) {
		keys = append(keys, keysOf(r.Published)...)
	}
	return uniqueSorted(keys)
}

// SolutionJSON is the JSON contract of a stock solution.
type SolutionJSON struct {
	Version     int             `json:"version"`
	Kind        string          `json:"kind"`
	Name        string          `json:"name"`
	Parts       []PartJSON      `json:"parts"`
	MassG       float64         `json:"mass_g"`
	VolumeML    float64         `json:"volume_ml"`
	Density     float64         `json:"density_g_per_ml"`
	Gum         float64         `json:"gum_mass_fraction"`
	Dry         float64         `json:"solids_mass_fraction"`
	PerWaterG   float64         `json:"gum_g_per_100ml_water"`
	Humectant   float64         `json:"humectant_to_gum"`
	Published   []PublishedJSON `json:"published_humectant_to_gum"`
	Temperature float64         `json:"temperature_celsius"`
	Viscosity   *RangeView      `json:"viscosity_mpas"`
	WhyNot      string          `json:"viscosity_not_known"`
	Doses       []GumDoseJSON   `json:"doses"`
	Warnings    []string        `json:"warnings"`
	Cautions    []CautionView   `json:"cautions"`
	Sources     []SourceView    `json:"sources"`
	Derivation  []StepView      `json:"derivation,omitempty"`
}

// PartJSON is one thing to weigh.
type PartJSON struct {
	ID     string  `json:"id"`
	Name   string  `json:"name"`
	MassG  float64 `json:"mass_g"`
	WeighG float64 `json:"weigh_g"`
	Share  float64 `json:"mass_fraction"`
}

// SolutionView is the JSON view of a stock solution.
func SolutionView(r *formulate.SolutionResult, cite Cite, explain bool) SolutionJSON {
	v := SolutionJSON{Version: 1, Kind: "solution", Name: r.Request.Solution.Material.Name, Parts: []PartJSON{}, MassG: float64(r.Mass), VolumeML: float64(r.Volume),
		Density: float64(r.Density), Gum: float64(r.Gum), Dry: float64(r.Dry), PerWaterG: float64(r.PerWater), Humectant: float64(r.Humectant), Published: publishedViews(r.Published),
		Temperature: float64(r.Request.Temperature), WhyNot: r.WhyNot, Doses: doseViews(r.Doses), Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(solutionSources(r), cite), Derivation: stepViews(r.Steps, explain)}
	for _, p := range r.Parts {
		v.Parts = append(v.Parts, PartJSON{p.Material.ID, p.Material.Name, float64(p.Mass), float64(p.OnScale), float64(p.Share)})
	}
	v.Viscosity = rangeOrNone(r.Viscosity)
	return v
}
