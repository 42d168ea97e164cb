package material

import "mullwright/formulate/evidence"

// Between-source widths of the two values a mull needs: the log standard
// deviation between publications that print the same property of the same
// pigment. Provisional figures; see the note on each.
var (
	// DensityWidth is the spread of densities between sources.
	DensityWidth = evidence.Width{Sigma: 0.04, Weight: 4}
	// AbsorptionWidth is the spread of oil absorptions, by volume, between
	// sources.
	AbsorptionWidth = evidence.Width{Sigma: 0.25, Weight: 4}
)

// LiquidDensityWidth is the spread of densities between sources of one oil or
// solvent, all brought to 20 °C: 0.0025 over the 31 degrees of freedom of the
// media catalogue, rounded up.
var LiquidDensityWidth = evidence.Width{Sigma: 0.003, Weight: 30}
