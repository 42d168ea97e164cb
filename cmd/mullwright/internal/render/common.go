package render

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Cite prints the publication behind a source key.
type Cite func(key string) string

// RangeView is a range in JSON.
type RangeView struct {
	Low     float64 `json:"low"`
	Typical float64 `json:"typical"`
	High    float64 `json:"high"`
}

func rangeView[Q quantity.Real](r evidence.Range[Q], scale float64) RangeView {
	return RangeView{float64(r.Low) * scale, float64(r.Typical) * scale, float64(r.High) * scale}
}

// rangeOrNone is a range in JSON, null where there is none.
func rangeOrNone[Q quantity.Real](r *evidence.Range[Q]) *RangeView {
	if r == nil {
		return nil
	}
	v := rangeView(*r, 1)
	return &v
}

// answerKind says what a range's three numbers are.
func answerKind(s formulate.Sampling) string {
	if s.Exact {
		return "exact, at the typical values"
	}
	return "10th, 50th and 90th percentile"
}

// CautionView is a caution in JSON.
type CautionView struct {
	About     string   `json:"about"`
	Text      string   `json:"text"`
	Materials []string `json:"materials"`
	Source    string   `json:"source"`
}

func cautionViews(list []formulate.Caution) []CautionView {
	out := make([]CautionView, len(list))
	for i, c := range list {
		out[i] = CautionView{c.About, c.Text, orEmpty(c.Of), c.Source}
	}
	return out
}

func orEmpty(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

// SourceView is a source in JSON.
type SourceView struct {
	Key      string `json:"key"`
	Citation string `json:"citation"`
}

func sourceViews(keys []string, cite Cite) []SourceView {
	tests, published := ownTests(keys)
	out := make([]SourceView, 0, len(keys))
	for _, k := range published {
		out = append(out, SourceView{k, cite(k)})
	}
	for _, t := range tests {
		out = append(out, SourceView{testsKey + t.of, t.what})
	}
	return out
}

// StepView is one step of a derivation in JSON.
type StepView struct {
	Relation string     `json:"relation"`
	Of       string     `json:"of"`
	Equation string     `json:"equation"`
	Inputs   []TermView `json:"inputs"`
	Output   TermView   `json:"output"`
	Source   string     `json:"source"`
}

// TermView is one symbol with its number in JSON.
type TermView struct {
	Symbol string  `json:"symbol"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
}

func stepViews(steps []trace.Step, show bool) []StepView {
	if !show {
		return nil
	}
	out := make([]StepView, len(steps))
	for i, s := range steps {
		v := StepView{s.Relation.Name, s.Of, s.Relation.Equation, []TermView{}, TermView(s.Output), s.Relation.Source}
		for _, t := range s.Inputs {
			v.Inputs = append(v.Inputs, TermView(t))
		}
		out[i] = v
	}
	return out
}

// finish adds what every answer ends with: remarks on its numbers, cautions, the
// derivation where it is asked for, and sources.
func (s *Sheet) finish(warnings []string, cautions []formulate.Caution, steps []trace.Step, keys []string, cite Cite, explain bool) *Sheet {
	s.Add(warningSection(warnings))
	s.addCautions(cautions)
	if explain {
		s.Add(stepSection(steps))
	}
	s.addSources(keys, cite, explain)
	return s
}

// spreadText says what the numbers of an answer are: ranges over so many jars,
// batches or powders, or one answer.
func spreadText(s formulate.Sampling, of string) string {
	if s.Exact {
		return "One answer at the typical values; no range was drawn."
	}
	return "Brackets give the range 8 " + of + " in 10 fall into."
}

// markedLines is a list of remarks.
func markedLines(title string, list []string) Section {
	sec := Section{Title: title, Marked: true}
	for _, l := range list {
		sec.Lines = append(sec.Lines, upperFirst(l)+".")
	}
	return sec
}

// warningSection lists remarks on the numbers.
func warningSection(warnings []string) Section {
	return markedLines("Take care with the numbers", warnings)
}

// addCautions puts what must be read before anything is weighed at the head of
// a sheet, and all cautions in their place.
func (s *Sheet) addCautions(list []formulate.Caution) {
	stop := Section{Title: "Stop: read this first", Marked: true}
	for _, c := range list {
		if c.Stop {
			stop.Lines = append(stop.Lines, cautionLine(c))
		}
	}
	if len(stop.Lines) > 0 {
		s.Sections = append([]Section{stop}, s.Sections...)
	}
	s.Add(cautionSection(list))
}

// cautionSection lists the cautions.
func cautionSection(list []formulate.Caution) Section {
	s := Section{Title: "Cautions", Marked: true}
	for _, c := range list {
		s.Lines = append(s.Lines, cautionLine(c))
	}
	return s
}

func cautionLine(c formulate.Caution) string {
	line := upperFirst(c.About)
	if len(c.Of) > 0 && c.About != "not assessed" {
		line += " (" + strings.Join(c.Of, ", ") + ")"
	}
	return line + ": " + c.Text
}

// stepSection is the derivation, one relation a paragraph.
func stepSection(steps []trace.Step) Section {
	s := Section{Title: "Derivation at the typical values"}
	for i, st := range steps {
		var in []string
		for _, t := range st.Inputs {
			in = append(in, term(t))
		}
		line := fmt.Sprintf("%d. %s, %s: %s", i+1, upperFirst(st.Relation.Name), st.Of, st.Relation.Equation)
		if len(in) > 0 {
			line += "; with " + strings.Join(in, ", ")
		}
		line += " → " + term(st.Output) + " [" + st.Relation.Source + "]"
		s.Lines = append(s.Lines, line)
	}
	return s
}

func term(t trace.Term) string {
	s := t.Symbol + " = " + Digits(t.Value, 4)
	if t.Unit != "" {
		s += " " + t.Unit
	}
	return s
}

// sourceSection lists full citations.
func sourceSection(keys []string, cite Cite) Section {
	s := Section{Title: "Sources", Marked: true}
	for _, k := range keys {
		s.Lines = append(s.Lines, cite(k))
	}
	return s
}

// cardSources names the sources of a card in a few lines, or in full where the
// derivation is asked for.
func cardSources(keys []string, cite Cite, full bool) Section {
	if full {
		return sourceSection(keys, cite)
	}
	seen := map[string]bool{}
	var short []string
	undated := 0
	for _, k := range keys {
		s, dated := shortCite(cite(k))
		switch {
		case !dated:
			undated++
		case !seen[s]:
			seen[s] = true
			short = append(short, s)
		}
	}
	sort.Strings(short)
	line := strings.Join(short, "; ")
	if undated > 0 {
		line = joined(line, fmt.Sprintf("%d undated", undated))
	}
	return Section{Title: "Sources", Lines: []string{line + ". In full with --explain."}}
}

// ShortCite shortens a citation to its first author and year.
func ShortCite(citation string) string {
	s, _ := shortCite(citation)
	return s
}

func shortCite(citation string) (short string, dated bool) {
	author, _, _ := strings.Cut(citation, ", ")
	author, _, _ = strings.Cut(author, ";")
	author, _, _ = strings.Cut(author, " (")
	// "Cooley A.J." and "Church" both end at the surname.
	if words := strings.Fields(author); len(words) == 2 && strings.Contains(words[1], ".") {
		author = words[0]
	}
	if i := strings.LastIndex(citation, " ("); i >= 0 {
		if year, _, ok := strings.Cut(citation[i+2:], ")"); ok && year != "n.d." {
			return author + " " + year, true
		}
	}
	return author, false
}

// SourceKeys gathers every key that the numbers of these materials rest on,
// sorted, each once.
func SourceKeys(materials ...*material.Material) []string {
	var keys []string
	for _, m := range materials {
		keys = append(keys, keysOf(m.Density)...)
		for _, r := range m.OilAbsorption {
			if r.Aside == "" {
				keys = append(keys, r.Source)
			}
		}
		for _, r := range m.ArtistsDemand {
			if r.Aside == "" {
				keys = append(keys, r.Source)
			}
		}
		keys = append(keys, keysOf(m.DryingTime)...)
		for _, list := range [][]material.Statement{m.DryingEffect, m.DryingClass} {
			for _, s := range list {
				keys = append(keys, s.Source)
			}
		}
		if m.Muller != nil {
			keys = append(keys, m.Muller.Source)
		}
		keys = append(keys, testKeys(m)...)
	}
	return uniqueSorted(keys)
}

// keysOf lists the sources of readings that count, sorted.
func keysOf[Q quantity.Real](list []evidence.Reading[Q]) []string {
	var keys []string
	for _, r := range list {
		if r.Aside == "" {
			keys = append(keys, r.Source)
		}
	}
	return uniqueSorted(keys)
}

func uniqueSorted(keys []string) []string {
	slices.Sort(keys)
	return slices.Compact(keys)
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// plural is a word for a count: "half pans".
func plural(name string, n int) string {
	if n == 1 {
		return name
	}
	return name + "s"
}

// noteLine joins small print behind a field.
func noteLine(notes []string) string {
	if len(notes) == 0 {
		return ""
	}
	return "· " + strings.Join(notes, ", ")
}

// amountText says an amount of paint.
func amountText(a formulate.Amount, paint string) string {
	switch a.Kind {
	case formulate.ByPigmentMass:
		return Given(a.Mass) + " g of pigment"
	case formulate.ByPaintMass:
		return Given(a.Mass) + " g of " + paint
	case formulate.ByPaintVolume:
		return Given(a.Volume) + " ml of " + paint
	case formulate.ByOilMass:
		return Given(a.Mass) + " g of oil"
	case formulate.ByTubes:
		return fmt.Sprintf("%s of %s ml, filled to %s", counted(a.Tubes, "tube", "tubes"), Given(a.Volume), percent(a.Fill))
	}
	return ""
}

// mullsField says how a batch is split on the slab.
func mullsField(m *formulate.Mulls) Field {
	f := Field{Label: "mulls on the slab", Text: fmt.Sprintf("%d of %s ml", m.Count, Digits(float64(m.Each), 2)), Value: single(float64(m.Count), "")}
	takes := Digits(float64(m.OnSlab), 2) + " ml at a time"
	if m.Own {
		f.Note = "· up to " + takes + ", as you said; blend all at the end"
		return f
	}
	f.Note = "· about " + takes + " by one author's figure (Kay 1983); two or three times that is common practice too: say yours with --per-mull; blend all at the end"
	return f
}

// dropsText says a step in drops of oil, and what they weigh.
func dropsText(p *formulate.Pours) (drops, note string) {
	return fmt.Sprintf("%d %s", p.StepDrops, plural("drop", p.StepDrops)),
		fmt.Sprintf("· count, do not weigh (20 drops weigh %s g)", Digits(float64(p.DropMass)*20, 2))
}

// titleOf is a material's name with its Colour Index name.
func titleOf(m *material.Material) string {
	if m.CIName != "" {
		return m.Name + " (" + m.CIName + ")"
	}
	return m.Name
}

// percent prints a share that was given.
func percent[Q quantity.Real](v Q) string { return Given(float64(v)*100) + " %" }

// roughly prints a share that was worked out.
func roughly[Q quantity.Real](v Q) string { return Places(float64(v)*100, 0) + " %" }

// Chance says a chance as people do: "about 5 in 100".
func Chance(p quantity.Ratio) string {
	n := float64(p) * 100
	switch {
	case n < 0.5:
		return "under 1 in 100"
	case n > 99.5:
		return "over 99 in 100"
	}
	return "about " + Places(n, 0) + " in 100"
}
