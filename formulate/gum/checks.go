package gum

import (
	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// Relations adapts this room's functions to published check rows. Masses are in
// any one unit; pct is per cent.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "gum-solution", Unit: "%, 1", Func: checkSolution},
		{Name: "gum-humectant", Unit: "1", Func: checkHumectant},
		{Name: "gum-pan", Unit: "%, ml", Func: checkPan},
	}
}

func checkSolution(a *check.Args) (map[string]float64, error) {
	liquid := a.Get("water")
	if a.Has("glycerine") {
		liquid += a.Get("glycerine")
	}
	w := Share(quantity.Ratio(liquid / a.Get("gum")))
	r, err := RatioOfShare(w)
	return map[string]float64{"gum_pct": 100 * float64(w), "ratio": float64(r)}, err
}

func checkHumectant(a *check.Args) (map[string]float64, error) {
	h := a.Get("humectant")
	if a.Has("second") {
		h += a.Get("second")
	}
	return map[string]float64{"ratio": float64(HumectantRatio(quantity.Mass(h), quantity.Mass(a.Get("gum"))))}, nil
}

func checkPan(a *check.Args) (map[string]float64, error) {
	solids := quantity.VolumeFraction(a.Get("solids_pct") / 100)
	out := map[string]float64{}
	if a.Has("dry_ml") {
		out["wet_ml"] = float64(WetFor(quantity.Volume(a.Get("dry_ml")), solids))
		return out, nil
	}
	n := int(a.Get("pours"))
	fill := FillAfter(n, Shrinkage(solids))
	out["fill_pct"] = 100 * float64(fill)
	// The dealt pours, to the brim each time, must agree.
	pours, err := PanPours(1, fill, solids, 1)
	out["pours"] = float64(len(pours))
	return out, err
}
