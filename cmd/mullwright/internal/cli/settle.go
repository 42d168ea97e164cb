package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newSettle(e *env) *cobra.Command {
	var given ask.Settle
	var out *outs
	cmd := &cobra.Command{
		Use:     "settle PIGMENT",
		Short:   "Wash pigment by settling: how long to wait, what size is cut off",
		GroupID: "make",
		Long: `Settle works out levigation: stir a powder into water, wait, pour off. Say --cut
for the time that leaves no larger grain in the pour, --time for the size a wait
cuts at, or neither for a table. Times follow from depth, grain size, density and
temperature, slowed by the crowd of other grains.

For an earth of your own give its true density instead of a name; 2.65 g/ml is
usual for clay and quartz.`,
		Example: `  mullwright settle yellow-ochre --cut 20um
  mullwright settle yellow-ochre --time 45s --depth 12cm
  mullwright settle --density 2.7g/ml --cut 10um --washes 5`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			given.What = args
			res, w, err := answer(e, given.Request, formulate.Settle)
			if err != nil {
				return err
			}
			if err := out.write(e, draws{
				"settling": func() ([]*picture.Drawing, error) { return one(show.SettleCurve(res), picture.Curve) },
			}); err != nil {
				return err
			}
			return e.write(render.SettleSheet(res, w.Cite, e.explain), render.SettleView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), given.Fields())
	out = outFlag(cmd, svg("settling"))
	return cmd
}
