// Package ask holds what a maker asks, as text, and turns it into a request of
// package formulate. The command line, a formula file and the page fill the
// same fields, so that one question has one set of rules whoever asks it.
//
// Each question is a struct of strings with three methods: Fields lists what may
// be said, a [Field] each; Request reads the words, looks materials up in the
// [Workshop] and hands back what the decision wants; and where questions are kept
// in files, [Save] and [Load] write and read the same fields as TOML. Defaults
// stand here and nowhere else. A fault is a [FieldError] that names its field.
//
// A Workshop is the two catalogues with the maker's own files laid over them, and
// a [Ledger] is what the maker's book says in the catalogue's terms.
//
// It knows no relation of paint and prints nothing.
package ask
