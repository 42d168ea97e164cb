package cli

import (
	"errors"
	"fmt"

	"mullwright/formulate"
)

// sayWet adds to a refusal of wet press cake how to ask for the driest paint that
// it allows.
func sayWet(err error) error {
	var wet *formulate.TooWetError
	if !errors.As(err, &wet) {
		return err
	}
	say := "--strength powder"
	switch {
	case wet.Powder:
	case wet.Pigment > 0:
		say += fmt.Sprintf(" --pigment-volume %.1f%%", 100*float64(wet.PigmentToAsk()))
	default:
		say += fmt.Sprintf(" --body %.2f", float64(wet.BodyToAsk()))
	}
	return fmt.Errorf("%w (%s)", err, say)
}
