package formulate

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"

	"pgregory.net/rapid"
)

// randomPaste is any paste: a blend of pigments and oils, damp or dry, with or
// without extender and wax.
func randomPaste(t *rapid.T) MullRequest {
	body, _ := absorption.NamedBody("buttery")
	req := MullRequest{Target: Target{Kind: AtBody, Body: body}, Scale: 0.1, DropMass: 0.033}
	parts := func(name string) quantity.Parts {
		return quantity.Parts(rapid.Float64Range(0.1, 9).Draw(t, name))
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "pigments") {
		m := powder(fmt.Sprintf("pigment-%d", i), quantity.Density(rapid.Float64Range(1.3, 9).Draw(t, "density")), quantity.Absorption(rapid.Float64Range(6, 150).Draw(t, "oa")))
		req.Pigments = append(req.Pigments, Share{ready(t, m), parts("parts")})
	}
	if rapid.Bool().Draw(t, "extended") {
		m := powder("filler", 2.7, 20)
		m.Kind = material.Extender
		req.Extenders = []Portion{{ready(t, m), quantity.MassFraction(rapid.Float64Range(0.01, 0.6).Draw(t, "extender"))}}
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "oils") {
		req.Oils = append(req.Oils, Share{ready(t, liquid(fmt.Sprintf("oil-%d", i), material.Oil, quantity.Density(0.91+0.02*float64(i)))), parts("oil parts")})
	}
	if rapid.Bool().Draw(t, "waxed") {
		req.Waxes = []Portion{{ready(t, liquid("wax", material.Wax, 0.96)), quantity.MassFraction(rapid.Float64Range(0.001, 0.05).Draw(t, "wax"))}}
	}
	req.Moisture = quantity.MassFraction(rapid.SampledFrom([]float64{0, 0, 0.03, 0.12, 0.4}).Draw(t, "moisture"))
	req.Sampling.Exact = true
	return req
}

// state is a random way to know a paste with so much oil a gram of dry pigment.
func randomState(t *rapid.T, req *MullRequest, oilPer float64) State {
	dry := rapid.Float64Range(0.5, 500).Draw(t, "pigment")
	oil := dry * oilPer
	s := State{Pigment: quantity.Mass(dry / (1 - float64(req.Moisture)))}
	switch s.Known = KnownBy(rapid.IntRange(int(ByBothWeighed), int(ByOilDrops)).Draw(t, "known by")); s.Known {
	case ByBothWeighed:
		s.Oil = quantity.Mass(oil)
	case ByPasteWeighed:
		var extender, wax float64
		for _, e := range req.Extenders {
			extender += float64(e.Share)
		}
		for _, w := range req.Waxes {
			wax += float64(w.Share)
		}
		s.Paste = quantity.Mass((dry/(1-float64(req.Moisture)) + dry*extender + oil) / (1 - wax))
	case ByOilVolume:
		s.OilVolume = evidence.Distribution[quantity.Volume]{Median: quantity.Volume(oil / 0.93)}
	case ByOilDrops:
		s.DropMass = evidence.Distribution[quantity.Mass]{Median: 0.033}
		s.Drops = quantity.Ratio(oil / 0.033)
	}
	return s
}

// Any over-oiled paste, damp blends included, lands on its target PVC to 1e-9
// by each way that reaches it, and no mass is lost.
func TestCorrectRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := CorrectRequest{Paste: randomPaste(t)}
		chalk := powder("chalk", 2.71, 20)
		chalk.Kind = material.Extender
		stiffener := ready(t, chalk)
		req.Stiffener = &stiffener
		req.State = randomState(t, &req.Paste, rapid.Float64Range(0.3, 30).Draw(t, "oil per pigment"))
		// A target above the PVC there is: what the paste should have had.
		first, err := newCorrector(&req)
		if err != nil {
			t.Fatal(err)
		}
		if err := first.present(make([]float64, first.inputs())); err != nil {
			t.Fatal(err)
		}
		now := Paint{first.paste}.Figures()
		want := float64(now.PVC()) + rapid.Float64Range(0.001, 0.999).Draw(t, "how much above")*(float64(now.CPVC())-float64(now.PVC()))
		if want <= float64(now.PVC()) {
			t.Skip("at or above its critical PVC already")
		}
		req.Paste.Target = Target{Kind: AtPVC, PVC: quantity.VolumeFraction(want)}
		reduced := rapid.Bool().Draw(t, "as reduced PVC")
		if reduced {
			req.Paste.Target = Target{Kind: AtReducedPVC, Reduced: quantity.Ratio(want / float64(now.CPVC()))}
		}
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		if r.Direction != TooOily {
			t.Fatalf("PVC %v below the wanted %v: direction %v", now.PVC(), want, r.Direction)
		}
		reached := 0
		for _, w := range r.Ways {
			if !w.Reaches || w.After == nil {
				continue
			}
			reached++
			if got, want := float64(w.After.PVC.Typical), want; !reduced && math.Abs(got-want) > 1e-9 {
				t.Fatalf("way %d: PVC %v, want %v", w.Kind, got, want)
			}
			if got, want := float64(w.After.ReducedPVC.Typical), want/float64(now.CPVC()); reduced && math.Abs(got-want) > 1e-9 {
				t.Fatalf("way %d: reduced PVC %v, want %v", w.Kind, got, want)
			}
			moved := float64(w.Total.Typical)
			if moved < 0 {
				t.Fatalf("way %d asks for %v g", w.Kind, moved)
			}
			sign := 1.0
			if w.Kind == DrawOil {
				sign = -1
			}
			if got, want := float64(w.After.Mass.Typical), float64(now.Mass)+sign*moved; math.Abs(got-want) > 1e-9*want {
				t.Fatalf("way %d: paste of %v g, want %v g", w.Kind, got, want)
			}
		}
		if reached < 2 {
			t.Fatalf("%d ways reach a PVC of %v from %v", reached, want, now.PVC())
		}
		// The paste's powder keeps its proportions.
		add := way(r, AddPowder)
		dry := func(d Dose) quantity.Mass {
			if d.Role == Pigment {
				return d.Mass.Typical * quantity.Mass(1-req.Paste.Moisture)
			}
			return d.Mass.Typical
		}
		for i, d := range add.Doses {
			if ratio := float64(dry(d) / r.Paste.Components[i].Mass); math.Abs(ratio/(float64(dry(add.Doses[0])/r.Paste.Components[0].Mass))-1) > 1e-9 {
				t.Fatalf("%s is added out of proportion", d.Material.ID)
			}
		}
	})
}

func way(r *CorrectResult, k WayKind) Way {
	for _, w := range r.Ways {
		if w.Kind == k {
			return w
		}
	}
	return Way{}
}

// Too dry: the oil added lands on the target as well, and a body by name takes
// the oil a mull of the same powder takes.
func TestCorrectTooDry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := CorrectRequest{Paste: randomPaste(t)}
		req.Paste.Waxes = nil
		req.State = randomState(t, &req.Paste, 0.01)
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		if r.Direction != TooDry || len(r.Ways) != 1 {
			t.Fatalf("1 g of oil to 100 g of pigment: direction %v, %d ways", r.Direction, len(r.Ways))
		}
		mulled := req.Paste
		mulled.Amount = Amount{Kind: ByPigmentMass, Mass: req.State.Pigment}
		mulled.Scale = 0
		m, err := Mull(mulled)
		if err != nil {
			t.Fatal(err)
		}
		got, want := float64(r.Ways[0].After.BinderMass.Typical), float64(m.Figures.BinderMass.Typical)
		if math.Abs(got-want) > 1e-9*want {
			t.Fatalf("corrected to %v g of oil, mulled with %v g", got, want)
		}
	})
}

// Powder added to a named body leaves the oil that a mull of all of it takes.
func TestCorrectToBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := CorrectRequest{Paste: randomPaste(t)}
		req.Paste.Waxes = nil
		steps := absorption.Steps()
		req.Paste.Target.Body = steps[rapid.IntRange(0, len(steps)-1).Draw(t, "body")]
		req.State = randomState(t, &req.Paste, 50)
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		add := way(r, AddPowder)
		mulled := req.Paste
		mulled.Scale = 0
		mulled.Amount = Amount{Kind: ByOilMass, Mass: r.Oil.Typical}
		m, err := Mull(mulled)
		if err != nil {
			t.Fatal(err)
		}
		got, want := float64(add.After.PigmentMass.Typical), float64(m.Figures.PigmentMass.Typical)
		if math.Abs(got-want) > 1e-9*want {
			t.Fatalf("corrected to %v g of powder, a mull of the same oil takes %v g", got, want)
		}
	})
}

// A paste made by its formula needs nothing; so many drops beyond it need the
// powder that those drops take.
func TestCorrectFromFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := CorrectRequest{Paste: randomPaste(t), Goal: ToFormula}
		req.Paste.Amount = Amount{Kind: ByPigmentMass, Mass: 20}
		req.Paste.Amount = Amount{Kind: ByPaintMass, Mass: quantity.Mass(rapid.Float64Range(5, 500).Draw(t, "paint"))}
		req.State = State{Known: ByFormula}
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		if r.Direction != OnTarget {
			t.Fatalf("as the formula says, but %v g over", r.Over.Typical)
		}
		before := r.Now
		req.State.Drops = quantity.Ratio(rapid.IntRange(1, 400).Draw(t, "drops"))
		req.State.DropMass = evidence.Distribution[quantity.Mass]{Median: 0.033}
		if r, err = Correct(req); err != nil {
			t.Fatal(err)
		}
		if got, want := float64(r.Over.Typical), float64(req.State.Drops)*0.033; math.Abs(got-want) > 1e-9*want {
			t.Fatalf("%v g over, want %v g", got, want)
		}
		after := way(r, AddPowder).After
		if got, want := float64(after.PVC.Typical), float64(before.PVC.Typical); math.Abs(got-want) > 1e-9 {
			t.Fatalf("PVC %v, the formula's is %v", got, want)
		}
		if got, want := float64(after.OilPerPigment.Typical), float64(before.OilPerPigment.Typical); len(req.Paste.Waxes) == 0 && math.Abs(got-want) > 1e-9*want {
			t.Fatalf("%v g of oil per 100 g, the formula's is %v", got, want)
		}
	})
}

// Oil that wept out of a paste made to its formula and is put back leaves it as
// it was.
func TestCorrectWept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := CorrectRequest{Paste: randomPaste(t), Goal: ToFormula}
		req.Paste.Amount = Amount{Kind: ByPigmentMass, Mass: 20}
		req.State = State{Known: ByFormula}
		full, err := Correct(CorrectRequest{Paste: req.Paste, State: req.State, Goal: ToFormula})
		if err != nil {
			t.Fatal(err)
		}
		lost := rapid.Float64Range(0.01, 0.9).Draw(t, "share lost")
		req.Wept = quantity.Mass(lost) * full.Oil.Typical
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(r.Wept.Share.Typical); math.Abs(got-lost) > 1e-9 {
			t.Fatalf("share lost %v, want %v", got, lost)
		}
		small := 1e-6 * float64(full.Oil.Typical)
		if over := float64(r.Wept.Over.Typical); math.Abs(over) > small || r.Wept.TooMuch() && r.Wept.Over.Low > quantity.Mass(small) || math.Abs(float64(r.Wept.Back-req.Wept)) > small {
			t.Fatalf("it held %v g too much, %v of %v g belong back in", over, r.Wept.Back, req.Wept)
		}
		w := way(r, AddOil)
		if got := float64(w.Total.Typical); math.Abs(got-float64(req.Wept)) > small {
			t.Fatalf("%v g to put back, %v g ran out", got, req.Wept)
		}
		if math.Abs(float64(w.After.PVC.Typical-full.Now.PVC.Typical)) > 1e-6 {
			t.Fatalf("PVC %v, before %v", w.After.PVC.Typical, full.Now.PVC.Typical)
		}
	})
}

// Whether oil that ran out belongs back in is told from the goal: with 20 g of
// blue the goal is about 8.6 g, see over.
func TestCorrectWeptFromTooMuch(t *testing.T) {
	for _, c := range []struct {
		name      string
		oil, wept quantity.Mass
		too       bool
		direction Direction
		back      float64
	}{
		{"still too oily", 12, 1.5, true, TooOily, 0},
		{"too much of it ran out", 12, 5, true, TooDry, 1.6},
		{"it was right", 8.6, 1.5, false, TooDry, 1.5},
		{"it was too dry already", 7, 1, false, TooDry, 1},
	} {
		req := over(t)
		req.Paste.Sampling.Exact = true
		req.State.Oil, req.Wept = c.oil, c.wept
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		if r.Wept.TooMuch() != c.too && math.Abs(float64(r.Wept.Over.Typical)) > 0.02 || r.Direction != c.direction {
			t.Errorf("%s: held %v too much, direction %d", c.name, r.Wept.Over, r.Direction)
		}
		near(t, c.name+": g back", float64(r.Wept.Back), c.back, 0.03)
		near(t, c.name+": g too much before", float64(r.Wept.Over.Typical), float64(c.oil)-8.6, 0.03)
	}
}

// A paste's own density gives back the oil it was mixed with.
func TestCorrectByDensity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := CorrectRequest{Paste: randomPaste(t)}
		req.State = State{Known: ByBothWeighed, Pigment: 40}
		req.State.Oil = quantity.Mass(rapid.Float64Range(5, 200).Draw(t, "oil"))
		known, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		if known.Now.PigmentMass.Typical/quantity.Mass(known.Now.PigmentVolume.Typical) < 1.2*0.93 {
			t.Skip("powder about as heavy as its oil")
		}
		air := rapid.Float64Range(0, 0.2).Draw(t, "air")
		req.State = State{Known: ByDensity, Air: AirRange{quantity.VolumeFraction(air), quantity.VolumeFraction(air)},
			Density: known.Now.Density.Typical * quantity.Density(1-air)}
		if rapid.Bool().Draw(t, "pigment known") {
			req.State.Pigment = 40
		} else {
			req.State.Paste = known.Now.Mass.Typical
		}
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := float64(r.Oil.Typical), float64(known.Oil.Typical); math.Abs(got-want) > 1e-6*want {
			t.Fatalf("%v g of oil by density, %v g were weighed", got, want)
		}
	})
}

// base is a plain over-oiled paste: 20 g of pigment with 12 g of oil, tube
// colour being 43 g per 100 g.
func over(t *testing.T) CorrectRequest {
	r := request(t)
	r.Target = Target{Kind: AtPVC, PVC: quantity.VolumeFraction(0.4803)}
	return CorrectRequest{Paste: r, State: State{Known: ByBothWeighed, Pigment: 20, Oil: 12}}
}

// Published: 20 g and 12 g where 0.43 g of oil a gram is wanted need 7.9 g more
// pigment (43 g per 100 g: Church 1901; the amount computed).
func TestCorrectWorked(t *testing.T) {
	req := over(t)
	req.Paste.Sampling.Exact = true
	r, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	add := way(r, AddPowder)
	near(t, "pigment to add", float64(add.Total.Typical), 7.9, 0.05)
	near(t, "oil wanted", float64(r.Wanted.Typical), 20*0.43, 0.005)
	draw := way(r, DrawOil)
	near(t, "oil to draw out", float64(draw.Total.Typical), 12-20*0.43, 0.005)
	near(t, "weigh-out", float64(draw.WeighOut), 32-(12-20*0.43), 0.005)
	next := way(r, KeepForNext)
	near(t, "oil of 20 g more", float64(next.Next.FullOil.Typical), 20*0.43, 0.005)
	near(t, "poured less", float64(next.Next.FullOil.Typical-next.Next.Pour.Typical), 12-20*0.43, 0.005)
	near(t, "least next batch", float64(next.Next.Least.Typical), 7.9, 0.05)
}

// By ranges, the first addition makes the paste too dry in at most one jar of
// twenty, and the answer at the typical values lies inside the ranges.
func TestCorrectRanges(t *testing.T) {
	body, _ := absorption.NamedBody("buttery")
	req := over(t)
	req.Paste.Target = Target{Kind: AtBody, Body: body}
	req.State.Oil = 25
	r, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	p := way(r, AddPowder).Pours
	if p.FirstOver > FirstPourRisk || !(p.First <= p.Typical && p.Typical < p.Most) {
		t.Errorf("additions %v, %v, %v g, first too much with %v", p.First, p.Typical, p.Most, p.FirstOver)
	}
	req.Paste.Sampling.Exact = true
	exact, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []WayKind{AddPowder, DrawOil} {
		a, b := way(r, k).Total, way(exact, k).Total
		if !(a.Low < b.Typical && b.Typical < a.High) {
			t.Errorf("way %d: %v g at the typical values, range %v to %v g", k, b.Typical, a.Low, a.High)
		}
	}
	again, _ := Correct(req)
	if again.Over != exact.Over {
		t.Error("the same request gave two answers")
	}
}

func TestCorrectHave(t *testing.T) {
	req := over(t)
	req.Have = 5
	r, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	w := way(r, AddThenDraw)
	if !w.Reaches || r.Ways[0].Kind != AddThenDraw {
		t.Errorf("with 5 g of the 7.9 g needed: reaches %v, first is %d", w.Reaches, r.Ways[0].Kind)
	}
	near(t, "used", float64(w.Total.Typical), 5, 1e-9)
	near(t, "needed", float64(w.Need.Typical), 12/0.43-20, 0.05)
	near(t, "lacking", float64(w.Lacking.Typical), 12/0.43-25, 0.05)
	// 25 g take 10.75 g at the target.
	near(t, "to draw", float64(w.StillOver.Typical), 12-25*0.43, 0.02)
	// Weighed: 32 g and 5 g in, the drawn oil out.
	near(t, "weighed in", float64(w.WeighIn), 37, 1e-9)
	near(t, "weighed out", float64(w.WeighOut), 25+25*0.43, 0.02)
	near(t, "PVC after", float64(w.After.PVC.Typical), 0.4803, 0.0005)
	for i, w := range r.Ways[1:] {
		if w.Reaches && !r.Ways[i].Reaches {
			t.Errorf("way %d reaches the goal and stands behind way %d, which does not", w.Kind, r.Ways[i].Kind)
		}
	}
	req.Have = 50
	if r, err = Correct(req); err != nil {
		t.Fatal(err)
	}
	if w := way(r, AddPowder); !w.Reaches || r.Ways[0].Kind != AddPowder {
		t.Errorf("with enough pigment the first way is %d", r.Ways[0].Kind)
	}
}

// All the powder there is and the rest of the oil drawn out: the paste weighed
// again is where it should be, and nothing is lost on the way.
func TestAddThenDrawBalances(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		req := over(t)
		req.Paste.Sampling.Exact = true
		req.State.Oil = quantity.Mass(rapid.Float64Range(8.8, 60).Draw(rt, "oil"))
		r, err := Correct(req)
		if err != nil {
			rt.Fatal(err)
		}
		req.Have = way(r, AddPowder).Total.Typical * quantity.Mass(rapid.Float64Range(0.01, 0.99).Draw(rt, "share of the need"))
		if r, err = Correct(req); err != nil {
			rt.Fatal(err)
		}
		w := way(r, AddThenDraw)
		if got, want := w.WeighIn, req.State.Pigment+req.State.Oil+req.Have; math.Abs(float64(got-want)) > 1e-9 {
			rt.Fatalf("weighed in %v, want %v", got, want)
		}
		if got, want := w.WeighOut, w.WeighIn-w.StillOver.Typical; math.Abs(float64(got-want)) > 1e-9 {
			rt.Fatalf("weighed out %v, want %v", got, want)
		}
		again := over(t)
		again.Paste.Sampling.Exact = true
		again.State.Pigment, again.State.Oil = req.State.Pigment+req.Have, req.State.Oil-w.StillOver.Typical
		if r, err = Correct(again); err != nil || r.Direction != OnTarget {
			rt.Fatalf("afterwards it is %v g of oil away (%v)", r.Over.Typical, err)
		}
	})
}

// Told otherwise, another powder than the paste's own goes in.
func TestCorrectWithAnother(t *testing.T) {
	req := over(t)
	req.Paste.Sampling.Exact = true
	req.Add = []Share{{ready(t, powder("thirsty", 2.0, 100)), 1}}
	r, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	w := way(r, AddPowder)
	if len(w.Doses) != 1 || w.Doses[0].Material.ID != "thirsty" {
		t.Fatalf("doses %v", w.Doses)
	}
	near(t, "PVC", float64(w.After.PVC.Typical), 0.4803, 1e-9)
}

// A wax is given by its published use level only, never from a body, and never
// as a way that reaches the goal.
func TestCorrectWax(t *testing.T) {
	wax := liquid("wax", material.Wax, 0.96)
	wax.UseLevel = []evidence.Reading[quantity.MassFraction]{{Low: 0.01, High: 0.02, Source: "invented"}, {Value: 0.3, Source: "invented", Aside: "another trade"}}
	in := ready(t, wax)
	for _, target := range []Target{over(t).Paste.Target, {Kind: AtReducedPVC, Reduced: 0.9}} {
		req := over(t)
		req.Paste.Target, req.Stabiliser = target, &in
		req.Paste.Sampling.Exact = true
		r, err := Correct(req)
		if err != nil {
			t.Fatal(err)
		}
		w := way(r, AddWax)
		if w.Reaches {
			t.Error("a wax is said to reach the goal")
		}
		near(t, "wax at its published most", float64(w.Total.High), 32*0.02/0.98, 1e-9)
		near(t, "wax at its published least", float64(w.Total.Low), 32*0.01/0.99, 1e-9)
		if w.After.PVC.Typical >= r.Now.PVC.Typical {
			t.Errorf("wax moved the PVC from %v to %v; it must fall", r.Now.PVC.Typical, w.After.PVC.Typical)
		}
	}
	// A paste that holds its use level already takes no more.
	req := over(t)
	req.Paste.Waxes = []Portion{{in, 0.02}}
	req.Stabiliser = &in
	r, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	if w := way(r, AddWax); w.Total.High > 1e-12 || !strings.Contains(w.Why, "already") {
		t.Errorf("wax on top of its use level: %v g, %q", w.Total.High, w.Why)
	}
}

// The extender to reckon with is one that gets on with the paste.
func TestAgreeableExtender(t *testing.T) {
	chalk, barytes := powder("chalk", 2.7, 20), powder("barytes", 4.4, 12)
	chalk.Classes = []material.Class{material.Alkaline}
	aids := []Ingredient{ready(t, chalk), ready(t, barytes)}
	req := over(t).Paste
	if got := req.Agreeable(aids).Material.ID; got != "chalk" {
		t.Errorf("with a pigment that bears alkali: %s", got)
	}
	blue := powder("iron-blue", 1.8, 50)
	blue.Classes = []material.Class{material.IronCyanide}
	req.Pigments[0].Ingredient = ready(t, blue)
	if got := req.Agreeable(aids).Material.ID; got != "barytes" {
		t.Errorf("with iron blue: %s", got)
	}
	if got := req.Agreeable(aids[:1]).Material.ID; got != "chalk" {
		t.Errorf("with nothing better: %s", got)
	}
}

// A wax that fills the goal's liquid alone cannot be drawn out.
func TestCorrectTooMuchWax(t *testing.T) {
	req := over(t)
	req.Paste.Waxes = []Portion{{ready(t, liquid("wax", material.Wax, 0.96)), 0.3}}
	req.Paste.Target.PVC = 0.5
	req.State.Oil = 0.5
	r, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	w := way(r, DrawOil)
	if w.Reaches || w.Why == "" {
		t.Errorf("drawing oil out is said to mend too much wax: %+v", w)
	}
	if w.After.BinderMass.Low < 0 {
		t.Errorf("oil left: %v g", w.After.BinderMass.Low)
	}
}

func TestCorrectReasons(t *testing.T) {
	req := over(t)
	req.Signs = []Sign{Rubbery}
	r, err := Correct(req)
	if err != nil {
		t.Fatal(err)
	}
	if r.Direction != Otherwise || len(r.Ways) != 0 || r.Reasons[0].Name != "livering" {
		t.Errorf("a rubbery paste: direction %v, %d ways, reasons %v", r.Direction, len(r.Ways), r.Reasons)
	}
	stiff, _ := absorption.NamedBody("stiff")
	req = over(t)
	req.Feels = &stiff
	zinc := powder("zinc", 5.6, 15)
	zinc.Classes = []material.Class{material.Zinc}
	req.Paste.Pigments[0].Ingredient = ready(t, zinc)
	if r, err = Correct(req); err != nil {
		t.Fatal(err)
	}
	if r.Direction != Otherwise || len(r.Ways) != 0 {
		t.Errorf("an over-oiled paste that feels stiff: direction %v, %d ways", r.Direction, len(r.Ways))
	}
	var names []string
	for _, x := range r.Reasons {
		names = append(names, x.Name)
		if x.Name == "livering" && (len(x.Of) != 1 || x.Of[0] != "zinc") {
			t.Errorf("livering is laid to %v", x.Of)
		}
	}
	if len(names) < 2 {
		t.Errorf("reasons named: %v", names)
	}
	// A dry paste that feels stiff is only dry.
	req.State.Oil = 0.5
	if r, err = Correct(req); err != nil {
		t.Fatal(err)
	}
	if r.Direction != TooDry || len(r.Reasons) != 0 {
		t.Errorf("a dry paste that feels stiff: direction %v, reasons %v", r.Direction, r.Reasons)
	}
}

func TestCorrectRefuses(t *testing.T) {
	tests := []struct {
		name   string
		says   string
		change func(*CorrectRequest)
	}{
		{"paste lighter than its pigment", "weighs less than the powder", func(r *CorrectRequest) { r.State = State{Known: ByPasteWeighed, Pigment: 20, Paste: 19} }},
		{"paste lighter than its damp pigment and wax", "weighs less", func(r *CorrectRequest) {
			r.Paste.Waxes = []Portion{{ready(t, liquid("wax", material.Wax, 0.96)), 0.1}}
			r.State = State{Known: ByPasteWeighed, Pigment: 20, Paste: 21}
		}},
		{"lighter than oil", "outside what this powder and oil could mix to", func(r *CorrectRequest) {
			r.State = State{Known: ByDensity, Pigment: 20, Density: 0.8}
		}},
		{"heavier than powder", "outside what this powder and oil could mix to", func(r *CorrectRequest) {
			r.State = State{Known: ByDensity, Paste: 20, Density: 3}
		}},
		{"air over more than one body", "spans more than one body", func(r *CorrectRequest) {
			r.State = State{Known: ByDensity, Paste: 20, Density: 1.3, Air: AirRange{0, 0.15}}
		}},
		{"density without a mass", "one mass", func(r *CorrectRequest) { r.State = State{Known: ByDensity, Density: 1.3} }},
		{"density with both masses", "one mass", func(r *CorrectRequest) { r.State = State{Known: ByDensity, Density: 1.3, Pigment: 1, Paste: 2} }},
		{"nothing known", "nothing says how much oil", func(r *CorrectRequest) { r.State = State{} }},
		{"negative oil", "below nothing", func(r *CorrectRequest) { r.State.Oil = -1 }},
		{"no pigment mass", "above nothing", func(r *CorrectRequest) { r.State.Pigment = 0 }},
		{"NaN pigment", "above nothing", func(r *CorrectRequest) { r.State.Pigment = quantity.Mass(math.NaN()) }},
		{"more wept than there was", "cannot have run out", func(r *CorrectRequest) { r.Wept = 13 }},
		{"negative have", "negative", func(r *CorrectRequest) { r.Have = -1 }},
		{"PVC above critical", "above the critical PVC", func(r *CorrectRequest) { r.Paste.Target.PVC = 0.9 }},
		{"wax as extender", "cannot be the extender", func(r *CorrectRequest) { in := ready(t, liquid("wax", material.Wax, 0.96)); r.Stiffener = &in }},
		{"oil as wax", "cannot be the wax", func(r *CorrectRequest) { in := ready(t, liquid("oil2", material.Oil, 0.92)); r.Stabiliser = &in }},
		{"oil as pigment to add", "cannot be the pigment", func(r *CorrectRequest) { r.Add = []Share{r.Paste.Oils[0]} }},
		{"solvent as oil", "cannot be the oil", func(r *CorrectRequest) {
			r.Paste.Oils[0].Ingredient = ready(t, liquid("spirit", material.Solvent, 0.78))
		}},
	}
	for _, tt := range tests {
		r := over(t)
		tt.change(&r)
		res, err := Correct(r)
		if err == nil {
			t.Errorf("%s: accepted, %v g over", tt.name, res.Over.Typical)
			continue
		}
		if !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %q does not say %q", tt.name, err, tt.says)
		}
	}
}

func TestConsistency(t *testing.T) {
	between := func(a, b string) quantity.Ratio {
		x, _ := absorption.NamedBody(a)
		y, _ := absorption.NamedBody(b)
		return quantity.Ratio(math.Sqrt(float64(x.Oil * y.Oil)))
	}
	for _, s := range absorption.Steps() {
		if got := Consistency(s.Oil); got != s.Name {
			t.Errorf("Consistency(%v) = %q, want %q", s.Oil, got, s.Name)
		}
	}
	for _, c := range []struct {
		oil  quantity.Ratio
		want string
	}{{0.3, "drier than stiff"}, {4, "runnier than flowing"}, {between("stiff", "buttery"), "between stiff and buttery"}} {
		if got := Consistency(c.oil); got != c.want {
			t.Errorf("Consistency(%v) = %q, want %q", c.oil, got, c.want)
		}
	}
}

// What a mull weighs is what a correction and the book find again: damp pigment
// with its water, extender dry.
func TestDampPigmentDryExtender(t *testing.T) {
	req := request(t)
	chalk := powder("chalk", 2.7, 20)
	chalk.Kind = material.Extender
	req.Extenders = []Portion{{ready(t, chalk), 0.4}}
	req.Moisture, req.Scale, req.Sampling.Exact = 0.2, 0, true
	m, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	f := m.Paint.Figures()
	near(t, "paste of what was weighed", float64(f.Mass), float64(m.Weigh[0].OnScale+m.Weigh[1].OnScale+f.BinderMass), 1e-9)

	c, err := Correct(CorrectRequest{Paste: req, State: State{Known: ByPasteWeighed, Pigment: m.Weigh[0].OnScale, Paste: f.Mass}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "oil found in the paste", float64(c.Oil.Typical), float64(f.BinderMass), 1e-9)
	if c.Direction != OnTarget {
		t.Errorf("the paste of the card is %v", c.Direction)
	}

	b := Batch{
		Pigments:  []BatchPart{{Ingredient: req.Pigments[0].Ingredient, Mass: m.Weigh[0].OnScale}},
		Extenders: []BatchPart{{Ingredient: req.Extenders[0].Ingredient, Mass: m.Weigh[1].OnScale}},
		Oils:      []BatchPart{{Ingredient: req.Oils[0].Ingredient, Mass: f.BinderMass}},
		Moisture:  req.Moisture,
	}
	near(t, "PVC of the batch", float64(b.Paint().Figures().PVC()), float64(f.PVC()), 1e-12)
}
