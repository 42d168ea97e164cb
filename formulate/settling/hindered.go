package settling

import (
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// The index of hindered settling at the two ends: creeping flow below Re 0.3 and
// full flow above Re 500.
const (
	SlowestIndex quantity.Ratio = 4.65
	FastestIndex quantity.Ratio = 2.4
	fastFrom     quantity.Ratio = 500
)

// IndexRelation is the exponent of hindered settling.
var IndexRelation = trace.Relation{
	Name:     "index of hindered settling",
	Equation: "n = 4.65 for Re ≤ 0.3, 2.4 for Re ≥ 500, straight between on log-log paper",
	Source:   "Richardson and Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35, its ends; limits of Re from memory, the line between is ours",
}

// Index is the exponent of hindered settling at the Reynolds number of a single
// grain. Pigments are at the slow end.
func Index(re quantity.Ratio) (quantity.Ratio, error) {
	switch {
	case !(re >= 0) || math.IsInf(float64(re), 1):
		return 0, fmt.Errorf("Reynolds number is %g: want a number from zero", float64(re))
	case re <= StokesLimit:
		return SlowestIndex, nil
	case re >= fastFrom:
		return FastestIndex, nil
	}
	slope := math.Log(float64(FastestIndex/SlowestIndex)) / math.Log(float64(fastFrom/StokesLimit))
	return SlowestIndex * quantity.Ratio(math.Pow(float64(re/StokesLimit), slope)), nil
}

// SlowIndex is the range of the exponent for creeping grains: 4.48 where
// diffusion does not matter, 5.6 where it does (Brzinski and Durian 2017, fifteen
// studies), 4.65 as first published and typical. Grains under roughly a tenth
// of a millimetre in water belong to the upper branch.
func SlowIndex() evidence.Range[quantity.Ratio] {
	return evidence.Range[quantity.Ratio]{Low: 4.48, Typical: SlowestIndex, High: 5.6}
}

// HinderedRelation is the fall of a cloud of grains.
var HinderedRelation = trace.Relation{
	Name:     "hindered settling, Richardson and Zaki",
	Equation: "vh = v·(1 − φ)^n",
	Source:   "Richardson and Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35",
}

// Hindered is the speed at which equal grains at a volume fraction fall together:
// v·(1 − φ)ⁿ. It is the speed of the front between clear liquid and suspension.
// Meant for dispersed suspensions; near their sediment (φ above about 0.5) they
// crawl slower still.
func Hindered(single quantity.Speed, phi quantity.VolumeFraction, n quantity.Ratio) (quantity.Speed, error) {
	if err := crowd(single, phi, n); err != nil {
		return 0, err
	}
	return single * quantity.Speed(math.Pow(1-float64(phi), float64(n))), nil
}

// Unhindered is the speed of a single grain whose cloud is seen to fall: the
// same relation the other way round.
func Unhindered(cloud quantity.Speed, phi quantity.VolumeFraction, n quantity.Ratio) (quantity.Speed, error) {
	if err := crowd(cloud, phi, n); err != nil {
		return 0, err
	}
	return cloud / quantity.Speed(math.Pow(1-float64(phi), float64(n))), nil
}

func crowd(v quantity.Speed, phi quantity.VolumeFraction, n quantity.Ratio) error {
	if err := bounded(v); err != nil {
		return err
	}
	if !(n > 0 && n < 100) {
		return fmt.Errorf("index of hindered settling is %g: want a number above zero, for grains 2.4 to 5.6", float64(n))
	}
	return solids(phi)
}

func solids(phi quantity.VolumeFraction) error {
	if !(phi >= 0 && phi < 1) {
		return fmt.Errorf("solids fill %.4g %% of the suspension: want 0 %% or more and below 100 %%", 100*float64(phi))
	}
	return nil
}

// SedimentFrontRelation is how fast the sediment grows.
var SedimentFrontRelation = trace.Relation{
	Name:     "rise of the sediment",
	Equation: "vs = φ·vh/(φs − φ)",
	Source:   "Rhodes, Introduction to Particle Technology, chapter 3: solids that fall are solids that pile up",
}

// SedimentFront is the speed at which the sediment's surface rises under a
// suspension of solids φ that falls at vh and packs to φs.
func SedimentFront(cloud quantity.Speed, phi, sediment quantity.VolumeFraction) (quantity.Speed, error) {
	if err := bounded(cloud); err != nil {
		return 0, err
	}
	if err := packs(phi, sediment); err != nil {
		return 0, err
	}
	return cloud * quantity.Speed(phi/(sediment-phi)), nil
}

func packs(phi, sediment quantity.VolumeFraction) error {
	if err := solids(phi); err != nil {
		return err
	}
	if !(sediment > phi && sediment <= 1) {
		return fmt.Errorf("sediment holds %.4g %% solids and the suspension %.4g %%: want the sediment denser, and at most 100 %%", 100*float64(sediment), 100*float64(phi))
	}
	return nil
}

// ClearingTimeRelation is when the fronts meet.
var ClearingTimeRelation = trace.Relation{
	Name:     "time to clear",
	Equation: "t = h·(1 − φ/φs)/vh",
	Source:   "the two fronts meet; Rhodes, Introduction to Particle Technology, chapter 3",
}

// ClearingTime is the time in which the upper front meets the sediment: a
// height h of suspension has then become clear liquid over h·φ/φs of sediment.
func ClearingTime(h quantity.Length, cloud quantity.Speed, phi, sediment quantity.VolumeFraction) (quantity.Duration, error) {
	if err := packs(phi, sediment); err != nil {
		return 0, err
	}
	left, err := SedimentHeight(h, phi, sediment)
	if err != nil {
		return 0, err
	}
	return FallTime(h-left, cloud)
}

// SedimentHeightRelation is how high the sediment ends up.
var SedimentHeightRelation = trace.Relation{
	Name:     "height of the sediment",
	Equation: "hs = h·φ/φs",
	Source:   "solids are conserved",
}

// SedimentHeight is the height of sediment that a height of suspension leaves.
func SedimentHeight(h quantity.Length, phi, sediment quantity.VolumeFraction) (quantity.Length, error) {
	if err := positive("height", float64(h), "cm"); err != nil {
		return 0, err
	}
	if err := packs(phi, sediment); err != nil {
		return 0, err
	}
	return h * quantity.Length(phi/sediment), nil
}
