package load

import (
	"crypto/rand"
	"encoding/base64"
	"strconv"
	"time"

	"kerfside/calc/journal/event"
)

// idKey begins every event that a maker makes; the id follows.
const idKey = `{"id":"`

// maker makes the events of one device.
type maker struct {
	device string
	last   event.Stamp
	count  int
}

// batch returns so many new events, oldest first.
func (m *maker) batch(size int) [][]byte {
	list := make([][]byte, size)
	for i := range list {
		list[i] = m.event()
	}
	return list
}

// event returns the next event: a reading of a tip, as long as most entries of
// a working day are.
func (m *maker) event() []byte {
	now := time.Now().UnixMilli()
	m.last = event.Next(m.last, now, 0)
	m.count++
	var id [16]byte
	rand.Read(id[:])
	raw := make([]byte, 0, 320)
	raw = base64.RawURLEncoding.AppendEncode(append(raw, idKey...), id[:])
	raw = append(append(append(raw, `","t":"`...), m.last.String()...), `","wall":[`...)
	raw = strconv.AppendInt(raw, now, 10)
	raw = append(append(append(raw, `,60],"device":"`...), m.device...), `","kind":"part.reading","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","about":"`...)
	raw = append(append(raw, m.device...), `-tip","body":{"dmax":`...)
	raw = strconv.AppendInt(raw, int64(950+m.count%400), 10)
	raw = append(raw, `,"dmin":`...)
	raw = strconv.AppendInt(raw, int64(950+m.count%300), 10)
	return append(raw, `,"pit":120,"note":"tip turned a quarter"}}`...)
}

// idOf returns the id of an event that a maker made.
func idOf(raw []byte) string { return string(raw[len(idKey) : len(idKey)+22]) }
