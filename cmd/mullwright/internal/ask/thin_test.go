package ask

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/quantity"
)

func TestThreeParts(t *testing.T) {
	for _, c := range []struct {
		text                   string
		media, solvents        bool
		paint, medium, solvent quantity.Parts
	}{
		{"1:1:2", true, true, 1, 1, 2},
		{"1 : 0.5 : 2", true, true, 1, 0.5, 2},
		{"2:1", true, false, 2, 1, 0},
		{"2:1", false, true, 2, 0, 1},
		{"1:0:3", false, true, 1, 0, 3},
		{"1", false, false, 1, 0, 0},
		{"1:0:0", false, false, 1, 0, 0},
	} {
		p, m, s, err := threeParts(c.text, c.media, c.solvents)
		if err != nil || p != c.paint || m != c.medium || s != c.solvent {
			t.Errorf("threeParts(%q, %v, %v) = %v, %v, %v, %v; want %v, %v, %v", c.text, c.media, c.solvents, p, m, s, err, c.paint, c.medium, c.solvent)
		}
	}
	for _, c := range []struct {
		text            string
		media, solvents bool
	}{
		{"", true, true}, {"1", true, false}, {"1:1", true, true}, {"1:1:1:1", true, true}, {"0:1", true, false}, {"1:0", true, false},
		{"1:1:1", true, false}, {"1:-1", true, false}, {"1:nan", true, false}, {"1:inf", true, false}, {"1:1e99", true, false}, {"1:a", true, false}, {":", true, false},
	} {
		if _, _, _, err := threeParts(c.text, c.media, c.solvents); err == nil {
			t.Errorf("threeParts(%q, %v, %v) was accepted", c.text, c.media, c.solvents)
		}
	}
}

func FuzzThreeParts(f *testing.F) {
	for _, s := range []string{"1:1:2", "2:1", "0:0:0", "1:x", ":::", "1,5:2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, m, s, err := threeParts(text, true, true)
		if err == nil && !(p > 0 && m > 0 && s > 0 && !math.IsInf(float64(p+m+s), 0)) {
			t.Errorf("threeParts(%q) = %v, %v, %v", text, p, m, s)
		}
	})
}

func TestArea(t *testing.T) {
	for text, want := range map[string]float64{"30x40cm": 0.12, "0.5m x 40cm": 0.2, "0.12m2": 0.12} {
		got, err := area(text)
		if err != nil || math.Abs(float64(got)-want) > 1e-12 {
			t.Errorf("area(%q) = %v, %v; want %v m²", text, got, err, want)
		}
	}
	for _, text := range []string{"30x40", "x", "30cm", "-1m2", "0m2"} {
		if got, err := area(text); err == nil {
			t.Errorf("area(%q) = %v was accepted", text, got)
		}
	}
}

func write(t *testing.T, dir, name, text string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A link that leads out of the folder is no way around its wall.
func TestLayersStayInTheirFolder(t *testing.T) {
	outside, inside := t.TempDir(), t.TempDir()
	secret := write(t, outside, "secret.toml", "[mull]\npigments = [\"raw-umber\"]\n")
	if err := os.Symlink(secret, filepath.Join(inside, "link.toml")); err != nil {
		t.Skip("no links here")
	}
	file := write(t, inside, "painting.toml", "[[layer]]\nformula = \"link.toml\"\nwet-film = \"30um\"\n")
	if _, err := OpenLayers(file); err == nil || !strings.Contains(err.Error(), "painting.toml:2: layer[1].formula") {
		t.Errorf("a formula behind a link out of the folder: %v", err)
	}
}

// A layer's own words win over its formula's.
func TestLayerOverFormula(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "blue.toml", "[mull]\npigments = [\"prussian-blue\"]\nbody = \"stiff\"\ntubes = \"3x40ml\"\n")
	file := write(t, dir, "painting.toml", "[[layer]]\nformula = \"blue.toml\"\npvc = \"30%\"\nwet-film = \"30um\"\ndried = \"3 d\"\n")
	q, err := OpenLayers(file)
	if err != nil {
		t.Fatal(err)
	}
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	req, err := q.Request(w, formulate.Sampling{})
	if err != nil {
		t.Fatal(err)
	}
	l := req.Layers[0]
	if target := l.Thin.Paint.Target; target.Kind != formulate.AtPVC || target.PVC != 0.3 {
		t.Errorf("target %+v, want the layer's PVC of 30 %%", target)
	}
	if l.Name != "layer 1" || l.Dried == nil || *l.Dried != 3*86400 || l.Thin.Wet != 30 {
		t.Errorf("layer %q, dried %v, wet %v", l.Name, l.Dried, l.Thin.Wet)
	}
}
