package fold

import (
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// TestFoldForgetsErased: once the stub came the fold is that of the set with the
// stub from the start, shows nothing of it, an amendment that comes late included,
// and no segment that is then on the phone holds the words.
func TestFoldForgetsErased(t *testing.T) {
	s := (&script{T: t}).
		Add("note", 0, "note.added", `{'text':'the wrong customer'}`, in("s-1")).
		Add("note", 0, event.ErasedKind, `{}`).
		Add("amend", minute, "amend", `{'of':'`+id("note")+`','set':{'text':'x'}}`, in("s-1"))
	note, stub, amend := s.Events[0], s.Events[1], s.Events[2]
	o := stub.T
	var want string
	for _, order := range [][]event.Event{{stub, amend}, {amend, note, stub}, {note, amend, stub, stub}, {note, stub, amend}} {
		f := NewFold()
		for _, e := range order {
			f.Add(e, &o, 1)
		}
		state, err := f.State()
		if err != nil {
			t.Fatal(err)
		}
		if want == "" {
			want = string(state)
		}
		if string(state) != want || strings.Contains(want, "customer") || strings.Contains(want, `"kind":"erased"`) {
			t.Errorf("the fold says %s, want %s", state, want)
		}
	}
	f := NewFold()
	stored := map[string]Segment{}
	keep := func() {
		for _, r := range f.snapshot.changed(1, true) {
			stored[r.Name] = r
		}
	}
	f.Add(note, nil, 0)
	for i := range int64(3 * segmentLines) {
		f.Add(note, &o, i+1) // each is a line
	}
	keep()
	f.Add(stub, &o, 1)
	keep()
	var segments []Segment
	for _, r := range stored {
		if segments = append(segments, r); strings.Contains(r.Data, "customer") {
			t.Errorf("rung %s holds what was erased", r.Name)
		}
	}
	if len(segments) < 3 {
		t.Fatalf("%d segments: the case is not tried", len(segments))
	}
	again, _, err := Restore(segments)
	if err != nil || again.Len() != 1 {
		t.Errorf("the snapshot afterwards: %v, %d events", err, again.Len())
	}
}
