package cli

import (
	"strings"

	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/picture/term"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
)

// look is what the terminal can show; nothing where the answer goes elsewhere
// or in another format.
func (e *env) look() term.Look {
	return term.LookOf(e.Getenv, e.Width > 0 && render.Format(e.format) == render.Text)
}

// chipCells is how wide a chip stands in the text, chipLines how high.
const chipCells, chipLines = 8, 2

// chip shows a colour in the text: a block over its value where the terminal
// can.
func (e *env) chip() render.Chip {
	l := e.look()
	return func(hex string) string {
		block := l.Block(hex, chipCells)
		if block == "" {
			return hex
		}
		return strings.Repeat(block+"\n", chipLines) + hex
	}
}

// charts reports whether the answer goes to a terminal that shows small charts.
func (e *env) charts() bool {
	return e.Width > 0 && render.Format(e.format) == render.Text && e.Getenv("TERM") != "dumb"
}

// bars puts small bars before an answer.
func (e *env) bars(s *render.Sheet, v picture.BarsData) {
	lines := strings.Split(strings.TrimRight(e.look().Bars(show.TerminalBars(v), e.width()-2), "\n"), "\n")
	sec := render.Section{Title: v.Title, Under: v.Axis, Drawn: lines}
	if e.look().Colour {
		sec.Lines = []string{"Blocks are measured colours; 'mullwright swatch' names their data and licences."}
	}
	s.First(sec)
}
