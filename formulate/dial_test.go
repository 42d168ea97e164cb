package formulate

import (
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// The dial agrees with the mull it is of: the target is the batch's own body,
// the named body asked for stands where the mull put it, and more oil is always
// a softer, fatter paste.
func TestDialAgreesWithMull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := randomPaste(t)
		req.Amount = Amount{Kind: ByPigmentMass, Mass: quantity.Mass(rapid.Float64Range(1, 300).Draw(t, "mass"))}
		req.Sampling = Sampling{Draws: 101, Seed: rapid.Uint64Range(1, 1e6).Draw(t, "seed")}
		res, err := Mull(req)
		if err != nil {
			t.Skip(err)
		}
		d, err := DialOf(res)
		if err != nil {
			t.Fatal(err)
		}
		if !agree(float64(d.Target.Body), float64(res.Paint.Figures().Body())) {
			t.Fatalf("target body %v, the mull's paint has %v", d.Target.Body, res.Paint.Figures().Body())
		}
		for i, s := range d.Steps {
			if req.Target.Kind == AtBody && req.Target.Body.Name == s.Step.Name && !agree(float64(s.Typical.Oil), float64(d.Target.Oil)) {
				t.Fatalf("%s stands at %v of oil, the mull put it at %v", s.Step.Name, s.Typical.Oil, d.Target.Oil)
			}
			if !(s.Stiffest.Oil < s.Typical.Oil && s.Typical.Oil < s.Softest.Oil && s.Stiffest.Body > s.Typical.Body && s.Typical.Body > s.Softest.Body) {
				t.Fatalf("%s is no stretch from stiff to soft: %+v", s.Step.Name, s)
			}
			if i > 0 && d.Steps[i-1].Softest != s.Stiffest {
				t.Fatalf("a gap before %s", s.Step.Name)
			}
		}
		for i, p := range d.Points {
			if i == 0 {
				continue
			}
			before := d.Points[i-1]
			if !(p.Oil > before.Oil && p.Body.Typical < before.Body.Typical && p.Body.Low < before.Body.Low && p.Body.High < before.Body.High && p.PVC.Typical < before.PVC.Typical) {
				t.Fatalf("%v g after %v g does not soften: %+v after %+v", p.Oil, before.Oil, p, before)
			}
		}
		first, last := d.Points[0], d.Points[len(d.Points)-1]
		if res.Pours.First > 0 && first.Oil > res.Pours.First || last.Oil < res.Pours.Most {
			t.Fatalf("the dial runs from %v to %v, the pours from %v to %v", first.Oil, last.Oil, res.Pours.First, res.Pours.Most)
		}
	})
}

// A pour smaller than the balance shows is rounded to none; the dial still has a
// beginning.
func TestDialOfASmallMull(t *testing.T) {
	body, _ := absorption.NamedBody("buttery")
	m := powder("heavy", 3.5, 6)
	req := MullRequest{
		Pigments: []Share{{ready(t, m), 1}}, Oils: []Share{{ready(t, liquid("oil", material.Oil, 0.93)), 1}},
		Amount: Amount{Kind: ByPigmentMass, Mass: 1}, Moisture: 0.4, Scale: 0.1, DropMass: 0.033,
		Target: Target{Kind: AtBody, Body: body}, Sampling: Sampling{Draws: 101},
	}
	res, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	if res.Pours.First != 0 {
		t.Fatalf("a first pour of %v; the case wants none", res.Pours.First)
	}
	d, err := DialOf(res)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Points {
		if !(p.Oil > 0 && p.Body.Typical > 0) {
			t.Fatalf("the dial has a point without oil or body: %+v", p)
		}
	}
}

func agree(a, b float64) bool { return a == b || (a-b)/(a+b) < 1e-9 && (b-a)/(a+b) < 1e-9 }

// The oil that the pigment there is can mend is what a mull of all of it takes.
func TestPoursMend(t *testing.T) {
	req := request(t)
	req.Moisture, req.Have = 0.1, 20
	res, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	all := req
	all.Amount.Mass += req.Have
	whole, err := Mull(all)
	if err != nil {
		t.Fatal(err)
	}
	want := whole.Figures.BinderMass
	near(t, "low", float64(res.Pours.Mends.Low), float64(want.Low), 1e-9)
	near(t, "typical", float64(res.Pours.Mends.Typical), float64(want.Typical), 1e-9)
	near(t, "high", float64(res.Pours.Mends.High), float64(want.High), 1e-9)

	req.Have = 0
	if res, err = Mull(req); err != nil || res.Pours.Mends.Typical != 0 {
		t.Errorf("nothing is said of what there is, yet it mends %v (%v)", res.Pours.Mends, err)
	}
	req.Have = -1
	if _, err = Mull(req); err == nil {
		t.Error("less than nothing in the jar was taken")
	}
}

// An exact dial has no width, and its named bodies lie in order.
func TestDialExact(t *testing.T) {
	req := request(t)
	req.Sampling.Exact = true
	res, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	d, err := DialOf(res)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Points {
		if p.Body.Low != p.Body.High || p.PVC.Low != p.PVC.High {
			t.Fatalf("an exact point with a width: %+v", p)
		}
	}
	if len(d.Steps) != len(absorption.Steps()) {
		t.Fatalf("%d named bodies, want %d", len(d.Steps), len(absorption.Steps()))
	}
}

func BenchmarkDial(b *testing.B) {
	res, err := Mull(request(b))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := DialOf(res); err != nil {
			b.Fatal(err)
		}
	}
}
