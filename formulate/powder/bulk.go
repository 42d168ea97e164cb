package powder

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// BulkDensityRelation is mass over filled volume.
var BulkDensityRelation = trace.Relation{
	Name:     "bulk density",
	Equation: "ρb = m/V",
	Source:   "definition; IS 33 tests about 20 g sieved at 250 µm in a 250 ml cylinder, tapped 50 times",
}

// BulkDensity is the density of a powder with its air: m/V, poured or tapped.
func BulkDensity(m quantity.Mass, v quantity.Volume) (quantity.Density, error) {
	if err := positive("mass of the powder", m, "g"); err != nil {
		return 0, err
	}
	if err := positive("volume of the powder", v, "ml"); err != nil {
		return 0, err
	}
	return quantity.Density(float64(m) / float64(v)), nil
}

func densities(poured, tapped quantity.Density) error {
	if err := positive("poured density", poured, "g/ml"); err != nil {
		return err
	}
	if err := positive("tapped density", tapped, "g/ml"); err != nil {
		return err
	}
	if tapped < poured {
		return fmt.Errorf("tapped density %g g/ml is below the poured %g g/ml: tapping only settles a powder", float64(tapped), float64(poured))
	}
	return nil
}

// CarrRelation is the Carr index.
var CarrRelation = trace.Relation{
	Name:     "Carr index",
	Equation: "CI = (ρt − ρb)/ρt",
	Source:   "Carr index, as in USP <1174>",
}

// CarrIndex is the share of its volume a powder loses by tapping, (ρt − ρb)/ρt.
func CarrIndex(poured, tapped quantity.Density) (quantity.Ratio, error) {
	if err := densities(poured, tapped); err != nil {
		return 0, err
	}
	return quantity.Ratio((tapped - poured) / tapped), nil
}

// HausnerRelation is the Hausner ratio.
var HausnerRelation = trace.Relation{
	Name:     "Hausner ratio",
	Equation: "H = ρt/ρb = 1/(1 − CI)",
	Source:   "Hausner ratio, as in USP <1174>",
}

// HausnerRatio is ρt/ρb.
func HausnerRatio(poured, tapped quantity.Density) (quantity.Ratio, error) {
	if err := densities(poured, tapped); err != nil {
		return 0, err
	}
	return quantity.Ratio(tapped / poured), nil
}

// A Flow is how well a powder flows.
type Flow string

const (
	Excellent    Flow = "excellent"
	Good         Flow = "good"
	Fair         Flow = "fair"
	Passable     Flow = "passable"
	Poor         Flow = "poor"
	VeryPoor     Flow = "very poor"
	VeryVeryPoor Flow = "very, very poor"
)

var flows = []struct {
	most float64 // whole per cent
	flow Flow
}{{10, Excellent}, {15, Good}, {20, Fair}, {25, Passable}, {31, Poor}, {37, VeryPoor}, {math.Inf(1), VeryVeryPoor}}

// FlowRelation is the scale of flow.
var FlowRelation = trace.Relation{
	Name:     "flow of a powder",
	Equation: "table: Carr index to 10 % excellent, 15 good, 20 fair, 25 passable, 31 poor, 37 very poor, above very, very poor",
	Source:   "USP <1174>, Ph. Eur. 2.9.36",
}

// FlowOf reads the scale at a Carr index, rounded to whole per cent as the
// scale is.
func FlowOf(carr quantity.Ratio) (Flow, error) {
	if !(carr >= 0 && carr < 1) {
		return "", fmt.Errorf("carr index is %g: it lies between 0 and 1", float64(carr))
	}
	whole := math.Round(100 * float64(carr))
	for _, f := range flows {
		if whole <= f.most {
			return f.flow, nil
		}
	}
	return VeryVeryPoor, nil
}

// JarMassRelation is what a jar holds.
var JarMassRelation = trace.Relation{
	Name:     "powder in a jar",
	Equation: "m = V·ρb, between the poured and the tapped density",
	Source:   "definition",
}

// JarMass is what a jar of a powder weighs, poured in and tapped down; one
// filled by hand lies between.
func JarMass(v quantity.Volume, poured, tapped quantity.Density) (least, most quantity.Mass, err error) {
	if err := positive("volume of the jar", v, "ml"); err != nil {
		return 0, 0, err
	}
	if err := densities(poured, tapped); err != nil {
		return 0, 0, err
	}
	return v.Mass(poured), v.Mass(tapped), nil
}
