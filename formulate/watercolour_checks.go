package formulate

import (
	"mullwright/formulate/check"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// gumRecipeRelations work published recipes in water through [Solution], [Ink]
// and [GumBatch].
func gumRecipeRelations() []check.Relation {
	return []check.Relation{
		{Name: "stock-recipe", Unit: "in the recipe's unit, %", Func: checkStock},
		{Name: "ink-recipe", Unit: "g, %", Func: checkInk},
		{Name: "gum-batch-recipe", Unit: "1, %", Func: checkGumBatch},
	}
}

// checkedPart is a material of a check row, dissolved as it is: what a recipe
// weighs does not depend on densities or on the water gum holds.
func checkedPart(id string, kind material.Kind, parts float64) (LiquidPart, error) {
	in, err := NewIngredient(checked(id, kind, 1))
	return NewLiquidPart(in, quantity.MassFraction(parts), nil), err
}

// checkedSolution joins what a row names: gum or shellac, borax, water.
func checkedSolution(a *check.Args) (Liquid, error) {
	var parts []LiquidPart
	for _, p := range []struct {
		id   string
		kind material.Kind
	}{{"gum", material.Gum}, {"shellac", material.Resin}, {"borax", material.Additive}, {"water", material.Water}} {
		if !a.Has(p.id) {
			continue
		}
		part, err := checkedPart(p.id, p.kind, a.Get(p.id))
		if err != nil {
			return Liquid{}, err
		}
		parts = append(parts, part)
	}
	return NewLiquid(&material.Material{ID: "stock", Name: "stock", Kind: material.Medium}, parts)
}

// checkStock weighs a stock for a total: gum, shellac, borax, water as parts,
// glycerine and honey as ratios to the gum.
func checkStock(a *check.Args) (map[string]float64, error) {
	l, err := checkedSolution(a)
	if err != nil {
		return nil, err
	}
	req := SolutionRequest{Solution: l, Temperature: 20, Amount: Amount{Kind: ByPaintMass, Mass: quantity.Mass(a.Get("total"))}}
	for _, id := range []string{"glycerine", "honey"} {
		if !a.Has(id) {
			continue
		}
		p, err := checkedPart(id, material.Humectant, 1)
		if err != nil {
			return nil, err
		}
		req.Humectants = append(req.Humectants, GumHumectant{p, quantity.Ratio(a.Get(id))})
	}
	r, err := Solution(req)
	if err != nil {
		return nil, err
	}
	out := map[string]float64{"binder_pct": 100 * float64(r.Gum), "solids_pct": 100 * float64(r.Dry), "humectant_ratio": float64(r.Humectant), "per_100_ml_water": float64(r.PerWater)}
	for _, p := range r.Parts {
		out[p.Material.ID] = float64(p.Mass)
	}
	return out, nil
}

// checkInk makes an ink of undiluted solution for a mass of pigment at its share
// of the ink.
func checkInk(a *check.Args) (map[string]float64, error) {
	l, err := checkedSolution(a)
	if err != nil {
		return nil, err
	}
	in, err := NewIngredient(checked("pigment", material.Pigment, 3))
	if err != nil {
		return nil, err
	}
	pigment := quantity.Mass(a.Get("pigment"))
	tool, err := ToolFor(DipPen)
	if err != nil {
		return nil, err
	}
	r, err := Ink(InkRequest{Tool: tool, Pigments: []Share{{in, 1}}, Solution: l, Binding: Binding{Rule: BinderUndiluted},
		Wetness: Wetness{ByMass: quantity.MassFraction(a.Get("pigment_pct") / 100)}, Amount: Amount{Kind: ByPigmentMass, Mass: pigment},
		Temperature: 20, Grain: evidence.Distribution[quantity.ParticleSize]{Median: 2}, Height: 4, WetFilm: tool.WetFilm, Sampling: Sampling{Exact: true}})
	if err != nil {
		return nil, err
	}
	return map[string]float64{
		"solution": float64(r.Solution.Mass.Typical), "gum": float64(r.SolutionGum), "pigment_pct": 100 * float64(r.PigmentByMass.Typical),
		"gum_pct": 100 * float64(r.SolutionGum/r.Yield.Mass.Typical),
	}, nil
}

// checkGumBatch reads a recipe of pigment or paste, solution and humectant.
func checkGumBatch(a *check.Args) (map[string]float64, error) {
	in, err := NewIngredient(checked("pigment", material.Pigment, 3))
	if err != nil {
		return nil, err
	}
	l, err := checkedSolution(a)
	if err != nil {
		return nil, err
	}
	pigment, solution := quantity.Mass(a.Get("pigment")), quantity.Mass(a.Get("solution"))
	b := GumBatch{Powders: []GumPowder{{in, pigment}}}.Plus(l, solution)
	if a.Has("honey") {
		p, err := checkedPart("honey", material.Humectant, 1)
		if err != nil {
			return nil, err
		}
		honey, err := NewLiquid(p.Material, []LiquidPart{p})
		if err != nil {
			return nil, err
		}
		b = b.Plus(honey, quantity.Mass(a.Get("honey")))
	}
	whole := b.Paint().Figures().Mass
	gumMass := b.Weighed(material.Gum)
	return map[string]float64{
		"gum_pct": 100 * float64(gumMass/whole), "honey_pct": 100 * float64(b.Weighed(material.Humectant)/whole),
		"pigment_to_gum": float64(pigment / gumMass), "humectant_ratio": float64(b.HumectantRatio()),
	}, nil
}
