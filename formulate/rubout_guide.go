package formulate

import (
	"strings"

	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// A Hint is one piece of advice with where it comes from.
type Hint struct{ About, Text, Source string }

// A PortionRow is one row of the table of test portions.
type PortionRow struct {
	Expected string
	Portion  quantity.Mass
}

// RubOutGuide says how to make a rub-out of this pigment.
type RubOutGuide struct {
	Portion   quantity.Mass // 0 where nothing is expected: see Portions
	PortionBy string
	Portions  []PortionRow // the whole table, where nothing is expected
	// ByTable is the portion of the method, where the balance wants a larger one: its
	// division is to be at most the share Step of the oil. 0 where it does not; of
	// Portions the same is said by Larger.
	ByTable quantity.Mass
	Step    quantity.Ratio
	Larger  bool
	// Oil of one test: at the low end, the middle and the high end of what is
	// expected.
	OilLow, OilTypical, OilHigh quantity.Mass
	PourLow, PourTypical        quantity.Volume
	PourHigh                    quantity.Volume
	// Ready is oil for three tests at the high end: two, and one in reserve.
	Ready     quantity.Mass
	ReadyPour quantity.Volume
	// Drop is what one drop is worth on this portion.
	Drop  quantity.Absorption
	Hints []Hint
}

const is33 = "IS 33 and IS 3493, as restated by a pigment maker"

// guideOf makes the guide. Where nothing foretells the absorption the table of
// portions stands in its place.
func guideOf(r *RubOutRequest) RubOutGuide {
	g := RubOutGuide{Hints: rubOutHints(r)}
	organic := r.Pigment != nil && organicPigment(r.Pigment)
	if !r.Expected.Known() && !organic {
		g.Portions, g.Larger = r.portionTable()
		g.Step = r.drowned()
		return g
	}
	density := r.Oil.Density.Median
	expected := r.Expected.Range()
	oa := expected.Typical.ByMass(quantity.ReportingOilDensity)
	g.Portion, g.Step = absorption.TestPortion(oa, organic), r.drowned()
	if p := r.weighable(oa); p > g.Portion {
		g.ByTable, g.Portion = g.Portion, p
	}
	g.PortionBy = "expected oil absorption"
	if organic {
		g.PortionBy = "organic pigment"
	}
	g.Drop = absorption.WeighedBottle(g.Portion, r.Drop, 0)
	if !r.Expected.Known() {
		return g
	}
	g.PourLow, g.PourTypical, g.PourHigh = expected.Low.TakenBy(g.Portion), expected.Typical.TakenBy(g.Portion), expected.High.TakenBy(g.Portion)
	g.OilLow, g.OilTypical, g.OilHigh = g.PourLow.Mass(density), g.PourTypical.Mass(density), g.PourHigh.Mass(density)
	const tests = 3
	g.ReadyPour, g.Ready = tests*g.PourHigh, tests*g.OilHigh
	return g
}

// weighable is the pigment on which one division of the balance is at most half
// of the spread allowed, of the oil: 1, 2 or 5 g, or ten or a hundred times that.
// Common practice; the method takes a finer balance for granted.
func (r *RubOutRequest) weighable(oa quantity.Absorption) quantity.Mass {
	if oa == 0 {
		return 0
	}
	least := r.Scale / quantity.Mass(r.drowned()) / quantity.Mass(oa) * 100
	for _, round := range []quantity.Mass{1, 2, 5, 10, 20, 50, 100, 200} {
		if round >= least {
			return round
		}
	}
	return least
}

// portionTable is the table of test portions, taken from the function that
// looks it up; it reports whether the balance makes any larger.
func (r *RubOutRequest) portionTable() ([]PortionRow, bool) {
	rows, larger := []PortionRow{}, false
	for _, x := range []struct {
		text string
		in   quantity.Absorption
	}{{"under 10 g/100 g", 5}, {"10 to 30", 20}, {"31 to 50", 40}, {"51 to 80", 60}, {"over 80", 100}} {
		p := absorption.TestPortion(x.in, false)
		if w := r.weighable(x.in); w > p {
			p, larger = w, true
		}
		rows = append(rows, PortionRow{x.text, p})
	}
	return append(rows, PortionRow{"organic pigments", absorption.TestPortion(0, true)}), larger
}

// organicPigment reports whether a pigment is an organic one by its Colour Index
// number: inorganic colouring matters have the numbers from 77000. Without a
// number it is taken as inorganic. Basis: the Colour Index's own order, from
// memory.
func organicPigment(m *material.Material) bool {
	return m.CINumber != "" && !strings.HasPrefix(m.CINumber, "77")
}

// rubOutHints are the method in words.
func rubOutHints(r *RubOutRequest) []Hint {
	end := Hint{"end point", "A stiff, smooth, putty-like paste that hangs together and just spreads on the glass without cracking, crumbling or parting from the oil, after thorough rubbing. Crumbs: not there yet. It flows or shines wet: past it, start again.", is33 + "; ASTM D281; the last sentence common practice"}
	if r.Method == material.GardnerColeman {
		end = Hint{"end point", "Stir and fold gently, never rub; stop at a soft paste that takes in all the powder. It is normally a higher figure than the rub-out, and is recorded apart.", "ASTM D1483, as restated"}
	}
	hints := []Hint{
		{"oil", "Raw or refined linseed oil, always from the same bottle: figures compare only at the same acid value. The methods differ: 5 to 7 mg KOH/g (ISO 787-5, from memory), 3 ± 1 (ASTM D281), 7.5 to 8.5 (IS 33). Write down what your bottle's label gives, or its brand and age.", "ISO 787-5:1980; ASTM D281; IS 33"},
		{"pace", "Four or five drops at a time at first, each rubbed in with the knife; near the end drop by drop. The whole test takes 20 to 25 minutes; one hand, one pressure, one pace for all tests.", is33},
		end,
		{"moisture", "Test dry powder. Water in it is weighed as pigment, so 5 % of it hides 5 % of the oil, and damp powder lumps and sheds oil so that the end point is missed.", "arithmetic of the damp mass; the lumps common practice"},
		{"repeats", say("Two tests, and a third where they differ by more than %.3g %% of their mean. The figure moves with rubbing time and force, acid value, damp and lot: it belongs to this jar.", 100*float64(r.Allowed)), "duplicates: IS 33 and Hansen, Oil adsorption (spatula); 5 % common practice; what moves it: Gettens and Stout 1942, p. 149"},
	}
	if r.Pigment != nil {
		hints = append(hints, DryingRule(r.Pigment))
	}
	return hints
}
