package cli

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
)

// manyRows invents n rows of mulls.
func manyRows(n int) []byte {
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

func workshop(t testing.TB) *ask.Workshop {
	w, err := ask.Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Rows come out in the order they went in, the same for any number of jobs.
func TestManyKeepsOrder(t *testing.T) {
	in := manyRows(30000)
	w := workshop(t)
	var want bytes.Buffer
	if _, err := many(&want, bytes.NewReader(in), w, 1, render.CSV); err != nil {
		t.Fatal(err)
	}
	for _, jobs := range []int{2, 7} {
		var got bytes.Buffer
		if _, err := many(&got, bytes.NewReader(in), w, jobs, render.CSV); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got.Bytes(), want.Bytes()) {
			t.Errorf("%d jobs and 1 job answer differently", jobs)
		}
	}
	lines := strings.Split(strings.TrimSpace(want.String()), "\n")
	for i, l := range lines[1:] {
		if !strings.HasPrefix(l, strconv.Itoa(i+2)+",") {
			t.Fatalf("answer %d is %q", i+1, l)
		}
	}
}

// Quoted cells may hold line ends and commas; a row with an open quote is named.
func TestManyQuotes(t *testing.T) {
	in := "id,pigments,pigment-mass\n\"two\nlines, and a \"\"quote\"\"\",yellow-ochre,10 g\nnext,yellow-ochre,10 g\n"
	var out bytes.Buffer
	failed, err := many(&out, strings.NewReader(in), workshop(t), 2, render.CSV)
	if err != nil || failed != 0 {
		t.Fatal(failed, err, out.String())
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) != 3 || rows[1][1] != "two\nlines, and a \"quote\"" || rows[2][0] != "4" {
		t.Errorf("rows %q, %v", rows, err)
	}
}

// endless is a table that never fits in memory.
type endless struct {
	row  []byte
	left int
}

func (e *endless) Read(p []byte) (int, error) {
	if e.left <= 0 {
		return 0, io.EOF
	}
	n := copy(p, e.row)
	e.left -= n
	return n, nil
}

// An output that fails stops the work instead of running on.
func TestManyStopsOnFailure(t *testing.T) {
	in := io.MultiReader(strings.NewReader("pigments,pigment-mass\n"), &endless{[]byte("yellow-ochre,10 g\n"), 1 << 30})
	if _, err := many(failing{}, in, workshop(t), 2, render.CSV); err == nil {
		t.Error("a full disk went unnoticed")
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

const benchRows = 100000

func BenchmarkMany(b *testing.B) {
	in := manyRows(benchRows)
	w := workshop(b)
	b.SetBytes(int64(len(in)))
	for b.Loop() {
		if _, err := many(io.Discard, bytes.NewReader(in), w, 2, render.CSV); err != nil {
			b.Fatal(err)
		}
	}
}

// The floor: the same rows through a bare loop of encoding/csv, one sum a row,
// five columns out.
func BenchmarkManyFloor(b *testing.B) {
	in := manyRows(benchRows)
	b.SetBytes(int64(len(in)))
	for b.Loop() {
		r := csv.NewReader(bytes.NewReader(in))
		r.ReuseRecord = true
		r.Read()
		var out []byte
		for {
			rec, err := r.Read()
			if err != nil {
				break
			}
			m, _ := strconv.ParseFloat(strings.TrimSuffix(rec[1], " g"), 64)
			oil := m * 43 / 100
			vp, vo := m/2.34, oil/0.93
			pvc := vp / (vp + vo)
			for _, v := range []float64{oil, vp + vo, pvc, pvc / 0.55, (m + oil) / (vp + vo)} {
				out = strconv.AppendFloat(out, v, 'g', -1, 64)
				out = append(out, ',')
			}
			out = append(out, '\n')
			if len(out) > 1<<16 {
				io.Discard.Write(out)
				out = out[:0]
			}
		}
	}
}
