package ask

import (
	"errors"
	"fmt"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/quantity"
)

// Defaults where the maker says nothing.
const (
	DefaultOil   = "linseed-oil"
	DefaultBody  = "buttery"
	DefaultScale = "0.1 g"
	DefaultFill  = "78 %"
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
		{Name: "body", One: &m.Body, Either: "stiffness", Help: "stiff, buttery, soft, flowing, or pigment volume fraction over critical PVC (default " + DefaultBody + ")"},
		{Name: "pvc", One: &m.PVC, Either: "stiffness", Help: "pigment volume concentration, as in 45%"},
		{Name: "reduced-pvc", One: &m.ReducedPVC, Either: "stiffness", Help: "PVC over critical PVC, as in 0.8"},
		{Name: "above-critical", Yes: &m.Knowingly, Help: "allow a PVC above the critical one: lean, porous, crumbly paint"},
		{Name: "parts-by", One: &m.PartsBy, Help: "what pigment parts mean: mass, volume (of solid) or spoon (of loose powder) (default mass)"},
		{Name: "moisture", One: &m.Moisture, Help: "water in the pigment, of the damp mass, as in 12%"},
		{Name: "loss", One: &m.Loss, Help: "paint left on slab, knife and muller, of what is made, as in 7%"},
		{Name: "have", One: &m.Have, Help: "pigment there is beyond this batch: how much oil it could still mend"},
		{Name: "slab", One: &m.Slab, Help: "slab size, as in 30x40cm: how many mulls"},
		{Name: "scale", One: &m.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
		{Name: "twenty-drops", One: &m.TwentyDrops, Help: "what 20 drops of your oil weigh (default from the catalogue)"},
		{Name: "price", Many: &m.Prices, Help: "price NAME=AMOUNT, as in prussian-blue=0.12/g"},
	}
}

// TwentyDropsMass is the mass of 20 drops of a thin oil from a bottle dropper.
// Tisserand, drop measurements over 25 oils and 7 droppers: 0.66 g (33 mg a drop).
const TwentyDropsMass quantity.Mass = 0.66

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
	pigment  map[string]*formulate.Share
	oil      map[string]*formulate.Share
	extender map[string]*formulate.Portion
	wax      map[string]*formulate.Portion
	target   map[string]formulate.Target
	mass     map[string]quantity.Mass
}

func newMemo() *memo {
	return &memo{
		map[string]*formulate.Share{}, map[string]*formulate.Share{}, map[string]*formulate.Portion{}, map[string]*formulate.Portion{},
		map[string]formulate.Target{}, map[string]quantity.Mass{},
	}
}

// memoLimit bounds each memo, whatever a file of questions holds.
const memoLimit = 4096

func remembered[V any](memo map[string]V, key string, read func() (V, error)) (V, error) {
	if v, ok := memo[key]; ok {
		return v, nil
	}
	v, err := read()
	if err == nil && len(memo) < memoLimit {
		memo[key] = v
	}
	return v, err
}

// fill turns the question into a request, using its slices again.
func (m *Mull) fill(req *formulate.MullRequest, w *Workshop, known *memo) error {
	*req = formulate.MullRequest{Pigments: req.Pigments[:0], Extenders: req.Extenders[:0], Oils: req.Oils[:0], Waxes: req.Waxes[:0]}
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
	shares := func(field string, memo map[string]*formulate.Share, to *[]formulate.Share, list []string, look func(string) (formulate.Ingredient, error)) error {
		for _, text := range list {
			sh, err := remembered(memo, text, func() (*formulate.Share, error) {
				x, err := w.share(text, look)
				return &x, err
			})
			if err != nil {
				return at(field, err)
			}
			*to = append(*to, *sh)
			if price != nil {
				(*to)[len(*to)-1].Price = price[sh.Material.ID]
			}
		}
		return nil
	}
	portions := func(field string, memo map[string]*formulate.Portion, to *[]formulate.Portion, list []string, look func(string) (formulate.Ingredient, error)) error {
		for _, text := range list {
			p, err := remembered(memo, text, func() (*formulate.Portion, error) {
				x, err := w.portion(text, look)
				return &x, err
			})
			if err != nil {
				return at(field, err)
			}
			*to = append(*to, *p)
			if price != nil {
				(*to)[len(*to)-1].Price = price[p.Material.ID]
			}
		}
		return nil
	}
	if err := shares("pigment", known.pigment, &req.Pigments, m.Pigments, w.Pigment); err != nil {
		return err
	}
	if err := byPart(req.Pigments, m.PartsBy); err != nil {
		return at("parts-by", err)
	}
	oils := m.Oils
	if len(oils) == 0 {
		oils = defaultOils
	}
	if err := shares("oil", known.oil, &req.Oils, oils, w.Medium); err != nil {
		return err
	}
	if err := portions("extender", known.extender, &req.Extenders, m.Extenders, w.Pigment); err != nil {
		return err
	}
	if err := portions("wax", known.wax, &req.Waxes, m.Waxes, w.Medium); err != nil {
		return err
	}
	if req.Amount, err = m.amount(); err != nil {
		return err
	}
	if req.Target, err = remembered(known.target, m.targetKey(), m.target); err != nil {
		return err
	}
	if req.Moisture, err = shareOr(m.Moisture, 0); err != nil {
		return at("moisture", err)
	}
	if req.Loss, err = shareOr(m.Loss, 0); err != nil {
		return at("loss", err)
	}
	if m.Slab != "" {
		if req.Slab.Width, req.Slab.Depth, err = rectangle(m.Slab); err != nil {
			return at("slab", err)
		}
	}
	req.Have = 0
	if m.Have != "" {
		if err := req.Have.Set(m.Have); err != nil {
			return at("have", err)
		}
	}
	mass := func(text string) func() (quantity.Mass, error) {
		return func() (quantity.Mass, error) { return quantity.ParseMass(text) }
	}
	scale := orOne(m.Scale, DefaultScale)
	if req.Scale, err = remembered(known.mass, scale, mass(scale)); err != nil {
		return at("scale", err)
	}
	drops := TwentyDropsMass
	if m.TwentyDrops != "" {
		if drops, err = remembered(known.mass, m.TwentyDrops, mass(m.TwentyDrops)); err != nil {
			return at("twenty-drops", err)
		}
	}
	req.DropMass = drops / 20
	return nil
}

var defaultOils = []string{DefaultOil}

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

func (m *Mull) targetKey() string {
	if m.Knowingly {
		return m.Body + "|" + m.PVC + "|" + m.ReducedPVC + "|!"
	}
	switch {
	case m.PVC != "":
		return m.PVC
	case m.ReducedPVC != "":
		return "r" + m.ReducedPVC
	}
	return "b" + m.Body
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
