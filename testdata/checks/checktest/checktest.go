// Package checktest runs the published checks of one room in its tests.
package checktest

import (
	"testing"

	"mullwright/formulate/check"
	"mullwright/testdata/checks"
)

// Run works every row of the files through a room's relations. A row outside
// its tolerance fails, as does a source that is not in the table, and a
// relation that no row checks.
func Run(t *testing.T, relations []check.Relation, files ...string) {
	t.Helper()
	sources, err := checks.Sources()
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	for _, file := range files {
		text, err := checks.Files.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := check.Parse(file, string(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range check.Run(rows, relations) {
			used[o.Row.Relation] = true
			switch {
			case o.Err != nil:
				t.Error(o.Err)
			case !o.Within:
				t.Errorf("%s: %s, %s of %v = %.8g, %s has %.8g ± %.2g (%s)", o.Row.ID, o.Row.Relation, o.Row.Output, o.Row.Inputs, o.Got, o.Row.Source, o.Row.Want, o.Row.Tolerance, o.Row.Why)
			}
			if _, ok := sources[o.Row.Source]; !ok && o.Row.Basis != check.Memory {
				t.Errorf("%s: source %q is not in the table of sources", o.Row.ID, o.Row.Source)
			}
		}
	}
	for _, r := range relations {
		if !used[r.Name] {
			t.Errorf("relation %q has no check row", r.Name)
		}
	}
}
