package trace

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// grams stands for any typed quantity.
type grams float64

var (
	pvc     = Relation{Name: "PVC", Equation: "PVC = Vp/(Vp + Vb)", Source: "definition"}
	density = Relation{Name: "density", Equation: "ρ = m/V", Source: "definition"}
)

// A tracer keeps steps in the order they were taken, with the numbers as given.
func TestTracerKeepsOrder(t *testing.T) {
	var tr Tracer
	if !tr.On() {
		t.Error("a tracer is off")
	}
	tr.Note(density, "batch", T("ρ", grams(1.6), "g/ml"), T("m", grams(8), "g"), T("V", 5.0, "ml"))
	tr.Note(pvc, "film", T("PVC", 0.4, ""))
	want := []Step{
		{Relation: density, Of: "batch", Output: Term{"ρ", 1.6, "g/ml"}, Inputs: []Term{{"m", 8, "g"}, {"V", 5, "ml"}}},
		{Relation: pvc, Of: "film", Output: Term{"PVC", 0.4, ""}},
	}
	if diff := cmp.Diff(want, tr.Steps()); diff != "" {
		t.Error(diff)
	}
}

// The nil tracer records nothing, and costs nothing where the caller asks first.
func TestNilTracer(t *testing.T) {
	var tr *Tracer
	tr.Note(pvc, "film", T("PVC", 0.4, ""))
	if tr.On() || tr.Steps() != nil {
		t.Errorf("the nil tracer is on: %v, and holds %v", tr.On(), tr.Steps())
	}
	allocations := testing.AllocsPerRun(100, func() {
		if tr.On() {
			tr.Note(pvc, "film", T("PVC", 0.4, ""), T("Vp", 2.0, "ml"))
		}
	})
	if allocations != 0 {
		t.Errorf("an untraced step allocates %v times", allocations)
	}
}
