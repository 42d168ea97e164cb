package picture

import (
	"strings"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// font is a size, in the drawing's own unit, and a weight. Text is measured,
// and in images and pages also drawn, with the Go fonts, which come with the
// program; a browser uses its own sans serif of about the same width.
type font struct {
	size float64
	bold bool
}

func (f font) leading() float64 { return f.size * 1.35 }

func (f font) scaled(k float64) font { return font{f.size * k, f.bold} }

// face is a parsed typeface and the advance of the letters met so far.
type face struct {
	ttf      []byte
	once     sync.Once
	parsed   *sfnt.Font
	mu       sync.Mutex
	advances map[rune]float64 // of an em
}

var (
	regularFace = &face{ttf: goregular.TTF}
	boldFace    = &face{ttf: gobold.TTF}
)

func (f font) face() *face {
	if f.bold {
		return boldFace
	}
	return regularFace
}

// font parses the typeface once. The bytes are part of the program, so this
// cannot fail on a user's machine; a test parses both.
func (f *face) font() *sfnt.Font {
	f.once.Do(func() {
		f.parsed, _ = sfnt.Parse(f.ttf)
		f.advances = map[rune]float64{}
	})
	return f.parsed
}

func (f *face) advance(r rune) float64 {
	parsed := f.font()
	f.mu.Lock()
	defer f.mu.Unlock()
	if a, ok := f.advances[r]; ok {
		return a
	}
	var buf sfnt.Buffer
	em := fixed.I(1000)
	a := 0.5
	if g, err := parsed.GlyphIndex(&buf, r); err == nil {
		if w, err := parsed.GlyphAdvance(&buf, g, em, 0); err == nil {
			a = float64(w) / float64(em)
		}
	}
	f.advances[r] = a
	return a
}

// width measures a line of text.
func (f font) width(s string) float64 {
	var w float64
	for _, r := range s {
		w += f.face().advance(r)
	}
	return w * f.size
}

// wrap breaks a text into lines no wider than width, at spaces; a word that is
// wider than a line is broken inside.
func wrap(s string, f font, width float64) []string {
	var lines []string
	for _, part := range strings.Split(s, "\n") {
		current := ""
		for _, word := range strings.Fields(part) {
			for f.width(word) > width {
				cut := fitting(word, f, width)
				if cut >= len(word) {
					break
				}
				if current != "" {
					lines, current = append(lines, current), ""
				}
				lines = append(lines, word[:cut])
				word = word[cut:]
			}
			switch {
			case current == "":
				current = word
			case f.width(current+" "+word) <= width:
				current += " " + word
			default:
				lines, current = append(lines, current), word
			}
		}
		if current != "" {
			lines = append(lines, current)
		}
	}
	return lines
}

// fitting returns how many bytes of a word fit into a width, at least one
// letter.
func fitting(word string, f font, width float64) int {
	var w float64
	for i, r := range word {
		w += f.face().advance(r) * f.size
		if w > width && i > 0 {
			return i
		}
	}
	return len(word)
}

// shorten cuts a text to a width and marks the cut.
func shorten(s string, f font, width float64) string {
	if f.width(s) <= width {
		return s
	}
	n := fitting(s, f, width-f.width("…"))
	return strings.TrimRight(s[:n], " ,") + "…"
}

// narrowed is the font made small enough that no word of the texts is wider
// than a width, but not less than three quarters.
func (f font) narrowed(width float64, texts ...string) font {
	widest := 0.0
	for _, s := range texts {
		for _, word := range strings.Fields(s) {
			widest = max(widest, f.width(word))
		}
	}
	if widest <= width {
		return f
	}
	return f.scaled(max(width/widest, 0.75))
}
