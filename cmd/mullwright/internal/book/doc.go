// Package book keeps the maker's batch book on disk: one TOML file for each
// entry, made to be read, mended by hand and kept under version control.
//
// An entry is a batch as it was weighed, a rub-out, a count of what is on hand,
// or the striking of an earlier entry. Entries are only ever added: nothing here
// changes or deletes one. A struck entry stays on disk as it was and counts no
// more; to strike the strike brings it back. What is on hand is worked out from
// the counts and from the batches after them, so that adding a batch touches no
// other file.
//
// # Files
//
// An entry is named by its number and, for the reader's sake, by its first
// material: 0012-prussian-blue.toml. Only the number counts; the rest of the
// name is never read back. Files whose names begin with no number are left
// alone, those ending in .toml are named as unread. Dates, lots and remarks are
// the maker's text: they stand inside the file and are no part of its name.
//
// # Writing
//
// A new entry is written to a file of another name, flushed to the disk, and
// then linked to its number, which fails where that number has been taken: two
// programs that add at once both land, on different numbers. Then it gets its
// full name. A program killed at any moment leaves every older entry as it was,
// and the new one whole or not there; at worst a whole entry keeps the bare name
// 0012.toml. Where the file system has no links the new file is created under
// its number and written in place; there a kill may leave the new file damaged,
// never an older one.
//
// # Reading
//
// Reading is strict: every fault is named with file, line and key, and the
// entries without fault still count. An entry laid out as the program writes it
// is read line by line, any other by the TOML decoder, with the same outcome. Ten
// thousand batches are read in 0.1 s on two cores of a server processor, in 1.2 s
// were each of them laid out otherwise (BenchmarkRead); to list them takes 0.4 s
// in all, to learn from them 0.3 s (BenchmarkBook of package cli).
//
// The package does not know the catalogue: it checks that ids are words, not
// that such materials exist. It calculates nothing.
package book
