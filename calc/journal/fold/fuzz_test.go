package fold

import (
	"bytes"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// FuzzFold: no well-formed event breaks the fold, in whatever order it comes.
func FuzzFold(f *testing.F) {
	f.Add(`{"rig":"r","start":1,"stop":2}`, "arc.run", `{"of":"a_____________________","set":{"stop":9,"at":5}}`, "amend")
	f.Add(`{"n":3}`, "stock.counted", `{"of":"a_____________________"}`, "void")
	f.Add(`{"slot":"tip","rig":"r","line":"l"}`, "part.fitted", `{"as":"r"}`, "same")
	f.Add(`{"guide":"g","step":"s","result":"fail"}`, "check.answered", `{"of":"a_____________________"}`, "check.cleared")
	f.Fuzz(func(t *testing.T, body, kind, otherBody, otherKind string) {
		var list []event.Event
		for i, c := range [][2]string{{kind, body}, {otherKind, otherBody}, {"session.opened", `{"rig":"r"}`}, {"arc.started", `{}`}} {
			name := id(string(rune('a' + i)))
			raw := `{"id":"` + name + `","t":"` + event.StampOf(t0+int64(i)).String() + `","device":"d","kind":"` + c[0] + `","v":1,"in":"s","about":"l","body":` + c[1] + `}`
			if e, err := event.Decode([]byte(raw)); err == nil {
				list = append(list, e)
			}
		}
		forth, back := NewFold(), NewFold()
		for i := range list {
			forth.Add(list[i], nil, 0)
			back.Add(list[len(list)-1-i], nil, 0)
			back.Now()
		}
		a, err := forth.State()
		b, err2 := back.State()
		if err != nil || err2 != nil || !bytes.Equal(a, b) {
			t.Fatalf("forth:\n%s\nback:\n%s\n%v %v", a, b, err, err2)
		}
	})
}

// FuzzFact: an event that is taken survives its line in a segment.
func FuzzFact(f *testing.F) {
	f.Add([]byte(worked))
	f.Add([]byte(oddlyQuoted))
	f.Fuzz(func(t *testing.T, raw []byte) {
		e, err := event.Decode(raw)
		if err != nil {
			return
		}
		x := factOf(e, nil, 0)
		var p [factFields]string
		if n := splitFields(x.encode(), &p); n != factFields {
			t.Fatalf("%q has %d fields", x.encode(), n)
		}
		if back, err := decodeFact(&p); err != nil || back.encode() != x.encode() {
			t.Fatalf("in a segment %q became %+v: %v", raw, back, err)
		}
	})
}

// FuzzRestore: a segment that is not as it was written gives no fold at all, and
// lines that nobody wrote break nothing.
func FuzzRestore(f *testing.F) {
	g := NewFold()
	for _, e := range notes(f, "phone-a", 3) {
		g.Add(e, nil, 0)
	}
	good := g.snapshot.changed(3, true)[0].Data
	good, err := unseal(good)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add(strings.Replace(good, "+\t", "=\t", 1))
	f.Add(strings.ReplaceAll(good, "\n", "\n\n"))
	f.Fuzz(func(t *testing.T, data string) {
		for _, text := range []string{data, seal(data)} {
			fold, l, err := Restore([]Segment{{Name: "000000", Fold: FoldVersion, L: 3, Data: text}})
			if err != nil && (fold.Len() != 0 || l != 0) {
				t.Fatalf("refused, and yet %d events up to %d", fold.Len(), l)
			}
			if err == nil && text == data && !strings.Contains(data, sealMark) && (data != "" || fold.Len() > 0) {
				t.Fatalf("took %q", data) // an empty one is a segment that an erasure emptied, and holds nothing
			}
		}
	})
}
