package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// CorrectSheet lays a correction out: the paste as it is, then the ways out.
func CorrectSheet(r *formulate.CorrectResult, cite Cite, explain bool) *Sheet {
	s := &Sheet{Title: correctTitle(r), Lead: correctLead(r)}
	s.Add(nowSection(r))
	s.Add(goalSection(r))
	if r.Wept != nil {
		s.Add(weptSection(r))
	}
	for _, x := range r.Reasons {
		s.Add(reasonSection(x))
	}
	for i := range r.Ways {
		sec := waySection(r, &r.Ways[i], cite)
		if len(r.Ways) > 1 {
			sec.Title = fmt.Sprintf("%d  %s", i+1, sec.Title)
		}
		s.Add(sec)
	}
	return s.finish(r.Warnings, r.Cautions, r.Steps, SourceKeys(correctMaterials(r)...), cite, explain)
}

func correctMaterials(r *formulate.CorrectResult) []*material.Material {
	var out []*material.Material
	p := &r.Request.Paste
	for i := range p.Pigments {
		out = append(out, p.Pigments[i].Material)
	}
	for i := range p.Extenders {
		out = append(out, p.Extenders[i].Material)
	}
	for i := range p.Oils {
		out = append(out, p.Oils[i].Material)
	}
	for i := range p.Waxes {
		out = append(out, p.Waxes[i].Material)
	}
	for i := range r.Ways {
		for _, d := range r.Ways[i].Doses {
			out = append(out, d.Material)
		}
	}
	return out
}

func correctTitle(r *formulate.CorrectResult) string {
	var powders, oils []string
	p := &r.Request.Paste
	for i := range p.Pigments {
		powders = append(powders, titleOf(p.Pigments[i].Material))
	}
	for i := range p.Oils {
		oils = append(oils, p.Oils[i].Material.Name)
	}
	return "Correction: " + strings.Join(powders, " + ") + " in " + strings.Join(oils, " + ")
}

func correctLead(r *formulate.CorrectResult) string {
	var lead string
	over := r.Over
	switch r.Direction {
	case formulate.OnTarget:
		lead = "It is where it should be: nothing to correct."
	case formulate.Otherwise:
		return "It thickened for another reason than too little oil. No oil is reckoned: it would not mend it."
	case formulate.TooOily:
		lead = "Too oily, by " + Range(over, 1, 2, "g") + " of oil."
	case formulate.TooDry:
		under := evidence.Range[quantity.Mass]{Low: -over.High, Typical: -over.Typical, High: -over.Low}
		lead = "Too dry, by " + Range(under, 1, 2, "g") + " of oil."
	}
	if over.Low < 0 && over.High > 0 {
		most := "too oily by " + Digits(float64(over.Typical), 2)
		if over.Typical < 0 {
			most = "too dry by " + Digits(-float64(over.Typical), 2)
		}
		lead = fmt.Sprintf("It may be right as it is. Most likely it is %s g of oil, but anything from %s g too little to %s g too much would not surprise: judge it on the slab first.",
			most, Digits(-float64(over.Low), 2), Digits(float64(over.High), 2))
	}
	return lead + " " + spreadText(r.Request.Paste.Sampling, "jars")
}

// consistency says in words how much oil a paste holds beside tube colour.
func consistency(c evidence.Range[quantity.Ratio]) string {
	mid := formulate.Consistency(c.Typical)
	lo, hi := formulate.Consistency(c.Low), formulate.Consistency(c.High)
	if lo == hi {
		return mid
	}
	return mid + " (from " + lo + " to " + hi + ")"
}

func nowSection(r *formulate.CorrectResult) Section {
	now := &r.Now
	note := ""
	if r.Request.Paste.Moisture > 0 {
		note = "· dry; " + Range(now.VolatileMass, 1, 3, "g") + " of water with it"
	}
	return Section{Title: "On the slab now", Fields: []Field{
		RangeField("powder", now.PigmentMass, 1, 3, "g", note),
		RangeField("oil", r.Oil, 1, 3, "g", ""),
		RangeField("paste", now.Mass, 1, 3, "g", "· "+Range(now.Volume, 1, 3, "ml")),
		RangeField("oil per 100 g of powder", now.OilPerPigment, 1, 3, "g", ""),
		RangeField("of the paste, by mass", now.BinderByMass, 100, 3, "%", ""),
		RangeField("of the paste, by volume", now.BinderByVolume, 100, 3, "%", ""),
		RangeField("pigment volume (PVC)", now.PVC, 100, 3, "%", "· critical at "+Range(now.CPVC, 100, 2, "%")),
		{Label: "for its oil it should be", Text: consistency(r.Consistency)},
	}}
}

func goalSection(r *formulate.CorrectResult) Section {
	if r.Direction == formulate.Otherwise {
		return Section{}
	}
	sec := Section{Title: "Where it should be", Fields: []Field{
		{Label: "goal", Text: goalText(r)},
		RangeField("oil for this powder", r.Wanted, 1, 3, "g", ""),
	}}
	if feel := r.Request.Paste.Target.Body.Feel; feel != "" && r.Request.Goal == formulate.ToTarget {
		sec.Fields = append(sec.Fields, Field{Label: "it then", Text: feel})
	}
	return sec
}

func goalText(r *formulate.CorrectResult) string {
	switch r.Request.Goal {
	case formulate.ToFormula:
		return "the proportions of the formula"
	}
	return targetText(r.Request.Paste.Target)
}

func weptSection(r *formulate.CorrectResult) Section {
	w := r.Wept
	sec := Section{Title: "Oil that ran out", Fields: []Field{
		{Label: "lost", Text: Given(w.Oil) + " g", Note: "· " + Range(w.Share, 100, 2, "%") + " of the oil there was", Value: &Value{float64(w.Oil), float64(w.Oil), float64(w.Oil), "g"}},
		RangeField("PVC before", w.Before.PVC, 100, 3, "%", "· now "+Range(r.Now.PVC, 100, 3, "%")),
	}}
	if r.Direction == formulate.Otherwise {
		return sec
	}
	sec.Fields = append(sec.Fields, Field{Label: "it held before", Text: tooMuch(w.Over), Note: "· by the goal", Value: Numbers(w.Over, 1, "g")})
	back := Digits(float64(w.Back), 2) + " g of it"
	if w.Back == w.Oil {
		back = "the same oil"
	}
	line := "It held no more oil than the goal asks for: stir " + back + " back in. Grains heavier than oil let some of it go on standing; that is no fault of the paint."
	const rich = "It held more oil than the goal asks for, and a paste too rich in oil lets it go (common practice)"
	switch {
	case w.TooMuch() && r.Over.High < 0:
		line = rich + ", but more ran out than was too much: stir " + back + " back in and leave the rest off."
	case w.TooMuch() && r.Over.Low <= 0:
		line = rich + ": pour that oil off. The paste may be right as it is now: judge it before anything goes in."
	case w.TooMuch():
		line = rich + ": pour that oil off. The paste is still too oily by " + Range(r.Over, 1, 2, "g") + "."
	case w.Over.Typical > 0 && w.Back == 0:
		line = "It may have held more oil than the goal asks for: leave that oil off and judge the paste as it is."
	case w.Over.Typical > 0 && w.Back < w.Oil:
		line = "It may have held more oil than the goal asks for: stir " + back + " back in, by drops, and judge the paste."
	}
	sec.Lines = []string{line}
	return sec
}

// tooMuch says how far from the goal an amount of oil is, which may lie on both
// sides of it.
func tooMuch(over evidence.Range[quantity.Mass]) string {
	side := func(m quantity.Mass) string {
		if m < 0 {
			return Digits(-float64(m), 2) + " g too little"
		}
		return Digits(float64(m), 2) + " g too much"
	}
	switch {
	case over.Low == 0 && over.High == 0:
		return "as much as it should"
	case over.Low >= 0:
		return Range(over, 1, 2, "g") + " too much"
	case over.High <= 0:
		return Range(evidence.Range[quantity.Mass]{Low: -over.High, Typical: -over.Typical, High: -over.Low}, 1, 2, "g") + " too little"
	}
	return side(over.Typical) + " (from " + side(over.Low) + " to " + side(over.High) + ")"
}

func reasonSection(x formulate.Reason) Section {
	sec := Section{Title: upperFirst(x.Name), Fields: []Field{{Label: "told by", Text: x.Tell}, {Label: "do", Text: x.Do}}}
	if len(x.Of) > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "known of", Text: strings.Join(x.Of, ", ")})
	}
	sec.Fields = append(sec.Fields, Field{Label: "source", Text: x.Source})
	return sec
}

var wayTitles = map[formulate.WayKind]string{
	formulate.AddPowder:   "Add powder",
	formulate.AddThenDraw: "Add all there is, then draw oil out on paper",
	formulate.DrawOil:     "Draw oil out on paper",
	formulate.AddExtender: "Add an extender",
	formulate.AddWax:      "Work in a little wax",
	formulate.KeepForNext: "Keep it for the next batch",
	formulate.UpperLayer:  "Use it as it is, higher up",
	formulate.AddOil:      "Add oil",
}

func waySection(r *formulate.CorrectResult, w *formulate.Way, cite Cite) Section {
	sec := Section{Title: wayTitles[w.Kind]}
	add := func(f ...Field) { sec.Fields = append(sec.Fields, f...) }
	switch {
	case w.Kind == formulate.AddWax && w.After != nil:
		add(Field{Label: "only so far", Text: w.Why})
	case !w.Reaches && w.Why != "":
		add(Field{Label: "falls short", Text: w.Why})
	}
	switch w.Kind {
	case formulate.DrawOil:
		add(RangeField("oil to lose", w.Total, 1, 2, "g", ""))
		add(weighField(r, w))
	case formulate.AddThenDraw:
		for _, d := range w.Doses {
			add(RangeField(d.Material.ID, d.Mass, 1, 2, "g", doseNote(r, d)))
		}
		add(Field{Label: "it would take", Text: Range(w.Need, 1, 2, "g"), Note: "· of powder alone, and there are " + Given(r.Request.Have) + " g", Value: Numbers(w.Need, 1, "g")})
		add(RangeField("oil to lose then", w.StillOver, 1, 2, "g", ""))
		add(weighField(r, w))
	case formulate.AddWax:
		if w.After != nil {
			add(Field{Label: w.Doses[0].Material.ID, Text: fromTo(w.Total.Low, w.Total.High),
				Note:  "· published use is " + roughUse(w.UseLevel) + " of the paste (" + citeAll(w.UseSource, cite) + ")",
				Value: Numbers(w.Total, 1, "g")})
		}
	case formulate.KeepForNext:
		n := w.Next
		add(RangeField("powder alone, at least", n.Least, 1, 2, "g", "· takes the paste up with no oil poured"),
			RangeField(Digits(float64(n.Powder), 3)+" g of powder: pour", n.Pour, 1, 2, "g", "· instead of "+Range(n.FullOil, 1, 2, "g")))
	case formulate.UpperLayer:
		sec.Lines = append(sec.Lines, "Fat paint belongs over leaner: keep it for the upper layers, or thin it into a glaze. Write it down with --save-paste FILE.toml: 'mullwright thin FILE.toml' makes a glaze of it, and a painting for 'mullwright layers' may name it as a formula.")
	default:
		for _, d := range w.Doses {
			add(RangeField(d.Material.ID, d.Mass, 1, 2, "g", doseNote(r, d)))
		}
	}
	add(stepFields(r, w)...)
	add(outcomeFields(r, w)...)
	if w.Kind == formulate.AddThenDraw {
		if w.Total.Low < w.Total.Typical {
			sec.Lines = append(sec.Lines, "Add it in two or three goes and judge between: now and then less will do.")
		}
		sec.Lines = append(sec.Lines, "Instead of drawing it out, keep the paste for the next batch: "+Range(w.Lacking, 1, 2, "g")+" of powder more takes it up.")
	}
	if draws(w) {
		for _, c := range r.Cautions {
			if c.About == formulate.OilyRags {
				sec.Lines = append(sec.Lines, "FIRE: that paper is now an oily rag. "+c.Text)
			}
		}
	}
	if w.Kind == formulate.AddExtender && w.After != nil {
		sec.Lines = append(sec.Lines, "Tinting strength is taken to follow the coloured powder in a gram of paste (common practice).")
	}
	return sec
}

// draws reports whether a way takes oil out of the paste.
func draws(w *formulate.Way) bool {
	return w.Kind == formulate.DrawOil || w.Kind == formulate.AddThenDraw
}

// weighField is the paste on the balance before and after oil is drawn out.
func weighField(r *formulate.CorrectResult, w *formulate.Way) Field {
	scale := r.Request.Paste.Scale
	return Field{Label: "weigh in and out", Text: OnScale(w.WeighIn, scale) + " → " + OnScale(w.WeighOut, scale),
		Note: "· the paste alone; or weigh the paper dry, and stop when it has gained the oil"}
}

// moreField is how much more paste a way makes, in tubes as well from half of
// one.
func moreField(r *formulate.CorrectResult, w *formulate.Way) Field {
	note := ""
	if r.Request.Tube > 0 && w.Tubes.Typical >= 0.5 {
		note = "· " + Digits(float64(w.Tubes.Typical), 2) + " of your tubes of " + Given(r.Request.Tube) + " ml, " + roughly(r.Request.Fill) + " full"
	}
	return RangeField("more paste", w.More, 1, 2, "ml", note)
}

// fromTo is an amount from one to another.
func fromTo(low, high quantity.Mass) string {
	if low <= 0 {
		return "up to " + Digits(float64(high), 2) + " g"
	}
	return Digits(float64(low), 2) + "–" + Digits(float64(high), 2) + " g"
}

func roughUse(u evidence.Range[quantity.MassFraction]) string {
	if u.Low == u.High {
		return percent(u.High)
	}
	return Given(float64(u.Low)*100) + "–" + percent(u.High)
}

func citeAll(keys []string, cite Cite) string {
	var out []string
	for _, k := range keys {
		out = append(out, ShortCite(cite(k)))
	}
	return strings.Join(out, "; ")
}

func doseNote(r *formulate.CorrectResult, d formulate.Dose) string {
	if r.Request.Paste.Moisture > 0 && d.Role == formulate.Pigment {
		return "· damp, as it is"
	}
	return ""
}

// stepFields says how to go there without going too far.
func stepFields(r *formulate.CorrectResult, w *formulate.Way) []Field {
	p := w.Pours
	if p == nil || r.Request.Paste.Sampling.Exact || p.Step <= 0 {
		return nil
	}
	scale := r.Request.Paste.Scale
	verb, by := "first add", "then add by"
	if draws(w) {
		verb, by = "first draw", "then draw by"
	}
	var out []Field
	if p.First > 0 {
		out = append(out, Field{Label: verb, Text: OnScale(p.First, scale), Note: "· " + Chance(p.FirstOver) + " that this is too much already", Value: one(p.First)})
	}
	step := Field{Label: by, Text: OnScale(p.Step, scale), Note: "· work it in fully and judge", Value: one(p.Step)}
	if p.First <= 0 {
		step.Label = strings.TrimPrefix(by, "then ")
	}
	if p.StepDrops > 0 {
		step.Text, step.Note = dropsText(p)
	}
	return append(out, step, Field{Label: "stop at", Text: OnScale(p.Most, scale), Note: "· 19 pastes in 20 need no more", Value: one(p.Most)})
}

// outcomeFields says what the way makes of the paste and what it costs.
func outcomeFields(r *formulate.CorrectResult, w *formulate.Way) []Field {
	var out []Field
	if a := w.After; a != nil {
		out = append(out,
			RangeField("paste then", a.Mass, 1, 3, "g", "· "+Range(a.Volume, 1, 3, "ml")+", "+Range(a.Density, 1, 3, "g/ml")),
			RangeField("PVC then", a.PVC, 100, 3, "%", "· now "+Range(r.Now.PVC, 100, 3, "%")))
		if w.Kind == formulate.AddExtender {
			out = append(out, RangeField("share of the powder", w.Share, 100, 2, "%", ""))
		}
		if w.Kind == formulate.AddPowder || w.Kind == formulate.AddThenDraw || w.Kind == formulate.AddExtender {
			out = append(out, RangeField("colour in a gram", w.Colour, 100, 3, "%", "· of what it is now"))
		}
	}
	switch w.Kind {
	case formulate.AddPowder, formulate.AddThenDraw, formulate.AddExtender, formulate.AddOil:
		if w.More.Typical > 0 {
			out = append(out, moreField(r, w))
		}
	}
	if w.Cost.Typical > 0 {
		label := "cost"
		if w.Kind == formulate.DrawOil {
			label = "oil thrown away"
		}
		out = append(out, RangeField(label, w.Cost, 1, 3, "", "· in your money, of what has a price"))
	}
	return out
}

// CorrectJSONVersion is the version of the correction's JSON contract.
const CorrectJSONVersion = 1

// CorrectJSON is the correction's JSON contract. Masses are g, volumes ml,
// fractions 0 to 1; percents say percent.
type CorrectJSON struct {
	Version     int           `json:"version"`
	Kind        string        `json:"kind"`
	Draws       string        `json:"answer"`
	Direction   string        `json:"direction"`
	ChanceOily  float64       `json:"chance_too_oily"`
	Goal        string        `json:"goal"`
	Target      TargetJSON    `json:"target"`
	OilG        RangeView     `json:"oil_g"`
	WantedG     RangeView     `json:"oil_wanted_g"`
	OverG       RangeView     `json:"oil_over_g"`
	Consistency string        `json:"consistency"`
	OilOverTube RangeView     `json:"oil_over_tube_colour"`
	Now         FiguresJSON   `json:"now"`
	Wept        *WeptJSON     `json:"wept"`
	Reasons     []ReasonJSON  `json:"other_reasons"`
	Ways        []WayJSON     `json:"ways"`
	Warnings    []string      `json:"warnings"`
	Cautions    []CautionView `json:"cautions"`
	Sources     []SourceView  `json:"sources"`
	Derivation  []StepView    `json:"derivation,omitempty"`
}

// FiguresJSON are the figures of a paste.
type FiguresJSON struct {
	MassG            RangeView `json:"mass_g"`
	VolumeML         RangeView `json:"volume_ml"`
	PowderG          RangeView `json:"powder_g"`
	PVC              RangeView `json:"pvc"`
	CPVC             RangeView `json:"cpvc"`
	ReducedPVC       RangeView `json:"reduced_pvc"`
	OilPer100        RangeView `json:"oil_g_per_100g_pigment"`
	OilMassPercent   RangeView `json:"oil_mass_percent"`
	OilVolumePercent RangeView `json:"oil_volume_percent"`
	Density          RangeView `json:"density_g_per_ml"`
}

func figuresView(f *formulate.FigureRanges) FiguresJSON {
	return FiguresJSON{
		MassG: rangeView(f.Mass, 1), VolumeML: rangeView(f.Volume, 1), PowderG: rangeView(f.PigmentMass, 1),
		PVC: rangeView(f.PVC, 1), CPVC: rangeView(f.CPVC, 1), ReducedPVC: rangeView(f.ReducedPVC, 1),
		OilPer100: rangeView(f.OilPerPigment, 1), OilMassPercent: rangeView(f.BinderByMass, 100), OilVolumePercent: rangeView(f.BinderByVolume, 100),
		Density: rangeView(f.Density, 1),
	}
}

// WeptJSON is oil that ran out.
type WeptJSON struct {
	OilG   float64     `json:"oil_g"`
	Share  RangeView   `json:"share_of_oil"`
	Before FiguresJSON `json:"before"`
	OverG  RangeView   `json:"oil_over_before_g"`
	BackG  float64     `json:"oil_to_stir_back_g"`
}

// ReasonJSON is another reason for a thickened paste.
type ReasonJSON struct {
	Name      string   `json:"name"`
	Tell      string   `json:"told_by"`
	Do        string   `json:"do"`
	Materials []string `json:"materials"`
	Source    string   `json:"source"`
}

// WayJSON is one way out.
type WayJSON struct {
	Rank         int          `json:"rank"`
	Way          string       `json:"way"`
	Reaches      bool         `json:"reaches_goal"`
	Why          string       `json:"why_not"`
	TotalG       RangeView    `json:"total_g"`
	Doses        []DoseJSON   `json:"doses"`
	FirstG       float64      `json:"first_g"`
	FirstOver    float64      `json:"first_chance_over"`
	StepG        float64      `json:"step_g"`
	StepDrops    int          `json:"step_drops"`
	MostG        float64      `json:"most_g"`
	NeedG        RangeView    `json:"powder_needed_g"`
	LackingG     RangeView    `json:"powder_lacking_g"`
	StillOverG   RangeView    `json:"oil_still_over_g"`
	WeighInG     float64      `json:"weigh_in_g"`
	WeighOutG    float64      `json:"weigh_out_g"`
	Share        RangeView    `json:"share"`
	UseLevel     *RangeView   `json:"published_use_level"`
	Colour       RangeView    `json:"colour_over_now"`
	MoreML       RangeView    `json:"more_ml"`
	Tubes        RangeView    `json:"more_tubes"`
	Cost         RangeView    `json:"cost"`
	NextLeastG   *RangeView   `json:"next_least_powder_g"`
	NextPowderG  float64      `json:"next_powder_g"`
	NextPourG    *RangeView   `json:"next_pour_g"`
	NextFullOilG *RangeView   `json:"next_full_oil_g"`
	After        *FiguresJSON `json:"after"`
}

// DoseJSON is one material of a way.
type DoseJSON struct {
	ID     string    `json:"id"`
	MassG  RangeView `json:"mass_g"`
	WeighG float64   `json:"weigh_g"`
}

var wayNames = map[formulate.WayKind]string{
	formulate.AddPowder: "add_powder", formulate.AddThenDraw: "add_powder_then_draw", formulate.DrawOil: "draw_oil", formulate.AddExtender: "add_extender", formulate.AddWax: "add_wax",
	formulate.KeepForNext: "keep_for_next", formulate.UpperLayer: "upper_layer", formulate.AddOil: "add_oil",
}

var directionNames = map[formulate.Direction]string{
	formulate.OnTarget: "on_target", formulate.TooOily: "too_oily", formulate.TooDry: "too_dry", formulate.Otherwise: "thickened_otherwise",
}

// CorrectView is the JSON view of a correction.
func CorrectView(r *formulate.CorrectResult, cite Cite, explain bool) CorrectJSON {
	v := CorrectJSON{
		Version: CorrectJSONVersion, Kind: "correct", Draws: answerKind(r.Request.Paste.Sampling),
		Direction: directionNames[r.Direction], ChanceOily: float64(r.TooOily), Goal: goalText(r), Target: targetView(r.Request.Paste.Target),
		OilG: rangeView(r.Oil, 1), WantedG: rangeView(r.Wanted, 1), OverG: rangeView(r.Over, 1),
		Consistency: formulate.Consistency(r.Consistency.Typical), OilOverTube: rangeView(r.Consistency, 1),
		Now: figuresView(&r.Now), Reasons: []ReasonJSON{}, Ways: []WayJSON{},
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(SourceKeys(correctMaterials(r)...), cite), Derivation: stepViews(r.Steps, explain),
	}
	if w := r.Wept; w != nil {
		v.Wept = &WeptJSON{float64(w.Oil), rangeView(w.Share, 1), figuresView(&w.Before), rangeView(w.Over, 1), float64(w.Back)}
	}
	for _, x := range r.Reasons {
		v.Reasons = append(v.Reasons, ReasonJSON{x.Name, x.Tell, x.Do, orEmpty(x.Of), x.Source})
	}
	for i := range r.Ways {
		v.Ways = append(v.Ways, wayView(&r.Ways[i], i+1))
	}
	return v
}

func wayView(w *formulate.Way, rank int) WayJSON {
	j := WayJSON{
		Rank: rank, Way: wayNames[w.Kind], Reaches: w.Reaches, Why: w.Why, TotalG: rangeView(w.Total, 1), Doses: []DoseJSON{},
		NeedG: rangeView(w.Need, 1), LackingG: rangeView(w.Lacking, 1), StillOverG: rangeView(w.StillOver, 1), WeighInG: float64(w.WeighIn), WeighOutG: float64(w.WeighOut),
		Share: rangeView(w.Share, 1), Colour: rangeView(w.Colour, 1), MoreML: rangeView(w.More, 1), Tubes: rangeView(w.Tubes, 1), Cost: rangeView(w.Cost, 1),
	}
	for _, d := range w.Doses {
		j.Doses = append(j.Doses, DoseJSON{d.Material.ID, rangeView(d.Mass, 1), float64(d.OnScale)})
	}
	if p := w.Pours; p != nil {
		j.FirstG, j.FirstOver, j.StepG, j.StepDrops, j.MostG = float64(p.First), float64(p.FirstOver), float64(p.Step), p.StepDrops, float64(p.Most)
	}
	if w.UseLevel.High > 0 {
		u := rangeView(w.UseLevel, 1)
		j.UseLevel = &u
	}
	if n := w.Next; n != nil {
		least, pour, full := rangeView(n.Least, 1), rangeView(n.Pour, 1), rangeView(n.FullOil, 1)
		j.NextLeastG, j.NextPourG, j.NextFullOilG, j.NextPowderG = &least, &pour, &full, float64(n.Powder)
	}
	if w.After != nil {
		f := figuresView(w.After)
		j.After = &f
	}
	return j
}
