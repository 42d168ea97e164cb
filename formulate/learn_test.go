package formulate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

func body(t interface{ Fatal(...any) }, text string) absorption.Step {
	s, err := absorption.ParseBody(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// batchOf is 100 g of the invented blue with so much oil to a body.
func batchOf(t interface{ Fatal(...any) }, oil quantity.Mass, reached string) *Batch {
	b := &Batch{
		Pigments: []BatchPart{{Ingredient: ready(t, powder("blue", 2.34, 38)), Mass: 100}},
		Oils:     []BatchPart{{Ingredient: ready(t, liquid("oil", material.Oil, 0.93)), Mass: oil}},
	}
	if reached != "" {
		b.Body = body(t, reached)
	}
	return b
}

func rubOutOf(v quantity.AbsorptionVolume, tests int) *OwnRubOut {
	return &OwnRubOut{Value: v, Tests: tests, Method: material.RubOut}
}

func learn(t interface{ Fatal(...any) }, trials ...Trial) *LearnResult {
	r, err := Learn(LearnRequest{Pigment: ready(t, powder("blue", 2.34, 38)), Trials: trials})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Worked by hand: the prior of the jar is the catalogue's, ln m with σ; one test
// of scatter s leaves 1/τ² = 1/σ² + 1/s² and the mean of both by these weights.
func TestLearnOneRubOutByHand(t *testing.T) {
	in := ready(t, powder("blue", 2.34, 38))
	m, sigma := math.Log(float64(in.Demand.Oil().Median)), in.Demand.Oil().Sigma
	s := evidence.RubOutScatter
	r := learn(t, Trial{Number: 1, Lot: "A", RubOut: rubOutOf(50, 1)})
	w1, w2 := 1/(sigma*sigma), 1/(s*s)
	near(t, "median", float64(r.Absorption.Own.Median), math.Exp((m*w1+math.Log(50)*w2)/(w1+w2)), 1e-9)
	near(t, "spread", r.Absorption.Own.Sigma, 1/math.Sqrt(w1+w2), 1e-12)
	// A new jar shares half of the variance with it: λ' = μ + l', both halves σ²/2.
	half := sigma * sigma / 2
	near(t, "new jar's spread", r.Absorption.NewJar.Sigma, math.Sqrt(half*(half+s*s)/(2*half+s*s)+half), 1e-12)
}

// One test of its own narrows a jar far more than a test of another jar.
func TestLearnKeepsJarsApart(t *testing.T) {
	trials := []Trial{
		{Number: 1, Lot: "A", Batch: batchOf(t, 60, "buttery")},
		{Number: 2, Lot: "A", Batch: batchOf(t, 62, "buttery")},
		{Number: 3, Lot: "B", Batch: batchOf(t, 90, "buttery")},
	}
	r := learn(t, trials...)
	if r.Jar != "B" || r.Demand.Tests != 3 || r.Demand.JarTests != 1 {
		t.Errorf("jar %q, %d tests, %d of the jar; want the one last used, B, 3, 1", r.Jar, r.Demand.Tests, r.Demand.JarTests)
	}
	a := "A"
	ra, err := Learn(LearnRequest{Pigment: r.Request.Pigment, Trials: trials, Jar: &a})
	if err != nil {
		t.Fatal(err)
	}
	if lo, hi := ra.Demand.Own.Median, r.Demand.Own.Median; lo > 72 || hi < 80 {
		t.Errorf("jars A and B come out at %v and %v ml/100 g: they are mixed up", lo, hi)
	}
	if n := r.Demand.NewJar; !(n.Sigma > 2*r.Demand.Own.Sigma) {
		t.Errorf("a new jar is known to %v, the tested one to %v", n.Sigma, r.Demand.Own.Sigma)
	}
}

// A batch teaches the oil at tube colour alone; a rub-out the absorption, and it
// moves the demand by the slope of the fit without narrowing it.
func TestLearnTwoQuantities(t *testing.T) {
	in := ready(t, powder("blue", 2.34, 38))
	b := learn(t, Trial{Number: 1, Batch: batchOf(t, 77, "soft")})
	if b.Pigment.Demand.Oil() != in.Demand.Oil() || b.Pigment.OwnAbsorption || !b.Pigment.OwnDemand {
		t.Error("a batch taught an oil absorption, or no demand")
	}
	soft := body(t, "soft")
	near(t, "tube colour of the batch", float64(TubeDemandOfBatch(quantity.Mass(77).Volume(0.93), 100, soft)), 77/0.93/float64(soft.Oil), 1e-9)

	r := learn(t, Trial{Number: 1, RubOut: rubOutOf(60, 3)})
	if !r.Pigment.OwnAbsorption || r.Pigment.OwnDemand {
		t.Error("a rub-out taught a demand, or no absorption")
	}
	before, after := in.Demand.TubeColour(2.34), r.Pigment.Demand.TubeColour(2.34)
	c := absorption.Fitted()
	moved := math.Log(float64(after.Median / before.Median))
	want := c.Slope * math.Log(float64(r.Absorption.Own.Median/in.Demand.Oil().Median))
	near(t, "demand moved", moved, want, 0.02)
	if after.Sigma < before.Sigma*0.9 {
		t.Errorf("a rub-out narrowed the demand from %v to %v", before.Sigma, after.Sigma)
	}
}

// What a batch would say of the oil absorption, could it speak: the doc comment
// of this file leaves it out as too little.
func TestBatchSaysNextToNothingOfAbsorption(t *testing.T) {
	in := ready(t, powder("blue", 2.34, 38)) // no published demand: the strongest tie there is
	slope := absorption.Fitted().Slope
	oa, tube := in.Demand.Oil(), in.Demand.TubeColour(2.34)
	rest := math.Sqrt(tube.Sigma*tube.Sigma - slope*slope*oa.Sigma*oa.Sigma)
	scatter := rest / slope // of the absorption that a demand points to
	narrowing := 1 - 1/math.Sqrt(1+oa.Sigma*oa.Sigma/scatter/scatter)
	if narrowing > 0.03 {
		t.Errorf("a batch would narrow the oil absorption by %.1f %%: it should be let in", 100*narrowing)
	}
}

func TestLearnUnused(t *testing.T) {
	stand := liquid("stand oil", material.Oil, 0.96)
	stand.AbsorptionDoubtful = "thick"
	two := batchOf(t, 60, "buttery")
	two.Extenders = []BatchPart{{Ingredient: ready(t, powder("chalk", 2.7, 20)), Mass: 10}}
	for _, c := range []struct {
		name string
		t    Trial
		want string
	}{
		{"mixture", Trial{Batch: two}, "more than one powder"},
		{"no body", Trial{Batch: batchOf(t, 60, "")}, "not written down"},
		{"ratio", Trial{Batch: batchOf(t, 60, "0.7")}, "cannot teach"},
		{"stirred", Trial{RubOut: &OwnRubOut{Value: 50, Tests: 1, Method: material.GardnerColeman}}, "not a rub-out"},
		{"thick oil", Trial{RubOut: &OwnRubOut{Value: 50, Tests: 1, Method: material.RubOut, Oil: stand}}, "may not be taken up"},
	} {
		c.t.Number = 7
		r := learn(t, c.t)
		if len(r.Unused) != 1 || r.Unused[0].Number != 7 || !strings.Contains(r.Unused[0].Why, c.want) {
			t.Errorf("%s: unused %+v", c.name, r.Unused)
		}
		if r.Absorption.Tests+r.Demand.Tests > 0 || r.Pigment.OwnAbsorption || r.Pigment.OwnDemand {
			t.Errorf("%s taught something", c.name)
		}
	}
}

func TestLearnRefuses(t *testing.T) {
	other := batchOf(t, 60, "buttery")
	other.Pigments[0].Ingredient = ready(t, powder("red", 4, 20))
	for name, trial := range map[string]Trial{
		"nothing":          {},
		"another pigment":  {Batch: other},
		"absurd rub-out":   {RubOut: rubOutOf(5000, 1)},
		"not a number":     {RubOut: rubOutOf(quantity.AbsorptionVolume(math.NaN()), 1)},
		"no tests":         {RubOut: rubOutOf(50, 0)},
		"ten thousand too": {RubOut: rubOutOf(50, 10000)},
	} {
		trial.Number = 3
		if _, err := Learn(LearnRequest{Pigment: ready(t, powder("blue", 2.34, 38)), Trials: []Trial{trial}}); err == nil || !strings.Contains(err.Error(), "entry 3") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Learn(LearnRequest{}); err == nil {
		t.Error("no pigment was accepted")
	}
}

// A wrong jar is named, and does not excuse itself; a maker whose batches really
// scatter is soon left in peace.
func TestLearnConflicts(t *testing.T) {
	var trials []Trial
	for i, oil := range []quantity.Mass{60, 63, 61, 62, 110} {
		trials = append(trials, Trial{Number: i + 1, Lot: "A", Batch: batchOf(t, oil, "buttery")})
	}
	r := learn(t, trials...)
	if len(r.Conflicts) != 1 || r.Conflicts[0].Number != 5 || r.Conflicts[0].Against != "your earlier tests of this jar" || !(r.Conflicts[0].Z > 0) {
		t.Errorf("conflicts: %+v", r.Conflicts)
	}
	if r := learn(t, Trial{Number: 1, Batch: batchOf(t, 8, "buttery")}); len(r.Conflicts) != 1 || r.Conflicts[0].Against != "the catalogue" || !(r.Conflicts[0].Z < 0) {
		t.Errorf("a batch with a tenth of the oil: %+v", r.Conflicts)
	}

	trials = nil
	noise := rand.New(rand.NewPCG(3, 4))
	for i := range 60 {
		trials = append(trials, Trial{Number: i + 1, Batch: batchOf(t, quantity.Mass(60*math.Exp(0.25*noise.NormFloat64())), "buttery")})
	}
	r = learn(t, trials...)
	late := 0
	for _, c := range r.Conflicts {
		if c.Number > 30 && c.Against != "the catalogue" {
			late++
		}
	}
	if late > 2 {
		t.Errorf("%d of the last 30 batches of a maker who scatters by 25 %% are called odd", late)
	}
	if s := r.Demand.Scatter; s < 0.2 || s > 0.3 {
		t.Errorf("batches that scatter by 25 %% are taken to scatter by %v", s)
	}
	if !(r.Demand.Assumed < 0.1) {
		t.Errorf("the assumed scatter is %v", r.Demand.Assumed)
	}
}

// The scatter of entries that are means of several tests is that of one test.
func TestScatterOfMeans(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	s := newScatter(0.02)
	for i := range 4000 {
		const n = 4
		s.add(fmt.Sprint(i%50), 0.03*r.NormFloat64()/math.Sqrt(n), n)
	}
	near(t, "scatter", s.sigma(), 0.03, 0.001)
	if got := newScatter(0.02).sigma(); got != 0.02 {
		t.Errorf("without a test the scatter is %v", got)
	}
}

// Pigments invented from the very prior: the oil that the next batch of the jar
// takes lies in the 80 % range of the pour, before any batch and after 1, 3
// and 5.
func TestLearnedPourCoversTheNextBatch(t *testing.T) {
	const pigments = 10000
	in := ready(t, powder("blue", 2.34, 38))
	prior, err := demandPrior(&in, nil)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 2))
	width := map[int]float64{}
	for _, batches := range []int{0, 1, 3, 5} {
		inside := 0
		for range pigments {
			mu := math.Log(float64(prior.General.Median)) + prior.General.Sigma*r.NormFloat64()
			jar := mu + prior.Lot*r.NormFloat64()
			oil := func() quantity.Mass {
				return quantity.Mass(0.93 * math.Exp(jar+BatchScatter()*r.NormFloat64())) // on 100 g
			}
			var trials []Trial
			for i := range batches {
				trials = append(trials, Trial{Number: i + 1, Lot: "A", Batch: batchOf(t, oil(), "buttery")})
			}
			own := learn(t, trials...).Pigment.Demand.TubeColour(2.34)
			next := quantity.AbsorptionVolume(float64(oil()) / 0.93)
			if rg := own.Range(); next >= rg.Low && next <= rg.High {
				inside++
			}
			width[batches] += own.Sigma / pigments
		}
		if share := float64(inside) / pigments; share < 0.79 || share > 0.81 {
			t.Errorf("after %d batches the range holds the next one in %.1f %% of cases, want 80 ± 1", batches, 100*share)
		}
	}
	if !(width[5] < width[3] && width[3] < width[1] && width[1] < 0.6*width[0]) {
		t.Errorf("the range does not narrow: %v", width)
	}
}

// The order of trials of one jar, or their coming together, makes no difference
// to what is believed.
func TestLearnOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "trials")
		var trials []Trial
		for i := range n {
			lot := rapid.SampledFrom([]string{"A", "B"}).Draw(t, "lot")
			if rapid.Bool().Draw(t, "batch") {
				trials = append(trials, Trial{Number: i, Lot: lot, Batch: batchOf(t, quantity.Mass(rapid.Float64Range(20, 200).Draw(t, "oil")), "buttery")})
			} else {
				trials = append(trials, Trial{Number: i, Lot: lot, RubOut: rubOutOf(quantity.AbsorptionVolume(rapid.Float64Range(20, 90).Draw(t, "oa")), rapid.IntRange(1, 4).Draw(t, "tests"))})
			}
		}
		jar := "A"
		ask := LearnRequest{Pigment: ready(t, powder("blue", 2.34, 38)), Trials: trials, Jar: &jar}
		one, err := Learn(ask)
		if err != nil {
			t.Fatal(err)
		}
		ask.Trials = slices.Clone(trials)
		slices.Reverse(ask.Trials)
		other, err := Learn(ask)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range [][2]evidence.Distribution[quantity.AbsorptionVolume]{{one.Absorption.Own, other.Absorption.Own}, {one.Demand.Own, other.Demand.Own}} {
			if math.Abs(math.Log(float64(p[0].Median/p[1].Median))) > 1e-9 || math.Abs(p[0].Sigma-p[1].Sigma) > 1e-9 {
				t.Fatalf("in one order %+v, in the other %+v", p[0], p[1])
			}
		}
	})
}

func TestLearnNextAndPours(t *testing.T) {
	mull := request(t)
	mull.Scale = 0
	var trials []Trial
	for i := range 3 {
		trials = append(trials, Trial{Number: i + 1, Lot: "A", Batch: batchOf(t, 60, "buttery")})
	}
	in := ready(t, powder("blue", 2.34, 38))
	bare, err := Learn(LearnRequest{Pigment: in, Mull: &mull})
	if err != nil {
		t.Fatal(err)
	}
	r, err := Learn(LearnRequest{Pigment: in, Trials: trials, Mull: &mull})
	if err != nil {
		t.Fatal(err)
	}
	if bare.Pours.Own.First != bare.Pours.Catalogue.First {
		t.Error("an empty book moved the first pour")
	}
	if p := r.Pours; !(p.Own.First > p.Catalogue.First && p.Own.Most < p.Catalogue.Most) {
		t.Errorf("three batches did not narrow the pour: %v–%v, was %v–%v", p.Own.First, p.Own.Most, p.Catalogue.First, p.Catalogue.Most)
	}
	// 50 g that take 60 g of oil per 100 g: 30 g, within the range of the pour.
	if p := r.Pours.Own; p.First > 30 || p.Most < 30 {
		t.Errorf("the pour of %v to %v g leaves out the 30 g that the jar takes", p.First, p.Most)
	}
	if len(r.Next) != 2 || !(r.Next[0].Absorption > 0.5) || r.Next[0].Demand != 0 || r.Next[1].Absorption != 0 || !(r.Next[1].Demand > 0 && r.Next[1].Demand < bare.Next[1].Demand) {
		t.Errorf("next tests %+v, of an empty book %+v", r.Next, bare.Next)
	}
}

// Mull uses the maker's own figures and says so.
func TestMullByOwnBook(t *testing.T) {
	r := learn(t, Trial{Number: 1, Batch: batchOf(t, 60, "buttery")}, Trial{Number: 2, RubOut: rubOutOf(45, 2)})
	req := request(t)
	req.Pigments[0].Ingredient = r.Pigment
	res, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	w := res.Weigh[0]
	if w.Learned == nil || w.Learned.Demand.Tests != 1 || w.Material.Tests == "" || len(w.Evidence) != 1 || w.Evidence[0].Source != absorption.OwnBatches {
		t.Errorf("%+v", w)
	}
	near(t, "oil per 100 g", float64(res.Figures.OilPerPigment.Typical), float64(r.Demand.Own.Median)*0.93, 0.5)
}

func TestRepeat(t *testing.T) {
	b := batchOf(t, 60, "buttery")
	b.Waxes = []BatchPart{{Ingredient: ready(t, liquid("wax", material.Wax, 0.96)), Mass: 3}}
	b.Loss = 8.15 // 5 % of 163 g
	for _, c := range []struct {
		name   string
		amount Amount
		times  float64
	}{
		{"pigment", Amount{Kind: ByPigmentMass, Mass: 250}, 2.5},
		{"oil", Amount{Kind: ByOilMass, Mass: 30}, 0.5},
		{"paint, after the loss", Amount{Kind: ByPaintMass, Mass: 163 * 0.95 * 3}, 3},
	} {
		r, err := Repeat(RepeatRequest{Batch: *b, Amount: c.amount, Scale: 0.1, DropMass: 0.033})
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name, float64(r.Times), c.times, 1e-9)
		near(t, c.name+": pigment", float64(r.Weigh[0].Now), 100*c.times, 0.05)
		near(t, c.name+": oil", float64(r.Oil), 60*c.times, 1e-9)
		near(t, c.name+": wax", float64(r.Weigh[2].Now), 3*c.times, 0.05)
		near(t, c.name+": kept", float64(r.Kept), 163*0.95*c.times, 1e-6)
		if p := r.Pours; !(p.First < r.Oil && p.Most > r.Oil && p.FirstOver <= 0.06) {
			t.Errorf("%s: %v g of oil poured from %v to %v g", c.name, r.Oil, p.First, p.Most)
		}
	}
	damp := batchOf(t, 60, "buttery")
	damp.Moisture = 0.1
	r, err := Repeat(RepeatRequest{Batch: *damp, Amount: Amount{Kind: ByPigmentMass, Mass: 50}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "damp pigment as weighed", float64(r.Weigh[0].Now), 50, 1e-9)
	for name, req := range map[string]RepeatRequest{
		"no amount": {Batch: *b},
		"no oil":    {Batch: Batch{Pigments: b.Pigments}, Amount: Amount{Kind: ByPigmentMass, Mass: 5}},
		"nothing":   {Amount: Amount{Kind: ByPigmentMass, Mass: 5}},
	} {
		if _, err := Repeat(req); err == nil {
			t.Errorf("%s was accepted", name)
		}
	}
}

func TestBatchRefuses(t *testing.T) {
	for name, change := range map[string]func(*Batch){
		"no pigment":     func(b *Batch) { b.Pigments = nil },
		"no mass":        func(b *Batch) { b.Oils[0].Mass = 0 },
		"infinite":       func(b *Batch) { b.Oils[0].Mass = quantity.Mass(math.Inf(1)) },
		"oil as pigment": func(b *Batch) { b.Pigments[0].Ingredient = b.Oils[0].Ingredient },
		"pigment as oil": func(b *Batch) { b.Oils[0].Ingredient = b.Pigments[0].Ingredient },
		"oil twice":      func(b *Batch) { b.Oils = append(b.Oils, b.Oils[0]) },
		"all water":      func(b *Batch) { b.Moisture = 1 },
		"not a number":   func(b *Batch) { b.Moisture = quantity.MassFraction(math.NaN()) },
		"lost all":       func(b *Batch) { b.Loss = 160 },
	} {
		b := batchOf(t, 60, "buttery")
		change(b)
		if err := b.Validate(); err == nil {
			t.Errorf("%s was accepted", name)
		}
	}
	// Two jars of one pigment may go into one batch.
	b := batchOf(t, 60, "buttery")
	b.Pigments = append(b.Pigments, BatchPart{Ingredient: b.Pigments[0].Ingredient, Mass: 20, Lot: "B"})
	if err := b.Validate(); err != nil {
		t.Error(err)
	}
}

// A batch is the paint that Figures knows: parts sum to the whole, water apart.
func TestBatchOf(t *testing.T) {
	b := batchOf(t, 60, "buttery")
	b.Moisture, b.Loss = 0.1, 16
	r, err := BatchOf(BatchRequest{Batch: *b, Sampling: Sampling{Exact: true}})
	if err != nil {
		t.Fatal(err)
	}
	f := r.Figures
	near(t, "made", float64(f.Mass.Typical), 160, 1e-9)
	near(t, "dry pigment", float64(f.PigmentMass.Typical), 90, 1e-9)
	near(t, "water", float64(f.VolatileMass.Typical), 10, 1e-9)
	near(t, "kept", float64(r.Kept.Typical), 144, 1e-9)
	near(t, "oil per 100 g", float64(b.OilPerPowder()), 100*60/90.0, 1e-9)
	if !r.Critical {
		t.Error("the critical PVC of a known pigment is said to be unknown")
	}
}

func TestStock(t *testing.T) {
	s := Stock{}
	s.Recount(250, 5)
	s.Used += 60
	s.Bought += 100
	near(t, "on hand", float64(s.OnHand()), 290, 1e-12)
	s.Recount(280, 9)
	near(t, "counted anew", float64(s.OnHand()), 280, 1e-12)

	have := quantity.Mass(40)
	req := request(t)
	req.Pigments[0].OnHand = &have
	res, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	if len(res.Stock) != 1 || res.Stock[0].Needed != 50 || res.Stock[0].Short != 10 {
		t.Errorf("50 g needed of 40 g: %+v", res.Stock)
	}
	req.Oils[0].OnHand = &have
	if res, err = Mull(req); err != nil {
		t.Fatal(err)
	}
	if o := res.Stock[1]; o.Needed != res.Pours.Most || o.Short != max(0, res.Pours.Most-40) {
		t.Errorf("oil: %+v, the most is %v", o, res.Pours.Most)
	}
	overdrawn := quantity.Mass(-3)
	list := appendOnHand(nil, &Ingredient{Material: powder("a", 2, 20), OnHand: &overdrawn}, 5)
	if list[0].Have != 0 || list[0].Short != 5 {
		t.Errorf("a count below nothing: %+v", list[0])
	}
	// Two jars of one material come off one count.
	five := quantity.Mass(5)
	in := &Ingredient{Material: powder("a", 2, 20), OnHand: &five}
	list = appendOnHand(appendOnHand(nil, in, 4), in, 4)
	if len(list) != 1 || list[0].Short != 3 {
		t.Errorf("4 and 4 g of 5 g: %+v", list)
	}
}

func BenchmarkLearn(b *testing.B) {
	in := ready(b, powder("blue", 2.34, 38))
	var trials []Trial
	for i := range 10000 {
		trials = append(trials, Trial{Number: i + 1, Lot: fmt.Sprint(i % 50), Batch: batchOf(b, quantity.Mass(55+i%11), "buttery")})
	}
	for b.Loop() {
		if _, err := Learn(LearnRequest{Pigment: in, Trials: trials}); err != nil {
			b.Fatal(err)
		}
	}
}
