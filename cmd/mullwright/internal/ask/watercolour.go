package ask

import (
	"errors"
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/gum"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/media"
)

// Defaults of a watercolour where the maker says nothing.
const (
	DefaultGum          = "gum-arabic"
	DefaultHumectant    = "glycerine"
	DefaultWetting      = "ox-gall=1%"
	DefaultPreservative = "phenoxyethanol=0.5%"
	DefaultPanFill      = "85 %"
	DefaultPour         = "33 %"
	DefaultPanBody      = "flowing"
	DefaultTubeBody     = "soft"
)

// Watercolour is a watercolour as asked.
type Watercolour struct {
	Pigments       []string
	Pans           string
	Tubes          string
	PigmentMass    string
	PaintMass      string
	PaintVolume    string
	Fill           string
	Pour           string
	Gum            string
	Strength       string
	Humectants     []string
	Air            string
	Wetting        string
	Preservative   string
	PVC            string
	PowderToBinder string
	Spoons         []string
	Body           string
	PartsBy        string
	Moisture       string
	Loss           string
	Slab           string
	PerMull        string
	Scale          string
	Prices         []string
	Symptom        string
}

// Fields lists what may be said of a watercolour.
func (q *Watercolour) Fields() []Field {
	return []Field{
		{Name: "pigments", Many: &q.Pigments, Help: "pigments, each NAME or NAME=PARTS", FileOnly: true},
		{Name: "pans", One: &q.Pans, Either: "amount", Help: "pans to fill, as in 12xhalf, 6xfull or 10x1.8ml"},
		{Name: "tubes", One: &q.Tubes, Either: "amount", Help: "tubes to fill, as in 5x5ml"},
		{Name: "pigment-mass", One: &q.PigmentMass, Either: "amount", Help: "pigment as it is weighed, damp or dry"},
		{Name: "paint-mass", One: &q.PaintMass, Either: "amount", Help: "wet paint wanted, by mass"},
		{Name: "paint-volume", One: &q.PaintVolume, Either: "amount", Help: "wet paint wanted, by volume"},
		{Name: "fill", One: &q.Fill, Help: "how much of a pan dry paint is to fill (default " + DefaultPanFill + "), or of a tube wet paint (default " + DefaultFill + ")"},
		{Name: "pour", One: &q.Pour, Help: "largest pour, as a share of the pan (default " + DefaultPour + ")"},
		{Name: "gum", One: &q.Gum, Help: "gum, or a made-up binder of the catalogue (default " + DefaultGum + ")"},
		{Name: "strength", One: &q.Strength, Help: "of your gum solution: gum to water by mass as in 1:2, a share as in 33%, or powder (default " + DefaultStrength + ")"},
		{Name: "humectant", Many: &q.Humectants, Help: "NAME or NAME=RATIO to the gum by mass, as in glycerine=0.5; repeat for more; none for none (default " + DefaultHumectant + ", by the air)"},
		{Name: "air", One: &q.Air, Help: "air the paint will live in: dry, ordinary or damp (default ordinary)"},
		{Name: "wetting", One: &q.Wetting, Help: "wetting agent NAME or NAME=SHARE of the paint, or none (default " + DefaultWetting + ")"},
		{Name: "preservative", One: &q.Preservative, Help: "preservative NAME or NAME=SHARE of the paint, or none (default " + DefaultPreservative + ")"},
		{Name: "pvc", One: &q.PVC, Either: "binder", Help: "dry pigment volume concentration, instead of the demand hypothesis, as in 55%"},
		{Name: "powder-to-binder", One: &q.PowderToBinder, Either: "binder", Help: "workshop rule: loose powder to binder by volume, as in 1:1"},
		{Name: "spoon", Many: &q.Spoons, Help: "your level spoon of a loose powder, as in prussian-blue=2.1g/5ml"},
		{Name: "body", One: &q.Body, Help: "wet: stiff, buttery, soft, flowing, or a ratio (default " + DefaultPanBody + " for pans, else " + DefaultTubeBody + ")"},
		{Name: "parts-by", One: &q.PartsBy, Help: "what pigment parts mean: mass, volume (of solid) or spoon (of loose powder) (default mass)"},
		{Name: "moisture", One: &q.Moisture, Help: "water in damp pigment or press cake, of the damp mass, as in 40%"},
		{Name: "loss", One: &q.Loss, Help: "paint left on slab, knife and muller, of what is made, as in 7%"},
		{Name: "slab", One: &q.Slab, Help: "slab size, as in 30x40cm: how many mulls"},
		{Name: "per-mull", One: &q.PerMull, Help: "how much you mull at a time, as in 20ml (default by the slab's size)"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
		{Name: "price", Many: &q.Prices, Help: "price NAME=AMOUNT, as in prussian-blue=0.12/g"},
		{Name: "symptom", One: &q.Symptom, Help: "what is wrong with the last batch: " + symptomNames()},
	}
}

func symptomNames() string {
	var names []string
	for _, s := range formulate.Symptoms() {
		names = append(names, s.ID)
	}
	return strings.Join(names, ", ")
}

// Request turns the question into a request.
func (q *Watercolour) Request(w *Workshop, s formulate.Sampling) (formulate.WatercolourRequest, error) {
	req := formulate.WatercolourRequest{Sampling: s}
	if err := Conflicts(q.Fields()); err != nil {
		return req, err
	}
	price, err := w.readPrices(q.Prices)
	if err != nil {
		return req, at("price", err)
	}
	spoons, err := w.spoons(q.Spoons)
	if err != nil {
		return req, at("spoon", err)
	}
	if req.Pigments, err = w.waterPigments(q.Pigments, q.PartsBy, spoons, price); err != nil {
		return req, err
	}
	if err := q.binder(w, &req, spoons); err != nil {
		return req, err
	}
	if req.Additives, err = w.waterAdditives(q.Wetting, DefaultWetting, q.Preservative, DefaultPreservative); err != nil {
		return req, err
	}
	if req.Means, err = w.gumMeans(q.Gum, req.Humectants, req.Additives); err != nil {
		return req, err
	}
	if req.Symptom, err = optional(q.Symptom, formulate.ParseSymptom); err != nil {
		return req, at("symptom", err)
	}
	if err := q.amount(&req); err != nil {
		return req, err
	}
	body := DefaultTubeBody
	if req.Pans != nil {
		body = DefaultPanBody
	}
	if req.Body, err = absorption.ParseBody(orOne(q.Body, body)); err != nil {
		return req, at("body", err)
	}
	if req.Moisture, err = shareOr(q.Moisture, 0); err != nil {
		return req, at("moisture", err)
	}
	if req.Loss, err = shareOr(q.Loss, 0); err != nil {
		return req, at("loss", err)
	}
	if req.Slab, err = slab(q.Slab, q.PerMull); err != nil {
		return req, err
	}
	priceLiquid(&req.Solution, price)
	for i := range req.Humectants {
		req.Humectants[i].Price = price[req.Humectants[i].Material.ID]
	}
	for i := range req.Additives {
		priceLiquid(&req.Additives[i].Liquid, price)
	}
	return req, at("scale", req.Scale.Set(orOne(q.Scale, DefaultScale)))
}

func optional[T any](text string, parse func(string) (T, error)) (T, error) {
	var none T
	if text == "" {
		return none, nil
	}
	return parse(text)
}

func priceLiquid(l *formulate.Liquid, p prices) {
	l.Price = p[l.Material.ID]
	for i := range l.Parts {
		l.Parts[i].Price = p[l.Parts[i].Material.ID]
	}
}

// waterPigments reads the pigments of a paint in water.
func (w *Workshop) waterPigments(list []string, by string, spoons map[string]quantity.Density, price prices) ([]formulate.Share, error) {
	if len(list) == 0 {
		return nil, errors.New("no pigment given: name at least one, as in prussian-blue or prussian-blue=2")
	}
	var out []formulate.Share
	for _, text := range list {
		sh, err := w.share(text, w.Pigment)
		if err != nil {
			return nil, at("pigment", err)
		}
		sh.Price = price[sh.Material.ID]
		out = append(out, sh)
	}
	if by != "spoon" {
		return out, at("parts-by", byPart(out, by))
	}
	for i := range out {
		in := &out[i].Ingredient
		out[i].Parts *= quantity.Parts(formulate.BulkOf(in, spoons[in.Material.ID]).Density.Median)
	}
	return out, nil
}

// spoons reads "prussian-blue=2.1g/5ml".
func (w *Workshop) spoons(list []string) (map[string]quantity.Density, error) {
	out := map[string]quantity.Density{}
	for _, text := range list {
		n, err := splitNamed(text)
		if err != nil {
			return nil, err
		}
		mass, volume, ok := strings.Cut(n.value, "/")
		if !ok {
			return nil, fmt.Errorf("%q: want a mass and the spoon's volume, as in %s=2.1g/5ml", text, n.name)
		}
		g, err := quantity.ParseMass(mass)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", n.name, err)
		}
		v, err := quantity.ParseVolume(volume)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", n.name, err)
		}
		in, err := w.Pigment(n.name)
		if err != nil {
			return nil, err
		}
		d := quantity.Density(float64(g) / float64(v))
		if d >= in.Density.Median {
			return nil, fmt.Errorf("%s: a level spoon of loose powder cannot weigh as much as the solid, %.3g g for each ml", in.Material.ID, float64(in.Density.Median))
		}
		out[in.Material.ID] = d
	}
	return out, nil
}

// binder reads gum, humectant and rule.
func (q *Watercolour) binder(w *Workshop, req *formulate.WatercolourRequest, spoons map[string]quantity.Density) error {
	var err error
	if req.Solution, err = w.Solution(orOne(q.Gum, DefaultGum), q.Strength); err != nil {
		return orAt("gum", err)
	}
	req.Air = gum.Air(orOne(q.Air, string(gum.OrdinaryAir)))
	want, err := gum.HumectantFor(req.Air)
	if err != nil {
		return at("air", err)
	}
	list := q.Humectants
	if len(list) == 0 && !req.Solution.Holds(material.Humectant) {
		list = []string{DefaultHumectant}
	}
	if req.Humectants, err = w.humectants(shareAir(list, want)); err != nil {
		return at("humectant", err)
	}
	switch {
	case q.PVC != "":
		req.Binding.Rule = formulate.BinderByPVC
		return at("pvc", req.Binding.PVC.Set(q.PVC))
	case q.PowderToBinder != "":
		req.Binding.Rule = formulate.BinderByMeasure
		if req.Binding.Powder, req.Binding.Binder, err = pair(q.PowderToBinder); err != nil {
			return at("powder-to-binder", err)
		}
		for i := range req.Pigments {
			in := &req.Pigments[i].Ingredient
			req.Binding.Bulk = append(req.Binding.Bulk, formulate.BulkOf(in, spoons[in.Material.ID]))
		}
		return nil
	}
	req.Binding.Rule = formulate.BinderByDemand
	return nil
}

// shareAir gives humectants without a ratio what the air asks for, in equal
// shares: two named without one get half of it each.
func shareAir(list []string, want quantity.Ratio) []string {
	bare := 0
	for _, t := range list {
		if t != None && !strings.Contains(t, "=") {
			bare++
		}
	}
	out := make([]string, len(list))
	for i, t := range list {
		out[i] = t
		if t != None && !strings.Contains(t, "=") {
			out[i] = fmt.Sprintf("%s=%.2f", t, float64(want)/float64(bare))
		}
	}
	return out
}

// waterAdditives reads wetting agent and preservative.
func (w *Workshop) waterAdditives(wetting, wettingDefault, preservative, preservativeDefault string) ([]formulate.GumAdditive, error) {
	var out []formulate.GumAdditive
	for _, f := range []struct{ name, text, otherwise string }{
		{"wetting", wetting, wettingDefault}, {"preservative", preservative, preservativeDefault},
	} {
		text := orOne(f.text, f.otherwise)
		if text == None {
			continue
		}
		a, err := w.additive(text)
		if err != nil {
			return nil, at(f.name, err)
		}
		out = append(out, a)
	}
	return out, nil
}

// gumMeans is what a correction adds: the batch's own, or the usual.
func (w *Workshop) gumMeans(gumName string, humectants []formulate.GumHumectant, additives []formulate.GumAdditive) (formulate.GumMeans, error) {
	var m formulate.GumMeans
	var err error
	name := orOne(gumName, DefaultGum)
	if of, err := w.MediumNamed(name); err != nil || of.Kind != material.Gum {
		name = DefaultGum
	}
	if m.Solution, err = w.Solution(name, DefaultStrength); err != nil {
		return m, err
	}
	humectant, wetting, preservative := DefaultHumectant, "ox-gall", "phenoxyethanol"
	if len(humectants) > 0 {
		humectant = humectants[0].Material.ID
	}
	for _, a := range additives {
		switch a.Material.Kind {
		case material.WettingAgent:
			wetting = a.Material.ID
		case material.Preservative:
			preservative = a.Material.ID
		}
	}
	for _, p := range []struct {
		to   *formulate.Liquid
		name string
	}{{&m.Humectant, humectant}, {&m.Wetting, wetting}, {&m.Preservative, preservative}, {&m.Water, "water"}} {
		if *p.to, err = w.Pour(p.name); err != nil {
			return m, err
		}
	}
	return m, nil
}

// GumMeans is what there usually is to correct a gum colour with.
func (w *Workshop) GumMeans() (formulate.GumMeans, error) { return w.gumMeans("", nil, nil) }

// amount reads pans, tubes or an amount.
func (q *Watercolour) amount(req *formulate.WatercolourRequest) error {
	pour, err := quantity.ParseVolumeFraction(orOne(q.Pour, DefaultPour))
	if err != nil {
		return at("pour", err)
	}
	panFill := DefaultPanFill
	if q.Pans != "" {
		panFill = orOne(q.Fill, DefaultPanFill)
	}
	fill, err := quantity.ParseVolumeFraction(panFill)
	if err != nil {
		return at("fill", err)
	}
	for _, c := range media.Containers() {
		if strings.HasSuffix(c.ID, "-pan") {
			req.Vessels = append(req.Vessels, formulate.PansAsked{Name: strings.ReplaceAll(c.ID, "-", " "), Brim: c.Brim.Middle(), Count: 1, Fill: fill, Deepest: pour})
		}
	}
	if q.Pans != "" {
		n, size, err := times(q.Pans)
		if err != nil {
			return at("pans", fmt.Errorf("%q: want a count from 1, x and a pan, as in 12xhalf or 10x1.8ml", q.Pans))
		}
		pan, err := panOf(size, req.Vessels)
		if err != nil {
			return at("pans", err)
		}
		pan.Count, pan.Fill, pan.Deepest = n, fill, pour
		req.Pans = &pan
		return nil
	}
	m := Mull{PigmentMass: q.PigmentMass, PaintMass: q.PaintMass, PaintVolume: q.PaintVolume, Tubes: q.Tubes, Fill: q.Fill}
	if q.PigmentMass == "" && q.PaintMass == "" && q.PaintVolume == "" && q.Tubes == "" {
		return errors.New("no amount given: say one of --pans, --tubes, --pigment-mass, --paint-mass, --paint-volume")
	}
	req.Amount, err = m.amount()
	return err
}

// panOf reads "half" or "1.8ml".
func panOf(size string, known []formulate.PansAsked) (formulate.PansAsked, error) {
	var names []string
	for _, p := range known {
		short := strings.TrimSuffix(p.Name, " pan")
		if strings.EqualFold(size, short) || strings.EqualFold(size, p.Name) || strings.EqualFold(size, short+"-pan") {
			return p, nil
		}
		names = append(names, short)
	}
	v, err := quantity.ParseVolume(size)
	if err != nil {
		return formulate.PansAsked{}, fmt.Errorf("%q is not a pan; accepted: %s, or a volume as in 1.8ml", size, strings.Join(names, ", "))
	}
	return formulate.PansAsked{Name: "pan", Brim: v}, nil
}
