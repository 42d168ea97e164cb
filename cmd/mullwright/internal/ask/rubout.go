package ask

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// Defaults of a rub-out: a balance to a hundredth of a gram, a burette or a
// syringe in tenths of a millilitre (ASTM D281 asks for that burette).
const (
	DefaultTestScale = "0.01 g"
	DefaultDivision  = "0.1 ml"
)

// RubOut is a rub-out as asked.
type RubOut struct {
	Pigment     []string // one name, or none
	NewJar               // or a jar that no catalogue holds
	Density     string   // of that jar
	PigmentMass string
	Took        []string
	Oil         string
	TwentyDrops string
	EndPoint    string
	Expected    string
	Moisture    string
	Allowed     string
	Scale       string
	Division    string
	Lot         string
	Date        string
	Remark      string
	Guide       bool
}

// Fields lists what may be said of a rub-out.
func (r *RubOut) Fields() []Field {
	return append([]Field{
		{Name: "pigment", Many: &r.Pigment, Help: "the pigment", FileOnly: true},
		{Name: "pigment-mass", One: &r.PigmentMass, Help: "pigment of each test, where a test does not say its own"},
		{Name: "took", Many: &r.Took, Help: "oil a test took: 2.05g, 2.2ml, \"67 drops\", two readings as \"85.32g to 83.27g\"; with its own pigment as \"2.05g on 5.02g\"; repeat for each test"},
		{Name: "oil", One: &r.Oil, Help: "what it was rubbed out with (default " + DefaultOil + ")"},
		{Name: "twenty-drops", One: &r.TwentyDrops, Help: "what 20 drops from your dropper weigh, for tests counted in drops"},
		{Name: "end-point", One: &r.EndPoint, Help: "rub-out (stiff paste, rubbed) or gardner-coleman (soft paste, stirred) (default rub-out)"},
		{Name: "expected", One: &r.Expected, Help: "oil absorption you expect, as in 40g/100g, where the catalogue has none"},
		{Name: "moisture", One: &r.Moisture, Help: "water in the pigment, of the damp mass, as in 2%"},
		{Name: "allowed", One: &r.Allowed, Help: "how far apart tests may lie, of their mean (default 5%, common practice)"},
		{Name: "scale", One: &r.Scale, Help: "one division of your balance (default " + DefaultTestScale + ")"},
		{Name: "division", One: &r.Division, Help: "one division of your burette or syringe (default " + DefaultDivision + ")"},
		{Name: "lot", One: &r.Lot, Help: "which jar or lot, in your words"},
		{Name: "date", One: &r.Date, Help: "when, in your words"},
		{Name: "remark", One: &r.Remark, Help: "anything else to keep with the result"},
		{Name: "guide", Yes: &r.Guide, Help: "how to make the test, whether or not there are results"},
		{Name: "density", One: &r.Density, Help: "of a jar with --name: its true density, as in 5.0g/ml, from 'powder density'"},
	}, r.NewJar.fields()...)
}

// Request turns the question into a request.
func (r *RubOut) Request(w *Workshop) (formulate.RubOutRequest, error) {
	req := formulate.RubOutRequest{Lot: r.Lot, Date: r.Date, Remark: r.Remark}
	if len(r.Pigment) > 1 {
		return req, fmt.Errorf("%d pigments are given; a rub-out is of one", len(r.Pigment))
	}
	var err error
	if req.Pigment, err = r.NewJar.pigment(w, r.Pigment); err != nil {
		return req, err
	}
	req.Unlisted = r.Name != ""
	if r.Density != "" {
		if !req.Unlisted {
			return req, at("density", errors.New("this is the density of a jar that the catalogue lacks; give its --name too"))
		}
		if req.Pigment.Density, err = ownDensity(r.Density); err != nil {
			return req, at("density", err)
		}
	}
	if req.Oil, err = w.Medium(orOne(r.Oil, DefaultOil)); err != nil {
		return req, at("oil", err)
	}
	req.Linseed = isLinseed(req.Oil.Material.ID)
	if err := r.expected(&req); err != nil {
		return req, at("expected", err)
	}
	req.Method = material.Method(orOne(r.EndPoint, string(material.RubOut)))
	if req.Method != material.RubOut && req.Method != material.GardnerColeman {
		return req, at("end-point", fmt.Errorf("%q is not an end point; accepted: %s, %s", r.EndPoint, material.RubOut, material.GardnerColeman))
	}
	if req.Moisture, err = shareOr(r.Moisture, 0); err != nil {
		return req, at("moisture", err)
	}
	req.Allowed = evidence.CommonSpread
	if r.Allowed != "" {
		a, err := fraction(r.Allowed)
		if err != nil {
			return req, at("allowed", err)
		}
		req.Allowed = quantity.Ratio(a)
	}
	if err := req.Scale.Set(orOne(r.Scale, DefaultTestScale)); err != nil {
		return req, at("scale", err)
	}
	if err := req.Division.Set(orOne(r.Division, DefaultDivision)); err != nil {
		return req, at("division", err)
	}
	if req.Drop, err = oneDrop(req.Oil.Material, r.TwentyDrops); err != nil {
		return req, err
	}
	var each quantity.Mass
	if r.PigmentMass != "" {
		if err := each.Set(r.PigmentMass); err != nil {
			return req, at("pigment-mass", err)
		}
	}
	for _, text := range r.Took {
		t, err := readTest(text, each)
		if err == nil && t.Read == formulate.Counted && r.TwentyDrops == "" {
			err = errors.New("drops differ by a factor of two from dropper to dropper: weigh 20 of yours and give --twenty-drops")
		}
		if err != nil {
			return req, at("took", err)
		}
		req.Tests = append(req.Tests, t)
	}
	if len(req.Tests) == 0 && req.Pigment == nil && !r.Guide {
		return req, errors.New("nothing to work out: name a pigment for the guide, or give results with --took and --pigment-mass")
	}
	return req, nil
}

// isLinseed says which oils the methods call for, and report at their own density.
func isLinseed(id string) bool { return id == "linseed-oil" || id == "refined-linseed-oil" }

// expected settles what the absorption is expected to be: as the maker says, or
// as the catalogue has it, or as published artists' demand foretells it.
func (r *RubOut) expected(req *formulate.RubOutRequest) error {
	if r.Expected != "" {
		oa, err := quantity.ParseAbsorption(r.Expected)
		if err != nil {
			return err
		}
		req.Expected = evidence.Distribution[quantity.AbsorptionVolume]{Median: oa.ByVolume(quantity.ReportingOilDensity), Sigma: material.AbsorptionWidth.Sigma}
		req.ExpectedBy = "you expect it"
		return nil
	}
	if req.Pigment == nil {
		return nil
	}
	d, method := req.Pigment.AbsorptionDistribution()
	req.Expected, req.ExpectedBy = d, "published, method "+string(method)
	in, err := formulate.NewIngredient(req.Pigment)
	if d.Known() {
		if err == nil && in.Learned != nil {
			req.Expected, req.ExpectedBy = in.Learned.Absorption.NextTest(req.Lot), "your own earlier tests"
		}
		return nil
	}
	req.ExpectedBy = ""
	if err != nil {
		return nil // nothing is known of it: the guide shows the whole table
	}
	if in.Demand.Basis() == absorption.FromDemand {
		low, mid := in.Demand.OilAbsorption(-1), in.Demand.OilAbsorption(0)
		req.Expected = evidence.Distribution[quantity.AbsorptionVolume]{Median: mid, Sigma: math.Log(float64(mid / low))}
		req.ExpectedBy = "inferred from published artists' demand; no oil absorption is published"
	}
	return nil
}

// readTest reads one test: oil, and the pigment it went on where that differs
// from the others'.
func readTest(text string, each quantity.Mass) (formulate.RubOutTest, error) {
	oil, on, own := strings.Cut(text, " on ")
	t, err := readOil(strings.TrimSpace(oil))
	if err != nil {
		return t, err
	}
	t.Pigment = each
	if own {
		if err := t.Pigment.Set(on); err != nil {
			return t, err
		}
	}
	if t.Pigment == 0 {
		return t, fmt.Errorf("%q: on how much pigment? give --pigment-mass for all, or say \"%s on 5.02g\"", text, strings.TrimSpace(oil))
	}
	return t, nil
}

// readOil reads what a test took: a mass, a volume, a count of drops, or two
// readings of which the difference counts.
func readOil(text string) (formulate.RubOutTest, error) {
	if n, ok := dropCount(text); ok {
		if n < 1 || n > 10000 {
			return formulate.RubOutTest{}, fmt.Errorf("%q: a count of drops is from 1 to 10000", text)
		}
		return formulate.RubOutTest{Read: formulate.Counted, Drops: n}, nil
	}
	before, after, two := strings.Cut(text, " to ")
	if !two {
		return oneReading(text)
	}
	b, err := oneReading(after)
	if err != nil {
		return b, err
	}
	if strings.Trim(before, " 0123456789.,") == "" {
		before += strings.TrimLeft(after, " 0123456789.,")
	}
	// A burette may begin at nothing.
	if n, reason := quantity.Number(strings.TrimRight(before, " mlcgk")); reason == "" && n == 0 {
		return b, nil
	}
	a, err := oneReading(before)
	if err != nil {
		return a, err
	}
	if a.Read != b.Read {
		return a, fmt.Errorf("%q: one reading is a mass, the other a volume", text)
	}
	// A bottle grows lighter, a burette or a dish reads more.
	a.Oil, a.Volume = between(a.Oil, b.Oil), between(a.Volume, b.Volume)
	if a.Oil == 0 && a.Volume == 0 {
		return a, fmt.Errorf("%q: the two readings are alike, so no oil was taken", text)
	}
	return a, nil
}

// between is the difference of two readings without binary dust.
func between[Q quantity.Real](a, b Q) Q {
	return Q(math.Round(math.Abs(float64(a-b))*1e6) / 1e6)
}

func oneReading(text string) (formulate.RubOutTest, error) {
	m, err := quantity.ParseMass(text)
	if err == nil {
		return formulate.RubOutTest{Read: formulate.Weighed, Oil: m}, nil
	}
	v, verr := quantity.ParseVolume(text)
	if verr == nil {
		return formulate.RubOutTest{Read: formulate.Measured, Volume: v}, nil
	}
	var q *quantity.Error
	reason := err
	if errors.As(err, &q) && strings.Contains(q.Reason, "unit of volume") && errors.As(verr, &q) {
		reason = verr
	}
	if errors.As(reason, &q) {
		return formulate.RubOutTest{}, fmt.Errorf("%q: %s; accepted: a mass as 2.05g, a volume as 2.2ml, drops as \"67 drops\", two readings as \"85.32g to 83.27g\"", text, q.Reason)
	}
	return formulate.RubOutTest{}, reason
}

// dropCount reads "67 drops".
func dropCount(text string) (int, bool) {
	for _, word := range []string{"drops", "drop"} {
		if count, ok := strings.CutSuffix(text, word); ok {
			n, err := strconv.Atoi(strings.TrimSpace(count))
			return n, err == nil
		}
	}
	return 0, false
}

// OwnEntry prints the result as a catalogue file of the maker's own. Of a pigment
// of the catalogue it holds the field oil-absorption with a reading for each
// test. That takes the place of the catalogue's field, so all that stood there is
// written too: what is published, which the tests narrow, and earlier tests. A jar
// of the maker's own is written whole.
func (w *Workshop) OwnEntry(res *formulate.RubOutResult) (string, error) {
	req := &res.Request
	switch {
	case req.Pigment == nil:
		return "", errors.New("say what the result is to be saved for: a pigment of the catalogue or, for a jar that it lacks, --name and --density")
	case len(res.Figures) == 0:
		return "", errors.New("there is no result to save; give the tests with --took")
	case req.Oil.Material.Kind != material.Oil:
		return "", fmt.Errorf("%s is not an oil: a liquid demand is not kept as an oil absorption", req.Oil.Material.ID)
	}
	readings := ownReadings(res)
	if req.Pigment.Own {
		whole := *req.Pigment
		whole.OilAbsorption = readings
		return w.wholeEntry(&whole)
	}
	comment := fmt.Sprintf("# Oil absorption of %s, for --catalogue: what stood there, then your own tests,\n# which narrow what is published as they would from your batch book.\n", req.Pigment.ID)
	return fieldEntry(req.Pigment.ID, "oil-absorption", comment, readings)
}

// ownReadings are the tests as readings, after all that stood there before.
func ownReadings(res *formulate.RubOutResult) []material.OilReading {
	req := &res.Request
	aside := ""
	if req.Oil.Material.AbsorptionDoubtful != "" {
		aside = "found with " + req.Oil.Material.ID + ", not with a thin oil"
	}
	list := slices.Clone(req.Pigment.OilAbsorption)
	for i, f := range res.Figures {
		list = append(list, material.OilReading{
			ValueVol: toHundredths(f.ByVolume), Method: req.Method,
			Source: material.OwnMeasurement, At: req.Date, Lot: req.Lot, Note: testNote(res, i), Aside: aside,
		})
	}
	return list
}

// toHundredths keeps more digits than any rub-out has.
func toHundredths(v quantity.AbsorptionVolume) quantity.AbsorptionVolume {
	return quantity.AbsorptionVolume(math.Round(float64(v)*100) / 100)
}

// testNote is what is kept of a test beside its figure: which test it was, with
// what oil and how it was read, and whether it lies out.
func testNote(res *formulate.RubOutResult, i int) string {
	req := &res.Request
	note := fmt.Sprintf("test %d of %d, %s, %s on %s", i+1, len(req.Tests), req.Oil.Material.ID, req.Tests[i], req.Tests[i].Pigment)
	if req.Moisture > 0 {
		note += fmt.Sprintf(" with %s of water", req.Moisture)
	}
	parts := []string{note}
	if res.Suspect() == i+1 {
		parts = append(parts, "lies out of the others")
	}
	if req.Remark != "" {
		parts = append(parts, req.Remark)
	}
	return strings.Join(parts, "; ")
}
