package settling

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Drag gives the drag coefficient of a sphere at a Reynolds number.
type Drag func(re quantity.Ratio) quantity.Ratio

// DragLimit is the Reynolds number up to which the fitted curves hold.
const DragLimit quantity.Ratio = 2e5

// StokesDragRelation is the drag of creeping flow.
var StokesDragRelation = trace.Relation{
	Name:     "drag coefficient, Stokes",
	Equation: "C = 24/Re",
	Source:   "Stokes 1851",
}

// StokesDrag is 24/Re, for Re under about 0.3.
func StokesDrag(re quantity.Ratio) quantity.Ratio { return 24 / re }

// CliftRelation is the standard drag curve.
var CliftRelation = trace.Relation{
	Name:     "drag coefficient, standard curve of Clift, Grace and Weber",
	Equation: "C = 24/Re·(1 + 0.1315·Re^(0.82 − 0.05·w)) for 0.01 < Re ≤ 20, 24/Re·(1 + 0.1935·Re^0.6305) to 260, then log C a polynomial in w = log Re",
	Source:   "Clift, Grace and Weber, Bubbles, Drops, and Particles (1978) 112, as in Bell and others, fluids library",
}

// Clift is the standard drag curve, piece by piece, for Re up to 2·10⁵. The
// pieces meet within a fraction of a per cent.
func Clift(re quantity.Ratio) quantity.Ratio {
	r := float64(re)
	w := math.Log10(r)
	switch {
	case r <= 0.01:
		return quantity.Ratio(24/r + 3.0/16)
	case r <= 20:
		return quantity.Ratio(24 / r * (1 + 0.1315*math.Pow(r, 0.82-0.05*w)))
	case r <= 260:
		return quantity.Ratio(24 / r * (1 + 0.1935*math.Pow(r, 0.6305)))
	case r <= 1500:
		return quantity.Ratio(math.Pow(10, 1.6435-1.1242*w+0.1558*w*w))
	case r <= 12000:
		return quantity.Ratio(math.Pow(10, -2.4571+2.5558*w-0.9295*w*w+0.1049*w*w*w))
	case r <= 44000:
		return quantity.Ratio(math.Pow(10, -1.9181+0.6370*w-0.0636*w*w))
	}
	return quantity.Ratio(math.Pow(10, -4.3390+1.5809*w-0.1546*w*w))
}

// HaiderLevenspielRelation is a drag curve.
var HaiderLevenspielRelation = trace.Relation{
	Name:     "drag coefficient, Haider and Levenspiel",
	Equation: "C = 24/Re·(1 + 0.1806·Re^0.6459) + 0.4251/(1 + 6880.95/Re)",
	Source:   "Haider and Levenspiel, Powder Technology 58 (1989) 63, as in Bell and others, fluids library",
}

// HaiderLevenspiel is one smooth curve for Re up to 2·10⁵. It runs into 24/Re,
// but between Re 0.01 and 10 it lies up to 5 % above the standard curve.
func HaiderLevenspiel(re quantity.Ratio) quantity.Ratio {
	r := float64(re)
	return quantity.Ratio(24/r*(1+0.1806*math.Pow(r, 0.6459)) + 0.4251/(1+6880.95/r))
}

// KhanRichardsonRelation is a drag curve.
var KhanRichardsonRelation = trace.Relation{
	Name:     "drag coefficient, Khan and Richardson",
	Equation: "C = (2.49·Re^−0.328 + 0.34·Re^0.067)^3.18",
	Source:   "Khan and Richardson, Chem. Eng. Commun. 62 (1987) 135, as in Bell and others, fluids library",
}

// KhanRichardson is a curve for Re from about 0.01 to 2·10⁵. It does not run
// into 24/Re: use it for sand, not for pigment.
func KhanRichardson(re quantity.Ratio) quantity.Ratio {
	r := float64(re)
	return quantity.Ratio(math.Pow(2.49*math.Pow(r, -0.328)+0.34*math.Pow(r, 0.067), 3.18))
}

// IntermediateDragRelation is a drag curve for the range above Stokes' law.
var IntermediateDragRelation = trace.Relation{
	Name:     "drag coefficient, intermediate range",
	Equation: "C = 24/Re·(1 + 0.14·Re^0.7)",
	Source:   "Cutlip and others, ASEE problem set, problem 5",
}

// IntermediateDrag is a curve for Re from 0.1 to 1000.
func IntermediateDrag(re quantity.Ratio) quantity.Ratio {
	r := float64(re)
	return quantity.Ratio(24 / r * (1 + 0.14*math.Pow(r, 0.7)))
}

// A Fall is a grain at its steady speed.
type Fall struct {
	Speed    quantity.Speed // negative when the grain rises
	Reynolds quantity.Ratio
	Drag     quantity.Ratio // coefficient
}

// Creeping reports whether Stokes' law holds to 5 %.
func (f Fall) Creeping() bool { return f.Reynolds <= StokesLimit }

// TerminalRelation is the balance of weight and drag.
var TerminalRelation = trace.Relation{
	Name:     "terminal speed",
	Equation: "v² = 4·g·d·(ρp − ρ)/(3·C(Re)·ρ), Re = ρ·v·d/µ",
	Source:   "balance of weight, buoyancy and drag; Bell and others, fluids library, drag",
}

// Terminal is the steady fall of a sphere in gravity, with the standard drag
// curve.
func Terminal(g Grain, l Liquid) (Fall, error) {
	return TerminalIn(Gravity, g, l, Clift)
}

// TerminalIn is the steady fall in a field of so many times gravity with a drag
// curve of choice. A curve is used beyond its range up to [DragLimit], where an
// error is returned.
func TerminalIn(field quantity.Ratio, g Grain, l Liquid, drag Drag) (Fall, error) {
	if err := g.check(); err != nil {
		return Fall{}, err
	}
	if err := l.check(); err != nil {
		return Fall{}, err
	}
	if err := positive("field", float64(field), "times gravity"); err != nil {
		return Fall{}, err
	}
	d, rho, mu := metres(g.Size), kgPerM3(l.Density), pascalSeconds(l.Viscosity)
	excess := kgPerM3(g.Density) - rho
	if excess == 0 {
		return Fall{}, nil
	}
	// C·Re² depends on the case alone; the wanted Re is where the curve meets it.
	want := 4 * float64(field) * quantity.StandardGravity * d * d * d * rho * math.Abs(excess) / (3 * mu * mu)
	re, err := meet(want, want/24, 2, drag)
	if err != nil {
		return Fall{}, err
	}
	v := math.Copysign(float64(re)*mu/(rho*d), excess)
	return Fall{Speed: quantity.Speed(v), Reynolds: re, Drag: drag(re)}, nil
}

// SizeAtRelation is the balance solved for the size.
var SizeAtRelation = trace.Relation{
	Name:     "size at a terminal speed",
	Equation: "C(Re)/Re = 4·g·µ·(ρp − ρ)/(3·ρ²·v³), d = Re·µ/(ρ·v)",
	Source:   "balance of weight, buoyancy and drag, solved for d",
}

// SizeAt is the size of the grain that falls at a speed: [Terminal] the other
// way round.
func SizeAt(v quantity.Speed, grain quantity.Density, l Liquid) (quantity.ParticleSize, error) {
	if err := positive("speed of fall", float64(v), "m/s"); err != nil {
		return 0, err
	}
	if err := l.check(); err != nil {
		return 0, err
	}
	if err := heavier(grain, l.Density); err != nil {
		return 0, err
	}
	rho, mu, s := kgPerM3(l.Density), pascalSeconds(l.Viscosity), float64(v)
	want := 4 * quantity.StandardGravity * mu * (kgPerM3(grain) - rho) / (3 * rho * rho * s * s * s)
	re, err := meet(want, math.Sqrt(24/want), -1, Clift)
	if err != nil {
		return 0, err
	}
	return micrometres(float64(re) * mu / (rho * s)), nil
}

// meet finds the Reynolds number at which C·Re^power equals want, from a first
// guess. Both sides are nearly straight against each other on log-log paper, so
// the secant rule lands in a few steps.
func meet(want, guess, power float64, drag Drag) (quantity.Ratio, error) {
	target := math.Log(want)
	gap := func(x float64) float64 {
		return math.Log(float64(drag(quantity.Ratio(math.Exp(x))))) + power*x - target
	}
	x0 := math.Log(guess)
	y0 := gap(x0)
	// 1.5 lies between the slope of the slow end and that of the fast end.
	x1 := x0 - math.Copysign(1/1.5, power)*y0
	for range 100 {
		if x0 == x1 {
			break
		}
		y1 := gap(x1)
		if y1 == y0 {
			break
		}
		x0, x1, y0 = x1, x1-y1*(x1-x0)/(y1-y0), y1
		if math.Abs(x1-x0) <= 1e-14*math.Max(1, math.Abs(x1)) {
			break
		}
	}
	re := quantity.Ratio(math.Exp(x1))
	if !(re <= DragLimit) {
		return 0, fmt.Errorf("Reynolds number %.3g is beyond %g, where the drag curves end: the grain is too large or the liquid too thin", float64(re), float64(DragLimit))
	}
	return re, nil
}
