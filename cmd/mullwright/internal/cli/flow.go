package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/formulate"
)

// orHelp runs a command, or shows its help instead of complaining where it was
// given nothing at all.
func orHelp(run func(*cobra.Command, []string) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 && cmd.Flags().NFlag() == 0 {
			return cmd.Help()
		}
		return run(cmd, args)
	}
}

// answer takes a question the way that all go: it opens the catalogues, makes the
// question a request and decides it.
func answer[Req, Res any](e *env, request func(*ask.Workshop, formulate.Sampling) (Req, error), decide func(Req) (Res, error)) (res Res, w *ask.Workshop, err error) {
	if w, err = e.open(); err != nil {
		return res, nil, err
	}
	req, err := request(w, e.sampling())
	if err != nil {
		return res, nil, usage(err)
	}
	res, err = decide(req)
	return res, w, usage(err)
}

// undrawn is a request that no draws are made for.
func undrawn[Req any](request func(*ask.Workshop) (Req, error)) func(*ask.Workshop, formulate.Sampling) (Req, error) {
	return func(w *ask.Workshop, _ formulate.Sampling) (Req, error) { return request(w) }
}
