package page

import (
	"strings"

	"mullwright/formulate"
)

// questions lists the pages in the order of the bench: what is made, what is
// looked up, what is the maker's own.
func questions() []*question {
	return []*question{
		mullQuestion(), correctQuestion(), thinQuestion(), layersQuestion(), recipeQuestion(), labelQuestion(),
		watercolourQuestion(), inkQuestion(), solutionQuestion(),
		compareQuestion(), swatchQuestion(),
		ruboutQuestion(), moistureQuestion(), bulkQuestion(), jarQuestion(), densityQuestion(), finenessQuestion(), surfaceQuestion(), cakeQuestion(),
		settleQuestion(), yieldQuestion(),
	}
}

// Inputs that several questions share.
var (
	extenderInput = input{kind: namesInput, name: "extender", label: "Extender", list: extenderList, beside: "share", hint: "of the pigment mass, as in 10%"}
	waxInput      = input{kind: namesInput, name: "wax", label: "Wax or stabiliser", list: waxList, beside: "share", hint: "of the paste, as in 2%"}
	lossInput     = input{name: "loss", label: "Lost on slab and knife", hint: "of what is made, as in 7%"}
	aboveCritical = input{kind: checkInput, name: "above-critical", label: "Above the critical PVC", hint: "knowingly: lean, porous, crumbly paint"}
	moistureInput = input{name: "moisture", label: "Water in the pigment", hint: "of the damp mass, as in 12%"}
	perMullInput  = input{name: "per-mull", label: "Paint of one mull", hint: "as in 20 ml; by the size of the slab where nothing is said"}
	partsBy       = input{kind: choiceInput, name: "parts-by", label: "Parts of pigment are by",
		options: []option{{"", "mass"}, {"volume", "volume of the solid"}, {"spoon", "level spoons of loose powder"}}}
	scaleInput = input{name: "scale", label: "One division of your balance", hint: "0.1 g where nothing is said"}
	dropsInput = input{name: "twenty-drops", label: "Twenty drops weigh", hint: "of your oil from your dropper, as in 0.6 g"}
	priceInput = input{kind: namesInput, name: "price", label: "Price", list: anyList, beside: "price", hint: "of a gram, as in 0.12/g, in your own money"}
)

func temperatureInput(hint string) input {
	return input{name: "temperature", label: "Temperature", hint: hint}
}

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
		label := spaced(c)
		if l := orderWords[c]; l != "" {
			label = l
		}
		list = append(list, option{c, label})
	}
	return list
}

// spaced writes a key as words.
func spaced(key string) string { return strings.ReplaceAll(key, "-", " ") }

var orderWords = map[string]string{
	"oil": "oil per 100 g", "oil-mass": "oil by mass", "oil-volume": "oil by volume", "pvc": "PVC", "cpvc": "critical PVC",
	"reduced-pvc": "PVC over critical", "density": "density of the paint", "paint": "paint from 100 g", "tubes": "tubes from 100 g",
	"powder": "powder of a tube", "cost": "cost of a tube", "cost-area": "cost of an area",
}
