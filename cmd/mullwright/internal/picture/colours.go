package picture

import (
	"fmt"

	"mullwright/formulate/optics"
)

// These turn the colours of formulate/optics into sheets of chips. They choose
// words and digits and work nothing out.

// SwatchSheet shows one plain colour.
func SwatchSheet(s optics.Swatch, f Frame, credits ...string) LadderData {
	f.Notes = append(append([]string(nil), f.Notes...), s.Notes...)
	return LadderData{
		Frame:   f,
		Columns: []string{s.Label},
		Rows:    []LadderRow{{Chips: []ChipView{ChipOf(s.Chip)}}},
		How:     s.Basis.How, Data: s.Basis.Data, Error: s.Basis.Error, Credits: credits,
	}
}

// TintSheet shows a paint let down with white.
func TintSheet(l optics.TintLadder, f Frame, credits ...string) LadderData {
	f.Notes = append(append([]string(nil), f.Notes...), l.Notes...)
	v := LadderData{Frame: f, Rows: []LadderRow{{}}, How: l.Basis.How, Data: l.Basis.Data, Error: l.Basis.Error, Credits: credits}
	for i, c := range l.Chips {
		v.Columns = append(v.Columns, l.Step(i))
		v.Rows[0].Chips = append(v.Rows[0].Chips, ChipOf(c))
	}
	return v
}

// GlazeSheet shows glazes: films across, grounds down.
func GlazeSheet(l optics.GlazeLadder, f Frame, credits ...string) LadderData {
	f.Notes = append(append([]string(nil), f.Notes...), l.Notes...)
	f.Notes = append(f.Notes, "± is the colour difference (CIEDE2000) that the readings leave open; another maker's paint may lie farther off.")
	v := LadderData{Frame: f, How: l.Basis.How, Data: l.Basis.Data, Error: l.Basis.Error, Credits: credits}
	for _, x := range l.Films {
		v.Columns = append(v.Columns, x.String())
	}
	for i, row := range l.Chips {
		r := LadderRow{Name: l.Ground(i), Ground: Ink(l.Bare[i].Screen.Hex())}
		for _, c := range row {
			r.Chips = append(r.Chips, ChipOf(c))
		}
		v.Rows = append(v.Rows, r)
	}
	return v
}

// ChipOf shows one colour, with the doubt of a modelled one.
func ChipOf(c optics.Chip) ChipView {
	v := ChipView{Colour: Ink(c.Screen.Hex()), Measured: c.Measured, Outside: c.Screen.Outside}
	if c.Doubt > 0 {
		v.Note = fmt.Sprintf("± %.1f", float64(c.Doubt))
	}
	return v
}
