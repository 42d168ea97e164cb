package picture

import "fmt"

// PageSize is a sheet of paper.
type PageSize struct {
	Name string
	W, H float64 // millimetres
}

// The sheets printers take.
var (
	A4     = PageSize{"A4", 210, 297}
	Letter = PageSize{"Letter", 215.9, 279.4}
)

// PageNamed finds a sheet by name.
func PageNamed(name string) (PageSize, error) {
	for _, p := range []PageSize{A4, Letter} {
		if p.Name == name || name == "a4" && p == A4 || name == "letter" && p == Letter {
			return p, nil
		}
	}
	return PageSize{}, fmt.Errorf("paper %q: want A4 or Letter", name)
}

func (p PageSize) orA4() PageSize {
	if p.W == 0 {
		return A4
	}
	return p
}
