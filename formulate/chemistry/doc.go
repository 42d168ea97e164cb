// Package chemistry reads formulas and balanced reactions and checks a weighing
// against them: molar masses, the limiting reactant, the most that can form, the
// yield, and what rinsing leaves. It is a check on weighings, not a procedure for
// making anything.
//
// # How a formula is written
//
//	formula   = part { dot part }
//	part      = [ count | range ] group { group }
//	group     = ( element | "(" groups ")" | "[" groups "]" ) [ subscript ]
//	dot       = "·" or the other raised dots, "*", or "."
//	count     = a number, with a fraction if need be: 2PbCO3, 0.5H2O, ½H2O
//	range     = number "-" number, before H2O only: 14-16H2O
//	subscript = a whole number, small or not: O3, O₃; or a fraction below 1: Zn0.1
//
// Spaces may stand about the dot and after a count. The number before a part
// belongs to that part alone: 2PbCO3·Pb(OH)2 is two of lead carbonate and one of
// lead hydroxide. A point after a digit is the dot, so CaSO4.2H2O is gypsum, and
// CaSO4.0.5H2O its hemihydrate; only after a lone 0 is it a decimal, so that
// Cd0.9Zn0.1S is a solid solution and Cu1.8S is not. Refused, with the reason:
// unknown and weightless elements, charges, xH2O without a number, 0 as a count,
// more than 8 brackets deep, more than 200 bytes, counts above 9999.
//
// # How a reaction is written
//
//	3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3 + 12 KCl
//
// The arrow is ->, -->, →, => or =. (s), (l), (g) and (aq) after a substance are
// passed over. A number set off by a space counts the whole substance; one that
// touches a formula with a dot could be read two ways and is refused. A reaction
// that is not balanced is refused with the elements that do not come to the same.
// Water bound in a range is left out of the balance.
//
// # Model
//
// M = Σ νᵢ·Aᵢ with the abridged standard atomic weights of 2021 (Prohaska and
// others, Pure and Applied Chemistry 94, 573, 2022). They hold for any ordinary
// sample to the tolerance printed beside them, which is 0.5 % for lead and 0.1 %
// or less for all the rest that pigments are made of. The reaction turns over
// ξ = min mᵢ/(νᵢ·Mᵢ) mol, and can give ξ·ν·(M + n·M(H2O)) of a product with n
// molecules of bound water, which for many pigments is known only as a range.
// More than that in the jar is water or salts, never success. What is left after
// n rinses is (r/(r + v))ⁿ of the salts.
//
// # What the package does not do
//
// It does not say whether a reaction runs, how far, how fast, or what is dangerous
// in it beyond naming the classes its formulas show; a class not named may still
// be there. It balances nothing by itself and knows no charges, no isotopes and no
// structures. It prints nothing.
package chemistry
