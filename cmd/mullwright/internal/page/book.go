package page

import (
	"crypto/subtle"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/book"
	"mullwright/cmd/mullwright/internal/render"
)

// Book is the maker's batch book. Entries are named by their number alone:
// nothing that a request says becomes the name of a file.
type Book interface {
	Stamp() time.Time // when an entry last came or went
	List(of string) (render.BookList, error)
	Entry(number int) (render.BookPage, error)
	Add(book.Entry) (number int, err error)
	Repeat(number int, q *ask.BookRepeat) (*render.Sheet, error)
	Learned(of string) (*render.Sheet, error)
	Stock() (*render.Sheet, error)
	Export() ([]byte, error)
}

// writes remembers the forms that have been written down, so that one sent
// twice is one entry.
type writes struct {
	mu   sync.Mutex
	done map[string]int // entry by form
	old  []string
}

// remembered is how many forms are remembered.
const remembered = 512

func (w *writes) find(form string) (int, bool) {
	n, ok := w.done[form]
	return n, ok
}

func (w *writes) keep(form string, number int) {
	if w.done == nil {
		w.done = map[string]int{}
	}
	w.done[form] = number
	if w.old = append(w.old, form); len(w.old) > remembered {
		delete(w.done, w.old[0])
		w.old = w.old[1:]
	}
}

// bookHandlers adds the pages of the book.
func (b *Bench) bookHandlers(mux *http.ServeMux) {
	mux.HandleFunc("GET /book", b.withBook(b.bookList))
	mux.HandleFunc("GET /book/{number}", b.withBook(b.bookEntry))
	mux.HandleFunc("GET /book/{number}/repeat", b.withBook(b.bookRepeat))
	mux.HandleFunc("GET /book/learn", b.withBook(b.bookLearned))
	mux.HandleFunc("GET /book/export.csv", b.withBook(b.bookExport))
	for _, q := range b.forms {
		mux.HandleFunc("GET /"+q.path, b.withBook(b.writeForm(q)))
		mux.HandleFunc("POST /"+q.path, b.withBook(b.write(q)))
	}
}

func (b *Bench) withBook(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if b.desk().Book == nil {
			b.oops(w, http.StatusNotFound, "The page was started without the batch book.")
			return
		}
		next(w, r)
	}
}

// Place stands for the folder of the book, whose name is the business of nobody
// but the machine's owner.
const Place = "the book’s folder on the machine that runs this page"

func (b *Bench) bookList(w http.ResponseWriter, r *http.Request) {
	of := strings.TrimSpace(r.URL.Query().Get("of"))
	list, err := b.desk().Book.List(of)
	status, fault := http.StatusOK, ""
	if err != nil {
		status, fault = http.StatusUnprocessableEntity, err.Error()
		list = render.BookList{}
	}
	list.Dir = Place
	sheet := render.BookListSheet(list)
	if fault != "" {
		sheet.Lead = ""
	}
	view, err := b.sheetView(sheet, nil, nil)
	if err != nil {
		b.oops(w, http.StatusInternalServerError, err.Error())
		return
	}
	for i := range view.Sections {
		if s := &view.Sections[i]; s.Table != nil && len(s.Table.Rows) == len(list.Entries) {
			for _, e := range list.Entries {
				s.Links = append(s.Links, fmt.Sprintf("/book/%d", e.Number))
			}
		}
	}
	b.show(w, status, "book.html", struct {
		Title, Here string
		Of, Fault   string
		Sheet       *sheetView
		Names       listView
	}{"Batch book", "book", of, fault, view, listView{anyList, b.names(anyList)}})
}

// entryNumber is the number in the address.
func entryNumber(r *http.Request) (int, bool) {
	n, err := strconv.Atoi(r.PathValue("number"))
	return n, err == nil && n > 0
}

func (b *Bench) bookEntry(w http.ResponseWriter, r *http.Request) {
	n, ok := entryNumber(r)
	if !ok {
		b.oops(w, http.StatusNotFound, "There is no such page.")
		return
	}
	page, err := b.desk().Book.Entry(n)
	if err != nil {
		b.bookFault(w, err)
		return
	}
	page.Dir, page.New = Place, r.URL.Query().Get("new") != ""
	var next []link
	if page.Entry.Batch != nil {
		next = append(next, link{"Repeat it", "from these weights, for another amount", fmt.Sprintf("/book/%d/repeat", n)})
	}
	next = append(next, link{"Write another batch", "", "/book/add"}, link{"The whole book", "", "/book"}, link{"What it taught", "", "/book/learn"})
	b.sheetPage(w, render.BookPageSheet(page), next)
}

// bookFault says what is wrong with a question to the book.
func (b *Bench) bookFault(w http.ResponseWriter, err error) {
	var missing *book.MissingError
	if errors.As(err, &missing) {
		b.oops(w, http.StatusNotFound, "In the book "+err.Error()+".")
		return
	}
	b.oops(w, http.StatusInternalServerError, "The book cannot be read: "+err.Error()+".")
}

func (b *Bench) bookLearned(w http.ResponseWriter, r *http.Request) {
	sheet, err := b.desk().Book.Learned(strings.TrimSpace(r.URL.Query().Get("of")))
	if err != nil {
		b.oops(w, http.StatusUnprocessableEntity, err.Error()+".")
		return
	}
	b.sheetPage(w, sheet, []link{{"The whole book", "", "/book"}})
}

func (b *Bench) bookExport(w http.ResponseWriter, r *http.Request) {
	data, err := b.desk().Book.Export()
	if err != nil {
		b.bookFault(w, err)
		return
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="batch-book.csv"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(data)
}

// sheetPage shows a sheet that answers no form.
func (b *Bench) sheetPage(w http.ResponseWriter, sheet *render.Sheet, next []link) {
	view, err := b.sheetView(sheet, nil, nil)
	if err != nil {
		b.oops(w, http.StatusInternalServerError, "The sheet could not be drawn: "+err.Error()+".")
		return
	}
	b.show(w, http.StatusOK, "sheet.html", struct {
		Title, Here string
		Sheet       *sheetView
		Doors, Next []link
	}{sheet.Title, "book", view, nil, next})
}

// repeatAsked is package ask's repetition of one entry.
type repeatAsked struct {
	ask.BookRepeat
	number int
}

func (q *repeatAsked) answer(d desk) (*answer, error) {
	sheet, err := d.Book.Repeat(q.number, &q.BookRepeat)
	if err != nil {
		return nil, err
	}
	return &answer{sheet: sheet}, nil
}

func (b *Bench) bookRepeat(w http.ResponseWriter, r *http.Request) {
	n, ok := entryNumber(r)
	if !ok {
		b.oops(w, http.StatusNotFound, "There is no such page.")
		return
	}
	q := repeatQuestion(n)
	b.ask(q)(w, r)
}

// unkept is an answer that a form which writes never gives.
var errUnkept = errors.New("this form is written down, not answered")

type batchAsked struct{ ask.BookAdd }

func (q *batchAsked) answer(desk) (*answer, error)     { return nil, errUnkept }
func (q *batchAsked) entry(d desk) (book.Entry, error) { return q.Entry(d.Workshop) }

type stockAsked struct{ ask.BookStock }

func (q *stockAsked) answer(desk) (*answer, error) { return nil, errUnkept }
func (q *stockAsked) entry(d desk) (book.Entry, error) {
	if len(q.Counted)+len(q.Bought)+len(q.Prices) == 0 {
		return book.Entry{}, errors.New("nothing is counted, bought or priced")
	}
	return q.Entry(d.Workshop)
}

// written is what becomes an entry of the book.
type written interface {
	asked
	entry(desk) (book.Entry, error)
}

// writeView is a form that writes.
type writeView struct {
	Title, Here string
	Q           *formView
	Lead        string
	Faults      []faultView
	Token, Once string
	Button      string
	Sheet       *sheetView // what the book holds of it
}

// writeForm shows a form that writes, filled in with what is known.
func (b *Bench) writeForm(q *question) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		b.showWrite(w, r, q, http.StatusOK, r.URL.Query(), newToken(), faultsView{})
	}
}

func (b *Bench) showWrite(w http.ResponseWriter, r *http.Request, q *question, status int, raw url.Values, once string, faults faultsView) {
	values := q.plain(raw)
	put := q.start()
	fields := put.Fields()
	ask.Form(values, fields)
	v := writeView{Title: q.title, Here: "book", Q: b.form(q, raw, values, fields, faults), Lead: q.lead, Faults: faults.List, Token: b.token, Once: once, Button: q.prompt}
	if q.path == "book/stock" {
		sheet, err := b.desk().Book.Stock()
		if err == nil {
			v.Sheet, err = b.sheetView(sheet, nil, q)
		}
		if err != nil {
			b.bookFault(w, err)
			return
		}
	}
	b.show(w, status, "write.html", v)
}

// write writes a form down, once, and leads to its entry.
func (b *Bench) write(q *question) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if err := r.ParseForm(); err != nil {
			b.oops(w, http.StatusRequestEntityTooLarge, "The form is too large or cannot be read; nothing was written.")
			return
		}
		raw := r.PostForm
		once := raw.Get("once")
		fail := func(status int, faults faultsView) { b.showWrite(w, r, q, status, raw, newToken(), faults) }
		if subtle.ConstantTimeCompare([]byte(raw.Get("token")), []byte(b.token)) != 1 || once == "" || len(once) > 64 {
			fail(http.StatusForbidden, faultsView{List: []faultView{{Text: "The program was started anew since this form was opened, so nothing was written. Look it over and send it again"}}})
			return
		}
		b.writes.mu.Lock()
		defer b.writes.mu.Unlock()
		if n, ok := b.writes.find(once); ok {
			http.Redirect(w, r, fmt.Sprintf("/book/%d", n), http.StatusSeeOther)
			return
		}
		put := q.start().(written)
		ask.Form(q.plain(raw), put.Fields())
		d := desk{Desk: b.desk(), sampling: b.sampling}
		entry, err := put.entry(d)
		if err != nil {
			fail(http.StatusUnprocessableEntity, q.faults(err, q.plain(raw)))
			return
		}
		n, err := d.Book.Add(entry)
		if err != nil {
			fail(http.StatusInternalServerError, faultsView{List: []faultView{{Text: "The book could not be written: " + err.Error()}}})
			return
		}
		b.writes.keep(once, n)
		http.Redirect(w, r, fmt.Sprintf("/book/%d?new=1", n), http.StatusSeeOther)
	}
}
