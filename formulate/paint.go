package formulate

import (
	"mullwright/formulate/absorption"
	"mullwright/formulate/quantity"
)

// Role is what a component does in a paint.
type Role uint8

const (
	// Pigment gives the colour; its volume counts as pigment.
	Pigment Role = iota + 1
	// Extender is a colourless powder; its volume counts as pigment too.
	Extender
	// Binder stays in the dry film and forms it: oil, resin, gum.
	Binder
	// Volatile leaves as the film dries: solvent, water.
	Volatile
	// Additive stays in the dry film beside the binder, and its volume counts
	// with it: wax, stabiliser, humectant, drier, preservative.
	Additive
)

var roleNames = [...]string{"", "pigment", "extender", "binder", "volatile", "additive"}

func (r Role) String() string {
	if int(r) < len(roleNames) {
		return roleNames[r]
	}
	return "unknown"
}

// A Component is one material in a paint, in the amount that is in it.
type Component struct {
	ID      string
	Role    Role
	Mass    quantity.Mass
	Density quantity.Density
	// Absorption is the oil absorption of a pigment or an extender, by volume;
	// 0 for everything else.
	Absorption quantity.AbsorptionVolume
	Price      quantity.PricePerGram
}

// Volume follows from mass and density.
func (c Component) Volume() quantity.Volume { return c.Mass.Volume(c.Density) }

// Paint is any paint, wet as it stands: a list of components. Every figure
// about a paint is a function of that list and of nothing else.
type Paint struct{ Components []Component }

// Figures are the figures of one paint, worked out in one pass.
type Figures struct {
	Mass   quantity.Mass
	Volume quantity.Volume

	PigmentMass    quantity.Mass // pigments and extenders
	PigmentVolume  quantity.Volume
	BinderMass     quantity.Mass // binders alone
	BinderVolume   quantity.Volume
	AdditiveMass   quantity.Mass
	AdditiveVolume quantity.Volume
	VolatileMass   quantity.Mass
	VolatileVolume quantity.Volume

	// Demand is the oil that fills the voids of the packed pigment, by the
	// additive rule.
	Demand quantity.Volume

	Cost quantity.Money
}

// Figures sums the components.
func (p Paint) Figures() Figures {
	var f Figures
	for i := range p.Components {
		c := &p.Components[i]
		v := c.Volume()
		f.Mass += c.Mass
		f.Volume += v
		f.Cost += quantity.Money(float64(c.Mass) * float64(c.Price))
		switch c.Role {
		case Pigment, Extender:
			f.PigmentMass += c.Mass
			f.PigmentVolume += v
			f.Demand += c.Absorption.TakenBy(c.Mass)
		case Binder:
			f.BinderMass += c.Mass
			f.BinderVolume += v
		case Additive:
			f.AdditiveMass += c.Mass
			f.AdditiveVolume += v
		case Volatile:
			f.VolatileMass += c.Mass
			f.VolatileVolume += v
		}
	}
	return f
}

// Density of the wet paint.
func (f Figures) Density() quantity.Density {
	return quantity.Density(share(float64(f.Mass), float64(f.Volume)))
}

// PVC is the pigment volume concentration of the dry film: pigment over
// pigment and all that stays with it, volatiles left out.
func (f Figures) PVC() quantity.VolumeFraction {
	return pvc(f.PigmentVolume, f.BinderVolume+f.AdditiveVolume)
}

// CPVC is the critical pigment volume concentration: where the binder just
// fills the voids of the packed pigment. Mixtures by the additive rule.
func (f Figures) CPVC() quantity.VolumeFraction {
	return pvc(f.PigmentVolume, f.Demand)
}

// ReducedPVC is PVC over CPVC.
func (f Figures) ReducedPVC() quantity.Ratio {
	if f.PigmentVolume == 0 {
		return 0
	}
	return absorption.ReducedPVC(f.PVC(), f.CPVC())
}

// WetPigment is the pigment's share of the volume of the paint as it stands.
func (f Figures) WetPigment() quantity.VolumeFraction {
	return quantity.VolumeFraction(share(float64(f.PigmentVolume), float64(f.Volume)))
}

// Body is the pigment volume fraction as the paste stands over CPVC. It equals
// the reduced PVC where nothing is volatile.
func (f Figures) Body() absorption.Body {
	if f.PigmentVolume == 0 {
		return 0
	}
	return absorption.BodyOf(f.WetPigment(), f.CPVC())
}

// OilPerPigment is the binder in grams per 100 g of pigment and extender.
func (f Figures) OilPerPigment() quantity.Absorption {
	return quantity.Absorption(100 * share(float64(f.BinderMass), float64(f.PigmentMass)))
}

// BinderByMass is the binder's share of the wet paint's mass.
func (f Figures) BinderByMass() quantity.MassFraction {
	return quantity.MassFraction(share(float64(f.BinderMass), float64(f.Mass)))
}

// BinderByVolume is the binder's share of the wet paint's volume.
func (f Figures) BinderByVolume() quantity.VolumeFraction {
	return quantity.VolumeFraction(share(float64(f.BinderVolume), float64(f.Volume)))
}

// DryBinderByVolume is the share of the dry film that is binder and additives:
// the measure of fat and lean.
func (f Figures) DryBinderByVolume() quantity.VolumeFraction {
	return quantity.VolumeFraction(share(float64(f.BinderVolume+f.AdditiveVolume), float64(f.PigmentVolume+f.BinderVolume+f.AdditiveVolume)))
}

// SolidsByMass is the share of the wet mass that stays.
func (f Figures) SolidsByMass() quantity.MassFraction {
	return quantity.MassFraction(share(float64(f.Mass-f.VolatileMass), float64(f.Mass)))
}

// SolidsByVolume is the share of the wet volume that stays.
func (f Figures) SolidsByVolume() quantity.VolumeFraction {
	return quantity.VolumeFraction(share(float64(f.Volume-f.VolatileVolume), float64(f.Volume)))
}

// VolatileByMass is the solvent or water content of the wet paint.
func (f Figures) VolatileByMass() quantity.MassFraction {
	return quantity.MassFraction(share(float64(f.VolatileMass), float64(f.Mass)))
}

// pvc is absorption.PVC, and 0 for a liquid without pigment.
func pvc(pigment, binder quantity.Volume) quantity.VolumeFraction {
	if pigment == 0 {
		return 0
	}
	return absorption.PVC(pigment, binder)
}

// share is a/b, and 0 where there is nothing to share.
func share(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}

// Scaled returns the same paint in k times the amount.
func (p Paint) Scaled(k quantity.Ratio) Paint {
	out := Paint{Components: make([]Component, len(p.Components))}
	for i, c := range p.Components {
		c.Mass *= quantity.Mass(k)
		out.Components[i] = c
	}
	return out
}

// Find returns the index of a component by id and role, or -1.
func (p Paint) Find(id string, role Role) int {
	for i, c := range p.Components {
		if c.ID == id && c.Role == role {
			return i
		}
	}
	return -1
}

// Add puts more of a component in, joining it to one of the same id and role.
func (p *Paint) Add(c Component) {
	if i := p.Find(c.ID, c.Role); i >= 0 {
		p.Components[i].Mass += c.Mass
		return
	}
	p.Components = append(p.Components, c)
}

// Mixed returns the paints joined.
func Mixed(paints ...Paint) Paint {
	var out Paint
	for _, p := range paints {
		for _, c := range p.Components {
			out.Add(c)
		}
	}
	return out
}
