package render

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func written(t rapid.TB, f Format, width int, s *Sheet, view any) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, f, width, s, view); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// invented is a sheet with every part a sheet may have.
func invented() *Sheet {
	return &Sheet{
		Title: "Invented | sheet",
		Lead:  "A lead that is long enough to be wrapped where the line is short.",
		Sections: []Section{
			{Title: "weigh", Under: "small print", Fields: []Field{
				{Label: "blue", Text: "50.0 g", Note: "as it is", Value: &Value{49.5, 50, 50.5, "g"}},
				{Label: "a label of many words that wraps", Text: "words", Note: "and a note"},
			}},
			{Title: "steps", Table: &Table{Columns: []Column{{Title: "pour"}, {Title: "g", Right: true}}, Rows: [][]string{{"first | pour", "12.3"}, {"second", "1.5"}}}},
			{Title: "care", Lines: []string{"one, with a \"quote\"", "two"}, Marked: true},
			{Lines: []string{"closing words"}},
		},
	}
}

func TestWriteText(t *testing.T) {
	want := `Invented | sheet
────────────────
A lead that is long enough to be wrapped
where the line is short.

WEIGH
  small print
  blue                        50.0 g as it is
  a label of many words that  words and a note
  wraps

STEPS
  pour             g
 ────────────────────
  first | pour  12.3
  second         1.5

CARE
  • one, with a "quote"
  • two

  closing words
`
	if diff := cmp.Diff(want, written(t, Text, 40, invented(), nil)); diff != "" {
		t.Error(diff)
	}
}

// The point before a note belongs to text alone.
func TestNotesInCells(t *testing.T) {
	s := &Sheet{Sections: []Section{{Title: "weigh", Fields: []Field{
		{Label: "blue", Text: "50 g", Note: "· as it is", Value: &Value{50, 50, 50, "g"}},
		{Label: "words", Text: "some", Note: "· and a note"},
		{Label: "kept", Text: "a · b", Note: "c · d"},
	}}}}
	for f, want := range map[Format][]string{
		Text:     {"50 g · as it is", "some · and a note"},
		CSV:      {",g,as it is\n", ",some; and a note\n", ",a · b; c · d\n"},
		Markdown: {"| as it is", "| and a note", "c · d"},
	} {
		got := written(t, f, 80, s, nil)
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: %q is not in\n%s", f, w, got)
			}
		}
		if f != Text && (strings.Contains(got, "\"· ") || strings.Contains(got, ",· ") || strings.Contains(got, "| · ")) {
			t.Errorf("%s: a note begins with its point:\n%s", f, got)
		}
	}
}

func TestWriteMarkdown(t *testing.T) {
	got := written(t, Markdown, 40, invented(), nil)
	for _, want := range []string{"# Invented | sheet\n", "## weigh\n", "small print\n", `first \| pour`, "| 12.3 |", "- one, with a \"quote\"\n", "- two\n", "closing words\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
}

// Every row of a Markdown table has the same number of cells, whatever signs
// stand in them.
func TestMarkdownCells(t *testing.T) {
	unescaped := regexp.MustCompile(`(^|[^\\])\|`)
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 5).Draw(t, "columns")
		cell := rapid.StringMatching(`[a-z0-9 |±·\\éµ"<>*_\n]{0,12}`)
		table := &Table{}
		for range columns {
			table.Columns = append(table.Columns, Column{Title: rapid.StringMatching(`[a-z|]{1,8}`).Draw(t, "title"), Right: rapid.Bool().Draw(t, "right")})
		}
		for range rapid.IntRange(1, 5).Draw(t, "rows") {
			table.Rows = append(table.Rows, rapid.SliceOfN(cell, columns, columns).Draw(t, "row"))
		}
		lines := strings.Split(strings.TrimSpace(written(t, Markdown, 80, &Sheet{Sections: []Section{{Table: table}}}, nil)), "\n")
		if len(lines) != len(table.Rows)+2 {
			t.Fatalf("%d lines for %d rows:\n%s", len(lines), len(table.Rows), strings.Join(lines, "\n"))
		}
		for _, l := range lines {
			if n := len(unescaped.FindAllString(l, -1)); n != columns+1 {
				t.Fatalf("%d cells, want %d: %s", n-1, columns, l)
			}
		}
	})
}

// words draws text of which five columns of the longest words fit the narrowest
// line.
func words(n int) *rapid.Generator[string] {
	word := rapid.OneOf(rapid.StringMatching(`[a-zé±µ·°]{1,7}`), rapid.StringMatching(`[a-z-]{8,9}`))
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(word, 0, n).Draw(t, "words"), " ")
	})
}

func randomSheet(t *rapid.T) *Sheet {
	s := &Sheet{Title: words(12).Draw(t, "title"), Lead: words(30).Draw(t, "lead")}
	for range rapid.IntRange(0, 4).Draw(t, "sections") {
		sec := Section{Title: words(4).Draw(t, "section"), Under: words(20).Draw(t, "under"), Marked: rapid.Bool().Draw(t, "marked")}
		for range rapid.IntRange(0, 3).Draw(t, "fields") {
			sec.Fields = append(sec.Fields, Field{Label: words(5).Draw(t, "label"), Text: words(8).Draw(t, "text"), Note: words(12).Draw(t, "note")})
		}
		if columns := rapid.IntRange(0, 5).Draw(t, "columns"); columns > 0 {
			sec.Table = &Table{}
			for range columns {
				sec.Table.Columns = append(sec.Table.Columns, Column{Title: words(1).Draw(t, "title"), Right: rapid.Bool().Draw(t, "right")})
			}
			for range rapid.IntRange(1, 4).Draw(t, "rows") {
				sec.Table.Rows = append(sec.Table.Rows, rapid.SliceOfN(words(6), columns, columns).Draw(t, "row"))
			}
		}
		sec.Lines = rapid.SliceOfN(words(30), 0, 3).Draw(t, "lines")
		s.Add(sec)
	}
	return s
}

// Text is never wider than the line, where the words themselves are not; no
// line ends in a space; every word of the sheet is there.
func TestTextFitsItsWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSheet(t)
		width := rapid.IntRange(60, 130).Draw(t, "width")
		text := written(t, Text, width, s, nil)
		for _, l := range strings.Split(text, "\n") {
			if runes(l) > width {
				t.Fatalf("%d cells wide, want at most %d: %q\n%s", runes(l), width, l, text)
			}
			if strings.TrimRight(l, " ") != l {
				t.Fatalf("ends in a space: %q", l)
			}
		}
		shown := map[string]int{}
		for _, w := range strings.Fields(strings.ToUpper(text)) {
			shown[w]++
		}
		for _, w := range strings.Fields(strings.ToUpper(allText(reflect.ValueOf(s)))) {
			if shown[w]--; shown[w] < 0 {
				t.Fatalf("%q is missing from\n%s", w, text)
			}
		}
	})
}

// allText gathers every string of a sheet.
func allText(v reflect.Value) string {
	switch v.Kind() {
	case reflect.String:
		return " " + v.String()
	case reflect.Pointer:
		if v.IsNil() {
			return ""
		}
		return allText(v.Elem())
	case reflect.Slice:
		var b strings.Builder
		for i := range v.Len() {
			b.WriteString(allText(v.Index(i)))
		}
		return b.String()
	case reflect.Struct:
		var b strings.Builder
		for i := range v.NumField() {
			b.WriteString(allText(v.Field(i)))
		}
		return b.String()
	}
	return ""
}

// CSV parses back, every row as wide as the header, with the numbers at full
// precision.
func TestWriteCSV(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(written(t, CSV, 40, invented(), nil))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := [][]string{
		{"section", "item", "low", "typical", "high", "unit", "text"},
		{"weigh", "blue", "49.5", "50", "50.5", "g", "as it is"},
		{"weigh", "a label of many words that wraps", "", "", "", "", "words; and a note"},
		{"steps", "first | pour: g", "", "", "", "", "12.3"},
		{"steps", "second: g", "", "", "", "", "1.5"},
		{"care", "", "", "", "", "", "one, with a \"quote\""},
		{"care", "", "", "", "", "", "two"},
		{"", "", "", "", "", "", "closing words"},
	}
	if diff := cmp.Diff(want, rows); diff != "" {
		t.Error(diff)
	}
	data := [][]string{{"a", "b"}, {"1,5", "line\nend"}, {"", `"`}}
	rows, err = csv.NewReader(strings.NewReader(written(t, CSV, 40, &Sheet{Title: "x", Data: data}, nil))).ReadAll()
	if err != nil || !reflect.DeepEqual(rows, data) {
		t.Errorf("data come back as %q, %v", rows, err)
	}
}

func TestCSVParsesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSheet(t)
		rows, err := csv.NewReader(strings.NewReader(written(t, CSV, 80, s, nil))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		want := 1
		for _, sec := range s.Sections {
			want += len(sec.Fields) + len(sec.Lines)
			if sec.Table != nil {
				for _, r := range sec.Table.Rows {
					for _, c := range r[1:] {
						if c != "" {
							want++
						}
					}
				}
			}
		}
		if len(rows) != want {
			t.Fatalf("%d rows, want %d", len(rows), want)
		}
	})
}

// JSON leaves signs as they are and ends in one line end.
func TestWriteJSON(t *testing.T) {
	got := written(t, JSON, 40, nil, struct {
		A string `json:"a"`
	}{"<5 µm & 20 °C>"})
	if got != "{\n  \"a\": \"<5 µm & 20 °C>\"\n}\n" || !json.Valid([]byte(got)) {
		t.Errorf("got %q", got)
	}
}

func TestWriteRefusesFormat(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, "xml", 80, invented(), nil); err == nil || b.Len() > 0 {
		t.Errorf("got %v and %q", err, b.String())
	}
	if diff := cmp.Diff([]string{"table", "json", "csv", "markdown"}, Formats()); diff != "" {
		t.Error(diff)
	}
}

func TestWrap(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width int
		want  []string
	}{
		{"", 20, nil},
		{"   ", 20, nil},
		{"one two three", 9, []string{"one two", "three"}},
		{"exactly ten", 11, []string{"exactly ten"}},
		{"exactly ten", 10, []string{"exactly", "ten"}},
		{"unbreakableword is long", 8, []string{"unbreakableword", "is long"}},
		{"two\nlines", 20, []string{"two", "lines"}},
		{"µµµµ °°°°", 9, []string{"µµµµ °°°°"}}, // cells, not bytes
		{"never under eight", 1, []string{"never", "under", "eight"}},
	} {
		if got := wrap(tt.text, tt.width); !reflect.DeepEqual(got, tt.want) {
			t.Errorf("wrap(%q, %d) = %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}
