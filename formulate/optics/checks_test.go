package optics_test

import (
	"testing"

	"mullwright/formulate/optics"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, optics.Relations(), "optics.tsv")
}
