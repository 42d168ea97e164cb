// Package strict reads TOML so that nothing in a file is ignored: unknown keys
// are faults, keys must be spelled in their own case, and every fault found is
// reported with file, line and key. It is a leaf that only the catalogues and
// the program's own files use; no calculation imports it.
package strict

import (
	"errors"
	"fmt"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"
)

// A Fault is one thing wrong with a file.
type Fault struct {
	File string
	Line int    // 0 where it is not known
	Key  string // dotted, "" where it is not known
	What string // what was wrong and what would be accepted
}

func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d", f.Line)
	}
	b.WriteString(": ")
	if f.Key != "" {
		fmt.Fprintf(&b, "%s: ", f.Key)
	}
	b.WriteString(f.What)
	return b.String()
}

// Faults is every fault of a file, first to last.
type Faults []Fault

func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, x := range f {
		lines[i] = x.Error()
	}
	if f.Enough() {
		lines = append(lines, fmt.Sprintf("there may be more; mend these %d first", len(f)))
	}
	return strings.Join(lines, "\n")
}

// mostFaults is how many faults of a file are looked for. The line of each takes
// a look through the whole file, and whoever has so many mends these first.
const mostFaults = 100

// Enough reports whether so many faults were found that no more need be.
func (f Faults) Enough() bool { return len(f) >= mostFaults }

// Err returns the faults as an error, or nil where there are none.
func (f Faults) Err() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// Decode reads text into target, a pointer to a struct whose fields all have
// toml tags. elsewhere names top-level tables that belong
// to another reader of the same file and are left alone here.
func Decode(file, text string, target any, elsewhere ...string) error {
	_, err := DecodeKeys(file, text, target, elsewhere...)
	return err
}

// DecodeKeys is Decode, and returns every key of the text in its order.
func DecodeKeys(file, text string, target any, elsewhere ...string) ([][]string, error) {
	meta, err := toml.Decode(text, target)
	if err != nil {
		if faults := collect(file, text, target, elsewhere); len(faults) > 0 {
			return nil, faults
		}
		return nil, Faults{syntax(file, text, err)}
	}
	var faults Faults
	undecoded := meta.Undecoded()
	if _, all := target.(*map[string]any); all {
		undecoded = nil // the caller gets every key and judges it
	}
	unknown := map[string]bool{}
	for _, key := range undecoded {
		if faults.Enough() {
			break
		}
		if len(key) > 0 && contains(elsewhere, key[0]) || within(key, unknown) {
			continue
		}
		unknown[key.String()] = true
		faults = append(faults, Fault{File: file, Line: LineOf(text, key...), Key: key.String(), What: "unknown key"})
	}
	keys := make([][]string, 0, len(meta.Keys()))
	for _, key := range meta.Keys() {
		keys = append(keys, key)
		if len(key) > 0 && contains(elsewhere, key[0]) {
			continue
		}
		// The decoder matches keys whatever their case; ours are lower case.
		if last := key[len(key)-1]; last != strings.ToLower(last) && !freeKey(key) && !faults.Enough() {
			faults = append(faults, Fault{File: file, Line: LineOf(text, key...), Key: key.String(), What: fmt.Sprintf("keys are written in lower case: %q", strings.ToLower(last))})
		}
	}
	sort.SliceStable(faults, func(i, j int) bool { return faults[i].Line < faults[j].Line })
	return keys, faults.Err()
}

// within reports whether a key stands in a table that is unknown already.
func within(key toml.Key, unknown map[string]bool) bool {
	for n := 1; n < len(key); n++ {
		if unknown[key[:n].String()] {
			return true
		}
	}
	return false
}

// freeKey reports whether the last part of a key is a name of the maker's own
// choosing, such as the id in [pigment.id].
func freeKey(key toml.Key) bool { return len(key) == 2 }

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func syntax(file, text string, err error) Fault {
	var pe toml.ParseError
	if errors.As(err, &pe) {
		what := pe.Message
		if what == "" {
			what = strings.TrimPrefix(pe.Error(), "toml: ")
		}
		if inner := errors.Unwrap(pe); inner != nil {
			what = inner.Error()
		}
		return Fault{File: file, Line: pe.Position.Line, Key: pe.LastKey, What: what}
	}
	return Fault{File: file, What: strings.TrimPrefix(err.Error(), "toml: ")}
}

// LineOf finds the line on which a dotted key is written, 0 where it cannot be
// told. It reads table headers and "key =" lines; that is enough for messages.
func LineOf(text string, key ...string) int {
	if len(key) == 0 {
		return 0
	}
	table, best := "", 0
	full := strings.Join(key, ".")
	for i, line := range strings.Split(text, "\n") {
		t := strings.TrimSpace(line)
		if strings.HasPrefix(t, "[") {
			table = strings.Trim(strings.SplitN(t, "]", 2)[0], "[] ")
			if table == full {
				best = i + 1
			}
			continue
		}
		name, _, ok := strings.Cut(t, "=")
		if !ok {
			continue
		}
		name = strings.TrimSpace(name)
		here := name
		if table != "" {
			here = table + "." + name
		}
		if here == full {
			return i + 1
		}
		// A key inside an inline table stands on its owner's line or below it.
		if strings.HasPrefix(full, here+".") {
			best = i + 1
		}
		if last := key[len(key)-1]; best > 0 && strings.Contains(t, last+" =") && strings.HasPrefix(full, table) {
			return i + 1
		}
	}
	return best
}
