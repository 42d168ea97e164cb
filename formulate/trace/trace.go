// Package trace records how a result was reached. A decision is a pure function
// that takes a *Tracer; with nil it only calculates, with a tracer each relation
// it uses is noted: name, equation, the numbers put in, what came out, source.
// The numbers are the ones of that one run: there is no second copy of an
// equation for explaining it.
package trace

// A Relation names one published or derived equation, once, beside the function
// that computes it.
type Relation struct {
	Name     string // as the field names it
	Equation string // symbols as in the doc comment
	Source   string // author, year, clause; or "common practice"; or "definition"
}

// A Term is one symbol of an equation with the number put in.
type Term struct {
	Symbol string
	Value  float64
	Unit   string
}

// A Step is one use of a relation.
type Step struct {
	Relation Relation
	Of       string // what it was worked out for: a material, the batch
	Inputs   []Term
	Output   Term
}

// A Tracer collects steps in the order they are taken. The nil Tracer is valid
// and records nothing.
type Tracer struct{ steps []Step }

// On reports whether steps are being recorded. Call it before building terms,
// so that an untraced run allocates nothing.
func (t *Tracer) On() bool { return t != nil }

// Note records one use of a relation.
func (t *Tracer) Note(r Relation, of string, out Term, in ...Term) {
	if t == nil {
		return
	}
	t.steps = append(t.steps, Step{Relation: r, Of: of, Inputs: in, Output: out})
}

// Steps returns what was recorded.
func (t *Tracer) Steps() []Step {
	if t == nil {
		return nil
	}
	return t.steps
}

// T builds a term.
func T[Q ~float64](symbol string, value Q, unit string) Term {
	return Term{Symbol: symbol, Value: float64(value), Unit: unit}
}
