package formulate

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// GoalKind says where a correction is to end.
type GoalKind uint8

const (
	// ToTarget is the body, PVC or reduced PVC of the paste's own request.
	ToTarget GoalKind = iota
	// ToFormula is the proportion of oil to powder of the formula the paste was
	// made from, at its typical values.
	ToFormula
)

// CorrectRequest asks for the ways out of a paste that took too much oil, or
// too little.
type CorrectRequest struct {
	// Paste says what the paste is made of (an extender as a share of the
	// pigment, a wax of the paste), its moisture, where it should be, and the
	// scale. Its amount matters only where the state is told from the formula.
	Paste MullRequest
	State State
	Goal  GoalKind

	// Add is the powder to correct with; empty: the paste's own, in its own
	// proportions. The paste's moisture holds for it as well.
	Add []Share
	// Have is all there is of it, as weighed; 0 where there is enough.
	Have quantity.Mass
	// Stiffener is the extender and Stabiliser the wax that may be worked in.
	Stiffener  *Ingredient
	Stabiliser *Ingredient
	// Next is the dry pigment of the next batch, as weighed; 0: as much again.
	Next quantity.Mass
	// Tube is one tube to the brim, Fill how much of it is filled.
	Tube quantity.Volume
	Fill quantity.VolumeFraction

	// Wept is oil that ran out of the paste after it was made.
	Wept quantity.Mass
	// Signs is what else was seen; Feels how the paste feels, where it was said.
	Signs []Sign
	Feels *absorption.Step
}

// Direction says what is wrong with the paste.
type Direction uint8

const (
	// OnTarget needs nothing.
	OnTarget Direction = iota
	// TooOily holds more oil than the goal.
	TooOily
	// TooDry holds less.
	TooDry
	// Otherwise thickened for a reason that more oil does not mend.
	Otherwise
)

// WayKind is a way out.
type WayKind uint8

const (
	AddPowder   WayKind = iota + 1 // more of the pigment
	AddThenDraw                    // all the powder there is, the rest of the oil drawn out
	DrawOil                        // on absorbent paper
	AddExtender                    // a colourless powder
	AddWax                         // within its published use
	KeepForNext                    // it takes part of the next batch's oil
	UpperLayer                     // as it is, where fat belongs
	AddOil                         // where the paste is too dry
)

// A Dose is one material of a way.
type Dose struct {
	Material *material.Material
	Role     Role
	Mass     evidence.Range[quantity.Mass] // as weighed: a damp pigment with its water
	OnScale  quantity.Mass                 // of the typical amount
}

// A Way is one way out, with what it takes and what it makes of the paste.
type Way struct {
	Kind WayKind
	// Reaches says that the way leads to the goal; Why says why not, and After
	// is then the nearest it comes.
	Reaches bool
	Why     string
	Doses   []Dose
	// Total is all of the doses, or the oil to lose.
	Total evidence.Range[quantity.Mass]
	Pours *Pours // how to add it, in steps
	After *FigureRanges
	// Colour is the coloured pigment in a gram of paste, as a share of what it
	// is now.
	Colour evidence.Range[quantity.Ratio]
	// Consistency is the oil afterwards over that of tube colour.
	Consistency evidence.Range[quantity.Ratio]
	More        evidence.Range[quantity.Volume] // paste more than there is now
	Tubes       evidence.Range[quantity.Ratio]  // the same in tubes
	Cost        evidence.Range[quantity.Money]  // of what is added or thrown away

	// Need is the powder that would do alone where Have runs out, Lacking what is
	// wanting of it, StillOver the oil that is then still too much: to be drawn.
	Need, Lacking evidence.Range[quantity.Mass]
	StillOver     evidence.Range[quantity.Mass]
	// WeighIn and WeighOut are the paste before and after oil is drawn out.
	WeighIn, WeighOut quantity.Mass
	// Share is of the powder, by mass, for an extender; of the paste for a wax.
	Share     evidence.Range[quantity.MassFraction]
	UseLevel  evidence.Range[quantity.MassFraction] // published, of a wax
	UseSource []string

	// Next is the batch that takes the paste up.
	Next *NextBatch
}

// NextBatch is a mull that takes the oily paste up.
type NextBatch struct {
	Least   evidence.Range[quantity.Mass] // dry powder, as weighed, that takes it with no oil at all
	Powder  quantity.Mass                 // of the batch asked about, as weighed
	FullOil evidence.Range[quantity.Mass] // what that batch would take alone
	Pour    evidence.Range[quantity.Mass] // what it takes with the paste in it
}

// Wept is oil that ran out of a paste.
type Wept struct {
	Oil    quantity.Mass
	Share  evidence.Range[quantity.MassFraction] // of the oil there was
	Before FigureRanges
	// Over is the oil that the paste held too much before; below 0: too little.
	Over evidence.Range[quantity.Mass]
	// Back is what of it belongs back in, at the typical values: none of it, where
	// the paste is too oily without it.
	Back quantity.Mass
}

// TooMuch reports whether the paste held more oil than the goal over the whole
// range: that is why oil ran out, and no fault of standing.
func (w *Wept) TooMuch() bool { return w.Over.Low > 0 }

// CorrectResult is the paste as it is and the ways out, best first.
type CorrectResult struct {
	Request   CorrectRequest
	Direction Direction
	// TooOily is the chance that the paste holds more oil than the goal.
	TooOily quantity.Ratio

	Now    FigureRanges
	Paste  Paint                         // at the typical values
	Oil    evidence.Range[quantity.Mass] // in it
	Wanted evidence.Range[quantity.Mass] // for its powder at the goal
	Over   evidence.Range[quantity.Mass] // Oil less Wanted; below 0 where it is too dry
	// Consistency is the oil in the paste over that of tube colour.
	Consistency evidence.Range[quantity.Ratio]

	Ways     []Way
	Wept     *Wept
	Reasons  []Reason // why it thickened otherwise
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// Correct works out what is on the slab and the ways to where it should be.
func Correct(req CorrectRequest) (*CorrectResult, error) {
	if err := req.validate(); err != nil {
		return nil, err
	}
	typical, err := newCorrector(&req)
	if err != nil {
		return nil, err
	}
	var tr trace.Tracer
	typical.tr, typical.strict = &tr, true
	p, err := typical.at(make([]float64, typical.inputs()))
	if err != nil {
		return nil, err
	}
	if err := checkTarget(&req.Paste, p.now); err != nil {
		return nil, err
	}
	paste := Paint{append([]Component(nil), typical.paste...)}
	noteFigures(&tr, p.now)

	columns := req.Paste.Sampling.run(typical.inputs(), correctColumns, func() func(z, out []float64) {
		c, _ := newCorrector(&req) // it has worked once above
		return func(z, out []float64) {
			p, err := c.at(z)
			if err != nil {
				for i := range out {
					out[i] = math.NaN()
				}
				return
			}
			p.row(out)
		}
	})
	for _, v := range columns[0] {
		if math.IsNaN(v) {
			return nil, errors.New("the state contradicts itself within its own range: weigh pigment and paste")
		}
	}
	if err := req.checkWidth(columns[oilPerColumn]); err != nil {
		return nil, err
	}

	res := &CorrectResult{Request: req, Paste: paste}
	res.TooOily = 1 - chance(columns[outOver], 0)
	res.Direction = direction(columns[outOver], columns[outOil])
	res.Oil, res.Wanted, res.Over = rangeOf[quantity.Mass](columns[outOil]), rangeOf[quantity.Mass](columns[outWanted]), rangeOf[quantity.Mass](columns[outOver])
	res.Consistency = rangeOf[quantity.Ratio](columns[outRatio])
	mats := typical.materials()
	if res.Reasons = reasons(&req, res.Consistency, mats); len(res.Reasons) > 0 {
		res.Direction = Otherwise
	}
	switch res.Direction {
	case TooOily:
		res.Ways = req.waysOut(typical, &p, columns)
	case TooDry:
		res.Ways = []Way{req.wayAddOil(typical, &p, columns)}
	}
	if req.Wept > 0 {
		res.Wept = &Wept{Oil: req.Wept, Share: rangeOf[quantity.MassFraction](columns[outWept]), Before: figureRanges(columns[blockBefore : blockBefore+figureCount]),
			Over: evidence.Range[quantity.Mass]{Low: apart(res.Over.Low, -req.Wept), Typical: apart(res.Over.Typical, -req.Wept), High: apart(res.Over.High, -req.Wept)},
			Back: min(max(-res.Over.Typical, 0), req.Wept)}
	}
	res.Now = figureRanges(columns[blockNow : blockNow+figureCount])
	for i := range res.Ways {
		for _, d := range res.Ways[i].Doses {
			if !slices.Contains(mats, d.Material) {
				mats = append(mats, d.Material)
			}
		}
	}
	res.Cautions = Cautions(req.settings(res), mats...)
	if res.Warnings, err = req.warnings(res); err != nil {
		return nil, err
	}
	res.Steps = tr.Steps()
	return res, nil
}

// Agreeable picks the first of some aids that does not quarrel with what is in
// the paste, the first of all where each one does.
func (r *MullRequest) Agreeable(aids []Ingredient) *Ingredient {
	for i := range aids {
		with := append(r.materials(), aids[i].Material)
		if !slices.ContainsFunc(Cautions(0, with...), func(c Caution) bool {
			return isPairCaution(c) && slices.Contains(c.Of, aids[i].Material.ID)
		}) {
			return &aids[i]
		}
	}
	return &aids[0]
}

// sameOil is how near the oil must come to the wanted, relatively, to call the
// paste right: below what any balance shows.
const sameOil = 1e-6

// apart is a − b, and nothing where rounding alone keeps the two apart.
func apart(a, b quantity.Mass) quantity.Mass {
	if math.Abs(float64(a-b)) <= sameOil*math.Abs(float64(b)) {
		return 0
	}
	return a - b
}

func direction(over, oil []float64) Direction {
	o := evidence.Quantile(over, 0.5)
	switch {
	case math.Abs(o) <= sameOil*math.Max(evidence.Quantile(oil, 0.5), 1e-9):
		return OnTarget
	case o > 0:
		return TooOily
	}
	return TooDry
}

// settings is what the ways out bring with them.
func (r *CorrectRequest) settings(res *CorrectResult) Setting {
	when := InOil | r.Paste.Settings
	if res.Direction == TooOily {
		when |= DryPowder
	}
	if res.Wept != nil {
		when |= Kept
	}
	return when
}

func (r *CorrectRequest) warnings(res *CorrectResult) ([]string, error) {
	var out []string
	switch r.State.Known {
	case ByPasteWeighed:
		out = append(out, "paste left on muller and knife counts as missing oil here: scrape them onto the balance too")
	case ByOilDrops:
		out = append(out, say("a drop is taken as %.2g mg with a wide range: weigh 20 drops of your own dropper", 1000*float64(r.State.DropMass.Median)))
	case ByDensity:
		if r.State.Air == (AirRange{}) {
			less, err := r.oilForAir(res.Paste.Figures().BinderMass)
			if err != nil {
				return nil, err
			}
			out = append(out, say("no air was assumed in the paste; each 1 %% of it would mean %.2g g less oil", float64(less)))
		}
	}
	// Where the demand contradicts the oil absorption the weights may be right; see
	// [Bond].
	if res.Now.ReducedPVC.Typical > 1.05 && res.Consistency.Typical < stiffPaste().Oil {
		out = append(out, "so little oil leaves air between the grains: check the weights")
	}
	return append(out, r.Paste.correctionWarnings()...), nil
}

// oilForAir is how much less oil the paste would hold with 1 % of air in it.
func (r *CorrectRequest) oilForAir(oil quantity.Mass) (quantity.Mass, error) {
	airy := *r
	airy.State.Air = AirRange{0.01, 0.01}
	c, err := newCorrector(&airy)
	if err != nil {
		return 0, err
	}
	p, err := c.at(make([]float64, c.inputs()))
	return oil - p.oil, err
}

// correctionWarnings are those of a mull's warnings that bear on a paste.
func (r *MullRequest) correctionWarnings() []string {
	var out []string
	for i := range r.Oils {
		if why := r.Oils[i].Material.AbsorptionDoubtful; why != "" && r.Target.Kind == AtBody {
			out = append(out, fmt.Sprintf("%s: the same volume as linseed oil is assumed, which is doubtful (%s); the range is widened", r.Oils[i].Material.Name, why))
		}
	}
	if r.Moisture > 0 {
		out = append(out, say("the pigment is taken as %.3g %% water of the damp mass, what is added too; the water leaves, so it counts neither as pigment nor as oil", 100*float64(r.Moisture)))
	}
	return out
}

func (r *CorrectRequest) validate() error {
	p := r.Paste
	if r.State.Known != ByFormula {
		// The amount plays no part; any that passes will do.
		p.Amount = Amount{Kind: ByPigmentMass, Mass: 1}
	}
	if err := p.validate(); err != nil {
		return err
	}
	switch {
	case negative(r.Have) || negative(r.Next) || negative(r.Wept):
		return errors.New("amounts must not be negative")
	case r.Tube != 0 && !(r.Tube > 0 && r.Fill > 0 && r.Fill <= 1) || negative(r.Tube):
		return errors.New("a tube has a size, and a fill above 0 and up to 100 %")
	case r.Stiffener != nil && r.Stiffener.Material.Kind != material.Extender:
		return fmt.Errorf("%s is a %s, it cannot be the extender", r.Stiffener.Material.ID, r.Stiffener.Material.Kind)
	case r.Stabiliser != nil && r.Stabiliser.Material.Kind != material.Wax && r.Stabiliser.Material.Kind != material.Stabiliser:
		return fmt.Errorf("%s is a %s, it cannot be the wax", r.Stabiliser.Material.ID, r.Stabiliser.Material.Kind)
	}
	for i := range r.Add {
		a := &r.Add[i]
		if k := a.Material.Kind; !k.IsPigment() {
			return fmt.Errorf("%s is a %s, it cannot be the pigment to add", a.Material.ID, k)
		}
		if !positive(a.Parts) {
			return fmt.Errorf("%s: parts must be above nothing", a.Material.ID)
		}
	}
	for i := range r.Paste.Waxes {
		if r.Stabiliser != nil && r.Stabiliser.Material.ID != r.Paste.Waxes[i].Material.ID {
			return fmt.Errorf("the paste holds %s already; more of the same may be added, not %s", r.Paste.Waxes[i].Material.ID, r.Stabiliser.Material.ID)
		}
	}
	return r.State.validate()
}
