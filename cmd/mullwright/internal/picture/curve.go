package picture

import (
	"fmt"
	"math"
	"sort"
)

// CurveData is a chart of lines over one axis: settling against time, vapour
// against time with its limits, anything against anything.
type CurveData struct {
	Frame
	X, Y   Axis
	Series []Series
	Limits []Limit // across the whole chart, dashed and named
	Bands  []Band  // named stretches of the y axis
}

// Axis is a name with its unit, and the range shown. From equal to To means
// whatever holds the data; Log is for ranges over several powers of ten.
type Axis struct {
	Name     string
	From, To float64
	Log      bool
}

// Series is one line. Low and High, where given, are its range.
type Series struct {
	Name      string
	X, Y      []float64
	Low, High []float64
	StepAfter bool // the value holds until the next x
}

// seriesStyles differ in lightness, width and dash, not in hue alone.
var seriesStyles = []style{
	line(main1, 2.4),
	line(main2, 2.2).dashed(8, 4),
	line(black, 1.8).dashed(2, 3),
	line(soft, 2.6),
	line(main1, 1.6).dashed(10, 3),
	line(main2, 1.6),
}

var seriesTints = []Ink{tint1, tint2, hair, hair, tint1, tint2}

func (s Series) check() error {
	if len(s.X) < 2 || len(s.X) != len(s.Y) {
		return fmt.Errorf("line %q of %d and %d values: want as many of both, and at least two", s.Name, len(s.X), len(s.Y))
	}
	if len(s.Low) != len(s.High) || len(s.Low) != 0 && len(s.Low) != len(s.X) {
		return fmt.Errorf("line %q has a range of %d and %d values for %d points", s.Name, len(s.Low), len(s.High), len(s.X))
	}
	for _, v := range [][]float64{s.X, s.Y, s.Low, s.High} {
		if err := checkFinite("a point of "+s.Name, v...); err != nil {
			return err
		}
	}
	return nil
}

func (s Series) ranged() bool { return len(s.Low) > 0 }

// stepped repeats each value up to the next x.
func stepped(x, v []float64) (sx, sv []float64) {
	for i := range x {
		if i > 0 {
			sx, sv = append(sx, x[i]), append(sv, v[i-1])
		}
		sx, sv = append(sx, x[i]), append(sv, v[i])
	}
	return sx, sv
}

// Curve draws the lines, named at their right ends where there is room and in a
// key under the chart where there is not.
func Curve(v CurveData) (*Drawing, error) {
	if len(v.Series) == 0 {
		return nil, fmt.Errorf("a chart without lines: want at least one")
	}
	for _, s := range v.Series {
		if err := s.check(); err != nil {
			return nil, err
		}
	}
	d, top, err := v.begin()
	if err != nil {
		return nil, err
	}
	x, y := v.scales()
	labelW := 0.0
	for _, s := range v.Series {
		labelW = max(labelW, boldFont.width(s.Name))
	}
	key := d.W < 480 || len(v.Series) == 1 && v.Series[0].Name == ""
	yTicks, decimals := y.ticks(5)
	tickW := 0.0
	for _, t := range yTicks {
		tickW = max(tickW, smallFont.width(tickText(t, decimals)))
	}
	x.from, x.to = margin+tickW+8, d.W-margin
	y.to = top + 20
	y.from = y.to + math.Max(190, math.Min(300, (x.to-x.from)*0.5))
	if _, moved := endLabels(v.Series, y); moved > 20 {
		key = true
	}
	if !key {
		x.to -= min(labelW, d.W*0.3) + 8
	}

	for i, b := range v.Bands {
		lo, hi := y.at(min(b.From, b.To)), y.at(max(b.From, b.To))
		d.rect(x.from, hi, x.to-x.from, lo-hi, fill([]Ink{shade2, shade1}[i%2]))
	}
	d.axes(x, y, v.X.Name, v.Y.Name, 5)
	for _, b := range v.Bands {
		d.text(x.from+6, (y.at(b.From)+y.at(b.To))/2+4, start, smallFont, soft, b.Name)
	}
	for i, s := range v.Series {
		if s.ranged() {
			sx, low := s.X, s.Low
			high := s.High
			if s.StepAfter {
				sx, low = stepped(s.X, s.Low)
				_, high = stepped(s.X, s.High)
			}
			d.band(x, y, sx, low, high, seriesTints[i%len(seriesTints)])
		}
	}
	for i, s := range v.Series {
		sx, sy := s.X, s.Y
		if s.StepAfter {
			sx, sy = stepped(sx, sy)
		}
		d.curve(x, y, sx, sy, seriesStyles[i%len(seriesStyles)])
	}
	d.limits(v.Limits, v.Series, x, y)
	bottom := y.from + 36
	if !key {
		labels, _ := endLabels(v.Series, y)
		for _, l := range labels {
			d.text(x.to+6, l.at, start, boldFont, l.ink, shorten(l.name, boldFont, d.W-margin-x.to-6))
		}
		return v.finish(d, bottom), nil
	}
	for i, s := range v.Series {
		if s.Name == "" {
			continue
		}
		bottom += 18
		d.line(x.from, bottom-4, x.from+30, bottom-4, seriesStyles[i%len(seriesStyles)])
		d.text(x.from+38, bottom, start, textFont, black, shorten(s.Name, textFont, x.to-x.from-38))
	}
	return v.finish(d, bottom+6), nil
}

// scales holds all that is drawn, with a little air above.
func (v CurveData) scales() (x, y scale) {
	x = scale{lo: v.X.From, hi: v.X.To, log: v.X.Log}
	y = scale{lo: v.Y.From, hi: v.Y.To, log: v.Y.Log}
	xs, ys := []float64{}, []float64{}
	for _, s := range v.Series {
		xs, ys = append(xs, s.X...), append(ys, s.Y...)
		if s.ranged() {
			ys = append(append(ys, s.Low...), s.High...)
		}
	}
	for _, l := range v.Limits {
		ys = append(ys, l.Value)
	}
	if x.lo == x.hi {
		x.lo, x.hi = extent(xs, x.log)
	}
	if y.lo == y.hi {
		y.lo, y.hi = extent(ys, y.log)
		if y.log {
			y.hi *= 1.3
		} else {
			y.lo, y.hi = min(y.lo, 0), y.hi+(y.hi-min(y.lo, 0))*0.06
		}
	}
	return x, y
}

// extent is the least and greatest value, of the positive ones on a log axis.
func extent(v []float64, log bool) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, x := range v {
		if log && x <= 0 {
			continue
		}
		lo, hi = min(lo, x), max(hi, x)
	}
	if !(lo <= hi) {
		return 1, 10
	}
	if lo == hi {
		hi = lo + max(math.Abs(lo)*0.1, 1)
	}
	return lo, hi
}

// limits draws named lines across the chart, each name on its line: at the left
// where no curve runs through it, else at the right.
func (d *Drawing) limits(limits []Limit, series []Series, x, y scale) {
	for _, l := range limits {
		if !y.holds(l.Value) {
			continue
		}
		ly := y.at(l.Value)
		d.line(x.from, ly, x.to, ly, line(alert, 1.6).dashed(7, 4))
	}
	last := math.Inf(1)
	ordered := append([]Limit(nil), limits...)
	sort.SliceStable(ordered, func(i, j int) bool { return ordered[i].Value < ordered[j].Value })
	for _, l := range ordered {
		if !y.holds(l.Value) {
			continue
		}
		ly := min(y.at(l.Value)-4, last-14)
		last = ly
		f := font{smallFont.size, true}
		name := shorten(l.Name, f, x.to-x.from-16)
		px, a := x.from+8, start
		if w := f.width(name); runsThrough(series, x, y, px, px+w, ly-f.size, ly+3) && !runsThrough(series, x, y, x.to-8-w, x.to-8, ly-f.size, ly+3) {
			px, a = x.to-8, end
		}
		d.cover(px, ly, a, f, alert, paper, name)
	}
}

// runsThrough reports whether a line crosses a box on the paper.
func runsThrough(series []Series, x, y scale, left, right, top, bottom float64) bool {
	for _, s := range series {
		for i := 1; i < len(s.X); i++ {
			ax, ay, bx, by := x.at(s.X[i-1]), y.at(s.Y[i-1]), x.at(s.X[i]), y.at(s.Y[i])
			if min(ax, bx) < right && max(ax, bx) > left && min(ay, by) < bottom && max(ay, by) > top {
				return true
			}
		}
	}
	return false
}

// endLabel is the name of a line at its right end.
type endLabel struct {
	at   float64
	name string
	ink  Ink
	want float64
}

// endLabels places the names of lines at their right ends, moved apart where
// they would meet, and says how far the farthest was moved.
func endLabels(series []Series, y scale) (labels []endLabel, moved float64) {
	for i, s := range series {
		at := y.at(s.Y[len(s.Y)-1]) + 4
		labels = append(labels, endLabel{at, s.Name, seriesStyles[i%len(seriesStyles)].stroke, at})
	}
	sort.SliceStable(labels, func(i, j int) bool { return labels[i].at < labels[j].at })
	for i := range labels {
		if i > 0 {
			labels[i].at = max(labels[i].at, labels[i-1].at+16)
		}
	}
	// Push back up what fell below the axis.
	floor := y.from - 2
	for i := len(labels) - 1; i >= 0; i-- {
		labels[i].at = min(labels[i].at, floor)
		floor = labels[i].at - 16
		moved = max(moved, math.Abs(labels[i].at-labels[i].want))
	}
	return labels, moved
}
