package picture

import (
	"fmt"
	"math"
	"strconv"
)

// Widths of a chart in pixels. A chart is laid out for the width it is shown
// at, so its letters stay readable on a phone.
const (
	DefaultWidth = 640
	PhoneWidth   = 344
	leastWidth   = 300
	mostWidth    = 2000
)

var (
	titleFont = font{16, true}
	textFont  = font{13, false}
	boldFont  = font{13, true}
	smallFont = font{11.5, false}
)

const margin = 14

// Frame is what every chart has round it.
type Frame struct {
	Title string
	Lead  string   // a sentence under the title
	Notes []string // under the chart: what it rests on, what it leaves out
	Alt   string   // for readers who cannot see it; the lead where empty
	Width float64  // in pixels; 0 for the default
}

// begin starts a drawing and returns it with the y where the chart may start.
func (f Frame) begin() (*Drawing, float64, error) {
	w := f.Width
	if w == 0 {
		w = DefaultWidth
	}
	if !(w >= leastWidth && w <= mostWidth) {
		return nil, 0, fmt.Errorf("width of %g pixels: want %d to %d", w, leastWidth, mostWidth)
	}
	d := &Drawing{Title: f.Title, Desc: f.Alt, W: w, Unit: Pixel}
	if d.Desc == "" {
		d.Desc = f.Lead
	}
	y := d.paragraph(margin, margin+titleFont.size, w-2*margin, titleFont, black, f.Title)
	if f.Lead != "" {
		y = d.paragraph(margin, y-2, w-2*margin, textFont, soft, f.Lead)
	}
	return d, y - textFont.size + 8, nil
}

// finish writes the notes below y and closes the paper there.
func (f Frame) finish(d *Drawing, y float64) *Drawing {
	if len(f.Notes) > 0 {
		d.line(margin, y+4, d.W-margin, y+4, line(hair, 1))
		y += 10 + smallFont.size
		for _, n := range f.Notes {
			y = d.paragraph(margin, y, d.W-2*margin, smallFont, soft, n) + 2
		}
		y -= smallFont.size
	}
	d.H = math.Ceil(y + margin)
	return d
}

// checkFinite refuses values no picture can show.
func checkFinite(what string, values ...float64) error {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e12 {
			return fmt.Errorf("%s of %g cannot be drawn", what, v)
		}
	}
	return nil
}

// scale places values along a stretch of paper.
type scale struct {
	lo, hi   float64 // values
	from, to float64 // places
	log      bool
}

func (s scale) at(v float64) float64 {
	lo, hi := s.lo, s.hi
	if s.log {
		lo, hi, v = math.Log(lo), math.Log(hi), math.Log(max(v, s.lo*1e-3))
	}
	if hi == lo {
		return (s.from + s.to) / 2
	}
	t := (v - lo) / (hi - lo)
	t = min(max(t, 0), 1)
	return s.from + t*(s.to-s.from)
}

func (s scale) holds(v float64) bool { return v >= s.lo && v <= s.hi }

// ticks returns round values across the scale, about n of them, and how many
// decimals they need.
func (s scale) ticks(n int) (at []float64, decimals int) {
	if s.log {
		return s.logTicks(n), -1
	}
	step := niceStep((s.hi - s.lo) / float64(max(n, 1)))
	for i := math.Ceil(s.lo/step - 1e-9); i*step <= s.hi+step*1e-9; i++ {
		at = append(at, i*step)
	}
	return at, max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
}

func (s scale) logTicks(n int) []float64 {
	var out []float64
	per := []float64{1, 2, 5}
	if math.Log10(s.hi/s.lo) > float64(n)/2 {
		per = []float64{1}
	}
	for e := math.Floor(math.Log10(s.lo)); e <= math.Log10(s.hi); e++ {
		for _, m := range per {
			if v := m * math.Pow(10, e); v >= s.lo*(1-1e-9) && v <= s.hi*(1+1e-9) {
				out = append(out, v)
			}
		}
	}
	return out
}

// niceStep is 1, 2 or 5 times a power of ten, no less than three quarters of v.
func niceStep(v float64) float64 {
	if !(v > 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if m*p >= v*0.75 {
			return m * p
		}
	}
	return 10 * p
}

// tickText prints a tick with so many decimals, or as few as it needs.
func tickText(v float64, decimals int) string {
	if decimals < 0 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	if v == 0 {
		v = 0 // no minus zero
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// axes draws the frame of a plot: grid lines with their values at the left and
// below, and the names of the axes.
func (d *Drawing) axes(x, y scale, xName, yName string, ny int) {
	left, right, top, bottom := x.from, x.to, y.to, y.from
	ticks, decimals := y.ticks(ny)
	for _, v := range ticks {
		py := y.at(v)
		d.line(left, py, right, py, line(hair, 1))
		d.text(left-6, py+4, end, smallFont, soft, tickText(v, decimals))
	}
	d.xTicks(x, bottom)
	d.line(left, bottom, right, bottom, line(black, 1.2))
	d.line(left, top, left, bottom, line(rule, 1))
	d.text(left, top-7, start, smallFont, soft, yName)
	d.text((left+right)/2, bottom+33, middle, smallFont, soft, xName)
}

// xTicks draws the values along the bottom, as many as there is room for.
func (d *Drawing) xTicks(x scale, bottom float64) {
	n := int((x.to - x.from) / 62)
	last := math.Inf(-1)
	ticks, decimals := x.ticks(max(n, 2))
	for _, v := range ticks {
		px, s := x.at(v), tickText(v, decimals)
		d.line(px, bottom, px, bottom+4, line(black, 1))
		if w := smallFont.width(s); px-w/2 > last+6 && px+w/2 < d.W-2 {
			d.text(px, bottom+16, middle, smallFont, soft, s)
			last = px + w/2
		}
	}
}

// band fills between a low and a high line.
func (d *Drawing) band(x, y scale, at, low, high []float64, i Ink) {
	var up, down []point
	for k := range at {
		up = append(up, point{x.at(at[k]), y.at(high[k])})
		down = append(down, point{x.at(at[k]), y.at(low[k])})
	}
	for k := len(down) - 1; k >= 0; k-- {
		up = append(up, down[k])
	}
	d.path(true, fill(i), up...)
}

// curve draws a line through values.
func (d *Drawing) curve(x, y scale, at, v []float64, s style) {
	var pts []point
	for k := range at {
		pts = append(pts, point{x.at(at[k]), y.at(v[k])})
	}
	d.path(false, s, pts...)
}

// place keeps a label of some width inside the paper and says how to anchor it
// at x.
func (d *Drawing) place(x, width float64) (float64, anchor) {
	switch {
	case x-width/2 < margin:
		return margin, start
	case x+width/2 > d.W-margin:
		return d.W - margin, end
	}
	return x, middle
}
