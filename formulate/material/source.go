package material

// Source is one publication, cited by key from every value.
type Source struct {
	Key     string `toml:"-"`
	Author  string `toml:"author"`
	Title   string `toml:"title"`
	Year    string `toml:"year"`
	Locator string `toml:"locator,omitempty"`
}

// Keys that stand for the lack of a publication. They need no Source entry.
const (
	CommonPractice = "common practice"
	FromMemory     = "from memory"
	OwnMeasurement = "own measurement"
)

// Cite prints a source in one line.
func (s Source) Cite() string {
	out := s.Author
	if s.Title != "" {
		out += ", " + s.Title
	}
	if s.Year != "" {
		out += " (" + s.Year + ")"
	}
	if s.Locator != "" {
		out += ", " + s.Locator
	}
	return out
}
