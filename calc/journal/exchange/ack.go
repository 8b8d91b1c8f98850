package exchange

import (
	"strconv"

	"kerfside/calc/journal/event"
)

// Ack answers one pushed event.
type Ack struct {
	ID       string      `json:"id"`
	N        int64       `json:"n"`
	O        event.Stamp `json:"o"`
	Conflict bool        `json:"taken,omitempty"` // the server holds the id with other bytes
}

// appendAck appends an answer as a row of a reply, as json.Marshal would write it.
func appendAck(b []byte, a Ack) []byte {
	b = append(append(b, `{"id":"`...), a.ID...)
	b = strconv.AppendInt(append(b, `","n":`...), a.N, 10)
	b = append(a.O.Append(append(b, `,"o":"`...)), '"')
	if a.Conflict {
		b = append(b, `,"taken":true`...)
	}
	return append(b, '}', '\n')
}
