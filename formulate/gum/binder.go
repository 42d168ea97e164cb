package gum

import (
	"fmt"
	"strings"
	"sync"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// DemandRelation is the hypothesis of this package.
var DemandRelation = trace.Relation{
	Name:     "dry binder a pigment takes (a hypothesis)",
	Equation: "Vb = s·m·OAv/100",
	Source:   "hypothesis: gum demand goes with oil absorption by volume; s read off published recipes",
}

// Demand is the volume of dry binder, gum and humectant, for a mass of pigment:
// s·m·OAv/100. A hypothesis: see the package documentation.
func Demand(pigment quantity.Mass, oil quantity.AbsorptionVolume, s quantity.Ratio) quantity.Volume {
	return quantity.Volume(s) * oil.TakenBy(pigment)
}

// Sources that no catalogue entry rests on, cited in full. The others are keys
// of the media catalogue.
const (
	dioscorides      = "Dioscorides, carbon ink, quoted in The History of Ink (n.d.), p. 65"
	henleyStencil    = "Henley N.W. (ed.), Twentieth Century Formulas, stencil inks (1914)"
	grindingPage     = "Johansen T., Paint making: watercolour and gouache (n.d.)"
	illuminatorsPage = "illuminators' page, Gum and glair (n.d.)"
)

// scales are the s of published recipes, worked out from their own figures.
// Where a recipe names no pigment, one that takes up its own volume of oil
// stands in; where it counts pigment paste, the paste is soft. Recipes by the
// loose spoon are left out: their powders' bulk densities are not known.
var scales = []evidence.Reading[quantity.Ratio]{
	{Value: 0.21, Source: dioscorides, Note: "soot 3, gum 1"},
	{Value: 0.35, Source: "ink-recipe-sheet", Note: "pigment 15 g, gum solution 1 : 15, 50 g; pigment not named, taken as 3 g/ml"},
	{Value: 0.91, Source: henleyStencil, Note: "Prussian blue 2, lampblack 1, gum 3, glycerine at will left out"},
	{Low: 0.28, High: 0.37, Source: grindingPage, Note: "a quarter to a third of binder by volume; pigment not named"},
	{Value: 1.12, Source: illuminatorsPage, Note: "paste 1, gum solution 1 : 4 1, honey ¼; pigment not named"},
	{Value: 1.25, Source: "watercolour-recipe-honey", Note: "paste 1, binder with honey 1; pigment not named"},
}

// scaleWidth is how far recipes for one pigment are taken to differ: a factor of
// two and a half, 8 times in 10. From the six recipes themselves.
var scaleWidth = evidence.Width{Sigma: 0.6, Weight: 2}

// Scale is the spread of s over the published recipes.
var Scale = sync.OnceValue(func() evidence.Distribution[quantity.Ratio] {
	return evidence.Combine(scales, scaleWidth)
})

// Scales lists what [Scale] rests on.
func Scales() []evidence.Reading[quantity.Ratio] {
	return append([]evidence.Reading[quantity.Ratio](nil), scales...)
}

// humectants are published ratios of humectant to gum by mass, as weighed.
var humectants = []evidence.Reading[quantity.Ratio]{
	{Value: 0.158, Source: "gettens-stout", Note: "at most 5 % of glycerine in a solution of 1 : 2"},
	{Value: 0.5, Source: grindingPage, Note: "gum 2, water 4, glycerine 1"},
	{Value: 0.658, Source: "kay-1983", Note: "gum 3 oz, glycerine 1½ fl oz"},
	{Value: 1.25, Source: illuminatorsPage, Note: "gum solution 1 : 4 1 part, honey ¼"},
	{Value: 1.85, Source: "watercolour-recipe-honey", Note: "gum 100 g, glycerine 130 g, honey 55 g"},
}

// HumectantRatios lists the published ratios of humectant to gum, low to high.
func HumectantRatios() []evidence.Reading[quantity.Ratio] {
	return append([]evidence.Reading[quantity.Ratio](nil), humectants...)
}

var humectantSpread = sync.OnceValue(func() evidence.Distribution[quantity.Ratio] {
	return evidence.Combine(humectants, evidence.Width{Sigma: 1, Weight: 1})
})

// Air is how damp the air is that the paint will live in.
type Air string

const (
	DryAir      Air = "dry"
	OrdinaryAir Air = "ordinary"
	DampAir     Air = "damp"
)

// Airs lists them.
func Airs() []Air { return []Air{DryAir, OrdinaryAir, DampAir} }

// quartile is the deviate that halves one side of a spread.
const quartile = 0.6744897501960817

// HumectantFor is where in the published spread a paint for this air is put:
// its middle for ordinary air, its quarters for dry and damp air. Common
// practice: dry air asks for more humectant; no source says how much more.
func HumectantFor(a Air) (quantity.Ratio, error) {
	switch a {
	case DryAir:
		return humectantSpread().At(quartile), nil
	case OrdinaryAir:
		return humectantSpread().Median, nil
	case DampAir:
		return humectantSpread().At(-quartile), nil
	}
	var names []string
	for _, x := range Airs() {
		names = append(names, string(x))
	}
	return 0, fmt.Errorf("%q is not a kind of air; accepted: %s", a, strings.Join(names, ", "))
}

// looseShare is bulk density over true density of loose fine powders: eight
// powders of the pigment catalogue have both, from 0.05 (fluffy carbon black) to
// 0.41 (chalk).
var looseShare = evidence.Distribution[quantity.Ratio]{Median: 0.12, Sigma: 0.7}

// LooseDensityRelation estimates a bulk density.
var LooseDensityRelation = trace.Relation{
	Name:     "bulk density of a loose powder (an estimate)",
	Equation: "ρbulk = f·ρ, f = 0.12 within a factor of 2.5",
	Source:   "eight catalogued powders; common practice is to weigh a level spoon",
}

// LooseDensity estimates a powder's loose bulk density from its true density.
func LooseDensity(d evidence.Distribution[quantity.Density]) evidence.Distribution[quantity.Density] {
	return evidence.Distribution[quantity.Density]{Median: d.Median * quantity.Density(looseShare.Median), Sigma: looseShare.Sigma}
}
