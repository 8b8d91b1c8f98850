package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/mattn/go-sqlite3"

	"kerfside/calc/problem"
)

// ErrUnsound is behind each problem of a store that is only read because its
// file is damaged. Options.OnDamage has said it once; logs need not repeat it.
var ErrUnsound = errors.New("the database is damaged and is only read")

// Check lets SQLite look through the whole file, which may take minutes; the
// store works on meanwhile. If something is wrong, reads go on and writes are
// refused from then on.
func (s *Store) Check(ctx context.Context) error {
	db := connect(s.path, reading) // of its own: those of the readers are for phones
	defer db.Close()
	var verdict string
	err := db.QueryRowContext(ctx, `PRAGMA quick_check(1)`).Scan(&verdict)
	if err == nil && verdict != "ok" {
		return s.Damage(fmt.Errorf("quick_check says %q", verdict))
	}
	if IsDamage(err) {
		return s.Damage(err)
	}
	if err != nil {
		return fmt.Errorf("check the database: %w", err)
	}
	s.mu.Lock()
	s.unclean = false
	s.mu.Unlock()
	return nil
}

// IsDamage reports whether err is SQLite's word that the file is damaged.
func IsDamage(err error) bool {
	var e sqlite3.Error
	return errors.As(err, &e) && (e.Code == sqlite3.ErrCorrupt || e.Code == sqlite3.ErrNotADB)
}

// Damage remembers that the file is damaged, so that nothing more is written,
// and returns what people are told.
func (s *Store) Damage(err error) error {
	s.mu.Lock()
	first := s.harm == nil
	if first {
		s.harm = err
	}
	s.mu.Unlock()
	if first && s.options.OnDamage != nil {
		s.options.OnDamage(err)
	}
	return unsound(err)
}

// unsound is the problem of a damaged file. After disk-full, the kind of a
// server that cannot write, phones keep what they have and go on fetching.
func unsound(err error) *problem.Error {
	p := problem.New(problem.DiskFull, "", "the server's database is damaged, so it takes nothing new",
		"What you enter stays on this phone. Whoever runs the server brings a backup back with kerfside restore.").
		WithCause(fmt.Errorf("%w: %w", ErrUnsound, err))
	p.Retry = 60
	return p
}

// Refuses says in a word why nothing is written: disk or damaged; "" while all
// is well.
func (s *Store) Refuses() string {
	s.mu.RLock()
	defer s.mu.RUnlock()
	switch {
	case s.fatal != nil:
		return "disk"
	case s.harm != nil:
		return "damaged"
	}
	return ""
}
