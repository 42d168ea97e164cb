package ask

import (
	"errors"
	"fmt"
	"slices"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/quantity"
)

// Defaults where the maker says nothing.
const (
	DefaultOil   = "linseed-oil"
	DefaultBody  = "buttery"
	DefaultScale = "0.1 g"
	DefaultFill  = "78 %" // between the published [media.TubeFills]
)

// Mull is a mull as asked.
type Mull struct {
	Pigments    []string
	Oils        []string
	Extenders   []string
	Waxes       []string
	PigmentMass string
	PaintMass   string
	PaintVolume string
	OilMass     string
	Tubes       string
	Fill        string
	Body        string
	PVC         string
	ReducedPVC  string
	Knowingly   bool
	PartsBy     string
	Moisture    string
	Loss        string
	Have        string
	Slab        string
	PerMull     string
	Scale       string
	TwentyDrops string
	Prices      []string
}

// Fields lists what may be said of a mull.
func (m *Mull) Fields() []Field {
	return []Field{
		{Name: "pigments", Many: &m.Pigments, Help: "pigments, each NAME or NAME=PARTS", FileOnly: true},
		{Name: "oil", Many: &m.Oils, Help: "drying oil, NAME or NAME=PARTS; repeat for a blend (default " + DefaultOil + ")"},
		{Name: "extender", Many: &m.Extenders, Help: "extender NAME=SHARE of the pigment mass, as in chalk=10%"},
		{Name: "wax", Many: &m.Waxes, Help: "wax or stabiliser NAME=SHARE of the paste, as in beeswax=2%"},
		{Name: "pigment-mass", One: &m.PigmentMass, Either: "amount", Help: "pigment as it is weighed, damp or dry"},
		{Name: "paint-mass", One: &m.PaintMass, Either: "amount", Help: "paint wanted, by mass"},
		{Name: "paint-volume", One: &m.PaintVolume, Either: "amount", Help: "paint wanted, by volume"},
		{Name: "oil-mass", One: &m.OilMass, Either: "amount", Help: "oil there is to use up"},
		{Name: "tubes", One: &m.Tubes, Either: "amount", Help: "tubes to fill, as in 3x40ml"},
		{Name: "fill", One: &m.Fill, Help: "how much of a tube is filled (default " + DefaultFill + ", the rest is for the crimp)"},
		{Name: "body", One: &m.Body, Either: "stiffness", Help: "stiff, buttery, soft or flowing, which published demand decides; or a ratio of pigment volume to critical PVC, which oil absorption decides (default " + DefaultBody + ")"},
		{Name: "pvc", One: &m.PVC, Either: "stiffness", Help: "pigment volume concentration, as in 45%"},
		{Name: "reduced-pvc", One: &m.ReducedPVC, Either: "stiffness", Help: "PVC over critical PVC, as in 0.8"},
		{Name: "above-critical", Yes: &m.Knowingly, Help: "allow a PVC above the critical one: lean, porous, crumbly paint"},
		{Name: "parts-by", One: &m.PartsBy, Help: "what pigment parts mean: mass, volume (of solid) or spoon (of loose powder) (default mass)"},
		{Name: "moisture", One: &m.Moisture, Help: "water in the pigment, of the damp mass, as in 12%"},
		{Name: "loss", One: &m.Loss, Help: "paint left on slab, knife and muller, of what is made, as in 7%"},
		{Name: "have", One: &m.Have, Help: "pigment there is beyond this batch: how much oil it could still mend"},
		{Name: "slab", One: &m.Slab, Help: "slab size, as in 30x40cm: how many mulls"},
		{Name: "per-mull", One: &m.PerMull, Help: "how much you mull at a time, as in 20ml (default by the slab's size)"},
		{Name: "scale", One: &m.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
		{Name: "twenty-drops", One: &m.TwentyDrops, Help: "what 20 drops of your oil weigh (default from the catalogue)"},
		{Name: "price", Many: &m.Prices, Help: "price NAME=AMOUNT, as in prussian-blue=0.12/g"},
	}
}

// Request turns the question into a request.
func (m *Mull) Request(w *Workshop, s formulate.Sampling) (formulate.MullRequest, error) {
	var req formulate.MullRequest
	err := m.fill(&req, w, newMemo())
	req.Sampling = s
	return req, err
}

// memo keeps what has been read already, so that many questions on the same
// materials read each of them once.
type memo struct {
	share   map[fieldText][]formulate.Share
	portion map[fieldText][]formulate.Portion
	target  map[targetKey]formulate.Target
	drop    map[string]quantity.Mass // by oil
}

type fieldText struct{ field, text string }

type targetKey struct {
	body, pvc, reduced string
	knowingly          bool
}

func newMemo() *memo {
	return &memo{map[fieldText][]formulate.Share{}, map[fieldText][]formulate.Portion{}, map[targetKey]formulate.Target{}, map[string]quantity.Mass{}}
}

// memoLimit bounds each memo, whatever a file of questions holds.
const memoLimit = 4096

func remember[K comparable, V any](memo map[K]V, key K, v V) {
	if len(memo) < memoLimit {
		memo[key] = v
	}
}

// read reads a list of words. A list of one, which most are, is kept.
func read[T any](kept map[fieldText][]T, field string, list []string, one func(text string) (T, error)) ([]T, error) {
	if len(list) == 1 {
		if known, ok := kept[fieldText{field, list[0]}]; ok {
			return known, nil
		}
	}
	var out []T
	for _, text := range list {
		v, err := one(text)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	if len(list) == 1 {
		remember(kept, fieldText{field, list[0]}, out)
	}
	return out, nil
}

// shares reads a list of "id[=parts]".
func (k *memo) shares(field string, list []string, w *Workshop, look func(string) (formulate.Ingredient, error)) ([]formulate.Share, error) {
	return read(k.share, field, list, func(text string) (formulate.Share, error) { return w.share(text, look) })
}

// portions reads a list of "id=share".
func (k *memo) portions(field string, list []string, w *Workshop, look func(string) (formulate.Ingredient, error)) ([]formulate.Portion, error) {
	return read(k.portion, field, list, func(text string) (formulate.Portion, error) { return w.portion(text, look) })
}

// setPrices prices the ingredients of a request, in lists of its own.
func setPrices(req *formulate.MullRequest, price prices) {
	req.Pigments, req.Oils = slices.Clone(req.Pigments), slices.Clone(req.Oils)
	req.Extenders, req.Waxes = slices.Clone(req.Extenders), slices.Clone(req.Waxes)
	for _, list := range [][]formulate.Share{req.Pigments, req.Oils} {
		for i := range list {
			list[i].Price = price[list[i].Material.ID]
		}
	}
	for _, list := range [][]formulate.Portion{req.Extenders, req.Waxes} {
		for i := range list {
			list[i].Price = price[list[i].Material.ID]
		}
	}
}

// fill turns the question into a request. The request may share its lists with
// what the memo keeps: it is read, not changed.
func (m *Mull) fill(req *formulate.MullRequest, w *Workshop, known *memo) error {
	*req = formulate.MullRequest{}
	if m.conflicting() {
		return Conflicts(m.Fields())
	}
	price, err := w.readPrices(m.Prices)
	if err != nil {
		return at("price", err)
	}
	if len(m.Pigments) == 0 {
		return errors.New("no pigment given: name at least one, as in prussian-blue or prussian-blue=2")
	}
	if req.Pigments, err = known.shares("pigment", m.Pigments, w, w.Pigment); err != nil {
		return at("pigment", err)
	}
	if m.PartsBy != "" {
		req.Pigments = slices.Clone(req.Pigments)
		if err := byPart(req.Pigments, m.PartsBy); err != nil {
			return at("parts-by", err)
		}
	}
	oils := m.Oils
	if len(oils) == 0 {
		oils = defaultOils
	}
	if req.Oils, err = known.shares("oil", oils, w, w.Medium); err != nil {
		return at("oil", err)
	}
	if req.Extenders, err = known.portions("extender", m.Extenders, w, w.Pigment); err != nil {
		return at("extender", err)
	}
	if req.Waxes, err = known.portions("wax", m.Waxes, w, w.Medium); err != nil {
		return at("wax", err)
	}
	if price != nil {
		setPrices(req, price)
	}
	if req.Amount, err = m.amount(); err != nil {
		return err
	}
	key := targetKey{m.Body, m.PVC, m.ReducedPVC, m.Knowingly}
	target, ok := known.target[key]
	if !ok {
		if target, err = m.target(); err != nil {
			return err
		}
		remember(known.target, key, target)
	}
	req.Target = target
	if req.Moisture, err = shareOr(m.Moisture, 0); err != nil {
		return at("moisture", err)
	}
	if req.Loss, err = shareOr(m.Loss, 0); err != nil {
		return at("loss", err)
	}
	if req.Slab, err = slab(m.Slab, m.PerMull); err != nil {
		return err
	}
	req.Have = 0
	if m.Have != "" {
		if err := req.Have.Set(m.Have); err != nil {
			return at("have", err)
		}
	}
	req.Scale = defaultScale
	if m.Scale != "" {
		if err := req.Scale.Set(m.Scale); err != nil {
			return at("scale", err)
		}
	}
	oil := req.Oils[0].Material
	drop, ok := known.drop[oil.ID]
	if !ok || m.TwentyDrops != "" {
		if drop, err = oneDrop(oil, m.TwentyDrops); err != nil {
			return err
		}
	}
	if m.TwentyDrops == "" {
		remember(known.drop, oil.ID, drop)
	}
	req.DropMass = drop
	return nil
}

var (
	defaultOils  = []string{DefaultOil}
	defaultScale = quantity.Mass(0.1) // as DefaultScale says
)

// conflicting reports whether two amounts or two stiffnesses are given.
func (m *Mull) conflicting() bool {
	return given(m.PigmentMass, m.PaintMass, m.PaintVolume, m.OilMass, m.Tubes) > 1 || given(m.Body, m.PVC, m.ReducedPVC) > 1
}

func given(texts ...string) int {
	n := 0
	for _, t := range texts {
		if t != "" {
			n++
		}
	}
	return n
}

func (w *Workshop) share(text string, look func(string) (formulate.Ingredient, error)) (formulate.Share, error) {
	name, p, err := parts(text)
	if err != nil {
		return formulate.Share{}, err
	}
	in, err := look(name)
	return formulate.Share{Ingredient: in, Parts: p}, err
}

func (w *Workshop) portion(text string, look func(string) (formulate.Ingredient, error)) (formulate.Portion, error) {
	name, s, err := portion(text)
	if err != nil {
		return formulate.Portion{}, err
	}
	in, err := look(name)
	return formulate.Portion{Ingredient: in, Share: s}, err
}

// byPart turns parts by volume or by spoon into parts by mass.
func byPart(list []formulate.Share, by string) error {
	for i := range list {
		switch by {
		case "", "mass":
		case "volume":
			list[i].Parts *= quantity.Parts(list[i].Density.Median)
		case "spoon":
			bulk, ok := formulate.BulkDensityOf(list[i].Material)
			if !ok {
				return fmt.Errorf("%s: no bulk density is known, so its spoons cannot be weighed; give parts by mass, or its bulk density in a catalogue file of your own", list[i].Material.ID)
			}
			list[i].Parts *= quantity.Parts(bulk.Median)
		default:
			return fmt.Errorf("%q is not a way to count parts; accepted: mass, volume, spoon", by)
		}
	}
	return nil
}

func (m *Mull) amount() (formulate.Amount, error) {
	var a formulate.Amount
	mass := func(field, text string, kind formulate.AmountKind) (formulate.Amount, error) {
		a.Kind = kind
		err := a.Mass.Set(text)
		return a, at(field, err)
	}
	switch {
	case m.PigmentMass != "":
		return mass("pigment-mass", m.PigmentMass, formulate.ByPigmentMass)
	case m.PaintMass != "":
		return mass("paint-mass", m.PaintMass, formulate.ByPaintMass)
	case m.OilMass != "":
		return mass("oil-mass", m.OilMass, formulate.ByOilMass)
	case m.PaintVolume != "":
		a.Kind = formulate.ByPaintVolume
		err := a.Volume.Set(m.PaintVolume)
		return a, at("paint-volume", err)
	case m.Tubes != "":
		a.Kind = formulate.ByTubes
		n, size, err := times(m.Tubes)
		if err == nil {
			a.Tubes = n
			err = a.Volume.Set(size)
		}
		if err != nil {
			return a, at("tubes", err)
		}
		if err := a.Fill.Set(orOne(m.Fill, DefaultFill)); err != nil {
			return a, at("fill", err)
		}
		return a, nil
	}
	return a, errors.New("no amount given: say one of --pigment-mass, --paint-mass, --paint-volume, --oil-mass, --tubes")
}

func (m *Mull) target() (formulate.Target, error) {
	t := formulate.Target{AboveCritical: m.Knowingly}
	switch {
	case m.PVC != "":
		t.Kind = formulate.AtPVC
		return t, at("pvc", t.PVC.Set(m.PVC))
	case m.ReducedPVC != "":
		t.Kind = formulate.AtReducedPVC
		return t, at("reduced-pvc", t.Reduced.Set(m.ReducedPVC))
	}
	t.Kind = formulate.AtBody
	var err error
	t.Body, err = absorption.ParseBody(orOne(m.Body, DefaultBody))
	return t, at("body", err)
}

func shareOr(text string, otherwise quantity.MassFraction) (quantity.MassFraction, error) {
	if text == "" {
		return otherwise, nil
	}
	return fraction(text)
}

func orOne(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}
