package formulate

import (
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A Pointer works one mull after another at the typical values, without draws
// and without allocation: many formulas at once. It is the mull's own path with
// every deviate at zero. It is for one goroutine.
type Pointer struct {
	mull mull
	z    []float64
}

// Point is a mull at the typical values.
type Point struct {
	Oil     quantity.Mass // for the batch
	Powder  quantity.Mass // dry pigment and extender
	Figures Figures
}

// Point works a request out. The request must keep still until it returns.
func (p *Pointer) Point(req *MullRequest) (Point, error) {
	if err := req.validate(); err != nil {
		return Point{}, err
	}
	p.mull.req = req
	n := req.inputs()
	if cap(p.z) < n {
		p.z = make([]float64, n)
	}
	u, err := p.mull.unitPaint(p.z[:n], (*trace.Tracer)(nil))
	if err != nil {
		return Point{}, err
	}
	k := quantity.Mass(req.scaleTo(u, nil))
	for i := range u.paint.Components {
		u.paint.Components[i].Mass *= k
	}
	f := u.paint.Figures()
	if err := checkTarget(req, f); err != nil {
		return Point{}, err
	}
	return Point{Oil: u.oil * k, Powder: f.PigmentMass, Figures: f}, nil
}
