package vapour

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Room is one well-mixed box of air.
type Room struct {
	Volume     quantity.RoomVolume
	AirChanges quantity.AirChanges
	// Loss is what walls, cloth and the like take up, as air changes; 0 where it
	// is not known.
	Loss quantity.AirChanges
}

// clearing is the rate at which the air loses its vapour, per hour.
func (r Room) clearing() float64 { return float64(r.AirChanges + r.Loss) }

func (r Room) check() error {
	if err := positive("room volume", r.Volume, "m³"); err != nil {
		return err
	}
	if err := notNegative("air changes", r.AirChanges, "per hour"); err != nil {
		return err
	}
	return notNegative("loss to surfaces", r.Loss, "per hour")
}

// A Profile says how solvent leaves the paint.
type Profile string

const (
	AtOnce     Profile = "all at once"
	Evenly     Profile = "evenly over a time"
	FirstOrder Profile = "fast at first, then ever slower"
)

// A Release is how much solvent leaves, and how.
type Release struct {
	Profile Profile
	Mass    quantity.Mass
	// Over is, for [Evenly], the time it takes; for [FirstOrder], the time in which
	// 63 % leaves (1/a). [AtOnce] takes none.
	Over quantity.Duration
}

func (r Release) check() error {
	if err := notNegative("mass released", r.Mass, "g"); err != nil {
		return err
	}
	switch r.Profile {
	case AtOnce:
		if r.Over != 0 {
			return fmt.Errorf("release %q takes no time, but %v is given", r.Profile, r.Over)
		}
		return nil
	case Evenly, FirstOrder:
		return positive("time of the release", r.Over, "s")
	}
	return fmt.Errorf("release %q is not known; accepted: %q, %q, %q", r.Profile, AtOnce, Evenly, FirstOrder)
}

// A Course is the concentration in a room over time after a release.
type Course struct {
	room    Room
	release Release
	n       float64 // clearing, per hour
	over    float64 // hours
	full    float64 // mg/m³ with all of it in the air
	// flat is when the air is saturated; nil where it never is, see [Course.UpTo].
	flat *plateau
}

// NewCourse checks a room and a release and joins them.
func NewCourse(room Room, release Release) (Course, error) {
	if err := room.check(); err != nil {
		return Course{}, err
	}
	if err := release.check(); err != nil {
		return Course{}, err
	}
	return Course{
		room: room, release: release,
		n:    room.clearing(),
		over: release.Over.Hours(),
		full: 1000 * float64(release.Mass) / float64(room.Volume),
	}, nil
}

func seconds(h float64) quantity.Duration { return quantity.Duration(h) * quantity.Hour }

// e1 is (1 − e^−x)/x, and e2 is (x − 1 + e^−x)/x²: a level and a dose that also
// hold where nothing clears the air (x = 0).
func e1(x float64) float64 {
	if math.Abs(x) < 1e-9 {
		return 1 - x/2
	}
	return -math.Expm1(-x) / x
}

func e2(x float64) float64 {
	if math.Abs(x) < 1e-3 {
		return 0.5 - x/6 + x*x/24
	}
	return (x + math.Expm1(-x)) / (x * x)
}

// RoomRelation is the well-mixed box.
var RoomRelation = trace.Relation{
	Name:     "well-mixed room",
	Equation: "V·dC/dt = S(t) − n·V·C; at once C = (M/V)e^(−nt); evenly C = (M/τ)/(nV)·(1 − e^(−nt)), after τ falling by e^(−n(t−τ)); first order C = aM/(V(n − a))·(e^(−at) − e^(−nt))",
	Source:   "Keil and others (eds), Mathematical Models for Estimating Occupational Exposure to Chemicals, AIHA 2009 (from memory)",
}

// At is the concentration a time after the release began.
func (c Course) At(t quantity.Duration) quantity.Concentration {
	h := t.Hours()
	if !(h >= 0) {
		return 0
	}
	return quantity.Concentration(c.level(h))
}

// free is the concentration at an hour in air that takes up whatever leaves.
func (c Course) free(h float64) float64 {
	switch c.release.Profile {
	case Evenly:
		if h <= c.over {
			return c.full / c.over * h * e1(c.n*h)
		}
		return c.full * e1(c.n*c.over) * math.Exp(-c.n*(h-c.over))
	case FirstOrder:
		a := 1 / c.over
		// Take the slower of the two rates out of the bracket, so that neither
		// exponential can overflow.
		slow, fast := min(a, c.n), max(a, c.n)
		return c.full * a * h * math.Exp(-slow*h) * e1((fast-slow)*h)
	default:
		return c.full * math.Exp(-c.n*h)
	}
}

// freeDose is the integral of free from the start, mg·h/m³.
func (c Course) freeDose(h float64) float64 {
	switch c.release.Profile {
	case Evenly:
		if h <= c.over {
			return c.full / c.over * h * h * e2(c.n*h)
		}
		rest := h - c.over
		return c.full*c.over*e2(c.n*c.over) + c.full*e1(c.n*c.over)*rest*e1(c.n*rest)
	case FirstOrder:
		x, y := c.n*h, h/c.over
		return c.full * h * y * e1Slope(x, y)
	default:
		return c.full * h * e1(c.n*h)
	}
}

// e1Slope is (e1(x) − e1(y))/(y − x), and its limit where x meets y.
func e1Slope(x, y float64) float64 {
	if math.Abs(y-x) < 1e-4*(1+x) {
		m := (x + y) / 2
		if m < 1e-3 {
			return 0.5 - m/3
		}
		return (1 - math.Exp(-m)*(1+m)) / (m * m)
	}
	return (e1(x) - e1(y)) / (y - x)
}

// MeanRelation is the time-weighted mean.
var MeanRelation = trace.Relation{
	Name:     "time-weighted mean",
	Equation: "C̄ = ∫C dt/(t₂ − t₁)",
	Source:   "definition",
}

// Mean is the time-weighted mean from one time to a later one.
func (c Course) Mean(from, to quantity.Duration) (quantity.Concentration, error) {
	if !(from >= 0) || !(to > from) || math.IsInf(float64(to), 1) {
		return 0, fmt.Errorf("mean from %g s to %g s: the second time must be the later, the first not negative", float64(from), float64(to))
	}
	return c.mean(from.Hours(), to.Hours()), nil
}

func (c Course) mean(from, to float64) quantity.Concentration {
	return quantity.Concentration((c.dose(to) - c.dose(from)) / (to - from))
}

// PeakRelation is when the concentration is highest.
var PeakRelation = trace.Relation{
	Name:     "time of the highest concentration",
	Equation: "at once t = 0; evenly t = τ; first order t = ln(a/n)/(a − n)",
	Source:   "maximum of the well-mixed room",
}

// Peak is the highest concentration and when it comes.
func (c Course) Peak() (quantity.Concentration, quantity.Duration) {
	t := seconds(c.peak())
	return c.At(t), t
}

// freePeak is the hour of the highest free concentration. A closed room under a
// first-order release only ever nears its highest; after forty times the
// release's time no digit changes any more.
func (c Course) freePeak() float64 {
	switch c.release.Profile {
	case Evenly:
		return c.over
	case FirstOrder:
		a := 1 / c.over
		if c.n == 0 {
			return 40 * c.over
		}
		if d := a/c.n - 1; math.Abs(d) < 1e-6 {
			return (1 - d/2) / c.n
		}
		return math.Log(a/c.n) / (a - c.n)
	}
	return 0
}

// WorstMean is the highest mean over any stretch of a length, as a short-term
// limit asks for it. The concentration rises once and falls once, so the worst
// stretch lies about the peak.
func (c Course) WorstMean(length quantity.Duration) (quantity.Concentration, error) {
	if err := positive("averaging time", length, "s"); err != nil {
		return 0, err
	}
	w := length.Hours()
	low, high := max(0, c.peak()-w), c.peak()
	// Golden section on the start of the stretch.
	g := (math.Sqrt(5) - 1) / 2
	for range 80 {
		a, b := high-g*(high-low), low+g*(high-low)
		if c.mean(a, a+w) < c.mean(b, b+w) {
			low = a
		} else {
			high = b
		}
	}
	start := (low + high) / 2
	best := max(c.mean(start, start+w), c.mean(0, w))
	return best, nil
}

// ReleaseRate is in g of solvent an hour.
type ReleaseRate float64

// SteadyRelation is the level a lasting release tends to.
var SteadyRelation = trace.Relation{
	Name:     "steady level of a lasting release",
	Equation: "C = G/(n·V)",
	Source:   "well-mixed room, t → ∞",
}

// Steady is the level that a release which never ends tends to: G/(n·V). A room
// without any air change has none.
func Steady(room Room, rate ReleaseRate) (quantity.Concentration, error) {
	if err := room.check(); err != nil {
		return 0, err
	}
	if err := notNegative("release", rate, "g/h"); err != nil {
		return 0, err
	}
	if room.clearing() == 0 {
		return 0, fmt.Errorf("a room without air changes has no steady level: the concentration rises as long as solvent evaporates")
	}
	return quantity.Concentration(1000 * float64(rate) / (room.clearing() * float64(room.Volume))), nil
}

// TimeToRelation is how long a lasting release takes to reach a level.
var TimeToRelation = trace.Relation{
	Name:     "time to reach a level",
	Equation: "t = −ln(1 − C/C∞)/n",
	Source:   "well-mixed room",
}

// TimeTo is when a lasting release, begun in clean air, reaches a level:
// −ln(1 − C/C∞)/n. It fails for a level that is never reached.
func TimeTo(room Room, rate ReleaseRate, level quantity.Concentration) (quantity.Duration, error) {
	steady, err := Steady(room, rate)
	if err != nil {
		return 0, err
	}
	if err := notNegative("level", level, "mg/m³"); err != nil {
		return 0, err
	}
	if level >= steady {
		return 0, fmt.Errorf("level %g mg/m³ is never reached: the air tends to %g mg/m³", float64(level), float64(steady))
	}
	return seconds(-math.Log1p(-float64(level/steady)) / room.clearing()), nil
}

// ClearingTimeRelation is how long airing takes.
var ClearingTimeRelation = trace.Relation{
	Name:     "time to clear the air",
	Equation: "t = ln(C₁/C₂)/n",
	Source:   "well-mixed room without release",
}

// ClearingTime is how long clean air takes to bring one level down to another
// once nothing evaporates any more: ln(C₁/C₂)/n.
func ClearingTime(room Room, from, to quantity.Concentration) (quantity.Duration, error) {
	if err := room.check(); err != nil {
		return 0, err
	}
	if room.clearing() == 0 {
		return 0, fmt.Errorf("a room without air changes does not clear")
	}
	if !(to > 0) || !(from >= to) || math.IsInf(float64(from), 1) {
		return 0, fmt.Errorf("clearing from %g to %g mg/m³: the second must be the lower and above 0", float64(from), float64(to))
	}
	return seconds(math.Log(float64(from/to)) / room.clearing()), nil
}
