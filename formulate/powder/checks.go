package powder

import (
	"fmt"

	"mullwright/formulate/check"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Relations offers the room's relations to the published checks.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "moisture by weighing", Unit: "%", Func: checkDrying},
		{Name: "moisture, dry basis from wet", Unit: "share", Func: checkDryBasis},
		{Name: "damp powder to weigh out", Unit: "g", Func: checkDampMass},
		{Name: "poured and tapped density", Unit: "", Func: checkBulk},
		{Name: "true density by pyknometer", Unit: "g/ml", Func: checkPyknometer},
		{Name: "specific surface of spheres", Unit: "m²/g", Func: checkSurface},
		{Name: "diameter from specific surface", Unit: "nm", Func: checkDiameter},
		{Name: "mean diameters of a count", Unit: "µm or %", Func: checkSizes},
		{Name: "hegman scale", Unit: "µm", Func: checkHegman},
		{Name: "oil absorption from surface and packing", Unit: "ml/100g", Func: checkOil},
	}
}

func checkDrying(a *check.Args) (map[string]float64, error) {
	w, err := DryingTest{
		Container: quantity.Mass(a.Get("container")),
		Damp:      quantity.Mass(a.Get("damp")),
		Dried:     quantity.Mass(a.Get("dried")),
	}.Moisture()
	if err != nil {
		return nil, err
	}
	return map[string]float64{"wet": 100 * float64(w.Value), "dry": 100 * float64(DryBasis(w.Value))}, nil
}

func checkDryBasis(a *check.Args) (map[string]float64, error) {
	w := quantity.MassFraction(a.Get("wet"))
	return map[string]float64{"dry": float64(DryBasis(w))}, CheckMoisture(w)
}

func checkDampMass(a *check.Args) (map[string]float64, error) {
	w := quantity.MassFraction(a.Get("wet"))
	return map[string]float64{"damp": float64(DampMass(quantity.Mass(a.Get("dry")), w))}, CheckMoisture(w)
}

func checkBulk(a *check.Args) (map[string]float64, error) {
	poured, tapped := quantity.Density(a.Get("poured")), quantity.Density(a.Get("tapped"))
	carr, err := CarrIndex(poured, tapped)
	if err != nil {
		return nil, err
	}
	h, err := HausnerRatio(poured, tapped)
	return map[string]float64{"carr": 100 * float64(carr), "hausner": float64(h)}, err
}

func checkPyknometer(a *check.Args) (map[string]float64, error) {
	d, err := Pyknometer{
		Empty: quantity.Mass(a.Get("empty")), Powder: quantity.Mass(a.Get("powder")),
		Topped: quantity.Mass(a.Get("topped")), Full: quantity.Mass(a.Get("full")),
		Liquid: evidence.Given(quantity.Density(a.Get("liquid")), 0),
	}.Density()
	return map[string]float64{"density": float64(d.Value)}, err
}

func checkSurface(a *check.Args) (map[string]float64, error) {
	s, err := SpecificSurface(quantity.ParticleSize(a.Get("d")), quantity.Density(a.Get("rho")))
	return map[string]float64{"s": float64(s)}, err
}

func checkDiameter(a *check.Args) (map[string]float64, error) {
	d, err := EquivalentDiameter(quantity.SpecificSurface(a.Get("s")), quantity.Density(a.Get("rho")))
	return map[string]float64{"nm": 1000 * float64(d)}, err
}

// checkSizes takes the edges e1, e2, ... of the classes and their counts n1, ...
func checkSizes(a *check.Args) (map[string]float64, error) {
	var classes []SizeClass
	for i := 1; ; i++ {
		key := fmt.Sprintf("n%d", i)
		if i > 1 && !a.Has(key) {
			break
		}
		edge := func(i int) quantity.ParticleSize { return quantity.ParticleSize(a.Get(fmt.Sprintf("e%d", i))) }
		classes = append(classes, SizeClass{edge(i), edge(i + 1), quantity.Parts(a.Get(key))})
	}
	out := map[string]float64{}
	for _, m := range [][2]int{{1, 0}, {2, 0}, {2, 1}, {3, 0}, {3, 2}, {4, 3}} {
		d, err := MeanSize(classes, m[0], m[1])
		if err != nil {
			return nil, err
		}
		out[fmt.Sprintf("d%d%d", m[0], m[1])] = float64(d)
	}
	shares, err := VolumeShares(classes)
	for i, s := range shares {
		out[fmt.Sprintf("volume%d", i+1)] = 100 * float64(s)
	}
	return out, err
}

func checkHegman(a *check.Args) (map[string]float64, error) {
	h := Hegman(a.Get("h"))
	d, err := h.Depth()
	if err != nil {
		return nil, err
	}
	back, err := HegmanOf(d)
	return map[string]float64{"depth": float64(d), "mil": float64(d) / 25.4, "back": float64(back)}, err
}

func checkOil(a *check.Args) (map[string]float64, error) {
	oil, err := OilOfSurface(quantity.SpecificSurface(a.Get("s")), LayerThickness(a.Get("layer")),
		quantity.VolumeFraction(a.Get("packing")), quantity.Density(a.Get("rho")))
	return map[string]float64{"oil": float64(oil), "grams": float64(oil.ByMass(quantity.ReportingOilDensity))}, err
}
