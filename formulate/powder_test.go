package formulate

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
)

// Crucible, damp and dried as in testdata/checks (C11-02): 3.000 % wet basis,
// 3.093 % dry basis; 50 g dry at 3 % are 51.546 g damp.
func TestPowderMoisture(t *testing.T) {
	r, err := PowderMoisture(MoistureRequest{Dish: 25.1034, Damp: 30.1260, Dried: []quantity.Mass{29.9754, 29.9753}, Want: 50, Scale: 0.0001})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "wet basis, %", 100*float64(r.Moisture.Value), 3.000, 0.0005)
	near(t, "dry basis, %", 100*float64(r.DryBasis), 3.093, 0.0005)
	near(t, "to weigh out", float64(r.WeighOut), 50/(1-0.15070/5.0226), 0.01)
	near(t, "powder", float64(r.Dry+r.Water), float64(r.Powder), 1e-9)
	if r.Steadiness != Steady || !(r.Low < r.Moisture.Value && r.Moisture.Value < r.High) {
		t.Errorf("steadiness %d, %v in %v to %v", r.Steadiness, r.Moisture.Value, r.Low, r.High)
	}
	for _, c := range []struct {
		dried []quantity.Mass
		want  Steadiness
	}{{[]quantity.Mass{4.9}, NotShown}, {[]quantity.Mass{4.95, 4.9}, Losing}, {[]quantity.Mass{4.9, 4.95}, Gaining}, {[]quantity.Mass{4.95, 4.91, 4.9}, Steady}} {
		r, err := PowderMoisture(MoistureRequest{Damp: 5, Dried: c.dried, Scale: 0.01})
		if err != nil || r.Steadiness != c.want {
			t.Errorf("%v: steadiness %d, %v; want %d", c.dried, r.Steadiness, err, c.want)
		}
	}
}

// Poured 0.45 and tapped 0.6 g/ml (C11-04): Carr 25.00 %, Hausner 1.3333, by
// either way of tapping.
func TestPowderBulk(t *testing.T) {
	for name, req := range map[string]BulkRequest{
		"the same powder": {Powder: 22.5, Volume: 50, Tapped: 37.5, Scale: 0.01, Division: 1},
		"topped up again": {Powder: 22.5, Volume: 50, Refilled: 30, Scale: 0.01, Division: 1},
	} {
		r, err := PowderBulk(req)
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+": poured", float64(r.Poured.Value), 0.45, 1e-12)
		near(t, name+": Carr", 100*float64(r.Carr), 25, 1e-9)
		near(t, name+": Hausner", float64(r.Hausner), 1.3333, 0.00005)
		near(t, name+": a tablespoon", float64(r.Spoon), 6.75, 1e-9)
		if r.Flow != powders.Passable || !(r.Poured.U > 0) {
			t.Errorf("%s: flow %s, u %v", name, r.Flow, r.Poured.U)
		}
	}
}

// jarOf is a jar of an invented pigment.
func jarOf(t testing.TB) JarRequest {
	m := request(t)
	m.Sampling = Sampling{}
	return JarRequest{Jar: 250, Bulk: evidence.Distribution[quantity.Density]{Median: 0.6, Sigma: 0.1}, Tube: 40, Fill: 0.78, Mull: m}
}

// A jar is what a mull of its powder makes.
func TestPowderJarIsAMull(t *testing.T) {
	req := jarOf(t)
	req.Bulk.Sigma, req.Mull.Sampling.Exact = 0, true
	r, err := PowderJar(req)
	if err != nil {
		t.Fatal(err)
	}
	m := req.Mull
	m.Amount, m.Scale = Amount{Kind: ByPigmentMass, Mass: 150}, 0
	card, err := Mull(m)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "powder", float64(r.Powder.Typical), 150, 1e-9)
	near(t, "paint", float64(r.Paint.Typical), float64(card.Yield.Volume.Typical), 1e-6)
	near(t, "oil", float64(r.Oil.Typical), float64(card.Figures.BinderMass.Typical), 1e-6)
	near(t, "tubes", float64(r.Tubes.Typical), float64(card.Yield.Volume.Typical)/(40*0.78), 1e-6)
	wide, err := PowderJar(jarOf(t))
	if err != nil {
		t.Fatal(err)
	}
	if !(wide.Powder.Low < 140 && wide.Powder.High > 160 && wide.Paint.Low < wide.Paint.Typical && wide.Tubes.Typical < wide.Tubes.High) {
		t.Errorf("%+v, %+v, %+v have no width", wide.Powder, wide.Paint, wide.Tubes)
	}
}

func TestJarBulk(t *testing.T) {
	d, err := JarBulk(0.45, 0.6)
	if err != nil {
		t.Fatal(err)
	}
	r := d.Range()
	near(t, "low", float64(r.Low), 0.45, 1e-9)
	near(t, "high", float64(r.High), 0.6, 1e-9)
	if _, err := JarBulk(0.6, 0.45); err == nil {
		t.Error("a tapped density below the poured one is taken")
	}
}

// By hand: 10 g displace 46.4 + 10 − 36.4... the flask holds 49.91 g of water
// alone and 46.40 g beside the powder, so 3.51 g are displaced.
func TestPowderDensity(t *testing.T) {
	flask := powders.Pyknometer{Empty: 25, Powder: 35, Topped: 81.40, Full: 74.91, Digit: 0.01, Filling: 0.02}
	water := &material.Material{ID: "water", Kind: material.Water}
	req := TrueDensityRequest{Pyknometer: &flask, Liquid: water, Temperature: 22, Within: 1}
	r, err := PowderDensity(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "density", float64(r.Density.Value), 10.0/3.51*0.99777, 0.0005)
	near(t, "water at 22 °C", float64(r.Liquid.Value), 0.99777, 0.000005)
	// Two fillings of 0.02 g on 3.51 g outweigh the rest.
	near(t, "u", float64(r.Density.U), 2.843*math.Sqrt2*0.02/3.51, 0.001)
	if flask.Liquid.Value != 0 {
		t.Error("the request was changed")
	}
	colder := req
	colder.Temperature, colder.Within = 5, 0
	c, err := PowderDensity(colder)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "in proportion to the liquid", float64(c.Density.Value/r.Density.Value), float64(c.Liquid.Value/r.Liquid.Value), 1e-6)

	cylinder := TrueDensityRequest{Cylinder: &powders.Displacement{Powder: evidence.Given[quantity.Mass](20, 0), Before: evidence.Given[quantity.Volume](50, 0.2), After: evidence.Given[quantity.Volume](57, 0.2)}}
	if r, err = PowderDensity(cylinder); err != nil {
		t.Fatal(err)
	}
	near(t, "cylinder", float64(r.Density.Value), 20.0/7, 1e-9)
	near(t, "cylinder, u", float64(r.Density.U), 20.0/49*0.2*math.Sqrt2, 0.0005)
}

// A reading of 6 Hegman is 25.4 µm; no. 325 is 45 µm; the jar gives the size that
// settling in water gives.
func TestPowderFineness(t *testing.T) {
	jar := SettleRequest{Name: "ochre", Density: evidence.Distribution[quantity.Density]{Median: 2.7}, Time: 1200, Depth: 10, Powder: 0.01, Washes: 3, Temperature: 20, Sampling: Sampling{Exact: true}}
	r, err := PowderFineness(FinenessRequest{Hegman: 6, ByScale: true, Sieve: &SieveTest{Opening: 45, Number: 325, Powder: 20, Residue: 0.12, Scale: 0.01}, Settled: &jar})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "gauge", float64(r.Gauge.Depth), 25.4, 1e-9)
	near(t, "engraved", float64(r.Gauge.Engraved), 25, 1e-9)
	near(t, "residue", float64(r.Sieve.Residue.Value), 0.006, 1e-12)
	near(t, "passed", float64(r.Sieve.Passed), 0.994, 1e-12)
	// Stokes alone: d = √(18·1.0016e-3·0.1/(9.80665·1702·1200)) = 9.49 µm; among
	// others grains fall a little slower, so a little larger ones are still up.
	near(t, "largest grain up", float64(r.Settled.Size.Typical), 9.5, 0.4)
	if _, err := PowderFineness(FinenessRequest{}); err == nil {
		t.Error("no test was taken for one")
	}
	coarsest, err := PowderFineness(FinenessRequest{ByScale: true})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "0 Hegman", float64(coarsest.Gauge.Depth), 101.6, 1e-9)
}

// Ultramarine of 2 µm (C11-07): 1.282 m²/g; with δ 3 nm and φ 0.64 the rule gives
// 0.385 + 24.04 ml/100 g. Grinding to 1 µm adds another 1.282 m²/g.
func TestPowderSurface(t *testing.T) {
	req := SurfaceRequest{Name: "ultramarine", Density: evidence.Distribution[quantity.Density]{Median: 2.34}, Size: evidence.Distribution[quantity.ParticleSize]{Median: 2}, Shape: Sphere, Finer: 1, Sampling: Sampling{Exact: true}}
	r, err := PowderSurface(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "surface", float64(r.Surface.Typical), 1.282, 0.0005)
	near(t, "oil", float64(r.Rule.Typical), 0.1*1.282*3+100*0.36/0.64/2.34, 0.001)
	near(t, "thin layer", float64(r.Finer.Thin), 0.3205, 0.0001)
	near(t, "thick layer", float64(r.Finer.Thick), 0.5128, 0.0001)
	near(t, "as carbonates", float64(r.Finer.Apparent), 1.1538, 0.0001)
	for shape, times := range map[GrainShape]float64{Plate: 1.0 / 3, Rod: 2.0 / 3} {
		req.Shape = shape
		p, err := PowderSurface(req)
		if err != nil {
			t.Fatal(err)
		}
		near(t, string(shape), float64(p.Surface.Typical), 1.282*times, 0.0005)
	}
	// The two ways round agree.
	back := SurfaceRequest{Name: "ultramarine", Density: req.Density, Surface: evidence.Distribution[quantity.SpecificSurface]{Median: r.Surface.Typical}, Shape: Sphere, Sampling: Sampling{Exact: true}}
	b, err := PowderSurface(back)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "size back", float64(b.Size.Typical), 2, 1e-9)
	wide := req
	wide.Shape, wide.Sampling, wide.Density.Sigma = Sphere, Sampling{}, 0.05
	if w, err := PowderSurface(wide); err != nil || !(w.Surface.Low < w.Surface.Typical && w.Surface.Typical < w.Surface.High) {
		t.Errorf("%+v, %v", w.Surface, err)
	}
}

func TestPowderCake(t *testing.T) {
	r, err := PowderCake(CakeRequest{Want: 50, Stages: []CakeStage{{"wet cake", 120, 0.62}, {"dried", 44, 0}, {"paint", 66, 0.385}}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pigment in the cake", float64(r.Dry[0]), 45.6, 1e-9)
	near(t, "kept", float64(r.Yield.Kept), 66*0.615/45.6, 1e-9)
	near(t, "begin with", float64(r.Begin), 50/float64(r.Yield.Kept), 1e-9)
	near(t, "as cake", float64(r.BeginAs), float64(r.Begin)/0.38, 1e-9)
	near(t, "last loss", float64(r.LastLoss), 1-66*0.615/44, 1e-9)
	if r.Yield.Worst != "dried to paint" {
		t.Errorf("kept least by %q", r.Yield.Worst)
	}
	rapid.Check(t, func(t *rapid.T) {
		mass := 1000.0
		var stages []CakeStage
		for range rapid.IntRange(2, 8).Draw(t, "stages") {
			other := rapid.Float64Range(0, 0.9).Draw(t, "not pigment")
			stages = append(stages, CakeStage{"stage", quantity.Mass(mass / (1 - other)), quantity.MassFraction(other)})
			mass *= rapid.Float64Range(0.5, 1).Draw(t, "kept")
		}
		r, err := PowderCake(CakeRequest{Stages: stages})
		if err != nil {
			t.Fatal(err)
		}
		// What is kept in all is the last pigment over the first.
		if want := float64(r.Dry[len(r.Dry)-1] / r.Dry[0]); math.Abs(float64(r.Yield.Kept)-want) > 1e-9 {
			t.Fatalf("kept %v, want %v", r.Yield.Kept, want)
		}
	})
}

// Every result names cautions, and says so where no pigment was named.
func TestPowderCautions(t *testing.T) {
	lead := &material.Material{ID: "lead-white", Name: "Lead white", Kind: material.Pigment, Classes: []material.Class{material.Lead}, Hazards: material.Hazards{Assessed: true}}
	about := func(list []Caution) string {
		var s []string
		for _, c := range list {
			s = append(s, c.About)
		}
		return strings.Join(s, ", ")
	}
	unnamed, err := PowderBulk(BulkRequest{Powder: 10, Volume: 20})
	if err != nil {
		t.Fatal(err)
	}
	named, err := PowderBulk(BulkRequest{Pigment: lead, Powder: 10, Volume: 20})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := about(unnamed.Cautions), about(named.Cautions); !strings.Contains(a, "not assessed") || !strings.Contains(b, "lead") || !strings.Contains(b, "dust") {
		t.Errorf("unnamed: %s; lead white: %s", a, b)
	}
	spirit := &material.Material{ID: "white-spirit", Kind: material.Solvent, Classes: []material.Class{material.Flammable}, Hazards: material.Hazards{Assessed: true},
		Density: []evidence.Reading[quantity.Density]{{Value: 0.78, Source: "x"}}}
	r, err := PowderDensity(TrueDensityRequest{Pigment: lead, Pyknometer: &powders.Pyknometer{Empty: 25, Powder: 45, Topped: 81, Full: 64.4, Digit: 0.01}, Liquid: spirit, Temperature: 20})
	if err != nil {
		t.Fatal(err)
	}
	if a := about(r.Cautions); !strings.Contains(a, "solvent fire") {
		t.Errorf("with white spirit: %s", a)
	}
}

func TestPowderRefusals(t *testing.T) {
	oil := &material.Material{ID: "walnut-oil", Kind: material.Oil}
	for name, c := range map[string]struct {
		run  func() error
		want string
	}{
		"no weighing, no pigment": {func() error { _, err := PowderMoisture(MoistureRequest{}); return err }, "nothing to work out"},
		"dried alone":             {func() error { _, err := PowderMoisture(MoistureRequest{Dried: []quantity.Mass{5}}); return err }, "weight damp"},
		"gains by drying": {func() error {
			_, err := PowderMoisture(MoistureRequest{Damp: 5, Dried: []quantity.Mass{6}})
			return err
		}, "cannot gain"},
		"empty dish": {func() error {
			_, err := PowderMoisture(MoistureRequest{Dish: 6, Damp: 5, Dried: []quantity.Mass{5}})
			return err
		}, "none in it"},
		"an oil is no powder": {func() error { _, err := PowderMoisture(MoistureRequest{Pigment: oil}); return err }, "not a powder"},
		"tapping swells":      {func() error { _, err := PowderBulk(BulkRequest{Powder: 5, Volume: 10, Tapped: 11}); return err }, "only settles"},
		"both ways": {func() error {
			_, err := PowderBulk(BulkRequest{Powder: 5, Volume: 10, Tapped: 9, Refilled: 6})
			return err
		}, "give one"},
		"not a number": {func() error {
			_, err := PowderBulk(BulkRequest{Powder: quantity.Mass(math.NaN()), Volume: 10})
			return err
		}, "finite"},
		"no jar":  {func() error { j := jarOf(t); j.Jar = 0; _, err := PowderJar(j); return err }, "volume"},
		"no tube": {func() error { j := jarOf(t); j.Fill = 1.5; _, err := PowderJar(j); return err }, "fill"},
		"lighter than its liquid": {func() error {
			_, err := PowderDensity(TrueDensityRequest{Pyknometer: &powders.Pyknometer{Empty: 25, Powder: 35, Topped: 70, Full: 80}, OwnLiquid: evidence.Given[quantity.Density](1, 0)})
			return err
		}, "would not sink"},
		"no liquid": {func() error {
			_, err := PowderDensity(TrueDensityRequest{Pyknometer: &powders.Pyknometer{Empty: 25, Powder: 35, Topped: 81, Full: 74}})
			return err
		}, "liquid"},
		"nothing weighed": {func() error { _, err := PowderDensity(TrueDensityRequest{}); return err }, "no weighings"},
		"coarser, not finer": {func() error {
			_, err := PowderSurface(SurfaceRequest{Name: "x", Density: evidence.Distribution[quantity.Density]{Median: 2}, Size: evidence.Distribution[quantity.ParticleSize]{Median: 2}, Shape: Sphere, Finer: 3})
			return err
		}, "not finer"},
		"no size": {func() error {
			_, err := PowderSurface(SurfaceRequest{Name: "x", Density: evidence.Distribution[quantity.Density]{Median: 2}, Shape: Sphere})
			return err
		}, "no grain size"},
		"one weighing": {func() error { _, err := PowderCake(CakeRequest{Stages: []CakeStage{{"a", 5, 0}}}); return err }, "two weighings"},
		"more came out": {func() error {
			_, err := PowderCake(CakeRequest{Stages: []CakeStage{{"a", 5, 0}, {"b", 6, 0}}})
			return err
		}, "more comes out"},
		"all water": {func() error {
			_, err := PowderCake(CakeRequest{Stages: []CakeStage{{"a", 5, 1}, {"b", 6, 0}}})
			return err
		}, "below 100 %"},
	} {
		if err := c.run(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one about %q", name, err, c.want)
		}
	}
}
