package book

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
)

// adder, set in the environment, turns the test binary into a program that adds
// entries to a book, to be killed or raced.
const adder = "MULLWRIGHT_TEST_ADD"

func TestMain(m *testing.M) {
	if spec := os.Getenv(adder); spec != "" {
		os.Exit(addMany(spec))
	}
	os.Exit(m.Run())
}

// addMany adds the asked number of entries to a folder, and says each one's
// file as soon as it has landed.
func addMany(spec string) int {
	count, dir, _ := strings.Cut(spec, " ")
	n, _ := strconv.Atoi(count)
	for i := range n {
		e, err := (&Book{Dir: dir}).Add(blueBatch(i))
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		fmt.Println(e.File)
	}
	return 0
}

func blueBatch(i int) Entry {
	return Entry{
		Date: "spring", Remark: strings.Repeat("muller ", 1+i%200),
		Batch: &Batch{
			Pigments: []Part{{ID: "prussian-blue", Mass: quantity.Mass(10 + i), Lot: "A12"}},
			Oils:     []Part{{ID: "linseed-oil", Mass: quantity.Mass(8 + i)}},
			Body:     "buttery",
		},
	}
}

func program(t *testing.T, n int, dir string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, "-test.run=^$")
	cmd.Env = append(os.Environ(), fmt.Sprintf("%s=%d %s", adder, n, dir))
	return cmd
}

func snapshot(t *testing.T, dir string) map[string]string {
	t.Helper()
	names, _, err := (&Book{Dir: dir}).names()
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, n := range names {
		data, err := os.ReadFile(filepath.Join(dir, n))
		if err != nil {
			t.Fatal(err)
		}
		files[n] = string(data)
	}
	return files
}

// A program killed at any moment leaves every older entry as it was, loses none
// that it reported, and leaves no half entry.
func TestKilledProgramHurtsNoEntry(t *testing.T) {
	rounds := 150
	if testing.Short() {
		rounds = 20
	}
	dir := t.TempDir()
	r := rand.New(rand.NewPCG(1, 2))
	killed := 0
	for range rounds {
		before := snapshot(t, dir)
		cmd := program(t, 1000, dir)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		// Kill within the writing of the first few entries.
		lines := bufio.NewScanner(out)
		var landed []string
		if lines.Scan() {
			landed = append(landed, lines.Text())
		}
		time.Sleep(time.Duration(r.Int64N(int64(4 * time.Millisecond))))
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for lines.Scan() {
			landed = append(landed, lines.Text())
		}
		if cmd.Wait() != nil {
			killed++
		}
		after := snapshot(t, dir)
		for name, text := range before {
			full, ok := after[name]
			if !ok {
				t.Fatalf("%s is lost", name)
			}
			if full != text {
				t.Fatalf("%s has changed", name)
			}
		}
		for _, name := range landed {
			if _, ok := after[name]; !ok && strings.Contains(name, "-") {
				t.Fatalf("%s was reported and is lost", name)
			}
		}
		reading, err := (&Book{Dir: dir}).Read()
		if err != nil {
			t.Fatal(err)
		}
		if len(reading.Damaged) > 0 {
			t.Fatalf("after a kill: %v", reading.Damaged)
		}
	}
	if killed < rounds*9/10 {
		t.Errorf("only %d of %d programs were killed in time: the test proves little", killed, rounds)
	}
}

// Programs that add at once all land, each on a number of its own.
func TestAddingAtOnce(t *testing.T) {
	const programs, each = 6, 30
	dir := t.TempDir()
	var running []*exec.Cmd
	var outs []*bytes.Buffer
	for range programs {
		cmd := program(t, each, dir)
		var out bytes.Buffer
		cmd.Stdout, cmd.Stderr = &out, os.Stderr
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		running, outs = append(running, cmd), append(outs, &out)
	}
	seen := map[string]bool{}
	for i, cmd := range running {
		if err := cmd.Wait(); err != nil {
			t.Fatal(err)
		}
		for _, name := range strings.Fields(outs[i].String()) {
			if seen[name] {
				t.Errorf("%s was given twice", name)
			}
			seen[name] = true
		}
	}
	reading, err := (&Book{Dir: dir}).Read()
	if err != nil || len(reading.Damaged) > 0 {
		t.Fatal(err, reading.Damaged)
	}
	for i, e := range reading.Entries {
		if e.Number != i+1 {
			t.Fatalf("entry %d of the list carries number %d", i+1, e.Number)
		}
		if !seen[e.File] {
			t.Errorf("%s is there, but no program reported it", e.File)
		}
	}
	if len(reading.Entries) != programs*each || len(seen) != programs*each {
		t.Errorf("%d entries, %d reported, want %d", len(reading.Entries), len(seen), programs*each)
	}
}

// A reader beside a writer sees whole entries only.
func TestReadingWhileAdding(t *testing.T) {
	dir := t.TempDir()
	cmd := program(t, 150, dir)
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- cmd.Wait() }()
	for {
		r, err := (&Book{Dir: dir}).Read()
		if err != nil || len(r.Damaged) > 0 {
			t.Fatal(err, r.Damaged)
		}
		select {
		case err := <-done:
			if err != nil {
				t.Fatal(err)
			}
			return
		default:
		}
	}
}

// A number that a maker's own file already carries is not given again.
func TestAddPassesTakenNumbers(t *testing.T) {
	dir := t.TempDir()
	b := &Book{Dir: dir}
	write(t, dir, "0007-by-hand.toml", "broken")
	write(t, dir, "README.md", "mine")
	e, err := b.Add(blueBatch(0))
	if err != nil {
		t.Fatal(err)
	}
	if e.File != "0008-prussian-blue.toml" {
		t.Errorf("got %s", e.File)
	}
	// The number is taken although the bare name is free.
	if taken, err := b.others(8, "0008.toml"); err != nil || !taken {
		t.Errorf("the number of %s looks free: %v", e.File, err)
	}
	if left := drafts(t, dir); len(left) > 0 {
		t.Errorf("drafts are left behind: %v", left)
	}
}

func drafts(t *testing.T, dir string) []string {
	t.Helper()
	left, err := filepath.Glob(filepath.Join(dir, ".mullwright-*"))
	if err != nil {
		t.Fatal(err)
	}
	return left
}

func write(t *testing.T, dir, name, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestNothingIsReadOrMade(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "none")
	r, err := (&Book{Dir: dir}).Read()
	if err != nil || len(r.Entries) > 0 || len(r.Damaged) > 0 {
		t.Fatal(r, err)
	}
	if _, err := os.Stat(dir); !os.IsNotExist(err) {
		t.Error("reading made a folder")
	}
	if _, err := (&Book{}).Read(); err != nil {
		t.Error(err)
	}
	if _, err := (&Book{}).Add(blueBatch(0)); err == nil {
		t.Error("a book without a folder took an entry")
	}
}

// A damaged file is named with line and key; the others still count.
func TestDamagedFiles(t *testing.T) {
	dir := t.TempDir()
	b := &Book{Dir: dir}
	if _, err := b.Add(blueBatch(0)); err != nil {
		t.Fatal(err)
	}
	write(t, dir, "0002-cut-off.toml", "date = \"x\"\n[batch]\npigments = [{id = \"chalk\", mass")
	write(t, dir, "0003-wrong.toml", "[batch]\npigments = [\n  {id = \"chalk\", mass = \"5 ml\"},\n]\n")
	write(t, dir, "0004-empty.toml", "")
	write(t, dir, "0005-typo.toml", "[batch]\npigments = [{id = \"chalk\", mass = \"5 g\"}]\nbdoy = \"soft\"\n")
	write(t, dir, "0006-two.toml", "[batch]\npigments = [\n  {id = \"chalk\", mass = \"5 g\"},\n  {id = \"../../etc\", mass = \"5 g\", lot = \"a\\u001bb\"},\n]\noils = [{id = \"linseed-oil\"}]\n")
	write(t, dir, "notes.toml", "anything")
	write(t, dir, "0008-huge.toml", "remark = \""+strings.Repeat("x", maxFile)+"\"")
	if err := os.Mkdir(filepath.Join(dir, "0009-folder.toml"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("nowhere", filepath.Join(dir, "0010-link.toml")); err != nil {
		t.Fatal(err)
	}
	r, err := b.Read()
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Entries) != 1 || r.Entries[0].Number != 1 {
		t.Errorf("sound entries: %+v", r.Entries)
	}
	var got []string
	for _, f := range r.Damaged {
		where, what, _ := strings.Cut(f.Error(), ": ")
		key, _, _ := strings.Cut(what, ":")
		got = append(got, where+" "+key)
	}
	want := []string{
		"notes.toml its name begins with no number, so it is not read; an entry is named like 0012-prussian-blue.toml",
		"0002-cut-off.toml:3 batch.pigments.id",
		"0003-wrong.toml:3 batch.pigments.mass",
		"0004-empty.toml an entry holds one of [batch], [rub-out], [stock] and [strike]",
		"0005-typo.toml:3 batch.bdoy",
		"0006-two.toml:4 batch.pigments.1.id",
		"0006-two.toml:4 batch.pigments.1.lot",
		"0006-two.toml:6 batch.oils.0.mass",
		"0008-huge.toml it is larger than the 32768 bytes of an entry",
		"0009-folder.toml is a directory",
		"0010-link.toml no such file or directory",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestFind(t *testing.T) {
	dir := t.TempDir()
	b := &Book{Dir: dir}
	for i := range 3 {
		if _, err := b.Add(blueBatch(i)); err != nil {
			t.Fatal(err)
		}
	}
	for _, what := range []string{"2", "0002", "0002-prussian-blue", "0002-prussian-blue.toml"} {
		if e, err := b.Find(what); err != nil || e.Number != 2 {
			t.Errorf("%q: %v, %v", what, e, err)
		}
	}
	for _, what := range []string{"9", "../0002", "", "-1", "prussian-blue"} {
		var missing *MissingError
		if _, err := b.Find(what); !errors.As(err, &missing) || !strings.Contains(err.Error(), "from 1 to 3") {
			t.Errorf("%q: %v", what, err)
		}
	}
	write(t, dir, "0002-copy.toml", "x")
	if _, err := b.Find("2"); err == nil || !strings.Contains(err.Error(), "2 files carry the number 2: 0002-copy.toml, 0002-prussian-blue.toml") {
		t.Errorf("twice the number: %v", err)
	}
}

func TestAddRefuses(t *testing.T) {
	for name, change := range map[string]func(*Entry){
		"no pigment":        func(e *Entry) { e.Batch.Pigments = nil },
		"no mass":           func(e *Entry) { e.Batch.Oils[0].Mass = 0 },
		"line break":        func(e *Entry) { e.Batch.Pigments[0].Lot = "A\nB" },
		"escape":            func(e *Entry) { e.Date = "\x1b[2J" },
		"path as id":        func(e *Entry) { e.Batch.Pigments[0].ID = "../x" },
		"not text":          func(e *Entry) { e.Remark = "\xff" },
		"unknown body":      func(e *Entry) { e.Batch.Body = "runny" },
		"too long":          func(e *Entry) { e.Date = strings.Repeat("x", 201) },
		"two kinds":         func(e *Entry) { e.Stock = &Stock{} },
		"powder by volume":  func(e *Entry) { e.Batch.Pigments[0] = Part{ID: "chalk", Volume: 3} },
		"none in a batch":   func(e *Entry) { e.Batch.Oils[0] = Part{ID: "linseed-oil", None: true} },
		"none of something": func(e *Entry) { *e = Entry{Stock: &Stock{Counted: []Part{{ID: "chalk", None: true, Mass: 3}}}} },
		"no tests": func(e *Entry) {
			*e = Entry{RubOut: &RubOut{ID: "chalk", ByMass: 20, Method: "rub-out", Oil: "linseed-oil"}}
		},
		"both bases": func(e *Entry) {
			*e = Entry{RubOut: &RubOut{ID: "chalk", ByMass: 20, ByVolume: 21, Tests: 1, Method: "rub-out", Oil: "linseed-oil"}}
		},
		"empty stock": func(e *Entry) { *e = Entry{Stock: &Stock{}} },
		"sure of a count": func(e *Entry) {
			*e = Entry{Sure: true, Stock: &Stock{Counted: []Part{{ID: "chalk", Mass: 3}}}}
		},
		"striking nothing":      func(e *Entry) { *e = Entry{Strike: &Strike{}} },
		"sure of striking":      func(e *Entry) { *e = Entry{Sure: true, Strike: &Strike{Entry: 1}} },
		"scatter of one test":   func(e *Entry) { *e = scattered(1, 0.02) },
		"scatter past the mean": func(e *Entry) { *e = scattered(2, 1.1) },
	} {
		dir := filepath.Join(t.TempDir(), "book")
		e := blueBatch(0)
		change(&e)
		var faults strict.Faults
		if _, err := (&Book{Dir: dir}).Add(e); !errors.As(err, &faults) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := os.Stat(dir); !os.IsNotExist(err) {
			t.Errorf("%s: a refused entry left something behind", name)
		}
	}
}

func scattered(tests int, scatter quantity.Ratio) Entry {
	return Entry{RubOut: &RubOut{ID: "chalk", ByVolume: 21, Tests: tests, Scatter: scatter, Method: "rub-out", Oil: "linseed-oil"}}
}

// A strike takes an earlier entry out, striking the strike brings it back, and
// no file is changed by either.
func TestStrike(t *testing.T) {
	dir := t.TempDir()
	b := &Book{Dir: dir}
	add := func(e Entry) Entry {
		t.Helper()
		e, err := b.Add(e)
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	struckBy := func() []int {
		t.Helper()
		r, err := b.Read()
		if err != nil || len(r.Damaged) > 0 {
			t.Fatal(err, r.Damaged)
		}
		var out []int
		for _, e := range r.Entries {
			out = append(out, e.StruckBy)
		}
		return out
	}
	add(blueBatch(0))
	add(blueBatch(1))
	before := snapshot(t, dir)
	if e := add(Entry{Remark: "a slip", Strike: &Strike{Entry: 2}}); e.File != "0003-strike.toml" || e.Kind() != "strike" {
		t.Errorf("a strike is kept as %s, a %s", e.File, e.Kind())
	}
	if got := struckBy(); !cmp.Equal(got, []int{0, 3, 0}) {
		t.Errorf("struck by %v", got)
	}
	add(Entry{Strike: &Strike{Entry: 3}})
	if got := struckBy(); !cmp.Equal(got, []int{0, 0, 4, 0}) {
		t.Errorf("with the strike struck, by %v", got)
	}
	add(Entry{Strike: &Strike{Entry: 4}})
	if got := struckBy(); !cmp.Equal(got, []int{0, 3, 0, 5, 0}) {
		t.Errorf("with that struck in turn, by %v", got)
	}
	after := snapshot(t, dir)
	for name, text := range before {
		if after[name] != text {
			t.Errorf("%s has changed", name)
		}
	}
}

// A strike of nothing, of a later entry or of a number that two files carry is
// named, and strikes nothing.
func TestStrikeOfNothing(t *testing.T) {
	dir := t.TempDir()
	b := &Book{Dir: dir}
	for range 2 {
		if _, err := b.Add(blueBatch(0)); err != nil {
			t.Fatal(err)
		}
	}
	batch := blueBatch(1)
	write(t, dir, "0002-copy.toml", batch.Text())
	write(t, dir, "0003-twice.toml", "[strike]\nentry = 2\n")
	write(t, dir, "0010-gone.toml", "[strike]\nentry = 9\n")
	write(t, dir, "0011-later.toml", "[strike]\nentry = 11\n")
	r, err := b.Read()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range r.Damaged {
		got = append(got, f.Error())
	}
	want := []string{
		"0011-later.toml:2: strike.entry: 11 is not the number of an earlier entry",
		"0010-gone.toml: strike.entry: it strikes nothing: there is no entry 9 that can be read",
		"0003-twice.toml: strike.entry: it strikes nothing: more than one file carries the number 2",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	for _, e := range r.Entries {
		if e.StruckBy != 0 {
			t.Errorf("%s is struck", e.File)
		}
	}
}

// lastDigits: a share printed in per cent may not scale back to the same bits.
var lastDigits = cmp.Comparer(func(a, b quantity.MassFraction) bool { return math.Abs(float64(a-b)) < 1e-14 })

// Whatever an entry holds, its file reads back as the same entry.
func TestTextReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawEntry(t)
		if err := e.Check(); err != nil {
			t.Fatalf("drawn entry: %v", err)
		}
		got, err := Parse("0003-x.toml", e.Text())
		if err != nil {
			t.Fatalf("%v\n%s", err, e.Text())
		}
		e.Number, e.File = 3, "0003-x.toml"
		if diff := cmp.Diff(e, got, lastDigits); diff != "" {
			t.Fatalf("%s\n%s", diff, e.Text())
		}
		// The quick reader takes all that needs no escape but prices and nones.
		if _, ok := quick(e.Text()); !ok && e.Stock == nil && !strings.Contains(e.Text(), "\\") {
			t.Fatalf("not read quickly:\n%s", e.Text())
		}
		if s := slug(e.first()); strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" || s == "" {
			t.Fatalf("slug %q", s)
		}
	})
}

func drawEntry(t *rapid.T) Entry {
	line := rapid.StringOfN(rapid.RuneFrom(nil, letters...), 0, 60, -1)
	id := rapid.StringMatching(`[a-zäß0-9][a-z0-9._-]{0,30}`)
	mass := rapid.Custom(func(t *rapid.T) quantity.Mass { return quantity.Mass(rapid.Float64Range(0.001, 9999).Draw(t, "mass")) })
	powder := rapid.Custom(func(t *rapid.T) Part {
		return Part{ID: id.Draw(t, "id"), Mass: mass.Draw(t, "mass"), Lot: line.Draw(t, "lot")}
	})
	liquid := rapid.Custom(func(t *rapid.T) Part {
		if rapid.Bool().Draw(t, "by volume") {
			return Part{ID: id.Draw(t, "id"), Volume: quantity.Volume(rapid.Float64Range(0.001, 9999).Draw(t, "volume"))}
		}
		return powder.Draw(t, "by mass")
	})
	list := func(of *rapid.Generator[Part], least int, name string) []Part {
		if l := rapid.SliceOfN(of, least, 4).Draw(t, name); len(l) > 0 {
			return l
		}
		return nil
	}
	e := Entry{Date: line.Draw(t, "date"), Remark: line.Draw(t, "remark")}
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 0:
		e.Sure = rapid.Bool().Draw(t, "sure")
		e.Batch = &Batch{
			Pigments: list(powder, 1, "pigments"), Extenders: list(powder, 0, "extenders"), Oils: list(liquid, 0, "oils"), Waxes: list(powder, 0, "waxes"),
			Body: rapid.SampledFrom([]string{"", "buttery", "stiff", "0.75"}).Draw(t, "body"), Moisture: quantity.MassFraction(rapid.Float64Range(0, 0.89).Draw(t, "moisture")), Loss: mass.Draw(t, "loss"), Drying: line.Draw(t, "drying"),
		}
	case 1:
		e.RubOut = &RubOut{ID: id.Draw(t, "id"), Lot: line.Draw(t, "lot"), Tests: rapid.IntRange(1, 100).Draw(t, "tests"), Method: "rub-out", Oil: id.Draw(t, "oil"),
			ByMass: quantity.Absorption(rapid.Float64Range(1, 500).Draw(t, "oil absorption"))}
		e.Sure = rapid.Bool().Draw(t, "sure")
		if r := e.RubOut; r.Tests > 1 && rapid.Bool().Draw(t, "scatter") {
			r.Scatter = quantity.Ratio(rapid.Float64Range(0, 1).Draw(t, "scatter"))
		}
	case 2:
		e.Strike = &Strike{Entry: rapid.IntRange(1, 2).Draw(t, "struck")}
	default:
		e.Stock = &Stock{Counted: list(liquid, 1, "counted"), Bought: list(liquid, 0, "bought"),
			Prices: []Price{{ID: id.Draw(t, "id"), Price: quantity.PricePerGram(rapid.Float64Range(0.001, 100).Draw(t, "price"))}}}
		e.Stock.Counted = append(e.Stock.Counted, Part{ID: "chalk", None: true})
	}
	return e
}

// A file that reads is one that writes back the same.
func FuzzParse(f *testing.F) {
	for i := range 3 {
		e := blueBatch(i)
		f.Add(e.Text())
	}
	f.Add("[rub-out]\nid = \"chalk\"\nby-volume = \"21 ml/100 g\"\ntests = 2\nmethod = \"rub-out\"\noil = \"linseed-oil\"\n")
	f.Add("[stock]\ncounted = [{id = \"chalk\", none = true}]\nprices = [{id = \"chalk\", price = \"0.01/g\"}]\n")
	f.Add("sure = true\n\n[rub-out]\nid = \"chalk\"\nby-volume = \"21 ml/100 g\"\ntests = 2\nscatter = \"0.02\"\nmethod = \"rub-out\"\noil = \"linseed-oil\"\n")
	f.Add("remark = \"a slip\"\n\n[strike]\nentry = 3\n")
	f.Add("sure = false\n[strike]\nentry = 03\n")
	f.Add("[batch]\npigments = [{id = \"chalk\", mass = \"nan g\"}]\nmoisture = \"1e999%\"\n")
	f.Add("date = 2026-01-01\n[batch]\n[[batch.pigments]]\nid = \"a\"\nmass = \"1g\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > maxFile {
			return // never read
		}
		if e, ok := quick(text); ok {
			var slow Entry
			if err := strict.Decode("0001.toml", text, &slow); err != nil {
				t.Fatalf("read quickly, and not at all: %v", err)
			}
			if diff := cmp.Diff(slow, e, cmpopts.EquateEmpty()); diff != "" {
				t.Fatalf("read quickly, and otherwise: %s", diff)
			}
		}
		e, err := Parse("0001.toml", text)
		if err != nil {
			if err.Error() == "" {
				t.Error("a fault without words")
			}
			return
		}
		again, err := Parse("0001.toml", e.Text())
		if err != nil {
			t.Fatalf("what was read does not read back: %v\n%s", err, e.Text())
		}
		if diff := cmp.Diff(e, again, cmpopts.EquateEmpty(), lastDigits); diff != "" {
			t.Error(diff)
		}
	})
}
