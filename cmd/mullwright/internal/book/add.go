package book

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
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
	draft, err := b.draft(e.Text())
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
		switch err := claim(draft, bare, e.Text()); {
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

// draft writes a text to a file of no number and flushes it to the disk.
func (b *Book) draft(text string) (string, error) {
	f, err := os.CreateTemp(b.Dir, ".mullwright-*")
	if err != nil {
		return "", err
	}
	if err := fill(f, text); err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}

// fill writes, flushes and closes a new file.
func fill(f *os.File, text string) error {
	_, err := f.WriteString(text)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return err
}

// claim gives the draft a name that nothing else has, or fails with
// [fs.ErrExist].
func claim(draft, path, text string) error {
	err := os.Link(draft, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	// A file system without links.
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if err := fill(f, text); err != nil {
		return errors.Join(err, os.Remove(path)) // this program's own, unfinished
	}
	return nil
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
