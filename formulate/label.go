package formulate

import (
	"errors"
	"slices"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// LabelOn is what a label goes on.
type LabelOn string

const (
	OnTube   LabelOn = "tube"
	OnPan    LabelOn = "pan"
	OnBottle LabelOn = "bottle"
)

// LabelOns lists them.
func LabelOns() []LabelOn { return []LabelOn{OnTube, OnPan, OnBottle} }

// Labelled is one paint that wants a label: everything that is in it.
type Labelled struct {
	Name      string // "" for the names of its pigments
	Materials []*material.Material
}

// LabelRequest asks for labels. Maker, batch and date are printed as given.
type LabelRequest struct {
	Paints        []Labelled
	On            LabelOn
	Width, Height quantity.Length // 0 for the usual size
	Copies        int             // of each
	Maker         string
	Batch         string
	Date          string
}

// HazardText is one statement about what is in a paint.
type HazardText struct {
	Of     string // the material's name
	Text   string
	Source string
}

// LabelText is what the label of one paint says.
type LabelText struct {
	Name        string
	Index       []string // Colour Index names
	Binder      []string // all that is not powder, water left out
	Extenders   []string
	Hazards     []HazardText
	NotAssessed []string // names of what no hazard source was read for
}

// LabelResult is the labels.
type LabelResult struct {
	Request LabelRequest
	Texts   []LabelText // one for each paint
}

// Labels works out what labels say.
func Labels(req LabelRequest) (*LabelResult, error) {
	if len(req.Paints) == 0 {
		return nil, errors.New("nothing to label")
	}
	if req.Copies < 1 {
		return nil, errors.New("at least one copy is printed")
	}
	res := &LabelResult{Request: req}
	for _, p := range req.Paints {
		t := p.text()
		if t.Name == "" {
			return nil, errors.New("a label needs a pigment or a name")
		}
		res.Texts = append(res.Texts, t)
	}
	return res, nil
}

// text gathers what must stand on the label of a paint.
func (p Labelled) text() LabelText {
	t := LabelText{Name: p.Name}
	var pigments []string
	rags := false
	for _, m := range p.Materials {
		switch m.Kind {
		case material.Water:
			continue
		case material.Pigment:
			pigments = append(pigments, m.Name)
			if m.CIName != "" {
				t.Index = append(t.Index, m.CIName)
			}
		case material.Extender:
			t.Extenders = append(t.Extenders, m.Name)
		default:
			t.Binder = append(t.Binder, m.Name)
		}
		if !m.Hazards.Assessed {
			t.NotAssessed = append(t.NotAssessed, m.Name)
		}
		oil := slices.Contains(m.Classes, material.DryingOil)
		if m.Hazards.Listed {
			t.Hazards = append(t.Hazards, labelHazards(m, oil)...)
		}
		if oil && !rags {
			rags = true
			t.Hazards = append(t.Hazards, HazardText{m.Name, ragsLine, ragsSource})
		}
	}
	if t.Name == "" {
		t.Name = strings.Join(pigments, " + ")
	}
	if t.Name == "" {
		t.Name = strings.Join(append(t.Extenders, t.Binder...), " + ")
	}
	return t
}

// labelHazards are the statements of a material that belong on a label: what harms
// and how it is handled, and the hazard codes. Where none of its statements is of
// that sort and there is no code, what is said of its class stands for them.
func labelHazards(m *material.Material, oil bool) []HazardText {
	var out []HazardText
	for _, s := range m.Hazards.Statements {
		if oil && selfHeating(s.Text) || reassures(s.Text) || aboutSources(s.Text) {
			continue // one line stands for the rags
		}
		out = append(out, HazardText{m.Name, s.Text, s.Source})
	}
	if len(m.Hazards.Codes) > 0 {
		out = append(out, HazardText{m.Name, strings.Join(m.Hazards.Codes, " "), m.Hazards.CodesSource})
	}
	if len(out) > 0 {
		return out
	}
	for _, r := range hazardRules {
		if r.class != material.DryingOil && r.when&(DryPowder|Kept) != 0 && m.Has(r.class) {
			out = append(out, HazardText{m.Name, strings.TrimSuffix(r.text, "."), r.source})
		}
	}
	return out
}

// aboutSources reports whether a statement is about a test, a figure, or how a
// source or the law sorts the material: it stands on the sheet, not on a tube.
func aboutSources(text string) bool {
	for _, phrase := range []string{
		"µg", " ppm", "mg/m3", "at pH", "flash point", "volunteers", "body fluids",
		"codes are those", "codes turned", "the code H", "Sheets differ", "producers give",
		"left out of the EU", "is left out", "not stated", "not singled out", "dust limit", "No limit",
		"sale is restricted", "needs authorisation", "put down to",
	} {
		if strings.Contains(text, phrase) {
			return true
		}
	}
	return false
}

// ragsLine is short enough for a tube.
const (
	ragsLine   = "rags wet with it can take fire by themselves: spread them singly to harden, or drown them in a lidded metal can"
	ragsSource = "Hawkins, self-heating of oily rags; fire services' advice"
)

// selfHeating reports whether a statement is about rags that heat up, which the
// catalogue says of every drying oil in several ways.
func selfHeating(text string) bool {
	t := strings.ToLower(text)
	return strings.Contains(t, "rags") || strings.Contains(t, "self-heating")
}

// reassures reports whether a statement of the catalogue takes a hazard back: a
// label has no room for what is not the matter.
func reassures(text string) bool {
	for _, phrase := range []string{"did not irritate", "annulled", "no health class", "no hazard class"} {
		if strings.Contains(text, phrase) {
			return true
		}
	}
	return text == "does not burn" || strings.HasPrefix(text, "does not burn;")
}

// Labelled is the paint of a mull, to be labelled.
func (r *MullRequest) Labelled() Labelled { return Labelled{Materials: r.materials()} }

// Labelled is the paint of a watercolour, to be labelled.
func (r *WatercolourRequest) Labelled() Labelled { return Labelled{Materials: r.materials()} }

// Labelled is the ink, to be labelled.
func (r *InkRequest) Labelled() Labelled {
	if r.Oil != nil {
		return r.Oil.Labelled()
	}
	return Labelled{Materials: r.materials()}
}
