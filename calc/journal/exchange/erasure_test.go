package exchange

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// erasedNote is a note, its stub as an event, and its erasure.
func erasedNote(t *testing.T) (note, stub event.Event, x Erasure) {
	t.Helper()
	note, err := event.Decode([]byte(`{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"phone-a","kind":"note.added","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","body":{"text":"the wrong customer"}}`))
	if err != nil {
		t.Fatal(err)
	}
	list, err := Erase(note.Raw)
	if err != nil || len(list) != 2 || list[0].Sum != event.SumOf(note.Raw) {
		t.Fatalf("erasures %+v, %v", list, err)
	}
	if stub, err = event.Decode(list[0].Stub); err != nil || stub.ID != note.ID || stub.T != note.T || stub.Kind != event.ErasedKind || strings.Contains(string(stub.Raw), "customer") {
		t.Fatalf("stub %s, %v", list[0].Stub, err)
	}
	return note, stub, list[0]
}

// TestEraseNamesTheReentry: the second erasure is that of the bytes as Reenter
// writes them, and what is erased is not erased twice.
func TestEraseNamesTheReentry(t *testing.T) {
	note, stub, _ := erasedNote(t)
	list, _ := Erase(note.Raw)
	id, again, err := event.Reenter(note.Raw)
	if err != nil || list[1].ID != id || list[1].Sum != event.SumOf(again) {
		t.Errorf("second erasure %+v, want of %s", list[1], again)
	}
	if _, err := Erase(stub.Raw); err == nil {
		t.Error("a stub was erased")
	}
}

// TestEraseNamesOnlyPictures: what is no sum names no file to remove.
func TestEraseNamesOnlyPictures(t *testing.T) {
	sum := strings.Repeat("ab", 32)
	for text, want := range map[string]string{sum: sum, strings.ToUpper(sum): "", "../../kerfside.db": "", sum + "/..": "", "": ""} {
		list, err := Erase([]byte(`{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"photo.added","v":1,"body":{"sha256":"` + text + `"}}`))
		if err != nil || list[0].Photo != want || list[1].Photo != want {
			t.Errorf("sha256 %q: %+v, %v", text, list, err)
		}
	}
}

// TestApplyErased: the stub takes the place of bytes below the cursor and of
// those that arrive, the chain goes on with the former sum, the picture goes, and
// a list that broke off is not remembered.
func TestApplyErased(t *testing.T) {
	note, _, x := erasedNote(t)
	h := event.Chain{}.Next(note.ID, note.T, x.Sum)
	line := Arrival{N: 1, ID: note.ID, O: note.T, Sum: x.Sum, Raw: x.Stub, Erased: true, Photo: strings.Repeat("ab", 32)}
	head := ReplyHead{Crew: "c", Now: 1, Max: 1, ErasuresDigest: "list", Erasures: 1}
	held := Exchange{Meta: Meta{Crew: "c", Cursor: 1, Head: h}, Status: 200,
		Unsent: []event.Record{{ID: note.ID, Raw: string(note.Raw), T: note.T, N: 1}}}
	w := NewReply(head)
	w.Erased(line)
	held.Reply = string(w.Bytes())
	c := Apply(held)
	if len(c.Put) != 1 || c.Put[0].Raw != string(x.Stub) || c.Put[0].N != 1 || c.Meta.ErasuresDigest != "list" || !slices.Equal(c.Drop, []string{line.Photo}) {
		t.Errorf("of what it holds: %+v", c)
	}
	held.Reply = held.Reply[:strings.Index(held.Reply, "\n")+1]
	if c := Apply(held); len(c.Put) != 0 || c.Meta.ErasuresDigest != "" {
		t.Errorf("of a list that broke off: %+v", c)
	}
	head.Erasures = 0
	w = NewReply(head)
	w.Arrival(line, h)
	c = Apply(Exchange{Meta: Meta{Crew: "c"}, Status: 200, Reply: string(w.Bytes()),
		Unsent: []event.Record{{ID: note.ID, Raw: string(note.Raw), T: note.T, Unsent: event.ToSend}}})
	if len(c.Put) != 1 || c.Put[0].Raw != string(x.Stub) || c.Meta.Head != h || c.Meta.Cursor != 1 || len(c.Drop) != 1 {
		t.Errorf("as an arrival: %+v", c)
	}
}
