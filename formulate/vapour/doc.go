// Package vapour says how much solvent a room's air holds, and how that stands
// beside published limits.
//
// # Model
//
// One well-mixed box. A room of volume V (m³) is aired n times an hour; a mass M
// (mg) of solvent leaves the paint by a stated profile S(t); what is in the air
// follows
//
//	V·dC/dt = S(t) − n·V·C
//
// so that, t in hours and C in mg/m³,
//
//	all at once            C = (M/V)·e^(−n·t)
//	evenly over τ          C = (M/τ)/(n·V)·(1 − e^(−n·t)), then falls by e^(−n·(t − τ))
//	first order, rate a    C = a·M/(V·(n − a))·(e^(−a·t) − e^(−n·t))
//
// A first-order loss to walls and cloth adds to n. All three hold for a closed
// room (n = 0) and for a = n as limits. Sources: Keil and others (eds),
// Mathematical Models for Estimating Occupational Exposure to Chemicals, 2nd
// edition, AIHA 2009 (from memory), with the published tables and worked answers
// in the check rows.
//
// A share of the air by volume (ppm) and a mass per volume are tied by the molar
// volume of the ideal gas, R·T/p: 24.47 l/mol at 25 °C and 101.325 kPa. Tables of
// limits round it to 24.45, a difference of 0.06 %.
//
// Air holds no more vapour than stands over the liquid at saturation, Cs from the
// vapour pressure. Where all of it, leaving as said, would pass Cs, the room stays
// at Cs, the rest stays liquid, and no more evaporates than is carried off:
//
//	n·V·Cs·(t₂ − t₁) = ∫S dt from t₁ to t₂
//
// t₁ is when the air is full and t₂ when the liquid held up is gone; the level
// falls from there. Without air changes it never does. Where no vapour pressure is
// known there is no such limit, and the figures may pass what air can hold.
//
// # Validity
//
// The air must really be mixed. Beside the palette it is not: within arm's length
// the level is several times the room's average, and right over the liquid it is
// that of saturation. The box knows nothing of that, of people breathing over
// the work, or of skin contact. A solvent of many parts evaporates its light parts
// first, and out of a paint less evaporates than its pure vapour pressure allows:
// Cs is the most there can be.
//
// # What the package does not do
//
// It clears nothing. A level below a limit is a number beside a number: limits
// differ between countries and years, some people react below them, and the
// product's safety data sheet, local rules and licensed practice decide. It holds
// no limit, vapour pressure or flammability of its own.
package vapour
