package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// MaterialListSheet lists materials in one table.
func MaterialListSheet(what string, list []*material.Material) *Sheet {
	s := &Sheet{Title: fmt.Sprintf("%d %s", len(list), what), Lead: "Typical, with the range 8 lots in 10 fall into. Oil absorption (OA) in g of linseed oil per 100 g."}
	t := &Table{Columns: []Column{{Title: "id"}, {Title: "C.I."}, {Title: "kind"}, {Title: "density", Right: true}, {Title: "OA g/100 g", Right: true}}}
	s.Data = [][]string{{"id", "name", "ci_name", "ci_number", "kind", "family",
		"density_g_per_ml_low", "density_g_per_ml_typical", "density_g_per_ml_high",
		"oil_absorption_g_per_100g_low", "oil_absorption_g_per_100g_typical", "oil_absorption_g_per_100g_high", "hazards_assessed"}}
	for _, m := range list {
		d, oa := densityRange(m), absorptionRange(m)
		kind := string(m.Kind)
		if m.Family != "" {
			kind = m.Family
			if m.Kind == material.Extender {
				kind = "extender"
			}
		}
		row := []string{m.ID, m.CIName, kind, known(d, 2), known(oa, 2)}
		t.Rows = append(t.Rows, row)
		data := []string{m.ID, m.Name, m.CIName, m.CINumber, string(m.Kind), m.Family}
		data = append(data, threeOf(d)...)
		data = append(data, threeOf(oa)...)
		s.Data = append(s.Data, append(data, fmt.Sprint(m.Hazards.Assessed)))
	}
	s.Add(Section{Table: t})
	return s
}

func densityRange(m *material.Material) evidence.Range[quantity.Density] {
	return m.DensityDistribution().Range()
}

func absorptionRange(m *material.Material) evidence.Range[quantity.Absorption] {
	d, _ := formulate.AbsorptionOf(m)
	return absorption.Reported(d.Range())
}

func known[Q quantity.Real](r evidence.Range[Q], figures int) string {
	if r.Typical == 0 {
		return "–"
	}
	return bare(Range(r, 1, figures, ""))
}

func threeOf[Q quantity.Real](r evidence.Range[Q]) []string {
	if r.Typical == 0 {
		return []string{"", "", ""}
	}
	return []string{Full(r.Low), Full(r.Typical), Full(r.High)}
}

// MaterialListView is the list in JSON.
func MaterialListView(list []*material.Material) any {
	type item struct {
		ID       string     `json:"id"`
		Name     string     `json:"name"`
		CIName   string     `json:"ci_name"`
		Kind     string     `json:"kind"`
		Family   string     `json:"family"`
		Density  *RangeView `json:"density_g_per_ml"`
		OA       *RangeView `json:"oil_absorption_g_per_100g"`
		Assessed bool       `json:"hazards_assessed"`
	}
	out := struct {
		Version   int    `json:"version"`
		Kind      string `json:"kind"`
		Materials []item `json:"materials"`
	}{1, "materials", []item{}}
	for _, m := range list {
		out.Materials = append(out.Materials, item{m.ID, m.Name, m.CIName, string(m.Kind), m.Family,
			viewOrNil(densityRange(m)), viewOrNil(absorptionRange(m)), m.Hazards.Assessed})
	}
	return out
}

func viewOrNil[Q quantity.Real](r evidence.Range[Q]) *RangeView {
	if r.Typical == 0 {
		return nil
	}
	v := rangeView(r, 1)
	return &v
}

// reading is one published value laid out for a sheet.
type reading struct{ property, value, method, source, note string }

// lotNote puts the jar of an own measurement before its note.
func lotNote(lot, note string) string {
	switch {
	case lot == "":
		return note
	case note == "":
		return "lot " + lot
	}
	return "lot " + lot + "; " + note
}

// readings lists every published value of a material, in the order of a sheet.
func readings(m *material.Material) []reading {
	var out []reading
	collect := func(r ...reading) { out = append(out, r...) }
	collect(listed("density", m.Density)...)
	for _, r := range m.OilAbsorption {
		v := span(r.Value, r.Low, r.High)
		if r.ValueVol != 0 || r.LowVol != 0 {
			v = span(r.ValueVol, r.LowVol, r.HighVol)
		}
		collect(reading{"oil absorption", v, string(r.Method), place(r.Source, r.At), noteOf(lotNote(r.Lot, r.Note), r.Aside)})
	}
	for _, r := range m.ArtistsDemand {
		collect(reading{"artists' demand", span(r.Value, r.Low, r.High), string(r.Consistency), place(r.Source, r.At), noteOf(r.Note, r.Aside)})
	}
	collect(listed("bulk density", m.BulkDensity)...)
	collect(listed("refractive index", m.RefractiveIndex)...)
	collect(listed("particle size", m.ParticleSize)...)
	collect(listed("specific surface", m.SpecificSurface)...)
	collect(measured("density at a temperature", m.DensityAt)...)
	collect(measured("viscosity", m.Viscosity)...)
	collect(listed("iodine value", m.IodineValue)...)
	for _, r := range listed("drying time", m.DryingTime) {
		collect(r)
	}
	collect(listed("molar mass", m.MolarMass)...)
	collect(listed("boiling", m.Boiling)...)
	collect(measured("flash point", m.FlashPoint)...)
	collect(listed("lower explosive limit", m.LowerExplosive)...)
	collect(measured("vapour pressure", m.VapourPressure)...)
	collect(listed("evaporation rate (butyl acetate 1)", m.EvaporationRate)...)
	collect(listed("use level", m.UseLevel)...)
	for _, l := range m.Limits {
		v := l.PPM.String()
		if l.PPM == 0 {
			v = l.MgPerM3.String()
		} else if l.MgPerM3 != 0 {
			v += ", " + l.MgPerM3.String()
		}
		collect(reading{"exposure limit", v, strings.TrimSpace(l.Authority + ", " + l.Kind + " " + l.Year), place(l.Source, l.At), ""})
	}
	return out
}

func listed[Q interface {
	quantity.Real
	String() string
}](property string, list []evidence.Reading[Q]) []reading {
	var out []reading
	for _, r := range list {
		out = append(out, reading{property, span(r.Value, r.Low, r.High), r.Method, place(r.Source, r.At), noteOf(r.Note, r.Aside)})
	}
	return out
}

func measured[Q interface {
	quantity.Real
	String() string
}](property string, list []material.Measured[Q]) []reading {
	var out []reading
	for _, r := range list {
		at := ""
		if r.Temperature != nil {
			at = "at " + r.Temperature.String()
		}
		out = append(out, reading{property, r.Value.String(), at, place(r.Source, r.At), r.Note})
	}
	return out
}

func span[Q interface {
	quantity.Real
	String() string
}](value, low, high Q) string {
	if value != 0 {
		return value.String()
	}
	return low.String() + " to " + high.String()
}

func place(source, at string) string {
	if at == "" {
		return source
	}
	return source + ", " + at
}

func noteOf(note, aside string) string {
	if aside == "" {
		return note
	}
	return joined("left out of the range: "+aside, note)
}

// MaterialSheet is the full sheet of one material.
func MaterialSheet(m *material.Material, cite Cite) *Sheet {
	s := &Sheet{Title: titleOf(m)}
	var about []Field
	put := func(label, text string) {
		if text != "" {
			about = append(about, Field{Label: label, Text: text})
		}
	}
	put("id", m.ID)
	put("also called", strings.Join(m.Synonyms, ", "))
	put("Colour Index", strings.TrimSpace(m.CIName+" "+m.CINumber))
	put("kind", strings.TrimSpace(string(m.Kind)+" "+m.Family))
	put("what it is", m.Chemical)
	put("formula", m.Formula)
	put("note", m.Note)
	if m.Own {
		put("from", "your own catalogue file")
	}
	put("changed by you", strings.Join(m.Overrides, ", "))
	s.Add(Section{Fields: about})

	var sums []Field
	if d := densityRange(m); d.Typical > 0 {
		sums = append(sums, RangeField("density", d, 1, 3, "g/ml", ""))
	}
	if oa := absorptionRange(m); oa.Typical > 0 {
		_, method := formulate.AbsorptionOf(m)
		sums = append(sums, RangeField("oil absorption", oa, 1, 2, "g/100 g", "method: "+string(method)))
	}
	if m.Muller != nil {
		sums = append(sums, Field{Label: "under the muller", Text: m.Muller.Behaviour, Note: m.Muller.Note})
	}
	s.Add(Section{Title: "Reconciled", Fields: sums})

	t := &Table{Columns: []Column{{Title: "property"}, {Title: "published"}, {Title: "method"}, {Title: "source"}, {Title: "note"}}}
	s.Data = [][]string{{"property", "published", "method", "source", "note"}}
	for _, r := range readings(m) {
		row := []string{r.property, r.value, r.method, r.source, r.note}
		t.Rows = append(t.Rows, row)
		s.Data = append(s.Data, row)
	}
	s.Add(Section{Title: "Published values", Table: t})
	for _, group := range statementGroups(m) {
		sec := Section{Title: group.title, Marked: true}
		for _, st := range group.list {
			sec.Lines = append(sec.Lines, st.Text+" ["+place(st.Source, st.At)+"]")
			s.Data = append(s.Data, []string{strings.ToLower(group.title), st.Text, "", place(st.Source, st.At), ""})
		}
		s.Add(sec)
	}
	haz := Section{Title: "Hazards", Marked: true}
	if !m.Hazards.Assessed {
		haz.Lines = append(haz.Lines, "Not assessed here: that is not a clearance. Follow the product's safety data sheet and local rules.")
	} else {
		if len(m.Hazards.Codes) > 0 {
			haz.Lines = append(haz.Lines, "Hazard statements "+strings.Join(m.Hazards.Codes, ", ")+" ["+m.Hazards.CodesSource+"]")
		}
		for _, st := range m.Hazards.Statements {
			haz.Lines = append(haz.Lines, st.Text+" ["+place(st.Source, st.At)+"]")
		}
		haz.Lines = append(haz.Lines, "The product's safety data sheet and local rules come first.")
	}
	s.Add(haz)
	s.Add(sourceSection(allKeys(m), cite))
	return s
}

type statementGroup struct {
	title string
	list  []material.Statement
}

func statementGroups(m *material.Material) []statementGroup {
	return []statementGroup{
		{"Opacity", m.Opacity}, {"Drying", append(append([]material.Statement(nil), m.DryingEffect...), m.DryingClass...)},
		{"Lightfastness", m.Lightfastness}, {"Yellowing", m.Yellowing}, {"Does not get on with", m.Incompatible},
	}
}

// allKeys lists every source a sheet names, in order of first use.
func allKeys(m *material.Material) []string {
	var out []string
	seen := map[string]bool{}
	add := func(key string) {
		if key != "" && !seen[key] {
			seen[key] = true
			out = append(out, key)
		}
	}
	for _, r := range readings(m) {
		key, _, _ := strings.Cut(r.source, ", ")
		add(key)
	}
	for _, g := range statementGroups(m) {
		for _, st := range g.list {
			add(st.Source)
		}
	}
	for _, st := range m.Hazards.Statements {
		add(st.Source)
	}
	return out
}

// MaterialView is one sheet in JSON.
func MaterialView(m *material.Material, cite Cite) any {
	type value struct {
		Property  string `json:"property"`
		Published string `json:"published"`
		Method    string `json:"method"`
		Source    string `json:"source"`
		Note      string `json:"note"`
	}
	type statement struct {
		About  string `json:"about"`
		Text   string `json:"text"`
		Source string `json:"source"`
	}
	out := struct {
		Version    int          `json:"version"`
		Kind       string       `json:"kind"`
		ID         string       `json:"id"`
		Name       string       `json:"name"`
		Synonyms   []string     `json:"synonyms"`
		CIName     string       `json:"ci_name"`
		CINumber   string       `json:"ci_number"`
		Material   string       `json:"material_kind"`
		Family     string       `json:"family"`
		Formula    string       `json:"formula"`
		Density    *RangeView   `json:"density_g_per_ml"`
		OA         *RangeView   `json:"oil_absorption_g_per_100g"`
		Values     []value      `json:"values"`
		Statements []statement  `json:"statements"`
		Assessed   bool         `json:"hazards_assessed"`
		Codes      []string     `json:"hazard_codes"`
		Overrides  []string     `json:"overrides"`
		Sources    []SourceView `json:"sources"`
	}{Version: 1, Kind: "material", ID: m.ID, Name: m.Name, Synonyms: orEmpty(m.Synonyms), CIName: m.CIName, CINumber: m.CINumber,
		Material: string(m.Kind), Family: m.Family, Formula: m.Formula, Density: viewOrNil(densityRange(m)), OA: viewOrNil(absorptionRange(m)),
		Values: []value{}, Statements: []statement{}, Assessed: m.Hazards.Assessed, Codes: orEmpty(m.Hazards.Codes), Overrides: orEmpty(m.Overrides),
		Sources: sourceViews(allKeys(m), cite)}
	for _, r := range readings(m) {
		out.Values = append(out.Values, value{r.property, r.value, r.method, r.source, r.note})
	}
	for _, g := range statementGroups(m) {
		for _, st := range g.list {
			out.Statements = append(out.Statements, statement{strings.ToLower(g.title), st.Text, place(st.Source, st.At)})
		}
	}
	for _, st := range m.Hazards.Statements {
		out.Statements = append(out.Statements, statement{"hazard", st.Text, place(st.Source, st.At)})
	}
	return out
}
