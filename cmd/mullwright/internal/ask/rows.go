package ask

import (
	"fmt"
	"strings"

	"mullwright/formulate"
)

// Rows reads mulls from the rows of a table whose header names the fields of a
// [Mull]. Lists are separated by semicolons. It is for one goroutine.
type Rows struct {
	workshop *Workshop
	columns  []func(string)
	mull     Mull
	id       string
	request  formulate.MullRequest
	known    *memo
}

// NewRows reads a header.
func NewRows(w *Workshop, header []string) (*Rows, error) {
	r := &Rows{workshop: w, known: newMemo()}
	byName := map[string]Field{}
	names := []string{"id"}
	for _, f := range r.mull.Fields() {
		byName[f.Name] = f
		names = append(names, f.Name)
	}
	seen := map[string]bool{}
	for _, h := range header {
		name := strings.ToLower(strings.TrimSpace(h))
		if name == "pigment" {
			name = "pigments"
		}
		if seen[name] {
			return nil, fmt.Errorf("column %q stands twice in the header", h)
		}
		seen[name] = true
		f, ok := byName[name]
		switch {
		case name == "id":
			r.columns = append(r.columns, func(s string) { r.id = s })
		case !ok:
			return nil, fmt.Errorf("unknown column %q; accepted: %s", h, strings.Join(names, ", "))
		case f.One != nil:
			to := f.One
			r.columns = append(r.columns, func(s string) { *to = s })
		case f.Many != nil:
			to := f.Many
			r.columns = append(r.columns, func(s string) { *to = splitList((*to)[:0], s) })
		default:
			to := f.Yes
			r.columns = append(r.columns, func(s string) { *to = s == "true" || s == "yes" })
		}
	}
	if !seen["pigments"] {
		return nil, fmt.Errorf("the header has no column \"pigments\"; accepted: %s", strings.Join(names, ", "))
	}
	return r, nil
}

func splitList(to []string, s string) []string {
	for s != "" {
		var item string
		item, s, _ = strings.Cut(s, ";")
		if item = strings.TrimSpace(item); item != "" {
			to = append(to, item)
		}
	}
	return to
}

// Read turns one row into a request, which holds until the next Read.
func (r *Rows) Read(record []string) (id string, req *formulate.MullRequest, err error) {
	r.id = ""
	if len(record) != len(r.columns) {
		return "", nil, fmt.Errorf("%d columns, the header has %d", len(record), len(r.columns))
	}
	for i, set := range r.columns {
		set(record[i])
	}
	err = r.mull.fill(&r.request, r.workshop, r.known)
	return r.id, &r.request, err
}
