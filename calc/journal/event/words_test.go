package event_test

import "kerfside/calc/journal/journaltest"

// The names of journaltest, as the tests of this package write them.
const (
	kindsFile   = journaltest.KindsFile
	oddlyQuoted = journaltest.OddlyQuoted
	worked      = journaltest.Worked
)

var (
	genJournal    = journaltest.Journal
	laws          = journaltest.Laws
	specification = journaltest.Specification
)
