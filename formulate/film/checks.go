package film

import (
	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// Relations adapts this room's functions to published check rows. Shares are
// given in per cent, mass and volume in g and ml unless the name says otherwise.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "film-spreading-rate", Unit: "m²/l, ft²/gal", Func: checkRate},
		{Name: "film-thickness", Unit: "µm, mil", Func: checkThickness},
		{Name: "film-volume-solids", Unit: "%", Func: checkSolids},
		{Name: "film-coverage", Unit: "m², ft²", Func: checkCoverage},
		{Name: "film-voc", Unit: "g/l, lb/gal", Func: checkVOC},
		{Name: "film-voc-shares", Unit: "g/l, lb/gal", Func: checkVOCByShares},
		{Name: "film-mass-per-area", Unit: "g/m²", Func: checkMass},
	}
}

const (
	mil      = 25.4        // µm
	usGallon = 3785.411784 // ml
)

func percent(a *check.Args, name string) quantity.VolumeFraction {
	return quantity.VolumeFraction(a.Get(name) / 100)
}

// thickness reads a thickness in µm or, with the suffix _mil, in mils.
func thickness(a *check.Args, name string) quantity.Thickness {
	if a.Has(name + "_mil") {
		return quantity.Thickness(a.Get(name+"_mil") * mil)
	}
	return quantity.Thickness(a.Get(name + "_um"))
}

// wetFilm reads a wet film, or works it out from dry film and solids.
func wetFilm(a *check.Args) (quantity.Thickness, error) {
	if a.Has("wet_um") || a.Has("wet_mil") {
		return thickness(a, "wet"), nil
	}
	solids := percent(a, "solids_pct")
	if a.Has("thinner_pct") {
		var err error
		if solids, err = Thinned(solids, quantity.Ratio(percent(a, "thinner_pct"))); err != nil {
			return 0, err
		}
	}
	return WetThickness(thickness(a, "dry"), solids)
}

func checkRate(a *check.Args) (map[string]float64, error) {
	wet, err := wetFilm(a)
	if err != nil {
		return nil, err
	}
	rate, err := SpreadingRate(wet)
	if err == nil && a.Has("loss_pct") {
		rate, err = PracticalRate(rate, percent(a, "loss_pct"))
	}
	return map[string]float64{"m2_per_l": float64(rate), "ft2_per_gal": float64(PerUSGallon(rate))}, err
}

func checkThickness(a *check.Args) (map[string]float64, error) {
	switch {
	case a.Has("m2_per_l"):
		wet, err := WetThicknessAtRate(quantity.SpreadingRate(a.Get("m2_per_l")))
		return map[string]float64{"wet_um": float64(wet)}, err
	case a.Has("ft2_per_gal"):
		wet, err := WetThicknessAtRate(SquareFeetPerGallon(a.Get("ft2_per_gal")).PerLitre())
		return map[string]float64{"wet_um": float64(wet), "wet_mil": float64(wet) / mil}, err
	case a.Has("dry_um") || a.Has("dry_mil"):
		wet, err := wetFilm(a)
		return map[string]float64{"wet_um": float64(wet), "wet_mil": float64(wet) / mil}, err
	}
	dry, err := DryThickness(thickness(a, "wet"), percent(a, "solids_pct"))
	return map[string]float64{"dry_um": float64(dry), "dry_mil": float64(dry) / mil}, err
}

func checkSolids(a *check.Args) (map[string]float64, error) {
	var vs quantity.VolumeFraction
	var err error
	switch {
	case a.Has("thinner_pct"):
		vs, err = Thinned(percent(a, "solids_pct"), quantity.Ratio(percent(a, "thinner_pct")))
	case a.Has("wet_um"):
		vs, err = SolidsOf(thickness(a, "wet"), thickness(a, "dry"))
	default:
		vs, err = MeasuredSolids(quantity.Mass(a.Get("dry_g")), quantity.Volume(a.Get("dry_ml")),
			quantity.MassFraction(percent(a, "solids_by_mass_pct")), quantity.Density(a.Get("density")))
	}
	return map[string]float64{"solids_pct": 100 * float64(vs)}, err
}

func checkCoverage(a *check.Args) (map[string]float64, error) {
	wet, err := wetFilm(a)
	if err != nil {
		return nil, err
	}
	rate, err := SpreadingRate(wet)
	if err == nil && a.Has("loss_pct") {
		rate, err = PracticalRate(rate, percent(a, "loss_pct"))
	}
	area := Coverage(quantity.Volume(a.Get("gal")*usGallon), rate)
	return map[string]float64{"m2": float64(area), "ft2": float64(area) / squareMetresPerFoot}, err
}

func checkVOC(a *check.Args) (map[string]float64, error) {
	var v VOC
	var err error
	switch {
	case a.Has("lb_per_gal"):
		v = PoundsPerGallon(a.Get("lb_per_gal")).PerLitre()
	case a.Has("water_gal"):
		v, err = VOCLessWater(quantity.Mass(a.Get("organic_lb")*quantity.GramsPerPound),
			quantity.Volume(a.Get("paint_gal")*usGallon), quantity.Volume(a.Get("water_gal")*usGallon))
	default:
		v, err = VOCOf(quantity.Mass(a.Get("organic_lb")*quantity.GramsPerPound), quantity.Volume(a.Get("of_gal")*usGallon))
	}
	return map[string]float64{"g_per_l": float64(v), "lb_per_gal": float64(v.PerUSGallon())}, err
}

func checkVOCByShares(a *check.Args) (map[string]float64, error) {
	density := func(name string) quantity.Density {
		if a.Has(name + "_lb_per_gal") {
			return quantity.Density(PoundsPerGallon(a.Get(name+"_lb_per_gal")).PerLitre() / 1000)
		}
		return quantity.Density(a.Get(name))
	}
	whole, less, err := VOCByShares(quantity.MassFraction(percent(a, "solids_pct")), quantity.MassFraction(percent(a, "water_pct")),
		density("paint"), density("water"))
	return map[string]float64{
		"g_per_l": float64(whole), "lb_per_gal": float64(whole.PerUSGallon()),
		"less_water_g_per_l": float64(less), "less_water_lb_per_gal": float64(less.PerUSGallon()),
	}, err
}

func checkMass(a *check.Args) (map[string]float64, error) {
	wet, err := wetFilm(a)
	return map[string]float64{"g_per_m2": float64(MassPerArea(wet, quantity.Density(a.Get("density"))))}, err
}
