package render

import (
	"fmt"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// RubOutSheet lays a rub-out out: its result, or how to make it. Kept says that
// the result has been kept already.
func RubOutSheet(r *formulate.RubOutResult, cite Cite, guide, kept, explain bool) *Sheet {
	s := &Sheet{Title: rubOutTitle(r), Lead: rubOutLead(r)}
	if len(r.Figures) > 0 {
		s.Add(rubOutResult(r))
		s.Add(rubOutTests(r))
		s.Add(rubOutliers(r))
	}
	if guide || len(r.Figures) == 0 {
		s.Add(rubOutPrepare(r))
		s.Add(portionSection(r))
		s.Add(hintSection("How to make it", r.Guide.Hints, cite))
	}
	s.Add(Section{Title: "Next", Marked: true, Lines: rubOutNext(r, kept)})
	return s.finish(r.Warnings, r.Cautions, r.Steps, rubOutKeys(r), cite, explain)
}

// rubOutKeys are the sources of what the tests are compared with and of the
// oil's density; the methods are named where they are used.
func rubOutKeys(r *formulate.RubOutResult) []string {
	used := &material.Material{Density: r.Request.Oil.Material.Density}
	if p := r.Request.Pigment; p != nil {
		used.OilAbsorption = p.OilAbsorption
	}
	return SourceKeys(used)
}

func rubOutTitle(r *formulate.RubOutResult) string {
	title := "Rub-out"
	if r.Request.Method == material.GardnerColeman {
		title = "Gardner–Coleman test"
	}
	if r.Request.Pigment != nil {
		title += ": " + titleOf(r.Request.Pigment)
	}
	return title + " with " + r.Request.Oil.Material.Name
}

// figureWord is what the figure is called: only linseed oil, or another drying
// oil, gives an oil absorption.
func figureWord(r *formulate.RubOutResult) string {
	if r.Request.Oil.Material.Kind != material.Oil {
		return "liquid demand"
	}
	return "oil absorption"
}

func rubOutLead(r *formulate.RubOutResult) string {
	allowed := percent(r.Request.Allowed)
	m := r.Mean
	mean := fmt.Sprintf("%s g/100 g, %s ml/100 g", Digits(float64(m.Mean), 3), Digits(float64(m.Volume), 3))
	switch r.Verdict {
	case formulate.NoTest:
		return "How to find the oil absorption of your own jar: two tests of about 25 minutes each."
	case formulate.OneTest:
		return "One test: " + mean + ". One alone says nothing of its own scatter: do a second."
	case formulate.TwoAgree:
		return "Your two tests agree: " + mean + "."
	case formulate.TwoDiffer:
		return fmt.Sprintf("Your two tests differ by %s of their mean, more than %s: do a third. So far %s.", roughlyShare(r.Agreement.Spread), allowed, mean)
	case formulate.MoreAgree:
		return fmt.Sprintf("Your %d tests agree: %s.", m.Tests, mean)
	case formulate.OneLiesOut:
		return fmt.Sprintf("Test %d lies out of the others. With it %s; without it %s g/100 g. Look for the cause before you drop it.", r.Suspect(), mean, Digits(float64(r.Without.Mean), 3))
	}
	return fmt.Sprintf("Your %d tests scatter by %s of their mean, more than %s, and none stands out. Their mean is %s; the interval below is what it is worth.",
		m.Tests, roughlyShare(r.Agreement.Spread), allowed, mean)
}

// roughlyShare prints a share that was worked out to two figures.
func roughlyShare[Q quantity.Real](v Q) string { return Digits(float64(v)*100, 2) + " %" }

func rubOutResult(r *formulate.RubOutResult) Section {
	m := r.Mean
	sec := Section{Title: "Result", Fields: []Field{
		intervalField(figureWord(r), m.Mean, m.Low, m.High, "g/100 g", m.Tests),
		intervalField("by volume", m.Volume, m.VolumeLow, m.VolumeHigh, "ml/100 g", m.Tests),
	}}
	if a := r.Agreement; a != nil {
		verdict := "more than the " + percent(a.Allowed) + " allowed"
		if a.Agree {
			verdict = "within the " + percent(a.Allowed) + " allowed"
		}
		if a.Allowed == evidence.CommonSpread {
			verdict += " (common practice)"
		}
		sec.Fields = append(sec.Fields,
			Field{Label: "largest to smallest", Text: roughlyShare(a.Spread) + " of the mean", Note: "· " + verdict, Value: single(a.Spread*100, "%")},
			Field{Label: "scatter of one test", Text: Digits(float64(m.SD), 2) + " g/100 g", Note: "· one standard deviation", Value: single(m.SD, "g/100 g")},
			Field{Label: "Student's t", Text: Digits(float64(m.T), 4), Note: tNote(m.Tests), Value: single(m.T, "")})
	}
	sec.Fields = append(sec.Fields, Field{Label: "from reading alone", Text: "± " + Digits(float64(r.WorstReading()), 2) + " g/100 g",
		Note: "· balance, burette and the last drop, in one test", Value: single(r.WorstReading(), "g/100 g")})
	if r.Standing != formulate.NotCompared {
		sec.Fields = append(sec.Fields, RangeField("foretold", r.Foretold, 1, 2, "g/100 g", "· "+r.Request.ExpectedBy+"; "+standingText(r.Standing)))
	}
	for _, x := range []struct{ label, text string }{{"lot", r.Request.Lot}, {"date", r.Request.Date}, {"remark", r.Request.Remark}} {
		if x.text != "" {
			sec.Fields = append(sec.Fields, Field{Label: x.label, Text: x.text})
		}
	}
	return sec
}

func tNote(tests int) string {
	if tests == 2 {
		return "· for two tests the interval is honest and nearly useless; a third cuts it to a third"
	}
	return ""
}

func standingText(s formulate.Standing) string {
	switch s {
	case formulate.Below:
		return "yours lies below it"
	case formulate.Above:
		return "yours lies above it"
	}
	return "yours lies within it"
}

// intervalField is a mean with its 95 % interval; one test has none.
func intervalField[Q quantity.Real](label string, mean, low, high Q, unit string, tests int) Field {
	f := Field{Label: label, Text: Digits(float64(mean), 3) + " " + unit, Value: &Value{float64(low), float64(mean), float64(high), unit}}
	if tests < 2 {
		f.Value = single(mean, unit)
		return f
	}
	r := evidence.Range[Q]{Low: low, Typical: mean, High: high}
	f.Text = Range(r, 1, 3, unit)
	f.Note = "· 95 % interval of the mean"
	return f
}

func rubOutTests(r *formulate.RubOutResult) Section {
	t := &Table{Columns: []Column{{Title: "test", Right: true}, {Title: "what it took"}, {Title: "pigment g", Right: true}, {Title: "oil g", Right: true}, {Title: "oil ml", Right: true}, {Title: "g/100 g", Right: true}, {Title: "ml/100 g", Right: true}}}
	for i, f := range r.Figures {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), f.RubOutTest.String(), Given(f.Pigment), Digits(float64(f.OilMass), 3), Digits(float64(f.OilPour), 3),
			Digits(float64(f.ByMass), 3), Digits(float64(f.ByVolume), 3)})
	}
	return Section{Title: "Tests", Table: t}
}

func rubOutliers(r *formulate.RubOutResult) Section {
	sec := Section{Title: "Does one lie out?"}
	for _, o := range r.Outliers {
		text := fmt.Sprintf("test %d: %s against %s", o.Index+1, Digits(o.Statistic, 4), Digits(o.Critical, 4))
		note := "· no"
		switch {
		case r.SaysNothing():
			note = "· says nothing: the others are printed alike"
		case o.Rejected && r.Agreement.Agree:
			note = "· yes, but all agree within what is allowed"
		case o.Rejected:
			note = "· yes"
		}
		sec.Fields = append(sec.Fields, Field{Label: o.Test, Text: text, Note: note + " (5 % level, two-sided)", Value: single(quantity.Ratio(o.Statistic), "")})
	}
	if w := r.Without; w != nil {
		sec.Fields = append(sec.Fields, intervalField("mean without it", w.Mean, w.Low, w.High, "g/100 g", w.Tests))
	}
	return sec
}

func rubOutPrepare(r *formulate.RubOutResult) Section {
	g := &r.Guide
	sec := Section{Title: "Have ready"}
	if g.Portion == 0 {
		return sec
	}
	note := "· by the " + g.PortionBy + " (IS 33)"
	if g.ByTable > 0 {
		note = fmt.Sprintf("· %s g by the %s (IS 33); more for your balance: %s", Given(g.ByTable), g.PortionBy, stepText(r))
	}
	sec.Fields = append(sec.Fields, Field{Label: "pigment, each test", Text: Given(g.Portion) + " g", Note: note, Value: single(g.Portion, "g")})
	if g.Ready > 0 {
		oil := evidence.Range[quantity.Mass]{Low: g.OilLow, Typical: g.OilTypical, High: g.OilHigh}
		pour := evidence.Range[quantity.Volume]{Low: g.PourLow, Typical: g.PourTypical, High: g.PourHigh}
		sec.Fields = append(sec.Fields,
			RangeField("oil it may take", oil, 1, 2, "g", "· "+r.Request.ExpectedBy),
			RangeField("", pour, 1, 2, "ml", ""),
			Field{Label: "oil in the bottle", Text: fmt.Sprintf("%s g, %s ml", Digits(float64(g.Ready), 2), Digits(float64(g.ReadyPour), 2)), Note: "· three tests at the high end", Value: single(g.Ready, "g")},
			Field{Label: "go slowly from", Text: fmt.Sprintf("%s g, %s ml", Digits(float64(g.OilLow), 2), Digits(float64(g.PourLow), 2)), Note: "· drop by drop from here", Value: single(g.OilLow, "g")})
	}
	sec.Fields = append(sec.Fields, Field{Label: "one drop is worth", Text: Digits(float64(g.Drop), 2) + " g/100 g", Note: fmt.Sprintf("· 20 drops at %s g", Digits(float64(r.Request.Drop)*20, 2)), Value: single(g.Drop, "g/100 g")},
		Field{Label: "besides", Text: "a balance to " + Given(r.Request.Scale) + " g, a glass plate, a stiff palette knife, a burette, syringe or dropping bottle"})
	return sec
}

// stepText says what a step of the balance is to be of the oil.
func stepText(r *formulate.RubOutResult) string {
	return fmt.Sprintf("a step of %s g is to be at most %s of the oil", Given(r.Request.Scale), percent(r.Guide.Step))
}

func portionSection(r *formulate.RubOutResult) Section {
	rows := r.Guide.Portions
	t := &Table{Columns: []Column{{Title: "expected oil absorption"}, {Title: "pigment, each test", Right: true}}}
	for _, p := range rows {
		t.Rows = append(t.Rows, []string{p.Expected, Given(p.Portion) + " g"})
	}
	sec := Section{Title: "How much pigment (IS 33)", Table: t}
	if r.Guide.Larger {
		sec.Under = "More than the method says for your balance: " + stepText(r) + "."
	}
	return sec
}

// hintSection lists advice with where it comes from. A source key is cited in
// short.
func hintSection(title string, hints []formulate.Hint, cite Cite) Section {
	s := Section{Title: title, Marked: true}
	for _, h := range hints {
		s.Lines = append(s.Lines, upperFirst(h.About)+": "+h.Text+" ["+hintSource(h.Source, cite)+"]")
	}
	return s
}

// hintSource shortens the citation behind a key; what is no key stands as it is.
func hintSource(source string, cite Cite) string {
	if full := cite(source); full != source {
		return ShortCite(full)
	}
	return source
}

func rubOutNext(r *formulate.RubOutResult, kept bool) []string {
	var out []string
	switch r.Verdict {
	case formulate.NoTest:
		out = append(out, "Damp? 'mullwright powder moisture"+behind(r.Request.Pigment, r.Request.Unlisted)+"' says how it may be dried and how damp it is.",
			"Give the results with --pigment-mass and a --took for each test; see 'mullwright rubout --help'.")
	case formulate.OneTest:
		out = append(out, "Do a second test the same day with the same oil, and give both.")
	case formulate.TwoDiffer:
		out = append(out, "Do a third with the same hand and oil. The usual causes: an end point taken early once, damp, a dropper held at a slant.")
	case formulate.OneLiesOut:
		out = append(out, "A misread balance, a lost drop, an overshot end point: where you find the cause, leave the test out; where not, do one more and keep all.")
	case formulate.MoreScatter:
		out = append(out, "Take a larger portion, slow down at the end point, rub each test for as long; then do two more.")
	}
	switch r.Standing {
	case formulate.Below:
		out = append(out, "Below what was foretold: an end point taken early, a coarse or extended grade, damp powder, another pigment than the label says, or oil and pigment swapped in the question (common practice).")
	case formulate.Above:
		out = append(out, "Above what was foretold: an end point overshot, a finer grade, clumps that hold oil, another pigment than the label says, or oil and pigment swapped in the question (common practice).")
	}
	switch {
	case kept || len(r.Figures) == 0 || r.Request.Oil.Material.Kind != material.Oil:
	case r.Request.Pigment == nil:
		out = append(out, "To keep it, name the pigment; a jar that the catalogue lacks is named with --name and --density, and --save FILE writes it as a catalogue file.")
	case r.Request.Unlisted && len(r.Request.Pigment.Density) == 0:
		out = append(out, "Measure its density too ('mullwright powder density'): with --density as well, --save FILE writes the jar as a catalogue file.")
	case r.Request.Unlisted:
		out = append(out, "Keep it with --save FILE (with --lot and --date): that writes the jar as a catalogue file, for --catalogue FILE.")
	default:
		out = append(out, "Keep it with --keep --lot LOT: every command then uses it, beside your batches. Or with --save FILE, as a catalogue file for --catalogue FILE.")
	}
	return out
}

// SavedSection says where a pigment of the maker's own was written, and how it is
// used.
func SavedSection(file string, m *material.Material) Section {
	return Section{Title: "Saved", Lines: []string{fmt.Sprintf("%s is in %s. Use it: mullwright mull %s --pigment-mass 20g --catalogue %s", m.ID, file, m.ID, file)}}
}

// RubOutJSON is the rub-out's JSON contract.
type RubOutJSON struct {
	Version    int              `json:"version"`
	Kind       string           `json:"kind"`
	Pigment    string           `json:"pigment"`
	Oil        string           `json:"oil"`
	EndPoint   string           `json:"end_point"`
	Lot        string           `json:"lot"`
	Date       string           `json:"date"`
	Remark     string           `json:"remark"`
	Verdict    string           `json:"verdict"`
	Tests      []RubOutTestJSON `json:"tests"`
	Mean       *RubOutMeanJSON  `json:"mean"`
	Spread     *float64         `json:"spread_of_mean"`
	Allowed    float64          `json:"spread_allowed"`
	Outliers   []OutlierJSON    `json:"outlier_tests"`
	Suspect    int              `json:"test_that_lies_out"`
	Without    *RubOutMeanJSON  `json:"mean_without_it"`
	Foretold   *RangeView       `json:"foretold_g_per_100g"`
	Standing   string           `json:"beside_foretold"`
	Guide      RubOutGuideJSON  `json:"guide"`
	Warnings   []string         `json:"warnings"`
	Cautions   []CautionView    `json:"cautions"`
	Sources    []SourceView     `json:"sources"`
	Derivation []StepView       `json:"derivation,omitempty"`
}

// RubOutTestJSON is one test.
type RubOutTestJSON struct {
	PigmentG  float64 `json:"pigment_g"`
	DryG      float64 `json:"dry_pigment_g"`
	Read      string  `json:"read"`
	OilG      float64 `json:"oil_g"`
	OilML     float64 `json:"oil_ml"`
	Drops     int     `json:"drops"`
	GPer100G  float64 `json:"g_per_100g"`
	MLPer100G float64 `json:"ml_per_100g"`
	UReadingG float64 `json:"u_reading_g_per_100g"`
}

// RubOutMeanJSON is a mean with its 95 % interval, null for one test.
type RubOutMeanJSON struct {
	Tests      int         `json:"tests"`
	GPer100G   float64     `json:"g_per_100g"`
	SDG        *float64    `json:"sd_g_per_100g"`
	IntervalG  *[2]float64 `json:"interval_95_g_per_100g"`
	MLPer100G  float64     `json:"ml_per_100g"`
	SDML       *float64    `json:"sd_ml_per_100g"`
	IntervalML *[2]float64 `json:"interval_95_ml_per_100g"`
}

// OutlierJSON is one outlier test.
type OutlierJSON struct {
	Test      string  `json:"test"`
	Suspect   int     `json:"suspect"`
	Statistic float64 `json:"statistic"`
	Critical  float64 `json:"critical"`
	Level     float64 `json:"level"`
	Rejected  bool    `json:"rejected"`
	Coarse    bool    `json:"says_nothing"`
}

// HintJSON is one piece of advice.
type HintJSON struct {
	About  string `json:"about"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

// RubOutGuideJSON says how to make the test.
type RubOutGuideJSON struct {
	PortionG    *float64   `json:"pigment_g"`
	PortionBy   string     `json:"pigment_by"`
	OilG        *RangeView `json:"oil_g"`
	OilML       *RangeView `json:"oil_ml"`
	ReadyG      *float64   `json:"oil_ready_g"`
	ReadyML     *float64   `json:"oil_ready_ml"`
	DropPer100G *float64   `json:"one_drop_g_per_100g"`
	Hints       []HintJSON `json:"hints"`
}

var rubOutVerdicts = map[formulate.RubOutVerdict]string{
	formulate.NoTest: "no test", formulate.OneTest: "one test", formulate.TwoAgree: "two agree", formulate.TwoDiffer: "two differ",
	formulate.MoreAgree: "all agree", formulate.OneLiesOut: "one lies out", formulate.MoreScatter: "they scatter",
}

var standings = map[formulate.Standing]string{formulate.Below: "below", formulate.Within: "within", formulate.Above: "above"}

var oilReads = map[formulate.OilRead]string{formulate.Weighed: "weighed", formulate.Measured: "measured", formulate.Counted: "counted"}

// RubOutView is the result in JSON.
func RubOutView(r *formulate.RubOutResult, cite Cite, explain bool) any {
	req := &r.Request
	v := RubOutJSON{
		Version: 1, Kind: "rubout", Oil: req.Oil.Material.ID, EndPoint: string(req.Method), Lot: req.Lot, Date: req.Date, Remark: req.Remark,
		Verdict: rubOutVerdicts[r.Verdict], Tests: []RubOutTestJSON{}, Allowed: float64(req.Allowed), Outliers: []OutlierJSON{},
		Suspect: r.Suspect(), Standing: standings[r.Standing], Guide: rubOutGuideView(&r.Guide),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(rubOutKeys(r), cite), Derivation: stepViews(r.Steps, explain),
	}
	if req.Pigment != nil {
		v.Pigment = req.Pigment.ID
	}
	for _, f := range r.Figures {
		v.Tests = append(v.Tests, RubOutTestJSON{float64(f.Pigment), float64(f.Dry), oilReads[f.Read], float64(f.OilMass), float64(f.OilPour), f.Drops,
			float64(f.ByMass), float64(f.ByVolume), float64(f.Reading)})
	}
	if len(r.Figures) > 0 {
		v.Mean = rubOutMeanView(&r.Mean)
	}
	if r.Without != nil {
		v.Without = rubOutMeanView(r.Without)
	}
	if r.Agreement != nil {
		spread := float64(r.Agreement.Spread)
		v.Spread = &spread
	}
	for _, o := range r.Outliers {
		v.Outliers = append(v.Outliers, OutlierJSON{o.Test, o.Index + 1, o.Statistic, o.Critical, float64(o.Alpha), o.Rejected, o.Coarse})
	}
	v.Foretold = viewOrNil(r.Foretold)
	return v
}

func rubOutMeanView(m *formulate.RubOutMean) *RubOutMeanJSON {
	v := &RubOutMeanJSON{Tests: m.Tests, GPer100G: float64(m.Mean), MLPer100G: float64(m.Volume)}
	if m.Tests > 1 {
		sd, sdVolume := float64(m.SD), float64(m.VolumeSD)
		v.SDG, v.SDML = &sd, &sdVolume
		v.IntervalG = &[2]float64{float64(m.Low), float64(m.High)}
		v.IntervalML = &[2]float64{float64(m.VolumeLow), float64(m.VolumeHigh)}
	}
	return v
}

func rubOutGuideView(g *formulate.RubOutGuide) RubOutGuideJSON {
	v := RubOutGuideJSON{PortionBy: g.PortionBy, Hints: hintViews(g.Hints)}
	if g.Portion > 0 {
		v.PortionG, v.DropPer100G = orNull(g.Portion), orNull(g.Drop)
	}
	if g.Ready > 0 {
		v.OilG = &RangeView{float64(g.OilLow), float64(g.OilTypical), float64(g.OilHigh)}
		v.OilML = &RangeView{float64(g.PourLow), float64(g.PourTypical), float64(g.PourHigh)}
		v.ReadyG, v.ReadyML = orNull(g.Ready), orNull(g.ReadyPour)
	}
	return v
}

func hintViews(list []formulate.Hint) []HintJSON {
	out := make([]HintJSON, len(list))
	for i, h := range list {
		out[i] = HintJSON(h)
	}
	return out
}

// orNull is a value that may be missing, in JSON.
func orNull[Q quantity.Real](v Q) *float64 {
	f := float64(v)
	return &f
}
