package vapour_test

import (
	"testing"

	"mullwright/formulate/vapour"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, vapour.Relations(), "vapour.tsv")
}
