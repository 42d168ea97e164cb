package colour

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"sort"
	"strconv"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/optics"
)

//go:embed data/*.tsv
var files embed.FS

// Data is all that was measured of one pigment.
type Data struct {
	ID      string
	Paints  []Paint
	Films   []Film
	Powders []Powder
}

// Paint, Film and Powder are measurements with the record they come from.
type (
	Paint struct {
		optics.RelativePaint
		Record Record
	}
	Film struct {
		optics.ChartFilm
		Record Record
	}
	Powder struct {
		optics.Powder
		Record Record
	}
)

// A Record says where in which data set a measurement stands.
type Record struct {
	Source  string // key of an attribution
	Locator string
}

// WhiteID is the pigment whose paint lets the others down into tints.
const WhiteID = "titanium-white-rutile"

// Chart returns the grounds of the chart that Films were read over. How they
// were found stands in the package comment.
func Chart() optics.Chart {
	return optics.Chart{
		Grounds: []optics.Reflectance{0.027, 0.204, 0.491, 0.91},
		Rivals: [][]optics.Reflectance{
			{0, 0.206, 0.536, 1},
			{0.10, 0.256, 0.516, 0.91},
		},
		Noise: 0.0060,
	}
}

// paintSurface is the pair of Saunderson's correction that belongs to the K
// and S of the paints (Berns, 2016).
var paintSurface = optics.Surface{K1: 0.03, K2: 0.65}

// An Attribution is how a data set asks to be named.
type Attribution struct {
	material.Source
	Licence string
	Changes string // what was changed on the way here
}

// Line prints the attribution in one line, as it goes into a picture.
func (a Attribution) Line() string {
	s := a.Cite() + ". Licence: " + a.Licence
	if a.Changes != "" {
		s += ". Changed: " + a.Changes
	}
	return s
}

var attributions = []Attribution{
	{
		Source:  material.Source{Key: "berns-2016", Author: "Berns, R. S.", Title: "Artist Paint Spectral Database, IS&T Color and Imaging Conference 24", Year: "2016", Locator: "K and S of 19 paints, k1 0.03, k2 0.65"},
		Licence: "offered for download by its author; numbers read in a library copy under the MIT licence, copyright W. Acton",
	},
	{
		Source:  material.Source{Key: "deborah-2022", Author: "Deborah, H.", Title: "Hyperspectral Pigment Dataset, 12th WHISPERS workshop, pp. 1-5", Year: "2022", Locator: "library of averages, doi 10.5281/zenodo.5592485"},
		Licence: "CC BY 4.0, https://creativecommons.org/licenses/by/4.0/",
		Changes: "resampled to 10 nm from 410 to 700 nm, 223 of 398 patches kept, makers' names taken off",
	},
	{
		Source:  material.Source{Key: "usgs-splib07", Author: "Kokaly, R. F. and others", Title: "USGS Spectral Library Version 7, Data Series 1035", Year: "2017", Locator: "doi 10.3133/ds1035"},
		Licence: "public domain, data release marked CC0",
		Changes: "the version resampled to airborne channels, 383 to 789 nm",
	},
}

// Attributions returns every data set used, by key.
func Attributions() []Attribution { return append([]Attribution(nil), attributions...) }

// AttributionOf returns the data set of a record.
func AttributionOf(r Record) Attribution {
	for _, a := range attributions {
		if a.Key == r.Source {
			return a
		}
	}
	return Attribution{Source: material.Source{Key: r.Source}}
}

// IDs lists the pigments with measured colour, sorted.
func IDs() []string {
	entries, _ := files.ReadDir("data") // an embedded folder: always there
	var out []string
	for _, e := range entries {
		out = append(out, strings.TrimSuffix(e.Name(), ".tsv"))
	}
	return out
}

// Of returns what was measured of a pigment; ok is false where there is
// nothing. Only that pigment's file is read.
func Of(id string) (d Data, ok bool, err error) {
	text, err := files.ReadFile("data/" + id + ".tsv")
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrInvalid) {
		return Data{}, false, nil
	}
	if err != nil {
		return Data{}, false, err
	}
	d, err = parse(id, string(text))
	return d, err == nil, err
}

// White returns the paint that tints are made with.
func White() (Paint, error) {
	d, ok, err := Of(WhiteID)
	if err != nil {
		return Paint{}, err
	}
	if !ok || len(d.Paints) == 0 {
		return Paint{}, fmt.Errorf("no measured paint of %q to make tints with", WhiteID)
	}
	return d.Paints[0], nil
}

// A Hiding is the measured contrast of the pigment's first chart film.
type Hiding struct {
	ID       string
	Contrast optics.ContrastRatio
}

// HidingRank lists the pigments of the chart from the film that hides best.
// The films are the chart's own, of unknown and perhaps unlike thickness, so
// this ranks films and is no hiding power of a pigment. Ratios a little above 1
// are the noise of very dark films that hide: among those of 0.98 and more the
// order means nothing. Every file is read.
func HidingRank() ([]Hiding, error) {
	var out []Hiding
	for _, id := range IDs() {
		d, _, err := Of(id)
		if err != nil {
			return nil, err
		}
		if len(d.Films) == 0 {
			continue
		}
		cr, err := optics.FilmContrastMeasured(d.Films[0].ChartFilm)
		if err != nil {
			return nil, err
		}
		out = append(out, Hiding{id, cr})
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Contrast > out[j].Contrast })
	return out, nil
}

const columns = "kind\tsource\tlocator\tlabel\tat\tvalues"

// A row is one line of a data file: a series of values against wavelength.
type row struct {
	kind, source, locator, label string
	at                           []optics.Nanometre
	values                       []float64
}

func parse(id, text string) (Data, error) {
	d := Data{ID: id}
	name := id + ".tsv"
	for i, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		if i == 0 {
			if line != columns {
				return Data{}, fmt.Errorf("%s:1: header is %q, want %q", name, line, columns)
			}
			continue
		}
		r, err := parseRow(line)
		if err == nil {
			err = d.add(r)
		}
		if err != nil {
			return Data{}, fmt.Errorf("%s:%d: %w", name, i+1, err)
		}
	}
	return d, d.check()
}

func parseRow(line string) (row, error) {
	f := strings.Split(line, "\t")
	if len(f) != 6 {
		return row{}, fmt.Errorf("%d columns, want 6", len(f))
	}
	r := row{kind: f[0], source: f[1], locator: f[2], label: f[3]}
	for _, v := range strings.Fields(f[5]) {
		x, err := strconv.ParseFloat(v, 64)
		if err != nil {
			return row{}, fmt.Errorf("value %q: not a number", v)
		}
		r.values = append(r.values, x)
	}
	var err error
	r.at, err = parseGrid(f[4], len(r.values))
	return r, err
}

// parseGrid reads wavelengths: "410+10" for steps of 10 from 410 nm, or all of
// them.
func parseGrid(s string, n int) ([]optics.Nanometre, error) {
	at := make([]optics.Nanometre, 0, n)
	if first, step, even := strings.Cut(s, "+"); even {
		a, err1 := strconv.ParseFloat(first, 64)
		b, err2 := strconv.ParseFloat(step, 64)
		if err1 != nil || err2 != nil {
			return nil, fmt.Errorf("wavelengths %q: want first+step", s)
		}
		for i := range n {
			at = append(at, optics.Nanometre(a+float64(i)*b))
		}
		return at, nil
	}
	for _, v := range strings.Fields(s) {
		x, err := strconv.ParseFloat(v, 64)
		if err != nil {
			return nil, fmt.Errorf("wavelength %q: not a number", v)
		}
		at = append(at, optics.Nanometre(x))
	}
	if len(at) != n {
		return nil, fmt.Errorf("%d wavelengths for %d values", len(at), n)
	}
	return at, nil
}

// add files a row. A paint is two rows, K then S; a film is one row a shade,
// dark to light.
func (d *Data) add(r row) error {
	rec := Record{Source: r.source, Locator: r.locator}
	switch r.kind {
	case "paint-K":
		p := Paint{optics.RelativePaint{Label: r.label, At: r.at, Surface: paintSurface, Constants: make([]optics.Constants, len(r.values))}, rec}
		for i, v := range r.values {
			p.Constants[i].K = optics.Absorbing(v)
		}
		d.Paints = append(d.Paints, p)
	case "paint-S":
		n := len(d.Paints)
		if n == 0 || d.Paints[n-1].Record != rec || len(d.Paints[n-1].Constants) != len(r.values) {
			return fmt.Errorf("scattering of %q does not follow its absorption", r.locator)
		}
		for i, v := range r.values {
			d.Paints[n-1].Constants[i].S = optics.Scattering(v)
		}
	case "film":
		patch, shade, ok := strings.Cut(r.locator, " shade ")
		if !ok {
			return fmt.Errorf("locator %q: want patch and shade", r.locator)
		}
		rec.Locator = patch
		n := len(d.Films)
		if n == 0 || d.Films[n-1].Record != rec {
			d.Films = append(d.Films, Film{optics.ChartFilm{Label: r.label}, rec})
			n++
		}
		f := &d.Films[n-1]
		f.Over = append(f.Over, spectrum(r))
		if shade != strconv.Itoa(len(f.Over)) {
			return fmt.Errorf("shade %s of %q stands at place %d", shade, patch, len(f.Over))
		}
	case "powder":
		d.Powders = append(d.Powders, Powder{optics.Powder{Label: r.label, R: spectrum(r)}, rec})
	default:
		return fmt.Errorf("kind %q: want paint-K, paint-S, film or powder", r.kind)
	}
	return nil
}

func spectrum(r row) optics.Spectrum {
	s := optics.Spectrum{At: r.at, R: make([]optics.Reflectance, len(r.values))}
	for i, v := range r.values {
		s.R[i] = optics.Reflectance(v)
	}
	return s
}

func (d *Data) check() error {
	for _, p := range d.Paints {
		if err := p.Check(); err != nil {
			return err
		}
	}
	for _, f := range d.Films {
		if err := f.Check(Chart()); err != nil {
			return err
		}
	}
	for _, p := range d.Powders {
		if err := p.R.Check(); err != nil {
			return err
		}
	}
	return nil
}
