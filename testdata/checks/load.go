package checks

import (
	"fmt"
	"io/fs"
	"strings"

	"mullwright/formulate/check"
	"mullwright/formulate/material"
)

// Rows reads every check file, in the order of their names.
func Rows() ([]check.Row, error) {
	names, err := fs.Glob(Files, "*.tsv")
	if err != nil {
		return nil, err
	}
	var rows []check.Row
	for _, name := range names {
		if name == sourcesFile {
			continue
		}
		text, err := fs.ReadFile(Files, name)
		if err != nil {
			return nil, err
		}
		some, err := check.Parse(name, string(text))
		if err != nil {
			return nil, err
		}
		rows = append(rows, some...)
	}
	return rows, nil
}

const sourcesFile = "sources.tsv"

// Sources reads the publications behind the rows, by key.
func Sources() (map[string]material.Source, error) {
	text, err := fs.ReadFile(Files, sourcesFile)
	if err != nil {
		return nil, err
	}
	out := map[string]material.Source{}
	for i, line := range strings.Split(strings.TrimRight(string(text), "\n"), "\n") {
		f := strings.Split(line, "\t")
		if len(f) != 5 {
			return nil, fmt.Errorf("%s:%d: %d columns, want 5", sourcesFile, i+1, len(f))
		}
		if i == 0 {
			continue
		}
		if _, dup := out[f[0]]; dup {
			return nil, fmt.Errorf("%s:%d: key %q stands twice", sourcesFile, i+1, f[0])
		}
		out[f[0]] = material.Source{Key: f[0], Author: f[1], Title: f[2], Year: f[3], Locator: f[4]}
	}
	return out, nil
}
