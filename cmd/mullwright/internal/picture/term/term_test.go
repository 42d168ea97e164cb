package term

import (
	"math"
	"strings"
	"testing"
)

func env(pairs ...string) func(string) string {
	m := map[string]string{}
	for i := 0; i+1 < len(pairs); i += 2 {
		m[pairs[i]] = pairs[i+1]
	}
	return func(k string) string { return m[k] }
}

func TestLookOf(t *testing.T) {
	for _, tt := range []struct {
		name     string
		env      func(string) string
		terminal bool
		want     Look
	}{
		{"nothing known", env(), true, Look{}},
		{"truecolour terminal", env("COLORTERM", "truecolor", "LANG", "en_GB.UTF-8"), true, Look{true, true}},
		{"other spelling", env("COLORTERM", "24bit", "LC_CTYPE", "C.utf8"), true, Look{true, true}},
		{"direct terminal", env("TERM", "xterm-direct"), true, Look{Colour: true}},
		{"not a terminal", env("COLORTERM", "truecolor", "LANG", "en_GB.UTF-8"), false, Look{Unicode: true}},
		{"NO_COLOR", env("COLORTERM", "truecolor", "NO_COLOR", "1"), true, Look{}},
		{"dumb", env("COLORTERM", "truecolor", "TERM", "dumb"), true, Look{}},
		{"256 colours only", env("TERM", "xterm-256color"), true, Look{}},
		{"LC_ALL rules", env("LC_ALL", "C", "LANG", "en_GB.UTF-8"), true, Look{}},
	} {
		if got := LookOf(tt.env, tt.terminal); got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

func TestBlock(t *testing.T) {
	for _, tt := range []struct {
		look  Look
		hex   string
		cells int
		want  string
	}{
		{Look{Colour: true}, "#2a3f9d", 4, "\x1b[38;2;42;63;157;48;2;42;63;157m####\x1b[0m"},
		{Look{Colour: true, Unicode: true}, "#2a3f9d", 2, "\x1b[38;2;42;63;157;48;2;42;63;157m██\x1b[0m"},
		{Look{Unicode: true}, "#2a3f9d", 4, ""},
		{Look{Colour: true}, "", 4, ""},
		{Look{Colour: true}, "#12345", 4, ""},
		{Look{Colour: true}, "#gggggg", 4, ""},
		{Look{Colour: true}, "#2a3f9d", 0, ""},
	} {
		if got := tt.look.Block(tt.hex, tt.cells); got != tt.want {
			t.Errorf("%+v.Block(%q, %d) = %q, want %q", tt.look, tt.hex, tt.cells, got, tt.want)
		}
	}
}

func TestBar(t *testing.T) {
	for _, tt := range []struct {
		look Look
		r    Range
		full float64
		want string
	}{
		{Look{}, Range{20, 50, 80}, 100, "  ---o--  "},
		{Look{Unicode: true}, Range{0, 0, 100}, 100, "●━━━━━━━━━"},
		{Look{}, Range{50, 50, 50}, 100, "     o    "},
		{Look{}, Range{90, 200, 300}, 100, "        -o"},
		{Look{}, Range{1, math.NaN(), 3}, 100, "          "},
		{Look{}, Range{1, 2, 3}, 0, "          "},
	} {
		if got := tt.look.Bar(tt.r, tt.full, 10); got != tt.want {
			t.Errorf("%+v.Bar(%+v, %g) = %q, want %q", tt.look, tt.r, tt.full, got, tt.want)
		}
	}
}

func TestBars(t *testing.T) {
	rows := []Row{
		{Name: "yellow ochre", Range: Range{38, 56, 82}, Text: "56 (38 to 82)", Hex: "#b98a3c"},
		{Name: "lead white", Range: Range{9, 12, 16}, Text: "12 (9 to 16)"},
	}
	want := "yellow ochre              ------o--------  56 (38 to 82)\n" +
		"lead white       -o-                       12 (9 to 16)\n"
	if got := (Look{}).Bars(rows, 56); got != want {
		t.Errorf("plain bars:\n%s\nwant\n%s", got, want)
	}
	if got := (Look{Colour: true}).Bars(rows, 56); !strings.Contains(got, "\x1b[38;2;185;138;60;48;2;185;138;60m##\x1b[0m yellow ochre") || !strings.Contains(got, "\n   lead white") {
		t.Errorf("bars in colour: %q", got)
	}
	if got := (Look{}).Bars(rows, 56); strings.Contains(got, "\x1b") {
		t.Errorf("plain bars hold escapes: %q", got)
	}
}
