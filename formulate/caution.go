package formulate

import (
	"fmt"
	"sort"
	"strings"

	"mullwright/formulate/material"
)

// A Setting is what is about to be done with the materials: it decides which
// cautions apply.
type Setting uint8

const (
	DryPowder   Setting = 1 << iota // weighing or mulling loose powder
	InOil                           // drying oil on rags, paper and slab
	InWater                         // gum, glue or ink in water
	WithSolvent                     // solvent poured or evaporating
	Heated                          // anything warmed
	Kept                            // paint put by in tubes, pans or bottles
)

// A Caution is a warning with its reason, shown where the decision is made.
type Caution struct {
	About  string // one or two words: "lead", "oily rags"
	Text   string
	Of     []string // ids of the materials it is about, empty for the work itself
	Source string
	// Stop marks a pair that can poison, burn or explode where it meets: it is
	// said before anything is weighed.
	Stop bool
}

// OilyRags is what the caution on drying oil in rags and paper is about.
const OilyRags = "oily rags"

const deferral = "Follow the product's safety data sheet and local rules."

// A hazardRule fires for every material of a class.
type hazardRule struct {
	class  material.Class
	when   Setting // any of these
	about  string
	text   string
	source string
}

var hazardRules = []hazardRule{
	{material.Lead, DryPowder | InWater | Kept, "lead", "Lead compound: harms nerves, blood, kidneys and the unborn; children worst. No loose dust, no food near, wash hands, wet-wipe. Not for children.", "Babin, pigment safety guide (CSA), as quoted in the catalogue; common practice"},
	{material.Lead, InWater, "lead in water colour", "Nothing in gum or glue shields lead colours as oil does: sulphur in the air and in other colours blackens them. Frame the picture behind glass, or take another pigment.", "Wehlte, via Kay (1983), p. 61, and a supplier's notes on whites, as quoted in the catalogue; glass is common practice"},
	{material.Cadmium, DryPowder | Heated, "cadmium", "Cadmium compound: dust is a cancer and kidney hazard by breathing. Fit a particle mask, damp the powder early, never heat or sand it.", "NIOSH Pocket Guide, cadmium dust; common practice"},
	{material.Arsenic, DryPowder | InWater | Heated | Kept, "arsenic", "Arsenic compound: poisonous and a cancer hazard; acid, damp or heat can free arsenic gases. Best bought ready made or left alone.", "NIOSH Pocket Guide, arsenic; common practice"},
	{material.Mercury, DryPowder | Heated | Kept, "mercury", "Mercury compound: poisonous dust, poisonous vapour when heated.", "common practice"},
	{material.Chromate, DryPowder | InWater | Kept, "chromate", "Chromium(VI) compound: cancer hazard by breathing, skin ulcers and allergy. Gloves, particle mask, no dry sweeping.", "OSHA, lead chromate exposure limits; common practice"},
	{material.Cobalt, DryPowder, "cobalt", "Cobalt compound: dust harms the lungs and can make skin and breathing allergic.", "common practice"},
	{material.Manganese, DryPowder, "manganese", "Contains manganese: breathing the dust over time harms the nerves.", "common practice"},
	{material.Nickel, DryPowder, "nickel", "Contains nickel: allergy and cancer hazard by dust.", "common practice"},
	{material.Antimony, DryPowder, "antimony", "Contains antimony: harmful dust.", "common practice"},
	{material.ReactiveCopper, DryPowder | InWater, "copper", "Copper compound: harmful when breathed in or swallowed, and its salts poison water life.", "Supplier notes on heavy metals and IPCS safety card 0751 (a copper salt), as quoted in the catalogue"},
	{material.Barium, DryPowder | InWater, "barium", "Barium compound that dissolves, in stomach acid at the latest: poisonous when swallowed.", "from memory"},
	{material.CrystallineSilica, DryPowder, "silica dust", "May hold crystalline silica: fine dust scars the lungs and is a cancer hazard.", "common practice"},
	{material.IronCyanide, DryPowder | InWater | InOil | Heated | Kept, "iron cyanide", "Iron cyanide blue: never heat or calcine it and keep it from acid: hydrogen cyanide can form. Fine dry powder can smoulder.", "Trade entry on iron blue (ferrocyanide cards of the IPCS agree); no heat limit was found"},
	{material.Flammable, WithSolvent | Heated, "solvent fire", "Flammable vapour, heavier than air: no flame, spark or hot plate in the room, lid on, never melt wax with solvent over a flame.", "IPCS safety cards of the solvents; common practice"},
	{material.Flammable, WithSolvent, "solvent vapour", "Vapour is breathed long before it is smelt as too much. Ventilate, keep the open surface small; odourless does not mean harmless.", "common practice"},
	{material.DryingOil, InOil, OilyRags, "Rags, paper and gloves wet with drying oil heat up by themselves and can take fire within hours. Spread singly outdoors to harden, or into a lidded metal can under water.", "Hawkins, self-heating of oily rags; fire services' advice"},
	{material.Moulds, InWater, "mould", "Feeds mould: clean water, clean hands, a preservative within its dose, keep cold or use soon.", "common practice"},
	{material.Zinc, InOil, "zinc soaps", "Zinc oxide forms soaps with oil and its films grow brittle: keep it out of lower layers and large shares.", "pigment data sheets as cited in the catalogue"},
	{material.CarbonBlack, DryPowder, "soot", "Very light powder that floats: wet it with a drop of spirit before you stir.", "common practice"},
	{material.HeatSensitive, Heated, "heat", "Heat changes or breaks down this material.", "catalogue entry"},
	{material.Oxidiser, DryPowder | Heated, "oxidiser", "Strong oxidiser: keep from paper, sawdust, oil-soaked waste, sulphides and acids.", "IPCS safety card 0175, manganese dioxide"},
}

// A pairRule fires where one material of each class meets in a formula.
type pairRule struct {
	a, b   material.Class
	about  string
	text   string
	source string
}

var pairRules = []pairRule{
	{material.Sulphide, material.Lead, "sulphide with lead", "may darken to lead sulphide; rare in oil, real in water media", "Wehlte, via Kay (1983), p. 61"},
	{material.Sulphide, material.ReactiveCopper, "sulphide with copper", "copper greens and blues blacken with sulphides", "Wehlte, via Kay (1983), p. 61"},
	{material.Sulphide, material.Arsenic, "sulphide with arsenical green", "copper arsenic greens blacken with sulphides", "Wehlte, via Kay (1983), p. 61"},
	{material.Sulphide, material.Acid, "sulphide with acid", "acid frees hydrogen sulphide, a poisonous gas, and destroys the colour", "Seilnacht, ultramarine"},
	{material.Sulphide, material.Oxidiser, "sulphide with oxidiser", "strong oxidisers react with sulphides", "IPCS safety card 0404"},
	{material.IronCyanide, material.Alkaline, "iron blue with alkali", "alkali destroys Prussian blue (it turns brown)", "Printing trade entry on iron blue; Massey (1967), lime-proof list"},
	{material.IronCyanide, material.Acid, "iron blue with acid", "strong acid can free hydrogen cyanide: keep acid away altogether", "Ferrocyanide safety notes (IPCS 1132, analogue)"},
	{material.IronCyanide, material.Chromate, "iron blue with lead chromate", "dry mixtures can react violently: never grind the two dry together", "Chemical hazard sheet of lead chromate, reactivity"},
	{material.IronCyanide, material.Oxidiser, "iron blue with oxidiser", "oxidisers can set off the dry blue", "common practice"},
	{material.Chromate, material.Azo, "chromate with azo pigment", "dry mixtures can explode: never grind the two dry together", "Chemical hazard sheet of lead chromate, reactivity"},
	{material.AcidSensitive, material.Acid, "acid-sensitive pigment with acid", "weak acid, vinegar-preserved gum included, destroys or dissolves it", "Tudor-Hart (1922) for ultramarine; chemistry of carbonates"},
	{material.AcidSensitive, material.NeedsAcid, "acid-sensitive pigment with this preservative", "the preservative works only where it is acid, and acid enough for it destroys the pigment: choose one that needs no acid", "common practice; Tudor-Hart (1922) for ultramarine"},
	{material.Carbonate, material.Acid, "carbonate with acid", "fizzes, dissolves and uses up the acid that was meant to preserve", "chemistry of carbonates"},
	{material.AlkaliSensitive, material.Alkaline, "alkali-sensitive pigment with alkali", "alkali changes the colour", "Massey (1967), lime-proof list"},
	{material.ReactiveCopper, material.Alkaline, "copper pigment with ammonia or alkali", "alkali, ammonia most, attacks copper pigments", "common practice"},
	{material.ReactiveCopper, material.Acid, "copper pigment with acid", "acid dissolves copper carbonates; the salts are poisonous", "common practice"},
	{material.Arsenic, material.Acid, "arsenic pigment with acid", "acid and damp can free arsenic compounds", "Chemical data card of emerald green"},
	{material.Zinc, material.Acid, "zinc with acid binder", "acid binders form zinc soaps and thicken the paint", "Pigment data page, zinc white"},
	{material.Mercury, material.Oxidiser, "vermilion with oxidiser", "strong oxidisers attack mercury sulphide", "Chemical data card of mercury sulphide"},
	{material.Manganese, material.Reducing, "manganese with reducing material", "manganese dioxide reacts with reducing and combustible material", "IPCS safety card 0175"},
	{material.Gels, material.Gelling, "gum with borax or salts", "borax and soluble iron or lead salts turn gum arabic into a jelly: keep them out of one bottle", "US Pharmacopeia IX, Acacia"},
	{material.Protein, material.IronGall, "protein with tannin", "tannin curdles glue and egg", "common practice"},
}

// stops names the pairs of pairRules that are a danger by meeting, not only a
// loss of colour.
var stops = map[string]bool{
	"sulphide with acid": true, "iron blue with acid": true, "iron blue with lead chromate": true, "iron blue with oxidiser": true,
	"chromate with azo pigment": true, "arsenic pigment with acid": true, "sulphide with oxidiser": true, "manganese with reducing material": true,
}

// DustHazard reports whether the dry powder of a material has a caution of its
// own, by its class or by a hazard its sources list.
func DustHazard(m *material.Material) bool {
	if m.Hazards.Listed {
		return true
	}
	for _, r := range hazardRules {
		if r.when&DryPowder != 0 && r.class != material.CarbonBlack && m.Has(r.class) {
			return true
		}
	}
	return false
}

// Cautions collects what is to be said about using these materials in these
// settings: the work's own cautions first, then each material's class, then
// each pair that does not get on. Same materials, same order.
func Cautions(when Setting, materials ...*material.Material) []Caution {
	var out []Caution
	if when&DryPowder != 0 {
		out = append(out, Caution{About: "dust", Text: "Any fine powder harms the lungs: particle mask, damp the powder early, wet-wipe, no sweeping. " + deferral, Source: "common practice"})
	}
	if when&(DryPowder|Kept) != 0 {
		out = append(out, Caution{About: "kitchen", Text: "Tools, spoons and jars used for pigment never go back to food. Not for children, not near food.", Source: "common practice"})
	}
	for _, r := range hazardRules {
		if when&r.when == 0 {
			continue
		}
		if ids := withClass(materials, r.class); len(ids) > 0 {
			out = append(out, Caution{About: r.about, Text: r.text, Of: ids, Source: r.source})
		}
	}
	if ids := poisonous(materials); when&InWater != 0 && len(ids) > 0 {
		out = append(out, Caution{About: "brush and mouth", Text: "Never point a brush with your lips: what is in the wash is swallowed. No drinking cup for rinsing.", Of: ids, Source: "common practice"})
	}
	for _, r := range pairRules {
		a, b := withClass(materials, r.a), withClass(materials, r.b)
		if !twoMaterials(a, b) {
			continue
		}
		out = append(out, Caution{
			About: r.about, Text: strings.ToUpper(r.text[:1]) + r.text[1:] + ".",
			Of: union(a, b), Source: r.source, Stop: stops[r.about],
		})
	}
	if ids := unassessed(materials); len(ids) > 0 {
		out = append(out, Caution{About: "not assessed", Text: fmt.Sprintf("Hazards not assessed here for %s: that is not a clearance. %s", strings.Join(ids, ", "), deferral), Of: ids, Source: "catalogue"})
	}
	return out
}

// poisonous lists the pigments whose powder has a caution of its own.
func poisonous(materials []*material.Material) []string {
	var ids []string
	for _, m := range materials {
		if m.Kind.IsPigment() && DustHazard(m) {
			ids = append(ids, m.ID)
		}
	}
	return union(ids, nil)
}

// isPairCaution reports whether a caution is about two materials meeting.
func isPairCaution(c Caution) bool {
	for _, r := range pairRules {
		if r.about == c.About {
			return true
		}
	}
	return false
}

func withClass(materials []*material.Material, class material.Class) []string {
	var ids []string
	for _, m := range materials {
		if m.Has(class) {
			ids = append(ids, m.ID)
		}
	}
	return union(ids, nil)
}

// twoMaterials reports whether the two lists hold at least two different
// materials between them, one from each: a material does not quarrel with itself.
func twoMaterials(a, b []string) bool {
	for _, x := range a {
		for _, y := range b {
			if x != y {
				return true
			}
		}
	}
	return false
}

func union(a, b []string) []string {
	seen := map[string]bool{}
	var out []string
	for _, x := range append(append([]string(nil), a...), b...) {
		if !seen[x] {
			seen[x] = true
			out = append(out, x)
		}
	}
	sort.Strings(out)
	return out
}

func unassessed(materials []*material.Material) []string {
	var ids []string
	for _, m := range materials {
		if !m.Hazards.Assessed && m.Kind != material.Water {
			ids = append(ids, m.ID)
		}
	}
	return union(ids, nil)
}
