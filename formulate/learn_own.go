package formulate

import (
	"fmt"
	"slices"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// ownTrials are the rub-outs of the maker's own that stand in a material. The
// maker wrote them there to be used: they are sure of them.
func ownTrials(m *material.Material) []Trial {
	var out []Trial
	for _, r := range m.OilAbsorption {
		if r.OwnRubOut() {
			out = append(out, Trial{Lot: r.Lot, Sure: true, RubOut: &OwnRubOut{Value: r.ByVolume().Middle(), Tests: 1, Method: material.RubOut}})
		}
	}
	return out
}

// teach hands what was learned on with the pigment, for every answer to say.
func (res *LearnResult) teach() {
	p := &res.Pigment
	if len(res.Request.Trials) == 0 {
		return
	}
	p.Learned = res
	if p.OwnAbsorption || p.OwnDemand {
		m := *p.Material
		m.Tests = res.tests()
		p.Material = &m
	}
}

// tests says which tests count, in words: "lot A12: 3 rub-outs and 1 batch in
// your batch book".
func (res *LearnResult) tests() string {
	var file, rubOuts, batches, others int
	for i := range res.Request.Trials {
		t := &res.Request.Trials[i]
		if !res.used(t) {
			continue
		}
		n := 1
		switch {
		case t.Batch != nil:
			batches++
		case t.Number == 0:
			file++
		default:
			n = t.RubOut.Tests
			rubOuts += n
		}
		if t.Lot != res.Jar {
			others += n
		}
	}
	var book, parts []string
	for _, x := range []struct {
		n         int
		one, many string
	}{{rubOuts, "rub-out", "rub-outs"}, {batches, "batch", "batches"}} {
		if x.n > 0 {
			book = append(book, count(x.n, x.one, x.many))
		}
	}
	if len(book) > 0 {
		parts = append(parts, strings.Join(book, " and ")+" in your batch book")
	}
	if file > 0 {
		parts = append(parts, count(file, "rub-out", "rub-outs")+" in your catalogue file")
	}
	text := strings.Join(parts, ", ")
	switch all := file + rubOuts + batches; {
	case others == all:
		text += ", all of other jars"
	case others > 0:
		text += fmt.Sprintf(", %d of them of other jars", others)
	}
	switch {
	case res.NewJar():
		text = "a new jar: " + text
	case res.Jar != "":
		text = "lot " + res.Jar + ": " + text
	}
	return text
}

// NewJar reports whether no test was made of the jar that is asked about.
func (res *LearnResult) NewJar() bool {
	return !slices.ContainsFunc(res.Request.Trials, func(t Trial) bool { return t.Lot == res.Jar })
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// used reports whether a trial taught.
func (res *LearnResult) used(t *Trial) bool {
	return !slices.ContainsFunc(res.Unused, func(u Unused) bool { return u.Number == t.Number }) &&
		!slices.ContainsFunc(res.Conflicts, func(c Conflict) bool { return c.LeftOut && c.of(t) })
}

// Doubts names the tests that do not fit, and whether they count.
func (res *LearnResult) Doubts() []string {
	if res == nil {
		return nil
	}
	const most = 3
	var out []string
	more := 0
	for i := range res.Conflicts {
		c := &res.Conflicts[i]
		if c.Sure {
			continue // the maker knows
		}
		if len(out) == most {
			more++
			continue
		}
		used, then := "used, and yet", "look for a slip"
		if c.LeftOut {
			used, then = "not used:", "strike it if it is a slip, mark it sure if it is right"
		}
		out = append(out, fmt.Sprintf("%s entry %d of your batch book does not fit (%s of %s: %s); %s", used, c.Number, c.Kind(), res.Request.Pigment.Material.ID, c.Text(), then))
	}
	if more > 0 {
		out = append(out, fmt.Sprintf("%d more entries of your batch book do not fit, of %s", more, res.Request.Pigment.Material.ID))
	}
	return out
}

// Kind is what the trial was.
func (c *Conflict) Kind() string {
	if c.Batch {
		return "batch"
	}
	return "rub-out"
}

// Text says what was found, and where: "440 g/100 g, where the catalogue says
// 33–64".
func (c *Conflict) Text() string {
	says := "says"
	if c.Against == EarlierTests {
		says = "say"
	}
	return fmt.Sprintf("%s g/100 g, where %s %s %s–%s", whole(c.Found), c.Against, says, whole(c.Believed.Low), whole(c.Believed.High))
}

// whole prints grams per 100 g to the gram, below 10 to the tenth.
func whole(v quantity.Absorption) string {
	if v < 10 {
		return fmt.Sprintf("%.1f", float64(v))
	}
	return fmt.Sprintf("%.0f", float64(v))
}
