package ask

import (
	"go/ast"
	"go/parser"
	"go/token"
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/pflag"
	"pgregory.net/rapid"
)

// questions makes every question there is, empty. TestEveryQuestionIsHere keeps
// the list whole.
var questions = map[string]func() []Field{
	"BookAdd":        func() []Field { return new(BookAdd).Fields() },
	"BookRepeat":     func() []Field { return new(BookRepeat).Fields() },
	"BookStock":      func() []Field { return new(BookStock).Fields() },
	"Compare":        func() []Field { return new(Compare).Fields() },
	"Correct":        func() []Field { return new(Correct).Fields() },
	"Ink":            func() []Field { return new(Ink).Fields() },
	"Label":          func() []Field { return new(Label).Fields() },
	"Layer":          func() []Field { return new(Layer).Fields() },
	"Mull":           func() []Field { return new(Mull).Fields() },
	"Paper":          func() []Field { return new(Paper).Fields() },
	"PowderBulk":     func() []Field { return new(PowderBulk).Fields() },
	"PowderCake":     func() []Field { return new(PowderCake).Fields() },
	"PowderDensity":  func() []Field { return new(PowderDensity).Fields() },
	"PowderFineness": func() []Field { return new(PowderFineness).Fields() },
	"PowderJar":      func() []Field { return new(PowderJar).Fields() },
	"PowderMoisture": func() []Field { return new(PowderMoisture).Fields() },
	"PowderSurface":  func() []Field { return new(PowderSurface).Fields() },
	"RubOut":         func() []Field { return new(RubOut).Fields() },
	"Settle":         func() []Field { return new(Settle).Fields() },
	"Solution":       func() []Field { return new(Solution).Fields() },
	"Swatch":         func() []Field { return new(Swatch).Fields() },
	"Thin":           func() []Field { return new(Thin).Fields() },
	"Watercolour":    func() []Field { return new(Watercolour).Fields() },
	"Yield":          func() []Field { return new(Yield).Fields() },
}

// Every type of this package that has Fields stands in the list above.
func TestEveryQuestionIsHere(t *testing.T) {
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Recv == nil || f.Name.Name != "Fields" {
				continue
			}
			name := f.Recv.List[0].Type.(*ast.StarExpr).X.(*ast.Ident).Name
			found++
			if questions[name] == nil {
				t.Errorf("%s has fields but is not tested", name)
			}
		}
	}
	if found != len(questions) {
		t.Errorf("%d types have fields, %d are tested", found, len(questions))
	}
}

// Each field points at one thing, has a name that can be a flag and a key, and
// says what it is; no two share a name or a place.
func TestFieldsAreSound(t *testing.T) {
	for name, question := range questions {
		names, places := map[string]bool{}, map[any]bool{}
		for _, f := range question() {
			if names[f.Name] || f.Name != strings.ToLower(f.Name) || strings.ContainsAny(f.Name, " _.=") || f.Name == "" {
				t.Errorf("%s: field name %q is taken or cannot be a key", name, f.Name)
			}
			names[f.Name] = true
			if f.Help == "" {
				t.Errorf("%s: %s says nothing of itself", name, f.Name)
			}
			pointers := 0
			for _, p := range []any{f.One, f.Many, f.Yes} {
				switch p := p.(type) {
				case *string:
					if p == nil {
						continue
					}
				case *[]string:
					if p == nil {
						continue
					}
				case *bool:
					if p == nil {
						continue
					}
				}
				pointers++
				if places[p] {
					t.Errorf("%s: %s fills the place of another field", name, f.Name)
				}
				places[p] = true
			}
			if pointers != 1 {
				t.Errorf("%s: %s points at %d places, want 1", name, f.Name, pointers)
			}
			if f.set() {
				t.Errorf("%s: %s is set in an empty question", name, f.Name)
			}
		}
	}
}

// answer draws one thing a maker may write: any text, awkward ones included.
func answer() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.SampledFrom([]string{"50g", "prussian-blue=2", `say "aye"`, `back\slash`, "it's", "a = b", "[mull]", "# not a comment", "one\ntwo", "tab\there", "'''", `"""`, "é½µ·", "\u2028", "true", "12", "="}),
		rapid.StringN(1, 12, -1),
	)
}

// fillIn fills some of the fields and returns what was filled. With form set
// the texts are as a form hands them on: trimmed and not empty.
func fillIn(t *rapid.T, fields []Field, form bool) map[string]any {
	text := answer()
	if form {
		text = rapid.Map(answer(), strings.TrimSpace).Filter(func(s string) bool { return s != "" })
	}
	in := map[string]any{}
	for _, f := range fields {
		if !rapid.Bool().Draw(t, "give "+f.Name) {
			continue
		}
		switch {
		case f.One != nil:
			*f.One = text.Draw(t, f.Name)
			in[f.Name] = *f.One
		case f.Many != nil:
			*f.Many = rapid.SliceOfN(text, 1, 4).Draw(t, f.Name)
			in[f.Name] = append([]string(nil), *f.Many...)
		default:
			*f.Yes = true
			in[f.Name] = true
		}
	}
	return in
}

// given reads fields back.
func givenIn(fields []Field) map[string]any {
	out := map[string]any{}
	for _, f := range fields {
		if !f.set() {
			continue
		}
		switch {
		case f.One != nil:
			out[f.Name] = *f.One
		case f.Many != nil:
			out[f.Name] = append([]string(nil), *f.Many...)
		default:
			out[f.Name] = *f.Yes
		}
	}
	return out
}

// A question saved and loaded again is the same question.
func TestSaveLoadRoundTrip(t *testing.T) {
	for name, question := range questions {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				from := question()
				want := fillIn(t, from, false)
				text, err := Save("table", from)
				if err != nil {
					t.Fatal(err)
				}
				to := question()
				if err := Load("f.toml", text, "table", to); err != nil {
					t.Fatalf("%v\n%s", err, text)
				}
				if diff := cmp.Diff(want, givenIn(to)); diff != "" {
					t.Fatalf("%s\n%s", diff, text)
				}
				again, err := Save("table", to)
				if err != nil || again != text {
					t.Fatalf("saved again it reads\n%s\nnot\n%s", again, text)
				}
			})
		})
	}
}

// A question sent as a form and read back is the same question.
func TestFormRoundTrip(t *testing.T) {
	for name, question := range questions {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				from := question()
				want := fillIn(t, from, true)
				sent, err := url.ParseQuery(Values(from).Encode())
				if err != nil {
					t.Fatal(err)
				}
				to := question()
				Form(sent, to)
				if diff := cmp.Diff(want, givenIn(to)); diff != "" {
					t.Fatal(diff)
				}
			})
		})
	}
}

// A question given as flags is the question.
func TestFlagRoundTrip(t *testing.T) {
	for name, question := range questions {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				from := question()
				want := fillIn(t, from, false)
				var args []string
				for _, f := range from {
					switch {
					case f.FileOnly:
						delete(want, f.Name)
					case !f.set():
					case f.One != nil:
						args = append(args, "--"+f.Name, *f.One)
					case f.Many != nil:
						for _, s := range *f.Many {
							args = append(args, "--"+f.Name+"="+s)
						}
					default:
						args = append(args, "--"+f.Name)
					}
				}
				to := question()
				fs := pflag.NewFlagSet("test", pflag.ContinueOnError)
				BindFlags(fs, to)
				if err := fs.Parse(args); err != nil {
					t.Fatalf("%q: %v", args, err)
				}
				if diff := cmp.Diff(want, givenIn(to)); diff != "" {
					t.Fatal(diff)
				}
			})
		})
	}
}

// What a form leaves out stays; what it sends empty is cleared.
func TestFormLeavesAndClears(t *testing.T) {
	m := Mull{Pigments: []string{"a"}, Body: "stiff", Loss: "5%", Knowingly: true, Oils: []string{"x", "y"}}
	Form(url.Values{"body": {"soft", " buttery "}, "loss": {""}, "oil": {" ", "walnut-oil ", ""}, "above-critical": {"false"}, "unknown": {"1"}}, m.Fields())
	want := Mull{Pigments: []string{"a"}, Body: "buttery", Oils: []string{"walnut-oil"}}
	if diff := cmp.Diff(want, m); diff != "" {
		t.Error(diff)
	}
}

// Conflicts finds two fields of one group; the quick look of a mull agrees.
func TestConflictsAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var m Mull
		fillIn(t, m.Fields(), false)
		groups := map[string]int{}
		for _, f := range m.Fields() {
			if f.set() && f.Either != "" {
				groups[f.Either]++
			}
		}
		err := Conflicts(m.Fields())
		if want := groups["amount"] > 1 || groups["stiffness"] > 1; (err != nil) != want || m.conflicting() != want {
			t.Fatalf("%v: Conflicts says %v, conflicting %v", groups, err, m.conflicting())
		}
	})
	m := Mull{PigmentMass: "5g", Tubes: "3x40ml", Body: "soft", PVC: "40%"}
	if err := Conflicts(m.Fields()); err == nil || err.Error() != "--pigment-mass and --tubes are given together; give one amount" {
		t.Errorf("got %v", err)
	}
}

// What is given lies over the base, and takes the others of its group away.
func TestOverride(t *testing.T) {
	base := Mull{Pigments: []string{"a", "b"}, PaintMass: "100g", Body: "stiff", Loss: "5%", Knowingly: true}
	given := Mull{PigmentMass: "20g", PVC: "40%", Oils: []string{"walnut-oil"}}
	Override(base.Fields(), given.Fields())
	want := Mull{Pigments: []string{"a", "b"}, PigmentMass: "20g", PVC: "40%", Oils: []string{"walnut-oil"}, Loss: "5%", Knowingly: true}
	if diff := cmp.Diff(want, base); diff != "" {
		t.Error(diff)
	}
	given.Oils[0] = "changed"
	if base.Oils[0] != "walnut-oil" {
		t.Error("base and given share one list")
	}
}

// Every fault of a formula file is reported, in order, with line and key.
func TestLoadFaults(t *testing.T) {
	tests := []struct {
		name, text string
		want       []string
	}{
		{"sound", "[mull]\npigments = \"prussian-blue\"\n", nil},
		{"empty", "", []string{"f.toml: no [mull] table in it"}},
		{"table is a value", "mull = 3\n", []string{"f.toml: no [mull] table in it"}},
		{"other table", "[mull]\nbody = \"soft\"\n[mall]\n", []string{"f.toml:3: mall: unknown table; this file should hold [mull]"}},
		{"unknown key", "[mull]\nbodi = \"soft\"\n", []string{"f.toml:2: mull.bodi: unknown key; accepted: pigments, oil, "}},
		{"number for text", "[mull]\nbody = 0.8\n", []string{"f.toml:2: mull.body: want text in quotes, such as \"0.8\""}},
		{"number in a list", "[mull]\npigments = [\"a\", 3]\n", []string{"f.toml:2: mull.pigments: want a list of texts, found 3"}},
		{"number for a list", "[mull]\npigments = 3\n", []string{"f.toml:2: mull.pigments: want text or a list of texts"}},
		{"text for yes", "[mull]\nabove-critical = \"yes\"\n", []string{"f.toml:2: mull.above-critical: want true or false"}},
		{"three at once", "[mull]\nx = 1\nbody = 1\n\nabove-critical = 1\n", []string{"f.toml:2: mull.x: ", "f.toml:3: mull.body: ", "f.toml:5: mull.above-critical: "}},
		{"syntax", "[mull]\nbody = soft\n", []string{"f.toml:2: "}},
		{"key twice", "[mull]\nbody = \"soft\"\nbody = \"stiff\"\n", []string{"f.toml:3: "}},
		{"upper case", "[mull]\nBody = \"soft\"\n", []string{"f.toml:2: mull.Body: unknown key"}},
		{"not a number", "[mull]\nbody = nan\n", []string{"f.toml:2: mull.body: want text in quotes"}},
	}
	for _, tt := range tests {
		var m Mull
		err := Load("f.toml", tt.text, "mull", m.Fields())
		var got []string
		if err != nil {
			got = strings.Split(err.Error(), "\n")
		}
		if len(got) != len(tt.want) {
			t.Errorf("%s: got %q, want %d faults", tt.name, got, len(tt.want))
			continue
		}
		for i, want := range tt.want {
			if !strings.HasPrefix(got[i], want) {
				t.Errorf("%s: got %q, want %q", tt.name, got[i], want)
			}
		}
	}
}

// Whatever stands in a formula file, it is read whole or refused with the file's
// name; what is read saves and loads as the same.
func FuzzLoad(f *testing.F) {
	for _, s := range []string{
		"[mull]\npigments = [\"prussian-blue=2\", \"zinc-white\"]\nbody = \"soft\"\nabove-critical = true\n",
		"[mull]\nbody = 3\n", "[mull.body]\n", "[[mull]]\nbody = \"a\"\n", "mull = {body = \"soft\"}\n", "[mull]\nbody = nan\n", "[Mull]\n", "mull.body = \"x\"\n[mull]\n", "\ufeff[mull]\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var m Mull
		if err := Load("f.toml", text, "mull", m.Fields()); err != nil {
			for _, line := range strings.SplitAfter(err.Error(), "\nf.toml") {
				if line == "" || !strings.Contains(err.Error(), "f.toml") {
					t.Fatalf("%q: %v does not name the file", text, err)
				}
			}
			return
		}
		saved, err := Save("mull", m.Fields())
		if err != nil {
			t.Fatal(err)
		}
		var back Mull
		if err := Load("f.toml", saved, "mull", back.Fields()); err != nil {
			t.Fatalf("%q saves as %q: %v", text, saved, err)
		}
		if diff := cmp.Diff(givenIn(m.Fields()), givenIn(back.Fields())); diff != "" {
			t.Fatalf("%q saves as %q: %s", text, saved, diff)
		}
	})
}

// Whatever a form sends, no question panics, and what is understood is refused
// with words or is a request.
func FuzzForm(f *testing.F) {
	for _, s := range []string{
		"pigments=prussian-blue&pigment-mass=50g", "pigments=&pigments=&oil=linseed-oil%3D2", "above-critical=false&above-critical=1", "body=%00&loss=110%25", "tubes=3x40ml&fill=0", "pigments=chalk&paint-volume=1e7l&pvc=99%25&slab=1x1cm",
	} {
		f.Add(s)
	}
	for _, s := range sound {
		f.Add(s)
	}
	w := opened(f)
	f.Fuzz(func(t *testing.T, body string) {
		values, err := url.ParseQuery(body)
		if err != nil {
			return
		}
		for name, question := range questions {
			fields := question()
			Form(values, fields)
			again := question()
			Form(Values(fields), again)
			if diff := cmp.Diff(givenIn(fields), givenIn(again)); diff != "" {
				t.Fatalf("%s: %q: %s", name, body, diff)
			}
		}
		fuzzRequests(t, w, values)
	})
}
