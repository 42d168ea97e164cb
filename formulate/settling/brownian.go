package settling

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// boltzmann is the Boltzmann constant in J/K (exact since the SI of 2019).
const boltzmann = 1.380649e-23

func warm(t quantity.Celsius) error {
	if !(t > -quantity.ZeroCelsius && t < 1000) {
		return fmt.Errorf("temperature is %g °C: want a liquid's", float64(t))
	}
	return nil
}

// BrownianDisplacementRelation is how far heat moves a grain.
var BrownianDisplacementRelation = trace.Relation{
	Name:     "Brownian displacement",
	Equation: "λ = √(2·D·t), D = kT/(3π·µ·d)",
	Source:   "Einstein, Ann. Phys. 17 (1905) 549",
}

// BrownianDisplacement is the root mean square displacement of a grain in one
// direction in a time: √(2Dt) with D = kT/(3πµd). Compare it with the fall in
// the same time.
func BrownianDisplacement(d quantity.ParticleSize, viscosity quantity.Viscosity, t quantity.Celsius, over quantity.Duration) (quantity.Length, error) {
	if err := positive("grain size", float64(d), "µm"); err != nil {
		return 0, err
	}
	if err := positive("liquid viscosity", float64(viscosity), "mPa·s"); err != nil {
		return 0, err
	}
	if err := positive("time", float64(over), "s"); err != nil {
		return 0, err
	}
	if err := warm(t); err != nil {
		return 0, err
	}
	diffusion := boltzmann * t.Kelvin() / (3 * math.Pi * pascalSeconds(viscosity) * metres(d))
	return quantity.Length(math.Sqrt(2*diffusion*float64(over)) * 100), nil
}

// GravitationalHeightRelation is how high heat holds grains.
var GravitationalHeightRelation = trace.Relation{
	Name:     "gravitational height",
	Equation: "ℓ = 6·kT/(π·d³·(ρp − ρ)·g)",
	Source:   "barometric distribution: kT over the buoyant weight; Perrin, Ann. Chim. Phys. 18 (1909) 5, from memory",
}

// GravitationalHeight is the height over which the number of grains at rest
// falls to 1/e: kT over their buoyant weight.
func GravitationalHeight(g Grain, liquid quantity.Density, t quantity.Celsius) (quantity.Length, error) {
	if err := g.check(); err != nil {
		return 0, err
	}
	if err := heavier(g.Density, liquid); err != nil {
		return 0, err
	}
	if err := warm(t); err != nil {
		return 0, err
	}
	d := metres(g.Size)
	return quantity.Length(6 * boltzmann * t.Kelvin() / (math.Pi * d * d * d * (kgPerM3(g.Density) - kgPerM3(liquid)) * quantity.StandardGravity) * 100), nil
}

// BrownianLimit is the size below which Brownian motion keeps grains up through
// a height of liquid: [GravitationalHeight] solved for the size at which it
// equals the height. Finer grains, if they stay single, never clear.
func BrownianLimit(h quantity.Length, grain, liquid quantity.Density, t quantity.Celsius) (quantity.ParticleSize, error) {
	if err := positive("height", float64(h), "cm"); err != nil {
		return 0, err
	}
	// The height falls as the cube of the size, so that of a 1 µm grain tells.
	one, err := GravitationalHeight(Grain{Size: 1, Density: grain}, liquid, t)
	if err != nil {
		return 0, err
	}
	return quantity.ParticleSize(math.Cbrt(float64(one / h))), nil
}
