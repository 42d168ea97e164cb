package formulate

import (
	"errors"
	"testing"
)

func TestSay(t *testing.T) {
	for want, got := range map[string]string{
		"4000 g of water":   say("%.2g g of water", 4000.4),
		"0.0123 and 12":     say("%.3g and %.2g", 0.01234, 12.3),
		"120 g, 2, 3.0":     say("%.2g g, %d, %.1f", 123.0, 2, 3.0),
		"80 %, as asked":    say("%.3g %%, %s", 80.0, "as asked"),
		"1230000 and 1e-07": say("%.3g and %g", 1.234e6, 1e-7),
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if err := refuse("%.2g g: %w", 1500.0, errors.ErrUnsupported); err.Error() != "1500 g: "+errors.ErrUnsupported.Error() || !errors.Is(err, errors.ErrUnsupported) {
		t.Error(err)
	}
}
