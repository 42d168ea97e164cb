package formulate

import (
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Which tests fit.
//
// A slip in weighing or in writing down lies far from all that is known of a
// pigment, and one that counted would lead the next batch astray. A test is
// therefore left out where the published figures give it, or one farther out, a
// chance below [LeftOut]: 1 in 1000, a predictive distance of |z| > 3.29. It
// counts all the same where the maker is sure of it, or where it is likelier by
// what the tests that they are sure of have taught. Whether a test is left out
// depends on no other test but those, on no order and on no jar asked about.
//
// A test that is odd ([evidence.Odd], 1 in 100) but not left out is named and
// counts: leaving out 1 good test in 100 would make the ranges hold less than
// they say. So does one that lies far from earlier ones of its own jar: nothing
// says which of them is wrong.

// LeftOut is the chance below which a test is left out. Basis: common practice,
// 1 in 1000.
const LeftOut evidence.Probability = 0.001

// fitting notes the tests that do not fit and returns those that count.
func (res *LearnResult) fitting(prior evidence.Prior[quantity.AbsorptionVolume], all []seen, scatter float64) ([]seen, error) {
	published, err := evidence.Update[quantity.AbsorptionVolume](prior, nil)
	if err != nil {
		return nil, err
	}
	var certain []evidence.Observation[quantity.AbsorptionVolume]
	for i := range all {
		if s := &all[i]; s.trial.Sure {
			certain = append(certain, s.mean(scatter))
		}
	}
	believed, err := evidence.Update(prior, certain)
	if err != nil {
		return nil, err
	}
	fits := make([]seen, 0, len(all))
	for i := range all {
		s := &all[i]
		found := s.mean(scatter)
		c, err := res.compare(s, found, published, TheCatalogue)
		if err != nil {
			return nil, err
		}
		if c == nil {
			fits = append(fits, *s)
			continue
		}
		c.Sure, c.LeftOut = s.trial.Sure, !s.trial.Sure && c.Probability < LeftOut
		if len(certain) > 0 && !s.trial.Sure {
			again, err := believed.Contradicts(found)
			if err != nil {
				return nil, err
			}
			if !again.Doubtful {
				fits = append(fits, *s)
				continue
			}
			c.LeftOut = c.LeftOut && again.Probability < LeftOut
		}
		res.Conflicts = append(res.Conflicts, *c)
		if !c.LeftOut {
			fits = append(fits, *s)
		}
	}
	return fits, nil
}

// conflicts sets each trial that counts beside the earlier ones of its own jar,
// by the scatter of those made before it: a trial must not excuse itself. The
// earlier ones are kept as their weighted mean, which is all that a normal model
// takes from them.
func (res *LearnResult) conflicts(prior evidence.Prior[quantity.AbsorptionVolume], all []seen, assumed float64) error {
	sc := newScatter(assumed)
	earlier := map[string]evidence.Observation[quantity.AbsorptionVolume]{}
	for i := range all {
		s := &all[i]
		found := s.mean(sc.sigma())
		now := evidence.Normal{Mean: math.Log(float64(found.Value)), SD: found.Scatter}
		if before, known := earlier[found.Lot]; known {
			own, err := evidence.Update(prior, []evidence.Observation[quantity.AbsorptionVolume]{before})
			if err != nil {
				return err
			}
			c, err := res.compare(s, found, own, EarlierTests)
			if err != nil {
				return err
			}
			if c != nil {
				c.Sure = s.trial.Sure
				res.Conflicts = append(res.Conflicts, *c)
			}
			now = evidence.Normal{Mean: math.Log(float64(before.Value)), SD: before.Scatter}.Update(now.Mean, now.SD)
		}
		found.Value, found.Scatter = quantity.AbsorptionVolume(math.Exp(now.Mean)), now.SD
		earlier[found.Lot] = found
		s.into(sc)
	}
	return nil
}

// compare is the conflict of a trial with what is believed of its jar, nil where
// it is likely enough.
func (res *LearnResult) compare(s *seen, found evidence.Observation[quantity.AbsorptionVolume], p evidence.Posterior[quantity.AbsorptionVolume], against string) (*Conflict, error) {
	c, err := p.Contradicts(found)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.trial.name(), err)
	}
	if !c.Doubtful {
		return nil, nil
	}
	believed := p.Lot(found.Lot)
	believed.Sigma = math.Hypot(believed.Sigma, found.Scatter)
	return &Conflict{
		Number: s.trial.Number, Lot: found.Lot, Batch: s.trial.Batch != nil, Against: against,
		Found: found.Value.ByMass(quantity.ReportingOilDensity), Believed: ByMassRange(believed), Conflict: c,
	}, nil
}

// of reports whether a conflict is that of a trial.
func (c *Conflict) of(t *Trial) bool {
	return c.Number == t.Number && c.Lot == t.Lot && c.Batch == (t.Batch != nil)
}

// name is the trial as the maker knows it.
func (t *Trial) name() string {
	if t.Number == 0 {
		return "a rub-out in your catalogue file"
	}
	return fmt.Sprintf("entry %d", t.Number)
}
