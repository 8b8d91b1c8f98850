package main

import (
	"context"
	"errors"
	"log/slog"
	"slices"
	"sync/atomic"
	"time"

	"kerfside/server/backup"
	"kerfside/server/metrics"
	"kerfside/server/store"
)

// nightly looks each minute whether the database is in its place, and whether a
// backup is due, if there is a folder for one: the last one is older than
// the last 3 o'clock in the morning. So a machine that was off at that hour makes
// up for it when it is on again.
type nightly struct {
	store   *store.Store
	db, dir string
	log     *slog.Logger
	tried   time.Time // the last try, well ended or not

	hook   failureHook // nil for none
	called time.Time   // when that was last run

	failing  atomic.Bool      // the last backup that was due was not made
	failures *metrics.Counter // nil if nobody counts
}

const (
	backupHour = 3         // local time
	tryAgain   = time.Hour // after a failure
)

// run ticks until ctx ends.
func (n *nightly) run(ctx context.Context) {
	ticker := time.NewTicker(time.Minute)
	defer ticker.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case now := <-ticker.C:
			n.tick(ctx, now)
		}
	}
}

// tick takes up what "kerfside backup" may have done meanwhile, and if a backup
// is due, checks the database and makes one.
func (n *nightly) tick(ctx context.Context, now time.Time) {
	if n.store.Present() != nil {
		return // the store has said so and ends
	}
	if due, err := n.due(now); err != nil {
		n.log.Error("the backups cannot be listed", "err", err)
		n.tellFailure(ctx, now, err)
	} else if due {
		n.tried = now
		n.check(ctx)
		b, err := backup.Make(ctx, n.db, n.dir, now)
		if err != nil {
			n.log.Error("the nightly backup failed", "err", err, "cause", errors.Unwrap(err))
			n.tellFailure(ctx, now, err)
		} else {
			n.log.Info("backup made", "file", b.File, "entries", b.Events, "damaged", len(b.Damaged), "spoilt pictures", b.Spoilt, "same disk", b.SameDisk)
			n.failing.Store(false)
			n.dropFormer(now)
		}
	}
	if err := n.store.NoteBackups(ctx); err != nil {
		n.log.Error("the backups cannot be noted", "err", err)
	}
}

// count tells in set how the backups go.
func (n *nightly) count(set *metrics.Set) {
	n.failures = set.Counter("kerfside_backup_failures_total", "Backups that were due and were not made.")
	set.Gauge("kerfside_backup_failing", "1 if the last backup that was due was not made.", func() (float64, bool) {
		if n.failing.Load() {
			return 1, true
		}
		return 0, true
	})
	set.Gauge("kerfside_backup_last_success_timestamp_seconds", "When the newest backup in the folder was made, in seconds since 1970 UTC.", func() (float64, bool) {
		made, err := store.Copies(n.db, n.dir)
		if err != nil || len(made) == 0 {
			return 0, false
		}
		return float64(made[len(made)-1].Unix()), true
	})
}

// tellFailure counts a backup that failed, and runs the command for that, at most
// once an hour.
func (n *nightly) tellFailure(ctx context.Context, now time.Time, failure error) {
	n.failing.Store(true)
	n.failures.Add(1)
	if n.hook == nil || ctx.Err() != nil || !n.called.IsZero() && now.Sub(n.called) < tryAgain {
		return
	}
	n.called = now
	if err := n.hook.run(ctx, n.db, n.dir, failure); err != nil {
		n.log.Error("the command for a failed backup failed itself", "err", err, "cause", errors.Unwrap(err))
		return
	}
	n.log.Info("the command for a failed backup was run", "command", n.hook[0])
}

// dropFormer removes what was kept of the database in a former form, when that has
// done its duty.
func (n *nightly) dropFormer(now time.Time) {
	dropped, err := store.DropFormer(n.db, now)
	if err != nil {
		n.log.Error("what was kept of the database before an upgrade cannot be removed", "err", err)
	}
	if len(dropped) > 0 {
		n.log.Info("the database has run well since its upgrade; what was kept of its former form is removed", "files", dropped)
	}
}

// check has the database looked through. That it is damaged the store says
// itself, once.
func (n *nightly) check(ctx context.Context) {
	err := n.store.Check(ctx)
	switch {
	case err == nil:
		n.log.Info("the database was checked and is sound")
	case ctx.Err() == nil && !errors.Is(err, store.ErrUnsound):
		n.log.Error("the database could not be checked", "err", err)
	}
}

// due reports whether a backup is to be made now.
func (n *nightly) due(now time.Time) (bool, error) {
	if n.dir == "" || !n.tried.IsZero() && now.Sub(n.tried) < tryAgain {
		return false, nil
	}
	made, err := store.Copies(n.db, n.dir)
	if err != nil {
		return false, err
	}
	night := time.Date(now.Year(), now.Month(), now.Day(), backupHour, 0, 0, 0, now.Location())
	if night.After(now) {
		night = night.AddDate(0, 0, -1)
	}
	made = slices.DeleteFunc(made, now.Before) // by a clock that was ahead: they are none of these nights
	return len(made) == 0 || made[len(made)-1].Before(night), nil
}
