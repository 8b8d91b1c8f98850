package load

import (
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"

	"kerfside/guides"
	"kerfside/pwa"
	"kerfside/server"
	"kerfside/server/store"
)

// kerfside serves a real server whose requests pass through around.
func kerfside(t *testing.T, around func(http.Handler) http.Handler) *Kerfside {
	t.Helper()
	db, err := store.Open("file:/"+t.Name()+"?vfs=memdb", store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	h, err := server.New(server.Options{Store: db, App: pwa.Files, Guides: guides.Files})
	if err != nil {
		t.Fatal(err)
	}
	web := httptest.NewServer(around(h))
	t.Cleanup(web.Close)
	cookies, err := Enrol(db.Access, web.URL, 3)
	if err != nil {
		t.Fatal(err)
	}
	return NewKerfside(web.URL, cookies)
}

// A server that loses every fourth reply after it has stored the request holds
// each event once, and what it acknowledged. The oracle is the union of sets.
func TestLostRepliesAreBroughtAgain(t *testing.T) {
	var (
		count  atomic.Int64
		losing atomic.Bool
	)
	k := kerfside(t, func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if !losing.Load() || count.Add(1)%4 != 0 {
				next.ServeHTTP(w, r)
				return
			}
			next.ServeHTTP(httptest.NewRecorder(), r)
			http.Error(w, "lost", http.StatusBadGateway)
		})
	})
	var before Tally
	for _, follows := range []bool{false, true} {
		losing.Store(true)
		f, acked, err := Run(context.Background(), k, Load{Devices: 3, Batch: 7, Total: 210, Follows: follows})
		if err != nil || f.Brought != 210 || f.Failures == 0 {
			t.Fatalf("follows %v: %d events brought with %d failures, %v; want 210 with some", follows, f.Brought, f.Failures, err)
		}
		if follows && f.Came < 210 {
			t.Errorf("three devices that follow took in %d events", f.Came)
		}
		if f.Wait(50) > f.Wait(95) || f.Wait(50) <= 0 {
			t.Errorf("half the exchanges took up to %v, 95 of 100 up to %v", f.Wait(50), f.Wait(95))
		}
		losing.Store(false)
		acked.Join(before)
		before = acked
		held, err := k.Held(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if err := acked.Check(held); err != nil {
			t.Error(err)
		}
	}
}

// A server that loses an event, keeps another in its place or breaks its chain
// is found out.
func TestCheckFindsWhatIsWrong(t *testing.T) {
	m := maker{device: "d"}
	events := m.batch(3)
	var acked, fewer, other Tally
	for i, raw := range events {
		acked.Add(raw)
		if i > 0 {
			fewer.Add(raw)
			other.Add(raw)
		}
	}
	other.Add(m.event())
	if err := acked.Check(acked); err != nil {
		t.Errorf("the same events: %v", err)
	}
	if err := acked.Check(fewer); err == nil {
		t.Error("a lost event was not found")
	}
	if err := acked.Check(other); err == nil {
		t.Error("another event in the place of one was not found")
	}
	k := kerfside(t, func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			reply := httptest.NewRecorder()
			r.Header.Del("Accept-Encoding")
			next.ServeHTTP(reply, r)
			w.Write([]byte(strings.ReplaceAll(reply.Body.String(), "quarter", "half turn")))
		})
	})
	if _, _, err := Run(context.Background(), k, Load{Devices: 1, Batch: 5, Total: 5}); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Held(context.Background()); err == nil {
		t.Error("changed bytes were not found")
	}
}

// A load that leaves the newest mark behind does not make the next one slower: it is
// moved to the journal's end, however many pages that takes.
func TestCatchUp(t *testing.T) {
	k := kerfside(t, func(next http.Handler) http.Handler { return next })
	other := NewKerfside(k.line.url, k.cookies)
	const brought = 2600
	if _, _, err := Run(context.Background(), other, Load{Devices: 2, Batch: 100, Total: brought}); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := k.CatchUp(context.Background()); err != nil || k.newest.N != brought {
			t.Fatalf("the newest mark is %d, %v, want %d", k.newest.N, err, brought)
		}
	}
}
