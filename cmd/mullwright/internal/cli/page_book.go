package cli

import (
	"bytes"
	"fmt"
	"os"
	"strconv"
	"time"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/book"
	"mullwright/cmd/mullwright/internal/page"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

// openDesk opens the catalogues and the book afresh, as the page does whenever
// the book has changed.
func (e *env) openDesk() (*page.Desk, error) {
	fresh := *e
	fresh.workshop, fresh.ledger, fresh.unread = nil, nil, nil
	w, err := fresh.open()
	if err != nil {
		return nil, err
	}
	if e.ignoreBook {
		return &page.Desk{Workshop: w}, nil
	}
	b := pageBook{&fresh, w}
	stamp := b.Stamp()
	// Read now: afterwards the book is only looked at, by many at once.
	if _, err := fresh.read(w); err != nil {
		return nil, err
	}
	return &page.Desk{Workshop: w, Book: b, Stamp: stamp}, nil
}

// pageBook is the batch book as the page uses it.
type pageBook struct {
	e *env
	w *ask.Workshop
}

// Stamp is when an entry last came or went.
func (b pageBook) Stamp() time.Time {
	info, err := os.Stat(b.e.batches().Dir)
	if err != nil {
		return time.Time{}
	}
	return info.ModTime()
}

func (b pageBook) List(of string) (render.BookList, error) {
	var args []string
	if of != "" {
		args = []string{of}
	}
	return b.e.list(args, false, "", 0)
}

func (b pageBook) Entry(number int) (render.BookPage, error) {
	w, l, entry, err := b.e.find(strconv.Itoa(number))
	if err != nil {
		return render.BookPage{}, err
	}
	return b.e.page(w, l, entry)
}

func (b pageBook) Add(entry book.Entry) (int, error) {
	entry, err := b.e.batches().Add(entry)
	return entry.Number, err
}

func (b pageBook) Repeat(number int, q *ask.BookRepeat) (*render.Sheet, error) {
	if err := ask.Conflicts(q.Fields()); err != nil {
		return nil, err
	}
	_, l, entry, err := b.e.find(strconv.Itoa(number))
	if err != nil {
		return nil, err
	}
	req, err := q.Request(l, entry, b.e.sampling())
	if err != nil {
		return nil, err
	}
	res, err := formulate.Repeat(req)
	if err != nil {
		return nil, err
	}
	return render.RepeatSheet(entry, res), nil
}

func (b pageBook) Learned(of string) (*render.Sheet, error) {
	l, err := b.e.read(b.w)
	if err != nil {
		return nil, err
	}
	mull, err := ask.LearnMull(b.w, b.e.sampling())
	if err != nil {
		return nil, err
	}
	if of != "" {
		m, err := b.w.Pigments.Lookup(of)
		if err != nil {
			return nil, err
		}
		r, err := l.Learn(m.ID, b.e.jarOf(m.ID), mull)
		if err != nil {
			return nil, err
		}
		return render.LearnSheet(r, b.e.explain), nil
	}
	list := render.LearnList{Dir: page.Place, Unread: b.e.unread}
	for _, id := range l.Pigments() {
		r, err := l.Learn(id, b.e.jarOf(id), mull)
		if err != nil {
			return nil, err
		}
		list.Of = append(list.Of, r)
	}
	return render.LearnListSheet(list), nil
}

func (b pageBook) Stock() (*render.Sheet, error) {
	l, err := b.e.read(b.w)
	if err != nil {
		return nil, err
	}
	return render.StockSheet(page.Place, l.Stock(), b.e.unread), nil
}

func (b pageBook) Export() ([]byte, error) {
	list, err := b.List("")
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = render.Write(&out, render.CSV, render.Width, render.BookExport(list), nil)
	if err != nil {
		return nil, fmt.Errorf("the book cannot be written as a table: %w", err)
	}
	return out.Bytes(), nil
}

var _ page.Book = pageBook{}
