package page

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/formulate"
)

const testHost = "127.0.0.1:8040"

func listening(at string) Hosts { return HostsOf(net.TCPAddrFromAddrPort(mustAddr(at))) }

// newBench is a page over the shipped catalogues and, where given, the text of a
// catalogue file.
func newBench(t testing.TB, catalogue ...string) http.Handler {
	return benchOf(t, catalogue...).Handler(listening(testHost))
}

// quick is a page that draws no ranges, for tests that ask much.
func quick(t testing.TB, catalogue ...string) http.Handler {
	b := benchOf(t, catalogue...)
	b.sampling.Exact = true
	return b.Handler(listening(testHost))
}

func benchOf(t testing.TB, catalogue ...string) *Bench {
	t.Helper()
	w, err := ask.Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range catalogue {
		if err := w.Add("own.toml", text); err != nil {
			t.Fatal(err)
		}
	}
	b, err := New(func() (*Desk, error) { return &Desk{Workshop: w}, nil }, formulate.Sampling{})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func get(h http.Handler, path string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "http://"+testHost+path, nil))
	return w
}

// examples is a question for each page, as an address.
var examples = map[string]string{
	"mull":            "pigments=prussian-blue&paint-volume=40ml&body=buttery&slab=30x40cm",
	"correct":         "pigments=ultramarine-blue&pigment-mass=20g&oil-mass=14g",
	"thin":            "pigments=ultramarine-blue&medium=glaze-medium&solvent=turpentine&parts=1:1:2&room=30m3",
	"layers":          "layer-1.pigments=raw-umber&layer-1.solvent=turpentine&layer-1.parts=1:1&layer-1.wet-film=30um&layer-1.dried=7d&layer-2.pigments=ultramarine-blue&layer-2.wet-film=60um",
	"recipe":          url.Values{"recipe": {"30 g beeswax\n980 ml linseed oil\nsays 2 % beeswax"}}.Encode(),
	"label":           "pigments=prussian-blue&binder=linseed-oil&batch=7",
	"watercolour":     "pigments=ultramarine-blue&pans=12xhalf",
	"ink":             "pigments=lamp-black&bottle=30ml",
	"solution":        "of=gum-arabic&amount=200ml",
	"compare":         "pigments=prussian-blue&pigments=ultramarine-blue&sort=oil",
	"swatch":          "pigments=cobalt-yellow&tints=true&glazes=true",
	"rubout":          "pigment=prussian-blue&pigment-mass=5g&took=2.05g&took=2.11g",
	"powder/moisture": "pigment=yellow-ochre&damp=5.00g&dried=4.85g",
	"powder/bulk":     "vessel=50ml&empty=12.3g&full=34.8g&tapped=41ml",
	"powder/jar":      "pigment=chalk&jar=1l",
	"powder/density":  "pigment=chalk&powder=20g&before=50ml&after=57ml",
	"powder/fineness": "gauge=25um",
	"powder/surface":  "pigment=ultramarine-blue&size=2um&finer=1um",
	"powder/cake":     "stage=wet+cake%3D120g+at+62%25&stage=dried%3D44g",
	"settle":          "of=yellow-ochre&cut=20um",
	"yield":           url.Values{"reaction": {"CuSO4.5H2O + Na2CO3 -> CuCO3 + Na2SO4 + 5H2O"}, "weighed": {"CuSO4.5H2O=12.5g", "Na2CO3=6g"}, "got": {"5.9g"}}.Encode(),
}

// Every question answers, its page is whole, and says nothing that belongs to a
// command line.
func TestEveryQuestionAnswers(t *testing.T) {
	h := newBench(t)
	const most = 150 << 10
	for _, q := range allQuestions() {
		query, ok := examples[q.path]
		if !ok {
			t.Errorf("/%s has no example here", q.path)
			continue
		}
		for _, more := range []string{"", "&explain=true"} {
			r := get(h, "/"+q.path+"?"+query+more)
			page := r.Body.String()
			if r.Code != http.StatusOK {
				t.Errorf("/%s?%s: %d\n%s", q.path, query, r.Code, textOf(between(page, `<div class="faults"`, "</div>")))
				continue
			}
			wellFormed(t, q.path, page)
			if n := len(strings.ReplaceAll(page, between(page, "<svg", "</svg>"), "")); n > most {
				t.Errorf("/%s: %d bytes, want at most %d", q.path, n, most)
			}
			card := textOf(between(page, `<article class="card"`, `<div class="tools"`))
			for _, word := range []string{"--", "FILE", "'mullwright", ".toml"} {
				if i := strings.Index(card, word); i >= 0 {
					t.Errorf("/%s speaks to a command line: %q", q.path, card[max(0, i-60):min(len(card), i+40)])
				}
			}
		}
		fragment := get(h, "/"+q.path+"?"+query+"&fragment=1").Body.String()
		whole := get(h, "/"+q.path+"?"+query).Body.String()
		if !strings.Contains(whole, fragment) {
			t.Errorf("/%s: the fragment is not the answer of the page", q.path)
		}
	}
}

// A page that nothing was asked of says what to do, and finds no fault.
func TestUntouched(t *testing.T) {
	h := quick(t)
	for _, q := range allQuestions() {
		r := get(h, "/"+q.path)
		page := r.Body.String()
		if r.Code != http.StatusOK || !strings.Contains(page, strings.ReplaceAll(q.prompt, "'", "&#39;")) || strings.Contains(page, `class="faults"`) {
			t.Errorf("/%s: %d; want its prompt and no fault", q.path, r.Code)
		}
		wellFormed(t, q.path, page)
	}
	for _, path := range []string{"/", "/pigments", "/pigments?for=mull", "/pigments?q=ultra", "/pigments?family=blue&for=compare", "/pigments/prussian-blue", "/media", "/media?q=oil", "/media/linseed-oil"} {
		r := get(h, path)
		if r.Code != http.StatusOK {
			t.Errorf("%s: %d", path, r.Code)
		}
		wellFormed(t, path, r.Body.String())
	}
	for _, path := range []string{"/nothing", "/pigments/nothing", "/media/nothing", "/assets/0/page.css", "/book", "/pigments/..%2f..%2fgo.mod"} {
		if r := get(h, path); r.Code != http.StatusNotFound {
			t.Errorf("%s: %d, want 404", path, r.Code)
		}
	}
}

// Every field of a question can be filled in, but for those left out by name.
func TestEveryFieldHasAnInput(t *testing.T) {
	for _, q := range append(allQuestions(), batchQuestion(), stockQuestion(), repeatQuestion(1)) {
		shown := map[string]int{}
		for _, in := range q.inputs() {
			for _, f := range in.fields() {
				shown[f]++
			}
			if in.label == "" {
				t.Errorf("/%s: %s has no label", q.path, in.name)
			}
		}
		known := map[string]ask.Field{}
		for _, f := range q.start().Fields() {
			known[f.Name] = f
			left := slices.Contains(q.leaveOut, f.Name)
			if shown[f.Name]+count(left) != 1 {
				t.Errorf("/%s: %s stands in %d inputs, left out %v", q.path, f.Name, shown[f.Name], left)
			}
		}
		for f := range shown {
			if _, ok := known[f]; !ok {
				t.Errorf("/%s has an input %s that is no field", q.path, f)
			}
		}
		for _, f := range q.leaveOut {
			if _, ok := known[f]; !ok {
				t.Errorf("/%s leaves out %s, which is no field", q.path, f)
			}
		}
		if _, ok := known[q.needs]; q.needs != "" && !ok {
			t.Errorf("/%s needs %s, which is no field", q.path, q.needs)
		}
	}
}

func count(b bool) int {
	if b {
		return 1
	}
	return 0
}

// No word of a request reaches the file system: neither a field that takes a
// file elsewhere nor any other.
func TestNoFileIsReached(t *testing.T) {
	h := quick(t)
	secret := filepath.Join(t.TempDir(), "secret.toml")
	if err := os.WriteFile(secret, []byte("[mull]\npigments = [\"dragons-blood\"]\npaint-volume = \"40ml\"\n[watercolour]\npigments = [\"dragons-blood\"]\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, q := range allQuestions() {
		values, err := url.ParseQuery(examples[q.path])
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range q.start().Fields() {
			paths := []string{secret}
			if slices.Contains(q.leaveOut, f.Name) || f.Name == q.needs {
				paths = append(paths, "file://"+secret, "../../../../etc/passwd", "/dev/zero")
			}
			if strings.HasPrefix(f.Name, "layer-") && f.Name > "layer-3" {
				continue // as the first two
			}
			for _, path := range paths {
				with := url.Values{}
				for k, v := range values {
					with[k] = v
				}
				with[f.Name] = []string{path}
				page := get(h, "/"+q.path+"?"+with.Encode()).Body.String()
				if lower := strings.ToLower(page); strings.Contains(between(lower, "<article", "</article>"), "dragon") || strings.Contains(lower, "root:x") {
					t.Errorf("/%s: %s=%s was read", q.path, f.Name, path)
				}
				if slices.Contains(q.leaveOut, f.Name) && strings.Contains(page, path) {
					t.Errorf("/%s takes %s, which it should not", q.path, f.Name)
				}
			}
		}
	}
}

const hostile = `[pigment.alert]
name = "<script>alert(1)</script>"
synonyms = ["\"><img src=x onerror=alert(2)>"]
kind = "pigment"
family = "blue"
chemical = "{{.}} & 'so on'"
density = [{value = "4.0 g/ml", source = "own measurement"}]
oil-absorption = [{value = "40 g/100g", method = "rub-out", source = "own measurement", note = "<b onclick=alert(4)>"}]
[pigment.alert.hazards]
assessed = false
`

// A name out of a maker's file is shown as it is written and does nothing.
func TestHostileNames(t *testing.T) {
	h := quick(t, hostile)
	paths := []string{"/pigments", "/pigments?q=%3Cscript%3E", "/pigments?for=mull&with=%22%3E%3Cscript%3E&in=%22%3E%3Cscript%3E&family=%22%3E%3Cscript%3E", "/pigments/alert", "/swatch?pigments=alert", "/nothing/%3Cscript%3Ealert(1)%3C/script%3E"}
	for _, q := range []string{"mull", "correct", "compare", "thin", "watercolour", "ink", "label", "rubout"} {
		values := examples[q]
		values = regexp.MustCompile(`(pigments?)=[a-z-]+`).ReplaceAllString(values, "$1=alert")
		paths = append(paths, "/"+q+"?"+values, "/"+q+"?"+values+"&explain=true", "/"+q+"?"+values+"&fragment=1")
		for _, f := range allQuestions()[0].inputs() {
			paths = append(paths, "/"+q+"?"+values+"&"+f.name+"="+url.QueryEscape(`"><script>alert(5)</script>`))
		}
	}
	shown := 0
	for _, p := range paths {
		r := get(h, p)
		page := r.Body.String()
		wellFormed(t, p, page)
		for _, bad := range []string{"<script>alert", "<img", "onerror=alert(2)>", "<b onclick"} {
			body := strings.ReplaceAll(page, `<img src="/assets`, "")
			if strings.Contains(strings.ToLower(body), bad) {
				t.Errorf("%s: %q stands in the page", p, bad)
			}
		}
		if strings.Contains(page, "&lt;script&gt;alert(1)") {
			shown++
		}
	}
	if shown < 10 {
		t.Errorf("the name is shown on %d pages; the test looked at nothing", shown)
	}
}

// What was typed is kept and what is wrong stands at its field.
func TestFaultsStandAtTheField(t *testing.T) {
	h := quick(t)
	for _, c := range []struct{ name, path, input, kept, says string }{
		{"unknown pigment", "/mull?pigments=prusian-blue&paint-volume=40ml", "pigments", `value="prusian-blue"`, "closest: prussian-blue"},
		{"one tap away", "/mull?pigments=prusian-blue%3D2&paint-volume=40ml", "pigments", `href="/mull?body=buttery&amp;paint-volume=40ml&amp;pigments=prussian-blue%3D2"`, "no pigment is called"},
		{"one of several", "/mull?pigments=PR101&paint-volume=40ml", "pigments", `href="/mull?body=buttery&amp;paint-volume=40ml&amp;pigments=mars-red"`, "fits several"},
		{"no amount", "/mull?pigments=prussian-blue&amount.of=tubes&amount.is=", "amount", `value="tubes" selected`, "no amount given"},
		{"amount without unit", "/mull?pigments=prussian-blue&amount.of=paint-volume&amount.is=40", "amount", `value="40"`, "the unit is missing"},
		{"wrong unit", "/mull?pigments=prussian-blue&amount.of=paint-volume&amount.is=40g", "amount", `value="40g"`, "unit of mass"},
		{"two amounts", "/mull?pigments=prussian-blue&paint-volume=40ml&tubes=1x40ml", "amount", `value="1x40ml"`, "given together"},
		{"pvc too high", "/mull?pigments=prussian-blue&paint-volume=40ml&body.is=pvc&body.pvc=90%25", "", `value="90%"`, "critical"},
		{"body out of reach", "/mull?pigments=prussian-blue&paint-volume=40ml&body.is=ratio&body.ratio=7", "body", `>7<`, "out of reach"},
		{"share missing", "/mull?pigments=prussian-blue&paint-volume=40ml&extender=chalk&extender.beside=", "extender", `value="chalk"`, "the share is missing"},
		{"not a number", "/mull?pigments=prussian-blue&paint-volume=NaNml", "amount", `value="NaNml"`, "not a"},
		{"solvent for oil", "/mull?pigments=prussian-blue&paint-volume=40ml&oil=turpentine", "oil", `value="turpentine"`, "cannot be the oil"},
		{"paste unknown", "/correct?pigments=ultramarine-blue&pigment-mass=20g", "", `value="20g"`, "oil"},
		{"second layer without paint", "/layers?layer-1.pigments=raw-umber&layer-1.wet-film=30um&layer-2.wet-film=60um", "layer-2-pigments", `value="60um"`, "no paint"},
		{"layer with a wrong film", "/layers?layer-1.pigments=raw-umber&layer-1.wet-film=thick", "layer-1-wet-film", `value="thick"`, "thick"},
		{"gap between layers", "/layers?layer-1.pigments=raw-umber&layer-1.wet-film=30um&layer-3.pigments=raw-umber&layer-3.wet-film=9um", "layer-2-pigments", `value="9um"`, "from the ground up"},
		{"recipe", "/recipe?recipe=30+g+beeswax%0A7+x+of+nothing", "recipe", "7 x of nothing", "line 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := get(h, c.path)
			page := r.Body.String()
			if r.Code != http.StatusUnprocessableEntity {
				t.Errorf("%d, want 422", r.Code)
			}
			if !strings.Contains(page, c.kept) {
				t.Errorf("%s is not kept", c.kept)
			}
			faults := textOf(between(page, `<div class="faults"`, "</div>"))
			if !strings.Contains(faults, c.says) || strings.Contains(faults, "--") {
				t.Errorf("says %q, want %q in words", faults, c.says)
			}
			if c.input == "" {
				return
			}
			at := textOf(between(page, `id="`+c.input+`-error"`, "</p>"))
			if !strings.Contains(at, c.says) {
				t.Errorf("at %s stands %q, want %q", c.input, at, c.says)
			}
		})
	}
}

// A form shows its values so that sending it again asks the same: nothing is
// lost by a reload, and a bookmark is a question.
func TestFormKeepsValues(t *testing.T) {
	b := benchOf(t)
	all := append(allQuestions(), b.forms...)
	word := rapid.StringMatching(`[a-zA-Z0-9 .,:%"'<>&×µ-]{1,12}`).Filter(func(s string) bool { return strings.TrimSpace(s) == s })
	rapid.Check(t, func(rt *rapid.T) {
		q := rapid.SampledFrom(all).Draw(rt, "question")
		values := url.Values{}
		for _, in := range q.inputs() {
			if rapid.IntRange(0, 2).Draw(rt, "said") > 0 && in.kind != bodyInput {
				continue
			}
			switch in.kind {
			case eitherInput:
				values.Set(rapid.SampledFrom(in.options).Draw(rt, "of").value, word.Draw(rt, "text"))
			case bodyInput:
				values.Set("body", rapid.SampledFrom([]string{"stiff", "buttery", "soft", "flowing", "0.77"}).Draw(rt, "body"))
			case choiceInput:
				if v := rapid.SampledFrom(in.options).Draw(rt, "choice").value; v != "" {
					values.Set(in.name, v)
				}
			case checkInput:
				values.Set(in.name, "true")
			case marksInput:
				values.Set(in.name, rapid.SampledFrom(in.options).Draw(rt, "mark").value)
			case namesInput:
				for range rapid.IntRange(1, 3).Draw(rt, "n") {
					text := strings.ReplaceAll(word.Draw(rt, "name"), "=", "")
					if in.beside != "" && rapid.Bool().Draw(rt, "beside") {
						text += "=" + word.Draw(rt, "beside text")
					}
					values.Add(in.name, text)
					if in.single {
						break
					}
				}
			case textsInput:
				values[in.name] = rapid.SliceOfN(word, 1, 3).Draw(rt, "texts")
			default:
				values.Set(in.name, word.Draw(rt, "text"))
			}
		}
		put := q.start()
		fields := put.Fields()
		ask.Form(values, fields)
		var page bytes.Buffer
		if err := b.pages.ExecuteTemplate(&page, "write.html", writeView{Q: b.form(q, values, values, fields, faultsView{})}); err != nil {
			rt.Fatal(err)
		}
		sent := submitted(rt, page.String())
		got := q.plain(sent)
		if got.Encode() != values.Encode() {
			rt.Fatalf("/%s\nasked %v\nform  %v\nagain %v", q.path, values, sent, got)
		}
	})
}

// submitted is what a browser sends of a page's form.
func submitted(t interface{ Fatalf(string, ...any) }, page string) url.Values {
	v := url.Values{}
	d := decoder(page)
	var name, option string
	var area *strings.Builder
	picked := false
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return v
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, page)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			at := map[string]string{}
			for _, a := range tok.Attr {
				at[a.Name.Local] = a.Value
			}
			_, checked := at["checked"]
			switch tok.Name.Local {
			case "input":
				if at["name"] != "" && (at["type"] != "checkbox" && at["type"] != "radio" || checked) {
					v.Add(at["name"], at["value"])
				}
			case "select":
				name, picked, option = at["name"], false, ""
			case "option":
				if _, on := at["selected"]; on || !picked && option == "" && name != "" {
					if on || v[name] == nil {
						option, picked = at["value"], on
					}
				}
			case "textarea":
				name, area = at["name"], &strings.Builder{}
			}
		case xml.CharData:
			if area != nil {
				area.Write(tok)
			}
		case xml.EndElement:
			switch tok.Name.Local {
			case "select":
				v.Add(name, option)
				name = ""
			case "textarea":
				v.Add(name, area.String())
				area = nil
			}
		}
	}
}

// What can be printed is a document; words beside it are bounded.
func TestPrint(t *testing.T) {
	h := newBench(t)
	n := 0
	for _, q := range allQuestions() {
		if q.paper == "" {
			continue
		}
		n++
		r := get(h, "/"+q.path+"/print.pdf?"+examples[q.path]+"&batch=7&maker=Iris+bench&page=Letter")
		if r.Code != http.StatusOK || !bytes.HasPrefix(r.Body.Bytes(), []byte("%PDF-")) || r.Header().Get("Content-Type") != "application/pdf" {
			t.Errorf("/%s/print.pdf: %d %s", q.path, r.Code, r.Header().Get("Content-Type"))
		}
		for _, bad := range []string{"&maker=" + strings.Repeat("x", 500), "&page=A0"} {
			if r := get(h, "/"+q.path+"/print.pdf?"+examples[q.path]+bad); r.Code != http.StatusUnprocessableEntity {
				t.Errorf("/%s/print.pdf with %.20s: %d", q.path, bad, r.Code)
			}
		}
	}
	if n < 4 {
		t.Errorf("%d questions can be printed", n)
	}
}

// Picking a pigment leads back to the question with all that was filled in.
func TestPickingKeepsTheQuestion(t *testing.T) {
	h := newBench(t)
	page := get(h, "/mull?pigments=prussian-blue&paint-volume=40ml&body=soft&price=prussian-blue%3D0.12/g").Body.String()
	pick := between(page, `class="button quiet" href="`, `" data-pick`)
	pick = strings.ReplaceAll(strings.TrimPrefix(pick, `class="button quiet" href="`), "&amp;", "&")
	page = get(h, strings.TrimSuffix(pick, `" data-pick`)).Body.String()
	i := strings.Index(page, "<b>Yellow ochre</b>")
	if i < 0 {
		t.Fatal("no yellow ochre in the picker")
	}
	from := strings.LastIndex(page[:i], `href="`)
	to := strings.ReplaceAll(page[from+6:from+6+strings.Index(page[from+6:], `"`)], "&amp;", "&")
	u, err := url.Parse(to)
	if err != nil {
		t.Fatal(err)
	}
	want := url.Values{"pigments": {"prussian-blue", "yellow-ochre"}, "paint-volume": {"40ml"}, "body": {"soft"}, "price": {"prussian-blue=0.12/g"}}
	if u.Path != "/mull" || u.Query().Encode() != want.Encode() {
		t.Errorf("leads to %s with %v, want %v", u.Path, u.Query(), want)
	}
}

// The page serves until it is told to stop, then stops.
func TestServe(t *testing.T) {
	b := benchOf(t)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- b.Serve(ctx, l) }()
	r, err := http.Get("http://" + l.Addr().String() + "/mull?" + examples["mull"])
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(r.Body)
	r.Body.Close()
	if err != nil || r.StatusCode != http.StatusOK || !strings.Contains(string(body), "first pour") {
		t.Errorf("%d %v", r.StatusCode, err)
	}
	stop()
	select {
	case err := <-done:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it goes on serving")
	}
	if _, err := http.Get("http://" + l.Addr().String()); err == nil {
		t.Error("it still answers")
	}
}

// What is no request at all is refused, and the next one is answered.
func TestGarbage(t *testing.T) {
	b := benchOf(t)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- b.Serve(ctx, l) }()
	host := l.Addr().String()
	r := rand.New(rand.NewPCG(1, 2))
	for i, text := range []string{
		"", "\x00\x01\x02\r\n\r\n", "GET", "GET / HTTP/9.9\r\n\r\n", "GET / HTTP/1.1\r\n\r\n", "GET /mull?%zz HTTP/1.1\r\nHost: " + host + "\r\n\r\n",
		"GET /../../etc/passwd HTTP/1.1\r\nHost: " + host + "\r\n\r\n", "GET http://evil.example/ HTTP/1.1\r\nHost: " + host + "\r\n\r\n",
		"POST /book/add HTTP/1.1\r\nHost: " + host + "\r\nContent-Length: -5\r\n\r\n", "GET / HTTP/1.1\r\nHost: " + host + "\r\nX: " + strings.Repeat("y", 100<<10) + "\r\n\r\n",
		"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", "random", "random", "random", "random",
	} {
		if text == "random" {
			noise := make([]byte, 2000)
			for j := range noise {
				noise[j] = byte(r.Uint32())
			}
			text = string(noise)
		}
		c, err := net.Dial("tcp", host)
		if err != nil {
			t.Fatal(err)
		}
		c.SetDeadline(time.Now().Add(5 * time.Second))
		io.WriteString(c, text)
		c.(*net.TCPConn).CloseWrite()
		answer, _ := io.ReadAll(c)
		c.Close()
		if bytes.HasPrefix(answer, []byte("HTTP/1.1 200")) || bytes.HasPrefix(answer, []byte("HTTP/1.1 5")) && !bytes.HasPrefix(answer, []byte("HTTP/1.1 505")) {
			t.Errorf("%d: %.40q is answered %.60q", i, text, answer)
		}
	}
	if r, err := http.Get("http://" + host + "/"); err != nil || r.StatusCode != http.StatusOK {
		t.Errorf("afterwards: %v %v", r, err)
	}
	stop()
	if err := <-done; err != nil {
		t.Error(err)
	}
}

// Where there is no room, whoever does not wait is told so.
func TestNoRoom(t *testing.T) {
	b := benchOf(t)
	for range atOnce {
		if err := b.enter(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
	h := b.Handler(listening(testHost))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	rec := httptest.NewRecorder()
	b.ask(b.questionAt("mull"))(rec, httptest.NewRequest(http.MethodGet, "http://"+testHost+"/mull?"+examples["mull"], nil).WithContext(ctx))
	if rec.Code != http.StatusServiceUnavailable || rec.Header().Get("Retry-After") == "" {
		t.Errorf("%d, want 503 with a time to come back", rec.Code)
	}
	if r := get(h, "/"); r.Code != http.StatusOK {
		t.Errorf("the first page needs no room, yet: %d", r.Code)
	}
	b.leave()
	if r := get(h, "/mull?"+examples["mull"]); r.Code != http.StatusOK {
		t.Errorf("with room again: %d", r.Code)
	}
}

// The answer names the command that gives it.
func TestCommand(t *testing.T) {
	h := newBench(t)
	for path, want := range map[string]string{
		"/mull?pigments=prussian-blue&pigments.beside=2&amount.of=tubes&amount.is=3x40ml&body.is=buttery": "mullwright mull prussian-blue=2 --tubes 3x40ml --body buttery",
		"/settle?of=yellow-ochre&cut.of=time&cut.is=45+s":                                                 "mullwright settle yellow-ochre --time &#39;45 s&#39;",
		"/powder/jar?pigment=chalk&jar=1l&explain=true":                                                   "mullwright powder jar chalk --jar 1l --explain",
	} {
		page := get(h, path).Body.String()
		if got := between(page, "<pre tabindex=\"0\"><code>", "</code>"); !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
	if got := quoted("it's; $(rm) `x`"); got != `'it'\''s; $(rm) `+"`x`'" {
		t.Errorf("quoted as %s", got)
	}
}

// A sheet's commands become links with what they say filled in.
func TestSaid(t *testing.T) {
	for text, want := range map[string]string{
		"Mull it: 'mullwright mull yellow-ochre --moisture 3% ...'.":     `Mull it: <a href="/mull?moisture=3%25&amp;pigments=yellow-ochre">Mull oil paint</a>.`,
		"See 'mullwright book learn PIGMENT' <now>.":                     `See <a href="/book/learn">What your book taught</a> &lt;now&gt;.`,
		"Say --loss 7% & more.":                                          "Say “Lost on slab and knife” 7% &amp; more.",
		"Ask 'mullwright powder surface chalk --size 2um', not 'quoted'": `Ask <a href="/powder/surface?pigment=chalk&amp;size=2um">Surface of a powder</a>, not &#39;quoted&#39;`,
		"Nothing known: 'mullwright unheard of'.":                        "Nothing known: “unheard of”.",
	} {
		if got := string(said(text, mullQuestion())); got != want {
			t.Errorf("%s\ngot  %s\nwant %s", text, got, want)
		}
	}
}

// between is the first stretch of a page from a start up to an end.
func between(page, start, end string) string {
	i := strings.Index(page, start)
	if i < 0 {
		return ""
	}
	j := strings.Index(page[i:], end)
	if j < 0 {
		return page[i:]
	}
	return page[i : i+j+len(end)]
}

var tag = regexp.MustCompile(`<[^>]*>`)

// textOf is what a page says.
func textOf(page string) string {
	page = regexp.MustCompile(`(?s)<(svg|script|style)[^>]*>.*?</(svg|script|style)>`).ReplaceAllString(page, " ")
	return strings.Join(strings.Fields(unescape(tag.ReplaceAllString(page, " "))), " ")
}

func decoder(page string) *xml.Decoder {
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict = false
	d.AutoClose = xml.HTMLAutoClose
	d.Entity = xml.HTMLEntity
	return d
}

// wellFormed checks that a page's elements close as they open, that no id
// stands twice, and that every reference to one finds it.
func wellFormed(t *testing.T, what, page string) {
	t.Helper()
	d := decoder(page)
	ids := map[string]int{}
	var refs []string
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Errorf("%s: %v", what, err)
			return
		}
		if el, ok := tok.(xml.StartElement); ok {
			for _, a := range el.Attr {
				switch a.Name.Local {
				case "id":
					ids[a.Value]++
				case "for", "aria-labelledby", "aria-describedby", "list":
					refs = append(refs, strings.Fields(a.Value)...)
				case "style":
					t.Errorf("%s: a style attribute on %s, which the content policy blocks", what, el.Name.Local)
				}
				if strings.HasPrefix(strings.ToLower(a.Name.Local), "on") {
					t.Errorf("%s: a script attribute %s", what, a.Name.Local)
				}
			}
		}
	}
	for id, n := range ids {
		if n > 1 {
			t.Errorf("%s: the id %s stands %d times", what, id, n)
		}
	}
	if strings.Contains(page, "<!DOCTYPE") { // a fragment may lean on its page
		for _, r := range refs {
			if ids[r] == 0 {
				t.Errorf("%s: %q names no element", what, r)
			}
		}
	}
}

func unescape(s string) string {
	return strings.NewReplacer("&lt;", "<", "&gt;", ">", "&#34;", `"`, "&#39;", "'", "&amp;", "&", "&#43;", "+").Replace(s)
}
