package newfile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

func holds(t *testing.T, path, want string) {
	t.Helper()
	if data, err := os.ReadFile(path); err != nil || string(data) != want {
		t.Errorf("%s holds %q (%v), want %q", path, data, err, want)
	}
}

func TestWrite(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	if err := Write(path, []byte("one")); err != nil {
		t.Fatal(err)
	}
	if err := Write(path, []byte("two")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("a taken name gives %v", err)
	}
	holds(t, path, "one")
	if err := os.Symlink("nowhere", filepath.Join(dir, "link")); err != nil {
		t.Fatal(err)
	}
	if err := Write(filepath.Join(dir, "link"), []byte("x")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("a link to nothing gives %v", err)
	}
	if err := Write(filepath.Join(dir, "none", "a"), []byte("x")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a folder that is not there gives %v", err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".mullwright-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// Without links, as on some memory sticks, the file is written in place.
func TestClaimWithoutLinks(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	if err := Claim(path+".no-such-draft", path, []byte("text")); err != nil {
		t.Fatal(err)
	}
	holds(t, path, "text")
	if err := Claim(path+".no-such-draft", path, []byte("other")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("a taken name gives %v", err)
	}
	holds(t, path, "text")
}
