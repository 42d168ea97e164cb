package ask

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Defaults of settling where the maker says nothing.
const (
	DefaultDepth  = "10 cm"
	DefaultPowder = "5 %"
	DefaultWashes = "3"
)

// Settle is a settling as asked.
type Settle struct {
	What        []string
	Density     string
	Cut         string
	Time        string
	Depth       string
	Powder      string
	Washes      string
	Temperature string
}

// Fields lists what may be said of settling.
func (q *Settle) Fields() []Field {
	return []Field{
		{Name: "of", Many: &q.What, Help: "pigment or extender; none with --density", FileOnly: true},
		{Name: "cut", One: &q.Cut, Either: "of the two", Help: "grain size to cut at, as in 20um: how long to wait"},
		{Name: "time", One: &q.Time, Either: "of the two", Help: "wait before pouring off, as in 45s: what size is cut off"},
		{Name: "depth", One: &q.Depth, Help: "depth of liquid poured off (default " + DefaultDepth + ")"},
		{Name: "density", One: &q.Density, Help: "true density of your own powder, as in 2.7g/ml"},
		{Name: "powder", One: &q.Powder, Help: "powder in the stirred mix, by mass (default " + DefaultPowder + ")"},
		{Name: "washes", One: &q.Washes, Help: "how often it is stirred up and poured off (default " + DefaultWashes + ")"},
		{Name: "temperature", One: &q.Temperature, Help: "of the water (default " + DefaultTemperature + ")"},
	}
}

// ownPowderSigma is how well a maker's own true density is taken to be known:
// common practice, 3 %.
const ownPowderSigma = 0.03

// Request turns the question into a request.
func (q *Settle) Request(w *Workshop, s formulate.Sampling) (formulate.SettleRequest, error) {
	req := formulate.SettleRequest{Sampling: s, Name: "your powder"}
	if err := Conflicts(q.Fields()); err != nil {
		return req, err
	}
	switch len(q.What) {
	case 0:
		if q.Density == "" {
			return req, errors.New("no powder given: name a pigment, or give the --density of your own, as in 2.7g/ml")
		}
	case 1:
		m, err := w.PigmentNamed(q.What[0])
		if err != nil {
			return req, err
		}
		req.Material, req.Name, req.Density = m, m.Name, m.DensityDistribution()
	default:
		return req, fmt.Errorf("%s: give one powder at a time", strings.Join(q.What, ", "))
	}
	if q.Density != "" {
		d, err := quantity.ParseDensity(q.Density)
		if err != nil {
			return req, at("density", err)
		}
		req.Density = evidence.Distribution[quantity.Density]{Median: d, Sigma: ownPowderSigma}
	}
	n, err := strconv.Atoi(orOne(q.Washes, DefaultWashes))
	if err != nil {
		return req, at("washes", fmt.Errorf("%q is not a count from 1", q.Washes))
	}
	req.Washes = n
	for _, f := range []struct {
		name, text string
		set        func(string) error
	}{
		{"cut", q.Cut, req.Cut.Set}, {"time", q.Time, req.Time.Set}, {"depth", orOne(q.Depth, DefaultDepth), req.Depth.Set},
		{"powder", orOne(q.Powder, DefaultPowder), req.Powder.Set}, {"temperature", orOne(q.Temperature, DefaultTemperature), req.Temperature.Set},
	} {
		if f.text == "" {
			continue
		}
		if err := f.set(f.text); err != nil {
			return req, at(f.name, err)
		}
	}
	return req, nil
}
