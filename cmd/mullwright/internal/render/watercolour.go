package render

import (
	"fmt"
	"math"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// WatercolourSheet lays a watercolour out as a weighing card.
func WatercolourSheet(r *formulate.WatercolourResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	s := &Sheet{Title: "Watercolour card: " + pigmentNames(req.Pigments) + " in " + gumName(req.Solution), Lead: watercolourLead(r)}
	if r.Remedy != nil {
		s.Add(RemedySection(r.Remedy, req.Scale)) // what was asked comes first
	}
	s.Add(gumWeighSection(r))
	s.Add(bindSection(r))
	s.Add(gumYieldSection(r))
	s.Add(compositionSection(r.Composition))
	s.Add(humectantSection(r.Humectant, r.HumectantOfBinder, r.Published, req.Air, cite))
	s.Add(gumLeanSection(r.Figures))
	s.Add(doseSection(r.Doses, cite))
	s.Add(gumNextSection(r))
	s.Add(markedLines("Assumed, not known", r.Hypotheses))
	return s.finish(r.Warnings, r.Cautions, r.Steps, watercolourSources(r), cite, explain)
}

func pigmentNames(list []formulate.Share) string {
	var names []string
	for i := range list {
		names = append(names, titleOf(list[i].Material))
	}
	return strings.Join(names, " + ")
}

// gumName names the gum or resin in a liquid.
func gumName(l formulate.Liquid) string {
	var names []string
	for i := range l.Parts {
		if l.Parts[i].Role() == formulate.Binder {
			names = append(names, strings.ToLower(l.Parts[i].Material.Name))
		}
	}
	return strings.Join(names, " and ")
}

func watercolourLead(r *formulate.WatercolourResult) string {
	req := &r.Request
	var amount string
	switch {
	case req.Pans != nil:
		amount = fmt.Sprintf("%d %s of %s ml, dry paint to %s of each", req.Pans.Count, plural(req.Pans.Name, req.Pans.Count), Given(req.Pans.Brim), percent(req.Pans.Fill))
	default:
		amount = amountText(req.Amount, "wet paint")
	}
	body := req.Body.Name
	if body == "" {
		body = "at a body of " + Digits(float64(req.Body.Typical), 2)
	}
	lead := "For " + amount + "; " + body + " while wet. " + spreadText(req.Sampling, "batches")
	if r.Cake != nil {
		lead += "\n" + cakeText(r.Cake)
	}
	return lead
}

// cakeText says what was changed so that wet pigment could be used as it is.
func cakeText(c *formulate.WetCake) string {
	takes := Digits(float64(c.Room), 2) + " g"
	if c.Room <= 0 {
		takes = "none"
	}
	var changed []string
	if c.Powder {
		changed = append(changed, "the gum goes in as powder")
	}
	if c.Body > 0 {
		was := c.Asked.Name
		if was == "" {
			was = Given(c.Asked.Typical)
		}
		changed = append(changed, fmt.Sprintf("the paint is a little thinner than %s, a body of %s", was, Digits(float64(c.Body), 2)))
	}
	text := fmt.Sprintf("The pigment brings %s g of water and the recipe as asked takes %s, so %s.", Digits(float64(c.Brings), 2), takes, strings.Join(changed, " and "))
	if dry := math.Floor(100 * float64(c.Dry)); dry >= 1 {
		return text + fmt.Sprintf(" For the recipe as asked dry the pigment to %g %% moisture.", dry)
	}
	return text + " For the recipe as asked dry the pigment."
}

// pigmentFields are the pigments of a paint in gum to weigh, and the water that
// damp ones bring.
func pigmentFields(list []formulate.GumWeigh, cakeWater, scale quantity.Mass) []Field {
	var out []Field
	for _, w := range list {
		var notes []string
		if len(list) > 1 {
			notes = append(notes, roughly(w.Share)+" of the pigment")
		}
		if cakeWater > 0 {
			notes = append(notes, "damp, as it is")
		}
		if w.Bulk != nil {
			notes = append(notes, fmt.Sprintf("a level 5 ml spoon: %s g, %s", Digits(float64(w.Bulk.Teaspoon()), 2), w.Bulk.Basis))
		}
		out = append(out, Field{Label: titleOf(w.Material), Text: OnScale(w.OnScale, scale), Note: noteLine(notes), Value: Numbers(w.Mass, 1, "g")})
	}
	if cakeWater > 0 {
		out = append(out, Field{Label: "– water in it", Text: Digits(float64(cakeWater), 3) + " g", Note: "· taken off the water to add", Value: one(cakeWater)})
	}
	return out
}

// weighedMaterials lists the materials of what is weighed.
func weighedMaterials(lists ...[]formulate.GumWeigh) []*material.Material {
	var out []*material.Material
	for _, list := range lists {
		for _, w := range list {
			out = append(out, w.Material)
		}
	}
	return out
}

// doseKeys are the sources of doses and of what a made-up medium holds.
func doseKeys(doses []formulate.GumDose, medium *material.Material) []string {
	var keys []string
	for _, d := range doses {
		if d.Source != "" {
			keys = append(keys, d.Source)
		}
	}
	if medium != nil {
		for _, p := range medium.Parts {
			if p.Source != "" {
				keys = append(keys, p.Source)
			}
		}
	}
	return keys
}

func gumWeighSection(r *formulate.WatercolourResult) Section {
	req := &r.Request
	sec := Section{Title: "Weigh"}
	scaled := func(m quantity.Mass) string { return OnScale(m, req.Scale) }
	sec.Fields = append(sec.Fields, pigmentFields(r.Pigments, r.CakeWater, req.Scale)...)
	b := &r.Binder
	binder := "binder, mixed first"
	dry := len(req.Solution.Parts) == 1
	if dry {
		binder = "binder, gum in powder"
	}
	sec.Fields = append(sec.Fields, Field{Label: binder, Text: scaled(b.Typical), Note: "· " + rangeNote(r.BinderMass, "g"), Value: Numbers(r.BinderMass, 1, "g")})
	solution := Field{Label: "– " + req.Solution.Material.Name, Text: scaled(b.Solution), Value: one(b.Solution)}
	if b.Water > 0 && len(req.Solution.Parts) == 2 {
		solution.Note = fmt.Sprintf("· or gum %s and water %s", scaled(b.Gum), scaled(b.Water))
	}
	if dry {
		solution.Note = "· stirred in dry"
	}
	sec.Fields = append(sec.Fields, solution)
	for _, h := range r.Humectants {
		sec.Fields = append(sec.Fields, Field{Label: "– " + h.Material.Name, Text: scaled(h.OnScale), Note: "· " + Digits(float64(h.Ratio), 2) + " of the gum", Value: one(h.OnScale)})
	}
	for _, a := range r.Additives {
		sec.Fields = append(sec.Fields, Field{Label: a.Material.Name, Text: scaled(a.OnScale), Note: "· " + percent(a.Share) + " of the paint", Value: Numbers(a.Mass, 1, "g")})
	}
	water := Field{Label: "distilled water", Text: Range(r.Water, 1, 2, "g"), Note: "· grind the pigment in it first, hold some back", Value: Numbers(r.Water, 1, "g")}
	if r.Water.Typical == 0 {
		brings := "the binder brings"
		switch {
		case r.CakeWater > 0 && dry:
			brings = "the pigment brings"
		case r.CakeWater > 0:
			brings = "pigment and binder bring"
		}
		water.Text, water.Note = "none", "· "+brings+" enough; a few drops to wet the pigment do no harm"
		if r.Water.High > 0 {
			water.Note = fmt.Sprintf("· %s enough; if it takes little binder, up to %s g", brings, Digits(float64(r.Water.High), 2))
		}
	}
	sec.Fields = append(sec.Fields, water)
	return sec
}

func bindSection(r *formulate.WatercolourResult) Section {
	b := &r.Binder
	scaled := func(m quantity.Mass) string { return OnScale(m, r.Request.Scale) }
	sec := Section{Title: "Bind by steps"}
	if len(b.Totals) == 0 {
		sec.Fields = append(sec.Fields, Field{Label: "binder", Text: scaled(b.Typical), Note: "· hold some back, then the rub and wash test", Value: one(b.Typical)})
		return sec
	}
	var totals []string
	for _, t := range b.Totals[1:] {
		totals = append(totals, strings.TrimSuffix(scaled(t), " g"))
	}
	sec.Fields = append(sec.Fields,
		Field{Label: "1  begin with", Text: scaled(b.First), Note: "· about 1 in 10 that this is enough", Value: one(b.First)},
		Field{Label: "2  then, in all", Text: strings.Join(totals, ", ") + " g", Note: "· after each: paint out, dry, rub; stop when nothing comes off"},
		Field{Label: "3  stop at", Text: scaled(b.Most), Note: "· past this look for shine: too much gum is patchy, shiny, cracks", Value: one(b.Most)},
	)
	return sec
}

// rangeNote says the range behind a number that is shown rounded beside it.
func rangeNote[Q quantity.Real](r evidence.Range[Q], unit string) string {
	if r.Low == r.High {
		return "hold a little back"
	}
	return fmt.Sprintf("between %s and %s %s, by the steps below", Digits(float64(r.Low), 2), Digits(float64(r.High), 2), unit)
}

func gumYieldSection(r *formulate.WatercolourResult) Section {
	sec := Section{Title: "What you get", Fields: []Field{
		RangeField("wet paint", r.Yield.Volume, 1, 3, "ml", ""),
		RangeField("", r.Yield.Mass, 1, 3, "g", ""),
		RangeField("of it, water that leaves", r.Figures.VolatileMass, 1, 3, "g", "· before losses on the slab"),
		RangeField("shrinks by", r.Shrinkage, 100, 2, "%", "of its volume as the water leaves"),
	}}
	if l := r.Request.Loss; l > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "lost on the slab", Text: percent(l), Note: "of what is made, taken off"})
	}
	for _, p := range r.Pans {
		note := fmt.Sprintf("· dry paint to %s of %s ml", percent(p.Asked.Fill), Given(p.Asked.Brim))
		if r.Request.Pans != nil {
			note = fmt.Sprintf("· for the %d asked", p.Asked.Count)
		}
		sec.Fields = append(sec.Fields, RangeField(plural(p.Asked.Name, 2), p.Count, 1, 2, "", note))
		if r.Request.Pans == nil {
			continue
		}
		pours := fmt.Sprintf("· none over %s of the pan, each dried through before the next", percent(p.Asked.Deepest))
		if p.AtHalf > 0 && p.AtHalf < len(p.Pours) {
			pours += fmt.Sprintf("; --pour 50%% needs %d", p.AtHalf)
		}
		sec.Fields = append(sec.Fields, Field{Label: "pours into each", Text: poursText(p), Note: pours})
	}
	if t := r.Tubes; t != nil {
		sec.Fields = append(sec.Fields, RangeField(fmt.Sprintf("tubes of %s ml", Digits(float64(t.Size), 3)), t.Count, 1, 2, "", fmt.Sprintf("for the %d asked, %s full", t.Asked, percent(t.Fill))))
	}
	if m := r.Mulls; m != nil {
		sec.Fields = append(sec.Fields, mullsField(m))
	}
	if r.Figures.Cost.Typical > 0 {
		sec.Fields = append(sec.Fields, RangeField("cost", r.Figures.Cost, 1, 3, "", "in your money, of what has a price"))
	}
	return sec
}

// poursText says the pours into a pan: "6 of 0.61 ml", or first and last where
// they differ.
func poursText(p formulate.PansFilled) string {
	first, last := p.Pours[0], p.Pours[len(p.Pours)-1]
	a, z := Digits(float64(first.Wet), 2), Digits(float64(last.Wet), 2)
	grams := Digits(float64(p.PourFor[0]), 2) + " g"
	if a == z {
		return fmt.Sprintf("%d of %s ml (%s)", len(p.Pours), a, grams)
	}
	return fmt.Sprintf("%d, from %s ml (%s) down to %s ml", len(p.Pours), a, grams, z)
}

// compositionSection lists the components wet and dry.
func compositionSection(list []formulate.PaintLine) Section {
	t := &Table{Columns: []Column{{Title: "at the typical values"}, {Title: "g", Right: true}, {Title: "ml", Right: true},
		{Title: "% by mass", Right: true}, {Title: "% by volume", Right: true}, {Title: "% of dry volume", Right: true}}}
	places := 2
	var mass quantity.Mass
	for _, l := range list {
		mass += l.Mass
	}
	if mass > 1000 {
		places = 0
	} else if mass > 100 {
		places = 1
	}
	for _, l := range list {
		dry := ""
		if l.DryVol > 0 {
			dry = Places(100*float64(l.DryVol), 1)
		}
		name := l.ID
		if l.Role == formulate.Binder || l.Role == formulate.Additive {
			name += ", dry"
		}
		t.Rows = append(t.Rows, []string{name, Places(float64(l.Mass), places), Places(float64(l.Vol), places), Places(100*float64(l.WetMass), 1), Places(100*float64(l.WetVol), 1), dry})
	}
	return Section{Title: "Wet and dry", Table: t}
}

func humectantSection(h quantity.Ratio, ofBinder quantity.MassFraction, published []evidence.Reading[quantity.Ratio], air gum.Air, cite Cite) Section {
	sec := Section{Title: "Humectant"}
	var seen []string
	for _, p := range published {
		seen = append(seen, Digits(float64(p.Middle()), 2))
	}
	sec.Fields = append(sec.Fields,
		Field{Label: "humectant to gum", Text: Digits(float64(h), 2), Note: "· by mass, as weighed", Value: single(h, "")},
		Field{Label: "published recipes", Text: strings.Join(seen, "  "), Note: "· no sourced limit for cracking or stickiness is known"},
		Field{Label: "of the dry binder", Text: roughly(ofBinder), Note: "· by mass", Value: single(100*ofBinder, "%")},
	)
	if air != "" {
		sec.Fields = append(sec.Fields, Field{Label: "air", Text: string(air), Note: "· dry air asks for more, damp air for less"})
	}
	return sec
}

func gumLeanSection(f formulate.FigureRanges) Section {
	return Section{Title: "How lean it is", Fields: []Field{
		RangeField("pigment volume (PVC)", f.PVC, 100, 2, "%", "of the dry film"),
		RangeField("critical PVC for oil", f.CPVC, 100, 2, "%", "for comparison: gum may lie above it"),
		RangeField("density, wet", f.Density, 1, 3, "g/ml", ""),
	}}
}

func doseSection(list []formulate.GumDose, cite Cite) Section {
	sec := Section{Title: "Doses"}
	for _, d := range list {
		note := "· no published use known: follow its maker's sheet"
		switch {
		case d.High > 0 && d.Low == 0:
			note = fmt.Sprintf("· published use up to %s (%s)", percent(d.High), ShortCite(cite(d.Source)))
		case d.High > 0:
			note = fmt.Sprintf("· published use %s to %s (%s)", Given(100*d.Low), percent(d.High), ShortCite(cite(d.Source)))
		}
		sec.Fields = append(sec.Fields, Field{Label: d.Material.Name, Text: percent(d.Share), Note: note, Value: single(100*d.Share, "%")})
	}
	return sec
}

// RemedySection says the one step for a symptom.
func RemedySection(r *formulate.GumRemedy, scale quantity.Mass) Section {
	seen := string(r.Symptom)
	for _, s := range formulate.Symptoms() {
		if s.ID == seen {
			seen = s.Text
		}
	}
	sec := Section{Title: "Mend: " + seen}
	sec.Fields = append(sec.Fields, Field{Label: "cause", Text: r.Cause})
	switch {
	case r.Discard:
		sec.Fields = append(sec.Fields, Field{Label: "this batch", Text: "throw it away"},
			Field{Label: "next batch", Text: OnScale(r.AddMass, scale) + " of " + strings.ToLower(r.Add.Name), Note: "· from the start, for a batch of this size", Value: one(r.AddMass)})
	case r.PigmentMore > 0:
		sec.Fields = append(sec.Fields, Field{Label: "add pigment", Text: percent(r.PigmentMore) + " more of each", Note: "· rubbed to a paste with water"})
	default:
		sec.Fields = append(sec.Fields, Field{Label: "add", Text: OnScale(r.AddMass, scale) + " of " + strings.ToLower(r.Add.Name), Value: one(r.AddMass)})
	}
	ratio := func(v quantity.Ratio) string { return Digits(float64(v), 2) }
	const always = "humectant to gum"
	if r.Change != always {
		f := Field{Label: r.Change, Text: ratio(r.Before) + " → " + ratio(r.After)}
		if r.Change == "gum to pigment" {
			f.Note = "· by mass, as weighed; the gum holds some water of its own"
		}
		sec.Fields = append(sec.Fields, f)
	}
	sec.Fields = append(sec.Fields,
		Field{Label: always, Text: ratio(r.HumectantBefore) + " → " + ratio(r.HumectantAfter)},
		Field{Label: "dry PVC", Text: roughly(r.PVCBefore) + " → " + roughly(r.PVCAfter)},
		Field{Label: "test", Text: r.Test},
		Field{Label: "rests on", Text: r.Basis},
	)
	for _, n := range r.Notes {
		sec.Lines = append(sec.Lines, upperFirst(n)+".")
	}
	return sec
}

func gumNextSection(r *formulate.WatercolourResult) Section {
	sec := Section{Title: "Next", Marked: true}
	paste := "Rub the pigment to a paste with water first; a stubborn one with a few drops of alcohol. Then mull in the binder by the steps."
	switch dry := len(r.Request.Solution.Parts) == 1; {
	case dry && r.CakeWater > 0:
		paste = "Work the damp pigment smooth as it is. Then dust the gum over it by the steps, its humectant with it, and mull until no grain of gum is felt."
	case dry:
		paste = "Rub the pigment to a paste with water first; a stubborn one with a few drops of alcohol. Then dust the gum over it by the steps, its humectant with it, and mull until no grain of gum is felt."
	case r.CakeWater > 0:
		paste = "Work the damp pigment smooth first. Then mull in the binder by the steps."
	}
	sec.Lines = append(sec.Lines, paste,
		"Test after every step: brush out full strength and as a wash, dry, rub hard. Comes off: more binder. Shiny, patchy or cracked: more pigment.")
	for _, n := range r.Muller {
		if n.Behaviour != "" {
			sec.Lines = append(sec.Lines, n.ID+" "+n.Behaviour+" under the muller in oil; in gum unknown.")
		}
	}
	if r.Request.Pans != nil {
		sec.Lines = append(sec.Lines, "Pour thin, dry each pour through under cover from dust; a single full pour skins over wet and cracks.")
	}
	sec.Lines = append(sec.Lines,
		"Label it: contents, Colour Index name, preservative, date, hazards. Keep gum solution cold, at most about a month.",
		"Write down the final weights of pigment and binder: they are what the next batch repeats.")
	return sec
}

func watercolourSources(r *formulate.WatercolourResult) []string {
	keys := append(SourceKeys(watercolourMaterials(r)...), doseKeys(r.Doses, nil)...)
	keys = append(keys, keysOf(r.Published)...)
	if r.Request.Binding.Rule == formulate.BinderByDemand {
		keys = append(keys, keysOf(gum.Scales())...)
	}
	return uniqueSorted(keys)
}

func watercolourMaterials(r *formulate.WatercolourResult) []*material.Material {
	return append(r.Request.Solution.Materials(), weighedMaterials(r.Pigments, r.Humectants, r.Additives)...)
}

// WatercolourJSONVersion is the version of the watercolour's JSON contract.
const WatercolourJSONVersion = 1

// WatercolourJSON is the watercolour's JSON contract. Masses are g, volumes ml,
// fractions 0 to 1, ratios by mass as weighed.
type WatercolourJSON struct {
	Version       int             `json:"version"`
	Kind          string          `json:"kind"`
	Draws         string          `json:"answer"`
	BinderRule    string          `json:"binder_rule"`
	Pigments      []GumWeighJSON  `json:"pigments"`
	Binder        BinderJSON      `json:"binder"`
	Humectants    []GumWeighJSON  `json:"humectants"`
	Additives     []GumWeighJSON  `json:"additives"`
	WaterG        RangeView       `json:"water_to_add_g"`
	CakeWaterG    float64         `json:"water_in_pigment_g"`
	Cake          *WetCakeJSON    `json:"changed_for_wet_pigment"`
	PaintMassG    RangeView       `json:"paint_mass_g"`
	PaintVolumeML RangeView       `json:"paint_volume_ml"`
	Shrinkage     RangeView       `json:"shrinkage_volume_fraction"`
	Pans          []PansJSON      `json:"pans"`
	Tubes         *TubesJSON      `json:"tubes"`
	Mulls         *MullsJSON      `json:"mulls"`
	Composition   []LineJSON      `json:"composition"`
	Humectant     float64         `json:"humectant_to_gum"`
	Published     []PublishedJSON `json:"published_humectant_to_gum"`
	OfBinder      float64         `json:"humectant_of_dry_binder_mass_fraction"`
	Air           string          `json:"air"`
	PVC           RangeView       `json:"pvc"`
	CPVC          RangeView       `json:"oil_cpvc"`
	Density       RangeView       `json:"density_g_per_ml"`
	Cost          RangeView       `json:"cost"`
	Doses         []GumDoseJSON   `json:"doses"`
	Remedy        *RemedyJSON     `json:"remedy"`
	Hypotheses    []string        `json:"hypotheses"`
	Warnings      []string        `json:"warnings"`
	Cautions      []CautionView   `json:"cautions"`
	Sources       []SourceView    `json:"sources"`
	Derivation    []StepView      `json:"derivation,omitempty"`
}

// WetCakeJSON is what was changed so that wet pigment could be used as it is.
type WetCakeJSON struct {
	Brings float64 `json:"water_brought_g"`
	Room   float64 `json:"water_the_recipe_asked_takes_g"`
	Powder bool    `json:"gum_in_powder"`
	Asked  float64 `json:"body_asked"`
	Body   float64 `json:"body"`
	Dry    float64 `json:"moisture_that_needs_no_change"`
}

func wetCakeView(c *formulate.WetCake) *WetCakeJSON {
	if c == nil {
		return nil
	}
	v := &WetCakeJSON{float64(c.Brings), max(float64(c.Room), 0), c.Powder, float64(c.Asked.Typical), float64(c.Asked.Typical), float64(c.Dry)}
	if c.Body > 0 {
		v.Body = float64(c.Body)
	}
	return v
}

// GumWeighJSON is one material to weigh.
type GumWeighJSON struct {
	ID         string    `json:"id"`
	Name       string    `json:"name"`
	MassG      RangeView `json:"mass_g"`
	WeighG     float64   `json:"weigh_g"`
	Parts      float64   `json:"parts,omitempty"`
	Share      float64   `json:"share,omitempty"`
	Ratio      float64   `json:"ratio_to_gum,omitempty"`
	Bulk       float64   `json:"bulk_density_g_per_ml,omitempty"`
	BulkRestOn string    `json:"bulk_density_rests_on,omitempty"`
}

// BinderJSON is the binder and its steps.
type BinderJSON struct {
	Solution  string    `json:"solution"`
	FirstG    float64   `json:"first_g"`
	TypicalG  float64   `json:"typical_g"`
	MostG     float64   `json:"most_g"`
	TotalsG   []float64 `json:"totals_g"`
	SolutionG float64   `json:"solution_g"`
	GumG      float64   `json:"gum_g"`
	WaterG    float64   `json:"solution_water_g"`
}

// PansJSON is how one sort of pan comes out.
type PansJSON struct {
	Name   string        `json:"name"`
	BrimML float64       `json:"brim_ml"`
	Fill   float64       `json:"fill"`
	Asked  int           `json:"asked"`
	Count  RangeView     `json:"count"`
	Pours  []PanPourJSON `json:"pours"`
}

// PanPourJSON is one pour into a pan.
type PanPourJSON struct {
	WetML float64 `json:"wet_ml"`
	WetG  float64 `json:"wet_g"`
	DryML float64 `json:"dry_ml"`
	Fill  float64 `json:"fill_when_dry"`
}

// LineJSON is one component wet and dry.
type LineJSON struct {
	ID      string  `json:"id"`
	Role    string  `json:"role"`
	MassG   float64 `json:"mass_g"`
	VolML   float64 `json:"volume_ml"`
	WetMass float64 `json:"wet_mass_fraction"`
	WetVol  float64 `json:"wet_volume_fraction"`
	DryVol  float64 `json:"dry_volume_fraction"`
}

// PublishedJSON is one published ratio.
type PublishedJSON struct {
	Ratio  float64 `json:"ratio"`
	Source string  `json:"source"`
	Note   string  `json:"note"`
}

// GumDoseJSON is an additive beside its published use.
type GumDoseJSON struct {
	ID     string  `json:"id"`
	Share  float64 `json:"share"`
	MassG  float64 `json:"mass_g"`
	Low    float64 `json:"published_low"`
	High   float64 `json:"published_high"`
	Source string  `json:"source"`
}

// RemedyJSON is the one step for a symptom.
type RemedyJSON struct {
	Symptom         string   `json:"symptom"`
	Cause           string   `json:"cause"`
	Change          string   `json:"change"`
	Add             string   `json:"add"`
	AddG            float64  `json:"add_g"`
	PigmentMore     float64  `json:"pigment_more"`
	Discard         bool     `json:"discard_batch"`
	Before          float64  `json:"before"`
	After           float64  `json:"after"`
	HumectantBefore float64  `json:"humectant_to_gum_before"`
	HumectantAfter  float64  `json:"humectant_to_gum_after"`
	PVCBefore       float64  `json:"pvc_before"`
	PVCAfter        float64  `json:"pvc_after"`
	Test            string   `json:"test"`
	Notes           []string `json:"notes"`
	Basis           string   `json:"basis"`
}

// RemedyView is a remedy in JSON.
func RemedyView(r *formulate.GumRemedy) *RemedyJSON {
	if r == nil {
		return nil
	}
	v := &RemedyJSON{Symptom: string(r.Symptom), Cause: r.Cause, Change: r.Change, AddG: float64(r.AddMass), PigmentMore: float64(r.PigmentMore),
		Discard: r.Discard, Before: float64(r.Before), After: float64(r.After), HumectantBefore: float64(r.HumectantBefore), HumectantAfter: float64(r.HumectantAfter),
		PVCBefore: float64(r.PVCBefore), PVCAfter: float64(r.PVCAfter), Test: r.Test, Notes: orEmpty(r.Notes), Basis: r.Basis}
	if r.Add != nil {
		v.Add = r.Add.ID
	}
	return v
}

func gumWeighViews(list []formulate.GumWeigh) []GumWeighJSON {
	out := make([]GumWeighJSON, len(list))
	for i, w := range list {
		out[i] = GumWeighJSON{ID: w.Material.ID, Name: w.Material.Name, MassG: rangeView(w.Mass, 1), WeighG: float64(w.OnScale),
			Parts: float64(w.Parts), Share: float64(w.Share), Ratio: float64(w.Ratio)}
		if w.Bulk != nil {
			out[i].Bulk, out[i].BulkRestOn = float64(w.Bulk.Density.Median), string(w.Bulk.Basis)
		}
	}
	return out
}

func lineViews(list []formulate.PaintLine) []LineJSON {
	out := make([]LineJSON, len(list))
	for i, l := range list {
		out[i] = LineJSON{l.ID, l.Role.String(), float64(l.Mass), float64(l.Vol), float64(l.WetMass), float64(l.WetVol), float64(l.DryVol)}
	}
	return out
}

func publishedViews(list []evidence.Reading[quantity.Ratio]) []PublishedJSON {
	out := make([]PublishedJSON, len(list))
	for i, p := range list {
		out[i] = PublishedJSON{float64(p.Middle()), p.Source, p.Note}
	}
	return out
}

func doseViews(list []formulate.GumDose) []GumDoseJSON {
	out := make([]GumDoseJSON, len(list))
	for i, d := range list {
		out[i] = GumDoseJSON{d.Material.ID, float64(d.Share), float64(d.Mass), float64(d.Low), float64(d.High), d.Source}
	}
	return out
}

func floats[Q quantity.Real](list []Q) []float64 {
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = float64(v)
	}
	return out
}

// bindingNames are the rules for the binder, as JSON names them.
var bindingNames = map[formulate.BinderRule]string{
	formulate.BinderByDemand: "demand-hypothesis", formulate.BinderByPVC: "pvc", formulate.BinderByMeasure: "powder-to-binder", formulate.BinderUndiluted: "undiluted-solution",
}

// WatercolourView is the JSON view of a watercolour.
func WatercolourView(r *formulate.WatercolourResult, cite Cite, explain bool) WatercolourJSON {
	b := &r.Binder
	v := WatercolourJSON{
		Version: WatercolourJSONVersion, Kind: "watercolour", Draws: answerKind(r.Request.Sampling), BinderRule: bindingNames[r.Request.Binding.Rule],
		Pigments: gumWeighViews(r.Pigments), Humectants: gumWeighViews(r.Humectants), Additives: gumWeighViews(r.Additives),
		Binder: BinderJSON{r.Request.Solution.Material.ID, float64(b.First), float64(b.Typical), float64(b.Most), floats(b.Totals), float64(b.Solution), float64(b.Gum), float64(b.Water)},
		WaterG: rangeView(r.Water, 1), CakeWaterG: float64(r.CakeWater), Cake: wetCakeView(r.Cake), PaintMassG: rangeView(r.Yield.Mass, 1), PaintVolumeML: rangeView(r.Yield.Volume, 1),
		Shrinkage: rangeView(r.Shrinkage, 1), Pans: []PansJSON{}, Composition: lineViews(r.Composition), Humectant: float64(r.Humectant),
		Published: publishedViews(r.Published), OfBinder: float64(r.HumectantOfBinder), Air: string(r.Request.Air),
		PVC: rangeView(r.Figures.PVC, 1), CPVC: rangeView(r.Figures.CPVC, 1), Density: rangeView(r.Figures.Density, 1), Cost: rangeView(r.Figures.Cost, 1),
		Doses: doseViews(r.Doses), Remedy: RemedyView(r.Remedy), Hypotheses: orEmpty(r.Hypotheses), Warnings: orEmpty(r.Warnings),
		Cautions: cautionViews(r.Cautions), Sources: sourceViews(watercolourSources(r), cite), Derivation: stepViews(r.Steps, explain),
	}
	for _, p := range r.Pans {
		j := PansJSON{Name: p.Asked.Name, BrimML: float64(p.Asked.Brim), Fill: float64(p.Asked.Fill), Count: rangeView(p.Count, 1), Pours: []PanPourJSON{}}
		if r.Request.Pans != nil {
			j.Asked = p.Asked.Count
		}
		for i, x := range p.Pours {
			j.Pours = append(j.Pours, PanPourJSON{float64(x.Wet), float64(p.PourFor[i]), float64(x.Dry), float64(x.Fill)})
		}
		v.Pans = append(v.Pans, j)
	}
	if t := r.Tubes; t != nil {
		v.Tubes = &TubesJSON{float64(t.Size), float64(t.Fill), t.Asked, rangeView(t.Count, 1)}
	}
	if m := r.Mulls; m != nil {
		v.Mulls = &MullsJSON{m.Count, float64(m.Each), float64(m.OnSlab)}
	}
	return v
}
