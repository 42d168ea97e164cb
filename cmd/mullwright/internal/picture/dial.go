package picture

import (
	"fmt"
	"math"
)

// DialData is the oil dial: how the body of a paste falls as oil is added.
type DialData struct {
	Frame
	OilName  string // "g of linseed oil to 50 g of pigment"
	BodyName string // "body: pigment by volume, over the critical share"
	PVCName  string // "pigment by volume of the paste (PVC), %"
	// Points run along the oil, least first.
	Points []DialPoint
	// Bands name stretches of body, stiffest first.
	Bands []Band
	// Target is the body asked for, 0 for none.
	Target     float64
	TargetName string
	// Pours, in the unit of the oil: the first pour, the further totals and the
	// most that should be needed. First is 0 where no pour is planned.
	First     float64
	FirstName string
	Totals    []float64
	Most      float64
	MostName  string
	// Needed is the range of oil that reaches the target.
	Needed     Span
	NeededName string
	// Limit is the oil beyond which the pigment on hand cannot mend the paste, 0
	// for none.
	Limit     float64
	LimitName string
	// Critical is the critical PVC in the unit of PVC, 0 for none.
	Critical Span
}

// DialPoint is the paste at one amount of oil.
type DialPoint struct {
	Oil  float64
	Body Span
	PVC  Span
}

// Span is a range with its middle: 10th, 50th and 90th percentile.
type Span struct{ Low, Typical, High float64 }

// Band is a named stretch of an axis.
type Band struct {
	Name     string
	From, To float64
}

// Dial draws the oil dial: the body above, the pours on a ruler below it, the
// PVC at the bottom, all over one scale of oil.
func Dial(v DialData) (*Drawing, error) {
	if len(v.Points) < 2 {
		return nil, fmt.Errorf("an oil dial of %d points: want two or more", len(v.Points))
	}
	for _, p := range v.Points {
		if err := checkFinite("a point of the dial", p.Oil, p.Body.Low, p.Body.Typical, p.Body.High, p.PVC.Low, p.PVC.Typical, p.PVC.High); err != nil {
			return nil, err
		}
	}
	d, y, err := v.begin()
	if err != nil {
		return nil, err
	}
	var oil, bl, bt, bh, pl, pt, ph []float64
	top := 0.0
	for _, p := range v.Points {
		oil = append(oil, p.Oil)
		bl, bt, bh = append(bl, p.Body.Low), append(bt, p.Body.Typical), append(bh, p.Body.High)
		pl, pt, ph = append(pl, p.PVC.Low), append(pt, p.PVC.Typical), append(ph, p.PVC.High)
		top = max(top, p.Body.High)
	}
	last := v.Points[len(v.Points)-1]
	for _, b := range v.Bands {
		top = max(top, b.To)
	}
	x := scale{lo: v.Points[0].Oil, hi: last.Oil, from: margin + 34, to: d.W - margin}
	body := scale{lo: min(last.Body.Low, v.lowestBand()), hi: top, from: y + 20 + 220, to: y + 20}

	// The body.
	for i, b := range v.Bands {
		lo, hi := body.at(min(b.From, b.To)), body.at(max(b.From, b.To))
		d.rect(x.from, hi, x.to-x.from, lo-hi, fill([]Ink{shade2, shade1}[i%2]))
	}
	d.axes(x, body, "", v.BodyName, 5)
	d.band(x, body, oil, bl, bh, tint1)
	d.curve(x, body, oil, bt, line(main1, 2.4))
	tx, ty := x.at(crossing(oil, bt, v.Target)), body.at(v.Target)
	room := x.to - 6 - (tx + 8 + smallFont.width(v.TargetName)) // right of the target's name
	for _, b := range v.Bands {
		mid := (b.From + b.To) / 2
		px, a := x.to-6, end
		if crossing(oil, bt, mid) > (x.lo+x.hi)/2 { // the curve is over there
			px, a = x.from+6, start
		} else if v.Target > 0 && boldFont.width(b.Name)+6 > room && math.Abs(body.at(mid)-ty) < 22 {
			continue // the target's name stands there, and says as much
		}
		d.text(px, body.at(mid)+4, a, boldFont, soft, b.Name)
	}
	ruler := body.from + 26
	if v.Target > 0 {
		d.path(false, line(black, 1.2).dashed(2, 3), point{x.from, ty}, point{tx, ty}, point{tx, body.from})
		d.circle(tx, ty, 4, fill(black))
		d.text(tx+8, ty-6, start, smallFont, black, v.TargetName)
	}
	if v.Limit > 0 && x.holds(v.Limit) {
		lx := x.at(v.Limit)
		d.line(lx, body.to, lx, ruler+16, line(alert, 2).dashed(7, 4))
		px, a := d.place(lx, smallFont.width(v.LimitName)+8)
		d.cover(px, body.to+14, a, font{smallFont.size, true}, alert, paper, v.LimitName)
	}
	y = d.pours(v, x, ruler)

	// The PVC.
	y += 30
	pvc := scale{lo: 0, hi: maxOf(ph, v.Critical.High), from: y + 96, to: y}
	if v.Critical.Typical > 0 {
		hi, lo := pvc.at(v.Critical.High), pvc.at(v.Critical.Low)
		d.rect(x.from, hi, x.to-x.from, lo-hi, fill(shade2))
	}
	d.axes(x, pvc, v.OilName, v.PVCName, 4)
	d.band(x, pvc, oil, pl, ph, tint1)
	d.curve(x, pvc, oil, pt, line(main1, 2.4))
	if v.Critical.Typical > 0 {
		cy := pvc.at(v.Critical.Typical)
		d.line(x.from, cy, x.to, cy, line(soft, 1.2).dashed(6, 3))
		d.text(x.to-6, cy-4, end, smallFont, soft, "critical")
	}
	return v.finish(d, pvc.from+42), nil
}

func (v DialData) lowestBand() float64 {
	low := v.Points[len(v.Points)-1].Body.Low
	for _, b := range v.Bands {
		low = min(low, b.From, b.To)
	}
	return low
}

// pours draws the ruler of pours with its top at y and returns where it ends.
func (d *Drawing) pours(v DialData, x scale, y float64) float64 {
	const h = 14
	d.rect(x.from, y, x.to-x.from, h, style{fill: paper, stroke: rule, width: 1})
	if v.First > 0 {
		d.rect(x.from, y, x.at(v.First)-x.from, h, fill(main1))
	}
	from := v.First
	for i, t := range v.Totals {
		d.rect(x.at(from), y, x.at(t)-x.at(from), h, style{fill: []Ink{paper, tint1}[i%2], stroke: main1, width: 1})
		from = t
	}
	below := y + h
	if v.Needed.Typical > 0 {
		lo, hi := x.at(v.Needed.Low), x.at(v.Needed.High)
		by := y - 7
		d.line(lo, by, hi, by, line(main2, 2))
		d.line(lo, by-4, lo, by+4, line(main2, 2))
		d.line(hi, by-4, hi, by+4, line(main2, 2))
		d.circle(x.at(v.Needed.Typical), by, 3.5, fill(main2))
	}
	type label struct {
		at   float64
		name string
		ink  Ink
		row  float64
	}
	var labels []label
	row := below + 16
	for _, l := range []label{{v.First, v.FirstName, main1, 0}, {v.Needed.Typical, v.NeededName, main2, 0}, {v.Most, v.MostName, black, 0}} {
		if l.at > 0 && l.name != "" {
			l.row = row
			labels = append(labels, l)
			row += 17
		}
	}
	for _, l := range labels {
		d.line(x.at(l.at), below, x.at(l.at), l.row-10, line(l.ink, 1))
	}
	for _, l := range labels {
		f := font{12, true}
		px, a := d.place(x.at(l.at), f.width(l.name))
		d.cover(px, l.row, a, f, l.ink, paper, l.name)
	}
	return row - 6
}

// crossing is where a falling line reaches a value, or its nearer end.
func crossing(at, v []float64, value float64) float64 {
	for i := 1; i < len(v); i++ {
		if v[i] <= value && v[i-1] > value {
			return at[i-1] + (at[i]-at[i-1])*(v[i-1]-value)/(v[i-1]-v[i])
		}
	}
	if v[0] <= value {
		return at[0]
	}
	return at[len(at)-1]
}

func maxOf(v []float64, more ...float64) float64 {
	m := 0.0
	for _, x := range append(append([]float64(nil), v...), more...) {
		m = max(m, x)
	}
	return m
}
