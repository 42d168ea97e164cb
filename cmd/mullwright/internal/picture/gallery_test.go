package picture

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"testing"

	"mullwright/formulate/optics"
	"mullwright/formulate/quantity"
	"mullwright/pigments/colour"
)

var gallery = flag.String("gallery", "", "folder to write every sample picture to, for looking at")

// sample is one picture of invented data.
type sample struct {
	name string
	draw func(width float64) (*Drawing, error)
}

// The samples are invented: a botanical illustrator's small colour bench.
func samples() []sample {
	return []sample{
		{"dial", func(w float64) (*Drawing, error) { return Dial(sampleDial(w)) }},
		{"bars", func(w float64) (*Drawing, error) { return Bars(sampleBars(w)) }},
		{"vapour", func(w float64) (*Drawing, error) { return Curve(sampleVapour(w)) }},
		{"settling", func(w float64) (*Drawing, error) { return Curve(sampleSettling(w)) }},
		{"ranges", func(w float64) (*Drawing, error) { return Ranges(sampleRanges(w)) }},
		{"layers", func(w float64) (*Drawing, error) { return Layers(sampleLayers(w)) }},
		{"glazes", func(w float64) (*Drawing, error) { return Ladder(sampleGlazes(w)) }},
		{"tints", func(w float64) (*Drawing, error) { return Ladder(sampleTints(w)) }},
		{"plain", func(w float64) (*Drawing, error) { return Ladder(samplePlain(w)) }},
	}
}

func sampleDial(w float64) DialData {
	v := DialData{
		Frame: Frame{
			Title: "Ultramarine blue in linseed oil, 50 g of pigment",
			Lead:  "Pour 14.5 g first, then 1.5 g at a time; most jars want 17 to 27 g for a buttery paste.",
			Notes: []string{"The pale bands hold 8 of 10 jars. Invented sample data."},
			Width: w,
		},
		OilName: "g of linseed oil poured", BodyName: "body: pigment by volume over its critical share",
		PVCName: "pigment by volume of the paste (PVC), %",
		Bands:   []Band{{"stiff", 1.15, 0.95}, {"buttery", 0.95, 0.8}, {"soft", 0.8, 0.68}, {"flowing", 0.68, 0.5}},
		Target:  0.87, TargetName: "asked for: buttery",
		First: 14.5, FirstName: "first pour 14.5 g", Totals: []float64{16, 17.5, 19, 20.5, 22, 23.5, 25, 26.5, 28},
		Most: 28, MostName: "at most 28 g",
		Needed: Span{17, 21.4, 27}, NeededName: "most likely 21.4 g",
		Limit: 36, LimitName: "past 36 g the 8 g in the jar cannot mend it",
		Critical: Span{52, 56, 60},
	}
	for oil := 6.0; oil <= 44; oil += 2 {
		phi := (50 / 2.35) / (50/2.35 + oil/0.93)
		v.Points = append(v.Points, DialPoint{Oil: oil, Body: Span{phi / 0.60, phi / 0.56, phi / 0.52}, PVC: Span{98 * phi, 100 * phi, 102 * phi}})
	}
	return v
}

func sampleBars(w float64) BarsData {
	return BarsData{
		Frame: Frame{Title: "Oil for a buttery paste", Lead: "Where bars overlap much, the order means nothing.", Notes: []string{"Bars hold 8 of 10 jars. Invented sample data."}, Width: w},
		Axis:  "g of linseed oil to 100 g of pigment",
		Rows: []Bar{
			{Name: "Lead-tin yellow", Span: Span{9, 12, 16}, Text: "12 (9 to 16)", Chip: "#e2c65a"},
			{Name: "Titanium white, rutile", Span: Span{20, 28, 38}, Text: "28 (20 to 38)", Chip: "#f6f5f0", Note: "overlaps with the next"},
			{Name: "Ultramarine blue", Span: Span{34, 43, 54}, Text: "43 (34 to 54)", Chip: "#2a3f9d", Note: "overlaps with the next"},
			{Name: "Yellow ochre", Span: Span{38, 56, 82}, Text: "56 (38 to 82)", Chip: "#b98a3c"},
			{Name: "Raw sienna", Span: Span{78, 126, 204}, Text: "126 (78 to 204)"},
		},
		Lines: []Limit{{"own usual 45 g", 45}},
	}
}

func sampleVapour(w float64) CurveData {
	var t, a, lo, hi, b []float64
	for m := 0.0; m <= 240; m += 5 {
		c := 620 * (1 - math.Exp(-m/40)) * math.Exp(-m/180)
		t, a, lo, hi = append(t, m), append(a, c), append(lo, 0.7*c), append(hi, 1.35*c)
		b = append(b, 0.3*c)
	}
	return CurveData{
		Frame: Frame{Title: "Spirit vapour in the room", Lead: "30 g leaving 30 m³ of room. The room's mean hides the layer over the palette.", Notes: []string{"A figure under a limit is no clearance. Invented sample data."}, Width: w},
		X:     Axis{Name: "minutes"}, Y: Axis{Name: "mg/m³"},
		Series: []Series{{Name: "door shut", X: t, Y: a, Low: lo, High: hi}, {Name: "window open", X: t, Y: b}},
		Limits: []Limit{{"8 h limit 566 mg/m³", 566}, {"15 min limit 850 mg/m³", 850}},
	}
}

func sampleSettling(w float64) CurveData {
	var t, coarse, middling, fine []float64
	for m := 0.1; m <= 1000; m *= 1.3 {
		t = append(t, m)
		coarse = append(coarse, math.Max(0, 100-m*60))
		middling = append(middling, math.Max(0, 100-m*4))
		fine = append(fine, math.Max(0, 100-m*0.15))
	}
	return CurveData{
		Frame: Frame{Title: "Still floating in 10 cm of water", Width: w, Notes: []string{"Invented sample data."}},
		X:     Axis{Name: "minutes", Log: true}, Y: Axis{Name: "% of each size still up", From: 0, To: 105},
		Series: []Series{{Name: "30 µm", X: t, Y: coarse}, {Name: "8 µm", X: t, Y: middling}, {Name: "1.5 µm", X: t, Y: fine}},
	}
}

func sampleRanges(w float64) RangesData {
	return RangesData{
		Frame: Frame{Title: "Ultramarine, this jar: what the batches have taught", Lead: "Each batch weighed narrows the range.", Notes: []string{"Invented sample data."}, Width: w},
		Axis:  "g of linseed oil to 100 g of pigment",
		States: []State{
			{Name: "catalogue", Span: Span{26, 34, 44}}, {Name: "batch 1", Span: Span{29, 35, 42}, Measured: 38},
			{Name: "batch 2", Span: Span{32, 36.5, 41.5}, Measured: 39}, {Name: "batch 3", Span: Span{34, 37, 40.5}, Measured: 36.2},
			{Name: "batch 4", Span: Span{35, 37.4, 40}, Measured: 38.4}, {Name: "batch 5", Span: Span{35.8, 37.6, 39.5}, Measured: 37.8},
		},
	}
}

func sampleLayers(w float64) LayersData {
	return LayersData{
		Frame: Frame{Title: "Iris study, four layers", Lead: "The third layer is leaner than the one below it.", Notes: []string{"Fat over lean is judged by volume of the dry film. Invented sample data."}, Width: w},
		Axis:  "oil by volume of the dry film, %",
		Layers: []LayerView{
			{Name: "Ground, chalk and glue", Detail: "200 µm dry", Height: 3, Chip: "#f3efe3"},
			{Name: "Drawing in raw umber", Detail: "thinned with spirit, 15 µm dry, dried 7 days", Fat: Span{38, 44, 50}, FatText: "44 (38 to 50)", Height: 1, Chip: "#6f5b43"},
			{Name: "Dead colour, lead white and ochre", Detail: "40 µm dry, dried 21 days", Fat: Span{30, 34, 39}, FatText: "34 (30 to 39)", Verdict: AtFault, Reason: "Leaner than the drawing under it: 2 g more oil to 50 g of paint mends it.", Height: 1.5, Chip: "#d9cba8"},
			{Name: "Ultramarine over all", Detail: "25 µm dry", Fat: Span{33, 40, 47}, FatText: "40 (33 to 47)", Verdict: Undecided, Height: 1, Chip: "#2a3f9d"},
		},
	}
}

func sampleGlazes(w float64) LadderData {
	return LadderData{
		Frame:   Frame{Title: "Cobalt yellow, glazes", Lead: "Films across, grounds down.", Width: w},
		Columns: []string{"½ film", "1 film", "2 films", "4 films"},
		Rows: []LadderRow{
			{"white ground", "#f4f4f4", []ChipView{{Colour: "#e9d58a", Note: "± 1.0"}, {Colour: "#e1c25c", Measured: true}, {Colour: "#d6ad2a", Note: "± 1.4"}, {Colour: "#c79a00", Outside: true, Note: "± 3.2"}}},
			{"light grey", "#b9b9b9", []ChipView{{Colour: "#b3a877", Note: "± 1.0"}, {Colour: "#b1a056", Measured: true}, {Colour: "#b1952b", Note: "± 1.4"}, {Colour: "#b58f00", Outside: true, Note: "± 3.2"}}},
			{"dark grey", "#7d7d7d", []ChipView{{Colour: "#837e66", Note: "± 1.0"}, {Colour: "#8c8253", Measured: true}, {Colour: "#988431", Note: "± 1.4"}, {Colour: "#a98707", Note: "± 3.2"}}},
			{"black", "#2c2c2c", []ChipView{{Colour: "#4d4b45", Note: "± 1.0"}, {Colour: "#66614a", Measured: true}, {Colour: "#7f7237", Note: "± 1.4"}, {}}},
		},
		How:     "modelled: two-flux film fitted to the chart's readings over four grounds; the column of one film is measured; daylight D65",
		Data:    "binder and thickness of the chart's films are not stated and its grounds are inferred by the fit, so the ladder counts in that film and claims no micrometres and no oil",
		Error:   "the fit misses its readings by 0.0042 rms in reflectance",
		Credits: []string{"Invented sample colours."},
	}
}

func sampleTints(w float64) LadderData {
	return LadderData{
		Frame:   Frame{Title: "Cobalt blue, masstone and tints", Width: w},
		Columns: []string{"masstone", "1 : 1 white", "1 : 3", "1 : 10", "1 : 30", "1 : 100"},
		Rows:    []LadderRow{{Chips: []ChipView{{Colour: "#3348aa"}, {Colour: "#5f7ed0"}, {Colour: "#86a8e6"}, {Colour: "#b5d2f5"}, {Colour: "#cfe1f8"}, {Colour: "#e0ecf9"}}}},
		How:     "modelled: two-constant mixing of hiding films, gloss counted in, daylight D65",
		Data:    "K and S of acrylic paints, relative to their titanium white",
		Error:   "your paint may differ by about 15 units; check with a drawdown",
	}
}

func samplePlain(w float64) LadderData {
	return LadderData{
		Frame: Frame{Title: "Lead-tin yellow", Width: w, Notes: []string{"One measured colour: a glaze or a tint cannot be foretold from it."}},
		Rows:  []LadderRow{{Chips: []ChipView{{Colour: "#d9c46a", Measured: true}}}},
		How:   "measured: dry powder, no binder, daylight D65",
	}
}

func sampleCard() CardData {
	return CardData{
		Kind: "oil mull", Title: "Ultramarine blue in cold-pressed linseed oil",
		Lead:  "50 g of dry pigment to a buttery paste: about 43 ml, one tube of 40 ml.",
		Maker: "Iris bench (invented)", Batch: "ULT-07", Date: "",
		Facts: []Fact{
			{"paint", "71 g (66 to 77), 43 ml (39 to 49)"}, {"tubes of 40 ml", "1, filled to 95 %"},
			{"oil to 100 g pigment", "43 g (34 to 54)"}, {"oil of the paste", "30 % by mass, 51 % by volume"},
			{"PVC, critical", "48 %, 55 %"}, {"body", "buttery"}, {"density", "1.64 g/ml"}, {"drying", "slow: 5 to 12 days touch dry"},
		},
		Weigh: []WeighLine{
			{"Ultramarine blue, PB29", "dry powder; mask on, damp early", "50.0 g", "g"},
			{"Chalk", "extender, 5 % of the pigment", "2.5 g", "g"},
			{"Beeswax paste", "stabiliser, 1 % of the paste", "0.7 g", "g"},
		},
		Pours: []PourLine{
			{Name: "First pour: linseed oil", Detail: "at most 1 jar in 20 is past the mark already", Amount: "14.5 g", Total: "14.5 g", Unit: "g"},
			{Name: "then", Detail: "mull out fully before judging", Amount: "1.5 g", Total: "16.0 g", Unit: "g"},
			{Name: "then", Detail: "", Amount: "1.5 g", Total: "17.5 g", Unit: "g"}, {Name: "then", Detail: "", Amount: "1.5 g", Total: "19.0 g", Unit: "g"}, {Name: "then", Detail: "", Amount: "1.5 g", Total: "20.5 g", Unit: "g"},
			{Name: "then", Detail: "", Amount: "1.5 g", Total: "22.0 g", Unit: "g"}, {Name: "then", Detail: "", Amount: "1.5 g", Total: "23.5 g", Unit: "g"}, {Name: "at most", Detail: "19 jars of 20 need no more", Amount: "", Total: "27.0 g", Unit: "g"},
		},
		PourNote: "Stop as soon as the paste does what is said below; two drops can be the difference. 20 drops of this oil weigh about 0.6 g.",
		Aim:      "It holds a peak and spreads like butter. Ultramarine loosens under the muller: judge after ten minutes, not before.",
		Next:     []string{"Rest overnight under film, mull once more, check the body again.", "Tube, label, and write down the final weights of pigment and oil.", "Rags and paper: spread singly outdoors or into a lidded metal can under water."},
		Cautions: []Fact{
			{"oily rags", "Rags, paper and gloves wet with drying oil heat up by themselves and can take fire within hours. Spread singly outdoors to harden, or into a lidded metal can under water."},
			{"dust", "Any fine powder harms the lungs: particle mask, damp the powder early, wet-wipe, no sweeping. Follow the product's safety data sheet and local rules."},
			{"kitchen", "Tools, spoons and jars used for pigment never go back to food. Not for children, not near food."},
		},
		Sources: []string{"Invented sample data; a real card names the source of each value here."},
	}
}

func sampleLabels() []LabelData {
	blue := LabelData{Name: "Ultramarine blue", Index: "PB29", Binder: "linseed oil, beeswax 1 %", Batch: "ULT-07", Date: "2026-03-14", Maker: "Iris bench (invented)", Assessed: true, Colour: "#2a3f9d"}
	red := LabelData{Name: "Cadmium red", Index: "PR108", Binder: "walnut oil", Batch: "CAD-02", Date: "2026-03-15", Maker: "Iris bench (invented)", Assessed: true, Colour: "#b22222",
		Hazards: []string{"Cadmium compound: dust is a cancer and kidney hazard by breathing. Never sand or heat."}}
	smalt := LabelData{Name: "Smalt", Index: "PB32", Binder: "gum arabic, honey", Batch: "SM-1", Date: "2026-03-16", Maker: "Iris bench (invented)", Colour: "#5a6fa0"}
	var out []LabelData
	for _, k := range []LabelKind{TubeLabel, PanLabel, BottleLabel} {
		for _, l := range []LabelData{blue, red, smalt} {
			l.Kind = k
			out = append(out, l)
		}
	}
	return out
}

// colourSheets shows what is measured of a pigment.
func colourSheets(t *testing.T, id string) map[string]LadderData {
	t.Helper()
	d, ok, err := colour.Of(id)
	if err != nil || !ok {
		t.Fatal(id, ok, err)
	}
	white, err := colour.White()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]LadderData{}
	for _, p := range d.Paints[:min(1, len(d.Paints))] {
		l, err := optics.Tints(p.RelativePaint, white.RelativePaint, []quantity.Parts{0, 1, 3, 10, 30, 100})
		if err != nil {
			t.Fatal(err)
		}
		out["tints"] = TintSheet(l, Frame{Title: l.Label + ", tints"}, colour.AttributionOf(p.Record).Line())
	}
	for _, f := range d.Films[:min(1, len(d.Films))] {
		l, err := optics.Glazes(f.ChartFilm, colour.Chart(), []optics.Films{0.5, 1, 2, 4})
		if err != nil {
			t.Fatal(err)
		}
		out["glazes"] = GlazeSheet(l, Frame{Title: l.Label + ", glazes"}, colour.AttributionOf(f.Record).Line())
	}
	for _, p := range d.Powders[:min(1, len(d.Powders))] {
		s, err := optics.PowderSwatch(p.Powder)
		if err != nil {
			t.Fatal(err)
		}
		out["powder"] = SwatchSheet(s, Frame{Title: id + ", powder"}, colour.AttributionOf(p.Record).Line())
	}
	return out
}

func TestGallery(t *testing.T) {
	if *gallery == "" {
		t.Skip("pass -gallery FOLDER to write the sample pictures")
	}
	if err := os.MkdirAll(*gallery, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, s := range samples() {
		for suffix, width := range map[string]float64{"": DefaultWidth, "-phone": PhoneWidth} {
			d, err := s.draw(width)
			if err != nil {
				t.Fatal(s.name, err)
			}
			write(t, s.name+suffix+".png", func(f *os.File) error { return d.WritePNG(f, 96) })
			write(t, s.name+suffix+".svg", func(f *os.File) error { return d.WriteSVG(f) })
		}
	}
	for _, id := range []string{"ultramarine-blue", "cobalt-yellow", "phthalo-blue-beta", "lead-tin-yellow", "chromium-oxide-green"} {
		for name, v := range colourSheets(t, id) {
			v.Width = DefaultWidth
			d, err := Ladder(v)
			if err != nil {
				t.Fatal(id, err)
			}
			write(t, id+"-"+name+".png", func(f *os.File) error { return d.WritePNG(f, 96) })
		}
	}
	card, err := Card(sampleCard())
	if err != nil {
		t.Fatal(err)
	}
	sheets, err := LabelSheet(A4, sampleLabels())
	if err != nil {
		t.Fatal(err)
	}
	write(t, "card.png", func(f *os.File) error { return card.WritePNG(f, 110) })
	write(t, "card.svg", func(f *os.File) error { return card.WriteSVG(f) })
	write(t, "card.pdf", func(f *os.File) error { return WritePDF(f, card) })
	write(t, "labels.png", func(f *os.File) error { return sheets[0].WritePNG(f, 110) })
	write(t, "labels.pdf", func(f *os.File) error { return WritePDF(f, sheets...) })
}

func write(t *testing.T, name string, f func(*os.File) error) {
	t.Helper()
	out, err := os.Create(filepath.Join(*gallery, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := f(out); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
}
