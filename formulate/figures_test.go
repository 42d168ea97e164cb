package formulate

import (
	"reflect"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Every range of FigureRanges is that of the figure of its name: the columns
// cannot get out of step.
func TestFigureRangesByName(t *testing.T) {
	p := Paint{[]Component{
		{ID: "blue", Role: Pigment, Mass: 50, Density: 2.34, Absorption: 30, Price: 0.1},
		{ID: "chalk", Role: Extender, Mass: 7, Density: 2.7, Absorption: 17, Price: 0.01},
		{ID: "oil", Role: Binder, Mass: 23, Density: 0.93, Price: 0.02},
		{ID: "spirit", Role: Volatile, Mass: 5, Density: 0.78, Price: 0.03},
		{ID: "wax", Role: Additive, Mass: 2, Density: 0.96, Price: 0.04},
	}}
	f := reflect.ValueOf(p.Figures())
	ranges := reflect.ValueOf(FiguresOf(p))
	if ranges.NumField() != figureCount {
		t.Errorf("%d ranges for %d columns", ranges.NumField(), figureCount)
	}
	seen := map[float64]string{}
	for i := range ranges.NumField() {
		name := ranges.Type().Field(i).Name
		var want float64
		if m := f.MethodByName(name); m.IsValid() {
			want = m.Call(nil)[0].Float()
		} else if field := f.FieldByName(name); field.IsValid() {
			want = field.Float()
		} else {
			t.Errorf("%s: there is no such figure", name)
			continue
		}
		if other, twice := seen[want]; twice {
			t.Errorf("%s and %s are both %v: this paint cannot tell them apart", name, other, want)
		}
		seen[want] = name
		for _, part := range []string{"Low", "Typical", "High"} {
			if got := ranges.Field(i).FieldByName(part).Float(); got != want {
				t.Errorf("%s.%s = %v, want %v", name, part, got, want)
			}
		}
	}
}

// Figures worked by hand.
func TestFiguresByHand(t *testing.T) {
	f := Paint{[]Component{
		{ID: "a", Role: Pigment, Mass: 60, Density: 3, Absorption: 20},  // 20 ml, takes 12 ml of oil
		{ID: "b", Role: Extender, Mass: 20, Density: 2, Absorption: 40}, // 10 ml, takes 8 ml of oil
		{ID: "o", Role: Binder, Mass: 18, Density: 0.9},                 // 20 ml
		{ID: "x", Role: Additive, Mass: 10, Density: 1},                 // 10 ml
		{ID: "v", Role: Volatile, Mass: 32, Density: 0.8},               // 40 ml
	}}.Figures()
	near(t, "mass", float64(f.Mass), 140, 1e-12)
	near(t, "volume", float64(f.Volume), 100, 1e-12)
	near(t, "density", float64(f.Density()), 1.4, 1e-12)
	near(t, "demand", float64(f.Demand), 20, 1e-12)
	near(t, "PVC", float64(f.PVC()), 0.5, 1e-12)
	near(t, "CPVC", float64(f.CPVC()), 0.6, 1e-12)
	near(t, "reduced PVC", float64(f.ReducedPVC()), 0.5/0.6, 1e-12)
	near(t, "wet pigment", float64(f.WetPigment()), 0.3, 1e-12)
	near(t, "body", float64(f.Body()), 0.5, 1e-12)
	near(t, "oil per 100 g", float64(f.OilPerPigment()), 22.5, 1e-12)
	near(t, "binder by mass", float64(f.BinderByMass()), 18.0/140, 1e-12)
	near(t, "binder by volume", float64(f.BinderByVolume()), 0.2, 1e-12)
	near(t, "dry film's binder", float64(f.DryBinderByVolume()), 0.5, 1e-12)
	near(t, "solids by mass", float64(f.SolidsByMass()), 108.0/140, 1e-12)
	near(t, "solids by volume", float64(f.SolidsByVolume()), 0.6, 1e-12)
	near(t, "volatile by mass", float64(f.VolatileByMass()), 32.0/140, 1e-12)
}

// A paint of nothing, or without pigment or binder, has figures and no NaN.
func TestFiguresOfLittle(t *testing.T) {
	for name, p := range map[string]Paint{
		"nothing":         {},
		"oil alone":       {[]Component{{ID: "oil", Role: Binder, Mass: 5, Density: 0.93}}},
		"spirit alone":    {[]Component{{ID: "spirit", Role: Volatile, Mass: 5, Density: 0.78}}},
		"powder alone":    {[]Component{{ID: "blue", Role: Pigment, Mass: 5, Density: 2, Absorption: 30}}},
		"powder, no test": {[]Component{{ID: "blue", Role: Pigment, Mass: 5, Density: 2}}},
	} {
		row := make([]float64, figureCount)
		p.Figures().vector(row)
		for i, v := range row {
			if v != v || v < 0 {
				t.Errorf("%s: figure %d is %v", name, i, v)
			}
		}
	}
}

// The zero sampling draws the defaults, an exact one runs once at the middle.
func TestSampling(t *testing.T) {
	if s := (Sampling{}); s.draws() != evidence.DefaultDraws || s.seed() != evidence.DefaultSeed {
		t.Errorf("the zero sampling draws %d with seed %d", s.draws(), s.seed())
	}
	if s := (Sampling{Draws: 99, Seed: 5}); s.draws() != 99 || s.seed() != 5 {
		t.Errorf("a chosen sampling draws %d with seed %d", s.draws(), s.seed())
	}
	sum := func() func(z, out []float64) {
		return func(z, out []float64) { out[0], out[1] = z[0]+z[1], 7 }
	}
	if got := (Sampling{Exact: true, Draws: 99}).run(2, 2, sum); !reflect.DeepEqual(got, [][]float64{{0}, {7}}) {
		t.Errorf("an exact run gives %v, want one draw at the middle", got)
	}
	columns := (Sampling{Draws: 4000}).run(2, 2, sum)
	if len(columns[0]) != 4000 {
		t.Fatalf("%d draws", len(columns[0]))
	}
	// The sum of two standard normals: 10th and 90th percentile ∓1.2816·√2.
	r := rangeOf[quantity.Ratio](columns[0])
	near(t, "median", float64(r.Typical), 0, 0.02)
	near(t, "90th percentile", float64(r.High), 1.8124, 0.03)
	near(t, "10th percentile", float64(r.Low), -1.8124, 0.03)
	again := (Sampling{Draws: 4000}).run(2, 2, sum)
	other := (Sampling{Draws: 4000, Seed: 2}).run(2, 2, sum)
	if rangeOf[quantity.Ratio](again[0]) != r {
		t.Error("the same seed gives another range")
	}
	if rangeOf[quantity.Ratio](other[0]) == r {
		t.Error("another seed gives the same range")
	}
}
