package formulate

import (
	"fmt"

	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// An Ingredient is a material made ready for calculation: its evidence turned
// into distributions, once.
type Ingredient struct {
	Material   *material.Material
	Density    evidence.Distribution[quantity.Density]
	Absorption evidence.Distribution[quantity.AbsorptionVolume]
	Method     material.Method // what the absorption rests on
	Demand     absorption.DemandModel
	Price      quantity.PricePerGram
	// OwnAbsorption is set where the maker's own rub-outs narrowed the catalogue,
	// OwnDemand where their own batches gave the oil at tube colour.
	OwnAbsorption bool
	OwnDemand     bool
	// Learned is what those tests taught, nil where there are none.
	Learned *LearnResult
	// OnHand is what the maker has of it; nil where that is not kept.
	OnHand *quantity.Mass
}

// deviatesEach is how many standard normal deviates one ingredient takes: its
// density, its lot's absorption, its demand beyond what absorption foretells.
const deviatesEach = 3

// doubtfulOilSigma widens the oil volume for an oil whose absorption by volume
// is doubtful (stand, boiled, sun oil): common practice, no source measures it.
const doubtfulOilSigma = 0.15

// NewIngredient prepares a material. Every ingredient needs a density; a powder
// needs evidence of its oil demand. Rub-outs of the maker's own that stand in the
// material narrow what is published, as [Learn] has it.
func NewIngredient(m *material.Material) (Ingredient, error) {
	in := Ingredient{Material: m, Density: m.DensityDistribution()}
	if !in.Density.Known() {
		return in, fmt.Errorf("%s: no density is known; give one in a catalogue file of your own", m.ID)
	}
	if m.Kind.IsPigment() {
		in = in.untaught()
		if !in.Demand.Known() {
			return in, fmt.Errorf("%s: no oil absorption is known; do a rub-out test and give it in a catalogue file of your own", m.ID)
		}
		if trials := ownTrials(m); len(trials) > 0 {
			r, err := learnFrom(LearnRequest{Pigment: in, Trials: trials})
			if err != nil {
				return in, fmt.Errorf("%s: %w", m.ID, err)
			}
			in = r.Pigment
		}
	}
	return in, nil
}

// AbsorptionOf is the oil absorption of a powder as answers use it: what is
// published, narrowed by the maker's own rub-outs that stand beside it.
func AbsorptionOf(m *material.Material) (evidence.Distribution[quantity.AbsorptionVolume], material.Method) {
	if len(ownTrials(m)) > 0 {
		if in, err := NewIngredient(m); err == nil {
			return in.Absorption, in.Method
		}
	}
	return m.AbsorptionDistribution()
}

// untaught is the ingredient as it is published. Where nothing is, the maker's
// own rub-outs are all there is to begin with: as wide as one figure of any
// pigment, they move what they teach by less than a hundredth of its width.
func (in Ingredient) untaught() Ingredient {
	in.OwnAbsorption, in.OwnDemand, in.Learned = false, false, nil
	in.Absorption, in.Method = in.Material.PublishedAbsorption()
	in.prepare()
	if !in.Demand.Known() {
		in.Absorption, in.Method = in.Material.AbsorptionDistribution()
		in.prepare()
	}
	return in
}

func (in *Ingredient) prepare() {
	in.Demand = absorption.NewDemandModel(absorption.Pigment{
		Density: in.Density, Oil: in.Absorption, Method: in.Method,
		Colourless: absorption.Colourless(in.Material), Published: in.Material.ArtistsDemand,
	})
}

// WithAbsorption returns the ingredient with the maker's own oil absorption.
func (in Ingredient) WithAbsorption(own evidence.Distribution[quantity.AbsorptionVolume]) Ingredient {
	in.Absorption, in.Method, in.OwnAbsorption = own, material.RubOut, true
	in.prepare()
	return in
}

// bulkWidth is the spread of loose bulk density from one filling or lot to the
// next: common practice, tapping alone changes it by a third.
var bulkWidth = evidence.Width{Sigma: 0.2, Weight: 2}

// BulkDensityOf combines the published loose bulk densities of a powder.
func BulkDensityOf(m *material.Material) (evidence.Distribution[quantity.Density], bool) {
	d := evidence.Combine(m.BulkDensity, bulkWidth)
	return d, d.Known()
}

// Values are one draw of an ingredient.
type Values struct {
	Density    quantity.Density
	Absorption quantity.AbsorptionVolume
	zLot       float64
	zDemand    float64
}

// At returns the ingredient at its three deviates.
func (in *Ingredient) At(z []float64) Values {
	v := Values{Density: in.Density.At(z[0]), zLot: z[1], zDemand: z[2]}
	if in.Demand.Known() {
		v.Absorption = in.Demand.OilAbsorption(z[1])
	}
	return v
}

// Component puts a mass of the ingredient into a paint.
func (in *Ingredient) Component(v Values, role Role, mass quantity.Mass) Component {
	return Component{ID: in.Material.ID, Role: role, Mass: mass, Density: v.Density, Absorption: v.Absorption, Price: in.Price}
}
