package optics

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// MixRelation adds the constants of paints in a mixture.
var MixRelation = trace.Relation{
	Name:     "two-constant mixing",
	Equation: "K = Σ cᵢ·Kᵢ, S = Σ cᵢ·Sᵢ, Σ cᵢ = 1",
	Source:   "Duncan (1940), from memory; form as in Berns (2016)",
}

// A Part is one paint of a mixture: how much of it, in the unit its constants
// are stated for, and the constants.
type Part struct {
	Amount quantity.Parts
	Constants
}

// Mix returns K and S of a mixture:
//
//	K = Σ cᵢ·Kᵢ, S = Σ cᵢ·Sᵢ, Σ cᵢ = 1
//
// Amounts are of paint by volume, or of whatever one unit the constants were
// found for; the same for every part. Holds where the pigments do not touch or
// crowd each other: scattering falls below proportion in a crowded film.
func Mix(parts ...Part) (Constants, error) {
	var k, s, sum float64
	for _, p := range parts {
		if !(p.Amount >= 0) {
			return Constants{}, fmt.Errorf("amount %g in a mixture: want zero or more", float64(p.Amount))
		}
		k += float64(p.Amount) * float64(p.K)
		s += float64(p.Amount) * float64(p.S)
		sum += float64(p.Amount)
	}
	if !(sum > 0) {
		return Constants{}, fmt.Errorf("a mixture of nothing: want at least one part above zero")
	}
	return Constants{K: Absorbing(k / sum), S: Scattering(s / sum)}, nil
}
