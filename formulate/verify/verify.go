// Package verify runs every published check the program carries: each row names
// a relation, its inputs, the value its source gives and how far ours may lie
// from it. It also sums up how well artists' oil demand is foretold, misses
// included. It holds no equation and no data: rooms bring the relations, the
// caller the rows.
//
// A row counts as published where the value stands printed in its source; of
// one source at most [MostOfOneSource] count. Values worked out from a
// published formula, and values from memory, are run and shown apart.
package verify

import (
	"slices"
	"sort"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/absorption/refit"
	"mullwright/formulate/check"
	"mullwright/formulate/chemistry"
	"mullwright/formulate/evidence"
	"mullwright/formulate/film"
	"mullwright/formulate/gum"
	"mullwright/formulate/optics"
	"mullwright/formulate/powder"
	"mullwright/formulate/rheology"
	"mullwright/formulate/settling"
	"mullwright/formulate/vapour"
)

// MostOfOneSource is how many printed values of one source count.
const MostOfOneSource = 10

// Relations gathers the checkable relations of every room.
func Relations() []check.Relation {
	return slices.Concat(absorption.Relations(), rheology.Relations(), film.Relations(), settling.Relations(),
		vapour.Relations(), optics.Relations(), chemistry.Relations(), powder.Relations(), gum.Relations(), evidence.Relations(), formulate.Relations())
}

// Tally counts the outcomes of one basis.
type Tally struct{ Run, Within, Outside, Failed int }

// Report is every check worked through.
type Report struct {
	Outcomes []check.Outcome
	ByBasis  map[check.Basis]Tally
	// Counted is how many printed values count, at most MostOfOneSource of each
	// source, and Sources how many sources those come from.
	Counted, Sources int
	Fit              refit.Report
}

// OK reports whether every check came out within its tolerance.
func (r *Report) OK() bool {
	for _, t := range r.ByBasis {
		if t.Outside+t.Failed > 0 {
			return false
		}
	}
	return true
}

// Misses lists the outcomes outside their tolerance or not run.
func (r *Report) Misses() []check.Outcome {
	var out []check.Outcome
	for _, o := range r.Outcomes {
		if !o.Within || o.Err != nil {
			out = append(out, o)
		}
	}
	return out
}

// Run works every row and every demand through.
func Run(rows []check.Row, demand []refit.Row) *Report {
	r := &Report{Outcomes: check.Run(rows, Relations()), ByBasis: map[check.Basis]Tally{}, Fit: refit.FitReport(demand)}
	sort.SliceStable(r.Outcomes, func(i, j int) bool { return r.Outcomes[i].Row.Relation < r.Outcomes[j].Row.Relation })
	perSource := map[string]int{}
	for _, o := range r.Outcomes {
		t := r.ByBasis[o.Row.Basis]
		t.Run++
		switch {
		case o.Err != nil:
			t.Failed++
		case o.Within:
			t.Within++
			if o.Row.Basis == check.Printed {
				perSource[o.Row.Source]++
			}
		default:
			t.Outside++
		}
		r.ByBasis[o.Row.Basis] = t
	}
	for _, n := range perSource {
		r.Counted += min(n, MostOfOneSource)
	}
	r.Sources = len(perSource)
	return r
}
