package formulate

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// What a maker's own tests teach.
//
// Two quantities are learned of a pigment, each by [evidence.Update]. Rub-outs
// teach its oil absorption; batches that reached a named body teach its oil at
// tube colour. The two are hardly tied: by the fit of package absorption the
// second moves with the 0.3rd power of the first at most, so that one batch
// would narrow an oil absorption by some 2 % of its width and a rub-out leaves
// the demand as wide as it was. A batch therefore teaches no oil absorption; a
// rub-out moves the demand but does not narrow it. A body given as a ratio was
// worked out from an oil absorption and teaches nothing, or the maker's own
// number would confirm the catalogue's.
//
// Lot-to-lot and test-to-test spread are kept apart: what one jar teaches says
// of another only what they have in common.
//
// Rub-outs stand in the maker's batch book or, as own measurements, in the
// material itself, which comes from a catalogue file of theirs. Both go the same
// way. A test that does not fit what is published is left out (learn_fit.go).

// A Trial is one rub-out or one batch of a pigment.
type Trial struct {
	Number int    // of its entry in the maker's book; 0 where it stands in the material
	Lot    string // the maker's own word for the jar, "" where it was not named
	Sure   bool   // it counts, however far out it lies
	// Exactly one of the two is set.
	RubOut *OwnRubOut
	Batch  *Batch
}

// OwnRubOut is the mean of one or more rub-outs made together.
type OwnRubOut struct {
	Value   quantity.AbsorptionVolume
	Tests   int
	Scatter quantity.Ratio // standard deviation of one test, of the mean; 0 where it is not known
	Method  material.Method
	Oil     *material.Material // nil: linseed oil
}

// Validate refuses a figure that no pigment has.
func (r *OwnRubOut) Validate() error {
	low, high := leastRubOut.ByVolume(quantity.ReportingOilDensity), mostRubOut.ByVolume(quantity.ReportingOilDensity)
	switch {
	case !(r.Value >= low && r.Value <= high):
		return refuse("%.4g ml/100 g is outside the %.3g to %.4g that any pigment takes", float64(r.Value), float64(low), float64(high))
	case r.Tests < 1 || r.Tests > mostTests:
		return fmt.Errorf("%d tests; accepted: 1 to %d", r.Tests, mostTests)
	case !(r.Scatter >= 0 && r.Scatter <= 1):
		return refuse("a scatter of %.4g of the mean cannot be; accepted: 0 to 1", float64(r.Scatter))
	case r.Scatter > 0 && r.Tests == 1:
		return errors.New("one test has no scatter")
	}
	return nil
}

// A LearnRequest asks what trials teach of one pigment.
type LearnRequest struct {
	Pigment Ingredient
	Trials  []Trial // those of the maker's book, in the order they were made
	// Jar is the lot that is asked about; nil for the one last used.
	Jar *string
	// Mull, where set, is a mull of the pigment alone whose first pour is worked
	// out with and without what was learned.
	Mull *MullRequest
}

// BatchScatter is the log standard deviation of the oil of a batch about what
// its pigment takes at the body named. A name covers everything that is nearer
// to it than to its neighbour, half the smallest step between two named bodies
// either way, and anything within is as likely (JCGM 100:2008, clause 4.3.7).
// Basis: common practice; no published scatter of repeated batches was found.
func BatchScatter() float64 { return evidence.Rectangular(math.Log(float64(stepWidth())) / 2) }

// scatterWeight is how many repeats the assumed scatter of a test counts for
// beside the maker's own: enough that chance in a few batches does not narrow the
// range, and a hand that scatters twice as much shows within ten. Basis: model of
// this program, settled by the coverage that its test measures.
const scatterWeight = 20

var ownScatter = trace.Relation{
	Name:     "scatter of the maker's own tests",
	Equation: "σtest² = (ν₀σ₀² + Σn(ln y − mean of the jar)²)/(ν₀ + ν)",
	Source:   "scaled inverse chi-square shrinkage; Gelman and others, Bayesian Data Analysis, chapter 2 (from memory)",
}

// A scatter gathers how far tests of one jar lie from each other.
type scatter struct {
	assumed float64
	squares float64 // Σn(ln y − mean of the jar)²
	free    float64 // ν: entries less jars, and what repeats there were in one entry
	jars    map[string]*jarMean
}

type jarMean struct{ weight, mean float64 }

// within takes the scatter that several tests of one entry showed.
func (s *scatter) within(sd float64, tests int) {
	s.squares += sd * sd * float64(tests-1)
	s.free += float64(tests - 1)
}

func newScatter(assumed float64) *scatter {
	return &scatter{assumed: assumed, jars: map[string]*jarMean{}}
}

// add takes one more entry, the mean of so many tests, by Welford's update.
func (s *scatter) add(lot string, ln, tests float64) {
	j := s.jars[lot]
	if j == nil {
		s.jars[lot] = &jarMean{tests, ln}
		return
	}
	d := ln - j.mean
	j.weight += tests
	j.mean += d * tests / j.weight
	s.squares += tests * d * (ln - j.mean)
	s.free++
}

// sigma is the scatter of one test: the assumed one, as far as the maker's own
// does not correct it.
func (s *scatter) sigma() float64 {
	return math.Sqrt((scatterWeight*s.assumed*s.assumed + s.squares) / (scatterWeight + s.free))
}

// A Learned quantity: the catalogue's belief, and the maker's.
type Learned[Q quantity.Real] struct {
	Catalogue evidence.Distribution[Q]
	Tests     int // all lots
	JarTests  int // of the jar asked about
	// Own is what is believed of the jar asked about.
	Own evidence.Distribution[Q]
	// Scatter is the log standard deviation of one test about its jar: as Assumed,
	// corrected by the maker's own.
	Scatter, Assumed float64
	// Lots lists every jar, by name; NewJar is one not yet opened.
	Lots   []evidence.LotPosterior[Q]
	NewJar evidence.Distribution[Q]

	posterior evidence.Posterior[Q]
}

// NextTest is what one more test of a jar should come to.
func (l *Learned[Q]) NextTest(lot string) evidence.Distribution[Q] {
	d := l.posterior.Lot(lot)
	d.Sigma = math.Hypot(d.Sigma, l.Scatter)
	return d
}

// A Conflict names a trial that lies far from what was believed of its jar.
type Conflict struct {
	Number  int
	Lot     string
	Batch   bool   // a batch; else a rub-out
	Against string // [TheCatalogue] or [EarlierTests]
	LeftOut bool   // it taught nothing
	Sure    bool   // it taught, as the maker is sure of it
	// Found and Believed are g per 100 g: oil absorption of a rub-out, oil at
	// tube colour of a batch. Believed is of such a test, its scatter included.
	Found    quantity.Absorption
	Believed evidence.Range[quantity.Absorption]
	evidence.Conflict
}

// What a trial is set beside.
const (
	TheCatalogue = "the catalogue"
	EarlierTests = "your earlier tests of this jar"
)

// Unused names a trial that teaches nothing, and why.
type Unused struct {
	Number int
	Why    string
}

// LearnResult is what the trials teach.
type LearnResult struct {
	Request LearnRequest
	Jar     string
	// Absorption is the oil absorption, from rub-outs; Demand the oil at tube
	// colour, from batches.
	Absorption Learned[quantity.AbsorptionVolume]
	Demand     Learned[quantity.AbsorptionVolume]
	// Pigment is the ingredient with what was learned.
	Pigment   Ingredient
	Conflicts []Conflict
	Unused    []Unused
	// Pours are those of the mull asked about, by the catalogue and by the book.
	Pours    *PourShift
	Next     []NextTest
	Warnings []string
	Steps    []trace.Step
}

// PourShift is how far the book moved a first pour.
type PourShift struct{ Catalogue, Own Pours }

// A NextTest is one that might be made next of the jar, and the share of the
// log width that it would take off each range.
type NextTest struct {
	Name       string
	Absorption quantity.Ratio // off the oil absorption
	Demand     quantity.Ratio // off the oil of a batch at a named body
}

// Relations of the learning itself.
var (
	demandOfBatch = trace.Relation{Name: "oil at tube colour from a batch", Equation: "D = 100·Voil/(mdry·k)", Source: "definition; k: the oil of the named body beside tube colour"}
	// batchSplit takes the scatter of one batch out of the catalogue's variance:
	// a published demand is that of a batch too.
	batchSplit = trace.Relation{Name: "catalogue spread without the scatter of a batch", Equation: "σ² = T² − σbatch²", Source: "model of this program"}
)

// TubeDemandOfBatch is the oil a batch would have taken at tube colour, in ml
// per 100 g of dry pigment: D = 100·V/(m·k), V the oil in ml, m the dry pigment
// in g, k the oil of the body reached beside that of tube colour.
func TubeDemandOfBatch(oil quantity.Volume, dry quantity.Mass, reached absorption.Step) quantity.AbsorptionVolume {
	return absorption.OilAbsorption(oil, dry) / quantity.AbsorptionVolume(reached.Oil)
}

// Learn works the trials, and those that stand in the material, into what is
// published.
func Learn(req LearnRequest) (*LearnResult, error) {
	if req.Pigment.Material == nil || !req.Pigment.Demand.Known() {
		return nil, errors.New("a pigment with a known oil demand is needed")
	}
	own := ownTrials(req.Pigment.Material)
	req.Pigment, req.Trials = req.Pigment.untaught(), append(own, req.Trials...)
	res, err := learnFrom(req)
	if err != nil {
		return nil, err
	}
	if len(own) > 0 && slices.ContainsFunc(req.Trials[len(own):], func(t Trial) bool { return t.RubOut != nil }) {
		res.Warnings = append(res.Warnings, "your catalogue file holds rub-outs of your own too; one that stands there and in the book counts twice")
	}
	return res, nil
}

// learnFrom works trials into an ingredient that is as published.
func learnFrom(req LearnRequest) (*LearnResult, error) {
	res := &LearnResult{Request: req, Pigment: req.Pigment}
	res.Absorption.Assumed, res.Demand.Assumed = evidence.RubOutScatter, BatchScatter()
	var tr trace.Tracer
	rubOuts, batches, err := res.sort(&tr)
	if err != nil {
		return nil, err
	}
	prior, err := evidence.Split(req.Pigment.Demand.Oil(), evidence.EvenSplit)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", req.Pigment.Material.ID, err)
	}
	of, err := demandPrior(&req.Pigment, nil)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", req.Pigment.Material.ID, err)
	}
	if rubOuts, err = res.fitting(prior, rubOuts, res.Absorption.Assumed); err != nil {
		return nil, err
	}
	if batches, err = res.fitting(of, batches, res.Demand.Assumed); err != nil {
		return nil, err
	}
	res.Jar = res.jar()
	if err := res.learn(&res.Absorption, prior, rubOuts, "oil absorption", &tr); err != nil {
		return nil, err
	}
	if len(rubOuts) > 0 {
		res.Pigment = res.Pigment.WithAbsorption(res.Absorption.Own)
	}
	if prior, err = demandPrior(&res.Pigment, &tr); err != nil {
		return nil, fmt.Errorf("%s: %w", req.Pigment.Material.ID, err)
	}
	if err := res.learn(&res.Demand, prior, batches, "oil at tube colour", &tr); err != nil {
		return nil, err
	}
	// The catalogue's own belief is that before any rub-out.
	res.Demand.Catalogue = req.Pigment.Demand.TubeColour(req.Pigment.Density.Median)
	if len(batches) > 0 {
		res.Pigment = res.Pigment.WithDemand(res.Demand.Own, res.Demand.Scatter)
	}
	slices.SortStableFunc(res.Conflicts, func(a, b Conflict) int { return a.Number - b.Number })
	res.teach()
	if res.Next, err = res.next(); err != nil {
		return nil, err
	}
	if req.Mull != nil {
		if res.Pours, err = pourShift(*req.Mull, req.Pigment, res.Pigment); err != nil {
			return nil, err
		}
	}
	res.Steps = tr.Steps()
	return res, nil
}

// next says how far one more test of the jar would narrow what is known.
func (res *LearnResult) next() ([]NextTest, error) {
	rubOut := evidence.Test{Name: "rub-out of this jar", Lot: res.Jar, Scatter: res.Absorption.Scatter}
	batch := evidence.Test{Name: "batch of this jar, to a named body", Lot: res.Jar, Scatter: res.Demand.Scatter}
	a, err := res.Absorption.posterior.Gains(res.Jar, rubOut)
	if err != nil {
		return nil, err
	}
	d, err := res.Demand.posterior.Gains(res.Jar, batch)
	if err != nil {
		return nil, err
	}
	// A batch scatters about what its jar takes, however well that is known.
	before, after := math.Hypot(d[0].Before, batch.Scatter), math.Hypot(d[0].After, batch.Scatter)
	return []NextTest{
		{Name: rubOut.Name, Absorption: a[0].Narrowing},
		{Name: batch.Name, Demand: quantity.Ratio(1 - after/before)},
	}, nil
}

// pourShift pours the same mull twice.
func pourShift(req MullRequest, catalogue, own Ingredient) (*PourShift, error) {
	var shift PourShift
	for _, x := range []struct {
		in Ingredient
		to *Pours
	}{{catalogue, &shift.Catalogue}, {own, &shift.Own}} {
		req.Pigments = []Share{{Ingredient: x.in, Parts: 1}}
		r, err := Mull(req)
		if err != nil {
			return nil, err
		}
		*x.to = r.Pours
	}
	return &shift, nil
}

// demandPrior is the belief about the oil at tube colour before any batch.
func demandPrior(in *Ingredient, tr *trace.Tracer) (evidence.Prior[quantity.AbsorptionVolume], error) {
	d := in.Demand.TubeColour(in.Density.Median)
	total := d.Sigma
	d.Sigma = math.Sqrt(max(total*total-BatchScatter()*BatchScatter(), 0))
	tr.Note(batchSplit, in.Material.ID, trace.T("σ", d.Sigma, ""), trace.T("T", total, ""), trace.T("σbatch", BatchScatter(), ""))
	return evidence.Split(d, evidence.EvenSplit)
}

// jar is the lot asked about: the one named, or the one last used. A test that
// was left out is no word on which jar is in use.
func (res *LearnResult) jar() string {
	r := &res.Request
	if r.Jar != nil {
		return *r.Jar
	}
	for i := len(r.Trials) - 1; i >= 0; i-- {
		if t := &r.Trials[i]; !slices.ContainsFunc(res.Conflicts, func(c Conflict) bool { return c.LeftOut && c.of(t) }) {
			return t.Lot
		}
	}
	return ""
}

// seen is a trial as what it says of its jar.
type seen struct {
	trial *Trial
	tests int
	value quantity.AbsorptionVolume
	extra float64 // log standard deviation beside the scatter of a test
	// within is the log standard deviation that its tests showed among each other.
	within float64
}

// each is one of its tests.
func (s *seen) each(scatter float64) evidence.Observation[quantity.AbsorptionVolume] {
	return evidence.Observation[quantity.AbsorptionVolume]{Lot: s.trial.Lot, Value: s.value, Scatter: math.Hypot(scatter, s.extra)}
}

// mean is all of its tests, which are alike.
func (s *seen) mean(scatter float64) evidence.Observation[quantity.AbsorptionVolume] {
	return s.each(scatter / math.Sqrt(float64(s.tests)))
}

// into adds the trial to what is known of scatter, unless it has more of its own.
func (s *seen) into(sc *scatter) {
	if s.extra == 0 {
		sc.add(s.trial.Lot, math.Log(float64(s.value)), float64(s.tests))
		sc.within(s.within, s.tests)
	}
}

// sort turns the trials into observations, and names those that teach nothing.
func (res *LearnResult) sort(tr *trace.Tracer) (rubOuts, batches []seen, err error) {
	for i := range res.Request.Trials {
		t := &res.Request.Trials[i]
		var s seen
		var why string
		switch {
		case t.RubOut != nil:
			if s, why, err = t.rubOut(); err == nil && why == "" {
				rubOuts = append(rubOuts, s)
			}
		case t.Batch != nil:
			if s, why, err = t.batch(res.Request.Pigment.Material.ID, tr); err == nil && why == "" {
				batches = append(batches, s)
			}
		default:
			err = errors.New("neither a rub-out nor a batch")
		}
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", t.name(), err)
		}
		if why != "" {
			res.Unused = append(res.Unused, Unused{t.Number, why})
		}
	}
	return rubOuts, batches, nil
}

func (t *Trial) rubOut() (s seen, why string, err error) {
	r := t.RubOut
	if err := r.Validate(); err != nil {
		return s, "", err
	}
	switch {
	case r.Method != material.RubOut:
		return s, fmt.Sprintf("a figure by %s is not a rub-out; the two are never mixed", r.Method), nil
	case r.Oil != nil && r.Oil.AbsorptionDoubtful != "":
		return s, fmt.Sprintf("rubbed out with %s, which may not be taken up in the same volume as thin linseed oil", r.Oil.Name), nil
	}
	return seen{trial: t, tests: r.Tests, value: r.Value, within: float64(r.Scatter)}, "", nil
}

func (t *Trial) batch(id string, tr *trace.Tracer) (s seen, why string, err error) {
	b := t.Batch
	switch {
	case len(b.Pigments)+len(b.Extenders) > 1:
		return s, "more than one powder or jar went in; it says nothing of one alone", nil
	case len(b.Pigments) != 1 || b.Pigments[0].Material.ID != id:
		return s, "", fmt.Errorf("it is not of %s", id)
	case b.Body == (absorption.Step{}):
		return s, "the body it reached was not written down", nil
	case b.Body.Name == "":
		return s, "a body given as a ratio was worked out from an oil absorption, so it cannot teach one", nil
	}
	dry, oil := b.DryPigment(), b.oilVolume()
	if !(dry > 0 && oil > 0) {
		return s, "no oil was written down", nil
	}
	s = seen{trial: t, tests: 1}
	for i := range b.Oils {
		if b.Oils[i].Material.AbsorptionDoubtful != "" {
			s.extra = doubtfulOilSigma
			break
		}
	}
	d := TubeDemandOfBatch(oil, dry, b.Body)
	tr.Note(demandOfBatch, fmt.Sprintf("entry %d", t.Number), trace.T("D", d, "ml/100g"), trace.T("Voil", oil, "ml"), trace.T("mdry", dry, "g"), trace.T("k", b.Body.Oil, ""))
	s.value = d
	return s, "", nil
}

// learn updates one quantity and looks for trials that contradict it.
func (res *LearnResult) learn(l *Learned[quantity.AbsorptionVolume], prior evidence.Prior[quantity.AbsorptionVolume], all []seen, of string, tr *trace.Tracer) error {
	sc := newScatter(l.Assumed)
	for i := range all {
		all[i].into(sc)
	}
	l.Scatter = sc.sigma()
	var observations []evidence.Observation[quantity.AbsorptionVolume]
	for _, s := range all {
		for range s.tests {
			observations = append(observations, s.each(l.Scatter))
		}
		l.Tests += s.tests
		if s.trial.Lot == res.Jar {
			l.JarTests += s.tests
		}
	}
	p, err := evidence.Update(prior, observations)
	if err != nil {
		return err
	}
	l.posterior = p
	l.Catalogue = res.Request.Pigment.Demand.Oil()
	l.Own, l.Lots, l.NewJar = p.Lot(res.Jar), p.Lots, p.NewLot
	if len(all) > 0 {
		tr.Note(ownScatter, of, trace.T("σtest", l.Scatter, ""), trace.T("ν₀", float64(scatterWeight), ""), trace.T("σ₀", l.Assumed, ""), trace.T("ν", sc.free, ""))
		tr.Note(evidence.SplitRelation, of, trace.T("σ", math.Hypot(prior.General.Sigma, prior.Lot), ""), trace.T("s₀", prior.General.Sigma, ""), trace.T("σlot", prior.Lot, ""))
		tr.Note(evidence.UpdateRelation, of+", "+lotText(res.Jar), trace.T("m", l.Own.Median, "ml/100g"), trace.T("σ", l.Own.Sigma, ""),
			trace.T("m before", prior.General.Median, "ml/100g"), trace.T("tests", float64(l.Tests), ""), trace.T("of this jar", float64(l.JarTests), ""))
	}
	return res.conflicts(prior, all, l.Assumed)
}

func lotText(lot string) string {
	if lot == "" {
		return "lot not named"
	}
	return "lot " + lot
}

// ByMassRange turns a belief in ml per 100 g into the grams of linseed oil that
// are reported.
func ByMassRange(d evidence.Distribution[quantity.AbsorptionVolume]) evidence.Range[quantity.Absorption] {
	return absorption.Reported(d.Range())
}

// WithDemand returns the ingredient with the oil at tube colour that the
// maker's own batches taught of a jar. The next batch scatters about it as the
// earlier ones did.
func (in Ingredient) WithDemand(own evidence.Distribution[quantity.AbsorptionVolume], scatter float64) Ingredient {
	own.Sigma = math.Hypot(own.Sigma, scatter)
	in.Demand = in.Demand.WithOwn(own)
	in.OwnDemand = true
	return in
}
