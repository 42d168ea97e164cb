package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
)

// grams prints a belief as "41–46".
func grams(d evidence.Distribution[quantity.AbsorptionVolume]) string {
	r := formulate.ByMassRange(d)
	places := placesFor(float64(r.Typical), 2)
	return rounded(float64(r.Low), places) + "–" + rounded(float64(r.High), places)
}

// OwnNotes are the short words of what was learned of a jar, beside the
// catalogue's range: of its oil absorption and of its oil at tube colour; empty
// where nothing was. Figures are g per 100 g.
func OwnNotes(l *formulate.LearnResult) (absorption, demand string) {
	if l == nil {
		return "", ""
	}
	if l.Absorption.Tests > 0 {
		absorption = fmt.Sprintf("catalogue %s, yours %s after %s", grams(l.Absorption.Catalogue), grams(l.Absorption.Own), testsText(l.Absorption, l.Jar, "test", "tests"))
	}
	if l.Demand.Tests > 0 {
		demand = fmt.Sprintf("catalogue %s, yours %s after %s", grams(l.Demand.Catalogue), grams(l.Demand.Own), testsText(l.Demand, l.Jar, "batch", "batches"))
	}
	return absorption, demand
}

// testsText counts the tests of the jar, and of other jars.
func testsText(q formulate.Learned[quantity.AbsorptionVolume], jar, one, many string) string {
	text := counted(q.JarTests, one, many)
	switch {
	case q.JarTests == 0:
		return counted(q.Tests, one, many) + " of other jars"
	case jar != "":
		text += " of lot " + jar
	}
	if others := q.Tests - q.JarTests; others > 0 {
		text += fmt.Sprintf(" and %d of other jars", others)
	}
	return text
}

// learnedFields are prior beside posterior of both quantities.
func learnedFields(l *formulate.LearnResult) []Field {
	var out []Field
	for _, x := range []struct {
		label, one, many string
		of               formulate.Learned[quantity.AbsorptionVolume]
	}{{"oil absorption", "rub-out", "rub-outs", l.Absorption}, {"oil at tube colour", "batch", "batches", l.Demand}} {
		note := "· catalogue " + grams(x.of.Catalogue) + "; after " + testsText(x.of, l.Jar, x.one, x.many)
		switch {
		case x.of.Tests == 0 && (l.Absorption.Tests == 0 || grams(x.of.Own) == grams(x.of.Catalogue)):
			out = append(out, Field{Label: x.label, Text: grams(x.of.Catalogue) + " g/100 g", Note: "· the catalogue's; no " + x.one + " of yours yet", Value: Numbers(formulate.ByMassRange(x.of.Catalogue), 1, "g/100 g")})
			continue
		case x.of.Tests == 0:
			note = "· catalogue " + grams(x.of.Catalogue) + "; no " + x.one + " of yours yet, moved by your rub-outs"
		}
		out = append(out, Field{Label: x.label, Text: grams(x.of.Own) + " g/100 g", Note: note, Value: Numbers(formulate.ByMassRange(x.of.Own), 1, "g/100 g")})
	}
	return out
}

func shiftField(s *formulate.PourShift) Field {
	return Field{Label: "first pour for 100 g", Text: Digits(float64(s.Own.First), 3) + " g",
		Note:  fmt.Sprintf("· by the catalogue %s g; to stop at %s g instead of %s g", Digits(float64(s.Catalogue.First), 3), Digits(float64(s.Own.Most), 3), Digits(float64(s.Catalogue.Most), 3)),
		Value: single(s.Own.First, "g")}
}

// conflictSection names trials that contradict what was believed: those of one
// entry, or with 0 the first of each jar, with the numbers of the others.
func conflictSection(number int, of ...*formulate.LearnResult) Section {
	sec := Section{Title: "Does not fit", Marked: true}
	var less, more, left bool
	unnamed := 0
	for _, l := range of {
		type alike struct {
			lot, against  string
			batch         bool
			leftOut, sure bool
		}
		others := map[alike][]int{}
		kind := func(c formulate.Conflict) alike { return alike{c.Lot, c.Against, c.Batch, c.LeftOut, c.Sure} }
		for _, c := range l.Conflicts {
			others[kind(c)] = append(others[kind(c)], c.Number)
		}
		for _, c := range l.Conflicts {
			all := others[kind(c)]
			switch {
			case number != 0 && c.Number != number, number == 0 && all == nil:
				continue
			}
			others[kind(c)] = nil
			if len(sec.Lines) == mostNamed {
				unnamed++
				continue
			}
			less, more, left = less || c.Z < 0, more || c.Z > 0, left || c.LeftOut
			line := conflictText(l, c)
			if number == 0 && len(all) > 1 {
				line += " So with " + numbersText(all[1:]) + " of this jar."
			}
			sec.Lines = append(sec.Lines, line)
		}
	}
	if unnamed > 0 {
		sec.Lines = append(sec.Lines, "And "+counted(unnamed, "jar", "jars")+" more; 'mullwright book learn PIGMENT' goes into it.")
	}
	if less {
		sec.Lines = append(sec.Lines, "Less oil than believed: damp powder (its water is weighed as pigment), powder cut with an extender, a coarser grade, the wrong jar, or oil that was not counted.")
	}
	if more {
		sec.Lines = append(sec.Lines, "More oil than believed: a finer or lighter powder than the name says, the wrong jar, oil spilt, or a softer paste than was written down.")
	}
	if left {
		sec.Lines = append(sec.Lines, "What is not used has a chance under 1 in 1000 by what is published. A slip is taken out with 'mullwright book strike NUMBER'; what is right counts once its file says sure = true.")
	}
	return sec
}

// mostNumbers of entries are listed; of more only how many there are.
const mostNumbers = 8

func numbersText(list []int) string {
	if len(list) == 1 {
		return fmt.Sprintf("entry %d", list[0])
	}
	var words []string
	for i, n := range list {
		if i == mostNumbers {
			words = append(words, fmt.Sprintf("%d more", len(list)-i))
			break
		}
		words = append(words, fmt.Sprint(n))
	}
	return "entries " + strings.Join(words, ", ")
}

func conflictText(l *formulate.LearnResult, c formulate.Conflict) string {
	places := placesFor(float64(c.Believed.Typical), 2)
	says := "says"
	if c.Against == formulate.EarlierTests {
		says = "say"
	}
	of := fmt.Sprintf("%s of %s, %s", c.Kind(), l.Request.Pigment.Material.ID, jarText(c.Lot))
	found := fmt.Sprintf("%s g/100 g, where %s %s %s–%s (%s by chance)", Digits(float64(c.Found), 3), c.Against, says,
		rounded(float64(c.Believed.Low), places), rounded(float64(c.Believed.High), places), outText(c.Probability))
	switch {
	case c.LeftOut:
		return fmt.Sprintf("Not used: entry %d does not fit, a %s: %s.", c.Number, of, found)
	case c.Number == 0:
		return fmt.Sprintf("A test in your catalogue file, %s: %s. It counts, as the file is yours.", of, found)
	case c.Sure:
		return fmt.Sprintf("Entry %d, %s: %s. It counts, as you are sure of it.", c.Number, of, found)
	}
	return fmt.Sprintf("Entry %d, %s: %s. It counts all the same.", c.Number, of, found)
}

func outText(p evidence.Probability) string {
	if p < 0.0005 {
		return "under 1 in 2000"
	}
	return fmt.Sprintf("%s in 1000", Digits(float64(p)*1000, 1))
}

// LearnList is what the book teaches of several pigments.
type LearnList struct {
	Dir    string
	Of     []*formulate.LearnResult
	Unread strict.Faults
}

// LearnListSheet sets prior beside posterior, one pigment a line.
func LearnListSheet(l LearnList) *Sheet {
	s := &Sheet{Title: "What your book has learned", Lead: "From the book in " + l.Dir + "."}
	if len(l.Of) == 0 {
		s.Lead = "Nothing yet: the book in " + l.Dir + " holds no batch and no rub-out."
		s.Add(UnreadSection(l.Unread))
		return s
	}
	t := &Table{Columns: []Column{{Title: "pigment"}, {Title: "jar"}, {Title: "oil absorption"}, {Title: "oil at tube colour"}, {Title: "first pour"}}}
	s.Data = [][]string{{"id", "lot", "rub_outs", "oil_absorption_catalogue_low", "oil_absorption_catalogue_high", "oil_absorption_own_low", "oil_absorption_own_high", "batches",
		"tube_colour_catalogue_low", "tube_colour_catalogue_high", "tube_colour_own_low", "tube_colour_own_high", "first_pour_catalogue_g", "first_pour_own_g"}}
	var unused []string
	for _, r := range l.Of {
		id := r.Request.Pigment.Material.ID
		jar := r.Jar
		if jar == "" {
			jar = "–"
		}
		row := []string{id, jar, change(r.Absorption), change(r.Demand), ""}
		ac, ao, dc, do := formulate.ByMassRange(r.Absorption.Catalogue), formulate.ByMassRange(r.Absorption.Own), formulate.ByMassRange(r.Demand.Catalogue), formulate.ByMassRange(r.Demand.Own)
		data := []string{id, cell(r.Jar), fmt.Sprint(r.Absorption.Tests), Full(ac.Low), Full(ac.High), Full(ao.Low), Full(ao.High), fmt.Sprint(r.Demand.Tests), Full(dc.Low), Full(dc.High), Full(do.Low), Full(do.High), "", ""}
		if p := r.Pours; p != nil {
			row[4] = Digits(float64(p.Catalogue.First), 2) + " → " + Digits(float64(p.Own.First), 2)
			data[12], data[13] = Full(p.Catalogue.First), Full(p.Own.First)
		}
		t.Rows, s.Data = append(t.Rows, row), append(s.Data, data)
		unused = append(unused, unusedLines(r)...)
	}
	s.Add(Section{Under: "In g per 100 g: catalogue → yours (how many rub-outs or batches), the ranges 8 jars in 10 fall into. First pour: of linseed oil, to tube colour.", Table: t})
	s.Add(conflictSection(0, l.Of...))
	s.Add(unusedSection(unused))
	s.Add(Section{Title: "Next", Lines: []string{"'mullwright book learn PIGMENT' says what its next test would narrow most."}})
	s.Add(UnreadSection(l.Unread))
	return s
}

// change is "32–64 → 41–46 (3)", or the catalogue's range alone.
func change(q formulate.Learned[quantity.AbsorptionVolume]) string {
	if q.Tests == 0 {
		return grams(q.Catalogue)
	}
	return fmt.Sprintf("%s → %s (%d)", grams(q.Catalogue), grams(q.Own), q.Tests)
}

// mostNamed entries are named one by one; of more only the number.
const mostNamed = 12

func unusedLines(r *formulate.LearnResult) []string {
	var out []string
	for _, u := range r.Unused {
		out = append(out, fmt.Sprintf("Entry %d (%s): %s.", u.Number, r.Request.Pigment.Material.ID, u.Why))
	}
	return out
}

func unusedSection(lines []string) Section {
	sec := Section{Title: "Kept, but teaching nothing", Marked: true, Lines: lines}
	if more := len(lines) - mostNamed; more > 0 {
		sec.Lines = append(lines[:mostNamed:mostNamed], fmt.Sprintf("And %s more.", counted(more, "entry", "entries")))
	}
	return sec
}

// LearnSheet shows what was learned of one pigment.
func LearnSheet(r *formulate.LearnResult, explain bool) *Sheet {
	m := r.Request.Pigment.Material
	s := &Sheet{Title: "What your book has learned of " + titleOf(m), Lead: "For " + jarWords(r) + ". Ranges are what 8 jars in 10 fall into."}
	if r.Absorption.Tests+r.Demand.Tests == 0 {
		s.Lead = "Nothing yet: your book holds no rub-out and no batch that teaches of it."
	}
	sec := Section{Title: "Catalogue and yours", Fields: learnedFields(r)}
	if r.Pours != nil {
		sec.Fields = append(sec.Fields, shiftField(r.Pours))
	}
	s.Add(sec)
	s.Add(lotSection(r))
	s.Add(nextTestSection(r))
	s.Add(conflictSection(0, r))
	s.Add(unusedSection(unusedLines(r)))
	s.Add(warningSection(r.Warnings))
	s.Add(Section{Title: "How it is learned", Lines: []string{
		"Log-normal, by the rule of Bayes. The catalogue's range is the start; half of its variance is laid to the pigment at large and half to the jar (common practice), so that tests of one jar say less of another. " +
			"A rub-out scatters by " + scatterText(r.Absorption, "the 5 % within which two should agree") + "; a batch at a named body by " + scatterText(r.Demand, "half a step to the next name") + ". " +
			"Rub-outs teach the oil absorption, batches the oil at tube colour; published figures show next to no tie between the two. " +
			"What all your tests share, such as your hand or what you call buttery, is learned as if it were the pigment's.",
	}})
	if explain {
		s.Add(stepSection(r.Steps))
	}
	return s
}

// scatterText is the scatter used, and where it comes from.
func scatterText(q formulate.Learned[quantity.AbsorptionVolume], basis string) string {
	text := Places(q.Assumed*100, 1) + " % (" + basis + ", common practice)"
	if used := Places(q.Scatter*100, 1) + " %"; used != Places(q.Assumed*100, 1)+" %" {
		text = used + " (yours, with " + text + " counting for twenty repeats)"
	}
	return text
}

func jarWords(r *formulate.LearnResult) string {
	switch {
	case r.NewJar():
		return "a new jar"
	case r.Jar == "":
		return "the jar whose lot was not named"
	}
	return "the jar of lot " + r.Jar
}

func lotSection(r *formulate.LearnResult) Section {
	t := &Table{Columns: []Column{{Title: "jar"}, {Title: "rub-outs", Right: true}, {Title: "oil absorption", Right: true}, {Title: "batches", Right: true}, {Title: "oil at tube colour", Right: true}}}
	type line struct {
		rubOuts, batches int
		oa, d            string
	}
	lines := map[string]*line{}
	var names []string
	of := func(lot string) *line {
		if lines[lot] == nil {
			lines[lot] = &line{}
			names = append(names, lot)
		}
		return lines[lot]
	}
	for _, p := range r.Absorption.Lots {
		l := of(p.Lot)
		l.rubOuts, l.oa = p.Tests, grams(p.Own)
	}
	for _, p := range r.Demand.Lots {
		l := of(p.Lot)
		l.batches, l.d = p.Tests, grams(p.Own)
	}
	for _, n := range names {
		l := lines[n]
		t.Rows = append(t.Rows, []string{jarText(n), fmt.Sprint(l.rubOuts), orDash(l.oa), fmt.Sprint(l.batches), orDash(l.d)})
	}
	t.Rows = append(t.Rows, []string{"a new jar", "", grams(r.Absorption.NewJar), "", grams(r.Demand.NewJar)})
	return Section{Title: "Jar by jar, g per 100 g", Table: t}
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

func nextTestSection(r *formulate.LearnResult) Section {
	t := &Table{Columns: []Column{{Title: "one more"}, {Title: "oil absorption", Right: true}, {Title: "oil to pour", Right: true}}}
	for _, n := range r.Next {
		t.Rows = append(t.Rows, []string{n.Name, narrower(n.Absorption), narrower(n.Demand)})
	}
	return Section{Title: "What the next test would narrow", Under: "The share of its range that would go. For the pour make a batch; for the critical PVC, which says how lean a paint is, a rub-out.", Table: t}
}

func narrower(v quantity.Ratio) string {
	if v == 0 {
		return "–"
	}
	return roughly(v)
}

// LearnJSON is what was learned of one pigment. Figures are g of linseed oil per
// 100 g.
type LearnJSON struct {
	Version    int            `json:"version"`
	Kind       string         `json:"kind"`
	ID         string         `json:"id"`
	Lot        string         `json:"lot"`
	Absorption LearnedJSON    `json:"oil_absorption_g_per_100g"`
	Demand     LearnedJSON    `json:"oil_at_tube_colour_g_per_100g"`
	FirstPour  *ShiftJSON     `json:"first_pour_g_for_100g,omitempty"`
	Next       []NextJSON     `json:"next_tests"`
	Conflicts  []ConflictJSON `json:"conflicts"`
	Unused     []UnusedJSON   `json:"unused"`
	Warnings   []string       `json:"warnings"`
	Derivation []StepView     `json:"derivation,omitempty"`
}

// LearnedJSON is one quantity, before and after.
type LearnedJSON struct {
	Catalogue RangeView `json:"catalogue"`
	Own       RangeView `json:"own"`
	NewJar    RangeView `json:"new_jar"`
	Tests     int       `json:"tests"`
	JarTests  int       `json:"tests_of_this_lot"`
	Lots      []LotJSON `json:"lots"`
}

// LotJSON is what is known of one jar.
type LotJSON struct {
	Lot   string    `json:"lot"`
	Tests int       `json:"tests"`
	Own   RangeView `json:"own"`
}

// ShiftJSON is how far the first pour moved.
type ShiftJSON struct {
	Catalogue     float64 `json:"catalogue"`
	Own           float64 `json:"own"`
	MostCatalogue float64 `json:"stop_at_catalogue"`
	MostOwn       float64 `json:"stop_at_own"`
}

// NextJSON is a test that might be made next.
type NextJSON struct {
	Name       string  `json:"test"`
	Absorption float64 `json:"narrows_oil_absorption"`
	Demand     float64 `json:"narrows_oil_to_pour"`
}

// ConflictJSON is a trial that does not fit.
type ConflictJSON struct {
	Entry       int       `json:"entry"`
	Lot         string    `json:"lot"`
	Batch       bool      `json:"batch"`
	Against     string    `json:"against"`
	Found       float64   `json:"found_g_per_100g"`
	Believed    RangeView `json:"believed_g_per_100g"`
	Used        bool      `json:"used"`
	Sure        bool      `json:"sure"`
	Z           float64   `json:"z"`
	Probability float64   `json:"probability"`
}

// UnusedJSON is an entry that teaches nothing.
type UnusedJSON struct {
	Entry int    `json:"entry"`
	Why   string `json:"why"`
}

func learnedView(q formulate.Learned[quantity.AbsorptionVolume]) LearnedJSON {
	view := func(d evidence.Distribution[quantity.AbsorptionVolume]) RangeView {
		return rangeView(formulate.ByMassRange(d), 1)
	}
	v := LearnedJSON{Catalogue: view(q.Catalogue), Own: view(q.Own), NewJar: view(q.NewJar), Tests: q.Tests, JarTests: q.JarTests, Lots: []LotJSON{}}
	for _, l := range q.Lots {
		v.Lots = append(v.Lots, LotJSON{l.Lot, l.Tests, view(l.Own)})
	}
	return v
}

// LearnView is what was learned of one pigment, in JSON.
func LearnView(r *formulate.LearnResult, explain bool) LearnJSON {
	v := LearnJSON{Version: 1, Kind: "learned", ID: r.Request.Pigment.Material.ID, Lot: r.Jar, Absorption: learnedView(r.Absorption), Demand: learnedView(r.Demand),
		Next: []NextJSON{}, Conflicts: []ConflictJSON{}, Unused: []UnusedJSON{}, Warnings: orEmpty(r.Warnings), Derivation: stepViews(r.Steps, explain)}
	if p := r.Pours; p != nil {
		v.FirstPour = &ShiftJSON{float64(p.Catalogue.First), float64(p.Own.First), float64(p.Catalogue.Most), float64(p.Own.Most)}
	}
	for _, n := range r.Next {
		v.Next = append(v.Next, NextJSON{n.Name, float64(n.Absorption), float64(n.Demand)})
	}
	for _, c := range r.Conflicts {
		v.Conflicts = append(v.Conflicts, ConflictJSON{c.Number, c.Lot, c.Batch, c.Against, float64(c.Found), rangeView(c.Believed, 1), !c.LeftOut, c.Sure, c.Z, float64(c.Probability)})
	}
	for _, u := range r.Unused {
		v.Unused = append(v.Unused, UnusedJSON{u.Number, u.Why})
	}
	return v
}

// LearnListJSON is what was learned of several pigments.
type LearnListJSON struct {
	Version int         `json:"version"`
	Kind    string      `json:"kind"`
	Book    string      `json:"book"`
	Learned []LearnJSON `json:"learned"`
	Unread  []string    `json:"not_read"`
}

// LearnListView is what was learned of several pigments, in JSON.
func LearnListView(l LearnList, explain bool) LearnListJSON {
	v := LearnListJSON{Version: 1, Kind: "learned", Book: l.Dir, Learned: []LearnJSON{}, Unread: faultTexts(l.Unread)}
	for _, r := range l.Of {
		v.Learned = append(v.Learned, LearnView(r, explain))
	}
	return v
}
