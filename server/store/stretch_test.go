package store_test

import (
	"encoding/hex"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// numbered are entries as their crew holds them: the number of each, and none twice.
type numbered map[string]int64

// bring stores a batch and holds the answers against what is known: an entry that
// is there keeps its number, any other gets the next.
func (n numbered) bring(t *testing.T, s *store.Store, list []exchange.Push) {
	t.Helper()
	acks, err := s.Append(t.Context(), store.Batch{Crew: storetest.Crew, Now: storetest.Now, Events: list})
	if err != nil {
		t.Fatal(err)
	}
	for _, ack := range acks {
		want, known := n[ack.ID]
		if !known {
			want = int64(len(n) + 1)
			n[ack.ID] = want
		}
		if ack.N != want || ack.Conflict {
			t.Fatalf("%s is acknowledged as %d, taken %t; it is arrival %d", ack.ID, ack.N, ack.Conflict, want)
		}
	}
}

// TestIDsStandOnce: whatever stretch an id went into, it is stored once, also after
// the store was opened anew, with stretches of another size, after stretches lost
// their filters, and where rows of a time before stretches lie below.
func TestIDsStandOnce(t *testing.T) {
	histories := 40
	if testing.Short() {
		histories = 8
	}
	for history := range histories {
		chance := rand.New(rand.NewPCG(uint64(history), 6))
		path := filepath.Join(t.TempDir(), "journal.db")
		begin := func() *store.Store {
			s, err := store.Open(path, store.Options{Crew: storetest.Crew, Stretch: 1 + chance.IntN(9)})
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		pool := storetest.Events(t, fmt.Sprintf("ph%04d", history), 120)
		s, there := begin(), numbered{}
		for range 40 {
			var list []exchange.Push
			for range 1 + chance.IntN(8) {
				list = append(list, pool[chance.IntN(len(pool))])
			}
			there.bring(t, s, list)
			if chance.IntN(6) > 0 {
				continue
			}
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			db := storetest.Raw(t, path)
			damage := []string{
				`SELECT 1`,
				`UPDATE stretch SET filter = zeroblob(length(filter)) WHERE filter IS NOT NULL`,
				`UPDATE stretch SET filter = x'00' WHERE filter IS NOT NULL AND number % 2 = 0`,
				// As a version without stretches has left it.
				`UPDATE event SET id = substr(id, -22); DROP TABLE stretch; DROP TABLE standing;
					DROP TABLE move; ALTER TABLE crew DROP COLUMN state; ALTER TABLE crew DROP COLUMN moves; PRAGMA user_version = 5`,
			}[chance.IntN(4)]
			if _, err := db.Exec(damage); err != nil {
				t.Fatal(err)
			}
			db.Close()
			s = begin()
		}
		rows, err := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
		if err != nil {
			t.Fatal(err)
		}
		if len(rows) != len(there) {
			t.Fatalf("history %d: %d rows of %d entries", history, len(rows), len(there))
		}
		for _, r := range rows {
			if there[r.ID] != r.N {
				t.Fatalf("history %d: %s is arrival %d, acknowledged as %d", history, r.ID, r.N, there[r.ID])
			}
		}
		s.Close()
	}
}

// TestFailedBatch: what a batch did to the stretches does not outlive it if it is
// rolled back: its entries are new when they come again, and known after that, also
// when the store was opened anew.
func TestFailedBatch(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	begin := func() *store.Store {
		s, err := store.Open(path, store.Options{Crew: storetest.Crew, Stretch: 30})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { s.Close() })
		return s
	}
	s, there := begin(), numbered{}
	pool := storetest.Events(t, "phonea", 200)
	there.bring(t, s, pool[:3])
	if err := store.LimitPages(s, 30); err != nil { // full after some of the stretches
		t.Fatal(err)
	}
	if _, err := s.Append(t.Context(), store.Batch{Crew: storetest.Crew, Now: storetest.Now, Events: pool}); err == nil {
		t.Fatal("a full disk took a batch")
	}
	if err := store.LimitPages(s, 1<<20); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		there.bring(t, s, pool)
		s.Close()
		s = begin()
	}
	there.bring(t, s, pool)
}

// TestFilter: a filter never misses an id that was added, on a shelf or alone, and
// takes few others for one.
func TestFilter(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	id := func() string {
		var b [11]byte
		for i := range b {
			b[i] = byte(chance.IntN(256))
		}
		return hex.EncodeToString(b[:])
	}
	const each, shelves, others = 1000, 5, 20000
	var lists [shelves][]string
	for i := range lists {
		for range each {
			lists[i] = append(lists[i], id())
		}
	}
	may := store.FilterOf(lists[:])
	for i, list := range lists {
		for _, one := range list {
			if !may(one, i) {
				t.Fatalf("filter %d misses %s", i, one)
			}
		}
	}
	wrong := 0
	for range others {
		one := id()
		for i := range lists {
			if may(one, i) {
				wrong++
			}
		}
	}
	// Bloom 1970: (1 − e^(−8/16))^8 = 0.00057 at 16 bits an id, fewer where the bits
	// were rounded up.
	if most := others * shelves / 1000; wrong > most {
		t.Errorf("%d of %d others are taken for one, want at most %d", wrong, others*shelves, most)
	}
}
