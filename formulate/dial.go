package formulate

import (
	"math"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Dial is how the paste of a mull goes from stiff to flowing as its oil is
// poured: pigment, extender and wax as weighed, oil from little to too much.
type Dial struct {
	Mull   *MullResult
	Points []DialPoint  // least oil first
	Steps  []DialStep   // the named bodies, stiffest first
	Target DialPosition // where the paste should be, at the typical values
}

// DialPoint is the paste at one amount of oil.
type DialPoint struct {
	Oil  quantity.Mass
	Body evidence.Range[absorption.Body]
	PVC  evidence.Range[quantity.VolumeFraction]
}

// DialPosition is a point of the typical paste.
type DialPosition struct {
	Oil  quantity.Mass
	Body absorption.Body
}

// DialStep is a named body of this powder: the stretch of body that is nearer
// to it than to its neighbours, by oil.
type DialStep struct {
	Step     absorption.Step
	Typical  DialPosition
	Stiffest DialPosition
	Softest  DialPosition
}

// OilMendedRelation is the oil that more pigment can still take up.
var OilMendedRelation = trace.Relation{
	Name:     "oil that all the pigment brings to the target",
	Equation: "m = moil·(mweighed + mhave)/mweighed",
	Source:   "the formula, in proportion",
}

// OilMended is the oil that all the pigment brings to the target: what the
// weighed pigment needs, in proportion.
func OilMended(needed, weighed, have quantity.Mass) quantity.Mass {
	return needed * (weighed + have) / weighed
}

// mends is OilMended for the pigment there is, and nothing where nobody said.
func (r *MullRequest) mends(needed evidence.Range[quantity.Mass], weighed quantity.Mass, tr *trace.Tracer) evidence.Range[quantity.Mass] {
	if r.Have == 0 {
		return evidence.Range[quantity.Mass]{}
	}
	have := powders.DryMass(r.Have, r.Moisture)
	out := evidence.Rising(needed, func(m quantity.Mass) quantity.Mass { return OilMended(m, weighed, have) })
	if tr.On() {
		tr.Note(OilMendedRelation, "all the pigment", trace.T("m", out.Typical, "g"), trace.T("moil", needed.Typical, "g"), trace.T("mweighed", weighed, "g"), trace.T("mhave", have, "g"))
	}
	return out
}

const (
	dialPoints = 25
	// A band that is only drawn needs fewer draws than a figure that is printed.
	dialDraws = 512
	// The dial runs from a part of the first pour to beyond the most that should
	// be needed, wide enough to see where the paste comes from and goes to.
	dialFrom, dialTo = 0.6, 1.3
)

// DialOf works the dial of a mull out.
func DialOf(res *MullResult) (*Dial, error) {
	req := &res.Request
	inputs := req.inputs()
	u, err := (&mull{req: req}).unitPaint(make([]float64, inputs), nil)
	if err != nil {
		return nil, err
	}
	weighed := req.dryPigmentOnScale(req.scaleTo(u, nil))
	paste := newDialPaste(u, weighed)
	d := &Dial{Mull: res, Target: paste.with(u.oil * weighed)}
	if d.Steps, err = paste.steps(req); err != nil {
		return nil, err
	}
	first := min(res.Pours.First, res.Pours.Typical)
	if first <= 0 {
		first = res.Pours.Typical / 10 // the balance shows no first pour so small
	}
	oils := spread(dialFrom*first, max(dialTo*res.Pours.Most, 1.05*res.Pours.Mends.Typical))

	sampling := req.Sampling
	sampling.Draws = min(sampling.draws(), dialDraws)
	columns := sampling.run(inputs, 2*len(oils), func() func(z, out []float64) {
		m := &mull{req: req}
		return func(z, out []float64) {
			u, _ := m.unitPaint(z, nil) // the mull has worked every draw
			p := newDialPaste(u, weighed)
			for i, oil := range oils {
				f := p.figures(oil)
				out[2*i], out[2*i+1] = float64(f.Body()), float64(f.PVC())
			}
		}
	})
	for i, oil := range oils {
		d.Points = append(d.Points, DialPoint{Oil: oil,
			Body: rangeOf[absorption.Body](columns[2*i]), PVC: rangeOf[quantity.VolumeFraction](columns[2*i+1])})
	}
	return d, nil
}

// spread lays points from one amount to another by even ratios: the body falls
// fastest where there is least oil.
func spread(from, to quantity.Mass) []quantity.Mass {
	out := make([]quantity.Mass, dialPoints)
	for i := range out {
		out[i] = from * quantity.Mass(math.Pow(float64(to/from), float64(i)/(dialPoints-1)))
	}
	return out
}

// dialPaste is a paste whose oil alone changes.
type dialPaste struct {
	others  Figures // all but the oil
	density quantity.Density
}

// newDialPaste takes a mull of so much dry pigment, which it makes of u. Wax
// stays what the target takes.
func newDialPaste(u unit, pigment quantity.Mass) dialPaste {
	for i := range u.paint.Components {
		u.paint.Components[i].Mass *= pigment
	}
	f := u.paint.Figures()
	p := dialPaste{others: f, density: quantity.Density(f.BinderMass / quantity.Mass(f.BinderVolume))}
	p.others.Mass -= f.BinderMass
	p.others.Volume -= f.BinderVolume
	return p
}

// figures of the paste with so much oil.
func (p dialPaste) figures(oil quantity.Mass) Figures {
	f := p.others
	f.BinderMass, f.BinderVolume = oil, oil.Volume(p.density)
	f.Mass += f.BinderMass
	f.Volume += f.BinderVolume
	return f
}

func (p dialPaste) with(oil quantity.Mass) DialPosition {
	return DialPosition{oil, p.figures(oil).Body()}
}

// steps places the named bodies: each at its own oil, reaching half way to its
// neighbours by the ratio of oil, the outermost as far outward as inward.
func (p dialPaste) steps(req *MullRequest) ([]DialStep, error) {
	asked := *req
	pigment := p.others.PigmentMass
	var oils []float64
	steps := absorption.Steps()
	for _, s := range steps {
		asked.Target = Target{Kind: AtBody, Body: s}
		u, err := (&mull{req: &asked}).unitPaint(make([]float64, asked.inputs()), nil)
		if err != nil {
			return nil, err
		}
		oils = append(oils, float64(u.oil*(pigment/u.paint.Figures().PigmentMass)))
	}
	last := len(steps) - 1
	edge := func(i int) quantity.Mass { // between step i-1 and step i
		switch {
		case i == 0:
			return quantity.Mass(oils[0] * math.Sqrt(oils[0]/oils[1]))
		case i > last:
			return quantity.Mass(oils[last] * math.Sqrt(oils[last]/oils[last-1]))
		}
		return quantity.Mass(math.Sqrt(oils[i-1] * oils[i]))
	}
	out := make([]DialStep, len(steps))
	for i, s := range steps {
		out[i] = DialStep{Step: s, Typical: p.with(quantity.Mass(oils[i])), Stiffest: p.with(edge(i)), Softest: p.with(edge(i + 1))}
	}
	return out, nil
}
