package media

import (
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// A Container is a vessel that paint is put into. Makers differ: measure yours
// with water on the scale.
type Container struct {
	ID   string
	Name string
	Brim evidence.Reading[quantity.Volume] // how much it holds, full
}

// Containers lists the usual vessels, small to large within each sort. The
// slice is the caller's own.
func Containers() []Container {
	return []Container{
		{"quarter-pan", "watercolour quarter pan", evidence.Reading[quantity.Volume]{Value: 1, Source: "pan-sizes", At: "text", Note: "half of a half pan: same plan, half the height"}},
		{"half-pan", "watercolour half pan", evidence.Reading[quantity.Volume]{Value: 2, Source: "box-maker-pans", At: "text", Note: "about; a 5 ml tube fills two and a half"}},
		{"full-pan", "watercolour full pan", evidence.Reading[quantity.Volume]{Value: 4, Source: "pan-sizes", At: "text", Note: "twice a half pan: twice the width, same height"}},
		{"watercolour-tube-5", "watercolour tube, 5 ml", evidence.Reading[quantity.Volume]{Value: 5, Source: "box-maker-pans", At: "text"}},
		{"watercolour-tube-15", "watercolour tube, 15 ml", evidence.Reading[quantity.Volume]{Value: 15, Source: "box-maker-pans", At: "text"}},
		{"studio-tube", "studio tube", evidence.Reading[quantity.Volume]{Low: 34, High: 40, Source: "saitzyk-1998", At: "Large tubes versus cans"}},
		{"tube-40", "empty tube, 40 ml", evidence.Reading[quantity.Volume]{Value: 40, Source: "tube-filling-notes", At: "text"}},
		{"tube-60", "empty tube, 60 ml", evidence.Reading[quantity.Volume]{Value: 60, Source: "tube-filling-notes", At: "text"}},
		{"tube-120", "empty tube, 120 ml", evidence.Reading[quantity.Volume]{Value: 120, Source: "tube-filling-notes", At: "text"}},
		{"tube-175", "large empty tube, 175 ml", evidence.Reading[quantity.Volume]{Value: 175, Source: "tube-level-kearns", At: "text"}},
		{"tube-250", "largest practical tube, 250 ml", evidence.Reading[quantity.Volume]{Value: 250, Source: "saitzyk-1998", At: "Large tubes versus cans"}},
	}
}

// TubeFills lists published shares of an empty tube's length to fill before it
// is crimped.
func TubeFills() []evidence.Reading[quantity.VolumeFraction] {
	return []evidence.Reading[quantity.VolumeFraction]{
		{Value: 0.80, Source: "tube-level-kearns", At: "text", Note: "four fifths; the rest is crimped"},
		{Value: 0.75, Source: "tube-level-notes", At: "text", Note: "about three quarters, then two folds of about 5 mm"},
	}
}

// A DropMass says what drops of a liquid weigh. Droppers differ by a factor of
// two: weigh twenty drops of your own.
type DropMass struct {
	Liquid string   // in words
	IDs    []string // entries it is meant for
	// Twenty is the mass of twenty drops.
	Twenty evidence.Reading[quantity.Mass]
}

// DropMasses lists published drop masses. The slice is the caller's own.
func DropMasses() []DropMass {
	return []DropMass{
		{"water", []string{"water"}, evidence.Reading[quantity.Mass]{
			Value: 0.998, Source: "drop-household", At: "text", Note: "the pharmacy's reckoning of 20 drops to the millilitre, times 0.99821 g/ml"}},
		{"thin essential oil", []string{"clove-oil", "spike-oil", "limonene", "turpentine"}, evidence.Reading[quantity.Mass]{
			Value: 0.66, Source: "drop-oils", At: "text", Note: "mean of three studies, 1 to 25 oils, 3 to 7 droppers"}},
		{"thin essential oil", []string{"clove-oil", "spike-oil", "limonene", "turpentine"}, evidence.Reading[quantity.Mass]{
			Low: 0.3, High: 0.9, Source: "drop-spread", At: "point 2", Note: "spread between oils"}},
		{"drying oil", []string{"linseed-oil", "refined-linseed-oil", "walnut-oil", "poppy-oil", "safflower-oil", "sunflower-oil"}, evidence.Reading[quantity.Mass]{
			Low: 0.558, High: 0.93, Source: "drop-household", At: "text", Note: "drops of 0.03 to 0.05 ml, times 0.93 g/ml; no measured figure for drying oils was found"}},
	}
}
