package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
	"mullwright/formulate/strict"
)

func newRecipe(e *env) *cobra.Command {
	return &cobra.Command{
		Use:     "recipe FILE|-",
		Short:   "What a recipe truly holds, and whether its percentages are right",
		GroupID: "make",
		Long: `Recipe reads a recipe as people write it down, in parts, spoons, volumes or
weights, and gives its true composition: grams and millilitres, per cent by mass
and by volume, PVC. A percentage that the recipe claims is held against every
basis, since "per cent" of the pigment, of the oil and of the paste are three
different things. Give - to read from standard input.

` + ask.RecipeFormat,
		Example: `  mullwright recipe waxed.txt
  echo '3 oz gum arabic, 6 fl oz imp water, 1½ fl oz imp glycerine' | mullwright recipe -
  printf '30 g beeswax\n980 ml linseed oil\nsays 2 %% beeswax\n' | mullwright recipe -`,
		Args: cobra.MatchAll(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Help()
			}
			r, err := ask.ReadRecipe(args[0], e.In)
			if err != nil {
				return err
			}
			w, err := e.open()
			if err != nil {
				return err
			}
			req, err := r.Request(w, e.sampling())
			if err != nil {
				return err
			}
			res, err := formulate.TrueComposition(req)
			if err != nil {
				return usage(inFile(r.File, err))
			}
			return e.write(render.RecipeSheet(res, w.Cite, e.explain), render.RecipeView(res, w.Cite, e.explain))
		},
	}
}

// inFile puts file and line in front of an error that belongs to a line.
func inFile(file string, err error) error {
	var at *formulate.LineError
	if errors.As(err, &at) {
		return strict.Fault{File: file, Line: at.Line, What: at.Err.Error()}
	}
	return fmt.Errorf("%s: %w", file, err)
}
