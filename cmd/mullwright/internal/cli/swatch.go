package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newSwatch(e *env) *cobra.Command {
	var q ask.Swatch
	var out *outs
	cmd := &cobra.Command{
		Use:     "swatch PIGMENT...",
		Short:   "What pigments look like, from measured colour, with its error",
		GroupID: "look",
		Long: `Swatch shows the measured colour of pigments: plain, let down with white, glazed
over grounds; how well a film hides, and oil against watercolour. Beside each
stands how it was come by, from what data, and how far a real paint may lie from
it. Where one colour was measured it is shown plain and no glaze is foretold;
where none was, there is no chip.`,
		Example: `  mullwright swatch ultramarine-blue cobalt-blue
  mullwright swatch cobalt-yellow --tints --glazes --out cobalt-yellow.svg
  mullwright swatch phthalo-green-ys --tints --format csv`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			q.Pigments = args
			res, _, err := answer(e, undrawn(q.Request), formulate.Swatches)
			if err != nil {
				return err
			}
			if err := out.write(e, draws{"swatches": func() ([]*picture.Drawing, error) {
				d, err := show.DrawSwatches(res, 0)
				return []*picture.Drawing{d}, err
			}}); err != nil {
				return err
			}
			return e.write(render.SwatchSheet(res, e.chip()), render.SwatchView(res))
		}),
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	out = outFlag(cmd, svg("swatches"))
	return cmd
}
