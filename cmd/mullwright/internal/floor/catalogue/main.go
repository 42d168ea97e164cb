// Catalogue decodes both catalogues and prints one table: the floor under an
// answer of a program that decodes all its data.
package main

import (
	"fmt"
	"os"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/olekukonko/tablewriter"
	"github.com/spf13/cobra"

	"mullwright/media"
	"mullwright/pigments"
)

func main() {
	root := &cobra.Command{Use: "catalogue", RunE: func(*cobra.Command, []string) error {
		some, err := pigments.New().All()
		if err != nil {
			return err
		}
		more, err := media.New().All()
		if err != nil {
			return err
		}
		t := tablewriter.NewTable(os.Stdout)
		t.Header("id", "name", "colour", "entries")
		for i := range 8 {
			c := colorful.Hsv(float64(45*i), 0.5, 0.5)
			if err := t.Append(some[i].ID, some[i].Name, c.Hex(), fmt.Sprint(len(some)+len(more))); err != nil {
				return err
			}
		}
		return t.Render()
	}}
	if err := root.Execute(); err != nil {
		os.Exit(1)
	}
}
