package evidence

import "sync"

// A table holds the deviates of the usual number of draws, which are the same
// for every run of one seed: looking for the least change that mends a paint
// makes a few dozen runs. A program draws with one seed, so one table is kept.
type table struct {
	seed   uint64
	filled int       // how many inputs have been worked out
	cells  []float64 // draw by draw, MaxInputs each
}

var lastTable struct {
	sync.Mutex
	*table
}

// tableOf is the table of a seed with the sampler's inputs worked out, nil for
// more draws than are kept. What it holds is never changed.
func tableOf(n int, seed uint64, s *Sampler) *table {
	if n > DefaultDraws {
		return nil
	}
	lastTable.Lock()
	defer lastTable.Unlock()
	t := lastTable.table
	if t == nil || t.seed != seed {
		t = &table{seed: seed, cells: make([]float64, DefaultDraws*MaxInputs)}
		lastTable.table = t
	}
	for ; t.filled < s.inputs; t.filled++ {
		for i := range DefaultDraws {
			t.cells[i*MaxInputs+t.filled] = s.deviate(i, t.filled)
		}
	}
	return t
}

// deviates fills z as the sampler would.
func (t *table) deviates(i int, z []float64) {
	copy(z, t.cells[i*MaxInputs:])
}
