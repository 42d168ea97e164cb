package render

import (
	"fmt"
	"strings"

	"mullwright/cmd/mullwright/internal/book"
	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
)

// BookList is what a list of the book holds.
type BookList struct {
	Dir     string
	Entries []BookLine // those to be listed
	All     int        // how many there are
	Unread  strict.Faults
}

// BookLine is an entry with the oil of its batch.
type BookLine struct {
	*book.Entry
	Oil quantity.Absorption // per 100 g of powder; 0 of any other entry
}

// oil is the figure of the list: of a batch its oil, of a rub-out by mass its
// oil absorption.
func (e BookLine) oil() quantity.Absorption {
	if e.RubOut != nil {
		return e.RubOut.ByMass
	}
	return e.Oil
}

// BookListSheet lists entries, one a line.
func BookListSheet(l BookList) *Sheet {
	s := &Sheet{Title: "Batch book", Lead: bookListLead(l)}
	t := &Table{Columns: []Column{{Title: "no.", Right: true}, {Title: "date"}, {Title: "what was weighed or tested"}, {Title: "lot"}, {Title: "oil", Right: true}, {Title: "body"}}}
	s.Data = [][]string{{"number", "date", "kind", "what", "lot", "oil_g_per_100g", "body", "sure", "struck_by"}}
	struck := 0
	for _, e := range l.Entries {
		oil, body := e.oil(), ""
		if e.Batch != nil {
			body = e.Batch.Body
		}
		figure := ""
		if oil > 0 {
			figure = Digits(float64(oil), 3)
		}
		what := entryText(e.Entry)
		if e.StruckBy != 0 {
			struck++
			what = fmt.Sprintf("(struck by %d) %s", e.StruckBy, what)
		}
		t.Rows = append(t.Rows, []string{fmt.Sprint(e.Number), e.Date, what, strings.Join(entryLots(e.Entry), ", "), figure, body})
		if oil > 0 {
			figure = Full(oil)
		}
		s.Data = append(s.Data, []string{fmt.Sprint(e.Number), cell(e.Date), e.Kind(), entryText(e.Entry), cell(strings.Join(entryLots(e.Entry), "; ")), figure, body, yesOr(e.Sure), numberOr(e.StruckBy)})
	}
	sec := Section{Table: t}
	if len(t.Rows) > 0 {
		sec.Under = "Oil is g per 100 g of powder; of a rub-out, its oil absorption."
		if struck > 0 {
			sec.Under += " A struck entry does not count; striking its strike brings it back."
		}
	}
	s.Add(sec)
	s.Add(UnreadSection(l.Unread))
	return s
}

func yesOr(yes bool) string {
	if yes {
		return "yes"
	}
	return ""
}

func numberOr(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}

func bookListLead(l BookList) string {
	switch {
	case l.All == 0 && len(l.Unread) == 0:
		if l.Dir == "" {
			return "There is none: no folder for your data is known. Name one with --book."
		}
		return "It is empty: 'mullwright book add' writes down the first batch. It would be kept in " + l.Dir + "."
	case len(l.Entries) == 0:
		return "Nothing in it fits. It is kept in " + l.Dir + "."
	case len(l.Entries) < l.All:
		return fmt.Sprintf("%d of %s, kept in %s.", len(l.Entries), counted(l.All, "entry", "entries"), l.Dir)
	}
	return counted(l.All, "entry", "entries") + ", kept in " + l.Dir + "."
}

// counted prints a count with its noun.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// UnreadSection names the files of a book that do not count, and why.
func UnreadSection(faults strict.Faults) Section {
	sec := Section{Title: "Does not count", Marked: true}
	for i, f := range faults {
		if i == mostNamed {
			sec.Lines = append(sec.Lines, "And "+counted(len(faults)-i, "more fault.", "more faults."))
			break
		}
		sec.Lines = append(sec.Lines, f.Error())
	}
	if len(sec.Lines) > 0 {
		sec.Under = "Mend this by hand; the rest of the book counts."
	}
	return sec
}

// cell keeps the maker's own text from being taken for a formula where a table
// is opened as a spreadsheet.
func cell(s string) string {
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}

func partText(p book.Part) string {
	switch {
	case p.None:
		return p.ID + " none"
	case p.Volume != 0:
		return p.ID + " " + amount(p.Volume, "ml")
	}
	return p.ID + " " + amount(p.Mass, "g")
}

// amount prints what was weighed, without the dust of a conversion.
func amount[Q quantity.Real](v Q, unit string) string { return Given(v) + " " + unit }

func partTexts(lists ...[]book.Part) string {
	var out []string
	for _, l := range lists {
		for _, p := range l {
			out = append(out, partText(p))
		}
	}
	return strings.Join(out, " + ")
}

func entryText(e *book.Entry) string {
	switch {
	case e.Batch != nil:
		return partTexts(e.Batch.Pigments, e.Batch.Extenders)
	case e.RubOut != nil:
		how := counted(e.RubOut.Tests, "rub-out", "rub-outs")
		if e.RubOut.Method != "rub-out" {
			how = counted(e.RubOut.Tests, "test", "tests") + ", " + e.RubOut.Method
		}
		text := e.RubOut.ID + ", " + how
		if e.RubOut.ByVolume != 0 {
			text += ", " + amount(e.RubOut.ByVolume, "ml/100 g")
		}
		return text
	case e.Strike != nil:
		return fmt.Sprintf("strikes entry %d", e.Strike.Entry)
	}
	var out []string
	if t := partTexts(e.Stock.Counted); t != "" {
		out = append(out, "on hand: "+t)
	}
	if t := partTexts(e.Stock.Bought); t != "" {
		out = append(out, "bought: "+t)
	}
	var prices []string
	for _, p := range e.Stock.Prices {
		prices = append(prices, p.ID+" "+Given(p.Price)+"/g")
	}
	if len(prices) > 0 {
		out = append(out, "price: "+strings.Join(prices, ", "))
	}
	return strings.Join(out, "; ")
}

func entryLots(e *book.Entry) []string {
	var out []string
	switch {
	case e.Batch != nil:
		for _, p := range e.Batch.Pigments {
			if p.Lot != "" {
				out = append(out, p.Lot)
			}
		}
	case e.RubOut != nil && e.RubOut.Lot != "":
		out = append(out, e.RubOut.Lot)
	}
	return out
}

// EntryJSON is an entry of the book in JSON. Masses are g, volumes ml.
type EntryJSON struct {
	Number int    `json:"number"`
	File   string `json:"file"`
	Kind   string `json:"kind"`
	Date   string `json:"date"`
	Remark string `json:"remark"`
	Sure   bool   `json:"sure,omitempty"`
	// StruckBy and Strikes are numbers of other entries.
	StruckBy int         `json:"struck_by,omitempty"`
	Batch    *BatchJSON  `json:"batch,omitempty"`
	RubOut   *RubOutPage `json:"rub_out,omitempty"`
	Stock    *StockPage  `json:"stock,omitempty"`
	Strikes  int         `json:"strikes,omitempty"`
}

// BatchJSON is a batch as it was weighed.
type BatchJSON struct {
	Pigments  []PagePartJSON `json:"pigments"`
	Extenders []PagePartJSON `json:"extenders"`
	Oils      []PagePartJSON `json:"oils"`
	Waxes     []PagePartJSON `json:"waxes"`
	Body      string         `json:"body"`
	Moisture  float64        `json:"moisture"`
	LossG     float64        `json:"loss_g"`
	Drying    string         `json:"drying"`
	Oil       float64        `json:"oil_g_per_100g_powder"`
}

// PagePartJSON is one material of an entry; of mass and volume the one given.
type PagePartJSON struct {
	ID       string  `json:"id"`
	MassG    float64 `json:"mass_g,omitempty"`
	VolumeML float64 `json:"volume_ml,omitempty"`
	None     bool    `json:"none,omitempty"`
	Lot      string  `json:"lot,omitempty"`
}

// RubOutPage is a rub-out in the book; of mass and volume the one given.
type RubOutPage struct {
	ID       string  `json:"id"`
	Lot      string  `json:"lot"`
	ByMass   float64 `json:"oil_absorption_g_per_100g,omitempty"`
	ByVolume float64 `json:"oil_absorption_ml_per_100g,omitempty"`
	Tests    int     `json:"tests"`
	Scatter  float64 `json:"scatter_of_one_test,omitempty"` // of the mean
	Method   string  `json:"method"`
	Oil      string  `json:"oil"`
}

// StockPage is a count in the book.
type StockPage struct {
	Counted []PagePartJSON     `json:"counted"`
	Bought  []PagePartJSON     `json:"bought"`
	Prices  map[string]float64 `json:"price_per_g"`
}

func partViews(list []book.Part) []PagePartJSON {
	out := make([]PagePartJSON, len(list))
	for i, p := range list {
		out[i] = PagePartJSON{p.ID, float64(p.Mass), float64(p.Volume), p.None, p.Lot}
	}
	return out
}

// EntryView is an entry in JSON.
func EntryView(e BookLine) EntryJSON {
	v := EntryJSON{Number: e.Number, File: e.File, Kind: e.Kind(), Date: e.Date, Remark: e.Remark, Sure: e.Sure, StruckBy: e.StruckBy}
	switch {
	case e.Batch != nil:
		b := e.Batch
		v.Batch = &BatchJSON{partViews(b.Pigments), partViews(b.Extenders), partViews(b.Oils), partViews(b.Waxes), b.Body, float64(b.Moisture), float64(b.Loss), b.Drying, float64(e.Oil)}
	case e.RubOut != nil:
		r := e.RubOut
		v.RubOut = &RubOutPage{r.ID, r.Lot, float64(r.ByMass), float64(r.ByVolume), r.Tests, float64(r.Scatter), r.Method, r.Oil}
	case e.Strike != nil:
		v.Strikes = e.Strike.Entry
	default:
		v.Stock = &StockPage{partViews(e.Stock.Counted), partViews(e.Stock.Bought), map[string]float64{}}
		for _, p := range e.Stock.Prices {
			v.Stock.Prices[p.ID] = float64(p.Price)
		}
	}
	return v
}

// BookJSON is the book, or a part of it, in JSON.
type BookJSON struct {
	Version int         `json:"version"`
	Kind    string      `json:"kind"`
	Book    string      `json:"book"`
	Entries []EntryJSON `json:"entries"`
	Unread  []string    `json:"not_read"`
}

// BookListView is a list of the book in JSON.
func BookListView(l BookList) BookJSON {
	v := BookJSON{Version: 1, Kind: "book", Book: l.Dir, Entries: []EntryJSON{}, Unread: faultTexts(l.Unread)}
	for _, e := range l.Entries {
		v.Entries = append(v.Entries, EntryView(e))
	}
	return v
}

func faultTexts(faults strict.Faults) []string {
	out := make([]string, len(faults))
	for i, f := range faults {
		out[i] = f.Error()
	}
	return out
}

// BookExport is the whole book as a table: one row for each material of each
// entry.
func BookExport(l BookList) *Sheet {
	s := &Sheet{Data: [][]string{{"number", "file", "kind", "date", "role", "id", "lot", "mass_g", "volume_ml", "body", "moisture", "loss_g", "oil_absorption_g_per_100g", "oil_absorption_ml_per_100g", "tests", "method", "price_per_g", "drying", "remark", "sure", "strikes", "struck_by"}}}
	number := func(v float64) string {
		if v == 0 {
			return ""
		}
		return full(v)
	}
	for _, e := range l.Entries {
		row := func(role, id, lot string) []string {
			r := make([]string, len(s.Data[0]))
			r[0], r[1], r[2], r[3], r[4], r[5], r[6] = fmt.Sprint(e.Number), e.File, e.Kind(), cell(e.Date), role, id, cell(lot)
			r[18], r[19], r[21] = cell(e.Remark), yesOr(e.Sure), numberOr(e.StruckBy)
			return r
		}
		parts := func(role string, list []book.Part, more func(r []string)) {
			for _, p := range list {
				r := row(role, p.ID, p.Lot)
				r[7], r[8] = number(float64(p.Mass)), number(float64(p.Volume))
				if p.None {
					r[7] = "0"
				}
				more(r)
				s.Data = append(s.Data, r)
			}
		}
		switch {
		case e.Batch != nil:
			b := e.Batch
			more := func(r []string) {
				r[9], r[10], r[11], r[17] = b.Body, number(float64(b.Moisture)), number(float64(b.Loss)), cell(b.Drying)
			}
			parts("pigment", b.Pigments, more)
			parts("extender", b.Extenders, more)
			parts("oil", b.Oils, more)
			parts("wax", b.Waxes, more)
		case e.RubOut != nil:
			t := e.RubOut
			r := row("rub-out", t.ID, t.Lot)
			r[12], r[13], r[14], r[15] = number(float64(t.ByMass)), number(float64(t.ByVolume)), fmt.Sprint(t.Tests), t.Method
			s.Data = append(s.Data, r)
		case e.Strike != nil:
			r := row("strike", "", "")
			r[20] = fmt.Sprint(e.Strike.Entry)
			s.Data = append(s.Data, r)
		default:
			none := func([]string) {}
			parts("counted", e.Stock.Counted, none)
			parts("bought", e.Stock.Bought, none)
			for _, p := range e.Stock.Prices {
				r := row("price", p.ID, "")
				r[16] = number(float64(p.Price))
				s.Data = append(s.Data, r)
			}
		}
	}
	return s
}

// BookPage is one entry of the book, with what it comes to.
type BookPage struct {
	Dir    string
	Entry  BookLine
	Batch  *formulate.BatchResult // nil of any other entry
	Learn  *formulate.LearnResult // where it teaches of one pigment
	New    bool                   // it was written just now
	Unread strict.Faults          // why it does not count
}

// BookPageSheet shows one entry.
func BookPageSheet(p BookPage) *Sheet {
	e := p.Entry
	s := &Sheet{Title: fmt.Sprintf("Entry %d: %s", e.Number, pageTitle(e.Entry))}
	s.Lead = "In " + p.Dir + ", file " + e.File + "."
	if p.New {
		s.Lead = "Written to " + p.Dir + ", file " + e.File + "."
	}
	if e.StruckBy != 0 {
		s.Lead += fmt.Sprintf(" It is struck by entry %d and does not count; 'mullwright book strike %d' brings it back.", e.StruckBy, e.StruckBy)
	}
	sec := Section{Title: "As written down"}
	add := func(label, text string) {
		if text != "" {
			sec.Fields = append(sec.Fields, Field{Label: label, Text: text})
		}
	}
	add("date", e.Date)
	switch {
	case e.Batch != nil:
		b := e.Batch
		for _, l := range []struct {
			role  string
			parts []book.Part
		}{{"pigment", b.Pigments}, {"extender", b.Extenders}, {"oil", b.Oils}, {"wax", b.Waxes}} {
			for _, x := range l.parts {
				text := partText(x)
				if x.Lot != "" {
					text += ", lot " + x.Lot
				}
				add(l.role, text)
			}
		}
		if b.Moisture > 0 {
			add("moisture", percent(b.Moisture)+" of the damp powder")
		}
		add("body reached", b.Body)
		if b.Loss > 0 {
			add("lost", Digits(float64(b.Loss), 3)+" g")
		}
		add("drying", b.Drying)
	case e.RubOut != nil:
		r := e.RubOut
		value := amount(r.ByMass, "g/100 g")
		if r.ByVolume != 0 {
			value = amount(r.ByVolume, "ml/100 g")
		}
		value += ", mean of " + counted(r.Tests, "test", "tests")
		if r.Scatter > 0 {
			value += ", each within about " + percent(r.Scatter)
		}
		add("oil absorption", value)
		add("method", r.Method)
		add("oil", r.Oil)
		add("lot", r.Lot)
	case e.Strike != nil:
		add("strikes", fmt.Sprintf("entry %d", e.Strike.Entry))
	default:
		for _, x := range e.Stock.Counted {
			add("on hand", partText(x))
		}
		for _, x := range e.Stock.Bought {
			add("bought", partText(x))
		}
		for _, x := range e.Stock.Prices {
			add("price", x.ID+" "+Given(x.Price)+"/g")
		}
	}
	add("remark", e.Remark)
	if e.Sure {
		add("sure", "it counts, however far it lies from what is published")
	}
	s.Add(sec)
	s.Add(UnreadSection(p.Unread))
	if r := p.Batch; r != nil {
		s.Add(batchSection(r))
	}
	if p.Learn != nil {
		s.Add(taughtSection(p))
		s.Add(conflictSection(e.Number, p.Learn))
	}
	return s
}

// KeptSection says where an entry was written.
func KeptSection(dir string, e *book.Entry) Section {
	return Section{Title: "In your batch book", Lines: []string{fmt.Sprintf("Entry %d, file %s in %s. 'mullwright book learn %s' says what it taught.", e.Number, e.File, dir, e.RubOut.ID)}}
}

func pageTitle(e *book.Entry) string {
	switch {
	case e.Batch != nil:
		return partTexts(e.Batch.Pigments)
	case e.RubOut != nil:
		return "rub-out of " + e.RubOut.ID
	case e.Strike != nil:
		return fmt.Sprintf("strike of entry %d", e.Strike.Entry)
	}
	return "count of stock"
}

// BookStrike is a strike as it was written, and what it struck.
type BookStrike struct {
	Dir    string
	Strike *book.Entry
	Struck *book.Entry
}

// StrikeSheet says what a strike took out of account, or brought back.
func StrikeSheet(b BookStrike) *Sheet {
	n := b.Strike.Number
	s := &Sheet{Title: fmt.Sprintf("Entry %d is struck: %s", b.Struck.Number, entryText(b.Struck)),
		Lead: fmt.Sprintf("It counts no more. Its file stays as it is; the strike is entry %d, file %s in %s. 'mullwright book strike %d' brings it back.", n, b.Strike.File, b.Dir, n)}
	if back := b.Struck.Strike; back != nil {
		s.Title = fmt.Sprintf("Entry %d counts again", back.Entry)
		s.Lead = fmt.Sprintf("Entry %d, which struck it, is struck by entry %d, file %s in %s.", b.Struck.Number, n, b.Strike.File, b.Dir)
	}
	return s
}

// StrikeView is a strike in JSON.
func StrikeView(b BookStrike) any {
	return struct {
		Version int       `json:"version"`
		Kind    string    `json:"kind"`
		Book    string    `json:"book"`
		Entry   EntryJSON `json:"entry"`
	}{1, "strike", b.Dir, EntryView(BookLine{Entry: b.Strike})}
}

func batchSection(r *formulate.BatchResult) Section {
	f := r.Figures
	sec := Section{Title: "What it came to", Fields: []Field{
		RangeField("oil per 100 g of powder", f.OilPerPigment, 1, 3, "g", ""),
		RangeField("of the paste, by volume", f.BinderByVolume, 100, 3, "%", ""),
		RangeField("paint made", f.Mass, 1, 3, "g", ""),
		RangeField("left to use", r.KeptMl, 1, 3, "ml", ""),
		RangeField("pigment volume (PVC)", f.PVC, 100, 3, "%", "of the dry film"),
	}}
	if r.Critical {
		sec.Fields = append(sec.Fields, RangeField("reduced PVC", f.ReducedPVC, 1, 2, "", "PVC over critical"))
	}
	if f.Cost.Typical > 0 {
		sec.Fields = append(sec.Fields, RangeField("cost", f.Cost, 1, 3, "", "in your money, at the last prices in the book"))
	}
	return sec
}

// taughtSection says what the book knows of the pigment now.
func taughtSection(p BookPage) Section {
	l := p.Learn
	sec := Section{Title: "What your book says of " + l.Request.Pigment.Material.ID}
	for _, u := range l.Unused {
		if u.Number == p.Entry.Number {
			sec.Lines = append(sec.Lines, "This entry teaches nothing: "+u.Why+".")
		}
	}
	sec.Fields = learnedFields(l)
	if sh := l.Pours; sh != nil {
		sec.Fields = append(sec.Fields, shiftField(sh))
	}
	return sec
}

// BookPageJSON is one entry with what it comes to.
type BookPageJSON struct {
	Version       int        `json:"version"`
	Kind          string     `json:"kind"`
	Book          string     `json:"book"`
	Entry         EntryJSON  `json:"entry"`
	PaintMassG    *RangeView `json:"paint_mass_g,omitempty"`
	PaintVolumeML *RangeView `json:"paint_volume_ml,omitempty"`
	LeftVolumeML  *RangeView `json:"left_volume_ml,omitempty"`
	PVC           *RangeView `json:"pvc,omitempty"`
	ReducedPVC    *RangeView `json:"reduced_pvc,omitempty"`
	Cost          *RangeView `json:"cost,omitempty"`
	Learned       *LearnJSON `json:"learned,omitempty"`
	Unread        []string   `json:"not_read"`
}

// BookPageView is one entry in JSON.
func BookPageView(p BookPage, explain bool) BookPageJSON {
	v := BookPageJSON{Version: 1, Kind: "book entry", Book: p.Dir, Entry: EntryView(p.Entry), Unread: faultTexts(p.Unread)}
	if r := p.Batch; r != nil {
		v.PaintMassG, v.PaintVolumeML, v.LeftVolumeML = viewOf(r.Figures.Mass), viewOf(r.Figures.Volume), viewOf(r.KeptMl)
		v.PVC, v.Cost = viewOf(r.Figures.PVC), viewOf(r.Figures.Cost)
		if r.Critical {
			v.ReducedPVC = viewOf(r.Figures.ReducedPVC)
		}
	}
	if p.Learn != nil {
		l := LearnView(p.Learn, explain)
		v.Learned = &l
	}
	return v
}

// stockSection says what is on hand of what an answer needs, and what is short.
func stockSection(list []formulate.OnHand) Section {
	sec := Section{Title: "On hand"}
	for _, o := range list {
		f := Field{Label: o.Material.ID, Value: single(o.Have, "g"), Text: Digits(float64(o.Have), 3) + " g", Note: "· enough for the " + Digits(float64(o.Needed), 3) + " g it may take"}
		if o.Short > 0 {
			f.Note = "· " + Digits(float64(o.Short), 3) + " g short of the " + Digits(float64(o.Needed), 3) + " g it may take"
		}
		sec.Fields = append(sec.Fields, f)
	}
	return sec
}

// OnHandJSON is what there is of a material beside what is needed.
type OnHandJSON struct {
	ID      string  `json:"id"`
	NeededG float64 `json:"needed_g"`
	HaveG   float64 `json:"on_hand_g"`
	ShortG  float64 `json:"short_g"`
}

func stockViews(list []formulate.OnHand) []OnHandJSON {
	var out []OnHandJSON
	for _, o := range list {
		out = append(out, OnHandJSON{o.Material.ID, float64(o.Needed), float64(o.Have), float64(o.Short)})
	}
	return out
}

// StockSheet lists what is kept.
func StockSheet(dir string, list []formulate.Stock, unread strict.Faults) *Sheet {
	s := &Sheet{Title: "On hand", Lead: "Counts less what the batches after them took, by the book in " + dir + "."}
	if len(list) == 0 {
		s.Lead = "Nothing is counted yet. Count a jar with 'mullwright book stock prussian-blue=250g'; each batch then goes off it."
	}
	t := &Table{Columns: []Column{{Title: "material"}, {Title: "on hand, g", Right: true}, {Title: "counted, g", Right: true}, {Title: "in entry", Right: true}, {Title: "bought, g", Right: true}, {Title: "used, g", Right: true}, {Title: "price/g", Right: true}}}
	s.Data = [][]string{{"id", "on_hand_g", "counted_g", "in_entry", "bought_g", "used_g", "price_per_g"}}
	var below []string
	for _, x := range list {
		row := []string{x.Material.ID, "", "", "", "", "", ""}
		data := []string{x.Material.ID, "", "", "", "", "", ""}
		if x.Counted {
			row = []string{x.Material.ID, Places(float64(x.OnHand()), 1), Places(float64(x.Count), 1), fmt.Sprint(x.Since), Places(float64(x.Bought), 1), Places(float64(x.Used), 1), ""}
			data = []string{x.Material.ID, Full(x.OnHand()), Full(x.Count), fmt.Sprint(x.Since), Full(x.Bought), Full(x.Used), ""}
			if x.OnHand() < 0 {
				below = append(below, fmt.Sprintf("%s: %s g more were used than there were. Count it again.", x.Material.ID, Places(float64(-x.OnHand()), 1)))
			}
		} else {
			row[1] = "not counted"
		}
		if x.Price > 0 {
			row[6], data[6] = Given(x.Price), Full(x.Price)
		}
		t.Rows, s.Data = append(t.Rows, row), append(s.Data, data)
	}
	s.Add(Section{Table: t})
	s.Add(Section{Title: "Take care", Marked: true, Lines: below})
	s.Add(UnreadSection(unread))
	return s
}

// StockJSON is what is on hand, in JSON.
type StockJSON struct {
	Version int             `json:"version"`
	Kind    string          `json:"kind"`
	Book    string          `json:"book"`
	Stock   []StockItemJSON `json:"stock"`
	Unread  []string        `json:"not_read"`
}

// StockItemJSON is one material that is kept.
type StockItemJSON struct {
	ID       string  `json:"id"`
	Counted  bool    `json:"counted"`
	OnHandG  float64 `json:"on_hand_g"`
	CountedG float64 `json:"counted_g"`
	InEntry  int     `json:"in_entry"`
	BoughtG  float64 `json:"bought_g"`
	UsedG    float64 `json:"used_g"`
	Price    float64 `json:"price_per_g"`
}

// StockView is what is on hand, in JSON.
func StockView(dir string, list []formulate.Stock, unread strict.Faults) StockJSON {
	v := StockJSON{Version: 1, Kind: "stock", Book: dir, Stock: []StockItemJSON{}, Unread: faultTexts(unread)}
	for _, x := range list {
		v.Stock = append(v.Stock, StockItemJSON{x.Material.ID, x.Counted, float64(x.OnHand()), float64(x.Count), x.Since, float64(x.Bought), float64(x.Used), float64(x.Price)})
	}
	return v
}

// RepeatSheet lays an old batch out in its new amount.
func RepeatSheet(e *book.Entry, r *formulate.RepeatResult) *Sheet {
	b := &r.Request.Batch
	s := &Sheet{Title: fmt.Sprintf("Batch %d again: %s", e.Number, partTexts(e.Batch.Pigments))}
	s.Lead = fmt.Sprintf("%s times the old batch, from its final weights.", Digits(float64(r.Times), 3))
	if e.Date != "" {
		s.Lead = fmt.Sprintf("%s times the batch of %s, from its final weights.", Digits(float64(r.Times), 3), e.Date)
	}
	scale := r.Request.Scale
	sec := Section{Title: "Weigh"}
	for _, w := range r.Weigh {
		f := Field{Label: titleOf(w.Material), Text: OnScale(w.Now, scale), Note: "· was " + thenText(w.Then), Value: single(w.Now, "g")}
		if w.Role == formulate.Binder {
			f.Text = "pour as below"
			f.Note = "· " + OnScale(w.Now, scale) + " in proportion, was " + thenText(w.Then)
		}
		if w.Lot != "" {
			f.Note += ", lot " + w.Lot
		}
		sec.Fields = append(sec.Fields, f)
	}
	s.Add(sec)
	// The oil of a repeat is poured, and shown, as that of a mull.
	s.Add(pourSection(&formulate.MullResult{
		Request: formulate.MullRequest{Scale: scale, Sampling: r.Request.Sampling}, Pours: r.Pours,
		Target: formulate.Target{Kind: formulate.AtBody, Body: b.Body},
	}))
	got := Section{Title: "What you get", Fields: []Field{
		{Label: "paint", Text: Digits(float64(r.Kept), 3) + " g", Note: keptNote(r), Value: single(r.Kept, "g")},
		{Label: "made", Text: Digits(float64(r.Volume), 3) + " ml", Note: "· " + Digits(float64(r.Made), 3) + " g", Value: single(r.Volume, "ml")},
	}}
	if r.Cost > 0 {
		got.Fields = append(got.Fields, Field{Label: "cost", Text: Digits(float64(r.Cost), 3), Note: "· in your money, of what has a price in the book", Value: single(r.Cost, "")})
	}
	s.Add(got)
	s.Add(stockSection(r.Stock))
	lines := []string{"These are the weights of one jar. If the jar is another lot, ask 'mullwright mull' instead: it widens the range."}
	for _, x := range []struct{ label, text string }{{"You remarked then", e.Remark}, {"Drying seen then", e.Batch.Drying}} {
		if x.text != "" {
			lines = append(lines, x.label+": "+x.text)
		}
	}
	s.Add(Section{Title: "Next", Marked: true, Lines: lines})
	s.Add(warningSection(r.Warnings))
	s.addCautions(r.Cautions)
	return s
}

// thenText is an old weight, without noughts behind.
func thenText(m quantity.Mass) string {
	s := Digits(float64(m), 4)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s + " g"
}

func keptNote(r *formulate.RepeatResult) string {
	if r.Request.Batch.Loss > 0 {
		return "· if as much is lost as then, in proportion"
	}
	return "· no loss was written down then"
}

// RepeatJSON is a repeat in JSON.
type RepeatJSON struct {
	Version       int              `json:"version"`
	Kind          string           `json:"kind"`
	Batch         int              `json:"batch"`
	Times         float64          `json:"times"`
	Weigh         []RepeatPartJSON `json:"weigh"`
	OilG          float64          `json:"oil_g"`
	FirstPourG    float64          `json:"first_pour_g"`
	FirstPourOver float64          `json:"first_pour_chance_over"`
	StepG         float64          `json:"step_g"`
	StepDrops     int              `json:"step_drops"`
	OilMostG      float64          `json:"oil_most_g"`
	MadeG         float64          `json:"made_g"`
	MadeML        float64          `json:"made_ml"`
	LeftG         float64          `json:"left_g"`
	Cost          float64          `json:"cost"`
	OnHand        []OnHandJSON     `json:"on_hand,omitempty"`
	Warnings      []string         `json:"warnings"`
	Cautions      []CautionView    `json:"cautions"`
}

// RepeatPartJSON is one material of a repeat.
type RepeatPartJSON struct {
	ID    string  `json:"id"`
	Role  string  `json:"role"`
	ThenG float64 `json:"then_g"`
	NowG  float64 `json:"now_g"`
	Lot   string  `json:"lot"`
}

// RepeatView is a repeat in JSON.
func RepeatView(e *book.Entry, r *formulate.RepeatResult) RepeatJSON {
	v := RepeatJSON{
		Version: 1, Kind: "repeat", Batch: e.Number, Times: float64(r.Times), OilG: float64(r.Oil),
		FirstPourG: float64(r.Pours.First), FirstPourOver: float64(r.Pours.FirstOver), StepG: float64(r.Pours.Step), StepDrops: r.Pours.StepDrops, OilMostG: float64(r.Pours.Most),
		MadeG: float64(r.Made), MadeML: float64(r.Volume), LeftG: float64(r.Kept), Cost: float64(r.Cost),
		OnHand: stockViews(r.Stock), Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
	}
	for _, w := range r.Weigh {
		v.Weigh = append(v.Weigh, RepeatPartJSON{w.Material.ID, w.Role.String(), float64(w.Then), float64(w.Now), w.Lot})
	}
	return v
}

// jarText names the jar that a belief is of.
func jarText(lot string) string {
	if lot == "" {
		return "jar not named"
	}
	return "lot " + lot
}

func viewOf[Q quantity.Real](r evidence.Range[Q]) *RangeView {
	v := rangeView(r, 1)
	return &v
}
