package ask

import (
	"fmt"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/media"
)

// droppers is the spread of a drop's mass between droppers where one source
// alone gives a range or a value: common practice.
var droppers = evidence.Width{Sigma: 0.2, Weight: 2}

// dropMass is what one drop of a liquid weighs: as the maker weighed twenty, or
// as published for it or for liquids like it, with the range.
func dropMass(m *material.Material, twenty string) (evidence.Distribution[quantity.Mass], error) {
	var d evidence.Distribution[quantity.Mass]
	if twenty != "" {
		err := d.Median.Set(twenty)
		d.Median /= 20
		return d, err
	}
	like := "linseed-oil"
	switch m.Kind {
	case material.Water, material.Gum, material.Humectant:
		like = "water"
	case material.Solvent, material.Preservative, material.Drier:
		like = "turpentine"
	}
	var own, kin []evidence.Reading[quantity.Mass]
	for _, x := range media.DropMasses() {
		for _, id := range x.IDs {
			switch id {
			case m.ID:
				own = append(own, x.Twenty)
			case like:
				kin = append(kin, x.Twenty)
			}
		}
	}
	if len(own) == 0 {
		own = kin
	}
	d = evidence.Combine(own, droppers)
	if d.Median == 0 {
		return d, fmt.Errorf("what a drop of %s weighs is not known; weigh twenty", m.ID)
	}
	d.Median /= 20
	return d, nil
}

// oneDrop is dropMass at its middle.
func oneDrop(m *material.Material, twenty string) (quantity.Mass, error) {
	d, err := dropMass(m, twenty)
	return d.Median, at("twenty-drops", err)
}
