package powder

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g ± %.2g", what, got, want, tolerance)
	}
}

func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(math.Abs(a)+math.Abs(b)) }

func TestMoistureBases(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		damp := quantity.Mass(rapid.Float64Range(0.1, 1000).Draw(t, "damp"))
		dry := damp * quantity.Mass(rapid.Float64Range(0.01, 1).Draw(t, "share dry"))
		w, err := Moisture(damp, dry)
		if err != nil {
			t.Fatal(err)
		}
		x := DryBasis(w)
		if !(math.Abs(float64(x)-float64((damp-dry)/dry)) <= 1e-9*(1+float64(x))) {
			t.Fatalf("dry basis %v of %v and %v", x, damp, dry)
		}
		if back := WetBasis(x); math.Abs(float64(back-w)) > 1e-9 {
			t.Fatalf("%v came back as %v", w, back)
		}
		if out := DampMass(dry, w); !alike(float64(out), float64(damp)) {
			t.Fatalf("to have %v weigh %v, want %v", dry, out, damp)
		}
		if in := DryMass(damp, w); !alike(float64(in), float64(dry)) {
			t.Fatalf("%v damp holds %v, want %v", damp, in, dry)
		}
	})
}

func TestDryingTest(t *testing.T) {
	d := DryingTest{Container: 25.10, Damp: 30.10, Dried: 29.95, Digit: 0.01}
	w, err := d.Moisture()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "moisture", float64(w.Value), 0.03, 1e-12)
	// Two readings carry almost all: √2·0.01/(2√3) over 5 g.
	near(t, "u", float64(w.U), math.Sqrt2*0.01/(2*math.Sqrt(3))/5, 5e-5)
	d.Digit = 0
	if w, err = d.Moisture(); err != nil || w.U != 0 {
		t.Errorf("an exact balance gives u = %v, %v", w.U, err)
	}
}

func TestBulk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		poured := quantity.Density(rapid.Float64Range(0.02, 4).Draw(t, "poured"))
		tapped := poured * quantity.Density(rapid.Float64Range(1, 3).Draw(t, "ratio"))
		carr, err := CarrIndex(poured, tapped)
		if err != nil {
			t.Fatal(err)
		}
		h, err := HausnerRatio(poured, tapped)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(carr-(1-1/h))) > 1e-12 {
			t.Fatalf("Carr %v, Hausner %v", carr, h)
		}
		v := quantity.Volume(rapid.Float64Range(1, 1000).Draw(t, "jar"))
		least, most, err := JarMass(v, poured, tapped)
		if err != nil || least > most {
			t.Fatalf("jar %v to %v, %v", least, most, err)
		}
		again, err := BulkDensity(least, v)
		if err != nil || !alike(float64(again), float64(poured)) {
			t.Fatalf("density %v came back as %v, %v", poured, again, err)
		}
	})
}

func TestFlowAtItsLimits(t *testing.T) {
	tests := []struct {
		carr quantity.Ratio
		want Flow
	}{
		{0, Excellent}, {0.104, Excellent}, {0.106, Good}, {0.154, Good}, {0.156, Fair}, {0.20, Fair}, {0.21, Passable},
		{0.25, Passable}, {0.26, Poor}, {0.31, Poor}, {0.32, VeryPoor}, {0.374, VeryPoor}, {0.38, VeryVeryPoor}, {0.8, VeryVeryPoor},
	}
	for _, tt := range tests {
		if got, err := FlowOf(tt.carr); err != nil || got != tt.want {
			t.Errorf("flow at %v is %q, %v, want %q", tt.carr, got, err, tt.want)
		}
	}
}

func TestPyknometer(t *testing.T) {
	// Made backwards: 12 g of a powder of 4.10 g/ml in a vessel of 50 ml.
	rapid.Check(t, func(t *rapid.T) {
		rho := rapid.Float64Range(0.8, 12).Draw(t, "density")
		liquid := rapid.Float64Range(0.7, 1.3).Draw(t, "liquid")
		vessel := rapid.Float64Range(10, 500).Draw(t, "vessel")
		empty := rapid.Float64Range(5, 200).Draw(t, "empty")
		powder := rho * vessel * rapid.Float64Range(0.01, 0.9).Draw(t, "filled")
		p := Pyknometer{
			Empty: quantity.Mass(empty), Powder: quantity.Mass(empty + powder),
			Topped: quantity.Mass(empty + powder + (vessel-powder/rho)*liquid),
			Full:   quantity.Mass(empty + vessel*liquid),
			Liquid: evidence.Given(quantity.Density(liquid), quantity.Density(0.001*liquid)),
		}
		d, err := p.Density()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(d.Value)/rho-1) > 1e-7 {
			t.Fatalf("density %v, want %v", d.Value, rho)
		}
		// Only the liquid is uncertain, by a thousandth: so is the answer.
		if math.Abs(float64(d.U)/float64(d.Value)-0.001) > 1e-8 {
			t.Fatalf("u = %v of %v", d.U, d.Value)
		}
		p.Filling = 0.01
		if wider, err := p.Density(); err != nil || !(wider.U > d.U) {
			t.Fatalf("filling adds nothing: %v, %v", wider.U, err)
		}
	})
}

func TestPyknometerUncertaintyByHand(t *testing.T) {
	// 10 g displace 2 g of water; each weighing to ±0.005 g. ρ = m/(m − c) with
	// c = 8: dρ/dm = −c/(m − c)², by powder and empty alike through m, and through
	// topped and full by m/(m − c)².
	p := Pyknometer{Empty: 20, Powder: 30, Topped: 78, Full: 70, Digit: 0.01, Liquid: evidence.Given[quantity.Density](1, 0)}
	d, err := p.Density()
	if err != nil {
		t.Fatal(err)
	}
	u := 0.01 / (2 * math.Sqrt(3))
	near(t, "density", float64(d.Value), 5, 1e-12)
	near(t, "u", float64(d.U), u*math.Sqrt(2*math.Pow(8.0/4, 2)+2*math.Pow(10.0/4, 2)), 1e-7)
}

func TestDisplacement(t *testing.T) {
	d, err := Displacement{
		Powder: evidence.Given[quantity.Mass](30, 0.01),
		Before: evidence.Given[quantity.Volume](50, 0.2),
		After:  evidence.Given[quantity.Volume](56, 0.2),
	}.Density()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "density", float64(d.Value), 5, 1e-12)
	near(t, "u", float64(d.U), 5*math.Hypot(0.01/30, 0.2*math.Sqrt2/6), 1e-6)
}

func TestSurfaceAndSizeReturn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := quantity.ParticleSize(rapid.Float64Range(0.005, 500).Draw(t, "d"))
		rho := quantity.Density(rapid.Float64Range(0.9, 12).Draw(t, "rho"))
		s, err := SpecificSurface(d, rho)
		if err != nil {
			t.Fatal(err)
		}
		back, err := EquivalentDiameter(s, rho)
		if err != nil || !alike(float64(back), float64(d)) {
			t.Fatalf("%v came back as %v, %v", d, back, err)
		}
		plate, _ := PlateSurface(d, rho)
		rod, _ := RodSurface(d, rho)
		if !alike(float64(plate), 2/float64(rho)/float64(d)) || !alike(float64(rod), 4/float64(rho)/float64(d)) {
			t.Fatalf("plate %v, rod %v", plate, rod)
		}
	})
}

func TestMeanSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var classes []SizeClass
		edge := rapid.Float64Range(0, 5).Draw(t, "first edge")
		for range rapid.IntRange(1, 8).Draw(t, "classes") {
			next := edge + rapid.Float64Range(0.1, 5).Draw(t, "width")
			classes = append(classes, SizeClass{quantity.ParticleSize(edge), quantity.ParticleSize(next), quantity.Parts(rapid.Float64Range(0.1, 100).Draw(t, "count"))})
			edge = next
		}
		last := classes[0].Low
		for _, m := range [][2]int{{1, 0}, {2, 1}, {3, 2}, {4, 3}} {
			d, err := MeanSize(classes, m[0], m[1])
			if err != nil {
				t.Fatal(err)
			}
			if d < last*(1-1e-12) || d > classes[len(classes)-1].High {
				t.Fatalf("d%d%d = %v after %v", m[0], m[1], d, last)
			}
			last = d
		}
		shares, err := VolumeShares(classes)
		if err != nil {
			t.Fatal(err)
		}
		var sum float64
		for _, s := range shares {
			sum += float64(s)
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Fatalf("shares come to %v", sum)
		}
	})
	// A narrow class has one size, whatever the mean.
	narrow := []SizeClass{{1.9999, 2.0001, 10}}
	for _, m := range [][2]int{{1, 0}, {3, 2}, {4, 3}} {
		d, err := MeanSize(narrow, m[0], m[1])
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean of one size", float64(d), 2, 1e-6)
	}
}

// TestPublishedPairs holds the package comment to its word on how far the
// two-term rule lies from published pairs.
func TestPublishedPairs(t *testing.T) {
	middle := func(a, b float64) float64 { return math.Sqrt(a * b) }
	pairs := []struct {
		name                    string
		surface, density        float64
		published, rule, ofRule float64 // ml/100 g; the ratio
	}{
		{"ground calcium carbonate, coarse", 1, 2.70, 9 / 0.93, 21.1, 0.46},
		{"ground calcium carbonate, fine", 15, 2.70, 21 / 0.93, 25.3, 0.89},
		{"benzimidazolone yellow", middle(19, 27), middle(1.43, 1.5), middle(40, 54) / 0.93, 45.2, 1.11},
		{"copper phthalocyanine", middle(36, 52), 1.31, 45, 55.9, 0.80},
	}
	for _, p := range pairs {
		oil, err := OilOfSurface(quantity.SpecificSurface(p.surface), 3, RandomPacking, quantity.Density(p.density))
		if err != nil {
			t.Fatal(err)
		}
		near(t, p.name+": by the rule", float64(oil), p.rule, 0.051)
		near(t, p.name+": published over rule", p.published/float64(oil), p.ofRule, 0.0051)
	}
	// The apparent layer between the two carbonates.
	near(t, "apparent layer", (pairs[1].published-pairs[0].published)/(0.1*14), float64(ApparentLayer), 0.5)
}

func TestFinerOil(t *testing.T) {
	thin, err := FinerOil(2, 5, ThinLayer)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "thin layer", float64(thin), 0.75, 1e-12)
	most, err := FinerOil(2, 5, ApparentLayer)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "apparent layer", float64(most), 2.7, 1e-12)
	before, _ := OilOfSurface(2, ThinLayer, 0.7, 3)
	after, _ := OilOfSurface(5, ThinLayer, 0.7, 3)
	near(t, "as the difference of the rule", float64(after-before), float64(thin), 1e-9)
}

func TestGauge(t *testing.T) {
	for _, h := range []Hegman{0, 2.5, 8} {
		d, err := h.Depth()
		if err != nil {
			t.Fatal(err)
		}
		back, err := HegmanOf(d)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "reading", float64(back), float64(h), 1e-12)
		e, err := h.Engraved()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "engraved", float64(e), 100-12.5*float64(h), 1e-9)
	}
}

func TestThrough(t *testing.T) {
	y, err := Through([]Stage{{"drying", 60, 57}, {"grinding", 57, 55}, {"sieving", 55, 44}, {"mulling", 20, 19}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "kept", float64(y.Kept), 44.0/60*0.95, 1e-12)
	if y.Worst != "sieving" {
		t.Errorf("worst is %q", y.Worst)
	}
	near(t, "lost by sieving", float64(y.Losses[2].Lost), 11, 1e-12)
}

func TestRefusals(t *testing.T) {
	nan := math.NaN()
	errOf := func(_ any, err error) error { return err }
	jar := func(v quantity.Volume, a, b quantity.Density) error { _, _, err := JarMass(v, a, b); return err }
	pyk := func(empty, powder, topped, full quantity.Mass, liquid quantity.Density) error {
		return errOf(Pyknometer{Empty: empty, Powder: powder, Topped: topped, Full: full, Liquid: evidence.Given(liquid, 0)}.Density())
	}
	shift := func(before, after quantity.Volume) error {
		return errOf(Displacement{evidence.Given[quantity.Mass](1, 0), evidence.Given(before, 0), evidence.Given(after, 0)}.Density())
	}
	one := []SizeClass{{1, 2, 1}}
	tests := []struct {
		name string
		err  error
		want string
	}{
		{"gains by drying", errOf(Moisture(1, 2)), "cannot gain"},
		{"no powder", errOf(Moisture(0, 0)), "damp powder"},
		{"all water", CheckMoisture(1), "moisture is 1"},
		{"moisture not a number", CheckMoisture(quantity.MassFraction(nan)), "moisture"},
		{"moisture below none", CheckMoisture(-0.1), "moisture"},
		{"container heavier", errOf(DryingTest{Container: 30, Damp: 20, Dried: 10}.Moisture()), "damp powder"},
		{"dried to nothing", errOf(DryingTest{Container: 10, Damp: 20, Dried: 10}.Moisture()), "dried powder"},
		{"tapped below poured", errOf(CarrIndex(2, 1)), "only settles"},
		{"no jar", jar(0, 1, 2), "volume of the jar"},
		{"carr of 1", errOf(FlowOf(1)), "between 0 and 1"},
		{"liquid does not rise", shift(5, 5), "must rise"},
		{"vessel empty", pyk(20, 20, 70, 60, 1), "none in it"},
		{"nothing displaced", pyk(20, 30, 90, 70, 1), "displaces no liquid"},
		{"liquid lost on topping up", pyk(20, 30, 25, 70, 1), "topped up"},
		{"no liquid", pyk(20, 30, 75, 70, 0), "density of the liquid"},
		{"no size", errOf(SpecificSurface(0, 2)), "diameter"},
		{"surface not a number", errOf(EquivalentDiameter(quantity.SpecificSurface(nan), 2)), "specific surface"},
		{"packing above 1", errOf(OilOfSurface(1, 3, 1.2, 2)), "packing"},
		{"surface falls", errOf(FinerOil(5, 2, 3)), "only adds"},
		{"mean upside down", errOf(MeanSize(one, 2, 3)), "must be the larger"},
		{"classes overlap", errOf(MeanSize([]SizeClass{{1, 3, 1}, {2, 4, 1}}, 3, 2)), "class 2"},
		{"nothing counted", errOf(VolumeShares([]SizeClass{{1, 2, 0}})), "no grain"},
		{"reading above 8", errOf(Hegman(8.1).Depth()), "0 to 8"},
		{"depth below 0", errOf(HegmanOf(-1)), "0 to 101.6"},
		{"residue above the whole", errOf(SieveResidue(2, 1)), "more than the whole"},
		{"no stage", errOf(Through(nil)), "no stage"},
		{"more out than in", errOf(Through([]Stage{{"drying", 1, 2}})), "drying: 1 g became 2 g"},
	}
	for _, tt := range tests {
		if tt.err == nil || !strings.Contains(tt.err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, tt.err, tt.want)
		}
	}
}
