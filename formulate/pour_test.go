package formulate

import (
	"math"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"

	"pgregory.net/rapid"
)

// pourable is an invented liquid material of which a share stays; 0: not said.
func pourable(t interface{ Fatal(...any) }, id string, kind material.Kind, density quantity.Density, stays quantity.MassFraction) Ingredient {
	m := liquid(id, kind, density)
	if stays > 0 {
		m.NonVolatile = []evidence.Reading[quantity.MassFraction]{{Value: stays, Source: "invented"}}
	}
	return ready(t, m)
}

func TestPourRoles(t *testing.T) {
	water := pourable(t, "water", material.Water, 0.9982, 0)
	l, err := NewLiquid(&material.Material{ID: "binder", Kind: material.Medium}, []LiquidPart{
		NewLiquidPart(pourable(t, "gum", material.Gum, 1.4, 0.85), 2, &water),
		NewLiquidPart(pourable(t, "honey", material.Humectant, 1.42, 0.83), 1, &water),
		NewLiquidPart(water, 5, nil),
	})
	if err != nil {
		t.Fatal(err)
	}
	var r Roster
	l.Sit(&r)
	if got, want := r.Inputs(), 3*deviatesEach; got != want {
		t.Errorf("deviates of gum, honey and water: %d, want %d: water once, however often it is in", got, want)
	}
	p := Paint{l.Pour(nil, 8, make([]float64, r.Inputs()))}
	f := p.Figures()
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"whole mass", float64(f.Mass), 8},
		{"gum that stays", float64(f.BinderMass), 2 * 0.85},
		{"honey that stays", float64(f.AdditiveMass), 0.83},
		{"water", float64(f.VolatileMass), 5 + 2*0.15 + 0.17},
		{"volume, as of the materials unparted", float64(f.Volume), 2/1.4 + 1/1.42 + 5/0.9982},
	} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

// A liquid keeps its mass and its shares whatever the draw.
func TestPourConserves(t *testing.T) {
	water := pourable(t, "water", material.Water, 0.9982, 0)
	rapid.Check(t, func(r *rapid.T) {
		l, err := NewLiquid(&material.Material{ID: "mix"}, []LiquidPart{
			NewLiquidPart(pourable(t, "oil", material.Oil, 0.93, 0), quantity.MassFraction(rapid.Float64Range(0.01, 10).Draw(r, "oil")), nil),
			NewLiquidPart(pourable(t, "gall", material.WettingAgent, 1.02, quantity.MassFraction(rapid.Float64Range(0.01, 1).Draw(r, "stays"))), quantity.MassFraction(rapid.Float64Range(0.01, 10).Draw(r, "gall")), &water),
			NewLiquidPart(water, quantity.MassFraction(rapid.Float64Range(0.01, 10).Draw(r, "water")), nil),
		})
		if err != nil {
			r.Fatal(err)
		}
		var seats Roster
		l.Sit(&seats)
		z := rapid.SliceOfN(rapid.Float64Range(-4, 4), seats.Inputs(), seats.Inputs()).Draw(r, "z")
		mass := quantity.Mass(rapid.Float64Range(0.001, 1e4).Draw(r, "mass"))
		f := Paint{l.Pour(nil, mass, z)}.Figures()
		if math.Abs(float64(f.Mass/mass)-1) > 1e-12 {
			r.Errorf("%v g poured, %v g arrived", mass, f.Mass)
		}
		if f.Volume <= 0 || f.VolatileMass < 0 || f.AdditiveMass <= 0 {
			r.Errorf("figures %+v", f)
		}
		if d := l.Density(z); math.Abs(float64(d)*float64(f.Volume)/float64(f.Mass)-1) > 1e-12 {
			r.Errorf("density %v of %v g in %v ml", d, f.Mass, f.Volume)
		}
	})
}

func TestNewLiquidRefuses(t *testing.T) {
	oil := pourable(t, "oil", material.Oil, 0.93, 0)
	for _, c := range []struct {
		name  string
		parts []LiquidPart
	}{
		{"nothing", nil},
		{"no share", []LiquidPart{NewLiquidPart(oil, 0, nil)}},
		{"negative share", []LiquidPart{NewLiquidPart(oil, -1, nil)}},
		{"share not a number", []LiquidPart{NewLiquidPart(oil, quantity.MassFraction(math.NaN()), nil)}},
	} {
		if _, err := NewLiquid(&material.Material{ID: "mix"}, c.parts); err == nil {
			t.Errorf("%s: accepted", c.name)
		}
	}
}
