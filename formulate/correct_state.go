package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// KnownBy says how the paste on the slab is known.
type KnownBy uint8

const (
	ByBothWeighed  KnownBy = iota + 1 // pigment and oil
	ByPasteWeighed                    // pigment, and the whole paste
	ByOilVolume                       // pigment, and oil by volume or spoon
	ByOilDrops                        // pigment, and oil by drops
	ByDensity                         // the paste's own density, and the mass of pigment or paste
	ByFormula                         // a formula, and oil beyond it
)

// State is what is known of the paste. Masses are as weighed: the pigment damp
// where it is damp, extenders not counted with it.
type State struct {
	Known     KnownBy
	Pigment   quantity.Mass
	Oil       quantity.Mass // ByBothWeighed; ByFormula: beyond the formula
	Paste     quantity.Mass
	OilVolume evidence.Distribution[quantity.Volume]
	Drops     quantity.Ratio // ByOilDrops: all of the oil; ByFormula: beyond the formula
	DropMass  evidence.Distribution[quantity.Mass]
	Density   quantity.Density // of the paste with the air in it
	Air       AirRange
}

// SpoonSigma is the log spread of a level spoonful of a liquid, taken as that
// of a powder: it repeats to about a tenth.
const SpoonSigma = spoonSigma

// AirRange is how much air the paste may hold, by volume: anything from Least
// to Most is taken as equally likely.
type AirRange struct{ Least, Most quantity.VolumeFraction }

// at is the air of one draw, z standard normal.
func (a AirRange) at(z float64) quantity.VolumeFraction {
	return a.Least + (a.Most-a.Least)*quantity.VolumeFraction(0.5*math.Erfc(-z/math.Sqrt2))
}

func (s *State) validate() error {
	given := func(what string, v float64) error {
		if !positive(v) {
			return fmt.Errorf("%s must be above nothing", what)
		}
		return nil
	}
	switch s.Known {
	case ByBothWeighed:
		return errors.Join(given("the pigment", float64(s.Pigment)), notBelow("the oil", float64(s.Oil)))
	case ByPasteWeighed:
		return errors.Join(given("the pigment", float64(s.Pigment)), given("the paste", float64(s.Paste)))
	case ByOilVolume:
		return errors.Join(given("the pigment", float64(s.Pigment)), given("the oil", float64(s.OilVolume.Median)))
	case ByOilDrops:
		return errors.Join(given("the pigment", float64(s.Pigment)), given("the drops", float64(s.Drops)), given("a drop", float64(s.DropMass.Median)))
	case ByDensity:
		switch {
		case !(s.Air.Least >= 0 && s.Air.Most >= s.Air.Least && s.Air.Most < 0.9):
			return errors.New("air is given from the least to the most there may be, from 0 to under 90 %")
		case (s.Pigment > 0) == (s.Paste > 0):
			return errors.New("beside the density one mass is needed: that of the pigment in the paste or that of the paste")
		}
		return given("the density", float64(s.Density))
	case ByFormula:
		if s.Drops > 0 {
			if err := given("a drop", float64(s.DropMass.Median)); err != nil {
				return err
			}
		}
		return errors.Join(notBelow("the oil beyond the formula", float64(s.Oil)), notBelow("the drops beyond the formula", float64(s.Drops)))
	}
	return errors.New("nothing says how much oil is in the paste")
}

func notBelow(what string, v float64) error {
	if negative(v) {
		return fmt.Errorf("%s must not be below nothing", what)
	}
	return nil
}

// Relations of the paste as it is.
var (
	oilOfWeights = trace.Relation{Name: "oil in the paste from its weight", Equation: "mo = M − mp/(1 − h) − me − w·M", Source: "conservation of mass"}
	oilOfVolume  = trace.Relation{Name: "oil from a volume", Equation: "mo = V·ρo", Source: "definition of density"}
	oilOfDrops   = trace.Relation{Name: "oil from drops", Equation: "mo = n·mdrop", Source: "definition"}
	// PasteOfDensityRelation is the powder and oil in a gram of paste.
	PasteOfDensityRelation = trace.Relation{
		Name:     "pigment in a paste from its density",
		Equation: "p = (V − m/ρo)/(v − μ/ρo), V = (1 − a)/ρ − Σw/ρw, m = 1 − Σw",
		Source:   "conservation of mass and volume",
	}
)

// PasteOfDensity splits one gram of paste into dry pigment and oil, from the
// volume it fills: liquid is the mass of pigment and oil together, volume what
// they fill without air; a gram of dry pigment brings bulk grams of everything
// that comes with it (itself, its extender, its water), which fill fills ml.
// The two masses come from conservation of mass and of volume; a negative one
// means that the two could not mix to such a density.
func PasteOfDensity(liquid quantity.Mass, volume quantity.Volume, bulk quantity.Ratio, fills quantity.Volume, oil quantity.Density) (pigment, oilMass quantity.Mass) {
	p := (float64(volume) - float64(liquid)/float64(oil)) / (float64(fills) - float64(bulk)/float64(oil))
	return quantity.Mass(p), liquid - quantity.Mass(p*float64(bulk))
}

// present composes the paste as it is, at one draw, into c.paste: powders,
// oils, waxes, water. It is the paste before any oil wept from it.
func (c *corrector) present(z []float64) error {
	r := &c.req.Paste
	if c.req.State.Known == ByFormula {
		return c.fromFormula(z)
	}
	// Everything a gram of dry pigment brings.
	c.paste = c.paste[:0]
	for i := range c.powders {
		p := &c.powders[i]
		c.paste = append(c.paste, p.in.Component(p.in.At(p.z(z)), p.role, quantity.Mass(p.share)))
	}
	unit := Paint{c.paste}.Figures()
	water := quantity.Mass(powders.DryBasis(r.Moisture)) // of one gram of dry pigment; extenders are dry
	bulk := unit.PigmentMass + water
	firstOil := len(c.paste)
	rho := c.oilDensity(z)

	pigment, oil, err := c.weighed(z, unit, bulk, water, rho)
	if err != nil {
		return err
	}
	for i := range c.paste[:firstOil] {
		c.paste[i].Mass *= pigment
	}
	c.paste = c.appendOil(c.paste, oil, z)
	wax := c.waxShare()
	paste := (bulk*pigment + oil) / quantity.Mass(1-wax)
	for i := range c.waxes {
		w := &c.waxes[i]
		c.paste = append(c.paste, w.in.Component(w.in.At(w.z(z)), Additive, paste*quantity.Mass(w.share)))
	}
	if water > 0 {
		c.paste = append(c.paste, waterComponent(water*pigment))
	}
	return nil
}

// weighed finds the dry pigment and the oil. unit and bulk are what a gram of
// dry pigment brings, bulk with its water.
func (c *corrector) weighed(z []float64, unit Figures, bulk, water quantity.Mass, rho quantity.Density) (pigment, oil quantity.Mass, err error) {
	s, h := &c.req.State, c.req.Paste.Moisture
	pigment = powders.DryMass(s.Pigment, h)
	switch s.Known {
	case ByBothWeighed:
		return pigment, s.Oil, nil
	case ByOilVolume:
		v := s.OilVolume.At(z[c.reading])
		oil = v.Mass(rho)
		c.tr.Note(oilOfVolume, "paste", trace.T("mo", oil, "g"), trace.T("V", v, "ml"), trace.T("ρo", rho, "g/ml"))
		return pigment, oil, nil
	case ByOilDrops:
		drop := s.DropMass.At(z[c.reading])
		oil = quantity.Mass(s.Drops) * drop
		c.tr.Note(oilOfDrops, "paste", trace.T("mo", oil, "g"), trace.T("n", s.Drops, ""), trace.T("mdrop", drop, "g"))
		return pigment, oil, nil
	case ByPasteWeighed:
		oil = s.Paste*quantity.Mass(1-c.waxShare()) - bulk*pigment
		if oil < 0 {
			return 0, 0, refuse("the paste (%.4g g) weighs less than the powder and wax in it (%.4g g): one of the two weights is wrong", float64(s.Paste), float64(s.Paste-oil))
		}
		c.tr.Note(oilOfWeights, "paste", trace.T("mo", oil, "g"), trace.T("M", s.Paste, "g"), trace.T("mp", pigment, "g"), trace.T("h", h, ""), trace.T("me", pigment*(unit.PigmentMass-1), "g"), trace.T("w", c.waxShare(), ""))
		return pigment, oil, nil
	}
	return c.ofDensity(z, unit, bulk, water, rho)
}

// ofDensity finds them from the paste's own density.
func (c *corrector) ofDensity(z []float64, unit Figures, bulk, water quantity.Mass, rho quantity.Density) (pigment, oil quantity.Mass, err error) {
	s := &c.req.State
	air := s.Air.at(z[c.air])
	waxVolume := 0.0
	for i := range c.waxes {
		w := &c.waxes[i]
		waxVolume += float64(w.share) / float64(w.in.At(w.z(z)).Density)
	}
	liquid := quantity.Mass(1 - c.waxShare())
	volume := quantity.Volume(float64(1-air)/float64(s.Density) - waxVolume)
	fills := unit.PigmentVolume + water.Volume(waterDensity)
	p, o := PasteOfDensity(liquid, volume, quantity.Ratio(bulk), fills, rho)
	if c.tr.On() {
		c.tr.Note(PasteOfDensityRelation, "1 g of paste", trace.T("p", p, "g"), trace.T("ρ", s.Density, "g/ml"), trace.T("a", air, ""),
			trace.T("ρo", rho, "g/ml"), trace.T("μ", bulk, "g/g"), trace.T("v", fills, "ml/g"))
	}
	if c.strict && (p <= 0 || o < 0) {
		scale := float64(1 - air)
		light, heavy := scale*float64(rho), scale*float64(bulk)/float64(fills)
		return 0, 0, refuse("a density of %.4g g/ml is outside what this powder and oil could mix to with %.3g %% air: from %.4g (oil alone) to %.4g g/ml (powder alone)",
			float64(s.Density), 100*float64(air), min(light, heavy), max(light, heavy))
	}
	// A draw at the edge of the densities may fall outside: the nearest paste.
	p = max(p, 1e-9)
	o = max(o, 0)
	if s.Pigment > 0 {
		dry := powders.DryMass(s.Pigment, c.req.Paste.Moisture)
		return dry, o * dry / p, nil
	}
	return p * s.Paste, o * s.Paste, nil
}

// fromFormula is the formula's batch with the oil beyond it.
func (c *corrector) fromFormula(z []float64) error {
	s := &c.req.State
	k := quantity.Mass(1)
	if s.Pigment > 0 {
		k = powders.DryMass(s.Pigment, c.req.Paste.Moisture) / c.formulaPigment
	}
	c.paste = c.paste[:0]
	for i := range c.formula {
		f := &c.formula[i]
		x := f.batch
		x.Mass *= k
		if f.in != nil {
			x = f.in.Component(f.in.At(f.z(z)), x.Role, x.Mass)
		}
		c.paste = append(c.paste, x)
	}
	over := s.Oil
	if s.Drops > 0 {
		drop := s.DropMass.At(z[c.reading])
		over += quantity.Mass(s.Drops) * drop
		c.tr.Note(oilOfDrops, "beyond the formula", trace.T("mo", over, "g"), trace.T("n", s.Drops, ""), trace.T("mdrop", drop, "g"))
	}
	// The oil beyond is the formula's blend.
	oil := Paint{c.paste}.Figures().BinderMass
	for i := range c.paste {
		if c.paste[i].Role == Binder {
			c.paste[i].Mass *= (oil + over) / oil
		}
	}
	return nil
}

// checkWidth refuses a state that is so loosely known that it spans more than
// one body. Neighbouring named bodies differ by a ratio of oil; a wider range
// of oil cannot tell one from the next.
func (r *CorrectRequest) checkWidth(oilPer []float64) error {
	if r.State.Known != ByDensity {
		return nil
	}
	got := rangeOf[quantity.Absorption](oilPer)
	if float64(got.High) <= float64(got.Low)*float64(stepWidth()) {
		return nil
	}
	return refuse("with the air and the densities as uncertain as they are, the paste may hold from %.3g to %.3g g of oil per 100 g of powder: that spans more than one body; narrow --air (knock the air out and fill again) or weigh pigment and paste",
		float64(got.Low), float64(got.High))
}

// stepWidth is the smallest ratio of oil between one named body and the next.
func stepWidth() quantity.Ratio {
	steps := absorption.Steps()
	width := quantity.Ratio(math.Inf(1))
	for i := 1; i < len(steps); i++ {
		width = min(width, steps[i].Oil/steps[i-1].Oil)
	}
	return width
}

// Consistency names how much oil a paste holds beside tube colour, in the words
// of the named bodies: "buttery", "between soft and flowing", "runnier than
// flowing", "drier than stiff".
func Consistency(oilOverTube quantity.Ratio) string {
	steps := absorption.Steps() // stiff to flowing
	// Within a tenth of a body's oil nobody feels a difference.
	const near = 1.1 // common practice
	last := len(steps) - 1
	for _, s := range steps {
		if r := oilOverTube / s.Oil; r < near && r > 1/near {
			return s.Name
		}
	}
	switch {
	case oilOverTube < steps[0].Oil:
		return "drier than " + steps[0].Name
	case oilOverTube > steps[last].Oil:
		return "runnier than " + steps[last].Name
	}
	for i := range last {
		if oilOverTube < steps[i+1].Oil {
			return "between " + steps[i].Name + " and " + steps[i+1].Name
		}
	}
	return steps[last].Name
}
