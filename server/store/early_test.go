package store_test

import (
	"database/sql"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

const dayMs = 24 * 3600 * 1000

// entry makes an event that happened so many days before storetest.Now.
func entry(t testing.TB, name string, days int64, kind, more string) exchange.Push {
	t.Helper()
	stamp := event.StampOf(storetest.Now - days*dayMs)
	raw := fmt.Appendf(nil, `{"id":"%.22s","t":"%v","device":"phone-a","kind":%q,"v":1,%s}`, name+"______________________", stamp, kind, more)
	e, err := event.Decode(raw)
	if err != nil {
		t.Fatal(err)
	}
	return exchange.Push{Event: e, O: e.T, Sum: event.SumOf(raw)}
}

// bringAll stores events in their order.
func bringAll(t testing.TB, s *store.Store, list ...exchange.Push) {
	t.Helper()
	if _, err := s.Append(t.Context(), store.Batch{Crew: storetest.Crew, Now: storetest.Now, Events: list}); err != nil {
		t.Fatal(err)
	}
}

// yard is a journal with something of each kind of standing, old and new.
func yard(t testing.TB, s *store.Store) {
	bringAll(t, s,
		entry(t, "rig", 900, "rig.set", `"about":"rig-1","body":{"name":"North"}`),
		entry(t, "tip", 800, "part.fitted", `"about":"part-1","body":{"slot":"tip","rig":"rig-1"}`),
		entry(t, "shut-open", 700, "session.opened", `"about":"s-shut","body":{"rig":"rig-1"}`),
		entry(t, "shut-note", 700, "note.added", `"in":"s-shut","body":{"text":"x"}`),
		entry(t, "shut-shut", 700, "session.closed", `"about":"s-shut","body":{}`),
		entry(t, "left-open", 600, "session.opened", `"about":"s-left","body":{"rig":"rig-1"}`),
		entry(t, "left-note", 600, "note.added", `"in":"s-left","body":{"text":"x"}`),
		entry(t, "old-arc", 500, "arc.run", `"in":"s-other","body":{"rig":"rig-1","start":1,"stop":2}`),
		entry(t, "old-good", 500, "check.answered", `"body":{"guide":"g","step":"a","result":"good"}`),
		entry(t, "old-fail", 500, "check.answered", `"body":{"guide":"g","step":"b","result":"fail"}`),
	)
	for i := range 40 {
		bringAll(t, s, entry(t, fmt.Sprintf("older-%02d", i), 400, "arc.run", `"in":"s-other","body":{"rig":"rig-1","start":1,"stop":2}`))
	}
	bringAll(t, s,
		entry(t, "import", 300, "part.reading", `"about":"part-1","body":{"dmin":9}`), // arrived late, and is old
		entry(t, "today-open", 0, "session.opened", `"about":"s-today","body":{"rig":"rig-1"}`),
		entry(t, "today-arc", 0, "arc.run", `"in":"s-today","body":{"rig":"rig-1","start":1,"stop":2}`),
		entry(t, "today-void", 0, "void", `"body":{"of":"x","on":true}`),
		entry(t, "today-rig", 0, "rig.set", `"about":"rig-1","body":{"amps":45}`),
	)
}

// takeEarly goes through all early arrivals of a phone and returns the ids in their
// order; between is called after each page.
func takeEarly(t testing.TB, s *store.Store, l store.EarlyLimits, between func()) (ids []string) {
	t.Helper()
	at, ok := s.BeginEarly(storetest.Crew, 0, l)
	if !ok {
		t.Fatal("the phone needs none")
	}
	for pages := 0; !at.IsOver(); pages++ {
		if pages > 100 {
			t.Fatalf("they do not end: %v", at)
		}
		again, ok := store.ParseEarly(at.String())
		if !ok || again != at {
			t.Fatalf("%v is read as %v, %t", at, again, ok)
		}
		var rows []store.Row
		var err error
		if rows, at, err = s.Early(t.Context(), storetest.Crew, 0, again, time.UnixMilli(storetest.Now), l); err != nil {
			t.Fatal(err)
		}
		if len(rows) > max(l.Page, 1) {
			t.Fatalf("%d rows in a page of %d", len(rows), l.Page)
		}
		for _, r := range rows {
			ids = append(ids, trimmed(r.ID))
		}
		if between != nil {
			between()
		}
	}
	return ids
}

func trimmed(id string) string {
	for len(id) > 0 && id[len(id)-1] == '_' {
		id = id[:len(id)-1]
	}
	return id
}

func openYard(t testing.TB) (*store.Store, string) {
	path := filepath.Join(t.TempDir(), "journal.db")
	s, err := store.Open(path, store.Options{Crew: storetest.Crew, Stretch: 7})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	yard(t, s)
	return s, path
}

// TestEarlyChoice: first what things are called, then the last month from the newest
// back, then what is older and stands, and the entries of a session that was left open;
// whatever the size of the pages, and whatever arrives meanwhile.
func TestEarlyChoice(t *testing.T) {
	want := []string{"today-rig", "rig", "today-rig", "today-void", "today-arc", "today-open", "old-fail", "tip", "left-open", "shut-shut", "shut-open", "left-note"}
	for _, page := range []int{1, 2, 3, 1000} {
		l := store.EarlyLimits{Recent: 1000, Things: 10, Stands: 10, Open: 3, Page: page, Size: 1 << 20}
		s, _ := openYard(t)
		n := 0
		got := takeEarly(t, s, l, func() {
			n++
			bringAll(t, s, entry(t, fmt.Sprintf("later-%02d", n), 0, "rig.set", `"about":"rig-2","body":{"name":"South"}`))
		})
		if got = slices.DeleteFunc(got, func(id string) bool { return strings.HasPrefix(id, "later-") }); !slices.Equal(got, want) {
			t.Errorf("in pages of %d: %q, want %q", page, got, want)
		}
	}
}

// TestEarlyNews: what arrives while the phone takes in the rest is told from its number
// on, each once.
func TestEarlyNews(t *testing.T) {
	s, _ := openYard(t)
	l := store.EarlyLimits{Recent: 5, Things: 1, Stands: 1, Open: 1, Page: 2, Size: 1 << 20}
	at, _ := s.BeginEarly(storetest.Crew, 0, l)
	var err error
	for !at.IsOver() {
		if _, at, err = s.Early(t.Context(), storetest.Crew, 0, at, time.UnixMilli(storetest.Now), l); err != nil {
			t.Fatal(err)
		}
	}
	var got []string
	for i := range 5 {
		bringAll(t, s, entry(t, fmt.Sprintf("later-%02d", i), 0, "note.added", `"body":{}`))
		var rows []store.Row
		if rows, at, err = s.Early(t.Context(), storetest.Crew, 0, at, time.UnixMilli(storetest.Now), l); err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			got = append(got, trimmed(r.ID))
		}
	}
	if want := []string{"later-00", "later-01", "later-02", "later-03", "later-04"}; !slices.Equal(got, want) {
		t.Errorf("news %q, want %q", got, want)
	}
}

// TestEarlyIsBounded: however long the journal is, so much and no more; and a phone that
// lacks little needs none.
func TestEarlyIsBounded(t *testing.T) {
	s, _ := openYard(t)
	l := store.EarlyLimits{Recent: 2, Things: 1, Stands: 2, Open: 0, Page: 10, Size: 1 << 20}
	if got, want := takeEarly(t, s, l, nil), []string{"today-rig", "today-rig", "today-void", "old-fail", "shut-shut"}; !slices.Equal(got[:3], want[:3]) || len(got) > 7 {
		t.Errorf("%q, want no more than what the limits say, as %q", got, want)
	}
	l.Size = 1
	if got := takeEarly(t, s, l, nil); len(got) < 3 {
		t.Errorf("with pages of one byte: %q, want one event in each", got)
	}
	state, _ := s.State(storetest.Crew)
	if _, ok := s.BeginEarly(storetest.Crew, 0, store.EarlyLimits{Spare: state.Max}); ok {
		t.Error("a phone that lacks no more than a page gets early arrivals")
	}
	for _, odd := range []string{"1.2", "x", "1.9.3", "-1.0.3", "1.0.3 ", "01.0.3", "1.0.-3", "99999999999999999999.0.1"} {
		if at, ok := store.ParseEarly(odd); ok {
			t.Errorf("%q is read as %v", odd, at)
		}
	}
	far, _ := store.ParseEarly("5000.1.4000")
	rows, next, err := s.Early(t.Context(), storetest.Crew, 0, far, time.UnixMilli(storetest.Now), store.EarlyLimits{})
	if err != nil || len(rows) == 0 || next.Top != state.Max {
		t.Errorf("of a store that was restored from a backup: %d rows, goes on at %v, %v", len(rows), next, err)
	}
}

// TestStandingOfOldStores: a database of before has the same standings after it was
// opened as one that was written since, also where bytes went bad.
func TestStandingOfOldStores(t *testing.T) {
	s, path := openYard(t)
	for _, kind := range event.Kinds() {
		if kind == "upkeep.done" {
			continue // it came later: no store of that form holds one
		}
		for _, result := range []string{"good", "fail", "change", "not-done"} {
			bringAll(t, s, entry(t, strings.ReplaceAll(kind, ".", "-")+"-"+result, 1, kind, `"about":"x","body":{"result":"`+result+`"}`))
		}
	}
	standing := func() (list []string) {
		db, err := sql.Open("sqlite3", path)
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		rows, err := db.Query(`SELECT rank || ' ' || n FROM standing ORDER BY rank, n`)
		if err != nil {
			t.Fatal(err)
		}
		defer rows.Close()
		for rows.Next() {
			var one string
			if err := rows.Scan(&one); err != nil {
				t.Fatal(err)
			}
			list = append(list, one)
		}
		return list
	}
	want := standing()
	s.Close()
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(`DROP TABLE move; ALTER TABLE crew DROP COLUMN state; ALTER TABLE crew DROP COLUMN moves; DROP TABLE standing; PRAGMA user_version = 6; UPDATE event SET raw = CAST('{"id":' AS BLOB) WHERE n = 4`); err != nil {
		t.Fatal(err)
	}
	db.Close()
	again, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if got := standing(); len(want) < 60 || !slices.Equal(got, want) {
		t.Errorf("after the migration %d stand, written since %d:\n%q\n%q", len(got), len(want), got, want)
	}
}
