package vapour

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Substance is what must be known of a solvent. What is not known stays 0 and
// the figures that need it are left out.
type Substance struct {
	Name           string
	MolarMass      quantity.MolarMass
	VapourPressure quantity.Pressure
	LowerExplosive quantity.VolumeFraction
	Limits         []material.Limit
}

// An Air is the state of the air the figures hold for.
type Air struct {
	Temperature quantity.Celsius
	Pressure    quantity.Pressure
}

// OrdinaryAir is what tables of limits are printed for.
var OrdinaryAir = Air{RoomTemperature, StandardPressure}

// A Comparison sets the air beside one published limit. It is a ratio and no
// clearance.
type Comparison struct {
	Limit material.Limit
	// Averaged is the time the limit is averaged over; 0 means at no moment.
	Averaged  quantity.Duration
	Level     quantity.Concentration // the worst mean over that time, or the peak
	Threshold quantity.Concentration // the limit; the lower where it is printed both ways
	Share     quantity.Ratio         // Level/Threshold
	Over      bool                   // Share > 1
	Note      string
}

// A Fire sets the air beside the lower explosive limit.
type Fire struct {
	LowerExplosive quantity.VolumeFraction
	RoomShare      quantity.Ratio // of the limit, in the room's average at its peak
	// OverLiquid is the share in air that stands right over the liquid, 0 where no
	// vapour pressure is known. Above 1 that air can be lit, whatever the room's
	// average.
	OverLiquid quantity.Ratio
}

// An Assessment is what a release does to a room's air.
type Assessment struct {
	Substance  string
	Room       Room
	Release    Release
	Air        Air
	Peak       quantity.Concentration
	PeakPPM    quantity.PartsPerMillion
	PeakAt     quantity.Duration
	EightHours quantity.Concentration // worst mean over eight hours
	// Saturated is set where all of it, leaving as said, would be more than the
	// air can hold: the course stays at Saturation from PeakAt to ClearsFrom, and
	// the rest stays liquid for so long.
	Saturated   bool
	Saturation  quantity.PartsPerMillion // 0 where no vapour pressure is known
	Holds       quantity.Mass            // in the room's air when it is saturated
	ClearsFrom  quantity.Duration        // 0 where it is not saturated, infinite where no air is changed
	Fire        *Fire                    // nil where no limit is known
	Comparisons []Comparison
	Cautions    []string
}

// What every assessment says, and what some say.
const (
	RoomAverage   = "These are averages over the whole room: over the palette and in the breathing zone of the one at work the air holds several times more."
	NoClearance   = "A figure below a limit is no clearance: the product's safety data sheet, local rules and licensed practice decide. Limits differ by country and year."
	NoLimits      = "No exposure limit is known here for this substance: that says nothing about its harm."
	ListedNotAll  = "Only the limits listed were compared; skin contact and people who react below a limit are not covered."
	LightsOver    = "The air right over the liquid can hold enough vapour to burn: no flame, spark or hot plate near it."
	DangerousFire = "The room's average passes a tenth of the lower explosive limit, which NIOSH takes as immediately dangerous."
	Explosive     = "The room's average passes the lower explosive limit itself: a spark can set the whole room off. Do not do this."
	CannotAllBe   = "The air saturates: no more can evaporate until it is changed, and the rest stays liquid for as long."
)

// WorkingDay is the time over which most limits average.
const WorkingDay = 8 * quantity.Hour

// Assess works out the course of a release in a room and sets it beside what is
// published of the substance.
func Assess(room Room, release Release, s Substance, air Air, tr *trace.Tracer) (Assessment, error) {
	course, err := NewCourse(room, release)
	if err != nil {
		return Assessment{}, err
	}
	if err := s.check(); err != nil {
		return Assessment{}, err
	}
	vm, err := MolarVolumeAt(air.Temperature, air.Pressure)
	if err != nil {
		return Assessment{}, err
	}
	a := Assessment{Substance: s.Name, Room: room, Release: release, Air: air}
	if s.VapourPressure > 0 {
		course = a.saturate(course, s, vm, tr)
	}
	a.Peak, a.PeakAt = course.Peak()
	a.PeakPPM = PartsPerMillion(a.Peak, s.MolarMass, vm)
	if a.EightHours, err = course.WorstMean(WorkingDay); err != nil {
		return Assessment{}, err
	}
	a.note(vm, s, tr)
	if s.LowerExplosive > 0 {
		a.Fire = &Fire{
			LowerExplosive: s.LowerExplosive,
			RoomShare:      ShareOfLEL(a.PeakPPM, s.LowerExplosive),
			OverLiquid:     ShareOfLEL(a.Saturation, s.LowerExplosive),
		}
		tr.Note(ShareOfLELRelation, s.Name, trace.T("f", a.Fire.RoomShare, ""),
			trace.T("ppm", a.PeakPPM, "ppm"), trace.T("LEL", s.LowerExplosive, "share by volume"))
	}
	for _, l := range s.Limits {
		c, err := compare(course, l, s.MolarMass, vm)
		if err != nil {
			return Assessment{}, err
		}
		a.Comparisons = append(a.Comparisons, c)
	}
	a.caution()
	return a, nil
}

// saturate caps a course at what the air can hold.
func (a *Assessment) saturate(c Course, s Substance, vm MolarVolume, tr *trace.Tracer) Course {
	a.Saturation = Saturation(s.VapourPressure, a.Air.Pressure)
	level := Concentration(a.Saturation, s.MolarMass, vm)
	tr.Note(SaturationRelation, s.Name, trace.T("ppm", a.Saturation, "ppm"),
		trace.T("pv", s.VapourPressure, "kPa"), trace.T("p", a.Air.Pressure, "kPa"))
	c = c.UpTo(level)
	if c.flat == nil {
		return c
	}
	a.Saturated, a.ClearsFrom = true, seconds(c.flat.to)
	a.Holds = quantity.Mass(float64(level) * float64(a.Room.Volume) / 1000)
	if math.IsInf(float64(c.flat.to), 1) {
		return c // a closed room: the relation has no answer to note
	}
	tr.Note(SaturatedRelation, s.Name, trace.T("t₂", c.flat.to, "h"), trace.T("t₁", c.flat.from, "h"),
		trace.T("Cs", level, "mg/m³"), trace.T("n", a.Room.AirChanges+a.Room.Loss, "/h"))
	return c
}

// Course is the course that was assessed.
func (a *Assessment) Course() (Course, error) {
	c, err := NewCourse(a.Room, a.Release)
	if err == nil && a.Saturated {
		c = c.UpTo(a.Peak)
	}
	return c, err
}

func (s Substance) check() error {
	if err := positive("molar mass", s.MolarMass, "g/mol"); err != nil {
		return fmt.Errorf("%s: %w", s.Name, err)
	}
	if err := notNegative("vapour pressure", s.VapourPressure, "kPa"); err != nil {
		return fmt.Errorf("%s: %w", s.Name, err)
	}
	if !(s.LowerExplosive >= 0 && s.LowerExplosive <= 1) {
		return fmt.Errorf("%s: lower explosive limit is %g: it is a share of the air by volume, 0 to 1", s.Name, float64(s.LowerExplosive))
	}
	return nil
}

func (a *Assessment) note(vm MolarVolume, s Substance, tr *trace.Tracer) {
	if !tr.On() {
		return
	}
	tr.Note(MolarVolumeRelation, s.Name, trace.T("Vm", vm, "l/mol"),
		trace.T("T", a.Air.Temperature.Kelvin(), "K"), trace.T("p", a.Air.Pressure, "kPa"))
	in := []trace.Term{
		trace.T("M", a.Release.Mass, "g"), trace.T("V", a.Room.Volume, "m³"), trace.T("n", a.Room.AirChanges+a.Room.Loss, "/h"),
	}
	if a.Release.Profile != AtOnce {
		in = append(in, trace.T("τ", a.Release.Over.Hours(), "h"))
	}
	if !a.Saturated {
		tr.Note(PeakRelation, s.Name, trace.T("t", a.PeakAt.Hours(), "h"), in...)
		tr.Note(RoomRelation, s.Name, trace.T("C", a.Peak, "mg/m³"), append(in, trace.T("t", a.PeakAt.Hours(), "h"))...)
	}
	tr.Note(PartsPerMillionRelation, s.Name, trace.T("ppm", a.PeakPPM, "ppm"),
		trace.T("C", a.Peak, "mg/m³"), trace.T("Vm", vm, "l/mol"), trace.T("M", s.MolarMass, "g/mol"))
	tr.Note(MeanRelation, s.Name, trace.T("C̄", a.EightHours, "mg/m³"), trace.T("t₂ − t₁", 8.0, "h"))
}

// caution gathers what must be said beside the figures.
func (a *Assessment) caution() {
	a.Cautions = append(a.Cautions, RoomAverage)
	if a.Saturated {
		a.Cautions = append(a.Cautions, CannotAllBe)
	}
	if f := a.Fire; f != nil {
		if f.RoomShare > 1 {
			a.Cautions = append(a.Cautions, Explosive)
		}
		if f.RoomShare > DangerousShareOfLEL {
			a.Cautions = append(a.Cautions, DangerousFire)
		}
		if f.OverLiquid > 1 {
			a.Cautions = append(a.Cautions, LightsOver)
		}
	}
	if len(a.Comparisons) == 0 {
		a.Cautions = append(a.Cautions, NoLimits)
	} else {
		a.Cautions = append(a.Cautions, ListedNotAll)
	}
	a.Cautions = append(a.Cautions, NoClearance)
}

func compare(c Course, l material.Limit, m quantity.MolarMass, vm MolarVolume) (Comparison, error) {
	out := Comparison{Limit: l}
	if l.PPM > 0 {
		out.Threshold = Concentration(l.PPM, m, vm)
	}
	if l.MgPerM3 > 0 && (out.Threshold == 0 || l.MgPerM3 < out.Threshold) {
		out.Threshold = l.MgPerM3
	}
	if err := positive("limit of "+l.Authority+", "+l.Kind, out.Threshold, "mg/m³"); err != nil {
		return Comparison{}, err
	}
	averaged, ok := averagingTime(l.Kind)
	switch {
	case !ok:
		out.Note = fmt.Sprintf("no averaging time is read from %q: the peak was compared", l.Kind)
		fallthrough
	case averaged == 0:
		out.Level, _ = c.Peak()
	default:
		out.Averaged = averaged
		level, err := c.WorstMean(averaged)
		if err != nil {
			return Comparison{}, err
		}
		out.Level = level
	}
	out.Share = quantity.Ratio(out.Level / out.Threshold)
	out.Over = out.Share > 1
	return out, nil
}

// averagingTime reads "8 h", "15 min", "ceiling" or "idlh".
func averagingTime(kind string) (quantity.Duration, bool) {
	switch k := strings.ToLower(strings.TrimSpace(kind)); k {
	case "ceiling", "idlh", "peak":
		return 0, true
	default:
		number, unit, _ := strings.Cut(k, " ")
		v, err := strconv.Atoi(number)
		factor := map[string]quantity.Duration{"h": quantity.Hour, "min": quantity.Minute}[strings.TrimSpace(unit)]
		if err != nil || v <= 0 || factor == 0 {
			return 0, false
		}
		return quantity.Duration(v) * factor, true
	}
}

// AdditiveRelation sums the shares of several solvents.
var AdditiveRelation = trace.Relation{
	Name:     "several solvents that act alike",
	Equation: "Σ Cᵢ/Lᵢ ≤ 1",
	Source:   "Kumar, General dilution ventilation equation; ACGIH's rule for additive effects (from memory)",
}

// Additive is the sum of the shares of their limits that several solvents
// reach; above 1 they pass the limit together. Solvents that harm the same organ
// are counted so, and most painting solvents do.
func Additive(shares ...quantity.Ratio) quantity.Ratio {
	var sum quantity.Ratio
	for _, s := range shares {
		sum += s
	}
	return sum
}
