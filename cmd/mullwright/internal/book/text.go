package book

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"mullwright/formulate/strict"
)

// Parse reads the text of one entry, strictly.
func Parse(file, text string) (Entry, error) {
	e, ok := quick(text)
	if !ok {
		e = Entry{}
		if err := strict.Decode(file, text, &e); err != nil {
			return Entry{}, err
		}
	}
	e.File = file
	e.Number, _ = number(file)
	var faults strict.Faults
	e.check(func(what string, key ...string) {
		faults = append(faults, strict.Fault{File: file, Line: lineOf(text, key), Key: strings.Join(key, "."), What: what})
	})
	if len(faults) > 0 {
		sort.SliceStable(faults, func(i, j int) bool { return faults[i].Line < faults[j].Line })
		return Entry{}, faults
	}
	return e, nil
}

// lineOf finds the line of a key in which a number names the element of a list.
func lineOf(text string, key []string) int {
	for i, k := range key {
		if n, err := strconv.Atoi(k); err == nil {
			return strict.LineOfElement(text, n, key[:i]...)
		}
	}
	return strict.LineOf(text, key...)
}

// Text prints an entry as its file, which Parse reads back.
func (e *Entry) Text() string {
	var b strings.Builder
	field := func(key, value string) {
		if value != "" {
			fmt.Fprintf(&b, "%s = %s\n", key, quote(value))
		}
	}
	list := func(key string, parts []Part) {
		if len(parts) == 0 {
			return
		}
		fmt.Fprintf(&b, "%s = [\n", key)
		for _, p := range parts {
			amount := "mass = " + quote(p.Mass.String())
			switch {
			case p.None:
				amount = "none = true"
			case p.Volume != 0:
				amount = "volume = " + quote(p.Volume.String())
			}
			fmt.Fprintf(&b, "  {id = %s, %s", quote(p.ID), amount)
			if p.Lot != "" {
				fmt.Fprintf(&b, ", lot = %s", quote(p.Lot))
			}
			b.WriteString("},\n")
		}
		b.WriteString("]\n")
	}
	field("date", e.Date)
	field("remark", e.Remark)
	if e.Sure {
		b.WriteString("sure = true\n")
	}
	switch {
	case e.Batch != nil:
		b.WriteString("\n[batch] # final weights\n")
		list("pigments", e.Batch.Pigments)
		list("extenders", e.Batch.Extenders)
		list("oils", e.Batch.Oils)
		list("waxes", e.Batch.Waxes)
		field("body", e.Batch.Body)
		if e.Batch.Moisture > 0 {
			field("moisture", e.Batch.Moisture.String())
		}
		if e.Batch.Loss > 0 {
			field("loss", e.Batch.Loss.String())
		}
		field("drying", e.Batch.Drying)
	case e.RubOut != nil:
		b.WriteString("\n[rub-out]\n")
		field("id", e.RubOut.ID)
		field("lot", e.RubOut.Lot)
		if e.RubOut.ByVolume != 0 {
			field("by-volume", e.RubOut.ByVolume.String())
		} else {
			field("by-mass", e.RubOut.ByMass.String())
		}
		fmt.Fprintf(&b, "tests = %d\n", e.RubOut.Tests)
		if e.RubOut.Scatter != 0 {
			field("scatter", e.RubOut.Scatter.String())
		}
		field("method", e.RubOut.Method)
		field("oil", e.RubOut.Oil)
	case e.Strike != nil:
		fmt.Fprintf(&b, "\n[strike]\nentry = %d\n", e.Strike.Entry)
	case e.Stock != nil:
		b.WriteString("\n[stock]\n")
		list("counted", e.Stock.Counted)
		list("bought", e.Stock.Bought)
		if len(e.Stock.Prices) > 0 {
			b.WriteString("prices = [\n")
			for _, p := range e.Stock.Prices {
				fmt.Fprintf(&b, "  {id = %s, price = %s},\n", quote(p.ID), quote(p.Price.String()))
			}
			b.WriteString("]\n")
		}
	}
	return strings.TrimPrefix(b.String(), "\n")
}

// quote prints a basic string of TOML. Text that has passed lineFault holds no
// control characters, and what Go escapes beyond them TOML escapes alike.
func quote(s string) string { return strconv.Quote(s) }
