package render

import (
	"fmt"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// timeUnit is the unit in which people say a time, and how long it is.
func timeUnit(d quantity.Duration) (unit string, length quantity.Duration) {
	switch {
	case d < 100:
		return "s", 1
	case d < 90*quantity.Minute:
		return "min", quantity.Minute
	case d < 3*quantity.Day:
		return "h", quantity.Hour
	case d < 90*quantity.Day:
		return "days", quantity.Day
	case d < 730*quantity.Day:
		return "months", 30.4 * quantity.Day
	}
	return "years", 365.25 * quantity.Day
}

// lasting prints a range of times in the unit that suits it.
func lasting(r evidence.Range[quantity.Duration], figures int) string {
	unit, length := timeUnit(r.Typical)
	return Range(r, 1/float64(length), figures, unit)
}

// givenTime prints a time as it was asked.
func givenTime(d quantity.Duration) string {
	unit, length := timeUnit(d)
	return Given(d/length) + " " + unit
}

// lastingField is a field with both faces of a time.
func lastingField(label string, r evidence.Range[quantity.Duration], note string) Field {
	return Field{Label: label, Text: lasting(r, 2), Note: note, Value: Numbers(r, 1, "s")}
}

// SettleSheet lays a settling out.
func SettleSheet(r *formulate.SettleResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	s := &Sheet{Title: "Settling: " + upperFirst(req.Name) + " in water"}
	s.Lead = fmt.Sprintf("%s cm of water at %s °C poured off, %s of powder by mass stirred in. %s",
		Given(req.Depth), Given(req.Temperature), percent(req.Powder), spreadText(req.Sampling, "powders"))
	if req.Cut > 0 || req.Time > 0 {
		s.Add(cutSection(r))
		s.Add(washSection(r))
	}
	s.Add(settleTable(r))
	s.Add(Section{Title: "Good to know", Fields: []Field{
		RangeField("density", powderDensity(req), 1, 3, "g/ml", ""),
		RangeField("slowed by the crowd to", r.Slowed, 100, 2, "%", "· of the speed of a grain alone"),
		number("never clears below", float64(r.Brownian), 2, "µm", "· single grains, kept up by heat alone"),
	}})
	s.Add(Section{Title: "Next", Marked: true, Lines: []string{
		"Sieve off the coarse first, then stir well, wait, pour off the upper water without the sediment. Keep what you want: the pour for fine colour, the sediment for coarse.",
		"Repeat with fresh water until the pour runs clear: each wash leaves some fines behind. Join the pours and let them stand until clear.",
		"Let solids settle and dry before you throw water away; it still holds pigment.",
	}})
	var keys []string
	if req.Material != nil {
		keys = densityKeys(req.Material)
	}
	return s.finish(r.Warnings, r.Cautions, r.Steps, keys, cite, explain)
}

// powderDensity has no width in an exact answer.
func powderDensity(req *formulate.SettleRequest) evidence.Range[quantity.Density] {
	if req.Sampling.Exact {
		return evidence.Exactly(req.Density.Median)
	}
	return req.Density.Range()
}

func densityKeys(m *material.Material) []string {
	var keys []string
	for _, d := range m.Density {
		if d.Aside == "" {
			keys = append(keys, d.Source)
		}
	}
	return uniqueSorted(keys)
}

func cutSection(r *formulate.SettleResult) Section {
	sec := Section{Title: "The cut"}
	size := RangeField("grains up to", r.Size, 1, 2, "µm", "· stay in the pour; larger ones have sunk")
	if r.Request.Cut > 0 {
		size.Text = Given(r.Request.Cut) + " µm"
	}
	if r.Request.Cut > 0 {
		sec.Fields = append(sec.Fields, lastingField("wait", r.Time, "· then pour off"), size)
	} else {
		sec.Fields = append(sec.Fields, size, Field{Label: "wait", Text: givenTime(r.Request.Time), Value: Numbers(r.Time, 1, "s")})
	}
	if r.Sieve != nil {
		sec.Fields = append(sec.Fields, Field{Label: "nearest sieve", Text: fmt.Sprintf("%s µm, no. %d", Given(r.Sieve.Opening), r.Sieve.Number), Note: "· ASTM E11; wet, with a brush"})
	} else {
		sec.Fields = append(sec.Fields, Field{Label: "nearest sieve", Text: "none so fine: settling is the way"})
	}
	sec.Fields = append(sec.Fields, RangeField("rising stream", r.Upflow, 1000, 2, "mm/s", "· carries off all finer grains (elutriation)"))
	return sec
}

func washSection(r *formulate.SettleResult) Section {
	t := &Table{Columns: []Column{{Title: "grains of, µm", Right: true}, {Title: "poured off each time", Right: true}, {Title: fmt.Sprintf("left behind after %d", r.Request.Washes), Right: true}}}
	for _, w := range r.Washes {
		t.Rows = append(t.Rows, []string{Digits(float64(w.Size), 2), roughly(w.Poured), roughly(w.Left)})
	}
	return Section{Title: "Fines that go with the pour", Table: t}
}

func settleTable(r *formulate.SettleResult) Section {
	t := &Table{Columns: []Column{{Title: "grain, µm", Right: true}, {Title: "sieve no.", Right: true}, {Title: "falls, mm/s", Right: true}, {Title: "time to fall " + Given(r.Request.Depth) + " cm"}}}
	for _, row := range r.Table {
		sieve := ""
		if row.Sieve > 0 {
			sieve = fmt.Sprint(row.Sieve)
		}
		t.Rows = append(t.Rows, []string{Given(row.Size), sieve, Digits(1000*float64(row.Speed), 2), lasting(row.Time, 2)})
	}
	return Section{Title: "By size", Table: t}
}

// SettleJSON is the JSON contract of a settling. Sizes are µm, times s.
type SettleJSON struct {
	Version     int             `json:"version"`
	Kind        string          `json:"kind"`
	Draws       string          `json:"answer"`
	Name        string          `json:"name"`
	DepthCM     float64         `json:"depth_cm"`
	Temperature float64         `json:"temperature_celsius"`
	Powder      float64         `json:"powder_mass_fraction"`
	Solids      float64         `json:"solids_volume_fraction"`
	Density     RangeView       `json:"density_g_per_ml"`
	Slowed      RangeView       `json:"hindered_over_single_speed"`
	CutUM       RangeView       `json:"cut_um"`
	TimeS       RangeView       `json:"time_s"`
	Asked       string          `json:"asked"`
	Reynolds    float64         `json:"reynolds"`
	UpflowMMS   RangeView       `json:"elutriation_mm_per_s"`
	Sieve       int             `json:"nearest_sieve_number"`
	Washes      []WashJSON      `json:"washes"`
	Table       []SettleRowJSON `json:"by_size"`
	BrownianUM  float64         `json:"brownian_limit_um"`
	Warnings    []string        `json:"warnings"`
	Cautions    []CautionView   `json:"cautions"`
	Sources     []SourceView    `json:"sources"`
	Derivation  []StepView      `json:"derivation,omitempty"`
}

// WashJSON is what washing does to one size.
type WashJSON struct {
	SizeUM float64 `json:"size_um"`
	Poured float64 `json:"poured_off_each"`
	Left   float64 `json:"left_behind"`
}

// SettleRowJSON is one size of the table.
type SettleRowJSON struct {
	SizeUM   float64   `json:"size_um"`
	SpeedMMS float64   `json:"speed_mm_per_s"`
	Reynolds float64   `json:"reynolds"`
	TimeS    RangeView `json:"time_s"`
}

// SettleView is the JSON view of a settling.
func SettleView(r *formulate.SettleResult, cite Cite, explain bool) SettleJSON {
	req := &r.Request
	v := SettleJSON{Version: 1, Kind: "settle", Draws: answerKind(req.Sampling), Name: req.Name, DepthCM: float64(req.Depth), Temperature: float64(req.Temperature),
		Powder: float64(req.Powder), Solids: float64(r.Solids), Density: rangeView(powderDensity(req), 1), Slowed: rangeView(r.Slowed, 1), CutUM: rangeView(r.Size, 1), TimeS: rangeView(r.Time, 1),
		Asked: "table", Reynolds: float64(r.Fall.Reynolds), UpflowMMS: rangeView(r.Upflow, 1000), Washes: []WashJSON{}, Table: []SettleRowJSON{}, BrownianUM: float64(r.Brownian),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Sources: []SourceView{}, Derivation: stepViews(r.Steps, explain)}
	switch {
	case req.Cut > 0:
		v.Asked = "time"
	case req.Time > 0:
		v.Asked = "cut"
	}
	if r.Sieve != nil {
		v.Sieve = r.Sieve.Number
	}
	for _, w := range r.Washes {
		v.Washes = append(v.Washes, WashJSON{float64(w.Size), float64(w.Poured), float64(w.Left)})
	}
	for _, row := range r.Table {
		v.Table = append(v.Table, SettleRowJSON{float64(row.Size), 1000 * float64(row.Speed), float64(row.Reynolds), rangeView(row.Time, 1)})
	}
	if req.Material != nil {
		v.Sources = sourceViews(densityKeys(req.Material), cite)
	}
	return v
}
