package evidence

import (
	"sync"
	"testing"
)

// A kept deviate is the one that the sampler makes, whoever asks first, for
// however many inputs, of whatever seed.
func TestKeptDeviates(t *testing.T) {
	for _, c := range []struct {
		n, inputs int
		seed      uint64
	}{{DefaultDraws, 3, 1}, {100, 7, 1}, {DefaultDraws, 2, 1}, {DefaultDraws, MaxInputs, 2}, {1, 1, 1}, {DefaultDraws + 1, 3, 1}, {DefaultDraws, MaxInputs + 4, 3}} {
		s := NewSampler(c.inputs, c.seed)
		want := make([]float64, c.inputs)
		columns := Run(c.n, c.inputs, min(c.inputs, MaxInputs), c.seed, func() func(z, out []float64) {
			return func(z, out []float64) { copy(out, z) }
		})
		for i := range c.n {
			s.Deviates(i, want)
			for j := range min(c.inputs, MaxInputs) {
				if columns[j][i] != want[j] {
					t.Fatalf("%d draws of %d inputs, seed %d: input %d of draw %d is %g, want %g", c.n, c.inputs, c.seed, j, i, columns[j][i], want[j])
				}
			}
		}
	}
}

// Many runs share the table, of several seeds at once.
func TestKeptDeviatesManyAtOnce(t *testing.T) {
	var all sync.WaitGroup
	sums := make([]float64, 24)
	for k := range sums {
		all.Go(func() {
			columns := Run(DefaultDraws, 1+k%5, 1, uint64(1+k%3), func() func(z, out []float64) {
				return func(z, out []float64) { out[0] = z[0] }
			})
			for _, v := range columns[0] {
				sums[k] += v
			}
		})
	}
	all.Wait()
	for k := range sums {
		if sums[k] != sums[k%3] {
			t.Errorf("run %d of seed %d sums to %g, run %d to %g", k, 1+k%3, sums[k], k%3, sums[k%3])
		}
	}
}
