package evidence_test

import (
	"testing"

	"mullwright/formulate/check"
	"mullwright/formulate/evidence"
	"mullwright/testdata/checks"
)

func TestPublishedChecks(t *testing.T) {
	const file = "statistics.tsv"
	text, err := checks.Files.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := check.Parse(file, string(text))
	if err != nil {
		t.Fatal(err)
	}
	sources, err := checks.Sources()
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range check.Run(rows, evidence.Relations()) {
		switch {
		case o.Err != nil:
			t.Error(o.Err)
		case !o.Within:
			t.Errorf("%s: %s %s = %.8g, source prints %.8g ± %.2g (%s)", o.Row.ID, o.Row.Relation, o.Row.Output, o.Got, o.Row.Want, o.Row.Tolerance, o.Row.Source)
		}
		if _, ok := sources[o.Row.Source]; !ok {
			t.Errorf("%s: source %q is not in sources.tsv", o.Row.ID, o.Row.Source)
		}
	}
}
