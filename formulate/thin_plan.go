package formulate

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A serving is so much of a group of liquids: of each its mass, and what they
// are together.
type serving struct {
	masses   []quantity.Mass
	mass     quantity.Mass
	volume   quantity.Volume
	volatile float64 // by mass or by volume, as the thinning counts
}

// servingOf is one part of a group: one gram or one millilitre.
func servingOf(list []Poured, by Measuring, z []float64) serving {
	var s serving
	var parts quantity.Parts
	for i := range list {
		parts += list[i].Parts
	}
	for i := range list {
		l := &list[i].Liquid
		share := float64(list[i].Parts / parts)
		m := quantity.Mass(share)
		if by == ByVolume {
			m = quantity.Volume(share).Mass(l.Density(z))
		}
		f := Paint{l.Pour(nil, m, z)}.Figures()
		s.masses = append(s.masses, m)
		s.mass += f.Mass
		s.volume += f.Volume
		s.volatile += counted(by, f.VolatileMass, f.VolatileVolume)
	}
	return s
}

// counted is an amount as the thinning counts: in g or in ml.
func counted(by Measuring, m quantity.Mass, v quantity.Volume) float64 {
	if by == ByMass {
		return float64(m)
	}
	return float64(v)
}

func unitOf(by Measuring) string {
	if by == ByMass {
		return "g"
	}
	return "ml"
}

// times scales a serving.
func (s serving) times(k float64) serving {
	out := serving{mass: s.mass * quantity.Mass(k), volume: s.volume * quantity.Volume(k), volatile: s.volatile * k}
	for _, m := range s.masses {
		out.masses = append(out.masses, m*quantity.Mass(k))
	}
	return out
}

// plan works out what to take at the typical values. It settles the wet
// thickness of the request where the pigment per area decides it.
func (t *thinner) plan(zero []float64, tr *trace.Tracer) (Recipe, error) {
	r := t.req
	u, err := t.unit(zero, nil)
	if err != nil {
		return Recipe{}, err
	}
	made := float64(u.paint.Figures().Mass)
	scale := r.Paint.scaleTo(u, nil)
	f := u.paint.Scaled(quantity.Ratio(1 / made)).Figures() // of one gram
	medium, solvent, err := r.liquids(f, zero, tr)
	if err != nil {
		return Recipe{}, err
	}
	whole := f.Volume + medium.volume + solvent.volume
	if r.Thinning.Pigment > 0 && r.Thinning.Kind != ToPigment {
		r.Wet = quantity.Thickness(float64(r.Thinning.Pigment) * float64(whole) / float64(f.PigmentMass))
	}
	paint := quantity.Mass(made * float64(scale) * (1 - float64(r.Paint.Loss))) // what a mull of that amount yields
	switch g := r.Glaze; {
	case g.Volume > 0:
		paint = quantity.Mass(g.Volume / whole)
	case g.Mass > 0:
		paint = g.Mass / (1 + medium.mass + solvent.mass)
	case g.Area > 0:
		paint = quantity.Mass(float64(g.Area) * float64(r.Wet) / float64(whole))
	}
	return Recipe{Paint: paint, Media: medium.times(float64(paint)).masses, Solvents: solvent.times(float64(paint)).masses}, nil
}

// liquids gives what is poured into one gram of paint.
func (r *ThinRequest) liquids(f Figures, zero []float64, tr *trace.Tracer) (medium, solvent serving, err error) {
	th := &r.Thinning
	m, s := servingOf(r.Media, th.By, zero), servingOf(r.Solvents, th.By, zero)
	part := counted(th.By, f.Mass, f.Volume)
	switch th.Kind {
	case ByParts:
		return m.times(part * float64(th.Medium/th.Paint)), s.times(part * float64(th.Solvent/th.Paint)), nil
	case ToBody:
		more := float64(f.Volume) * (1/float64(th.Body) - 1)
		tr.Note(thinToBody, "1 g of paint", trace.T("Vliquid", more, "ml"), trace.T("Vpaint", f.Volume, "ml"), trace.T("r", th.Body, ""))
		medium, solvent = blended(m, s, th, more)
		return medium, solvent, nil
	case ToPigment:
		holds := float64(f.PigmentMass) / float64(f.Volume) // g/ml, which is g/m² in a µm
		more := float64(f.Volume) * (holds*float64(r.Wet)/float64(th.Pigment) - 1)
		if more < 0 {
			return m, s, refuse("the paint as it is holds only %.3g g/m² of pigment at %.3g µm wet; ask for less, or for a film of at least %.3g µm",
				holds*float64(r.Wet), float64(r.Wet), float64(th.Pigment)/holds)
		}
		tr.Note(thinToPigment, "1 g of paint", trace.T("Vliquid", more, "ml"), trace.T("Vpaint", f.Volume, "ml"),
			trace.T("c", holds, "g of pigment/ml"), trace.T("WFT", r.Wet, "µm"), trace.T("m/A", th.Pigment, "g/m²"))
		medium, solvent = blended(m, s, th, more)
		return medium, solvent, nil
	case ToSolvent:
		if len(r.Media) > 0 {
			m = m.times(part * float64(th.Medium/th.Paint))
		}
		whole := part + counted(th.By, m.mass, m.volume)
		has := counted(th.By, f.VolatileMass, f.VolatileVolume) + m.volatile
		want := float64(th.SolventShare)
		more := (want*whole - has) / (1 - want)
		if more < 0 {
			return m, s, refuse("paint and medium hold %.3g %% of solvent by %s before any is poured; ask for more, or take less medium", 100*has/whole, th.By)
		}
		tr.Note(thinToSolvent, "1 g of paint", trace.T("S", more, unitOf(th.By)), trace.T("s", want, ""), trace.T("P + M", whole, unitOf(th.By)), trace.T("solvent in P and M", has, unitOf(th.By)))
		return m, s.times(more), nil
	}
	return m.times(0), s.times(0), nil
}

// blended shares a volume of liquid between medium and solvent.
func blended(m, s serving, th *Thinning, volume float64) (medium, solvent serving) {
	m, s = m.times(float64(th.Medium)), s.times(float64(th.Solvent))
	k := volume / float64(m.volume+s.volume)
	return m.times(k), s.times(k)
}

func (r *ThinRequest) validate() error {
	if err := r.Paint.validate(); err != nil {
		return err
	}
	for _, v := range []float64{float64(r.Wet), float64(r.Absorbed), float64(r.Glaze.Volume), float64(r.Glaze.Mass), float64(r.Glaze.Area), float64(r.Thinning.Pigment)} {
		if negative(v) {
			return errors.New("amounts, areas and thicknesses must not be negative")
		}
	}
	if err := r.validateLiquids(); err != nil {
		return err
	}
	if err := r.validateThinning(); err != nil {
		return err
	}
	given := r.Wet > 0 || r.Thinning.Pigment > 0
	filmKnown := given || r.Glaze.settlesFilm()
	switch {
	case given && r.Glaze.settlesFilm():
		return errors.New("a volume on an area settles the wet film: leave out its thickness or the pigment per area, or one of the two")
	case r.Glaze.Area > 0 && !filmKnown:
		return errors.New("an area needs a wet film thickness, or the pigment per area")
	case r.Absorbed > 0 && !filmKnown:
		return errors.New("binder lost to the ground needs a wet film thickness: a thick film loses a smaller share of its oil")
	}
	return nil
}

func (r *ThinRequest) validateLiquids() error {
	seen := map[string]bool{}
	once := func(p *Poured) error {
		id := p.Liquid.Material.ID
		if seen[id] {
			return fmt.Errorf("%s is poured twice; add its parts together", id)
		}
		seen[id] = true
		if !positive(p.Parts) {
			return fmt.Errorf("%s: parts must be above nothing", id)
		}
		return nil
	}
	for i := range r.Media {
		if err := once(&r.Media[i]); err != nil {
			return err
		}
		if err := asMedium(&r.Media[i].Liquid); err != nil {
			return err
		}
	}
	for i := range r.Solvents {
		if err := once(&r.Solvents[i]); err != nil {
			return err
		}
		if err := asSolvent(&r.Solvents[i].Liquid); err != nil {
			return err
		}
	}
	return nil
}

// asMedium refuses what cannot be a medium of oil paint.
func asMedium(l *Liquid) error {
	stays := false
	for i := range l.Parts {
		p := &l.Parts[i]
		switch p.Material.Kind {
		case material.Oil, material.Resin, material.Wax, material.Stabiliser, material.Drier, material.Solvent, material.Additive:
		default:
			return fmt.Errorf("%s: it does not go into oil paint; take an oil, a resin varnish or a wax paste", l.whatIs(p))
		}
		stays = stays || p.Role() != Volatile
	}
	if !stays {
		return fmt.Errorf("%s is a solvent: nothing of it stays to bind, so it cannot be the medium; pour it as the solvent", l.Material.ID)
	}
	return nil
}

// asSolvent refuses what does not wholly leave, and water.
func asSolvent(l *Liquid) error {
	for i := range l.Parts {
		switch p := &l.Parts[i]; p.Material.Kind {
		case material.Solvent:
		case material.Water:
			return fmt.Errorf("%s does not thin oil paint; take a solvent such as turpentine or white spirit", l.Material.ID)
		default:
			return fmt.Errorf("%s: it does not leave the film, so it cannot be the solvent; pour it as the medium", l.whatIs(p))
		}
	}
	return nil
}

// whatIs says what a liquid is by one of its parts: "linseed-oil is an oil".
func (l *Liquid) whatIs(p *LiquidPart) string {
	kind := "a " + string(p.Material.Kind)
	if strings.ContainsRune("aeiou", rune(kind[2])) {
		kind = "an " + kind[2:]
	}
	if p.Material == l.Material {
		return l.Material.ID + " is " + kind
	}
	return l.Material.ID + " holds " + p.Material.ID + ", " + kind
}

func (r *ThinRequest) validateThinning() error {
	th := &r.Thinning
	switch th.Kind {
	case NotThinned:
		return nil
	case ByParts:
		switch {
		case !(th.Paint > 0) || !(th.Medium >= 0) || !(th.Solvent >= 0) || math.IsInf(float64(th.Paint+th.Medium+th.Solvent), 0):
			return errors.New("parts are numbers from 0 up, the paint's above 0")
		case th.Medium > 0 && len(r.Media) == 0:
			return errors.New("parts of a medium are given, but no medium")
		case th.Solvent > 0 && len(r.Solvents) == 0:
			return errors.New("parts of a solvent are given, but no solvent")
		}
		return nil
	case ToSolvent:
		switch {
		case !(th.SolventShare > 0 && th.SolventShare < 1):
			return errors.New("a share of solvent is above 0 and below 100 %")
		case len(r.Solvents) == 0:
			return errors.New("a share of solvent needs a solvent")
		case len(r.Media) > 0 && !(th.Paint > 0 && th.Medium > 0):
			return errors.New("a share of solvent with a medium needs the parts of paint and medium")
		}
		return nil
	case ToBody:
		if !(th.Body > 0 && th.Body <= 1) {
			return errors.New("what is left of the body is above 0 and up to 100 %: thinning stiffens nothing")
		}
	case ToPigment:
		if !(th.Pigment > 0 && r.Wet > 0) {
			return errors.New("pigment per area needs a wet film thickness")
		}
	default:
		return errors.New("no such thinning")
	}
	medium, solvent := len(r.Media) > 0 && th.Medium > 0, len(r.Solvents) > 0 && th.Solvent > 0
	if !medium && !solvent {
		return errors.New("nothing to thin with: name a medium or a solvent")
	}
	return nil
}
