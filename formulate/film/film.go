package film

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// positive refuses what is not a finite number above zero.
func positive[Q quantity.Real](what string, v Q, unit string) error {
	if !(v > 0 && float64(v) < 1e12) {
		return fmt.Errorf("%s is %g %s: want a number above zero", what, float64(v), unit)
	}
	return nil
}

// share refuses what is not above zero and at most one.
func share[Q quantity.Real](what string, v Q) error {
	if !(v > 0 && v <= 1) {
		return fmt.Errorf("%s is %.4g %%: want above 0 %% and at most 100 %%", what, 100*float64(v))
	}
	return nil
}

// SpreadingRateRelation is how far a litre goes.
var SpreadingRateRelation = trace.Relation{
	Name:     "spreading rate",
	Equation: "s = 1000/WFT",
	Source:   "definition; coating maker's technical note, Handy calculations – volume solids and spreading rate",
}

// SpreadingRate is the area that a litre covers at a wet film thickness,
// 1000/WFT in m²/l with WFT in µm. Smooth surface, no loss.
func SpreadingRate(wet quantity.Thickness) (quantity.SpreadingRate, error) {
	if err := positive("wet film thickness", wet, "µm"); err != nil {
		return 0, err
	}
	return quantity.SpreadingRate(1000 / float64(wet)), nil
}

// WetThicknessAtRate is the wet film that a spreading rate leaves: the same
// relation the other way round.
func WetThicknessAtRate(rate quantity.SpreadingRate) (quantity.Thickness, error) {
	if err := positive("spreading rate", rate, "m²/l"); err != nil {
		return 0, err
	}
	return quantity.Thickness(1000 / float64(rate)), nil
}

// DryThicknessRelation is what stays of a wet film.
var DryThicknessRelation = trace.Relation{
	Name:     "dry film thickness",
	Equation: "DFT = VS·WFT",
	Source:   "definition; coating maker's technical note, Handy calculations – volume solids and spreading rate",
}

// DryThickness is the dry film that a wet film leaves: VS·WFT.
func DryThickness(wet quantity.Thickness, solids quantity.VolumeFraction) (quantity.Thickness, error) {
	if err := positive("wet film thickness", wet, "µm"); err != nil {
		return 0, err
	}
	if err := share("volume solids", solids); err != nil {
		return 0, err
	}
	return quantity.Thickness(float64(wet) * float64(solids)), nil
}

// WetThickness is the wet film that leaves a dry film: DFT/VS.
func WetThickness(dry quantity.Thickness, solids quantity.VolumeFraction) (quantity.Thickness, error) {
	if err := positive("dry film thickness", dry, "µm"); err != nil {
		return 0, err
	}
	if err := share("volume solids", solids); err != nil {
		return 0, err
	}
	return quantity.Thickness(float64(dry) / float64(solids)), nil
}

// SolidsOf is the volume solids of a paint whose wet and dry films are known:
// DFT/WFT. A dry film thicker than the wet one is refused.
func SolidsOf(wet, dry quantity.Thickness) (quantity.VolumeFraction, error) {
	if err := positive("wet film thickness", wet, "µm"); err != nil {
		return 0, err
	}
	if !(dry > 0 && dry <= wet) {
		return 0, fmt.Errorf("dry film thickness is %g µm: want above zero and at most the wet film's %g µm", float64(dry), float64(wet))
	}
	return quantity.VolumeFraction(dry / wet), nil
}

// ThinnedRelation is the volume solids after thinning.
var ThinnedRelation = trace.Relation{
	Name:     "volume solids after thinning",
	Equation: "VS′ = VS/(1 + t)",
	Source:   "volumes add; Cálculos útiles en la pintura (n.d.)",
}

// Thinned is the volume solids of a paint to which t volumes of a wholly
// volatile thinner are added for one volume of paint: VS/(1 + t).
func Thinned(solids quantity.VolumeFraction, thinner quantity.Ratio) (quantity.VolumeFraction, error) {
	if err := share("volume solids", solids); err != nil {
		return 0, err
	}
	if !(thinner >= 0 && thinner < 1e6) {
		return 0, fmt.Errorf("thinner is %g volumes to one of paint: want zero or more", float64(thinner))
	}
	return quantity.VolumeFraction(float64(solids) / (1 + float64(thinner))), nil
}

// PracticalRateRelation is the spreading rate with loss.
var PracticalRateRelation = trace.Relation{
	Name:     "practical spreading rate",
	Equation: "s′ = s·(1 − loss)",
	Source:   "Joseph, Calculating paint coverage (2003)",
}

// PracticalRate is the area a litre covers when a share of it is lost on brush,
// palette and rag: s·(1 − loss). A transfer efficiency is 1 − loss. The loss is
// always an estimate.
func PracticalRate(theoretical quantity.SpreadingRate, loss quantity.VolumeFraction) (quantity.SpreadingRate, error) {
	if err := positive("spreading rate", theoretical, "m²/l"); err != nil {
		return 0, err
	}
	if !(loss >= 0 && loss < 1) {
		return 0, fmt.Errorf("loss is %.4g %%: want 0 %% or more and below 100 %%", 100*float64(loss))
	}
	return quantity.SpreadingRate(float64(theoretical) * (1 - float64(loss))), nil
}

// CoverageRelation is the area that an amount of paint covers.
var CoverageRelation = trace.Relation{
	Name:     "area covered",
	Equation: "A = V·s/1000",
	Source:   "definition",
}

// Coverage is the area in m² that a volume covers at a spreading rate in m²/l.
func Coverage(paint quantity.Volume, rate quantity.SpreadingRate) quantity.Area {
	return quantity.Area(float64(paint) / 1000 * float64(rate))
}

// FilmVolumeRelation is the paint in a film.
var FilmVolumeRelation = trace.Relation{
	Name:     "volume of a film",
	Equation: "V = A·WFT",
	Source:   "definition",
}

// FilmVolume is the volume of a film: a micrometre over a square metre is a
// millilitre.
func FilmVolume(area quantity.Area, thickness quantity.Thickness) quantity.Volume {
	return quantity.Volume(float64(area) * float64(thickness))
}

// ThicknessOfVolumeRelation is the film that a volume makes on an area.
var ThicknessOfVolumeRelation = trace.Relation{
	Name:     "film that a volume makes on an area",
	Equation: "WFT = V/A",
	Source:   "definition",
}

// ThicknessOfVolume is the film that a volume makes, spread evenly: ml on a m²
// are µm.
func ThicknessOfVolume(volume quantity.Volume, area quantity.Area) (quantity.Thickness, error) {
	if err := positive("volume", volume, "ml"); err != nil {
		return 0, err
	}
	if err := positive("area", area, "m²"); err != nil {
		return 0, err
	}
	return quantity.Thickness(float64(volume) / float64(area)), nil
}

// MassPerAreaRelation is the weight of a film.
var MassPerAreaRelation = trace.Relation{
	Name:     "mass per area of a film",
	Equation: "m/A = WFT·ρ",
	Source:   "definition",
}

// MassPerArea is the mass of a film of a thickness and density: µm times g/ml
// is g/m².
func MassPerArea(thickness quantity.Thickness, density quantity.Density) quantity.MassPerArea {
	return quantity.MassPerArea(float64(thickness) * float64(density))
}

// MeasuredSolidsRelation is volume solids from a weighed dry film.
var MeasuredSolidsRelation = trace.Relation{
	Name:     "volume solids by measurement",
	Equation: "VS = Vdry·ρ·w/mdry",
	Source:   "ISO 3233, ASTM D2697: dry film weighed in air and in a liquid",
}

// MeasuredSolids is the volume solids of a paint of density ρ and solids by mass
// w, from a dry film of mass mdry and volume Vdry (found by weighing it in air
// and in a liquid): the wet volume it came from is mdry/(w·ρ).
func MeasuredSolids(dryMass quantity.Mass, dryVolume quantity.Volume, solids quantity.MassFraction, paint quantity.Density) (quantity.VolumeFraction, error) {
	if err := positive("dry mass", dryMass, "g"); err != nil {
		return 0, err
	}
	if err := positive("dry volume", dryVolume, "ml"); err != nil {
		return 0, err
	}
	if err := share("solids by mass", solids); err != nil {
		return 0, err
	}
	if err := positive("paint density", paint, "g/ml"); err != nil {
		return 0, err
	}
	vs := quantity.VolumeFraction(float64(dryVolume) * float64(paint) * float64(solids) / float64(dryMass))
	if vs > 1 {
		return 0, fmt.Errorf("the dry film would fill %.0f %% of the wet paint: check dry volume, density and solids", 100*float64(vs))
	}
	return vs, nil
}
