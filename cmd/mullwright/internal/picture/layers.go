package picture

import "fmt"

// LayersData is a painting as a stack, ground at the bottom.
type LayersData struct {
	Frame
	Axis   string // "oil by volume of the dry film, %"
	Layers []LayerView
}

// LayerView is one layer. Layers are given from the ground up.
type LayerView struct {
	Name    string
	Detail  string  // "stiff, 40 µm dry, dried 14 days"
	Fat     Span    // oil share, in the unit of the axis; all 0 where it has none
	FatText string  // "52 (47 to 58)"
	Chip    Ink     // the layer's colour, empty for none
	Height  float64 // relative thickness, 1 for a usual layer
	Verdict Verdict
	Reason  string // beside a verdict that is not sound
}

// Verdict says how a layer stands to the one below it.
type Verdict uint8

const (
	Unjudged  Verdict = iota // the lowest layer, or nothing to compare
	Sound                    // at least as fat
	Undecided                // the ranges overlap
	AtFault                  // leaner
	Unknown                  // a value it needs is not known
)

var verdictWords = [...]string{"", "sound", "undecided", "at fault", "not known"}

// Layers draws the stack, top layer on top, each with its oil share on one
// common scale: fat over lean leans to the right going up.
func Layers(v LayersData) (*Drawing, error) {
	if len(v.Layers) == 0 {
		return nil, fmt.Errorf("a painting without layers: want at least one")
	}
	d, y, err := v.begin()
	if err != nil {
		return nil, err
	}
	hi := 0.0
	for _, l := range v.Layers {
		if err := checkFinite("layer "+l.Name, l.Fat.Low, l.Fat.Typical, l.Fat.High, l.Height); err != nil {
			return nil, err
		}
		if err := checkInk(l.Chip); err != nil {
			return nil, err
		}
		if l.Verdict > Unknown {
			return nil, fmt.Errorf("layer %q: verdict %d is none", l.Name, l.Verdict)
		}
		hi = max(hi, l.Fat.High)
	}
	if hi == 0 {
		hi = 1
	}
	narrow := d.W < 480
	split := d.W * 0.52
	x := scale{lo: 0, hi: hi * 1.05, from: split + 10, to: d.W - margin - 4}
	blockTo := split - 10
	if narrow {
		blockTo, x.from = d.W-margin, margin+22
	}
	d.text(x.from, y+12, start, smallFont, soft, v.Axis)
	y += 20
	type row struct{ top, bottom, barY float64 }
	rows := make([]row, len(v.Layers))
	for i := len(v.Layers) - 1; i >= 0; i-- {
		l := v.Layers[i]
		nameW := blockTo - margin - 34
		detail := wrap(l.Detail, smallFont, nameW)
		reason := []string{}
		if l.Reason != "" {
			reason = wrap(l.Reason, smallFont, nameW)
		}
		h := 30 + smallFont.leading()*float64(len(detail)+len(reason))
		if l.Verdict > Sound {
			h += 16
		}
		h = max(h, 58, 30+14*min(max(l.Height, 0), 4)) // room for the bar with its figure under it
		r := row{top: y, bottom: y + h, barY: y + h/2 - 5}
		if narrow {
			r.barY = y + h - 2
			r.bottom += 26
		} else if i == 0 {
			r.bottom += 8 // the lowest figure stands clear of the axis
		}
		rows[i] = r
		d.block(l, r.top, r.bottom, blockTo, detail, reason)
		y = r.bottom
	}
	// The oil shares, and the line that joins them.
	bottom := y
	ticks, _ := x.ticks(max(2, int((x.to-x.from)/62)))
	for _, t := range ticks {
		if !narrow {
			d.line(x.at(t), rows[len(rows)-1].top, x.at(t), bottom, line(hair, 1))
		}
	}
	var joins []point
	for i, l := range v.Layers {
		if l.Fat.Typical > 0 {
			joins = append(joins, point{x.at(l.Fat.Typical), rows[i].barY + 5})
		}
	}
	if !narrow {
		d.path(false, line(soft, 1.2).dashed(3, 3), joins...)
	}
	for i, l := range v.Layers {
		if l.Fat.Typical == 0 {
			continue
		}
		by := rows[i].barY
		ink, tint := main1, tint1
		if l.Verdict == AtFault {
			ink, tint = alert, paper
		}
		d.rect(x.at(l.Fat.Low), by, max(x.at(l.Fat.High)-x.at(l.Fat.Low), 1), 10, style{fill: tint, stroke: ink, width: 1})
		d.rect(x.at(l.Fat.Typical)-2, by-3, 4, 16, fill(ink))
		if narrow {
			px, a := x.at(l.Fat.High)+6, start
			if px+smallFont.width(l.FatText) > d.W-margin-4 {
				px, a = x.at(l.Fat.Low)-6, end
			}
			d.text(px, by+9, a, smallFont, black, l.FatText)
			continue
		}
		px, a := d.place(x.at(l.Fat.Typical), smallFont.width(l.FatText))
		d.cover(px, by+27, a, smallFont, black, paper, l.FatText)
	}
	d.line(x.from, bottom, x.to, bottom, line(black, 1.2))
	d.xTicks(x, bottom)
	d.line(margin, bottom, blockTo, bottom, line(black, 2))
	return v.finish(d, bottom+26), nil
}

// block draws one layer of the stack with its words.
func (d *Drawing) block(l LayerView, top, bottom, to float64, detail, reason []string) {
	s := style{fill: shade1, stroke: rule, width: 1}
	switch l.Verdict {
	case AtFault:
		s.stroke, s.width = alert, 2.2
	case Undecided, Unknown:
		s.stroke, s.width = black, 1.6
		s = s.dashed(5, 3)
	}
	d.rect(margin, top+1.5, to-margin, bottom-top-3, s)
	if l.Chip != "" {
		d.rect(margin+7, top+8, 14, bottom-top-16, style{fill: l.Chip, stroke: rule, width: 0.8})
	}
	tx := float64(margin + 28)
	ty := top + 20
	d.text(tx, ty, start, boldFont, black, shorten(l.Name, boldFont, to-tx-6))
	ty += 16
	for _, s := range detail {
		d.text(tx, ty, start, smallFont, soft, s)
		ty += smallFont.leading()
	}
	if l.Verdict > Sound {
		ink := black
		if l.Verdict == AtFault {
			ink = alert
		}
		d.text(tx, ty, start, font{smallFont.size, true}, ink, verdictWords[l.Verdict])
		ty += smallFont.leading()
	}
	for _, s := range reason {
		d.text(tx, ty, start, smallFont, black, s)
		ty += smallFont.leading()
	}
}
