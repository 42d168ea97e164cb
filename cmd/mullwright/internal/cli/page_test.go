package cli

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/page"
)

const pageHost = "127.0.0.1:8040"

// bookPage is the page over a book of its own.
func bookPage(t *testing.T) (*env, http.Handler) {
	t.Helper()
	e := &env{Streams: Streams{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard, Getenv: func(string) string { return "" }, DataDir: t.TempDir()}}
	bench, err := page.New(e.openDesk, e.sampling())
	if err != nil {
		t.Fatal(err)
	}
	return e, bench.Handler(page.HostsOf(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8040}))
}

func send(h http.Handler, method, path string, form url.Values, head map[string]string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://"+pageHost+path, strings.NewReader(form.Encode()))
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for k, v := range head {
		r.Header.Set(k, v)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

var hidden = regexp.MustCompile(`name="(token|once)" value="([^"]+)"`)

// batch is a form as the page gives it out, filled in.
func batch(t *testing.T, h http.Handler) url.Values {
	t.Helper()
	form := url.Values{"pigments": {"prussian-blue"}, "pigments.beside": {"60g"}, "oil": {"linseed-oil"}, "oil.beside": {"48.3g"}, "body.is": {"buttery"}, "lot": {"A12"}}
	for _, m := range hidden.FindAllStringSubmatch(send(h, "GET", "/book/add", nil, nil).Body.String(), -1) {
		form.Set(m[1], m[2])
	}
	if !form.Has("token") || !form.Has("once") {
		t.Fatal("the form has no token")
	}
	return form
}

func entries(t *testing.T, e *env) int {
	t.Helper()
	r, err := e.batches().Read()
	if err != nil {
		t.Fatal(err)
	}
	return len(r.Entries)
}

// A batch is written once, however often it is sent, and only by a form that the
// page gave out.
func TestPageWritesTheBook(t *testing.T) {
	e, h := bookPage(t)
	form := batch(t, h)
	without := func(k, v string) url.Values {
		f := url.Values{}
		for n, list := range form {
			f[n] = list
		}
		f.Set(k, v)
		return f
	}
	for _, c := range []struct {
		name string
		form url.Values
		head map[string]string
		want int
	}{
		{"no token", without("token", ""), nil, http.StatusForbidden},
		{"a wrong token", without("token", "AAAAAAAAAAAAAAAAAAAAAAAAAA"), nil, http.StatusForbidden},
		{"no form", without("once", ""), nil, http.StatusForbidden},
		{"another site's form", form, map[string]string{"Origin": "http://evil.example", "Sec-Fetch-Site": "cross-site"}, http.StatusForbidden},
		{"too large", without("remark", strings.Repeat("x", 100<<10)), nil, http.StatusRequestEntityTooLarge},
		{"a fault", without("oil.beside", ""), nil, http.StatusUnprocessableEntity},
		{"an absurd batch", without("pigments.beside", "-3g"), nil, http.StatusUnprocessableEntity},
	} {
		w := send(h, "POST", "/book/add", c.form, c.head)
		if w.Code != c.want {
			t.Errorf("%s: %d, want %d", c.name, w.Code, c.want)
		}
		if n := entries(t, e); n != 0 {
			t.Fatalf("%s: the book holds %d entries", c.name, n)
		}
		if c.want == http.StatusUnprocessableEntity && !strings.Contains(w.Body.String(), `value="A12"`) {
			t.Errorf("%s: what was typed is lost", c.name)
		}
	}
	stale := send(h, "POST", "/book/add", without("token", "of an earlier run"), nil).Body.String()
	if !strings.Contains(stale, "started anew") || !strings.Contains(stale, `value="48.3g"`) {
		t.Error("after a restart the form is lost")
	}
	for range 3 {
		w := send(h, "POST", "/book/add", form, map[string]string{"Origin": "http://" + pageHost})
		if w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/book/1") {
			t.Fatalf("%d to %q", w.Code, w.Header().Get("Location"))
		}
	}
	if n := entries(t, e); n != 1 {
		t.Errorf("sent three times, it stands %d times in the book", n)
	}
	for path, want := range map[string]string{
		"/book": `<a href="/book/1">1</a>`, "/book?of=prussian-blue": "A12", "/book/1": "48.3 g", "/book/1/repeat?tubes=3x40ml": "3",
		"/book/learn": "prussian-blue", "/book/learn?of=prussian-blue": "A12", "/book/export.csv": "prussian-blue", "/book/stock": "Nothing is counted yet",
		"/mull?pigments=prussian-blue&pigment-mass=60g": "your",
	} {
		w := send(h, "GET", path, nil, nil)
		if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), want) {
			t.Errorf("%s: %d, want it to hold %q", path, w.Code, want)
		}
		if strings.Contains(w.Body.String(), e.DataDir) {
			t.Errorf("%s tells where the book lies", path)
		}
	}
	for path, want := range map[string]int{
		"/book/2": 404, "/book/0": 404, "/book/-1": 404, "/book/0001-prussian-blue.toml": 404, "/book/..%2f..%2fsecret": 404, "/book/1e0": 404, "/book/1/nothing": 404,
		"/book?of=nothing": 422, "/book/learn?of=nothing": 422, "/book/1/repeat?paint-volume=40": 422,
	} {
		if w := send(h, "GET", path, nil, nil); w.Code != want {
			t.Errorf("%s: %d, want %d", path, w.Code, want)
		}
	}
}

// A count of stock goes the same way.
func TestPageCountsStock(t *testing.T) {
	e, h := bookPage(t)
	form := batch(t, h)
	count := url.Values{"token": form["token"], "once": form["once"], "counted": {"prussian-blue"}, "counted.beside": {"250g"}, "price": {"prussian-blue"}, "price.beside": {"0.12/g"}}
	if w := send(h, "POST", "/book/stock", url.Values{"token": form["token"], "once": {"empty"}}, nil); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("an empty count: %d", w.Code)
	}
	if w := send(h, "POST", "/book/stock", count, nil); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if n := entries(t, e); n != 1 {
		t.Errorf("the book holds %d entries", n)
	}
	if w := send(h, "GET", "/book/stock", nil, nil); !strings.Contains(w.Body.String(), "250") {
		t.Error("the count is not shown")
	}
	if w := send(h, "GET", "/mull?pigments=prussian-blue&pigment-mass=300g", nil, nil); !strings.Contains(w.Body.String(), "250") {
		t.Error("a card that needs more than there is does not say so")
	}
}

// What is written beside the page is on it at the next look.
func TestPageSeesTheBookChange(t *testing.T) {
	e, h := bookPage(t)
	const card = "/mull?pigments=prussian-blue&pigment-mass=60g&fragment=1"
	before := send(h, "GET", card, nil, nil).Body.String()
	w, err := e.open()
	if err != nil {
		t.Fatal(err)
	}
	add := ask.BookAdd{Pigments: []string{"prussian-blue=60g"}, Oils: []string{"linseed-oil=48.3g"}, Body: "buttery"}
	entry, err := add.Entry(w)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := e.batches().Add(entry); err != nil {
		t.Fatal(err)
	}
	if after := send(h, "GET", card, nil, nil).Body.String(); after == before {
		t.Error("the card is as before the batch")
	}
	// A file that cannot be read is named; the page goes on.
	if err := os.WriteFile(filepath.Join(e.batches().Dir, "0002-broken.toml"), []byte("[batch\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if page := send(h, "GET", "/book", nil, nil).Body.String(); !strings.Contains(page, "0002-broken.toml") {
		t.Error("the broken entry is not named")
	}
	if got := send(h, "GET", card, nil, nil); got.Code != http.StatusOK {
		t.Errorf("with a broken entry: %d", got.Code)
	}
}

// Many at once write and read; each batch is one entry.
func TestPageManyAtOnce(t *testing.T) {
	e, h := bookPage(t)
	form := batch(t, h)
	const many = 24
	var all sync.WaitGroup
	for i := range many {
		all.Go(func() {
			mine := url.Values{}
			for k, v := range form {
				mine[k] = v
			}
			mine.Set("once", fmt.Sprintf("form %d", i/2)) // each is sent twice
			if w := send(h, "POST", "/book/add", mine, nil); w.Code != http.StatusSeeOther {
				t.Errorf("%d", w.Code)
			}
		})
		all.Go(func() {
			for _, path := range []string{"/mull?pigments=prussian-blue&pigment-mass=60g&fragment=1", "/book", "/book/learn?of=prussian-blue", "/pigments"} {
				if w := send(h, "GET", path, nil, nil); w.Code != http.StatusOK {
					t.Errorf("%s: %d", path, w.Code)
				}
			}
		})
	}
	all.Wait()
	if n := entries(t, e); n != many/2 {
		t.Errorf("%d entries, want %d", n, many/2)
	}
}

// Without the book there are no pages of it.
func TestPageWithoutBook(t *testing.T) {
	e, _ := bookPage(t)
	e.ignoreBook = true
	bench, err := page.New(e.openDesk, e.sampling())
	if err != nil {
		t.Fatal(err)
	}
	h := bench.Handler(page.HostsOf(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8040}))
	for _, path := range []string{"/book", "/book/add", "/book/1"} {
		if w := send(h, "GET", path, nil, nil); w.Code != http.StatusNotFound {
			t.Errorf("%s: %d", path, w.Code)
		}
	}
	if w := send(h, "GET", "/mull?pigments=prussian-blue&pigment-mass=60g", nil, nil); w.Code != http.StatusOK || strings.Contains(w.Body.String(), `href="/book`) {
		t.Errorf("the card: %d; or it leads to the book", w.Code)
	}
}
