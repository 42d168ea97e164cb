package ask

import (
	"errors"
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
	"mullwright/formulate/vapour"
)

// Defaults of a thinning where the maker says nothing.
const (
	DefaultTaken       = "10 ml"
	DefaultTemperature = "20 C"
	DefaultAirChanges  = "0.5 /h"
)

// Thin is a thinning as asked: a paint, asked as for a mull, and what goes into
// it.
type Thin struct {
	// Formula is a formula file that the paint starts from; only files name one.
	Formula string
	Paint   Mull

	Media          []string
	Solvents       []string
	Parts          string
	By             string
	Mix            string
	RelativeBody   string
	SolventShare   string
	PigmentPerArea string
	GlazeVolume    string
	GlazeMass      string
	Area           string
	WetFilm        string
	Absorbed       string
	Temperature    string
	Room           string
	AirChanges     string
	Release        string
	Over           string
}

// notThinned are fields of a mull that a thinning has no use for as flags; a
// formula file may hold them all the same.
var notThinned = map[string]bool{"slab": true, "twenty-drops": true, "have": true}

// Fields lists what may be said of a thinning: the paint, as for a mull, and
// what goes into it.
func (t *Thin) Fields() []Field {
	paint := t.Paint.Fields()
	for i := range paint {
		if notThinned[paint[i].Name] {
			paint[i].FileOnly = true
		}
	}
	paint = append(paint, Field{Name: "formula", One: &t.Formula, FileOnly: true, Help: "formula file of the paint, in the folder of this file or below it"})
	return append(paint, t.Thinning()...)
}

// Thinning lists what may be said of what goes into the paint.
func (t *Thin) Thinning() []Field {
	return []Field{
		{Name: "medium", Many: &t.Media, Help: "oil, varnish or medium that goes in, NAME or NAME=PARTS; repeat for a blend"},
		{Name: "solvent", Many: &t.Solvents, Help: "solvent that goes in, NAME or NAME=PARTS; repeat for a blend"},
		{Name: "parts", One: &t.Parts, Help: "paint:medium:solvent as in 1:1:2; of two where one thing goes in, as in 1:1"},
		{Name: "by", One: &t.By, Help: "how parts and shares are counted: volume or mass (default volume)"},
		{Name: "relative-body", One: &t.RelativeBody, Help: "thin until this is left of the paint's body, as in 50%"},
		{Name: "solvent-share", One: &t.SolventShare, Help: "thin until solvent is this share of the whole, as in 30%; with a medium, give paint:medium in --parts"},
		{Name: "pigment-per-area", One: &t.PigmentPerArea, Help: "pigment in the film, as in 5g/m2: settles the thinning at a --wet-film, or the film at --parts"},
		{Name: "mix", One: &t.Mix, Help: "medium:solvent where --relative-body or --pigment-per-area sets how much of both (default 1:1)"},
		{Name: "glaze-volume", One: &t.GlazeVolume, Either: "amount", Help: "thinned paint wanted, by volume"},
		{Name: "glaze-mass", One: &t.GlazeMass, Either: "amount", Help: "thinned paint wanted, by mass"},
		{Name: "area", One: &t.Area, Either: "amount", Beside: "glaze-volume", Help: "area to cover at the wet film, as in 0.12m2 or 30x40cm; beside --glaze-volume it settles the film"},
		{Name: "wet-film", One: &t.WetFilm, Help: "wet film thickness, as in 25um"},
		{Name: "absorbed", One: &t.Absorbed, Help: "binder the ground takes out of the film, as in 5g/m2; 0g/m2 for a sealed ground"},
		{Name: "temperature", One: &t.Temperature, Help: "of paint and room (default " + DefaultTemperature + ")"},
		{Name: "room", One: &t.Room, Help: "volume of the room the solvent leaves into, as in 30m3"},
		{Name: "air-changes", One: &t.AirChanges, Help: "how often the room's air is renewed, as in 2/h (default " + DefaultAirChanges + ", a closed room)"},
		{Name: "release", One: &t.Release, Help: "how the solvent leaves: at-once, evenly or fast-first (default at-once; evenly where --over is given)"},
		{Name: "over", One: &t.Over, Help: "the time it leaves in, as in 4h; for fast-first the time in which 63 % leaves"},
	}
}

// Load fills the question from a formula file: a paint under [mull], or a whole
// thinning under [thin].
func (t *Thin) Load(file, text string) error {
	var top map[string]any
	if err := strict.Decode(file, text, &top); err != nil {
		return err
	}
	_, paint := top["mull"]
	if _, thinned := top["thin"]; paint && !thinned {
		return Load(file, text, "mull", t.Paint.Fields())
	}
	return Load(file, text, "thin", t.Fields())
}

// hasAmount reports whether any amount was given.
func hasAmount(fields []Field) bool {
	for _, f := range fields {
		if f.Either == "amount" && f.set() {
			return true
		}
	}
	return false
}

// Request turns the question into a request.
func (t *Thin) Request(w *Workshop, s formulate.Sampling) (formulate.ThinRequest, error) {
	req := formulate.ThinRequest{Sampling: s}
	if err := Conflicts(t.Fields()); err != nil {
		return req, err
	}
	paint := t.Paint
	if !hasAmount(paint.Fields()) {
		paint.PaintVolume = DefaultTaken
	}
	var err error
	if req.Paint, err = paint.Request(w, s); err != nil {
		return req, err
	}
	price, err := w.readPrices(paint.Prices)
	if err != nil {
		return req, at("price", err)
	}
	if req.Media, err = w.poured(t.Media, price); err != nil {
		return req, at("medium", err)
	}
	if req.Solvents, err = w.poured(t.Solvents, price); err != nil {
		return req, at("solvent", err)
	}
	if err := t.readFilm(&req); err != nil {
		return req, err
	}
	if req.Thinning, err = t.thinning(len(req.Media) > 0, len(req.Solvents) > 0); err != nil {
		return req, err
	}
	req.Airing, err = t.airing()
	return req, err
}

// poured reads liquids with their parts.
func (w *Workshop) poured(list []string, price prices) ([]formulate.Poured, error) {
	var out []formulate.Poured
	for _, text := range list {
		name, p, err := parts(text)
		if err != nil {
			return nil, err
		}
		l, err := w.Pour(name)
		if err != nil {
			return nil, err
		}
		l.Price = price[l.Material.ID]
		for i := range l.Parts {
			l.Parts[i].Price = price[l.Parts[i].Material.ID]
		}
		out = append(out, formulate.Poured{Liquid: l, Parts: p})
	}
	return out, nil
}

// readFilm reads the amount of thinned paint, the film and the temperature.
func (t *Thin) readFilm(req *formulate.ThinRequest) error {
	for _, f := range []struct {
		name, text string
		set        func(string) error
	}{
		{"glaze-volume", t.GlazeVolume, req.Glaze.Volume.Set},
		{"glaze-mass", t.GlazeMass, req.Glaze.Mass.Set},
		{"area", t.Area, func(s string) (err error) { req.Glaze.Area, err = area(s); return err }},
		{"wet-film", t.WetFilm, req.Wet.Set},
		{"absorbed", t.Absorbed, req.Absorbed.Set},
		{"temperature", orOne(t.Temperature, DefaultTemperature), req.Temperature.Set},
	} {
		if f.text == "" {
			continue
		}
		if err := f.set(f.text); err != nil {
			return at(f.name, err)
		}
	}
	req.GroundKnown = t.Absorbed != ""
	return nil
}

// area reads "0.12m2" or "30x40cm".
func area(text string) (quantity.Area, error) {
	if strings.ContainsAny(text, "x×X") {
		w, d, err := rectangle(text)
		const cm2 = 1e-4 // m²
		return quantity.Area(float64(w) * float64(d) * cm2), err
	}
	return quantity.ParseArea(text)
}

// thinning reads how far the paint is thinned.
func (t *Thin) thinning(media, solvents bool) (formulate.Thinning, error) {
	th := formulate.Thinning{Paint: 1}
	switch t.By {
	case "", "volume":
	case "mass":
		th.By = formulate.ByMass
	default:
		return th, at("by", fmt.Errorf("%q is not a way to count; accepted: volume, mass", t.By))
	}
	if err := t.targets(media, solvents); err != nil {
		return th, err
	}
	if t.PigmentPerArea != "" {
		if err := th.Pigment.Set(t.PigmentPerArea); err != nil {
			return th, at("pigment-per-area", err)
		}
		if th.Pigment == 0 {
			return th, at("pigment-per-area", errors.New("want more than nothing, as in 5g/m2"))
		}
	}
	var err error
	switch {
	case t.RelativeBody != "":
		th.Kind = formulate.ToBody
		var left quantity.VolumeFraction
		if err := left.Set(t.RelativeBody); err != nil {
			return th, at("relative-body", err)
		}
		th.Body = quantity.Ratio(left)
		th.Medium, th.Solvent, err = mix(t.Mix)
		return th, at("mix", err)
	case t.SolventShare != "":
		th.Kind = formulate.ToSolvent
		var share quantity.VolumeFraction
		if err := share.Set(t.SolventShare); err != nil {
			return th, at("solvent-share", err)
		}
		th.SolventShare = quantity.Ratio(share)
		if media {
			th.Paint, th.Medium, _, err = threeParts(t.Parts, true, false)
		}
		return th, at("parts", err)
	case t.pigmentAtFilm():
		th.Kind = formulate.ToPigment
		th.Medium, th.Solvent, err = mix(t.Mix)
		return th, at("mix", err)
	case t.Parts != "":
		th.Kind = formulate.ByParts
		th.Paint, th.Medium, th.Solvent, err = threeParts(t.Parts, media, solvents)
		return th, at("parts", err)
	}
	return th, nil
}

func (t *Thin) pigmentAtFilm() bool { return t.PigmentPerArea != "" && t.WetFilm != "" }

// targets refuses a thinning that is said twice, or not at all.
func (t *Thin) targets(media, solvents bool) error {
	var given []string
	add := func(is bool, name string) {
		if is {
			given = append(given, name)
		}
	}
	add(t.RelativeBody != "", "--relative-body")
	add(t.SolventShare != "", "--solvent-share")
	add(t.pigmentAtFilm(), "--pigment-per-area at a --wet-film")
	add(t.Parts != "" && !(t.SolventShare != "" && media), "--parts")
	switch {
	case len(given) > 1:
		return fmt.Errorf("%s each settle how far the paint is thinned; give one", strings.Join(given, " and "))
	case len(given) == 0 && (media || solvents):
		return errors.New("how much goes in is not said: give --parts, --relative-body, --solvent-share, or --pigment-per-area with --wet-film")
	case len(given) == 1 && given[0] != "--parts" && !media && !solvents:
		return fmt.Errorf("%s: nothing to thin with; name a --medium or a --solvent", given[0])
	case t.SolventShare != "" && !solvents:
		return at("solvent-share", errors.New("name the --solvent too"))
	case t.SolventShare != "" && media && t.Parts == "":
		return at("solvent-share", errors.New("with a medium, say paint:medium in --parts; the solvent follows"))
	case t.Mix != "" && !(media && solvents):
		return at("mix", errors.New("it needs a --medium and a --solvent"))
	case t.Mix != "" && t.RelativeBody == "" && !t.pigmentAtFilm():
		return at("mix", errors.New("it goes with --relative-body, or --pigment-per-area at a --wet-film; otherwise say it in --parts"))
	}
	return nil
}

// mix reads "1:2", medium to solvent.
func mix(text string) (medium, solvent quantity.Parts, err error) {
	if text == "" {
		return 1, 1, nil
	}
	list, err := colonParts(text)
	if err == nil && (len(list) != 2 || list[0]+list[1] == 0) {
		err = fmt.Errorf("%q: want medium:solvent, as in 1:2", text)
	}
	if err != nil {
		return 0, 0, err
	}
	return list[0], list[1], nil
}

// threeParts reads "paint:medium:solvent", or two parts where only one thing
// goes in.
func threeParts(text string, media, solvents bool) (paint, medium, solvent quantity.Parts, err error) {
	list, err := colonParts(text)
	if err != nil {
		return 0, 0, 0, err
	}
	switch {
	case len(list) == 3:
		paint, medium, solvent = list[0], list[1], list[2]
	case len(list) == 2 && media && solvents:
		return 0, 0, 0, fmt.Errorf("%q: a medium and a solvent go in: want paint:medium:solvent, as in 1:1:2", text)
	case len(list) == 2 && solvents:
		paint, solvent = list[0], list[1]
	case len(list) == 2:
		paint, medium = list[0], list[1]
	case len(list) == 1 && !media && !solvents:
		paint = list[0]
	default:
		return 0, 0, 0, fmt.Errorf("%q: want paint:medium:solvent, as in 1:1:2", text)
	}
	switch {
	case paint == 0:
		err = fmt.Errorf("%q: the first part is the paint's and must be above 0", text)
	case medium > 0 && !media:
		err = fmt.Errorf("%q gives a part to a medium; name the --medium too", text)
	case solvent > 0 && !solvents:
		err = fmt.Errorf("%q gives a part to a solvent; name the --solvent too", text)
	case medium == 0 && media:
		err = fmt.Errorf("%q gives the medium no part", text)
	case solvent == 0 && solvents:
		err = fmt.Errorf("%q gives the solvent no part", text)
	}
	return paint, medium, solvent, err
}

// colonParts reads numbers from 0 up between colons.
func colonParts(text string) ([]quantity.Parts, error) {
	var out []quantity.Parts
	for _, s := range strings.Split(text, ":") {
		s = strings.TrimSpace(s)
		if v, reason := quantity.Number(s); reason == "" && v == 0 && s != "" {
			out = append(out, 0)
			continue
		}
		p, err := quantity.ParseParts(s)
		if err != nil {
			return nil, fmt.Errorf("%q: %q is not a part; want numbers between colons, as in 1:1:2", text, s)
		}
		out = append(out, p)
	}
	return out, nil
}

var releases = map[string]vapour.Profile{"at-once": vapour.AtOnce, "evenly": vapour.Evenly, "fast-first": vapour.FirstOrder}

// airing reads the room; nil where none is given.
func (t *Thin) airing() (*formulate.Airing, error) {
	if t.Room == "" {
		for _, f := range []struct{ name, text string }{{"air-changes", t.AirChanges}, {"release", t.Release}, {"over", t.Over}} {
			if f.text != "" {
				return nil, at(f.name, errors.New("say the --room too, as in 30m3"))
			}
		}
		return nil, nil
	}
	a := &formulate.Airing{Profile: vapour.AtOnce}
	if err := a.Room.Volume.Set(t.Room); err != nil {
		return nil, at("room", err)
	}
	if err := a.Room.AirChanges.Set(orOne(t.AirChanges, DefaultAirChanges)); err != nil {
		return nil, at("air-changes", err)
	}
	if t.Over != "" {
		if err := a.Over.Set(t.Over); err != nil {
			return nil, at("over", err)
		}
		a.Profile = vapour.Evenly
	}
	if t.Release != "" {
		p, ok := releases[t.Release]
		if !ok {
			return nil, at("release", fmt.Errorf("%q is not a way to leave; accepted: at-once, evenly, fast-first", t.Release))
		}
		a.Profile = p
	}
	switch {
	case a.Profile == vapour.AtOnce && t.Over != "":
		return nil, at("over", errors.New("what leaves at once takes no time; say --release evenly or fast-first"))
	case a.Profile != vapour.AtOnce && t.Over == "":
		return nil, at("release", errors.New("say in what time, as in --over 4h"))
	}
	return a, nil
}
