package vapour

import (
	"fmt"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Airflow is in m³ an hour.
type Airflow float64

// VapourFlowRelation is the volume of vapour an evaporation makes.
var VapourFlowRelation = trace.Relation{
	Name:     "volume of vapour",
	Equation: "q = G·Vm/M",
	Source:   "Dilution and local exhaust, worked example by mass; 403 ft³ a pint and 387 ft³ a lb-mole are Vm at 70 °F",
}

// VapourFlow is the volume of pure vapour that a release makes: G·Vm/M.
func VapourFlow(rate ReleaseRate, m quantity.MolarMass, vm MolarVolume) Airflow {
	return Airflow(float64(rate) / float64(m) * float64(vm) / 1000)
}

// Least and greatest factor for incomplete mixing: 1 is perfect, 10 is air that
// passes the work by. Kumar, General dilution ventilation equation.
const (
	LeastMixing quantity.Ratio = 1
	MostMixing  quantity.Ratio = 10
)

// DilutionRelation is the air that keeps a lasting release at a level.
var DilutionRelation = trace.Relation{
	Name:     "dilution ventilation",
	Equation: "Q = K·q·10⁶/ppm",
	Source:   "Kumar, General dilution ventilation equation; ACGIH, Industrial Ventilation, chapter 2 (from memory)",
}

// Dilution is the flow of clean air that holds a lasting release at a vapour
// share, K times what perfect mixing would need: K·q·10⁶/ppm. Flows for several
// solvents that act alike add up. It holds for slow, even evaporation of a
// solvent of low toxicity; beside the work an exhaust does better.
func Dilution(vapour Airflow, level quantity.PartsPerMillion, mixing quantity.Ratio) (Airflow, error) {
	if err := notNegative("vapour", vapour, "m³/h"); err != nil {
		return 0, err
	}
	if err := positive("level", level, "ppm"); err != nil {
		return 0, err
	}
	if !(mixing >= LeastMixing && mixing <= MostMixing) {
		return 0, fmt.Errorf("mixing factor is %g: accepted are 1 (perfect) to 10 (poor)", float64(mixing))
	}
	return Airflow(float64(mixing) * float64(vapour) * 1e6 / float64(level)), nil
}
