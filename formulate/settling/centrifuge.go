package settling

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Turning is a rate of rotation in revolutions per minute.
type Turning float64

// omega is the angular speed in rad/s.
func (n Turning) omega() float64 { return 2 * math.Pi * float64(n) / 60 }

// CentrifugeTimeRelation is the time of a grain in a centrifuge.
var CentrifugeTimeRelation = trace.Relation{
	Name:     "centrifuge time, Stokes",
	Equation: "t = 18·µ·ln(R₂/R₁)/(ω²·d²·(ρp − ρ))",
	Source:   "Stokes' law in a field that grows with the radius; University of Georgia, clay mineralogy exercise 1",
}

// CentrifugeTime is the time in which a grain moves from an inner radius (the
// surface of the liquid) to an outer one (the sediment), by Stokes' law.
func CentrifugeTime(inner, outer quantity.Length, n Turning, g Grain, l Liquid) (quantity.Duration, error) {
	if err := g.check(); err != nil {
		return 0, err
	}
	if err := l.check(); err != nil {
		return 0, err
	}
	if err := heavier(g.Density, l.Density); err != nil {
		return 0, err
	}
	if err := positive("speed of rotation", float64(n), "rpm"); err != nil {
		return 0, err
	}
	if !(inner > 0 && outer > inner) || math.IsInf(float64(outer), 1) {
		return 0, fmt.Errorf("radii are %g and %g cm: want the inner above zero and the outer larger", float64(inner), float64(outer))
	}
	w, d := n.omega(), metres(g.Size)
	t := 18 * pascalSeconds(l.Viscosity) * math.Log(float64(outer/inner)) / (w * w * d * d * (kgPerM3(g.Density) - kgPerM3(l.Density)))
	return quantity.Duration(t), nil
}

// CentrifugalForceRelation compares a centrifuge with gravity.
var CentrifugalForceRelation = trace.Relation{
	Name:     "relative centrifugal force",
	Equation: "RCF = ω²·R/g",
	Source:   "definition",
}

// CentrifugalForce is the field at a radius in multiples of gravity, ω²R/g.
func CentrifugalForce(n Turning, radius quantity.Length) quantity.Ratio {
	w := n.omega()
	return quantity.Ratio(w * w * height(radius) / quantity.StandardGravity)
}

// TurningFor is the rate of rotation that gives a field at a radius: the same
// relation the other way round.
func TurningFor(field quantity.Ratio, radius quantity.Length) (Turning, error) {
	if err := positive("field", float64(field), "times gravity"); err != nil {
		return 0, err
	}
	if err := positive("radius", float64(radius), "cm"); err != nil {
		return 0, err
	}
	w := math.Sqrt(float64(field) * quantity.StandardGravity / height(radius))
	return Turning(w * 60 / (2 * math.Pi)), nil
}
