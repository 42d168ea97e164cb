package optics

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
)

// A Basis says what a colour rests on, in words for the maker.
type Basis struct {
	How   string // measured, or by which model
	Data  string // which data, and in what film
	Error string // how far a real paint may lie from it
}

// A Chip is one colour to show.
type Chip struct {
	Colour
	Measured bool
	// Doubt is how far the chip moves when the same readings are taken another
	// way that they allow as well. It is 0 for a measured chip and leaves out
	// that the maker's paint is another paint.
	Doubt Difference
}

// A Swatch is the plain colour of a pigment, with what it rests on.
type Swatch struct {
	Label string
	Chip  Chip
	Basis Basis
	Notes []string
}

// A RelativePaint holds K and S of a paint against wavelength, as multiples of
// the scattering of one white at each wavelength. It has no thickness.
type RelativePaint struct {
	Label     string
	At        []Nanometre
	Constants []Constants
	Surface   Surface
}

// Check refuses a paint whose columns do not belong together.
func (p RelativePaint) Check() error {
	if len(p.At) != len(p.Constants) || len(p.At) < 2 {
		return fmt.Errorf("paint %q has %d wavelengths and %d pairs of K and S: want as many of both, and at least two", p.Label, len(p.At), len(p.Constants))
	}
	for i, c := range p.Constants {
		if i > 0 && p.At[i] <= p.At[i-1] {
			return fmt.Errorf("paint %q: wavelength %g nm after %g nm: want them rising", p.Label, float64(p.At[i]), float64(p.At[i-1]))
		}
		if !(c.K >= 0 && c.S > 0 && c.K < 1e6 && c.S < 1e6) {
			return fmt.Errorf("paint %q: K %g and S %g at %g nm: want K of 0 or more and S above 0", p.Label, float64(c.K), float64(c.S), float64(p.At[i]))
		}
	}
	return nil
}

// masstone is the spectrum of a hiding film as an instrument reads it.
func (p RelativePaint) masstone() Spectrum {
	s := Spectrum{At: p.At, R: make([]Reflectance, len(p.At))}
	for i, c := range p.Constants {
		s.R[i] = p.Surface.Seen(HidingReflectance(c))
	}
	return s
}

// How the figures about error were found stands in the package comment.
const (
	paintError = "hiding films worked out this way lie a median of 2 and at worst 7 CIELAB units from published colours of the same paints; oils of one pigment from several makers lie a median of 13 from each other, transparent organics 20 to 40. Check with a drawdown"
	filmError  = "two patches of one pigment on the chart itself lie a median of 4 and, one time in ten, 25 or more CIELAB units apart; another maker's pigment or another binder lies farther. Check with a drawdown"
	dustError  = "dry powder and paint of one pigment lie a mean of 16 CIELAB units apart: a binder deepens most pigments and makes some transparent"
)

// PaintSwatch returns the masstone of a paint known by relative K and S.
func PaintSwatch(p RelativePaint) (Swatch, error) {
	if err := p.Check(); err != nil {
		return Swatch{}, err
	}
	return Swatch{
		Label: p.Label,
		Chip:  Chip{Colour: ColourOf(p.masstone())},
		Basis: Basis{
			How:   "modelled: two-flux film that hides, with Saunderson's surface correction, gloss counted in, daylight D65",
			Data:  "K and S of an acrylic paint, measured relative to titanium white",
			Error: paintError,
		},
	}, nil
}

// FilmSwatch returns the measured colour of a chart film over the chart's
// lightest ground.
func FilmSwatch(f ChartFilm, c Chart) (Swatch, error) {
	if err := f.Check(c); err != nil {
		return Swatch{}, err
	}
	return Swatch{
		Label: f.Label,
		Chip:  Chip{Colour: ColourOf(f.Over[len(f.Over)-1]), Measured: true},
		Basis: Basis{
			How:   "measured: one film of a colour chart over its lightest ground, daylight D65",
			Data:  "binder and thickness of the chart's films are not stated",
			Error: filmError,
		},
	}, nil
}

// A Powder is the reflectance of a dry powder: one colour and no film.
type Powder struct {
	Label string
	R     Spectrum
}

// PowderSwatch returns the colour of a dry powder.
func PowderSwatch(p Powder) (Swatch, error) {
	if err := p.R.Check(); err != nil {
		return Swatch{}, fmt.Errorf("powder %q: %w", p.Label, err)
	}
	return Swatch{
		Label: p.Label,
		Chip:  Chip{Colour: ColourOf(p.R), Measured: true},
		Basis: Basis{
			How:   "measured: dry powder, no binder, daylight D65",
			Data:  "levels of the set look low: its titanium white reads 0.58 where the white reference reads 0.99",
			Error: dustError,
		},
		Notes: []string{"one measured colour: a glaze or a tint cannot be foretold from it"},
	}, nil
}

// FilmContrastMeasured returns the luminance of a chart film over the darkest
// ground by that over the lightest. Near 1 the film hides. It ranks films of
// one chart; it is no standard contrast ratio, for thickness and grounds are
// the chart's own.
func FilmContrastMeasured(f ChartFilm) (ContrastRatio, error) {
	if len(f.Over) < 2 {
		return 0, fmt.Errorf("film %q is read over %d grounds: want two or more", f.Label, len(f.Over))
	}
	dark := Tristimulus(f.Over[0], TwoDegree, D65).Y / 100
	light := Tristimulus(f.Over[len(f.Over)-1], TwoDegree, D65).Y / 100
	return Contrast(Reflectance(dark), Reflectance(light))
}

// A GlazeLadder is one film of a chart, thinner and thicker, over the chart's
// grounds.
type GlazeLadder struct {
	Label   string
	Films   []Films       // columns: multiples of the chart's film
	Grounds []Reflectance // rows, light to dark
	Bare    []Colour      // each ground without a film
	Chips   [][]Chip      // [row][column]
	// Misfit is the rms by which the fit misses the readings; Worst the largest
	// colour difference between a modelled and a measured film.
	Misfit   Reflectance
	Worst    Difference
	Contrast ContrastRatio
	Hides    bool
	Basis    Basis
	Notes    []string
}

// Glazes works out a ladder of glazes from one chart film. At one film the
// measured colour itself is shown; all else is modelled. Where the film hides,
// thinner steps are left out: its readings do not tell what they would let
// through.
func Glazes(f ChartFilm, c Chart, films []Films) (GlazeLadder, error) {
	if err := f.Check(c); err != nil {
		return GlazeLadder{}, err
	}
	contrast, err := FilmContrastMeasured(f)
	if err != nil {
		return GlazeLadder{}, err
	}
	out := GlazeLadder{Label: f.Label, Contrast: contrast, Hides: contrast >= HidingCriterion}
	for _, x := range films {
		if !(x > 0 && x <= 100) {
			return GlazeLadder{}, fmt.Errorf("thickness of %g films: want more than 0 and at most 100", float64(x))
		}
		if out.Hides && x < 1 {
			continue
		}
		out.Films = append(out.Films, x)
	}
	ways, err := c.readings(f)
	if err != nil {
		return GlazeLadder{}, err
	}
	out.Misfit = FitFilm(f, c.Grounds).RMS
	for i := len(c.Grounds) - 1; i >= 0; i-- {
		out.Grounds = append(out.Grounds, c.Grounds[i])
		out.Bare = append(out.Bare, ColourOf(flat(f.Over[0].At, c.Grounds[i])))
		measured := ColourOf(f.Over[i])
		misfit := CIEDE2000(measured.Lab, ways[0].over(i, 1).Lab)
		out.Worst = max(out.Worst, misfit)
		row := make([]Chip, len(out.Films))
		for j, x := range out.Films {
			if x == 1 {
				row[j] = Chip{Colour: measured, Measured: true}
				continue
			}
			row[j] = Chip{Colour: ways[0].over(i, x), Doubt: misfit}
			for _, w := range ways[1:] {
				row[j].Doubt = max(row[j].Doubt, CIEDE2000(row[j].Lab, w.over(i, x).Lab))
			}
		}
		out.Chips = append(out.Chips, row)
	}
	out.Basis = Basis{
		How:   "modelled: two-flux film fitted to the chart's readings over four grounds; the column of one film is measured; daylight D65",
		Data:  "binder and thickness of the chart's films are not stated and its grounds are inferred by the fit, so the ladder counts in that film and claims no micrometres and no oil",
		Error: fmt.Sprintf("the fit misses its readings by %.4f rms in reflectance, at worst %.1f in colour difference; %s", float64(out.Misfit), float64(out.Worst), filmError),
	}
	if out.Hides {
		out.Notes = append(out.Notes, "the chart's film hides: thinner films of it cannot be foretold")
	}
	return out, nil
}

// reading is one way to take a film's readings: its constants and the grounds
// they belong to.
type reading struct {
	at      []Nanometre
	film    []Constants
	grounds []Reflectance
}

func (r reading) over(ground int, x Films) Colour {
	return ColourOf(Over(r.at, r.film, x, r.grounds[ground]))
}

// readings returns the ways in which the film's readings may be taken, the one
// to show first: with the chart's grounds and its rivals, and with a band that
// lets nothing measurable through passing all, a third or an eighth of what
// could just be told from nothing (twice the noise, over the lightest ground).
func (c Chart) readings(f ChartFilm) ([]reading, error) {
	told := Transmittance(math.Sqrt(2 * float64(c.Noise) / float64(c.Grounds[len(c.Grounds)-1])))
	type way struct {
		grounds []Reflectance
		floor   Transmittance
	}
	ways := []way{{c.Grounds, told / 3}, {c.Grounds, told}, {c.Grounds, told / 8}}
	for _, g := range c.Rivals {
		ways = append(ways, way{g, told / 3})
	}
	out := make([]reading, len(ways))
	for i, w := range ways {
		fit := FitFilm(f, w.grounds)
		film, err := fit.Constants(w.floor)
		if err != nil {
			return nil, fmt.Errorf("film %q: %w", f.Label, err)
		}
		out[i] = reading{fit.At, film, w.grounds}
	}
	return out, nil
}

func flat(at []Nanometre, r Reflectance) Spectrum {
	return Spectrum{At: at, R: make([]Reflectance, len(at))}.Map(func(Reflectance) Reflectance { return r })
}

// A TintLadder is a paint let down with white, step by step.
type TintLadder struct {
	Label string
	White []quantity.Parts // parts of white to one part of colour, by volume of paint
	Chips []Chip
	Basis Basis
	Notes []string
}

// Tints lets a paint down with a white of the same set, hiding films
// throughout. Parts are of paint by volume, as the constants are.
func Tints(p, white RelativePaint, parts []quantity.Parts) (TintLadder, error) {
	if err := p.Check(); err != nil {
		return TintLadder{}, err
	}
	if err := white.Check(); err != nil {
		return TintLadder{}, err
	}
	if len(p.At) != len(white.At) {
		return TintLadder{}, fmt.Errorf("paint %q and white %q are known at %d and %d wavelengths: want the same set", p.Label, white.Label, len(p.At), len(white.At))
	}
	out := TintLadder{Label: p.Label, White: parts}
	for _, n := range parts {
		mixed := RelativePaint{At: p.At, Surface: p.Surface, Constants: make([]Constants, len(p.At))}
		for i := range p.At {
			c, err := Mix(Part{1, p.Constants[i]}, Part{n, white.Constants[i]})
			if err != nil {
				return TintLadder{}, err
			}
			mixed.Constants[i] = c
		}
		out.Chips = append(out.Chips, Chip{Colour: ColourOf(mixed.masstone())})
	}
	out.Basis = Basis{
		How:   "modelled: two-constant mixing of hiding films, with Saunderson's surface correction, gloss counted in, daylight D65",
		Data:  "K and S of acrylic paints, measured relative to their titanium white; parts are of paint by volume, not of dry pigment",
		Error: paintError,
	}
	out.Notes = []string{"titanium white only: tints with lead or zinc white are not foretold"}
	return out, nil
}

// A Surround is what lies about a pigment grain.
type Surround struct {
	Name   string
	Index  quantity.RefractiveIndex
	Source string
}

// Surrounds returns what a pigment is seen in, from oil to air.
func Surrounds() []Surround {
	return []Surround{
		{"linseed oil, fresh", 1.48, "Color and Light (not dated)"},
		{"gum film, dry", 1.47, "from memory"},
		{"water", 1.333, "Polyanskiy (2026)"},
		{"air", 1, "definition"},
	}
}
