package page

import (
	"mullwright/formulate"
)

func watercolourQuestion() *question {
	return &question{
		path: "watercolour", title: "Watercolour", needs: "pigments", paper: "Card to print",
		lead:   "Pigment in gum: binder, humectant, water, pans and pours.",
		prompt: "Choose a pigment and its card stands here.",
		begin:  map[string]string{"pans": "12xhalf"},
		head:   []string{"1 begin with", "3 stop at", "wet paint"},
		start:  func() asked { return new(watercolourAsked) },
		groups: []group{
			{title: "Pigment", inputs: []input{pigmentsInput("Pigment")}},
			{title: "Amount", inputs: []input{{kind: eitherInput, name: "amount", label: "How much", hint: "pans as in 12xhalf, 6xfull or 10x1.8ml; tubes as in 5x5ml; otherwise with a unit", options: []option{
				{"pans", "pans to fill"}, {"tubes", "tubes to fill"}, {"paint-volume", "of wet paint, by volume"}, {"paint-mass", "of wet paint, by mass"}, {"pigment-mass", "of pigment there is"}}}}},
			{title: "Body when wet", inputs: []input{{kind: bodyInput, name: "body", label: "Body when wet", usual: "as usual: flowing for pans, soft for tubes"}}},
			{title: "Binder", inputs: []input{
				{kind: nameInput, name: "gum", label: "Gum", list: gumList, hint: "gum arabic where nothing is said; or a made-up binder"},
				{name: "strength", label: "Strength of your solution", hint: "gum to water by mass, as in 1:2, a share as in 33%, or powder"},
				{kind: namesInput, name: "humectant", label: "Humectant", list: humectList, beside: "ratio", hint: "to the gum by mass, as in 0.5; none for none"},
				{kind: choiceInput, name: "air", label: "It will live in air that is", options: []option{{"", "ordinary"}, {"dry", "dry"}, {"damp", "damp"}}},
			}},
			{title: "What is wrong with the last batch", inputs: []input{{kind: choiceInput, name: "symptom", label: "Symptom", options: symptoms()}}},
			{title: "How much gum", folded: true, hint: "One of these, instead of the demand scaled from oil absorption.", inputs: []input{
				{name: "pvc", label: "PVC when dry", hint: "as in 55%"},
				{name: "powder-to-binder", label: "Powder to binder", hint: "loose, by volume, as in 1:1"},
				{kind: namesInput, name: "spoon", label: "Your level spoon", list: pigmentList, beside: "weighs", hint: "of a loose powder, as in 2.1g/5ml"},
			}},
			{title: "Wetting agent, preservative, damp powder", folded: true, inputs: []input{
				{kind: namesInput, name: "wetting", label: "Wetting agent", list: wettingList, beside: "share", hint: "of the paint, as in 1%; none for none", single: true},
				{kind: namesInput, name: "preservative", label: "Preservative", list: keepList, beside: "share", hint: "of the paint, as in 0.5%; none for none", single: true},
				moistureInput, partsBy,
			}},
			{title: "Slab, pans, balance, price", folded: true, inputs: []input{
				{name: "fill", label: "Filling", hint: "of a pan when dry, of a tube when wet, as in 85%"},
				{name: "pour", label: "Largest pour", hint: "of the pan, as in 33%"},
				{name: "slab", label: "Slab", hint: "as in 30x40cm: how many mulls it takes"},
				perMullInput,
				lossInput, scaleInput, priceInput,
			}},
		},
	}
}

func inkQuestion() *question {
	return &question{
		path: "ink", title: "Ink", needs: "pigments", paper: "Card to print",
		lead:   "Pigment ink in gum, shellac or oil: weights, flow, settling, the line.",
		prompt: "Choose a pigment and its card stands here.",
		begin:  map[string]string{"bottle": "30ml"},
		start:  func() asked { return new(inkAsked) },
		groups: []group{
			{title: "Pigment", inputs: []input{pigmentsInput("Pigment")}},
			{title: "Amount", inputs: []input{{kind: eitherInput, name: "amount", label: "How much", hint: "a bottle as in 30ml or 2x30ml; otherwise with a unit", options: []option{
				{"bottle", "bottle to fill"}, {"ink-volume", "of ink, by volume"}, {"ink-mass", "of ink, by mass"}, {"pigment-mass", "of pigment there is"}}}}},
			{title: "What it is for", inputs: []input{
				{kind: choiceInput, name: "for", label: "Tool", options: uses()},
				{kind: choiceInput, name: "vehicle", label: "Vehicle", options: []option{{"", "as usual for the tool"}, {"gum", "gum"}, {"shellac", "shellac in borax water"}, {"oil", "oil"}}},
			}},
			{title: "In gum or shellac", inputs: []input{
				{kind: nameInput, name: "gum", label: "Gum", list: gumList, hint: "gum arabic where nothing is said; or a made-up solution"},
				{name: "strength", label: "Strength of your solution", hint: "gum to water by mass, as in 1:2, a share as in 33%, or powder"},
				{kind: checkInput, name: "undiluted", label: "All liquid is that solution", hint: "as in some published inks"},
				{kind: namesInput, name: "humectant", label: "Humectant", list: humectList, beside: "ratio", hint: "to the gum by mass; none for none"},
			}},
			{title: "In oil", folded: true, inputs: []input{
				{kind: namesInput, name: "oil", label: "Oil", list: oilList, beside: "parts", hint: "linseed oil where none is named"},
				{kind: bodyInput, name: "body", label: "Body", usual: "as usual for block printing"},
			}},
			{title: "How much pigment and gum", folded: true, inputs: []input{
				{name: "pigment-volume", label: "Pigment by volume", hint: "of the ink, as in 6%"},
				{name: "pigment-share", label: "or by mass", hint: "of the ink, as in 23%"},
				{name: "pvc", label: "PVC when dry", hint: "instead of the demand scaled from oil absorption"},
			}},
			{title: "Wetting agent, preservative, damp powder", folded: true, inputs: []input{
				{kind: namesInput, name: "wetting", label: "Wetting agent", list: wettingList, beside: "share", hint: "of the ink; none for none", single: true},
				{kind: namesInput, name: "preservative", label: "Preservative", list: keepList, beside: "share", hint: "of the ink; none for none", single: true},
				moistureInput, partsBy,
			}},
			{title: "Grain, pen, bottle, balance", folded: true, inputs: []input{
				{name: "grain", label: "Grain after mulling", hint: "clumps included, as in 2um or 1-5um"},
				{name: "slit", label: "Narrowest passage of the pen", hint: "as in 60um"},
				{name: "line-width", label: "Width of a line", hint: "as in 0.5mm"},
				{name: "wet-film", label: "Wet film on the paper", hint: "as in 25um"},
				{name: "height", label: "Height of ink in the bottle", hint: "as in 4cm"},
				{name: "fill", label: "Filling of a bottle", hint: "as in 90%"},
				temperatureInput("of the ink; 20 °C where nothing is said"),
				lossInput, scaleInput, priceInput,
			}},
		},
	}
}

func solutionQuestion() *question {
	return &question{
		path: "solution", title: "Stock solution", needs: "of",
		lead:   "Gum in water, or any made-up medium, weighed out for an amount.",
		prompt: "Say what is to be dissolved, and the weights stand here.",
		begin:  map[string]string{"amount": "200 ml"},
		start:  func() asked { return new(solutionAsked) },
		groups: []group{{title: "The solution", inputs: []input{
			{kind: nameInput, name: "of", label: "Of", list: gumList, hint: "gum, resin or a made-up medium, as in gum-arabic"},
			{name: "amount", label: "How much", hint: "as in 200 ml or 150 g"},
			{name: "strength", label: "Strength", hint: "gum to water by mass, as in 1:2, or gum by mass as in 33%"},
			{kind: namesInput, name: "humectant", label: "Humectant", list: humectList, beside: "ratio", hint: "to the gum by mass, as in 0.5"},
			{kind: namesInput, name: "preservative", label: "Preservative", list: keepList, beside: "share", hint: "of the whole, as in 0.5%", single: true},
			temperatureInput("for the viscosity; 20 °C where nothing is said"),
			scaleInput,
		}}},
	}
}

func symptoms() []option {
	list := []option{{"", "none"}}
	for _, s := range formulate.Symptoms() {
		list = append(list, option{s.ID, s.Text})
	}
	return list
}

func uses() []option {
	list := []option{{"", "dip pen"}}
	for _, u := range formulate.InkUses() {
		if u != formulate.DipPen {
			list = append(list, option{string(u), spaced(string(u))})
		}
	}
	return list
}
