package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newLabel(e *env) *cobra.Command {
	var q ask.Label
	var out *outs
	cmd := &cobra.Command{
		Use:     "label PIGMENT... | FORMULA.toml",
		Short:   "Labels for tubes, pans and bottles, at true size on a sheet",
		GroupID: "make",
		Long: `Label says what a paint's label should say and prints it at true size, several
to a sheet to cut: name, Colour Index name, binder, date, batch and maker as
given, what the catalogue says of hazards and handling, "hazards not assessed"
where it has nothing. A label whose words do not fit its size grows in height, a
strip for a pan in length: no word about hazards is cut off.

Name the pigments of one paint, or with --each of several paints, or give the
formula file of a mull, a watercolour or an ink.`,
		Example: `  mullwright label prussian-blue --binder linseed-oil --copies 6 --batch PB-3 --out labels.pdf
  mullwright label yellow-ochre raw-umber --each --binder gum-arabic --with honey --on pan --out pans.pdf
  mullwright label blue.toml --on bottle --date 2026-05-01 --maker "Iris bench"`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			q.What = args
			on, err := paperOf(q.Paper)
			if err != nil {
				return err
			}
			res, w, err := answer(e, undrawn(q.Request), formulate.Labels)
			if err != nil {
				return err
			}
			if err := out.write(e, draws{"labels": func() ([]*picture.Drawing, error) {
				pages, err := picture.LabelSheet(on.Page, show.Labels(res))
				return pages, usage(err)
			}}); err != nil {
				return err
			}
			return e.write(render.LabelSheet(res, w.Cite), render.LabelView(res))
		}),
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	out = outFlag(cmd, pdf("labels"))
	return cmd
}
