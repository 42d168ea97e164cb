package rheology

import (
	"fmt"

	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// Relations adapts this room's functions to published check rows. Shares are
// given in per cent, temperatures in °C, viscosities in mPa·s or mm²/s.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "relative-viscosity", Unit: "1", Func: checkSuspension},
		{Name: "andrade", Unit: "mPa·s, kJ/mol", Func: checkAndrade},
		{Name: "walther", Unit: "mm²/s", Func: checkWalther},
		{Name: "viscosity-mixture", Unit: "mPa·s", Func: checkMixture},
		{Name: "kinematic-mixture", Unit: "mm²/s", Func: checkKinematicMixture},
		{Name: "blending-number", Unit: "1", Func: checkBlendingNumber},
		{Name: "water", Unit: "mPa·s, g/ml", Func: checkWater},
		{Name: "water-at-density", Unit: "µPa·s", Func: checkWaterAt},
		{Name: "glycerine", Unit: "mPa·s, g/ml", Func: checkGlycerine},
		{Name: "gum-arabic", Unit: "mPa·s", Func: checkGum},
		{Name: "gum-arabic-warmed", Unit: "mPa·s", Func: checkGumWarmed},
	}
}

func checkSuspension(a *check.Args) (map[string]float64, error) {
	phi := quantity.VolumeFraction(a.Get("phi"))
	out := map[string]float64{}
	put := func(name string, v quantity.Ratio, err error) error {
		out[name] = float64(v)
		return err
	}
	if a.Has("crowding") {
		v, err := Mooney(phi, quantity.Ratio(a.Get("crowding")))
		return out, put("mooney", v, err)
	}
	if a.Has("phi_max") {
		v, err := KriegerDougherty(phi, quantity.VolumeFraction(a.Get("phi_max")), quantity.Ratio(a.Get("intrinsic")))
		return out, put("krieger-dougherty", v, err)
	}
	for name, law := range map[string]func(quantity.VolumeFraction) (quantity.Ratio, error){
		"einstein": Einstein, "batchelor": Batchelor, "brinkman": Brinkman,
	} {
		v, err := law(phi)
		if err := put(name, v, err); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func point(a *check.Args, n string) Point {
	return Point{At: quantity.Celsius(a.Get("t" + n)), Viscosity: quantity.Viscosity(a.Get("mpas" + n))}
}

func checkAndrade(a *check.Args) (map[string]float64, error) {
	var law Andrade
	var err error
	switch {
	case a.Has("a"):
		law = Andrade{A: a.Get("a"), B: a.Get("b")}
	case a.Has("kj_per_mol"):
		law, err = AndradeFrom(point(a, "1"), quantity.Energy(a.Get("kj_per_mol")))
	default:
		law, err = AndradeThrough(point(a, "1"), point(a, "2"))
	}
	if err != nil {
		return nil, err
	}
	v, err := law.At(quantity.Celsius(a.Get("t")))
	return map[string]float64{"mpas": float64(v), "pas": float64(v) / 1000, "kj_per_mol": float64(law.Energy())}, err
}

func checkWalther(a *check.Args) (map[string]float64, error) {
	kinematic := func(n string) KinematicPoint {
		return KinematicPoint{At: quantity.Celsius(a.Get("t" + n)), Viscosity: quantity.KinematicViscosity(a.Get("mm2_per_s" + n))}
	}
	law, err := WaltherThrough(kinematic("1"), kinematic("2"))
	if err != nil {
		return nil, err
	}
	v, err := law.At(quantity.Celsius(a.Get("t")))
	return map[string]float64{"mm2_per_s": float64(v), "a": law.A, "b": law.B}, err
}

func checkMixture(a *check.Args) (map[string]float64, error) {
	liquids := []Liquid{
		{Share: quantity.Parts(a.Get("share1")), Viscosity: quantity.Viscosity(a.Get("mpas1"))},
		{Share: quantity.Parts(a.Get("share2")), Viscosity: quantity.Viscosity(a.Get("mpas2"))},
	}
	g := 0.0
	if a.Has("g") {
		g = a.Get("g")
	}
	out := map[string]float64{}
	for name, rule := range map[string]func([]Liquid) (quantity.Viscosity, error){
		"arrhenius": ArrheniusMixture, "kendall-monroe": KendallMonroe, "bingham": Bingham,
		"grunberg-nissan": func(l []Liquid) (quantity.Viscosity, error) { return GrunbergNissan(l, quantity.Ratio(g)) },
		"vehicle":         func(l []Liquid) (quantity.Viscosity, error) { return Vehicle(l, 0) },
	} {
		v, err := rule(liquids)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out[name] = float64(v)
	}
	return out, nil
}

func checkKinematicMixture(a *check.Args) (map[string]float64, error) {
	liquids := []KinematicLiquid{
		{Share: quantity.Parts(a.Get("share1")), Viscosity: quantity.KinematicViscosity(a.Get("mm2_per_s1"))},
		{Share: quantity.Parts(a.Get("share2")), Viscosity: quantity.KinematicViscosity(a.Get("mm2_per_s2"))},
	}
	double, err := DoubleLog(liquids)
	if err != nil {
		return nil, err
	}
	refutas, err := Refutas(liquids)
	return map[string]float64{"double-log": float64(double), "refutas": float64(refutas)}, err
}

func checkBlendingNumber(a *check.Args) (map[string]float64, error) {
	n, err := BlendingNumber(quantity.KinematicViscosity(a.Get("mm2_per_s")))
	return map[string]float64{"number": float64(n)}, err
}

func checkWater(a *check.Args) (map[string]float64, error) {
	t := quantity.Celsius(a.Get("t"))
	d, err := WaterDensity(t)
	if err != nil {
		return nil, err
	}
	v, err := WaterViscosity(t)
	return map[string]float64{"mpas": float64(v), "upas": 1000 * float64(v), "g_per_ml": float64(d)}, err
}

func checkWaterAt(a *check.Args) (map[string]float64, error) {
	v, err := WaterViscosityAt(quantity.Celsius(a.Get("kelvin")-quantity.ZeroCelsius), quantity.Density(a.Get("kg_per_m3")/1000))
	return map[string]float64{"upas": 1000 * float64(v)}, err
}

func checkGlycerine(a *check.Args) (map[string]float64, error) {
	share, t := quantity.MassFraction(a.Get("pct")/100), quantity.Celsius(a.Get("t"))
	v, err := GlycerineViscosity(share, t)
	if err != nil {
		return nil, err
	}
	out := map[string]float64{"mpas": float64(v)}
	if d, err := GlycerineDensity(share, t); err == nil {
		out["g_per_ml"] = float64(d)
	}
	return out, nil
}

func checkGum(a *check.Args) (map[string]float64, error) {
	v, err := GumArabic(quantity.MassFraction(a.Get("pct")/100), quantity.Celsius(a.Get("t")))
	return map[string]float64{"mpas": float64(v)}, err
}

// checkGumWarmed carries a measured solution from one temperature to another.
func checkGumWarmed(a *check.Args) (map[string]float64, error) {
	const anyShare = 0.10 // the change with temperature is the same for all
	from, err := GumArabic(anyShare, quantity.Celsius(a.Get("t1")))
	if err != nil {
		return nil, err
	}
	to, err := GumArabic(anyShare, quantity.Celsius(a.Get("t")))
	return map[string]float64{"mpas": a.Get("mpas1") * float64(to/from)}, err
}
