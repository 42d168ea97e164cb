package quantity

// Each quantity has one fixed unit, said here and nowhere else. A bare
// float64 crosses no package border: convert at the border, in the type.
type (
	// Mass is in grams.
	Mass float64
	// Volume is in millilitres (cm³).
	Volume float64
	// Density is in g/ml (g/cm³).
	Density float64
	// Absorption is in grams of linseed oil per 100 g of dry pigment.
	Absorption float64
	// AbsorptionVolume is in millilitres of liquid per 100 g of dry pigment.
	AbsorptionVolume float64
	// MassFraction is a share by mass, 0 to 1.
	MassFraction float64
	// VolumeFraction is a share by volume, 0 to 1.
	VolumeFraction float64
	// Parts is a relative amount; only its ratio to other parts means anything.
	Parts float64
	// Ratio is a pure number of two like quantities.
	Ratio float64
	// Length is in centimetres (slabs, depths, heights).
	Length float64
	// Thickness is in micrometres (films).
	Thickness float64
	// ParticleSize is an equivalent spherical diameter in micrometres.
	ParticleSize float64
	// Area is in square metres.
	Area float64
	// MassPerArea is in g/m².
	MassPerArea float64
	// SpecificSurface is in m²/g.
	SpecificSurface float64
	// SpreadingRate is in m²/l.
	SpreadingRate float64
	// Celsius is a temperature in degrees Celsius.
	Celsius float64
	// Viscosity is a dynamic viscosity in mPa·s (centipoise).
	Viscosity float64
	// KinematicViscosity is in mm²/s (centistokes).
	KinematicViscosity float64
	// Duration is in seconds.
	Duration float64
	// Speed is in m/s.
	Speed float64
	// MolarMass is in g/mol.
	MolarMass float64
	// Concentration is of a vapour or a dust in air, in mg/m³.
	Concentration float64
	// PartsPerMillion is a vapour's share of the air by volume, times 10⁶.
	PartsPerMillion float64
	// RoomVolume is in m³.
	RoomVolume float64
	// AirChanges is how often a room's air is renewed, per hour.
	AirChanges float64
	// Pressure is in kPa.
	Pressure float64
	// Energy is in kJ/mol.
	Energy float64
	// IodineValue is in g of iodine per 100 g of oil.
	IodineValue float64
	// RefractiveIndex is a pure number, for sodium light unless said.
	RefractiveIndex float64
	// Money is an amount in the maker's own currency.
	Money float64
	// PricePerGram is in the maker's own currency per gram.
	PricePerGram float64
)

// Named densities of the oil that oil absorption is reported with.
const (
	// TestOilDensity is the linseed oil density in the critical-PVC form
	// CPVC = 1/(1 + OA·ρp/93.5): 93.5 is 100 times 0.935 g/ml.
	// Source: Ullmann's Encyclopedia, Paints and Coatings (see check rows C2-02).
	TestOilDensity Density = 0.935
	// ReportingOilDensity is the fixed 0.93 g/ml with which ISO 787-5 (and
	// ASTM D281) turn the millilitres of the rub-out into grams.
	ReportingOilDensity Density = 0.93
)

// Spans of time.
const (
	Minute Duration = 60
	Hour            = 60 * Minute
	Day             = 24 * Hour
)

// Hours is a time in hours.
func (q Duration) Hours() float64 { return float64(q / Hour) }

// Days is a time in days.
func (q Duration) Days() float64 { return float64(q / Day) }

// Standard acceleration of gravity, m/s² (3rd CGPM, 1901), and the molar gas
// constant, J/(mol·K) (CODATA 2018, exact since the SI of 2019).
const (
	StandardGravity = 9.80665
	GasConstant     = 8.31446261815324
	ZeroCelsius     = 273.15 // K
)

// Volume returns the volume of a mass at a density.
func (m Mass) Volume(d Density) Volume { return Volume(float64(m) / float64(d)) }

// Mass returns the mass of a volume at a density.
func (v Volume) Mass(d Density) Mass { return Mass(float64(v) * float64(d)) }

// ByVolume turns an absorption in grams back into the volume that was poured,
// with the density its reporting method used.
func (a Absorption) ByVolume(reported Density) AbsorptionVolume {
	return AbsorptionVolume(float64(a) / float64(reported))
}

// ByMass turns a volume of oil per 100 g of pigment into grams of an oil.
func (a AbsorptionVolume) ByMass(oil Density) Absorption {
	return Absorption(float64(a) * float64(oil))
}

// TakenBy returns the liquid that a mass of pigment takes.
func (a AbsorptionVolume) TakenBy(pigment Mass) Volume {
	return Volume(float64(pigment) * float64(a) / 100)
}

// Kelvin returns the absolute temperature.
func (c Celsius) Kelvin() float64 { return float64(c) + ZeroCelsius }
