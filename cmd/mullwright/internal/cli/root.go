package cli

import (
	"fmt"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mullwright/cmd/mullwright/internal/render"
)

func newRoot(e *env) *cobra.Command {
	root := &cobra.Command{
		Use:   "mullwright",
		Short: "Oil paint, watercolour and ink from dry pigment, weighed and sourced",
		Long: `Mullwright turns a jar of dry pigment into a weighing card: how much oil to
pour first and in what steps, how big a mull the slab and the tubes want, what
to do when a paste took too much oil, how far a paint may be thinned, and how
the same pigment goes into gum or ink. Every answer is a range with its sources;
your own tests narrow it.

Exit codes: 0 done, 1 the work failed, 2 the question was not understood.`,
		Example: `  mullwright mull prussian-blue --tubes 3x40ml
  mullwright mull ultramarine-blue --pigment-mass 50g --oil walnut-oil --explain
  mullwright pigments blue`,
		Version:                    version(),
		SuggestionsMinimumDistance: 2,
		SilenceUsage:               true,
		SilenceErrors:              true,
		PersistentPreRunE: func(cmd *cobra.Command, args []string) error {
			for _, f := range render.Formats() {
				if e.format == f {
					return e.checkBook(cmd)
				}
			}
			return usage(fmt.Errorf("--format: %q is not a format; accepted: %s", e.format, strings.Join(render.Formats(), ", ")))
		},
		RunE: func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return usage(fmt.Errorf("%w; see '%s --help'", err, cmd.CommandPath()))
	})
	f := root.PersistentFlags()
	f.StringVar(&e.format, "format", string(render.Text), "how to answer: "+strings.Join(render.Formats(), ", "))
	f.BoolVar(&e.explain, "explain", false, "show the derivation: each equation with its numbers and source")
	f.StringArrayVar(&e.catalogues, "catalogue", nil, "a catalogue file of your own; repeat for more")
	f.BoolVar(&e.exact, "exact", false, "one answer at the typical values instead of ranges")
	f.IntVar(&e.draws, "draws", 0, "how many draws make a range (default 2048)")
	f.Uint64Var(&e.seed, "seed", 0, "seed of the draws (default 1)")
	f.StringVar(&e.bookDir, "book", "", "folder of your batch book (default mullwright/batches in your data folder)")
	f.BoolVar(&e.ignoreBook, "ignore-book", false, "answer from the catalogue alone, whatever your batch book holds")
	f.StringArrayVar(&e.jars, "jar", nil, "which jar is used, NAME=LOT as your batch book names it (default the one last used)")

	// Flags wrap at 80 columns, with plain words for what they take.
	cobra.AddTemplateFunc("flagsWrapped", func(fs *pflag.FlagSet) string { return fs.FlagUsagesWrapped(render.Width) })
	root.SetUsageTemplate(strings.NewReplacer(
		".LocalFlags.FlagUsages", "flagsWrapped .LocalFlags", ".InheritedFlags.FlagUsages", "flagsWrapped .InheritedFlags",
	).Replace(root.UsageTemplate()))

	root.AddGroup(&cobra.Group{ID: "make", Title: "At the slab:"}, &cobra.Group{ID: "look", Title: "Looking things up:"}, &cobra.Group{ID: "own", Title: "Your own measurements:"}, &cobra.Group{ID: "tool", Title: "The tool itself:"})
	root.SetHelpCommandGroupID("tool")
	root.SetCompletionCommandGroupID("tool")
	for _, build := range commands {
		root.AddCommand(build(e))
	}
	addTopics(root)
	inArgs(root)
	return root
}

// commands lists every command, in the order of help within its group.
var commands = []func(*env) *cobra.Command{
	newMull,
	newThin,
	newLayers,
	newWatercolour,
	newSolution,
	newInk,
	newSettle,
	newCorrect,
	newRecipe,
	newCompare,
	newMany,
	newPigments,
	newMedia,
	newSwatch,
	newLabel,
	newRubOut,
	newBook,
	newPowder,
	newYield,
	newPage,
	newVerify,
}

// inArgs makes a wrong number of arguments a usage error.
func inArgs(c *cobra.Command) {
	if check := c.Args; check != nil {
		c.Args = func(cmd *cobra.Command, args []string) error { return usage(check(cmd, args)) }
	} else if !c.HasSubCommands() {
		return
	} else {
		c.Args = func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			return nil
		}
	}
	for _, sub := range c.Commands() {
		inArgs(sub)
	}
}

func unknownCommand(cmd *cobra.Command, name string) error {
	err := fmt.Errorf("unknown command %q for %q", name, cmd.CommandPath())
	if near := cmd.SuggestionsFor(name); len(near) > 0 {
		err = fmt.Errorf("%w; closest: %s", err, strings.Join(near, ", "))
	}
	return usage(err)
}

// version comes from the build.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "unknown"
	}
	return info.Main.Version
}
