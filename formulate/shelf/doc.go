// Package shelf keeps a catalogue: named entries of substances, each with its
// sourced values, shipped with the program or written by the maker.
//
// # Files
//
// A shipped catalogue is a folder. Each entry has a file of its own, <id>.toml,
// holding one table [pigment.<id>] or [medium.<id>] with the fields of
// [material.Material]; sources.toml holds a table [source.<key>] for every
// publication cited; index.tsv holds every name of every entry, so that finding
// one opens one small file. The index is made from the entries ([BuildIndex])
// and a test of each catalogue fails when it is stale.
//
// A shipped file is also a valid file of the maker's own ([Shelf.Add]). There,
// a table with the id of a shipped entry may hold only the fields to change;
// any other id is a new entry.
//
// # Names
//
// An entry is found by its id, its name, a synonym or its Colour Index name or
// number. Case, spaces and punctuation do not matter: "Prussian blue",
// prussian-blue, PB27, "Pigment Blue 27" and 77510 are one entry. A name that
// fits several entries (PBr7) is refused with the candidates named. An id or
// name in full wins over a Colour Index name.
//
// # What it does not do
//
// It decides nothing about paint, prints nothing, and reads no file by itself:
// the caller brings the folder and the text.
package shelf
