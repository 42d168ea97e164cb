package optics_test

import (
	"testing"

	"mullwright/formulate/check"
	"mullwright/formulate/optics"
	"mullwright/testdata/checks"
)

func TestPublishedChecks(t *testing.T) {
	text, err := checks.Files.ReadFile("optics.tsv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := check.Parse("optics.tsv", string(text))
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	for _, o := range check.Run(rows, optics.Relations()) {
		used[o.Row.Relation] = true
		switch {
		case o.Err != nil:
			t.Error(o.Err)
		case !o.Within:
			t.Errorf("%s: %s of %v: got %.8g, published %.8g, allowed %.2g (%s)", o.Row.ID, o.Row.Output, o.Row.Inputs, o.Got, o.Row.Want, o.Row.Tolerance, o.Row.Why)
		}
	}
	for _, r := range optics.Relations() {
		if !used[r.Name] {
			t.Errorf("relation %q has no check row", r.Name)
		}
	}
}
