package formulate

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// OilRead says how the oil of a test was read.
type OilRead uint8

const (
	Weighed  OilRead = iota + 1 // on the balance: a bottle before and after, or the dish
	Measured                    // in a burette or a syringe
	Counted                     // in drops, of which twenty were weighed
)

// A RubOutTest is one test as it was made.
type RubOutTest struct {
	Pigment quantity.Mass // as weighed
	Read    OilRead
	Oil     quantity.Mass   // Weighed
	Volume  quantity.Volume // Measured
	Drops   int             // Counted
}

// String says what was read: "2.05 g of oil weighed".
func (t RubOutTest) String() string {
	switch t.Read {
	case Measured:
		return t.Volume.String() + " of oil measured"
	case Counted:
		return fmt.Sprintf("%d drops of oil counted", t.Drops)
	}
	return t.Oil.String() + " of oil weighed"
}

// RubOutRequest is one or more tests of a pigment, or none: then the answer is
// how to make them.
type RubOutRequest struct {
	Pigment *material.Material // nil where it was not named
	// Unlisted is set where the maker named a jar that no catalogue holds.
	Unlisted bool
	// Expected is the oil absorption foretold by published figures, or by the
	// maker; the zero value where nothing foretells it.
	Expected   evidence.Distribution[quantity.AbsorptionVolume]
	ExpectedBy string
	Oil        Ingredient
	// Linseed is set for the thin linseed oils that the methods call for.
	Linseed  bool
	Tests    []RubOutTest
	Method   material.Method       // RubOut or GardnerColeman: the end point that was taken
	Moisture quantity.MassFraction // water in the pigment, of the damp mass
	Allowed  quantity.Ratio        // spread of repeats, of their mean
	Scale    quantity.Mass         // one division of the balance
	Division quantity.Volume       // one division of the burette or syringe
	Drop     quantity.Mass         // one drop of the oil
	Lot      string                // the maker's own words
	Date     string                // the same
	Remark   string                // the same
}

// A RubOutFigure is one test worked out.
type RubOutFigure struct {
	RubOutTest
	Dry      quantity.Mass // pigment without its water
	OilMass  quantity.Mass
	OilPour  quantity.Volume
	ByMass   quantity.Absorption
	ByVolume quantity.AbsorptionVolume
	// Reading is the standard uncertainty that balance, burette and last drop
	// alone leave, on either basis in proportion.
	Reading quantity.Absorption
}

// WorstReading is the largest uncertainty of reading among the tests.
func (r *RubOutResult) WorstReading() quantity.Absorption {
	var w quantity.Absorption
	for _, f := range r.Figures {
		w = max(w, f.Reading)
	}
	return w
}

// RubOutMean is the mean of several tests.
type RubOutMean struct {
	Tests    int
	Mean, SD quantity.Absorption
	// Low and High bound the mean with 95 % confidence, Student's t; equal to
	// the mean for one test, of which nothing can be said.
	Low, High  quantity.Absorption
	Volume     quantity.AbsorptionVolume
	VolumeSD   quantity.AbsorptionVolume
	VolumeLow  quantity.AbsorptionVolume
	VolumeHigh quantity.AbsorptionVolume
	T          quantity.Ratio // the coverage factor
}

// RubOutVerdict says what the tests are worth together.
type RubOutVerdict uint8

const (
	NoTest      RubOutVerdict = iota // nothing yet: how to make one
	OneTest                          // one alone says nothing of its own scatter
	TwoAgree                         // two within the allowed spread
	TwoDiffer                        // two farther apart: a third is needed
	MoreAgree                        // three or more within it
	OneLiesOut                       // three or more, of which one fails an outlier test
	MoreScatter                      // three or more that scatter, none far out
)

// Standing is where the maker's figure lies beside what was foretold.
type Standing uint8

const (
	NotCompared Standing = iota // nothing was foretold
	Below                       // under the 10th percentile of the foretold range
	Within                      // between the two
	Above                       // over the 90th
)

// RubOutResult is the answer to a rub-out.
type RubOutResult struct {
	Request   RubOutRequest
	Figures   []RubOutFigure
	Mean      RubOutMean
	Agreement *evidence.Agreement                     // two tests or more
	Outliers  []evidence.Outlier[quantity.Absorption] // three or more
	// Without is the mean without the test that an outlier test names.
	Without  *RubOutMean
	Verdict  RubOutVerdict
	Standing Standing
	Foretold evidence.Range[quantity.Absorption]
	Guide    RubOutGuide
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// intervalConfidence is that of every interval of repeats.
const intervalConfidence evidence.Probability = 0.95

// outlierLevel is the level of significance of the outlier tests, two-sided.
const outlierLevel evidence.Probability = 0.05

// mostForDixon is the number of tests up to which Dixon advised his r10.
const mostForDixon = 7

// The least and the most oil absorption that a test is believed: what a
// catalogue entry may hold.
const (
	leastRubOut quantity.Absorption = 2
	mostRubOut  quantity.Absorption = 1000
)

// countedDrops is the oil of counted drops.
var countedDrops = trace.Relation{Name: "oil of counted drops", Equation: "m = N·m20/20", Source: "definition; twenty drops weighed"}

// RubOut works the tests out.
func RubOut(req RubOutRequest) (*RubOutResult, error) {
	if err := req.validate(); err != nil {
		return nil, err
	}
	res := &RubOutResult{Request: req, Guide: guideOf(&req)}
	var tr trace.Tracer
	for i, t := range req.Tests {
		f, err := req.figure(t, fmt.Sprintf("test %d", i+1), &tr)
		if err != nil {
			return nil, fmt.Errorf("test %d: %w", i+1, err)
		}
		res.Figures = append(res.Figures, f)
	}
	if len(res.Figures) > 0 {
		if err := res.judge(&tr); err != nil {
			return nil, err
		}
	}
	res.Cautions = powderCautions(DryPowder|InOil, req.Pigment, req.Oil.Material)
	res.Warnings = req.warnings(res)
	res.Steps = tr.Steps()
	return res, nil
}

// figure works one test out. The oil is turned to grams and millilitres by the
// density of the oil in the bottle, but for a volume of linseed oil, which the
// methods report with a density of their own.
func (r *RubOutRequest) figure(t RubOutTest, of string, tr *trace.Tracer) (RubOutFigure, error) {
	f := RubOutFigure{RubOutTest: t, Dry: powders.DryMass(t.Pigment, r.Moisture)}
	density := r.Oil.Density.Median
	if tr.On() && r.Moisture > 0 {
		tr.Note(powders.DryMassRelation, of, trace.T("m_dry", f.Dry, "g"), trace.T("m_damp", t.Pigment, "g"), trace.T("W", r.Moisture, ""))
	}
	switch t.Read {
	case Weighed:
		f.OilMass = t.Oil
	case Counted:
		f.OilMass = quantity.Mass(t.Drops) * r.Drop
		tr.Note(countedDrops, of, trace.T("m", f.OilMass, "g"), trace.T("N", float64(t.Drops), ""), trace.T("m20", r.Drop*20, "g"))
	}
	if t.Read == Measured {
		f.OilPour, f.OilMass = t.Volume, t.Volume.Mass(density)
		f.ByVolume = absorption.OilAbsorption(f.OilPour, f.Dry)
		tr.Note(absorption.OilAbsorptionRelation, of, trace.T("OAv", f.ByVolume, "ml/100g"), trace.T("V", f.OilPour, "ml"), trace.T("m", f.Dry, "g"))
		if r.Linseed {
			f.ByMass = absorption.ReportedAbsorption(f.OilPour, f.Dry)
			tr.Note(absorption.ReportedAbsorptionRelation, of, trace.T("OA", f.ByMass, "g/100g"), trace.T("V", f.OilPour, "ml"), trace.T("m", f.Dry, "g"))
		} else {
			f.ByMass = f.ByVolume.ByMass(density)
			tr.Note(absorptionByDensity, of, trace.T("OA", f.ByMass, "g/100g"), trace.T("OAv", f.ByVolume, "ml/100g"), trace.T("ρ", density, "g/ml"))
		}
	} else {
		f.OilPour = f.OilMass.Volume(density)
		f.ByMass = absorption.WeighedBottle(f.Dry, f.OilMass, 0)
		tr.Note(absorption.WeighedBottleRelation, of, trace.T("OA", f.ByMass, "g/100g"), trace.T("B − C", f.OilMass, "g"), trace.T("A", f.Dry, "g"))
		f.ByVolume = f.ByMass.ByVolume(density)
		tr.Note(absorptionByDensity, of, trace.T("OAv", f.ByVolume, "ml/100g"), trace.T("OA", f.ByMass, "g/100g"), trace.T("ρ", density, "g/ml"))
	}
	if !(f.ByMass >= leastRubOut && f.ByMass <= mostRubOut) {
		return f, refuse("%.3g g of oil on %.3g g of pigment is %.0f g/100 g, outside the %g to %g that any pigment takes; are the two swapped, or a unit wrong?",
			float64(f.OilMass), float64(f.Dry), float64(f.ByMass), float64(leastRubOut), float64(mostRubOut))
	}
	uOil := r.oilReading(t)
	uPigment := evidence.RootSum(evidence.Rectangular(r.Scale/2), evidence.Rectangular(r.Scale/2))
	f.Reading = absorption.AbsorptionUncertainty(f.ByMass, f.OilPour, uOil, density, 0, t.Pigment, uPigment)
	tr.Note(absorption.AbsorptionUncertaintyRelation, of, trace.T("u(OA)", f.Reading, "g/100g"), trace.T("uV", uOil, "ml"), trace.T("V", f.OilPour, "ml"),
		trace.T("um", uPigment, "g"), trace.T("m", t.Pigment, "g"))
	return f, nil
}

// absorptionByDensity turns one basis into the other.
var absorptionByDensity = trace.Relation{Name: "oil absorption on the other basis", Equation: "OA = OAv·ρ", Source: "definition of density; ρ of the oil used, from the catalogue"}

// oilReading is the standard uncertainty of the oil: two readings of half a
// division each way, and the last drop, within which the end point lies.
func (r *RubOutRequest) oilReading(t RubOutTest) quantity.Volume {
	density := r.Oil.Density.Median
	drop := evidence.Rectangular(r.Drop.Volume(density) / 2)
	weighing := evidence.Rectangular(r.Scale.Volume(density) / 2)
	switch t.Read {
	case Measured:
		reading := evidence.Rectangular(r.Division / 2)
		return evidence.RootSum(reading, reading, drop)
	case Counted:
		// The twenty drops were weighed once; their error is in every drop.
		each := quantity.Volume(t.Drops) / 20
		return evidence.RootSum(weighing*each, weighing*each, drop)
	}
	return evidence.RootSum(weighing, weighing, drop)
}

// judge says what the tests are worth together.
func (res *RubOutResult) judge(tr *trace.Tracer) error {
	grams := make([]quantity.Absorption, len(res.Figures))
	for i, f := range res.Figures {
		grams[i] = f.ByMass
	}
	var err error
	if res.Mean, err = meanOf(res.Figures, tr); err != nil {
		return err
	}
	n := len(grams)
	res.Verdict = OneTest
	if n >= 2 {
		a, err := evidence.Agree(grams, res.Request.Allowed)
		if err != nil {
			return err
		}
		res.Agreement = &a
		tr.Note(evidence.AgreementRelation, "tests", trace.T("spread", a.Spread, ""), trace.T("allowed", a.Allowed, ""))
		switch {
		case n == 2 && a.Agree:
			res.Verdict = TwoAgree
		case n == 2:
			res.Verdict = TwoDiffer
		case a.Agree:
			res.Verdict = MoreAgree
		default:
			res.Verdict = MoreScatter
		}
	}
	if n >= 3 {
		if err := res.outliers(grams, tr); err != nil {
			return err
		}
	}
	res.compare()
	return nil
}

// meanOf is the mean of figures on both bases.
func meanOf(figures []RubOutFigure, tr *trace.Tracer) (RubOutMean, error) {
	var grams []quantity.Absorption
	var volumes []quantity.AbsorptionVolume
	for _, f := range figures {
		grams, volumes = append(grams, f.ByMass), append(volumes, f.ByVolume)
	}
	g, err := evidence.Repeat(grams)
	if err != nil {
		return RubOutMean{}, err
	}
	v, err := evidence.Repeat(volumes)
	if err != nil {
		return RubOutMean{}, err
	}
	m := RubOutMean{Tests: g.N, Mean: g.Mean, SD: g.SD, Low: g.Mean, High: g.Mean,
		Volume: v.Mean, VolumeSD: v.SD, VolumeLow: v.Mean, VolumeHigh: v.Mean}
	if !g.HasSpread() {
		return m, nil
	}
	t, err := evidence.Student(intervalConfidence, float64(g.N-1))
	if err != nil {
		return RubOutMean{}, err
	}
	m.T = quantity.Ratio(t)
	if m.Low, m.High, err = g.Interval(intervalConfidence); err != nil {
		return RubOutMean{}, err
	}
	if m.VolumeLow, m.VolumeHigh, err = v.Interval(intervalConfidence); err != nil {
		return RubOutMean{}, err
	}
	// No pigment takes less than no oil.
	m.Low, m.VolumeLow = max(m.Low, 0), max(m.VolumeLow, 0)
	tr.Note(evidence.RepeatsRelation, "tests", trace.T("x̄", m.Mean, "g/100g"), trace.T("n", float64(m.Tests), ""), trace.T("s", m.SD, "g/100g"))
	tr.Note(evidence.StudentRelation, "tests", trace.T("half the interval", m.High-m.Mean, "g/100g"), trace.T("t", m.T, ""), trace.T("ν", float64(m.Tests-1), ""))
	return m, nil
}

// outliers tests the reading that lies farthest out: by Grubbs, and by Dixon
// where there are few.
func (res *RubOutResult) outliers(grams []quantity.Absorption, tr *trace.Tracer) error {
	g, err := evidence.Grubbs(grams, outlierLevel, evidence.TwoSided)
	if err != nil {
		return err
	}
	res.Outliers = append(res.Outliers, g)
	tr.Note(evidence.GrubbsRelation, fmt.Sprintf("test %d", g.Index+1), trace.T("G", g.Statistic, ""), trace.T("Gc", g.Critical, ""))
	if len(grams) <= mostForDixon {
		d, err := evidence.Dixon(grams, outlierLevel, evidence.TwoSided)
		if err != nil {
			return err
		}
		res.Outliers = append(res.Outliers, d)
		tr.Note(evidence.DixonRelation, fmt.Sprintf("test %d", d.Index+1), trace.T("Q", d.Statistic, ""), trace.T("Qc", d.Critical, ""))
	}
	if i := res.named(); i >= 0 {
		res.Verdict = OneLiesOut
		rest := append(append([]RubOutFigure(nil), res.Figures[:i]...), res.Figures[i+1:]...)
		m, err := meanOf(rest, nil)
		if err != nil {
			return err
		}
		res.Without = &m
	}
	return nil
}

// named is the test that an outlier test names, from 0; -1 for none. Tests that
// all agree well enough need none, and of three of which two are printed alike
// the third stands out whatever it is.
func (res *RubOutResult) named() int {
	if res.Agreement == nil || res.Agreement.Agree || res.SaysNothing() {
		return -1
	}
	for _, o := range res.Outliers {
		if o.Rejected {
			return o.Index
		}
	}
	return -1
}

// SaysNothing reports whether there are three tests of which two are printed
// alike: then no outlier test can tell.
func (res *RubOutResult) SaysNothing() bool {
	const fewest = 3
	for _, o := range res.Outliers {
		if o.Coarse && len(res.Figures) == fewest {
			return true
		}
	}
	return false
}

// Suspect is the test that lies out, from 1; 0 for none.
func (res *RubOutResult) Suspect() int { return res.named() + 1 }

// compare sets the mean beside what was foretold. Both are millilitres at
// heart; a stirred figure is not compared with rub-outs.
func (res *RubOutResult) compare() {
	req := &res.Request
	if !req.Expected.Known() || req.Method != material.RubOut || req.Oil.Material.Kind != material.Oil {
		return
	}
	r := req.Expected.Range()
	res.Foretold = absorption.Reported(r)
	switch v := res.Mean.Volume; {
	case v < r.Low:
		res.Standing = Below
	case v > r.High:
		res.Standing = Above
	default:
		res.Standing = Within
	}
}

// drowned is the share of a result that reading alone may leave uncertain
// before a larger portion is advised: half of the spread allowed.
func (r *RubOutRequest) drowned() quantity.Ratio { return r.Allowed / 2 }

func (r *RubOutRequest) warnings(res *RubOutResult) []string {
	var out []string
	if r.Method == material.GardnerColeman {
		out = append(out, "a stirred, soft end point (Gardner–Coleman, ASTM D1483) gives another figure than the rub-out, normally a higher one; the two never stand in one table, and a mull is worked out from it only where nothing else is known")
	}
	switch {
	case r.Linseed:
	case r.Oil.Material.Kind != material.Oil:
		out = append(out, fmt.Sprintf("%s is not an oil: the figure is a liquid demand, not an oil absorption", r.Oil.Material.Name))
	case r.Oil.Material.AbsorptionDoubtful != "":
		out = append(out, fmt.Sprintf("found with %s, which may not be taken up in the same volume as thin linseed oil: keep it apart from other figures", r.Oil.Material.Name))
	default:
		out = append(out, fmt.Sprintf("found with %s; the methods call for linseed oil. By volume thin drying oils are taken as alike (common practice), by mass they are not", r.Oil.Material.Name))
	}
	if r.Moisture > 0 {
		out = append(out, say("worked out for dry pigment, without the %.3g %% water; damp pigment still rubs out differently, so a dry one is the better test", 100*float64(r.Moisture)))
	}
	for i, f := range res.Figures {
		if quantity.Ratio(f.Reading/f.ByMass) > r.drowned() {
			out = append(out, say("in test %d balance and last drop alone leave %.2g %% of the result uncertain: take more pigment, or a finer dropper or balance",
				i+1, 100*float64(f.Reading/f.ByMass)))
		}
	}
	return out
}

func (r *RubOutRequest) validate() error {
	switch {
	case r.Pigment != nil && !r.Pigment.Kind.IsPigment():
		return fmt.Errorf("%s is a %s, not a powder to rub out", r.Pigment.ID, r.Pigment.Kind)
	case r.Oil.Material == nil || !r.Oil.Density.Known():
		return errors.New("the oil of the test is not known")
	case r.Method != material.RubOut && r.Method != material.GardnerColeman:
		return fmt.Errorf("%q is not an end point of a test by hand; accepted: %s, %s", r.Method, material.RubOut, material.GardnerColeman)
	case checkShares(r.Moisture, 0) != nil:
		return checkShares(r.Moisture, 0)
	case !(r.Allowed > 0) || r.Allowed > 1:
		return errors.New("the spread allowed must be above 0 and at most 100 % of the mean")
	case negative(r.Scale) || negative(r.Division) || negative(r.Drop):
		return errors.New("divisions of balance and burette and the drop must not be negative")
	case len(r.Tests) > mostTests:
		return fmt.Errorf("%d tests are more than one answer takes; at most %d", len(r.Tests), mostTests)
	}
	for i, t := range r.Tests {
		if err := t.validate(r.Drop); err != nil {
			return fmt.Errorf("test %d: %w", i+1, err)
		}
	}
	for _, text := range []string{r.Lot, r.Date, r.Remark} {
		if strings.ContainsFunc(text, unicode.IsControl) || len(text) > mostWords {
			return fmt.Errorf("lot, date and remark are one line each, of at most %d letters", mostWords)
		}
	}
	return nil
}

const (
	mostTests = 100
	mostWords = 200
)

func (t RubOutTest) validate(drop quantity.Mass) error {
	if !positive(t.Pigment) {
		return errors.New("the pigment's mass must be above nothing")
	}
	switch t.Read {
	case Weighed:
		if !positive(t.Oil) {
			return errors.New("the oil's mass must be above nothing")
		}
	case Measured:
		if !positive(t.Volume) {
			return errors.New("the oil's volume must be above nothing")
		}
	case Counted:
		if t.Drops < 1 || !positive(drop) {
			return errors.New("drops are a count from 1, and twenty of them must have been weighed")
		}
	default:
		return errors.New("how the oil was read is not said")
	}
	return nil
}
