package store_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	_ "github.com/mattn/go-sqlite3"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

func onDisk(t *testing.T) *store.Store {
	return storetest.Open(t, filepath.Join(t.TempDir(), "journal.db"))
}

func TestContract(t *testing.T) {
	t.Run("disk", func(t *testing.T) { storetest.Run(t, onDisk) })
	t.Run("short-stretches", func(t *testing.T) {
		storetest.Run(t, func(t *testing.T) *store.Store {
			s, err := store.Open(filepath.Join(t.TempDir(), "journal.db"), store.Options{Crew: storetest.Crew, Stretch: 2})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { s.Close() })
			return s
		})
	})
	t.Run("memory", func(t *testing.T) {
		storetest.Run(t, func(t *testing.T) *store.Store {
			return storetest.Open(t, "file:/"+strings.ReplaceAll(t.Name(), "/", "-")+"?vfs=memdb")
		})
	})
}

// TestReopen: what was there is there, and the numbering goes on.
func TestReopen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a name with spaces & 100%.db")
	s := storetest.Open(t, path)
	if _, err := s.Append(t.Context(), storetest.Batch(t, "phonea", 5)); err != nil {
		t.Fatal(err)
	}
	before, _ := s.State(storetest.Crew)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if got, _ := again.State(storetest.Crew); got != before || again.Crew() != storetest.Crew {
		t.Errorf("state = %+v of crew %s, want %+v", got, again.Crew(), before)
	}
	acks, err := again.Append(t.Context(), storetest.Batch(t, "phoneb", 1))
	if err != nil || acks[0].N != 6 {
		t.Errorf("next arrival = %+v, %v", acks, err)
	}
}

// TestOpenTwice: the second opener is told, and the first goes on.
func TestOpenTwice(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := storetest.Open(t, path)
	if second, err := store.Open(path, store.Options{}); err == nil {
		second.Close()
		t.Fatal("two servers opened one store")
	} else if !strings.Contains(err.Error(), "in use") {
		t.Errorf("error = %v", err)
	}
	if _, err := s.Append(t.Context(), storetest.Batch(t, "phonea", 1)); err != nil {
		t.Error(err)
	}
}

func TestCrewIsMadeOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s, err := store.Open(path, store.Options{Random: bytes.NewReader(bytes.Repeat([]byte{0xA5}, 16))})
	if err != nil {
		t.Fatal(err)
	}
	const want = "paWlpaWlpaWlpaWlpaWlpQ" // base64url of sixteen A5, by RFC 4648 section 5
	if s.Crew() != want {
		t.Errorf("crew = %q, want %q", s.Crew(), want)
	}
	s.Close()
	if s = storetest.Open(t, path); s.Crew() != want {
		t.Errorf("after a restart crew = %q", s.Crew())
	}
	if _, err := store.Open(filepath.Join(t.TempDir(), "x.db"), store.Options{Random: bytes.NewReader(nil)}); err == nil {
		t.Error("a crew was made without randomness")
	}
}

// TestPragmas reads what each connection was opened with from the file.
func TestPragmas(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	storetest.Open(t, path)
	db := storetest.Raw(t, path)
	var mode string
	if err := db.QueryRow(`PRAGMA journal_mode`).Scan(&mode); err != nil || mode != "wal" {
		t.Errorf("journal_mode = %q, %v, want wal", mode, err)
	}
}

// TestFlippedByte: a row whose bytes changed on the disk is not handed out, is
// asked for by name, and is mended by a phone that brings it again.
func TestFlippedByte(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s := storetest.Open(t, path)
	b := storetest.Batch(t, "phonea", 10)
	if _, err := s.Append(t.Context(), b); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil { // what has just come is handed out from memory
		t.Fatal(err)
	}
	s = storetest.Open(t, path)
	if _, err := storetest.Raw(t, path).Exec(`UPDATE event SET raw = CAST(replace(CAST(raw AS TEXT), 'note', 'nope') AS BLOB) WHERE n = 6`); err != nil {
		t.Fatal(err)
	}
	rows, err := s.After(t.Context(), storetest.Crew, 0, 100, 1<<20)
	if err != nil || len(rows) != 5 {
		t.Fatalf("%d rows, %v, want the 5 before the damaged one", len(rows), err)
	}
	if got := s.Damaged(storetest.Crew); len(got) != 1 || got[0] != b.Events[5].Event.ID {
		t.Errorf("damaged = %v, want %s", got, b.Events[5].Event.ID)
	}
	b.Events = b.Events[5:6]
	acks, err := s.Append(t.Context(), b)
	if err != nil || acks[0].N != 6 || acks[0].Conflict {
		t.Errorf("brought again: %+v, %v", acks, err)
	}
	if rows, err = s.After(t.Context(), storetest.Crew, 0, 100, 1<<20); err != nil || len(rows) != 10 || len(s.Damaged(storetest.Crew)) != 0 {
		t.Errorf("after mending %d rows, damaged %v, %v", len(rows), s.Damaged(storetest.Crew), err)
	}
}

// TestNewerSchema: a store of a newer program is left alone.
func TestNewerSchema(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	storetest.Open(t, path).Close()
	if _, err := storetest.Raw(t, path).Exec(`PRAGMA user_version = 999`); err != nil {
		t.Fatal(err)
	}
	if _, err := store.Open(path, store.Options{}); err == nil || !strings.Contains(err.Error(), "newer") {
		t.Errorf("open = %v", err)
	}
}

// TestDiskFull lets SQLite run out of pages: the phone is told to keep its
// entries, nothing half is stored, and it goes on when there is room.
func TestDiskFull(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s := storetest.Open(t, path)
	if err := store.LimitPages(s, 30); err != nil {
		t.Fatal(err)
	}
	var err error
	stored := 0
	for i := 0; err == nil && i < 1000; i++ {
		if _, err = s.Append(t.Context(), storetest.Batch(t, fmt.Sprintf("p%05d", i), 50)); err == nil {
			stored += 50
		}
	}
	if problem.KindOf(err) != problem.DiskFull {
		t.Fatalf("error = %v, want disk-full", err)
	}
	rows, rerr := s.After(t.Context(), storetest.Crew, 0, 1<<30, 1<<30)
	if rerr != nil || len(rows) != stored || stored == 0 {
		t.Errorf("%d rows, %v, want the %d acknowledged", len(rows), rerr, stored)
	}
	if err := store.LimitPages(s, 1<<20); err != nil {
		t.Fatal(err)
	}
	if acks, err := s.Append(t.Context(), storetest.Batch(t, "afterw", 2)); err != nil || acks[0].N != int64(stored+1) {
		t.Errorf("with room again: %+v, %v", acks, err)
	}
}

func TestStatus(t *testing.T) {
	s := onDisk(t)
	if _, err := s.Append(t.Context(), storetest.Batch(t, "phonea", 3)); err != nil {
		t.Fatal(err)
	}
	got, err := s.Status(t.Context())
	if err != nil || got.Crew != storetest.Crew || got.Events != 3 || got.Bytes == 0 || !got.Writing {
		t.Errorf("status = %+v, %v", got, err)
	}
}

// BenchmarkAppend stores batches of 50 from 20 phones at once.
func BenchmarkAppend(b *testing.B) {
	s := storetest.Open(b, filepath.Join(b.TempDir(), "journal.db"))
	b.SetParallelism(10)
	var batches []store.Batch
	for i := range b.N {
		var list []exchange.Push
		for j := range 50 {
			list = append(list, storetest.Event(b, fmt.Sprintf("x%05d", j), i, event.StampOf(storetest.Now)))
		}
		batches = append(batches, store.Batch{Crew: storetest.Crew, Now: storetest.Now, Events: list})
	}
	next := make(chan store.Batch, len(batches))
	for _, x := range batches {
		next <- x
	}
	b.ResetTimer()
	b.RunParallel(func(pb *testing.PB) {
		for pb.Next() {
			if _, err := s.Append(b.Context(), <-next); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.ReportMetric(float64(b.N*50)/b.Elapsed().Seconds(), "events/s")
}
