// Package quantity holds the named quantities of paint making, each in one
// fixed unit, and reads and prints them the way people write them at a bench.
//
// # How a quantity is written
//
// A number, an optional space, a unit: "12.5 g", "12,5g", "3 tbsp", "56 g/100g".
// A decimal comma is taken where it cannot be a thousands comma: "12,5" and
// "0,125" are read as decimals, "1,250 g" is refused with both readings named.
// A thousands separator is never accepted. Signs, NaN, infinities and hexadecimal
// floats are refused. Bounds named on each unit table refuse absurd amounts.
//
// Printing with [String] and parsing the result gives the value back exactly.
package quantity
