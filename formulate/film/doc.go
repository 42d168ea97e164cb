// Package film turns a volume of paint into a film and back: how thick it lies
// wet and dry, how far it goes, what it weighs, and what part of it evaporates.
//
// # Model
//
// A film is a flat layer without loss. A litre spread over an area A lies
//
//	WFT = 1 l / A,  so that  s = 1000/WFT
//
// thick, WFT the wet film thickness in µm and s the spreading rate in m²/l.
// What evaporates leaves; what stays, the volume solids VS, makes the dry film:
//
//	DFT = VS·WFT
//
// VS is a share of the wet volume, 0 to 1. A thinner added at t volumes to one
// volume of paint makes it VS/(1 + t). A litre over a square metre is a
// millimetre, so a micrometre over a square metre is a millilitre: mass per area
// in g/m² is thickness in µm times density in g/ml.
//
// # Volatile organic compounds
//
// The content of volatile organic compounds is their mass over a volume, in g/l:
// of the whole paint, of the paint less its water (how most rules count
// water-borne paint), or of the solids. They are the same ratio over three
// volumes. Compounds that a rule exempts are left out of the mass and, where the
// rule says so, out of the volume too: that is for the caller to know.
//
// # Validity and error
//
// Volumes are taken as additive and the film as even. A drying oil gains mass
// while it dries and shrinks little; its volume solids are taken as 1. A brushed
// film is uneven by a good part of its own thickness, and a porous ground drinks:
// the practical rate is the theoretical one less a loss that is an estimate.
//
// # Sources
//
// Spreading rate, wet and dry film: coating makers' technical notes and data
// sheets, as keyed in testdata/checks/film.tsv. Measured volume solids: ISO 3233
// and ASTM D2697. US units: NIST Handbook 44, appendix C.
//
// # What it does not do
//
// It knows no hiding power, no drying and no vapour in a room, and judges no
// limit: limits on solvents are local law.
package film
