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

// standings are those of the kinds that do not pass. A kind that comes in later needs
// a migration of server/store too, for what is stored already.
var standings = map[string]Standing{
	"rig.set":        OfThings,
	"site.set":       OfThings,
	"job.set":        OfThings,
	"line.set":       OfThings,
	"setting.set":    OfThings,
	"same":           OfThings,
	"part.fitted":    Lasting,
	"part.pulled":    Lasting,
	"trap.drained":   Lasting,
	"filter.changed": Lasting,
	"check.answered": Lasting, // if it failed
	"check.cleared":  Lasting,
	"fault.seen":     Lasting,
	"fault.found":    Lasting,
	"fault.mended":   Lasting,
	"stock.moved":    Lasting,
	"stock.counted":  Lasting,
	"amend":          Lasting,
	"void":           Lasting,
	"session.opened": OfWork,
	"session.closed": OfWork,
}

// StandingOf returns that of an event.
func StandingOf(e Event) Standing {
	s := standings[e.Kind]
	if e.Kind == "check.answered" && !FailsCheck(ReadBody(e.Body).Text("result")) {
		return Passing
	}
	return s
}
