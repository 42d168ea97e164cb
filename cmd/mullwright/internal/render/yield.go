package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/chemistry"
	"mullwright/formulate/quantity"
)

// YieldSheet lays a yield out.
func YieldSheet(r *formulate.YieldResult, explain bool) *Sheet {
	s := &Sheet{Title: "Yield: " + r.Request.Reaction.String(), Lead: yieldLead(r)}
	s.Add(reactionSection(r))
	s.Add(theorySection(r))
	s.Add(jarSection(r))
	s.Add(rinseSection(r))
	s.Add(Section{Title: "Next", Marked: true, Lines: yieldNext(r)})
	s.Add(warningSection(r.Warnings))
	s.addCautions(r.Cautions)
	if explain {
		s.Add(stepSection(r.Steps))
	}
	s.Add(Section{Title: "Sources", Lines: []string{weightsSource}})
	return s
}

const weightsSource = "Atomic weights: " + chemistry.WeightsSource + "."

// to prints both ends of a span that is known to hold the value, at digits
// that show the smaller end to three figures.
func to[Q quantity.Real](s chemistry.Span[Q], scale float64, unit string) string {
	low, high := Digits(float64(s.Low)*scale, 3), Digits(float64(s.High)*scale, 3)
	if low != high {
		low += " to " + high
	}
	return strings.TrimSpace(low + " " + unit)
}

func spanField[Q quantity.Real](label string, s chemistry.Span[Q], scale float64, unit, note string) Field {
	return Field{Label: label, Text: to(s, scale, unit), Note: note, Value: between(float64(s.Low)*scale, float64(s.High)*scale, unit)}
}

// productText names the pigment with its bound water.
func productText(t *chemistry.Theory) string {
	if t.Water.High == 0 || strings.Contains(t.Product, "-") {
		return t.Product
	}
	return t.Product + " with " + waterText(t.Water)
}

// waterText is bound water as it was given.
func waterText(w chemistry.Span[quantity.Ratio]) string {
	if w.Low == w.High {
		return Given(w.High) + " H2O"
	}
	return Given(w.Low) + " to " + Given(w.High) + " H2O"
}

func yieldLead(r *formulate.YieldResult) string {
	t := &r.Theory
	can := to(t.Mass, 1, "g") + " of " + productText(t)
	if r.Finding == nil {
		return "The most that can form is " + can + "."
	}
	got := Given(r.Request.Got) + " g"
	switch r.Finding.Verdict {
	case chemistry.Less:
		return fmt.Sprintf("%s came out of at most %s: a yield of %s.", got, can, to(r.Finding.Yield, 100, "%"))
	case chemistry.Hydrate:
		return fmt.Sprintf("%s came out; theory allows %s. It is as much as the bound water explains, with nothing lost.", got, can)
	}
	return fmt.Sprintf("%s came out, more than the %s that can form. That is a finding, not a success: the difference is water or salts.", got, can)
}

func reactionSection(r *formulate.YieldResult) Section {
	var atoms []string
	for _, a := range r.Atoms {
		atoms = append(atoms, a.Symbol+" "+Given(a.Count))
	}
	t := &r.Theory
	sec := Section{Title: "The reaction", Fields: []Field{
		{Label: "balanced", Text: "yes: " + strings.Join(atoms, ", ") + " on both sides"},
		{Label: "the pigment", Text: productText(t), Note: productNote(r)},
		{Label: "runs out first", Text: t.Limiting},
	}}
	for _, u := range t.Used {
		if u.Substance == t.Limiting || u.Left < 1e-9 {
			continue
		}
		sec.Fields = append(sec.Fields, Field{Label: "in excess", Text: u.Substance,
			Note: fmt.Sprintf("· %s g left over, %s more than needed", Digits(float64(u.Left), 3), roughlyShare(u.Excess)), Value: single(u.Left, "g")})
	}
	for _, s := range t.Unweighed {
		sec.Fields = append(sec.Fields, Field{Label: "not weighed", Text: s, Note: "· taken as there in plenty"})
	}
	return sec
}

func productNote(r *formulate.YieldResult) string {
	var notes []string
	if r.Request.Looked {
		notes = append(notes, "bound water from the catalogue's formula of "+r.Request.Pigment.ID)
	}
	if len(r.Request.Reaction.Products) > 1 {
		notes = append(notes, "--product names another")
	}
	return noteLine(notes)
}

func theorySection(r *formulate.YieldResult) Section {
	t := &r.Theory
	sec := Section{Title: "What can form", Fields: []Field{spanField("pigment at most", t.Mass, 1, "g", "")}}
	if share := float64(t.Tolerance) / float64(t.Mass.High); share >= 0.0005 {
		sec.Fields = append(sec.Fields, Field{Label: "of this left open", Text: "± " + Digits(float64(t.Tolerance), 2) + " g", Note: "· by the atomic weights: ores differ", Value: single(t.Tolerance, "g")})
	}
	for _, b := range t.ByProducts {
		sec.Fields = append(sec.Fields, Field{Label: "beside it", Text: Digits(float64(b.Mass), 3) + " g " + b.Substance, Value: single(b.Mass, "g")})
	}
	return sec
}

func jarSection(r *formulate.YieldResult) Section {
	f := r.Finding
	if f == nil {
		return Section{}
	}
	sec := Section{Title: "What came out", Fields: []Field{
		{Label: "weighed", Text: Given(r.Request.Got) + " g", Value: single(r.Request.Got, "g")},
		spanField("yield", f.Yield, 100, "%", "· of theory"),
		{Label: "weighing leaves open", Text: "± " + Digits(float64(r.Doubt), 2) + " g", Note: "· one standard uncertainty", Value: single(r.Doubt, "g")},
	}}
	if f.Foreign.High > 0 {
		sec.Fields = append(sec.Fields, spanField("water or salts", f.Foreign, 1, "g", "· cannot be the pigment"))
	}
	if j := r.Jar; j != nil {
		sec.Fields = append(sec.Fields,
			spanField("pigment in the jar", j.Pigment, 1, "g", jarNote(r)),
			spanField("which is", j.Share, 100, "%", "· of the jar"))
	}
	return sec
}

// jarNote says with what bound water a jar was judged.
func jarNote(r *formulate.YieldResult) string {
	switch w := r.Theory.Water; {
	case w.High == 0:
		return "· nothing lost, and no bound water in it: none was given"
	case w.Low == w.High:
		return "· with its bound water, nothing lost"
	}
	return "· at both extremes of its bound water, nothing lost"
}

func rinseSection(r *formulate.YieldResult) Section {
	x, asked := r.Rinsed, r.Request.Rinse
	if x == nil {
		return Section{}
	}
	var names []string
	var sum quantity.Mass
	for _, d := range x.Dissolved {
		names = append(names, d.Substance)
		sum += d.Mass
	}
	sec := Section{Title: "Rinsing", Fields: []Field{
		{Label: "each rinse", Text: Given(asked.Water) + " ml of water", Note: "· " + Given(asked.Held) + " ml stay behind in the powder"},
	}}
	if len(names) > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "dissolved at first", Text: Digits(float64(sum), 3) + " g", Note: "· " + strings.Join(names, ", "), Value: single(sum, "g")})
	}
	if asked.Times > 0 {
		sec.Fields = append(sec.Fields,
			Field{Label: fmt.Sprintf("after %d %s", asked.Times, plural("rinse", asked.Times)), Text: smallShare(x.Left), Note: "· of the salts still there", Value: single(x.Left*100, "%")},
			Field{Label: "that is", Text: Digits(float64(x.Salts), 2) + " g", Note: "· " + smallShare(x.InPowder) + " of the dry powder", Value: single(x.Salts, "g")})
	}
	if asked.Target > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "to leave " + percent(asked.Target), Text: fmt.Sprintf("%d %s", x.Needed, plural("rinse", x.Needed)), Value: single(quantity.Ratio(x.Needed), "")})
	}
	return sec
}

// smallShare prints a share that may be tiny.
func smallShare[Q quantity.Real](v Q) string {
	if v < 1e-6 {
		return "under 0.0001 %"
	}
	return Digits(float64(v)*100, 2) + " %"
}

func yieldNext(r *formulate.YieldResult) []string {
	if r.Finding == nil {
		return []string{"Give what the dried pigment weighs with --got."}
	}
	var out []string
	for _, h := range r.Request.Hydrates {
		out = append(out, fmt.Sprintf("%s of the catalogue holds %s, which is not counted here: if this is it, ask again with --pigment %s.", h.Material.Name, waterText(h.Water), h.Material.ID))
	}
	if j := r.Jar; j != nil && j.Moisture.High > 0 && len(out) == 0 {
		name := "PIGMENT"
		if r.Request.Pigment != nil {
			name = r.Request.Pigment.ID
		}
		low, high := Digits(float64(j.Moisture.Low)*100, 2), Digits(float64(j.Moisture.High)*100, 2)
		which := fmt.Sprintf("with --moisture %s%% and again with --moisture %s%%", low, high)
		if low == high || j.Moisture.Low <= 0 {
			which = fmt.Sprintf("with --moisture %s%%", high)
		}
		out = append(out, fmt.Sprintf("Mull it as damp: 'mullwright mull %s --pigment-mass ...' %s; the truth lies between, if it is water. Salts stay in the paint: rinse first.", name, which))
	}
	if r.Finding.Verdict != chemistry.Less {
		out = append(out, "Dry it as its heat caution allows until its weight stays, and weigh again: see 'mullwright powder moisture'. What drying does not take away is salts or bound water.")
	}
	if r.Rinsed == nil {
		out = append(out, "See what rinsing leaves: --rinses, --rinse-water, --held.")
	}
	return out
}

// YieldJSON is the yield's JSON contract.
type YieldJSON struct {
	Version    int             `json:"version"`
	Kind       string          `json:"kind"`
	Reaction   string          `json:"reaction"`
	Atoms      []AtomJSON      `json:"atoms_each_side"`
	Product    string          `json:"product"`
	Water      SpanJSON        `json:"bound_water"`
	Limiting   string          `json:"limiting"`
	Used       []UseJSON       `json:"weighed_in"`
	Unweighed  []string        `json:"not_weighed"`
	TheoryG    SpanJSON        `json:"theory_g"`
	ToleranceG float64         `json:"theory_tolerance_g"`
	ByProducts []ByProductJSON `json:"by_products"`
	Found      *FoundJSON      `json:"found"`
	Rinsed     *RinsedJSON     `json:"rinsed"`
	Warnings   []string        `json:"warnings"`
	Cautions   []CautionView   `json:"cautions"`
	Sources    []string        `json:"sources"`
	Derivation []StepView      `json:"derivation,omitempty"`
}

// SpanJSON is both ends of what a value may be.
type SpanJSON struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

func spanView[Q quantity.Real](s chemistry.Span[Q]) SpanJSON {
	return SpanJSON{float64(s.Low), float64(s.High)}
}

// AtomJSON is an element and how often it stands there.
type AtomJSON struct {
	Symbol string  `json:"symbol"`
	Count  float64 `json:"count"`
}

// UseJSON is what became of one reactant.
type UseJSON struct {
	Substance string  `json:"substance"`
	PureG     float64 `json:"pure_g"`
	Mol       float64 `json:"mol"`
	NeededG   float64 `json:"needed_g"`
	LeftG     float64 `json:"left_g"`
	Excess    float64 `json:"excess"`
}

// ByProductJSON is what else there is.
type ByProductJSON struct {
	Substance string  `json:"substance"`
	MassG     float64 `json:"mass_g"`
}

// FoundJSON is a weighing beside the theory.
type FoundJSON struct {
	GotG         float64   `json:"got_g"`
	Verdict      string    `json:"verdict"`
	Yield        SpanJSON  `json:"yield"`
	ForeignG     SpanJSON  `json:"water_or_salts_g"`
	DoubtG       float64   `json:"u_g"`
	Blurred      bool      `json:"within_doubt"`
	PigmentG     *SpanJSON `json:"pigment_in_jar_g"`
	PigmentShare *SpanJSON `json:"pigment_in_jar"`
	Moisture     *SpanJSON `json:"moisture_for_mull"`
}

// RinsedJSON is what rinsing leaves.
type RinsedJSON struct {
	Rinses    int             `json:"rinses"`
	Left      float64         `json:"salts_left"`
	Dissolved []ByProductJSON `json:"dissolved"`
	SaltsG    float64         `json:"salts_g"`
	InPowder  float64         `json:"salts_in_dry_powder"`
	Target    float64         `json:"target"`
	Needed    int             `json:"rinses_for_target"`
}

// YieldView is the result in JSON.
func YieldView(r *formulate.YieldResult, explain bool) any {
	t := &r.Theory
	v := YieldJSON{
		Version: 1, Kind: "yield", Reaction: r.Request.Reaction.String(), Atoms: atomViews(r.Atoms), Product: t.Product, Water: spanView(t.Water), Limiting: t.Limiting,
		Used: []UseJSON{}, Unweighed: orEmpty(t.Unweighed), TheoryG: spanView(t.Mass), ToleranceG: float64(t.Tolerance), ByProducts: byProductViews(t.ByProducts),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Sources: []string{weightsSource}, Derivation: stepViews(r.Steps, explain),
	}
	for _, u := range t.Used {
		v.Used = append(v.Used, UseJSON{u.Substance, float64(u.Given), float64(u.Amount), float64(u.Needed), float64(u.Left), float64(u.Excess)})
	}
	if f := r.Finding; f != nil {
		v.Found = &FoundJSON{GotG: float64(r.Request.Got), Verdict: string(f.Verdict), Yield: spanView(f.Yield), ForeignG: spanView(f.Foreign), DoubtG: float64(r.Doubt), Blurred: r.Blurred}
		if j := r.Jar; j != nil {
			mass, share, moisture := spanView(j.Pigment), spanView(j.Share), spanView(j.Moisture)
			v.Found.PigmentG, v.Found.PigmentShare, v.Found.Moisture = &mass, &share, &moisture
		}
	}
	if x := r.Rinsed; x != nil {
		v.Rinsed = &RinsedJSON{r.Request.Rinse.Times, float64(x.Left), byProductViews(x.Dissolved), float64(x.Salts), float64(x.InPowder), float64(r.Request.Rinse.Target), x.Needed}
	}
	return v
}

func atomViews(list []chemistry.Atom) []AtomJSON {
	out := make([]AtomJSON, len(list))
	for i, a := range list {
		out[i] = AtomJSON(a)
	}
	return out
}

func byProductViews(list []chemistry.ByProduct) []ByProductJSON {
	out := make([]ByProductJSON, len(list))
	for i, b := range list {
		out[i] = ByProductJSON{b.Substance, float64(b.Mass)}
	}
	return out
}

// FormulaSheet lays one formula out.
func FormulaSheet(r *formulate.FormulaResult, explain bool) *Sheet {
	s := &Sheet{Title: "Formula: " + r.Formula.String()}
	sec := Section{Fields: []Field{spanField("molar mass", r.MolarMass, 1, "g/mol", "· ± "+Digits(float64(r.Tolerance), 2)+" by the atomic weights of ordinary samples")}}
	if _, ranged := r.Formula.RangedWater(); ranged {
		sec.Fields[0].Text = molarText(r.MolarMass)
	} else {
		sec.Fields[0].Text = Digits(float64(r.MolarMass.Low), 5) + " g/mol"
		sec.Fields = append(sec.Fields, Field{Label: "atoms", Text: r.Formula.Sum()})
	}
	if r.Water.High > 0 {
		sec.Fields = append(sec.Fields, spanField("bound water", r.Water, 100, "%", "· of its mass"))
	}
	s.Add(sec)
	s.Add(Section{Title: "Composition", Table: compositionTable(r)})
	s.addCautions(r.Cautions)
	if explain {
		s.Add(stepSection(r.Steps))
	}
	s.Add(Section{Title: "Sources", Lines: []string{weightsSource}})
	return s
}

// compositionTable has a column for each end of the bound water. Formulas stand
// in cells and headings of tables, never in a title: titles are set in capitals.
func compositionTable(r *formulate.FormulaResult) *Table {
	t := &Table{Columns: []Column{{Title: "element"}, {Title: "atomic weight", Right: true}}}
	water, ranged := r.Formula.RangedWater()
	if ranged {
		for _, n := range []quantity.Ratio{water.Low, water.High} {
			t.Columns = append(t.Columns, Column{"% with " + Given(n) + " H2O", true})
		}
	} else {
		t.Columns = append(t.Columns, Column{"atoms", true}, Column{"% by mass", true})
	}
	for i, x := range r.Ends[0].Shares {
		row := []string{x.Name, Given(x.Weight)}
		if !ranged {
			row = append(row, Given(x.Count))
		}
		for _, end := range r.Ends {
			row = append(row, Places(float64(end.Shares[i].Mass)*100, 2))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func molarText(m chemistry.Span[quantity.MolarMass]) string {
	return Digits(float64(m.Low), 5) + " to " + Digits(float64(m.High), 5) + " g/mol"
}

// FormulaJSON is a formula's JSON contract.
type FormulaJSON struct {
	Version      int               `json:"version"`
	Kind         string            `json:"kind"`
	Formula      string            `json:"formula"`
	MolarMass    SpanJSON          `json:"molar_mass_g_per_mol"`
	Tolerance    float64           `json:"tolerance_g_per_mol"`
	Water        SpanJSON          `json:"bound_water_fraction"`
	Compositions []CompositionJSON `json:"compositions"`
	Cautions     []CautionView     `json:"cautions"`
	Sources      []string          `json:"sources"`
	Derivation   []StepView        `json:"derivation,omitempty"`
}

// CompositionJSON is what the elements weigh.
type CompositionJSON struct {
	Formula  string        `json:"formula"`
	Elements []ElementJSON `json:"elements"`
}

// ElementJSON is one element's part.
type ElementJSON struct {
	Symbol   string  `json:"symbol"`
	Name     string  `json:"name"`
	Count    float64 `json:"count"`
	Weight   float64 `json:"atomic_weight"`
	Fraction float64 `json:"mass_fraction"`
}

// FormulaView is one formula in JSON.
func FormulaView(r *formulate.FormulaResult, explain bool) any {
	v := FormulaJSON{Version: 1, Kind: "formula", Formula: r.Formula.String(), MolarMass: spanView(r.MolarMass), Tolerance: float64(r.Tolerance), Water: spanView(r.Water),
		Compositions: []CompositionJSON{}, Cautions: cautionViews(r.Cautions), Sources: []string{weightsSource}, Derivation: stepViews(r.Steps, explain)}
	for _, end := range r.Ends {
		c := CompositionJSON{Formula: end.Formula}
		for _, x := range end.Shares {
			c.Elements = append(c.Elements, ElementJSON{x.Symbol, x.Name, x.Count, float64(x.Weight), float64(x.Mass)})
		}
		v.Compositions = append(v.Compositions, c)
	}
	return v
}
