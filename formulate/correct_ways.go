package formulate

import (
	"errors"
	"slices"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Relations of the correction.
var (
	// TakenRelation is the liquid that a powder takes at the goal.
	TakenRelation = trace.Relation{Name: "liquid the powder takes at the goal", Equation: "W = Σ mᵢ·wᵢ", Source: "additive rule by mass, see absorption.DemandRelation"}
	// PowderForOilRelation is the powder that takes up what is too much.
	PowderForOilRelation = trace.Relation{Name: "powder that takes up the surplus", Equation: "x = (L − W)/w", Source: "from the additive rule: L = W + x·w"}
	oilToMove            = trace.Relation{Name: "oil too much (below 0: too little)", Equation: "m = (L − W)·ρo", Source: "definition of density"}
	takenOfReduced       = trace.Relation{Name: "liquid a powder takes at a reduced PVC", Equation: "w = (v + d)/Λ − v", Source: "definition of reduced PVC with the additive rule"}
)

// PowderForOil is the powder that takes up the liquid that is too much:
// (L − W)/w, L the liquid in the paste and W what its powder takes at the goal,
// in ml, and w what a gram of the new powder takes, in ml/g. Every goal here is
// of that form: a PVC, a reduced PVC, a body and a formula each give every gram
// of a powder its own share of liquid.
func PowderForOil(liquid, taken quantity.Volume, each quantity.AbsorptionVolume) quantity.Mass {
	return quantity.Mass(100 * float64(liquid-taken) / float64(each))
}

// TakenAtReducedPVC is the liquid 100 g of a powder takes at a reduced PVC Λ:
// (v + d)/Λ − v, v its own volume and d its oil absorption, in ml/100 g. Below
// 0: the powder packs no liquid at such a ratio.
func TakenAtReducedPVC(l quantity.Ratio, oil quantity.AbsorptionVolume, density quantity.Density) quantity.AbsorptionVolume {
	v := quantity.AbsorptionVolume(100 / float64(density))
	return (v+oil)/quantity.AbsorptionVolume(l) - v
}

// A seated ingredient has its own deviates in every draw.
type seated struct {
	in    *Ingredient
	role  Role
	share float64 // of what: see where it is used
	seat  int
	batch Component // of a formula: its typical mass
}

func (s *seated) z(z []float64) []float64 { return z[s.seat : s.seat+deviatesEach] }

// corrector works one draw at a time: one path for draws, the exact answer and
// the explanation.
type corrector struct {
	req    *CorrectRequest
	seats  Roster
	tr     *trace.Tracer
	strict bool // refuse a state outside what can be; draws take the nearest

	powders        []seated // share: g for a gram of dry pigment
	oils           []seated // share: of the oil's mass
	waxes          []seated // share: of the paste
	adds           []seated // share: of the powder added
	stiffener, wax *seated
	formula        []seated
	formulaPigment quantity.Mass // dry, of the formula's batch
	reading, air   int           // seats of the spoon's or dropper's error and of the air

	paste []Component
	after []Component
}

func newCorrector(r *CorrectRequest) (*corrector, error) {
	c := &corrector{req: r}
	p := &r.Paste
	sit := func(in *Ingredient, role Role, share float64) seated {
		return seated{in: in, role: role, share: share, seat: c.seats.Seat(in)}
	}
	var pigment, oil, add float64
	for i := range p.Pigments {
		pigment += float64(p.Pigments[i].Parts)
	}
	for i := range p.Pigments {
		c.powders = append(c.powders, sit(&p.Pigments[i].Ingredient, Pigment, float64(p.Pigments[i].Parts)/pigment))
	}
	for i := range p.Extenders {
		c.powders = append(c.powders, sit(&p.Extenders[i].Ingredient, Extender, float64(p.Extenders[i].Share)))
	}
	for i := range p.Oils {
		oil += float64(p.Oils[i].Parts)
	}
	for i := range p.Oils {
		c.oils = append(c.oils, sit(&p.Oils[i].Ingredient, Binder, float64(p.Oils[i].Parts)/oil))
	}
	for i := range p.Waxes {
		c.waxes = append(c.waxes, sit(&p.Waxes[i].Ingredient, Additive, float64(p.Waxes[i].Share)))
	}
	for i := range r.Add {
		add += float64(r.Add[i].Parts)
	}
	for i := range r.Add {
		role := RoleOf(r.Add[i].Material.Kind)
		c.adds = append(c.adds, sit(&r.Add[i].Ingredient, role, float64(r.Add[i].Parts)/add))
	}
	if len(r.Add) == 0 {
		var whole float64
		for i := range c.powders {
			whole += c.powders[i].share
		}
		c.adds = append(c.adds, c.powders...)
		for i := range c.adds {
			c.adds[i].share /= whole
		}
	}
	if r.Stiffener != nil {
		s := sit(r.Stiffener, Extender, 1)
		c.stiffener = &s
	}
	if r.Stabiliser != nil {
		s := sit(r.Stabiliser, Additive, 1)
		c.wax = &s
	}
	c.reading = c.seats.Inputs()
	c.air = c.reading + 1
	if c.inputs() > evidence.MaxInputs {
		return nil, errors.New("too many ingredients for one correction")
	}
	return c, c.settle()
}

// settle works the formula's batch out at the typical values, where it is used.
func (c *corrector) settle() error {
	if c.req.State.Known != ByFormula && c.req.Goal != ToFormula {
		return nil
	}
	p := &c.req.Paste
	m := &mull{req: p}
	u, err := m.unitPaint(make([]float64, p.inputs()), nil)
	if err != nil {
		return err
	}
	k := quantity.Mass(p.scaleTo(u, nil))
	c.formulaPigment = k
	all := make([]seated, 0, len(c.powders)+len(c.oils)+len(c.waxes))
	all = append(append(append(all, c.powders...), c.oils...), c.waxes...)
	for i, x := range u.paint.Components {
		x.Mass *= k
		s := seated{role: x.Role, batch: x}
		if i < len(all) { // water comes last and is sure
			s.in, s.seat = all[i].in, all[i].seat
		}
		c.formula = append(c.formula, s)
	}
	return nil
}

func (c *corrector) inputs() int { return c.seats.Inputs() + 2 }

func (c *corrector) waxShare() float64 {
	var w float64
	for i := range c.waxes {
		w += c.waxes[i].share
	}
	return w
}

// oilDensity is that of the blend.
func (c *corrector) oilDensity(z []float64) quantity.Density {
	var volume float64
	for i := range c.oils {
		o := &c.oils[i]
		volume += o.share / float64(o.in.At(o.z(z)).Density)
	}
	return quantity.Density(1 / volume)
}

// appendOil appends a mass of the oil blend.
func (c *corrector) appendOil(to []Component, mass quantity.Mass, z []float64) []Component {
	for i := range c.oils {
		o := &c.oils[i]
		to = append(to, o.in.Component(o.in.At(o.z(z)), Binder, mass*quantity.Mass(o.share)))
	}
	return to
}

// doubt is how an oil whose absorption is doubtful moves what a powder takes.
func (c *corrector) doubt(z []float64) float64 {
	d := 1.0
	for i := range c.oils {
		o := &c.oils[i]
		d *= doubtful(o.in, o.z(z), o.share)
	}
	return d
}

// goal says how much liquid each powder takes where the paste should be.
type goal struct {
	c       *corrector
	z       []float64
	doubt   float64
	each100 quantity.AbsorptionVolume // of a formula or of the paste before
	// oilOnly: waxes are not counted as liquid, as in a mull by body.
	oilOnly bool
}

func (c *corrector) goal(z []float64) goal {
	g := goal{c: c, z: z, doubt: c.doubt(z)}
	switch {
	case c.req.Goal == ToFormula:
		var liquid quantity.Volume
		var powder quantity.Mass
		for i := range c.formula {
			f := &c.formula[i]
			switch f.role {
			case Pigment, Extender:
				powder += f.batch.Mass
			case Binder, Additive:
				liquid += f.batch.Mass.Volume(f.in.At(f.z(z)).Density)
			}
		}
		g.each100 = absorption.OilAbsorption(liquid, powder)
	default:
		g.oilOnly = c.req.Paste.Target.Kind == AtBody
	}
	return g
}

// takes is the liquid 100 g of a powder takes at the goal.
func (g *goal) takes(s *seated) quantity.AbsorptionVolume {
	if g.each100 > 0 {
		return g.each100
	}
	t, v := &g.c.req.Paste.Target, s.in.At(s.z(g.z))
	switch t.Kind {
	case AtPVC:
		return absorption.DemandAtPVC(t.PVC, v.Density)
	case AtReducedPVC:
		return TakenAtReducedPVC(t.Reduced, v.Absorption, v.Density)
	}
	return s.in.Demand.OilAt(t.Body, v.Density, v.zLot, v.zDemand) * quantity.AbsorptionVolume(g.doubt)
}

// explain notes what each powder takes.
func (g *goal) explain(tr *trace.Tracer, list []seated) {
	if !tr.On() || g.each100 > 0 {
		return
	}
	t := &g.c.req.Paste.Target
	for i := range list {
		s := &list[i]
		v := s.in.At(s.z(g.z))
		id := s.in.Material.ID
		switch t.Kind {
		case AtPVC:
			tr.Note(absorption.DemandAtPVCRelation, id, trace.T("Dv", g.takes(s), "ml/100g"), trace.T("φ", t.PVC, ""), trace.T("ρp", v.Density, "g/ml"))
		case AtReducedPVC:
			tr.Note(takenOfReduced, id, trace.T("w", g.takes(s), "ml/100g"), trace.T("Λ", t.Reduced, ""), trace.T("v", 100/v.Density, "ml/100g"), trace.T("d", v.Absorption, "ml/100g"))
		default:
			s.in.Demand.Explain(tr, id, t.Body, v.Density)
		}
	}
}

// each is what 100 g of a powder mixture takes, its shares summing to 1.
func (g *goal) each(list []seated) quantity.AbsorptionVolume {
	var w quantity.AbsorptionVolume
	for i := range list {
		w += quantity.AbsorptionVolume(list[i].share) * g.takes(&list[i])
	}
	return w
}

// taken is what the powder of a paste takes. The powders stand first in it.
func (g *goal) taken(paste []Component) quantity.Volume {
	var w quantity.Volume
	for i := range g.c.powders {
		w += g.takes(&g.c.powders[i]).TakenBy(paste[i].Mass)
	}
	return w
}

// liquid is what counts as liquid at the goal.
func (g *goal) liquid(f Figures) quantity.Volume {
	if g.oilOnly {
		return f.BinderVolume
	}
	return f.BinderVolume + f.AdditiveVolume
}

// corrected is one draw of a correction.
type corrected struct {
	before, now                          Figures
	added, drawn, extended, oiled, waxed Figures // after each way
	both                                 Figures // after all the powder there is, and the rest of the oil drawn out

	oil, over, wanted quantity.Mass
	ratio, ratioAdded quantity.Ratio // oil over that of tube colour
	add               quantity.Mass  // dry powder wanted
	used              quantity.Mass  // dry powder added, as far as there is some
	stillOver         quantity.Mass  // oil
	extender          quantity.Mass
	oilIn             quantity.Mass
	waxLow, waxHigh   quantity.Mass
	least, full, pour quantity.Mass
	wept              quantity.MassFraction
	unreachable       bool // no powder takes up the surplus
	waxTooMuch        bool // more liquid than the goal allows without any oil
}

// at works one draw.
func (c *corrector) at(z []float64) (corrected, error) {
	r := c.req
	if err := c.present(z); err != nil {
		return corrected{}, err
	}
	var p corrected
	p.before = Paint{c.paste}.Figures()
	if r.Wept > 0 {
		if r.Wept >= p.before.BinderMass {
			return p, refuse("%.4g g of oil cannot have run out of a paste that held %.4g g", float64(r.Wept), float64(p.before.BinderMass))
		}
		p.wept = quantity.MassFraction(r.Wept / p.before.BinderMass)
		for i := range c.paste {
			if c.paste[i].Role == Binder {
				c.paste[i].Mass *= quantity.Mass(1 - p.wept)
			}
		}
	}
	p.now = Paint{c.paste}.Figures()
	rho := c.oilDensity(z)
	g := c.goal(z)
	taken, liquid := g.taken(c.paste), g.liquid(p.now)
	p.oil = p.now.BinderMass
	p.over = (liquid - taken).Mass(rho)
	p.wanted = max(p.oil-p.over, 0)
	each := g.each(c.adds)
	p.unreachable = each <= 0
	p.waxTooMuch = p.over > p.oil
	p.ratio = c.overTube(z, p.now, 0)
	g.explain(c.tr, c.powders)
	if c.tr.On() {
		c.tr.Note(TakenRelation, "the paste's powder", trace.T("W", taken, "ml"), trace.T("Σm", p.now.PigmentMass, "g"))
		c.tr.Note(oilToMove, "paste", trace.T("m", p.over, "g"), trace.T("L", liquid, "ml"), trace.T("W", taken, "ml"), trace.T("ρo", rho, "g/ml"))
	}

	p.oilIn = max(-p.over, 0)
	p.oiled = c.with(c.appendOil(c.restart(), p.oilIn, z))
	if p.over <= 0 {
		p.added, p.drawn, p.both, p.extended, p.waxed = p.now, p.now, p.now, p.now, p.now
		p.ratioAdded = p.ratio
		return p, nil
	}

	// 1. More powder.
	if !p.unreachable {
		p.add = PowderForOil(liquid, taken, each)
		c.tr.Note(PowderForOilRelation, "powder to add, dry", trace.T("x", p.add, "g"), trace.T("L", liquid, "ml"), trace.T("W", taken, "ml"), trace.T("w", each, "ml/100g"))
		p.used = p.add
		if have := r.Have / quantity.Mass(c.asWeighed(c.adds)); r.Have > 0 && have < p.add {
			p.used = have
		}
		p.stillOver = (liquid - taken - each.TakenBy(p.used)).Mass(rho)
	}
	p.added = c.with(c.appendPowder(c.restart(), c.adds, p.used, z))
	p.ratioAdded = c.overTube(z, p.added, p.used)
	// What that leaves too much may be drawn out of the same paste.
	p.both = c.without(min(p.stillOver, p.oil), p.oil)

	// 2. Oil drawn out.
	c.restart()
	p.drawn = c.without(min(p.over, p.oil), p.oil)

	// 3. An extender, or a wax within its published use.
	if c.stiffener != nil {
		if w := g.takes(c.stiffener); w > 0 {
			p.extender = PowderForOil(liquid, taken, w)
		}
		p.extended = c.with(c.appendPowder(c.restart(), []seated{*c.stiffener}, p.extender, z))
	}
	if c.wax != nil {
		if low, high, ok := useLevel(c.wax.in.Material); ok {
			p.waxLow, p.waxHigh = c.waxFor(p.now.Mass, low), c.waxFor(p.now.Mass, high)
		}
		p.waxed = c.with(append(c.restart(), c.wax.in.Component(c.wax.in.At(c.wax.z(z)), Additive, p.waxHigh)))
	}

	// 4. The next batch.
	if !p.unreachable {
		p.least = p.add
		next := r.Next / quantity.Mass(c.asWeighed(c.adds))
		if next == 0 {
			next = max(p.now.PigmentMass, p.add)
		}
		p.full = each.TakenBy(next).Mass(rho)
		p.pour = max(p.full-p.over, 0)
	}
	return p, nil
}

// restart puts the paste as it is into the scratch of what comes after.
func (c *corrector) restart() []Component {
	c.after = append(c.after[:0], c.paste...)
	return c.after
}

// with takes the figures of a scratch paste and keeps its array.
func (c *corrector) with(comp []Component) Figures {
	c.after = comp
	return Paint{comp}.Figures()
}

// without takes a mass of oil out of the scratch paste that holds so much of it.
func (c *corrector) without(out, oil quantity.Mass) Figures {
	for i := range c.after {
		if c.after[i].Role == Binder && oil > 0 {
			c.after[i].Mass *= 1 - out/oil
		}
	}
	return c.with(c.after)
}

// appendPowder appends a mass of dry powder with the water it brings.
func (c *corrector) appendPowder(to []Component, list []seated, dry quantity.Mass, z []float64) []Component {
	for i := range list {
		s := &list[i]
		to = append(to, s.in.Component(s.in.At(s.z(z)), s.role, dry*quantity.Mass(s.share)))
	}
	if water := dry * quantity.Mass(c.asWeighed(list)-1); c.req.Paste.Moisture > 0 && water > 0 {
		to = append(to, waterComponent(water))
	}
	return to
}

// overTube is the oil of a paste over that of tube colour: added is the powder
// of c.adds in it beside the paste's own.
func (c *corrector) overTube(z []float64, f Figures, added quantity.Mass) quantity.Ratio {
	var oil quantity.Volume
	for i := range c.powders {
		p := &c.powders[i]
		oil += tubeOil(p.in, p.z(z), c.paste[i].Mass)
	}
	for i := range c.adds {
		a := &c.adds[i]
		oil += tubeOil(a.in, a.z(z), added*quantity.Mass(a.share))
	}
	return quantity.Ratio(float64(f.BinderVolume) / (float64(oil) * c.doubt(z)))
}

// tubeColour is the named body that the oil of the others is counted from.
const tubeColour = "buttery"

// waxFor is the wax that brings a paste to a share, the wax in it counted.
func (c *corrector) waxFor(paste quantity.Mass, share quantity.MassFraction) quantity.Mass {
	there := paste * quantity.Mass(c.waxShare())
	return max((quantity.Mass(share)*paste-there)/quantity.Mass(1-share), 0)
}

// useLevel is the widest published use of a wax, as a share of the paste.
func useLevel(m *material.Material) (low, high quantity.MassFraction, ok bool) {
	for _, u := range m.UseLevel {
		if u.Aside != "" {
			continue
		}
		lo, hi := u.Low, u.High
		if u.Value != 0 {
			lo, hi = u.Value, u.Value
		}
		if !ok || lo < low {
			low = lo
		}
		high = max(high, hi)
		ok = true
	}
	return low, high, ok
}

// Columns of a correction's draws: blocks of figures, then single amounts.
const (
	blockNow      = 0
	blockBefore   = figureCount
	blockAdded    = 2 * figureCount
	blockDrawn    = 3 * figureCount
	blockExtended = 4 * figureCount
	blockOiled    = 5 * figureCount
	blockWaxed    = 6 * figureCount
	blockBoth     = 7 * figureCount
	blocks        = 8

	oilPerColumn = blockNow + 13 // OilPerPigment in Figures.vector
)

const (
	outOil = blocks*figureCount + iota
	outOver
	outWanted
	outRatio
	outRatioAdded
	outAdd
	outUsed
	outStillOver
	outLacking
	outDrawn
	outExtender
	outExtenderShare
	outOilIn
	outWaxLow
	outWaxHigh
	outLeast
	outFull
	outPour
	outWept
	outColourAdded
	outColourDrawn
	outColourExtended
	outColourWaxed
	outColourBoth
	correctColumns
)

func (p *corrected) row(out []float64) {
	for i, f := range [...]*Figures{&p.now, &p.before, &p.added, &p.drawn, &p.extended, &p.oiled, &p.waxed, &p.both} {
		f.vector(out[i*figureCount : (i+1)*figureCount])
	}
	out[outOil], out[outOver], out[outWanted] = float64(p.oil), float64(p.over), float64(p.wanted)
	out[outRatio], out[outRatioAdded] = float64(p.ratio), float64(p.ratioAdded)
	out[outAdd], out[outUsed], out[outStillOver] = float64(p.add), float64(p.used), float64(p.stillOver)
	out[outLacking] = float64(p.add - p.used)
	out[outDrawn] = float64(min(max(p.over, 0), p.oil))
	out[outExtender], out[outExtenderShare] = float64(p.extender), share(float64(p.extender), float64(p.now.PigmentMass+p.extender))
	out[outOilIn], out[outWaxLow], out[outWaxHigh] = float64(p.oilIn), float64(p.waxLow), float64(p.waxHigh)
	out[outLeast], out[outFull], out[outPour] = float64(p.least), float64(p.full), float64(p.pour)
	out[outWept] = float64(p.wept)
	out[outColourAdded] = colourShare(p.now, p.added, p.used)
	out[outColourDrawn] = colourShare(p.now, p.drawn, 0)
	out[outColourExtended] = colourShare(p.now, p.extended, 0)
	out[outColourWaxed] = colourShare(p.now, p.waxed, 0)
	out[outColourBoth] = colourShare(p.now, p.both, p.used)
}

// colourShare is the powder of the paste, and what is added to it, in a gram of
// the paste after, over what it is now. The paste's own extender is part of its
// colour here, since its proportion stays.
func colourShare(now, after Figures, added quantity.Mass) float64 {
	return float64((now.PigmentMass+added)/after.Mass) / float64(now.PigmentMass/now.Mass)
}

// waysOut lists the ways out of an over-oiled paste: those that reach the goal
// first, each group in the order of the trade's preference.
func (r *CorrectRequest) waysOut(c *corrector, p *corrected, columns [][]float64) []Way {
	ways := []Way{r.wayAdd(c, p, columns), r.wayDraw(c, p, columns)}
	if c.stiffener != nil {
		ways = append(ways, r.wayExtend(c, p, columns))
	}
	if c.wax != nil {
		ways = append(ways, r.wayWax(c, columns))
	}
	if !p.unreachable {
		ways = append(ways, r.wayNext(c, p, columns))
	}
	ways = append(ways, Way{Kind: UpperLayer})
	slices.SortStableFunc(ways, func(a, b Way) int { return a.group() - b.group() })
	return ways
}

// group is the order of the ways: those that reach the goal, those that come
// nearer, leaving the paste as it is, and wax, of which nothing can be reckoned.
func (w *Way) group() int {
	switch {
	case w.Reaches:
		return 0
	case w.Kind == AddWax:
		return 3
	case w.Kind == UpperLayer:
		return 2
	}
	return 1
}

// weighs is what a gram of a material, dry, weighs as it is put on the balance: a
// pigment with its water, the others as they are.
func (c *corrector) weighs(s *seated) quantity.Ratio {
	if s.role != Pigment {
		return 1
	}
	return quantity.Ratio(powders.DampMass(1, c.req.Paste.Moisture))
}

// asWeighed is what a gram of a mixture, dry, weighs as it is put on the balance.
func (c *corrector) asWeighed(list []seated) quantity.Ratio {
	var w quantity.Ratio
	for i := range list {
		w += quantity.Ratio(list[i].share) * c.weighs(&list[i])
	}
	return w
}

// weighedRange is a column of dry masses as a range of what is weighed.
func (c *corrector) weighedRange(column []float64, list []seated) evidence.Range[quantity.Mass] {
	return rangeOf[quantity.Mass](column).Times(c.asWeighed(list))
}

// doses shares a total, as weighed, over the materials of a list.
func (c *corrector) doses(list []seated, total evidence.Range[quantity.Mass]) []Dose {
	r := c.req
	out := make([]Dose, len(list))
	for i := range list {
		m := total.Times(quantity.Ratio(list[i].share) * c.weighs(&list[i]) / c.asWeighed(list))
		out[i] = Dose{Material: list[i].in.Material, Role: list[i].role, Mass: m}
		if m.Typical > 0 {
			out[i].OnScale = onScale(m.Typical, r.Paste.Scale)
		}
	}
	return out
}

// cost is that of a total, as weighed.
func (c *corrector) cost(list []seated, total evidence.Range[quantity.Mass]) evidence.Range[quantity.Money] {
	var price float64
	for i := range list {
		price += list[i].share * float64(c.weighs(&list[i])/c.asWeighed(list)) * float64(list[i].in.Price)
	}
	return evidence.Rising(total, func(m quantity.Mass) quantity.Money { return quantity.Money(float64(m) * price) })
}

// steps lays an addition out like the oil of a mull: so much that going too far
// is unlikely, then steps. drops counts small steps in drops.
func (c *corrector) steps(column []float64, list []seated, drops bool) *Pours {
	r := c.req
	weighed := make([]float64, len(column))
	for i, v := range column {
		weighed[i] = v * float64(c.asWeighed(list))
	}
	if spread := evidence.Quantile(weighed, 1-FirstPourRisk) - evidence.Quantile(weighed, FirstPourRisk); spread < float64(r.Paste.Scale) && len(weighed) > 1 {
		return nil // as sure as the balance: no steps
	}
	like := MullRequest{Scale: r.Paste.Scale}
	if drops {
		like.DropMass = r.Paste.DropMass
	}
	p := pours(&like, weighed, 0, 0)
	return &p
}

// more is how much more paste a way makes than there is now.
func (r *CorrectRequest) more(columns [][]float64, block int) evidence.Range[quantity.Volume] {
	now, after := columns[blockNow+1], columns[block+1]
	more := make([]float64, len(now))
	for i := range now {
		more[i] = after[i] - now[i]
	}
	return rangeOf[quantity.Volume](more)
}

// tubes is how many of the maker's tubes a volume fills.
func (r *CorrectRequest) tubes(v evidence.Range[quantity.Volume]) evidence.Range[quantity.Ratio] {
	if r.Tube == 0 {
		return evidence.Range[quantity.Ratio]{}
	}
	return vesselsFilled(v, r.Tube, r.Fill)
}

// figures takes a block's ranges. It reorders the block's columns, so whatever
// compares two draws goes before.
func figures(columns [][]float64, block int) *FigureRanges {
	f := figureRanges(columns[block : block+figureCount])
	return &f
}

func (r *CorrectRequest) wayAdd(c *corrector, p *corrected, columns [][]float64) Way {
	w := Way{Kind: AddPowder, Reaches: !p.unreachable}
	if p.unreachable {
		w.Why = "this powder takes no oil up at such a PVC: whatever its amount, the paste stays too oily"
		return w
	}
	if need := c.weighedRange(columns[outAdd], c.adds); r.Have > 0 && need.Typical > r.Have {
		return r.wayAddThenDraw(c, p, columns, need)
	}
	w.More = r.more(columns, blockAdded)
	w.Tubes = r.tubes(w.More)
	w.Consistency = rangeOf[quantity.Ratio](columns[outRatioAdded])
	w.Colour = rangeOf[quantity.Ratio](columns[outColourAdded])
	w.Total = c.weighedRange(columns[outAdd], c.adds)
	w.Pours = c.steps(columns[outAdd], c.adds, false)
	w.Doses = c.doses(c.adds, w.Total)
	w.Cost = c.cost(c.adds, w.Total)
	w.After = figures(columns, blockAdded)
	return w
}

// wayAddThenDraw takes all the powder there is, where that is too little, and
// the oil that is then still too much out of the paste: its end is the goal.
func (r *CorrectRequest) wayAddThenDraw(c *corrector, p *corrected, columns [][]float64, need evidence.Range[quantity.Mass]) Way {
	w := Way{Kind: AddThenDraw, Reaches: p.stillOver <= p.oil, Need: need}
	if !w.Reaches {
		w.Why = waxAlone
	}
	w.More = r.more(columns, blockBoth)
	w.Tubes = r.tubes(w.More)
	w.Consistency = rangeOf[quantity.Ratio](columns[outRatioAdded])
	w.Colour = rangeOf[quantity.Ratio](columns[outColourBoth])
	w.Lacking = c.weighedRange(columns[outLacking], c.adds)
	w.Total = c.weighedRange(columns[outUsed], c.adds)
	w.StillOver = rangeOf[quantity.Mass](columns[outStillOver])
	w.Pours = c.steps(columns[outStillOver], c.oils, false)
	w.WeighIn, w.WeighOut = p.added.Mass, p.both.Mass
	w.Doses = c.doses(c.adds, w.Total)
	w.Cost = c.cost(c.adds, w.Total)
	w.After = figures(columns, blockBoth)
	return w
}

// waxAlone is why no drawing of oil helps.
const waxAlone = "the wax alone is more than the goal has room for: without any oil the paste would still be too fat"

func (r *CorrectRequest) wayDraw(c *corrector, p *corrected, columns [][]float64) Way {
	w := Way{Kind: DrawOil, Reaches: !p.waxTooMuch, Total: rangeOf[quantity.Mass](columns[outDrawn])}
	if p.waxTooMuch {
		w.Why = waxAlone
	}
	w.Pours = c.steps(columns[outDrawn], c.oils, false)
	w.WeighIn = p.now.Mass
	w.WeighOut = p.now.Mass - w.Total.Typical
	w.Colour = rangeOf[quantity.Ratio](columns[outColourDrawn])
	w.More = r.more(columns, blockDrawn)
	w.Tubes = r.tubes(w.More)
	w.Cost = c.cost(c.oils, w.Total)
	w.After = figures(columns, blockDrawn)
	return w
}

func (r *CorrectRequest) wayExtend(c *corrector, p *corrected, columns [][]float64) Way {
	list := []seated{*c.stiffener}
	w := Way{Kind: AddExtender, Reaches: p.extender > 0, Total: c.weighedRange(columns[outExtender], list)}
	w.Doses = c.doses(list, w.Total)
	if p.extender == 0 {
		w.Why = "this extender takes no oil up at such a PVC"
		return w
	}
	w.Pours = c.steps(columns[outExtender], list, false)
	w.Share = rangeOf[quantity.MassFraction](columns[outExtenderShare])
	w.Colour = rangeOf[quantity.Ratio](columns[outColourExtended])
	w.More = r.more(columns, blockExtended)
	w.Tubes = r.tubes(w.More)
	w.Cost = c.cost(list, w.Total)
	w.After = figures(columns, blockExtended)
	return w
}

// wayWax never reaches a goal: a wax counts as binder, so the PVC falls while
// the paste stiffens, and no published relation gives an amount for a body.
func (r *CorrectRequest) wayWax(c *corrector, columns [][]float64) Way {
	m := c.wax.in.Material
	w := Way{Kind: AddWax}
	low, high, ok := useLevel(m)
	if !ok {
		w.Why = "no published use level is known for " + m.ID + ", so no amount is given"
		w.Doses = []Dose{{Material: m, Role: Additive}}
		return w
	}
	least, most := rangeOf[quantity.Mass](columns[outWaxLow]), rangeOf[quantity.Mass](columns[outWaxHigh])
	w.Total = evidence.Range[quantity.Mass]{Low: least.Typical, Typical: most.Typical, High: most.Typical}
	w.UseLevel = evidence.Range[quantity.MassFraction]{Low: low, Typical: high, High: high}
	for _, u := range m.UseLevel {
		if u.Aside == "" {
			w.UseSource = append(w.UseSource, u.Source)
		}
	}
	w.Doses = c.doses([]seated{*c.wax}, w.Total)
	w.Why = "it stiffens the paste but counts as binder: the PVC falls, and no amount can be worked out from a body"
	if most.Typical == 0 {
		w.Why = "the paste holds as much of it as is published already"
		return w
	}
	w.Colour = rangeOf[quantity.Ratio](columns[outColourWaxed])
	w.Cost = c.cost([]seated{*c.wax}, w.Total)
	w.After = figures(columns, blockWaxed)
	return w
}

func (r *CorrectRequest) wayNext(c *corrector, p *corrected, columns [][]float64) Way {
	least := c.weighedRange(columns[outLeast], c.adds)
	next := r.Next
	if next == 0 {
		next = max(p.now.PigmentMass, p.add) * quantity.Mass(c.asWeighed(c.adds))
	}
	w := Way{Kind: KeepForNext, Reaches: next >= least.Typical*(1-sameOil), Next: &NextBatch{
		Least: least, Powder: next, FullOil: rangeOf[quantity.Mass](columns[outFull]), Pour: rangeOf[quantity.Mass](columns[outPour]),
	}}
	if !w.Reaches {
		w.Why = say("a batch of %.4g g of powder is too small to take the paste up", float64(next))
	}
	return w
}

func (r *CorrectRequest) wayAddOil(c *corrector, p *corrected, columns [][]float64) Way {
	w := Way{Kind: AddOil, Reaches: true, Total: rangeOf[quantity.Mass](columns[outOilIn])}
	w.Doses = c.doses(c.oils, w.Total)
	w.Pours = c.steps(columns[outOilIn], c.oils, true)
	w.More = r.more(columns, blockOiled)
	w.Tubes = r.tubes(w.More)
	w.Cost = c.cost(c.oils, w.Total)
	w.After = figures(columns, blockOiled)
	return w
}

// materials lists what is in the paste.
func (c *corrector) materials() []*material.Material {
	var out []*material.Material
	for _, list := range [][]seated{c.powders, c.oils, c.waxes} {
		for i := range list {
			out = append(out, list[i].in.Material)
		}
	}
	return out
}
