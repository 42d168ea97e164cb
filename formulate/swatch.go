package formulate

import (
	"errors"
	"fmt"
	"slices"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
)

// A Sample is one measured colour with the line in which its data set asks to
// be named.
type Sample[T any] struct {
	Of     T
	Credit string
}

// Coloured is a pigment with all that was measured of its colour, the best of
// each sort first.
type Coloured struct {
	Material *material.Material
	Paints   []Sample[optics.RelativePaint]
	Films    []Sample[optics.ChartFilm]
	Powders  []Sample[optics.Powder]
}

// Hider is the contrast of a pigment's film on the chart.
type Hider struct {
	ID       string
	Contrast optics.ContrastRatio
}

// SwatchRequest asks what pigments look like.
type SwatchRequest struct {
	Pigments []Coloured
	White    Sample[optics.RelativePaint] // that tints are made with
	Chart    optics.Chart
	Hiders   []Hider          // every pigment of the chart, the best hider first
	Tints    []quantity.Parts // of white to one of colour; none: not asked
	Glazes   []optics.Films   // of the chart's own film; none: not asked
}

// SampleKind is what a colour was measured of.
type SampleKind string

const (
	PaintSample  SampleKind = "paint"  // an acrylic paint that hides
	FilmSample   SampleKind = "film"   // one film of a colour chart
	PowderSample SampleKind = "powder" // dry powder, no binder
)

// SampleKinds lists them, the nearest to a paint first.
func SampleKinds() []SampleKind { return []SampleKind{PaintSample, FilmSample, PowderSample} }

// A PlainSwatch is one plain colour of a pigment.
type PlainSwatch struct {
	optics.Swatch
	Kind   SampleKind
	Credit string
	// Others is how many more samples of this kind there are of the pigment, and
	// Farthest how far the farthest of them lies (CIEDE2000).
	Others   int
	Farthest optics.Difference
}

// HidingPlace is where a pigment's film stands among all films of the chart.
type HidingPlace struct {
	Contrast optics.ContrastRatio
	Place    int // from 1, the best hider
	Of       int
	Hides    bool // the order among those that hide means nothing
}

// IndexRange is the index contrast of a pigment in one surround, at the lowest,
// the middle and the highest of its published refractive indices.
type IndexRange struct {
	Surround optics.Surround
	Fresnel  evidence.Range[optics.Reflectance]
}

// PigmentSwatches is what one pigment looks like.
type PigmentSwatches struct {
	Material *material.Material
	Plain    []PlainSwatch // one of each kind there is, the best first
	Tints    *Sample[optics.TintLadder]
	Glazes   *Sample[optics.GlazeLadder]
	Hiding   *HidingPlace
	Index    []IndexRange
	// Missing says what cannot be told of it, and why.
	Missing []string
}

// SwatchResult is the answer.
type SwatchResult struct {
	Request  SwatchRequest
	Pigments []PigmentSwatches
}

// Credits lists the lines in which the data sets used ask to be named, each
// once.
func (r *SwatchResult) Credits() []string {
	var out []string
	seen := map[string]bool{}
	add := func(s string) {
		if s != "" && !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	for i := range r.Pigments {
		p := &r.Pigments[i]
		for _, s := range p.Plain {
			add(s.Credit)
		}
		if p.Tints != nil {
			add(p.Tints.Credit)
		}
		if p.Glazes != nil {
			add(p.Glazes.Credit)
		}
	}
	return out
}

// Swatches works out what pigments look like, from what was measured of each.
func Swatches(req SwatchRequest) (*SwatchResult, error) {
	if len(req.Pigments) == 0 {
		return nil, errors.New("no pigment given")
	}
	res := &SwatchResult{Request: req}
	for i := range req.Pigments {
		p, err := req.swatches(&req.Pigments[i])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", req.Pigments[i].Material.ID, err)
		}
		res.Pigments = append(res.Pigments, p)
	}
	return res, nil
}

func (r *SwatchRequest) swatches(c *Coloured) (PigmentSwatches, error) {
	out := PigmentSwatches{Material: c.Material}
	for _, plain := range c.plain(r.Chart) {
		s, err := plain()
		if err != nil {
			return out, err
		}
		if s != nil {
			out.Plain = append(out.Plain, *s)
		}
	}
	if len(out.Plain) == 0 {
		out.Missing = append(out.Missing, "no measured colour of it may be passed on, so there is no chip")
	}
	if len(r.Tints) > 0 && len(c.Paints) > 0 {
		l, err := optics.Tints(c.Paints[0].Of, r.White.Of, r.Tints)
		if err != nil {
			return out, err
		}
		out.Tints = &Sample[optics.TintLadder]{l, c.Paints[0].Credit}
	}
	if len(r.Glazes) > 0 && len(c.Films) > 0 {
		l, err := optics.Glazes(c.Films[0].Of, r.Chart, r.Glazes)
		if err != nil {
			return out, err
		}
		out.Glazes = &Sample[optics.GlazeLadder]{l, c.Films[0].Credit}
	}
	if len(out.Plain) > 0 && len(c.Paints) == 0 {
		out.Missing = append(out.Missing, "a tint cannot be foretold: K and S of its paint are not known")
	}
	if len(out.Plain) > 0 && len(c.Films) == 0 {
		out.Missing = append(out.Missing, "a glaze cannot be foretold: no film of it was read over several grounds")
	}
	out.Hiding = r.hiding(c.Material.ID)
	out.Index = indexRanges(c.Material)
	return out, nil
}

// plain is one plain colour for each kind of sample, the best first; nil where
// there is none.
func (c *Coloured) plain(chart optics.Chart) []func() (*PlainSwatch, error) {
	film := func(f optics.ChartFilm) (optics.Swatch, error) { return optics.FilmSwatch(f, chart) }
	return []func() (*PlainSwatch, error){
		func() (*PlainSwatch, error) { return plainOf(PaintSample, c.Paints, optics.PaintSwatch) },
		func() (*PlainSwatch, error) { return plainOf(FilmSample, c.Films, film) },
		func() (*PlainSwatch, error) { return plainOf(PowderSample, c.Powders, optics.PowderSwatch) },
	}
}

// BestSwatch is the best plain colour of a pigment, nil where none was measured.
func BestSwatch(c Coloured, chart optics.Chart) (*PlainSwatch, error) {
	for _, plain := range c.plain(chart) {
		if s, err := plain(); s != nil || err != nil {
			return s, err
		}
	}
	return nil, nil
}

// plainOf is the swatch of the first sample, and how far the others lie from it.
func plainOf[T any](kind SampleKind, list []Sample[T], swatch func(T) (optics.Swatch, error)) (*PlainSwatch, error) {
	if len(list) == 0 {
		return nil, nil
	}
	first, err := swatch(list[0].Of)
	if err != nil {
		return nil, err
	}
	out := &PlainSwatch{Swatch: first, Kind: kind, Credit: list[0].Credit, Others: len(list) - 1}
	for _, s := range list[1:] {
		other, err := swatch(s.Of)
		if err != nil {
			return nil, err
		}
		out.Farthest = max(out.Farthest, optics.CIEDE2000(first.Chip.Lab, other.Chip.Lab))
	}
	return out, nil
}

// hiding finds a pigment's place among the chart's films.
func (r *SwatchRequest) hiding(id string) *HidingPlace {
	for i, h := range r.Hiders {
		if h.ID == id {
			return &HidingPlace{Contrast: h.Contrast, Place: i + 1, Of: len(r.Hiders), Hides: h.Contrast >= optics.HidingCriterion}
		}
	}
	return nil
}

// indexRanges sets a pigment's refractive index against what may lie about its
// grains; nothing where no index is published.
func indexRanges(m *material.Material) []IndexRange {
	var n []float64
	for _, r := range m.RefractiveIndex {
		switch {
		case r.Aside != "":
		case r.Value != 0:
			n = append(n, float64(r.Value))
		default:
			n = append(n, float64(r.Low), float64(r.High))
		}
	}
	if len(n) == 0 {
		return nil
	}
	lowest, highest := slices.Min(n), slices.Max(n)
	middle := evidence.Quantile(n, 0.5)
	out := make([]IndexRange, 0, len(optics.Surrounds()))
	for _, s := range optics.Surrounds() {
		f := func(n float64) optics.Reflectance { return optics.Fresnel(quantity.RefractiveIndex(n), s.Index) }
		nearest := min(max(float64(s.Index), lowest), highest)
		out = append(out, IndexRange{s, evidence.Range[optics.Reflectance]{Low: f(nearest), Typical: f(middle), High: max(f(lowest), f(highest))}})
	}
	return out
}
