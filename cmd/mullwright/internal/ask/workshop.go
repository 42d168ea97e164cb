package ask

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"

	"mullwright/cmd/mullwright/internal/book"
	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/shelf"
	"mullwright/formulate/strict"
	"mullwright/media"
	"mullwright/pigments"
)

// A Workshop is what the maker works with: the two catalogues with the maker's
// own files laid over them, and what their own tests have taught.
type Workshop struct {
	Pigments *shelf.Shelf
	Media    *shelf.Shelf
	// Learned lays over an ingredient what the maker's own book teaches of it; nil
	// leaves the catalogue's.
	Learned func(formulate.Ingredient) (formulate.Ingredient, error)
	// Prices are the prices in the maker's book, by id; nil for none.
	Prices func() (map[string]quantity.PricePerGram, error)
	// Fits refuses an entry for the maker's book that is more likely a slip; nil
	// takes any.
	Fits func(*book.Entry) error
}

// Open opens the catalogues and lays the maker's files over them, the default
// one of the configuration folder first.
func Open(configDir string, files []string) (*Workshop, error) {
	w := &Workshop{Pigments: pigments.New(), Media: media.New()}
	if configDir != "" {
		own := filepath.Join(configDir, "mullwright", "catalogue.toml")
		if _, err := os.Stat(own); err == nil {
			files = append([]string{own}, files...)
		}
	}
	for _, f := range files {
		text, err := ReadFile(f)
		if err != nil {
			return nil, err
		}
		if err := w.Add(f, text); err != nil {
			return nil, err
		}
	}
	return w, nil
}

// Add lays one catalogue file over both catalogues.
func (w *Workshop) Add(file, text string) error {
	var faults strict.Faults
	for _, s := range []*shelf.Shelf{w.Pigments, w.Media} {
		err := s.Add(file, text)
		var f strict.Faults
		switch {
		case errors.As(err, &f):
			for _, x := range f {
				if !containsFault(faults, x) {
					faults = append(faults, x)
				}
			}
		case err != nil:
			return err
		}
	}
	return faults.Err()
}

func containsFault(list strict.Faults, f strict.Fault) bool {
	for _, x := range list {
		if x == f {
			return true
		}
	}
	return false
}

// An UnknownName is a name that no entry has, with where to look further.
type UnknownName struct{ *shelf.UnknownError }

func (u *UnknownName) Error() string {
	if _, err := quantity.ParseMass(u.Name); err == nil {
		return fmt.Sprintf("%q is an amount, not a name: say what it is of, as in --pigment-mass %s", u.Name, strings.ReplaceAll(u.Name, " ", ""))
	}
	return u.UnknownError.Error() + "; " + furtherHelp[u.Table]
}

func (u *UnknownName) Unwrap() error { return u.UnknownError }

// furtherHelp says where else a name may be looked for, by catalogue.
var furtherHelp = map[string]string{
	"pigment": "see 'mullwright pigments' or, for a jar of your own, 'mullwright help catalogue-file'",
	"medium":  "see 'mullwright media' or, for a bottle of your own, 'mullwright help catalogue-file'",
}

// Look finds an entry on a shelf. The error is an [*UnknownName] or a
// [*shelf.AmbiguousError] where the name is at fault.
func Look(s *shelf.Shelf, name string) (*material.Material, error) {
	m, err := s.Lookup(name)
	var unknown *shelf.UnknownError
	if errors.As(err, &unknown) {
		return nil, &UnknownName{unknown}
	}
	return m, err
}

// PigmentNamed finds a pigment or an extender.
func (w *Workshop) PigmentNamed(name string) (*material.Material, error) {
	return Look(w.Pigments, name)
}

// MediumNamed finds an oil, solvent, gum or additive.
func (w *Workshop) MediumNamed(name string) (*material.Material, error) {
	return Look(w.Media, name)
}

// Pigment looks a pigment or an extender up and makes it ready.
func (w *Workshop) Pigment(name string) (formulate.Ingredient, error) {
	return w.ready(w.Pigments, name)
}

// Medium looks an oil, solvent, gum or additive up and makes it ready.
func (w *Workshop) Medium(name string) (formulate.Ingredient, error) {
	return w.ready(w.Media, name)
}

// Material looks a name up in both catalogues, pigments first.
func (w *Workshop) Material(name string) (*material.Material, error) {
	m, err := w.PigmentNamed(name)
	var unknown *shelf.UnknownError
	if err == nil || !errors.As(err, &unknown) {
		return m, err
	}
	if m, merr := w.MediumNamed(name); !errors.As(merr, &unknown) {
		return m, merr
	}
	return nil, err
}

// Any looks in both catalogues, pigments first.
func (w *Workshop) Any(name string) (formulate.Ingredient, error) {
	in, err := w.Pigment(name)
	var unknown *shelf.UnknownError
	if err == nil || !errors.As(err, &unknown) {
		return in, err
	}
	m, merr := w.Medium(name)
	if errors.As(merr, &unknown) {
		return in, err
	}
	return m, merr
}

func (w *Workshop) ready(s *shelf.Shelf, name string) (formulate.Ingredient, error) {
	m, err := Look(s, name)
	if err != nil {
		return formulate.Ingredient{}, err
	}
	in, err := formulate.NewIngredient(m)
	if err != nil || w.Learned == nil {
		return in, err
	}
	return w.Learned(in)
}

// Cite prints the source behind a key.
func (w *Workshop) Cite(key string) string {
	switch key {
	case material.CommonPractice, material.FromMemory, material.OwnMeasurement:
		return key
	}
	for _, s := range []*shelf.Shelf{w.Pigments, w.Media} {
		if src, ok := s.Source(key); ok {
			return src.Cite()
		}
	}
	return key
}

// prices are by id.
type prices map[string]quantity.PricePerGram

// fits is Fits, unless the maker is sure.
func (w *Workshop) fits(e *book.Entry) error {
	if w.Fits == nil || e.Sure {
		return nil
	}
	return w.Fits(e)
}

// readPrices reads "id=0.12/g" for each ingredient, over the prices of the book.
func (w *Workshop) readPrices(list []string) (prices, error) {
	var p prices
	if w.Prices != nil {
		kept, err := w.Prices()
		if err != nil {
			return nil, err
		}
		p = maps.Clone(kept)
	}
	if len(list) == 0 {
		return p, nil
	}
	if p == nil {
		p = prices{}
	}
	for _, text := range list {
		n, err := splitNamed(text)
		if err == nil && !n.given {
			err = fmt.Errorf("%q: the price is missing, as in %s=0.12/g", text, n.name)
		}
		if err != nil {
			return nil, err
		}
		v, err := quantity.ParsePricePerGram(n.value)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", n.name, err)
		}
		in, err := w.Any(n.name)
		if err != nil {
			return nil, err
		}
		p[in.Material.ID] = v
	}
	return p, nil
}
