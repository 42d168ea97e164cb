package picture

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"testing"
)

var gallery = flag.String("gallery", "", "folder to write every sample picture to, for looking at")

// sample is one picture of invented data.
type sample struct {
	name string
	draw func(width float64) (*Drawing, error)
}

// The samples are invented: a botanical illustrator's small colour bench.
func samples() []sample {
	return []sample{
		{"dial", func(w float64) (*Drawing, error) { return Dial(sampleDial(w)) }},
	}
}

func sampleDial(w float64) DialData {
	v := DialData{
		Frame: Frame{
			Title: "Ultramarine blue in linseed oil, 50 g of pigment",
			Lead:  "Pour 14.5 g first, then 1.5 g at a time; most jars want 17 to 27 g for a buttery paste.",
			Notes: []string{"The pale bands hold 8 of 10 jars. Invented sample data."},
			Width: w,
		},
		OilName: "g of linseed oil poured", BodyName: "body: pigment by volume over its critical share",
		PVCName: "pigment by volume of the paste (PVC), %",
		Bands:   []Band{{"stiff", 1.15, 0.95}, {"buttery", 0.95, 0.8}, {"soft", 0.8, 0.68}, {"flowing", 0.68, 0.5}},
		Target:  0.87, TargetName: "asked for: buttery",
		First: 14.5, FirstName: "first pour 14.5 g", Totals: []float64{16, 17.5, 19, 20.5, 22, 23.5, 25, 26.5, 28},
		Most: 28, MostName: "at most 28 g",
		Needed: Span{17, 21.4, 27}, NeededName: "most likely 21.4 g",
		Limit: 36, LimitName: "past 36 g the 8 g in the jar cannot mend it",
		Critical: Span{52, 56, 60},
	}
	for oil := 6.0; oil <= 44; oil += 2 {
		phi := (50 / 2.35) / (50/2.35 + oil/0.93)
		v.Points = append(v.Points, DialPoint{Oil: oil, Body: Span{phi / 0.60, phi / 0.56, phi / 0.52}, PVC: Span{98 * phi, 100 * phi, 102 * phi}})
	}
	return v
}

func TestGallery(t *testing.T) {
	if *gallery == "" {
		t.Skip("pass -gallery FOLDER to write the sample pictures")
	}
	for _, s := range samples() {
		for suffix, width := range map[string]float64{"": DefaultWidth, "-phone": PhoneWidth} {
			d, err := s.draw(width)
			if err != nil {
				t.Fatal(s.name, err)
			}
			write(t, s.name+suffix+".png", func(f *os.File) error { return d.WritePNG(f, 96) })
			write(t, s.name+suffix+".svg", func(f *os.File) error { return d.WriteSVG(f) })
		}
	}
	_ = math.Pi
}

func write(t *testing.T, name string, f func(*os.File) error) {
	t.Helper()
	out, err := os.Create(filepath.Join(*gallery, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := f(out); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
}
