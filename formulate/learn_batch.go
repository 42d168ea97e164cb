package formulate

import (
	"errors"
	"fmt"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
)

// A BatchPart is one material of a batch, as it was weighed.
type BatchPart struct {
	Ingredient
	Mass quantity.Mass
	Lot  string // the maker's own words
}

// A Batch is a batch as it was made: final weights.
type Batch struct {
	Pigments, Extenders, Oils, Waxes []BatchPart

	Body     absorption.Step       // reached; the zero value was not written down
	Moisture quantity.MassFraction // water in the pigments, of the damp mass; extenders are dry
	Loss     quantity.Mass         // left on slab, knife and muller
}

// parts lists the batch with the roles, in the order of its deviates.
func (b *Batch) parts(each func(w *BatchPart, role Role)) {
	for _, l := range []struct {
		list []BatchPart
		role Role
	}{{b.Pigments, Pigment}, {b.Extenders, Extender}, {b.Oils, Binder}, {b.Waxes, Additive}} {
		for i := range l.list {
			each(&l.list[i], l.role)
		}
	}
}

func (b *Batch) inputs() int {
	return deviatesEach * (len(b.Pigments) + len(b.Extenders) + len(b.Oils) + len(b.Waxes))
}

// DryPigment is the pigment without extenders and without its water.
func (b *Batch) DryPigment() quantity.Mass {
	var m quantity.Mass
	for i := range b.Pigments {
		m += b.Pigments[i].Mass
	}
	return powders.DryMass(m, b.Moisture)
}

func (b *Batch) oilVolume() quantity.Volume {
	var v quantity.Volume
	for i := range b.Oils {
		v += b.Oils[i].Mass.Volume(b.Oils[i].Density.Median)
	}
	return v
}

// compose is the paint of the batch at one draw.
func (b *Batch) compose(z []float64, into []Component) Paint {
	comp := into[:0]
	var water quantity.Mass
	b.parts(func(w *BatchPart, role Role) {
		v := w.At(z)
		z = z[deviatesEach:]
		mass := w.Mass
		if role == Pigment {
			mass = powders.DryMass(mass, b.Moisture)
			water += w.Mass - mass
		}
		comp = append(comp, w.Component(v, role, mass))
	})
	if water > 0 {
		comp = append(comp, waterComponent(water))
	}
	return Paint{comp}
}

// OilPerPowder is the oil per 100 g of dry pigment and extender.
func (b *Batch) OilPerPowder() quantity.Absorption { return b.Paint().Figures().OilPerPigment() }

// Paint is the batch at the typical values.
func (b *Batch) Paint() Paint { return b.compose(make([]float64, b.inputs()), nil) }

func (b *Batch) materials() []*material.Material {
	var out []*material.Material
	b.parts(func(w *BatchPart, _ Role) { out = append(out, w.Material) })
	return out
}

// Validate refuses a batch that cannot have been.
func (b *Batch) Validate() error {
	if len(b.Pigments) == 0 {
		return errors.New("no pigment is written down")
	}
	var err error
	seen := map[string]Role{}
	b.parts(func(w *BatchPart, role Role) {
		other, again := seen[w.Material.ID]
		seen[w.Material.ID] = role
		switch {
		case err != nil:
		case again && other == role && role != Pigment:
			err = fmt.Errorf("%s stands twice; give its whole mass once", w.Material.ID)
		case again && other != role:
			err = fmt.Errorf("%s stands as %s and as %s", w.Material.ID, other, role)
		case !positive(w.Mass):
			err = fmt.Errorf("%s: its mass must be above nothing", w.Material.ID)
		default:
			err = kindFits(w.Material, role)
		}
	})
	switch {
	case err != nil:
		return err
	case !(b.Moisture >= 0 && b.Moisture < 0.9):
		return errors.New("moisture must be from 0 to under 90 % of the damp mass")
	}
	if made := b.Paint().Figures().Mass; !(b.Loss >= 0) || b.Loss >= made {
		return refuse("a loss of %.4g g is not below the %.4g g that were made", float64(b.Loss), float64(made))
	}
	return nil
}

func kindFits(m *material.Material, role Role) error {
	powder := m.Kind.IsPigment()
	switch role {
	case Pigment, Extender:
		if !powder {
			return fmt.Errorf("%s is a %s, not a powder", m.ID, m.Kind)
		}
	case Binder:
		if m.Kind != material.Oil {
			return fmt.Errorf("%s is a %s, it cannot be the oil", m.ID, m.Kind)
		}
	case Additive:
		if powder || m.Kind == material.Oil || m.Kind == material.Solvent || m.Kind == material.Water {
			return fmt.Errorf("%s is a %s, it cannot be a wax or an additive", m.ID, m.Kind)
		}
	}
	return nil
}

// BatchRequest asks what a batch was.
type BatchRequest struct {
	Batch    Batch
	Sampling Sampling
}

// BatchResult is a batch worked out.
type BatchResult struct {
	Request BatchRequest
	Paint   Paint // at the typical values
	Figures FigureRanges
	// Critical is set where the oil absorption of every powder is known, and with
	// it the critical PVC.
	Critical bool
	// Kept is what was left to use.
	Kept   evidence.Range[quantity.Mass]
	KeptMl evidence.Range[quantity.Volume]
}

// BatchOf works a batch out.
func BatchOf(req BatchRequest) (*BatchResult, error) {
	b := &req.Batch
	if err := b.Validate(); err != nil {
		return nil, err
	}
	res := &BatchResult{Request: req, Paint: b.Paint()}
	columns := req.Sampling.run(b.inputs(), figureCount, func() func(z, out []float64) {
		var scratch []Component
		return func(z, out []float64) {
			p := b.compose(z, scratch)
			scratch = p.Components
			p.Figures().vector(out)
		}
	})
	res.Figures = figureRanges(columns)
	res.Critical = true
	b.parts(func(w *BatchPart, role Role) {
		if role == Pigment || role == Extender {
			res.Critical = res.Critical && w.Demand.Known()
		}
	})
	keep := 1 - quantity.Ratio(b.Loss)/quantity.Ratio(res.Figures.Mass.Typical)
	res.Kept, res.KeptMl = res.Figures.Mass.Times(keep), res.Figures.Volume.Times(keep)
	return res, nil
}

// RepeatRequest asks for an old batch in a new amount.
type RepeatRequest struct {
	Batch    Batch
	Amount   Amount
	Scale    quantity.Mass // one division of the balance
	DropMass quantity.Mass // one drop of the oil
	Sampling Sampling
}

// RepeatResult is the batch anew: what to weigh, and how to pour the oil.
type RepeatResult struct {
	Request RepeatRequest
	Times   quantity.Ratio // the old batch
	Weigh   []RepeatWeigh
	Oil     quantity.Mass // as much as last time, in proportion
	Pours   Pours
	Made    quantity.Mass
	Volume  quantity.Volume // at the typical densities
	// Kept is what is left if as much is lost as last time, in proportion.
	Kept     quantity.Mass
	Cost     quantity.Money
	Stock    []OnHand
	Cautions []Caution
	Warnings []string
}

// RepeatWeigh is one material of the batch anew.
type RepeatWeigh struct {
	Material *material.Material
	Role     Role
	Then     quantity.Mass
	Now      quantity.Mass // rounded to the balance
	Lot      string
}

// Repeat scales an old batch to a new amount. Its oil is poured as any oil is:
// the same jar at the same body takes as much again but for the scatter of the
// body ([BatchScatter]).
func Repeat(req RepeatRequest) (*RepeatResult, error) {
	b := &req.Batch
	if err := errors.Join(b.Validate(), req.Amount.check()); err != nil {
		return nil, err
	}
	figures := b.Paint().Figures()
	if !(figures.BinderMass > 0) {
		return nil, errors.New("no oil was written down for this batch: there is nothing to repeat")
	}
	loss := quantity.MassFraction(b.Loss / figures.Mass)
	k := req.Amount.times(figures, figures.BinderMass, loss, b.Moisture)
	if req.Amount.Kind == ByPigmentMass {
		k /= quantity.Ratio(b.DryPigment()) // times counts grams of dry pigment
	}
	res := &RepeatResult{Request: req, Times: k}
	b.parts(func(w *BatchPart, role Role) {
		now := w.Mass * quantity.Mass(k)
		if role != Binder {
			now = onScale(now, req.Scale)
		} else {
			res.Oil += now
		}
		res.Weigh = append(res.Weigh, RepeatWeigh{w.Material, role, w.Mass, now, w.Lot})
	})
	dry := b.DryPigment() * quantity.Mass(k)
	oil := evidence.Distribution[quantity.Mass]{Median: res.Oil, Sigma: BatchScatter()}
	columns := req.Sampling.run(1, 1, func() func(z, out []float64) {
		return func(z, out []float64) { out[0] = float64(oil.At(z[0])) }
	})
	res.Pours = pours(&MullRequest{Scale: req.Scale, DropMass: req.DropMass, Moisture: b.Moisture}, columns[0], dry, 0)
	res.Made, res.Volume = figures.Mass*quantity.Mass(k), figures.Volume*quantity.Volume(k)
	res.Kept = res.Made * quantity.Mass(1-loss)
	res.Cost = figures.Cost * quantity.Money(k)
	for i := range res.Weigh {
		w := &res.Weigh[i]
		needed := w.Now
		if w.Role == Binder {
			needed *= res.Pours.Most / res.Oil
		}
		res.Stock = appendOnHand(res.Stock, b.find(w.Material.ID), needed)
	}
	res.Cautions = Cautions(DryPowder|InOil|Kept, b.materials()...)
	if b.Body == (absorption.Step{}) {
		res.Warnings = append(res.Warnings, "the body it reached was not written down; judge the paste by hand")
	}
	if b.Moisture > 0 {
		res.Warnings = append(res.Warnings, say("the powder held %.3g %% water then; damp or drier powder needs another weight", 100*float64(b.Moisture)))
	}
	return res, nil
}

func (b *Batch) find(id string) *Ingredient {
	var in *Ingredient
	b.parts(func(w *BatchPart, _ Role) {
		if w.Material.ID == id {
			in = &w.Ingredient
		}
	})
	return in
}
