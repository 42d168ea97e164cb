package check

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// row writes one line of a check file; the values are invented.
func row(change ...string) string {
	cells := []string{"T-1", "sum", "a=1; b=2.5", "sum", "3.5", "0.05", "half the last digit", "printed", "book1900", "p. 1", "a note"}
	for i := 0; i+1 < len(change); i += 2 {
		for j, name := range strings.Split(Columns, "\t") {
			if name == change[i] {
				cells[j] = change[i+1]
			}
		}
	}
	return strings.Join(cells, "\t")
}

func TestParse(t *testing.T) {
	text := "# a comment\r\n\n" + Columns + "\r\n" + row() + "\r\n# another\n" + row("id", "T-2", "inputs", "x=-1e-3", "note", "") + "\n"
	got, err := Parse("t.tsv", text)
	if err != nil {
		t.Fatal(err)
	}
	want := []Row{
		{ID: "T-1", Relation: "sum", Inputs: []Input{{"a", 1}, {"b", 2.5}}, Output: "sum", Want: 3.5, Tolerance: 0.05, Why: "half the last digit", Basis: Printed, Source: "book1900", Locator: "p. 1", Note: "a note"},
		{ID: "T-2", Relation: "sum", Inputs: []Input{{"x", -1e-3}}, Output: "sum", Want: 3.5, Tolerance: 0.05, Why: "half the last digit", Basis: Printed, Source: "book1900", Locator: "p. 1"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// A fault names the file, the line and what would be right.
func TestParseRefuses(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"no header", row(), "t.tsv:1: header is"},
		{"other header", "id\trelation\n", "t.tsv:1: header is"},
		{"columns short", Columns + "\n" + "T-1\tsum", "t.tsv:2: 2 columns, want 11"},
		{"id twice", Columns + "\n" + row() + "\n\n" + row(), `t.tsv:4: id "T-1" stands already in line 2`},
		{"id missing", Columns + "\n" + row("id", ""), "t.tsv:2: id, relation and output must be given"},
		{"relation missing", Columns + "\n" + row("relation", ""), "must be given"},
		{"output missing", Columns + "\n" + row("output", ""), "must be given"},
		{"input without value", Columns + "\n" + row("inputs", "a"), `input "a": want name=number`},
		{"input a word", Columns + "\n" + row("inputs", "a=one"), `input "a=one": want name=number`},
		{"input NaN", Columns + "\n" + row("inputs", "a=NaN"), "want name=number"},
		{"input infinite", Columns + "\n" + row("inputs", "a=1;b=Inf"), "want name=number"},
		{"input twice", Columns + "\n" + row("inputs", "a=1;a=2"), `input "a" stands twice`},
		{"input without name", Columns + "\n" + row("inputs", "=2"), `input "=2": want name=number`},
		{"want a word", Columns + "\n" + row("want", "much"), `want "much": not a number`},
		{"want NaN", Columns + "\n" + row("want", "NaN"), `want "NaN": not a number`},
		{"want infinite", Columns + "\n" + row("want", "Inf"), `want "Inf": not a number`},
		{"tolerance zero", Columns + "\n" + row("tolerance", "0"), `tolerance "0": not a positive number`},
		{"tolerance negative", Columns + "\n" + row("tolerance", "-1"), "not a positive number"},
		{"tolerance NaN", Columns + "\n" + row("tolerance", "NaN"), "not a positive number"},
		{"tolerance infinite", Columns + "\n" + row("tolerance", "Inf"), "not a positive number"},
		{"why missing", Columns + "\n" + row("why", ""), "say why the tolerance is what it is"},
		{"source missing", Columns + "\n" + row("source", ""), "row T-1: source missing"},
		{"other basis", Columns + "\n" + row("basis", "guess"), `basis "guess", want printed, computed or memory`},
	}
	for _, tt := range tests {
		rows, err := Parse("t.tsv", tt.text)
		if err == nil || !strings.HasPrefix(err.Error(), "t.tsv:") || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, %v; want %q", tt.name, rows, err, tt.want)
		}
	}
}

// relations for the tests: sums, with one optional input.
var relations = []Relation{
	{"sum", "g", func(a *Args) (map[string]float64, error) {
		s := a.Get("a") + a.Get("b")
		if a.Has("c") {
			s += a.Get("c")
		}
		return map[string]float64{"sum": s, "twice": 2 * s}, nil
	}},
	{"refusing", "", func(*Args) (map[string]float64, error) { return nil, errors.New("out of range") }},
}

// A row is within where the difference is at most the tolerance, and never
// skipped in silence: each way in which it cannot be worked is an error.
func TestRun(t *testing.T) {
	in := func(list ...Input) []Input { return list }
	tests := []struct {
		name   string
		row    Row
		got    float64
		within bool
		err    string
	}{
		{"exact", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}), Output: "sum", Want: 3, Tolerance: 0.1}, 3, true, ""},
		{"other output", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}), Output: "twice", Want: 6, Tolerance: 0.1}, 6, true, ""},
		{"optional input", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}, Input{"c", 4}), Output: "sum", Want: 7, Tolerance: 0.1}, 7, true, ""},
		{"at the tolerance", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}), Output: "sum", Want: 2.5, Tolerance: 0.5}, 3, true, ""},
		{"past it above", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}), Output: "sum", Want: 2.49, Tolerance: 0.5}, 3, false, ""},
		{"past it below", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}), Output: "sum", Want: 3.51, Tolerance: 0.5}, 3, false, ""},
		{"no such relation", Row{ID: "x", Relation: "product"}, 0, false, `check x: no relation "product"`},
		{"input missing", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}), Output: "sum", Want: 1, Tolerance: 1}, 0, false, `relation "sum" needs input "b"`},
		{"input not taken", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}, Input{"d", 3}), Output: "sum", Want: 3, Tolerance: 1}, 0, false, `relation "sum" takes no input "d"`},
		{"no such output", Row{ID: "x", Relation: "sum", Inputs: in(Input{"a", 1}, Input{"b", 2}), Output: "half", Want: 3, Tolerance: 1}, 0, false, `relation "sum" has no output "half"`},
		{"relation refuses", Row{ID: "x", Relation: "refusing", Output: "sum"}, 0, false, "check x: out of range"},
	}
	var rows []Row
	for _, tt := range tests {
		rows = append(rows, tt.row)
	}
	out := Run(rows, relations)
	if len(out) != len(tests) {
		t.Fatalf("%d outcomes for %d rows", len(out), len(tests))
	}
	for i, tt := range tests {
		o := out[i]
		if tt.err != "" {
			if o.Err == nil || !strings.Contains(o.Err.Error(), tt.err) || o.Within {
				t.Errorf("%s: got %+v, want the error %q", tt.name, o, tt.err)
			}
			continue
		}
		if o.Err != nil || o.Got != tt.got || o.Within != tt.within || o.Difference != o.Got-tt.row.Want {
			t.Errorf("%s: got %+v, want %v within %v", tt.name, o, tt.got, tt.within)
		}
	}
}

// Whatever a check file holds, what is read could be run, and reads the same
// when it is written out again.
func FuzzParse(f *testing.F) {
	f.Add(Columns + "\n" + row() + "\n")
	f.Add("# only a comment\n")
	f.Add(Columns + "\n" + row("inputs", "a=1;;b=2"))
	f.Add(Columns + "\n" + row("tolerance", "1e400"))
	f.Add(Columns + "\r\n" + row("want", "-0", "inputs", " a =1; b= 2 "))
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := Parse("t.tsv", text)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "t.tsv:") {
				t.Fatalf("%v does not name its line", err)
			}
			return
		}
		for _, o := range Run(rows, relations) {
			if o.Within && !(o.Row.Tolerance > 0) {
				t.Fatalf("within no tolerance: %+v", o)
			}
		}
	})
}
