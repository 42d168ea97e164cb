package formulate

import (
	"strings"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
)

// flatSpectrum reads alike at every wavelength. Invented.
func flatSpectrum(r optics.Reflectance) optics.Spectrum {
	return optics.Spectrum{At: []optics.Nanometre{400, 550, 700}, R: []optics.Reflectance{r, r, r}}
}

func powderSample(r optics.Reflectance) Sample[optics.Powder] {
	return Sample[optics.Powder]{optics.Powder{Label: "invented", R: flatSpectrum(r)}, "invented data"}
}

// One measured colour gives a plain chip and no ladder; none gives no chip.
func TestSwatchesSayWhatCannotBeTold(t *testing.T) {
	res, err := Swatches(SwatchRequest{
		Pigments: []Coloured{
			{Material: powder("grey", 2, 20), Powders: []Sample[optics.Powder]{powderSample(0.2), powderSample(0.3), powderSample(0.21)}},
			{Material: powder("unseen", 2, 20)},
		},
		Tints: []quantity.Parts{0, 1}, Glazes: []optics.Films{1, 2},
		Hiders: []Hider{{"white", 0.99}, {"grey", 0.5}},
	})
	if err != nil {
		t.Fatal(err)
	}
	grey, unseen := res.Pigments[0], res.Pigments[1]
	if len(grey.Plain) != 1 || grey.Plain[0].Kind != PowderSample || !grey.Plain[0].Chip.Measured {
		t.Fatalf("plain chips of a powder: %+v", grey.Plain)
	}
	// L* of 20 % and of 30 % by CIE 1976: 51.84 and 61.65.
	near(t, "L*", grey.Plain[0].Chip.Lab.L, 51.84, 0.01)
	if p := grey.Plain[0]; p.Others != 2 || p.Farthest != optics.CIEDE2000(p.Chip.Lab, optics.ColourOf(flatSpectrum(0.3)).Lab) {
		t.Errorf("%d others, the farthest %v away", p.Others, p.Farthest)
	}
	if grey.Tints != nil || grey.Glazes != nil || !strings.Contains(strings.Join(grey.Missing, " "), "glaze cannot be foretold") {
		t.Errorf("a ladder was made of one powder: %+v, %v", grey.Glazes, grey.Missing)
	}
	if h := grey.Hiding; h == nil || h.Place != 2 || h.Of != 2 || h.Hides {
		t.Errorf("hiding place %+v, want second of two that does not hide", h)
	}
	if len(unseen.Plain) != 0 || unseen.Hiding != nil || len(unseen.Missing) != 1 || !strings.Contains(unseen.Missing[0], "no chip") {
		t.Errorf("a pigment without data has %d chips and says %v", len(unseen.Plain), unseen.Missing)
	}
	if c := res.Credits(); len(c) != 1 || c[0] != "invented data" {
		t.Errorf("credits %q, want the one line once", c)
	}
}

// Ladders are made where the data are, and carry their credit.
func TestSwatchLadders(t *testing.T) {
	paint := optics.RelativePaint{Label: "blue", At: []optics.Nanometre{400, 700}, Constants: []optics.Constants{{K: 0.1, S: 0.4}, {K: 2, S: 0.3}}}
	white := optics.RelativePaint{Label: "white", At: paint.At, Constants: []optics.Constants{{K: 0.01, S: 1}, {K: 0.01, S: 1}}}
	film := optics.ChartFilm{Label: "film", Over: []optics.Spectrum{flatSpectrum(0.2), flatSpectrum(0.5)}}
	res, err := Swatches(SwatchRequest{
		Pigments: []Coloured{{Material: powder("blue", 2, 20), Paints: []Sample[optics.RelativePaint]{{paint, "a"}}, Films: []Sample[optics.ChartFilm]{{film, "b"}}}},
		White:    Sample[optics.RelativePaint]{white, "a"}, Chart: optics.Chart{Grounds: []optics.Reflectance{0.05, 0.9}, Noise: 0.006},
		Tints: []quantity.Parts{0, 1, 9}, Glazes: []optics.Films{1, 2},
	})
	if err != nil {
		t.Fatal(err)
	}
	p := res.Pigments[0]
	if p.Tints == nil || p.Glazes == nil || len(p.Missing) != 0 {
		t.Fatalf("tints %v, glazes %v, missing %v", p.Tints, p.Glazes, p.Missing)
	}
	if p.Tints.Of.Chips[0] != p.Plain[0].Chip {
		t.Errorf("no white gives %+v, the masstone is %+v", p.Tints.Of.Chips[0], p.Plain[0].Chip)
	}
	for i := 1; i < 3; i++ {
		if p.Tints.Of.Chips[i].Lab.L <= p.Tints.Of.Chips[i-1].Lab.L {
			t.Errorf("more white is not lighter at step %d", i)
		}
	}
	if c := res.Credits(); len(c) != 2 {
		t.Errorf("credits %q, want both", c)
	}
}

// The contrast is lowest where the index is nearest to what surrounds it, and
// nothing where the published indices lie on both sides.
func TestIndexRanges(t *testing.T) {
	m := powder("lake", 1.5, 50)
	m.RefractiveIndex = []evidence.Reading[quantity.RefractiveIndex]{{Low: 1.4, High: 1.6, Source: "invented"}, {Value: 9, Source: "invented", Aside: "a misprint"}}
	got := indexRanges(m)
	if len(got) != len(optics.Surrounds()) {
		t.Fatalf("%d surrounds, want %d", len(got), len(optics.Surrounds()))
	}
	for i, x := range got {
		n := x.Surround.Index
		high := max(optics.Fresnel(1.4, n), optics.Fresnel(1.6, n))
		low := optics.Reflectance(0)
		if n < 1.4 {
			low = optics.Fresnel(1.4, n)
		}
		if x.Fresnel.Low != low || x.Fresnel.High != high || !(x.Fresnel.Low <= x.Fresnel.Typical && x.Fresnel.Typical <= x.Fresnel.High) {
			t.Errorf("surround %d (%v): %+v, want %v to %v", i, n, x.Fresnel, low, high)
		}
	}
	if indexRanges(&material.Material{}) != nil {
		t.Error("a contrast without an index")
	}
}
