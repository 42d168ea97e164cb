package pigments

import (
	"flag"
	"os"
	"testing"

	"mullwright/formulate/shelf"
)

var update = flag.Bool("update", false, "write data/index.tsv anew")

func TestIndexIsFresh(t *testing.T) {
	want, err := shelf.BuildIndex("pigment", os.DirFS("data"))
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("data/index.tsv", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile("data/index.tsv")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("data/index.tsv does not match the entries; run go test ./pigments -update")
	}
}

func TestWholeCatalogue(t *testing.T) {
	if err := New().Check(); err != nil {
		t.Fatal(err)
	}
}
