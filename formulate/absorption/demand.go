package absorption

import (
	"math"
	"sort"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// An Evidence says how much one piece of evidence weighs in a demand.
type Evidence struct {
	Source string              // key of a source, or [Foretold]
	Middle quantity.Absorption // at tube colour
	Weight quantity.Ratio      // the weights of one pigment sum to 1
}

// Foretold stands for the model where a source would be named.
const Foretold = "foretold from oil absorption"

// An OilBasis says what a model's oil absorption rests on.
type OilBasis string

const (
	ByRubOut    OilBasis = "oil absorption by rub-out"
	ByUnstated  OilBasis = "oil absorption by a method not stated, taken as rub-out"
	ByOtherTest OilBasis = "oil absorption by another test than the rub-out"
	FromDemand  OilBasis = "no oil absorption known; inferred from published artists' demand"
	Unknown     OilBasis = "neither oil absorption nor artists' demand known, or no density"
)

// leastSigma keeps a demand from looking sharper than any weighing is, 5 per
// cent. Common practice: duplicate rub-outs are repeated if they differ by more.
const leastSigma = 0.05

// A DemandModel gives the oil of a paste of one pigment at any body. It is made
// once and read for every draw.
type DemandModel struct {
	fit       *Coefficients
	oil       evidence.Distribution[quantity.AbsorptionVolume]
	basis     OilBasis
	white     float64 // 1 for whites and extenders, else 0
	lnOil     float64 // ln of the median of oil
	foretold  float64 // weight of the foretold demand
	published float64 // mean of ln(ml oil per 100 g) of the published demand
	sigma     float64 // log spread beside that of the oil absorption
	evidence  []Evidence
}

// A Pigment is what is known of one pigment's thirst for oil.
type Pigment struct {
	Density evidence.Distribution[quantity.Density]
	Oil     evidence.Distribution[quantity.AbsorptionVolume] // zero: none known
	Method  material.Method                                  // of the test Oil rests on
	// Colourless is set for whites and extenders; see [Colourless].
	Colourless bool
	// Published lists artists' demand published for the pigment itself.
	Published []material.DemandReading
}

// NewDemandModel weighs the evidence for one pigment. An oil absorption that is
// not known is inferred from the demand; see [DemandModel.Basis].
func NewDemandModel(p Pigment) DemandModel { return fitted.DemandModel(p) }

// DemandModel is [NewDemandModel] with these coefficients.
func (c *Coefficients) DemandModel(p Pigment) DemandModel {
	authorities := c.byAuthority(p.Published)
	m := DemandModel{fit: c, oil: p.Oil, white: indicator(p.Colourless), basis: basisOf(p, len(authorities) > 0)}
	if m.basis == Unknown {
		return m
	}
	lnDensity := math.Log(float64(p.Density.Median) / 100) // ln of pigment volume units to mass units
	mean, between := c.meanAndSpread(authorities)
	k := float64(len(authorities))
	m.published = mean
	precision := k / between
	if m.basis == FromDemand {
		m.oil = m.inferOil(mean+lnDensity, between/k, p.Density.Median)
	} else {
		x := math.Log(oilPerPigment(p.Oil.Median, p.Density.Median))
		own := 1 / c.variance(x, m.white)
		precision += own
		m.foretold = own / precision
		m.evidence = append(m.evidence, Evidence{Foretold, grams(c.lnForetold(x, m.white) - lnDensity), quantity.Ratio(m.foretold)})
	}
	for _, a := range authorities {
		m.evidence = append(m.evidence, Evidence{a.source, grams(a.mean), quantity.Ratio(1 / between / precision)})
	}
	lot := m.foretold * c.Slope * m.oil.Sigma
	m.lnOil = math.Log(float64(m.oil.Median))
	m.sigma = math.Sqrt(max(1/precision+between-lot*lot, leastSigma*leastSigma))
	return m
}

func basisOf(p Pigment, demandKnown bool) OilBasis {
	switch {
	case !p.Density.Known() || !p.Oil.Known() && !demandKnown:
		return Unknown
	case !p.Oil.Known():
		return FromDemand
	case p.Method == material.RubOut:
		return ByRubOut
	case p.Method == material.Unstated || p.Method == "":
		return ByUnstated
	}
	return ByOtherTest
}

// inferOil turns the model round: the oil absorption of which this demand is
// the most likely, with the spread it leaves. The pigments of the fit are the
// prior, without which a flat slope would say nothing: ln r about its mean.
func (m *DemandModel) inferOil(lnDemand, variance float64, density quantity.Density) evidence.Distribution[quantity.AbsorptionVolume] {
	noise := m.fit.variance(m.fit.RubOutMean, m.white) + variance
	prior := m.fit.RubOutSpread * m.fit.RubOutSpread
	gain := prior * m.fit.Slope / (m.fit.Slope*m.fit.Slope*prior + noise)
	ln := m.fit.RubOutMean + gain*(lnDemand-m.fit.lnForetold(m.fit.RubOutMean, m.white))
	return evidence.Distribution[quantity.AbsorptionVolume]{
		Median: perHundred(math.Exp(ln), density),
		Sigma:  math.Sqrt(prior * (1 - gain*m.fit.Slope)),
	}
}

// grams turns ln(ml per 100 g) into g of linseed oil per 100 g.
func grams(lnVolume float64) quantity.Absorption {
	return quantity.AbsorptionVolume(math.Exp(lnVolume)).ByMass(quantity.ReportingOilDensity)
}

// An authority is what one maker or book says of a pigment.
type authority struct {
	source  string
	mean, n float64 // of ln ml per 100 g, and of how many readings
}

// byAuthority reduces readings to one for each authority, at tube colour. A
// ground paste counts, turned to tube colour by the fitted step, only where no
// tube colour is published; what flows from the brush is a bound and does not
// count, nor does a reading set aside.
func (c *Coefficients) byAuthority(readings []material.DemandReading) []authority {
	if out := authoritiesAt(readings, material.TubeColour, 0); len(out) > 0 {
		return out
	}
	return authoritiesAt(readings, material.GroundPaste, c.Ground)
}

func authoritiesAt(readings []material.DemandReading, consistency material.Consistency, shift float64) []authority {
	var out []authority
	index := map[string]int{}
	for _, r := range readings {
		if r.Aside != "" || r.Consistency != consistency {
			continue
		}
		i, ok := index[r.Authority]
		if !ok {
			i = len(out)
			index[r.Authority] = i
			out = append(out, authority{source: r.Source})
		}
		a := &out[i]
		ln := math.Log(float64(r.Middle().ByVolume(quantity.ReportingOilDensity))) - shift
		a.n++
		a.mean += (ln - a.mean) / a.n
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].source < out[j].source })
	return out
}

// meanAndSpread is the mean over authorities and the variance between them,
// shrunk to the common one; the common one where there are none.
func (c *Coefficients) meanAndSpread(authorities []authority) (mean, variance float64) {
	for i, a := range authorities {
		mean += (a.mean - mean) / float64(i+1)
	}
	var squares float64
	for _, a := range authorities {
		squares += (a.mean - mean) * (a.mean - mean)
	}
	free := max(float64(len(authorities)-1), 0)
	common := c.Between * c.Between
	return mean, (squares + c.BetweenWeight*common) / (free + c.BetweenWeight)
}

// Known reports whether the model can answer.
func (m *DemandModel) Known() bool { return m.basis != Unknown && m.basis != "" }

// Basis says what the oil absorption rests on.
func (m *DemandModel) Basis() OilBasis { return m.basis }

// Evidence lists what the demand at tube colour rests on and how much each
// piece weighs.
func (m *DemandModel) Evidence() []Evidence { return append([]Evidence(nil), m.evidence...) }

// LeastPublished is the smallest demand published for the pigment itself, at a
// named body, where it lies below the combined one; false where none does.
func (m *DemandModel) LeastPublished(target Step) (quantity.Absorption, bool) {
	least, found := quantity.Absorption(math.Inf(1)), false
	for _, e := range m.evidence {
		if e.Source != Foretold && e.Source != OwnBatches && e.Middle < least {
			least, found = e.Middle, true
		}
	}
	if !found || target.Name == "" {
		return 0, false
	}
	return least * quantity.Absorption(target.Oil), true
}

// GreatestPublished is the largest demand published for the pigment itself.
func (m *DemandModel) GreatestPublished(target Step) quantity.Absorption {
	var most quantity.Absorption
	for _, e := range m.evidence {
		if e.Source != Foretold && e.Source != OwnBatches {
			most = max(most, e.Middle*quantity.Absorption(target.Oil))
		}
	}
	return most
}

// OilAbsorption is the oil absorption of one draw: the one given, or the one
// inferred.
func (m *DemandModel) OilAbsorption(zOil float64) quantity.AbsorptionVolume { return m.oil.At(zOil) }

// CombineRelation is the random-effects mean of foretold and published demand.
var CombineRelation = trace.Relation{
	Name:     "artists' demand, foretold and published together",
	Equation: "ln D = w·ln Dforetold + (1 − w)·mean ln Dpublished, w = (1/v)/(1/v + k/τ²)",
	Source:   "random-effects model on the log scale; v and τ fitted, see the package documentation",
}

// StepRelation is the oil of a named step beside that of tube colour.
var StepRelation = trace.Relation{
	Name:     "oil of a named body",
	Equation: "Dv = D·k",
	Source:   "k: see the step's basis",
}

// BodyOilRelation is the oil of a body given as a ratio.
var BodyOilRelation = trace.Relation{
	Name:     "oil of a body given as a ratio",
	Equation: "Dv = (100/ρp)·((1 + OAv·ρp/100)/b − 1)",
	Source:   "definition of body with the critical PVC form",
}

// OilAt is the volume of liquid per 100 g of pigment that brings a paste to a
// body, for one draw: zOil moves the lot's oil absorption and zDemand all else
// about its demand. With both 0 it is the point answer.
//
// A name asks for a consistency: the demand at tube colour, foretold and
// published, times the step's share. A ratio asks for a pigment volume fraction
// b·CPVC, which the oil absorption alone decides; at 1 it is the rub-out.
func (m *DemandModel) OilAt(target Step, density quantity.Density, zOil, zDemand float64) quantity.AbsorptionVolume {
	return m.oilAt(target, density, zOil, zDemand, nil, "")
}

// Explain notes how [DemandModel.OilAt] comes to its point answer.
func (m *DemandModel) Explain(tr *trace.Tracer, of string, target Step, density quantity.Density) {
	m.oilAt(target, density, 0, 0, tr, of)
}

func (m *DemandModel) oilAt(target Step, density quantity.Density, zOil, zDemand float64, tr *trace.Tracer, of string) quantity.AbsorptionVolume {
	if target.Name == "" {
		oil := m.oil.At(zOil)
		out := bodyOil(target.Typical, oil, density)
		if tr.On() {
			tr.Note(BodyOilRelation, of, trace.T("Dv", out, "ml/100g"),
				trace.T("b", target.Typical, ""), trace.T("OAv", oil, "ml/100g"), trace.T("ρp", density, "g/ml"))
		}
		return out
	}
	tube := m.tubeColour(density, zOil, zDemand, tr, of)
	out := tube * quantity.AbsorptionVolume(target.Oil)
	if tr.On() {
		tr.Note(StepRelation, of+", "+target.Name, trace.T("Dv", out, "ml/100g"),
			trace.T("D", tube, "ml/100g"), trace.T("k", target.Oil, ""))
	}
	return out
}

// bodyOil is the oil of a body given as a ratio: none where pigment alone would
// have to fill more than the whole.
func bodyOil(b Body, oil quantity.AbsorptionVolume, density quantity.Density) quantity.AbsorptionVolume {
	return max(0, DemandAtPVC(PVCAtBody(b, CriticalPVC(oil, density)), density))
}

// tubeColour is the demand at tube colour. It works on logarithms throughout,
// one log and one exp for a draw.
func (m *DemandModel) tubeColour(density quantity.Density, zOil, zDemand float64, tr *trace.Tracer, of string) quantity.AbsorptionVolume {
	lnDensity := math.Log(float64(density) / 100)
	lnRubOut := m.lnOil + m.oil.Sigma*zOil + lnDensity
	lnForetold := m.fit.lnForetold(lnRubOut, m.white)
	ln := m.foretold*(lnForetold-lnDensity) + (1-m.foretold)*m.published + m.sigma*zDemand
	out := quantity.AbsorptionVolume(math.Exp(ln))
	if tr.On() {
		m.explainTube(tr, of, out, lnRubOut, lnForetold, density)
	}
	return out
}

func (m *DemandModel) explainTube(tr *trace.Tracer, of string, out quantity.AbsorptionVolume, lnRubOut, lnForetold float64, density quantity.Density) {
	w := quantity.Ratio(m.foretold)
	if m.foretold > 0 {
		tr.Note(ForetellRelation, of, trace.T("d", quantity.Ratio(math.Exp(lnForetold)), ""),
			trace.T("r", quantity.Ratio(math.Exp(lnRubOut)), ""), trace.T("ρp", density, "g/ml"),
			trace.T("a", quantity.Ratio(m.fit.Intercept), ""), trace.T("b", quantity.Ratio(m.fit.Slope), ""),
			trace.T("w", quantity.Ratio(m.fit.Colourless*m.white), ""))
		if m.foretold == 1 {
			return
		}
	}
	tr.Note(CombineRelation, of, trace.T("D", out, "ml/100g"), trace.T("w", w, ""),
		trace.T("Dpublished", quantity.AbsorptionVolume(math.Exp(m.published)), "ml/100g"))
}
