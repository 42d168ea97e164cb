// Package material says what any substance brings to a paint: names, density,
// oil absorption, hazards and the source of each.
//
// # What stands in an entry
//
// A [Material] is a pigment, an extender, an oil, a gum or whatever else goes into
// a paint. Its values are readings: a number or a low and a high as printed, the
// key of the [Source], the place in it, and a note. Readings are never averaged by
// hand. One that is kept but left out says why in Aside.
//
//	Density         g/ml at 20 °C
//	OilAbsorption   g or ml per 100 g as printed, with its [Method]
//	ArtistsDemand   oil of a workable paste, g per 100 g, with its consistency:
//	                another quantity than oil absorption
//	Classes         what it does beside others: drives the cautions
//	Hazards         short notes of what sources say; assessed or not
//
// # From readings to a range
//
// [Material.DensityDistribution] and [Material.AbsorptionDistribution] combine the
// readings by package evidence. The widths between sources are pooled over the
// shipped catalogue and stand in this package with how they were found:
// [DensityWidth] 0.04 and [AbsorptionWidth] 0.24 as log standard deviations,
// [LiquidDensityWidth] 0.003. Rub-outs and figures without a stated method stand
// together; figures by another test are used alone, and only where there is
// nothing else.
//
// # Errors
//
// [Validate] names every fault of an entry, not only the first: a value
// without a source, low above high, a unit out of range, an unknown class.
//
// It holds facts and their checks, no decisions; the two catalogues fill it and
// formulate reads it. An entry without hazards has not been assessed, and none is
// ever a clearance.
package material
