package event

// Limits of the event. They are part of the specification: a phone and a server
// that differ here would reject each other's events.
const (
	MaxEvent    = 16 << 10  // bytes of one event
	MaxDepth    = 8         // levels of JSON in one event
	MaxName     = 64        // bytes of a kind or of an id of a thing
	idLength    = 22        // characters of an event's id
	stampLength = 16        // characters of a stamp
	MaxMillis   = 1<<48 - 1 // the last ms that a stamp can hold
)
