package optics

import (
	"testing"

	"mullwright/formulate/quantity"
)

// The names of steps are what charts and tables print.
func TestStepNames(t *testing.T) {
	for x, want := range map[Films]string{0.25: "¼ film", 0.5: "½ film", 1: "1 film", 2: "2 films", 0.75: "0.75 films", 4: "4 films"} {
		if got := x.String(); got != want {
			t.Errorf("%v films are called %q, want %q", float64(x), got, want)
		}
	}
	ladder := TintLadder{White: []quantity.Parts{0, 1, 3, 0.5}}
	for i, want := range []string{"masstone", "1 : 1 white", "1 : 3 white", "1 : 0.5 white"} {
		if got := ladder.Step(i); got != want {
			t.Errorf("step %d is called %q, want %q", i, got, want)
		}
	}
}

// A ground is named by its place among the others.
func TestGroundNames(t *testing.T) {
	for _, tt := range []struct {
		grounds []Reflectance
		want    []string
	}{
		{[]Reflectance{0.912, 0.05}, []string{"white, 91 %", "black, 5 %"}},
		{[]Reflectance{0.9, 0.4, 0.05}, []string{"white, 90 %", "grey, 40 %", "black, 5 %"}},
		{[]Reflectance{0.9, 0.6, 0.2, 0.05}, []string{"white, 90 %", "light grey, 60 %", "dark grey, 20 %", "black, 5 %"}},
	} {
		l := GlazeLadder{Grounds: tt.grounds}
		for i, want := range tt.want {
			if got := l.Ground(i); got != want {
				t.Errorf("ground %d of %v is called %q, want %q", i, tt.grounds, got, want)
			}
		}
	}
}
