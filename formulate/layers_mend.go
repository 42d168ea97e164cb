package formulate

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mullwright/formulate/quantity"
)

// Change is what a mend does to a layer.
type Change string

const (
	MoreOil    Change = "more oil"
	LessMedium Change = "less medium"
	OtherOil   Change = "another oil"
	Wait       Change = "wait"
	Thicker    Change = "thicker"
	Thinner    Change = "thinner"
	Swap       Change = "swap"
)

// A Mend is a change that mends the first fault, found by trying it: the whole
// stack was checked again with it.
type Mend struct {
	Change Change
	Layer  int // that is changed, from 0; for a swap the upper of the two
	Text   string
	// One of these says how much, where it is an amount.
	Volume    quantity.Volume // of Liquid, to every 100 ml of the layer's paint
	Liquid    string
	Thickness quantity.Thickness // wet
	Time      quantity.Duration
	// Then is the next fault that remains with the change; nil where none does.
	Then *Fault
}

// most oil, to 100 ml of paint, that still counts as a change of a layer and not
// as another paint: common practice.
const mostMoreOil = perHundred

// mend tries the changes that may mend a fault, the smallest first, and returns
// the first that does.
func (s *stack) mend(fault Fault, layers []LayerResult) *Mend {
	i := fault.Layer
	var tries []func() *attempt
	switch fault.Finding.Rule {
	case HoldsPigment:
		tries = append(tries, func() *attempt { return s.moreOil(i, fault) })
	case FatOverLean:
		more, less := s.moreOil(i, fault), s.lessMedium(i-1, fault)
		if less != nil && (more == nil || less.mend.Volume < more.mend.Volume) {
			more, less = less, more
		}
		tries = append(tries, func() *attempt { return more }, func() *attempt { return less }, func() *attempt { return s.swapped(i, fault) })
	case LongEnough:
		tries = append(tries, func() *attempt { return s.waited(i-1, fault, layers[i-1].Drying.Oil.High) })
	case DryingOrder:
		tries = append(tries, func() *attempt { return s.sameOil(i-1, fault) }, func() *attempt { return s.swapped(i, fault) })
	case ThickOverThin:
		more, less := s.thicker(i, fault), s.thinnerBelow(i-1, fault)
		if more != nil && less != nil && less.share(s) < more.share(s) {
			more, less = less, more
		}
		tries = append(tries, func() *attempt { return more }, func() *attempt { return less })
	}
	for _, try := range tries {
		if a := try(); a != nil && a.stack.mends(fault) {
			return a.verified()
		}
	}
	return nil
}

// an attempt is a changed stack that mends the fault.
type attempt struct {
	stack *stack
	mend  Mend
}

// share is how far an attempt changes the film of its layer.
func (a *attempt) share(before *stack) float64 {
	return math.Abs(float64(a.mend.Thickness/before.layers[a.mend.Layer].req.Wet) - 1)
}

// mends reports whether a stack keeps the broken rule at the layer, and breaks
// none at or below it that was kept before.
func (s *stack) mends(fault Fault) bool {
	layers, err := s.judge()
	if err != nil {
		return false
	}
	for i := range layers[:fault.Layer+1] {
		for _, f := range layers[i].Findings {
			switch {
			case i == fault.Layer && f.Rule == fault.Finding.Rule:
				if f.Verdict != Holds {
					return false
				}
			case f.Verdict == Fails && (i < fault.Layer || slices.Index(ruleOrder, f.Rule) < slices.Index(ruleOrder, fault.Finding.Rule)):
				return false // kept before: the fault was the first
			}
		}
	}
	return true
}

// verified notes what fault remains in the changed stack.
func (a *attempt) verified() *Mend {
	layers, err := a.stack.judge()
	if err != nil {
		return nil
	}
	a.mend.Then = firstFault(layers)
	return &a.mend
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
		return out.mends(fault)
	})
	if !ok {
		return nil
	}
	least = roundedUp(least, 2)
	set(least)
	return &attempt{out, Mend{Change: MoreOil, Layer: i, Volume: quantity.Volume(least), Liquid: liquid.Material.Name,
		Text: fmt.Sprintf("put %.3g ml more %s into every 100 ml of the paint of %s", least, lowerName(liquid), s.named(i))}}
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
		return out.mends(fault)
	})
	if !ok {
		return nil
	}
	least = min(roundedUp(least, 2), whole)
	set(least)
	return &attempt{out, Mend{Change: LessMedium, Layer: i, Volume: quantity.Volume(least), Liquid: liquid.Material.Name,
		Text: fmt.Sprintf("leave %.3g ml of %s out of every 100 ml of the paint of %s", least, lowerName(liquid), s.named(i))}}
}

// swapped lays the layer under the one below it.
func (s *stack) swapped(i int, fault Fault) *attempt {
	out := s.clone()
	out.layers[i-1], out.layers[i] = out.layers[i], out.layers[i-1]
	// The days stay with the place.
	out.layers[i-1].dried, out.layers[i].dried = out.layers[i].dried, out.layers[i-1].dried
	// What the ground takes stays with the lowest layer.
	a, b := &out.layers[i-1].req, &out.layers[i].req
	a.Absorbed, b.Absorbed = b.Absorbed, a.Absorbed
	a.GroundKnown, b.GroundKnown = b.GroundKnown, a.GroundKnown
	if out.sit() != nil || !out.mends(fault) {
		return nil
	}
	return &attempt{out, Mend{Change: Swap, Layer: i, Text: fmt.Sprintf("paint %s first and %s over it", s.named(i), s.named(i-1))}}
}

// waited leaves the layer below until its oil is touch dry over the range.
func (s *stack) waited(i int, fault Fault, until quantity.Duration) *attempt {
	const day = 86400
	wait := quantity.Duration(math.Ceil(float64(until)/day) * day)
	out := s.clone()
	out.layers[i].dried = &wait
	if !out.mends(fault) {
		return nil
	}
	return &attempt{out, Mend{Change: Wait, Layer: i, Time: wait,
		Text: fmt.Sprintf("let %s dry %.0f days before the next", s.named(i), days(wait))}}
}

// sameOil makes the lower layer with the oils of the one above it.
func (s *stack) sameOil(i int, fault Fault) *attempt {
	out := s.clone()
	l, above := &out.layers[i], &out.layers[i+1]
	if len(above.req.Paint.Oils) != 1 || len(l.req.Paint.Oils) == 1 && l.req.Paint.Oils[0].Material.ID == above.req.Paint.Oils[0].Material.ID {
		return nil
	}
	l.req.Paint.Oils = slices.Clone(above.req.Paint.Oils)
	if out.sit() != nil || !out.mends(fault) {
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
		return out.mends(fault)
	})
	if !ok {
		return nil
	}
	l.req.Wet = quantity.Thickness(roundedUp(had+more, 3))
	return &attempt{out, Mend{Change: Thicker, Layer: i, Thickness: l.req.Wet,
		Text: fmt.Sprintf("lay %s on %.3g µm wet", s.named(i), float64(l.req.Wet))}}
}

// thinnerBelow lays the lower film on thinner.
func (s *stack) thinnerBelow(i int, fault Fault) *attempt {
	out := s.clone()
	l := &out.layers[i]
	had := float64(l.req.Wet)
	less, ok := leastThat(had/64, had*63/64, func(v float64) bool {
		l.req.Wet = quantity.Thickness(had - v)
		return out.mends(fault)
	})
	if !ok {
		return nil
	}
	l.req.Wet = quantity.Thickness(math.Floor(had - less))
	return &attempt{out, Mend{Change: Thinner, Layer: i, Thickness: l.req.Wet,
		Text: fmt.Sprintf("lay %s on only %.3g µm wet", s.named(i), float64(l.req.Wet))}}
}
