package ask

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"sync"

	"mullwright/cmd/mullwright/internal/book"
	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
)

// A Ledger is the maker's book with its materials looked up: what each pigment's
// trials are, what is on hand, what things cost. It is safe for concurrent use.
type Ledger struct {
	Entries []book.Entry
	// Faults name entries that the catalogue cannot follow: a material it does
	// not know, a body it does not know.
	Faults strict.Faults

	w *Workshop

	mu      sync.Mutex
	reader  *reader
	batches map[string]*formulate.Batch  // by file
	trials  map[string][]formulate.Trial // by pigment
	stock   map[string]*formulate.Stock  // by material
	price   map[string]quantity.PricePerGram
}

// NewLedger looks up the materials of the entries.
func NewLedger(w *Workshop, entries []book.Entry) *Ledger {
	l := &Ledger{Entries: entries, w: w, reader: newReader(w), batches: map[string]*formulate.Batch{}, trials: map[string][]formulate.Trial{}, stock: map[string]*formulate.Stock{}, price: map[string]quantity.PricePerGram{}}
	for i := range entries {
		e := &entries[i]
		if err := l.enter(e); err != nil {
			f := strict.Fault{File: e.File, What: err.Error()}
			var field *FieldError
			if errors.As(err, &field) {
				f.Key, f.What = field.Field, field.Err.Error()
			}
			l.Faults = append(l.Faults, f)
		}
	}
	return l
}

func (l *Ledger) enter(e *book.Entry) error {
	switch {
	case e.StruckBy != 0 || e.Strike != nil:
		return nil
	case e.Stock != nil:
		return l.enterStock(e.Stock, e.Number)
	}
	trials, b, err := l.reader.trials(e)
	if err != nil {
		return err
	}
	for _, t := range trials {
		l.trials[t.id] = append(l.trials[t.id], t.Trial)
	}
	if b == nil {
		return nil
	}
	l.batches[e.File] = b
	for _, list := range [][]formulate.BatchPart{b.Pigments, b.Extenders, b.Oils, b.Waxes} {
		for i := range list {
			if s := l.stock[list[i].Material.ID]; s != nil {
				s.Used += list[i].Mass
			}
		}
	}
	return nil
}

// trialOf is a trial with the pigment that it is of.
type trialOf struct {
	id string
	formulate.Trial
}

// trials are what a batch or a rub-out says of each of its pigments, with the
// batch made ready.
func (r *reader) trials(e *book.Entry) (out []trialOf, b *formulate.Batch, err error) {
	t := formulate.Trial{Number: e.Number, Sure: e.Sure}
	if e.RubOut != nil {
		t.Lot = e.RubOut.Lot
		t.RubOut, err = r.rubOut(e.RubOut)
		return []trialOf{{e.RubOut.ID, t}}, nil, err
	}
	ready, err := r.batch(e.Batch)
	if err == nil {
		err = ready.Validate()
	}
	if err != nil {
		return nil, nil, err
	}
	b = &ready
	seen := map[string]bool{}
	for i := range b.Pigments {
		p := &b.Pigments[i]
		if id := p.Material.ID; !seen[id] && p.Demand.Known() {
			seen[id] = true
			t.Lot, t.Batch = p.Lot, b
			out = append(out, trialOf{id, t})
		}
	}
	return out, b, nil
}

// Fits refuses an entry that would be left out of all learning, unless its maker
// is sure of it: more likely than not it is a slip.
func (l *Ledger) Fits(e *book.Entry) error {
	if e.Batch == nil && e.RubOut == nil {
		return nil
	}
	as := *e
	as.Number = 1
	if n := len(l.Entries); n > 0 {
		as.Number = l.Entries[n-1].Number + 1
	}
	l.mu.Lock()
	trials, _, err := l.reader.trials(&as)
	l.mu.Unlock()
	if err != nil {
		return err
	}
	for _, t := range trials {
		res, err := l.learn(t.id, append(slices.Clone(l.trials[t.id]), t.Trial), nil, nil)
		if err != nil {
			return err
		}
		for i := range res.Conflicts {
			if c := &res.Conflicts[i]; c.Number == as.Number && c.LeftOut {
				return &MisfitError{t.id, *c}
			}
		}
	}
	return nil
}

// A MisfitError is an entry that lies too far from what is published to be taken
// without a word.
type MisfitError struct {
	ID string
	formulate.Conflict
}

func (m *MisfitError) Error() string {
	what := "oil absorption"
	if m.Batch {
		what = "oil at tube colour"
	}
	return fmt.Sprintf("this %s does not fit %s: its %s comes to %s (z = %.1f, under 1 in 1000 by chance); look for a slip, or say --sure if it is right", m.Kind(), m.ID, what, m.Text(), m.Z)
}

// Jars lists the lots of a pigment that the book or the maker's catalogue files
// hold tests of, "" for jars that were not named.
func (l *Ledger) Jars(m *material.Material) []string {
	lots := map[string]bool{}
	for _, t := range l.trials[m.ID] {
		lots[t.Lot] = true
	}
	for _, r := range m.OilAbsorption {
		if r.OwnRubOut() {
			lots[r.Lot] = true
		}
	}
	return slices.Sorted(maps.Keys(lots))
}

func (l *Ledger) enterStock(s *book.Stock, number int) error {
	of := func(id string) (*formulate.Stock, formulate.Ingredient, error) {
		in, err := l.kept(id)
		if err != nil {
			return nil, in, err
		}
		if l.stock[in.Material.ID] == nil {
			l.stock[in.Material.ID] = &formulate.Stock{Material: in.Material}
		}
		return l.stock[in.Material.ID], in, nil
	}
	for _, p := range s.Counted {
		st, in, err := of(p.ID)
		if err != nil {
			return err
		}
		st.Recount(massOf(p, in), number)
	}
	for _, p := range s.Bought {
		st, in, err := of(p.ID)
		if err != nil {
			return err
		}
		st.Bought += massOf(p, in)
	}
	for _, p := range s.Prices {
		st, _, err := of(p.ID)
		if err != nil {
			return err
		}
		st.Price = p.Price
		l.price[st.Material.ID] = p.Price
	}
	return nil
}

// kept makes a material of either catalogue ready to be kept on a shelf: unlike
// an ingredient it need not be fit to calculate with, unless it is measured by
// volume.
func (l *Ledger) kept(id string) (formulate.Ingredient, error) {
	m, err := l.w.Material(id)
	if err != nil {
		return formulate.Ingredient{}, err
	}
	in, err := formulate.NewIngredient(m)
	if in.Density.Known() {
		return in, nil
	}
	return in, err
}

// Pigments lists the pigments that the book holds trials of.
func (l *Ledger) Pigments() []string { return slices.Sorted(maps.Keys(l.trials)) }

// Stock lists what is kept, by id.
func (l *Ledger) Stock() []formulate.Stock {
	var out []formulate.Stock
	for _, id := range slices.Sorted(maps.Keys(l.stock)) {
		out = append(out, *l.stock[id])
	}
	return out
}

// Prices are the latest ones.
func (l *Ledger) Prices() map[string]quantity.PricePerGram { return l.price }

// OnHand is what is left of a material whose stock is kept, nil of others.
func (l *Ledger) OnHand(id string) *quantity.Mass {
	if s := l.stock[id]; s != nil && s.Counted {
		left := s.OnHand()
		return &left
	}
	return nil
}

// Batch makes the batch of an entry ready, priced and with what is on hand.
func (l *Ledger) Batch(e *book.Entry) (formulate.Batch, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	b, err := l.reader.batch(e.Batch)
	if err != nil {
		return b, fmt.Errorf("%s: %w", e.File, err)
	}
	for _, list := range [][]formulate.BatchPart{b.Pigments, b.Extenders, b.Oils, b.Waxes} {
		for i := range list {
			id := list[i].Material.ID
			list[i].Price, list[i].OnHand = l.price[id], l.OnHand(id)
		}
	}
	return b, nil
}

// Learn works out what the book teaches of a pigment. jar is as in
// [formulate.LearnRequest].
func (l *Ledger) Learn(id string, jar *string, mull *formulate.MullRequest) (*formulate.LearnResult, error) {
	return l.learn(id, l.trials[id], jar, mull)
}

func (l *Ledger) learn(id string, trials []formulate.Trial, jar *string, mull *formulate.MullRequest) (*formulate.LearnResult, error) {
	l.mu.Lock()
	in, err := l.reader.ingredient(l.w.PigmentNamed, id)
	l.mu.Unlock()
	if err != nil {
		return nil, err
	}
	return formulate.Learn(formulate.LearnRequest{Pigment: in, Trials: trials, Jar: jar, Mull: mull})
}

// OilPerPowder is the oil of a batch per 100 g of its powders, 0 for any other
// entry and for one that does not count.
func (l *Ledger) OilPerPowder(e *book.Entry) quantity.Absorption {
	if b := l.batches[e.File]; b != nil {
		return b.OilPerPowder()
	}
	return 0
}

// Carrying counts the entries of a number: two people may each have added one.
func (l *Ledger) Carrying(number int) int {
	n := 0
	for i := range l.Entries {
		if l.Entries[i].Number == number {
			n++
		}
	}
	return n
}

// Entry finds an entry by its file, nil where it could not be read.
func (l *Ledger) Entry(file string) *book.Entry {
	for i := range l.Entries {
		if l.Entries[i].File == file {
			return &l.Entries[i]
		}
	}
	return nil
}

// Holds reports whether the book holds trials of a pigment.
func (l *Ledger) Holds(id string) bool { return len(l.trials[id]) > 0 }

// LearnMull is the mull whose first pour shows what was learned: 100 g of the
// pigment alone in linseed oil, to tube colour.
func LearnMull(w *Workshop, s formulate.Sampling) (*formulate.MullRequest, error) {
	oil, err := newReader(w).ingredient(w.MediumNamed, DefaultOil)
	if err != nil {
		return nil, err
	}
	m := Mull{Body: DefaultBody}
	target, err := m.target()
	if err != nil {
		return nil, err
	}
	return &formulate.MullRequest{
		Oils: []formulate.Share{{Ingredient: oil, Parts: 1}}, Amount: formulate.Amount{Kind: formulate.ByPigmentMass, Mass: 100},
		Target: target, Sampling: s,
	}, nil
}
