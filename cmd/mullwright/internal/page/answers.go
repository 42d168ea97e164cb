package page

import (
	"errors"
	"fmt"
	"net/url"
	"strconv"
	"strings"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
)

// desk is what a question is answered with.
type desk struct {
	*Desk
	sampling formulate.Sampling
	explain  bool
}

// decided puts a request to a decision, unless it could not be made.
func decided[Q, R any](decide func(Q) (R, error)) func(Q, error) (R, error) {
	return func(req Q, err error) (R, error) {
		if err != nil {
			var none R
			return none, err
		}
		return decide(req)
	}
}

// sheetOnly is an answer without a picture.
func sheetOnly[R any](res R, err error, sheet func(R) *render.Sheet) (*answer, error) {
	if err != nil {
		return nil, err
	}
	return &answer{sheet: sheet(res)}, nil
}

type mullAsked struct{ ask.Mull }

func (q *mullAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.Mull)(q.Request(d.Workshop, d.sampling))
	if err != nil {
		return nil, err
	}
	dial, err := formulate.DialOf(res)
	if err != nil {
		return nil, err
	}
	return &answer{
		sheet:  render.MullSheet(res, d.Workshop.Cite, d.explain),
		charts: []chart{charted("Pour the oil", show.MullDial(dial), func(v *picture.DialData) *picture.Frame { return &v.Frame }, picture.Dial)},
		paper:  card(func(p show.Paper) picture.CardData { return show.MullCard(res, d.Workshop.Cite, p) }),
		next:   q.onward(d, res),
		files:  formulaFile("mull", q.Fields()),
	}, nil
}

// onward leads from a mull to what a maker asks next, with what is known.
func (q *mullAsked) onward(d desk, res *formulate.MullResult) []link {
	paste := ask.Correct{
		Pigments: q.Pigments, Oils: q.Oils, Extenders: q.Extenders, Waxes: q.Waxes, PartsBy: q.PartsBy, Moisture: q.Moisture,
		PigmentMass: render.OnScale(res.PigmentWeighed(), res.Request.Scale),
		Body:        q.Body, PVC: q.PVC, ReducedPVC: q.ReducedPVC, Knowingly: q.Knowingly,
		Have: q.Have, Scale: q.Scale, TwentyDrops: q.TwentyDrops, Prices: q.Prices,
	}
	var list []link
	if d.Book != nil {
		list = append(list, link{"Write it into the book", "the weights as they were in the end", "/book/add?" + q.batch(res).Encode()})
	}
	return append(list,
		link{"It took too much oil", "say how much went in, and every way out stands there", to("correct", paste.Fields())},
		link{"Thin it", "a glaze, or a lean paint, of this paste", to("thin", (&ask.Thin{Paint: q.paint()}).Fields())})
}

// batch is what a maker may write down once it is made; the oil is left to be
// filled in.
func (q *mullAsked) batch(res *formulate.MullResult) url.Values {
	v := url.Values{}
	for _, w := range res.Weigh {
		field, text := "", w.Material.ID+"="+render.OnScale(w.OnScale, res.Request.Scale)
		switch w.Role {
		case formulate.Pigment:
			field = "pigments"
		case formulate.Extender:
			field = "extender"
		case formulate.Binder:
			field, text = "oil", w.Material.ID
		default:
			field = "wax"
		}
		v.Add(field, text)
	}
	if q.Moisture != "" {
		v.Set("moisture", q.Moisture)
	}
	return v
}

// paint is the paste without its amount.
func (q *mullAsked) paint() ask.Mull {
	return ask.Mull{Pigments: q.Pigments, Oils: q.Oils, Extenders: q.Extenders, Waxes: q.Waxes, PartsBy: q.PartsBy, Moisture: q.Moisture,
		Body: q.Body, PVC: q.PVC, ReducedPVC: q.ReducedPVC, Knowingly: q.Knowingly, Scale: q.Scale, TwentyDrops: q.TwentyDrops, Prices: q.Prices}
}

// formulaFile is the question as a file for the command line.
func formulaFile(table string, fields []ask.Field) []file {
	text, err := ask.Save(table, fields)
	if err != nil {
		return nil
	}
	return []file{{table + ".toml", "Formula file for the command line", text}}
}

// to is the address of a question with what is known filled in.
func to(path string, fields []ask.Field) string {
	return "/" + path + "?" + ask.Values(fields).Encode()
}

type correctAsked struct{ ask.Correct }

func (q *correctAsked) answer(d desk) (*answer, error) {
	gum, err := q.Gum()
	if err != nil {
		return nil, err
	}
	if gum {
		res, err := decided(formulate.CorrectGum)(q.GumRequest(d.Workshop, d.sampling))
		return sheetOnly(res, err, func(r *formulate.CorrectGumResult) *render.Sheet {
			return render.CorrectGumSheet(r, d.Workshop.Cite, d.explain)
		})
	}
	res, err := decided(formulate.Correct)(q.Request(d.Workshop, d.sampling))
	return sheetOnly(res, err, func(r *formulate.CorrectResult) *render.Sheet {
		return render.CorrectSheet(r, d.Workshop.Cite, d.explain)
	})
}

type thinAsked struct{ ask.Thin }

func (q *thinAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.Thin)(q.Request(d.Workshop, d.sampling))
	if err != nil {
		return nil, err
	}
	a := &answer{sheet: render.ThinSheet(res, d.Workshop.Cite, d.explain), files: formulaFile("thin", q.Fields())}
	curve, known, err := show.VapourCurve(res)
	if err != nil {
		return nil, err
	}
	if known {
		a.charts = []chart{charted("Vapour in the room", curve, func(v *picture.CurveData) *picture.Frame { return &v.Frame }, picture.Curve)}
	}
	return a, nil
}

// layersAsked is a painting whose layers are filled in one under another.
type layersAsked struct {
	name   string
	layers [layersShown]ask.Layer
}

func layerPrefix(i int) string { return fmt.Sprintf("layer-%d.", i+1) }

func layerTitle(i int) string {
	if i == 0 {
		return "Layer 1, on the ground"
	}
	return fmt.Sprintf("Layer %d", i+1)
}

func (q *layersAsked) Fields() []ask.Field {
	fields := []ask.Field{{Name: "painting", One: &q.name}}
	for i := range q.layers {
		for _, f := range q.layers[i].Fields() {
			f.Name = layerPrefix(i) + f.Name
			fields = append(fields, f)
		}
	}
	return fields
}

func (q *layersAsked) answer(d desk) (*answer, error) {
	painting := ask.Layers{Name: q.name}
	for i := range q.layers {
		l := q.layers[i]
		if len(ask.Values(l.Fields())) == 0 {
			continue
		}
		if i > len(painting.Layers) {
			return nil, &ask.FieldError{Field: layerPrefix(len(painting.Layers)) + "pigments", Err: errors.New("this layer is empty and one above it is not; fill them from the ground up")}
		}
		if l.Name == "" {
			l.Name = fmt.Sprintf("layer %d", i+1)
		}
		if len(l.Paint.Pigments) == 0 {
			return nil, &ask.FieldError{Field: layerPrefix(i) + "pigments", Err: errors.New("no paint: name at least one pigment")}
		}
		painting.Layers = append(painting.Layers, l)
	}
	if len(painting.Layers) == 0 {
		return nil, errors.New("no layer is described yet")
	}
	req, err := painting.Request(d.Workshop, d.sampling)
	if err != nil {
		return nil, err
	}
	res, err := formulate.Layers(req)
	if err != nil {
		return nil, painting.Fault(err)
	}
	stack := show.LayerStack(res, q.name, ask.Colour)
	sheet := render.LayersSheet(res, q.name, d.Workshop.Cite, d.explain)
	return &answer{sheet: sheet, charts: []chart{charted(first(sheet), stack, func(v *picture.LayersData) *picture.Frame { return &v.Frame }, picture.Layers)}}, nil
}

// first is the title of a sheet's first section.
func first(s *render.Sheet) string {
	if len(s.Sections) == 0 {
		return ""
	}
	return s.Sections[0].Title
}

// recipeAsked is a recipe as written.
type recipeAsked struct{ text string }

func (q *recipeAsked) Fields() []ask.Field {
	return []ask.Field{{Name: "recipe", One: &q.text, Help: "the recipe as it is written"}}
}

func (q *recipeAsked) answer(d desk) (*answer, error) {
	r, err := ask.ParseRecipe("recipe", q.text)
	if err != nil {
		return nil, err
	}
	res, err := decided(formulate.TrueComposition)(r.Request(d.Workshop, d.sampling))
	var at *formulate.LineError
	if errors.As(err, &at) {
		return nil, &ask.FieldError{Field: "recipe", Err: fmt.Errorf("line %d: %w", at.Line, at.Err)}
	}
	return sheetOnly(res, err, func(r *formulate.RecipeResult) *render.Sheet {
		return render.RecipeSheet(r, d.Workshop.Cite, d.explain)
	})
}

type labelAsked struct{ ask.Label }

func (q *labelAsked) answer(d desk) (*answer, error) {
	for _, s := range q.What {
		if strings.HasSuffix(s, ".toml") { // the command line's way to name a file
			return nil, &ask.FieldError{Field: "pigments", Err: fmt.Errorf("%q is not a pigment", s)}
		}
	}
	res, err := decided(formulate.Labels)(q.Request(d.Workshop))
	if err != nil {
		return nil, err
	}
	return &answer{
		sheet: render.LabelSheet(res, d.Workshop.Cite),
		paper: func(p show.Paper) ([]*picture.Drawing, error) { return picture.LabelSheet(p.Page, show.Labels(res)) },
	}, nil
}

type swatchAsked struct{ ask.Swatch }

func (q *swatchAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.Swatches)(q.Request(d.Workshop))
	if err != nil {
		return nil, err
	}
	sheet := render.SwatchSheet(res, func(hex string) string { return hex })
	return &answer{sheet: sheet, charts: []chart{{first(sheet), func(width float64) (*picture.Drawing, error) { return show.DrawSwatches(res, width) }}}}, nil
}

type compareAsked struct{ ask.Compare }

func (q *compareAsked) answer(d desk) (*answer, error) {
	if q.Like != "" {
		of, others, err := q.Looks(d.Workshop)
		if err != nil {
			return nil, err
		}
		return &answer{sheet: render.AlikeSheet(of, formulate.Alike(of, others))}, nil
	}
	res, err := decided(formulate.Compare)(q.Request(d.Workshop, d.sampling))
	if err != nil {
		return nil, err
	}
	sheet := render.CompareSheet(res, d.Workshop.Cite)
	return &answer{sheet: sheet, charts: []chart{charted(first(sheet), show.CompareBars(res, ask.Colour), func(v *picture.BarsData) *picture.Frame { return &v.Frame }, picture.Bars)}}, nil
}

type watercolourAsked struct{ ask.Watercolour }

func (q *watercolourAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.Watercolour)(q.Request(d.Workshop, d.sampling))
	if err != nil {
		return nil, wet(err)
	}
	return &answer{
		sheet: render.WatercolourSheet(res, d.Workshop.Cite, d.explain),
		paper: card(func(p show.Paper) picture.CardData { return show.WatercolourCard(res, d.Workshop.Cite, p) }),
		files: formulaFile("watercolour", q.Fields()),
		next:  []link{{"Something is wrong with it", "powders, shines, cracks, curls: one change at a time", "/correct?" + url.Values{"in": {"gum"}, "pigments": q.Pigments}.Encode()}},
	}, nil
}

type inkAsked struct{ ask.Ink }

func (q *inkAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.Ink)(q.Request(d.Workshop, d.sampling))
	if err != nil {
		return nil, wet(err)
	}
	return &answer{
		sheet: render.InkSheet(res, d.Workshop.Cite, d.explain),
		paper: card(func(p show.Paper) picture.CardData { return show.InkCard(res, d.Workshop.Cite, p) }),
		files: formulaFile("ink", q.Fields()),
	}, nil
}

// wet adds to a refusal of wet press cake what to ask for instead.
func wet(err error) error {
	var w *formulate.TooWetError
	if !errors.As(err, &w) {
		return err
	}
	say := "say powder for the strength"
	switch {
	case w.Powder:
	case w.Pigment > 0:
		say += fmt.Sprintf(" and %s %% pigment by volume", render.Places(100*float64(w.PigmentToAsk()), 1))
	default:
		say += fmt.Sprintf(" and a body of %s", render.Places(float64(w.BodyToAsk()), 2))
	}
	return fmt.Errorf("%w; %s", err, say)
}

type solutionAsked struct{ ask.Solution }

func (q *solutionAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.Solution)(q.Request(d.Workshop))
	return sheetOnly(res, err, func(r *formulate.SolutionResult) *render.Sheet {
		return render.SolutionSheet(r, d.Workshop.Cite, d.explain)
	})
}

type ruboutAsked struct{ ask.RubOut }

func (q *ruboutAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.RubOut)(q.Request(d.Workshop))
	if err != nil {
		return nil, err
	}
	// That a result can be kept is said by what stands below it.
	a := &answer{sheet: render.RubOutSheet(res, d.Workshop.Cite, q.Guide, true, d.explain)}
	if text, err := d.Workshop.OwnEntry(res); err == nil {
		a.files = append(a.files, file{res.Request.Pigment.ID + ".toml", "Catalogue file of your own", text})
	}
	if e, err := ask.RubOutEntry(res); err == nil && d.Book != nil && !res.Request.Unlisted {
		r := e.RubOut
		entry := ask.BookAdd{Pigments: []string{r.ID}, Oils: []string{r.Oil}, RubOut: r.ByVolume.String(), Tests: strconv.Itoa(r.Tests), EndPoint: r.Method, Date: e.Date, Remark: e.Remark}
		if r.Lot != "" {
			entry.Lots = []string{r.Lot}
		}
		a.next = []link{{"Write it into the book", "every answer then rests on it, beside your batches", to("book/add", entry.Fields())}}
	}
	return a, nil
}

type settleAsked struct{ ask.Settle }

func (q *settleAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.Settle)(q.Request(d.Workshop, d.sampling))
	if err != nil {
		return nil, err
	}
	sheet := render.SettleSheet(res, d.Workshop.Cite, d.explain)
	return &answer{sheet: sheet, charts: []chart{charted(first(sheet), show.SettleCurve(res), func(v *picture.CurveData) *picture.Frame { return &v.Frame }, picture.Curve)}}, nil
}

type yieldAsked struct{ ask.Yield }

func (q *yieldAsked) answer(d desk) (*answer, error) {
	if f, alone, err := q.Formula(); alone {
		res, err := decided(formulate.OfFormula)(f, err)
		return sheetOnly(res, err, func(r *formulate.FormulaResult) *render.Sheet { return render.FormulaSheet(r, d.explain) })
	}
	res, err := decided(formulate.Yield)(q.Request(d.Workshop))
	return sheetOnly(res, err, func(r *formulate.YieldResult) *render.Sheet { return render.YieldSheet(r, d.explain) })
}

type moistureAsked struct{ ask.PowderMoisture }

func (q *moistureAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.PowderMoisture)(q.Request(d.Workshop))
	return sheetOnly(res, err, func(r *formulate.MoistureResult) *render.Sheet {
		return render.MoistureSheet(r, d.Workshop.Cite, d.explain)
	})
}

type bulkAsked struct{ ask.PowderBulk }

func (q *bulkAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.PowderBulk)(q.Request(d.Workshop))
	return sheetOnly(res, err, func(r *formulate.BulkResult) *render.Sheet {
		return render.BulkSheet(r, d.Workshop.Cite, d.explain)
	})
}

type jarAsked struct{ ask.PowderJar }

func (q *jarAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.PowderJar)(q.Request(d.Workshop, d.sampling))
	return sheetOnly(res, err, func(r *formulate.JarResult) *render.Sheet { return render.JarSheet(r, d.Workshop.Cite, d.explain) })
}

type densityAsked struct{ ask.PowderDensity }

func (q *densityAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.PowderDensity)(q.Request(d.Workshop))
	if err != nil {
		return nil, err
	}
	a := &answer{sheet: render.DensitySheet(res, d.Workshop.Cite, true, d.explain)}
	if text, err := d.Workshop.OwnDensity(res); err == nil {
		a.files = append(a.files, file{res.Request.Pigment.ID + ".toml", "Catalogue file of your own", text})
	}
	return a, nil
}

type finenessAsked struct{ ask.PowderFineness }

func (q *finenessAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.PowderFineness)(q.Request(d.Workshop, d.sampling))
	return sheetOnly(res, err, func(r *formulate.FinenessResult) *render.Sheet {
		return render.FinenessSheet(r, d.Workshop.Cite, d.explain)
	})
}

type surfaceAsked struct{ ask.PowderSurface }

func (q *surfaceAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.PowderSurface)(q.Request(d.Workshop, d.sampling))
	return sheetOnly(res, err, func(r *formulate.SurfaceResult) *render.Sheet {
		return render.SurfaceSheet(r, d.Workshop.Cite, d.explain)
	})
}

type cakeAsked struct{ ask.PowderCake }

func (q *cakeAsked) answer(d desk) (*answer, error) {
	res, err := decided(formulate.PowderCake)(q.Request())
	return sheetOnly(res, err, func(r *formulate.CakeResult) *render.Sheet { return render.CakeSheet(r, d.Workshop.Cite, d.explain) })
}
