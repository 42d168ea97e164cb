package page

import (
	"crypto/rand"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"strings"
)

// Hosts are the names by which the page may be called. A browser sends the name
// that its address bar shows, so a site that makes its own name point at this
// machine gives itself away.
type Hosts struct {
	call  string // host and port to call it by
	port  string
	local bool // only this machine
	names map[string]bool
}

// HostsOf lists the names that belong to an address the page listens on: on a
// loopback address the loopback addresses and localhost; otherwise any plain
// address, which no other site can claim, and the machine's own name.
func HostsOf(a net.Addr) Hosts {
	h := Hosts{names: map[string]bool{"localhost": true}}
	ap, err := netip.ParseAddrPort(a.String())
	if err != nil {
		return h
	}
	h.port = fmt.Sprint(ap.Port())
	h.local = ap.Addr().Unmap().IsLoopback()
	h.call = ap.String()
	if ap.Addr().IsUnspecified() {
		h.call = net.JoinHostPort("localhost", h.port)
	}
	if h.local {
		return h
	}
	if name, err := os.Hostname(); err == nil && name != "" {
		name = strings.ToLower(name)
		h.names[name] = true
		if !strings.Contains(name, ".") {
			h.names[name+".local"] = true
		}
	}
	return h
}

// Call is the host and port to call the page by from this machine.
func (h Hosts) Call() string { return h.call }

// Local reports whether only this machine can reach the page.
func (h Hosts) Local() bool { return h.local }

// allow reports whether a Host header may be answered.
func (h Hosts) allow(host string) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		name, port = strings.Trim(host, "[]"), "80"
	}
	if port != h.port {
		return false
	}
	if a, err := netip.ParseAddr(name); err == nil {
		return !h.local || a.Unmap().IsLoopback()
	}
	return h.names[strings.ToLower(name)]
}

// contentPolicy lets a page load what this program embeds and nothing else: no
// script or style in the page itself, no other site, no frame round it.
const contentPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guard stands before every page.
func (b *Bench) guard(hosts Hosts, next http.Handler) http.Handler {
	timed := http.TimeoutHandler(b.caught(next), answerTime, "this took too long and was given up; nothing was changed\n")
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Content-Security-Policy", contentPolicy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "same-origin")
		head.Set("Cross-Origin-Opener-Policy", "same-origin")
		head.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !hosts.allow(r.Host):
			http.Error(w, "this page does not answer to that name; call it by the address it printed when it started", http.StatusMisdirectedRequest)
		case !sameOrigin(r):
			http.Error(w, "this page answers only to itself", http.StatusForbidden)
		case r.Method != http.MethodGet && r.Method != http.MethodHead && r.Method != http.MethodPost:
			head.Set("Allow", "GET, HEAD, POST")
			http.Error(w, "accepted: GET, HEAD, POST", http.StatusMethodNotAllowed)
		case len(r.URL.RawQuery) > longestAddress:
			http.Error(w, fmt.Sprintf("the address is longer than %d characters", longestAddress), http.StatusRequestURITooLong)
		case malformed(r):
			http.Error(w, "the address cannot be read: a % is not followed by two hexadecimal digits, or a ; stands in it", http.StatusBadRequest)
		default:
			r.Body = http.MaxBytesReader(w, r.Body, largestForm)
			timed.ServeHTTP(w, r)
		}
	})
}

// sameOrigin refuses a request that another site's page makes. Whoever follows
// a link from elsewhere, or types the address, is let in to look.
func sameOrigin(r *http.Request) bool {
	look := r.Method == http.MethodGet || r.Method == http.MethodHead
	switch r.Header.Get("Sec-Fetch-Site") {
	case "cross-site", "same-site":
		if !look || r.Header.Get("Sec-Fetch-Mode") != "navigate" || r.Header.Get("Sec-Fetch-Dest") != "document" {
			return false
		}
	}
	origin := r.Header.Get("Origin")
	if origin == "" {
		return true
	}
	u, err := url.Parse(origin)
	return err == nil && u.Scheme == "http" && u.Host == r.Host
}

func malformed(r *http.Request) bool {
	_, err := url.ParseQuery(r.URL.RawQuery)
	return err != nil
}

// caught turns a fault of the program into a page instead of a dead connection.
func (b *Bench) caught(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if fault := recover(); fault != nil {
				if fault == http.ErrAbortHandler {
					panic(fault)
				}
				b.oops(w, http.StatusInternalServerError, "Something is wrong with the program: this could not be worked out. Nothing was changed; go back and try other figures.")
			}
		}()
		next.ServeHTTP(w, r)
	})
}

func newToken() string { return rand.Text() }
