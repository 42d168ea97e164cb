package page

import (
	"strings"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/formulate"
)

// questions lists the pages in the order of the bench: what is made, what is
// looked up, what is the maker's own.
func questions() []*question {
	return []*question{
		{
			path: "mull", title: "Mull oil paint", needs: "pigments", paper: true,
			lead:   "What to weigh, how much oil to pour first, and how to go on.",
			prompt: "Choose a pigment and its card stands here.",
			begin:  map[string]string{"paint-volume": "40 ml", "body": ask.DefaultBody},
			head:   []string{"oil", "1. first pour", "2. then add by", "3. stop at", "paint"},
			start:  func() asked { return new(mullAsked) },
			groups: []group{
				{title: "Pigment", inputs: []input{pigmentsInput("Pigment")}},
				{title: "Amount", inputs: []input{{kind: eitherInput, name: "amount", label: "How much", slide: true, hint: "with its unit: g, kg, oz, ml, tsp; tubes as in 3x40ml", options: []option{
					{"paint-volume", "of paint, by volume"}, {"paint-mass", "of paint, by mass"}, {"tubes", "tubes to fill"},
					{"pigment-mass", "of pigment there is"}, {"oil-mass", "of oil to use up"}}}}},
				{title: "Body", inputs: []input{{kind: bodyInput, name: "body", label: "Body", lean: true, hint: "how stiff the paste should be; buttery is tube colour"},
					{kind: checkInput, name: "above-critical", label: "Above the critical PVC", hint: "knowingly: lean, porous, crumbly paint"}}},
				{title: "Oil", inputs: []input{{kind: namesInput, name: "oil", label: "Oil", list: oilList, beside: "parts", hint: "linseed oil where none is named; several are a blend, in parts by mass"}}},
				{title: "Extender, wax, damp powder", folded: true, inputs: []input{
					{kind: namesInput, name: "extender", label: "Extender", list: extenderList, beside: "share", hint: "of the pigment mass, as in 10%"},
					{kind: namesInput, name: "wax", label: "Wax or stabiliser", list: waxList, beside: "share", hint: "of the paste, as in 2%"},
					{name: "moisture", label: "Water in the pigment", hint: "of the damp mass, as in 12%"},
					partsBy,
				}},
				{title: "Slab, tubes, balance, price", folded: true, inputs: []input{
					{name: "slab", label: "Slab", hint: "as in 30x40cm: how many mulls it takes"},
					{name: "fill", label: "Filling of a tube", hint: "78 % where nothing is said; the rest is for the crimp"},
					{name: "loss", label: "Lost on slab and knife", hint: "of what is made, as in 7%"},
					{name: "have", label: "More pigment there is", hint: "beyond this batch: how much oil it could still mend"},
					scaleInput, dropsInput, priceInput,
				}},
			},
		},
		{
			path: "correct", title: "Correct a paste", needs: "pigments",
			lead:   "Too much oil, or too little: every way out, with its steps.",
			prompt: "Say what is in the paste and how much, and the ways out stand here.",
			start:  func() asked { return new(correctAsked) },
			groups: []group{
				{title: "The paste", inputs: []input{
					pigmentsInput("Pigment in it"),
					{kind: namesInput, name: "oil", label: "Oil in it", list: oilList, beside: "parts", hint: "linseed oil where none is named"},
				}},
				{title: "How much is in it", hint: "Two of these, weighed as well as you can.", inputs: []input{
					{name: "pigment-mass", label: "Pigment", hint: "as weighed, as in 20 g"},
					{kind: eitherInput, name: "measure", label: "Oil", hint: "as in 14 g, 12 ml, 2 tsp; drops as a count; a filled measure as in 5ml=6.8g", options: []option{
						{"oil-mass", "oil, weighed"}, {"oil-volume", "oil, by volume or spoon"}, {"oil-drops", "drops of oil"},
						{"filled", "a filled measure of the paste"}, {"paste-density", "density of the paste"}}},
					{name: "paste-mass", label: "The whole paste", hint: "weighed, where the oil is not known"},
					{name: "air", label: "Air in a filled measure", hint: "by volume, as in 2% or 0-3%"},
					{name: "wept", label: "Oil that ran out since", hint: "weighed, as in 1.5 g"},
				}},
				{title: "Where it should be", inputs: []input{{kind: bodyInput, name: "body", label: "Body wanted", lean: true, usual: "as usual: tube colour", hint: "buttery where nothing is said"},
					{kind: checkInput, name: "above-critical", label: "Above the critical PVC", hint: "knowingly: lean, porous, crumbly paint"}}},
				{title: "What is seen and felt", inputs: []input{
					{kind: choiceInput, name: "feels", label: "It feels", options: options("", "stiff", "buttery", "soft", "flowing")},
					{kind: marksInput, name: "sign", label: "It also shows", hint: "a paste that thickened for one of these is not mended with oil", options: signs()},
				}},
				{title: "Powder at hand", folded: true, inputs: []input{
					{kind: namesInput, name: "add", label: "Correct with", list: pigmentList, beside: "parts", hint: "the paste's own powder where none is named"},
					{name: "have", label: "Powder there is to add", hint: "as in 5 g"},
					{name: "next", label: "Powder of the next batch", hint: "as much again where nothing is said"},
					{kind: nameInput, name: "stiffen-with", label: "Extender to stiffen with", list: extenderList, hint: "chalk where none is named"},
					{kind: nameInput, name: "stabilise-with", label: "Wax to reckon with", list: waxList, hint: "the paste's own, or beeswax"},
				}},
				{title: "More about the paste", folded: true, inputs: []input{
					{kind: namesInput, name: "extender", label: "Extender in it", list: extenderList, beside: "share", hint: "of the pigment mass, as in 10%"},
					{kind: namesInput, name: "wax", label: "Wax or stabiliser in it", list: waxList, beside: "share", hint: "of the paste, as in 2%"},
					{name: "moisture", label: "Water in the pigment", hint: "of the damp mass, as in 12%"},
					partsBy,
				}},
				{title: "Tubes, balance, price", folded: true, inputs: []input{
					{name: "tube", label: "Your tubes", hint: "40 ml where nothing is said"},
					{name: "fill", label: "Filling of a tube", hint: "78 % where nothing is said"},
					scaleInput, dropsInput, priceInput,
				}},
			},
		},
		{
			path: "compare", title: "Compare pigments", needs: "pigments",
			lead:   "Side by side at the same body, PVC, oil or volume; and where the order means nothing.",
			prompt: "Choose two or more pigments, or a family, and they stand here side by side.",
			start:  func() asked { return new(compareAsked) },
			groups: []group{
				{title: "Pigments", inputs: []input{{kind: namesInput, name: "pigments", label: "Pigment", list: pigmentList},
					{kind: choiceInput, name: "family", label: "Or a whole family", options: options(append(append([]string{""}, families...), "earth")...)},
				}},
				{title: "Held equal", inputs: []input{
					{kind: choiceInput, name: "at", label: "Compare at", options: []option{{"", "the same body"}, {"pvc", "the same PVC"}, {"same-oil", "the same oil per 100 g"}, {"same-volume", "one filled tube"}}},
					{kind: choiceInput, name: "body", label: "Body", options: []option{{"", "buttery"}, {"stiff", "stiff"}, {"soft", "soft"}, {"flowing", "flowing"}}},
					{name: "pvc", label: "PVC", hint: "for the same PVC, as in 40%"},
					{name: "oil-per-100g", label: "Oil per 100 g", hint: "for the same oil, as in 60g/100g"},
					{kind: nameInput, name: "oil", label: "Oil", list: oilList, hint: "linseed oil where none is named"},
				}},
				{title: "Order", inputs: []input{{kind: choiceInput, name: "sort", label: "Order by", options: orders()}}},
				{title: "Which to take", folded: true, inputs: []input{
					{kind: nameInput, name: "like", label: "Like this pigment", list: pigmentList, hint: "ranks all others by likeness to it"},
					{name: "ci", label: "Colour Index name begins", hint: "as in PR or PB15"},
					{name: "max-oil", label: "Oil absorption at most", hint: "as in 40g/100g"},
					{kind: checkInput, name: "no-listed-hazard", label: "Only without a listed hazard", hint: "one that was not assessed never passes"},
					{kind: checkInput, name: "extenders", label: "Extenders too"},
				}},
				{title: "Tubes, film, price", folded: true, inputs: []input{
					{name: "tube", label: "Tube", hint: "40 ml where nothing is said"},
					{name: "fill", label: "Filling of a tube", hint: "78 % where nothing is said"},
					{name: "film", label: "Wet film", hint: "for the cost of an area; 100 µm where nothing is said"},
					priceInput,
				}},
			},
		},
	}
}

// Inputs that several questions share.
var (
	partsBy = input{kind: choiceInput, name: "parts-by", label: "Parts of pigment are by",
		options: []option{{"", "mass"}, {"volume", "volume of the solid"}, {"spoon", "level spoons of loose powder"}}}
	scaleInput = input{name: "scale", label: "One division of your balance", hint: "0.1 g where nothing is said"}
	dropsInput = input{name: "twenty-drops", label: "Twenty drops weigh", hint: "of your oil from your dropper, as in 0.6 g"}
	priceInput = input{kind: namesInput, name: "price", label: "Price", list: anyList, beside: "price", hint: "of a gram, as in 0.12/g, in your own money"}
)

func pigmentsInput(label string) input {
	return input{kind: namesInput, name: "pigments", label: label, list: pigmentList, beside: "parts", hint: "several are a mixture, in parts"}
}

// options are fields' texts that explain themselves.
func options(texts ...string) []option {
	list := make([]option, len(texts))
	for i, t := range texts {
		list[i] = option{t, t}
		if t == "" {
			list[i].label = "not said"
		}
	}
	return list
}

func signs() []option {
	var list []option
	for _, s := range formulate.Signs() {
		list = append(list, option{string(s), string(s)})
	}
	return list
}

func orders() []option {
	list := []option{{"", "as named"}}
	for _, c := range formulate.CompareColumns() {
		label := strings.ReplaceAll(c, "-", " ")
		if l := orderWords[c]; l != "" {
			label = l
		}
		list = append(list, option{c, label})
	}
	return list
}

var orderWords = map[string]string{
	"oil": "oil per 100 g", "oil-mass": "oil by mass", "oil-volume": "oil by volume", "pvc": "PVC", "cpvc": "critical PVC",
	"reduced-pvc": "PVC over critical", "density": "density of the paint", "paint": "paint from 100 g", "tubes": "tubes from 100 g",
	"powder": "powder of a tube", "cost": "cost of a tube", "cost-area": "cost of an area",
}

// commandWords turns what a sheet says to a command line into what fits here.
var commandWords = strings.NewReplacer(
	" In full with --explain.", "",
	"Write it down with --save-paste FILE.toml and hand that file to 'mullwright layers' or 'mullwright thin'.", "Keep the figures of the paste with it.",
)
