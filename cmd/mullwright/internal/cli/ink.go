package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newInk(e *env) *cobra.Command {
	var given ask.Ink
	var save string
	var paper ask.Paper
	var out *outs
	cmd := &cobra.Command{
		Use:     "ink PIGMENT[=PARTS]... | FORMULA.toml",
		Short:   "Pigment ink in gum, shellac or oil: weights, flow, settling, the line",
		GroupID: "make",
		Long: `Ink works out a pigment ink: what to weigh, how thick it flows beside what is
usual for the tool, how long the bottle stays mixed, what passes the pen, and how
much pigment a metre of line takes.

Vehicles: gum in water, shellac in borax water, and for block printing drying oil
with the paste of the oil mull. Pigment ink does not belong in a fountain pen.

What settles is the grain after mulling, clumps included: say --grain if you have
looked. Tools' figures are common practice: no published target was found.

A FORMULA.toml holds the same words as the flags under [ink]; flags win.`,
		Example: `  mullwright ink lamp-black --bottle 30ml
  mullwright ink ultramarine-blue --bottle 30ml --for brush --grain 1-4um
  mullwright ink lamp-black --bottle 30ml --vehicle shellac
  mullwright ink carbon-black --bottle 50ml --for relief-print
  mullwright ink yellow-ochre --pigment-mass 15g --pigment-share 23% --strength 1:15 --undiluted --humectant none`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			on, err := paperOf(paper)
			if err != nil {
				return err
			}
			var q ask.Ink
			if err := fromArgs(args, "ink", &given.Pigments, q.Fields(), given.Fields()); err != nil {
				return err
			}
			res, w, err := answer(e, q.Request, formulate.Ink)
			if err != nil {
				return sayWet(err)
			}
			if err := saveFormula(save, "ink", q.Fields()); err != nil {
				return err
			}
			if err := out.write(e, draws{
				"weighing card": func() ([]*picture.Drawing, error) { return one(show.InkCard(res, w.Cite, on), picture.Card) },
			}); err != nil {
				return err
			}
			return e.write(render.InkSheet(res, w.Cite, e.explain), render.InkView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), given.Fields())
	ask.BindFlags(cmd.Flags(), paper.Fields())
	out = outFlag(cmd, pdf("weighing card"))
	cmd.Flags().StringVar(&save, "save", "", "write the question as a formula file (never over another file)")
	return cmd
}
