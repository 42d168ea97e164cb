package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newMan(e *env) *cobra.Command {
	return &cobra.Command{
		Use:     "man FOLDER",
		Short:   "Write the manual pages into a new or empty folder",
		GroupID: "tool",
		Example: "  mullwright man ./man1 && man ./man1/mullwright-mull.1",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := args[0]
			if err := os.MkdirAll(dir, 0o755); err != nil {
				return fmt.Errorf("%s cannot be made: %w", dir, err)
			}
			if found, err := filepath.Glob(filepath.Join(dir, "*")); err != nil || len(found) > 0 {
				return fmt.Errorf("%s is not empty; it is left as it is, name a new folder", dir)
			}
			// The date is that of the source, so that the pages do not change from
			// one day to the next.
			date := sourceDate()
			root := cmd.Root()
			root.DisableAutoGenTag = true
			header := &doc.GenManHeader{Title: "MULLWRIGHT", Section: "1", Source: "mullwright " + version(), Manual: "mullwright", Date: &date}
			if err := doc.GenManTree(root, header, dir); err != nil {
				return err
			}
			pages, err := filepath.Glob(filepath.Join(dir, "*.1"))
			if err != nil {
				return err
			}
			fmt.Fprintf(e.Out, "%d manual pages in %s\n", len(pages), dir)
			return nil
		},
	}
}

// sourceDate is when the source was committed, or the beginning of 2026 where
// the build does not say.
func sourceDate() time.Time {
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.time" {
				if t, err := time.Parse(time.RFC3339, s.Value); err == nil {
					return t
				}
			}
		}
	}
	return time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
}
