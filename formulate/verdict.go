package formulate

import (
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Verdict is what a check of something uncertain comes to.
type Verdict uint8

const (
	NotKnown  Verdict = iota // a value it needs is not known
	Holds                    // over the whole range
	Undecided                // the range lies on both sides
	Fails                    // by the typical value, or over the whole range
)

var verdictNames = [...]string{"not known", "holds", "undecided", "fails"}

func (v Verdict) String() string {
	if int(v) < len(verdictNames) {
		return verdictNames[v]
	}
	return "unknown"
}

// atMost judges whether a range keeps to a limit: it holds where its high end
// does, and fails where its typical value does not.
func atMost[Q quantity.Real](r evidence.Range[Q], limit Q) Verdict {
	switch {
	case r.High <= limit:
		return Holds
	case r.Typical > limit:
		return Fails
	}
	return Undecided
}
