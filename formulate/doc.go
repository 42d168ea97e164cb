// Package formulate answers a paint maker's questions: how much to weigh, how
// much oil to pour first, what to do with a paste gone wrong, how far a paint may
// be thinned, what may lie over what, and how the same pigment goes into gum
// or ink.
//
// # One composition
//
// A [Paint] is a list of components, wet as it stands: what each is, what it
// does ([Role]), its mass m and its density ρ. Every figure about a paint is a
// function of that list and of nothing else ([Paint.Figures]). With p for
// pigment and extender, b for binder, a for additives that stay (wax, humectant,
// preservative) and v for what leaves (solvent, water), and volumes taken as
// additive, V = Σ m/ρ:
//
//	PVC   = Vp/(Vp + Vb + Va)           pigment in the dry film, by volume
//	CPVC  = Vp/(Vp + Σ mp·OAv/100)      where binder just fills the gaps
//	Λ     = PVC/CPVC                    reduced PVC; above 1 the film holds air
//	body  = (Vp/V)/CPVC                 stiffness of the paste as it stands
//	fat   = (Vb + Va)/(Vp + Vb + Va)    what fat over lean compares
//	VS    = 1 − Vv/V                    volume solids, wet film to dry
//
// OAv is the oil absorption in ml per 100 g, a mixture's by the additive rule.
// Shares by mass mislead where densities differ: see [Layers].
//
// # One path
//
// A decision turns a request into a result. Inside it is a pure function of a
// point: densities, absorptions and demands as plain numbers in, a composition
// out. An [Ingredient] brings those numbers as distributions and the deviates of
// a draw pick them. Three answers come from that one function:
//
//   - a range is the function over seeded draws, its 10th, 50th and 90th
//     percentile ([Sampling]; package evidence says how a distribution is made);
//   - an exact answer is the function once, with every deviate at zero;
//   - a derivation is that same run with a [trace.Tracer], which notes each
//     relation with its numbers and its source.
//
// A material that stands twice in a calculation has one set of deviates
// ([Roster]): the oil of the paint and of its medium is the same oil. Same request, same seed, same answer, on any
// number of processors.
//
// # The decisions
//
//	Mull             weighing card of an oil paint: weights, first pour, steps
//	DialOf           the same paste from stiff to flowing
//	Correct          a paste with too much oil or too little, and the ways out
//	Thin             a paint with medium or solvent: film, flow, vapour
//	Layers           a painting from the ground up: first fault, smallest mend
//	Compare, Alike   pigments side by side, and what may stand in for one
//	TrueComposition  what a recipe holds, what its percentages are of
//	Watercolour, CorrectGum, Solution   paints and stock in gum
//	Ink              pigment ink for pen, brush and block: flow, settling, line
//	Settle           washing a powder by size
//	RubOut           the maker's own oil absorption: guide and result
//	PowderMoisture, PowderBulk, PowderJar, PowderDensity, PowderFineness,
//	PowderSurface, PowderCake           the condition of a dry powder
//	Yield, OfFormula weighings of a home-made pigment beside what can form
//	Learn, BatchOf, Repeat              what the maker's own book taught
//	Swatches, Labels what a pigment looks like; what its label must say
//
// Each lists [Cautions] for its materials and its work, and warnings on its own
// numbers, as data.
//
// # The oil of a mull
//
// A body asked for by name is what artists' colours take: each powder's demand D
// is foretold from its oil absorption and narrowed by what is published for it
// and by the maker's own batches (package absorption). The oil is V = Σ m·D/100.
// A PVC or a reduced PVC asked for is geometry alone. The first pour is the 5th
// percentile of the oil, so that one jar in twenty may find it too much
// ([FirstPourRisk]), or what the smallest published demand would take, if that is
// less; the stop is the 95th.
//
// # Validity
//
// Dry pigment ground by hand or mill into drying oil, gum or resin, at room
// temperature. Volumes add; fine grains among coarse ones pack closer than the
// additive rule says; an oil other than linseed is taken to fill the same gaps by
// volume, and the range is widened where that is doubtful. In gum the demand is a
// hypothesis and called so. Viscosities are Newtonian figures for brisk brushing.
// No source gives drying times of mixtures and none is made up.
//
// # Errors
//
// A request is checked once, at the border of its decision: amounts that are not
// numbers, endless or below nothing, materials that cannot be what they are asked
// to be, targets that leave no room. One line says what was wrong and what would
// be accepted. Inside, nothing is checked again.
//
// # Sources
//
// The relations stand in the rooms below, each with its equation, validity and
// source, and its published checks in testdata/checks: absorption, rheology,
// film, settling, vapour, optics, chemistry, powder, gum. What is common practice
// says so where it stands.
//
// The package reads no file, knows no catalogue, flag or screen, and prints
// nothing. It foretells no yield stress, no cracking, no colour of a mixture that
// was not measured, and no permanence; and it never says that something is safe.
package formulate
