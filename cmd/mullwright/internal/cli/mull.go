package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newMull(e *env) *cobra.Command {
	var given ask.Mull
	var paper ask.Paper
	var save string
	var out *outs
	cmd := &cobra.Command{
		Use:     "mull PIGMENT[=PARTS]... | FORMULA.toml",
		Short:   "Weighing card for an oil paint: what to weigh, the first pour, the steps",
		GroupID: "make",
		Long: `Mull works out a weighing card for an oil paint: what to weigh, how much oil to
pour first so that over-oiling is unlikely, the step to add by and the most that
should be needed, with yield, PVC, cautions and sources.

Give exactly one amount. Parts are by mass unless --parts-by says otherwise;
moisture is of the damp mass; an extender's share is of the pigment mass; a
wax's share is of the paste. Amounts take g, kg, mg, oz, lb, ml, cl, l,
"fl oz US", "fl oz imp", tsp, tbsp.

A FORMULA.toml holds the same words as the flags under [mull]; flags win.`,
		Example: `  mullwright mull prussian-blue --tubes 3x40ml
  mullwright mull yellow-ochre=2 raw-umber=1 --pigment-mass 60g --oil walnut-oil
  mullwright mull ultramarine-blue --paint-volume 40ml --wax beeswax=2% --slab 30x40cm`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			var q ask.Mull
			if err := fromArgs(args, "mull", &given.Pigments, q.Fields(), given.Fields()); err != nil {
				return err
			}
			on, err := paperOf(paper)
			if err != nil {
				return err
			}
			res, w, err := answer(e, q.Request, formulate.Mull)
			if err != nil {
				return err
			}
			if err := saveFormula(save, "mull", q.Fields()); err != nil {
				return err
			}
			if err := out.write(e, draws{
				"oil dial": func() ([]*picture.Drawing, error) {
					d, err := formulate.DialOf(res)
					if err != nil {
						return nil, err
					}
					return one(show.MullDial(d), picture.Dial)
				},
				"weighing card": func() ([]*picture.Drawing, error) {
					return one(show.MullCard(res, w.Cite, on), picture.Card)
				},
			}); err != nil {
				return err
			}
			return e.write(render.MullSheet(res, w.Cite, e.explain), render.MullView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), given.Fields())
	cmd.Flags().StringVar(&save, "save", "", "write the question as a formula file (never over another file)")
	out = outFlag(cmd, svg("oil dial"), pdf("weighing card"))
	ask.BindFlags(cmd.Flags(), paper.Fields())
	return cmd
}

// completePigments completes pigment names.
func (e *env) completePigments(cmd *cobra.Command, args []string, toComplete string) ([]string, cobra.ShellCompDirective) {
	w, err := e.open()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return startingWith(w.Pigments.IDs(), toComplete), cobra.ShellCompDirectiveNoFileComp
}
