package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate/absorption/refit"
	"mullwright/formulate/verify"
	"mullwright/testdata/checks"
	"mullwright/testdata/demand"
)

func newVerify(e *env) *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use:     "verify",
		Short:   "Run every published check the program carries",
		GroupID: "tool",
		Long: `Verify works through every published check the program carries: relation,
source, published value, ours, the difference and what is allowed. It fails where
one falls outside. It ends with how well artists' oil demand is foretold, each
pigment left out of the fit that predicts it, misses included.`,
		Example: `  mullwright verify
  mullwright verify --all --format csv`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			rows, err := checks.Rows()
			if err != nil {
				return err
			}
			sources, err := checks.Sources()
			if err != nil {
				return err
			}
			demands, err := refit.Parse(demand.Table)
			if err != nil {
				return err
			}
			report := verify.Run(rows, demands)
			cite := func(key string) string {
				if s, ok := sources[key]; ok {
					return s.Cite()
				}
				return key
			}
			if err := e.write(render.VerifySheet(report, cite, all), render.VerifyView(report, cite)); err != nil {
				return err
			}
			if !report.OK() {
				return fmt.Errorf("%w: %d of %d", errOutside, len(report.Misses()), len(report.Outcomes))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "list every check, not only a line for each relation")
	return cmd
}

var errOutside = errors.New("checks outside what is allowed")
