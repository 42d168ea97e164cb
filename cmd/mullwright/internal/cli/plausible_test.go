package cli

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter/pkg/twwidth"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"pgregory.net/rapid"

	"mullwright/cmd/mullwright/internal/render"
)

// plausible are things a maker may write behind some flag, the extremes
// included: what is right for one is wrong for another.
var plausible = []string{
	"50g", "0.001g", "1e7 g", "2 lb", "40ml", "0.001 ml", "10 l", "3x40ml", "10000x1ml", "12xhalf", "5%", "0%", "100%", "99.9%", "0.01%", "0.8", "1", "0", "3", "1e6", "1:1", "1:1:2", "1:1000",
	"prussian-blue", "ultramarine-blue=2", "chalk=10%", "linseed-oil", "stand-oil=3", "turpentine", "damar-varnish", "gum-arabic", "beeswax=2%", "cobalt-drier=1%", "glycerine=0.5", "vinegar", "water", "none",
	"prussian-blue=0.12/g", "ultramarine-blue=2.1g/5ml", "2.05g on 5g", "67 drops", "stiff", "flowing", "mass", "volume", "spoon", "dry", "cracks", "gum", "oil", "shellac", "brush", "relief-print", "pvc", "same-oil", "oil-mass", "density",
	"20 C", "-20 C", "90 C", "25um", "0.01um", "1-5um", "10 mm", "30x40cm", "0.1x0.1mm", "5g/m2", "30m3", "0.01 m3", "2/h", "0/h", "1000/h", "4h", "0.001 s", "1e9 s", "2.7g/ml", "25 g/ml", "40g/100g", "FeCl3=8.5g", "0-2%", "A4", "10x40mm",
	"", " ", "-1", "NaN", "a very long text that nobody would ever write on a label, which goes on and on", "line\nbreak", "pipe|sign", "\x1b[31m", "é",
}

// keptOut are flags that write or read files, or answer in another way.
var keptOut = []string{"out", "save", "from", "catalogue", "book", "format", "help", "version", "jobs", "draws", "card", "add-to", "write", "into"}

// Whatever plausible things are said behind the flags of a command, it answers
// soundly in each format, in lines no wider than the terminal's where the words
// allow, or refuses in words with the code that goes with it.
func TestPlausibleCommands(t *testing.T) {
	demo(t)
	commands := map[string]*cobra.Command{}
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		commands[strings.TrimPrefix(c.CommandPath(), "mullwright ")] = c
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(newRoot(&env{}))
	names := slices.DeleteFunc(slices.Sorted(maps.Keys(jsonRuns)), func(n string) bool { return n == "many" || n == "verify" })
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "command")
		args := slices.Clone(jsonRuns[name])
		var flags []*pflag.Flag
		see := func(f *pflag.Flag) {
			if !slices.Contains(keptOut, f.Name) {
				flags = append(flags, f)
			}
		}
		commands[name].LocalFlags().VisitAll(see)
		commands[name].InheritedFlags().VisitAll(see)
		for range rapid.IntRange(0, 3).Draw(t, "changes") {
			f := rapid.SampledFrom(flags).Draw(t, "flag")
			if f.Value.Type() == "bool" {
				args = append(args, "--"+f.Name)
			} else {
				args = append(args, "--"+f.Name+"="+rapid.SampledFrom(plausible).Draw(t, "value"))
			}
		}
		format := render.Format(rapid.SampledFrom(render.Formats()).Draw(t, "format"))
		args = append(args, "--format", string(format), "--draws", "32")
		if rapid.Bool().Draw(t, "explain") {
			args = append(args, "--explain")
		}
		code, out, errs := run("", args...)
		switch code {
		case ExitOK:
			if errs != "" && !strings.HasPrefix(errs, "mullwright: ") {
				t.Fatalf("%q says %q", args, errs)
			}
		case ExitFailure, ExitUsage:
			if !strings.HasPrefix(errs, "mullwright: ") || len(strings.TrimSpace(errs)) < 20 {
				t.Fatalf("%q: exit code %d with %q", args, code, errs)
			}
			if code == ExitUsage && out != "" {
				t.Fatalf("%q: refused, but it printed %q", args, out)
			}
			if out == "" {
				return
			}
		default:
			t.Fatalf("%q: exit code %d", args, code)
		}
		checkAnswer(t, args, format, out)
	})
}

func checkAnswer(t *rapid.T, args []string, format render.Format, out string) {
	for _, bad := range []string{"NaN", "+Inf", "%!", "<nil>"} {
		if strings.Contains(strings.ReplaceAll(out, `"NaN"`, ""), bad) && !slices.ContainsFunc(args, func(a string) bool { return strings.Contains(a, bad) }) {
			t.Fatalf("%q prints %s:\n%s", args, bad, out)
		}
	}
	if !utf8.ValidString(out) {
		t.Fatalf("%q prints what is no text", args)
	}
	switch format {
	case render.JSON:
		if !json.Valid([]byte(out)) {
			t.Fatalf("%q prints no JSON:\n%s", args, out)
		}
	case render.CSV:
		r := csv.NewReader(strings.NewReader(out))
		for {
			if _, err := r.Read(); err == io.EOF {
				return
			} else if err != nil {
				t.Fatalf("%q prints no CSV: %v\n%s", args, err, out)
			}
		}
	case render.Text:
		if args[0] == "book" && args[1] == "export" {
			return // the book is a table of its own
		}
		for _, l := range strings.Split(out, "\n") {
			if w := twwidth.Width(l); w > render.Width && len(strings.Fields(l)) > 2 {
				t.Fatalf("%q prints %d cells in a line:\n%s", args, w, l)
			}
		}
	}
}
