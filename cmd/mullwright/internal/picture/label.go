package picture

import (
	"fmt"
	"strings"
)

// LabelKind is what a label goes on.
type LabelKind uint8

const (
	TubeLabel LabelKind = iota + 1
	PanLabel
	BottleLabel
)

// size is the usual label of a kind, in millimetres: our own choice, for there
// is no standard. A maker may give another. A pan's is a strip to wrap round a
// half pan, which is about 19 by 16 mm and 9 mm high (common practice): once
// round it is 50 mm, and narrower than the pan is long.
func (k LabelKind) size() (w, h float64, err error) {
	switch k {
	case TubeLabel:
		return 60, 32, nil
	case PanLabel:
		return 50, 18, nil
	case BottleLabel:
		return 70, 42, nil
	}
	return 0, 0, fmt.Errorf("label kind %d: want tube, pan or bottle", k)
}

// LabelData is one label.
type LabelData struct {
	Kind     LabelKind
	W, H     float64 // millimetres; 0 for the usual size of the kind
	Name     string
	Index    string // Colour Index name
	Binder   string
	Batch    string
	Date     string
	Maker    string   // as given
	Hazards  []string // statements of the catalogue
	Assessed bool     // the hazards were looked up at all
	Colour   Ink      // a strip of the pigment's colour, empty for none
}

// longestStrip is how long a strip for a pan may grow, in millimetres.
const longestStrip = 150

// Always on a label, whatever is in it.
const labelCaution = "Not for children, not near food."

// notAssessed stands where no source on hazards was read.
const notAssessed = "Hazards not assessed: read the safety data sheet."

// LabelSheet lays labels out on as many pages as they take, at true size, with
// hairlines to cut along. Where a label's words do not fit its size at the
// smallest type, it grows in height, and a strip for a pan first in length: words
// about hazards are not cut.
func LabelSheet(page PageSize, labels []LabelData) ([]*Drawing, error) {
	if len(labels) == 0 {
		return nil, fmt.Errorf("a sheet without labels: want at least one")
	}
	page = page.orA4()
	const edge, gap = 10, 3
	var pages []*Drawing
	var d *Drawing
	x, y, rowH := float64(edge), float64(edge), 0.0
	for _, l := range labels {
		one, err := Label(l)
		if err != nil {
			return nil, err
		}
		if one.W > page.W-2*edge || one.H > page.H-2*edge-4 {
			return nil, fmt.Errorf("label %q of %.0f by %.0f mm does not fit on %s", l.Name, one.W, one.H, page.Name)
		}
		if x+one.W > page.W-edge {
			x, y, rowH = edge, y+rowH+gap, 0
		}
		if d == nil || y+one.H > page.H-edge-4 {
			d = &Drawing{Title: "Labels", Desc: "Labels at true size, to cut along the hairlines", W: page.W, H: page.H, Unit: Millimetre}
			d.text(edge, page.H-6, start, font{2.6, false}, soft, "Print at 100 %, not fitted to the page. This line is 50 mm:")
			lx := edge + font{2.6, false}.width("Print at 100 %, not fitted to the page. This line is 50 mm:") + 3
			d.line(lx, page.H-6.8, lx+50, page.H-6.8, line(black, 0.3))
			d.line(lx, page.H-7.8, lx, page.H-5.8, line(black, 0.3))
			d.line(lx+50, page.H-7.8, lx+50, page.H-5.8, line(black, 0.3))
			pages = append(pages, d)
			x, y, rowH = edge, edge, 0
		}
		d.inset(one, x, y)
		d.rect(x, y, one.W, one.H, line(rule, 0.15))
		x += one.W + gap
		rowH = max(rowH, one.H)
	}
	return pages, nil
}

// inset copies another drawing's marks to a place on this one.
func (d *Drawing) inset(other *Drawing, x, y float64) {
	for _, m := range other.marks {
		m.x, m.y = m.x+x, m.y+y
		moved := make([]point, len(m.points))
		for i, p := range m.points {
			moved[i] = point{p.x + x, p.y + y}
		}
		m.points = moved
		d.marks = append(d.marks, m)
	}
}

// Label draws one label at true size.
func Label(v LabelData) (*Drawing, error) {
	w, h, err := v.Kind.size()
	if err != nil {
		return nil, err
	}
	if v.W != 0 || v.H != 0 {
		w, h = v.W, v.H
	}
	if !(w >= 25 && w <= 180 && h >= 10 && h <= 180) {
		return nil, fmt.Errorf("label of %g by %g mm: want 25 to 180 by 10 to 180", w, h)
	}
	if strings.TrimSpace(v.Name) == "" {
		return nil, fmt.Errorf("a label without a name")
	}
	if err := checkInk(v.Colour); err != nil {
		return nil, err
	}
	base := min(max(h/12, 1.9), 3.2)
	var d *Drawing
	for k := 1.0; ; k -= 0.04 {
		size := base * k
		d = &Drawing{Title: "Label: " + v.Name, Desc: v.Binder, W: w, H: h, Unit: Millimetre}
		bottom := d.label(v, size)
		if bottom <= h-1.5 {
			break
		}
		if size < 1.75 && v.Kind == PanLabel && v.W == 0 && w < longestStrip {
			w, k = w+5, k+0.04 // longer, at the same type
			continue
		}
		if size < 1.75 { // 5 point: no smaller, so the label grows
			d.H = bottom + 1.5
			for i := range d.marks {
				if d.marks[i].kind == rectMark { // the colour strip
					d.marks[i].h = d.H
				}
			}
			break
		}
	}
	return d, nil
}

// label writes the words at one size of type and returns where they end.
func (d *Drawing) label(v LabelData, size float64) float64 {
	left := 2.0
	if v.Colour != "" {
		d.rect(0, 0, 4, d.H, fill(v.Colour))
		left = 5.5
	}
	room := d.W - left - 2
	f, bold := font{size, false}, font{size, true}
	name := font{size * 1.45, true}
	y := 1.6 + name.size*0.8
	y = d.paragraph(left, y, room, name, black, v.Name) - name.leading() + f.leading()*1.05
	y = d.paragraph(left, y, room, f, black, joined(", ", v.Index, v.Binder))
	y = d.paragraph(left, y, room, f, soft, joined(" · ", prefixed("batch ", v.Batch), v.Date, v.Maker))
	y += size * 0.15
	hazards := v.Hazards
	if v.Kind == PanLabel && len(hazards) > 1 { // a strip has length, not height
		hazards = []string{strings.Join(hazards, " ")}
	}
	for _, s := range hazards {
		y = d.paragraph(left, y, room, bold, black, s)
	}
	if !v.Assessed {
		y = d.paragraph(left, y, room, bold, black, notAssessed)
	} else if len(hazards) == 0 {
		y = d.paragraph(left, y, room, f, black, "Read the safety data sheet.")
	}
	y = d.paragraph(left, y, room, bold, alert, labelCaution)
	return y - f.leading() + size*0.3
}

func joined(by string, parts ...string) string {
	var out []string
	for _, p := range parts {
		if strings.TrimSpace(p) != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, by)
}

func prefixed(prefix, s string) string {
	if s == "" {
		return ""
	}
	return prefix + s
}
