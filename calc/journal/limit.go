package journal

// Proto is the version of the wire that this package speaks.
const Proto = 1

// Limits of the event and of the wire. They are part of the specification: a
// phone and a server that differ here would put each other's events aside.
const (
	MaxEvent     = 16 << 10  // bytes of one event
	maxAround    = 64        // bytes that a line may put around an event
	MaxDepth     = 8         // levels of JSON in one event
	MaxName      = 64        // bytes of a kind or of an id of a thing
	MaxPush      = 500       // events in one request
	MaxPage      = 1000      // arrivals in one reply
	MaxBody      = 1 << 20   // bytes of events in one request or reply
	maxHead      = 512 << 10 // bytes of a first line: the marks of ten million arrivals
	maxRefused   = 1000      // lines of a file that are told one by one as refused
	MarkEvery    = 100       // arrivals between two marks
	idLength     = 22        // characters of an event's id
	stampLength  = 16        // characters of a stamp
	maxMillis    = 1<<48 - 1
	always       = -1 << 62      // before any time of an entry, in ms
	forever      = maxMillis + 1 // after any
	rewindWindow = 3600 * 1000   // ms in which rewindLimit rewinds mean two servers
	rewindLimit  = 3
	cutLimit     = 3      // times that a single event may come back cut before it is put aside
	maxPause     = 300000 // ms, the longest pause after failures
)
