package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// LayersSheet lays a painting's layers out: the first fault and what mends it,
// the stack, then every rule of every layer.
func LayersSheet(r *formulate.LayersResult, name string, cite Cite, explain bool) *Sheet {
	s := &Sheet{Title: "Layers", Lead: layersLead(r)}
	if name != "" {
		s.Title = "Layers of " + name
	}
	s.Data = layersData(r)
	s.Add(faultSection(r))
	s.Add(Section{Title: "The stack, top layer first", Table: stackTable(r)})
	for i := range r.Layers {
		s.Add(layerSection(r, i))
	}
	s.Add(Section{Title: "Why by volume", Lines: append([]string{
		"Fat over lean is a rule about how much of the dry film is binder, so it is a rule about volume. On a balance a dense pigment hides its oil: white lead ground with 15 g of oil to 100 g is 13 % oil by weight and 52 % by volume, Prussian blue with 78 g is 44 % and 61 % (oil of Church 1901, densities of Gettens and Stout 1942, shares computed)."},
		sentences(r.ByMass)...)})
	s.Add(warningSection(r.Warnings))
	s.addCautions(r.Cautions)
	if explain {
		for i := range r.Layers {
			sec := stepSection(r.Layers[i].Steps)
			sec.Title = fmt.Sprintf("Derivation of %s, for 100 ml of its paint", layerName(r, i))
			s.Add(sec)
		}
	}
	s.addSources(SourceKeys(layersMaterials(r)...), cite, explain)
	return s
}

func sentences(list []string) []string {
	out := make([]string, len(list))
	for i, l := range list {
		out[i] = upperFirst(l) + "."
	}
	return out
}

func layersLead(r *formulate.LayersResult) string {
	lead := fmt.Sprintf("%d %s, judged from the ground up.", len(r.Layers), plural("layer", len(r.Layers)))
	if r.Request.Sampling.Exact {
		return lead + " " + spreadText(r.Request.Sampling, "jars")
	}
	return lead + " Brackets give the range 8 jars in 10 fall into; where two ranges overlap, their order is undecided."
}

func layerName(r *formulate.LayersResult, i int) string {
	return fmt.Sprintf("layer %d (%s)", i+1, r.Layers[i].Name)
}

func faultSection(r *formulate.LayersResult) Section {
	f := r.First
	if f == nil {
		text := "No rule is broken over the whole range."
		if n := open(r); n > 0 {
			text = fmt.Sprintf("No rule is broken for certain; %s below.", verb(n, "is left open", "are left open"))
		}
		sec := Section{Title: "First fault", Lines: []string{text}}
		if open(r) > 0 {
			sec.Lines = append(sec.Lines, "Your own measurements narrow the ranges: a rub-out of your jars, weighed batches, your own drying days.")
		}
		return sec
	}
	sec := Section{Title: "First fault", Lines: []string{upperFirst(layerName(r, f.Layer)) + ", " + string(f.Finding.Rule) + ": " + f.Finding.Text + "."}}
	for i, m := range r.Mends {
		if i == 0 {
			sec.Lines = append(sec.Lines, "Smallest change that mends it: "+m.Text+".")
			continue
		}
		sec.Lines = append(sec.Lines, upperFirst(string(m.For.Finding.Rule))+" of "+layerName(r, m.For.Layer)+" is at fault too: "+m.Text+".")
	}
	n, checked := len(r.Mends), "Checked again with it: "
	if n > 1 {
		checked = "Checked again with all of them: "
	}
	switch {
	case n == 0:
		sec.Lines = append(sec.Lines, "No small change of one layer was found that mends it without a new fault. What painters do: "+r.Advice+" (common practice).")
	case r.Mends[n-1].Then == nil:
		sec.Lines = append(sec.Lines, checked+"no fault is left.")
	default:
		then := r.Mends[n-1].Then
		sec.Lines = append(sec.Lines, checked+"what is left is "+layerName(r, then.Layer)+", "+string(then.Finding.Rule)+": "+then.Finding.Text+". No small change was found for that. What painters do: "+r.Advice+" (common practice).")
	}
	return sec
}

// open counts the questions that are left open.
func open(r *formulate.LayersResult) int {
	n := 0
	for i := range r.Layers {
		for _, f := range r.Layers[i].Findings {
			if f.Verdict != formulate.Holds {
				n++
			}
		}
	}
	return n
}

func verb(n int, one, many string) string {
	if n == 1 {
		return "1 question " + one
	}
	return fmt.Sprintf("%d questions %s", n, many)
}

func stackTable(r *formulate.LayersResult) *Table {
	t := &Table{Columns: []Column{{Title: "layer"}, {Title: "binder, vol %", Right: true}, {Title: "mass %", Right: true},
		{Title: "PVC/critical", Right: true}, {Title: "dry µm", Right: true}, {Title: ""}}}
	for i := len(r.Layers) - 1; i >= 0; i-- {
		l := &r.Layers[i]
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%d %s", i+1, l.Name), bare(Range(l.ByVolume, 100, 2, "")), Digits(100*float64(l.ByMass.Typical), 2),
			bare(Range(l.Bond.Reduced, 1, 2, "")), Digits(float64(l.Dry.Typical), 2), verdictWord(l.Verdict())})
	}
	return t
}

// layersData is a row for each layer at full precision, its rules behind.
func layersData(r *formulate.LayersResult) [][]string {
	rules := formulate.Rules()
	head := []string{"layer", "name", "verdict", "binder_volume_fraction_low", "binder_volume_fraction", "binder_volume_fraction_high", "binder_mass_fraction",
		"pvc", "reduced_pvc_low", "reduced_pvc", "reduced_pvc_high", "wet_um", "dry_um", "dried_days"}
	for _, rule := range rules {
		head = append(head, strings.ReplaceAll(string(rule), " ", "_"))
	}
	rows := [][]string{head}
	for i := range r.Layers {
		l := &r.Layers[i]
		dried := ""
		if l.Dried != nil {
			dried = Full(l.Dried.Days())
		}
		row := []string{fmt.Sprint(i + 1), l.Name, l.Verdict().String(), Full(l.ByVolume.Low), Full(l.ByVolume.Typical), Full(l.ByVolume.High), Full(l.ByMass.Typical),
			Full(l.PVC.Typical), Full(l.Bond.Reduced.Low), Full(l.Bond.Reduced.Typical), Full(l.Bond.Reduced.High), Full(l.Wet), Full(l.Dry.Typical), dried}
		for _, rule := range rules {
			text := ""
			for _, f := range l.Findings {
				if f.Rule == rule {
					text = f.Verdict.String()
				}
			}
			row = append(row, text)
		}
		rows = append(rows, row)
	}
	return rows
}

func verdictWord(v formulate.Verdict) string {
	if v == formulate.Fails {
		return "AT FAULT"
	}
	if v == formulate.Holds {
		return "sound"
	}
	return v.String()
}

func layerSection(r *formulate.LayersResult, i int) Section {
	l := &r.Layers[i]
	sec := Section{Title: fmt.Sprintf("%d %s", i+1, l.Name), Under: layerUnder(l)}
	for _, f := range l.Findings {
		sec.Fields = append(sec.Fields, Field{Label: string(f.Rule), Text: verdictWord(f.Verdict), Note: "· " + f.Text})
	}
	return sec
}

func layerUnder(l *formulate.LayerResult) string {
	text := pigmentNames(l.Request.Paint.Pigments)
	var with []string
	for _, list := range [][]formulate.Poured{l.Request.Media, l.Request.Solvents} {
		for i := range list {
			with = append(with, strings.ToLower(list[i].Material.Name))
		}
	}
	if len(with) > 0 {
		text += " with " + strings.Join(with, " + ")
	}
	text += ", " + trimmed(l.Wet) + " µm wet"
	if l.Dried != nil {
		text += ", left " + Days(*l.Dried)
	}
	return text
}

// Days prints a time that was given in days.
func Days(d quantity.Duration) string {
	if text := Given(d.Days()); text != "1" {
		return text + " days"
	}
	return "1 day"
}

func layersMaterials(r *formulate.LayersResult) []*material.Material {
	var out []*material.Material
	for i := range r.Layers {
		out = append(out, r.Layers[i].Request.Materials()...)
	}
	return out
}

// LayersJSONVersion is the version of the layers' JSON contract.
const LayersJSONVersion = 1

// LayersJSON is the layers' JSON contract: layers from the ground up, numbered
// from 1.
type LayersJSON struct {
	Version    int           `json:"version"`
	Kind       string        `json:"kind"`
	Draws      string        `json:"answer"`
	Name       string        `json:"name"`
	Layers     []LayerJSON   `json:"layers"`
	FirstFault *FaultJSON    `json:"first_fault"`
	Mend       *MendJSON     `json:"mend"`
	Mends      []MendJSON    `json:"mends"`
	Advice     string        `json:"advice"`
	ByMass     []string      `json:"misled_by_mass"`
	Warnings   []string      `json:"warnings"`
	Cautions   []CautionView `json:"cautions"`
	Sources    []SourceView  `json:"sources"`
}

// LayerJSON is one layer.
type LayerJSON struct {
	Layer      int           `json:"layer"`
	Name       string        `json:"name"`
	Verdict    string        `json:"verdict"`
	BinderVol  RangeView     `json:"dry_binder_volume_fraction"`
	BinderMass RangeView     `json:"dry_binder_mass_fraction"`
	PVC        RangeView     `json:"pvc"`
	ReducedPVC RangeView     `json:"reduced_pvc"`
	OverPaste  RangeView     `json:"pvc_over_stiff_paste"`
	WetUM      float64       `json:"wet_um"`
	DryUM      RangeView     `json:"dry_um"`
	DriedDays  *float64      `json:"dried_days"`
	Drying     DryingJSON    `json:"drying"`
	Findings   []FindingJSON `json:"findings"`
	Derivation []StepView    `json:"derivation,omitempty"`
}

// FindingJSON is what one rule says.
type FindingJSON struct {
	Rule    string `json:"rule"`
	Verdict string `json:"verdict"`
	Text    string `json:"text"`
}

// FaultJSON is a broken rule.
type FaultJSON struct {
	Layer int    `json:"layer"`
	Rule  string `json:"rule"`
	Text  string `json:"text"`
}

// MendJSON is the smallest change that mends a fault, on top of those before it;
// the next fault is the one that is then left.
type MendJSON struct {
	For         *FaultJSON `json:"mended_fault"`
	Change      string     `json:"change"`
	Layer       int        `json:"layer"`
	Text        string     `json:"text"`
	Liquid      string     `json:"liquid"`
	MLPer100ML  float64    `json:"ml_per_100ml_paint"`
	WetUM       float64    `json:"wet_um"`
	AbsorbedGM2 float64    `json:"absorbed_g_per_m2"`
	Days        float64    `json:"days"`
	FaultBeyond *FaultJSON `json:"next_fault"`
}

// LayersView is the JSON view of a painting's layers.
func LayersView(r *formulate.LayersResult, name string, cite Cite, explain bool) LayersJSON {
	v := LayersJSON{Version: LayersJSONVersion, Kind: "layers", Draws: answerKind(r.Request.Sampling), Name: name, Layers: []LayerJSON{},
		FirstFault: faultView(r.First), ByMass: orEmpty(r.ByMass), Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(SourceKeys(layersMaterials(r)...), cite)}
	for i := range r.Layers {
		l := &r.Layers[i]
		j := LayerJSON{Layer: i + 1, Name: l.Name, Verdict: l.Verdict().String(), BinderVol: rangeView(l.ByVolume, 1), BinderMass: rangeView(l.ByMass, 1),
			PVC: rangeView(l.PVC, 1), ReducedPVC: rangeView(l.Bond.Reduced, 1), OverPaste: rangeView(l.Bond.Paste, 1), WetUM: float64(l.Wet), DryUM: rangeView(l.Dry, 1), Drying: dryingView(l.Drying), Findings: []FindingJSON{}, Derivation: stepViews(l.Steps, explain)}
		if l.Dried != nil {
			days := l.Dried.Days()
			j.DriedDays = &days
		}
		for _, f := range l.Findings {
			j.Findings = append(j.Findings, FindingJSON{string(f.Rule), f.Verdict.String(), f.Text})
		}
		v.Layers = append(v.Layers, j)
	}
	v.Mends, v.Advice = []MendJSON{}, r.Advice
	for i := range r.Mends {
		m := &r.Mends[i]
		v.Mends = append(v.Mends, MendJSON{faultView(&m.For), string(m.Change), m.Layer + 1, m.Text, m.Liquid, float64(m.Volume), float64(m.Thickness), float64(m.Absorbed), m.Time.Days(), faultView(m.Then)})
	}
	if len(v.Mends) > 0 {
		v.Mend = &v.Mends[0]
	}
	return v
}

func faultView(f *formulate.Fault) *FaultJSON {
	if f == nil {
		return nil
	}
	return &FaultJSON{f.Layer + 1, string(f.Finding.Rule), f.Finding.Text}
}
