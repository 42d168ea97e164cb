package rheology

import (
	"fmt"
	"math"
	"sync"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// gumTable is the viscosity of gum arabic in water at 25 °C: share by mass,
// mPa·s. Pure water stands in front of the printed entries.
var gumTable = [...]struct{ share, viscosity float64 }{
	{0, 0.8900}, {0.05, 7}, {0.10, 17}, {0.20, 41}, {0.30, 200}, {0.40, 936}, {0.50, 4163},
}

// The end of the gum table, where it was measured, and the temperatures to which
// the viscosity of water may carry it.
const (
	MostGum     quantity.MassFraction = 0.50
	gumMeasured quantity.Celsius      = 25
	gumColdest  quantity.Celsius      = 15
	gumWarmest  quantity.Celsius      = 50
	// NewtonianGum is the share up to which gum solutions flow as simple liquids.
	NewtonianGum quantity.MassFraction = 0.40
)

// GumArabicRelation is the viscosity of gum water.
var GumArabicRelation = trace.Relation{
	Name:     "viscosity of gum arabic in water",
	Equation: "ln η interpolated by share at 25 °C, times ηw(t)/ηw(25 °C)",
	Source:   "Belitz, Grosch and Schieberle, Food Chemistry, 4th ed. (2009), table 4.21; temperature as found in Sci. Am. Suppl. 821 (1891), to 15 %",
}

// GumArabic is the viscosity of a solution of gum arabic in water, gum's share
// by mass as weighed, from 0 to 50 % and 15 to 50 °C. The printed entries are at
// 25 °C; between them the logarithm is taken as straight. With temperature a
// solution changes as its water does: measured solutions of two gums kept within
// 15 % of that from 18 to 50 °C.
//
// The table is one gum's. Gums differ by a factor of two either way, see
// [GumGrade]. Salts, acids and age thin the solution; above [NewtonianGum] it is
// thinner the harder it is stirred.
func GumArabic(gum quantity.MassFraction, t quantity.Celsius) (quantity.Viscosity, error) {
	if !(gum >= 0 && gum <= MostGum) {
		return 0, fmt.Errorf("gum is %.4g %% of the solution by mass: the viscosity table runs from 0 to %.4g %%", 100*float64(gum), 100*float64(MostGum))
	}
	if !(t >= gumColdest && t <= gumWarmest) {
		return 0, fmt.Errorf("temperature is %g °C: gum solutions were measured from %g to %g °C", float64(t), float64(gumColdest), float64(gumWarmest))
	}
	i := 0
	for i < len(gumTable)-2 && float64(gum) > gumTable[i+1].share {
		i++
	}
	a, b := gumTable[i], gumTable[i+1]
	u := (float64(gum) - a.share) / (b.share - a.share)
	log := (1-u)*math.Log(a.viscosity) + u*math.Log(b.viscosity)
	water, err := WaterViscosity(t)
	if err != nil {
		return 0, err
	}
	reference, err := WaterViscosity(gumMeasured)
	if err != nil {
		return 0, err
	}
	return quantity.Viscosity(math.Exp(log)) * water / reference, nil
}

// gumGrades are measurements of other gums: what a source found for a solution.
var gumGrades = [...]struct {
	low, high quantity.Viscosity
	share     quantity.MassFraction
	at        quantity.Celsius
	source    string
}{
	{17, 17, 0.10, 25, "belitz-2009"},
	{60, 100, 0.25, 25, "gum-specification"},
	{5.57, 5.57, 0.10, 15, "gum-substitutes-1891"},
	{6.36, 6.36, 0.10, 15, "gum-substitutes-1891"},
}

// GumGrade is how the gum in the maker's jar may differ from the table: a factor
// on [GumArabic], combined from three sources: the table itself, the specification
// of a grade (60 to 100 mPa·s at 25 % and 25 °C) and two gums measured in 1891
// (5.57 and 6.36 mPa·s at 10 % and 15 °C).
func GumGrade() evidence.Distribution[quantity.Ratio] { return gumGrade() }

var gumGrade = sync.OnceValue(func() evidence.Distribution[quantity.Ratio] {
	var readings []evidence.Reading[quantity.Ratio]
	for _, g := range gumGrades {
		table, err := GumArabic(g.share, g.at)
		if err != nil {
			panic("gum grades lie inside the gum table") // a row outside is a fault of this file
		}
		readings = append(readings, evidence.Reading[quantity.Ratio]{
			Low: quantity.Ratio(g.low / table), High: quantity.Ratio(g.high / table), Source: g.source,
		})
	}
	return evidence.Combine(readings, evidence.Width{Sigma: 0.5, Weight: 1})
})
