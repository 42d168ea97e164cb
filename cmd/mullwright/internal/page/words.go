package page

import (
	"html/template"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"sync"

	"mullwright/cmd/mullwright/internal/ask"
)

// The sheets speak to a command line. Here a flag becomes the label of its
// input, and a command the link to its page.

// commandWords replaces what only a command line can do.
var commandWords = strings.NewReplacer(
	" In full with --explain.", "",
	"Write it down with --save-paste FILE.toml: 'mullwright thin FILE.toml' makes a glaze of it, and a painting for 'mullwright layers' may name it as a formula.", "See 'mullwright thin' and 'mullwright layers'.",
	" with --out FILE.pdf", "",
	"; see 'mullwright rubout --help'", "",
	"Keep it with --save FILE (with --lot and --date), then give the file to any command with --catalogue FILE.", "Write it into your book: every answer then rests on it.",
	"; give the file with --catalogue", "; start the page with that file",
)

var (
	flagWord    = regexp.MustCompile(`--([a-z][a-z-]*[a-z])`)
	commandWord = regexp.MustCompile(`'mullwright ([^']+)'`)
)

// worded says a text without flags and commands.
func worded(text string, q *question) string {
	if !strings.Contains(text, "--") && !strings.Contains(text, "mullwright ") {
		return text
	}
	text = commandWord.ReplaceAllStringFunc(commandWords.Replace(text), func(command string) string {
		title, _ := commandLink(command)
		return "“" + title + "”"
	})
	return flagWord.ReplaceAllStringFunc(text, func(flag string) string {
		if q != nil {
			if label := q.label(flag[2:]); label != "" {
				return "“" + label + "”"
			}
		}
		return "“" + spaced(flag[2:]) + "”"
	})
}

// said is worded with its commands as links.
func said(text string, q *question) template.HTML {
	text = commandWords.Replace(text)
	var b strings.Builder
	for {
		at := commandWord.FindStringIndex(text)
		if at == nil {
			break
		}
		b.WriteString(template.HTMLEscapeString(worded(text[:at[0]], q)))
		title, to := commandLink(text[at[0]:at[1]])
		if to == "" {
			b.WriteString("“" + template.HTMLEscapeString(title) + "”")
		} else {
			b.WriteString(`<a href="` + template.HTMLEscapeString(to) + `">` + template.HTMLEscapeString(title) + "</a>")
		}
		text = text[at[1]:]
	}
	b.WriteString(template.HTMLEscapeString(worded(text, q)))
	return template.HTML(b.String())
}

// commandLink is the page of a quoted command, with what the command says
// filled in; no address where there is no such page.
func commandLink(command string) (title, to string) {
	words := strings.Fields(strings.TrimSuffix(strings.TrimPrefix(command, "'mullwright "), "'"))
	for _, n := range []int{2, 1} {
		if len(words) < n {
			continue
		}
		path := strings.Join(words[:n], "/")
		if t, ok := otherPages[path]; ok {
			return t, "/" + strings.TrimSuffix(path, "/list")
		}
		for _, q := range allQuestions() {
			if q.path == path {
				return q.title, q.withWords(words[n:])
			}
		}
	}
	return strings.Join(words, " "), ""
}

// otherPages are the pages that answer no question.
var otherPages = map[string]string{
	"pigments": "Pigments", "media": "Oils, solvents, gums",
	"book/add": "Write a batch down", "book/list": "The batch book", "book/stock": "What is on hand", "book/learn": "What your book taught",
}

// allQuestions is the registry, for links between pages.
var allQuestions = sync.OnceValue(questions)

// withWords is the address of a question with the words of a command filled in;
// words in capitals and dots stand for what the maker is to say.
func (q *question) withWords(words []string) string {
	said := func(w string) bool {
		return w != "..." && strings.ToUpper(w) != w || strings.ContainsAny(w, "0123456789")
	}
	fields := q.start().Fields()
	values := url.Values{}
	for i := 0; i < len(words); i++ {
		name, isFlag := strings.CutPrefix(words[i], "--")
		if !isFlag {
			if said(words[i]) && q.needs != "" {
				values.Add(q.needs, words[i])
			}
			continue
		}
		at := slices.IndexFunc(fields, func(f ask.Field) bool { return f.Name == name })
		switch {
		case at < 0:
		case fields[at].Yes != nil:
			values.Set(name, "true")
		case i+1 < len(words) && said(words[i+1]):
			i++
			values.Add(name, words[i])
		}
	}
	return strings.TrimSuffix("/"+q.path+"?"+values.Encode(), "?")
}
