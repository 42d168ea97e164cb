package powder

import (
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

func positive[Q quantity.Real](what string, q Q, unit string) error {
	if v := float64(q); !(v > 0) || math.IsInf(v, 1) {
		return fmt.Errorf("%s is %g %s: it must be positive and finite", what, v, unit)
	}
	return nil
}

func notNegative[Q quantity.Real](what string, q Q, unit string) error {
	if v := float64(q); !(v >= 0) || math.IsInf(v, 1) {
		return fmt.Errorf("%s is %g %s: it must be finite and not negative", what, v, unit)
	}
	return nil
}

// MoistureRelation is moisture on the wet basis.
var MoistureRelation = trace.Relation{
	Name:     "moisture, wet basis",
	Equation: "W = (m_damp − m_dry)/m_damp",
	Source:   "definition",
}

// Moisture is the share of water in a damp powder, by its damp mass. The powder
// is dry when it no longer loses weight. Some pigments may not be heated.
func Moisture(damp, dry quantity.Mass) (quantity.MassFraction, error) {
	if err := positive("mass of the damp powder", damp, "g"); err != nil {
		return 0, err
	}
	if err := positive("mass of the dried powder", dry, "g"); err != nil {
		return 0, err
	}
	if dry > damp {
		return 0, fmt.Errorf("the powder weighs %g g dried and %g g damp: it cannot gain by drying", float64(dry), float64(damp))
	}
	return quantity.MassFraction((damp - dry) / damp), nil
}

// DryBasisRelation turns wet basis into dry basis.
var DryBasisRelation = trace.Relation{
	Name:     "moisture, dry basis",
	Equation: "X = W/(1 − W)",
	Source:   "definition",
}

// DryBasis is the water over the dry mass, W/(1 − W); see [CheckMoisture].
func DryBasis(wet quantity.MassFraction) quantity.Ratio { return quantity.Ratio(wet / (1 - wet)) }

// WetBasisRelation turns dry basis into wet basis.
var WetBasisRelation = trace.Relation{
	Name:     "moisture, wet basis from dry basis",
	Equation: "W = X/(1 + X)",
	Source:   "definition",
}

// WetBasis is the water over the damp mass, X/(1 + X), X not below 0.
func WetBasis(dry quantity.Ratio) quantity.MassFraction {
	return quantity.MassFraction(dry / (1 + dry))
}

// CheckMoisture refuses what is no moisture on the wet basis. The conversions
// below do not check: they run in every draw.
func CheckMoisture(w quantity.MassFraction) error {
	if !(w >= 0 && w < 1) {
		return fmt.Errorf("moisture is %g: it is a share of the damp mass, 0 to below 1", float64(w))
	}
	return nil
}

// DampMassRelation is how much damp powder brings a dry mass.
var DampMassRelation = trace.Relation{
	Name:     "damp powder to weigh out",
	Equation: "m_damp = m_dry/(1 − W)",
	Source:   "definition",
}

// DampMass is what to weigh of a damp powder to have a mass of it dry; see
// [CheckMoisture].
func DampMass(dry quantity.Mass, wet quantity.MassFraction) quantity.Mass {
	return dry / quantity.Mass(1-wet)
}

// DryMassRelation is how much of a damp powder is pigment.
var DryMassRelation = trace.Relation{
	Name:     "dry powder in the damp",
	Equation: "m_dry = m_damp·(1 − W)",
	Source:   "definition",
}

// DryMass is the dry powder in a damp mass; see [CheckMoisture].
func DryMass(damp quantity.Mass, wet quantity.MassFraction) quantity.Mass {
	return damp * quantity.Mass(1-wet)
}

// A DryingTest is three weighings on one balance.
type DryingTest struct {
	Container, Damp, Dried quantity.Mass // the last two with the container
	// Digit is the balance's smallest step; each reading lies within half of it.
	Digit quantity.Mass
}

// DryingTestRelation is a moisture with its uncertainty.
var DryingTestRelation = trace.Relation{
	Name:     "moisture from three weighings",
	Equation: "W = (m₂ − m₃)/(m₂ − m₁); u of each reading = digit/(2√3)",
	Source:   "definition; JCGM 100:2008, clauses 4.3.7 and 5.1.2",
}

// Moisture is the wet-basis moisture and its standard uncertainty by the
// balance's digit alone: how damp the air is and whether drying was finished are
// not in it.
func (d DryingTest) Moisture() (evidence.Estimate[quantity.MassFraction], error) {
	var none evidence.Estimate[quantity.MassFraction]
	if err := notNegative("mass of the container", d.Container, "g"); err != nil {
		return none, err
	}
	if err := notNegative("digit of the balance", d.Digit, "g"); err != nil {
		return none, err
	}
	if _, err := Moisture(d.Damp-d.Container, d.Dried-d.Container); err != nil {
		return none, err
	}
	c, err := evidence.Propagate(func(m []float64) float64 { return (m[1] - m[2]) / (m[1] - m[0]) },
		reading("container", d.Container, d.Digit), reading("damp", d.Damp, d.Digit), reading("dried", d.Dried, d.Digit))
	if err != nil {
		return none, err
	}
	return evidence.Estimate[quantity.MassFraction]{Value: quantity.MassFraction(c.Value), U: quantity.MassFraction(c.U), DOF: c.DOF}, nil
}

// reading is one weighing, known to half its last digit.
func reading(name string, m, digit quantity.Mass) evidence.Input {
	return evidence.In(name, evidence.Given(m, evidence.Rectangular(digit/2)))
}
