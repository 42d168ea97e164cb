// Package settling says how fast pigment falls in a liquid, how long a bottle
// stays mixed, and which grains a jar of water, a stream or a sieve lets pass.
//
// # One grain
//
// A sphere of diameter d and density ρp in a liquid of density ρ and viscosity µ
// falls at the speed where its weight less buoyancy equals the drag:
//
//	v² = 4·g·d·(ρp − ρ)/(3·C·ρ),   Re = ρ·v·d/µ
//
// While Re stays under about 0.3 the drag coefficient is C = 24/Re, which gives
// Stokes' law v = g·d²·(ρp − ρ)/(18·µ), 5 % too high at the limit. Above it C
// follows a curve fitted to measurements; [Terminal] solves the balance with the
// standard curve ([Clift]), good to a few per cent up to Re 2·10⁵. [HaiderLevenspiel],
// [KhanRichardson] and [IntermediateDrag] are kept for comparison: around Re 1 such
// curves differ by 5 %. In a centrifuge g is replaced by ω²R, which
// grows as the grain moves out.
//
// # Many grains
//
// Grains hinder one another: v·(1 − φ)ⁿ at a volume fraction φ of solids
// (Richardson and Zaki). n is 4.65 for slow grains and 2.4 for fast ones. A later
// survey of fifteen studies finds two branches at low Re, 5.6 where diffusion
// matters (in practice pigments of every size) and 4.48 where it does not; see
// [SlowIndex] for the range. A well-mixed jar of equal grains clears with two sharp
// fronts, one falling from the top and one rising with the sediment.
//
// # Small grains
//
// Heat stirs small grains. The height over which their number falls to 1/e at
// rest is kT over their buoyant weight ([GravitationalHeight]). This package calls
// a grain kept up by Brownian motion when that height is at least the height of
// the bottle ([BrownianLimit]): it then never clears. It is the strict choice: some
// tens of nanometres in a bottle. The looser one, the size at which the diffusion
// of a second outruns the fall of a second (a micrometre in water), says only
// that the path is unsteady; such a grain still settles in days.
//
// # Washing pigment
//
// To levigate is to stir powder into water, wait, and pour off what still floats.
// After the time in which grains of the cut size fall the depth poured off
// ([CutTime], [CutSize]) no larger grain is left in it. But smaller ones that began
// lower have settled too, so a share of the fines stays behind ([DecantedShare]) and
// washing is repeated ([StaysBehind]). To elutriate is to let water rise as fast as
// the cut size falls ([Upflow]).
//
// # Validity and error
//
// d is the diameter of the sphere that falls alike; plates and needles fall far
// slower than a sphere of their longest side. The size that counts is the size in
// the liquid: after mulling, agglomerates, not the primary grain of a data sheet.
// Flocculated pigment falls much faster and packs loosely; peptised or
// gum-protected pigment, and paste with a yield stress, do not settle by these laws
// at all. Viscosity, and with it speed, changes 2 % per kelvin in water and more
// in oil.
//
// # Sources
//
// Stokes' law and limits: Bell and others, fluids library documentation, after
// Rhodes and Perry. Hindered settling: Richardson and Zaki, Trans. Inst. Chem.
// Eng. 32, 1954, 35; Brzinski and Durian, arXiv:1710.09314, 2017 (its
// abstract). Fronts: Rhodes, Introduction to Particle Technology, chapter 3.
// Brownian motion: Einstein, Ann. Phys. 17, 1905, 549. Sieves: ASTM E11-17 and
// ISO 3310-1:2016. Worked examples: testdata/checks/settling.tsv.
//
// # What it does not do
//
// No flocculation, no yield stress, no hard or soft sediment, no shape factor, no
// wall effect, no size distribution.
package settling
