package ask

import (
	"math"
	"strings"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
)

func TestStrength(t *testing.T) {
	for text, want := range map[string]float64{"1:2": 2, "2:1": 0.5, " 1 : 3.5 ": 3.5, "3:10": 10.0 / 3, "50%": 1, "20 %": 4, "powder": 0, "Powder": 0} {
		got, err := parseStrength(text)
		if err != nil || math.Abs(float64(got)-want) > 1e-12 {
			t.Errorf("%q: %g, %v, want %g", text, float64(got), err, want)
		}
	}
	for _, text := range []string{"", "3", "1:", ":2", "1:2:3", "1:0", "0:2", "1:-2", "1:0.1", "0%", "100%", "80%", "120%", "1:nan", "1:inf", "1:1e9", "thick"} {
		if got, err := parseStrength(text); err == nil {
			t.Errorf("%q is accepted as 1 : %g", text, float64(got))
		}
	}
}

func TestGrainSize(t *testing.T) {
	one, err := grainSize("2um")
	if err != nil || one.Median != 2 || one != formulate.EvenGrain(2) {
		t.Errorf("2um: %+v, %v", one, err)
	}
	for _, text := range []string{"1-4um", "1um-4um", "1–4 µm", "1000nm-4um", "1 - 4 um"} {
		got, err := grainSize(text)
		r := got.Range()
		if err != nil || math.Abs(float64(r.Low)-1) > 1e-9 || math.Abs(float64(r.High)-4) > 1e-9 {
			t.Errorf("%q: %+v, %v", text, r, err)
		}
	}
	for _, text := range []string{"", "2", "4-1um", "1-1um", "-2um", "1-", "1-2-3um", "2ml", "nan um", "0um"} {
		if got, err := grainSize(text); err == nil {
			t.Errorf("%q is accepted as %+v", text, got)
		}
	}
}

// Humectants without a ratio share what the air asks for.
func TestShareAir(t *testing.T) {
	for _, c := range []struct{ list, want string }{
		{"glycerine", "glycerine=0.60"}, {"glycerine honey", "glycerine=0.30 honey=0.30"}, {"glycerine=0.5", "glycerine=0.5"}, {"none", "none"}, {"honey=0.2 glycerine", "honey=0.2 glycerine=0.60"},
	} {
		if got := strings.Join(shareAir(strings.Fields(c.list), 0.6), " "); got != c.want {
			t.Errorf("%s: %s, want %s", c.list, got, c.want)
		}
	}
}

func waterBench(t testing.TB) *Workshop {
	t.Helper()
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// A preservative without a share takes the middle of its published use, within it.
func TestUsualShare(t *testing.T) {
	w := waterBench(t)
	for _, name := range []string{"phenoxyethanol", "sodium-benzoate", "ox-gall", "clove-oil"} {
		a, err := w.additive(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var low, high float64
		for _, u := range a.Material.UseLevel {
			if u.Aside == "" {
				low, high = float64(u.Low), float64(u.High)
				break
			}
		}
		if s := float64(a.Share); s < low || s > high {
			t.Errorf("%s: %g, published %g to %g", name, s, low, high)
		}
	}
	if _, err := w.additive("water"); err == nil {
		t.Error("water without a share is accepted, though no use of it is published")
	}
}

// The same question from flags and from a formula file is the same request.
func TestWaterQuestionsRoundTrip(t *testing.T) {
	a := Watercolour{Pigments: []string{"ultramarine-blue=2", "prussian-blue"}, Pans: "12xhalf", Humectants: []string{"honey=0.3", "glycerine=0.2"}, Air: "dry", Moisture: "5%", Strength: "powder"}
	text, err := Save("watercolour", a.Fields())
	if err != nil {
		t.Fatal(err)
	}
	var b Watercolour
	if err := Load("q.toml", text, "watercolour", b.Fields()); err != nil {
		t.Fatal(err)
	}
	w := waterBench(t)
	answer := func(q Watercolour) *formulate.WatercolourResult {
		req, err := q.Request(w, formulate.Sampling{Exact: true})
		if err != nil {
			t.Fatal(err)
		}
		r, err := formulate.Watercolour(req)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	x, y := answer(a), answer(b)
	if x.Figures != y.Figures || x.Water != y.Water {
		t.Errorf("asked %+v, from the file %+v", x.Water, y.Water)
	}
}

// The bottle sets the height of ink where none is given: as wide as high.
func TestInkHeight(t *testing.T) {
	q := Ink{Pigments: []string{"lamp-black"}, Bottle: "30ml"}
	req, err := q.Request(waterBench(t), formulate.Sampling{})
	if err != nil {
		t.Fatal(err)
	}
	h := float64(req.Height)
	if v := math.Pi * h * h * h / 4; math.Abs(v-27) > 1e-9 {
		t.Errorf("a height of %g cm holds %g ml, want 27", h, v)
	}
	if req.Grain.Known() {
		t.Errorf("grain %+v where none was given", req.Grain)
	}
}

func FuzzStrength(f *testing.F) {
	for _, s := range []string{"1:2", "33%", "powder", "1:0.5", "2 : 3", "1,5:2", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := parseStrength(s)
		if err == nil && !(r == 0 || r >= 0.5 && r <= 1000) {
			t.Errorf("%q is read as 1 : %g", s, float64(r))
		}
	})
}

func FuzzGrainSize(f *testing.F) {
	for _, s := range []string{"2um", "1-5um", "1–5 µm", "200nm-1um", "-"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := grainSize(s)
		if err == nil && (!(d.Median > 0) || math.IsInf(float64(d.Median), 0) || !(d.Sigma > 0) || d.Range() == evidence.Exactly(d.Median)) {
			t.Errorf("%q is read as %+v", s, d)
		}
	})
}
