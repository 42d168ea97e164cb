package rheology

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// ErrPacked is wrapped by every refusal because the solids are at or near the
// fraction at which they pack and the paste no longer flows as a liquid.
var ErrPacked = errors.New("the solids are packed")

// Upper ends of the dilute laws, as volume fractions of solids.
const (
	EinsteinLimit  quantity.VolumeFraction = 0.02
	BatchelorLimit quantity.VolumeFraction = 0.10
)

// NearPacking is the share of the packing fraction beyond which [Suspension]
// refuses: there an error of 5 % in the packing fraction changes the answer by a
// factor of two to three.
const NearPacking = 0.9

// Einstein's coefficient, the intrinsic viscosity of spheres.
const spheres = 2.5

// loading refuses fractions that no suspension has.
func loading(phi quantity.VolumeFraction) error {
	if !(phi >= 0 && phi < 1) {
		return fmt.Errorf("solids fill %.4g %% of the volume: want 0 %% or more and below 100 %%", 100*float64(phi))
	}
	return nil
}

// EinsteinRelation is the law of dilute suspensions.
var EinsteinRelation = trace.Relation{
	Name:     "relative viscosity, Einstein",
	Equation: "ηr = 1 + 2.5·φ",
	Source:   "Einstein 1906, corrected 1911; form as in Entropy 23 (2021) 979, table 6",
}

// Einstein is the viscosity of a dilute suspension of spheres over that of its
// liquid, 1 + 2.5φ. Holds below [EinsteinLimit].
func Einstein(phi quantity.VolumeFraction) (quantity.Ratio, error) {
	if err := loading(phi); err != nil {
		return 0, err
	}
	return 1 + spheres*quantity.Ratio(phi), nil
}

// BatchelorRelation adds the second order.
var BatchelorRelation = trace.Relation{
	Name:     "relative viscosity, Batchelor",
	Equation: "ηr = 1 + 2.5·φ + 6.2·φ²",
	Source:   "Batchelor, J. Fluid Mech. 83 (1977) 97; other authors put 5.2 to 7.6 for 6.2",
}

// Batchelor adds the meeting of two spheres that Brownian motion brings about,
// 1 + 2.5φ + 6.2φ². Holds below [BatchelorLimit].
func Batchelor(phi quantity.VolumeFraction) (quantity.Ratio, error) {
	if err := loading(phi); err != nil {
		return 0, err
	}
	p := quantity.Ratio(phi)
	return 1 + spheres*p + 6.2*p*p, nil
}

// BrinkmanRelation extends Einstein's law by adding solids bit by bit.
var BrinkmanRelation = trace.Relation{
	Name:     "relative viscosity, Brinkman",
	Equation: "ηr = (1 − φ)^−2.5",
	Source:   "Brinkman, J. Chem. Phys. 20 (1952) 571; form as in Entropy 23 (2021) 979, table 6",
}

// Brinkman is (1 − φ)^−2.5: solids of very unlike sizes, which never pack.
func Brinkman(phi quantity.VolumeFraction) (quantity.Ratio, error) {
	if err := loading(phi); err != nil {
		return 0, err
	}
	return quantity.Ratio(math.Pow(1-float64(phi), -spheres)), nil
}

// MooneyRelation lets spheres crowd each other.
var MooneyRelation = trace.Relation{
	Name:     "relative viscosity, Mooney",
	Equation: "ηr = exp(2.5·φ/(1 − k·φ))",
	Source:   "Mooney, J. Colloid Sci. 6 (1951) 162",
}

// Mooney is exp(2.5φ/(1 − kφ)), k the crowding factor: 1.35 to 1.91 for spheres
// of one size (from memory). At φ = 1/k the spheres are packed.
func Mooney(phi quantity.VolumeFraction, crowding quantity.Ratio) (quantity.Ratio, error) {
	if err := loading(phi); err != nil {
		return 0, err
	}
	if !(crowding >= 0 && crowding < 10) {
		return 0, fmt.Errorf("crowding factor is %g: want 0 to 10, for spheres 1.35 to 1.91", float64(crowding))
	}
	free := 1 - float64(crowding)*float64(phi)
	if free <= 0 {
		return 0, packed(phi, quantity.VolumeFraction(1/crowding))
	}
	return quantity.Ratio(math.Exp(spheres * float64(phi) / free)), nil
}

func packed(phi, phiMax quantity.VolumeFraction) error {
	return fmt.Errorf("solids fill %.1f %% of the volume and pack at %.1f %%: %w, and viscosity has no meaning", 100*float64(phi), 100*float64(phiMax), ErrPacked)
}

// KriegerDoughertyRelation is the law up to packing.
var KriegerDoughertyRelation = trace.Relation{
	Name:     "relative viscosity, Krieger and Dougherty",
	Equation: "ηr = (1 − φ/φm)^(−[η]·φm)",
	Source:   "Krieger and Dougherty, Trans. Soc. Rheol. 3 (1959) 137; form as in Entropy 23 (2021) 979, table 6",
}

// KriegerDougherty is (1 − φ/φm)^(−[η]φm): φm the fraction at which the solids
// pack, [η] their intrinsic viscosity, 2.5 for spheres and more for every other
// shape. At and above φm it is refused: [ErrPacked].
func KriegerDougherty(phi, phiMax quantity.VolumeFraction, intrinsic quantity.Ratio) (quantity.Ratio, error) {
	if err := loading(phi); err != nil {
		return 0, err
	}
	if !(phiMax > 0 && phiMax <= 1) {
		return 0, fmt.Errorf("packing fraction is %.4g %%: want above 0 %% and at most 100 %%", 100*float64(phiMax))
	}
	if !(intrinsic > 0 && intrinsic < 1000) {
		return 0, fmt.Errorf("intrinsic viscosity of the solids is %g: want a number above zero, for spheres 2.5", float64(intrinsic))
	}
	if phi >= phiMax {
		return 0, packed(phi, phiMax)
	}
	return quantity.Ratio(math.Pow(1-float64(phi/phiMax), -float64(intrinsic)*float64(phiMax))), nil
}

// Intrinsic viscosity of pigment grains: spheres are the lower end; 5.0 is what
// Barnes, Hutton and Walters tabulate for titanium dioxide (An Introduction to
// Rheology, 1989, chapter 7, from memory). Plates and needles may reach 10.
const (
	leastIntrinsic quantity.Ratio = spheres
	mostIntrinsic  quantity.Ratio = 5.0
)

// IntrinsicViscosity is the spread of the intrinsic viscosity of pigment grains:
// 10th to 90th percentile from spheres to titanium dioxide. Its middle, with a
// packing fraction of 0.57, gives the exponent 2 that many authors find for
// suspensions of any shape.
func IntrinsicViscosity() evidence.Distribution[quantity.Ratio] {
	r := evidence.Reading[quantity.Ratio]{Low: leastIntrinsic, High: mostIntrinsic}
	return evidence.Distribution[quantity.Ratio]{Median: r.Middle(), Sigma: r.LogSpread()}
}

// SuspensionRelation is the viscosity of a thinned paint.
var SuspensionRelation = trace.Relation{
	Name:     "viscosity of a suspension",
	Equation: "η = ηvehicle·(1 − φ/φm)^(−[η]·φm), for φ ≤ 0.9·φm",
	Source:   "Krieger and Dougherty, Trans. Soc. Rheol. 3 (1959) 137; the cut-off is ours",
}

// Suspension is the viscosity of a vehicle with dispersed solids in it. It is a
// Newtonian factor: what is left of thickness in quick brushing, well dispersed.
// It is never a yield stress, and a paint that keeps its shape is thicker
// at rest than any number here. Beyond [NearPacking] of the packing fraction it is
// refused: [ErrPacked].
func Suspension(vehicle quantity.Viscosity, phi, phiMax quantity.VolumeFraction, intrinsic quantity.Ratio) (quantity.Viscosity, error) {
	if err := fluid(vehicle); err != nil {
		return 0, err
	}
	factor, err := KriegerDougherty(phi, phiMax, intrinsic)
	if err != nil {
		return 0, err
	}
	if phi > NearPacking*phiMax {
		return 0, packed(phi, phiMax)
	}
	return vehicle * quantity.Viscosity(factor), nil
}

// SuspensionRange is [Suspension] for a vehicle known in a range and pigment
// grains of unknown shape: low with the thin vehicle and spheres, high with the
// thick one and rough grains.
func SuspensionRange(vehicle evidence.Range[quantity.Viscosity], phi, phiMax quantity.VolumeFraction) (evidence.Range[quantity.Viscosity], error) {
	var out evidence.Range[quantity.Viscosity]
	var err error
	shape := IntrinsicViscosity().Range()
	if out.Low, err = Suspension(vehicle.Low, phi, phiMax, shape.Low); err != nil {
		return evidence.Range[quantity.Viscosity]{}, err
	}
	if out.Typical, err = Suspension(vehicle.Typical, phi, phiMax, shape.Typical); err != nil {
		return evidence.Range[quantity.Viscosity]{}, err
	}
	if out.High, err = Suspension(vehicle.High, phi, phiMax, shape.High); err != nil {
		return evidence.Range[quantity.Viscosity]{}, err
	}
	return out, nil
}
