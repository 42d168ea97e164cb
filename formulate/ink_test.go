package formulate

import (
	"math"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/settling"

	"pgregory.net/rapid"
)

func inkRequest(t interface{ Fatal(...any) }, use InkUse) InkRequest {
	b := newBench(t)
	tool, err := ToolFor(use)
	if err != nil {
		t.Fatal(err)
	}
	return InkRequest{
		Tool: tool, Pigments: []Share{{ready(t, powder("blue", 2.34, 38)), 1}}, Solution: b.solution(t, 2),
		Humectants: []GumHumectant{{NewLiquidPart(b.glycerine, 1, nil), 0.2}}, Additives: []GumAdditive{{b.one(t, b.phenoxy), 0.005}},
		Binding: Binding{Rule: BinderByDemand}, Wetness: Wetness{Pigment: 0.06}, Amount: Amount{Kind: ByTubes, Volume: 30, Tubes: 1, Fill: 0.9},
		Scale: 0.01, Temperature: 20, Grain: evidence.Distribution[quantity.ParticleSize]{Median: 2, Sigma: 0.3},
		Height: 3, Slit: tool.Slit, Width: tool.Width, WetFilm: tool.WetFilm, Sampling: Sampling{Draws: 256},
	}
}

func ink(t *testing.T, req InkRequest) *InkResult {
	t.Helper()
	r, err := Ink(req)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The ink fills the bottle at the pigment's share, by volume or by mass, and what
// is weighed is what it holds.
func TestInkComposition(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		req := inkRequest(r, DipPen)
		req.Sampling.Exact, req.Scale = true, 0
		byMass := rapid.Bool().Draw(r, "by mass")
		share := rapid.Float64Range(0.02, 0.1).Draw(r, "share")
		if byMass {
			req.Wetness = Wetness{ByMass: quantity.MassFraction(share)}
		} else {
			req.Wetness = Wetness{Pigment: quantity.VolumeFraction(share)}
		}
		if rapid.Bool().Draw(r, "undiluted") {
			req.Binding.Rule = BinderUndiluted
		}
		res, err := Ink(req)
		if err != nil {
			r.Fatal(err)
		}
		f := res.Paint.Figures()
		got := float64(f.WetPigment())
		if byMass {
			got = float64(f.PigmentMass / f.Mass)
		}
		if !closeTo(got, share, 1e-9) {
			r.Errorf("pigment is %g of the ink, asked %g", got, share)
		}
		if !closeTo(float64(res.Yield.Volume.Typical), 27, 1e-9) {
			r.Errorf("%g ml of ink for a bottle of 30 filled to 90 %%", float64(res.Yield.Volume.Typical))
		}
		weighed := res.Pigments[0].OnScale + res.Solution.Mass.Typical + res.Water.Typical
		for _, w := range append(append([]GumWeigh(nil), res.Humectants...), res.Additives...) {
			weighed += w.Mass.Typical
		}
		if !closeTo(float64(weighed), float64(f.Mass), 1e-9) {
			r.Errorf("%g g weighed, the ink weighs %g", float64(weighed), float64(f.Mass))
		}
	})
}

// The fall in the bottle is Stokes' law slowed by the crowd, from the size after
// mulling, and a finer grain stays up longer as the square of its size.
func TestInkSettles(t *testing.T) {
	req := inkRequest(t, DipPen)
	req.Sampling.Exact = true
	r := ink(t, req)
	s := r.Settling[0]
	f := r.Paint.Figures()
	vehicle := quantity.Density(float64(f.Mass-f.PigmentMass) / float64(f.Volume-f.PigmentVolume))
	v, err := settling.Stokes(settling.Grain{Size: 2, Density: 2.34}, settling.Liquid{Density: vehicle, Viscosity: r.Vehicle.Typical})
	if err != nil {
		t.Fatal(err)
	}
	slow := math.Pow(1-float64(f.WetPigment()), float64(settling.SlowestIndex))
	if want := 0.03 / (float64(v) * slow); !closeTo(float64(s.Clear.Typical), want, 1e-3) {
		t.Errorf("3 cm clear in %g s, Stokes with hindrance says %g", float64(s.Clear.Typical), want)
	}
	if !closeTo(float64(s.Shake.Typical), topShare*float64(s.Clear.Typical), 1e-12) {
		t.Errorf("shake after %g s of %g", float64(s.Shake.Typical), float64(s.Clear.Typical))
	}
	req.Grain.Median = 1
	if ratio := ink(t, req).Settling[0].Clear.Typical / s.Clear.Typical; !closeTo(float64(ratio), 4, 1e-3) {
		t.Errorf("half the size stays up %g times as long, want 4", float64(ratio))
	}
	req.Grain.Median, req.Height = 2, 6
	if ratio := ink(t, req).Settling[0].Clear.Typical / s.Clear.Typical; !closeTo(float64(ratio), 2, 1e-9) {
		t.Errorf("twice the height clears in %g times the time, want 2", float64(ratio))
	}
	if s.Brownian <= 0 || s.Brownian > 0.1 {
		t.Errorf("kept up by heat below %g µm", float64(s.Brownian))
	}
}

// A pigment as light as its vehicle stays where it is and says so.
func TestInkThatDoesNotSettle(t *testing.T) {
	req := inkRequest(t, DipPen)
	req.Sampling.Exact = true
	req.Pigments[0].Ingredient = ready(t, powder("wood", 0.9, 60))
	if s := ink(t, req).Settling[0]; s.Clear.Typical != 0 {
		t.Errorf("a powder of 0.9 g/ml clears in %g s", float64(s.Clear.Typical))
	}
}

// A metre of line and a square metre hold the pigment of the film on them.
func TestInkOnPaper(t *testing.T) {
	req := inkRequest(t, DipPen)
	req.Sampling.Exact = true
	req.Width, req.WetFilm, req.Scale = 0.05, 25, 0
	r := ink(t, req)
	f := r.Paint.Figures()
	grams := float64(f.PigmentMass/f.Mass) * float64(f.Density()) // per ml of ink
	if got, want := float64(r.Film.PerArea.Typical), grams*25; !closeTo(got, want, 1e-9) {
		t.Errorf("%g g of pigment on a square metre, want %g", got, want)
	}
	// 0.5 mm wide and 25 µm thick: 0.0125 ml a metre.
	if got, want := float64(r.Film.PerMetre.Typical), grams*0.0125; !closeTo(got, want, 1e-9) {
		t.Errorf("%g g of pigment in a metre, want %g", got, want)
	}
	if got, want := float64(r.Film.Metres.Typical), 27/0.0125; !closeTo(got, want, 1e-9) {
		t.Errorf("%g m of line, want %g", got, want)
	}
}

// A pigment ink is said not to belong in a fountain pen, and nowhere else.
func TestFountainPen(t *testing.T) {
	if r := ink(t, inkRequest(t, Fountain)); !contains(r.Against, "does not belong in a fountain pen") {
		t.Errorf("said of a fountain pen: %q", r.Against)
	}
	for _, use := range []InkUse{DipPen, BrushInk} {
		if r := ink(t, inkRequest(t, use)); len(r.Against) > 0 {
			t.Errorf("said against %s: %q", use, r.Against)
		}
	}
	if _, err := ToolFor("biro"); err == nil {
		t.Error(`use "biro" is accepted`)
	}
}

// Coarser grains clog a slit more; a seventh of it passes.
func TestNib(t *testing.T) {
	req := inkRequest(t, DipPen)
	req.Slit = 70
	n := ink(t, req).Nib
	if !closeTo(float64(n.Largest), 10, 1e-9) {
		t.Errorf("a slit of 70 µm passes %g µm", float64(n.Largest))
	}
	req.Grain.Median = 10
	if got := ink(t, req).Nib.Clogs; !closeTo(float64(got), 0.5, 1e-9) {
		t.Errorf("half the grains of median 10 µm are coarser than 10 µm; said %g", float64(got))
	}
	req.Slit = 0
	if n := ink(t, req).Nib; n != nil {
		t.Errorf("a brush has a slit of %g µm", float64(n.Slit))
	}
}

// An ink in oil is the mull's own paste.
func TestInkInOil(t *testing.T) {
	m := request(t)
	tool, _ := ToolFor(ReliefPrint)
	r := ink(t, InkRequest{Tool: tool, Oil: &m, WetFilm: tool.WetFilm})
	own, err := Mull(m)
	if err != nil {
		t.Fatal(err)
	}
	if r.Oil.Pours.First != own.Pours.First || r.Oil.Yield != own.Yield {
		t.Errorf("ink %+v, mull %+v", r.Oil.Yield, own.Yield)
	}
	if r.Film.PerArea.Typical <= 0 || len(r.Against) > 0 {
		t.Errorf("%+v", r.Film)
	}
}

func TestInkRefuses(t *testing.T) {
	b := newBench(t)
	for _, c := range []struct {
		name string
		with func(*InkRequest)
	}{
		{"no pigment", func(r *InkRequest) { r.Pigments = nil }},
		{"no binder", func(r *InkRequest) { r.Solution = b.one(t, b.water) }},
		{"grain not a number", func(r *InkRequest) { r.Grain.Median = quantity.ParticleSize(math.NaN()) }},
		{"no height", func(r *InkRequest) { r.Height = 0 }},
		{"film not a number", func(r *InkRequest) { r.WetFilm = quantity.Thickness(math.NaN()) }},
		{"all pigment", func(r *InkRequest) { r.Wetness.Pigment = 0.9 }},
		{"no pigment share", func(r *InkRequest) { r.Wetness.Pigment = 0 }},
		{"a spoon recipe", func(r *InkRequest) {
			r.Binding = Binding{Rule: BinderByMeasure, Powder: 1, Binder: 1, Bulk: make([]Bulk, 1)}
		}},
		{"no amount", func(r *InkRequest) { r.Amount = Amount{} }},
		{"wet cake in an undiluted ink", func(r *InkRequest) {
			r.Binding.Rule, r.Wetness, r.Moisture = BinderUndiluted, Wetness{Pigment: 0.3}, 0.7
		}},
		{"binder wetter than the ink", func(r *InkRequest) { r.Solution, r.Wetness = b.solution(t, 50), Wetness{Pigment: 0.2} }},
	} {
		req := inkRequest(t, DipPen)
		c.with(&req)
		if _, err := Ink(req); err == nil {
			t.Errorf("%s: accepted", c.name)
		}
	}
}

func settleRequest(t interface{ Fatal(...any) }) SettleRequest {
	in := ready(t, powder("earth", 2.65, 30))
	return SettleRequest{Name: "earth", Material: in.Material, Density: in.Density, Cut: 20, Depth: 10, Powder: 0.01, Washes: 3, Temperature: 20, Sampling: Sampling{Draws: 256}}
}

// The time of a cut and the cut of that time are each other's inverse, and the
// clay time comes out: 2 µm of 2.65 g/ml fall 10 cm in 7 h 44 min.
func TestSettleReturns(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		req := settleRequest(r)
		req.Sampling.Exact = true
		req.Cut = quantity.ParticleSize(rapid.Float64Range(1, 200).Draw(r, "cut"))
		req.Depth = quantity.Length(rapid.Float64Range(1, 50).Draw(r, "depth"))
		req.Powder = quantity.MassFraction(rapid.Float64Range(0.001, 0.3).Draw(r, "powder"))
		a, err := Settle(req)
		if err != nil {
			r.Fatal(err)
		}
		cut := req.Cut
		req.Cut, req.Time = 0, a.Time.Typical
		b, err := Settle(req)
		if err != nil {
			r.Fatal(err)
		}
		if !closeTo(float64(b.Size.Typical), float64(cut), 1e-6) {
			r.Errorf("%g µm take %g s, which cut at %g µm", float64(cut), float64(a.Time.Typical), float64(b.Size.Typical))
		}
	})
	req := settleRequest(t)
	req.Sampling.Exact, req.Cut, req.Powder = true, 2, 1e-6
	r, err := Settle(req)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(r.Time.Typical); math.Abs(got-27836) > 60 {
		t.Errorf("2 µm of 2.65 g/ml fall 10 cm of water in %g s, the clay time is 27836 s", got)
	}
}

// More powder, colder water and a deeper jar all take longer; the table falls
// with size.
func TestSettleMoves(t *testing.T) {
	base := settleRequest(t)
	base.Sampling.Exact = true
	time := func(with func(*SettleRequest)) float64 {
		req := base
		with(&req)
		r, err := Settle(req)
		if err != nil {
			t.Fatal(err)
		}
		return float64(r.Time.Typical)
	}
	plain := time(func(*SettleRequest) {})
	for name, with := range map[string]func(*SettleRequest){
		"more powder": func(r *SettleRequest) { r.Powder = 0.2 }, "colder": func(r *SettleRequest) { r.Temperature = 5 }, "deeper": func(r *SettleRequest) { r.Depth = 20 },
	} {
		if got := time(with); got <= plain {
			t.Errorf("%s: %g s, plain %g s", name, got, plain)
		}
	}
	r, err := Settle(base)
	if err != nil {
		t.Fatal(err)
	}
	for i := 1; i < len(r.Table); i++ {
		if r.Table[i].Time.Typical <= r.Table[i-1].Time.Typical {
			t.Errorf("%g µm fall faster than %g µm", float64(r.Table[i].Size), float64(r.Table[i-1].Size))
		}
	}
	for _, w := range r.Washes {
		if !closeTo(float64(w.Left), math.Pow(1-float64(w.Poured), 3), 1e-9) {
			t.Errorf("%g µm: %g poured each time, %g left after three", float64(w.Size), float64(w.Poured), float64(w.Left))
		}
	}
}

func TestSettleRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		with func(*SettleRequest)
	}{
		{"no density", func(r *SettleRequest) { r.Density = evidence.Distribution[quantity.Density]{} }},
		{"floats", func(r *SettleRequest) { r.Density.Median = 0.8 }},
		{"both", func(r *SettleRequest) { r.Time = 10 }},
		{"no depth", func(r *SettleRequest) { r.Depth = 0 }},
		{"depth not a number", func(r *SettleRequest) { r.Depth = quantity.Length(math.NaN()) }},
		{"all powder", func(r *SettleRequest) { r.Powder = 1 }},
		{"no wash", func(r *SettleRequest) { r.Washes = 0 }},
		{"ice", func(r *SettleRequest) { r.Temperature = -5 }},
		{"negative cut", func(r *SettleRequest) { r.Cut = -1 }},
	} {
		req := settleRequest(t)
		c.with(&req)
		if _, err := Settle(req); err == nil {
			t.Errorf("%s: accepted", c.name)
		}
	}
}

// A stock makes the amount asked, by mass or by volume, in its proportions.
func TestSolution(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := newBench(r)
		water := rapid.Float64Range(0.5, 20).Draw(r, "water")
		req := SolutionRequest{Solution: b.solution(r, water), Temperature: 25, Amount: Amount{Kind: ByPaintVolume, Volume: quantity.Volume(rapid.Float64Range(1, 2000).Draw(r, "ml"))}}
		ratio := rapid.Float64Range(0, 2).Draw(r, "humectant")
		if ratio > 0 {
			req.Humectants = []GumHumectant{{NewLiquidPart(b.glycerine, 1, nil), quantity.Ratio(ratio)}}
		}
		req.Additives = []GumAdditive{{b.one(r, b.phenoxy), 0.005}}
		res, err := Solution(req)
		if err != nil {
			r.Fatal(err)
		}
		var sum quantity.Mass
		by := map[string]float64{}
		for _, p := range res.Parts {
			sum += p.Mass
			by[p.Material.ID] = float64(p.Mass)
		}
		if !closeTo(float64(sum), float64(res.Mass), 1e-9) || !closeTo(float64(res.Volume), float64(req.Amount.Volume), 1e-9) {
			r.Errorf("%g g of parts, %g g and %g ml in all, asked %g ml", float64(sum), float64(res.Mass), float64(res.Volume), float64(req.Amount.Volume))
		}
		if !closeTo(by["water"]/by["gum-arabic"], water, 1e-9) || !closeTo(by["glycerine"]/by["gum-arabic"], ratio, 1e-9) {
			r.Errorf("water %g and glycerine %g of the gum, asked %g and %g", by["water"]/by["gum-arabic"], by["glycerine"]/by["gum-arabic"], water, ratio)
		}
		if !closeTo(by["phenoxyethanol"], 0.005*float64(res.Mass), 1e-9) {
			r.Errorf("preservative %g g of %g", by["phenoxyethanol"], float64(res.Mass))
		}
	})
}

// Gum water thickens with its strength; what no table holds is said, not guessed.
func TestSolutionViscosity(t *testing.T) {
	b := newBench(t)
	last := quantity.Viscosity(0)
	for _, water := range []float64{19, 9, 4, 2, 1} {
		res, err := Solution(SolutionRequest{Solution: b.solution(t, water), Temperature: 25, Amount: Amount{Kind: ByPaintMass, Mass: 100}})
		if err != nil {
			t.Fatal(err)
		}
		if res.Viscosity == nil || res.Viscosity.Typical <= last {
			t.Errorf("1 : %g is %v mPa·s after %g (%s)", water, res.Viscosity, float64(last), res.WhyNot)
			continue
		}
		last = res.Viscosity.Typical
	}
	shellac := pouredAs(t, liquid("shellac-water", material.Medium, 1), NewLiquidPart(pourable(t, "shellac", material.Resin, 1.18, 0), 1, nil), NewLiquidPart(b.water, 4, nil))
	res, err := Solution(SolutionRequest{Solution: shellac, Temperature: 25, Amount: Amount{Kind: ByPaintMass, Mass: 100}})
	if err != nil {
		t.Fatal(err)
	}
	if res.Viscosity != nil || res.WhyNot == "" {
		t.Errorf("shellac water is given as %v", res.Viscosity)
	}
}
