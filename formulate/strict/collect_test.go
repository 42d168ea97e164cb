package strict

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mullwright/formulate/quantity"
)

type jar struct {
	Name    string    `toml:"name"`
	Opened  bool      `toml:"opened"`
	Weights []reading `toml:"weights"`
	Lid     *lid      `toml:"lid"`
}

type reading struct {
	Mass quantity.Mass `toml:"mass"`
	Note string        `toml:"note"`
}

type lid struct {
	Colour string `toml:"colour"`
}

type shelfFile struct {
	Jars map[string]jar `toml:"jar"`
}

func TestDecodeReportsEveryFault(t *testing.T) {
	text := `[jar.one]
name = 7
weights = [
  {mass = "3 g", note = "a ] in text, and a # too"},  # a comment with { and "
  {mass = "3 ml"},
  {mass = "", nte = "x"},
]

[jar.two]
Name = "Two"
opened = "yes"
lid = "red"
colour = "blue"

[other]
ignored = [1, 2]

[[jar.three.weights]]
mass = "1 g"

[[jar.three.weights]]
mass = "heavy"
`
	var f shelfFile
	err := Decode("jars.toml", text, &f, "other")
	var faults Faults
	if !errors.As(err, &faults) {
		t.Fatalf("got %v, want faults", err)
	}
	var got []string
	for _, f := range strings.Split(err.Error(), "\n") {
		got = append(got, strings.SplitN(f, ";", 2)[0])
	}
	want := []string{
		`jars.toml:2: jar.one.name: text in quotes is expected here`,
		`jars.toml:5: jar.one.weights.mass: "3 ml" is not a mass: "ml" is a unit of volume`,
		`jars.toml:6: jar.one.weights.mass: "" is not a mass: it is empty`,
		`jars.toml:6: jar.one.weights.nte: unknown key`,
		`jars.toml:10: jar.two.Name: keys are written in lower case: "name"`,
		`jars.toml:11: jar.two.opened: true or false is expected here`,
		`jars.toml:12: jar.two.lid: a table is expected here`,
		`jars.toml:13: jar.two.colour: unknown key`,
		`jars.toml:21: jar.three.weights.mass: "heavy" is not a mass: it does not begin with a number`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestDecodeSameFaultsEveryTime(t *testing.T) {
	text := "[jar.a]\nname = 1\nopened = 2\n[jar.b]\nname = 3\n[jar.c]\nname = 4\n"
	var first string
	for range 20 {
		var f shelfFile
		err := Decode("jars.toml", text, &f)
		if err == nil {
			t.Fatal("no fault found")
		}
		if first == "" {
			first = err.Error()
		}
		if err.Error() != first {
			t.Fatalf("faults differ:\n%s\n%s", first, err)
		}
	}
}

func TestDecodeSound(t *testing.T) {
	var f shelfFile
	keys, err := DecodeKeys("jars.toml", "[jar.one]\nname = \"One\"\nweights = [{mass = \"3 g\"}]\n", &f)
	if err != nil {
		t.Fatal(err)
	}
	if f.Jars["one"].Weights[0].Mass != 3 {
		t.Errorf("got %+v", f)
	}
	var names []string
	for _, k := range keys {
		names = append(names, strings.Join(k, "."))
	}
	for _, want := range []string{"jar.one.name", "jar.one.weights.mass"} {
		if !strings.Contains(strings.Join(names, " "), want) {
			t.Errorf("key %s is missing from %v", want, names)
		}
	}
}

func TestLineOfElement(t *testing.T) {
	text := "[a.b]\nlist = [1, 2,\n  3,\n  \"[,]\", 'x, y', {k = 1},\n  [5, 6],\n]\nafter = 1\n"
	for _, c := range []struct{ element, want int }{{0, 2}, {1, 2}, {2, 3}, {3, 4}, {4, 4}, {5, 4}, {6, 5}, {-1, 2}} {
		if got := LineOfElement(text, c.element, "a", "b", "list"); got != c.want {
			t.Errorf("element %d: line %d, want %d", c.element, got, c.want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add("[jar.one]\nname = 7\nweights = [{mass = \"3 ml\"}, 4]\n")
	f.Add("[[jar.x.weights]]\nmass = \"1 g\"\n")
	f.Add("jar = 3\n[jar.a]\n")
	f.Add("\"a.b\" = [[[\n")
	f.Fuzz(func(t *testing.T, text string) {
		var file shelfFile
		if err := Decode("f.toml", text, &file, "other"); err != nil && err.Error() == "" {
			t.Error("a fault without words")
		}
	})
}
