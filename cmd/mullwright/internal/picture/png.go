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
	img := image.NewRGBA(image.Rect(0, 0, dots(d.W*scale), dots(d.H*scale)))
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

// dots rounds a length up, but for the last digits of arithmetic.
func dots(v float64) int { return int(math.Ceil(v - 1e-6)) }

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
	img    *image.RGBA
	scale  float64
	faces  map[font]ximage.Face
	raster vector.Rasterizer
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

// fill paints outlines in one go, so that overlaps do not darken. Only the box
// they fill is worked on.
func (c *canvas) fill(outlines [][]point, i Ink) {
	lo, hi := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, o := range outlines {
		for _, p := range o {
			lo = point{min(lo.x, p.x*c.scale), min(lo.y, p.y*c.scale)}
			hi = point{max(hi.x, p.x*c.scale), max(hi.y, p.y*c.scale)}
		}
	}
	if !(lo.x <= hi.x) {
		return
	}
	box := image.Rect(int(math.Floor(lo.x)), int(math.Floor(lo.y)), int(math.Ceil(hi.x)), int(math.Ceil(hi.y))).Intersect(c.img.Bounds())
	if box.Empty() {
		return
	}
	c.raster.Reset(box.Dx(), box.Dy())
	for _, o := range outlines {
		for k, p := range o {
			x, y := float32(p.x*c.scale-float64(box.Min.X)), float32(p.y*c.scale-float64(box.Min.Y))
			if k == 0 {
				c.raster.MoveTo(x, y)
			} else {
				c.raster.LineTo(x, y)
			}
		}
		c.raster.ClosePath()
	}
	c.raster.Draw(c.img, box, image.NewUniform(i.rgba()), image.Point{})
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

// outline turns a line into the polygons of its stroke. Corners are mitred, or
// cut off where they are very sharp.
func outline(points []point, closed bool, width float64, dash []float64) [][]point {
	points = distinct(points, closed)
	if len(points) < 2 {
		return nil
	}
	if closed && len(dash) == 0 {
		right := sides(points, -width/2, true)
		reverse(right)
		return [][]point{sides(points, width/2, true), right}
	}
	if closed {
		points = append(points, points[0])
	}
	var out [][]point
	for _, piece := range dashes(points, dash) {
		piece = distinct(piece, false)
		if len(piece) < 2 {
			continue
		}
		right := sides(piece, -width/2, false)
		reverse(right)
		out = append(out, append(sides(piece, width/2, false), right...))
	}
	return out
}

// distinct leaves out points that repeat the one before.
func distinct(points []point, closed bool) []point {
	var out []point
	for _, p := range points {
		if len(out) == 0 || math.Hypot(p.x-out[len(out)-1].x, p.y-out[len(out)-1].y) > 1e-9 {
			out = append(out, p)
		}
	}
	if closed && len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	return out
}

func reverse(p []point) {
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
}

// sides is a line moved sideways by some distance.
func sides(points []point, by float64, closed bool) []point {
	n := len(points)
	normal := func(p, q point) point {
		l := math.Hypot(q.x-p.x, q.y-p.y)
		return point{(q.y - p.y) / l, -(q.x - p.x) / l}
	}
	var out []point
	for i, p := range points {
		var before, after point
		switch {
		case closed:
			before, after = normal(points[(i+n-1)%n], p), normal(p, points[(i+1)%n])
		case i == 0:
			after = normal(p, points[1])
			before = after
		case i == n-1:
			before = normal(points[i-1], p)
			after = before
		default:
			before, after = normal(points[i-1], p), normal(p, points[i+1])
		}
		// The mitre is as long as 1/cos of half the turn.
		mx, my := before.x+after.x, before.y+after.y
		if m := mx*mx + my*my; m > 0.25 {
			out = append(out, point{p.x + by*mx*2/m, p.y + by*my*2/m})
			continue
		}
		out = append(out, point{p.x + by*before.x, p.y + by*before.y}, point{p.x + by*after.x, p.y + by*after.y})
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
