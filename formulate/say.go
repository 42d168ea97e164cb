package formulate

import (
	"fmt"
	"strconv"
	"strings"
)

// plain is a number within a sentence: %.2g prints it to two figures as people
// write amounts, 4000 and not 4e+03.
type plain float64

// Format implements fmt.Formatter.
func (p plain) Format(s fmt.State, verb rune) {
	text := fmt.Sprintf(fmt.FormatString(s, verb), float64(p))
	if strings.Contains(text, "e+") {
		if v, err := strconv.ParseFloat(strings.TrimSpace(text), 64); err == nil {
			text = strconv.FormatFloat(v, 'f', -1, 64)
		}
	}
	fmt.Fprint(s, text)
}

// say is fmt.Sprintf with plain numbers.
func say(format string, args ...any) string { return fmt.Sprintf(format, inPlain(args)...) }

// refuse is fmt.Errorf with plain numbers.
func refuse(format string, args ...any) error { return fmt.Errorf(format, inPlain(args)...) }

func inPlain(args []any) []any {
	out := make([]any, len(args))
	for i, a := range args {
		if v, ok := a.(float64); ok {
			a = plain(v)
		}
		out[i] = a
	}
	return out
}
