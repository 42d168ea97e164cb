package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// InkSheet lays an ink out as a weighing card.
func InkSheet(r *formulate.InkResult, cite Cite, explain bool) *Sheet {
	if r.Oil != nil {
		return oilInkSheet(r, cite, explain)
	}
	req := &r.Request
	s := &Sheet{Title: "Ink card: " + pigmentNames(req.Pigments) + " in " + gumName(req.Solution)}
	s.Lead = fmt.Sprintf("For %s, for %s. %s", bottleText(req.Amount), toolText(req.Tool.Use), spreadText(req.Sampling, "batches"))
	s.Add(againstSection(r))
	s.Add(inkWeighSection(r))
	s.Add(inkYieldSection(r))
	s.Add(compositionSection(r.Composition))
	s.Add(inkBinderSection(r, cite))
	s.Add(inkFlowSection(r))
	s.Add(settlingSection(r))
	s.Add(nibSection(r))
	s.Add(lineSection(&r.Film))
	s.Add(doseSection(r.Doses, cite))
	s.Add(inkNextSection(r))
	s.Add(markedLines("Assumed, not known", r.Hypotheses))
	return s.finish(r.Warnings, r.Cautions, r.Steps, inkSources(r), cite, explain)
}

// oilInkSheet is the card of the mull with what a print takes.
func oilInkSheet(r *formulate.InkResult, cite Cite, explain bool) *Sheet {
	s := MullSheet(r.Oil, cite, explain)
	s.Title = strings.Replace(s.Title, "Weighing card", "Ink card", 1)
	s.Lead = "Printing ink: the paste of the oil mull. " + s.Lead
	extra := []Section{againstSection(r), lineSection(&r.Film)}
	extra[1].Lines = append(extra[1].Lines, "The wet film is common practice: weigh the block before and after inking to find yours. If the ink is too stiff to roll, warm the slab or add oil by drops; if it fills the fine lines, more pigment.")
	head := s.Sections[:2:2]
	tail := append([]Section(nil), s.Sections[2:]...)
	s.Sections = head
	for _, e := range extra {
		s.Add(e)
	}
	s.Sections = append(s.Sections, tail...)
	return s
}

func toolText(u formulate.InkUse) string {
	switch u {
	case formulate.DipPen:
		return "a dip pen"
	case formulate.BrushInk:
		return "a brush"
	case formulate.Fountain:
		return "a fountain pen"
	}
	return "relief printing"
}

func bottleText(a formulate.Amount) string {
	if a.Kind != formulate.ByTubes {
		return amountText(a, "ink")
	}
	if a.Tubes == 1 {
		return fmt.Sprintf("a bottle of %s ml, filled to %s", Given(a.Volume), percent(a.Fill))
	}
	return fmt.Sprintf("%d bottles of %s ml, filled to %s", a.Tubes, Given(a.Volume), percent(a.Fill))
}

// againstSection says plainly what an ink is not for.
func againstSection(r *formulate.InkResult) Section {
	if len(r.Against) == 0 {
		return Section{}
	}
	sec := markedLines("Not for "+toolText(r.Request.Tool.Use), r.Against)
	if r.Request.Tool.Use == formulate.ReliefPrint {
		sec.Title = "Not for a roller"
	}
	return sec
}

func inkWeighSection(r *formulate.InkResult) Section {
	req := &r.Request
	scaled := func(m quantity.Mass) string { return OnScale(m, req.Scale) }
	sec := Section{Title: "Weigh"}
	sec.Fields = append(sec.Fields, pigmentFields(r.Pigments, r.CakeWater, req.Scale)...)
	solution := Field{Label: r.Solution.Material.Name, Text: scaled(r.Solution.OnScale), Value: Numbers(r.Solution.Mass, 1, "g")}
	var notes []string
	switch {
	case req.Binding.Rule == formulate.BinderUndiluted:
		notes = append(notes, "all the liquid there is")
	case r.Solution.Mass.Low != r.Solution.Mass.High:
		notes = append(notes, fmt.Sprintf("between %s and %s g: add by thirds, rub test after each", Digits(float64(r.Solution.Mass.Low), 2), Digits(float64(r.Solution.Mass.High), 2)))
	}
	notes = append(notes, fmt.Sprintf("%s g of %s in it", Digits(float64(r.SolutionGum), 2), gumName(req.Solution)))
	solution.Note = noteLine(notes)
	sec.Fields = append(sec.Fields, solution)
	for _, h := range r.Humectants {
		sec.Fields = append(sec.Fields, Field{Label: h.Material.Name, Text: scaled(h.OnScale), Note: "· " + Digits(float64(h.Ratio), 2) + " of the gum", Value: Numbers(h.Mass, 1, "g")})
	}
	for _, a := range r.Additives {
		sec.Fields = append(sec.Fields, Field{Label: a.Material.Name, Text: scaled(a.OnScale), Note: "· " + percent(a.Share) + " of the ink", Value: Numbers(a.Mass, 1, "g")})
	}
	if r.Water.High > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "distilled water", Text: Range(r.Water, 1, 3, "g"), Note: "· grind the pigment in some of it first", Value: Numbers(r.Water, 1, "g")})
	}
	return sec
}

func inkYieldSection(r *formulate.InkResult) Section {
	f := r.Figures
	sec := Section{Title: "What you get", Fields: []Field{
		RangeField("ink", r.Yield.Volume, 1, 3, "ml", inkNote(r.Request.Amount)),
		RangeField("", r.Yield.Mass, 1, 3, "g", ""),
		RangeField("pigment by mass", r.PigmentByMass, 100, 2, "%", "· one published ink sheet has 23 %"),
		RangeField("pigment by volume", r.PigmentByVolume, 100, 2, "%", ""),
		RangeField("density", f.Density, 1, 3, "g/ml", ""),
	}}
	if l := r.Request.Loss; l > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "lost on the slab", Text: percent(l), Note: "· of what is made, taken off"})
	}
	if f.Cost.Typical > 0 {
		sec.Fields = append(sec.Fields, RangeField("cost", f.Cost, 1, 3, "", "in your money, of what has a price"))
	}
	return sec
}

// inkNote says what of a bottle is ink.
func inkNote(a formulate.Amount) string {
	if a.Kind != formulate.ByTubes {
		return ""
	}
	note := fmt.Sprintf("· a bottle of %s ml holds %s ml, filled to %s", Given(a.Volume), Given(a.Each()), percent(a.Fill))
	if a.Tubes > 1 {
		note += fmt.Sprintf("; for %d of them", a.Tubes)
	}
	return note
}

func inkBinderSection(r *formulate.InkResult, cite Cite) Section {
	sec := Section{Title: "Binder"}
	if r.Request.Solution.Holds(material.Gum) {
		sec = humectantSection(r.Humectant, r.OfBinder, r.Published, "", cite)
		sec.Title = "Binder"
	}
	sec.Fields = append(sec.Fields, RangeField("pigment volume (PVC)", r.Figures.PVC, 100, 2, "%", "· of the dry film"))
	if r.Request.Binding.Rule != formulate.BinderByDemand {
		sec.Fields = append(sec.Fields, RangeField("demand hypothesis", r.Wanted, 1, 2, "", "· times the dry binder that is in"))
	}
	return sec
}

func inkFlowSection(r *formulate.InkResult) Section {
	t := r.Request.Tool
	sec := Section{Title: fmt.Sprintf("Flow at %s °C", Given(r.Request.Temperature))}
	if r.Vehicle != nil {
		sec.Fields = append(sec.Fields, RangeField("vehicle", *r.Vehicle, 1, 2, "mPa·s", "· water is 1"))
	}
	if r.Ink != nil {
		sec.Fields = append(sec.Fields, RangeField("ink", *r.Ink, 1, 2, "mPa·s", "· brushed quickly, well dispersed"))
	}
	if r.Vehicle == nil {
		sec.Fields = append(sec.Fields, Field{Label: "vehicle", Text: "not known", Note: "· " + r.WhyNot})
	}
	if t.Thick > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "usual for " + toolText(t.Use), Text: fmt.Sprintf("%s–%s mPa·s", Given(t.Thin), Given(t.Thick)), Note: "· " + formulate.ToolBasis})
	}
	return sec
}

func settlingSection(r *formulate.InkResult) Section {
	req := &r.Request
	sec := Section{Title: "Settling in the bottle"}
	if len(r.Settling) > 1 {
		sec.Under = "The ink stands " + Digits(float64(req.Height), 2) + " cm high."
		sec.Table = settlingTable(r)
		return sec
	}
	for _, x := range r.Settling {
		note := "· its primary grain, published; clumps are no smaller"
		switch {
		case req.Grain.Known():
			note = "· as you gave it"
		case x.Clumped:
			note = "· clumps after mulling, common practice; not the primary grain"
		}
		sec.Fields = append(sec.Fields, RangeField("grains of", x.Grain, 1, 2, "µm", note))
		if x.Clear.Typical == 0 {
			sec.Fields = append(sec.Fields, Field{Label: "clears", Text: staysPut})
			continue
		}
		sec.Fields = append(sec.Fields,
			lastingField("shake after", x.Shake, "· the top tenth is clear"),
			lastingField("clears", x.Clear, fmt.Sprintf("· all %s cm of ink", Digits(float64(req.Height), 2))),
			number("stays up below", float64(x.Brownian), 2, "µm", "· single grains, by heat alone"))
		if p := primaryText(x.Primary); p != "" {
			note := "· published"
			if x.Clumped {
				note += "; it settles as clumps"
			}
			sec.Fields = append(sec.Fields, Field{Label: "primary grain", Text: p, Note: note})
		}
	}
	return sec
}

const staysPut = "does not sink in this vehicle"

// settlingTable sets pigments side by side.
func settlingTable(r *formulate.InkResult) *Table {
	t := &Table{Columns: []Column{{Title: "pigment"}, {Title: "grains µm"}, {Title: "shake after"}, {Title: "all clear"}, {Title: "stays up below", Right: true}}}
	for _, x := range r.Settling {
		grains := Range(x.Grain, 1, 2, "")
		if x.Clear.Typical == 0 {
			t.Rows = append(t.Rows, []string{x.Material.ID, grains, staysPut, "", ""})
			continue
		}
		t.Rows = append(t.Rows, []string{x.Material.ID, grains, lasting(x.Shake, 2), lasting(x.Clear, 2), Digits(float64(x.Brownian), 2) + " µm"})
	}
	return t
}

// primaryText says the published primary sizes.
func primaryText(s formulate.Sizes) string {
	switch s.High {
	case 0:
		return ""
	case s.Low:
		return Given(s.Low) + " µm"
	}
	return Given(s.Low) + "–" + Given(s.High) + " µm"
}

func nibSection(r *formulate.InkResult) Section {
	n := r.Nib
	if n == nil {
		return Section{}
	}
	sec := Section{Title: "Through the pen"}
	sec.Fields = append(sec.Fields,
		Field{Label: "slit", Text: Given(n.Slit) + " µm", Note: "· " + formulate.ToolBasis},
		number("largest that passes", float64(n.Largest), 2, "µm", fmt.Sprintf("· a seventh of the slit; from %s µm on grains bridge it", Digits(float64(n.Bridges), 2))),
		Field{Label: "too coarse", Text: Chance(n.Clogs), Note: "· of a middling grain"})
	if n.Sieve != nil {
		sec.Fields = append(sec.Fields, Field{Label: "sieve", Text: fmt.Sprintf("%s µm, no. %d", Given(n.Sieve.Opening), n.Sieve.Number)})
	} else {
		sec.Fields = append(sec.Fields, Field{Label: "sieve", Text: "none so fine"})
	}
	if n.Levigate.Typical == 0 {
		return sec
	}
	sec.Fields = append(sec.Fields, lastingField("or settle it out", n.Levigate, fmt.Sprintf("· stir the dry pigment into water, wait, pour off the top %s cm: see settle", Given(n.Depth))))
	return sec
}

func lineSection(f *formulate.InkFilm) Section {
	sec := Section{Title: "On the paper"}
	sec.Fields = append(sec.Fields,
		Field{Label: "wet film", Text: Given(f.WetFilm) + " µm"},
		RangeField("pigment per inked m²", f.PerArea, 1, 2, "g", ""),
		RangeField("inked by the batch", f.Area, 1, 2, "m²", ""))
	if f.Width > 0 {
		sec.Fields = append(sec.Fields,
			RangeField("pigment per metre", f.PerMetre, 1000, 2, "mg", fmt.Sprintf("· line %s mm wide, %s ml of ink", Given(10*f.Width), Digits(float64(f.InkPerMetre), 2))),
			RangeField("line from the batch", f.Metres, 1, 2, "m", ""))
	}
	return sec
}

func inkNextSection(r *formulate.InkResult) Section {
	sec := Section{Title: "Next", Marked: true}
	sec.Lines = append(sec.Lines,
		"Mull the pigment with a little water and a third of the binder for five minutes or more, then thin by degrees: clumps that are left now are what settles and clogs.",
		"Strain through fine cloth, bottle, label (contents, Colour Index name, date, hazards). Shake before use; wipe the pen often.",
		"Write a line, dry it, rub it: comes off, more binder; cracks, flakes or shines, less.")
	for _, n := range r.Muller {
		if n.Behaviour != "" {
			sec.Lines = append(sec.Lines, n.ID+" "+n.Behaviour+" under the muller in oil; in water unknown.")
		}
	}
	return sec
}

func inkMaterials(r *formulate.InkResult) []*material.Material {
	return append(r.Request.Solution.Materials(), weighedMaterials(r.Pigments, r.Humectants, r.Additives)...)
}

func inkSources(r *formulate.InkResult) []string {
	if r.Oil != nil {
		return SourceKeys(mullMaterials(r.Oil)...)
	}
	keys := append(SourceKeys(inkMaterials(r)...), doseKeys(r.Doses, r.Request.Solution.Material)...)
	if r.Request.Solution.Holds(material.Gum) {
		keys = append(keys, keysOf(append(gum.Scales(), r.Published...))...)
	}
	return uniqueSorted(keys)
}

// InkJSON is the ink's JSON contract. An ink in oil carries the mull's contract
// instead of its own composition.
type InkJSON struct {
	Version         int               `json:"version"`
	Kind            string            `json:"kind"`
	Draws           string            `json:"answer"`
	For             string            `json:"for"`
	Against         []string          `json:"does_not_belong_because"`
	Mull            *MullJSON         `json:"mull,omitempty"`
	BinderRule      string            `json:"binder_rule,omitempty"`
	Pigments        []GumWeighJSON    `json:"pigments"`
	Solution        *GumWeighJSON     `json:"solution,omitempty"`
	SolutionGumG    float64           `json:"gum_in_solution_g"`
	Humectants      []GumWeighJSON    `json:"humectants"`
	Additives       []GumWeighJSON    `json:"additives"`
	WaterG          RangeView         `json:"water_to_add_g"`
	CakeWaterG      float64           `json:"water_in_pigment_g"`
	InkMassG        RangeView         `json:"ink_mass_g"`
	InkVolumeML     RangeView         `json:"ink_volume_ml"`
	PigmentByMass   RangeView         `json:"pigment_mass_fraction"`
	PigmentByVolume RangeView         `json:"pigment_volume_fraction"`
	Composition     []LineJSON        `json:"composition"`
	Humectant       float64           `json:"humectant_to_gum"`
	Published       []PublishedJSON   `json:"published_humectant_to_gum"`
	PVC             RangeView         `json:"pvc"`
	Wanted          RangeView         `json:"demand_hypothesis_over_binder"`
	Density         RangeView         `json:"density_g_per_ml"`
	Cost            RangeView         `json:"cost"`
	Temperature     float64           `json:"temperature_celsius"`
	VehicleMPAS     *RangeView        `json:"vehicle_viscosity_mpas"`
	InkMPAS         *RangeView        `json:"ink_viscosity_mpas"`
	WhyNot          string            `json:"viscosity_not_known"`
	GrainUM         RangeView         `json:"grain_um"`
	GrainBasis      string            `json:"grain_rests_on"`
	HeightCM        float64           `json:"ink_height_cm"`
	Settling        []InkSettlingJSON `json:"settling"`
	Nib             *InkNibJSON       `json:"nib"`
	Film            InkFilmJSON       `json:"on_paper"`
	Doses           []GumDoseJSON     `json:"doses"`
	Hypotheses      []string          `json:"hypotheses"`
	Warnings        []string          `json:"warnings"`
	Cautions        []CautionView     `json:"cautions"`
	Sources         []SourceView      `json:"sources"`
	Derivation      []StepView        `json:"derivation,omitempty"`
}

// InkSettlingJSON is how one pigment settles.
type InkSettlingJSON struct {
	ID         string    `json:"id"`
	ShakeS     RangeView `json:"top_tenth_clear_s"`
	ClearS     RangeView `json:"all_clear_s"`
	SpeedUMS   RangeView `json:"speed_um_per_s"`
	BrownianUM float64   `json:"brownian_limit_um"`
	GrainUM    RangeView `json:"grain_um"`
}

// InkNibJSON is what passes the pen.
type InkNibJSON struct {
	SlitUM    float64   `json:"slit_um"`
	LargestUM float64   `json:"largest_passing_um"`
	BridgesUM float64   `json:"bridges_from_um"`
	Clogs     float64   `json:"chance_too_coarse"`
	Sieve     int       `json:"sieve_number"`
	LevigateS RangeView `json:"levigation_s"`
	DepthCM   float64   `json:"levigation_depth_cm"`
}

// InkFilmJSON is what the paper takes.
type InkFilmJSON struct {
	WetFilmUM  float64    `json:"wet_film_um"`
	PigmentGM2 RangeView  `json:"pigment_g_per_m2"`
	AreaM2     RangeView  `json:"area_m2"`
	WidthMM    float64    `json:"line_width_mm"`
	PerMetreG  *RangeView `json:"pigment_g_per_m"`
	MetresM    *RangeView `json:"line_m"`
}

// InkView is the JSON view of an ink.
func InkView(r *formulate.InkResult, cite Cite, explain bool) InkJSON {
	req := &r.Request
	f := r.Film
	v := InkJSON{Version: 1, Kind: "ink", For: string(req.Tool.Use), Against: orEmpty(r.Against),
		Pigments: gumWeighViews(r.Pigments), Humectants: gumWeighViews(r.Humectants), Additives: gumWeighViews(r.Additives),
		InkMassG: rangeView(r.Yield.Mass, 1), InkVolumeML: rangeView(r.Yield.Volume, 1), Composition: lineViews(r.Composition), Published: publishedViews(r.Published),
		PVC: rangeView(r.Figures.PVC, 1), Density: rangeView(r.Figures.Density, 1), Cost: rangeView(r.Figures.Cost, 1), Settling: []InkSettlingJSON{}, Doses: doseViews(r.Doses),
		Film:       InkFilmJSON{WetFilmUM: float64(f.WetFilm), PigmentGM2: rangeView(f.PerArea, 1), AreaM2: rangeView(f.Area, 1), WidthMM: 10 * float64(f.Width)},
		Hypotheses: orEmpty(r.Hypotheses), Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions), Sources: sourceViews(inkSources(r), cite)}
	if f.Width > 0 {
		m, l := rangeView(f.PerMetre, 1), rangeView(f.Metres, 1)
		v.Film.PerMetreG, v.Film.MetresM = &m, &l
	}
	if r.Oil != nil {
		mull := MullView(r.Oil, cite, explain)
		v.Mull, v.Draws = &mull, answerKind(r.Oil.Request.Sampling)
		return v
	}
	solution := gumWeighViews([]formulate.GumWeigh{r.Solution})[0]
	v.Draws, v.BinderRule, v.Solution, v.SolutionGumG = answerKind(req.Sampling), bindingNames[req.Binding.Rule], &solution, float64(r.SolutionGum)
	v.WaterG, v.CakeWaterG = rangeView(r.Water, 1), float64(r.CakeWater)
	v.PigmentByMass, v.PigmentByVolume = rangeView(r.PigmentByMass, 1), rangeView(r.PigmentByVolume, 1)
	v.Humectant, v.Wanted, v.Temperature, v.WhyNot = float64(r.Humectant), rangeView(r.Wanted, 1), float64(req.Temperature), r.WhyNot
	v.VehicleMPAS, v.InkMPAS = rangeOrNone(r.Vehicle), rangeOrNone(r.Ink)
	v.GrainUM = rangeView(r.Grain, 1)
	v.HeightCM, v.GrainBasis = float64(req.Height), "common practice, no finer than the primary grain"
	if req.Grain.Known() {
		v.GrainBasis = "given"
	}
	for _, x := range r.Settling {
		v.Settling = append(v.Settling, InkSettlingJSON{x.Material.ID, rangeView(x.Shake, 1), rangeView(x.Clear, 1), rangeView(x.Speed, 1e6), float64(x.Brownian), rangeView(x.Grain, 1)})
	}
	if n := r.Nib; n != nil {
		v.Nib = &InkNibJSON{SlitUM: float64(n.Slit), LargestUM: float64(n.Largest), BridgesUM: float64(n.Bridges), Clogs: float64(n.Clogs), LevigateS: rangeView(n.Levigate, 1), DepthCM: float64(n.Depth)}
		if n.Sieve != nil {
			v.Nib.Sieve = n.Sieve.Number
		}
	}
	v.Derivation = stepViews(r.Steps, explain)
	return v
}
