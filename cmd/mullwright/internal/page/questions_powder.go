package page

func ruboutQuestion() *question {
	return &question{
		path: "rubout", title: "Rub-out test", needs: "pigment",
		lead:   "Your own oil absorption: how to make the test, and what it says.",
		prompt: "Choose the pigment, and how to make its test stands here.",
		start:  func() asked { return new(ruboutAsked) },
		groups: []group{
			{title: "The test", inputs: []input{
				{kind: nameInput, name: "pigment", label: "Pigment", list: pigmentList, hint: "as in prussian-blue"},
				{name: "pigment-mass", label: "Pigment of each test", hint: "as in 5 g"},
				{kind: textsInput, name: "took", label: "Oil it took", hint: "a line for each test: 2.05g, 2.2ml, 67 drops, 85.32g to 83.27g; with its own pigment as 2.05g on 5.02g"},
				{kind: nameInput, name: "oil", label: "Oil", list: oilList, hint: "linseed oil where none is named"},
				{kind: choiceInput, name: "end-point", label: "End point", options: []option{{"", "rub-out: stiff paste, rubbed"}, {"gardner-coleman", "Gardner-Coleman: soft paste, stirred"}}},
				{kind: checkInput, name: "guide", label: "Show how to make it", hint: "though there are results"},
			}},
			{title: "More about it", folded: true, inputs: []input{
				{name: "expected", label: "Oil absorption expected", hint: "as in 40g/100g, where the catalogue has none"},
				moistureInput,
				{name: "allowed", label: "How far apart tests may lie", hint: "of their mean, as in 5%"},
				{name: "scale", label: "One division of your balance", hint: "as in 0.01 g"},
				{name: "division", label: "One division of burette or syringe", hint: "as in 0.05ml"},
				dropsInput,
				newJar[0], newJar[1],
				{name: "density", label: "True density of that jar", hint: "as in 5.0g/ml"},
				{name: "lot", label: "Jar or lot", hint: "in your words"}, {name: "date", label: "When", hint: "in your words"}, {name: "remark", label: "Remark", hint: "anything else to keep with it"},
			}},
		},
	}
}

// newJar is a jar that the catalogue lacks, as its maker describes it.
var newJar = []input{
	{name: "name", label: "Or a jar the catalogue lacks", hint: "what you call it, as in Violet hematite"},
	{kind: choiceInput, name: "family", label: "Its hue", options: options(append([]string{""}, families...)...)},
}

// pigmentOfTest is the pigment a test is of, where it matters.
var pigmentOfTest = input{kind: nameInput, name: "pigment", label: "Pigment", list: pigmentList, hint: "as in yellow-ochre"}

// fine is the division of a balance for tests.
var fine = input{name: "scale", label: "One division of your balance", hint: "as in 0.01 g"}

func moistureQuestion() *question {
	return &question{
		path: "powder/moisture", title: "Moisture of a powder", needs: "damp",
		lead:   "How damp it is, and how it may be dried.",
		prompt: "Weigh a dish of powder damp and dried, and the water in it stands here.",
		start:  func() asked { return new(moistureAsked) },
		groups: []group{{title: "Weighings", inputs: []input{
			pigmentOfTest,
			{name: "dish", label: "Empty dish", hint: "nothing where the balance was tared"},
			{name: "damp", label: "Dish with the powder as it was", hint: "as in 30.13 g"},
			{kind: textsInput, name: "dried", label: "Dish with the powder dried", hint: "two that are alike show that it was dry"},
			{name: "want", label: "Dry pigment you want", hint: "how much of the damp powder to weigh"},
			fine,
		}}},
	}
}

func bulkQuestion() *question {
	return &question{
		path: "powder/bulk", title: "Bulk of a powder", needs: "full",
		lead:   "Poured and tapped density, and how it flows.",
		prompt: "Fill a vessel of known volume, and the powder’s density with its air stands here.",
		start:  func() asked { return new(bulkAsked) },
		groups: []group{{title: "Weighings", inputs: []input{
			pigmentOfTest,
			{name: "vessel", label: "Volume of the vessel", hint: "that the poured powder fills, as in 50ml"},
			{name: "empty", label: "Empty vessel", hint: "nothing where the balance was tared"},
			{name: "full", label: "Vessel with the powder poured in", hint: "as in 34.80 g"},
			{name: "tapped", label: "Volume once tapped down", hint: "as in 41ml"},
			{name: "refilled", label: "or vessel topped up after tapping", hint: "weighed"},
			fine,
			{name: "division", label: "One division of the vessel", hint: "as in 1ml"},
		}}},
	}
}

func jarQuestion() *question {
	return &question{
		path: "powder/jar", title: "A jar of powder", needs: "pigment",
		lead:   "What a volume of powder comes to: grams, paint, tubes.",
		prompt: "Choose the pigment and say how much there is, and what it comes to stands here.",
		begin:  map[string]string{"jar": "250 ml"},
		start:  func() asked { return new(jarAsked) },
		groups: []group{
			{title: "The jar", inputs: []input{
				pigmentOfTest,
				{name: "jar", label: "Powder there is", hint: "by volume, as in 250ml"},
				{name: "poured", label: "Its poured density", hint: "from the bulk test, as in 0.55g/ml"},
				{name: "tapped", label: "Its tapped density", hint: "from the bulk test"},
			}},
			{title: "The paint of it", inputs: []input{
				{kind: bodyInput, name: "body", label: "Body", usual: "as usual: buttery"},
				{kind: namesInput, name: "oil", label: "Oil", list: oilList, beside: "parts", hint: "linseed oil where none is named"},
				{name: "tube", label: "Tube", hint: "40 ml where nothing is said"}, {name: "fill", label: "Filling of a tube", hint: "78 % where nothing is said"},
				moistureInput, lossInput,
			}},
		},
	}
}

func densityQuestion() *question {
	return &question{
		path: "powder/density", title: "True density of a powder",
		lead:   "Without its air, by pyknometer or by a measuring cylinder.",
		prompt: "Give the weighings of a flask, or the rise in a cylinder, and the density stands here.",
		start:  func() asked { return new(densityAsked) },
		groups: []group{
			{title: "Powder", inputs: []input{pigmentOfTest}},
			{title: "Flask (pyknometer)", inputs: []input{
				{name: "empty", label: "Empty flask", hint: "as in 25.000 g"}, {name: "with-powder", label: "Flask with the powder", hint: "as in 35.000 g"},
				{name: "topped", label: "Topped up with liquid", hint: "as in 81.40 g"}, {name: "full", label: "Full of liquid alone", hint: "as in 74.91 g"},
				{kind: nameInput, name: "liquid", label: "Liquid", list: solventList, hint: "water where nothing is said"},
				{name: "liquid-density", label: "Its density", hint: "where you know it better"},
				temperatureInput("of the liquid, as in 22C"),
				{name: "within", label: "Temperature may be off by", hint: "as in 1 C"},
				{name: "filling", label: "How well you fill to the mark", hint: "one standard deviation, as in 0.05ml"},
			}},
			{title: "or measuring cylinder", inputs: []input{
				{name: "powder", label: "Powder put in", hint: "as in 20 g"}, {name: "before", label: "Mark before", hint: "as in 50ml"}, {name: "after", label: "Mark after", hint: "as in 57ml"},
				{name: "division", label: "One division", hint: "of the cylinder, as in 1ml"},
			}},
			{title: "Balance, a new jar", folded: true, inputs: []input{fine, newJar[0], newJar[1], {name: "oil-absorption", label: "Oil absorption of that jar", hint: "as in 22g/100g"}}},
		},
	}
}

func finenessQuestion() *question {
	return &question{
		path: "powder/fineness", title: "Fineness of a powder",
		lead:   "A grind gauge on both scales, a sieve residue, a stirred jar.",
		prompt: "Give any of the three tests, and the size stands here.",
		start:  func() asked { return new(finenessAsked) },
		groups: []group{
			{title: "Powder", inputs: []input{pigmentOfTest}},
			{title: "Grind gauge", inputs: []input{{name: "gauge", label: "Specks begin at", hint: "as in 25um"}, {name: "hegman", label: "or in Hegman", hint: "0 to 8"}}},
			{title: "Sieve", inputs: []input{{name: "sieve", label: "Opening", hint: "as in 45um, or no 325"}, {name: "sieved", label: "Powder put through", hint: "as in 20 g"}, {name: "residue", label: "Stayed on it", hint: "as in 0.12 g"}}},
			{title: "Stirred jar of water", inputs: []input{{name: "depth", label: "Cleared to a depth of", hint: "as in 10cm"}, {name: "time", label: "after", hint: "as in 20min"},
				{name: "stirred", label: "Powder in it", hint: "by mass, as in 1%"}, {name: "density", label: "True density of your powder", hint: "as in 2.7g/ml"}, temperatureInput("of the water")}},
			{title: "Balance", folded: true, inputs: []input{fine}},
		},
	}
}

func surfaceQuestion() *question {
	return &question{
		path: "powder/surface", title: "Surface of a powder", needs: "pigment",
		lead:   "From grain size, and what finer grinding adds to the oil.",
		prompt: "Choose the pigment, and its surface stands here.",
		start:  func() asked { return new(surfaceAsked) },
		groups: []group{{title: "Powder", inputs: []input{
			pigmentOfTest,
			{name: "size", label: "Grain size", hint: "as in 2um"}, {name: "surface", label: "or specific surface", hint: "as in 12m2/g"},
			{name: "density", label: "True density of your own powder", hint: "as in 2.7g/ml"},
			{kind: choiceInput, name: "shape", label: "Shape", options: []option{{"", "sphere"}, {"plate", "plate: the size is its thickness"}, {"rod", "rod: the size is its diameter"}}},
			{name: "finer", label: "Ground finer, to", hint: "as in 1um"},
		}}},
	}
}

func cakeQuestion() *question {
	return &question{
		path: "powder/cake", title: "From cake to tubes", needs: "stage",
		lead:   "What each stage kept and lost, and what to begin with next time.",
		prompt: "Give the weighings in order, and the losses stand here.",
		start:  func() asked { return new(cakeAsked) },
		groups: []group{{title: "Weighings in order", inputs: []input{
			{kind: namesInput, name: "stage", label: "Stage", beside: "weighs", hint: "as in wet cake: 120g at 62%; the share is what is not pigment"},
			{name: "want", label: "Pigment to end with next time", hint: "as in 50 g"},
		}}},
	}
}

func settleQuestion() *question {
	return &question{
		path: "settle", title: "Wash by settling", needs: "of",
		lead:   "How long to wait, what size is cut off.",
		prompt: "Choose the powder, and the waits stand here.",
		start:  func() asked { return new(settleAsked) },
		groups: []group{
			{title: "Powder", inputs: []input{{kind: nameInput, name: "of", label: "Powder", list: pigmentList, hint: "or give a density below"}, {name: "density", label: "True density of your own", hint: "as in 2.7g/ml"}}},
			{title: "The cut", inputs: []input{{kind: eitherInput, name: "cut", label: "Given", hint: "a size as in 20um, a wait as in 45s; neither for a table", options: []option{{"cut", "size to cut at"}, {"time", "wait before pouring off"}}}}},
			{title: "The vessel", inputs: []input{
				{name: "depth", label: "Depth poured off", hint: "as in 10cm"}, {name: "powder", label: "Powder in the mix", hint: "by mass, as in 2%"},
				{name: "washes", label: "Stirred and poured off", hint: "so many times"}, temperatureInput("of the water; 20 °C where nothing is said")}},
		},
	}
}

func yieldQuestion() *question {
	return &question{
		path: "yield", title: "Home-made pigment", needs: "reaction",
		lead:   "Weighings of a precipitated pigment beside what can form. A check on weighings, not a procedure.",
		prompt: "Write the balanced reaction, or one formula, and what can form stands here.",
		start:  func() asked { return new(yieldAsked) },
		groups: []group{
			{title: "The reaction", inputs: []input{
				{name: "reaction", label: "Reaction", hint: "balanced, with crystal water, as in CuSO4.5H2O + Na2CO3 -> CuCO3 + Na2SO4 + 5H2O; one formula gives its molar mass"},
				{kind: namesInput, name: "weighed", label: "Weighed in", beside: "mass", hint: "a formula and its mass, as in 8.5g, or 8.5g at 97%"},
				{name: "got", label: "Dried pigment weighs", hint: "as in 5.9 g"},
				{name: "water", label: "Bound water of the pigment", hint: "one number or a range, as in 14-16"},
				{name: "product", label: "Which product is the pigment", hint: "the first where nothing is said"},
				{kind: nameInput, name: "pigment", label: "The catalogue calls it", list: pigmentList, hint: "for the next step"},
			}},
			{title: "Rinsing", folded: true, inputs: []input{
				{name: "rinses", label: "Rinsed", hint: "so many times"}, {name: "rinse-water", label: "Water of one rinse", hint: "as in 500ml"},
				{name: "held", label: "Liquid left each time", hint: "as in 60ml"}, {name: "salts-left", label: "Salts that may stay", hint: "as in 0.1%"}, fine,
			}},
		},
	}
}
