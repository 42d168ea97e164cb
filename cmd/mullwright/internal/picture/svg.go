package picture

import (
	"bytes"
	"io"
	"math"
	"strconv"
	"strings"
)

// number prints a length with at most two decimals, so that the same drawing
// gives the same bytes on every machine.
func number(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		v = 0 // no minus zero
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

var xmlText = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// escape makes a text fit for XML. Characters that XML 1.0 does not allow are
// replaced.
func escape(s string) string {
	clean := strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case r < 0x20 || r >= 0xd800 && r <= 0xdfff || r == 0xfffe || r == 0xffff || r > 0x10ffff:
			return '\ufffd'
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return xmlText.Replace(clean)
}

const svgFonts = "'Go', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif"

// WriteSVG writes the drawing as a stand-alone SVG: text as text, a title and
// a description, no script, nothing fetched.
func (d *Drawing) WriteSVG(w io.Writer) error {
	var b bytes.Buffer
	unit := ""
	if d.Unit == Millimetre {
		unit = "mm"
	}
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" role="img" width="` + number(d.W) + unit + `" height="` + number(d.H) + unit + `" viewBox="0 0 ` + number(d.W) + " " + number(d.H) + `" font-family="` + svgFonts + `">` + "\n")
	b.WriteString("<title>" + escape(d.Title) + "</title>\n")
	b.WriteString("<desc>" + escape(d.Desc) + "</desc>\n")
	b.WriteString(`<rect width="100%" height="100%" fill="` + string(paper) + `"/>` + "\n")
	for _, m := range d.marks {
		writeMark(&b, m)
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

func writeMark(b *bytes.Buffer, m mark) {
	switch m.kind {
	case rectMark:
		b.WriteString(`<rect x="` + number(m.x) + `" y="` + number(m.y) + `" width="` + number(m.w) + `" height="` + number(m.h) + `"`)
	case circleMark:
		b.WriteString(`<circle cx="` + number(m.x) + `" cy="` + number(m.y) + `" r="` + number(m.r) + `"`)
	case pathMark:
		b.WriteString(`<path d="`)
		for i, p := range m.points {
			b.WriteByte("ML"[min(i, 1)])
			b.WriteString(number(p.x) + " " + number(p.y))
		}
		if m.closed {
			b.WriteByte('Z')
		}
		b.WriteByte('"')
	case textMark:
		b.WriteString(`<text x="` + number(m.x) + `" y="` + number(m.y) + `" font-size="` + number(m.font.size) + `"`)
		if m.font.bold {
			b.WriteString(` font-weight="bold"`)
		}
		if m.anchor != start {
			b.WriteString(` text-anchor="` + [...]string{"start", "middle", "end"}[m.anchor] + `"`)
		}
		b.WriteString(` fill="` + string(m.style.fill) + `">` + escape(m.text) + "</text>\n")
		return
	}
	writeStyle(b, m.style)
	b.WriteString("/>\n")
}

func writeStyle(b *bytes.Buffer, s style) {
	if s.fill == "" {
		b.WriteString(` fill="none"`)
	} else {
		b.WriteString(` fill="` + string(s.fill) + `"`)
	}
	if s.stroke == "" {
		return
	}
	b.WriteString(` stroke="` + string(s.stroke) + `" stroke-width="` + number(s.width) + `" stroke-linejoin="round"`)
	if len(s.dash) > 0 {
		b.WriteString(` stroke-dasharray="`)
		for i, v := range s.dash {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(number(v))
		}
		b.WriteByte('"')
	}
}
