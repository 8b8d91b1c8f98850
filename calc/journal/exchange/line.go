package exchange

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"strconv"

	"kerfside/calc/journal/event"
)

// RequestHead is the first line of a request.
type RequestHead struct {
	Proto int    `json:"proto"`
	Crew  string `json:"crew"`
	Now   int64  `json:"now"`
	Gen   int64  `json:"gen"`
	At    Mark   `json:"at"`
	Marks []Mark `json:"marks,omitempty"`
	// ErasuresDigest is the server's list of erasures that the phone has followed; nil from an
	// app that knows of none.
	ErasuresDigest *string `json:"gone,omitempty"`
	// Early asks for early arrivals: "" to begin, else what the last of them came with;
	// nil from a phone that needs none, or knows of none.
	Early *string `json:"early,omitempty"`
	Count int     `json:"count"`
}

// ReplyHead is the first line of a reply.
type ReplyHead struct {
	Proto          int      `json:"proto"`
	Crew           string   `json:"crew"`
	Now            int64    `json:"now"`
	Max            int64    `json:"max"`
	BackedUp       int64    `json:"backedUp"`
	SameDisk       int64    `json:"sameDisk,omitempty"`
	Behind         int64    `json:"behind,omitempty"`
	Rewound        *Mark    `json:"rewound,omitempty"`
	Resend         []string `json:"want,omitempty"`   // ids whose bytes went bad on the server's disk
	ErasuresDigest string   `json:"gone,omitempty"`   // names the list of erasures
	Erasures       int      `json:"erased,omitempty"` // how many lines of it follow

	Early *EarlyHead `json:"early,omitempty"` // of the early arrivals, if it asked for them and needs them
}

// Ack answers one pushed event.
type Ack struct {
	ID       string      `json:"id"`
	N        int64       `json:"n"`
	O        event.Stamp `json:"o"`
	Conflict bool        `json:"taken,omitempty"` // the id is there with other bytes
}

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

// replyRow is any line of a reply after the head.
type replyRow struct {
	ID       string          `json:"id"`
	N        int64           `json:"n"`
	O        *event.Stamp    `json:"o"`
	H        *event.Chain    `json:"h"`
	Sum      *event.Sum      `json:"sum"`
	Raw      json.RawMessage `json:"raw"`
	Conflict bool            `json:"taken"`
	Erased   bool            `json:"erased"`
	Photo    string          `json:"photo"`
}

// AppendRow appends v as one line.
func AppendRow(b []byte, v any) []byte {
	line, err := json.Marshal(v)
	if err != nil {
		panic(err) // only the types above come here, and all of them marshal
	}
	return append(append(b, line...), '\n')
}

// AppendEvent appends an event as a line of a request. json.Marshal would
// compact and escape raw, which must stay as it is.
func AppendEvent(b []byte, raw string, o *event.Stamp) []byte {
	if o == nil {
		return append(append(b, raw...), '\n')
	}
	b = o.Append(append(b, `{"o":"`...))
	return append(append(append(b, `","raw":`...), raw...), '}', '\n')
}

// appendAck appends an answer as a line of a reply, as json.Marshal would write it.
func appendAck(b []byte, a Ack) []byte {
	b = append(append(b, `{"id":"`...), a.ID...)
	b = strconv.AppendInt(append(b, `","n":`...), a.N, 10)
	b = append(a.O.Append(append(b, `,"o":"`...)), '"')
	if a.Conflict {
		b = append(b, `,"taken":true`...)
	}
	return append(b, '}', '\n')
}

// AppendArrival appends an arrival as a line of a reply.
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

// splitRows splits text at the ends of its lines. What stands after the last one is
// part of a line that was cut, and left out.
func splitRows(text []byte) [][]byte {
	var list [][]byte
	for {
		i := bytes.IndexByte(text, '\n')
		if i < 0 {
			return list
		}
		list = append(list, text[:i])
		text = text[i+1:]
	}
}
