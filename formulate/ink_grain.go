package formulate

import (
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Sizes is a smallest and a largest grain.
type Sizes struct{ Low, High quantity.ParticleSize }

// PrimaryGrain is the span of a material's published primary grain; zero where
// none is published.
func PrimaryGrain(m *material.Material) Sizes {
	var s Sizes
	for _, p := range m.ParticleSize {
		if p.Aside != "" {
			continue
		}
		low, high := p.Low, p.High
		if p.Value > 0 {
			low, high = p.Value, p.Value
		}
		if s.Low == 0 || low < s.Low {
			s.Low = low
		}
		s.High = max(s.High, high)
	}
	return s
}

// clumps are what the muller leaves of a fine pigment, 8 in 10. Common practice.
var clumps = Sizes{1, 6}

// EvenGrain is a grain of one size, as even as grains are: a factor of 1.5 either
// way, 8 times in 10. Common practice.
func EvenGrain(size quantity.ParticleSize) evidence.Distribution[quantity.ParticleSize] {
	return evidence.Distribution[quantity.ParticleSize]{Median: size, Sigma: math.Log(1.5) / evidence.Z90}
}

// GrainAfterMulling is the size at which a pigment settles where the maker gives
// none: the clumps that the muller leaves, which are no smaller than the primary
// grains that they are made of.
func GrainAfterMulling(m *material.Material) evidence.Distribution[quantity.ParticleSize] {
	primary := PrimaryGrain(m)
	r := evidence.Reading[quantity.ParticleSize]{Low: max(clumps.Low, primary.Low), High: max(clumps.High, primary.High)}
	if r.Low >= r.High {
		return EvenGrain(r.Low)
	}
	return evidence.Distribution[quantity.ParticleSize]{Median: r.Middle(), Sigma: r.LogSpread()}
}

// coarserThanClumps reports whether a pigment's own grain, not a clump of it, is
// what settles.
func coarserThanClumps(m *material.Material) bool {
	p := PrimaryGrain(m)
	return p.Low > clumps.Low || p.High > clumps.High
}

// grain is the size at which a pigment of the ink settles.
func (r *InkRequest) grain(m *material.Material) evidence.Distribution[quantity.ParticleSize] {
	if r.Grain.Known() {
		return r.Grain
	}
	return GrainAfterMulling(m)
}

// coarsest is the grain of the ink's coarsest pigment.
func (r *InkRequest) coarsest() evidence.Distribution[quantity.ParticleSize] {
	var out evidence.Distribution[quantity.ParticleSize]
	for i := range r.Pigments {
		if g := r.grain(r.Pigments[i].Material); g.Median > out.Median {
			out = g
		}
	}
	return out
}
