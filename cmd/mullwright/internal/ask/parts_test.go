package ask

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mullwright/formulate/quantity"
	"mullwright/media"
)

func TestParts(t *testing.T) {
	for text, want := range map[string]struct {
		name  string
		parts quantity.Parts
	}{
		"prussian-blue":           {"prussian-blue", 1},
		"prussian-blue=2":         {"prussian-blue", 2},
		" prussian blue = 2,5 ":   {"prussian blue", 2.5},
		"PB27=1 part":             {"PB27", 1},
		"a=0.001 parts":           {"a", 0.001},
		"zinc white (heavy)=1000": {"zinc white (heavy)", 1000},
	} {
		name, p, err := parts(text)
		if err != nil || name != want.name || p != want.parts {
			t.Errorf("parts(%q) = %q, %v, %v; want %q, %v", text, name, p, err, want.name, want.parts)
		}
	}
	for text, want := range map[string]string{
		"":          `"": want NAME or NAME=VALUE`,
		" ":         "want NAME or NAME=VALUE",
		"=2":        "want NAME or NAME=VALUE",
		"a=":        "want NAME or NAME=VALUE",
		"a= ":       "want NAME or NAME=VALUE",
		"a=0":       `a: "0" is not a parts`,
		"a=-1":      "it is negative",
		"a=two":     "does not begin with a number",
		"a=2 g":     `"g" is a unit of mass`,
		"a=10%":     `"%" is a unit of share by mass`,
		"a=b=2":     "does not begin with a number",
		"a=nan":     "does not begin with a number",
		"a=1e99":    "outside",
		"a=1,250":   "ambiguous",
		"a=1 2":     "unknown unit",
		"a=\n2\x00": "unknown unit",
	} {
		if name, p, err := parts(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("parts(%q) = %q, %v, %v; want the error %q", text, name, p, err, want)
		}
	}
}

func TestPortion(t *testing.T) {
	for text, want := range map[string]struct {
		name  string
		share quantity.MassFraction
	}{
		"chalk=10%":       {"chalk", 0.10},
		"beeswax = 2 %":   {"beeswax", 0.02},
		"chalk=0,5 %":     {"chalk", 0.005},
		"chalk=0%":        {"chalk", 0},
		"china clay=100%": {"china clay", 1},
	} {
		name, s, err := portion(text)
		if err != nil || name != want.name || math.Abs(float64(s-want.share)) > 1e-15 {
			t.Errorf("portion(%q) = %q, %v, %v; want %q, %v", text, name, s, err, want.name, want.share)
		}
	}
	for text, want := range map[string]string{
		"chalk":      `"chalk": the share is missing, as in chalk=10%`,
		"=10%":       "want NAME or NAME=VALUE",
		"":           "want NAME or NAME=VALUE",
		"chalk=10":   "the unit is missing",
		"chalk=101%": "outside",
		"chalk=-1%":  "negative",
		"chalk=10g":  `"g" is a unit of mass`,
		"chalk=10%%": "unknown unit",
	} {
		if name, s, err := portion(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("portion(%q) = %q, %v, %v; want the error %q", text, name, s, err, want)
		}
	}
}

func TestTimes(t *testing.T) {
	for text, want := range map[string]struct {
		n    int
		size string
	}{
		"40ml":        {1, "40ml"}, // a size alone is one of it
		"3x40ml":      {3, "40ml"},
		" 3 x 40 ml ": {3, "40 ml"},
		"3×40ml":      {3, "40ml"},
		"12Xhalf":     {12, "half"},
		"1xx2ml":      {1, "2ml"},
	} {
		n, size, err := times(text)
		if err != nil || n != want.n || size != want.size {
			t.Errorf("times(%q) = %d, %q, %v; want %d, %q", text, n, size, err, want.n, want.size)
		}
	}
	for text, want := range map[string]string{
		"":                         "want a count, x and a size",
		"x40ml":                    "want a count, x and a size",
		"0x40ml":                   `"0" is not a count from 1`,
		"-3x40ml":                  `"-3" is not a count from 1`,
		"2.5x40ml":                 `"2.5" is not a count from 1`,
		"three x 40ml":             "is not a count from 1",
		"99999999999999999999x1ml": "is not a count from 1",
		"3x":                       "the size after the x is missing",
		"3 x ":                     "the size after the x is missing",
	} {
		if n, size, err := times(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("times(%q) = %d, %q, %v; want the error %q", text, n, size, err, want)
		}
	}
}

func TestRectangle(t *testing.T) {
	for text, want := range map[string][2]quantity.Length{
		"30x40cm":        {30, 40},
		"30 x 40 cm":     {30, 40},
		"30cmx400mm":     {30, 40},
		"300 mm × 40 cm": {30, 40},
		"12X18in":        {12 * 2.54, 18 * 2.54},
		"0,5x1m":         {50, 100},
		"1ftx1ft":        {30.48, 30.48},
	} {
		w, d, err := rectangle(text)
		if err != nil || math.Abs(float64(w-want[0])) > 1e-9 || math.Abs(float64(d-want[1])) > 1e-9 {
			t.Errorf("rectangle(%q) = %v, %v, %v; want %v", text, w, d, err, want)
		}
	}
	for text, want := range map[string]string{
		"":           "want width x depth",
		"30cm":       "want width x depth",
		"30x40":      "the unit is missing",
		"30cmx40":    "the unit is missing",
		"x40cm":      `does not begin with a number`,
		"30x":        "it is empty",
		"30x40x50cm": "unknown unit",
		"0x40cm":     "outside",
		"-3x40cm":    "is not a length",
		"30x40ml":    `"ml" is a unit of volume`,
		"30gx40cm":   `"g" is a unit of mass`,
	} {
		if w, d, err := rectangle(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("rectangle(%q) = %v, %v, %v; want the error %q", text, w, d, err, want)
		}
	}
}

func TestReadPrices(t *testing.T) {
	w := opened(t)
	p, err := w.readPrices([]string{"Prussian Blue=0.12/g", "linseed-oil=20/kg"})
	if err != nil || len(p) != 2 || p["prussian-blue"] != 0.12 || math.Abs(float64(p["linseed-oil"])-0.02) > 1e-15 {
		t.Errorf("got %v, %v", p, err)
	}
	for text, want := range map[string]string{
		"prussian-blue":         "the price is missing, as in prussian-blue=0.12/g",
		"prussian-blue=0.12":    "the unit is missing",
		"prussian-blue=-1/g":    "negative",
		"prussian-bleu=0.12/g":  "closest",
		"prussian-blue=0.12/ml": "unknown unit",
		"=1/g":                  "want NAME or NAME=VALUE",
	} {
		if p, err := w.readPrices([]string{text}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("readPrices(%q) = %v, %v; want the error %q", text, p, err, want)
		}
	}
}

// A maker's file is read whole and at most a megabyte of it, whatever it is.
func TestReadFile(t *testing.T) {
	dir := t.TempDir()
	write := func(name string, size int) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, make([]byte, size), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	if text, err := ReadFile(write("small", 3)); err != nil || text != "\x00\x00\x00" {
		t.Errorf("got %q, %v", text, err)
	}
	if text, err := ReadFile(write("largest", maxFile)); err != nil || len(text) != maxFile {
		t.Errorf("got %d bytes, %v; want all %d", len(text), err, maxFile)
	}
	for path, want := range map[string]string{
		write("large", maxFile+1):     "is larger than a megabyte",
		filepath.Join(dir, "missing"): "missing: no such file",
		dir:                           "is a folder, not a file",
	} {
		if _, err := ReadFile(path); err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: got %v, want %q", path, err, want)
		}
	}
	if _, err := os.Stat("/dev/zero"); err == nil {
		if _, err := ReadFile("/dev/zero"); err == nil || !strings.Contains(err.Error(), "larger than a megabyte") {
			t.Errorf("an endless file: %v", err)
		}
	}
}

// Whatever is written for a material, an amount of tubes or a slab, what is
// read is positive and finite, or the words that were refused are named.
func FuzzParts(f *testing.F) {
	for _, s := range []string{"prussian-blue=2", "chalk=10%", "3x40ml", "30x40cm", "a=", "=", "x", "3×", "1e9x1e9cm", "0,5x1m", "a=1,250", "\xff=\xff", "3xx", "30cmX0.00001m"} {
		f.Add(s)
	}
	positive := func(v float64) bool { return v > 0 && !math.IsInf(v, 0) }
	f.Fuzz(func(t *testing.T, text string) {
		if name, p, err := parts(text); err == nil && (name == "" || !positive(float64(p))) {
			t.Fatalf("parts(%q) = %q, %v", text, name, p)
		}
		if name, s, err := portion(text); err == nil && (name == "" || !(s >= 0 && s <= 1)) {
			t.Fatalf("portion(%q) = %q, %v", text, name, s)
		}
		if n, size, err := times(text); err == nil && (n < 1 || size == "") {
			t.Fatalf("times(%q) = %d, %q", text, n, size)
		}
		if w, d, err := rectangle(text); err == nil && (!positive(float64(w)) || !positive(float64(d))) {
			t.Fatalf("rectangle(%q) = %v, %v", text, w, d)
		}
	})
}

// How far a tube is filled where nobody says lies between what is published.
func TestDefaultFillIsPublished(t *testing.T) {
	var fill quantity.VolumeFraction
	if err := fill.Set(DefaultFill); err != nil {
		t.Fatal(err)
	}
	low, high := quantity.VolumeFraction(1), quantity.VolumeFraction(0)
	for _, r := range media.TubeFills() {
		low, high = min(low, r.Value), max(high, r.Value)
	}
	if fill < low || fill > high {
		t.Errorf("a tube is filled to %v, published are %v to %v", fill, low, high)
	}
}
