package page_test

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// The load that the page is made for.
const (
	loadRate = 200   // mulls a second, no two alike
	mostLoad = 12000 // at most a minute of it
)

// BenchmarkLoad asks a running page for full mulls, drawn ranges and dial
// included, 200 a second whether or not the earlier ones are answered, and
// reports how long an answer takes from the moment it was due, the processor
// time that one costs the program, and its memory. It keeps to this machine,
// whose other work counts: p99 says something only where there is none. A
// minute of it:
//
//	go test -run xxx -bench Load -benchtime 12000x ./cmd/mullwright/internal/page
func BenchmarkLoad(b *testing.B) {
	if b.N > mostLoad {
		b.Fatalf("%d mulls are more than a minute of load; ask for at most -benchtime %dx", b.N, mostLoad)
	}
	p := start(b, b.TempDir())
	transport := &http.Transport{MaxIdleConnsPerHost: 64}
	defer transport.CloseIdleConnections()
	client := &http.Client{Transport: transport, Timeout: 10 * time.Second}
	ask := func(i int) error {
		r, err := client.Get(fmt.Sprintf("%s/mull?pigments=%s&paint-volume=%d.%03dml&body=buttery&fragment=1", p.url, loadPigments[i%len(loadPigments)], 10+i%190, i%1000))
		if err != nil {
			return err
		}
		defer r.Body.Close()
		body, err := io.ReadAll(r.Body)
		if err != nil {
			return err
		}
		if r.StatusCode != http.StatusOK || !strings.Contains(string(body), "first pour") {
			return fmt.Errorf("answered %d with %d bytes", r.StatusCode, len(body))
		}
		return nil
	}
	for i := range loadPigments { // what is read once
		if err := ask(i); err != nil {
			b.Fatal(err)
		}
	}
	before, worked := p.memory(), p.worked()
	took := make([]time.Duration, b.N)
	faults := make([]error, b.N)
	var all sync.WaitGroup
	b.ResetTimer()
	began := time.Now()
	for i := range b.N {
		due := began.Add(time.Duration(i) * time.Second / loadRate)
		time.Sleep(time.Until(due))
		all.Go(func() {
			faults[i] = ask(i)
			took[i] = time.Since(due)
		})
	}
	all.Wait()
	b.StopTimer()
	for _, err := range faults {
		if err != nil {
			b.Fatal(err)
		}
	}
	slices.Sort(took)
	at := func(share float64) float64 {
		return float64(took[int(share*float64(len(took)-1))].Microseconds()) / 1000
	}
	b.ReportMetric(at(0.5), "p50-ms")
	b.ReportMetric(at(0.99), "p99-ms")
	b.ReportMetric(at(1), "max-ms")
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "mulls/s")
	if now := p.worked(); now > worked {
		b.ReportMetric(float64((now-worked).Milliseconds())/float64(b.N), "cpu-ms/mull")
	}
	if before > 0 {
		b.ReportMetric(before, "MB-before")
		b.ReportMetric(p.memory(), "MB-after")
	}
}

var loadPigments = []string{"prussian-blue", "ultramarine-blue", "yellow-ochre", "raw-umber", "lead-white", "zinc-white", "cobalt-blue", "viridian", "cadmium-red", "bone-black"}

// worked is the processor time the program has had, 0 where the system does not
// say.
func (p *program) worked() time.Duration {
	if runtime.GOOS != "linux" {
		return 0
	}
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", p.cmd.Process.Pid))
	if err != nil {
		return 0
	}
	fields := strings.Fields(string(text[strings.LastIndexByte(string(text), ')')+1:]))
	const user, system, tick = 11, 12, 10 * time.Millisecond // as proc(5) counts from the state on
	if len(fields) <= system {
		return 0
	}
	u, _ := strconv.Atoi(fields[user])
	s, _ := strconv.Atoi(fields[system])
	return time.Duration(u+s) * tick
}

// memory is the resident memory of the program in megabytes, 0 where the system
// does not say.
func (p *program) memory() float64 {
	if runtime.GOOS != "linux" {
		return 0
	}
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.cmd.Process.Pid))
	if err != nil {
		return 0
	}
	_, rest, _ := strings.Cut(string(text), "VmRSS:")
	fields := strings.Fields(rest)
	if len(fields) == 0 {
		return 0
	}
	kb, err := strconv.ParseFloat(fields[0], 64)
	if err != nil {
		return 0
	}
	return kb / 1024
}
