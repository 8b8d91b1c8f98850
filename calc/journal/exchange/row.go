package exchange

import (
	"bytes"
	"encoding/json"

	"kerfside/calc/journal/event"
)

// replyRow is any row of a reply after the head: an ack, an arrival or a mark. A row is
// one line of the wire.
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

// AppendRow appends v as one row.
func AppendRow(b []byte, v any) []byte {
	line, err := json.Marshal(v)
	if err != nil {
		panic(err) // only the types above come here, and all of them marshal
	}
	return append(append(b, line...), '\n')
}

// AppendEvent appends an event as a row of a request. json.Marshal would
// compact and escape raw, which must stay as it is.
func AppendEvent(b []byte, raw string, o *event.Stamp) []byte {
	if o == nil {
		return append(append(b, raw...), '\n')
	}
	b = o.Append(append(b, `{"o":"`...))
	return append(append(append(b, `","raw":`...), raw...), '}', '\n')
}

// splitRows splits text into its rows. What stands after the last end of a line is part
// of a row that was cut, and left out.
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

// identify returns the id and the stamp of an event that a server passed on. It
// asks for less than Decode, since a newer server may take what this version
// would not.
func identify(raw []byte) (id string, t event.Stamp, ok bool) {
	o, err := event.ReadObject(raw)
	if err != nil {
		return "", 0, false
	}
	for _, m := range o.Members {
		switch s, _ := event.Unquote(m.Value); m.Key {
		case "id":
			id = s
		case "t":
			t, _ = event.ParseStamp(s)
		}
	}
	return id, t, event.IsID(id)
}
