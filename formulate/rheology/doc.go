// Package rheology gives the viscosity of what a paint flows with: oils at a
// temperature, oils thinned with solvent, water with gum or glycerine, and any of
// them with pigment in it.
//
// # Pigment in a liquid
//
// ηr is the viscosity of a suspension over that of its liquid, φ the volume
// fraction of solids. A few solids add their share (Einstein, φ below 0.02):
//
//	ηr = 1 + 2.5·φ
//
// More of them meet in pairs (Batchelor, φ below 0.10), and near the fraction φm
// at which they pack the suspension stops flowing (Krieger and Dougherty):
//
//	ηr = (1 − φ/φm)^(−[η]·φm)
//
// [η] is 2.5 for spheres and more for any other shape; φm is 0.63 for equal
// spheres at rest and 0.71 in quick flow (from memory). For a pigment the critical
// PVC is its φm with the oil layer that it holds. At φm
// and above there is no answer: the functions return [ErrPacked]; [Suspension]
// returns it from 0.9·φm, since there a 5 % error in φm changes the answer by a
// factor of two to three. [SuspensionRange] runs [η] from 2.5 to 5.
//
// All this is a Newtonian factor for dispersed pigment in brisk flow. It is
// never a yield stress: a paint that stands in peaks has one, and no number here
// says how large.
//
// # Temperature
//
// Two measured points give a law, and the law the viscosity in between:
//
//	Andrade (Arrhenius):  ln η = A + B/T
//	Walther (ASTM D341):  log log(ν + 0.7) = A − B·log T,  ν of 2 mm²/s or more
//
// T in kelvin. Walther's law foretells the published points of vegetable oils
// between 0 and 110 °C within their rounding or 3 %, with two exceptions among
// twenty of Noureddini's (corn oil at 82.2 °C: 11.5 foretold, 10 printed;
// milkweed oil at 60 °C: 19.5 and 18). The tables of Ryan and others do not fit, by
// 8 to 16 %: their lowest temperature is doubtful, and they are not used. Outside
// the two points ask Extrapolates.
//
// # Liquids in liquids
//
// Six rules of the literature are here ([ArrheniusMixture], [GrunbergNissan],
// [KendallMonroe], [Bingham], [DoubleLog], [Refutas]); for oil and spirit they
// differ by a factor of five. This package's choice for a vehicle is the
// logarithmic mean by volume, [Vehicle]: found best, and within 5 %, for
// vegetable oils in esters (Erhan and others 2002), and to hold for them in diesel fuel
// (Franco and Nguyen 2011). Mineral oils did not keep to it, and no table of
// linseed oil with turpentine or white spirit was found; so [VehicleRange] adds
// an interaction of ±0.8, a fifth up or down at half and half.
//
// # Water, glycerine, gum
//
// Water follows Kell's density and the IAPWS viscosity of 2008. Glycerine in
// water follows Cheng's formula (4 %) and a density table. Gum arabic is a table
// at 25 °C, straight in the logarithm between its entries, carried to other
// temperatures by the viscosity of water (15 %); gums differ by a factor of two
// either way ([GumGrade]), and above 40 % a solution is no longer Newtonian. Outside
// their tables the functions return an error, never a guess.
//
// # Sources
//
// Each function and relation names its own; values in testdata/checks/rheology.tsv
// and liquids.tsv.
//
// # What it does not do
//
// No yield stress, no shear thinning, no thixotropy, no ageing or bodying of oil,
// no resin solutions from their solids, no flocculation.
package rheology
