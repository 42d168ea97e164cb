package material

import (
	"math"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

func TestAbsorptionNeverMixesMethods(t *testing.T) {
	rub := OilReading{ValueVol: 30, Method: RubOut, Source: "a"}
	unstated := OilReading{ValueVol: 34, Method: Unstated, Source: "b"}
	stirred := OilReading{ValueVol: 90, Method: GardnerColeman, Source: "c"}
	kneaded := OilReading{ValueVol: 120, Method: Absorptometer, Source: "d"}
	aside := OilReading{ValueVol: 500, Method: RubOut, Source: "e", Aside: "doubtful"}
	for _, c := range []struct {
		name     string
		readings []OilReading
		median   float64
		rests    Method
	}{
		{"rub-out and unstated are pooled", []OilReading{rub, unstated, stirred, kneaded}, math.Sqrt(30 * 34), RubOut},
		{"unstated alone says so", []OilReading{stirred, unstated}, 34, Unstated},
		{"stirred only for want of better", []OilReading{kneaded, stirred}, 90, GardnerColeman},
		{"kneaded last", []OilReading{kneaded}, 120, Absorptometer},
		{"set aside does not count", []OilReading{aside, kneaded}, 120, Absorptometer},
		{"nothing known", []OilReading{aside}, 0, ""},
	} {
		m := Material{OilAbsorption: c.readings}
		d, rests := m.AbsorptionDistribution()
		if math.Abs(float64(d.Median)-c.median) > 1e-9 || rests != c.rests {
			t.Errorf("%s: median %v by %q, want %v by %q", c.name, d.Median, rests, c.median, c.rests)
		}
	}
}

// A figure in grams is turned back with the density its method reports with; a
// figure in millilitres stays.
func TestOilReadingByVolume(t *testing.T) {
	grams := OilReading{Value: 46.5, Method: RubOut, Source: "a"}.ByVolume()
	if math.Abs(float64(grams.Value)-50) > 1e-9 {
		t.Errorf("46.5 g/100g: %v ml/100g, want 50", grams.Value)
	}
	volume := OilReading{LowVol: 17, HighVol: 22, Method: Unstated, Source: "a"}.ByVolume()
	if volume.Low != 17 || volume.High != 22 || volume.Value != 0 {
		t.Errorf("17 to 22 ml/100g came back as %+v", volume)
	}
}

func TestDensityOfOneSourceHasTheStatedWidth(t *testing.T) {
	m := Material{Kind: Pigment, Density: []evidence.Reading[quantity.Density]{{Value: 3.2, Source: "a"}}}
	d := m.DensityDistribution()
	if math.Abs(float64(d.Median)-3.2) > 1e-12 || math.Abs(d.Sigma-DensityWidth.Sigma) > 1e-12 {
		t.Errorf("got %+v, want 3.2 with the stated width %v", d, DensityWidth.Sigma)
	}
}
