package vapour

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/quantity"
)

// Whatever is released, saturated air holds no more than it can, and what came
// is in the air, carried off, or still liquid.
func TestSaturatedAirHoldsNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		free := genCourse(t)
		top, _ := free.Peak()
		most := quantity.Concentration(rapid.Float64Range(0.02, 1.5).Draw(t, "of the peak")) * top
		c := free.UpTo(most)
		if float64(most) > float64(top)*(1+1e-9) && c.flat != nil {
			t.Fatalf("%+v never reaches %v, and is held to it", c, most)
		}
		if peak, at := c.Peak(); most < top && (math.Abs(float64(peak/most)-1) > 1e-9 || at > seconds(free.freePeak())) {
			t.Fatalf("%+v: peak %v at %v, want %v", c, peak, at, most)
		}
		h := rapid.Float64Range(0, 60).Draw(t, "hour")
		if level := c.At(seconds(h)); float64(level) > float64(most)*(1+1e-9) || float64(level) > float64(top)*(1+1e-4) {
			t.Fatalf("%+v: %v at %v h, over %v", c, level, h, most)
		}
		// Air plus carried off is at most what the release has given by then.
		given := map[Profile]float64{AtOnce: 1, Evenly: min(h/c.over, 1), FirstOrder: -math.Expm1(-h / c.over)}[c.release.Profile]
		held := c.full*given - float64(c.At(seconds(h))) - c.n*c.dose(h)
		if held < -1e-7*c.full {
			t.Fatalf("%+v at %v h: %v more than was given", c, h, -held)
		}
		if c.flat == nil || h < c.flat.from || h > c.flat.to {
			if math.Abs(held) > 1e-7*c.full {
				t.Fatalf("%+v at %v h: %v is still liquid in air that is not saturated", c, h, held)
			}
		}
		worst, err := c.WorstMean(seconds(4))
		if err != nil || float64(worst) > float64(min(most, top))*(1+1e-4) {
			t.Fatalf("%+v: worst mean %v over what the air can hold, %v (%v)", c, worst, most, err)
		}
	})
}

// The same, stepped: liquid held up evaporates as fast as the air lets it.
func TestSaturationAgainstStepping(t *testing.T) {
	for _, x := range []struct {
		room    Room
		release Release
		most    float64
	}{
		{Room{Volume: 10, AirChanges: 0.5}, Release{AtOnce, 2160, 0}, 54000},
		{Room{Volume: 10, AirChanges: 3}, Release{AtOnce, 2160, 0}, 100000},
		{Room{Volume: 30, AirChanges: 0.5}, Release{Evenly, 60, 2 * 3600}, 600},
		{Room{Volume: 30, AirChanges: 1}, Release{FirstOrder, 60, 3000}, 500},
		{Room{Volume: 30}, Release{FirstOrder, 60, 3000}, 500},
	} {
		c, err := NewCourse(x.room, x.release)
		if err != nil {
			t.Fatal(err)
		}
		c = c.UpTo(quantity.Concentration(x.most))
		const dt = 1.0 / 20000
		air, liquid := 0.0, 0.0
		if x.release.Profile == AtOnce {
			liquid = c.full
		}
		for i := range int(10 / dt) {
			h := float64(i) * dt
			liquid += dt * c.source(h) / float64(x.room.Volume)
			air -= dt * c.n * air
			up := min(liquid, x.most-air)
			air, liquid = air+up, liquid-up
			if i%4000 == 3999 {
				if got := float64(c.At(seconds(h + dt))); math.Abs(got-air) > 2e-3*x.most {
					t.Errorf("%+v at %.2f h: %.6g, stepped %.6g", x.release, h+dt, got, air)
				}
			}
		}
	}
}

func TestAssessSaturated(t *testing.T) {
	s := Substance{Name: "spirit", MolarMass: 136.2, VapourPressure: 0.9, LowerExplosive: 0.008}
	a, err := Assess(Room{Volume: 10, AirChanges: 0.5}, Release{Profile: AtOnce, Mass: 2160}, s, OrdinaryAir, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !a.Saturated || math.Abs(float64(a.PeakPPM/a.Saturation)-1) > 1e-12 || a.EightHours > a.Peak {
		t.Errorf("peak %v ppm over saturation %v ppm", a.PeakPPM, a.Saturation)
	}
	if a.Fire.RoomShare > a.Fire.OverLiquid*(1+1e-12) {
		t.Errorf("the room holds %v of the limit, over the liquid there is %v", a.Fire.RoomShare, a.Fire.OverLiquid)
	}
	// 0.9/101.325 of the air, 136.2 g in 24.465 l: 494.5 g in 10 m³, and
	// (2160/494.5 − 1)/0.5 = 6.74 h until the rest is carried off.
	if math.Abs(float64(a.Holds)-494.5) > 0.1 || math.Abs(a.ClearsFrom.Hours()-6.74) > 0.005 {
		t.Errorf("the air holds %v until %v h", a.Holds, a.ClearsFrom.Hours())
	}
	c, err := a.Course()
	if err != nil {
		t.Fatal(err)
	}
	if top, _ := c.Peak(); top != a.Peak {
		t.Errorf("the course peaks at %v, assessed %v", top, a.Peak)
	}
	closed, err := Assess(Room{Volume: 10}, Release{Profile: AtOnce, Mass: 2160}, s, OrdinaryAir, nil)
	if err != nil || !math.IsInf(float64(closed.ClearsFrom), 1) || closed.EightHours != closed.Peak {
		t.Errorf("a closed room clears from %v, eight hours %v of %v (%v)", closed.ClearsFrom, closed.EightHours, closed.Peak, err)
	}
}
