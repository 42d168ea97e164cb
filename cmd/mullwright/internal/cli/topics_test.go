package cli

import (
	"reflect"
	"strings"
	"testing"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

// The page of help on JSON names every key of the mull's contract.
func TestJSONTopicNamesEveryKey(t *testing.T) {
	text := topic(t, "json")
	kind := reflect.TypeFor[render.MullJSON]()
	for i := range kind.NumField() {
		key, _, _ := strings.Cut(kind.Field(i).Tag.Get("json"), ",")
		switch key {
		case "kind", "answer", "target": // said in the words above the list
			continue
		}
		if !strings.Contains(text, key) {
			t.Errorf("help json does not name %q", key)
		}
	}
}

func topic(t *testing.T, name string) string {
	for _, x := range topics {
		if x.name == name {
			return x.text
		}
	}
	t.Fatalf("no topic %q", name)
	return ""
}

// The examples in the pages of help work as they stand.
func TestTopicExamples(t *testing.T) {
	w, err := ask.Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Add("mine.toml", indented(topic(t, "catalogue-file"))); err != nil {
		t.Fatal(err)
	}
	in, err := w.Pigment("quarry-lane-ochre")
	if err != nil || in.Material.Name != "Quarry Lane ochre" {
		t.Errorf("the catalogue file's ochre: %v, %v", in.Material, err)
	}
	var q ask.Mull
	if err := ask.Load("leaf-green.toml", indented(topic(t, "formula-file")), "mull", q.Fields()); err != nil {
		t.Fatal(err)
	}
	req, err := q.Request(w, formulate.Sampling{Exact: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := formulate.Mull(req); err != nil {
		t.Error(err)
	}
}

// indented returns the indented lines of a text: its example.
func indented(text string) string {
	var b strings.Builder
	for _, l := range strings.Split(text, "\n") {
		if strings.HasPrefix(l, "  ") {
			b.WriteString(l + "\n")
		}
	}
	return b.String()
}
