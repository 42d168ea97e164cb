package chemistry

import (
	"fmt"
	"math"
	"strings"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// An Amount is an amount of substance, in mol.
type Amount float64

// A Weighed is a reactant as it was weighed.
type Weighed struct {
	Substance string // its formula, as in the reaction
	Mass      quantity.Mass
	Purity    quantity.MassFraction // 1 for the pure substance
}

// A Use is what became of one reactant.
type Use struct {
	Substance string
	Given     quantity.Mass // of the pure substance
	Amount    Amount        // the same in mol
	Needed    quantity.Mass // by the limiting reactant
	Left      quantity.Mass
	Excess    quantity.Ratio // Given/Needed − 1
}

// A ByProduct is what else the reaction makes: salts to be washed out, gas, water.
type ByProduct struct {
	Substance string
	Mass      quantity.Mass
}

// A Theory is the most a reaction can give from what was weighed.
type Theory struct {
	Limiting  string
	Used      []Use    // the reactants weighed, in the reaction's order
	Unweighed []string // reactants taken as present in excess
	Product   string
	Amount    Amount // of the product
	Water     Span[quantity.Ratio]
	Mass      Span[quantity.Mass] // of the product, at both ends of its bound water
	// Tolerance is the part of Mass that atomic weights leave open.
	Tolerance  quantity.Mass
	ByProducts []ByProduct
}

// LimitingRelation is the reactant that runs out first.
var LimitingRelation = trace.Relation{
	Name:     "limiting reactant",
	Equation: "ξ = least of mᵢ/(νᵢ·Mᵢ)",
	Source:   "definition",
}

// TheoreticalMassRelation is the most that can form.
var TheoreticalMassRelation = trace.Relation{
	Name:     "theoretical mass",
	Equation: "m = ξ·ν·(M + n·M(H2O))",
	Source:   "definition",
}

// Theory works out the limiting reactant and what can form of one product. A
// reactant that is not among the weighed is taken as there in excess. The
// product carries between water.Low and water.High molecules of bound water; {0,
// 0} keeps to what its formula says.
func (r Reaction) Theory(weighed []Weighed, product string, water Span[quantity.Ratio], tr *trace.Tracer) (Theory, error) {
	made, err := find(r.Products, product, "product")
	if err != nil {
		return Theory{}, err
	}
	if err := checkWater(made.Formula, &water); err != nil {
		return Theory{}, err
	}
	amounts, err := r.amounts(weighed)
	if err != nil {
		return Theory{}, err
	}
	t := Theory{Product: made.Formula.text, Water: water}
	extent := math.Inf(1)
	for i, term := range r.Reactants {
		a, ok := amounts[i]
		if !ok {
			t.Unweighed = append(t.Unweighed, term.Formula.text)
			continue
		}
		if turns := float64(a) / term.Coefficient; turns < extent {
			extent, t.Limiting = turns, term.Formula.text
		}
	}
	for i, term := range r.Reactants {
		a, ok := amounts[i]
		if !ok {
			continue
		}
		m := float64(term.Formula.MolarMass().Low)
		u := Use{
			Substance: term.Formula.text, Amount: a,
			Given:  quantity.Mass(float64(a) * m),
			Needed: quantity.Mass(extent * term.Coefficient * m),
		}
		u.Left = max(0, u.Given-u.Needed)
		u.Excess = quantity.Ratio(max(0, float64(a)/(extent*term.Coefficient)-1))
		t.Used = append(t.Used, u)
	}
	t.Amount = Amount(extent * made.Coefficient)
	t.Mass = massWithWater(made.Formula, t.Amount, water)
	t.Tolerance = quantity.Mass(float64(t.Amount) * float64(made.Formula.Tolerance()))
	for _, term := range r.Products {
		if !term.Formula.same(made.Formula) {
			m := quantity.Mass(extent * term.Coefficient * float64(term.Formula.MolarMass().Low))
			t.ByProducts = append(t.ByProducts, ByProduct{term.Formula.text, m})
		}
	}
	t.note(extent, made, tr)
	return t, nil
}

func (t *Theory) note(extent float64, made Term, tr *trace.Tracer) {
	if !tr.On() {
		return
	}
	var in []trace.Term
	for _, u := range t.Used {
		in = append(in, trace.T("m "+u.Substance, u.Given, "g"), trace.T("m/M "+u.Substance, u.Amount, "mol"))
	}
	tr.Note(LimitingRelation, t.Limiting, trace.T("ξ", extent, "mol"), in...)
	m := made.Formula.MolarMass().Low
	tr.Note(MolarMassRelation, t.Product, trace.T("M", m, "g/mol"))
	for _, end := range []struct {
		n quantity.Ratio
		m quantity.Mass
	}{{t.Water.Low, t.Mass.Low}, {t.Water.High, t.Mass.High}} {
		tr.Note(TheoreticalMassRelation, t.Product, trace.T("m", end.m, "g"),
			trace.T("ξ", extent, "mol"), trace.T("ν", made.Coefficient, ""), trace.T("M", molarMass(made.Formula.atoms), "g/mol"), trace.T("n", end.n, ""))
	}
}

func massWithWater(f Formula, a Amount, water Span[quantity.Ratio]) Span[quantity.Mass] {
	dry, w := molarMass(f.atoms), molarMass(waterAtoms)
	mass := func(n quantity.Ratio) quantity.Mass {
		return quantity.Mass(float64(a) * (float64(dry) + float64(w)*float64(n)))
	}
	return Span[quantity.Mass]{Low: mass(water.Low), High: mass(water.High)}
}

// checkWater settles the range of bound water between the formula's and the
// caller's.
func checkWater(f Formula, water *Span[quantity.Ratio]) error {
	if own, ranged := f.RangedWater(); ranged {
		if water.High != 0 {
			return fmt.Errorf("%q has a range of bound water of its own: give no other", f.text)
		}
		*water = own
	}
	if !(water.Low >= 0) || !(water.High >= water.Low) || float64(water.High) > maxCount {
		return fmt.Errorf("bound water from %g to %g: the range must rise and lie between 0 and %d", float64(water.Low), float64(water.High), maxCount)
	}
	return nil
}

// find is the term of a side that is the substance written.
func find(side []Term, formula, what string) (Term, error) {
	f, err := ParseFormula(formula)
	if err != nil {
		return Term{}, err
	}
	names := make([]string, len(side))
	for i, t := range side {
		if t.Formula.same(f) {
			return t, nil
		}
		names[i] = t.Formula.text
	}
	return Term{}, fmt.Errorf("%q is not a %s of the reaction; accepted: %s", formula, what, strings.Join(names, ", "))
}

// amounts gives the amount of each reactant weighed, by its place.
func (r Reaction) amounts(weighed []Weighed) (map[int]Amount, error) {
	if len(weighed) == 0 {
		return nil, fmt.Errorf("no reactant was weighed: at least one is needed")
	}
	out := map[int]Amount{}
	for _, w := range weighed {
		term, err := find(r.Reactants, w.Substance, "reactant")
		if err != nil {
			return nil, err
		}
		switch m, p := float64(w.Mass), float64(w.Purity); {
		case !(m > 0) || math.IsInf(m, 1):
			return nil, fmt.Errorf("mass of %q is %g g: it must be positive and finite", w.Substance, m)
		case !(p > 0 && p <= 1):
			return nil, fmt.Errorf("purity of %q is %g: it lies above 0 and is at most 1", w.Substance, p)
		}
		if _, ranged := term.Formula.RangedWater(); ranged {
			return nil, fmt.Errorf("%q was weighed with a range of bound water: give one number", w.Substance)
		}
		for i := range r.Reactants {
			if r.Reactants[i].Formula.same(term.Formula) {
				out[i] += Amount(float64(w.Mass) * float64(w.Purity) / float64(term.Formula.MolarMass().Low))
			}
		}
	}
	return out, nil
}

// A Verdict says what a weighing beside the theory means.
type Verdict string

const (
	// Less than theory: losses, or a reaction that did not run to its end. Salts
	// and water may still be in it.
	Less Verdict = "no more than the dry product could weigh"
	// Hydrate: more than the dry product, no more than the wettest hydrate.
	Hydrate Verdict = "more than the dry product, no more than its bound water explains"
	// More than theory: a finding, not a success.
	More Verdict = "more than theory: the difference is water or salts"
)

// A Finding is a weighed product beside the theory.
type Finding struct {
	Verdict Verdict
	Yield   Span[quantity.Ratio] // weighed over theory, at the wettest and the driest
	// Foreign is what in the jar cannot be the product, at the wettest and the
	// driest, were nothing lost.
	Foreign Span[quantity.Mass]
	// Product is the product's share of the jar at the driest and the wettest, were
	// nothing lost; what was lost makes it less. Nil where the weighing alone does
	// not tell, which is when it is below theory.
	Product *Span[quantity.MassFraction]
}

// YieldRelation is the yield of a preparation.
var YieldRelation = trace.Relation{
	Name:     "yield",
	Equation: "y = m/m(theory)",
	Source:   "definition",
}

// ProductShareRelation is how much of the jar is product.
var ProductShareRelation = trace.Relation{
	Name:     "share of product in what was weighed",
	Equation: "w = least of 1 and m(theory)/m",
	Source:   "conservation of mass, nothing lost",
}

// Judge sets what was weighed beside the theory.
func (t Theory) Judge(got quantity.Mass) (Finding, error) {
	g := float64(got)
	if !(g > 0) || math.IsInf(g, 1) {
		return Finding{}, fmt.Errorf("mass of the product is %g g: it must be positive and finite", g)
	}
	f := Finding{
		Yield:   Span[quantity.Ratio]{Low: quantity.Ratio(got / t.Mass.High), High: quantity.Ratio(got / t.Mass.Low)},
		Foreign: Span[quantity.Mass]{Low: max(0, got-t.Mass.High), High: max(0, got-t.Mass.Low)},
	}
	switch {
	case got <= t.Mass.Low:
		f.Verdict = Less
		return f, nil
	case got <= t.Mass.High:
		f.Verdict = Hydrate
	default:
		f.Verdict = More
	}
	f.Product = &Span[quantity.MassFraction]{
		Low:  quantity.MassFraction(t.Mass.Low / got),
		High: quantity.MassFraction(min(1, float64(t.Mass.High/got))),
	}
	return f, nil
}
