package formulate

import (
	"errors"
	"fmt"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// A Liquid is a medium as it is poured: one material, or a made-up mixture of
// several, each in its share of the mass. Powders that are dissolved in it
// (gum, resin) and what they lose in drying (honey's water, a balsam's oil) are
// parts of it as well.
type Liquid struct {
	Material *material.Material // as the maker named it
	Parts    []LiquidPart       // at least one; the shares sum to 1
	Price    quantity.PricePerGram
}

// A LiquidPart is one material of a liquid.
type LiquidPart struct {
	Ingredient
	Share quantity.MassFraction // of the liquid's mass
	// Leaves is what a part loses that is neither all volatile nor all lasting;
	// nil for every other part.
	Leaves *Loss

	seat int
}

// A Loss is the share of a material that dries away.
type Loss struct {
	Ingredient                                              // what leaves
	Stays      evidence.Distribution[quantity.MassFraction] // the share that stays in the film
	Residue    evidence.Distribution[quantity.Density]      // density of what stays
	seatOfLoss int
}

// Role is what a part does once the film is dry.
func (p *LiquidPart) Role() Role { return RoleOf(p.Material.Kind) }

// RoleOf is what a kind of material does in a paint.
func RoleOf(k material.Kind) Role {
	switch k {
	case material.Pigment:
		return Pigment
	case material.Extender:
		return Extender
	case material.Oil, material.Resin, material.Gum:
		return Binder
	case material.Solvent, material.Water:
		return Volatile
	}
	return Additive
}

// nonVolatileWidth is the spread of the lasting share between lots: common
// practice (honeys, balsams and driers differ by a few hundredths).
var nonVolatileWidth = evidence.Width{Sigma: 0.04, Weight: 2}

// NewLiquidPart makes one material ready to be poured as a share of a liquid.
// leaves is what its volatile share is made of, nil where the catalogue gives
// the material no such share.
func NewLiquidPart(in Ingredient, share quantity.MassFraction, leaves *Ingredient) LiquidPart {
	p := LiquidPart{Ingredient: in, Share: share}
	stays := evidence.Combine(in.Material.NonVolatile, nonVolatileWidth)
	if leaves == nil || !stays.Known() || p.Role() == Volatile {
		return p
	}
	stays.Median = min(stays.Median, 1)
	p.Leaves = &Loss{Ingredient: *leaves, Stays: stays, Residue: residueDensity(in.Density, leaves.Density.Median, stays.Median)}
	return p
}

// residueDensity is the density of what stays, so that what stays and what
// leaves add up to the volume of the whole. Where the published figures do not
// allow that (a little residue in much water), the residue is taken to be as
// dense as the whole.
func residueDensity(whole evidence.Distribution[quantity.Density], leaves quantity.Density, stays quantity.MassFraction) evidence.Distribution[quantity.Density] {
	const least, most = 0.7, 3.0 // g/ml: from a light oil to a salt
	volume := 1/float64(whole.Median) - float64(1-stays)/float64(leaves)
	rho := float64(stays) / volume
	if volume > 0 && rho >= least && rho <= most {
		whole.Median = quantity.Density(rho)
	}
	return whole
}

// NewLiquid joins parts to a liquid. Their shares are relative and are brought
// to a sum of 1; a material that stands in two parts becomes one.
func NewLiquid(m *material.Material, parts []LiquidPart) (Liquid, error) {
	l := Liquid{Material: m}
	var sum quantity.MassFraction
	at := map[string]int{}
	for _, p := range parts {
		if !(p.Share > 0) || p.Share > 1e12 {
			return l, fmt.Errorf("%s: the share of %s must be above nothing", m.ID, p.Material.ID)
		}
		sum += p.Share
		if i, twice := at[p.Material.ID]; twice {
			l.Parts[i].Share += p.Share
			continue
		}
		at[p.Material.ID] = len(l.Parts)
		l.Parts = append(l.Parts, p)
	}
	if len(l.Parts) == 0 {
		return l, errors.New(m.ID + ": nothing to pour")
	}
	for i := range l.Parts {
		l.Parts[i].Share /= sum
	}
	return l, nil
}

// Roster gives every ingredient of a calculation its own deviates, once: the
// same oil in the paint and in the medium has one density in a draw.
type Roster struct{ seats map[string]int }

// Seat returns where an ingredient's deviates begin.
func (r *Roster) Seat(in *Ingredient) int {
	if at, ok := r.seats[in.Material.ID]; ok {
		return at
	}
	if r.seats == nil {
		r.seats = map[string]int{}
	}
	at := r.Inputs()
	r.seats[in.Material.ID] = at
	return at
}

// Inputs is how many deviates one draw takes.
func (r *Roster) Inputs() int { return deviatesEach * len(r.seats) }

// Sit takes the liquid's seats; call it once before pouring.
func (l *Liquid) Sit(r *Roster) {
	// The parts are copied, so that a liquid used twice keeps its seats apart.
	l.Parts = append([]LiquidPart(nil), l.Parts...)
	for i := range l.Parts {
		p := &l.Parts[i]
		p.seat = r.Seat(&p.Ingredient)
		if p.Leaves != nil {
			lost := *p.Leaves
			lost.seatOfLoss = r.Seat(&lost.Ingredient)
			p.Leaves = &lost
		}
	}
}

// Pour appends what a mass of the liquid brings into a paint, at the deviates
// of one draw of the whole roster.
func (l *Liquid) Pour(to []Component, mass quantity.Mass, z []float64) []Component {
	for i := range l.Parts {
		p := &l.Parts[i]
		m := mass * quantity.Mass(p.Share)
		zp := z[p.seat : p.seat+deviatesEach]
		v := p.At(zp)
		price := p.Price
		if l.Price > 0 {
			price = l.Price
		}
		c := p.Component(v, p.Role(), m)
		c.Price = price
		if p.Leaves == nil {
			to = append(to, c)
			continue
		}
		// The lot's deviate, which only powders use otherwise, moves the share.
		stays := quantity.Mass(min(p.Leaves.Stays.At(zp[1]), 1))
		c.Mass, c.Density = m*stays, p.Leaves.Residue.At(zp[0])
		gone := p.Leaves.Component(p.Leaves.At(z[p.Leaves.seatOfLoss:p.Leaves.seatOfLoss+deviatesEach]), Volatile, m*(1-stays))
		gone.Price = price
		to = append(to, c, gone)
	}
	return to
}

// Density of the liquid as it is poured, in one draw.
func (l *Liquid) Density(z []float64) quantity.Density {
	const unit = 1 // g
	var scratch [8]Component
	f := Paint{l.Pour(scratch[:0], unit, z)}.Figures()
	return f.Density()
}

// Holds reports whether a material of a kind is in the liquid.
func (l *Liquid) Holds(k material.Kind) bool {
	for i := range l.Parts {
		if l.Parts[i].Material.Kind == k {
			return true
		}
	}
	return false
}

// Materials lists what is in the liquid, what leaves it included.
func (l *Liquid) Materials() []*material.Material {
	var out []*material.Material
	seen := map[string]bool{}
	add := func(m *material.Material) {
		if !seen[m.ID] {
			seen[m.ID] = true
			out = append(out, m)
		}
	}
	for i := range l.Parts {
		add(l.Parts[i].Material)
		if l.Parts[i].Leaves != nil {
			add(l.Parts[i].Leaves.Material)
		}
	}
	return out
}

// Stays is the share of the liquid's mass that does not wholly leave as it
// dries.
func (l *Liquid) Stays() quantity.MassFraction {
	var s quantity.MassFraction
	for i := range l.Parts {
		if l.Parts[i].Role() != Volatile {
			s += l.Parts[i].Share
		}
	}
	return s
}
