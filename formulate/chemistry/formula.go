package chemistry

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Span is a value between two extremes.
type Span[Q quantity.Real] struct{ Low, High Q }

// An Atom is one element of a formula with how often it stands there.
type Atom struct {
	Symbol string
	Count  float64 // mostly whole; a half for hemihydrates
}

// A Formula is one substance. The zero Formula is not one; see [ParseFormula].
type Formula struct {
	text  string
	atoms []Atom // in order of first mention, without the ranged water
	// water is the bound water written as a range, dot the water written after a
	// dot with a number, both as H2O per formula unit.
	water Span[quantity.Ratio]
	dot   float64
	parts int    // between dots
	dry   string // what stands before a range of water
}

// String returns the formula as it was written.
func (f Formula) String() string { return f.text }

// Atoms lists the elements in the order they were written. Bound water written
// as a range is not among them.
func (f Formula) Atoms() []Atom { return append([]Atom(nil), f.atoms...) }

// RangedWater is the bound water of a formula that was written with a range, and
// whether it was.
func (f Formula) RangedWater() (Span[quantity.Ratio], bool) { return f.water, f.water.High > 0 }

// WithWater is the formula with n bound water in place of its range, or added to
// what it holds.
func (f Formula) WithWater(n quantity.Ratio) (Formula, error) {
	if !(n >= 0) || float64(n) > maxCount {
		return Formula{}, fmt.Errorf("bound water of %q is %g: it lies between 0 and %d", f.text, float64(n), maxCount)
	}
	out := Formula{text: f.text, atoms: f.Atoms(), dot: f.dot, parts: f.parts}
	if f.water.High > 0 {
		out.text = f.dry
		out.parts--
	}
	if n > 0 {
		out.add(waterAtoms, float64(n))
		out.dot += float64(n)
		out.parts++
		out.text += "·" + number(float64(n)) + "H2O"
	}
	return out, nil
}

var waterAtoms = []Atom{{"H", 2}, {"O", 1}}

func number(x float64) string {
	if x == 1 {
		return ""
	}
	return strconv.FormatFloat(x, 'g', -1, 64)
}

// add counts more atoms into the formula, n times.
func (f *Formula) add(atoms []Atom, n float64) {
	for _, a := range atoms {
		f.atoms = count(f.atoms, a.Symbol, n*a.Count)
	}
}

func count(atoms []Atom, symbol string, n float64) []Atom {
	for i := range atoms {
		if atoms[i].Symbol == symbol {
			atoms[i].Count += n
			return atoms
		}
	}
	return append(atoms, Atom{symbol, n})
}

// Sum is the sum formula: carbon, hydrogen, then the other elements by symbol
// (Hill 1900). Ranged water is left out.
func (f Formula) Sum() string {
	atoms := f.Atoms()
	rank := func(s string) string {
		if i := strings.Index("CH", s); i >= 0 && hasCarbon(atoms) {
			return strconv.Itoa(i)
		}
		return s
	}
	sort.Slice(atoms, func(i, j int) bool { return rank(atoms[i].Symbol) < rank(atoms[j].Symbol) })
	var b strings.Builder
	for _, a := range atoms {
		b.WriteString(a.Symbol + number(a.Count))
	}
	return b.String()
}

func hasCarbon(atoms []Atom) bool { return countOf(atoms, "C") > 0 }

func countOf(atoms []Atom, symbol string) float64 {
	for _, a := range atoms {
		if a.Symbol == symbol {
			return a.Count
		}
	}
	return 0
}

// MolarMassRelation is the mass of a mole.
var MolarMassRelation = trace.Relation{
	Name:     "molar mass",
	Equation: "M = Σ νᵢ·Aᵢ",
	Source:   "standard atomic weights 2021, abridged: Prohaska and others 2022",
}

// MolarMass is Σ νᵢ·Aᵢ, at both ends of the bound water where that is a range
// and twice the same where it is not.
func (f Formula) MolarMass() Span[quantity.MolarMass] {
	dry := molarMass(f.atoms)
	water := molarMass(waterAtoms)
	return Span[quantity.MolarMass]{
		dry + water*quantity.MolarMass(f.water.Low),
		dry + water*quantity.MolarMass(f.water.High),
	}
}

func molarMass(atoms []Atom) quantity.MolarMass {
	var m quantity.MolarMass
	for _, a := range atoms {
		m += bySymbol[a.Symbol].Weight * quantity.MolarMass(a.Count)
	}
	return m
}

// Tolerance is how far the molar mass may lie off because samples of an element
// differ: Σ νᵢ·(tolerance of Aᵢ), all to one side. For lead compounds it is half
// a per cent, for others a few parts in ten thousand.
func (f Formula) Tolerance() quantity.MolarMass {
	var t quantity.MolarMass
	for _, a := range f.atoms {
		t += bySymbol[a.Symbol].Tolerance * quantity.MolarMass(a.Count)
	}
	return t
}

// A Share is one element's part of a substance.
type Share struct {
	Element
	Count float64
	Mass  quantity.MassFraction
}

// CompositionRelation is the composition by mass.
var CompositionRelation = trace.Relation{
	Name:     "composition by mass",
	Equation: "wᵢ = νᵢ·Aᵢ/M",
	Source:   "definition",
}

// Composition is what each element weighs in the whole, in the order written.
// A formula with a range of water has no one composition: see [Formula.WithWater].
func (f Formula) Composition() ([]Share, error) {
	if _, ranged := f.RangedWater(); ranged {
		return nil, fmt.Errorf("%q has a range of bound water and so no one composition: choose how much", f.text)
	}
	m := molarMass(f.atoms)
	out := make([]Share, len(f.atoms))
	for i, a := range f.atoms {
		e := bySymbol[a.Symbol]
		out[i] = Share{*e, a.Count, quantity.MassFraction(float64(e.Weight) * a.Count / float64(m))}
	}
	return out, nil
}

// BoundWater is the share by mass of the water written after a dot, at both ends
// of a range.
func (f Formula) BoundWater() Span[quantity.MassFraction] {
	m := f.MolarMass()
	water := molarMass(waterAtoms)
	share := func(n float64, m quantity.MolarMass) quantity.MassFraction {
		return quantity.MassFraction(n * float64(water/m))
	}
	return Span[quantity.MassFraction]{
		share(f.dot+float64(f.water.Low), m.Low),
		share(f.dot+float64(f.water.High), m.High),
	}
}

// same reports whether two formulas hold the same atoms and bound water.
func (f Formula) same(g Formula) bool {
	return f.water == g.water && len(unlike(f.atoms, g.atoms)) == 0
}

// A Mismatch is an element that does not come to the same on both sides.
type Mismatch struct {
	Symbol      string
	Left, Right float64
}

// unlike lists the elements whose counts differ, by symbol.
func unlike(left, right []Atom) []Mismatch {
	var out []Mismatch
	for _, a := range left {
		out = append(out, Mismatch{a.Symbol, a.Count, countOf(right, a.Symbol)})
	}
	for _, a := range right {
		if countOf(left, a.Symbol) == 0 {
			out = append(out, Mismatch{a.Symbol, 0, a.Count})
		}
	}
	kept := out[:0]
	for _, m := range out {
		if math.Abs(m.Left-m.Right) > 1e-9*max(m.Left, m.Right) {
			kept = append(kept, m)
		}
	}
	sort.Slice(kept, func(i, j int) bool { return kept[i].Symbol < kept[j].Symbol })
	return kept
}
