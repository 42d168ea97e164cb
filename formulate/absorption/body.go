package absorption

import (
	"fmt"
	"strings"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Body says how stiff a paste is: the pigment's share of its volume, all
// liquids included, over the critical PVC. 1 is the end point of the rub-out;
// less is softer. Without solvent it equals the reduced PVC.
type Body float64

// Lowest and highest body a maker may ask for. Above 1 the paste crumbles.
const (
	LeastBody Body = 0.05
	MostBody  Body = 1.5
)

// A Step is a body with a name, as wide as the word is.
type Step struct {
	Name               string         // empty for a bare ratio
	Low, Typical, High Body           // of pigments at large: 10th, 50th, 90th percentile
	Oil                quantity.Ratio // share of the oil of tube colour; 0 for a bare ratio
	Feel               string         // what the paste does under the knife
	Basis              string         // what the number rests on
}

// PVCAtBodyRelation is the pigment's share of the paste at a body.
var PVCAtBodyRelation = trace.Relation{
	Name:     "pigment in the paste at a body",
	Equation: "φ = b·CPVC",
	Source:   "definition of body",
}

// PVCAtBody is the pigment's share of the paste's volume at a body: b·CPVC.
func PVCAtBody(b Body, cpvc quantity.VolumeFraction) quantity.VolumeFraction {
	return quantity.VolumeFraction(b) * cpvc
}

// BodyOfRelation is the body of a paste.
var BodyOfRelation = trace.Relation{
	Name:     "body of a paste",
	Equation: "b = φ/CPVC",
	Source:   "definition",
}

// BodyOf is the body of a paste in which the pigment fills the share φ of the
// whole volume, volatiles included.
func BodyOf(phi, cpvc quantity.VolumeFraction) Body { return Body(phi / cpvc) }

// Steps lists the named bodies from stiff to flowing.
func Steps() []Step { return append([]Step(nil), steps[:]...) }

// NamedBody finds a step by its name.
func NamedBody(name string) (Step, bool) {
	for _, s := range steps {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return Step{}, false
}

// ParseBody reads the name of a step or a bare ratio.
func ParseBody(text string) (Step, error) {
	name := strings.TrimSpace(text)
	if s, ok := NamedBody(name); ok {
		return s, nil
	}
	fail := func(reason string) error {
		names := make([]string, len(steps))
		for i, s := range steps {
			names[i] = s.Name
		}
		return fmt.Errorf("%q is not a body: %s; accepted: %s, or a ratio of pigment volume fraction to critical PVC from %g to %g",
			text, reason, strings.Join(names, ", "), float64(LeastBody), float64(MostBody))
	}
	v, reason := quantity.Number(name)
	switch {
	case name == "":
		return Step{}, fail("it is empty")
	case !strings.ContainsAny(name[:1], "0123456789.,-"):
		return Step{}, fail("no step has this name")
	case reason != "":
		return Step{}, fail(reason)
	}
	b := Body(v)
	if b < LeastBody || b > MostBody {
		return Step{}, fail("the ratio is out of reach")
	}
	return Step{Low: b, Typical: b, High: b, Basis: "as asked"}, nil
}

// String prints the name, or the ratio of a bare one.
func (s Step) String() string {
	if s.Name != "" {
		return s.Name
	}
	return fmt.Sprintf("%g", float64(s.Typical))
}
