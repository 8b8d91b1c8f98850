package journal

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"
)

// FuzzRequest: a request that is taken, printed again and read again, is the same
// request.
func FuzzRequest(f *testing.F) {
	list := unsentRecords(f, 3)
	list[1].O = &list[0].T
	f.Add([]byte(NextRequest(Meta{Crew: "crew", Cursor: 3}, list, t0).Body))
	f.Add([]byte(NextRequest(Meta{Rewinding: true, Marks: []Mark{{100, Chain{1}}}}, nil, t0).Body))
	f.Add([]byte(`{"proto":1,"count":1}` + "\n" + worked + "\n"))
	f.Fuzz(func(t *testing.T, body []byte) {
		head, pushes, err := ReadRequest(body)
		if err != nil {
			return
		}
		again := appendJSON(nil, head)
		for _, p := range pushes {
			again = appendEvent(again, string(p.Event.Raw), &p.O)
		}
		back, others, err := ReadRequest(again)
		if err != nil || back.At != head.At || back.Gen != head.Gen || back.Crew != head.Crew || !slices.Equal(back.Marks, head.Marks) || len(others) != len(pushes) {
			t.Fatalf("%q became %q: %v", body, again, err)
		}
		for i, p := range pushes {
			if o := others[i]; !bytes.Equal(o.Event.Raw, p.Event.Raw) || o.O != p.O || o.Sum != p.Sum {
				t.Fatalf("event %d of %q became %q", i, body, o.Event.Raw)
			}
		}
	})
}

// FuzzLine: an event that is taken survives its line on the wire, with an o and
// without.
func FuzzLine(f *testing.F) {
	f.Add([]byte(worked))
	f.Add([]byte(oddlyQuoted))
	f.Fuzz(func(t *testing.T, raw []byte) {
		e, err := Decode(raw)
		if err != nil {
			return
		}
		for _, o := range []*Stamp{nil, &e.T} {
			line := appendEvent(nil, string(raw), o)
			p, err := readPush(line[:len(line)-1])
			if err != nil || string(p.Event.Raw) != string(raw) {
				t.Fatalf("on the wire %q became %q: %v", raw, p.Event.Raw, err)
			}
		}
	})
}

// FuzzReply: whatever a server or the way says, a phone takes in only what a mark
// covers, believes acks of what it sent alone, and forgets nothing unasked.
func FuzzReply(f *testing.F) {
	list := unsentRecords(f, 3)
	page := pageOf(Mark{}, 5, notes(f, "phone-b", 2)...)
	w := NewReply(ReplyHead{Crew: "crew", Now: t0, Max: 1})
	w.Ack(Ack{ID: list[0].ID, N: 1, O: 7})
	w.Arrival(Arrival{N: 1, ID: list[0].ID, O: 7, Sum: SumOf([]byte(list[0].Raw))}, Chain{}.Next(list[0].ID, 7, SumOf([]byte(list[0].Raw))))
	for _, status := range []int{200, 400, 409, 413, 503, 507} {
		f.Add(status, page, false)
		f.Add(status, string(w.Bytes()), false)
		f.Add(status, refusal("malformed", "raw"), false)
	}
	f.Add(200, string(NewReply(ReplyHead{Crew: "crew", Now: t0, Max: 1, Rewound: &Mark{100, Chain{1}}}).Bytes()), true)
	for _, next := range []string{"9.1.7", "", noEarly} {
		f.Add(200, earlyOf(next, 9, notes(f, "phone-c", 3)...)+strings.SplitAfterN(page, "\n", 2)[1], false)
	}
	f.Fuzz(func(t *testing.T, status int, reply string, rewinding bool) {
		x := Exchange{Unsent: list, Sent: idsOf(list[:2]), Promised: []Promise{{list[0].ID, 107}}, Status: status, Reply: reply, SentAt: t0, GotAt: t0 + 900,
			Meta: Meta{Rewinding: rewinding}}
		if rewinding {
			x.Meta.Cursor, x.Meta.Head, x.Meta.Marks, x.Sent = 100, Chain{1}, []Mark{{100, Chain{1}}}, nil
		}
		c := Apply(x)
		if c.Meta.Turn != 1 || c.Meta.Marks == nil || c.WaitMs < 0 {
			t.Fatalf("%+v", c)
		}
		if c.Forget != nil && rewinding != (*c.Forget == 0 || *c.Forget == 100) && *c.Forget >= 107 {
			t.Fatalf("forgets above %d", *c.Forget)
		}
		var soon ReplyHead
		first, _, _ := strings.Cut(reply, "\n")
		if c.Meta.Early != "" && c.Meta.Early != noEarly {
			json.Unmarshal([]byte(first), &soon)
		}
		var ahead Chain
		left := 0
		if soon.Early != nil {
			left = soon.Early.Count
		}
		at := Mark{x.Meta.Cursor, x.Meta.Head}
		for _, r := range c.Put {
			if r.N == 0 {
				continue // entered again
			}
			if left > 0 {
				ahead = NextEarly(ahead, Arrival{N: r.N, ID: r.ID, O: *r.O, Sum: SumOf([]byte(r.Raw))})
				if left--; left == 0 && ahead != soon.Early.H {
					t.Fatalf("early arrivals do not fit their chain")
				}
				continue
			}
			if at = (Mark{r.N, at.H.Next(r.ID, *r.O, SumOf([]byte(r.Raw)))}); r.N > c.Meta.Cursor {
				t.Fatalf("put %d past the cursor %d", r.N, c.Meta.Cursor)
			}
		}
		if c.Forget == nil && c.Meta.Cursor >= x.Meta.Cursor && (c.Meta.Cursor != at.N || c.Meta.Head != at.H) {
			t.Fatalf("cursor %d %v, but what came leads to %+v", c.Meta.Cursor, c.Meta.Head, at)
		}
		for _, a := range c.Ack {
			if !slices.Contains(x.Sent, a.ID) || a.N < 1 {
				t.Fatalf("believes %+v", a)
			}
		}
		if again := Apply(x); !sameJSON(again, c) {
			t.Fatalf("the same reply once more: %+v, before %+v", again, c)
		}
	})
}

// FuzzImport: what is read from a file can be exported and read again, and no
// line keeps another out.
func FuzzImport(f *testing.F) {
	f.Add(`{"kerfside":1,"crew":"c","device":"d","now":1760731116600,"count":2}` + "\n" + worked + "\n" + `{"o":"0199f3c0b4000000","raw":` + worked + "}\n")
	f.Add(`{"kerfside":1,"count":3}` + "\n[]\n\n" + worked)
	f.Fuzz(func(t *testing.T, text string) {
		v, err := imports(struct {
			Text string `json:"text"`
		}{text})
		if err != nil {
			return
		}
		var records []Record
		for _, e := range v.Events {
			records = append(records, Record{ID: e.ID, Raw: e.Raw, T: e.T, O: e.O})
		}
		if whole, err := imports(struct {
			Text string `json:"text"`
		}{exportOf(t, records)}); err != nil || len(whole.Events) != len(v.Events) || len(whole.Refused) != 0 {
			t.Fatalf("%d events of %q are %d once exported: %v", len(v.Events), text, len(whole.Events), err)
		}
	})
}

func exportOf(t *testing.T, records []Record) string {
	in, err := json.Marshal(map[string]any{"events": records, "now": t0})
	if err != nil {
		t.Fatal(err)
	}
	v, err := NewDesk().Call("journal-export", in)
	if err != nil {
		t.Fatal(err)
	}
	return v.(Exported).Text
}

// FuzzFold: no well-formed event breaks the fold, in whatever order it comes.
func FuzzFold(f *testing.F) {
	f.Add(`{"rig":"r","start":1,"stop":2}`, "arc.run", `{"of":"a_____________________","set":{"stop":9,"at":5}}`, "amend")
	f.Add(`{"n":3}`, "stock.counted", `{"of":"a_____________________"}`, "void")
	f.Add(`{"slot":"tip","rig":"r","line":"l"}`, "part.fitted", `{"as":"r"}`, "same")
	f.Add(`{"guide":"g","step":"s","result":"fail"}`, "check.answered", `{"of":"a_____________________"}`, "check.cleared")
	f.Fuzz(func(t *testing.T, body, kind, otherBody, otherKind string) {
		var list []Event
		for i, c := range [][2]string{{kind, body}, {otherKind, otherBody}, {"session.opened", `{"rig":"r"}`}, {"arc.started", `{}`}} {
			name := id(string(rune('a' + i)))
			raw := `{"id":"` + name + `","t":"` + StampOf(t0+int64(i)).String() + `","device":"d","kind":"` + c[0] + `","v":1,"in":"s","about":"l","body":` + c[1] + `}`
			if e, err := Decode([]byte(raw)); err == nil {
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

// FuzzFact: an event that is taken survives its line in a rung.
func FuzzFact(f *testing.F) {
	f.Add([]byte(worked))
	f.Add([]byte(oddlyQuoted))
	f.Fuzz(func(t *testing.T, raw []byte) {
		e, err := Decode(raw)
		if err != nil {
			return
		}
		x := factOf(e, nil, 0)
		var p [factFields]string
		if n := split(x.line(), &p); n != factFields {
			t.Fatalf("%q has %d fields", x.line(), n)
		}
		if back, err := readFact(&p); err != nil || back.line() != x.line() {
			t.Fatalf("in a rung %q became %+v: %v", raw, back, err)
		}
	})
}

// FuzzRestore: a rung that is not as it was written gives no fold at all, and
// lines that nobody wrote break nothing.
func FuzzRestore(f *testing.F) {
	g := NewFold()
	for _, e := range notes(f, "phone-a", 3) {
		g.Add(e, nil, 0)
	}
	good := g.log.take(3, true)[0].Data
	good, err := unsealed(good)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add(strings.Replace(good, "+\t", "=\t", 1))
	f.Add(strings.ReplaceAll(good, "\n", "\n\n"))
	f.Fuzz(func(t *testing.T, data string) {
		for _, text := range []string{data, sealed(data)} {
			fold, l, err := RestoreFold([]Rung{{Name: "000000", Fold: FoldVersion, L: 3, Data: text}})
			if err != nil && (fold.Len() != 0 || l != 0) {
				t.Fatalf("refused, and yet %d events up to %d", fold.Len(), l)
			}
			if err == nil && text == data && !strings.Contains(data, seal) && (data != "" || fold.Len() > 0) {
				t.Fatalf("took %q", data) // an empty one is a rung that an erasure emptied, and holds nothing
			}
		}
	})
}

func sameJSON(a, b any) bool {
	x, err := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err == nil && err2 == nil && bytes.Equal(x, y)
}
