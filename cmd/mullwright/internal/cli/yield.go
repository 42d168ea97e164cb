package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

func newYield(e *env) *cobra.Command {
	var q ask.Yield
	cmd := &cobra.Command{
		Use:     "yield REACTION --weighed FORMULA=MASS... | FORMULA",
		Short:   "Weighings of a home-made pigment beside what can form",
		GroupID: "own",
		Long: `Yield checks the weighings of a pigment that was precipitated at home: what ran
out first, how much can form with its bound water, the yield, and how much
pigment the jar really holds. More than theory is a finding, not a success: the
difference is water or salts. It names the hazards that the formulas show. It is
a check on weighings, not a procedure for making anything.

Write the reaction balanced, with the substances as they were weighed, crystal
water included. The arrow is -> or =, the dot before water ·, * or a point.
Quote it, so that the shell leaves it alone. One formula without an arrow gives
its molar mass and composition.`,
		Example: `  mullwright yield "2 CuSO4.5H2O + 2 Na2CO3 -> CuCO3.Cu(OH)2 + 2 Na2SO4 + CO2 + 9 H2O" \
      --weighed "CuSO4.5H2O=12.5g" --weighed Na2CO3=6g --got 5.2g
  mullwright yield "3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3 + 12 KCl" \
      --weighed "K4[Fe(CN)6]=12g" --weighed "FeCl3=8g at 97%" --water 14-16 \
      --got 12.9g --rinses 5 --rinse-water 500ml --held 60ml
  mullwright yield "Fe4[Fe(CN)6]3.14-16H2O"`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Help()
			}
			q.Reaction = args
			if f, alone, err := q.Formula(); alone {
				if err != nil {
					return usage(err)
				}
				res, err := formulate.OfFormula(f)
				if err != nil {
					return usage(err)
				}
				return e.write(render.FormulaSheet(res, e.explain), render.FormulaView(res, e.explain))
			}
			res, _, err := answer(e, undrawn(q.Request), formulate.Yield)
			if err != nil {
				return err
			}
			return e.write(render.YieldSheet(res, e.explain), render.YieldView(res, e.explain))
		},
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	return cmd
}
