package cli

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// rasterise turns a document into images of its pages by another program.
func rasterise(t *testing.T, tool, file string) []image.Image {
	t.Helper()
	stem := strings.TrimSuffix(file, ".pdf")
	if out, err := exec.Command(tool, "-r", "72", "-png", file, stem).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v: %s", file, err, out)
	}
	names, err := filepath.Glob(stem + "-*.png")
	if err != nil {
		t.Fatal(err)
	}
	var pages []image.Image
	for _, n := range names {
		b, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(b))
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, img)
	}
	return pages
}

// printed is where a page has ink: how much of it, and the nearest to an edge
// in dots.
func printed(img image.Image) (share float64, nearest int) {
	b, n := img.Bounds(), 0
	nearest = b.Dx()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, g, bl, _ := img.At(x, y).RGBA(); r+g+bl < 3*0xc000 {
				n++
				nearest = min(nearest, x-b.Min.X, y-b.Min.Y, b.Max.X-1-x, b.Max.Y-1-y)
			}
		}
	}
	return float64(n) / float64(b.Dx()*b.Dy()), nearest
}

// Every card is one page of the paper asked for, written on and with nothing
// at the edge; labels take as many pages as they need.
func TestPaper(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftoppm is required in CI")
		}
		t.Skip("pdftoppm not found: cards and labels are not rasterised")
	}
	a4, letter := [2]float64{210, 297}, [2]float64{215.9, 279.4}
	crowded := "mull cadmium-red=2 orpiment=1 prussian-blue=3 chrome-yellow=2 --tubes 5x40ml --oil linseed-oil=3 --oil stand-oil=1 --wax beeswax=2% --extender chalk=10% --moisture 5% --slab 30x40cm --loss 7%"
	for _, tt := range []struct {
		name, args string
		page       [2]float64
		pages      int
	}{
		{"mull", "mull prussian-blue --tubes 3x40ml --batch PB-3", a4, 1},
		{"mull on letter", "mull prussian-blue --tubes 3x40ml --page Letter", letter, 1},
		{"mull by drops", "mull prussian-blue --pigment-mass 3g", a4, 1},
		{"mull exact", "mull prussian-blue --pigment-mass 3g --exact", a4, 1},
		{"crowded mull", crowded, a4, 1},
		{"crowded mull on letter", crowded + " --page Letter", letter, 1},
		{"watercolour", "watercolour ultramarine-blue yellow-ochre --pans 12xhalf --moisture 10%", a4, 1},
		{"ink", "ink lamp-black --bottle 30ml", a4, 1},
		{"fountain ink", "ink lamp-black --bottle 30ml --for fountain", a4, 1},
		{"printing ink", "ink carbon-black --bottle 50ml --for relief-print", a4, 1},
		{"labels", "label prussian-blue lead-white --each --binder linseed-oil --copies 4", a4, 1},
		{"many labels", "label prussian-blue lead-white --each --binder linseed-oil --copies 30", a4, 3},
		{"pan labels", "label prussian-blue --binder gum-arabic --on pan --copies 9 --page Letter", letter, 1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "page.pdf")
			var out, complaints bytes.Buffer
			args := append(strings.Fields(tt.args), "--out", file)
			if code := Main(args, Streams{Out: &out, Err: &complaints, Getenv: func(string) string { return "" }}); code != ExitOK {
				t.Fatalf("exit code %d: %s", code, complaints.String())
			}
			if want := fmt.Sprintf("wrote %s (", file); !strings.HasPrefix(complaints.String(), want) {
				t.Errorf("said %q, want it to begin with %q", complaints.String(), want)
			}
			pages := rasterise(t, tool, file)
			if len(pages) != tt.pages {
				t.Fatalf("%d pages, want %d", len(pages), tt.pages)
			}
			for i, img := range pages {
				const dots = 72 / 25.4
				if w, h := float64(img.Bounds().Dx()), float64(img.Bounds().Dy()); math.Abs(w-tt.page[0]*dots) > 1.5 || math.Abs(h-tt.page[1]*dots) > 1.5 {
					t.Errorf("page %d of %g by %g dots, want %v mm", i+1, w, h, tt.page)
				}
				share, nearest := printed(img)
				if share < 0.005 || share > 0.4 {
					t.Errorf("page %d: %.3f of it is printed", i+1, share)
				}
				if nearest < 8 { // 3 mm: nearer a printer cuts it off
					t.Errorf("page %d is printed up to %d dots from its edge", i+1, nearest)
				}
			}
		})
	}
}
