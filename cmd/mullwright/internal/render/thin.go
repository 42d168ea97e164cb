package render

import (
	"fmt"
	"math"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/evidence"
	"mullwright/formulate/quantity"
	"mullwright/formulate/vapour"
)

// ThinSheet lays a thinned paint out: what to take, what it becomes, whether
// its film holds, how it flows, where the solvent goes.
func ThinSheet(r *formulate.ThinResult, cite Cite, explain bool) *Sheet {
	s := &Sheet{Title: thinTitle(&r.Request), Lead: thinLead(r)}
	s.Add(takeSection(r))
	s.Add(holdSection(r))
	s.Add(nearestSection(r))
	s.Add(placeSection(&r.Place))
	s.Add(thinFiguresSection(r))
	s.Add(compositionSection(r.Composition))
	s.Add(thinFilmSection(r))
	s.Add(flowSection(r))
	for _, sec := range airSections(r) {
		s.Add(sec)
	}
	s.Add(thinDryingSection(r))
	return s.finish(r.Warnings, r.Cautions, r.Steps, SourceKeys(r.Request.Materials()...), cite, explain)
}

func thinTitle(r *formulate.ThinRequest) string {
	var oils []string
	for i := range r.Paint.Oils {
		oils = append(oils, r.Paint.Oils[i].Material.Name)
	}
	title := pigmentNames(r.Paint.Pigments) + " in " + strings.Join(oils, " + ")
	var with []string
	for _, list := range [][]formulate.Poured{r.Media, r.Solvents} {
		for i := range list {
			with = append(with, list[i].Material.Name)
		}
	}
	if len(with) == 0 {
		return "Not thinned: " + title
	}
	return "Thinned: " + title + ", with " + strings.Join(with, " + ")
}

func thinLead(r *formulate.ThinResult) string {
	req := &r.Request
	paint := targetText(req.Paint.Target)
	var how string
	switch th := &req.Thinning; th.Kind {
	case formulate.ByParts:
		how = fmt.Sprintf("%s by %s", ratioText(req, [3]quantity.Ratio{quantity.Ratio(th.Paint), quantity.Ratio(th.Medium), quantity.Ratio(th.Solvent)}, Given[quantity.Ratio]), th.By)
	case formulate.ToBody:
		how = "thinned to " + percent(th.Body) + " of the paint's own body"
	case formulate.ToSolvent:
		how = fmt.Sprintf("thinned until solvent is %s of the whole by %s", percent(th.SolventShare), th.By)
	case formulate.ToPigment:
		how = "thinned until the film holds " + Given(th.Pigment) + " g/m² of pigment"
	default:
		how = "nothing added"
	}
	lead := "The paint is " + paint + "; " + how + "."
	return lead + " " + spreadText(req.Sampling, "jars")
}

// ratioText prints "1 : 1 : 2 paint, medium, solvent", leaving out what is not
// there.
func ratioText(r *formulate.ThinRequest, ratio [3]quantity.Ratio, number func(quantity.Ratio) string) string {
	parts, names := []string{number(ratio[0])}, []string{"paint"}
	if ratio[1] > 0 {
		parts, names = append(parts, number(ratio[1])), append(names, "medium")
	}
	if ratio[2] > 0 {
		parts, names = append(parts, number(ratio[2])), append(names, "solvent")
	}
	return strings.Join(parts, " : ") + " " + strings.Join(names, ", ")
}

// trimmed prints three figures without the zeros at their end.
func trimmed[Q quantity.Real](v Q) string {
	s := Digits(float64(v), 3)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func takeSection(r *formulate.ThinResult) Section {
	sec := Section{Title: "Take"}
	add := func(f Field) { sec.Fields = append(sec.Fields, f) }
	for _, m := range r.Take {
		add(takeField(m, r.Request.Paint.Scale))
	}
	if len(r.Take) > 1 {
		add(RangeField("makes", r.After.Volume, 1, 3, "ml", "· "+Range(r.After.Mass, 1, 3, "g")))
		add(Field{Label: "by volume", Text: ratioText(&r.Request, r.ByVolume, trimmed[quantity.Ratio])})
		add(Field{Label: "by mass", Text: ratioText(&r.Request, r.ByMass, trimmed[quantity.Ratio])})
	}
	if r.After.Cost.Typical > 0 {
		add(RangeField("cost", r.After.Cost, 1, 3, "", "in your money, of what has a price"))
	}
	return sec
}

func takeField(m formulate.Measure, scale quantity.Mass) Field {
	return Field{Label: m.Name, Text: OnScale(m.OnScale, scale), Note: "· or " + Digits(float64(m.Volume), 3) + " ml", Value: one(m.Mass)}
}

// holdSection says whether the dry film holds its pigment.
func holdSection(r *formulate.ThinResult) Section {
	sec := Section{Title: "Does the film hold its pigment?"}
	b := &r.Bound
	var text string
	switch b.Verdict {
	case formulate.Holds:
		text = "Yes by its pigment volume: the binder fills the gaps between the grains, over the whole range."
	case formulate.Undecided:
		if b.Contradicted {
			text = "Undecided: " + b.Reason + "."
			break
		}
		text = "Undecided (" + Chance(b.Over) + " that it does not): " + b.Reason + "."
	case formulate.Fails:
		text = "Under-bound (" + Chance(b.Over) + "): " + b.Reason + "."
	}
	sec.Lines = append(sec.Lines, text)
	if b.Verdict == formulate.Fails && b.Nearest == nil {
		sec.Lines = append(sec.Lines, "No recipe was found that holds in this film: lay it on thicker, or seal the ground first.")
	}
	if b.MuchSolvent {
		sec.Lines = append(sec.Lines, fmt.Sprintf("Much solvent: %s times the binder by volume. A sealed ground leaves the binder in the film; an absorbent one draws thin liquid and oil with it, and the film ends under-bound. Common practice there keeps solvent to no more than the binder. With --absorbed the loss is worked out instead.",
			Digits(float64(r.SolventPerBinder.Typical), 2)))
	}
	if r.Request.GroundKnown {
		sec.Fields = append(sec.Fields, Field{Label: "the ground takes", Text: Given(r.Request.Absorbed) + " g/m²", Note: "of binder, as given"},
			RangeField("PVC of what is left", b.PVC, 100, 3, "%", ""), RangeField("over critical", b.Reduced, 1, 2, "", ""))
	}
	return sec
}

func nearestSection(r *formulate.ThinResult) Section {
	n := r.Bound.Nearest
	if n == nil {
		return Section{}
	}
	sec := Section{Title: "Nearest sound recipe"}
	if r.Bound.Verdict != formulate.Fails {
		sec.Title = "For an absorbent ground"
	}
	for _, m := range n.Take {
		if m.Mass > 0 {
			sec.Fields = append(sec.Fields, takeField(m, r.Request.Paint.Scale))
		}
	}
	var change []string
	if n.Oil > 0 {
		change = append(change, fmt.Sprintf("%s ml more %s", Digits(float64(n.OilVolume), 3), strings.ToLower(n.More)))
	}
	if n.Less > 0 {
		change = append(change, fmt.Sprintf("%s ml less solvent", Digits(float64(n.LessVolume), 3)))
	}
	sec.Fields = append(sec.Fields,
		Field{Label: "that is", Text: strings.Join(change, " and ")},
		Field{Label: "by volume", Text: ratioText(&r.Request, n.ByVolume, trimmed[quantity.Ratio])},
		vouchedField(&n.Bond))
	return sec
}

// placeSection says which layers it may go over and under.
func placeSection(p *formulate.Place) Section {
	layers := func(word string, limit quantity.VolumeFraction) Field {
		return Field{Text: "layers with " + word + " than about " + roughly(limit), Value: Numbers(evidence.Exactly(limit), 100, "%")}
	}
	over, under := layers("less", p.Over), layers("more", p.Under)
	over.Label, under.Label = "belongs over", "belongs under"
	return Section{Title: "In which layer", Fields: []Field{
		RangeField("binder of the dry film", p.Binder, 100, 3, "%", "by volume"), over, under,
	}, Lines: []string{"Fat over lean, by volume. 'mullwright layers' checks it with the layers of a painting."}}
}

// vouchedField is the figure that vouches for a recipe.
func vouchedField(b *formulate.Bond) Field {
	if b.Reduced.High <= formulate.MostReducedPVC {
		return RangeField("PVC over critical", b.Reduced, 1, 2, "", "checked again with this recipe")
	}
	return RangeField("PVC over that of stiff paste", b.Paste, 1, 2, "", "checked again with this recipe; it holds no less binder than artists' paste does")
}

func thinFiguresSection(r *formulate.ThinResult) Section {
	t := &Table{Columns: []Column{{Title: ""}, {Title: "paint as taken", Right: true}, {Title: "thinned", Right: true}}}
	row := func(label string, before, after string) {
		t.Rows = append(t.Rows, []string{label, bare(before), bare(after)})
	}
	b, a := &r.Before, &r.After
	row("pigment in the wet paint, % by volume", Range(b.WetPigment, 100, 3, ""), Range(a.WetPigment, 100, 3, ""))
	row("body (that over critical PVC)", Range(b.Body, 1, 2, ""), Range(a.Body, 1, 2, ""))
	row("pigment in the dry film (PVC), %", Range(b.PVC, 100, 3, ""), Range(a.PVC, 100, 3, ""))
	row("critical PVC, %", Range(b.CPVC, 100, 3, ""), Range(a.CPVC, 100, 3, ""))
	row("reduced PVC (PVC over critical)", Range(b.ReducedPVC, 1, 2, ""), Range(a.ReducedPVC, 1, 2, ""))
	row("binder in the dry film, % by volume", Range(b.DryBinderByVolume, 100, 3, ""), Range(a.DryBinderByVolume, 100, 3, ""))
	row("volume solids, %", Range(b.SolidsByVolume, 100, 3, ""), Range(a.SolidsByVolume, 100, 3, ""))
	row("density, g/ml", Range(b.Density, 1, 3, ""), Range(a.Density, 1, 3, ""))
	row("what leaves over binder, by volume", "", Range(r.SolventPerBinder, 1, 2, ""))
	row("solvent, g in a litre", "", Range(r.VOC, 1, 3, ""))
	return Section{Title: "Before and after", Table: t}
}

func thinFilmSection(r *formulate.ThinResult) Section {
	f := r.Film
	if f == nil {
		return Section{}
	}
	return Section{Title: "Film", Fields: []Field{
		{Label: "wet", Text: trimmed(f.Wet) + " µm", Note: wetNote(&r.Request), Value: Numbers(evidence.Exactly(f.Wet), 1, "µm")},
		RangeField("dry", f.Dry, 1, 3, "µm", dryNote(&r.Request)),
		RangeField("covers", f.Area, 1, 3, "m²", "with all of it, nothing lost"),
		RangeField("pigment", f.PigmentPerArea, 1, 3, "g/m²", ""),
		RangeField("dry film", f.DryPerArea, 1, 3, "g/m²", "without the oxygen that oil takes up"),
		{Label: "a litre covers", Text: Digits(float64(f.Rate), 3) + " m²", Value: Numbers(evidence.Exactly(f.Rate), 1, "m²/l")},
	}}
}

func wetNote(r *formulate.ThinRequest) string {
	if g := r.Glaze; g.Volume > 0 && g.Area > 0 {
		return "· what " + Given(g.Volume) + " ml make on " + Given(g.Area) + " m²"
	}
	return ""
}

func dryNote(r *formulate.ThinRequest) string {
	if r.Absorbed > 0 {
		return "even, before the ground takes its share"
	}
	return "even, on a smooth ground"
}

func flowSection(r *formulate.ThinResult) Section {
	f := &r.Flow
	sec := Section{Title: "Flow at " + Given(f.Temperature) + " °C"}
	add := func(label string, field Field, why string) {
		if why != "" {
			field = Field{Text: why}
		}
		field.Label = label
		sec.Fields = append(sec.Fields, field)
	}
	add("thinned over its liquid", RangeField("", f.Factor, 1, 3, "", "from the solids alone"), f.NoFactor)
	add("its liquid", RangeField("", f.Vehicle, 1, 2, "mPa·s", "oil and solvent by the log-mean rule"), f.NoVehicle)
	thick := f.NoFactor
	if thick == "" && f.NoVehicle != "" {
		thick = "not known"
	}
	add("thinned paint", RangeField("", f.Thinned, 1, 2, "mPa·s", ""), thick)
	add("over the paint as taken", RangeField("", f.Against, 1, 2, "", ""), f.NoAgainst)
	sec.Lines = append(sec.Lines, "A Newtonian figure for brisk brushing of well dispersed pigment, never a yield stress: a paint that keeps its shape is thicker at rest.")
	if f.Packed >= leastTold && f.NoFactor == "" {
		sec.Lines = append(sec.Lines, upperFirst(Chance(f.Packed))+" that the pigment is too close to packing for any figure; the ranges are of the others.")
	}
	return sec
}

// leastTold is the chance below which nothing is said of it.
const leastTold quantity.Ratio = 0.01

// airSections say what leaves and how the room's air stands beside published
// limits.
func airSections(r *formulate.ThinResult) []Section {
	air := &r.Air
	if len(air.Leaving) == 0 {
		return nil
	}
	sec := Section{Title: "What leaves"}
	for _, l := range air.Leaving {
		sec.Fields = append(sec.Fields, Field{Label: l.Name, Text: Digits(float64(l.Mass), 3) + " g", Value: one(l.Mass)})
	}
	if air.Airing == nil {
		if r.Take[len(r.Take)-1].Liquid != nil {
			sec.Lines = append(sec.Lines, "Into the room's air, all of it, sooner or later. With --room 30m3 it is set beside published limits.")
		}
		return []Section{sec}
	}
	out := []Section{sec}
	var cautions []string
	for _, l := range air.Leaving {
		if a := l.Assessment; a != nil {
			out = append(out, assessmentSection(l, a))
			cautions = addNew(cautions, a.Cautions)
		} else if l.NotKnown != "" {
			out = append(out, Section{Title: l.Name + " in the air", Lines: []string{upperFirst(l.NotKnown) + "."}})
		}
	}
	if air.Together > 0 {
		out = append(out, Section{Title: "Solvents together", Fields: []Field{
			{Label: "of a working day's limits", Text: Digits(100*float64(air.Together), 2) + " %", Note: "shares added, as for solvents that act alike", Value: Numbers(evidence.Exactly(air.Together), 1, "")}}})
	}
	return append(out, Section{Title: "What these figures are not", Lines: cautions, Marked: true})
}

func addNew(list, more []string) []string {
next:
	for _, s := range more {
		for _, x := range list {
			if x == s {
				continue next
			}
		}
		list = append(list, s)
	}
	return list
}

func assessmentSection(l formulate.Leaving, a *vapour.Assessment) Section {
	sec := Section{Title: l.Name + " in the air", Under: releaseText(a)}
	ppm := Digits(float64(a.PeakPPM), 3) + " ppm"
	sec.Fields = append(sec.Fields,
		Field{Label: "highest", Text: Digits(float64(a.Peak), 3) + " mg/m³", Note: "· " + ppm + ", " + peakText(a.PeakAt), Value: Numbers(evidence.Exactly(a.Peak), 1, "mg/m3")})
	if a.Saturated {
		sec.Fields = append(sec.Fields, saturatedField(a))
	}
	sec.Fields = append(sec.Fields,
		Field{Label: "over 8 hours", Text: Digits(float64(a.EightHours), 3) + " mg/m³", Note: "· the worst mean", Value: Numbers(evidence.Exactly(a.EightHours), 1, "mg/m3")})
	if f := a.Fire; f != nil {
		note := ""
		if f.OverLiquid > 0 {
			note = "· right over the liquid up to " + Digits(float64(f.OverLiquid)*100, 2) + " % of it"
		}
		sec.Fields = append(sec.Fields, Field{Label: "of the explosive limit", Text: Digits(float64(f.RoomShare)*100, 2) + " %", Note: note, Value: Numbers(evidence.Exactly(f.RoomShare), 1, "")})
	}
	t := &Table{Columns: []Column{{Title: "published limit"}, {Title: "averaged"}, {Title: "mg/m³", Right: true}, {Title: "here", Right: true}, {Title: "of the limit", Right: true}}}
	for _, c := range a.Comparisons {
		share := Digits(100*float64(c.Share), 2) + " %"
		if c.Over {
			share = "OVER, " + share
		}
		t.Rows = append(t.Rows, []string{c.Limit.Authority, c.Limit.Kind, Digits(float64(c.Threshold), 3), Digits(float64(c.Level), 3), share})
	}
	if len(t.Rows) > 0 {
		sec.Table = t
	}
	return sec
}

// saturatedField says that the air takes up no more.
func saturatedField(a *vapour.Assessment) Field {
	text := "saturated: no more can evaporate until the air is changed"
	note := fmt.Sprintf("· the room holds %s g of it, what is left stays liquid", Digits(float64(a.Holds), 3))
	if !math.IsInf(float64(a.ClearsFrom), 1) {
		note += " for " + hoursText(a.ClearsFrom-a.PeakAt)
	}
	return Field{Label: "the air is then", Text: text, Note: note, Value: Numbers(evidence.Exactly(a.Holds), 1, "g")}
}

func releaseText(a *vapour.Assessment) string {
	how := "all at once"
	switch a.Release.Profile {
	case vapour.Evenly:
		how = "evenly over " + hoursText(a.Release.Over)
	case vapour.FirstOrder:
		how = "fast at first, 63 % of it in " + hoursText(a.Release.Over)
	}
	return fmt.Sprintf("Taken to leave %s, in %s m³ with %s air changes an hour, well mixed.", how, Given(a.Room.Volume), Given(a.Room.AirChanges))
}

func hoursText(d quantity.Duration) string {
	if d < 2*quantity.Hour {
		return Digits(float64(d/quantity.Minute), 2) + " min"
	}
	return Digits(d.Hours(), 2) + " h"
}

func peakText(d quantity.Duration) string {
	if d == 0 {
		return "at the start"
	}
	return "after " + hoursText(d)
}

func thinDryingSection(r *formulate.ThinResult) Section {
	sec := DryingSection(r.Drying)
	switch {
	case !r.DryingHolds:
		sec.Under = "Not known for a film this thick; the times are those of thin films."
	case r.Film == nil:
		sec.Under = "For thin films; how thick yours will be was not said."
	default:
		sec.Under = "For thin films, as this one is. Varnish, driers and solvent change the times; no figure was found."
	}
	// One published word on each oil and resin, under their times.
	seen := map[string]bool{}
	for _, c := range r.Drying.OilClass {
		if !seen[c.ID] {
			seen[c.ID] = true
			sec.Fields = append(sec.Fields, Field{Label: c.ID, Text: c.Text})
		}
	}
	return sec
}

// ThinJSONVersion is the version of the thinning's JSON contract.
const ThinJSONVersion = 1

// ThinJSON is the thinning's JSON contract. Fractions and shares are 0 to 1.
type ThinJSON struct {
	Version          int           `json:"version"`
	Kind             string        `json:"kind"`
	Draws            string        `json:"answer"`
	Paint            TargetJSON    `json:"paint"`
	Take             []TakeJSON    `json:"take"`
	ByVolume         [3]float64    `json:"paint_medium_solvent_by_volume"`
	ByMass           [3]float64    `json:"paint_medium_solvent_by_mass"`
	Before           ThinFigures   `json:"before"`
	After            ThinFigures   `json:"after"`
	SolventPerBinder RangeView     `json:"solvent_per_binder_by_volume"`
	SolventGPerL     RangeView     `json:"solvent_g_per_l"`
	Composition      []LineJSON    `json:"composition"`
	Bound            BoundJSON     `json:"film_holds"`
	Place            PlaceJSON     `json:"place"`
	Film             *ThinFilmJSON `json:"film"`
	Flow             FlowJSON      `json:"flow"`
	Leaving          []LeavingJSON `json:"leaving"`
	Together         float64       `json:"share_of_working_day_limits_together"`
	Drying           DryingJSON    `json:"drying"`
	DryingHolds      bool          `json:"drying_holds_at_this_thickness"`
	Warnings         []string      `json:"warnings"`
	Cautions         []CautionView `json:"cautions"`
	Sources          []SourceView  `json:"sources"`
	Derivation       []StepView    `json:"derivation,omitempty"`
}

// PlaceJSON is where in a painting it may go by fat over lean.
type PlaceJSON struct {
	DryBinder RangeView `json:"dry_binder_volume_fraction"`
	OverMost  float64   `json:"over_layers_to"`
	UnderFrom float64   `json:"under_layers_from"`
}

// TakeJSON is one thing to weigh or measure.
type TakeJSON struct {
	Name     string  `json:"name"`
	ID       string  `json:"id"`
	MassG    float64 `json:"mass_g"`
	VolumeML float64 `json:"volume_ml"`
	WeighG   float64 `json:"weigh_g"`
}

// ThinFigures are the figures of a paint before or after.
type ThinFigures struct {
	FiguresJSON
	WetPigment   RangeView `json:"wet_pigment_volume_fraction"`
	Body         RangeView `json:"body"`
	DryBinder    RangeView `json:"dry_binder_volume_fraction"`
	SolidsVolume RangeView `json:"solids_volume_fraction"`
	SolidsMass   RangeView `json:"solids_mass_fraction"`
	Cost         RangeView `json:"cost"`
}

// BoundJSON says whether the dry film holds its pigment.
type BoundJSON struct {
	Verdict     string       `json:"verdict"`
	Reason      string       `json:"reason"`
	PVC         RangeView    `json:"pvc_after_ground"`
	ReducedPVC  RangeView    `json:"reduced_pvc_after_ground"`
	OverPaste   RangeView    `json:"pvc_over_stiff_paste"`
	Contradicts bool         `json:"oil_absorption_and_demand_contradict"`
	Over        float64      `json:"chance_over_critical"`
	GroundKnown bool         `json:"ground_known"`
	AbsorbedGM2 float64      `json:"absorbed_g_per_m2"`
	MuchSolvent bool         `json:"much_solvent_by_common_practice"`
	Nearest     *NearestJSON `json:"nearest_sound_recipe"`
}

// NearestJSON is the nearest sound recipe.
type NearestJSON struct {
	Take        []TakeJSON `json:"take"`
	ByVolume    [3]float64 `json:"paint_medium_solvent_by_volume"`
	MoreOf      string     `json:"more_of"`
	MoreG       float64    `json:"more_g"`
	LessSolvent float64    `json:"less_solvent_g"`
	ReducedPVC  RangeView  `json:"reduced_pvc_after_ground"`
	OverPaste   RangeView  `json:"pvc_over_stiff_paste"`
}

// ThinFilmJSON is the film.
type ThinFilmJSON struct {
	WetUM           float64   `json:"wet_um"`
	DryUM           RangeView `json:"dry_um"`
	AreaM2          RangeView `json:"area_m2"`
	PigmentGM2      RangeView `json:"pigment_g_per_m2"`
	DryGM2          RangeView `json:"dry_g_per_m2"`
	SpreadingM2PerL float64   `json:"spreading_m2_per_l"`
}

// FlowJSON is how the thinned paint flows; a figure that is not known is null
// and its reason says why.
type FlowJSON struct {
	TemperatureC float64    `json:"temperature_c"`
	Factor       *RangeView `json:"relative_viscosity"`
	NoFactor     string     `json:"no_relative_viscosity"`
	VehicleMPaS  *RangeView `json:"vehicle_mpa_s"`
	NoVehicle    string     `json:"no_vehicle"`
	ThinnedMPaS  *RangeView `json:"thinned_mpa_s"`
	Against      *RangeView `json:"against_paint"`
	NoAgainst    string     `json:"no_against_paint"`
	Packed       float64    `json:"chance_packed"`
}

// LeavingJSON is one material that leaves.
type LeavingJSON struct {
	ID       string   `json:"id"`
	MassG    float64  `json:"mass_g"`
	Air      *AirJSON `json:"air"`
	NotKnown string   `json:"not_known"`
}

// AirJSON is a solvent in the room's air.
type AirJSON struct {
	RoomM3         float64     `json:"room_m3"`
	AirChanges     float64     `json:"air_changes_per_h"`
	Release        string      `json:"release"`
	ReleaseS       float64     `json:"release_s"`
	PeakMgM3       float64     `json:"peak_mg_per_m3"`
	PeakPPM        float64     `json:"peak_ppm"`
	PeakAtS        float64     `json:"peak_at_s"`
	EightHoursMgM3 float64     `json:"eight_hours_mg_per_m3"`
	LELShare       *float64    `json:"lower_explosive_limit_share"`
	LELOverLiquid  *float64    `json:"lower_explosive_limit_share_over_liquid"`
	Saturated      bool        `json:"saturated"`
	HoldsG         *float64    `json:"saturated_air_holds_g"`
	SaturatedToS   *float64    `json:"saturated_until_s"`
	Limits         []LimitJSON `json:"limits"`
	Cautions       []string    `json:"cautions"`
}

// LimitJSON is one published limit beside the air.
type LimitJSON struct {
	Authority string  `json:"authority"`
	Kind      string  `json:"kind"`
	LimitMgM3 float64 `json:"limit_mg_per_m3"`
	LevelMgM3 float64 `json:"level_mg_per_m3"`
	Share     float64 `json:"share"`
	Over      bool    `json:"over"`
	Source    string  `json:"source"`
	Note      string  `json:"note"`
}

// ThinView is the JSON view of a thinning.
func ThinView(r *formulate.ThinResult, cite Cite, explain bool) ThinJSON {
	v := ThinJSON{
		Version: ThinJSONVersion, Kind: "thin", Draws: answerKind(r.Request.Sampling), Paint: targetView(r.Request.Paint.Target),
		Take: takeViews(r.Take), ByVolume: ratios(r.ByVolume), ByMass: ratios(r.ByMass),
		Before: thinFigures(&r.Before), After: thinFigures(&r.After),
		SolventPerBinder: rangeView(r.SolventPerBinder, 1), SolventGPerL: rangeView(r.VOC, 1),
		Composition: lineViews(r.Composition), Bound: boundView(r), Place: PlaceJSON{rangeView(r.Place.Binder, 1), float64(r.Place.Over), float64(r.Place.Under)}, Flow: flowView(&r.Flow), Leaving: []LeavingJSON{}, Together: float64(r.Air.Together),
		Drying: dryingView(r.Drying), DryingHolds: r.DryingHolds, Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(SourceKeys(r.Request.Materials()...), cite), Derivation: stepViews(r.Steps, explain),
	}
	if f := r.Film; f != nil {
		v.Film = &ThinFilmJSON{float64(f.Wet), rangeView(f.Dry, 1), rangeView(f.Area, 1), rangeView(f.PigmentPerArea, 1), rangeView(f.DryPerArea, 1), float64(f.Rate)}
	}
	for _, l := range r.Air.Leaving {
		v.Leaving = append(v.Leaving, leavingView(l))
	}
	return v
}

func takeViews(list []formulate.Measure) []TakeJSON {
	out := make([]TakeJSON, len(list))
	for i, m := range list {
		out[i] = TakeJSON{Name: m.Name, MassG: float64(m.Mass), VolumeML: float64(m.Volume), WeighG: float64(m.OnScale)}
		if m.Liquid != nil {
			out[i].ID = m.Liquid.Material.ID
		}
	}
	return out
}

func ratios(r [3]quantity.Ratio) [3]float64 {
	return [3]float64{float64(r[0]), float64(r[1]), float64(r[2])}
}

func thinFigures(f *formulate.FigureRanges) ThinFigures {
	return ThinFigures{FiguresJSON: figuresView(f), WetPigment: rangeView(f.WetPigment, 1), Body: rangeView(f.Body, 1),
		DryBinder: rangeView(f.DryBinderByVolume, 1), SolidsVolume: rangeView(f.SolidsByVolume, 1), SolidsMass: rangeView(f.SolidsByMass, 1), Cost: rangeView(f.Cost, 1)}
}

func boundView(r *formulate.ThinResult) BoundJSON {
	b := &r.Bound
	v := BoundJSON{Verdict: b.Verdict.String(), Reason: b.Reason, PVC: rangeView(b.PVC, 1), ReducedPVC: rangeView(b.Reduced, 1), OverPaste: rangeView(b.Paste, 1), Contradicts: b.Contradicted, Over: float64(b.Over),
		GroundKnown: r.Request.GroundKnown, AbsorbedGM2: float64(r.Request.Absorbed), MuchSolvent: b.MuchSolvent}
	if n := b.Nearest; n != nil {
		v.Nearest = &NearestJSON{takeViews(n.Take), ratios(n.ByVolume), n.More, float64(n.Oil), float64(n.Less), rangeView(n.Bond.Reduced, 1), rangeView(n.Bond.Paste, 1)}
	}
	return v
}

func flowView(f *formulate.Flow) FlowJSON {
	v := FlowJSON{TemperatureC: float64(f.Temperature), NoFactor: f.NoFactor, NoVehicle: f.NoVehicle, NoAgainst: f.NoAgainst, Packed: float64(f.Packed)}
	known := func(why string, r RangeView) *RangeView {
		if why != "" {
			return nil
		}
		return &r
	}
	v.Factor = known(f.NoFactor, rangeView(f.Factor, 1))
	v.VehicleMPaS = known(f.NoVehicle, rangeView(f.Vehicle, 1))
	v.ThinnedMPaS = known(f.NoFactor+f.NoVehicle, rangeView(f.Thinned, 1))
	v.Against = known(f.NoAgainst, rangeView(f.Against, 1))
	return v
}

func leavingView(l formulate.Leaving) LeavingJSON {
	v := LeavingJSON{ID: l.ID, MassG: float64(l.Mass), NotKnown: l.NotKnown}
	a := l.Assessment
	if a == nil {
		return v
	}
	v.Air = &AirJSON{RoomM3: float64(a.Room.Volume), AirChanges: float64(a.Room.AirChanges), Release: string(a.Release.Profile), ReleaseS: float64(a.Release.Over),
		PeakMgM3: float64(a.Peak), PeakPPM: float64(a.PeakPPM), PeakAtS: float64(a.PeakAt), EightHoursMgM3: float64(a.EightHours),
		Saturated: a.Saturated, Limits: []LimitJSON{}, Cautions: orEmpty(a.Cautions)}
	if a.Saturated {
		holds := float64(a.Holds)
		v.Air.HoldsG = &holds
		if until := float64(a.ClearsFrom); !math.IsInf(until, 1) {
			v.Air.SaturatedToS = &until
		}
	}
	if a.Fire != nil {
		room, over := float64(a.Fire.RoomShare), float64(a.Fire.OverLiquid)
		v.Air.LELShare, v.Air.LELOverLiquid = &room, &over
	}
	for _, c := range a.Comparisons {
		v.Air.Limits = append(v.Air.Limits, LimitJSON{c.Limit.Authority, c.Limit.Kind, float64(c.Threshold), float64(c.Level), float64(c.Share), c.Over, c.Limit.Source, c.Note})
	}
	return v
}
