package verify_test

import (
	"testing"

	"mullwright/formulate/absorption/refit"
	"mullwright/formulate/check"
	"mullwright/formulate/verify"
	"mullwright/testdata/checks"
	"mullwright/testdata/demand"
)

func run(t *testing.T) *verify.Report {
	t.Helper()
	rows, err := checks.Rows()
	if err != nil {
		t.Fatal(err)
	}
	d, err := refit.Parse(demand.Table)
	if err != nil {
		t.Fatal(err)
	}
	return verify.Run(rows, d)
}

// Every check the program carries comes out, and at least a hundred printed
// values count, at most ten of one source.
func TestEveryCheck(t *testing.T) {
	r := run(t)
	for _, o := range r.Misses() {
		t.Errorf("%s (%s): got %v, want %v ± %v: %v", o.Row.ID, o.Row.Relation, o.Got, o.Row.Want, o.Row.Tolerance, o.Err)
	}
	if r.Counted < 100 {
		t.Errorf("%d printed values count, want at least 100", r.Counted)
	}
}

// A wrong row is caught: the check can fail.
func TestCatchesAWrongValue(t *testing.T) {
	rows, err := checks.Rows()
	if err != nil {
		t.Fatal(err)
	}
	rows = append([]check.Row(nil), rows[:20]...)
	rows[7].Want += 3 * rows[7].Tolerance
	rows[9].Relation = "no such relation"
	d, _ := refit.Parse(demand.Table)
	if r := verify.Run(rows, d); r.OK() || len(r.Misses()) != 2 {
		t.Errorf("two wrong rows gave %d misses", len(r.Misses()))
	}
}

// Every row names a source that stands in the table, and each id stands once.
func TestSources(t *testing.T) {
	sources, err := checks.Sources()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, o := range run(t).Outcomes {
		if _, ok := sources[o.Row.Source]; !ok && o.Row.Source != "from memory" && o.Row.Source != "common practice" {
			t.Errorf("%s: no source %q", o.Row.ID, o.Row.Source)
		}
		if seen[o.Row.ID] {
			t.Errorf("check %s stands twice", o.Row.ID)
		}
		seen[o.Row.ID] = true
	}
}
