package gum_test

import (
	"math"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/media"
	"mullwright/pigments"
)

// kitchen makes the catalogue's materials ready to be poured.
type kitchen struct{ t *testing.T }

func (k kitchen) pour(id string, share float64) formulate.LiquidPart {
	in := k.ingredient(id)
	if len(in.Material.NonVolatile) == 0 {
		return formulate.NewLiquidPart(in, quantity.MassFraction(share), nil)
	}
	water := k.ingredient("water")
	return formulate.NewLiquidPart(in, quantity.MassFraction(share), &water)
}

func (k kitchen) ingredient(id string) formulate.Ingredient {
	k.t.Helper()
	m, err := media.New().Lookup(id)
	if err != nil {
		m, err = pigments.New().Lookup(id)
	}
	if err != nil {
		k.t.Fatal(err)
	}
	in, err := formulate.NewIngredient(m)
	if err != nil {
		k.t.Fatal(err)
	}
	return in
}

// binder is what a mass of parts by mass leaves dry, and its volume as poured.
func (k kitchen) binder(parts ...formulate.LiquidPart) (dry, poured quantity.Volume, mass quantity.Mass) {
	k.t.Helper()
	var total quantity.MassFraction
	for _, p := range parts {
		total += p.Share
	}
	l, err := formulate.NewLiquid(&material.Material{ID: "binder", Kind: material.Medium}, parts)
	if err != nil {
		k.t.Fatal(err)
	}
	f := (formulate.GumBatch{Pours: []formulate.GumPour{{Liquid: l, Mass: quantity.Mass(total)}}}).Paint().Figures()
	return f.BinderVolume + f.AdditiveVolume, f.Volume, f.Mass
}

// oil is what a mass of a pigment takes up in the rub-out.
func (k kitchen) oil(id string, mass float64) quantity.Volume {
	return quantity.Volume(mass * float64(k.ingredient(id).Absorption.Median) / 100)
}

// The s of every recipe in the hypothesis, worked out from the recipe.
func TestScalesAreTheRecipes(t *testing.T) {
	k := kitchen{t}
	// A pigment that takes up its own volume of oil (CPVC 50 %), and the paste it
	// makes with water: soft.
	soft, _ := absorption.NamedBody("soft")
	paste := 1 / (0.5 * float64(soft.Typical)) // ml for 1 ml of pigment
	share := func(dry, poured quantity.Volume, of float64) float64 { return float64(dry/poured) * of }

	soot, _, _ := k.binder(k.pour("gum-arabic", 1))
	ink, _, _ := k.binder(k.pour("gum-arabic", 50.0/16), k.pour("water", 50.0*15/16))
	stencil, _, _ := k.binder(k.pour("gum-arabic", 3))
	gdry, gall, _ := k.binder(k.pour("gum-arabic", 2), k.pour("water", 4), k.pour("glycerine", 1))
	idry, iall, _ := k.binder(k.pour("gum-arabic", 1), k.pour("water", 4))
	hdry, hall, _ := k.binder(k.pour("honey", 1))
	edry, eall, _ := k.binder(k.pour("gum-arabic", 100), k.pour("water", 333), k.pour("glycerine", 130), k.pour("honey", 55))

	// The ink sheet's pigment is not named: 15 g of one of 3 g/ml.
	want := []struct {
		name      string
		low, high float64
	}{
		{"soot 3, gum 1", float64(soot / k.oil("lamp-black", 3)), 0},
		{"ink sheet", float64(ink) / (15 / 3.0), 0},
		{"stencil ink", float64(stencil / (k.oil("prussian-blue", 2) + k.oil("lamp-black", 1))), 0},
		{"grinding page", share(gdry, gall, paste/4), share(gdry, gall, paste/3)},
		{"illuminators", share(idry, iall, paste) + share(hdry, hall, paste/4), 0},
		{"binder with honey", share(edry, eall, paste), 0},
	}
	got := gum.Scales()
	if len(got) != len(want) {
		t.Fatalf("%d recipes, %d worked out here", len(got), len(want))
	}
	// 5 %: the catalogue's densities and absorptions are living figures, and the
	// recipes differ by a factor of six.
	near := func(a quantity.Ratio, b float64) bool { return math.Abs(float64(a)/b-1) <= 0.05 }
	for i, w := range want {
		g := got[i]
		t.Logf("%s: s = %.3f %.3f, held %.2f %.2f–%.2f", w.name, w.low, w.high, float64(g.Value), float64(g.Low), float64(g.High))
		if w.high == 0 && !near(g.Value, w.low) || w.high > 0 && (!near(g.Low, w.low) || !near(g.High, w.high)) {
			t.Errorf("%s: s is %.3f to %.3f by its own figures, %+v is held", w.name, w.low, w.high, g)
		}
	}
	d := gum.Scale()
	t.Logf("s = %.2f, log spread %.2f, 8 in 10 %v", float64(d.Median), d.Sigma, d.Range())
	if !(d.Range().Low < 0.30 && d.Range().High > 1.0) {
		t.Errorf("the range of s, %v, does not span the recipes", d.Range())
	}
}

// The estimate of a loose density spans what the catalogue holds of both.
func TestLooseDensitySpansTheCatalogue(t *testing.T) {
	shelf := pigments.New()
	inside, n := 0, 0
	logs := 0.0
	for _, id := range shelf.IDs() {
		m, err := shelf.Lookup(id)
		if err != nil {
			t.Fatal(err)
		}
		bulk, ok := formulate.BulkDensityOf(m)
		if !ok || !m.DensityDistribution().Known() {
			continue
		}
		n++
		guess := gum.LooseDensity(m.DensityDistribution())
		r := guess.Range()
		if bulk.Median >= r.Low && bulk.Median <= r.High {
			inside++
		}
		logs += math.Log(float64(bulk.Median / guess.Median))
		t.Logf("%s: %.2f g/ml, estimated %.2f (%.2f–%.2f)", id, float64(bulk.Median), float64(guess.Median), float64(r.Low), float64(r.High))
	}
	if n < 6 {
		t.Fatalf("only %d powders have both densities", n)
	}
	if bias := math.Exp(logs / float64(n)); bias < 0.75 || bias > 1.33 {
		t.Errorf("the estimate is off by a factor of %.2f on average", bias)
	}
	if float64(inside) < 0.6*float64(n) {
		t.Errorf("%d of %d powders lie in the 8-in-10 range", inside, n)
	}
}
