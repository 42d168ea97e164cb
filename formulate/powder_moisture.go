package formulate

import (
	"errors"
	"fmt"

	"mullwright/formulate/evidence"
	"mullwright/formulate/material"
	powders "mullwright/formulate/powder"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// MoistureRequest is a drying test: a dish weighed damp and dried. Without
// weighings the answer is how the powder may be dried.
type MoistureRequest struct {
	Pigment *material.Material // nil where it was not named
	Dish    quantity.Mass      // 0: the balance was tared
	Damp    quantity.Mass      // with the dish
	Dried   []quantity.Mass    // with the dish, one weighing after another
	Want    quantity.Mass      // dry pigment to have, 0: not asked
	Scale   quantity.Mass      // one division of the balance
}

// Steadiness says whether the powder was dry at the last weighing.
type Steadiness uint8

const (
	NotShown Steadiness = iota // one weighing: it cannot be told
	Steady                     // the last two are alike to a division
	Losing                     // it was still losing weight
	Gaining                    // it gained: damp air, or a misread balance
)

// MoistureResult is the answer to a drying test.
type MoistureResult struct {
	Request  MoistureRequest
	Powder   quantity.Mass // damp, without the dish
	Dry      quantity.Mass
	Water    quantity.Mass
	Moisture evidence.Estimate[quantity.MassFraction]
	// Low and High bound it with 95 % confidence, by the balance alone.
	Low, High quantity.MassFraction
	DryBasis  quantity.Ratio
	Steadiness
	Change     quantity.Mass // between the last two weighings
	WeighOut   quantity.Mass // damp powder that brings Want
	Rule       Hint
	Statements []Hint
	Cautions   []Caution
	Warnings   []string
	Steps      []trace.Step
}

// PowderMoisture works a drying test out.
func PowderMoisture(req MoistureRequest) (*MoistureResult, error) {
	res := &MoistureResult{Request: req, Rule: DryingRule(&material.Material{}), Cautions: powderCautions(DryPowder|Heated, req.Pigment)}
	if req.Pigment != nil {
		if err := aPowder(req.Pigment); err != nil {
			return nil, err
		}
		res.Rule, res.Statements = DryingRule(req.Pigment), HeatStatements(req.Pigment)
	}
	if req.Damp == 0 && len(req.Dried) == 0 {
		if req.Pigment == nil {
			return nil, errors.New("nothing to work out: give the weighings, or name a pigment for how it may be dried")
		}
		return res, nil
	}
	if req.Damp == 0 || len(req.Dried) == 0 {
		return nil, errors.New("a drying test needs the weight damp and at least one weight dried")
	}
	if req.Damp <= req.Dish {
		return nil, fmt.Errorf("the dish weighs %s empty and %s with the powder: there is none in it", req.Dish, req.Damp)
	}
	var tr trace.Tracer
	if err := res.work(&tr); err != nil {
		return nil, err
	}
	res.steadiness()
	res.Warnings = res.warnings()
	res.Steps = tr.Steps()
	return res, nil
}

func (res *MoistureResult) work(tr *trace.Tracer) error {
	req := &res.Request
	last := req.Dried[len(req.Dried)-1]
	test := powders.DryingTest{Container: req.Dish, Damp: req.Damp, Dried: last, Digit: req.Scale}
	var err error
	if res.Moisture, err = test.Moisture(); err != nil {
		return err
	}
	res.Powder, res.Dry, res.Water = tidy(1, req.Damp-req.Dish), tidy(1, last-req.Dish), tidy(1, req.Damp-last)
	w := res.Moisture.Value
	half, err := res.Moisture.Expanded(intervalConfidence)
	if err != nil {
		return err
	}
	res.Low, res.High = max(w-half, 0), min(w+half, 1)
	tr.Note(powders.DryingTestRelation, "powder", trace.T("W", w, ""), trace.T("m₁", req.Dish, "g"), trace.T("m₂", req.Damp, "g"), trace.T("m₃", last, "g"), trace.T("u", res.Moisture.U, ""))
	res.DryBasis = powders.DryBasis(w)
	tr.Note(powders.DryBasisRelation, "powder", trace.T("X", res.DryBasis, ""), trace.T("W", w, ""))
	if req.Want > 0 {
		res.WeighOut = powders.DampMass(req.Want, w)
		tr.Note(powders.DampMassRelation, "powder", trace.T("m_damp", res.WeighOut, "g"), trace.T("m_dry", req.Want, "g"), trace.T("W", w, ""))
	}
	return nil
}

// steadiness compares the last two weighings, to a division of the balance.
func (res *MoistureResult) steadiness() {
	list := res.Request.Dried
	if len(list) < 2 {
		return
	}
	last := list[len(list)-1]
	res.Change = last - list[len(list)-2]
	// A hair over one division, for the dust of binary fractions.
	allowed := res.Request.Scale * 1.000001
	switch {
	case res.Change < -allowed:
		res.Steadiness = Losing
	case res.Change > allowed:
		res.Steadiness = Gaining
	default:
		res.Steadiness = Steady
	}
}

func (res *MoistureResult) warnings() []string {
	var out []string
	switch res.Steadiness {
	case NotShown:
		out = append(out, "one weighing does not show that it was dry: weigh again after another spell of drying, until two are alike (common practice)")
	case Losing:
		out = append(out, "it was still losing weight: the moisture is at least this")
	case Gaining:
		out = append(out, "it gained weight between the last two weighings: powder takes up damp from the air, so close the dish while it cools, or a weight was misread")
	}
	if float64(res.Moisture.U) > 0 && res.Water < 2*res.Request.Scale {
		out = append(out, say("the loss is under two divisions of the balance: dry more than %.3g g of powder, or use a finer balance", float64(res.Powder)))
	}
	out = append(out, "drying at room temperature takes loose water only; what is bound in the pigment stays and counts as pigment")
	return out
}

// powderCautions are those of work with a powder that may not have been named,
// and with what else is used on it.
func powderCautions(when Setting, pigment *material.Material, others ...*material.Material) []Caution {
	if pigment != nil {
		return Cautions(when, append([]*material.Material{pigment}, others...)...)
	}
	return append(Cautions(when, others...), Caution{About: "not assessed", Text: "No pigment was named, so its hazards were not looked up: that is not a clearance. " + deferral, Source: "catalogue"})
}

// aPowder refuses what is not a pigment or an extender.
func aPowder(m *material.Material) error {
	if !m.Kind.IsPigment() {
		return fmt.Errorf("%s is a %s, not a powder", m.ID, m.Kind)
	}
	return nil
}
