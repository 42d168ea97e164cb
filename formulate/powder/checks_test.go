package powder_test

import (
	"testing"

	"mullwright/formulate/powder"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, powder.Relations(), "powder.tsv")
}
