package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/rheology"
	"mullwright/formulate/settling"
	"mullwright/formulate/trace"
)

// SettleRequest asks how a powder stirred into water falls: to wash it, to cut
// off its coarse grains, to see what a time leaves floating.
type SettleRequest struct {
	Name     string             // of the powder
	Material *material.Material // nil for a powder of the maker's own
	Density  evidence.Distribution[quantity.Density]
	// Of cut and time one is given, the other asked; neither asks for the table.
	Cut         quantity.ParticleSize
	Time        quantity.Duration
	Depth       quantity.Length       // poured off
	Powder      quantity.MassFraction // of the stirred mix
	Washes      int
	Temperature quantity.Celsius
	Sampling    Sampling
}

// SettleRow is one grain size of the table.
type SettleRow struct {
	Size     quantity.ParticleSize
	Speed    quantity.Speed // alone, typical
	Reynolds quantity.Ratio
	Time     evidence.Range[quantity.Duration] // to fall the depth, hindered
	Sieve    int                               // nearest ASTM number, 0: too fine for one
}

// WashRow is what washing does to grains finer than the cut.
type WashRow struct {
	Size   quantity.ParticleSize
	Poured quantity.MassFraction // of these grains with each pour
	Left   quantity.MassFraction // with the sediment after all washes
}

// SettleResult is the answer.
type SettleResult struct {
	Request SettleRequest
	Liquid  settling.Liquid
	Solids  quantity.VolumeFraction // of the stirred mix, typical
	Slowed  evidence.Range[quantity.Ratio]
	// The cut: a time for a size, or a size for a time.
	Time   evidence.Range[quantity.Duration]
	Size   evidence.Range[quantity.ParticleSize]
	Fall   settling.Fall
	Upflow evidence.Range[quantity.Speed] // that carries off all finer than the cut
	Sieve  *settling.Sieve                // nearest to the cut, nil: too fine
	Washes []WashRow
	Table  []SettleRow
	// Brownian is the size below which single grains never clear this depth.
	Brownian quantity.ParticleSize

	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// settleSizes are the grain sizes of the table, in µm.
var settleSizes = []quantity.ParticleSize{100, 63, 45, 20, 10, 5, 2, 1}

// A fallPoint is one draw of a powder in a liquid.
type fallPoint struct {
	density quantity.Density
	index   quantity.Ratio
	solids  quantity.VolumeFraction
	liquid  settling.Liquid
}

// Deviates of a fall: the powder's density and the index of hindered settling.
const fallInputs = 2

// hinderedIndex is the exponent of Richardson and Zaki over the draws.
func hinderedIndex(z float64) quantity.Ratio {
	r := settling.SlowIndex()
	spread := evidence.Reading[quantity.Ratio]{Low: r.Low, High: r.High}.LogSpread()
	return evidence.Distribution[quantity.Ratio]{Median: r.Typical, Sigma: spread}.At(z)
}

func (r *SettleRequest) at(z []float64, l settling.Liquid) fallPoint {
	p := fallPoint{density: r.Density.At(z[0]), index: hinderedIndex(z[1]), liquid: l}
	w := float64(r.Powder)
	solid, water := w/float64(p.density), (1-w)/float64(l.Density)
	p.solids = quantity.VolumeFraction(solid / (solid + water))
	return p
}

// speed is the fall of grains of a size among the others.
func (p fallPoint) speed(size quantity.ParticleSize) (quantity.Speed, error) {
	f, err := settling.Terminal(settling.Grain{Size: size, Density: p.density}, p.liquid)
	if err != nil {
		return 0, err
	}
	return settling.Hindered(f.Speed, p.solids, p.index)
}

func (p fallPoint) time(size quantity.ParticleSize, depth quantity.Length) (quantity.Duration, error) {
	v, err := p.speed(size)
	if err != nil {
		return 0, err
	}
	return settling.FallTime(depth, v)
}

// size is that of the grains that fall a depth in a time among the others.
func (p fallPoint) size(t quantity.Duration, depth quantity.Length) (quantity.ParticleSize, error) {
	cloud := quantity.Speed(float64(depth) / 100 / float64(t))
	alone, err := settling.Unhindered(cloud, p.solids, p.index)
	if err != nil {
		return 0, err
	}
	return settling.SizeAt(alone, p.density, p.liquid)
}

// Settle works out how a powder settles in water.
func Settle(req SettleRequest) (*SettleResult, error) {
	if err := req.check(); err != nil {
		return nil, err
	}
	res := &SettleResult{Request: req}
	var tr trace.Tracer
	var err error
	if res.Liquid, err = waterAt(req.Temperature, &tr); err != nil {
		return nil, err
	}
	typical := req.at(make([]float64, fallInputs), res.Liquid)
	res.Solids = typical.solids
	if typical.density <= res.Liquid.Density {
		return nil, refuse("%s of %.3g g/ml does not sink in water", req.Name, float64(typical.density))
	}

	// The cut at the typical values.
	size, wait := req.Cut, req.Time
	switch {
	case size > 0:
		if wait, err = typical.time(size, req.Depth); err != nil {
			return nil, err
		}
	case wait > 0:
		if size, err = typical.size(wait, req.Depth); err != nil {
			return nil, err
		}
	default:
		size = settleSizes[3] // 20 µm, for the washes; the table answers
		if wait, err = typical.time(size, req.Depth); err != nil {
			return nil, err
		}
	}
	if res.Fall, err = settling.Terminal(settling.Grain{Size: size, Density: typical.density}, res.Liquid); err != nil {
		return nil, err
	}
	tr.Note(settling.TerminalRelation, req.Name, trace.T("v", res.Fall.Speed, "m/s"), trace.T("d", size, "µm"), trace.T("ρp", typical.density, "g/ml"), trace.T("ρ", res.Liquid.Density, "g/ml"), trace.T("µ", res.Liquid.Viscosity, "mPa·s"))
	hindered, err := settling.Hindered(res.Fall.Speed, typical.solids, typical.index)
	if err != nil {
		return nil, err
	}
	tr.Note(settling.HinderedRelation, req.Name, trace.T("vh", hindered, "m/s"), trace.T("v", res.Fall.Speed, "m/s"), trace.T("φ", typical.solids, ""), trace.T("n", typical.index, ""))
	tr.Note(settling.CutTimeRelation, req.Name, trace.T("t", wait, "s"), trace.T("h", req.Depth, "cm"), trace.T("v", hindered, "m/s"))

	if err := res.draw(size, wait); err != nil {
		return nil, err
	}
	if s, err := settling.NearestSieve(size); err == nil {
		res.Sieve = &s
	}
	if res.Washes, err = washes(typical, size, wait, req.Depth, req.Washes); err != nil {
		return nil, err
	}
	if res.Brownian, err = settling.BrownianLimit(req.Depth, typical.density, res.Liquid.Density, req.Temperature); err != nil {
		return nil, err
	}
	if req.Material != nil {
		res.Cautions = Cautions(DryPowder|InWater, req.Material)
	} else {
		res.Cautions = append(Cautions(DryPowder), Caution{About: "found earth", Text: "A found earth has no data sheet: it may hold quartz, arsenic or manganese. Keep it wet, mask and gloves, away from food.", Source: "common practice"})
	}
	res.Warnings = res.warnings(wait)
	res.Steps = tr.Steps()
	return res, nil
}

// waterAt is water at a temperature.
func waterAt(t quantity.Celsius, tr *trace.Tracer) (settling.Liquid, error) {
	d, err := rheology.WaterDensity(t)
	if err != nil {
		return settling.Liquid{}, err
	}
	v, err := rheology.WaterViscosity(t)
	if err != nil {
		return settling.Liquid{}, err
	}
	tr.Note(rheology.WaterDensityRelation, "water", trace.T("ρ", d, "g/ml"), trace.T("t", t, "°C"))
	tr.Note(rheology.WaterViscosityRelation, "water", trace.T("µ", v, "mPa·s"), trace.T("t", t, "°C"))
	return settling.Liquid{Density: d, Viscosity: v}, nil
}

// draw gives the cut and the table as ranges.
func (res *SettleResult) draw(size quantity.ParticleSize, wait quantity.Duration) error {
	req := &res.Request
	const timeCol, sizeCol, upCol, slowCol, table = 0, 1, 2, 3, 4
	columns := req.Sampling.run(fallInputs, table+len(settleSizes), func() func(z, out []float64) {
		return func(z, out []float64) {
			p := req.at(z, res.Liquid)
			t, err1 := p.time(size, req.Depth)
			d, err2 := p.size(wait, req.Depth)
			f, err3 := settling.Terminal(settling.Grain{Size: size, Density: p.density}, p.liquid)
			slow, err4 := settling.Hindered(1, p.solids, p.index)
			out[timeCol], out[sizeCol], out[upCol], out[slowCol] = float64(t), float64(d), float64(f.Speed), float64(slow)
			if errors.Join(err1, err2, err3, err4) != nil {
				out[timeCol] = math.NaN()
			}
			for i, s := range settleSizes {
				t, err := p.time(s, req.Depth)
				if err != nil {
					t = quantity.Duration(math.NaN())
				}
				out[table+i] = float64(t)
			}
		}
	})
	for _, c := range columns {
		for _, v := range c {
			if math.IsNaN(v) {
				return errors.New("some draws of its density do not sink in water, or fall too fast to reckon; give --density or a finer cut")
			}
		}
	}
	res.Time = rangeOf[quantity.Duration](columns[timeCol])
	res.Size = rangeOf[quantity.ParticleSize](columns[sizeCol])
	res.Upflow = rangeOf[quantity.Speed](columns[upCol])
	res.Slowed = rangeOf[quantity.Ratio](columns[slowCol])
	switch {
	case req.Cut > 0:
		res.Size = evidence.Exactly(size)
	case req.Time > 0:
		res.Time = evidence.Exactly(wait)
	}
	typical := req.at(make([]float64, fallInputs), res.Liquid)
	for i, s := range settleSizes {
		f, err := settling.Terminal(settling.Grain{Size: s, Density: typical.density}, res.Liquid)
		if err != nil {
			return err
		}
		row := SettleRow{Size: s, Speed: f.Speed, Reynolds: f.Reynolds, Time: rangeOf[quantity.Duration](columns[table+i])}
		if sieve, err := settling.NearestSieve(s); err == nil {
			row.Sieve = sieve.Number
		}
		res.Table = append(res.Table, row)
	}
	return nil
}

// washes says what repeated washes at a cut carry off of finer grains.
func washes(p fallPoint, cut quantity.ParticleSize, wait quantity.Duration, depth quantity.Length, n int) ([]WashRow, error) {
	var out []WashRow
	for _, part := range []quantity.ParticleSize{0.75, 0.5, 0.25} {
		v, err := p.speed(cut * part)
		if err != nil {
			return nil, err
		}
		poured, err := settling.DecantedShare(v, wait, depth)
		if err != nil {
			return nil, err
		}
		left, err := settling.StaysBehind(poured, n)
		if err != nil {
			return nil, err
		}
		out = append(out, WashRow{Size: cut * part, Poured: poured, Left: left})
	}
	return out, nil
}

// Longest waits over which a jar stays still enough: common practice.
const (
	stillJar      = 6 * quantity.Hour
	thickMix      = 0.05 // by volume, above which coarse drags fine
	finestByWater = 2    // µm, below which clay-like powder clots or stays up
)

func (res *SettleResult) warnings(wait quantity.Duration) []string {
	out := []string{
		"the times are for single round grains: plates and needles fall slower, clots faster. If the water clears with a sharp edge the powder has clotted: a drop of detergent or a pinch of washing soda parts clay (not iron blue or other alkali-sensitive pigment)",
	}
	if !res.Fall.Creeping() {
		out = append(out, say("grains this large fall too fast for Stokes' law (Re %.2g): the drag curve was used", float64(res.Fall.Reynolds)))
	}
	if wait > stillJar {
		out = append(out, "over so long a wait warmth stirs the jar: keep it cool, even and still, and take the size as a guide")
	}
	if res.Solids > thickMix {
		out = append(out, fmt.Sprintf("solids are %.0f %% of the volume: coarse grains drag fine ones down; stir in more water", 100*float64(res.Solids)))
	}
	if res.Size.Typical < finestByWater {
		out = append(out, fmt.Sprintf("grains under about %d µm clot or are kept up by their charge rather than by size: try it in a test tube first", finestByWater))
	}
	return out
}

func (r *SettleRequest) check() error {
	switch {
	case !r.Density.Known():
		return fmt.Errorf("%s: no density is known; give one", r.Name)
	case negative(r.Cut) || negative(r.Time):
		return errors.New("a grain size and a time are above nothing")
	case r.Cut > 0 && r.Time > 0:
		return errors.New("a grain size and a time are given together; give one, the other is worked out")
	case !(r.Depth > 0 && r.Depth <= 1000):
		return errors.New("the depth poured off is above nothing and up to 10 m")
	case !(r.Powder > 0 && r.Powder <= 0.5):
		return errors.New("powder is above 0 and up to 50 % of the stirred mix by mass")
	case r.Washes < 1 || r.Washes > 100:
		return errors.New("washes are counted from 1 to 100")
	}
	return nil
}
