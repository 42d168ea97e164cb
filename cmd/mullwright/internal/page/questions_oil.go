package page

import "mullwright/cmd/mullwright/internal/ask"

func mullQuestion() *question {
	return &question{
		path: "mull", title: "Mull oil paint", needs: "pigments", paper: "Card to print",
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
				aboveCritical}},
			{title: "Oil", inputs: []input{{kind: namesInput, name: "oil", label: "Oil", list: oilList, beside: "parts", hint: "linseed oil where none is named; several are a blend, in parts by mass"}}},
			{title: "Extender, wax, damp powder", folded: true, inputs: []input{
				extenderInput,
				waxInput,
				moistureInput,
				partsBy,
			}},
			{title: "Slab, tubes, balance, price", folded: true, inputs: []input{
				{name: "slab", label: "Slab", hint: "as in 30x40cm: how many mulls it takes"},
				perMullInput,
				{name: "fill", label: "Filling of a tube", hint: "78 % where nothing is said; the rest is for the crimp"},
				lossInput,
				{name: "have", label: "More pigment there is", hint: "beyond this batch: how much oil it could still mend"},
				scaleInput, dropsInput, priceInput,
			}},
		},
	}
}

func correctQuestion() *question {
	return &question{
		path: "correct", title: "Correct a paste", needs: "pigments",
		lead:   "Too much oil, or too little: every way out, with its steps.",
		prompt: "Say what is in the paste and how much, and the ways out stand here.",
		start:  func() asked { return new(correctAsked) },
		groups: []group{
			{title: "The paste", inputs: []input{
				{kind: choiceInput, name: "in", label: "It is bound in", options: []option{{"", "oil"}, {"gum", "gum"}}},
				pigmentsInput("Pigment in it"),
				{kind: namesInput, name: "oil", label: "Oil in it", list: oilList, beside: "parts", hint: "linseed oil where none is named"},
			}},
			{title: "How much is in it", hint: "Two of these, weighed as well as you can.", inputs: []input{
				{name: "pigment-mass", label: "Pigment", hint: "as weighed, as in 20 g"},
				{kind: eitherInput, name: "measure", label: "Oil", hint: "as in 14 g, 12 ml, 2 tsp; drops as a count; a filled measure as in 5ml=6.8g", options: []option{
					{"oil-mass", "oil, weighed"}, {"oil-volume", "oil, by volume or spoon"}, {"oil-drops", "drops of oil"},
					{"filled", "a filled measure of the paste"}, {"paste-density", "density of the paste"}}},
				{name: "paste-mass", label: "The whole paste", hint: "weighed, where the oil is not known"},
			}, more: []input{
				{name: "air", label: "Air in a filled measure", hint: "by volume, as in 2% or 0-3%"},
				{name: "wept", label: "Oil that ran out since", hint: "weighed, as in 1.5 g"},
			}},
			{title: "In gum", folded: true, inputs: []input{
				{kind: namesInput, name: "poured", label: "In it beside pigment", list: anyList, beside: "mass", hint: "as in gum-arabic-solution, 14 g"},
				{kind: choiceInput, name: "symptom", label: "What is wrong", options: symptoms()},
			}},
			{title: "Where it should be", inputs: []input{{kind: bodyInput, name: "body", label: "Body wanted", lean: true, usual: "as usual: tube colour", hint: "buttery where nothing is said"},
				aboveCritical}},
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
				moistureInput,
				partsBy,
			}},
			{title: "Tubes, balance, price", folded: true, inputs: []input{
				{name: "tube", label: "Your tubes", hint: "40 ml where nothing is said"},
				{name: "fill", label: "Filling of a tube", hint: "78 % where nothing is said"},
				scaleInput, dropsInput, priceInput,
			}},
		},
		leaveOut: []string{"from", "over-drops", "over-mass"}, // they go with a file
	}
}

func compareQuestion() *question {
	return &question{
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
	}
}

func thinQuestion() *question {
	return &question{
		path: "thin", title: "Thin a paint", needs: "pigments",
		lead:   "Glazes and thinned paint: what to take, the film it dries to, its flow, its vapour.",
		prompt: "Say what the paint is and what goes into it, and the answer stands here.",
		start:  func() asked { return new(thinAsked) },
		groups: []group{
			{title: "The paint", inputs: []input{
				pigmentsInput("Pigment"),
				{kind: bodyInput, name: "body", label: "Body of the paint", lean: true, usual: "as usual: tube colour", hint: "before it is thinned"},
				{kind: namesInput, name: "oil", label: "Oil in it", list: oilList, beside: "parts", hint: "linseed oil where none is named"},
			}},
			{title: "What goes in", inputs: []input{
				{kind: namesInput, name: "medium", label: "Medium", list: mediumList, beside: "parts", hint: "oil, varnish or medium; several are a blend"},
				{kind: namesInput, name: "solvent", label: "Solvent", list: solventList, beside: "parts", hint: "several are a blend"},
			}},
			{title: "How far", hint: "One of these.", inputs: []input{
				{name: "parts", label: "Parts", hint: "paint:medium:solvent, as in 1:1:2; of two where one thing goes in, as in 1:1"},
				{name: "relative-body", label: "Body that is left", hint: "of the paint’s own, as in 50%"},
				{name: "solvent-share", label: "Share of solvent", hint: "of the whole, as in 30%"},
				{name: "pigment-per-area", label: "Pigment on an area", hint: "as in 5g/m2, at a wet film"},
				{name: "mix", label: "Medium to solvent", hint: "where body or pigment sets how much of both; 1:1 where nothing is said"},
				{kind: choiceInput, name: "by", label: "Parts are by", options: []option{{"", "volume"}, {"mass", "mass"}}},
			}},
			{title: "How much", inputs: []input{
				{kind: eitherInput, name: "amount", label: "Amount", hint: "10 ml of the paint where nothing is said", options: []option{
					{"paint-volume", "of paint, by volume"}, {"paint-mass", "of paint, by mass"}, {"pigment-mass", "of pigment in it"}, {"oil-mass", "of oil in it"}, {"tubes", "tubes of paint"},
					{"glaze-volume", "thinned, by volume"}, {"glaze-mass", "thinned, by mass"}, {"area", "area to cover"}}},
				{name: "wet-film", label: "Wet film", hint: "as in 25um"},
				{name: "absorbed", label: "Binder the ground takes", hint: "as in 5g/m2; 0g/m2 for a sealed ground"},
			}},
			{title: "The room", hint: "What a solvent does to its air.", inputs: []input{
				{name: "room", label: "Room", hint: "as in 30m3"},
				{name: "air-changes", label: "Air renewed", hint: "as in 2/h; 0.5/h, a closed room, where nothing is said"},
				{kind: choiceInput, name: "release", label: "The solvent leaves", options: []option{{"", "as usual"}, {"at-once", "at once"}, {"evenly", "evenly"}, {"fast-first", "fast at first"}}},
				{name: "over", label: "Over", hint: "as in 4h"},
				temperatureInput("of paint and room; 20 °C where nothing is said"),
			}},
			{title: "More about the paint", folded: true, inputs: []input{
				extenderInput, waxInput, moistureInput, partsBy, aboveCritical, lossInput, scaleInput, dropsInput, priceInput,
			}},
		},
		leaveOut: []string{"formula", "slab", "per-mull", "fill", "have"}, // a file, and what it may say of the mull
	}
}

// layersShown is how many layers the page takes.
const layersShown = 8

func layersQuestion() *question {
	q := &question{
		path: "layers", title: "Check layers", needs: "layer-1.pigments", noCommand: true,
		lead:   "Fat over lean, drying, thickness, binding: the first layer at fault and the smallest change that mends it.",
		prompt: "Describe the layers from the ground up, and the verdict stands here.",
		start:  func() asked { return new(layersAsked) },
		groups: []group{{title: "The painting", inputs: []input{{name: "painting", label: "Name", hint: "what you call it"}}}},
	}
	for i := range layersShown {
		at := layerPrefix(i)
		name := func(s string) string { return at + s }
		q.groups = append(q.groups, group{title: layerTitle(i), folded: i > 1, inputs: []input{
			{name: name("name"), label: "Called", hint: "as in umber drawing"},
			{kind: namesInput, name: name("pigments"), label: "Pigment", list: pigmentList, beside: "parts", hint: "several are a mixture, in parts"},
			{kind: namesInput, name: name("oil"), label: "Oil", list: oilList, beside: "parts", hint: "linseed oil where none is named"},
			{kind: choiceInput, name: name("body"), label: "Body of the paint", options: []option{{"", "buttery"}, {"stiff", "stiff"}, {"soft", "soft"}, {"flowing", "flowing"}}},
			{kind: namesInput, name: name("medium"), label: "Medium", list: mediumList, beside: "parts", hint: "what it is thinned with"},
			{kind: namesInput, name: name("solvent"), label: "Solvent", list: solventList, beside: "parts"},
			{name: name("parts"), label: "Parts", hint: "paint:medium:solvent, as in 1:1:2"},
			{kind: choiceInput, name: name("by"), label: "Parts are by", options: []option{{"", "volume"}, {"mass", "mass"}}},
			{name: name("wet-film"), label: "Wet film", hint: "as in 60um"},
			{name: name("dried"), label: "Dries before the next", hint: "as in 7 d"},
		}, more: []input{
			{name: name("pvc"), label: "PVC of the paint", hint: "instead of its body, as in 45%"},
			{name: name("reduced-pvc"), label: "or its PVC over critical", hint: "as in 0.8"},
			{name: name("relative-body"), label: "Body left of it", hint: "instead of parts, as in 50%"},
			{name: name("solvent-share"), label: "Share of solvent", hint: "instead of parts, as in 30%"},
			{name: name("pigment-per-area"), label: "Pigment on an area", hint: "as in 5g/m2"},
			{name: name("mix"), label: "Medium to solvent", hint: "as in 1:1"},
			{name: name("absorbed"), label: "Binder the ground takes", hint: "of the lowest layer, as in 5g/m2"},
			{kind: namesInput, name: name("extender"), label: "Extender", list: extenderList, beside: "share", hint: "of the pigment mass, as in 10%"},
			{kind: namesInput, name: name("wax"), label: "Wax", list: waxList, beside: "share", hint: "of the paste, as in 2%"},
			{name: name("moisture"), label: "Water in the pigment", hint: "of the damp mass, as in 12%"},
			{kind: choiceInput, name: name("parts-by"), label: "Parts of pigment are by", options: partsBy.options},
			{kind: checkInput, name: name("above-critical"), label: "Above the critical PVC", hint: "knowingly"},
		}})
		q.leaveOut = append(q.leaveOut, name("formula"), name("per-mull"))
	}
	return q
}

func recipeQuestion() *question {
	return &question{
		path: "recipe", title: "Read a recipe", needs: "recipe", noCommand: true,
		lead:   "What a recipe truly holds, by weight and by volume, and whether its percentages are right.",
		prompt: "Write or paste a recipe, and its true composition stands here.",
		start:  func() asked { return new(recipeAsked) },
		groups: []group{{title: "Recipe", inputs: []input{{kind: areaInput, name: "recipe", label: "Recipe", hint: "a line for each: an amount, a unit and a material. Lines may also say parts by volume, part = 10 g, says 2 % beeswax, makes 75 ml."}}}},
	}
}

func labelQuestion() *question {
	return &question{
		path: "label", title: "Labels", needs: "pigments", paper: "Labels to print",
		lead:   "For tubes, pans and bottles, at true size, with the hazards the catalogue has.",
		prompt: "Choose what is in the paint, and what its label should say stands here.",
		start:  func() asked { return new(labelAsked) },
		groups: []group{
			{title: "The paint", inputs: []input{
				{kind: namesInput, name: "pigments", label: "Pigment", list: pigmentList},
				{kind: namesInput, name: "binder", label: "Bound in", list: anyList, hint: "as in linseed-oil or gum-arabic"},
				{kind: namesInput, name: "with", label: "Also in it", list: anyList, hint: "extender, wax, honey, preservative"},
				{name: "name", label: "Name of the paint", hint: "its pigments’ where nothing is said"},
				{kind: checkInput, name: "each", label: "Each pigment is a paint of its own", hint: "in the same binder"},
			}},
			{title: "The label", inputs: []input{
				{kind: choiceInput, name: "on", label: "It goes on", options: []option{{"", "a tube"}, {"pan", "a pan"}, {"bottle", "a bottle"}}},
				{name: "size", label: "Size", hint: "width x height, as in 60x32mm"},
				{name: "copies", label: "Copies of each", hint: "one where nothing is said"},
				{name: "batch", label: "Batch", hint: "to print as given"}, {name: "date", label: "Date", hint: "to print as given"}, {name: "maker", label: "Maker", hint: "to print as given"},
				{kind: choiceInput, name: "page", label: "Sheet of paper", options: []option{{"", "A4"}, {"Letter", "Letter"}}},
			}},
		},
	}
}

func swatchQuestion() *question {
	return &question{
		path: "swatch", title: "Colour chips", needs: "pigments",
		lead:   "What pigments look like, from measured colour, with its error.",
		prompt: "Choose one or more pigments, and their chips stand here.",
		start:  func() asked { return new(swatchAsked) },
		groups: []group{{title: "Pigment", inputs: []input{
			{kind: namesInput, name: "pigments", label: "Pigment", list: pigmentList},
			{kind: checkInput, name: "tints", label: "Let down with white", hint: "where its paint was measured so"},
			{kind: checkInput, name: "glazes", label: "Glazed over grounds", hint: "where a film of it was read over several"},
		}}},
	}
}
