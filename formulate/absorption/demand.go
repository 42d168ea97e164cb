package absorption

import (
	"math"
	"sort"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// A Pigment is what is known of one pigment's thirst for oil.
type Pigment struct {
	Density evidence.Distribution[quantity.Density]
	Oil     evidence.Distribution[quantity.AbsorptionVolume] // by Method; zero: none known
	Method  material.Method
	Group   Group
	// Published lists artists' demand published for the pigment itself.
	Published []material.DemandReading
}

// An Evidence says how much one piece of evidence weighs in a demand.
type Evidence struct {
	Source string // key of a source, or Foretold
	Middle quantity.Absorption
	Weight quantity.Ratio // the weights of one pigment sum to 1
}

// Foretold stands for the model where a source would be named.
const Foretold = "foretold from oil absorption"

// A DemandModel gives the oil of a paste of one pigment at any body. It is made
// once and read for every draw.
type DemandModel struct {
	oil       evidence.Distribution[quantity.AbsorptionVolume]
	basis     OilBasis
	intercept float64 // of ln(oil volume per pigment volume) foretold
	foretold  float64 // weight of the foretold demand
	published float64 // mean ln ml/100g of the published demand
	sigma     float64 // log spread beside that of the oil absorption
	evidence  []Evidence
}

// OilBasis says what a model's oil absorption rests on.
type OilBasis string

const (
	ByRubOut     OilBasis = "oil absorption by rub-out"
	ByUnstated   OilBasis = "oil absorption by a method not stated, taken as rub-out"
	ByOtherTest  OilBasis = "oil absorption by another test than the rub-out"
	FromDemand   OilBasis = "oil absorption inferred from published artists' demand"
	NoOilKnown   OilBasis = "no oil absorption and no demand known"
	minimumSigma          = 0.05
)

// NewDemandModel weighs the evidence for one pigment.
func NewDemandModel(p Pigment) DemandModel {
	m := DemandModel{oil: p.Oil, basis: basisOf(p), intercept: coefficients.intercept(p.Group)}
	groups := byAuthority(p.Published)
	if m.basis == NoOilKnown {
		return m
	}
	if m.basis == FromDemand {
		m.oil = oilFromDemand(groups, p)
	}
	density := float64(p.Density.Median)
	foretold := m.lnForetold(m.oil.Median, density)
	misfit := coefficients.Misfit * coefficients.Misfit
	between, mean := spread(groups)
	k := float64(len(groups))
	precision := k/between + 1/misfit
	if m.basis == FromDemand { // the foretold figure would be the published one again
		precision = k / between
		misfit = math.Inf(1)
	}
	m.foretold = 1 / misfit / precision
	m.published = mean
	total := 1/precision + between
	share := m.foretold * coefficients.Slope * m.oil.Sigma
	m.sigma = math.Sqrt(max(total-share*share, minimumSigma*minimumSigma))
	if m.foretold > 0 {
		m.evidence = append(m.evidence, Evidence{Foretold, grams(foretold), quantity.Ratio(m.foretold)})
	}
	for _, g := range groups {
		m.evidence = append(m.evidence, Evidence{g.source, grams(g.mean), quantity.Ratio(1 / between / precision)})
	}
	return m
}

func basisOf(p Pigment) OilBasis {
	switch {
	case !p.Oil.Known() && len(byAuthority(p.Published)) == 0:
		return NoOilKnown
	case !p.Oil.Known():
		return FromDemand
	case p.Method == material.RubOut:
		return ByRubOut
	case p.Method == material.Unstated:
		return ByUnstated
	}
	return ByOtherTest
}

// lnForetold is the foretold demand as ln(ml/100g).
func (m *DemandModel) lnForetold(oil quantity.AbsorptionVolume, density float64) float64 {
	return m.intercept + coefficients.Slope*math.Log(float64(oil)*density/100) - math.Log(density/100)
}

func grams(lnVolume float64) quantity.Absorption {
	return quantity.AbsorptionVolume(math.Exp(lnVolume)).ByMass(quantity.ReportingOilDensity)
}

type authority struct {
	source    string
	mean, sum float64 // of ln ml/100g
	n         float64
}

// byAuthority reduces readings at tube-colour consistency to one mean for each
// authority, in order of their names.
func byAuthority(readings []material.DemandReading) []authority {
	var out []authority
	index := map[string]int{}
	for _, r := range readings {
		if r.Aside != "" || r.Consistency != material.TubeColour {
			continue
		}
		i, ok := index[r.Authority]
		if !ok {
			i = len(out)
			index[r.Authority] = i
			out = append(out, authority{source: r.Source})
		}
		out[i].sum += math.Log(float64(r.Middle().ByVolume(quantity.ReportingOilDensity)))
		out[i].n++
		out[i].mean = out[i].sum / out[i].n
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].source < out[j].source })
	return out
}

// spread is the variance between authorities, shrunk to the common one, and
// their mean.
func spread(groups []authority) (variance, mean float64) {
	k := float64(len(groups))
	for _, g := range groups {
		mean += g.mean / k
	}
	var squares float64
	for _, g := range groups {
		squares += (g.mean - mean) * (g.mean - mean)
	}
	nu := coefficients.BetweenWeight
	common := coefficients.Between * coefficients.Between
	return (squares + nu*common) / (max(k-1, 0) + nu), mean
}

// oilFromDemand turns the fit round: the oil absorption that would foretell the
// published demand, as uncertain as both.
func oilFromDemand(groups []authority, p Pigment) evidence.Distribution[quantity.AbsorptionVolume] {
	density := float64(p.Density.Median)
	between, mean := spread(groups)
	ln := (mean + math.Log(density/100) - coefficients.intercept(p.Group)) / coefficients.Slope
	variance := (between/float64(len(groups)) + coefficients.Misfit*coefficients.Misfit) / (coefficients.Slope * coefficients.Slope)
	return evidence.Distribution[quantity.AbsorptionVolume]{
		Median: quantity.AbsorptionVolume(math.Exp(ln) * 100 / density),
		Sigma:  math.Sqrt(variance),
	}
}

// Known reports whether the model can answer.
func (m DemandModel) Known() bool { return m.basis != NoOilKnown && m.basis != "" }

// Basis says what the oil absorption rests on.
func (m DemandModel) Basis() OilBasis { return m.basis }

// Evidence lists what the demand rests on and how much each piece weighs.
func (m DemandModel) Evidence() []Evidence { return m.evidence }

// OilAbsorption is the oil absorption of one draw.
func (m *DemandModel) OilAbsorption(zOil float64) quantity.AbsorptionVolume { return m.oil.At(zOil) }

// OilAt is the liquid per 100 g of pigment that brings the paste to a body, for
// one draw: zOil moves the lot's oil absorption, zDemand everything else about
// its demand. With both 0 it is the point answer.
func (m *DemandModel) OilAt(target Step, density quantity.Density, zOil, zDemand float64) quantity.AbsorptionVolume {
	oil := m.oil.At(zOil)
	rubOut := oilPerPigment(oil, density)
	asked := (1+rubOut)/float64(target.Typical) - 1
	if target.Name == "" {
		return perHundred(asked, density)
	}
	tube := m.tubeColour(oil, density, zDemand)
	common := (1+rubOut)/float64(tubeColourBody) - 1
	k := 1.0
	if target.Typical > tubeColourBody {
		k = max(math.Log(tube/rubOut)/math.Log(common/rubOut), leastBend)
	}
	return perHundred(tube*math.Pow(asked/common, k), density)
}

// tubeColour is ml of oil per ml of pigment at the consistency of tube colour.
func (m *DemandModel) tubeColour(oil quantity.AbsorptionVolume, density quantity.Density, zDemand float64) float64 {
	ln := (1-m.foretold)*m.published + m.sigma*zDemand
	if m.foretold > 0 {
		ln += m.foretold * m.lnForetold(oil, float64(density))
	}
	return math.Exp(ln) * float64(density) / 100
}

func perHundred(oilPerPigment float64, density quantity.Density) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(100 * oilPerPigment / float64(density))
}

const (
	tubeColourBody Body = 0.75
	leastBend           = 0.5
)
