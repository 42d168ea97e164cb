package chemistry_test

import (
	"fmt"

	"mullwright/formulate/chemistry"
	"mullwright/formulate/quantity"
)

func ExampleParseFormula() {
	f, err := chemistry.ParseFormula("2PbCO3·Pb(OH)2")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s, %.2f g/mol\n", f.Sum(), float64(f.MolarMass().Low))
	shares, err := f.Composition()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range shares {
		fmt.Printf("%-8s %5.2f %%\n", s.Name, 100*float64(s.Mass))
	}
	// Output:
	// C2H2O8Pb3, 775.63 g/mol
	// lead     80.14 %
	// carbon    3.10 %
	// oxygen   16.50 %
	// hydrogen  0.26 %
}

func ExampleParseReaction() {
	_, err := chemistry.ParseReaction("Pb(NO3)2 + K2CrO4 -> PbCrO4 + KNO3")
	fmt.Println(err)
	// Output: the reaction is not balanced: K 2 left, 1 right; N 2 left, 1 right; O 10 left, 7 right
}

func ExampleTheory_Judge() {
	// A weighing of an invented precipitation: what could form, and what the jar
	// holds if it weighs more.
	r, err := chemistry.ParseReaction("3 K4[Fe(CN)6]·3H2O + 4 FeCl3·6H2O -> Fe4[Fe(CN)6]3 + 12 KCl + 33 H2O")
	if err != nil {
		fmt.Println(err)
		return
	}
	theory, err := r.Theory([]chemistry.Weighed{
		{Substance: "K4[Fe(CN)6]·3H2O", Mass: 10, Purity: 1},
		{Substance: "FeCl3·6H2O", Mass: 10, Purity: 1},
	}, "Fe4[Fe(CN)6]3", chemistry.Span[quantity.Ratio]{Low: 0, High: 16}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s runs out first; theory %.2f to %.2f g\n", theory.Limiting, float64(theory.Mass.Low), float64(theory.Mass.High))
	f, err := theory.Judge(10)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Verdict)
	fmt.Printf("product %.0f to %.0f %% of the jar\n", 100*float64(f.Product.Low), 100*float64(f.Product.High))
	// Output:
	// K4[Fe(CN)6]·3H2O runs out first; theory 6.78 to 9.06 g
	// more than theory: the difference is water or salts
	// product 68 to 91 % of the jar
}

func ExampleSaltsLeft() {
	// Three rinses of 80 ml beside one of 240 ml, 20 ml staying behind each time.
	three, err := chemistry.SaltsLeft(3, 80, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	one, err := chemistry.SaltsLeft(1, 240, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% and %.1f %%\n", 100*float64(three), 100*float64(one))
	// Output: 0.8 % and 7.7 %
}
