package formulate

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Basis is what a comparison holds equal.
type Basis string

const (
	SameBody   Basis = "body"        // each pigment at the same body
	SamePVC    Basis = "pvc"         // each pigment at the same PVC
	SameOil    Basis = "same-oil"    // the same grams of oil per 100 g of powder
	SameVolume Basis = "same-volume" // the same volume of paint, at the body
)

// Bases lists them.
func Bases() []Basis { return []Basis{SameBody, SamePVC, SameOil, SameVolume} }

// CompareRequest asks for pigments side by side.
type CompareRequest struct {
	Pigments []Ingredient
	Oil      Ingredient
	At       Basis
	Body     absorption.Step         // for body and same-volume
	PVC      quantity.VolumeFraction // for pvc
	OilPer   quantity.Absorption     // for same-oil, g of this oil per 100 g
	Tube     quantity.Volume         // one tube to the brim
	Fill     quantity.VolumeFraction
	Film     quantity.Thickness // wet film for the cost per area
	Sort     string             // a name of CompareColumns, or "" to keep the order
	Sampling Sampling
}

// Compared is one pigment of a comparison. Amounts are for 100 g of powder, or
// for one filled tube where volumes are held equal.
type Compared struct {
	Material *material.Material
	Powder   evidence.Range[quantity.Mass]
	Oil      evidence.Range[quantity.Absorption] // g per 100 g of powder
	ByMass   evidence.Range[quantity.MassFraction]
	ByVolume evidence.Range[quantity.VolumeFraction]
	PVC      evidence.Range[quantity.VolumeFraction]
	CPVC     evidence.Range[quantity.VolumeFraction]
	Reduced  evidence.Range[quantity.Ratio]
	Density  evidence.Range[quantity.Density]
	Paint    evidence.Range[quantity.Volume] // from 100 g of powder
	Tubes    evidence.Range[quantity.Ratio]  // filled from 100 g of powder
	PerTube  evidence.Range[quantity.Money]
	PerArea  evidence.Range[quantity.Money] // per m² at the wet film
	Drying   Drying

	// Certain is the chance that this pigment really stands before the next one
	// in the order asked for; 0 for the last and where no order was asked.
	Certain quantity.Ratio
}

// OrderMatters is the chance from which an order is worth naming: below it two
// ranges overlap so much that it means nothing. Common practice.
const OrderMatters = 0.8

// CompareResult is the pigments side by side.
type CompareResult struct {
	Request  CompareRequest
	Rows     []Compared
	Cautions []Caution
	Warnings []string
}

// The columns a comparison draws and can be sorted by.
const (
	colOil = iota
	colByMass
	colByVolume
	colPVC
	colCPVC
	colReduced
	colDensity
	colPaint
	colTubes
	colPerTube
	colPerArea
	colPowder
	colCount
)

var compareColumns = map[string]int{
	"oil": colOil, "oil-mass": colByMass, "oil-volume": colByVolume, "pvc": colPVC, "cpvc": colCPVC,
	"reduced-pvc": colReduced, "density": colDensity, "paint": colPaint, "tubes": colTubes, "cost": colPerTube, "cost-area": colPerArea, "powder": colPowder,
}

// CompareColumns lists what a comparison can be sorted by.
func CompareColumns() []string {
	var out []string
	for k := range compareColumns {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// compare works one pigment out at one draw: z holds its three deviates and the
// oil's three. It fills the columns.
func (r *CompareRequest) compare(in *Ingredient, z, out []float64) {
	v, o := in.At(z), r.Oil.At(z[deviatesEach:])
	var oil quantity.Volume // for 100 g of powder
	switch r.At {
	case SamePVC:
		oil = quantity.Volume(absorption.DemandAtPVC(r.PVC, v.Density))
	case SameOil:
		oil = quantity.Mass(r.OilPer).Volume(o.Density)
	default:
		oil = quantity.Volume(in.Demand.OilAt(r.Body, v.Density, v.zLot, v.zDemand))
		if r.Oil.Material.AbsorptionDoubtful != "" {
			oil *= quantity.Volume(math.Exp(doubtfulOilSigma * z[deviatesEach+2]))
		}
	}
	parts := [2]Component{in.Component(v, Pigment, 100), r.Oil.Component(o, Binder, oil.Mass(o.Density))}
	f := Paint{parts[:]}.Figures()
	tube := float64(r.Tube) * float64(r.Fill)
	out[colOil], out[colByMass], out[colByVolume] = float64(f.OilPerPigment()), float64(f.BinderByMass()), float64(f.BinderByVolume())
	out[colPVC], out[colCPVC], out[colReduced] = float64(f.PVC()), float64(f.CPVC()), float64(f.ReducedPVC())
	out[colDensity], out[colPaint], out[colTubes] = float64(f.Density()), float64(f.Volume), float64(f.Volume)/tube
	perML := float64(f.Cost) / float64(f.Volume)
	out[colPerTube], out[colPerArea] = perML*tube, perML*float64(r.Film) // 1 µm over 1 m² is 1 ml
	out[colPowder] = 100
	if r.At == SameVolume {
		out[colPowder] = 100 * tube / float64(f.Volume)
	}
}

// Compare puts pigments side by side.
func Compare(req CompareRequest) (*CompareResult, error) {
	if err := req.validate(); err != nil {
		return nil, err
	}
	res := &CompareResult{Request: req}
	column, sorted := compareColumns[req.Sort]
	var keys [][]float64 // the sort column's draws, before the quantiles reorder them
	for i := range req.Pigments {
		in := &req.Pigments[i]
		columns := req.Sampling.run(2*deviatesEach, colCount, func() func(z, out []float64) {
			return func(z, out []float64) { req.compare(in, z, out) }
		})
		if sorted {
			keys = append(keys, slices.Clone(columns[column]))
		}
		res.Rows = append(res.Rows, Compared{
			Material: in.Material,
			Powder:   rangeOf[quantity.Mass](columns[colPowder]),
			Oil:      rangeOf[quantity.Absorption](columns[colOil]),
			ByMass:   rangeOf[quantity.MassFraction](columns[colByMass]),
			ByVolume: rangeOf[quantity.VolumeFraction](columns[colByVolume]),
			PVC:      rangeOf[quantity.VolumeFraction](columns[colPVC]),
			CPVC:     rangeOf[quantity.VolumeFraction](columns[colCPVC]),
			Reduced:  rangeOf[quantity.Ratio](columns[colReduced]),
			Density:  rangeOf[quantity.Density](columns[colDensity]),
			Paint:    rangeOf[quantity.Volume](columns[colPaint]),
			Tubes:    rangeOf[quantity.Ratio](columns[colTubes]),
			PerTube:  rangeOf[quantity.Money](columns[colPerTube]),
			PerArea:  rangeOf[quantity.Money](columns[colPerArea]),
			Drying:   DryingOf([]*material.Material{in.Material, req.Oil.Material}),
		})
	}
	if sorted {
		res.order(keys)
	}
	var mats []*material.Material
	for i := range req.Pigments {
		mats = append(mats, req.Pigments[i].Material)
		if m := req.Pigments[i].Method; m == material.GardnerColeman || m == material.Absorptometer {
			res.Warnings = append(res.Warnings, fmt.Sprintf("%s: only a %s figure is known, not a rub-out; expect it to differ", req.Pigments[i].Material.Name, m))
		}
	}
	if why := req.Oil.Material.AbsorptionDoubtful; why != "" {
		res.Warnings = append(res.Warnings, fmt.Sprintf("%s: the same volume as linseed oil is assumed, which is doubtful (%s)", req.Oil.Material.Name, why))
	}
	// The pigments stand side by side, not in one paint: what each does to
	// another is not said.
	for _, c := range Cautions(DryPowder, mats...) {
		if !isPairCaution(c) {
			res.Cautions = append(res.Cautions, c)
		}
	}
	return res, nil
}

// order sorts the rows by the medians of a column and says how certain each
// place is: the share of draws in which a row stands before the next.
func (res *CompareResult) order(keys [][]float64) {
	index := make([]int, len(res.Rows))
	medians := make([]float64, len(res.Rows))
	for i := range index {
		index[i] = i
		medians[i] = evidence.Quantile(slices.Clone(keys[i]), 0.5)
	}
	sort.SliceStable(index, func(a, b int) bool { return medians[index[a]] < medians[index[b]] })
	rows := make([]Compared, len(res.Rows))
	for place, i := range index {
		rows[place] = res.Rows[i]
		if place+1 < len(index) {
			rows[place].Certain = before(keys[i], keys[index[place+1]])
		}
	}
	res.Rows = rows
}

// before is the chance that a draw of a is below an independent draw of b.
func before(a, b []float64) quantity.Ratio {
	a, b = slices.Clone(a), slices.Clone(b)
	slices.Sort(a)
	slices.Sort(b)
	var below, equal float64
	i, j := 0, 0
	for _, v := range b {
		for i < len(a) && a[i] < v {
			i++
		}
		for j = max(j, i); j < len(a) && a[j] == v; j++ {
		}
		below += float64(i)
		equal += float64(j - i)
	}
	return quantity.Ratio((below + equal/2) / float64(len(a)*len(b)))
}

func (r *CompareRequest) validate() error {
	if len(r.Pigments) == 0 {
		return errors.New("no pigment to compare")
	}
	for i := range r.Pigments {
		if !r.Pigments[i].Demand.Known() {
			return fmt.Errorf("%s is a %s, not a pigment or an extender", r.Pigments[i].Material.ID, r.Pigments[i].Material.Kind)
		}
	}
	if r.Oil.Material.Kind != material.Oil {
		return fmt.Errorf("%s is a %s, it cannot be the oil", r.Oil.Material.ID, r.Oil.Material.Kind)
	}
	if _, ok := compareColumns[r.Sort]; r.Sort != "" && !ok {
		return fmt.Errorf("%q is not a column to sort by", r.Sort)
	}
	switch r.At {
	case SamePVC:
		if !(r.PVC > 0 && r.PVC < 1) {
			return errors.New("a PVC is above 0 and below 100 %")
		}
	case SameOil:
		if !(r.OilPer > 0 && !math.IsInf(float64(r.OilPer), 0)) {
			return errors.New("the oil per 100 g must be above nothing")
		}
	case SameBody, SameVolume:
		if b := r.Body.Typical; !(b >= absorption.LeastBody && b <= absorption.MostBody) {
			return fmt.Errorf("a body is a ratio from %g to %g", float64(absorption.LeastBody), float64(absorption.MostBody))
		}
	default:
		return fmt.Errorf("%q cannot be held equal; accepted: body, pvc, same-oil, same-volume", r.At)
	}
	if !(r.Tube > 0) || !(r.Fill > 0 && r.Fill <= 1) || !(r.Film > 0) {
		return errors.New("tube, fill and film must be above nothing, the fill at most 100 %")
	}
	return nil
}
