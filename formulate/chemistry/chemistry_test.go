package chemistry

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

func mustFormula(t testing.TB, text string) Formula {
	t.Helper()
	f, err := ParseFormula(text)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func mustReaction(t testing.TB, text string) Reaction {
	t.Helper()
	r, err := ParseReaction(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g ± %.2g", what, got, want, tolerance)
	}
}

func TestElements(t *testing.T) {
	all := Elements()
	if len(all) != 84 {
		t.Errorf("%d elements, the table of 2021 has 84", len(all))
	}
	last := quantity.MolarMass(0)
	// Weights rise with the atomic number but for four known pairs.
	swapped := map[string]bool{"K": true, "Ni": true, "I": true, "Pa": true}
	for _, e := range all {
		if e.Weight <= last && !swapped[e.Symbol] {
			t.Errorf("%s weighs %v, no more than the one before", e.Symbol, e.Weight)
		}
		if !(e.Tolerance > 0) || float64(e.Tolerance/e.Weight) > 0.01 {
			t.Errorf("%s: tolerance %v of %v", e.Symbol, e.Tolerance, e.Weight)
		}
		last = e.Weight
	}
	if _, ok := FindElement("Tc"); ok {
		t.Error("technetium has no standard weight")
	}
	if e, ok := FindElement("Pb"); !ok || e.Name != "lead" {
		t.Errorf("lead is %+v", e)
	}
}

func TestParseFormula(t *testing.T) {
	tests := []struct{ text, sum string }{
		{"CaCO3", "CCaO3"},
		{"Fe4[Fe(CN)6]3", "C18Fe7N18"},
		{"2PbCO3·Pb(OH)2", "C2H2O8Pb3"},
		{"2PbCO3.Pb(OH)2", "C2H2O8Pb3"},
		{"2 PbCO3 * Pb(OH)2", "C2H2O8Pb3"},
		{"CuSO4·5H2O", "CuH10O9S"},
		{"CuSO₄·5H₂O", "CuH10O9S"},
		{"CaSO4.2H2O", "CaH4O6S"},
		{"2CaSO4·H2O", "Ca2H2O9S2"},
		{"Cu3(CO3)2(OH)2", "C2H2Cu3O8"},
		{"CoO.Al2O3", "Al2CoO4"},
		{"4ZnCrO4.K2O.3H2O", "Cr4H6K2O20Zn4"},
		{"3MgO.4SiO2.H2O", "H2Mg3O12Si4"},
		{"K3[Co(NO2)6]", "CoK3N6O12"},
		{"{Fe(CN)6}", "C6FeN6"},
		{"C32H16CuN8", "C32H16CuN8"},
		{"Na8[Al6Si6O24]S2", "Al6Na8O24S2Si6"},
		{"H2O", "H2O"},
		{"CO", "CO"},
		{"Co", "Co"},
		{"CH4", "CH4"},
		{"Fe4[Fe(CN)6]3·14-16H2O", "C18Fe7N18"},
	}
	for _, tt := range tests {
		f, err := ParseFormula(tt.text)
		if err != nil {
			t.Error(err)
			continue
		}
		if got := f.Sum(); got != tt.sum {
			t.Errorf("%s = %s, want %s", tt.text, got, tt.sum)
		}
		if f.String() != tt.text {
			t.Errorf("%s prints as %s", tt.text, f)
		}
	}
}

func TestFractions(t *testing.T) {
	for _, text := range []string{"CaSO4·0.5H2O", "CaSO4.0.5H2O", "CaSO4·½H2O", "CaSO4·0,5H2O"} {
		near(t, text, float64(mustFormula(t, text).MolarMass().Low), 40.078+32.06+63.996+0.5*18.015, 1e-9)
	}
	f := mustFormula(t, "(Ti0.90Sb0.05Cr0.05)O2")
	near(t, "titanate", float64(f.MolarMass().Low), 0.9*47.867+0.05*121.76+0.05*51.996+2*15.999, 1e-9)
	near(t, "solid solution", float64(mustFormula(t, "Cd0.9Zn0.1S").MolarMass().Low), 0.9*112.41+0.1*65.38+32.06, 1e-9)
	// A point after a whole number is the dot before another part.
	near(t, "Cu1.8S reads as Cu and eight sulphur", countOf(mustFormula(t, "Cu1.8S").Atoms(), "S"), 8, 0)
}

func TestRangedWater(t *testing.T) {
	f := mustFormula(t, "Fe4[Fe(CN)6]3·14-16H2O")
	water, ranged := f.RangedWater()
	if !ranged || water.Low != 14 || water.High != 16 {
		t.Fatalf("range %v, %t", water, ranged)
	}
	m := f.MolarMass()
	near(t, "driest", float64(m.Low), 859.239+14*18.015, 1e-6)
	near(t, "wettest", float64(m.High), 859.239+16*18.015, 1e-6)
	near(t, "water at the wettest", float64(f.BoundWater().High), 16*18.015/(859.239+16*18.015), 1e-9)
	if _, err := f.Composition(); err == nil {
		t.Error("a range of water was given one composition")
	}
	g, err := f.WithWater(15)
	if err != nil {
		t.Fatal(err)
	}
	if g.String() != "Fe4[Fe(CN)6]3·15H2O" {
		t.Errorf("with 15: %s", g)
	}
	near(t, "with 15", float64(g.MolarMass().Low), 859.239+15*18.015, 1e-6)
	near(t, "water of 15", float64(g.BoundWater().Low), 15*18.015/(859.239+15*18.015), 1e-9)
	if h := mustFormula(t, g.String()); !h.same(g) {
		t.Errorf("%s reads back otherwise", g)
	}
	if dry, err := f.WithWater(0); err != nil || dry.String() != "Fe4[Fe(CN)6]3" {
		t.Errorf("dry: %s, %v", dry, err)
	}
	if _, err := f.WithWater(-1); err == nil {
		t.Error("negative water was taken")
	}
}

func TestRefusedFormulas(t *testing.T) {
	tests := []struct{ text, want string }{
		{"", "empty"},
		{"   ", "empty"},
		{"Xx2O3", `"Xx" is not an element`},
		{"Tc2O7", "Tc has no standard atomic weight"},
		{"caco3", "begin with a capital"},
		{"Fe4[Fe(CN)6]3·xH2O", "bound water is written as x"},
		{"CuSO4·nH2O", "bound water is written as n"},
		{"CdS1-xSex", "charges and solid solutions"},
		{"Pb2+", "charges"},
		{"SO4^2-", "charges"},
		{"Fe³⁺", "charges"},
		{"Pb(OH", "is not closed by )"},
		{"Fe4[Fe(CN)6)3", "is not closed by ]"},
		{"Pb)OH", ") closes no bracket"},
		{"Pb()2", ") closes no bracket"},
		{"CO02", "is the letter O meant"},
		{"H0", "is the letter O meant"},
		{"Cd0.0S", "count of 0"},
		{"0H2O", "count of 0"},
		{"H10000", "at most 9999"},
		{"99999H2O", "at most 9999"},
		{"CuSO4·", "ends where a substance should follow"},
		{"·5H2O", `"·" is not understood`},
		{"CuSO4··5H2O", `"·" is not understood`},
		{"CuSO4·16-14H2O", "must be the larger"},
		{"CuSO4·14-H2O", "two numbers"},
		{"2-3PbCO3·Pb(OH)2", "only bound water"},
		{"14-16H2O", "nothing before the water"},
		{"CuSO4·1-2H2O·1-2H2O", "must come last"},
		{"CuSO4 5H2O", `"5" is not understood`},
		{"Pb CO3", `"C" is not understood`},
		{"Pb=O", `"=" is not understood`},
		{"((((((((((Pb))))))))))", "more than 8 deep"},
		{"((((Pb9999)9999)9999)9999)", "at most 1e+06"},
		{strings.Repeat("Pb", 150), "at most 200"},
		{"Pb\xff", "not valid text"},
	}
	for _, tt := range tests {
		if _, err := ParseFormula(tt.text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q: error %v, want one with %q", tt.text, err, tt.want)
		}
	}
}

func TestComposition(t *testing.T) {
	shares, err := mustFormula(t, "PbCrO4").Composition()
	if err != nil {
		t.Fatal(err)
	}
	var sum float64
	for _, s := range shares {
		sum += float64(s.Mass)
	}
	near(t, "sum", sum, 1, 1e-12)
	if shares[0].Name != "lead" || shares[0].Count != 1 {
		t.Errorf("first share %+v, want lead as written", shares[0])
	}
	near(t, "tolerance of a lead compound", float64(mustFormula(t, "PbCrO4").Tolerance()), 1.1+0.001+0.004, 1e-9)
}

// genFormula writes a formula with brackets and water, and counts its atoms.
func genFormula(t *rapid.T) (string, map[string]int) {
	atoms := map[string]int{}
	symbols := rapid.SampledFrom([]string{"Fe", "C", "N", "O", "Pb", "Cr", "H", "S", "Co", "Hg", "U"})
	sub := func(label string) (string, int) {
		n := rapid.IntRange(1, 12).Draw(t, label)
		if n == 1 {
			return "", 1
		}
		return number(float64(n)), n
	}
	var b strings.Builder
	var groups func(depth, times int)
	groups = func(depth, times int) {
		for range rapid.IntRange(1, 3).Draw(t, "groups") {
			text, n := sub("count")
			if depth < 3 && rapid.Bool().Draw(t, "bracket") {
				pair := rapid.SampledFrom([]string{"()", "[]"}).Draw(t, "kind")
				b.WriteByte(pair[0])
				groups(depth+1, times*n)
				b.WriteString(pair[1:] + text)
				continue
			}
			s := symbols.Draw(t, "symbol")
			b.WriteString(s + text)
			atoms[s] += times * n
		}
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "parts") {
		if i > 0 {
			b.WriteString(rapid.SampledFrom([]string{"·", ".", " * "}).Draw(t, "dot"))
		}
		text, n := sub("coefficient")
		b.WriteString(text)
		groups(0, n)
	}
	return b.String(), atoms
}

func TestFormulaProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, atoms := genFormula(t)
		if len(text) > maxFormula {
			t.Skip("longer than is read")
		}
		for _, n := range atoms {
			if n > maxCount {
				t.Skip("more than is read back")
			}
		}
		f, err := ParseFormula(text)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Atoms()) != len(atoms) {
			t.Fatalf("%s: %v, want %v", text, f.Atoms(), atoms)
		}
		for _, a := range f.Atoms() {
			if a.Count != float64(atoms[a.Symbol]) {
				t.Fatalf("%s: %v, want %v", text, f.Atoms(), atoms)
			}
		}
		// The sum formula is the same substance.
		g, err := ParseFormula(f.Sum())
		if err != nil {
			t.Fatal(err)
		}
		if len(unlike(f.Atoms(), g.Atoms())) > 0 || g.Sum() != f.Sum() {
			t.Fatalf("%s and its sum %s differ", text, f.Sum())
		}
		if d := float64(f.MolarMass().Low/g.MolarMass().Low) - 1; math.Abs(d) > 1e-12 {
			t.Fatalf("%s weighs otherwise than %s", text, f.Sum())
		}
		// Bound water adds its own mass.
		n := quantity.Ratio(rapid.IntRange(0, 20).Draw(t, "water"))
		wet, err := f.WithWater(n)
		if err != nil {
			t.Fatal(err)
		}
		want := float64(f.MolarMass().Low) + float64(n)*18.015
		if math.Abs(float64(wet.MolarMass().Low)-want) > 1e-9*want {
			t.Fatalf("%s with %v water weighs %v, want %v", text, n, wet.MolarMass().Low, want)
		}
		if f.Tolerance() <= 0 || f.Tolerance() > f.MolarMass().Low {
			t.Fatalf("%s: tolerance %v", text, f.Tolerance())
		}
	})
}

func TestParseReaction(t *testing.T) {
	tests := []struct{ text, want string }{
		{"3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3 + 12 KCl", "3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3 + 12 KCl"},
		{"3K4[Fe(CN)6]+4FeCl3→Fe4[Fe(CN)6]3+12KCl", "3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3 + 12 KCl"},
		{"Pb(NO3)2(aq) + K2CrO4 (aq) = PbCrO4(s) + 2KNO3(aq)", "Pb(NO3)2 + K2CrO4 -> PbCrO4 + 2 KNO3"},
		{"2 H2 + O2 => 2 H2O", "2 H2 + O2 -> 2 H2O"},
		{"H2 + 0.5 O2 --> H2O", "H2 + 0.5 O2 -> H2O"},
		{"2 CuSO4·5H2O + 2 Na2CO3 -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2 + 9 H2O", "2 CuSO4·5H2O + 2 Na2CO3 -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2 + 9 H2O"},
		{"3 PbO + 2 CO2 + H2O -> 1 2PbCO3·Pb(OH)2", "3 PbO + 2 CO2 + H2O -> 1 2PbCO3·Pb(OH)2"},
		// Bound water in a range comes from the vessel.
		{"3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3·14-16H2O + 12 KCl", "3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3·14-16H2O + 12 KCl"},
		// The number that touches a solid solution counts all of it.
		{"10Cd0.9Zn0.1S -> 9 CdS + ZnS", "10 Cd0.9Zn0.1S -> 9 CdS + ZnS"},
	}
	for _, tt := range tests {
		r, err := ParseReaction(tt.text)
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		if r.String() != tt.want {
			t.Errorf("%s prints as %s, want %s", tt.text, r, tt.want)
		}
		again, err := ParseReaction(r.String())
		if err != nil || again.String() != r.String() {
			t.Errorf("%s reads back as %s, %v", r, again, err)
		}
	}
}

func TestRefusedReactions(t *testing.T) {
	tests := []struct{ text, want string }{
		{"", "one arrow"},
		{"PbO + CO2", "one arrow"},
		{"A -> B -> C", "one arrow"},
		{"N2 + 3 H2 ⇌ 2 NH3", "one arrow"},
		{"Pb(NO3)2 + K2CrO4 -> PbCrO4 + KNO3", "not balanced: K 2 left, 1 right; N 2 left, 1 right; O 10 left, 7 right"},
		{"FeCl3 -> FeCl2", "Cl 3 left, 2 right"},
		{"CuSO4·5H2O + Na2CO3 -> CuCO3 + Na2SO4", "5 H2O more on the right would balance it"},
		{"CuSO4 + Na2CO3 -> CuCO3 + Na2SO4 + 2 H2O", "2 H2O more on the left would balance it"},
		{"2CuSO4·5H2O -> 2 CuSO4 + 10 H2O", `write "2 CuSO4·5H2O" for 2 of the whole, or "1 2CuSO4·5H2O"`},
		{"Pb2+ + CrO4 -> PbCrO4", "charges"},
		{"+ PbO -> PbO", "missing"},
		{"PbO -> ", "missing"},
		{"0 PbO -> PbO", "coefficient of 0"},
		{"PbO + PbO -> 2 PbO", "stands twice"},
		{"PbO + PbO·xH2O -> 2 PbO", "bound water is written as x"},
		{"2 -> PbO", "empty"},
		{strings.Repeat("H + ", 13) + "H -> H", "at most 12"},
		{strings.Repeat("H", 1001), "at most 1000"},
	}
	for _, tt := range tests {
		if _, err := ParseReaction(tt.text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q: error %v, want one with %q", tt.text, err, tt.want)
		}
	}
	var unbalanced *UnbalancedError
	_, err := ParseReaction("Fe + O2 -> Fe2O3")
	if !errors.As(err, &unbalanced) || !slices.Equal(unbalanced.Mismatches, []Mismatch{{"Fe", 1, 2}, {"O", 2, 3}}) || unbalanced.Water != 0 {
		t.Errorf("mismatches %+v", unbalanced)
	}
}

const prussian = "3 K4[Fe(CN)6]·3H2O + 4 FeCl3·6H2O -> Fe4[Fe(CN)6]3 + 12 KCl + 33 H2O"

func TestTheory(t *testing.T) {
	r := mustReaction(t, prussian)
	weighed := []Weighed{{"K4[Fe(CN)6]·3H2O", 10, 1}, {"FeCl3·6H2O", 10, 0.97}}
	tr := &trace.Tracer{}
	th, err := r.Theory(weighed, "Fe4[Fe(CN)6]3", Span[quantity.Ratio]{Low: 0, High: 16}, tr)
	if err != nil {
		t.Fatal(err)
	}
	if th.Limiting != "K4[Fe(CN)6]·3H2O" || len(th.Unweighed) != 0 {
		t.Errorf("limiting %q, unweighed %v", th.Limiting, th.Unweighed)
	}
	extent := 10 / 422.390 / 3
	near(t, "driest", float64(th.Mass.Low), extent*859.239, 1e-6)
	near(t, "wettest", float64(th.Mass.High), extent*(859.239+16*18.015), 1e-6)
	iron := th.Used[1]
	near(t, "iron salt given", float64(iron.Given), 9.7, 1e-9)
	near(t, "iron salt left", float64(iron.Left), 9.7-4*extent*270.285, 1e-6)
	near(t, "excess", float64(iron.Excess), 9.7/(4*extent*270.285)-1, 1e-6)
	near(t, "salt", float64(th.ByProducts[0].Mass), 12*extent*(39.098+35.45), 1e-6)
	if len(tr.Steps()) == 0 {
		t.Error("nothing was noted")
	}
	// A range in the formula does the same as one given beside it.
	own := mustReaction(t, strings.Replace(prussian, "Fe4[Fe(CN)6]3 ", "Fe4[Fe(CN)6]3·0-16H2O ", 1))
	th2, err := own.Theory(weighed, "Fe4[Fe(CN)6]3·0-16H2O", Span[quantity.Ratio]{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if th2.Mass != th.Mass {
		t.Errorf("range in the formula gives %v, beside it %v", th2.Mass, th.Mass)
	}
}

func TestJudge(t *testing.T) {
	th := Theory{Mass: Span[quantity.Mass]{Low: 8, High: 10}}
	tests := []struct {
		got                       quantity.Mass
		verdict                   Verdict
		productLow, productHigh   float64 // 0: not told
		foreignLow, foreignHigh   float64
		yieldDriest, yieldWettest float64
	}{
		{6, Less, 0, 0, 0, 0, 0.75, 0.6},
		{8, Less, 0, 0, 0, 0, 1, 0.8},
		{8.001, Hydrate, 8 / 8.001, 1, 0, 0.001, 8.001 / 8, 0.8001},
		{10, Hydrate, 0.8, 1, 0, 2, 1.25, 1},
		{12.5, More, 0.64, 0.8, 2.5, 4.5, 12.5 / 8, 1.25},
	}
	for _, tt := range tests {
		f, err := th.Judge(tt.got)
		if err != nil {
			t.Fatal(err)
		}
		if f.Verdict != tt.verdict {
			t.Errorf("%v: %q, want %q", tt.got, f.Verdict, tt.verdict)
		}
		near(t, "yield at the driest", float64(f.Yield.High), tt.yieldDriest, 1e-12)
		near(t, "yield at the wettest", float64(f.Yield.Low), tt.yieldWettest, 1e-12)
		near(t, "foreign at the wettest", float64(f.Foreign.Low), tt.foreignLow, 1e-9)
		near(t, "foreign at the driest", float64(f.Foreign.High), tt.foreignHigh, 1e-9)
		if f.Product == nil {
			if tt.productLow != 0 {
				t.Errorf("%v: share of product not told", tt.got)
			}
			continue
		}
		near(t, "product, driest", float64(f.Product.Low), tt.productLow, 1e-12)
		near(t, "product, wettest", float64(f.Product.High), tt.productHigh, 1e-12)
	}
}

func TestTheoryConservesMass(t *testing.T) {
	r := mustReaction(t, prussian)
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(0.01, 1000)
		weighed := []Weighed{
			{"K4[Fe(CN)6]·3H2O", quantity.Mass(mass.Draw(t, "first")), quantity.MassFraction(rapid.Float64Range(0.1, 1).Draw(t, "purity"))},
			{"FeCl3·6H2O", quantity.Mass(mass.Draw(t, "second")), 1},
		}
		th, err := r.Theory(weighed, "Fe4[Fe(CN)6]3", Span[quantity.Ratio]{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		in, out := 0.0, float64(th.Mass.Low)
		for _, u := range th.Used {
			in += float64(u.Given)
			out += float64(u.Left)
			if u.Left < 0 || u.Excess < 0 {
				t.Fatalf("negative: %+v", u)
			}
			if u.Substance == th.Limiting && float64(u.Left) > 1e-9*float64(u.Given) {
				t.Fatalf("the limiting reactant is left: %+v", u)
			}
		}
		for _, b := range th.ByProducts {
			out += float64(b.Mass)
		}
		if math.Abs(in-out) > 1e-9*in {
			t.Fatalf("in %v, out %v", in, out)
		}
	})
}

func TestRefusedTheory(t *testing.T) {
	r := mustReaction(t, prussian)
	none := Span[quantity.Ratio]{}
	good := []Weighed{{"FeCl3·6H2O", 1, 1}}
	try := func(w []Weighed, product string, water Span[quantity.Ratio]) error {
		_, err := r.Theory(w, product, water, nil)
		return err
	}
	ranged := mustReaction(t, "CuSO4·1-5H2O -> CuSO4")
	_, rangedErr := ranged.Theory([]Weighed{{"CuSO4·1-5H2O", 1, 1}}, "CuSO4", none, nil)
	own := mustReaction(t, "CuSO4 -> CuSO4·1-5H2O")
	_, ownErr := own.Theory([]Weighed{{"CuSO4", 1, 1}}, "CuSO4·1-5H2O", Span[quantity.Ratio]{Low: 0, High: 2}, nil)
	_, judged := Theory{Mass: Span[quantity.Mass]{Low: 1, High: 1}}.Judge(quantity.Mass(math.NaN()))
	tests := []struct {
		name string
		err  error
		want string
	}{
		{"nothing weighed", try(nil, "KCl", none), "at least one"},
		{"not a reactant", try([]Weighed{{"NaCl", 1, 1}}, "KCl", none), "accepted: K4[Fe(CN)6]·3H2O, FeCl3·6H2O"},
		{"not a product", try(good, "NaCl", none), "not a product"},
		{"no mass", try([]Weighed{{"FeCl3·6H2O", 0, 1}}, "KCl", none), "mass of"},
		{"no purity", try([]Weighed{{"FeCl3·6H2O", 1, 0}}, "KCl", none), "purity"},
		{"purity as per cent", try([]Weighed{{"FeCl3·6H2O", 1, 97}}, "KCl", none), "at most 1"},
		{"water falls", try(good, "KCl", Span[quantity.Ratio]{Low: 3, High: 1}), "must rise"},
		{"water not a number", try(good, "KCl", Span[quantity.Ratio]{Low: 0, High: quantity.Ratio(math.NaN())}), "must rise"},
		{"reactant with a range", rangedErr, "give one number"},
		{"two ranges", ownErr, "of its own"},
		{"weighed nothing", judged, "mass of the product"},
	}
	for _, tt := range tests {
		if tt.err == nil || !strings.Contains(tt.err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, tt.err, tt.want)
		}
	}
}

func TestClasses(t *testing.T) {
	tests := []struct {
		text string
		want []material.Class
	}{
		{prussian, []material.Class{material.IronCyanide}},
		{"(NH4)4[Fe(CN)6] + 2 PbO -> Pb2[Fe(CN)6] + 4 NH3 + 2 H2O", []material.Class{material.IronCyanide, material.Lead}},
		{"Pb(NO3)2 + K2CrO4 -> PbCrO4 + 2 KNO3", []material.Class{material.Lead, material.Chromate}},
		{"CaCO3 + 2 HCl -> CaCl2 + H2O + CO2", []material.Class{material.Acid}},
		{"CrCl3·6H2O -> CrCl3 + 6 H2O", nil},
		{"CuSO4 + Na2CO3 -> CuCO3 + Na2SO4", []material.Class{material.ReactiveCopper}},
	}
	for _, tt := range tests {
		if got := mustReaction(t, tt.text).Classes(); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.text, got, tt.want)
		}
	}
}

func TestRinse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		water := quantity.Volume(rapid.Float64Range(1, 1000).Draw(t, "water"))
		retained := quantity.Volume(rapid.Float64Range(1, 500).Draw(t, "retained"))
		share := quantity.MassFraction(rapid.Float64Range(1e-6, 1).Draw(t, "share"))
		n, err := RinsesFor(share, water, retained)
		if err != nil {
			t.Fatal(err)
		}
		left, err := SaltsLeft(n, water, retained)
		if err != nil {
			t.Fatal(err)
		}
		if float64(left) > float64(share)*(1+1e-6) {
			t.Fatalf("%d rinses leave %v, more than %v", n, left, share)
		}
		if n > 0 {
			if before, _ := SaltsLeft(n-1, water, retained); float64(before) <= float64(share)*(1-1e-6) {
				t.Fatalf("%d rinses would have done", n-1)
			}
		}
		// The same water in two portions does more than in one.
		one, _ := SaltsLeft(1, water, retained)
		two, _ := SaltsLeft(2, water/2, retained)
		if two > one {
			t.Fatalf("one rinse leaves %v, two of half the water %v", one, two)
		}
	})
	for name, err := range map[string]error{
		"rinses":         second(SaltsLeft(-1, 1, 1)),
		"one rinse":      second(SaltsLeft(1, 0, 1)),
		"held back":      second(SaltsLeft(1, 1, 0)),
		"share of salts": second(RinsesFor(0, 1, 1)),
		"more water":     second(RinsesFor(1e-9, 1e-6, 1000)),
	} {
		if err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("error %v, want one with %q", err, name)
		}
	}
}

func second(_ any, err error) error { return err }

func FuzzParseFormula(f *testing.F) {
	for _, s := range []string{"Fe4[Fe(CN)6]3·14-16H2O", "2PbCO3·Pb(OH)2", "CaSO4.0.5H2O", "Cd0.9Zn0.1S", "K4[Fe(CN)6]·3H2O", "CO02", "xH2O", "((((", "½H2O", "Fe³⁺", "{Pb}"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ParseFormula(text)
		if err != nil {
			if s := err.Error(); s == "" || len(s) > 4*maxFormula+300 {
				t.Errorf("error of %d bytes", len(s))
			}
			return
		}
		m := got.MolarMass()
		if !(m.Low > 0) || m.High < m.Low || math.IsInf(float64(m.High), 0) {
			t.Errorf("%q weighs %v", text, m)
		}
		again, err := ParseFormula(got.String())
		if err != nil || !again.same(got) {
			t.Errorf("%q prints as %q, which reads as %v, %v", text, got, again, err)
		}
	})
}

func FuzzParseReaction(f *testing.F) {
	for _, s := range []string{prussian, "2 H2 + O2 -> 2 H2O", "3 PbO + 2 CO2 + H2O = 1 2PbCO3·Pb(OH)2", "2CuSO4·5H2O -> X", "H2 + 0.5O2 → H2O(l)", "+ -> ", "A=>B=C", "10Cd0.9Zn0.1S -> 9CdS + ZnS"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseReaction(text)
		if err != nil {
			return
		}
		again, err := ParseReaction(r.String())
		if err != nil {
			t.Errorf("%q prints as %q: %v", text, r, err)
		} else if again.String() != r.String() {
			t.Errorf("%q prints as %q, then as %q", text, r, again)
		}
	})
}
