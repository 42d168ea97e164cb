package evidence

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestPropagateAgreesWithProduct(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := make([]Input, 3)
		powers := []float64{1, 2, -1}
		factors := make([]Factor, 3)
		for i := range in {
			v := rapid.Float64Range(0.5, 50).Draw(t, "value")
			u := v * rapid.Float64Range(0.001, 0.1).Draw(t, "relative u")
			in[i] = In("x", Estimate[float64]{v, u, rapid.Float64Range(1, 30).Draw(t, "nu")})
			factors[i] = Factor{in[i], powers[i]}
		}
		want, err := Product(3, factors...)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Propagate(func(x []float64) float64 { return 3 * x[0] * x[1] * x[1] / x[2] }, in...)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.Value-want.Value) > 1e-12*want.Value || math.Abs(got.U-want.U) > 1e-6*want.U || math.Abs(got.DOF-want.DOF) > 1e-4*want.DOF {
			t.Fatalf("Propagate %+v, Product %+v", got, want)
		}
		if d := RootSum(got.Parts...); math.Abs(d-got.U) > 1e-12*got.U {
			t.Fatalf("parts %v do not make up %v", got.Parts, got.U)
		}
	})
}

func TestPropagateSum(t *testing.T) {
	c, err := Propagate(func(x []float64) float64 { return x[0] - x[1] }, In("a", Given(5.0, 3)), In("b", Given(2.0, 4)), In("idle", Given(1.0, 0)))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "value", c.Value, 3, 1e-12)
	near(t, "u", c.U, 5, 1e-9)
	near(t, "second order", c.Higher, 5, 1e-6)
	if !math.IsInf(c.DOF, 1) {
		t.Errorf("degrees of freedom %v, want all known", c.DOF)
	}
}

func TestPropagateRefusals(t *testing.T) {
	good := In("a", Given(1.0, 0.1))
	identity := func(x []float64) float64 { return x[0] }
	tests := []struct {
		name  string
		model func([]float64) float64
		in    Input
		want  string
	}{
		{"value not a number", identity, In("a", Given(math.NaN(), 0.1)), "a: value"},
		{"negative u", identity, In("a", Given(1.0, -0.1)), "a: standard uncertainty"},
		{"no degrees of freedom", identity, Input{"a", Estimate[float64]{Value: 1, U: 0.1}}, "degrees of freedom"},
		{"model breaks", func([]float64) float64 { return math.Inf(1) }, good, "no finite number"},
		{"model breaks nearby", func(x []float64) float64 { return math.Sqrt(x[0] - 1) }, good, "near a"},
	}
	for _, tt := range tests {
		if _, err := Propagate(tt.model, tt.in); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, err, tt.want)
		}
	}
	if _, err := Product(1, Factor{In("a", Given(0.0, 1)), 1}); err == nil {
		t.Error("a factor of 0 was taken")
	}
}

func TestLimits(t *testing.T) {
	near(t, "rectangular", Rectangular(3.0), math.Sqrt(3), 1e-15)
	near(t, "triangular", Triangular(6.0), math.Sqrt(6), 1e-15)
	near(t, "arcsine", Arcsine(2.0), math.Sqrt2, 1e-15)
	near(t, "root sum", RootSum(3.0, 4), 5, 1e-15)
}
