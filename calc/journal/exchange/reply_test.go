package exchange

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// TestOnlyWhatAMarkCoversIsApplied cuts a page of 250 arrivals at each of its
// bytes that matter and damages it.
func TestOnlyWhatAMarkCoversIsApplied(t *testing.T) {
	reply := pageOf(Mark{}, 250, notes(t, "phone-b", 250)...)
	for cut := 0; cut <= len(reply); cut += 97 {
		c := Apply(Exchange{Status: 200, Reply: reply[:cut]})
		marks := int64(strings.Count(reply[:cut], "\"}\n") * 100)
		if cut == len(reply) {
			marks = 250
		}
		if n := int64(len(c.Put)); n != c.Meta.Cursor || n%100 != 0 && n != 250 || n > marks {
			t.Fatalf("cut at %d: %d put, cursor %d", cut, n, c.Meta.Cursor)
		}
	}
	damaged := strings.Replace(reply, `"text":"x"`, `"text":"y"`, 1)
	if c := Apply(Exchange{Status: 200, Reply: damaged}); len(c.Put) != 0 || c.Meta.Cursor != 0 || c.Meta.Failures != 1 {
		t.Errorf("damaged within the first mark: %d put, cursor %d", len(c.Put), c.Meta.Cursor)
	}
	at := strings.LastIndex(reply, `"text":"x"`)
	damaged = reply[:at] + strings.Replace(reply[at:], `"x"`, `"y"`, 1)
	if c := Apply(Exchange{Status: 200, Reply: damaged}); len(c.Put) != 200 || c.Meta.Cursor != 200 || !c.Again {
		t.Errorf("damaged after the second mark: %d put, cursor %d", len(c.Put), c.Meta.Cursor)
	}
}

// TestPromises: a number above the cursor is dropped when the server has fewer
// arrivals, or another event under it, and kept when it may still come.
func TestPromises(t *testing.T) {
	mine := notes(t, "phone-a", 3)
	theirs := notes(t, "phone-b", 2)
	promised := []Promise{{mine[0].ID, 2}, {mine[1].ID, 3}, {mine[2].ID, 9}}
	reply := pageOf(Mark{}, 5, theirs[0], theirs[1], mine[1])
	c := Apply(Exchange{Status: 200, Reply: reply, Promised: promised})
	if !slices.Equal(c.Unsend, []string{mine[0].ID}) || c.Forget == nil || *c.Forget != 5 || !c.Again {
		t.Errorf("unsend = %v, forget %v, want the one whose number another has, and all past max", c.Unsend, c.Forget)
	}
	c = Apply(Exchange{Status: 200, Reply: pageOf(Mark{}, 9, theirs[0]), Promised: promised})
	if len(c.Unsend) != 0 || c.Forget != nil {
		t.Errorf("unsend = %v, forget %v, want none yet", c.Unsend, c.Forget)
	}
	was := Meta{Cursor: 4, Head: event.Chain{4}}
	c = Apply(Exchange{Meta: was, Status: 200, Reply: pageOf(Mark{4, event.Chain{4}}, 2), Promised: promised[2:]})
	if c.Forget == nil || *c.Forget != 4 {
		t.Errorf("forget %v of what is up to the cursor, 4: a server that has less answers rewound", c.Forget)
	}
}

// TestConflictingID: the server has other bytes under the id; the phone's own are
// entered again and the server's take the place.
func TestConflictingID(t *testing.T) {
	mine := unsentRecords(t, 1)
	theirs, err := event.Decode([]byte(strings.Replace(mine[0].Raw, `"x"`, `"z"`, 1)))
	if err != nil {
		t.Fatal(err)
	}
	fresh, again, err := event.Reenter([]byte(mine[0].Raw))
	if err != nil {
		t.Fatal(err)
	}
	ack := fmt.Sprintf(`{"id":%q,"n":1,"o":"%v","taken":true}`+"\n", theirs.ID, theirs.T)
	head, page, _ := strings.Cut(pageOf(Mark{}, 1, theirs), "\n")
	c := Apply(Exchange{Unsent: mine, Sent: idsOf(mine), Status: 200, Reply: head + "\n" + ack + page})
	if len(c.Put) != 2 || c.Put[0].ID != fresh || c.Put[0].Raw != string(again) || c.Put[0].N != 0 || c.Put[1].Raw != string(theirs.Raw) || c.Put[1].N != 1 || len(c.Ack) != 0 {
		t.Errorf("%+v", c)
	}
	// Its arrival passed by long ago and the phone has not got it: pull again.
	meta := Meta{Crew: "crew", Cursor: 250, Head: event.Chain{5}, Marks: []Mark{{100, event.Chain{1}}, {200, event.Chain{2}}, {250, event.Chain{5}}}}
	ack = strings.Replace(ack, `"n":1`, `"n":180`, 1)
	head = strings.Replace(head, `"max":1`, `"max":250`, 1)
	c = Apply(Exchange{Meta: meta, Unsent: mine, Sent: idsOf(mine), Status: 200, Reply: head + "\n" + ack})
	if c.Meta.Cursor != 100 || c.Meta.Head != (event.Chain{1}) || len(c.Meta.Marks) != 1 || !c.Again || len(c.Put) != 1 {
		t.Errorf("passed by: %+v", c)
	}
}

// TestOffset: the server's time is compared with the middle of the exchange; a
// clock that was set back meanwhile tells nothing.
func TestOffset(t *testing.T) {
	reply := pageOf(Mark{}, 0)
	if c := Apply(Exchange{Status: 200, Reply: reply, SentAt: t0 - 5000, GotAt: t0 - 3000}); c.Meta.Offset != 4000 {
		t.Errorf("offset = %d, want 4000", c.Meta.Offset)
	}
	if c := Apply(Exchange{Status: 200, Reply: reply, SentAt: t0, GotAt: t0 - 9000, Meta: Meta{Offset: 7}}); c.Meta.Offset != 7 {
		t.Errorf("offset = %d, want it left at 7", c.Meta.Offset)
	}
}
