package evidence

import (
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
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
		u := float64(float64(i+1)*roots[j]) + s.shift[j]
		u -= math.Floor(u)
		// Keep off 0 and 1, where the deviate is infinite.
		u = min(max(u, 1e-12), 1-1e-12)
		z[j] = math.Sqrt2 * math.Erfinv(2*u-1)
	}
}

const block = 4096

// Run works a function over n draws on all processors. f gets the deviates of
// one draw and fills out, one cell for each result; it must not keep either.
// The returned columns hold each result's n values, in draw order, the same for
// any number of processors. newF is called once for each worker, so that f may
// own scratch space.
func Run(n, inputs, results int, seed uint64, newF func() func(z, out []float64)) [][]float64 {
	s := NewSampler(inputs, seed)
	flat := make([]float64, n*results)
	columns := make([][]float64, results)
	for r := range columns {
		columns[r] = flat[r*n : (r+1)*n]
	}
	work := func(f func(z, out []float64), from, to int) {
		z := make([]float64, s.inputs)
		out := make([]float64, results)
		for i := from; i < to; i++ {
			s.Deviates(i, z)
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

// selectKth puts the k-th smallest value at index k, smaller ones before it,
// and returns it (quickselect, Hoare 1961).
func selectKth(v []float64, k int) float64 {
	lo, hi := 0, len(v)-1
	for lo < hi {
		// Median of three keeps sorted and constant columns fast.
		a, b, c := v[lo], v[(lo+hi)/2], v[hi]
		pivot := max(min(a, b), min(max(a, b), c))
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
