package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The painting in the help is one: no layer of it is at fault, and its order of
// fat is sound.
func TestLayersHelp(t *testing.T) {
	var painting []string
	for _, line := range strings.Split(newLayers(&env{}).Long, "\n") {
		if line == "" || strings.HasPrefix(line, "    ") {
			painting = append(painting, strings.TrimPrefix(line, "    "))
		}
	}
	file := filepath.Join(t.TempDir(), "iris.toml")
	if err := os.WriteFile(file, []byte(strings.Join(painting, "\n")), 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, errs := run("", "layers", file, "--ignore-book")
	if code != ExitOK || strings.Contains(out, "AT FAULT") || !strings.Contains(out, "fat over lean  sound") || !strings.Contains(out, "Iris on panel") {
		t.Errorf("exit code %d: %s%s", code, out, errs)
	}
}
