package absorption

import (
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// OwnBatches stands for the maker's own batches where a source would be named.
const OwnBatches = "your own batches"

// Oil is the oil absorption that the model uses: the one given, or the one
// inferred.
func (m *DemandModel) Oil() evidence.Distribution[quantity.AbsorptionVolume] { return m.oil }

// TubeColour is the demand at tube colour of one more jar in one more hand, in
// ml per 100 g: log-normal, the oil absorption's own spread included as far as
// the demand follows it.
func (m *DemandModel) TubeColour(density quantity.Density) evidence.Distribution[quantity.AbsorptionVolume] {
	return evidence.Distribution[quantity.AbsorptionVolume]{
		Median: m.tubeColour(density, 0, 0, nil, ""),
		Sigma:  math.Hypot(m.sigma, m.foretold*m.fit.Slope*m.oil.Sigma),
	}
}

// WithOwn returns the model with a demand at tube colour that the maker's own
// batches taught, in place of the foretold and the published one, on which own
// already rests as its prior. The oil absorption stays.
func (m DemandModel) WithOwn(own evidence.Distribution[quantity.AbsorptionVolume]) DemandModel {
	m.foretold = 0
	m.published = math.Log(float64(own.Median))
	m.sigma = max(own.Sigma, leastSigma)
	m.evidence = []Evidence{{OwnBatches, grams(m.published), 1}}
	return m
}
