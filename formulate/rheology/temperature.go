package rheology

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Point is a viscosity measured at a temperature.
type Point struct {
	At        quantity.Celsius
	Viscosity quantity.Viscosity
}

// A KinematicPoint is a kinematic viscosity measured at a temperature.
type KinematicPoint struct {
	At        quantity.Celsius
	Viscosity quantity.KinematicViscosity
}

func fluid(v quantity.Viscosity) error {
	if !(v > 0 && v < 1e12) {
		return fmt.Errorf("viscosity is %g mPa·s: want a number above zero", float64(v))
	}
	return nil
}

// above absolute zero and short of what any medium stands.
func bearable(t quantity.Celsius) error {
	if !(t > -quantity.ZeroCelsius && t < 1200) {
		return fmt.Errorf("temperature is %g °C: want one above absolute zero and below 1200 °C", float64(t))
	}
	return nil
}

// Kinematic is the kinematic viscosity of a liquid: mPa·s over g/ml is mm²/s.
func Kinematic(v quantity.Viscosity, d quantity.Density) quantity.KinematicViscosity {
	return quantity.KinematicViscosity(float64(v) / float64(d))
}

// Dynamic is the viscosity of a liquid of a kinematic viscosity and density.
func Dynamic(v quantity.KinematicViscosity, d quantity.Density) quantity.Viscosity {
	return quantity.Viscosity(float64(v) * float64(d))
}

// AndradeRelation is the exponential law of temperature.
var AndradeRelation = trace.Relation{
	Name:     "viscosity and temperature, Arrhenius (Andrade)",
	Equation: "ln η = A + B/T, B = E/R",
	Source:   "Andrade, Phil. Mag. 17 (1934) 497; for vegetable oils, J. Food Processing 2014, 234583",
}

// Andrade is the law ln η = A + B/T of one liquid: η in Pa·s, T in kelvin. It is
// the law of Arrhenius with E = R·B.
type Andrade struct {
	A, B     float64          // of ln(Pa·s), and kelvin
	Low, Top quantity.Celsius // where it was measured
}

// AndradeThrough lays the law through two measured points.
func AndradeThrough(p, q Point) (Andrade, error) {
	for _, x := range [...]Point{p, q} {
		if err := fluid(x.Viscosity); err != nil {
			return Andrade{}, err
		}
		if err := bearable(x.At); err != nil {
			return Andrade{}, err
		}
	}
	if err := thins(float64(p.At), float64(q.At), float64(p.Viscosity), float64(q.Viscosity)); err != nil {
		return Andrade{}, err
	}
	b := math.Log(float64(p.Viscosity/q.Viscosity)) / (1/p.At.Kelvin() - 1/q.At.Kelvin())
	a := math.Log(float64(p.Viscosity)/1000) - b/p.At.Kelvin()
	return Andrade{A: a, B: b, Low: min(p.At, q.At), Top: max(p.At, q.At)}, nil
}

// AndradeFrom lays the law through one point with a known activation energy;
// vegetable oils have 21 to 30 kJ/mol between 26 and 90 °C (J. Food Processing
// 2014, 234583).
func AndradeFrom(p Point, e quantity.Energy) (Andrade, error) {
	if err := fluid(p.Viscosity); err != nil {
		return Andrade{}, err
	}
	if err := bearable(p.At); err != nil {
		return Andrade{}, err
	}
	if !(e > 0 && e < 1000) {
		return Andrade{}, fmt.Errorf("activation energy is %g kJ/mol: want a number above zero, for oils 21 to 30", float64(e))
	}
	b := float64(e) * 1000 / quantity.GasConstant
	return Andrade{A: math.Log(float64(p.Viscosity)/1000) - b/p.At.Kelvin(), B: b, Low: p.At, Top: p.At}, nil
}

// thins checks that two points of one liquid differ and thin with warmth.
func thins(t1, t2, v1, v2 float64) error {
	switch {
	case t1 == t2:
		return fmt.Errorf("both viscosities are at %g °C: want two temperatures", t1)
	case (t1 < t2) != (v1 > v2):
		return fmt.Errorf("%g at %g °C and %g at %g °C: a liquid thins as it warms; check the two points", v1, t1, v2, t2)
	}
	return nil
}

// At gives the viscosity at a temperature.
func (a Andrade) At(t quantity.Celsius) (quantity.Viscosity, error) {
	if err := bearable(t); err != nil {
		return 0, err
	}
	return quantity.Viscosity(1000 * math.Exp(a.A+a.B/t.Kelvin())), nil
}

// Energy is the activation energy of flow.
func (a Andrade) Energy() quantity.Energy {
	return quantity.Energy(a.B * quantity.GasConstant / 1000)
}

// Extrapolates reports whether a temperature lies outside the measured ones.
func (a Andrade) Extrapolates(t quantity.Celsius) bool { return t < a.Low || t > a.Top }

// WaltherRelation is the double-log law of temperature.
var WaltherRelation = trace.Relation{
	Name:     "kinematic viscosity and temperature, Walther (ASTM D341)",
	Equation: "log log(ν + 0.7) = A − B·log T",
	Source:   "ASTM D341, form for ν above 2 mm²/s",
}

// Walther is the law log log(ν + 0.7) = A − B log T of one oil: ν in mm²/s, T in
// kelvin, logs to base 10. Made for petroleum; fatty oils follow it as well.
type Walther struct {
	A, B     float64
	Low, Top quantity.Celsius // where it was measured
}

// waltherLeast is the kinematic viscosity below which the law needs more terms.
const waltherLeast quantity.KinematicViscosity = 2

func doubleLog(v float64) float64 { return math.Log10(math.Log10(v + 0.7)) }

func oily(v quantity.KinematicViscosity) error {
	if !(v >= waltherLeast && v < 1e9) {
		return fmt.Errorf("kinematic viscosity is %g mm²/s: the double-log law is for %g mm²/s and more", float64(v), float64(waltherLeast))
	}
	return nil
}

// WaltherThrough lays the law through two measured points.
func WaltherThrough(p, q KinematicPoint) (Walther, error) {
	for _, x := range [...]KinematicPoint{p, q} {
		if err := oily(x.Viscosity); err != nil {
			return Walther{}, err
		}
		if err := bearable(x.At); err != nil {
			return Walther{}, err
		}
	}
	if err := thins(float64(p.At), float64(q.At), float64(p.Viscosity), float64(q.Viscosity)); err != nil {
		return Walther{}, err
	}
	y1, y2 := doubleLog(float64(p.Viscosity)), doubleLog(float64(q.Viscosity))
	x1, x2 := math.Log10(p.At.Kelvin()), math.Log10(q.At.Kelvin())
	b := (y1 - y2) / (x2 - x1)
	return Walther{A: y1 + b*x1, B: b, Low: min(p.At, q.At), Top: max(p.At, q.At)}, nil
}

// At gives the kinematic viscosity at a temperature; an answer below 2 mm²/s is
// refused, because the law does not hold there.
func (w Walther) At(t quantity.Celsius) (quantity.KinematicViscosity, error) {
	if err := bearable(t); err != nil {
		return 0, err
	}
	v := quantity.KinematicViscosity(math.Pow(10, math.Pow(10, w.A-w.B*math.Log10(t.Kelvin()))) - 0.7)
	if err := oily(v); err != nil {
		return 0, err
	}
	return v, nil
}

// Extrapolates reports whether a temperature lies outside the measured ones.
func (w Walther) Extrapolates(t quantity.Celsius) bool { return t < w.Low || t > w.Top }
