package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mullwright/cmd/mullwright/internal/cli"
)

// The README's pictures are what its commands draw; -update-readme draws them
// anew.
func TestReadmePictures(t *testing.T) {
	demo, err := filepath.Abs(filepath.Join("..", "..", "testdata", "demo"))
	if err != nil {
		t.Fatal(err)
	}
	for file, args := range map[string]string{
		"dial.svg":   "mull prussian-blue --tubes 3x40ml --loss 7%",
		"blues.svg":  "compare ultramarine-blue cobalt-blue prussian-blue cerulean-blue --sort oil",
		"layers.svg": "layers fern-study.toml --catalogue catalogue.toml",
		"glazes.svg": "swatch ultramarine-blue --glazes",
	} {
		t.Run(file, func(t *testing.T) {
			drawn := filepath.Join(t.TempDir(), file)
			t.Chdir(demo)
			var out, complaints bytes.Buffer
			code := cli.Main(append(strings.Fields(args), "--out", drawn), cli.Streams{Out: &out, Err: &complaints, Getenv: func(string) string { return "" }})
			if code != cli.ExitOK {
				t.Fatalf("exit code %d: %s", code, complaints.String())
			}
			got, err := os.ReadFile(drawn)
			if err != nil {
				t.Fatal(err)
			}
			shown := filepath.Join(demo, "pictures", file)
			if *updateReadme {
				if err := os.WriteFile(shown, got, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(shown)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, want) {
				t.Errorf("testdata/demo/pictures/%s is not what \"mullwright %s\" draws; run with -update-readme and look at it", file, args)
			}
		})
	}
}
