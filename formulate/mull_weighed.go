package formulate

import "mullwright/formulate/quantity"

// PigmentWeighed is all the pigment as it goes on the balance, damp where it is
// damp, without extenders.
func (r *MullResult) PigmentWeighed() quantity.Mass {
	var m quantity.Mass
	for i := range r.Weigh {
		if r.Weigh[i].Role == Pigment {
			m += r.Weigh[i].OnScale
		}
	}
	return m
}
