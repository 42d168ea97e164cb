package formulate

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Invented materials: the numbers are made up for tests.
func powder(id string, density quantity.Density, oa quantity.Absorption) *material.Material {
	return &material.Material{
		ID: id, Name: id, Kind: material.Pigment,
		Density:       []evidence.Reading[quantity.Density]{{Value: density, Source: "invented"}},
		OilAbsorption: []material.OilReading{{Value: oa, Method: material.RubOut, Source: "invented"}},
	}
}

func liquid(id string, kind material.Kind, density quantity.Density) *material.Material {
	m := &material.Material{ID: id, Name: id, Kind: kind,
		Density: []evidence.Reading[quantity.Density]{{Value: density, Source: "invented"}}}
	if kind == material.Oil {
		m.Classes = []material.Class{material.DryingOil}
	}
	return m
}

func ready(t interface{ Fatal(...any) }, m *material.Material) Ingredient {
	in, err := NewIngredient(m)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

func request(t interface{ Fatal(...any) }) MullRequest {
	body, _ := absorption.NamedBody("buttery")
	return MullRequest{
		Pigments: []Share{{ready(t, powder("blue", 2.34, 38)), 1}},
		Oils:     []Share{{ready(t, liquid("oil", material.Oil, 0.93)), 1}},
		Amount:   Amount{Kind: ByPigmentMass, Mass: 50},
		Target:   Target{Kind: AtBody, Body: body},
		Scale:    0.1, DropMass: 0.033,
	}
}

// Published: 100 g of ultramarine at 2.34 g/ml with 43 g of oil at 0.93 g/ml is
// PVC 48.03 %, density 1.6073 g/ml, 30.07 % oil by mass (43 g: Church 1901;
// density: Gettens and Stout; shares computed).
func TestPaintOfPublishedRecipe(t *testing.T) {
	p := Paint{[]Component{
		{ID: "ultramarine", Role: Pigment, Mass: 100, Density: 2.34, Absorption: 30},
		{ID: "oil", Role: Binder, Mass: 43, Density: 0.93},
	}}
	f := p.Figures()
	near(t, "PVC %", 100*float64(f.PVC()), 48.03, 0.005)
	near(t, "density", float64(f.Density()), 1.6073, 0.00005)
	near(t, "oil %", 100*float64(f.BinderByMass()), 30.07, 0.005)
	near(t, "oil per 100", float64(f.OilPerPigment()), 43, 1e-12)
	near(t, "body is reduced PVC without solvent", float64(f.Body()), float64(f.ReducedPVC()), 1e-12)
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v ± %v", what, got, want, tolerance)
	}
}

func TestMullAmounts(t *testing.T) {
	base := request(t)
	base.Loss = 0.08
	for _, a := range []Amount{
		{Kind: ByPigmentMass, Mass: 50},
		{Kind: ByPaintMass, Mass: 120},
		{Kind: ByPaintVolume, Volume: 40},
		{Kind: ByOilMass, Mass: 12},
		{Kind: ByTubes, Tubes: 3, Volume: 40, Fill: 0.78},
	} {
		req := base
		req.Amount, req.Scale = a, 0
		r, err := Mull(req)
		if err != nil {
			t.Fatal(err)
		}
		f := r.Paint.Figures()
		var got, want float64
		switch a.Kind {
		case ByPigmentMass:
			got, want = float64(f.PigmentMass), 50
		case ByPaintMass:
			got, want = float64(f.Mass)*0.92, 120
		case ByPaintVolume:
			got, want = float64(f.Volume)*0.92, 40
		case ByOilMass:
			got, want = float64(f.BinderMass), 12
		case ByTubes:
			got, want = float64(f.Volume)*0.92, 3*40*0.78
			near(t, "tubes filled", float64(r.Tubes.Count.Typical), 3, 0.02)
		}
		near(t, "amount", got, want, 1e-9*want)
	}
}

// A first pour passes its target in at most one jar of twenty, and the pours
// rise to the amount that 19 jars of 20 do not exceed.
func TestFirstPourRisk(t *testing.T) {
	r, err := Mull(request(t))
	if err != nil {
		t.Fatal(err)
	}
	p := r.Pours
	if p.FirstOver > FirstPourRisk {
		t.Errorf("first pour of %v g passes the target with a chance of %v, want at most %v", p.First, p.FirstOver, FirstPourRisk)
	}
	if !(p.First < p.Typical && p.Typical < p.Most) {
		t.Errorf("pours %v, %v, %v g do not rise", p.First, p.Typical, p.Most)
	}
	last := p.Ladder[len(p.Ladder)-1]
	if last.Total < p.Most-p.Step || last.Reached < 0.9 {
		t.Errorf("ladder ends at %v g with %v reached; most is %v g", last.Total, last.Reached, p.Most)
	}
}

// The exact answer is the typical path: at z = 0 the same function, so PVC
// asked for comes out.
func TestMullAtPVC(t *testing.T) {
	req := request(t)
	req.Target = Target{Kind: AtPVC, PVC: 0.40}
	req.Waxes = []Portion{{ready(t, liquid("wax", material.Wax, 0.96)), 0.02}}
	req.Sampling.Exact = true
	r, err := Mull(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "PVC", float64(r.Paint.Figures().PVC()), 0.40, 1e-12)
	f := r.Paint.Figures()
	near(t, "wax share of the paste", float64(f.AdditiveMass/f.Mass), 0.02, 1e-12)
}

func TestMullRefuses(t *testing.T) {
	tests := []struct {
		name   string
		change func(*MullRequest)
	}{
		{"no pigment", func(r *MullRequest) { r.Pigments = nil }},
		{"no oil", func(r *MullRequest) { r.Oils = nil }},
		{"no amount", func(r *MullRequest) { r.Amount = Amount{} }},
		{"zero amount", func(r *MullRequest) { r.Amount.Mass = 0 }},
		{"infinite amount", func(r *MullRequest) { r.Amount.Mass = quantity.Mass(math.Inf(1)) }},
		{"NaN amount", func(r *MullRequest) { r.Amount.Mass = quantity.Mass(math.NaN()) }},
		{"PVC above critical", func(r *MullRequest) { r.Target = Target{Kind: AtPVC, PVC: 0.8} }},
		{"reduced PVC above 1", func(r *MullRequest) { r.Target = Target{Kind: AtReducedPVC, Reduced: 1.2} }},
		{"parts nothing", func(r *MullRequest) { r.Pigments[0].Parts = 0 }},
		{"all water", func(r *MullRequest) { r.Moisture = 1 }},
		{"all lost", func(r *MullRequest) { r.Loss = 1 }},
		{"oil as pigment", func(r *MullRequest) { r.Pigments = append(r.Pigments, r.Oils[0]) }},
		{"pigment twice", func(r *MullRequest) { r.Pigments = append(r.Pigments, r.Pigments[0]) }},
		{"solvent as oil", func(r *MullRequest) { r.Oils[0].Ingredient = ready(t, liquid("spirit", material.Solvent, 0.78)) }},
		{"tube over-full", func(r *MullRequest) { r.Amount = Amount{Kind: ByTubes, Tubes: 1, Volume: 40, Fill: 1.2} }},
		{"wax instead of paint", func(r *MullRequest) {
			r.Waxes = []Portion{{ready(t, liquid("wax", material.Wax, 0.96)), 0.6}}
		}},
		{"wax fills the PVC", func(r *MullRequest) {
			r.Waxes = []Portion{{ready(t, liquid("wax", material.Wax, 0.96)), 0.45}}
			r.Target = Target{Kind: AtPVC, PVC: 0.55}
		}},
	}
	for _, tt := range tests {
		r := request(t)
		tt.change(&r)
		if res, err := Mull(r); err == nil {
			t.Errorf("%s: accepted, PVC %v", tt.name, res.Figures.PVC.Typical)
		}
	}
	r := request(t)
	r.Target = Target{Kind: AtReducedPVC, Reduced: 1.2, AboveCritical: true}
	if _, err := Mull(r); err != nil {
		t.Errorf("above critical knowingly: %v", err)
	}
}

// randomPaint is any paint of up to 12 components.
func randomPaint(t *rapid.T) Paint {
	var p Paint
	for i := range rapid.IntRange(1, 12).Draw(t, "components") {
		c := Component{
			ID:      string(rune('a' + i)),
			Role:    Role(rapid.IntRange(int(Pigment), int(Additive)).Draw(t, "role")),
			Mass:    quantity.Mass(rapid.Float64Range(1e-3, 1e4).Draw(t, "mass")),
			Density: quantity.Density(rapid.Float64Range(0.5, 9).Draw(t, "density")),
		}
		if c.Role == Pigment || c.Role == Extender {
			c.Absorption = quantity.AbsorptionVolume(rapid.Float64Range(5, 200).Draw(t, "absorption"))
		}
		p.Components = append(p.Components, c)
	}
	return p
}

// Mass and volume are conserved to 1e-12, against sums done the slow way.
func TestConservation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomPaint(t)
		f := p.Figures()
		var mass, volume float64
		for _, c := range p.Components {
			mass += float64(c.Mass)
			volume += float64(c.Mass) / float64(c.Density)
		}
		same := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-12*math.Abs(want) {
				t.Fatalf("%s: %v, want %v", what, got, want)
			}
		}
		same("mass", float64(f.Mass), mass)
		same("volume", float64(f.Volume), volume)
		same("mass by role", float64(f.PigmentMass+f.BinderMass+f.AdditiveMass+f.VolatileMass), mass)
		same("volume by role", float64(f.PigmentVolume+f.BinderVolume+f.AdditiveVolume+f.VolatileVolume), volume)
		same("two halves mixed", float64(Mixed(p.Scaled(0.5), p.Scaled(0.5)).Figures().Mass), mass)
		twice := p.Scaled(2).Figures()
		same("twice the mass", float64(twice.Mass), 2*mass)
		if f.PigmentVolume > 0 {
			same("PVC of twice", float64(twice.PVC()), float64(f.PVC()))
			more := Mixed(p, Paint{[]Component{{ID: "more oil", Role: Binder, Mass: 1, Density: 0.93}}}).Figures()
			if more.PVC() > f.PVC() {
				t.Fatalf("more oil raised the PVC from %v to %v", f.PVC(), more.PVC())
			}
		}
		thinned := Mixed(p, Paint{[]Component{{ID: "spirit", Role: Volatile, Mass: 7, Density: 0.78}}}).Figures()
		same("solvent leaves dry PVC", float64(thinned.PVC()), float64(f.PVC()))
	})
}

// Doubling the amount doubles every mass before rounding to the scale.
func TestDoublingDoubles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := request(t)
		req.Scale = 0
		req.Sampling.Draws = 64
		req.Pigments[0].Ingredient = ready(t, powder("p", quantity.Density(rapid.Float64Range(1.2, 8).Draw(t, "density")), quantity.Absorption(rapid.Float64Range(6, 150).Draw(t, "oa"))))
		req.Moisture = quantity.MassFraction(rapid.Float64Range(0, 0.4).Draw(t, "moisture"))
		a, err := Mull(req)
		if err != nil {
			t.Fatal(err)
		}
		req.Amount.Mass *= 2
		b, err := Mull(req)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Weigh {
			if x, y := float64(a.Weigh[i].Mass.Typical), float64(b.Weigh[i].Mass.Typical); math.Abs(y-2*x) > 1e-9*y {
				t.Fatalf("%s: %v g doubled is %v g", a.Weigh[i].Material.ID, x, y)
			}
		}
		if x, y := float64(a.Figures.PVC.Typical), float64(b.Figures.PVC.Typical); math.Abs(x-y) > 1e-12 {
			t.Fatalf("PVC moved from %v to %v", x, y)
		}
	})
}

// The answer does not depend on the number of processors, and a seed repeats.
func TestMullDeterministic(t *testing.T) {
	a, err := Mull(request(t))
	if err != nil {
		t.Fatal(err)
	}
	b, _ := Mull(request(t))
	if a.Figures != b.Figures || !slices.Equal(a.Pours.Ladder, b.Pours.Ladder) {
		t.Error("the same request gave two answers")
	}
}

func TestPastePerMull(t *testing.T) {
	// Kay 1983: a tablespoonful on a slab of 18 by 24 inches.
	near(t, "Kay's slab", float64(PastePerMull(Slab{Width: 18 * 2.54, Depth: 24 * 2.54})), 15, 1e-9)
}

func BenchmarkFigures(b *testing.B) {
	p := Paint{[]Component{
		{ID: "a", Role: Pigment, Mass: 100, Density: 2.34, Absorption: 30},
		{ID: "b", Role: Extender, Mass: 10, Density: 2.7, Absorption: 17},
		{ID: "o", Role: Binder, Mass: 43, Density: 0.93},
		{ID: "w", Role: Additive, Mass: 2, Density: 0.96},
	}}
	b.ReportAllocs()
	var sink Figures
	var pvc quantity.VolumeFraction
	for b.Loop() {
		sink = p.Figures()
		pvc += sink.PVC() + sink.CPVC() + quantity.VolumeFraction(sink.ReducedPVC())
	}
	_ = pvc
}

// One deterministic formula from request to figures.
func BenchmarkFormula(b *testing.B) {
	body, _ := absorption.NamedBody("buttery")
	in, _ := NewIngredient(powder("blue", 2.34, 38))
	oil, _ := NewIngredient(liquid("oil", material.Oil, 0.93))
	req := MullRequest{Pigments: []Share{{in, 1}}, Oils: []Share{{oil, 1}}, Target: Target{Kind: AtBody, Body: body}, Amount: Amount{Kind: ByPigmentMass, Mass: 50}}
	m := &mull{req: &req}
	z := make([]float64, req.inputs())
	b.ReportAllocs()
	for b.Loop() {
		u, err := m.unitPaint(z, nil)
		if err != nil {
			b.Fatal(err)
		}
		_ = u.paint.Figures()
	}
}
