package ask

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Defaults of an ink where the maker says nothing: common practice.
const (
	DefaultUse          = string(formulate.DipPen)
	DefaultBottleFill   = "90 %"
	DefaultInkHumectant = "glycerine=0.2"
	DefaultInkWetting   = "ox-gall=0.5%"
	DefaultShellac      = "shellac-borax-water"
	DefaultPrintBody    = "stiff"
	DefaultHeight       = "4 cm"
)

// Vehicles of an ink.
const (
	GumVehicle     = "gum"
	ShellacVehicle = "shellac"
	OilVehicle     = "oil"
)

// Ink is an ink as asked.
type Ink struct {
	Pigments      []string
	Bottle        string
	PigmentMass   string
	InkMass       string
	InkVolume     string
	Fill          string
	For           string
	Vehicle       string
	Gum           string
	Strength      string
	Undiluted     bool
	PVC           string
	PigmentVolume string
	PigmentShare  string
	Humectants    []string
	Wetting       string
	Preservative  string
	Oils          []string
	Body          string
	PartsBy       string
	Moisture      string
	Loss          string
	Scale         string
	Prices        []string
	Temperature   string
	Grain         string
	Height        string
	Slit          string
	LineWidth     string
	WetFilm       string
}

// Fields lists what may be said of an ink.
func (q *Ink) Fields() []Field {
	return []Field{
		{Name: "pigments", Many: &q.Pigments, Help: "pigments, each NAME or NAME=PARTS", FileOnly: true},
		{Name: "bottle", One: &q.Bottle, Either: "amount", Help: "bottle to fill, as in 30ml or 2x30ml; --fill of it is ink"},
		{Name: "pigment-mass", One: &q.PigmentMass, Either: "amount", Help: "pigment as it is weighed, damp or dry"},
		{Name: "ink-mass", One: &q.InkMass, Either: "amount", Help: "ink wanted, by mass"},
		{Name: "ink-volume", One: &q.InkVolume, Either: "amount", Help: "ink wanted, by volume"},
		{Name: "fill", One: &q.Fill, Help: "how much of a bottle is filled (default " + DefaultBottleFill + ")"},
		{Name: "for", One: &q.For, Help: "tool: " + useNames() + " (default " + DefaultUse + ")"},
		{Name: "vehicle", One: &q.Vehicle, Help: "gum, shellac (in borax water) or oil (default gum; oil for relief-print)"},
		{Name: "gum", One: &q.Gum, Help: "gum, or a made-up solution of the catalogue (default " + DefaultGum + ")"},
		{Name: "strength", One: &q.Strength, Help: "of your gum solution: gum to water by mass as in 1:2, a share as in 33%, or powder (default " + DefaultStrength + ")"},
		{Name: "undiluted", Yes: &q.Undiluted, Either: "binder", Help: "all liquid is that solution, as in published inks with --strength 1:15"},
		{Name: "pvc", One: &q.PVC, Either: "binder", Help: "dry pigment volume concentration, instead of the demand hypothesis"},
		{Name: "pigment-volume", One: &q.PigmentVolume, Either: "pigment share", Help: "pigment in the ink by volume, as in 6% (default by the tool)"},
		{Name: "pigment-share", One: &q.PigmentShare, Either: "pigment share", Help: "pigment in the ink by mass, as in 23%"},
		{Name: "humectant", Many: &q.Humectants, Help: "NAME=RATIO to the gum by mass; none for none (default " + DefaultInkHumectant + " in gum)"},
		{Name: "wetting", One: &q.Wetting, Help: "wetting agent NAME or NAME=SHARE of the ink, or none (default " + DefaultInkWetting + " in gum)"},
		{Name: "preservative", One: &q.Preservative, Help: "preservative NAME or NAME=SHARE of the ink, or none (default " + DefaultPreservative + " in gum)"},
		{Name: "oil", Many: &q.Oils, Help: "drying oil of an ink in oil (default " + DefaultOil + ")"},
		{Name: "body", One: &q.Body, Help: "of an ink in oil: stiff, buttery, soft, flowing, or a ratio (default " + DefaultPrintBody + ")"},
		{Name: "parts-by", One: &q.PartsBy, Help: "what pigment parts mean: mass, volume (of solid) or spoon (of loose powder) (default mass)"},
		{Name: "moisture", One: &q.Moisture, Help: "water in damp pigment or press cake, of the damp mass, as in 40%"},
		{Name: "loss", One: &q.Loss, Help: "ink left on slab and muller, of what is made, as in 7%"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
		{Name: "price", Many: &q.Prices, Help: "price NAME=AMOUNT, as in lamp-black=0.05/g"},
		{Name: "temperature", One: &q.Temperature, Help: "of the ink (default " + DefaultTemperature + ")"},
		{Name: "grain", One: &q.Grain, Help: "grain size after mulling, clumps included, as in 2um or 1-5um (default 1-6um, common practice, or the primary grain where that is coarser)"},
		{Name: "height", One: &q.Height, Help: "height of ink in the bottle (default as wide as high)"},
		{Name: "slit", One: &q.Slit, Help: "narrowest passage of the pen, as in 60um (default by the tool)"},
		{Name: "line-width", One: &q.LineWidth, Help: "width of a line, as in 0.5mm (default by the tool)"},
		{Name: "wet-film", One: &q.WetFilm, Help: "wet film on the paper, as in 25um (default by the tool)"},
	}
}

func useNames() string {
	var names []string
	for _, u := range formulate.InkUses() {
		names = append(names, string(u))
	}
	return strings.Join(names, ", ")
}

// otherUses are further names of the tools.
var otherUses = map[string]formulate.InkUse{
	"dip": formulate.DipPen, "pen": formulate.DipPen, "nib": formulate.DipPen, "brushes": formulate.BrushInk, "fountain-pen": formulate.Fountain,
	"relief": formulate.ReliefPrint, "relief-printing": formulate.ReliefPrint, "print": formulate.ReliefPrint, "printing": formulate.ReliefPrint,
}

// inkUse reads the name of a tool: "dip pen" and "fountain-pen" as well.
func inkUse(text string) formulate.InkUse {
	name := strings.ToLower(strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), "-"))
	if use, ok := otherUses[name]; ok {
		return use
	}
	if _, err := formulate.ToolFor(formulate.InkUse(name)); err == nil {
		return formulate.InkUse(name)
	}
	return formulate.InkUse(text)
}

// Request turns the question into a request.
func (q *Ink) Request(w *Workshop, s formulate.Sampling) (formulate.InkRequest, error) {
	req := formulate.InkRequest{Sampling: s}
	if err := Conflicts(q.Fields()); err != nil {
		return req, err
	}
	var err error
	if req.Tool, err = formulate.ToolFor(inkUse(orOne(q.For, DefaultUse))); err != nil {
		return req, at("for", err)
	}
	if err := q.measures(&req); err != nil {
		return req, err
	}
	vehicle := orOne(q.Vehicle, GumVehicle)
	if q.Vehicle == "" && req.Tool.Use == formulate.ReliefPrint {
		vehicle = OilVehicle
	}
	if vehicle == OilVehicle {
		return req, q.inOil(w, &req)
	}
	price, err := w.readPrices(q.Prices)
	if err != nil {
		return req, at("price", err)
	}
	if req.Pigments, err = w.waterPigments(q.Pigments, q.PartsBy, nil, price); err != nil {
		return req, err
	}
	if err := q.inWater(w, &req, vehicle); err != nil {
		return req, err
	}
	if req.Moisture, err = shareOr(q.Moisture, 0); err != nil {
		return req, at("moisture", err)
	}
	if req.Loss, err = shareOr(q.Loss, 0); err != nil {
		return req, at("loss", err)
	}
	if err := req.Scale.Set(orOne(q.Scale, DefaultScale)); err != nil {
		return req, at("scale", err)
	}
	priceLiquid(&req.Solution, price)
	for i := range req.Humectants {
		req.Humectants[i].Price = price[req.Humectants[i].Material.ID]
	}
	for i := range req.Additives {
		priceLiquid(&req.Additives[i].Liquid, price)
	}
	return req, q.amount(&req)
}

// measures reads grain, nib, line and film.
func (q *Ink) measures(req *formulate.InkRequest) error {
	t := req.Tool
	if q.Grain != "" {
		g, err := grainSize(q.Grain)
		if err != nil {
			return at("grain", err)
		}
		req.Grain = g
	}
	req.Slit, req.Width, req.WetFilm = t.Slit, t.Width, t.WetFilm
	for _, f := range []struct {
		name, text string
		set        func(string) error
	}{
		{"slit", q.Slit, req.Slit.Set}, {"line-width", q.LineWidth, req.Width.Set}, {"wet-film", q.WetFilm, req.WetFilm.Set},
		{"temperature", orOne(q.Temperature, DefaultTemperature), req.Temperature.Set}, {"height", orOne(q.Height, DefaultHeight), req.Height.Set},
	} {
		if f.text == "" {
			continue
		}
		if err := f.set(f.text); err != nil {
			return at(f.name, err)
		}
	}
	return nil
}

// grainSize reads "2um" or "1-5um".
func grainSize(text string) (evidence.Distribution[quantity.ParticleSize], error) {
	low, high, ranged := strings.Cut(strings.ReplaceAll(text, "–", "-"), "-")
	if !ranged {
		d, err := quantity.ParseParticleSize(text)
		return formulate.EvenGrain(d), err
	}
	var r evidence.Reading[quantity.ParticleSize]
	var err error
	if r.High, err = quantity.ParseParticleSize(high); err != nil {
		return evidence.Distribution[quantity.ParticleSize]{}, err
	}
	if strings.Trim(low, " 0123456789.,") == "" {
		low += strings.TrimLeft(strings.TrimSpace(high), "0123456789.,")
	}
	if r.Low, err = quantity.ParseParticleSize(low); err != nil {
		return evidence.Distribution[quantity.ParticleSize]{}, err
	}
	if r.Low >= r.High {
		return evidence.Distribution[quantity.ParticleSize]{}, fmt.Errorf("%q: want the smaller size first, as in 1-5um", text)
	}
	return evidence.Distribution[quantity.ParticleSize]{Median: r.Middle(), Sigma: r.LogSpread()}, nil
}

// inWater reads vehicle, rule and shares.
func (q *Ink) inWater(w *Workshop, req *formulate.InkRequest, vehicle string) error {
	var err error
	wetting, preservative, humectants := DefaultInkWetting, DefaultPreservative, []string{DefaultInkHumectant}
	switch vehicle {
	case GumVehicle:
		if req.Solution, err = w.Solution(orOne(q.Gum, DefaultGum), q.Strength); err != nil {
			return orAt("gum", err)
		}
		if len(req.Solution.Parts) == 1 && q.Undiluted {
			return at("undiluted", errors.New("gum in powder is no liquid; give a --strength as in 1:15"))
		}
		req.Binding.Rule = formulate.BinderByDemand
		if req.Solution.Holds(material.Humectant) {
			humectants = nil
		}
	case ShellacVehicle:
		if q.Strength != "" {
			return at("strength", errors.New("shellac comes in the proportions of its recipe; leave it out, or name another --gum"))
		}
		if req.Solution, err = w.Solution(orOne(q.Gum, DefaultShellac), ""); err != nil {
			return orAt("gum", err)
		}
		req.Binding.Rule = formulate.BinderUndiluted
		wetting, preservative, humectants = None, None, nil
	default:
		return at("vehicle", fmt.Errorf("%q is not a vehicle; accepted: %s, %s, %s", vehicle, GumVehicle, ShellacVehicle, OilVehicle))
	}
	if len(q.Humectants) > 0 {
		humectants = q.Humectants
	}
	if req.Humectants, err = w.humectants(humectants); err != nil {
		return at("humectant", err)
	}
	if req.Additives, err = w.waterAdditives(q.Wetting, wetting, q.Preservative, preservative); err != nil {
		return err
	}
	switch {
	case q.Undiluted:
		req.Binding.Rule = formulate.BinderUndiluted
	case q.PVC != "":
		req.Binding.Rule = formulate.BinderByPVC
		if err := req.Binding.PVC.Set(q.PVC); err != nil {
			return at("pvc", err)
		}
	}
	switch {
	case q.PigmentShare != "":
		return at("pigment-share", req.Wetness.ByMass.Set(q.PigmentShare))
	case q.PigmentVolume != "":
		return at("pigment-volume", req.Wetness.Pigment.Set(q.PigmentVolume))
	}
	req.Wetness.Pigment = req.Tool.Pigment
	return nil
}

// amount reads bottles or an amount.
func (q *Ink) amount(req *formulate.InkRequest) error {
	m := Mull{PigmentMass: q.PigmentMass, PaintMass: q.InkMass, PaintVolume: q.InkVolume, Tubes: bottles(q.Bottle), Fill: orOne(q.Fill, DefaultBottleFill)}
	if given(q.PigmentMass, q.InkMass, q.InkVolume, q.Bottle) == 0 {
		return errNoInk
	}
	var err error
	if req.Amount, err = m.amount(); err != nil {
		var f *FieldError
		if errors.As(err, &f) {
			if name, ok := map[string]string{"tubes": "bottle", "paint-mass": "ink-mass", "paint-volume": "ink-volume"}[f.Field]; ok {
				f.Field = name
			}
		}
		return err
	}
	if q.Height != "" {
		return nil
	}
	switch a := req.Amount; a.Kind {
	case formulate.ByTubes:
		req.Height = asWideAsHigh(a.Volume * quantity.Volume(a.Fill))
	case formulate.ByPaintVolume:
		req.Height = asWideAsHigh(a.Volume)
	}
	return nil
}

// errNoInk says how an amount of ink is given.
var errNoInk = errors.New("no amount given: say one of --bottle, --ink-volume, --ink-mass, --pigment-mass")

// asWideAsHigh is the height of ink in a round bottle as wide as the ink is high.
func asWideAsHigh(v quantity.Volume) quantity.Length {
	return quantity.Length(math.Cbrt(4 * float64(v) / math.Pi))
}

// bottles reads "30ml" as one bottle.
func bottles(text string) string {
	if text != "" && !strings.ContainsAny(text, "x×X") {
		return "1x" + text
	}
	return text
}

// inOil makes the mull of an ink in oil.
func (q *Ink) inOil(w *Workshop, req *formulate.InkRequest) error {
	for _, f := range []struct {
		name string
		set  bool
	}{{"gum", q.Gum != ""}, {"strength", q.Strength != ""}, {"undiluted", q.Undiluted}, {"humectant", len(q.Humectants) > 0}, {"wetting", q.Wetting != ""},
		{"preservative", q.Preservative != ""}, {"pigment-volume", q.PigmentVolume != ""}, {"pigment-share", q.PigmentShare != ""}} {
		if f.set {
			return at(f.name, errors.New("means nothing in oil; leave it out, or say --vehicle gum"))
		}
	}
	m := Mull{Pigments: q.Pigments, Oils: q.Oils, PigmentMass: q.PigmentMass, PaintMass: q.InkMass, PaintVolume: q.InkVolume, Body: q.Body, PVC: q.PVC,
		PartsBy: q.PartsBy, Moisture: q.Moisture, Loss: q.Loss, Scale: q.Scale, Prices: q.Prices}
	if q.Body == "" && q.PVC == "" {
		m.Body = DefaultPrintBody
	}
	if q.Bottle != "" {
		n, size, err := times(bottles(q.Bottle))
		if err != nil {
			return at("bottle", err)
		}
		v, err := quantity.ParseVolume(size)
		if err != nil {
			return at("bottle", err)
		}
		fill, err := quantity.ParseVolumeFraction(orOne(q.Fill, DefaultBottleFill))
		if err != nil {
			return at("fill", err)
		}
		m.PaintVolume = (v * quantity.Volume(float64(n)*float64(fill))).String()
	}
	if m.PigmentMass == "" && m.PaintMass == "" && m.PaintVolume == "" {
		return errNoInk
	}
	mull, err := m.Request(w, req.Sampling)
	req.Oil = &mull
	return err
}
