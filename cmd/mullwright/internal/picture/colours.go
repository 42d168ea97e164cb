package picture

import (
	"fmt"
	"strconv"

	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
)

// These turn the colours of formulate/optics into sheets of chips. They choose
// words and digits and work nothing out.

// SwatchSheet shows one plain colour.
func SwatchSheet(s optics.Swatch, f Frame, credits ...string) LadderData {
	f.Notes = append(append([]string(nil), f.Notes...), s.Notes...)
	return LadderData{
		Frame:   f,
		Columns: []string{s.Label},
		Rows:    []LadderRow{{Chips: []ChipView{chipView(s.Chip)}}},
		How:     s.Basis.How, Data: s.Basis.Data, Error: s.Basis.Error, Credits: credits,
	}
}

// TintSheet shows a paint let down with white.
func TintSheet(l optics.TintLadder, f Frame, credits ...string) LadderData {
	f.Notes = append(append([]string(nil), f.Notes...), l.Notes...)
	v := LadderData{Frame: f, Rows: []LadderRow{{}}, How: l.Basis.How, Data: l.Basis.Data, Error: l.Basis.Error, Credits: credits}
	for i, c := range l.Chips {
		v.Columns = append(v.Columns, tintName(l.White[i]))
		v.Rows[0].Chips = append(v.Rows[0].Chips, chipView(c))
	}
	return v
}

func tintName(white quantity.Parts) string {
	if white == 0 {
		return "masstone"
	}
	return "1 : " + strconv.FormatFloat(float64(white), 'g', -1, 64) + " white"
}

// GlazeSheet shows glazes: films across, grounds down.
func GlazeSheet(l optics.GlazeLadder, f Frame, credits ...string) LadderData {
	f.Notes = append(append([]string(nil), f.Notes...), l.Notes...)
	f.Notes = append(f.Notes, "± is the colour difference (CIEDE2000) that the readings leave open; another maker's paint may lie farther off.")
	v := LadderData{Frame: f, How: l.Basis.How, Data: l.Basis.Data, Error: l.Basis.Error, Credits: credits}
	for _, x := range l.Films {
		v.Columns = append(v.Columns, filmName(x))
	}
	for i, row := range l.Chips {
		r := LadderRow{Name: groundName(i, len(l.Chips), l.Grounds[i]), Ground: Ink(l.Bare[i].Screen.Hex())}
		for _, c := range row {
			r.Chips = append(r.Chips, chipView(c))
		}
		v.Rows = append(v.Rows, r)
	}
	return v
}

func filmName(x optics.Films) string {
	switch x {
	case 0.25:
		return "¼ film"
	case 0.5:
		return "½ film"
	case 1:
		return "1 film"
	}
	return strconv.FormatFloat(float64(x), 'g', -1, 64) + " films"
}

// groundName names a ground by its place, light to dark, and its reflectance.
func groundName(i, n int, r optics.Reflectance) string {
	name := "grey"
	switch {
	case i == 0:
		name = "white"
	case i == n-1:
		name = "black"
	case n == 4:
		name = [...]string{"", "light grey", "dark grey"}[i]
	}
	return fmt.Sprintf("%s, %.0f %%", name, 100*float64(r))
}

func chipView(c optics.Chip) ChipView {
	v := ChipView{Colour: Ink(c.Screen.Hex()), Measured: c.Measured, Outside: c.Screen.Outside}
	if c.Doubt > 0 {
		v.Note = fmt.Sprintf("± %.1f", float64(c.Doubt))
	}
	return v
}
