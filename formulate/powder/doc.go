// Package powder works out what a dry pigment is like from weighings and simple
// tests: moisture, loose and tapped density, true density by displacement,
// specific surface and size, fineness on a grind gauge, sieve residue, and what is
// lost from the wet cake to the tube.
//
// # Model
//
// Moisture counts on the damp weight, W = (m_damp − m_dry)/m_damp, unless the dry
// basis X = (m_damp − m_dry)/m_dry is named; X = W/(1 − W). To have D of dry
// pigment weigh out D/(1 − W).
//
// Bulk density is mass over the volume the powder fills, poured or tapped; the
// Carr index (ρt − ρb)/ρt and the Hausner ratio ρt/ρb say how it flows. True
// density comes from the liquid a powder displaces, in a measuring cylinder
// m/(V₂ − V₁) or weighed in a pyknometer
//
//	ρ = ρl·(m₂ − m₁)/((m₄ − m₁) − (m₃ − m₂))
//
// m₁ empty, m₂ with powder, m₃ topped up with liquid, m₄ full of liquid alone.
// Air that clings to the powder makes it come out low; a liquid that dissolves or
// swells it makes the figure worthless. Uncertainties follow by the law of
// propagation from the balance's last digit, the filling and the liquid's density.
//
// Spheres of diameter d have the specific surface 6/(ρ·d); plates of thickness h
// about 2/(ρ·h), rods of diameter d 4/(ρ·d). Real grains are rough and clumped:
// gas adsorption gives more, a settling size less. The size of a distribution that
// has its surface is the Sauter mean d₃₂; mean sizes integrate inside each class
// as ASTM E799 does.
//
// # Surface and oil
//
// Oil goes onto the surface as a layer and into the voids between the grains:
//
//	OAv = 0.1·S·δ + 100·(1 − φ)/(φ·ρp)   ml/100 g
//
// S in m²/g, the layer δ in nm, φ the packing of the grains, ρp in g/ml. The layer
// is given as 2.5 to 4 nm (Russian trade literature on oil absorption of the first
// and second kind). Beside the four published pairs of surface and oil absorption
// known here (geometric middles of producers' ranges), with δ = 3 nm and φ = 0.64,
// the rule gives
//
//	                                   published   by the rule
//	ground calcium carbonate, 1 m²/g     9.7         21.1 ml/100 g
//	the same, 15 m²/g                   22.6         25.3
//	benzimidazolone yellow, 23 m²/g     50.0         45.2
//	copper phthalocyanine, 43 m²/g      45.0         55.9
//
// so that a published figure is 0.46 to 1.11 of the rule's, least for a coarse
// powder of many sizes, which packs far closer than 0.64. Aggregates hold oil
// inside and lie above. The rule is for judging a change, not for a recipe: what
// finer grinding adds is 0.1·δ·ΔS, with 2.5 to 4 nm by the rule and 9 nm from the
// two ends of the calcium carbonate, almost four times apart.
//
// # Validity and what the package does not do
//
// Nothing here is known of the pigment: which may be heated to be dried, which
// dissolves in which liquid, and what dust does to the lungs is said where the
// catalogue is read. The package turns no settling time into a size, makes no
// recipe, and prints nothing.
package powder
