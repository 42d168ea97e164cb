package refit

import (
	"math"
	"mullwright/formulate/quantity"
	"strings"
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/testdata/checks"
	"mullwright/testdata/demand"
)

func table(t testing.TB) []Row {
	t.Helper()
	rows, err := Parse(demand.Table)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// The constants in package absorption are those of the fit, rounded.
func TestConstantsAreTheFit(t *testing.T) {
	got, want := absorption.Fitted(), Coefficients(table(t))
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"intercept", got.Intercept, want.Intercept},
		{"slope", got.Slope, want.Slope},
		{"ground", got.Ground, want.Ground},
		{"colourless", got.Colourless, want.Colourless},
		{"flowing", got.Flowing, want.Flowing},
		{"covariance AA", got.Covariance.AA, want.Covariance.AA},
		{"covariance AB", got.Covariance.AB, want.Covariance.AB},
		{"covariance BB", got.Covariance.BB, want.Covariance.BB},
		{"covariance AW", got.Covariance.AW, want.Covariance.AW},
		{"covariance BW", got.Covariance.BW, want.Covariance.BW},
		{"covariance WW", got.Covariance.WW, want.Covariance.WW},
		{"misfit", got.Misfit, want.Misfit},
		{"between", got.Between, want.Between},
		{"between weight", got.BetweenWeight, want.BetweenWeight},
		{"rub-out mean", got.RubOutMean, want.RubOutMean},
		{"rub-out spread", got.RubOutSpread, want.RubOutSpread},
	} {
		if math.Abs(c.got-c.want) > 0.5e-4+1e-7 {
			t.Errorf("%s is %v, the fit gives %.6f", c.name, c.got, c.want)
		}
	}
}

// What the package documentation of absorption says of the fit.
func TestReport(t *testing.T) {
	r := FitReport(table(t))
	t.Logf("model           %+v, by pigment %.3f", r.Model, r.ModelByPigment)
	t.Logf("constant factor %+v, by pigment %.3f", r.ConstantFactor, r.ConstantByPigment)
	t.Logf("combined        %+v", r.Combined)
	for _, s := range r.Simpler {
		t.Logf("%s: %+v", s.Name, s.Score)
	}
	t.Logf("bodies          %+v", r.Bodies)
	for _, p := range r.Predictions {
		t.Logf("%-22s %-18s %6.1f  %6.1f (%.1f–%.1f) %.2f", p.Pigment, p.Authority, p.Published, p.Foretold.Typical, p.Foretold.Low, p.Foretold.High, p.Miss())
	}
	if r.Pigments != 21 || r.Model.Figures != 49 {
		t.Errorf("%d pigments, %d figures; the frozen list has 21 and 49", r.Pigments, r.Model.Figures)
	}
	if r.Model.LogScore <= r.ConstantFactor.LogScore {
		t.Errorf("log score %.2f does not beat the constant factor's %.2f", r.Model.LogScore, r.ConstantFactor.LogScore)
	}
	if r.Model.MedianMiss > 0.25 {
		t.Errorf("median miss %.3f, aimed at 0.25", r.Model.MedianMiss)
	}
	for name, s := range map[string]Score{"model": r.Model, "combined": r.Combined} {
		if s.ShareLow > 0.8 || s.ShareHigh < 0.8 {
			t.Errorf("%s: %d of %d inside, interval %.2f to %.2f, not consistent with 0.80", name, s.Inside, s.Figures, s.ShareLow, s.ShareHigh)
		}
	}
	if r.Combined.MedianWidth >= r.Model.MedianWidth {
		t.Errorf("published demand does not narrow the range: width %.2f, foretold %.2f", r.Combined.MedianWidth, r.Model.MedianWidth)
	}
	// Digits quoted in doc.go.
	near(t, "median miss", r.Model.MedianMiss, 0.23, 0.005)
	near(t, "median miss by pigment", r.ModelByPigment, 0.22, 0.005)
	near(t, "median width", float64(r.Model.MedianWidth), 2.7, 0.05)
	near(t, "log score", r.Model.LogScore, -16.1, 0.05)
	near(t, "constant factor's median miss", r.ConstantFactor.MedianMiss, 0.29, 0.005)
	near(t, "constant factor's median width", float64(r.ConstantFactor.MedianWidth), 3.4, 0.05)
	near(t, "constant factor's log score", r.ConstantFactor.LogScore, -22.5, 0.05)
	near(t, "combined median miss", r.Combined.MedianMiss, 0.21, 0.005)
	near(t, "combined median width", float64(r.Combined.MedianWidth), 2.0, 0.05)
	for i, want := range []struct{ miss, width, score float64 }{{0.37, 3.6, -18.8}, {0.34, 3.1, -19.6}, {0.23, 2.7, -15.5}} {
		got := r.Simpler[i]
		near(t, got.Name+": median miss", got.Score.MedianMiss, want.miss, 0.005)
		near(t, got.Name+": median width", float64(got.Score.MedianWidth), want.width, 0.05)
		near(t, got.Name+": log score", got.Score.LogScore, want.score, 0.05)
	}
	for name, n := range map[string][2]int{
		"model": {r.Model.Inside, 41}, "constant factor": {r.ConstantFactor.Inside, 39}, "combined": {r.Combined.Inside, 32},
		"ground paste above 1": {r.Bodies[0].AboveRubOut, 4}, "tube colour above 1": {r.Bodies[1].AboveRubOut, 4},
	} {
		if n[0] != n[1] {
			t.Errorf("%s: %d, the documentation says %d", name, n[0], n[1])
		}
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.4f, the documentation says %v", what, got, want)
	}
}

// Every publication behind the table can be looked up.
func TestTableSources(t *testing.T) {
	text, err := checks.Files.ReadFile("sources.tsv")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, line := range strings.Split(string(text), "\n") {
		key, _, _ := strings.Cut(line, "\t")
		known[key] = true
	}
	for _, line := range strings.Split(demand.Table, "\n") {
		if line == "" || line == header || strings.HasPrefix(line, "#") {
			continue
		}
		f := strings.Split(line, "\t")
		for _, key := range strings.Fields(f[3] + " " + f[8] + " " + f[13]) {
			if !known[key] {
				t.Errorf("%s: source %q is not in sources.tsv", f[0], key)
			}
		}
	}
}

// The model as package absorption works it and the same design worked here
// foretell the same.
func TestTwoRoutes(t *testing.T) {
	rows := table(t)
	r := FitReport(rows)
	p, l := foretell(leaveOut(rows), full)
	near(t, "log score", l, r.Model.LogScore, 1e-6)
	for i := range p {
		near(t, p[i].Pigment, float64(p[i].Foretold.High), float64(r.Predictions[i].Foretold.High), 1e-6*float64(p[i].Foretold.High))
	}
}

// The two colourmen of 1901 differ by a median of 21 per cent on the twenty
// pigments both weighed.
func TestTwoAuthorities(t *testing.T) {
	first := map[string]float64{}
	for _, r := range table(t) {
		if r.Authority == "colourman-a-1901" {
			first[r.Pigment] = float64(r.Demand)
		}
	}
	var v []float64
	for _, r := range table(t) {
		if a, ok := first[r.Pigment]; ok && r.Authority == "colourman-b-1901" {
			v = append(v, math.Abs(math.Log(float64(r.Demand)/a)))
		}
	}
	if len(v) != 20 {
		t.Fatalf("%d pigments with both figures, want 20", len(v))
	}
	near(t, "median difference", median(v), 0.21, 0.005)
}

// Figures made from known coefficients give them back.
func TestFitFindsWhatMadeTheData(t *testing.T) {
	const a, b, s, w = 0.7, 0.4, -0.3, -0.5
	var rows []Row
	for i := range 40 {
		x := -0.8 + 0.04*float64(i)
		family := "mineral"
		if i%3 == 0 {
			family = "white"
		}
		for j, c := range []material.Consistency{material.TubeColour, material.GroundPaste} {
			for k, authority := range []string{"one", "two"} {
				// Small alternating departures stand in for chance.
				u := 0.02 * float64(1-2*(i%2))
				e := 0.01 * float64(1-2*k)
				y := a + b*x + s*float64(j) + u + e
				if family == "white" {
					y += w
				}
				const density = 4
				rows = append(rows, Row{
					Pigment: string(rune('A' + i)), Family: family, Density: density, Use: Fit, Consistency: c,
					Oil:       absorptionOf(x, density),
					Demand:    absorptionOf(y, density).ByMass(0.93),
					Authority: authority, Source: "made",
				})
			}
		}
	}
	got := Coefficients(rows)
	near(t, "intercept", got.Intercept, a, 0.01)
	near(t, "slope", got.Slope, b, 0.01)
	near(t, "ground", got.Ground, s, 0.01)
	near(t, "colourless", got.Colourless, w, 0.02)
	near(t, "misfit", got.Misfit, 0.02, 0.005)
}

func TestInvert(t *testing.T) {
	a := [][]float64{{4, 1, 0}, {1, 3, -1}, {0, -1, 2}}
	inverse, logDet := invert(a)
	near(t, "log determinant", logDet, math.Log(18), 1e-12)
	for i := range a {
		for j := range a {
			var sum, want float64
			for k := range a {
				sum += a[i][k] * inverse[k][j]
			}
			if i == j {
				want = 1
			}
			near(t, "product", sum, want, 1e-12)
		}
	}
}

// The interval of 8 of 10, by hand: (0.99207 ± 0.31362)/1.38415.
func TestWilson(t *testing.T) {
	low, high := wilson(8, 10)
	near(t, "low", low, 0.4902, 5e-5)
	near(t, "high", high, 0.9433, 5e-5)
}

func TestParseRefuses(t *testing.T) {
	row := "x\twhite\t5\ts\t20\t1\t2\tm\ts\t10\t10\ttube-colour\ta\ts\tl\tyes\t"
	for _, c := range []struct{ name, text, want string }{
		{"header", "pigment\tfamily\n", "header"},
		{"columns", header + "\nx\ty\n", "columns"},
		{"number", header + "\n" + strings.Replace(row, "\t10\t10", "\tten\t10", 1), "not a positive number"},
		{"negative", header + "\n" + strings.Replace(row, "\t10\t10", "\t-1\t10", 1), "not a positive number"},
		{"consistency", header + "\n" + strings.Replace(row, "tube-colour", "runny", 1), "consistency"},
		{"use", header + "\n" + strings.Replace(row, "yes", "maybe", 1), "included"},
		{"no oil", header + "\n" + strings.Replace(row, "\t20\t", "\t\t", 1), "without a density"},
		{"no reason", header + "\n" + strings.Replace(row, "yes", "no", 1), "without a reason"},
		{"authority", header + "\n" + strings.Replace(row, "tube-colour\ta\t", "tube-colour\t\t", 1), "authority"},
	} {
		if _, err := Parse(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", c.name, err, c.want)
		}
	}
}

func BenchmarkCoefficients(b *testing.B) {
	rows := table(b)
	for b.Loop() {
		Coefficients(rows)
	}
}

func absorptionOf(lnPerPigment, density float64) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(100 * math.Exp(lnPerPigment) / density)
}
