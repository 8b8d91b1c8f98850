package fold

import (
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// TestFoldForgetsErased: once the stub came the fold is that of the set with the
// stub from the start, shows nothing of it, an amendment that comes late included,
// and no rung that is then on the phone holds the words.
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
	stored := map[string]Rung{}
	keep := func() {
		for _, r := range f.log.take(1, true) {
			stored[r.Name] = r
		}
	}
	f.Add(note, nil, 0)
	for i := range int64(3 * rungLines) {
		f.Add(note, &o, i+1) // each is a line
	}
	keep()
	f.Add(stub, &o, 1)
	keep()
	var rungs []Rung
	for _, r := range stored {
		if rungs = append(rungs, r); strings.Contains(r.Data, "customer") {
			t.Errorf("rung %s holds what was erased", r.Name)
		}
	}
	if len(rungs) < 3 {
		t.Fatalf("%d rungs: the case is not tried", len(rungs))
	}
	again, _, err := RestoreFold(rungs)
	if err != nil || again.Len() != 1 {
		t.Errorf("the snapshot afterwards: %v, %d events", err, again.Len())
	}
}
