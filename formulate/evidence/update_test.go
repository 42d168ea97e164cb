package evidence

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/quantity"
)

type absorption = quantity.Absorption

func TestSplit(t *testing.T) {
	catalogue := Distribution[absorption]{Median: 42, Sigma: 0.3}
	p, err := Split(catalogue, 0.36)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "lot", p.Lot, 0.18, 1e-12)
	near(t, "level", p.General.Sigma, 0.24, 1e-12)
	// Without a test a new jar is what the catalogue says of one more jar.
	post, err := Update(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "new lot median", float64(post.NewLot.Median), 42, 1e-9)
	near(t, "new lot sigma", post.NewLot.Sigma, 0.3, 1e-12)
	near(t, "lot never tested", post.Lot("none").Sigma, 0.3, 1e-12)
}

func TestUpdateByHand(t *testing.T) {
	// Level ±0.3, lots ±0.4, one test of ±0.5: the lot's prior is ±0.5, the data
	// as much, so the lot's median is the geometric middle and its spread 0.5/√2.
	p := Prior[absorption]{General: Distribution[absorption]{Median: 40, Sigma: 0.3}, Lot: 0.4}
	post, err := Update(p, []Observation[absorption]{{Lot: "a", Value: 90, Scatter: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	own := post.Lot("a")
	near(t, "lot median", float64(own.Median), 60, 1e-9)
	near(t, "lot sigma", own.Sigma, 0.5/math.Sqrt2, 1e-12)
	// The level moves by 0.09/(0.09 + 0.16 + 0.25) of the way.
	near(t, "level", math.Log(float64(post.General.Median)/40), 0.18*math.Log(90.0/40), 1e-12)
	near(t, "level sigma", post.General.Sigma, 0.3*math.Sqrt(1-0.18), 1e-12)
}

// genTests draws a prior and some tests of up to three lots.
func genTests(t *rapid.T) (Prior[absorption], []Observation[absorption]) {
	prior := Prior[absorption]{
		General: Distribution[absorption]{Median: absorption(rapid.Float64Range(10, 100).Draw(t, "median")), Sigma: rapid.Float64Range(0.05, 0.5).Draw(t, "level")},
		Lot:     rapid.Float64Range(0, 0.3).Draw(t, "between lots"),
	}
	test := rapid.Custom(func(t *rapid.T) Observation[absorption] {
		return Observation[absorption]{
			Lot:     rapid.SampledFrom([]string{"", "jar 1", "jar 2"}).Draw(t, "lot"),
			Value:   absorption(rapid.Float64Range(5, 200).Draw(t, "value")),
			Scatter: rapid.Float64Range(0.01, 0.4).Draw(t, "scatter"),
		}
	})
	return prior, rapid.SliceOfN(test, 1, 10).Draw(t, "tests")
}

func same(a, b Distribution[absorption]) bool {
	return math.Abs(float64(a.Median/b.Median)-1) < 1e-9 && math.Abs(a.Sigma-b.Sigma) < 1e-9
}

func TestOrderOfTestsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prior, tests := genTests(t)
		together, err := Update(prior, tests)
		if err != nil {
			t.Fatal(err)
		}
		mixed := rapid.Permutation(tests).Draw(t, "order")
		other, err := Update(prior, mixed)
		if err != nil {
			t.Fatal(err)
		}
		if !same(together.General, other.General) || !same(together.NewLot, other.NewLot) {
			t.Fatalf("together %+v, in another order %+v", together, other)
		}
		for i := range together.Lots {
			if !same(together.Lots[i].Own, other.Lots[i].Own) {
				t.Fatalf("lot %q: %+v, in another order %+v", together.Lots[i].Lot, together.Lots[i], other.Lots[i])
			}
		}
	})
}

func TestOneByOneIsTogether(t *testing.T) {
	// Each test of one lot worked in alone, the posterior becoming the next prior.
	rapid.Check(t, func(t *rapid.T) {
		prior, tests := genTests(t)
		for i := range tests {
			tests[i].Lot = "jar"
		}
		together, err := Update(prior, tests)
		if err != nil {
			t.Fatal(err)
		}
		start, err := Update(prior, nil)
		if err != nil {
			t.Fatal(err)
		}
		now := Prior[absorption]{General: start.NewLot}
		for _, o := range tests {
			p, err := Update(now, []Observation[absorption]{o})
			if err != nil {
				t.Fatal(err)
			}
			now.General = p.General
		}
		if !same(now.General, together.Lot("jar")) {
			t.Fatalf("one by one %+v, together %+v", now.General, together.Lot("jar"))
		}
	})
}

// exact solves the two-level model by its joint normal distribution, row by
// row: the state is the level and every lot, each test measures one lot.
func exact(prior Prior[absorption], tests []Observation[absorption], lots []string) (mean []float64, cov [][]float64) {
	n := 1 + len(lots)
	mean, cov = make([]float64, n), make([][]float64, n)
	for i := range cov {
		mean[i], cov[i] = math.Log(float64(prior.General.Median)), make([]float64, n)
		for j := range cov[i] {
			cov[i][j] = prior.General.Sigma * prior.General.Sigma
		}
		if i > 0 {
			cov[i][i] += prior.Lot * prior.Lot
		}
	}
	for _, o := range tests {
		k := 1
		for lots[k-1] != o.Lot {
			k++
		}
		column := make([]float64, n)
		for i := range column {
			column[i] = cov[i][k]
		}
		s := cov[k][k] + o.Scatter*o.Scatter
		d := math.Log(float64(o.Value)) - mean[k]
		for i := range mean {
			mean[i] += column[i] / s * d
			for j := range mean {
				cov[i][j] -= column[i] * column[j] / s
			}
		}
	}
	return mean, cov
}

func TestUpdateIsTheJointNormal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prior, tests := genTests(t)
		p, err := Update(prior, tests)
		if err != nil {
			t.Fatal(err)
		}
		var lots []string
		for _, l := range p.Lots {
			lots = append(lots, l.Lot)
		}
		mean, cov := exact(prior, tests, lots)
		check := func(what string, d Distribution[absorption], k int) {
			if math.Abs(math.Log(float64(d.Median))-mean[k]) > 1e-8 || math.Abs(d.Sigma-math.Sqrt(cov[k][k])) > 1e-7 {
				t.Fatalf("%s: %+v, jointly %v ± %v", what, d, math.Exp(mean[k]), math.Sqrt(cov[k][k]))
			}
		}
		check("level", p.General, 0)
		for i, l := range p.Lots {
			check("lot "+l.Lot, l.Own, i+1)
		}
	})
}

func TestTestsNarrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prior, tests := genTests(t)
		before, err := Update(prior, tests[:len(tests)-1])
		if err != nil {
			t.Fatal(err)
		}
		last := tests[len(tests)-1]
		after, err := Update(prior, tests)
		if err != nil {
			t.Fatal(err)
		}
		if after.General.Sigma > before.General.Sigma+1e-12 || after.Lot(last.Lot).Sigma > before.Lot(last.Lot).Sigma {
			t.Fatalf("a test widened: %+v to %+v", before, after)
		}
		// What the gain foretold comes true whatever the test's value was.
		gains, err := before.Gains(last.Lot, Test{"next", last.Lot, last.Scatter})
		if err != nil {
			t.Fatal(err)
		}
		if g := gains[0]; math.Abs(g.After-after.Lot(last.Lot).Sigma) > 1e-9 || g.Narrowing < 0 || g.Narrowing > 1 {
			t.Fatalf("foretold %+v, found %v", g, after.Lot(last.Lot).Sigma)
		}
	})
}

func TestGainsAreRanked(t *testing.T) {
	prior, err := Split(Distribution[absorption]{Median: 42, Sigma: 0.3}, EvenSplit)
	if err != nil {
		t.Fatal(err)
	}
	p, err := Update(prior, []Observation[absorption]{{"jar 1", 45, 0.15}})
	if err != nil {
		t.Fatal(err)
	}
	gains, err := p.Gains("jar 1",
		Test{"a batch of another jar", "jar 2", 0.15},
		Test{"one more batch", "jar 1", 0.15},
		Test{"one more rub-out", "jar 1", RubOutScatter})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"one more rub-out", "one more batch", "a batch of another jar"}
	for i, g := range gains {
		if g.Name != want[i] {
			t.Errorf("place %d is %q, want %q", i+1, g.Name, want[i])
		}
		if g.After >= g.Before {
			t.Errorf("%s narrows nothing: %+v", g.Name, g)
		}
	}
}

func TestContradicts(t *testing.T) {
	// ±0.3 of a jar and ±0.4 of a test make ±0.5 of what is foretold.
	p, err := Update(Prior[absorption]{General: Distribution[absorption]{Median: 40, Sigma: 0.3}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		value    float64
		z        float64
		doubtful bool
	}{
		{40, 0, false},
		{40 * math.Exp(0.5), 1, false},
		{40 * math.Exp(0.5*2.57), 2.57, false},
		{40 * math.Exp(0.5*2.58), 2.58, true},
		{40 * math.Exp(-0.5*3), -3, true},
	}
	for _, tt := range tests {
		c, err := p.Contradicts(Observation[absorption]{"jar", absorption(tt.value), 0.4})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "z", c.Z, tt.z, 1e-9)
		if c.Doubtful != tt.doubtful {
			t.Errorf("z = %g: doubtful %t", c.Z, c.Doubtful)
		}
	}
}

func TestUpdateRefusals(t *testing.T) {
	good := Prior[absorption]{General: Distribution[absorption]{Median: 40, Sigma: 0.3}, Lot: 0.1}
	errOf := func(_ any, err error) error { return err }
	update := func(p Prior[absorption], o ...Observation[absorption]) error { return errOf(Update(p, o)) }
	tests := []struct {
		name string
		err  error
		want string
	}{
		{"no prior", update(Prior[absorption]{}), "prior median"},
		{"prior spread not a number", update(Prior[absorption]{General: Distribution[absorption]{40, math.NaN()}}), "prior spread"},
		{"negative lot spread", update(Prior[absorption]{General: good.General, Lot: -1}), "between lots"},
		{"value 0", update(good, Observation[absorption]{"jar", 0, 0.1}), `test 1: lot "jar": value`},
		{"value infinite", update(good, Observation[absorption]{"jar", absorption(math.Inf(1)), 0.1}), "value"},
		{"scatter 0", update(good, Observation[absorption]{"jar", 40, 0}), "scatter"},
		{"share above 1", errOf(Split(good.General, 1.5)), "between 0 and 1"},
		{"nothing in the catalogue", errOf(Split(Distribution[absorption]{}, 0.5)), "prior median"},
	}
	for _, tt := range tests {
		if tt.err == nil || !strings.Contains(tt.err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, tt.err, tt.want)
		}
	}
}

// A world is how invented pigments really are; the maker's prior may differ.
type world struct {
	level, lot, body float64 // log standard deviations
}

// A trial is what came of one number of batches.
type trial struct {
	batches  int
	coverage float64 // share of truths inside the 80 % range
	stated   float64 // log width of that range
	found    float64 // log width that would have held 80 % of the errors
}

// invent makes 10,000 pigments, a jar of each, and batches from the jar, and
// learns each jar's oil absorption with the prior given.
func invent(t *testing.T, w world, prior Prior[absorption], batches []int) []trial {
	t.Helper()
	const pigments = 10000
	most := batches[len(batches)-1]
	truths := Run(pigments, 2+most, 2+most, DefaultSeed, func() func(z, out []float64) {
		return func(z, out []float64) {
			jar := w.level*z[0] + w.lot*z[1]
			out[0] = jar
			for i := range most {
				out[2+i] = jar + w.body*z[2+i]
			}
		}
	})
	const centre = 40
	out := make([]trial, len(batches))
	for k, n := range batches {
		inside, errors, stated := 0, make([]float64, pigments), 0.0
		for i := range pigments {
			tests := make([]Observation[absorption], n)
			for b := range tests {
				tests[b] = Observation[absorption]{"jar", absorption(centre * math.Exp(truths[2+b][i])), w.body}
			}
			p, err := Update(prior, tests)
			if err != nil {
				t.Fatal(err)
			}
			r := p.Lot("jar").Range()
			truth := absorption(centre * math.Exp(truths[0][i]))
			if r.Low <= truth && truth <= r.High {
				inside++
			}
			stated = math.Log(float64(r.High / r.Low))
			errors[i] = math.Log(float64(truth / r.Typical))
		}
		out[k] = trial{n, float64(inside) / pigments, stated, Quantile(errors, 0.9) - Quantile(errors, 0.1)}
	}
	return out
}

func TestTenThousandInventedPigments(t *testing.T) {
	w := world{level: 0.25, lot: 0.15, body: 0.20}
	prior := Prior[absorption]{General: Distribution[absorption]{Median: 40, Sigma: w.level}, Lot: w.lot}
	for _, got := range invent(t, w, prior, []int{1, 3, 5}) {
		name := fmt.Sprintf("after %d batches: ", got.batches)
		if got.coverage < 0.79 || got.coverage > 0.81 {
			t.Errorf("%sthe 80 %% range holds %.2f %% of the truths, want 79 to 81", name, 100*got.coverage)
		}
		// Theory: precisions add, 1/(level² + lot²) of the jar and n/body² of the batches.
		theory := 2 * Z90 / math.Sqrt(1/(w.level*w.level+w.lot*w.lot)+float64(got.batches)/(w.body*w.body))
		near(t, name+"width over theory", got.stated/theory, 1, 1e-9)
		near(t, name+"width found in the errors, over theory", got.found/theory, 1, 0.02)
	}
}

func TestWrongPriorDegradesAsTheoryTells(t *testing.T) {
	// The catalogue is sure of the wrong figure: its median is two of its own
	// spreads too high, its spreads half of the world's.
	w := world{level: 0.25, lot: 0.15, body: 0.20}
	const shift = 2 * 0.125
	prior := Prior[absorption]{General: Distribution[absorption]{Median: 40 * absorption(math.Exp(shift)), Sigma: w.level / 2}, Lot: w.lot / 2}
	phi := func(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }
	last := 0.0
	for _, got := range invent(t, w, prior, []int{1, 3, 5}) {
		// The jar's error is c·(jar − prior) less (1 − c) of the batches' scatter.
		believed := w.level*w.level/4 + w.lot*w.lot/4
		data := w.body * w.body / float64(got.batches)
		c := data / (believed + data)
		spread := math.Sqrt(c*c*(w.level*w.level+w.lot*w.lot) + (1-c)*(1-c)*data)
		half := Z90 * math.Sqrt(believed*data/(believed+data))
		theory := phi((half+c*shift)/spread) - phi((-half+c*shift)/spread)
		t.Logf("wrong prior, after %d batches: the 80 %% range holds %.1f %% of the truths (theory %.1f %%)", got.batches, 100*got.coverage, 100*theory)
		near(t, fmt.Sprintf("coverage after %d batches", got.batches), got.coverage, theory, 0.01)
		if got.coverage > 0.79 {
			t.Errorf("after %d batches a wrong prior still covers %.1f %%: the test has no teeth", got.batches, 100*got.coverage)
		}
		if got.coverage <= last {
			t.Errorf("after %d batches coverage is %.3f, no better than %.3f before", got.batches, got.coverage, last)
		}
		last = got.coverage
	}
}
