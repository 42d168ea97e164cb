package formulate

import (
	"testing"

	"mullwright/formulate/quantity"
	"mullwright/formulate/vapour"
)

// The course rises to the assessed peak and falls, never above it, and ends
// with little left unless a day was not enough.
func TestAirCourse(t *testing.T) {
	for _, r := range []vapour.Release{
		{Profile: vapour.AtOnce, Mass: 20},
		{Profile: vapour.Evenly, Mass: 20, Over: 2 * quantity.Hour},
		{Profile: vapour.FirstOrder, Mass: 20, Over: quantity.Hour},
	} {
		room := vapour.Room{Volume: 30, AirChanges: 0.5}
		a, err := vapour.Assess(room, r, vapour.Substance{Name: "spirit", MolarMass: 140}, vapour.OrdinaryAir, nil)
		if err != nil {
			t.Fatal(err)
		}
		course, err := AirCourse(&a)
		if err != nil {
			t.Fatal(err)
		}
		var most quantity.Concentration
		for i, p := range course {
			if i > 0 && p.After <= course[i-1].After {
				t.Fatalf("%s: time runs back at %v", r.Profile, p.After)
			}
			most = max(most, p.Level)
		}
		near(t, string(r.Profile)+" peak", float64(most/a.Peak), 1, 0.02)
		if most > a.Peak*(1+1e-12) {
			t.Errorf("%s: the course passes its peak, %v over %v", r.Profile, most, a.Peak)
		}
		if last := course[len(course)-1]; last.Level > a.Peak*courseEnd && last.After < 24*quantity.Hour {
			t.Errorf("%s: it ends after %v with %v left of %v", r.Profile, last.After, last.Level, a.Peak)
		}
	}
}
