package ask

import (
	"fmt"
	"maps"
	"math"
	"net/url"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate"
)

// quick asks for few draws: the decisions are the same functions.
var quick = formulate.Sampling{Draws: 48}

// decisions answers the questions of a submitted form, each by name.
var decisions = map[string]func(w *Workshop, form url.Values) (any, error){
	"Compare": func(w *Workshop, form url.Values) (any, error) {
		var q Compare
		Form(form, q.Fields())
		req, err := q.Request(w, quick)
		return decided(req, err, formulate.Compare)
	},
	"Ink": func(w *Workshop, form url.Values) (any, error) {
		var q Ink
		Form(form, q.Fields())
		req, err := q.Request(w, quick)
		return decided(req, err, formulate.Ink)
	},
	"Mull": func(w *Workshop, form url.Values) (any, error) {
		var q Mull
		Form(form, q.Fields())
		req, err := q.Request(w, quick)
		return decided(req, err, formulate.Mull)
	},
	"Correct": func(w *Workshop, form url.Values) (any, error) {
		var q Correct
		Form(form, q.Fields())
		q.From = "" // names a file
		req, err := q.Request(w, quick)
		return decided(req, err, formulate.Correct)
	},
	"RubOut": func(w *Workshop, form url.Values) (any, error) {
		var q RubOut
		Form(form, q.Fields())
		req, err := q.Request(w)
		return decided(req, err, formulate.RubOut)
	},
	"Settle": func(w *Workshop, form url.Values) (any, error) {
		var q Settle
		Form(form, q.Fields())
		req, err := q.Request(w, quick)
		return decided(req, err, formulate.Settle)
	},
	"Solution": func(w *Workshop, form url.Values) (any, error) {
		var q Solution
		Form(form, q.Fields())
		req, err := q.Request(w)
		return decided(req, err, formulate.Solution)
	},
	"Thin": func(w *Workshop, form url.Values) (any, error) {
		var q Thin
		Form(form, q.Fields())
		q.Formula = "" // names a file
		req, err := q.Request(w, quick)
		return decided(req, err, formulate.Thin)
	},
	"Watercolour": func(w *Workshop, form url.Values) (any, error) {
		var q Watercolour
		Form(form, q.Fields())
		req, err := q.Request(w, quick)
		return decided(req, err, formulate.Watercolour)
	},
	"Yield": func(w *Workshop, form url.Values) (any, error) {
		var q Yield
		Form(form, q.Fields())
		req, err := q.Request(w)
		return decided(req, err, formulate.Yield)
	},
}

// decided runs a decision on a request, where there is one.
func decided[Q, R any](req Q, err error, decide func(Q) (R, error)) (any, error) {
	if err != nil {
		return nil, err
	}
	return decide(req)
}

// fuzzRequests answers every question a form can ask.
func fuzzRequests(t *testing.T, w *Workshop, form url.Values) {
	t.Helper()
	for name, decide := range decisions {
		res, err := decide(w, form)
		if err != nil {
			if err.Error() == "" {
				t.Fatalf("%s: %v: refused without a word", name, form)
			}
			continue
		}
		if where := notFinite(reflect.ValueOf(res), name, 0); where != "" {
			t.Fatalf("%v: %s", form, where)
		}
	}
}

// notFinite names the first number of a result that is not one.
func notFinite(v reflect.Value, path string, depth int) string {
	if depth > 12 {
		return ""
	}
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return fmt.Sprintf("%s is %v", path, f)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return notFinite(v.Elem(), path, depth+1)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if where := notFinite(v.Index(i), fmt.Sprintf("%s[%d]", path, i), depth+1); where != "" {
				return where
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() || f.Name == "ClearsFrom" && math.IsInf(v.Field(i).Float(), 1) {
				continue // a closed room never clears
			}
			if where := notFinite(v.Field(i), path+"."+f.Name, depth+1); where != "" {
				return where
			}
		}
	}
	return ""
}

// sound are forms that each get an answer.
var sound = map[string]string{
	"Compare":     "pigments=cobalt-blue&pigments=ultramarine-blue&at=pvc&pvc=40%25",
	"Correct":     "pigments=ultramarine-blue&pigment-mass=20g&paste-mass=34g&have=5g",
	"Ink":         "pigments=lamp-black&bottle=2x30ml&for=brush&grain=1-4um",
	"Mull":        "pigments=yellow-ochre%3D2&pigments=raw-umber&pigment-mass=60g&oil=walnut-oil&wax=beeswax%3D2%25&slab=30x40cm&moisture=5%25",
	"RubOut":      "pigment=prussian-blue&pigment-mass=5g&took=2.05g&took=2.11g",
	"Settle":      "of=yellow-ochre&time=45s&depth=12cm",
	"Solution":    "of=gum-arabic&strength=30%25&amount=100g&humectant=glycerine%3D0.5",
	"Thin":        "pigments=raw-umber&medium=stand-oil&solvent=turpentine&parts=1:1:2&area=30x40cm&wet-film=25um&room=30m3&over=4h",
	"Watercolour": "pigments=ultramarine-blue&pans=6xhalf&symptom=cracks",
	"Yield":       "reaction=3+K4%5BFe(CN)6%5D+%2B+4+FeCl3+-%3E+Fe4%5BFe(CN)6%5D3+%2B+12+KCl&weighed=FeCl3%3D8.5g&weighed=K4%5BFe(CN)6%5D%3D14g&got=9g",
}

// Each sound form is answered with numbers only.
func TestSoundForms(t *testing.T) {
	w := opened(t)
	for name, decide := range decisions {
		form, err := url.ParseQuery(sound[name])
		if err != nil {
			t.Fatal(err)
		}
		res, err := decide(w, form)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if where := notFinite(reflect.ValueOf(res), name, 0); where != "" {
			t.Error(where)
		}
	}
}

func opened(t testing.TB) *Workshop {
	t.Helper()
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// plausible are things that a maker may write somewhere, the extremes included:
// what is right for one field is wrong for another.
var plausible = []string{
	"50g", "0.001g", "1e-6 g", "1e7 g", "2 lb", "40ml", "0.001 ml", "10 l", "3x40ml", "10000x1ml", "12xhalf", "6xfull",
	"5%", "0%", "100%", "99.9%", "0.01%", "45 %", "0.8", "1", "0", "1e6", "1.3", "1:1", "1:1:2", "0:1", "1:1000", "100%",
	"prussian-blue", "ultramarine-blue=2", "chalk=10%", "lamp-black", "zinc-white=0.001", "linseed-oil", "stand-oil=3", "turpentine", "white-spirit", "damar-varnish", "gum-arabic", "beeswax=2%", "glycerine=0.5", "phenoxyethanol=0.5%", "vinegar", "water", "none",
	"prussian-blue=0.12/g", "prussian-blue=2.1g/5ml", "2.05g on 5g", "67 drops", "3.2ml",
	"stiff", "flowing", "buttery", "mass", "volume", "spoon", "dry", "damp", "cracks", "gum", "oil", "shellac", "brush", "relief-print", "pvc", "body", "same-oil", "same-volume", "at-once", "evenly", "fast-first", "true",
	"20 C", "-20 C", "90 C", "25um", "0.01um", "1-5um", "10 mm", "30x40cm", "0.1x0.1mm", "5g/m2", "0 g/m2", "30m3", "0.01 m3", "2/h", "0/h", "1000/h", "4h", "0.001 s", "1e9 s", "2.7g/ml", "0.001 g/ml", "25 g/ml", "40g/100g", "2000 g/100g",
	"FeCl3=8.5g", "Fe4[Fe(CN)6]3", "5 ml=7.4g", "0-2%",
}

// Whatever plausible things are said, a question is refused with a word or
// answered with numbers: first each thing alone in each field of a sound
// question, then any of those that were understood together.
func TestPlausibleQuestions(t *testing.T) {
	w := opened(t)
	for name, decide := range decisions {
		t.Run(name, func(t *testing.T) {
			base, err := url.ParseQuery(sound[name])
			if err != nil {
				t.Fatal(err)
			}
			fields := questions[name]()
			ask := func(t rapid.TB, form url.Values) (understood bool) {
				res, err := decide(w, form)
				if err != nil {
					if err.Error() == "" {
						t.Fatalf("%v: refused without a word", form.Encode())
					}
					return false
				}
				if where := notFinite(reflect.ValueOf(res), name, 0); where != "" {
					t.Fatalf("%s\n%v", where, form.Encode())
				}
				return true
			}
			// say changes one field, and takes others of its group away.
			say := func(form url.Values, f Field, values ...string) url.Values {
				form = maps.Clone(form)
				for _, g := range fields {
					if f.Either != "" && g.Either == f.Either {
						form.Del(g.Name)
					}
				}
				form[f.Name] = values
				return form
			}
			understood := map[string][]string{}
			for _, f := range fields {
				for _, v := range plausible {
					if ask(t, say(base, f, v)) {
						understood[f.Name] = append(understood[f.Name], v)
					}
				}
			}
			rapid.Check(t, func(t *rapid.T) {
				form := base
				for range rapid.IntRange(2, 8).Draw(t, "changes") {
					f := fields[rapid.IntRange(0, len(fields)-1).Draw(t, "field")]
					if list := understood[f.Name]; len(list) > 0 {
						form = say(form, f, rapid.SampledFrom(list).Draw(t, f.Name))
					}
				}
				ask(t, form)
			})
		})
	}
}
