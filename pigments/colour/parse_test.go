package colour

import (
	"strings"
	"testing"
)

const header = columns + "\n"

func lineOf(fields ...string) string { return strings.Join(fields, "\t") + "\n" }

func film(shade, values string) string {
	return lineOf("film", "deborah-2022", "X_1_1_p1 shade "+shade, "test", "400+100", values)
}

var goodFilm = film("1", "0.1 0.1") + film("2", "0.2 0.2") + film("3", "0.3 0.3") + film("4", "0.4 0.4")

func TestParse(t *testing.T) {
	d, err := parse("test", header+
		lineOf("paint-K", "berns-2016", "Test", "test", "400+100", "0.5 1")+
		lineOf("paint-S", "berns-2016", "Test", "test", "400+100", "1 2")+
		goodFilm+
		lineOf("powder", "usgs-splib07", "sample 1", "test", "401.5 620", "0.3 0.6"))
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Paints) != 1 || len(d.Films) != 1 || len(d.Powders) != 1 {
		t.Fatalf("%d paints, %d films, %d powders, want one of each", len(d.Paints), len(d.Films), len(d.Powders))
	}
	if c := d.Paints[0].Constants[1]; c.K != 1 || c.S != 2 {
		t.Errorf("K and S at 500 nm are %v", c)
	}
	if f := d.Films[0]; len(f.Over) != 4 || f.Over[3].R[0] != 0.4 || f.Record.Locator != "X_1_1_p1" {
		t.Errorf("film %+v", f)
	}
	if at := d.Powders[0].R.At; at[0] != 401.5 || at[1] != 620 {
		t.Errorf("powder is read at %v", at)
	}
}

func TestParseRefuses(t *testing.T) {
	for name, tt := range map[string]struct{ text, want string }{
		"no header":           {"film\n", "header"},
		"missing column":      {header + "film\tx\n", "columns"},
		"not a number":        {header + film("1", "0.1 x"), `value "x"`},
		"bad first step":      {header + lineOf("powder", "s", "l", "t", "a+10", "1 1"), "want first+step"},
		"bad wavelength":      {header + lineOf("powder", "s", "l", "t", "400 x", "1 1"), "not a number"},
		"wavelength missing":  {header + lineOf("powder", "s", "l", "t", "400", "1 1"), "1 wavelengths for 2 values"},
		"unknown kind":        {header + lineOf("pastel", "s", "l", "t", "400+10", "1 1"), "want paint-K"},
		"scattering alone":    {header + lineOf("paint-S", "s", "l", "t", "400+10", "1 1"), "does not follow"},
		"no shade":            {header + lineOf("film", "s", "l", "t", "400+10", "1 1"), "patch and shade"},
		"shade out of turn":   {header + film("2", "0.1 0.1"), "stands at place 1"},
		"three shades":        {header + film("1", "0.1 0.1") + film("2", "0.1 0.1") + film("3", "0.1 0.1"), "over 3 grounds"},
		"reflectance of NaN":  {header + lineOf("powder", "s", "l", "t", "400+10", "NaN 1"), "want 0 to 1"},
		"absorption below 0":  {header + lineOf("paint-K", "s", "l", "t", "400+10", "-1 1") + lineOf("paint-S", "s", "l", "t", "400+10", "1 1"), "K of 0 or more"},
		"scattering not told": {header + lineOf("paint-K", "s", "l", "t", "400+10", "1 1"), "S above 0"},
	} {
		_, err := parse("test", tt.text)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want a fault that says %q", name, err, tt.want)
		}
	}
}

func TestAttributionLines(t *testing.T) {
	for _, a := range Attributions() {
		if line := a.Line(); !strings.Contains(line, a.Author) || !strings.Contains(line, a.Year) || !strings.Contains(line, "Licence: "+a.Licence) {
			t.Errorf("%s: %s", a.Key, line)
		}
	}
	if a := AttributionOf(Record{Source: "nobody"}); a.Key != "nobody" || a.Author != "" {
		t.Errorf("a data set nobody knows: %+v", a)
	}
}

func FuzzParse(f *testing.F) {
	f.Add(header + goodFilm)
	f.Add(header + lineOf("powder", "s", "l", "t", "400 500", "1 1"))
	f.Fuzz(func(t *testing.T, text string) {
		d, err := parse("fuzz", text)
		if err == nil && d.check() != nil {
			t.Errorf("accepted, but %v", d.check())
		}
	})
}
