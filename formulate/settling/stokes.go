package settling

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Grain is a sphere, or the sphere that falls like it.
type Grain struct {
	Size    quantity.ParticleSize
	Density quantity.Density
}

// A Liquid is what it falls through.
type Liquid struct {
	Density   quantity.Density
	Viscosity quantity.Viscosity
}

// Gravity is the field in which things fall at rest, in multiples of the
// standard acceleration of gravity.
const Gravity quantity.Ratio = 1

// StokesLimit is the Reynolds number up to which Stokes' law holds to 5 %.
const StokesLimit quantity.Ratio = 0.3

// Conversions to SI, in which this package calculates.
func metres(d quantity.ParticleSize) float64      { return float64(d) * 1e-6 }
func height(h quantity.Length) float64            { return float64(h) * 1e-2 }
func kgPerM3(d quantity.Density) float64          { return float64(d) * 1e3 }
func pascalSeconds(v quantity.Viscosity) float64  { return float64(v) * 1e-3 }
func micrometres(d float64) quantity.ParticleSize { return quantity.ParticleSize(d * 1e6) }

func positive(what string, v float64, unit string) error {
	if !(v > 0 && !math.IsInf(v, 1)) {
		return fmt.Errorf("%s is %g %s: want a number above zero", what, v, unit)
	}
	return nil
}

// bounded refuses a speed that is none; one below zero is of a grain that rises.
func bounded(v quantity.Speed) error {
	if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
		return fmt.Errorf("speed of fall is %g m/s: want a finite number", float64(v))
	}
	return nil
}

func (g Grain) check() error {
	if err := positive("grain size", float64(g.Size), "µm"); err != nil {
		return err
	}
	return positive("grain density", float64(g.Density), "g/ml")
}

func (l Liquid) check() error {
	if err := positive("liquid density", float64(l.Density), "g/ml"); err != nil {
		return err
	}
	return positive("liquid viscosity", float64(l.Viscosity), "mPa·s")
}

// heavier refuses grains that do not sink.
func heavier(grain, liquid quantity.Density) error {
	if err := positive("grain density", float64(grain), "g/ml"); err != nil {
		return err
	}
	if err := positive("liquid density", float64(liquid), "g/ml"); err != nil {
		return err
	}
	if !(grain > liquid) {
		return fmt.Errorf("a grain of %g g/ml does not sink in a liquid of %g g/ml", float64(grain), float64(liquid))
	}
	return nil
}

// StokesRelation is the fall of a small sphere.
var StokesRelation = trace.Relation{
	Name:     "Stokes' law",
	Equation: "v = g·d²·(ρp − ρ)/(18·µ)",
	Source:   "Stokes 1851; limits as in Bell and others, fluids library, drag",
}

// Stokes is the speed of a small sphere, g·d²·(ρp − ρ)/(18·µ). A grain lighter
// than the liquid rises: its speed is negative. The law holds to 5 % while
// [Reynolds] stays under [StokesLimit]; [Terminal] holds beyond.
func Stokes(g Grain, l Liquid) (quantity.Speed, error) {
	if err := g.check(); err != nil {
		return 0, err
	}
	if err := l.check(); err != nil {
		return 0, err
	}
	d := metres(g.Size)
	v := quantity.StandardGravity * d * d * (kgPerM3(g.Density) - kgPerM3(l.Density)) / (18 * pascalSeconds(l.Viscosity))
	return quantity.Speed(v), nil
}

// ReynoldsRelation tells slow flow from fast.
var ReynoldsRelation = trace.Relation{
	Name:     "particle Reynolds number",
	Equation: "Re = ρ·|v|·d/µ",
	Source:   "definition",
}

// Reynolds is the Reynolds number of a grain at a speed: ρ·|v|·d/µ.
func Reynolds(d quantity.ParticleSize, v quantity.Speed, l Liquid) quantity.Ratio {
	return quantity.Ratio(kgPerM3(l.Density) * math.Abs(float64(v)) * metres(d) / pascalSeconds(l.Viscosity))
}

// FallTimeRelation is the time of a fall.
var FallTimeRelation = trace.Relation{
	Name:     "time to fall a height",
	Equation: "t = h/v",
	Source:   "definition",
}

// FallTime is the time in which something at a steady speed falls a height.
func FallTime(h quantity.Length, v quantity.Speed) (quantity.Duration, error) {
	if err := positive("height", float64(h), "cm"); err != nil {
		return 0, err
	}
	if err := positive("speed of fall", float64(v), "m/s"); err != nil {
		return 0, err
	}
	return quantity.Duration(height(h) / float64(v)), nil
}

// LimitSizeRelation is the largest grain still up after a time.
var LimitSizeRelation = trace.Relation{
	Name:     "limit size after a time, Stokes",
	Equation: "d = √(18·µ·h/(g·(ρp − ρ)·t))",
	Source:   "Stokes' law solved for d",
}

// LimitSize is the size that just falls a height in a time by Stokes' law:
// larger grains have settled. [CutSize] holds beyond Stokes' law.
func LimitSize(h quantity.Length, t quantity.Duration, grain quantity.Density, l Liquid) (quantity.ParticleSize, error) {
	if err := positive("height", float64(h), "cm"); err != nil {
		return 0, err
	}
	if err := positive("time", float64(t), "s"); err != nil {
		return 0, err
	}
	if err := l.check(); err != nil {
		return 0, err
	}
	if err := heavier(grain, l.Density); err != nil {
		return 0, err
	}
	d2 := 18 * pascalSeconds(l.Viscosity) * height(h) / (quantity.StandardGravity * (kgPerM3(grain) - kgPerM3(l.Density)) * float64(t))
	return micrometres(math.Sqrt(d2)), nil
}
