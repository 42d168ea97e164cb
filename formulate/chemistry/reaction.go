package chemistry

import (
	"fmt"
	"strconv"
	"strings"

	"mullwright/formulate/material"
)

const (
	maxReaction = 1000 // bytes of one reaction
	maxTerms    = 12   // substances on one side
)

// A Term is a substance of a reaction with its coefficient.
type Term struct {
	Coefficient float64
	Formula     Formula
}

func (t Term) String() string {
	if t.Coefficient == 1 && !isDigit(t.Formula.text[0]) {
		return t.Formula.text
	}
	return strconv.FormatFloat(t.Coefficient, 'g', -1, 64) + " " + t.Formula.text
}

// A Reaction is a balanced reaction.
type Reaction struct{ Reactants, Products []Term }

// String writes the reaction so that it reads back as it is.
func (r Reaction) String() string {
	side := func(terms []Term) string {
		s := make([]string, len(terms))
		for i, t := range terms {
			s[i] = t.String()
		}
		return strings.Join(s, " + ")
	}
	return side(r.Reactants) + " -> " + side(r.Products)
}

// An UnbalancedError names the elements that do not come to the same on both
// sides.
type UnbalancedError struct {
	Mismatches []Mismatch
	// Water is how much H2O more on the right would balance it (negative: on the
	// left), 0 where water alone would not.
	Water float64
}

func (e *UnbalancedError) Error() string {
	parts := make([]string, len(e.Mismatches))
	for i, m := range e.Mismatches {
		parts[i] = fmt.Sprintf("%s %g left, %g right", m.Symbol, m.Left, m.Right)
	}
	s := "the reaction is not balanced: " + strings.Join(parts, "; ")
	switch {
	case e.Water > 0:
		s += fmt.Sprintf("; %g H2O more on the right would balance it", e.Water)
	case e.Water < 0:
		s += fmt.Sprintf("; %g H2O more on the left would balance it", -e.Water)
	}
	return s
}

// arrows, longest first, so that none is read as part of another.
var arrows = []string{"-->", "->", "=>", "⟶", "→", "⇒", "="}

// ParseReaction reads a reaction and refuses one that is not balanced, with an
// [*UnbalancedError]. Bound water written as a range is left out of the balance:
// it comes from the water of the vessel.
func ParseReaction(text string) (Reaction, error) {
	if len(text) > maxReaction {
		return Reaction{}, fmt.Errorf("reaction is %d bytes long: at most %d are read", len(text), maxReaction)
	}
	plain := text
	for _, a := range arrows {
		plain = strings.ReplaceAll(plain, a, "\x00")
	}
	sides := strings.Split(plain, "\x00")
	if len(sides) != 2 || strings.ContainsAny(text, "\x00⇌") {
		return Reaction{}, fmt.Errorf("reaction %q: it needs one arrow, as in A + 2 B -> C + D", text)
	}
	var r Reaction
	var err error
	if r.Reactants, err = terms(sides[0]); err != nil {
		return Reaction{}, err
	}
	if r.Products, err = terms(sides[1]); err != nil {
		return Reaction{}, err
	}
	return r, r.balance()
}

func (r Reaction) balance() error {
	left, right := total(r.Reactants), total(r.Products)
	wrong := unlike(left, right)
	if len(wrong) == 0 {
		return nil
	}
	e := &UnbalancedError{Mismatches: wrong}
	water := countOf(left, "O") - countOf(right, "O")
	if len(unlike(plus(left, -water), right)) == 0 {
		e.Water = water
	}
	return e
}

// plus adds water to a side's atoms.
func plus(atoms []Atom, water float64) []Atom {
	f := Formula{atoms: append([]Atom(nil), atoms...)}
	f.add(waterAtoms, water)
	return f.atoms
}

func total(terms []Term) []Atom {
	var f Formula
	for _, t := range terms {
		f.add(t.Formula.atoms, t.Coefficient)
	}
	return f.atoms
}

// terms reads one side.
func terms(side string) ([]Term, error) {
	parts := strings.Split(side, "+")
	if len(parts) > maxTerms {
		return nil, fmt.Errorf("%d substances on one side of the reaction: at most %d are read", len(parts), maxTerms)
	}
	var out []Term
	for _, part := range parts {
		t, err := term(part)
		if err != nil {
			return nil, err
		}
		for _, other := range out {
			if other.Formula.same(t.Formula) {
				return nil, fmt.Errorf("%q stands twice on one side of the reaction: add the two up", t.Formula.text)
			}
		}
		out = append(out, t)
	}
	return out, nil
}

// states may follow a substance and mean nothing here.
var states = []string{"(s)", "(l)", "(g)", "(aq)"}

func term(text string) (Term, error) {
	s := strings.TrimSpace(plainer.Replace(text))
	for _, state := range states {
		s = strings.TrimSpace(strings.TrimSuffix(s, state))
	}
	if s == "" {
		return Term{}, fmt.Errorf("a substance is missing beside a + or an arrow; charges are not read, write neutral substances")
	}
	if isDigit(s[0]) {
		p := &parser{text: s}
		n, err := p.decimal()
		if err != nil {
			return Term{}, err
		}
		if n == 0 {
			return Term{}, fmt.Errorf("%q: a coefficient of 0", s)
		}
		count, rest := s[:p.pos], p.rest()
		f, err := ParseFormula(rest)
		if err != nil {
			return Term{}, err
		}
		if rest[0] != ' ' && f.parts > 1 {
			return Term{}, fmt.Errorf("%q can be read two ways: write %q for %s of the whole, or %q where the number belongs to the first part alone",
				s, count+" "+rest, count, "1 "+s)
		}
		return Term{n, f}, nil
	}
	f, err := ParseFormula(s)
	return Term{1, f}, err
}

// Classes lists the chemical traits that the formulas show, for the cautions
// that go with them: metals that are poisonous, iron cyanides, chromates, acids.
// A trait that is not listed may still be there.
func (r Reaction) Classes() []material.Class {
	found := map[material.Class]bool{}
	for _, side := range [][]Term{r.Reactants, r.Products} {
		for _, t := range side {
			for _, c := range t.Formula.Classes() {
				found[c] = true
			}
		}
	}
	var out []material.Class
	for _, c := range classOrder {
		if found[c] {
			out = append(out, c)
		}
	}
	return out
}

var classOrder = []material.Class{
	material.IronCyanide, material.Acid, material.Lead, material.Arsenic, material.Mercury, material.Cadmium,
	material.Chromate, material.Barium, material.Antimony, material.Cobalt, material.Nickel, material.Manganese, material.ReactiveCopper, material.Zinc,
}

var metalClass = map[string]material.Class{
	"Pb": material.Lead, "As": material.Arsenic, "Hg": material.Mercury, "Cd": material.Cadmium, "Ba": material.Barium,
	"Sb": material.Antimony, "Co": material.Cobalt, "Ni": material.Nickel, "Mn": material.Manganese, "Cu": material.ReactiveCopper, "Zn": material.Zinc,
}

// Classes lists the traits one formula shows. Every chromium compound with three
// oxygens or more to the chromium is taken for a chromate.
func (f Formula) Classes() []material.Class {
	n := func(symbol string) float64 { return countOf(f.atoms, symbol) }
	found := map[material.Class]bool{
		material.IronCyanide: n("Fe") > 0 && n("C") > 0 && n("N") >= n("C"),
		material.Chromate:    n("Cr") > 0 && n("O")-f.dot >= 3*n("Cr"),
		// Mineral acids are written with the hydrogen first.
		material.Acid: f.atoms[0].Symbol == "H" && (len(f.atoms) > 2 || len(f.atoms) == 2 && n("O") == 0 && n("N") == 0),
	}
	for _, a := range f.atoms {
		if c, ok := metalClass[a.Symbol]; ok {
			found[c] = true
		}
	}
	var out []material.Class
	for _, c := range classOrder {
		if found[c] {
			out = append(out, c)
		}
	}
	return out
}
