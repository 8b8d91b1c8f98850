package exchange

import (
	"encoding/json"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Erasure says that the event whose bytes have Sum is erased.
type Erasure struct {
	ID    string          `json:"id"`
	Sum   event.Sum       `json:"sum"`
	Stub  json.RawMessage `json:"stub"`            // what takes the place of the bytes
	Photo string          `json:"photo,omitempty"` // sha256 of the picture that went with it
}

// Erase returns the erasure of an event and that of the event under which a
// phone would enter the same bytes again.
func Erase(raw []byte) ([]Erasure, error) {
	_, again, err := event.Reenter(raw)
	if err != nil {
		return nil, err
	}
	var list []Erasure
	for _, raw := range [][]byte{raw, again} {
		e, err := event.Decode(raw)
		if err != nil {
			return nil, err
		}
		if e.Kind == event.ErasedKind {
			return nil, problem.New(problem.Conflict, "id", "that entry is erased already", "Nothing more is to be done.")
		}
		x := Erasure{ID: e.ID, Sum: event.SumOf(raw), Stub: stubOf(e), Photo: PictureOf(e)}
		list = append(list, x)
	}
	return list, nil
}

// PictureOf returns the sum of the picture that an event tells of, "" for none.
func PictureOf(e event.Event) string {
	if e.Kind != "photo.added" {
		return ""
	}
	// The name becomes that of a file: nothing but a sum may stand there.
	var sum event.Sum
	name := event.ReadBody(e.Body).Text("sha256")
	if sum.UnmarshalText([]byte(name)) != nil || name != strings.ToLower(name) {
		return ""
	}
	return name
}

// stubOf returns the event that takes the place of e: who wrote it and when, and
// nothing of what it said.
func stubOf(e event.Event) []byte {
	return []byte(`{"id":"` + e.ID + `","t":"` + e.T.String() + `","device":"` + e.Device + `","kind":"` + event.ErasedKind + `","v":1,"body":{}}`)
}

// applyErasure puts the stub in the place of an event that this phone had before, early
// ones included. What it did not have comes as an arrival.
func (r *replyReader) applyErasure(a event.Record, sum event.Sum, photo string) {
	r.erasuresRead++
	if a.N > max(r.x.Meta.Cursor, r.x.Meta.EarlyEnd) {
		return
	}
	r.reenterReplaced(a, sum)
	r.change.Put = append(r.change.Put, a)
	r.dropPhoto(photo)
}

// reenterReplaced enters the phone's own bytes again if a takes the place of others.
// sum is that of the bytes of a before it was erased, if it was.
func (r *replyReader) reenterReplaced(a event.Record, sum event.Sum) {
	if u, ok := r.unsent[a.ID]; ok && u.Raw != a.Raw && event.SumOf([]byte(u.Raw)) != sum {
		r.enterAgain(a.ID)
	}
}

func (r *replyReader) dropPhoto(sha256 string) {
	if sha256 != "" {
		r.change.Drop = append(r.change.Drop, sha256)
	}
}
