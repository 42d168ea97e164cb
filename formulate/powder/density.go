package powder

import (
	"fmt"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Displacement is a powder sunk in the liquid of a measuring cylinder.
type Displacement struct {
	Powder        evidence.Estimate[quantity.Mass]
	Before, After evidence.Estimate[quantity.Volume] // the cylinder's readings
}

// DisplacementRelation is true density by volume displaced.
var DisplacementRelation = trace.Relation{
	Name:     "true density by displacement",
	Equation: "ρ = m/(V₂ − V₁)",
	Source:   "Archimedes; uncertainty by JCGM 100:2008, clause 5.1.2",
}

// Density is the true density m/(V₂ − V₁). A cylinder read to half a millilitre
// seldom gives better than a tenth of it.
func (d Displacement) Density() (evidence.Estimate[quantity.Density], error) {
	var none evidence.Estimate[quantity.Density]
	if err := positive("mass of the powder", d.Powder.Value, "g"); err != nil {
		return none, err
	}
	if err := notNegative("first reading", d.Before.Value, "ml"); err != nil {
		return none, err
	}
	if err := positive("second reading", d.After.Value, "ml"); err != nil {
		return none, err
	}
	if !(d.After.Value > d.Before.Value) {
		return none, fmt.Errorf("the liquid stood at %g ml and with the powder at %g ml: it must rise", float64(d.Before.Value), float64(d.After.Value))
	}
	return density(evidence.Propagate(func(x []float64) float64 { return x[0] / (x[2] - x[1]) },
		evidence.In("powder", d.Powder), evidence.In("first reading", d.Before), evidence.In("second reading", d.After)))
}

func density(c evidence.Combined, err error) (evidence.Estimate[quantity.Density], error) {
	return evidence.Estimate[quantity.Density]{Value: quantity.Density(c.Value), U: quantity.Density(c.U), DOF: c.DOF}, err
}

// A Pyknometer is the four weighings of a vessel that can be filled to the same
// mark again and again.
type Pyknometer struct {
	Empty  quantity.Mass
	Powder quantity.Mass // with the powder
	Topped quantity.Mass // with the powder, topped up with liquid
	Full   quantity.Mass // with liquid alone
	Liquid evidence.Estimate[quantity.Density]
	// Digit is the balance's smallest step, Filling the standard uncertainty of
	// filling to the mark, as mass of liquid.
	Digit, Filling quantity.Mass
}

// PyknometerRelation is true density by pyknometer.
var PyknometerRelation = trace.Relation{
	Name:     "true density by pyknometer",
	Equation: "ρ = ρl·(m₂ − m₁)/((m₄ − m₁) − (m₃ − m₂))",
	Source:   "ASTM D854 in the form of the soil laboratories; uncertainty by JCGM 100:2008, clause 5.1.2",
}

// Density is the true density of the powder and its standard uncertainty. Use a
// liquid that wets the powder and does not dissolve it, at one temperature
// throughout, and get the air out.
func (p Pyknometer) Density() (evidence.Estimate[quantity.Density], error) {
	var none evidence.Estimate[quantity.Density]
	if err := p.check(); err != nil {
		return none, err
	}
	filling := func(name string) evidence.Input {
		return evidence.In(name, evidence.Given[quantity.Mass](0, p.Filling))
	}
	return density(evidence.Propagate(func(x []float64) float64 {
		powder := x[1] - x[0]
		displaced := (x[3] + x[6] - x[0]) - (x[2] + x[5] - x[1])
		return x[4] * powder / displaced
	},
		reading("empty", p.Empty, p.Digit), reading("with powder", p.Powder, p.Digit),
		reading("topped up", p.Topped, p.Digit), reading("full", p.Full, p.Digit),
		evidence.In("liquid", p.Liquid), filling("first filling"), filling("second filling")))
}

func (p Pyknometer) check() error {
	for _, m := range []struct {
		what string
		mass quantity.Mass
	}{{"mass of the empty vessel", p.Empty}, {"mass with powder", p.Powder}, {"mass topped up", p.Topped}, {"mass full of liquid", p.Full}} {
		if err := positive(m.what, m.mass, "g"); err != nil {
			return err
		}
	}
	if err := positive("density of the liquid", p.Liquid.Value, "g/ml"); err != nil {
		return err
	}
	if err := notNegative("digit of the balance", p.Digit, "g"); err != nil {
		return err
	}
	if err := notNegative("uncertainty of filling", p.Filling, "g"); err != nil {
		return err
	}
	switch {
	case !(p.Powder > p.Empty):
		return fmt.Errorf("the vessel weighs %g g empty and %g g with powder: there is none in it", float64(p.Empty), float64(p.Powder))
	case !(p.Full > p.Empty):
		return fmt.Errorf("the vessel weighs %g g empty and %g g full of liquid", float64(p.Empty), float64(p.Full))
	case p.Topped < p.Powder:
		return fmt.Errorf("the vessel weighs %g g with powder and %g g topped up with liquid", float64(p.Powder), float64(p.Topped))
	case !(p.Full-p.Empty > p.Topped-p.Powder):
		return fmt.Errorf("the powder displaces no liquid: check the four weighings")
	}
	return nil
}
