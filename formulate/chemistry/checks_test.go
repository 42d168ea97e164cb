package chemistry_test

import (
	"testing"

	"mullwright/formulate/chemistry"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, chemistry.Relations(), "chemistry.tsv")
}
