package refit

import (
	"testing"

	"mullwright/testdata/demand"
)

func TestPrint(t *testing.T) {
	rows, err := Parse(demand.Table)
	if err != nil {
		t.Fatal(err)
	}
	c := Coefficients(rows)
	t.Logf("%+v", c)
	r := FitReport(rows)
	t.Logf("model %+v", r.Model)
	t.Logf("constant %+v", r.ConstantFactor)
	t.Logf("combined %+v", r.Combined)
	t.Logf("%+v", r.Bodies)
	for _, p := range r.Predictions {
		t.Logf("%-22s %-18s %6.1f  %6.1f (%.1f-%.1f) %.2f", p.Pigment, p.Authority, p.Published, p.Foretold.Typical, p.Foretold.Low, p.Foretold.High, p.Miss())
	}
}
