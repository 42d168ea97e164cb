package book

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"mullwright/cmd/mullwright/internal/newfile"
)

// Add writes a new entry and returns it with its number and file. It changes no
// other file.
func (b *Book) Add(e Entry) (Entry, error) {
	if b.Dir == "" {
		return e, errors.New("no folder is known to keep a book in; name one with --book")
	}
	if err := e.Check(); err != nil {
		return e, err
	}
	if err := os.MkdirAll(b.Dir, 0o755); err != nil {
		return e, b.failed(err)
	}
	text := []byte(e.Text())
	draft, err := newfile.Draft(b.Dir, text)
	if err != nil {
		return e, b.failed(err)
	}
	defer os.Remove(draft)
	for {
		n, err := b.next()
		if err != nil {
			return e, err
		}
		e.Number, e.File = n, fmt.Sprintf("%04d%s", n, suffix)
		bare := filepath.Join(b.Dir, e.File)
		switch err := newfile.Claim(draft, bare, text); {
		case errors.Is(err, fs.ErrExist):
			continue // another program was faster
		case err != nil:
			return e, b.failed(err)
		}
		// While this program holds the bare name, no other can hold it: whoever
		// had the number before has its full name by now, and is seen here.
		taken, err := b.others(n, e.File)
		if err != nil || taken {
			if err = errors.Join(err, os.Remove(bare)); err != nil {
				return e, b.failed(err)
			}
			continue
		}
		full := fmt.Sprintf("%04d-%s%s", n, slug(e.first()), suffix)
		if err := os.Rename(bare, filepath.Join(b.Dir, full)); err == nil {
			e.File = full
		}
		syncDir(b.Dir)
		return e, nil
	}
}

func (b *Book) failed(err error) error {
	return fmt.Errorf("the book %s cannot be written: %s", b.Dir, cause(err))
}

// next is one more than the highest number in the folder.
func (b *Book) next() (int, error) {
	names, _, err := b.names()
	if err != nil || len(names) == 0 {
		return 1, err
	}
	n, _ := number(names[len(names)-1])
	return n + 1, nil
}

// others reports whether another file carries the number.
func (b *Book) others(n int, name string) (bool, error) {
	names, _, err := b.names()
	for _, other := range names {
		if x, _ := number(other); x == n && other != name {
			return true, err
		}
	}
	return false, err
}

// slug turns an id into part of a file's name: small letters, digits and
// hyphens, whatever it holds.
func slug(id string) string {
	const most = 40
	s := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, id)
	if len(s) > most {
		s = s[:most]
	}
	if s = strings.Trim(s, "-"); s == "" {
		return "entry"
	}
	return s
}

// syncDir flushes the names of a folder to the disk, where the system can.
func syncDir(dir string) {
	if d, err := os.Open(dir); err == nil {
		d.Sync()
		d.Close()
	}
}
