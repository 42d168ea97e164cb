package quantity

import (
	"encoding"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// readable is what every quantity that people write must do.
type readable interface {
	~float64
	String() string
	Type() string
	encoding.TextMarshaler
}

// settable is the pointer to one.
type settable[Q readable] interface {
	*Q
	encoding.TextUnmarshaler
	Set(string) error
}

// A reading is one text and its value in the quantity's fixed unit.
type reading struct {
	text string
	want float64
}

// kindTest checks one quantity's whole face: that each of its methods reads and
// prints the same unit table.
func kindTest[Q readable, P settable[Q]](parse func(string) (Q, error), k *kind, reads []reading, refuses ...string) func(*testing.T) {
	return func(t *testing.T) {
		for _, r := range reads {
			got, err := parse(r.text)
			if err != nil || math.Abs(float64(got)-r.want) > 1e-12*math.Abs(r.want) {
				t.Errorf("parse %q = %v, %v; want %v", r.text, float64(got), err, r.want)
			}
			var set, unmarshalled Q
			if err := P(&set).Set(r.text); err != nil || set != got {
				t.Errorf("Set %q = %v, %v; want %v", r.text, float64(set), err, float64(got))
			}
			if err := P(&unmarshalled).UnmarshalText([]byte(r.text)); err != nil || unmarshalled != got {
				t.Errorf("UnmarshalText %q = %v, %v; want %v", r.text, float64(unmarshalled), err, float64(got))
			}
			marshalled, err := got.MarshalText()
			if err != nil || string(marshalled) != got.String() {
				t.Errorf("MarshalText of %q = %q, %v; want %q", r.text, marshalled, err, got.String())
			}
		}
		for _, text := range append(refuses, "", "nonsense", "3 pints") {
			was := Q(7)
			err := P(&was).Set(text)
			if err == nil {
				t.Errorf("Set %q = %v, want it refused", text, float64(was))
				continue
			}
			if was != 7 {
				t.Errorf("Set %q failed but wrote %v", text, float64(was))
			}
			if msg := err.Error(); !strings.Contains(msg, strconv.Quote(text)) || !strings.Contains(msg, "not a "+k.word) || !strings.Contains(msg, "accepted: ") {
				t.Errorf("Set %q: %q does not name the text, the kind and what is accepted", text, msg)
			}
			if _, err := parse(text); err == nil {
				t.Errorf("parse %q: accepted", text)
			}
		}
		if got := Q(1).Type(); got != k.word {
			t.Errorf("Type = %q, want %q", got, k.word)
		}
		// Both ends of the accepted range are in it, what lies beyond is not.
		for _, v := range []float64{k.low, k.high} {
			if got, err := parse(k.print(v)); err != nil || math.Abs(float64(got)-v) > 1e-12*math.Abs(v) {
				t.Errorf("the end %v of the range reads as %v, %v", v, float64(got), err)
			}
		}
		u := k.units[0]
		for _, v := range []float64{k.high * 1.001, k.low - math.Max(math.Abs(k.low), 1)*0.001} {
			text := strconv.FormatFloat(v/u.factor, 'f', -1, 64) + u.name
			if got, err := parse(text); err == nil {
				t.Errorf("parse %q = %v, outside %v to %v", text, float64(got), k.low, k.high)
			}
		}
		if t.Failed() {
			return
		}
		// What was read once prints so that it reads as the same value.
		rapid.Check(t, func(t *rapid.T) {
			u := rapid.SampledFrom(k.units).Draw(t, "unit")
			low, high := k.low/u.factor, k.high/u.factor
			v := rapid.Float64Range(low, high).Draw(t, "value")
			if low > 0 {
				v = low * math.Pow(high/low, rapid.Float64Range(0, 1).Draw(t, "place"))
			}
			text := strconv.FormatFloat(v, 'g', rapid.IntRange(1, 17).Draw(t, "digits"), 64) + " " + u.name
			got, err := parse(text)
			if err != nil {
				return // rounding to few digits may leave the range
			}
			back, err := parse(got.String())
			if err != nil || back != got {
				t.Fatalf("%q reads as %v, prints as %q, reads as %v, %v", text, float64(got), got.String(), float64(back), err)
			}
		})
	}
}

// Every quantity that can be written reads its own units and no others. The
// factors are the definitions of the units named (SI brochure; international
// yard and pound agreement, 1959; NIST Handbook 44, appendix C).
func TestKinds(t *testing.T) {
	tests := map[string]func(*testing.T){
		"mass":              kindTest(ParseMass, &massKind, []reading{{"3 g", 3}, {"1 lb", 453.59237}, {"16 oz", 453.59237}}, "3 ml", "3"),
		"volume":            kindTest(ParseVolume, &volumeKind, []reading{{"3 ml", 3}, {"1 l", 1000}, {"2 cl", 20}, {"5 µl", 0.005}, {"128 fl oz US", 3785.411784}, {"160 fl oz imp", 4546.09}}, "3 g", "1 fl oz"),
		"density":           kindTest(ParseDensity, &densityKind, []reading{{"2.34 g/ml", 2.34}, {"935 kg/m3", 0.935}, {"935 g/l", 0.935}, {"0.93 kg/l", 0.93}}, "2.34", "3 g", "30 g/ml"),
		"absorption":        kindTest(ParseAbsorption, &absorptionKind, []reading{{"38 g/100g", 38}, {"38 g/100 g", 38}}, "38 ml/100g", "38 %", "38"),
		"absorption volume": kindTest(ParseAbsorptionVolume, &absorbVolKind, []reading{{"38 ml/100g", 38}, {"38 ml/100 g", 38}}, "38 g/100g", "38"),
		"mass share":        kindTest(ParseMassFraction, &massFracKind, []reading{{"12 %", 0.12}, {"12,5%", 0.125}, {"0 %", 0}, {"100 %", 1}}, "0.12", "101 %", "12 g"),
		"volume share":      kindTest(ParseVolumeFraction, &volFracKind, []reading{{"45%", 0.45}}, "0.45", "120 %"),
		"parts":             kindTest(ParseParts, &partsKind, []reading{{"2", 2}, {"2.5 parts", 2.5}, {"1 part", 1}}, "2 g", "0", "-1"),
		"ratio":             kindTest(ParseRatio, &ratioKind, []reading{{"0.8", 0.8}, {"0", 0}}, "0.8 %", "-0.1"),
		"length":            kindTest(ParseLength, &lengthKind, []reading{{"30 cm", 30}, {"300mm", 30}, {"1 m", 100}, {"12 in", 30.48}, {"1 ft", 30.48}}, "30", "30 ml"),
		"thickness":         kindTest(ParseThickness, &thicknessKind, []reading{{"50 µm", 50}, {"50 um", 50}, {"50 micron", 50}, {"0.1 mm", 100}, {"2 mil", 50.8}}, "50", "5 cm"),
		"particle size":     kindTest(ParseParticleSize, &particleKind, []reading{{"0.5 µm", 0.5}, {"300 nm", 0.3}, {"0.1 mm", 100}}, "0.5", "3 g"),
		"area":              kindTest(ParseArea, &areaKind, []reading{{"2 m2", 2}, {"2 m²", 2}, {"100 cm2", 0.01}, {"100 ft2", 9.290304}, {"144 in2", 0.09290304}}, "2", "2 m"),
		"mass per area":     kindTest(ParseMassPerArea, &perAreaKind, []reading{{"25 g/m2", 25}, {"25 g/m²", 25}, {"0 g/m2", 0}}, "25 g", "25"),
		"specific surface":  kindTest(ParseSpecificSurface, &surfaceKind, []reading{{"12 m2/g", 12}, {"12 m²/g", 12}}, "12 m2", "12"),
		"temperature":       kindTest(ParseCelsius, &celsiusKind, []reading{{"20 C", 20}, {"-20 °C", -20}, {"−5 degC", -5}, {"0 C", 0}}, "20", "20 F", "--3 C"),
		"viscosity":         kindTest(ParseViscosity, &viscosityKind, []reading{{"45 mPa·s", 45}, {"45 cP", 45}, {"1.5 Pa s", 1500}, {"1 P", 100}}, "45", "45 cSt"),
		"kinematic":         kindTest(ParseKinematicViscosity, &kinematicKind, []reading{{"30 mm2/s", 30}, {"30 cSt", 30}, {"1 St", 100}}, "30 cP", "30"),
		"time":              kindTest(ParseDuration, &durationKind, []reading{{"90 s", 90}, {"1.5 min", 90}, {"2 h", 7200}, {"1 day", 86400}, {"3 days", 259200}, {"2 d", 172800}}, "90", "3 weeks"),
		"molar mass":        kindTest(ParseMolarMass, &molarKind, []reading{{"136 g/mol", 136}}, "136", "136 g"),
		"concentration":     kindTest(ParseConcentration, &concentKind, []reading{{"116 mg/m3", 116}, {"116 mg/m³", 116}}, "20 ppm", "116"),
		"ppm":               kindTest(ParsePartsPerMillion, &ppmKind, []reading{{"20 ppm", 20}}, "116 mg/m3", "20"),
		"room":              kindTest(ParseRoomVolume, &roomKind, []reading{{"40 m3", 40}, {"40 m³", 40}, {"1000 ft3", 28.316846592}, {"50 l", 0.05}}, "40", "40 m2"),
		"air changes":       kindTest(ParseAirChanges, &airKind, []reading{{"0.5/h", 0.5}, {"2 per h", 2}, {"0 /h", 0}}, "0.5", "2 h"),
		"pressure":          kindTest(ParsePressure, &pressureKind, []reading{{"0.25 kPa", 0.25}, {"250 Pa", 0.25}, {"760 mmHg", 101.3250144354}, {"1 bar", 100}, {"10 hPa", 1}}, "0.25", "3 C"),
		"iodine value":      kindTest(ParseIodineValue, &iodineKind, []reading{{"180", 180}, {"180 g/100g", 180}}, "180 g", "-1"),
		"refractive index":  kindTest(ParseRefractiveIndex, &indexKind, []reading{{"1.48", 1.48}}, "0.9", "1.48 g"),
		"price":             kindTest(ParsePricePerGram, &priceKind, []reading{{"0.12/g", 0.12}, {"120/kg", 0.12}, {"12/100g", 0.12}, {"28.349523125/oz", 1}, {"453.59237/lb", 1}, {"0/g", 0}}, "0.12", "0.12 g"),
	}
	if len(tests) != 28 {
		t.Errorf("%d kinds are tested; one for each Parse function", len(tests))
	}
	for name, test := range tests {
		t.Run(name, test)
	}
}

// The conversions between a mass, a volume and a density, and back.
func TestConversions(t *testing.T) {
	if got := Mass(100).Volume(2.5); got != 40 {
		t.Errorf("100 g at 2.5 g/ml is %v ml, want 40", float64(got))
	}
	if got := Volume(40).Mass(2.5); got != 100 {
		t.Errorf("40 ml at 2.5 g/ml is %v g, want 100", float64(got))
	}
	// ISO 787-5: 100 times 0.93 times the millilitres over the grams of sample.
	if got := AbsorptionVolume(20).ByMass(ReportingOilDensity); math.Abs(float64(got)-18.6) > 1e-12 {
		t.Errorf("20 ml/100g of test oil is %v g/100g, want 18.6", float64(got))
	}
	if got := Absorption(18.6).ByVolume(ReportingOilDensity); math.Abs(float64(got)-20) > 1e-12 {
		t.Errorf("18.6 g/100g is %v ml/100g, want 20", float64(got))
	}
	if got := Celsius(25).Kelvin(); got != 298.15 {
		t.Errorf("25 °C is %v K, want 298.15", got)
	}
}

// Whatever is written, every kind refuses it or reads a number within its own
// range that prints as the same number.
func FuzzKinds(f *testing.F) {
	for _, s := range []string{"12.5 g", "45 %", "1,5 mPa·s", "20 C", "-5 °C", "0.12/g", "2/h", "30 m3", "1e-6 kPa", "180", "1.48", "3 days", "25 µm", "5 g/m2", "1 fl oz US", "0,125 l", "1e400", "+3 g", "0x1p-2 g", "½ l"} {
		f.Add(s)
	}
	kinds := append([]*kind{&volFracKind, &partsKind, &ratioKind, &particleKind, &iodineKind, &indexKind}, allKinds...)
	f.Fuzz(func(t *testing.T, text string) {
		for _, k := range kinds {
			v, err := k.parse(text)
			if err != nil {
				if !strings.Contains(err.Error(), k.word) {
					t.Fatalf("%v does not name the kind %s", err, k.word)
				}
				continue
			}
			if !(v >= k.low && v <= k.high) {
				t.Fatalf("%s: %q reads as %v", k.word, text, v)
			}
			if back, err := k.parse(k.print(v)); err != nil || back != v {
				t.Fatalf("%s: %q reads as %v, prints as %q and reads as %v, %v", k.word, text, v, k.print(v), back, err)
			}
		}
	})
}
