package formulate

import (
	"errors"
	"fmt"
	"math"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// BulkRequest is a powder weighed in a vessel, poured in, and tapped if it was.
type BulkRequest struct {
	Pigment *material.Material // nil where it was not named
	Powder  quantity.Mass      // poured in
	Volume  quantity.Volume    // that it fills
	// Tapped is what the same powder fills after tapping, Refilled the powder
	// that fills the vessel once it was tapped and topped up; at most one is
	// given.
	Tapped   quantity.Volume
	Refilled quantity.Mass
	Scale    quantity.Mass   // one division of the balance
	Division quantity.Volume // of the vessel
}

// BulkResult is the answer: how loose the powder lies and how it flows.
type BulkResult struct {
	Request BulkRequest
	Poured  evidence.Estimate[quantity.Density]
	Tapped  *evidence.Estimate[quantity.Density]
	Carr    quantity.Ratio
	Hausner quantity.Ratio
	Flow    powders.Flow
	// Spoon is a level tablespoon, poured.
	Spoon     quantity.Mass
	Published evidence.Range[quantity.Density] // zero where none is known
	Cautions  []Caution
	Warnings  []string
	Steps     []trace.Step
}

// PowderBulk works out the bulk density of a powder.
func PowderBulk(req BulkRequest) (*BulkResult, error) {
	if req.Tapped > 0 && req.Refilled > 0 {
		return nil, errors.New("the tapped volume and the tapped weight are both given; give one")
	}
	if req.Tapped > req.Volume {
		return nil, fmt.Errorf("the powder fills %s poured and %s tapped: tapping only settles it", req.Volume, req.Tapped)
	}
	if req.Refilled > 0 && req.Refilled < req.Powder {
		return nil, fmt.Errorf("the vessel takes %s poured and %s tapped: tapping only makes room for more", req.Powder, req.Refilled)
	}
	res := &BulkResult{Request: req, Cautions: powderCautions(DryPowder, req.Pigment)}
	if req.Pigment != nil {
		if err := aPowder(req.Pigment); err != nil {
			return nil, err
		}
		if d, ok := BulkDensityOf(req.Pigment); ok {
			res.Published = d.Range()
		}
	}
	var tr trace.Tracer
	var err error
	if res.Poured, err = req.density("poured", req.Powder, req.Volume, &tr); err != nil {
		return nil, err
	}
	res.Spoon = quantity.Volume(quantity.MlPerTablespoon).Mass(res.Poured.Value)
	if req.Tapped > 0 || req.Refilled > 0 {
		mass, volume := req.Powder, req.Tapped
		if req.Refilled > 0 {
			mass, volume = req.Refilled, req.Volume
		}
		tapped, err := req.density("tapped", mass, volume, &tr)
		if err != nil {
			return nil, err
		}
		res.Tapped = &tapped
		if err := res.flow(&tr); err != nil {
			return nil, err
		}
	}
	res.Warnings = append(res.Warnings, "loose density changes with every filling: pour from the same height, do not knock the vessel, and take the mean of a few (common practice)")
	res.Steps = tr.Steps()
	return res, nil
}

// density is mass over volume, with what balance and vessel leave uncertain.
func (r *BulkRequest) density(of string, m quantity.Mass, v quantity.Volume, tr *trace.Tracer) (evidence.Estimate[quantity.Density], error) {
	d, err := powders.BulkDensity(m, v)
	if err != nil {
		return evidence.Estimate[quantity.Density]{}, err
	}
	half := evidence.Rectangular(r.Scale / 2)
	c, err := evidence.Product(1,
		evidence.Factor{Input: evidence.In("powder", evidence.Given(m, evidence.RootSum(half, half))), Power: 1},
		evidence.Factor{Input: evidence.In("volume", evidence.Given(v, evidence.Rectangular(r.Division/2))), Power: -1})
	if err != nil {
		return evidence.Estimate[quantity.Density]{}, err
	}
	tr.Note(powders.BulkDensityRelation, of, trace.T("ρb", d, "g/ml"), trace.T("m", m, "g"), trace.T("V", v, "ml"))
	tr.Note(evidence.ProductRelation, of, trace.T("u(ρb)", c.U, "g/ml"))
	return evidence.Given(d, quantity.Density(c.U)), nil
}

func (res *BulkResult) flow(tr *trace.Tracer) error {
	poured, tapped := res.Poured.Value, res.Tapped.Value
	var err error
	if res.Carr, err = powders.CarrIndex(poured, tapped); err != nil {
		return err
	}
	if res.Hausner, err = powders.HausnerRatio(poured, tapped); err != nil {
		return err
	}
	if res.Flow, err = powders.FlowOf(res.Carr); err != nil {
		return err
	}
	in := []trace.Term{trace.T("ρt", tapped, "g/ml"), trace.T("ρb", poured, "g/ml")}
	tr.Note(powders.CarrRelation, "powder", trace.T("CI", res.Carr, ""), in...)
	tr.Note(powders.HausnerRelation, "powder", trace.T("H", res.Hausner, ""), in...)
	tr.Note(powders.FlowRelation, string(res.Flow), trace.T("CI", res.Carr, ""))
	return nil
}

// JarRequest asks what a jar of powder comes to as paint.
type JarRequest struct {
	Jar quantity.Volume
	// Bulk is the density of the powder as it lies in the jar; see JarBulk.
	Bulk   evidence.Distribution[quantity.Density]
	BulkBy string
	Tube   quantity.Volume
	Fill   quantity.VolumeFraction
	// Mull is the paint to make of it; its amount is not read.
	Mull MullRequest
}

// JarResult is the answer.
type JarResult struct {
	Request  JarRequest
	Powder   evidence.Range[quantity.Mass]
	Paint    evidence.Range[quantity.Volume] // left after losses
	Oil      evidence.Range[quantity.Mass]
	Tubes    evidence.Range[quantity.Ratio]
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

// JarBulk is the density of a powder in a jar that was filled by hand: between
// its poured and its tapped density.
func JarBulk(poured, tapped quantity.Density) (evidence.Distribution[quantity.Density], error) {
	if _, _, err := powders.JarMass(1, poured, tapped); err != nil {
		return evidence.Distribution[quantity.Density]{}, err
	}
	return evidence.Combine([]evidence.Reading[quantity.Density]{{Low: poured, High: tapped, Source: material.OwnMeasurement}}, evidence.Width{Weight: 1}), nil
}

// BulkSpread is that of a loose density from one filling to the next.
func BulkSpread() float64 { return bulkWidth.Sigma }

// jarMassRelation is the powder of one draw.
var jarMassRelation = trace.Relation{Name: "powder in a jar", Equation: "m = V·ρb", Source: "definition"}

// PowderJar works out what a jar comes to.
func PowderJar(req JarRequest) (*JarResult, error) {
	if !positive(req.Jar) || !req.Bulk.Known() {
		return nil, errors.New("a jar needs its volume, and its powder a bulk density")
	}
	if !(req.Tube > 0) || !(req.Fill > 0 && req.Fill <= 1) {
		return nil, errors.New("a tube's volume is above nothing, its fill above 0 and up to 100 %")
	}
	req.Mull.Amount = Amount{Kind: ByPigmentMass, Mass: req.Jar.Mass(req.Bulk.Median)}
	if err := req.Mull.validate(); err != nil {
		return nil, err
	}
	inputs := req.Mull.inputs()
	if inputs+1 > evidence.MaxInputs {
		return nil, errors.New("too many ingredients for one jar")
	}
	work := func(m *mull, z []float64, tr *trace.Tracer) (powder quantity.Mass, paint quantity.Volume, oil quantity.Mass, err error) {
		powder = req.Jar.Mass(req.Bulk.At(z[inputs]))
		tr.Note(jarMassRelation, "jar", trace.T("m", powder, "g"), trace.T("V", req.Jar, "ml"), trace.T("ρb", req.Bulk.At(z[inputs]), "g/ml"))
		u, err := m.unitPaint(z[:inputs], tr)
		if err != nil {
			return 0, 0, 0, err
		}
		dry := powders.DryMass(powder, req.Mull.Moisture)
		paint = u.paint.Figures().Volume * quantity.Volume(float64(dry)*(1-float64(req.Mull.Loss)))
		return powder, paint, u.oil * dry, nil
	}
	var tr trace.Tracer
	if _, _, _, err := work(&mull{req: &req.Mull}, make([]float64, inputs+1), &tr); err != nil {
		return nil, err
	}
	columns := req.Mull.Sampling.run(inputs+1, 3, func() func(z, out []float64) {
		m := &mull{req: &req.Mull}
		return func(z, out []float64) {
			powder, paint, oil, err := work(m, z, nil)
			if err != nil {
				paint = quantity.Volume(math.NaN())
			}
			out[0], out[1], out[2] = float64(powder), float64(paint), float64(oil)
		}
	})
	for _, v := range columns[1] {
		if math.IsNaN(v) {
			return nil, errors.New("the target leaves no room for oil beside the wax; lower the PVC or the wax")
		}
	}
	res := &JarResult{Request: req, Powder: rangeOf[quantity.Mass](columns[0]), Paint: rangeOf[quantity.Volume](columns[1]), Oil: rangeOf[quantity.Mass](columns[2])}
	res.Tubes = vesselsFilled(res.Paint, req.Tube, req.Fill)
	res.Cautions = Cautions(DryPowder|InOil|Kept, req.Mull.materials()...)
	res.Steps = tr.Steps()
	return res, nil
}
