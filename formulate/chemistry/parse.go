package chemistry

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"mullwright/formulate/quantity"
)

// Limits on what is read: far above any pigment, far below harm.
const (
	maxFormula = 200  // bytes of one formula
	maxNesting = 8    // brackets in brackets
	maxCount   = 9999 // of any one number
	maxAtoms   = 1e6  // of any one element
)

// A parser reads one formula, as its grammar in the package comment says.
type parser struct {
	text  string
	pos   int
	depth int
}

func (p *parser) fail(format string, args ...any) error {
	return fmt.Errorf("formula %q: %s", p.text, fmt.Sprintf(format, args...))
}

// ParseFormula reads a chemical formula. See the package comment for what is
// accepted.
func ParseFormula(text string) (Formula, error) {
	f := Formula{text: strings.TrimSpace(text)}
	switch {
	case f.text == "":
		return Formula{}, fmt.Errorf("formula is empty: accepted is one as CaCO3, 2PbCO3·Pb(OH)2 or CuSO4·5H2O")
	case len(f.text) > maxFormula:
		return Formula{}, fmt.Errorf("formula is %d bytes long: at most %d are read", len(f.text), maxFormula)
	case !utf8.ValidString(f.text):
		return Formula{}, fmt.Errorf("formula %q is not valid text", f.text)
	}
	// One spelling of the dot and of digits from here on; lengths may change, so
	// positions are those of the plain text.
	p := &parser{text: f.text}
	plain := plainer.Replace(f.text)
	q := &parser{text: plain}
	if err := q.formula(&f); err != nil {
		if plain != f.text {
			return Formula{}, p.fail("%s", strings.TrimPrefix(err.Error(), fmt.Sprintf("formula %q: ", plain)))
		}
		return Formula{}, err
	}
	return f, nil
}

// plainer turns the dots, digits, brackets and halves people type into one kind.
var plainer = strings.NewReplacer(
	"•", "·", "⋅", "·", "∙", "·", "*", "·", "‧", "·",
	"₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4", "₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9",
	"½", "0.5", "–", "-", "−", "-", "{", "[", "}", "]", "\u00a0", " ",
)

func (p *parser) formula(f *Formula) error {
	for {
		before := p.pos
		low, high, err := p.coefficient()
		if err != nil {
			return err
		}
		atoms, err := p.groups()
		if err != nil {
			return err
		}
		water := len(atoms) == 2 && countOf(atoms, "H") == 2 && countOf(atoms, "O") == 1
		switch {
		case low == high:
			if water && len(f.atoms) > 0 {
				f.dot += low
			}
			f.add(atoms, low)
		case !water:
			return p.fail("only bound water is read as a range, as in ·14-16H2O")
		case len(f.atoms) == 0:
			return p.fail("there is nothing before the water")
		default:
			f.water = Span[quantity.Ratio]{Low: quantity.Ratio(low), High: quantity.Ratio(high)}
			f.dry = strings.TrimRight(p.text[:before], " ·.")
		}
		f.parts++
		for _, a := range f.atoms {
			if a.Count > maxAtoms {
				return p.fail("%s stands there %g times: at most %g are read", a.Symbol, a.Count, maxAtoms)
			}
		}
		p.space()
		if p.end() {
			return nil
		}
		if f.water.High > 0 {
			return p.fail("the range of bound water must come last")
		}
		if !p.take("·") && !p.take(".") {
			return p.unexpected()
		}
	}
}

// coefficient reads the number before a part: 1 where there is none, a range as
// 14-16 before water.
func (p *parser) coefficient() (low, high float64, err error) {
	p.space()
	if p.end() {
		return 0, 0, p.fail("it ends where a substance should follow")
	}
	if s := p.rest(); strings.HasPrefix(s, "xH2O") || strings.HasPrefix(s, "nH2O") || strings.HasPrefix(s, "x H2O") || strings.HasPrefix(s, "n H2O") {
		return 0, 0, p.fail("the bound water is written as %c: give a number, as ·3H2O, or what it may be, as ·14-16H2O", s[0])
	}
	if !isDigit(p.peek()) {
		return 1, 1, nil
	}
	if low, err = p.decimal(); err != nil {
		return 0, 0, err
	}
	high = low
	if p.take("-") {
		if !isDigit(p.peek()) {
			return 0, 0, p.fail("a range needs two numbers, as in ·14-16H2O; solid solutions with x need numbers too, as in Cd0.9Zn0.1S")
		}
		if high, err = p.decimal(); err != nil {
			return 0, 0, err
		}
		if high <= low {
			return 0, 0, p.fail("range %g-%g: the second number must be the larger", low, high)
		}
	} else if low == 0 {
		return 0, 0, p.fail("a count of 0")
	}
	p.space()
	return low, high, nil
}

// decimal reads digits with an optional fraction.
func (p *parser) decimal() (float64, error) {
	start := p.pos
	p.digits()
	if c := p.peek(); (c == '.' || c == ',') && p.pos+1 < len(p.text) && isDigit(p.text[p.pos+1]) {
		p.pos++
		p.digits()
	}
	v, err := strconv.ParseFloat(strings.Replace(p.text[start:p.pos], ",", ".", 1), 64)
	if err != nil || v > maxCount {
		return 0, p.fail("number %s: at most %d is read", p.text[start:p.pos], maxCount)
	}
	return v, nil
}

func (p *parser) digits() {
	for !p.end() && isDigit(p.peek()) {
		p.pos++
	}
}

// groups reads elements and brackets up to a dot, a closing bracket or the end.
func (p *parser) groups() ([]Atom, error) {
	var atoms []Atom
	for !p.end() {
		var group []Atom
		switch c := p.peek(); {
		case c >= 'A' && c <= 'Z':
			symbol, err := p.element()
			if err != nil {
				return nil, err
			}
			group = []Atom{{symbol, 1}}
		case c == '(' || c == '[':
			inner, err := p.bracket(c)
			if err != nil {
				return nil, err
			}
			group = inner
		default:
			if len(atoms) == 0 {
				return nil, p.unexpected()
			}
			return atoms, nil
		}
		n, err := p.subscript()
		if err != nil {
			return nil, err
		}
		for _, a := range group {
			atoms = count(atoms, a.Symbol, n*a.Count)
		}
	}
	if len(atoms) == 0 {
		return nil, p.fail("it ends where a substance should follow")
	}
	return atoms, nil
}

func (p *parser) bracket(open byte) ([]Atom, error) {
	if p.depth++; p.depth > maxNesting {
		return nil, p.fail("brackets stand more than %d deep", maxNesting)
	}
	p.pos++
	inner, err := p.groups()
	if err != nil {
		return nil, err
	}
	closing := ")"
	if open == '[' {
		closing = "]"
	}
	if !p.take(closing) {
		return nil, p.fail("the bracket %c is not closed by %s", open, closing)
	}
	p.depth--
	return inner, nil
}

func (p *parser) element() (string, error) {
	end := p.pos + 1
	if end < len(p.text) && p.text[end] >= 'a' && p.text[end] <= 'z' {
		end++
	}
	symbol := p.text[p.pos:end]
	if bySymbol[symbol] == nil {
		if strings.Contains(weightless, " "+symbol+" ") {
			return "", p.fail("%s has no standard atomic weight", symbol)
		}
		return "", p.fail("%q is not an element; symbols are one capital, or a capital and a small letter", symbol)
	}
	p.pos = end
	return symbol, nil
}

// subscript reads the number after an element or bracket: 1 where there is none.
// A point ends it, for it is also the dot before bound water, unless it follows
// a lone 0, which no whole count can be.
func (p *parser) subscript() (float64, error) {
	if p.end() || !isDigit(p.peek()) {
		return 1, nil
	}
	if p.peek() == '0' {
		if s := p.rest(); len(s) > 2 && (s[1] == '.' || s[1] == ',') && isDigit(s[2]) {
			n, err := p.decimal()
			if err == nil && n == 0 {
				err = p.fail("a count of 0")
			}
			return n, err
		}
		return 0, p.fail("a count begins with 0: is the letter O meant?")
	}
	start := p.pos
	p.digits()
	n, err := strconv.Atoi(p.text[start:p.pos])
	if err != nil || n > maxCount {
		return 0, p.fail("number %s: at most %d is read", p.text[start:p.pos], maxCount)
	}
	return float64(n), nil
}

// unexpected says what stands where nothing of the kind may.
func (p *parser) unexpected() error {
	r, _ := utf8.DecodeRuneInString(p.rest())
	switch {
	case r == '+' || r == '-' || r == '^' || r == '⁺' || r == '⁻' || r == '²' || r == '³':
		return p.fail("charges and solid solutions written with x are not read: write the neutral substance, and numbers for x")
	case r == ')' || r == ']':
		return p.fail("%c closes no bracket", r)
	case r >= 'a' && r <= 'z':
		return p.fail("%q begins no element: symbols begin with a capital", string(r))
	}
	return p.fail("%q is not understood here", string(r))
}

func (p *parser) end() bool    { return p.pos >= len(p.text) }
func (p *parser) rest() string { return p.text[p.pos:] }

// peek is the next byte, 0 at the end.
func (p *parser) peek() byte {
	if p.end() {
		return 0
	}
	return p.text[p.pos]
}

func (p *parser) space() {
	for !p.end() && p.peek() == ' ' {
		p.pos++
	}
}

func (p *parser) take(s string) bool {
	if !strings.HasPrefix(p.rest(), s) {
		return false
	}
	p.pos += len(s)
	return true
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
