// Package newfile writes a file whole or not at all, and never over another.
package newfile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// Write writes a new file. It fails with [fs.ErrExist] where the name is taken,
// even in the last moment.
func Write(path string, data []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return fs.ErrExist
	}
	draft, err := Draft(filepath.Dir(path), data)
	if err != nil {
		return err
	}
	defer os.Remove(draft)
	return Claim(draft, path, data)
}

// Draft writes a file of no name to a folder, flushes it to the disk and
// returns its path, for the caller to remove.
func Draft(dir string, data []byte) (string, error) {
	f, err := os.CreateTemp(dir, ".mullwright-*")
	if err != nil {
		return "", err
	}
	if err := fill(f, data); err != nil {
		return "", errors.Join(err, os.Remove(f.Name()))
	}
	return f.Name(), nil
}

// Claim gives a draft a name that nothing else has, or fails with
// [fs.ErrExist]. Where the file system has no links the data are written in
// place: only there can a program that is killed leave half a file.
func Claim(draft, path string, data []byte) error {
	// A link, unlike a rename, fails where the name has been taken meanwhile.
	err := os.Link(draft, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if err := fill(f, data); err != nil {
		return errors.Join(err, os.Remove(path)) // this program's own, unfinished
	}
	return nil
}

// fill writes, flushes and closes a new file.
func fill(f *os.File, data []byte) error {
	_, err := f.Write(data)
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
