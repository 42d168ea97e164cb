package render

import (
	"math"
	"strconv"
	"strings"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Digits prints a number to significant figures without an exponent where
// people would not write one: 0.0123, 4.56, 123, 12300.
func Digits(v float64, figures int) string {
	if v == 0 {
		return "0"
	}
	places := figures - 1 - exponent(v, figures)
	if places < 0 {
		p := math.Pow(10, float64(-places))
		return strconv.FormatFloat(math.Round(v/p)*p, 'f', 0, 64)
	}
	if places > 9 {
		return strconv.FormatFloat(v, 'g', figures, 64)
	}
	return strconv.FormatFloat(v, 'f', places, 64)
}

// exponent is the power of ten of the first figure of a number rounded to some
// figures: 9.996 to three is 10.0, whose first figure counts tens.
func exponent(v float64, figures int) int {
	_, e, _ := strings.Cut(strconv.FormatFloat(v, 'e', figures-1, 64), "e")
	n, err := strconv.Atoi(e)
	if err != nil {
		return 0 // not a finite number
	}
	return n
}

// Given prints a number as the maker wrote it: no more digits than it has.
func Given[Q quantity.Real](v Q) string { return strconv.FormatFloat(float64(v), 'g', 10, 64) }

// Places prints a number to a fixed number of decimal places.
func Places(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// OnScale prints a mass to the decimals of the balance.
func OnScale(m, division quantity.Mass) string {
	if division <= 0 {
		return Digits(float64(m), 3) + " g"
	}
	places := max(0, int(math.Ceil(-math.Log10(float64(division))-1e-9)))
	return Places(float64(m), places) + " g"
}

// Range prints "typical unit (low–high)", or the value alone where the range
// has no width at the digits shown.
func Range[Q quantity.Real](r evidence.Range[Q], scale float64, figures int, unit string) string {
	lo, mid, hi := float64(r.Low)*scale, float64(r.Typical)*scale, float64(r.High)*scale
	places := placesFor(mid, figures)
	a, b, c := rounded(lo, places), rounded(mid, places), rounded(hi, places)
	text := b
	if unit != "" {
		text += " " + unit
	}
	if a == c {
		return text
	}
	return text + " (" + a + "–" + c + ")"
}

// placesFor is how many decimals show the figures of a typical value; negative
// for tens and hundreds.
func placesFor(v float64, figures int) int {
	if v == 0 {
		return figures - 1
	}
	return min(figures-1-exponent(v, figures), 9)
}

func rounded(v float64, places int) string {
	if places < 0 {
		p := math.Pow(10, float64(-places))
		return Places(math.Round(v/p)*p, 0)
	}
	return Places(v, places)
}

// Numbers makes the full-precision value behind a range.
func Numbers[Q quantity.Real](r evidence.Range[Q], scale float64, unit string) *Value {
	return &Value{Low: float64(r.Low) * scale, Typical: float64(r.Typical) * scale, High: float64(r.High) * scale, Unit: unit}
}

// single is the full-precision value behind one number.
func single[Q quantity.Real](v Q, unit string) *Value {
	return &Value{float64(v), float64(v), float64(v), unit}
}

// between is the value behind a span of which nothing inside is likelier: its
// middle stands for the typical.
func between(low, high float64, unit string) *Value {
	return &Value{low, (low + high) / 2, high, unit}
}

// one is the value behind one mass.
func one(m quantity.Mass) *Value { return single(m, "g") }

// RangeField is a field with both faces of a range.
func RangeField[Q quantity.Real](label string, r evidence.Range[Q], scale float64, figures int, unit, note string) Field {
	return Field{Label: label, Text: Range(r, scale, figures, unit), Note: note, Value: Numbers(r, scale, unit)}
}

// number is a field of one number.
func number(label string, v float64, figures int, unit, note string) Field {
	return Field{Label: label, Text: strings.TrimSpace(Digits(v, figures) + " " + unit), Note: note, Value: single(v, unit)}
}

// full prints a number so that it reads back as the same number.
func full(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// Full prints a number at full precision, for CSV.
func Full[Q quantity.Real](v Q) string { return full(float64(v)) }
