package ask

import (
	"math"
	"strings"
	"testing"

	"mullwright/formulate"
)

func TestParseRecipeAmounts(t *testing.T) {
	tests := []struct {
		text string
		want float64
		half float64
		unit string
		rest string
	}{
		{"50 g ultramarine blue", 50, 0.5, "g", "ultramarine blue"},
		{"50g ultramarine blue", 50, 0.5, "g", "ultramarine blue"},
		{"12.5 g chalk", 12.5, 0.05, "g", "chalk"},
		{"12,5 g chalk", 12.5, 0.05, "g", "chalk"},
		{"½ tsp oil", 0.5, 0.25, "tsp", "oil"},
		{"1½ tbsp oil", 1.5, 0.25, "tbsp", "oil"},
		{"1 ½ tbsp oil", 1.5, 0.25, "tbsp", "oil"},
		{"1/2 tsp oil", 0.5, 0.25, "tsp", "oil"},
		{"1 1/2 tsp oil", 1.5, 0.25, "tsp", "oil"},
		{"3/4 Teaspoon oil", 0.75, 0.125, "tsp", "oil"},
		{"2 level tablespoons oil", 2, 0.5, "tbsp", "oil"},
		{"6 fl oz US water", 6, 0.5, "fl oz US", "water"},
		{"6 fl oz imp water", 6, 0.5, "fl oz imp", "water"},
		{"1 pint imp water", 1, 0.5, "pint imp", "water"},
		{"3 oz. gum arabic", 3, 0.5, "oz", "gum arabic"},
		{"20 drops clove oil", 20, 0.5, "drops", "clove oil"},
		{"2 parts zinc white", 2, 0.5, "parts", "zinc white"},
		{"1 part lithopone", 1, 0.5, "parts", "lithopone"},
		{"100 ML water", 100, 0.5, "ml", "water"},
		{"1 l linseed oil", 1, 0.5, "l", "linseed oil"},
		{"3 Ounces gum", 3, 0.5, "oz", "gum"},
		{"2 pounds chalk", 2, 0.5, "lb", "chalk"},
		{"6 fluid ounces imp. water", 6, 0.5, "fl oz imp", "water"},
		{"6 fl. oz. U.S. water", 6, 0.5, "fl oz US", "water"},
		{"2 pints imperial water", 2, 0.5, "pint imp", "water"},
		{"2 drams gum arabic", 2, 0.5, "dram avdp", "gum arabic"},
		{"1 dram ap gum arabic", 1, 0.5, "dram ap", "gum arabic"},
		{"3 fluid drachms imp glycerine", 3, 0.5, "fl dram imp", "glycerine"},
	}
	for _, tt := range tests {
		a, rest, err := new(Recipe).amount(3, tt.text)
		if err != nil {
			t.Errorf("amount(%q): %v", tt.text, err)
			continue
		}
		if math.Abs(a.Value-tt.want) > 1e-12 || math.Abs(a.Half-tt.half) > 1e-12 || a.Unit != tt.unit || rest != tt.rest || a.Line != 3 {
			t.Errorf("amount(%q) = %v ± %v %q, rest %q; want %v ± %v %q, rest %q", tt.text, a.Value, a.Half, a.Unit, rest, tt.want, tt.half, tt.unit, tt.rest)
		}
	}
}

func TestParseRecipeFaults(t *testing.T) {
	tests := []struct{ text, says string }{
		{"", "no line has an amount and a material"},
		{"# only a remark", "no line has an amount"},
		{"a pinch of chalk", "r:1: \"a pinch of chalk\" does not begin with an amount"},
		{"2 pinch chalk", "a pinch is not a measure"},
		{"2 heaped tsp chalk", "level it"},
		{"2 cups water", "cups differ"},
		{"2 fl oz water", "fl oz US (29.6 ml) or fl oz imp"},
		{"2 pints water", "pint US (473 ml) or pint imp"},
		{"5 gr chalk", "grams or grains"},
		{"5 Mg chalk", "write mg"},
		{"50 ultramarine blue", "\"ultramarine\" is not a unit"},
		{"50", "the unit is missing"},
		{"50 g", "the material is missing"},
		{"50 g,", "the material is missing"},
		{"3 oz gum arabic, 6 fl oz water", "a fl oz is of two sizes: write fl oz US (29.6 ml) or fl oz imp (28.4 ml), or for the whole recipe a line measures US"},
		{"2 fluid drams water", "fl dram US (3.70 ml)"},
		{"1 drachm gum", "dram ap (3.89 g)"},
		{"measures metric\n2 g gum", "r:1: \"measures metric\": accepted: measures US, measures imp"},
		{"measures US\nmeasures imp\n2 g gum", "not both"},
		{"5 g chalk, 2 heaped spoons oil", "level it"},
		{"5 g chalk, 3 g", "the material is missing"},
		{"-5 g chalk", "not negative"},
		{"0 g chalk", "above nothing"},
		{"1,250 g chalk", "the comma is ambiguous"},
		{"1e9 g chalk", "is not a unit"},
		{"99999999 kg chalk", "below ten million"},
		{"2 % beeswax", "write it as says 2 % beeswax"},
		{"2 parts by volume chalk", "on a line of its own"},
		{"parts by feel", "accepted: parts by mass, parts by volume"},
		{"parts by mass\nparts by volume", "r:2: parts are by mass or by volume"},
		{"part = 3 drops\n1 part chalk", "want a mass or a volume"},
		{"part = 3 g\npart = 4 g", "r:2: what a part is was said already"},
		{"recipe a\nrecipe b", "one recipe to a file"},
		{"says beeswax", "does not begin with an amount"},
		{"says 2 beeswax", "want a percentage"},
		{"says 0 % beeswax", "above 0"},
		{"says 2 %", "is missing"},
		{"says 2 % beeswax by eye", "accepted: by mass, by volume"},
		{"makes 3 parts", "want a mass or a volume alone"},
		{"makes 3 g paste", "want a mass or a volume alone"},
		{"5 g chalk, bulk 0.6", "the unit is missing"},
		{"5 g chalk, 100 % water", "less water than all"},
		{"5 g chalk\nx\ny", "r:3:"},
		{strings.Repeat("1 g chalk\n", 30), "too many"},
		{strings.Repeat("\n", 500), "no recipe"},
		{"5 g chalk\xff", "UTF-8"},
	}
	for _, tt := range tests {
		_, err := ParseRecipe("r", tt.text)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%.40q: error %v, want one that says %q", tt.text, err, tt.says)
		}
	}
}

const goodRecipe = `recipe Bench blue
# invented
- 100 g   ultramarine blue
* 2 tsp chalk, bulk 0.6 g/ml
• 3 tbsp of linseed oil   # cold pressed
20 drops oil of turpentine, drop 30 mg
10 g yellow ochre, 12 % water
5 ml beeswax, solid
2 parts zinc white
part = 10 g
says 2 % beeswax of the paste by mass
says 16 % oil of turpentine
says 45 % PVC
makes 120 ml
`

// Several materials on one line are parted at commas, semicolons and "and", with
// their traits; names, decimal commas and remarks keep theirs.
func TestRecipeOnOneLine(t *testing.T) {
	for text, want := range map[string]string{
		"3 oz gum arabic, 6 fl oz water, 1½ fl oz glycerine":            "3 oz of gum arabic\n6 fl oz imp of water\n1½ fl oz imp of glycerine\n",
		"3 oz gum arabic,6 fl oz water and 1½ fl oz glycerine":          "3 oz of gum arabic\n6 fl oz imp of water\n1½ fl oz imp of glycerine\n",
		"5 g chalk; 3 ml linseed oil, and 2 drops clove oil, drop 33mg": "5 g of chalk\n3 ml of linseed oil\n2 drops of clove oil, drop 0.033 g\n",
		"12,5 g chalk, 10 % water, 3,5 g linseed oil":                   "12,5 g of chalk, 10% water\n3,5 g of linseed oil\n",
		"chalk 5 g, linseed oil 3,5 g":                                  "5 g of chalk\n3,5 g of linseed oil\n",
		"2 pints water, 1 gallon imp linseed oil":                       "2 pint imp of water\n1 gal imp of linseed oil\n",
		"5 g ochre, yellow, bulk 0.6 g/ml":                              "5 g of ochre, yellow, bulk 0.6 g/ml\n",
		"2 g sand and stone, 3 g brandy":                                "2 g of sand and stone\n3 g of brandy\n",
	} {
		r, err := ParseRecipe("r", text+"\nMeasures imp.\n")
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got := r.String(); got != want {
			t.Errorf("%q read as %q, want %q", text, got, want)
		}
	}
}

// Old measures weigh what they are said to: NIST Handbook 44, appendix C.
func TestOldMeasures(t *testing.T) {
	for unit, want := range map[string]float64{"dram avdp": 1.7718452, "dram ap": 3.8879346, "fl dram US": 3.6966912, "fl dram imp": 3.5516328, "pint imp": 568.26125, "lb": 453.59237} {
		if got := recipeUnits[unit].factor; math.Abs(got-want) > 1e-7*want {
			t.Errorf("%s is %.8g, want %.8g", unit, got, want)
		}
	}
}

func TestParseRecipe(t *testing.T) {
	r, err := ParseRecipe("bench.txt", goodRecipe)
	if err != nil {
		t.Fatal(err)
	}
	if r.Name != "Bench blue" || len(r.Items) != 7 || len(r.Says) != 3 || len(r.Makes) != 1 || r.Part == nil {
		t.Fatalf("read %+v", r)
	}
	if s := r.Says[0]; s.Subject != "beeswax" || s.Of != "paste" || s.By != "mass" || s.Line != 11 {
		t.Errorf("saying %+v", s)
	}
	if s := r.Says[1]; s.Subject != "oil of turpentine" || s.Of != "" {
		t.Errorf("a name with of in it: %+v", s)
	}
	if it := r.Items[1]; it.Bulk != 0.6 || it.Material != "chalk" {
		t.Errorf("spooned powder %+v", it)
	}
	if it := r.Items[4]; math.Abs(float64(it.Water)-0.12) > 1e-12 {
		t.Errorf("damp powder %+v", it)
	}
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	req, err := r.Request(w, formulate.Sampling{Exact: true})
	if err != nil {
		t.Fatal(err)
	}
	res, err := formulate.TrueComposition(req)
	if err != nil {
		t.Fatal(err)
	}
	want := []float64{100, 10 * 0.6, 0, 20 * 0.03, 10, 0, 20}
	for i, g := range want {
		if g > 0 && math.Abs(float64(res.Entries[i].Mass.Typical)-g) > 1e-9 {
			t.Errorf("line %d weighs %v g, want %v", i, res.Entries[i].Mass.Typical, g)
		}
	}
}

// The amount may stand behind, a heading names the recipe.
func TestParseRecipeOtherOrder(t *testing.T) {
	r, err := ParseRecipe("r", "My blue:\nultramarine blue 50 g\nlinseed oil: 1½ tbsp\nfor the tube:\nChalk – 12,5 g, 10 % water")
	if err != nil {
		t.Fatal(err)
	}
	if r.Name != "My blue" || len(r.Items) != 3 {
		t.Fatalf("read %+v", r)
	}
	for i, want := range []RecipeItem{
		{RecipeAmount: RecipeAmount{2, "50 g", 50, 0.5, "g"}, Material: "ultramarine blue"},
		{RecipeAmount: RecipeAmount{3, "1½ tbsp", 1.5, 0.25, "tbsp"}, Material: "linseed oil"},
		{RecipeAmount: RecipeAmount{5, "12,5 g", 12.5, 0.05, "g"}, Material: "Chalk", Water: 0.1},
	} {
		if r.Items[i] != want {
			t.Errorf("item %+v, want %+v", r.Items[i], want)
		}
	}
}

// A comma in a name belongs to the name.
func TestParseRecipeCommaInName(t *testing.T) {
	r, err := ParseRecipe("r", "5 ml Damar varnish, 5-lb cut")
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Items[0].Material; got != "Damar varnish, 5-lb cut" {
		t.Errorf("material %q", got)
	}
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	req, err := r.Request(w, formulate.Sampling{Exact: true})
	if err != nil {
		t.Fatal(err)
	}
	if parts := len(req.Lines[0].Of.Parts); parts != 2 {
		t.Errorf("varnish of %d parts, want resin and solvent", parts)
	}
}

func TestRecipeRequestFaults(t *testing.T) {
	w, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct{ text, says string }{
		{"5 g chalc\n5 g linsead oil", "r:1: no pigment and no medium is called \"chalc\"; closest: chalk"},
		{"5 g chalc\n5 g linsead oil", "r:2: no pigment and no medium is called \"linsead oil\"; closest:"},
		{"2 tsp beeswax", "no bulk density is known"},
		{"5 g ultramarine blue, bulk 0.6 g/ml", "the amount is not a volume"},
		{"5 g linseed oil, drop 30 mg", "the amount is not in drops"},
		{"5 g linseed oil, 5 % water", "not a powder"},
		{"5 drops chalk", "does not come in drops"},
		{"5 ml chalk, bulk 0.6 g/ml, solid", "cannot be solid too"},
		{"2 parts chalk\n3 g linseed oil", "say what a part is"},
		{"parts by volume\npart = 3 g\n2 parts linseed oil", "parts are by volume, but a part is 3 g"},
		{"2 parts chalk\nmakes 3 g", "a yield means nothing"},
		{"5 g oil", "may be any of several; say which, as in linseed oil"},
		{"5 g linseed oil\nsays 2 % chalk", "no line of the recipe has chalk"},
		{"5 g linseed oil\nsays 2 % chalc", "r:2: no pigment and no medium"},
		{"5 g chalk\nsays 2 % PVC of the paste", "PVC is of the dry film"},
	}
	for _, tt := range tests {
		r, err := ParseRecipe("r", tt.text)
		if err != nil {
			t.Errorf("%q: %v", tt.text, err)
			continue
		}
		_, err = r.Request(w, formulate.Sampling{})
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%q: error %v, want one that says %q", tt.text, err, tt.says)
		}
	}
}

// A recipe that was read prints so that it reads back the same; nothing makes
// the reader fall over.
func FuzzParseRecipe(f *testing.F) {
	for _, seed := range []string{
		goodRecipe,
		"30 g beeswax\n980 ml linseed oil\nsays 2 % beeswax\n",
		"100 g lead white\n16 g linseed oil\nsays 16 % oil of the pigment\n",
		"parts by volume\n3½ parts ultramarine, bulk 0.611 g/ml\n1 part linseed oil\n",
		"3 oz gum arabic\n6 fl oz imp water\n1½ fl oz imp glycerine\n",
		"1 part stand oil\n1 part damar varnish\n5 parts turpentine\n",
		"5 gal US linseed oil\n100 lb lead white\nmakes 6½ gal US\n",
		"- 1 1/2 tsp oil, of sorts\r\n* ⅓ cup\r\n",
		"12,5 g chalk\n1,250 g chalk\n",
		"3 oz gum arabic, 6 fl oz water and 1½ fl oz glycerine\nmeasures imp\n",
		"2 drams gum; 1 dram ap alum, and 3 fluid drams US water",
		"says 1/3 % by mass of the by volume",
		"part = ½ l",
		"1tsp ,,a,b 1l",
		"My blue:\nultramarine blue 50 g\nlinseed oil: 1½ tbsp\nChalk – 12,5 g, 10 % water",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseRecipe("f", text)
		if err != nil {
			if err.Error() == "" {
				t.Fatal("an error that says nothing")
			}
			return
		}
		again, err := ParseRecipe("f", r.String())
		if err != nil {
			t.Fatalf("%q printed as %q: %v", text, r.String(), err)
		}
		if again.String() != r.String() {
			t.Fatalf("%q printed as %q, then as %q", text, r.String(), again.String())
		}
		for i := range r.Items {
			a, b := r.Items[i], again.Items[i]
			a.Line, b.Line = 0, 0
			if a != b {
				t.Fatalf("%q: item %+v came back as %+v", text, a, b)
			}
		}
	})
}
