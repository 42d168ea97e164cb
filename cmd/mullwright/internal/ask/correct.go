package ask

import (
	"errors"
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Defaults of a correction where the maker says nothing.
const (
	DefaultStabiliser = "beeswax"
	DefaultTube       = "40 ml"
)

// DefaultStiffeners are the extenders to reckon with, the first that gets on
// with the paste.
var DefaultStiffeners = []string{"chalk", "barytes"}

// Correct is a correction as asked.
type Correct struct {
	In        string
	Pigments  []string
	From      string
	Oils      []string
	Extenders []string
	Waxes     []string
	Moisture  string
	PartsBy   string

	PigmentMass string
	PasteMass   string
	OilMass     string
	OilVolume   string
	OilDrops    string
	Density     string
	Filled      string
	Air         string
	OverDrops   string
	OverMass    string
	Wept        string
	Signs       []string
	Feels       string
	Poured      []string
	Symptom     string

	Body       string
	PVC        string
	ReducedPVC string
	Knowingly  bool

	Add         []string
	Have        string
	Stiffener   string
	Stabiliser  string
	Next        string
	Tube        string
	Fill        string
	Scale       string
	TwentyDrops string
	Prices      []string
}

// Fields lists what may be said of a correction.
func (c *Correct) Fields() []Field {
	const measure = "measure of the oil"
	return []Field{
		{Name: "pigments", Many: &c.Pigments, Help: "pigments in the paste, each NAME or NAME=PARTS", FileOnly: true},
		{Name: "in", One: &c.In, Help: "what binds it: oil or gum (default oil)"},
		{Name: "from", One: &c.From, Help: "the [mull] formula file the paste was made from, its proportions are then the goal; in gum a [watercolour] file"},
		{Name: "oil", Many: &c.Oils, Help: "oil in the paste, NAME or NAME=PARTS (default " + DefaultOil + ")"},
		{Name: "extender", Many: &c.Extenders, Help: "extender in the paste, NAME=SHARE of the pigment mass"},
		{Name: "wax", Many: &c.Waxes, Help: "wax or stabiliser in the paste, NAME=SHARE of the paste"},
		{Name: "moisture", One: &c.Moisture, Help: "water in the pigment, of the damp mass, as in 12%"},
		{Name: "parts-by", One: &c.PartsBy, Help: "what pigment parts mean: mass, volume or spoon (default mass)"},

		{Name: "pigment-mass", One: &c.PigmentMass, Help: "pigment in the paste, as weighed (extender not counted)"},
		{Name: "paste-mass", One: &c.PasteMass, Help: "the whole paste, weighed"},
		{Name: "oil-mass", One: &c.OilMass, Either: measure, Help: "oil in it, weighed"},
		{Name: "oil-volume", One: &c.OilVolume, Either: measure, Help: "oil in it by volume or spoon, as in 12ml or 2tsp"},
		{Name: "oil-drops", One: &c.OilDrops, Either: measure, Help: "oil in it in drops, as in 180"},
		{Name: "paste-density", One: &c.Density, Either: measure, Help: "the paste's own density, as in 1.35g/ml; with the mass of pigment or paste"},
		{Name: "filled", One: &c.Filled, Either: measure, Help: "the same from a syringe or spoon of known volume, as in 5ml=6.8g (vessel off)"},
		{Name: "air", One: &c.Air, Help: "air in the filled paste, by volume, as in 2% or 0-3% (default none)"},
		{Name: "over-drops", One: &c.OverDrops, Either: measure, Help: "drops of oil beyond the formula of --from"},
		{Name: "over-mass", One: &c.OverMass, Either: measure, Help: "oil beyond the formula of --from, weighed"},
		{Name: "wept", One: &c.Wept, Help: "oil that ran out of the tube since, weighed"},
		{Name: "feels", One: &c.Feels, Help: "how the paste feels: stiff, buttery, soft, flowing"},
		{Name: "sign", Many: &c.Signs, Help: "what else is seen: " + signNames()},

		{Name: "poured", Many: &c.Poured, Help: "in gum: what is in it beside pigment, NAME=MASS, as in gum-arabic-solution=14g; repeat"},
		{Name: "symptom", One: &c.Symptom, Help: "in gum, what is wrong: " + symptomNames()},

		{Name: "body", One: &c.Body, Either: "stiffness", Help: "wanted: stiff, buttery, soft, flowing, or a ratio to the critical PVC (default " + DefaultBody + ")"},
		{Name: "pvc", One: &c.PVC, Either: "stiffness", Help: "wanted: pigment volume concentration, as in 45%"},
		{Name: "reduced-pvc", One: &c.ReducedPVC, Either: "stiffness", Help: "wanted: PVC over critical PVC, as in 0.8"},
		{Name: "above-critical", Yes: &c.Knowingly, Help: "allow a PVC above the critical one: lean, porous, crumbly paint"},

		{Name: "add", Many: &c.Add, Help: "correct with this powder, NAME or NAME=PARTS (default the paste's own, in its proportions)"},
		{Name: "have", One: &c.Have, Help: "all the powder there is to add, as in 5g"},
		{Name: "stiffen-with", One: &c.Stiffener, Help: "extender to reckon with as a way out (default " + strings.Join(DefaultStiffeners, ", or where it quarrels with the paste ") + ")"},
		{Name: "stabilise-with", One: &c.Stabiliser, Help: "wax or stabiliser to reckon with (default the paste's own, or " + DefaultStabiliser + ")"},
		{Name: "next", One: &c.Next, Help: "powder of your next batch, as weighed (default as much again)"},
		{Name: "tube", One: &c.Tube, Help: "your tubes (default " + DefaultTube + ")"},
		{Name: "fill", One: &c.Fill, Help: "how much of a tube is filled (default " + DefaultFill + ")"},
		{Name: "scale", One: &c.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
		{Name: "twenty-drops", One: &c.TwentyDrops, Help: "what 20 drops of your oil weigh (default from the catalogue, with its range)"},
		{Name: "price", Many: &c.Prices, Help: "price NAME=AMOUNT, as in prussian-blue=0.12/g"},
	}
}

func signNames() string {
	var names []string
	for _, s := range formulate.Signs() {
		names = append(names, string(s))
	}
	return strings.Join(names, ", ")
}

// Request turns the question into a request.
func (c *Correct) Request(w *Workshop, s formulate.Sampling) (formulate.CorrectRequest, error) {
	var req formulate.CorrectRequest
	if err := Conflicts(c.Fields()); err != nil {
		return req, err
	}
	if err := c.only("oil", "poured", "symptom"); err != nil {
		return req, err
	}
	m, err := c.formula()
	if err != nil {
		return req, err
	}
	if req.Paste, err = m.Request(w, s); err != nil {
		return req, err
	}
	switch {
	case c.Body+c.PVC+c.ReducedPVC != "":
	case c.From != "":
		req.Goal = formulate.ToFormula
	}
	if req.State, err = c.state(req.Paste.Oils[0].Material); err != nil {
		return req, err
	}
	price, err := w.readPrices(c.Prices)
	if err != nil {
		return req, at("price", err)
	}
	for _, text := range c.Add {
		sh, err := w.share(text, w.Pigment)
		if err != nil {
			return req, at("add", err)
		}
		sh.Price = price[sh.Material.ID]
		req.Add = append(req.Add, sh)
	}
	if req.Stiffener, err = c.stiffener(&req.Paste, w, price); err != nil {
		return req, err
	}
	stabiliser := DefaultStabiliser
	if len(req.Paste.Waxes) > 0 {
		stabiliser = req.Paste.Waxes[0].Material.ID
	}
	if req.Stabiliser, err = c.aid("stabilise-with", orOne(c.Stabiliser, stabiliser), w.Medium, price); err != nil {
		return req, err
	}
	if c.Stabiliser == "" && req.Stabiliser.Material.Kind != material.Wax && req.Stabiliser.Material.Kind != material.Stabiliser {
		req.Stabiliser = nil // the paste holds a resin or a drier: no more of that
	}
	for _, f := range []struct {
		name, text string
		set        func(string) error
	}{
		{"have", c.Have, req.Have.Set}, {"next", c.Next, req.Next.Set}, {"wept", c.Wept, req.Wept.Set},
		{"tube", orOne(c.Tube, DefaultTube), req.Tube.Set}, {"fill", orOne(c.Fill, DefaultFill), req.Fill.Set},
	} {
		if f.text != "" {
			if err := f.set(f.text); err != nil {
				return req, at(f.name, err)
			}
		}
	}
	return req, c.seen(&req)
}

// formula is what the paste is made of, as a mull.
func (c *Correct) formula() (*Mull, error) {
	m := &Mull{}
	given := Mull{
		Pigments: c.Pigments, Oils: c.Oils, Extenders: c.Extenders, Waxes: c.Waxes,
		Body: c.Body, PVC: c.PVC, ReducedPVC: c.ReducedPVC, Knowingly: c.Knowingly,
		PartsBy: c.PartsBy, Moisture: c.Moisture, Scale: c.Scale, TwentyDrops: c.TwentyDrops, Prices: c.Prices,
	}
	switch {
	case c.From != "":
		if len(c.Pigments) > 0 {
			return nil, errors.New("the pigments are given and a formula with --from too; give one of them")
		}
		text, err := ReadFile(c.From)
		if err != nil {
			return nil, at("from", err)
		}
		if err := Load(c.From, text, "mull", m.Fields()); err != nil {
			return nil, err
		}
	case len(c.Pigments) == 0:
		return nil, errors.New("no pigment given: name what is in the paste, as in prussian-blue or prussian-blue=2, or the formula it was made from with --from FILE")
	default:
		given.PigmentMass = "1 g" // plays no part: the state has the masses
	}
	Override(m.Fields(), given.Fields())
	return m, nil
}

// stiffener is the extender named, or the usual one that gets on with the paste.
func (c *Correct) stiffener(paste *formulate.MullRequest, w *Workshop, price prices) (*formulate.Ingredient, error) {
	if c.Stiffener != "" {
		return c.aid("stiffen-with", c.Stiffener, w.Pigment, price)
	}
	var aids []formulate.Ingredient
	for _, name := range DefaultStiffeners {
		in, err := c.aid("stiffen-with", name, w.Pigment, price)
		if err != nil {
			return nil, err
		}
		aids = append(aids, *in)
	}
	return paste.Agreeable(aids), nil
}

// aid makes a powder or a wax ready that may be worked in.
func (c *Correct) aid(field, name string, look func(string) (formulate.Ingredient, error), price prices) (*formulate.Ingredient, error) {
	in, err := look(name)
	if err != nil {
		return nil, at(field, err)
	}
	in.Price = price[in.Material.ID]
	return &in, nil
}

// state reads how the paste is known.
func (c *Correct) state(oil *material.Material) (formulate.State, error) {
	var s formulate.State
	if c.Air != "" && c.Density == "" && c.Filled == "" {
		return s, at("air", errors.New("air matters only to a paste known by its density, with --filled or --paste-density"))
	}
	for _, f := range []struct {
		name, text string
		set        func(string) error
	}{
		{"pigment-mass", c.PigmentMass, s.Pigment.Set}, {"oil-mass", c.OilMass, s.Oil.Set},
		{"over-mass", c.OverMass, s.Oil.Set}, {"paste-density", c.Density, s.Density.Set},
	} {
		if f.text != "" {
			if err := f.set(f.text); err != nil {
				return s, at(f.name, err)
			}
		}
	}
	beyond := c.OverDrops != "" || c.OverMass != ""
	told := c.OilMass != "" || c.OilVolume != "" || c.OilDrops != ""
	switch {
	case c.PasteMass == "":
	case told || beyond:
		return s, at("paste-mass", errors.New("the oil is told already, which leaves the paste's mass to contradict it; give one of the two"))
	default:
		if err := s.Paste.Set(c.PasteMass); err != nil {
			return s, at("paste-mass", err)
		}
	}
	switch {
	case beyond && c.From == "":
		return s, errors.New("oil beyond the formula needs the formula: --from FILE")
	case beyond:
		s.Known = formulate.ByFormula
		return s, c.drops("over-drops", c.OverDrops, oil, &s)
	case c.Density != "" || c.Filled != "":
		s.Known = formulate.ByDensity
		return s, c.density(&s)
	case c.From != "" && !told && c.PasteMass == "":
		if c.Wept == "" && len(c.Signs) == 0 && c.Feels == "" {
			return s, errors.New("the formula is known, but not how the paste differs from it; say --over-drops, --over-mass, --wept, or what is in it")
		}
		s.Known = formulate.ByFormula
		return s, nil
	case c.PigmentMass == "" && c.PasteMass != "":
		return s, errors.New("the paste's mass alone does not say what it holds: give --pigment-mass, what was weighed into it; or fill a syringe or spoon of known volume with it and give --filled, as in --filled 5ml=7.2g")
	case c.PigmentMass == "" && (told || c.PasteMass != ""):
		return s, errors.New("how much pigment is in the paste: --pigment-mass, as weighed")
	case c.OilMass != "":
		s.Known = formulate.ByBothWeighed
		return s, nil
	case c.OilVolume != "":
		s.Known = formulate.ByOilVolume
		v, err := quantity.ParseVolume(c.OilVolume)
		s.OilVolume = evidence.Distribution[quantity.Volume]{Median: v}
		if strings.Contains(strings.ToLower(c.OilVolume), "sp") { // tsp, tbsp
			s.OilVolume.Sigma = formulate.SpoonSigma
		}
		return s, at("oil-volume", err)
	case c.OilDrops != "":
		s.Known = formulate.ByOilDrops
		return s, c.drops("oil-drops", c.OilDrops, oil, &s)
	case c.PasteMass != "":
		s.Known = formulate.ByPasteWeighed
		return s, nil
	}
	return s, errors.New("nothing says how much oil is in the paste: give --pigment-mass with one of --oil-mass, --oil-volume, --oil-drops, --paste-mass; or --filled; or --from FILE with --over-drops")
}

func (c *Correct) drops(field, text string, oil *material.Material, s *formulate.State) error {
	if text == "" {
		return nil
	}
	n, err := quantity.ParseParts(text)
	if err != nil {
		return at(field, fmt.Errorf("%q is not a count of drops; accepted: a number, as in 40", text))
	}
	s.Drops = quantity.Ratio(n)
	s.DropMass, err = dropMass(oil, c.TwentyDrops)
	return at("twenty-drops", err)
}

func (c *Correct) density(s *formulate.State) error {
	if c.Filled != "" {
		n, err := splitNamed(c.Filled)
		if err == nil && !n.given {
			err = fmt.Errorf("%q: want the volume, = and what it weighs without the vessel, as in 5ml=6.8g", c.Filled)
		}
		if err != nil {
			return at("filled", err)
		}
		v, err := quantity.ParseVolume(n.name)
		if err != nil {
			return at("filled", err)
		}
		m, err := quantity.ParseMass(n.value)
		if err != nil {
			return at("filled", err)
		}
		s.Density = quantity.Density(float64(m) / float64(v))
	}
	if c.PigmentMass == "" && c.PasteMass == "" {
		return errors.New("beside the density one mass is needed: --paste-mass (the whole paste) or --pigment-mass")
	}
	if c.Air == "" {
		return nil
	}
	least, most, ranged := strings.Cut(strings.ReplaceAll(c.Air, "–", "-"), "-")
	if !ranged {
		most = least
	} else if !strings.Contains(least, "%") {
		least += "%"
	}
	if err := s.Air.Least.Set(least); err != nil {
		return at("air", err)
	}
	if err := s.Air.Most.Set(most); err != nil {
		return at("air", err)
	}
	if s.Air.Most < s.Air.Least {
		return at("air", fmt.Errorf("%q runs from the more to the less; write it the other way round", c.Air))
	}
	return nil
}

// seen reads what was seen and felt.
func (c *Correct) seen(req *formulate.CorrectRequest) error {
	for _, text := range c.Signs {
		found := false
		for _, s := range formulate.Signs() {
			if strings.EqualFold(text, string(s)) {
				req.Signs = append(req.Signs, s)
				found = true
			}
		}
		if !found {
			return at("sign", fmt.Errorf("%q is not a sign; accepted: %s", text, signNames()))
		}
	}
	if c.Feels == "" {
		return nil
	}
	step, ok := absorption.NamedBody(strings.TrimSpace(c.Feels))
	if !ok {
		var names []string
		for _, s := range absorption.Steps() {
			names = append(names, s.Name)
		}
		return at("feels", fmt.Errorf("%q is not a body; accepted: %s", c.Feels, strings.Join(names, ", ")))
	}
	req.Feels = &step
	return nil
}

// Paste is the paste as it is now as a mull of its own: the formula file of
// what stands on the slab.
func (c *Correct) Paste(r *formulate.CorrectResult) (*Mull, error) {
	m, err := c.formula()
	if err != nil {
		return nil, err
	}
	given := Mull{
		PVC:         fmt.Sprintf("%.6g %%", 100*float64(r.Now.PVC.Typical)),
		PigmentMass: fmt.Sprintf("%.6g g", float64(pigmentOf(r))),
		Knowingly:   r.Now.ReducedPVC.Typical > 1,
	}
	Override(m.Fields(), given.Fields())
	return m, nil
}

// pigmentOf is the pigment of a paste as weighed, its extender not counted.
func pigmentOf(r *formulate.CorrectResult) quantity.Mass {
	var dry quantity.Mass
	for _, x := range r.Paste.Components {
		if x.Role == formulate.Pigment {
			dry += x.Mass
		}
	}
	return dry / quantity.Mass(1-r.Request.Paste.Moisture)
}
