package picture

// Unit is what one length unit of a drawing stands for.
type Unit float64 // millimetres

const (
	Pixel      Unit = 25.4 / 96 // a screen picture; 96 to the inch
	Millimetre Unit = 1         // a printed page, at true size
)

// A Drawing is a list of marks, first drawn first. Every writer shows the same
// list, so a screen picture, an image and a printed page cannot disagree.
type Drawing struct {
	Title string // also the accessible name
	Desc  string // what a reader who cannot see it should be told
	W, H  float64
	Unit  Unit
	marks []mark
}

// Ink is a colour as #rrggbb; the empty ink draws nothing.
type Ink string

// The inks. Lines that matter differ in lightness and in dash or width as well
// as in hue, so that they part in greyscale and for colour-blind readers.
const (
	paper  Ink = "#ffffff"
	black  Ink = "#1d1b18" // text, axes
	soft   Ink = "#5c574f" // secondary text
	rule   Ink = "#bdb7ab" // frames, ticks
	hair   Ink = "#e0dcd3" // grid
	shade1 Ink = "#f4f1ea" // alternating bands
	shade2 Ink = "#e9e4d9"
	main1  Ink = "#174a63" // the answer: deep blue, dark in grey
	tint1  Ink = "#b9d0db" // its range
	main2  Ink = "#b5651d" // the second thing: ochre brown, middle grey
	tint2  Ink = "#ecd6bd"
	alert  Ink = "#8c1c13" // a limit; always dashed or named as well
)

type point struct{ x, y float64 }

// style is how a shape is drawn.
type style struct {
	fill   Ink
	stroke Ink
	width  float64
	dash   []float64
}

func fill(i Ink) style                       { return style{fill: i} }
func line(i Ink, w float64) style            { return style{stroke: i, width: w} }
func (s style) dashed(on, off float64) style { s.dash = []float64{on, off}; return s }

type markKind uint8

const (
	rectMark markKind = iota + 1
	pathMark
	circleMark
	textMark
)

// mark is one thing on the paper.
type mark struct {
	kind   markKind
	style  style
	x, y   float64 // corner, centre or start of the baseline
	w, h   float64 // of a rectangle
	r      float64 // of a circle
	points []point // of a path
	closed bool
	text   string
	font   font
	anchor anchor
}

type anchor uint8

const (
	start anchor = iota
	middle
	end
)

func (d *Drawing) rect(x, y, w, h float64, s style) {
	d.marks = append(d.marks, mark{kind: rectMark, x: x, y: y, w: w, h: h, style: s})
}

func (d *Drawing) line(x1, y1, x2, y2 float64, s style) {
	d.path(false, s, point{x1, y1}, point{x2, y2})
}

func (d *Drawing) path(closed bool, s style, points ...point) {
	if len(points) < 2 {
		return
	}
	d.marks = append(d.marks, mark{kind: pathMark, points: points, closed: closed, style: s})
}

func (d *Drawing) circle(x, y, r float64, s style) {
	d.marks = append(d.marks, mark{kind: circleMark, x: x, y: y, r: r, style: s})
}

// text writes one line with its baseline at y.
func (d *Drawing) text(x, y float64, a anchor, f font, i Ink, s string) {
	if s == "" {
		return
	}
	d.marks = append(d.marks, mark{kind: textMark, x: x, y: y, anchor: a, font: f, text: s, style: fill(i)})
}

// paragraph writes a text broken to a width and returns the baseline after its
// last line: where the next line would go.
func (d *Drawing) paragraph(x, y, width float64, f font, i Ink, s string) float64 {
	for _, l := range wrap(s, f, width) {
		d.text(x, y, start, f, i, l)
		y += f.leading()
	}
	return y
}

// cover puts paper under a text that stands on lines, then writes it.
func (d *Drawing) cover(x, y float64, a anchor, f font, i, under Ink, s string) {
	if s == "" {
		return
	}
	w := f.width(s)
	left := x
	switch a {
	case middle:
		left -= w / 2
	case end:
		left -= w
	}
	d.rect(left-2, y-f.size*0.85, w+4, f.size*1.15, fill(under))
	d.text(x, y, a, f, i, s)
}
