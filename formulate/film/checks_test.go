package film_test

import (
	"testing"

	"mullwright/formulate/film"
	"mullwright/testdata/checks/checktest"
)

func TestPublishedChecks(t *testing.T) {
	checktest.Run(t, film.Relations(), "film.tsv")
}
