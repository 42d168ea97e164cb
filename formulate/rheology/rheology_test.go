package rheology_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
)

func near(a, b, relative float64) bool {
	return math.Abs(a-b) <= relative*math.Max(math.Abs(a), math.Abs(b))
}

// Every law tends to Einstein's: (ηr − 1)/φ goes to the intrinsic viscosity.
func TestEinsteinLimit(t *testing.T) {
	const phi = 1e-5
	laws := map[string]func() (quantity.Ratio, error){
		"Einstein":  func() (quantity.Ratio, error) { return rheology.Einstein(phi) },
		"Batchelor": func() (quantity.Ratio, error) { return rheology.Batchelor(phi) },
		"Brinkman":  func() (quantity.Ratio, error) { return rheology.Brinkman(phi) },
		"Mooney":    func() (quantity.Ratio, error) { return rheology.Mooney(phi, 1.4) },
		"Krieger and Dougherty": func() (quantity.Ratio, error) {
			return rheology.KriegerDougherty(phi, 0.63, 2.5)
		},
	}
	for name, law := range laws {
		v, err := law()
		if got := (float64(v) - 1) / phi; err != nil || !near(got, 2.5, 1e-3) {
			t.Errorf("%s: slope %v at the start (%v), want 2.5", name, got, err)
		}
	}
}

func TestKriegerDougherty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		phiMax := quantity.VolumeFraction(rapid.Float64Range(0.1, 0.8).Draw(t, "packing"))
		intrinsic := quantity.Ratio(rapid.Float64Range(1, 10).Draw(t, "intrinsic"))
		phi := phiMax * quantity.VolumeFraction(rapid.Float64Range(0, 0.98).Draw(t, "loading"))
		v, err := rheology.KriegerDougherty(phi, phiMax, intrinsic)
		if err != nil || v < 1 || phi == 0 && v != 1 {
			t.Fatalf("factor %v (%v)", v, err)
		}
		more, err := rheology.KriegerDougherty(phi+0.01*phiMax, phiMax, intrinsic)
		if err != nil || more <= v {
			t.Fatalf("more solids: %v after %v (%v)", more, v, err)
		}
		rougher, err := rheology.KriegerDougherty(phi, phiMax, intrinsic*1.1)
		if err != nil || rougher < v {
			t.Fatalf("rougher grains: %v after %v (%v)", rougher, v, err)
		}
		// Never thinner than what spheres at the same loading add at the start.
		if lowest := 1 + float64(intrinsic)*float64(phi); float64(v) < lowest*(1-1e-12) {
			t.Fatalf("%v, below its own start %v", v, lowest)
		}
		over := phiMax + quantity.VolumeFraction(rapid.Float64Range(0, 0.1).Draw(t, "over"))
		if _, err := rheology.KriegerDougherty(over, phiMax, intrinsic); !errors.Is(err, rheology.ErrPacked) {
			t.Fatalf("packed at %v of %v: error %v", over, phiMax, err)
		}
	})
}

func TestSuspension(t *testing.T) {
	oil := evidence.Range[quantity.Viscosity]{Low: 40, Typical: 50, High: 60}
	same, err := rheology.SuspensionRange(oil, 0, 0.5)
	if err != nil || same != oil {
		t.Errorf("no pigment changes the vehicle to %v (%v)", same, err)
	}
	r, err := rheology.SuspensionRange(oil, 0.2, 0.5)
	if err != nil || !(r.Low < r.Typical && r.Typical < r.High && r.Low > oil.Low) {
		t.Errorf("range %v (%v)", r, err)
	}
	for _, phi := range []quantity.VolumeFraction{0.451, 0.5, 0.7} {
		if _, err := rheology.SuspensionRange(oil, phi, 0.5); !errors.Is(err, rheology.ErrPacked) {
			t.Errorf("%v of 0.5: error %v, want a refusal", phi, err)
		}
	}
	if _, err := rheology.SuspensionRange(oil, 0.4499, 0.5); err != nil {
		t.Errorf("just under the cut: %v", err)
	}
	// The middle shape is what many authors find: exponent 2 at 0.57.
	middle := rheology.IntrinsicViscosity().Median
	if got := float64(middle) * 0.57; !near(got, 2, 0.02) {
		t.Errorf("exponent %v at a packing fraction of 0.57, want about 2", got)
	}
}

func TestAndradeMeetsItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := quantity.Celsius(rapid.Float64Range(0, 60).Draw(t, "cold"))
		warm := cold + quantity.Celsius(rapid.Float64Range(5, 60).Draw(t, "warmer by"))
		thick := quantity.Viscosity(rapid.Float64Range(1, 1e4).Draw(t, "thick"))
		thin := thick * quantity.Viscosity(rapid.Float64Range(0.2, 0.99).Draw(t, "thins to"))
		p, q := rheology.Point{At: cold, Viscosity: thick}, rheology.Point{At: warm, Viscosity: thin}
		law, err := rheology.AndradeThrough(p, q)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range []rheology.Point{p, q} {
			if v, err := law.At(x.At); err != nil || !near(float64(v), float64(x.Viscosity), 1e-9) {
				t.Fatalf("at %v: %v (%v), measured %v", x.At, v, err, x.Viscosity)
			}
		}
		between, err := law.At((cold + warm) / 2)
		if err != nil || !(between < thick && between > thin) || law.Extrapolates((cold+warm)/2) {
			t.Fatalf("between: %v (%v) from %v to %v", between, err, thick, thin)
		}
		if !law.Extrapolates(warm+1) || !law.Extrapolates(cold-1) {
			t.Fatal("outside its points the law does not say so")
		}
		again, err := rheology.AndradeFrom(p, law.Energy())
		if err != nil || !near(again.B, law.B, 1e-9) || !near(again.A, law.A, 1e-6) {
			t.Fatalf("from one point and the energy: %+v, want %+v (%v)", again, law, err)
		}
	})
}

func TestWaltherMeetsItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := quantity.Celsius(rapid.Float64Range(0, 40).Draw(t, "cold"))
		warm := cold + quantity.Celsius(rapid.Float64Range(5, 60).Draw(t, "warmer by"))
		thin := quantity.KinematicViscosity(rapid.Float64Range(2.1, 50).Draw(t, "thin"))
		thick := thin * quantity.KinematicViscosity(rapid.Float64Range(1.05, 20).Draw(t, "thickens by"))
		p, q := rheology.KinematicPoint{At: cold, Viscosity: thick}, rheology.KinematicPoint{At: warm, Viscosity: thin}
		law, err := rheology.WaltherThrough(q, p)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range []rheology.KinematicPoint{p, q} {
			if v, err := law.At(x.At); err != nil || !near(float64(v), float64(x.Viscosity), 1e-7) {
				t.Fatalf("at %v: %v (%v), measured %v", x.At, v, err, x.Viscosity)
			}
		}
		if law.Extrapolates(cold) || !law.Extrapolates(warm+1) {
			t.Fatal("the law does not know where it was measured")
		}
	})
}

func TestMixtures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thin := rapid.Float64Range(0.5, 10).Draw(t, "thin")
		thick := thin * rapid.Float64Range(1, 1000).Draw(t, "thicker by")
		share := rapid.Float64Range(0, 1).Draw(t, "share of the thick")
		scale := rapid.Float64Range(0.1, 1000).Draw(t, "scale of the shares")
		liquids := []rheology.Liquid{
			{Share: quantity.Parts(scale * share), Viscosity: quantity.Viscosity(thick)},
			{Share: quantity.Parts(scale * (1 - share)), Viscosity: quantity.Viscosity(thin)},
		}
		value := func(v quantity.Viscosity, err error) float64 {
			if err != nil {
				t.Fatal(err)
			}
			return float64(v)
		}
		bingham := value(rheology.Bingham(liquids))
		log := value(rheology.ArrheniusMixture(liquids))
		root := value(rheology.KendallMonroe(liquids))
		const hair = 1e-9
		// Power means stand in the order of their powers, between the liquids.
		if !(thin*(1-hair) <= bingham && bingham <= log*(1+hair) && log <= root*(1+hair) && root <= thick*(1+hair)) {
			t.Fatalf("from %v to %v: %v, %v, %v", thin, thick, bingham, log, root)
		}
		slip := value(rheology.GrunbergNissan(liquids, -0.5))
		if slip > log*(1+hair) {
			t.Fatalf("a negative interaction thickens: %v after %v", slip, log)
		}
		kin := []rheology.KinematicLiquid{
			{Share: liquids[0].Share, Viscosity: quantity.KinematicViscosity(thick)},
			{Share: liquids[1].Share, Viscosity: quantity.KinematicViscosity(thin)},
		}
		for name, rule := range map[string]func([]rheology.KinematicLiquid) (quantity.KinematicViscosity, error){
			"double log": rheology.DoubleLog, "Refutas": rheology.Refutas,
		} {
			v, err := rule(kin)
			if err != nil || float64(v) < thin*(1-1e-6) || float64(v) > thick*(1+1e-6) {
				t.Fatalf("%s: %v (%v), from %v to %v", name, v, err, thin, thick)
			}
		}
		r, err := rheology.VehicleRange(liquids)
		if err != nil || !(float64(r.Low) <= log*(1+hair) && near(float64(r.Typical), log, hair) && float64(r.High) >= log*(1-hair)) {
			t.Fatalf("vehicle %v (%v), log mean %v", r, err, log)
		}
	})
}

func TestVehicleRange(t *testing.T) {
	alone, err := rheology.VehicleRange([]rheology.Liquid{{Share: 3, Viscosity: 50}})
	if err != nil || !near(float64(alone.Low), 50, 1e-12) || !near(float64(alone.High), 50, 1e-12) {
		t.Errorf("one liquid alone has the range %v (%v)", alone, err)
	}
	half, err := rheology.VehicleRange([]rheology.Liquid{{Share: 1, Viscosity: 50}, {Share: 1, Viscosity: 1.5}})
	if err != nil || !near(float64(half.High/half.Typical), math.Exp(0.2), 1e-9) || !near(float64(half.Typical/half.Low), math.Exp(0.2), 1e-9) {
		t.Errorf("half and half: %v (%v), want a fifth up or down", half, err)
	}
	if got := rheology.Interaction(0); got != 0 {
		t.Errorf("interaction %v in the middle", got)
	}
}

func TestWaterAndSolutions(t *testing.T) {
	last := quantity.Viscosity(math.Inf(1))
	for x := rheology.WaterFreezes; x <= rheology.WaterBoils; x++ {
		v, err := rheology.WaterViscosity(x)
		if err != nil || v >= last {
			t.Fatalf("water at %v: %v after %v (%v)", x, v, last, err)
		}
		last = v
	}
	rapid.Check(t, func(t *rapid.T) {
		share := quantity.MassFraction(rapid.Float64Range(0, 0.99).Draw(t, "share"))
		temp := quantity.Celsius(rapid.Float64Range(20, 30).Draw(t, "temperature"))
		thin, err := rheology.GlycerineViscosity(share, temp)
		if err != nil {
			t.Fatal(err)
		}
		if thick, err := rheology.GlycerineViscosity(share+0.01, temp); err != nil || thick <= thin {
			t.Fatalf("more glycerine: %v after %v (%v)", thick, thin, err)
		}
		light, err := rheology.GlycerineDensity(share, temp)
		if err != nil {
			t.Fatal(err)
		}
		if heavy, err := rheology.GlycerineDensity(share+0.01, temp); err != nil || heavy <= light {
			t.Fatalf("more glycerine: %v after %v (%v)", heavy, light, err)
		}
		gum := share / 2
		runny, err := rheology.GumArabic(gum, temp)
		if err != nil {
			t.Fatal(err)
		}
		if stiff, err := rheology.GumArabic(gum+0.005, temp); err != nil || stiff <= runny {
			t.Fatalf("more gum: %v after %v (%v)", stiff, runny, err)
		}
		if warm, err := rheology.GumArabic(gum, temp+1); err != nil || warm >= runny {
			t.Fatalf("warmer gum: %v after %v (%v)", warm, runny, err)
		}
	})
	// Without gum or glycerine there is water.
	water, _ := rheology.WaterViscosity(25)
	if v, _ := rheology.GumArabic(0, 25); !near(float64(v), float64(water), 1e-4) {
		t.Errorf("no gum: %v, water %v", v, water)
	}
	if v, _ := rheology.GlycerineViscosity(0, 25); !near(float64(v), float64(water), 0.01) {
		t.Errorf("no glycerine: %v, water %v", v, water)
	}
}

func TestGumGradeHoldsItsSources(t *testing.T) {
	r := rheology.GumGrade().Range()
	if !(r.Low < 0.4 && r.Typical > 0.4 && r.Typical < 1 && r.High > 1) {
		t.Errorf("grade %v: want the thin gums of 1891 and the table inside or near the range", r)
	}
}

func TestConversionsRoundTrip(t *testing.T) {
	if got := rheology.Dynamic(rheology.Kinematic(48, 0.93), 0.93); !near(float64(got), 48, 1e-12) {
		t.Errorf("48 mPa·s comes back as %v", got)
	}
}

func TestRefused(t *testing.T) {
	p := rheology.Point{At: 20, Viscosity: 50}
	k := rheology.KinematicPoint{At: 20, Viscosity: 50}
	nan := quantity.VolumeFraction(math.NaN())
	for _, c := range []struct {
		name string
		err  error
		says string
	}{
		{"NaN solids", second(rheology.Einstein(nan)), "NaN %"},
		{"negative solids", second(rheology.Brinkman(-0.1)), "-10 %"},
		{"all solids", second(rheology.Batchelor(1)), "below 100 %"},
		{"crowded", second(rheology.Mooney(0.7, 1.5)), "pack at 66.7 %"},
		{"packed", second(rheology.KriegerDougherty(0.6, 0.55, 2.5)), "fill 60.0 % of the volume and pack at 55.0 %"},
		{"no packing fraction", second(rheology.KriegerDougherty(0.1, 0, 2.5)), "packing fraction is 0 %"},
		{"no vehicle", second(rheology.Suspension(0, 0.1, 0.5, 2.5)), "viscosity is 0"},
		{"one temperature", second(rheology.AndradeThrough(p, rheology.Point{At: 20, Viscosity: 40})), "want two temperatures"},
		{"thickens as it warms", second(rheology.AndradeThrough(p, rheology.Point{At: 30, Viscosity: 60})), "thins as it warms"},
		{"no energy", second(rheology.AndradeFrom(p, 0)), "activation energy is 0"},
		{"thin for Walther", second(rheology.WaltherThrough(k, rheology.KinematicPoint{At: 60, Viscosity: 1.2})), "2 mm²/s and more"},
		{"nothing to mix", second(rheology.Vehicle(nil, 0)), "mixture is empty"},
		{"negative share", second(rheology.Bingham([]rheology.Liquid{{Share: -1, Viscosity: 2}})), "share is -1"},
		{"boiling water", second(rheology.WaterViscosity(101)), "from 0 to 100 °C"},
		{"too much glycerine", second(rheology.GlycerineViscosity(1.1, 20)), "110 %"},
		{"cold glycerine's density", second(rheology.GlycerineDensity(0.5, 10)), "from 20 to 30 °C"},
		{"too much gum", second(rheology.GumArabic(0.6, 25)), "from 0 to 50 %"},
		{"cold gum", second(rheology.GumArabic(0.2, 5)), "from 15 to 50 °C"},
		{"too thin to number", second(rheology.BlendingNumber(0.1)), "more than 0.2"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.says) {
			t.Errorf("%s: error %v, want one that says %q", c.name, c.err, c.says)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestAllocations(t *testing.T) {
	liquids := []rheology.Liquid{{Share: 7, Viscosity: 50}, {Share: 3, Viscosity: 1.5}}
	p, q := rheology.Point{At: 20, Viscosity: 50}, rheology.Point{At: 50, Viscosity: 20}
	rheology.GumGrade()
	if n := testing.AllocsPerRun(100, func() {
		v, _ := rheology.VehicleRange(liquids)
		_, _ = rheology.SuspensionRange(v, 0.2, 0.5)
		law, _ := rheology.AndradeThrough(p, q)
		_, _ = law.At(30)
		_, _ = rheology.GlycerineViscosity(0.3, 20)
		_, _ = rheology.GumArabic(0.15, 20)
		_ = rheology.GumGrade()
	}); n != 0 {
		t.Errorf("%v allocations, want none", n)
	}
}
