package page

import (
	"net/http"
	"net/http/httptest"
	"net/netip"
	"os"
	"strings"
	"testing"
)

func mustAddr(s string) netip.AddrPort { return netip.MustParseAddrPort(s) }

func TestHosts(t *testing.T) {
	name, err := os.Hostname()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		on, host string
		want     bool
	}{
		{"127.0.0.1:8040", "127.0.0.1:8040", true},
		{"127.0.0.1:8040", "localhost:8040", true},
		{"127.0.0.1:8040", "LocalHost:8040", true},
		{"127.0.0.1:8040", "[::1]:8040", true},
		{"127.0.0.1:8040", "127.0.0.1:8041", false},
		{"127.0.0.1:8040", "127.0.0.1", false},
		{"127.0.0.1:8040", "192.168.1.9:8040", false},
		{"127.0.0.1:8040", "evil.example:8040", false},
		{"127.0.0.1:8040", "localhost.evil.example:8040", false},
		{"127.0.0.1:8040", "127.0.0.1.evil.example:8040", false},
		{"127.0.0.1:8040", name + ":8040", false},
		{"127.0.0.1:8040", "", false},
		{"127.0.0.1:80", "localhost", true},
		{"0.0.0.0:8040", "192.168.1.9:8040", true},
		{"0.0.0.0:8040", "localhost:8040", true},
		{"0.0.0.0:8040", name + ":8040", true},
		{"0.0.0.0:8040", "evil.example:8040", false},
		{"[::]:8040", "[fe80::1]:8040", true},
		{"[::1]:8040", "[::1]:8040", true},
	} {
		if got := listening(c.on).allow(c.host); got != c.want {
			t.Errorf("on %s, called %q: %v, want %v", c.on, c.host, got, c.want)
		}
	}
	if listening("127.0.0.1:1").Local() != true || listening("0.0.0.0:1").Local() != false || listening("[::1]:1").Local() != true {
		t.Error("which addresses are this machine's own")
	}
	if got := listening("0.0.0.0:8040").Call(); got != "localhost:8040" {
		t.Errorf("call it %s", got)
	}
}

func TestGuard(t *testing.T) {
	h := newBench(t)
	for _, c := range []struct {
		name, method, path, host string
		head                     map[string]string
		want                     int
	}{
		{"plain", "GET", "/", testHost, nil, 200},
		{"head", "HEAD", "/", testHost, nil, 200},
		{"rebound name", "GET", "/", "evil.example:8040", nil, 421},
		{"own origin", "GET", "/", testHost, map[string]string{"Origin": "http://" + testHost}, 200},
		{"other origin", "GET", "/mull", testHost, map[string]string{"Origin": "http://evil.example"}, 403},
		{"other port's origin", "GET", "/mull", testHost, map[string]string{"Origin": "http://127.0.0.1:9999"}, 403},
		{"null origin", "POST", "/book/add", testHost, map[string]string{"Origin": "null"}, 403},
		{"fetched by another site", "GET", "/mull", testHost, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "script"}, 403},
		{"framed by another site", "GET", "/mull", testHost, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe"}, 403},
		{"link from another site", "GET", "/mull", testHost, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}, 200},
		{"form of another site", "POST", "/book/add", testHost, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}, 403},
		{"put", "PUT", "/mull", testHost, nil, 405},
		{"delete", "DELETE", "/", testHost, nil, 405},
		{"post where nothing is written", "POST", "/mull", testHost, nil, 405},
		{"endless address", "GET", "/mull?x=" + strings.Repeat("y", longestAddress), testHost, nil, 414},
		{"broken address", "GET", "/mull?pigments=%zz", testHost, nil, 400},
		{"semicolon", "GET", "/mull?a=1;b=2", testHost, nil, 400},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := httptest.NewRequest(c.method, "http://"+testHost+"/", nil)
			path, query, _ := strings.Cut(c.path, "?")
			r.URL.Path, r.URL.RawQuery, r.Host = path, query, c.host
			for k, v := range c.head {
				r.Header.Set(k, v)
			}
			w := httptest.NewRecorder()
			h.ServeHTTP(w, r)
			if w.Code != c.want {
				t.Errorf("%d, want %d: %.100s", w.Code, c.want, w.Body)
			}
			for k, want := range map[string]string{"Content-Security-Policy": contentPolicy, "X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin"} {
				if got := w.Header().Get(k); got != want {
					t.Errorf("%s: %q", k, got)
				}
			}
		})
	}
	if strings.Contains(contentPolicy, "unsafe") || !strings.Contains(contentPolicy, "default-src 'none'") {
		t.Errorf("the content policy is loose: %s", contentPolicy)
	}
}

// A fault of the program is a page, and the next question is answered.
func TestCaught(t *testing.T) {
	w := httptest.NewRecorder()
	b := benchOf(t)
	b.caught(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("boom") })).ServeHTTP(w, httptest.NewRequest("GET", "/", nil))
	if w.Code != http.StatusInternalServerError || !strings.Contains(w.Body.String(), "Nothing was changed") || strings.Contains(w.Body.String(), "boom") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

// Whatever a request holds, it is answered.
func FuzzRequest(f *testing.F) {
	b := benchOf(f)
	b.sampling.Exact = true
	h := b.Handler(listening(testHost))
	for path, query := range examples {
		f.Add("/"+path, query)
	}
	f.Add("/pigments", "q=%00&family=\xff&for=mull&with=%25")
	f.Add("/book/%2e%2e", "")
	f.Add("/mull/print.pdf", "pigments=prussian-blue&page=A4")
	f.Fuzz(func(t *testing.T, path, query string) {
		r := httptest.NewRequest(http.MethodGet, "http://"+testHost+"/", nil)
		r.URL.Path, r.URL.RawQuery = path, query
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code >= 500 {
			t.Errorf("%s?%s: %d %.300s", path, query, w.Code, w.Body)
		}
	})
}
