package engine

import "kerfside/calc/journal/journaltest"

// The names of journaltest, as the tests of this package write them.
const (
	minute = journaltest.Minute
	t0     = journaltest.T0
	worked = journaltest.Worked
)

type (
	script = journaltest.Script
)

var (
	about         = journaltest.About
	cases         = journaltest.Cases
	confirmed     = journaltest.Confirmed
	device        = journaltest.Device
	genJournal    = journaltest.Journal
	historyOf     = journaltest.History
	id            = journaltest.ID
	in            = journaltest.In
	jsonOf        = journaltest.JSON
	laws          = journaltest.Laws
	manyKeys      = journaltest.ManyKeys
	notes         = journaltest.Notes
	osierFord     = journaltest.OsierFord
	specification = journaltest.Specification
	records       = journaltest.Records
	sameJSON      = journaltest.SameJSON
	wall          = journaltest.Wall
)
