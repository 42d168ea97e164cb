package optics

// The quantities of the two-flux model. Thickness is counted in films: one
// film is the layer that K and S were measured on or are stated for, so K, S
// and Films always belong together and no micrometre is ever implied.
type (
	// Nanometre is a wavelength in air.
	Nanometre float64
	// Reflectance is the share of the light that comes back, 0 to 1.
	Reflectance float64
	// Transmittance is the share of the light that passes, 0 to 1.
	Transmittance float64
	// Absorbing is the absorption coefficient K, per film.
	Absorbing float64
	// Scattering is the scattering coefficient S, per film.
	Scattering float64
	// AbsorptionRatio is K/S, a pure number.
	AbsorptionRatio float64
	// Films is the thickness X of a layer.
	Films float64
	// ScatteringPower is S·X, a pure number.
	ScatteringPower float64
	// ContrastRatio is the luminance over black by that over white, 0 to 1; a
	// measured one of a dark film may pass 1 by its noise.
	ContrastRatio float64
	// Difference is a distance between two colours, in CIELAB units.
	Difference float64
)

// Constants are K and S of one paint at one wavelength.
type Constants struct {
	K Absorbing
	S Scattering
}

// Ratio returns K/S; ok is false where nothing scatters.
func (c Constants) Ratio() (ratio AbsorptionRatio, ok bool) {
	if c.S <= 0 {
		return 0, false
	}
	return AbsorptionRatio(float64(c.K) / float64(c.S)), true
}

// A Layer is a film, or several in contact, as light meets it: what it gives
// back over perfect black, seen from above and from below, and what it lets
// through, which is the same both ways (Kubelka, 1954). For one even film both
// reflectances are R₀.
type Layer struct {
	R     Reflectance
	Under Reflectance
	T     Transmittance
}
