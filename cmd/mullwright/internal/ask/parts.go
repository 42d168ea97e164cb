package ask

import (
	"fmt"
	"strconv"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/quantity"
)

// named is "id=value", or an id alone.
type named struct {
	name, value string
	given       bool // a value was given
}

func splitNamed(text string) (named, error) {
	name, value, ok := strings.Cut(text, "=")
	n := named{strings.TrimSpace(name), strings.TrimSpace(value), ok}
	if n.name == "" || ok && n.value == "" {
		return n, fmt.Errorf("%q: want NAME or NAME=VALUE", text)
	}
	return n, nil
}

// parts reads "id[=parts]"; parts are 1 where none are given.
func parts(text string) (string, quantity.Parts, error) {
	n, err := splitNamed(text)
	if err != nil {
		return "", 0, err
	}
	if !n.given {
		return n.name, 1, nil
	}
	p, err := quantity.ParseParts(n.value)
	if err != nil {
		return "", 0, fmt.Errorf("%s: %w", n.name, err)
	}
	return n.name, p, nil
}

// fraction reads a share: "10%" or "10 %".
func fraction(text string) (quantity.MassFraction, error) {
	return quantity.ParseMassFraction(text)
}

// portion reads "id=share".
func portion(text string) (string, quantity.MassFraction, error) {
	n, err := splitNamed(text)
	if err != nil {
		return "", 0, err
	}
	if !n.given {
		return "", 0, fmt.Errorf("%q: the share is missing, as in %s=10%%", text, n.name)
	}
	s, err := fraction(n.value)
	if err != nil {
		return "", 0, fmt.Errorf("%s: %w", n.name, err)
	}
	return n.name, s, nil
}

// times reads "3x40ml": a count and a size.
func times(text string) (int, string, error) {
	t := strings.TrimSpace(text)
	if _, err := quantity.ParseVolume(t); err == nil {
		return 1, t, nil // a size alone is one of it
	}
	i := strings.IndexAny(t, "x×X")
	if i <= 0 {
		return 0, "", fmt.Errorf("%q: want a count, x and a size, as in 3x40ml", text)
	}
	n, err := strconv.Atoi(strings.TrimSpace(t[:i]))
	if err != nil || n < 1 {
		return 0, "", fmt.Errorf("%q: %q is not a count from 1", text, strings.TrimSpace(t[:i]))
	}
	size := strings.TrimSpace(strings.TrimLeft(t[i:], "x×X"))
	if size == "" {
		return 0, "", fmt.Errorf("%q: the size after the x is missing, as in 3x40ml", text)
	}
	return n, size, nil
}

// slab reads the size of a slab and how much is mulled on it at a time.
func slab(size, perMull string) (formulate.Slab, error) {
	var s formulate.Slab
	if size != "" {
		var err error
		if s.Width, s.Depth, err = rectangle(size); err != nil {
			return s, at("slab", err)
		}
	}
	if perMull != "" {
		if err := s.PerMull.Set(perMull); err != nil {
			return s, at("per-mull", err)
		}
		const least = 0.1
		if s.PerMull < least {
			return s, at("per-mull", fmt.Errorf("%q: a mull is at least %g ml, as in 20ml", perMull, float64(least)))
		}
	}
	return s, nil
}

// rectangle reads "30x40cm": two lengths, the unit of the last standing for both.
func rectangle(text string) (w, d quantity.Length, err error) {
	t := strings.NewReplacer("×", "x", "X", "x").Replace(strings.TrimSpace(text))
	a, b, ok := strings.Cut(t, "x")
	if !ok {
		return 0, 0, fmt.Errorf("%q: want width x depth, as in 30x40cm", text)
	}
	if d, err = quantity.ParseLength(b); err != nil {
		return 0, 0, err
	}
	if strings.TrimRight(a, " 0123456789.,") == "" {
		a += strings.TrimLeft(b, " 0123456789.,")
	}
	w, err = quantity.ParseLength(a)
	return w, d, err
}
