package shelf

import "strings"

// IDOf is the id that a name suggests: its letters and digits in lower case,
// accents dropped, hyphens between the words. It is empty for a name of none.
func IDOf(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		text := string(r)
		if plain, ok := plainLetters[r]; ok {
			text = plain
		}
		if r >= 0x80 && text == string(r) || r < 0x80 && !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9') {
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('-')
		}
		gap = false
		b.WriteString(text)
	}
	return b.String()
}
