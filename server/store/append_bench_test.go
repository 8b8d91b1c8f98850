package store_test

import (
	"context"
	"crypto/rand"
	"encoding/base64"
	"fmt"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// BenchmarkGrown lets 20 phones bring batches of 50, as the server does and
// without the network, into a journal of so many entries. Only figures of one run
// compare.
func BenchmarkGrown(b *testing.B) {
	for _, size := range []int{10_000, 1_000_000} {
		s, err := store.Open(filepath.Join(b.TempDir(), "journal.db"), store.Options{Crew: storetest.Crew})
		if err != nil {
			b.Fatal(err)
		}
		b.Cleanup(func() { s.Close() })
		b.Run(fmt.Sprint(size), func(b *testing.B) {
			for state, _ := s.State(storetest.Crew); state.Max < int64(size); state, _ = s.State(storetest.Crew) {
				bring(b, s, 10_000)
			}
			var next atomic.Int64
			var all sync.WaitGroup
			b.ResetTimer()
			for range 20 {
				all.Go(func() {
					for next.Add(1) <= int64(b.N) {
						bring(b, s, 50)
					}
				})
			}
			all.Wait()
			b.ReportMetric(float64(b.N*50)/b.Elapsed().Seconds(), "events/s")
		})
	}
}

// bring stores so many new entries, each with a random id, as phones make them.
func bring(b *testing.B, s *store.Store, size int) {
	batch := store.Batch{Crew: storetest.Crew, Relay: "phone-a", Now: time.Now().UnixMilli()}
	for range size {
		var id [16]byte
		rand.Read(id[:])
		raw := fmt.Appendf(nil, `{"id":%q,"t":%q,"device":"phone-a","kind":"part.reading","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","about":"tip","body":{"dmax":1120,"dmin":1080,"pit":120,"note":"tip turned a quarter"}}`,
			base64.RawURLEncoding.EncodeToString(id[:]), event.StampOf(batch.Now))
		e, err := event.Decode(raw)
		if err != nil {
			b.Fatal(err)
		}
		batch.Events = append(batch.Events, exchange.Push{Event: e, O: e.T, Sum: event.SumOf(raw)})
	}
	if _, err := s.Append(context.Background(), batch); err != nil {
		b.Fatal(err)
	}
}
