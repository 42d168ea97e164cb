package page

import (
	"net/url"
	"slices"
	"strings"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/formulate/absorption"
)

// A question is one page: a form over the fields of package ask, and what
// answers it. It says which fields the page takes; a field that stands in no
// input, such as the name of a file, cannot be reached from outside.
type question struct {
	path   string // "mull"; also the command's name
	title  string
	lead   string
	prompt string // what to do first, where nothing has been asked yet
	needs  string // the field without which nothing has been asked
	groups []group
	begin  map[string]string // what an untouched input holds, by field
	head   []string          // labels of the fields that lead the answer
	paper  string            // what can be printed, "" for nothing
	// leaveOut names the fields that the page does not take: files, and what
	// goes with them.
	leaveOut  []string
	noCommand bool // the command line asks it through a file
	start     func() asked
}

// asked is a question being put: a question of package ask with its answer.
type asked interface {
	Fields() []ask.Field
	answer(desk) (*answer, error)
}

// A group is a part of a form.
type group struct {
	title  string
	hint   string
	folded bool
	inputs []input
	more   []input // seldom said, folded away inside
}

// kind is how a field is filled in.
type kind string

const (
	textInput   kind = "text"   // one line
	choiceInput kind = "choice" // one of a list
	checkInput  kind = "check"  // yes or no
	nameInput   kind = "name"   // one material
	namesInput  kind = "names"  // materials, each with what stands beside it
	textsInput  kind = "texts"  // several lines
	eitherInput kind = "either" // one field of a group, and its value
	bodyInput   kind = "body"   // named bodies and a slider between them
	marksInput  kind = "marks"  // any of a list
	areaInput   kind = "area"   // many lines
)

// An input is one thing to fill in. It stands for one field, or for a group of
// fields of which one is given.
type input struct {
	kind    kind
	name    string
	label   string
	hint    string // the field's help where empty
	list    string // the catalogue that completes a name
	beside  string // what stands beside each name
	options []option
	single  bool   // names of which there is one
	slide   bool   // an amount with a slider
	lean    bool   // a body that may also be said as PVC
	usual   string // what a body is where none is said, "" where one always is
}

// An option is one of a list: the field's text, or the field of a group.
type option struct {
	value, label string
}

func (in input) fields() []string {
	switch in.kind {
	case eitherInput:
		names := make([]string, len(in.options))
		for i, o := range in.options {
			names[i] = o.value
		}
		return names
	case bodyInput:
		if in.lean {
			return []string{"body", "pvc", "reduced-pvc"}
		}
		return []string{"body"}
	}
	return []string{in.name}
}

// keys of an input in a submitted form, which are not those of the fields where
// the form takes a field apart.
func (in input) keys() []string {
	switch in.kind {
	case namesInput:
		return []string{in.name, in.name + ".beside"}
	case eitherInput:
		return []string{in.name + ".of", in.name + ".is"}
	case bodyInput:
		return []string{"body.is", "body.ratio", "body.pvc", "body.reduced"}
	}
	return []string{in.name}
}

func (q *question) inputs() []input {
	var list []input
	for _, g := range q.groups {
		list = append(append(list, g.inputs...), g.more...)
	}
	return list
}

// plain turns a submitted form into the values of the fields, and nothing else:
// a name that no input knows is dropped. What was typed is kept as it was.
func (q *question) plain(raw url.Values) url.Values {
	out := url.Values{}
	for _, in := range q.inputs() {
		touched := false
		for _, k := range slices.Concat(in.keys(), in.fields()) {
			touched = touched || raw.Has(k)
		}
		for _, f := range in.fields() {
			if text := q.begin[f]; !touched && text != "" {
				out.Set(f, text)
			}
			if v := given(raw[f]); len(v) > 0 && in.kind != namesInput {
				out[f] = v
			}
		}
		in.gather(raw, out)
	}
	return out
}

// gather puts together what the form takes apart.
func (in input) gather(raw, out url.Values) {
	switch in.kind {
	case namesInput:
		beside := raw[in.name+".beside"]
		var list []string
		for i, name := range raw[in.name] {
			text := strings.TrimSpace(name)
			if i < len(beside) {
				if v := strings.TrimSpace(beside[i]); v != "" {
					text += "=" + v
				}
			}
			if text != "" {
				list = append(list, text)
			}
		}
		if len(list) > 0 {
			out[in.name] = list
		}
	case eitherInput:
		if v := strings.TrimSpace(raw.Get(in.name + ".is")); v != "" {
			out[in.chosen(raw)] = []string{v}
		}
	case bodyInput:
		for is, f := range map[string]string{"ratio": "body", "pvc": "pvc", "reduced": "reduced-pvc"} {
			if raw.Get("body.is") == is && (in.lean || is == "ratio") {
				if v := strings.TrimSpace(raw.Get("body." + is)); v != "" {
					out[f] = []string{v}
				}
				return
			}
		}
		if v := strings.TrimSpace(raw.Get("body.is")); v != "" {
			out["body"] = []string{v}
		}
	}
}

// chosen is the field of a group that a form chooses.
func (in input) chosen(raw url.Values) string {
	of := raw.Get(in.name + ".of")
	for _, o := range in.options {
		if o.value == of {
			return of
		}
	}
	return in.options[0].value
}

func given(list []string) []string {
	var out []string
	for _, s := range list {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// sliderSpan is how far the body slider reaches: a little beyond the named
// steps, in whole twentieths.
func sliderSpan() (least, most absorption.Body) {
	steps := absorption.Steps()
	soft, stiff := steps[len(steps)-1], steps[0]
	return absorption.Body(int(soft.Low*20)) / 20, absorption.Body(int(stiff.High*20)+1) / 20
}
