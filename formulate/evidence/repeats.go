package evidence

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/stat/distuv"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Probability is a confidence level or a level of significance, 0 to 1.
type Probability float64

func (p Probability) check(what string) error {
	if !(p > 0 && p < 1) {
		return fmt.Errorf("%s is %g: it lies between 0 and 1, for example 0.95", what, float64(p))
	}
	return nil
}

// Repeats is what repeated readings of one thing say.
type Repeats[Q quantity.Real] struct {
	N    int
	Mean Q
	// SD is the experimental standard deviation of one reading, with n − 1 in
	// the denominator. A single reading has none: 0, see HasSpread.
	SD Q
}

// RepeatsRelation is the mean and its standard uncertainty.
var RepeatsRelation = trace.Relation{
	Name:     "mean and scatter of repeats",
	Equation: "x̄ = Σxᵢ/n; s² = Σ(xᵢ − x̄)²/(n − 1); u(x̄) = s/√n",
	Source:   "JCGM 100:2008, clause 4.2",
}

// Repeat summarises readings: x̄ = Σxᵢ/n, s² = Σ(xᵢ − x̄)²/(n − 1).
// JCGM 100:2008, clause 4.2.
func Repeat[Q quantity.Real](values []Q) (Repeats[Q], error) {
	if err := finite(values, 1); err != nil {
		return Repeats[Q]{}, err
	}
	// The mean is taken about the first reading, so that large readings that
	// differ little keep their digits.
	n, first := float64(len(values)), float64(values[0])
	var sum float64
	for _, v := range values {
		sum += float64(v) - first
	}
	mean := first + sum/n
	var squares float64
	for _, v := range values {
		d := float64(v) - mean
		squares += d * d
	}
	r := Repeats[Q]{N: len(values), Mean: Q(mean)}
	if r.HasSpread() {
		r.SD = Q(math.Sqrt(squares / (n - 1)))
	}
	return r, nil
}

func finite[Q quantity.Real](values []Q, least int) error {
	if len(values) < least {
		return fmt.Errorf("%d readings: at least %d are needed", len(values), least)
	}
	for i, v := range values {
		if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
			return fmt.Errorf("reading %d is not a finite number", i+1)
		}
	}
	return nil
}

// HasSpread reports whether there are enough readings to speak of scatter.
func (r Repeats[Q]) HasSpread() bool { return r.N > 1 }

// Estimate is the mean with its standard uncertainty s/√n and n − 1 degrees of
// freedom. It fails for a single reading.
func (r Repeats[Q]) Estimate() (Estimate[Q], error) {
	if !r.HasSpread() {
		return Estimate[Q]{}, fmt.Errorf("one reading has no scatter: repeat the test at least once")
	}
	n := float64(r.N)
	return Estimate[Q]{Value: r.Mean, U: Q(float64(r.SD) / math.Sqrt(n)), DOF: n - 1}, nil
}

// Interval is the Student t interval of the mean, x̄ ± t·s/√n.
func (r Repeats[Q]) Interval(confidence Probability) (low, high Q, err error) {
	e, err := r.Estimate()
	if err != nil {
		return 0, 0, err
	}
	half, err := e.Expanded(confidence)
	return e.Value - half, e.Value + half, err
}

// StudentRelation is the coverage factor of few repeats.
var StudentRelation = trace.Relation{
	Name:     "Student t interval",
	Equation: "x̄ ± t(p, ν)·u(x̄), ν = n − 1",
	Source:   "JCGM 100:2008, G.3; Student 1908",
}

// Student is the two-sided Student t factor: a share p of the distribution
// with ν degrees of freedom lies within ±t. ν need not be whole; +Inf gives the
// normal distribution.
func Student(p Probability, dof float64) (float64, error) {
	if err := p.check("confidence"); err != nil {
		return 0, err
	}
	if !(dof > 0) {
		return 0, fmt.Errorf("%g degrees of freedom: more than 0 are needed", dof)
	}
	return quantileT(0.5+float64(p)/2, dof), nil
}

// quantileT wraps a library that panics on arguments it does not like; its
// callers have checked them.
func quantileT(p, dof float64) float64 {
	if math.IsInf(dof, 1) {
		return distuv.UnitNormal.Quantile(p)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: dof}.Quantile(p)
}

// CommonSpread is how far apart two rub-outs of one hand may lie, as a share of
// their mean, before a third is asked for. Basis: common practice; the
// precision clauses of the standards were not open to be read.
const CommonSpread quantity.Ratio = 0.05

// An Agreement says whether repeats lie together.
type Agreement struct {
	Spread  quantity.Ratio // (largest − smallest)/mean
	Allowed quantity.Ratio
	Agree   bool
}

// AgreementRelation is the spread of repeats beside what is allowed.
var AgreementRelation = trace.Relation{
	Name:     "agreement of repeats",
	Equation: "(xmax − xmin)/x̄ ≤ allowed",
	Source:   "common practice",
}

// Agree compares the spread of repeats of a positive quantity with an allowed
// share of their mean.
func Agree[Q quantity.Real](values []Q, allowed quantity.Ratio) (Agreement, error) {
	if err := finite(values, 2); err != nil {
		return Agreement{}, err
	}
	if !(allowed > 0) {
		return Agreement{}, fmt.Errorf("allowed spread is %g: it must be above 0, for example 0.05", float64(allowed))
	}
	r, err := Repeat(values)
	if err != nil {
		return Agreement{}, err
	}
	low, high := values[0], values[0]
	for _, v := range values {
		if !(v > 0) {
			return Agreement{}, fmt.Errorf("reading %g: only positive readings are compared as a share of their mean", float64(v))
		}
		low, high = min(low, v), max(high, v)
	}
	spread := quantity.Ratio(float64(high-low) / float64(r.Mean))
	return Agreement{Spread: spread, Allowed: allowed, Agree: spread <= allowed}, nil
}

// Sides says which outliers a test looks for.
type Sides int

const (
	OneSided Sides = 1 // the suspect was named beforehand: too high, or too low
	TwoSided Sides = 2 // whichever lies farthest out
)

// An Outlier is the result of a test on the reading that lies farthest out. A
// test on few repeats finds only gross errors: look for the cause before a
// reading is dropped, and never drop more than one.
type Outlier[Q quantity.Real] struct {
	Test      string // "Grubbs" or "Dixon"
	Index     int    // of the suspect among the readings as given, from 0
	Value     Q
	Statistic float64 // a pure number
	Critical  float64 // the same, at the level Alpha
	Alpha     Probability
	Sides     Sides
	Rejected  bool // Statistic > Critical
	// Coarse is set where Dixon's ratio is 1 only because all the other readings
	// are printed alike: with three, that says nothing.
	Coarse bool
}

// GrubbsRelation is Grubbs' test for one outlier.
var GrubbsRelation = trace.Relation{
	Name:     "Grubbs' test",
	Equation: "G = |x − x̄|/s; Gc = ((n − 1)/√n)·√(t²/(n − 2 + t²)), t = t(1 − α/n, n − 2), two-sided t(1 − α/(2n), n − 2)",
	Source:   "Grubbs 1950 and 1969",
}

// GrubbsCritical is the critical value of Grubbs' statistic for n readings.
// Grubbs, Ann. Math. Stat. 21, 27 (1950); Technometrics 11, 1 (1969).
func GrubbsCritical(n int, alpha Probability, sides Sides) (float64, error) {
	if n < 3 {
		return 0, fmt.Errorf("%d readings: Grubbs' test needs at least 3", n)
	}
	if err := alpha.check("level of significance"); err != nil {
		return 0, err
	}
	if sides != OneSided && sides != TwoSided {
		return 0, fmt.Errorf("a test has one side or two, not %d", int(sides))
	}
	k := float64(n)
	t := quantileT(1-float64(alpha)/(float64(sides)*k), k-2)
	return (k - 1) / math.Sqrt(k) * math.Sqrt(t*t/(k-2+t*t)), nil
}

// Grubbs tests the reading farthest from the mean. Readings that are all alike
// have no suspect: the statistic is 0.
func Grubbs[Q quantity.Real](values []Q, alpha Probability, sides Sides) (Outlier[Q], error) {
	critical, err := GrubbsCritical(len(values), alpha, sides)
	if err != nil {
		return Outlier[Q]{}, err
	}
	r, err := Repeat(values)
	if err != nil {
		return Outlier[Q]{}, err
	}
	o := Outlier[Q]{Test: "Grubbs", Value: values[0], Critical: critical, Alpha: alpha, Sides: sides}
	for i, v := range values {
		if math.Abs(float64(v-r.Mean)) > math.Abs(float64(o.Value-r.Mean)) {
			o.Index, o.Value = i, v
		}
	}
	if r.SD > 0 {
		o.Statistic = math.Abs(float64(o.Value-r.Mean)) / float64(r.SD)
	}
	o.Rejected = o.Statistic > o.Critical
	return o, nil
}

// dixon holds the critical values of Dixon's r10 for 3 to 10 readings, as
// printed by Rorabacher, Analytical Chemistry 63, 139 (1991), two-sided; a
// one-sided test at half the level uses the same column.
var dixon = map[Probability][8]float64{
	0.10: {0.941, 0.765, 0.642, 0.560, 0.507, 0.468, 0.437, 0.412},
	0.05: {0.970, 0.829, 0.710, 0.625, 0.568, 0.526, 0.493, 0.466},
	0.01: {0.994, 0.926, 0.821, 0.740, 0.680, 0.634, 0.598, 0.568},
}

// DixonRelation is Dixon's test for one outlier.
var DixonRelation = trace.Relation{
	Name:     "Dixon's test, r10",
	Equation: "Q = gap/range, table of critical values",
	Source:   "Dixon 1950 and 1951; critical values: Rorabacher 1991",
}

// DixonCritical is the critical value of Dixon's r10 for 3 to 10 readings. The
// table holds the two-sided levels 0.10, 0.05 and 0.01 and the one-sided levels
// of half of these. Dixon himself advised r10 for 3 to 7 readings.
func DixonCritical(n int, alpha Probability, sides Sides) (float64, error) {
	if n < 3 || n > 10 {
		return 0, fmt.Errorf("%d readings: the table of Dixon's test goes from 3 to 10", n)
	}
	if sides != OneSided && sides != TwoSided {
		return 0, fmt.Errorf("a test has one side or two, not %d", int(sides))
	}
	for level, row := range dixon {
		if math.Abs(float64(level)-float64(alpha)*2/float64(sides)) < 1e-9 {
			return row[n-3], nil
		}
	}
	return 0, fmt.Errorf("level %g: the table of Dixon's test has 0.10, 0.05 and 0.01 two-sided, or half of these one-sided", float64(alpha))
}

// Dixon tests the reading at the end with the wider gap: the distance to its
// neighbour over the whole range.
func Dixon[Q quantity.Real](values []Q, alpha Probability, sides Sides) (Outlier[Q], error) {
	critical, err := DixonCritical(len(values), alpha, sides)
	if err != nil {
		return Outlier[Q]{}, err
	}
	if err := finite(values, 3); err != nil {
		return Outlier[Q]{}, err
	}
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return values[order[a]] < values[order[b]] })
	n := len(order)
	at := func(rank int) float64 { return float64(values[order[rank]]) }
	below, above, width := at(1)-at(0), at(n-1)-at(n-2), at(n-1)-at(0)
	suspect, gap := order[0], below
	if above > below {
		suspect, gap = order[n-1], above
	}
	o := Outlier[Q]{Test: "Dixon", Index: suspect, Value: values[suspect], Critical: critical, Alpha: alpha, Sides: sides}
	if width > 0 {
		o.Statistic = gap / width
	}
	o.Rejected = o.Statistic > o.Critical
	o.Coarse = width > 0 && gap == width
	return o, nil
}

// A Weighted is a mean of estimates that differ in how sure they are.
type Weighted[Q quantity.Real] struct {
	Mean Q
	U    Q // standard uncertainty from the estimates' own
	// Birge is the ratio of the scatter found to the scatter the estimates claim;
	// above 1 they disagree. 0 for a single estimate.
	Birge  quantity.Ratio
	Scaled Q // U, times Birge where that is above 1
}

// WeightedMeanRelation is the mean weighted by uncertainty.
var WeightedMeanRelation = trace.Relation{
	Name:     "weighted mean and Birge ratio",
	Equation: "x̄ = Σ(xᵢ/uᵢ²)/Σ(1/uᵢ²); u = 1/√Σ(1/uᵢ²); R = √(Σ((xᵢ − x̄)/uᵢ)²/(n − 1))",
	Source:   "least squares; widening by the Birge ratio is common practice",
}

// WeightedMean weighs estimates by 1/u².
func WeightedMean[Q quantity.Real](estimates []Estimate[Q]) (Weighted[Q], error) {
	if len(estimates) == 0 {
		return Weighted[Q]{}, fmt.Errorf("no estimates: at least 1 is needed")
	}
	var sum, weights float64
	for i, e := range estimates {
		if err := e.check(); err != nil {
			return Weighted[Q]{}, fmt.Errorf("estimate %d: %w", i+1, err)
		}
		if e.U == 0 {
			return Weighted[Q]{}, fmt.Errorf("estimate %d: an exact value cannot be weighed against others", i+1)
		}
		w := 1 / float64(e.U) / float64(e.U)
		sum += w * float64(e.Value)
		weights += w
	}
	mean := sum / weights
	out := Weighted[Q]{Mean: Q(mean), U: Q(1 / math.Sqrt(weights))}
	out.Scaled = out.U
	if n := float64(len(estimates)); n > 1 {
		var chi float64
		for _, e := range estimates {
			d := (float64(e.Value) - mean) / float64(e.U)
			chi += d * d
		}
		out.Birge = quantity.Ratio(math.Sqrt(chi / (n - 1)))
		out.Scaled = out.U * Q(max(1, float64(out.Birge)))
	}
	return out, nil
}

// CorrelationRelation is the correlation of two means from joint readings.
var CorrelationRelation = trace.Relation{
	Name:     "correlation of joint readings",
	Equation: "r = Σ(xᵢ − x̄)(yᵢ − ȳ)/√(Σ(xᵢ − x̄)²·Σ(yᵢ − ȳ)²)",
	Source:   "JCGM 100:2008, clause 5.2.3",
}

// Correlation is the correlation coefficient of two quantities read together,
// and of their means.
func Correlation[A, B quantity.Real](x []A, y []B) (quantity.Ratio, error) {
	if len(x) != len(y) {
		return 0, fmt.Errorf("%d readings of one quantity, %d of the other: they must be read together", len(x), len(y))
	}
	if err := finite(x, 2); err != nil {
		return 0, err
	}
	if err := finite(y, 2); err != nil {
		return 0, err
	}
	mx, _ := Repeat(x)
	my, _ := Repeat(y)
	if mx.SD == 0 || my.SD == 0 {
		return 0, fmt.Errorf("a quantity that does not vary has no correlation")
	}
	var products float64
	for i := range x {
		products += float64(x[i]-mx.Mean) * float64(y[i]-my.Mean)
	}
	r := products / (float64(mx.N-1) * float64(mx.SD) * float64(my.SD))
	return quantity.Ratio(max(-1, min(1, r))), nil
}

// ShortestInterval is the shortest interval that holds a share p of draws. It
// reorders the draws.
func ShortestInterval(draws []float64, p Probability) (low, high float64, err error) {
	if err := p.check("share"); err != nil {
		return 0, 0, err
	}
	if err := finite(draws, 2); err != nil {
		return 0, 0, err
	}
	sort.Float64s(draws)
	span := int(math.Round(float64(p) * float64(len(draws))))
	span = max(1, min(span, len(draws)-1))
	low, high = draws[0], draws[span]
	for i := 1; i+span < len(draws); i++ {
		if draws[i+span]-draws[i] < high-low {
			low, high = draws[i], draws[i+span]
		}
	}
	return low, high, nil
}
