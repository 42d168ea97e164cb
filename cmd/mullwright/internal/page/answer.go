package page

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io"
	"maps"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate/shelf"
	"mullwright/formulate/strict"
)

// answer is what a question comes to: the sheet that the command line prints,
// its pictures, and where to go from it.
type answer struct {
	sheet  *render.Sheet
	charts []chart
	next   []link
	files  []file
	paper  func(show.Paper) ([]*picture.Drawing, error) // what can be printed, nil for nothing
}

// file is a text to take away. It is handed to the browser; nothing is written
// on the machine that runs the page.
type file struct{ name, label, text string }

// chart is a picture that is laid out for the width it is shown at.
type chart struct {
	after string // the title of the section it stands under
	draw  func(width float64) (*picture.Drawing, error)
}

// link leads on from an answer.
type link struct {
	Title, Why, To string
}

// answerView is the answer, or why there is none.
type answerView struct {
	Prompt  string
	Pick    string
	Faults  []faultView
	Sheet   *sheetView
	Head    []render.Field
	Short   string // the answer in a line, for the foot of a small screen
	Next    []link
	Print   *printView
	Files   []link // texts to take away
	Command string // the same question on the command line
	Link    string // the same question as an address
}

// printView is a small form: what is to stand on paper beside the answer.
type printView struct {
	Title, To string
	Words     bool // it takes batch, date and maker
	Hidden    [][2]string
}

// ask answers one question: the whole page, or the answer alone where the
// page's script asks for it.
func (b *Bench) ask(q *question) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		raw := r.URL.Query()
		values := q.plain(raw)
		explain := raw.Get("explain") != ""
		a, faults, fields, err := b.work(r, q, values, explain)
		if err != nil {
			b.busy(w)
			return
		}
		view, err := b.answerView(q, values, explain, a, faults)
		if err != nil {
			b.oops(w, http.StatusInternalServerError, "The answer could not be drawn: "+err.Error()+".")
			return
		}
		status := http.StatusOK
		if len(faults.List) > 0 {
			status = http.StatusUnprocessableEntity
		}
		if raw.Get("fragment") != "" {
			b.show(w, status, "answer", view)
			return
		}
		form := b.form(q, raw, values, fields, faults)
		form.Explain = explain
		title := q.title
		if view.Sheet != nil {
			title = view.Sheet.Title
		}
		b.show(w, status, "question.html", struct {
			Title string
			Here  string
			Name  string
			Lead  string
			Form  *formView
			View  *answerView
		}{title, q.path, q.title, q.lead, form, view})
	}
}

// work puts a question. An error is that there was no room for it.
func (b *Bench) work(r *http.Request, q *question, values url.Values, explain bool) (*answer, faultsView, []ask.Field, error) {
	put := q.start()
	fields := put.Fields()
	ask.Form(values, fields)
	if q.prompt != "" && !values.Has(q.needs) && len(r.URL.Query()) == 0 {
		return nil, faultsView{}, fields, nil
	}
	if err := b.enter(r.Context()); err != nil {
		return nil, faultsView{}, fields, err
	}
	defer b.leave()
	a, err := put.answer(desk{b.desk(), b.sampling, explain})
	if err != nil {
		return nil, q.faults(err, values), fields, nil
	}
	return a, faultsView{}, fields, nil
}

// faults sorts an error to the inputs of the form.
func (q *question) faults(err error, values url.Values) faultsView {
	v := faultsView{at: map[string]string{}}
	var field *ask.FieldError
	var many strict.Faults
	text := err.Error()
	name := ""
	typed, near := nearest(err)
	switch {
	case errors.As(err, &many):
		return q.faultsOf(many)
	case errors.As(err, &field):
		name, text = field.Field, field.Err.Error()
		if name == "pigment" && q.label(name) == "" {
			name = q.needs
		}
	case typed != "":
		name = q.needs
	default:
		// Two of a group, or none: the message begins with the group's flags.
		for _, flag := range flagWord.FindAllStringSubmatch(text, -1) {
			if q.label(flag[1]) != "" {
				name = flag[1]
				break
			}
		}
		if name == "" {
			name = q.named(text, values)
		}
	}
	v.add(q, name, withoutHelp(text))
	last := &v.List[len(v.List)-1]
	for _, id := range near {
		last.Near = append(last.Near, link{Title: id, To: "/" + q.path + "?" + q.renamed(values, typed, id).Encode()})
	}
	return v
}

// nearest is a name that no entry or more than one has, and what may be meant.
func nearest(err error) (typed string, ids []string) {
	var unknown *shelf.UnknownError
	var several *shelf.AmbiguousError
	switch {
	case errors.As(err, &unknown):
		for _, m := range unknown.Closest {
			ids = append(ids, m.ID)
		}
		return unknown.Name, ids
	case errors.As(err, &several):
		return several.Name, several.Candidates
	}
	return "", nil
}

// withoutHelp leaves out where a command line would look further.
func withoutHelp(text string) string {
	if i := strings.Index(text, "; see 'mullwright"); i >= 0 {
		return text[:i]
	}
	return text
}

// renamed is the question with a name put for another.
func (q *question) renamed(values url.Values, from, to string) url.Values {
	out := url.Values{}
	for k, list := range values {
		out[k] = slices.Clone(list)
		if kind := q.inputOf(k).kind; kind != namesInput && kind != nameInput {
			continue
		}
		for i, v := range list {
			if name, beside, ok := strings.Cut(v, "="); name == from {
				out[k][i] = to
				if ok {
					out[k][i] += "=" + beside
				}
			}
		}
	}
	return out
}

// named is the one field of which a message names what was filled in.
func (q *question) named(text string, values url.Values) string {
	found := ""
	words := strings.FieldsFunc(text, func(r rune) bool { return !(r == '-' || unicode.IsLetter(r) || unicode.IsDigit(r)) })
	for _, in := range q.inputs() {
		if in.kind != namesInput && in.kind != nameInput {
			continue
		}
		for _, v := range values[in.name] {
			name, _, _ := strings.Cut(v, "=")
			if !slices.Contains(words, name) {
				continue
			}
			if found != "" && found != in.name {
				return ""
			}
			found = in.name
		}
	}
	return found
}

// add puts one fault where it belongs.
func (v *faultsView) add(q *question, field, text string) {
	text = worded(text, q)
	f := faultView{Text: text}
	if q.label(field) != "" {
		in := q.inputOf(field)
		f.Field, f.Label, f.Input = field, in.label, strings.ReplaceAll(in.name, ".", "-")
		v.at[field] = text
	}
	v.List = append(v.List, f)
}

// faultsOf sorts the faults of a text of several parts: those of a painting go
// to its layers, those of a recipe keep their line.
func (q *question) faultsOf(list strict.Faults) faultsView {
	v := faultsView{at: map[string]string{}}
	for _, f := range list {
		field, text := q.needs, f.What
		if m := layerKey.FindStringSubmatch(f.Key); m != nil {
			field = "layer-" + m[1] + "." + orElse(m[2], "name")
		} else if f.Line > 0 {
			text = fmt.Sprintf("line %d: %s", f.Line, text)
		}
		v.add(q, field, text)
	}
	return v
}

var layerKey = regexp.MustCompile(`^layer\[(\d+)\](?:\.(.+))?$`)

func orElse(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

func (q *question) inputOf(field string) input {
	for _, in := range q.inputs() {
		for _, f := range in.fields() {
			if f == field {
				return in
			}
		}
	}
	return input{}
}

func (b *Bench) answerView(q *question, values url.Values, explain bool, a *answer, faults faultsView) (*answerView, error) {
	v := &answerView{Faults: faults.List}
	if a == nil {
		if len(faults.List) == 0 {
			v.Prompt = q.prompt
			if q.inputOf(q.needs).list == pigmentList {
				v.Pick = "/pigments?for=" + q.path
			}
		}
		return v, nil
	}
	var err error
	if v.Sheet, err = b.sheetView(a.sheet, a.charts, q); err != nil {
		return nil, err
	}
	v.Head = headOf(a.sheet, q.head)
	var short []string
	for _, f := range v.Head {
		short = append(short, strings.TrimLeft(f.Label, "0123456789. ")+" "+f.Text)
	}
	v.Short = strings.Join(short, " · ")
	if v.Short == "" {
		v.Short, _, _ = strings.Cut(a.sheet.Lead, ". ")
	}
	v.Next = a.next
	here := values.Encode()
	if explain {
		here += "&explain=true"
	}
	v.Link = "/" + q.path + "?" + here
	if a.paper != nil {
		v.Print = &printView{Title: q.paper, To: "/" + q.path + "/print.pdf", Words: len(q.inputOf("maker").name) == 0}
		for _, k := range slices.Sorted(maps.Keys(values)) {
			for _, text := range values[k] {
				v.Print.Hidden = append(v.Print.Hidden, [2]string{k, text})
			}
		}
	}
	for _, f := range a.files {
		v.Files = append(v.Files, link{Title: f.label, To: "/" + q.path + "/file/" + f.name + "?" + values.Encode()})
	}
	if !q.noCommand {
		v.Command = b.command(q, values, explain)
	}
	return v, nil
}

// headOf finds the fields that lead an answer.
func headOf(s *render.Sheet, labels []string) []render.Field {
	var out []render.Field
	for _, l := range labels {
		for _, sec := range s.Sections {
			for _, f := range sec.Fields {
				if f.Label == l {
					out = append(out, f)
				}
			}
		}
	}
	return out
}

// command is the same question on the command line.
func (b *Bench) command(q *question, values url.Values, explain bool) string {
	put := q.start()
	fields := put.Fields()
	ask.Form(values, fields)
	parts := []string{"mullwright", strings.ReplaceAll(q.path, "/", " ")}
	for _, f := range fields {
		switch {
		case f.FileOnly && f.Many != nil:
			for _, v := range *f.Many {
				parts = append(parts, quoted(v))
			}
		case f.FileOnly:
		case f.One != nil && *f.One != "":
			parts = append(parts, "--"+f.Name, quoted(*f.One))
		case f.Many != nil:
			for _, v := range *f.Many {
				parts = append(parts, "--"+f.Name, quoted(v))
			}
		case f.Yes != nil && *f.Yes:
			parts = append(parts, "--"+f.Name)
		}
	}
	if explain {
		parts = append(parts, "--explain")
	}
	return strings.Join(parts, " ")
}

// quoted writes a word so that a shell leaves it alone.
func quoted(s string) string {
	if s != "" && strings.IndexFunc(s, func(r rune) bool {
		return !(r == '-' || r == '=' || r == '.' || r == ':' || r == '/' || r == '%' || r == ',' || r == '+' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z')
	}) < 0 {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}

// print writes what a question has for paper.
func (b *Bench) print(q *question) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		raw := r.URL.Query()
		a, faults, _, err := b.work(r, q, q.plain(raw), false)
		switch {
		case err != nil:
			b.busy(w)
			return
		case len(faults.List) > 0:
			b.oops(w, http.StatusUnprocessableEntity, faults.List[0].Text+".")
			return
		case a == nil || a.paper == nil:
			b.oops(w, http.StatusNotFound, "Nothing has been asked, so there is nothing to print.")
			return
		}
		data, err := printed(raw, a.paper)
		if err != nil {
			b.oops(w, http.StatusUnprocessableEntity, "It cannot be drawn: "+err.Error()+".")
			return
		}
		w.Header().Set("Content-Type", "application/pdf")
		w.Header().Set("Content-Disposition", fmt.Sprintf("inline; filename=%q", strings.ReplaceAll(q.path, "/", "-")+".pdf"))
		w.Header().Set("Cache-Control", "no-store")
		w.Write(data)
	}
}

// take hands a text of an answer over to be kept.
func (b *Bench) take(q *question) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		a, faults, _, err := b.work(r, q, q.plain(r.URL.Query()), false)
		if err != nil {
			b.busy(w)
			return
		}
		if a != nil {
			for _, f := range a.files {
				if f.name == r.PathValue("name") {
					w.Header().Set("Content-Type", "application/toml; charset=utf-8")
					w.Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", f.name))
					w.Header().Set("Cache-Control", "no-store")
					io.WriteString(w, f.text)
					return
				}
			}
		}
		for _, f := range faults.List {
			b.oops(w, http.StatusUnprocessableEntity, f.Text+".")
			return
		}
		b.oops(w, http.StatusNotFound, "There is no such file.")
	}
}

// longestWord is how much a maker may have printed as given.
const longestWord = 120

func printed(raw url.Values, draw func(show.Paper) ([]*picture.Drawing, error)) ([]byte, error) {
	var p ask.Paper
	ask.Form(raw, p.Fields())
	for _, s := range []string{p.Maker, p.Batch, p.Date} {
		if len(s) > longestWord {
			return nil, fmt.Errorf("%q is longer than %d letters", s[:20]+"...", longestWord)
		}
	}
	on := show.Paper{Maker: p.Maker, Batch: p.Batch, Date: p.Date}
	if p.Page != "" {
		page, err := picture.PageNamed(p.Page)
		if err != nil {
			return nil, err
		}
		on.Page = page
	}
	pages, err := draw(on)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = picture.WritePDF(&out, pages...)
	return out.Bytes(), err
}

// card is the drawing of a weighing card.
func card(of func(show.Paper) picture.CardData) func(show.Paper) ([]*picture.Drawing, error) {
	return func(p show.Paper) ([]*picture.Drawing, error) {
		d, err := picture.Card(of(p))
		return []*picture.Drawing{d}, err
	}
}

// svg draws a chart at the two widths it is shown at.
func svg(c chart) (wide, narrow template.HTML, err error) {
	var out [2]template.HTML
	for i, width := range []float64{picture.DefaultWidth, picture.PhoneWidth} {
		d, err := c.draw(width)
		if err != nil {
			return "", "", err
		}
		var b bytes.Buffer
		if err := d.WriteSVG(&b); err != nil {
			return "", "", err
		}
		out[i] = template.HTML(b.String()) // escaped by its writer
	}
	return out[0], out[1], nil
}

// charted is a chart of data that fit the width when told it.
func charted[V any](after string, data V, frame func(*V) *picture.Frame, draw func(V) (*picture.Drawing, error)) chart {
	return chart{after, func(width float64) (*picture.Drawing, error) {
		v := data
		f := frame(&v)
		f.Width, f.Lead, f.Notes = width, worded(f.Lead, nil), slices.Clone(f.Notes)
		for i, n := range f.Notes {
			f.Notes[i] = worded(n, nil)
		}
		return draw(v)
	}}
}
