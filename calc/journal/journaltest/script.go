package journaltest

import (
	"encoding/json"
	"fmt"
	"testing"

	"kerfside/calc/journal/event"
)

// Notes are n notes of one device, a ms apart.
func Notes(t testing.TB, device string, n int) []event.Event {
	s := &Script{T: t}
	for i := range n {
		s.Add(fmt.Sprintf("%s-%05d", device, i), int64(i), "note.added", `{'text':'x'}`, In("s1"))
	}
	return s.Events
}

// T0 is when the scripts of these tests begin: 2025-10-17 19:58:36.544 UTC.
const T0 = 1760731116544

// Minute in ms.
const Minute = 60_000

// Script writes events as a phone does, with readable ids.
type Script struct {
	T      testing.TB
	Events []event.Event
}

// Option changes an event before it is written.
type Option func(map[string]any)

// In says in which session an event was entered.
func In(id string) Option { return func(m map[string]any) { m["in"] = id } }

// About says which thing an event is about.
func About(id string) Option { return func(m map[string]any) { m["about"] = id } }

// Supersedes says which event an event replaces.
func Supersedes(id string) Option { return func(m map[string]any) { m["over"] = id } }

// At says that an event happened at T0+ms.
func At(ms int64) Option { return func(m map[string]any) { m["at"] = T0 + ms } }

// Device says which phone entered an event.
func Device(id string) Option { return func(m map[string]any) { m["device"] = id } }

// Wall says that the phone's clock showed T0+ms.
func Wall(ms int64) Option { return func(m map[string]any) { m["wall"] = []int64{T0 + ms, 60} } }

// ID pads a readable name to an event's id.
func ID(name string) string { return fmt.Sprintf("%.22s", name+"______________________") }

// Add writes an event at t0+ms. body is JSON with ' for ".
func (s *Script) Add(name string, ms int64, kind, body string, options ...Option) *Script {
	s.T.Helper()
	m := map[string]any{"id": ID(name), "t": event.StampOf(T0 + ms).String(), "device": "phone-a", "kind": kind, "v": 1, "body": quoted(body)}
	for _, o := range options {
		o(m)
	}
	raw, err := json.Marshal(m)
	if err != nil {
		s.T.Fatal(err)
	}
	e, err := event.Decode(raw)
	if err != nil {
		s.T.Fatalf("%s: %v", name, err)
	}
	s.Events = append(s.Events, e)
	return s
}

// quoted turns ' into ".
func quoted(body string) json.RawMessage {
	b := []byte(body)
	for i := range b {
		if b[i] == '\'' {
			b[i] = '"'
		}
	}
	return b
}
