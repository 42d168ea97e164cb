package absorption_test

import (
	"testing"

	"mullwright/formulate/absorption"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, absorption.Relations(), "absorption.tsv", "pvc.tsv")
}
