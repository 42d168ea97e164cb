package formulate

import (
	"strings"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

func dosed(id string, kind material.Kind, most quantity.MassFraction) *material.Material {
	m := liquid(id, kind, 0.95)
	m.UseLevel = []evidence.Reading[quantity.MassFraction]{
		{Low: most / 2, High: most, Source: "invented"},
		{Value: 0.9, Source: "invented", Aside: "a ceiling"},
	}
	return m
}

// Every remark on the numbers comes where it should and not elsewhere.
func TestMullWarnings(t *testing.T) {
	blue := powder("blue", 2.34, 38)
	cored := powder("black", 1.8, 100)
	cored.OilAbsorption[0].Method = material.Absorptometer
	doubtful := liquid("thick oil", material.Oil, 0.97)
	doubtful.AbsorptionDoubtful = "it is thick"
	wax := func(m *material.Material, share quantity.MassFraction) func(*MullRequest) {
		return func(r *MullRequest) { r.Waxes = []Portion{{ready(t, m), share}} }
	}
	tests := []struct {
		name   string
		change func(*MullRequest)
		want   []string // a piece of each warning, in order
	}{
		{"plain", func(*MullRequest) {}, nil},
		{"doubtful oil", func(r *MullRequest) { r.Oils[0].Ingredient = ready(t, doubtful) }, []string{"doubtful (it is thick); the range is widened"}},
		{"other method", func(r *MullRequest) { r.Pigments[0].Ingredient = ready(t, cored) }, []string{"the one figure known is by absorptometer"}},
		{"two powders", func(r *MullRequest) { r.Extenders = []Portion{{ready(t, powder("chalk", 2.7, 17)), 0.1}} }, []string{"oil demands are added by mass"}},
		{"wax within its use", wax(dosed("wax", material.Wax, 0.02), 0.02), nil},
		{"wax above its use", wax(dosed("wax", material.Wax, 0.02), 0.021), []string{"wax: 2.1 % of the paste is above the published use of up to 2 %"}},
		{"drier, whose dose is of metal", wax(dosed("drier", material.Drier, 0.0008), 0.005), []string{"up to 0.08 % is of metal on the oil, not of drier"}},
		{"damp", func(r *MullRequest) { r.Moisture = 0.12 }, []string{"12 % water of the damp mass"}},
	}
	for _, tt := range tests {
		req := request(t)
		req.Pigments[0].Ingredient = ready(t, blue)
		tt.change(&req)
		res, err := Mull(req)
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		if len(res.Warnings) != len(tt.want) {
			t.Errorf("%s: got %q, want %d", tt.name, res.Warnings, len(tt.want))
			continue
		}
		for i, want := range tt.want {
			if !strings.Contains(res.Warnings[i], want) {
				t.Errorf("%s: got %q, want %q in it", tt.name, res.Warnings[i], want)
			}
		}
	}
}
