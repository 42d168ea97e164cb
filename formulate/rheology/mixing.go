package rheology

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Liquid is one component of a mixture. Share counts by moles, volume or mass
// as the rule's author counted; only its ratio to the other shares matters.
type Liquid struct {
	Share     quantity.Parts
	Viscosity quantity.Viscosity
}

// A KinematicLiquid is a component of a mixture by kinematic viscosity.
type KinematicLiquid struct {
	Share     quantity.Parts
	Viscosity quantity.KinematicViscosity
}

// whole checks the liquids of a mixture and sums their shares.
func whole(liquids []Liquid) (float64, error) {
	sum := 0.0
	for _, l := range liquids {
		if err := fluid(l.Viscosity); err != nil {
			return 0, err
		}
		if err := part(l.Share); err != nil {
			return 0, err
		}
		sum += float64(l.Share)
	}
	return sum, something(sum)
}

func wholeKinematic(liquids []KinematicLiquid) (float64, error) {
	sum := 0.0
	for _, l := range liquids {
		if !(l.Viscosity > 0 && l.Viscosity < 1e12) {
			return 0, fmt.Errorf("kinematic viscosity is %g mm²/s: want a number above zero", float64(l.Viscosity))
		}
		if err := part(l.Share); err != nil {
			return 0, err
		}
		sum += float64(l.Share)
	}
	return sum, something(sum)
}

func part(p quantity.Parts) error {
	if !(p >= 0 && p < 1e12) {
		return fmt.Errorf("a liquid's share is %g: want zero or more", float64(p))
	}
	return nil
}

func something(sum float64) error {
	if sum == 0 {
		return errors.New("the mixture is empty: want at least one liquid with a share above zero")
	}
	return nil
}

// ArrheniusMixtureRelation is the log-mean rule.
var ArrheniusMixtureRelation = trace.Relation{
	Name:     "viscosity of a mixture, Arrhenius",
	Equation: "ln η = Σ xᵢ·ln ηᵢ",
	Source:   "Arrhenius 1887; form as in Oil Gas Sci. Technol. 76 (2021), table 4",
}

// ArrheniusMixture is the rule ln η = Σ xᵢ ln ηᵢ: [GrunbergNissan] without an
// interaction. With volume fractions it serves oils in solvents, see [Vehicle].
func ArrheniusMixture(liquids []Liquid) (quantity.Viscosity, error) {
	return GrunbergNissan(liquids, 0)
}

// GrunbergNissanRelation adds an interaction to the log-mean rule.
var GrunbergNissanRelation = trace.Relation{
	Name:     "viscosity of a mixture, Grunberg and Nissan",
	Equation: "ln η = Σ xᵢ·ln ηᵢ + G·Σ xᵢ·xⱼ",
	Source:   "Grunberg and Nissan, Nature 164 (1949) 799",
}

// GrunbergNissan is ln η = Σ xᵢ ln ηᵢ + G Σᵢ<ⱼ xᵢxⱼ with one interaction G for
// every pair. G is negative where unlike liquids slip past each other more easily
// than like ones.
func GrunbergNissan(liquids []Liquid, interaction quantity.Ratio) (quantity.Viscosity, error) {
	sum, err := whole(liquids)
	if err != nil {
		return 0, err
	}
	if !(math.Abs(float64(interaction)) < 100) {
		return 0, fmt.Errorf("interaction is %g: want a number near zero", float64(interaction))
	}
	log, squares := 0.0, 0.0
	for _, l := range liquids {
		x := float64(l.Share) / sum
		log += x * math.Log(float64(l.Viscosity))
		squares += x * x
	}
	// Σᵢ<ⱼ xᵢxⱼ = (1 − Σ xᵢ²)/2, since the shares sum to one.
	return quantity.Viscosity(math.Exp(log + float64(interaction)*(1-squares)/2)), nil
}

// KendallMonroeRelation is the cube-root rule.
var KendallMonroeRelation = trace.Relation{
	Name:     "viscosity of a mixture, Kendall and Monroe",
	Equation: "η^(1/3) = Σ xᵢ·ηᵢ^(1/3)",
	Source:   "Kendall and Monroe 1917; form as in Oil Gas Sci. Technol. 76 (2021), table 4",
}

// KendallMonroe is the cube-root rule, by mole fractions. It is more than 10 %
// off for vegetable oils in other liquids (Erhan and others 2002).
func KendallMonroe(liquids []Liquid) (quantity.Viscosity, error) {
	sum, err := whole(liquids)
	if err != nil {
		return 0, err
	}
	root := 0.0
	for _, l := range liquids {
		root += float64(l.Share) / sum * math.Cbrt(float64(l.Viscosity))
	}
	return quantity.Viscosity(root * root * root), nil
}

// BinghamRelation is the mean of fluidities.
var BinghamRelation = trace.Relation{
	Name:     "viscosity of a mixture, Bingham",
	Equation: "1/η = Σ xᵢ/ηᵢ",
	Source:   "Bingham 1922; form as in Oil Gas Sci. Technol. 76 (2021), table 4",
}

// Bingham is the mean of fluidities, 1/η = Σ xᵢ/ηᵢ: a lower bound.
func Bingham(liquids []Liquid) (quantity.Viscosity, error) {
	sum, err := whole(liquids)
	if err != nil {
		return 0, err
	}
	fluidity := 0.0
	for _, l := range liquids {
		fluidity += float64(l.Share) / sum / float64(l.Viscosity)
	}
	return quantity.Viscosity(1 / fluidity), nil
}

// DoubleLogRelation is the petroleum rule.
var DoubleLogRelation = trace.Relation{
	Name:     "viscosity of a mixture, double log",
	Equation: "log log(ν + 0.7) = Σ wᵢ·log log(νᵢ + 0.7)",
	Source:   "Oil Gas Sci. Technol. 76 (2021), table 4",
}

// DoubleLog is the rule log log(ν + 0.7) = Σ wᵢ log log(νᵢ + 0.7), wᵢ by mass: the
// companion of [Walther]. The double log needs ν above 0.3 mm²/s.
func DoubleLog(liquids []KinematicLiquid) (quantity.KinematicViscosity, error) {
	sum, err := wholeKinematic(liquids)
	if err != nil {
		return 0, err
	}
	y := 0.0
	for _, l := range liquids {
		if l.Viscosity <= 0.3 {
			return 0, fmt.Errorf("kinematic viscosity is %g mm²/s: the double-log rule is for more than 0.3 mm²/s", float64(l.Viscosity))
		}
		y += float64(l.Share) / sum * doubleLog(float64(l.Viscosity))
	}
	return quantity.KinematicViscosity(math.Pow(10, math.Pow(10, y)) - 0.7), nil
}

// RefutasRelation is the refinery's rule.
var RefutasRelation = trace.Relation{
	Name:     "viscosity of a mixture, Refutas",
	Equation: "VBN = 14.534·ln ln(ν + 0.8) + 10.975, VBN = Σ wᵢ·VBNᵢ",
	Source:   "Maples, Petroleum Refinery Process Economics, 2nd ed. (2000)",
}

// BlendingNumber is Refutas' number of a liquid, 14.534·ln ln(ν + 0.8) + 10.975,
// for ν above 0.2 mm²/s.
func BlendingNumber(v quantity.KinematicViscosity) (quantity.Ratio, error) {
	if !(v > 0.2 && v < 1e12) {
		return 0, fmt.Errorf("kinematic viscosity is %g mm²/s: the blending number is for more than 0.2 mm²/s", float64(v))
	}
	return quantity.Ratio(14.534*math.Log(math.Log(float64(v)+0.8)) + 10.975), nil
}

// Refutas averages blending numbers by mass.
func Refutas(liquids []KinematicLiquid) (quantity.KinematicViscosity, error) {
	sum, err := wholeKinematic(liquids)
	if err != nil {
		return 0, err
	}
	mean := 0.0
	for _, l := range liquids {
		n, err := BlendingNumber(l.Viscosity)
		if err != nil {
			return 0, err
		}
		mean += float64(l.Share) / sum * float64(n)
	}
	return quantity.KinematicViscosity(math.Exp(math.Exp((mean-10.975)/14.534)) - 0.8), nil
}

// interactionSpread is the standard deviation of the interaction G that stands
// for the error of [Vehicle]: ±0.8 from the 10th to the 90th percentile, a fifth
// of the viscosity up or down at half and half. Oils in esters keep to the rule
// within 5 % (Erhan and others 2002), oils in mineral oil do not, and no table
// for linseed oil in turpentine or white spirit was found: four times the
// published error is our allowance for that.
const interactionSpread = 0.8 / evidence.Z90

// Interaction is the interaction of vehicle and thinner at a standard normal
// deviate: zero at 0, where the log-mean rule holds.
func Interaction(deviate float64) quantity.Ratio {
	return quantity.Ratio(interactionSpread * deviate)
}

// VehicleRelation is the rule of this package for oil with solvent.
var VehicleRelation = trace.Relation{
	Name:     "viscosity of a vehicle",
	Equation: "ln η = Σ vᵢ·ln ηᵢ + G·Σ vᵢ·vⱼ, v by volume, G = 0 ± 0.8",
	Source:   "log-mean rule by volume: Erhan and others, abstract (2002); Franco and Nguyen, abstract (2011); the spread of G is ours",
}

// Vehicle is the viscosity of oils, resin solutions and solvents mixed by volume,
// all at one temperature: the log-mean rule by volume with an interaction. For
// vegetable oils in esters the rule by volume was found better than by mass, by
// moles or by cube roots, and it holds for them in diesel fuel. A resin must be
// put in as its solution: as a solid it has no viscosity to average.
func Vehicle(liquids []Liquid, interaction quantity.Ratio) (quantity.Viscosity, error) {
	return GrunbergNissan(liquids, interaction)
}

// VehicleRange is [Vehicle] with its error: without interaction, and with it at
// both ends. A single liquid has no range.
func VehicleRange(liquids []Liquid) (evidence.Range[quantity.Viscosity], error) {
	var out evidence.Range[quantity.Viscosity]
	var err error
	if out.Typical, err = Vehicle(liquids, 0); err != nil {
		return evidence.Range[quantity.Viscosity]{}, err
	}
	if out.Low, err = Vehicle(liquids, Interaction(-evidence.Z90)); err != nil {
		return evidence.Range[quantity.Viscosity]{}, err
	}
	out.High, err = Vehicle(liquids, Interaction(evidence.Z90))
	return out, err
}
