package ask

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"sync"

	"mullwright/cmd/mullwright/internal/book"
	"mullwright/formulate"
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
	case e.Batch != nil:
		return l.enterBatch(e)
	case e.RubOut != nil:
		return l.enterRubOut(e)
	}
	return l.enterStock(e.Stock, e.Number)
}

func (l *Ledger) enterBatch(e *book.Entry) error {
	b, err := l.reader.batch(e.Batch)
	if err != nil {
		return err
	}
	if err := b.Validate(); err != nil {
		return err
	}
	l.batches[e.File] = &b
	seen := map[string]bool{}
	for i := range b.Pigments {
		p := &b.Pigments[i]
		if id := p.Material.ID; !seen[id] && p.Demand.Known() {
			seen[id] = true
			l.trials[id] = append(l.trials[id], formulate.Trial{Number: e.Number, Lot: p.Lot, Batch: &b})
		}
	}
	for _, list := range [][]formulate.BatchPart{b.Pigments, b.Extenders, b.Oils, b.Waxes} {
		for i := range list {
			if s := l.stock[list[i].Material.ID]; s != nil {
				s.Used += list[i].Mass
			}
		}
	}
	return nil
}

func (l *Ledger) enterRubOut(e *book.Entry) error {
	own, err := l.reader.rubOut(e.RubOut)
	if err != nil {
		return err
	}
	id := e.RubOut.ID
	l.trials[id] = append(l.trials[id], formulate.Trial{Number: e.Number, Lot: e.RubOut.Lot, RubOut: own})
	return nil
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
	l.mu.Lock()
	in, err := l.reader.ingredient(l.w.PigmentNamed, id)
	l.mu.Unlock()
	if err != nil {
		return nil, err
	}
	return formulate.Learn(formulate.LearnRequest{Pigment: in, Trials: l.trials[in.Material.ID], Jar: jar, Mull: mull})
}

// OilPerPowder is the oil of a batch per 100 g of its powders, 0 for any other
// entry.
func (l *Ledger) OilPerPowder(e *book.Entry) quantity.Absorption {
	if b := l.batches[e.File]; b != nil {
		return b.OilPerPowder()
	}
	return 0
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
