package evidence

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// An Estimate is a value with its standard uncertainty and the degrees of
// freedom that uncertainty rests on.
type Estimate[Q quantity.Real] struct {
	Value Q
	U     Q       // standard uncertainty, one standard deviation
	DOF   float64 // degrees of freedom; +Inf where U is taken as known
}

// Given is an estimate whose uncertainty is taken as known.
func Given[Q quantity.Real](value, u Q) Estimate[Q] {
	return Estimate[Q]{Value: value, U: u, DOF: math.Inf(1)}
}

func (e Estimate[Q]) check() error {
	switch v, u := float64(e.Value), float64(e.U); {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return fmt.Errorf("value is not a finite number")
	case !(u >= 0) || math.IsInf(u, 1):
		return fmt.Errorf("standard uncertainty is %g: it must be finite and not negative", u)
	case !(e.DOF > 0):
		return fmt.Errorf("%g degrees of freedom: more than 0 are needed, +Inf for a known uncertainty", e.DOF)
	}
	return nil
}

// Expanded is the half-width of the interval that holds the value with a
// confidence: t(p, ν)·u. JCGM 100:2008, G.4.
func (e Estimate[Q]) Expanded(confidence Probability) (Q, error) {
	if err := e.check(); err != nil {
		return 0, err
	}
	t, err := Student(confidence, e.DOF)
	return Q(t * float64(e.U)), err
}

// Standard uncertainties of what is known only by its limits ±a.
// JCGM 100:2008, clauses 4.3.7 and 4.3.9.
var (
	RectangularRelation = trace.Relation{Name: "anywhere within limits", Equation: "u = a/√3", Source: "JCGM 100:2008, clause 4.3.7"}
	TriangularRelation  = trace.Relation{Name: "likelier in the middle of limits", Equation: "u = a/√6", Source: "JCGM 100:2008, clause 4.3.9"}
	ArcsineRelation     = trace.Relation{Name: "swinging between limits", Equation: "u = a/√2", Source: "JCGM 101:2008, clause 6.4.6"}
)

// Rectangular is a/√3: anywhere within ±a, as the last digit of a balance.
func Rectangular[Q quantity.Real](a Q) Q { return Q(float64(a) / math.Sqrt(3)) }

// Triangular is a/√6: the middle of ±a is likelier, as the mark of a flask.
func Triangular[Q quantity.Real](a Q) Q { return Q(float64(a) / math.Sqrt(6)) }

// Arcsine is a/√2: swinging between −a and a, as a thermostat.
func Arcsine[Q quantity.Real](a Q) Q { return Q(float64(a) / math.Sqrt2) }

// RootSumRelation is the uncertainty of a sum of independent parts.
var RootSumRelation = trace.Relation{
	Name:     "uncertainty of a sum",
	Equation: "u² = Σuᵢ²",
	Source:   "JCGM 100:2008, clause 5.1.2",
}

// RootSum is the uncertainty of a sum or difference of independent parts.
func RootSum[Q quantity.Real](u ...Q) Q {
	var squares float64
	for _, x := range u {
		squares += float64(x) * float64(x)
	}
	return Q(math.Sqrt(squares))
}

// WelchSatterthwaiteRelation is the degrees of freedom of a combination.
var WelchSatterthwaiteRelation = trace.Relation{
	Name:     "effective degrees of freedom, Welch–Satterthwaite",
	Equation: "ν = u⁴/Σ(uᵢ⁴/νᵢ), u² = Σuᵢ²",
	Source:   "JCGM 100:2008, G.4.1",
}

// WelchSatterthwaite is the effective degrees of freedom of independent parts
// uᵢ (already multiplied by their sensitivities) with νᵢ each. It is not
// rounded; tables are entered with the whole number below.
// JCGM 100:2008, G.4.1.
func WelchSatterthwaite[Q quantity.Real](parts []Estimate[Q]) (float64, error) {
	var u2, sum float64
	for i, p := range parts {
		if err := p.check(); err != nil {
			return 0, fmt.Errorf("part %d: %w", i+1, err)
		}
		square := float64(p.U) * float64(p.U)
		u2 += square
		sum += square * square / p.DOF
	}
	if sum == 0 {
		return math.Inf(1), nil
	}
	return u2 * u2 / sum, nil
}

// An Input is one quantity of a propagation, in whatever unit the model takes
// it: only inside a propagation are values bare numbers.
type Input struct {
	Name string
	Estimate[float64]
}

// In names an estimate as an input.
func In[Q quantity.Real](name string, e Estimate[Q]) Input {
	return Input{Name: name, Estimate: Estimate[float64]{Value: float64(e.Value), U: float64(e.U), DOF: e.DOF}}
}

// A Combined is a result with the uncertainty its inputs give it.
type Combined struct {
	Estimate[float64]
	// Parts is each input's own share |∂f/∂x|·u(x), in the result's unit and the
	// inputs' order. Their squares sum to U² where inputs are independent.
	Parts []float64
	// Higher is the uncertainty with the second-order terms. Where it differs
	// from U by more than a little the model is not straight over the spread of
	// its inputs and draws are the better way. Only [Propagate] sets it.
	Higher float64
}

// A Factor is an input of a product with its power.
type Factor struct {
	Input
	Power float64
}

// ProductRelation is the relative uncertainty of a product.
var ProductRelation = trace.Relation{
	Name:     "uncertainty of a product",
	Equation: "y = K·Πxᵢ^pᵢ; (u(y)/y)² = Σ(pᵢ·u(xᵢ)/xᵢ)²",
	Source:   "JCGM 100:2008, clause 5.1.6",
}

// Product is K·Πxᵢ^pᵢ of independent inputs, none of them 0.
// JCGM 100:2008, clause 5.1.6.
func Product(k float64, factors ...Factor) (Combined, error) {
	y := k
	for _, f := range factors {
		if err := f.check(); err != nil {
			return Combined{}, fmt.Errorf("%s: %w", f.Name, err)
		}
		if f.Value == 0 {
			return Combined{}, fmt.Errorf("%s: a factor of 0 has no relative uncertainty", f.Name)
		}
		y *= math.Pow(f.Value, f.Power)
	}
	if math.IsNaN(y) || math.IsInf(y, 0) {
		return Combined{}, fmt.Errorf("the product is not a finite number")
	}
	parts := make([]Estimate[float64], len(factors))
	for i, f := range factors {
		parts[i] = Estimate[float64]{U: math.Abs(y * f.Power * f.U / f.Value), DOF: f.DOF}
	}
	return combine(y, parts)
}

// combine adds independent parts in square.
func combine(y float64, parts []Estimate[float64]) (Combined, error) {
	dof, err := WelchSatterthwaite(parts)
	if err != nil {
		return Combined{}, err
	}
	shares := make([]float64, len(parts))
	for i, p := range parts {
		shares[i] = p.U
	}
	return Combined{Estimate: Estimate[float64]{Value: y, U: RootSum(shares...), DOF: dof}, Parts: shares}, nil
}

// PropagateRelation is the law of propagation of uncertainty.
var PropagateRelation = trace.Relation{
	Name:     "propagation of uncertainty",
	Equation: "u² = Σ(∂f/∂xᵢ)²u²(xᵢ); second order adds Σᵢⱼ[½(∂²f/∂xᵢ∂xⱼ)² + (∂f/∂xᵢ)(∂³f/∂xᵢ∂xⱼ²)]u²(xᵢ)u²(xⱼ)",
	Source:   "JCGM 100:2008, clause 5.1.2 and its note",
}

// Propagate puts independent inputs through any smooth model and gives the
// first-order uncertainty, each input's part, and the uncertainty with the
// second-order terms of the GUM's note to 5.1.2. Derivatives are taken as
// central differences over a tenth of each standard uncertainty, in units of
// it, with the leading error removed by a second difference of half the step
// (Richardson).
func Propagate(model func(x []float64) float64, inputs ...Input) (Combined, error) {
	n := len(inputs)
	x := make([]float64, n)
	for i, in := range inputs {
		if err := in.check(); err != nil {
			return Combined{}, fmt.Errorf("%s: %w", in.Name, err)
		}
		x[i] = in.Value
	}
	at := func(shift map[int]float64) float64 {
		moved := append([]float64(nil), x...)
		for i, s := range shift {
			moved[i] += s * inputs[i].U
		}
		return model(moved)
	}
	y := model(x)
	const h = 0.1
	first := func(i int) float64 {
		d := func(h float64) float64 { return (at(map[int]float64{i: h}) - at(map[int]float64{i: -h})) / (2 * h) }
		return (4*d(h/2) - d(h)) / 3
	}
	slopes := make([]float64, n)
	parts := make([]Estimate[float64], n)
	for i, in := range inputs {
		if in.U > 0 {
			slopes[i] = first(i)
		}
		parts[i] = Estimate[float64]{U: math.Abs(slopes[i]), DOF: in.DOF}
	}
	if math.IsNaN(y) || math.IsInf(y, 0) {
		return Combined{}, fmt.Errorf("the model gives no finite number at the inputs' values")
	}
	for i, p := range parts {
		if math.IsNaN(p.U) || math.IsInf(p.U, 0) {
			return Combined{}, fmt.Errorf("the model gives no finite number near %s", inputs[i].Name)
		}
	}
	out, err := combine(y, parts)
	if err != nil {
		return Combined{}, err
	}
	higher := out.U * out.U
	for i := range inputs {
		for j := range inputs {
			if inputs[i].U == 0 || inputs[j].U == 0 {
				continue
			}
			higher += second(at, i, j)*second(at, i, j)/2 + slopes[i]*third(at, i, j)
		}
	}
	out.Higher = math.Sqrt(max(higher, 0))
	return out, nil
}

// second is ∂²f/∂xᵢ∂xⱼ in units of the inputs' uncertainties.
func second(at func(map[int]float64) float64, i, j int) float64 {
	const h = 0.1
	if i == j {
		return (at(map[int]float64{i: h}) - 2*at(nil) + at(map[int]float64{i: -h})) / (h * h)
	}
	return (at(map[int]float64{i: h, j: h}) - at(map[int]float64{i: h, j: -h}) -
		at(map[int]float64{i: -h, j: h}) + at(map[int]float64{i: -h, j: -h})) / (4 * h * h)
}

// third is ∂³f/∂xᵢ∂xⱼ² in the same units.
func third(at func(map[int]float64) float64, i, j int) float64 {
	const h = 0.1
	if i == j {
		return (at(map[int]float64{i: 2 * h}) - 2*at(map[int]float64{i: h}) +
			2*at(map[int]float64{i: -h}) - at(map[int]float64{i: -2 * h})) / (2 * h * h * h)
	}
	bend := func(s float64) float64 {
		return (at(map[int]float64{i: s, j: h}) - 2*at(map[int]float64{i: s}) + at(map[int]float64{i: s, j: -h})) / (h * h)
	}
	return (bend(h) - bend(-h)) / (2 * h)
}
