package page_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/cli"
	"mullwright/cmd/mullwright/internal/page"
	"mullwright/formulate"
)

// formulas draws questions that a maker might ask, right and wrong ones.
type formulas struct{ r *rand.Rand }

func (f formulas) of(list ...string) string { return list[f.r.IntN(len(list))] }

// now and then.
func (f formulas) oneIn(n int) bool { return f.r.IntN(n) == 0 }

func (f formulas) mass(most int) string {
	return fmt.Sprintf("%.1f%s", 1+f.r.Float64()*float64(most), f.of("g", " g", "g"))
}

var somePigments = []string{"prussian-blue", "ultramarine-blue", "yellow-ochre", "raw-umber", "lead-white", "zinc-white", "vermilion", "bone-black", "cobalt-blue", "viridian", "PR101", "Titanium white, rutile", "chalk", "cadmium-red", "alizarin-crimson", "prusian-blue"}

func (f formulas) pigments(values url.Values, most int) {
	seen := map[string]bool{}
	for range 1 + f.r.IntN(most) {
		p := f.of(somePigments...)
		if seen[p] {
			continue
		}
		seen[p] = true
		if f.oneIn(2) {
			p += fmt.Sprintf("=%d", 1+f.r.IntN(4))
		}
		values.Add("pigments", p)
	}
}

func (f formulas) body(values url.Values) {
	switch f.r.IntN(6) {
	case 0:
		values.Set("pvc", fmt.Sprintf("%d%%", 15+f.r.IntN(50)))
	case 1:
		values.Set("reduced-pvc", fmt.Sprintf("%.2f", 0.3+f.r.Float64()))
	case 2:
		values.Set("body", fmt.Sprintf("%.2f", 0.4+0.8*f.r.Float64()))
	default:
		values.Set("body", f.of("stiff", "buttery", "soft", "flowing"))
	}
}

func (f formulas) paste(values url.Values) {
	f.pigments(values, 3)
	f.body(values)
	if f.oneIn(2) {
		values.Set("oil", f.of("linseed-oil", "walnut-oil", "poppy-oil", "turpentine"))
	}
	if f.oneIn(4) {
		values.Set("extender", fmt.Sprintf("%s=%d%%", f.of("chalk", "barytes", "china-clay"), 5+f.r.IntN(30)))
	}
	if f.oneIn(4) {
		values.Set("wax", fmt.Sprintf("beeswax=%.1f%%", 0.5+3*f.r.Float64()))
	}
	if f.oneIn(5) {
		values.Set("moisture", fmt.Sprintf("%d%%", 1+f.r.IntN(20)))
	}
	if f.oneIn(6) {
		values.Set("parts-by", f.of("mass", "volume", "spoon"))
	}
}

// ask draws one question: the command and its fields.
func (f formulas) ask() (command string, values url.Values) {
	v := url.Values{}
	switch f.r.IntN(8) {
	case 0, 1, 2:
		f.paste(v)
		switch f.r.IntN(5) {
		case 0:
			v.Set("paint-mass", f.mass(200))
		case 1:
			v.Set("tubes", fmt.Sprintf("%dx%dml", 1+f.r.IntN(6), f.r.IntN(5)*10+10))
		case 2:
			v.Set("pigment-mass", f.mass(300))
		case 3:
			v.Set("oil-mass", f.mass(100))
		default:
			v.Set("paint-volume", fmt.Sprintf("%dml", 1+f.r.IntN(300)))
		}
		if f.oneIn(3) {
			v.Set("slab", "30x40cm")
		}
		if f.oneIn(3) {
			v.Set("price", "linseed-oil=0.03/g")
		}
		return "mull", v
	case 3:
		f.paste(v)
		v.Del("pvc")
		v.Set("pigment-mass", f.mass(80))
		if f.oneIn(2) {
			v.Set("oil-mass", f.mass(60))
		} else {
			v.Set("oil-drops", fmt.Sprint(20+f.r.IntN(900)))
		}
		return "correct", v
	case 4:
		f.pigments(v, 4)
		v.Add("pigments", "ultramarine-blue")
		v.Add("pigments", "yellow-ochre")
		for i, p := range v["pigments"] {
			v["pigments"][i], _, _ = strings.Cut(p, "=")
		}
		v.Set("sort", f.of("oil", "density", "pvc", "tubes"))
		v.Set("body", f.of("stiff", "buttery", "soft"))
		return "compare", v
	case 5:
		f.pigments(v, 2)
		v.Set("solvent", "turpentine")
		v.Set("parts", f.of("1:1", "2:1", "4:1"))
		v.Set("wet-film", fmt.Sprintf("%dum", 10+f.r.IntN(90)))
		if f.oneIn(2) {
			v.Set("room", "30m3")
		}
		return "thin", v
	case 6:
		f.pigments(v, 2)
		v.Set("pans", fmt.Sprintf("%dx%s", 1+f.r.IntN(20), f.of("half", "full")))
		v.Set("air", f.of("dry", "ordinary", "damp"))
		return "watercolour", v
	default:
		f.pigments(v, 2)
		v.Set("bottle", fmt.Sprintf("%dml", 5+f.r.IntN(60)))
		v.Set("for", f.of("dip-pen", "brush", "relief-print"))
		return "ink", v
	}
}

// The page and the command line show the same numbers to the last digit, and
// refuse the same questions with the same numbers in their reasons.
func TestPageAgreesWithTheCommandLine(t *testing.T) {
	w, err := ask.Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	bench, err := page.New(func() (*page.Desk, error) { return &page.Desk{Workshop: w}, nil }, formulate.Sampling{})
	if err != nil {
		t.Fatal(err)
	}
	h := bench.Handler(page.HostsOf(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8040}))
	draw := formulas{rand.New(rand.NewPCG(7, 7))}
	answered, numbers := 0, 0
	for i := range 200 {
		command, values := draw.ask()
		explain := i%2 == 0
		args := append([]string{command}, values["pigments"]...)
		for k, list := range values {
			if k != "pigments" {
				for _, v := range list {
					args = append(args, "--"+k, v)
				}
			}
		}
		args = append(args, "--format", "markdown")
		if explain {
			args = append(args, "--explain")
			values.Set("explain", "true")
		}
		var out, complaint bytes.Buffer
		code := cli.Main(args, cli.Streams{In: strings.NewReader(""), Out: &out, Err: &complaint, Getenv: func(string) string { return "" }})
		rec := httptest.NewRecorder()
		h.ServeHTTP(rec, httptest.NewRequest(http.MethodGet, "http://127.0.0.1:8040/"+command+"?"+values.Encode()+"&fragment=1", nil))
		want, got := out.String(), sheetOf(rec.Body.String())
		switch {
		case code == cli.ExitUsage && rec.Code == http.StatusUnprocessableEntity:
			want, got = strings.TrimPrefix(complaint.String(), "mullwright: "), textOf(rec.Body.String())
			if i := strings.LastIndex(want, "--"); i >= 0 || strings.Contains(want, "mullwright ") {
				continue // worded for one or the other
			}
		case code == cli.ExitOK && rec.Code == http.StatusOK:
			answered++
		default:
			t.Errorf("%v: exit code %d, page %d: %s", args, code, rec.Code, complaint.String())
			continue
		}
		a, b := figures(want), figures(got)
		numbers += len(a)
		if strings.Join(a, " ") != strings.Join(b, " ") {
			n := 0
			for n < min(len(a), len(b)) && a[n] == b[n] {
				n++
			}
			t.Errorf("%v: %d figures on the command line, %d on the page; they part at %q, %q", args, len(a), len(b), tail(a, n), tail(b, n))
		}
	}
	t.Logf("%d of 200 questions answered, %d figures compared", answered, numbers)
	if answered < 120 || numbers < 20000 {
		t.Errorf("%d questions answered, %d figures compared: the test looks at too little", answered, numbers)
	}
}

func tail(list []string, n int) []string { return list[min(n, len(list)):min(n+6, len(list))] }

var (
	figure  = regexp.MustCompile(`\d[\d.,:/%–-]*\d|\d`)
	pattern = map[string]*regexp.Regexp{
		"command": regexp.MustCompile(`'mullwright [^']*'`),
		"notSaid": regexp.MustCompile(`(?s)<svg.*?</svg>|<p class="warn">.*?</p>|<nav class="next".*|<div class="tools".*|<dl class="signed".*?</dl>`),
		"tag":     regexp.MustCompile(`<[^>]*>`),
	}
)

// figures are the numbers of a text in their order.
func figures(text string) []string {
	return figure.FindAllString(pattern["command"].ReplaceAllString(text, ""), -1)
}

// sheetOf is the text of the sheet in an answer.
func sheetOf(html string) string {
	i := strings.Index(html, `<header class="head">`)
	if i < 0 {
		return ""
	}
	return textOf(pattern["notSaid"].ReplaceAllString(html[i:], " "))
}

func textOf(html string) string {
	text := pattern["tag"].ReplaceAllString(html, " ")
	text = strings.NewReplacer("&lt;", "<", "&gt;", ">", "&#34;", `"`, "&#39;", "'", "&#43;", "+").Replace(text)
	return strings.ReplaceAll(text, "&amp;", "&")
}
