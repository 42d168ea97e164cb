// Manual writes the manual pages of every command into a new or empty folder,
// for whoever packages the program:
//
//	go run ./cmd/mullwright/internal/manual ./man1
//
// It is a program of its own because the writer of manual pages slows the start
// of any program that carries it.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra/doc"

	"mullwright/cmd/mullwright/internal/cli"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "manual: name one folder for the pages")
		os.Exit(cli.ExitUsage)
	}
	n, err := write(os.Args[1])
	if err != nil {
		fmt.Fprintln(os.Stderr, "manual:", err)
		os.Exit(cli.ExitFailure)
	}
	fmt.Printf("%d manual pages in %s\n", n, os.Args[1])
}

// pagesDate stands on every page, so that the pages do not change from one day
// to the next.
var pagesDate = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)

func write(dir string) (int, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return 0, err
	}
	if found, err := filepath.Glob(filepath.Join(dir, "*")); err != nil || len(found) > 0 {
		return 0, fmt.Errorf("%s is not empty; it is left as it is, name a new folder", dir)
	}
	root := cli.Command(cli.Streams{})
	root.DisableAutoGenTag = true
	header := &doc.GenManHeader{Title: "MULLWRIGHT", Section: "1", Source: "mullwright", Manual: "mullwright", Date: &pagesDate}
	if err := doc.GenManTree(root, header, dir); err != nil {
		return 0, err
	}
	pages, err := filepath.Glob(filepath.Join(dir, "*.1"))
	return len(pages), err
}
