package book

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"sync"

	"mullwright/formulate/strict"
)

// A Book is a folder of entries. The zero folder "" is a book that is not kept:
// it is empty and takes nothing.
type Book struct{ Dir string }

const (
	suffix  = ".toml"
	maxFile = 1 << 15 // bytes of one entry
	// mostFaults are named of one file; more say no more.
	mostFaults = 10
	// mostDigits of a number leave room for every batch of a long life.
	mostDigits = 9
)

// number reads the number that a file's name begins with.
func number(name string) (int, bool) {
	stem, ok := strings.CutSuffix(name, suffix)
	if !ok {
		return 0, false
	}
	digits, _, _ := strings.Cut(stem, "-")
	if len(digits) > mostDigits || strings.Trim(digits, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(digits)
	return n, err == nil && n > 0
}

// A Reading is what a book holds.
type Reading struct {
	Entries []Entry // by number; those that are struck say so
	// Damaged are the faults of the files that could not be read, and of strikes
	// that strike nothing.
	Damaged strict.Faults
}

// Read reads every entry. A folder that does not exist is an empty book.
func (b *Book) Read() (*Reading, error) {
	for {
		r := &Reading{}
		names, strange, err := b.names()
		if err != nil {
			return nil, err
		}
		for _, n := range strange {
			r.Damaged = append(r.Damaged, strict.Fault{File: n, What: "its name begins with no number, so it is not read; an entry is named like 0012-prussian-blue.toml"})
		}
		pages := make([]page, len(names))
		share(len(names), func(from, to int) {
			for i := from; i < to; i++ {
				pages[i] = b.readOne(names[i])
			}
		})
		gone := false
		for _, p := range pages {
			gone = gone || p.gone
			if p.entry != nil {
				r.Entries = append(r.Entries, *p.entry)
			}
			r.Damaged = append(r.Damaged, p.faults...)
		}
		if !gone {
			r.strike()
			return r, nil
		}
		// An entry that is being added got its full name meanwhile: look again.
	}
}

// strike marks the entries that others strike, the last one first: a strike that
// is struck itself strikes nothing.
func (r *Reading) strike() {
	with := map[int][]int{} // entries by number
	for i := range r.Entries {
		with[r.Entries[i].Number] = append(with[r.Entries[i].Number], i)
	}
	for i := len(r.Entries) - 1; i >= 0; i-- {
		e := &r.Entries[i]
		if e.Strike == nil || e.StruckBy != 0 {
			continue
		}
		fault := func(what string) {
			r.Damaged = append(r.Damaged, strict.Fault{File: e.File, Key: "strike.entry", What: fmt.Sprintf("it strikes nothing: "+what, e.Strike.Entry)})
		}
		switch meant := with[e.Strike.Entry]; len(meant) {
		case 0:
			fault("there is no entry %d that can be read")
		case 1:
			r.Entries[meant[0]].StruckBy = e.Number
		default:
			fault("more than one file carries the number %d")
		}
	}
}

// A page is a file as it was read: an entry, or faults, or neither where it is
// gone.
type page struct {
	entry  *Entry
	faults strict.Faults
	gone   bool
}

// share splits n pieces of work over the processors.
func share(n int, work func(from, to int)) {
	workers := runtime.GOMAXPROCS(0)
	if n < 64 || workers < 2 {
		work(0, n)
		return
	}
	var wg sync.WaitGroup
	for w := range workers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			work(n*w/workers, n*(w+1)/workers)
		}()
	}
	wg.Wait()
}

func (b *Book) readOne(name string) page {
	fault := func(what string) page { return page{faults: strict.Faults{{File: name, What: what}}} }
	path := filepath.Join(b.Dir, name)
	f, err := os.Open(path)
	if err != nil {
		// A link to nothing is not gone: it is listed again and again.
		if _, lerr := os.Lstat(path); errors.Is(lerr, fs.ErrNotExist) {
			return page{gone: true}
		}
		return fault(cause(err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err != nil {
		return fault(cause(err))
	}
	if len(data) > maxFile {
		return fault(fmt.Sprintf("it is larger than the %d bytes of an entry", maxFile))
	}
	e, err := Parse(name, string(data))
	var faults strict.Faults
	switch {
	case errors.As(err, &faults):
		if more := len(faults) - mostFaults; more > 0 {
			faults = append(faults[:mostFaults:mostFaults], strict.Fault{File: name, What: fmt.Sprintf("and %d more faults", more)})
		}
		return page{faults: faults}
	case err != nil:
		return fault(err.Error())
	}
	return page{entry: &e}
}

// cause is an error of the file system without the path, which is named beside
// it.
func cause(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// names lists the files of the entries by number, and other TOML files.
func (b *Book) names() (names, strange []string, err error) {
	if b.Dir == "" {
		return nil, nil, nil
	}
	d, err := os.Open(b.Dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, fmt.Errorf("the book %s cannot be read: %s", b.Dir, cause(err))
	}
	defer d.Close()
	all, err := d.Readdirnames(-1)
	if err != nil {
		return nil, nil, fmt.Errorf("the book %s cannot be read: %s", b.Dir, cause(err))
	}
	numbers := make(map[string]int, len(all))
	for _, name := range all {
		if strings.HasPrefix(name, ".") || !strings.HasSuffix(name, suffix) {
			continue
		}
		if n, ok := number(name); ok {
			numbers[name] = n
			names = append(names, name)
		} else {
			strange = append(strange, name)
		}
	}
	sort.Slice(names, func(i, j int) bool {
		a, b := numbers[names[i]], numbers[names[j]]
		if a != b {
			return a < b
		}
		return names[i] < names[j]
	})
	sort.Strings(strange)
	return names, strange, nil
}

// Find reads the entry of a number, or of a file's name.
func (b *Book) Find(what string) (*Entry, error) {
	names, _, err := b.names()
	if err != nil {
		return nil, err
	}
	n, err := strconv.Atoi(strings.TrimSpace(what))
	var fits []string
	for _, name := range names {
		x, _ := number(name)
		if err == nil && x == n || name == what || strings.TrimSuffix(name, suffix) == what {
			fits = append(fits, name)
		}
	}
	switch len(fits) {
	case 0:
		hint := "it is empty; 'mullwright book add' makes the first entry"
		if len(names) > 0 {
			first, _ := number(names[0])
			last, _ := number(names[len(names)-1])
			hint = fmt.Sprintf("it holds numbers from %d to %d, see 'mullwright book list'", first, last)
		}
		return nil, &MissingError{fmt.Sprintf("no entry %q in the book: %s", what, hint)}
	case 1:
	default:
		return nil, &MissingError{fmt.Sprintf("%d files carry the number %d: %s; give a name", len(fits), n, strings.Join(fits, ", "))}
	}
	p := b.readOne(fits[0])
	if p.gone {
		return nil, &MissingError{fmt.Sprintf("the file %s has gone meanwhile", fits[0])}
	}
	return p.entry, p.faults.Err()
}

// A MissingError is a question for an entry that the book does not hold, or
// holds twice.
type MissingError struct{ text string }

func (e *MissingError) Error() string { return e.text }
