package formulate

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// farOut is the oil absorption z predictive standard deviations above what the
// catalogue believes of one rub-out of the invented blue.
func farOut(t *testing.T, z float64) quantity.AbsorptionVolume {
	in := ready(t, powder("blue", 2.34, 38))
	d := in.Demand.Oil()
	return quantity.AbsorptionVolume(float64(d.Median) * math.Exp(z*math.Hypot(d.Sigma, evidence.RubOutScatter)))
}

// Left out just beyond the distance that the comment states, named just beyond
// the one that is odd.
func TestLearnLeavesOut(t *testing.T) {
	for _, c := range []struct {
		z             float64
		sure          bool
		named, counts bool
	}{
		{2.57, false, false, true},
		{2.58, false, true, true},
		{3.29, false, true, true},
		{3.30, false, true, false},
		{-3.30, false, true, false},
		{10, false, true, false},
		{10, true, true, true},
	} {
		r := learn(t, Trial{Number: 7, Lot: "A", Sure: c.sure, RubOut: rubOutOf(farOut(t, c.z), 1)})
		if named := len(r.Conflicts) == 1; named != c.named {
			t.Errorf("z = %v: conflicts %+v", c.z, r.Conflicts)
			continue
		}
		if counts := r.Absorption.Tests == 1 && r.Pigment.OwnAbsorption; counts != c.counts {
			t.Errorf("z = %v, sure %v: counts %v, want %v", c.z, c.sure, counts, c.counts)
		}
		if c.named && (r.Conflicts[0].LeftOut == c.counts || r.Conflicts[0].Sure != c.sure || math.Abs(r.Conflicts[0].Z-c.z) > 1e-9) {
			t.Errorf("z = %v: %+v", c.z, r.Conflicts[0])
		}
	}
}

// A slip teaches nothing: not its pigment, not the scatter of others, not which
// jar is in use; and every answer can say so.
func TestLearnLeftOutTeachesNothing(t *testing.T) {
	good := []Trial{
		{Number: 1, Lot: "A", Batch: batchOf(t, 60, "buttery")},
		{Number: 2, Lot: "A", RubOut: rubOutOf(45, 2)},
	}
	slips := []Trial{
		{Number: 3, Batch: batchOf(t, 500, "stiff")},
		{Number: 4, Lot: "B", RubOut: rubOutOf(473, 1)},
	}
	want, got := learn(t, good...), learn(t, slices.Concat(good, slips)...)
	if got.Jar != "A" {
		t.Errorf("the jar in use is %q by a slip", got.Jar)
	}
	if got.Absorption.Own != want.Absorption.Own || got.Demand.Own != want.Demand.Own || got.Demand.Scatter != want.Demand.Scatter || len(got.Absorption.Lots) != 1 {
		t.Errorf("with slips %+v, without %+v", got.Absorption, want.Absorption)
	}
	if got.Pigment.Material.Tests != want.Pigment.Material.Tests {
		t.Errorf("rests on %q, without slips on %q", got.Pigment.Material.Tests, want.Pigment.Material.Tests)
	}
	doubts := got.Pigment.Learned.Doubts()
	if len(doubts) != 2 || !strings.HasPrefix(doubts[0], "not used: entry 3 of your batch book does not fit (batch of blue: 647 g/100 g, where the catalogue says ") {
		t.Errorf("doubts: %q", doubts)
	}
	// Alone they leave the catalogue's figures, and are still named.
	r := learn(t, slips...)
	if r.Pigment.OwnAbsorption || r.Pigment.OwnDemand || r.Pigment.Material.Tests != "" || r.Jar != "" {
		t.Errorf("slips alone taught: %+v", r.Pigment.Material.Tests)
	}
	req := request(t)
	req.Pigments[0].Ingredient = r.Pigment
	res, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Contains(res.Warnings, r.Pigment.Learned.Doubts()[1]) {
		t.Errorf("the mull says %q", res.Warnings)
	}
	if many := learn(t, slips[0], slips[0], slips[0], slips[0], slips[0]).Pigment.Learned.Doubts(); len(many) != 4 || !strings.HasPrefix(many[3], "2 more entries") {
		t.Errorf("of five slips: %q", many)
	}
}

// An odd jar whose maker is sure of one test: the next tests that agree with it
// count without a word, and what fits the catalogue counts as before.
func TestLearnFitsWhatIsSure(t *testing.T) {
	odd := farOut(t, 4)
	sure := Trial{Number: 1, Lot: "A", Sure: true, RubOut: rubOutOf(odd, 3)}
	again := Trial{Number: 2, Lot: "A", RubOut: rubOutOf(odd*1.02, 1)}
	usual := Trial{Number: 3, Lot: "B", RubOut: rubOutOf(farOut(t, 0), 1)}
	slip := Trial{Number: 4, Lot: "A", RubOut: rubOutOf(odd*10, 1)}
	r := learn(t, sure, again, usual, slip)
	if r.Absorption.Tests != 5 {
		t.Errorf("%d tests count, want 3 + 1 + 1", r.Absorption.Tests)
	}
	var left []int
	for _, c := range r.Conflicts {
		if c.LeftOut {
			left = append(left, c.Number)
		}
	}
	if !slices.Equal(left, []int{4}) {
		t.Errorf("left out: %v", left)
	}
	if len(r.Pigment.Learned.Doubts()) != 1 {
		t.Errorf("doubts %q: the maker knows of entry 1", r.Pigment.Learned.Doubts())
	}
}

// Which tests are left out depends on no order and on no jar asked about.
func TestLeftOutWhateverTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var trials []Trial
		for i := range rapid.IntRange(1, 8).Draw(t, "trials") {
			x := Trial{Number: i + 1, Lot: rapid.SampledFrom([]string{"A", "B"}).Draw(t, "lot"), Sure: rapid.Bool().Draw(t, "sure")}
			if rapid.Bool().Draw(t, "batch") {
				x.Batch = batchOf(t, quantity.Mass(rapid.Float64Range(5, 600).Draw(t, "oil")), "buttery")
			} else {
				x.RubOut = rubOutOf(quantity.AbsorptionVolume(rapid.Float64Range(5, 400).Draw(t, "oa")), 1)
			}
			trials = append(trials, x)
		}
		left := func(list []Trial, jar string) []int {
			r, err := Learn(LearnRequest{Pigment: ready(t, powder("blue", 2.34, 38)), Trials: list, Jar: &jar})
			if err != nil {
				t.Fatal(err)
			}
			var out []int
			for _, c := range r.Conflicts {
				if c.LeftOut {
					out = append(out, c.Number)
				}
			}
			slices.Sort(out)
			return out
		}
		want := left(trials, "A")
		mixed := rapid.Permutation(trials).Draw(t, "order")
		if got := left(mixed, "B"); !slices.Equal(got, want) {
			t.Fatalf("left out %v, in another order %v", want, got)
		}
	})
}

// Rub-outs in a catalogue file of the maker's own teach as those in the book do:
// by their mean and scatter, or one by one, the answer is the same.
func TestOwnReadingsLearnAsTheBook(t *testing.T) {
	values := []quantity.AbsorptionVolume{44.1, 46.2, 45.0}
	m := powder("blue", 2.34, 38)
	var squares, mean float64
	for _, v := range values {
		mean += math.Log(float64(v)) / float64(len(values))
	}
	for _, v := range values {
		m.OilAbsorption = append(m.OilAbsorption, material.OilReading{ValueVol: v, Method: material.RubOut, Source: material.OwnMeasurement, Lot: "A"})
		squares += math.Pow(math.Log(float64(v))-mean, 2)
	}
	file := ready(t, m)
	own := rubOutOf(quantity.AbsorptionVolume(math.Exp(mean)), 3)
	own.Scatter = quantity.Ratio(math.Sqrt(squares / 2))
	book := learn(t, Trial{Number: 1, Lot: "A", RubOut: own}).Pigment
	near(t, "median", float64(file.Absorption.Median), float64(book.Absorption.Median), 1e-9)
	near(t, "spread", file.Absorption.Sigma, book.Absorption.Sigma, 1e-12)
	near(t, "demand", float64(file.Demand.TubeColour(2.34).Median), float64(book.Demand.TubeColour(2.34).Median), 1e-9)
	if file.Material.Tests != "lot A: 3 rub-outs in your catalogue file" || book.Material.Tests != "lot A: 3 rub-outs in your batch book" {
		t.Errorf("rest on %q and on %q", file.Material.Tests, book.Material.Tests)
	}
	// With a batch in the book as well, both count, and once each.
	r, err := Learn(LearnRequest{Pigment: file, Trials: []Trial{{Number: 1, Lot: "B", Batch: batchOf(t, 60, "buttery")}}})
	if err != nil {
		t.Fatal(err)
	}
	if r.Absorption.Tests != 3 || r.Demand.Tests != 1 || r.Jar != "B" || r.Absorption.Catalogue != book.Learned.Absorption.Catalogue {
		t.Errorf("%d rub-outs, %d batches, jar %q", r.Absorption.Tests, r.Demand.Tests, r.Jar)
	}
	if got, want := r.Pigment.Material.Tests, "lot B: 1 batch in your batch book, 3 rub-outs in your catalogue file, 3 of them of other jars"; got != want {
		t.Errorf("rests on %q, want %q", got, want)
	}
	if len(r.Warnings) > 0 {
		t.Errorf("a batch counts twice: %q", r.Warnings)
	}
}

// Where nothing is published the maker's own rub-outs are all there is, and
// narrow all the same: 21 ml with three tests that agree is 21 within 1 or 2 %.
func TestOwnReadingsAlone(t *testing.T) {
	m := powder("blue", 2.34, 38)
	m.OilAbsorption = nil
	for _, v := range []quantity.AbsorptionVolume{20.8, 21.0, 21.2} {
		m.OilAbsorption = append(m.OilAbsorption, material.OilReading{ValueVol: v, Method: material.RubOut, Source: material.OwnMeasurement})
	}
	in := ready(t, m)
	if rg := in.Absorption.Range(); !(rg.Low > 20.6 && rg.High < 21.4) || math.Abs(float64(rg.Typical)-21) > 0.01 {
		t.Errorf("three agreeing rub-outs of 21 give %v", rg)
	}
	// The start hardly matters: twice as wide, the spread moves by under 1 %.
	s := evidence.RubOutScatter / math.Sqrt(3)
	at := func(prior float64) float64 { return 1 / math.Sqrt(1/(prior*prior)+1/(s*s)) }
	if w := material.AbsorptionWidth.Sigma; at(2*w)/at(w) > 1.01 {
		t.Errorf("the start makes out %v", at(2*w)/at(w))
	}
	// A range is of many jars and no test of one.
	m.OilAbsorption = []material.OilReading{{LowVol: 18, HighVol: 25, Method: material.RubOut, Source: material.OwnMeasurement}}
	if in := ready(t, m); in.OwnAbsorption || in.Material.Tests != "" {
		t.Errorf("a range counts as a rub-out: %q", in.Material.Tests)
	}
	// One that no pigment takes is refused by its name.
	m.OilAbsorption = []material.OilReading{{ValueVol: 1500, Method: material.RubOut, Source: material.OwnMeasurement}}
	if _, err := NewIngredient(m); err == nil || !strings.Contains(err.Error(), "a rub-out in your catalogue file") {
		t.Errorf("1500 ml/100 g: %v", err)
	}
}

// Repeats within one entry correct the scatter as entries of one jar do.
func TestScatterWithinAnEntry(t *testing.T) {
	apart := newScatter(0.02)
	for _, v := range []float64{0.1, 0.2, 0.4} {
		apart.add("A", v, 1)
	}
	together := newScatter(0.02)
	together.add("A", 0.7/3, 3)
	together.within(math.Sqrt(apart.squares/2), 3)
	near(t, "scatter", together.sigma(), apart.sigma(), 1e-12)
	for _, bad := range []OwnRubOut{{Value: 40, Tests: 1, Scatter: 0.1}, {Value: 40, Tests: 3, Scatter: -1}, {Value: 40, Tests: 3, Scatter: quantity.Ratio(math.NaN())}} {
		if bad.Validate() == nil {
			t.Errorf("%+v was accepted", bad)
		}
	}
}
