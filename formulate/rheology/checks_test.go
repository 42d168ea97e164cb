package rheology_test

import (
	"testing"

	"mullwright/formulate/rheology"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, rheology.Relations(), "rheology.tsv", "liquids.tsv")
}
