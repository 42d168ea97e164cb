package evidence

import (
	"math"
	"math/rand/v2"
	"runtime"
	"sync"

	"mullwright/formulate/quantity"
)

// primes under the square roots of Richtmyer's sequence: as many uncertain
// inputs as one calculation may have.
var roots = func() (r [MaxInputs]float64) {
	n := 0
next:
	for p := 2; n < MaxInputs; p++ {
		for d := 2; d*d <= p; d++ {
			if p%d == 0 {
				continue next
			}
		}
		_, r[n] = math.Modf(math.Sqrt(float64(p)))
		n++
	}
	return r
}()

// MaxInputs is how many independent uncertain inputs one calculation may have.
const MaxInputs = 96

// DefaultDraws and DefaultSeed are used where the maker does not choose.
const (
	DefaultDraws = 2048
	DefaultSeed  = 1
)

// Sampler makes the draws of one calculation.
type Sampler struct {
	inputs int
	shift  [MaxInputs]float64
}

// NewSampler seeds a sampler for a number of independent inputs, at most
// MaxInputs.
func NewSampler(inputs int, seed uint64) *Sampler {
	s := &Sampler{inputs: min(inputs, MaxInputs)}
	r := rand.New(rand.NewPCG(seed, 0x6d756c6c77726967))
	for j := range s.shift {
		s.shift[j] = r.Float64()
	}
	return s
}

// Deviates fills z with the standard normal deviates of draw i.
func (s *Sampler) Deviates(i int, z []float64) {
	for j := range z[:s.inputs] {
		z[j] = s.deviate(i, j)
	}
}

// deviate is that of input j in draw i, whatever other inputs there are.
func (s *Sampler) deviate(i, j int) float64 {
	u := float64(float64(i+1)*roots[j]) + s.shift[j]
	u -= math.Floor(u)
	// Keep off 0 and 1, where the deviate is infinite.
	u = min(max(u, 1e-12), 1-1e-12)
	return math.Sqrt2 * math.Erfinv(2*u-1)
}

// block is how many draws a worker takes at a time: few enough that a usual run
// keeps two processors busy.
const block = 1024

// Run works a function over n draws on all processors. f gets the deviates of
// one draw and fills out, one cell for each result; it must not keep either.
// The returned columns hold each result's n values, in draw order, the same for
// any number of processors. newF is called once for each worker, so that f may
// own scratch space.
func Run(n, inputs, results int, seed uint64, newF func() func(z, out []float64)) [][]float64 {
	s := NewSampler(inputs, seed)
	deviates := s.Deviates
	if t := tableOf(n, seed, s); t != nil {
		deviates = t.deviates
	}
	flat := make([]float64, n*results)
	columns := make([][]float64, results)
	for r := range columns {
		columns[r] = flat[r*n : (r+1)*n]
	}
	work := func(f func(z, out []float64), from, to int) {
		z := make([]float64, s.inputs)
		out := make([]float64, results)
		for i := from; i < to; i++ {
			deviates(i, z)
			f(z, out)
			for r, v := range out {
				columns[r][i] = v
			}
		}
	}
	workers := min(runtime.GOMAXPROCS(0), (n+block-1)/block)
	if workers <= 1 {
		work(newF(), 0, n)
		return columns
	}
	next := make(chan int)
	var wg sync.WaitGroup
	for range workers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			f := newF()
			for from := range next {
				work(f, from, min(from+block, n))
			}
		}()
	}
	for from := 0; from < n; from += block {
		next <- from
	}
	close(next)
	wg.Wait()
	return columns
}

// Quantile returns the p-quantile (0 to 1) of the values by selection, with
// linear interpolation between order statistics. It reorders the values.
func Quantile(values []float64, p float64) float64 {
	n := len(values)
	if n == 0 {
		return math.NaN()
	}
	pos := p * float64(n-1)
	k := int(pos)
	lo := selectKth(values, k)
	frac := pos - float64(k)
	if frac == 0 || k+1 >= n {
		return lo
	}
	hi := values[k+1]
	for _, v := range values[k+2:] {
		hi = min(hi, v)
	}
	return lo + float64(frac*(hi-lo))
}

// RangeOf returns the 10th, 50th and 90th percentile of the values, which it
// reorders. The middle is found first; the tenths then lie in a half each.
func RangeOf[Q quantity.Real](values []float64) Range[Q] {
	n := len(values)
	if n == 0 {
		return Range[Q]{Low: Q(math.NaN()), Typical: Q(math.NaN()), High: Q(math.NaN())}
	}
	mid := Quantile(values, 0.5)
	half := (n - 1) / 2
	if n == 2 {
		return Range[Q]{Low: Q(between(values, 0.1)), Typical: Q(mid), High: Q(between(values, 0.9))}
	}
	low, high := 0.10*float64(n-1), 0.90*float64(n-1)
	return Range[Q]{
		Low:     Q(between(values[:half+1], low)),
		Typical: Q(mid),
		High:    Q(between(values[half:], high-float64(half))),
	}
}

// between interpolates at a place among the sorted values.
func between(values []float64, place float64) float64 {
	if len(values) == 1 {
		return values[0]
	}
	return Quantile(values, place/float64(len(values)-1))
}

// Ranges is [RangeOf] for every column, on all processors.
func Ranges(columns [][]float64) []Range[float64] {
	out := make([]Range[float64], len(columns))
	var wg sync.WaitGroup
	slots := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, c := range columns {
		slots <- struct{}{}
		wg.Go(func() {
			out[i] = RangeOf[float64](c)
			<-slots
		})
	}
	wg.Wait()
	return out
}

// selectKth puts the k-th smallest value at index k, smaller ones before it,
// and returns it. Long stretches are first narrowed to where the value must lie
// by selecting in a sample about it (Floyd and Rivest, Communications of the
// ACM 18, 1975), which needs about half the comparisons of a plain quickselect.
func selectKth(v []float64, k int) float64 {
	lo, hi := 0, len(v)-1
	for lo < hi {
		if hi-lo > 600 {
			n, i := float64(hi-lo+1), float64(k-lo+1)
			z := math.Log(n)
			s := 0.5 * math.Exp(2*z/3)
			sd := 0.5 * math.Sqrt(z*s*(n-s)/n)
			if i < n/2 {
				sd = -sd
			}
			from := max(lo, int(float64(k)-i*s/n+sd))
			to := min(hi, int(float64(k)+(n-i)*s/n+sd))
			if from < to && (from > lo || to < hi) && k >= from && k <= to {
				selectKth(v[from:to+1], k-from)
			}
		}
		pivot := v[k]
		i, j := lo, hi
		for i <= j {
			for v[i] < pivot {
				i++
			}
			for v[j] > pivot {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return v[k]
		}
	}
	return v[k]
}
