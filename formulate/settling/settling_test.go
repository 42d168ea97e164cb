package settling_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/quantity"
	"mullwright/formulate/settling"
)

func near(a, b, relative float64) bool {
	return math.Abs(a-b) <= relative*math.Max(math.Abs(a), math.Abs(b))
}

var water = settling.Liquid{Density: 0.9982, Viscosity: 1.0016}

func drawGrain(t *rapid.T, low, high float64) settling.Grain {
	return settling.Grain{
		Size:    quantity.ParticleSize(math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, "log size"))),
		Density: quantity.Density(rapid.Float64Range(1.2, 9).Draw(t, "grain density")),
	}
}

func drawLiquid(t *rapid.T) settling.Liquid {
	return settling.Liquid{
		Density:   quantity.Density(rapid.Float64Range(0.7, 1.1).Draw(t, "liquid density")),
		Viscosity: quantity.Viscosity(rapid.Float64Range(0.5, 500).Draw(t, "viscosity")),
	}
}

// Fine grains fall by Stokes' law, and no grain falls faster than it says.
func TestTerminalMeetsStokes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, l := drawGrain(t, 0.01, 2000), drawLiquid(t)
		law, err := settling.Stokes(g, l)
		if err != nil {
			t.Fatal(err)
		}
		f, err := settling.Terminal(g, l)
		if err != nil {
			t.Fatal(err)
		}
		if f.Speed > law*(1+1e-9) {
			t.Fatalf("%+v in %+v falls at %v, Stokes' law says %v", g, l, f.Speed, law)
		}
		if f.Reynolds < 1e-3 && !near(float64(f.Speed), float64(law), 1e-3) {
			t.Fatalf("slow grain %+v: %v, Stokes' law says %v", g, f.Speed, law)
		}
		if f.Creeping() && !near(float64(f.Speed), float64(law), 0.05) {
			t.Fatalf("Re %v: %v is more than 5 %% off Stokes' %v", f.Reynolds, f.Speed, law)
		}
	})
}

// The solution obeys the balance it was solved from.
func TestTerminalBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, l := drawGrain(t, 0.01, 2000), drawLiquid(t)
		f, err := settling.TerminalIn(settling.Gravity, g, l, settling.HaiderLevenspiel)
		if err != nil {
			t.Fatal(err)
		}
		want := math.Sqrt(4 * quantity.StandardGravity * float64(g.Size) * 1e-6 * float64(g.Density-l.Density) / (3 * float64(f.Drag) * float64(l.Density)))
		if !near(float64(f.Speed), want, 1e-9) {
			t.Fatalf("speed %v, balance gives %v", f.Speed, want)
		}
		if re := settling.Reynolds(g.Size, f.Speed, l); !near(float64(re), float64(f.Reynolds), 1e-9) {
			t.Fatalf("Re %v, of the speed %v", f.Reynolds, re)
		}
	})
}

// Larger and denser grains fall faster, thicker liquids slow them.
func TestTerminalIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, l := drawGrain(t, 0.01, 1000), drawLiquid(t)
		f, _ := settling.Terminal(g, l)
		step := rapid.Float64Range(1.05, 3).Draw(t, "step")
		larger, denser, thicker := g, g, l
		larger.Size *= quantity.ParticleSize(step)
		denser.Density *= quantity.Density(step)
		thicker.Viscosity *= quantity.Viscosity(step)
		if o, err := settling.Terminal(larger, l); err != nil || o.Speed <= f.Speed {
			t.Fatalf("%v times larger falls at %v, not faster than %v (%v)", step, o.Speed, f.Speed, err)
		}
		if o, err := settling.Terminal(denser, l); err != nil || o.Speed <= f.Speed {
			t.Fatalf("%v times denser falls at %v, not faster than %v (%v)", step, o.Speed, f.Speed, err)
		}
		if o, err := settling.Terminal(g, thicker); err != nil || o.Speed >= f.Speed {
			t.Fatalf("in a liquid %v times thicker falls at %v, not slower than %v (%v)", step, o.Speed, f.Speed, err)
		}
	})
}

func TestSizeAtInvertsTerminal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, l := drawGrain(t, 0.05, 1000), drawLiquid(t)
		f, err := settling.Terminal(g, l)
		if err != nil {
			t.Fatal(err)
		}
		d, err := settling.SizeAt(f.Speed, g.Density, l)
		// The pieces of the drag curve meet within 1 %.
		if err != nil || !near(float64(d), float64(g.Size), 0.01) {
			t.Fatalf("%v µm falls at %v, size at that speed %v (%v)", g.Size, f.Speed, d, err)
		}
	})
}

func TestCutTimeInvertsCutSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, l := drawGrain(t, 0.5, 200), drawLiquid(t)
		depth := quantity.Length(rapid.Float64Range(1, 50).Draw(t, "depth"))
		wait, err := settling.CutTime(depth, g, l)
		if err != nil {
			t.Fatal(err)
		}
		d, err := settling.CutSize(depth, wait, g.Density, l)
		if err != nil || !near(float64(d), float64(g.Size), 0.01) {
			t.Fatalf("waiting %v s cuts at %v µm, want %v (%v)", wait, d, g.Size, err)
		}
		// By then none of the cut size is left above, and finer grains are.
		up, err := settling.Upflow(g, l)
		if err != nil {
			t.Fatal(err)
		}
		gone, _ := settling.DecantedShare(up, wait, depth)
		half, _ := settling.DecantedShare(up/2, wait, depth)
		if gone > 1e-9 || !near(float64(half), 0.5, 1e-9) {
			t.Fatalf("poured off %v of the cut size, %v of grains half as fast", gone, half)
		}
	})
}

func TestHindered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := quantity.Speed(rapid.Float64Range(1e-9, 1).Draw(t, "speed"))
		phi := quantity.VolumeFraction(rapid.Float64Range(0, 0.6).Draw(t, "solids"))
		n, err := settling.Index(quantity.Ratio(rapid.Float64Range(0, 1000).Draw(t, "Re")))
		if err != nil {
			t.Fatal(err)
		}
		if n < settling.FastestIndex-1e-12 || n > settling.SlowestIndex {
			t.Fatalf("index %v", n)
		}
		cloud, err := settling.Hindered(v, phi, n)
		if err != nil || cloud > v || phi == 0 && cloud != v {
			t.Fatalf("%v at %v solids falls at %v (%v)", v, phi, cloud, err)
		}
		back, err := settling.Unhindered(cloud, phi, n)
		if err != nil || !near(float64(back), float64(v), 1e-12) {
			t.Fatalf("single grain %v, want %v (%v)", back, v, err)
		}
	})
}

func TestIndexJoinsItsEnds(t *testing.T) {
	last := quantity.Ratio(math.Inf(1))
	for re := quantity.Ratio(0.01); re < 2000; re *= 1.1 {
		n, err := settling.Index(re)
		if err != nil {
			t.Fatal(err)
		}
		if n > last+1e-12 || float64(last-n) > 0.05 && last < 10 {
			t.Fatalf("Re %v: index %v after %v", re, n, last)
		}
		last = n
	}
}

// The fronts meet when all solids are in the sediment.
func TestFrontsMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := quantity.Length(rapid.Float64Range(1, 100).Draw(t, "height"))
		v := quantity.Speed(rapid.Float64Range(1e-8, 1e-2).Draw(t, "cloud"))
		phi := quantity.VolumeFraction(rapid.Float64Range(0.001, 0.4).Draw(t, "solids"))
		sediment := phi + quantity.VolumeFraction(rapid.Float64Range(0.05, 0.5).Draw(t, "more"))
		clear, err := settling.ClearingTime(h, v, phi, sediment)
		if err != nil {
			t.Fatal(err)
		}
		rise, err := settling.SedimentFront(v, phi, sediment)
		if err != nil {
			t.Fatal(err)
		}
		left, _ := settling.SedimentHeight(h, phi, sediment)
		if fromBelow := float64(rise) * float64(clear) * 100; !near(fromBelow, float64(left), 1e-9) {
			t.Fatalf("sediment risen to %v cm, %v cm holds the solids", fromBelow, left)
		}
	})
}

// Through its own gravitational height a grain is just kept up.
func TestBrownianLimitInvertsHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := quantity.Length(rapid.Float64Range(0.01, 100).Draw(t, "height"))
		rho := quantity.Density(rapid.Float64Range(1.2, 9).Draw(t, "density"))
		d, err := settling.BrownianLimit(h, rho, 1, 20)
		if err != nil {
			t.Fatal(err)
		}
		back, err := settling.GravitationalHeight(settling.Grain{Size: d, Density: rho}, 1, 20)
		if err != nil || !near(float64(back), float64(h), 1e-9) {
			t.Fatalf("%v µm keeps up through %v cm, want %v (%v)", d, back, h, err)
		}
	})
}

func TestCentrifugeScalesWithField(t *testing.T) {
	g := settling.Grain{Size: 0.5, Density: 2.65}
	slow, err := settling.CentrifugeTime(8, 15, 1000, g, water)
	if err != nil {
		t.Fatal(err)
	}
	fast, _ := settling.CentrifugeTime(8, 15, 2000, g, water)
	if !near(float64(slow), 4*float64(fast), 1e-12) {
		t.Errorf("twice the speed takes %v s instead of a quarter of %v s", fast, slow)
	}
	n, _ := settling.TurningFor(500, 12)
	if got := settling.CentrifugalForce(n, 12); !near(float64(got), 500, 1e-12) {
		t.Errorf("field %v, want 500", got)
	}
}

func TestLightGrainsRise(t *testing.T) {
	light := settling.Grain{Size: 50, Density: 0.5}
	f, err := settling.Terminal(light, water)
	if err != nil || f.Speed >= 0 {
		t.Errorf("speed %v (%v), want negative", f.Speed, err)
	}
	if f, err := settling.Terminal(settling.Grain{Size: 50, Density: water.Density}, water); err != nil || f.Speed != 0 {
		t.Errorf("a grain as dense as water moves at %v (%v)", f.Speed, err)
	}
}

func TestSieves(t *testing.T) {
	all := settling.Sieves()
	for i, s := range all {
		if i > 0 && (s.Opening <= all[i-1].Opening || s.Number >= all[i-1].Number) {
			t.Errorf("no. %d is out of order", s.Number)
		}
		for name, find := range map[string]func(quantity.ParticleSize) (settling.Sieve, error){
			"nearest": settling.NearestSieve, "holding": settling.SieveHolding,
		} {
			if got, err := find(s.Opening); err != nil || got != s {
				t.Errorf("%s to %v µm is no. %d (%v), want no. %d", name, s.Opening, got.Number, err, s.Number)
			}
		}
	}
	for _, size := range settling.PrincipalSizes() {
		if s, err := settling.NearestSieve(size); err != nil || s.Opening != size {
			t.Errorf("principal size %v µm is no ASTM opening: nearest %v (%v)", size, s.Opening, err)
		}
	}
	if s, _ := settling.SieveHolding(100); s.Opening != 90 {
		t.Errorf("100 µm is held by %v µm, want 90", s.Opening)
	}
}

func TestRefused(t *testing.T) {
	g := settling.Grain{Size: 5, Density: 4}
	nan := quantity.ParticleSize(math.NaN())
	for _, c := range []struct {
		name string
		err  error
		says string
	}{
		{"no size", second(settling.Stokes(settling.Grain{Density: 4}, water)), "grain size is 0 µm"},
		{"NaN size", second(settling.Terminal(settling.Grain{Size: nan, Density: 4}, water)), "grain size is NaN"},
		{"no viscosity", second(settling.Terminal(g, settling.Liquid{Density: 1})), "viscosity is 0"},
		{"boulder", second(settling.Terminal(settling.Grain{Size: 1e5, Density: 9}, water)), "beyond 200000"},
		{"floats", second(settling.CutTime(10, settling.Grain{Size: 5, Density: 0.9}, water)), "does not sink"},
		{"no field", second(settling.TerminalIn(0, g, water, settling.Clift)), "field is 0"},
		{"no height", second(settling.FallTime(0, 1)), "height is 0 cm"},
		{"stands still", second(settling.FallTime(1, 0)), "speed of fall is 0"},
		{"packed full", second(settling.Hindered(1, 1, 4.65)), "below 100 %"},
		{"loose sediment", second(settling.SedimentFront(1, 0.3, 0.2)), "sediment denser"},
		{"radii", second(settling.CentrifugeTime(10, 8, 1000, g, water)), "outer larger"},
		{"absolute zero", second(settling.BrownianDisplacement(1, 1, -300, 1)), "temperature"},
		{"number 42", second(settling.SieveByNumber(42)), "no. 42 is not"},
		{"too fine to sieve", second(settling.NearestSieve(5)), "18 to 5200 µm"},
		{"too fine to hold", second(settling.SieveHolding(5)), "settle them out"},
		{"share", second(settling.StaysBehind(1.5, 2)), "150 %"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.says) {
			t.Errorf("%s: error %v, want one that says %q", c.name, c.err, c.says)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestAllocations(t *testing.T) {
	g := settling.Grain{Size: 40, Density: 4}
	if n := testing.AllocsPerRun(100, func() {
		f, _ := settling.Terminal(g, water)
		_, _ = settling.SizeAt(f.Speed, g.Density, water)
		v, _ := settling.Hindered(f.Speed, 0.1, 4.65)
		_, _ = settling.ClearingTime(10, v, 0.1, 0.4)
		_, _ = settling.BrownianLimit(10, 4, 1, 20)
		_, _ = settling.NearestSieve(g.Size)
	}); n != 0 {
		t.Errorf("%v allocations, want none", n)
	}
}

func BenchmarkTerminal(b *testing.B) {
	g := settling.Grain{Size: 40, Density: 4}
	for b.Loop() {
		_, _ = settling.Terminal(g, water)
	}
}
