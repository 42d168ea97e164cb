package formulate

import (
	"errors"
	"fmt"
	"strings"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// A Symptom is what the maker sees on the paper or in the pan.
type Symptom string

const (
	PowdersOff Symptom = "powders"        // rubs off when dry
	Glossy     Symptom = "glossy"         // shiny, patchy
	Cracks     Symptom = "cracks"         // brittle in the pan or on the paper
	Curls      Symptom = "curls"          // pulls itself or the paper up
	Sticky     Symptom = "sticky"         // never dries hard
	Mouldy     Symptom = "mouldy"         // mould on it
	NoRewet    Symptom = "will-not-rewet" // the dry pan does not take water
	Beads      Symptom = "beads"          // stands in beads on the paper
	DriedUp    Symptom = "dried-up"       // tube colour that lost its water
)

// A GumPowder is a pigment or extender in a batch, dry.
type GumPowder struct {
	Ingredient
	Mass quantity.Mass
}

// A GumPour is a liquid, or a powder that dissolves, in a batch as it was
// weighed: gum solution, humectant, wetting agent, preservative, water.
type GumPour struct {
	Liquid
	Mass quantity.Mass
}

// GumBatch is a watercolour or an ink in gum as it stands.
type GumBatch struct {
	Powders []GumPowder
	Pours   []GumPour
}

// Paint is the batch at the typical values.
func (b GumBatch) Paint() Paint {
	var seats Roster
	for i := range b.Powders {
		seats.Seat(&b.Powders[i].Ingredient)
	}
	pours := make([]Liquid, len(b.Pours))
	for i := range b.Pours {
		pours[i] = b.Pours[i].Liquid
		pours[i].Sit(&seats)
	}
	z := make([]float64, seats.Inputs())
	var p Paint
	for i := range b.Powders {
		in := &b.Powders[i]
		role := RoleOf(in.Material.Kind)
		p.Add(in.Component(in.At(z[:deviatesEach]), role, in.Mass))
	}
	for i := range pours {
		for _, c := range pours[i].Pour(nil, b.Pours[i].Mass, z) {
			p.Add(c)
		}
	}
	return p
}

// Weighed is the mass of all parts of one kind, as weighed.
func (b GumBatch) Weighed(kind material.Kind) quantity.Mass {
	var sum quantity.Mass
	for i := range b.Pours {
		for j := range b.Pours[i].Parts {
			if p := &b.Pours[i].Parts[j]; p.Material.Kind == kind {
				sum += b.Pours[i].Mass * quantity.Mass(p.Share)
			}
		}
	}
	return sum
}

// HumectantRatio is the batch's humectant to gum by mass, as weighed.
func (b GumBatch) HumectantRatio() quantity.Ratio {
	return gum.HumectantRatio(b.Weighed(material.Humectant), b.Weighed(material.Gum))
}

// Plus is the batch with an addition.
func (b GumBatch) Plus(l Liquid, m quantity.Mass) GumBatch {
	b.Pours = append(append([]GumPour(nil), b.Pours...), GumPour{l, m})
	return b
}

// PlusPigment is the batch with its pigments raised by a share of themselves.
func (b GumBatch) PlusPigment(share quantity.Ratio) GumBatch {
	b.Powders = append([]GumPowder(nil), b.Powders...)
	for i := range b.Powders {
		b.Powders[i].Mass *= 1 + quantity.Mass(share)
	}
	return b
}

// GumMeans is what there is at hand to correct with.
type GumMeans struct {
	Solution     Liquid // gum solution, without humectant
	Humectant    Liquid
	Wetting      Liquid
	Preservative Liquid
	Water        Liquid
}

// Steps of one correction. No source prints any; common practice is to change
// one thing by about a fifth and to test again.
const (
	gumStep       = 0.25 // of the gum in the batch
	pigmentStep   = 0.20 // of the pigment in the batch
	humectantStep = 0.15 // of the gum, added to or taken off the ratio
	wettingStep   = 0.005
	wettingMost   = 0.02 // of the paint
)

// CorrectionBasis is what the steps rest on.
const CorrectionBasis = "common practice: one change at a time, about a fifth, then the rub and wash test; no published step was found"

// GumRemedy is one stated step for a batch.
type GumRemedy struct {
	Symptom Symptom
	Cause   string // what is out of proportion
	Change  string // the ratio that the step moves: "gum to pigment"
	// Add is what to put in: a liquid, or more of the batch's own pigments.
	Add         *material.Material // nil: more of the batch's own pigments, or nothing
	AddMass     quantity.Mass
	PigmentMore quantity.Ratio // share of each pigment to add
	Discard     bool           // the batch cannot be mended; Add is for the next one
	Test        string         // how to see whether it was enough
	Notes       []string
	Basis       string

	Before, After quantity.Ratio // the moved ratio
	// The two numbers that are always shown.
	HumectantBefore, HumectantAfter quantity.Ratio
	PVCBefore, PVCAfter             quantity.VolumeFraction

	Batch Paint // as it is after the step, at the typical values
}

// A gumRule is one symptom with its cause and what to do.
type gumRule struct {
	symptom Symptom
	seen    string
	remedy  func(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error)
}

var gumRules = []gumRule{
	{PowdersOff, "powders off when rubbed dry", moreGum},
	{Glossy, "dries shiny or patchy", morePigment},
	{Cracks, "cracks", forCracks},
	{Curls, "curls, or pulls the paper up", morePigment},
	{Sticky, "stays sticky", moreGumToHumectant},
	{Mouldy, "goes mouldy", againstMould},
	{NoRewet, "the dry paint will not take up water", moreHumectant},
	{Beads, "stands in beads on the paper", moreWetting},
	{DriedUp, "tube colour has dried up", moreWater},
}

// Symptoms lists the symptoms that have a remedy, with what is seen.
func Symptoms() []Remark {
	out := make([]Remark, len(gumRules))
	for i, r := range gumRules {
		out[i] = Remark{ID: string(r.symptom), Text: r.seen, Source: CorrectionBasis}
	}
	return out
}

// ParseSymptom reads the name of a symptom.
func ParseSymptom(text string) (Symptom, error) {
	var names []string
	for _, r := range gumRules {
		if strings.EqualFold(strings.TrimSpace(text), string(r.symptom)) {
			return r.symptom, nil
		}
		names = append(names, string(r.symptom))
	}
	return "", fmt.Errorf("%q is not a symptom; accepted: %s", text, strings.Join(names, ", "))
}

// GumCorrection turns a symptom of a batch into one step with its amount. What
// is at hand is added as it is; a means that a remedy does not need may be empty.
func GumCorrection(b GumBatch, s Symptom, with GumMeans) (GumRemedy, error) {
	if err := b.check(); err != nil {
		return GumRemedy{}, err
	}
	for _, rule := range gumRules {
		if rule.symptom != s {
			continue
		}
		r, after, err := rule.remedy(b, with)
		if err != nil {
			return GumRemedy{}, err
		}
		r.Symptom, r.Basis = s, CorrectionBasis
		r.HumectantBefore, r.HumectantAfter = b.HumectantRatio(), after.HumectantRatio()
		r.Batch = after.Paint()
		r.PVCBefore, r.PVCAfter = b.Paint().Figures().PVC(), r.Batch.Figures().PVC()
		return r, nil
	}
	_, err := ParseSymptom(string(s))
	return GumRemedy{}, err
}

// GumToPVC is the gum solution that brings an under-bound batch down to a PVC of
// the dry film. A batch that is there already, or below, needs pigment instead.
func GumToPVC(b GumBatch, want quantity.VolumeFraction, solution Liquid) (quantity.Mass, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	if !(want > 0 && want < 1) {
		return 0, errors.New("a PVC is above 0 and below 100 %")
	}
	f := b.Paint().Figures()
	if f.PVC() <= want {
		return 0, fmt.Errorf("the PVC is %.1f %% already, at or below the %.1f %% asked for: add pigment, not gum", 100*float64(f.PVC()), 100*float64(want))
	}
	perGram := dryVolumePerGram(solution)
	if perGram == 0 {
		return 0, fmt.Errorf("%s leaves nothing in the dry film", solution.Material.ID)
	}
	short := absorption.LiquidAtPVC(f.PigmentVolume, want) - f.BinderVolume - f.AdditiveVolume
	return quantity.Mass(float64(short) / perGram), nil
}

// PigmentToPVC is how much of each pigment, as a share of what is in, brings an
// over-bound batch up to a PVC of the dry film.
func PigmentToPVC(b GumBatch, want quantity.VolumeFraction) (quantity.Ratio, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	if !(want > 0 && want < 1) {
		return 0, errors.New("a PVC is above 0 and below 100 %")
	}
	f := b.Paint().Figures()
	if f.PVC() >= want {
		return 0, fmt.Errorf("the PVC is %.1f %% already, at or above the %.1f %% asked for: add gum, not pigment", 100*float64(f.PVC()), 100*float64(want))
	}
	pigment := absorption.PigmentAtPVC(f.BinderVolume+f.AdditiveVolume, want)
	return quantity.Ratio(pigment/f.PigmentVolume - 1), nil
}

// dryVolumePerGram is what a gram of a liquid leaves in the dry film.
func dryVolumePerGram(l Liquid) float64 {
	f := (GumBatch{Pours: []GumPour{{l, 1}}}).Paint().Figures()
	return float64(f.BinderVolume + f.AdditiveVolume)
}

func (b GumBatch) check() error {
	if len(b.Powders) == 0 {
		return errors.New("there is no pigment in it")
	}
	for i := range b.Powders {
		p := &b.Powders[i]
		if !p.Material.Kind.IsPigment() {
			return fmt.Errorf("%s (%s) cannot be the pigment", p.Material.ID, p.Material.Kind)
		}
		if !positive(p.Mass) {
			return fmt.Errorf("%s: the mass must be above nothing", p.Material.ID)
		}
	}
	for i := range b.Pours {
		if !positive(b.Pours[i].Mass) {
			return fmt.Errorf("%s: the mass must be above nothing", b.Pours[i].Material.ID)
		}
	}
	if b.Weighed(material.Gum) == 0 {
		return errors.New("there is no gum in it")
	}
	return nil
}

func (m GumMeans) need(l Liquid, what string) error {
	if l.Material == nil {
		return fmt.Errorf("no %s given to correct with", what)
	}
	return nil
}

const (
	testRub  = "paint out, dry, rub hard with a finger and with paper: nothing may come off"
	testGlos = "paint out, dry: no shine, and a second wash over it lies evenly"
)

// gumSolution adds gum as solution.
func gumSolution(b GumBatch, m GumMeans, more quantity.Mass) (GumRemedy, GumBatch, error) {
	if err := m.need(m.Solution, "gum solution"); err != nil {
		return GumRemedy{}, b, err
	}
	share := (GumBatch{Pours: []GumPour{{m.Solution, 1}}}).Weighed(material.Gum)
	if share == 0 {
		return GumRemedy{}, b, fmt.Errorf("%s holds no gum", m.Solution.Material.ID)
	}
	add := more / share
	return GumRemedy{Add: m.Solution.Material, AddMass: add}, b.Plus(m.Solution, add), nil
}

func moreGum(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error) {
	had := b.Weighed(material.Gum)
	r, after, err := gumSolution(b, m, gumStep*had)
	r.Cause, r.Change, r.Test = "too little gum for the pigment", "gum to pigment", testRub
	r.Before, r.After = gumToPigment(b), gumToPigment(after)
	return r, after, err
}

func moreGumToHumectant(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error) {
	had := b.HumectantRatio()
	if had == 0 {
		return GumRemedy{}, b, errors.New("there is no humectant in it: let it dry longer, in drier air, before anything is added")
	}
	to := max(had-humectantStep, had/2)
	r, after, err := gumSolution(b, m, b.Weighed(material.Humectant)/quantity.Mass(to)-b.Weighed(material.Gum))
	r.Cause, r.Change = "too much humectant for the gum, or very damp air", "humectant to gum"
	r.Test = "a thumb on the dry pan after two days in the room's own air: no tack"
	r.Before, r.After = had, after.HumectantRatio()
	r.Notes = []string{"the added gum also binds more: look for shine, and add pigment if it shows"}
	return r, after, err
}

func morePigment(b GumBatch, _ GumMeans) (GumRemedy, GumBatch, error) {
	after := b.PlusPigment(pigmentStep)
	return GumRemedy{
		Cause: "too much gum for the pigment", Change: "gum to pigment", Test: testGlos, PigmentMore: pigmentStep,
		Before: gumToPigment(b), After: gumToPigment(after),
		Notes: []string{"rub the pigment to a paste with water first, then mull it in"},
	}, after, nil
}

// gumAsked is how much gum, as weighed, the hypothesis of demand gives a batch's
// pigments with a humectant in that ratio to it; full is the gum at which the dry
// binder would take as much room as the oil that fills the pigment's gaps.
func gumAsked(b GumBatch, humectant Liquid, ratio quantity.Ratio) (asked evidence.Range[quantity.Mass], full quantity.Mass) {
	f := b.Paint().Figures()
	perGum := float64(f.BinderVolume)/float64(b.Weighed(material.Gum)) + float64(ratio)*dryVolumePerGram(humectant)
	full = quantity.Mass(float64(f.Demand) / perGum)
	s := gum.Scale().Range()
	return evidence.Range[quantity.Mass]{Low: full * quantity.Mass(s.Low), Typical: full * quantity.Mass(s.Typical), High: full * quantity.Mass(s.High)}, full
}

// forCracks chooses by the gum and by the humectant. Where the gum with its usual
// humectant would more than fill the gaps between the grains, or there is
// humectant enough, the gum is too much for the pigment; else humectant is what is
// missing.
func forCracks(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error) {
	middle, err := gum.HumectantFor(gum.OrdinaryAir)
	if err != nil {
		return GumRemedy{}, b, err
	}
	low := b.HumectantRatio() < middle
	if err := m.need(m.Humectant, "humectant"); low && err != nil {
		return GumRemedy{}, b, err
	}
	var beside string
	tooMuch := !low
	if m.Humectant.Material != nil {
		asked, full := gumAsked(b, m.Humectant, max(middle, b.HumectantRatio()))
		has := b.Weighed(material.Gum)
		tooMuch = tooMuch || has > full
		per := 100 / float64(b.powder())
		beside = say("gum is %.3g g to 100 g of pigment, as weighed; by its oil absorption the watercolour card would give %.2g g (%.2g–%.2g)",
			per*float64(has), per*float64(asked.Typical), per*float64(asked.Low), per*float64(asked.High))
	}
	var r GumRemedy
	var after GumBatch
	if tooMuch {
		r, after, err = morePigment(b, m)
	} else if r, after, err = moreHumectant(b, m); err == nil {
		r.Test = "a thin wash and a full pan, dried for two days: no cracks"
	}
	if beside != "" {
		r.Notes = append(r.Notes, beside)
	}
	switch {
	case tooMuch && low:
		r.Notes = append(r.Notes, fmt.Sprintf("too much gum cracks, whatever is in it to keep it soft; humectant is only %.2f of the gum too (published recipes: %.2f in the middle): if it still cracks then, add some", float64(b.HumectantRatio()), float64(middle)))
	case tooMuch:
		r.Notes = append(r.Notes, fmt.Sprintf("humectant is %.2f of the gum already, above the middle of published recipes (%.2f)", float64(b.HumectantRatio()), float64(middle)))
	}
	r.Notes = append(r.Notes, "pans also crack when a thick pour skins over: pour thinner, dry each through")
	return r, after, err
}

func moreHumectant(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error) {
	if err := m.need(m.Humectant, "humectant"); err != nil {
		return GumRemedy{}, b, err
	}
	add := humectantStep * b.Weighed(material.Gum)
	after := b.Plus(m.Humectant, add)
	return GumRemedy{
		Cause: "too little humectant for the gum", Change: "humectant to gum", Add: m.Humectant.Material, AddMass: add,
		Test:   "a wet brush on the dry pan lifts full colour within a few strokes",
		Before: b.HumectantRatio(), After: after.HumectantRatio(),
	}, after, nil
}

func moreWetting(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error) {
	if err := m.need(m.Wetting, "wetting agent"); err != nil {
		return GumRemedy{}, b, err
	}
	mass := b.Paint().Figures().Mass
	had := b.Weighed(material.WettingAgent)
	if had >= wettingMost*mass {
		return GumRemedy{}, b, refuse("wetting agent is %.2g %% of it already, as much as is usual: the paper may be greasy or hard-sized, try another sheet", 100*float64(had/mass))
	}
	add := wettingStep * mass
	after := b.Plus(m.Wetting, add)
	return GumRemedy{
		Cause: "the paint does not wet the paper", Change: "wetting agent to paint", Add: m.Wetting.Material, AddMass: add,
		Test:   "a wash lies flat on the paper it beaded on; more of it makes colours run into each other",
		Before: quantity.Ratio(had / mass), After: quantity.Ratio((had + add) / (mass + add)),
	}, after, nil
}

func againstMould(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error) {
	if err := m.need(m.Preservative, "preservative"); err != nil {
		return GumRemedy{}, b, err
	}
	most, ok := mostUse(m.Preservative.Material)
	if !ok {
		return GumRemedy{}, b, fmt.Errorf("%s: no dose is known; follow its maker's sheet", m.Preservative.Material.ID)
	}
	mass := b.Paint().Figures().Mass
	had := b.Weighed(material.Preservative)
	add := mass * quantity.Mass(most)
	return GumRemedy{
		Cause: "too little preservative, unclean water or tools, or kept warm and wet", Change: "preservative to paint",
		Add: m.Preservative.Material, AddMass: add, Discard: true,
		Test:   "a spoonful in a closed jar at room temperature for a month",
		Before: quantity.Ratio(had / mass), After: quantity.Ratio(most),
		Notes: []string{
			"throw the mouldy batch away, do not scrape and use it: mould dust harms the lungs",
			"the amount is the full published dose for a batch of this size, to be in from the start",
		},
	}, b, nil
}

// moreWater brings dried tube colour back to a soft paste. Its liquid is taken to
// be as much, by volume, as oil for the same body: a guide, to be added in parts.
func moreWater(b GumBatch, m GumMeans) (GumRemedy, GumBatch, error) {
	if err := m.need(m.Water, "water"); err != nil {
		return GumRemedy{}, b, err
	}
	soft, _ := absorption.NamedBody("soft")
	f := b.Paint().Figures()
	liquid := f.BinderVolume + f.AdditiveVolume + f.VolatileVolume
	var want quantity.Volume
	for i := range b.Powders {
		p := &b.Powders[i]
		want += p.Demand.OilAt(soft, p.Density.Median, 0, 0).TakenBy(p.Mass)
	}
	short := want - liquid
	if short <= 0 {
		return GumRemedy{}, b, errors.New("by what it holds it is soft already: weigh it, and give the water that is left in it")
	}
	add := short.Mass(waterDensity)
	return GumRemedy{
		Cause: "its water has gone", Change: "water to pigment", Add: m.Water.Material, AddMass: add,
		Test:   "add it in four parts, each left for an hour; stop when the paste spreads",
		Before: quantity.Ratio(f.VolatileMass / f.PigmentMass), After: quantity.Ratio((f.VolatileMass + add) / f.PigmentMass),
		Notes: []string{"linseed absorption is not water demand: the amount is a guide"},
	}, b.Plus(m.Water, add), nil
}

// powder is all pigment and extender in the batch.
func (b GumBatch) powder() quantity.Mass {
	var sum quantity.Mass
	for i := range b.Powders {
		sum += b.Powders[i].Mass
	}
	return sum
}

func gumToPigment(b GumBatch) quantity.Ratio {
	return quantity.Ratio(b.Weighed(material.Gum) / b.powder())
}
