package vapour

import (
	"fmt"
	"math"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// ShareOfLELRelation sets a level beside the lower explosive limit.
var ShareOfLELRelation = trace.Relation{
	Name:     "share of the lower explosive limit",
	Equation: "f = ppm/(10⁶·LEL)",
	Source:   "NIOSH, documentation for immediately dangerous concentrations, turpentine (1994)",
}

// ShareOfLEL is a vapour share over the lower explosive limit, itself a share of
// the air by volume. NIOSH takes a tenth as immediately dangerous.
func ShareOfLEL(ppm quantity.PartsPerMillion, lel quantity.VolumeFraction) quantity.Ratio {
	return quantity.Ratio(float64(ppm) / 1e6 / float64(lel))
}

// DangerousShareOfLEL is the share of the lower explosive limit that NIOSH takes
// as immediately dangerous to life.
const DangerousShareOfLEL quantity.Ratio = 0.1

// A Flammable is one vapour of a mixture.
type Flammable struct {
	Share quantity.Ratio // of the vapours, by volume; only ratios count
	Limit quantity.VolumeFraction
}

// MixtureLimitRelation is the flammability limit of a mixture.
var MixtureLimitRelation = trace.Relation{
	Name:     "flammability limit of a mixture, Le Chatelier",
	Equation: "1/L = Σ yᵢ/Lᵢ, Σ yᵢ = 1 over the flammable vapours",
	Source:   "Crowl and Louvar, Chemical Process Safety, 2nd edition (2001)",
}

// MixtureLimit is the flammability limit of mixed vapours by Le Chatelier's
// rule.
func MixtureLimit(vapours ...Flammable) (quantity.VolumeFraction, error) {
	var total, sum float64
	for i, v := range vapours {
		if err := notNegative(fmt.Sprintf("share of vapour %d", i+1), v.Share, ""); err != nil {
			return 0, err
		}
		if !(v.Limit > 0 && v.Limit <= 1) {
			return 0, fmt.Errorf("limit of vapour %d is %g: it is a share of the air by volume, above 0 and at most 1", i+1, float64(v.Limit))
		}
		total += float64(v.Share)
		sum += float64(v.Share) / float64(v.Limit)
	}
	if total == 0 {
		return 0, fmt.Errorf("no flammable vapour in the mixture")
	}
	return quantity.VolumeFraction(total / sum), nil
}

// LimitsFromFormulaRelation estimates the limits of flammability.
var LimitsFromFormulaRelation = trace.Relation{
	Name:     "flammability limits from the formula CmHxOy",
	Equation: "lower 0.55/(4.76m + 1.19x − 2.38y + 1); upper 3.5/(the same)",
	Source:   "Jones's rule, Crowl and Louvar, Chemical Process Safety, 2nd edition (2001)",
}

// LimitsFromFormula estimates the lower and upper limit of flammability of a
// vapour of m carbon, x hydrogen and y oxygen atoms. The lower one is good to
// about a tenth for hydrocarbons, the upper one is only a guide; a published
// limit always comes first.
func LimitsFromFormula(m, x, y int) (lower, upper quantity.VolumeFraction, err error) {
	air := 4.76*float64(m) + 1.19*float64(x) - 2.38*float64(y) + 1
	if m < 1 || x < 0 || y < 0 || !(air > 1) {
		return 0, 0, fmt.Errorf("a vapour of C%d H%d O%d does not burn with air by this rule", m, x, y)
	}
	return quantity.VolumeFraction(0.55 / air), quantity.VolumeFraction(math.Min(1, 3.5/air)), nil
}
