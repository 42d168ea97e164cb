package cli

import (
	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

func newPowder(e *env) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "powder",
		Short:   "The condition of a powder: moisture, bulk, density, fineness, losses",
		GroupID: "own",
		Long: `Powder turns simple tests of a dry pigment into figures: how damp it is and how
it may be dried, how loose it lies and what a jar of it comes to, its true
density by displacement, its fineness, its surface and what finer grinding adds
to the oil, and what is lost on the way from the wet cake to the tubes.

Weighings are given as the balance shows them, vessel included; leave the empty
vessel out where the balance was tared.`,
		Example: `  mullwright powder moisture yellow-ochre --dish 25.10g --damp 30.13g --dried 29.98g
  mullwright powder bulk --vessel 50ml --empty 12.30g --full 34.80g --tapped 41ml
  mullwright powder jar ultramarine-blue --jar 250ml --poured 0.55g/ml
  mullwright powder cake --stage "wet cake=120g at 62%" --stage "dried=44g"`,
		RunE: func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newPowderMoisture(e), newPowderBulk(e), newPowderJar(e), newPowderDensity(e), newPowderFineness(e), newPowderSurface(e), newPowderCake(e))
	return cmd
}

// test is what a test of a powder says about itself.
type test struct {
	use, short, long, example string
	fields                    []ask.Field
	pigment                   *[]string // where the arguments go; none are taken without it
}

// newTest makes a command of a test: its question, its decision, its faces and
// what is done before they are shown.
func newTest[Req, Res any](e *env, t test,
	request func(*ask.Workshop, formulate.Sampling) (Req, error), decide func(Req) (Res, error),
	sheet func(Res, render.Cite, bool) *render.Sheet, view func(Res, bool) any, before ...func(*ask.Workshop, Res) error) *cobra.Command {
	cmd := &cobra.Command{
		Use: t.use, Short: t.short, Long: t.long, Example: t.example,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			if t.pigment != nil {
				*t.pigment = args
			}
			res, w, err := answer(e, request, decide)
			if err != nil {
				return err
			}
			for _, do := range before {
				if err := do(w, res); err != nil {
					return err
				}
			}
			return e.write(sheet(res, w.Cite, e.explain), view(res, e.explain))
		}),
	}
	if t.pigment == nil {
		cmd.Args, cmd.ValidArgsFunction = cobra.NoArgs, cobra.NoFileCompletions
	}
	ask.BindFlags(cmd.Flags(), t.fields)
	return cmd
}

func newPowderMoisture(e *env) *cobra.Command {
	var q ask.PowderMoisture
	return newTest(e, test{
		use: "moisture [PIGMENT]", short: "Water in a powder, and how it may be dried",
		long: `Moisture works out the water in a powder from a dish weighed damp and dried. It
says how the pigment may be dried: some must not be heated at all. Repeat
--dried for every weighing; two that are alike show that it was dry.`,
		example: `  mullwright powder moisture prussian-blue
  mullwright powder moisture yellow-ochre --dish 25.10g --damp 30.13g --dried 29.99g --dried 29.98g
  mullwright powder moisture --damp 5.00g --dried 4.85g --want 50g`,
		fields: q.Fields(), pigment: &q.Pigment,
	}, undrawn(q.Request), formulate.PowderMoisture, render.MoistureSheet, render.MoistureView)
}

func newPowderBulk(e *env) *cobra.Command {
	var q ask.PowderBulk
	return newTest(e, test{
		use: "bulk [PIGMENT]", short: "Poured and tapped density, and how the powder flows",
		long: `Bulk works out the density of a powder with its air, poured into a vessel of
known volume, and, where it was tapped down, the Carr index and its flow. Give
the tapped test as the volume the same powder fills (--tapped, a measuring
cylinder) or as the weight of the vessel topped up again (--refilled, a beaker).`,
		example: `  mullwright powder bulk --vessel 50ml --empty 12.30g --full 34.80g --tapped 41ml
  mullwright powder bulk ultramarine-blue --vessel 50ml --full 22.5g --refilled 27.8g`,
		fields: q.Fields(), pigment: &q.Pigment,
	}, undrawn(q.Request), formulate.PowderBulk, render.BulkSheet, render.BulkView)
}

func newPowderJar(e *env) *cobra.Command {
	var q ask.PowderJar
	return newTest(e, test{
		use: "jar PIGMENT --jar VOLUME", short: "What a jar of powder comes to: mass, paint, tubes",
		long: `Jar turns a volume of powder into grams, and into the paint and tubes it makes.
The density of the powder in the jar comes from your own test ('powder bulk') or,
for a few pigments, from published figures.`,
		example: `  mullwright powder jar ultramarine-blue --jar 250ml --poured 0.55g/ml --tapped 0.72g/ml
  mullwright powder jar chalk --jar 1l --tube 60ml --loss 7%`,
		fields: q.Fields(), pigment: &q.Pigment,
	}, q.Request, formulate.PowderJar, render.JarSheet, render.JarView)
}

func newPowderDensity(e *env) *cobra.Command {
	var q ask.PowderDensity
	var save string
	sheet := func(r *formulate.TrueDensityResult, cite render.Cite, explain bool) *render.Sheet {
		s := render.DensitySheet(r, cite, save != "", explain)
		if save != "" {
			s.First(render.SavedSection(save, r.Request.Pigment))
		}
		return s
	}
	keep := func(w *ask.Workshop, r *formulate.TrueDensityResult) error {
		if save == "" {
			return nil
		}
		text, err := w.OwnDensity(r)
		return e.saveEntry(save, text, err)
	}
	cmd := newTest(e, test{
		use: "density [PIGMENT]", short: "True density by displacement",
		long: `Density works out the true density of a powder, without its air, from the four
weighings of a pyknometer (any flask that fills to the same mark again) or from
the rise of the liquid in a measuring cylinder, with the liquid's density at its
temperature and the uncertainty of it all.

--save writes it as a catalogue file of your own, for --catalogue; it never
writes over a file. A jar that the catalogue lacks is named with --name; with
its --oil-absorption as well the file holds all that a mull needs.`,
		example: `  mullwright powder density yellow-ochre --empty 25.000g --with-powder 35.000g \
      --topped 81.40g --full 74.91g --temperature 22C
  mullwright powder density --powder 20g --before 50ml --after 57ml
  mullwright powder density --name "Violet hematite" --powder 20g --before 50ml --after 54ml`,
		fields: q.Fields(), pigment: &q.Pigment,
	}, undrawn(q.Request), formulate.PowderDensity, sheet, render.DensityView, keep)
	cmd.Flags().StringVar(&save, "save", "", "write it as a catalogue file of your own (never over another file)")
	return cmd
}

func newPowderFineness(e *env) *cobra.Command {
	var q ask.PowderFineness
	return newTest(e, test{
		use: "fineness [PIGMENT]", short: "Grind gauge, sieve residue, settling time to size",
		long: `Fineness reads a grind gauge on both scales, a sieve residue, or how deep a
stirred jar of water had cleared after a time. Give any of the three.`,
		example: `  mullwright powder fineness --gauge 25um
  mullwright powder fineness --sieve "no 325" --sieved 20g --residue 0.12g
  mullwright powder fineness yellow-ochre --depth 10cm --time 20min`,
		fields: q.Fields(), pigment: &q.Pigment,
	}, q.Request, formulate.PowderFineness, render.FinenessSheet, render.FinenessView)
}

func newPowderSurface(e *env) *cobra.Command {
	var q ask.PowderSurface
	return newTest(e, test{
		use: "surface [PIGMENT]", short: "Specific surface, and what finer grinding adds to the oil",
		long: `Surface turns a grain size into a specific surface, or the other way round. It
shows the oil that a layer on that surface and the voids between the grains
would take, beside the published figure, and what grinding finer adds. It judges
a change; it makes no recipe.`,
		example: `  mullwright powder surface ultramarine-blue --size 2um --finer 1um
  mullwright powder surface --density 2.7g/ml --surface 3m2/g`,
		fields: q.Fields(), pigment: &q.Pigment,
	}, q.Request, formulate.PowderSurface, render.SurfaceSheet, render.SurfaceView)
}

func newPowderCake(e *env) *cobra.Command {
	var q ask.PowderCake
	request := func(*ask.Workshop, formulate.Sampling) (formulate.CakeRequest, error) { return q.Request() }
	return newTest(e, test{
		use: "cake --stage NAME=MASS...", short: "Yield and losses from the wet cake to the tubes",
		long: `Cake follows the pigment through the weighings on the way from the wet cake to
the tubes: what each stage kept and lost, and what to begin with next time. Give
a --stage for each weighing, in order, with the share that is not pigment: water
in a cake, oil in a paint.`,
		example: `  mullwright powder cake --stage "wet cake=120g at 62%" --stage "dried=44g" \
      --stage "sieved=41g" --stage "paint=66g at 38.5%" --stage "tubed=61g at 38.5%" --want 50g`,
		fields: q.Fields(),
	}, request, formulate.PowderCake, render.CakeSheet, render.CakeView)
}
