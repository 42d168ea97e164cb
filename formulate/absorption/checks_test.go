package absorption_test

import (
	"strings"
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/formulate/check"
	"mullwright/testdata/checks"
)

func TestPublishedChecks(t *testing.T) {
	sources, err := checks.Files.ReadFile("sources.tsv")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, line := range strings.Split(string(sources), "\n") {
		key, _, _ := strings.Cut(line, "\t")
		known[key] = true
	}
	for _, name := range []string{"absorption.tsv", "pvc.tsv"} {
		text, err := checks.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := check.Parse(name, string(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range check.Run(rows, absorption.Relations()) {
			switch {
			case o.Err != nil:
				t.Error(o.Err)
			case !o.Within:
				t.Errorf("%s: %s = %g, %s has %g, difference %g beyond %g", o.Row.ID, o.Row.Output, o.Got, o.Row.Source, o.Row.Want, o.Difference, o.Row.Tolerance)
			case !known[o.Row.Source]:
				t.Errorf("%s: source %q is not in sources.tsv", o.Row.ID, o.Row.Source)
			}
		}
	}
}
