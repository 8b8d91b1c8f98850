package main

import (
	"context"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestNightly walks through the minutes of a shop whose machine is off at night
// now and then: one backup for each night, made up for after a night off, and an
// hour's pause after one that failed.
func TestNightly(t *testing.T) {
	dir := t.TempDir()
	n := &nightly{db: filepath.Join(dir, "yard.db"), dir: filepath.Join(dir, "copies"), log: slog.New(slog.DiscardHandler)}
	var err error
	if n.store, err = store.Open(n.db, store.Options{}); err != nil {
		t.Fatal(err)
	}
	defer n.store.Close()
	at := func(day, hour, minute int) time.Time { return time.Date(2026, 3, day, hour, minute, 0, 0, time.UTC) }
	backups := func() int {
		t.Helper()
		made, err := store.Copies(n.db, n.dir)
		if err != nil {
			t.Fatal(err)
		}
		return len(made)
	}
	for _, c := range []struct {
		now  time.Time
		want int
	}{
		{at(2, 16, 0), 1}, // none yet
		{at(2, 16, 1), 1},
		{at(3, 2, 59), 1},
		{at(3, 3, 0), 2},
		{at(3, 18, 0), 2},
		{at(5, 8, 0), 3}, // it was off for two nights
		{at(5, 23, 0), 3},
		{at(6, 3, 1), 4},
	} {
		n.tick(context.Background(), c.now)
		if got := backups(); got != c.want {
			t.Errorf("at %v there are %d backups, want %d", c.now, got, c.want)
		}
	}
	ahead := at(6, 12, 0).AddDate(10, 0, 0) // for a minute the machine has a wrong clock
	n.tick(context.Background(), ahead)
	n.tried = at(6, 3, 1)
	for _, c := range []struct {
		now  time.Time
		want int
	}{{ahead, 5}, {at(6, 13, 0), 5}, {at(7, 3, 0), 6}, {at(7, 3, 1), 6}} {
		n.tick(context.Background(), c.now)
		if got := backups(); got != c.want {
			t.Errorf("after a clock that was ahead, at %v there are %d backups, want %d", c.now, got, c.want)
		}
		n.tried = time.Time{}
	}
	n.db += ".gone"
	n.tick(context.Background(), at(8, 3, 0))
	if due, err := n.due(at(8, 3, 59)); due || err != nil {
		t.Errorf("tried again within the hour: %t, %v", due, err)
	}
	if due, err := n.due(at(8, 4, 0)); !due || err != nil {
		t.Errorf("not tried again after an hour: %t, %v", due, err)
	}
}

// What was kept before an upgrade goes with the first backup that is made a week
// later, and not before.
func TestNightlyDropsFormer(t *testing.T) {
	n := &nightly{db: storetest.AllReleased(t, "../..")[3].Unpack(t, t.TempDir()), dir: filepath.Join(t.TempDir(), "copies"), log: slog.New(slog.DiscardHandler)}
	var err error
	if n.store, err = store.Open(n.db, store.Options{}); err != nil {
		t.Fatal(err)
	}
	defer n.store.Close()
	now := time.Now()
	for _, c := range []struct{ days, left int }{{0, 1}, {1, 1}, {6, 1}, {8, 0}} {
		n.tick(context.Background(), now.AddDate(0, 0, c.days))
		if left := store.Former(n.db); len(left) != c.left {
			t.Errorf("%d days after the upgrade there is %v, want %d", c.days, left, c.left)
		}
	}
}
