package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mullwright/cmd/mullwright/internal/cli"
)

var updateReadme = flag.Bool("update-readme", false, "rewrite the output of the README's blocks that show it whole")

// elision stands in a README block for lines that are left out.
const elision = "[…]"

// Every console block of the README is run in the demo folder and must print
// what the README shows. A line [...] stands for lines left out.
func TestReadme(t *testing.T) {
	readme := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	demo, err := filepath.Abs(filepath.Join("..", "..", "testdata", "demo"))
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	var out []string
	blocks := 0
	for i := 0; i < len(lines); i++ {
		out = append(out, lines[i])
		if lines[i] != "```console" {
			continue
		}
		end := i + 1
		for lines[end] != "```" {
			end++
		}
		command, shown := lines[i+1], lines[i+2:end]
		got := runBlock(t, demo, command)
		blocks++
		if elided := contains(shown, elision); !elided && *updateReadme {
			shown = got
		} else if !matches(shown, got) {
			t.Errorf("README: %s\n%s", command, cmp.Diff(strings.Join(shown, "\n"), strings.Join(got, "\n")))
		}
		out = append(append(out, command), shown...)
		i = end - 1
	}
	if blocks < 5 {
		t.Errorf("the README shows %d commands, want a walk", blocks)
	}
	if *updateReadme {
		if err := os.WriteFile(readme, []byte(strings.Join(out, "\n")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// runBlock runs one "$ mullwright ..." line and returns its output.
func runBlock(t *testing.T, dir, command string) []string {
	t.Helper()
	args, ok := strings.CutPrefix(command, "$ mullwright ")
	if !ok {
		t.Fatalf("README: %q: want a line that begins with \"$ mullwright \"", command)
	}
	var stdout, stderr bytes.Buffer
	t.Chdir(dir)
	code := cli.Main(strings.Fields(args), cli.Streams{
		In: strings.NewReader(""), Out: &stdout, Err: &stderr, ConfigDir: "",
		Getenv: func(string) string { return "" },
	})
	if code != cli.ExitOK {
		stdout.WriteString(stderr.String())
	}
	return strings.Split(strings.TrimRight(stdout.String(), "\n"), "\n")
}

// matches reports whether the shown lines stand in the output, in order and
// without a gap but where lines are left out.
func matches(shown, got []string) bool {
	at := 0
	gap := false
	for i := 0; i < len(shown); i++ {
		if shown[i] == elision {
			gap = true
			continue
		}
		if gap {
			for at < len(got) && got[at] != shown[i] {
				at++
			}
			gap = false
		}
		if at >= len(got) || got[at] != shown[i] {
			return false
		}
		at++
	}
	return gap || at == len(got)
}
