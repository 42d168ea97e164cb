package formulate

import (
	"errors"
	"math"

	"mullwright/formulate/quantity"
)

// negative reports what is no amount: below nothing, endless or not a number.
func negative[Q quantity.Real](v Q) bool {
	return !(v >= 0) || math.IsInf(float64(v), 1)
}

// positive reports an amount above nothing that has an end.
func positive[Q quantity.Real](v Q) bool {
	return v > 0 && !math.IsInf(float64(v), 1)
}

// checkShares refuses a moisture and a loss that no batch has.
func checkShares(moisture, loss quantity.MassFraction) error {
	switch {
	case negative(moisture) || moisture >= 0.9:
		return errors.New("moisture must be from 0 to 90 % of the damp mass")
	case negative(loss) || loss > 0.9:
		return errors.New("loss must be from 0 to 90 % of what is made")
	}
	return nil
}
