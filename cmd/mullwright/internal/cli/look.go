package cli

import (
	"strings"

	"mullwright/cmd/mullwright/internal/picture/term"
	"mullwright/cmd/mullwright/internal/render"
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
