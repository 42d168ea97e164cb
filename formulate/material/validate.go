package material

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// A Problem is one thing wrong with an entry, in no file format's terms: the
// field, which of its elements (from 0; -1 for the field as a whole) and which
// part of the element.
type Problem struct {
	Field   string // as in the field's tag: "density", "hazards.statements"
	Element int
	Key     string // "value", "source", ...; may be empty
	What    string // what was wrong and what would be accepted
}

// Words that a field may hold.
var (
	methods       = []Method{RubOut, GardnerColeman, Absorptometer, Unstated}
	consistencies = []Consistency{GroundPaste, TubeColour, BrushReady}
	behaviours    = []string{"loosens", "stiffens", "steady"}
	// Families are the hues, and use, by which pigments and extenders are listed.
	families = []string{"white", "extender", "yellow", "orange", "red", "violet", "blue", "green", "brown", "black"}
	classes  = []Class{
		Sulphide, Lead, ReactiveCopper, IronCyanide, Alkaline, Acid, NeedsAcid, AcidSensitive, AlkaliSensitive, Carbonate, Chromate,
		Arsenic, Mercury, Cadmium, Cobalt, Manganese, Antimony, Nickel, Barium, Zinc, CrystallineSilica, Azo,
		CarbonBlack, FineDust, HeatSensitive, Flammable, DryingOil, Oxidiser, Reducing, Protein, Moulds, IronGall, Calcium, Gels, Gelling,
	}
)

var (
	idShape     = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	ciName      = regexp.MustCompile(`^[PN](B|Bk|Br|G|M|O|R|V|W|Y)[0-9]+(:[0-9]+)?$`)
	ciNumber    = regexp.MustCompile(`^[0-9]{5,6}(:[0-9]+)?$`)
	hazardShape = regexp.MustCompile(`^(EU)?H[0-9]{3}[A-Za-z]{0,3}$`)
)

// IsID reports whether s can be the id of an entry.
func IsID(s string) bool { return idShape.MatchString(s) }

// IsPigment reports whether the kind is ground as a dry powder: pigment or
// extender.
func (k Kind) IsPigment() bool { return k == Pigment || k == Extender }

// Missing names what a mull needs and the entry lacks. An entry may stay on
// the sheet without it; it is refused only where it is used.
func (m *Material) Missing() []string {
	var out []string
	if !m.DensityDistribution().Known() {
		out = append(out, "density")
	}
	if d, _ := m.AbsorptionDistribution(); m.Kind.IsPigment() && !d.Known() && !m.demandKnown() {
		out = append(out, "oil-absorption")
	}
	return out
}

// demandKnown reports whether an artists' demand was published for the entry,
// from which an oil absorption can be inferred.
func (m *Material) demandKnown() bool {
	return slices.ContainsFunc(m.ArtistsDemand, func(r DemandReading) bool { return r.Aside == "" })
}

// Validate checks an entry and reports everything wrong with it. sourceKnown
// says whether a source key is listed; the keys of source.go are always known.
func Validate(m *Material, sourceKnown func(key string) bool) []Problem {
	v := &validator{known: sourceKnown}
	v.identity(m)

	readings(v, "density", m.Density, 0.05, 25)
	readings(v, "bulk-density", m.BulkDensity, 0.005, 10)
	readings(v, "refractive-index", m.RefractiveIndex, 1, 5)
	readings(v, "particle-size", m.ParticleSize, 0.001, 2000)
	readings(v, "specific-surface", m.SpecificSurface, 0.001, 3000)
	for i, r := range m.OilAbsorption {
		v.oilReading(i, r)
	}
	for i, r := range m.ArtistsDemand {
		v.demandReading(i, r)
	}
	readings(v, "iodine-value", m.IodineValue, 0.01, 400)
	readings(v, "drying-time", m.DryingTime, 1, 1e9)
	readings(v, "molar-mass", m.MolarMass, 1, 1e6)
	readings(v, "boiling", m.Boiling, -90, 1000)
	readings(v, "lower-explosive-limit", m.LowerExplosive, 1e-5, 1)
	readings(v, "evaporation-rate", m.EvaporationRate, 1e-6, 100)
	readings(v, "use-level", m.UseLevel, 1e-9, 1)
	readings(v, "non-volatile", m.NonVolatile, 1e-6, 1)
	measured(v, "viscosity", m.Viscosity, 1e-3, 1e9)
	measured(v, "density-at", m.DensityAt, 0.05, 25)
	measured(v, "flash-point", m.FlashPoint, -90, 1000)
	measured(v, "vapour-pressure", m.VapourPressure, 1e-12, 1e4)

	v.statements("opacity", m.Opacity)
	v.statements("drying-effect", m.DryingEffect)
	v.statements("lightfastness", m.Lightfastness)
	v.statements("incompatible", m.Incompatible)
	v.statements("drying-class", m.DryingClass)
	v.statements("yellowing", m.Yellowing)
	v.muller(m.Muller)
	v.limits(m.Limits)
	v.parts(m.Parts)
	v.hazards(m.Hazards)
	return v.problems
}

type validator struct {
	known    func(string) bool
	problems []Problem
}

func (v *validator) add(field string, element int, key, format string, args ...any) {
	v.problems = append(v.problems, Problem{field, element, key, fmt.Sprintf(format, args...)})
}

func (v *validator) identity(m *Material) {
	if !IsID(m.ID) {
		v.add("", -1, "", "%q is not an id: use a to z, 0 to 9 and single hyphens", m.ID)
	}
	if strings.TrimSpace(m.Name) == "" {
		v.add("name", -1, "", "the name is missing")
	}
	switch {
	case m.Kind == "":
		v.add("kind", -1, "", "the kind is missing; accepted: %s", oneOf(kinds))
	case !slices.Contains(kinds, m.Kind):
		v.add("kind", -1, "", "unknown kind %q; accepted: %s", m.Kind, oneOf(kinds))
	}
	if m.Kind.IsPigment() && !slices.Contains(families, m.Family) {
		v.add("family", -1, "", "unknown family %q; accepted: %s", m.Family, oneOf(families))
	}
	if m.CIName != "" && !ciName.MatchString(m.CIName) {
		v.add("ci-name", -1, "", "%q is not a Colour Index name; written like PB27 or NR9", m.CIName)
	}
	if m.CINumber != "" && !ciNumber.MatchString(m.CINumber) {
		v.add("ci-number", -1, "", "%q is not a Colour Index number; written like 77510", m.CINumber)
	}
	for i, s := range m.Synonyms {
		if strings.TrimSpace(s) == "" {
			v.add("synonyms", i, "", "a synonym is empty")
		}
	}
	for i, c := range m.Classes {
		if !slices.Contains(classes, c) {
			v.add("classes", i, "", "unknown class %q; accepted: %s", c, oneOf(classes))
		} else if slices.Index(m.Classes, c) < i {
			v.add("classes", i, "", "class %q stands twice", c)
		}
	}
	for i, t := range m.Tags {
		if !IsID(t) {
			v.add("tags", i, "", "%q is not a tag: use a to z, 0 to 9 and single hyphens", t)
		}
	}
}

func (v *validator) source(field string, element int, key, source string) {
	switch {
	case source == "":
		v.add(field, element, key, "the source is missing; accepted: a key of a [source] table, %q, %q or %q", FromMemory, CommonPractice, OwnMeasurement)
	case source == FromMemory || source == CommonPractice || source == OwnMeasurement:
	case !v.known(source):
		v.add(field, element, key, "unknown source %q; add a [source.%s] table, or use %q, %q or %q", source, source, FromMemory, CommonPractice, OwnMeasurement)
	}
}

// form checks that of a value and a low with a high exactly one form is
// present, and every number within its limits. names are the three keys.
func (v *validator) form(field string, element int, names [3]string, value, low, high, least, most float64) {
	for i, x := range []float64{value, low, high} {
		if x == 0 {
			continue
		}
		if math.IsNaN(x) || x < least || x > most {
			v.add(field, element, names[i], "it is outside the range accepted here, %g to %g", least, most)
			return
		}
	}
	switch {
	case value == 0 && low == 0 && high == 0:
		v.add(field, element, names[0], "no value: give %s, or %s with %s", names[0], names[1], names[2])
	case value != 0 && (low != 0 || high != 0):
		v.add(field, element, names[0], "give %s, or %s with %s, not both", names[0], names[1], names[2])
	case value == 0 && (low == 0 || high == 0):
		v.add(field, element, names[1], "%s and %s go together", names[1], names[2])
	case low > high:
		v.add(field, element, names[1], "%s is above %s", names[1], names[2])
	}
}

func readings[Q quantity.Real](v *validator, field string, list []evidence.Reading[Q], least, most float64) {
	for i, r := range list {
		v.form(field, i, [3]string{"value", "low", "high"}, float64(r.Value), float64(r.Low), float64(r.High), least, most)
		v.source(field, i, "source", r.Source)
	}
}

func measured[Q quantity.Real](v *validator, field string, list []Measured[Q], least, most float64) {
	for i, r := range list {
		if x := float64(r.Value); math.IsNaN(x) || x < least || x > most {
			v.add(field, i, "value", "it is missing or outside the range accepted here, %g to %g", least, most)
		}
		v.source(field, i, "source", r.Source)
	}
}

func (v *validator) oilReading(i int, r OilReading) {
	const field, least, most = "oil-absorption", 2.0, 1000.0
	byMass := r.Value != 0 || r.Low != 0 || r.High != 0
	byVolume := r.ValueVol != 0 || r.LowVol != 0 || r.HighVol != 0
	switch {
	case byMass && byVolume:
		v.add(field, i, "volume", "give the figure in grams (value) or in millilitres (volume), not both")
	case byVolume:
		v.form(field, i, [3]string{"volume", "volume-low", "volume-high"}, float64(r.ValueVol), float64(r.LowVol), float64(r.HighVol), least, most)
	default:
		v.form(field, i, [3]string{"value", "low", "high"}, float64(r.Value), float64(r.Low), float64(r.High), least, most)
	}
	if !slices.Contains(methods, r.Method) {
		v.add(field, i, "method", "unknown method %q; accepted: %s", r.Method, oneOf(methods))
	}
	v.source(field, i, "source", r.Source)
}

func (v *validator) demandReading(i int, r DemandReading) {
	const field = "artists-demand"
	v.form(field, i, [3]string{"value", "low", "high"}, float64(r.Value), float64(r.Low), float64(r.High), 3, 1000)
	if !slices.Contains(consistencies, r.Consistency) {
		v.add(field, i, "consistency", "unknown consistency %q; accepted: %s", r.Consistency, oneOf(consistencies))
	}
	if r.Authority == "" {
		v.add(field, i, "authority", "the authority is missing: a word shared by figures of one maker or book")
	}
	v.source(field, i, "source", r.Source)
}

func (v *validator) statements(field string, list []Statement) {
	for i, s := range list {
		if strings.TrimSpace(s.Text) == "" {
			v.add(field, i, "text", "the text is missing")
		}
		v.source(field, i, "source", s.Source)
	}
}

func (v *validator) muller(b *MullerBehaviour) {
	if b == nil {
		return
	}
	if !slices.Contains(behaviours, b.Behaviour) {
		v.add("muller", -1, "behaviour", "unknown behaviour %q; accepted: %s", b.Behaviour, oneOf(behaviours))
	}
	v.source("muller", -1, "source", b.Source)
}

func (v *validator) limits(limits []Limit) {
	const field = "limits"
	for i, l := range limits {
		if l.Authority == "" {
			v.add(field, i, "authority", "the body that set the limit is missing")
		}
		if l.Kind == "" {
			v.add(field, i, "kind", "the kind is missing, such as %q or %q", "8 h", "15 min")
		}
		if l.PPM <= 0 && l.MgPerM3 <= 0 {
			v.add(field, i, "ppm", "no value: give ppm or concentration")
		}
		v.source(field, i, "source", l.Source)
	}
}

func (v *validator) parts(parts []Part) {
	for i, p := range parts {
		if !IsID(p.ID) {
			v.add("parts", i, "id", "%q is not an id", p.ID)
		}
		if !(p.Mass > 0) || math.IsInf(float64(p.Mass), 0) {
			v.add("parts", i, "parts", "parts are missing or not above nothing")
		}
	}
}

func (v *validator) hazards(h Hazards) {
	v.statements("hazards.statements", h.Statements)
	if !h.Assessed && (h.Listed || len(h.Statements) > 0 || len(h.Codes) > 0) {
		v.add("hazards", -1, "assessed", "hazards are given, so assessed must be true")
	}
	if h.Assessed && len(h.Statements) == 0 && len(h.Codes) == 0 {
		v.add("hazards", -1, "assessed", "assessed without a statement or a code: say what the source says")
	}
	for i, c := range h.Codes {
		if !hazardShape.MatchString(c) {
			v.add("hazards.codes", i, "", "%q is not a hazard statement code; written like H360", c)
		}
	}
	if len(h.Codes) > 0 {
		v.source("hazards", -1, "codes-source", h.CodesSource)
	}
}

// oneOf prints accepted words in one line.
func oneOf[S ~string](words []S) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = string(w)
	}
	return strings.Join(out, ", ")
}
