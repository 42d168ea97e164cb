package formulate

import (
	"slices"
	"strings"

	"mullwright/formulate/material"
)

// DryingRule says how a powder may be dried. It never says that a heat is
// harmless.
func DryingRule(m *material.Material) Hint {
	switch {
	case slices.Contains(m.Classes, material.IronCyanide):
		return Hint{"drying", "Air-dry only, at room temperature, spread thin: no oven, no lamp, no hot plate. No figure for a harmless heat was found; published limits run from 60 to 250 °C and disagree. It must never meet acid: hydrogen cyanide can form.", "catalogue entry; the rule common practice"}
	case slices.Contains(m.Tags, "earth") && !strings.Contains(m.Chemical, "calcined"):
		return Hint{"drying", "An earth that holds bound water changes colour with heat (that is how burnt earths are made): dry at room temperature, or try a pinch first.", "iron oxide hydrate reddens above 200 °C: catalogue entry of Mars yellow; the rule common practice"}
	case slices.Contains(m.Classes, material.HeatSensitive):
		return Hint{"drying", "Heat changes or breaks down this material: dry at room temperature.", "catalogue entry; the rule common practice"}
	}
	return Hint{"drying", "No rule is known here for this powder; that is not a clearance. Dry at room temperature, or gently once a pinch has been tried.", "common practice"}
}

// HeatStatements lists what published sources say of heat and this material.
func HeatStatements(m *material.Material) []Hint {
	var out []Hint
	for _, s := range slices.Concat(m.Incompatible, m.Hazards.Statements) {
		if strings.Contains(strings.ToLower(s.Text), "heat") {
			out = append(out, Hint{"heat", s.Text, s.Source})
		}
	}
	return out
}
