package show

import (
	"fmt"
	"strings"

	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
)

// span is a range on the scale it is shown on.
func span[Q quantity.Real](r evidence.Range[Q], scale float64) picture.Span {
	return picture.Span{Low: float64(r.Low) * scale, Typical: float64(r.Typical) * scale, High: float64(r.High) * scale}
}

// ofTen says what a pale band or bar holds.
const ofTen = "The pale bands hold 8 jars in 10."

// MullDial shows how the paste of a mull falls as its oil is poured.
func MullDial(d *formulate.Dial) picture.DialData {
	r := d.Mull
	p := &r.Pours
	oil := func(m quantity.Mass) string { return render.OnScale(m, r.Request.Scale) }
	v := picture.DialData{
		Frame: picture.Frame{
			Title: strings.Join(names(r, formulate.Pigment), " + ") + " in " + strings.Join(names(r, formulate.Binder), " + "),
			Lead:  "For " + weighed(r) + ".",
			Notes: []string{ofTen},
		},
		OilName: "oil poured, g", BodyName: "body: share of pigment over critical", PVCName: "pigment by volume of the dry film (PVC), %",
		Target: float64(d.Target.Body), TargetName: "asked for: " + targetName(r.Target),
		First: float64(p.First), FirstName: "first pour " + oil(p.First),
		Needed: span(r.Figures.BinderMass, 1), NeededName: "expect " + oil(p.Typical),
		Most: float64(p.Most), MostName: "stop at " + oil(p.Most),
		Critical: span(r.Figures.CPVC, 100),
	}
	if len(p.Ladder) > 1 {
		v.Lead = fmt.Sprintf("Pour %s first, then %s at a time; half the jars are there by %s. For %s.", oil(p.First), stepText(r), oil(p.Typical), weighed(r))
		for _, x := range p.Ladder[1:] {
			v.Totals = append(v.Totals, float64(x.Total))
		}
	} else {
		v.First, v.Most = 0, 0
		v.Notes = []string{"One answer at the typical values; no range was drawn."}
	}
	if p.Mends.Typical > 0 {
		v.Limit = float64(p.Mends.Typical)
		v.LimitName = fmt.Sprintf("past %s the %s g there is cannot mend it", oil(p.Mends.Typical), render.Given(r.Request.Have))
	}
	for _, x := range d.Points {
		v.Points = append(v.Points, picture.DialPoint{Oil: float64(x.Oil), Body: span(x.Body, 1), PVC: span(x.PVC, 100)})
	}
	for _, s := range d.Steps {
		v.Bands = append(v.Bands, picture.Band{Name: s.Step.Name, From: float64(s.Stiffest.Body), To: float64(s.Softest.Body)})
	}
	return v
}

// names lists what a mull weighs in one role.
func names(r *formulate.MullResult, role formulate.Role) []string {
	var out []string
	for _, w := range r.Weigh {
		if w.Role == role {
			out = append(out, w.Material.Name)
		}
	}
	return out
}

// weighed says what stands on the balance.
func weighed(r *formulate.MullResult) string {
	var out []string
	for _, w := range r.Weigh {
		if w.Role != formulate.Binder {
			out = append(out, render.OnScale(w.OnScale, r.Request.Scale)+" of "+w.Material.Name)
		}
	}
	return strings.Join(out, ", ")
}

func stepText(r *formulate.MullResult) string {
	if n := r.Pours.StepDrops; n > 0 {
		return drops(n)
	}
	return render.OnScale(r.Pours.Step, r.Request.Scale)
}

func targetName(t formulate.Target) string {
	switch t.Kind {
	case formulate.AtPVC:
		return "PVC " + render.Given(float64(t.PVC)*100) + " %"
	case formulate.AtReducedPVC:
		return "reduced PVC " + render.Given(t.Reduced)
	}
	return t.Body.String()
}

// bar is a range as a bar and as the text prints it.
func bar[Q quantity.Real](r evidence.Range[Q], scale float64, figures int) (picture.Span, string) {
	return span(r, scale), strings.TrimSpace(render.Range(r, scale, figures, ""))
}
