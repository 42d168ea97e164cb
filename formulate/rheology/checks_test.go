package rheology_test

import (
	"testing"

	"mullwright/formulate/check"
	"mullwright/formulate/rheology"
	"mullwright/testdata/checks"
)

func TestPublishedChecks(t *testing.T) {
	for _, name := range []string{"rheology.tsv", "liquids.tsv"} {
		t.Run(name, func(t *testing.T) { published(t, name) })
	}
}

func published(t *testing.T, name string) {
	text, err := checks.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := check.Parse(name, string(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range check.Run(rows, rheology.Relations()) {
		switch {
		case o.Err != nil:
			t.Error(o.Err)
		case !o.Within:
			t.Errorf("%s: %s = %g, %s prints %g, difference %g beyond %g", o.Row.ID, o.Row.Output, o.Got, o.Row.Source, o.Row.Want, o.Difference, o.Row.Tolerance)
		}
	}
}
