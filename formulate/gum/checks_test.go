package gum_test

import (
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/check"
	"mullwright/formulate/gum"
	"mullwright/testdata/checks"
)

func TestPublishedChecks(t *testing.T) {
	text, err := checks.Files.ReadFile("recipes-gum.tsv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := check.Parse("recipes-gum.tsv", string(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range check.Run(rows, append(gum.Relations(), formulate.Relations()...)) {
		switch {
		case o.Err != nil:
			t.Error(o.Err)
		case !o.Within:
			t.Errorf("%s: %s = %g, %s prints %g, difference %g beyond %g", o.Row.ID, o.Row.Output, o.Got, o.Row.Source, o.Row.Want, o.Difference, o.Row.Tolerance)
		}
	}
}
