package load

import (
	"context"
	"errors"
	"net/http"
	"path/filepath"
	"testing"

	"kerfside/calc/journal/exchange"
)

// The raw loop keeps what it acknowledged, in one transaction for each batch, with
// the pragmas of the store.
func TestRaw(t *testing.T) {
	r, err := NewRaw(filepath.Join(t.TempDir(), "raw.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	ctx := context.Background()
	f, acked, err := Run(ctx, r, Load{Devices: 4, Batch: 50, Total: 1000})
	if err != nil || f.Brought != 1000 {
		t.Fatalf("%d events brought: %v", f.Brought, err)
	}
	var held Tally
	rows, err := r.db.Query(`SELECT raw FROM event`)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		var raw []byte
		if err := rows.Scan(&raw); err != nil {
			t.Fatal(err)
		}
		held.Add(raw)
	}
	if err := acked.Check(held); err != nil {
		t.Error(err)
	}
	rows.Close()
	for pragma, want := range map[string]string{"journal_mode": "wal", "synchronous": "2", "wal_autocheckpoint": "4000", "cache_size": "-4000"} {
		var got string
		if err := r.db.QueryRow(`PRAGMA ` + pragma).Scan(&got); err != nil || got != want {
			t.Errorf("%s is %q (%v), want %q", pragma, got, err, want)
		}
	}
	ended, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := r.Exchange(ended, [][]byte{[]byte("x")}); !errors.Is(err, context.Canceled) {
		t.Errorf("a batch after the end: %v", err)
	}
	if n, err := r.Held(ctx); err != nil || n != 1000 {
		t.Errorf("the file holds %d events (%v), want 1000", n, err)
	}
}

// A phone that joins takes in all there is, over several pages, and waits where it
// is told to slow down.
func TestJoin(t *testing.T) {
	refusals := 0
	k := kerfside(t, func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if refusals == 1 {
				refusals++
				w.Header().Set("Retry-After", "1")
				http.Error(w, "slow down", http.StatusTooManyRequests)
				return
			}
			if refusals > 1 {
				refusals++
			}
			next.ServeHTTP(w, r)
		})
	})
	const events = 2*exchange.MaxPage + 7
	if _, _, err := Run(context.Background(), k, Load{Devices: 1, Batch: 100, Total: events}); err != nil {
		t.Fatal(err)
	}
	held, err := k.Held(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	refusals = 1
	n, err := k.Join(context.Background())
	if err != nil || n.Events != held.Count || n.Complete < n.Usable || n.Usable <= 0 || int64(n.Early) != held.Count || refusals < 4 {
		t.Errorf("it took in %d events in %v with %d requests after the refusal: %v; want %d", n.Events, n.Complete, refusals-2, err, held.Count)
	}
}
