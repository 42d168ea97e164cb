package formulate

import (
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// A Lesson is what was believed of a jar after one more test of the pigment, in
// g per 100 g.
type Lesson struct {
	Trial    *Trial // nil for the catalogue, before any test
	Believed evidence.Range[quantity.Absorption]
	Found    quantity.Absorption // what that test gave, of its own jar
	OtherJar bool                // it was made of another jar than the one asked about
}

// LearnCourse is how the tests narrowed what is believed, one after another; a
// quantity of which there is no test has no lessons.
type LearnCourse struct {
	Absorption []Lesson // by rub-outs
	Demand     []Lesson // oil at tube colour, by batches
}

// CourseOf follows what was learned, test by test: the same learning run over
// the first test, the first two, and so on.
func CourseOf(res *LearnResult) (*LearnCourse, error) {
	out := &LearnCourse{}
	req := res.Request
	req.Jar, req.Mull = &res.Jar, nil
	rubOuts, batches := 0, 0
	for i := range res.Request.Trials {
		t := &res.Request.Trials[i]
		req.Trials = res.Request.Trials[:i+1]
		l, err := learnFrom(req)
		if err != nil {
			return nil, err
		}
		other := t.Lot != res.Jar
		if l.Absorption.Tests > rubOuts {
			rubOuts = l.Absorption.Tests
			out.Absorption = append(out.Absorption, Lesson{t, ByMassRange(l.Absorption.Own), t.RubOut.Value.ByMass(quantity.ReportingOilDensity), other})
		}
		if l.Demand.Tests > batches {
			batches = l.Demand.Tests
			found := TubeDemandOfBatch(t.Batch.oilVolume(), t.Batch.DryPigment(), t.Batch.Body)
			out.Demand = append(out.Demand, Lesson{t, ByMassRange(l.Demand.Own), found.ByMass(quantity.ReportingOilDensity), other})
		}
	}
	if len(out.Absorption) > 0 {
		out.Absorption = append([]Lesson{{Believed: ByMassRange(res.Absorption.Catalogue)}}, out.Absorption...)
	}
	if n := len(out.Demand); n > 0 {
		// Rub-outs made since the last batch move what it taught.
		out.Demand[n-1].Believed = ByMassRange(res.Demand.Own)
		out.Demand = append([]Lesson{{Believed: ByMassRange(res.Demand.Catalogue)}}, out.Demand...)
	}
	return out, nil
}
