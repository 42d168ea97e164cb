package cli

import (
	"fmt"
	"sort"
	"strings"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/shelf"
)

func newPigments(e *env) *cobra.Command {
	return newCatalogue(e, catalogue{
		use: "pigments", what: "pigments and extenders",
		example: `  mullwright pigments blue
  mullwright pigments --family earth --sort oil
  mullwright pigments prussian-blue`,
		pick: func() (*shelf.Shelf, error) {
			w, err := e.open()
			if err != nil {
				return nil, err
			}
			return w.Pigments, nil
		},
	})
}

func newMedia(e *env) *cobra.Command {
	return newCatalogue(e, catalogue{
		use: "media", what: "oils, solvents, gums and additives",
		example: `  mullwright media oil
  mullwright media --kind solvent
  mullwright media walnut-oil`,
		pick: func() (*shelf.Shelf, error) {
			w, err := e.open()
			if err != nil {
				return nil, err
			}
			return w.Media, nil
		},
	})
}

type catalogue struct {
	use, what, example string
	pick               func() (*shelf.Shelf, error)
}

func newCatalogue(e *env, c catalogue) *cobra.Command {
	var family, kind, order string
	cmd := &cobra.Command{
		Use:     c.use + " [QUERY]",
		Short:   "List " + c.what + ", or show one sheet with its sources",
		GroupID: "look",
		Long:    "Lists " + c.what + " whose names, synonyms, Colour Index name, family, kind or tags\nhold every word of the query. With one name it shows the full sheet: every value,\nits spread and its sources.",
		Example: c.example,
		Args:    cobra.MaximumNArgs(1),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, to string) ([]string, cobra.ShellCompDirective) {
			s, err := c.pick()
			if err != nil {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return startingWith(s.IDs(), to), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := c.pick()
			if err != nil {
				return err
			}
			query := ""
			if len(args) == 1 {
				query = args[0]
			}
			if query != "" && family == "" && kind == "" {
				if m, err := s.Lookup(query); err == nil {
					w, err := e.open()
					if err != nil {
						return err
					}
					return e.write(render.MaterialSheet(m, w.Cite), render.MaterialView(m, w.Cite))
				}
			}
			list, err := filter(s, query, family, kind)
			if err != nil {
				return err
			}
			if len(list) == 0 {
				if query != "" {
					if _, err := ask.Look(s, query); err != nil {
						return err
					}
				}
				return usage(fmt.Errorf("nothing in the catalogue fits; see 'mullwright %s' for all", c.use))
			}
			if err := sortBy(list, order); err != nil {
				return usage(err)
			}
			return e.write(render.MaterialListSheet(c.what, list), render.MaterialListView(list))
		},
	}
	cmd.Flags().StringVar(&family, "family", "", "only of this family: white, yellow, red, blue, green, earth, brown, black, ...")
	cmd.Flags().StringVar(&kind, "kind", "", "only of this kind: pigment, extender, oil, solvent, resin, wax, gum, ...")
	cmd.Flags().StringVar(&order, "sort", "name", "order by name, density or oil")
	return cmd
}

func startingWith(ids []string, start string) []string {
	var out []string
	for _, id := range ids {
		if strings.HasPrefix(id, start) {
			out = append(out, id)
		}
	}
	return out
}

func filter(s *shelf.Shelf, query, family, kind string) ([]*material.Material, error) {
	entries, err := s.Entries()
	if err != nil {
		return nil, err
	}
	var out []*material.Material
	for _, en := range entries {
		if family != "" && !en.OfFamily(family) {
			continue
		}
		if kind != "" && !strings.EqualFold(string(en.Kind), kind) {
			continue
		}
		if !en.Holds(query) {
			continue
		}
		m, err := s.Lookup(en.ID)
		if err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	return out, nil
}

func sortBy(list []*material.Material, order string) error {
	var key func(*material.Material) float64
	switch order {
	case "name":
		return nil // the index is in this order
	case "density":
		key = func(m *material.Material) float64 { return float64(m.DensityDistribution().Median) }
	case "oil":
		key = func(m *material.Material) float64 {
			d, _ := formulate.AbsorptionOf(m)
			return float64(d.Median)
		}
	default:
		return fmt.Errorf("--sort: %q is not an order; accepted: name, density, oil", order)
	}
	sort.SliceStable(list, func(i, j int) bool { return key(list[i]) < key(list[j]) })
	return nil
}
