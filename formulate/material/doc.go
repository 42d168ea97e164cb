// Package material says what any substance brings to a paint: names, density,
// oil absorption, hazards and the source of each. It holds facts and their
// checks, no decisions; the two catalogues fill it and formulate reads it.
package material
