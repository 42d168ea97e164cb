package formulate

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"mullwright/formulate/evidence"
	"mullwright/formulate/film"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
	"mullwright/formulate/vapour"
)

// Measuring says how parts are counted.
type Measuring uint8

const (
	ByVolume Measuring = iota // as poured
	ByMass                    // as weighed
)

func (m Measuring) String() string {
	if m == ByMass {
		return "mass"
	}
	return "volume"
}

// A Poured is a liquid with its parts among its like: of the media, or of the
// solvents.
type Poured struct {
	Liquid
	Parts quantity.Parts
}

// ThinningKind says how far a paint is thinned.
type ThinningKind uint8

const (
	NotThinned ThinningKind = iota // nothing is added
	ByParts                        // paint, medium and solvent in parts
	ToBody                         // what is left of the paint's own body
	ToSolvent                      // the solvent's share of the whole
	ToPigment                      // pigment per area at a wet thickness
)

// Thinning is how far a paint is thinned.
type Thinning struct {
	Kind ThinningKind
	By   Measuring
	// Parts of the whole paint, the media and the solvents. ToSolvent reads the
	// paint's and the media's, ToBody and ToPigment the media's and the solvents'.
	Paint, Medium, Solvent quantity.Parts
	Body                   quantity.Ratio       // what is left of the body, up to 1
	SolventShare           quantity.Ratio       // by mass or by volume, as By says
	Pigment                quantity.MassPerArea // in the film
}

// GlazeAmount is how much thinned paint is wanted; the zero value leaves it to
// the amount of paint taken. A volume and an area together settle the wet film.
type GlazeAmount struct {
	Volume quantity.Volume
	Mass   quantity.Mass
	Area   quantity.Area // at the wet thickness
}

// Airing is the room the solvent leaves into, and how fast.
type Airing struct {
	Room    vapour.Room
	Profile vapour.Profile
	Over    quantity.Duration
}

// ThinRequest is everything a thinning asks, as understood. The amount of the
// paint is what is taken of it; where Glaze is given, that decides.
type ThinRequest struct {
	Paint    MullRequest
	Media    []Poured
	Solvents []Poured
	Thinning Thinning
	Glaze    GlazeAmount
	// Wet is the wet film thickness, 0 where none is given.
	Wet quantity.Thickness
	// Absorbed is the binder that the ground takes out of the film; it means
	// nothing where GroundKnown is false.
	Absorbed    quantity.MassPerArea
	GroundKnown bool
	Temperature quantity.Celsius
	Airing      *Airing
	Sampling    Sampling
}

// A Measure is one thing to take: weighed or measured, which are the same
// amount.
type Measure struct {
	Name    string  // "paint", or the liquid's
	Liquid  *Liquid // nil for the paint
	Mass    quantity.Mass
	Volume  quantity.Volume
	OnScale quantity.Mass // the mass as the balance shows it
}

// A Recipe is a paint with what is poured into it.
type Recipe struct {
	Paint    quantity.Mass
	Media    []quantity.Mass
	Solvents []quantity.Mass
}

// FilmRanges is the film the thinned paint leaves.
type FilmRanges struct {
	Wet            quantity.Thickness
	Dry            evidence.Range[quantity.Thickness]
	Rate           quantity.SpreadingRate
	Area           evidence.Range[quantity.Area] // that all of it covers
	PigmentPerArea evidence.Range[quantity.MassPerArea]
	DryPerArea     evidence.Range[quantity.MassPerArea]
}

// ThinResult is the answer to a thinning.
type ThinResult struct {
	Request ThinRequest
	Take    []Measure // paint, media, solvents, in that order
	Recipe  Recipe    // the same by mass
	// Paint, medium and solvent for one part of paint.
	ByVolume, ByMass [3]quantity.Ratio
	// Composition is that of the thinned paint at the typical values.
	Composition []PaintLine

	Before FigureRanges // of the paint taken
	After  FigureRanges // of the thinned paint
	VOC    evidence.Range[film.VOC]
	// SolventPerBinder is all that leaves over the binder that stays, by volume.
	SolventPerBinder evidence.Range[quantity.Ratio]

	Place Place
	Film  *FilmRanges // nil where no wet thickness is known
	Flow  Flow
	Air   AirResult
	Bound Bound
	// DryingHolds is false where the film is thicker than the drying times were
	// measured at.
	Drying      Drying
	DryingHolds bool

	Paint    Paint // the thinned paint at the typical values
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// Place is where in a painting a paint may go by fat over lean, judged as
// [Layers] judges two ranges.
type Place struct {
	Binder evidence.Range[quantity.VolumeFraction] // of the dry film, after the ground
	Over   quantity.VolumeFraction                 // layers that hold no more binder
	Under  quantity.VolumeFraction                 // layers that hold no less
}

// placeOf reads a place from the pigment of the dry film: the rest is binder.
func placeOf(pvc evidence.Range[quantity.VolumeFraction]) Place {
	b := evidence.Range[quantity.VolumeFraction]{Low: 1 - pvc.High, Typical: 1 - pvc.Typical, High: 1 - pvc.Low}
	return Place{Binder: b, Over: b.Low, Under: b.High}
}

// ThinFilm is the dry film up to which published drying times of oils are taken
// to hold. Their sources say "thin layer" and no figure: common practice, after
// the 25 to 75 µm of drying tests.
const ThinFilm quantity.Thickness = 75

// LeastPaint is the share of paint below which a glaze is little but medium:
// common practice.
const LeastPaint quantity.VolumeFraction = 0.10

// Relations of the thinning itself.
var (
	volumesAdd    = trace.Relation{Name: "thinned paint", Equation: "V = Vpaint + Vpoured", Source: "additive volumes"}
	thinToBody    = trace.Relation{Name: "liquid for what is left of the body", Equation: "Vliquid = Vpaint·(1/r − 1)", Source: "definition of body"}
	thinToPigment = trace.Relation{Name: "liquid for the pigment per area", Equation: "Vliquid = Vpaint·(c·WFT/(m/A) − 1)", Source: "definition"}
	thinToSolvent = trace.Relation{Name: "solvent for its share", Equation: "S = (s·(P + M) − solvent in P and M)/(1 − s)", Source: "definition of a share"}
	groundTakes   = trace.Relation{Name: "binder the ground leaves in the film", Equation: "V = Vbinder − (m/A)·A/ρbinder, at least 0", Source: "mass balance"}
)

// BinderLeft is the volume of binder left in a film when the ground has taken a
// mass per area of it.
func BinderLeft(f Figures, wet quantity.Thickness, absorbed quantity.MassPerArea) quantity.Volume {
	if absorbed == 0 || f.BinderMass == 0 {
		return f.BinderVolume
	}
	area := float64(f.Volume) / float64(film.FilmVolume(1, wet)) // m² that all of it covers
	binder := quantity.Density(float64(f.BinderMass) / float64(f.BinderVolume))
	return max(0, f.BinderVolume-quantity.Mass(float64(absorbed)*area).Volume(binder))
}

// dried is the paint without what leaves it and without the binder that the
// ground takes.
func (f Figures) dried(wet quantity.Thickness, absorbed quantity.MassPerArea) Figures {
	left := BinderLeft(f, wet, absorbed)
	f.BinderMass *= quantity.Mass(share(float64(left), float64(f.BinderVolume)))
	f.BinderVolume = left
	f.VolatileMass, f.VolatileVolume = 0, 0
	f.Mass = f.PigmentMass + f.BinderMass + f.AdditiveMass
	f.Volume = f.PigmentVolume + f.BinderVolume + f.AdditiveVolume
	return f
}

// thinner composes a paint and what it becomes by thinning. It is the one path.
type thinner struct {
	req    *ThinRequest
	mull   mull
	seats  []int // where each of the paint's ingredients has its deviates
	flow   *flowSeats
	recipe Recipe
	brief  bool // only what says whether the film holds
	z      []float64
	before []Component
	after  []Component
}

// newThinner prepares the path for a request whose materials have their seats.
func newThinner(r *ThinRequest, seats []int, flow *flowSeats, recipe Recipe) *thinner {
	return &thinner{req: r, mull: mull{req: &r.Paint}, seats: seats, flow: flow, recipe: recipe}
}

// seat gives every material of the request its deviates in the roster, and
// returns those of the paint's own ingredients in the mull's order.
func (r *ThinRequest) seat(ros *Roster) []int {
	var seats []int
	for i := range r.Paint.Pigments {
		seats = append(seats, ros.Seat(&r.Paint.Pigments[i].Ingredient))
	}
	for i := range r.Paint.Extenders {
		seats = append(seats, ros.Seat(&r.Paint.Extenders[i].Ingredient))
	}
	for i := range r.Paint.Oils {
		seats = append(seats, ros.Seat(&r.Paint.Oils[i].Ingredient))
	}
	for i := range r.Paint.Waxes {
		seats = append(seats, ros.Seat(&r.Paint.Waxes[i].Ingredient))
	}
	r.Media, r.Solvents = append([]Poured(nil), r.Media...), append([]Poured(nil), r.Solvents...)
	for i := range r.Media {
		r.Media[i].Sit(ros)
	}
	for i := range r.Solvents {
		r.Solvents[i].Sit(ros)
	}
	return seats
}

// unit is what the mull makes of the paint at a draw.
func (t *thinner) unit(z []float64, tr *trace.Tracer) (unit, error) {
	t.z = t.z[:0]
	for _, s := range t.seats {
		t.z = append(t.z, z[s:s+deviatesEach]...)
	}
	return t.mull.unitPaint(t.z, tr)
}

// mix pours the recipe together at a draw. Both paints are the thinner's own
// and last until the next draw.
func (t *thinner) mix(z []float64, tr *trace.Tracer) (before, after Paint, err error) {
	u, err := t.unit(z, tr)
	if err != nil {
		return before, after, err
	}
	k := t.recipe.Paint / u.paint.Figures().Mass
	t.before = t.before[:0]
	for _, c := range u.paint.Components {
		c.Mass *= k
		t.before = append(t.before, c)
	}
	t.after = append(t.after[:0], t.before...)
	for i := range t.req.Media {
		t.after = t.req.Media[i].Pour(t.after, t.recipe.Media[i], z)
	}
	for i := range t.req.Solvents {
		t.after = t.req.Solvents[i].Pour(t.after, t.recipe.Solvents[i], z)
	}
	return Paint{t.before}, Paint{t.after}, nil
}

// Columns of one draw: the figures of the paint after and before, then these.
const (
	thinGroundPVC = 2*figureCount + iota
	thinGroundReduced
	thinGroundPaste
	thinSolventPerBinder
	thinVOC
	thinDry
	thinArea
	thinPigmentPerArea
	thinDryPerArea
	thinFactor
	thinVehicle
	thinViscosity
	thinAgainst
	thinColumns
)

// measure works one draw out.
func (t *thinner) measure(z, out []float64, tr *trace.Tracer) error {
	before, after, err := t.mix(z, tr)
	if err != nil {
		return err
	}
	b, a := before.Figures(), after.Figures()
	a.vector(out[:figureCount])
	b.vector(out[figureCount : 2*figureCount])
	wet := t.req.Wet
	dry := a.dried(wet, t.req.Absorbed)
	out[thinGroundPVC], out[thinGroundReduced] = float64(dry.PVC()), float64(dry.ReducedPVC())
	out[thinGroundPaste] = float64(t.overPaste(dry, z, tr))
	out[thinSolventPerBinder] = share(float64(a.VolatileVolume), float64(a.BinderVolume))
	if t.brief {
		return nil
	}
	voc, err := film.VOCOf(organic(after), a.Volume)
	if err != nil {
		return err
	}
	out[thinVOC] = float64(voc)
	if tr.On() {
		tr.Note(volumesAdd, "thinned paint", trace.T("V", a.Volume, "ml"), trace.T("Vpaint", b.Volume, "ml"), trace.T("Vpoured", a.Volume-b.Volume, "ml"))
		noteFigures(tr, a)
		if t.req.Absorbed > 0 {
			tr.Note(groundTakes, "film", trace.T("V", dry.BinderVolume, "ml"), trace.T("Vbinder", a.BinderVolume, "ml"), trace.T("m/A", t.req.Absorbed, "g/m²"), trace.T("WFT", wet, "µm"))
		}
		tr.Note(film.VOCRelation, "thinned paint", trace.T("VOC", voc, "g/l"), trace.T("mv", organic(after), "g"), trace.T("V", a.Volume, "ml"))
	}
	if wet > 0 {
		if err := measureFilm(a, wet, out, tr); err != nil {
			return err
		}
	}
	t.measureFlow(z, before, after, out, tr)
	return nil
}

func measureFilm(a Figures, wet quantity.Thickness, out []float64, tr *trace.Tracer) error {
	dry, err := film.DryThickness(wet, a.SolidsByVolume())
	if err != nil {
		return err
	}
	rate, err := film.SpreadingRate(wet)
	if err != nil {
		return err
	}
	area := film.Coverage(a.Volume, rate)
	perArea := film.MassPerArea(wet, a.Density())
	out[thinDry], out[thinArea] = float64(dry), float64(area)
	out[thinPigmentPerArea] = float64(perArea) * share(float64(a.PigmentMass), float64(a.Mass))
	out[thinDryPerArea] = float64(perArea) * float64(a.SolidsByMass())
	if tr.On() {
		tr.Note(film.DryThicknessRelation, "film", trace.T("DFT", dry, "µm"), trace.T("VS", a.SolidsByVolume(), ""), trace.T("WFT", wet, "µm"))
		tr.Note(film.SpreadingRateRelation, "film", trace.T("s", rate, "m²/l"), trace.T("WFT", wet, "µm"))
		tr.Note(film.CoverageRelation, "film", trace.T("A", area, "m²"), trace.T("V", a.Volume, "ml"), trace.T("s", rate, "m²/l"))
		tr.Note(film.MassPerAreaRelation, "wet film", trace.T("m/A", perArea, "g/m²"), trace.T("WFT", wet, "µm"), trace.T("ρ", a.Density(), "g/ml"))
	}
	return nil
}

// organic is the solvent in a paint: all that leaves and is not water.
func organic(p Paint) quantity.Mass {
	var m quantity.Mass
	for i := range p.Components {
		if c := &p.Components[i]; c.Role == Volatile && c.ID != "water" {
			m += c.Mass
		}
	}
	return m
}

// Thin works a thinning out.
func Thin(req ThinRequest) (*ThinResult, error) {
	if err := req.validate(); err != nil {
		return nil, err
	}
	var ros Roster
	seats := req.seat(&ros)
	flow := newFlowSeats(&req, &ros)
	if flow.inputs() > evidence.MaxInputs {
		return nil, fmt.Errorf("%d materials are too many for one thinning; at most %d", ros.Inputs()/deviatesEach, (evidence.MaxInputs-flowInputs)/deviatesEach)
	}
	zero := make([]float64, flow.inputs())
	var tr trace.Tracer
	if err := req.settleFilm(&tr); err != nil {
		return nil, err
	}
	recipe, err := newThinner(&req, seats, flow, Recipe{}).plan(zero, &tr)
	if err != nil {
		return nil, err
	}
	typical := newThinner(&req, seats, flow, recipe)
	if err := typical.measure(zero, make([]float64, thinColumns), &tr); err != nil {
		return nil, err
	}
	before, after := Paint{typical.before}, Paint{typical.after}
	if err := checkTarget(&req.Paint, before.Figures()); err != nil {
		return nil, err
	}
	columns, err := req.draw(seats, flow, recipe, false)
	if err != nil {
		return nil, err
	}

	res := &ThinResult{Request: req, Recipe: recipe, Paint: after.Scaled(1), Composition: compositionOf(after)}
	res.take(typical, zero)
	res.Bound = typical.bound(columns)
	res.Place = placeOf(res.Bound.PVC)
	res.Flow = flow.result(&req, before, after, columns)
	res.readColumns(columns)
	mats := req.Materials()
	res.Drying = DryingOf(mats)
	res.DryingHolds = res.Film == nil || res.Film.Dry.Typical <= ThinFilm
	if res.Air, err = req.air(after, &tr); err != nil {
		return nil, err
	}
	when := InOil | Kept
	if organic(after) > 0 {
		when |= WithSolvent
	}
	res.Cautions = Cautions(when|req.Paint.Settings, mats...)
	res.Warnings = res.warnings()
	res.Steps = tr.Steps()
	return res, nil
}

// settleFilm finds the wet film of a volume on an area.
func (r *ThinRequest) settleFilm(tr *trace.Tracer) error {
	g := &r.Glaze
	if !g.settlesFilm() {
		return nil
	}
	var err error
	r.Wet, err = film.ThicknessOfVolume(g.Volume, g.Area)
	tr.Note(film.ThicknessOfVolumeRelation, "thinned paint", trace.T("WFT", r.Wet, "µm"), trace.T("V", g.Volume, "ml"), trace.T("A", g.Area, "m²"))
	return err
}

func (g *GlazeAmount) settlesFilm() bool { return g.Volume > 0 && g.Area > 0 }

// draw runs a recipe over the draws.
func (r *ThinRequest) draw(seats []int, flow *flowSeats, recipe Recipe, brief bool) ([][]float64, error) {
	columns := r.Sampling.run(flow.inputs(), thinColumns, func() func(z, out []float64) {
		t := newThinner(r, seats, flow, recipe)
		t.brief = brief
		return func(z, out []float64) {
			if err := t.measure(z, out, nil); err != nil {
				out[0] = math.NaN()
			}
		}
	})
	for _, v := range columns[0] {
		if math.IsNaN(v) {
			return nil, errors.New("the paint's target leaves no room for oil beside the wax; lower the PVC or the wax")
		}
	}
	return columns, nil
}

// readColumns turns the draws into ranges.
func (res *ThinResult) readColumns(columns [][]float64) {
	res.After = figureRanges(columns[:figureCount])
	res.Before = figureRanges(columns[figureCount : 2*figureCount])
	res.VOC = rangeOf[film.VOC](columns[thinVOC])
	res.SolventPerBinder = rangeOf[quantity.Ratio](columns[thinSolventPerBinder])
	wet := res.Request.Wet
	if wet == 0 {
		return
	}
	rate, err := film.SpreadingRate(wet)
	if err != nil {
		return // measured with the same thickness before
	}
	res.Film = &FilmRanges{
		Wet: wet, Rate: rate,
		Dry:            rangeOf[quantity.Thickness](columns[thinDry]),
		Area:           rangeOf[quantity.Area](columns[thinArea]),
		PigmentPerArea: rangeOf[quantity.MassPerArea](columns[thinPigmentPerArea]),
		DryPerArea:     rangeOf[quantity.MassPerArea](columns[thinDryPerArea]),
	}
}

// Materials lists every material of the request, each once.
func (r *ThinRequest) Materials() []*material.Material {
	out := r.Paint.materials()
	seen := map[string]bool{}
	for _, m := range out {
		seen[m.ID] = true
	}
	for _, list := range [][]Poured{r.Media, r.Solvents} {
		for i := range list {
			for _, m := range list[i].Materials() {
				if !seen[m.ID] {
					seen[m.ID] = true
					out = append(out, m)
				}
			}
		}
	}
	return out
}

// take lists what to weigh or measure, at the typical densities.
func (res *ThinResult) take(t *thinner, zero []float64) {
	b := Paint{t.before}.Figures()
	scale := t.req.Paint.Scale
	var mass, volume [3]float64
	add := func(group int, l *Liquid, name string, m quantity.Mass, v quantity.Volume) {
		res.Take = append(res.Take, Measure{Name: name, Liquid: l, Mass: m, Volume: v, OnScale: onScale(m, scale)})
		mass[group] += float64(m)
		volume[group] += float64(v)
	}
	add(0, nil, "paint", b.Mass, b.Volume)
	for group, list := range [][]Poured{1: t.req.Media, 2: t.req.Solvents} {
		masses := t.recipe.Media
		if group == 2 {
			masses = t.recipe.Solvents
		}
		for i := range list {
			l := &list[i].Liquid
			add(group, l, l.Material.Name, masses[i], masses[i].Volume(l.Density(zero)))
		}
	}
	for i := range mass {
		res.ByMass[i] = quantity.Ratio(mass[i] / mass[0])
		res.ByVolume[i] = quantity.Ratio(volume[i] / volume[0])
	}
}

// warnings are remarks on the numbers, not on health.
func (res *ThinResult) warnings() []string {
	req := &res.Request
	out := req.Paint.numberWarnings()
	if w := littlePaint(quantity.VolumeFraction(1 / (1 + res.ByVolume[1] + res.ByVolume[2]))); w != "" {
		out = append(out, w)
	}
	if !res.DryingHolds {
		out = append(out, say("the dry film of %.3g µm is thicker than the thin films that drying times were measured in (to about %g µm, common practice): how long it takes is not known", float64(res.Film.Dry.Typical), float64(ThinFilm)))
	}
	if resin := req.softResin(); resin != "" {
		out = append(out, resin+" stays soluble when dry: solvent in a layer above, or in a later cleaning, can lift it (common practice)")
	}
	for _, m := range res.Take {
		if least := leastDivisions * req.Paint.Scale; m.Mass > 0 && m.Mass < least {
			out = append(out, say("%.2g g of %s is little for a balance of %g g: measure it by volume, or make more", float64(m.Mass), strings.ToLower(m.Name), float64(req.Paint.Scale)))
		}
	}
	return out
}

// leastDivisions of the balance keep its rounding within a twentieth.
const leastDivisions = 10

// littlePaint says that a glaze is little but medium; "" where it is not.
func littlePaint(share quantity.VolumeFraction) string {
	if share >= LeastPaint {
		return ""
	}
	return say("paint is only %.2g %% of the volume: a film of little but medium yellows, wrinkles and stays soft; common practice asks for at least a tenth", 100*float64(share))
}

// softResin names a resin in the media that no oil has hardened: a solid resin
// that dries by its solvent alone; "" where there is none.
func (r *ThinRequest) softResin() string {
	for i := range r.Media {
		for j := range r.Media[i].Liquid.Parts {
			m := r.Media[i].Liquid.Parts[j].Material
			if m.Kind == material.Resin && len(withClass([]*material.Material{m}, material.DryingOil)) == 0 {
				return m.ID
			}
		}
	}
	return ""
}

// numberWarnings are a mull's own remarks on its numbers, but for those on its
// amount: the paint is there.
func (r MullRequest) numberWarnings() []string {
	r.Amount = Amount{Kind: ByPigmentMass}
	var res MullResult
	for i := range r.Pigments {
		res.Weigh = append(res.Weigh, Weigh{Material: r.Pigments[i].Material, Method: r.Pigments[i].Method})
	}
	for i := range r.Extenders {
		res.Weigh = append(res.Weigh, Weigh{Material: r.Extenders[i].Material, Method: r.Extenders[i].Method})
	}
	return r.warnings(&res)
}
