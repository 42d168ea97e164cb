package formulate

import (
	"sort"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
	"mullwright/formulate/vapour"
)

// AirResult is what leaves a thinned paint, and where it goes.
type AirResult struct {
	Airing  *Airing // nil where no room was given
	Leaving []Leaving
	// Together is the sum over the solvents of their largest share of a limit for
	// a working day, 0 where fewer than two have one.
	Together quantity.Ratio
}

// Leaving is one volatile material that leaves.
type Leaving struct {
	ID         string
	Name       string
	Mass       quantity.Mass
	Assessment *vapour.Assessment // nil without a room, or where it is not assessed
	NotKnown   string             // why it is not
}

// molarMassWidth is the spread between sources of a solvent's molar mass:
// common practice; blends differ with the grade. Only the middle is used.
var molarMassWidth = evidence.Width{Sigma: 0.05, Weight: 2}

// SubstanceOf is what the catalogue knows of a solvent's vapour. Of several
// explosive limits the lowest counts, of several vapour pressures near the
// temperature the highest.
func SubstanceOf(m *material.Material, at quantity.Celsius) vapour.Substance {
	s := vapour.Substance{Name: m.ID, MolarMass: evidence.Combine(m.MolarMass, molarMassWidth).Median, Limits: m.Limits}
	for _, r := range m.LowerExplosive {
		least := r.Value
		if least == 0 {
			least = r.Low
		}
		if r.Aside == "" && (s.LowerExplosive == 0 || least < s.LowerExplosive) {
			s.LowerExplosive = least
		}
	}
	const near quantity.Celsius = 5
	for _, p := range m.VapourPressure {
		if p.Temperature != nil && *p.Temperature >= at-near && *p.Temperature <= at+near {
			s.VapourPressure = max(s.VapourPressure, p.Value)
		}
	}
	return s
}

// air follows what leaves the thinned paint into the room.
func (r *ThinRequest) air(p Paint, tr *trace.Tracer) (AirResult, error) {
	out := AirResult{Airing: r.Airing}
	byID := map[string]*material.Material{}
	for _, m := range r.Materials() {
		byID[m.ID] = m
	}
	masses := map[string]quantity.Mass{}
	for i := range p.Components {
		if c := &p.Components[i]; c.Role == Volatile && c.Mass > 0 {
			masses[c.ID] += c.Mass
		}
	}
	ids := make([]string, 0, len(masses))
	for id := range masses {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	var shares []quantity.Ratio
	for _, id := range ids {
		// The water of damp pigment is no material of the request.
		l := Leaving{ID: id, Name: "Water", Mass: masses[id]}
		if m := byID[id]; m != nil {
			l.Name = m.Name
			if r.Airing != nil && m.Kind != material.Water {
				if err := l.assess(r, m, tr); err != nil {
					return out, err
				}
			}
		}
		if most := l.workingDay(); most > 0 {
			shares = append(shares, most)
		}
		out.Leaving = append(out.Leaving, l)
	}
	if len(shares) > 1 {
		out.Together = vapour.Additive(shares...)
	}
	return out, nil
}

// assess sets one solvent beside its limits.
func (l *Leaving) assess(r *ThinRequest, m *material.Material, tr *trace.Tracer) error {
	s := SubstanceOf(m, r.Temperature)
	if s.MolarMass == 0 {
		l.NotKnown = "its molar mass is not known, so neither is its share of the air"
		return nil
	}
	air := vapour.OrdinaryAir
	air.Temperature = r.Temperature
	a, err := vapour.Assess(r.Airing.Room, vapour.Release{Profile: r.Airing.Profile, Mass: l.Mass, Over: r.Airing.Over}, s, air, tr)
	if err != nil {
		return err
	}
	l.Assessment = &a
	return nil
}

// workingDay is the largest share of a limit averaged over eight hours.
func (l *Leaving) workingDay() quantity.Ratio {
	var most quantity.Ratio
	if l.Assessment != nil {
		for _, c := range l.Assessment.Comparisons {
			if c.Averaged == vapour.WorkingDay {
				most = max(most, c.Share)
			}
		}
	}
	return most
}
