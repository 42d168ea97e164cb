package formulate_test

import (
	"slices"
	"strings"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/chemistry"
	"mullwright/formulate/material"
	"mullwright/media"
	"mullwright/pigments"
)

const everySetting = formulate.DryPowder | formulate.InOil | formulate.InWater | formulate.WithSolvent | formulate.Heated | formulate.Kept

// catalogue is every material shipped, pigments first.
func catalogue(t testing.TB) []*material.Material {
	t.Helper()
	all, err := pigments.New().All()
	if err != nil {
		t.Fatal(err)
	}
	more, err := media.New().All()
	if err != nil {
		t.Fatal(err)
	}
	return append(all, more...)
}

// shipped looks materials of both catalogues up by id.
func shipped(t testing.TB, ids ...string) []*material.Material {
	t.Helper()
	var out []*material.Material
	for _, id := range ids {
		m, err := pigments.New().Lookup(id)
		if err != nil {
			m, err = media.New().Lookup(id)
		}
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, m)
	}
	return out
}

func abouts(list []formulate.Caution, keep func(formulate.Caution) bool) []string {
	var out []string
	for _, c := range list {
		if keep(c) {
			out = append(out, c.About)
		}
	}
	return out
}

// Whatever is left off a label as no word for one, every material of which a
// hazard is listed still names one there.
func TestNoListedHazardWithoutALabel(t *testing.T) {
	for _, m := range catalogue(t) {
		if !m.Hazards.Listed {
			continue
		}
		r, err := formulate.Labels(formulate.LabelRequest{On: formulate.OnTube, Copies: 1, Paints: []formulate.Labelled{{Name: "x", Materials: []*material.Material{m}}}})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Texts[0].Hazards) == 0 {
			t.Errorf("%s: a hazard is listed and the label names none", m.ID)
		}
		for _, h := range r.Texts[0].Hazards {
			if strings.Contains(h.Text, "µg") || strings.Contains(h.Text, "volunteers") {
				t.Errorf("%s: the label says %q", m.ID, h.Text)
			}
		}
	}
}

// Quarrels that the handbooks name (each catalogue entry cites them), and
// neighbours that get on.
func TestQuarrelsOfTheCatalogue(t *testing.T) {
	tests := []struct {
		formula []string
		want    []string
	}{
		{[]string{"prussian-blue", "borax"}, []string{"iron blue with alkali", "alkali-sensitive pigment with alkali"}},
		{[]string{"prussian-blue", "chalk", "linseed-oil"}, []string{"iron blue with alkali", "alkali-sensitive pigment with alkali"}},
		{[]string{"prussian-blue", "slaked-lime"}, []string{"iron blue with alkali", "alkali-sensitive pigment with alkali"}},
		{[]string{"prussian-blue", "chrome-yellow"}, []string{"iron blue with lead chromate"}},
		{[]string{"prussian-blue", "vinegar"}, []string{"iron blue with acid"}},
		{[]string{"ultramarine-blue", "gum-arabic", "vinegar"}, []string{"sulphide with acid", "acid-sensitive pigment with acid"}},
		{[]string{"ultramarine-blue", "gum-arabic", "sodium-benzoate"}, []string{"acid-sensitive pigment with this preservative"}},
		{[]string{"ultramarine-blue", "emerald-green"}, []string{"sulphide with copper", "sulphide with arsenical green"}},
		{[]string{"ultramarine-blue", "lead-white"}, []string{"sulphide with lead"}},
		{[]string{"cadmium-yellow", "lead-white", "linseed-oil"}, []string{"sulphide with lead"}},
		{[]string{"vermilion", "lead-white"}, []string{"sulphide with lead"}},
		{[]string{"lithopone", "lead-white"}, []string{"sulphide with lead"}},
		{[]string{"cadmium-red", "lead-drier", "linseed-oil"}, []string{"sulphide with lead"}},
		{[]string{"cadmium-yellow", "verdigris"}, []string{"sulphide with copper"}},
		{[]string{"orpiment", "malachite"}, []string{"sulphide with copper"}},
		{[]string{"cadmium-red", "azurite"}, []string{"sulphide with copper"}},
		{[]string{"arylide-yellow", "chrome-yellow"}, []string{"chromate with azo pigment"}},
		{[]string{"naphthol-red-pr170", "molybdate-orange"}, []string{"chromate with azo pigment"}},
		{[]string{"verdigris", "ammonium-carbonate"}, []string{"copper pigment with ammonia or alkali"}},
		{[]string{"azurite", "vinegar"}, []string{"acid-sensitive pigment with acid", "carbonate with acid", "copper pigment with acid"}},
		{[]string{"chalk", "vinegar"}, []string{"acid-sensitive pigment with acid", "carbonate with acid"}},
		{[]string{"emerald-green", "vinegar"}, []string{"acid-sensitive pigment with acid", "copper pigment with acid", "arsenic pigment with acid"}},
		{[]string{"zinc-white", "vinegar"}, []string{"zinc with acid binder"}},
		{[]string{"vermilion", "manganese-black"}, []string{"sulphide with oxidiser", "vermilion with oxidiser"}},
		{[]string{"gum-arabic", "borax", "lamp-black"}, []string{"gum with borax or salts"}},
		{[]string{"massicot", "vinegar"}, []string{"acid-sensitive pigment with acid"}},
		{[]string{"shellac", "borax", "lamp-black"}, nil}, // shellac dissolves in borax water
		{[]string{"chrome-green", "chrome-yellow"}, []string{"iron blue with lead chromate"}},

		{[]string{"prussian-blue", "titanium-white-rutile", "linseed-oil"}, nil},
		{[]string{"prussian-blue", "lead-white", "linseed-oil"}, nil},
		{[]string{"phthalo-blue", "cadmium-yellow"}, nil}, // its copper is bound in the ring
		{[]string{"phthalo-green", "ultramarine-blue", "vermilion"}, nil},
		{[]string{"egyptian-blue", "cadmium-yellow"}, nil}, // its copper is bound in a silicate
		{[]string{"ultramarine-blue", "yellow-ochre", "gum-arabic", "phenoxyethanol"}, nil},
		{[]string{"ultramarine-blue", "cadmium-red", "zinc-white", "walnut-oil"}, nil},
		{[]string{"barytes", "vinegar"}, nil}, // sulphate, not carbonate
		{[]string{"viridian", "arylide-yellow"}, nil},
		{[]string{"chromium-oxide-green", "arylide-yellow"}, nil}, // chromium(III)
		{[]string{"ultramarine-blue", "slaked-lime"}, nil},        // stands lime
		{[]string{"yellow-ochre", "slaked-lime"}, nil},            // stands lime
		{[]string{"cobalt-blue", "slaked-lime"}, nil},             // stands lime
	}
	for _, tt := range tests {
		got := abouts(formulate.Cautions(formulate.InOil, shipped(t, tt.formula...)...), formulate.IsPairCaution)
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q, want %q", strings.Join(tt.formula, " + "), got, tt.want)
		}
	}
}

// No shipped material quarrels with itself.
func TestNoShippedMaterialQuarrelsAlone(t *testing.T) {
	for _, m := range catalogue(t) {
		if got := abouts(formulate.Cautions(everySetting, m, m), formulate.IsPairCaution); len(got) > 0 {
			t.Errorf("%s alone: %q", m.ID, got)
		}
	}
}

// What the card says first of the best known poisons, where the powder is
// weighed.
func TestHazardsOfTheCatalogue(t *testing.T) {
	for id, want := range map[string][]string{
		"lead-white":       {"lead"},
		"red-lead":         {"lead", "oxidiser"},
		"naples-yellow":    {"lead", "antimony"},
		"chrome-yellow":    {"lead", "chromate"},
		"zinc-yellow":      {"chromate"},
		"cadmium-red":      {"cadmium"},
		"vermilion":        {"mercury"},
		"orpiment":         {"arsenic"},
		"emerald-green":    {"arsenic", "copper"},
		"malachite":        {"copper"},
		"verdigris":        {"copper"},
		"barium-carbonate": {"barium"},
		"cobalt-blue":      {"cobalt"},
		"raw-umber":        {"manganese", "silica dust"},
		"yellow-ochre":     {"silica dust"},
		"lamp-black":       {"soot"},
		"prussian-blue":    {"iron cyanide"},
		"ultramarine-blue": nil,
		"barytes":          nil, // its barium is insoluble
		"phthalo-blue":     nil,
	} {
		got := abouts(formulate.Cautions(formulate.DryPowder, shipped(t, id)...), func(c formulate.Caution) bool {
			return c.About != "dust" && c.About != "kitchen" && c.About != "not assessed"
		})
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", id, got, want)
		}
	}
}

// boundMetal lists materials whose formula shows a metal that the class does
// not cover, with the reason.
var boundMetal = map[string]map[material.Class]string{
	"barium-yellow":            {material.Barium: "insoluble in water and stomach alike; named by its chromate"},
	"manganese-blue":           {material.Barium: "bound in the manganate and sulphate"},
	"barytes":                  {material.Barium: "insoluble sulphate"},
	"blanc-fixe":               {material.Barium: "insoluble sulphate"},
	"lithopone":                {material.Barium: "insoluble sulphate", material.Zinc: "sulphide: the class is of the oxide"},
	"titanium-barium-white":    {material.Barium: "insoluble sulphate"},
	"cadmium-red-lithopone":    {material.Barium: "insoluble sulphate"},
	"cadmium-yellow-lithopone": {material.Barium: "insoluble sulphate"},
	"egyptian-blue":            {material.ReactiveCopper: "bound in a silicate"},
	"phthalo-blue":             {material.ReactiveCopper: "bound in the ring"},
	"phthalo-blue-alpha":       {material.ReactiveCopper: "bound in the ring"},
	"phthalo-blue-beta":        {material.ReactiveCopper: "bound in the ring"},
	"phthalo-green-ys":         {material.ReactiveCopper: "bound in the ring"},
	"zinc-sulphide":            {material.Zinc: "sulphide: the class is of the oxide"},
	"cadmium-zinc-yellow":      {material.Zinc: "sulphide: the class is of the oxide"},
	"zinc-yellow":              {material.Zinc: "chromate: the class is of the oxide"},
	"cobalt-green":             {material.Zinc: "bound with the cobalt: the class is of the oxide"},
}

// The formula printed for a material and the classes given to it agree on its
// metals, both ways.
func TestClassesAgreeWithFormulas(t *testing.T) {
	metals := []material.Class{
		material.Lead, material.Arsenic, material.Mercury, material.Cadmium, material.Chromate, material.Barium, material.Antimony,
		material.Cobalt, material.Nickel, material.Manganese, material.ReactiveCopper, material.Zinc, material.IronCyanide,
	}
	read := 0
	for _, m := range catalogue(t) {
		shown := map[material.Class]bool{}
		formulas := 0
		for _, text := range strings.FieldsFunc(m.Formula, func(r rune) bool { return r == ' ' }) {
			f, err := chemistry.ParseFormula(strings.TrimSuffix(strings.NewReplacer("·nH2O", "", "·xH2O", "", "·nSnO2", "", "·nZnO", "·ZnO", ",", "").Replace(text), "·"))
			if err != nil || strings.ToLower(text) == text {
				continue
			}
			formulas++
			for _, c := range f.Classes() {
				shown[c] = true
			}
		}
		if formulas == 0 {
			continue
		}
		read++
		for _, c := range metals {
			has := slices.Contains(m.Classes, c)
			why, bound := boundMetal[m.ID][c]
			switch {
			case shown[c] && !has && !bound:
				t.Errorf("%s: %s shows %s, which its classes %v do not", m.ID, m.Formula, c, m.Classes)
			case has && !shown[c]:
				t.Errorf("%s: class %s does not show in %s", m.ID, c, m.Formula)
			case bound && (has || !shown[c]):
				t.Errorf("%s: the exception for %s (%s) is not needed", m.ID, c, why)
			}
		}
	}
	if read < 60 {
		t.Errorf("only %d formulas could be read", read)
	}
}

// Every class that a shipped material bears leads to some caution, alone or
// beside another material: a class without a rule protects nobody.
func TestEveryClassInUseHasARule(t *testing.T) {
	without := map[material.Class]string{
		material.FineDust: "the caution on dust is given for every powder",
		material.Calcium:  "a trait to find materials by",
	}
	// A maker's own file may hold what the catalogues do not: oak gall, reducing
	// metal powders.
	inUse := map[material.Class]string{material.IronGall: "a maker's own", material.Reducing: "a maker's own"}
	for _, m := range catalogue(t) {
		for _, c := range m.Classes {
			inUse[c] = m.ID
		}
	}
	of := func(id string, c material.Class) *material.Material {
		return &material.Material{ID: id, Classes: []material.Class{c}, Hazards: material.Hazards{Assessed: true}}
	}
	speaks := func(c material.Class) bool {
		names := func(list []formulate.Caution) bool {
			return slices.ContainsFunc(list, func(x formulate.Caution) bool { return slices.Contains(x.Of, "a") })
		}
		if names(formulate.Cautions(everySetting, of("a", c))) {
			return true
		}
		for other := range inUse {
			if names(formulate.Cautions(everySetting, of("a", c), of("b", other))) {
				return true
			}
		}
		return false
	}
	for c, id := range inUse {
		_, excused := without[c]
		if got := speaks(c); got == excused {
			t.Errorf("class %s (of %s): leads to a caution: %v, excused: %v", c, id, got, excused)
		}
	}
}

// What an entry itself says it cannot stand, in the plain words acid or alkali,
// its classes say too.
func TestClassesAgreeWithStatements(t *testing.T) {
	excused := map[string]string{
		"chrome-yellow": "acids: lead chromate stands weak ones; the statement does not say how strong",
	}
	said := 0
	for _, m := range catalogue(t) {
		for _, s := range m.Incompatible {
			for _, clause := range strings.FieldsFunc(s.Text, func(r rune) bool { return strings.ContainsRune(";,:", r) }) {
				with := map[string]string{"acid": "vinegar", "acids": "vinegar", "alkali": "slaked-lime", "alkalis": "slaked-lime", "lime": "slaked-lime"}[strings.TrimSpace(clause)]
				if with == "" {
					continue
				}
				said++
				_, fine := excused[m.ID]
				if got := abouts(formulate.Cautions(0, append(shipped(t, with), m)...), formulate.IsPairCaution); len(got) == 0 && !(fine && with == "vinegar") {
					t.Errorf("%s: %q, but it gets on with %s; classes %v", m.ID, s.Text, with, m.Classes)
				}
			}
		}
	}
	if said < 20 {
		t.Errorf("only %d statements were read", said)
	}
}

// A drier or a varnish that gives off a flammable solvent is flammable itself.
func TestFlammableWhereItsSolventIs(t *testing.T) {
	for _, m := range catalogue(t) {
		if m.Kind == material.Resin {
			continue // a balsam holds its turpentine fast
		}
		if m.Volatile == "" && !strings.Contains(m.Chemical, "in solvent") {
			continue
		}
		if m.Volatile != "" && !slices.Contains(shipped(t, m.Volatile)[0].Classes, material.Flammable) {
			continue
		}
		if !slices.Contains(m.Classes, material.Flammable) {
			t.Errorf("%s gives off solvent but is not classed as flammable", m.ID)
		}
	}
}
