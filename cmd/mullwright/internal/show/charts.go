package show

import (
	"fmt"
	"slices"
	"strings"

	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/picture/term"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
	"mullwright/formulate/quantity"
)

// Colours gives the best measured colour of a pigment by its identifier; false
// where there is none.
type Colours func(id string) (formulate.PlainSwatch, bool)

// chips gathers the colours of a chart and the credits they ask for.
type chips struct {
	colours Colours
	credits []string
}

func (c *chips) of(id string) picture.Ink {
	s, ok := c.colours(id)
	if !ok {
		return ""
	}
	if !slices.Contains(c.credits, s.Credit) {
		c.credits = append(c.credits, s.Credit)
	}
	return picture.Ink(s.Chip.Screen.Hex())
}

// notes are the notes of a chart with the credits of its chips.
func (c *chips) notes(notes ...string) []string {
	if len(c.credits) > 0 {
		notes = append(notes, "Chips are the best measured colour of each pigment, see 'mullwright swatch'.")
	}
	return append(notes, c.credits...)
}

// CompareBars shows pigments side by side by the figure they are ordered by,
// the oil where no order was asked.
func CompareBars(r *formulate.CompareResult, colours Colours) picture.BarsData {
	chip := chips{colours: colours}
	by, ok := barFigures[r.Request.Sort]
	if !ok {
		by = barFigures["oil"]
	}
	s := render.CompareSheet(r, func(key string) string { return key })
	v := picture.BarsData{Frame: picture.Frame{Title: fmt.Sprintf("%s of %s", by.title, s.Title), Lead: withoutBrackets(s.Lead)}, Axis: by.axis}
	for i := range r.Rows {
		c := &r.Rows[i]
		row := picture.Bar{Name: c.Material.Name, Chip: chip.of(c.Material.ID)}
		row.Span, row.Text = by.of(c)
		if r.Request.Sort != "" && i+1 < len(r.Rows) && c.Certain < formulate.OrderMatters {
			row.Note = "≈ may as well stand below the next"
		}
		v.Rows = append(v.Rows, row)
	}
	v.Notes = chip.notes("The bars hold 8 jars in 10, the mark is the middle.")
	return v
}

// withoutBrackets drops what a lead says of the brackets of a text.
func withoutBrackets(lead string) string {
	before, _, _ := strings.Cut(lead, " Brackets give")
	return before
}

// barFigure is one figure of a comparison.
type barFigure struct {
	title, axis string
	of          func(*formulate.Compared) (picture.Span, string)
}

// barFigures are what a comparison can be ordered by.
var barFigures = map[string]barFigure{
	"oil":        {"Oil", "oil, g to 100 g of powder", func(c *formulate.Compared) (picture.Span, string) { return bar(c.Oil, 1, 2) }},
	"oil-mass":   {"Oil by mass", "oil by mass of the paste, %", func(c *formulate.Compared) (picture.Span, string) { return bar(c.ByMass, 100, 2) }},
	"oil-volume": {"Oil by volume", "oil by volume of the paste, %", func(c *formulate.Compared) (picture.Span, string) { return bar(c.ByVolume, 100, 2) }},
	"pvc":        {"PVC", "pigment by volume of the dry film (PVC), %", func(c *formulate.Compared) (picture.Span, string) { return bar(c.PVC, 100, 2) }},
	"cpvc":       {"critical PVC", "critical PVC, %", func(c *formulate.Compared) (picture.Span, string) { return bar(c.CPVC, 100, 2) }},
	"reduced-pvc": {"PVC over critical", "PVC over critical; fat is low, lean is high",
		func(c *formulate.Compared) (picture.Span, string) { return bar(c.Reduced, 1, 2) }},
	"density":   {"Density", "density of the paint, g/ml", func(c *formulate.Compared) (picture.Span, string) { return bar(c.Density, 1, 3) }},
	"paint":     {"Paint", "paint from 100 g of powder, ml", func(c *formulate.Compared) (picture.Span, string) { return bar(c.Paint, 1, 2) }},
	"tubes":     {"Tubes", "filled tubes from 100 g of powder", func(c *formulate.Compared) (picture.Span, string) { return bar(c.Tubes, 1, 2) }},
	"powder":    {"Powder", "powder, g", func(c *formulate.Compared) (picture.Span, string) { return bar(c.Powder, 1, 2) }},
	"cost":      {"Cost", "cost of a tube, in your money", func(c *formulate.Compared) (picture.Span, string) { return bar(c.PerTube, 1, 3) }},
	"cost-area": {"Cost", "cost of a m² of wet film, in your money", func(c *formulate.Compared) (picture.Span, string) { return bar(c.PerArea, 1, 3) }},
}

// VapourCurve shows what each solvent does to the room's air; false where no
// room was given or nothing is known.
func VapourCurve(r *formulate.ThinResult) (picture.CurveData, bool, error) {
	v := picture.CurveData{
		Frame: picture.Frame{Title: "Solvent in the room's air", Notes: []string{
			"A figure under a limit is no clearance: the air over the work holds more than the room's mean. Ventilate.",
		}},
		Y: picture.Axis{Name: "mg in a m³ of air"},
	}
	var longest quantity.Duration
	courses := map[string][]formulate.AirPoint{}
	for i := range r.Air.Leaving {
		l := &r.Air.Leaving[i]
		if l.Assessment == nil {
			continue
		}
		c, err := formulate.AirCourse(l.Assessment)
		if err != nil {
			return v, false, err
		}
		courses[l.ID] = c
		longest = max(longest, c[len(c)-1].After)
	}
	if len(courses) == 0 {
		return v, false, nil
	}
	unit, scale := "minutes", 1.0/60
	if longest > 3*quantity.Hour {
		unit, scale = "hours", 1/float64(quantity.Hour)
	}
	v.X.Name = unit + " after it begins to leave"
	for i := range r.Air.Leaving {
		l := &r.Air.Leaving[i]
		if l.Assessment == nil {
			continue
		}
		s := picture.Series{Name: l.Name}
		for _, p := range courses[l.ID] {
			s.X, s.Y = append(s.X, float64(p.After)*scale), append(s.Y, float64(p.Level))
		}
		v.Series = append(v.Series, s)
		v.Lead += fmt.Sprintf("%s g of %s: highest %s mg/m³. ", render.Digits(float64(l.Mass), 3), l.Name, render.Digits(float64(l.Assessment.Peak), 2))
		near, words := limits(l, len(courses) > 1)
		v.Limits = append(v.Limits, near...)
		v.Notes = append(v.Notes, words...)
		if l.Assessment.Saturated {
			v.Notes = append(v.Notes, fmt.Sprintf("%s: the air saturates, and no more can evaporate until it is changed.", l.Name))
		}
	}
	a := r.Air.Airing
	v.Lead += fmt.Sprintf("%s m³, %s air changes an hour, well mixed.", render.Given(a.Room.Volume), render.Given(a.Room.AirChanges))
	return v, true, nil
}

// limits are the lowest published limit of each sort, on the chart where it is
// not far above the curve, and in words where it is.
func limits(l *formulate.Leaving, several bool) (near []picture.Limit, words []string) {
	const far = 3 // times the peak
	var beyond []string
	lowest := map[string]int{}
	var kinds []string
	for i, c := range l.Assessment.Comparisons {
		at, seen := lowest[c.Limit.Kind]
		if !seen {
			kinds = append(kinds, c.Limit.Kind)
		}
		if !seen || c.Threshold < l.Assessment.Comparisons[at].Threshold {
			lowest[c.Limit.Kind] = i
		}
	}
	for _, k := range kinds {
		c := l.Assessment.Comparisons[lowest[k]]
		name := fmt.Sprintf("%s %s mg/m³", limitName(c.Limit.Kind), render.Digits(float64(c.Threshold), 3))
		if c.Threshold > far*l.Assessment.Peak {
			beyond = append(beyond, name+" ("+c.Limit.Authority+")")
			continue
		}
		text := l.Name + ": the " + name + " is that of " + c.Limit.Authority
		if c.Averaged > 0 {
			text += fmt.Sprintf("; the worst mean over %s here is %s mg/m³, %s %% of it", c.Limit.Kind, render.Digits(float64(c.Level), 2), render.Digits(100*float64(c.Share), 2))
		}
		words = append(words, text+".")
		if several {
			name = l.Name + ": " + name
		}
		near = append(near, picture.Limit{Name: name, Value: float64(c.Threshold)})
	}
	if len(beyond) > 0 {
		words = append(words, "Beyond the chart for "+l.Name+": "+strings.Join(beyond, "; ")+".")
	}
	return near, words
}

// limitName says what a limit is a limit of.
func limitName(kind string) string {
	switch kind {
	case "idlh":
		return "immediately dangerous from"
	case "ceiling":
		return "never above"
	}
	return kind + " limit"
}

// SettleCurve shows how long grains of each size take to fall.
func SettleCurve(r *formulate.SettleResult) picture.CurveData {
	s := render.SettleSheet(r, func(key string) string { return key }, false)
	v := picture.CurveData{
		Frame: picture.Frame{Title: s.Title, Lead: withoutBrackets(s.Lead), Notes: []string{"The pale band holds 8 powders in 10. After a wait above the line grains of that size have sunk; below it they are still in the pour."}},
		X:     picture.Axis{Name: "grain size, µm", Log: true}, Y: picture.Axis{Name: "minutes to fall " + render.Given(r.Request.Depth) + " cm", Log: true},
	}
	const minute = 1.0 / 60
	line := picture.Series{}
	for _, row := range slices.Backward(r.Table) {
		if row.Time.Typical > 0 {
			t := span(row.Time, minute)
			line.X, line.Y = append(line.X, float64(row.Size)), append(line.Y, t.Typical)
			line.Low, line.High = append(line.Low, t.Low), append(line.High, t.High)
		}
	}
	v.Series = []picture.Series{line}
	if r.Request.Cut > 0 || r.Request.Time > 0 {
		for _, f := range s.Part("The cut").Fields {
			if f.Label == "wait" {
				v.Limits = []picture.Limit{{Name: "wait " + f.Text, Value: float64(r.Time.Typical) * minute}}
			}
		}
	}
	return v
}

// LayerStack shows a painting's layers with the binder of each: fat over lean
// leans to the right going up.
func LayerStack(r *formulate.LayersResult, name string, colours Colours) picture.LayersData {
	chip := chips{colours: colours}
	s := render.LayersSheet(r, name, func(key string) string { return key }, false)
	v := picture.LayersData{
		Frame: picture.Frame{Title: s.Title, Lead: strings.Join(s.Part("First fault").Lines, " ")},
		Axis:  "binder by volume of the dry film, %",
	}
	for i := range r.Layers {
		l := &r.Layers[i]
		view := picture.LayerView{Name: fmt.Sprintf("%d %s", i+1, l.Name), Height: float64(l.Dry.Typical) / usualFilm, Verdict: layerVerdicts[l.Verdict()]}
		view.Detail = render.Digits(float64(l.Dry.Typical), 2) + " µm dry"
		if l.Dried != nil {
			view.Detail += ", left " + render.Days(*l.Dried)
		}
		view.Fat, view.FatText = bar(l.ByVolume, 100, 2)
		if pigments := l.Request.Paint.Pigments; len(pigments) == 1 {
			view.Chip = chip.of(pigments[0].Material.ID)
		}
		for _, f := range l.Findings {
			if f.Verdict == l.Verdict() && f.Verdict != formulate.Holds {
				view.Reason = upperFirst(string(f.Rule)) + ": " + f.Text + "."
				break
			}
		}
		v.Layers = append(v.Layers, view)
	}
	v.Notes = chip.notes("The bars hold 8 jars in 10, the mark is the middle. Fat over lean is judged by volume of the dry film.")
	return v
}

// usualFilm is the dry thickness, in µm, that stands as tall as a layer usually
// does.
const usualFilm = 40

var layerVerdicts = map[formulate.Verdict]picture.Verdict{
	formulate.Holds: picture.Sound, formulate.Undecided: picture.Undecided, formulate.Fails: picture.AtFault, formulate.NotKnown: picture.Unknown,
}

// Narrowing shows how a maker's own tests narrowed what is believed of a jar:
// the oil absorption by rub-outs, the oil at tube colour by batches, each where
// there is a test of it.
func Narrowing(c *formulate.LearnCourse, r *formulate.LearnResult) []picture.RangesData {
	name := r.Request.Pigment.Material.Name
	if r.Jar != "" {
		name += ", lot " + r.Jar
	}
	absorption, demand := render.OwnNotes(r)
	var out []picture.RangesData
	for _, x := range []struct {
		lessons           []formulate.Lesson
		many, title, note string
	}{
		{c.Absorption, "rub-outs", "oil absorption", absorption},
		{c.Demand, "batches", "oil at tube colour", demand},
	} {
		if len(x.lessons) == 0 {
			continue
		}
		v := picture.RangesData{
			Frame: picture.Frame{Title: name + ": " + x.title, Lead: upperFirst(x.note) + "."},
			Axis:  x.title + ", g to 100 g",
		}
		others := false
		for i, l := range recent(x.lessons) {
			s := picture.State{Name: "catalogue", Span: span(l.Believed, 1), Measured: float64(l.Found)}
			if l.Trial != nil {
				s.Name = fmt.Sprint(l.Trial.Number)
			}
			if l.OtherJar {
				s.Name, others = s.Name+"*", true
			}
			if i == 1 && len(x.lessons) > mostLessons {
				v.Notes = append(v.Notes, fmt.Sprintf("The catalogue and the last %d of %d tests.", mostLessons-1, len(x.lessons)-1))
			}
			v.States = append(v.States, s)
		}
		v.Notes = append(v.Notes, "Numbers are those of your "+x.many+" in the book.")
		if others {
			v.Notes = append(v.Notes, "* of another jar: it says of this one only what jars have in common.")
		}
		out = append(out, v)
	}
	return out
}

// mostLessons is how many states a chart has room for.
const mostLessons = 12

// recent is the catalogue and the last tests.
func recent(l []formulate.Lesson) []formulate.Lesson {
	if len(l) <= mostLessons {
		return l
	}
	return append(l[:1:1], l[len(l)-mostLessons+1:]...)
}

// DrawNarrowing draws the charts one below another at a width in pixels, 0 for
// the usual; false where there is no test.
func DrawNarrowing(r *formulate.LearnResult, width float64) (*picture.Drawing, bool, error) {
	c, err := formulate.CourseOf(r)
	if err != nil {
		return nil, false, err
	}
	var parts []*picture.Drawing
	all := Narrowing(c, r)
	for _, v := range all {
		v.Width = width
		d, err := picture.Ranges(v)
		if err != nil {
			return nil, false, err
		}
		parts = append(parts, d)
	}
	if len(parts) == 0 {
		return nil, false, nil
	}
	return picture.Column(all[0].Title, all[0].Lead, parts...), true, nil
}

// TerminalBars are the bars of a comparison for a terminal.
func TerminalBars(v picture.BarsData) []term.Row {
	var out []term.Row
	for _, b := range v.Rows {
		out = append(out, term.Row{Name: b.Name, Range: term.Range(b.Span), Text: b.Text, Hex: string(b.Chip)})
	}
	return out
}
