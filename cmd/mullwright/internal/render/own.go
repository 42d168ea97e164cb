package render

import (
	"fmt"
	"strings"

	"mullwright/formulate/material"
)

// testsKey begins the key of tests of the maker's own: a source like any other,
// but for where it is named.
const testsKey = "own tests of "

// testKeys are the keys of the maker's own tests that the figures of a material
// rest on, none where they rest on what is published alone.
func testKeys(m *material.Material) []string {
	if m.Tests == "" {
		return nil
	}
	return []string{testsKey + m.ID + ": " + m.Tests}
}

// own is what the maker's own tests of one material are.
type own struct{ of, what string }

// ownTests parts the keys of the maker's own tests from those of publications.
func ownTests(keys []string) (tests []own, published []string) {
	for _, k := range keys {
		if rest, ok := strings.CutPrefix(k, testsKey); ok {
			of, what, _ := strings.Cut(rest, ": ")
			tests = append(tests, own{of, what})
			continue
		}
		published = append(published, k)
	}
	return tests, published
}

// addSources ends a sheet with its sources. What it owes to the maker's own
// tests stands in the lead, of every answer alike.
func (s *Sheet) addSources(keys []string, cite Cite, explain bool) {
	tests, published := ownTests(keys)
	s.leadWith(tests)
	if len(published) > 0 {
		s.Add(cardSources(published, cite, explain))
	}
}

// mostTested pigments are named with their tests in a lead.
const mostTested = 3

func (s *Sheet) leadWith(tests []own) {
	if len(tests) > 0 {
		s.Lead = strings.TrimSpace(s.Lead + " It " + testsSaid(tests) + ".")
	}
}

// OwnTests says on which of the maker's own tests the figures of materials rest,
// "" where on none.
func OwnTests(materials ...*material.Material) string {
	var keys []string
	for _, m := range materials {
		keys = append(keys, testKeys(m)...)
	}
	tests, _ := ownTests(uniqueSorted(keys))
	if len(tests) == 0 {
		return ""
	}
	return testsSaid(tests)
}

func testsSaid(tests []own) string {
	var parts []string
	for i, t := range tests {
		if i == mostTested {
			parts = append(parts, fmt.Sprintf("and %d more", len(tests)-i))
			break
		}
		parts = append(parts, t.of+" ("+t.what+")")
	}
	return "rests on your own tests of " + strings.Join(parts, "; ")
}
