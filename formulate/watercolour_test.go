package formulate

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"

	"pgregory.net/rapid"
)

// bench is an invented shelf of materials for paint in water.
type bench struct {
	water, gum, glycerine, honey, gall, phenoxy Ingredient
}

func newBench(t interface{ Fatal(...any) }) bench {
	return bench{
		water: pourable(t, "water", material.Water, 0.9982, 0), gum: pourable(t, "gum-arabic", material.Gum, 1.4, 0.85),
		glycerine: pourable(t, "glycerine", material.Humectant, 1.261, 0), honey: pourable(t, "honey", material.Humectant, 1.42, 0.83),
		gall: pourable(t, "gall", material.WettingAgent, 1.02, 0.1), phenoxy: preservative(t),
	}
}

func preservative(t interface{ Fatal(...any) }) Ingredient {
	m := liquid("phenoxyethanol", material.Preservative, 1.1)
	m.UseLevel = []evidence.Reading[quantity.MassFraction]{{Low: 0.0025, High: 0.01, Source: "invented"}}
	return ready(t, m)
}

func (b bench) solution(t interface{ Fatal(...any) }, water float64) Liquid {
	parts := []LiquidPart{NewLiquidPart(b.gum, 1, &b.water)}
	if water > 0 {
		parts = append(parts, NewLiquidPart(b.water, quantity.MassFraction(water), nil))
	}
	return pouredAs(t, liquid("solution", material.Medium, 1), parts...)
}

func pouredAs(t interface{ Fatal(...any) }, m *material.Material, parts ...LiquidPart) Liquid {
	l, err := NewLiquid(m, parts)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func (b bench) one(t interface{ Fatal(...any) }, in Ingredient) Liquid {
	p := NewLiquidPart(in, 1, nil)
	if len(in.Material.NonVolatile) > 0 {
		p = NewLiquidPart(in, 1, &b.water)
	}
	return pouredAs(t, in.Material, p)
}

func (b bench) means(t interface{ Fatal(...any) }) GumMeans {
	return GumMeans{Solution: b.solution(t, 2), Humectant: b.one(t, b.glycerine), Wetting: b.one(t, b.gall), Preservative: b.one(t, b.phenoxy), Water: b.one(t, b.water)}
}

func gumRequest(t interface{ Fatal(...any) }) WatercolourRequest {
	b := newBench(t)
	body, _ := absorption.NamedBody("soft")
	return WatercolourRequest{
		Pigments: []Share{{ready(t, powder("blue", 2.34, 38)), 1}}, Solution: b.solution(t, 2),
		Humectants: []GumHumectant{{NewLiquidPart(b.glycerine, 1, nil), 0.65}},
		Additives:  []GumAdditive{{b.one(t, b.gall), 0.01}, {b.one(t, b.phenoxy), 0.005}},
		Air:        gum.OrdinaryAir, Binding: Binding{Rule: BinderByDemand}, Body: body,
		Amount: Amount{Kind: ByPigmentMass, Mass: 20}, Means: b.means(t), Sampling: Sampling{Draws: 256},
	}
}

func watercolour(t *testing.T, req WatercolourRequest) *WatercolourResult {
	t.Helper()
	r, err := Watercolour(req)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func closeTo(a, b, relative float64) bool {
	return math.Abs(a-b) <= relative*math.Max(math.Abs(b), 1e-9)
}

// What is weighed is what the paint holds, whatever the rule.
func TestWatercolourConserves(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		req := gumRequest(r)
		req.Sampling.Exact = true
		req.Amount.Mass = quantity.Mass(rapid.Float64Range(1, 500).Draw(r, "pigment"))
		req.Moisture = quantity.MassFraction(rapid.Float64Range(0, 0.05).Draw(r, "moisture"))
		switch rapid.IntRange(0, 2).Draw(r, "rule") {
		case 1:
			req.Binding = Binding{Rule: BinderByPVC, PVC: quantity.VolumeFraction(rapid.Float64Range(0.4, 0.8).Draw(r, "pvc"))}
		case 2:
			req.Binding = Binding{Rule: BinderByMeasure, Powder: 1, Binder: quantity.Parts(rapid.Float64Range(0.1, 1.5).Draw(r, "binder")), Bulk: []Bulk{{evidence.Distribution[quantity.Density]{Median: 0.5}, BulkMeasured}}}
		}
		res, err := Watercolour(req)
		var wet *TooWetError
		if errors.As(err, &wet) {
			return
		}
		if err != nil {
			r.Fatal(err)
		}
		weighed := res.Pigments[0].OnScale + res.BinderMass.Typical + res.Water.Typical
		for _, a := range res.Additives {
			weighed += a.Mass.Typical
		}
		f := res.Paint.Figures()
		if !closeTo(float64(weighed), float64(f.Mass), 1e-9) {
			r.Errorf("%g g weighed, the paint weighs %g", float64(weighed), float64(f.Mass))
		}
		if !closeTo(float64(res.Additives[0].Mass.Typical), 0.01*float64(f.Mass), 1e-9) {
			r.Errorf("wetting agent %g g of %g", float64(res.Additives[0].Mass.Typical), float64(f.Mass))
		}
		switch req.Binding.Rule {
		case BinderByPVC:
			if !closeTo(float64(f.PVC()), float64(req.Binding.PVC), 1e-9) {
				r.Errorf("PVC %g, asked %g", float64(f.PVC()), float64(req.Binding.PVC))
			}
		case BinderByDemand:
			got := float64(f.BinderVolume+dryOf(res, "glycerine")) / float64(f.Demand)
			if want := float64(gum.Scale().Median); !closeTo(got, want, 1e-9) {
				r.Errorf("dry binder over rub-out oil %g, the hypothesis says %g", got, want)
			}
		}
		if !closeTo(float64(res.Humectant), 0.65, 1e-9) {
			r.Errorf("humectant to gum %g, asked 0.65", float64(res.Humectant))
		}
		dry := quantity.VolumeFraction(0)
		for _, l := range res.Composition {
			dry += l.DryVol
		}
		if !closeTo(float64(dry), 1, 1e-9) {
			r.Errorf("dry shares sum to %g", float64(dry))
		}
	})
}

func dryOf(r *WatercolourResult, id string) quantity.Volume {
	for _, l := range r.Composition {
		if l.ID == id {
			return l.Vol
		}
	}
	return 0
}

// The batch scales: every mass with it, PVC and ratios not at all.
func TestWatercolourScales(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		k := rapid.Float64Range(0.1, 50).Draw(r, "k")
		req := gumRequest(r)
		req.Sampling.Exact = true
		a, err := Watercolour(req)
		if err != nil {
			r.Fatal(err)
		}
		req.Amount.Mass *= quantity.Mass(k)
		b, err := Watercolour(req)
		if err != nil {
			r.Fatal(err)
		}
		for i := range a.Composition {
			if !closeTo(float64(b.Composition[i].Mass), k*float64(a.Composition[i].Mass), 1e-9) {
				r.Errorf("%s: %g g becomes %g, want %g times", a.Composition[i].ID, float64(a.Composition[i].Mass), float64(b.Composition[i].Mass), k)
			}
		}
		if !closeTo(float64(a.Figures.PVC.Typical), float64(b.Figures.PVC.Typical), 1e-12) {
			r.Errorf("PVC moves from %g to %g", float64(a.Figures.PVC.Typical), float64(b.Figures.PVC.Typical))
		}
	})
}

// Pans come out at the count and the fill that were asked, their pours make the
// batch, and the range of counts holds the count asked for.
func TestWatercolourPans(t *testing.T) {
	req := gumRequest(t)
	req.Pans = &PansAsked{Name: "half pan", Brim: 2, Count: 12, Fill: 0.85, Deepest: 1.0 / 3}
	req.Loss = 0.07
	r := watercolour(t, req)
	p := r.Pans[0]
	if !(p.Count.Low <= 12 && p.Count.High >= 12) {
		t.Errorf("12 pans asked, %v filled", p.Count)
	}
	f := r.Paint.Figures()
	var wet quantity.Volume
	for _, x := range p.Pours {
		wet += x.Wet
	}
	if want := float64(f.Volume) * 0.93; !closeTo(float64(wet)*12, want, 1e-6) {
		t.Errorf("twelve pans take %g ml wet, the batch leaves %g", float64(wet)*12, want)
	}
	last := p.Pours[len(p.Pours)-1]
	if !closeTo(float64(last.Fill), 0.85, 1e-9) {
		t.Errorf("pans end %g full, want 0.85", float64(last.Fill))
	}
}

// Water in press cake is taken off the water to add, and nothing else moves.
func TestPressCakeWater(t *testing.T) {
	req := gumRequest(t)
	req.Solution = newBench(t).solution(t, 0)
	req.Sampling.Exact = true
	dry := watercolour(t, req)
	req.Moisture = 0.2
	req.Amount.Mass = 25 // 20 g dry
	damp := watercolour(t, req)
	if !closeTo(float64(damp.CakeWater), 5, 1e-9) {
		t.Fatalf("25 g at 20 %% hold %g g of water", float64(damp.CakeWater))
	}
	if !closeTo(float64(dry.Water.Typical-damp.Water.Typical), 5, 1e-9) {
		t.Errorf("water to add falls from %g to %g g, want by 5", float64(dry.Water.Typical), float64(damp.Water.Typical))
	}
	for i := range dry.Composition {
		if a, b := dry.Composition[i], damp.Composition[i]; !closeTo(float64(a.Mass), float64(b.Mass), 1e-9) {
			t.Errorf("%s: %g g dry, %g g from damp pigment", a.ID, float64(a.Mass), float64(b.Mass))
		}
	}
}

// Damp cake goes in as it is: with the gum in powder where its water is too much
// for a solution, and a little thinner where it is too much for that. The result
// says so, and the paint holds exactly the cake's water.
func TestWetCakeIsTaken(t *testing.T) {
	req := gumRequest(t)
	req.Sampling.Exact = true
	for _, c := range []struct {
		moisture         quantity.MassFraction
		powder, thinner  bool
		unchanged, never bool
	}{
		{moisture: 0.05, unchanged: true},
		{moisture: 0.33, powder: true},
		{moisture: 0.45, powder: true, thinner: true},
		{moisture: 0.7, never: true},
	} {
		req := req
		req.Moisture = c.moisture
		r, err := Watercolour(req)
		if c.never {
			var wet *TooWetError
			if !errors.As(err, &wet) {
				t.Errorf("moisture %g: %v, want a TooWetError", float64(c.moisture), err)
			}
			continue
		}
		if err != nil {
			t.Errorf("moisture %g: %v", float64(c.moisture), err)
			continue
		}
		if c.unchanged {
			if r.Cake != nil {
				t.Errorf("moisture %g: changed by %+v", float64(c.moisture), r.Cake)
			}
			continue
		}
		if r.Cake == nil || r.Cake.Powder != c.powder || (r.Cake.Body > 0) != c.thinner {
			t.Errorf("moisture %g: changed by %+v, want powder %t, thinner %t", float64(c.moisture), r.Cake, c.powder, c.thinner)
			continue
		}
		if r.Cake.Brings <= r.Cake.Room {
			t.Errorf("moisture %g: the cake brings %g g and there is room for %g: no reason to change", float64(c.moisture), float64(r.Cake.Brings), float64(r.Cake.Room))
		}
		if c.thinner && !(r.Cake.Body < r.Cake.Asked.Typical) && r.Cake.Asked.Name == "" {
			t.Errorf("moisture %g: body %g is no thinner than %g", float64(c.moisture), float64(r.Cake.Body), float64(r.Cake.Asked.Typical))
		}
		if c.thinner && r.Water.Typical > 0.02*r.CakeWater {
			t.Errorf("moisture %g: %g g of water are added to a paint that is too wet", float64(c.moisture), float64(r.Water.Typical))
		}
		// The recipe as asked is in reach of the drier pigment that is named.
		drier := req
		drier.Moisture = r.Cake.Dry * 0.999
		if r, err := Watercolour(drier); err != nil || r.Cake != nil {
			t.Errorf("moisture %g: at %g it is changed too: %v", float64(c.moisture), float64(drier.Moisture), err)
		}
	}
}

// Cake that is too wet for that is refused, and what the refusal offers is in
// reach. It is refused too where the binder cannot be had in powder.
func TestTooWet(t *testing.T) {
	req := gumRequest(t)
	req.Sampling.Exact = true
	req.Moisture = 0.7
	_, err := Watercolour(req)
	var wet *TooWetError
	if !errors.As(err, &wet) {
		t.Fatalf("%v, want a TooWetError", err)
	}
	if wet.Cake <= max(wet.Room, 0) || wet.Powder {
		t.Errorf("refused for %+v", wet)
	}
	again := req
	again.Solution = newBench(t).solution(t, 0)
	again.Body = absorption.Step{Low: wet.BodyToAsk(), Typical: wet.BodyToAsk(), High: wet.BodyToAsk()}
	r, err := Watercolour(again)
	if err != nil {
		t.Fatalf("the driest paint is refused too: %v", err)
	}
	if !closeTo(float64(r.Binder.Gum), float64(wet.Gum), 1e-6) {
		t.Errorf("gum %g g, the refusal says %g", float64(r.Binder.Gum), float64(wet.Gum))
	}
	made := req
	made.Moisture = 0.33
	made.Humectants = nil
	if made.Solution, err = BinderMix(req.Solution, req.Humectants); err != nil {
		t.Fatal(err)
	}
	if _, err := Watercolour(made); !errors.As(err, &wet) {
		t.Errorf("a made-up binder was taken apart: %v", err)
	}
}

// A PVC above oil's critical one is no fault in gum: answered, and said.
func TestAboveOilCriticalInGum(t *testing.T) {
	req := gumRequest(t)
	req.Binding = Binding{Rule: BinderByPVC, PVC: 0.8}
	r := watercolour(t, req)
	if r.Figures.ReducedPVC.Typical <= 1 {
		t.Fatalf("reduced PVC %v: choose a leaner example", r.Figures.ReducedPVC)
	}
	if !contains(r.Warnings, "in gum that is no fault") {
		t.Errorf("nothing is said of it: %q", r.Warnings)
	}
	if !contains(watercolour(t, gumRequest(t)).Hypotheses, "linseed absorption is not water demand") {
		t.Error("the gum demand is not named a hypothesis")
	}
}

func contains(list []string, part string) bool {
	return slices.ContainsFunc(list, func(s string) bool { return strings.Contains(s, part) })
}

// The running total rises to the most, by no more than a third.
func TestBinderSteps(t *testing.T) {
	r := watercolour(t, gumRequest(t))
	b := r.Binder
	if !(b.First < b.Typical && b.Typical < b.Most) {
		t.Fatalf("first %g, typical %g, most %g", float64(b.First), float64(b.Typical), float64(b.Most))
	}
	for i := 1; i < len(b.Totals); i++ {
		if g := b.Totals[i] / b.Totals[i-1]; g <= 1 || g > 1+binderGrowth+1e-9 {
			t.Errorf("step %d multiplies the binder by %g", i, float64(g))
		}
	}
	if got := b.Totals[len(b.Totals)-1]; !closeTo(float64(got), float64(b.Most), 1e-9) {
		t.Errorf("the last total is %g, the most %g", float64(got), float64(b.Most))
	}
}

func TestWatercolourRefuses(t *testing.T) {
	b := newBench(t)
	for _, c := range []struct {
		name string
		with func(*WatercolourRequest)
	}{
		{"no pigment", func(r *WatercolourRequest) { r.Pigments = nil }},
		{"no gum", func(r *WatercolourRequest) { r.Solution = b.one(t, b.water) }},
		{"same pigment twice", func(r *WatercolourRequest) { r.Pigments = append(r.Pigments, r.Pigments[0]) }},
		{"parts not a number", func(r *WatercolourRequest) { r.Pigments[0].Parts = quantity.Parts(math.NaN()) }},
		{"oil as pigment", func(r *WatercolourRequest) {
			r.Pigments[0].Ingredient = ready(t, liquid("oil", material.Oil, 0.93))
		}},
		{"gum as humectant", func(r *WatercolourRequest) { r.Humectants[0].LiquidPart = NewLiquidPart(b.gum, 1, &b.water) }},
		{"no humectant ratio", func(r *WatercolourRequest) { r.Humectants[0].Ratio = 0 }},
		{"a third preservative", func(r *WatercolourRequest) { r.Additives[1].Share = 0.3 }},
		{"all moisture", func(r *WatercolourRequest) { r.Moisture = 1 }},
		{"loss not a number", func(r *WatercolourRequest) { r.Loss = quantity.MassFraction(math.NaN()) }},
		{"PVC of one", func(r *WatercolourRequest) { r.Binding = Binding{Rule: BinderByPVC, PVC: 1} }},
		{"measures without bulk", func(r *WatercolourRequest) { r.Binding = Binding{Rule: BinderByMeasure, Powder: 1, Binder: 1} }},
		{"no rule", func(r *WatercolourRequest) { r.Binding = Binding{} }},
		{"pan over full", func(r *WatercolourRequest) { r.Pans = &PansAsked{Brim: 2, Count: 1, Fill: 1, Deepest: 0.3} }},
		{"no amount", func(r *WatercolourRequest) { r.Amount = Amount{} }},
		{"negative amount", func(r *WatercolourRequest) { r.Amount.Mass = -1 }},
		{"unknown symptom", func(r *WatercolourRequest) { r.Symptom = "dull" }},
	} {
		req := gumRequest(t)
		c.with(&req)
		if _, err := Watercolour(req); err == nil {
			t.Errorf("%s: accepted", c.name)
		}
	}
}

// Every symptom has one step that moves its ratio the right way.
func TestGumCorrection(t *testing.T) {
	req := gumRequest(t)
	batch := watercolour(t, req).Batch
	up := map[Symptom]bool{PowdersOff: true, Glossy: false, Curls: false, Sticky: false, NoRewet: true, Beads: true, Mouldy: true}
	for s, rises := range up {
		r, err := GumCorrection(batch, s, req.Means)
		if err != nil {
			t.Errorf("%s: %v", s, err)
			continue
		}
		if (r.After > r.Before) != rises {
			t.Errorf("%s: %s goes from %g to %g", s, r.Change, float64(r.Before), float64(r.After))
		}
		if (r.AddMass > 0) == (r.PigmentMore > 0) {
			t.Errorf("%s: %g g and %g more pigment: want one step", s, float64(r.AddMass), float64(r.PigmentMore))
		}
		if r.Discard != (s == Mouldy) || r.Test == "" || r.Cause == "" || r.Basis == "" {
			t.Errorf("%s: %+v", s, r)
		}
		if r.HumectantBefore == 0 {
			t.Errorf("%s: the humectant ratio is not shown", s)
		}
	}
	if len(Symptoms()) != len(gumRules) {
		t.Error("symptoms and rules differ")
	}
}

// Cracks: humectant where it is low, pigment where there is plenty.
func TestCracksChoose(t *testing.T) {
	for _, c := range []struct {
		ratio   quantity.Ratio
		pigment bool
	}{{0.2, false}, {1.2, true}} {
		req := gumRequest(t)
		req.Humectants[0].Ratio = c.ratio
		r, err := GumCorrection(watercolour(t, req).Batch, Cracks, req.Means)
		if err != nil {
			t.Fatal(err)
		}
		if (r.PigmentMore > 0) != c.pigment {
			t.Errorf("humectant %g of the gum: %+v", float64(c.ratio), r)
		}
	}
}

// Too much gum cracks however little humectant there is in it: 42 g to 100 g of a
// pigment that takes 33 ml of oil wants pigment, 17 g wants humectant.
func TestCracksOfTooMuchGum(t *testing.T) {
	bench := newBench(t)
	means := bench.means(t)
	for _, c := range []struct {
		gum, glycerine quantity.Mass
		pigment        bool
	}{{42, 8, true}, {42, 20, true}, {17, 3.4, false}, {17, 14, true}} {
		b := GumBatch{Powders: []GumPowder{{ready(t, powder("blue", 2.35, 31)), 100}}}
		b = b.Plus(bench.solution(t, 0), c.gum).Plus(means.Humectant, c.glycerine).Plus(means.Water, 60)
		r, err := GumCorrection(b, Cracks, means)
		if err != nil {
			t.Fatal(err)
		}
		if (r.PigmentMore > 0) != c.pigment || (r.AddMass > 0) == c.pigment {
			t.Errorf("%g g of gum, %g of glycerine: %+v", float64(c.gum), float64(c.glycerine), r)
		}
		if said := strings.Join(r.Notes, "; "); !strings.Contains(said, fmt.Sprintf("gum is %g g to 100 g of pigment", float64(c.gum))) {
			t.Errorf("the notes do not name the gum: %s", said)
		}
	}
}

// The additions for a PVC meet it, from either side.
func TestGumToPVC(t *testing.T) {
	means := newBench(t).means(t)
	rapid.Check(t, func(r *rapid.T) {
		req := gumRequest(r)
		req.Sampling.Exact = true
		req.Binding = Binding{Rule: BinderByPVC, PVC: quantity.VolumeFraction(rapid.Float64Range(0.3, 0.8).Draw(r, "is"))}
		res, err := Watercolour(req)
		if err != nil {
			r.Fatal(err)
		}
		want := quantity.VolumeFraction(rapid.Float64Range(0.2, 0.9).Draw(r, "want"))
		is := res.Batch.Paint().Figures().PVC()
		add, err := GumToPVC(res.Batch, want, means.Solution)
		if want < is {
			if err != nil {
				r.Fatal(err)
			}
			if got := res.Batch.Plus(means.Solution, add).Paint().Figures().PVC(); !closeTo(float64(got), float64(want), 1e-9) {
				r.Errorf("%g g of solution bring %g to %g, want %g", float64(add), float64(is), float64(got), float64(want))
			}
		} else if err == nil {
			r.Errorf("PVC %g is below %g and gum is added", float64(is), float64(want))
		}
		more, err := PigmentToPVC(res.Batch, want)
		if want > is {
			if err != nil {
				r.Fatal(err)
			}
			if got := res.Batch.PlusPigment(more).Paint().Figures().PVC(); !closeTo(float64(got), float64(want), 1e-9) {
				r.Errorf("%g more pigment bring %g to %g, want %g", float64(more), float64(is), float64(got), float64(want))
			}
		} else if err == nil {
			r.Errorf("PVC %g is above %g and pigment is added", float64(is), float64(want))
		}
	})
}

// Dried tube colour comes back to the liquid of a soft paste.
func TestDriedUp(t *testing.T) {
	req := gumRequest(t)
	b := watercolour(t, req).Batch
	dried := GumBatch{Powders: b.Powders, Pours: b.Pours[:1]} // solution and humectant stay, their water not
	dried.Pours = append([]GumPour(nil), dried.Pours...)
	r, err := GumCorrection(dried, DriedUp, req.Means)
	if err != nil {
		t.Fatal(err)
	}
	f := r.Batch.Figures()
	soft, _ := absorption.NamedBody("soft")
	want := float64(b.Powders[0].Mass) * float64(b.Powders[0].Demand.OilAt(soft, b.Powders[0].Density.Median, 0, 0)) / 100
	if got := float64(f.Volume - f.PigmentVolume); !closeTo(got, want, 1e-9) {
		t.Errorf("%g ml of liquid after %g g of water, want %g", got, float64(r.AddMass), want)
	}
}

func TestGumCorrectionRefuses(t *testing.T) {
	req := gumRequest(t)
	b := watercolour(t, req).Batch
	for _, c := range []struct {
		name    string
		batch   GumBatch
		symptom Symptom
		means   GumMeans
	}{
		{"no pigment", GumBatch{Pours: b.Pours}, PowdersOff, req.Means},
		{"no gum", GumBatch{Powders: b.Powders}, PowdersOff, req.Means},
		{"unknown symptom", b, "dull", req.Means},
		{"nothing to add", b, PowdersOff, GumMeans{}},
		{"solution without gum", b, PowdersOff, GumMeans{Solution: newBench(t).one(t, newBench(t).water)}},
	} {
		if _, err := GumCorrection(c.batch, c.symptom, c.means); err == nil {
			t.Errorf("%s: accepted", c.name)
		}
	}
}
