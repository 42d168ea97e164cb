package render

import (
	"fmt"

	"mullwright/formulate/absorption/refit"
	"mullwright/formulate/check"
	"mullwright/formulate/verify"
)

// VerifySheet lays the checks out: a line for each relation, or for each check.
func VerifySheet(r *verify.Report, cite Cite, all bool) *Sheet {
	s := &Sheet{Title: "Published checks", Data: verifyRows(r, cite)}
	var sums []Field
	for _, b := range []check.Basis{check.Printed, check.Computed, check.Memory} {
		t := r.ByBasis[b]
		note := map[check.Basis]string{
			check.Printed:  fmt.Sprintf("values that stand printed in their source; %d count, at most %d of each of %d sources", r.Counted, verify.MostOfOneSource, r.Sources),
			check.Computed: "worked out from a published formula and inputs; not counted",
			check.Memory:   "recalled, source not seen; not counted",
		}[b]
		sums = append(sums, Field{Label: string(b), Text: fmt.Sprintf("%d of %d within", t.Within, t.Run), Note: "· " + note})
	}
	s.Add(Section{Fields: sums})
	if all {
		s.Add(Section{Title: "Every check", Table: verifyTable(r)})
	} else {
		s.Add(Section{Title: "By relation", Table: relationTable(r), Under: "Each check by itself: --all."})
	}
	misses := Section{Title: "Outside what is allowed", Marked: true}
	for _, o := range r.Misses() {
		if o.Err != nil {
			misses.Lines = append(misses.Lines, o.Err.Error())
			continue
		}
		misses.Lines = append(misses.Lines, fmt.Sprintf("%s, %s: published %s, ours %s, allowed ±%s (%s) [%s]", o.Row.ID, o.Row.Relation, full(o.Row.Want), Digits(o.Got, 6), full(o.Row.Tolerance), o.Row.Why, cite(o.Row.Source)))
	}
	s.Add(misses)
	for _, sec := range fitSections(&r.Fit) {
		s.Add(sec)
	}
	return s
}

func relationTable(r *verify.Report) *Table {
	t := &Table{Columns: []Column{{Title: "relation"}, {Title: "printed", Right: true}, {Title: "computed", Right: true}, {Title: "memory", Right: true}, {Title: "outside", Right: true}}}
	type counts struct {
		basis   map[check.Basis]int
		outside int
	}
	by := map[string]*counts{}
	var order []string
	for _, o := range r.Outcomes {
		c := by[o.Row.Relation]
		if c == nil {
			c = &counts{basis: map[check.Basis]int{}}
			by[o.Row.Relation] = c
			order = append(order, o.Row.Relation)
		}
		c.basis[o.Row.Basis]++
		if !o.Within || o.Err != nil {
			c.outside++
		}
	}
	for _, name := range order {
		c := by[name]
		t.Rows = append(t.Rows, []string{name, count(c.basis[check.Printed]), count(c.basis[check.Computed]), count(c.basis[check.Memory]), count(c.outside)})
	}
	return t
}

func count(n int) string {
	if n == 0 {
		return "–"
	}
	return fmt.Sprint(n)
}

func verifyTable(r *verify.Report) *Table {
	t := &Table{Columns: []Column{{Title: "check"}, {Title: "relation"}, {Title: "published", Right: true}, {Title: "ours", Right: true}, {Title: "allowed ±", Right: true}, {Title: "basis"}, {Title: ""}}}
	for _, o := range r.Outcomes {
		mark := ""
		if !o.Within || o.Err != nil {
			mark = "outside"
		}
		t.Rows = append(t.Rows, []string{o.Row.ID, o.Row.Relation, full(o.Row.Want), Digits(o.Got, 6), full(o.Row.Tolerance), string(o.Row.Basis), mark})
	}
	return t
}

func verifyRows(r *verify.Report, cite Cite) [][]string {
	rows := [][]string{{"id", "relation", "output", "published", "ours", "difference", "allowed", "why", "basis", "within", "source", "locator"}}
	for _, o := range r.Outcomes {
		rows = append(rows, []string{o.Row.ID, o.Row.Relation, o.Row.Output, full(o.Row.Want), full(o.Got), full(o.Difference), full(o.Row.Tolerance), o.Row.Why, string(o.Row.Basis), fmt.Sprint(o.Within), cite(o.Row.Source), o.Row.Locator})
	}
	return rows
}

func fitSections(f *refit.Report) []Section {
	score := func(label string, s refit.Score, note string) Field {
		return Field{Label: label, Text: fmt.Sprintf("median miss %s %%, log score %s", Places(100*s.MedianMiss, 0), Places(s.LogScore, 1)),
			Note: fmt.Sprintf("· %d of %d inside the 10–90 range (%s %%, 95 %% interval %s–%s); median width ×%s; %d parameters fitted%s",
				s.Inside, s.Figures, Places(100*float64(s.Inside)/float64(s.Figures), 0), Places(100*s.ShareLow, 0), Places(100*s.ShareHigh, 0), Places(float64(s.MedianWidth), 1), s.Parameters, note)}
	}
	sum := Section{Title: "Artists' oil demand, foretold", Under: fmt.Sprintf("%d figures of %d pigments, each pigment left out of the fit that predicts it. A miss is |ln(published/foretold)|.", f.Model.Figures, f.Pigments),
		Fields: []Field{
			score("the model", f.Model, ""),
			score("a constant factor", f.ConstantFactor, ""),
			score("with other authorities", f.Combined, "; as the mull does where a demand is published"),
		}}
	t := &Table{Columns: []Column{{Title: "pigment"}, {Title: "authority"}, {Title: "published", Right: true}, {Title: "foretold, g/100 g", Right: true}, {Title: "miss", Right: true}, {Title: ""}}}
	for _, p := range f.Predictions {
		mark := ""
		if !p.Inside() {
			mark = "outside"
		}
		t.Rows = append(t.Rows, []string{p.Pigment, p.Authority, Digits(float64(p.Published), 3), bare(Range(p.Foretold, 1, 3, "")), Places(100*p.Miss(), 0) + " %", mark})
	}
	return []Section{sum, {Title: "Each figure", Table: t}}
}

// VerifyView is the checks in JSON.
func VerifyView(r *verify.Report, cite Cite) any {
	type row struct {
		ID         string  `json:"id"`
		Relation   string  `json:"relation"`
		Output     string  `json:"output"`
		Published  float64 `json:"published"`
		Ours       float64 `json:"ours"`
		Difference float64 `json:"difference"`
		Allowed    float64 `json:"allowed"`
		Why        string  `json:"why"`
		Basis      string  `json:"basis"`
		Within     bool    `json:"within"`
		Source     string  `json:"source"`
	}
	type score struct {
		Figures    int     `json:"figures"`
		Inside     int     `json:"inside_10_90"`
		ShareLow   float64 `json:"share_inside_low_95"`
		ShareHigh  float64 `json:"share_inside_high_95"`
		MedianMiss float64 `json:"median_abs_ln_ratio"`
		Width      float64 `json:"median_width_ratio"`
		LogScore   float64 `json:"log_score"`
		Parameters int     `json:"fitted_parameters"`
	}
	scoreOf := func(s refit.Score) score {
		return score{s.Figures, s.Inside, s.ShareLow, s.ShareHigh, s.MedianMiss, float64(s.MedianWidth), s.LogScore, s.Parameters}
	}
	out := struct {
		Version  int    `json:"version"`
		Kind     string `json:"kind"`
		OK       bool   `json:"ok"`
		Counted  int    `json:"printed_values_counted"`
		Rows     []row  `json:"checks"`
		Model    score  `json:"demand_model"`
		Constant score  `json:"demand_constant_factor"`
		Combined score  `json:"demand_with_other_authorities"`
	}{1, "verify", r.OK(), r.Counted, []row{}, scoreOf(r.Fit.Model), scoreOf(r.Fit.ConstantFactor), scoreOf(r.Fit.Combined)}
	for _, o := range r.Outcomes {
		out.Rows = append(out.Rows, row{o.Row.ID, o.Row.Relation, o.Row.Output, o.Row.Want, o.Got, o.Difference, o.Row.Tolerance, o.Row.Why, string(o.Row.Basis), o.Within, cite(o.Row.Source)})
	}
	return out
}
