package settling_test

import (
	"testing"

	"mullwright/formulate/settling"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, settling.Relations(), "settling.tsv")
}
