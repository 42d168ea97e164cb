// Package render turns results into text, Markdown, CSV and JSON. It lays out
// and rounds; it never calculates. A command hands over a [Sheet], made from
// its result value, and a view of the same value for JSON.
package render

// Format is one of the faces of a result.
type Format string

const (
	Text     Format = "table"
	Markdown Format = "markdown"
	CSV      Format = "csv"
	JSON     Format = "json"
)

// Formats lists them as the flag names them.
func Formats() []string { return []string{string(Text), string(JSON), string(CSV), string(Markdown)} }

// A Sheet is a result laid out for reading.
type Sheet struct {
	Title    string
	Lead     string // one or two sentences under the title
	Sections []Section
	// Data, where set, is what CSV holds: one header row, then the rows at full
	// precision. Without it CSV lists every field of the sheet.
	Data [][]string
}

// A Section is a titled part: lines drawn for a terminal, fields, a table, or
// lines of text, in that order.
type Section struct {
	Title  string
	Under  string   // small print under the title
	Drawn  []string // small charts, as they are; only a terminal shows them
	Fields []Field
	Table  *Table
	Lines  []string // paragraphs, wrapped
	Marked bool     // lines are list items
}

// A Field is one labelled answer.
type Field struct {
	Label string
	Text  string // rounded, for people
	Note  string // small print behind it
	Value *Value // full precision, for CSV; nil for words
}

// A Value is the number behind a field.
type Value struct {
	Low, Typical, High float64
	Unit               string
}

// A Table has its cells as finished strings.
type Table struct {
	Columns []Column
	Rows    [][]string
}

// A Column is a heading and how its cells stand.
type Column struct {
	Title string
	Right bool // numbers
}

// First puts a section before all others.
func (s *Sheet) First(sec Section) { s.Sections = append([]Section{sec}, s.Sections...) }

// Add appends a section unless it is empty.
func (s *Sheet) Add(sec Section) {
	if len(sec.Fields) > 0 || sec.Table != nil && len(sec.Table.Rows) > 0 || len(sec.Lines) > 0 {
		s.Sections = append(s.Sections, sec)
	}
}

// Part finds a section by its title; one that is not there is empty.
func (s *Sheet) Part(title string) Section {
	for _, sec := range s.Sections {
		if sec.Title == title {
			return sec
		}
	}
	return Section{}
}
