package film_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/film"
	"mullwright/formulate/quantity"
)

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b)) }

func TestWetAndDryAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wet := quantity.Thickness(rapid.Float64Range(1, 1e4).Draw(t, "wet"))
		vs := quantity.VolumeFraction(rapid.Float64Range(0.01, 1).Draw(t, "solids"))
		dry, err := film.DryThickness(wet, vs)
		if err != nil {
			t.Fatal(err)
		}
		back, err := film.WetThickness(dry, vs)
		if err != nil || !near(float64(back), float64(wet)) {
			t.Fatalf("wet %v, dry %v, back %v, %v", wet, dry, back, err)
		}
		solids, err := film.SolidsOf(wet, dry)
		if err != nil || !near(float64(solids), float64(vs)) {
			t.Fatalf("solids %v from films of %v, %v", solids, vs, err)
		}
	})
}

// A volume spread at its own rate fills the film it makes.
func TestCoverageConservesVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wet := quantity.Thickness(rapid.Float64Range(1, 1e4).Draw(t, "wet"))
		paint := quantity.Volume(rapid.Float64Range(0.1, 1e5).Draw(t, "paint"))
		rate, err := film.SpreadingRate(wet)
		if err != nil {
			t.Fatal(err)
		}
		if got := film.FilmVolume(film.Coverage(paint, rate), wet); !near(float64(got), float64(paint)) {
			t.Fatalf("film of %v ml from %v ml of paint", got, paint)
		}
	})
}

// Thinning leaves the dry film of a given amount of paint alone: the solids of
// 1 + t volumes of thinned paint are those of one volume.
func TestThinningKeepsSolids(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		vs := quantity.VolumeFraction(rapid.Float64Range(0.01, 1).Draw(t, "solids"))
		thinner := quantity.Ratio(rapid.Float64Range(0, 50).Draw(t, "thinner"))
		got, err := film.Thinned(vs, thinner)
		if err != nil {
			t.Fatal(err)
		}
		if thinner == 0 && got != vs {
			t.Fatalf("no thinner changed %v to %v", vs, got)
		}
		if !near(float64(got)*(1+float64(thinner)), float64(vs)) {
			t.Fatalf("%v thinned by %v gives %v", vs, thinner, got)
		}
	})
}

func TestVOCLessWaterIsNeverLower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		solids := quantity.MassFraction(rapid.Float64Range(0.1, 0.6).Draw(t, "solids"))
		water := quantity.MassFraction(rapid.Float64Range(0, 0.3).Draw(t, "water"))
		density := quantity.Density(rapid.Float64Range(0.8, 2).Draw(t, "density"))
		whole, less, err := film.VOCByShares(solids, water, density, 0.998)
		if err != nil {
			t.Fatal(err)
		}
		if less < whole*(1-1e-12) {
			t.Fatalf("less water %v below %v", less, whole)
		}
	})
}

func TestUSUnitsRoundTrip(t *testing.T) {
	rate := quantity.SpreadingRate(12.5)
	if got := film.PerUSGallon(rate).PerLitre(); !near(float64(got), float64(rate)) {
		t.Errorf("spreading rate %v comes back as %v", rate, got)
	}
	if got := film.VOC(420).PerUSGallon().PerLitre(); !near(float64(got), 420) {
		t.Errorf("420 g/l comes back as %v", got)
	}
}

func TestRefused(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		err  error
		says string
	}{
		{"no film", second(film.SpreadingRate(0)), "wet film thickness is 0 µm"},
		{"NaN film", second(film.SpreadingRate(quantity.Thickness(nan))), "above zero"},
		{"infinite film", second(film.SpreadingRate(quantity.Thickness(math.Inf(1)))), "above zero"},
		{"only solvent", second(film.WetThickness(100, 0)), "volume solids is 0 %"},
		{"too many solids", second(film.DryThickness(100, 1.2)), "120 %"},
		{"dry above wet", second(film.SolidsOf(50, 60)), "at most the wet film's 50 µm"},
		{"negative thinner", second(film.Thinned(0.5, -1)), "zero or more"},
		{"all lost", second(film.PracticalRate(10, 1)), "below 100 %"},
		{"more water than paint", second(film.VOCLessWater(1, 10, 11)), "less than the paint"},
		{"shares above one", third(film.VOCByShares(0.8, 0.4, 1, 1)), "at most 100 %"},
		{"dry film too big", second(film.MeasuredSolids(1, 2, 1, 1)), "would fill 200 %"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.says) {
			t.Errorf("%s: error %v, want one that says %q", c.name, c.err, c.says)
		}
	}
}

func second[T any](_ T, err error) error        { return err }
func third[A, B any](_ A, _ B, err error) error { return err }

func TestAllocations(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() {
		vs, _ := film.Thinned(0.6, 0.5)
		wet, _ := film.WetThickness(30, vs)
		rate, _ := film.SpreadingRate(wet)
		_ = film.Coverage(100, rate)
		_ = film.MassPerArea(wet, 1.3)
	}); n != 0 {
		t.Errorf("%v allocations, want none", n)
	}
}

// A film's volume on its area is its thickness.
func TestThicknessOfVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area := quantity.Area(rapid.Float64Range(1e-3, 100).Draw(t, "area"))
		want := quantity.Thickness(rapid.Float64Range(0.1, 5000).Draw(t, "film"))
		got, err := film.ThicknessOfVolume(film.FilmVolume(area, want), area)
		if err != nil || math.Abs(float64(got/want)-1) > 1e-12 {
			t.Fatalf("%v, want %v (%v)", got, want, err)
		}
	})
	for _, c := range []struct {
		v quantity.Volume
		a quantity.Area
	}{{0, 1}, {1, 0}, {quantity.Volume(math.NaN()), 1}, {1, quantity.Area(math.Inf(1))}} {
		if _, err := film.ThicknessOfVolume(c.v, c.a); err == nil {
			t.Errorf("%v on %v was accepted", c.v, c.a)
		}
	}
}
