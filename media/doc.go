// Package media is the catalogue of everything that is not a pigment: drying
// oils, solvents, resins, waxes, stabilisers, driers, gums and other water
// binders, humectants, wetting agents, preservatives, additives, water, and
// mixtures made up from them. It also knows the vessels paint is put into and
// what drops weigh.
//
// The entries are the TOML files in data, one each; package shelf says how they
// are read. Every value carries a source key, or the words "from memory" or
// "common practice" where no publication was seen.
//
// # Density
//
// The readings of density hold at 20 °C. Older books print a specific gravity
// s, the weight at t against the same volume of water at t₀; it is brought to
// 20 °C by
//
//	ρ(20) = s·ρw(t₀) − k·(20 °C − t)
//
// ρw in g/ml after IAPWS-95, k in g/ml per K. The printed figure, both
// temperatures, ρw and k stand in the note of the reading, and a test works the
// sum out again. For oils k = 0.00067, the slope of five oils of C18 acids
// between 24 and 110 °C (Noureddini and others 1992: 0.00064 to 0.00070); for
// terpenes 0.00078 (d-limonene, Melinder 2010); for the other solvents from
// memory. A temperature that a book does not print is said to be taken. The
// field density-at keeps figures at the temperature they were measured at.
//
// # Viscosity
//
// Dynamic viscosity at the temperature measured. A kinematic figure ν is
// multiplied by the density at that temperature, η = ν·ρ(t); both stand in the
// note. Figures come from a compilation that rounds to whole mm²/s: good to
// about 3 % at 30 mm²/s and 7 % at 7.
//
// # Exposure limits
//
// A limit is shown as its authority printed it, in ppm, in mg/m³ or in both.
// Both units of one limit agree within 5 % by the molar mass of the substance
// at 25 °C, ppm = mg/m³·24.45/M; the exceptions, mixtures whose authority took
// another mean molar mass, say so in their note. Limits marked "from memory"
// were not seen in a publication and must be looked up before they are relied
// on.
//
// # Made-up media
//
// An entry of kind medium holds parts by mass of other entries and no
// properties of its own: density, hazards and classes follow from its parts.
// A recipe by volume is turned into mass with the densities of this catalogue.
//
// # Water and solvent inside a material
//
// Honey, syrup, ox gall, egg yolk and vinegar hold water, driers solvent,
// balsams turpentine: non-volatile is the share that stays in the dry film.
// Where it is empty all of the material stays, or all of a solvent leaves.
//
// # What it does not hold
//
// Gum and glycerine solutions against their strength are relations, not
// materials, and live with the calculations. Which materials do not get on is
// decided by the classes, elsewhere. Nothing here is a safety assessment: the
// safety data sheet of the product in the bottle rules.
package media
