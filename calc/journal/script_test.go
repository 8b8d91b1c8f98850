package journal

import (
	"encoding/json"
	"fmt"
	"os"
	"runtime"
	"testing"
)

// t0 is when the scripts of these tests begin: 2025-10-17 19:58:36.544 UTC.
const t0 = 1760731116544

// minute in ms.
const minute = 60_000

// script writes events as a phone does, with readable ids.
type script struct {
	t      testing.TB
	events []Event
}

// option changes an event before it is written.
type option func(map[string]any)

func in(id string) option     { return func(m map[string]any) { m["in"] = id } }
func about(id string) option  { return func(m map[string]any) { m["about"] = id } }
func over(id string) option   { return func(m map[string]any) { m["over"] = id } }
func at(ms int64) option      { return func(m map[string]any) { m["at"] = t0 + ms } }
func device(id string) option { return func(m map[string]any) { m["device"] = id } }
func wall(ms int64) option    { return func(m map[string]any) { m["wall"] = []int64{t0 + ms, 60} } }

// id pads a readable name to an event's id.
func id(name string) string { return fmt.Sprintf("%.22s", name+"______________________") }

// add writes an event at t0+ms. body is JSON with ' for ".
func (s *script) add(name string, ms int64, kind, body string, options ...option) *script {
	s.t.Helper()
	m := map[string]any{"id": id(name), "t": StampOf(t0 + ms).String(), "device": "phone-a", "kind": kind, "v": 1, "body": quoted(body)}
	for _, o := range options {
		o(m)
	}
	raw, err := json.Marshal(m)
	if err != nil {
		s.t.Fatal(err)
	}
	e, err := Decode(raw)
	if err != nil {
		s.t.Fatalf("%s: %v", name, err)
	}
	s.events = append(s.events, e)
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

// fold folds the script.
func (s *script) fold() *Fold {
	f := NewFold()
	for _, e := range s.events {
		f.Add(e, nil, 0)
	}
	return f
}

// session returns a view or fails the test.
func (s *script) session(name string) SessionView {
	s.t.Helper()
	v, err := s.fold().Session(name)
	if err != nil {
		s.t.Fatal(err)
	}
	return v
}

// entryOf returns the line of an entry.
func entryOf(t testing.TB, v SessionView, name string) Line {
	t.Helper()
	for _, l := range v.Lines {
		if l.ID == id(name) {
			return l
		}
	}
	t.Fatalf("the session has no line %s", name)
	return Line{}
}

// cases is how many cases a property test runs.
func cases() int {
	switch {
	case os.Getenv("KERFSIDE_LONG") != "":
		return 10_000
	case testing.Short():
		return 50
	case runtime.GOOS == "js":
		return 300 // ten times slower there
	}
	return 2_000
}

// jsonOf returns v as JSON.
func jsonOf(v any) (string, error) {
	b, err := json.Marshal(v)
	return string(b), err
}
