// Package term shows small pictures in a terminal: a block of colour, a range as
// a bar. Where the terminal cannot, or the user does not want colour, it prints
// plain text.
//
// Colour needs a terminal that says it takes 24-bit colours (COLORTERM, or a
// TERM ending in -direct); nearby colours of a smaller palette would be wrong
// colours. NO_COLOR, set to anything, switches it off. Line-drawing letters
// need a UTF-8 locale; without one, ASCII stands in.
package term

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Look is what a terminal can show.
type Look struct {
	Colour  bool // 24-bit colours
	Unicode bool
}

// LookOf finds out from the environment. Terminal says whether the output goes
// to one.
func LookOf(getenv func(string) string, terminal bool) Look {
	name := getenv("TERM")
	truecolour := getenv("COLORTERM") == "truecolor" || getenv("COLORTERM") == "24bit" ||
		strings.HasSuffix(name, "-direct") || getenv("WT_SESSION") != ""
	return Look{
		Colour:  terminal && truecolour && name != "dumb" && getenv("NO_COLOR") == "",
		Unicode: getenv("WT_SESSION") != "" || utf8Locale(getenv),
	}
}

// utf8Locale reads the locale as POSIX orders it: the first that is set rules.
func utf8Locale(getenv func(string) string) bool {
	for _, key := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := getenv(key); v != "" {
			v = strings.ToLower(v)
			return strings.Contains(v, "utf-8") || strings.Contains(v, "utf8")
		}
	}
	return false
}

// Block is a colour, #rrggbb, as a block so many cells wide, without blanks in
// it, so that text can be wrapped about it; nothing where there is no colour.
func (l Look) Block(hex string, cells int) string {
	r, g, b, ok := rgb(hex)
	if !ok || !l.Colour || cells < 1 {
		return ""
	}
	full := "#"
	if l.Unicode {
		full = "█"
	}
	return fmt.Sprintf("\x1b[38;2;%d;%d;%d;48;2;%d;%d;%dm%s\x1b[0m", r, g, b, r, g, b, strings.Repeat(full, cells))
}

func rgb(hex string) (r, g, b uint8, ok bool) {
	if len(hex) != 7 || hex[0] != '#' {
		return 0, 0, 0, false
	}
	v, err := strconv.ParseUint(hex[1:], 16, 24)
	return uint8(v >> 16), uint8(v >> 8), uint8(v), err == nil
}

// Range is a low, a middle and a high value.
type Range struct{ Low, Typical, High float64 }

// Bar draws a range on a scale from 0 to full, so many cells wide: the stretch
// from low to high, a mark at the middle. Values beyond the scale stand at its
// end. What cannot be placed gives an empty bar.
func (l Look) Bar(r Range, full float64, cells int) string {
	if cells < 1 {
		return ""
	}
	stretch, mark := '-', 'o'
	if l.Unicode {
		stretch, mark = '━', '●'
	}
	out := []rune(strings.Repeat(" ", cells))
	if !(full > 0) || bad(r.Low, r.Typical, r.High, full) {
		return string(out)
	}
	at := func(v float64) int {
		return int(math.Round(min(max(v/full, 0), 1) * float64(cells-1)))
	}
	for i := at(r.Low); i <= at(r.High); i++ {
		out[i] = stretch
	}
	out[at(r.Typical)] = mark
	return string(out)
}

func bad(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return true
		}
	}
	return false
}

// Row is one line of a comparison.
type Row struct {
	Name string
	Range
	Text string // the figure in words
	Hex  string // colour of the pigment, empty for none
}

// Bars draws one line a row: name, bar, figure, and the colour where shown. The
// bar takes what is left of the width, at least ten cells.
func (l Look) Bars(rows []Row, width int) string {
	name, text, full, chips := 0, 0, 0.0, false
	for _, r := range rows {
		name, text = max(name, len([]rune(r.Name))), max(text, len([]rune(r.Text)))
		if !bad(r.High) {
			full = max(full, r.High)
		}
		chips = chips || l.Colour && r.Hex != ""
	}
	if chips {
		width -= 3
	}
	cells := max(width-name-text-4, 10)
	var b strings.Builder
	for _, r := range rows {
		line := pad(r.Name, name) + "  " + l.Bar(r.Range, full, cells) + "  " + r.Text
		switch {
		case chips && r.Hex != "":
			line = l.Block(r.Hex, 2) + " " + line
		case chips:
			line = "   " + line
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return b.String()
}

func pad(s string, cells int) string {
	return s + strings.Repeat(" ", max(cells-len([]rune(s)), 0))
}
