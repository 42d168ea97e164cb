package shelf

import (
	"fmt"
	"io/fs"
	"slices"
	"sort"
	"strings"

	"mullwright/formulate/material"
)

const (
	indexFile   = "index.tsv"
	sourcesFile = "sources.toml"
	entrySuffix = ".toml"
)

// An Entry is what the index knows without opening an entry's file.
type Entry struct {
	ID       string
	Kind     material.Kind
	Family   string
	Tags     []string
	CIName   string
	CINumber string
	Name     string
	Synonyms []string
}

// Holds reports whether every word of a query stands in a name, synonym, Colour
// Index name, family, kind or tag, whatever the case.
func (e Entry) Holds(query string) bool {
	all := append([]string{e.ID, e.Name, e.CIName, e.CINumber, e.Family, string(e.Kind)}, e.Synonyms...)
	text := strings.ToLower(strings.Join(append(all, e.Tags...), "\n"))
	for _, word := range strings.Fields(strings.ToLower(query)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// OfFamily reports whether the entry is of a family, by its own or by a tag.
func (e Entry) OfFamily(family string) bool {
	return slices.ContainsFunc(append([]string{e.Family}, e.Tags...), func(f string) bool { return strings.EqualFold(f, family) })
}

var indexColumns = []string{"id", "kind", "family", "tags", "ci-name", "ci-number", "name", "synonyms"}

// entryOf takes from a material what the index holds.
func entryOf(m *material.Material) Entry {
	return Entry{m.ID, m.Kind, m.Family, m.Tags, m.CIName, m.CINumber, m.Name, m.Synonyms}
}

func (e *Entry) line() string {
	return strings.Join([]string{
		e.ID, string(e.Kind), e.Family, strings.Join(e.Tags, "; "), e.CIName, e.CINumber, e.Name, strings.Join(e.Synonyms, "; "),
	}, "\t")
}

// plainNames are the id, name and synonyms; each belongs to one entry alone.
func (e *Entry) plainNames() []string {
	return append([]string{e.ID, e.Name}, e.Synonyms...)
}

// indexNames are the Colour Index name and number, which entries may share.
func (e *Entry) indexNames() []string {
	var out []string
	for _, n := range []string{e.CIName, e.CINumber} {
		if n != "" {
			out = append(out, n)
		}
	}
	return out
}

// BuildIndex reads every entry of a catalogue folder and writes its index.
func BuildIndex(table string, files fs.FS) (string, error) {
	names, err := fs.Glob(files, "*"+entrySuffix)
	if err != nil {
		return "", err
	}
	sort.Strings(names)
	var b strings.Builder
	b.WriteString(strings.Join(indexColumns, "\t") + "\n")
	for _, name := range names {
		if name == sourcesFile {
			continue
		}
		m, err := readEntry(table, files, strings.TrimSuffix(name, entrySuffix))
		if err != nil {
			return "", err
		}
		e := entryOf(m)
		b.WriteString(e.line() + "\n")
	}
	return b.String(), nil
}

// parseIndex reads the text of an index.
func parseIndex(text string) ([]Entry, error) {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if lines[0] != strings.Join(indexColumns, "\t") {
		return nil, fmt.Errorf("%s:1: the columns are not %s", indexFile, strings.Join(indexColumns, ", "))
	}
	entries := make([]Entry, 0, len(lines)-1)
	for i, line := range lines[1:] {
		f := strings.Split(line, "\t")
		if len(f) != len(indexColumns) {
			return nil, fmt.Errorf("%s:%d: %d columns, expected %d", indexFile, i+2, len(f), len(indexColumns))
		}
		entries = append(entries, Entry{f[0], material.Kind(f[1]), f[2], splitList(f[3]), f[4], f[5], f[6], splitList(f[7])})
	}
	return entries, nil
}

func splitList(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "; ")
}
