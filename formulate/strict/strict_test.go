package strict

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"mullwright/formulate/quantity"
)

// A fault prints what is known of its place, and no more.
func TestFaultPrints(t *testing.T) {
	for want, f := range map[string]Fault{
		"jars.toml:7: jar.one: it leaks": {File: "jars.toml", Line: 7, Key: "jar.one", What: "it leaks"},
		"jars.toml: jar.one: it leaks":   {File: "jars.toml", Key: "jar.one", What: "it leaks"},
		"jars.toml:7: it leaks":          {File: "jars.toml", Line: 7, What: "it leaks"},
		"jars.toml: it leaks":            {File: "jars.toml", What: "it leaks"},
	} {
		if got := f.Error(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if err := (Faults{}).Err(); err != nil {
		t.Errorf("no faults are the error %v", err)
	}
	two := Faults{{File: "a", What: "first"}, {File: "b", What: "second"}}
	if err := two.Err(); err == nil || err.Error() != "a: first\nb: second" {
		t.Errorf("two faults print as %q", err)
	}
}

type measured struct {
	Mass  quantity.Mass `toml:"mass"`
	Count float64       `toml:"count"`
	Whole int           `toml:"whole"`
	Words []string      `toml:"words"`
	Inner struct {
		Deep string `toml:"deep"`
	} `toml:"inner"`
	hidden string
}

// One fault each, with its line, its key and what would be right.
func TestFaultsNamePlace(t *testing.T) {
	for name, tt := range map[string]struct{ text, want string }{
		"word for a number":       {"\ncount = \"two\"\n", "m.toml:2: count: a number is expected here"},
		"word for a whole number": {"whole = \"two\"\n", "m.toml:1: whole: a number is expected here"},
		"list for a table":        {"inner = [1]\n", "m.toml:1: inner: a table is expected here"},
		"word for a list":         {"words = \"one\"\n", "m.toml:1: words: a list in square brackets is expected here"},
		"number in a list":        {"words = [\n\"one\",\n2,\n]\n", "m.toml:3: words: text in quotes is expected here"},
		"bare number":             {"mass = 3\n", "m.toml:1: mass: "},
		"mass without unit":       {"mass = \"3\"\n", `m.toml:1: mass: "3" is not a mass: the unit is missing`},
		"unknown key":             {"count = 1\ncuont = 2\n", "m.toml:2: cuont: unknown key"},
		"unknown table":           {"count = 1\n[iner]\ndeep = \"x\"\n", "m.toml:2: iner: unknown key"},
		"unknown key in a table":  {"[inner]\ndepe = \"x\"\n", "m.toml:2: inner.depe: unknown key"},
		"upper case":              {"Count = 1\n", `m.toml:1: Count: keys are written in lower case: "count"`},
		"upper case in a table":   {"count = \"x\"\n[inner]\nDeep = \"x\"\n", "m.toml:1: count: a number is expected here\nm.toml:3: inner.Deep: keys are written in lower case: \"deep\""},
		"a field without a key":   {"hidden = \"x\"\n", "m.toml:1: hidden: unknown key"},
		"syntax":                  {"count = 1\nmass = 3 g\n", "m.toml:2: "},
		"open quote":              {"words = [\"one]\n", "m.toml:1: "},
		"key twice":               {"count = 1\ncount = 2\n", "m.toml:2: "},
		"not TOML at all":         {"\x00", "m.toml:1: "},
	} {
		m := measured{hidden: "as it was"}
		err := Decode("m.toml", tt.text, &m)
		if m.hidden != "as it was" {
			t.Errorf("%s: a field without a key was filled with %q", name, m.hidden)
		}
		var faults Faults
		if !errors.As(err, &faults) || !strings.HasPrefix(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want %q", name, err, tt.want)
		}
		if strings.Contains(tt.want, "\n") != (len(faults) > 1) {
			t.Errorf("%s: %d faults: %v", name, len(faults), err)
		}
	}
}

// What a caller takes key by key is handed over whole; keys still have one case
// where their name is ours.
func TestDecodeIntoMap(t *testing.T) {
	var top map[string]any
	keys, err := DecodeKeys("m.toml", "a = 1\n[b]\nc = \"x\"\n[b.Mine]\nd = true\n", &top)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, k := range keys {
		names = append(names, strings.Join(k, "."))
	}
	if diff := cmp.Diff([]string{"a", "b", "b.c", "b.Mine", "b.Mine.d"}, names); diff != "" {
		t.Error(diff)
	}
	if top["b"].(map[string]any)["c"] != "x" {
		t.Errorf("got %v", top)
	}
}

func TestLineOf(t *testing.T) {
	text := "a = 1\n\n[t]\nb = {c = 2, d = 3}\n# e = 4\n[t.u]\nf = 5\n[[list]]\ng = 6\n[[list]]\ng = 7\n"
	for key, want := range map[string]int{
		"": 0, "a": 1, "t": 3, "t.b": 4, "t.b.c": 4, "t.b.d": 4, "t.u": 6, "t.u.f": 7, "list.g": 9, "x": 0,
	} {
		var parts []string
		if key != "" {
			parts = strings.Split(key, ".")
		}
		if got := LineOf(text, parts...); got != want {
			t.Errorf("LineOf(%q) = %d, want %d", key, got, want)
		}
	}
}

// A file of nothing but faults is answered at once: the first are listed, and
// that there are more is said.
func TestManyFaults(t *testing.T) {
	for name, line := range map[string]string{"unknown": "key%d = 1\n", "wrong": "Key%d = {a = 1}\n"} {
		var b strings.Builder
		b.WriteString("count = \"x\"\n")
		if name == "unknown" {
			b.Reset()
		}
		for i := range 30000 {
			fmt.Fprintf(&b, line, i)
		}
		var m measured
		start := time.Now()
		err := Decode("m.toml", b.String(), &m)
		var faults Faults
		if !errors.As(err, &faults) || !faults.Enough() || len(faults) > 200 {
			t.Errorf("%s: %d faults", name, len(faults))
		}
		if !strings.HasSuffix(err.Error(), "there may be more; mend these 100 first") {
			t.Errorf("%s: does not say that there may be more", name)
		}
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("%s: took %v", name, took)
		}
	}
}
