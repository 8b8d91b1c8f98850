package exchange

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

func TestResend(t *testing.T) {
	text := string(NewReply(ReplyHead{Crew: "crew", Now: t0, Resend: []string{id("lost")}}).Bytes())
	if c := Apply(Exchange{Status: 200, Reply: text}); !slices.Equal(c.Unsend, []string{id("lost")}) || c.Again {
		t.Errorf("%+v", c)
	}
}

// TestRequestLimits: at most 500 events and 1 MiB, at least one, the oldest
// first, none that was rejected, and o only where a server gave one.
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
