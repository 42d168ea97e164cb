package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/optics"
)

// Chip shows a colour, #rrggbb, in the text: as its value, or with a block of
// the colour where the terminal can.
type Chip func(hex string) string

// KindText says what a plain colour was measured of.
func KindText(k formulate.SampleKind) string {
	switch k {
	case formulate.PaintSample:
		return "acrylic paint, masstone"
	case formulate.FilmSample:
		return "film on a colour chart"
	case formulate.PowderSample:
		return "dry powder"
	}
	return string(k)
}

// SwatchSheet lays the look of pigments out.
func SwatchSheet(r *formulate.SwatchResult, chip Chip) *Sheet {
	s := &Sheet{Title: swatchTitle(r), Lead: "Under daylight (D65), to the 2 degree observer. No screen or print shows a paint truly: judge by a drawdown."}
	s.Add(plainSection(r, chip))
	for i := range r.Pigments {
		p := &r.Pigments[i]
		if p.Tints != nil {
			s.Add(tintSection(p, chip))
		}
		if p.Glazes != nil {
			s.Add(glazeSection(p, chip))
		}
	}
	s.Add(hidingSection(r))
	s.Add(indexSection(r))
	s.Add(missingSection(r))
	for _, sec := range basisSections(r) {
		s.Add(sec)
	}
	s.Add(Section{Title: "Data and licences", Lines: r.Credits(), Marked: true})
	s.Data = swatchData(r)
	return s
}

func swatchTitle(r *formulate.SwatchResult) string {
	if len(r.Pigments) == 1 {
		return "Swatches: " + titleOf(r.Pigments[0].Material)
	}
	return fmt.Sprintf("Swatches of %d pigments", len(r.Pigments))
}

func plainSection(r *formulate.SwatchResult, chip Chip) Section {
	t := &Table{Columns: []Column{{Title: "pigment"}, {Title: "measured of"}, {Title: "on a screen"}, {Title: "L*", Right: true}, {Title: "a*", Right: true}, {Title: "b*", Right: true}, {Title: ""}}}
	var chips []optics.Chip
	for i := range r.Pigments {
		p := &r.Pigments[i]
		name := p.Material.ID
		for _, s := range p.Plain {
			l := s.Chip.Lab
			chips = append(chips, s.Chip)
			t.Rows = append(t.Rows, []string{name, KindText(s.Kind), onScreen(s.Chip, chip), Places(l.L, 1), Places(l.A, 1), Places(l.B, 1), taken(s.Chip)})
			name = ""
		}
		if len(p.Plain) == 0 {
			t.Rows = append(t.Rows, []string{name, "nothing", "no chip", "", "", "", ""})
		}
	}
	return Section{Title: "Plain colours", Under: starred("", chips), Table: t}
}

// taken says how a colour was come by.
func taken(c optics.Chip) string {
	if c.Measured {
		return "measured"
	}
	return "modelled"
}

// onScreen is a chip, with a star outside the screen's range.
func onScreen(c optics.Chip, chip Chip) string {
	if c.Screen.Outside {
		return chip(c.Screen.Hex()) + "*"
	}
	return chip(c.Screen.Hex())
}

// ladderCell is a chip of a ladder with its doubt below.
func ladderCell(c optics.Chip, chip Chip) string {
	switch s := onScreen(c, chip); {
	case c.Doubt > 0:
		return s + "\n± " + Places(float64(c.Doubt), 1)
	case c.Measured:
		return s + "\nmeasured"
	default:
		return s
	}
}

// starred is the note that a star in a ladder asks for.
func starred(note string, rows ...[]optics.Chip) string {
	for _, row := range rows {
		for _, c := range row {
			if c.Screen.Outside {
				return strings.TrimSpace(note + " * outside the screen's range, the nearest is shown.")
			}
		}
	}
	return note
}

func tintSection(p *formulate.PigmentSwatches, chip Chip) Section {
	l := &p.Tints.Of
	t := &Table{}
	row := make([]string, len(l.Chips))
	for i, c := range l.Chips {
		t.Columns = append(t.Columns, Column{Title: l.Step(i)})
		row[i] = ladderCell(c, chip)
	}
	t.Rows = [][]string{row}
	return Section{Title: p.Material.Name + ", let down with titanium white", Under: starred("Parts of paint by volume, modelled.", l.Chips), Table: t}
}

func glazeSection(p *formulate.PigmentSwatches, chip Chip) Section {
	l := &p.Glazes.Of
	t := &Table{Columns: []Column{{Title: "ground"}, {Title: "bare"}}}
	for _, x := range l.Films {
		t.Columns = append(t.Columns, Column{Title: x.String()})
	}
	for i, chips := range l.Chips {
		row := []string{l.Ground(i), chip(l.Bare[i].Screen.Hex())}
		for _, c := range chips {
			row = append(row, ladderCell(c, chip))
		}
		t.Rows = append(t.Rows, row)
	}
	note := "In films of the chart, whose thickness is not stated. ± is what the readings leave open (CIEDE2000)."
	if l.Hides {
		note += " The film hides: thinner ones cannot be foretold."
	}
	return Section{Title: p.Material.Name + ", glazes", Under: starred(note, l.Chips...), Table: t}
}

func hidingSection(r *formulate.SwatchResult) Section {
	sec := Section{Title: "Hiding", Under: "Luminance over the chart's black by that over its white; 0.98 counts as hiding. The films' thickness is unknown and may differ: this ranks films of one chart and is no hiding power, for which no data allow a figure."}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		if p.Hiding == nil {
			continue
		}
		h := p.Hiding
		place := fmt.Sprintf("· place %d of %d", h.Place, h.Of)
		if h.Hides {
			place += "; it hides, and the order among those that do means nothing"
		}
		v := evidence.Exactly(h.Contrast)
		sec.Fields = append(sec.Fields, Field{Label: p.Material.ID, Text: Places(float64(h.Contrast), 2), Note: place, Value: Numbers(v, 1, "")})
	}
	if len(sec.Fields) == 0 {
		return Section{}
	}
	return sec
}

func indexSection(r *formulate.SwatchResult) Section {
	t := &Table{Columns: []Column{{Title: "pigment"}}}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		if len(p.Index) == 0 {
			continue
		}
		row := []string{p.Material.ID}
		for _, x := range p.Index {
			if len(t.Rows) == 0 {
				t.Columns = append(t.Columns, Column{Title: surroundName(x.Surround), Right: true})
			}
			row = append(row, bare(Range(x.Fresnel, 100, 2, "")))
		}
		t.Rows = append(t.Rows, row)
	}
	return Section{Title: "Oil against watercolour", Under: "Light turned back at a grain's surface, %, by refractive index (Fresnel, head on), over the indices published; oil fresh, gum dry. They are nearly alike: air between the grains is what whitens a lean watercolour. Grain size and crowding rule how a paint hides.", Table: t}
}

// surroundName is short enough to head a column: "gum film 1.47".
func surroundName(s optics.Surround) string {
	name, _, _ := strings.Cut(s.Name, ",")
	return name + " " + Given(s.Index)
}

func missingSection(r *formulate.SwatchResult) Section {
	sec := Section{Title: "What cannot be told", Marked: true}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		for _, m := range p.Missing {
			sec.Lines = append(sec.Lines, p.Material.ID+": "+m+".")
		}
	}
	return sec
}

// basisSections say how the colours were come by, from what, and how far a real
// paint may lie from them: once for each kind of sample, once for tints, and for
// the glazes of each pigment.
func basisSections(r *formulate.SwatchResult) []Section {
	var out []Section
	said := map[string]bool{}
	add := func(title string, b optics.Basis, more ...Field) {
		if said[b.Error] {
			b.Error = "as above"
		}
		said[b.Error] = true
		out = append(out, Section{Title: title, Fields: append([]Field{{Label: "how", Text: b.How}, {Label: "from", Text: b.Data}, {Label: "error", Text: b.Error}}, more...)})
	}
	for _, k := range formulate.SampleKinds() {
		var basis *optics.Basis
		var more []Field
		for i := range r.Pigments {
			for j := range r.Pigments[i].Plain {
				s := &r.Pigments[i].Plain[j]
				if s.Kind != k {
					continue
				}
				basis = &s.Basis
				if s.Others > 0 {
					more = append(more, Field{Label: r.Pigments[i].Material.ID, Text: fmt.Sprintf("%d more of these, up to %s away (CIEDE2000)", s.Others, Places(float64(s.Farthest), 1))})
				}
			}
		}
		if basis != nil {
			add("Basis: "+KindText(k), *basis, more...)
		}
	}
	tints := false
	for i := range r.Pigments {
		p := &r.Pigments[i]
		if p.Tints != nil && !tints {
			tints = true
			add("Basis: tints", p.Tints.Of.Basis)
		}
	}
	for i := range r.Pigments {
		if p := &r.Pigments[i]; p.Glazes != nil {
			add("Basis: glazes of "+p.Material.ID, p.Glazes.Of.Basis)
		}
	}
	return out
}

// swatchRow is one colour as data.
type swatchRow struct {
	pigment, kind, ground, films, white string
	chip                                optics.Chip
}

func swatchRows(r *formulate.SwatchResult) []swatchRow {
	var out []swatchRow
	for i := range r.Pigments {
		p := &r.Pigments[i]
		for _, s := range p.Plain {
			out = append(out, swatchRow{pigment: p.Material.ID, kind: string(s.Kind), chip: s.Chip})
		}
		if p.Tints != nil {
			for j, c := range p.Tints.Of.Chips {
				out = append(out, swatchRow{pigment: p.Material.ID, kind: "tint", white: Full(p.Tints.Of.White[j]), chip: c})
			}
		}
		if p.Glazes != nil {
			l := &p.Glazes.Of
			for g, row := range l.Chips {
				for j, c := range row {
					out = append(out, swatchRow{pigment: p.Material.ID, kind: "glaze", ground: Full(l.Grounds[g]), films: Full(l.Films[j]), chip: c})
				}
			}
		}
	}
	return out
}

func swatchData(r *formulate.SwatchResult) [][]string {
	out := [][]string{{"pigment", "kind", "ground_reflectance", "films", "white_parts", "hex", "l", "a", "b", "outside_screen", "measured", "doubt_ciede2000"}}
	for _, x := range swatchRows(r) {
		c := x.chip
		out = append(out, []string{x.pigment, x.kind, x.ground, x.films, x.white, c.Screen.Hex(), Full(c.Lab.L), Full(c.Lab.A), Full(c.Lab.B), fmt.Sprint(c.Screen.Outside), fmt.Sprint(c.Measured), Full(c.Doubt)})
	}
	return out
}

// SwatchJSONVersion is the version of the swatches' JSON contract.
const SwatchJSONVersion = 1

// SwatchJSON is the swatches' JSON contract. Colours are under D65 to the 2
// degree observer; fractions are 0 to 1.
type SwatchJSON struct {
	Version  int                 `json:"version"`
	Kind     string              `json:"kind"`
	Pigments []PigmentSwatchJSON `json:"pigments"`
	Credits  []string            `json:"data_and_licences"`
}

// PigmentSwatchJSON is what one pigment looks like.
type PigmentSwatchJSON struct {
	ID      string            `json:"id"`
	Name    string            `json:"name"`
	CIName  string            `json:"ci_name"`
	Plain   []PlainSwatchJSON `json:"plain"`
	Tints   *TintsJSON        `json:"tints"`
	Glazes  *GlazesJSON       `json:"glazes"`
	Hiding  *HidingJSON       `json:"hiding"`
	Index   []IndexJSON       `json:"light_turned_back"`
	Missing []string          `json:"cannot_be_told"`
}

// ChipJSON is one colour.
type ChipJSON struct {
	Hex      string  `json:"hex"`
	L        float64 `json:"l"`
	A        float64 `json:"a"`
	B        float64 `json:"b"`
	Outside  bool    `json:"outside_screen"`
	Measured bool    `json:"measured"`
	Doubt    float64 `json:"doubt_ciede2000"`
}

// ColourBasisJSON is what a colour rests on.
type ColourBasisJSON struct {
	How    string `json:"how"`
	Data   string `json:"from"`
	Error  string `json:"error"`
	Credit string `json:"credit"`
}

// PlainSwatchJSON is one plain colour.
type PlainSwatchJSON struct {
	Kind string `json:"measured_of"`
	ChipJSON
	ColourBasisJSON
	Others   int     `json:"more_of_these"`
	Farthest float64 `json:"farthest_ciede2000"`
}

// TintsJSON is a ladder of tints.
type TintsJSON struct {
	White []float64  `json:"white_parts_by_volume"`
	Chips []ChipJSON `json:"chips"`
	ColourBasisJSON
}

// GlazesJSON is a ladder of glazes.
type GlazesJSON struct {
	Films   []float64    `json:"films"`
	Grounds []float64    `json:"ground_reflectances"`
	Chips   [][]ChipJSON `json:"chips"`
	Hides   bool         `json:"hides"`
	Misfit  float64      `json:"misfit_rms_reflectance"`
	Worst   float64      `json:"worst_misfit_ciede2000"`
	ColourBasisJSON
}

// HidingJSON is the place among the chart's films.
type HidingJSON struct {
	Contrast float64 `json:"contrast_ratio"`
	Place    int     `json:"place"`
	Of       int     `json:"of"`
	Hides    bool    `json:"hides"`
}

// IndexJSON is the light turned back at a grain's surface.
type IndexJSON struct {
	Surround string    `json:"in"`
	Index    float64   `json:"index"`
	Fresnel  RangeView `json:"fraction"`
	Source   string    `json:"index_source"`
}

func chipJSON(c optics.Chip) ChipJSON {
	return ChipJSON{c.Screen.Hex(), c.Lab.L, c.Lab.A, c.Lab.B, c.Screen.Outside, c.Measured, float64(c.Doubt)}
}

func chipsJSON(list []optics.Chip) []ChipJSON {
	out := make([]ChipJSON, len(list))
	for i, c := range list {
		out[i] = chipJSON(c)
	}
	return out
}

func colourBasisJSON(b optics.Basis, credit string) ColourBasisJSON {
	return ColourBasisJSON{b.How, b.Data, b.Error, credit}
}

// SwatchView is the JSON view of swatches.
func SwatchView(r *formulate.SwatchResult) SwatchJSON {
	v := SwatchJSON{Version: SwatchJSONVersion, Kind: "swatch", Pigments: []PigmentSwatchJSON{}, Credits: orEmpty(r.Credits())}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		j := PigmentSwatchJSON{ID: p.Material.ID, Name: p.Material.Name, CIName: p.Material.CIName, Plain: []PlainSwatchJSON{}, Index: []IndexJSON{}, Missing: orEmpty(p.Missing)}
		for _, s := range p.Plain {
			j.Plain = append(j.Plain, PlainSwatchJSON{string(s.Kind), chipJSON(s.Chip), colourBasisJSON(s.Basis, s.Credit), s.Others, float64(s.Farthest)})
		}
		if t := p.Tints; t != nil {
			j.Tints = &TintsJSON{Chips: chipsJSON(t.Of.Chips), ColourBasisJSON: colourBasisJSON(t.Of.Basis, t.Credit)}
			for _, w := range t.Of.White {
				j.Tints.White = append(j.Tints.White, float64(w))
			}
		}
		if g := p.Glazes; g != nil {
			j.Glazes = &GlazesJSON{Hides: g.Of.Hides, Misfit: float64(g.Of.Misfit), Worst: float64(g.Of.Worst), ColourBasisJSON: colourBasisJSON(g.Of.Basis, g.Credit)}
			for _, x := range g.Of.Films {
				j.Glazes.Films = append(j.Glazes.Films, float64(x))
			}
			for k, x := range g.Of.Grounds {
				j.Glazes.Grounds = append(j.Glazes.Grounds, float64(x))
				j.Glazes.Chips = append(j.Glazes.Chips, chipsJSON(g.Of.Chips[k]))
			}
		}
		if h := p.Hiding; h != nil {
			j.Hiding = &HidingJSON{float64(h.Contrast), h.Place, h.Of, h.Hides}
		}
		for _, x := range p.Index {
			j.Index = append(j.Index, IndexJSON{x.Surround.Name, float64(x.Surround.Index), rangeView(x.Fresnel, 1), x.Surround.Source})
		}
		v.Pigments = append(v.Pigments, j)
	}
	return v
}
