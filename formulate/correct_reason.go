package formulate

import (
	"slices"
	"strings"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// A Sign is something seen on a paste that tells why it thickened.
type Sign string

const (
	Rubbery Sign = "rubbery" // a jelly that does not loosen when it is worked
	Skin    Sign = "skin"    // a skin, a drag, stringy lumps from the top down
	Grains  Sign = "grains"  // hard specks in a paste that was smooth
	Loosens Sign = "loosens" // loosens again under the muller or the knife
)

// Signs lists them.
func Signs() []Sign { return []Sign{Rubbery, Skin, Grains, Loosens} }

// A Reason is why a paste is stiffer than its oil would make it. More oil does
// not mend it.
type Reason struct {
	Name   string
	Tell   string // how it is told
	Do     string // what to do instead of adding oil
	Of     []string
	Source string
}

// A cause is what may lie behind a sign.
type cause struct {
	sign   Sign
	likely func(*material.Material) bool // materials that are known for it
	// always: named by its sign alone; otherwise only where such a material is
	// in the paste.
	always bool
	reason Reason
}

func classed(classes ...material.Class) func(*material.Material) bool {
	return func(m *material.Material) bool {
		return slices.ContainsFunc(m.Classes, func(c material.Class) bool { return slices.Contains(classes, c) })
	}
}

var causes = []cause{
	{Rubbery, classed(material.Zinc, material.Lead, material.Alkaline), true, Reason{
		Name:   "livering",
		Tell:   "a rubbery jelly right through that does not loosen when it is worked",
		Do:     "nothing brings it back: oil only makes it greasy and slippery. Throw it away, and wash the pigment or change the oil for the next batch",
		Source: "Salvaging oils and watercolours (2014); common practice",
	}},
	{Grains, classed(material.Zinc, material.Lead), true, Reason{
		Name:   "soaps of the pigment's metal with the oil's acids",
		Tell:   "firm specks or short, stiff paste where it was smooth, after weeks in the tube",
		Do:     "mull it again without oil and judge it then; do not use it in lower layers if the specks stay. Oil feeds the soaps",
		Source: "Osmond, Zinc white: a review (2012)",
	}},
	{Skin, quickDrier, true, Reason{
		Name:   "drying has begun",
		Tell:   "a skin, a drag or stringy lumps where air got in",
		Do:     "cut the skin off and use what is soft beneath it soon; oil stirred into half-dried paint does not join it",
		Source: "common practice",
	}},
	{Loosens, stiffener, true, Reason{
		Name:   "setting on standing",
		Tell:   "stiff after a rest, loose again when it is mulled or worked with the knife",
		Do:     "mull it again and judge it warm from the work; it holds the oil it needs",
		Source: "common practice",
	}},
}

// quickDrier reports a published quick drying effect.
func quickDrier(m *material.Material) bool {
	for _, s := range m.DryingEffect {
		if t := strings.ToLower(s.Text); strings.Contains(t, "quick") || strings.Contains(t, "fast") && !strings.Contains(t, "not") || strings.Contains(t, "rapid") {
			return true
		}
	}
	return m.Kind == material.Drier
}

// stiffener reports a pigment that stiffens as it is worked or stands.
func stiffener(m *material.Material) bool {
	return m.Muller != nil && m.Muller.Behaviour == "stiffens"
}

// reasons names why a paste thickened otherwise than by want of oil: from its
// signs, or because it feels stiffer than its weights allow.
func reasons(r *CorrectRequest, oilOverTube evidence.Range[quantity.Ratio], materials []*material.Material) []Reason {
	var out []Reason
	for i := range causes {
		if slices.Contains(r.Signs, causes[i].sign) {
			out = append(out, causes[i].named(materials))
		}
	}
	if len(out) > 0 || !stifferThanItsOil(r.Feels, oilOverTube) {
		return out
	}
	for i := range causes {
		if x := causes[i].named(materials); len(x.Of) > 0 {
			out = append(out, x)
		}
	}
	return append(out, Reason{
		Name:   "it holds oil enough",
		Tell:   "it feels stiffer than its weights allow",
		Do:     "look for a skin, for rubbery lumps, for hard specks; mull a little again and see whether it loosens; cold thickens it as well",
		Source: "common practice",
	})
}

// stifferThanItsOil reports a paste that feels like a body which takes less oil
// than even the low end of what it holds.
func stifferThanItsOil(feels *absorption.Step, oilOverTube evidence.Range[quantity.Ratio]) bool {
	return feels != nil && feels.Name != "" && feels.Oil < oilOverTube.Low
}

func (c *cause) named(materials []*material.Material) Reason {
	r := c.reason
	for _, m := range materials {
		if c.likely(m) {
			r.Of = append(r.Of, m.ID)
		}
	}
	return r
}
