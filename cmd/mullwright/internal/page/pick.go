package page

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate/material"
	"mullwright/formulate/shelf"
	"mullwright/pigments/colour"
)

// The catalogues that complete a name.
const (
	pigmentList  = "pigment"
	extenderList = "extender"
	oilList      = "oil"
	waxList      = "wax"
	solventList  = "solvent"
	mediumList   = "medium"
	gumList      = "gum"
	humectList   = "humectant"
	wettingList  = "wetting-agent"
	keepList     = "preservative"
	anyList      = "any"
)

// listKinds are the kinds of material in each list.
var listKinds = map[string][]material.Kind{
	pigmentList:  {material.Pigment, material.Extender},
	extenderList: {material.Extender},
	oilList:      {material.Oil},
	waxList:      {material.Wax, material.Stabiliser, material.Resin, material.Drier},
	solventList:  {material.Solvent},
	mediumList:   {material.Medium, material.Oil, material.Resin, material.Drier, material.Wax},
	gumList:      {material.Gum, material.Medium},
	humectList:   {material.Humectant},
	wettingList:  {material.WettingAgent},
	keepList:     {material.Preservative},
}

// A jar is a pigment as the picker shows it.
type jar struct {
	shelf.Entry
	Ink     string // its measured colour, "" where none is known
	Outside bool   // the screen cannot show it
	Hazard  string // what its sheet says of hazards, in two words
	Listed  bool
	Index   string // its Colour Index name where its own does not say it
}

// shelves lists every pigment with its colour, worked out once.
func (b *Bench) shelves() ([]jar, error) {
	b.once.Do(func() {
		entries, err := b.desk().Workshop.Pigments.Entries()
		if err != nil {
			b.err = err
			return
		}
		b.jarBy = make(map[string]*jar, len(entries))
		for _, e := range entries {
			j := jar{Entry: e}
			if s, ok := ask.Colour(e.ID); ok {
				j.Ink, j.Outside = s.Chip.Screen.Hex(), s.Chip.Screen.Outside
			}
			m, err := b.desk().Workshop.Pigments.Lookup(e.ID)
			if err != nil {
				b.err = err
				return
			}
			switch {
			case !m.Hazards.Assessed:
				j.Hazard = "hazards not assessed"
			case m.Hazards.Listed:
				j.Hazard, j.Listed = "listed hazard", true
			default:
				j.Hazard = "none listed"
			}
			if !strings.Contains(e.Name, e.CIName) {
				j.Index = e.CIName
			}
			b.jars = append(b.jars, j)
		}
		slices.SortStableFunc(b.jars, func(x, y jar) int { return cmp.Compare(familyRank(x.Entry), familyRank(y.Entry)) })
		for i := range b.jars {
			b.jarBy[b.jars[i].ID] = &b.jars[i]
		}
	})
	return b.jars, b.err
}

// names lists what completes an input.
func (b *Bench) names(list string) []string {
	var out []string
	for _, s := range []*shelf.Shelf{b.desk().Workshop.Pigments, b.desk().Workshop.Media} {
		entries, err := s.Entries()
		if err != nil {
			continue // the question itself will say so
		}
		for _, e := range entries {
			if kinds := listKinds[list]; kinds == nil || slices.Contains(kinds, e.Kind) {
				out = append(out, e.ID)
			}
		}
	}
	return out
}

// known is a material's own name and colour, for what was typed.
func (b *Bench) known(list, name string) (full, ink string) {
	for _, s := range []*shelf.Shelf{b.desk().Workshop.Pigments, b.desk().Workshop.Media} {
		m, err := s.Lookup(name)
		if err != nil {
			continue
		}
		full = m.Name
		if m.CIName != "" {
			full += " (" + m.CIName + ")"
		}
		if m.Kind.IsPigment() {
			if s, ok := ask.Colour(m.ID); ok {
				ink = s.Chip.Screen.Hex()
			}
		}
		return full, ink
	}
	return "", ""
}

// families in the order of the picker; what has another comes last.
var families = []string{"white", "yellow", "orange", "red", "violet", "blue", "green", "brown", "black"}

// familyRank orders the jars as the families stand.
func familyRank(e shelf.Entry) int {
	if i := slices.Index(families, e.Family); i >= 0 && e.Kind != material.Extender {
		return i
	}
	return len(families)
}

type familyView struct {
	Name string
	To   string
	On   bool
	N    int
}

type jarView struct {
	jar
	To    string
	About string
}

// picker shows the pigments by their colour, to choose one for a question or to
// look at.
func (b *Bench) picker(w http.ResponseWriter, r *http.Request) {
	jars, err := b.shelves()
	if err != nil {
		b.oops(w, http.StatusInternalServerError, "The catalogue cannot be read: "+err.Error()+".")
		return
	}
	raw := r.URL.Query()
	query, family := strings.TrimSpace(raw.Get("q")), raw.Get("family")
	q := b.questionAt(raw.Get("for"))
	v := struct {
		Title, Here   string
		Query, Family string
		For, In, With string
		Purpose       string // the question's title
		Families      []familyView
		Count         int
		Measured      []jarView
		Unmeasured    []jarView
		Credits       []string
	}{Title: "Pigments", Here: "pigments", Query: query, Family: family}
	if q != nil {
		v.Title, v.Purpose, v.For, v.In, v.With = "Choose a pigment", q.title, q.path, raw.Get("in"), raw.Get("with")
	}
	counts := map[string]int{}
	for _, j := range jars {
		if !j.Entry.Holds(query) {
			continue
		}
		counts[""]++
		for _, f := range familiesOf(j.Entry) {
			counts[f]++
		}
		if family != "" && !slices.Contains(familiesOf(j.Entry), family) {
			continue
		}
		about := "/pigments/" + j.ID
		jv := jarView{jar: j, To: about, About: about}
		if q != nil {
			jv.To = q.chosenTo(v.In, v.With, j.ID)
		}
		v.Count++
		if j.Ink == "" {
			v.Unmeasured = append(v.Unmeasured, jv)
		} else {
			v.Measured = append(v.Measured, jv)
		}
	}
	to := func(family string) string {
		s := url.Values{}
		for k, text := range map[string]string{"q": query, "family": family, "for": v.For, "in": v.In, "with": v.With} {
			if text != "" {
				s.Set(k, text)
			}
		}
		return strings.TrimSuffix("/pigments?"+s.Encode(), "?")
	}
	for _, f := range append([]string{""}, allFamilies(jars)...) {
		if counts[f] > 0 || f == family {
			v.Families = append(v.Families, familyView{f, to(f), f == family, counts[f]})
		}
	}
	for _, a := range colour.Attributions() {
		v.Credits = append(v.Credits, a.Line())
	}
	name := "pick.html"
	if raw.Get("fragment") != "" {
		name = "jars"
	}
	b.show(w, http.StatusOK, name, v)
}

// chosenTo is the question with one more material in a field.
func (q *question) chosenTo(in, with, id string) string {
	if in == "" {
		in = q.needs
	}
	values := url.Values{}
	if old, err := url.ParseQuery(with); err == nil {
		values = q.plain(old)
	}
	list := values[in]
	if !slices.ContainsFunc(list, func(s string) bool { name, _, _ := strings.Cut(s, "="); return name == id }) {
		list = append(list, id)
	}
	if q.inputOf(in).kind == nameInput {
		list = []string{id}
	}
	values[in] = list
	return "/" + q.path + "?" + values.Encode()
}

func (b *Bench) questionAt(path string) *question {
	for _, q := range slices.Concat(b.questions, b.forms) {
		if q.path == path {
			return q
		}
	}
	return nil
}

// familiesOf are the families a pigment is found in: its own, earth where it is
// one, extenders by themselves.
func familiesOf(e shelf.Entry) []string {
	if e.Kind == material.Extender {
		return []string{"extender"}
	}
	list := []string{e.Family}
	if slices.Contains(e.Tags, "earth") {
		list = append(list, "earth")
	}
	return list
}

func allFamilies(jars []jar) []string {
	list := append(slices.Clone(families), "earth", "extender")
	for _, j := range jars {
		for _, f := range familiesOf(j.Entry) {
			if f != "" && !slices.Contains(list, f) {
				list = append(list, f)
			}
		}
	}
	return list
}

// pigment is the sheet of one pigment.
func (b *Bench) pigment(w http.ResponseWriter, r *http.Request) {
	m, err := b.desk().Workshop.Pigments.Lookup(r.PathValue("id"))
	if err != nil {
		b.oops(w, http.StatusNotFound, "In the catalogue "+err.Error()+".")
		return
	}
	b.material(w, m, "pigments", swatch(m))
}

// medium is the sheet of one oil, solvent, gum or additive.
func (b *Bench) medium(w http.ResponseWriter, r *http.Request) {
	m, err := b.desk().Workshop.Media.Lookup(r.PathValue("id"))
	if err != nil {
		b.oops(w, http.StatusNotFound, "In the catalogue "+err.Error()+".")
		return
	}
	b.material(w, m, "media", nil)
}

func (b *Bench) material(w http.ResponseWriter, m *material.Material, here string, charts []chart) {
	sheet, err := b.sheetView(render.MaterialSheet(m, b.desk().Workshop.Cite), charts, nil)
	if err != nil {
		b.oops(w, http.StatusInternalServerError, "The sheet could not be drawn: "+err.Error()+".")
		return
	}
	v := struct {
		Title, Here string
		Sheet       *sheetView
		Doors, Next []link
	}{sheet.Title, here, sheet, nil, nil}
	if m.Kind.IsPigment() {
		for _, q := range b.questions {
			if q.inputOf(q.needs).list == pigmentList {
				v.Next = append(v.Next, link{q.title, q.lead, q.chosenTo("", "", m.ID)})
			}
		}
		v.Doors = v.Next[:1]
	}
	b.show(w, http.StatusOK, "sheet.html", v)
}

// swatch is the measured colour of a pigment, where there is one.
func swatch(m *material.Material) []chart {
	s, ok := ask.Colour(m.ID)
	if !ok {
		return nil
	}
	data := picture.SwatchSheet(s.Swatch, picture.Frame{Title: "Measured colour", Alt: "A chip of " + m.Name + " as measured."}, s.Credit)
	return []chart{charted("Reconciled", data, func(v *picture.LadderData) *picture.Frame { return &v.Frame }, picture.Ladder)}
}

type mediumView struct{ ID, Name, Kind string }

// mediaList lists oils, solvents, gums and additives.
func (b *Bench) mediaList(w http.ResponseWriter, r *http.Request) {
	entries, err := b.desk().Workshop.Media.Entries()
	if err != nil {
		b.oops(w, http.StatusInternalServerError, "The catalogue cannot be read: "+err.Error()+".")
		return
	}
	query := strings.TrimSpace(r.URL.Query().Get("q"))
	v := struct {
		Title, Here, Query string
		Kinds              []struct {
			Name string
			List []mediumView
		}
	}{Title: "Oils, solvents, gums", Here: "media", Query: query}
	at := map[material.Kind]int{}
	for _, e := range entries {
		if !e.Holds(query) {
			continue
		}
		i, ok := at[e.Kind]
		if !ok {
			i = len(v.Kinds)
			at[e.Kind] = i
			v.Kinds = append(v.Kinds, struct {
				Name string
				List []mediumView
			}{Name: strings.ReplaceAll(string(e.Kind), "-", " ")})
		}
		v.Kinds[i].List = append(v.Kinds[i].List, mediumView{e.ID, e.Name, string(e.Kind)})
	}
	b.show(w, http.StatusOK, "media.html", v)
}
