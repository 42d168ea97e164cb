package cli

import (
	"errors"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newThin(e *env) *cobra.Command {
	var asked ask.Thin
	var save string
	var out *outs
	cmd := &cobra.Command{
		Use:     "thin PIGMENT[=PARTS]... | FORMULA.toml",
		Short:   "Thinned paint or glaze: what to take, its film, its flow, its vapour",
		GroupID: "make",
		Long: `Thin takes an oil paint and works out what it becomes with a medium, a solvent
or both: amounts by weight and by measure, the wet and the dry composition,
whether the dry film still holds its pigment and in which layer it belongs, how
thick it dries and how far it goes, how it flows, and what the solvent does to
the air of a room.

The paint is a FORMULA.toml with [mull], or pigments with the words of mull
(--body, --pvc, --oil, ...). Say how far it is thinned in one of these ways:
  --parts 1:1:2                 paint:medium:solvent; 1:1 where one goes in
  --relative-body 50%           so much of the paint's own body is left
  --solvent-share 30%           so much of the whole is solvent
  --pigment-per-area 5g/m2      in a film of --wet-film 30um

Say how much: of the paint (--paint-volume and the other amounts of mull, 10 ml
where nothing is said), or of the thinned paint (--glaze-volume, --glaze-mass,
--area with --wet-film; --glaze-volume with --area settles the film).

A file with [thin] holds the same words as the flags; flags win.`,
		Example: `  mullwright thin ultramarine-blue --medium glaze-medium --parts 1:2
  mullwright thin blue.toml --medium stand-oil --solvent turpentine --parts 1:1:2
  mullwright thin raw-umber --solvent turpentine --relative-body 40% --room 30m3
  mullwright thin prussian-blue --medium linseed-oil --pigment-per-area 1g/m2 \
      --wet-film 20um --area 30x40cm`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			var q ask.Thin
			if err := fromArgsBy(args, &asked.Paint.Pigments, q.Fields(), asked.Fields(), q.LoadFile); err != nil {
				return err
			}
			res, w, err := answer(e, q.Request, formulate.Thin)
			if err != nil {
				return err
			}
			if err := saveFormula(save, "thin", q.Fields()); err != nil {
				return err
			}
			if err := out.write(e, draws{"vapour": func() ([]*picture.Drawing, error) {
				v, known, err := show.VapourCurve(res)
				if err == nil && !known {
					err = usage(errors.New("--out: there is no vapour to show; it takes a solvent whose molar mass is known, and --room"))
				}
				if err != nil {
					return nil, err
				}
				return one(v, picture.Curve)
			}}); err != nil {
				return err
			}
			return e.write(render.ThinSheet(res, w.Cite, e.explain), render.ThinView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), asked.Fields())
	out = outFlag(cmd, svg("vapour"))
	cmd.Flags().StringVar(&save, "save", "", "write the question as a formula file (never over another file)")
	return cmd
}
