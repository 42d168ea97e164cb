package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Real is any quantity of this package.
type Real interface{ ~float64 }

// unit is one accepted spelling and the factor to the fixed unit of its kind.
type unit struct {
	name   string
	factor float64
}

// kind describes how one quantity is read: its word for messages, the accepted
// units (the first is the one it is printed in) and the accepted range.
type kind struct {
	word  string
	units []unit
	low   float64 // smallest value accepted
	high  float64 // largest value accepted
	bare  bool    // a number without a unit is accepted
}

// Household and trade measures. Spoons are the metric kitchen spoons of 5 ml
// and 15 ml; ounces and pounds are avoirdupois (international yard and pound
// agreement, 1959); fluid ounces per NIST Handbook 44, appendix C,
// and the UK Units of Measurement Regulations 1995.
const (
	GramsPerOunce   = 28.349523125
	GramsPerPound   = 453.59237
	MlPerUSFlOz     = 29.5735295625
	MlPerImpFlOz    = 28.4130625
	MlPerTeaspoon   = 5.0
	MlPerTablespoon = 15.0
)

var (
	massKind = kind{"mass", []unit{
		{"g", 1}, {"kg", 1000}, {"mg", 0.001}, {"oz", GramsPerOunce}, {"lb", GramsPerPound},
	}, 1e-6, 1e7, false}
	volumeKind = kind{"volume", []unit{
		{"ml", 1}, {"cm3", 1}, {"cm³", 1}, {"cl", 10}, {"l", 1000}, {"µl", 0.001}, {"ul", 0.001},
		{"fl oz US", MlPerUSFlOz}, {"fl oz imp", MlPerImpFlOz},
		{"tsp", MlPerTeaspoon}, {"tbsp", MlPerTablespoon},
	}, 1e-6, 1e7, false}
	densityKind = kind{"density", []unit{
		{"g/ml", 1}, {"g/cm3", 1}, {"g/cm³", 1}, {"kg/l", 1}, {"kg/m3", 0.001}, {"kg/m³", 0.001}, {"g/l", 0.001},
	}, 1e-3, 25, false}
	absorptionKind = kind{"oil absorption by mass", []unit{{"g/100g", 1}, {"g/100 g", 1}}, 0.1, 2000, false}
	absorbVolKind  = kind{"oil absorption by volume", []unit{{"ml/100g", 1}, {"ml/100 g", 1}}, 0.1, 2000, false}
	massFracKind   = kind{"share by mass", []unit{{"%", 0.01}}, 0, 1, false}
	volFracKind    = kind{"share by volume", []unit{{"%", 0.01}}, 0, 1, false}
	partsKind      = kind{"parts", []unit{{"", 1}, {"parts", 1}, {"part", 1}}, 1e-6, 1e6, true}
	ratioKind      = kind{"ratio", []unit{{"", 1}}, 0, 1e6, true}
	lengthKind     = kind{"length", []unit{{"cm", 1}, {"mm", 0.1}, {"m", 100}, {"in", 2.54}, {"ft", 30.48}}, 1e-4, 1e6, false}
	thicknessKind  = kind{"film thickness", []unit{{"µm", 1}, {"um", 1}, {"micron", 1}, {"mm", 1000}, {"mil", 25.4}}, 0.01, 1e5, false}
	particleKind   = kind{"particle size", []unit{{"µm", 1}, {"um", 1}, {"nm", 0.001}, {"mm", 1000}}, 1e-3, 1e5, false}
	areaKind       = kind{"area", []unit{{"m2", 1}, {"m²", 1}, {"cm2", 1e-4}, {"cm²", 1e-4}, {"ft2", 0.09290304}, {"in2", 0.00064516}}, 1e-6, 1e6, false}
	perAreaKind    = kind{"mass per area", []unit{{"g/m2", 1}, {"g/m²", 1}}, 0, 1e5, false}
	surfaceKind    = kind{"specific surface", []unit{{"m2/g", 1}, {"m²/g", 1}}, 1e-3, 3000, false}
	celsiusKind    = kind{"temperature", []unit{{"C", 1}, {"°C", 1}, {"degC", 1}}, -90, 1200, false}
	viscosityKind  = kind{"viscosity", []unit{{"mPa·s", 1}, {"mPas", 1}, {"mPa s", 1}, {"cP", 1}, {"Pa·s", 1000}, {"Pas", 1000}, {"Pa s", 1000}, {"P", 100}}, 1e-2, 1e9, false}
	kinematicKind  = kind{"kinematic viscosity", []unit{{"mm2/s", 1}, {"mm²/s", 1}, {"cSt", 1}, {"St", 100}}, 1e-2, 1e9, false}
	durationKind   = kind{"time", []unit{{"s", 1}, {"min", float64(Minute)}, {"h", float64(Hour)}, {"d", float64(Day)}, {"days", float64(Day)}, {"day", float64(Day)}}, 1e-3, 1e10, false}
	molarKind      = kind{"molar mass", []unit{{"g/mol", 1}}, 1, 1e6, false}
	concentKind    = kind{"concentration in air", []unit{{"mg/m3", 1}, {"mg/m³", 1}}, 1e-6, 1e7, false}
	ppmKind        = kind{"concentration in air", []unit{{"ppm", 1}}, 1e-6, 1e6, false}
	roomKind       = kind{"room volume", []unit{{"m3", 1}, {"m³", 1}, {"l", 0.001}, {"ft3", 0.028316846592}}, 0.01, 1e6, false}
	airKind        = kind{"air changes", []unit{{"/h", 1}, {"per h", 1}}, 0, 1000, false}
	pressureKind   = kind{"vapour pressure", []unit{{"kPa", 1}, {"Pa", 0.001}, {"hPa", 0.1}, {"mmHg", 0.133322387415}, {"bar", 100}}, 1e-9, 1e4, false}
	iodineKind     = kind{"iodine value", []unit{{"g/100g", 1}, {"", 1}}, 0, 400, true}
	indexKind      = kind{"refractive index", []unit{{"", 1}}, 1, 6, true}
	priceKind      = kind{"price", []unit{{"/g", 1}, {"/kg", 0.001}, {"/100g", 0.01}, {"/oz", 1 / GramsPerOunce}, {"/lb", 1 / GramsPerPound}}, 0, 1e6, false}
)

// An Error says what was wrong with a written quantity and what is accepted.
type Error struct {
	Text   string // as written
	Kind   string // what was expected, in words
	Reason string // what was wrong
	Accept string // what would be accepted
}

func (e *Error) Error() string {
	return fmt.Sprintf("%q is not a %s: %s; accepted: %s", e.Text, e.Kind, e.Reason, e.Accept)
}

func (k *kind) accept() string {
	var names []string
	for _, u := range k.units {
		if u.name != "" {
			names = append(names, u.name)
		}
	}
	if len(names) == 0 {
		return fmt.Sprintf("a number from %s to %s", trim(k.low), trim(k.high))
	}
	s := "a number with " + strings.Join(names, ", ")
	if k.bare {
		s += ", or no unit"
	}
	return s
}

func (k *kind) fail(text, reason string) error {
	return &Error{Text: text, Kind: k.word, Reason: reason, Accept: k.accept()}
}

// parse reads a number and a unit of this kind.
func (k *kind) parse(text string) (float64, error) {
	s := strings.TrimSpace(text)
	if s == "" {
		return 0, k.fail(text, "it is empty")
	}
	sign := 1.0
	if k.low < 0 && (strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−")) {
		sign, s = -1, strings.TrimPrefix(strings.TrimPrefix(s, "−"), "-")
	}
	n := numberEnd(s)
	if n == 0 {
		return 0, k.fail(text, "it does not begin with a number")
	}
	value, reason := Number(s[:n])
	if reason != "" {
		return 0, k.fail(text, reason)
	}
	value *= sign
	name := strings.Join(strings.Fields(s[n:]), " ")
	factor, ok := k.factor(name)
	if !ok {
		if name == "" {
			return 0, k.fail(text, "the unit is missing")
		}
		if other := kindOf(name); other != "" && other != k.word {
			return 0, k.fail(text, fmt.Sprintf("%q is a unit of %s", name, other))
		}
		return 0, k.fail(text, fmt.Sprintf("unknown unit %q", name))
	}
	v := value * factor
	if !(v >= k.low && v <= k.high) {
		u := k.units[0]
		return 0, k.fail(text, fmt.Sprintf("it is outside %s to %s %s", trim(k.low/u.factor), trim(k.high/u.factor), u.name))
	}
	return v, nil
}

// factor finds a unit by name. Spelling is exact but for the case of letters
// where that cannot turn one unit into another (ml and ML; never mg and Mg).
func (k *kind) factor(name string) (float64, bool) {
	for _, u := range k.units {
		if u.name == name {
			return u.factor, true
		}
	}
	var found float64
	hits := 0
	for _, u := range k.units {
		if strings.EqualFold(u.name, name) {
			if hits == 0 || u.factor != found {
				hits++
			}
			found = u.factor
		}
	}
	if name == "Mg" || name == "MG" {
		return 0, false
	}
	return found, hits == 1
}

// numberEnd returns how many bytes of s look like a number.
func numberEnd(s string) int {
	i := 0
	for i < len(s) {
		c := s[i]
		switch {
		case c >= '0' && c <= '9', c == '.', c == ',':
		case (c == '-' || c == '+') && (i == 0 || s[i-1] == 'e' || s[i-1] == 'E'):
		case (c == 'e' || c == 'E') && i > 0 && i+1 < len(s) && (s[i+1] == '-' || s[i+1] == '+' || s[i+1] >= '0' && s[i+1] <= '9'):
		default:
			return i
		}
		i++
	}
	return i
}

// Number reads a non-negative decimal number with a point or, where it cannot
// be mistaken, a decimal comma. The reason is empty on success.
func Number(s string) (value float64, reason string) {
	if strings.HasPrefix(s, "-") {
		return 0, "it is negative"
	}
	commas := strings.Count(s, ",")
	switch {
	case commas > 1 || commas == 1 && strings.Contains(s, "."):
		return 0, "thousands separators are not read; write the number with a point only"
	case commas == 1:
		whole, frac, _ := strings.Cut(s, ",")
		if len(frac) == 3 && strings.Trim(whole, "0") != "" && len(whole) <= 3 {
			return 0, fmt.Sprintf("the comma is ambiguous: write %s.%s or %s%s", whole, frac, whole, frac)
		}
		s = whole + "." + frac
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, "the number cannot be read"
	}
	return v, ""
}

// trim prints the shortest decimal that reads back as the same value.
func trim(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func (k *kind) print(v float64) string {
	u := k.units[0]
	s := trim(v / u.factor)
	if u.factor != 1 {
		// The shortest form of the scaled number may not scale back to the same
		// bits; add digits until it does.
		for p := 15; p <= 17; p++ {
			s = strconv.FormatFloat(v/u.factor, 'g', p, 64)
			if f, err := strconv.ParseFloat(s, 64); err == nil && f*u.factor == v {
				break
			}
		}
	}
	if u.name == "" || strings.HasPrefix(u.name, "/") || u.name == "%" {
		return s + u.name
	}
	return s + " " + u.name
}

var allKinds = []*kind{
	&massKind, &volumeKind, &densityKind, &absorptionKind, &absorbVolKind, &massFracKind, &lengthKind, &thicknessKind,
	&areaKind, &perAreaKind, &surfaceKind, &celsiusKind, &viscosityKind, &kinematicKind, &durationKind, &molarKind,
	&concentKind, &ppmKind, &roomKind, &airKind, &pressureKind, &priceKind,
}

// kindOf names the kind a unit belongs to, or "".
func kindOf(unitName string) string {
	for _, k := range allKinds {
		if _, ok := k.factor(unitName); ok && unitName != "" {
			return k.word
		}
	}
	return ""
}
