package cli

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/book"
	"mullwright/formulate/quantity"
)

func TestDataDir(t *testing.T) {
	abs := t.TempDir()
	for _, c := range []struct {
		name, system string
		env          map[string]string
		want         string
	}{
		{"as the user says", "linux", map[string]string{"XDG_DATA_HOME": abs, "HOME": "/home/me"}, abs},
		{"a relative folder is none", "linux", map[string]string{"XDG_DATA_HOME": "data", "HOME": "/home/me"}, filepath.Join("/home/me", ".local", "share")},
		{"linux", "linux", map[string]string{"HOME": "/home/me"}, filepath.Join("/home/me", ".local", "share")},
		{"mac", "darwin", map[string]string{"HOME": "/Users/me"}, filepath.Join("/Users/me", "Library", "Application Support")},
		{"windows", "windows", map[string]string{"LocalAppData": `C:\Users\me\AppData\Local`}, `C:\Users\me\AppData\Local`},
		{"no home", "linux", nil, ""},
	} {
		if got := dataDir(c.system, func(k string) string { return c.env[k] }); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	e := &env{}
	if b := e.batches(); b.Dir != "" {
		t.Errorf("without a data folder the book is in %q", b.Dir)
	}
	e.DataDir = abs
	if b := e.batches(); b.Dir != filepath.Join(abs, "mullwright", "batches") {
		t.Errorf("the book is in %q", b.Dir)
	}
}

// The examples in the page of help are files that the book reads.
func TestBatchFileTopic(t *testing.T) {
	var files []string
	open := false
	for _, line := range strings.Split(topic(t, "batch-file"), "\n") {
		inner, ok := strings.CutPrefix(line, "  ")
		switch {
		case ok && !open:
			files, open = append(files, inner+"\n"), true
		case ok:
			files[len(files)-1] += inner + "\n"
		case line != "":
			open = false
		}
	}
	if len(files) != 3 {
		t.Fatalf("%d examples, want a batch, a rub-out and a count", len(files))
	}
	for i, text := range files {
		e, err := book.Parse("0001.toml", text)
		if err != nil {
			t.Errorf("%v\n%s", err, text)
		} else if want := []string{"batch", "rub-out", "stock"}[i]; e.Kind() != want {
			t.Errorf("example %d is a %s, want a %s", i+1, e.Kind(), want)
		}
	}
}

// bigBook is a book of 10,000 batches of 30 pigments and three jars of each.
func bigBook(b *testing.B) string {
	dir := b.TempDir()
	w, err := ask.Open("", nil)
	if err != nil {
		b.Fatal(err)
	}
	ids := w.Pigments.IDs()[:30]
	for i := range 10000 {
		e := book.Entry{Date: fmt.Sprintf("2026-%02d-%02d", 1+i%12, 1+i%28), Remark: "second mull stiffer than the first", Batch: &book.Batch{
			Pigments: []book.Part{{ID: ids[i%len(ids)], Mass: quantity.Mass(50 + i%7), Lot: fmt.Sprintf("L%d", i%3)}},
			Oils:     []book.Part{{ID: "linseed-oil", Mass: quantity.Mass(30 + i%9)}},
			Body:     "buttery", Loss: 3.1, Drying: "touch-dry after 4 days",
		}}
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%04d-x.toml", i+1)), []byte(e.Text()), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	return dir
}

func BenchmarkBook(b *testing.B) {
	dir := bigBook(b)
	for _, args := range [][]string{{"book", "list"}, {"book", "learn"}, {"book", "export"}, {"mull", "prussian-blue", "--pigment-mass", "50g"}} {
		b.Run(strings.Join(args[:2], " "), func(b *testing.B) {
			for b.Loop() {
				var stderr strings.Builder
				if code := Main(append(args, "--book", dir), Streams{Out: io.Discard, Err: &stderr, Getenv: os.Getenv}); code != ExitOK {
					b.Fatal(stderr.String())
				}
			}
		})
	}
}
