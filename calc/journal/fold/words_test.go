package fold

import "kerfside/calc/journal/journaltest"

// The names of journaltest, as the tests of this package write them.
const (
	minute      = journaltest.Minute
	oddlyQuoted = journaltest.OddlyQuoted
	t0          = journaltest.T0
	worked      = journaltest.Worked
)

type (
	example = journaltest.Example
	option  = journaltest.Option
	script  = journaltest.Script
)

var (
	about      = journaltest.About
	at         = journaltest.At
	cases      = journaltest.Cases
	confirmed  = journaltest.Confirmed
	device     = journaltest.Device
	examples   = journaltest.Examples
	genJournal = journaltest.Journal
	id         = journaltest.ID
	in         = journaltest.In
	jsonOf     = journaltest.JSON
	laws       = journaltest.Laws
	notes      = journaltest.Notes
	osierFord  = journaltest.OsierFord
	supersedes = journaltest.Supersedes
	sameJSON   = journaltest.SameJSON
	wall       = journaltest.Wall
)
