package exchange

import "kerfside/calc/journal/journaltest"

// The names of journaltest, as the tests of this package write them.
const (
	minute      = journaltest.Minute
	oddlyQuoted = journaltest.OddlyQuoted
	t0          = journaltest.T0
	worked      = journaltest.Worked
)

var (
	id       = journaltest.ID
	manyKeys = journaltest.ManyKeys
	notes    = journaltest.Notes
	sameJSON = journaltest.SameJSON
)
