package absorption

import (
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Share is one pigment or extender of a mixture.
type Share struct {
	Mass    quantity.Mass
	Density quantity.Density
	Oil     quantity.AbsorptionVolume // its own oil absorption or demand
}

// DemandRelation is the additive rule for mixtures.
var DemandRelation = trace.Relation{
	Name:     "oil demand of a mixture, additive rule",
	Equation: "OAv = Σ mᵢ·OAvᵢ / Σ mᵢ",
	Source:   "additive rule, Pigment volume concentration – calculation (2010); unlike sizes pack closer and take less",
}

// Demand is the oil absorption of a mixture by the additive rule: each pigment
// takes what it would take alone, Σ mᵢ·OAvᵢ/Σ mᵢ. The rule ignores that fine
// grains fit the gaps between coarse ones: a mixture of unlike sizes takes less
// oil than it says, see [PeakPacking]. An empty mixture gives 0.
func Demand(mix []Share) quantity.AbsorptionVolume {
	var oil, mass float64
	for _, s := range mix {
		oil += float64(s.Mass) * float64(s.Oil)
		mass += float64(s.Mass)
	}
	if mass == 0 {
		return 0
	}
	return quantity.AbsorptionVolume(oil / mass)
}

// CriticalPVCOfMixRelation is the critical PVC of a mixture.
var CriticalPVCOfMixRelation = trace.Relation{
	Name:     "critical PVC of a mixture, additive rule",
	Equation: "CPVC = Vp/(Vp + Σ mᵢ·OAvᵢ/100), Vp = Σ mᵢ/ρᵢ; the same as 1/CPVC = Σ vᵢ/CPVCᵢ",
	Source:   "additive rule, Pigment volume concentration – calculation (2010); unlike sizes pack closer, so the real one lies above",
}

// CriticalPVCOfMix is the critical PVC of a mixture by the additive rule:
// Vp/(Vp + Voil) with Vp = Σ mᵢ/ρᵢ and Voil = Σ mᵢ·OAvᵢ/100. It is the same as
// 1/CPVC = Σ vᵢ/CPVCᵢ, vᵢ the volume shares within the pigment. A mixture of
// unlike sizes lies above it. An empty mixture gives 0.
func CriticalPVCOfMix(mix []Share) quantity.VolumeFraction {
	var oil, pigment quantity.Volume
	for _, s := range mix {
		oil += s.Oil.TakenBy(s.Mass)
		pigment += s.Mass.Volume(s.Density)
	}
	if pigment == 0 {
		return 0
	}
	return PVC(pigment, oil)
}

// ClosePackedLattice is the share of space that equal spheres fill in the
// closest lattice, π/(3√2).
const ClosePackedLattice quantity.VolumeFraction = math.Pi / (3 * math.Sqrt2)

// PackingRelation is the limit of two sizes packed together.
var PackingRelation = trace.Relation{
	Name:     "packing of two unlike sizes",
	Equation: "φ = least of φc/X and 1/(X + (1 − X)/φf)",
	Source:   "Furnas 1931; Brouwers 2006",
}

// Packing is the Furnas limit for two sizes of great ratio (7 or so at least):
// the coarse grains alone pack to φc, the fine alone to φf, and X is the coarse
// share of the solid volume. Coarse controls: φc/X. Fine controls:
// 1/(X + (1 − X)/φf). The smaller holds. Furnas 1931; Brouwers 2006.
func Packing(coarse, fine, coarseShare quantity.VolumeFraction) quantity.VolumeFraction {
	return min(coarse/coarseShare, 1/(coarseShare+(1-coarseShare)/fine))
}

// PeakPackingRelation is the densest packing of two sizes.
var PeakPackingRelation = trace.Relation{
	Name:     "densest packing of two unlike sizes",
	Equation: "φmax = φc + (1 − φc)·φf at X* = φc/φmax",
	Source:   "Furnas 1931; Brouwers 2006",
}

// PeakPacking is the densest packing of two sizes of great ratio and the coarse
// share of solid volume where it lies: how far the additive rule can fail.
func PeakPacking(coarse, fine quantity.VolumeFraction) (packing, coarseShare quantity.VolumeFraction) {
	packing = coarse + (1-coarse)*fine
	return packing, coarse / packing
}

// ClassPackingRelation is the densest packing of several sizes.
var ClassPackingRelation = trace.Relation{
	Name:     "densest packing of n size classes",
	Equation: "φ = 1 − (1 − φ₁)ⁿ",
	Source:   "Furnas 1931; Brouwers 2006",
}

// ClassPacking is the densest packing of n size classes that each pack to φ₁
// alone and differ greatly in size: 1 − (1 − φ₁)ⁿ.
func ClassPacking(alone quantity.VolumeFraction, classes int) quantity.VolumeFraction {
	return quantity.VolumeFraction(1 - math.Pow(float64(1-alone), float64(classes)))
}

// EqualVolumeExchangeRelation replaces an extender at the same PVC.
var EqualVolumeExchangeRelation = trace.Relation{
	Name:     "extender exchange at equal PVC",
	Equation: "w₂ = w₁·ρ₂/ρ₁",
	Source:   "from volumes",
}

// EqualVolumeExchange is the mass of a second extender that takes the first
// one's volume, so that PVC stays: w₁·ρ₂/ρ₁.
func EqualVolumeExchange(first quantity.Mass, d1, d2 quantity.Density) quantity.Mass {
	return first * quantity.Mass(d2/d1)
}

// EqualDemandExchangeRelation replaces an extender at the same oil demand.
var EqualDemandExchangeRelation = trace.Relation{
	Name:     "extender exchange at equal oil demand",
	Equation: "w₂ = w₁·OA₁/OA₂",
	Source:   "from the additive rule",
}

// EqualDemandExchange is the mass of a second extender that takes the first
// one's oil: w₁·OA₁/OA₂. It does not keep PVC; no single factor keeps both.
func EqualDemandExchange(first quantity.Mass, oa1, oa2 quantity.AbsorptionVolume) quantity.Mass {
	return first * quantity.Mass(oa1/oa2)
}
