package evidence

import (
	"math"
	"sort"

	"mullwright/formulate/quantity"
)

// Z90 is the 90th percentile of the standard normal distribution: catalogue
// low and high mean the 10th and 90th percentile, so half a log range divided
// by Z90 is a log standard deviation.
const Z90 = 1.2815515655446004

// A Reading is one published value of a property, or one published range. Of
// Value and Low with High exactly one form is present; a zero means absent,
// which no quantity read through its own parser can be.
type Reading[Q quantity.Real] struct {
	Value  Q      `toml:"value,omitzero"`
	Low    Q      `toml:"low,omitzero"`
	High   Q      `toml:"high,omitzero"`
	Method string `toml:"method,omitempty"` // how it was found, in the source's words
	Source string `toml:"source"`           // key of a source, "from memory" or "common practice"
	At     string `toml:"at,omitempty"`     // page, table, row
	Note   string `toml:"note,omitempty"`
	// Aside keeps a reading on the sheet but out of the range, and says why.
	Aside string `toml:"aside,omitempty"`
}

// Middle is the value, or the geometric middle of the range.
func (r Reading[Q]) Middle() Q {
	if r.Value != 0 {
		return r.Value
	}
	return Q(math.Sqrt(float64(r.Low) * float64(r.High)))
}

// LogSpread is the log standard deviation of a published range, 0 for a value.
func (r Reading[Q]) LogSpread() float64 {
	if r.Low == 0 || r.High == 0 {
		return 0
	}
	return math.Log(float64(r.High)/float64(r.Low)) / (2 * Z90)
}

// A Distribution is log-normal: Median times exp(Sigma·z).
type Distribution[Q quantity.Real] struct {
	Median Q
	Sigma  float64 // standard deviation of the natural logarithm
}

// At returns the value at a standard normal deviate.
func (d Distribution[Q]) At(z float64) Q {
	if d.Sigma == 0 || z == 0 {
		return d.Median
	}
	return Q(float64(d.Median) * math.Exp(d.Sigma*z))
}

// Range returns the 10th, 50th and 90th percentile.
func (d Distribution[Q]) Range() Range[Q] {
	return Range[Q]{Low: d.At(-Z90), Typical: d.Median, High: d.At(Z90)}
}

// Known reports whether there is any evidence.
func (d Distribution[Q]) Known() bool { return d.Median > 0 }

// A Range is an answer: 10th, 50th and 90th percentile.
type Range[Q quantity.Real] struct{ Low, Typical, High Q }

// Exactly is a range without width.
func Exactly[Q quantity.Real](v Q) Range[Q] { return Range[Q]{v, v, v} }

// Rising is the range of f over a range, where f rises with its input: a
// percentile of the input is then that of the result.
func Rising[P, Q quantity.Real](r Range[P], f func(P) Q) Range[Q] {
	return Range[Q]{Low: f(r.Low), Typical: f(r.Typical), High: f(r.High)}
}

// Falling is [Rising] for an f that falls as its input rises.
func Falling[P, Q quantity.Real](r Range[P], f func(P) Q) Range[Q] {
	return Range[Q]{Low: f(r.High), Typical: f(r.Typical), High: f(r.Low)}
}

// Times is a range k times over, k not below 0.
func (r Range[Q]) Times(k quantity.Ratio) Range[Q] {
	return Range[Q]{Low: r.Low * Q(k), Typical: r.Typical * Q(k), High: r.High * Q(k)}
}

// Width is a stated between-source spread for a property, used alone where a
// single source is known and mixed in, as a prior worth Weight readings, where
// a few are.
type Width struct {
	Sigma  float64 // log standard deviation between sources
	Weight float64 // how many degrees of freedom the stated spread counts for
}

// Combine reconciles readings into one log-normal distribution. Readings of
// one source count once (their logs are averaged first). The variance is that
// between sources, shrunk to the stated width, plus the mean variance the
// sources state themselves: a range that sources disagree on stays wide.
// Readings set aside do not count. No reading gives the zero Distribution.
func Combine[Q quantity.Real](readings []Reading[Q], stated Width) Distribution[Q] {
	type group struct{ sum, within, n float64 }
	groups := map[string]*group{}
	var keys []string
	for _, r := range readings {
		if r.Aside != "" {
			continue
		}
		g := groups[r.Source]
		if g == nil {
			g = &group{}
			groups[r.Source] = g
			keys = append(keys, r.Source)
		}
		s := r.LogSpread()
		g.sum += math.Log(float64(r.Middle()))
		g.within += s * s
		g.n++
	}
	if len(keys) == 0 {
		return Distribution[Q]{}
	}
	sort.Strings(keys)
	k := float64(len(keys))
	var mean, within float64
	for _, key := range keys {
		g := groups[key]
		mean += g.sum / g.n / k
		within += g.within / g.n / k
	}
	var squares float64
	for _, key := range keys {
		g := groups[key]
		d := g.sum/g.n - mean
		squares += d * d
	}
	between := (squares + stated.Weight*stated.Sigma*stated.Sigma) / (k - 1 + stated.Weight)
	return Distribution[Q]{Median: Q(math.Exp(mean)), Sigma: math.Sqrt(between + within)}
}
