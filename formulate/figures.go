package formulate

import (
	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Sampling says how ranges are drawn. The zero value draws the default number
// with the default seed.
type Sampling struct {
	Draws int    // 0: evidence.DefaultDraws
	Seed  uint64 // 0: evidence.DefaultSeed
	Exact bool   // one run at the typical values instead of draws
}

func (s Sampling) draws() int {
	switch {
	case s.Exact:
		return 1
	case s.Draws > 0:
		return s.Draws
	}
	return evidence.DefaultDraws
}

func (s Sampling) seed() uint64 {
	if s.Seed == 0 {
		return evidence.DefaultSeed
	}
	return s.Seed
}

// run works f over the draws; an exact answer is the same f, once, with every
// deviate at zero.
func (s Sampling) run(inputs, results int, newF func() func(z, out []float64)) [][]float64 {
	if !s.Exact {
		return evidence.Run(s.draws(), inputs, results, s.seed(), newF)
	}
	out := make([]float64, results)
	newF()(make([]float64, inputs), out)
	columns := make([][]float64, results)
	for i, v := range out {
		columns[i] = []float64{v}
	}
	return columns
}

// rangeOf takes the 10th, 50th and 90th percentile of a column, which it
// reorders.
func rangeOf[Q quantity.Real](column []float64) evidence.Range[Q] {
	return evidence.RangeOf[Q](column)
}

// FigureRanges are the figures of an uncertain paint.
type FigureRanges struct {
	Mass              evidence.Range[quantity.Mass]
	Volume            evidence.Range[quantity.Volume]
	Density           evidence.Range[quantity.Density]
	PigmentMass       evidence.Range[quantity.Mass]
	PigmentVolume     evidence.Range[quantity.Volume]
	BinderMass        evidence.Range[quantity.Mass]
	BinderVolume      evidence.Range[quantity.Volume]
	VolatileMass      evidence.Range[quantity.Mass]
	PVC               evidence.Range[quantity.VolumeFraction]
	CPVC              evidence.Range[quantity.VolumeFraction]
	ReducedPVC        evidence.Range[quantity.Ratio]
	WetPigment        evidence.Range[quantity.VolumeFraction]
	Body              evidence.Range[absorption.Body]
	OilPerPigment     evidence.Range[quantity.Absorption]
	BinderByMass      evidence.Range[quantity.MassFraction]
	BinderByVolume    evidence.Range[quantity.VolumeFraction]
	DryBinderByVolume evidence.Range[quantity.VolumeFraction]
	SolidsByMass      evidence.Range[quantity.MassFraction]
	SolidsByVolume    evidence.Range[quantity.VolumeFraction]
	VolatileByMass    evidence.Range[quantity.MassFraction]
	Cost              evidence.Range[quantity.Money]
}

// figureCount is how many cells vector fills and figureRanges reads.
const figureCount = 21

// vector lays the figures out as one row of draws. Its order is that of
// figureRanges and of nothing else.
func (f Figures) vector(out []float64) {
	_ = out[figureCount-1]
	out[0], out[1], out[2] = float64(f.Mass), float64(f.Volume), float64(f.Density())
	out[3], out[4], out[5], out[6] = float64(f.PigmentMass), float64(f.PigmentVolume), float64(f.BinderMass), float64(f.BinderVolume)
	out[7], out[8], out[9], out[10] = float64(f.VolatileMass), float64(f.PVC()), float64(f.CPVC()), float64(f.ReducedPVC())
	out[11], out[12], out[13] = float64(f.WetPigment()), float64(f.Body()), float64(f.OilPerPigment())
	out[14], out[15], out[16] = float64(f.BinderByMass()), float64(f.BinderByVolume()), float64(f.DryBinderByVolume())
	out[17], out[18], out[19] = float64(f.SolidsByMass()), float64(f.SolidsByVolume()), float64(f.VolatileByMass())
	out[20] = float64(f.Cost)
}

func figureRanges(c [][]float64) FigureRanges {
	return FigureRanges{
		Mass: rangeOf[quantity.Mass](c[0]), Volume: rangeOf[quantity.Volume](c[1]), Density: rangeOf[quantity.Density](c[2]),
		PigmentMass: rangeOf[quantity.Mass](c[3]), PigmentVolume: rangeOf[quantity.Volume](c[4]),
		BinderMass: rangeOf[quantity.Mass](c[5]), BinderVolume: rangeOf[quantity.Volume](c[6]),
		VolatileMass: rangeOf[quantity.Mass](c[7]),
		PVC:          rangeOf[quantity.VolumeFraction](c[8]), CPVC: rangeOf[quantity.VolumeFraction](c[9]),
		ReducedPVC: rangeOf[quantity.Ratio](c[10]), WetPigment: rangeOf[quantity.VolumeFraction](c[11]), Body: rangeOf[absorption.Body](c[12]),
		OilPerPigment: rangeOf[quantity.Absorption](c[13]), BinderByMass: rangeOf[quantity.MassFraction](c[14]),
		BinderByVolume: rangeOf[quantity.VolumeFraction](c[15]), DryBinderByVolume: rangeOf[quantity.VolumeFraction](c[16]),
		SolidsByMass: rangeOf[quantity.MassFraction](c[17]), SolidsByVolume: rangeOf[quantity.VolumeFraction](c[18]),
		VolatileByMass: rangeOf[quantity.MassFraction](c[19]), Cost: rangeOf[quantity.Money](c[20]),
	}
}

// FiguresOf gives the ranges of a paint that is exactly known.
func FiguresOf(p Paint) FigureRanges {
	row := make([]float64, figureCount)
	p.Figures().vector(row)
	columns := make([][]float64, figureCount)
	for i, v := range row {
		columns[i] = []float64{v}
	}
	return figureRanges(columns)
}
