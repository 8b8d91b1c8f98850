package fold

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"

	"kerfside/calc/journal/event"
)

// isErased reports whether x stands in the place of an erased event.
func isErased(x *fact) bool { return x.kind == event.ErasedKind }

// fact is what the fold keeps of an event.
type fact struct {
	id, kind, device, in, about, supersedes string
	o, t                                    event.Stamp
	n                                       int64 // 0 until the server has confirmed it
	at                                      int64
	v                                       int64
	wall                                    json.RawMessage
	body                                    json.RawMessage
}

// factOf returns the fact of an event of which the server said o and n (nil and
// 0 before it did). It holds nothing of the event's own bytes, most of which are
// keys.
func factOf(e event.Event, o *event.Stamp, n int64) *fact {
	both := append(append(make([]byte, 0, len(e.Wall)+len(e.Body)), e.Wall...), e.Body...)
	f := &fact{id: e.ID, kind: e.Kind, device: e.Device, in: e.In, about: e.About, supersedes: e.Supersedes,
		o: e.T, t: e.T, n: n, at: e.At, v: e.V, body: both[len(e.Wall):]}
	if e.Wall != nil {
		f.wall = both[:len(e.Wall):len(e.Wall)]
	}
	if o != nil {
		f.o = *o
	}
	return f
}

// known reports whether this version folds the fact's kind and version.
func (x *fact) known() bool { return event.IsKnown(x.kind, x.v) }

// equals reports whether x and y say the same, whatever the server said of them.
func (x *fact) equals(y *fact) bool {
	return x.kind == y.kind && x.v == y.v && x.device == y.device && x.in == y.in && x.about == y.about && x.supersedes == y.supersedes &&
		x.t == y.t && x.at == y.at && bytes.Equal(x.wall, y.wall) && bytes.Equal(x.body, y.body)
}

// A segment keeps each fact as one line of fields between tabs. No field can hold a
// tab or an end of line: names are letters and digits, JSON escapes both. That
// reads many times faster than JSON, which is what segments are for.
const factFields = 14

// encode returns the fact as a line of a segment.
func (x *fact) encode() string {
	return strings.Join([]string{"+", x.id, x.o.String(), x.t.String(), strconv.FormatInt(x.n, 10),
		x.kind, strconv.FormatInt(x.v, 10), x.device, x.in, x.about, x.supersedes, strconv.FormatInt(x.at, 10),
		string(x.wall), string(x.body)}, "\t")
}

// encodeConfirmation returns the line that says that o or n of a fact changed.
func (x *fact) encodeConfirmation() string {
	return "=\t" + x.id + "\t" + x.o.String() + "\t" + strconv.FormatInt(x.n, 10)
}

// splitFields fills to with the fields of a line, as far as they go, and returns how many
// the line has. It is called for each line of a restart, so it makes no slice.
func splitFields(line string, to *[factFields]string) int {
	for n := 1; ; n++ {
		field, rest, more := strings.Cut(line, "\t")
		if n <= factFields {
			to[n-1] = field
		}
		if !more {
			return n
		}
		line = rest
	}
}

// decodeFact reads the fields of what line wrote.
func decodeFact(p *[factFields]string) (*fact, error) {
	f := &fact{id: p[1], kind: p[5], device: p[7], in: p[8], about: p[9], supersedes: p[10], body: json.RawMessage(p[13])}
	if p[12] != "" {
		f.wall = json.RawMessage(p[12])
	}
	var err [5]error
	f.o, err[0] = event.ParseStamp(p[2])
	f.t, err[1] = event.ParseStamp(p[3])
	f.n, err[2] = strconv.ParseInt(p[4], 10, 64)
	f.v, err[3] = strconv.ParseInt(p[6], 10, 64)
	f.at, err[4] = strconv.ParseInt(p[11], 10, 64)
	for _, e := range err {
		if e != nil {
			return nil, e
		}
	}
	return f, nil
}
