package exchange

import (
	"encoding/json"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// earlyOf writes a reply that hands out events as early arrivals, the last of them as
// number max, and nothing else.
func earlyOf(next string, max int64, events ...event.Event) string {
	var h event.Chain
	for i, e := range events {
		h = NextEarly(h, Arrival{N: max - int64(i), ID: e.ID, O: e.T, Sum: event.SumOf(e.Raw)})
	}
	w := NewReply(ReplyHead{Crew: "crew", Now: t0, Max: max, Early: &EarlyHead{Next: next, Count: len(events), H: h}})
	for i, e := range events {
		w.Early(Arrival{N: max - int64(i), ID: e.ID, O: e.T, Raw: e.Raw})
	}
	return string(w.Bytes())
}

// asksWith returns what a request asks early arrivals with; false if it asks for none.
func asksWith(t *testing.T, m Meta) (string, bool) {
	t.Helper()
	var head RequestHead
	if err := json.Unmarshal([]byte(NextRequest(m, nil, t0).Body), &head); err != nil {
		t.Fatal(err)
	}
	if head.Early == nil {
		return "", false
	}
	return *head.Early, true
}

// TestEarlyArrivals goes with a phone through a join: it asks for early arrivals until
// the server has no more of them, takes in the rest, and knows meanwhile that some is
// still to come.
func TestEarlyArrivals(t *testing.T) {
	list := notes(t, "phone-b", 5)
	meta := Meta{Crew: "crew"}
	step := func(reply string, wantAsk string, wantPut int, wantCursor, wantComing int64) {
		t.Helper()
		if ask, ok := asksWith(t, meta); !ok || ask != wantAsk {
			t.Errorf("asks with %q, %t, want %q", ask, ok, wantAsk)
		}
		c := Apply(Exchange{Meta: meta, Status: 200, Reply: reply})
		if len(c.Put) != wantPut || c.Meta.Cursor != wantCursor || c.Meta.EarlyEnd != wantComing || c.Meta.Failures != 0 || c.Again != (wantComing > 0) {
			t.Errorf("%d put, cursor %d, %d to come, again %t, want %d, %d, %d", len(c.Put), c.Meta.Cursor, c.Meta.EarlyEnd, c.Again, wantPut, wantCursor, wantComing)
		}
		meta = c.Meta
	}
	step(earlyOf("5.1.4", 5, list[4], list[3]), "", 2, 0, 5)
	step(earlyOf("5.2.0", 5), "5.1.4", 0, 0, 5)
	both := earlyOf("6.5.0", 6, list[4]) + strings.SplitAfterN(pageOf(Mark{}, 6, list[:3]...), "\n", 2)[1]
	step(both, "5.2.0", 4, 3, 5)
	step(pageOf(Mark{3, meta.Head}, 5, list[3:]...), "6.5.0", 2, 5, 0)
	if ask, ok := asksWith(t, meta); ok {
		t.Errorf("with all there was it still asks for early arrivals, with %q", ask)
	}
}

// TestNoEarlyArrivals: a server that has none for this phone, or does not know them,
// is asked once, and the phone knows that older ones are still to come all the same.
func TestNoEarlyArrivals(t *testing.T) {
	list := notes(t, "phone-b", 5)
	c := Apply(Exchange{Meta: Meta{Crew: "crew"}, Status: 200, Reply: pageOf(Mark{}, 5, list[:2]...)})
	if _, ok := asksWith(t, c.Meta); ok || c.Meta.EarlyEnd != 5 || c.Meta.Cursor != 2 {
		t.Errorf("asks again: %t; %d to come at %d", ok, c.Meta.EarlyEnd, c.Meta.Cursor)
	}
	c = Apply(Exchange{Meta: c.Meta, Status: 200, Reply: pageOf(Mark{2, c.Meta.Head}, 9, list[2:]...)})
	if c.Meta.EarlyEnd != 0 || c.Meta.Cursor != 5 {
		t.Errorf("%d to come at %d, want none: what came since it began is not older", c.Meta.EarlyEnd, c.Meta.Cursor)
	}
	for name, m := range map[string]Meta{"an older app's": {Cursor: 7}, "one that was rewound to nothing": {Gen: 1}, "one that rewinds": {Rewinding: true}} {
		if ask, ok := asksWith(t, m); ok {
			t.Errorf("%s journal asks for early arrivals, with %q", name, ask)
		}
	}
}

// TestEarlyCutOrDamaged: early arrivals are taken in whole or not at all, whatever of
// the reply is lost, and are asked for again.
func TestEarlyCutOrDamaged(t *testing.T) {
	whole := earlyOf("9.1.7", 9, notes(t, "phone-b", 3)...)
	for cut := range len(whole) {
		c := Apply(Exchange{Status: 200, Reply: whole[:cut]})
		if len(c.Put) != 0 || c.Meta.Early != "" || c.Meta.Failures != 1 {
			t.Fatalf("cut at %d: %d put, early %q, %d failures", cut, len(c.Put), c.Meta.Early, c.Meta.Failures)
		}
	}
	for i := strings.IndexByte(whole, '\n'); i < len(whole); i++ {
		damaged := whole[:i] + string(rune(whole[i]^1)) + whole[i+1:]
		if c := Apply(Exchange{Status: 200, Reply: damaged}); len(c.Put) != 0 {
			t.Fatalf("damaged at %d: %d put", i, len(c.Put))
		}
	}
}

// TestEarlyClash: an early arrival that has the id of an unsent entry with other bytes
// takes its place, and the entry is entered again.
func TestEarlyClash(t *testing.T) {
	theirs := notes(t, "phone-b", 1)[0]
	mine := strings.Replace(string(theirs.Raw), `"text":"x"`, `"text":"mine"`, 1)
	c := Apply(Exchange{Status: 200, Reply: earlyOf("9.1.7", 9, theirs), Unsent: []event.Record{{ID: theirs.ID, Raw: mine, T: theirs.T, Unsent: event.ToSend}}})
	if len(c.Put) != 2 || c.Put[0].Raw == mine || c.Put[0].N != 0 || c.Put[1].Raw != string(theirs.Raw) || c.Put[1].N != 9 {
		t.Errorf("put %+v", c.Put)
	}
}

// TestComingAfterARestore: a server that has less than when the phone began does not
// leave it waiting for more.
func TestComingAfterARestore(t *testing.T) {
	list := notes(t, "phone-b", 2)
	meta := Meta{Crew: "crew", EarlyEnd: 9, Early: "9.4.0"}
	c := Apply(Exchange{Meta: meta, Status: 200, Reply: pageOf(Mark{}, 2, list...), Promised: []Promise{{id("other"), 9}}})
	if c.Meta.EarlyEnd != 0 || c.Forget == nil || *c.Forget != 2 {
		t.Errorf("%d to come, forget %v", c.Meta.EarlyEnd, c.Forget)
	}
}
