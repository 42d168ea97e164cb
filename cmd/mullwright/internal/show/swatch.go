package show

import (
	"slices"
	"strings"

	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

// Swatches shows what pigments look like: their plain colours on one sheet, then
// each one's tints and glazes. The credits of the data stand on every sheet.
func Swatches(r *formulate.SwatchResult) []picture.LadderData {
	out := []picture.LadderData{plainSheet(r)}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		if p.Tints != nil {
			out = append(out, picture.TintSheet(p.Tints.Of, picture.Frame{Title: p.Material.Name + ", let down with white"}, p.Tints.Credit))
		}
		if p.Glazes != nil {
			out = append(out, picture.GlazeSheet(p.Glazes.Of, picture.Frame{Title: p.Material.Name + ", thinner and thicker over grounds"}, p.Glazes.Credit))
		}
	}
	return out
}

// DrawSwatches draws the sheets one below another at a width in pixels, 0 for
// the usual.
func DrawSwatches(r *formulate.SwatchResult, width float64) (*picture.Drawing, error) {
	var parts []*picture.Drawing
	sheets := Swatches(r)
	for _, v := range sheets {
		v.Width = width
		d, err := picture.Ladder(v)
		if err != nil {
			return nil, err
		}
		parts = append(parts, d)
	}
	return picture.Column(sheets[0].Title, sheets[0].Lead, parts...), nil
}

// plainSheet is a row for each pigment, a column for each kind of sample.
func plainSheet(r *formulate.SwatchResult) picture.LadderData {
	v := picture.LadderData{Frame: picture.Frame{Title: "Swatches", Lead: "Daylight (D65). No screen or print shows a paint truly: judge by a drawdown."}}
	if len(r.Pigments) == 1 {
		v.Title = r.Pigments[0].Material.Name
		if ci := r.Pigments[0].Material.CIName; ci != "" {
			v.Title += " (" + ci + ")"
		}
	}
	first := map[formulate.SampleKind]formulate.PlainSwatch{}
	var kinds []formulate.SampleKind
	for _, k := range formulate.SampleKinds() {
		for i := range r.Pigments {
			if s, ok := ofKind(r.Pigments[i].Plain, k); ok && !slices.Contains(kinds, k) {
				kinds, first[k] = append(kinds, k), s
			}
		}
	}
	for _, k := range kinds {
		v.Columns = append(v.Columns, render.KindText(k))
		b := first[k].Basis
		head := ""
		if len(kinds) > 1 {
			head = render.KindText(k) + " – "
		}
		v.How, v.Data, v.Error = joined(v.How, head+b.How), joined(v.Data, head+b.Data), joined(v.Error, head+b.Error)
	}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		row := picture.LadderRow{}
		if len(r.Pigments) > 1 {
			row.Name = p.Material.Name
		}
		for _, k := range kinds {
			chip := picture.ChipView{} // nothing known, nothing shown
			if s, ok := ofKind(p.Plain, k); ok {
				chip = picture.ChipOf(s.Chip)
			}
			row.Chips = append(row.Chips, chip)
		}
		if len(kinds) == 0 {
			row.Chips = []picture.ChipView{{}}
		}
		v.Rows = append(v.Rows, row)
		for _, m := range p.Missing {
			v.Notes = append(v.Notes, p.Material.Name+": "+m+".")
		}
	}
	for i := range r.Pigments {
		for _, s := range r.Pigments[i].Plain {
			if !slices.Contains(v.Credits, s.Credit) {
				v.Credits = append(v.Credits, s.Credit)
			}
		}
	}
	return v
}

func ofKind(list []formulate.PlainSwatch, k formulate.SampleKind) (formulate.PlainSwatch, bool) {
	for _, s := range list {
		if s.Kind == k {
			return s, true
		}
	}
	return formulate.PlainSwatch{}, false
}

func joined(a, b string) string {
	if a == "" {
		return b
	}
	return a + ". " + upperFirst(b)
}

func upperFirst(s string) string {
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}
