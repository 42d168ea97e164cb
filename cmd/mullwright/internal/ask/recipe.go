package ask

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/shelf"
	"mullwright/formulate/strict"
)

// RecipeFormat is the whole specification of the recipe format, for help.
// In grammar (words in quotes are written, case does not matter):
//
//	recipe   = { [ "-" | "*" | "•" ] [ name | heading | items | parts | part | says | makes | measures ] [ "#" comment ] newline } .
//	name     = "recipe" text .
//	heading  = text ":" .                    The first is the name where none is given.
//	items    = item { ( "," | ";" | "and" ) item } .   "and" only before a measure.
//	item     = ( measure [ "of" ] material | material [ ":" ] measure ) { "," trait } .
//	measure  = amount [ "level" ] unit .
//	amount   = number | fraction | number fraction .
//	fraction = number "/" number | "½" | "⅓" | "⅔" | "¼" | "¾" | "⅛" | "⅜" | "⅝" | "⅞" .
//	trait    = "bulk" density | "drop" mass | number "%" "water" | "solid" | "liquid" .
//	parts    = "parts by" ( "mass" | "weight" | "volume" ) .
//	part     = [ "1" ] "part" "=" amount unit .
//	says     = "says" amount "%" subject [ "of" [ "the" ] whole ] [ "by" ( "mass" | "weight" | "volume" ) ] .
//	makes    = "makes" amount unit .
//	measures = "measures" ( "US" | "imp" ) .
//	whole    = "whole" | "paste" | "paint" | "pigment" | "powder" | "oil" | "binder" | "liquid" | "film" | "rest" .
//	subject  = material | "pigment" | "powder" | "oil" | "binder" | "wax" | "solvent" | "PVC" .
//
// A number has a point or, where it cannot be mistaken, a decimal comma. A
// material is any name of the catalogues; commas in it are kept, since a trait
// begins with a word of its own. Units are those of [RecipeUnits].
const RecipeFormat = `A recipe is a list of lines, each an amount, a unit and a material:

  recipe Waxed ultramarine         a name, if you like; or a line ending in :
  100 g  ultramarine blue          by mass: g kg mg oz lb, dram avdp, dram ap
  1½ tbsp linseed oil              by volume: ml cl l tsp tbsp, fl oz US,
                                   fl oz imp; fl dram, pint, gal as well
  measures imp                     US or imp, for fl oz, fl dram, pint and gal
                                   that do not say which
  3 oz gum, 6 oz water and 1 oz honey   all on one line, if you like
  2 tsp  chalk, bulk 0.6 g/ml      powder by the level spoon goes through its
                                   loose bulk density: yours, published, or
                                   estimated from the pigment's own
  20 drops clove oil, drop 33 mg   drops, and what one weighs if you know
  50 g   yellow ochre, 12 % water  a damp powder: water of the damp mass
  5 ml   beeswax, solid            a powder or wax by its true volume
  2 parts zinc white               parts, by mass unless the next line stands
  parts by volume                  (of loose powder, and of liquid)
  part = 10 g                      what a part is, where grams stand beside parts
  says 2 % beeswax                 what the recipe claims; it is held against
  says 16 % oil of the pigment     every basis. "of" paste, pigment, oil, liquid,
  says 45 % PVC                    film or rest; "by mass" or "by volume"
  makes 75 ml                      the yield it claims
  # a remark                       to the end of the line

Amounts: 12  12.5  12,5  1/2  1 1/2  ½  1½. The amount may stand behind the
material too. Materials go by any of their names. Spoons are level, of 5 ml and
15 ml.`

// measureSystems are the two sizes of fluid ounce, pint and gallon.
var measureSystems = []string{"US", "imp"}

// A Recipe is a recipe as written, before any material is looked up.
type Recipe struct {
	File    string
	Name    string
	Items   []RecipeItem
	PartsBy string        // "", "mass" or "volume"
	Part    *RecipeAmount // what a part is
	Says    []RecipeSaying
	Makes   []RecipeAmount

	measures string // "", "US" or "imp": what an unsaid fl oz, pint or gal is
}

// A RecipeAmount is a number and a unit of [RecipeUnits].
type RecipeAmount struct {
	Line    int
	Written string
	Value   float64
	Half    float64 // half a unit of the last digit as written
	Unit    string  // as in RecipeUnits
}

// A RecipeItem is one material with its amount.
type RecipeItem struct {
	RecipeAmount
	Material string
	Bulk     quantity.Density // 0: as published
	Drop     quantity.Mass    // 0: as published
	Water    quantity.MassFraction
	True     bool // by true volume: "solid" or "liquid"
}

// A RecipeSaying is a percentage that the recipe claims.
type RecipeSaying struct {
	Line    int
	Written string
	Percent float64
	Half    float64
	Subject string
	Of, By  string // "" where it is not said
}

// unitSort is what a unit measures.
type unitSort uint8

const (
	byMass unitSort = iota
	byVolume
	bySpoon
	byPartCount
	byDropCount
)

type recipeUnit struct {
	sort   unitSort
	factor float64 // g or ml
}

var recipeUnits = map[string]recipeUnit{
	"g": {byMass, 1}, "kg": {byMass, 1000}, "mg": {byMass, 0.001}, "oz": {byMass, quantity.GramsPerOunce}, "lb": {byMass, quantity.GramsPerPound},
	"dram avdp": {byMass, quantity.GramsPerOunce / 16}, "dram ap": {byMass, gramsPerApothecariesDram},
	"ml": {byVolume, 1}, "cl": {byVolume, 10}, "l": {byVolume, 1000}, "cm³": {byVolume, 1},
	"fl oz US": {byVolume, quantity.MlPerUSFlOz}, "fl oz imp": {byVolume, quantity.MlPerImpFlOz},
	"fl dram US": {byVolume, quantity.MlPerUSFlOz / 8}, "fl dram imp": {byVolume, quantity.MlPerImpFlOz / 8},
	"pint US": {byVolume, 16 * quantity.MlPerUSFlOz}, "pint imp": {byVolume, 20 * quantity.MlPerImpFlOz},
	"gal US": {byVolume, 128 * quantity.MlPerUSFlOz}, "gal imp": {byVolume, 160 * quantity.MlPerImpFlOz},
	"tsp": {bySpoon, quantity.MlPerTeaspoon}, "tbsp": {bySpoon, quantity.MlPerTablespoon},
	"parts": {byPartCount, 1}, "drops": {byDropCount, 1},
}

// gramsPerApothecariesDram is the druggists' dram of 60 grains (NIST Handbook 44,
// appendix C), which old recipes also write drachm.
const gramsPerApothecariesDram = 3.8879346

// unitWords are the ways people write the units, in lower case.
var unitWords = map[string]string{
	"g": "g", "gr": "", "gram": "g", "grams": "g", "gramme": "g", "grammes": "g", "kg": "kg", "kilo": "kg", "kilos": "kg", "mg": "mg",
	"oz": "oz", "ounce": "oz", "ounces": "oz", "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb",
	"dram avdp": "dram avdp", "drams avdp": "dram avdp", "dram": "dram avdp", "drams": "dram avdp", "dram ap": "dram ap", "drams ap": "dram ap",
	"fl dram us": "fl dram US", "fl dram imp": "fl dram imp",
	"ml": "ml", "millilitre": "ml", "millilitres": "ml", "milliliter": "ml", "milliliters": "ml", "cc": "cm³", "cm3": "cm³", "cm³": "cm³", "ccm": "cm³",
	"cl": "cl", "l": "l", "litre": "l", "litres": "l", "liter": "l", "liters": "l",
	"fl oz us": "fl oz US", "fl oz imp": "fl oz imp", "pint us": "pint US", "pint imp": "pint imp", "gal us": "gal US", "gal imp": "gal imp",
	"tsp": "tsp", "tsps": "tsp", "teaspoon": "tsp", "teaspoons": "tsp", "teaspoonful": "tsp", "teaspoonfuls": "tsp",
	"tbsp": "tbsp", "tbsps": "tbsp", "tablespoon": "tbsp", "tablespoons": "tbsp", "tablespoonful": "tbsp", "tablespoonfuls": "tbsp",
	"part": "parts", "parts": "parts", "drop": "drops", "drops": "drops",
}

// notUnits are words people write that measure nothing, with what to write.
var notUnits = map[string]string{
	"gr":      `"gr" may be grams or grains; write g`,
	"grain":   "a grain is 0.0648 g; give grams",
	"grains":  "a grain is 0.0648 g; give grams",
	"drachm":  "a drachm may be of the druggists, dram ap (3.89 g), or avoirdupois, dram avdp (1.77 g); write which",
	"drachms": "a drachm may be of the druggists, dram ap (3.89 g), or avoirdupois, dram avdp (1.77 g); write which",
	"fl":      "after fl comes oz or dram",
	"fl oz":   twoSizes("fl oz", "29.6 ml", "28.4 ml"),
	"fl dram": twoSizes("fl dram", "3.70 ml", "3.55 ml"),
	"pint":    twoSizes("pint", "473 ml", "568 ml"),
	"gal":     twoSizes("gal", "3.79 l", "4.55 l"),
	"cup":     "cups differ from country to country; give ml",
	"cups":    "cups differ from country to country; give ml",
	"spoon":   "say tsp (5 ml) or tbsp (15 ml)",
	"spoons":  "say tsp (5 ml) or tbsp (15 ml)",
	"pinch":   "a pinch is not a measure; weigh it",
	"heaped":  "a heaped spoon is not a measure; level it",
	"%":       "a percentage is what a recipe says, not an amount: write it as says 2 % beeswax",
}

// twoSizes says what to write for a unit of two sizes.
func twoSizes(unit, us, imp string) string {
	return fmt.Sprintf("a %s is of two sizes: write %s US (%s) or %s imp (%s), or for the whole recipe a line measures US or measures imp", unit, unit, us, unit, imp)
}

// otherWords are ways to write the units of two sizes, in lower case.
var otherWords = strings.NewReplacer("fluid ounces", "fl oz", "fluid ounce", "fl oz", "fl ounces", "fl oz", "fl ounce", "fl oz", "fluid oz", "fl oz", "floz", "fl oz",
	"fluid drams", "fl dram", "fluid dram", "fl dram", "fl drams", "fl dram", "fl drachms", "fl dram", "fl drachm", "fl dram", "fluid drachms", "fl dram", "fluid drachm", "fl dram",
	"pints", "pint", "gallons", "gal", "gallon", "gal", "imperial", "imp", "u.s", "us", "fl. ", "fl ", "oz. ", "oz ")

// RecipeUnits lists the units of the recipe format.
func RecipeUnits() string {
	return "g, kg, mg, oz, lb, dram avdp, dram ap, ml, cl, l, fl oz US, fl oz imp, fl dram US, fl dram imp, pint US, pint imp, gal US, gal imp, tsp, tbsp, parts, drops"
}

const (
	maxRecipeLines = 400
	maxRecipeItems = 20
)

// ParseRecipe reads a recipe. Every line at fault is reported.
func ParseRecipe(file, text string) (*Recipe, error) {
	r := &Recipe{File: file}
	var faults strict.Faults
	fault := func(line int, err error) {
		faults = append(faults, strict.Fault{File: file, Line: line, What: err.Error()})
	}
	if !utf8.ValidString(text) {
		fault(0, errors.New("it is not text in UTF-8"))
		return nil, faults
	}
	lines := strings.Split(strings.ReplaceAll(text, "\r", "\n"), "\n")
	if strings.Contains(text, "\r\n") {
		lines = strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	}
	if len(lines) > maxRecipeLines {
		fault(maxRecipeLines, fmt.Errorf("more than %d lines are no recipe", maxRecipeLines))
		return nil, faults
	}
	for i := range lines {
		lines[i] = bareLine(lines[i])
		if err := r.setMeasures(lines[i]); err != nil {
			fault(i+1, err)
		}
	}
	for i, line := range lines {
		if line == "" || isMeasures(line) {
			continue
		}
		if err := r.line(i+1, line); err != nil {
			fault(i+1, err)
		}
	}
	switch {
	case len(r.Items) == 0 && len(faults) == 0:
		fault(0, errors.New("no line has an amount and a material, such as 50 g ultramarine blue"))
	case len(r.Items) > maxRecipeItems:
		fault(r.Items[maxRecipeItems].Line, fmt.Errorf("more than %d materials are too many for one recipe", maxRecipeItems))
	}
	if len(faults) > 0 {
		return nil, faults
	}
	return r, nil
}

// bareLine is a line without its remark and its bullet.
func bareLine(line string) string {
	line, _, _ = strings.Cut(line, "#")
	line = strings.Join(strings.Fields(line), " ")
	for _, bullet := range []string{"- ", "* ", "• ", "•"} {
		line = strings.TrimSpace(strings.TrimPrefix(line, bullet))
	}
	return line
}

func isMeasures(line string) bool {
	_, ok := cutWord(line, "measures")
	return ok
}

// setMeasures reads "measures US", which holds for the whole recipe.
func (r *Recipe) setMeasures(line string) error {
	system, ok := cutWord(line, "measures")
	if !ok {
		return nil
	}
	for _, s := range measureSystems {
		if !strings.EqualFold(strings.TrimRight(system, "."), s) {
			continue
		}
		if r.measures != "" && r.measures != s {
			return errors.New("measures are US or imp for the whole recipe, not both")
		}
		r.measures = s
		return nil
	}
	return fmt.Errorf("%q: accepted: measures US, measures imp", line)
}

func (r *Recipe) line(n int, text string) error {
	word, rest, _ := strings.Cut(text, " ")
	switch strings.ToLower(word) {
	case "recipe":
		if r.Name != "" {
			return fmt.Errorf("the recipe is called %q already; one recipe to a file", r.Name)
		}
		r.Name = rest
		return nil
	case "says":
		return r.says(n, rest)
	case "makes":
		a, after, err := r.amount(n, rest)
		if err != nil {
			return err
		}
		if u := recipeUnits[a.Unit].sort; after != "" || u == byPartCount || u == byDropCount {
			return fmt.Errorf("%q: want a mass or a volume alone, as in makes 75 ml", rest)
		}
		r.Makes = append(r.Makes, a)
		return nil
	case "parts":
		by, ok := strings.CutPrefix(strings.ToLower(rest), "by ")
		if by == "weight" {
			by = "mass"
		}
		if !ok || by != "mass" && by != "volume" {
			return fmt.Errorf("%q: accepted: parts by mass, parts by volume", text)
		}
		if r.PartsBy != "" && r.PartsBy != by {
			return errors.New("parts are by mass or by volume for the whole recipe, not both")
		}
		r.PartsBy = by
		return nil
	}
	if heading, ok := strings.CutSuffix(text, ":"); ok {
		if r.Name == "" {
			r.Name = strings.TrimSpace(heading)
		}
		return nil
	}
	if p, ok := strings.CutPrefix(strings.ToLower(text), "1 "); ok && strings.HasPrefix(p, "part =") || strings.HasPrefix(strings.ToLower(text), "part =") {
		return r.part(n, text)
	}
	return r.items(n, text)
}

// part reads "part = 10 g".
func (r *Recipe) part(n int, text string) error {
	_, rest, _ := strings.Cut(text, "=")
	a, after, err := r.amount(n, strings.TrimSpace(rest))
	if err != nil {
		return err
	}
	if u := recipeUnits[a.Unit].sort; after != "" || u == byPartCount || u == byDropCount {
		return fmt.Errorf("%q: want a mass or a volume, as in part = 10 g", text)
	}
	if r.Part != nil {
		return errors.New("what a part is was said already")
	}
	r.Part = &a
	return nil
}

// segmentsOf parts a line at commas, semicolons and at "and" before an amount. A
// decimal comma parts nothing.
func (r *Recipe) segmentsOf(n int, text string) []string {
	var out []string
	for _, half := range strings.Split(text, ";") {
		first := len(out)
		for _, s := range strings.Split(half, ",") {
			if k := len(out); k > first && endsInDigit(out[k-1]) && startsWithDigit(s) {
				out[k-1] += "," + s
				continue
			}
			out = append(out, s)
		}
	}
	var parted []string
	for _, s := range out {
		for from := 0; ; {
			i := strings.Index(strings.ToLower(s[from:]), "and ")
			if i < 0 {
				break
			}
			i += from
			from = i + len("and ")
			if _, _, err := r.amount(n, s[from:]); err == nil && (i == 0 || s[i-1] == ' ') {
				parted = append(parted, s[:i])
				s, from = s[from:], 0
			}
		}
		parted = append(parted, s)
	}
	return parted
}

// items reads the materials of a line: most hold one.
func (r *Recipe) items(n int, text string) error {
	segments := r.segmentsOf(n, text)
	for len(segments) > 0 {
		end := 1
		for end < len(segments) && !r.begins(n, segments[end]) {
			end++
		}
		if err := r.item(n, text, segments[:end]); err != nil {
			return err
		}
		segments = segments[end:]
	}
	return nil
}

// begins reports whether a segment begins another material, with its amount or
// before it. What is wrong with that is said where it is read.
func (r *Recipe) begins(n int, segment string) bool {
	segment = strings.TrimSpace(segment)
	if trait, _ := new(RecipeItem).trait(segment); trait {
		return false
	}
	if _, _, _, err := recipeNumber(segment); err != nil {
		_, name, err := r.amountAndName(n, segment)
		return err == nil && name != ""
	}
	_, _, err := r.amount(n, segment)
	return err == nil || hasWords(segment)
}

// hasWords reports whether a text has a unit and a name behind its number.
func hasWords(text string) bool { return len(strings.Fields(text)) > 2 }

// item reads an amount, a unit, a material and its traits.
func (r *Recipe) item(n int, text string, segments []string) error {
	a, name, err := r.amountAndName(n, strings.TrimSpace(segments[0]))
	if err != nil {
		return err
	}
	it := RecipeItem{RecipeAmount: a, Material: name}
	for _, s := range segments[1:] {
		if s = strings.TrimSpace(s); s == "" {
			continue
		}
		isTrait, err := it.trait(s)
		if err != nil {
			return err
		}
		if isTrait {
			continue
		}
		if it.Material == "" {
			it.Material = s
		} else {
			it.Material += ", " + s
		}
	}
	if it.Material == "" {
		return fmt.Errorf("%q: the material is missing after the amount", text)
	}
	if strings.HasPrefix(strings.ToLower(it.Material), "by ") {
		return fmt.Errorf("%q: what parts are counted by stands on a line of its own, as in parts by volume", text)
	}
	r.Items = append(r.Items, it)
	return nil
}

// amountAndName reads "50 g ultramarine", "50 g of ultramarine", "ultramarine
// 50 g" or "ultramarine: 50 g".
func (r *Recipe) amountAndName(n int, text string) (RecipeAmount, string, error) {
	a, rest, err := r.amount(n, text)
	if err == nil {
		if of, ok := cutWord(rest, "of"); ok {
			rest = of
		}
		return a, rest, nil
	}
	words := strings.Fields(text)
	for k := min(6, len(words)-1); k > 0; k-- {
		behind, after, aerr := r.amount(n, strings.Join(words[len(words)-k:], " "))
		if aerr == nil && after == "" {
			name := strings.Join(words[:len(words)-k], " ")
			return behind, strings.TrimRight(name, ":–- "), nil
		}
	}
	return a, "", err
}

func startsWithDigit(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }
func endsInDigit(s string) bool     { return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9' }

// trait reads what follows a comma; false where it belongs to the name.
func (it *RecipeItem) trait(text string) (bool, error) {
	lower := strings.ToLower(text)
	if lower == "solid" || lower == "liquid" {
		it.True = true
		return true, nil
	}
	if rest, ok := cutWord(text, "bulk"); ok {
		return true, it.Bulk.Set(rest)
	}
	if rest, ok := cutWord(text, "drop"); ok {
		return true, it.Drop.Set(rest)
	}
	if share, ok := strings.CutSuffix(lower, "water"); ok && strings.Contains(share, "%") {
		if err := it.Water.Set(strings.TrimSpace(share)); err != nil {
			return true, err
		}
		if it.Water >= 1 {
			return true, fmt.Errorf("%q: a powder holds less water than all of its damp mass", text)
		}
		return true, nil
	}
	return false, nil
}

// cutWord cuts a leading word, whatever its case.
func cutWord(text, word string) (string, bool) {
	if len(text) > len(word) && strings.EqualFold(text[:len(word)], word) && text[len(word)] == ' ' {
		return strings.TrimSpace(text[len(word):]), true
	}
	return text, false
}

// vulgar are the fractions people have on their keyboard.
var vulgar = map[rune]struct{ top, bottom float64 }{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

// amount reads a number and a unit and returns what follows.
func (r *Recipe) amount(n int, text string) (RecipeAmount, string, error) {
	a := RecipeAmount{Line: n}
	value, half, rest, err := recipeNumber(text)
	if err != nil {
		return a, "", err
	}
	a.Value, a.Half = value, half
	written := strings.TrimSpace(text[:len(text)-len(rest)])
	rest = strings.TrimSpace(rest)
	if level, ok := cutWord(rest, "level"); ok {
		rest = level
	}
	words := strings.Fields(rest)
	for k := min(3, len(words)); k > 0; k-- {
		name := strings.Join(words[:k], " ")
		if name == "Mg" || name == "MG" {
			return a, "", fmt.Errorf("%q: write mg for milligrams", name)
		}
		unit := r.unit(name)
		if unit == "" {
			continue
		}
		a.Unit = unit
		if unit == "parts" || unit == "drops" {
			if a.Value <= 1 {
				unit = strings.TrimSuffix(unit, "s")
			}
		}
		a.Written = written + " " + unit
		if k < len(words) {
			rest = strings.Join(words[k:], " ")
		} else {
			rest = ""
		}
		return a, rest, a.check()
	}
	for k := min(2, len(words)); k > 0; k-- {
		if why, ok := notUnits[unitWord(strings.Join(words[:k], " "))]; ok {
			return a, "", errors.New(why)
		}
	}
	if len(words) == 0 {
		return a, "", fmt.Errorf("%q: the unit is missing; accepted: %s", text, RecipeUnits())
	}
	return a, "", fmt.Errorf("%q is not a unit; accepted: %s", words[0], RecipeUnits())
}

// unitWord is a unit as unitWords and notUnits have it.
func unitWord(name string) string {
	return strings.TrimRight(otherWords.Replace(strings.ToLower(name)), ".,")
}

// unit is the unit of a name, "" for none; one of two sizes goes by the recipe's
// measures.
func (r *Recipe) unit(name string) string {
	word := unitWord(name)
	if u, ok := unitWords[word]; ok {
		return u
	}
	if r.measures == "" {
		return ""
	}
	return unitWords[word+" "+strings.ToLower(r.measures)]
}

// check refuses amounts that nobody weighs.
func (a *RecipeAmount) check() error {
	u := recipeUnits[a.Unit]
	if v := a.Value * u.factor; !(v >= 1e-6 && v <= 1e7) {
		return fmt.Errorf("%q: an amount is above nothing and below ten million", a.Written)
	}
	return nil
}

// recipeNumber reads 12, 12.5, 12,5, 1/2, 1 1/2, ½, 1½. half is half a unit of
// the last digit.
func recipeNumber(text string) (value, half float64, rest string, err error) {
	end := strings.IndexFunc(text, func(c rune) bool { return (c < '0' || c > '9') && c != '.' && c != ',' })
	if end < 0 {
		end = len(text)
	}
	// A comma or a point at the end is punctuation.
	whole := strings.TrimRight(text[:end], ".,")
	rest = text[len(whole):]
	if whole != "" {
		v, reason := quantity.Number(whole)
		if reason != "" {
			return 0, 0, "", fmt.Errorf("%q: %s", whole, reason)
		}
		value, half = v, 0.5
		if i := strings.IndexAny(whole, ".,"); i >= 0 {
			for range whole[i+1:] {
				half /= 10
			}
		}
		if bottom, after, ok := denominator(rest); ok {
			return value / bottom, 0.5 / bottom, after, nil
		}
	}
	tail := strings.TrimSpace(rest)
	if c, size := utf8.DecodeRuneInString(tail); size > 0 {
		if f, ok := vulgar[c]; ok {
			return value + f.top/f.bottom, 0.5 / f.bottom, tail[size:], nil
		}
	}
	if whole != "" && strings.HasPrefix(rest, " ") {
		if top, after, ok := digits(tail); ok {
			if bottom, end, ok := denominator(after); ok {
				return value + top/bottom, 0.5 / bottom, end, nil
			}
		}
	}
	if whole == "" {
		if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "−") {
			return 0, 0, "", fmt.Errorf("%q: an amount is not negative", text)
		}
		return 0, 0, "", fmt.Errorf("%q does not begin with an amount; want amount, unit and material, as in 50 g ultramarine blue", text)
	}
	return value, half, rest, nil
}

// denominator reads "/2".
func denominator(text string) (float64, string, bool) {
	rest, ok := strings.CutPrefix(text, "/")
	if !ok {
		return 0, text, false
	}
	v, rest, ok := digits(rest)
	return v, rest, ok && v > 0
}

func digits(text string) (float64, string, bool) {
	end := 0
	for end < len(text) && text[end] >= '0' && text[end] <= '9' {
		end++
	}
	if end == 0 || end > 4 {
		return 0, text, false
	}
	v, err := strconv.ParseFloat(text[:end], 64)
	return v, text[end:], err == nil
}

// wholes are the words for what a percentage is of.
var wholes = map[string]formulate.Whole{
	"paste": formulate.OfPaste, "paint": formulate.OfPaste, "whole": formulate.OfPaste, "pigment": formulate.OfPowder, "powder": formulate.OfPowder,
	"oil": formulate.OfBinder, "binder": formulate.OfBinder, "liquid": formulate.OfLiquid, "film": formulate.OfFilm, "rest": formulate.OfRest,
}

// says reads "2 % beeswax of the paste by mass".
func (r *Recipe) says(n int, text string) error {
	value, half, rest, err := recipeNumber(text)
	if err != nil {
		return err
	}
	rest, ok := strings.CutPrefix(strings.TrimSpace(rest), "%")
	if !ok {
		return fmt.Errorf("%q: want a percentage and what it is of, as in says 2 %% beeswax", text)
	}
	if !(value > 0 && value <= 1000) {
		return fmt.Errorf("%q: a percentage is above 0 and up to 1000", text)
	}
	s := RecipeSaying{Line: n, Written: text, Percent: value, Half: half, Subject: strings.TrimSpace(rest)}
	if i := strings.LastIndex(strings.ToLower(s.Subject), " by "); i >= 0 {
		switch by := strings.ToLower(s.Subject[i+len(" by "):]); by {
		case "mass", "weight":
			s.By = "mass"
		case "volume":
			s.By = "volume"
		default:
			return fmt.Errorf("%q: accepted: by mass, by volume", "by "+by)
		}
		s.Subject = strings.TrimSpace(s.Subject[:i])
	}
	if i := strings.LastIndex(strings.ToLower(s.Subject), " of "); i >= 0 {
		of := strings.TrimPrefix(strings.ToLower(s.Subject[i+len(" of "):]), "the ")
		if _, ok := wholes[of]; ok {
			s.Of = of
			s.Subject = strings.TrimSpace(s.Subject[:i])
		}
	}
	if rest, ok := cutWord(s.Subject, "of"); ok {
		s.Subject = rest
	}
	if s.Subject == "" || strings.EqualFold(s.Subject, "of") {
		return fmt.Errorf("%q: of what the percentage speaks is missing, as in says 2 %% beeswax", text)
	}
	r.Says = append(r.Says, s)
	return nil
}

// String prints the recipe so that it reads back the same.
func (r *Recipe) String() string {
	var b strings.Builder
	if r.Name != "" {
		fmt.Fprintf(&b, "recipe %s\n", r.Name)
	}
	if r.PartsBy != "" {
		fmt.Fprintf(&b, "parts by %s\n", r.PartsBy)
	}
	if r.Part != nil {
		fmt.Fprintf(&b, "part = %s\n", r.Part.Written)
	}
	for _, it := range r.Items {
		fmt.Fprintf(&b, "%s of %s", it.Written, it.Material)
		if it.Bulk > 0 {
			fmt.Fprintf(&b, ", bulk %s", it.Bulk)
		}
		if it.Drop > 0 {
			fmt.Fprintf(&b, ", drop %s", it.Drop)
		}
		if it.Water > 0 {
			fmt.Fprintf(&b, ", %s water", it.Water)
		}
		if it.True {
			b.WriteString(", solid")
		}
		b.WriteByte('\n')
	}
	for _, s := range r.Says {
		fmt.Fprintf(&b, "says %s\n", s.Written)
	}
	for _, m := range r.Makes {
		fmt.Fprintf(&b, "makes %s\n", m.Written)
	}
	return b.String()
}

// ReadRecipe reads a recipe from a file, or from in where the name is "-".
func ReadRecipe(name string, in io.Reader) (*Recipe, error) {
	if name != "-" {
		text, err := ReadFile(name)
		if err != nil {
			return nil, err
		}
		return ParseRecipe(name, text)
	}
	b, err := io.ReadAll(io.LimitReader(in, maxFile+1))
	if err != nil {
		return nil, err
	}
	if len(b) > maxFile {
		return nil, errors.New("standard input is larger than a megabyte")
	}
	return ParseRecipe("standard input", string(b))
}

// Request looks every material up and turns the recipe into a request. Every
// line at fault is reported.
func (r *Recipe) Request(w *Workshop, s formulate.Sampling) (formulate.RecipeRequest, error) {
	req := formulate.RecipeRequest{Name: r.Name, Sampling: s}
	var faults strict.Faults
	fault := func(line int, err error) {
		if err != nil {
			faults = append(faults, strict.Fault{File: r.File, Line: line, What: err.Error()})
		}
	}
	size, relative, line, err := r.partSize()
	fault(line, err)
	req.Relative = relative
	lineOf := map[string][]int{}
	for _, it := range r.Items {
		l, err := it.request(w, size, r.PartsBy)
		if err != nil {
			fault(it.Line, err)
			continue
		}
		lineOf[l.Of.Material.ID] = append(lineOf[l.Of.Material.ID], len(req.Lines))
		req.Lines = append(req.Lines, l)
	}
	for _, x := range r.Says {
		s, err := x.request(w, lineOf)
		fault(x.Line, err)
		req.Says = append(req.Says, s)
	}
	for _, m := range r.Makes {
		u := recipeUnits[m.Unit]
		x := formulate.Making{Line: m.Line, Written: m.Written, Half: quantity.Ratio(m.Half / m.Value)}
		if u.sort == byMass {
			x.Mass = quantity.Mass(m.Value * u.factor)
		} else {
			x.Volume = quantity.Volume(m.Value * u.factor)
		}
		if relative {
			fault(m.Line, errors.New("a yield means nothing where all is in parts; say what a part is, as in part = 10 g"))
		}
		req.Makes = append(req.Makes, x)
	}
	return req, faults.Err()
}

// partSize is what one part is: grams or millilitres. relative says that only
// ratios are known.
func (r *Recipe) partSize() (size float64, relative bool, line int, err error) {
	parts, others := 0, 0
	for _, it := range r.Items {
		if recipeUnits[it.Unit].sort == byPartCount {
			parts++
			line = it.Line
		} else {
			others++
		}
	}
	if r.Part == nil {
		if parts > 0 && others > 0 {
			return 1, false, line, errors.New("parts stand beside weights or volumes; say what a part is, as in part = 10 g")
		}
		return 1, parts > 0, 0, nil
	}
	u := recipeUnits[r.Part.Unit]
	byMassPart := u.sort == byMass
	if r.PartsBy != "" && byMassPart != (r.PartsBy == "mass") {
		return 1, false, r.Part.Line, fmt.Errorf("parts are by %s, but a part is %s", r.PartsBy, r.Part.Written)
	}
	if !byMassPart {
		r.PartsBy = "volume"
	}
	return r.Part.Value * u.factor, false, 0, nil
}

// request turns one line into what it weighs.
func (it *RecipeItem) request(w *Workshop, partSize float64, partsBy string) (formulate.RecipeLine, error) {
	l := formulate.RecipeLine{Line: it.Line, Written: it.Written, Moisture: it.Water}
	var err error
	if l.Of, err = w.recipeMaterial(it.Material); err != nil {
		return l, err
	}
	m := l.Of.Material
	powder := m.Kind == material.Pigment || m.Kind == material.Extender
	u := recipeUnits[it.Unit]
	amount := it.Value * u.factor
	spoon := u.sort == bySpoon
	if u.sort == byPartCount {
		amount = it.Value * partSize
		u.sort = byMass
		if partsBy == "volume" {
			u.sort = byVolume
		}
	}
	switch {
	case it.Water > 0 && !powder:
		return l, fmt.Errorf("%s is not a powder of which water could be told apart", m.ID)
	case it.Drop > 0 && u.sort != byDropCount:
		return l, errors.New("what a drop weighs is told, but the amount is not in drops")
	case it.Bulk > 0 && (u.sort == byMass || u.sort == byDropCount):
		return l, errors.New("a bulk density is told, but the amount is not a volume")
	case it.Bulk > 0 && it.True:
		return l, errors.New("a bulk density is of loose powder; it cannot be solid too")
	}
	asLiquid := pourable(m)
	switch u.sort {
	case byMass:
		l.By, l.Mass = formulate.WeighedOut, quantity.Mass(amount)
		return l, nil
	case byDropCount:
		if !asLiquid {
			return l, fmt.Errorf("%s is no liquid, so it does not come in drops", m.ID)
		}
		l.By, l.Drops = formulate.DroppedOut, quantity.Ratio(it.Value)
		twenty := ""
		if it.Drop > 0 {
			twenty = (20 * it.Drop).String()
		}
		l.Drop, err = dropMass(m, twenty)
		return l, err
	}
	l.Volume = evidence.Distribution[quantity.Volume]{Median: quantity.Volume(amount)}
	if spoon {
		l.Volume.Sigma = formulate.SpoonSigma
	}
	switch {
	case it.True:
		l.By = formulate.SolidVolume
	case powder || it.Bulk > 0 || len(m.BulkDensity) > 0:
		l.By, l.Bulk = formulate.SpoonedOut, formulate.BulkOf(&l.Of.Parts[0].Ingredient, it.Bulk)
	case asLiquid:
		l.By = formulate.PouredOut
	default:
		return l, fmt.Errorf("%s: no bulk density is known, so a level measure of it cannot be weighed; give grams, or weigh a level spoon and add it as in \", bulk 0.6 g/ml\", or \", solid\" where the volume is that of the stuff itself", m.ID)
	}
	return l, nil
}

// pourable reports a material that comes as a liquid.
func pourable(m *material.Material) bool {
	switch m.Kind {
	case material.Oil, material.Solvent, material.Water, material.Medium, material.Drier, material.WettingAgent:
		return true
	case material.Humectant:
		return len(m.BulkDensity) == 0
	case material.Preservative:
		return len(m.FlashPoint)+len(m.Boiling)+len(m.Viscosity)+len(m.NonVolatile) > 0
	}
	return false
}

// recipeMaterial finds a material in either catalogue and makes it ready.
func (w *Workshop) recipeMaterial(name string) (formulate.Liquid, error) {
	in, err := w.Pigment(name)
	if err == nil {
		return formulate.NewLiquid(in.Material, []formulate.LiquidPart{formulate.NewLiquidPart(in, 1, nil)})
	}
	var noPigment, noMedium *shelf.UnknownError
	if !errors.As(err, &noPigment) {
		return formulate.Liquid{}, err
	}
	l, merr := w.Pour(name)
	if !errors.As(merr, &noMedium) {
		return l, merr
	}
	var near []string
	for _, list := range [][]shelf.Match{noPigment.Closest, noMedium.Closest} {
		for i, m := range list {
			if i < 2 {
				near = append(near, m.ID)
			}
		}
	}
	if which, ok := sorts[strings.ToLower(name)]; ok {
		return l, fmt.Errorf("%q may be any of several; say which, as in %s", name, which)
	}
	if len(near) == 0 {
		return l, fmt.Errorf("no pigment and no medium is called %q; %s", name, furtherHelp["pigment"])
	}
	return l, fmt.Errorf("no pigment and no medium is called %q; closest: %s; %s", name, strings.Join(near, ", "), furtherHelp["pigment"])
}

// sorts are words for a whole sort of material, with one of them.
var sorts = map[string]string{
	"oil": "linseed oil", "wax": "beeswax", "gum": "gum arabic", "solvent": "turpentine", "thinner": "turpentine", "spirit": "white spirit",
	"white": "titanium white", "blue": "ultramarine blue", "yellow": "yellow ochre", "red": "cadmium red", "earth": "raw umber", "pigment": "ultramarine blue",
	"resin": "dammar", "varnish": "damar varnish", "glue": "hide glue", "drier": "cobalt drier", "medium": "glaze medium",
}

// groups are the words for all of one sort.
var groups = map[string][]formulate.Role{
	"pigment": {formulate.Pigment, formulate.Extender}, "powder": {formulate.Pigment, formulate.Extender}, "pvc": {formulate.Pigment, formulate.Extender},
	"oil": {formulate.Binder}, "binder": {formulate.Binder}, "wax": {formulate.Additive}, "solvent": {formulate.Volatile},
}

func (x *RecipeSaying) request(w *Workshop, lineOf map[string][]int) (formulate.Saying, error) {
	s := formulate.Saying{Line: x.Line, Written: x.Written, Share: quantity.Ratio(x.Percent / 100), Half: quantity.Ratio(x.Half / 100)}
	s.Basis.Of = wholes[x.Of]
	switch x.By {
	case "mass":
		s.Basis.By = formulate.MassPercent
	case "volume":
		s.Basis.By = formulate.VolumePercent
	}
	s.Subject.Name = x.Subject
	word := strings.ToLower(x.Subject)
	if roles, ok := groups[word]; ok {
		s.Subject.Roles = roles
		if word == "pvc" {
			if x.Of != "" || x.By != "" {
				return s, errors.New("PVC is of the dry film by volume, and needs no more saying")
			}
			s.Subject.Name = "pigment"
			s.Basis = formulate.PercentBasis{Of: formulate.OfFilm, By: formulate.VolumePercent}
		}
		return s, nil
	}
	l, err := w.recipeMaterial(x.Subject)
	if err != nil {
		return s, err
	}
	if s.Subject.Lines = lineOf[l.Material.ID]; len(s.Subject.Lines) == 0 {
		return s, fmt.Errorf("no line of the recipe has %s in it", l.Material.ID)
	}
	return s, nil
}
