package material

import "mullwright/formulate/evidence"

// Between-source widths of the two values a mull needs. Each is the pooled log
// standard deviation between the publications that print the same property of
// the same pigment,
//
//	σ = √(Σ (ln xᵢ − mean of the entry)² / Σ (k − 1)),
//
// taken over the shipped entries with k ≥ 2 sources (one mean for each source;
// readings set aside and those from memory left out). A test of the pigment
// catalogue works both out again and fails when they no longer agree.
//
// The weight is how many degrees of freedom that width counts for beside the
// entry's own sources. For oil absorption the likelihood of the entries'
// variances (s²/σ₀² distributed as F with k − 1 and ν₀ degrees of freedom) is
// highest near ν₀ = 4. For density it is highest near 1, but handbooks copy
// crystal densities from each other, so that agreement proves less than it
// seems: 4 is kept there too (common practice).
var (
	// DensityWidth: 52 entries, 98 degrees of freedom, σ = 0.040. Minerals of
	// one composition agree to 1 %; pigments that hold water, clay or tin oxide
	// in varying shares make up the rest.
	DensityWidth = evidence.Width{Sigma: 0.04, Weight: 4}
	// AbsorptionWidth, of millilitres per 100 g: 14 entries, 16 degrees of
	// freedom, σ = 0.24. Figures printed without a method agree among
	// themselves to 0.15 (11 entries); the larger part lies between them and the
	// spatula rub-outs.
	AbsorptionWidth = evidence.Width{Sigma: 0.24, Weight: 4}
)

// LiquidDensityWidth is the spread of densities between sources of one oil or
// solvent, all brought to 20 °C: 0.0025 over the 31 degrees of freedom of the
// media catalogue, rounded up.
var LiquidDensityWidth = evidence.Width{Sigma: 0.003, Weight: 30}
