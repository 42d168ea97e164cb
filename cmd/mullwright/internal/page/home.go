package page

import "net/http"

// tasks groups the questions on the first page.
var tasks = []struct {
	Title string
	Paths []string
}{
	{"At the slab, in oil", []string{"mull", "correct", "thin", "layers"}},
	{"In water", []string{"watercolour", "ink", "solution"}},
	{"Looking things up", []string{"compare", "swatch", "recipe", "label"}},
	{"Your own powder and book", []string{"rubout", "powder/moisture", "powder/bulk", "powder/jar", "powder/density", "powder/fineness", "powder/surface", "powder/cake", "settle", "yield"}},
}

type taskView struct {
	Title string
	List  []link
}

// home asks what the maker wants to do.
func (b *Bench) home(w http.ResponseWriter, r *http.Request) {
	var groups []taskView
	for _, t := range tasks {
		g := taskView{Title: t.Title}
		for _, p := range t.Paths {
			q := b.questionAt(p)
			if q == nil {
				continue
			}
			to := "/" + p
			if p == "mull" {
				to = "/pigments?for=mull" // nothing can be mulled before a jar is chosen
			}
			g.List = append(g.List, link{q.title, q.lead, to})
		}
		if len(g.List) > 0 {
			groups = append(groups, g)
		}
	}
	for i := range groups {
		switch groups[i].Title {
		case "Your own powder and book":
			if b.desk().Book != nil {
				groups[i].List = append([]link{{"Batch book", "what was really weighed, what it taught, what is on hand", "/book"}}, groups[i].List...)
			}
		case "Looking things up":
			groups[i].List = append(groups[i].List,
				link{"Pigments", "by looking: measured colours, oil, density, hazards, sources", "/pigments"},
				link{"Oils, solvents, gums", "and everything else that is no pigment", "/media"})
		}
	}
	b.show(w, http.StatusOK, "home.html", struct {
		Title, Here string
		Groups      []taskView
	}{"Mullwright", "home", groups})
}
