package formulate

import (
	"mullwright/formulate/quantity"
	"mullwright/formulate/vapour"
)

// AirPoint is the vapour in a room at one moment.
type AirPoint struct {
	After quantity.Duration
	Level quantity.Concentration
}

const (
	// An air course is followed until a tenth of its peak is left, a day at most,
	// in so many even steps.
	courseEnd   = 0.1
	coursePoint = 96
)

// AirCourse follows what an assessed solvent does to the room's air.
func AirCourse(a *vapour.Assessment) ([]AirPoint, error) {
	c, err := a.Course()
	if err != nil {
		return nil, err
	}
	end := quantity.Hour
	for ; end < quantity.Day; end *= 2 {
		if end > a.PeakAt && c.At(end) < a.Peak*courseEnd {
			break
		}
	}
	out := make([]AirPoint, coursePoint+1)
	for i := range out {
		t := end * quantity.Duration(i) / coursePoint
		out[i] = AirPoint{t, c.At(t)}
	}
	return out, nil
}
