package ask

import (
	"strings"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/chemistry"
	"mullwright/formulate/quantity"
)

func TestSieveNumber(t *testing.T) {
	for text, want := range map[string]int{"no 325": 325, "No. 325": 325, "no325": 325, "325 mesh": 325, "200mesh": 200} {
		if n, ok := sieveNumber(text); !ok || n != want {
			t.Errorf("%q: %d, %v; want %d", text, n, ok, want)
		}
	}
	for _, text := range []string{"45um", "no", "mesh", "no x", "325"} {
		if n, ok := sieveNumber(text); ok {
			t.Errorf("%q was read as no. %d", text, n)
		}
	}
}

func TestBoundWater(t *testing.T) {
	for text, want := range map[string]chemistry.Span[quantity.Ratio]{
		"3": {Low: 3, High: 3}, "14-16": {Low: 14, High: 16}, "14–16": {Low: 14, High: 16}, "0 - 0.5": {Low: 0, High: 0.5},
	} {
		if got, err := boundWater(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "16-14", "x", "14-", "-3", "1e999"} {
		if got, err := boundWater(text); err == nil {
			t.Errorf("%q was read as %v", text, got)
		}
	}
}

func TestWeighedIn(t *testing.T) {
	for text, want := range map[string]chemistry.Weighed{
		"FeCl3=8g":                   {Substance: "FeCl3", Mass: 8, Purity: 1},
		"FeCl3·6H2O = 8.5 g at 97 %": {Substance: "FeCl3·6H2O", Mass: 8.5, Purity: 0.97},
	} {
		if got, err := weighedIn(text); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{"FeCl3": "mass is missing", "FeCl3=8": "unit is missing", "FeCl3=8g at 97": "unit is missing", "=8g": "want NAME", "FeCl3=8ml": "unit of volume"} {
		if _, err := weighedIn(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v, want one about %q", text, err, want)
		}
	}
}

// A reaction is told from a formula alone by its arrow or its sum.
func TestYieldFormula(t *testing.T) {
	for text, alone := range map[string]bool{
		"CaSO4·2H2O": true, "Fe4[Fe(CN)6]3.14-16H2O": true, "2PbCO3·Pb(OH)2": true, "Xx": true,
		"A -> B": false, "A = B": false, "A + B": false, "A → B": false,
	} {
		q := Yield{Reaction: []string{text}}
		if _, got, _ := q.Formula(); got != alone {
			t.Errorf("%q: taken as a formula alone: %v", text, got)
		}
	}
	// Unquoted, the shell hands a reaction over in pieces.
	q := Yield{Reaction: []string{"CdCl2", "+", "Na2S", "->", "CdS", "+", "2", "NaCl"}, Weighed: []string{"CdCl2=1g"}}
	req, err := q.Request(workshop(t))
	if err != nil || req.Product != "CdS" || len(req.Reaction.Reactants) != 2 {
		t.Errorf("%+v, %v", req, err)
	}
}

// Vessels are taken off, and no dust of binary fractions is left.
func TestPowderVessels(t *testing.T) {
	q := PowderBulk{Vessel: "50ml", Empty: "12.3g", Full: "34.8g", Refilled: "42.3g"}
	req, err := q.Request(nil)
	if err != nil || req.Powder != 22.5 || req.Refilled != 30 || req.Volume != 50 {
		t.Errorf("%+v, %v", req, err)
	}
	none := PowderFineness{Sieve: "45um", Sieved: "20g", Residue: "0 g"}
	fine, err := none.Request(nil, formulate.Sampling{})
	if err != nil || fine.Sieve.Residue != 0 || fine.Sieve.Opening != 45 {
		t.Errorf("%+v, %v", fine.Sieve, err)
	}
}

func TestPowderCakeStages(t *testing.T) {
	q := PowderCake{Stages: []string{"wet cake=120g at 62%", "dried = 44 g"}, Want: "50g"}
	req, err := q.Request()
	want := []formulate.CakeStage{{Name: "wet cake", Mass: 120, Other: 0.62}, {Name: "dried", Mass: 44}}
	if err != nil || len(req.Stages) != 2 || req.Stages[0] != want[0] || req.Stages[1] != want[1] || req.Want != 50 {
		t.Errorf("%+v, %v", req, err)
	}
}
