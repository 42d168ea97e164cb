package show

import (
	"fmt"
	"strings"

	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

// Paper is what a maker wants written on a card or a label, and the sheet it is
// printed on.
type Paper struct {
	Page  picture.PageSize // A4 where empty
	Maker string
	Batch string
	Date  string
}

// MullCard is the weighing card of a mull.
func MullCard(r *formulate.MullResult, cite render.Cite, p Paper) picture.CardData {
	s := render.MullSheet(r, cite, false)
	v := card("oil mull", s, p)
	v.Facts = append(facts(s, "What you get", ""), facts(s, "Oil, on both bases", "oil ")...)
	v.Facts = append(v.Facts, facts(s, "How lean it is", "")...)
	v.Pours, v.PourNote = mullPours(r)
	if feel := r.Target.Body.Feel; feel != "" {
		v.Aim = "The paste " + feel + "."
	}
	v.Cautions = append(cautions(r.Cautions), remarks(s, "Take care with the numbers", "numbers")...)
	return v
}

// WatercolourCard is the weighing card of a watercolour.
func WatercolourCard(r *formulate.WatercolourResult, cite render.Cite, p Paper) picture.CardData {
	s := render.WatercolourSheet(r, cite, false)
	v := card("watercolour", s, p)
	v.Facts = append(facts(s, "What you get", ""), facts(s, "How lean it is", "")...)
	v.Facts = append(v.Facts, facts(s, "Humectant", "")...)
	for i, total := range r.Binder.Totals {
		line := picture.PourLine{Name: "Then, in all", Total: render.OnScale(total, r.Request.Scale), Unit: "g"}
		switch {
		case i == 0:
			line.Name, line.Amount = "Begin with binder", line.Total
		case i == len(r.Binder.Totals)-1:
			line.Name = "Stop here"
		}
		for _, f := range s.Part("Bind by steps").Fields {
			if i == 0 && strings.HasPrefix(f.Label, "1") || i == 1 && strings.HasPrefix(f.Label, "2") || line.Name == "Stop here" && strings.HasPrefix(f.Label, "3") {
				line.Detail = note(f)
			}
		}
		v.Pours = append(v.Pours, line)
	}
	v.Aim = "Nothing comes off when a dry brush-out is rubbed hard, and it neither shines nor cracks."
	v.Cautions = append(cautions(r.Cautions), remarks(s, "Take care with the numbers", "numbers")...)
	v.Cautions = append(v.Cautions, remarks(s, "Assumed, not known", "assumed")...)
	return v
}

// InkCard is the weighing card of an ink.
func InkCard(r *formulate.InkResult, cite render.Cite, p Paper) picture.CardData {
	s := render.InkSheet(r, cite, false)
	if r.Oil != nil {
		v := MullCard(r.Oil, cite, p)
		v.Kind, v.Lead = "printing ink", s.Lead
		return v
	}
	v := card("ink", s, p)
	v.Facts = append(facts(s, "What you get", ""), facts(s, "Settling in the bottle", "")...)
	v.Facts = append(v.Facts, facts(s, "On the paper", "")...)
	v.Cautions = append(against(r), cautions(r.Cautions)...)
	v.Cautions = append(v.Cautions, remarks(s, "Take care with the numbers", "numbers")...)
	v.Cautions = append(v.Cautions, remarks(s, "Assumed, not known", "assumed")...)
	return v
}

// against says what an ink is not for.
func against(r *formulate.InkResult) []picture.Fact {
	if len(r.Against) == 0 {
		return nil
	}
	return []picture.Fact{{Name: "tool", Text: upperFirst(strings.Join(r.Against, "; ")) + "."}}
}

// card lays out what every sheet holds.
func card(kind string, s *render.Sheet, p Paper) picture.CardData {
	title := s.Title
	if _, after, ok := strings.Cut(title, ": "); ok {
		title = after
	}
	v := picture.CardData{
		Page: p.Page, Kind: kind, Title: title, Lead: s.Lead, Maker: p.Maker, Batch: p.Batch, Date: p.Date,
	}
	for _, l := range s.Part("Next").Lines {
		if !strings.Contains(l, " --") { // a flag to ask again with is no step at the slab
			v.Next = append(v.Next, l)
		}
	}
	for _, f := range s.Part("Weigh").Fields {
		v.Weigh = weigh(v.Weigh, f)
	}
	for _, l := range s.Part("Sources").Lines {
		v.Sources = append(v.Sources, strings.TrimSuffix(l, " In full with --explain."))
	}
	return v
}

// weigh adds what one field of a sheet puts on the balance. What is in something
// already stands beside that; what is no weight stands under the name.
func weigh(list []picture.WeighLine, f render.Field) []picture.WeighLine {
	if name := strings.TrimPrefix(f.Label, "– "); name == "water in it" && len(list) > 0 {
		last := &list[len(list)-1]
		last.Detail = strings.TrimPrefix(last.Detail+", "+name+" "+f.Text, ", ")
		return list
	}
	w := picture.WeighLine{Name: f.Label, Amount: f.Text, Detail: note(f), Unit: "g"}
	if amount, _, _ := strings.Cut(f.Text, " ("); !strings.HasSuffix(amount, " g") {
		w.Amount, w.Detail = "", f.Text+"; "+w.Detail
	}
	return append(list, w)
}

// note is the small print of a field without its mark.
func note(f render.Field) string { return strings.TrimPrefix(f.Note, "· ") }

// facts are the fields of one part of a sheet. A field without a label is the
// mass of what stands before it.
func facts(s *render.Sheet, part, prefix string) []picture.Fact {
	var out []picture.Fact
	for _, f := range s.Part(part).Fields {
		if f.Label == "" && len(out) > 0 {
			f.Label = out[len(out)-1].Name + " by mass"
		}
		out = append(out, picture.Fact{Name: prefix + f.Label, Text: f.Text})
	}
	return out
}

// remarks are the lines of one part of a sheet, under one name.
func remarks(s *render.Sheet, part, name string) []picture.Fact {
	if lines := s.Part(part).Lines; len(lines) > 0 {
		return []picture.Fact{{Name: name, Text: strings.Join(lines, " ")}}
	}
	return nil
}

func cautions(list []formulate.Caution) []picture.Fact {
	var out []picture.Fact
	for _, c := range list {
		out = append(out, picture.Fact{Name: c.About, Text: c.Text})
	}
	return out
}

// mullPours is the oil of a mull, pour by pour, and how to go on.
func mullPours(r *formulate.MullResult) (list []picture.PourLine, note string) {
	p := &r.Pours
	oil := strings.Join(names(r, formulate.Binder), " + ")
	on := func(i int) string { return render.OnScale(p.Ladder[i].Total, r.Request.Scale) }
	if len(p.Ladder) == 0 {
		all := render.OnScale(p.First, r.Request.Scale)
		return []picture.PourLine{{Name: oil, Amount: all, Total: all, Unit: "g", Detail: "hold some back: no range was worked out"}}, ""
	}
	for i, x := range p.Ladder {
		line := picture.PourLine{Name: "Then", Amount: render.OnScale(x.Add, r.Request.Scale), Total: on(i), Unit: "g"}
		switch {
		case i == 0:
			line.Name, line.Detail = "First pour: "+oil, render.Chance(p.FirstOver)+" that this already passes the target"
		case x.Drops > 0:
			line.Amount = drops(x.Drops)
		}
		if i > 0 && i == len(p.Ladder)-1 {
			line.Name, line.Detail = "Stop here", "19 jars in 20 need no more; past this suspect damp or another pigment"
		}
		list = append(list, line)
	}
	note = "Work each pour in fully before the next, and stop as soon as the paste is there: half the jars are by " + render.OnScale(p.Typical, r.Request.Scale) + "."
	if p.StepDrops > 0 {
		note += fmt.Sprintf(" Drops are counted, not weighed: 20 weigh %s g.", render.Digits(float64(p.DropMass)*20, 2))
	}
	return list, note
}

func drops(n int) string {
	if n == 1 {
		return "1 drop"
	}
	return fmt.Sprintf("%d drops", n)
}
