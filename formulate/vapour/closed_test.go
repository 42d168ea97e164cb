package vapour

import (
	"math"
	"testing"

	"mullwright/formulate/trace"
)

// A closed room that saturates never clears; the derivation of that holds
// numbers only, so that it can be written as JSON.
func TestClosedRoomDerivation(t *testing.T) {
	s := Substance{Name: "spirit", MolarMass: 136.2, VapourPressure: 0.9}
	for _, r := range []Release{{Profile: AtOnce, Mass: 2160}, {Profile: Evenly, Mass: 2160, Over: 4 * 3600}, {Profile: FirstOrder, Mass: 2160, Over: 4 * 3600}} {
		var tr trace.Tracer
		a, err := Assess(Room{Volume: 10}, r, s, OrdinaryAir, &tr)
		if err != nil || !a.Saturated || !math.IsInf(float64(a.ClearsFrom), 1) {
			t.Fatalf("%s: saturated %v, clears from %v, %v", r.Profile, a.Saturated, a.ClearsFrom, err)
		}
		if len(tr.Steps()) == 0 {
			t.Errorf("%s: nothing is derived", r.Profile)
		}
		for _, step := range tr.Steps() {
			for _, term := range append(step.Inputs, step.Output) {
				if math.IsNaN(term.Value) || math.IsInf(term.Value, 0) {
					t.Errorf("%s: %s: %s = %v", r.Profile, step.Relation.Name, term.Symbol, term.Value)
				}
			}
		}
	}
}
