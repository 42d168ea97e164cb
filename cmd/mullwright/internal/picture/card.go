package picture

import (
	"fmt"
	"strings"
)

// CardData is a weighing card: one page to take to the slab, with boxes to tick
// and room for what was really weighed.
type CardData struct {
	Page     PageSize // A4 where empty
	Kind     string   // "oil mull", "half pans", "ink"
	Title    string   // "Ultramarine blue in linseed oil"
	Lead     string   // a sentence: what is made and how much
	Maker    string   // as given; a line to write on where empty
	Batch    string
	Date     string
	Facts    []Fact // what comes out
	Weigh    []WeighLine
	Pours    []PourLine
	PourNote string // how to go on after the first pour
	Aim      string // what the paste should feel like
	Next     []string
	Cautions []Fact // about, and the caution
	Sources  []string
}

// Fact is a name and what stands beside it.
type Fact struct{ Name, Text string }

// WeighLine is one thing to put on the scale.
type WeighLine struct {
	Name   string
	Detail string // "damp, 4 % water", "extender, 10 % of the pigment"
	Amount string // "50.0 g"
	Unit   string // of the room to write in: "g"
}

// PourLine is one pour of liquid.
type PourLine struct {
	Name   string // "first pour", "then"
	Amount string
	Total  string
	Detail string
	Unit   string
}

// cardSizes are the sizes of type that a card is tried in: 10 point down to 6.5.
var cardSizes = [...]float64{1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65}

// trims leave out, one after another, what a card that is too full can spare.
// Weights, pours and cautions are never left out.
var trims = []func(*CardData){
	func(v *CardData) {},
	func(v *CardData) { v.Sources = nil },
	func(v *CardData) { v.Next = nil },
	func(v *CardData) { v.Facts = nil },
}

// Card lays the card out on one page, in smaller type where there is much to
// say, and then without sources, the steps after the pour or the outcome. What does
// not fit even so is refused, not cut off: a caution could be what is cut.
func Card(v CardData) (*Drawing, error) {
	if len(v.Weigh) == 0 {
		return nil, fmt.Errorf("a weighing card with nothing to weigh: want at least one line")
	}
	page := v.Page.orA4()
	for _, trim := range trims {
		trim(&v)
		for _, k := range cardSizes {
			c := &cardLayout{k: k, left: 14, right: page.W - 14}
			c.d = &Drawing{Title: v.Title, Desc: v.Lead, W: page.W, H: page.H, Unit: Millimetre}
			if c.lay(v) <= page.H-11 {
				return c.d, nil
			}
		}
	}
	return nil, fmt.Errorf("the card does not fit on one page of %s: make it in two batches of fewer pigments", page.Name)
}

// cardLayout writes a card from the top down at one size of type.
type cardLayout struct {
	d           *Drawing
	k           float64
	left, right float64
	y           float64
}

func (c *cardLayout) font(size float64, bold bool) font { return font{size * c.k, bold} }

// lay writes everything and returns the y it ends at.
func (c *cardLayout) lay(v CardData) float64 {
	c.y = 13
	c.head(v)
	c.facts(v.Facts)
	c.section("Weigh", "", "weighed")
	for _, w := range v.Weigh {
		c.row(w.Name, w.Detail, w.Amount, "", w.Unit, false)
	}
	if len(v.Pours) > 0 {
		c.section("Pour", "in all", "poured in all")
		for i, p := range v.Pours {
			c.row(p.Name, p.Detail, p.Amount, p.Total, p.Unit, i == 0)
		}
		c.words(v.PourNote)
	}
	if v.Aim != "" {
		c.section("Stop when", "", "")
		c.words(v.Aim)
	}
	if len(v.Next) > 0 {
		c.section("Then", "", "")
		for _, s := range v.Next {
			c.tickLine(s)
		}
	}
	c.cautions(v.Cautions)
	c.section("Notes", "", "")
	for range 2 {
		c.y += 6.5 * c.k
		c.d.line(c.left, c.y, c.right, c.y, line(rule, 0.2))
	}
	if len(v.Sources) > 0 {
		c.y += 6 * c.k
		c.d.text(c.left, c.y, start, c.font(2.6, true), soft, "Sources")
		c.y += 3.6 * c.k
		for _, s := range v.Sources {
			c.y = c.d.paragraph(c.left, c.y, c.right-c.left, c.font(2.6, false), soft, s)
		}
	}
	return c.y
}

// head writes the kind, the title and the fields to sign with.
func (c *cardLayout) head(v CardData) {
	fieldW := 52.0
	mid := c.right - fieldW - 6
	top := c.y
	c.d.text(c.left, c.y, start, c.font(3.2, true), soft, "Weighing card, "+v.Kind)
	y := c.d.paragraph(c.left, c.y+8*c.k, mid-c.left, c.font(6.2, true), black, v.Title)
	y = c.d.paragraph(c.left, y-2.6*c.k, mid-c.left, c.font(3.7, false), black, v.Lead)
	fy := top
	for _, f := range []Fact{{"batch", v.Batch}, {"date", v.Date}, {"maker", v.Maker}} {
		c.d.text(c.right-fieldW, fy, start, c.font(3.2, false), soft, f.Name)
		if f.Text != "" {
			fits := c.font(3.7, true)
			if w := fits.width(f.Text); w > fieldW-14 {
				fits = fits.scaled(max((fieldW-14)/w, 0.65))
			}
			c.d.text(c.right-fieldW+13, fy, start, fits, black, shorten(f.Text, fits, fieldW-14))
		}
		c.d.line(c.right-fieldW+12, fy+1.2, c.right, fy+1.2, line(rule, 0.25))
		fy += 8 * c.k
	}
	c.y = max(y-1.5*c.k, fy-3*c.k)
	c.d.line(c.left, c.y, c.right, c.y, line(black, 0.6))
	c.y += 1.5 * c.k
}

// facts writes names and values in two columns on a pale ground.
func (c *cardLayout) facts(facts []Fact) {
	if len(facts) == 0 {
		return
	}
	name, value := c.font(3.2, false), c.font(3.6, true)
	gap := 6.0
	col := (c.right - c.left - gap) / 2
	type cell struct {
		fact  Fact
		lines []string
	}
	rows := (len(facts) + 1) / 2
	nameW := 0.0
	for _, f := range facts {
		nameW = max(nameW, name.width(f.Name))
	}
	nameW = min(nameW+3, col*0.55)
	heights := make([]float64, rows)
	cells := make([]cell, len(facts))
	for i, f := range facts {
		cells[i] = cell{f, wrap(f.Text, value, col-nameW-4)}
		heights[i%rows] = max(heights[i%rows], value.leading()*float64(max(len(cells[i].lines), 1)))
	}
	total := 3 * c.k
	for _, h := range heights {
		total += h
	}
	c.d.rect(c.left, c.y+1.5*c.k, c.right-c.left, total, fill(shade1))
	base := c.y + 1.5*c.k + 1.5*c.k + value.size
	for i, l := range cells {
		x, y := c.left+2+float64(i/rows)*(col+gap), base
		for _, h := range heights[:i%rows] {
			y += h
		}
		c.d.text(x, y, start, name, soft, shorten(l.fact.Name, name, nameW-1))
		for k, s := range l.lines {
			c.d.text(x+nameW, y+value.leading()*float64(k), start, value, black, s)
		}
	}
	c.y += 1.5*c.k + total
}

// section writes a heading, and at the right what the running totals and the
// room to write in are for.
func (c *cardLayout) section(name, total, written string) {
	c.y += 7.5 * c.k
	c.d.text(c.left, c.y, start, c.font(4, true), main1, name)
	c.d.text(c.right-32, c.y, end, c.font(2.9, false), soft, total)
	c.d.text(c.right, c.y, end, c.font(2.9, false), soft, written)
	c.y += 1.4 * c.k
	c.d.line(c.left, c.y, c.right, c.y, line(main1, 0.35))
	c.y += 0.8 * c.k
}

// row writes a tick box, a name, an amount, a running total and a line to write
// on. A strong row stands in a frame: it is the one not to overrun.
func (c *cardLayout) row(name, detail, amount, total, unit string, strong bool) {
	h := 7.6 * c.k
	nf, af, df := c.font(3.8, true), c.font(4.2, true), c.font(3.1, false)
	write := 30.0
	amountX := c.right - write - 26
	nameX := c.left + 8*c.k
	room := amountX - 24 - nameX
	var lines []string
	if detail != "" {
		lines = wrap(detail, df, room)
		h += df.leading() * float64(len(lines))
	}
	if strong {
		h += 1.6 * c.k
		c.d.rect(c.left, c.y+0.6*c.k, c.right-c.left, h-1.2*c.k, style{fill: shade1, stroke: main1, width: 0.5})
	}
	base := c.y + 5.4*c.k
	if strong {
		base += 0.6 * c.k
	}
	box := 4 * c.k
	c.d.rect(c.left+1.5*c.k, base-box+0.5*c.k, box, box, style{fill: paper, stroke: black, width: 0.35})
	c.d.text(nameX, base, start, nf, black, shorten(name, nf, room))
	for i, s := range lines {
		c.d.text(nameX, base+df.leading()*float64(i+1), start, df, soft, s)
	}
	c.d.text(amountX, base, end, af, black, amount)
	if total != "" {
		c.d.text(amountX+24, base, end, c.font(3.3, false), soft, total)
	}
	c.d.line(c.right-write+4, base+0.8*c.k, c.right-6, base+0.8*c.k, line(rule, 0.3))
	c.d.text(c.right-1.5, base, end, df, soft, unit)
	c.y += h
	if !strong {
		c.d.line(c.left, c.y, c.right, c.y, line(hair, 0.2))
	}
}

func (c *cardLayout) words(s string) {
	if s == "" {
		return
	}
	f := c.font(3.5, false)
	c.y = c.d.paragraph(c.left, c.y+f.size+1.2*c.k, c.right-c.left, f, black, s) - f.size
}

func (c *cardLayout) tickLine(s string) {
	f := c.font(3.5, false)
	base := c.y + f.size + 1.4*c.k
	box := 3.2 * c.k
	c.d.rect(c.left+1.5*c.k, base-box+0.4*c.k, box, box, style{fill: paper, stroke: black, width: 0.3})
	c.y = c.d.paragraph(c.left+8*c.k, base, c.right-c.left-8*c.k, f, black, s) - f.size
}

// cautions stand in a heavy frame with a sign, before the card is put down.
func (c *cardLayout) cautions(cautions []Fact) {
	if len(cautions) == 0 {
		return
	}
	c.y += 5 * c.k
	top := c.y
	head, f := c.font(3.5, true), c.font(3.2, false)
	x, w := c.left+12*c.k, c.right-c.left-15*c.k
	at := len(c.d.marks)
	c.y += 1.2 * c.k
	for _, q := range cautions {
		c.y += f.leading() + 0.6*c.k
		nameW := head.width(q.Name + ":")
		lines := wrapHanging(q.Text, f, w, nameW+1.5)
		c.d.text(x, c.y, start, head, alert, q.Name+":")
		for i, s := range lines {
			if i == 0 {
				c.d.text(x+nameW+1.5, c.y, start, f, black, s)
				continue
			}
			c.y += f.leading()
			c.d.text(x, c.y, start, f, black, s)
		}
	}
	c.y += 2.6 * c.k
	frame := mark{kind: rectMark, x: c.left, y: top, w: c.right - c.left, h: c.y - top, style: style{fill: paper, stroke: alert, width: 0.6}}
	c.d.marks = append(c.d.marks[:at], append([]mark{frame}, c.d.marks[at:]...)...)
	c.sign(c.left+6*c.k, top+7*c.k, 3.6*c.k)
}

// sign is a warning triangle of our own drawing.
func (c *cardLayout) sign(x, y, r float64) {
	c.d.path(true, style{fill: paper, stroke: alert, width: 0.6}, point{x, y - r}, point{x + r, y + r*0.75}, point{x - r, y + r*0.75})
	c.d.text(x, y+r*0.55, middle, font{r * 1.25, true}, alert, "!")
}

// wrapHanging breaks a text whose first line is shorter by an indent.
func wrapHanging(s string, f font, width, indent float64) []string {
	s = strings.Join(strings.Fields(s), " ")
	lines := wrap(s, f, width-indent)
	if len(lines) < 2 {
		return lines
	}
	rest := s[len(lines[0]):]
	return append(lines[:1:1], wrap(rest, f, width)...)
}
