package render

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

func TestDigits(t *testing.T) {
	for _, tt := range []struct {
		v       float64
		figures int
		want    string
	}{
		{0, 3, "0"},
		{1, 3, "1.00"},
		{0.0123, 3, "0.0123"},
		{4.56, 3, "4.56"},
		{123, 3, "123"},
		{12345, 3, "12300"},
		{-4.56, 2, "-4.6"},
		{1000, 3, "1000"},
		{1e-3, 3, "0.00100"},
		// Rounding up past a power of ten must not show a figure more.
		{9.994, 3, "9.99"},
		{9.996, 3, "10.0"},
		{99.94, 3, "99.9"},
		{99.96, 3, "100"},
		{0.09994, 3, "0.0999"},
		{0.09996, 3, "0.100"},
		{999.4, 3, "999"},
		{999.6, 3, "1000"},
		{9994, 3, "9990"},
		{9996, 3, "10000"},
		{0.96, 1, "1"},
		{-9.996, 3, "-10.0"},
		// No exponent where people would not write one.
		{123456789, 3, "123000000"},
		{0.0000123, 3, "0.0000123"},
		{1.23e-12, 3, "1.23e-12"},
	} {
		if got := Digits(tt.v, tt.figures); got != tt.want {
			t.Errorf("Digits(%v, %d) = %q, want %q", tt.v, tt.figures, got, tt.want)
		}
	}
}

// Digits is within half a unit of its last figure, and shows no more figures
// than asked.
func TestDigitsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figures := rapid.IntRange(1, 6).Draw(t, "figures")
		v := math.Pow(10, rapid.Float64Range(-8, 9).Draw(t, "size"))
		text := Digits(v, figures)
		back, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		if unit := math.Pow(10, math.Floor(math.Log10(v))-float64(figures-1)); math.Abs(back-v) > 0.5*unit*(1+1e-9) {
			t.Fatalf("Digits(%v, %d) = %q", v, figures, text)
		}
		mantissa, _, _ := strings.Cut(text, "e")
		shown := strings.TrimLeft(strings.ReplaceAll(mantissa, ".", ""), "0")
		if strings.Contains(text, ".") && len(shown) > figures {
			t.Fatalf("Digits(%v, %d) = %q shows %d figures", v, figures, text, len(shown))
		}
	})
}

func TestPlaces(t *testing.T) {
	for _, tt := range []struct {
		v      float64
		places int
		want   string
	}{
		{1.25, 1, "1.2"}, {1.35, 1, "1.4"}, {-0.04, 1, "0.0"}, {-0.06, 1, "-0.1"}, {0, 2, "0.00"}, {math.Copysign(0, -1), 0, "0"}, {12.5, 0, "12"}, {-0.4, 0, "0"},
	} {
		if got := Places(tt.v, tt.places); got != tt.want {
			t.Errorf("Places(%v, %d) = %q, want %q", tt.v, tt.places, got, tt.want)
		}
	}
}

func TestOnScale(t *testing.T) {
	for _, tt := range []struct {
		m, division quantity.Mass
		want        string
	}{
		{12.3, 0.1, "12.3 g"}, {12.3, 1, "12 g"}, {12.34, 0.01, "12.34 g"}, {12.345, 0.001, "12.345 g"}, {12, 0.5, "12.0 g"}, {12, 2, "12 g"}, {12.25, 0.05, "12.25 g"}, {12.345, 0, "12.3 g"}, {0.3, 0.1, "0.3 g"},
	} {
		if got := OnScale(tt.m, tt.division); got != tt.want {
			t.Errorf("OnScale(%v, %v) = %q, want %q", float64(tt.m), float64(tt.division), got, tt.want)
		}
	}
}

func TestRange(t *testing.T) {
	r := func(low, typical, high float64) evidence.Range[quantity.Ratio] {
		return evidence.Range[quantity.Ratio]{Low: quantity.Ratio(low), Typical: quantity.Ratio(typical), High: quantity.Ratio(high)}
	}
	for _, tt := range []struct {
		r       evidence.Range[quantity.Ratio]
		scale   float64
		figures int
		unit    string
		want    string
	}{
		{r(31, 43.4, 59), 1, 3, "g", "43.4 g (31.0–59.0)"},
		{r(0.444, 0.521, 0.596), 100, 3, "%", "52.1 % (44.4–59.6)"},
		{r(2, 2, 2), 1, 3, "ml", "2.00 ml"},
		{r(1.999, 2, 2.001), 1, 3, "ml", "2.00 ml"}, // no width at the digits shown
		{r(1.994, 2, 2.006), 1, 3, "ml", "2.00 ml (1.99–2.01)"},
		{r(0.1, 0.84, 1.03), 1, 2, "", "0.84 (0.10–1.03)"},
		{r(900, 1234, 1600), 1, 2, "mPa·s", "1200 mPa·s (900–1600)"},
		{r(9.4, 9.996, 10.6), 1, 3, "g", "10.0 g (9.4–10.6)"}, // three figures of 10.0, not four
		{r(0, 0, 0.5), 1, 2, "g", "0.0 g (0.0–0.5)"},
		{r(-0.001, 0.5, 1), 1, 1, "", "0.5 (0.0–1.0)"}, // no minus before nothing
	} {
		if got := Range(tt.r, tt.scale, tt.figures, tt.unit); got != tt.want {
			t.Errorf("Range(%v, %v, %d) = %q, want %q", tt.r, tt.scale, tt.figures, got, tt.want)
		}
	}
}

// The numbers for machines read back as the same numbers.
func TestFullReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e12, 1e12).Draw(t, "v")
		if back, err := strconv.ParseFloat(Full(quantity.Ratio(v)), 64); err != nil || back != v {
			t.Fatalf("%v prints as %q and reads as %v, %v", v, Full(quantity.Ratio(v)), back, err)
		}
	})
	if got := Given(quantity.Ratio(0.1 + 0.2)); got != "0.3" {
		t.Errorf("Given(0.1+0.2) = %q", got)
	}
}
