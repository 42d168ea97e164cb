// Package gum relates gum, humectant, water and pigment in watercolour and ink.
//
// # Solutions
//
// A gum solution of 1 : r holds the share 1/(1 + r) of gum by mass, gum and
// water as weighed. Gum as weighed holds some 15 % of water itself; what stays
// in the dry film is counted apart, where the paint is composed.
//
// # How much binder
//
// No published table says how much gum a pigment takes. This package holds a
// hypothesis and calls it one: the volume of dry binder (gum and humectant)
// goes with the volume of oil the same pigment takes up in the rub-out,
//
//	Vb = s·m·OAv/100
//
// Vb in ml, m the pigment in g, OAv in ml of oil per 100 g, s a pure number.
// Linseed oil is not gum water, so s is not known from any law: it is read off
// published recipes ([Scale]), which differ by a factor of six. s = 1 would put
// the dry film at the critical pigment volume concentration of oil. A gum film
// may lie above that: it is porous there, as a matt wash is, and does not fall
// apart while the rub test holds. The maker's own rub and wash test decides.
//
// # Humectant
//
// The ratio h of humectant to gum, both as weighed, is what published recipes
// hide: it runs from about 0.15 to 1.9 ([HumectantRatios]). No sourced limit for
// cracking or for stickiness exists. [Air] picks a place in that spread.
//
// # Pans
//
// A paint whose volume solids are VS shrinks by 1 − VS as its water leaves. A pan
// topped up to the brim n times, each time dried through, holds 1 − (1 − VS)ⁿ of
// its volume in dry paint. [PanPours] deals the pours out: none is deeper than
// asked, none runs over, and together they fill the pan to the share asked for.
// Real pans keep some water and shrink a little less.
//
// # Powders by the spoon
//
// A spoon of powder holds its bulk density times its volume. Where that is not
// known, [LooseDensity] estimates it from the true density, within a factor of
// two and a half either way: weigh a level spoon instead.
//
// # Sources
//
// Recipes and ratios: testdata/checks/recipes-gum.tsv and the readings in this
// package. Pan practice: common practice.
//
// # What it does not do
//
// No moisture, no viscosity, no settling, no chemistry of preservatives, no swelling of dry
// paint in damp air, no cracking or curling law: none is published that could be
// checked.
package gum
