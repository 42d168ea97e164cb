// Empty is a cobra program of fifteen subcommands that do nothing: the floor
// under the start of any such program.
package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"
)

func main() {
	root := &cobra.Command{Use: "empty", Short: "does nothing"}
	for i := range 15 {
		c := &cobra.Command{Use: fmt.Sprintf("sub%d", i), Short: "does nothing", Run: func(*cobra.Command, []string) {}}
		c.Flags().String("flag", "", "a flag")
		root.AddCommand(c)
	}
	if err := root.Execute(); err != nil {
		os.Exit(1)
	}
}
