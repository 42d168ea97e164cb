package shelf

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"sort"

	"mullwright/formulate/material"
	"mullwright/formulate/strict"
)

// Add takes a file of the maker's own: new entries, changed fields of entries
// already on the shelf, and sources. Every fault is reported, as
// [strict.Faults], and a file with a fault changes nothing. A table of the
// other catalogue is left for the other shelf, which takes the same file; both
// read its sources.
func (s *Shelf) Add(file, text string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.open(); err != nil {
		return err
	}
	if err := s.cut(); err != nil {
		return err
	}
	c, err := readFile(s.table, file, text)
	if err != nil {
		return err
	}
	faults := sourceFaults(file, text, c.sources)
	known := func(key string) bool {
		_, own := c.sources[key]
		return own || s.knows(key)
	}

	// The shelf as it would be, to be undone if anything is wrong.
	before := s.snapshot()
	ids := slices.Sorted(maps.Keys(c.entries))
	merged := map[string]*material.Material{}
	var fresh []string // ids that are new to the shelf
	for _, id := range ids {
		m := c.entries[id]
		if _, ok := s.entries[id]; ok {
			base, err := s.get(id)
			if err != nil {
				return err
			}
			m = merge(base, m, c.given[id])
		} else {
			m.Own = true
			fresh = append(fresh, id)
		}
		merged[id] = m
	}
	// Known entries keep their names before a new one: the newcomer is at fault.
	changed := slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return slices.Contains(fresh, id) })
	for _, id := range changed {
		s.leave(id)
	}
	for _, id := range slices.Concat(changed, fresh) {
		if faults.Enough() {
			break
		}
		e := entryOf(merged[id])
		faults = append(faults, s.nameFaults(file, text, e)...)
		s.enter(e)
	}
	for _, id := range ids {
		if faults.Enough() {
			break
		}
		faults = append(faults, s.entryFaults(file, text, merged[id], known)...)
	}
	if len(faults) > 0 {
		s.restore(before)
		sort.SliceStable(faults, func(i, j int) bool { return faults[i].Line < faults[j].Line })
		return faults
	}
	maps.Copy(s.own, merged)
	maps.Copy(s.sources, c.sources)
	return nil
}

// names is the part of a shelf that entering an entry changes.
type names struct {
	entries map[string]Entry
	plain   map[string]string
	indexed map[string][]string
}

func (s *Shelf) snapshot() names {
	return names{maps.Clone(s.entries), maps.Clone(s.plain), maps.Clone(s.indexed)}
}

func (s *Shelf) restore(n names) { s.entries, s.plain, s.indexed = n.entries, n.plain, n.indexed }

// nameFaults refuses a name that already means another entry.
func (s *Shelf) nameFaults(file, text string, e Entry) strict.Faults {
	var faults strict.Faults
	seen := map[string]bool{}
	for _, n := range e.plainNames() {
		if other, ok := s.plain[fold(n)]; ok && other != e.ID && !seen[fold(n)] {
			seen[fold(n)] = true
			faults = append(faults, strict.Fault{
				File: file, Line: strict.LineOf(text, s.table, e.ID), Key: s.table + "." + e.ID,
				What: fmt.Sprintf("the name %q already means %s; give it a name of its own", n, other),
			})
		}
	}
	return faults
}

// Check reads the whole catalogue as shipped and reports everything wrong with
// it: values, sources, names that two entries share, a stale index.
func (s *Shelf) Check() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.open(); err != nil {
		return err
	}
	if err := s.cut(); err != nil {
		return err
	}
	var faults strict.Faults
	text, err := fs.ReadFile(s.files, sourcesFile)
	if err != nil {
		return err
	}
	_, bad, err := readSources(sourcesFile, string(text))
	if err != nil {
		return err
	}
	faults = append(faults, bad...)
	seen := map[string]string{}
	for _, id := range s.ids() {
		text, err := fs.ReadFile(s.files, id+entrySuffix)
		if err != nil {
			return err
		}
		m, err := s.get(id)
		if err != nil {
			return err
		}
		e := entryOf(m)
		faults = append(faults, s.entryFaults(id+entrySuffix, string(text), m, s.knows)...)
		for _, n := range e.plainNames() {
			if other, ok := seen[fold(n)]; ok && other != id {
				faults = append(faults, strict.Fault{File: id + entrySuffix, What: fmt.Sprintf("the name %q also means %s", n, other)})
			}
			seen[fold(n)] = id
		}
	}
	index, err := fs.ReadFile(s.files, indexFile)
	if err != nil {
		return err
	}
	fresh, err := BuildIndex(s.table, s.files)
	if err != nil {
		return err
	}
	if string(index) != fresh {
		faults = append(faults, strict.Fault{File: indexFile, What: "it does not match the entries; make it anew"})
	}
	return faults.Err()
}
