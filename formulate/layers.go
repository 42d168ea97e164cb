package formulate

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mullwright/formulate/evidence"
	"mullwright/formulate/film"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// LayersRequest is a painting as a list of layers, the lowest first.
type LayersRequest struct {
	Layers   []LayerAsked
	Sampling Sampling
}

// LayerAsked is one layer: a paint, thinned or not, in a wet film, with the
// time it dries before the next goes on.
type LayerAsked struct {
	Name  string
	Thin  ThinRequest // its Wet is needed; its amounts mean nothing here
	Dried *quantity.Duration
}

// Rule is what a check of the layers is about.
type Rule string

const (
	HoldsPigment  Rule = "binding"       // the layer's own binder holds its pigment
	FatOverLean   Rule = "fat over lean" // no leaner, by volume, than the layer below
	DryingOrder   Rule = "drying order"  // no faster than the layer below
	LongEnough    Rule = "drying time"   // the layer below was left long enough
	ThickOverThin Rule = "thickness"     // no thin film over a thick one
)

// ruleOrder is the order in which a layer is judged.
var ruleOrder = []Rule{HoldsPigment, FatOverLean, DryingOrder, LongEnough, ThickOverThin}

// Rules lists the rules in that order.
func Rules() []Rule { return slices.Clone(ruleOrder) }

// A Finding is what one rule says of one layer, or of it and the one below.
type Finding struct {
	Rule    Rule
	Verdict Verdict
	Text    string
}

// LayerResult is one layer, judged by itself and against the one below it.
type LayerResult struct {
	Name    string
	Request *ThinRequest
	// ByVolume and ByMass are the binder of the dry film, what stays beside the
	// pigment: the measure of fat, and what it looks like on a balance.
	ByVolume evidence.Range[quantity.VolumeFraction]
	ByMass   evidence.Range[quantity.MassFraction]
	PVC      evidence.Range[quantity.VolumeFraction]
	Bond     Bond
	Wet      quantity.Thickness
	Dry      evidence.Range[quantity.Thickness]
	Drying   Drying
	Dried    *quantity.Duration
	Findings []Finding
	Steps    []trace.Step // its derivation at the typical values
}

// Verdict is the worst of a layer's findings.
func (l *LayerResult) Verdict() Verdict {
	worst := Holds
	order := []Verdict{Holds, NotKnown, Undecided, Fails}
	for _, f := range l.Findings {
		if slices.Index(order, f.Verdict) > slices.Index(order, worst) {
			worst = f.Verdict
		}
	}
	return worst
}

// Fault is the first rule broken, from the ground up.
type Fault struct {
	Layer   int // from 0
	Finding Finding
}

// LayersResult is the answer to a painting's layers.
type LayersResult struct {
	Request LayersRequest
	Layers  []LayerResult // the lowest first
	First   *Fault        // nil where no rule is broken
	// Mends are changes, one on top of the other, each the smallest found for the
	// first fault left before it: together they leave none, or what the last one
	// says. None where no change was found for the first fault; Advice then says
	// what painters do.
	Mends  []Mend
	Advice string
	// ByMass says where the order by mass tells another story than by volume.
	ByMass   []string
	Warnings []string
	Cautions []Caution
}

// MostLayers keeps a painting within what one calculation can draw.
const MostLayers = 24

// surely is the share of draws from which two layers of the same jars are in
// order although their ranges overlap.
const surely quantity.Ratio = 0.99

// stack is the layers ready to be drawn together: one material has one density,
// one oil demand in every layer of a draw.
type stack struct {
	layers  []stackLayer
	inputs  int
	request Sampling
}

type stackLayer struct {
	name   string
	req    ThinRequest
	seats  []int
	flow   *flowSeats
	recipe Recipe
	dried  *quantity.Duration
}

// pile makes a stack, for 100 ml of each layer's paint.
func pile(r *LayersRequest) (*stack, error) {
	s := &stack{request: r.Sampling}
	for i := range r.Layers {
		l := &r.Layers[i]
		req := l.Thin
		req.Sampling, req.Airing, req.Glaze = r.Sampling, nil, GlazeAmount{}
		req.Paint.Amount, req.Paint.Loss = Amount{Kind: ByPaintVolume, Volume: perHundred}, 0
		if err := req.validate(); err != nil {
			return nil, layerError(i, l.Name, err)
		}
		if !(req.Wet > 0) && req.Thinning.Pigment == 0 {
			return nil, layerError(i, l.Name, errors.New("its wet film thickness is not said"))
		}
		s.layers = append(s.layers, stackLayer{name: l.Name, req: req, dried: l.Dried})
	}
	if err := s.sit(); err != nil {
		return nil, err
	}
	zero := make([]float64, s.inputs)
	for i := range s.layers {
		l := &s.layers[i]
		recipe, err := l.thinner().plan(zero, nil)
		if err != nil {
			return nil, layerError(i, l.name, err)
		}
		l.recipe = recipe
		if err := s.checkTarget(l, zero); err != nil {
			return nil, layerError(i, l.name, err)
		}
	}
	return s, nil
}

// perHundred is the paint of a layer that its oil and solvent are counted on.
const perHundred quantity.Volume = 100

// A LayerError says which layer is at fault.
type LayerError struct {
	Layer int // from 0
	Name  string
	Err   error
}

func (e *LayerError) Error() string {
	return fmt.Sprintf("layer %d (%s): %v", e.Layer+1, e.Name, e.Err)
}
func (e *LayerError) Unwrap() error { return e.Err }

func layerError(i int, name string, err error) error { return &LayerError{i, name, err} }

func (s *stack) checkTarget(l *stackLayer, zero []float64) error {
	before, _, err := l.thinner().mix(zero, nil)
	if err != nil {
		return err
	}
	return checkTarget(&l.req.Paint, before.Figures())
}

func (l *stackLayer) thinner() *thinner { return newThinner(&l.req, l.seats, l.flow, l.recipe) }

// sit gives every material of the stack its deviates, once.
func (s *stack) sit() error {
	var ros Roster
	for i := range s.layers {
		s.layers[i].seats = s.layers[i].req.seat(&ros)
	}
	s.inputs = ros.Inputs()
	if s.inputs > evidence.MaxInputs {
		return fmt.Errorf("the layers hold %d materials between them, which is too many to draw together; at most %d", s.inputs/deviatesEach, evidence.MaxInputs/deviatesEach)
	}
	return nil
}

// clone copies a stack so that a change to one layer leaves the other alone.
func (s *stack) clone() *stack {
	out := &stack{inputs: s.inputs, request: s.request, layers: slices.Clone(s.layers)}
	for i := range out.layers {
		l := &out.layers[i]
		l.recipe = l.recipe.clone(len(l.recipe.Media))
	}
	return out
}

// Columns of one layer in one draw.
const (
	layerByVolume = iota
	layerByMass
	layerPVC
	layerReduced
	layerPaste
	layerDry
	layerColumns
)

// draw runs the stack over the draws.
func (s *stack) draw() ([][]float64, error) {
	columns := s.request.run(s.inputs, layerColumns*len(s.layers), func() func(z, out []float64) {
		thinners := make([]*thinner, len(s.layers))
		for i := range s.layers {
			thinners[i] = s.layers[i].thinner()
		}
		return func(z, out []float64) {
			for i, t := range thinners {
				if err := t.layer(z, out[i*layerColumns:(i+1)*layerColumns], nil); err != nil {
					out[0] = math.NaN()
				}
			}
		}
	})
	for _, v := range columns[0] {
		if math.IsNaN(v) {
			return nil, errors.New("a paint's target leaves no room for oil beside the wax; lower its PVC or its wax")
		}
	}
	return columns, nil
}

// dryBinder is the measure of fat and lean.
var dryBinder = trace.Relation{Name: "binder in the dry film by volume", Equation: "f = (Vb + Va)/(Vp + Vb + Va)", Source: "definition; Va is wax and other additives"}

// layer works one layer out at one draw.
func (t *thinner) layer(z, out []float64, tr *trace.Tracer) error {
	_, after, err := t.mix(z, tr)
	if err != nil {
		return err
	}
	f := after.Figures()
	dry := f.dried(t.req.Wet, t.req.Absorbed)
	out[layerByVolume] = float64(dry.DryBinderByVolume())
	out[layerByMass] = share(float64(dry.BinderMass+dry.AdditiveMass), float64(dry.Mass))
	out[layerPVC], out[layerReduced], out[layerPaste] = float64(dry.PVC()), float64(dry.ReducedPVC()), float64(t.overPaste(dry, z, tr))
	thickness, err := film.DryThickness(t.req.Wet, f.SolidsByVolume())
	out[layerDry] = float64(thickness)
	if tr.On() {
		if t.req.Absorbed > 0 {
			tr.Note(groundTakes, "film", trace.T("V", dry.BinderVolume, "ml"), trace.T("Vbinder", f.BinderVolume, "ml"), trace.T("m/A", t.req.Absorbed, "g/m²"), trace.T("WFT", t.req.Wet, "µm"))
		}
		noteFigures(tr, dry)
		tr.Note(dryBinder, "dry film", trace.T("f", dry.DryBinderByVolume(), ""), trace.T("Vp", dry.PigmentVolume, "ml"), trace.T("Vb", dry.BinderVolume, "ml"), trace.T("Va", dry.AdditiveVolume, "ml"))
		tr.Note(film.DryThicknessRelation, "film", trace.T("DFT", thickness, "µm"), trace.T("VS", f.SolidsByVolume(), ""), trace.T("WFT", t.req.Wet, "µm"))
	}
	return err
}

// Layers checks a painting.
func Layers(req LayersRequest) (*LayersResult, error) {
	switch n := len(req.Layers); {
	case n == 0:
		return nil, errors.New("no layer given")
	case n > MostLayers:
		return nil, fmt.Errorf("%d layers are too many; at most %d", n, MostLayers)
	}
	s, err := pile(&req)
	if err != nil {
		return nil, err
	}
	res := &LayersResult{Request: req}
	if res.Layers, err = s.judge(); err != nil {
		return nil, err
	}
	for i := range s.layers {
		var tr trace.Tracer
		if err := s.layers[i].thinner().layer(make([]float64, s.inputs), make([]float64, layerColumns), &tr); err != nil {
			return nil, layerError(i, s.layers[i].name, err)
		}
		res.Layers[i].Steps = tr.Steps()
	}
	res.First = firstFault(res.Layers)
	res.Mends = s.mend(res.Layers)
	if left := res.left(); left != nil {
		res.Advice = advice[left.Finding.Rule]
	}
	res.ByMass = misledByMass(res.Layers)
	res.remarks(s)
	return res, nil
}

// judge draws the stack and judges every layer.
func (s *stack) judge() ([]LayerResult, error) {
	columns, err := s.draw()
	if err != nil {
		return nil, err
	}
	out := make([]LayerResult, len(s.layers))
	// The order of the draws is lost with the first range: compare before.
	leaner := make([]quantity.Ratio, len(s.layers)) // the chance that a layer is leaner than the one below
	for i := 1; i < len(s.layers); i++ {
		leaner[i] = below(columns[i*layerColumns+layerByVolume], columns[(i-1)*layerColumns+layerByVolume])
	}
	for i := range s.layers {
		l, c := &s.layers[i], columns[i*layerColumns:(i+1)*layerColumns]
		mats := l.req.Materials()
		out[i] = LayerResult{
			Name: l.name, Request: &l.req, Wet: l.req.Wet, Dried: l.dried, Drying: DryingOf(mats),
			ByVolume: rangeOf[quantity.VolumeFraction](c[layerByVolume]),
			ByMass:   rangeOf[quantity.MassFraction](c[layerByMass]),
			PVC:      rangeOf[quantity.VolumeFraction](c[layerPVC]),
			Bond:     judgeBond(rangeOf[quantity.Ratio](c[layerReduced]), rangeOf[quantity.Ratio](c[layerPaste])),
			Dry:      rangeOf[quantity.Thickness](c[layerDry]),
		}
		here := &out[i]
		here.Findings = append(here.Findings, findBinding(here))
		if i == 0 {
			continue
		}
		under := &out[i-1]
		fat := findFat(here, under, leaner[i])
		if ratio, is := s.wash(i - 1); is && fat.Verdict == Fails {
			fat = ofWash(fat, ratio)
		}
		here.Findings = append(here.Findings, fat, findOrder(here, under), findTime(under), findThickness(here, under))
	}
	return out, nil
}

// below is the share of draws in which a is under b by more than rounding.
func below(a, b []float64) quantity.Ratio {
	n := 0
	for i := range a {
		if a[i] < b[i]-1e-12 {
			n++
		}
	}
	return quantity.Ratio(float64(n) / float64(len(a)))
}

// firstFault finds the first rule broken, from the ground up.
func firstFault(layers []LayerResult) *Fault {
	for i := range layers {
		for _, f := range layers[i].Findings {
			if f.Verdict == Fails {
				return &Fault{i, f}
			}
		}
	}
	return nil
}

func findBinding(l *LayerResult) Finding {
	f := Finding{Rule: HoldsPigment, Verdict: l.Bond.Verdict}
	switch {
	case f.Verdict == Holds:
		f.Text = "its binder fills the gaps between the grains"
	case l.Bond.Contradicted:
		f.Text = l.Bond.contradiction()
	case f.Verdict == Undecided:
		f.Text = fmt.Sprintf("PVC over critical is %.2f to %.2f: some such films have too little binder", float64(l.Bond.Reduced.Low), float64(l.Bond.Reduced.High))
	default:
		f.Text = say("too little binder: PVC over critical is %.3g, more likely than not above 1, where the gaps hold air; it chalks, and drinks oil from the layer above", float64(l.Bond.Reduced.Typical))
	}
	return f
}

// findFat compares the binder of two dry films by volume. Ranges that overlap
// leave the order open, unless both layers are made from the same jars and stand
// in the same order in nearly every draw.
func findFat(here, under *LayerResult, leaner quantity.Ratio) Finding {
	f := Finding{Rule: FatOverLean, Verdict: Undecided}
	switch {
	case leaner <= 1-surely, here.ByVolume.Low > under.ByVolume.High:
		f.Verdict = Holds
	case leaner >= surely, here.ByVolume.High < under.ByVolume.Low:
		f.Verdict = Fails
	}
	a, b := 100*float64(here.ByVolume.Typical), 100*float64(under.ByVolume.Typical)
	switch f.Verdict {
	case Holds:
		f.Text = say("no leaner than the layer below: %.3g %% binder by volume over %.3g %%", a, b)
	case Fails:
		f.Text = say("leaner than the layer below: %.3g %% binder by volume over %.3g %%", a, b)
	default:
		f.Text = say("%.3g %% binder by volume over %.3g %%, but the ranges overlap", a, b)
	}
	return f
}

// wash is the solvent over the binder of the lowest layer where that is more
// than common practice keeps to and what the ground takes is not said.
func (s *stack) wash(i int) (quantity.Ratio, bool) {
	if i != 0 || s.layers[0].req.GroundKnown {
		return 0, false
	}
	_, after := s.typical(0)
	ratio := quantity.Ratio(share(float64(after.VolatileVolume), float64(after.BinderVolume)))
	return ratio, ratio > MostSolvent
}

// ofWash leaves open what was found over a lowest layer that is a wash. Thinning
// with solvent alone takes no binder out of a film, so by its paint a drawing in
// an oily colour is fatter than what lies on it; but an absorbent ground draws
// oil out of so thin a liquid, and drawings and underpaintings are laid on that
// way: common practice. With what the ground takes it is judged.
func ofWash(f Finding, ratio quantity.Ratio) Finding {
	f.Verdict = Undecided
	f.Text += say(", by the paint alone; but that is a wash with %.2g times as much solvent as binder, and an absorbent ground draws oil out of it (common practice): say with absorbed what yours takes", float64(ratio))
	return f
}

// findOrder compares how fast two layers dry: by the times of their slowest
// oils, then by what is published of their pigments.
func findOrder(here, under *LayerResult) Finding {
	f := Finding{Rule: DryingOrder}
	oils := Holds
	a, b := here.Drying.Oil, under.Drying.Oil
	switch {
	case a.Typical == 0 || b.Typical == 0:
		f.Text = "the drying time of an oil is not known"
		return f
	case a == b:
	case a.High < b.Low:
		oils = Fails
	case a.Low > b.High:
	default:
		oils = Undecided
	}
	x, knownX := layerRank(here.Request)
	y, knownY := layerRank(under.Request)
	const apart = 1.5 // ranks: from one published class to the next but one
	switch {
	case oils == Fails:
		f.Verdict, f.Text = Fails, fmt.Sprintf("its oil dries in about %s, that of the layer below in about %s: the skin forms over paint that still moves", inDays(a.Typical), inDays(b.Typical))
	case !knownX || !knownY:
		f.Verdict, f.Text = NotKnown, "what its pigments do to drying is not published for every one of them, and for mixtures not at all"
	case y-x > apart && oils == Holds:
		f.Verdict, f.Text = Fails, "its pigment dries fast and that of the layer below slowly: the skin forms over paint that still moves"
	case y-x > 0 || oils == Undecided:
		f.Verdict, f.Text = Undecided, "the layer below may dry more slowly than this one"
	default:
		f.Verdict, f.Text = Holds, "the layer below dries as fast or faster"
	}
	return f
}

// inDays prints a time in days: "1 day", "1.9 days", "42 days", "120 days".
func inDays(d quantity.Duration) string {
	n := say("%.2g", d.Days())
	if d.Days() >= 10 {
		n = fmt.Sprintf("%.0f", d.Days())
	}
	if n == "1" {
		return "1 day"
	}
	return n + " days"
}

// layerRank is how fast the pigments of a paint are said to dry, from 0 (speeds
// drying) to 4 (very slowly); not known unless all of them agree.
func layerRank(r *ThinRequest) (float64, bool) {
	var rank float64
	for i := range r.Paint.Pigments {
		x, ok := dryingRank(r.Paint.Pigments[i].Material)
		if !ok || i > 0 && x != rank {
			return 0, false
		}
		rank = x
	}
	return rank, true
}

// findTime sets the days a layer was left beside the time its oil takes.
func findTime(under *LayerResult) Finding {
	f := Finding{Rule: LongEnough}
	oil := under.Drying.Oil
	switch {
	case under.Dried == nil:
		f.Text = "how long the layer below dried is not said"
	case oil.Typical == 0:
		f.Text = "how long the oil below takes is not known"
	case under.Dry.Typical > ThinFilm:
		f.Text = say("the layer below is %.3g µm dry, thicker than films whose drying time is known", float64(under.Dry.Typical))
	case *under.Dried >= oil.High:
		f.Verdict, f.Text = Holds, say("the layer below was left %s; its oil is touch dry in %.2g to %.2g days", inDays(*under.Dried), oil.Low.Days(), oil.High.Days())
	case *under.Dried < oil.Low:
		f.Verdict, f.Text = Fails, say("put on too soon: the layer below was left %s and its oil is touch dry in %.2g to %.2g days", inDays(*under.Dried), oil.Low.Days(), oil.High.Days())
	default:
		f.Verdict, f.Text = Undecided, say("the layer below was left %s; its oil is touch dry in %.2g to %.2g days, so test it", inDays(*under.Dried), oil.Low.Days(), oil.High.Days())
	}
	return f
}

// findThickness asks for no thin film over a thick one: common practice. Over a
// thin film any thickness will do.
func findThickness(here, under *LayerResult) Finding {
	f := Finding{Rule: ThickOverThin, Verdict: Undecided}
	a, b := float64(here.Dry.Typical), float64(under.Dry.Typical)
	switch {
	case under.Dry.Typical <= ThinFilm:
		f.Verdict, f.Text = Holds, say("%.3g µm dry over a thin film of %.3g µm", a, b)
	case here.Dry.Low >= under.Dry.High:
		f.Verdict, f.Text = Holds, say("%.3g µm dry over %.3g µm", a, b)
	case here.Dry.High < under.Dry.Low:
		f.Verdict, f.Text = Fails, say("a thin film over a thick one: %.3g µm dry over %.3g µm, which goes on moving beneath (common practice)", a, b)
	default:
		f.Text = say("%.3g µm dry over %.3g µm, about as thick", a, b)
	}
	return f
}

// misledByMass says where a balance would put two layers the other way round.
func misledByMass(layers []LayerResult) []string {
	var out []string
	for i := 1; i < len(layers); i++ {
		a, b := &layers[i], &layers[i-1]
		byVolume, byMass := a.ByVolume.Typical-b.ByVolume.Typical, a.ByMass.Typical-b.ByMass.Typical
		if float64(byVolume)*float64(byMass) < 0 {
			out = append(out, say("by weight the other way round: %s holds %.2g %% of binder and %s below it %.2g %%; by volume it is %.2g %% and %.2g %%",
				a.Name, 100*float64(a.ByMass.Typical), b.Name, 100*float64(b.ByMass.Typical), 100*float64(a.ByVolume.Typical), 100*float64(b.ByVolume.Typical)))
		}
	}
	return out
}

// remarks gathers warnings and cautions of the whole painting.
func (res *LayersResult) remarks(s *stack) {
	var mats []*material.Material
	seen := map[string]bool{}
	when := InOil
	said := map[string]bool{}
	warn := func(text string) {
		if !said[text] {
			said[text] = true
			res.Warnings = append(res.Warnings, text)
		}
	}
	for i := range s.layers {
		l := &s.layers[i]
		for _, m := range l.req.Materials() {
			if !seen[m.ID] {
				seen[m.ID] = true
				mats = append(mats, m)
			}
		}
		for _, w := range l.req.Paint.numberWarnings() {
			warn(w)
		}
		before, after := s.typical(i)
		if w := littlePaint(quantity.VolumeFraction(share(float64(before.Volume), float64(after.Volume)))); w != "" {
			warn(l.name + ": " + w)
		}
		if after.VolatileVolume > 0 {
			when |= WithSolvent
		}
		if ratio, is := s.wash(i); is {
			warn(say("%s: %.2g times as much solvent as binder: an absorbent ground draws the oil out with it, and what the ground takes was not said (common practice)", l.name, float64(ratio)))
		}
		if i == len(s.layers)-1 {
			continue
		}
		if ids := withClass(l.req.Materials(), material.Zinc); len(ids) > 0 {
			warn(fmt.Sprintf("%s: %s in a lower layer grows brittle and can crack or lift what lies on it (common practice)", l.name, ids[0]))
		}
		if _, above := s.typical(i + 1); above.VolatileVolume > 0 && l.req.softResin() != "" {
			warn(fmt.Sprintf("%s: %s stays soluble when dry, and the solvent of %s can lift it (common practice)", l.name, l.req.softResin(), s.layers[i+1].name))
		}
	}
	if len(s.layers) > 1 {
		warn("touch dry is not dry through: a thick or oily layer goes on moving for weeks (common practice)")
	}
	for _, c := range Cautions(when, mats...) {
		if !isPairCaution(c) {
			res.Cautions = append(res.Cautions, c)
		}
	}
}

// typical gives the figures of a layer's paint before and after thinning, at
// the typical values.
func (s *stack) typical(i int) (before, after Figures) {
	b, a, err := s.layers[i].thinner().mix(make([]float64, s.inputs), nil)
	if err != nil {
		return before, after // the layer has been drawn before
	}
	return b.Figures(), a.Figures()
}
