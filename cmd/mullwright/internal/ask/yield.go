package ask

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/chemistry"
	"mullwright/formulate/quantity"
)

// Yield is a yield as asked.
type Yield struct {
	Reaction   []string // the reaction, or one formula alone
	Weighed    []string
	Product    string
	Water      string
	Got        string
	Scale      string
	Rinses     string
	RinseWater string
	Held       string
	SaltsLeft  string
	Pigment    string
}

// Fields lists what may be said of a yield.
func (y *Yield) Fields() []Field {
	return []Field{
		{Name: "reaction", Many: &y.Reaction, Help: "the balanced reaction, or one formula", FileOnly: true},
		{Name: "weighed", Many: &y.Weighed, Help: "what was weighed in, FORMULA=MASS, as in \"FeCl3·6H2O=8.5g\", or \"=8.5g at 97%\" of it pure; repeat for each"},
		{Name: "product", One: &y.Product, Help: "which product is the pigment (default the first)"},
		{Name: "water", One: &y.Water, Help: "bound water of the pigment, one number or a range, as in 14-16 (default what the catalogue has of --pigment, else none)"},
		{Name: "got", One: &y.Got, Help: "what the dried pigment weighs"},
		{Name: "scale", One: &y.Scale, Help: "one division of your balance (default " + DefaultScale + ")"},
		{Name: "rinses", One: &y.Rinses, Help: "how often it was rinsed"},
		{Name: "rinse-water", One: &y.RinseWater, Help: "water of one rinse"},
		{Name: "held", One: &y.Held, Help: "liquid left in the settled powder each time it was poured off"},
		{Name: "salts-left", One: &y.SaltsLeft, Help: "how many rinses leave this share of the salts, as in 0.1%"},
		{Name: "pigment", One: &y.Pigment, Help: "what the catalogue calls the pigment: for its bound water and the next step"},
	}
}

// Formula reads the question as one formula alone, and reports whether it is
// one: a reaction has an arrow.
func (y *Yield) Formula() (chemistry.Formula, bool, error) {
	text := strings.Join(y.Reaction, " ")
	if strings.ContainsAny(text, "=>→⟶⇒⇌+") {
		return chemistry.Formula{}, false, nil
	}
	f, err := chemistry.ParseFormula(text)
	return f, true, err
}

// Request turns the question into a request.
func (y *Yield) Request(w *Workshop) (formulate.YieldRequest, error) {
	var req formulate.YieldRequest
	var err error
	if req.Reaction, err = chemistry.ParseReaction(strings.Join(y.Reaction, " ")); err != nil {
		return req, err
	}
	req.Product = orOne(y.Product, req.Reaction.Products[0].Formula.String())
	if len(y.Weighed) == 0 {
		return req, errors.New("nothing was weighed in: give --weighed for at least one substance, as in --weighed \"" +
			req.Reaction.Reactants[0].Formula.String() + "=10g\"")
	}
	for _, text := range y.Weighed {
		x, err := weighedIn(text)
		if err != nil {
			return req, at("weighed", err)
		}
		req.Weighed = append(req.Weighed, x)
	}
	if y.Water != "" {
		if req.Water, err = boundWater(y.Water); err != nil {
			return req, at("water", err)
		}
	}
	if y.Got != "" {
		if err := req.Got.Set(y.Got); err != nil {
			return req, at("got", err)
		}
	}
	if err := req.Scale.Set(orOne(y.Scale, DefaultScale)); err != nil {
		return req, at("scale", err)
	}
	if req.Rinse, err = y.rinse(); err != nil {
		return req, err
	}
	if y.Pigment != "" {
		if req.Pigment, err = w.PigmentNamed(y.Pigment); err != nil {
			return req, at("pigment", err)
		}
	}
	return req, y.lookWater(w, &req)
}

// lookWater finds the bound water in the catalogue where nothing was said of it:
// that of the pigment that was named, or which pigments it might be.
func (y *Yield) lookWater(w *Workshop, req *formulate.YieldRequest) error {
	product, err := chemistry.ParseFormula(req.Product)
	if err != nil {
		return at("product", err)
	}
	if _, own := product.RangedWater(); own || y.Water != "" {
		return nil
	}
	if req.Pigment != nil {
		req.Water, req.Looked = formulate.BoundWaterOf(req.Pigment, product)
		return nil
	}
	list, err := w.Pigments.All()
	if err != nil {
		return err
	}
	for _, m := range list {
		if water, ok := formulate.BoundWaterOf(m, product); ok {
			req.Hydrates = append(req.Hydrates, formulate.Hydrate{Material: m, Water: water})
		}
	}
	return nil
}

// weighedIn reads "FORMULA=MASS" or "FORMULA=MASS at SHARE".
func weighedIn(text string) (chemistry.Weighed, error) {
	out := chemistry.Weighed{Purity: 1}
	n, err := splitNamed(text)
	if err == nil && !n.given {
		err = fmt.Errorf("%q: the mass is missing, as in \"%s=10g\"", text, n.name)
	}
	if err != nil {
		return out, err
	}
	out.Substance = n.name
	mass, pure, told := strings.Cut(n.value, " at ")
	if err := out.Mass.Set(mass); err != nil {
		return out, fmt.Errorf("%s: %w", n.name, err)
	}
	if told {
		if out.Purity, err = fraction(strings.TrimSpace(pure)); err != nil {
			return out, fmt.Errorf("%s: %w", n.name, err)
		}
	}
	return out, nil
}

// boundWater reads "14-16" or "3".
func boundWater(text string) (chemistry.Span[quantity.Ratio], error) {
	var s chemistry.Span[quantity.Ratio]
	low, high, ranged := strings.Cut(strings.ReplaceAll(text, "–", "-"), "-")
	if !ranged {
		high = low
	}
	for _, end := range []struct {
		text string
		to   *quantity.Ratio
	}{{low, &s.Low}, {high, &s.High}} {
		n, reason := quantity.Number(strings.TrimSpace(end.text))
		if reason != "" {
			return s, fmt.Errorf("%q: %s; accepted: molecules of water to one of the pigment, as in 3 or 14-16", text, reason)
		}
		*end.to = quantity.Ratio(n)
	}
	if s.High < s.Low {
		return s, fmt.Errorf("%q: the second number must be the larger, as in 14-16", text)
	}
	return s, nil
}

func (y *Yield) rinse() (formulate.Rinse, error) {
	var r formulate.Rinse
	if given(y.Rinses, y.RinseWater, y.Held, y.SaltsLeft) == 0 {
		return r, nil
	}
	if y.RinseWater == "" || y.Held == "" || given(y.Rinses, y.SaltsLeft) == 0 {
		return r, errors.New("rinsing needs --rinse-water and --held, and --rinses or --salts-left or both")
	}
	if y.Rinses != "" {
		n, err := strconv.Atoi(strings.TrimSpace(y.Rinses))
		if err != nil || n < 0 || n > 10000 {
			return r, at("rinses", fmt.Errorf("%q is not a count from 0 to 10000", y.Rinses))
		}
		r.Times = n
	}
	if err := r.Water.Set(y.RinseWater); err != nil {
		return r, at("rinse-water", err)
	}
	if err := r.Held.Set(y.Held); err != nil {
		return r, at("held", err)
	}
	if y.SaltsLeft != "" {
		var err error
		if r.Target, err = fraction(y.SaltsLeft); err != nil {
			return r, at("salts-left", err)
		}
		if r.Target == 0 {
			return r, at("salts-left", errors.New("no number of rinses leaves nothing: give a share above 0, as in 0.1%"))
		}
	}
	return r, nil
}
