package evidence

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/quantity"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g ± %.2g", what, got, want, tolerance)
	}
}

type density = quantity.Density

func TestCombine(t *testing.T) {
	stated := Width{Sigma: 0.2, Weight: 4}
	tests := []struct {
		name     string
		readings []Reading[density]
		median   float64
		sigma    float64
	}{
		{"nothing", nil, 0, 0},
		{"only set aside", []Reading[density]{{Value: 5, Source: "a", Aside: "another grade"}}, 0, 0},
		{"one source, the stated width", []Reading[density]{{Value: 5, Source: "a"}}, 5, 0.2},
		// ln 4 and ln 9 lie ±0.405 about ln 6: Σd² = 0.3288, so σ² = (0.3288 + 4·0.04)/5.
		{"two sources", []Reading[density]{{Value: 4, Source: "a"}, {Value: 9, Source: "b"}}, 6, math.Sqrt((2*math.Pow(math.Log(1.5), 2) + 0.16) / 5)},
		{"readings of one source count once", []Reading[density]{{Value: 4, Source: "a"}, {Value: 9, Source: "a"}}, 6, 0.2},
		// A range of one source: its own variance comes on top of the stated one.
		{"a range", []Reading[density]{{Low: 4, High: 9, Source: "a"}}, 6, math.Hypot(0.2, math.Log(9.0/4)/(2*Z90))},
		{"set aside beside another", []Reading[density]{{Value: 5, Source: "a"}, {Value: 50, Source: "b", Aside: "misprint"}}, 5, 0.2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := Combine(tt.readings, stated)
			near(t, "median", float64(d.Median), tt.median, 1e-12)
			near(t, "sigma", d.Sigma, tt.sigma, 1e-12)
			if d.Known() != (tt.median > 0) {
				t.Errorf("Known() = %t", d.Known())
			}
		})
	}
}

func TestCombineProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		reading := rapid.Custom(func(t *rapid.T) Reading[density] {
			v := density(rapid.Float64Range(0.5, 10).Draw(t, "value"))
			return Reading[density]{Value: v, Source: rapid.SampledFrom([]string{"a", "b", "c", "d"}).Draw(t, "source")}
		})
		readings := rapid.SliceOfN(reading, 1, 8).Draw(t, "readings")
		width := Width{rapid.Float64Range(0.01, 1).Draw(t, "sigma"), rapid.Float64Range(0.5, 10).Draw(t, "weight")}
		d := Combine(readings, width)

		shuffled := slices.Clone(readings)
		slices.Reverse(shuffled)
		if e := Combine(shuffled, width); math.Abs(float64(e.Median-d.Median)) > 1e-9 || math.Abs(e.Sigma-d.Sigma) > 1e-9 {
			t.Fatalf("order matters: %v and %v", d, e)
		}
		scaled := slices.Clone(readings)
		for i := range scaled {
			scaled[i].Value *= 2
		}
		if e := Combine(scaled, width); math.Abs(float64(e.Median/d.Median)-2) > 1e-9 || math.Abs(e.Sigma-d.Sigma) > 1e-9 {
			t.Fatalf("twice the readings: %v and %v", d, e)
		}
		low, high := readings[0].Value, readings[0].Value
		for _, r := range readings {
			low, high = min(low, r.Value), max(high, r.Value)
		}
		if d.Median < low*(1-1e-12) || d.Median > high*(1+1e-12) {
			t.Fatalf("median %v outside %v to %v", d.Median, low, high)
		}
		r := d.Range()
		if !(r.Low < r.Typical && r.Typical < r.High) {
			t.Fatalf("range out of order: %v", r)
		}
	})
}

func TestQuantileAgainstSort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Few distinct values make ties likely, which trip a selection.
		value := rapid.OneOf(rapid.Float64Range(-1e6, 1e6), rapid.Map(rapid.IntRange(0, 3), func(i int) float64 { return float64(i) }))
		values := rapid.SliceOfN(value, 1, 200).Draw(t, "values")
		p := rapid.OneOf(rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{0, 0.1, 0.5, 0.9, 1})).Draw(t, "p")
		sorted := slices.Sorted(slices.Values(values))
		pos := p * float64(len(sorted)-1)
		k := int(pos)
		want := sorted[k]
		if k+1 < len(sorted) {
			want += (pos - float64(k)) * (sorted[k+1] - sorted[k])
		}
		got := Quantile(slices.Clone(values), p)
		if math.Abs(got-want) > 1e-9*(1+math.Abs(want)) {
			t.Fatalf("Quantile(%v, %v) = %v, want %v", values, p, got, want)
		}
		// Asked again of the reordered values it must say the same.
		again := slices.Clone(values)
		Quantile(again, 0.9)
		Quantile(again, 0.1)
		if second := Quantile(again, p); second != got {
			t.Fatalf("asked again: %v, then %v", got, second)
		}
	})
	if !math.IsNaN(Quantile(nil, 0.5)) {
		t.Error("the median of nothing should be no number")
	}
}

func TestQuantilePatterns(t *testing.T) {
	const n = 10001
	patterns := map[string]func(i int) float64{
		"rising":     func(i int) float64 { return float64(i) },
		"falling":    func(i int) float64 { return float64(n - 1 - i) },
		"organ pipe": func(i int) float64 { return float64(2 * min(i, n-1-i)) },
		"constant":   func(int) float64 { return 7 },
	}
	for name, f := range patterns {
		values := make([]float64, n)
		for i := range values {
			values[i] = f(i)
		}
		sorted := slices.Sorted(slices.Values(values))
		for _, p := range []float64{0, 0.1, 0.5, 0.9, 1} {
			near(t, name, Quantile(values, p), sorted[int(p*(n-1))], 0)
		}
	}
}
