package formulate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// randomRequest is any mull, a tenth of them with a fault.
func randomRequest(t *testing.T, r *rand.Rand) MullRequest {
	between := func(low, high float64) float64 { return low * math.Pow(high/low, r.Float64()) }
	id := 0
	name := func(what string) string { id++; return fmt.Sprint(what, id) }
	pigment := func() Ingredient {
		m := powder(name("pigment"), quantity.Density(between(1.3, 8)), quantity.Absorption(between(7, 140)))
		in := ready(t, m)
		in.Price = quantity.PricePerGram(between(0.01, 3))
		return in
	}
	var req MullRequest
	for range 1 + r.IntN(4) {
		req.Pigments = append(req.Pigments, Share{pigment(), quantity.Parts(between(0.1, 10))})
	}
	for range r.IntN(3) {
		req.Extenders = append(req.Extenders, Portion{pigment(), quantity.MassFraction(between(0.01, 1))})
	}
	for range 1 + r.IntN(3) {
		m := liquid(name("oil"), material.Oil, quantity.Density(between(0.9, 0.98)))
		if r.IntN(4) == 0 {
			m.AbsorptionDoubtful = "thick"
		}
		req.Oils = append(req.Oils, Share{ready(t, m), quantity.Parts(between(0.1, 10))})
	}
	for range r.IntN(3) {
		req.Waxes = append(req.Waxes, Portion{ready(t, liquid(name("wax"), material.Wax, 0.96)), quantity.MassFraction(between(0.005, 0.1))})
	}
	req.Amount = Amount{Kind: AmountKind(1 + r.IntN(5)), Mass: quantity.Mass(between(0.5, 500)), Volume: quantity.Volume(between(0.5, 500)), Tubes: 1 + r.IntN(9), Fill: quantity.VolumeFraction(between(0.3, 1))}
	switch r.IntN(3) {
	case 0:
		body, err := absorption.ParseBody([]string{"stiff", "buttery", "soft", "flowing", "0.7"}[r.IntN(5)])
		if err != nil {
			t.Fatal(err)
		}
		req.Target = Target{Kind: AtBody, Body: body}
	case 1:
		req.Target = Target{Kind: AtPVC, PVC: quantity.VolumeFraction(between(0.1, 0.7)), AboveCritical: r.IntN(2) == 0}
	default:
		req.Target = Target{Kind: AtReducedPVC, Reduced: quantity.Ratio(between(0.3, 1.2)), AboveCritical: r.IntN(2) == 0}
	}
	if r.IntN(2) == 0 {
		req.Moisture, req.Loss = quantity.MassFraction(between(0.01, 0.5)), quantity.MassFraction(between(0.01, 0.3))
	}
	req.Scale, req.DropMass = []quantity.Mass{0, 0.01, 0.1, 1}[r.IntN(4)], 0.033
	switch r.IntN(40) {
	case 0:
		req.Amount.Mass, req.Amount.Volume = 0, 0
	case 1:
		req.Oils = nil
	case 2:
		req.Pigments[0].Parts = -1
	case 3:
		req.Target.Kind = 0
	}
	return req
}

// A point is the exact mull: 1,000 random requests give the same figures, the
// same oil and the same refusals, from one pointer used again and again.
func TestPointIsExactMull(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	var p Pointer
	refused := 0
	for i := range 1000 {
		req := randomRequest(t, r)
		got, gotErr := p.Point(&req)
		exact := req
		exact.Sampling.Exact = true
		want, wantErr := Mull(exact)
		if gotErr != nil || wantErr != nil {
			refused++
			if gotErr == nil || wantErr == nil || gotErr.Error() != wantErr.Error() {
				t.Fatalf("request %d: the point says %v, the mull %v", i, gotErr, wantErr)
			}
			continue
		}
		f, w := got.Figures, want.Paint.Figures()
		same := func(what string, got, want float64) {
			if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
				t.Fatalf("request %d: %s: point %v, mull %v", i, what, got, want)
			}
		}
		same("mass", float64(f.Mass), float64(w.Mass))
		same("volume", float64(f.Volume), float64(w.Volume))
		same("powder", float64(got.Powder), float64(w.PigmentMass))
		same("oil", float64(got.Oil), float64(w.BinderMass))
		same("additive", float64(f.AdditiveMass), float64(w.AdditiveMass))
		same("water", float64(f.VolatileMass), float64(w.VolatileMass))
		same("PVC", float64(f.PVC()), float64(w.PVC()))
		same("CPVC", float64(f.CPVC()), float64(w.CPVC()))
		same("body", float64(f.Body()), float64(w.Body()))
		same("cost", float64(f.Cost), float64(w.Cost))
		if req.Scale == 0 {
			// Nothing is rounded to a balance: the card shows the same numbers.
			same("mass on the card", float64(want.Figures.Mass.Typical), float64(f.Mass))
			same("oil on the card", float64(want.Pours.Typical), float64(got.Oil))
			same("PVC on the card", float64(want.Figures.PVC.Typical), float64(f.PVC()))
		}
	}
	if refused < 20 || refused > 500 {
		t.Errorf("%d of 1000 requests were refused; the test means to see both", refused)
	}
}

// A point allocates nothing once its pointer is warm.
func TestPointAllocatesNothing(t *testing.T) {
	req := request(t)
	var p Pointer
	if n := testing.AllocsPerRun(100, func() {
		if _, err := p.Point(&req); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("a point allocates %v times", n)
	}
}
