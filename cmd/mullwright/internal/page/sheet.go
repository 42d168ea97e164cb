package page

import (
	"html/template"
	"regexp"
	"strconv"
	"strings"

	"mullwright/cmd/mullwright/internal/render"
)

// sheetView is a sheet of package render as a page shows it: the same words and
// numbers in the same order.
type sheetView struct {
	Kind     string // "Weighing card"
	Title    string
	Name     string // without its kind
	Lead     string
	Sections []sectionView
	Cautions int  // how many there are
	Hazards  bool // they are what is known of one material
}

type sectionView struct {
	Title, Under string
	Fields       []fieldView
	Table        *render.Table
	Links        []string // where each row leads, nil for nowhere
	Lines        []lineView
	Marked       bool
	ID           string
	Level        string // key, caution, small
	Folded       bool
	Charts       []chartView
}

type fieldView struct {
	Label, Text string
	Figure      bool // a number, not words
	Note        template.HTML
}

type lineView struct {
	Text template.HTML
	Fire bool // to be seen first
}

type chartView struct{ Wide, Narrow template.HTML }

// keyParts are the sections a maker works from; quiet ones are folded away.
var (
	keyParts   = map[string]bool{"Weigh": true, "Pour the oil": true}
	quietParts = map[string]bool{"Sources": true, "Derivation at the typical values": true, "Evidence for the oil": true}
)

func (b *Bench) sheetView(s *render.Sheet, charts []chart, q *question) (*sheetView, error) {
	v := &sheetView{Title: s.Title, Name: s.Title, Lead: worded(s.Lead, q)}
	if kind, name, ok := strings.Cut(s.Title, ": "); ok {
		v.Kind, v.Name = kind, name
	}
	for i, sec := range s.Sections {
		sv := sectionView{Title: sec.Title, Under: worded(sec.Under, q), Table: sec.Table, Marked: sec.Marked, ID: "part-" + strconv.Itoa(i+1), Folded: quietParts[sec.Title]}
		switch {
		case sec.Title == "Cautions" || sec.Title == "Hazards":
			sv.Level, sv.ID = "caution", "cautions"
			v.Cautions, v.Hazards = len(sec.Lines), sec.Title == "Hazards"
		case keyParts[sec.Title]:
			sv.Level = "key"
		}
		for _, l := range sec.Lines {
			sv.Lines = append(sv.Lines, lineView{said(l, q), strings.HasPrefix(l, "FIRE:")})
		}
		for _, f := range sec.Fields {
			sv.Fields = append(sv.Fields, fieldView{f.Label, worded(f.Text, q), f.Value != nil, said(strings.TrimPrefix(f.Note, "· "), q)})
		}
		for _, c := range charts {
			if c.after != sec.Title {
				continue
			}
			wide, narrow, err := svg(c)
			if err != nil {
				return nil, err
			}
			sv.Charts = append(sv.Charts, chartView{wide, narrow})
		}
		v.Sections = append(v.Sections, sv)
	}
	return v, nil
}

// slug makes a word of a title, for an id.
func slug(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, s)
}

// stacked reports whether a table reads better row under row on a small screen:
// one of words rather than of figures.
func stacked(t *render.Table) bool {
	words := 0
	for _, c := range t.Columns {
		if !c.Right {
			words++
		}
	}
	return words >= 4
}

var hexColour = regexp.MustCompile(`^#[0-9a-f]{6}`)

// inkOf is the colour that a cell of a table begins with, "" for none.
func inkOf(cell string) string { return hexColour.FindString(cell) }
