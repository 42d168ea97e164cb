package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	tests := []struct {
		text string
		want Mass
		why  string
	}{
		{"12.5 g", 12.5, "plain"},
		{"12,5g", 12.5, "decimal comma, no space"},
		{"0,125 g", 0.125, "three decimals after a zero cannot be thousands"},
		{"1.250 g", 1.25, "a point is always a decimal point"},
		{"2 kg", 2000, "kilogram"},
		{"250mg", 0.25, "milligram"},
		{"1 oz", 28.349523125, "international yard and pound agreement, 1959"},
		{"1 lb", 453.59237, "international yard and pound agreement, 1959"},
		{"1e3 g", 1000, "exponent"},
		{"5 G", 5, "case of an unmistakable unit"},
	}
	for _, tt := range tests {
		got, err := ParseMass(tt.text)
		if err != nil || got != tt.want {
			t.Errorf("ParseMass(%q) = %v, %v; want %v (%s)", tt.text, float64(got), err, float64(tt.want), tt.why)
		}
	}
	volumes := []struct {
		text string
		want Volume
	}{
		{"2 tbsp", 30}, {"3 tsp", 15}, {"1 fl oz US", 29.5735295625}, {"1 fl oz imp", 28.4130625},
		{"1 fl  oz  us", 29.5735295625}, {"0.5 l", 500}, {"40ml", 40}, {"40 ML", 40},
	}
	for _, tt := range volumes {
		got, err := ParseVolume(tt.text)
		if err != nil || got != tt.want {
			t.Errorf("ParseVolume(%q) = %v, %v; want %v", tt.text, float64(got), err, float64(tt.want))
		}
	}
	if got, err := ParseCelsius("-20 C"); err != nil || got != -20 {
		t.Errorf("ParseCelsius(-20 C) = %v, %v", got, err)
	}
	if got, err := ParseMassFraction("12 %"); err != nil || got != 0.12 {
		t.Errorf("ParseMassFraction(12 %%) = %v, %v", got, err)
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct{ text, holds string }{
		{"", "empty"},
		{"g", "does not begin with a number"},
		{"12", "unit is missing"},
		{"12 ml", `"ml" is a unit of volume`},
		{"12 stone", `unknown unit "stone"`},
		{"-3 g", "negative"},
		{"0 g", "outside"},
		{"1,250 g", "ambiguous"},
		{"1,250.5 g", "thousands"},
		{"1.2.3 g", "cannot be read"},
		{"NaN g", "does not begin with a number"},
		{"Inf g", "does not begin with a number"},
		{"1e400 g", "cannot be read"},
		{"1e12 g", "outside"},
		{"5 Mg", "unknown unit"},
		{"0x10 g", "unknown unit"},
	}
	for _, tt := range tests {
		got, err := ParseMass(tt.text)
		var e *Error
		if err == nil || !strings.Contains(err.Error(), tt.holds) || !errors.As(err, &e) {
			t.Errorf("ParseMass(%q) = %v, %v; want an Error that says %q", tt.text, got, err, tt.holds)
		}
	}
}

func TestPrintParses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(1e-3, 1e6).Draw(t, "v")
		check := func(name string, back float64, err error) {
			if err != nil || back != v {
				t.Fatalf("%s: %v printed and parsed gives %v, %v", name, v, back, err)
			}
		}
		m, err := ParseMass(Mass(v).String())
		check("mass", float64(m), err)
		vol, err := ParseVolume(Volume(v).String())
		check("volume", float64(vol), err)
		f := v / 1e6
		s, err := ParseMassFraction(MassFraction(f).String())
		if err != nil || math.Abs(float64(s)-f) > 1e-15*f {
			t.Fatalf("share: %v gives %v, %v", f, s, err)
		}
	})
}

// Each unit of every kind must round-trip, and no kind may list one twice.
func TestUnitTables(t *testing.T) {
	for _, k := range allKinds {
		seen := map[string]bool{}
		for _, u := range k.units {
			if seen[u.name] {
				t.Errorf("%s lists %q twice", k.word, u.name)
			}
			seen[u.name] = true
			if f, ok := k.factor(u.name); !ok || f != u.factor {
				t.Errorf("%s: %q reads as %v, want %v", k.word, u.name, f, u.factor)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"12.5 g", "12,5g", "1,250 g", "3 tbsp", "56 g/100g", "", "-1 C", "1e9 kg", "40 fl oz US", "٣ g", "1 ｇ"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if m, err := ParseMass(s); err == nil {
			if !(m > 0) || math.IsInf(float64(m), 0) {
				t.Fatalf("ParseMass(%q) = %v", s, float64(m))
			}
			back, err := ParseMass(m.String())
			if err != nil || back != m {
				t.Fatalf("%q reads as %v, which prints as %q and reads as %v, %v", s, float64(m), m.String(), float64(back), err)
			}
		}
		if v, err := ParseVolume(s); err == nil && !(v > 0) {
			t.Fatalf("ParseVolume(%q) = %v", s, float64(v))
		}
		if c, err := ParseCelsius(s); err == nil && (math.IsNaN(float64(c)) || c < -90) {
			t.Fatalf("ParseCelsius(%q) = %v", s, float64(c))
		}
	})
}
