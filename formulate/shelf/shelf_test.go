package shelf

import (
	"errors"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"mullwright/formulate/material"
	"mullwright/formulate/strict"
)

// A catalogue of invented entries.
func testFiles(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{
		"sources.toml": {Data: []byte(`# Publications.
[source.book-one]
author = "Author, A."
title = "First [book]"
year = "1901"

[source.book-two]
author = "Author, B."
title = "Second book"
year = "1942"
locator = "p. 5"
`)},
		"moor-brown.toml": {Data: []byte(`[pigment.moor-brown]
name = "Moor brown"
synonyms = ["Bog brown", "Brun de tourbière"]
kind = "pigment"
family = "brown"
ci-name = "PBr7"
ci-number = "77492"
density = [
  {value = "3.1 g/ml", source = "book-one", at = "p. 3"},
  {low = "3.0 g/ml", high = "3.4 g/ml", source = "book-two"},
]
oil-absorption = [
  {value = "60 g/100g", method = "unstated", source = "book-one"},
  {volume = "60 ml/100g", method = "rub-out", source = "book-two"},
]
`)},
		"hill-brown.toml": {Data: []byte(`[pigment.hill-brown]
name = "Hill brown"
kind = "pigment"
family = "brown"
ci-name = "PBr7"
ci-number = "77491"
density = [{value = "3.3 g/ml", source = "book-one"}]
`)},
		"loch-blue.toml": {Data: []byte(`[pigment.loch-blue]
name = "Loch blue"
kind = "pigment"
family = "blue"
ci-name = "PB99"
classes = ["sulphide"]
density = [{value = "2.3 g/ml", source = "book-two"}]
`)},
	}
	index, err := BuildIndex("pigment", files)
	if err != nil {
		t.Fatal(err)
	}
	files["index.tsv"] = &fstest.MapFile{Data: []byte(index)}
	return files
}

func TestLookupByAnyName(t *testing.T) {
	s := New("pigment", testFiles(t))
	for _, name := range []string{
		"moor-brown", "Moor Brown", " MOOR  brown ", "bog brown", "brun de tourbiere", "BRUN DE TOURBIÈRE", "77492", "CI 77492", "C.I. 77492",
	} {
		m, err := s.Lookup(name)
		if err != nil || m.ID != "moor-brown" {
			t.Errorf("Lookup(%q) = %v, %v; want moor-brown", name, m, err)
		}
	}
	for _, name := range []string{"PB99", "pb 99", "Pigment Blue 99", "C.I. Pigment Blue 99", "CI PB99", "pigment-blue-99"} {
		m, err := s.Lookup(name)
		if err != nil || m.ID != "loch-blue" {
			t.Errorf("Lookup(%q) = %v, %v; want loch-blue", name, m, err)
		}
	}
}

func TestLookupSharedColourIndexName(t *testing.T) {
	_, err := New("pigment", testFiles(t)).Lookup("Pigment Brown 7")
	var ambiguous *AmbiguousError
	if !errors.As(err, &ambiguous) {
		t.Fatalf("got %v, want an AmbiguousError", err)
	}
	if diff := cmp.Diff([]string{"hill-brown", "moor-brown"}, ambiguous.Candidates); diff != "" {
		t.Error(diff)
	}
	if got, want := err.Error(), `"Pigment Brown 7" fits several pigment entries; name one of: hill-brown, moor-brown`; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

func TestLookupUnknown(t *testing.T) {
	s := New("pigment", testFiles(t))
	for _, c := range []struct{ name, want string }{
		{"loch bleu", `no pigment is called "loch bleu"; closest: loch-blue`},
		{"bog brwon", `no pigment is called "bog brwon"; closest: moor-brown (Bog brown)`},
		{"moor", `no pigment is called "moor"; closest: moor-brown`},
		{"mor", `no pigment is called "mor"`},
		{"brwon", `no pigment is called "brwon"; closest: hill-brown, moor-brown`},
		{"loch blu2", `no pigment is called "loch blu2"; closest: loch-blue`},
		{"zzzzzzzzzz", `no pigment is called "zzzzzzzzzz"`},
		{"", `no pigment is called ""`},
	} {
		_, err := s.Lookup(c.name)
		var unknown *UnknownError
		if !errors.As(err, &unknown) || err.Error() != c.want {
			t.Errorf("Lookup(%q): got %v, want %s", c.name, err, c.want)
		}
	}
}

func TestOpensOnlyWhatIsAsked(t *testing.T) {
	files := testFiles(t)
	files["hill-brown.toml"].Data = []byte("this is not TOML")
	s := New("pigment", files)
	if diff := cmp.Diff([]string{"hill-brown", "loch-blue", "moor-brown"}, s.IDs()); diff != "" {
		t.Error(diff)
	}
	if _, err := s.Lookup("moor brown"); err != nil {
		t.Errorf("an unrelated broken file got in the way: %v", err)
	}
	if _, err := s.Lookup("hill brown"); err == nil || !strings.HasPrefix(err.Error(), "hill-brown.toml:1: ") {
		t.Errorf("got %v, want the broken file and line", err)
	}
	if _, err := s.All(); err == nil {
		t.Error("All passed over a broken file")
	}
}

func TestMissingFilesAreErrors(t *testing.T) {
	s := New("pigment", fstest.MapFS{})
	if _, err := s.Lookup("x"); err == nil {
		t.Error("Lookup without an index succeeded")
	}
	if _, err := s.All(); err == nil {
		t.Error("All without an index succeeded")
	}
	if err := s.Add("own.toml", ""); err == nil {
		t.Error("Add without an index succeeded")
	}
	if _, ok := s.Source("x"); ok {
		t.Error("found a source in nothing")
	}
}

func TestSourceOneAtATime(t *testing.T) {
	files := testFiles(t)
	s := New("pigment", files)
	got, ok := s.Source("book-two")
	if want := (material.Source{Key: "book-two", Author: "Author, B.", Title: "Second book", Year: "1942", Locator: "p. 5"}); !ok || got != want {
		t.Errorf("got %+v, %v; want %+v", got, ok, want)
	}
	if _, ok := s.Source("book-three"); ok {
		t.Error("found a source that is not there")
	}
	if err := s.Check(); err != nil {
		t.Error(err)
	}
}

func TestCutSourcesEqualsWhole(t *testing.T) {
	text := string(testFiles(t)["sources.toml"].Data)
	whole, _, err := readSources("sources.toml", text)
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]material.Source{}
	for key, chunk := range cutSources(text) {
		one, _, err := readSources("sources.toml", chunk)
		if err != nil {
			t.Fatal(err)
		}
		parts[key] = one[key]
	}
	if diff := cmp.Diff(whole, parts); diff != "" {
		t.Error(diff)
	}
}

func TestAddOverridesOneField(t *testing.T) {
	s := New("pigment", testFiles(t))
	shipped, err := s.Lookup("moor-brown")
	if err != nil {
		t.Fatal(err)
	}
	before := len(shipped.Density)
	err = s.Add("mine.toml", `
[source.my-notes]
author = "Workshop notes"
title = "Jar 3"
year = "n.d."

[pigment.moor-brown]
density = [{value = "2.9 g/ml", source = "my-notes"}]
ci-name = "PBr8"

[pigment.garden-clay]
name = "Garden clay"
kind = "pigment"
family = "brown"
density = [{value = "2.5 g/ml", source = "own measurement"}]

[medium.left-alone]
whatever = 3
`)
	if err != nil {
		t.Fatal(err)
	}
	m, err := s.Lookup("moor-brown")
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Density) != 1 || m.Density[0].Value != 2.9 || len(m.OilAbsorption) != 2 || m.Name != "Moor brown" {
		t.Errorf("the override did not change the one field: %+v", m)
	}
	if diff := cmp.Diff([]string{"ci-name", "density"}, m.Overrides); diff != "" {
		t.Error(diff)
	}
	if m.Own {
		t.Error("an overridden entry is marked as the maker's own")
	}
	if len(shipped.Density) != before {
		t.Error("the shipped entry was changed")
	}
	clay, err := s.Lookup("garden clay")
	if err != nil || !clay.Own {
		t.Errorf("got %+v, %v; want the maker's entry", clay, err)
	}
	if _, ok := s.Source("my-notes"); !ok {
		t.Error("the file's source was not taken")
	}
	// PBr7 is now hill brown's alone.
	if m, err := s.Lookup("PBr7"); err != nil || m.ID != "hill-brown" {
		t.Errorf("PBr7: got %v, %v; want hill-brown", m, err)
	}
	// A second file changes another field of the same entry.
	if err := s.Add("more.toml", "[pigment.moor-brown]\nsynonyms = [\"Peat\"]\n"); err != nil {
		t.Fatal(err)
	}
	m, _ = s.Lookup("peat")
	if diff := cmp.Diff([]string{"ci-name", "density", "synonyms"}, m.Overrides); diff != "" {
		t.Error(diff)
	}
	if _, err := s.Lookup("bog brown"); err == nil {
		t.Error("a synonym that was replaced is still found")
	}
}

func TestAddReportsEveryFault(t *testing.T) {
	s := New("pigment", testFiles(t))
	text := `[pigment.moor-brown]
density = [
  {value = "3.1 g/ml", source = "book-one"},
  {value = "3.1", source = "book-one"},
  {low = "3.4 g/ml", high = "3.1 g/ml", source = "book-one"},
]
oil-absorption = [{value = "nan g/100g", method = "unstated", source = "book-one"}]

[pigment.new-one]
kind = "pigment"
nmae = "New one"
family = 3
`
	err := s.Add("mine.toml", text)
	var faults strict.Faults
	if !errors.As(err, &faults) {
		t.Fatalf("got %v, want faults", err)
	}
	want := []string{
		`mine.toml:4: pigment.moor-brown.density.value: "3.1" is not a density: the unit is missing; accepted: a number with g/ml, g/cm3, g/cm³, kg/l, kg/m3, kg/m³, g/l`,
		`mine.toml:7: pigment.moor-brown.oil-absorption.value: "nan g/100g" is not a oil absorption by mass: it does not begin with a number; accepted: a number with g/100g, g/100 g`,
		`mine.toml:11: pigment.new-one.nmae: unknown key`,
		`mine.toml:12: pigment.new-one.family: text in quotes is expected here`,
	}
	if diff := cmp.Diff(want, strings.Split(err.Error(), "\n")); diff != "" {
		t.Error(diff)
	}
}

func TestAddReportsEveryProblem(t *testing.T) {
	s := New("pigment", testFiles(t))
	text := `[pigment.moor-brown]
density = [
  {value = "3.1 g/ml", source = "book-one"},
  {low = "3.4 g/ml", high = "3.1 g/ml", source = "book-nine"},
  {value = "3.1 g/ml", low = "3 g/ml", high = "3.3 g/ml", source = "book-one"},
]
oil-absorption = [{low = "30 g/100g", method = "guess", source = "book-one"}]

[pigment.New]
kind = "oil"
name = "Loch Blue"
classes = ["sulfide"]

[source.thing]
author = "X"
`
	err := s.Add("mine.toml", text)
	got := strings.Split(err.Error(), "\n")
	for i, want := range []string{
		`mine.toml:4: pigment.moor-brown.density.low: low is above high`,
		`mine.toml:4: pigment.moor-brown.density.source: unknown source "book-nine"`,
		`mine.toml:5: pigment.moor-brown.density.value: give value, or low with high, not both`,
		`mine.toml:7: pigment.moor-brown.oil-absorption.low: low and high go together`,
		`mine.toml:7: pigment.moor-brown.oil-absorption.method: unknown method "guess"; accepted: rub-out,`,
		`mine.toml:9: pigment.New: the name "Loch Blue" already means loch-blue`,
		`mine.toml:9: pigment.New: "New" is not an id`,
		`mine.toml:10: pigment.New.kind: the kind "oil" does not belong in a [pigment] table`,
		`mine.toml:12: pigment.New.classes: unknown class "sulfide"`,
		`mine.toml:14: source.thing: author, title and year are needed`,
	} {
		if i >= len(got) || !strings.HasPrefix(got[i], want) {
			t.Errorf("fault %d: want %s\nin:\n%s", i, want, err)
		}
	}
	if len(got) != 10 {
		t.Errorf("%d faults, want 10:\n%s", len(got), err)
	}
	// Nothing of a faulty file is taken.
	if m, err := s.Lookup("loch blue"); err != nil || m.ID != "loch-blue" {
		t.Errorf("after a refused file: %v, %v", m, err)
	}
	if m, _ := s.Lookup("moor brown"); len(m.Density) != 2 || m.Overrides != nil {
		t.Errorf("a refused file changed an entry: %+v", m)
	}
}

// An entry that the same file changes keeps its name before a new entry.
func TestAddNameOfChangedEntry(t *testing.T) {
	s := New("pigment", testFiles(t))
	err := s.Add("mine.toml", `[pigment.loch-blue]
tags = ["mineral"]
[pigment.a-blue]
name = "loch blue"
kind = "pigment"
family = "blue"
`)
	want := `mine.toml:3: pigment.a-blue: the name "loch blue" already means loch-blue; give it a name of its own`
	if err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
}

func TestAddSyntaxFault(t *testing.T) {
	s := New("pigment", testFiles(t))
	err := s.Add("mine.toml", "[pigment.x]\nname = \"X\nkind = 3\n")
	if err == nil || !strings.HasPrefix(err.Error(), "mine.toml:2: ") {
		t.Errorf("got %v, want file and line", err)
	}
}

func TestConcurrentUse(t *testing.T) {
	s := New("pigment", testFiles(t))
	var wg sync.WaitGroup
	for range 8 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for _, id := range s.IDs() {
				if _, err := s.Lookup(id); err != nil {
					t.Error(err)
				}
			}
			s.Source("book-one")
			if _, err := s.All(); err != nil {
				t.Error(err)
			}
		}()
	}
	wg.Wait()
}

func TestCheckFindsTrouble(t *testing.T) {
	for name, damage := range map[string]func(fstest.MapFS){
		"stale index": func(f fstest.MapFS) {
			f["index.tsv"].Data = append(f["index.tsv"].Data, []byte("x\ty\tz\t\t\t\tX\t\n")...)
		},
		"unknown source": func(f fstest.MapFS) { replaceIn(f, "loch-blue.toml", "book-two", "book-six") },
		"shared name":    func(f fstest.MapFS) { replaceIn(f, "loch-blue.toml", `"Loch blue"`, `"Bog brown"`) },
		"absurd value":   func(f fstest.MapFS) { replaceIn(f, "loch-blue.toml", "2.3 g/ml", "0.002 g/ml") },
		"unknown key":    func(f fstest.MapFS) { replaceIn(f, "loch-blue.toml", "classes", "clases") },
		"source no year": func(f fstest.MapFS) { replaceIn(f, "sources.toml", `year = "1901"`, ``) },
	} {
		files := testFiles(t)
		damage(files)
		if err := New("pigment", files).Check(); err == nil {
			t.Errorf("%s: Check found nothing", name)
		}
	}
}

func replaceIn(files fstest.MapFS, name, old, new string) {
	files[name].Data = []byte(strings.ReplaceAll(string(files[name].Data), old, new))
}

func TestFold(t *testing.T) {
	for in, want := range map[string]string{
		"Pigment Black 11": "pbk11", "Pigment Brown 7": "pbr7", "Natural Red 9": "nr9", "PR 101": "pr101", "Caeruleum": "caeruleum", "cœruleum": "coeruleum",
		"Pigment blue": "pigmentblue", "C.I. PBk 9": "pbk9", "cinnabar": "cinnabar", "Cinnabar green": "cinnabargreen",
	} {
		if got := fold(in); got != want {
			t.Errorf("fold(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestEdits(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"abc", "abc", 0}, {"abc", "", 3}, {"kitten", "sitting", 3}, {"ab", "ba", 1}, {"umber", "amber", 1}} {
		if got := edits(c.a, c.b); got != c.want {
			t.Errorf("edits(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

// FuzzAdd: whatever a maker's file holds, the shelf answers with faults or takes
// it whole.
func FuzzAdd(f *testing.F) {
	f.Add("[pigment.moor-brown]\ndensity = [{value = \"3 g/ml\", source = \"book-one\"}]\n")
	f.Add("[pigment.x]\nname = \"X\"\nkind = \"pigment\"\nfamily = \"blue\"\nhazards = {assessed = true}\n")
	f.Add("[source.k]\nauthor = \"a\"\n[medium.oil]\nx = nan\n")
	f.Add("pigment = 3\n[[source]]\n")
	f.Fuzz(func(t *testing.T, text string) {
		s := New("pigment", testFiles(t))
		before := s.IDs()
		if err := s.Add("f.toml", text); err != nil {
			if err.Error() == "" {
				t.Error("a fault without words")
			}
			if diff := cmp.Diff(before, s.IDs()); diff != "" {
				t.Errorf("a refused file changed the shelf: %s", diff)
			}
			return
		}
		list, err := s.All()
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range list {
			if m.Own && len(material.Validate(m, func(string) bool { return true })) > 0 {
				t.Errorf("a faulty entry was taken: %+v", m)
			}
		}
	})
}

// The beginning of a name is enough where only one entry begins so.
func TestLookupByBeginning(t *testing.T) {
	s := New("pigment", testFiles(t))
	m, err := s.Lookup("loch b")
	if err != nil || m.ID != "loch-blue" {
		t.Errorf("Lookup(loch b) = %v, %v", m, err)
	}
	if m, err := s.Lookup("loc"); err == nil {
		t.Errorf("three letters were enough for %s", m.ID)
	}
}

func TestEntryHolds(t *testing.T) {
	e := Entry{ID: "prussian-blue", Kind: material.Pigment, Family: "blue", Tags: []string{"iron"}, CIName: "PB27", CINumber: "77510", Name: "Prussian blue", Synonyms: []string{"Berlin blue"}}
	for query, want := range map[string]bool{
		"": true, "BLUE": true, "blue pruss": true, "pb27": true, "berlin": true, "iron pigment": true, "77510": true, "blue ochre": false, "green": false,
	} {
		if got := e.Holds(query); got != want {
			t.Errorf("Holds(%q) = %v, want %v", query, got, want)
		}
	}
	for family, want := range map[string]bool{"Blue": true, "iron": true, "earth": false, "": false} {
		if got := e.OfFamily(family); got != want {
			t.Errorf("OfFamily(%q) = %v, want %v", family, got, want)
		}
	}
}
