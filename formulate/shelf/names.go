package shelf

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Match is an entry and the name by which it was met.
type Match struct{ ID, Name string }

// UnknownError says that no entry has a name, and what comes nearest.
type UnknownError struct {
	Table   string // "pigment" or "medium"
	Name    string
	Closest []Match
}

func (e *UnknownError) Error() string {
	s := fmt.Sprintf("no %s is called %q", e.Table, e.Name)
	if len(e.Closest) == 0 {
		return s
	}
	near := make([]string, len(e.Closest))
	for i, m := range e.Closest {
		near[i] = m.ID
		if fold(m.ID) != fold(m.Name) {
			near[i] += " (" + m.Name + ")"
		}
	}
	return s + "; closest: " + strings.Join(near, ", ")
}

// AmbiguousError says that a name fits several entries.
type AmbiguousError struct {
	Table      string
	Name       string
	Candidates []string // ids, sorted
}

func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%q fits several %s entries; name one of: %s", e.Name, e.Table, strings.Join(e.Candidates, ", "))
}

// fold brings the spellings of one name together: letters and digits in lower
// case, accents dropped, Colour Index names in their short form.
func fold(name string) string {
	out := make([]byte, 0, 48)
	for _, r := range name {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			out = append(out, byte(r))
		case r >= 'A' && r <= 'Z':
			out = append(out, byte(r)+'a'-'A')
		case r >= 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			r = unicode.ToLower(r)
			if plain, ok := plainLetters[r]; ok {
				out = append(out, plain...)
			} else {
				out = utf8.AppendRune(out, r)
			}
		}
	}
	return shortColourIndex(string(out))
}

var plainLetters = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ã': "a", 'å': "a", 'ç': "c", 'è': "e", 'é': "e", 'ê': "e", 'ë': "e", 'ì': "i", 'í': "i", 'î': "i", 'ï': "i",
	'ñ': "n", 'ò': "o", 'ó': "o", 'ô': "o", 'õ': "o", 'ø': "o", 'ù': "u", 'ú': "u", 'û': "u", 'ä': "a", 'ö': "o", 'ü': "u", 'æ': "ae", 'œ': "oe", 'ß': "ss",
}

// The hues of the Colour Index and their abbreviations.
var colourIndexHues = [][2]string{
	{"black", "bk"}, {"brown", "br"}, {"blue", "b"}, {"green", "g"}, {"metal", "m"}, {"orange", "o"}, {"red", "r"}, {"violet", "v"}, {"white", "w"}, {"yellow", "y"},
}

// shortColourIndex turns a folded "cipigmentblue27" into "pb27" and leaves
// other names alone.
func shortColourIndex(s string) string {
	if s == "" || s[0] != 'c' && s[0] != 'p' && s[0] != 'n' {
		return s
	}
	rest := strings.TrimPrefix(s, "ci")
	for _, use := range [][2]string{{"pigment", "p"}, {"natural", "n"}} {
		hue, ok := strings.CutPrefix(rest, use[0])
		if !ok {
			continue
		}
		for _, h := range colourIndexHues {
			if number, ok := strings.CutPrefix(hue, h[0]); ok && isNumber(number) {
				return use[1] + h[1] + number
			}
		}
	}
	// "CI PB27" and "CI 77510".
	if rest != s && (isNumber(rest) || len(rest) > 2 && rest[0] == 'p' && isNumber(strings.TrimLeft(rest[1:], "bkrgmovwy"))) {
		return rest
	}
	return s
}

func isNumber(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}

// closest finds the entries whose names come nearest to a folded name, by
// edits within a quarter of its length: of the whole name or, some steps behind,
// of the name with its end left off or of one word of it.
func closest(wanted string, names []Match, most int) []Match {
	type scored struct {
		Match
		score int
	}
	best := map[string]scored{}
	for _, m := range names {
		score, ok := nearness(wanted, m.Name)
		if b, seen := best[m.ID]; ok && (!seen || score < b.score) {
			best[m.ID] = scored{m, score}
		}
	}
	found := slices.SortedFunc(maps.Values(best), func(a, b scored) int {
		return cmp.Or(cmp.Compare(a.score, b.score), cmp.Compare(a.ID, b.ID))
	})
	out := make([]Match, 0, most)
	for _, s := range found[:min(most, len(found))] {
		out = append(out, s.Match)
	}
	return out
}

// nearness scores how close a name comes, 0 being equal; ok is false where it
// is too far off to offer.
func nearness(wanted, name string) (score int, ok bool) {
	const shortest = 4 // letters; shorter pieces fit anything
	score = math.MaxInt
	try := func(candidate string, behind int) {
		if d := edits(wanted, candidate); d <= max(1, min(len(wanted), len(candidate))/4) {
			score = min(score, d+behind)
		}
	}
	whole := fold(name)
	try(whole, 0)
	if len(wanted) >= shortest {
		for _, word := range strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '-' || r == ',' }) {
			if w := fold(word); len(w) >= shortest {
				try(w, 2)
			}
		}
		if len(whole) > len(wanted) {
			try(whole[:len(wanted)], 1)
		}
	}
	return score, score < math.MaxInt
}

// edits is the least number of letters to insert, drop, change or swap with
// the next one to turn a into b (optimal string alignment).
func edits(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}
