package evidence

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/quantity"
)

func TestRepeat(t *testing.T) {
	// Duplicate rub-outs 3.18 and 3.26 ml on 10 g: 31.8 and 32.6 ml/100 g.
	r, err := Repeat([]quantity.AbsorptionVolume{31.8, 32.6})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", float64(r.Mean), 32.2, 1e-12)
	e, err := r.Estimate()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u of the mean", float64(e.U), 0.40, 1e-12)
	low, high, err := r.Interval(0.95)
	if err != nil {
		t.Fatal(err)
	}
	// 12.706·0.40: two tests alone say little.
	near(t, "low", float64(low), 32.2-12.7062*0.4, 1e-3)
	near(t, "high", float64(high), 32.2+12.7062*0.4, 1e-3)
}

func TestRepeatKeepsDigits(t *testing.T) {
	r, err := Repeat([]float64{1e9 + 0.1, 1e9 + 0.2, 1e9 + 0.3})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sd", r.SD, 0.1, 1e-6)
}

func TestAgree(t *testing.T) {
	tests := []struct {
		name     string
		values   []float64
		spread   float64
		together bool
	}{
		{"two that agree", []float64{31.8, 32.6}, 0.8 / 32.2, true},
		{"just within", []float64{39.01, 40.99}, 1.98 / 40, true},
		{"just beyond", []float64{38.99, 41.01}, 2.02 / 40, false},
	}
	for _, tt := range tests {
		a, err := Agree(tt.values, CommonSpread)
		if err != nil {
			t.Fatal(err)
		}
		near(t, tt.name, float64(a.Spread), tt.spread, 1e-12)
		if a.Agree != tt.together {
			t.Errorf("%s: Agree = %t", tt.name, a.Agree)
		}
	}
}

func TestOutliers(t *testing.T) {
	alike := []float64{5, 5, 5, 5}
	if o, err := Grubbs(alike, 0.05, TwoSided); err != nil || o.Rejected || o.Statistic != 0 {
		t.Errorf("Grubbs of readings all alike: %+v, %v", o, err)
	}
	if o, err := Dixon(alike, 0.05, TwoSided); err != nil || o.Rejected || o.Coarse || o.Statistic != 0 {
		t.Errorf("Dixon of readings all alike: %+v, %v", o, err)
	}
	// Two of three printed alike: the ratio is 1 however near the third lies.
	if o, err := Dixon([]float64{30.1, 30.0, 30.0}, 0.05, TwoSided); err != nil || !o.Coarse || o.Index != 0 {
		t.Errorf("Dixon of two alike and one: %+v, %v", o, err)
	}
	// The low end is tested as well as the high one.
	if o, err := Dixon([]float64{40, 41, 42, 20}, 0.05, TwoSided); err != nil || o.Index != 3 || !o.Rejected {
		t.Errorf("Dixon of a low reading: %+v, %v", o, err)
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	errOf := func(_ any, err error) error { return err }
	tests := []struct {
		name string
		err  error
		want string
	}{
		{"no reading", errOf(Repeat[float64](nil)), "at least 1"},
		{"not a number", errOf(Repeat([]float64{1, nan})), "reading 2"},
		{"infinite", errOf(Repeat([]float64{inf})), "reading 1"},
		{"one reading's scatter", errOf(Repeats[float64]{N: 1, Mean: 3}.Estimate()), "repeat the test"},
		{"certainty", errOf(Student(1, 3)), "between 0 and 1"},
		{"confidence not a number", errOf(Student(Probability(nan), 3)), "between 0 and 1"},
		{"no degree of freedom", errOf(Student(0.95, 0)), "degrees of freedom"},
		{"degrees of freedom not a number", errOf(Student(0.95, nan)), "degrees of freedom"},
		{"two readings for Grubbs", errOf(Grubbs([]float64{1, 2}, 0.05, TwoSided)), "at least 3"},
		{"level 0", errOf(GrubbsCritical(5, 0, OneSided)), "between 0 and 1"},
		{"three sides", errOf(GrubbsCritical(5, 0.05, 3)), "one side or two"},
		{"eleven readings for Dixon", errOf(DixonCritical(11, 0.05, TwoSided)), "3 to 10"},
		{"level not in the table", errOf(DixonCritical(5, 0.07, TwoSided)), "0.10, 0.05 and 0.01"},
		{"negative reading beside a mean", errOf(Agree([]float64{-1, 2}, 0.05)), "positive"},
		{"no spread allowed", errOf(Agree([]float64{1, 2}, 0)), "above 0"},
		{"nothing to weigh", errOf(WeightedMean[float64](nil)), "at least 1"},
		{"exact among estimates", errOf(WeightedMean([]Estimate[float64]{Given(1.0, 0)})), "exact"},
		{"negative uncertainty", errOf(WeightedMean([]Estimate[float64]{Given(1.0, -1)})), "not negative"},
		{"uneven pairs", errOf(Correlation([]float64{1, 2}, []float64{1})), "together"},
		{"nothing varies", errOf(Correlation([]float64{1, 1}, []float64{1, 2})), "does not vary"},
	}
	for _, tt := range tests {
		if tt.err == nil || !strings.Contains(tt.err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, tt.err, tt.want)
		}
	}
}

func TestRepeatsProperties(t *testing.T) {
	readings := rapid.SliceOfN(rapid.Float64Range(1, 100), 3, 10)
	rapid.Check(t, func(t *rapid.T) {
		values := readings.Draw(t, "values")
		k := rapid.Float64Range(0.01, 100).Draw(t, "scale")
		scaled := make([]float64, len(values))
		for i, v := range values {
			scaled[i] = k * v
		}
		a, err := Repeat(values)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Repeat(scaled)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(b.Mean-k*a.Mean) > 1e-9*b.Mean || math.Abs(b.SD-k*a.SD) > 1e-9*b.Mean {
			t.Fatalf("scaled by %v: %+v and %+v", k, a, b)
		}
		if a.Mean < slices.Min(values)-1e-9 || a.Mean > slices.Max(values)+1e-9 {
			t.Fatalf("mean %v outside the readings", a.Mean)
		}
		// A test's verdict does not change with the unit.
		for name, test := range map[string]func([]float64, Probability, Sides) (Outlier[float64], error){"Grubbs": Grubbs[float64], "Dixon": Dixon[float64]} {
			x, err := test(values, 0.05, TwoSided)
			if err != nil {
				t.Fatal(err)
			}
			y, err := test(scaled, 0.05, TwoSided)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(x.Statistic-y.Statistic) > 1e-6 {
				t.Fatalf("%s: statistic %v, scaled %v", name, x.Statistic, y.Statistic)
			}
			if name == "Dixon" && (x.Statistic < 0 || x.Statistic > 1) {
				t.Fatalf("Dixon's ratio is %v", x.Statistic)
			}
			// Grubbs' statistic cannot pass (n − 1)/√n, and its critical value lies below.
			if n := float64(len(values)); name == "Grubbs" && (x.Statistic > (n-1)/math.Sqrt(n)+1e-9 || x.Critical >= (n-1)/math.Sqrt(n)) {
				t.Fatalf("Grubbs of %v: %+v", values, x)
			}
		}
	})
}

func TestStudentProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Probability(rapid.Float64Range(0.05, 0.999).Draw(t, "p"))
		nu := rapid.Float64Range(0.5, 500).Draw(t, "nu")
		few, err := Student(p, nu)
		if err != nil {
			t.Fatal(err)
		}
		more, _ := Student(p, nu+1)
		normal, _ := Student(p, math.Inf(1))
		if !(few >= more && more >= normal) {
			t.Fatalf("t(%v, %v) = %v, with one more %v, normal %v", p, nu, few, more, normal)
		}
	})
	// ν = 1 and 2 have closed forms.
	one, _ := Student(0.9, 1)
	near(t, "t of 1", one, math.Tan(math.Pi*0.45), 1e-9)
	two, _ := Student(0.9, 2)
	near(t, "t of 2", two, 0.9*math.Sqrt(2/(1-0.81)), 1e-9)
}

func TestWeightedMeanLiesWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		estimates := make([]Estimate[float64], n)
		low, high, least := math.Inf(1), math.Inf(-1), math.Inf(1)
		for i := range estimates {
			estimates[i] = Given(rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(0.01, 10).Draw(t, "u"))
			low, high, least = min(low, estimates[i].Value), max(high, estimates[i].Value), min(least, estimates[i].U)
		}
		w, err := WeightedMean(estimates)
		if err != nil {
			t.Fatal(err)
		}
		if w.Mean < low-1e-9 || w.Mean > high+1e-9 || w.U > least*(1+1e-12) || w.Scaled < w.U {
			t.Fatalf("%+v of %v", w, estimates)
		}
	})
}

func TestShortestInterval(t *testing.T) {
	// Exponential draws crowd at 0: the shortest interval begins there.
	draws := make([]float64, 10000)
	for i := range draws {
		draws[i] = -math.Log((float64(i) + 0.5) / 10000)
	}
	low, high, err := ShortestInterval(draws, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low", low, 0, 1e-3)
	near(t, "high", high, math.Log(10), 1e-2)
	if _, _, err := ShortestInterval(draws, 1); err == nil {
		t.Error("the whole of the draws was taken as an interval")
	}
	if _, _, err := ShortestInterval([]float64{1}, 0.9); err == nil {
		t.Error("one draw was taken")
	}
}
