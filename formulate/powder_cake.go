package formulate

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// CakeStage is one weighing on the way from the wet cake to the tubes: what was
// weighed and the share of it that is not pigment, water in a cake, oil in a
// paint.
type CakeStage struct {
	Name  string
	Mass  quantity.Mass
	Other quantity.MassFraction
}

// CakeRequest is those weighings in order, two at least.
type CakeRequest struct {
	Stages []CakeStage
	Want   quantity.Mass // pigment to end with next time; 0: not asked
}

// CakeResult is what each stage cost.
type CakeResult struct {
	Request CakeRequest
	Dry     []quantity.Mass // pigment at each weighing
	Yield   powders.Yield
	Begin   quantity.Mass // dry pigment to begin with for Want
	BeginAs quantity.Mass // the same as the first stage was weighed
	// LastLoss is what the last stage loses, as a mull takes it.
	LastLoss quantity.MassFraction
	Cautions []Caution
	Warnings []string
	Steps    []trace.Step
}

const (
	mostStages = 50
	mostName   = 60
)

// PowderCake works the losses out.
func PowderCake(req CakeRequest) (*CakeResult, error) {
	if len(req.Stages) < 2 {
		return nil, errors.New("losses need two weighings or more, from the wet cake on")
	}
	if len(req.Stages) > mostStages {
		return nil, fmt.Errorf("%d weighings are more than one answer takes; at most %d", len(req.Stages), mostStages)
	}
	res := &CakeResult{Request: req, Cautions: powderCautions(DryPowder, nil)}
	var tr trace.Tracer
	for _, s := range req.Stages {
		if s.Name == "" || len(s.Name) > mostName || strings.ContainsFunc(s.Name, unicode.IsControl) {
			return nil, fmt.Errorf("weighing %q: its name is one line of at most %d letters", s.Name, mostName)
		}
		if !positive(s.Mass) {
			return nil, fmt.Errorf("%s: its mass must be above nothing", s.Name)
		}
		if powders.CheckMoisture(s.Other) != nil {
			return nil, fmt.Errorf("%s: what is not pigment must be below 100 %%", s.Name)
		}
		dry := powders.DryMass(s.Mass, s.Other)
		tr.Note(powders.DryMassRelation, s.Name, trace.T("m_dry", dry, "g"), trace.T("m_damp", s.Mass, "g"), trace.T("W", s.Other, ""))
		res.Dry = append(res.Dry, dry)
	}
	var stages []powders.Stage
	for i := 1; i < len(res.Dry); i++ {
		// Nothing lost is not a gain by the dust of binary fractions.
		if res.Dry[i] > res.Dry[i-1] && res.Dry[i] < res.Dry[i-1]*(1+1e-9) {
			res.Dry[i] = res.Dry[i-1]
		}
		stages = append(stages, powders.Stage{Name: req.Stages[i-1].Name + " to " + req.Stages[i].Name, In: res.Dry[i-1], Out: res.Dry[i]})
	}
	var err error
	if res.Yield, err = powders.Through(stages); err != nil {
		return nil, err
	}
	tr.Note(powders.YieldRelation, "all stages", trace.T("Y", res.Yield.Kept, ""))
	losses := res.Yield.Losses
	res.LastLoss = 1 - losses[len(losses)-1].Kept
	if req.Want > 0 {
		if res.Yield.Kept == 0 {
			return nil, errors.New("nothing was kept to the end, so no start gives what is wanted")
		}
		res.Begin = req.Want / quantity.Mass(res.Yield.Kept)
		res.BeginAs = powders.DampMass(res.Begin, req.Stages[0].Other)
		tr.Note(beginRelation, "next time", trace.T("m", res.Begin, "g"), trace.T("wanted", req.Want, "g"), trace.T("Y", res.Yield.Kept, ""))
	}
	res.Warnings = []string{"salts that were washed out, samples that were kept and powder that took up damp all look like losses or gains of pigment: weigh at the same dryness throughout"}
	res.Steps = tr.Steps()
	return res, nil
}

// beginRelation is what to begin with.
var beginRelation = trace.Relation{Name: "dry pigment to begin with", Equation: "m = wanted/Y", Source: "conservation of mass"}
