package picture

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"
	"strconv"

	ximage "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// WritePNG writes the drawing as an image of so many dots to the inch.
func (d *Drawing) WritePNG(w io.Writer, dpi float64) error {
	scale := float64(d.Unit) / 25.4 * dpi
	if width, height := d.W*scale, d.H*scale; !(width >= 1 && height >= 1 && width*height <= 64e6) {
		return fmt.Errorf("image of %.0f by %.0f dots: want at least one and at most 64 million", width, height)
	}
	img := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(d.W*scale)), int(math.Ceil(d.H*scale))))
	draw.Draw(img, img.Bounds(), image.NewUniform(paper.rgba()), image.Point{}, draw.Src)
	c := &canvas{img: img, scale: scale, faces: map[font]ximage.Face{}}
	for _, m := range d.marks {
		if err := c.draw(m); err != nil {
			return err
		}
	}
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	return enc.Encode(w, img)
}

func (i Ink) rgba() color.RGBA {
	r, g, b := i.rgb()
	return color.RGBA{r, g, b, 0xff}
}

// rgb reads #rrggbb; anything else is black, which a test rules out for inks
// of this package and [checkInk] for those handed in.
func (i Ink) rgb() (r, g, b uint8) {
	if len(i) != 7 || i[0] != '#' {
		return 0, 0, 0
	}
	v, err := strconv.ParseUint(string(i[1:]), 16, 24)
	if err != nil {
		return 0, 0, 0
	}
	return uint8(v >> 16), uint8(v >> 8), uint8(v)
}

type canvas struct {
	img   *image.RGBA
	scale float64
	faces map[font]ximage.Face
}

func (c *canvas) draw(m mark) error {
	switch m.kind {
	case textMark:
		return c.text(m)
	case rectMark:
		c.shape([]point{{m.x, m.y}, {m.x + m.w, m.y}, {m.x + m.w, m.y + m.h}, {m.x, m.y + m.h}}, true, m.style)
	case circleMark:
		c.shape(ring(m.x, m.y, m.r), true, m.style)
	case pathMark:
		c.shape(m.points, m.closed, m.style)
	}
	return nil
}

func (c *canvas) shape(points []point, closed bool, s style) {
	if s.fill != "" {
		c.fill([][]point{points}, s.fill)
	}
	if s.stroke != "" {
		c.fill(outline(points, closed, s.width, s.dash), s.stroke)
	}
}

// fill paints outlines in one go, so that overlaps do not darken.
func (c *canvas) fill(outlines [][]point, i Ink) {
	b := c.img.Bounds()
	z := vector.NewRasterizer(b.Dx(), b.Dy())
	for _, o := range outlines {
		if len(o) < 3 {
			continue
		}
		at := func(p point) (float32, float32) { return float32(p.x * c.scale), float32(p.y * c.scale) }
		x, y := at(o[0])
		z.MoveTo(x, y)
		for _, p := range o[1:] {
			x, y := at(p)
			z.LineTo(x, y)
		}
		z.ClosePath()
	}
	z.Draw(c.img, b, image.NewUniform(i.rgba()), image.Point{})
}

func (c *canvas) text(m mark) error {
	f, ok := c.faces[m.font]
	if !ok {
		parsed := m.font.face().font()
		var err error
		f, err = opentype.NewFace(parsed, &opentype.FaceOptions{Size: m.font.size * c.scale, DPI: 72, Hinting: ximage.HintingNone})
		if err != nil {
			return fmt.Errorf("typeface of size %g: %w", m.font.size, err)
		}
		c.faces[m.font] = f
	}
	x := m.x
	switch m.anchor {
	case middle:
		x -= m.font.width(m.text) / 2
	case end:
		x -= m.font.width(m.text)
	}
	dr := ximage.Drawer{Dst: c.img, Src: image.NewUniform(m.style.fill.rgba()), Face: f,
		Dot: fixed.Point26_6{X: fixed.Int26_6(x * c.scale * 64), Y: fixed.Int26_6(m.y * c.scale * 64)}}
	// Letter by letter, at the widths the layout measured with.
	for _, r := range m.text {
		dr.Dot.X = fixed.Int26_6(x * c.scale * 64)
		dr.DrawString(string(r))
		x += m.font.face().advance(r) * m.font.size
	}
	return nil
}

// ring is a circle as a polygon.
func ring(x, y, r float64) []point {
	const n = 48
	out := make([]point, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		out[i] = point{x + r*cos, y + r*sin}
	}
	return out
}

// outline turns a line into the polygons of its stroke: a bar for each piece
// and a disc at each joint, all turning the same way.
func outline(points []point, closed bool, width float64, dash []float64) [][]point {
	if closed {
		points = append(append([]point(nil), points...), points[0])
	}
	var out [][]point
	for _, piece := range dashes(points, dash) {
		for i := 1; i < len(piece); i++ {
			p, q := piece[i-1], piece[i]
			l := math.Hypot(q.x-p.x, q.y-p.y)
			if l == 0 {
				continue
			}
			nx, ny := (q.y-p.y)/l*width/2, -(q.x-p.x)/l*width/2
			out = append(out, []point{{p.x + nx, p.y + ny}, {q.x + nx, q.y + ny}, {q.x - nx, q.y - ny}, {p.x - nx, p.y - ny}})
			if i > 1 {
				out = append(out, ring(p.x, p.y, width/2))
			}
		}
		if closed && len(dash) == 0 {
			out = append(out, ring(points[0].x, points[0].y, width/2))
		}
	}
	return out
}

// dashes cuts a line into the pieces that are drawn.
func dashes(points []point, dash []float64) [][]point {
	if len(dash) == 0 {
		return [][]point{points}
	}
	var out [][]point
	current := []point{points[0]}
	on, left, k := true, dash[0], 0
	for i := 1; i < len(points); i++ {
		p, q := points[i-1], points[i]
		l := math.Hypot(q.x-p.x, q.y-p.y)
		for done := 0.0; done < l; {
			step := min(left, l-done)
			done += step
			left -= step
			at := point{p.x + (q.x-p.x)*done/l, p.y + (q.y-p.y)*done/l}
			if on {
				current = append(current, at)
			}
			if left <= 0 {
				if on {
					out = append(out, current)
				}
				on, k = !on, (k+1)%len(dash)
				left, current = dash[k], []point{at}
			}
		}
	}
	if on && len(current) > 1 {
		out = append(out, current)
	}
	return out
}
