package evidence

import (
	"testing"

	"mullwright/formulate/quantity"
)

func TestRangeOfAFunction(t *testing.T) {
	r := Range[quantity.Mass]{Low: 1, Typical: 2, High: 4}
	twice := func(m quantity.Mass) quantity.Volume { return quantity.Volume(2 * m) }
	if got, want := Rising(r, twice), (Range[quantity.Volume]{Low: 2, Typical: 4, High: 8}); got != want {
		t.Errorf("Rising(%v, 2m) = %v, want %v", r, got, want)
	}
	inverse := func(m quantity.Mass) quantity.Ratio { return quantity.Ratio(1 / m) }
	if got, want := Falling(r, inverse), (Range[quantity.Ratio]{Low: 0.25, Typical: 0.5, High: 1}); got != want {
		t.Errorf("Falling(%v, 1/m) = %v, want %v", r, got, want)
	}
	if got, want := r.Times(0.5), (Range[quantity.Mass]{Low: 0.5, Typical: 1, High: 2}); got != want {
		t.Errorf("%v.Times(0.5) = %v, want %v", r, got, want)
	}
}
