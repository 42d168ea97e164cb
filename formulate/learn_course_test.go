package formulate

import (
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// The course begins with the catalogue, narrows with every test of the jar, and
// ends with what the book says; the tests' own figures stand beside it.
func TestCourseOf(t *testing.T) {
	blue, oil := ready(t, powder("blue", 2.34, 38)), ready(t, liquid("oil", material.Oil, 0.93))
	buttery, _ := absorption.NamedBody("buttery")
	rub := func(n int, lot string, v quantity.AbsorptionVolume) Trial {
		return Trial{Number: n, Lot: lot, RubOut: &OwnRubOut{Value: v, Tests: 1, Method: material.RubOut}}
	}
	batch := func(n int, lot string, oilMass quantity.Mass) Trial {
		return Trial{Number: n, Lot: lot, Batch: &Batch{Body: buttery,
			Pigments: []BatchPart{{Ingredient: blue, Mass: 100}}, Oils: []BatchPart{{Ingredient: oil, Mass: oilMass}}}}
	}
	res, err := Learn(LearnRequest{Pigment: blue, Trials: []Trial{rub(1, "A", 40), rub(2, "B", 46), batch(3, "A", 45), rub(4, "A", 41), rub(5, "A", 40.5)}})
	if err != nil {
		t.Fatal(err)
	}
	c, err := CourseOf(res)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Absorption) != 5 || len(c.Demand) != 2 {
		t.Fatalf("%d and %d lessons, want the catalogue and four rub-outs, the catalogue and one batch", len(c.Absorption), len(c.Demand))
	}
	for _, l := range [][]Lesson{c.Absorption, c.Demand} {
		if l[0].Trial != nil || l[0].Found != 0 {
			t.Errorf("the course does not begin with the catalogue: %+v", l[0])
		}
	}
	if got, want := c.Absorption[0].Believed, ByMassRange(res.Absorption.Catalogue); got != want {
		t.Errorf("the catalogue says %+v, want %+v", got, want)
	}
	if got, want := c.Absorption[4].Believed, ByMassRange(res.Absorption.Own); got != want {
		t.Errorf("the course ends at %+v, want %+v", got, want)
	}
	if got, want := c.Demand[1].Believed, ByMassRange(res.Demand.Own); got != want {
		t.Errorf("the batches end at %+v, want %+v", got, want)
	}
	width := func(l Lesson) float64 { return float64(l.Believed.High / l.Believed.Low) }
	for i := 1; i < len(c.Absorption); i++ {
		if width(c.Absorption[i]) >= width(c.Absorption[i-1]) {
			t.Errorf("test %d does not narrow: %v after %v", i, c.Absorption[i].Believed, c.Absorption[i-1].Believed)
		}
		if other := i == 2; c.Absorption[i].OtherJar != other {
			t.Errorf("test %d of another jar: %v, want %v", i, c.Absorption[i].OtherJar, other)
		}
	}
	near(t, "found", float64(c.Absorption[1].Found), float64(quantity.AbsorptionVolume(40).ByMass(quantity.ReportingOilDensity)), 1e-12)
	// 45 g of an oil of 0.93 g/ml on 100 g, at tube colour, as the reporting oil.
	near(t, "found by batch", float64(c.Demand[1].Found), 45/0.93*float64(quantity.ReportingOilDensity), 1e-9)

	res, err = Learn(LearnRequest{Pigment: blue})
	if err != nil {
		t.Fatal(err)
	}
	if c, err = CourseOf(res); err != nil || len(c.Absorption)+len(c.Demand) != 0 {
		t.Errorf("a course of no tests: %+v, %v", c, err)
	}
}
