package page_test

import (
	"bufio"
	"context"
	_ "embed"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"mullwright/cmd/mullwright/internal/cli"
)

// runAsProgram makes this test's own binary the program, so that the browser
// meets what a maker starts.
const runAsProgram = "MULLWRIGHT_PAGE_TEST"

func TestMain(m *testing.M) {
	if os.Getenv(runAsProgram) != "" {
		os.Exit(cli.Main(os.Args[1:], cli.System()))
	}
	code := m.Run()
	chromium.close()
	os.Exit(code)
}

// program is a running bench page.
type program struct {
	url  string
	home string
	cmd  *exec.Cmd
}

// start starts the program in a home of its own and waits for its address.
func start(t testing.TB, home string, args ...string) *program {
	t.Helper()
	p := &program{home: home, cmd: exec.Command(os.Args[0], append([]string{"page"}, args...)...)}
	p.cmd.Env = append(os.Environ(), runAsProgram+"=1", "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home)
	out, err := p.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := p.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.kill)
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("the page printed no address: %v", err)
	}
	p.url = strings.TrimSuffix(strings.TrimSpace(line), "/")
	return p
}

// kill ends the program as a power cut would.
func (p *program) kill() {
	p.cmd.Process.Kill()
	p.cmd.Wait()
}

// findChromium is the path of a Chromium. Without one a browser test is left
// out, and says so; where CI is set it must not be.
func findChromium(t testing.TB) string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome", "headless-shell"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("CI") == "true" {
		t.Fatal("no Chromium is found, and CI needs one")
	}
	t.Skip("no Chromium is found: the browser tests are left out")
	return ""
}

// chromium is one headless browser for all tests.
var chromium struct {
	ctx   context.Context
	close context.CancelFunc
}

func init() { chromium.close = func() {} }

// browser starts the browser, once.
func browser(t testing.TB) context.Context {
	t.Helper()
	if chromium.ctx != nil {
		return chromium.ctx
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(findChromium(t)), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("force-device-scale-factor", "1"), chromedp.Flag("lang", "en-GB"))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, cancel := chromedp.NewContext(alloc)
	if err := chromedp.Do(ctx); err != nil {
		cancel()
		stop()
		t.Fatal(err)
	}
	chromium.ctx, chromium.close = ctx, func() { cancel(); stop() }
	return ctx
}

// tab is a page of the browser with a helper's patience.
type tab struct {
	t   testing.TB
	ctx context.Context
}

// open opens a tab of its own at a width.
func open(t testing.TB, ctx context.Context, width int64) *tab {
	ctx, cancel := chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 40*time.Second)
	t.Cleanup(cancel)
	b := &tab{t, ctx}
	b.do(chromedp.EmulateViewport(width, 800))
	return b
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

func run[T any](b *tab, a chromedp.Action[T]) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, a)
	if err != nil {
		b.t.Fatal(err)
	}
	return v
}

// click clicks and waits for the page that a link leads to.
func (b *tab) follow(css string) {
	b.t.Helper()
	if _, err := chromedp.RunResponse(b.ctx, chromedp.Click(chromedp.CSS(css), chromedp.NodeVisible)); err != nil {
		b.t.Fatalf("%s: %v", css, err)
	}
}

func (b *tab) eval(js string) string {
	b.t.Helper()
	return run(b, chromedp.Evaluate[string](js))
}

// fill types over what a field holds.
func (b *tab) fill(css, text string) {
	b.t.Helper()
	b.do(chromedp.Focus(chromedp.CSS(css)))
	b.eval(`document.querySelector(` + strconv.Quote(css) + `).select(); ""`)
	b.do(chromedp.KeyEvent(text))
}

// until waits for a script to be true.
func (b *tab) until(what, js string) {
	b.t.Helper()
	if _, err := chromedp.Run(b.ctx, chromedp.Poll[bool](js)); err != nil {
		b.t.Fatalf("%s: %v\n%s", what, err, b.eval(`document.body.innerText.slice(0, 1500)`))
	}
}

// answer is the text of the card.
func (b *tab) answer() string { return b.eval(`document.querySelector("#answer").innerText`) }

// fits checks that a page needs no scrolling sideways.
func (b *tab) fits(what string) {
	b.t.Helper()
	wide := b.eval(`(() => {
		const w = document.documentElement.clientWidth;
		if (document.documentElement.scrollWidth <= w) return "";
		const out = [];
		for (const e of document.querySelectorAll("body *")) {
			const r = e.getBoundingClientRect();
			if (r.right > w + 1 && !e.closest(".wide, pre")) out.push(e.tagName + "." + e.className + " to " + Math.round(r.right));
		}
		return "page is " + document.documentElement.scrollWidth + " wide: " + out.slice(0, 5).join("; ");
	})()`)
	if wide != "" {
		b.t.Errorf("%s: %s", what, wide)
	}
}

// From opening the page to a card for 40 ml of a named pigment, on a telephone:
// three taps. Then the card follows the slider, the address follows the card,
// and a reload loses nothing.
func TestMainJob(t *testing.T) {
	ctx := browser(t)
	p := start(t, t.TempDir())
	b := open(t, ctx, 360)
	b.do(chromedp.Navigate(p.url + "/"))
	b.follow(`a[href="/pigments?for=mull"].task`)
	b.fits("picker")
	b.do(chromedp.SendKeys(chromedp.CSS("#q"), "prussian"))
	b.until("the picker narrows", `document.querySelectorAll(".jar").length === 1`)
	b.follow(`.jar .pick`)
	if got := b.answer(); !strings.Contains(got, "Prussian blue (PB27) in Linseed oil") || !strings.Contains(got, "40 ml of paint") || !strings.Contains(got, "first pour") {
		t.Errorf("no card after three taps:\n%s", got)
	}
	b.fits("card")
	before := b.answer()

	// The slider: amount.
	b.do(chromedp.Focus(chromedp.CSS(".slide[data-slide]")), chromedp.KeyEvent(kb.ArrowRight))
	b.until("the card follows the slider", `document.querySelector("#answer").innerText.includes("50 ml of paint")`)
	// The slider: body, between two steps.
	b.do(chromedp.Focus(chromedp.CSS("[data-body]")), chromedp.KeyEvent(kb.ArrowLeft))
	b.until("the body stands between", `document.querySelector("#answer").innerText.includes("at a body of 0.")`)
	if b.answer() == before {
		t.Error("the card did not change")
	}
	b.until("the address follows", `location.search.includes("body.is=ratio") && location.search.includes("amount.is=50")`)
	if got := b.eval(`document.querySelector("[role=status]").innerText`); !strings.Contains(got, "first pour") {
		t.Errorf("the status says %q", got)
	}
	live := b.answer()
	b.do(chromedp.Reload())
	if got := b.answer(); got != live {
		t.Errorf("after a reload:\n%s\nbefore:\n%s", got, live)
	}
	if got := run(b, chromedp.Value(chromedp.CSS("#amount"))); got != "50 ml" {
		t.Errorf("after a reload the amount is %q", got)
	}
	// A named step again.
	b.do(chromedp.Click(chromedp.CSS(`input[value=soft]`)))
	b.until("a named step", `document.querySelector("#answer").innerText.includes("soft in body")`)
	if got := b.eval(`document.querySelector("[data-body]").value`); got == "0.65" || got == "" {
		t.Errorf("the slider stays at %s", got)
	}
	// A fault stands at its field, the words stay, and the card goes.
	b.fill("#amount", "forty")
	b.until("the fault", `!document.querySelector("#amount-error").hidden && document.querySelector("#amount-error").innerText.includes("forty")`)
	if got := b.eval(`document.querySelector("#amount").value + document.querySelector("#amount").getAttribute("aria-invalid")`); got != "fortytrue" {
		t.Errorf("the field holds %s", got)
	}
	if strings.Contains(b.answer(), "first pour") {
		t.Error("a card of another question still stands")
	}
	b.fill("#amount", "40 ml")
	b.until("the fault goes", `document.querySelector("#amount-error").hidden && document.querySelector("#answer").innerText.includes("40 ml of paint")`)
}

// A paste that took too much oil is corrected from its card.
func TestCorrectFromTheCard(t *testing.T) {
	ctx := browser(t)
	p := start(t, t.TempDir())
	b := open(t, ctx, 360)
	b.do(chromedp.Navigate(p.url + "/mull?pigments=ultramarine-blue&pigment-mass=20g&body=buttery"))
	b.follow(`.next a[href^="/correct"]`)
	b.do(chromedp.SendKeys(chromedp.CSS("#measure"), "14 g"))
	b.until("the ways out", `document.querySelector("#answer").innerText.includes("Too oily") && document.querySelector("#answer").innerText.includes("Add powder")`)
	b.fits("correction")
}

// Without a script every question is asked by a button and answered by a page.
func TestWithoutScript(t *testing.T) {
	ctx := browser(t)
	p := start(t, t.TempDir())
	b := open(t, ctx, 360)
	if _, err := chromedp.Call(b.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	b.do(chromedp.Navigate(p.url + "/"))
	b.follow(`a[href="/pigments?for=mull"].task`)
	b.do(chromedp.SendKeys(chromedp.CSS("#q"), "prussian"))
	b.follow(`.search button`)
	b.follow(`.jar .pick`)
	text := run(b, chromedp.Text(chromedp.CSS("#answer")))
	if !strings.Contains(text, "40 ml of paint") {
		t.Fatalf("no card:\n%s", text)
	}
	b.fill("#amount", "3x40ml")
	b.do(chromedp.SetValue(chromedp.CSS(`select[name="amount.of"]`), "tubes"), chromedp.Click(chromedp.CSS(`input[value=stiff]`)))
	b.follow(`.ask button[type=submit]`)
	text = run(b, chromedp.Text(chromedp.CSS("#answer")))
	if !strings.Contains(text, "3 tubes of 40 ml") || !strings.Contains(text, "stiff in body") {
		t.Errorf("the button asked something else:\n%s", text)
	}
	b.fill("#amount", "many")
	b.follow(`.ask button[type=submit]`)
	if got := run(b, chromedp.Text(chromedp.CSS("#amount-error"))); !strings.Contains(got, "many") {
		t.Errorf("at the field stands %q", got)
	}
	if got := run(b, chromedp.Value(chromedp.CSS("#amount"))); got != "many" {
		t.Errorf("the field holds %q", got)
	}
	// A second pigment: the empty line is there.
	b.fill("#amount", "2x40ml")
	b.do(chromedp.SendKeys(chromedp.CSS("#pigments-2"), "zinc-white"))
	b.follow(`.ask button[type=submit]`)
	if got := run(b, chromedp.Text(chromedp.CSS("#answer"))); !strings.Contains(got, "Prussian blue (PB27) + Zinc white") {
		t.Errorf("no mixture:\n%.300s", got)
	}
}

// The keyboard alone leads from the first page to the card and changes it.
func TestKeyboardAlone(t *testing.T) {
	ctx := browser(t)
	p := start(t, t.TempDir())
	b := open(t, ctx, 1100)
	b.do(chromedp.Navigate(p.url + "/"))
	tabTo := func(what, is string) {
		t.Helper()
		for range 80 {
			b.do(chromedp.KeyEvent(kb.Tab))
			if run(b, chromedp.Evaluate[bool](`(() => { const e = document.activeElement; return `+is+`; })()`)) {
				if run(b, chromedp.Evaluate[bool](`(() => { let e = document.activeElement; if (getComputedStyle(e).opacity === "0") e = e.nextElementSibling; return getComputedStyle(e).outlineStyle !== "none"; })()`)) == false {
					t.Errorf("%s: the focus is not seen", what)
				}
				return
			}
		}
		t.Fatalf("the tab key never comes to %s", what)
	}
	press := func(key string) {
		t.Helper()
		if _, err := chromedp.RunResponse(b.ctx, chromedp.KeyEvent(key)); err != nil {
			t.Fatal(err)
		}
	}
	b.do(chromedp.KeyEvent(kb.Tab))
	if got := b.eval(`document.activeElement.className`); got != "skip" {
		t.Errorf("the first stop is %q, want the link past the head", got)
	}
	tabTo("the mull", `e.matches('a.task[href="/pigments?for=mull"]')`)
	press(kb.Enter)
	tabTo("the search", `e.id === "q"`)
	b.do(chromedp.KeyEvent("ultramarine blue"))
	b.until("the picker narrows", `document.querySelectorAll(".jar").length <= 3`)
	tabTo("the jar", `e.matches(".jar .pick")`)
	press(kb.Enter)
	tabTo("the amount", `e.id === "amount"`)
	b.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(kb.ModifierCtrl)), chromedp.KeyEvent("25 ml"))
	b.until("the card", `document.querySelector("#answer").innerText.includes("25 ml of paint")`)
	tabTo("the body", `e.name === "body.is"`)
	b.do(chromedp.KeyEvent(kb.ArrowRight))
	b.until("stiff", `document.querySelector("#answer").innerText.includes("stiff in body")`)
	tabTo("the derivation", `e.name === "explain"`)
	b.do(chromedp.KeyEvent(" "))
	b.until("the derivation", `document.querySelector("#answer").innerText.includes("Derivation")`)
	tabTo("the button", `e.matches(".ask button[type=submit]")`)
	b.do(chromedp.KeyEvent(kb.Enter))
	b.until("the focus goes to the answer", `document.activeElement.id === "answer"`)
}

//go:embed testdata/axe/axe.min.js
var axe string

// audited are the pages that the accessibility audit looks at.
var audited = []string{
	"/", "/pigments", "/pigments?for=mull&family=blue", "/pigments/prussian-blue", "/media", "/media/linseed-oil", "/nothing",
	"/mull", "/mull?pigments=prussian-blue&paint-volume=40ml&body=buttery&explain=true", "/mull?pigments=prusian&paint-volume=40",
	"/correct?pigments=ultramarine-blue&pigment-mass=20g&oil-mass=14g", "/compare?family=blue&sort=oil", "/swatch?pigments=cobalt-yellow&tints=true&glazes=true",
	"/thin?pigments=ultramarine-blue&medium=glaze-medium&solvent=turpentine&parts=1:1:2&room=30m3",
	"/layers?layer-1.pigments=raw-umber&layer-1.wet-film=30um&layer-1.dried=7d&layer-2.pigments=ultramarine-blue&layer-2.wet-film=60um",
	"/watercolour?pigments=ultramarine-blue&pans=12xhalf", "/ink?pigments=lamp-black&bottle=30ml", "/recipe", "/yield", "/rubout?pigment=prussian-blue",
	"/book", "/book/add", "/book/stock", "/book/learn",
}

// Every page passes the audit of axe-core, fits a small screen, and has targets
// that a finger can hit.
func TestAccessible(t *testing.T) {
	ctx := browser(t)
	p := start(t, t.TempDir())
	b := open(t, ctx, 360)
	for _, path := range audited {
		b.do(chromedp.Navigate(p.url + path))
		b.eval(`for (const d of document.querySelectorAll("details")) d.open = true; ""`)
		b.fits(path)
		if small := b.eval(smallTargets); small != "" {
			t.Errorf("%s: too small for a finger: %s", path, small)
		}
		b.eval(axe + `; ""`)
		faults := run(b, chromedp.Evaluate[string](`axe.run(document, {resultTypes: ["violations"]}).then(r => r.violations.map(v => v.id + " (" + v.impact + "): " + v.nodes.slice(0, 3).map(n => n.target.join(" ") + " " + n.failureSummary.replace(/\s+/g, " ")).join(" | ")).join("\n"))`, chromedp.EvalAwaitPromise))
		if faults != "" {
			t.Errorf("%s:\n%s", path, faults)
		}
	}
}

// smallTargets lists what can be touched and is under 44 pixels high or 24 wide,
// but for links in running text.
const smallTargets = `[...document.querySelectorAll("a, button, input, select, textarea, summary, label.tick, label.step")].filter(e => {
	if (e.closest("p:not(.warn, .doors), li:not(.jar), small, dd, td, .credits") && e.tagName === "A" && !e.matches(".button, .task, nav a, .plain-list a")) return false;
	if (e.matches("label input, [type=hidden]") || e.matches(".skip")) return false;
	const r = e.getBoundingClientRect();
	return r.width > 0 && (r.height < 43.5 || r.width < 24);
}).slice(0, 5).map(e => e.outerHTML.slice(0, 90) + " " + Math.round(e.getBoundingClientRect().height)).join("; ")`

// On paper stand the card and nothing of the form.
func TestPaper(t *testing.T) {
	ctx := browser(t)
	p := start(t, t.TempDir())
	b := open(t, ctx, 1100)
	b.do(chromedp.Navigate(p.url + "/mull?pigments=prussian-blue&paint-volume=40ml&body=buttery"))
	pdf := run(b, chromedp.PrintToPDF())
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("no pdftotext is found, and CI needs one")
		}
		t.Skip("no pdftotext is found: what stands on paper is not read")
	}
	file := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	text := string(out)
	for _, want := range []string{"Prussian blue (PB27) in Linseed oil", "first pour", "batch", "Cautions", "Sources", "Church 1901"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on the paper", want)
		}
	}
	for _, bad := range []string{"Work it out", "Choose by looking", "command line", "From here"} {
		if strings.Contains(text, bad) {
			t.Errorf("%q is on the paper", bad)
		}
	}
	if n := strings.Count(text, "\f"); n < 1 || n > 3 {
		t.Errorf("%d sheets", n)
	}
}

// A batch is written from its card, once, and a killed and restarted program
// still has it; the next card rests on it.
func TestBookSurvives(t *testing.T) {
	ctx := browser(t)
	home := t.TempDir()
	p := start(t, home)
	b := open(t, ctx, 360)
	b.do(chromedp.Navigate(p.url + "/mull?pigments=prussian-blue&pigment-mass=60g&body=buttery"))
	b.follow(`.next a[href^="/book/add"]`)
	if got := b.eval(`document.querySelector("#pigments-1").value + " " + document.querySelector("#pigments-1").nextElementSibling.value`); got != "prussian-blue 60.0 g" {
		t.Errorf("the form begins with %q", got)
	}
	b.follow(`.write button[type=submit]`)
	if got := run(b, chromedp.Text(chromedp.CSS("#oil-error"))); !strings.Contains(got, "weight is missing") {
		t.Errorf("without the oil it says %q", got)
	}
	b.do(chromedp.SendKeys(chromedp.CSS("#oil-1 + .beside"), "48.3 g"), chromedp.Click(chromedp.CSS("input[value=buttery]")), chromedp.SendKeys(chromedp.CSS("#remark"), "<b>second mull stiffer</b>"))
	b.fits("the form of a batch")
	b.do(chromedp.Reload())
	if got := b.eval(`document.querySelector("#oil-1 + .beside").value + document.querySelector("#remark").value + document.querySelector("input[value=buttery]").checked`); got != "48.3 g<b>second mull stiffer</b>true" {
		t.Errorf("after a reload the form holds %q", got)
	}
	b.follow(`.write button[type=submit]`)
	page := b.eval(`document.querySelector("main").innerText`)
	if !strings.Contains(page, "48.3 g") || !strings.Contains(page, "<b>second mull stiffer</b>") {
		t.Errorf("the entry says\n%s", page)
	}
	b.do(chromedp.Reload())
	p.kill()
	files, err := filepath.Glob(filepath.Join(home, "mullwright", "batches", "*.toml"))
	if err != nil || len(files) != 1 {
		t.Fatalf("the book holds %v", files)
	}
	p = start(t, home)
	b.do(chromedp.Navigate(p.url + "/book"))
	b.follow(`td a`)
	if got := b.eval(`document.querySelector("main").innerText`); !strings.Contains(got, "48.3 g") {
		t.Errorf("after a restart the entry says\n%s", got)
	}
	b.do(chromedp.Navigate(p.url + "/mull?pigments=prussian-blue&pigment-mass=60g&body=buttery"))
	if got := b.answer(); !strings.Contains(got, "yours") && !strings.Contains(got, "your") {
		t.Errorf("the card does not rest on the book:\n%s", got)
	}
}

// The script breaks no rule of the content policy, and nothing is fetched from
// elsewhere.
func TestNothingFromElsewhere(t *testing.T) {
	ctx := browser(t)
	p := start(t, t.TempDir())
	b := open(t, ctx, 1100)
	var said []string
	if err := chromedp.Listen(b.ctx, func(ev any) {
		said = append(said, fmt.Sprintf("%T %+v", ev, ev))
	}); err != nil {
		t.Fatal(err)
	}
	for _, path := range audited {
		b.do(chromedp.Navigate(p.url + path))
		other := b.eval(`performance.getEntriesByType("resource").map(e => e.name).filter(n => !n.startsWith(location.origin)).join(" ")`)
		if other != "" {
			t.Errorf("%s fetches %s", path, other)
		}
	}
	for _, s := range said {
		if strings.Contains(s, "Content Security Policy") || strings.Contains(s, "ExceptionThrown") {
			t.Errorf("the browser complains: %.400s", s)
		}
	}
}

// The first byte comes soon after the start. It is measured, not judged: the
// machine may be busy.
func TestStart(t *testing.T) {
	for _, path := range []string{"/", "/mull?pigments=prussian-blue&paint-volume=40ml&body=buttery", "/pigments?for=mull"} {
		began := time.Now()
		p := start(t, t.TempDir())
		r, err := http.Get(p.url + path)
		if err != nil {
			t.Fatal(err)
		}
		r.Body.Close()
		if r.StatusCode != http.StatusOK {
			t.Errorf("%s: %d", path, r.StatusCode)
		}
		t.Logf("from start to the first byte of %s: %d ms", path, time.Since(began).Milliseconds())
		p.kill()
	}
}
