package ask

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"mullwright/cmd/mullwright/internal/book"
	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// BookAdd is a batch or a rub-out to be written down.
type BookAdd struct {
	Pigments  []string
	Oils      []string
	Extenders []string
	Waxes     []string
	Body      string
	Moisture  string
	Loss      string
	Lots      []string
	Date      string
	Drying    string
	Remark    string
	RubOut    string
	Tests     string
	Scatter   string
	EndPoint  string
	Sure      bool
}

// Fields lists what may be said of a batch or a rub-out.
func (a *BookAdd) Fields() []Field {
	return []Field{
		{Name: "pigments", Many: &a.Pigments, Help: "pigments as weighed, each NAME=MASS", FileOnly: true},
		{Name: "oil", Many: &a.Oils, Help: "oil that went in, all pours together, NAME=AMOUNT by mass or volume; repeat for a blend"},
		{Name: "body", One: &a.Body, Help: "the body it reached, as you judged it: stiff, buttery, soft, flowing"},
		{Name: "lot", Many: &a.Lots, Help: "which jar, in your words: LOT, or NAME=LOT where there are several pigments"},
		{Name: "date", One: &a.Date, Help: "when, in your words"},
		{Name: "extender", Many: &a.Extenders, Help: "extender that went in, NAME=MASS"},
		{Name: "wax", Many: &a.Waxes, Help: "wax or stabiliser that went in, NAME=MASS"},
		{Name: "moisture", One: &a.Moisture, Help: "water in the pigment, of the damp mass, as in 5%"},
		{Name: "loss", One: &a.Loss, Help: "paint left on slab, knife and muller, by mass or as a share of what was made"},
		{Name: "drying", One: &a.Drying, Help: "drying seen, in your words"},
		{Name: "remark", One: &a.Remark, Help: "anything else"},
		{Name: "rubout", One: &a.RubOut, Help: "a rub-out instead of a batch: its oil absorption, as in 43.5g/100g or 46.8ml/100g"},
		{Name: "tests", One: &a.Tests, Help: "how many rub-outs that is the mean of (default 1)"},
		{Name: "scatter", One: &a.Scatter, Help: "standard deviation among those, of their mean, as in 1.5%"},
		{Name: "end-point", One: &a.EndPoint, Help: "how the rub-out ended: rub-out or gardner-coleman (default rub-out)"},
		{Name: "sure", Yes: &a.Sure, Help: "it is right, however far it lies from all that is known of the pigment"},
	}
}

// Entry turns what was said into an entry of the book, checked against the
// catalogue: a batch that cannot have been is refused, and one that is most
// unlikely unless the maker is sure.
func (a *BookAdd) Entry(w *Workshop) (book.Entry, error) {
	e := book.Entry{Date: a.Date, Remark: a.Remark, Sure: a.Sure}
	if len(a.Pigments) == 0 {
		return e, errors.New("no pigment given: name what was weighed, as in prussian-blue=60g")
	}
	if a.RubOut != "" {
		return e, a.rubOut(&e, w)
	}
	if given(a.Tests, a.Scatter, a.EndPoint) > 0 {
		return e, errors.New("--tests, --scatter and --end-point belong to a rub-out; give its result with --rubout")
	}
	b := &book.Batch{Drying: a.Drying, Body: strings.TrimSpace(a.Body)}
	for _, l := range []struct {
		field string
		texts []string
		look  func(string) (*material.Material, error)
		to    *[]book.Part
	}{
		{"pigment", a.Pigments, w.PigmentNamed, &b.Pigments},
		{"extender", a.Extenders, w.PigmentNamed, &b.Extenders},
		{"oil", a.Oils, w.MediumNamed, &b.Oils},
		{"wax", a.Waxes, w.MediumNamed, &b.Waxes},
	} {
		for _, text := range l.texts {
			p, err := part(text, l.field, l.look)
			if err != nil {
				return e, at(l.field, err)
			}
			*l.to = append(*l.to, p)
		}
	}
	if len(b.Oils) == 0 {
		return e, errors.New("no oil given: say what went in, all pours together, as in --oil linseed-oil=48.3g")
	}
	if err := lots(b.Pigments, a.Lots, w); err != nil {
		return e, at("lot", err)
	}
	var err error
	if b.Moisture, err = shareOr(a.Moisture, 0); err != nil {
		return e, at("moisture", err)
	}
	e.Batch = b
	ready, err := newReader(w).batch(b)
	if err != nil {
		return e, err
	}
	if b.Loss, err = lossOf(a.Loss, ready.Paint().Figures().Mass); err != nil {
		return e, at("loss", err)
	}
	ready.Loss = b.Loss
	if err := ready.Validate(); err != nil {
		return e, err
	}
	return e, w.fits(&e)
}

func (a *BookAdd) rubOut(e *book.Entry, w *Workshop) error {
	r := &book.RubOut{Tests: 1, Oil: DefaultOil}
	if len(a.Pigments) > 1 {
		return fmt.Errorf("%d pigments are given; a rub-out is of one", len(a.Pigments))
	}
	if given(a.Body, a.Loss, a.Drying, a.Moisture) > 0 || len(a.Extenders)+len(a.Waxes) > 0 {
		return errors.New("body, loss, drying, moisture, extender and wax belong to a batch, not to a rub-out")
	}
	n, err := splitNamed(a.Pigments[0])
	if err == nil && n.given {
		err = fmt.Errorf("%q: a rub-out is given per 100 g, so the pigment needs no mass", a.Pigments[0])
	}
	if err != nil {
		return at("pigment", err)
	}
	m, err := w.PigmentNamed(n.name)
	if err != nil {
		return at("pigment", err)
	}
	r.ID = m.ID
	if err := r.ByMass.Set(a.RubOut); err != nil {
		r.ByMass = 0
		if err := r.ByVolume.Set(a.RubOut); err != nil {
			return at("rubout", fmt.Errorf("%q is no oil absorption, by mass or by volume; accepted: as in 43.5g/100g or 46.8ml/100g", a.RubOut))
		}
	}
	if a.Tests != "" {
		if r.Tests, err = strconv.Atoi(strings.TrimSpace(a.Tests)); err != nil {
			return at("tests", fmt.Errorf("%q is not a count of tests", a.Tests))
		}
	}
	if a.Scatter != "" {
		s, err := fraction(a.Scatter)
		if err != nil {
			return at("scatter", err)
		}
		r.Scatter = quantity.Ratio(s)
	}
	r.Method = orOne(a.EndPoint, string(material.RubOut))
	if r.Method != string(material.RubOut) && r.Method != string(material.GardnerColeman) {
		return at("end-point", fmt.Errorf("%q is not an end point; accepted: %s, %s", a.EndPoint, material.RubOut, material.GardnerColeman))
	}
	switch len(a.Oils) {
	case 0:
	case 1:
		oil, err := w.MediumNamed(a.Oils[0])
		if err != nil {
			return at("oil", err)
		}
		r.Oil = oil.ID
	default:
		return at("oil", fmt.Errorf("%d oils are given; a rub-out is made with one", len(a.Oils)))
	}
	one := []book.Part{{ID: r.ID}}
	if err := lots(one, a.Lots, w); err != nil {
		return at("lot", err)
	}
	r.Lot = one[0].Lot
	e.RubOut = r
	if _, err := newReader(w).rubOut(r); err != nil {
		return at("rubout", err)
	}
	if err := e.Check(); err != nil {
		return err
	}
	return w.fits(e)
}

// RubOutEntry is the mean of a rub-out as an entry of the book.
func RubOutEntry(res *formulate.RubOutResult) (book.Entry, error) {
	req := &res.Request
	e := book.Entry{Date: req.Date, Remark: req.Remark}
	switch {
	case req.Pigment == nil:
		return e, errors.New("name the pigment the result is to be kept for")
	case len(res.Figures) == 0:
		return e, errors.New("there is no result to keep; give the tests with --took")
	case req.Oil.Material.Kind != material.Oil:
		return e, fmt.Errorf("%s is not an oil: a liquid demand is not kept as an oil absorption", req.Oil.Material.ID)
	}
	e.RubOut = &book.RubOut{ID: req.Pigment.ID, Lot: req.Lot, ByVolume: toHundredths(res.Mean.Volume), Tests: res.Mean.Tests, Scatter: scatterOf(res.Mean), Method: string(req.Method), Oil: req.Oil.Material.ID}
	return e, e.Check()
}

// scatterOf is the standard deviation of the tests to a hundredth of a per cent
// of their mean, 0 for one test.
func scatterOf(m formulate.RubOutMean) quantity.Ratio {
	return quantity.Ratio(math.Round(float64(m.VolumeSD/m.Volume)*1e4) / 1e4)
}

// exampleOf is a name for each field of a batch.
var exampleOf = map[string]string{"pigment": "ultramarine-blue", "extender": "chalk", "oil": "linseed-oil", "wax": "beeswax", "material": "linseed-oil"}

// part reads "id=amount" in a field of a batch.
func part(text, field string, look func(string) (*material.Material, error)) (book.Part, error) {
	n, err := splitNamed(text)
	if err == nil && !n.given {
		err = fmt.Errorf("%q: the weight is missing, as in %s=60g", text, n.name)
		if _, aerr := massOrVolume(n.name); aerr == nil {
			err = fmt.Errorf("%q is an amount alone; name the %s: %s=%s", text, field, exampleOf[field], strings.ReplaceAll(n.name, " ", ""))
		}
	}
	if err != nil {
		return book.Part{}, err
	}
	m, err := look(n.name)
	if err != nil {
		return book.Part{}, err
	}
	if _, reason := quantity.Number(n.value); reason == "" {
		return book.Part{}, fmt.Errorf("%s: %q: the unit is missing; accepted: as in 60g or 31ml", n.name, n.value)
	}
	a, err := massOrVolume(n.value)
	if err != nil {
		return book.Part{}, fmt.Errorf("%s: %w", n.name, err)
	}
	if powder := m.Kind == material.Pigment || m.Kind == material.Extender; powder && a.Volume != 0 {
		return book.Part{}, fmt.Errorf("%s: %q is a volume; a powder is weighed", n.name, n.value)
	}
	return book.Part{ID: m.ID, Mass: a.Mass, Volume: a.Volume}, nil
}

// lots reads "LOT" or "NAME=LOT" for pigments.
func lots(list []book.Part, texts []string, w *Workshop) error {
	for _, text := range texts {
		name, lot, named := strings.Cut(text, "=")
		if m, err := w.PigmentNamed(strings.TrimSpace(name)); named && err == nil {
			name = m.ID
		} else if len(list) > 1 {
			return fmt.Errorf("%q: there are %d pigments; say whose lot it is, as in %s=%s", text, len(list), list[0].ID, text)
		} else {
			name, lot = list[0].ID, text
		}
		i := slices.IndexFunc(list, func(p book.Part) bool { return p.ID == name && p.Lot == "" })
		if i < 0 {
			return fmt.Errorf("%q: %s is not among the pigments, or has a lot already", text, name)
		}
		list[i].Lot = strings.TrimSpace(lot)
	}
	return nil
}

// lossOf reads a mass, or a share of what was made.
func lossOf(text string, made quantity.Mass) (quantity.Mass, error) {
	if text == "" {
		return 0, nil
	}
	if strings.Contains(text, "%") {
		s, err := fraction(text)
		// To the hundredth of a gram: what is written down is to be read.
		return quantity.Mass(math.Round(float64(made)*float64(s)*100) / 100), err
	}
	return quantity.ParseMass(text)
}

// reader makes what the book holds ready for calculation, by the catalogue
// alone: what the book teaches must not colour what it teaches from.
type reader struct {
	w     *Workshop
	known map[string]formulate.Ingredient
}

func newReader(w *Workshop) *reader { return &reader{w, map[string]formulate.Ingredient{}} }

func (r *reader) ingredient(look func(string) (*material.Material, error), id string) (formulate.Ingredient, error) {
	if in, ok := r.known[id]; ok {
		return in, nil
	}
	m, err := look(id)
	if err != nil {
		return formulate.Ingredient{}, err
	}
	in, err := formulate.NewIngredient(m)
	if !in.Density.Known() {
		return in, err
	}
	// A pigment whose oil absorption nobody knows can be written down all the same.
	r.known[id] = in
	return in, nil
}

// batch makes a batch ready.
func (r *reader) batch(b *book.Batch) (formulate.Batch, error) {
	out := formulate.Batch{Moisture: b.Moisture, Loss: b.Loss}
	for _, l := range []struct {
		parts []book.Part
		look  func(string) (*material.Material, error)
		to    *[]formulate.BatchPart
		of    string
	}{
		{b.Pigments, r.w.PigmentNamed, &out.Pigments, "pigment"},
		{b.Extenders, r.w.PigmentNamed, &out.Extenders, "extender"},
		{b.Oils, r.w.MediumNamed, &out.Oils, "oil"},
		{b.Waxes, r.w.MediumNamed, &out.Waxes, "wax"},
	} {
		for _, p := range l.parts {
			in, err := r.ingredient(l.look, p.ID)
			if err != nil {
				return out, at(l.of, err)
			}
			*l.to = append(*l.to, formulate.BatchPart{Ingredient: in, Mass: massOf(p, in), Lot: p.Lot})
		}
	}
	if b.Body != "" {
		var err error
		if out.Body, err = absorption.ParseBody(b.Body); err != nil {
			return out, at("body", err)
		}
	}
	return out, nil
}

// rubOut makes a rub-out ready: a figure by mass is turned into a volume by the
// density that the methods report linseed oil with, or by the oil's own.
func (r *reader) rubOut(b *book.RubOut) (*formulate.OwnRubOut, error) {
	m, err := r.w.PigmentNamed(b.ID)
	if err == nil {
		_, err = formulate.NewIngredient(m) // there must be a prior to learn from
	}
	if err != nil {
		return nil, at("pigment", err)
	}
	oil, err := r.ingredient(r.w.MediumNamed, b.Oil)
	if err != nil {
		return nil, at("oil", err)
	}
	out := &formulate.OwnRubOut{Value: b.ByVolume, Tests: b.Tests, Scatter: b.Scatter, Method: material.Method(b.Method), Oil: oil.Material}
	if b.ByMass != 0 {
		density := oil.Density.Median
		if isLinseed(oil.Material.ID) {
			density = quantity.ReportingOilDensity
		}
		out.Value = b.ByMass.ByVolume(density)
	}
	return out, out.Validate()
}

// massOf is the mass of what was weighed, or measured.
func massOf(p book.Part, in formulate.Ingredient) quantity.Mass {
	if p.Volume != 0 {
		return p.Volume.Mass(in.Density.Median)
	}
	return p.Mass
}

// BookRepeat is an old batch in a new amount, as asked.
type BookRepeat struct {
	PigmentMass string
	PaintMass   string
	PaintVolume string
	OilMass     string
	Tubes       string
	Fill        string
	Scale       string
	TwentyDrops string
}

// Fields lists what may be said of a repeat.
func (q *BookRepeat) Fields() []Field {
	return []Field{
		{Name: "pigment-mass", One: &q.PigmentMass, Either: "amount", Help: "pigment as it is weighed"},
		{Name: "paint-mass", One: &q.PaintMass, Either: "amount", Help: "paint wanted, by mass"},
		{Name: "paint-volume", One: &q.PaintVolume, Either: "amount", Help: "paint wanted, by volume"},
		{Name: "oil-mass", One: &q.OilMass, Either: "amount", Help: "oil there is to use up"},
		{Name: "tubes", One: &q.Tubes, Either: "amount", Help: "tubes to fill, as in 3x40ml"},
		{Name: "fill", One: &q.Fill, Help: "how much of a tube is filled (default " + DefaultFill + ")"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
		{Name: "twenty-drops", One: &q.TwentyDrops, Help: "what 20 drops of your oil weigh (default from the catalogue)"},
	}
}

// Request turns the question into a request.
func (q *BookRepeat) Request(l *Ledger, e *book.Entry, s formulate.Sampling) (formulate.RepeatRequest, error) {
	req := formulate.RepeatRequest{Sampling: s}
	if e.StruckBy != 0 {
		return req, fmt.Errorf("entry %d is struck, by entry %d: there is nothing to repeat", e.Number, e.StruckBy)
	}
	if e.Batch == nil {
		return req, fmt.Errorf("entry %d is a %s, not a batch: there is nothing to repeat", e.Number, entryWord(e))
	}
	var err error
	if req.Batch, err = l.Batch(e); err != nil {
		return req, err
	}
	// An amount and a balance are asked for as in a mull.
	m := Mull{PigmentMass: q.PigmentMass, PaintMass: q.PaintMass, PaintVolume: q.PaintVolume, OilMass: q.OilMass, Tubes: q.Tubes, Fill: q.Fill}
	if req.Amount, err = m.amount(); err != nil {
		return req, err
	}
	if err := req.Scale.Set(orOne(q.Scale, DefaultScale)); err != nil {
		return req, at("scale", err)
	}
	oils := req.Batch.Oils
	if len(oils) == 0 {
		return req, fmt.Errorf("entry %d holds no oil: there is nothing to pour", e.Number)
	}
	req.DropMass, err = oneDrop(oils[0].Material, q.TwentyDrops)
	return req, err
}

func entryWord(e *book.Entry) string {
	if e.Stock != nil {
		return "count of stock"
	}
	return e.Kind()
}

// BookStock is a count of what is on hand, or what came in, as said.
type BookStock struct {
	Counted []string
	Bought  []string
	Prices  []string
	Date    string
	Remark  string
}

// Fields lists what may be said of stock.
func (q *BookStock) Fields() []Field {
	return []Field{
		{Name: "counted", Many: &q.Counted, Help: "what there is now, each NAME=AMOUNT or NAME=none", FileOnly: true},
		{Name: "bought", Many: &q.Bought, Help: "what came in since it was counted, NAME=AMOUNT; repeat for more"},
		{Name: "price", Many: &q.Prices, Help: "price NAME=AMOUNT, as in prussian-blue=0.12/g; repeat for more"},
		{Name: "date", One: &q.Date, Help: "when, in your words"},
		{Name: "remark", One: &q.Remark, Help: "anything else"},
	}
}

// Entry turns what was said into an entry of the book.
func (q *BookStock) Entry(w *Workshop) (book.Entry, error) {
	s := &book.Stock{}
	e := book.Entry{Date: q.Date, Remark: q.Remark, Stock: s}
	for _, text := range q.Counted {
		if name, none := strings.CutSuffix(strings.ReplaceAll(text, " ", ""), "=none"); none {
			m, err := w.Material(name)
			if err != nil {
				return e, err
			}
			s.Counted = append(s.Counted, book.Part{ID: m.ID, None: true})
			continue
		}
		p, err := part(text, "material", w.Material)
		if err != nil {
			return e, err
		}
		s.Counted = append(s.Counted, p)
	}
	for _, text := range q.Bought {
		p, err := part(text, "material", w.Material)
		if err != nil {
			return e, at("bought", err)
		}
		s.Bought = append(s.Bought, p)
	}
	for _, text := range q.Prices {
		n, err := splitNamed(text)
		if err == nil && !n.given {
			err = fmt.Errorf("%q: the price is missing, as in %s=0.12/g", text, n.name)
		}
		if err != nil {
			return e, at("price", err)
		}
		m, err := w.Material(n.name)
		if err != nil {
			return e, at("price", err)
		}
		price := book.Price{ID: m.ID}
		if err := price.Price.Set(n.value); err != nil {
			return e, at("price", fmt.Errorf("%s: %w", n.name, err))
		}
		s.Prices = append(s.Prices, price)
	}
	return e, e.Check()
}
