package picture

import "fmt"

// BarsData compares things by one figure, each with its range.
type BarsData struct {
	Frame
	Axis string // "oil, g to 100 g of pigment"
	Rows []Bar
	// Lines are values to compare with, named.
	Lines []Limit
}

// Bar is one row: a name, its range, and the figure in words.
type Bar struct {
	Name string
	Span
	Text string // "62 (48 to 79)"
	Note string // under the name: "overlaps with the next"
	Chip Ink    // a small square of the pigment's colour, empty for none
}

// Limit is a named value.
type Limit struct {
	Name  string
	Value float64
}

// Bars draws one row for each thing: the range as a pale bar, the middle as a
// dark mark, the figure at the right.
func Bars(v BarsData) (*Drawing, error) {
	if len(v.Rows) == 0 {
		return nil, fmt.Errorf("a comparison of nothing: want at least one row")
	}
	d, y, err := v.begin()
	if err != nil {
		return nil, err
	}
	hi := 0.0
	nameW, textW := 0.0, 0.0
	for _, r := range v.Rows {
		if err := checkFinite("the range of "+r.Name, r.Low, r.Typical, r.High); err != nil {
			return nil, err
		}
		if err := checkInk(r.Chip); err != nil {
			return nil, err
		}
		hi = max(hi, r.High, r.Typical)
		nameW = max(nameW, boldFont.width(r.Name), smallFont.width(r.Note))
		textW = max(textW, textFont.width(r.Text))
	}
	for _, l := range v.Lines {
		hi = max(hi, l.Value)
	}
	chipW := 0.0
	for _, r := range v.Rows {
		if r.Chip != "" {
			chipW = 22
		}
	}
	narrow := d.W < 480
	x := scale{lo: 0, hi: hi * 1.04, from: margin, to: d.W - margin - textW - 10}
	rowH, barY := 30.0, 7.0
	if narrow {
		rowH, barY = 52, 30
	} else {
		x.from = margin + min(nameW, d.W*0.34) + chipW + 12
	}
	for _, r := range v.Rows {
		if r.Note != "" && !narrow {
			rowH = 40
		}
	}
	top := y + 6
	bottom := top + rowH*float64(len(v.Rows)) + 4
	ticks, decimals := x.ticks(max(2, int((x.to-x.from)/62)))
	for _, t := range ticks {
		d.line(x.at(t), top, x.at(t), bottom, line(hair, 1))
		d.line(x.at(t), bottom, x.at(t), bottom+4, line(black, 1))
		d.text(x.at(t), bottom+16, middle, smallFont, soft, tickText(t, decimals))
	}
	for _, l := range v.Lines {
		d.line(x.at(l.Value), top, x.at(l.Value), bottom, line(alert, 1.6).dashed(6, 3))
	}
	for i, r := range v.Rows {
		ry := top + rowH*float64(i)
		nameX := float64(margin)
		if r.Chip != "" {
			d.rect(nameX, ry+5, 14, 14, style{fill: r.Chip, stroke: rule, width: 0.8})
		}
		nameX += chipW
		room := x.from - nameX - 8
		if narrow {
			room = d.W - 2*margin - chipW
		}
		d.cover(nameX, ry+17, start, boldFont, black, paper, shorten(r.Name, boldFont, room))
		if r.Note != "" {
			noteX, noteY := nameX, ry+31
			if narrow {
				noteX, noteY = nameX+boldFont.width(r.Name)+10, ry+17
			}
			d.cover(noteX, noteY, start, smallFont, soft, paper, shorten(r.Note, smallFont, room-(noteX-nameX)))
		}
		by := ry + barY
		d.rect(x.at(r.Low), by, max(x.at(r.High)-x.at(r.Low), 1), 10, style{fill: tint1, stroke: main1, width: 0.8})
		d.rect(x.at(r.Typical)-2, by-3, 4, 16, fill(main1))
		d.text(x.to+10, by+10, start, textFont, black, r.Text)
	}
	d.line(x.from, bottom, x.to, bottom, line(black, 1.2))
	y = bottom + 34
	d.text((x.from+x.to)/2, y, middle, smallFont, soft, v.Axis)
	for _, l := range v.Lines {
		y += 17
		d.line(x.from, y-4, x.from+26, y-4, line(alert, 1.6).dashed(6, 3))
		d.text(x.from+32, y, start, smallFont, alert, l.Name)
	}
	return v.finish(d, y+6), nil
}

// checkInk refuses a colour that is not #rrggbb.
func checkInk(i Ink) error {
	if i == "" {
		return nil
	}
	if len(i) == 7 && i[0] == '#' {
		ok := true
		for _, c := range i[1:] {
			ok = ok && (c >= '0' && c <= '9' || c >= 'a' && c <= 'f' || c >= 'A' && c <= 'F')
		}
		if ok {
			return nil
		}
	}
	return fmt.Errorf("colour %q: want #rrggbb", string(i))
}
