package optics

import (
	"fmt"
	"sort"

	"mullwright/formulate/trace"
)

// A Spectrum is reflectance against wavelength, as measured: its own
// wavelengths, rising, not resampled.
type Spectrum struct {
	At []Nanometre
	R  []Reflectance
}

// Check refuses a spectrum that cannot be one.
func (s Spectrum) Check() error {
	if len(s.At) != len(s.R) || len(s.At) < 2 {
		return fmt.Errorf("spectrum of %d wavelengths and %d readings: want as many of both, and at least two", len(s.At), len(s.R))
	}
	for i, w := range s.At {
		if i > 0 && w <= s.At[i-1] {
			return fmt.Errorf("wavelength %g nm after %g nm: want them rising", float64(w), float64(s.At[i-1]))
		}
		if r := s.R[i]; !(r >= 0 && r <= 1.2) {
			return fmt.Errorf("reflectance %g at %g nm: want 0 to 1", float64(r), float64(w))
		}
	}
	return nil
}

// Value returns the reflectance at a wavelength: straight lines between
// readings, the end readings held beyond the ends.
func (s Spectrum) Value(w Nanometre) Reflectance {
	n := len(s.At)
	i := sort.Search(n, func(i int) bool { return s.At[i] >= w })
	switch i {
	case 0:
		return s.R[0]
	case n:
		return s.R[n-1]
	}
	t := float64(w-s.At[i-1]) / float64(s.At[i]-s.At[i-1])
	return s.R[i-1] + Reflectance(t*float64(s.R[i]-s.R[i-1]))
}

// Map returns the spectrum with f applied to each reading.
func (s Spectrum) Map(f func(Reflectance) Reflectance) Spectrum {
	out := Spectrum{At: s.At, R: make([]Reflectance, len(s.R))}
	for i, r := range s.R {
		out.R[i] = f(r)
	}
	return out
}

// Observer is a standard observer. The zero value is none.
type Observer int

const (
	TwoDegree Observer = iota + 1 // CIE 1931
	TenDegree                     // CIE 1964
)

// Illuminant is a standard illuminant. The zero value is none.
type Illuminant int

const (
	D65 Illuminant = iota + 1 // daylight, 6500 K
	D50                       // horizon daylight, 5000 K, used for prints
)

// XYZ are tristimulus values on the scale where a perfect white has Y = 100.
type XYZ struct{ X, Y, Z float64 }

// TristimulusRelation sums a spectrum into tristimulus values.
var TristimulusRelation = trace.Relation{
	Name:     "tristimulus values",
	Equation: "X = 100·Σ R·E·x̄ / Σ E·ȳ, and so for Y and Z",
	Source:   "CIE, colorimetry; sums by 5 nm, 380 to 780 nm",
}

// Tristimulus returns the tristimulus values of a reflectance spectrum:
//
//	X = 100·Σ R·E·x̄ / Σ E·ȳ,  Y with ȳ,  Z with z̄
//
// summed from 380 to 780 nm by 5 nm, E the illuminant's power. Readings
// between the spectrum's own wavelengths are interpolated straight, beyond its
// ends held.
func Tristimulus(s Spectrum, o Observer, e Illuminant) XYZ {
	return sum(o, e, func(w Nanometre) float64 { return float64(s.Value(w)) })
}

// White returns the tristimulus values of the perfect white.
func White(o Observer, e Illuminant) XYZ {
	return sum(o, e, func(Nanometre) float64 { return 1 })
}

func sum(o Observer, e Illuminant, r func(Nanometre) float64) XYZ {
	var x, y, z, norm float64
	for i, row := range cieTable {
		power, cx, cy, cz := row.d65, row.x2, row.y2, row.z2
		if e == D50 {
			power = row.d50
		}
		if o == TenDegree {
			cx, cy, cz = row.x10, row.y10, row.z10
		}
		w := power * r(cieFirst+Nanometre(i)*cieStep)
		x += float64(w * cx)
		y += float64(w * cy)
		z += float64(w * cz)
		norm += float64(power * cy)
	}
	return XYZ{100 * x / norm, 100 * y / norm, 100 * z / norm}
}
