package main

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
)

// steadyPhone enters something all the time and syncs as the app does: what to send and
// what a reply means, the app's own state machine says.
type steadyPhone struct {
	t        *testing.T
	line     *proxyPhone
	meta     exchange.Meta
	records  map[string]event.Record
	clock    event.Stamp
	tapped   []string
	said     string // what the person was last told, "" if all is well
	rejected int
}

func newSteadyPhone(t *testing.T, line *proxyPhone, crew string) *steadyPhone {
	return &steadyPhone{t: t, line: line, meta: exchange.Meta{Crew: crew}, records: map[string]event.Record{}}
}

// tap enters something.
func (p *steadyPhone) tap() {
	p.clock = event.Next(p.clock, time.Now().UnixMilli(), p.meta.Offset)
	id := fmt.Sprintf("steady%016d", len(p.tapped))
	raw := fmt.Sprintf(`{"id":%q,"t":%q,"device":"steady","kind":"note.added","v":1,"body":{"text":"hinge %d"}}`, id, p.clock, len(p.tapped))
	p.records[id] = event.Record{ID: id, Raw: raw, T: p.clock, Unsent: event.ToSend}
	p.tapped = append(p.tapped, raw)
}

// waiting reports whether something is still to be sent.
func (p *steadyPhone) waiting() bool {
	for _, r := range p.records {
		if r.Unsent == event.ToSend {
			return true
		}
	}
	return false
}

// round enters something and does one exchange.
func (p *steadyPhone) round() {
	p.t.Helper()
	if len(p.tapped) < 400 { // at the end it only sends
		p.tap()
	}
	x := exchange.Exchange{Meta: p.meta}
	for _, r := range p.records {
		if r.Unsent == event.ToSend {
			x.Unsent = append(x.Unsent, r)
		} else if r.N > p.meta.Cursor {
			x.Promised = append(x.Promised, exchange.Promise{ID: r.ID, N: r.N})
		}
	}
	slices.SortFunc(x.Unsent, func(a, b event.Record) int { return cmp.Compare(a.T, b.T) })
	request := exchange.NextRequest(x.Meta, x.Unsent, time.Now().UnixMilli())
	if request.Skip != nil {
		p.t.Fatalf("the sync waits for a person: %v", request.Skip)
	}
	x.Sent, x.SentAt = request.Sent, time.Now().UnixMilli()
	a := p.line.ask("POST", "/api/journal/sync", []byte(request.Body))
	x.Status, x.Reply, x.GotAt = a.status, string(a.body), time.Now().UnixMilli()
	x.RetryAfter, _ = strconv.Atoi(a.header.Get("Retry-After"))
	p.apply(exchange.Apply(x))
}

// apply writes what a reply changes.
func (p *steadyPhone) apply(c exchange.Change) {
	p.t.Helper()
	p.meta = c.Meta
	if c.Forget != nil {
		p.t.Fatalf("it was told to go back to %d", *c.Forget)
	}
	for _, r := range c.Put {
		p.records[r.ID] = r
	}
	for _, a := range c.Ack {
		r := p.records[a.ID]
		r.N, r.O, r.Unsent = a.N, &a.O, 0
		p.records[a.ID] = r
	}
	for _, id := range c.Unsend {
		r := p.records[id]
		r.N, r.Unsent = 0, event.ToSend
		p.records[id] = r
	}
	p.rejected += len(c.Rejected)
	p.said = ""
	if c.Say != nil {
		p.said = c.Say.Msg
	}
}

// putPicture brings a picture and returns its address.
func (p *proxyPhone) putPicture(picture []byte) string {
	p.t.Helper()
	sum := sha256.Sum256(picture)
	address := "/api/photos/" + hex.EncodeToString(sum[:])
	if a := p.ask("PUT", address, picture); a.status/100 != 2 || a.status == http.StatusAccepted {
		p.t.Fatalf("a picture: %d %s", a.status, a.body)
	}
	return address
}
