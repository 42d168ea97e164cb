package formulate_test

import (
	"fmt"
	"log"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// The materials of the examples are invented.
var (
	benchBlue = &material.Material{
		ID: "bench-blue", Name: "Bench blue", Kind: material.Pigment,
		Density:       []evidence.Reading[quantity.Density]{{Value: 2.34, Source: "invented"}},
		OilAbsorption: []material.OilReading{{Value: 38, Method: material.RubOut, Source: "invented"}},
	}
	benchOchre = &material.Material{
		ID: "bench-ochre", Name: "Bench ochre", Kind: material.Pigment,
		Density:       []evidence.Reading[quantity.Density]{{Value: 3.0, Source: "invented"}},
		OilAbsorption: []material.OilReading{{Value: 30, Method: material.RubOut, Source: "invented"}},
	}
	benchOil = &material.Material{
		ID: "bench-oil", Name: "Bench oil", Kind: material.Oil, Classes: []material.Class{material.DryingOil},
		Density: []evidence.Reading[quantity.Density]{{Value: 0.93, Source: "invented"}},
	}
	benchSpirit = &material.Material{
		ID: "bench-spirit", Name: "Bench spirit", Kind: material.Solvent,
		Density: []evidence.Reading[quantity.Density]{{Value: 0.78, Source: "invented"}},
	}
	benchGum = &material.Material{
		ID: "bench-gum", Name: "Bench gum", Kind: material.Gum,
		Density: []evidence.Reading[quantity.Density]{{Value: 1.4, Source: "invented"}},
	}
	benchWater = &material.Material{
		ID: "water", Name: "Water", Kind: material.Water,
		Density: []evidence.Reading[quantity.Density]{{Value: 0.998, Source: "invented"}},
	}
)

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}

func ingredient(m *material.Material) formulate.Ingredient { return must(formulate.NewIngredient(m)) }

// buttery is a mull of 50 g of blue at tube colour.
func buttery() formulate.MullRequest {
	body, _ := absorption.NamedBody("buttery")
	return formulate.MullRequest{
		Pigments: []formulate.Share{{Ingredient: ingredient(benchBlue), Parts: 1}},
		Oils:     []formulate.Share{{Ingredient: ingredient(benchOil), Parts: 1}},
		Amount:   formulate.Amount{Kind: formulate.ByPigmentMass, Mass: 50},
		Target:   formulate.Target{Kind: formulate.AtBody, Body: body},
		Scale:    0.1,
	}
}

// Every figure of a paint follows from its components: 100 g of ultramarine with
// 43 g of oil.
func ExamplePaint_Figures() {
	p := formulate.Paint{Components: []formulate.Component{
		{ID: "ultramarine", Role: formulate.Pigment, Mass: 100, Density: 2.34, Absorption: 32},
		{ID: "oil", Role: formulate.Binder, Mass: 43, Density: 0.93},
	}}
	f := p.Figures()
	fmt.Printf("PVC %.1f %%, critical %.1f %%, %.3f g/ml, %.1f %% oil by mass, %.1f %% by volume\n",
		100*float64(f.PVC()), 100*float64(f.CPVC()), float64(f.Density()), 100*float64(f.BinderByMass()), 100*float64(f.BinderByVolume()))
	// Output:
	// PVC 48.0 %, critical 57.2 %, 1.607 g/ml, 30.1 % oil by mass, 52.0 % by volume
}

// A mull says what to pour first and where to stop.
func ExampleMull() {
	res := must(formulate.Mull(buttery()))
	p, f := res.Pours, res.Figures
	fmt.Printf("weigh %.1f g, pour %.1f g of oil first, stop at %.1f g\n", float64(res.Weigh[0].OnScale), float64(p.First), float64(p.Most))
	fmt.Printf("PVC %.0f to %.0f %%\n", 100*float64(f.PVC.Low), 100*float64(f.PVC.High))
	// Output:
	// weigh 50.0 g, pour 20.6 g of oil first, stop at 71.2 g
	// PVC 24 to 46 %
}

// A paste that took too much oil: how much powder brings it back.
func ExampleCorrect() {
	paste := buttery()
	paste.Sampling.Exact = true
	res := must(formulate.Correct(formulate.CorrectRequest{
		Paste: paste,
		State: formulate.State{Known: formulate.ByBothWeighed, Pigment: 20, Oil: 20},
	}))
	fmt.Printf("%.1f g of oil too much\n", float64(res.Over.Typical))
	for _, w := range res.Ways {
		if w.Kind == formulate.AddPowder {
			fmt.Printf("add %.1f g of powder\n", float64(w.Total.Typical))
		}
	}
	// Output:
	// 4.6 g of oil too much
	// add 6.0 g of powder
}

// One part of paint with one of spirit, in a wet film of 40 µm.
func ExampleThin() {
	paint := buttery()
	paint.Sampling.Exact = true
	liquid := must(formulate.NewLiquid(benchSpirit, []formulate.LiquidPart{formulate.NewLiquidPart(ingredient(benchSpirit), 1, nil)}))
	res := must(formulate.Thin(formulate.ThinRequest{
		Paint:    paint,
		Solvents: []formulate.Poured{{Liquid: liquid, Parts: 1}},
		Thinning: formulate.Thinning{Kind: formulate.ByParts, By: formulate.ByVolume, Paint: 1, Solvent: 1},
		Wet:      40, Temperature: 20, Sampling: paint.Sampling,
	}))
	fmt.Printf("dries to %.0f µm; the film: %s\n", float64(res.Film.Dry.Typical), res.Bound.Verdict)
	// Output:
	// dries to 20 µm; the film: holds
}

// The same body in two pigments takes unlike oil.
func ExampleCompare() {
	body, _ := absorption.NamedBody("buttery")
	res := must(formulate.NewPalette([]formulate.Ingredient{ingredient(benchBlue), ingredient(benchOchre)}, formulate.Sampling{}).Compare(formulate.CompareRequest{
		Pigments: []formulate.Ingredient{ingredient(benchBlue), ingredient(benchOchre)}, Oil: ingredient(benchOil),
		At: formulate.SameBody, Body: body, Sort: "oil", Tube: 40, Fill: 0.78, Film: 100,
	}))
	for _, r := range res.Rows {
		fmt.Printf("%s %.0f g per 100 g\n", r.Material.ID, float64(r.Oil.Typical))
	}
	// Output:
	// bench-ochre 60 g per 100 g
	// bench-blue 77 g per 100 g
}

// A watercolour at a given PVC: how much gum solution.
func ExampleWatercolour() {
	flowing, _ := absorption.NamedBody("flowing")
	solution := must(formulate.NewLiquid(benchGum, []formulate.LiquidPart{
		formulate.NewLiquidPart(ingredient(benchGum), 1.0/3, nil),
		formulate.NewLiquidPart(ingredient(benchWater), 2.0/3, nil),
	}))
	res := must(formulate.Watercolour(formulate.WatercolourRequest{
		Pigments: []formulate.Share{{Ingredient: ingredient(benchBlue), Parts: 1}},
		Solution: solution, Air: gum.OrdinaryAir, Body: flowing,
		Binding:  formulate.Binding{Rule: formulate.BinderByPVC, PVC: 0.5},
		Amount:   formulate.Amount{Kind: formulate.ByPigmentMass, Mass: 30},
		Scale:    0.1,
		Sampling: formulate.Sampling{Exact: true},
	}))
	fmt.Printf("%.1f g of gum solution to 30 g of pigment; a film of PVC %.0f %%\n",
		float64(res.Binder.Solution), 100*float64(res.Figures.PVC.Typical))
	// Output:
	// 53.8 g of gum solution to 30 g of pigment; a film of PVC 50 %
}

// A brush ink in an invented gum: nothing published says how thick it flows, so no
// figure is made up.
func ExampleInk() {
	solution := must(formulate.NewLiquid(benchGum, []formulate.LiquidPart{
		formulate.NewLiquidPart(ingredient(benchGum), 1.0/3, nil),
		formulate.NewLiquidPart(ingredient(benchWater), 2.0/3, nil),
	}))
	res := must(formulate.Ink(formulate.InkRequest{
		Tool:     must(formulate.ToolFor(formulate.BrushInk)),
		Pigments: []formulate.Share{{Ingredient: ingredient(benchBlue), Parts: 1}},
		Solution: solution,
		Binding:  formulate.Binding{Rule: formulate.BinderByPVC, PVC: 0.4},
		Wetness:  formulate.Wetness{Pigment: 0.08},
		Amount:   formulate.Amount{Kind: formulate.ByPaintVolume, Volume: 30},
		Scale:    0.1, Temperature: 20, Height: 4, WetFilm: 20,
		Grain:    formulate.EvenGrain(2),
		Sampling: formulate.Sampling{Exact: true},
	}))
	fmt.Printf("%.1f g of pigment, %.1f g of gum in solution\n", float64(res.Pigments[0].OnScale), float64(res.SolutionGum))
	fmt.Printf("vehicle: %s\n", res.WhyNot)
	// Output:
	// 5.6 g of pigment, 5.0 g of gum in solution
	// vehicle: published tables hold gum arabic, glycerine and water only
}

// A lean layer over a fat one.
func ExampleLayers() {
	layer := func(name, body string, wet quantity.Thickness) formulate.LayerAsked {
		paint := buttery()
		paint.Target.Body, _ = absorption.NamedBody(body)
		return formulate.LayerAsked{Name: name, Thin: formulate.ThinRequest{Paint: paint, Wet: wet, Temperature: 20}}
	}
	res := must(formulate.Layers(formulate.LayersRequest{
		Layers:   []formulate.LayerAsked{layer("underpainting", "flowing", 40), layer("body colour", "stiff", 40)},
		Sampling: formulate.Sampling{Exact: true},
	}))
	fmt.Printf("%s: %s\n", res.First.Finding.Rule, res.First.Finding.Text)
	// Output:
	// fat over lean: leaner than the layer below: 59.9 % binder by volume over 76.6 %
}
