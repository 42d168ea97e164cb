package book

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"mullwright/formulate/absorption"
	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
)

// An Entry is one page of the book. Exactly one of Batch, RubOut, Stock and
// Strike is set.
type Entry struct {
	Number int    `toml:"-"`
	File   string `toml:"-"` // its name in the book's folder
	Date   string `toml:"date"`
	Remark string `toml:"remark"`
	// Sure is the maker's word that a batch or a rub-out is right, however far it
	// lies from all that is known of the pigment.
	Sure bool `toml:"sure"`

	Batch  *Batch  `toml:"batch"`
	RubOut *RubOut `toml:"rub-out"`
	Stock  *Stock  `toml:"stock"`
	Strike *Strike `toml:"strike"`

	// StruckBy is the number of the entry that strikes this one, 0 for none; see
	// [Reading].
	StruckBy int `toml:"-"`
}

// A Strike takes an earlier entry out of account. It changes nothing of it, and
// is undone by striking the strike.
type Strike struct {
	Entry int `toml:"entry"` // the number of the earlier entry
}

// A Batch is what was really weighed.
type Batch struct {
	Pigments  []Part                `toml:"pigments"`
	Extenders []Part                `toml:"extenders"`
	Oils      []Part                `toml:"oils"`
	Waxes     []Part                `toml:"waxes"`
	Body      string                `toml:"body"` // reached: a name, or a ratio
	Moisture  quantity.MassFraction `toml:"moisture"`
	Loss      quantity.Mass         `toml:"loss"`
	Drying    string                `toml:"drying"` // as seen
}

// A Part is one material as it was weighed, or measured.
type Part struct {
	ID     string          `toml:"id"`
	Mass   quantity.Mass   `toml:"mass"`
	Volume quantity.Volume `toml:"volume"`
	Lot    string          `toml:"lot"`
	None   bool            `toml:"none"` // of a count: there is none left
}

// A RubOut is the mean of one or more tests made together, by mass or by volume.
type RubOut struct {
	ID       string                    `toml:"id"`
	Lot      string                    `toml:"lot"`
	ByMass   quantity.Absorption       `toml:"by-mass"`
	ByVolume quantity.AbsorptionVolume `toml:"by-volume"`
	Tests    int                       `toml:"tests"`
	Scatter  quantity.Ratio            `toml:"scatter"` // standard deviation of one test, of the mean; 0 where it is not known
	Method   string                    `toml:"method"`
	Oil      string                    `toml:"oil"`
}

// Stock is a count of what is on hand, what has come in since, and what it cost.
type Stock struct {
	Counted []Part  `toml:"counted"`
	Bought  []Part  `toml:"bought"`
	Prices  []Price `toml:"prices"`
}

// A Price is what a material costs.
type Price struct {
	ID    string                `toml:"id"`
	Price quantity.PricePerGram `toml:"price"`
}

// The most that one entry may hold.
const (
	mostText  = 200  // letters of a date, a lot, a body
	mostWords = 2000 // letters of a remark, of drying
	mostParts = 100
	mostTests = 100
)

// Kind names what the entry is.
func (e *Entry) Kind() string {
	switch {
	case e.Batch != nil:
		return "batch"
	case e.RubOut != nil:
		return "rub-out"
	case e.Strike != nil:
		return "strike"
	}
	return "stock"
}

// Parts lists the materials of a batch.
func (b *Batch) Parts() []Part {
	var out []Part
	for _, l := range [][]Part{b.Pigments, b.Extenders, b.Oils, b.Waxes} {
		out = append(out, l...)
	}
	return out
}

// first is the id that the file is named by.
func (e *Entry) first() string {
	switch {
	case e.Batch != nil && len(e.Batch.Pigments) > 0:
		return e.Batch.Pigments[0].ID
	case e.RubOut != nil:
		return e.RubOut.ID
	case e.Strike != nil:
		return "strike"
	}
	return "stock"
}

// check collects what is wrong with an entry; key is where it stands.
func (e *Entry) check(fault func(what string, key ...string)) {
	text := func(s string, most int, key ...string) {
		if what := lineFault(s, most); what != "" {
			fault(what, key...)
		}
	}
	text(e.Date, mostText, "date")
	text(e.Remark, mostWords, "remark")
	kinds := 0
	for _, given := range []bool{e.Batch != nil, e.RubOut != nil, e.Stock != nil, e.Strike != nil} {
		if given {
			kinds++
		}
	}
	if kinds != 1 {
		fault("an entry holds one of [batch], [rub-out], [stock] and [strike]")
		return
	}
	if e.Sure && e.Batch == nil && e.RubOut == nil {
		fault("only a batch or a rub-out can be sure", "sure")
	}
	parts := func(list []Part, liquid, count bool, key ...string) {
		if len(list) > mostParts {
			fault(fmt.Sprintf("%d materials are more than one entry takes; at most %d", len(list), mostParts), key...)
			return
		}
		for i, p := range list {
			at := append(key[:len(key):len(key)], strconv.Itoa(i))
			if what := idFault(p.ID); what != "" {
				fault(what, append(at, "id")...)
			}
			text(p.Lot, mostText, append(at, "lot")...)
			switch {
			case p.None && !count:
				fault("only a count may be of none", append(at, "none")...)
			case p.None && (p.Mass != 0 || p.Volume != 0):
				fault("none, and an amount; keep one", append(at, "none")...)
			case p.None:
			case p.Mass == 0 && p.Volume == 0 && liquid:
				fault("neither mass nor volume is given", append(at, "mass")...)
			case p.Mass == 0 && p.Volume == 0:
				fault("no mass is given", append(at, "mass")...)
			case p.Volume != 0 && !liquid:
				fault("only a liquid is given by volume; give its mass", append(at, "volume")...)
			case p.Mass != 0 && p.Volume != 0:
				fault("both mass and volume are given; keep one", append(at, "volume")...)
			}
		}
	}
	switch {
	case e.Batch != nil:
		b := e.Batch
		if len(b.Pigments) == 0 {
			fault("a batch has at least one pigment", "batch", "pigments")
		}
		parts(b.Pigments, false, false, "batch", "pigments")
		parts(b.Extenders, false, false, "batch", "extenders")
		parts(b.Oils, true, false, "batch", "oils")
		parts(b.Waxes, true, false, "batch", "waxes")
		if b.Body != "" {
			if _, err := absorption.ParseBody(b.Body); err != nil {
				fault(err.Error(), "batch", "body")
			}
		}
		text(b.Drying, mostWords, "batch", "drying")
		if b.Moisture >= 0.9 {
			fault("moisture is under 90 % of the damp mass", "batch", "moisture")
		}
	case e.RubOut != nil:
		r := e.RubOut
		if what := idFault(r.ID); what != "" {
			fault(what, "rub-out", "id")
		}
		text(r.Lot, mostText, "rub-out", "lot")
		switch {
		case r.ByMass == 0 && r.ByVolume == 0:
			fault("neither by-mass nor by-volume is given", "rub-out", "by-mass")
		case r.ByMass != 0 && r.ByVolume != 0:
			fault("both by-mass and by-volume are given; keep the one that was measured", "rub-out", "by-volume")
		}
		if r.Tests < 1 || r.Tests > mostTests {
			fault(fmt.Sprintf("%d tests; accepted: 1 to %d", r.Tests, mostTests), "rub-out", "tests")
		}
		switch {
		case r.Scatter == 0:
		case r.Tests == 1:
			fault("one test has no scatter", "rub-out", "scatter")
		case r.Scatter > 1:
			fault("tests that scatter by more than their mean are no tests", "rub-out", "scatter")
		}
		if what := idFault(r.Method); what != "" {
			fault(what, "rub-out", "method")
		}
		if what := idFault(r.Oil); what != "" {
			fault(what, "rub-out", "oil")
		}
	case e.Strike != nil:
		if n := e.Strike.Entry; n < 1 || e.Number > 0 && n >= e.Number {
			fault(fmt.Sprintf("%d is not the number of an earlier entry", n), "strike", "entry")
		}
	default:
		s := e.Stock
		if len(s.Counted)+len(s.Bought)+len(s.Prices) == 0 {
			fault("nothing is counted, bought or priced", "stock")
		}
		parts(s.Counted, true, true, "stock", "counted")
		parts(s.Bought, true, false, "stock", "bought")
		for i, p := range s.Prices {
			at := []string{"stock", "prices", strconv.Itoa(i)}
			if what := idFault(p.ID); what != "" {
				fault(what, append(at, "id")...)
			}
		}
	}
}

// idFault says what is wrong with an id: the catalogues write them in small
// letters, digits and hyphens; a maker's own may hold any letters, in one word.
func idFault(id string) string {
	switch {
	case id == "":
		return "it is missing"
	case len(id) > mostText:
		return fmt.Sprintf("%d letters are too long for an id", len(id))
	}
	for _, r := range id {
		if !(unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("-_.", r)) {
			return fmt.Sprintf("%q is not an id: %q stands in it; accepted: letters, digits and hyphens, as in prussian-blue", id, r)
		}
	}
	return ""
}

// lineFault says what is wrong with a line of the maker's own text.
func lineFault(s string, most int) string {
	if !utf8.ValidString(s) {
		return "it is not text (UTF-8)"
	}
	if n := utf8.RuneCountInString(s); n > most {
		return fmt.Sprintf("%d letters; at most %d", n, most)
	}
	for _, r := range s {
		if unicode.IsControl(r) {
			return fmt.Sprintf("it holds the control character %q; write it on one line", r)
		}
	}
	return ""
}

// Check returns everything wrong with an entry that is about to be added.
func (e *Entry) Check() error {
	var faults strict.Faults
	e.check(func(what string, key ...string) {
		faults = append(faults, strict.Fault{File: "the new entry", Key: strings.Join(key, "."), What: what})
	})
	if n := len(e.Text()); n > maxFile {
		faults = append(faults, strict.Fault{File: "the new entry", What: fmt.Sprintf("%d bytes are more than the %d of an entry", n, maxFile)})
	}
	return faults.Err()
}

// all lists every material of the entry with its lot.
func (e *Entry) all() []Part {
	switch {
	case e.Batch != nil:
		return e.Batch.Parts()
	case e.RubOut != nil:
		return []Part{{ID: e.RubOut.ID, Lot: e.RubOut.Lot}}
	case e.Strike != nil:
		return nil
	}
	out := append(append([]Part(nil), e.Stock.Counted...), e.Stock.Bought...)
	for _, p := range e.Stock.Prices {
		out = append(out, Part{ID: p.ID})
	}
	return out
}

// Names reports whether the entry is about a material.
func (e *Entry) Names(id string) bool {
	return slices.ContainsFunc(e.all(), func(p Part) bool { return p.ID == id })
}

// Of reports whether the entry is about a lot.
func (e *Entry) Of(lot string) bool {
	return slices.ContainsFunc(e.all(), func(p Part) bool { return p.Lot == lot })
}
