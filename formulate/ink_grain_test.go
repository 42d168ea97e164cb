package formulate

import (
	"strings"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Clumps are no smaller than the grains that they are made of: bone black of 3 to
// 15 µm settles as that, a fine pigment as clumps of 1 to 6.
func TestClumpsAreNoSmallerThanTheirGrains(t *testing.T) {
	type reading = evidence.Reading[quantity.ParticleSize]
	for _, c := range []struct {
		name      string
		primary   []reading
		low, high quantity.ParticleSize
		clumped   bool
	}{
		{"unknown", nil, 1, 6, true},
		{"finer", []reading{{Low: 0.1, High: 0.4}}, 1, 6, true},
		{"reaching over", []reading{{Low: 0.5, High: 20}}, 1, 20, false},
		{"bone black", []reading{{Low: 3, High: 15}}, 3, 15, false},
		{"two sources", []reading{{Low: 3, High: 15}, {Value: 2}}, 2, 15, false},
		{"set aside", []reading{{Low: 30, High: 40, Aside: "another grade"}}, 1, 6, true},
		{"one size", []reading{{Value: 12}}, 12 / 1.5, 12 * 1.5, false},
	} {
		m := powder("black", 2.4, 60)
		m.ParticleSize = c.primary
		req := inkRequest(t, DipPen)
		req.Grain = evidence.Distribution[quantity.ParticleSize]{}
		req.Pigments = []Share{{ready(t, m), 1}}
		r := ink(t, req)
		g := r.Settling[0].Grain
		if !closeTo(float64(g.Low), float64(c.low), 1e-9) || !closeTo(float64(g.High), float64(c.high), 1e-9) || r.Settling[0].Clumped != c.clumped {
			t.Errorf("%s: grains of %g to %g, clumped %t; want %g to %g, %t", c.name, float64(g.Low), float64(g.High), r.Settling[0].Clumped, float64(c.low), float64(c.high), c.clumped)
		}
		if p := r.Settling[0].Primary; g.Low < min(p.Low, g.High/2.25) {
			t.Errorf("%s: clumps of %g µm from grains of %g", c.name, float64(g.Low), float64(p.Low))
		}
	}
	// A coarser grain settles sooner and clogs more.
	fine, coarse := powder("black", 2.4, 60), powder("black", 2.4, 60)
	coarse.ParticleSize = []reading{{Low: 3, High: 15}}
	req := inkRequest(t, DipPen)
	req.Grain = evidence.Distribution[quantity.ParticleSize]{}
	req.Pigments = []Share{{ready(t, fine), 1}}
	a := ink(t, req)
	req.Pigments = []Share{{ready(t, coarse), 1}}
	b := ink(t, req)
	if !(b.Settling[0].Clear.Typical < a.Settling[0].Clear.Typical/4 && b.Nib.Clogs > a.Nib.Clogs) {
		t.Errorf("clears in %g s and clogs %g, against %g s and %g", float64(b.Settling[0].Clear.Typical), float64(b.Nib.Clogs), float64(a.Settling[0].Clear.Typical), float64(a.Nib.Clogs))
	}
	// The maker's own figure stands, and a contradiction is said.
	req.Grain = EvenGrain(1)
	r := ink(t, req)
	if got := r.Settling[0].Grain.Typical; got != 1 {
		t.Errorf("given 1 µm, %g settle", float64(got))
	}
	if said := strings.Join(r.Warnings, "\n"); !strings.Contains(said, "published primary grain of 3 to 15 µm") {
		t.Errorf("no word on grains finer than published: %s", said)
	}
}
