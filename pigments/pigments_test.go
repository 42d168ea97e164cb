package pigments

import (
	"errors"
	"flag"
	"io/fs"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/shelf"
)

var update = flag.Bool("update", false, "write data/index.tsv anew")

func TestIndexIsFresh(t *testing.T) {
	want, err := shelf.BuildIndex("pigment", os.DirFS("data"))
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("data/index.tsv", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile("data/index.tsv")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("data/index.tsv does not match the entries; run go test ./pigments -update")
	}
}

func TestWholeCatalogue(t *testing.T) {
	if err := New().Check(); err != nil {
		t.Fatal(err)
	}
}

func all(t testing.TB) []*material.Material {
	t.Helper()
	list, err := New().All()
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestHowMany freezes what the catalogue claims to hold.
func TestHowMany(t *testing.T) {
	var entries, usable, bySource, rubbed, sheetOnly int
	for _, m := range all(t) {
		entries++
		if len(m.Missing()) > 0 {
			sheetOnly++
			continue
		}
		usable++
		for _, r := range m.Density {
			if r.Aside == "" && r.Source != material.FromMemory {
				bySource++
				break
			}
		}
		if d, _ := m.AbsorptionDistribution(); d.Known() {
			rubbed++
		}
	}
	for _, c := range []struct {
		what      string
		got, want int
	}{
		{"entries", entries, 174},
		{"entries with a density and an oil figure", usable, 162},
		{"of these, with a density from a publication", bySource, 92},
		{"of these, with an oil absorption", rubbed, 138},
		{"entries without an oil figure, for the sheet only", sheetOnly, 12},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", c.what, c.got, c.want)
		}
	}
}

// cited lists every source key an entry names, with what it is cited for.
func cited(m *material.Material) map[string]bool {
	out := map[string]bool{}
	statements := slices.Concat(m.Opacity, m.DryingEffect, m.Lightfastness, m.Incompatible, m.Hazards.Statements)
	for _, s := range statements {
		out[s.Source] = true
	}
	for _, r := range m.OilAbsorption {
		out[r.Source] = true
	}
	for _, r := range m.ArtistsDemand {
		out[r.Source] = true
	}
	for _, l := range m.Limits {
		out[l.Source] = true
	}
	if m.Muller != nil {
		out[m.Muller.Source] = true
	}
	if m.Hazards.CodesSource != "" {
		out[m.Hazards.CodesSource] = true
	}
	citedBy(out, m.Density)
	citedBy(out, m.BulkDensity)
	citedBy(out, m.RefractiveIndex)
	citedBy(out, m.ParticleSize)
	citedBy(out, m.SpecificSurface)
	citedBy(out, m.DryingTime)
	return out
}

func citedBy[Q quantity.Real](out map[string]bool, readings []evidence.Reading[Q]) {
	for _, r := range readings {
		out[r.Source] = true
	}
}

func TestEverySourceIsCited(t *testing.T) {
	used := map[string]bool{}
	for _, m := range all(t) {
		for key := range cited(m) {
			used[key] = true
		}
	}
	text, err := fs.ReadFile(data(), "sources.toml")
	if err != nil {
		t.Fatal(err)
	}
	s := New()
	headers := regexp.MustCompile(`(?m)^\[source\.(.*)\]$`).FindAllStringSubmatch(string(text), -1)
	for _, h := range headers {
		if !used[h[1]] {
			t.Errorf("source %q is cited by no entry", h[1])
		}
		if src, ok := s.Source(h[1]); !ok || src.Key != h[1] {
			t.Errorf("source %q cannot be read: %+v", h[1], src)
		}
	}
	if len(headers) < 100 {
		t.Errorf("only %d sources found", len(headers))
	}
}

// TestText keeps addresses and a compiler's letter grades of hazard out.
func TestText(t *testing.T) {
	files, err := fs.Glob(data(), "*")
	if err != nil {
		t.Fatal(err)
	}
	grade := regexp.MustCompile(`text = "([A-D]|hazard [A-D]|grade [A-D])"|letter scale`)
	address := regexp.MustCompile(`(?i)https?:|www\.|\.(com|net|org|html)\b`)
	for _, name := range files {
		text, err := fs.ReadFile(data(), name)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(text), "\n") {
			if address.MatchString(line) {
				t.Errorf("%s:%d: an address: %s", name, i+1, line)
			}
			if grade.MatchString(line) {
				t.Errorf("%s:%d: a letter grade: %s", name, i+1, line)
			}
		}
	}
}

// TestSafetyIsNeverStated: a sheet says what sources list, never that a thing
// is harmless.
func TestSafetyIsNeverStated(t *testing.T) {
	claim := regexp.MustCompile(`(?i)\b(safe|harmless|non-?toxic|not toxic|no hazards|not hazardous)\b`)
	for _, m := range all(t) {
		for _, s := range slices.Concat(m.Hazards.Statements, m.Incompatible) {
			if claim.MatchString(s.Text) {
				t.Errorf("%s: %q", m.ID, s.Text)
			}
		}
	}
}

// TestCriticalVolume: the critical pigment volume that each entry's medians
// make lies where published ones lie, 0.2 to 0.75, or the entry says why not.
func TestCriticalVolume(t *testing.T) {
	outside := map[string]string{"diatomaceous-earth": "porous shells drink oil that does not part the grains"}
	for _, m := range all(t) {
		oil, _ := m.AbsorptionDistribution()
		if !oil.Known() {
			continue
		}
		cpvc := 1 / (1 + float64(oil.Median)*float64(m.DensityDistribution().Median)/100)
		if in := cpvc >= 0.2 && cpvc <= 0.75; in == (outside[m.ID] != "") {
			t.Errorf("%s: critical pigment volume %.2f", m.ID, cpvc)
		}
	}
}

// pooled is the log standard deviation between sources over all entries.
func pooled(groups []map[string][]float64) (sigma float64, entries, degrees int) {
	var squares float64
	for _, sources := range groups {
		if len(sources) < 2 {
			continue
		}
		var means []float64
		var mean float64
		for _, key := range slices.Sorted(keys(sources)) {
			var sum float64
			for _, x := range sources[key] {
				sum += x
			}
			m := sum / float64(len(sources[key]))
			means = append(means, m)
			mean += m / float64(len(sources))
		}
		for _, m := range means {
			squares += (m - mean) * (m - mean)
		}
		entries++
		degrees += len(means) - 1
	}
	return math.Sqrt(squares / float64(degrees)), entries, degrees
}

func keys(m map[string][]float64) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// TestWidths works the stated between-source widths out again.
func TestWidths(t *testing.T) {
	var density, oil, unstated []map[string][]float64
	for _, m := range all(t) {
		d, o, u := map[string][]float64{}, map[string][]float64{}, map[string][]float64{}
		for _, r := range m.Density {
			if r.Aside == "" && r.Source != material.FromMemory {
				d[r.Source] = append(d[r.Source], math.Log(float64(r.Middle())))
			}
		}
		for _, r := range m.OilAbsorption {
			if r.Aside != "" || r.Method != material.RubOut && r.Method != material.Unstated {
				continue
			}
			x := math.Log(float64(r.ByVolume().Middle()))
			o[r.Source] = append(o[r.Source], x)
			if r.Method == material.Unstated {
				u[r.Source] = append(u[r.Source], x)
			}
		}
		density, oil, unstated = append(density, d), append(oil, o), append(unstated, u)
	}
	for _, c := range []struct {
		what             string
		groups           []map[string][]float64
		sigma, tolerance float64
		entries, degrees int
	}{
		{"density", density, material.DensityWidth.Sigma, 0.0005, 52, 98},
		{"oil absorption", oil, material.AbsorptionWidth.Sigma, 0.005, 14, 16},
		{"oil absorption, method not stated", unstated, 0.15, 0.005, 11, 11},
	} {
		sigma, entries, degrees := pooled(c.groups)
		if math.Abs(sigma-c.sigma) > c.tolerance || entries != c.entries || degrees != c.degrees {
			t.Errorf("%s: σ %.4f from %d entries, %d degrees of freedom; stated %.4f, %d, %d",
				c.what, sigma, entries, degrees, c.sigma, c.entries, c.degrees)
		}
	}
}

func TestLookup(t *testing.T) {
	s := New()
	for name, id := range map[string]string{
		"Prussian blue": "prussian-blue", "PB27": "prussian-blue", "pigment blue 27": "prussian-blue", "77510": "prussian-blue", "iron blue": "prussian-blue",
		"flake white": "lead-white", "titanium white": "titanium-white-rutile", "Terre Verte": "green-earth", "ivory black": "bone-black",
		"PY74": "arylide-yellow", "whiting": "chalk", "PW18:1": "dolomite",
	} {
		m, err := s.Lookup(name)
		if err != nil || m.ID != id {
			t.Errorf("Lookup(%q) = %v, %v; want %s", name, m, err, id)
		}
	}
	for name, want := range map[string][]string{
		"PBr7":  {"burnt-sienna", "burnt-umber", "raw-sienna", "raw-umber"},
		"PR101": {"caput-mortuum", "indian-red", "mars-red", "mars-violet", "red-iron-oxide-synthetic", "venetian-red"},
		"PW6":   {"titanium-barium-white", "titanium-white-anatase", "titanium-white-rutile"},
	} {
		_, err := s.Lookup(name)
		var ambiguous *shelf.AmbiguousError
		if !errors.As(err, &ambiguous) {
			t.Errorf("Lookup(%q): got %v, want an AmbiguousError", name, err)
			continue
		}
		if diff := cmp.Diff(want, ambiguous.Candidates); diff != "" {
			t.Errorf("Lookup(%q): %s", name, diff)
		}
	}
	_, err := s.Lookup("prussain blue")
	if err == nil || err.Error() != `no pigment is called "prussain blue"; closest: prussian-blue` {
		t.Errorf("got %v", err)
	}
}

// TestShippedFileIsOwnFile: an entry's file can be given back as a file of the
// maker's own.
func TestShippedFileIsOwnFile(t *testing.T) {
	text, err := fs.ReadFile(data(), "viridian.toml")
	if err != nil {
		t.Fatal(err)
	}
	s := New()
	if err := s.Add("viridian.toml", string(text)); err != nil {
		t.Fatal(err)
	}
	mine, err := s.Lookup("viridian")
	if err != nil {
		t.Fatal(err)
	}
	shipped, err := New().Lookup("viridian")
	if err != nil {
		t.Fatal(err)
	}
	if len(mine.Overrides) == 0 {
		t.Error("no field is marked as changed")
	}
	copied := *mine
	copied.Overrides = nil
	if diff := cmp.Diff(shipped, &copied); diff != "" {
		t.Error(diff)
	}
}

// TestTrapped rows of the sources that are known to be wrong stay out of the
// ranges, with the reason on the sheet.
func TestTrapped(t *testing.T) {
	s := New()
	for _, c := range []struct {
		id, source string
		aside      func(*material.Material, string) (bool, string)
	}{
		{"titanium-white-rutile", "massey1967", demandAside},
		{"raw-sienna", "gettens-stout-1942", demandAside},
		{"bone-black", "uebele1913", demandAside},
		{"cadmium-red", "cadmium-producer-sheet", densityAside},
		{"phthalo-blue", "phthalocyanine-blue-producer", densityAside},
	} {
		m, err := s.Lookup(c.id)
		if err != nil {
			t.Fatal(err)
		}
		if found, why := c.aside(m, c.source); !found || why == "" {
			t.Errorf("%s: the figure of %s is not set aside", c.id, c.source)
		}
	}
}

func demandAside(m *material.Material, source string) (bool, string) {
	for _, r := range m.ArtistsDemand {
		if r.Source == source {
			return true, r.Aside
		}
	}
	return false, ""
}

func densityAside(m *material.Material, source string) (bool, string) {
	for _, r := range m.Density {
		if r.Source == source {
			return true, r.Aside
		}
	}
	return false, ""
}

// TestClasses: chemistry that the cautions rest on.
func TestClasses(t *testing.T) {
	s := New()
	for id, want := range map[string][]material.Class{
		"ultramarine-blue": {material.Sulphide, material.AcidSensitive},
		"prussian-blue":    {material.IronCyanide, material.AlkaliSensitive, material.HeatSensitive},
		"lead-white":       {material.Lead, material.Carbonate, material.AcidSensitive},
		"chrome-green":     {material.Lead, material.Chromate, material.IronCyanide, material.AlkaliSensitive, material.HeatSensitive},
		"vermilion":        {material.Sulphide, material.Mercury},
		"cadmium-red":      {material.Sulphide, material.Cadmium},
		"zinc-white":       {material.Zinc},
		"egyptian-blue":    nil, // its copper is bound in a silicate
		"phthalo-blue":     nil, // its copper is bound in the ring
	} {
		m, err := s.Lookup(id)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, m.Classes); diff != "" {
			t.Errorf("%s: %s", id, diff)
		}
	}
}

func BenchmarkLookupCold(b *testing.B) {
	for b.Loop() {
		if _, err := New().Lookup("PB27"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	for b.Loop() {
		if _, err := New().All(); err != nil {
			b.Fatal(err)
		}
	}
}
