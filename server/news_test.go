package server

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// newsShop is a shop in which a phone that waits for news is kept waiting until
// something happens: no test of it ends by time.
func newsShop(t *testing.T) *shop {
	p := newShop(t)
	p.server.holdFor, p.server.ending = time.Hour, make(chan struct{})
	t.Cleanup(p.server.EndWaits)
	return p
}

// waits begins a request for news and returns, once it waits, where the answer
// will come.
func (c client) waits(after int, change ...func(*http.Request)) <-chan *httptest.ResponseRecorder {
	answer := make(chan *httptest.ResponseRecorder, 1)
	before := c.server.limits.waiting.held()
	go func() { answer <- c.send("GET", fmt.Sprintf("/api/journal/news?after=%d", after), "", change...) }()
	for c.server.limits.waiting.held() == before && len(answer) == 0 {
		time.Sleep(time.Millisecond)
	}
	return answer
}

func (f *inFlight) held() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.sum
}

func (w *waiting) held() int {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.sum
}

func (p *shop) push(c client, crew string, n int) {
	p.t.Helper()
	if out := c.send("POST", "/api/journal/sync", syncOf(crew, note(n))); out.Code != 200 {
		p.t.Fatal(out.Code, out.Body)
	}
}

// TestNews: an arrival wakes who waits in that crew, with its number, and nobody of
// another; who comes after it, or has heard of another history, does not wait.
func TestNews(t *testing.T) {
	p := newsShop(t)
	one, two := p.join(crewID, store.Member, "one"), p.join(crewID, store.Owner, "two")
	stranger := p.join(p.other, store.Owner, "stranger")
	first, second, other := one.waits(0), two.waits(0), stranger.waits(0)
	p.push(two, crewID, 1)
	for _, answer := range []<-chan *httptest.ResponseRecorder{first, second} {
		if out := <-answer; out.Code != 200 || strings.TrimSpace(out.Body.String()) != `{"max":1}` {
			t.Errorf("the answer is %d %s, want 200 with the arrival's number", out.Code, out.Body)
		}
	}
	for _, after := range []string{"0", "9"} {
		if out := one.send("GET", "/api/journal/news?after="+after, ""); out.Code != 200 {
			t.Errorf("after %s at 1: %d %s", after, out.Code, out.Body)
		}
	}
	for _, after := range []string{"", "-1", "x", "99999999999999999999"} {
		if out := one.send("GET", "/api/journal/news?after="+after, ""); out.Code != 400 || kind(out) != problem.Malformed {
			t.Errorf("after %q: %d %s", after, out.Code, out.Body)
		}
	}
	if len(other) != 0 {
		t.Errorf("another crew was told: %d", (<-other).Code)
	}
	p.push(stranger, p.other, 1)
	if out := <-other; out.Code != 200 {
		t.Errorf("its own arrival brought %d %s", out.Code, out.Body)
	}
}

// TestNewsIsNotMissed: whatever the moment at which an arrival is committed, before
// or after the phone's request is read, the phone hears of it.
func TestNewsIsNotMissed(t *testing.T) {
	p := newsShop(t)
	phones := [4]client{}
	for i := range phones {
		phones[i] = p.join(crewID, store.Member, fmt.Sprintf("phone-%d", i))
	}
	done := make(chan int, len(phones))
	const arrivals = 60
	for _, c := range phones {
		go func() {
			at := 0
			for at < arrivals {
				p.server.limits.device.forget()
				out := c.send("GET", fmt.Sprintf("/api/journal/news?after=%d", at), "")
				if _, err := fmt.Sscanf(out.Body.String(), `{"max":%d}`, &at); err != nil {
					break
				}
			}
			done <- at
		}()
	}
	for n := range arrivals {
		p.server.limits.device.forget()
		p.push(phones[n%len(phones)], crewID, n+1)
	}
	for range phones {
		if at := <-done; at != arrivals {
			t.Errorf("a phone heard of arrival %d as the last, want %d", at, arrivals)
		}
	}
}

// forget fills all buckets again.
func (l *limiter) forget() {
	l.mu.Lock()
	defer l.mu.Unlock()
	clear(l.bucket)
}

// TestNewsEnds: a phone that is taken out is told at once, another of the crew goes
// on waiting; and when the server stops, all are let go and nobody waits any more.
func TestNewsEnds(t *testing.T) {
	p := newsShop(t)
	out, stays := p.join(crewID, store.Member, "out"), p.join(crewID, store.Owner, "stays")
	taken, waiting := out.waits(0), stays.waits(0)
	if err := p.server.store.Revoke(crewID, out.id, stays.id, start); err != nil {
		t.Fatal(err)
	}
	if answer := <-taken; answer.Code != 403 || kind(answer) != problem.Revoked {
		t.Errorf("the phone that was taken out heard %d %s", answer.Code, answer.Body)
	}
	if len(waiting) != 0 {
		t.Errorf("the other phone was told %d", (<-waiting).Code)
	}
	p.server.EndWaits()
	p.server.EndWaits()
	if answer := <-waiting; answer.Code != 204 || answer.Body.Len() != 0 {
		t.Errorf("at the end: %d %s, want 204", answer.Code, answer.Body)
	}
	if answer := stays.send("GET", "/api/journal/news?after=0", ""); answer.Code != 204 {
		t.Errorf("after the end: %d", answer.Code)
	}
	if strings.Contains(p.log.String(), "request failed") {
		t.Errorf("the log tells of failures:\n%s", &p.log)
	}
}

// TestNewsOfManyTabs: a phone may wait a few times at once. With one more its oldest
// request, which it may have given up without the server hearing of it, is asked to
// come again, and no newer one; a request whose phone has hung up makes room, and
// other requests of the phone are counted elsewhere.
func TestNewsOfManyTabs(t *testing.T) {
	p := newsShop(t)
	c := p.join(crewID, store.Member, "phone")
	ctx, hangUp := context.WithCancel(t.Context())
	var tabs []<-chan *httptest.ResponseRecorder
	each := p.server.limits.waiting.each
	for range each {
		tabs = append(tabs, c.waits(0, func(r *http.Request) { *r = *r.WithContext(ctx) }))
	}
	for n := range 2 {
		answer := make(chan *httptest.ResponseRecorder, 1)
		go func() {
			answer <- c.send("GET", "/api/journal/news?after=0", "", func(r *http.Request) { *r = *r.WithContext(ctx) })
		}()
		if out := <-tabs[n]; out.Code != 503 || kind(out) != problem.Busy || out.Header().Get("Retry-After") == "" {
			t.Errorf("the oldest of one too many: %d %s", out.Code, out.Body)
		}
		tabs = append(tabs, answer)
	}
	if waits := p.server.limits.waiting.held(); waits != each {
		t.Errorf("%d requests wait, want %d", waits, each)
	}
	for n, tab := range tabs[2:] {
		if len(tab) != 0 {
			t.Errorf("newer request %d was let go too: %d", n, (<-tab).Code)
		}
	}
	if held := p.server.limits.held.held(); held != 0 {
		t.Errorf("%d of the places of other requests are taken", held)
	}
	if strings.Contains(p.log.String(), "request failed") {
		t.Errorf("the log tells of failures:\n%s", &p.log)
	}
	hangUp()
	for _, tab := range tabs[2:] {
		<-tab
	}
	if waits := p.server.limits.waiting.held(); waits != 0 {
		t.Errorf("%d places are taken by phones that have hung up", waits)
	}
	again := c.waits(0)
	p.push(c, crewID, 1)
	if answer := <-again; answer.Code != 200 {
		t.Errorf("once there is room: %d %s", answer.Code, answer.Body)
	}
}

// TestNewsOfTooMany: when as many wait as the server has room for, another phone is
// asked to come again, and nobody who waits is let go for it.
func TestNewsOfTooMany(t *testing.T) {
	p := newsShop(t)
	p.server.limits.waiting.all = 1
	first, second := p.join(crewID, store.Member, "first"), p.join(crewID, store.Member, "second")
	answer := first.waits(0)
	if out := second.send("GET", "/api/journal/news?after=0", ""); out.Code != 503 || kind(out) != problem.Busy {
		t.Errorf("one too many: %d %s", out.Code, out.Body)
	}
	p.push(second, crewID, 1)
	if out := <-answer; out.Code != 200 {
		t.Errorf("the one who waited was told %d %s", out.Code, out.Body)
	}
}
