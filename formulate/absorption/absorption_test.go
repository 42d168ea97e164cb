package absorption

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

func drawOil(t *rapid.T) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(rapid.Float64Range(3, 300).Draw(t, "oil"))
}

func drawDensity(t *rapid.T) quantity.Density {
	return quantity.Density(rapid.Float64Range(1, 10).Draw(t, "density"))
}

func TestCriticalPVCIsAFraction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		oil, density := drawOil(t), drawDensity(t)
		c := CriticalPVC(oil, density)
		if !(c > 0 && c < 1) {
			t.Fatalf("CriticalPVC(%v, %v) = %v", oil, density, c)
		}
		if more := CriticalPVC(oil*1.01, density); more >= c {
			t.Fatalf("more oil taken up, CPVC %v is not below %v", more, c)
		}
		back := DemandAtPVC(c, density)
		if math.Abs(float64(back/oil)-1) > 1e-12 {
			t.Fatalf("oil at CPVC is %v, want %v", back, oil)
		}
		grams := oil.ByMass(quantity.TestOilDensity)
		if byMass := CriticalPVCByMass(grams, density, quantity.TestOilDensity); math.Abs(float64(byMass-c)) > 1e-12 {
			t.Fatalf("gram form %v, volume form %v", byMass, c)
		}
		// The two constants of the literature.
		if d := CriticalPVCByMass(grams, density, quantity.ReportingOilDensity) - CriticalPVCByMass(grams, density, quantity.TestOilDensity); math.Abs(float64(d)) > 0.002 {
			t.Fatalf("93 for 93.5 moves CPVC by %v", d)
		}
	})
}

func TestMoreBinderNeverRaisesPVC(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pigment := quantity.Volume(rapid.Float64Range(0.01, 1000).Draw(t, "pigment"))
		binder := quantity.Volume(rapid.Float64Range(0, 1000).Draw(t, "binder"))
		more := binder + quantity.Volume(rapid.Float64Range(0, 1000).Draw(t, "more"))
		if PVC(pigment, more) > PVC(pigment, binder) {
			t.Fatalf("PVC rose from %v to %v", PVC(pigment, binder), PVC(pigment, more))
		}
	})
}

func TestAirBeginsAtCriticalPVC(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cpvc := quantity.VolumeFraction(rapid.Float64Range(0.2, 0.7).Draw(t, "cpvc"))
		pvc := quantity.VolumeFraction(rapid.Float64Range(0.05, 0.95).Draw(t, "pvc"))
		air, index := AirFraction(pvc, cpvc), PorosityIndex(pvc, cpvc)
		if pvc <= cpvc && (air != 0 || index != 0) {
			t.Fatalf("air %v, index %v at PVC %v below CPVC %v", air, index, pvc, cpvc)
		}
		if pvc > cpvc && !(air > 0 && air < index && index < 1) {
			t.Fatalf("air %v, index %v at PVC %v above CPVC %v", air, index, pvc, cpvc)
		}
		// Pigment packed as at CPVC, binder and air fill the film.
		if pvc > cpvc {
			binder := cpvc * (1 - pvc) / pvc
			if sum := cpvc + binder + air; math.Abs(float64(sum)-1) > 1e-12 {
				t.Fatalf("the parts of the film add to %v", sum)
			}
		}
	})
}

// The additive rule by mass and by volume are one rule.
func TestAdditiveRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "pigments")
		var mix []Share
		var volume quantity.Volume
		var mass quantity.Mass
		for range n {
			s := Share{Mass: quantity.Mass(rapid.Float64Range(0.1, 100).Draw(t, "mass")), Density: drawDensity(t), Oil: drawOil(t)}
			volume += s.Mass.Volume(s.Density)
			mass += s.Mass
			mix = append(mix, s)
		}
		var inverse float64
		least, most := quantity.VolumeFraction(1), quantity.VolumeFraction(0)
		for _, s := range mix {
			c := CriticalPVC(s.Oil, s.Density)
			inverse += float64(s.Mass.Volume(s.Density)/volume) / float64(c)
			least, most = min(least, c), max(most, c)
		}
		got := CriticalPVCOfMix(mix)
		if math.Abs(float64(got)*inverse-1) > 1e-12 {
			t.Fatalf("CriticalPVCOfMix = %v, by volume %v", got, 1/inverse)
		}
		if got < least-1e-12 || got > most+1e-12 {
			t.Fatalf("%v is outside its parts %v to %v", got, least, most)
		}
		density := quantity.Density(float64(mass) / float64(volume))
		if one := CriticalPVC(Demand(mix), density); math.Abs(float64(one-got)) > 1e-12 {
			t.Fatalf("the mixture as one pigment has %v, want %v", one, got)
		}
	})
}

func TestEmptyMixTakesNothing(t *testing.T) {
	if d, c := Demand(nil), CriticalPVCOfMix(nil); d != 0 || c != 0 {
		t.Errorf("empty mixture: demand %v, CPVC %v", d, c)
	}
}

func TestPackingNeverBeatsItsPeak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coarse := quantity.VolumeFraction(rapid.Float64Range(0.4, 0.74).Draw(t, "coarse"))
		fine := quantity.VolumeFraction(rapid.Float64Range(0.4, 0.74).Draw(t, "fine"))
		share := quantity.VolumeFraction(rapid.Float64Range(0.001, 1).Draw(t, "share"))
		peak, at := PeakPacking(coarse, fine)
		if p := Packing(coarse, fine, share); p > peak+1e-12 || p < min(coarse, fine)-1e-12 {
			t.Fatalf("packing %v, peak %v", p, peak)
		}
		if p := Packing(coarse, fine, at); math.Abs(float64(p-peak)) > 1e-12 {
			t.Fatalf("packing at the peak's share %v, peak %v", p, peak)
		}
	})
}

func TestOilSharesTurnRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := quantity.Absorption(rapid.Float64Range(1, 500).Draw(t, "m"))
		oil, pigment := quantity.Density(0.93), drawDensity(t)
		if back := AbsorptionOfMassFraction(OilMassFraction(m)); math.Abs(float64(back/m)-1) > 1e-12 {
			t.Fatalf("by mass and back: %v, want %v", back, m)
		}
		f := OilVolumeFraction(m, oil, pigment)
		if back := AbsorptionOfVolumeFraction(f, oil, pigment); math.Abs(float64(back/m)-1) > 1e-12 {
			t.Fatalf("by volume and back: %v, want %v", back, m)
		}
		pvc := PVC(quantity.Mass(100).Volume(pigment), quantity.Mass(m).Volume(oil))
		if math.Abs(float64(pvc+f)-1) > 1e-12 {
			t.Fatalf("PVC %v and oil share %v do not add to 1", pvc, f)
		}
	})
}

func TestTestPortionAtTheEdges(t *testing.T) {
	for _, c := range []struct {
		expected quantity.Absorption
		want     quantity.Mass
	}{{9.9, 20}, {10, 10}, {30, 10}, {31, 5}, {50, 5}, {51, 2}, {80, 2}, {81, 1}} {
		if got := TestPortion(c.expected, false); got != c.want {
			t.Errorf("TestPortion(%v) = %v, want %v (IS 33)", c.expected, got, c.want)
		}
	}
}

// published is a reading at tube colour.
func published(authority string, grams quantity.Absorption) material.DemandReading {
	return material.DemandReading{Value: grams, Consistency: material.TubeColour, Authority: authority, Source: authority}
}

func ochre(readings ...material.DemandReading) Pigment {
	return Pigment{
		Density: evidence.Distribution[quantity.Density]{Median: 3.09, Sigma: 0.05},
		Oil:     evidence.Distribution[quantity.AbsorptionVolume]{Median: 21.8, Sigma: 0.25},
		Method:  material.Unstated, Published: readings,
	}
}

func named(t testing.TB, name string) Step {
	t.Helper()
	s, ok := NamedBody(name)
	if !ok {
		t.Fatalf("no body %q", name)
	}
	return s
}

// spreadOf is the log spread of the demand at tube colour over both deviates.
func spreadOf(t testing.TB, m DemandModel, density quantity.Density) float64 {
	ln := func(zOil, zDemand float64) float64 {
		return math.Log(float64(m.OilAt(named(t, "buttery"), density, zOil, zDemand)))
	}
	return math.Hypot(ln(1, 0)-ln(0, 0), ln(0, 1)-ln(0, 0))
}

func TestDemandWithoutPublishedIsTheForetold(t *testing.T) {
	p := ochre()
	m := NewDemandModel(p)
	want := Foretell(p.Oil.Median, p.Density.Median, false)
	got := m.OilAt(named(t, "buttery"), p.Density.Median, 0, 0).ByMass(quantity.ReportingOilDensity)
	if math.Abs(float64(got/want.Median)-1) > 1e-12 {
		t.Errorf("demand %v, foretold %v", got, want.Median)
	}
	if s := spreadOf(t, m, p.Density.Median); math.Abs(s-want.Sigma) > 1e-9 {
		t.Errorf("spread %v, foretold %v", s, want.Sigma)
	}
	if e := m.Evidence(); len(e) != 1 || e[0].Source != Foretold || e[0].Weight != 1 {
		t.Errorf("evidence %v", e)
	}
}

func TestDemandReadsTheGrams(t *testing.T) {
	// Many agreeing authorities leave the foretold figure little to say.
	var readings []material.DemandReading
	for i := range 40 {
		readings = append(readings, published(string(rune('a'+i)), 60))
	}
	m := NewDemandModel(ochre(readings...))
	got := m.OilAt(named(t, "buttery"), 3.09, 0, 0).ByMass(quantity.ReportingOilDensity)
	if math.Abs(float64(got)-60) > 0.5 {
		t.Errorf("forty authorities say 60, the model says %v", got)
	}
}

func TestPublishedDemandNarrowsOrWidens(t *testing.T) {
	none := spreadOf(t, NewDemandModel(ochre()), 3.09)
	agree := spreadOf(t, NewDemandModel(ochre(published("a", 59), published("b", 63), published("c", 61))), 3.09)
	// Raw sienna's three figures: no false precision.
	differ := spreadOf(t, NewDemandModel(ochre(published("a", 147), published("b", 240), published("c", 56))), 3.09)
	if !(agree < none) {
		t.Errorf("three that agree leave a spread of %v, none %v", agree, none)
	}
	if !(differ > none) {
		t.Errorf("three that differ leave a spread of %v, none %v", differ, none)
	}
	one := spreadOf(t, NewDemandModel(ochre(published("a", 60))), 3.09)
	twice := spreadOf(t, NewDemandModel(ochre(published("a", 60), published("a", 60))), 3.09)
	if one != twice {
		t.Errorf("one book read twice narrows the range from %v to %v", one, twice)
	}
}

func TestEvidenceWeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 6).Draw(t, "authorities")
		var readings []material.DemandReading
		for i := range n {
			readings = append(readings, published(string(rune('a'+i)), quantity.Absorption(rapid.Float64Range(10, 300).Draw(t, "demand"))))
		}
		m := NewDemandModel(ochre(readings...))
		var sum quantity.Ratio
		var ln float64
		for _, e := range m.Evidence() {
			sum += e.Weight
			ln += float64(e.Weight) * math.Log(float64(e.Middle))
		}
		if math.Abs(float64(sum)-1) > 1e-12 {
			t.Fatalf("weights add to %v", sum)
		}
		buttery, _ := NamedBody("buttery")
		got := m.OilAt(buttery, 3.09, 0, 0).ByMass(quantity.ReportingOilDensity)
		if math.Abs(math.Log(float64(got))-ln) > 1e-9 {
			t.Fatalf("demand %v is not the weighted mean %v of its evidence", got, math.Exp(ln))
		}
	})
}

func TestWhatCountsAsPublishedDemand(t *testing.T) {
	paste := published("a", 30)
	paste.Consistency = material.GroundPaste
	brush := published("b", 30)
	brush.Consistency = material.BrushReady
	aside := published("c", 30)
	aside.Aside = "doubtful"
	for _, c := range []struct {
		name     string
		readings []material.DemandReading
		want     int // authorities
	}{
		{"tube colour", []material.DemandReading{published("a", 30), published("b", 40)}, 2},
		{"ground paste stands in", []material.DemandReading{paste}, 1},
		{"ground paste gives way", []material.DemandReading{paste, published("b", 40)}, 1},
		{"brush-ready is a bound", []material.DemandReading{brush}, 0},
		{"set aside", []material.DemandReading{aside}, 0},
	} {
		m := NewDemandModel(ochre(c.readings...))
		if got := len(m.Evidence()) - 1; got != c.want {
			t.Errorf("%s: %d authorities, want %d", c.name, got, c.want)
		}
	}
	m := NewDemandModel(ochre(paste))
	want := 30 * math.Exp(-fitted.Ground)
	if got := float64(m.Evidence()[1].Middle); math.Abs(got-want) > 1e-9 {
		t.Errorf("a paste of 30 stands for a tube colour of %v, want %v", got, want)
	}
}

func TestOilBasis(t *testing.T) {
	with := func(change func(*Pigment)) OilBasis {
		p := ochre()
		change(&p)
		m := NewDemandModel(p)
		return m.Basis()
	}
	noOil := evidence.Distribution[quantity.AbsorptionVolume]{}
	for _, c := range []struct {
		got, want OilBasis
	}{
		{with(func(p *Pigment) {}), ByUnstated},
		{with(func(p *Pigment) { p.Method = material.RubOut }), ByRubOut},
		{with(func(p *Pigment) { p.Method = material.GardnerColeman }), ByOtherTest},
		{with(func(p *Pigment) { p.Method = material.Absorptometer }), ByOtherTest},
		{with(func(p *Pigment) { p.Oil = noOil }), Unknown},
		{with(func(p *Pigment) { p.Oil, p.Published = noOil, []material.DemandReading{published("a", 60)} }), FromDemand},
		{with(func(p *Pigment) { p.Density = evidence.Distribution[quantity.Density]{} }), Unknown},
	} {
		if c.got != c.want {
			t.Errorf("basis %q, want %q", c.got, c.want)
		}
	}
}

// Without an oil absorption the demand alone speaks, and the oil absorption is
// inferred: higher demand, higher inferred oil absorption, never narrow.
func TestOilInferredFromDemand(t *testing.T) {
	sienna := func(grams ...quantity.Absorption) DemandModel {
		p := Pigment{Density: evidence.Distribution[quantity.Density]{Median: 3.14}}
		for i, g := range grams {
			p.Published = append(p.Published, published(string(rune('a'+i)), g))
		}
		return NewDemandModel(p)
	}
	m := sienna(147, 240, 56.5)
	want := quantity.Absorption(math.Cbrt(147 * 240 * 56.5))
	if got := m.OilAt(named(t, "buttery"), 3.14, 0, 0).ByMass(quantity.ReportingOilDensity); math.Abs(float64(got/want)-1) > 1e-9 {
		t.Errorf("demand %v, want the geometric mean %v", got, want)
	}
	for _, e := range m.Evidence() {
		if e.Source == Foretold {
			t.Error("the demand foretells itself")
		}
	}
	lean, fat := sienna(40), sienna(200)
	if lean.OilAbsorption(0) >= fat.OilAbsorption(0) {
		t.Errorf("inferred %v for a lean pigment, %v for a fat one", lean.OilAbsorption(0), fat.OilAbsorption(0))
	}
	if m.oil.Sigma < 0.3 {
		t.Errorf("inferred oil absorption has a spread of only %v", m.oil.Sigma)
	}
}

func TestOilAtRatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := ochre(published("a", 60))
		p.Oil.Median, p.Density.Median = drawOil(t), drawDensity(t)
		m := NewDemandModel(p)
		b := Body(rapid.Float64Range(float64(LeastBody), 1).Draw(t, "body"))
		zOil := rapid.Float64Range(-3, 3).Draw(t, "zOil")
		density := p.Density.Median
		oil := m.OilAt(Step{Low: b, Typical: b, High: b}, density, zOil, 2)
		// What was asked for is what comes out.
		phi := 1 - OilVolumeFraction(oil.ByMass(0.93), 0.93, density)
		if got := BodyOf(phi, CriticalPVC(m.OilAbsorption(zOil), density)); math.Abs(float64(got-b)) > 1e-9 {
			t.Fatalf("asked for body %v, came out %v", b, got)
		}
		if softer := m.OilAt(Step{Typical: b * 0.99}, density, zOil, 2); softer <= oil {
			t.Fatalf("a softer body takes %v, the stiffer %v", softer, oil)
		}
	})
	m := NewDemandModel(ochre())
	if got := m.OilAt(Step{Typical: 1}, 3.09, 0, 0); math.Abs(float64(got)-21.8) > 1e-9 {
		t.Errorf("body 1 takes %v, the rub-out is 21.8", got)
	}
	dense := ochre()
	dense.Oil.Median = 3 // 1.5 times the critical PVC would be more than pigment alone
	m = NewDemandModel(dense)
	if got := m.OilAt(Step{Typical: MostBody}, 3.09, 0, 0); got != 0 {
		t.Errorf("no room for oil, yet %v", got)
	}
}

func TestNamedBodiesRunFromStiffToFlowing(t *testing.T) {
	steps := Steps()
	if len(steps) != 4 {
		t.Fatalf("%d steps", len(steps))
	}
	m := NewDemandModel(ochre(published("a", 60)))
	documented := [...]struct{ oil, body float64 }{{0.77, 0.78}, {1, 0.67}, {1.30, 0.55}, {1.70, 0.46}}
	for i, s := range steps {
		if d := documented[i]; math.Abs(float64(s.Oil)-d.oil) > 0.0051 || math.Abs(float64(s.Typical)-d.body) > 0.0051 {
			t.Errorf("%s: oil %.3f, body %.3f; the documentation says %v", s.Name, float64(s.Oil), float64(s.Typical), d)
		}
		if !(0 < s.Low && s.Low < s.Typical && s.Typical < s.High && s.High < MostBody) {
			t.Errorf("%s: body %v, %v, %v", s.Name, s.Low, s.Typical, s.High)
		}
		if s.Feel == "" || s.Basis == "" {
			t.Errorf("%s says too little of itself", s.Name)
		}
		if i == 0 {
			continue
		}
		before := steps[i-1]
		if before.Typical <= s.Typical {
			t.Errorf("%s is no softer than %s", s.Name, before.Name)
		}
		if m.OilAt(before, 3.09, 0, 0) >= m.OilAt(s, 3.09, 0, 0) {
			t.Errorf("%s takes no more oil than %s", s.Name, before.Name)
		}
	}
	steps[0].Name = "changed"
	if Steps()[0].Name != "stiff" {
		t.Error("the list of steps can be changed from outside")
	}
}

func TestParseBody(t *testing.T) {
	for text, want := range map[string]Body{"0.65": 0.65, "0,65": 0.65, " 1 ": 1, ".5": 0.5, "1.5": 1.5, "0.05": 0.05} {
		s, err := ParseBody(text)
		if err != nil || s.Typical != want || s.Name != "" {
			t.Errorf("ParseBody(%q) = %+v, %v", text, s, err)
		}
		if again, err := ParseBody(s.String()); err != nil || again.Typical != s.Typical {
			t.Errorf("%q does not read back: %v, %v", s, again, err)
		}
	}
	for _, step := range Steps() {
		if s, err := ParseBody(step.String()); err != nil || s != step {
			t.Errorf("ParseBody(%q) = %+v, %v", step, s, err)
		}
	}
	if s, err := ParseBody("Buttery"); err != nil || s.Name != "buttery" {
		t.Errorf("ParseBody(Buttery) = %+v, %v", s, err)
	}
	for text, want := range map[string]string{
		"":      `"" is not a body: it is empty; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5`,
		"runny": `"runny" is not a body: no step has this name; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5`,
		"0":     `"0" is not a body: the ratio is out of reach; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5`,
		"2":     `"2" is not a body: the ratio is out of reach; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5`,
		"-1":    `"-1" is not a body: it is negative; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5`,
		"NaN":   `"NaN" is not a body: no step has this name; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5`,
		"0.5x":  `"0.5x" is not a body: the number cannot be read; accepted: stiff, buttery, soft, flowing, or a ratio of pigment volume fraction to critical PVC from 0.05 to 1.5`,
	} {
		if _, err := ParseBody(text); err == nil || err.Error() != want {
			t.Errorf("ParseBody(%q): %v, want %s", text, err, want)
		}
	}
}

func FuzzParseBody(f *testing.F) {
	for _, s := range []string{"", "buttery", "0.65", "0,65", "1,250", "NaN", "1e308", "-0", "é"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseBody(text)
		if err == nil && !(s.Typical >= LeastBody && s.Typical <= MostBody) {
			t.Errorf("ParseBody(%q) = %+v", text, s)
		}
	})
}

func TestColourless(t *testing.T) {
	for _, c := range []struct {
		m    material.Material
		want bool
	}{
		{material.Material{Kind: material.Pigment, CIName: "PW1"}, true},
		{material.Material{Kind: material.Pigment, CIName: "pw6"}, true},
		{material.Material{Kind: material.Extender}, true},
		{material.Material{Kind: material.Pigment, CIName: "PB29"}, false},
		{material.Material{Kind: material.Pigment}, false},
	} {
		if got := Colourless(&c.m); got != c.want {
			t.Errorf("Colourless(%v %q) = %v", c.m.Kind, c.m.CIName, got)
		}
	}
}

// The explanation is the run itself: its last number is the answer.
func TestExplainEndsInTheAnswer(t *testing.T) {
	for _, c := range []struct {
		name   string
		p      Pigment
		target Step
		steps  []string
	}{
		{"foretold alone", ochre(), named(t, "buttery"), []string{ForetellRelation.Name, StepRelation.Name}},
		{"with published", ochre(published("a", 60)), named(t, "soft"), []string{ForetellRelation.Name, CombineRelation.Name, StepRelation.Name}},
		{"ratio", ochre(), Step{Typical: 0.7}, []string{BodyOilRelation.Name}},
	} {
		m := NewDemandModel(c.p)
		var tr trace.Tracer
		m.Explain(&tr, "ochre", c.target, 3.09)
		got := tr.Steps()
		if len(got) != len(c.steps) {
			t.Errorf("%s: %d steps, want %d", c.name, len(got), len(c.steps))
			continue
		}
		for i, want := range c.steps {
			if got[i].Relation.Name != want {
				t.Errorf("%s: step %d is %q, want %q", c.name, i+1, got[i].Relation.Name, want)
			}
		}
		if last := got[len(got)-1].Output.Value; last != float64(m.OilAt(c.target, 3.09, 0, 0)) {
			t.Errorf("%s: explained %v, answered %v", c.name, last, m.OilAt(c.target, 3.09, 0, 0))
		}
	}
}

func TestNoAllocations(t *testing.T) {
	m := NewDemandModel(ochre(published("a", 60)))
	buttery := named(t, "buttery")
	ratio := Step{Typical: 0.7}
	if n := testing.AllocsPerRun(100, func() {
		sink = m.OilAt(buttery, 3.09, 0.3, -0.2)
		sink = m.OilAt(ratio, 3.09, 0.3, -0.2)
		sink = DemandAtPVC(CriticalPVC(21.8, 3.09), 3.09)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

var sink quantity.AbsorptionVolume

func BenchmarkOilAt(b *testing.B) {
	m := NewDemandModel(ochre(published("a", 60)))
	buttery := named(b, "buttery")
	b.ReportAllocs()
	for b.Loop() {
		sink = m.OilAt(buttery, 3.09, 0.3, -0.2)
	}
}
