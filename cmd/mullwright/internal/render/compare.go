package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// CompareSheet lays pigments out side by side.
func CompareSheet(r *formulate.CompareResult, cite Cite) *Sheet {
	req := &r.Request
	s := &Sheet{Title: counted(len(r.Rows), "pigment", "pigments") + " in " + req.Oil.Material.Name, Lead: compareLead(r)}
	table := func(columns ...string) *Table {
		t := &Table{Columns: []Column{{Title: "pigment"}}}
		for _, c := range columns {
			t.Columns = append(t.Columns, Column{Title: c, Right: true})
		}
		return t
	}
	oil := table("g/100 g", "% by mass", "% by volume")
	lean := table("PVC %", "critical %", "PVC over critical")
	yield := table("g/ml", "ml from 100 g", "tubes from 100 g")
	words := &Table{Columns: []Column{{Title: "pigment"}, {Title: "drying"}, {Title: "hazards"}}}
	cost := table("a tube", "a m²")
	volume := req.At == formulate.SameVolume
	if volume {
		yield.Columns[3].Title = "g powder a tube"
	}
	s.Data = [][]string{compareHeader()}
	for i := range r.Rows {
		c := &r.Rows[i]
		name := orderMark(r, i) + c.Material.ID
		oil.Rows = append(oil.Rows, []string{name, bare(Range(c.Oil, 1, 2, "")), bare(Range(c.ByMass, 100, 2, "")), bare(Range(c.ByVolume, 100, 2, ""))})
		lean.Rows = append(lean.Rows, []string{name, bare(Range(c.PVC, 100, 2, "")), bare(Range(c.CPVC, 100, 2, "")), bare(Range(c.Reduced, 1, 2, ""))})
		count := bare(Range(c.Tubes, 1, 2, ""))
		if volume {
			count = bare(Range(c.Powder, 1, 2, ""))
		}
		yield.Rows = append(yield.Rows, []string{name, bare(Range(c.Density, 1, 3, "")), bare(Range(c.Paint, 1, 2, "")), count})
		words.Rows = append(words.Rows, []string{name, dryingWord(c.Material), hazardWord(c.Material)})
		if c.PerTube.Typical > 0 {
			cost.Rows = append(cost.Rows, []string{name, bare(Range(c.PerTube, 1, 3, "")), bare(Range(c.PerArea, 1, 3, ""))})
		}
		s.Data = append(s.Data, compareData(c))
	}
	s.Add(Section{Title: "Oil", Table: oil})
	s.Add(Section{Title: "Leanness", Table: lean})
	s.Add(Section{Title: "Yield", Under: "A tube is " + Given(req.Tube) + " ml, " + percent(req.Fill) + " full.", Table: yield})
	s.Add(Section{Title: "Cost", Under: "Of what has a price; the film is " + Given(req.Film) + " µm wet.", Table: cost})
	s.Add(Section{Title: "Drying and hazards", Table: words})
	if lines := undecided(r); len(lines) > 0 {
		s.Add(Section{Title: "Where the order means nothing", Lines: lines, Marked: true})
	}
	return s.finish(r.Warnings, r.Cautions, nil, SourceKeys(compareMaterials(r)...), cite, false)
}

func compareMaterials(r *formulate.CompareResult) []*material.Material {
	out := []*material.Material{r.Request.Oil.Material}
	for i := range r.Rows {
		out = append(out, r.Rows[i].Material)
	}
	return out
}

func compareLead(r *formulate.CompareResult) string {
	var at string
	switch req := &r.Request; req.At {
	case formulate.SamePVC:
		at = "At the same PVC, " + percent(req.PVC)
	case formulate.SameOil:
		at = "With the same oil, " + Given(req.OilPer) + " g per 100 g of powder"
	case formulate.SameVolume:
		at = "At the same volume of paint, " + targetText(formulate.Target{Kind: formulate.AtBody, Body: req.Body})
	default:
		at = "At the same body, " + targetText(formulate.Target{Kind: formulate.AtBody, Body: req.Body})
	}
	if r.Request.Sort != "" {
		at += ", ordered by " + r.Request.Sort + " (≈ where the next one down may as well stand above)"
	}
	return at + ". Brackets give the range 8 jars in 10 fall into."
}

// orderMark marks a row whose place before the next means nothing.
func orderMark(r *formulate.CompareResult, i int) string {
	if r.Request.Sort != "" && i+1 < len(r.Rows) && r.Rows[i].Certain < formulate.OrderMatters {
		return "≈ "
	}
	if r.Request.Sort != "" {
		return "  "
	}
	return ""
}

func undecided(r *formulate.CompareResult) []string {
	if r.Request.Sort == "" {
		return nil
	}
	var out []string
	for i := 0; i+1 < len(r.Rows); i++ {
		if r.Rows[i].Certain < formulate.OrderMatters {
			out = append(out, fmt.Sprintf("%s before %s: only %s", r.Rows[i].Material.ID, r.Rows[i+1].Material.ID, Chance(r.Rows[i].Certain)))
		}
	}
	if len(out) > 8 {
		out = append(out[:8], fmt.Sprintf("and %d more pairs, marked ≈", len(out)-8))
	}
	return out
}

func dryingWord(m *material.Material) string {
	if len(m.DryingEffect) == 0 {
		return "unknown"
	}
	word, _, _ := strings.Cut(m.DryingEffect[0].Text, ";")
	return strings.TrimPrefix(word, "dries ")
}

// hazardWord says what the catalogue holds, never that there is nothing to mind.
func hazardWord(m *material.Material) string {
	switch {
	case formulate.DustHazard(m):
		return "yes, see its sheet"
	case !m.Hazards.Assessed:
		return "not assessed"
	}
	return "none in the catalogue"
}

func compareHeader() []string {
	h := []string{"id", "name", "ci_name"}
	for _, c := range []string{"powder_g", "oil_g_per_100g_pigment", "oil_mass_percent", "oil_volume_percent", "pvc", "cpvc", "reduced_pvc", "density_g_per_ml", "paint_ml_per_100g", "tubes_per_100g", "cost_per_tube", "cost_per_m2"} {
		h = append(h, c+"_low", c+"_typical", c+"_high")
	}
	return append(h, "drying", "hazards", "chance_before_next")
}

func compareData(c *formulate.Compared) []string {
	row := []string{c.Material.ID, c.Material.Name, c.Material.CIName}
	put := func(v RangeView) { row = append(row, full(v.Low), full(v.Typical), full(v.High)) }
	put(rangeView(c.Powder, 1))
	put(rangeView(c.Oil, 1))
	put(rangeView(c.ByMass, 100))
	put(rangeView(c.ByVolume, 100))
	put(rangeView(c.PVC, 1))
	put(rangeView(c.CPVC, 1))
	put(rangeView(c.Reduced, 1))
	put(rangeView(c.Density, 1))
	put(rangeView(c.Paint, 1))
	put(rangeView(c.Tubes, 1))
	put(rangeView(c.PerTube, 1))
	put(rangeView(c.PerArea, 1))
	return append(row, dryingWord(c.Material), hazardWord(c.Material), Full(c.Certain))
}

// CompareView is the comparison in JSON.
func CompareView(r *formulate.CompareResult, cite Cite) any {
	type row struct {
		ID      string    `json:"id"`
		Name    string    `json:"name"`
		CIName  string    `json:"ci_name"`
		Powder  RangeView `json:"powder_g"`
		Oil     RangeView `json:"oil_g_per_100g_pigment"`
		ByMass  RangeView `json:"oil_mass_percent"`
		ByVol   RangeView `json:"oil_volume_percent"`
		PVC     RangeView `json:"pvc"`
		CPVC    RangeView `json:"cpvc"`
		Reduced RangeView `json:"reduced_pvc"`
		Density RangeView `json:"density_g_per_ml"`
		Paint   RangeView `json:"paint_ml_per_100g"`
		Tubes   RangeView `json:"tubes_per_100g"`
		PerTube RangeView `json:"cost_per_tube"`
		PerArea RangeView `json:"cost_per_m2"`
		Drying  string    `json:"drying"`
		Hazards string    `json:"hazards"`
		Certain float64   `json:"chance_before_next"`
	}
	out := struct {
		Version  int           `json:"version"`
		Kind     string        `json:"kind"`
		At       string        `json:"at"`
		Sort     string        `json:"sort"`
		Oil      string        `json:"oil"`
		Rows     []row         `json:"pigments"`
		Warnings []string      `json:"warnings"`
		Cautions []CautionView `json:"cautions"`
		Sources  []SourceView  `json:"sources"`
	}{1, "compare", string(r.Request.At), r.Request.Sort, r.Request.Oil.Material.ID, []row{}, orEmpty(r.Warnings), cautionViews(r.Cautions),
		sourceViews(SourceKeys(compareMaterials(r)...), cite)}
	for i := range r.Rows {
		c := &r.Rows[i]
		out.Rows = append(out.Rows, row{c.Material.ID, c.Material.Name, c.Material.CIName, rangeView(c.Powder, 1), rangeView(c.Oil, 1), rangeView(c.ByMass, 100), rangeView(c.ByVolume, 100),
			rangeView(c.PVC, 1), rangeView(c.CPVC, 1), rangeView(c.Reduced, 1), rangeView(c.Density, 1), rangeView(c.Paint, 1), rangeView(c.Tubes, 1),
			rangeView(c.PerTube, 1), rangeView(c.PerArea, 1), dryingWord(c.Material), hazardWord(c.Material), float64(c.Certain)})
	}
	return out
}

// shownAlike is how many likenesses a screen shows; CSV and JSON hold all.
const shownAlike = 12

// AlikeSheet ranks pigments by likeness.
func AlikeSheet(of formulate.Look, list []formulate.Likeness) *Sheet {
	w := formulate.LikenessWeights
	s := &Sheet{Title: "Nearest to " + titleOf(of.Material),
		Lead: fmt.Sprintf("0 is unlike, 100 the same. Weights: hue %s, loading %s, density %s, opacity %s, drying %s (common practice). Hue from measured colour where both have it; from the family alone it is marked ~. A dash is not known and does not count.",
			percent(w.Hue), percent(w.Loading), percent(w.Density), percent(w.Opacity), percent(w.Drying))}
	t := &Table{Columns: []Column{{Title: "pigment"}, {Title: "C.I."}, {Title: "all", Right: true}, {Title: "hue", Right: true}, {Title: "loading", Right: true}, {Title: "density", Right: true}, {Title: "opacity", Right: true}, {Title: "drying", Right: true}, {Title: "hazards"}}}
	s.Data = [][]string{{"id", "ci_name", "likeness", "hue", "loading", "density", "opacity", "drying", "known_weight", "ciede2000"}}
	tests := testKeys(of.Material)
	for i, l := range list {
		hue := mark(l.Hue)
		if i < shownAlike {
			tests = append(tests, testKeys(l.Material)...)
		}
		if l.Difference == 0 && l.Hue >= 0 {
			hue = "~" + hue
		}
		if i < shownAlike {
			t.Rows = append(t.Rows, []string{l.Material.ID, l.Material.CIName, mark(l.All), hue, mark(l.Loading), mark(l.Density), mark(l.Opacity), mark(l.Drying), hazardWord(l.Material)})
		}
		s.Data = append(s.Data, []string{l.Material.ID, l.Material.CIName, Full(l.All), known01(l.Hue), known01(l.Loading), known01(l.Density), known01(l.Opacity), known01(l.Drying), Full(l.Known), Full(float64(l.Difference))})
	}
	s.addSources(tests, nil, false)
	s.Add(Section{Table: t})
	s.Add(Section{Lines: []string{"Likeness is of handling and colour, not of hazard or permanence: read the sheet of each (mullwright pigments NAME) before you swap, and try a drawdown."}})
	return s
}

func mark(r quantity.Ratio) string {
	if r < 0 {
		return "–"
	}
	return Places(float64(r)*100, 0)
}

func known01(r quantity.Ratio) string {
	if r < 0 {
		return ""
	}
	return Full(r)
}

// AlikeView is the ranking in JSON.
func AlikeView(of formulate.Look, list []formulate.Likeness) any {
	type row struct {
		ID      string   `json:"id"`
		All     float64  `json:"likeness"`
		Hue     *float64 `json:"hue"`
		Loading *float64 `json:"loading"`
		Density *float64 `json:"density"`
		Opacity *float64 `json:"opacity"`
		Drying  *float64 `json:"drying"`
		Known   float64  `json:"known_weight"`
	}
	ptr := func(r quantity.Ratio) *float64 {
		if r < 0 {
			return nil
		}
		v := float64(r)
		return &v
	}
	out := struct {
		Version int    `json:"version"`
		Kind    string `json:"kind"`
		Like    string `json:"like"`
		Rows    []row  `json:"pigments"`
	}{1, "likeness", of.Material.ID, []row{}}
	for _, l := range list {
		out.Rows = append(out.Rows, row{l.Material.ID, float64(l.All), ptr(l.Hue), ptr(l.Loading), ptr(l.Density), ptr(l.Opacity), ptr(l.Drying), float64(l.Known)})
	}
	return out
}
