package render

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/pkg/twwidth"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// Width is the line length of text where the terminal's is not known.
const Width = 80

// Write renders a sheet, or its JSON view, in a format. width is the line
// length of text.
func Write(w io.Writer, f Format, width int, sheet *Sheet, view any) error {
	var b bytes.Buffer
	var err error
	switch f {
	case JSON:
		err = writeJSON(&b, view)
	case CSV:
		err = writeCSV(&b, sheet)
	case Markdown:
		err = writeMarkdown(&b, sheet)
	case Text:
		err = writeText(&b, sheet, width)
	default:
		err = fmt.Errorf("unknown format %q", f)
	}
	if err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

func writeJSON(w io.Writer, view any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(view)
}

func writeCSV(w io.Writer, s *Sheet) error {
	c := csv.NewWriter(w)
	rows := s.Data
	if rows == nil {
		rows = fieldRows(s)
	}
	for _, r := range rows {
		if err := c.Write(r); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// fieldRows lists every field and every line of a sheet.
func fieldRows(s *Sheet) [][]string {
	rows := [][]string{{"section", "item", "low", "typical", "high", "unit", "text"}}
	for _, sec := range s.Sections {
		for _, f := range sec.Fields {
			row := []string{sec.Title, f.Label, "", "", "", "", ""}
			if f.Value != nil {
				row[2], row[3], row[4], row[5] = full(f.Value.Low), full(f.Value.Typical), full(f.Value.High), f.Value.Unit
				row[6] = bareNote(f.Note)
			} else {
				row[6] = joined(f.Text, bareNote(f.Note))
			}
			rows = append(rows, row)
		}
		if sec.Table != nil {
			for _, r := range sec.Table.Rows {
				for i := 1; i < len(r); i++ {
					if r[i] != "" {
						rows = append(rows, []string{sec.Title, r[0] + ": " + sec.Table.Columns[i].Title, "", "", "", "", r[i]})
					}
				}
			}
		}
		for _, l := range sec.Lines {
			rows = append(rows, []string{sec.Title, "", "", "", "", "", l})
		}
	}
	return rows
}

// bareNote is a note without the point that sets it off in text: in a cell of its
// own nothing stands before it.
func bareNote(note string) string { return strings.TrimPrefix(note, "· ") }

func joined(text, note string) string {
	if note == "" {
		return text
	}
	if text == "" {
		return note
	}
	return text + "; " + note
}

func writeText(w *bytes.Buffer, s *Sheet, width int) error {
	if s.Title != "" {
		for _, l := range wrap(s.Title, width) {
			fmt.Fprintln(w, l)
		}
		fmt.Fprintln(w, strings.Repeat("─", min(width, max(longest(wrap(s.Title, width)), 12))))
	}
	for _, l := range wrap(s.Lead, width) {
		fmt.Fprintln(w, l)
	}
	for i, sec := range s.Sections {
		if i > 0 || s.Title != "" || s.Lead != "" {
			fmt.Fprintln(w)
		}
		if sec.Title != "" {
			fmt.Fprintln(w, strings.ToUpper(sec.Title))
		}
		for _, l := range wrap(sec.Under, width-2) {
			fmt.Fprintln(w, "  "+l)
		}
		for _, l := range sec.Drawn {
			fmt.Fprintln(w, "  "+l)
		}
		writeFields(w, sec.Fields, width)
		if sec.Table != nil && len(sec.Table.Rows) > 0 {
			if err := writeTable(w, sec.Table, width); err != nil {
				return err
			}
		}
		for _, l := range sec.Lines {
			lead, hang := "  ", "  "
			if sec.Marked {
				lead, hang = "  • ", "    "
			}
			for j, part := range wrap(l, width-len([]rune(hang))) {
				if j == 0 {
					fmt.Fprintln(w, lead+part)
				} else {
					fmt.Fprintln(w, hang+part)
				}
			}
		}
	}
	return nil
}

// writeFields prints label and answer in two columns, the note wrapped under
// the answer where it does not fit beside it.
func writeFields(w *bytes.Buffer, fields []Field, width int) {
	label := 0
	for _, f := range fields {
		label = max(label, runes(f.Label))
	}
	label = min(label, 26)
	room := max(width-2-label-2, 20)
	for _, f := range fields {
		text := f.Text
		if f.Note != "" {
			text = strings.TrimSpace(text + "  " + f.Note)
		}
		head := wrap(f.Label, label)
		body := wrap(text, room)
		for i := range max(len(head), len(body)) {
			l, t := "", ""
			if i < len(head) {
				l = head[i]
			}
			if i < len(body) {
				t = body[i]
			}
			fmt.Fprintln(w, strings.TrimRight("  "+l+strings.Repeat(" ", label-runes(l))+"  "+t, " "))
		}
	}
}

// cells have one width whatever the reader's locale.
func init() { twwidth.SetEastAsian(false) }

func writeTable(w *bytes.Buffer, t *Table, width int) error {
	none := tw.Border{Left: tw.Off, Right: tw.Off, Top: tw.Off, Bottom: tw.Off}
	var b bytes.Buffer
	table := newTable(&b, t,
		tablewriter.WithRenderer(renderer.NewBlueprint(tw.Rendition{
			Borders: none,
			Symbols: tw.NewSymbols(tw.StyleLight),
			Settings: tw.Settings{
				Separators: tw.Separators{ShowHeader: tw.On, ShowFooter: tw.Off, BetweenRows: tw.Off, BetweenColumns: tw.Off},
				Lines:      tw.Lines{ShowTop: tw.Off, ShowBottom: tw.Off, ShowHeaderLine: tw.On, ShowFooterLine: tw.Off},
			},
		})))
	if err := fill(table, fitted(t, width-2)); err != nil {
		return err
	}
	for _, line := range strings.Split(strings.TrimRight(b.String(), "\n"), "\n") {
		fmt.Fprintln(w, strings.TrimRight(" "+line, " "))
	}
	return nil
}

// fitted wraps the cells of a table so that its lines fit the width: the widest
// columns give way first, none below its longest word. The library's own
// wrapping shares the width out evenly, which starves the column that needs it.
func fitted(t *Table, width int) [][]string {
	const gap = 2 // a space on each side of a cell
	room := width - gap*len(t.Columns)
	widths, least := make([]int, len(t.Columns)), make([]int, len(t.Columns))
	total := 0
	for i, c := range t.Columns {
		// A title is not wrapped.
		widths[i], least[i] = runes(c.Title), max(runes(c.Title), leastWrap)
		for _, r := range t.Rows {
			widths[i] = max(widths[i], runes(r[i]))
			least[i] = max(least[i], longest(strings.Fields(r[i])))
		}
		total += widths[i]
	}
	for total > room {
		widest := -1
		for i, w := range widths {
			if w > least[i] && (widest < 0 || w > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
		total--
	}
	spread(t, widths, room)
	rows := make([][]string, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = make([]string, len(r))
		for j, c := range r {
			rows[i][j] = strings.Join(wrap(c, widths[j]), "\n")
		}
	}
	return rows
}

// spread gives what wrapping at words leaves over back to the columns in which
// it saves a line.
func spread(t *Table, widths []int, room int) {
	left := room
	for i, c := range t.Columns {
		used, _ := wrapped(t, i, widths[i])
		widths[i] = max(used, runes(c.Title))
		left -= widths[i]
	}
	for i := range widths {
		if left <= 0 {
			return
		}
		_, before := wrapped(t, i, widths[i])
		if used, lines := wrapped(t, i, widths[i]+left); lines < before && used > widths[i] {
			left -= used - widths[i]
			widths[i] = used
		}
	}
}

// wrapped is how wide and how long a column is when wrapped to a width.
func wrapped(t *Table, column, width int) (used, lines int) {
	for _, r := range t.Rows {
		w := wrap(r[column], width)
		used, lines = max(used, longest(w)), lines+len(w)
	}
	return used, lines
}

// newTable hands the library finished strings: no re-casing, no trimming,
// numbers to the right.
func newTable(w io.Writer, t *Table, opts ...tablewriter.Option) *tablewriter.Table {
	align := make(tw.Alignment, len(t.Columns))
	heads := make([]any, len(t.Columns))
	for i, c := range t.Columns {
		align[i] = tw.AlignLeft
		if c.Right {
			align[i] = tw.AlignRight
		}
		heads[i] = c.Title
	}
	opts = append([]tablewriter.Option{
		tablewriter.WithHeaderAutoFormat(tw.Off),
		tablewriter.WithTrimSpace(tw.Off),
		tablewriter.WithAlignment(align),
		tablewriter.WithHeaderAlignmentConfig(tw.CellAlignment{PerColumn: align}),
		tablewriter.WithRowAutoWrap(tw.WrapNone),
		tablewriter.WithHeaderAutoWrap(tw.WrapNone),
	}, opts...)
	table := tablewriter.NewTable(w, opts...)
	table.Header(heads...)
	return table
}

func fill(table *tablewriter.Table, rows [][]string) error {
	for _, r := range rows {
		cells := make([]any, len(r))
		for i, c := range r {
			cells[i] = c
		}
		if err := table.Append(cells...); err != nil {
			return err
		}
	}
	return table.Render()
}

func writeMarkdown(w *bytes.Buffer, s *Sheet) error {
	if s.Title != "" {
		fmt.Fprintf(w, "# %s\n\n", s.Title)
	}
	if s.Lead != "" {
		fmt.Fprintf(w, "%s\n\n", s.Lead)
	}
	for _, sec := range s.Sections {
		if sec.Title != "" {
			fmt.Fprintf(w, "## %s\n\n", sec.Title)
		}
		if sec.Under != "" {
			fmt.Fprintf(w, "%s\n\n", sec.Under)
		}
		if len(sec.Fields) > 0 {
			t := &Table{Columns: []Column{{Title: "item"}, {Title: "answer"}, {Title: "note"}}}
			for _, f := range sec.Fields {
				t.Rows = append(t.Rows, []string{f.Label, f.Text, bareNote(f.Note)})
			}
			if err := markdownTable(w, t); err != nil {
				return err
			}
		}
		if sec.Table != nil && len(sec.Table.Rows) > 0 {
			if err := markdownTable(w, sec.Table); err != nil {
				return err
			}
		}
		for _, l := range sec.Lines {
			if sec.Marked {
				fmt.Fprintf(w, "- %s\n", l)
			} else {
				fmt.Fprintf(w, "%s\n\n", l)
			}
		}
		if sec.Marked {
			fmt.Fprintln(w)
		}
	}
	return nil
}

func markdownTable(w *bytes.Buffer, t *Table) error {
	heads := &Table{Columns: make([]Column, len(t.Columns))}
	for i, c := range t.Columns {
		heads.Columns[i] = Column{Title: escapeCell(c.Title), Right: c.Right}
	}
	table := newTable(w, heads, tablewriter.WithRenderer(renderer.NewMarkdown()))
	rows := make([][]string, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = make([]string, len(r))
		for j, c := range r {
			rows[i][j] = escapeCell(c)
		}
	}
	if err := fill(table, rows); err != nil {
		return err
	}
	fmt.Fprintln(w)
	return nil
}

// escapeCell keeps a column sign or a line end from ending a cell; the library
// leaves both as they are.
func escapeCell(s string) string { return cellSigns.Replace(s) }

var cellSigns = strings.NewReplacer("|", `\|`, "\r\n", " ", "\n", " ", "\r", " ")

func runes(s string) int { return twwidth.Width(s) }

func longest(lines []string) int {
	n := 0
	for _, l := range lines {
		n = max(n, runes(l))
	}
	return n
}

// leastWrap is the narrowest column that text is wrapped to.
const leastWrap = 8

// wrap breaks text at spaces. Empty text gives no lines.
func wrap(text string, width int) []string {
	width = max(width, leastWrap)
	var lines []string
	for _, para := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(para) {
			switch {
			case line == "":
				line = word
			case runes(line)+1+runes(word) <= width:
				line += " " + word
			default:
				lines = append(lines, line)
				line = word
			}
		}
		if line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}
