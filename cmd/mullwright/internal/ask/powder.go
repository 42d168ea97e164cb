package ask

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/settling"
)

// Defaults of the tests of a powder.
const (
	DefaultVesselDivision   = "1 ml"
	DefaultCylinderDivision = "0.5 ml"
	DefaultFilling          = "0.02 g"
	DefaultStirred          = "1 %"
)

// onePigment looks up the one pigment that a test may name.
func (w *Workshop) onePigment(names []string) (*material.Material, error) {
	switch len(names) {
	case 0:
		return nil, nil
	case 1:
		return w.PigmentNamed(names[0])
	}
	return nil, fmt.Errorf("%s: give one powder at a time", strings.Join(names, ", "))
}

// setter is a flag's text and where it goes.
type setter struct {
	name, text string
	set        func(string) error
}

// setAll fills what was given.
func setAll(list ...setter) error {
	for _, f := range list {
		if f.text == "" {
			continue
		}
		if err := f.set(f.text); err != nil {
			return at(f.name, err)
		}
	}
	return nil
}

// PowderMoisture is a drying test as asked.
type PowderMoisture struct {
	Pigment []string
	Dish    string
	Damp    string
	Dried   []string
	Want    string
	Scale   string
}

// Fields lists what may be said of a drying test.
func (q *PowderMoisture) Fields() []Field {
	return []Field{
		{Name: "pigment", Many: &q.Pigment, Help: "the pigment", FileOnly: true},
		{Name: "dish", One: &q.Dish, Help: "the empty dish; none where the balance was tared"},
		{Name: "damp", One: &q.Damp, Help: "dish with the powder as it was"},
		{Name: "dried", Many: &q.Dried, Help: "dish with the powder dried; repeat for each weighing, to show that it was dry"},
		{Name: "want", One: &q.Want, Help: "dry pigment you want: how much of the damp powder to weigh"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultTestScale + ")"},
	}
}

// Request turns the question into a request.
func (q *PowderMoisture) Request(w *Workshop) (formulate.MoistureRequest, error) {
	var req formulate.MoistureRequest
	var err error
	if req.Pigment, err = w.onePigment(q.Pigment); err != nil {
		return req, err
	}
	for _, text := range q.Dried {
		m, err := quantity.ParseMass(text)
		if err != nil {
			return req, at("dried", err)
		}
		req.Dried = append(req.Dried, m)
	}
	return req, setAll(setter{"dish", q.Dish, req.Dish.Set}, setter{"damp", q.Damp, req.Damp.Set}, setter{"want", q.Want, req.Want.Set},
		setter{"scale", orOne(q.Scale, DefaultTestScale), req.Scale.Set})
}

// PowderBulk is a bulk density as asked.
type PowderBulk struct {
	Pigment  []string
	Vessel   string
	Empty    string
	Full     string
	Tapped   string
	Refilled string
	Scale    string
	Division string
}

// Fields lists what may be said of a bulk density.
func (q *PowderBulk) Fields() []Field {
	return []Field{
		{Name: "pigment", Many: &q.Pigment, Help: "the pigment", FileOnly: true},
		{Name: "vessel", One: &q.Vessel, Help: "volume that the poured powder fills, as in 50ml"},
		{Name: "empty", One: &q.Empty, Help: "the empty vessel; none where the balance was tared"},
		{Name: "full", One: &q.Full, Help: "vessel with the powder poured in"},
		{Name: "tapped", One: &q.Tapped, Either: "of the two", Help: "volume of the same powder once it was tapped down"},
		{Name: "refilled", One: &q.Refilled, Either: "of the two", Help: "vessel tapped down and topped up to the brim again"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultTestScale + ")"},
		{Name: "division", One: &q.Division, Help: "one division of the vessel (default " + DefaultVesselDivision + ")"},
	}
}

// Request turns the question into a request.
func (q *PowderBulk) Request(w *Workshop) (formulate.BulkRequest, error) {
	var req formulate.BulkRequest
	if err := Conflicts(q.Fields()); err != nil {
		return req, err
	}
	var err error
	if req.Pigment, err = w.onePigment(q.Pigment); err != nil {
		return req, err
	}
	if q.Vessel == "" || q.Full == "" {
		return req, errors.New("a bulk density needs --vessel, its volume, and --full, its weight with the powder")
	}
	var empty quantity.Mass
	if err := setAll(setter{"vessel", q.Vessel, req.Volume.Set}, setter{"empty", q.Empty, empty.Set}, setter{"full", q.Full, req.Powder.Set},
		setter{"tapped", q.Tapped, req.Tapped.Set}, setter{"refilled", q.Refilled, req.Refilled.Set},
		setter{"scale", orOne(q.Scale, DefaultTestScale), req.Scale.Set}, setter{"division", orOne(q.Division, DefaultVesselDivision), req.Division.Set}); err != nil {
		return req, err
	}
	for _, m := range []struct {
		name string
		mass *quantity.Mass
	}{{"full", &req.Powder}, {"refilled", &req.Refilled}} {
		if *m.mass == 0 {
			continue
		}
		if *m.mass <= empty {
			return req, at(m.name, fmt.Errorf("%s is no more than the empty vessel, %s: there is no powder in it", *m.mass, empty))
		}
		*m.mass = between(*m.mass, empty)
	}
	return req, nil
}

// PowderJar is a jar as asked.
type PowderJar struct {
	Pigment  []string
	Jar      string
	Poured   string
	Tapped   string
	Tube     string
	Fill     string
	Oils     []string
	Body     string
	Moisture string
	Loss     string
}

// Fields lists what may be said of a jar.
func (q *PowderJar) Fields() []Field {
	return []Field{
		{Name: "pigment", Many: &q.Pigment, Help: "the pigment", FileOnly: true},
		{Name: "jar", One: &q.Jar, Help: "how much powder there is by volume, as in 250ml"},
		{Name: "poured", One: &q.Poured, Help: "its poured density, from 'powder bulk' (default from the catalogue, where it has one)"},
		{Name: "tapped", One: &q.Tapped, Help: "its tapped density, from 'powder bulk'"},
		{Name: "tube", One: &q.Tube, Help: "size of a tube (default " + DefaultTube + ")"},
		{Name: "fill", One: &q.Fill, Help: "how much of a tube is filled (default " + DefaultFill + ")"},
		{Name: "oil", Many: &q.Oils, Help: "drying oil, NAME or NAME=PARTS (default " + DefaultOil + ")"},
		{Name: "body", One: &q.Body, Help: "stiff, buttery, soft, flowing, or a ratio (default " + DefaultBody + ")"},
		{Name: "moisture", One: &q.Moisture, Help: "water in the pigment, of the damp mass, as in 2%"},
		{Name: "loss", One: &q.Loss, Help: "paint left on slab, knife and muller, as in 7%"},
	}
}

// Request turns the question into a request.
func (q *PowderJar) Request(w *Workshop, s formulate.Sampling) (formulate.JarRequest, error) {
	var req formulate.JarRequest
	if len(q.Pigment) != 1 {
		return req, errors.New("a jar holds one pigment: name it, as in 'powder jar ultramarine-blue --jar 250ml'")
	}
	if q.Jar == "" {
		return req, errors.New("no volume given: say --jar, as in --jar 250ml")
	}
	// The amount is the jar's; any stands in for it here.
	m := Mull{Pigments: q.Pigment, PigmentMass: "1 g", Oils: q.Oils, Body: q.Body, Moisture: q.Moisture, Loss: q.Loss}
	var err error
	if req.Mull, err = m.Request(w, s); err != nil {
		return req, err
	}
	if err := setAll(setter{"jar", q.Jar, req.Jar.Set}, setter{"tube", orOne(q.Tube, DefaultTube), req.Tube.Set}, setter{"fill", orOne(q.Fill, DefaultFill), req.Fill.Set}); err != nil {
		return req, err
	}
	return req, q.bulk(&req)
}

// bulk settles the density of the powder in the jar.
func (q *PowderJar) bulk(req *formulate.JarRequest) error {
	var poured, tapped quantity.Density
	if err := setAll(setter{"poured", q.Poured, poured.Set}, setter{"tapped", q.Tapped, tapped.Set}); err != nil {
		return err
	}
	m := req.Mull.Pigments[0].Material
	var err error
	switch {
	case poured > 0 && tapped > 0:
		req.BulkBy = "between your poured and your tapped density"
		req.Bulk, err = formulate.JarBulk(poured, tapped)
		return at("tapped", err)
	case tapped > 0:
		return at("tapped", errors.New("give --poured with it"))
	case poured > 0:
		req.BulkBy = "your poured density, with the usual spread of fillings"
		req.Bulk = evidence.Distribution[quantity.Density]{Median: poured, Sigma: formulate.BulkSpread()}
		return nil
	}
	var ok bool
	if req.Bulk, ok = formulate.BulkDensityOf(m); !ok {
		return fmt.Errorf("%s: no bulk density is known; weigh a measured volume of it ('mullwright powder bulk') and give --poured", m.ID)
	}
	req.BulkBy = "published bulk density"
	return nil
}

// PowderDensity is a true density as asked.
type PowderDensity struct {
	Pigment       []string
	NewJar               // or a jar that no catalogue holds
	OilAbsorption string // of that jar
	Empty         string
	WithPowder    string
	Topped        string
	Full          string
	Liquid        string
	LiquidDensity string
	Temperature   string
	Within        string
	Filling       string
	Powder        string
	Before        string
	After         string
	Scale         string
	Division      string
}

// Fields lists what may be said of a true density.
func (q *PowderDensity) Fields() []Field {
	return append([]Field{
		{Name: "pigment", Many: &q.Pigment, Help: "the pigment", FileOnly: true},
		{Name: "empty", One: &q.Empty, Help: "pyknometer: the empty flask"},
		{Name: "with-powder", One: &q.WithPowder, Help: "pyknometer: flask with the powder"},
		{Name: "topped", One: &q.Topped, Help: "pyknometer: flask with the powder, topped up with liquid"},
		{Name: "full", One: &q.Full, Help: "pyknometer: flask full of liquid alone"},
		{Name: "liquid", One: &q.Liquid, Help: "pyknometer: the liquid (default water)"},
		{Name: "liquid-density", One: &q.LiquidDensity, Help: "pyknometer: the liquid's own density, where you know it better"},
		{Name: "temperature", One: &q.Temperature, Help: "of the liquid (default " + DefaultTemperature + ")"},
		{Name: "within", One: &q.Within, Help: "how far the temperature may be off (default 1 C)"},
		{Name: "filling", One: &q.Filling, Help: "pyknometer: how well you fill to the mark, one standard deviation (default " + DefaultFilling + ", common practice)"},
		{Name: "powder", One: &q.Powder, Help: "cylinder: the powder put in"},
		{Name: "before", One: &q.Before, Help: "cylinder: the liquid's mark before"},
		{Name: "after", One: &q.After, Help: "cylinder: the mark with the powder sunk in it"},
		{Name: "division", One: &q.Division, Help: "cylinder: one division (default " + DefaultCylinderDivision + ")"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultTestScale + ")"},
		{Name: "oil-absorption", One: &q.OilAbsorption, Help: "of a jar with --name: its oil absorption, as in 22g/100g or 24ml/100g, from 'rubout'"},
	}, q.NewJar.fields()...)
}

// Request turns the question into a request.
func (q *PowderDensity) Request(w *Workshop) (formulate.TrueDensityRequest, error) {
	req := formulate.TrueDensityRequest{Within: 1}
	var err error
	if req.Pigment, err = q.NewJar.pigment(w, q.Pigment); err != nil {
		return req, err
	}
	req.Unlisted = q.Name != ""
	if q.OilAbsorption != "" {
		if !req.Unlisted {
			return req, at("oil-absorption", errors.New("this is the oil absorption of a jar that the catalogue lacks; give its --name too"))
		}
		if req.Pigment.OilAbsorption, err = ownAbsorption(q.OilAbsorption); err != nil {
			return req, at("oil-absorption", err)
		}
	}
	flask := given(q.Empty, q.WithPowder, q.Topped, q.Full)
	cylinder := given(q.Powder, q.Before, q.After)
	var scale quantity.Mass
	if err := setAll(setter{"scale", orOne(q.Scale, DefaultTestScale), scale.Set}, setter{"temperature", orOne(q.Temperature, DefaultTemperature), req.Temperature.Set},
		setter{"within", q.Within, req.Within.Set}); err != nil {
		return req, err
	}
	switch {
	case flask > 0 && cylinder > 0:
		return req, errors.New("weighings of a pyknometer and readings of a cylinder are given together; give one of the two tests")
	case flask == 4:
		return req, q.pyknometer(w, &req, scale)
	case cylinder == 3:
		return req, q.cylinder(&req, scale)
	case cylinder > 0:
		return req, errors.New("a cylinder needs --powder, --before and --after")
	}
	return req, errors.New("a pyknometer needs --empty, --with-powder, --topped and --full; a cylinder --powder, --before and --after")
}

// OwnDensity prints the result as a catalogue file of the maker's own: the field
// density of a pigment of the catalogue, or the whole of a jar of the maker's.
func (w *Workshop) OwnDensity(res *formulate.TrueDensityResult) (string, error) {
	m := res.Request.Pigment
	if m == nil {
		return "", errors.New("say what the result is to be saved for: a pigment of the catalogue or, for a jar that it lacks, --name and --oil-absorption")
	}
	reading := evidence.Reading[quantity.Density]{
		Value: toThousandths(res.Density.Value), Source: material.OwnMeasurement,
		Note: fmt.Sprintf("by displacement, 95 %% interval %.2f to %.2f g/ml", float64(res.Low), float64(res.High)),
	}
	readings := []evidence.Reading[quantity.Density]{reading}
	if m.Own {
		whole := *m
		whole.Density = readings
		return w.wholeEntry(&whole)
	}
	comment := fmt.Sprintf("# Own density of %s, for --catalogue.\n# It takes the place of the published density of this pigment.\n", m.ID)
	return fieldEntry(m.ID, "density", comment, readings)
}

// toThousandths keeps more digits than any displacement has.
func toThousandths(d quantity.Density) quantity.Density {
	return quantity.Density(math.Round(float64(d)*1000) / 1000)
}

func (q *PowderDensity) pyknometer(w *Workshop, req *formulate.TrueDensityRequest, scale quantity.Mass) error {
	p := powder.Pyknometer{Digit: scale}
	req.Pyknometer = &p
	var own quantity.Density
	if err := setAll(setter{"empty", q.Empty, p.Empty.Set}, setter{"with-powder", q.WithPowder, p.Powder.Set}, setter{"topped", q.Topped, p.Topped.Set},
		setter{"full", q.Full, p.Full.Set}, setter{"filling", orOne(q.Filling, DefaultFilling), p.Filling.Set}, setter{"liquid-density", q.LiquidDensity, own.Set}); err != nil {
		return err
	}
	if own > 0 {
		// Taken to be right to half of the last of four figures.
		const half = 0.0005
		req.OwnLiquid = evidence.Given(own, evidence.Rectangular[quantity.Density](half))
	}
	m, err := w.MediumNamed(orOne(q.Liquid, "water"))
	if err != nil {
		return at("liquid", err)
	}
	if !slices.Contains([]material.Kind{material.Water, material.Oil, material.Solvent}, m.Kind) {
		return at("liquid", fmt.Errorf("%s is a %s; accepted: water, an oil or a solvent", m.ID, m.Kind))
	}
	req.Liquid = m
	return nil
}

func (q *PowderDensity) cylinder(req *formulate.TrueDensityRequest, scale quantity.Mass) error {
	var mass quantity.Mass
	var before, after, division quantity.Volume
	if err := setAll(setter{"powder", q.Powder, mass.Set}, setter{"before", q.Before, before.Set}, setter{"after", q.After, after.Set},
		setter{"division", orOne(q.Division, DefaultCylinderDivision), division.Set}); err != nil {
		return err
	}
	half := evidence.Rectangular(scale / 2)
	mark := evidence.Rectangular(division / 2)
	req.Cylinder = &powder.Displacement{
		Powder: evidence.Given(mass, evidence.RootSum(half, half)),
		Before: evidence.Given(before, mark), After: evidence.Given(after, mark),
	}
	return nil
}

// PowderFineness is a fineness as asked.
type PowderFineness struct {
	Pigment     []string
	Gauge       string
	Hegman      string
	Sieve       string
	Sieved      string
	Residue     string
	Depth       string
	Time        string
	Stirred     string
	Density     string
	Temperature string
	Scale       string
}

// Fields lists what may be said of a fineness.
func (q *PowderFineness) Fields() []Field {
	return []Field{
		{Name: "pigment", Many: &q.Pigment, Help: "the pigment", FileOnly: true},
		{Name: "gauge", One: &q.Gauge, Either: "of the two", Help: "grind gauge: where specks begin, as in 25um"},
		{Name: "hegman", One: &q.Hegman, Either: "of the two", Help: "grind gauge: the same in Hegman, 0 to 8"},
		{Name: "sieve", One: &q.Sieve, Help: "sieve: its opening, as in 45um, or its ASTM number, as in \"no 325\""},
		{Name: "sieved", One: &q.Sieved, Help: "sieve: powder put through"},
		{Name: "residue", One: &q.Residue, Help: "sieve: what stayed on it"},
		{Name: "depth", One: &q.Depth, Help: "stirred jar of water: how deep it had cleared"},
		{Name: "time", One: &q.Time, Help: "stirred jar of water: after how long"},
		{Name: "stirred", One: &q.Stirred, Help: "stirred jar: powder in it, by mass (default " + DefaultStirred + ")"},
		{Name: "density", One: &q.Density, Help: "stirred jar: true density of your own powder"},
		{Name: "temperature", One: &q.Temperature, Help: "stirred jar: of the water (default " + DefaultTemperature + ")"},
		{Name: "scale", One: &q.Scale, Help: "one division of your balance (default " + DefaultTestScale + ")"},
	}
}

// Request turns the question into a request.
func (q *PowderFineness) Request(w *Workshop, s formulate.Sampling) (formulate.FinenessRequest, error) {
	var req formulate.FinenessRequest
	if err := Conflicts(q.Fields()); err != nil {
		return req, err
	}
	var err error
	if req.Pigment, err = w.onePigment(q.Pigment); err != nil {
		return req, err
	}
	if err := setAll(setter{"gauge", q.Gauge, req.Gauge.Set}); err != nil {
		return req, err
	}
	if q.Hegman != "" {
		h, reason := quantity.Number(strings.TrimSpace(q.Hegman))
		if reason != "" {
			return req, at("hegman", fmt.Errorf("%q: %s; accepted: 0 to 8", q.Hegman, reason))
		}
		req.Hegman, req.ByScale = powder.Hegman(h), true
	}
	if given(q.Sieve, q.Sieved, q.Residue) > 0 {
		if req.Sieve, err = q.sieve(); err != nil {
			return req, err
		}
	}
	if given(q.Depth, q.Time) > 0 {
		if q.Depth == "" || q.Time == "" {
			return req, errors.New("a stirred jar needs --depth, how deep it had cleared, and --time")
		}
		jar := Settle{What: q.Pigment, Density: q.Density, Time: q.Time, Depth: q.Depth, Powder: orOne(q.Stirred, DefaultStirred), Temperature: q.Temperature}
		settled, err := jar.Request(w, s)
		if err != nil {
			return req, err
		}
		req.Settled = &settled
	}
	return req, nil
}

func (q *PowderFineness) sieve() (*formulate.SieveTest, error) {
	if q.Sieve == "" || q.Sieved == "" || q.Residue == "" {
		return nil, errors.New("a sieve test needs --sieve, --sieved and --residue")
	}
	t := &formulate.SieveTest{}
	if err := setAll(setter{"sieved", q.Sieved, t.Powder.Set}, setter{"residue", q.Residue, orNothing(&t.Residue)}, setter{"scale", orOne(q.Scale, DefaultTestScale), t.Scale.Set}); err != nil {
		return nil, err
	}
	if n, ok := sieveNumber(q.Sieve); ok {
		sieve, err := settling.SieveByNumber(n)
		t.Number, t.Opening = n, sieve.Opening
		return t, at("sieve", err)
	}
	return t, at("sieve", t.Opening.Set(q.Sieve))
}

// orNothing reads a mass that may be none: a sieve may hold nothing back.
func orNothing(m *quantity.Mass) func(string) error {
	return func(text string) error {
		if n, reason := quantity.Number(strings.TrimRight(text, " gmk")); reason == "" && n == 0 {
			*m = 0
			return nil
		}
		return m.Set(text)
	}
}

// sieveNumber reads "no 325", "no. 325" or "325 mesh".
func sieveNumber(text string) (int, bool) {
	s := strings.ToLower(strings.TrimSpace(text))
	cut, ok := strings.CutPrefix(s, "no")
	if !ok {
		cut, ok = strings.CutSuffix(s, "mesh")
	}
	if !ok {
		return 0, false
	}
	n, err := strconv.Atoi(strings.Trim(cut, " ."))
	return n, err == nil
}

// PowderSurface is a specific surface as asked.
type PowderSurface struct {
	Pigment []string
	Size    string
	Surface string
	Density string
	Shape   string
	Finer   string
}

// Fields lists what may be said of a surface.
func (q *PowderSurface) Fields() []Field {
	return []Field{
		{Name: "pigment", Many: &q.Pigment, Help: "the pigment; none with --density", FileOnly: true},
		{Name: "size", One: &q.Size, Either: "of the two", Help: "grain size, as in 2um (default from the catalogue, where it has one)"},
		{Name: "surface", One: &q.Surface, Either: "of the two", Help: "specific surface, as in 12m2/g"},
		{Name: "density", One: &q.Density, Help: "true density of your own powder, as in 2.7g/ml"},
		{Name: "shape", One: &q.Shape, Help: "sphere, plate (the size is its thickness) or rod (its diameter) (default sphere)"},
		{Name: "finer", One: &q.Finer, Help: "what grinding to this size adds to the oil, as in 1um"},
	}
}

// Request turns the question into a request.
func (q *PowderSurface) Request(w *Workshop, s formulate.Sampling) (formulate.SurfaceRequest, error) {
	req := formulate.SurfaceRequest{Name: "your powder", Shape: formulate.GrainShape(orOne(q.Shape, string(formulate.Sphere))), SizeBy: "as given", Sampling: s}
	if err := Conflicts(q.Fields()); err != nil {
		return req, err
	}
	if !slices.Contains(formulate.GrainShapes(), req.Shape) {
		return req, at("shape", fmt.Errorf("%q is not a shape; accepted: sphere, plate, rod", q.Shape))
	}
	var err error
	if req.Pigment, err = w.onePigment(q.Pigment); err != nil {
		return req, err
	}
	if req.Pigment == nil && q.Density == "" {
		return req, errors.New("no powder given: name a pigment, or give the --density of your own, as in 2.7g/ml")
	}
	var density quantity.Density
	var size quantity.ParticleSize
	var surface quantity.SpecificSurface
	if err := setAll(setter{"density", q.Density, density.Set}, setter{"size", q.Size, size.Set}, setter{"surface", q.Surface, surface.Set}, setter{"finer", q.Finer, req.Finer.Set}); err != nil {
		return req, err
	}
	req.Size.Median, req.Surface.Median = size, surface
	if req.Pigment != nil {
		req.Name, req.Density = req.Pigment.ID, req.Pigment.DensityDistribution()
		if size == 0 && surface == 0 {
			req.SizeBy = "published"
			// Sources of one size count as they are; a single one has no width of its own.
			if req.Size = evidence.Combine(req.Pigment.ParticleSize, publishedSize); !req.Size.Known() {
				req.Surface = evidence.Combine(req.Pigment.SpecificSurface, publishedSize)
			}
		}
	}
	if density > 0 {
		req.Density = evidence.Distribution[quantity.Density]{Median: density, Sigma: ownPowderSigma}
	}
	return req, nil
}

// publishedSize is the spread of published grain sizes and surfaces of one
// pigment between lots and makers: common practice, a factor of two either way
// in nine of ten.
var publishedSize = evidence.Width{Sigma: 0.42, Weight: 2}

// PowderCake is a chain of weighings as asked.
type PowderCake struct {
	Stages []string
	Want   string
}

// Fields lists what may be said of a chain of weighings.
func (q *PowderCake) Fields() []Field {
	return []Field{
		{Name: "stage", Many: &q.Stages, Help: "a weighing, in order: \"wet cake=120g at 62%\", \"dried=44g\", \"tubed=66g at 35%\"; the share is what is not pigment, water or oil"},
		{Name: "want", One: &q.Want, Help: "pigment to end with next time: how much to begin with"},
	}
}

// Request turns the question into a request.
func (q *PowderCake) Request() (formulate.CakeRequest, error) {
	var req formulate.CakeRequest
	for _, text := range q.Stages {
		n, err := splitNamed(text)
		if err == nil && !n.given {
			err = fmt.Errorf("%q: the mass is missing, as in \"%s=44g\"", text, n.name)
		}
		if err != nil {
			return req, at("stage", err)
		}
		s := formulate.CakeStage{Name: n.name}
		mass, other, told := strings.Cut(n.value, " at ")
		if err := s.Mass.Set(mass); err != nil {
			return req, at("stage", fmt.Errorf("%s: %w", n.name, err))
		}
		if told {
			if s.Other, err = fraction(strings.TrimSpace(other)); err != nil {
				return req, at("stage", fmt.Errorf("%s: %w", n.name, err))
			}
		}
		req.Stages = append(req.Stages, s)
	}
	return req, setAll(setter{"want", q.Want, req.Want.Set})
}
