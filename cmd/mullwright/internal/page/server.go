package page

import (
	"context"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"html/template"
	"io/fs"
	"net"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/formulate"
)

//go:embed web
var web embed.FS

// A Bench is the page: every question over one workshop. It is safe for
// concurrent use.
type Bench struct {
	open      func() (*Desk, error)
	opened    atomic.Pointer[Desk]
	opening   sync.Mutex
	sampling  formulate.Sampling
	questions []*question
	forms     []*question // those that are written into the book
	pages     *template.Template
	assets    map[string]asset // by address
	room      chan struct{}    // bounds how many calculations run at once
	token     string           // what a form that writes must bring back
	writes    writes

	once  sync.Once
	jars  []jar // the pigments as the picker shows them
	jarBy map[string]*jar
	err   error
}

// asset is a file that a page loads. Its address holds its fingerprint, so that
// a browser may keep it.
type asset struct {
	kind string
	data []byte
}

// Most calculations at once. Each already uses every core; more at a time would
// only make each wait for the others.
const atOnce = 8

// A Desk is what questions are answered with: the catalogues and the maker's
// book, as they were when they were opened.
type Desk struct {
	Workshop *ask.Workshop
	Book     Book // nil where the page is kept without one
	Stamp    time.Time
}

// desk is the current desk: opened anew once the book has changed, by this page
// or beside it. Where that fails the last one stays.
func (b *Bench) desk() *Desk {
	d := b.opened.Load()
	if d.Book == nil || d.Book.Stamp().Equal(d.Stamp) {
		return d
	}
	b.opening.Lock()
	defer b.opening.Unlock()
	if now := b.opened.Load(); now != d {
		return now
	}
	if fresh, err := b.open(); err == nil {
		b.opened.Store(fresh)
		return fresh
	}
	return d
}

// New makes the page. open opens a desk; ranges are drawn as sampling says.
func New(open func() (*Desk, error), s formulate.Sampling) (*Bench, error) {
	d, err := open()
	if err != nil {
		return nil, err
	}
	b := &Bench{open: open, sampling: s, questions: allQuestions(), forms: []*question{batchQuestion(), stockQuestion()}, assets: map[string]asset{}, room: make(chan struct{}, atOnce), token: newToken()}
	b.opened.Store(d)
	address := map[string]string{}
	for name, kind := range map[string]string{"page.css": "text/css; charset=utf-8", "page.js": "text/javascript; charset=utf-8", "mark.svg": "image/svg+xml"} {
		data, err := web.ReadFile("web/" + name)
		if err != nil {
			return nil, err
		}
		sum := sha256.Sum256(data)
		at := "/assets/" + hex.EncodeToString(sum[:6]) + "/" + name
		address[name], b.assets[at] = at, asset{kind, data}
	}
	b.pages, err = template.New("").Funcs(template.FuncMap{
		"asset":   func(name string) string { return address[name] },
		"slug":    slug,
		"stacked": stacked, "ink": inkOf,
		"lower": strings.ToLower,
		"book":  func() bool { return b.desk().Book != nil },
	}).ParseFS(web, "web/*.html")
	return b, err
}

// Handler serves the page to whoever calls it by one of the hosts. Without the
// guard of the right hosts a page of another site could reach this one through
// a name that it makes point here.
func (b *Bench) Handler(hosts Hosts) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", b.home)
	mux.HandleFunc("GET /assets/{sum}/{name}", b.asset)
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, r *http.Request) { w.WriteHeader(http.StatusNoContent) })
	mux.HandleFunc("GET /pigments", b.picker)
	mux.HandleFunc("GET /pigments/{id}", b.pigment)
	mux.HandleFunc("GET /media", b.mediaList)
	mux.HandleFunc("GET /media/{id}", b.medium)
	for _, q := range b.questions {
		mux.HandleFunc("GET /"+q.path, b.ask(q))
		mux.HandleFunc("GET /"+q.path+"/file/{name}", b.take(q))
		if q.paper != "" {
			mux.HandleFunc("GET /"+q.path+"/print.pdf", b.print(q))
		}
	}
	b.bookHandlers(mux)
	mux.HandleFunc("GET /", func(w http.ResponseWriter, r *http.Request) {
		b.oops(w, http.StatusNotFound, "There is no such page.")
	})
	return b.guard(hosts, mux)
}

// Limits on one connection. A request to the page is an address and, where the
// book is written, a small form.
const (
	longestAddress = 16 << 10
	largestHeader  = 32 << 10
	largestForm    = 64 << 10
	readTime       = 10 * time.Second
	answerTime     = 20 * time.Second
	idleTime       = 2 * time.Minute
	lastWords      = 3 * time.Second // for answers under way when the page is closed
)

// Serve answers on a listener until the context ends.
func (b *Bench) Serve(ctx context.Context, l net.Listener) error {
	s := &http.Server{
		Handler:           b.Handler(HostsOf(l.Addr())),
		ReadHeaderTimeout: readTime, ReadTimeout: readTime, WriteTimeout: answerTime + readTime, IdleTimeout: idleTime,
		MaxHeaderBytes: largestHeader,
	}
	done := make(chan error, 1)
	go func() { done <- s.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), lastWords)
	defer cancel()
	err := s.Shutdown(last)
	if errors.Is(err, context.DeadlineExceeded) {
		err = s.Close()
	}
	<-done
	return err
}

func (b *Bench) asset(w http.ResponseWriter, r *http.Request) {
	a, ok := b.assets[r.URL.Path]
	if !ok {
		b.oops(w, http.StatusNotFound, "There is no such file.")
		return
	}
	w.Header().Set("Content-Type", a.kind)
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	w.Write(a.data)
}

// show writes a page whole or, where its template fails, not at all.
func (b *Bench) show(w http.ResponseWriter, status int, name string, data any) {
	var text strings.Builder
	if err := b.pages.ExecuteTemplate(&text, name, data); err != nil {
		http.Error(w, "the page could not be written: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write([]byte(text.String()))
}

// oops says in one line what is wrong with a request.
func (b *Bench) oops(w http.ResponseWriter, status int, text string) {
	b.show(w, status, "oops.html", struct {
		Title, Text string
		Here        string
	}{"Not here", text, ""})
}

// busy says that there was no room.
func (b *Bench) busy(w http.ResponseWriter) {
	w.Header().Set("Retry-After", "1")
	b.oops(w, http.StatusServiceUnavailable, "Too much is being worked out at once. Try again in a moment.")
}

// enter waits for room to calculate; leave gives it back.
func (b *Bench) enter(ctx context.Context) error {
	select {
	case b.room <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (b *Bench) leave() { <-b.room }

var _ fs.FS = web
