package ask

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/BurntSushi/toml"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/shelf"
)

// A NewJar is a jar of pigment that no catalogue holds, as its maker describes
// it. The tests of a powder measure what it needs to become an entry.
type NewJar struct{ Name, Family string }

func (j *NewJar) fields() []Field {
	return []Field{
		{Name: "name", One: &j.Name, Help: "for a jar that the catalogue lacks: what you call it, as in \"Violet hematite\""},
		{Name: "family", One: &j.Family, Help: "its hue, for --save: " + strings.Join(material.Families(), ", ") + " (default the hue in its name)"},
	}
}

// pigment is the pigment of a test: the one that is named from the catalogue,
// the new jar, or none.
func (j *NewJar) pigment(w *Workshop, listed []string) (*material.Material, error) {
	switch {
	case j.Name == "" && j.Family != "":
		return nil, at("family", errors.New("this is the hue of a jar that the catalogue lacks; give its --name too"))
	case j.Name == "":
		m, err := w.onePigment(listed)
		var unknown *UnknownName
		if errors.As(err, &unknown) {
			return nil, fmt.Errorf("%w; to test such a jar write --name %q instead", err, listed[0])
		}
		return m, err
	case len(listed) > 0:
		return nil, at("name", fmt.Errorf("this is for a jar that the catalogue lacks, and %s is named too; give one of the two", listed[0]))
	}
	m, err := j.describe(w)
	return m, at("name", err)
}

// describe makes the entry of a new jar, as far as it is known.
func (j *NewJar) describe(w *Workshop) (*material.Material, error) {
	name := strings.TrimSpace(j.Name)
	const longest = 80
	if len(name) > longest || strings.ContainsFunc(name, unicode.IsControl) {
		return nil, fmt.Errorf("%q is not one line of at most %d letters", j.Name, longest)
	}
	id := shelf.IDOf(name)
	if id == "" {
		return nil, fmt.Errorf("%q holds no letter a to z and no digit, of which its id is made", j.Name)
	}
	for _, n := range []string{name, id} {
		known, err := w.Pigments.Lookup(n)
		var unknown *shelf.UnknownError
		if err == nil {
			return nil, fmt.Errorf("%q is in the catalogue, as %s: name that, or call your jar something else", j.Name, known.ID)
		}
		if !errors.As(err, &unknown) {
			return nil, err
		}
	}
	m := &material.Material{ID: id, Name: name, Kind: material.Pigment, Family: j.Family, Own: true}
	if m.Family == "" {
		m.Family = familyIn(name)
	}
	return m, nil
}

// familyIn is the hue that a name says, "" for none.
func familyIn(name string) string {
	for _, word := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if slices.Contains(material.Families(), word) {
			return word
		}
	}
	return ""
}

// ownDensity reads a density that the maker measured.
func ownDensity(text string) ([]evidence.Reading[quantity.Density], error) {
	d, err := quantity.ParseDensity(text)
	if err != nil {
		return nil, err
	}
	return []evidence.Reading[quantity.Density]{{Value: d, Source: material.OwnMeasurement}}, nil
}

// ownAbsorption reads an oil absorption that the maker rubbed out.
func ownAbsorption(text string) ([]material.OilReading, error) {
	r := material.OilReading{Method: material.RubOut, Source: material.OwnMeasurement}
	if v, err := quantity.ParseAbsorptionVolume(text); err == nil {
		r.ValueVol = v
		return []material.OilReading{r}, nil
	}
	m, err := quantity.ParseAbsorption(text)
	if err != nil {
		return nil, err
	}
	r.Value = m
	return []material.OilReading{r}, nil
}

// wholeEntry prints an entry of the maker's own with all that is known of it, as
// a catalogue file that stands by itself.
func (w *Workshop) wholeEntry(m *material.Material) (string, error) {
	if missing := m.Missing(); len(missing) > 0 {
		return "", fmt.Errorf("%s cannot be saved yet: %s", m.ID, howToFind[missing[0]])
	}
	if m.Family == "" {
		return "", at("family", fmt.Errorf("the name %q says no hue; say one of %s", m.Name, strings.Join(material.Families(), ", ")))
	}
	cited := map[string]material.Source{}
	problems := material.Validate(m, func(key string) bool {
		src, ok := w.Pigments.Source(key)
		if ok {
			cited[key] = src
		}
		return ok
	})
	if len(problems) > 0 {
		return "", fmt.Errorf("%s cannot be saved: %s: %s", m.ID, problems[0].Field, problems[0].What)
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s, a jar of your own, for --catalogue.\n", m.Name)
	e := toml.NewEncoder(&b)
	e.Indent = ""
	if len(cited) > 0 {
		if err := e.Encode(map[string]any{"source": cited}); err != nil {
			return "", err
		}
	}
	if err := e.Encode(map[string]any{"pigment": map[string]*material.Material{m.ID: m}}); err != nil {
		return "", err
	}
	return b.String(), nil
}

// howToFind says how a field that an entry lacks is found.
var howToFind = map[string]string{
	"density":        "its density is missing; give --density, as 'mullwright powder density' finds it",
	"oil-absorption": "its oil absorption is missing; give --oil-absorption, as 'mullwright rubout' finds it",
}

// fieldEntry prints one field of a pigment of the catalogue, as a file that lays
// it over the rest: one table for each reading.
func fieldEntry[R any](id, field, comment string, readings []R) (string, error) {
	var b bytes.Buffer
	b.WriteString(comment)
	for _, r := range readings {
		fmt.Fprintf(&b, "\n[[pigment.%s.%s]]\n", id, field)
		if err := toml.NewEncoder(&b).Encode(r); err != nil {
			return "", err
		}
	}
	return b.String(), nil
}
