package ask

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"mullwright/formulate"
)

// Whatever is written for a strength, a grain, a test or a weighing, what is
// read lies where it may, or the words are refused with words.
func FuzzWords(f *testing.F) {
	for _, s := range []string{
		"1:2", "33%", "powder", "1:0", "2um", "1-5um", "5–1 um", "0.12m2", "30x40cm", "2.05g on 5.02g", "67 drops", "85.32g to 83.27g", "0ml to 3.2ml on 10g", "3.3 to 3.1 ml",
		"FeCl3=8.5g at 97%", "=8.5g", "14-16", "3", "150g", "200ml", "12xhalf", "2x30ml", "no 325", "1:1:2", ":", "-", " to ", " on ", "0ml to 0ml", "99999999999 drops", "\xff",
	} {
		f.Add(s)
	}
	positive := func(v float64) bool { return v > 0 && !math.IsInf(v, 0) }
	f.Fuzz(func(t *testing.T, text string) {
		check := func(what string, err error, fine bool) {
			if err == nil && !fine {
				t.Fatalf("%s: %q is read as nonsense", what, text)
			}
			if err != nil && err.Error() == "" {
				t.Fatalf("%s: %q is refused without a word", what, text)
			}
		}
		r, err := parseStrength(text)
		check("strength", err, r == 0 || r >= 0.5 && r <= 1000)
		d, err := grainSize(text)
		check("grain", err, positive(float64(d.Median)) && d.Sigma >= 0)
		a, err := area(text)
		check("area", err, positive(float64(a)))
		test, err := readTest(text, 5)
		check("test", err, positive(float64(test.Pigment)) && (test.Drops > 0 || positive(float64(test.Oil)) || positive(float64(test.Volume))))
		w, err := weighedIn(text)
		check("weighed", err, w.Substance != "" && positive(float64(w.Mass)) && w.Purity >= 0 && w.Purity <= 1)
		span, err := boundWater(text)
		check("bound water", err, span.Low >= 0 && span.High >= span.Low && !math.IsInf(float64(span.High), 0))
		amount, err := massOrVolume(text)
		check("amount", err, positive(float64(amount.Mass)) != positive(float64(amount.Volume)))
		m, s, err := mix(text)
		check("mix", err, m >= 0 && s >= 0 && positive(float64(m+s)))
	})
}

// Whatever stands in a layers file, it is read or refused with its name, and
// what is read is answered with numbers.
func FuzzLayers(f *testing.F) {
	for _, s := range []string{
		"[painting]\nname = \"x\"\n[[layer]]\nname = \"a\"\npigments = [\"raw-umber\"]\nbody = \"buttery\"\nsolvent = \"turpentine\"\nparts = \"1:1\"\nwet-film = \"30um\"\ndried = \"7 d\"\n[[layer]]\npigments = \"zinc-white\"\nwet-film = \"60um\"\n",
		"[[layer]]\nformula = \"../out.toml\"\n", "[[layer]]\nformula = \"painting.toml\"\nwet-film = \"3um\"\n", "layer = 3\n", "[layer]\nname = \"x\"\n", "[[layer]]\n[painting]\nname = 3\n", "[[layer]]\nwet-film = 3\nunknown = \"x\"\n", "", "[[layer]]\npigments = [\"chalk\"]\nformula = \"f.toml\"\n",
	} {
		f.Add(s)
	}
	w := opened(f)
	dir := f.TempDir()
	path := filepath.Join(dir, "painting.toml")
	f.Fuzz(func(t *testing.T, text string) {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		l, err := OpenLayers(path)
		if err != nil {
			if !strings.Contains(err.Error(), "painting.toml") {
				t.Fatalf("%q: %v does not name the file", text, err)
			}
			return
		}
		req, err := l.Request(w, formulate.Sampling{Draws: 16})
		if err == nil {
			res, lerr := formulate.Layers(req)
			if err = lerr; err == nil {
				if where := notFinite(reflect.ValueOf(res), "layers", 0); where != "" {
					t.Fatalf("%q: %s", text, where)
				}
			}
		}
		if err != nil && err.Error() == "" {
			t.Fatalf("%q: refused without a word", text)
		}
	})
}
