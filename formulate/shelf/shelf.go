package shelf

import (
	"io/fs"
	"maps"
	"slices"
	"strings"
	"sync"

	"mullwright/formulate/material"
)

// A Shelf is one catalogue with the maker's own additions. It reads nothing
// until asked, each thing once, and is safe for concurrent use. The materials
// it hands out are shared: they are read, never changed.
type Shelf struct {
	table string
	files fs.FS

	mu      sync.Mutex
	opened  bool
	openErr error
	entries map[string]Entry              // by id
	plain   map[string]string             // folded id, name or synonym -> id
	indexed map[string][]string           // folded Colour Index name or number -> ids
	read    map[string]*material.Material // as shipped, by id
	own     map[string]*material.Material // the maker's entries and changed entries, by id
	chunks  map[string]string             // source key -> its table's text
	sources map[string]material.Source    // decoded, and the maker's own
}

// New returns the shelf of a catalogue folder. table is "pigment" or "medium".
func New(table string, files fs.FS) *Shelf {
	return &Shelf{table: table, files: files}
}

// open reads the index, once. The lock is held.
func (s *Shelf) open() error {
	if s.opened {
		return s.openErr
	}
	s.opened = true
	s.read = map[string]*material.Material{}
	s.own = map[string]*material.Material{}
	text, err := fs.ReadFile(s.files, indexFile)
	if err != nil {
		s.openErr = err
		return err
	}
	entries, err := parseIndex(string(text))
	if err != nil {
		s.openErr = err
		return err
	}
	s.entries = make(map[string]Entry, len(entries))
	s.plain = make(map[string]string, 4*len(entries))
	s.indexed = make(map[string][]string, 2*len(entries))
	for _, e := range entries {
		s.enter(e)
	}
	return nil
}

// enter puts an entry's names on the shelf.
func (s *Shelf) enter(e Entry) {
	s.entries[e.ID] = e
	for _, n := range e.plainNames() {
		s.plain[fold(n)] = e.ID
	}
	for _, n := range e.indexNames() {
		f := fold(n)
		if !slices.Contains(s.indexed[f], e.ID) {
			s.indexed[f] = append(slices.Clone(s.indexed[f]), e.ID)
			slices.Sort(s.indexed[f])
		}
	}
}

// leave takes an entry's names off the shelf.
func (s *Shelf) leave(id string) {
	e, ok := s.entries[id]
	if !ok {
		return
	}
	for _, n := range e.plainNames() {
		if f := fold(n); s.plain[f] == id {
			delete(s.plain, f)
		}
	}
	for _, n := range e.indexNames() {
		f := fold(n)
		s.indexed[f] = slices.DeleteFunc(slices.Clone(s.indexed[f]), func(x string) bool { return x == id })
	}
	delete(s.entries, id)
}

// Lookup finds one entry by any of its names, or by the beginning of one where no
// other entry has a name that begins so. The error is an [*UnknownError]
// or an [*AmbiguousError] where the name is at fault.
func (s *Shelf) Lookup(name string) (*material.Material, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	id, err := s.find(name)
	if err != nil {
		return nil, err
	}
	return s.get(id)
}

// find turns a name into an id. The lock is held.
func (s *Shelf) find(name string) (string, error) {
	if err := s.open(); err != nil {
		return "", err
	}
	wanted := fold(name)
	if id, ok := s.plain[wanted]; ok {
		return id, nil
	}
	switch ids := s.indexed[wanted]; len(ids) {
	case 0:
	case 1:
		return ids[0], nil
	default:
		return "", &AmbiguousError{Table: s.table, Name: name, Candidates: slices.Clone(ids)}
	}
	var all []Match
	begins := map[string]bool{} // entries one of whose names begins so
	for _, id := range s.ids() {
		e := s.entries[id]
		for _, n := range e.plainNames() {
			if len(wanted) >= shortestBeginning && strings.HasPrefix(fold(n), wanted) {
				begins[id] = true
			}
		}
		for _, n := range append(e.plainNames(), e.indexNames()...) {
			all = append(all, Match{id, n})
		}
	}
	if len(begins) == 1 {
		for id := range begins {
			return id, nil
		}
	}
	return "", &UnknownError{Table: s.table, Name: name, Closest: closest(wanted, all, 5)}
}

// shortestBeginning is how many letters of a name must be given for the rest to
// be left out, where only one entry begins so: walnut, cerulean.
const shortestBeginning = 5

// get decodes an entry, once. The lock is held.
func (s *Shelf) get(id string) (*material.Material, error) {
	if m, ok := s.own[id]; ok {
		return m, nil
	}
	if m, ok := s.read[id]; ok {
		return m, nil
	}
	m, err := readEntry(s.table, s.files, id)
	if err != nil {
		return nil, err
	}
	s.read[id] = m
	return m, nil
}

// IDs lists every entry, sorted, without opening one. It is empty where the
// index cannot be read; Lookup and All say why.
func (s *Shelf) IDs() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.open() != nil {
		return nil
	}
	return s.ids()
}

func (s *Shelf) ids() []string { return slices.Sorted(maps.Keys(s.entries)) }

// Entries lists what the index says of every entry, sorted by id.
func (s *Shelf) Entries() ([]Entry, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.open(); err != nil {
		return nil, err
	}
	var out []Entry
	for _, id := range s.ids() {
		out = append(out, s.entries[id])
	}
	return out, nil
}

// All decodes every entry, sorted by id.
func (s *Shelf) All() ([]*material.Material, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.open(); err != nil {
		return nil, err
	}
	var out []*material.Material
	for _, id := range s.ids() {
		m, err := s.get(id)
		if err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	return out, nil
}

// Source finds a publication by its key. The marks that stand for the lack of
// one ([material.FromMemory] and so on) are not publications.
func (s *Shelf) Source(key string) (material.Source, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if src, ok := s.sources[key]; ok {
		return src, true
	}
	if s.cut() != nil {
		return material.Source{}, false
	}
	text, ok := s.chunks[key]
	if !ok {
		return material.Source{}, false
	}
	decoded, _, err := readSources(sourcesFile, text)
	if err != nil {
		return material.Source{}, false
	}
	s.sources[key] = decoded[key]
	return decoded[key], true
}

// knows reports whether a source key is listed. The lock is held.
func (s *Shelf) knows(key string) bool {
	if _, ok := s.sources[key]; ok {
		return true
	}
	if s.cut() != nil {
		return false
	}
	_, ok := s.chunks[key]
	return ok
}

// cut splits the sources into their tables, once. The lock is held.
func (s *Shelf) cut() error {
	if s.chunks != nil {
		return nil
	}
	if s.sources == nil {
		s.sources = map[string]material.Source{}
	}
	text, err := fs.ReadFile(s.files, sourcesFile)
	if err != nil {
		return err
	}
	s.chunks = cutSources(string(text))
	return nil
}

// cutSources splits a text of [source.key] tables on its header lines.
func cutSources(text string) map[string]string {
	chunks := map[string]string{}
	key, start := "", 0
	keep := func(end int) {
		if key != "" {
			chunks[key] = text[start:end]
		}
	}
	for at := 0; at < len(text); {
		end := strings.IndexByte(text[at:], '\n')
		if end < 0 {
			end = len(text) - at - 1
		}
		line := strings.TrimSpace(text[at : at+end+1])
		if inner, ok := strings.CutPrefix(line, "[source."); ok && strings.HasSuffix(inner, "]") {
			keep(at)
			key, start = strings.TrimSuffix(inner, "]"), at
		}
		at += end + 1
	}
	keep(len(text))
	return chunks
}
