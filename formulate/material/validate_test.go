package material

import (
	"math"
	"strings"
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// sound is an entry that nothing is wrong with; the rows below spoil it.
func sound() *Material {
	return &Material{
		ID: "loch-blue", Name: "Loch blue", Kind: Pigment, Family: "blue", CIName: "PB99:1", CINumber: "77510",
		Classes: []Class{Sulphide}, Tags: []string{"mineral"},
		Density:       []evidence.Reading[quantity.Density]{{Value: 2.3, Source: "book"}, {Low: 2.2, High: 2.4, Source: FromMemory}},
		OilAbsorption: []OilReading{{ValueVol: 32, Method: RubOut, Source: "book"}},
		ArtistsDemand: []DemandReading{{Value: 40, Consistency: TubeColour, Authority: "book", Source: "book"}},
		Opacity:       []Statement{{Text: "opaque", Source: "book"}},
		Muller:        &MullerBehaviour{Behaviour: "steady", Source: CommonPractice},
		Limits:        []Limit{{Authority: "OSHA", Kind: "8 h", MgPerM3: 1, Source: "book"}},
		Hazards:       Hazards{Assessed: true, Codes: []string{"H360Df"}, CodesSource: "book"},
	}
}

func known(key string) bool { return key == "book" }

func TestValidateSound(t *testing.T) {
	if p := Validate(sound(), known); len(p) != 0 {
		t.Errorf("a sound entry has problems: %+v", p)
	}
}

func TestValidateFindsEachFault(t *testing.T) {
	density := func(r evidence.Reading[quantity.Density]) func(*Material) {
		return func(m *Material) { m.Density = []evidence.Reading[quantity.Density]{r} }
	}
	oil := func(r OilReading) func(*Material) {
		return func(m *Material) { m.OilAbsorption = []OilReading{r} }
	}
	for _, c := range []struct {
		name  string
		spoil func(*Material)
		field string
		key   string
		what  string // in the message
	}{
		{"id with capitals", func(m *Material) { m.ID = "Loch" }, "", "", "not an id"},
		{"id with end hyphen", func(m *Material) { m.ID = "loch-" }, "", "", "not an id"},
		{"no name", func(m *Material) { m.Name = " " }, "name", "", "missing"},
		{"no kind", func(m *Material) { m.Kind = "" }, "kind", "", "missing"},
		{"other kind", func(m *Material) { m.Kind = "dye" }, "kind", "", "unknown kind"},
		{"other family", func(m *Material) { m.Family = "teal" }, "family", "", "unknown family"},
		{"Colour Index in words", func(m *Material) { m.CIName = "Pigment Blue 27" }, "ci-name", "", "written like"},
		{"Colour Index number", func(m *Material) { m.CINumber = "7751" }, "ci-number", "", "written like"},
		{"empty synonym", func(m *Material) { m.Synonyms = []string{""} }, "synonyms", "", "empty"},
		{"other class", func(m *Material) { m.Classes = []Class{"sulfide"} }, "classes", "", "unknown class"},
		{"class twice", func(m *Material) { m.Classes = []Class{Lead, Lead} }, "classes", "", "twice"},
		{"tag with a space", func(m *Material) { m.Tags = []string{"old stuff"} }, "tags", "", "not a tag"},
		{"no value", density(evidence.Reading[quantity.Density]{Source: "book"}), "density", "value", "no value"},
		{"both forms", density(evidence.Reading[quantity.Density]{Value: 2, Low: 1, High: 3, Source: "book"}), "density", "value", "not both"},
		{"half a range", density(evidence.Reading[quantity.Density]{Low: 2, Source: "book"}), "density", "low", "go together"},
		{"range upside down", density(evidence.Reading[quantity.Density]{Low: 3, High: 2, Source: "book"}), "density", "low", "above"},
		{"negative", density(evidence.Reading[quantity.Density]{Value: -2, Source: "book"}), "density", "value", "outside"},
		{"not a number", density(evidence.Reading[quantity.Density]{Value: quantity.Density(math.NaN()), Source: "book"}), "density", "value", "outside"},
		{"infinite", density(evidence.Reading[quantity.Density]{Value: quantity.Density(math.Inf(1)), Source: "book"}), "density", "value", "outside"},
		{"no source", density(evidence.Reading[quantity.Density]{Value: 2}), "density", "source", "missing"},
		{"other source", density(evidence.Reading[quantity.Density]{Value: 2, Source: "hearsay"}), "density", "source", "unknown source"},
		{"oil in both units", oil(OilReading{Value: 30, ValueVol: 32, Method: RubOut, Source: "book"}), "oil-absorption", "volume", "not both"},
		{"oil by other method", oil(OilReading{Value: 30, Method: "stirring", Source: "book"}), "oil-absorption", "method", "unknown method"},
		{"oil absurd", oil(OilReading{Value: 1500, Method: RubOut, Source: "book"}), "oil-absorption", "value", "outside"},
		{"demand by other consistency", func(m *Material) { m.ArtistsDemand[0].Consistency = "soft" }, "artists-demand", "consistency", "unknown consistency"},
		{"demand without authority", func(m *Material) { m.ArtistsDemand[0].Authority = "" }, "artists-demand", "authority", "missing"},
		{"statement without text", func(m *Material) { m.Opacity[0].Text = "" }, "opacity", "text", "missing"},
		{"statement without source", func(m *Material) { m.Opacity[0].Source = "" }, "opacity", "source", "missing"},
		{"other muller behaviour", func(m *Material) { m.Muller.Behaviour = "sings" }, "muller", "behaviour", "unknown behaviour"},
		{"limit without a figure", func(m *Material) { m.Limits[0].MgPerM3 = 0 }, "limits", "ppm", "no value"},
		{"limit of nobody", func(m *Material) { m.Limits[0].Authority = "" }, "limits", "authority", "missing"},
		{"part without an amount", func(m *Material) { m.Parts = []Part{{ID: "oil"}} }, "parts", "parts", "missing"},
		{"hazards not assessed", func(m *Material) { m.Hazards.Assessed = false }, "hazards", "assessed", "must be true"},
		{"assessed as nothing", func(m *Material) { m.Hazards = Hazards{Assessed: true} }, "hazards", "assessed", "say what"},
		{"hazard code", func(m *Material) { m.Hazards.Codes = []string{"R45"} }, "hazards.codes", "", "written like"},
		{"codes without source", func(m *Material) { m.Hazards.CodesSource = "" }, "hazards", "codes-source", "missing"},
	} {
		m := sound()
		c.spoil(m)
		problems := Validate(m, known)
		found := false
		for _, p := range problems {
			found = found || p.Field == c.field && p.Key == c.key && strings.Contains(p.What, c.what)
		}
		if !found {
			t.Errorf("%s: no problem with %s.%s saying %q; got %+v", c.name, c.field, c.key, c.what, problems)
		}
	}
}

func TestValidateFindsAll(t *testing.T) {
	m := sound()
	m.Name, m.Kind, m.Density[0].Source, m.OilAbsorption[0].Method = "", "dye", "", ""
	if got := len(Validate(m, known)); got != 4 {
		t.Errorf("%d problems, want 4", got)
	}
}

func TestMissing(t *testing.T) {
	m := sound()
	if got := m.Missing(); got != nil {
		t.Errorf("a whole entry lacks %v", got)
	}
	m.OilAbsorption = nil
	if got := m.Missing(); got != nil {
		t.Errorf("an entry with a published demand lacks %v", got)
	}
	m.ArtistsDemand[0].Aside = "a lower bound"
	m.Density = nil
	if got := strings.Join(m.Missing(), " "); got != "density oil-absorption" {
		t.Errorf("got %q, want density and oil-absorption", got)
	}
}
