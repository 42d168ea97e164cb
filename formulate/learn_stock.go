package formulate

import (
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Stock is what there is of one material: what was counted, what came in and
// what was used since. On hand = counted + bought − used.
type Stock struct {
	Material *material.Material
	Counted  bool // else only its price, or what was bought, is known
	Count    quantity.Mass
	Since    int // the entry of the count
	Bought   quantity.Mass
	Used     quantity.Mass
	Price    quantity.PricePerGram
}

// Recount starts from a new count.
func (s *Stock) Recount(m quantity.Mass, entry int) {
	s.Counted, s.Count, s.Since, s.Bought, s.Used = true, m, entry, 0, 0
}

// OnHand is what should be left; below nothing where more was used than there
// was.
func (s *Stock) OnHand() quantity.Mass { return s.Count + s.Bought - s.Used }

// OnHand sets what is needed of a material beside what there is of it.
type OnHand struct {
	Material *material.Material
	Needed   quantity.Mass // of an oil: the most that should be needed
	Have     quantity.Mass
	Short    quantity.Mass // 0: enough
}

// appendOnHand adds a material whose stock the maker keeps.
func appendOnHand(list []OnHand, in *Ingredient, needed quantity.Mass) []OnHand {
	if in.OnHand == nil {
		return list
	}
	// A count that fell below nothing is a count to make anew, not a debt.
	have := max(*in.OnHand, 0)
	// Two jars of one material come off the same stock.
	for i := range list {
		if o := &list[i]; o.Material.ID == in.Material.ID {
			o.Needed += needed
			o.Short = max(o.Needed-have, 0)
			return list
		}
	}
	return append(list, OnHand{in.Material, needed, have, max(needed-have, 0)})
}

// onHand lists what a mull needs of the materials whose stock is kept.
func (r *MullRequest) onHand(res *MullResult) []OnHand {
	var out []OnHand
	var all []*Ingredient
	for i := range r.Pigments {
		all = append(all, &r.Pigments[i].Ingredient)
	}
	for i := range r.Extenders {
		all = append(all, &r.Extenders[i].Ingredient)
	}
	for i := range r.Oils {
		all = append(all, &r.Oils[i].Ingredient)
	}
	for i := range r.Waxes {
		all = append(all, &r.Waxes[i].Ingredient)
	}
	// Weigh lists the materials in the same order.
	for i, in := range all {
		w := &res.Weigh[i]
		needed := w.OnScale
		if w.Role == Binder {
			needed = res.Pours.Most * quantity.Mass(float64(w.Parts)/r.oilParts())
		}
		out = appendOnHand(out, in, needed)
	}
	return out
}
