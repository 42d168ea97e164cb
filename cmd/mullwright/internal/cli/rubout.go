package cli

import (
	"errors"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

func newRubOut(e *env) *cobra.Command {
	var q ask.RubOut
	var save string
	var keep, sure bool
	cmd := &cobra.Command{
		Use:     "rubout [PIGMENT]",
		Short:   "Your own oil absorption test: how to make it, what it says",
		GroupID: "own",
		Long: `Rubout guides the spatula test for oil absorption and works its results out:
with a pigment alone it says how much powder to take, how much oil to have
ready, where to go slowly and how to know the end point.

Give a --took for each test: oil weighed (2.05g), measured (2.2ml), counted
("67 drops", with --twenty-drops), or as two readings of the bottle or burette
("85.32g to 83.27g"). The pigment is --pigment-mass, or each test's own:
"2.05g on 5.02g". The answer is the mean on both bases with its 95 % interval,
whether the tests agree, and whether one lies out.

--save writes the tests as a catalogue file of your own, for --catalogue. It
never writes over a file. Earlier tests that were given with --catalogue are
carried into the new file. --keep writes the mean into your batch book instead,
from where every command uses it. Either way your tests narrow what is published,
by the same rule and as far.

A jar that the catalogue lacks is named with --name. With its --density as well
('mullwright powder density' finds it) --save writes all that a mull needs.`,
		Example: `  mullwright rubout prussian-blue
  mullwright rubout prussian-blue --pigment-mass 5g --took 2.05g --took 2.11g
  mullwright rubout yellow-ochre --took "0ml to 3.2ml on 10g" --took "3.3ml on 10.02g"
  mullwright rubout chalk --pigment-mass 10g --took "58 drops" --twenty-drops 0.63g \
      --took 1.85g --lot "jar 3" --date 2026-05-01 --save chalk-jar-3.toml
  mullwright rubout --name "Violet hematite" --density 5.0g/ml --pigment-mass 5g \
      --took 1.1g --took 1.12g --save violet-hematite.toml`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			q.Pigment = args
			if keep && save != "" {
				return usage(errors.New("--save and --keep are given together; a test that stands in both would count twice"))
			}
			if sure && !keep {
				return usage(errors.New("--sure is a word of the batch book; it belongs to --keep"))
			}
			res, w, err := answer(e, undrawn(q.Request), formulate.RubOut)
			if err != nil {
				return err
			}
			sheet := render.RubOutSheet(res, w.Cite, q.Guide, save != "" || keep, e.explain)
			switch {
			case save != "":
				text, err := w.OwnEntry(res)
				if err := e.saveEntry(save, text, err); err != nil {
					return err
				}
				sheet.First(render.SavedSection(save, res.Request.Pigment))
			case keep && res.Request.Unlisted:
				return usage(errors.New("--keep: the batch book is of pigments that a catalogue holds: write this jar with --save, then give the file with --catalogue"))
			case keep:
				entry, err := ask.RubOutEntry(res)
				if err != nil {
					return usage(err)
				}
				entry.Sure = sure
				if !sure {
					if err := w.Fits(&entry); err != nil {
						return usage(err)
					}
				}
				if entry, err = e.keep(entry); err != nil {
					return err
				}
				sheet.First(render.KeptSection(e.batches().Dir, &entry))
			}
			return e.write(sheet, render.RubOutView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	cmd.Flags().BoolVar(&keep, "keep", false, "write the mean into your batch book, with --lot and --date")
	cmd.Flags().BoolVar(&sure, "sure", false, "with --keep: the mean is right, however far it lies from what is published")
	cmd.Flags().StringVar(&save, "save", "", "write the tests as a catalogue file of your own (never over another file)")
	return cmd
}
