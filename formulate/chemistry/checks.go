package chemistry

import (
	"fmt"

	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// checkedFormulas and checkedReactions are the substances the published checks
// speak of; a row's inputs are numbers, so the substance stands in the name of
// its relation.
var checkedFormulas = []string{
	"Fe4[Fe(CN)6]3", "2PbCO3·Pb(OH)2", "PbCO3", "PbCrO4", "K4[Fe(CN)6]", "K4[Fe(CN)6]·3H2O", "CuSO4·5H2O",
	"Na2CO3·10H2O", "FeSO4·(NH4)2SO4·6H2O", "CuSO4", "Pb(NO3)2", "K2CrO4",
	"H", "O", "S", "Fe", "Cd", "Hg", "Pb",
}

var checkedReactions = []string{
	"Pb(NO3)2 + Na2CrO4 -> PbCrO4 + 2 NaNO3",
	"3 Pb(NO3)2 + 2 AlCl3 -> 3 PbCl2 + 2 Al(NO3)3",
	"CuSO4 + 4 NH3 -> Cu(NH3)4SO4",
	"2 HCl + Mg -> H2 + MgCl2",
	"2 H2O -> O2 + 2 H2",
	"3 Si + 2 N2 -> Si3N4",
}

// Relations offers the room's relations to the published checks.
func Relations() []check.Relation {
	relations := []check.Relation{
		{Name: "salts left after rinsing", Unit: "share", Func: checkSaltsLeft},
	}
	for _, text := range checkedFormulas {
		relations = append(relations, check.Relation{Name: "molar mass of " + text, Unit: "g/mol", Func: checkFormula(text)})
	}
	for _, text := range checkedReactions {
		relations = append(relations, check.Relation{Name: "yield of " + text, Unit: "g", Func: checkYield(text)})
	}
	return relations
}

// checkFormula gives the mass of so many mol and the composition in per cent.
func checkFormula(text string) check.Func {
	return func(a *check.Args) (map[string]float64, error) {
		mol := a.Get("mol")
		f, err := ParseFormula(text)
		if err != nil {
			return nil, err
		}
		shares, err := f.Composition()
		if err != nil {
			return nil, err
		}
		out := map[string]float64{
			"mass":  mol * float64(f.MolarMass().Low),
			"water": 100 * float64(f.BoundWater().Low),
		}
		for _, s := range shares {
			out[s.Symbol] = 100 * float64(s.Mass)
		}
		return out, nil
	}
}

// checkYield takes the grams of each reactant weighed, m1, m2 in the reaction's
// order, and the grams got of its first product.
func checkYield(text string) check.Func {
	return func(a *check.Args) (map[string]float64, error) {
		r, err := ParseReaction(text)
		if err != nil {
			return nil, err
		}
		var weighed []Weighed
		for i, t := range r.Reactants {
			if key := fmt.Sprintf("m%d", i+1); a.Has(key) {
				weighed = append(weighed, Weighed{t.Formula.String(), quantity.Mass(a.Get(key)), 1})
			}
		}
		theory, err := r.Theory(weighed, r.Products[0].Formula.String(), Span[quantity.Ratio]{}, nil)
		if err != nil {
			return nil, err
		}
		out := map[string]float64{"theory": float64(theory.Mass.Low)}
		for i, t := range r.Reactants {
			if t.Formula.String() == theory.Limiting {
				out["limiting"] = float64(i + 1)
			}
		}
		for _, u := range theory.Used {
			out["mol "+u.Substance] = float64(u.Amount)
			out["left "+u.Substance] = float64(u.Left)
		}
		if a.Has("got") {
			f, err := theory.Judge(quantity.Mass(a.Get("got")))
			if err != nil {
				return nil, err
			}
			out["per cent"] = 100 * float64(f.Yield.High)
		}
		return out, nil
	}
}

func checkSaltsLeft(a *check.Args) (map[string]float64, error) {
	s, err := SaltsLeft(int(a.Get("n")), quantity.Volume(a.Get("added")), quantity.Volume(a.Get("retained")))
	return map[string]float64{"share": float64(s)}, err
}
