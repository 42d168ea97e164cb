package book

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"unicode"

	"mullwright/formulate/quantity"
)

// letters are all that a maker may write.
var letters = []*unicode.RangeTable{unicode.L, unicode.M, unicode.N, unicode.P, unicode.S, unicode.Z, unicode.Cf, unicode.Co}

// bigBook writes a book of n batches of 40 pigments without waiting for the
// disk.
func bigBook(b testing.TB, n int) *Book {
	b.Helper()
	dir := b.TempDir()
	for i := range n {
		e := Entry{Date: fmt.Sprintf("2026-%02d-%02d", 1+i%12, 1+i%28), Remark: "second mull stiffer than the first", Batch: &Batch{
			Pigments: []Part{{ID: fmt.Sprintf("pigment-%02d", i%40), Mass: quantity.Mass(50 + i%7), Lot: fmt.Sprintf("L%d", i%3)}},
			Oils:     []Part{{ID: "linseed-oil", Mass: quantity.Mass(40 + i%9)}},
			Body:     "buttery", Loss: 3.1, Drying: "touch-dry after 4 days",
		}}
		name := fmt.Sprintf("%04d-%s.toml", i+1, slug(e.first()))
		if err := os.WriteFile(filepath.Join(dir, name), []byte(e.Text()), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	return &Book{Dir: dir}
}

func BenchmarkRead(b *testing.B) {
	book := bigBook(b, 10000)
	for b.Loop() {
		r, err := book.Read()
		if err != nil || len(r.Entries) != 10000 {
			b.Fatal(err)
		}
	}
}
