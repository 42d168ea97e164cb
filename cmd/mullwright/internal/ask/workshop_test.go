package ask

import (
	"errors"
	"strings"
	"testing"

	"mullwright/formulate/shelf"
)

// A jar that the catalogue lacks is no dead end: every look-up says where to
// go on, and the shelf's own error stays within reach.
func TestUnknownNamesPointOn(t *testing.T) {
	w := workshop(t)
	for what, look := range map[string]func() error{
		"pigment":       func() error { _, err := w.Pigment("violet hematite"); return err },
		"pigment named": func() error { _, err := w.PigmentNamed("violet hematite"); return err },
		"any":           func() error { _, err := w.Any("violet hematite"); return err },
		"material":      func() error { _, err := w.Material("violet hematite"); return err },
		"rubout":        func() error { _, err := (&RubOut{Pigment: []string{"violet hematite"}}).Request(w); return err },
		"density":       func() error { _, err := (&PowderDensity{Pigment: []string{"violet hematite"}}).Request(w); return err },
	} {
		err := look()
		var unknown *shelf.UnknownError
		if !errors.As(err, &unknown) || unknown.Table != "pigment" {
			t.Errorf("%s: %v, want an unknown pigment", what, err)
			continue
		}
		if want := "'mullwright pigments' or, for a jar of your own, 'mullwright help catalogue-file'"; !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %q points nowhere", what, err)
		}
	}
	_, err := w.Medium("whale oil")
	if err == nil || !strings.Contains(err.Error(), "'mullwright media'") {
		t.Errorf("medium: %v, want a pointer to 'mullwright media'", err)
	}
}
