package refit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Use says what a row of the table is used for.
type Use string

const (
	Fit    Use = "yes"    // fitted and, at tube colour, judged
	NoOil  Use = "no-oil" // serves only what needs no oil absorption
	Unused Use = "no"     // kept, and not used
)

// A Row is one published figure.
type Row struct {
	Pigment     string
	Family      string
	Density     quantity.Density          // 0: not known
	Oil         quantity.AbsorptionVolume // 0: not known
	Demand      quantity.Absorption       // geometric middle of what is printed
	Consistency material.Consistency
	Authority   string
	Source      string
	Locator     string
	Use         Use
	Reason      string // why not used
}

const header = "pigment\tfamily\tdensity\tdensity_sources\toil_ml\toil_low\toil_high\toil_method\toil_sources\t" +
	"demand_low\tdemand_high\tconsistency\tauthority\tsource\tlocator\tincluded\treason"

// Parse reads the table of published demands.
func Parse(table string) ([]Row, error) {
	var rows []Row
	seen := false
	for i, line := range strings.Split(table, "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if !seen {
			if line != header {
				return nil, fmt.Errorf("line %d: header is %q, want %q", i+1, line, header)
			}
			seen = true
			continue
		}
		row, err := parseRow(strings.Split(line, "\t"))
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		rows = append(rows, row)
	}
	return rows, nil
}

func parseRow(f []string) (Row, error) {
	if want := strings.Count(header, "\t") + 1; len(f) != want {
		return Row{}, fmt.Errorf("%d columns, want %d", len(f), want)
	}
	var bad error
	number := func(column int, optional bool) float64 {
		if optional && f[column] == "" {
			return 0
		}
		v, err := strconv.ParseFloat(f[column], 64)
		if err != nil || !(v > 0) || math.IsInf(v, 0) {
			bad = fmt.Errorf("column %d: %q is not a positive number", column+1, f[column])
		}
		return v
	}
	r := Row{
		Pigment: f[0], Family: f[1],
		Density: quantity.Density(number(2, true)), Oil: quantity.AbsorptionVolume(number(4, true)),
		Demand:      quantity.Absorption(math.Sqrt(number(9, false) * number(10, false))),
		Consistency: material.Consistency(f[11]), Authority: f[12], Source: f[13], Locator: f[14],
		Use: Use(f[15]), Reason: f[16],
	}
	switch {
	case bad != nil:
		return Row{}, bad
	case r.Consistency != material.TubeColour && r.Consistency != material.GroundPaste && r.Consistency != material.BrushReady:
		return Row{}, fmt.Errorf("consistency %q is not known", f[11])
	case r.Use != Fit && r.Use != NoOil && r.Use != Unused:
		return Row{}, fmt.Errorf("included %q: want yes, no-oil or no", f[15])
	case r.Use == Fit && (r.Density == 0 || r.Oil == 0):
		return Row{}, fmt.Errorf("%s is included without a density and an oil absorption", r.Pigment)
	case r.Use != Fit && r.Reason == "":
		return Row{}, fmt.Errorf("%s is left out without a reason", r.Pigment)
	case r.Authority == "" || r.Source == "":
		return Row{}, fmt.Errorf("%s: authority or source missing", r.Pigment)
	}
	return r, nil
}

// A cell is what one authority says of one pigment at one consistency: the
// mean over its rows, ln g per 100 g.
type cell struct {
	Row
	ln, n float64
}

// y is ln of the oil volume per pigment volume.
func (c *cell) y() float64 {
	return c.ln + math.Log(float64(c.Density)/100/float64(quantity.ReportingOilDensity))
}

// colourless reports whether the pigment is a white or an extender.
func (c *cell) colourless() bool { return c.Family == "white" || c.Family == "extender" }

// ground is 1 for a ground paste.
func (c *cell) ground() float64 { return indicator(c.Consistency == material.GroundPaste) }

// lnRubOut is ln of the oil volume per pigment volume at the rub-out.
func (c *cell) lnRubOut() float64 { return math.Log(float64(c.Oil) * float64(c.Density) / 100) }

// cells merges the rows that pass, in the table's order.
func cells(rows []Row, pass func(Row) bool) []cell {
	type key struct {
		pigment, authority string
		consistency        material.Consistency
	}
	index := map[key]int{}
	var out []cell
	for _, r := range rows {
		if !pass(r) {
			continue
		}
		k := key{r.Pigment, r.Authority, r.Consistency}
		i, ok := index[k]
		if !ok {
			i = len(out)
			index[k] = i
			out = append(out, cell{Row: r})
		}
		c := &out[i]
		c.n++
		c.ln += (math.Log(float64(r.Demand)) - c.ln) / c.n
	}
	return out
}

// byPigment groups cells of the same pigment, in the order first met.
func byPigment(all []cell) [][]cell {
	index := map[string]int{}
	var out [][]cell
	for _, c := range all {
		i, ok := index[c.Pigment]
		if !ok {
			i = len(out)
			index[c.Pigment] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], c)
	}
	return out
}
