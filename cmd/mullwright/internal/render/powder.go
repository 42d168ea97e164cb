package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// powderName is what a test calls the powder.
func powderName(m *material.Material) string {
	if m == nil {
		return "your powder"
	}
	return titleOf(m)
}

// argument is the pigment as a command takes it.
func argument(m *material.Material) string {
	if m == nil {
		return "PIGMENT"
	}
	return m.ID
}

// behind is a pigment of a catalogue as an argument behind a command, nothing for
// a jar that none holds.
func behind(m *material.Material, unlisted bool) string {
	if m == nil || unlisted {
		return ""
	}
	return " " + m.ID
}

func idOf(m *material.Material) string {
	if m == nil {
		return ""
	}
	return m.ID
}

// plusMinus is a value with its standard uncertainty, which sets its digits.
func plusMinus(label string, value, low, high, u float64, unit, note string) Field {
	f := Field{Label: label, Note: note, Value: &Value{low, value, high, unit}}
	if !(u > 0) {
		f.Text = strings.TrimSpace(Digits(value, 4) + " " + unit)
		return f
	}
	places := min(max(placesFor(u, 2), 0), 6)
	f.Text = strings.TrimSpace(Places(value, places) + " " + unit + " ± " + Places(u, places))
	return f
}

// MoistureSheet lays a drying test out.
func MoistureSheet(r *formulate.MoistureResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	s := &Sheet{Title: "Moisture: " + powderName(req.Pigment), Lead: "How it may be dried, and what to weigh."}
	var next []string
	if len(req.Dried) > 0 {
		w := r.Moisture
		s.Lead = fmt.Sprintf("%s g of powder lost %s g: %s %% water of the damp mass.", Given(round6(r.Powder)), Given(round6(r.Water)), Digits(float64(w.Value)*100, 3))
		s.Add(moistureSection(r))
		next = append(next, fmt.Sprintf("Mull it as it is with 'mullwright mull %s --moisture %s%% ...', or dry it first.", argument(req.Pigment), Digits(float64(w.Value)*100, 2)))
	} else {
		next = append(next, "Weigh an empty dish, the dish with 5 to 20 g of the powder, and the dish again after drying, more than once: --dish, --damp, --dried.")
	}
	s.Add(hintSection("Before you dry it", []formulate.Hint{r.Rule}, cite))
	s.Add(heatSection(r.Statements, cite))
	s.Add(Section{Title: "Next", Marked: true, Lines: next})
	return s.finish(r.Warnings, r.Cautions, r.Steps, nil, cite, explain)
}

// heatSection lists what sources say of heat, in their words.
func heatSection(list []formulate.Hint, cite Cite) Section {
	s := Section{Title: "What sources say of heat", Marked: true}
	for _, h := range list {
		s.Lines = append(s.Lines, upperFirst(h.Text)+" ["+hintSource(h.Source, cite)+"]")
	}
	return s
}

// round6 takes the dust of binary fractions off a difference of weighings.
func round6(m quantity.Mass) float64 { return float64(int64(float64(m)*1e6+0.5)) / 1e6 }

func moistureSection(r *formulate.MoistureResult) Section {
	w := r.Moisture
	sec := Section{Title: "What was found", Fields: []Field{
		plusMinus("water, of the damp mass", 100*float64(w.Value), 100*float64(r.Low), 100*float64(r.High), 100*float64(w.U), "%", "· wet basis, the one that mull takes"),
		{Label: "of the dry mass", Text: Digits(float64(r.DryBasis)*100, 3) + " %", Note: "· dry basis", Value: single(r.DryBasis*100, "%")},
		{Label: "dry pigment", Text: Given(round6(r.Dry)) + " g", Note: "· of " + Given(round6(r.Powder)) + " g", Value: single(r.Dry, "g")},
	}}
	steady := map[formulate.Steadiness]string{
		formulate.NotShown: "not shown: one weighing only",
		formulate.Steady:   "yes: the last two weighings are alike",
		formulate.Losing:   "no: still losing " + Given(round6(-r.Change)) + " g",
		formulate.Gaining:  "no: it gained " + Given(round6(r.Change)) + " g",
	}
	sec.Fields = append(sec.Fields, Field{Label: "dry at the end?", Text: steady[r.Steadiness]})
	if r.WeighOut > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "to have " + Given(r.Request.Want) + " g dry", Text: "weigh " + OnScale(r.WeighOut, r.Request.Scale), Note: "· of the damp powder", Value: single(r.WeighOut, "g")})
	}
	return sec
}

// MoistureJSON is the drying test's JSON contract.
type MoistureJSON struct {
	Version    int           `json:"version"`
	Kind       string        `json:"kind"`
	Pigment    string        `json:"pigment"`
	DampG      float64       `json:"damp_g"`
	DryG       float64       `json:"dry_g"`
	WetBasis   float64       `json:"moisture_wet_basis"`
	U          float64       `json:"u_moisture_wet_basis"`
	Interval   [2]float64    `json:"interval_95"`
	DryBasis   float64       `json:"moisture_dry_basis"`
	Steady     string        `json:"dry_at_the_end"`
	WeighOutG  float64       `json:"weigh_out_g"`
	Drying     []HintJSON    `json:"drying"`
	Warnings   []string      `json:"warnings"`
	Cautions   []CautionView `json:"cautions"`
	Derivation []StepView    `json:"derivation,omitempty"`
}

var steadiness = map[formulate.Steadiness]string{
	formulate.NotShown: "not shown", formulate.Steady: "yes", formulate.Losing: "still losing", formulate.Gaining: "gaining",
}

// MoistureView is a drying test in JSON.
func MoistureView(r *formulate.MoistureResult, explain bool) any {
	return MoistureJSON{
		Version: 1, Kind: "powder moisture", Pigment: idOf(r.Request.Pigment), DampG: float64(r.Powder), DryG: float64(r.Dry),
		WetBasis: float64(r.Moisture.Value), U: float64(r.Moisture.U), Interval: [2]float64{float64(r.Low), float64(r.High)}, DryBasis: float64(r.DryBasis),
		Steady: steadiness[r.Steadiness], WeighOutG: float64(r.WeighOut), Drying: hintViews(append([]formulate.Hint{r.Rule}, r.Statements...)),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Derivation: stepViews(r.Steps, explain),
	}
}

// BulkSheet lays a bulk density out.
func BulkSheet(r *formulate.BulkResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	p := r.Poured
	s := &Sheet{Title: "Bulk density: " + powderName(req.Pigment)}
	s.Lead = fmt.Sprintf("Poured, a millilitre of it weighs %s g.", Digits(float64(p.Value), 3))
	sec := Section{Title: "What was found", Fields: []Field{
		densityField("poured", p, "· one standard uncertainty, by reading"),
	}}
	var next []string
	if t := r.Tapped; t != nil {
		s.Lead = fmt.Sprintf("Poured, a millilitre of it weighs %s g; tapped down, %s g. Its flow is %s.", Digits(float64(p.Value), 3), Digits(float64(t.Value), 3), r.Flow)
		sec.Fields = append(sec.Fields,
			densityField("tapped", *t, ""),
			Field{Label: "Carr index", Text: Digits(float64(r.Carr)*100, 3) + " %", Note: "· the share of its volume that tapping takes", Value: single(r.Carr*100, "%")},
			Field{Label: "Hausner ratio", Text: Digits(float64(r.Hausner), 3), Value: single(r.Hausner, "")},
			Field{Label: "flow", Text: string(r.Flow), Note: "· scale of USP 1174 and Ph. Eur. 2.9.36"})
		next = append(next, fmt.Sprintf("What a jar of it comes to: 'mullwright powder jar %s --jar 250ml --poured %sg/ml --tapped %sg/ml'.",
			argument(req.Pigment), Digits(float64(p.Value), 3), Digits(float64(t.Value), 3)))
	} else {
		next = append(next, "Tap the vessel down, 50 times on a folded cloth (IS 33), and give --tapped or --refilled: how it flows and packs.",
			fmt.Sprintf("What a jar of it comes to: 'mullwright powder jar %s --jar 250ml --poured %sg/ml'.", argument(req.Pigment), Digits(float64(p.Value), 3)))
	}
	sec.Fields = append(sec.Fields, Field{Label: "a level tablespoon", Text: Digits(float64(r.Spoon), 2) + " g", Note: "· 15 ml, poured", Value: single(r.Spoon, "g")})
	var keys []string
	if r.Published.Typical > 0 {
		sec.Fields = append(sec.Fields, RangeField("published, loose", r.Published, 1, 2, "g/ml", ""))
		keys = keysOf(req.Pigment.BulkDensity)
	}
	s.Add(sec)
	s.Add(Section{Title: "Next", Marked: true, Lines: next})
	return s.finish(r.Warnings, r.Cautions, r.Steps, keys, cite, explain)
}

func densityField(label string, e evidence.Estimate[quantity.Density], note string) Field {
	v, u := float64(e.Value), float64(e.U)
	return plusMinus(label, v, v-u, v+u, u, "g/ml", note)
}

// BulkJSON is the bulk density's JSON contract.
type BulkJSON struct {
	Version    int           `json:"version"`
	Kind       string        `json:"kind"`
	Pigment    string        `json:"pigment"`
	Poured     float64       `json:"poured_g_per_ml"`
	UPoured    float64       `json:"u_poured_g_per_ml"`
	Tapped     *float64      `json:"tapped_g_per_ml"`
	Carr       *float64      `json:"carr_index"`
	Hausner    *float64      `json:"hausner_ratio"`
	Flow       string        `json:"flow"`
	SpoonG     float64       `json:"tablespoon_g"`
	Published  *RangeView    `json:"published_g_per_ml"`
	Warnings   []string      `json:"warnings"`
	Cautions   []CautionView `json:"cautions"`
	Derivation []StepView    `json:"derivation,omitempty"`
}

// BulkView is a bulk density in JSON.
func BulkView(r *formulate.BulkResult, explain bool) any {
	v := BulkJSON{
		Version: 1, Kind: "powder bulk", Pigment: idOf(r.Request.Pigment), Poured: float64(r.Poured.Value), UPoured: float64(r.Poured.U), Flow: string(r.Flow),
		SpoonG: float64(r.Spoon), Published: viewOrNil(r.Published), Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Derivation: stepViews(r.Steps, explain),
	}
	if t := r.Tapped; t != nil {
		v.Tapped, v.Carr, v.Hausner = orNull(t.Value), orNull(r.Carr), orNull(r.Hausner)
	}
	return v
}

// JarSheet lays a jar out.
func JarSheet(r *formulate.JarResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	m := req.Mull.Pigments[0].Material
	s := &Sheet{Title: "Jar of " + titleOf(m)}
	s.Lead = fmt.Sprintf("%s ml of powder, %s. %s", Given(req.Jar), targetText(req.Mull.Target), spreadText(req.Mull.Sampling, "jars"))
	fields := []Field{
		RangeField("powder", r.Powder, 1, 2, "g", "· "+req.BulkBy),
		RangeField("oil it takes", r.Oil, 1, 2, "g", ""),
		RangeField("paint", r.Paint, 1, 2, "ml", ""),
		RangeField("tubes of "+Given(req.Tube)+" ml", r.Tubes, 1, 2, "", percent(req.Fill)+" full"),
	}
	if l := req.Mull.Loss; l > 0 {
		fields = append(fields, Field{Label: "lost on the slab", Text: percent(l), Note: "of what is made, taken off"})
	}
	s.Add(Section{Title: "What it comes to", Fields: fields})
	next := []string{"Weigh the powder: that beats any jar. Then 'mullwright mull " + m.ID + " --pigment-mass ...' gives the card."}
	keys := append(SourceKeys(m, req.Mull.Oils[0].Material), keysOf(m.BulkDensity)...)
	s.Add(Section{Title: "Next", Marked: true, Lines: next})
	return s.finish(r.Warnings, r.Cautions, r.Steps, uniqueSorted(keys), cite, explain)
}

// JarJSON is the jar's JSON contract.
type JarJSON struct {
	Version    int           `json:"version"`
	Kind       string        `json:"kind"`
	Pigment    string        `json:"pigment"`
	JarML      float64       `json:"jar_ml"`
	BulkBy     string        `json:"bulk_density_by"`
	PowderG    RangeView     `json:"powder_g"`
	OilG       RangeView     `json:"oil_g"`
	PaintML    RangeView     `json:"paint_ml"`
	TubeML     float64       `json:"tube_ml"`
	Tubes      RangeView     `json:"tubes"`
	Warnings   []string      `json:"warnings"`
	Cautions   []CautionView `json:"cautions"`
	Derivation []StepView    `json:"derivation,omitempty"`
}

// JarView is a jar in JSON.
func JarView(r *formulate.JarResult, explain bool) any {
	return JarJSON{
		Version: 1, Kind: "powder jar", Pigment: r.Request.Mull.Pigments[0].Material.ID, JarML: float64(r.Request.Jar), BulkBy: r.Request.BulkBy,
		PowderG: rangeView(r.Powder, 1), OilG: rangeView(r.Oil, 1), PaintML: rangeView(r.Paint, 1), TubeML: float64(r.Request.Tube), Tubes: rangeView(r.Tubes, 1),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Derivation: stepViews(r.Steps, explain),
	}
}

// DensitySheet lays a true density out. Kept says that the result has been kept
// already.
func DensitySheet(r *formulate.TrueDensityResult, cite Cite, kept, explain bool) *Sheet {
	req := &r.Request
	d := r.Density
	s := &Sheet{Title: "True density: " + powderName(req.Pigment)}
	s.Lead = fmt.Sprintf("%s g/ml; 95 %% interval %s to %s, by weighing and reading alone.", Digits(float64(d.Value), 3), Digits(float64(r.Low), 3), Digits(float64(r.High), 3))
	sec := Section{Title: "What was found", Fields: []Field{
		plusMinus("true density", float64(d.Value), float64(r.Low), float64(r.High), float64(d.U), "g/ml", "· one standard uncertainty"),
	}}
	if r.Liquid.Value > 0 {
		name := "liquid"
		if req.Liquid != nil {
			name = strings.ToLower(req.Liquid.Name)
		}
		note := "· at " + Given(req.Temperature) + " °C, ± " + Given(req.Within) + " °C"
		if req.OwnLiquid.Value > 0 {
			note = "· as you gave it"
		}
		sec.Fields = append(sec.Fields, densityField(name, r.Liquid, note))
	}
	var keys []string
	if r.Standing != formulate.NotCompared {
		sec.Fields = append(sec.Fields, RangeField("published", r.Published, 1, 3, "g/ml", "· "+standingText(r.Standing)))
		keys = densityKeys(req.Pigment)
	}
	s.Add(sec)
	var next []string
	switch r.Standing {
	case formulate.Below:
		next = append(next, "Below what is published: air still in it, a powder that dissolved or swelled, a lighter extender in it, or another pigment than the label says (common practice).")
	case formulate.Above:
		next = append(next, "Above what is published: liquid lost or not topped up, a heavy extender such as barytes in it, or another pigment than the label says (common practice).")
	}
	value := Digits(float64(d.Value), 3) + " g/ml"
	switch {
	case kept:
	case req.Pigment == nil:
		next = append(next, "To keep it, name the pigment; a jar that the catalogue lacks is named with --name.")
	case req.Unlisted && len(req.Pigment.OilAbsorption) == 0:
		next = append(next, fmt.Sprintf("Rub it out next: 'mullwright rubout --name %q --density %q'. With the tests given too, its --save FILE writes the jar as a catalogue file.", req.Pigment.Name, strings.ReplaceAll(value, " ", "")))
	default:
		next = append(next, "Keep it with --save FILE, then give the file to any command with --catalogue FILE.")
	}
	s.Add(Section{Title: "Next", Marked: true, Lines: next})
	if !kept && req.Pigment != nil {
		s.Add(Section{Title: "Or in a catalogue file that you have", Lines: []string{
			"[pigment." + req.Pigment.ID + "]", fmt.Sprintf("density = [{ value = %q, source = \"own measurement\" }]", value)}})
	}
	return s.finish(r.Warnings, r.Cautions, r.Steps, keys, cite, explain)
}

// DensityJSON is the true density's JSON contract.
type DensityJSON struct {
	Version    int           `json:"version"`
	Kind       string        `json:"kind"`
	Pigment    string        `json:"pigment"`
	Density    float64       `json:"density_g_per_ml"`
	U          float64       `json:"u_density_g_per_ml"`
	Interval   [2]float64    `json:"interval_95_g_per_ml"`
	Liquid     *float64      `json:"liquid_g_per_ml"`
	ULiquid    *float64      `json:"u_liquid_g_per_ml"`
	Published  *RangeView    `json:"published_g_per_ml"`
	Standing   string        `json:"beside_published"`
	Warnings   []string      `json:"warnings"`
	Cautions   []CautionView `json:"cautions"`
	Derivation []StepView    `json:"derivation,omitempty"`
}

// DensityView is a true density in JSON.
func DensityView(r *formulate.TrueDensityResult, explain bool) any {
	v := DensityJSON{
		Version: 1, Kind: "powder density", Pigment: idOf(r.Request.Pigment), Density: float64(r.Density.Value), U: float64(r.Density.U),
		Interval: [2]float64{float64(r.Low), float64(r.High)}, Published: viewOrNil(r.Published), Standing: standings[r.Standing],
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Derivation: stepViews(r.Steps, explain),
	}
	if r.Liquid.Value > 0 {
		v.Liquid, v.ULiquid = orNull(r.Liquid.Value), orNull(r.Liquid.U)
	}
	return v
}

// FinenessSheet lays a fineness out.
func FinenessSheet(r *formulate.FinenessResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	s := &Sheet{Title: "Fineness: " + powderName(req.Pigment)}
	var next []string
	var keys []string
	if g := r.Gauge; g != nil {
		s.Add(Section{Title: "Grind gauge", Fields: []Field{
			{Label: "coarsest clumps", Text: Digits(float64(g.Depth), 3) + " µm", Value: single(g.Depth, "µm")},
			{Label: "Hegman", Text: Digits(float64(g.Hegman), 2), Note: "· 0 coarse to 8", Value: single(quantity.Ratio(g.Hegman), "")},
			{Label: "on a metric gauge", Text: Digits(float64(g.Engraved), 3) + " µm", Note: "· engraved 100 µm in steps of 12.5", Value: single(g.Engraved, "µm")},
		}})
		next = append(next, "Read it twice more with fresh paste and take the middle; mull on while the reading still falls.")
	}
	if f := r.Sieve; f != nil {
		t := req.Sieve
		label := Given(t.Opening) + " µm"
		if t.Number > 0 {
			label += fmt.Sprintf(" (ASTM no. %d)", t.Number)
		}
		s.Add(Section{Title: "Sieve", Fields: []Field{
			{Label: "opening", Text: label, Value: single(t.Opening, "µm")},
			plusMinus("stays on it", 100*float64(f.Residue.Value), 100*float64(f.Residue.Value-f.Residue.U), 100*float64(f.Residue.Value+f.Residue.U), 100*float64(f.Residue.U), "%", "· by the balance alone"),
			{Label: "goes through", Text: Digits(float64(f.Passed)*100, 4) + " %", Value: single(f.Passed*100, "%")},
		}})
		next = append(next, "Grit shows as scratches in a drawn-down film; levigate it out ('mullwright settle') or sieve wet.")
	}
	if x := r.Settled; x != nil {
		s.Add(Section{Title: "Stirred jar", Fields: []Field{
			{Label: "cleared", Text: Given(x.Request.Depth) + " cm in " + givenTime(x.Request.Time), Note: "· in water at " + Given(x.Request.Temperature) + " °C"},
			RangeField("largest grain still up", x.Size, 1, 2, "µm", "· as a sphere that falls alike"),
		}})
		next = append(next, fmt.Sprintf("What surface and oil that makes: 'mullwright powder surface %s --size %sum'.", argument(req.Pigment), Digits(float64(x.Size.Typical), 2)))
		if x.Request.Material != nil {
			keys = densityKeys(x.Request.Material)
		}
	}
	s.Add(Section{Title: "Next", Marked: true, Lines: next})
	return s.finish(r.Warnings, r.Cautions, r.Steps, keys, cite, explain)
}

// FinenessJSON is the fineness's JSON contract.
type FinenessJSON struct {
	Version     int           `json:"version"`
	Kind        string        `json:"kind"`
	Pigment     string        `json:"pigment"`
	GaugeUM     *float64      `json:"gauge_um"`
	Hegman      *float64      `json:"gauge_hegman"`
	SieveUM     *float64      `json:"sieve_um"`
	Residue     *float64      `json:"sieve_residue"`
	UResidue    *float64      `json:"u_sieve_residue"`
	LargestUpUM *RangeView    `json:"largest_grain_up_um"`
	Warnings    []string      `json:"warnings"`
	Cautions    []CautionView `json:"cautions"`
	Derivation  []StepView    `json:"derivation,omitempty"`
}

// FinenessView is a fineness in JSON.
func FinenessView(r *formulate.FinenessResult, explain bool) any {
	v := FinenessJSON{Version: 1, Kind: "powder fineness", Pigment: idOf(r.Request.Pigment), Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Derivation: stepViews(r.Steps, explain)}
	if g := r.Gauge; g != nil {
		v.GaugeUM, v.Hegman = orNull(g.Depth), orNull(quantity.Ratio(g.Hegman))
	}
	if f := r.Sieve; f != nil {
		v.SieveUM, v.Residue, v.UResidue = orNull(r.Request.Sieve.Opening), orNull(f.Residue.Value), orNull(f.Residue.U)
	}
	if x := r.Settled; x != nil {
		size := rangeView(x.Size, 1)
		v.LargestUpUM = &size
	}
	return v
}

// SurfaceSheet lays a specific surface out.
func SurfaceSheet(r *formulate.SurfaceResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	name := powderName(req.Pigment)
	s := &Sheet{Title: "Surface and oil: " + name, Lead: spreadText(req.Sampling, "powders")}
	sizeNote, surfaceNote := "", ""
	by := "· " + req.SizeBy
	if req.Surface.Known() {
		surfaceNote, sizeNote = by, "· of spheres with that surface"
	} else {
		sizeNote, surfaceNote = by, "· of smooth "+string(req.Shape)+"s"
	}
	s.Add(Section{Title: "Surface", Fields: []Field{
		RangeField("grain size", r.Size, 1, 2, "µm", sizeNote),
		RangeField("specific surface", r.Surface, 1, 2, "m²/g", surfaceNote),
	}})
	oil := []Field{RangeField("by layer and voids", r.Rule, 1, 2, "ml/100 g",
		fmt.Sprintf("· published figures lie at %s to %s of it", Given(formulate.RuleLow), Given(formulate.RuleHigh)))}
	if r.Published.Typical > 0 {
		oil = append(oil, RangeField("published", r.Published, 1, 2, "ml/100 g", "· oil absorption of the catalogue, or your own"))
	}
	s.Add(Section{Title: "Oil absorption of that surface", Fields: oil})
	if f := r.Finer; f != nil {
		s.Add(finerSection(r, f))
	}
	var keys []string
	if m := req.Pigment; m != nil {
		used := &material.Material{Density: m.Density, OilAbsorption: m.OilAbsorption}
		keys = SourceKeys(used)
		if req.SizeBy == "published" {
			keys = uniqueSorted(append(keys, append(keysOf(m.ParticleSize), keysOf(m.SpecificSurface)...)...))
		}
	}
	next := []string{fmt.Sprintf("Only a test tells: 'mullwright rubout %s' before and after grinding.", argument(req.Pigment))}
	s.Add(Section{Title: "Next", Marked: true, Lines: next})
	return s.finish(r.Warnings, r.Cautions, r.Steps, keys, cite, explain)
}

func finerSection(r *formulate.SurfaceResult, f *formulate.FinerFinding) Section {
	// The size stands in a field: titles are set in capitals, which µ is not.
	sec := Section{Title: "Ground finer", Fields: []Field{
		{Label: "to", Text: Given(r.Request.Finer) + " µm", Value: single(r.Request.Finer, "µm")},
		{Label: "specific surface", Text: Digits(float64(f.Surface), 2) + " m²/g", Value: single(f.Surface, "m²/g")},
		{Label: "oil added by the rule", Text: Digits(float64(f.Thin), 2) + " to " + Digits(float64(f.Thick), 2) + " ml/100 g", Note: "· a layer of 2.5 to 4 nm",
			Value: between(float64(f.Thin), float64(f.Thick), "ml/100 g")},
		{Label: "as carbonates show", Text: Digits(float64(f.Apparent), 2) + " ml/100 g", Note: "· finer grades also pack looser: 9 nm", Value: single(f.Apparent, "ml/100 g")},
	}}
	if f.MoreHigh > 0 {
		low, high := 100*float64(f.MoreLow), 100*float64(f.MoreHigh)
		sec.Fields = append(sec.Fields, Field{Label: "of its oil absorption", Text: Digits(low, 2) + " to " + Digits(high, 2) + " % more", Value: between(low, high, "%")})
	}
	return sec
}

// SurfaceJSON is the surface's JSON contract.
type SurfaceJSON struct {
	Version    int           `json:"version"`
	Kind       string        `json:"kind"`
	Pigment    string        `json:"pigment"`
	Shape      string        `json:"shape"`
	SizeUM     RangeView     `json:"size_um"`
	Surface    RangeView     `json:"surface_m2_per_g"`
	Rule       RangeView     `json:"oil_by_rule_ml_per_100g"`
	RuleShare  [2]float64    `json:"published_over_rule"`
	Published  *RangeView    `json:"published_ml_per_100g"`
	Finer      *FinerJSON    `json:"finer"`
	Warnings   []string      `json:"warnings"`
	Cautions   []CautionView `json:"cautions"`
	Derivation []StepView    `json:"derivation,omitempty"`
}

// FinerJSON is what grinding adds.
type FinerJSON struct {
	SizeUM   float64 `json:"size_um"`
	Surface  float64 `json:"surface_m2_per_g"`
	Thin     float64 `json:"oil_added_thin_layer_ml_per_100g"`
	Thick    float64 `json:"oil_added_thick_layer_ml_per_100g"`
	Apparent float64 `json:"oil_added_as_carbonates_ml_per_100g"`
}

// SurfaceView is a surface in JSON.
func SurfaceView(r *formulate.SurfaceResult, explain bool) any {
	v := SurfaceJSON{
		Version: 1, Kind: "powder surface", Pigment: idOf(r.Request.Pigment), Shape: string(r.Request.Shape), SizeUM: rangeView(r.Size, 1), Surface: rangeView(r.Surface, 1),
		Rule: rangeView(r.Rule, 1), RuleShare: [2]float64{float64(formulate.RuleLow), float64(formulate.RuleHigh)}, Published: viewOrNil(r.Published),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Derivation: stepViews(r.Steps, explain),
	}
	if f := r.Finer; f != nil {
		v.Finer = &FinerJSON{float64(r.Request.Finer), float64(f.Surface), float64(f.Thin), float64(f.Thick), float64(f.Apparent)}
	}
	return v
}

// CakeSheet lays a chain of weighings out.
func CakeSheet(r *formulate.CakeResult, cite Cite, explain bool) *Sheet {
	req := &r.Request
	first, last := req.Stages[0].Name, req.Stages[len(req.Stages)-1].Name
	s := &Sheet{Title: "From " + first + " to " + last}
	s.Lead = fmt.Sprintf("%s of the pigment came through; the stage that kept least is %s.", Digits(float64(r.Yield.Kept)*100, 3)+" %", r.Yield.Worst)
	t := &Table{Columns: []Column{{Title: "weighing"}, {Title: "weighed g", Right: true}, {Title: "not pigment", Right: true}, {Title: "pigment g", Right: true}, {Title: "kept", Right: true}, {Title: "lost g", Right: true}}}
	s.Data = [][]string{{"weighing", "weighed_g", "not_pigment_fraction", "pigment_g", "kept_fraction", "lost_g"}}
	for i, st := range req.Stages {
		row := []string{st.Name, Given(st.Mass), percent(st.Other), Digits(float64(r.Dry[i]), 3), "", ""}
		data := []string{st.Name, Full(st.Mass), Full(st.Other), Full(r.Dry[i]), "", ""}
		if i > 0 {
			l := r.Yield.Losses[i-1]
			row[4], row[5] = Digits(float64(l.Kept)*100, 3)+" %", Digits(float64(l.Lost), 2)
			data[4], data[5] = Full(l.Kept), Full(l.Lost)
		}
		t.Rows = append(t.Rows, row)
		s.Data = append(s.Data, data)
	}
	s.Add(Section{Title: "Weighings", Table: t})
	fields := []Field{{Label: "kept in all", Text: Digits(float64(r.Yield.Kept)*100, 3) + " %", Value: single(r.Yield.Kept*100, "%")}}
	if req.Want > 0 {
		begin := Digits(float64(r.Begin), 3) + " g of pigment"
		if req.Stages[0].Other > 0 {
			begin += ", " + Digits(float64(r.BeginAs), 3) + " g of " + first
		}
		fields = append(fields, Field{Label: "for " + Given(req.Want) + " g at the end", Text: "begin with " + begin, Value: single(r.Begin, "g")})
	}
	s.Add(Section{Title: "Altogether", Fields: fields})
	next := []string{fmt.Sprintf("What the last stage lost goes into the next plan: --loss %s%% for 'mullwright mull', if that stage is the slab.", Digits(float64(r.LastLoss)*100, 2))}
	if req.Want == 0 {
		next = append(next, "Say --want to see what to begin with next time.")
	}
	s.Add(Section{Title: "Next", Marked: true, Lines: next})
	return s.finish(r.Warnings, r.Cautions, r.Steps, nil, cite, explain)
}

// CakeJSON is the chain's JSON contract.
type CakeJSON struct {
	Version    int             `json:"version"`
	Kind       string          `json:"kind"`
	Stages     []CakeStageJSON `json:"stages"`
	Kept       float64         `json:"kept"`
	Worst      string          `json:"kept_least_by"`
	BeginG     float64         `json:"begin_with_dry_g"`
	BeginAsG   float64         `json:"begin_with_g"`
	LastLoss   float64         `json:"last_stage_loss"`
	Warnings   []string        `json:"warnings"`
	Cautions   []CautionView   `json:"cautions"`
	Derivation []StepView      `json:"derivation,omitempty"`
}

// CakeStageJSON is one weighing.
type CakeStageJSON struct {
	Name       string   `json:"name"`
	WeighedG   float64  `json:"weighed_g"`
	NotPigment float64  `json:"not_pigment"`
	PigmentG   float64  `json:"pigment_g"`
	Kept       *float64 `json:"kept"`
	LostG      *float64 `json:"lost_g"`
}

// CakeView is a chain in JSON.
func CakeView(r *formulate.CakeResult, explain bool) any {
	v := CakeJSON{
		Version: 1, Kind: "powder cake", Kept: float64(r.Yield.Kept), Worst: r.Yield.Worst, BeginG: float64(r.Begin), BeginAsG: float64(r.BeginAs), LastLoss: float64(r.LastLoss),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Derivation: stepViews(r.Steps, explain),
	}
	for i, st := range r.Request.Stages {
		j := CakeStageJSON{Name: st.Name, WeighedG: float64(st.Mass), NotPigment: float64(st.Other), PigmentG: float64(r.Dry[i])}
		if i > 0 {
			j.Kept, j.LostG = orNull(r.Yield.Losses[i-1].Kept), orNull(r.Yield.Losses[i-1].Lost)
		}
		v.Stages = append(v.Stages, j)
	}
	return v
}
