package render

import (
	"fmt"
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
	out := make([]SourceView, len(keys))
	for i, k := range keys {
		out[i] = SourceView{k, cite(k)}
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

// cautionSection lists the cautions.
func cautionSection(list []formulate.Caution) Section {
	s := Section{Title: "Cautions", Marked: true}
	for _, c := range list {
		line := upperFirst(c.About)
		if len(c.Of) > 0 && c.About != "not assessed" {
			line += " (" + strings.Join(c.Of, ", ") + ")"
		}
		s.Lines = append(s.Lines, line+": "+c.Text)
	}
	return s
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
	seen := map[string]bool{}
	for _, m := range materials {
		for _, r := range m.Density {
			seen[r.Source] = seen[r.Source] || r.Aside == ""
		}
		for _, r := range m.OilAbsorption {
			seen[r.Source] = seen[r.Source] || r.Aside == ""
		}
		for _, r := range m.ArtistsDemand {
			seen[r.Source] = seen[r.Source] || r.Aside == ""
		}
		for _, r := range m.DryingTime {
			seen[r.Source] = seen[r.Source] || r.Aside == ""
		}
		for _, s := range m.DryingEffect {
			seen[s.Source] = true
		}
		for _, s := range m.DryingClass {
			seen[s.Source] = true
		}
		if m.Muller != nil {
			seen[m.Muller.Source] = true
		}
	}
	var out []string
	for k, used := range seen {
		if used {
			out = append(out, k)
		}
	}
	sort.Strings(out)
	return out
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
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
