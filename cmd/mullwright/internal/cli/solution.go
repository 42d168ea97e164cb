package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

func newSolution(e *env) *cobra.Command {
	var given ask.Solution
	cmd := &cobra.Command{
		Use:     "solution GUM | MEDIUM",
		Short:   "Stock solution of gum, or any made-up medium, weighed for an amount",
		GroupID: "make",
		Long: `Solution weighs out a stock solution: a gum in water at a strength, with
humectant and preservative if asked, or any made-up medium of the catalogue or of
a catalogue file of your own, in its own proportions.

Strength is by mass, gum as weighed: 1:2 is one of gum to two of water, 33.3 %.`,
		Example: `  mullwright solution gum-arabic --strength 1:2 --amount 200ml
  mullwright solution gum-arabic --strength 30% --amount 100g --humectant glycerine=0.5
  mullwright solution shellac-borax-water --amount 250ml`,
		ValidArgsFunction: e.completeMedia,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			given.What = args
			if err := ask.Conflicts(given.Fields()); err != nil {
				return usage(err)
			}
			res, w, err := answer(e, undrawn(given.Request), formulate.Solution)
			if err != nil {
				return err
			}
			return e.write(render.SolutionSheet(res, w.Cite, e.explain), render.SolutionView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), given.Fields())
	return cmd
}

// completeMedia completes names of the media catalogue.
func (e *env) completeMedia(cmd *cobra.Command, args []string, toComplete string) ([]string, cobra.ShellCompDirective) {
	w, err := e.open()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return startingWith(w.Media.IDs(), toComplete), cobra.ShellCompDirectiveNoFileComp
}
