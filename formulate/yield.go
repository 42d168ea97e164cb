package formulate

import (
	"errors"
	"math"
	"strings"

	"mullwright/formulate/chemistry"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// YieldRequest is a preparation as its maker wrote and weighed it. It checks
// weighings; it is no procedure.
type YieldRequest struct {
	Reaction chemistry.Reaction
	Weighed  []chemistry.Weighed
	Product  string                         // which product is the pigment
	Water    chemistry.Span[quantity.Ratio] // bound water of it; zero: what its formula says
	// Looked is set where Water was looked up in the catalogue's formula of Pigment.
	Looked bool
	// Hydrates are pigments of the catalogue that are the product with bound water,
	// where nothing was said of it.
	Hydrates []Hydrate
	Got      quantity.Mass // what came out; 0: not weighed yet
	Scale    quantity.Mass // one division of the balance
	Rinse    Rinse
	Pigment  *material.Material // what the catalogue calls it; nil where not said
}

// A Hydrate is a pigment of the catalogue that holds bound water.
type Hydrate struct {
	Material *material.Material
	Water    chemistry.Span[quantity.Ratio]
}

// BoundWaterOf is the bound water that a material's formula has over that of a
// product, in molecules; false where it has none, or is another substance. A
// formula of the catalogue may hold several, with "or" between them.
func BoundWaterOf(m *material.Material, product chemistry.Formula) (chemistry.Span[quantity.Ratio], bool) {
	for _, text := range strings.Split(m.Formula, " or ") {
		text, _, _ = strings.Cut(text, ",")
		f, err := chemistry.ParseFormula(strings.TrimSpace(text))
		if err != nil {
			continue // written for readers
		}
		if water, ok := f.WaterOver(product); ok {
			return water, true
		}
	}
	return chemistry.Span[quantity.Ratio]{}, false
}

// Rinse is the washing of the precipitate; the zero value is none told.
type Rinse struct {
	Times  int             // 0 where only the number for Target is asked
	Water  quantity.Volume // of one rinse
	Held   quantity.Volume // liquid that stays behind in the powder each time
	Target quantity.MassFraction
}

// Jar is what the jar can hold of the pigment, were nothing lost on the way.
type Jar struct {
	Pigment chemistry.Span[quantity.Mass]
	Share   chemistry.Span[quantity.MassFraction]
	// Moisture is the rest of the jar as a mull takes it: least where the pigment
	// holds all the bound water it may, most where it holds least.
	Moisture chemistry.Span[quantity.MassFraction]
}

// Rinsed is what rinsing leaves.
type Rinsed struct {
	Left quantity.MassFraction // of what was dissolved
	// Dissolved is what there is to wash out: the salts that formed and what was
	// given in excess, gases and water left out.
	Dissolved []chemistry.ByProduct
	Salts     quantity.Mass         // left in the powder
	InPowder  quantity.MassFraction // of salts and dry pigment together
	Needed    int                   // rinses for the target; 0: none asked
}

// YieldResult is the answer to a yield.
type YieldResult struct {
	Request YieldRequest
	Atoms   []chemistry.Atom // of either side
	Theory  chemistry.Theory
	Finding *chemistry.Finding // nil where nothing was weighed yet
	Jar     *Jar               // nil where the weighing does not tell
	// Doubt is the standard uncertainty of what was weighed beside the theory:
	// the balance's division and the atomic weights.
	Doubt quantity.Mass
	// Blurred is set where the verdict hangs on less than two such uncertainties.
	Blurred  bool
	Rinsed   *Rinsed
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// saltsRelation is what dissolved salts a powder keeps.
var saltsRelation = trace.Relation{Name: "salts left in the powder", Equation: "m = w·(Σ m(dissolved))", Source: "conservation of mass, all of it dissolved"}

// moistureOfJar is what a mull is told of a jar.
var moistureOfJar = trace.Relation{Name: "what is not pigment", Equation: "h = 1 − w(pigment)", Source: "definition"}

// Yield sets what was weighed beside what can form.
func Yield(req YieldRequest) (*YieldResult, error) {
	if err := req.validate(); err != nil {
		return nil, err
	}
	var tr trace.Tracer
	res := &YieldResult{Request: req, Atoms: req.atoms()}
	var err error
	if res.Theory, err = req.Reaction.Theory(req.Weighed, req.Product, req.Water, &tr); err != nil {
		return nil, err
	}
	if req.Got > 0 {
		if err := res.judge(&tr); err != nil {
			return nil, err
		}
	}
	if req.Rinse != (Rinse{}) {
		if err := res.rinse(&tr); err != nil {
			return nil, err
		}
	}
	res.Cautions = routeCautions(&req)
	res.Warnings = res.warnings()
	res.Steps = tr.Steps()
	return res, nil
}

// atoms counts one side of the balanced reaction.
func (r *YieldRequest) atoms() []chemistry.Atom {
	var out []chemistry.Atom
	at := map[string]int{}
	for _, t := range r.Reaction.Reactants {
		for _, a := range t.Formula.Atoms() {
			i, ok := at[a.Symbol]
			if !ok {
				i = len(out)
				at[a.Symbol] = i
				out = append(out, chemistry.Atom{Symbol: a.Symbol})
			}
			out[i].Count += t.Coefficient * a.Count
		}
	}
	return out
}

func (res *YieldResult) judge(tr *trace.Tracer) error {
	got, theory := res.Request.Got, &res.Theory
	f, err := theory.Judge(got)
	if err != nil {
		return err
	}
	res.Finding = &f
	tr.Note(chemistry.YieldRelation, theory.Product, trace.T("y", f.Yield.High, ""), trace.T("m", got, "g"), trace.T("m(theory)", theory.Mass.Low, "g"))
	res.Doubt = res.doubt()
	for _, edge := range []quantity.Mass{theory.Mass.Low, theory.Mass.High} {
		if math.Abs(float64(got-edge)) < 2*float64(res.Doubt) {
			res.Blurred = true
		}
	}
	if f.Product == nil {
		return nil
	}
	w := *f.Product
	res.Jar = &Jar{
		Pigment:  chemistry.Span[quantity.Mass]{Low: got * quantity.Mass(w.Low), High: got * quantity.Mass(w.High)},
		Share:    w,
		Moisture: chemistry.Span[quantity.MassFraction]{Low: 1 - w.High, High: 1 - w.Low},
	}
	tr.Note(chemistry.ProductShareRelation, theory.Product, trace.T("w", w.Low, ""), trace.T("m(theory)", theory.Mass.Low, "g"), trace.T("m", got, "g"))
	tr.Note(moistureOfJar, theory.Product, trace.T("h", res.Jar.Moisture.High, ""), trace.T("w", w.Low, ""))
	return nil
}

// doubt is how far what was weighed may lie from what the theory makes of what
// was weighed in, by the balance (two readings of half a division) and by the
// atomic weights, which is the half-width of a rectangle.
func (res *YieldResult) doubt() quantity.Mass {
	half := evidence.Rectangular(res.Request.Scale / 2)
	weighing := evidence.RootSum(half, half)
	var limiting quantity.Mass
	for _, u := range res.Theory.Used {
		if u.Substance == res.Theory.Limiting {
			limiting = u.Given
		}
	}
	scaled := weighing * res.Theory.Mass.High / limiting
	return evidence.RootSum(weighing, scaled, evidence.Rectangular(res.Theory.Tolerance))
}

// gases and water are not salts to be washed out.
var notSalts = map[string]bool{"H2O": true, "CO2": true, "H2": true, "O2": true, "N2": true, "NH3": true, "H2S": true}

func (res *YieldResult) rinse(tr *trace.Tracer) error {
	r := res.Request.Rinse
	out := Rinsed{}
	var err error
	if out.Left, err = chemistry.SaltsLeft(r.Times, r.Water, r.Held); err != nil {
		return err
	}
	tr.Note(chemistry.SaltsLeftRelation, "rinsing", trace.T("w", out.Left, ""), trace.T("r", r.Held, "ml"), trace.T("v", r.Water, "ml"), trace.T("n", float64(r.Times), ""))
	var dissolved quantity.Mass
	for _, b := range res.Theory.ByProducts {
		if !notSalts[b.Substance] {
			out.Dissolved = append(out.Dissolved, b)
			dissolved += b.Mass
		}
	}
	for _, u := range res.Theory.Used {
		if u.Excess > leastExcess && !notSalts[u.Substance] {
			out.Dissolved = append(out.Dissolved, chemistry.ByProduct{Substance: u.Substance, Mass: u.Left})
			dissolved += u.Left
		}
	}
	out.Salts = dissolved * quantity.Mass(out.Left)
	out.InPowder = quantity.MassFraction(out.Salts / (out.Salts + res.Theory.Mass.Low))
	tr.Note(saltsRelation, "rinsing", trace.T("m", out.Salts, "g"), trace.T("w", out.Left, ""), trace.T("Σ m(dissolved)", dissolved, "g"))
	if r.Target > 0 {
		if out.Needed, err = chemistry.RinsesFor(r.Target, r.Water, r.Held); err != nil {
			return err
		}
		tr.Note(chemistry.RinsesForRelation, "rinsing", trace.T("n", float64(out.Needed), ""), trace.T("w", r.Target, ""), trace.T("r", r.Held, "ml"), trace.T("v", r.Water, "ml"))
	}
	res.Rinsed = &out
	return nil
}

// leastExcess is the excess from which a reactant is called given in excess.
const leastExcess quantity.Ratio = 1e-6

func (res *YieldResult) warnings() []string {
	var out []string
	if len(res.Theory.Unweighed) > 0 {
		out = append(out, "what was not weighed is taken as there in plenty; if it ran short, less could form")
	}
	if res.Finding != nil && res.Finding.Verdict == chemistry.Less {
		out = append(out, "a yield below theory does not prove the powder pure: salts and water can stand in for pigment that was lost; dry it until its weight stays, rinse, and weigh again")
	}
	if res.Jar != nil {
		out = append(out, "the share of pigment is the most there can be: whatever was lost in pouring and filtering makes it less")
	}
	if res.Blurred {
		out = append(out, say("what was weighed lies within twice %.2g g of an end of the theory, which is what balance and atomic weights leave open: the verdict could be the other one", float64(res.Doubt)))
	}
	if res.Rinsed != nil {
		out = append(out, "rinsing is reckoned for salts that are dissolved and mixed in fully each time; what clings to the grains stays longer, so judge by a test of the wash water too")
	}
	return out
}

func (r *YieldRequest) validate() error {
	switch {
	case len(r.Reaction.Reactants) == 0 || len(r.Reaction.Products) == 0:
		return errors.New("no reaction given")
	case negative(r.Got) || negative(r.Scale):
		return errors.New("what was weighed and the balance's division must not be negative")
	case r.Rinse != (Rinse{}) && (negative(r.Rinse.Target) || r.Rinse.Target >= 1):
		return errors.New("the share of salts to be left is above 0 and below 100 %")
	}
	return nil
}

// FormulaResult is what one formula says of itself.
type FormulaResult struct {
	Formula   chemistry.Formula
	MolarMass chemistry.Span[quantity.MolarMass]
	Tolerance quantity.MolarMass
	Water     chemistry.Span[quantity.MassFraction]
	// Ends are the compositions at both ends of the bound water, one where it is
	// not a range.
	Ends     []Composition
	Cautions []Caution
	Steps    []trace.Step
}

// Composition is a formula without a range and what its elements weigh in it.
type Composition struct {
	Formula string
	Shares  []chemistry.Share
}

// OfFormula works out a formula alone.
func OfFormula(f chemistry.Formula) (*FormulaResult, error) {
	res := &FormulaResult{Formula: f, MolarMass: f.MolarMass(), Tolerance: f.Tolerance(), Water: f.BoundWater()}
	ends := []chemistry.Formula{f}
	if water, ranged := f.RangedWater(); ranged {
		ends = nil
		for _, n := range []quantity.Ratio{water.Low, water.High} {
			end, err := f.WithWater(n)
			if err != nil {
				return nil, err
			}
			ends = append(ends, end)
		}
	}
	var tr trace.Tracer
	for _, end := range ends {
		shares, err := end.Composition()
		if err != nil {
			return nil, err
		}
		res.Ends = append(res.Ends, Composition{end.String(), shares})
		m := end.MolarMass().Low
		tr.Note(chemistry.MolarMassRelation, end.String(), trace.T("M", m, "g/mol"))
		for _, s := range shares {
			tr.Note(chemistry.CompositionRelation, s.Name, trace.T("w", s.Mass, ""), trace.T("ν", s.Count, ""), trace.T("A", s.Weight, "g/mol"), trace.T("M", m, "g/mol"))
		}
	}
	res.Cautions = substanceCautions([]chemistry.Term{{Coefficient: 1, Formula: f}})
	res.Steps = tr.Steps()
	return res, nil
}
