package cli

import (
	"bytes"
	"strings"
	"testing"
)

// Colour and bars go to a terminal that can show them, and nowhere else.
func TestTerminalPictures(t *testing.T) {
	const chip, bar = "\x1b[38;2;", "━●"
	for _, tt := range []struct {
		name        string
		width       int
		env         map[string]string
		args        string
		chips, bars bool
	}{
		{"truecolour terminal", 80, map[string]string{"COLORTERM": "truecolor", "LANG": "C.UTF-8"}, "compare ultramarine-blue cobalt-blue", true, true},
		{"no colour wished", 80, map[string]string{"COLORTERM": "truecolor", "LANG": "C.UTF-8", "NO_COLOR": "1"}, "compare ultramarine-blue cobalt-blue", false, true},
		{"terminal of few colours", 80, map[string]string{"TERM": "xterm", "LANG": "C.UTF-8"}, "compare ultramarine-blue cobalt-blue", false, true},
		{"dumb terminal", 80, map[string]string{"TERM": "dumb", "COLORTERM": "truecolor", "LANG": "C.UTF-8"}, "compare ultramarine-blue cobalt-blue", false, false},
		{"pipe", 0, map[string]string{"COLORTERM": "truecolor", "LANG": "C.UTF-8"}, "compare ultramarine-blue cobalt-blue", false, false},
		{"data", 80, map[string]string{"COLORTERM": "truecolor", "LANG": "C.UTF-8"}, "compare ultramarine-blue cobalt-blue --format csv", false, false},
		{"swatch", 80, map[string]string{"COLORTERM": "truecolor", "LANG": "C.UTF-8"}, "swatch cobalt-blue --tints", true, false},
		{"swatch in a pipe", 0, map[string]string{"COLORTERM": "truecolor", "LANG": "C.UTF-8"}, "swatch cobalt-blue --tints", false, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var out, complaints bytes.Buffer
			code := Main(strings.Fields(tt.args), Streams{Out: &out, Err: &complaints, Width: tt.width, Getenv: func(k string) string { return tt.env[k] }})
			if code != ExitOK {
				t.Fatalf("exit code %d: %s", code, complaints.String())
			}
			if got := strings.Contains(out.String(), chip); got != tt.chips {
				t.Errorf("chips: %v, want %v", got, tt.chips)
			}
			if got := strings.Contains(out.String(), bar); got != tt.bars {
				t.Errorf("bars: %v, want %v", got, tt.bars)
			}
			if !tt.chips && strings.Contains(out.String(), "\x1b") {
				t.Error("escapes in plain text")
			}
		})
	}
}
