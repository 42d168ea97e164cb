// Package pigments is the catalogue of pigments and extenders: what each is
// called, how dense it is, how much oil it takes, what it does not get on with
// and what is published about its hazards, each value with its source.
//
// The entries are the TOML files in data, one each; package shelf says how they
// are read. Every value carries a source key, or the words "from memory" or
// "common practice" where no publication was seen. A reading that is kept on
// the sheet but left out of the ranges says why in its field aside.
//
// # Readings
//
// Sources are equal; readings of one source count once. Oil absorption keeps
// the unit it was printed in, and its method: a spatula rub-out, a figure
// printed without a method, a stirred test and an absorptometer are never mixed
// unseen. Artists' demand is the oil of a workable paste, a different quantity.
//
// # What it rests on
//
// 174 entries. 162 have a density and an oil figure: 138 an oil absorption, 24
// only an artists' demand. The density of 92 of them stands in a publication
// that was read; that of the other 70, mostly modern organic pigments, is from
// memory, marked so and given a wide range. 12 entries have no oil figure and
// are for the sheet, or for a maker who adds his own. Hazard sources were read
// for about half; the others are marked as not assessed.
//
// # What it does not hold
//
// Nothing here is a safety assessment: hazards are short notes of what the
// sources say, and an entry without them has not been assessed. The safety data
// sheet of the product in the jar rules.
package pigments
