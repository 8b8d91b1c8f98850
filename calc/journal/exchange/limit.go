package exchange

// Proto is the version of the wire that this package speaks.
const Proto = 1

// Limits of the wire. They are part of the specification, as those of the event
// are.
const (
	maxAround       = 64          // bytes that a line may put around an event
	MaxPush         = 500         // events in one request
	MaxPage         = 1000        // arrivals in one reply
	MaxBody         = 1 << 20     // bytes of events in one request or reply
	MaxHead         = 512 << 10   // bytes of a first line: the marks of ten million arrivals
	MarkEvery       = 100         // arrivals between two marks
	rewindWindow    = 3600 * 1000 // ms in which rewindLimit rewinds mean two servers
	rewindLimit     = 3
	truncationLimit = 3      // times that a single event may come back cut before it is rejected
	maxPause        = 300000 // ms, the longest pause after failures
)
