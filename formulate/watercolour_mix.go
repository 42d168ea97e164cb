package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/gum"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// BinderRule says how much binder a water paint gets.
type BinderRule uint8

const (
	// BinderByDemand scales the dry binder from the pigment's own oil
	// absorption by volume: a hypothesis.
	BinderByDemand BinderRule = iota + 1
	// BinderByPVC gives the dry film a pigment volume concentration.
	BinderByPVC
	// BinderByMeasure is the workshop's rule: parts of loose powder to parts of
	// binder, by volume.
	BinderByMeasure
	// BinderUndiluted makes all the liquid binder as it is poured.
	BinderUndiluted
)

// BulkBasis says what a loose bulk density rests on.
type BulkBasis string

const (
	BulkCatalogued BulkBasis = "catalogued"                      // published for the pigment
	BulkMeasured   BulkBasis = "measured by you"                 // a level spoon, weighed
	BulkEstimated  BulkBasis = "estimated from the true density" // see gum.LooseDensity
)

// Bulk is the loose bulk density of a powder.
type Bulk struct {
	Density evidence.Distribution[quantity.Density]
	Basis   BulkBasis
}

// Teaspoon is what a level one weighs, at the typical density.
func (b *Bulk) Teaspoon() quantity.Mass {
	return quantity.Volume(quantity.MlPerTeaspoon).Mass(b.Density.Median)
}

// spoonSigma is how far one level spoon differs from the next: common practice.
const spoonSigma = 0.08

// BulkOf gives a powder's loose bulk density: the maker's own, from a level
// spoon, before the catalogue's, before an estimate. own is 0 where not measured.
func BulkOf(in *Ingredient, own quantity.Density) Bulk {
	if own > 0 {
		return Bulk{evidence.Distribution[quantity.Density]{Median: own, Sigma: spoonSigma}, BulkMeasured}
	}
	if d, ok := BulkDensityOf(in.Material); ok {
		return Bulk{d, BulkCatalogued}
	}
	return Bulk{gum.LooseDensity(in.Density), BulkEstimated}
}

// Binding is the rule with its numbers.
type Binding struct {
	Rule BinderRule
	PVC  quantity.VolumeFraction
	// Powder to Binder are parts by volume; Bulk has one entry a pigment.
	Powder, Binder quantity.Parts
	Bulk           []Bulk
}

// Wetness says how much liquid the paint gets in all: enough for a body, or for
// the dry pigment to be a share of the wet volume or of the wet mass.
type Wetness struct {
	Body    absorption.Step
	Pigment quantity.VolumeFraction // where above 0, instead of the body
	ByMass  quantity.MassFraction   // where above 0, instead of either
}

// GumHumectant is a humectant with its mass for one of gum, both as weighed.
type GumHumectant struct {
	LiquidPart
	Ratio quantity.Ratio
}

// GumAdditive is a wetting agent or preservative with its share of the wet paint.
type GumAdditive struct {
	Liquid
	Share quantity.MassFraction
}

// BinderMix is what is stirred together before it meets the pigment: the
// solution with its humectants, each at its ratio to the gum (or the resin) in it.
func BinderMix(solution Liquid, humectants []GumHumectant) (Liquid, error) {
	parts := append([]LiquidPart(nil), solution.Parts...)
	base := bindingShare(solution)
	if base == 0 {
		return Liquid{}, fmt.Errorf("%s holds neither gum nor resin", solution.Material.ID)
	}
	for _, h := range humectants {
		p := h.LiquidPart
		p.Share = base * quantity.MassFraction(h.Ratio)
		parts = append(parts, p)
	}
	return NewLiquid(solution.Material, parts)
}

// bindingShare is the share of a liquid that is gum or resin, as weighed.
func bindingShare(l Liquid) quantity.MassFraction {
	var s quantity.MassFraction
	for i := range l.Parts {
		if l.Parts[i].Role() == Binder {
			s += l.Parts[i].Share
		}
	}
	return s
}

// waterMix composes a paint of pigment, binder, additives and water for one gram
// of dry pigment, at one draw. It is the one path of watercolour and ink.
type waterMix struct {
	pigments  []Share
	parts     quantity.Parts // sum over pigments
	binder    Liquid
	additives []GumAdditive
	binding   Binding
	wetness   Wetness
	cake      quantity.Mass // water in the damp pigment, for one gram dry

	seats     Roster
	pigmentAt []int // first deviate of each pigment
	scratch   []Component
	liquid    []Component
	scaleSeat int // deviate of the hypothesis' s
	bulkSeat  int // first deviate of the bulk densities
}

// waterPoint is the paint for one gram of dry pigment.
type waterPoint struct {
	paint     Paint
	binder    quantity.Mass // as mixed
	additives []quantity.Mass
	cake      quantity.Mass // water in the damp pigment
	// water to add; below zero where binder and damp pigment bring more than
	// the paint takes, and then none is added.
	water quantity.Mass
	room  quantity.Mass   // water to add if the pigment were dry
	oil   quantity.Volume // that the pigment takes up in the rub-out
}

func newWaterMix(pigments []Share, binder Liquid, additives []GumAdditive, b Binding, w Wetness, moisture quantity.MassFraction) (*waterMix, error) {
	m := &waterMix{pigments: pigments, binder: binder, binding: b, wetness: w, cake: quantity.Mass(powders.DryBasis(moisture))}
	for i := range pigments {
		m.parts += pigments[i].Parts
		m.pigmentAt = append(m.pigmentAt, m.seats.Seat(&pigments[i].Ingredient))
	}
	m.binder.Sit(&m.seats)
	for _, a := range additives {
		a.Sit(&m.seats)
		m.additives = append(m.additives, a)
	}
	m.scaleSeat = m.seats.Inputs()
	m.bulkSeat = m.scaleSeat + 1
	if n := m.inputs(); n > evidence.MaxInputs {
		return nil, fmt.Errorf("%d ingredients are too many for one paint", len(pigments)+len(m.binder.Parts)+len(additives))
	}
	return m, nil
}

func (m *waterMix) inputs() int { return m.bulkSeat + len(m.binding.Bulk) }

// clone is the same mix with scratch space of its own.
func (m *waterMix) clone() *waterMix {
	c := *m
	c.scratch, c.liquid = nil, nil
	return &c
}

// Relations of the mix.
var (
	rubOutOil     = trace.Relation{Name: "oil of the rub-out", Equation: "Voil = Σ m·OAv/100", Source: "additive rule by mass"}
	binderOfSpoon = trace.Relation{Name: "binder by measure", Equation: "V = (Σ m/ρbulk)·b/p", Source: "workshop rule: p parts of loose powder to b of binder, by volume"}
	binderMass    = trace.Relation{Name: "binder for its dry volume", Equation: "mb = (Vb − M·va)/vb", Source: "volumes add; vb: what a gram of binder leaves dry; va: what a gram of paint's additives do, where they count"}
	liquidOfBody  = trace.Relation{Name: "liquid for the body", Equation: "VL = Σ m·D(b)/100", Source: "hypothesis: as much liquid by volume as oil for the same body; linseed absorption is not water demand"}
	paintOfShare  = trace.Relation{Name: "paint for the pigment's share by mass", Equation: "M = m/w", Source: "definition of the mass fraction"}
	waterToAdd    = trace.Relation{Name: "water to add", Equation: "mw = M − mpigment − mcake − mb − madditives", Source: "mass balance; M so that all liquid makes VL"}
)

// at composes the paint at one draw.
func (m *waterMix) at(z []float64, tr *trace.Tracer) waterPoint {
	var pt waterPoint
	comp := m.scratch[:0]
	var vp, body quantity.Volume
	var loose float64
	for i := range m.pigments {
		p := &m.pigments[i]
		v := p.At(z[m.pigmentAt[i] : m.pigmentAt[i]+deviatesEach])
		mass := quantity.Mass(p.Parts / m.parts)
		role := RoleOf(p.Material.Kind)
		comp = append(comp, p.Component(v, role, mass))
		vp += mass.Volume(v.Density)
		pt.oil += v.Absorption.TakenBy(mass)
		if m.wetness.Pigment == 0 {
			body += p.Demand.OilAt(m.wetness.Body, v.Density, v.zLot, v.zDemand).TakenBy(mass)
		}
		if m.binding.Rule == BinderByMeasure {
			loose += float64(mass) / float64(m.binding.Bulk[i].Density.At(z[m.bulkSeat+i]))
		}
	}
	pt.cake = m.cake
	if tr.On() && m.cake > 0 {
		tr.Note(powders.DryBasisRelation, "damp pigment", trace.T("X", m.cake, ""))
	}
	cake := float64(pt.cake)

	// What a gram of binder and a gram of paint's additives bring.
	per := func(l *Liquid, grams quantity.Mass) (dry, total, water float64) {
		m.liquid = l.Pour(m.liquid[:0], grams, z)
		f := Paint{m.liquid}.Figures()
		return float64(f.BinderVolume + f.AdditiveVolume), float64(f.Volume), float64(f.VolatileMass)
	}
	vb, vbAll, wb := per(&m.binder, 1)
	var va, vaAll, wa, sa float64
	for i := range m.additives {
		a := &m.additives[i]
		d, all, w := per(&a.Liquid, quantity.Mass(a.Share))
		va, vaAll, wa, sa = va+d, vaAll+all, wa+w, sa+float64(a.Share)
	}

	// dry is the volume of dry binder by the rule. What the additives leave dry
	// counts in a PVC; it binds nothing, so in a demand it stands beside.
	var dry, counts float64
	beside := va
	switch m.binding.Rule {
	case BinderByDemand:
		s := gum.Scale().At(z[m.scaleSeat])
		dry = float64(gum.Demand(1, quantity.AbsorptionVolume(100*pt.oil), s))
		if tr.On() {
			tr.Note(rubOutOil, "1 g of pigment", trace.T("Voil", pt.oil, "ml"))
			tr.Note(gum.DemandRelation, "1 g of pigment", trace.T("Vb", quantity.Volume(dry), "ml"), trace.T("s", s, ""), trace.T("OAv", 100*pt.oil, "ml/100g"))
		}
	case BinderByPVC:
		dry = float64(absorption.LiquidAtPVC(vp, m.binding.PVC))
		counts, beside = va, 0
		if tr.On() {
			tr.Note(absorption.LiquidAtPVCRelation, "dry binder for 1 g of pigment", trace.T("VL", quantity.Volume(dry), "ml"), trace.T("Vp", vp, "ml"), trace.T("φ", m.binding.PVC, ""))
		}
	case BinderByMeasure:
		poured := loose * float64(m.binding.Binder/m.binding.Powder)
		dry = poured / vbAll * vb
		if tr.On() {
			tr.Note(binderOfSpoon, "1 g of pigment", trace.T("V", quantity.Volume(poured), "ml"), trace.T("b", m.binding.Binder, ""), trace.T("p", m.binding.Powder, ""))
		}
	}

	// liquid is the volume of all that is not pigment.
	liquid := float64(body)
	if phi := m.wetness.Pigment; phi > 0 {
		liquid = float64(absorption.LiquidAtPVC(vp, phi))
	}
	const rho = float64(waterDensity)
	var b, total float64 // binder and whole paint, g
	undiluted := m.binding.Rule == BinderUndiluted
	switch share := float64(m.wetness.ByMass); {
	case share > 0:
		total = 1 / share
	case undiluted:
		q := liquid - cake/rho
		total = (1 + cake + q/vbAll) / (1 - sa + vaAll/vbAll)
	default:
		total = (1 + (liquid-dry)*rho + (1-wb)*dry/vb) / (1 - sa + wa + beside*rho + (1-wb)*counts/vb)
	}
	if undiluted {
		b = total*(1-sa) - 1 - cake
		pt.water = quantity.Mass(min(b, 0))
	} else {
		b = (dry - total*counts) / vb
		pt.water = quantity.Mass(total*(1-sa) - 1 - cake - b)
		if pt.water < 0 {
			total = (1 + cake + dry/vb) / (1 - sa + counts/vb)
			b = (dry - total*counts) / vb
		}
		if tr.On() {
			tr.Note(binderMass, "1 g of pigment", trace.T("mb", quantity.Mass(b), "g"), trace.T("Vb", quantity.Volume(dry), "ml"), trace.T("vb", quantity.Volume(vb), "ml"), trace.T("va", quantity.Volume(counts), "ml"))
		}
	}
	if tr.On() {
		switch {
		case m.wetness.ByMass > 0:
			tr.Note(paintOfShare, "1 g of pigment", trace.T("M", quantity.Mass(total), "g"), trace.T("w", m.wetness.ByMass, ""))
		case m.wetness.Pigment > 0:
			tr.Note(absorption.LiquidAtPVCRelation, "all liquid for 1 g of pigment", trace.T("VL", quantity.Volume(liquid), "ml"), trace.T("Vp", vp, "ml"), trace.T("φ", m.wetness.Pigment, ""))
		default:
			tr.Note(liquidOfBody, "1 g of pigment", trace.T("VL", quantity.Volume(liquid), "ml"), trace.T("b", m.wetness.Body.Typical, ""))
		}
		if m.binding.Rule != BinderUndiluted {
			tr.Note(waterToAdd, "1 g of pigment", trace.T("mw", pt.water, "g"), trace.T("M", quantity.Mass(total), "g"), trace.T("mb", quantity.Mass(b), "g"), trace.T("mcake", pt.cake, "g"))
		}
	}
	pt.room = pt.water + pt.cake
	pt.binder = quantity.Mass(b)
	comp = m.binder.Pour(comp, pt.binder, z)
	pt.additives = pt.additives[:0]
	for i := range m.additives {
		grams := quantity.Mass(total) * quantity.Mass(m.additives[i].Share)
		pt.additives = append(pt.additives, grams)
		comp = m.additives[i].Pour(comp, grams, z)
	}
	if w := pt.cake + max(pt.water, 0); w > 0 {
		comp = append(comp, waterComponent(w))
	}
	m.scratch = comp
	pt.paint = Paint{comp}
	return pt
}

// waterDraws is the paint over the draws, for so much dry pigment.
type waterDraws struct {
	figures   FigureRanges
	binder    []float64
	water     evidence.Range[quantity.Mass] // to add, none below zero
	yield     FigureYield
	dry       evidence.Range[quantity.Volume] // that dries, after losses
	additives []evidence.Range[quantity.Mass]
}

// draw works the paint over the draws.
func (m *waterMix) draw(s Sampling, pigment quantity.Mass, loss quantity.MassFraction) waterDraws {
	const binder, water, mass, volume, dry, additive = figureCount, figureCount + 1, figureCount + 2, figureCount + 3, figureCount + 4, figureCount + 5
	n := len(m.additives)
	keep := 1 - float64(loss)
	c := s.run(m.inputs(), additive+n, func() func(z, out []float64) {
		m := m.clone()
		return func(z, out []float64) {
			pt := m.at(z, nil)
			for i := range pt.paint.Components {
				pt.paint.Components[i].Mass *= pigment
			}
			f := pt.paint.Figures()
			f.vector(out[:figureCount])
			out[binder], out[water] = float64(pt.binder*pigment), float64(max(pt.water, 0)*pigment)
			out[mass], out[volume] = float64(f.Mass)*keep, float64(f.Volume)*keep
			out[dry] = float64(f.Volume-f.VolatileVolume) * keep
			for i := range n {
				out[additive+i] = float64(pt.additives[i] * pigment)
			}
		}
	})
	d := waterDraws{
		figures: figureRanges(c[:figureCount]), binder: c[binder], water: rangeOf[quantity.Mass](c[water]),
		yield: FigureYield{rangeOf[quantity.Mass](c[mass]), rangeOf[quantity.Volume](c[volume])}, dry: rangeOf[quantity.Volume](c[dry]),
	}
	for i := range n {
		d.additives = append(d.additives, rangeOf[quantity.Mass](c[additive+i]))
	}
	return d
}

// TooWetError says that damp pigment brings more water than the paint takes, and
// what the driest paint is that it allows. Masses are for the batch.
type TooWetError struct {
	Cake quantity.Mass // water the damp pigment brings
	Room quantity.Mass // water to add if it were dry; below zero: none
	// Powder is set where the paint is in reach with the gum stirred in dry.
	Powder    bool
	Gum       quantity.Mass // of that driest paint
	Humectant quantity.Mass
	Water     quantity.Mass         // to add, over what the cake brings
	Percent   quantity.MassFraction // of water
	// Body it has, or, of an ink, its pigment by volume.
	Body    absorption.Body
	Pigment quantity.VolumeFraction
	// Dry is the moisture of the damp mass that the recipe as asked would take.
	Dry quantity.MassFraction
}

func (e *TooWetError) Error() string {
	room := say("the recipe takes only %.3g g", float64(e.Room))
	if e.Room <= 0 {
		room = "the binder alone brings all the water the recipe takes"
	}
	out := say("the damp pigment brings %.3g g of water and %s; the driest it allows is gum stirred in as powder: gum %.3g g, humectant %.3g g", float64(e.Cake), room, float64(e.Gum), float64(e.Humectant))
	switch {
	case e.Powder:
		out += say(", %.3g g of water to add", float64(e.Water))
	case e.Pigment > 0:
		out += fmt.Sprintf(", no water, which is weaker than asked: %.1f %% of pigment by volume, %.0f %% water", 100*float64(e.PigmentToAsk()), 100*float64(e.Percent))
	default:
		out += fmt.Sprintf(", no water, which is thinner than asked: a body of %.2f, %.0f %% water", float64(e.BodyToAsk()), 100*float64(e.Percent))
	}
	if e.Dry > 0.005 {
		out += fmt.Sprintf("; or dry the pigment to %.0f %% moisture", math.Floor(100*float64(e.Dry)))
	} else {
		out += "; or dry the pigment"
	}
	return out
}

// BodyToAsk is the body of the driest paint, rounded so that it is in reach.
func (e *TooWetError) BodyToAsk() absorption.Body {
	return absorption.Body(math.Floor(100*float64(e.Body)) / 100)
}

// PigmentToAsk is the pigment's share of the driest ink, rounded so that it is in
// reach.
func (e *TooWetError) PigmentToAsk() quantity.VolumeFraction {
	return quantity.VolumeFraction(math.Floor(1000*float64(e.Pigment)) / 1000)
}

// tooWet returns the error for a batch of k grams of dry pigment, nil where the
// damp pigment is in reach.
func (m *waterMix) tooWet(pt waterPoint, k quantity.Ratio) error {
	if m.cake == 0 || pt.water >= 0 {
		return nil
	}
	if m.binding.Rule == BinderUndiluted {
		return errors.New("the damp pigment alone brings more water than the ink holds beside its pigment; dry it, or ask for a smaller share of pigment")
	}
	e := &TooWetError{Cake: pt.cake * quantity.Mass(k), Room: pt.room * quantity.Mass(k)}
	if pt.room > 0 {
		e.Dry = powders.WetBasis(quantity.Ratio(pt.room))
	}
	dry := m.clone()
	var parts []LiquidPart
	for _, p := range m.binder.Parts {
		if p.Role() != Volatile {
			parts = append(parts, p)
		}
	}
	var err error
	if dry.binder, err = NewLiquid(m.binder.Material, parts); err != nil {
		return err
	}
	dry.binder.Sit(&dry.seats)
	d := dry.at(make([]float64, m.inputs()), nil)
	e.Powder = d.water >= 0
	e.Water = max(d.water, 0) * quantity.Mass(k)
	for _, p := range dry.binder.Parts {
		grams := d.binder * quantity.Mass(k) * quantity.Mass(p.Share)
		if p.Role() == Binder {
			e.Gum += grams
		} else {
			e.Humectant += grams
		}
	}
	f := d.paint.Figures()
	e.Percent = f.VolatileByMass()
	if m.wetness.Pigment > 0 || m.wetness.ByMass > 0 {
		e.Pigment = f.WetPigment()
	} else {
		e.Body = f.Body()
	}
	return e
}

// checkBinding refuses numbers no binder has.
func (b Binding) check(pigments int) error {
	switch b.Rule {
	case BinderByDemand, BinderUndiluted:
	case BinderByPVC:
		if !(b.PVC > 0 && b.PVC < 1) {
			return errors.New("a PVC is above 0 and below 100 %")
		}
	case BinderByMeasure:
		if !(b.Powder > 0 && b.Binder > 0) || math.IsInf(float64(b.Powder/b.Binder), 0) {
			return errors.New("parts of powder and of binder must both be above nothing")
		}
		if len(b.Bulk) != pigments {
			return fmt.Errorf("%d bulk densities for %d pigments", len(b.Bulk), pigments)
		}
	default:
		return errors.New("no rule for the binder given")
	}
	return nil
}
