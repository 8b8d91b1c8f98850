package exchange

import (
	"encoding/hex"
	"strconv"

	"kerfside/calc/journal/event"
)

// Arrival is one event of the server's history. Raw is nil where the request
// itself brought these bytes; of an erased event it is the stub, which does not fit
// Sum.
type Arrival struct {
	N   int64
	ID  string
	O   event.Stamp
	Sum event.Sum
	Raw []byte

	Erased bool
	Photo  string // sha256 of the picture that was erased with it
}

// AppendArrival appends an arrival as a row of a reply.
func AppendArrival(b []byte, a Arrival) []byte {
	b = strconv.AppendInt(append(b, `{"n":`...), a.N, 10)
	b = a.O.Append(append(b, `,"o":"`...))
	if a.Erased {
		b = append(append(b, `","raw":`...), a.Raw...)
		b = append(hex.AppendEncode(append(b, `,"sum":"`...), a.Sum[:]), `","erased":true`...)
		if a.Photo != "" {
			b = append(append(append(b, `,"photo":"`...), a.Photo...), '"')
		}
		return append(b, '}', '\n')
	}
	if a.Raw != nil {
		return append(append(append(b, `","raw":`...), a.Raw...), '}', '\n')
	}
	b = append(append(b, `","id":"`...), a.ID...)
	b = hex.AppendEncode(append(b, `","sum":"`...), a.Sum[:])
	return append(b, '"', '}', '\n')
}
