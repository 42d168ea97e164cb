package show_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

var gallery = flag.String("gallery", "", "folder to write every picture to, for looking at")

func workshop(t testing.TB) *ask.Workshop {
	t.Helper()
	w, err := ask.Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// must returns a value made without error.
func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func mulled(t testing.TB, w *ask.Workshop, q ask.Mull) *formulate.MullResult {
	t.Helper()
	return must[*formulate.MullResult](t)(formulate.Mull(must[formulate.MullRequest](t)(q.Request(w, formulate.Sampling{Draws: 501}))))
}

// charts is every chart there is, drawn from answers to invented questions.
func charts(t testing.TB) map[string]func(width float64) (*picture.Drawing, error) {
	t.Helper()
	w := workshop(t)
	s := formulate.Sampling{Draws: 501}
	out := map[string]func(float64) (*picture.Drawing, error){}
	dial := func(name string, q ask.Mull) {
		d := must[*formulate.Dial](t)(formulate.DialOf(mulled(t, w, q)))
		out[name] = func(width float64) (*picture.Drawing, error) {
			v := show.MullDial(d)
			v.Width = width
			return picture.Dial(v)
		}
	}
	dial("dial", ask.Mull{Pigments: []string{"prussian-blue"}, Tubes: "3x40ml"})
	dial("dial-have", ask.Mull{Pigments: []string{"ultramarine-blue=3", "lead-white=1"}, PigmentMass: "50g", Have: "20g", Waxes: []string{"beeswax=2%"}, Extenders: []string{"chalk=5%"}})
	dial("dial-drops", ask.Mull{Pigments: []string{"raw-sienna"}, PigmentMass: "3g", Body: "flowing"})
	dial("dial-pvc", ask.Mull{Pigments: []string{"yellow-ochre"}, PigmentMass: "30g", PVC: "30%"})

	compare := func(name string, q ask.Compare) {
		res := must[*formulate.CompareResult](t)(formulate.Compare(must[formulate.CompareRequest](t)(q.Request(w, s))))
		out[name] = func(width float64) (*picture.Drawing, error) {
			v := show.CompareBars(res, ask.Colour)
			v.Width = width
			return picture.Bars(v)
		}
	}
	compare("bars", ask.Compare{Pigments: []string{"ultramarine-blue", "cobalt-blue", "prussian-blue", "lead-white", "raw-sienna"}, Sort: "oil"})
	compare("bars-family", ask.Compare{Family: "blue", Sort: "density"})

	thin := ask.Thin{Paint: ask.Mull{Pigments: []string{"ultramarine-blue"}}, Solvents: []string{"turpentine=1", "white-spirit=2"}, RelativeBody: "40%", Room: "30m3"}
	thinned := must[*formulate.ThinResult](t)(formulate.Thin(must[formulate.ThinRequest](t)(thin.Request(w, s))))
	out["vapour"] = func(width float64) (*picture.Drawing, error) {
		v, known, err := show.VapourCurve(thinned)
		if err != nil || !known {
			return nil, errors.Join(err, errors.New("no vapour"))
		}
		v.Width = width
		return picture.Curve(v)
	}

	for name, q := range map[string]ask.Settle{"settling": {What: []string{"yellow-ochre"}, Cut: "20um"}, "settling-table": {What: []string{"lead-white"}}} {
		res := must[*formulate.SettleResult](t)(formulate.Settle(must[formulate.SettleRequest](t)(q.Request(w, s))))
		out[name] = func(width float64) (*picture.Drawing, error) {
			v := show.SettleCurve(res)
			v.Width = width
			return picture.Curve(v)
		}
	}

	for name, q := range map[string]ask.Swatch{
		"swatch":         {Pigments: []string{"cobalt-blue"}, Tints: true, Glazes: true},
		"swatch-several": {Pigments: []string{"ultramarine-blue", "lead-white", "strontium-yellow", "chromium-oxide-green"}},
	} {
		res := must[*formulate.SwatchResult](t)(formulate.Swatches(must[formulate.SwatchRequest](t)(q.Request(w))))
		out[name] = func(width float64) (*picture.Drawing, error) { return show.DrawSwatches(res, width) }
	}

	painting := "[painting]\nname = \"Iris on panel\"\n"
	for _, l := range []string{
		"name = \"umber drawing\"\npigments = [\"raw-umber\"]\nsolvent = \"turpentine\"\nparts = \"1:1\"\nwet-film = \"30um\"\ndried = \"7 d\"",
		"name = \"lead white and ochre\"\npigments = [\"lead-white=3\", \"yellow-ochre=1\"]\nwet-film = \"80um\"\ndried = \"21 d\"",
		"name = \"blue\"\npigments = [\"ultramarine-blue\"]\nwet-film = \"60um\"",
	} {
		painting += "[[layer]]\n" + l + "\n"
	}
	file := filepath.Join(t.TempDir(), "iris.toml")
	if err := os.WriteFile(file, []byte(painting), 0o600); err != nil {
		t.Fatal(err)
	}
	asked := must[*ask.Layers](t)(ask.OpenLayers(file))
	layers := must[*formulate.LayersResult](t)(formulate.Layers(must[formulate.LayersRequest](t)(asked.Request(w, s))))
	out["layers"] = func(width float64) (*picture.Drawing, error) {
		v := show.LayerStack(layers, asked.Name, ask.Colour)
		v.Width = width
		return picture.Layers(v)
	}

	learned := must[*formulate.LearnResult](t)(formulate.Learn(formulate.LearnRequest{Pigment: must[formulate.Ingredient](t)(w.Pigment("prussian-blue")), Trials: trials(t, w)}))
	out["narrowing"] = func(width float64) (*picture.Drawing, error) {
		d, shown, err := show.DrawNarrowing(learned, width)
		if err == nil && !shown {
			err = errors.New("nothing learned")
		}
		return d, err
	}
	return out
}

// trials are an invented maker's tests: sixteen rub-outs of two jars, a batch.
func trials(t testing.TB, w *ask.Workshop) []formulate.Trial {
	var out []formulate.Trial
	for i := range 16 {
		lot := "A"
		if i%5 == 3 {
			lot = "B"
		}
		out = append(out, formulate.Trial{Number: i + 1, Lot: lot, RubOut: &formulate.OwnRubOut{Value: 46 + 0.3*quantity.AbsorptionVolume(i%4), Tests: 1, Method: material.RubOut}})
	}
	buttery, _ := absorption.NamedBody("buttery")
	return append(out, formulate.Trial{Number: 17, Lot: "A", Batch: &formulate.Batch{Body: buttery,
		Pigments: []formulate.BatchPart{{Ingredient: must[formulate.Ingredient](t)(w.Pigment("prussian-blue")), Mass: 60}},
		Oils:     []formulate.BatchPart{{Ingredient: must[formulate.Ingredient](t)(w.Medium("linseed-oil")), Mass: 48.3}}}})
}

// Every chart is drawn for a screen and for a phone, is valid XML that carries
// its title, and comes out the same twice.
func TestChartsDrawn(t *testing.T) {
	for name, draw := range charts(t) {
		for suffix, width := range map[string]float64{"": picture.DefaultWidth, "-phone": picture.PhoneWidth} {
			var twice [2]string
			for i := range twice {
				d, err := draw(width)
				if err != nil {
					t.Fatalf("%s%s: %v", name, suffix, err)
				}
				if d.W != width || d.Title == "" || d.Desc == "" {
					t.Errorf("%s%s: %g wide, title %q, description %q", name, suffix, d.W, d.Title, d.Desc)
				}
				var b bytes.Buffer
				if err := d.WriteSVG(&b); err != nil {
					t.Fatalf("%s%s: %v", name, suffix, err)
				}
				twice[i] = b.String()
				if *gallery != "" && i == 0 {
					if err := os.MkdirAll(*gallery, 0o755); err != nil {
						t.Fatal(err)
					}
					f := must[*os.File](t)(os.Create(filepath.Join(*gallery, name+suffix+".png")))
					if err := errors.Join(d.WritePNG(f, 96), f.Close()); err != nil {
						t.Fatal(err)
					}
				}
			}
			if twice[0] != twice[1] {
				t.Errorf("%s%s: other bytes the second time", name, suffix)
			}
			r := xml.NewDecoder(strings.NewReader(twice[0]))
			for {
				if _, err := r.Token(); err == io.EOF {
					break
				} else if err != nil {
					t.Fatalf("%s%s: no XML: %v", name, suffix, err)
				}
			}
		}
	}
}
