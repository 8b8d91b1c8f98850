package exchange

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// FuzzRequest: a request that is taken, printed again and read again, is the same
// request.
func FuzzRequest(f *testing.F) {
	list := unsentRecords(f, 3)
	list[1].O = &list[0].T
	f.Add([]byte(NextRequest(Meta{Crew: "crew", Cursor: 3}, list, t0).Body))
	f.Add([]byte(NextRequest(Meta{Rewinding: true, Marks: []Mark{{100, event.Chain{1}}}}, nil, t0).Body))
	f.Add([]byte(`{"proto":1,"count":1}` + "\n" + worked + "\n"))
	f.Fuzz(func(t *testing.T, body []byte) {
		head, pushes, err := ReadRequest(body)
		if err != nil {
			return
		}
		again := AppendRow(nil, head)
		for _, p := range pushes {
			again = AppendEvent(again, string(p.Event.Raw), &p.O)
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
		e, err := event.Decode(raw)
		if err != nil {
			return
		}
		for _, o := range []*event.Stamp{nil, &e.T} {
			line := AppendEvent(nil, string(raw), o)
			p, err := ReadPush(line[:len(line)-1])
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
	w.Arrival(Arrival{N: 1, ID: list[0].ID, O: 7, Sum: event.SumOf([]byte(list[0].Raw))}, event.Chain{}.Next(list[0].ID, 7, event.SumOf([]byte(list[0].Raw))))
	for _, status := range []int{200, 400, 409, 413, 503, 507} {
		f.Add(status, page, false)
		f.Add(status, string(w.Bytes()), false)
		f.Add(status, refusal("malformed", "raw"), false)
	}
	f.Add(200, string(NewReply(ReplyHead{Crew: "crew", Now: t0, Max: 1, Rewound: &Mark{100, event.Chain{1}}}).Bytes()), true)
	for _, next := range []string{"9.1.7", "", noEarly} {
		f.Add(200, earlyOf(next, 9, notes(f, "phone-c", 3)...)+strings.SplitAfterN(page, "\n", 2)[1], false)
	}
	f.Fuzz(func(t *testing.T, status int, reply string, rewinding bool) {
		x := Exchange{Unsent: list, Sent: idsOf(list[:2]), Promised: []Promise{{list[0].ID, 107}}, Status: status, Reply: reply, SentAt: t0, GotAt: t0 + 900,
			Meta: Meta{Rewinding: rewinding}}
		if rewinding {
			x.Meta.Cursor, x.Meta.Head, x.Meta.Marks, x.Sent = 100, event.Chain{1}, []Mark{{100, event.Chain{1}}}, nil
		}
		c := Apply(x)
		if c.Meta.Revision != 1 || c.Meta.Marks == nil || c.WaitMs < 0 {
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
		var ahead event.Chain
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
				ahead = NextEarly(ahead, Arrival{N: r.N, ID: r.ID, O: *r.O, Sum: event.SumOf([]byte(r.Raw))})
				if left--; left == 0 && ahead != soon.Early.H {
					t.Fatalf("early arrivals do not fit their chain")
				}
				continue
			}
			if at = (Mark{r.N, at.H.Next(r.ID, *r.O, event.SumOf([]byte(r.Raw)))}); r.N > c.Meta.Cursor {
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
