package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawn is every sample at both widths, and the printed pages.
func drawn(t *testing.T) map[string]*Drawing {
	t.Helper()
	out := map[string]*Drawing{}
	for _, s := range samples() {
		for suffix, width := range map[string]float64{"": DefaultWidth, "-phone": PhoneWidth} {
			d, err := s.draw(width)
			if err != nil {
				t.Fatal(s.name, err)
			}
			out[s.name+suffix] = d
		}
	}
	card, err := Card(sampleCard())
	if err != nil {
		t.Fatal(err)
	}
	out["card"] = card
	sheets, err := LabelSheet(A4, sampleLabels())
	if err != nil {
		t.Fatal(err)
	}
	out["labels"] = sheets[0]
	return out
}

func svg(t *testing.T, d *Drawing) string {
	t.Helper()
	var b bytes.Buffer
	if err := d.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestSVGIsXMLWithTitle(t *testing.T) {
	for name, d := range drawn(t) {
		text := svg(t, d)
		dec := xml.NewDecoder(strings.NewReader(text))
		dec.Strict = true
		var elements []string
		for {
			tok, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if e, ok := tok.(xml.StartElement); ok {
				elements = append(elements, e.Name.Local)
			}
		}
		if len(elements) < 10 || elements[0] != "svg" || elements[1] != "title" || elements[2] != "desc" {
			t.Errorf("%s: begins with %v", name, elements[:min(4, len(elements))])
		}
		for _, banned := range []string{"NaN", "Inf", "<script", "href"} {
			if strings.Contains(text, banned) {
				t.Errorf("%s holds %q", name, banned)
			}
		}
	}
}

func TestSameBytesEveryRun(t *testing.T) {
	first, second := drawn(t), drawn(t)
	for name, d := range first {
		if svg(t, d) != svg(t, second[name]) {
			t.Errorf("%s: SVG differs from run to run", name)
		}
		var p, q bytes.Buffer
		if err := WritePDF(&p, d); err != nil {
			t.Fatal(err)
		}
		if err := WritePDF(&q, second[name]); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(p.Bytes(), q.Bytes()) {
			t.Errorf("%s: PDF differs from run to run", name)
		}
	}
	d := first["ranges-phone"]
	var p, q bytes.Buffer
	for _, b := range []*bytes.Buffer{&p, &q} {
		if err := d.WritePNG(b, 96); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(p.Bytes(), q.Bytes()) {
		t.Error("PNG differs from run to run")
	}
}

// Text and marks stay on the paper, at the widths they are measured with.
func TestNothingLeavesThePaper(t *testing.T) {
	for name, d := range drawn(t) {
		for _, m := range d.marks {
			left, right := m.x, m.x+m.w
			if m.kind == textMark {
				w := m.font.width(m.text)
				left, right = m.x-[...]float64{0, w / 2, w}[m.anchor], m.x+[...]float64{w, w / 2, 0}[m.anchor]
			}
			for _, p := range m.points {
				left, right = min(left, p.x), max(right, p.x)
			}
			if m.kind == pathMark {
				left, right = m.points[0].x, m.points[0].x
			}
			if left < -0.5 || right > d.W+0.5 || m.y < 0 || m.y+m.h > d.H+0.5 {
				t.Errorf("%s: %q from %.1f to %.1f at %.1f leaves the paper of %.0f by %.0f", name, m.text, left, right, m.y, d.W, d.H)
			}
		}
	}
}

func TestPNGDecodesAtItsSize(t *testing.T) {
	for name, d := range drawn(t) {
		if name != "dial" && name != "glazes-phone" && name != "card" {
			continue
		}
		var b bytes.Buffer
		if err := d.WritePNG(&b, 96); err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(&b)
		if err != nil {
			t.Fatal(name, err)
		}
		want := math.Ceil(d.W*float64(d.Unit)/25.4*96 - 1e-6)
		if got := img.Bounds().Dx(); float64(got) != want {
			t.Errorf("%s: %d dots wide, want %g", name, got, want)
		}
		if share := inked(img); share < 0.01 || share > 0.7 {
			t.Errorf("%s: %.3f of the paper is inked", name, share)
		}
	}
	if err := (&Drawing{W: 1e6, H: 1e6, Unit: Pixel}).WritePNG(io.Discard, 96); err == nil {
		t.Error("an image of a million dots square is accepted")
	}
}

func inked(img image.Image) float64 {
	b, n := img.Bounds(), 0
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, g, bl, _ := img.At(x, y).RGBA(); r+g+bl < 3*0xf000 {
				n++
			}
		}
	}
	return float64(n) / float64(b.Dx()*b.Dy())
}

// The document is rendered by another program: its page has the true size and
// shows what the image of the same drawing shows.
func TestPDFRasterised(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftoppm is required in CI")
		}
		t.Skip("pdftoppm not found: the documents are not rasterised")
	}
	all := drawn(t)
	for _, name := range []string{"card", "labels", "dial"} {
		d := all[name]
		dir := t.TempDir()
		var b bytes.Buffer
		if err := WritePDF(&b, d); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, "page.pdf")
		if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(tool, "-r", "96", "-png", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v: %s", name, err, out)
		}
		pages, err := filepath.Glob(filepath.Join(dir, "page-*.png"))
		if err != nil || len(pages) != 1 {
			t.Fatalf("%s: pages %v, %v", name, pages, err)
		}
		f, err := os.Open(pages[0])
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		_ = f.Close()
		if err != nil {
			t.Fatal(err)
		}
		scale := float64(d.Unit) / 25.4 * 96
		if w, h := float64(img.Bounds().Dx()), float64(img.Bounds().Dy()); math.Abs(w-d.W*scale) > 1.5 || math.Abs(h-d.H*scale) > 1.5 {
			t.Errorf("%s: page of %g by %g dots, want %.1f by %.1f", name, w, h, d.W*scale, d.H*scale)
		}
		var own bytes.Buffer
		if err := d.WritePNG(&own, 96); err != nil {
			t.Fatal(err)
		}
		mine, err := png.Decode(&own)
		if err != nil {
			t.Fatal(err)
		}
		if miss := unlike(img, mine); miss > 0.02 {
			t.Errorf("%s: document and image differ in %.3f of their coarse cells", name, miss)
		}
	}
}

// unlike compares two images by the mean lightness of cells of 8 by 8 dots.
func unlike(a, b image.Image) float64 {
	const cell = 8
	w, h := min(a.Bounds().Dx(), b.Bounds().Dx())/cell, min(a.Bounds().Dy(), b.Bounds().Dy())/cell
	mean := func(m image.Image, cx, cy int) float64 {
		var sum float64
		for y := range cell {
			for x := range cell {
				r, g, bl, _ := m.At(cx*cell+x, cy*cell+y).RGBA()
				sum += float64(r+g+bl) / (3 * 0xffff)
			}
		}
		return sum / (cell * cell)
	}
	n := 0
	for y := range h {
		for x := range w {
			if math.Abs(mean(a, x, y)-mean(b, x, y)) > 0.15 {
				n++
			}
		}
	}
	return float64(n) / float64(w*h)
}

// Whatever is typed as a name, the SVG stays XML and reads back as typed.
func TestTextSurvivesSVG(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.String().Draw(t, "name")
		d := &Drawing{Title: name, Desc: name, W: 100, H: 100, Unit: Pixel}
		d.text(10, 10, start, textFont, black, "x"+name)
		var b bytes.Buffer
		if err := d.WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		var back struct {
			Title string `xml:"title"`
			Text  string `xml:"text"`
		}
		if err := xml.Unmarshal(b.Bytes(), &back); err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		if printable(name) && back.Text != "x"+name {
			t.Fatalf("%q reads back as %q", "x"+name, back.Text)
		}
	})
	d := &Drawing{Title: `<script>alert("1")</script>`, W: 10, H: 10, Unit: Pixel}
	if text := svg(t, d); strings.Contains(text, "<script") {
		t.Errorf("a title became markup: %s", text)
	}
}

func printable(s string) bool {
	for _, r := range s {
		if r < 0x20 || r == 0xfffe || r == 0xffff || r == '\ufffd' {
			return false
		}
	}
	return true
}

// Wrapped lines fit, and no letter is lost.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-zé ]{0,60}`).Draw(t, "text")
		width := rapid.Float64Range(20, 300).Draw(t, "width")
		lines := wrap(s, textFont, width)
		for _, l := range lines {
			if textFont.width(l) > width {
				t.Fatalf("%q is %.1f wide, room is %.1f", l, textFont.width(l), width)
			}
		}
		squeeze := strings.NewReplacer(" ", "")
		if squeeze.Replace(strings.Join(lines, "")) != squeeze.Replace(s) {
			t.Fatalf("%q became %q", s, lines)
		}
	})
}

func TestNumber(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		want string
	}{{0, "0"}, {math.Copysign(0, -1), "0"}, {-0.001, "0"}, {1.005, "1"}, {1.235, "1.24"}, {-3.5, "-3.5"}, {1200, "1200"}} {
		if got := number(tt.v); got != tt.want {
			t.Errorf("number(%v) = %q, want %q", tt.v, got, tt.want)
		}
	}
}

func TestTicks(t *testing.T) {
	for _, tt := range []struct {
		s    scale
		n    int
		want []float64
	}{
		{scale{lo: 0, hi: 105}, 5, []float64{0, 20, 40, 60, 80, 100}},
		{scale{lo: 0.5, hi: 1.5}, 5, []float64{0.6, 0.8, 1, 1.2, 1.4}},
		{scale{lo: 0, hi: 0.93}, 4, []float64{0, 0.2, 0.4, 0.6, 0.8}},
		{scale{lo: 0.1, hi: 1000, log: true}, 4, []float64{0.1, 1, 10, 100, 1000}},
	} {
		got, _ := tt.s.ticks(tt.n)
		if len(got) != len(tt.want) {
			t.Errorf("ticks of %+v: %v, want %v", tt.s, got, tt.want)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-tt.want[i]) > 1e-9 {
				t.Errorf("ticks of %+v: %v, want %v", tt.s, got, tt.want)
			}
		}
	}
}

// The inks part in greyscale: the answer from the second thing, the limit from
// its paper, text from every ground it stands on.
func TestInksPartInGrey(t *testing.T) {
	light := func(i Ink) float64 {
		r, g, b := i.rgb()
		lin := func(v uint8) float64 {
			x := float64(v) / 255
			if x <= 0.04045 {
				return x / 12.92
			}
			return math.Pow((x+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(b)
	}
	contrast := func(a, b Ink) float64 {
		x, y := light(a), light(b)
		return (max(x, y) + 0.05) / (min(x, y) + 0.05)
	}
	for _, tt := range []struct {
		a, b  Ink
		least float64
	}{
		{black, paper, 12}, {soft, paper, 4.5}, {soft, shade2, 4.5}, {soft, shade1, 4.5}, {alert, paper, 4.5},
		{main1, main2, 2}, {main1, tint1, 3}, {main2, paper, 3}, {black, shade1, 12}, {alert, shade1, 4.5},
	} {
		if got := contrast(tt.a, tt.b); got < tt.least {
			t.Errorf("contrast of %s and %s is %.1f, want %.1f or more", tt.a, tt.b, got, tt.least)
		}
	}
	for _, i := range []Ink{paper, black, soft, rule, hair, shade1, shade2, main1, tint1, main2, tint2, alert} {
		if err := checkInk(i); err != nil {
			t.Error(err)
		}
	}
}

func TestTypefacesParse(t *testing.T) {
	for _, f := range []font{{10, false}, {10, true}} {
		if f.face().font() == nil {
			t.Errorf("typeface of %+v does not parse", f)
		}
		for _, r := range "aÅé½¼²³°±×µ–…∆·≤" {
			if w := f.face().advance(r); w <= 0 || w > 1.5 {
				t.Errorf("letter %q is %g of an em wide", r, w)
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	nan := math.NaN()
	for name, f := range map[string]func() error{
		"dial of one point": func() error { _, err := Dial(DialData{Points: make([]DialPoint, 1)}); return err },
		"dial of NaN":       func() error { _, err := Dial(DialData{Points: []DialPoint{{Oil: 1}, {Oil: nan}}}); return err },
		"no bars":           func() error { _, err := Bars(BarsData{}); return err },
		"bar without end":   func() error { _, err := Bars(BarsData{Rows: []Bar{{Span: Span{0, 1, math.Inf(1)}}}}); return err },
		"bar of no colour":  func() error { _, err := Bars(BarsData{Rows: []Bar{{Chip: "red"}}}); return err },
		"no lines":          func() error { _, err := Curve(CurveData{}); return err },
		"line of one point": func() error {
			_, err := Curve(CurveData{Series: []Series{{X: []float64{1}, Y: []float64{1}}}})
			return err
		},
		"half a range": func() error {
			_, err := Curve(CurveData{Series: []Series{{X: []float64{1, 2}, Y: []float64{1, 2}, Low: []float64{1, 2}}}})
			return err
		},
		"no states":           func() error { _, err := Ranges(RangesData{}); return err },
		"no layers":           func() error { _, err := Layers(LayersData{}); return err },
		"layer of no verdict": func() error { _, err := Layers(LayersData{Layers: []LayerView{{Verdict: 9}}}); return err },
		"no chips":            func() error { _, err := Ladder(LadderData{}); return err },
		"chip with markup": func() error {
			_, err := Ladder(LadderData{Rows: []LadderRow{{Chips: []ChipView{{Colour: `"/><a`}}}}})
			return err
		},
		"too narrow": func() error {
			_, err := Ladder(LadderData{Frame: Frame{Width: 10}, Rows: []LadderRow{{Chips: []ChipView{{}}}}})
			return err
		},
		"empty card":        func() error { _, err := Card(CardData{}); return err },
		"card of a hundred": func() error { _, err := Card(CardData{Weigh: make([]WeighLine, 100)}); return err },
		"no labels":         func() error { _, err := LabelSheet(A4, nil); return err },
		"label of nothing":  func() error { _, err := Label(LabelData{Kind: PanLabel, Name: " "}); return err },
		"label of no kind":  func() error { _, err := Label(LabelData{Name: "x"}); return err },
		"label of a metre":  func() error { _, err := Label(LabelData{Kind: PanLabel, Name: "x", W: 1000, H: 20}); return err },
		"label too tall to fit": func() error {
			_, err := LabelSheet(A4, []LabelData{{Kind: PanLabel, Name: strings.Repeat("long ", 4000)}})
			return err
		},
		"no pages":    func() error { return WritePDF(io.Discard) },
		"paper of A3": func() error { _, err := PageNamed("A3"); return err },
	} {
		if f() == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

// Words about hazards are never cut: a small label grows, and the caution
// stands on every one.
func TestLabelsKeepTheirCautions(t *testing.T) {
	long := strings.Repeat("This pigment is harmful in a way that takes many words to tell. ", 6)
	for _, kind := range []LabelKind{TubeLabel, PanLabel, BottleLabel} {
		for _, l := range []LabelData{
			{Kind: kind, Name: "Smalt"},
			{Kind: kind, Name: "Vermilion", Assessed: true, Hazards: []string{long, "Second statement."}},
			{Kind: kind, Name: "Chalk", Assessed: true},
		} {
			d, err := Label(l)
			if err != nil {
				t.Fatal(err)
			}
			var words []string
			for _, m := range d.marks {
				words = append(words, m.text)
				if m.kind == textMark && m.y > d.H {
					t.Errorf("%s: %q stands below the label", l.Name, m.text)
				}
				if m.kind == textMark && m.font.size < 1.7 {
					t.Errorf("%s: %q is smaller than 5 point", l.Name, m.text)
				}
			}
			all := strings.Join(words, " ")
			want := []string{labelCaution}
			switch {
			case !l.Assessed:
				want = append(want, notAssessed)
			case len(l.Hazards) > 0:
				want = append(want, strings.TrimSpace(long), "Second statement.")
			}
			for _, w := range want {
				if !strings.Contains(all, w) {
					t.Errorf("%s: %q is missing from %q", l.Name, w, all)
				}
			}
		}
	}
}

// A pan's label is a strip no wider than a half pan is long; it grows in length.
func TestPanLabelIsAStrip(t *testing.T) {
	const halfPan = 19
	short, err := Label(LabelData{Kind: PanLabel, Name: "Smalt", Binder: "gum arabic"})
	if err != nil {
		t.Fatal(err)
	}
	full, err := Label(LabelData{Kind: PanLabel, Name: "Vermilion", Assessed: true, Hazards: slices.Repeat([]string{"Harmful in a way that takes words."}, 9)})
	if err != nil {
		t.Fatal(err)
	}
	if short.H > halfPan || full.H > halfPan || short.W != 50 || full.W <= short.W || full.W > 110 {
		t.Errorf("strips of %g by %g and %g by %g mm", short.W, short.H, full.W, full.H)
	}
	asked, err := Label(LabelData{Kind: PanLabel, W: 42, H: 22, Name: "Smalt"})
	if err != nil || asked.W != 42 {
		t.Errorf("a size that was asked for became %g mm, %v", asked.W, err)
	}
}

// Where some chips are measured, the others are said to be modelled.
func TestChipsSayHowTheyWereComeBy(t *testing.T) {
	for _, c := range []struct {
		chip  ChipView
		mixed bool
		want  string
	}{
		{ChipView{Colour: "#102030"}, true, "modelled"}, {ChipView{Colour: "#102030", Measured: true}, true, "measured"},
		{ChipView{Colour: "#102030", Note: "± 2"}, true, "modelled, ± 2"}, {ChipView{Colour: "#102030", Note: "± 2"}, false, "± 2"}, {ChipView{}, true, ""},
	} {
		if got := c.chip.note(c.mixed); got != c.want {
			t.Errorf("%+v, mixed %t: %q, want %q", c.chip, c.mixed, got, c.want)
		}
	}
}

func TestCardShrinksBeforeItRefuses(t *testing.T) {
	v := sampleCard()
	for range 8 {
		v.Next = append(v.Next, "One more thing to do that needs a line of its own on the card.")
	}
	d, err := Card(v)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range d.marks {
		if m.kind == textMark && m.y > A4.H-8 {
			t.Errorf("%q stands at %.1f mm", m.text, m.y)
		}
	}
}

// No line runs through the figure under a layer's bar, but those that paper was
// put over.
func TestLayersFiguresStandClear(t *testing.T) {
	for _, width := range []float64{0, 360, 479, 481, 900} {
		v := LayersData{Frame: Frame{Width: width}, Axis: "%"}
		for _, fat := range []float64{8, 50, 76} {
			v.Layers = append(v.Layers, LayerView{Name: "layer", Fat: Span{fat - 7, fat, fat + 5}, FatText: "76 (69–81)"})
		}
		d, err := Layers(v)
		if err != nil {
			t.Fatal(err)
		}
		for i, m := range d.marks {
			if m.kind != textMark || m.text != "76 (69–81)" {
				continue
			}
			left := m.x - map[anchor]float64{start: 0, middle: 0.5, end: 1}[m.anchor]*m.font.width(m.text)
			for _, l := range d.marks[i:] {
				if l.kind != pathMark || len(l.points) != 2 || l.points[0].y != l.points[1].y {
					continue
				}
				y := l.points[0].y
				if right := left + m.font.width(m.text); y > m.y-m.font.size && y < m.y+3+m.font.size*0.3 && l.points[0].x < right && l.points[1].x > left {
					t.Errorf("at width %g a line at y %.1f runs through %q at y %.1f", width, y, m.text, m.y)
				}
			}
		}
	}
}
