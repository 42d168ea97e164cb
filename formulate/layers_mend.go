package formulate

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mullwright/formulate/film"
	"mullwright/formulate/quantity"
)

// Change is what a mend does to a layer.
type Change string

const (
	MoreOil    Change = "more oil"
	LessMedium Change = "less medium"
	Stiffer    Change = "stiffer"
	Drinks     Change = "absorbent ground"
	OtherOil   Change = "another oil"
	Wait       Change = "wait"
	Thicker    Change = "thicker"
	Thinner    Change = "thinner"
	Swap       Change = "swap"
)

// A Mend is a change that mends a fault, found by trying it: the whole stack was
// checked again with it, and nothing fails in it that did not before.
type Mend struct {
	For    Fault // what it mends
	Change Change
	Layer  int // that is changed, from 0; for a swap the upper of the two
	Text   string
	// One of these says how much, where it is an amount.
	Volume    quantity.Volume // of Liquid, to every 100 ml of the layer's paint
	Liquid    string
	Thickness quantity.Thickness   // wet
	Absorbed  quantity.MassPerArea // of binder, by the ground
	Time      quantity.Duration
	// Then is the first fault that remains with the change; nil where none does.
	Then *Fault
}

// advice is what painters do where no change of one layer mends a fault: common
// practice.
var advice = map[Rule]string{
	HoldsPigment:  "bind it with more oil or a medium, or seal a ground that drinks",
	FatOverLean:   "mix the colour below with a leaner one (colours that are oily by nature, as raw umber and Prussian blue, go underneath only so), or keep it for the layers above",
	DryingOrder:   "leave the layer below until it is dry right through, weeks and not days, or use a colour there that dries as fast",
	LongEnough:    "leave the layer below until it no longer takes a mark",
	ThickOverThin: "lay the layer below on thinner",
}

// most oil, to 100 ml of paint, that still counts as a change of a layer and not
// as another paint: common practice.
const mostMoreOil = perHundred

// mostMends keeps a list of changes within what anybody reads.
const mostMends = 4

// left is the first fault that the mends leave.
func (res *LayersResult) left() *Fault {
	if n := len(res.Mends); n > 0 {
		return res.Mends[n-1].Then
	}
	return res.First
}

// mend mends one fault after the other, from the ground up, as far as changes
// are found.
func (s *stack) mend(layers []LayerResult) []Mend {
	var out []Mend
	for range mostMends {
		fault := firstFault(layers)
		if fault == nil {
			break
		}
		a := s.mendOne(*fault, layers)
		if a == nil {
			break
		}
		after, err := a.stack.judge()
		if err != nil {
			break
		}
		a.mend.For, a.mend.Then = *fault, firstFault(after)
		out = append(out, a.mend)
		s, layers = a.stack, after
	}
	return out
}

// mendOne tries the changes that may mend a fault, the smallest first, and
// returns the first that does and makes no other.
func (s *stack) mendOne(fault Fault, layers []LayerResult) *attempt {
	i := fault.Layer
	var tries []func() *attempt
	add := func(more ...func() *attempt) { tries = append(tries, more...) }
	switch fault.Finding.Rule {
	case HoldsPigment:
		add(func() *attempt { return s.moreOil(i, fault) })
	case FatOverLean:
		more, less := s.moreOil(i, fault), s.lessMedium(i-1, fault)
		if less != nil && (more == nil || less.mend.Volume < more.mend.Volume) {
			more, less = less, more
		}
		add(func() *attempt { return more }, func() *attempt { return less },
			func() *attempt { return s.stiffer(i-1, fault) }, func() *attempt { return s.drunk(i-1, fault) }, func() *attempt { return s.swapped(i, fault) })
	case LongEnough:
		add(func() *attempt { return s.waited(i-1, fault, layers[i-1].Drying.Oil.High) })
	case DryingOrder:
		add(func() *attempt { return s.sameOil(i-1, fault) }, func() *attempt { return s.swapped(i, fault) })
	case ThickOverThin:
		more, less := s.thicker(i, fault), s.thinnerBelow(i-1, fault)
		if more != nil && less != nil && less.share(s) < more.share(s) {
			more, less = less, more
		}
		add(func() *attempt { return more }, func() *attempt { return less })
	}
	for _, try := range tries {
		if a := try(); a != nil && a.stack.mends(fault, layers) {
			return a
		}
	}
	return nil
}

// an attempt is a changed stack that keeps the rule that was broken.
type attempt struct {
	stack *stack
	mend  Mend
}

// share is how far an attempt changes the film of its layer.
func (a *attempt) share(before *stack) float64 {
	return math.Abs(float64(a.mend.Thickness/before.layers[a.mend.Layer].req.Wet) - 1)
}

// kept reports whether a layer keeps a rule. Where a layer is to be bound it is
// enough that it is vouched for, see [Bond].
func (l *LayerResult) kept(rule Rule) bool {
	for _, f := range l.Findings {
		if f.Rule == rule {
			return f.Verdict == Holds || rule == HoldsPigment && l.Bond.vouched()
		}
	}
	return true
}

// keeps reports whether a stack keeps the broken rule at the layer.
func (s *stack) keeps(fault Fault) bool {
	layers, err := s.judge()
	return err == nil && layers[fault.Layer].kept(fault.Finding.Rule)
}

// mends reports whether a stack keeps the broken rule at the layer, and breaks
// none anywhere that was kept before.
func (s *stack) mends(fault Fault, before []LayerResult) bool {
	layers, err := s.judge()
	if err != nil || !layers[fault.Layer].kept(fault.Finding.Rule) {
		return false
	}
	for i := range layers {
		for _, f := range layers[i].Findings {
			if f.Verdict == Fails && !before[i].breaks(f.Rule) {
				return false
			}
		}
	}
	return true
}

func (l *LayerResult) breaks(rule Rule) bool {
	return slices.ContainsFunc(l.Findings, func(f Finding) bool { return f.Rule == rule && f.Verdict == Fails })
}

func (s *stack) named(i int) string { return fmt.Sprintf("layer %d (%s)", i+1, s.layers[i].name) }

// moreOil adds the least of the layer's binding medium, or of its paint's oil.
func (s *stack) moreOil(i int, fault Fault) *attempt {
	out := s.clone()
	l := &out.layers[i]
	req, which := l.thinner().richer()
	l.req = req
	l.recipe = l.recipe.clone(len(req.Media))
	if out.sit() != nil {
		return nil
	}
	had := l.recipe.Media[which]
	liquid := &l.req.Media[which].Liquid
	density := liquid.Density(make([]float64, out.inputs))
	set := func(volume float64) {
		l.recipe.Media[which] = had + quantity.Volume(volume).Mass(density)
	}
	const first = 1 // ml
	least, ok := leastThat(first, float64(mostMoreOil), func(v float64) bool {
		set(v)
		return out.keeps(fault)
	})
	if !ok {
		return nil
	}
	least = roundedUp(least, 2)
	set(least)
	return &attempt{out, Mend{Change: MoreOil, Layer: i, Volume: quantity.Volume(least), Liquid: liquid.Material.Name,
		Text: say("put %.3g ml more %s into every 100 ml of the paint of %s", least, lowerName(liquid), s.named(i))}}
}

func lowerName(l *Liquid) string { return strings.ToLower(l.Material.Name) }

// roundedUp rounds up to so many figures, so that the amount can be measured
// and still mends.
func roundedUp(v float64, figures int) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v))+1-float64(figures))
	return math.Ceil(v/p-1e-9) * p
}

// lessMedium leaves out the least of the binding medium of the layer below.
func (s *stack) lessMedium(i int, fault Fault) *attempt {
	out := s.clone()
	l := &out.layers[i]
	which := slices.IndexFunc(l.req.Media, func(p Poured) bool { return p.Stays() >= mostlyBinder })
	if which < 0 || l.recipe.Media[which] == 0 {
		return nil
	}
	had := l.recipe.Media[which]
	liquid := &l.req.Media[which].Liquid
	density := liquid.Density(make([]float64, out.inputs))
	whole := float64(had.Volume(density))
	set := func(volume float64) {
		l.recipe.Media[which] = max(0, had-quantity.Volume(volume).Mass(density))
	}
	least, ok := leastThat(whole/64, whole, func(v float64) bool {
		set(v)
		return out.keeps(fault)
	})
	if !ok {
		return nil
	}
	least = min(roundedUp(least, 2), whole)
	set(least)
	return &attempt{out, Mend{Change: LessMedium, Layer: i, Volume: quantity.Volume(least), Liquid: liquid.Material.Name,
		Text: say("leave %.3g ml of %s out of every 100 ml of the paint of %s", least, lowerName(liquid), s.named(i))}}
}

// stiffer makes the paint of the layer below stiff, where a softer body was
// asked for by name and no medium is in it to leave out first.
func (s *stack) stiffer(i int, fault Fault) *attempt {
	target := s.layers[i].req.Paint.Target
	stiff := stiffPaste()
	if target.Kind != AtBody || target.Body.Name == "" || target.Body.Oil <= stiff.Oil || len(s.layers[i].req.Media) > 0 {
		return nil
	}
	out := s.clone()
	l := &out.layers[i]
	l.req.Paint.Target.Body = stiff
	recipe, err := l.thinner().plan(make([]float64, out.inputs), nil)
	if err != nil {
		return nil
	}
	if l.recipe = recipe; !out.keeps(fault) {
		return nil
	}
	return &attempt{out, Mend{Change: Stiffer, Layer: i, Text: fmt.Sprintf("make the paint of %s stiff, with less oil", s.named(i))}}
}

// drunk lays the lowest layer on a ground that takes the least binder for which
// the layer above is no leaner; nothing where the ground is known.
func (s *stack) drunk(i int, fault Fault) *attempt {
	if i != 0 || s.layers[0].req.GroundKnown {
		return nil
	}
	out := s.clone()
	req := &out.layers[0].req
	req.GroundKnown = true
	_, after := s.typical(0)
	all := float64(film.MassPerArea(req.Wet, after.Density())) * float64(after.BinderByMass())
	least, ok := leastThat(all/64, all, func(v float64) bool {
		req.Absorbed = quantity.MassPerArea(v)
		return out.keeps(fault)
	})
	if !ok {
		return nil
	}
	req.Absorbed = quantity.MassPerArea(roundedUp(least, 2))
	return &attempt{out, Mend{Change: Drinks, Layer: i, Absorbed: req.Absorbed,
		Text: say("lay %s on an absorbent ground, one that takes %.2g g/m² of its binder", s.named(i), float64(req.Absorbed))}}
}

// swapped lays the layer under the one below it. The lowest layer keeps its
// place, and a wash never rises over a paint without solvent: nobody draws or
// underpaints on top of the body of a painting.
func (s *stack) swapped(i int, fault Fault) *attempt {
	if i < 2 || len(s.layers[i-1].req.Solvents) > 0 && len(s.layers[i].req.Solvents) == 0 {
		return nil
	}
	out := s.clone()
	out.layers[i-1], out.layers[i] = out.layers[i], out.layers[i-1]
	// The days stay with the place.
	out.layers[i-1].dried, out.layers[i].dried = out.layers[i].dried, out.layers[i-1].dried
	if out.sit() != nil || !out.keeps(fault) {
		return nil
	}
	return &attempt{out, Mend{Change: Swap, Layer: i, Text: fmt.Sprintf("paint %s first and %s over it", s.named(i), s.named(i-1))}}
}

// waited leaves the layer below until its oil is touch dry over the range.
func (s *stack) waited(i int, fault Fault, until quantity.Duration) *attempt {
	wait := quantity.Duration(math.Ceil(until.Days())) * quantity.Day
	out := s.clone()
	out.layers[i].dried = &wait
	if !out.keeps(fault) {
		return nil
	}
	return &attempt{out, Mend{Change: Wait, Layer: i, Time: wait,
		Text: fmt.Sprintf("let %s dry %s before the next", s.named(i), inDays(wait))}}
}

// sameOil makes the lower layer with the oils of the one above it.
func (s *stack) sameOil(i int, fault Fault) *attempt {
	out := s.clone()
	l, above := &out.layers[i], &out.layers[i+1]
	if len(above.req.Paint.Oils) != 1 || len(l.req.Paint.Oils) == 1 && l.req.Paint.Oils[0].Material.ID == above.req.Paint.Oils[0].Material.ID {
		return nil
	}
	l.req.Paint.Oils = slices.Clone(above.req.Paint.Oils)
	if out.sit() != nil || !out.keeps(fault) {
		return nil
	}
	name := above.req.Paint.Oils[0].Material.Name
	return &attempt{out, Mend{Change: OtherOil, Layer: i, Liquid: name,
		Text: fmt.Sprintf("make the paint of %s with %s", s.named(i), strings.ToLower(name))}}
}

// thicker lays the upper film on as thick as it must be.
func (s *stack) thicker(i int, fault Fault) *attempt {
	out := s.clone()
	l := &out.layers[i]
	had := float64(l.req.Wet)
	const most = 4 // times as thick: more is another painting
	more, ok := leastThat(had/16, (most-1)*had, func(v float64) bool {
		l.req.Wet = quantity.Thickness(had + v)
		return out.keeps(fault)
	})
	if !ok {
		return nil
	}
	l.req.Wet = quantity.Thickness(roundedUp(had+more, 3))
	return &attempt{out, Mend{Change: Thicker, Layer: i, Thickness: l.req.Wet,
		Text: say("lay %s on %.3g µm wet", s.named(i), float64(l.req.Wet))}}
}

// thinnerBelow lays the lower film on thinner.
func (s *stack) thinnerBelow(i int, fault Fault) *attempt {
	out := s.clone()
	l := &out.layers[i]
	had := float64(l.req.Wet)
	less, ok := leastThat(had/64, had*63/64, func(v float64) bool {
		l.req.Wet = quantity.Thickness(had - v)
		return out.keeps(fault)
	})
	if !ok {
		return nil
	}
	l.req.Wet = quantity.Thickness(math.Floor(had - less))
	return &attempt{out, Mend{Change: Thinner, Layer: i, Thickness: l.req.Wet,
		Text: say("lay %s on only %.3g µm wet", s.named(i), float64(l.req.Wet))}}
}
