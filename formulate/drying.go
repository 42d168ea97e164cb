package formulate

import (
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Drying is what is known of how a paint dries: the oils' own times in a thin
// film, and what published sources say each pigment does to them. No source
// gives a time for a mixture, so none is made up.
type Drying struct {
	Oil        evidence.Range[quantity.Duration] // of the slowest oil in a thin film; zero: not known
	OilClass   []Remark
	Pigments   []Remark
	NotKnown   []string // pigments of which nothing is known
	Conditions string
}

// Remark is a sourced statement about one material.
type Remark struct{ ID, Text, Source string }

// dryingWidth is the spread between published touch-dry times of one oil:
// common practice (room, film and season differ by a factor of two).
var dryingWidth = evidence.Width{Sigma: 0.5, Weight: 2}

// DryingOf gathers what the catalogue says of the drying of these materials.
func DryingOf(materials []*material.Material) Drying {
	d := Drying{Conditions: "thin film, touch dry, in a light room at about 20 °C"}
	for _, m := range materials {
		switch m.Kind {
		case material.Oil:
			for _, s := range m.DryingClass {
				d.OilClass = append(d.OilClass, Remark{m.ID, s.Text, s.Source})
			}
			if t := evidence.Combine(m.DryingTime, dryingWidth); t.Known() && t.Median > d.Oil.Typical {
				d.Oil = t.Range()
			}
		case material.Pigment, material.Extender:
			for _, s := range m.DryingEffect {
				d.Pigments = append(d.Pigments, Remark{m.ID, s.Text, s.Source})
			}
			if len(m.DryingEffect) == 0 {
				d.NotKnown = append(d.NotKnown, m.ID)
			}
		}
	}
	return d
}
