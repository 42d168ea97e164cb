package formulate

import (
	"math"
	"sort"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
)

// Look is a pigment with its measured colour, where there is one.
type Look struct {
	Ingredient
	Lab   optics.Lab
	Known bool // the colour is
}

// LikenessWeights say how much each trait counts in a likeness. They are common
// practice: a substitute must first be the same colour.
var LikenessWeights = struct{ Hue, Loading, Density, Opacity, Drying quantity.Ratio }{0.40, 0.25, 0.10, 0.15, 0.10}

// Likeness is how near one pigment comes to another. Each part runs from 0,
// unlike, to 1, the same; -1 marks what is not known and does not count.
type Likeness struct {
	Material                               *material.Material
	All                                    quantity.Ratio // weighted geometric mean of the known parts
	Hue, Loading, Density, Opacity, Drying quantity.Ratio
	Known                                  quantity.Ratio // weight of the known parts
	Difference                             optics.Difference
}

// unknownPart marks a part that is not known.
const unknownPart quantity.Ratio = -1

// familyHue is the mark for the same family without measured colour: two blues
// can be far apart.
const familyHue = 0.3

// leastHue is the mark below which a pigment is left out as another colour.
const leastHue = 0.1

// leastPart keeps one trait from ruling a pigment out altogether. The mean is
// geometric, so that another hue is not made good by a like density.
const leastPart = 0.05

// Alike ranks the others by how near they come to a pigment.
func Alike(of Look, others []Look) []Likeness {
	var out []Likeness
	for i := range others {
		o := &others[i]
		if o.Material.ID == of.Material.ID {
			continue
		}
		// Another hue is no substitute, however alike the rest.
		if l := alike(&of, o); l.Hue < 0 || l.Hue >= leastHue {
			out = append(out, l)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].All != out[j].All {
			return out[i].All > out[j].All
		}
		return out[i].Material.ID < out[j].Material.ID
	})
	return out
}

func alike(a, b *Look) Likeness {
	l := Likeness{Material: b.Material, Hue: unknownPart, Opacity: unknownPart, Drying: unknownPart}
	if a.Known && b.Known {
		l.Difference = optics.CIEDE2000(a.Lab, b.Lab)
		l.Hue = fade(float64(l.Difference), 20)
	} else if a.Material.Family != "" && b.Material.Family != "" {
		// Without measured colour only the family is known: a coarse low mark.
		l.Hue = 0
		if a.Material.Family == b.Material.Family {
			l.Hue = familyHue
		}
	}
	l.Loading = nearness(thirst(a), thirst(b), 2)
	l.Density = nearness(float64(a.Density.Median), float64(b.Density.Median), 2)
	if x, ok := opacityRank(a.Material); ok {
		if y, ok := opacityRank(b.Material); ok {
			l.Opacity = quantity.Ratio(1 - math.Abs(x-y)/4)
		}
	}
	if x, ok := dryingRank(a.Material); ok {
		if y, ok := dryingRank(b.Material); ok {
			l.Drying = quantity.Ratio(1 - math.Abs(x-y)/4)
		}
	}
	w := LikenessWeights
	logs := 0.0
	for _, p := range []struct{ part, weight quantity.Ratio }{{l.Hue, w.Hue}, {l.Loading, w.Loading}, {l.Density, w.Density}, {l.Opacity, w.Opacity}, {l.Drying, w.Drying}} {
		if p.part != unknownPart {
			logs += float64(p.weight) * math.Log(max(float64(p.part), leastPart))
			l.Known += p.weight
		}
	}
	l.All = quantity.Ratio(math.Exp(logs / float64(l.Known)))
	return l
}

// thirst is the oil a pigment takes by volume of its own volume: its loading.
func thirst(l *Look) float64 {
	return float64(l.Demand.OilAbsorption(0)) * float64(l.Density.Median)
}

// nearness is 1 for equal values and falls to 0 at a ratio.
func nearness(a, b, ratio float64) quantity.Ratio {
	return fade(math.Abs(math.Log(a/b)), math.Log(ratio))
}

func fade(distance, far float64) quantity.Ratio {
	return quantity.Ratio(max(0, 1-distance/far))
}

// ranks reads the catalogue's own opening words, from most to least.
func ranks(list []material.Statement, words []string) (float64, bool) {
	for _, s := range list {
		for place, w := range words {
			if strings.HasPrefix(s.Text, w) {
				return float64(place), true
			}
		}
	}
	return 0, false
}

func opacityRank(m *material.Material) (float64, bool) {
	return ranks(m.Opacity, []string{"opaque", "semi-opaque", "between", "semi-transparent", "transparent"})
}

func dryingRank(m *material.Material) (float64, bool) {
	return ranks(m.DryingEffect, []string{"speeds", "dries fast", "dries at", "dries slowly", "dries very slowly"})
}
