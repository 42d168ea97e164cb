package formulate

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// rubOutWith is a request with an invented pigment of about 40 ml/100 g.
func rubOutWith(tests ...RubOutTest) RubOutRequest {
	oil := &material.Material{ID: "linseed-oil", Name: "Linseed oil", Kind: material.Oil}
	return RubOutRequest{
		Pigment:  &material.Material{ID: "bench-blue", Name: "Bench blue", Kind: material.Pigment, CINumber: "77000"},
		Expected: evidence.Distribution[quantity.AbsorptionVolume]{Median: 40, Sigma: 0.2}, ExpectedBy: "invented",
		Oil: Ingredient{Material: oil, Density: evidence.Distribution[quantity.Density]{Median: 0.93}}, Linseed: true,
		Tests: tests, Method: material.RubOut, Allowed: 0.05, Scale: 0.01, Division: 0.1, Drop: 0.033,
	}
}

func measured(ml quantity.Volume) RubOutTest {
	return RubOutTest{Pigment: 10, Read: Measured, Volume: ml}
}

func weighed(g quantity.Mass) RubOutTest { return RubOutTest{Pigment: 10, Read: Weighed, Oil: g} }

// Duplicates of ISO 787-5 arithmetic, mean and u(mean) by JCGM 100:2008, 4.2:
// 3.18 and 3.26 ml on 10.00 g.
func TestRubOutDuplicates(t *testing.T) {
	r, err := RubOut(rubOutWith(measured(3.18), measured(3.26)))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "first, ml", float64(r.Figures[0].ByVolume), 31.8, 1e-9)
	near(t, "first, g", float64(r.Figures[0].ByMass), 31.8*0.93, 1e-9)
	near(t, "mean, ml", float64(r.Mean.Volume), 32.2, 1e-9)
	near(t, "spread", float64(r.Agreement.Spread), 0.025, 0.0005)
	near(t, "u of the mean", float64(r.Mean.VolumeSD)/math.Sqrt2, 0.40, 0.005)
	near(t, "half the 95 % interval", float64(r.Mean.VolumeHigh-r.Mean.Volume), 12.706*0.40, 0.01)
	if r.Verdict != TwoAgree || r.Standing != Within {
		t.Errorf("verdict %v, standing %v; want two that agree, within 31 to 52 ml", r.Verdict, r.Standing)
	}
}

func TestRubOutVerdicts(t *testing.T) {
	for _, c := range []struct {
		name    string
		tests   []RubOutTest
		verdict RubOutVerdict
		suspect int
	}{
		{"nothing yet", nil, NoTest, 0},
		{"one", []RubOutTest{weighed(4)}, OneTest, 0},
		{"two agree", []RubOutTest{weighed(4), weighed(4.1)}, TwoAgree, 0},
		{"two differ", []RubOutTest{weighed(4), weighed(4.3)}, TwoDiffer, 0},
		{"three agree", []RubOutTest{weighed(4), weighed(4.1), weighed(4.05)}, MoreAgree, 0},
		{"three scatter", []RubOutTest{weighed(4), weighed(4.3), weighed(4.6)}, MoreScatter, 0},
		{"one of five lies out", []RubOutTest{weighed(4), weighed(4.02), weighed(5), weighed(3.98), weighed(4.01)}, OneLiesOut, 3},
		// The suspect's gap is the whole range only because the others are printed alike.
		{"alike but one", []RubOutTest{weighed(4), weighed(4), weighed(4.5)}, MoreScatter, 0},
		// Far out of readings that agree to a thousandth, yet inside what is allowed.
		{"out but within what is allowed", []RubOutTest{weighed(4), weighed(4.001), weighed(4.002), weighed(4.001), weighed(4.05)}, MoreAgree, 0},
	} {
		r, err := RubOut(rubOutWith(c.tests...))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if r.Verdict != c.verdict || r.Suspect() != c.suspect {
			t.Errorf("%s: verdict %d, suspect %d; want %d, %d", c.name, r.Verdict, r.Suspect(), c.verdict, c.suspect)
		}
		if (r.Without != nil) != (c.suspect > 0) {
			t.Errorf("%s: mean without the suspect: %v", c.name, r.Without)
		}
	}
}

// Grams, millilitres and counted drops of the same oil are one figure.
func TestRubOutReadings(t *testing.T) {
	req := rubOutWith(weighed(3.72), measured(4), RubOutTest{Pigment: 10, Read: Counted, Drops: 124})
	req.Drop = 0.03
	r, err := RubOut(req)
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range r.Figures {
		near(t, f.String()+", g", float64(f.ByMass), 37.2, 1e-9)
		near(t, f.String()+", ml", float64(f.ByVolume), 40, 1e-9)
		if !(f.Reading > 0) {
			t.Errorf("test %d is read without error", i+1)
		}
	}
}

// Another oil counts with its own density, and its figure is no linseed figure.
func TestRubOutOtherLiquids(t *testing.T) {
	req := rubOutWith(measured(4))
	req.Linseed = false
	req.Oil.Material = &material.Material{ID: "poppy-oil", Name: "Poppy oil", Kind: material.Oil}
	req.Oil.Density.Median = 0.924
	r, err := RubOut(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "poppy oil, g", float64(r.Figures[0].ByMass), 36.96, 1e-9)
	if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0], "linseed") {
		t.Errorf("warnings %q: the oil should be named", r.Warnings)
	}
	req.Oil.Material = &material.Material{ID: "water", Name: "Water", Kind: material.Water}
	if r, err = RubOut(req); err != nil {
		t.Fatal(err)
	}
	if r.Standing != NotCompared || !strings.Contains(r.Warnings[0], "liquid demand") {
		t.Errorf("water: standing %d, warnings %q", r.Standing, r.Warnings)
	}
	req.Method = material.GardnerColeman
	req.Oil.Material = &material.Material{ID: "poppy-oil", Kind: material.Oil}
	if r, err = RubOut(req); err != nil {
		t.Fatal(err)
	}
	if r.Standing != NotCompared {
		t.Error("a stirred figure was compared with rub-outs")
	}
}

// The water in damp pigment is not pigment.
func TestRubOutMoisture(t *testing.T) {
	req := rubOutWith(weighed(3.6))
	req.Moisture = 0.1
	r, err := RubOut(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "on 9 g of dry pigment", float64(r.Mean.Mean), 40, 1e-9)
}

// A coarse balance wants more powder than the method: one step of it is then at
// most half of the spread allowed, of the oil; a fine one changes nothing.
func TestPortionForTheBalance(t *testing.T) {
	for _, c := range []struct {
		scale, portion, table quantity.Mass
		expected              quantity.AbsorptionVolume
	}{
		{0.01, 10, 0, 22}, {0.1, 20, 10, 22}, {0.1, 10, 5, 46}, {0.1, 50, 20, 8.7}, {0.01, 1, 0, 100}, {1, 200, 10, 24},
	} {
		req := rubOutWith()
		req.Scale = c.scale
		req.Expected = evidence.Distribution[quantity.AbsorptionVolume]{Median: c.expected, Sigma: 0.2}
		r, err := RubOut(req)
		if err != nil {
			t.Fatal(err)
		}
		g := r.Guide
		if g.Portion != c.portion || g.ByTable != c.table {
			t.Errorf("balance to %g g, %g ml/100 g: %g g beside the table's %g; want %g beside %g", float64(c.scale), float64(c.expected), float64(g.Portion), float64(g.ByTable), float64(c.portion), float64(c.table))
		}
		if step := quantity.Ratio(c.scale / g.OilTypical); step > g.Step*1.01 {
			t.Errorf("balance to %g g: a step is %g of the oil", float64(c.scale), float64(step))
		}
	}
	req := rubOutWith()
	req.Scale, req.Expected = 0.1, evidence.Distribution[quantity.AbsorptionVolume]{}
	r, err := RubOut(req)
	if err != nil || !r.Guide.Larger || r.Guide.Portions[1].Portion != 20 {
		t.Errorf("the table for a balance to 0.1 g: %+v, %v", r.Guide.Portions, err)
	}
}

// Portions of IS 33, organic pigments by their Colour Index number.
func TestRubOutGuide(t *testing.T) {
	for _, c := range []struct {
		expected quantity.AbsorptionVolume
		number   string
		portion  quantity.Mass
	}{{8, "77713", 20}, {25, "77492", 10}, {45, "77510", 5}, {70, "77266", 2}, {150, "", 1}, {150, "74160", 5}} {
		req := rubOutWith()
		req.Expected.Median, req.Pigment.CINumber = c.expected, c.number
		r, err := RubOut(req)
		if err != nil {
			t.Fatal(err)
		}
		g := r.Guide
		if g.Portion != c.portion {
			t.Errorf("%v, no. %q: portion %v, want %v", c.expected, c.number, g.Portion, c.portion)
		}
		near(t, "oil at the typical figure", float64(g.PourTypical), float64(c.expected)*float64(c.portion)/100, 1e-9)
		if !(g.OilLow < g.OilTypical && g.OilTypical < g.OilHigh && g.Ready >= 2*g.OilHigh) {
			t.Errorf("oil %v, %v, %v, ready %v", g.OilLow, g.OilTypical, g.OilHigh, g.Ready)
		}
	}
	req := rubOutWith()
	req.Expected = evidence.Distribution[quantity.AbsorptionVolume]{}
	r, err := RubOut(req)
	if err != nil {
		t.Fatal(err)
	}
	if r.Guide.Portion != 0 || len(r.Guide.Portions) != 6 {
		t.Errorf("nothing expected: %+v, want the whole table", r.Guide)
	}
}

// Iron cyanide is never to be heated or to meet acid; no rule calls heat harmless.
func TestDryingRule(t *testing.T) {
	blue := DryingRule(&material.Material{Classes: []material.Class{material.IronCyanide, material.HeatSensitive}})
	for _, want := range []string{"Air-dry only", "acid", "No figure"} {
		if !strings.Contains(blue.Text, want) {
			t.Errorf("iron blue: %q lacks %q", blue.Text, want)
		}
	}
	raw := DryingRule(&material.Material{Tags: []string{"earth"}, Chemical: "iron hydroxide earth"})
	burnt := DryingRule(&material.Material{Tags: []string{"earth"}, Chemical: "calcined iron hydroxide earth"})
	if !strings.Contains(raw.Text, "changes colour") || strings.Contains(burnt.Text, "changes colour") {
		t.Errorf("raw earth %q, burnt earth %q", raw.Text, burnt.Text)
	}
	if !strings.Contains(burnt.Text, "not a clearance") {
		t.Errorf("unknown powder: %q", burnt.Text)
	}
}

func TestRubOutRefusals(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*RubOutRequest)
		want   string
	}{
		{"oil and pigment swapped", func(r *RubOutRequest) { r.Tests[0] = RubOutTest{Pigment: 0.3, Read: Weighed, Oil: 10} }, "swapped"},
		{"no pigment", func(r *RubOutRequest) { r.Tests[0].Pigment = 0 }, "above nothing"},
		{"no oil", func(r *RubOutRequest) { r.Tests[0].Oil = 0 }, "above nothing"},
		{"not a number", func(r *RubOutRequest) { r.Tests[0].Oil = quantity.Mass(math.NaN()) }, "above nothing"},
		{"drops without a weight", func(r *RubOutRequest) {
			r.Drop = 0
			r.Tests[0] = RubOutTest{Pigment: 5, Read: Counted, Drops: 60}
		}, "twenty"},
		{"all water", func(r *RubOutRequest) { r.Moisture = 1 }, "moisture"},
		{"an oil is no powder", func(r *RubOutRequest) { r.Pigment = r.Oil.Material }, "not a powder"},
		{"kneaded", func(r *RubOutRequest) { r.Method = material.Absorptometer }, "end point"},
		{"two lines", func(r *RubOutRequest) { r.Lot = "a\nb" }, "one line"},
		{"allowed", func(r *RubOutRequest) { r.Allowed = 0 }, "spread allowed"},
	} {
		req := rubOutWith(weighed(4))
		c.change(&req)
		if _, err := RubOut(req); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one about %q", c.name, err, c.want)
		}
	}
}

// The figures do not depend on the portion or on the order of the tests, and the
// mean lies among them.
func TestRubOutProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		oil := rapid.SliceOfN(rapid.Float64Range(0.5, 20), 2, 12).Draw(t, "oil")
		k := quantity.Mass(rapid.Float64Range(0.1, 10).Draw(t, "k"))
		var tests, larger, turned []RubOutTest
		for i, g := range oil {
			tests = append(tests, weighed(quantity.Mass(g)))
			larger = append(larger, RubOutTest{Pigment: 10 * k, Read: Weighed, Oil: quantity.Mass(g) * k})
			turned = append(turned, weighed(quantity.Mass(oil[len(oil)-1-i])))
		}
		a, err := RubOut(rubOutWith(tests...))
		if err != nil {
			t.Fatal(err)
		}
		for _, other := range [][]RubOutTest{larger, turned} {
			b, err := RubOut(rubOutWith(other...))
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(float64(a.Mean.Mean-b.Mean.Mean)) > 1e-9*float64(a.Mean.Mean) || math.Abs(float64(a.Mean.SD-b.Mean.SD)) > 1e-6 {
				t.Fatalf("mean %v ± %v became %v ± %v", a.Mean.Mean, a.Mean.SD, b.Mean.Mean, b.Mean.SD)
			}
		}
		least, most := a.Figures[0].ByMass, a.Figures[0].ByMass
		for _, f := range a.Figures {
			least, most = min(least, f.ByMass), max(most, f.ByMass)
		}
		if !(a.Mean.Mean >= least-1e-9 && a.Mean.Mean <= most+1e-9 && a.Mean.Low >= 0 && a.Mean.Low <= a.Mean.Mean && a.Mean.High >= a.Mean.Mean) {
			t.Fatalf("mean %+v of %v to %v", a.Mean, least, most)
		}
	})
}
