package shelf

import (
	"fmt"
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/strict"
)

// A file holds entries under the name of its table, and sources.
type (
	pigmentFile struct {
		Entries map[string]*material.Material `toml:"pigment"`
		Sources map[string]material.Source    `toml:"source"`
	}
	mediumFile struct {
		Entries map[string]*material.Material `toml:"medium"`
		Sources map[string]material.Source    `toml:"source"`
	}
)

// contents is a decoded file: its entries, its sources and, for each entry,
// the fields that the file gives.
type contents struct {
	entries map[string]*material.Material
	sources map[string]material.Source
	given   map[string][]string
}

func readFile(table, file, text string) (contents, error) {
	var (
		out  contents
		keys [][]string
		err  error
	)
	if table == "medium" {
		var f mediumFile
		keys, err = strict.DecodeKeys(file, text, &f, "pigment")
		out.entries, out.sources = f.Entries, f.Sources
	} else {
		var f pigmentFile
		keys, err = strict.DecodeKeys(file, text, &f, "medium")
		out.entries, out.sources = f.Entries, f.Sources
	}
	if err != nil {
		return contents{}, err
	}
	out.given = map[string][]string{}
	for _, key := range keys {
		if len(key) >= 3 && key[0] == table && !slices.Contains(out.given[key[1]], key[2]) {
			out.given[key[1]] = append(out.given[key[1]], key[2])
		}
	}
	for id, m := range out.entries {
		m.ID = id
	}
	for key, src := range out.sources {
		src.Key = key
		out.sources[key] = src
	}
	return out, nil
}

// readEntry decodes the file of one shipped entry.
func readEntry(table string, files fs.FS, id string) (*material.Material, error) {
	name := id + entrySuffix
	text, err := fs.ReadFile(files, name)
	if err != nil {
		return nil, err
	}
	c, err := readFile(table, name, string(text))
	if err != nil {
		return nil, err
	}
	m := c.entries[id]
	if m == nil || len(c.entries) != 1 || len(c.sources) != 0 {
		return nil, strict.Faults{{File: name, What: fmt.Sprintf("one table, [%s.%s], is expected", table, id)}}
	}
	return m, nil
}

// readSources decodes a text of [source.key] tables.
func readSources(file, text string) (map[string]material.Source, strict.Faults, error) {
	c, err := readFile("pigment", file, text)
	if err != nil {
		return nil, nil, err
	}
	return c.sources, sourceFaults(file, text, c.sources), nil
}

// sourceFaults checks that every source can be cited.
func sourceFaults(file, text string, sources map[string]material.Source) strict.Faults {
	var faults strict.Faults
	for _, key := range slices.Sorted(maps.Keys(sources)) {
		src := sources[key]
		fault := func(what string) {
			if faults.Enough() {
				return
			}
			faults = append(faults, strict.Fault{File: file, Line: strict.LineOf(text, "source", key), Key: "source." + key, What: what})
		}
		if !material.IsID(key) {
			fault(fmt.Sprintf("%q is not a key: use a to z, 0 to 9 and single hyphens", key))
		}
		if src.Author == "" || src.Title == "" || src.Year == "" {
			fault("author, title and year are needed; write \"n.d.\" for a source without a date")
		}
	}
	return faults
}

// merge returns a copy of an entry with the given fields taken from change.
func merge(base, change *material.Material, given []string) *material.Material {
	out := *base
	to, from := reflect.ValueOf(&out).Elem(), reflect.ValueOf(change).Elem()
	for i := range to.NumField() {
		key, _, _ := strings.Cut(to.Type().Field(i).Tag.Get("toml"), ",")
		if key != "-" && slices.Contains(given, key) {
			to.Field(i).Set(from.Field(i))
		}
	}
	out.Overrides = append(slices.Clone(base.Overrides), given...)
	slices.Sort(out.Overrides)
	out.Overrides = slices.Compact(out.Overrides)
	return &out
}

// entryFaults checks one entry and says where in its file each problem stands.
func (s *Shelf) entryFaults(file, text string, m *material.Material, sourceKnown func(string) bool) strict.Faults {
	var faults strict.Faults
	add := func(element int, what string, key ...string) {
		if faults.Enough() {
			return
		}
		path := append([]string{s.table, m.ID}, key...)
		line := strict.LineOfElement(text, element, path...)
		if line == 0 {
			line = strict.LineOf(text, s.table, m.ID)
		}
		faults = append(faults, strict.Fault{File: file, Line: line, Key: strings.Join(path, "."), What: what})
	}
	for _, p := range material.Validate(m, sourceKnown) {
		var key []string
		if p.Field != "" {
			key = strings.Split(p.Field, ".")
		}
		if p.Key != "" {
			key = append(key, p.Key)
		}
		add(p.Element, p.What, key...)
	}
	if m.Kind != "" && m.Kind.IsPigment() != (s.table == "pigment") {
		add(-1, fmt.Sprintf("the kind %q does not belong in a [%s] table", m.Kind, s.table), "kind")
	}
	for i, part := range m.Parts {
		if _, ok := s.entries[part.ID]; !ok {
			add(i, fmt.Sprintf("part %q is not an entry", part.ID), "parts")
		}
	}
	return faults
}
