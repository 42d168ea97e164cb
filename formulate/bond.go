package formulate

import (
	"mullwright/formulate/absorption"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Bond is what two witnesses say of whether a dry film has the binder to hold
// its pigment.
//
// The first is the oil absorption: a film below its critical PVC has every gap
// filled. The second is the artists' demand, published for the pigment or
// foretold: a film that holds no less binder than the stiffest paste painters
// grind of it, the step "stiff", is bound as their paints are. For most pigments
// the two agree, as far as their ranges go. For a few (viridian, carbon black,
// manganese brown) the oil absorption calls crumbly what the demand calls a tube
// paint, most likely because the one was measured on a finer powder than the
// other. The rule, in the order it is read:
//
//	PVC over critical is at most 1 over its range     the film holds
//	its middle is at most 1                           undecided
//	its middle is above 1, and the film's PVC over
//	that of the stiff paste is at most 1 in the middle   undecided: the two
//	                                                     contradict each other
//	both middles are above 1                          it does not hold
//
// Where more binder is named, it is so much that the film holds over its range by
// its oil absorption; but where the stiff paste is leaner than the critical PVC,
// so much that it holds by the demand: no oil is named from an oil absorption that
// the demand contradicts.
type Bond struct {
	Verdict Verdict
	// Reduced is the PVC over the critical PVC, Paste the PVC over that of the
	// stiff paste.
	Reduced, Paste evidence.Range[quantity.Ratio]
	// Contradicted is set where it is undecided because the two contradict each
	// other.
	Contradicted bool
}

// MostReducedPVC is where the binder just fills the gaps.
const MostReducedPVC quantity.Ratio = 1

// mostOfPaste is the leanest film that counts as bound as a stiff paste is, with
// room for rounding where it is one.
const mostOfPaste quantity.Ratio = 1 + 1e-9

func judgeBond(reduced, paste evidence.Range[quantity.Ratio]) Bond {
	b := Bond{Verdict: atMost(reduced, MostReducedPVC), Reduced: reduced, Paste: paste}
	if b.Verdict == Fails && paste.Typical <= mostOfPaste {
		b.Verdict, b.Contradicted = Undecided, true
	}
	return b
}

// vouched reports whether the film holds over its range, by the witness that
// binder is named from.
func (b *Bond) vouched() bool {
	return b.Reduced.High <= MostReducedPVC || b.leanPaste() && b.Paste.High <= mostOfPaste
}

// leanPaste reports whether the stiff paste is leaner than the critical PVC.
func (b *Bond) leanPaste() bool { return b.Paste.Typical < b.Reduced.Typical }

// contradiction says what contradicts what.
func (b *Bond) contradiction() string {
	return say("oil absorption and demand contradict each other: by the first it has too little binder (PVC over critical is %.3g), by what artists' paste of it takes it has enough; let a sample dry and rub it (common practice)", float64(b.Reduced.Typical))
}

// stiffPaste is the body that the second witness compares with.
func stiffPaste() absorption.Step {
	s, _ := absorption.NamedBody("stiff")
	return s
}

var (
	oilOfStiffPaste = trace.Relation{Name: "oil of the stiffest artists' paste", Equation: "Vs = k·Σ m·D/100", Source: "absorption, fit of published artists' demand; k of the step stiff"}
	overStiffPaste  = trace.Relation{Name: "PVC over that of the stiffest artists' paste", Equation: "Λs = PVC·(1 + Vs/Vp)", Source: "definition of PVC"}
)

// overPaste is the PVC of a dry film over that of the stiff paste of its
// powders, at a draw that t has mixed.
func (t *thinner) overPaste(dry Figures, z []float64, tr *trace.Tracer) quantity.Ratio {
	var tube quantity.Volume
	p := &t.req.Paint
	at := func(i int) []float64 { return z[t.seats[i] : t.seats[i]+deviatesEach] }
	for i := range p.Pigments {
		tube += tubeOil(&p.Pigments[i].Ingredient, at(i), t.before[i].Mass)
	}
	for i := range p.Extenders {
		k := len(p.Pigments) + i
		tube += tubeOil(&p.Extenders[i].Ingredient, at(k), t.before[k].Mass)
	}
	doubt := 1.0
	for i := range p.Oils {
		o := &p.Oils[i]
		doubt *= doubtful(&o.Ingredient, at(len(p.Pigments)+len(p.Extenders)+i), float64(o.Parts)/p.oilParts())
	}
	stiff := stiffPaste()
	oil := quantity.Volume(float64(tube) * doubt * float64(stiff.Oil))
	out := quantity.Ratio(float64(dry.PVC()) * (1 + share(float64(oil), float64(dry.PigmentVolume))))
	if tr.On() {
		tr.Note(oilOfStiffPaste, "paint", trace.T("Vs", oil, "ml"), trace.T("k", stiff.Oil, ""))
		tr.Note(overStiffPaste, "dry film", trace.T("Λs", out, ""), trace.T("PVC", dry.PVC(), ""), trace.T("Vs", oil, "ml"), trace.T("Vp", dry.PigmentVolume, "ml"))
	}
	return out
}
