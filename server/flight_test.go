package server

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// heldBody is a body that says when it is first read, and then ends only once it
// is let go.
type heldBody struct {
	read  chan struct{} // with room for one word: nobody may be listening yet
	letGo chan struct{}
}

func (b heldBody) Read([]byte) (int, error) {
	select {
	case b.read <- struct{}{}:
	default:
	}
	<-b.letGo
	return 0, io.ErrUnexpectedEOF
}

// hold begins a request whose body does not come. It returns when the body is
// waited for, with nil, or with the answer if there is one without it.
func hold(letGo chan struct{}, ended chan<- int, send func(change func(*http.Request)) *httptest.ResponseRecorder) *httptest.ResponseRecorder {
	body := heldBody{make(chan struct{}, 1), letGo}
	answer := make(chan *httptest.ResponseRecorder, 1)
	go func() {
		out := send(func(r *http.Request) { r.Body = io.NopCloser(body) })
		answer <- out
		ended <- out.Code
	}()
	select {
	case <-body.read:
		return nil
	case out := <-answer:
		return out
	}
}

// TestHeldRequests: whoever begins requests and does not end them gets a few, on
// whatever address of the server, and keeps nobody else out.
func TestHeldRequests(t *testing.T) {
	p := newShop(t)
	wild, calm := p.join(crewID, store.Member, "wild"), p.join(crewID, store.Member, "calm")
	nobody := client{shop: p}
	for name, c := range map[string]struct {
		ways   [][2]string
		from   client
		max    int
		others []client
	}{
		"a phone":        {ways: [][2]string{{"POST", "/api/journal/sync"}, {"PUT", "/api/photos/" + strings.Repeat("a", 64)}, {"PATCH", "/api/devices/wild"}}, from: wild, max: p.server.limits.held.each, others: []client{calm, nobody}},
		"nobody's phone": {ways: [][2]string{{"POST", "/api/enrol"}, {"POST", "/api/calc/duty-cycle"}}, from: nobody, max: p.server.limits.heldByAddress.each, others: []client{wild, calm}},
	} {
		letGo, ended := make(chan struct{}), make(chan int, 240)
		waiting := 0
		for i := range 240 {
			way := c.ways[i%len(c.ways)]
			out := hold(letGo, ended, func(change func(*http.Request)) *httptest.ResponseRecorder {
				return c.from.send(way[0], way[1], "", change)
			})
			if out == nil {
				waiting++
			} else if kind(out) != problem.Busy || out.Code != 503 || out.Header().Get("Retry-After") == "" {
				t.Errorf("%s, %s %s, request %d: %d %s", name, way[0], way[1], i+1, out.Code, out.Body)
			}
		}
		if waiting != c.max {
			t.Errorf("%s: %d of 240 bodies are waited for, want %d", name, waiting, c.max)
		}
		for _, other := range c.others {
			if out := other.send("GET", "/api/status", "", from("198.51.100.7:1")); out.Code != 200 {
				t.Errorf("%s holds requests, and another is told %d %s", name, out.Code, out.Body)
			}
			if other.token == "" {
				continue
			}
			if out := other.send("GET", "/api/devices", ""); out.Code != 200 {
				t.Errorf("%s holds requests, and %s is told %d %s", name, other.id, out.Code, out.Body)
			}
		}
		close(letGo)
		for range 240 {
			<-ended
		}
		if out := c.from.send("GET", "/api/status", ""); out.Code != 200 {
			t.Errorf("%s has let go, and is told %d %s", name, out.Code, out.Body)
		}
		if left := len(p.server.limits.held.of) + len(p.server.limits.heldByAddress.of); left != 0 {
			t.Errorf("%s: %d senders are remembered after the last request", name, left)
		}
	}
	if lines := strings.Count(p.log.String(), "request failed"); lines > 0 {
		t.Errorf("%d lines are logged: whoever asks too much could fill the disk with them", lines)
	}
}

// TestFlightIsBounded: nor do many senders together hold more than all may.
func TestFlightIsBounded(t *testing.T) {
	f := newInFlight(2, 5)
	var leave []func()
	for i := range 10 {
		end, err := f.enter(fmt.Sprint("sender ", i))
		if (err == nil) != (i < 5) || err != nil && problem.KindOf(err) != problem.Busy {
			t.Errorf("sender %d: %v", i, err)
		}
		if err == nil {
			leave = append(leave, end)
		}
	}
	leave[3]()
	if _, err := f.enter("sender 0"); err != nil {
		t.Errorf("after one has left: %v", err)
	}
	if _, err := f.enter("sender 9"); problem.KindOf(err) != problem.Busy {
		t.Errorf("and one more: %v", err)
	}
}
