package picture

import (
	"bytes"
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// WritePDF writes drawings as the pages of one document, each at its own size.
// Print without scaling: lengths are true.
func WritePDF(w io.Writer, pages ...*Drawing) error {
	if len(pages) == 0 {
		return fmt.Errorf("a document without pages: want at least one drawing")
	}
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	// Nothing of the moment or the machine goes into the file.
	moment := time.Unix(0, 0).UTC()
	doc.SetCreationDate(moment)
	doc.SetModificationDate(moment)
	doc.SetCatalogSort(true)
	doc.SetProducer("mullwright", true)
	doc.SetTitle(pages[0].Title, true)
	doc.SetSubject(pages[0].Desc, true)
	doc.SetLang("en-GB")
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.AddUTF8FontFromBytes("go", "", regularFace.ttf)
	doc.AddUTF8FontFromBytes("go", "B", boldFace.ttf)
	doc.SetLineJoinStyle("round")
	for _, d := range pages {
		doc.AddPageFormat("P", fpdf.SizeType{Wd: d.W * float64(d.Unit), Ht: d.H * float64(d.Unit)})
		p := page{doc, float64(d.Unit)}
		for _, m := range d.marks {
			p.draw(m)
		}
	}
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		return fmt.Errorf("writing the document: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// page draws marks in millimetres.
type page struct {
	doc *fpdf.Fpdf
	mm  float64 // millimetres to the drawing's unit
}

func (p page) draw(m mark) {
	if m.kind == textMark {
		p.text(m)
		return
	}
	how := ""
	if m.style.fill != "" {
		r, g, b := m.style.fill.rgb()
		p.doc.SetFillColor(int(r), int(g), int(b))
		how += "F"
	}
	if m.style.stroke != "" {
		r, g, b := m.style.stroke.rgb()
		p.doc.SetDrawColor(int(r), int(g), int(b))
		p.doc.SetLineWidth(m.style.width * p.mm)
		dash := make([]float64, len(m.style.dash))
		for i, v := range m.style.dash {
			dash[i] = v * p.mm
		}
		p.doc.SetDashPattern(dash, 0)
		how += "D"
	}
	if how == "" {
		return
	}
	switch m.kind {
	case rectMark:
		p.doc.Rect(m.x*p.mm, m.y*p.mm, m.w*p.mm, m.h*p.mm, how)
	case circleMark:
		p.doc.Circle(m.x*p.mm, m.y*p.mm, m.r*p.mm, how)
	case pathMark:
		for i, q := range m.points {
			if i == 0 {
				p.doc.MoveTo(q.x*p.mm, q.y*p.mm)
			} else {
				p.doc.LineTo(q.x*p.mm, q.y*p.mm)
			}
		}
		if m.closed {
			p.doc.ClosePath()
		}
		p.doc.DrawPath(how)
	}
}

func (p page) text(m mark) {
	weight := ""
	if m.font.bold {
		weight = "B"
	}
	p.doc.SetFont("go", weight, m.font.size*p.mm*72/25.4)
	r, g, b := m.style.fill.rgb()
	p.doc.SetTextColor(int(r), int(g), int(b))
	x := m.x
	switch m.anchor {
	case middle:
		x -= m.font.width(m.text) / 2
	case end:
		x -= m.font.width(m.text)
	}
	p.doc.Text(x*p.mm, m.y*p.mm, m.text)
}
