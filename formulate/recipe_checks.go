package formulate

import (
	"fmt"

	"mullwright/formulate/absorption"
	"mullwright/formulate/check"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// recipeRelations work published recipes through [TrueComposition].
func recipeRelations() []check.Relation {
	return []check.Relation{
		{Name: "recipe", Unit: "ml, g/ml, %, g/100g", Func: checkRecipe},
		{Name: "recipe-by-spoon", Unit: "g/ml, g/100g", Func: checkSpoonRecipe},
		{Name: "recipe-stated-percent", Unit: "%", Func: checkStatedPercent},
	}
}

// checked is a material of a check row: no more than its kind and its density.
func checked(id string, kind material.Kind, density quantity.Density) *material.Material {
	m := &material.Material{ID: id, Name: id, Kind: kind, Density: []evidence.Reading[quantity.Density]{{Value: density, Source: id}}}
	if kind == material.Pigment {
		// Rows that ask for a critical PVC belong to absorption; none is asked here.
		m.OilAbsorption = []material.OilReading{{Value: 20, Method: material.RubOut, Source: id}}
	}
	return m
}

func checkedLine(m *material.Material, by RecipeMeasure) (RecipeLine, error) {
	in, err := NewIngredient(m)
	if err != nil {
		return RecipeLine{}, err
	}
	l, err := NewLiquid(m, []LiquidPart{NewLiquidPart(in, 1, nil)})
	return RecipeLine{Of: l, By: by}, err
}

// recipeRow reads pigment1_g, pigment1_d (g/ml), binder1_g and so on;
// emulsion_g, emulsion_d and emulsion_solids_pct are a binder with the water it
// stands in, of water_d.
func recipeRow(a *check.Args) (RecipeRequest, error) {
	req := RecipeRequest{Sampling: Sampling{Exact: true}}
	for _, k := range []struct {
		name string
		kind material.Kind
	}{{"pigment", material.Pigment}, {"binder", material.Oil}, {"volatile", material.Solvent}} {
		for i := 1; ; i++ {
			name := fmt.Sprintf("%s%d", k.name, i)
			if !a.Has(name + "_g") {
				break
			}
			l, err := checkedLine(checked(name, k.kind, quantity.Density(a.Get(name+"_d"))), WeighedOut)
			if err != nil {
				return req, err
			}
			l.Mass = quantity.Mass(a.Get(name + "_g"))
			req.Lines = append(req.Lines, l)
		}
	}
	if a.Has("emulsion_g") {
		l, err := emulsion(a)
		if err != nil {
			return req, err
		}
		req.Lines = append(req.Lines, l)
	}
	return req, nil
}

func emulsion(a *check.Args) (RecipeLine, error) {
	m := checked("emulsion", material.Oil, quantity.Density(a.Get("emulsion_d")))
	m.NonVolatile = []evidence.Reading[quantity.MassFraction]{{Value: quantity.MassFraction(a.Get("emulsion_solids_pct") / 100), Source: "row"}}
	in, err := NewIngredient(m)
	if err != nil {
		return RecipeLine{}, err
	}
	water, err := NewIngredient(checked("water", material.Water, quantity.Density(a.Get("water_d"))))
	if err != nil {
		return RecipeLine{}, err
	}
	l, err := NewLiquid(m, []LiquidPart{NewLiquidPart(in, 1, &water)})
	return RecipeLine{Of: l, By: WeighedOut, Mass: quantity.Mass(a.Get("emulsion_g"))}, err
}

func checkRecipe(a *check.Args) (map[string]float64, error) {
	req, err := recipeRow(a)
	if err != nil {
		return nil, err
	}
	r, err := TrueComposition(req)
	if err != nil {
		return nil, err
	}
	f := &r.Figures
	out := map[string]float64{
		"volume_ml": float64(f.Volume.Typical), "density": float64(f.Density.Typical), "pvc_pct": 100 * float64(f.PVC.Typical),
		"solids_volume_pct": 100 * float64(f.SolidsByVolume.Typical), "binder_mass_pct": 100 * float64(f.BinderByMass.Typical),
		"binder_volume_pct": 100 * float64(f.BinderByVolume.Typical), "oil_per_100g": float64(f.OilPerPigment.Typical),
		"pigment_ml": float64(f.PigmentVolume.Typical), "binder_ml": float64(f.BinderVolume.Typical),
		"pigment_to_binder": float64(f.PigmentMass.Typical / f.BinderMass.Typical),
	}
	for i, e := range r.Entries {
		out[fmt.Sprintf("line%d_mass_pct", i+1)] = 100 * float64(e.MassShare.Typical)
	}
	return out, nil
}

// checkSpoonRecipe is a recipe printed both ways: so many spoons of loose
// powder to one of oil, and the ratio of their weights.
func checkSpoonRecipe(a *check.Args) (map[string]float64, error) {
	oil := quantity.Density(a.Get("oil_density"))
	spoons := quantity.Ratio(a.Get("volume_ratio"))
	bulk := absorption.PowderDensity(quantity.Ratio(a.Get("weight_ratio")), spoons, oil)
	powder, err := checkedLine(checked("powder", material.Pigment, 3), SpoonedOut)
	if err != nil {
		return nil, err
	}
	liquid, err := checkedLine(checked("oil", material.Oil, oil), PouredOut)
	if err != nil {
		return nil, err
	}
	powder.Volume.Median, powder.Bulk.Density.Median = quantity.Volume(spoons)*quantity.MlPerTablespoon, bulk
	liquid.Volume.Median = quantity.MlPerTablespoon
	r, err := TrueComposition(RecipeRequest{Lines: []RecipeLine{powder, liquid}, Sampling: Sampling{Exact: true}})
	if err != nil {
		return nil, err
	}
	return map[string]float64{"bulk_density": float64(bulk), "oil_per_100g": float64(r.Figures.OilPerPigment.Typical)}, nil
}

// checkStatedPercent is what a percentage of the second of two materials truly
// is: wax in oil, oil in pigment.
func checkStatedPercent(a *check.Args) (map[string]float64, error) {
	req, err := recipeRow(a)
	if err != nil {
		return nil, err
	}
	if a.Has("wax_g") {
		wax, err := checkedLine(checked("wax", material.Wax, quantity.Density(a.Get("wax_d"))), WeighedOut)
		if err != nil {
			return nil, err
		}
		wax.Mass = quantity.Mass(a.Get("wax_g"))
		oil, err := checkedLine(checked("oil", material.Oil, quantity.Density(a.Get("oil_d"))), PouredOut)
		if err != nil {
			return nil, err
		}
		oil.Volume.Median = quantity.Volume(a.Get("oil_ml"))
		req.Lines = append(req.Lines, oil, wax)
	}
	last := len(req.Lines) - 1
	req.Says = []Saying{{Written: "stated", Share: quantity.Ratio(a.Get("stated_pct") / 100), Subject: Subject{Name: "it", Lines: []int{last}}}}
	r, err := TrueComposition(req)
	if err != nil {
		return nil, err
	}
	out := map[string]float64{}
	for _, b := range r.Sayings[0].Bases {
		name := map[Whole]string{OfPaste: "paste", OfPowder: "pigment", OfBinder: "oil"}[b.Basis.Of] + "_" +
			map[PercentBy]string{MassPercent: "mass_pct", VolumePercent: "volume_pct", MassInVolume: "g_per_100ml"}[b.Basis.By]
		out[name] = 100 * float64(b.True.Typical)
	}
	return out, nil
}
