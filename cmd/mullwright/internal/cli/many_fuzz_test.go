package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"mullwright/cmd/mullwright/internal/render"
)

// Whatever stands in a table of mulls, the answer is sound CSV and sound JSON
// with one line for each row, the same for any number of jobs, and counts its
// failures.
func FuzzMany(f *testing.F) {
	for _, s := range []string{
		"pigments,pigment-mass,body\nprussian-blue,50 g,soft\nnothing,50 g,soft\n",
		"id,pigments,pigment-mass\n\"a\nb\",yellow-ochre;raw-umber=2,10 g\n\"open,yellow-ochre,10 g\n",
		"pigments\n\n\nprussian-blue\n", "\ufeffpigment,paint-mass\r\nchalk,1 kg\r\n", "pigments,pigments\n", "", "id\n", "pigments,tubes,fill\nzinc-white,3x40ml,0 %\n",
		"pigments,pigment-mass,wax\nchalk,1 g,beeswax=2%;beeswax=2%\nchalk,1 g\nchalk,1 g,a,b\n",
	} {
		f.Add(s)
	}
	w := workshop(f)
	f.Fuzz(func(t *testing.T, text string) {
		answer := func(jobs int, format render.Format) (string, int, error) {
			var out bytes.Buffer
			failed, err := many(&out, strings.NewReader(text), w, jobs, format)
			return out.String(), failed, err
		}
		out, failed, err := answer(1, render.CSV)
		if err != nil {
			if err.Error() == "" {
				t.Fatal("refused without a word")
			}
			return
		}
		if again, n, err := answer(3, render.CSV); again != out || n != failed || err != nil {
			t.Fatalf("%q: 3 jobs answer %q, %d, %v; 1 job %q, %d", text, again, n, err, out, failed)
		}
		rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
		if err != nil || len(rows) < 1 {
			t.Fatalf("%q: answer %q: %v", text, out, err)
		}
		faults := 0
		for _, r := range rows[1:] {
			if r[len(r)-1] != "" {
				faults++
			}
		}
		if faults != failed {
			t.Fatalf("%q: %d failed, %d rows say why: %q", text, failed, faults, out)
		}
		lines, _, err := answer(2, render.JSON)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		d := json.NewDecoder(strings.NewReader(lines))
		for {
			var v map[string]any
			if err := d.Decode(&v); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%q: %v in %q", text, err, lines)
			}
			n++
		}
		if n != len(rows)-1 {
			t.Fatalf("%q: %d rows in CSV, %d in JSON", text, len(rows)-1, n)
		}
	})
}
