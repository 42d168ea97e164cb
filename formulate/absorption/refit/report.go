package refit

import (
	"math"
	"sort"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// A Prediction is one published figure beside what was foretold for its
// pigment, that pigment left out of the fit.
type Prediction struct {
	Pigment, Authority, Source, Locator string
	Published                           quantity.Absorption
	Foretold                            evidence.Range[quantity.Absorption]
}

// Miss is |ln(published/foretold)|.
func (p Prediction) Miss() float64 {
	return math.Abs(math.Log(float64(p.Published / p.Foretold.Typical)))
}

// Inside reports whether the figure lies in the 10–90 range.
func (p Prediction) Inside() bool {
	return p.Published >= p.Foretold.Low && p.Published <= p.Foretold.High
}

// A Score sums up predictions.
type Score struct {
	Figures, Inside int
	// ShareLow and ShareHigh bound the true share inside, 95 per cent.
	ShareLow, ShareHigh float64
	MedianMiss          float64        // |ln ratio|, over figures
	MedianWidth         quantity.Ratio // 90th over 10th percentile
	LogScore            float64        // log density, summed; greater is better
	Parameters          int            // fitted: coefficients, and the three of the spreads
}

// Bodies sums up the bodies of the published pastes of one consistency: pigment
// volume fraction over critical PVC. Some lie above 1; see package absorption.
type Bodies struct {
	Consistency material.Consistency
	Figures     int
	Least       absorption.Body
	Median      absorption.Body
	Greatest    absorption.Body
	AboveRubOut int // how many lie above 1
}

// variances counts ω, τ and the weight of τ.
const variances = 3

// A Report tells how well artists' demand is foretold.
type Report struct {
	Pigments       int
	Model          Score
	ConstantFactor Score
	// Simpler holds the scores of the model with terms left out.
	Simpler []Simpler
	// Combined foretells each authority from the model and the other
	// authorities of the same pigment together, as the mull does.
	Combined Score
	// ModelByPigment and ConstantByPigment are the median |ln ratio| over
	// pigments, the figures of one averaged first.
	ModelByPigment, ConstantByPigment float64

	Predictions []Prediction // of the model
	Bodies      []Bodies
	LeftOut     []Row // with the reason
}

// A Simpler is the model with terms left out.
type Simpler struct {
	Name  string
	Score Score
}

// FitReport leaves each pigment out in turn.
func FitReport(rows []Row) Report {
	var r Report
	var combined []Prediction
	var logModel, logCombined float64
	for _, own := range byPigment(cells(rows, judged)) {
		r.Pigments++
		c := Coefficients(without(rows, own[0].Pigment))
		p, l := predict(own, c.Foretell(own[0].Oil, own[0].Density, own[0].colourless()), c.Between)
		r.Predictions, logModel = append(r.Predictions, p...), logModel+l
		if len(own) < 2 {
			continue
		}
		for i := range own {
			p, l = predict(own[i:i+1], combine(&c, own, i), 0)
			combined, logCombined = append(combined, p...), logCombined+l
		}
	}
	r.Model = score(r.Predictions, logModel, full.size+variances)
	r.Combined = score(combined, logCombined, full.size+variances)
	folds := leaveOut(rows)
	constant, l := foretell(folds, constantFactor)
	r.ConstantFactor = score(constant, l, constantFactor.size+variances)
	for _, s := range []struct {
		name string
		design
	}{
		{"one volume of oil for all", oneVolume},
		{"oil absorption alone", oilAlone},
		{"whites and extenders apart, no oil absorption", whiteAlone},
	} {
		p, l := foretell(folds, s.design)
		r.Simpler = append(r.Simpler, Simpler{s.name, score(p, l, s.size+variances)})
	}
	r.ModelByPigment, r.ConstantByPigment = median(missesByPigment(r.Predictions)), median(missesByPigment(constant))
	for _, c := range []material.Consistency{material.GroundPaste, material.TubeColour, material.BrushReady} {
		r.Bodies = append(r.Bodies, bodies(c, cells(rows, func(r Row) bool { return r.Use == Fit && r.Consistency == c })))
	}
	for _, row := range rows {
		if row.Use != Fit {
			r.LeftOut = append(r.LeftOut, row)
		}
	}
	return r
}

// A fold is one pigment left out.
type fold struct {
	own    []cell   // its figures at tube colour
	groups [][]cell // what the others are fitted from
	tau    float64
}

func leaveOut(rows []Row) []fold {
	var out []fold
	for _, own := range byPigment(cells(rows, judged)) {
		rest := without(rows, own[0].Pigment)
		tau, _ := betweenAuthorities(rest)
		out = append(out, fold{own, byPigment(cells(rest, fitted)), tau})
	}
	return out
}

// foretell gives each pigment's figures by a design fitted without it, and the
// log score.
func foretell(folds []fold, d design) ([]Prediction, float64) {
	var out []Prediction
	var sum float64
	for _, f := range folds {
		m := fitMixed(f.groups, f.tau, d)
		c := &f.own[0]
		x := d.x(c)
		ln, variance := d.offset(c)+c.ln-c.y(), m.omega*m.omega+f.tau*f.tau
		for i := range m.beta {
			ln += x[i] * m.beta[i]
			for j := range m.beta {
				variance += x[i] * x[j] * m.cov[i][j]
			}
		}
		p, l := predict(f.own, evidence.Distribution[quantity.Absorption]{Median: quantity.Absorption(math.Exp(ln)), Sigma: math.Sqrt(variance)}, f.tau)
		out, sum = append(out, p...), sum+l
	}
	return out, sum
}

func bodies(consistency material.Consistency, all []cell) Bodies {
	out := Bodies{Consistency: consistency, Figures: len(all)}
	var v []float64
	for i := range all {
		c := &all[i]
		phi := 1 - absorption.OilVolumeFraction(quantity.Absorption(math.Exp(c.ln)), quantity.ReportingOilDensity, c.Density)
		b := absorption.BodyOf(phi, absorption.CriticalPVC(c.Oil, c.Density))
		if b > 1 {
			out.AboveRubOut++
		}
		v = append(v, float64(b))
	}
	out.Median = absorption.Body(median(v)) // sorts v
	if len(v) > 0 {
		out.Least, out.Greatest = absorption.Body(v[0]), absorption.Body(v[len(v)-1])
	}
	return out
}

func without(rows []Row, pigment string) []Row {
	var out []Row
	for _, r := range rows {
		if r.Pigment != pigment {
			out = append(out, r)
		}
	}
	return out
}

// combine is what the mull would say of the pigment, one authority left out.
func combine(c *absorption.Coefficients, own []cell, left int) evidence.Distribution[quantity.Absorption] {
	var published []material.DemandReading
	for j, o := range own {
		if j != left {
			published = append(published, material.DemandReading{
				Value: quantity.Absorption(math.Exp(o.ln)), Consistency: o.Consistency, Authority: o.Authority, Source: o.Source,
			})
		}
	}
	m := c.DemandModel(absorption.Pigment{
		Density:    evidence.Distribution[quantity.Density]{Median: own[0].Density},
		Oil:        evidence.Distribution[quantity.AbsorptionVolume]{Median: own[0].Oil},
		Colourless: own[0].colourless(), Published: published,
	})
	buttery, _ := absorption.NamedBody("buttery")
	at := func(z float64) float64 { return math.Log(float64(m.OilAt(buttery, own[0].Density, 0, z))) }
	return evidence.Distribution[quantity.Absorption]{
		Median: quantity.AbsorptionVolume(math.Exp(at(0))).ByMass(quantity.ReportingOilDensity),
		Sigma:  at(1) - at(0),
	}
}

// predict sets a pigment's figures beside the foretold one, and gives the log
// of their joint density: what differs between authorities is tau, the rest of
// the spread is common to them.
func predict(own []cell, d evidence.Distribution[quantity.Absorption], tau float64) ([]Prediction, float64) {
	var out []Prediction
	common := d.Sigma*d.Sigma - tau*tau
	if tau == 0 {
		tau, common = d.Sigma, 0
	}
	k := float64(len(own))
	var sum, squares float64
	for _, c := range own {
		published := quantity.Absorption(math.Exp(c.ln))
		out = append(out, Prediction{
			Pigment: c.Pigment, Authority: c.Authority, Source: c.Source, Locator: c.Locator,
			Published: published, Foretold: d.Range(),
		})
		e := c.ln - math.Log(float64(d.Median))
		sum += e
		squares += e * e
	}
	t := tau * tau
	logDet := (k-1)*math.Log(t) + math.Log(t+k*common)
	quad := (squares - common*sum*sum/(t+k*common)) / t
	return out, -(k*math.Log(2*math.Pi) + logDet + quad) / 2
}

func score(predictions []Prediction, logScore float64, parameters int) Score {
	s := Score{Figures: len(predictions), LogScore: logScore, Parameters: parameters}
	var misses, widths []float64
	for _, p := range predictions {
		if p.Inside() {
			s.Inside++
		}
		misses = append(misses, p.Miss())
		widths = append(widths, float64(p.Foretold.High/p.Foretold.Low))
	}
	s.MedianMiss = median(misses)
	s.MedianWidth = quantity.Ratio(median(widths))
	s.ShareLow, s.ShareHigh = wilson(s.Inside, s.Figures)
	return s
}

func missesByPigment(predictions []Prediction) []float64 {
	var out []float64
	for i := 0; i < len(predictions); {
		var sum float64
		j := i
		for ; j < len(predictions) && predictions[j].Pigment == predictions[i].Pigment; j++ {
			sum += math.Log(float64(predictions[j].Published / predictions[j].Foretold.Typical))
		}
		out = append(out, math.Abs(sum)/float64(j-i))
		i = j
	}
	return out
}

func median(v []float64) float64 {
	sort.Float64s(v)
	n := len(v)
	if n == 0 {
		return math.NaN()
	}
	return (v[(n-1)/2] + v[n/2]) / 2
}

// wilson is the 95 per cent interval of a share (Wilson, Journal of the American
// Statistical Association 22, 1927, from memory).
func wilson(hits, of int) (low, high float64) {
	const z = 1.959963984540054
	n := float64(of)
	share := float64(hits) / n
	middle := (share + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(share*(1-share)/n+z*z/(4*n*n))
	return middle - half, middle + half
}
