package media

import (
	"flag"
	"io/fs"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/shelf"
)

var update = flag.Bool("update", false, "write data/index.tsv anew from the entries")

func TestIndexIsCurrent(t *testing.T) {
	files := os.DirFS("data")
	want, err := shelf.BuildIndex("medium", files)
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("data/index.tsv", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := fs.ReadFile(files, "index.tsv")
	if err != nil || string(got) != want {
		t.Errorf("data/index.tsv is stale (%v): run go test ./media -update", err)
	}
}

func all(t *testing.T) []*material.Material {
	t.Helper()
	list, err := New().All()
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func get(t *testing.T, name string) *material.Material {
	t.Helper()
	m, err := New().Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestEveryEntryIsValid(t *testing.T) {
	if err := New().Check(); err != nil {
		t.Error(err)
	}
}

func TestCounts(t *testing.T) {
	got := map[material.Kind]int{}
	drying := 0
	for _, m := range all(t) {
		got[m.Kind]++
		if m.Kind == material.Oil && slices.Contains(m.Classes, material.DryingOil) {
			drying++
		}
	}
	want := map[material.Kind]int{
		material.Oil: 15, material.Solvent: 9, material.Resin: 9, material.Wax: 3, material.Stabiliser: 1, material.Drier: 5,
		material.Gum: 7, material.Humectant: 5, material.WettingAgent: 1, material.Preservative: 5, material.Additive: 4,
		material.Water: 1, material.Medium: 15,
	}
	for k, n := range want {
		if got[k] != n {
			t.Errorf("%d entries of kind %s, want %d", got[k], k, n)
		}
	}
	for k := range got {
		if _, ok := want[k]; !ok {
			t.Errorf("unexpected kind %s", k)
		}
	}
	if drying < 12 {
		t.Errorf("%d drying oils, want at least 12", drying)
	}
}

// cited collects every source key of the catalogue by walking its text, so
// that no field is forgotten.
func cited(t *testing.T) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	key := regexp.MustCompile(`source = "([^"]+)"`)
	names, err := fs.Glob(data(), "*.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range names {
		text, err := fs.ReadFile(data(), n)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range key.FindAllStringSubmatch(string(text), -1) {
			out[m[1]] = true
		}
	}
	for _, c := range Containers() {
		out[c.Brim.Source] = true
	}
	for _, f := range TubeFills() {
		out[f.Source] = true
	}
	for _, d := range DropMasses() {
		out[d.Twenty.Source] = true
	}
	delete(out, material.FromMemory)
	delete(out, material.CommonPractice)
	return out
}

func TestSourcesBothWays(t *testing.T) {
	s := New()
	used := cited(t)
	for key := range used {
		if _, ok := s.Source(key); !ok {
			t.Errorf("source %q is cited and not listed", key)
		}
	}
	text, err := fs.ReadFile(data(), "sources.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?m)^\[source\.([^\]]+)\]`).FindAllStringSubmatch(string(text), -1) {
		if !used[m[1]] {
			t.Errorf("source %q is listed and not cited", m[1])
		}
	}
}

// Bounds in g/ml that a density of each kind cannot leave; wide enough for
// every real substance of the kind, narrow enough for a slipped digit.
func TestDensitiesArePlausible(t *testing.T) {
	bounds := map[material.Kind][2]float64{
		material.Oil: {0.915, 0.98}, material.Solvent: {0.74, 0.92}, material.Resin: {0.98, 1.25}, material.Wax: {0.86, 1.01},
		material.Stabiliser: {1, 1.1}, material.Drier: {0.86, 1.3}, material.Gum: {1, 1.55}, material.Humectant: {1, 1.6},
		material.WettingAgent: {1, 1.1}, material.Preservative: {1, 1.5}, material.Additive: {1.4, 2.6}, material.Water: {0.99, 1},
	}
	for _, m := range all(t) {
		d := m.DensityDistribution()
		if m.Kind == material.Medium {
			if d.Known() || len(m.Parts) < 2 {
				t.Errorf("%s: a made-up medium holds parts and no density of its own", m.ID)
			}
			continue
		}
		b := bounds[m.Kind]
		if v := float64(d.Median); !(v >= b[0] && v <= b[1]) {
			t.Errorf("%s: density %v g/ml is outside %v to %v for a %s", m.ID, v, b[0], b[1], m.Kind)
		}
		for i, r := range m.Density {
			// Readings of one substance stay within 8 % of each other's middle.
			if v := float64(r.Middle()); math.Abs(math.Log(v/float64(d.Median))) > 0.08 {
				t.Errorf("%s: density[%d] %v is far from the median %v", m.ID, i, v, d.Median)
			}
		}
	}
}

func TestKindsHoldWhatTheyNeed(t *testing.T) {
	for _, m := range all(t) {
		switch m.Kind {
		case material.Oil:
			// No iodine value of sun-thickened oil was found.
			if len(m.DryingClass) == 0 || len(m.IodineValue) == 0 && m.ID != "sun-thickened-oil" {
				t.Errorf("%s: an oil needs an iodine value and a drying class", m.ID)
			}
			if slices.Contains(m.Classes, material.DryingOil) && (len(m.Yellowing) == 0 || !m.Hazards.Listed) {
				t.Errorf("%s: a drying oil needs yellowing and its rags", m.ID)
			}
		case material.Solvent:
			if len(m.FlashPoint) == 0 || len(m.VapourPressure) == 0 || len(m.Boiling) == 0 || !m.Hazards.Assessed || !slices.Contains(m.Classes, material.Flammable) {
				t.Errorf("%s: a solvent needs flash point, boiling, vapour pressure, hazards and the class flammable", m.ID)
			}
		}
	}
	for _, id := range []string{"stand-oil", "sun-thickened-oil", "boiled-linseed-oil"} {
		if get(t, id).AbsorptionDoubtful == "" {
			t.Errorf("%s: that its volume is doubtful is not said", id)
		}
	}
}

// Hazards are assessed only where a publication was read.
func TestAssessedMeansRead(t *testing.T) {
	published := func(s string) bool { return s != "" && s != material.FromMemory && s != material.CommonPractice }
	for _, m := range all(t) {
		if !m.Hazards.Assessed {
			continue
		}
		ok := published(m.Hazards.CodesSource)
		for _, s := range m.Hazards.Statements {
			ok = ok || published(s.Source)
		}
		if !ok {
			t.Errorf("%s: assessed without a publication", m.ID)
		}
	}
}

func TestLimits(t *testing.T) {
	const litresPerMole = 24.45 // ideal gas at 25 °C and 101.325 kPa
	kinds := []string{"8 h", "15 min", "ceiling", "idlh"}
	disagree := 0
	for _, m := range all(t) {
		for i, l := range m.Limits {
			if !slices.Contains(kinds, l.Kind) {
				t.Errorf("%s: limits[%d]: kind %q; accepted: %v", m.ID, i, l.Kind, kinds)
			}
			if l.PPM < 0 || l.MgPerM3 < 0 || l.PPM == 0 && l.MgPerM3 == 0 {
				t.Errorf("%s: limits[%d] is not a positive number", m.ID, i)
			}
			if l.PPM == 0 || l.MgPerM3 == 0 {
				continue
			}
			if len(m.MolarMass) == 0 {
				t.Errorf("%s: limits[%d] in both units and no molar mass", m.ID, i)
				continue
			}
			molar := float64(m.MolarMass[0].Middle())
			off := float64(l.MgPerM3)/(float64(l.PPM)*molar/litresPerMole) - 1
			noted := strings.Contains(l.Note, "mean molar mass")
			if math.Abs(off) > 0.05 {
				disagree++
				t.Logf("%s, %s %s: %v ppm and %v mg/m3 disagree by %+.1f %% at %v g/mol", m.ID, l.Authority, l.Kind, float64(l.PPM), float64(l.MgPerM3), 100*off, molar)
			}
			if (math.Abs(off) > 0.05) != noted {
				t.Errorf("%s: limits[%d]: off by %+.1f %%, note %q", m.ID, i, 100*off, l.Note)
			}
		}
	}
	if disagree != 2 {
		t.Errorf("%d limits disagree between their units, want the 2 of white spirit", disagree)
	}
}

// Water at the reference temperatures of specific gravities, g/ml (IAPWS-95).
var waterAt = map[string]float64{"4": 0.99997, "15": 0.99910, "15.6": 0.99901, "20": 0.99821, "25": 0.99705, "30": 0.99565}

// Every converted density is worked out again from what its note says was
// printed.
func TestConvertedDensities(t *testing.T) {
	gravity := regexp.MustCompile(`^printed ([\d.]+)(?: to ([\d.]+))? at ([\d.]+)/([\d.]+) C; times water ([\d.]+), ([\d.]+) per K to 20 C`)
	density := regexp.MustCompile(`^printed ([\d.]+)(?: to ([\d.]+))? g/ml at ([\d.]+) C; ([\d.]+) per K to 20 C`)
	n := 0
	for _, m := range all(t) {
		for i, r := range m.Density {
			var f []string
			water := 1.0
			if g := gravity.FindStringSubmatch(r.Note); g != nil {
				water = number(t, g[5])
				if want := waterAt[g[4]]; water != want {
					t.Errorf("%s: density[%d]: water at %s C is %v, not %v", m.ID, i, g[4], want, water)
				}
				f = []string{g[1], g[2], g[3], g[6]}
			} else if g := density.FindStringSubmatch(r.Note); g != nil {
				f = []string{g[1], g[2], g[3], g[4]}
			} else if strings.HasPrefix(r.Note, "printed 0") {
				t.Errorf("%s: density[%d]: note not understood: %q", m.ID, i, r.Note)
				continue
			} else {
				continue
			}
			n++
			to20 := func(printed string) float64 {
				return number(t, printed)*water - number(t, f[3])*(20-number(t, f[2]))
			}
			check := func(name string, got quantity.Density, want float64) {
				if math.Abs(float64(got)-want) > 0.5001e-4 {
					t.Errorf("%s: density[%d]: %s is %v, the note gives %.4f", m.ID, i, name, got, want)
				}
			}
			if f[1] == "" {
				check("value", r.Value, to20(f[0]))
			} else {
				check("low", r.Low, to20(f[0]))
				check("high", r.High, to20(f[1]))
			}
		}
	}
	if n < 30 {
		t.Errorf("%d converted densities checked, want at least 30", n)
	}
}

// Every viscosity made from a kinematic figure is worked out again.
func TestConvertedViscosities(t *testing.T) {
	note := regexp.MustCompile(`^printed ([\d.]+) mm2/s; times ([\d.]+) g/ml`)
	n := 0
	for _, m := range all(t) {
		for i, v := range m.Viscosity {
			g := note.FindStringSubmatch(v.Note)
			if g == nil {
				continue
			}
			n++
			rho := number(t, g[2])
			if want := number(t, g[1]) * rho; math.Abs(float64(v.Value)/want-1) > 0.005 {
				t.Errorf("%s: viscosity[%d] is %v, the note gives %.4g mPa·s", m.ID, i, v.Value, want)
			}
			// The density used is the entry's own, at that temperature.
			slope := 0.00067
			if m.Kind == material.Solvent {
				slope = 0.00077
			}
			if want := float64(m.DensityDistribution().Median) - slope*(float64(*v.Temperature)-20); math.Abs(rho/want-1) > 0.006 {
				t.Errorf("%s: viscosity[%d]: density %v at %v, the entry gives %.4f", m.ID, i, rho, *v.Temperature, want)
			}
		}
	}
	if n < 25 {
		t.Errorf("%d converted viscosities checked, want at least 25", n)
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// A liquid grows thinner and lighter as it warms, within one source.
func TestTemperatureOrder(t *testing.T) {
	for _, m := range all(t) {
		falls(t, m.ID+" viscosity", m.Viscosity)
		falls(t, m.ID+" density-at", m.DensityAt)
	}
}

func falls[Q quantity.Real](t *testing.T, what string, list []material.Measured[Q]) {
	t.Helper()
	for i, a := range list {
		if a.Temperature == nil {
			t.Errorf("%s[%d]: no temperature", what, i)
			continue
		}
		for _, b := range list {
			if b.Temperature != nil && a.Source == b.Source && *a.Temperature < *b.Temperature && a.Value <= b.Value {
				t.Errorf("%s: %v at %v and %v at %v (%s)", what, a.Value, *a.Temperature, b.Value, *b.Temperature, a.Source)
			}
		}
	}
}

func density(t *testing.T, id string) float64 {
	return float64(get(t, id).DensityDistribution().Median)
}

func parts(t *testing.T, id string) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, p := range get(t, id).Parts {
		if p.Source == "" {
			t.Errorf("%s: part %s has no source", id, p.ID)
		}
		out[p.ID] += float64(p.Mass)
	}
	return out
}

// Parts are real entries that are no mixtures themselves, and their sources
// are known.
func TestParts(t *testing.T) {
	s := New()
	for _, m := range all(t) {
		for _, p := range m.Parts {
			of, err := s.Lookup(p.ID)
			if err != nil || of.ID != p.ID || of.Kind == material.Medium {
				t.Errorf("%s: part %q is not a plain entry: %v", m.ID, p.ID, err)
			}
			if _, ok := s.Source(p.Source); !ok && p.Source != material.CommonPractice && p.Source != material.FromMemory {
				t.Errorf("%s: part %s: unknown source %q", m.ID, p.ID, p.Source)
			}
		}
	}
}

// Recipes by volume or by pound and gallon, worked out again with the
// catalogue's densities.
func TestRecipesInMass(t *testing.T) {
	const gallon = 128 * quantity.MlPerUSFlOz
	rosin, turps := 5*quantity.GramsPerPound, gallon*density(t, "turpentine")
	near(t, "5-lb cut", parts(t, "damar-varnish")["turpentine"]/parts(t, "damar-varnish")["dammar"], turps/rosin)

	// One millilitre of that varnish, volumes added.
	volume := rosin/density(t, "dammar") + gallon
	glaze := parts(t, "glaze-medium")
	near(t, "glaze medium, stand oil", glaze["stand-oil"], density(t, "stand-oil"))
	near(t, "glaze medium, dammar", glaze["dammar"], rosin/volume)
	near(t, "glaze medium, turpentine", glaze["turpentine"], turps/volume+5*density(t, "turpentine"))

	oiling := parts(t, "oiling-out-medium")
	near(t, "oiling out", oiling["white-spirit"]/oiling["stand-oil"], 4*density(t, "white-spirit")/density(t, "stand-oil"))

	binder := parts(t, "watercolour-binder")
	near(t, "binder, gum", binder["gum-arabic"], 3*quantity.GramsPerOunce)
	near(t, "binder, water", binder["water"], 6*quantity.MlPerUSFlOz*density(t, "water"))
	near(t, "binder, glycerine", binder["glycerine"], 1.5*quantity.MlPerUSFlOz*density(t, "glycerine"))
	near(t, "binder, glycerine to gum", binder["glycerine"]/binder["gum-arabic"], 0.66)

	honey := parts(t, "watercolour-binder-with-honey")
	near(t, "honey of the solution", honey["honey"]/(honey["gum-arabic"]+honey["water"]+honey["glycerine"]), 0.10)
	near(t, "humectant to gum", (honey["honey"]+honey["glycerine"])/honey["gum-arabic"], 1.86)
}

// near compares within 1 %.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got/want-1) > 0.01 {
		t.Errorf("%s: got %.4g, want %.4g", what, got, want)
	}
}

func TestContainers(t *testing.T) {
	seen := map[string]bool{}
	volume := map[string]float64{}
	for _, c := range Containers() {
		if !material.IsID(c.ID) || seen[c.ID] || c.Name == "" {
			t.Errorf("container %q: bad or repeated id, or no name", c.ID)
		}
		seen[c.ID] = true
		volume[c.ID] = float64(c.Brim.Middle())
		if v := volume[c.ID]; !(v >= 0.5 && v <= 500) {
			t.Errorf("container %s holds %v ml", c.ID, v)
		}
	}
	if volume["half-pan"] != 2*volume["quarter-pan"] || volume["full-pan"] != 2*volume["half-pan"] {
		t.Error("the pans are not halves of each other")
	}
	for _, f := range TubeFills() {
		if !(f.Middle() > 0.5 && f.Middle() < 1) {
			t.Errorf("tube filled to %v", f.Middle())
		}
	}
}

func TestDropMasses(t *testing.T) {
	s := New()
	for _, d := range DropMasses() {
		if len(d.IDs) == 0 {
			t.Errorf("%s: no entries", d.Liquid)
		}
		for _, id := range d.IDs {
			if m, err := s.Lookup(id); err != nil || m.ID != id {
				t.Errorf("%s: %q is not an entry", d.Liquid, id)
			}
		}
		check := func(name string, v quantity.Mass) {
			if v != 0 && !(v >= 0.2 && v <= 1.5) {
				t.Errorf("%s: %s of twenty drops is %v", d.Liquid, name, v)
			}
		}
		check("value", d.Twenty.Value)
		check("low", d.Twenty.Low)
		check("high", d.Twenty.High)
	}
}

// What a maker types finds the entry meant.
func TestNames(t *testing.T) {
	s := New()
	for name, want := range map[string]string{
		"linseed": "linseed-oil", "Cold-pressed linseed oil": "linseed-oil", "stand oil": "stand-oil", "turps": "turpentine",
		"mineral spirits": "white-spirit", "OMS": "odourless-mineral-spirits", "damar": "dammar", "glycerol": "glycerine",
		"aluminum stearate": "aluminium-stearate", "gum acacia": "gum-arabic", "distilled water": "water", "oxgall": "ox-gall",
	} {
		if m, err := s.Lookup(name); err != nil || m.ID != want {
			t.Errorf("Lookup(%q) = %v, want %s", name, err, want)
		}
	}
}

// The spread of densities between sources of one liquid, for those who set the
// stated width: printed, and held below what a pigment shows.
func TestSpreadOfLiquidDensities(t *testing.T) {
	var squares, freedom float64
	for _, m := range all(t) {
		if m.Kind != material.Oil && m.Kind != material.Solvent {
			continue
		}
		bySource := map[string][]float64{}
		for _, r := range m.Density {
			if r.Aside == "" {
				bySource[r.Source] = append(bySource[r.Source], math.Log(float64(r.Middle())))
			}
		}
		var logs []float64
		for _, v := range bySource {
			logs = append(logs, mean(v))
		}
		if len(logs) < 2 {
			continue
		}
		centre := mean(logs)
		for _, x := range logs {
			squares += (x - centre) * (x - centre)
		}
		freedom += float64(len(logs) - 1)
	}
	sigma := math.Sqrt(squares / freedom)
	t.Logf("log standard deviation between sources of one liquid: %.4f, %v degrees of freedom", sigma, freedom)
	if sigma > 0.01 {
		t.Errorf("densities of one liquid differ by %.3f, more than lots do", sigma)
	}
}

func mean(v []float64) float64 {
	var sum float64
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

// An entry is read as it stands in its file.
func TestLinseedOil(t *testing.T) {
	m := get(t, "linseed-oil")
	if d := m.DensityDistribution().Median; math.Abs(float64(d)-0.929) > 0.0015 {
		t.Errorf("density %v, want about 0.929 g/ml", d)
	}
	if iv := evidence.Combine(m.IodineValue, evidence.Width{Sigma: 0.05, Weight: 4}); iv.Median < 175 || iv.Median > 195 {
		t.Errorf("iodine value %v, want 175 to 195", iv.Median)
	}
}
