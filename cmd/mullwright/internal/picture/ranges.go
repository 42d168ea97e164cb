package picture

import (
	"fmt"
	"math"
)

// RangesData shows one value in several states of knowledge, first to last: a
// pigment's oil absorption as batch after batch is weighed.
type RangesData struct {
	Frame
	Axis   string // "oil absorption, g to 100 g"
	States []State
}

// State is the value as known at one moment.
type State struct {
	Name string // "catalogue", "batch 3"
	Span
	Measured float64 // the maker's own reading then, 0 for none
}

// Ranges draws a standing bar for each state, its middle and the reading that
// changed it.
func Ranges(v RangesData) (*Drawing, error) {
	if len(v.States) == 0 {
		return nil, fmt.Errorf("no states of knowledge: want at least one")
	}
	d, top, err := v.begin()
	if err != nil {
		return nil, err
	}
	var all []float64
	for _, s := range v.States {
		if err := checkFinite("the range of "+s.Name, s.Low, s.Typical, s.High, s.Measured); err != nil {
			return nil, err
		}
		all = append(all, s.Low, s.High)
		if s.Measured > 0 {
			all = append(all, s.Measured)
		}
	}
	lo, hi := extent(all, false)
	pad := (hi - lo) * 0.08
	y := scale{lo: max(0, lo-pad), hi: hi + pad, from: top + 20 + 200, to: top + 20}
	x := scale{from: margin + 34, to: d.W - margin}
	ticks, decimals := y.ticks(5)
	for _, t := range ticks {
		d.line(x.from, y.at(t), x.to, y.at(t), line(hair, 1))
		d.text(x.from-6, y.at(t)+4, end, smallFont, soft, tickText(t, decimals))
	}
	d.text(x.from, y.to-7, start, smallFont, soft, v.Axis)
	slot := (x.to - x.from) / float64(len(v.States))
	w := math.Min(34, slot*0.55)
	var joins []point
	every := int(math.Ceil(34 / slot))
	var names []string
	for _, s := range v.States {
		names = append(names, s.Name)
	}
	nameFont := smallFont.narrowed(slot*float64(every)-4, names...)
	for i, s := range v.States {
		px := x.from + slot*(float64(i)+0.5)
		d.rect(px-w/2, y.at(s.High), w, max(y.at(s.Low)-y.at(s.High), 1), style{fill: tint1, stroke: main1, width: 0.8})
		joins = append(joins, point{px, y.at(s.Typical)})
		name := shorten(s.Name, nameFont, slot*float64(every)-4)
		if i%every == 0 || i == len(v.States)-1 && i%every >= every/2 {
			d.text(px, y.from+16, middle, nameFont, soft, name)
		}
	}
	d.path(false, line(main1, 1.6), joins...)
	for i, s := range v.States {
		p := joins[i]
		d.rect(p.x-w/2, p.y-1.5, w, 3, fill(main1))
		if s.Measured > 0 {
			my := y.at(s.Measured)
			d.path(true, style{fill: paper, stroke: main2, width: 2}, point{p.x, my - 5}, point{p.x + 5, my}, point{p.x, my + 5}, point{p.x - 5, my})
		}
	}
	d.line(x.from, y.from, x.to, y.from, line(black, 1.2))
	ky := y.from + 38
	d.rect(x.from, ky-10, 20, 11, style{fill: tint1, stroke: main1, width: 0.8})
	d.rect(x.from, ky-6, 20, 3, fill(main1))
	d.text(x.from+26, ky, start, smallFont, soft, "8 of 10 lie here, middle")
	kx := x.from + 26 + smallFont.width("8 of 10 lie here, middle") + 26
	d.path(true, style{fill: paper, stroke: main2, width: 2}, point{kx, ky - 9}, point{kx + 5, ky - 4}, point{kx, ky + 1}, point{kx - 5, ky - 4})
	d.text(kx+12, ky, start, smallFont, soft, "own reading")
	return v.finish(d, ky+8), nil
}
