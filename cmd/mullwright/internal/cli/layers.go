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

func newLayers(e *env) *cobra.Command {
	var out *outs
	cmd := &cobra.Command{
		Use:     "layers PAINTING.toml",
		Short:   "Check a painting's layers: fat over lean, drying, thickness, binding",
		GroupID: "make",
		Long: `Layers checks a painting from the ground up: that no layer is leaner than the
one below it, by volume of the dry film; that none dries faster than the one
below, or goes on too soon; that no thin film lies over a thick one; and that
every layer has the binder to hold its pigment. It names the first layer at
fault and the smallest changes that mend it, found by checking the changed stack
again: a change that makes a new fault is not named. Where two ranges overlap,
or oil absorption and demand contradict each other, it says undecided.

A painting is a file of [[layer]] tables, the lowest first. Each names its paint
by a formula file in the folder of this file or below it (formula =
"umber.toml"), or by the words of mull (pigments, oil, body, pvc, ...); the words
of thin (medium, solvent, parts, ...) where it is thinned; wet-film; and dried,
the time before the next layer. absorbed is the binder the ground takes from the
lowest layer; solvent alone makes no paint leaner. Raw umber is oily by nature,
so here a leaner white goes into it:

    [painting]
    name = "Iris on panel"

    [[layer]]
    name = "umber drawing"
    pigments = ["titanium-white-rutile=5", "raw-umber"]
    body = "stiff"
    solvent = "turpentine"
    parts = "2:1"
    wet-film = "30um"
    dried = "14 d"

    [[layer]]
    name = "blue"
    pigments = ["ultramarine-blue"]
    medium = "stand-oil"
    parts = "2:1"
    wet-film = "60um"`,
		Example: `  mullwright layers iris.toml
  mullwright layers iris.toml --format json`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Help()
			}
			if !isFormula(args[0]) {
				return usage(errors.New("a painting is a .toml file with [[layer]] tables; see 'mullwright layers --help'"))
			}
			q, err := ask.OpenLayers(args[0])
			if err != nil {
				return err
			}
			w, err := e.open()
			if err != nil {
				return err
			}
			req, err := q.Request(w, e.sampling())
			if err != nil {
				return err
			}
			res, err := formulate.Layers(req)
			if err != nil {
				return usage(q.Fault(err))
			}
			if err := out.write(e, draws{
				"stack": func() ([]*picture.Drawing, error) {
					return one(show.LayerStack(res, q.Name, ask.Colour), picture.Layers)
				},
			}); err != nil {
				return err
			}
			return e.write(render.LayersSheet(res, q.Name, w.Cite, e.explain), render.LayersView(res, q.Name, w.Cite, e.explain))
		},
	}
	out = outFlag(cmd, svg("stack"))
	return cmd
}
