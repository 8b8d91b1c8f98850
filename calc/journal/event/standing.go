package event

// Standing says how long an event matters for what a screen shows of today. A phone
// that joins is given by it what is old and still counts, before all the rest.
type Standing int

// Standings.
const (
	Passing  Standing = iota // the last month of these is enough
	OfThings                 // what a machine, a place, a stock line or a phone is called and set to
	Lasting                  // stands until another takes its place: what is fitted, in stock, failed, corrected
	OfWork                   // a session was opened or closed
)

// StandingOf returns that of an event. Where a declared kind lasts that did not before,
// server/store needs a migration for what is stored already.
func StandingOf(e Event) Standing {
	k := KindOf(e.Kind)
	if k == nil {
		return Passing
	}
	if e.Kind == "check.answered" && !FailsCheck(ReadBody(e.Body).Text("result")) {
		return Passing
	}
	return k.Lasts
}
