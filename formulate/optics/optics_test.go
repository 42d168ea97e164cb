package optics_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
)

const tiny = 1e-9

func constants(t *rapid.T, name string) optics.Constants {
	return optics.Constants{
		K: optics.Absorbing(math.Pow(10, rapid.Float64Range(-6, 2).Draw(t, name+" log K"))),
		S: optics.Scattering(math.Pow(10, rapid.Float64Range(-6, 2).Draw(t, name+" log S"))),
	}
}

func unit(t *rapid.T, name string) optics.Reflectance {
	return optics.Reflectance(rapid.Float64Range(0, 1).Draw(t, name))
}

func thickness(t *rapid.T, name string) optics.Films {
	return optics.Films(rapid.Float64Range(0, 20).Draw(t, name))
}

func near(a, b optics.Reflectance) bool { return math.Abs(float64(a-b)) < tiny }

// No film gives back or passes less than nothing, nor both together more than
// all.
func TestFilmKeepsItsLight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := optics.Film(constants(t, "film"), thickness(t, "X"))
		if l.R < 0 || l.T < 0 || float64(l.R)+float64(l.T) > 1+tiny {
			t.Fatalf("film %+v", l)
		}
		if r := optics.OverGround(l, unit(t, "ground")); r < 0 || r > 1+tiny {
			t.Fatalf("film %+v over a ground gives back %g", l, r)
		}
	})
}

// A thick film reads R∞ whatever lies under it, and a film over a ground of
// R∞ reads R∞ at any thickness.
func TestHidingLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := constants(t, "film")
		limit := optics.HidingReflectance(c)
		if got := optics.OverGround(optics.Film(c, 1e9), unit(t, "ground")); !near(got, limit) {
			t.Fatalf("thick film reads %g, R∞ is %g", got, limit)
		}
		if got := optics.OverGround(optics.Film(c, thickness(t, "X")), limit); !near(got, limit) {
			t.Fatalf("film over R∞ reads %g, want %g", got, limit)
		}
		q, ok := c.Ratio()
		back, err := optics.RatioOfHiding(limit)
		if !ok || err != nil || math.Abs(float64(back-q)) > 1e-6*(1+float64(q)) {
			t.Fatalf("K/S %g comes back as %g, %v", q, back, err)
		}
	})
}

// One film of X₁ + X₂ is the same as X₁ stacked on X₂; over a ground, layer by
// layer is the same as the stack at once.
func TestStackingIsConsistent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, x1, x2 := constants(t, "film"), thickness(t, "X1"), thickness(t, "X2")
		whole, parts := optics.Film(c, x1+x2), optics.Stack(optics.Film(c, x1), optics.Film(c, x2))
		if !near(whole.R, parts.R) || math.Abs(float64(whole.T-parts.T)) > tiny {
			t.Fatalf("one film %+v, two films %+v", whole, parts)
		}
		upper, lower, ground := optics.Film(c, x1), optics.Film(constants(t, "lower"), x2), unit(t, "ground")
		if a, b := optics.OverGround(optics.Stack(upper, lower), ground), optics.OverGround(upper, optics.OverGround(lower, ground)); !near(a, b) {
			t.Fatalf("stack reads %g, layer by layer %g", a, b)
		}
	})
}

// A film read over two grounds gives its own K and S back, as long as it lets
// light through.
func TestConstantsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := optics.Constants{
			K: optics.Absorbing(rapid.Float64Range(0, 2).Draw(t, "K")),
			S: optics.Scattering(rapid.Float64Range(0, 4).Draw(t, "S")),
		}
		dark := optics.Reflectance(rapid.Float64Range(0, 0.3).Draw(t, "dark"))
		light := optics.Reflectance(rapid.Float64Range(0.5, 1).Draw(t, "light"))
		film := optics.Film(c, 1)
		overDark, overLight := optics.OverGround(film, dark), optics.OverGround(film, light)
		l, err := optics.LayerOverTwoGrounds(min(overDark, overLight), min(overLight, 1), dark, light)
		if err != nil {
			t.Fatal(err)
		}
		fitted := optics.FitLayer([]optics.Reflectance{overDark, overLight}, []optics.Reflectance{dark, light})
		for _, l := range []optics.Layer{l, fitted} {
			got, err := optics.ConstantsOfLayer(l)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(float64(got.K-c.K)) > 1e-5 || math.Abs(float64(got.S-c.S)) > 1e-5 {
				t.Fatalf("K, S %+v come back as %+v", c, got)
			}
		}
	})
}

// Kubelka's own form, over black and white, gives the same K and S.
func TestKubelkasForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, s := rapid.Float64Range(0.01, 2).Draw(t, "K"), rapid.Float64Range(0.05, 3).Draw(t, "S")
		a := 1 + k/s
		b := math.Sqrt(a*a - 1)
		coth := 1 / math.Tanh(b*s)
		g := float64(unit(t, "ground"))
		want := (1 - g*(a-b*coth)) / (a - g + b*coth)
		if got := optics.OverGround(optics.Film(optics.Constants{K: optics.Absorbing(k), S: optics.Scattering(s)}, 1), optics.Reflectance(g)); !near(got, optics.Reflectance(want)) {
			t.Fatalf("film over %g reads %g, Kubelka's form %g", g, got, want)
		}
	})
}

func TestSurfaceGoesBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := optics.Surface{K1: 0.0375, K2: optics.Reflectance(rapid.Float64Range(0, 0.9).Draw(t, "k2")), Excluded: rapid.Bool().Draw(t, "excluded")}
		r := unit(t, "R")
		back, err := s.Body(s.Seen(r))
		if err != nil || !near(back, r) {
			t.Fatalf("body %g comes back as %g, %v", r, back, err)
		}
	})
}

func TestHidingThicknessReachesTheContrast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := constants(t, "film")
		want := optics.ContrastRatio(rapid.Float64Range(0.05, 0.99).Draw(t, "CR"))
		x, err := optics.HidingThickness(c, optics.ChartWhite, want)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := optics.FilmContrast(c, x, optics.ChartWhite); err != nil || math.Abs(float64(got-want)) > 1e-9 {
			t.Fatalf("film of %g reaches %g, want %g, %v", x, got, want, err)
		}
	})
}

// A mixture of a paint with itself is that paint, and amounts count only by
// their ratio.
func TestMix(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, d := constants(t, "one"), constants(t, "two")
		p, q := quantity.Parts(rapid.Float64Range(0.01, 10).Draw(t, "p")), quantity.Parts(rapid.Float64Range(0.01, 10).Draw(t, "q"))
		same, err := optics.Mix(optics.Part{Amount: p, Constants: c}, optics.Part{Amount: q, Constants: c})
		if err != nil || math.Abs(float64(same.K-c.K)) > tiny*float64(c.K) {
			t.Fatalf("a paint mixed with itself: %+v, want %+v, %v", same, c, err)
		}
		m1, _ := optics.Mix(optics.Part{Amount: p, Constants: c}, optics.Part{Amount: q, Constants: d})
		m2, _ := optics.Mix(optics.Part{Amount: 2 * p, Constants: c}, optics.Part{Amount: 2 * q, Constants: d})
		if math.Abs(float64(m1.S-m2.S)) > tiny*float64(m1.S) {
			t.Fatalf("doubling the batch: %+v, %+v", m1, m2)
		}
	})
}

func TestRefusals(t *testing.T) {
	c := optics.Constants{K: 1, S: 1}
	nan := math.NaN()
	for name, f := range map[string]func() error{
		"hiding film of nothing":    func() error { _, err := optics.RatioOfHiding(0); return err },
		"hiding film above 1":       func() error { _, err := optics.RatioOfHiding(1.01); return err },
		"hiding film not a number":  func() error { _, err := optics.RatioOfHiding(optics.Reflectance(nan)); return err },
		"layer that passes nothing": func() error { _, err := optics.ConstantsOfLayer(optics.Layer{R: 0.5}); return err },
		"layer that gains light":    func() error { _, err := optics.ConstantsOfLayer(optics.Layer{R: 0.6, T: 0.5}); return err },
		"grounds the wrong way":     func() error { _, err := optics.LayerOverTwoGrounds(0.2, 0.4, 0.9, 0.1); return err },
		"darker over the light":     func() error { _, err := optics.LayerOverTwoGrounds(0.4, 0.2, 0, 1); return err },
		"no film does that":         func() error { _, err := optics.LayerOverTwoGrounds(0.5, 1, 0, 0.5); return err },
		"below the gloss":           func() error { _, err := optics.Surface{K1: 0.04, K2: 0.6}.Body(0.03); return err },
		"contrast over no white":    func() error { _, err := optics.Contrast(0, 0); return err },
		"contrast ratio of 1":       func() error { _, err := optics.HidingThickness(c, 0.8, 1); return err },
		"white of nothing":          func() error { _, err := optics.HidingThickness(c, 0, 0.98); return err },
		"no scattering":             func() error { _, err := optics.HidingThickness(optics.Constants{K: 1}, 0.8, 0.98); return err },
		"mixture of nothing":        func() error { _, err := optics.Mix(); return err },
		"negative part":             func() error { _, err := optics.Mix(optics.Part{Amount: -1, Constants: c}); return err },
		"one reading":               func() error { return optics.Spectrum{At: []optics.Nanometre{500}, R: []optics.Reflectance{1}}.Check() },
		"falling wavelengths": func() error {
			return optics.Spectrum{At: []optics.Nanometre{500, 400}, R: []optics.Reflectance{1, 1}}.Check()
		},
		"reflectance of 2": func() error {
			return optics.Spectrum{At: []optics.Nanometre{400, 500}, R: []optics.Reflectance{1, 2}}.Check()
		},
	} {
		if f() == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestSpectrumBetweenReadings(t *testing.T) {
	s := optics.Spectrum{At: []optics.Nanometre{400, 500, 700}, R: []optics.Reflectance{0.2, 0.4, 0.8}}
	for _, tt := range []struct {
		at   optics.Nanometre
		want optics.Reflectance
	}{{300, 0.2}, {400, 0.2}, {450, 0.3}, {500, 0.4}, {600, 0.6}, {700, 0.8}, {900, 0.8}} {
		if got := s.Value(tt.at); !near(got, tt.want) {
			t.Errorf("at %g nm %g, want %g", tt.at, got, tt.want)
		}
	}
}

func TestPerfectWhiteAndBlack(t *testing.T) {
	flat := func(r optics.Reflectance) optics.Colour {
		return optics.ColourOf(optics.Spectrum{At: []optics.Nanometre{380, 780}, R: []optics.Reflectance{r, r}})
	}
	if got := flat(1); got.Screen.Hex() != "#ffffff" || got.Screen.Outside || math.Abs(got.Lab.L-100) > tiny {
		t.Errorf("perfect white is %+v", got)
	}
	if got := flat(0); got.Screen.Hex() != "#000000" || got.Screen.Outside || math.Abs(got.Lab.L) > tiny {
		t.Errorf("perfect black is %+v", got)
	}
	grey := flat(0.1842)
	if math.Abs(grey.Lab.L-50) > 0.01 || grey.Lab.Chroma() > tiny {
		t.Errorf("grey of 0.1842 is %+v", grey.Lab)
	}
}

func TestOutsideTheScreen(t *testing.T) {
	white := optics.White(optics.TwoDegree, optics.D65)
	for _, tt := range []struct {
		lab     optics.Lab
		outside bool
	}{
		{optics.Lab{L: 50}, false},
		{optics.Lab{L: 50, A: 20, B: -20}, false},
		{optics.Lab{L: 27.55, A: 32.19, B: -62.67}, false}, // cobalt blue, gloss left out: just inside
		{optics.Lab{L: 30, A: 40, B: -100}, true},
		{optics.Lab{L: 60, A: -90, B: 10}, true},
	} {
		if got := optics.ScreenOf(optics.XYZOf(tt.lab, white)); got.Outside != tt.outside {
			t.Errorf("%+v: outside %v, want %v", tt.lab, got.Outside, tt.outside)
		}
	}
}

// Lab comes back from tristimulus values, and a screen colour from its own.
func TestColourRoundTrips(t *testing.T) {
	white := optics.White(optics.TwoDegree, optics.D50)
	rapid.Check(t, func(t *rapid.T) {
		c := optics.Lab{L: rapid.Float64Range(0, 100).Draw(t, "L"), A: rapid.Float64Range(-80, 80).Draw(t, "a"), B: rapid.Float64Range(-80, 80).Draw(t, "b")}
		if back := optics.LabOf(optics.XYZOf(c, white), white); optics.CIE76(c, back) > 1e-8 {
			t.Fatalf("%+v comes back as %+v", c, back)
		}
		s := optics.Screen{R: rapid.Uint8().Draw(t, "R"), G: rapid.Uint8().Draw(t, "G"), B: rapid.Uint8().Draw(t, "B")}
		if back := optics.ScreenOf(optics.XYZOfScreen(s)); back != s {
			t.Fatalf("%s comes back as %s", s.Hex(), back.Hex())
		}
		if d := optics.CIEDE2000(c, c); d > 1e-6 {
			t.Fatalf("a colour differs from itself by %g", d)
		}
	})
}

func TestHue(t *testing.T) {
	for _, tt := range []struct {
		lab  optics.Lab
		want float64
	}{{optics.Lab{A: 1}, 0}, {optics.Lab{B: 1}, 90}, {optics.Lab{A: -1}, 180}, {optics.Lab{B: -1}, 270}} {
		if got := tt.lab.Hue(); math.Abs(got-tt.want) > tiny {
			t.Errorf("hue of %+v is %g, want %g", tt.lab, got, tt.want)
		}
	}
}

// The made-up films here are of the model itself, so the fit must find them.
func modelFilm(k optics.Absorbing, s optics.Scattering, c optics.Chart) optics.ChartFilm {
	at := []optics.Nanometre{400, 500, 600, 700}
	film := []optics.Constants{{K: k, S: s}, {K: k / 2, S: s}, {K: k / 4, S: s}, {K: k / 8, S: s}}
	f := optics.ChartFilm{Label: "made up"}
	for _, g := range c.Grounds {
		f.Over = append(f.Over, optics.Over(at, film, 1, g))
	}
	return f
}

func testChart() optics.Chart {
	return optics.Chart{
		Grounds: []optics.Reflectance{0.03, 0.2, 0.5, 0.9},
		Rivals:  [][]optics.Reflectance{{0.02, 0.19, 0.49, 0.9}},
		Noise:   0.005,
	}
}

func TestGlazes(t *testing.T) {
	chart := testChart()
	f := modelFilm(1, 0.3, chart)
	l, err := optics.Glazes(f, chart, []optics.Films{0.5, 1, 2, 50})
	if err != nil {
		t.Fatal(err)
	}
	if l.Misfit > 1e-9 || l.Worst > 1e-4 {
		t.Errorf("a film of the model itself misses by %g rms, %g in colour", l.Misfit, l.Worst)
	}
	if l.Hides || len(l.Films) != 4 || len(l.Chips) != 4 || l.Grounds[0] != 0.9 {
		t.Fatalf("ladder %+v", l)
	}
	for i, row := range l.Chips {
		if !row[1].Measured || row[0].Measured {
			t.Errorf("row %d: measured %v and %v, want only one film measured", i, row[0].Measured, row[1].Measured)
		}
		if d := optics.CIEDE2000(row[3].Lab, l.Chips[0][3].Lab); d > 0.01 {
			t.Errorf("fifty films still show the ground in row %d: %g", i, d)
		}
		if i > 0 && row[0].XYZ.Y >= l.Chips[i-1][0].XYZ.Y {
			t.Errorf("row %d is no darker than the one above it", i)
		}
	}
	for j := 1; j < 4; j++ {
		if l.Chips[0][j].XYZ.Y >= l.Chips[0][j-1].XYZ.Y {
			t.Errorf("over white, %g films are no darker than %g", l.Films[j], l.Films[j-1])
		}
	}
	if l.Basis.How == "" || l.Basis.Data == "" || l.Basis.Error == "" {
		t.Errorf("the ladder does not say what it rests on: %+v", l.Basis)
	}
}

// A film that hides tells nothing about thinner ones.
func TestGlazesOfAHidingFilm(t *testing.T) {
	chart := testChart()
	l, err := optics.Glazes(modelFilm(4, 8, chart), chart, []optics.Films{0.5, 1, 2})
	if err != nil {
		t.Fatal(err)
	}
	if !l.Hides || len(l.Films) != 2 || l.Films[0] != 1 || len(l.Notes) != 1 {
		t.Errorf("ladder of a hiding film: hides %v, films %v, notes %q", l.Hides, l.Films, l.Notes)
	}
}

func TestGlazesRefuse(t *testing.T) {
	chart := testChart()
	f := modelFilm(1, 1, chart)
	for name, g := range map[string]func() error{
		"thickness 0":   func() error { _, err := optics.Glazes(f, chart, []optics.Films{0}); return err },
		"thickness NaN": func() error { _, err := optics.Glazes(f, chart, []optics.Films{optics.Films(math.NaN())}); return err },
		"three grounds": func() error {
			_, err := optics.Glazes(optics.ChartFilm{Over: f.Over[:3]}, chart, []optics.Films{1})
			return err
		},
	} {
		if g() == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestTintsGrowPaler(t *testing.T) {
	at := []optics.Nanometre{400, 550, 700}
	white := optics.RelativePaint{Label: "white", At: at, Constants: []optics.Constants{{K: 0.01, S: 1}, {K: 0.01, S: 1}, {K: 0.01, S: 1}}}
	blue := optics.RelativePaint{Label: "blue", At: at, Constants: []optics.Constants{{K: 0.1, S: 0.2}, {K: 1, S: 0.2}, {K: 3, S: 0.2}}}
	parts := []quantity.Parts{0, 1, 10, 1e6}
	l, err := optics.Tints(blue, white, parts)
	if err != nil {
		t.Fatal(err)
	}
	for i := 1; i < len(parts); i++ {
		if l.Chips[i].XYZ.Y <= l.Chips[i-1].XYZ.Y {
			t.Errorf("%g parts of white are no lighter than %g", parts[i], parts[i-1])
		}
	}
	mass, err := optics.PaintSwatch(blue)
	if err != nil || optics.CIEDE2000(mass.Chip.Lab, l.Chips[0].Lab) > tiny {
		t.Errorf("no white gives %+v, the masstone is %+v, %v", l.Chips[0].Lab, mass.Chip.Lab, err)
	}
	pure, err := optics.PaintSwatch(white)
	if err != nil || optics.CIEDE2000(pure.Chip.Lab, l.Chips[3].Lab) > 0.01 {
		t.Errorf("a million parts of white give %+v, white is %+v, %v", l.Chips[3].Lab, pure.Chip.Lab, err)
	}
}

// Oil and dry gum differ little, air much: the reason chalk goes glassy in oil.
func TestOilAgainstWatercolour(t *testing.T) {
	in := map[string]optics.Reflectance{}
	for _, s := range optics.Surrounds() {
		in[s.Name] = optics.Fresnel(1.60, s.Index)
		if s.Source == "" {
			t.Errorf("%s has no source", s.Name)
		}
	}
	if !(in["air"] > in["water"] && in["water"] > in["gum film, dry"] && in["gum film, dry"] > in["linseed oil, fresh"]) {
		t.Errorf("contrast of calcite: %v", in)
	}
}
