package optics

import (
	"fmt"
	"math"

	"mullwright/formulate/trace"
)

// A Chart is a set of grounds that every film of a colour chart was laid over,
// dark to light, as reflectances alike at all wavelengths.
type Chart struct {
	Grounds []Reflectance
	// Rivals are other grounds that fit the chart's films about as well. What
	// they change in an answer is part of its doubt.
	Rivals [][]Reflectance
	// Noise is the rms by which the films of the chart miss the model. A film
	// that passes no more than that cannot be told from one that hides.
	Noise Reflectance
}

// A ChartFilm is one film of paint read over each ground of a chart. The
// film's thickness is the unit of all that is worked out from it.
type ChartFilm struct {
	Label string // what the chart calls the paint
	Over  []Spectrum
}

// Check refuses films that do not belong to the chart or are no spectra.
func (f ChartFilm) Check(c Chart) error {
	if len(f.Over) != len(c.Grounds) || len(f.Over) < 2 {
		return fmt.Errorf("film %q is read over %d grounds, the chart has %d: want the same, and at least two", f.Label, len(f.Over), len(c.Grounds))
	}
	for _, s := range f.Over {
		if err := s.Check(); err != nil {
			return fmt.Errorf("film %q: %w", f.Label, err)
		}
		if len(s.At) != len(f.Over[0].At) {
			return fmt.Errorf("film %q: its readings have %d and %d wavelengths", f.Label, len(f.Over[0].At), len(s.At))
		}
	}
	return nil
}

// FitLayerRelation fits one layer to readings over several grounds.
var FitLayerRelation = trace.Relation{
	Name:     "layer fitted to readings over grounds",
	Equation: "least squares of R₀·(1 + Rᵢ·gᵢ) + u·gᵢ = Rᵢ, u = T² − R₀², with R₀ ≥ 0, T² ≥ 0, R₀ + T ≤ 1",
	Source:   "Kubelka (1954), made linear",
}

// FitLayer returns the layer whose readings over the grounds come nearest the
// measured ones. The two-layer rule is linear in R₀ and u = T² − R₀², so least
// squares has a closed form; an answer outside R₀ ≥ 0, T² ≥ 0, R₀ + T ≤ 1 is
// moved to the border.
func FitLayer(read, grounds []Reflectance) Layer {
	var aa, ab, bb, ar, br float64
	for i, g := range grounds {
		r := float64(read[i])
		a, b := 1+float64(r*float64(g)), float64(g)
		aa, ab, bb = aa+float64(a*a), ab+float64(a*b), bb+float64(b*b)
		ar, br = ar+float64(a*r), br+float64(b*r)
	}
	det := aa*bb - ab*ab
	r0 := (ar*bb - br*ab) / det
	t2 := (aa*br-ab*ar)/det + r0*r0
	if r0 < 0 { // nothing scatters: one unknown is left
		r0, t2 = 0, br/bb
	}
	if t2 < 0 { // nothing passes: every ground reads the same
		r0, t2 = ar/aa, 0
	}
	r0 = min(r0, 1)
	return even(r0, min(math.Sqrt(t2), 1-r0))
}

// A FilmFit is a chart film as layers, one a wavelength.
type FilmFit struct {
	At     []Nanometre
	Layers []Layer
	RMS    Reflectance // by which the film's readings miss the fit
}

// FitFilm fits a layer at each wavelength over the given grounds.
func FitFilm(f ChartFilm, grounds []Reflectance) FilmFit {
	at := f.Over[0].At
	fit := FilmFit{At: at, Layers: make([]Layer, len(at))}
	read := make([]Reflectance, len(grounds))
	var squares float64
	for i := range at {
		for j, s := range f.Over {
			read[j] = s.R[i]
		}
		l := FitLayer(read, grounds)
		fit.Layers[i] = l
		for j, g := range grounds {
			d := float64(read[j] - OverGround(l, g))
			squares += float64(d * d)
		}
	}
	fit.RMS = Reflectance(math.Sqrt(squares / float64(len(at)*len(grounds))))
	return fit
}

// Constants returns K and S of the fitted film at each wavelength, per film. A
// layer that passes less than the floor is taken to pass the floor: how much
// less, its readings do not tell.
func (f FilmFit) Constants(floor Transmittance) ([]Constants, error) {
	out := make([]Constants, len(f.Layers))
	for i, l := range f.Layers {
		l.T = min(max(l.T, floor), Transmittance(1-l.R))
		c, err := ConstantsOfLayer(l)
		if err != nil {
			return nil, fmt.Errorf("at %g nm: %w", float64(f.At[i]), err)
		}
		out[i] = c
	}
	return out, nil
}

// Over returns the spectrum of some thickness of a film over a ground.
func Over(at []Nanometre, film []Constants, x Films, ground Reflectance) Spectrum {
	s := Spectrum{At: at, R: make([]Reflectance, len(at))}
	for i, c := range film {
		s.R[i] = OverGround(Film(c, x), ground)
	}
	return s
}
