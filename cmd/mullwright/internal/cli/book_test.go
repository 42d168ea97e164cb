package cli

import (
	"path/filepath"
	"testing"
)

func TestDataDir(t *testing.T) {
	abs := t.TempDir()
	for _, c := range []struct {
		name, system string
		env          map[string]string
		want         string
	}{
		{"as the user says", "linux", map[string]string{"XDG_DATA_HOME": abs, "HOME": "/home/me"}, abs},
		{"a relative folder is none", "linux", map[string]string{"XDG_DATA_HOME": "data", "HOME": "/home/me"}, filepath.Join("/home/me", ".local", "share")},
		{"linux", "linux", map[string]string{"HOME": "/home/me"}, filepath.Join("/home/me", ".local", "share")},
		{"mac", "darwin", map[string]string{"HOME": "/Users/me"}, filepath.Join("/Users/me", "Library", "Application Support")},
		{"windows", "windows", map[string]string{"LocalAppData": `C:\Users\me\AppData\Local`}, `C:\Users\me\AppData\Local`},
		{"no home", "linux", nil, ""},
	} {
		if got := dataDir(c.system, func(k string) string { return c.env[k] }); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	e := &env{}
	if b := e.batches(); b.Dir != "" {
		t.Errorf("without a data folder the book is in %q", b.Dir)
	}
	e.DataDir = abs
	if b := e.batches(); b.Dir != filepath.Join(abs, "mullwright", "batches") {
		t.Errorf("the book is in %q", b.Dir)
	}
}
