// Package demand embeds the published oil contents of artists' paints that the
// foretelling of demand is fitted to.
package demand

import _ "embed"

// Table is artists-demand.tsv: comment lines begin with #, then a header line,
// then one published figure a line, tab separated.
//
//go:embed artists-demand.tsv
var Table string
