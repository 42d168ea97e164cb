package formulate

import (
	"fmt"
	"math"
	"sort"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
)

// viscosityWidth is the spread of viscosities between sources of one oil or
// solvent at one temperature: common practice. The catalogue's own pairs differ
// by up to 12 % (walnut oil).
var viscosityWidth = evidence.Width{Sigma: 0.1, Weight: 3}

// memoryWidth is the spread where every source is memory: stand oils run from
// 4000 to 10000 mPa·s with the grade.
var memoryWidth = evidence.Width{Sigma: 0.36, Weight: 3}

// How far a temperature may lie from the points it is carried from, and how far
// apart two points of a law must lie at least.
const (
	pointReach quantity.Celsius = 20
	pairSpan   quantity.Celsius = 5
)

// oilEnergy is the middle of the activation energies of flow of vegetable oils,
// 21 to 30 kJ/mol (J. Food Processing 2014, 234583), for an oil of which only one
// point is known.
const oilEnergy quantity.Energy = 25.5

// thinnerEnergy is the same for a solvent: that of turpentine between the two
// points of the catalogue, 1.49 mPa·s at 20 °C and 1.375 mPa·s at 25 °C.
const thinnerEnergy quantity.Energy = 11.7

// oilExpansion is the loss of density of an oil for each degree: from linseed
// oil of 0.9181 g/ml at 37.8 °C and 0.8771 at 98.9 °C (Rescorla and Carnahan
// 1936). It serves only to carry a viscosity to another temperature.
const oilExpansion = 0.00067

// ViscosityOf is the viscosity of an oil or a solvent at a temperature, from
// the points that each source gives. An error says what is missing.
func ViscosityOf(m *material.Material, t quantity.Celsius) (evidence.Distribution[quantity.Viscosity], error) {
	bySource := map[string][]rheology.Point{}
	for _, v := range m.Viscosity {
		if v.Temperature != nil {
			bySource[v.Source] = append(bySource[v.Source], rheology.Point{At: *v.Temperature, Viscosity: v.Value})
		}
	}
	sources := make([]string, 0, len(bySource))
	for s, points := range bySource {
		sources = append(sources, s)
		sort.Slice(points, func(i, j int) bool { return points[i].At < points[j].At })
	}
	sort.Strings(sources)
	// A law through two points of one source comes first; single points count
	// only where no source gives two.
	for _, carry := range []func(*material.Material, []rheology.Point, quantity.Celsius) (quantity.Viscosity, bool){carriedByTwo, carriedByOne} {
		var readings []evidence.Reading[quantity.Viscosity]
		width := memoryWidth
		for _, s := range sources {
			v, ok := carry(m, bySource[s], t)
			if !ok {
				continue
			}
			readings = append(readings, evidence.Reading[quantity.Viscosity]{Value: v, Source: s})
			if s != material.FromMemory {
				width = viscosityWidth
			}
		}
		if len(readings) > 0 {
			return evidence.Combine(readings, width), nil
		}
	}
	return evidence.Distribution[quantity.Viscosity]{}, fmt.Errorf("no viscosity of %s is known at %g °C", m.ID, float64(t))
}

// carriedByTwo lays a law through two points of one source, which stand in
// order of temperature.
func carriedByTwo(m *material.Material, points []rheology.Point, t quantity.Celsius) (quantity.Viscosity, bool) {
	p, q, ok := pair(points, t)
	if !ok || t < p.At-pointReach || t > q.At+pointReach {
		return 0, false
	}
	if m.Kind == material.Oil {
		return throughWalther(m, p, q, t)
	}
	law, err := rheology.AndradeThrough(p, q)
	if err != nil {
		return 0, false
	}
	v, err := law.At(t)
	return v, err == nil
}

// carriedByOne carries the nearest point of one source.
func carriedByOne(m *material.Material, points []rheology.Point, t quantity.Celsius) (quantity.Viscosity, bool) {
	p := points[0]
	for _, q := range points[1:] {
		if math.Abs(float64(q.At-t)) < math.Abs(float64(p.At-t)) {
			p = q
		}
	}
	if math.Abs(float64(p.At-t)) > float64(pointReach) {
		return 0, false
	}
	energy := thinnerEnergy
	if m.Kind == material.Oil {
		energy = oilEnergy
	}
	law, err := rheology.AndradeFrom(p, energy)
	if err != nil {
		return 0, false
	}
	v, err := law.At(t)
	return v, err == nil
}

// pair picks the two points, far enough apart, between which a temperature
// lies, or those that lie nearest to it.
func pair(points []rheology.Point, t quantity.Celsius) (p, q rheology.Point, ok bool) {
	away := math.Inf(1)
	for i := range points {
		for j := i + 1; j < len(points); j++ {
			if points[j].At-points[i].At < pairSpan {
				continue
			}
			d := math.Abs(float64(points[i].At-t)) + math.Abs(float64(points[j].At-t))
			if d < away {
				away, p, q, ok = d, points[i], points[j], true
			}
		}
	}
	return p, q, ok
}

// throughWalther carries an oil's viscosity with the double-log law, which is
// one of kinematic viscosity.
func throughWalther(m *material.Material, p, q rheology.Point, t quantity.Celsius) (quantity.Viscosity, bool) {
	at20 := m.DensityDistribution().Median
	density := func(c quantity.Celsius) quantity.Density {
		return at20 - quantity.Density(oilExpansion*float64(c-20))
	}
	kinematic := func(p rheology.Point) rheology.KinematicPoint {
		return rheology.KinematicPoint{At: p.At, Viscosity: rheology.Kinematic(p.Viscosity, density(p.At))}
	}
	law, err := rheology.WaltherThrough(kinematic(p), kinematic(q))
	if err != nil {
		return 0, false
	}
	v, err := law.At(t)
	if err != nil {
		return 0, false
	}
	return rheology.Dynamic(v, density(t)), true
}
