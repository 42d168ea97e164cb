package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newWatercolour(e *env) *cobra.Command {
	var given ask.Watercolour
	var save string
	var paper ask.Paper
	var out *outs
	cmd := &cobra.Command{
		Use:     "watercolour PIGMENT[=PARTS]... | FORMULA.toml",
		Short:   "Watercolour in gum: binder, humectant, water, pans and pours",
		GroupID: "make",
		Aliases: []string{"watercolor"},
		Long: `Watercolour works out a paint in gum: what to weigh, how much binder to begin
with and by what step to go on, the water, the pours into a pan, the humectant
beside published recipes, the preservative, and what to do about a symptom.

How much gum a pigment takes is in no published table. Unless you say --pvc or
--powder-to-binder it is scaled from the pigment's oil absorption: a hypothesis,
shown with its range. Your rub and wash test decides.

Give exactly one amount. Parts are by mass unless --parts-by says otherwise;
moisture is of the damp mass; a humectant's ratio is to the gum by mass; wetting
agent and preservative are shares of the wet paint. A wet press cake goes in as
it is, with --moisture; where it brings too much water the gum goes in as powder
and the paint comes out a little thinner, and the answer says so.

A FORMULA.toml holds the same words as the flags under [watercolour]; flags win.`,
		Example: `  mullwright watercolour ultramarine-blue --pans 12xhalf
  mullwright watercolour yellow-ochre --tubes 5x5ml --humectant glycerine=0.6 --air dry
  mullwright watercolour prussian-blue --pigment-mass 20g --powder-to-binder 1:1 --spoon prussian-blue=2.1g/5ml
  mullwright watercolour ultramarine-blue --pans 6xhalf --symptom cracks`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			on, err := paperOf(paper)
			if err != nil {
				return err
			}
			var q ask.Watercolour
			if err := fromArgs(args, "watercolour", &given.Pigments, q.Fields(), given.Fields()); err != nil {
				return err
			}
			res, w, err := answer(e, q.Request, formulate.Watercolour)
			if err != nil {
				return sayWet(err)
			}
			if err := saveFormula(save, "watercolour", q.Fields()); err != nil {
				return err
			}
			if err := out.write(e, draws{
				"weighing card": func() ([]*picture.Drawing, error) { return one(show.WatercolourCard(res, w.Cite, on), picture.Card) },
			}); err != nil {
				return err
			}
			return e.write(render.WatercolourSheet(res, w.Cite, e.explain), render.WatercolourView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), given.Fields())
	ask.BindFlags(cmd.Flags(), paper.Fields())
	out = outFlag(cmd, pdf("weighing card"))
	cmd.Flags().StringVar(&save, "save", "", "write the question as a formula file (never over another file)")
	return cmd
}
