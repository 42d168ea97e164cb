package render

import (
	"fmt"
	"strings"

	"mullwright/formulate"
	"mullwright/formulate/absorption"
	"mullwright/formulate/material"
	"mullwright/formulate/quantity"
)

// MullSheet lays a mull out as a weighing card.
func MullSheet(r *formulate.MullResult, cite Cite, explain bool) *Sheet {
	s := &Sheet{Title: mullTitle(r), Lead: mullLead(r)}
	s.Add(weighSection(r))
	s.Add(pourSection(r))
	s.Add(Section{Title: "Oil, on both bases", Fields: []Field{
		RangeField("per 100 g of powder", r.Figures.OilPerPigment, 1, 3, "g", ""),
		RangeField("of the paste, by mass", r.Figures.BinderByMass, 100, 3, "%", ""),
		RangeField("of the paste, by volume", r.Figures.BinderByVolume, 100, 3, "%", ""),
	}})
	s.Add(yieldSection(r))
	s.Add(stockSection(r.Stock))
	s.Add(Section{Title: "How lean it is", Fields: []Field{
		RangeField("pigment volume (PVC)", r.Figures.PVC, 100, 3, "%", "of the dry film"),
		RangeField("critical PVC", r.Figures.CPVC, 100, 3, "%", "where oil just fills the gaps"),
		RangeField("reduced PVC", r.Figures.ReducedPVC, 1, 2, "", "PVC over critical; fat is low, lean is high"),
		RangeField("density", r.Figures.Density, 1, 3, "g/ml", ""),
	}})
	s.Add(evidenceSection(r, cite))
	s.Add(DryingSection(r.Drying))
	s.Add(nextSection(r))
	return s.finish(r.Warnings, r.Cautions, r.Steps, SourceKeys(mullMaterials(r)...), cite, explain)
}

func mullMaterials(r *formulate.MullResult) []*material.Material {
	var out []*material.Material
	for _, w := range r.Weigh {
		out = append(out, w.Material)
	}
	return out
}

func mullTitle(r *formulate.MullResult) string {
	var powders, oils []string
	for _, w := range r.Weigh {
		switch w.Role {
		case formulate.Pigment:
			powders = append(powders, titleOf(w.Material))
		case formulate.Binder:
			oils = append(oils, w.Material.Name)
		}
	}
	return "Weighing card: " + strings.Join(powders, " + ") + " in " + strings.Join(oils, " + ")
}

func mullLead(r *formulate.MullResult) string {
	lead := "For " + amountText(r.Request.Amount, "paint") + ", " + targetText(r.Target) + ". "
	return lead + spreadText(r.Request.Sampling, "jars")
}

func targetText(t formulate.Target) string {
	switch t.Kind {
	case formulate.AtPVC:
		return "at a PVC of " + percent(t.PVC)
	case formulate.AtReducedPVC:
		return "at a reduced PVC of " + Given(t.Reduced)
	}
	if t.Body.Name != "" {
		return t.Body.Name + " in body"
	}
	return "at a body of " + Given(t.Body.Typical)
}

func weighSection(r *formulate.MullResult) Section {
	sec := Section{Title: "Weigh"}
	scale := r.Request.Scale
	damp := r.Request.Moisture > 0
	pigments, oils := 0, 0
	for _, w := range r.Weigh {
		switch w.Role {
		case formulate.Pigment:
			pigments++
		case formulate.Binder:
			oils++
		}
	}
	for _, w := range r.Weigh {
		f := Field{Label: titleOf(w.Material), Value: Numbers(w.Mass, 1, "g")}
		var notes []string
		switch w.Role {
		case formulate.Binder:
			f.Text = "pour as below"
			if oils > 1 {
				f.Text = partsText(w.Parts) + " of the oil by mass, mixed first"
			}
			notes = append(notes, Range(w.Mass, 1, 3, "g")+" in all")
		default:
			f.Text = OnScale(w.OnScale, scale)
			if w.Role == formulate.Pigment && pigments > 1 {
				notes = append(notes, partsText(w.Parts)+" by mass")
			}
			if w.Role == formulate.Extender {
				notes = append(notes, percent(w.Share)+" of the pigment mass")
			}
			if w.Role == formulate.Additive {
				notes = append(notes, percent(w.Share)+" of the paste")
			}
			if damp && w.Role == formulate.Pigment {
				notes = append(notes, "damp, as it is")
			}
			// A spread worth a word: not the hundredths that a wax moves by.
			if a := w.AsWeighed; r.Request.Amount.Kind != formulate.ByPigmentMass && a.High-a.Low > 2*scale {
				notes = append(notes, "range "+Digits(float64(a.Low), 3)+"–"+Digits(float64(a.High), 3)+" g by the lot")
			}
			if w.Material.Tests != "" {
				notes = append(notes, "oil by your own tests")
			}
		}
		if len(w.Material.Overrides) > 0 {
			notes = append(notes, "your catalogue file: "+strings.Join(w.Material.Overrides, ", "))
		}
		if w.Material.Own {
			notes = append(notes, "from your catalogue file")
		}
		f.Note = noteLine(notes)
		sec.Fields = append(sec.Fields, f)
	}
	if r.Water.Typical > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "water in it", Text: Range(r.Water, 1, 3, "g"), Note: "not pigment", Value: Numbers(r.Water, 1, "g")})
	}
	return sec
}

func partsText(p quantity.Parts) string {
	if p == 1 {
		return "1 part"
	}
	return Given(p) + " parts"
}

func pourSection(r *formulate.MullResult) Section {
	p := &r.Pours
	scale := r.Request.Scale
	oil := func(m quantity.Mass) string { return OnScale(m, scale) }
	sec := Section{Title: "Pour the oil"}
	if r.Request.Sampling.Exact {
		sec.Fields = append(sec.Fields, Field{Label: "oil", Text: oil(p.First), Note: "· hold some back: no range was worked out", Value: one(p.First)})
		return sec
	}
	sec.Fields = append(sec.Fields,
		Field{Label: "1. first pour", Text: oil(p.First), Note: "· " + Chance(p.FirstOver) + " that this already passes the target", Value: one(p.First)},
	)
	if p.StepDrops > 0 {
		drops, note := dropsText(p)
		if p.WeighableFrom > 0 {
			note += fmt.Sprintf("; a batch from %s g of pigment has steps this balance can weigh", Digits(float64(p.WeighableFrom), 2))
		}
		sec.Fields = append(sec.Fields, Field{Label: "2. then add by", Text: drops, Note: note, Value: one(p.Step)})
	} else {
		sec.Fields = append(sec.Fields, Field{Label: "2. then add by", Text: oil(p.Step), Note: "· work each in fully before the next", Value: one(p.Step)})
	}
	sec.Fields = append(sec.Fields,
		Field{Label: "expect", Text: oil(p.Typical), Note: "· half the jars are there by now", Value: one(p.Typical)},
		Field{Label: "3. stop at", Text: oil(p.Most), Note: "· 19 jars in 20 need no more; past this suspect damp or another pigment", Value: one(p.Most)},
	)
	if m := p.Mends; m.Typical > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "no mending past", Text: oil(m.Typical), Note: fmt.Sprintf("· more oil than the %s g of pigment there is beside this can mend (%s–%s)", Given(r.Request.Have), Digits(float64(m.Low), 3), Digits(float64(m.High), 3)), Value: Numbers(m, 1, "g")})
	}
	if feel := r.Target.Body.Feel; feel != "" && !r.BeyondUse {
		sec.Fields = append(sec.Fields, Field{Label: "the paste then", Text: feel})
	}
	if len(p.Ladder) > 1 {
		var parts []string
		for _, x := range p.Ladder {
			parts = append(parts, Places(float64(x.Total), 1))
		}
		if len(parts) <= 14 {
			sec.Fields = append(sec.Fields, Field{Label: "running total, g", Text: strings.Join(parts, "  ")})
		}
	}
	return sec
}

func yieldSection(r *formulate.MullResult) Section {
	sec := Section{Title: "What you get", Fields: []Field{
		RangeField("paint", r.Yield.Volume, 1, 3, "ml", ""),
		RangeField("", r.Yield.Mass, 1, 3, "g", ""),
	}}
	if l := r.Request.Loss; l > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "lost on the slab", Text: percent(l), Note: "of what is made, taken off"})
	}
	if t := r.Tubes; t != nil {
		sec.Fields = append(sec.Fields, RangeField(fmt.Sprintf("tubes of %s ml", Given(t.Size)), t.Count, 1, 2, "", fmt.Sprintf("for the %d asked, %s full", t.Asked, percent(t.Fill))))
	}
	if m := r.Mulls; m != nil {
		sec.Fields = append(sec.Fields, mullsField(m))
	}
	if r.Figures.Cost.Typical > 0 {
		sec.Fields = append(sec.Fields, RangeField("cost", r.Figures.Cost, 1, 3, "", "in your money, of what has a price"))
	}
	return sec
}

func evidenceSection(r *formulate.MullResult, cite Cite) Section {
	t := &Table{Columns: []Column{{Title: "powder"}, {Title: "what it rests on"}, {Title: "g/100 g", Right: true}, {Title: "weight", Right: true}}}
	for _, w := range r.Weigh {
		if w.Role != formulate.Pigment && w.Role != formulate.Extender {
			continue
		}
		name := w.Material.ID
		method := "oil absorption, " + string(w.Method)
		switch w.Basis {
		case absorption.ByUnstated:
			method = "oil absorption, method unstated"
		case absorption.FromDemand:
			method = "oil absorption, none known: inferred"
		}
		own, ownDemand := OwnNotes(w.Learned)
		if own != "" {
			method = "your own oil absorption: " + own
		}
		t.Rows = append(t.Rows, []string{name, method, bare(Range(w.OA, 1, 2, "")), ""})
		if r.Target.Kind != formulate.AtBody {
			continue
		}
		for _, e := range w.Evidence {
			source := e.Source
			switch source {
			case absorption.Foretold:
			case absorption.OwnBatches:
				source += ", oil at tube colour: " + ownDemand
			default:
				source = "artists' demand, " + ShortCite(cite(source))
			}
			t.Rows = append(t.Rows, []string{"", source, Digits(float64(e.Middle), 2), roughly(e.Weight)})
		}
	}
	return Section{Title: "Evidence for the oil", Table: t}
}

func bare(s string) string { return strings.TrimSpace(s) }

// perDay turns seconds into days.
const perDay = 1 / float64(quantity.Day)

// DryingSection says what is known of drying.
func DryingSection(d formulate.Drying) Section {
	sec := Section{Title: "Drying"}
	if d.Oil.Typical > 0 {
		sec.Fields = append(sec.Fields, RangeField("oil alone", d.Oil, perDay, 2, "days", d.Conditions))
	} else {
		sec.Fields = append(sec.Fields, Field{Label: "oil alone", Text: "no published time known"})
	}
	said := map[string]bool{}
	for _, c := range d.Pigments {
		// Several sources often say the same: say it once, without their asides.
		word, _, _ := strings.Cut(c.Text, ";")
		if key := c.ID + word; !said[key] {
			said[key] = true
			sec.Fields = append(sec.Fields, Field{Label: c.ID, Text: word})
		}
	}
	if len(d.NotKnown) > 0 {
		sec.Fields = append(sec.Fields, Field{Label: "not known for", Text: strings.Join(d.NotKnown, ", ")})
	}
	return sec
}

func nextSection(r *formulate.MullResult) Section {
	sec := Section{Title: "Next", Marked: true}
	if len(r.Request.Waxes) > 0 {
		sec.Lines = append(sec.Lines, "Melt wax or stabiliser into a little of the oil over a water bath, never over a flame and never with solvent in it; let it cool, then mull it in (common practice).")
	}
	for _, n := range r.Muller {
		switch n.Behaviour {
		case "":
			sec.Lines = append(sec.Lines, n.ID+" under the muller: unknown. Judge the paste after a full minute of mulling, not under the knife.")
		default:
			line := n.ID + " " + n.Behaviour + " under the muller"
			if n.Note != "" {
				line += ": " + n.Note
			}
			sec.Lines = append(sec.Lines, line+".")
		}
	}
	if k := r.Request.Amount.Kind; r.Request.Loss == 0 && (k == formulate.ByTubes || k == formulate.ByPaintMass || k == formulate.ByPaintVolume) {
		sec.Lines = append(sec.Lines, "Nothing is allowed here for what stays on slab, knife and muller, usually 5 to 10 % (common practice): ask again with --loss 7% to fill the amount.")
	}
	sec.Lines = append(sec.Lines,
		"Rest the paste overnight under cover, then mull and judge it again before tubing; add oil by drops or pigment by pinches.",
		"Tube it, label it (contents, Colour Index name, oil, date, hazards), keep the tube cap down.",
		"Write down the final weights, not the planned ones: they are what the next batch repeats.")
	return sec
}

// MullJSONVersion is the version of the mull's JSON contract.
const MullJSONVersion = 1

// MullJSON is the mull's JSON contract. Masses are g, volumes ml, fractions 0
// to 1; percents say percent.
type MullJSON struct {
	Version          int           `json:"version"`
	Kind             string        `json:"kind"`
	Draws            string        `json:"answer"`
	Target           TargetJSON    `json:"target"`
	Pigments         []WeighJSON   `json:"pigments"`
	Extenders        []WeighJSON   `json:"extenders"`
	Oils             []WeighJSON   `json:"oils"`
	Waxes            []WeighJSON   `json:"waxes"`
	WaterG           float64       `json:"water_g"`
	FirstPourG       float64       `json:"first_pour_g"`
	FirstPourOver    float64       `json:"first_pour_chance_over"`
	StepG            float64       `json:"step_g"`
	StepDrops        int           `json:"step_drops"`
	OilTypicalG      float64       `json:"oil_typical_g"`
	OilMostG         float64       `json:"oil_most_g"`
	OilMendsG        *RangeView    `json:"oil_pigment_there_is_can_mend_g,omitempty"`
	Ladder           []PourJSON    `json:"pours"`
	PaintMassG       RangeView     `json:"paint_mass_g"`
	PaintVolumeML    RangeView     `json:"paint_volume_ml"`
	PVC              RangeView     `json:"pvc"`
	CPVC             RangeView     `json:"cpvc"`
	ReducedPVC       RangeView     `json:"reduced_pvc"`
	Body             RangeView     `json:"body"`
	OilPer100        RangeView     `json:"oil_g_per_100g_pigment"`
	OilMassPercent   RangeView     `json:"oil_mass_percent"`
	OilVolumePercent RangeView     `json:"oil_volume_percent"`
	Density          RangeView     `json:"density_g_per_ml"`
	SolidsMass       RangeView     `json:"solids_mass_fraction"`
	SolidsVolume     RangeView     `json:"solids_volume_fraction"`
	Cost             RangeView     `json:"cost"`
	Tubes            *TubesJSON    `json:"tubes"`
	Mulls            *MullsJSON    `json:"mulls"`
	OnHand           []OnHandJSON  `json:"on_hand,omitempty"`
	Drying           DryingJSON    `json:"drying"`
	Muller           []MullerJSON  `json:"under_the_muller"`
	Warnings         []string      `json:"warnings"`
	Cautions         []CautionView `json:"cautions"`
	Sources          []SourceView  `json:"sources"`
	Derivation       []StepView    `json:"derivation,omitempty"`
}

// TargetJSON is the stiffness asked for.
type TargetJSON struct {
	Kind  string  `json:"kind"`
	Name  string  `json:"name"`
	Value float64 `json:"value"`
}

// WeighJSON is one material to weigh.
type WeighJSON struct {
	ID         string         `json:"id"`
	Name       string         `json:"name"`
	MassG      RangeView      `json:"mass_g"`
	VolumeML   RangeView      `json:"volume_ml"`
	WeighG     float64        `json:"weigh_g"`
	Parts      float64        `json:"parts"`
	Share      float64        `json:"share"`
	Absorption *RangeView     `json:"oil_absorption_g_per_100g,omitempty"`
	Method     string         `json:"oil_absorption_method,omitempty"`
	Evidence   []EvidenceJSON `json:"evidence,omitempty"`
	Own        []string       `json:"own_tests,omitempty"` // what the maker's own book taught
}

// EvidenceJSON is one piece of evidence for an oil demand.
type EvidenceJSON struct {
	Source string  `json:"source"`
	Demand float64 `json:"demand_g_per_100g"`
	Weight float64 `json:"weight"`
}

// PourJSON is one pour.
type PourJSON struct {
	AddG    float64 `json:"add_g"`
	Drops   int     `json:"drops"`
	TotalG  float64 `json:"total_g"`
	Reached float64 `json:"chance_reached"`
}

// TubesJSON is how many tubes are filled.
type TubesJSON struct {
	SizeML float64   `json:"size_ml"`
	Fill   float64   `json:"fill"`
	Asked  int       `json:"asked"`
	Count  RangeView `json:"count"`
}

// MullsJSON is how the batch is split on the slab.
type MullsJSON struct {
	Count  int     `json:"count"`
	EachML float64 `json:"each_ml"`
	SlabML float64 `json:"slab_takes_ml"`
}

// DryingJSON is what is known of drying.
type DryingJSON struct {
	OilDays  *RangeView   `json:"oil_days"`
	Pigments []RemarkJSON `json:"pigments"`
	Unknown  []string     `json:"not_known_for"`
}

// RemarkJSON is a sourced remark.
type RemarkJSON struct {
	ID     string `json:"id"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

// MullerJSON is how a pigment behaves under the muller; "" is unknown.
type MullerJSON struct {
	ID        string `json:"id"`
	Behaviour string `json:"behaviour"`
	Note      string `json:"note"`
}

// MullView is the JSON view of a mull.
func MullView(r *formulate.MullResult, cite Cite, explain bool) MullJSON {
	v := MullJSON{
		Version: MullJSONVersion, Kind: "mull", Draws: answerKind(r.Request.Sampling), Target: targetView(r.Target),
		Pigments: []WeighJSON{}, Extenders: []WeighJSON{}, Oils: []WeighJSON{}, Waxes: []WeighJSON{}, Ladder: []PourJSON{}, Muller: []MullerJSON{},
		WaterG:     float64(r.Water.Typical),
		FirstPourG: float64(r.Pours.First), FirstPourOver: float64(r.Pours.FirstOver),
		StepG: float64(r.Pours.Step), StepDrops: r.Pours.StepDrops, OilTypicalG: float64(r.Pours.Typical), OilMostG: float64(r.Pours.Most),
		PaintMassG: rangeView(r.Yield.Mass, 1), PaintVolumeML: rangeView(r.Yield.Volume, 1),
		PVC: rangeView(r.Figures.PVC, 1), CPVC: rangeView(r.Figures.CPVC, 1), ReducedPVC: rangeView(r.Figures.ReducedPVC, 1), Body: rangeView(r.Figures.Body, 1),
		OilPer100: rangeView(r.Figures.OilPerPigment, 1), OilMassPercent: rangeView(r.Figures.BinderByMass, 100), OilVolumePercent: rangeView(r.Figures.BinderByVolume, 100),
		Density: rangeView(r.Figures.Density, 1), SolidsMass: rangeView(r.Figures.SolidsByMass, 1), SolidsVolume: rangeView(r.Figures.SolidsByVolume, 1),
		Cost: rangeView(r.Figures.Cost, 1), Warnings: orEmpty(r.Warnings), Cautions: cautionViews(r.Cautions),
		Sources: sourceViews(SourceKeys(mullMaterials(r)...), cite), Derivation: stepViews(r.Steps, explain),
	}
	if r.Pours.Mends.Typical > 0 {
		m := rangeView(r.Pours.Mends, 1)
		v.OilMendsG = &m
	}
	for _, w := range r.Weigh {
		j := WeighJSON{ID: w.Material.ID, Name: w.Material.Name, MassG: rangeView(w.Mass, 1), VolumeML: rangeView(w.Volume, 1),
			WeighG: float64(w.OnScale), Parts: float64(w.Parts), Share: float64(w.Share)}
		if w.Role == formulate.Pigment || w.Role == formulate.Extender {
			oa := rangeView(w.OA, 1)
			j.Absorption, j.Method = &oa, string(w.Method)
			own, ownDemand := OwnNotes(w.Learned)
			for _, note := range []string{own, ownDemand} {
				if note != "" {
					j.Own = append(j.Own, note)
				}
			}
			for _, e := range w.Evidence {
				j.Evidence = append(j.Evidence, EvidenceJSON{e.Source, float64(e.Middle), float64(e.Weight)})
			}
		}
		switch w.Role {
		case formulate.Pigment:
			v.Pigments = append(v.Pigments, j)
		case formulate.Extender:
			v.Extenders = append(v.Extenders, j)
		case formulate.Binder:
			v.Oils = append(v.Oils, j)
		default:
			v.Waxes = append(v.Waxes, j)
		}
	}
	for _, p := range r.Pours.Ladder {
		v.Ladder = append(v.Ladder, PourJSON{float64(p.Add), p.Drops, float64(p.Total), float64(p.Reached)})
	}
	if t := r.Tubes; t != nil {
		v.Tubes = &TubesJSON{float64(t.Size), float64(t.Fill), t.Asked, rangeView(t.Count, 1)}
	}
	if m := r.Mulls; m != nil {
		v.Mulls = &MullsJSON{m.Count, float64(m.Each), float64(m.OnSlab)}
	}
	v.OnHand = stockViews(r.Stock)
	v.Drying = dryingView(r.Drying)
	for _, n := range r.Muller {
		v.Muller = append(v.Muller, MullerJSON{n.ID, n.Behaviour, n.Note})
	}
	return v
}

// targetView is a target in JSON.
func targetView(t formulate.Target) TargetJSON {
	switch t.Kind {
	case formulate.AtPVC:
		return TargetJSON{"pvc", "", float64(t.PVC)}
	case formulate.AtReducedPVC:
		return TargetJSON{"reduced_pvc", "", float64(t.Reduced)}
	}
	return TargetJSON{"body", t.Body.Name, float64(t.Body.Typical)}
}

func dryingView(d formulate.Drying) DryingJSON {
	v := DryingJSON{Pigments: []RemarkJSON{}, Unknown: orEmpty(d.NotKnown)}
	if d.Oil.Typical > 0 {
		days := rangeView(d.Oil, perDay)
		v.OilDays = &days
	}
	for _, p := range d.Pigments {
		v.Pigments = append(v.Pigments, RemarkJSON(p))
	}
	return v
}
