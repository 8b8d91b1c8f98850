package exchange

import (
	"encoding/json"
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
// down to the one event that is to blame, which is rejected; the rest goes on.
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
				t.Errorf("rejected %+v", a)
			}
			bad = "rejected"
		}
		list = slices.DeleteFunc(list, func(r event.Record) bool {
			return slices.ContainsFunc(c.Ack, func(a Ack) bool { return a.ID == r.ID }) ||
				slices.ContainsFunc(c.Rejected, func(a RejectedEvent) bool { return a.ID == r.ID })
		})
	}
	if bad != "rejected" {
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
		{name: "no network", x: Exchange{Unsent: three, Sent: idsOf(three)},
			want: func(c Change) bool { return c.Meta.Failures == 1 && c.WaitMs == 1000 && c.Say == nil && !c.Again }},
		{name: "no answer in time", x: Exchange{Unsent: three, Sent: idsOf(three), Timeout: true, Meta: Meta{Batch: 9}},
			want: func(c Change) bool { return c.Meta.Batch == 4 && c.Meta.Failures == 1 }},
		{name: "the pause doubles up to five minutes", x: Exchange{Meta: Meta{Failures: 40}},
			want: func(c Change) bool { return c.WaitMs == 300_000 }},
		{name: "asked to wait longer than that", x: Exchange{Status: 429, Reply: refusal(problem.SlowDown, ""), RetryAfter: 900},
			want: func(c Change) bool {
				return c.WaitMs == 900_000 && c.Meta.RetryAfter == 900 && c.Say.Kind == problem.SlowDown
			}},
		{name: "sign-in page", x: Exchange{Status: 200, Reply: "<html>\n", Unsent: one, Sent: idsOf(one)},
			want: func(c Change) bool { return c.Say.Kind == problem.Busy && len(c.Ack) == 0 && c.Meta.Cursor == 0 }},
		{name: "a JSON that is no reply", x: Exchange{Status: 200, Reply: "{}\n"},
			want: func(c Change) bool { return c.Say.Kind == problem.Busy }},
		{name: "a proxy's 413", x: Exchange{Status: 413, Reply: "too big", Unsent: three, Sent: idsOf(three)},
			want: func(c Change) bool { return c.Meta.Batch == 1 && c.Again && len(c.Rejected) == 0 }},
		{name: "a 413 for one event", x: Exchange{Status: 413, Reply: "too big", Unsent: one, Sent: idsOf(one)},
			want: func(c Change) bool { return len(c.Rejected) == 1 && c.Again }},
		{name: "502", x: Exchange{Status: 502, Reply: "bad gateway", Unsent: three, Sent: idsOf(three)},
			want: func(c Change) bool { return c.Say.Kind == problem.Busy && c.Meta.Batch == 0 && len(c.Rejected) == 0 }},
		{name: "the head is to blame", x: Exchange{Status: 400, Reply: refusal(problem.Malformed, "head"), Unsent: one, Sent: idsOf(one)},
			want: func(c Change) bool { return len(c.Rejected) == 0 && c.Meta.Failures == 1 }},
		{name: "cut once is chance", x: Exchange{Status: 400, Reply: refusal(problem.Cut, "count"), Unsent: one, Sent: idsOf(one)},
			want: func(c Change) bool { return len(c.Rejected) == 0 && c.Meta.Truncations == 1 }},
		{name: "cut three times is not", x: Exchange{Status: 400, Reply: refusal(problem.Cut, "count"), Unsent: one, Sent: idsOf(one), Meta: Meta{Truncations: 2}},
			want: func(c Change) bool { return len(c.Rejected) == 1 && c.Meta.Truncations == 0 }},
		{name: "revoked keeps everything", x: Exchange{Status: 403, Reply: refusal(problem.Revoked, ""), Unsent: one, Sent: idsOf(one)},
			want: func(c Change) bool {
				return c.Say.Kind == problem.Revoked && len(c.Rejected)+len(c.Ack)+len(c.Unsend) == 0 && c.Forget == nil
			}},
		{name: "another crew answers", x: Exchange{Status: 200, Reply: pageOf(Mark{}, 0), Meta: Meta{Crew: "ours"}},
			want: func(c Change) bool { return c.Say.Kind == problem.WrongCrew && c.Meta.Crew == "ours" }},
		{name: "a newer server", x: Exchange{Status: 200, Reply: `{"proto":2,"now":1}` + "\n"},
			want: func(c Change) bool { return c.Say.Kind == problem.OldApp }},
		{name: "an ack for what was not sent", x: Exchange{Status: 200, Reply: pageOf(Mark{}, 0) + `{"id":"` + one[0].ID + `","n":1,"o":"0199f3c0b4000000"}` + "\n"},
			want: func(c Change) bool { return len(c.Ack) == 0 }},
	} {
		c.x.Meta.Revision = 5
		got := Apply(c.x)
		if !c.want(got) || got.Meta.Revision != 6 {
			t.Errorf("%s: %+v, say %+v", c.name, got, got.Say)
		}
	}
}

// TestRefusedStillPulls: where the server takes nothing now, the next request
// brings nothing, nothing is rejected, and once a pull went well the one after it
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
