package evidence_test

import (
	"testing"

	"mullwright/formulate/evidence"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, evidence.Relations(), "statistics.tsv")
}
