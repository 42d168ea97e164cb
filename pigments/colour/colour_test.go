package colour

import (
	"math"
	"slices"
	"sort"
	"strings"
	"testing"

	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
)

func all(t *testing.T) []Data {
	t.Helper()
	var out []Data
	for _, id := range IDs() {
		d, ok, err := Of(id)
		if err != nil || !ok {
			t.Fatalf("%s: found %v, %v", id, ok, err)
		}
		out = append(out, d)
	}
	return out
}

func TestEveryFileLoads(t *testing.T) {
	var paints, films, powders int
	for _, d := range all(t) {
		if len(d.Paints)+len(d.Films)+len(d.Powders) == 0 {
			t.Errorf("%s holds nothing", d.ID)
		}
		paints, films, powders = paints+len(d.Paints), films+len(d.Films), powders+len(d.Powders)
		for _, p := range d.Paints {
			attributed(t, d.ID, p.Record)
			if _, err := optics.PaintSwatch(p.RelativePaint); err != nil {
				t.Error(err)
			}
		}
		for _, f := range d.Films {
			attributed(t, d.ID, f.Record)
		}
		for _, p := range d.Powders {
			attributed(t, d.ID, p.Record)
		}
	}
	if paints != 19 || films != 223 {
		t.Errorf("%d paints and %d films, the package comment says 19 and 223", paints, films)
	}
	t.Logf("%d pigments, %d paints, %d films, %d powders", len(IDs()), paints, films, powders)
}

func attributed(t *testing.T, id string, r Record) {
	t.Helper()
	if a := AttributionOf(r); a.Author == "" || a.Licence == "" || r.Locator == "" {
		t.Errorf("%s: record %+v is not attributed", id, r)
	}
}

func TestUnknownPigment(t *testing.T) {
	for _, id := range []string{"", "no-such", "../colour", "a/b", "."} {
		if _, ok, err := Of(id); ok || err != nil {
			t.Errorf("Of(%q) = %v, %v; want nothing and no error", id, ok, err)
		}
	}
}

// The colours were worked out apart, by another program, from the same spectra
// (2 degree observer, D65, sums by 5 nm).
func TestColoursWorkedOutApart(t *testing.T) {
	for _, tt := range []struct {
		id   string
		want optics.Lab
	}{
		{"cobalt-blue", optics.Lab{L: 34.58, A: 25.16, B: -54.63}},
	} {
		d, _, err := Of(tt.id)
		if err != nil {
			t.Fatal(err)
		}
		s, err := optics.PaintSwatch(d.Paints[0].RelativePaint)
		if err != nil {
			t.Fatal(err)
		}
		if got := optics.CIE76(s.Chip.Lab, tt.want); got > 0.01 {
			t.Errorf("%s masstone %+v, want %+v", tt.id, s.Chip.Lab, tt.want)
		}
	}
	d, _, _ := Of("red-ochre")
	for _, f := range d.Films {
		if f.Record.Locator != "ER_1_1_p4" {
			continue
		}
		s, err := optics.FilmSwatch(f.ChartFilm, Chart())
		if err != nil {
			t.Fatal(err)
		}
		// Worked out there from the full spectrum, here from steps of 10 nm.
		if got := optics.CIE76(s.Chip.Lab, optics.Lab{L: 45.97, A: 32.49, B: 24.81}); got > 0.5 {
			t.Errorf("red ochre over white %+v", s.Chip.Lab)
		}
		cr, err := optics.FilmContrastMeasured(f.ChartFilm)
		if err != nil || math.Abs(float64(cr)-0.549) > 0.002 {
			t.Errorf("red ochre contrast %.4f, %v; want 0.549", cr, err)
		}
		return
	}
	t.Error("patch ER_1_1_p4 is missing")
}

// The greys stand where the whole chart fits best, the misfit is as stated,
// and the ends are the chart's own.
func TestGroundsAreFitted(t *testing.T) {
	if testing.Short() {
		t.Skip("fits the chart ten times")
	}
	data := all(t)
	low, high := optics.Reflectance(1), optics.Reflectance(0)
	for _, d := range data {
		for _, f := range d.Films {
			for _, s := range f.Over {
				low, high = min(low, slices.Min(s.R)), max(high, slices.Max(s.R))
			}
		}
	}
	chart := Chart()
	if math.Abs(float64(low-chart.Grounds[0])) > 0.0005 || math.Abs(float64(high-chart.Grounds[3])) > 0.001 {
		t.Errorf("the chart reads %.4f to %.4f, its ends are put at %.3f and %.2f", low, high, chart.Grounds[0], chart.Grounds[3])
	}
	rms := func(grounds []optics.Reflectance) float64 {
		var sum, n float64
		for _, d := range data {
			for _, f := range d.Films {
				r := float64(optics.FitFilm(f.ChartFilm, grounds).RMS)
				sum, n = sum+r*r, n+1
			}
		}
		return math.Sqrt(sum / n)
	}
	best := rms(chart.Grounds)
	if math.Abs(best-float64(chart.Noise)) > 0.00005 {
		t.Errorf("the chart fits to %.5f rms, stated %.4f", best, chart.Noise)
	}
	for i := 1; i <= 2; i++ {
		for _, step := range []optics.Reflectance{-0.004, 0.004} {
			moved := slices.Clone(chart.Grounds)
			moved[i] += step
			if got := rms(moved); got <= best {
				t.Errorf("ground %d fits better at %.3f (%.6f) than at %.3f (%.6f)", i, moved[i], got, chart.Grounds[i], best)
			}
		}
	}
	for i, want := range []float64{0.0058, 0.0062} {
		if got := rms(chart.Rivals[i]); math.Abs(got-want) > 0.00005 {
			t.Errorf("rival %d fits to %.5f rms, stated %.4f", i+1, got, want)
		}
	}
}

// How far two patches of one pigment lie apart is stated beside every swatch:
// a median of 4 and, one time in ten, 25 or more. Pairs are labels that stand
// on exactly two cards of the chart.
func TestPatchesRepeat(t *testing.T) {
	type patch struct {
		card string
		lab  optics.Lab
	}
	byLabel := map[string][]patch{}
	for _, d := range all(t) {
		for _, f := range d.Films {
			key := d.ID + " " + strings.NewReplacer(",", "", " ", "").Replace(f.Label)
			card, _, _ := strings.Cut(f.Record.Locator, "_")
			byLabel[key] = append(byLabel[key], patch{card, optics.ColourOf(f.Over[3]).Lab})
		}
	}
	var apart []float64
	for _, p := range byLabel {
		if len(p) == 2 && p[0].card != p[1].card {
			apart = append(apart, float64(optics.CIE76(p[0].lab, p[1].lab)))
		}
	}
	sort.Float64s(apart)
	n := len(apart)
	if n != 28 || math.Abs(apart[n/2]-4) > 0.5 || math.Abs(apart[n*9/10]-25) > 0.5 {
		t.Errorf("%d pairs: median %.1f, 90th percentile %.1f; stated 28, 4 and 25", n, apart[n/2], apart[n*9/10])
	}
}

func TestMiddleFilmStandsFirst(t *testing.T) {
	for _, d := range all(t) {
		var best int
		least := math.Inf(1)
		for i, f := range d.Films {
			var sum float64
			for _, g := range d.Films {
				sum += float64(optics.CIE76(optics.ColourOf(f.Over[3]).Lab, optics.ColourOf(g.Over[3]).Lab))
			}
			if sum < least-0.5 {
				best, least = i, sum
			}
		}
		if best != 0 {
			t.Errorf("%s: film %s is nearer the middle than %s", d.ID, d.Films[best].Record.Locator, d.Films[0].Record.Locator)
		}
	}
}

func TestLadders(t *testing.T) {
	white, err := White()
	if err != nil {
		t.Fatal(err)
	}
	var worst, doubt []float64
	for _, d := range all(t) {
		for _, f := range d.Films {
			l, err := optics.Glazes(f.ChartFilm, Chart(), []optics.Films{0.5, 1, 2, 4})
			if err != nil {
				t.Errorf("%s: %v", d.ID, err)
				continue
			}
			worst = append(worst, float64(l.Worst))
			for _, row := range l.Chips {
				for _, c := range row {
					doubt = append(doubt, float64(c.Doubt))
				}
			}
		}
		for _, p := range d.Paints {
			if _, err := optics.Tints(p.RelativePaint, white.RelativePaint, []quantity.Parts{0, 1, 10}); err != nil {
				t.Errorf("%s: %v", d.ID, err)
			}
		}
	}
	sort.Float64s(worst)
	sort.Float64s(doubt)
	// As the package comment states.
	for _, s := range []struct {
		what      string
		got, want float64
	}{
		{"median worst misfit", worst[len(worst)/2], 0.9},
		{"90th percentile of worst misfits", worst[len(worst)*9/10], 1.6},
		{"worst misfit", worst[len(worst)-1], 3.3},
		{"median doubt", doubt[len(doubt)/2], 1.1},
		{"90th percentile of doubts", doubt[len(doubt)*9/10], 3.6},
	} {
		if math.Abs(s.got-s.want) > 0.05 {
			t.Errorf("%s is %.2f, stated %.1f", s.what, s.got, s.want)
		}
	}
}

func TestHidingRank(t *testing.T) {
	rank, err := HidingRank()
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for i, h := range rank {
		at[h.ID] = i
	}
	if at["chromium-oxide-green"] > at["cobalt-yellow"] {
		t.Errorf("chromium oxide green ranks %d, cobalt yellow %d", at["chromium-oxide-green"], at["cobalt-yellow"])
	}
}

func BenchmarkOf(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Of("ultramarine-blue"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGlazes(b *testing.B) {
	d, _, err := Of("ultramarine-blue")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := optics.Glazes(d.Films[0].ChartFilm, Chart(), []optics.Films{0.5, 1, 2, 4}); err != nil {
			b.Fatal(err)
		}
	}
}
