package cli

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/cobra"
)

var updateGolden = flag.Bool("update-golden", false, "rewrite the expected JSON under testdata/golden")

// jsonRuns has one run of every command that answers in JSON, in the demo
// folder.
var jsonRuns = map[string][]string{
	"book export":     {"book", "export", "--book", "batches"},
	"book learn":      {"book", "learn", "ultramarine-blue", "--book", "batches"},
	"book list":       {"book", "list", "--book", "batches"},
	"book repeat":     {"book", "repeat", "1", "--pigment-mass", "50g", "--book", "batches"},
	"book show":       {"book", "show", "1", "--book", "batches"},
	"book stock":      {"book", "stock", "--book", "batches"},
	"compare":         {"compare", "cobalt-blue", "ultramarine-blue", "--price", "cobalt-blue=0.9/g"},
	"correct":         {"correct", "ultramarine-blue", "--pigment-mass", "20g", "--paste-mass", "34g", "--have", "5g"},
	"ink":             {"ink", "lamp-black", "--bottle", "30ml"},
	"label":           {"label", "prussian-blue", "--binder", "linseed-oil"},
	"layers":          {"layers", "fern-study.toml", "--catalogue", "catalogue.toml"},
	"many":            {"many", "-"},
	"media":           {"media", "walnut-oil"},
	"mull":            {"mull", "ultramarine-blue=2", "zinc-white", "--tubes", "3x40ml", "--extender", "chalk=10%", "--wax", "beeswax=2%", "--oil", "stand-oil", "--oil", "walnut-oil=3", "--slab", "30x40cm", "--moisture", "3%", "--loss", "7%"},
	"pigments":        {"pigments", "prussian-blue"},
	"powder bulk":     {"powder", "bulk", "--vessel", "50ml", "--empty", "12.30g", "--full", "34.80g", "--tapped", "41ml"},
	"powder cake":     {"powder", "cake", "--stage", "wet cake=120g at 62%", "--stage", "dried=44g"},
	"powder density":  {"powder", "density", "--powder", "20g", "--before", "50ml", "--after", "57ml"},
	"powder fineness": {"powder", "fineness", "yellow-ochre", "--depth", "10cm", "--time", "20min"},
	"powder jar":      {"powder", "jar", "chalk", "--jar", "1l", "--tube", "60ml", "--loss", "7%"},
	"powder moisture": {"powder", "moisture", "--damp", "5.00g", "--dried", "4.85g", "--want", "50g"},
	"powder surface":  {"powder", "surface", "--density", "2.7g/ml", "--surface", "3m2/g"},
	"recipe":          {"recipe", "notebook.txt"},
	"rubout":          {"rubout", "prussian-blue", "--pigment-mass", "5g", "--took", "2.05g", "--took", "2.11g"},
	"settle":          {"settle", "yellow-ochre", "--time", "45s"},
	"solution":        {"solution", "gum-arabic", "--strength", "30%", "--amount", "100g", "--humectant", "glycerine=0.5"},
	"swatch":          {"swatch", "cobalt-yellow", "--tints", "--glazes"},
	"thin":            {"thin", "raw-umber", "--medium", "stand-oil", "--solvent", "turpentine", "--parts", "1:1:2", "--area", "30x40cm", "--wet-film", "25um", "--room", "30m3"},
	"verify":          {"verify"},
	"watercolour":     {"watercolour", "ultramarine-blue", "--pans", "6xhalf", "--symptom", "cracks"},
	"yield":           {"yield", "3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3 + 12 KCl", "--weighed", "FeCl3=8.5g", "--weighed", "K4[Fe(CN)6]=14g", "--got", "9g"},
}

// noJSON are the commands that answer in another way, with the reason.
var noJSON = map[string]string{
	"book":        "prints its help",
	"book add":    "writes a file",
	"book strike": "writes a file",
	"completion":  "prints a script",
	"help":        "prints help",
	"man":         "writes manual pages",
	"page":        "serves a page until it is stopped",
	"powder":      "prints its help",
}

// demo goes to the demo folder.
func demo(t *testing.T) {
	t.Helper()
	t.Chdir(filepath.Join("..", "..", "..", "..", "testdata", "demo"))
}

// run runs the program as a test may: no home, no terminal.
func run(in string, args ...string) (code int, out, errs string) {
	var stdout, stderr bytes.Buffer
	code = Main(args, Streams{In: strings.NewReader(in), Out: &stdout, Err: &stderr, Getenv: func(string) string { return "" }})
	return code, stdout.String(), stderr.String()
}

// Every command stands in one of the two lists.
func TestEveryCommandIsHere(t *testing.T) {
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		for _, sub := range c.Commands() {
			name := strings.TrimPrefix(sub.CommandPath(), "mullwright ")
			if sub.IsAdditionalHelpTopicCommand() {
				continue
			}
			_, has := jsonRuns[name]
			_, not := noJSON[name]
			if has == not {
				t.Errorf("%s: run for its JSON: %v, excused: %v", name, has, not)
			}
			walk(sub)
		}
	}
	walk(newRoot(&env{}))
}

// Every answer in JSON is sound, begins with its version, has keys in lower
// case, and holds the keys of the golden file in its order: a contract is not
// broken unseen.
func TestJSONContract(t *testing.T) {
	golden, err := filepath.Abs(filepath.Join("..", "..", "testdata", "golden"))
	if err != nil {
		t.Fatal(err)
	}
	demo(t)
	for name, args := range jsonRuns {
		t.Run(name, func(t *testing.T) {
			in := ""
			if name == "many" {
				in = "id,pigments,pigment-mass\na,prussian-blue,50 g\nb,nothing,50 g\n"
			}
			code, out, errs := run(in, append(args, "--format", "json", "--explain", "--draws", "64")...)
			if code != ExitOK && !(name == "many" && code == ExitFailure) && !(name == "layers" && code == ExitFailure) {
				t.Fatalf("exit code %d: %s", code, errs)
			}
			keys, err := jsonKeys(out)
			if err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			if name != "many" && (len(keys) < 2 || keys[1] != ".version number") {
				t.Errorf("the first key is %q, want the version", keys[min(1, len(keys)-1)])
			}
			for _, k := range keys {
				if path, _, _ := strings.Cut(k, " "); k != strings.ToLower(k) || strings.Contains(path, "-") || strings.Count(k, " ") > 1 {
					t.Errorf("key %q is not in lower case with underscores", k)
				}
			}
			path := filepath.Join(golden, strings.ReplaceAll(name, " ", "-")+".keys")
			if !*updateGolden {
				keys = onlyKnown(t, path, keys)
			}
			compareGolden(t, path, strings.Join(keys, "\n")+"\n")
		})
	}
}

// The whole answer to one mull of invented materials, numbers to six figures.
func TestMullJSON(t *testing.T) {
	golden, err := filepath.Abs(filepath.Join("..", "..", "testdata", "golden"))
	if err != nil {
		t.Fatal(err)
	}
	demo(t)
	code, out, errs := run("", "mull", "invented-blue=2", "invented-earth", "--oil", "invented-oil", "--pigment-mass", "50g", "--wax", "invented-wax=2%", "--loss", "5%",
		"--catalogue", filepath.Join(golden, "catalogue.toml"), "--format", "json", "--draws", "256", "--explain")
	if code != ExitOK {
		t.Fatal(errs)
	}
	compareGolden(t, filepath.Join(golden, "mull.json"), sixFigures(out))
}

// onlyKnown leaves the keys that the golden file holds: keys may be added, but
// not go, change their kind or their order.
func onlyKnown(t *testing.T, path string, keys []string) []string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; write it with -update-golden", err)
	}
	known := strings.Split(string(text), "\n")
	return slices.DeleteFunc(keys, func(k string) bool { return !slices.Contains(known, k) })
}

func compareGolden(t *testing.T, path, got string) {
	t.Helper()
	if *updateGolden {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; write it with -update-golden", err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (accept with -update-golden):\n%s", filepath.Base(path), diff)
	}
}

// sixFigures rounds every number of a JSON text: the last bits of a product
// differ between processors.
func sixFigures(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		body := strings.TrimSuffix(l, ",")
		at := strings.LastIndexByte(body, ' ') + 1
		v, err := strconv.ParseFloat(body[at:], 64)
		if err != nil {
			continue
		}
		lines[i] = body[:at] + strconv.FormatFloat(v, 'g', 6, 64) + l[len(body):]
	}
	return strings.Join(lines, "\n")
}

// jsonKeys lists the keys of one or more JSON values with their kinds, in the
// order in which they stand; the elements of a list are taken together.
func jsonKeys(text string) ([]string, error) {
	d := json.NewDecoder(strings.NewReader(text))
	d.UseNumber()
	var keys []string
	add := func(path, kind string) {
		if k := path + " " + kind; !slices.Contains(keys, k) {
			keys = append(keys, k)
		}
	}
	var value func(path string) error
	value = func(path string) error {
		tok, err := d.Token()
		if err != nil {
			return err
		}
		switch tok {
		case json.Delim('{'):
			add(path, "object")
			seen := map[string]bool{}
			for d.More() {
				key, err := d.Token()
				if err != nil {
					return err
				}
				name := key.(string)
				if seen[name] {
					return fmt.Errorf("%s.%s stands twice", path, name)
				}
				seen[name] = true
				if err := value(path + "." + name); err != nil {
					return err
				}
			}
		case json.Delim('['):
			add(path, "list")
			for d.More() {
				if err := value(path + "[]"); err != nil {
					return err
				}
			}
		default:
			switch tok.(type) {
			case string:
				add(path, "text")
			case json.Number:
				add(path, "number")
			case bool:
				add(path, "yes/no")
			default:
				add(path, "null")
			}
			return nil
		}
		_, err = d.Token()
		return err
	}
	for {
		err := value("")
		if err == io.EOF {
			return keys, nil
		}
		if err != nil {
			return keys, err
		}
	}
}
