package absorption

import (
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// CriticalPVCRelation is the critical PVC from a volume of oil.
var CriticalPVCRelation = trace.Relation{
	Name:     "critical pigment volume concentration",
	Equation: "CPVC = 1/(1 + OAv·ρp/100)",
	Source:   "Lewarchik, Effect of pigment volume concentration on coatings properties, part II (2014), in volume form",
}

// CriticalPVC is the pigment's share of the volume when the oil of the rub-out
// just fills the gaps: 1/(1 + OAv·ρp/100), OAv in ml oil per 100 g pigment and
// ρp the pigment's density in g/ml. It holds for a rub-out figure of a well
// dispersed pigment, and for another oil as far as the same volume fills the
// same gaps.
func CriticalPVC(oa quantity.AbsorptionVolume, pigment quantity.Density) quantity.VolumeFraction {
	return quantity.VolumeFraction(1 / (1 + oilPerPigment(oa, pigment)))
}

// oilPerPigment is ml of oil per ml of pigment.
func oilPerPigment(oa quantity.AbsorptionVolume, pigment quantity.Density) float64 {
	return float64(oa) * float64(pigment) / 100
}

// CriticalPVCByMassRelation is the critical PVC from grams of oil.
var CriticalPVCByMassRelation = trace.Relation{
	Name:     "critical pigment volume concentration, gram form",
	Equation: "CPVC = 1/(1 + OA·ρp/(100·ρo)); with ρo = 0.935 the literature's 1/(1 + OA·ρp/93.5)",
	Source:   "Lewarchik, Effect of pigment volume concentration on coatings properties, part II (2014)",
}

// CriticalPVCByMass is [CriticalPVC] from a figure in grams counted at the oil
// density ρo: 1/(1 + OA·ρp/(100·ρo)). The literature's constant 93.5 is
// [quantity.TestOilDensity] times 100; a figure reported by ISO 787-5 was made
// with [quantity.ReportingOilDensity], and is turned back with it. The two
// differ by less than 0.2 percentage points of CPVC.
func CriticalPVCByMass(oa quantity.Absorption, pigment, oil quantity.Density) quantity.VolumeFraction {
	return CriticalPVC(oa.ByVolume(oil), pigment)
}

// LiquidAtPVCRelation is the liquid beside a volume of pigment.
var LiquidAtPVCRelation = trace.Relation{
	Name:     "liquid for a pigment volume fraction",
	Equation: "VL = Vp·(1 − φ)/φ",
	Source:   "definition of the volume fraction",
}

// LiquidAtPVC is the volume of liquid beside a volume of pigment at which the
// pigment fills the share φ of the whole: Vp·(1 − φ)/φ. For a dry film φ is its
// PVC and the liquid the binder.
func LiquidAtPVC(pigment quantity.Volume, phi quantity.VolumeFraction) quantity.Volume {
	return pigment * quantity.Volume((1-phi)/phi)
}

// PigmentAtPVC is the inverse of [LiquidAtPVC]: the pigment that fills the share
// φ beside a volume of liquid, VL·φ/(1 − φ).
func PigmentAtPVC(liquid quantity.Volume, phi quantity.VolumeFraction) quantity.Volume {
	return liquid * quantity.Volume(phi/(1-phi))
}

// DemandAtPVCRelation is the oil that gives a pigment volume fraction.
var DemandAtPVCRelation = trace.Relation{
	Name:     "oil for a pigment volume fraction",
	Equation: "Dv = (100/ρp)·(1 − φ)/φ",
	Source:   "definition, the inverse of the critical PVC form",
}

// DemandAtPVC is the volume of liquid per 100 g of pigment at which the pigment
// fills the share φ of the paste, [LiquidAtPVC] of 100 g: (100/ρp)·(1 − φ)/φ.
func DemandAtPVC(phi quantity.VolumeFraction, pigment quantity.Density) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(LiquidAtPVC(quantity.Mass(100).Volume(pigment), phi))
}

// PVCRelation is the pigment volume concentration.
var PVCRelation = trace.Relation{
	Name:     "pigment volume concentration",
	Equation: "PVC = Vp/(Vp + Vb)",
	Source:   "definition (Asbeck and Van Loo 1949, cited for the concept)",
}

// PVC is the pigment volume concentration Vp/(Vp + Vb): Vp the volume of
// pigment and extender, Vb that of the non-volatile binder. Volumes are taken
// as additive; what evaporates is left out.
func PVC(pigment, binder quantity.Volume) quantity.VolumeFraction {
	return quantity.VolumeFraction(pigment / (pigment + binder))
}

// ReducedPVCRelation is the reduced pigment volume concentration.
var ReducedPVCRelation = trace.Relation{
	Name:     "reduced pigment volume concentration",
	Equation: "Λ = PVC/CPVC",
	Source:   "Bierwagen and Hay 1975",
}

// ReducedPVC is Λ = PVC/CPVC: below 1 every gap is full of binder, above 1 some
// hold air. Bierwagen and Hay 1975.
func ReducedPVC(pvc, cpvc quantity.VolumeFraction) quantity.Ratio {
	return quantity.Ratio(pvc / cpvc)
}

// AirFractionRelation is the air in a dry film above the critical PVC.
var AirFractionRelation = trace.Relation{
	Name:     "air in the dry film",
	Equation: "φair = 1 − CPVC/PVC, 0 at and below CPVC",
	Source:   "from volumes; the film geometry of Patton, Paint Flow and Pigment Dispersion (1979)",
}

// AirFraction is the share of air in a dry film whose pigment is packed as at
// CPVC: 1 − CPVC/PVC, and nothing at or below CPVC.
func AirFraction(pvc, cpvc quantity.VolumeFraction) quantity.VolumeFraction {
	if pvc <= cpvc {
		return 0
	}
	return 1 - cpvc/pvc
}

// PorosityIndexRelation is the porosity index of a dry film.
var PorosityIndexRelation = trace.Relation{
	Name:     "porosity index",
	Equation: "PI = 1 − CPVC·(1 − PVC)/(PVC·(1 − CPVC)), 0 at and below CPVC",
	Source:   "Patton, Paint Flow and Pigment Dispersion (1979); Lestarquit 2016 (from memory)",
}

// PorosityIndex is the share of the gaps between the pigment that holds air and
// not binder: 1 − CPVC·(1 − PVC)/(PVC·(1 − CPVC)), 0 at and below CPVC.
func PorosityIndex(pvc, cpvc quantity.VolumeFraction) quantity.VolumeFraction {
	if pvc <= cpvc {
		return 0
	}
	return 1 - cpvc*(1-pvc)/(pvc*(1-cpvc))
}
