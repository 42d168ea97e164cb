package absorption

import (
	"math"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

func blue() Pigment {
	return Pigment{
		Density: evidence.Distribution[quantity.Density]{Median: 1.8, Sigma: 0.03},
		Oil:     evidence.Distribution[quantity.AbsorptionVolume]{Median: 50, Sigma: 0.25},
		Method:  material.RubOut,
	}
}

// The distribution handed out is the one that the draws follow.
func TestTubeColourIsWhatTheDrawsFollow(t *testing.T) {
	m := NewDemandModel(blue())
	tube, _ := NamedBody("buttery")
	got := m.TubeColour(1.8)
	if d := m.OilAt(tube, 1.8, 0, 0); math.Abs(float64(got.Median-d)) > 1e-9 {
		t.Errorf("median %v, the point answer is %v", got.Median, d)
	}
	columns := evidence.Run(40000, 2, 1, 1, func() func(z, out []float64) {
		return func(z, out []float64) { out[0] = math.Log(float64(m.OilAt(tube, 1.8, z[0], z[1]))) }
	})
	var sum, squares float64
	for _, v := range columns[0] {
		sum += v
		squares += v * v
	}
	n := float64(len(columns[0]))
	if sd := math.Sqrt(squares/n - sum*sum/n/n); math.Abs(sd/got.Sigma-1) > 0.01 {
		t.Errorf("spread %v, the draws have %v", got.Sigma, sd)
	}
}

func TestWithOwn(t *testing.T) {
	own := evidence.Distribution[quantity.AbsorptionVolume]{Median: 90, Sigma: 0.12}
	base := NewDemandModel(blue())
	m := base.WithOwn(own)
	if got := m.TubeColour(1.8); math.Abs(float64(got.Median-90)) > 1e-9 || math.Abs(got.Sigma-0.12) > 1e-12 {
		t.Errorf("tube colour is %+v, want the maker's own", got)
	}
	if m.Oil() != base.Oil() {
		t.Error("batches at a named body changed the oil absorption")
	}
	if e := m.Evidence(); len(e) != 1 || e[0].Source != OwnBatches || e[0].Weight != 1 {
		t.Errorf("evidence is %+v", e)
	}
	own.Sigma = 0
	if got := base.WithOwn(own); got.TubeColour(1.8).Sigma != leastSigma {
		t.Error("a demand looks sharper than a weighing is")
	}
}
