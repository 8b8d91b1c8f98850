package server

import (
	"bytes"
	"errors"
	"log/slog"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
)

// TestDamagedDatabase: what a phone brings is refused with what to do and no
// line in the log, the phone keeps it, fetches with its next request what others
// brought before, and shows the refusal as the trouble of its last try.
func TestDamagedDatabase(t *testing.T) {
	s := syncServer(t)
	if got := post(s, strings.NewReader(request(exchange.Mark{}, note(1), note(2)))); got.Code != 200 {
		t.Fatal(got.Code, got.Body)
	}
	var log bytes.Buffer
	s.log = slog.New(slog.NewTextHandler(&log, nil))
	s.store.Damage(errors.New("quick_check says so"))
	list := []event.Record{{ID: "note000000000000000003", Raw: note(3), Unsent: event.ToSend}}

	sent := exchange.NextRequest(exchange.Meta{Crew: crewID}, list, start)
	answer := post(s, strings.NewReader(sent.Body))
	if answer.Code != 507 || answer.Header().Get("Retry-After") != "60" || log.Len() > 0 {
		t.Errorf("status %d, Retry-After %q, log %s", answer.Code, answer.Header().Get("Retry-After"), &log)
	}
	change := exchange.Apply(exchange.Exchange{Meta: exchange.Meta{Crew: crewID}, Status: answer.Code, Reply: answer.Body.String(), Unsent: list, Sent: sent.Sent})
	if change.Say == nil || change.Say.Kind != problem.DiskFull || !strings.Contains(change.Say.Hint, "kerfside restore") || len(change.Ack) > 0 || len(change.Rejected) > 0 {
		t.Errorf("the phone says %+v; acknowledged %v, put aside %v", change.Say, change.Ack, change.Rejected)
	}

	sent = exchange.NextRequest(change.Meta, list, start)
	answer = post(s, strings.NewReader(sent.Body))
	change = exchange.Apply(exchange.Exchange{Meta: change.Meta, Status: answer.Code, Reply: answer.Body.String(), Unsent: list, Sent: sent.Sent})
	if len(sent.Sent) != 0 || answer.Code != 200 || len(change.Put) != 2 {
		t.Errorf("the next request brings %d; status %d, %d fetched, want 0, 200 and 2", len(sent.Sent), answer.Code, len(change.Put))
	}
}
