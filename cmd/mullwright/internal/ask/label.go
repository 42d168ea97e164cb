package ask

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/strict"
)

// Label is a question for labels.
type Label struct {
	What   []string // pigments, or one formula file
	Binder []string
	With   []string
	Name   string
	On     string
	Size   string
	Copies string
	Each   bool
	Paper  Paper
}

// Fields lists what may be said of labels.
func (l *Label) Fields() []Field {
	return append([]Field{
		{Name: "pigments", Many: &l.What, Help: "pigments of the paint, or a formula file", FileOnly: true},
		{Name: "binder", Many: &l.Binder, Help: "what binds it, as in linseed-oil or gum-arabic; repeat for more"},
		{Name: "with", Many: &l.With, Help: "anything else in it: extender, wax, honey, preservative; repeat for more"},
		{Name: "name", One: &l.Name, Help: "name of the paint (default its pigments')"},
		{Name: "on", One: &l.On, Help: "what it goes on: tube, pan or bottle (default tube)"},
		{Name: "size", One: &l.Size, Help: "width x height, as in 60x32mm (default 60x32mm on a tube, 70x42mm on a bottle, and on a pan 50x18mm, a strip once round a half pan of about 19x16 mm, common practice)"},
		{Name: "copies", One: &l.Copies, Help: "how many of each (default 1)"},
		{Name: "each", Yes: &l.Each, Help: "every pigment is a paint of its own, in the same binder"},
	}, l.Paper.Fields()...)
}

// Request turns the question into a request.
func (l *Label) Request(w *Workshop) (formulate.LabelRequest, error) {
	req := formulate.LabelRequest{On: formulate.OnTube, Copies: 1, Maker: l.Paper.Maker, Batch: l.Paper.Batch, Date: l.Paper.Date}
	var err error
	if req.Paints, err = l.paints(w); err != nil {
		return req, err
	}
	if l.On != "" {
		if req.On = formulate.LabelOn(l.On); !slices.Contains(formulate.LabelOns(), req.On) {
			return req, at("on", fmt.Errorf("%q is not a thing to label; accepted: tube, pan, bottle", l.On))
		}
	}
	if l.Size != "" {
		if req.Width, req.Height, err = rectangle(l.Size); err != nil {
			return req, at("size", err)
		}
	}
	if l.Copies != "" {
		n, err := strconv.Atoi(strings.TrimSpace(l.Copies))
		if err != nil || n < 1 || n > mostCopies {
			return req, at("copies", fmt.Errorf("%q is not a count from 1 to %d", l.Copies, mostCopies))
		}
		req.Copies = n
	}
	return req, nil
}

const mostCopies = 500

func (l *Label) paints(w *Workshop) ([]formulate.Labelled, error) {
	if i := slices.IndexFunc(l.What, isFormulaFile); i >= 0 {
		if len(l.What) > 1 || len(l.Binder) > 0 || len(l.With) > 0 || l.Each {
			return nil, fmt.Errorf("%s says what is in the paint; give it alone", l.What[i])
		}
		p, err := l.fromFile(w, l.What[i])
		p.Name = l.Name
		return []formulate.Labelled{p}, err
	}
	if len(l.What) == 0 {
		return nil, errors.New("nothing to label: name its pigments, or give its formula file")
	}
	if len(l.Binder) == 0 {
		return nil, at("binder", errors.New("a label says what binds the paint, as in --binder linseed-oil or --binder gum-arabic"))
	}
	var pigments, others []*material.Material
	for _, name := range l.What {
		m, err := w.PigmentNamed(name)
		if err != nil {
			return nil, at("pigment", err)
		}
		pigments = append(pigments, m)
	}
	for _, name := range l.Binder {
		m, err := w.MediumNamed(name)
		if err != nil {
			return nil, at("binder", err)
		}
		others = append(others, m)
	}
	for _, name := range l.With {
		m, err := w.Material(name)
		if err != nil {
			return nil, at("with", err)
		}
		others = append(others, m)
	}
	if !l.Each {
		return []formulate.Labelled{{Name: l.Name, Materials: append(pigments, others...)}}, nil
	}
	if l.Name != "" && len(pigments) > 1 {
		return nil, at("name", errors.New("with --each every paint has the name of its pigment"))
	}
	var out []formulate.Labelled
	for _, m := range pigments {
		out = append(out, formulate.Labelled{Name: l.Name, Materials: append([]*material.Material{m}, others...)})
	}
	return out, nil
}

func isFormulaFile(arg string) bool { return strings.HasSuffix(arg, ".toml") }

// fromFile reads what is in the paint of a formula file.
func (l *Label) fromFile(w *Workshop, file string) (formulate.Labelled, error) {
	text, err := ReadFile(file)
	if err != nil {
		return formulate.Labelled{}, err
	}
	exact := formulate.Sampling{Exact: true}
	switch {
	case strict.LineOf(text, "watercolour") > 0:
		var q Watercolour
		if err := Load(file, text, "watercolour", q.Fields()); err != nil {
			return formulate.Labelled{}, err
		}
		req, err := q.Request(w, exact)
		return req.Labelled(), err
	case strict.LineOf(text, "ink") > 0:
		var q Ink
		if err := Load(file, text, "ink", q.Fields()); err != nil {
			return formulate.Labelled{}, err
		}
		req, err := q.Request(w, exact)
		return req.Labelled(), err
	}
	var q Mull
	if err := Load(file, text, "mull", q.Fields()); err != nil {
		return formulate.Labelled{}, err
	}
	req, err := q.Request(w, exact)
	return req.Labelled(), err
}
