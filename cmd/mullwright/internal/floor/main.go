//go:build unix

// Floor times whole runs of mullwright beside the floors they stand on: an empty
// cobra program, a program that decodes both catalogues, and plain awk and
// Python scripts that do the arithmetic of 100,000 formulas. It prints medians;
// compare ratios, not milliseconds, from one machine to another.
//
//	go run ./cmd/mullwright/internal/floor
package main

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"syscall"
	"time"
)

const awkScript = `NR>1{split($2,a," ");m=a[1];o=m*.43;vp=m/2.34;vo=o/.93;p=vp/(vp+vo);printf "%s,%g,%g,%g,%g,%g\n",$1,o,vp+vo,p,p/.55,(m+o)/(vp+vo)}`

const pythonScript = `
import csv, sys
r = csv.reader(open(sys.argv[1])); next(r)
w = csv.writer(sys.stdout)
for pigment, mass, body in r:
    m = float(mass.split()[0]); o = m*.43; vp = m/2.34; vo = o/.93; p = vp/(vp+vo)
    w.writerow([pigment, o, vp+vo, p, p/.55, (m+o)/(vp+vo)])
`

func main() {
	if err := run(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "floor:", err)
		os.Exit(1)
	}
}

func run(out io.Writer) error {
	dir, err := os.MkdirTemp("", "floor")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	bin := map[string]string{}
	for name, pkg := range map[string]string{
		"mullwright": "mullwright/cmd/mullwright",
		"empty":      "mullwright/cmd/mullwright/internal/floor/empty",
		"catalogue":  "mullwright/cmd/mullwright/internal/floor/catalogue",
	} {
		bin[name] = filepath.Join(dir, name)
		c := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", bin[name], pkg)
		c.Env, c.Stderr = append(os.Environ(), "CGO_ENABLED=0"), os.Stderr
		if err := c.Run(); err != nil {
			return fmt.Errorf("build %s: %w", pkg, err)
		}
	}
	table, script := filepath.Join(dir, "rows.csv"), filepath.Join(dir, "rows.py")
	if err := os.WriteFile(table, rows(100000), 0o644); err != nil {
		return err
	}
	if err := os.WriteFile(script, []byte(pythonScript), 0o644); err != nil {
		return err
	}
	fmt.Fprintf(out, "%-46s %10s %10s\n", "whole process, median", "ms", "peak MB")
	for _, r := range []struct {
		what string
		n    int
		args []string
	}{
		{"empty cobra program, --help", 41, []string{bin["empty"], "--help"}},
		{"mullwright --help", 41, []string{bin["mullwright"], "--help"}},
		{"both catalogues decoded, one table", 21, []string{bin["catalogue"]}},
		{"mullwright mull, the card", 41, []string{bin["mullwright"], "mull", "prussian-blue", "--tubes", "3x40ml"}},
		{"mullwright many, 100,000 rows", 9, []string{bin["mullwright"], "many", table}},
		{"the same rows in mawk, no catalogue", 9, []string{"mawk", "-F,", awkScript, table}},
		{"the same rows in Python, no catalogue", 5, []string{"python3", script, table}},
	} {
		if _, err := exec.LookPath(r.args[0]); err != nil {
			fmt.Fprintf(out, "%-46s %10s\n", r.what, "not here")
			continue
		}
		ms, mb, err := measure(r.n, r.args)
		if err != nil {
			return fmt.Errorf("%s: %w", r.what, err)
		}
		fmt.Fprintf(out, "%-46s %10.1f %10.1f\n", r.what, ms, mb)
	}
	info, err := os.Stat(bin["mullwright"])
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%-46s %10.1f MB\n", "stripped program", float64(info.Size())/1e6)
	return nil
}

// measure runs a program n times and returns the median time and peak memory.
func measure(n int, args []string) (ms, mb float64, err error) {
	var times, peaks []float64
	for range n {
		c := exec.Command(args[0], args[1:]...)
		c.Stdout = io.Discard
		var stderr bytes.Buffer
		c.Stderr = &stderr
		start := time.Now()
		if err := c.Run(); err != nil {
			return 0, 0, fmt.Errorf("%w: %s", err, stderr.String())
		}
		times = append(times, float64(time.Since(start))/1e6)
		if use, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
			peaks = append(peaks, float64(use.Maxrss)/1024)
		}
	}
	slices.Sort(times)
	slices.Sort(peaks)
	return times[n/2], peaks[n/2], nil
}

func rows(n int) []byte {
	r := rand.New(rand.NewPCG(1, 2))
	ids := []string{"prussian-blue", "ultramarine-blue", "yellow-ochre", "raw-umber", "viridian", "lead-white", "zinc-white", "cadmium-red"}
	bodies := []string{"stiff", "buttery", "soft", "flowing"}
	var b bytes.Buffer
	b.WriteString("pigments,pigment-mass,body\n")
	for range n {
		fmt.Fprintf(&b, "%s,%.2f g,%s\n", ids[r.IntN(len(ids))], 5+495*r.Float64(), bodies[r.IntN(len(bodies))])
	}
	return b.Bytes()
}
