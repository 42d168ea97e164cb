package formulate

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

const secondOpinions = 10000

// mixer is the slow and obvious way to reckon a paint: a ledger in exact
// rational numbers, from the definitions alone.
type mixer struct{ pigment, pigmentMass, binder, binderMass, volatile, mass, demand *big.Rat }

func rat(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }

func newMixer(p Paint) mixer {
	m := mixer{rat(0), rat(0), rat(0), rat(0), rat(0), rat(0), rat(0)}
	for _, c := range p.Components {
		mass := rat(float64(c.Mass))
		volume := new(big.Rat).Quo(mass, rat(float64(c.Density)))
		m.mass.Add(m.mass, mass)
		switch c.Role {
		case Pigment, Extender:
			m.pigment.Add(m.pigment, volume)
			m.pigmentMass.Add(m.pigmentMass, mass)
			oil := new(big.Rat).Mul(mass, rat(float64(c.Absorption)))
			m.demand.Add(m.demand, oil.Quo(oil, rat(100)))
		case Binder:
			m.binderMass.Add(m.binderMass, mass)
			m.binder.Add(m.binder, volume)
		case Additive:
			m.binder.Add(m.binder, volume)
		case Volatile:
			m.volatile.Add(m.volatile, volume)
		}
	}
	return m
}

func shareOf(a *big.Rat, parts ...*big.Rat) float64 {
	sum := rat(0)
	for _, p := range parts {
		sum.Add(sum, p)
	}
	if sum.Sign() == 0 {
		return 0
	}
	v, _ := new(big.Rat).Quo(a, sum).Float64()
	return v
}

// Ten thousand random paints, reckoned both ways.
func TestSecondOpinionOnPaints(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range secondOpinions {
		var p Paint
		for i := range 1 + r.IntN(12) {
			c := Component{ID: string(rune('a' + i)), Role: Role(1 + r.IntN(5)), Mass: quantity.Mass(math.Exp(8*r.Float64() - 4)), Density: quantity.Density(0.6 + 8*r.Float64())}
			if c.Role == Pigment || c.Role == Extender {
				c.Absorption = quantity.AbsorptionVolume(5 + 150*r.Float64())
			}
			p.Components = append(p.Components, c)
		}
		f, m := p.Figures(), newMixer(p)
		for _, x := range []struct {
			what      string
			got, want float64
		}{
			{"PVC", float64(f.PVC()), shareOf(m.pigment, m.pigment, m.binder)},
			{"CPVC", float64(f.CPVC()), shareOf(m.pigment, m.pigment, m.demand)},
			{"pigment by volume", float64(f.WetPigment()), shareOf(m.pigment, m.pigment, m.binder, m.volatile)},
			{"density", float64(f.Density()), shareOf(m.mass, m.pigment, m.binder, m.volatile)},
			{"oil per 100 g", float64(f.OilPerPigment()), 100 * shareOf(m.binderMass, m.pigmentMass)},
			{"binder by mass", float64(f.BinderByMass()), shareOf(m.binderMass, m.mass)},
			{"dry binder", float64(f.DryBinderByVolume()), shareOf(m.binder, m.pigment, m.binder)},
		} {
			if math.Abs(x.got-x.want) > 1e-12*(1+math.Abs(x.want)) {
				t.Fatalf("%s of %+v: %v, the ledger says %v", x.what, p.Components, x.got, x.want)
			}
		}
	}
}

// The least powder that brings a paste to a PVC, as a linear programme: powder
// x, slack s, with (1−PVC)·(Vp + x/ρ) − PVC·Vb = s, least x. The mull's own
// inversion must agree.
func TestSecondOpinionByLinearProgramme(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 500 {
		rho, oil := 1.3+6*r.Float64(), 0.9+0.1*r.Float64()
		pigment, binder := 5+50*r.Float64(), 5+50*r.Float64()
		now := Paint{[]Component{{ID: "p", Role: Pigment, Mass: quantity.Mass(pigment), Density: quantity.Density(rho), Absorption: 30}, {ID: "o", Role: Binder, Mass: quantity.Mass(binder), Density: quantity.Density(oil)}}}
		want := float64(now.Figures().PVC()) + (0.95-float64(now.Figures().PVC()))*r.Float64()*0.8
		a := mat.NewDense(1, 2, []float64{(1 - want) / rho, -1})
		_, x, err := lp.Simplex([]float64{1, 0}, a, []float64{want*binder/oil - (1-want)*pigment/rho}, 1e-12, nil)
		if err != nil {
			t.Fatal(err)
		}
		now.Components[0].Mass += quantity.Mass(x[0])
		if got := float64(now.Figures().PVC()); math.Abs(got-want) > 1e-9 {
			t.Fatalf("the programme adds %v g and the PVC becomes %v, want %v", x[0], got, want)
		}
		back := absorption.DemandAtPVC(quantity.VolumeFraction(want), quantity.Density(rho))
		if need := binder / oil / float64(back) * 100; math.Abs(need-pigment-x[0]) > 1e-7*need {
			t.Fatalf("the programme ends with %v g of powder, the inversion with %v g", pigment+x[0], need)
		}
	}
}

// The draws' percentiles against a library's normal and its own quantile.
func TestSecondOpinionOnDraws(t *testing.T) {
	d := evidence.Distribution[quantity.AbsorptionVolume]{Median: 42, Sigma: 0.31}
	library := distuv.LogNormal{Mu: math.Log(42), Sigma: 0.31}
	columns := evidence.Run(20000, 3, 1, 9, func() func(z, out []float64) {
		return func(z, out []float64) { out[0] = float64(d.At(z[1])) }
	})
	sorted := append([]float64(nil), columns[0]...)
	stat.SortWeighted(sorted, nil)
	for _, p := range []float64{0.05, 0.1, 0.5, 0.9, 0.95} {
		got, want := evidence.Quantile(columns[0], p), library.Quantile(p)
		if math.Abs(got-want) > 0.003*want {
			t.Errorf("percentile %v of the draws is %v, the library's law says %v", p, got, want)
		}
		if ecdf := stat.Quantile(p, stat.LinInterp, sorted, nil); math.Abs(got-ecdf) > 0.001*want {
			t.Errorf("percentile %v by selection is %v, the library sorts to %v", p, got, ecdf)
		}
	}
	r := d.Range()
	for _, x := range []struct{ got, p float64 }{{float64(r.Low), 0.1}, {float64(r.Typical), 0.5}, {float64(r.High), 0.9}} {
		if want := library.Quantile(x.p); math.Abs(x.got-want) > 1e-9*want {
			t.Errorf("percentile %v is %v, the library says %v", x.p, x.got, want)
		}
	}
}

// Units by another route: exact fractions from the definitions of the inch, the
// pound and the gallons.
func TestSecondOpinionOnUnits(t *testing.T) {
	inch := big.NewRat(254, 100)
	cubicInch := new(big.Rat).Mul(inch, new(big.Rat).Mul(inch, inch))
	usGallon := new(big.Rat).Mul(big.NewRat(231, 1), cubicInch) // 231 cubic inches
	pound := big.NewRat(45359237, 100000)                       // grams
	for _, x := range []struct {
		text string
		want *big.Rat
	}{
		{"1 fl oz US", new(big.Rat).Quo(usGallon, big.NewRat(128, 1))},
		{"1 fl oz imp", big.NewRat(454609, 16000)}, // 4.54609 l in 160
	} {
		got, err := quantity.ParseVolume(x.text)
		if want, _ := x.want.Float64(); err != nil || math.Abs(float64(got)-want) > 1e-12*want {
			t.Errorf("%s is %v ml, %v; by fractions %v", x.text, float64(got), err, want)
		}
	}
	for _, x := range []struct {
		text string
		want *big.Rat
	}{{"1 lb", pound}, {"1 oz", new(big.Rat).Quo(pound, big.NewRat(16, 1))}} {
		got, err := quantity.ParseMass(x.text)
		if want, _ := x.want.Float64(); err != nil || math.Abs(float64(got)-want) > 1e-12*want {
			t.Errorf("%s is %v g, %v; by fractions %v", x.text, float64(got), err, want)
		}
	}
}

// A whole mull against the ledger: pour the typical oil of the card into the
// weighed pigment and the figures must be those of the card's exact answer.
func TestSecondOpinionOnAMull(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 17))
	for range 300 {
		req := request(t)
		req.Sampling.Exact, req.Scale = true, 0
		req.Pigments = []Share{
			{ready(t, powder("a", quantity.Density(1.3+6*r.Float64()), quantity.Absorption(10+80*r.Float64()))), quantity.Parts(0.1 + r.Float64())},
			{ready(t, powder("b", quantity.Density(1.3+6*r.Float64()), quantity.Absorption(10+80*r.Float64()))), quantity.Parts(0.1 + r.Float64())},
		}
		req.Waxes = []Portion{{ready(t, liquid("wax", material.Wax, 0.96)), quantity.MassFraction(0.05 * r.Float64())}}
		req.Moisture = quantity.MassFraction(0.3 * r.Float64())
		res, err := Mull(req)
		if err != nil {
			t.Fatal(err)
		}
		m := newMixer(res.Paint)
		for _, x := range []struct {
			what      string
			got, want float64
		}{
			{"PVC", float64(res.Figures.PVC.Typical), shareOf(m.pigment, m.pigment, m.binder)},
			{"CPVC", float64(res.Figures.CPVC.Typical), shareOf(m.pigment, m.pigment, m.demand)},
			{"oil", float64(res.Pours.Typical), shareOf(m.binderMass, rat(1))},
		} {
			if math.Abs(x.got-x.want) > 1e-9*(1+x.want) {
				t.Fatalf("%s of the card is %v, the ledger says %v", x.what, x.got, x.want)
			}
		}
	}
}
