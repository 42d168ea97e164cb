package formulate

import (
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Bound says whether the dry film holds its pigment.
type Bound struct {
	// Bond and PVC are those of the dry film after the ground has taken its
	// share of the binder; Over is the chance that the film is above its critical
	// PVC.
	Bond
	PVC    evidence.Range[quantity.VolumeFraction]
	Over   quantity.Ratio
	Reason string // why it fails or may fail
	// MuchSolvent is set where the solvent is more than the binder by volume and
	// nothing is known of the ground: common practice, no law.
	MuchSolvent bool
	// Nearest is the sound recipe next to the one asked for; nil where that is
	// sound, or none was found.
	Nearest *Nearest
}

// Nearest is the recipe next to the one asked for that keeps to the rules it
// broke, judged again by the same check.
type Nearest struct {
	Recipe     Recipe
	Take       []Measure
	ByVolume   [3]quantity.Ratio // paint, medium and solvent for one part of paint
	More       string            // what is poured more: a medium, or the paint's oil
	Oil        quantity.Mass     // of it
	OilVolume  quantity.Volume
	Less       quantity.Mass // solvent left out
	LessVolume quantity.Volume
	Bond       Bond // of the dry film, after the ground
}

// MostSolvent is the solvent for one of binder, by volume, that common practice
// keeps to on an absorbent ground.
const MostSolvent quantity.Ratio = 1

// mostlyBinder is the lasting share from which a medium counts as one to bind
// with; a thin glazing medium of five parts of spirit does not.
const mostlyBinder quantity.MassFraction = 0.5

// bound judges the thinned paint and looks for the nearest sound recipe.
func (t *thinner) bound(columns [][]float64) Bound {
	b := judgeBound(t.req, columns)
	b.Reason = t.reason(&b)
	if b.Verdict == Fails || b.MuchSolvent {
		b.Nearest = t.nearest()
	}
	return b
}

// judgeBound reads the columns that say whether the film holds.
func judgeBound(req *ThinRequest, columns [][]float64) Bound {
	reduced := columns[thinGroundReduced]
	b := Bound{Over: above(reduced, float64(MostReducedPVC))}
	b.PVC = rangeOf[quantity.VolumeFraction](columns[thinGroundPVC])
	b.Bond = judgeBond(rangeOf[quantity.Ratio](reduced), rangeOf[quantity.Ratio](columns[thinGroundPaste]))
	solvent := rangeOf[quantity.Ratio](columns[thinSolventPerBinder])
	b.MuchSolvent = !req.GroundKnown && solvent.Typical > MostSolvent
	return b
}

// above is the share of draws above a limit.
func above(column []float64, limit float64) quantity.Ratio {
	n := 0
	for _, v := range column {
		if v > limit {
			n++
		}
	}
	return quantity.Ratio(float64(n) / float64(len(column)))
}

func (t *thinner) reason(b *Bound) string {
	if b.Verdict == Holds {
		return ""
	}
	if b.PVC.Typical == 1 {
		return "the ground takes all of the film's binder: the pigment lies loose"
	}
	if b.Contradicted {
		return b.contradiction()
	}
	critical := 100 * float64(b.PVC.Typical) / float64(b.Reduced.Typical)
	why := say("%.3g %% of the dry film is pigment, and binder can fill its gaps up to about %.3g %%", 100*float64(b.PVC.Typical), critical)
	if b.Verdict == Fails && b.leanPaste() {
		why += say(" by its oil absorption, or %.3g %% by what the stiffest artists' paste of it holds", 100*float64(b.PVC.Typical)/float64(b.Paste.Typical))
	}
	if t.req.Absorbed > 0 {
		why += say("; the ground has taken %.3g g/m² of binder", float64(t.req.Absorbed))
	}
	if b.Verdict == Undecided {
		return why + "; some such paints have too little binder and would chalk"
	}
	return why + "; the rest are holes: the paint chalks, sinks in and rubs off"
}

// richer is the thinner's request with room for more of a binding liquid: its
// first medium that is mostly binder, or the paint's first oil.
func (t *thinner) richer() (req ThinRequest, which int) {
	req = *t.req
	req.Media = append([]Poured(nil), t.req.Media...)
	for i := range req.Media {
		if req.Media[i].Stays() >= mostlyBinder {
			return req, i
		}
	}
	oil := &req.Paint.Oils[0]
	l := Liquid{Material: oil.Material, Parts: []LiquidPart{NewLiquidPart(oil.Ingredient, 1, nil)}, Price: oil.Price}
	req.Media = append(req.Media, Poured{Liquid: l, Parts: 1})
	return req, len(req.Media) - 1
}

// nearest adds the least binder for which the film is vouched for, then
// leaves out the solvent that is too much, or where that is not enough adds
// binder for it too. Each candidate is judged by the very check that failed.
func (t *thinner) nearest() *Nearest {
	req, which := t.richer()
	var ros Roster
	seats := req.seat(&ros)
	flow := newFlowSeats(&req, &ros)
	had := t.recipe.clone(len(req.Media))
	recipe := t.recipe.clone(len(req.Media))
	oil, kept := quantity.Mass(0), quantity.Mass(1)
	judge := func() Bound {
		recipe.Media[which] = had.Media[which] + oil
		for i := range recipe.Solvents {
			recipe.Solvents[i] = had.Solvents[i] * kept
		}
		columns, err := req.draw(seats, flow, recipe, true)
		if err != nil {
			return Bound{} // not known
		}
		return judgeBound(&req, columns)
	}
	vouched := func() bool { b := judge(); return b.vouched() }
	sound := func() bool { b := judge(); return b.vouched() && !b.MuchSolvent }
	const most = 50 // times the paint: hardly paint any more
	moreOil := func(passes func() bool) bool {
		least, ok := leastThat(float64(recipe.Paint)/100, most*float64(recipe.Paint), func(x float64) bool {
			oil = quantity.Mass(x)
			return passes()
		})
		oil = quantity.Mass(least)
		return ok
	}
	if !vouched() && !moreOil(vouched) {
		return nil
	}
	if judge().MuchSolvent {
		cut, ok := leastThat(1.0/64, 1, func(x float64) bool {
			kept = quantity.Mass(1 - x)
			return !judge().MuchSolvent
		})
		kept = quantity.Mass(1 - cut)
		if !ok && !moreOil(sound) {
			return nil
		}
	}
	b := judge()
	if !b.vouched() || b.MuchSolvent {
		return nil
	}
	zero := make([]float64, flow.inputs())
	final := newThinner(&req, seats, flow, recipe)
	if _, _, err := final.mix(zero, nil); err != nil {
		return nil
	}
	res := ThinResult{}
	res.take(final, zero)
	more := &req.Media[which].Liquid
	n := &Nearest{Recipe: recipe, Take: res.Take, ByVolume: res.ByVolume, Bond: b.Bond,
		More: more.Material.Name, Oil: oil, OilVolume: oil.Volume(more.Density(zero))}
	for i := range recipe.Solvents {
		less := had.Solvents[i] - recipe.Solvents[i]
		n.Less += less
		n.LessVolume += less.Volume(req.Solvents[i].Liquid.Density(zero))
	}
	return n
}

// leastThat finds the least x up to most for which a test passes that passes
// for every greater one; it begins at a first guess. Where none passes it
// returns most and false.
func leastThat(first, most float64, passes func(x float64) bool) (float64, bool) {
	lo, hi := 0.0, min(first, most)
	for !passes(hi) {
		if hi >= most {
			return most, false
		}
		lo, hi = hi, min(2*hi, most)
	}
	for hi-lo > hi/2000 {
		if mid := (lo + hi) / 2; passes(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, true
}

func (r Recipe) clone(media int) Recipe {
	out := Recipe{Paint: r.Paint, Media: make([]quantity.Mass, media), Solvents: append([]quantity.Mass(nil), r.Solvents...)}
	copy(out.Media, r.Media)
	return out
}
