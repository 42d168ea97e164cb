package gum

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// ShrinkageRelation is what a wet paint loses.
var ShrinkageRelation = trace.Relation{
	Name:     "shrinkage by volume",
	Equation: "s = 1 − VS",
	Source:   "volumes add; what evaporates leaves",
}

// Shrinkage is the share of its volume that a paint loses as its water leaves,
// 1 − VS with VS the volume solids.
func Shrinkage(solids quantity.VolumeFraction) quantity.VolumeFraction { return 1 - solids }

// FillAfterRelation is a pan topped up to the brim.
var FillAfterRelation = trace.Relation{
	Name:     "dry fill of a pan after n pours to the brim",
	Equation: "f = 1 − sⁿ",
	Source:   "each pour fills what the last left empty",
}

// FillAfter is the share of a pan that dry paint fills after n pours to the brim,
// each dried through: 1 − sⁿ with the shrinkage s.
func FillAfter(n int, shrinkage quantity.VolumeFraction) quantity.VolumeFraction {
	return quantity.VolumeFraction(1 - math.Pow(float64(shrinkage), float64(n)))
}

// WetForRelation is the wet paint behind a dry volume.
var WetForRelation = trace.Relation{
	Name:     "wet paint for a dry volume",
	Equation: "Vwet = Vdry/VS",
	Source:   "volumes add",
}

// WetFor is the wet paint that leaves a dry volume: Vdry/VS.
func WetFor(dry quantity.Volume, solids quantity.VolumeFraction) quantity.Volume {
	return dry / quantity.Volume(solids)
}

// A Pour is one layer in a pan.
type Pour struct {
	Wet quantity.Volume // poured
	Dry quantity.Volume // what it leaves
	// Fill is the share of the pan that dry paint fills once this pour is dry.
	Fill quantity.VolumeFraction
}

// MostPours is how many pours a pan is given at most.
const MostPours = 60

// MostFill is the share of a pan that may be asked for: the last crumb of room
// would take endless pours.
const MostFill quantity.VolumeFraction = 0.98

// PanPoursRelation deals out the pours.
var PanPoursRelation = trace.Relation{
	Name:     "pours into a pan",
	Equation: "vⱼ = c·min(p·V, V·(1 − fⱼ₋₁)), c such that Σ vⱼ·VS = f·V with the fewest pours",
	Source:   "volumes add; thin layers, each dried through, are common practice",
}

// PanPours deals the paint for one pan of volume brim into pours. Each pour is at
// most the share deepest of the pan and never more than the room that is left;
// together their dry volumes fill the pan to the share fill. There are as few
// pours as that allows, all made smaller in one proportion so that the last is no
// dribble. Published practice for deepest is a third to a half.
func PanPours(brim quantity.Volume, fill, solids, deepest quantity.VolumeFraction) ([]Pour, error) {
	switch {
	case !(brim > 0 && brim < 1e6):
		return nil, fmt.Errorf("a pan of %g ml: want a volume above zero", float64(brim))
	case !(fill > 0 && fill <= MostFill):
		return nil, fmt.Errorf("a pan filled to %g %%: want above 0 %% and at most %g %%", 100*float64(fill), 100*float64(MostFill))
	case !(solids > 0 && solids <= 1):
		return nil, fmt.Errorf("volume solids of %g %%: want above 0 %% and at most 100 %%", 100*float64(solids))
	case !(deepest > 0 && deepest <= 1):
		return nil, fmt.Errorf("a pour of %g %% of the pan: want above 0 %% and at most 100 %%", 100*float64(deepest))
	}
	// With room enough each pour fills what it may; find how many are needed.
	largest := func(filled quantity.VolumeFraction) quantity.VolumeFraction { return min(deepest, 1-filled) }
	n, reached := 0, quantity.VolumeFraction(0)
	for reached < fill*(1-1e-12) {
		if n == MostPours {
			return nil, fmt.Errorf("the paint holds %.1f %% solids by volume: even %d pours fill no more than %.0f %% of the pan; let it thicken, or pour deeper",
				100*float64(solids), MostPours, 100*float64(reached))
		}
		reached += largest(reached) * solids
		n++
	}
	// Smaller pours leave more room, so one proportion serves all: bisect it.
	total := func(c quantity.VolumeFraction) quantity.VolumeFraction {
		var f quantity.VolumeFraction
		for range n {
			f += c * largest(f) * solids
		}
		return f
	}
	lo, hi := quantity.VolumeFraction(0), quantity.VolumeFraction(1)
	for range 60 {
		if mid := (lo + hi) / 2; total(mid) < fill {
			lo = mid
		} else {
			hi = mid
		}
	}
	pours := make([]Pour, n)
	var f quantity.VolumeFraction
	for i := range pours {
		wet := hi * largest(f)
		f += wet * solids
		pours[i] = Pour{Wet: brim * quantity.Volume(wet), Dry: brim * quantity.Volume(wet*solids), Fill: f}
	}
	return pours, nil
}
