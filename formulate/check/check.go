// Package check holds published checks: rows of data that name a relation, its
// inputs, the value a source prints for it and how far ours may differ. A room
// registers its relations by name; the rows live in testdata/checks. The same
// rows drive the tests and the verify command, so a check is never code.
package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Basis says what the expected value rests on.
type Basis string

const (
	Printed  Basis = "printed"  // stands in the source as written
	Computed Basis = "computed" // worked out from a published formula and inputs
	Memory   Basis = "memory"   // recalled, source not seen
)

// A Row is one published value.
type Row struct {
	ID        string
	Relation  string
	Inputs    []Input
	Output    string  // which output of the relation
	Want      float64 // published
	Tolerance float64 // absolute, in the unit of Want
	Why       string  // why that tolerance
	Basis     Basis
	Source    string // key into the sources table
	Locator   string
	Note      string
}

// An Input is one named argument.
type Input struct {
	Name  string
	Value float64
}

// Args gives a relation its inputs by name. A missing one is an error.
type Args struct {
	row  *Row
	used map[string]bool
	err  error
}

// Get returns the named input.
func (a *Args) Get(name string) float64 {
	for _, in := range a.row.Inputs {
		if in.Name == name {
			a.used[name] = true
			return in.Value
		}
	}
	if a.err == nil {
		a.err = fmt.Errorf("check %s: relation %q needs input %q", a.row.ID, a.row.Relation, name)
	}
	return math.NaN()
}

// Has reports whether an optional input is present.
func (a *Args) Has(name string) bool {
	for _, in := range a.row.Inputs {
		if in.Name == name {
			a.used[name] = true
			return true
		}
	}
	return false
}

// A Func computes the named outputs of a relation from a row's inputs, by
// calling the room's own function: it holds no equation itself.
type Func func(*Args) (map[string]float64, error)

// A Relation is a checkable relation of a room.
type Relation struct {
	Name string
	Unit string // of the outputs, for the table
	Func Func
}

// An Outcome is one row worked through.
type Outcome struct {
	Row        Row
	Got        float64
	Difference float64
	Within     bool
	Err        error
}

// Run works every row through its relation. Rows of relations that are not
// registered give an outcome with an error: a check is never silently skipped.
func Run(rows []Row, relations []Relation) []Outcome {
	byName := make(map[string]Relation, len(relations))
	for _, r := range relations {
		byName[r.Name] = r
	}
	out := make([]Outcome, len(rows))
	for i := range rows {
		out[i] = run(rows[i], byName)
	}
	return out
}

func run(row Row, byName map[string]Relation) Outcome {
	o := Outcome{Row: row}
	rel, ok := byName[row.Relation]
	if !ok {
		o.Err = fmt.Errorf("check %s: no relation %q", row.ID, row.Relation)
		return o
	}
	args := &Args{row: &row, used: map[string]bool{}}
	got, err := rel.Func(args)
	switch {
	case args.err != nil:
		o.Err = args.err
		return o
	case err != nil:
		o.Err = fmt.Errorf("check %s: %w", row.ID, err)
		return o
	}
	for _, in := range row.Inputs {
		if !args.used[in.Name] {
			o.Err = fmt.Errorf("check %s: relation %q takes no input %q", row.ID, row.Relation, in.Name)
			return o
		}
	}
	v, ok := got[row.Output]
	if !ok {
		o.Err = fmt.Errorf("check %s: relation %q has no output %q", row.ID, row.Relation, row.Output)
		return o
	}
	o.Got, o.Difference = v, v-row.Want
	o.Within = math.Abs(o.Difference) <= row.Tolerance
	return o
}

// Columns is the header of a check file, tab separated.
const Columns = "id\trelation\tinputs\toutput\twant\ttolerance\twhy\tbasis\tsource\tlocator\tnote"

// Parse reads a check file: the header line of [Columns], then a row a line.
// Inputs are written name=value, separated by semicolons. Lines that begin
// with # are comments.
func Parse(name, text string) ([]Row, error) {
	var rows []Row
	seen := map[string]int{}
	header := false
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimRight(line, "\r")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if !header {
			if line != Columns {
				return nil, fmt.Errorf("%s:%d: header is %q, want %q", name, i+1, line, Columns)
			}
			header = true
			continue
		}
		row, err := parseRow(line)
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, i+1, err)
		}
		if at, dup := seen[row.ID]; dup {
			return nil, fmt.Errorf("%s:%d: id %q stands already in line %d", name, i+1, row.ID, at)
		}
		seen[row.ID] = i + 1
		rows = append(rows, row)
	}
	return rows, nil
}

func parseRow(line string) (Row, error) {
	f := strings.Split(line, "\t")
	if want := strings.Count(Columns, "\t") + 1; len(f) != want {
		return Row{}, fmt.Errorf("%d columns, want %d", len(f), want)
	}
	r := Row{ID: f[0], Relation: f[1], Output: f[3], Why: f[6], Basis: Basis(f[7]), Source: f[8], Locator: f[9], Note: f[10]}
	for _, part := range strings.Split(f[2], ";") {
		k, v, ok := strings.Cut(strings.TrimSpace(part), "=")
		x, err := finite(v)
		if !ok || err != nil || k == "" {
			return Row{}, fmt.Errorf("input %q: want name=number", part)
		}
		for _, in := range r.Inputs {
			if in.Name == k {
				return Row{}, fmt.Errorf("input %q stands twice", k)
			}
		}
		r.Inputs = append(r.Inputs, Input{k, x})
	}
	var err error
	if r.Want, err = finite(f[4]); err != nil {
		return Row{}, fmt.Errorf("want %q: not a number", f[4])
	}
	if r.Tolerance, err = finite(f[5]); err != nil || !(r.Tolerance > 0) {
		return Row{}, fmt.Errorf("tolerance %q: not a positive number", f[5])
	}
	switch {
	case r.ID == "" || r.Relation == "" || r.Output == "":
		return Row{}, fmt.Errorf("id, relation and output must be given")
	case r.Why == "":
		return Row{}, fmt.Errorf("row %s: say why the tolerance is what it is", r.ID)
	case r.Source == "":
		return Row{}, fmt.Errorf("row %s: source missing", r.ID)
	case r.Basis != Printed && r.Basis != Computed && r.Basis != Memory:
		return Row{}, fmt.Errorf("row %s: basis %q, want printed, computed or memory", r.ID, r.Basis)
	}
	return r, nil
}

// finite reads a number; NaN and infinities would make a check that cannot fail.
func finite(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		err = strconv.ErrRange
	}
	return v, err
}
