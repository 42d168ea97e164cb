package vapour

import (
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// SaturatedRelation is how long the air of a room stays saturated.
var SaturatedRelation = trace.Relation{
	Name:     "until when the air stays saturated",
	Equation: "n·V·Cs·(t₂ − t₁) = ∫S dt from t₁ to t₂; all at once t₂ = (M/(V·Cs) − 1)/n",
	Source:   "conservation of mass: saturated air takes up no more than is carried off",
}

// A plateau is the stretch in which the air holds all it can, in hours.
type plateau struct {
	level    float64 // mg/m³
	from, to float64 // to is infinite where nothing clears the air
}

// UpTo is the course where the air can hold no more than a level, that of
// saturation. Once the air is full, what is still to leave stays liquid and
// evaporates only as fast as the air is changed: the level stays until the
// liquid that was held up is gone. A course that keeps below the level is
// returned as it is.
func (c Course) UpTo(most quantity.Concentration) Course {
	level := float64(most)
	if !(level > 0) || !(c.free(c.freePeak()) > level) {
		return c
	}
	p := plateau{level: level}
	switch c.release.Profile {
	case Evenly:
		p.from = rising(0, c.over, func(h float64) bool { return c.free(h) >= level })
		p.to = p.from + c.full*(1-p.from/c.over)/(c.n*level)
	case FirstOrder:
		p.from = rising(0, c.freePeak(), func(h float64) bool { return c.free(h) >= level })
		p.to = c.drained(p.from, level)
	default:
		p.to = (c.full/level - 1) / c.n
	}
	c.flat = &p
	return c
}

// drained is when the liquid that saturated air held up is gone, where it leaves
// ever more slowly.
func (c Course) drained(from, level float64) float64 {
	if c.n == 0 {
		return math.Inf(1)
	}
	a, left := 1/c.over, c.full*math.Exp(-from/c.over)
	held := func(h float64) float64 { return -left*math.Expm1(-a*(h-from)) - c.n*level*(h-from) }
	most := from + max(0, math.Log(a*left/(c.n*level))/a) // the most is held up here
	return rising(most, from+left/(c.n*level), func(h float64) bool { return held(h) <= 0 })
}

// rising finds the first hour between two at which a test passes that passes
// for every later one.
func rising(low, high float64, passes func(h float64) bool) float64 {
	for range 200 {
		if mid := (low + high) / 2; passes(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// rest is what is in the air and its integral so long after it was saturated:
// the plateau falling, and what a slow release has still to give.
func (c Course) rest(h float64) (level, dose float64) {
	level, dose = c.flat.level*math.Exp(-c.n*h), c.flat.level*h*e1(c.n*h)
	if c.release.Profile == FirstOrder {
		late := c
		late.flat = nil
		late.full *= math.Exp(-c.flat.to / c.over)
		level, dose = level+late.free(h), dose+late.freeDose(h)
	}
	return level, dose
}

// level is the concentration at an hour.
func (c Course) level(h float64) float64 {
	switch {
	case c.flat == nil || h < c.flat.from:
		return c.free(h)
	case h <= c.flat.to:
		return c.flat.level
	}
	level, _ := c.rest(h - c.flat.to)
	return level
}

// dose is the integral of the concentration from the start, mg·h/m³.
func (c Course) dose(h float64) float64 {
	if c.flat == nil || h < c.flat.from {
		return c.freeDose(h)
	}
	full := c.freeDose(c.flat.from) + c.flat.level*(min(h, c.flat.to)-c.flat.from)
	if h <= c.flat.to {
		return full
	}
	_, after := c.rest(h - c.flat.to)
	return full + after
}

// peak is the hour at which the concentration is first at its highest.
func (c Course) peak() float64 {
	if c.flat != nil {
		return c.flat.from
	}
	return c.freePeak()
}
