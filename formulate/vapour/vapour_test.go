package vapour

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

func genCourse(t *rapid.T) Course {
	// Air changes of 0 and rates that meet are drawn on purpose.
	room := Room{
		Volume:     quantity.RoomVolume(rapid.Float64Range(5, 200).Draw(t, "volume")),
		AirChanges: quantity.AirChanges(rapid.OneOf(rapid.SampledFrom([]float64{0, 1e-12, 0.5, 1}), rapid.Float64Range(0, 20)).Draw(t, "air changes")),
	}
	release := Release{
		Profile: rapid.SampledFrom([]Profile{AtOnce, Evenly, FirstOrder}).Draw(t, "profile"),
		Mass:    quantity.Mass(rapid.Float64Range(0.1, 100).Draw(t, "mass")),
	}
	if release.Profile != AtOnce {
		release.Over = seconds(rapid.OneOf(rapid.SampledFrom([]float64{1, 2}), rapid.Float64Range(0.05, 10)).Draw(t, "hours"))
	}
	c, err := NewCourse(room, release)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// source is the release in mg/h at an hour.
func (c Course) source(h float64) float64 {
	mass := 1000 * float64(c.release.Mass)
	switch {
	case c.release.Profile == Evenly && h < c.over:
		return mass / c.over
	case c.release.Profile == FirstOrder:
		return mass / c.over * math.Exp(-h/c.over)
	}
	return 0
}

func TestCourseObeysTheBox(t *testing.T) {
	// Between two times the vapour in the air changes by what came less what was
	// carried off: nothing is lost.
	rapid.Check(t, func(t *rapid.T) {
		c := genCourse(t)
		from := rapid.Float64Range(0, 10).Draw(t, "from")
		to := from + rapid.Float64Range(0.01, 10).Draw(t, "length")
		came := map[Profile]func(h float64) float64{
			AtOnce:     func(float64) float64 { return 0 },
			Evenly:     func(h float64) float64 { return min(h/c.over, 1) },
			FirstOrder: func(h float64) float64 { return -math.Expm1(-h / c.over) },
		}[c.release.Profile]
		mean, err := c.Mean(seconds(from), seconds(to))
		if err != nil {
			t.Fatal(err)
		}
		in := c.full * (came(to) - came(from))
		out := c.n * float64(mean) * (to - from)
		change := float64(c.At(seconds(to)) - c.At(seconds(from)))
		if math.Abs(in-out-change) > 1e-7*c.full {
			t.Fatalf("%+v from %v to %v h: came %v, carried off %v, change %v", c, from, to, in, out, change)
		}
	})
}

func TestCourseAgainstStepping(t *testing.T) {
	// The same equation, stepped by the classical fourth-order rule.
	for _, c := range []Course{
		{room: Room{Volume: 30, AirChanges: 0.5}, release: Release{FirstOrder, 10, 3000}},
		{room: Room{Volume: 25, AirChanges: 2}, release: Release{FirstOrder, 5, 1800}}, // rates alike
		{room: Room{Volume: 25}, release: Release{FirstOrder, 5, 1800}},
		{room: Room{Volume: 30, AirChanges: 0.5}, release: Release{Evenly, 15.6, 4 * 3600}},
	} {
		c, err := NewCourse(c.room, c.release)
		if err != nil {
			t.Fatal(err)
		}
		v := float64(c.room.Volume)
		slope := func(h, level float64) float64 { return c.source(h)/v - c.n*level }
		const dt = 1.0 / 512
		level := 0.0
		for i := range 8 * 512 {
			h := float64(i) * dt
			// Steps meet the end of an even release, so no step sees both sides.
			end := h + dt*(1-1e-12)
			k1 := slope(h, level)
			k2 := slope(h+dt/2, level+dt/2*k1)
			k3 := slope(h+dt/2, level+dt/2*k2)
			k4 := slope(end, level+dt*k3)
			level += dt / 6 * (k1 + 2*k2 + 2*k3 + k4)
			if i%512 == 511 {
				if got := float64(c.At(seconds(h + dt))); math.Abs(got-level) > 1e-6*c.full {
					t.Errorf("%+v at %g h: %.8g, stepped %.8g", c.release, h+dt, got, level)
				}
			}
		}
	}
}

func TestPeakIsThePeak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCourse(t)
		top, at := c.Peak()
		other := c.At(seconds(rapid.Float64Range(0, 40).Draw(t, "hour")))
		if c.n > 1e-6 && other > top*(1+1e-9) || other > top*(1+1e-4) {
			t.Fatalf("%+v: peak %v at %v, but %v elsewhere", c, top, at, other)
		}
		if float64(top) > c.full*(1+1e-12) {
			t.Fatalf("%+v: more in the air than was released", c)
		}
	})
}

func TestWorstMeanIsTheWorst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCourse(t)
		length := rapid.Float64Range(0.1, 10).Draw(t, "length")
		worst, err := c.WorstMean(seconds(length))
		if err != nil {
			t.Fatal(err)
		}
		from := rapid.Float64Range(0, 30).Draw(t, "from")
		other := c.mean(from, from+length)
		if c.n > 1e-6 && other > worst*(1+1e-7) || other > worst*(1+1e-4) {
			t.Fatalf("%+v: worst mean over %v h is %v, but %v from hour %v", c, length, worst, other, from)
		}
		if top, _ := c.Peak(); worst > top*(1+1e-9) {
			t.Fatalf("%+v: mean %v above the peak %v", c, worst, top)
		}
	})
}

func TestMoreAirIsLessVapour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCourse(t)
		room := c.room
		room.AirChanges = room.AirChanges*1.5 + 0.1
		aired, err := NewCourse(room, c.release)
		if err != nil {
			t.Fatal(err)
		}
		at := seconds(rapid.Float64Range(0, 20).Draw(t, "hour"))
		if aired.At(at) > c.At(at)*(1+1e-9) {
			t.Fatalf("%+v: more air, more vapour: %v, before %v", c, aired.At(at), c.At(at))
		}
	})
}

func TestConversionsReturn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		vm, err := MolarVolumeAt(quantity.Celsius(rapid.Float64Range(-20, 60).Draw(t, "t")), quantity.Pressure(rapid.Float64Range(70, 110).Draw(t, "p")))
		if err != nil {
			t.Fatal(err)
		}
		m := quantity.MolarMass(rapid.Float64Range(16, 400).Draw(t, "m"))
		ppm := quantity.PartsPerMillion(rapid.Float64Range(0.01, 1e5).Draw(t, "ppm"))
		if back := PartsPerMillion(Concentration(ppm, m, vm), m, vm); math.Abs(float64(back/ppm)-1) > 1e-12 {
			t.Fatalf("%v ppm came back as %v", ppm, back)
		}
	})
}

func TestSteadyAndTime(t *testing.T) {
	room := Room{Volume: 30, AirChanges: 0.5}
	steady, err := Steady(room, 3.9)
	if err != nil {
		t.Fatal(err)
	}
	half, err := TimeTo(room, 3.9, steady/2)
	if err != nil {
		t.Fatal(err)
	}
	if want := math.Ln2 / 0.5; math.Abs(half.Hours()-want) > 1e-9 {
		t.Errorf("half the steady level after %v h, want %v", half.Hours(), want)
	}
	back, err := ClearingTime(room, steady, steady/2)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(back-half)) > 1e-6 {
		t.Errorf("clearing to half takes %v, want as long as rising to it, %v", back, half)
	}
}

func TestMixtureLimit(t *testing.T) {
	alone, err := MixtureLimit(Flammable{3, 0.009})
	if err != nil || math.Abs(float64(alone)-0.009) > 1e-15 {
		t.Errorf("one vapour alone: %v, %v", alone, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.Float64Range(0.005, 0.2)
		share := rapid.Float64Range(0.01, 5)
		a := Flammable{quantity.Ratio(share.Draw(t, "y1")), quantity.VolumeFraction(limit.Draw(t, "l1"))}
		b := Flammable{quantity.Ratio(share.Draw(t, "y2")), quantity.VolumeFraction(limit.Draw(t, "l2"))}
		m, err := MixtureLimit(a, b)
		if err != nil {
			t.Fatal(err)
		}
		if m < min(a.Limit, b.Limit)*(1-1e-12) || m > max(a.Limit, b.Limit)*(1+1e-12) {
			t.Fatalf("limit %v of %v and %v", m, a, b)
		}
	})
}

// spirit is an invented solvent.
var spirit = Substance{
	Name: "bench spirit", MolarMass: 140, VapourPressure: 0.4, LowerExplosive: 0.008,
	Limits: []material.Limit{
		{Authority: "A", Kind: "8 h", PPM: 50},
		{Authority: "B", Kind: "15 min", MgPerM3: 1800},
		{Authority: "C", Kind: "ceiling", PPM: 50, MgPerM3: 200},
		{Authority: "D", Kind: "on Tuesdays", MgPerM3: 100},
	},
}

func TestAssess(t *testing.T) {
	tr := &trace.Tracer{}
	a, err := Assess(Room{Volume: 25, AirChanges: 1}, Release{Profile: AtOnce, Mass: 5}, spirit, OrdinaryAir, tr)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(a.Peak)-200) > 1e-9 || a.PeakAt != 0 {
		t.Errorf("peak %v at %v, want 200 mg/m³ at the start", a.Peak, a.PeakAt)
	}
	if math.Abs(float64(a.EightHours)-24.992) > 5e-4 {
		t.Errorf("eight hours %v, want 24.992", a.EightHours)
	}
	shares := []float64{24.9916 / (50 * 140 / 24.4654), 0, 1, 2} // the second below
	shares[1] = 200 * (1 - math.Exp(-0.25)) / 0.25 / 1800
	for i, c := range a.Comparisons {
		if math.Abs(float64(c.Share)-shares[i]) > 1e-4 {
			t.Errorf("limit of %s: share %v, want %v", c.Limit.Authority, c.Share, shares[i])
		}
		if c.Over != (c.Share > 1) {
			t.Errorf("limit of %s: over %t at %v", c.Limit.Authority, c.Over, c.Share)
		}
	}
	if a.Comparisons[2].Threshold != 200 {
		t.Errorf("printed both ways, the lower counts: %v", a.Comparisons[2].Threshold)
	}
	if a.Comparisons[3].Note == "" || a.Comparisons[0].Note != "" {
		t.Error("a limit of an unknown kind must carry a note, a known one none")
	}
	if a.Fire == nil || math.Abs(float64(a.Fire.OverLiquid)-0.4/101.325/0.008) > 1e-12 {
		t.Errorf("fire: %+v", a.Fire)
	}
	if len(tr.Steps()) < 6 {
		t.Errorf("%d steps noted", len(tr.Steps()))
	}
	untraced, err := Assess(Room{Volume: 25, AirChanges: 1}, Release{Profile: AtOnce, Mass: 5}, spirit, OrdinaryAir, nil)
	if err != nil || untraced.Peak != a.Peak || untraced.EightHours != a.EightHours {
		t.Error("a traced run gives other figures than an untraced one")
	}
}

func TestAssessCautions(t *testing.T) {
	assess := func(mass quantity.Mass, s Substance) []string {
		a, err := Assess(Room{Volume: 10}, Release{Profile: AtOnce, Mass: mass}, s, OrdinaryAir, nil)
		if err != nil {
			t.Fatal(err)
		}
		return a.Cautions
	}
	hot := spirit
	hot.VapourPressure = 5
	bare := Substance{Name: "unknown", MolarMass: 100}
	tests := []struct {
		name      string
		cautions  []string
		has, lack string
	}{
		{"little of it", assess(0.1, spirit), NoClearance, DangerousFire},
		{"always the average", assess(0.1, spirit), RoomAverage, NoLimits},
		{"a tenth of the limit", assess(50, spirit), DangerousFire, CannotAllBe},
		{"more than the air can hold", assess(500, spirit), CannotAllBe, NoLimits},
		{"the room itself burns", assess(5000, hot), Explosive, NoLimits},
		{"below the limit itself", assess(500, spirit), DangerousFire, Explosive},
		{"vapour over the liquid burns", assess(0.1, hot), LightsOver, DangerousFire},
		{"nothing known", assess(1, bare), NoLimits, ListedNotAll},
	}
	for _, tt := range tests {
		all := strings.Join(tt.cautions, "\n")
		if !strings.Contains(all, tt.has) || strings.Contains(all, tt.lack) {
			t.Errorf("%s: cautions\n%s", tt.name, all)
		}
		if !strings.Contains(all, RoomAverage) || !strings.Contains(all, NoClearance) {
			t.Errorf("%s: the standing cautions are missing", tt.name)
		}
		if strings.Contains(strings.ReplaceAll(all, "safety data sheet", ""), "safe") {
			t.Errorf("%s: a caution speaks of safe", tt.name)
		}
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	room, release := Room{Volume: 20, AirChanges: 1}, Release{Profile: AtOnce, Mass: 5}
	errOf := func(_ any, err error) error { return err }
	course := func(r Room, e Release) error { return errOf(NewCourse(r, e)) }
	limits := func(m, x, y int) error { _, _, err := LimitsFromFormula(m, x, y); return err }
	tests := []struct {
		name string
		err  error
		want string
	}{
		{"no room", course(Room{AirChanges: 1}, release), "room volume"},
		{"room not a number", course(Room{Volume: quantity.RoomVolume(nan)}, release), "room volume"},
		{"negative air changes", course(Room{Volume: 1, AirChanges: -1}, release), "air changes"},
		{"infinite loss", course(Room{Volume: 1, Loss: quantity.AirChanges(inf)}, release), "loss to surfaces"},
		{"negative mass", course(room, Release{Profile: AtOnce, Mass: -1}), "mass released"},
		{"time for all at once", course(room, Release{AtOnce, 1, 60}), "takes no time"},
		{"evenly over nothing", course(room, Release{Evenly, 1, 0}), "time of the release"},
		{"unknown profile", course(room, Release{"in a puff", 1, 0}), `"in a puff"`},
		{"below absolute zero", errOf(MolarVolumeAt(-300, 101)), "absolute zero"},
		{"no pressure", errOf(MolarVolumeAt(20, 0)), "pressure"},
		{"closed room", errOf(Steady(Room{Volume: 1}, 1)), "no steady level"},
		{"level never reached", errOf(TimeTo(room, 1, 51)), "never reached"},
		{"closed room does not clear", errOf(ClearingTime(Room{Volume: 1}, 2, 1)), "does not clear"},
		{"clearing to nothing", errOf(ClearingTime(room, 2, 0)), "above 0"},
		{"mixing better than perfect", errOf(Dilution(1, 100, 0.5)), "mixing factor"},
		{"dilution to nothing", errOf(Dilution(1, 0, 5)), "level"},
		{"limit above 1", errOf(MixtureLimit(Flammable{1, 1.5})), "limit of vapour 1"},
		{"empty mixture", errOf(MixtureLimit()), "no flammable"},
		{"no carbon", limits(0, 2, 1), "does not burn"},
		{"carbon dioxide", limits(1, 0, 2), "does not burn"},
		{"no molar mass", errOf(Assess(room, release, Substance{Name: "x"}, OrdinaryAir, nil)), "x: molar mass"},
		{"limit without a figure", errOf(Assess(room, release, Substance{Name: "x", MolarMass: 1, Limits: []material.Limit{{Authority: "A", Kind: "8 h"}}}, OrdinaryAir, nil)), "limit of A, 8 h"},
	}
	for _, tt := range tests {
		if tt.err == nil || !strings.Contains(tt.err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, tt.err, tt.want)
		}
	}
	c, err := NewCourse(room, release)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.Mean(5, 5); err == nil {
		t.Error("a mean over no time was given")
	}
	if _, err := c.WorstMean(0); err == nil {
		t.Error("a worst mean over no time was given")
	}
}
