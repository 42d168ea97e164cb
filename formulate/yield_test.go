package formulate

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"mullwright/formulate/chemistry"
	"mullwright/formulate/quantity"
)

func yieldOf(t testing.TB, reaction string, got quantity.Mass, in ...chemistry.Weighed) YieldRequest {
	t.Helper()
	r, err := chemistry.ParseReaction(reaction)
	if err != nil {
		t.Fatal(err)
	}
	return YieldRequest{Reaction: r, Weighed: in, Product: r.Products[0].Formula.String(), Got: got, Scale: 0.01}
}

const blueReaction = "3 K4[Fe(CN)6] + 4 FeCl3 -> Fe4[Fe(CN)6]3 + 12 KCl"

func blue(t testing.TB, got quantity.Mass) YieldRequest {
	req := yieldOf(t, blueReaction, got,
		chemistry.Weighed{Substance: "K4[Fe(CN)6]", Mass: 12, Purity: 1}, chemistry.Weighed{Substance: "FeCl3", Mass: 8, Purity: 0.97})
	req.Water = chemistry.Span[quantity.Ratio]{Low: 14, High: 16}
	return req
}

// Worked by hand: 12 g of 368.345 g/mol make 0.010859 mol of blue, which weighs
// 859.23 g/mol and carries 14 to 16 waters of 18.015.
func TestYieldOfBlue(t *testing.T) {
	const mol, dry, water = 12.0 / 368.345 / 3, 859.239, 18.015
	low, high := mol*(dry+14*water), mol*(dry+16*water)
	for _, c := range []struct {
		got     quantity.Mass
		verdict chemistry.Verdict
		jar     bool
	}{{11, chemistry.Less, false}, {12.3, chemistry.Hydrate, true}, {12.9, chemistry.More, true}} {
		r, err := Yield(blue(t, c.got))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "theory, least", float64(r.Theory.Mass.Low), low, 0.0005)
		near(t, "theory, most", float64(r.Theory.Mass.High), high, 0.0005)
		if r.Theory.Limiting != "K4[Fe(CN)6]" || r.Finding.Verdict != c.verdict || (r.Jar != nil) != c.jar {
			t.Errorf("%v g: %s runs out, %s, jar %v", c.got, r.Theory.Limiting, r.Finding.Verdict, r.Jar)
		}
		if !c.jar {
			continue
		}
		near(t, "moisture, most", float64(r.Jar.Moisture.High), 1-low/float64(c.got), 1e-5)
		near(t, "moisture, least", float64(r.Jar.Moisture.Low), math.Max(0, 1-high/float64(c.got)), 1e-5)
		near(t, "pigment, least", float64(r.Jar.Pigment.Low), low, 0.0005)
	}
}

// Yield of lead chromate from a published worked answer: 1.50 g of lead nitrate
// with 1.75 g of sodium chromate give at most 1.46 g (testdata/checks, H5-11a).
func TestYieldAndRinse(t *testing.T) {
	req := yieldOf(t, "Pb(NO3)2 + Na2CrO4 -> PbCrO4 + 2 NaNO3", 1.3,
		chemistry.Weighed{Substance: "Pb(NO3)2", Mass: 1.5, Purity: 1}, chemistry.Weighed{Substance: "Na2CrO4", Mass: 1.75, Purity: 1})
	req.Rinse = Rinse{Times: 2, Water: 180, Held: 20, Target: 0.001}
	r, err := Yield(req)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "theory", float64(r.Theory.Mass.High), 1.46, 0.005)
	near(t, "left by two rinses", float64(r.Rinsed.Left), 0.01, 1e-12)
	if r.Rinsed.Needed != 3 {
		t.Errorf("%d rinses for a thousandth, want 3", r.Rinsed.Needed)
	}
	// What is dissolved is all that went in and is not pigment.
	var dissolved quantity.Mass
	for _, d := range r.Rinsed.Dissolved {
		dissolved += d.Mass
	}
	near(t, "dissolved and pigment", float64(dissolved+r.Theory.Mass.High), 3.25, 0.001)
	near(t, "salts", float64(r.Rinsed.Salts), float64(dissolved)/100, 1e-9)
	if !(r.Doubt > 0) || r.Blurred {
		t.Errorf("doubt %v, blurred %v", r.Doubt, r.Blurred)
	}
	req.Got = r.Theory.Mass.High + r.Doubt
	if r, err = Yield(req); err != nil || !r.Blurred {
		t.Errorf("a hair over theory: blurred %v, %v", r.Blurred, err)
	}
}

// Every hazard that the formulas show is named, and the work is no procedure.
func TestRouteCautions(t *testing.T) {
	for reaction, want := range map[string][]string{
		blueReaction: {"cyanide from ferrocyanide", "wash water", "iron cyanide", "not a procedure"},
		"K4[Fe(CN)6] + 2 H2SO4 -> H4[Fe(CN)6] + 2 K2SO4": {"acid", "iron blue with acid"},
		"Pb(NO3)2 + K2CrO4 -> PbCrO4 + 2 KNO3":           {"lead", "chromate", "wash water"},
		"2 AsCl3 + 3 H2S -> As2S3 + 6 HCl":               {"arsenic", "acid", "sulphide", "sulphide with acid"},
		"CdCl2 + Na2S -> CdS + 2 NaCl":                   {"cadmium", "sulphide"},
		"BaCl2 + Na2SO4 -> BaSO4 + 2 NaCl":               {"barium"},
		"CuSO4 + 2 NaOH -> Cu(OH)2 + Na2SO4":             {"strong alkali", "copper"},
		"CaCO3 + 2 HCl -> CaCl2 + H2O + CO2":             {"carbonate with acid"},
		"HgCl2 + Na2S -> HgS + 2 NaCl":                   {"mercury"},
	} {
		req := yieldOf(t, reaction, 0, chemistry.Weighed{Substance: firstReactant(t, reaction), Mass: 1, Purity: 1})
		r, err := Yield(req)
		if err != nil {
			t.Errorf("%s: %v", reaction, err)
			continue
		}
		named := map[string]Caution{}
		for _, c := range r.Cautions {
			named[c.About] = c
		}
		for _, about := range want {
			if named[about].Text == "" || named[about].Source == "" {
				t.Errorf("%s: no caution about %q", reaction, about)
			}
		}
		if len(named) != len(r.Cautions) {
			t.Errorf("%s: a caution stands twice", reaction)
		}
	}
	barium, err := Yield(yieldOf(t, "BaCl2 + Na2SO4 -> BaSO4 + 2 NaCl", 0, chemistry.Weighed{Substance: "BaCl2", Mass: 1, Purity: 1}))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range barium.Cautions {
		if c.About == "barium" && strings.Contains(strings.Join(c.Of, " "), "BaSO4") {
			t.Error("barium sulphate is called soluble")
		}
	}
}

func firstReactant(t *testing.T, reaction string) string {
	r, err := chemistry.ParseReaction(reaction)
	if err != nil {
		t.Fatal(err)
	}
	return r.Reactants[0].Formula.String()
}

func TestYieldRefusals(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*YieldRequest)
		want   string
	}{
		{"nothing weighed in", func(r *YieldRequest) { r.Weighed = nil }, "no reactant"},
		{"not a reactant", func(r *YieldRequest) { r.Weighed[0].Substance = "KCl" }, "not a reactant"},
		{"not a product", func(r *YieldRequest) { r.Product = "FeCl3" }, "not a product"},
		{"no reaction", func(r *YieldRequest) { r.Reaction = chemistry.Reaction{} }, "no reaction"},
		{"not a number", func(r *YieldRequest) { r.Got = quantity.Mass(math.NaN()) }, "negative"},
		{"rinse without water", func(r *YieldRequest) { r.Rinse = Rinse{Times: 3, Held: 10} }, "water of one rinse"},
		{"all salts left", func(r *YieldRequest) { r.Rinse = Rinse{Times: 3, Water: 10, Held: 10, Target: 1} }, "below 100 %"},
	} {
		req := blue(t, 12)
		c.change(&req)
		if _, err := Yield(req); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one about %q", c.name, err, c.want)
		}
	}
}

// Mass is conserved, and the jar's pigment with what cannot be it is the jar.
func TestYieldProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := YieldRequest{Product: "Fe4[Fe(CN)6]3", Scale: 0.01}
		var err error
		if req.Reaction, err = chemistry.ParseReaction(blueReaction); err != nil {
			t.Fatal(err)
		}
		m := func(name string) quantity.Mass {
			return quantity.Mass(rapid.Float64Range(0.1, 1000).Draw(t, name))
		}
		a, b := m("ferrocyanide"), m("chloride")
		req.Weighed = []chemistry.Weighed{{Substance: "K4[Fe(CN)6]", Mass: a, Purity: 1}, {Substance: "FeCl3", Mass: b, Purity: 1}}
		req.Got = m("got")
		req.Rinse = Rinse{Times: rapid.IntRange(0, 20).Draw(t, "rinses"), Water: 100, Held: 10}
		r, err := Yield(req)
		if err != nil {
			t.Fatal(err)
		}
		out := r.Theory.Mass.High
		for _, d := range r.Rinsed.Dissolved {
			out += d.Mass
		}
		if math.Abs(float64(out-a-b)) > 1e-6*float64(a+b) {
			t.Fatalf("%v g in, %v g out", a+b, out)
		}
		if j := r.Jar; j != nil {
			if math.Abs(float64(j.Pigment.High+r.Finding.Foreign.Low-req.Got)) > 1e-9*float64(req.Got) {
				t.Fatalf("%v of pigment and %v of the rest in %v", j.Pigment.High, r.Finding.Foreign.Low, req.Got)
			}
			if !(j.Moisture.Low >= 0 && j.Moisture.Low <= j.Moisture.High && j.Moisture.High < 1) {
				t.Fatalf("moisture %+v", j.Moisture)
			}
		}
	})
}

func TestOfFormula(t *testing.T) {
	f, err := chemistry.ParseFormula("CaSO4·2H2O")
	if err != nil {
		t.Fatal(err)
	}
	r, err := OfFormula(f)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "molar mass of gypsum", float64(r.MolarMass.Low), 172.164, 0.005)
	near(t, "bound water", float64(r.Water.High), 36.03/172.164, 1e-4)
	var sum float64
	for _, s := range r.Ends[0].Shares {
		sum += float64(s.Mass)
	}
	near(t, "all elements", sum, 1, 1e-12)
}
