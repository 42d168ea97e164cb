package formulate

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sort"
	"sync"
	"sync/atomic"

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

// What a comparison can be sorted by, and where its column of draws stands.
const (
	colOil = iota
	colByMass
	colDensity
	colPerTube
	colPerArea
	oilColumns // those before it change with the oil
)

const (
	colByVolume = oilColumns + iota
	colPVC
	colCPVC
	colReduced
	colPaint
	colTubes
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

// A Palette is pigments with their draws made, so that they can be compared in
// one oil after another, at one body after another, without drawing again. It
// is for one goroutine.
type Palette struct {
	pigments []Ingredient
	sampling Sampling
	z        [2 * deviatesEach][]float64 // deviates: the pigment's three, the oil's three
	doubt    []float64                   // the factor of a doubtful oil
	kept     []palettePart               // what does not change with the oil, by pigment
	keptFor  paletteKey
}

// palettePart is one pigment's draws for 100 g of powder, and the ranges that
// follow from them whatever the oil weighs.
type palettePart struct {
	known  bool
	values []Values  // of the pigment
	plain  []float64 // ml of an oil that fills the same volume as linseed oil
	oil    []float64 // ml
	volume []float64 // ml, powder and oil
	ranges Compared
	draws  []float64 // of the sort column, where it does not change with the oil
}

// paletteKey says for what the parts were kept.
type paletteKey struct {
	at   Basis
	body absorption.Step
	pvc  quantity.VolumeFraction
	tube quantity.Volume
	sort string
}

// NewPalette draws the pigments.
func NewPalette(pigments []Ingredient, s Sampling) *Palette {
	p := &Palette{pigments: pigments, sampling: s}
	columns := s.run(2*deviatesEach, 2*deviatesEach, func() func(z, out []float64) {
		return func(z, out []float64) { copy(out, z) }
	})
	copy(p.z[:], columns)
	p.doubt = make([]float64, len(p.z[0]))
	for d, z := range p.z[deviatesEach+2] {
		p.doubt[d] = math.Exp(doubtfulOilSigma * z)
	}
	return p
}

// Compare puts pigments side by side.
func Compare(req CompareRequest) (*CompareResult, error) {
	return NewPalette(req.Pigments, req.Sampling).Compare(req)
}

// Compare answers a comparison of the palette's pigments; the request's own
// pigments and sampling are those the palette was made with.
func (p *Palette) Compare(req CompareRequest) (*CompareResult, error) {
	req.Pigments, req.Sampling = p.pigments, p.sampling
	if err := req.validate(); err != nil {
		return nil, err
	}
	key := paletteKey{req.At, req.Body, req.PVC, quantity.Volume(float64(req.Tube) * float64(req.Fill)), req.Sort}
	if key != p.keptFor {
		p.kept, p.keptFor = make([]palettePart, len(p.pigments)), key
	}
	res := &CompareResult{Request: req, Rows: make([]Compared, len(p.pigments))}
	oil := make([]float64, len(p.z[0])) // its density, draw by draw
	for i := range oil {
		oil[i] = float64(req.Oil.Density.At(p.z[deviatesEach][i]))
	}
	keys := make([][]float64, len(p.pigments))
	inParallel(len(p.pigments), func() func(int) {
		scratch := make([]float64, colCount*len(oil))
		return func(i int) { res.Rows[i], keys[i] = p.row(&req, i, oil, scratch) }
	})
	if req.Sort != "" {
		res.order(keys)
	}
	res.remark()
	return res, nil
}

// inParallel works n pieces on all processors. newF gives each worker its own
// scratch space.
func inParallel(n int, newF func() func(i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			f := newF()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				f(i)
			}
		}()
	}
	wg.Wait()
}

// row compares one pigment. It also returns the draws of the sort column.
func (p *Palette) row(req *CompareRequest, i int, oil, scratch []float64) (Compared, []float64) {
	n := len(oil)
	columns := make([][]float64, colCount)
	for c := range columns {
		columns[c] = scratch[c*n : (c+1)*n]
	}
	part := &p.kept[i]
	if lasting := req.At != SameOil && req.Oil.Material.AbsorptionDoubtful == ""; !lasting {
		part = &palettePart{values: part.values, plain: part.plain}
	}
	if !part.known {
		p.fill(part, req, i, oil, columns)
	}
	in := &p.pigments[i]
	out := part.ranges
	tube := float64(req.Tube) * float64(req.Fill)
	priced := in.Price > 0 || req.Oil.Price > 0
	for d := range n {
		m := quantity.Mass(part.oil[d] * oil[d])
		f := Figures{Mass: powderCompared + m, Volume: quantity.Volume(part.volume[d]), PigmentMass: powderCompared, BinderMass: m}
		columns[colOil][d], columns[colByMass][d], columns[colDensity][d] = float64(f.OilPerPigment()), float64(f.BinderByMass()), float64(f.Density())
		if priced {
			perML := (powderCompared*float64(in.Price) + float64(m)*float64(req.Oil.Price)) / part.volume[d]
			columns[colPerTube][d], columns[colPerArea][d] = perML*tube, perML*float64(req.Film) // 1 µm over 1 m² is 1 ml
		}
	}
	var key []float64
	if c, ok := compareColumns[req.Sort]; ok {
		switch {
		case c >= oilColumns:
			key = part.draws
		case (c == colPerTube || c == colPerArea) && !priced:
			key = make([]float64, n)
		default:
			key = slices.Clone(columns[c])
		}
	}
	out.Oil = rangeOf[quantity.Absorption](columns[colOil])
	out.ByMass = rangeOf[quantity.MassFraction](columns[colByMass])
	out.Density = rangeOf[quantity.Density](columns[colDensity])
	if priced {
		out.PerTube = rangeOf[quantity.Money](columns[colPerTube])
		out.PerArea = rangeOf[quantity.Money](columns[colPerArea])
	}
	out.Drying = DryingOf([]*material.Material{in.Material, req.Oil.Material})
	return out, key
}

// powderCompared is the powder a comparison is reckoned for.
const powderCompared = 100

// fill works out one pigment's oil, draw by draw, and what follows from volumes
// alone.
func (p *Palette) fill(part *palettePart, req *CompareRequest, i int, oil []float64, columns [][]float64) {
	in := &p.pigments[i]
	n := len(oil)
	p.draw(part, req, in, n)
	p.kept[i].values, p.kept[i].plain = part.values, part.plain
	part.oil, part.volume = make([]float64, n), make([]float64, n)
	tube := float64(req.Tube) * float64(req.Fill)
	doubtful := req.Oil.Material.AbsorptionDoubtful != "" && (req.At == SameBody || req.At == SameVolume)
	for d := range n {
		v := part.values[d]
		ml := quantity.Volume(part.plain[d])
		switch {
		case req.At == SameOil:
			ml = quantity.Mass(req.OilPer).Volume(quantity.Density(oil[d]))
		case doubtful:
			ml *= quantity.Volume(p.doubt[d])
		}
		// The oil's mass is left out: nothing here depends on it.
		parts := [2]Component{in.Component(v, Pigment, powderCompared), {Role: Binder, Mass: quantity.Mass(ml), Density: 1}}
		f := Paint{parts[:]}.Figures()
		part.oil[d], part.volume[d] = float64(ml), float64(f.Volume)
		columns[colByVolume][d], columns[colPVC][d], columns[colCPVC][d] = float64(f.BinderByVolume()), float64(f.PVC()), float64(f.CPVC())
		columns[colReduced][d], columns[colPaint][d], columns[colTubes][d] = float64(f.ReducedPVC()), float64(f.Volume), float64(f.Volume)/tube
		columns[colPowder][d] = powderCompared
		if req.At == SameVolume {
			columns[colPowder][d] = powderCompared * tube / float64(f.Volume)
		}
	}
	if c, ok := compareColumns[req.Sort]; ok && c >= oilColumns {
		part.draws = slices.Clone(columns[c])
	}
	part.ranges = Compared{
		Material: in.Material,
		Powder:   rangeOf[quantity.Mass](columns[colPowder]),
		ByVolume: rangeOf[quantity.VolumeFraction](columns[colByVolume]),
		PVC:      rangeOf[quantity.VolumeFraction](columns[colPVC]),
		CPVC:     rangeOf[quantity.VolumeFraction](columns[colCPVC]),
		Reduced:  rangeOf[quantity.Ratio](columns[colReduced]),
		Paint:    rangeOf[quantity.Volume](columns[colPaint]),
		Tubes:    rangeOf[quantity.Ratio](columns[colTubes]),
	}
	part.known = true
}

// draw makes the pigment's values and the plain oil, draw by draw, once.
func (p *Palette) draw(part *palettePart, req *CompareRequest, in *Ingredient, n int) {
	if part.values != nil {
		return
	}
	part.values, part.plain = make([]Values, n), make([]float64, n)
	for d := range n {
		z := [deviatesEach]float64{p.z[0][d], p.z[1][d], p.z[2][d]}
		v := in.At(z[:])
		part.values[d] = v
		switch req.At {
		case SamePVC:
			part.plain[d] = float64(absorption.DemandAtPVC(req.PVC, v.Density))
		case SameBody, SameVolume:
			part.plain[d] = float64(in.Demand.OilAt(req.Body, v.Density, v.zLot, v.zDemand))
		}
	}
}

// remark adds what is to be said of the pigments and the oil.
func (res *CompareResult) remark() {
	req := &res.Request
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
		if !positive(r.OilPer) {
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
