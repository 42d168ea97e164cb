package page

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/formulate/absorption"
)

// formView is a form to show: what was typed, and what is wrong with it.
type formView struct {
	Path    string
	Groups  []groupView
	Explain bool
	Lists   []listView
}

type groupView struct {
	Title  string
	Hint   string
	Folded bool
	Inputs []inputView
	More   *groupView // what is seldom said
}

// inputView is one input, with its parts as they stand.
type inputView struct {
	Kind    kind
	ID      string
	Name    string
	Label   string
	Plain   bool // the group's title says it already
	Hint    string
	Error   string
	List    string
	Beside  string
	Value   string
	On      bool
	Options []optionView
	Rows    []rowView
	Slide   bool
	Body    *bodyView
	Pick    string // where to choose by looking, bringing what is filled in
	PickFor string // the same without
	Fields  string // the fields it stands for, for the script
}

type optionView struct {
	Value, Label string
	On           bool
}

// rowView is one of several: a name and what stands beside it.
type rowView struct {
	N             int
	ID            string
	Value, Beside string
	Found         string // the material's own name
	Ink           string
}

// bodyView is the body: one of the named steps, or the slider, or a PVC.
type bodyView struct {
	Steps        []stepView
	Is           string
	Least, Most  string
	Ratio        string
	PVC, Reduced string
	Lean         bool
	Usual        string
}

type stepView struct {
	Name, Feel, At string
	On             bool
}

// listView is a datalist.
type listView struct {
	ID    string
	Names []string
}

// form lays a question out as a form that holds the values.
func (b *Bench) form(q *question, raw, values url.Values, fields []ask.Field, faults faultsView) *formView {
	help := map[string]ask.Field{}
	for _, f := range fields {
		help[f.Name] = f
	}
	v := &formView{Path: "/" + q.path}
	for _, g := range q.groups {
		v.Groups = append(v.Groups, b.group(q, g, raw, values, help, faults, v))
	}
	return v
}

// group lays out one part of a form. A folded part is open where something in it
// was said or is wrong.
func (b *Bench) group(q *question, g group, raw, values url.Values, help map[string]ask.Field, faults faultsView, form *formView) groupView {
	v := groupView{Title: g.title, Hint: g.hint, Folded: g.folded}
	for _, in := range g.inputs {
		iv := b.input(q, in, raw, values, help)
		for _, f := range in.fields() {
			if text := faults.at[f]; text != "" && iv.Error == "" {
				iv.Error = text
			}
			if iv.Error != "" || values.Has(f) && values.Get(f) != q.begin[f] {
				v.Folded = false
			}
		}
		if in.list != "" && !slices.ContainsFunc(form.Lists, func(l listView) bool { return l.ID == in.list }) {
			form.Lists = append(form.Lists, listView{in.list, b.names(in.list)})
		}
		iv.Plain = iv.Label == g.title
		v.Inputs = append(v.Inputs, iv)
	}
	if len(g.more) > 0 {
		more := b.group(q, group{title: g.title, folded: true, inputs: g.more}, raw, values, help, faults, form)
		v.More = &more
		v.Folded = v.Folded && more.Folded
	}
	return v
}

func (b *Bench) input(q *question, in input, raw, values url.Values, help map[string]ask.Field) inputView {
	v := inputView{Kind: in.kind, ID: strings.ReplaceAll(in.name, ".", "-"), Name: in.name, Label: in.label, Hint: in.hint,
		List: in.list, Beside: in.beside, Slide: in.slide, Fields: strings.Join(in.fields(), " ")}
	if v.Hint == "" && len(in.options) == 0 && in.kind != checkInput && in.kind != bodyInput {
		v.Hint = worded(help[in.name].Help, q)
	}
	switch in.kind {
	case namesInput:
		list := slices.Clone(values[in.name])
		if !in.single || len(list) == 0 {
			list = append(list, "")
		}
		for i, text := range list {
			name, beside, _ := strings.Cut(text, "=")
			row := rowView{N: i + 1, ID: v.ID + "-" + strconv.Itoa(i+1), Value: name, Beside: beside}
			if name != "" {
				row.Found, row.Ink = b.known(in.list, name)
			}
			v.Rows = append(v.Rows, row)
		}
		if in.list == pigmentList {
			v.PickFor = "/pigments?" + url.Values{"for": {q.path}, "in": {in.name}}.Encode()
			v.Pick = v.PickFor + "&" + url.Values{"with": {values.Encode()}}.Encode()
		}
	case textsInput:
		for i, text := range append(slices.Clone(values[in.name]), "") {
			v.Rows = append(v.Rows, rowView{N: i + 1, ID: v.ID + "-" + strconv.Itoa(i+1), Value: text})
		}
	case eitherInput:
		of := in.chosen(raw)
		for _, o := range in.options {
			if values.Get(o.value) != "" {
				of = o.value
			}
		}
		v.Value = values.Get(of)
		for _, o := range in.options {
			v.Options = append(v.Options, optionView{o.value, o.label, o.value == of})
		}
	case bodyInput:
		v.Body = bodyOf(in, values, q.begin["body"])
	case marksInput:
		for _, o := range in.options {
			v.Options = append(v.Options, optionView{o.value, o.label, slices.Contains(values[in.name], o.value)})
		}
	case choiceInput:
		v.Value = values.Get(in.name)
		known := v.Value == ""
		for _, o := range in.options {
			v.Options = append(v.Options, optionView{o.value, o.label, o.value == v.Value})
			known = known || o.value == v.Value
		}
		if !known { // typed into the address
			v.Options = append(v.Options, optionView{v.Value, v.Value, true})
		}
	case checkInput:
		v.On = values.Get(in.name) != "" && values.Get(in.name) != "false"
	default:
		v.Value = values.Get(in.name)
	}
	return v
}

// bodyOf says how the body stands: by name, between, or as a PVC.
func bodyOf(in input, values url.Values, usual string) *bodyView {
	least, most := sliderSpan()
	v := &bodyView{Lean: in.lean, Least: bodyText(least), Most: bodyText(most), Usual: in.usual}
	if in.lean {
		v.PVC, v.Reduced = values.Get("pvc"), values.Get("reduced-pvc")
	}
	body := values.Get("body")
	steps := absorption.Steps()
	slices.Reverse(steps) // from runny to stiff, as the slider
	v.Is = "ratio"
	switch {
	case v.PVC != "":
		v.Is = "pvc"
	case v.Reduced != "":
		v.Is = "reduced"
	case body == "":
		v.Is = usual
	}
	v.Ratio = body
	for _, s := range steps {
		on := v.Is == "ratio" && strings.EqualFold(body, s.Name) || v.Is == s.Name
		if on {
			v.Is = s.Name
			v.Ratio = bodyText(s.Typical)
		}
		v.Steps = append(v.Steps, stepView{Name: s.Name, Feel: s.Feel, At: bodyText(s.Typical), On: on})
	}
	if v.Ratio == "" {
		v.Ratio = bodyText((least + most) / 2)
	}
	return v
}

func bodyText(b absorption.Body) string { return strconv.FormatFloat(float64(b), 'f', 2, 64) }

// faultsView is what is wrong with a question: what belongs to a field, and
// what to say of the whole.
type faultsView struct {
	at   map[string]string
	List []faultView
}

type faultView struct {
	Field string // the field at fault, "" for the whole
	Input string // the id of its input
	Label string
	Text  string
	Near  []link // what may be meant
}

// label is what the form calls a field.
func (q *question) label(field string) string {
	for _, in := range q.inputs() {
		for _, f := range in.fields() {
			if f != field {
				continue
			}
			if in.kind == eitherInput {
				for _, o := range in.options {
					if o.value == f {
						return o.label
					}
				}
			}
			if in.kind == bodyInput && f != "body" {
				return bodyWords[f]
			}
			return in.label
		}
	}
	return ""
}

var bodyWords = map[string]string{"pvc": "PVC", "reduced-pvc": "PVC over critical"}
