package evidence

import (
	"fmt"
	"math"
	"sort"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Normal is a normal distribution. Over a logarithm it is unitless.
type Normal struct{ Mean, SD float64 }

// NormalUpdateRelation is the conjugate update of a normal mean.
var NormalUpdateRelation = trace.Relation{
	Name:     "normal–normal update",
	Equation: "1/τ'² = 1/τ² + 1/σ²; θ' = τ'²(θ/τ² + y/σ²)",
	Source:   "Johnson, Ott and Dogucu, Bayes Rules!, chapter 5",
}

// Update is what remains of a normal belief after one reading y of known
// standard deviation: the mean of both, weighted by 1/variance. For n readings
// of one kind give their mean and σ/√n. Johnson, Ott and Dogucu, Bayes Rules!,
// chapter 5.
func (n Normal) Update(y, sd float64) Normal {
	prior, data := n.SD*n.SD, sd*sd
	if prior == 0 {
		return n
	}
	if math.IsInf(data, 1) {
		return n
	}
	return Normal{
		Mean: n.Mean + prior/(prior+data)*(y-n.Mean),
		SD:   math.Sqrt(prior * data / (prior + data)),
	}
}

// A Prior is what is believed of a pigment before the maker's own tests.
type Prior[Q quantity.Real] struct {
	// General is the pigment's own level, averaged over lots.
	General Distribution[Q]
	// Lot is the log standard deviation between lots of one pigment.
	Lot float64
}

// SplitRelation says how a catalogue's spread is shared out.
var SplitRelation = trace.Relation{
	Name:     "catalogue spread split into level and lot",
	Equation: "σ² = s₀² + σlot², σlot² = share·σ²",
	Source:   "model of this program",
}

// EvenSplit is the share of a catalogue's variance laid to lots where nothing
// is known of it. Basis: common practice of an even split between two unknown
// parts; no source was found.
const EvenSplit quantity.Ratio = 0.5

// Split makes a prior of a catalogue's distribution. That distribution is of
// one more jar, so its variance is the level's and the lot's together; share is
// the lot's part of it, 0 to 1.
func Split[Q quantity.Real](catalogue Distribution[Q], share quantity.Ratio) (Prior[Q], error) {
	if !(share >= 0 && share <= 1) {
		return Prior[Q]{}, fmt.Errorf("share of the lots is %g: it lies between 0 and 1", float64(share))
	}
	p := Prior[Q]{General: catalogue, Lot: catalogue.Sigma * math.Sqrt(float64(share))}
	p.General.Sigma *= math.Sqrt(1 - float64(share))
	return p, p.check()
}

func (p Prior[Q]) check() error {
	m, s := float64(p.General.Median), p.General.Sigma
	switch {
	case !(m > 0) || math.IsInf(m, 1):
		return fmt.Errorf("prior median is %g: it must be positive and finite", m)
	case !(s >= 0) || math.IsInf(s, 1):
		return fmt.Errorf("prior spread is %g: it must be finite and not negative", s)
	case !(p.Lot >= 0) || math.IsInf(p.Lot, 1):
		return fmt.Errorf("spread between lots is %g: it must be finite and not negative", p.Lot)
	}
	return nil
}

// RubOutScatter is the log standard deviation of one hand's rub-out, from the
// common practice that two should agree within 5 % of their mean ([CommonSpread]),
// read as a repeatability limit: a difference that 95 % of pairs keep within is
// 1.96·√2 standard deviations (ISO 5725-6). Basis: common practice.
const RubOutScatter = float64(CommonSpread) / (1.959963984540054 * math.Sqrt2)

// An Observation is one test of one lot, turned into the quantity that is
// learned: a rub-out as it stands, a batch's oil divided by what its body takes
// beside the quantity.
type Observation[Q quantity.Real] struct {
	Lot   string // the maker's own word for the jar
	Value Q
	// Scatter is the log standard deviation of such a test about its lot: for a
	// rub-out the hand's, for a batch the body's own.
	Scatter float64
}

func (o Observation[Q]) check() error {
	v := float64(o.Value)
	switch {
	case !(v > 0) || math.IsInf(v, 1):
		return fmt.Errorf("lot %q: value is %g: it must be positive and finite", o.Lot, v)
	case !(o.Scatter > 0) || math.IsInf(o.Scatter, 1):
		return fmt.Errorf("lot %q: scatter is %g: it must be positive and finite", o.Lot, o.Scatter)
	}
	return nil
}

// A Posterior is what is believed after the maker's own tests.
type Posterior[Q quantity.Real] struct {
	Prior   Prior[Q]
	General Distribution[Q] // the pigment's own level
	NewLot  Distribution[Q] // a jar not yet opened
	Lots    []LotPosterior[Q]
	lots    []lot
}

// A LotPosterior is what is believed of one lot.
type LotPosterior[Q quantity.Real] struct {
	Lot   string
	Tests int
	Own   Distribution[Q]
}

// lot holds all that the tests of one lot say: their weighted mean and its
// standard deviation, which is enough for a normal model.
type lot struct {
	name  string
	tests int
	mean  Normal
}

// UpdateRelation is the whole model.
var UpdateRelation = trace.Relation{
	Name:     "update of a log-normal quantity by the maker's own tests",
	Equation: "ln y = λ + e, e ~ N(0, σtest²); λ = μ + l, l ~ N(0, σlot²); μ ~ N(ln m, s₀²)",
	Source:   "normal–normal update on logarithms; Gelman and others, Bayesian Data Analysis, chapter 5, for the two levels (from memory)",
}

// Update works the maker's tests into a prior. The order of the tests, and
// whether they come one by one or together, makes no difference.
func Update[Q quantity.Real](prior Prior[Q], tests []Observation[Q]) (Posterior[Q], error) {
	if err := prior.check(); err != nil {
		return Posterior[Q]{}, err
	}
	byName := map[string]*lot{}
	for i, o := range tests {
		if err := o.check(); err != nil {
			return Posterior[Q]{}, fmt.Errorf("test %d: %w", i+1, err)
		}
		l := byName[o.Lot]
		if l == nil {
			l = &lot{name: o.Lot, mean: Normal{SD: math.Inf(1)}}
			byName[o.Lot] = l
		}
		l.add(math.Log(float64(o.Value)), o.Scatter)
	}
	lots := make([]lot, 0, len(byName))
	for _, l := range byName {
		lots = append(lots, *l)
	}
	sort.Slice(lots, func(i, j int) bool { return lots[i].name < lots[j].name })
	return posterior(prior, lots), nil
}

// add takes one more test into a lot's weighted mean.
func (l *lot) add(y, sd float64) {
	l.tests++
	if math.IsInf(l.mean.SD, 1) {
		l.mean = Normal{Mean: y, SD: sd}
		return
	}
	l.mean = l.mean.Update(y, sd)
}

func posterior[Q quantity.Real](prior Prior[Q], lots []lot) Posterior[Q] {
	p := Posterior[Q]{Prior: prior, lots: lots}
	general := level(prior, lots, -1)
	p.General = logNormal[Q](general)
	p.NewLot = logNormal[Q](Normal{general.Mean, math.Hypot(general.SD, prior.Lot)})
	for i, l := range lots {
		p.Lots = append(p.Lots, LotPosterior[Q]{Lot: l.name, Tests: l.tests, Own: logNormal[Q](ownLevel(prior, lots, i))})
	}
	return p
}

func logNormal[Q quantity.Real](n Normal) Distribution[Q] {
	return Distribution[Q]{Median: Q(math.Exp(n.Mean)), Sigma: n.SD}
}

func (d Distribution[Q]) log() Normal {
	return Normal{Mean: math.Log(float64(d.Median)), SD: d.Sigma}
}

// level is the belief about the pigment's own level from all lots but one (−1:
// from all). A lot's mean scatters about the level by the lot and by its tests.
func level[Q quantity.Real](prior Prior[Q], lots []lot, except int) Normal {
	n := prior.General.log()
	for i, l := range lots {
		if i != except {
			n = n.Update(l.mean.Mean, math.Hypot(prior.Lot, l.mean.SD))
		}
	}
	return n
}

// ownLevel is the belief about one lot: what the other lots say of it, then its
// own tests.
func ownLevel[Q quantity.Real](prior Prior[Q], lots []lot, i int) Normal {
	n := level(prior, lots, i)
	n.SD = math.Hypot(n.SD, prior.Lot)
	return n.Update(lots[i].mean.Mean, lots[i].mean.SD)
}

func (p Posterior[Q]) find(name string) int {
	for i, l := range p.lots {
		if l.name == name {
			return i
		}
	}
	return -1
}

// Lot is what is believed of a lot; of one never tested, what is believed of a
// new jar.
func (p Posterior[Q]) Lot(name string) Distribution[Q] {
	if i := p.find(name); i >= 0 {
		return p.Lots[i].Own
	}
	return p.NewLot
}

// A Test is one that might be done next.
type Test struct {
	Name    string // "one more rub-out", "one more batch"
	Lot     string
	Scatter float64 // as in [Observation]
}

// A Gain is how far a test would narrow what is believed of a lot. It does not
// depend on how the test comes out.
type Gain struct {
	Test
	Before, After float64 // log standard deviation
	// Narrowing is the share of the range's log width that would go, 0 to 1.
	Narrowing quantity.Ratio
}

// GainRelation is the narrowing of one more test.
var GainRelation = trace.Relation{
	Name:     "narrowing by one more test",
	Equation: "1/τ'² = 1/τ² + 1/σ² for a test of the same lot; narrowing = 1 − τ'/τ",
	Source:   "normal–normal update",
}

// Gains says how far each test would narrow what is believed of one lot, the
// best first; equal ones keep their order.
func (p Posterior[Q]) Gains(target string, tests ...Test) ([]Gain, error) {
	out := make([]Gain, 0, len(tests))
	before := p.Lot(target).Sigma
	for _, t := range tests {
		if err := (Observation[Q]{Lot: t.Lot, Value: 1, Scatter: t.Scatter}).check(); err != nil {
			return nil, fmt.Errorf("%s: %w", t.Name, err)
		}
		lots := append([]lot(nil), p.lots...)
		i := p.find(t.Lot)
		if i < 0 {
			i, lots = len(lots), append(lots, lot{name: t.Lot, mean: Normal{SD: math.Inf(1)}})
		}
		// Any value will do: the spread after a normal update does not depend on it.
		lots[i].add(0, t.Scatter)
		after := posterior(p.Prior, lots).Lot(target).Sigma
		g := Gain{Test: t, Before: before, After: after}
		if before > 0 {
			g.Narrowing = quantity.Ratio(1 - after/before)
		}
		out = append(out, g)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].After < out[j].After })
	return out, nil
}

// A Conflict says how far a test lies from what was believed before it.
type Conflict struct {
	// Z is the distance in predictive standard deviations. Negative: less than
	// believed, as a damp pigment gives, which brings less powder to the scale
	// than it weighs; positive: more.
	Z float64
	// Probability is that of lying as far out, either way, were all well.
	Probability Probability
	Doubtful    bool // Probability below Odd
}

// Odd is the probability below which a test is called doubtful: wrong jar, damp
// or adulterated pigment, wrong reading. Basis: common practice, 1 in 100.
const Odd Probability = 0.01

// ConflictRelation is the distance of a test from the prediction.
var ConflictRelation = trace.Relation{
	Name:     "predictive distance of a test",
	Equation: "z = (ln y − E ln λ)/√(τ² + σ²); P = erfc(|z|/√2)",
	Source:   "prior predictive check; Box 1980 (from memory)",
}

// Contradicts measures a test against what is believed of its lot. Ask it of
// the posterior before the test is worked in.
func (p Posterior[Q]) Contradicts(o Observation[Q]) (Conflict, error) {
	if err := o.check(); err != nil {
		return Conflict{}, err
	}
	believed := p.Lot(o.Lot).log()
	z := (math.Log(float64(o.Value)) - believed.Mean) / math.Hypot(believed.SD, o.Scatter)
	c := Conflict{Z: z, Probability: Probability(math.Erfc(math.Abs(z) / math.Sqrt2))}
	c.Doubtful = c.Probability < Odd
	return c, nil
}
