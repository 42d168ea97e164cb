package gum_test

import (
	"slices"
	"testing"

	"mullwright/formulate"
	"mullwright/formulate/gum"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, slices.Concat(gum.Relations(), formulate.Relations()), "recipes-gum.tsv", "recipes-oil.tsv")
}
