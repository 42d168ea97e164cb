package ask

import (
	"fmt"
	"io"
	"maps"
	"net/url"
	"os"
	"slices"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"
	"github.com/spf13/pflag"

	"mullwright/formulate/strict"
)

// A Field is one thing a maker may say: a flag on the command line, a key in a
// formula file, a field of a form. Exactly one of One, Many and Yes is set.
type Field struct {
	Name string
	Help string
	One  *string
	Many *[]string
	Yes  *bool
	// Either names a group of fields of which at most one may be given.
	Either string
	// Beside names the one field of the group that this one may stand beside: the
	// two settle a third thing between them.
	Beside string
	// FileOnly marks what the command line gives as arguments instead.
	FileOnly bool
}

func (f Field) set() bool {
	switch {
	case f.One != nil:
		return *f.One != ""
	case f.Many != nil:
		return len(*f.Many) > 0
	}
	return *f.Yes
}

func (f Field) clear() {
	switch {
	case f.One != nil:
		*f.One = ""
	case f.Many != nil:
		*f.Many = nil
	default:
		*f.Yes = false
	}
}

func (f Field) copyFrom(g Field) {
	switch {
	case f.One != nil:
		*f.One = *g.One
	case f.Many != nil:
		*f.Many = append([]string(nil), *g.Many...)
	default:
		*f.Yes = *g.Yes
	}
}

// A FieldError says which field is at fault; Err says what is wrong with it and
// what would be accepted.
type FieldError struct {
	Field string
	Err   error
}

func (e *FieldError) Error() string { return fmt.Sprintf("%s: %v", e.Field, e.Err) }
func (e *FieldError) Unwrap() error { return e.Err }

func at(field string, err error) error {
	if err == nil {
		return nil
	}
	return &FieldError{Field: field, Err: err}
}

// BindFlags makes a flag of every field that the command line gives as one.
func BindFlags(fs *pflag.FlagSet, fields []Field) {
	for _, f := range fields {
		switch {
		case f.FileOnly:
		case f.One != nil:
			fs.Var((*text)(f.One), f.Name, f.Help)
		case f.Many != nil:
			fs.Var((*texts)(f.Many), f.Name, f.Help)
		default:
			fs.BoolVar(f.Yes, f.Name, false, f.Help)
		}
	}
}

// text and texts are flags of words: one, or one for each time the flag is given.
type (
	text  string
	texts []string
)

func (t *text) String() string     { return string(*t) }
func (t *text) Set(s string) error { *t = text(s); return nil }
func (t *text) Type() string       { return "text" }

func (t *texts) String() string     { return strings.Join(*t, " ") }
func (t *texts) Set(s string) error { *t = append(*t, s); return nil }
func (t *texts) Type() string       { return "text..." }

// beside reports whether two fields of a group may stand together.
func (f Field) beside(g Field) bool {
	return f.Beside != "" && f.Beside == g.Name || g.Beside != "" && g.Beside == f.Name
}

// Conflicts returns an error where two fields of one group are given that do not
// go together.
func Conflicts(fields []Field) error {
	groups := map[string][]Field{}
	for _, f := range fields {
		if f.Either != "" && f.set() {
			groups[f.Either] = append(groups[f.Either], f)
		}
	}
	for _, g := range slices.Sorted(maps.Keys(groups)) {
		given := groups[g]
		if len(given) < 2 || len(given) == 2 && given[0].beside(given[1]) {
			continue
		}
		var names []string
		for _, f := range given {
			names = append(names, "--"+f.Name)
		}
		return fmt.Errorf("%s are given together; give one %s", strings.Join(names, " and "), g)
	}
	return nil
}

// Override lays what was given over a base: a field that is given replaces the
// base's, and clears the others of its group there.
func Override(base, given []Field) {
	for i, g := range given {
		if !g.set() {
			continue
		}
		if g.Either != "" {
			for j, b := range base {
				if b.Either == g.Either && !(b.beside(g) && given[j].set()) {
					b.clear()
				}
			}
		}
		base[i].copyFrom(g)
	}
}

// Load fills fields from the table of a formula file. Every fault is reported.
func Load(file, text, table string, fields []Field) error {
	var top map[string]any
	if err := strict.Decode(file, text, &top); err != nil {
		return err
	}
	var faults strict.Faults
	fault := func(what string, key ...string) {
		if faults.Enough() {
			return
		}
		faults = append(faults, strict.Fault{File: file, Line: strict.LineOf(text, key...), Key: strings.Join(key, "."), What: what})
	}
	for _, k := range sortedKeys(top) {
		if k != table {
			fault(fmt.Sprintf("unknown table; this file should hold [%s]", table), k)
		}
	}
	body, ok := top[table].(map[string]any)
	if !ok {
		if len(faults) == 0 {
			fault(fmt.Sprintf("no [%s] table in it", table))
		}
		return faults
	}
	byName := map[string]Field{}
	var names []string
	for _, f := range fields {
		byName[f.Name] = f
		names = append(names, f.Name)
	}
	for _, k := range sortedKeys(body) {
		f, ok := byName[k]
		if !ok {
			fault("unknown key; accepted: "+strings.Join(names, ", "), table, k)
			continue
		}
		if err := f.fill(body[k]); err != nil {
			fault(err.Error(), table, k)
		}
	}
	sort.SliceStable(faults, func(i, j int) bool { return faults[i].Line < faults[j].Line })
	return faults.Err()
}

func (f Field) fill(v any) error {
	switch {
	case f.Many != nil:
		if s, ok := v.(string); ok {
			*f.Many = []string{s}
			return nil
		}
		list, ok := v.([]any)
		if !ok {
			return fmt.Errorf("want text or a list of texts")
		}
		*f.Many = nil
		for _, x := range list {
			s, ok := x.(string)
			if !ok {
				return fmt.Errorf("want a list of texts, found %v", x)
			}
			*f.Many = append(*f.Many, s)
		}
	case f.One != nil:
		s, ok := v.(string)
		if !ok {
			return fmt.Errorf("want text in quotes, such as %q", fmt.Sprint(v))
		}
		*f.One = s
	default:
		b, ok := v.(bool)
		if !ok {
			return fmt.Errorf("want true or false")
		}
		*f.Yes = b
	}
	return nil
}

// Save prints the given fields as a formula file.
func Save(table string, fields []Field) (string, error) {
	var b strings.Builder
	fmt.Fprintf(&b, "[%s]\n", table)
	e := toml.NewEncoder(&b)
	for _, f := range fields {
		if !f.set() {
			continue
		}
		var v any
		switch {
		case f.One != nil:
			v = *f.One
		case f.Many != nil:
			v = *f.Many
		default:
			v = *f.Yes
		}
		if err := e.Encode(map[string]any{f.Name: v}); err != nil {
			return "", err
		}
	}
	return b.String(), nil
}

// Form fills fields from a submitted form. A field not in the form is left.
func Form(values url.Values, fields []Field) {
	for _, f := range fields {
		got, ok := values[f.Name]
		if !ok {
			continue
		}
		switch {
		case f.One != nil:
			*f.One = strings.TrimSpace(got[len(got)-1])
		case f.Many != nil:
			*f.Many = nil
			for _, s := range got {
				if s = strings.TrimSpace(s); s != "" {
					*f.Many = append(*f.Many, s)
				}
			}
		default:
			*f.Yes = got[len(got)-1] != "" && got[len(got)-1] != "false"
		}
	}
}

// Values is the form that Form reads back.
func Values(fields []Field) url.Values {
	v := url.Values{}
	for _, f := range fields {
		if !f.set() {
			continue
		}
		switch {
		case f.One != nil:
			v.Set(f.Name, *f.One)
		case f.Many != nil:
			v[f.Name] = append([]string(nil), *f.Many...)
		default:
			v.Set(f.Name, "true")
		}
	}
	return v
}

func sortedKeys(m map[string]any) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// ReadFile reads a maker's file of at most a megabyte. Its size is that of what
// is read: a pipe or a device does not tell one.
func ReadFile(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", plain(path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return "", plain(path, err)
	}
	if info.IsDir() {
		return "", fmt.Errorf("%s is a folder, not a file", path)
	}
	b, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err != nil {
		return "", plain(path, err)
	}
	if len(b) > maxFile {
		return "", fmt.Errorf("%s is larger than a megabyte", path)
	}
	return string(b), nil
}

const maxFile = 1 << 20

func plain(path string, err error) error {
	if os.IsNotExist(err) {
		return fmt.Errorf("%s: no such file", path)
	}
	return err
}
