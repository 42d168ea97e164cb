package strict

import (
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"
)

var textUnmarshaler = reflect.TypeFor[encoding.TextUnmarshaler]()

// collect finds every fault of a text that does not decode into target's type:
// the decoder itself stops at the first, and not always at the same one.
// A fault of syntax still stands alone, for nothing after it can be read.
func collect(file, text string, target any, elsewhere []string) Faults {
	var top map[string]toml.Primitive
	meta, err := toml.Decode(text, &top)
	if err != nil {
		return Faults{syntax(file, text, err)}
	}
	c := &collector{file: file, text: text, meta: &meta}
	for _, name := range elsewhere {
		delete(top, name)
	}
	c.fields(top, reflect.TypeOf(target).Elem(), nil, -1)
	sort.SliceStable(c.faults, func(i, j int) bool { return c.faults[i].Line < c.faults[j].Line })
	return c.faults
}

type collector struct {
	file, text string
	meta       *toml.MetaData
	faults     Faults
}

// fault notes what is wrong at a key; element is the number of the array
// element on the way to it, -1 where there is none.
func (c *collector) fault(key []string, element int, what string) {
	if c.faults.Enough() {
		return
	}
	c.faults = append(c.faults, Fault{File: c.file, Line: LineOfElement(c.text, element, key...), Key: strings.Join(key, "."), What: what})
}

// value walks one value of the type it should have.
func (c *collector) value(p toml.Primitive, t reflect.Type, key []string, element int) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if !reflect.PointerTo(t).Implements(textUnmarshaler) {
		switch t.Kind() {
		case reflect.Struct, reflect.Map:
			var inner map[string]toml.Primitive
			if c.meta.PrimitiveDecode(p, &inner) != nil || inner == nil {
				c.fault(key, element, "a table is expected here")
				return
			}
			c.fields(inner, t, key, element)
			return
		case reflect.Slice:
			var inner []toml.Primitive
			if c.meta.PrimitiveDecode(p, &inner) != nil {
				c.fault(key, element, "a list in square brackets is expected here")
				return
			}
			for i, x := range inner {
				c.value(x, t.Elem(), key, i)
			}
			return
		}
	}
	if err := c.meta.PrimitiveDecode(p, reflect.New(t).Interface()); err != nil {
		c.fault(key, element, reason(err, t))
	}
}

func (c *collector) fields(inner map[string]toml.Primitive, t reflect.Type, key []string, element int) {
	names := make([]string, 0, len(inner))
	for name := range inner {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		here := append(key[:len(key):len(key)], name)
		if t.Kind() == reflect.Map {
			c.value(inner[name], t.Elem(), here, element)
			continue
		}
		if f, ok := fieldNamed(t, name); ok {
			c.value(inner[name], f.Type, here, element)
		} else if _, ok := fieldNamed(t, strings.ToLower(name)); ok {
			c.fault(here, element, fmt.Sprintf("keys are written in lower case: %q", strings.ToLower(name)))
		} else {
			c.fault(here, element, "unknown key")
		}
	}
}

// fieldNamed finds a struct's field by its key.
func fieldNamed(t reflect.Type, name string) (reflect.StructField, bool) {
	for i := range t.NumField() {
		f := t.Field(i)
		if key, _, _ := strings.Cut(f.Tag.Get("toml"), ","); key == name && key != "-" {
			return f, true
		}
	}
	return reflect.StructField{}, false
}

// reason says in plain words why a value was refused.
func reason(err error, t reflect.Type) string {
	var pe toml.ParseError
	if errors.As(err, &pe) {
		return pe.Message
	}
	switch t.Kind() {
	case reflect.String:
		return "text in quotes is expected here"
	case reflect.Bool:
		return "true or false is expected here"
	case reflect.Float64, reflect.Int, reflect.Int64:
		return "a number is expected here"
	}
	return strings.TrimPrefix(err.Error(), "toml: ")
}

// LineOfElement finds the line of the element'th value (from 0) of the list at
// a dotted key, or of a key inside that element; with a negative element the
// line of the key itself. It is 0 where the line cannot be told.
func LineOfElement(text string, element int, key ...string) int {
	if element < 0 {
		return LineOf(text, key...)
	}
	lines := strings.Split(text, "\n")
	// The list is the longest leading part of the key that is written out.
	for n := len(key); n > 0; n-- {
		if at := listStart(lines, key[:n]); at > 0 {
			return elementLine(lines, at, element)
		}
		if at := nthHeader(lines, strings.Join(key[:n], "."), element); at > 0 {
			return at
		}
	}
	return LineOf(text, key...)
}

// listStart finds the line, from 1, of "key = [" for a dotted key.
func listStart(lines []string, key []string) int {
	table, full := "", strings.Join(key, ".")
	for i, line := range lines {
		t := strings.TrimSpace(line)
		if strings.HasPrefix(t, "[") {
			table = strings.Trim(strings.SplitN(t, "]", 2)[0], "[] ") + "."
			continue
		}
		if name, rest, ok := strings.Cut(t, "="); ok && table+strings.TrimSpace(name) == full && strings.HasPrefix(strings.TrimSpace(rest), "[") {
			return i + 1
		}
	}
	return 0
}

// nthHeader finds the line, from 1, of the n'th [[table]].
func nthHeader(lines []string, table string, n int) int {
	for i, line := range lines {
		t := strings.TrimSpace(line)
		if strings.HasPrefix(t, "[[") && strings.Trim(strings.SplitN(t, "]", 2)[0], "[ ") == table {
			if n == 0 {
				return i + 1
			}
			n--
		}
	}
	return 0
}

// elementLine counts the elements of a list that begins on a line, from 1.
// Strings and comments are passed over.
func elementLine(lines []string, start, element int) int {
	depth, seen := 0, false // seen: the element at depth 1 has begun
	count := -1
	for i := start - 1; i < len(lines); i++ {
		line := lines[i]
		if i == start-1 {
			_, line, _ = strings.Cut(line, "=")
		}
		for j := 0; j < len(line); j++ {
			ch := line[j]
			if ch == '#' {
				break
			}
			switch {
			case ch == ' ' || ch == '\t' || ch == '\r':
				continue
			case ch == ',' && depth == 1:
				seen = false
				continue
			case ch == ']' || ch == '}':
				depth--
				if depth == 0 {
					return start
				}
				continue
			}
			if depth == 1 && !seen {
				seen = true
				if count++; count == element {
					return i + 1
				}
			}
			switch ch {
			case '[', '{':
				depth++
			case '"', '\'':
				for j++; j < len(line) && line[j] != ch; j++ {
					if ch == '"' && line[j] == '\\' {
						j++
					}
				}
			}
		}
	}
	return start
}
