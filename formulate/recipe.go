package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// RecipeMeasure is how a line of a recipe is measured out.
type RecipeMeasure uint8

const (
	WeighedOut  RecipeMeasure = iota + 1 // by mass
	PouredOut                            // a liquid by volume
	SpoonedOut                           // a loose powder by level volume, through its bulk density
	DroppedOut                           // a liquid by drops
	SolidVolume                          // a powder by its true volume
)

// A RecipeLine is one line of a recipe.
type RecipeLine struct {
	Line    int    // in the file
	Written string // the amount as written
	Of      Liquid // the material, or what a made-up one is made of
	By      RecipeMeasure
	Mass    quantity.Mass                          // WeighedOut
	Volume  evidence.Distribution[quantity.Volume] // PouredOut, SpoonedOut, SolidVolume
	Bulk    Bulk                                   // SpoonedOut
	Drops   quantity.Ratio                         // DroppedOut
	Drop    evidence.Distribution[quantity.Mass]
	// Moisture is water in a damp powder, of the damp mass.
	Moisture quantity.MassFraction
}

// Whole is what a percentage is of.
type Whole uint8

const (
	NotSaid  Whole = iota // the words name no whole
	OfPaste               // all of it as it stands
	OfPowder              // pigment and extender
	OfBinder              // oil, resin, gum
	OfLiquid              // binder and all that is volatile
	OfFilm                // what stays when it is dry
	OfRest                // everything else
)

// PercentBy is what a percentage counts.
type PercentBy uint8

const (
	BySaid        PercentBy = iota // not said
	MassPercent                    // g in 100 g
	VolumePercent                  // ml in 100 ml
	MassInVolume                   // g in 100 ml
)

// A PercentBasis is one way to read a percentage.
type PercentBasis struct {
	Of Whole
	By PercentBy
}

// Subject is what a percentage is about: lines of the recipe, or all of a role.
type Subject struct {
	Name  string
	Lines []int // index in RecipeRequest.Lines
	Roles []Role
}

// A Saying is a percentage that the recipe states of itself.
type Saying struct {
	Line    int
	Written string
	Share   quantity.Ratio
	// Half is half a unit of its last digit: it claims no more.
	Half    quantity.Ratio
	Subject Subject
	Basis   PercentBasis // zero where it is not said
}

// A Making is the yield that the recipe states of itself.
type Making struct {
	Line    int
	Written string
	Mass    quantity.Mass // one of the two
	Volume  quantity.Volume
	Half    quantity.Ratio // of the figure, relative: half a unit of its last digit
}

// RecipeRequest is a recipe as it was written down.
type RecipeRequest struct {
	Name  string
	Lines []RecipeLine
	// Relative says that the amounts are parts: only their ratios mean anything,
	// and the answer is for a hundred grams.
	Relative bool
	Says     []Saying
	Makes    []Making
	Sampling Sampling
}

// RecipeEntry is one line worked out.
type RecipeEntry struct {
	Line        RecipeLine
	Mass        evidence.Range[quantity.Mass]
	Volume      evidence.Range[quantity.Volume] // true volume
	MassShare   evidence.Range[quantity.MassFraction]
	VolumeShare evidence.Range[quantity.VolumeFraction]
}

// A BasisValue is what a percentage truly is on one basis.
type BasisValue struct {
	Basis PercentBasis
	True  evidence.Range[quantity.Ratio]
	// Fits: the figure as it is written lies within the range.
	Fits bool
}

// Truth is what a stated percentage is worth.
type Truth uint8

const (
	// TrueAsSaid on the basis it names, or on the one everybody reads where it names
	// none: of the paste by mass.
	TrueAsSaid Truth = iota + 1
	// TrueOtherwise is wrong on that basis and right on another.
	TrueOtherwise
	// Untrue on every basis.
	Untrue
)

// SayingResult is a stated percentage held against every basis.
type SayingResult struct {
	Saying  Saying
	Truth   Truth
	Read    BasisValue   // on the basis it names, or as everybody reads it
	Bases   []BasisValue // all that differ, that one first
	Nearest BasisValue   // of the true values, to the figure
}

// OutBy is how far the truth lies from the figure: above it or, below 0, under
// it, and how many times the figure it is.
func (s *SayingResult) OutBy() (by, times quantity.Ratio) {
	return s.Read.True.Typical - s.Saying.Share, s.Read.True.Typical / s.Saying.Share
}

// MakingResult is a stated yield held against the sum of the volumes.
type MakingResult struct {
	Making Making
	Mass   evidence.Range[quantity.Mass] // one of the two, as stated
	Volume evidence.Range[quantity.Volume]
	Fits   bool
}

// Times is how many times the stated yield the parts add up to.
func (m *MakingResult) Times() quantity.Ratio {
	if m.Making.Mass > 0 {
		return quantity.Ratio(m.Mass.Typical / m.Making.Mass)
	}
	return quantity.Ratio(m.Volume.Typical / m.Making.Volume)
}

// RecipeResult is the true composition.
type RecipeResult struct {
	Request RecipeRequest
	Entries []RecipeEntry
	Figures FigureRanges
	Paint   Paint // at the typical values
	// Consistency is the oil over that of tube colour, where oil binds powder.
	Consistency *evidence.Range[quantity.Ratio]
	Sayings     []SayingResult
	Makings     []MakingResult
	Cautions    []Caution
	Warnings    []string
	Steps       []trace.Step
}

// Relations of a recipe.
var (
	// LooseMassRelation is the mass of a level measure of powder.
	LooseMassRelation = trace.Relation{Name: "mass of a level measure of powder", Equation: "m = V·ρbulk", Source: "definition of bulk density"}
	// PercentRelation is a percentage on a named basis.
	PercentRelation = trace.Relation{Name: "percentage", Equation: "s = part/whole", Source: "definition; the whole and the measure must be said"}
)

// recipe works one draw at a time.
type recipe struct {
	req   *RecipeRequest
	seats Roster
	spare int // seat of each line's own deviate: spoon, dropper, filling
	comp  []Component
	ends  []int // where each line's components end
	tr    *trace.Tracer
}

func newRecipe(r *RecipeRequest) *recipe {
	c := &recipe{req: r, ends: make([]int, len(r.Lines))}
	lines := append([]RecipeLine(nil), r.Lines...)
	for i := range lines {
		lines[i].Of.Sit(&c.seats)
	}
	copied := *r
	copied.Lines = lines
	c.req = &copied
	c.spare = c.seats.Inputs()
	return c
}

func (c *recipe) inputs() int { return c.spare + len(c.req.Lines) }

// compose fills c.comp with what every line brings, at one draw.
func (c *recipe) compose(z []float64) {
	c.comp = c.comp[:0]
	for i := range c.req.Lines {
		l := &c.req.Lines[i]
		mass := c.mass(l, z, z[c.spare+i])
		dry := powders.DryMass(mass, l.Moisture)
		c.comp = l.Of.Pour(c.comp, dry, z)
		if l.Moisture > 0 {
			c.comp = append(c.comp, waterComponent(mass-dry))
			c.tr.Note(powders.DryMassRelation, l.Of.Material.ID, trace.T("m_dry", dry, "g"), trace.T("m_damp", mass, "g"), trace.T("W", l.Moisture, ""))
		}
		c.ends[i] = len(c.comp)
	}
}

// mass is what a line weighs.
func (c *recipe) mass(l *RecipeLine, z []float64, own float64) quantity.Mass {
	id := l.Of.Material.ID
	switch l.By {
	case PouredOut, SolidVolume:
		v, d := l.Volume.At(own), l.Of.Density(z)
		c.tr.Note(massOfVolume, id, trace.T("m", v.Mass(d), "g"), trace.T("V", v, "ml"), trace.T("ρ", d, "g/ml"))
		return v.Mass(d)
	case SpoonedOut:
		v, d := l.Volume.Median, l.Bulk.Density.At(own)
		c.tr.Note(LooseMassRelation, id, trace.T("m", v.Mass(d), "g"), trace.T("V", v, "ml"), trace.T("ρbulk", d, "g/ml"))
		return v.Mass(d)
	case DroppedOut:
		drop := l.Drop.At(own)
		m := quantity.Mass(l.Drops) * drop
		c.tr.Note(oilOfDrops, id, trace.T("mo", m, "g"), trace.T("n", l.Drops, ""), trace.T("mdrop", drop, "g"))
		return m
	}
	return l.Mass
}

// amounts is a mass and a volume.
type amounts struct {
	mass   quantity.Mass
	volume quantity.Volume
}

func (a *amounts) add(c *Component) {
	a.mass += c.Mass
	a.volume += c.Volume()
}

func (a amounts) less(b amounts) amounts { return amounts{a.mass - b.mass, a.volume - b.volume} }

// line is what one line brings.
func (c *recipe) line(i int) []Component {
	from := 0
	if i > 0 {
		from = c.ends[i-1]
	}
	return c.comp[from:c.ends[i]]
}

func (c *recipe) subject(s *Subject) amounts {
	var a amounts
	for _, i := range s.Lines {
		for j := range c.line(i) {
			a.add(&c.line(i)[j])
		}
	}
	return c.roles(a, s.Roles...)
}

func (c *recipe) roles(a amounts, roles ...Role) amounts {
	for i := range c.comp {
		for _, r := range roles {
			if c.comp[i].Role == r {
				a.add(&c.comp[i])
			}
		}
	}
	return a
}

func (c *recipe) whole(w Whole, subject amounts) amounts {
	switch w {
	case OfPowder:
		return c.roles(amounts{}, Pigment, Extender)
	case OfBinder:
		return c.roles(amounts{}, Binder)
	case OfLiquid:
		return c.roles(amounts{}, Binder, Volatile)
	case OfFilm:
		return c.roles(amounts{}, Pigment, Extender, Binder, Additive)
	case OfRest:
		return c.roles(amounts{}, Pigment, Extender, Binder, Volatile, Additive).less(subject)
	}
	return c.roles(amounts{}, Pigment, Extender, Binder, Volatile, Additive)
}

// Percent is a part over a whole, as a fraction: mass over mass, volume over
// volume, or grams over millilitres.
func Percent(by PercentBy, mass quantity.Mass, volume quantity.Volume, ofMass quantity.Mass, ofVolume quantity.Volume) quantity.Ratio {
	switch by {
	case VolumePercent:
		return quantity.Ratio(share(float64(volume), float64(ofVolume)))
	case MassInVolume:
		return quantity.Ratio(share(float64(mass), float64(ofVolume)))
	}
	return quantity.Ratio(share(float64(mass), float64(ofMass)))
}

func (c *recipe) percent(s *Subject, b PercentBasis) quantity.Ratio {
	part := c.subject(s)
	whole := c.whole(b.Of, part)
	return Percent(b.By, part.mass, part.volume, whole.mass, whole.volume)
}

// allBases lists every reading of a percentage, the usual ones first.
var allBases = func() []PercentBasis {
	var out []PercentBasis
	for _, w := range []Whole{OfPaste, OfPowder, OfBinder, OfLiquid, OfFilm, OfRest} {
		out = append(out, PercentBasis{w, MassPercent}, PercentBasis{w, VolumePercent})
	}
	return append(out, PercentBasis{OfBinder, MassInVolume}, PercentBasis{OfPaste, MassInVolume})
}()

// bases lists the readings of one percentage that differ, the one it names (or
// the usual one) first.
func (c *recipe) bases(s *Saying) []PercentBasis {
	part := c.subject(&s.Subject)
	first := s.Basis
	if first.Of == NotSaid {
		first.Of = OfPaste
	}
	if first.By == BySaid {
		first.By = MassPercent
	}
	out := []PercentBasis{first}
	var seen []amounts
next:
	for _, b := range allBases {
		whole := c.whole(b.Of, part)
		if b == first || whole.mass <= 0 || same(whole, part) {
			continue
		}
		for i, w := range seen {
			if out[i+1].By == b.By && same(whole, w) {
				continue next
			}
		}
		if b.By == first.By && same(whole, c.whole(first.Of, part)) {
			continue
		}
		out = append(out, b)
		seen = append(seen, whole)
	}
	return out
}

// same reports two amounts that do not differ but by rounding.
func same(a, b amounts) bool {
	return math.Abs(float64(a.mass-b.mass)) <= 1e-12*math.Abs(float64(a.mass)) && math.Abs(float64(a.volume-b.volume)) <= 1e-12*math.Abs(float64(a.volume))
}

// TrueComposition works out what a recipe truly holds.
func TrueComposition(req RecipeRequest) (*RecipeResult, error) {
	typical := newRecipe(&req)
	if err := req.validate(typical.inputs()); err != nil {
		return nil, err
	}
	var tr trace.Tracer
	typical.tr = &tr
	typical.compose(make([]float64, typical.inputs()))
	total := typical.whole(OfPaste, amounts{})
	if !positive(total.mass) {
		return nil, errors.New("the recipe weighs nothing")
	}
	scale := quantity.Mass(1)
	if req.Relative {
		scale = 100 / total.mass
	}
	tube := typical.tubeOil(make([]float64, typical.inputs()))
	var readings [][]PercentBasis
	for i := range req.Says {
		s := &req.Says[i]
		if part := typical.subject(&s.Subject); part.mass <= 0 {
			return nil, &LineError{s.Line, fmt.Errorf("there is no %s in the recipe for %q to be about", s.Subject.Name, s.Written)}
		}
		if s.Basis.Of != NotSaid {
			if whole := typical.whole(s.Basis.Of, typical.subject(&s.Subject)); whole.mass <= 0 {
				return nil, &LineError{s.Line, fmt.Errorf("%q is of something that is not in the recipe", s.Written)}
			}
		}
		bases := typical.bases(s)
		readings = append(readings, bases)
		if tr.On() {
			tr.Note(PercentRelation, s.Written, trace.T("s", typical.percent(&s.Subject, bases[0]), ""))
		}
	}
	paint := Paint{append([]Component(nil), typical.comp...)}.Scaled(quantity.Ratio(scale))
	noteFigures(&tr, paint.Figures())

	n := len(req.Lines)
	results := figureCount + 4*n + 1
	for _, b := range readings {
		results += len(b)
	}
	columns := req.Sampling.run(typical.inputs(), results, func() func(z, out []float64) {
		c := newRecipe(&req)
		return func(z, out []float64) {
			c.compose(z)
			for i := range c.comp {
				c.comp[i].Mass *= scale
			}
			f := Paint{c.comp}.Figures()
			f.vector(out[:figureCount])
			at := figureCount
			put := func(v float64) { out[at] = v; at++ }
			for i := range n {
				var a amounts
				for j := range c.line(i) {
					a.add(&c.line(i)[j])
				}
				put(float64(a.mass))
				put(float64(a.volume))
				put(float64(a.mass / f.Mass))
				put(float64(a.volume / f.Volume))
			}
			put(share(float64(f.BinderVolume), float64(c.tubeOil(z))))
			for i, bases := range readings {
				for _, b := range bases {
					put(float64(c.percent(&req.Says[i].Subject, b)))
				}
			}
		}
	})

	res := &RecipeResult{Request: req, Paint: paint}
	at := figureCount
	next := func() []float64 { at++; return columns[at-1] }
	for i := range n {
		res.Entries = append(res.Entries, RecipeEntry{
			Line: req.Lines[i],
			Mass: rangeOf[quantity.Mass](next()), Volume: rangeOf[quantity.Volume](next()),
			MassShare: rangeOf[quantity.MassFraction](next()), VolumeShare: rangeOf[quantity.VolumeFraction](next()),
		})
	}
	ratio := rangeOf[quantity.Ratio](next())
	if tube > 0 && ratio.Typical > 0 {
		res.Consistency = &ratio
	}
	for i, bases := range readings {
		values := make([]BasisValue, len(bases))
		for j, b := range bases {
			values[j] = basisValue(&req.Says[i], b, rangeOf[quantity.Ratio](next()))
		}
		res.Sayings = append(res.Sayings, judge(req.Says[i], values))
	}
	res.Figures = figureRanges(columns[:figureCount])
	for _, m := range req.Makes {
		res.Makings = append(res.Makings, m.judge(&res.Figures))
	}
	mats := req.materials()
	res.Cautions = Cautions(settingOf(mats), mats...)
	res.Warnings = req.warnings(res)
	res.Steps = tr.Steps()
	return res, nil
}

// tubeOil is the oil that the powder takes at tube colour, 0 where the binder
// is not oil alone.
func (c *recipe) tubeOil(z []float64) quantity.Volume {
	var tube quantity.Volume
	doubt, binder := 1.0, 0.0
	for i := range c.comp {
		if c.comp[i].Role == Binder {
			binder += float64(c.comp[i].Volume())
		}
	}
	for i := range c.req.Lines {
		line := c.line(i)
		for j := range c.req.Lines[i].Of.Parts {
			p := &c.req.Lines[i].Of.Parts[j]
			x := &line[0]
			line = line[1:]
			if p.Leaves != nil {
				line = line[1:] // what leaves it
			}
			zp := z[p.seat : p.seat+deviatesEach]
			switch p.Role() {
			case Pigment, Extender:
				tube += tubeOil(&p.Ingredient, zp, x.Mass)
			case Binder:
				if p.Material.Kind != material.Oil {
					return 0
				}
				doubt *= doubtful(&p.Ingredient, zp, float64(x.Volume())/binder)
			}
		}
	}
	return tube * quantity.Volume(doubt)
}

// basisValue holds a figure against its true range on one basis.
func basisValue(s *Saying, b PercentBasis, v evidence.Range[quantity.Ratio]) BasisValue {
	const dust = 1e-9 // of binary numbers
	return BasisValue{Basis: b, True: v, Fits: v.Low <= s.Share+s.Half+dust && v.High >= s.Share-s.Half-dust}
}

func judge(s Saying, values []BasisValue) SayingResult {
	r := SayingResult{Saying: s, Read: values[0], Bases: values, Nearest: values[0], Truth: Untrue}
	for _, v := range values {
		if math.Abs(float64(v.True.Typical-s.Share)) < math.Abs(float64(r.Nearest.True.Typical-s.Share)) {
			r.Nearest = v
		}
		if v.Fits {
			r.Truth = TrueOtherwise
		}
	}
	if r.Read.Fits {
		r.Truth = TrueAsSaid
	}
	return r
}

// judge holds a stated yield against the sum. Liquids and powders are taken to
// add up; what is lost on slab and knife is not.
func (m Making) judge(f *FigureRanges) MakingResult {
	r := MakingResult{Making: m, Mass: f.Mass, Volume: f.Volume}
	fits := func(low, high, stated float64) bool {
		half := stated * float64(m.Half)
		return low <= stated+half && high >= stated-half
	}
	if m.Mass > 0 {
		r.Fits = fits(float64(f.Mass.Low), float64(f.Mass.High), float64(m.Mass))
	} else {
		r.Fits = fits(float64(f.Volume.Low), float64(f.Volume.High), float64(m.Volume))
	}
	return r
}

// A LineError is an error that belongs to a line of the recipe.
type LineError struct {
	Line int
	Err  error
}

func (e *LineError) Error() string { return fmt.Sprintf("line %d: %v", e.Line, e.Err) }
func (e *LineError) Unwrap() error { return e.Err }

func (r *RecipeRequest) validate(inputs int) error {
	if len(r.Lines) == 0 {
		return errors.New("the recipe has no lines with an amount and a material")
	}
	if inputs > evidence.MaxInputs {
		return fmt.Errorf("%d materials are too many for one recipe", len(r.Lines))
	}
	for i := range r.Lines {
		l := &r.Lines[i]
		var amount float64
		switch l.By {
		case WeighedOut:
			amount = float64(l.Mass)
		case PouredOut, SolidVolume:
			amount = float64(l.Volume.Median)
		case SpoonedOut:
			amount = float64(l.Volume.Median)
			if !positive(l.Bulk.Density.Median) {
				return &LineError{l.Line, fmt.Errorf("%s: no bulk density is known, so a level measure of it cannot be weighed", l.Of.Material.ID)}
			}
		case DroppedOut:
			amount = float64(l.Drops) * float64(l.Drop.Median)
		}
		if !positive(amount) {
			return &LineError{l.Line, fmt.Errorf("the amount of %s must be above nothing", l.Of.Material.ID)}
		}
		if !(l.Moisture >= 0 && l.Moisture < 1) {
			return &LineError{l.Line, errors.New("water in a damp powder is from 0 to under 100 % of its damp mass")}
		}
	}
	for i := range r.Says {
		s := &r.Says[i]
		if !positive(s.Share) || !(s.Half >= 0) {
			return &LineError{s.Line, errors.New("a stated percentage must be above nothing")}
		}
	}
	return nil
}

func (r *RecipeRequest) materials() []*material.Material {
	var out []*material.Material
	seen := map[string]bool{}
	for i := range r.Lines {
		for _, m := range r.Lines[i].Of.Materials() {
			if !seen[m.ID] {
				seen[m.ID] = true
				out = append(out, m)
			}
		}
	}
	return out
}

// settingOf is what working with these materials brings with it.
func settingOf(list []*material.Material) Setting {
	when := Kept
	for _, m := range list {
		switch m.Kind {
		case material.Pigment, material.Extender:
			when |= DryPowder
		case material.Oil:
			when |= InOil
		case material.Solvent:
			when |= WithSolvent
		case material.Water, material.Gum:
			when |= InWater
		}
	}
	return when
}

func (r *RecipeRequest) warnings(res *RecipeResult) []string {
	var out []string
	f := &res.Figures
	switch {
	case f.PigmentMass.Typical > 0 && f.BinderMass.Typical == 0:
		out = append(out, "nothing in it binds the powder")
	case f.ReducedPVC.Typical > 1:
		out = append(out, say("the PVC is above the critical one (%.2g times it): the binder does not fill the gaps and the paste would crumble", float64(f.ReducedPVC.Typical)))
	}
	for i := range res.Entries {
		e := &res.Entries[i]
		if len(e.Line.Of.Parts) != 1 {
			continue
		}
		m := e.Line.Of.Parts[0].Material
		if k := m.Kind; k != material.Wax && k != material.Stabiliser {
			continue
		}
		if most, ok := mostUse(m); ok && e.MassShare.Low > most {
			out = append(out, say("%s: %.2g %% of the paste is above the published use of up to %.3g %%", m.Name, 100*float64(e.MassShare.Typical), 100*float64(most)))
		}
	}
	for i := range r.Lines {
		if l := &r.Lines[i]; l.By == SpoonedOut && l.Bulk.Basis != BulkMeasured {
			out = append(out, say("%s: its level measure is weighed by a loose bulk density of %.2g g/ml, %s; lots and fillings differ, weigh one of yours", l.Of.Material.Name, float64(l.Bulk.Density.Median), l.Bulk.Basis))
		}
	}
	return out
}

// tubeOil is the oil a mass of powder takes at tube colour.
func tubeOil(in *Ingredient, z []float64, mass quantity.Mass) quantity.Volume {
	tube, _ := absorption.NamedBody(tubeColour)
	v := in.At(z)
	return in.Demand.OilAt(tube, v.Density, v.zLot, v.zDemand).TakenBy(mass)
}

// doubtful is how an oil whose absorption is doubtful moves what a powder takes,
// by its share of the oil.
func doubtful(in *Ingredient, z []float64, share float64) float64 {
	if in.Material.AbsorptionDoubtful == "" {
		return 1
	}
	return math.Exp(doubtfulOilSigma * z[2] * share)
}
