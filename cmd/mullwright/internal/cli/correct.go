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

func newCorrect(e *env) *cobra.Command {
	var asked ask.Correct
	var save, savePaste string
	cmd := &cobra.Command{
		Use:     "correct PIGMENT[=PARTS]... | CORRECTION.toml",
		Short:   "Ways out of a paste that took too much oil, or too little",
		GroupID: "make",
		Long: `Correct takes a paste as it is and says how to bring it to where it should be:
more powder, oil drawn out on paper, an extender, a wax within its published
use, the next batch, an upper layer; or more oil where it is too dry.

Say how the paste is known, in one of these ways:
  --pigment-mass and --oil-mass             both weighed
  --pigment-mass and --paste-mass           the whole paste weighed
  --pigment-mass and --oil-volume           spoons or millilitres of oil
  --pigment-mass and --oil-drops            drops of oil
  --filled 5ml=6.8g and --paste-mass        the paste's own density
  --from FORMULA.toml and --over-drops      so many drops beyond the formula

The goal is --body, --pvc or --reduced-pvc; with --from it is the formula. A
mixed paste keeps its proportions unless --add says what to add. A paste that
thickened for another reason (say what you see with --sign, or how it feels with
--feels) is named as such and not corrected with oil.

In gum (--in gum) say what was weighed with --pigment-mass and --poured, or give
the formula with --from, and what is wrong with --symptom, or the dry --pvc it
should have: the answer is one change with its amount.

A CORRECTION.toml holds the same words as the flags under [correct]; flags win.`,
		Example: `  mullwright correct ultramarine-blue --pigment-mass 20g --oil-mass 14g
  mullwright correct ultramarine-blue --pigment-mass 20g --paste-mass 34g --have 5g
  mullwright correct --from blue.toml --over-drops 40
  mullwright correct raw-umber --paste-mass 30g --filled 5ml=7.4g --air 0-2%
  mullwright correct --from blue.toml --wept 1.5g
  mullwright correct --in gum ultramarine-blue --pigment-mass 20g --poured gum-arabic-solution=14g --symptom powders`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			if err := notAFormula(args); err != nil {
				return err
			}
			var q ask.Correct
			if err := fromArgs(args, "correct", &asked.Pigments, q.Fields(), asked.Fields()); err != nil {
				return err
			}
			if gum, err := q.Gum(); err != nil {
				return usage(err)
			} else if gum {
				return e.correctGum(&q, save, savePaste)
			}
			res, w, err := answer(e, q.Request, formulate.Correct)
			if err != nil {
				return err
			}
			if err := saveFormula(save, "correct", q.Fields()); err != nil {
				return err
			}
			if savePaste != "" {
				paste, err := q.Paste(res)
				if err != nil {
					return err
				}
				if err := saveFormula(savePaste, "mull", paste.Fields()); err != nil {
					return err
				}
			}
			return e.write(render.CorrectSheet(res, w.Cite, e.explain), render.CorrectView(res, w.Cite, e.explain))
		}),
	}
	ask.BindFlags(cmd.Flags(), asked.Fields())
	cmd.Flags().StringVar(&save, "save", "", "write the question as a file (never over another file)")
	cmd.Flags().StringVar(&savePaste, "save-paste", "", "write the paste as it is now as a [mull] formula file")
	return cmd
}

// correctGum answers for a colour in gum.
func (e *env) correctGum(q *ask.Correct, save, savePaste string) error {
	if savePaste != "" {
		return usage(errors.New("--save-paste: this is for a paste in oil"))
	}
	res, w, err := answer(e, q.GumRequest, formulate.CorrectGum)
	if err != nil {
		return err
	}
	if err := saveFormula(save, "correct", q.Fields()); err != nil {
		return err
	}
	return e.write(render.CorrectGumSheet(res, w.Cite, e.explain), render.CorrectGumView(res, w.Cite, e.explain))
}

// notAFormula points a maker who gives the paste's formula as an argument to
// the flag that takes it.
func notAFormula(args []string) error {
	for _, a := range args {
		if !isFormula(a) {
			continue
		}
		text, err := ask.ReadFile(a)
		if err != nil {
			return err
		}
		if strict.LineOf(text, "mull")+strict.LineOf(text, "watercolour") > 0 && strict.LineOf(text, "correct") == 0 {
			return usage(fmt.Errorf("%s is the formula of a paint; give it as --from %s and say how the paste differs from it", a, a))
		}
	}
	return nil
}
