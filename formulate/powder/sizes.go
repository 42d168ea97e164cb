package powder

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// A SizeClass is how many grains were counted between two sizes.
type SizeClass struct {
	Low, High quantity.ParticleSize
	Count     quantity.Parts
}

// MeanSizeRelation is any mean diameter of a count.
var MeanSizeRelation = trace.Relation{
	Name:     "mean diameter",
	Equation: "d_pq = (Mp/Mq)^(1/(p − q)), Mk = Σ nᵢ·(bᵢ^(k+1) − aᵢ^(k+1))/((k + 1)(bᵢ − aᵢ))",
	Source:   "ASTM E799-03",
}

// MeanSize is the mean diameter d_pq of a count, with grains spread evenly
// inside each class. d₃₂ has the surface of the whole, d₄₃ is the mean by mass.
// ASTM E799.
func MeanSize(classes []SizeClass, p, q int) (quantity.ParticleSize, error) {
	if p <= q || q < 0 || p > 6 {
		return 0, fmt.Errorf("mean d%d%d: the first number must be the larger, both from 0 to 6", p, q)
	}
	if err := checkClasses(classes); err != nil {
		return 0, err
	}
	var mp, mq float64
	for _, c := range classes {
		mp += c.moment(p)
		mq += c.moment(q)
	}
	return quantity.ParticleSize(math.Pow(mp/mq, 1/float64(p-q))), nil
}

func checkClasses(classes []SizeClass) error {
	var total float64
	last := quantity.ParticleSize(0)
	for i, c := range classes {
		if !(c.Low >= last) || !(c.High > c.Low) || math.IsInf(float64(c.High), 1) {
			return fmt.Errorf("class %d goes from %g to %g µm: classes rise and do not overlap", i+1, float64(c.Low), float64(c.High))
		}
		if err := notNegative(fmt.Sprintf("count of class %d", i+1), c.Count, ""); err != nil {
			return err
		}
		total += float64(c.Count)
		last = c.High
	}
	if total == 0 {
		return fmt.Errorf("no grain was counted")
	}
	return nil
}

// moment is the k-th moment of a class.
func (c SizeClass) moment(k int) float64 {
	a, b, n := float64(c.Low), float64(c.High), float64(k+1)
	return float64(c.Count) * (math.Pow(b, n) - math.Pow(a, n)) / (n * (b - a))
}

// VolumeSharesRelation turns a count into shares by volume.
var VolumeSharesRelation = trace.Relation{
	Name:     "share of each class by volume",
	Equation: "vᵢ = M₃ᵢ/Σ M₃ᵢ",
	Source:   "ASTM E799-03",
}

// VolumeShares is each class's share of the whole volume, which is its share of
// the mass.
func VolumeShares(classes []SizeClass) ([]quantity.VolumeFraction, error) {
	if err := checkClasses(classes); err != nil {
		return nil, err
	}
	var total float64
	for _, c := range classes {
		total += c.moment(3)
	}
	out := make([]quantity.VolumeFraction, len(classes))
	for i, c := range classes {
		out[i] = quantity.VolumeFraction(c.moment(3) / total)
	}
	return out, nil
}
