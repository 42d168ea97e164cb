package settling

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// CutTimeRelation is the waiting time of a wash.
var CutTimeRelation = trace.Relation{
	Name:     "levigation time",
	Equation: "t = h/v(d)",
	Source:   "the cut size falls the depth poured off",
}

// CutTime is how long to wait before pouring off a depth of liquid so that no
// grain of the cut size or larger is left in it.
func CutTime(depth quantity.Length, cut Grain, l Liquid) (quantity.Duration, error) {
	if err := heavier(cut.Density, l.Density); err != nil {
		return 0, err
	}
	f, err := Terminal(cut, l)
	if err != nil {
		return 0, err
	}
	return FallTime(depth, f.Speed)
}

// CutSizeRelation is the size a wash cuts at.
var CutSizeRelation = trace.Relation{
	Name:     "levigation size",
	Equation: "v(d) = h/t",
	Source:   "the cut size falls the depth poured off",
}

// CutSize is the largest size left in a depth of liquid after a time.
func CutSize(depth quantity.Length, t quantity.Duration, grain quantity.Density, l Liquid) (quantity.ParticleSize, error) {
	if err := positive("depth", float64(depth), "cm"); err != nil {
		return 0, err
	}
	if err := positive("time", float64(t), "s"); err != nil {
		return 0, err
	}
	return SizeAt(quantity.Speed(height(depth)/float64(t)), grain, l)
}

// DecantedShareRelation is what a wash carries off.
var DecantedShareRelation = trace.Relation{
	Name:     "share poured off",
	Equation: "p = 1 − v·t/h, not below 0",
	Source:   "grains fall evenly from a well-stirred depth",
}

// DecantedShare is the share of the grains of one size that is still in the
// depth poured off: 1 − v·t/h. Half of the grains that fall half as fast as the
// cut are left behind by one wash.
func DecantedShare(v quantity.Speed, t quantity.Duration, depth quantity.Length) (quantity.MassFraction, error) {
	if err := positive("depth", float64(depth), "cm"); err != nil {
		return 0, err
	}
	if !(v >= 0 && t >= 0) || math.IsInf(float64(v), 1) || math.IsInf(float64(t), 1) {
		return 0, fmt.Errorf("speed of fall is %g m/s and time %g s: want numbers from zero", float64(v), float64(t))
	}
	return quantity.MassFraction(max(0, 1-float64(v)*float64(t)/height(depth))), nil
}

// StaysBehindRelation is what repeated washes leave.
var StaysBehindRelation = trace.Relation{
	Name:     "fines left after repeated washes",
	Equation: "r = (1 − p)^k",
	Source:   "each wash takes the same share of what is left",
}

// StaysBehind is the share of the grains of one size still with the sediment
// after a number of equal washes, each of which pours off the share p.
func StaysBehind(p quantity.MassFraction, washes int) (quantity.MassFraction, error) {
	if !(p >= 0 && p <= 1) || washes < 0 {
		return 0, fmt.Errorf("each of %d washes takes %.4g %%: want zero or more washes and 0 to 100 %%", washes, 100*float64(p))
	}
	return quantity.MassFraction(math.Pow(1-float64(p), float64(washes))), nil
}

// UpflowRelation is the speed of an elutriating stream.
var UpflowRelation = trace.Relation{
	Name:     "elutriation speed",
	Equation: "u = v(d)",
	Source:   "a stream carries off what falls slower than it rises",
}

// Upflow is the speed at which liquid must rise to carry off grains up to the
// cut size and leave larger ones.
func Upflow(cut Grain, l Liquid) (quantity.Speed, error) {
	if err := heavier(cut.Density, l.Density); err != nil {
		return 0, err
	}
	f, err := Terminal(cut, l)
	return f.Speed, err
}
