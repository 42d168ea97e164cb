package absorption

import (
	"strconv"
	"strings"

	"mullwright/formulate/material"
)

// A Family is the kind of pigment, as far as it bears on how far artists'
// demand departs from oil absorption.
type Family string

const (
	White     Family = "white"      // ground lean, so that it yellows little
	Extender  Family = "extender"   // barytes, chalk, clay and the like
	Earth     Family = "earth"      // natural, with clay and combined water
	IronOxide Family = "iron-oxide" // synthetic
	Mineral   Family = "mineral"    // other inorganic colours
	Organic   Family = "organic"    // lakes and synthetic organics
	Black     Family = "black"      // carbon in any form
	Other     Family = ""           // not known: the spread between families counts
)

// FamilyOf tells a pigment's family from its kind and its Colour Index name and
// constitution number: below 77000 organic, 77265 to 77268 carbon, 77491, 77492
// and 77499 the iron oxides, natural under the names listed here.
func FamilyOf(m *material.Material) Family {
	if m.Kind == material.Extender {
		return Extender
	}
	number := constitution(m.CINumber)
	name := strings.ToUpper(m.CIName)
	switch {
	case number == 0 && name == "":
		return Other
	case number >= 77265 && number <= 77268 || strings.HasPrefix(name, "PBK6") || strings.HasPrefix(name, "PBK7") ||
		strings.HasPrefix(name, "PBK8") || strings.HasPrefix(name, "PBK9") || name == "PBK10":
		return Black
	case strings.HasPrefix(name, "PW"):
		return White
	case natural(name):
		return Earth
	case number == 77491 || number == 77492 || number == 77499:
		return IronOxide
	case number != 0 && number < 77000 || strings.HasPrefix(name, "N"):
		return Organic
	case number == 0:
		return Other
	}
	return Mineral
}

// natural reports the Colour Index names of the coloured earths.
func natural(name string) bool {
	for _, earth := range []string{"PBR7", "PBR8", "NBR8", "PY43", "PR102", "PG23"} {
		if name == earth {
			return true
		}
	}
	return false
}

// constitution reads the leading number of a Colour Index constitution number,
// 0 if there is none.
func constitution(text string) int {
	end := strings.IndexFunc(text, func(r rune) bool { return r < '0' || r > '9' })
	if end < 0 {
		end = len(text)
	}
	n, err := strconv.Atoi(text[:end])
	if err != nil {
		return 0
	}
	return n
}
