package evidence

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
)

func TestRunDoesNotDependOnProcessors(t *testing.T) {
	const n, inputs, results = 10*block + 17, 7, 3
	run := func(processors int) [][]float64 {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		return Run(n, inputs, results, 42, func() func(z, out []float64) {
			scratch := make([]float64, inputs)
			return func(z, out []float64) {
				copy(scratch, z)
				var sum float64
				for _, x := range scratch {
					sum += x
				}
				out[0], out[1], out[2] = z[0], sum, math.Exp(z[1])
			}
		})
	}
	want := run(1)
	for _, processors := range []int{2, 3, 8} {
		got := run(processors)
		for r := range want {
			for i := range want[r] {
				if got[r][i] != want[r][i] {
					t.Fatalf("%d processors: result %d draw %d = %v, with one %v", processors, r, i, got[r][i], want[r][i])
				}
			}
		}
	}
}

func TestSeedMatters(t *testing.T) {
	first := func(seed uint64) float64 {
		z := make([]float64, 1)
		NewSampler(1, seed).Deviates(0, z)
		return z[0]
	}
	if first(1) == first(2) {
		t.Error("seeds 1 and 2 begin with the same draw")
	}
	if first(1) != first(1) {
		t.Error("one seed gives two draws")
	}
}

// moments are those of a column of standard normal deviates.
func moments(values []float64) (mean, sd, skew, kurtosis float64) {
	n := float64(len(values))
	for _, v := range values {
		mean += v / n
	}
	var m2, m3, m4 float64
	for _, v := range values {
		d := v - mean
		m2, m3, m4 = m2+d*d/n, m3+d*d*d/n, m4+d*d*d*d/n
	}
	sd = math.Sqrt(m2)
	return mean, sd, m3 / (sd * sd * sd), m4 / (m2 * m2)
}

// columns returns n draws of every input a calculation may have.
func columns(n int, seed uint64) [][]float64 {
	return Run(n, MaxInputs, MaxInputs, seed, func() func(z, out []float64) {
		return func(z, out []float64) { copy(out, z) }
	})
}

func TestMomentsOfDraws(t *testing.T) {
	// Independent draws would give standard errors of 1/√n, 1/√(2n), √(6/n)
	// and √(24/n). Each of the 96 inputs keeps its mean and deviation within one
	// of these, its tails (skewness and kurtosis) within two and a half.
	for _, n := range []int{DefaultDraws, 1 << 16} {
		for _, seed := range []uint64{DefaultSeed, 2, 99} {
			root := math.Sqrt(float64(n))
			for j, c := range columns(n, seed) {
				mean, sd, skew, kurtosis := moments(c)
				name := fmt.Sprintf("n=%d seed=%d input %d: ", n, seed, j)
				near(t, name+"mean", mean, 0, 1/root)
				near(t, name+"standard deviation", sd, 1, 1/(root*math.Sqrt2))
				near(t, name+"skewness", skew, 0, 2.5*math.Sqrt(6)/root)
				near(t, name+"kurtosis", kurtosis, 3, 2.5*math.Sqrt(24)/root)
			}
		}
	}
}

func TestPairsOfDraws(t *testing.T) {
	// Square roots of primes are independent of each other only in the long run:
	// some pairs nearly fulfil a·√p + b·√q = whole for small a and b, and their
	// inputs move together a little. The first inputs are the best. For
	// comparison, the strongest of 276 pairs of independent draws is about 3/√n.
	tests := []struct {
		draws, inputs int
		most          float64
	}{
		{DefaultDraws, 24, 0.06},
		{DefaultDraws, MaxInputs, 0.30},
		{1 << 16, 24, 0.035},
	}
	for _, tt := range tests {
		cs := columns(tt.draws, DefaultSeed)[:tt.inputs]
		worst, at := 0.0, ""
		for i := range cs {
			for j := range i {
				r, err := Correlation(cs[i], cs[j])
				if err != nil {
					t.Fatal(err)
				}
				if a := math.Abs(float64(r)); a > worst {
					worst, at = a, fmt.Sprintf("inputs %d and %d", j, i)
				}
			}
		}
		if worst > tt.most {
			t.Errorf("%d draws of %d inputs: strongest correlation %.4f (%s), want at most %g", tt.draws, tt.inputs, worst, at, tt.most)
		}
	}
}

func TestRangeOfDrawsIsTheRange(t *testing.T) {
	// A log-normal input comes out of the draws with the range it went in with.
	d := Distribution[float64]{Median: 40, Sigma: 0.25}
	values := Run(DefaultDraws, 1, 1, DefaultSeed, func() func(z, out []float64) {
		return func(z, out []float64) { out[0] = d.At(z[0]) }
	})[0]
	want := d.Range()
	for _, q := range []struct{ p, want float64 }{{0.1, want.Low}, {0.5, want.Typical}, {0.9, want.High}} {
		near(t, fmt.Sprintf("percentile %g", 100*q.p), Quantile(values, q.p)/q.want, 1, 0.002)
	}
}

// BenchmarkMillionDraws works 1,000,000 draws of three uncertain inputs through
// a small formula with five results and takes the 10th, 50th and 90th
// percentile of each: what the widest question of the program costs before its
// own arithmetic.
func BenchmarkMillionDraws(b *testing.B) {
	const n, inputs, results = 1_000_000, 3, 5
	b.ReportAllocs()
	for b.Loop() {
		columns := Run(n, inputs, results, DefaultSeed, func() func(z, out []float64) {
			return func(z, out []float64) {
				// Absorption, excess and density of one formula, and what follows.
				oa, excess, density := 32+3.2*z[0], 0.15+0.05*z[1], 4+0.1*z[2]
				oil := oa * (1 + excess)
				vp, vo := 100/density, oil/0.93
				out[0], out[1], out[2] = oil, vp+vo, vp/(vp+vo)
				out[3], out[4] = 1/(1+oa*density/93), (100+oil)/(vp+vo)
			}
		})
		Ranges(columns)
	}
}

// The range is that of three quantiles taken one by one.
func TestRangeOf(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, n := range []int{1, 2, 3, 4, 5, 10, 11, 599, 601, 2048, 50001} {
		values := make([]float64, n)
		for i := range values {
			values[i] = math.Floor(100*r.NormFloat64()) / 10 // with ties
		}
		sorted := slices.Clone(values)
		slices.Sort(sorted)
		at := func(p float64) float64 {
			place := p * float64(n-1)
			k := int(place)
			if k+1 >= n {
				return sorted[k]
			}
			return sorted[k] + (place-float64(k))*(sorted[k+1]-sorted[k])
		}
		got := RangeOf[float64](values)
		for _, x := range []struct{ got, want float64 }{{got.Low, at(0.1)}, {got.Typical, at(0.5)}, {got.High, at(0.9)}} {
			if math.Abs(x.got-x.want) > 1e-9*(1+math.Abs(x.want)) {
				t.Errorf("%d values: %v, sorting says %v", n, x.got, x.want)
			}
		}
	}
}
