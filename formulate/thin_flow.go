package formulate

import (
	"errors"
	"math"
	"strings"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
	"mullwright/formulate/trace"
)

// Flow is how the thinned paint flows in brisk brushing, well dispersed: a
// Newtonian figure, never a yield stress.
type Flow struct {
	Temperature quantity.Celsius
	// Factor is the thinned paint over its own liquid, from the solids alone.
	Factor  evidence.Range[quantity.Ratio]
	Vehicle evidence.Range[quantity.Viscosity] // oils and solvents without the pigment
	Thinned evidence.Range[quantity.Viscosity]
	Against evidence.Range[quantity.Ratio] // thinned paint over the paint as it was
	// Packed is the chance that the solids are too close to packing for a figure;
	// the ranges are of the paints that flow.
	Packed quantity.Ratio
	// NoFactor, NoVehicle and NoAgainst say why a figure is not given; "" where
	// it is.
	NoFactor, NoVehicle, NoAgainst string
}

// leastInVehicle is the share of the vehicle's volume up to which a liquid of
// unknown viscosity is left out of it: common practice.
const leastInVehicle = 0.02

// mostPacked is the chance of packed solids beyond which no figure is given.
const mostPacked quantity.Ratio = 0.5

// flowInputs are the deviates of the flow itself: the interaction of oil with
// solvent, and the shape of the grains.
const flowInputs = 2

// flowSeats are the viscosities of the request's liquids with their deviates.
type flowSeats struct {
	viscosity map[string]seatedViscosity
	own       int // where the flow's own deviates begin
}

type seatedViscosity struct {
	evidence.Distribution[quantity.Viscosity]
	seat int
}

func newFlowSeats(r *ThinRequest, ros *Roster) *flowSeats {
	f := &flowSeats{viscosity: map[string]seatedViscosity{}}
	add := func(in *Ingredient) {
		if d, err := ViscosityOf(in.Material, r.Temperature); err == nil {
			// The lot's deviate, which powders use otherwise, and materials that lose a
			// part in drying.
			f.viscosity[in.Material.ID] = seatedViscosity{d, ros.Seat(in) + 1}
		}
	}
	for i := range r.Paint.Oils {
		add(&r.Paint.Oils[i].Ingredient)
	}
	for _, list := range [][]Poured{r.Media, r.Solvents} {
		for i := range list {
			for j := range list[i].Liquid.Parts {
				add(&list[i].Liquid.Parts[j].Ingredient)
			}
		}
	}
	f.own = ros.Inputs()
	return f
}

// inputs is how many deviates one draw takes.
func (f *flowSeats) inputs() int { return f.own + flowInputs }

// errNoViscosity is returned where a liquid's viscosity is not known.
var errNoViscosity = errors.New("no viscosity known")

// vehicle is the viscosity of a paint's liquids at a draw.
func (f *flowSeats) vehicle(p Paint, z []float64, tr *trace.Tracer) (quantity.Viscosity, error) {
	figures := p.Figures()
	whole := float64(figures.Volume - figures.PigmentVolume)
	liquids := make([]rheology.Liquid, 0, 8)
	var terms []trace.Term
	for i := range p.Components {
		c := &p.Components[i]
		if c.Role == Pigment || c.Role == Extender {
			continue
		}
		part := float64(c.Volume()) / whole
		d, known := f.viscosity[c.ID]
		if !known {
			if part > leastInVehicle {
				return 0, errNoViscosity
			}
			continue
		}
		eta := d.At(z[d.seat])
		liquids = append(liquids, rheology.Liquid{Share: quantity.Parts(part), Viscosity: eta})
		if tr.On() {
			terms = append(terms, trace.T("v of "+c.ID, part, ""), trace.T("η of "+c.ID, eta, "mPa·s"))
		}
	}
	g := rheology.Interaction(z[f.own])
	eta, err := rheology.Vehicle(liquids, g)
	if err == nil && tr.On() {
		tr.Note(rheology.VehicleRelation, "liquids of the thinned paint", trace.T("η", eta, "mPa·s"), append(terms, trace.T("G", g, ""))...)
	}
	return eta, err
}

// unknownIn names what the vehicle of a paint lacks a viscosity of.
func (f *flowSeats) unknownIn(p Paint) string {
	figures := p.Figures()
	whole := float64(figures.Volume - figures.PigmentVolume)
	var ids []string
	for _, c := range Mixed(p).Components {
		_, known := f.viscosity[c.ID]
		if c.Role != Pigment && c.Role != Extender && !known && float64(c.Volume())/whole > leastInVehicle {
			ids = append(ids, c.ID)
		}
	}
	if len(ids) == 0 {
		return ""
	}
	return "not known: no viscosity of " + strings.Join(ids, ", ") + " in oil and solvent was found"
}

// measureFlow fills the flow's columns; NaN stands for no figure.
func (t *thinner) measureFlow(z []float64, before, after Paint, out []float64, tr *trace.Tracer) {
	nan := math.NaN()
	out[thinFactor], out[thinVehicle], out[thinViscosity], out[thinAgainst] = nan, nan, nan, nan
	shape := rheology.IntrinsicViscosity().At(z[t.flow.own+1])
	// The suspension of a liquid of 1 mPa·s is the factor itself.
	suspended := func(p Paint, liquid quantity.Viscosity) (quantity.Viscosity, error) {
		f := p.Figures()
		return rheology.Suspension(liquid, f.WetPigment(), f.CPVC(), shape)
	}
	factor, packed := suspended(after, 1)
	if packed == nil {
		out[thinFactor] = float64(factor)
	}
	liquid, err := t.flow.vehicle(after, z, tr)
	if err != nil {
		return
	}
	out[thinVehicle] = float64(liquid)
	if packed != nil {
		return
	}
	eta, err := suspended(after, liquid)
	if err != nil {
		return
	}
	out[thinViscosity] = float64(eta)
	if tr.On() {
		f := after.Figures()
		tr.Note(rheology.SuspensionRelation, "thinned paint", trace.T("η", eta, "mPa·s"), trace.T("ηvehicle", liquid, "mPa·s"), trace.T("φ", f.WetPigment(), ""), trace.T("φm", f.CPVC(), ""), trace.T("[η]", shape, ""))
	}
	was, err := t.flow.vehicle(before, z, nil)
	if err != nil {
		return
	}
	if was, err = suspended(before, was); err == nil {
		out[thinAgainst] = float64(eta / was)
	}
}

// result reads the flow's columns.
func (f *flowSeats) result(r *ThinRequest, before, after Paint, columns [][]float64) Flow {
	out := Flow{Temperature: r.Temperature, NoVehicle: f.unknownIn(after)}
	flows := known(columns[thinFactor])
	out.Packed = 1 - quantity.Ratio(len(flows))/quantity.Ratio(len(columns[thinFactor]))
	if out.Packed > mostPacked {
		a := after.Figures()
		out.NoFactor = say("none: the pigment fills %.3g %% of the volume and packs at about %.3g %%; from nine tenths of that on, viscosity has no meaning", 100*float64(a.WetPigment()), 100*float64(a.CPVC()))
	} else {
		out.Factor = rangeOf[quantity.Ratio](flows)
	}
	if out.NoVehicle == "" {
		out.Vehicle = rangeOf[quantity.Viscosity](known(columns[thinVehicle]))
		if out.NoFactor == "" {
			out.Thinned = rangeOf[quantity.Viscosity](known(columns[thinViscosity]))
		}
	}
	against := known(columns[thinAgainst])
	switch {
	case out.NoFactor != "" || out.NoVehicle != "":
		out.NoAgainst = "not known"
	case f.unknownIn(before) != "":
		out.NoAgainst = f.unknownIn(before)
	case quantity.Ratio(len(against)) < (1-mostPacked)*quantity.Ratio(len(columns[thinAgainst])):
		out.NoAgainst = "none: the paint itself is too close to packing for a viscosity"
	default:
		out.Against = rangeOf[quantity.Ratio](against)
	}
	return out
}

// known leaves the draws without a figure out.
func known(column []float64) []float64 {
	out := make([]float64, 0, len(column))
	for _, v := range column {
		if !math.IsNaN(v) {
			out = append(out, v)
		}
	}
	return out
}
