package material

import (
	"slices"

	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// Kind is what a substance is to a paint maker.
type Kind string

const (
	Pigment      Kind = "pigment"       // gives colour
	Extender     Kind = "extender"      // colourless powder
	Oil          Kind = "oil"           // drying oils and oil-based media
	Resin        Kind = "resin"         // natural and alkyd resins, solid
	Medium       Kind = "medium"        // a made-up mixture: varnish, wax paste, stock solution
	Solvent      Kind = "solvent"       // leaves as paint dries
	Wax          Kind = "wax"           // gives a paste body
	Stabiliser   Kind = "stabiliser"    // keeps pigment and oil together
	Drier        Kind = "drier"         // metal that speeds drying
	Gum          Kind = "gum"           // gums and other water binders
	Humectant    Kind = "humectant"     // keeps water in a dried film
	WettingAgent Kind = "wetting-agent" // lets water wet a powder
	Preservative Kind = "preservative"  // keeps mould away
	Additive     Kind = "additive"      // borax, alkalis and the like
	Water        Kind = "water"         // leaves as paint dries
)

// kinds lists every kind, in the order sheets are listed.
var kinds = []Kind{Pigment, Extender, Oil, Resin, Medium, Solvent, Wax, Stabiliser, Drier, Gum, Humectant, WettingAgent, Preservative, Additive, Water}

// Statement is a sourced remark in words.
type Statement struct {
	Text   string `toml:"text"`
	Source string `toml:"source"`
	At     string `toml:"at,omitempty"`
}

// Measured is a reading that holds at a temperature.
type Measured[Q quantity.Real] struct {
	Value       Q                 `toml:"value"`
	Temperature *quantity.Celsius `toml:"temperature,omitempty"`
	Source      string            `toml:"source"`
	At          string            `toml:"at,omitempty"`
	Note        string            `toml:"note,omitempty"`
}

// Method says how an oil absorption was found. Figures by different methods
// are never mixed.
type Method string

const (
	RubOut         Method = "rub-out"         // spatula rub-out: ISO 787-5, ASTM D281
	GardnerColeman Method = "gardner-coleman" // stirred, soft end point: ASTM D1483
	Absorptometer  Method = "absorptometer"   // DBP or paraffin oil, kneaded: ASTM D2414, ISO 4656
	Unstated       Method = "unstated"        // printed as oil absorption without a method
)

// OilReading is one published oil absorption. A figure in millilitres stays a
// volume; a figure in grams is turned back with the reporting method's density.
type OilReading struct {
	Value    quantity.Absorption       `toml:"value,omitzero"`
	Low      quantity.Absorption       `toml:"low,omitzero"`
	High     quantity.Absorption       `toml:"high,omitzero"`
	ValueVol quantity.AbsorptionVolume `toml:"volume,omitzero"`
	LowVol   quantity.AbsorptionVolume `toml:"volume-low,omitzero"`
	HighVol  quantity.AbsorptionVolume `toml:"volume-high,omitzero"`
	Method   Method                    `toml:"method"`
	Source   string                    `toml:"source"`
	At       string                    `toml:"at,omitempty"`
	Lot      string                    `toml:"lot,omitempty"` // of an own measurement: the maker's word for the jar
	Note     string                    `toml:"note,omitempty"`
	Aside    string                    `toml:"aside,omitempty"`
}

// OwnRubOut reports whether the reading is one rub-out of the maker's own: it
// says of a jar what no published figure does. A range is none.
func (r OilReading) OwnRubOut() bool {
	return r.Source == OwnMeasurement && r.Method == RubOut && r.Aside == "" && (r.Value != 0 || r.ValueVol != 0)
}

// ByVolume returns the reading as millilitres of test oil per 100 g.
func (r OilReading) ByVolume() evidence.Reading[quantity.AbsorptionVolume] {
	out := evidence.Reading[quantity.AbsorptionVolume]{
		Value: r.ValueVol, Low: r.LowVol, High: r.HighVol,
		Method: string(r.Method), Source: r.Source, At: r.At, Note: r.Note, Aside: r.Aside,
	}
	if r.Value != 0 {
		out.Value = r.Value.ByVolume(quantity.ReportingOilDensity)
	}
	if r.Low != 0 {
		out.Low, out.High = r.Low.ByVolume(quantity.ReportingOilDensity), r.High.ByVolume(quantity.ReportingOilDensity)
	}
	return out
}

// Consistency says how stiff the paste of a published artists' demand was.
type Consistency string

const (
	GroundPaste Consistency = "ground-paste" // stiff, from mill or slab, before it is a tube colour
	TubeColour  Consistency = "tube-colour"  // workable artists' oil paint
	BrushReady  Consistency = "brush-ready"  // flowing house-paint consistency: an upper bound
)

// DemandReading is one published oil content of an artists' paint or paste, in
// grams of oil per 100 g of pigment.
type DemandReading struct {
	Value       quantity.Absorption `toml:"value,omitzero"`
	Low         quantity.Absorption `toml:"low,omitzero"`
	High        quantity.Absorption `toml:"high,omitzero"`
	Consistency Consistency         `toml:"consistency"`
	// Authority groups rows that rest on one maker or book: they count once.
	Authority string `toml:"authority"`
	Source    string `toml:"source"`
	At        string `toml:"at,omitempty"`
	Note      string `toml:"note,omitempty"`
	Aside     string `toml:"aside,omitempty"`
}

// Middle is the value, or the geometric middle of the range.
func (r DemandReading) Middle() quantity.Absorption {
	return evidence.Reading[quantity.Absorption]{Value: r.Value, Low: r.Low, High: r.High}.Middle()
}

// MullerBehaviour is how a paste changes under the muller.
type MullerBehaviour struct {
	Behaviour string `toml:"behaviour"` // "loosens", "stiffens" or "steady"
	Source    string `toml:"source"`
	At        string `toml:"at,omitempty"`
	Note      string `toml:"note,omitempty"`
}

// Hazards holds what published sources say. Assessed is true only where at
// least one hazard source was read for the substance; without it a report says
// "hazards not assessed", never that there are none.
type Hazards struct {
	Assessed   bool        `toml:"assessed"`
	Listed     bool        `toml:"listed,omitempty"` // a source lists a health or fire hazard beyond nuisance dust
	Statements []Statement `toml:"statements,omitempty"`
	// Codes are hazard statement codes of the Globally Harmonized System.
	Codes []string `toml:"codes,omitempty"`
	// CodesSource names where the codes were read.
	CodesSource string `toml:"codes-source,omitempty"`
}

// Limit is a published occupational exposure limit.
type Limit struct {
	Authority string                   `toml:"authority"` // as the public body is named
	Kind      string                   `toml:"kind"`      // "8 h", "15 min", "ceiling", "idlh"
	PPM       quantity.PartsPerMillion `toml:"ppm,omitzero"`
	MgPerM3   quantity.Concentration   `toml:"concentration,omitzero"`
	Year      string                   `toml:"year,omitempty"`
	Source    string                   `toml:"source"`
	At        string                   `toml:"at,omitempty"`
	Note      string                   `toml:"note,omitempty"`
}

// Part is one component of a made-up medium, by mass.
type Part struct {
	ID     string         `toml:"id"`
	Mass   quantity.Parts `toml:"parts"`
	Source string         `toml:"source,omitempty"` // of the proportion
	At     string         `toml:"at,omitempty"`
}

// Material is one catalogue entry: everything a substance brings to a paint.
// A field without evidence stays empty; nothing is filled in.
type Material struct {
	ID       string   `toml:"-"`
	Name     string   `toml:"name"`
	Synonyms []string `toml:"synonyms,omitempty"`
	Kind     Kind     `toml:"kind"`
	Family   string   `toml:"family,omitempty"` // hue or use: white, blue, earth, ...
	Chemical string   `toml:"chemical,omitempty"`
	Formula  string   `toml:"formula,omitempty"`
	CIName   string   `toml:"ci-name,omitempty"`
	CINumber string   `toml:"ci-number,omitempty"`
	Classes  []Class  `toml:"classes,omitempty"`
	Tags     []string `toml:"tags,omitempty"` // further words to find it by: earth, lake, historical, ...
	Note     string   `toml:"note,omitempty"`

	Density         []evidence.Reading[quantity.Density]         `toml:"density,omitempty"`
	BulkDensity     []evidence.Reading[quantity.Density]         `toml:"bulk-density,omitempty"`
	RefractiveIndex []evidence.Reading[quantity.RefractiveIndex] `toml:"refractive-index,omitempty"`
	ParticleSize    []evidence.Reading[quantity.ParticleSize]    `toml:"particle-size,omitempty"`
	SpecificSurface []evidence.Reading[quantity.SpecificSurface] `toml:"specific-surface,omitempty"`

	// Pigments and extenders.
	OilAbsorption    []OilReading     `toml:"oil-absorption,omitempty"`
	ArtistsDemand    []DemandReading  `toml:"artists-demand,omitempty"`
	Opacity          []Statement      `toml:"opacity,omitempty"`
	DryingEffect     []Statement      `toml:"drying-effect,omitempty"`
	Lightfastness    []Statement      `toml:"lightfastness,omitempty"`
	Incompatible     []Statement      `toml:"incompatible,omitempty"`
	Muller           *MullerBehaviour `toml:"muller,omitempty"`
	DryingConfidence string           `toml:"-"`

	// Oils, solvents and the rest.
	Viscosity       []Measured[quantity.Viscosity]              `toml:"viscosity,omitempty"`
	DensityAt       []Measured[quantity.Density]                `toml:"density-at,omitempty"`
	IodineValue     []evidence.Reading[quantity.IodineValue]    `toml:"iodine-value,omitempty"`
	DryingClass     []Statement                                 `toml:"drying-class,omitempty"`
	DryingTime      []evidence.Reading[quantity.Duration]       `toml:"drying-time,omitempty"`
	Yellowing       []Statement                                 `toml:"yellowing,omitempty"`
	MolarMass       []evidence.Reading[quantity.MolarMass]      `toml:"molar-mass,omitempty"`
	Boiling         []evidence.Reading[quantity.Celsius]        `toml:"boiling,omitempty"`
	FlashPoint      []Measured[quantity.Celsius]                `toml:"flash-point,omitempty"`
	LowerExplosive  []evidence.Reading[quantity.VolumeFraction] `toml:"lower-explosive-limit,omitempty"`
	VapourPressure  []Measured[quantity.Pressure]               `toml:"vapour-pressure,omitempty"`
	EvaporationRate []evidence.Reading[quantity.Ratio]          `toml:"evaporation-rate,omitempty"` // butyl acetate = 1
	Limits          []Limit                                     `toml:"limits,omitempty"`
	UseLevel        []evidence.Reading[quantity.MassFraction]   `toml:"use-level,omitempty"` // of the paste, or as the note says
	// NonVolatile is the share of the material as bought that stays in the dry
	// film (honey, ox gall and egg yolk hold water, driers solvent); empty where
	// all of it stays, or all of a solvent leaves.
	NonVolatile []evidence.Reading[quantity.MassFraction] `toml:"non-volatile,omitempty"`
	// Volatile is the id of what leaves beside that share; empty for water.
	Volatile string `toml:"volatile,omitempty"`
	Parts    []Part `toml:"parts,omitempty"` // of a made-up medium
	// AbsorptionDoubtful says why "the same volume of oil" may not hold for this
	// oil; its log standard deviation is added to every demand. 0: not doubtful.
	AbsorptionDoubtful string `toml:"absorption-doubtful,omitempty"`

	Hazards Hazards `toml:"hazards,omitempty"`

	// Overrides names fields that a maker's own file changed; empty for an
	// entry as shipped. Own is set for an entry the maker added.
	Overrides []string `toml:"-"`
	Own       bool     `toml:"-"`
	// Tests says in words which tests of the maker's own the figures rest on
	// beside what is published, "" where on none.
	Tests string `toml:"-"`
}

// Class is a chemical trait that decides whether two materials get on. Pairs
// of classes are matched over a whole formula.
type Class string

const (
	Sulphide          Class = "sulphide"       // releases or is sulphide: cadmium, ultramarine, vermilion, orpiment, lithopone
	Lead              Class = "lead"           // lead pigment or drier
	ReactiveCopper    Class = "copper"         // reactive copper: verdigris, azurite, malachite, emerald green; not phthalocyanine
	IronCyanide       Class = "iron-cyanide"   // Prussian blue and mixtures with it
	Alkaline          Class = "alkaline"       // alkaline material: lime, borax, ammonia, alkaline glass
	Acid              Class = "acid"           // acid material: vinegar, acid-preserved gum
	NeedsAcid         Class = "needs-acid"     // works only in an acid mixture: benzoate, sorbate
	AcidSensitive     Class = "acid-sensitive" // ultramarine, carbonates: destroyed by weak acid
	AlkaliSensitive   Class = "alkali-sensitive"
	Carbonate         Class = "carbonate"
	Chromate          Class = "chromate"
	Arsenic           Class = "arsenic"
	Mercury           Class = "mercury"
	Cadmium           Class = "cadmium"
	Cobalt            Class = "cobalt"
	Manganese         Class = "manganese"
	Antimony          Class = "antimony"
	Nickel            Class = "nickel"
	Barium            Class = "barium" // soluble barium only
	Zinc              Class = "zinc"   // zinc oxide: soaps, brittle films
	CrystallineSilica Class = "crystalline-silica"
	Azo               Class = "azo"
	CarbonBlack       Class = "carbon" // dry carbon blacks
	FineDust          Class = "fine-dust"
	HeatSensitive     Class = "heat-sensitive"
	Flammable         Class = "flammable"  // vapour takes fire
	DryingOil         Class = "drying-oil" // rags self-heat
	Oxidiser          Class = "oxidiser"
	Reducing          Class = "reducing"
	Protein           Class = "protein" // glue, egg, casein
	Moulds            Class = "moulds"  // feeds mould: gum, honey, sugar
	IronGall          Class = "tannin"
	Calcium           Class = "calcium"
	Gels              Class = "gels"    // gum that salts can turn into a jelly: gum arabic
	Gelling           Class = "gelling" // gels such a gum: borax, soluble iron and lead salts
)

// Has reports whether the material is of a class.
func (m *Material) Has(c Class) bool { return slices.Contains(m.Classes, c) }
