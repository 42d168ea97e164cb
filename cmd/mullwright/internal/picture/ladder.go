package picture

import (
	"fmt"
	"strings"
)

// LadderData is a sheet of colour chips: one, a row of tints, or glazes across
// and grounds down.
type LadderData struct {
	Frame
	Columns []string // "½ film", "1 film, measured", "2 films"
	Rows    []LadderRow
	How     string // how the colours were come by
	Data    string // from what
	Error   string // how far a real paint may lie from them
	Credits []string
}

// LadderRow is one row of chips. Ground, where given, is the bare ground they
// are laid on.
type LadderRow struct {
	Name   string
	Ground Ink
	Chips  []ChipView
}

// ChipView is one colour.
type ChipView struct {
	Colour   Ink // empty: cannot be told
	Measured bool
	Outside  bool   // beyond what a screen shows: the nearest is drawn
	Note     string // "± 2.1"
}

// Ladder draws the chips on white, since any other surround would change how
// they look, with a corner cut from those a screen cannot show.
func Ladder(v LadderData) (*Drawing, error) {
	columns := 0
	grounds, outside, measured, modelled := false, false, false, false
	for _, r := range v.Rows {
		columns = max(columns, len(r.Chips))
		grounds = grounds || r.Ground != ""
		if err := checkInk(r.Ground); err != nil {
			return nil, err
		}
		for _, c := range r.Chips {
			if err := checkInk(c.Colour); err != nil {
				return nil, err
			}
			outside = outside || c.Outside
			measured = measured || c.Measured
			modelled = modelled || !c.Measured && c.Colour != ""
		}
	}
	mixed := measured && modelled
	if columns == 0 {
		return nil, fmt.Errorf("a ladder without chips: want at least one")
	}
	d, y, err := v.begin()
	if err != nil {
		return nil, err
	}
	left := float64(margin)
	for _, r := range v.Rows {
		if r.Name != "" && d.W >= 480 {
			left = max(left, margin+min(textFont.width(r.Name)+12, d.W*0.25))
		}
	}
	groundW := 0.0
	if grounds {
		groundW = 18
	}
	slot := (d.W - margin - left - groundW - groundW/3) / float64(columns)
	if columns == 1 {
		slot = min(slot, 260)
	}
	const chipH = 58
	// Column heads, each as many lines as it takes.
	heads, most := make([][]string, columns), 0
	headFont := smallFont.narrowed(slot-4, v.Columns...)
	for i := range heads {
		if i < len(v.Columns) {
			heads[i] = wrap(v.Columns[i], headFont, slot-4)
			most = max(most, len(heads[i]))
		}
	}
	for i, lines := range heads {
		for k, s := range lines {
			d.text(left+groundW+slot*(float64(i)+0.5), y+14+smallFont.leading()*float64(k+most-len(lines)), middle, headFont, soft, s)
		}
	}
	y += 4 + smallFont.leading()*float64(most)
	for _, r := range v.Rows {
		if left == margin && r.Name != "" {
			d.text(left, y+16, start, textFont, black, shorten(r.Name, textFont, d.W-2*margin))
			y += 20
		} else if r.Name != "" {
			d.text(margin, y+6+chipH/2, start, textFont, black, shorten(r.Name, textFont, left-margin-6))
		}
		noted := false
		if r.Ground != "" {
			d.rect(left, y+4, d.W-margin-left, chipH+8, style{fill: r.Ground, stroke: rule, width: 0.8})
		}
		for i, c := range r.Chips {
			noted = noted || c.note(mixed) != ""
			d.chip(c, left+groundW+slot*float64(i)+3, y+8, slot-6, chipH)
		}
		y += chipH + 16
		if noted {
			notes := make([]string, len(r.Chips))
			for i, c := range r.Chips {
				notes[i] = c.note(mixed)
			}
			noteFont := smallFont.narrowed(slot-4, notes...)
			most := 0
			for i, n := range notes {
				lines := []string{n}
				if noteFont.width(n) > slot-4 {
					lines = strings.SplitN(n, ", ", 2) // how it was come by, then its doubt
				}
				for k, s := range lines {
					d.text(left+groundW+slot*(float64(i)+0.5), y+10+smallFont.leading()*float64(k), middle, noteFont, soft, s)
				}
				most = max(most, len(lines))
			}
			y += 16 + smallFont.leading()*float64(most-1)
		}
	}
	y += 10
	if outside {
		d.chip(ChipView{Colour: rule, Outside: true}, margin, y-2, 26, 16)
		y = d.paragraph(margin+34, y+10, d.W-2*margin-34, smallFont, black, "cut corner: outside the screen's range, the nearest colour is shown")
	}
	for _, p := range []struct{ head, text string }{{"How", v.How}, {"From", v.Data}, {"Error", v.Error}} {
		if p.text == "" {
			continue
		}
		d.text(margin, y+10, start, font{smallFont.size, true}, black, p.head)
		y = d.paragraph(margin+44, y+10, d.W-2*margin-44, smallFont, black, p.text) - smallFont.size + 3
	}
	f := v.Frame
	f.Notes = append(append([]string(nil), f.Notes...), v.Credits...)
	return f.finish(d, y+4), nil
}

// note is the line under a chip: its own, and where not all chips were come by in
// the same way whether it was measured or modelled.
func (c ChipView) note(mixed bool) string {
	if !mixed || c.Colour == "" {
		return c.Note
	}
	way := "modelled"
	if c.Measured {
		way = "measured"
	}
	if c.Note == "" {
		return way
	}
	return way + ", " + c.Note
}

// chip draws one colour.
func (d *Drawing) chip(c ChipView, x, y, w, h float64) {
	if c.Colour == "" {
		d.rect(x, y, w, h, style{fill: paper, stroke: rule, width: 1}.dashed(3, 3))
		d.text(x+w/2, y+h/2+4, middle, smallFont, soft, "not known")
		return
	}
	s := style{fill: c.Colour, stroke: soft, width: 0.6}
	if !c.Outside {
		d.rect(x, y, w, h, s)
		return
	}
	cut := min(14, h/2)
	d.path(true, s, point{x, y}, point{x + w - cut, y}, point{x + w, y + cut}, point{x + w, y + h}, point{x, y + h})
}
