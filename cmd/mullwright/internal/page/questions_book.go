package page

import "fmt"

// batchQuestion is the form of a batch or a rub-out. Its prompt is the word on
// its button.
func batchQuestion() *question {
	return &question{
		path: "book/add", title: "Write a batch down", needs: "pigments", prompt: "Write it into the book",
		lead:  "The final weights, not the planned ones. An entry is never changed or taken out here.",
		start: func() asked { return new(batchAsked) },
		groups: []group{
			{title: "What went in", inputs: []input{
				{kind: namesInput, name: "pigments", label: "Pigment", list: pigmentList, beside: "mass", hint: "as weighed, as in 60 g"},
				{kind: namesInput, name: "oil", label: "Oil", list: oilList, beside: "mass", hint: "all pours together, as in 48.3 g or 31 ml"},
				{kind: namesInput, name: "extender", label: "Extender", list: extenderList, beside: "mass", hint: "where there was any"},
				{kind: namesInput, name: "wax", label: "Wax or stabiliser", list: waxList, beside: "mass", hint: "where there was any"},
			}},
			{title: "What came of it", inputs: []input{
				{kind: bodyInput, name: "body", label: "Body it reached", usual: "not judged", hint: "as you judged it; a batch whose body is named teaches the next one"},
				{name: "loss", label: "Left on slab and knife", hint: "by mass, or as a share of what was made"},
				{name: "drying", label: "Drying seen", hint: "in your words"},
			}},
			{title: "Which and when", inputs: []input{
				{kind: textsInput, name: "lot", label: "Jar or lot", hint: "in your words; NAME=LOT where there are several pigments"},
				{name: "date", label: "When", hint: "in your words"},
				{name: "remark", label: "Remark", hint: "anything else"},
				{name: "moisture", label: "Water in the pigment", hint: "of the damp mass, as in 5%"},
				{kind: checkInput, name: "sure", label: "Sure of it", hint: "it is right, however far it lies from all that is known of the pigment"},
			}},
			{title: "Or a rub-out", folded: true, hint: "Of one pigment, without its mass, instead of a batch.", inputs: []input{
				{name: "rubout", label: "Oil absorption", hint: "as in 43.5g/100g or 46.8ml/100g"},
				{name: "tests", label: "Mean of so many tests", hint: "one where nothing is said"},
				{name: "scatter", label: "Scatter among them", hint: "standard deviation, of their mean, as in 1.5%"},
				{kind: choiceInput, name: "end-point", label: "End point", options: []option{{"", "rub-out"}, {"gardner-coleman", "Gardner-Coleman"}}},
			}},
		},
	}
}

func stockQuestion() *question {
	return &question{
		path: "book/stock", title: "What is on hand", needs: "counted", prompt: "Write the count down",
		lead:  "Count a jar once; each batch then goes off it, and a card says what runs short.",
		start: func() asked { return new(stockAsked) },
		groups: []group{{title: "A count", inputs: []input{
			{kind: namesInput, name: "counted", label: "There is now", list: anyList, beside: "amount", hint: "as in 250 g or 1 l; none where a jar is empty"},
			{kind: namesInput, name: "bought", label: "Came in since", list: anyList, beside: "amount", hint: "is added to the count"},
			priceInput,
			{name: "date", label: "When", hint: "in your words"}, {name: "remark", label: "Remark", hint: "anything else"},
		}}},
	}
}

func repeatQuestion(number int) *question {
	return &question{
		path: fmt.Sprintf("book/%d/repeat", number), title: fmt.Sprintf("Repeat batch %d", number), noCommand: true,
		lead:  "An old batch at a new amount, from the weights that were final then.",
		begin: map[string]string{"paint-volume": "40 ml"},
		start: func() asked { return &repeatAsked{number: number} },
		groups: []group{
			{title: "Amount", inputs: []input{{kind: eitherInput, name: "amount", label: "How much", slide: true, hint: "with its unit; tubes as in 3x40ml", options: []option{
				{"paint-volume", "of paint, by volume"}, {"paint-mass", "of paint, by mass"}, {"tubes", "tubes to fill"}, {"pigment-mass", "of pigment there is"}, {"oil-mass", "of oil to use up"}}}}},
			{title: "Tubes and balance", folded: true, inputs: []input{{name: "fill", label: "Filling of a tube", hint: "78 % where nothing is said"}, scaleInput, dropsInput}},
		},
	}
}
