// Package quantity holds the named quantities of paint making, each in one
// fixed unit, and reads and prints them the way people write them at a bench.
//
// # Types
//
// Each quantity is a type of its own over float64, in the unit that its comment
// names: [Mass] in g, [Volume] in ml, [Density] in g/ml, [Duration] in s, films in
// µm, rooms in m³. A bare float64 crosses no package border. What is easily
// confused is kept apart by type: a share by mass and a share by volume, oil
// absorption in grams and in millilitres, a film and a grain. Shares run from 0 to
// 1; per cent is for people only.
//
// The relations here are the definitions that tie units together, V = m/ρ and the
// like. Oil absorption in grams is turned into millilitres with the density of the
// method that reported it, never with that of the bottle at hand: ISO 787-5 fixes
// 0.93 g/ml ([ReportingOilDensity]), the literature's constant of 93.5 means 0.935
// ([TestOilDensity]).
//
// # How a quantity is written
//
// A number, an optional space, a unit: "12.5 g", "12,5g", "3 tbsp", "56 g/100g".
// A decimal comma is taken where it cannot be a thousands comma: "12,5" and
// "0,125" are read as decimals, "1,250 g" is refused with both readings named.
// A thousands separator is never accepted. Signs are refused (but below zero a
// temperature has one), and so are NaN, infinities and hexadecimal floats. Bounds
// named on each unit table refuse absurd amounts.
//
// An ounce is the avoirdupois ounce; a fluid ounce must say whose it is, US or imp;
// spoons are the metric ones of 5 and 15 ml, level.
//
// Printing with String and parsing the result gives the value back exactly.
//
// # What it does not do
//
// It rounds nothing: digits that suit an uncertainty are chosen where an answer is
// rendered. It knows no material.
package quantity
