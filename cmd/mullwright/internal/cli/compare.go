package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

func newCompare(e *env) *cobra.Command {
	var q ask.Compare
	var out *outs
	cmd := &cobra.Command{
		Use:     "compare PIGMENT... | --family NAME | --like PIGMENT",
		Short:   "Pigments side by side at the same body, PVC, oil or volume",
		GroupID: "make",
		Long: `Compare puts pigments side by side: oil by mass and by volume, PVC, density,
paint and tubes from 100 g of powder, cost, drying, hazards. It says where two
ranges overlap so much that their order means nothing.

With --like it ranks the other pigments by how near they come in hue, loading,
density, opacity and drying.`,
		Example: `  mullwright compare ultramarine-blue cobalt-blue prussian-blue --sort oil
  mullwright compare --family earth --at pvc --pvc 30% --sort density
  mullwright compare --like cobalt-blue`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			q.Pigments = args
			if q.Like != "" {
				if err := out.none("a likeness is a list, not a chart"); err != nil {
					return err
				}
				return e.alike(&q)
			}
			res, w, err := answer(e, q.Request, formulate.Compare)
			if err != nil {
				return err
			}
			if err := out.write(e, draws{
				"bars": func() ([]*picture.Drawing, error) { return one(show.CompareBars(res, ask.Colour), picture.Bars) },
			}); err != nil {
				return err
			}
			sheet := render.CompareSheet(res, w.Cite)
			if e.charts() {
				e.bars(sheet, show.CompareBars(res, ask.Colour))
			}
			return e.write(sheet, render.CompareView(res, w.Cite))
		}),
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	out = outFlag(cmd, svg("bars"))
	return cmd
}

// alike ranks pigments by how near they come to one.
func (e *env) alike(q *ask.Compare) error {
	w, err := e.open()
	if err != nil {
		return err
	}
	of, others, err := q.Looks(w)
	if err != nil {
		return usage(err)
	}
	list := formulate.Alike(of, others)
	return e.write(render.AlikeSheet(of, list), render.AlikeView(of, list))
}
