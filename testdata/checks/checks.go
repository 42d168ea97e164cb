// Package checks embeds the published check rows, so that the program carries
// the very data its tests run.
package checks

import "embed"

// Files holds the *.tsv check files and sources.tsv.
//
//go:embed *.tsv
var Files embed.FS
