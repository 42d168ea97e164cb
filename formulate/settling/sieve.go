package settling

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
)

// A Sieve is a standard woven wire sieve with its ASTM E11 number.
type Sieve struct {
	Number  int
	Opening quantity.ParticleSize
}

// sieves lists ASTM E11-17 from number 635 to number 4.
var sieves = [...]Sieve{
	{635, 20}, {500, 25}, {450, 32}, {400, 38}, {325, 45}, {270, 53}, {230, 63}, {200, 75},
	{170, 90}, {140, 106}, {120, 125}, {100, 150}, {80, 180}, {70, 212}, {60, 250}, {50, 300},
	{45, 355}, {40, 425}, {35, 500}, {30, 600}, {25, 710}, {20, 850}, {18, 1000}, {16, 1180},
	{14, 1400}, {12, 1700}, {10, 2000}, {8, 2360}, {7, 2800}, {6, 3350}, {5, 4000}, {4, 4750},
}

// principal lists the fine end of the principal series R 20/3 of ISO 3310-1.
var principal = [...]quantity.ParticleSize{45, 63, 90, 125, 180, 250, 355, 500, 710, 1000}

// Sieves lists the ASTM E11 sieves from the finest.
func Sieves() []Sieve { return append([]Sieve(nil), sieves[:]...) }

// PrincipalSizes lists the openings of the ISO 3310-1 principal series (R 20/3)
// up to 1 mm, from the finest. Each of them is an ASTM opening too.
func PrincipalSizes() []quantity.ParticleSize {
	return append([]quantity.ParticleSize(nil), principal[:]...)
}

// SieveByNumber finds an ASTM E11 sieve.
func SieveByNumber(number int) (Sieve, error) {
	for _, s := range sieves {
		if s.Number == number {
			return s, nil
		}
	}
	return Sieve{}, fmt.Errorf("no. %d is not an ASTM E11 sieve: want one from no. 635 (20 µm) to no. 4 (4.75 mm)", number)
}

// The series reaches half a step beyond its ends. Finer grains are sorted by
// settling.
const (
	finest   quantity.ParticleSize = 18
	coarsest quantity.ParticleSize = 5200
)

// NearestSieve finds the sieve whose opening is nearest to a size in ratio.
func NearestSieve(size quantity.ParticleSize) (Sieve, error) {
	if !(size >= finest && size <= coarsest) {
		return Sieve{}, fmt.Errorf("no standard sieve is near %g µm: want %g to %g µm", float64(size), float64(finest), float64(coarsest))
	}
	best, gap := Sieve{}, math.Inf(1)
	for _, s := range sieves {
		if g := math.Abs(math.Log(float64(size / s.Opening))); g < gap {
			best, gap = s, g
		}
	}
	return best, nil
}

// SieveHolding finds the coarsest sieve that holds back grains of a size and
// larger: its opening is the next below the size, or the size itself.
func SieveHolding(size quantity.ParticleSize) (Sieve, error) {
	if err := positive("grain size", float64(size), "µm"); err != nil {
		return Sieve{}, err
	}
	for i := len(sieves) - 1; i >= 0; i-- {
		if sieves[i].Opening <= size {
			return sieves[i], nil
		}
	}
	return Sieve{}, fmt.Errorf("no sieve of the series holds back grains of %g µm: want at least 20 µm, or settle them out", float64(size))
}
