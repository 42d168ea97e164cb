package absorption

import (
	"fmt"

	"mullwright/formulate/check"
	"mullwright/formulate/quantity"
)

// Relations adapts this room's functions to published check rows. Inputs are
// named with their units; fractions are 0 to 1.
func Relations() []check.Relation {
	return []check.Relation{
		{Name: "oil-absorption", Unit: "ml or g per 100 g", Func: checkOilAbsorption},
		{Name: "oil-absorption-weighed-bottle", Unit: "g/100 g", Func: checkWeighedBottle},
		{Name: "oil-absorption-conversion", Unit: "g or ml per 100 g", Func: checkConversion},
		{Name: "oil-absorption-uncertainty", Unit: "g/100 g", Func: checkUncertainty},
		{Name: "oil-absorption-test-portion", Unit: "g", Func: checkTestPortion},
		{Name: "volume-of-mass", Unit: "ml", Func: checkVolume},
		{Name: "pvc", Unit: "fraction", Func: checkPVC},
		{Name: "cpvc", Unit: "fraction", Func: checkCriticalPVC},
		{Name: "cpvc-of-mix", Unit: "fraction, ml", Func: checkMix},
		{Name: "cpvc-of-volumes", Unit: "fraction", Func: checkMixOfVolumes},
		{Name: "pvc-above-critical", Unit: "fraction", Func: checkAboveCritical},
		{Name: "extender-exchange", Unit: "g", Func: checkExchange},
		{Name: "packing-two-sizes", Unit: "fraction", Func: checkPacking},
		{Name: "packing-classes", Unit: "fraction", Func: checkClasses},
		{Name: "packing-lattice", Unit: "fraction", Func: checkLattice},
		{Name: "oil-share", Unit: "fraction", Func: checkOilShare},
		{Name: "oil-of-share", Unit: "g/100 g", Func: checkOilOfShare},
		{Name: "oil-of-ratio", Unit: "g/100 g, g/ml", Func: checkOilOfRatio},
	}
}

func checkOilAbsorption(a *check.Args) (map[string]float64, error) {
	oil, pigment := quantity.Volume(a.Get("oil_ml")), quantity.Mass(a.Get("pigment_g"))
	return map[string]float64{
		"ml_per_100g": float64(OilAbsorption(oil, pigment)),
		"g_per_100g":  float64(ReportedAbsorption(oil, pigment)),
	}, nil
}

func checkWeighedBottle(a *check.Args) (map[string]float64, error) {
	oa := WeighedBottle(quantity.Mass(a.Get("pigment_g")), quantity.Mass(a.Get("before_g")), quantity.Mass(a.Get("after_g")))
	return map[string]float64{"g_per_100g": float64(oa)}, nil
}

func checkConversion(a *check.Args) (map[string]float64, error) {
	oil := quantity.Density(a.Get("oil_density"))
	if a.Has("ml_per_100g") {
		return map[string]float64{"g_per_100g": float64(quantity.AbsorptionVolume(a.Get("ml_per_100g")).ByMass(oil))}, nil
	}
	return map[string]float64{"ml_per_100g": float64(quantity.Absorption(a.Get("g_per_100g")).ByVolume(oil))}, nil
}

func checkUncertainty(a *check.Args) (map[string]float64, error) {
	oil, pigment, density := quantity.Volume(a.Get("oil_ml")), quantity.Mass(a.Get("pigment_g")), quantity.Density(a.Get("oil_density"))
	oa := OilAbsorption(oil, pigment).ByMass(density)
	u := AbsorptionUncertainty(oa, oil, quantity.Volume(a.Get("u_oil_ml")), density, quantity.Density(a.Get("u_oil_density")), pigment, quantity.Mass(a.Get("u_pigment_g")))
	return map[string]float64{"g_per_100g": float64(oa), "u": float64(u)}, nil
}

func checkTestPortion(a *check.Args) (map[string]float64, error) {
	return map[string]float64{"g": float64(TestPortion(quantity.Absorption(a.Get("expected_g_per_100g")), a.Get("organic") != 0))}, nil
}

func checkVolume(a *check.Args) (map[string]float64, error) {
	return map[string]float64{"ml": float64(quantity.Mass(a.Get("g")).Volume(quantity.Density(a.Get("density"))))}, nil
}

func checkPVC(a *check.Args) (map[string]float64, error) {
	return map[string]float64{"pvc": float64(PVC(quantity.Volume(a.Get("pigment_ml")), quantity.Volume(a.Get("binder_ml"))))}, nil
}

func checkCriticalPVC(a *check.Args) (map[string]float64, error) {
	pigment := quantity.Density(a.Get("pigment_density"))
	if a.Has("oa_ml") {
		return map[string]float64{"cpvc": float64(CriticalPVC(quantity.AbsorptionVolume(a.Get("oa_ml")), pigment))}, nil
	}
	cpvc := CriticalPVCByMass(quantity.Absorption(a.Get("oa_g")), pigment, quantity.Density(a.Get("oil_density")))
	return map[string]float64{"cpvc": float64(cpvc)}, nil
}

// checkMix takes mass, oil absorption in grams and density of each of up to
// nine pigments: g1, oa1, d1, g2, ...
func checkMix(a *check.Args) (map[string]float64, error) {
	oil := quantity.Density(a.Get("oil_density"))
	var mix []Share
	var volume quantity.Volume
	for i := 1; a.Has(fmt.Sprintf("g%d", i)); i++ {
		s := Share{
			Mass:    quantity.Mass(a.Get(fmt.Sprintf("g%d", i))),
			Density: quantity.Density(a.Get(fmt.Sprintf("d%d", i))),
			Oil:     quantity.Absorption(a.Get(fmt.Sprintf("oa%d", i))).ByVolume(oil),
		}
		volume += s.Mass.Volume(s.Density)
		mix = append(mix, s)
	}
	return map[string]float64{"cpvc": float64(CriticalPVCOfMix(mix)), "pigment_ml": float64(volume)}, nil
}

// checkMixOfVolumes takes volume share and critical PVC of each pigment. Masses
// and densities cancel, so each is taken as of density 1.
func checkMixOfVolumes(a *check.Args) (map[string]float64, error) {
	var mix []Share
	for i := 1; a.Has(fmt.Sprintf("v%d", i)); i++ {
		cpvc := quantity.VolumeFraction(a.Get(fmt.Sprintf("cpvc%d", i)))
		mix = append(mix, Share{Mass: quantity.Mass(a.Get(fmt.Sprintf("v%d", i))), Density: 1, Oil: DemandAtPVC(cpvc, 1)})
	}
	return map[string]float64{"cpvc": float64(CriticalPVCOfMix(mix))}, nil
}

func checkAboveCritical(a *check.Args) (map[string]float64, error) {
	pvc, cpvc := quantity.VolumeFraction(a.Get("pvc")), quantity.VolumeFraction(a.Get("cpvc"))
	return map[string]float64{
		"reduced": float64(ReducedPVC(pvc, cpvc)), "air": float64(AirFraction(pvc, cpvc)), "porosity_index": float64(PorosityIndex(pvc, cpvc)),
	}, nil
}

func checkExchange(a *check.Args) (map[string]float64, error) {
	first := quantity.Mass(a.Get("g"))
	if a.Has("oa1") {
		out := EqualDemandExchange(first, quantity.AbsorptionVolume(a.Get("oa1")), quantity.AbsorptionVolume(a.Get("oa2")))
		return map[string]float64{"equal_demand_g": float64(out)}, nil
	}
	out := EqualVolumeExchange(first, quantity.Density(a.Get("d1")), quantity.Density(a.Get("d2")))
	return map[string]float64{"equal_volume_g": float64(out)}, nil
}

func checkPacking(a *check.Args) (map[string]float64, error) {
	coarse, fine := quantity.VolumeFraction(a.Get("coarse")), quantity.VolumeFraction(a.Get("fine"))
	peak, share := PeakPacking(coarse, fine)
	out := map[string]float64{"peak": float64(peak), "peak_coarse_share": float64(share)}
	if a.Has("coarse_share") {
		out["packing"] = float64(Packing(coarse, fine, quantity.VolumeFraction(a.Get("coarse_share"))))
	}
	return out, nil
}

func checkClasses(a *check.Args) (map[string]float64, error) {
	return map[string]float64{"packing": float64(ClassPacking(quantity.VolumeFraction(a.Get("alone")), int(a.Get("classes"))))}, nil
}

// checkLattice has nothing to take; rows name the one sphere.
func checkLattice(a *check.Args) (map[string]float64, error) {
	a.Get("spheres")
	return map[string]float64{"packing": float64(ClosePackedLattice)}, nil
}

func checkOilShare(a *check.Args) (map[string]float64, error) {
	m := quantity.Absorption(a.Get("g_per_100g"))
	out := map[string]float64{"by_mass": float64(OilMassFraction(m))}
	if a.Has("pigment_density") {
		f := OilVolumeFraction(m, quantity.Density(a.Get("oil_density")), quantity.Density(a.Get("pigment_density")))
		out["by_volume"], out["pvc"] = float64(f), 1-float64(f)
	}
	return out, nil
}

func checkOilOfShare(a *check.Args) (map[string]float64, error) {
	if a.Has("by_mass") {
		return map[string]float64{"g_per_100g": float64(AbsorptionOfMassFraction(quantity.MassFraction(a.Get("by_mass"))))}, nil
	}
	m := AbsorptionOfVolumeFraction(quantity.VolumeFraction(a.Get("by_volume")), quantity.Density(a.Get("oil_density")), quantity.Density(a.Get("pigment_density")))
	return map[string]float64{"g_per_100g": float64(m)}, nil
}

func checkOilOfRatio(a *check.Args) (map[string]float64, error) {
	w := quantity.Ratio(a.Get("by_weight"))
	out := map[string]float64{"g_per_100g": float64(AbsorptionOfRatio(w))}
	if a.Has("by_volume") {
		out["bulk_density"] = float64(PowderDensity(w, quantity.Ratio(a.Get("by_volume")), quantity.Density(a.Get("oil_density"))))
	}
	return out, nil
}
