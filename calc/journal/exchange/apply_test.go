package exchange

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// unsentRecords are n records of phone-a that wait to be sent.
func unsentRecords(t testing.TB, n int) []event.Record {
	var list []event.Record
	for _, e := range notes(t, "phone-a", n) {
		list = append(list, event.Record{ID: e.ID, Raw: string(e.Raw), T: e.T, Unsent: event.ToSend})
	}
	return list
}

func idsOf(list []event.Record) []string {
	ids := []string{}
	for _, r := range list {
		ids = append(ids, r.ID)
	}
	return ids
}

// refusal is a reply that refuses.
func refusal(kind problem.Kind, field string) string {
	text, _ := json.Marshal(problem.Envelope{Error: problem.New(kind, field, "no", "Do otherwise.")})
	return string(text) + "\n"
}

// pageOf writes a reply that hands out events after at, with a head that says max.
func pageOf(at Mark, max int64, events ...event.Event) string {
	w := NewReply(ReplyHead{Crew: "crew", Now: t0, Max: max})
	h := at.H
	for i, e := range events {
		h = h.Next(e.ID, e.T, event.SumOf(e.Raw))
		w.Arrival(Arrival{N: at.N + int64(i) + 1, ID: e.ID, O: e.T, Raw: e.Raw}, h)
	}
	return string(w.Bytes())
}

// TestRefusalsHalveTheBatch: a request that the server will not take is halved
// down to the one event that is to blame, which is put aside; the rest goes on.
func TestRefusalsHalveTheBatch(t *testing.T) {
	list := unsentRecords(t, 500)
	meta := Meta{}
	rounds := 0
	bad := list[317].ID
	for len(list) > 0 {
		if rounds++; rounds > 60 {
			t.Fatalf("%d events are still waiting", len(list))
		}
		r := NextRequest(meta, list, t0)
		x := Exchange{Meta: meta, Unsent: list, Sent: r.Sent, Status: 400, Reply: refusal(problem.Malformed, "body")}
		if !slices.Contains(r.Sent, bad) {
			w := NewReply(ReplyHead{Crew: "crew", Now: t0, Max: 500})
			for i, id := range r.Sent {
				w.Ack(Ack{ID: id, N: int64(1000 + i), O: 1})
			}
			x.Status, x.Reply = 200, string(w.Bytes())
		}
		c := Apply(x)
		meta = c.Meta
		meta.Cursor, meta.Max = 0, 0
		for _, a := range c.Rejected {
			if a.ID != bad || a.Error.Kind != problem.Malformed || c.Say == nil {
				t.Errorf("put aside %+v", a)
			}
			bad = "put aside"
		}
		list = slices.DeleteFunc(list, func(r event.Record) bool {
			return slices.ContainsFunc(c.Ack, func(a Ack) bool { return a.ID == r.ID }) ||
				slices.ContainsFunc(c.Rejected, func(a RejectedEvent) bool { return a.ID == r.ID })
		})
	}
	if bad != "put aside" {
		t.Error("the bad event was taken")
	}
}

func TestApplyFailures(t *testing.T) {
	one, three := unsentRecords(t, 1), unsentRecords(t, 3)
	for _, c := range []struct {
		name string
		x    Exchange
		want func(Change) bool
	}{
		{"no network", Exchange{Unsent: three, Sent: idsOf(three)},
			func(c Change) bool { return c.Meta.Failures == 1 && c.WaitMs == 1000 && c.Say == nil && !c.Again }},
		{"no answer in time", Exchange{Unsent: three, Sent: idsOf(three), Timeout: true, Meta: Meta{Batch: 9}},
			func(c Change) bool { return c.Meta.Batch == 4 && c.Meta.Failures == 1 }},
		{"the pause doubles up to five minutes", Exchange{Meta: Meta{Failures: 40}},
			func(c Change) bool { return c.WaitMs == 300_000 }},
		{"asked to wait longer than that", Exchange{Status: 429, Reply: refusal(problem.SlowDown, ""), RetryAfter: 900},
			func(c Change) bool {
				return c.WaitMs == 900_000 && c.Meta.RetryAfter == 900 && c.Say.Kind == problem.SlowDown
			}},
		{"sign-in page", Exchange{Status: 200, Reply: "<html>\n", Unsent: one, Sent: idsOf(one)},
			func(c Change) bool { return c.Say.Kind == problem.Busy && len(c.Ack) == 0 && c.Meta.Cursor == 0 }},
		{"a JSON that is no reply", Exchange{Status: 200, Reply: "{}\n"},
			func(c Change) bool { return c.Say.Kind == problem.Busy }},
		{"a proxy's 413", Exchange{Status: 413, Reply: "too big", Unsent: three, Sent: idsOf(three)},
			func(c Change) bool { return c.Meta.Batch == 1 && c.Again && len(c.Rejected) == 0 }},
		{"a 413 for one event", Exchange{Status: 413, Reply: "too big", Unsent: one, Sent: idsOf(one)},
			func(c Change) bool { return len(c.Rejected) == 1 && c.Again }},
		{"502", Exchange{Status: 502, Reply: "bad gateway", Unsent: three, Sent: idsOf(three)},
			func(c Change) bool { return c.Say.Kind == problem.Busy && c.Meta.Batch == 0 && len(c.Rejected) == 0 }},
		{"the head is to blame", Exchange{Status: 400, Reply: refusal(problem.Malformed, "head"), Unsent: one, Sent: idsOf(one)},
			func(c Change) bool { return len(c.Rejected) == 0 && c.Meta.Failures == 1 }},
		{"cut once is chance", Exchange{Status: 400, Reply: refusal(problem.Cut, "count"), Unsent: one, Sent: idsOf(one)},
			func(c Change) bool { return len(c.Rejected) == 0 && c.Meta.Truncations == 1 }},
		{"cut three times is not", Exchange{Status: 400, Reply: refusal(problem.Cut, "count"), Unsent: one, Sent: idsOf(one), Meta: Meta{Truncations: 2}},
			func(c Change) bool { return len(c.Rejected) == 1 && c.Meta.Truncations == 0 }},
		{"revoked keeps everything", Exchange{Status: 403, Reply: refusal(problem.Revoked, ""), Unsent: one, Sent: idsOf(one)},
			func(c Change) bool {
				return c.Say.Kind == problem.Revoked && len(c.Rejected)+len(c.Ack)+len(c.Unsend) == 0 && c.Forget == nil
			}},
		{"another crew answers", Exchange{Status: 200, Reply: pageOf(Mark{}, 0), Meta: Meta{Crew: "ours"}},
			func(c Change) bool { return c.Say.Kind == problem.WrongCrew && c.Meta.Crew == "ours" }},
		{"a newer server", Exchange{Status: 200, Reply: `{"proto":2,"now":1}` + "\n"},
			func(c Change) bool { return c.Say.Kind == problem.OldApp }},
		{"an ack for what was not sent", Exchange{Status: 200, Reply: pageOf(Mark{}, 0) + `{"id":"` + one[0].ID + `","n":1,"o":"0199f3c0b4000000"}` + "\n"},
			func(c Change) bool { return len(c.Ack) == 0 }},
	} {
		c.x.Meta.Revision = 5
		got := Apply(c.x)
		if !c.want(got) || got.Meta.Revision != 6 {
			t.Errorf("%s: %+v, say %+v", c.name, got, got.Say)
		}
	}
}

// TestRefusedStillPulls: where the server takes nothing now, the next request
// brings nothing, nothing is put aside, and once a pull went well the one after it
// brings it again.
func TestRefusedStillPulls(t *testing.T) {
	t.Run("disk-full", func(t *testing.T) { refusedStillPulls(t, 507, problem.DiskFull) })
	t.Run("slow-down", func(t *testing.T) { refusedStillPulls(t, 429, problem.SlowDown) })
}

func refusedStillPulls(t *testing.T, status int, kind problem.Kind) {
	list := unsentRecords(t, 3)
	c := Apply(Exchange{Status: status, Reply: refusal(kind, ""), Unsent: list, Sent: idsOf(list)})
	if len(c.Rejected) > 0 || c.Say == nil || c.Say.Kind != kind {
		t.Errorf("refused: %+v", c)
	}
	if r := NextRequest(c.Meta, list, t0); len(r.Sent) != 0 || !strings.Contains(r.Body, `"count":0`) {
		t.Errorf("after the refusal: %+v", r)
	}
	c = Apply(Exchange{Meta: c.Meta, Status: 200, Reply: pageOf(Mark{}, 2, notes(t, "phone-b", 2)...), Unsent: list, Sent: []string{}})
	if len(c.Put) != 2 || !c.Again {
		t.Errorf("the pull: %+v", c)
	}
	if r := NextRequest(c.Meta, list, t0); len(r.Sent) != 3 {
		t.Errorf("after the pull: %+v", r)
	}
}

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

func TestAGapMeansRewound(t *testing.T) {
	c := Apply(Exchange{Status: 200, Reply: pageOf(Mark{N: 3}, 9, notes(t, "phone-b", 2)...)})
	if !c.Meta.Rewinding || len(c.Put) != 0 || !c.Again {
		t.Errorf("%+v", c)
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

// TestRewind goes through a rewind: marks are asked for, the last common one is
// taken, everything above it is forgotten; the third within an hour stops.
func TestRewind(t *testing.T) {
	meta := Meta{Crew: "crew", Cursor: 300, Head: event.Chain{3}, Marks: []Mark{{100, event.Chain{1}}, {200, event.Chain{2}}, {300, event.Chain{3}}}}
	c := Apply(Exchange{Meta: meta, Status: 409, Reply: refusal(problem.Rewound, "at")})
	r := NextRequest(c.Meta, unsentRecords(t, 4), t0)
	var head RequestHead
	if err := json.Unmarshal([]byte(r.Body), &head); err != nil || len(head.Marks) != 4 || head.Count != 0 || len(r.Sent) != 0 || head.Marks[0].N != 0 {
		t.Fatalf("request while rewinding: %s, %v", r.Body, err)
	}
	answer := func(m Mark, now int64) string {
		return string(NewReply(ReplyHead{Crew: "crew", Now: now, Max: 150, Rewound: &m}).Bytes())
	}
	if forged := Apply(Exchange{Meta: c.Meta, Status: 200, Reply: answer(Mark{100, event.Chain{9}}, t0)}); forged.Forget != nil || forged.Meta.Cursor != 300 {
		t.Errorf("a mark that the phone does not hold was taken: %+v", forged)
	}
	meta = c.Meta
	for i := range 3 {
		meta.Rewinding = true
		c = Apply(Exchange{Meta: meta, Status: 200, Reply: answer(Mark{100, event.Chain{1}}, t0+int64(i)*20*minute)})
		if c.Forget == nil || *c.Forget != 100 || c.Meta.Cursor != 100 || c.Meta.Head != (event.Chain{1}) || len(c.Meta.Marks) != 1 || c.Meta.Gen != int64(i+1) {
			t.Fatalf("rewind %d: %+v", i, c)
		}
		if stopped := c.Meta.Stopped != nil; stopped != (i == 2) {
			t.Errorf("after rewind %d stopped = %t", i, stopped)
		}
		meta = c.Meta
	}
	if r := NextRequest(meta, nil, t0); r.Skip == nil || r.Body != "" {
		t.Errorf("a stopped replica sends %q", r.Body)
	}
	meta.Stopped, meta.Rewinding = nil, true
	if c = Apply(Exchange{Meta: meta, Status: 200, Reply: answer(Mark{}, t0+200*minute)}); c.Meta.Stopped != nil || c.Meta.Cursor != 0 || len(c.Meta.Marks) != 0 {
		t.Errorf("hours later: %+v", c)
	}
}

// TestTakenId: the server has other bytes under the id; the phone's own are
// entered again and the server's take the place.
func TestTakenId(t *testing.T) {
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

func TestWantedEventsAreSentOnceMore(t *testing.T) {
	text := string(NewReply(ReplyHead{Crew: "crew", Now: t0, Resend: []string{id("lost")}}).Bytes())
	if c := Apply(Exchange{Status: 200, Reply: text}); !slices.Equal(c.Unsend, []string{id("lost")}) || c.Again {
		t.Errorf("%+v", c)
	}
}

// TestRequestLimits: at most 500 events and 1 MiB, at least one, the oldest
// first, none that was put aside, and o only where a server gave one.
func TestRequestLimits(t *testing.T) {
	list := unsentRecords(t, 700)
	slices.Reverse(list)
	if r := NextRequest(Meta{}, list, t0); len(r.Sent) != 500 || r.Sent[0] != list[699].ID {
		t.Errorf("%d sent, first %s", len(r.Sent), r.Sent[0])
	}
	for i := range list {
		list[i].Raw = strings.Replace(list[i].Raw, `"x"`, `"`+strings.Repeat("x", 15_000)+`"`, 1)
	}
	r := NextRequest(Meta{}, list, t0)
	if _, body, _ := strings.Cut(r.Body, "\n"); len(body) > MaxBody || len(body) < MaxBody-20_000 {
		t.Errorf("%d bytes of events", len(body))
	}
	o := event.Stamp(7)
	list = unsentRecords(t, 3)
	list[0].O, list[1].Unsent = &o, event.Rejected
	r = NextRequest(Meta{}, list, t0)
	want := `{"o":"0000000000000007","raw":` + list[0].Raw + "}\n" + list[2].Raw + "\n"
	if _, body, _ := strings.Cut(r.Body, "\n"); body != want || len(r.Sent) != 2 {
		t.Errorf("body = %s", body)
	}
	if _, pushes, err := ReadRequest([]byte(r.Body)); err != nil || len(pushes) != 2 || pushes[0].O != 7 || pushes[1].O != list[2].T {
		t.Errorf("read as %+v, %v", pushes, err)
	}
}
