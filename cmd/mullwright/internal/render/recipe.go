package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/material"
)

// RecipeSheet lays out what a recipe truly holds and what its words are worth.
func RecipeSheet(r *formulate.RecipeResult, cite Cite, explain bool) *Sheet {
	s := &Sheet{Title: recipeTitle(r), Lead: recipeLead(r)}
	byMass, byVolume := contentsSections(r)
	s.Add(byMass)
	s.Add(byVolume)
	for i := range r.Sayings {
		s.Add(sayingSection(&r.Sayings[i], r.Figures.PigmentMass.Typical > 0))
	}
	for i := range r.Makings {
		s.Add(makingSection(&r.Makings[i]))
	}
	s.Add(recipeFigures(r))
	return s.finish(r.Warnings, r.Cautions, r.Steps, SourceKeys(recipeMaterials(r)...), cite, explain)
}

func recipeMaterials(r *formulate.RecipeResult) []*material.Material {
	var out []*material.Material
	for i := range r.Entries {
		out = append(out, r.Entries[i].Line.Of.Materials()...)
	}
	return out
}

func recipeTitle(r *formulate.RecipeResult) string {
	if r.Request.Name != "" {
		return "Recipe: " + r.Request.Name
	}
	var names []string
	for i := range r.Entries {
		names = append(names, r.Entries[i].Line.Of.Material.Name)
	}
	return "Recipe of " + strings.Join(names, ", ")
}

func recipeLead(r *formulate.RecipeResult) string {
	var lead string
	bad := 0
	for i := range r.Sayings {
		if r.Sayings[i].Truth != formulate.TrueAsSaid {
			bad++
		}
	}
	for i := range r.Makings {
		if !r.Makings[i].Fits {
			bad++
		}
	}
	switch n := len(r.Sayings) + len(r.Makings); {
	case n == 0:
		lead = "What it truly holds."
	case bad == 0 && n == 1:
		lead = "What it says of itself is right."
	case bad == 0:
		lead = "All it says of itself is right."
	case n == 1:
		lead = "What it says of itself is not right as it stands."
	case bad == n:
		lead = fmt.Sprintf("None of the %d things it says of itself is right as it stands.", n)
	case bad == 1:
		lead = fmt.Sprintf("Of the %d things it says of itself, 1 is not right as it stands.", n)
	default:
		lead = fmt.Sprintf("Of the %d things it says of itself, %d are not right as they stand.", n, bad)
	}
	if r.Request.Relative {
		lead += " It is in parts: the amounts are for 100 g."
	}
	return lead + " " + spreadText(r.Request.Sampling, "jars")
}

// contentsSections are the contents by mass and by volume: side by side their
// ranges do not fit a line.
func contentsSections(r *formulate.RecipeResult) (byMass, byVolume Section) {
	table := func(unit, share string) *Table {
		return &Table{Columns: []Column{{Title: "as written"}, {Title: unit, Right: true}, {Title: share, Right: true}}}
	}
	mass, volume := table("g", "% by mass"), table("ml", "% by volume")
	for i := range r.Entries {
		e := &r.Entries[i]
		name := asWritten(&e.Line)
		mass.Rows = append(mass.Rows, []string{name, bare(Range(e.Mass, 1, 3, "")), bare(Range(e.MassShare, 100, 3, ""))})
		volume.Rows = append(volume.Rows, []string{name, bare(Range(e.Volume, 1, 3, "")), bare(Range(e.VolumeShare, 100, 3, ""))})
	}
	if len(r.Entries) > 1 {
		mass.Rows = append(mass.Rows, []string{"in all", bare(Range(r.Figures.Mass, 1, 3, "")), "100"})
		volume.Rows = append(volume.Rows, []string{"in all", bare(Range(r.Figures.Volume, 1, 3, "")), "100"})
	}
	return Section{Title: "What it holds, by mass", Table: mass}, Section{Title: "And by true volume", Table: volume}
}

func asWritten(l *formulate.RecipeLine) string {
	s := strings.TrimSpace(l.Written + " " + l.Of.Material.ID)
	switch l.By {
	case formulate.SpoonedOut:
		s += ", loose"
	case formulate.SolidVolume:
		s += ", solid"
	}
	if l.Moisture > 0 {
		s += ", damp"
	}
	return s
}

var wholeWords = map[formulate.Whole]string{
	formulate.OfPaste: "of the paste", formulate.OfPowder: "of the pigment", formulate.OfBinder: "of the oil or binder",
	formulate.OfLiquid: "of all liquid", formulate.OfFilm: "of the dry film", formulate.OfRest: "of all the rest",
}

var percentWords = map[formulate.PercentBy]string{
	formulate.MassPercent: "by mass", formulate.VolumePercent: "by volume", formulate.MassInVolume: "as g in 100 ml",
}

// basisWords says a basis; a mixture without pigment is no paste.
func basisWords(b formulate.PercentBasis, paste bool) string {
	of := wholeWords[b.Of]
	if b.Of == formulate.OfPaste && !paste {
		of = "of the whole"
	}
	return of + " " + percentWords[b.By]
}

// sayingSection holds one stated percentage against every basis.
func sayingSection(s *formulate.SayingResult, paste bool) Section {
	read := Range(s.Read.True, 100, 3, "%")
	as := basisWords(s.Read.Basis, paste)
	var verdict string
	switch s.Truth {
	case formulate.TrueAsSaid:
		verdict = "right: " + as + " it is " + read
	case formulate.TrueOtherwise:
		var right []string
		for _, b := range s.Bases {
			if b.Fits {
				right = append(right, basisWords(b.Basis, paste))
			}
		}
		verdict = "right only if it means " + strings.Join(right, ", or ") + "; " + as + " it is " + read
	default:
		verdict = "wrong, whatever it means; " + as + " it is " + read
	}
	sec := Section{Title: "It says " + s.Saying.Written, Fields: []Field{{Label: "verdict", Text: verdict}}}
	if s.Truth == formulate.TrueAsSaid && s.Saying.Basis.Of != formulate.NotSaid {
		return sec
	}
	if s.Truth != formulate.TrueAsSaid {
		sec.Fields = append(sec.Fields, Field{Label: "out by", Text: outBy(s)})
	}
	if s.Saying.Basis.Of == formulate.NotSaid {
		sec.Fields = append(sec.Fields, Field{Label: "read as", Text: as, Note: "· since it does not say of what"})
	}
	t := &Table{Columns: []Column{{Title: "if it means"}, {Title: "truly, %", Right: true}, {Title: ""}}}
	for _, b := range s.Bases {
		mark := ""
		if b.Fits {
			mark = "fits"
		}
		t.Rows = append(t.Rows, []string{basisWords(b.Basis, paste), bare(Range(b.True, 100, 3, "")), mark})
	}
	sec.Table = t
	return sec
}

// outBy says how far a stated percentage is from the true one.
func outBy(s *formulate.SayingResult) string {
	by, times := s.OutBy()
	way := "above"
	if by < 0 {
		by, way = -by, "below"
	}
	return fmt.Sprintf("%s points: the truth lies %s, at %s times the figure", Digits(100*float64(by), 2), way, Digits(float64(times), 2))
}

func makingSection(m *formulate.MakingResult) Section {
	sec := Section{Title: "It makes " + m.Making.Written}
	sum, stated, unit := Range(m.Volume, 1, 3, "ml"), float64(m.Making.Volume), "ml"
	if m.Making.Mass > 0 {
		sum, stated, unit = Range(m.Mass, 1, 3, "g"), float64(m.Making.Mass), "g"
	}
	verdict := "right: " + sum
	if !m.Fits {
		verdict = fmt.Sprintf("wrong: %s %s is said, the parts add up to %s (%s times)", Digits(stated, 3), unit, sum, Digits(float64(m.Times()), 2))
		if m.Times() > 1 {
			verdict += "; volumes do not vanish in mixing, only on slab and knife"
		}
	}
	sec.Fields = []Field{{Label: "verdict", Text: verdict}}
	return sec
}

func recipeFigures(r *formulate.RecipeResult) Section {
	f := &r.Figures
	sec := Section{Title: "What that is", Fields: []Field{
		RangeField("density", f.Density, 1, 3, "g/ml", ""),
	}}
	add := func(x ...Field) { sec.Fields = append(sec.Fields, x...) }
	if f.BinderMass.Typical > 0 && f.PigmentMass.Typical > 0 {
		add(RangeField("binder per 100 g of powder", f.OilPerPigment, 1, 3, "g", ""))
	}
	if f.BinderMass.Typical > 0 {
		add(RangeField("binder, by mass", f.BinderByMass, 100, 3, "%", "· of the whole"),
			RangeField("binder, by volume", f.BinderByVolume, 100, 3, "%", ""))
	}
	if f.PigmentMass.Typical > 0 {
		add(RangeField("pigment volume (PVC)", f.PVC, 100, 3, "%", "· of the dry film"),
			RangeField("critical PVC", f.CPVC, 100, 3, "%", "· where binder just fills the gaps"),
			RangeField("reduced PVC", f.ReducedPVC, 1, 2, "", "· PVC over critical"))
	}
	if f.VolatileMass.Typical > 0 {
		add(RangeField("leaves in drying", f.VolatileByMass, 100, 2, "%", "· of the mass"),
			RangeField("solids by volume", f.SolidsByVolume, 100, 3, "%", ""))
	}
	if c := r.Consistency; c != nil {
		add(Field{Label: "for its oil it should be", Text: consistency(*c)})
	}
	if f.Cost.Typical > 0 {
		add(RangeField("cost", f.Cost, 1, 3, "", "· in your money, of what has a price"))
	}
	return sec
}

// RecipeJSONVersion is the version of the recipe's JSON contract.
const RecipeJSONVersion = 1

// RecipeJSON is the recipe's JSON contract. Masses are g, volumes ml, fractions
// 0 to 1; percents say percent.
type RecipeJSON struct {
	Version    int              `json:"version"`
	Kind       string           `json:"kind"`
	Draws      string           `json:"answer"`
	Name       string           `json:"name"`
	Relative   bool             `json:"in_parts"`
	Materials  []RecipeLineJSON `json:"materials"`
	Says       []SayingJSON     `json:"says"`
	Makes      []MakingJSON     `json:"makes"`
	Figures    FiguresJSON      `json:"figures"`
	SolidsMass RangeView        `json:"solids_mass_fraction"`
	SolidsVol  RangeView        `json:"solids_volume_fraction"`
	OverTube   *RangeView       `json:"oil_over_tube_colour"`
	Warnings   []string         `json:"warnings"`
	Cautions   []CautionView    `json:"cautions"`
	Sources    []SourceView     `json:"sources"`
	Derivation []StepView       `json:"derivation,omitempty"`
}

// RecipeLineJSON is one line of the recipe.
type RecipeLineJSON struct {
	ID            string    `json:"id"`
	Line          int       `json:"line"`
	Written       string    `json:"written"`
	MassG         RangeView `json:"mass_g"`
	VolumeML      RangeView `json:"volume_ml"`
	MassPercent   RangeView `json:"mass_percent"`
	VolumePercent RangeView `json:"volume_percent"`
}

// SayingJSON is one stated percentage.
type SayingJSON struct {
	Line    int         `json:"line"`
	Written string      `json:"written"`
	Percent float64     `json:"percent"`
	Verdict string      `json:"verdict"`
	Bases   []BasisJSON `json:"bases"`
}

// BasisJSON is what the percentage is on one basis.
type BasisJSON struct {
	Of      string    `json:"of"`
	By      string    `json:"by"`
	Percent RangeView `json:"true_percent"`
	Fits    bool      `json:"fits"`
}

// MakingJSON is a stated yield.
type MakingJSON struct {
	Line     int       `json:"line"`
	Written  string    `json:"written"`
	MassG    RangeView `json:"true_mass_g"`
	VolumeML RangeView `json:"true_volume_ml"`
	Fits     bool      `json:"fits"`
}

var truthNames = map[formulate.Truth]string{formulate.TrueAsSaid: "right", formulate.TrueOtherwise: "right_on_another_basis", formulate.Untrue: "wrong"}

var wholeNames = map[formulate.Whole]string{
	formulate.OfPaste: "paste", formulate.OfPowder: "pigment", formulate.OfBinder: "binder",
	formulate.OfLiquid: "liquid", formulate.OfFilm: "film", formulate.OfRest: "rest",
}

var percentNames = map[formulate.PercentBy]string{formulate.MassPercent: "mass", formulate.VolumePercent: "volume", formulate.MassInVolume: "g_per_100ml"}

// RecipeView is the JSON view of a recipe.
func RecipeView(r *formulate.RecipeResult, cite Cite, explain bool) RecipeJSON {
	v := RecipeJSON{
		Version: RecipeJSONVersion, Kind: "recipe", Draws: answerKind(r.Request.Sampling), Name: r.Request.Name, Relative: r.Request.Relative,
		Materials: []RecipeLineJSON{}, Says: []SayingJSON{}, Makes: []MakingJSON{}, Figures: figuresView(&r.Figures),
		SolidsMass: rangeView(r.Figures.SolidsByMass, 1), SolidsVol: rangeView(r.Figures.SolidsByVolume, 1),
		Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(SourceKeys(recipeMaterials(r)...), cite), Derivation: stepViews(r.Steps, explain),
	}
	for i := range r.Entries {
		e := &r.Entries[i]
		v.Materials = append(v.Materials, RecipeLineJSON{e.Line.Of.Material.ID, e.Line.Line, e.Line.Written,
			rangeView(e.Mass, 1), rangeView(e.Volume, 1), rangeView(e.MassShare, 100), rangeView(e.VolumeShare, 100)})
	}
	for i := range r.Sayings {
		s := &r.Sayings[i]
		j := SayingJSON{Line: s.Saying.Line, Written: s.Saying.Written, Percent: float64(s.Saying.Share) * 100, Verdict: truthNames[s.Truth], Bases: []BasisJSON{}}
		for _, b := range s.Bases {
			j.Bases = append(j.Bases, BasisJSON{wholeNames[b.Basis.Of], percentNames[b.Basis.By], rangeView(b.True, 100), b.Fits})
		}
		v.Says = append(v.Says, j)
	}
	for _, m := range r.Makings {
		v.Makes = append(v.Makes, MakingJSON{m.Making.Line, m.Making.Written, rangeView(m.Mass, 1), rangeView(m.Volume, 1), m.Fits})
	}
	v.OverTube = rangeOrNone(r.Consistency)
	return v
}
