package store

import (
	"errors"
	"fmt"

	"github.com/mattn/go-sqlite3"

	"kerfside/calc/problem"
)

// Sorts of trouble that a write can run into.
const (
	broken = iota // the disk or the program itself
	damaged
	full
	locked
)

// trouble sorts an error of SQLite.
func trouble(err error) int {
	var e sqlite3.Error
	if !errors.As(err, &e) {
		return broken
	}
	switch e.Code {
	case sqlite3.ErrCorrupt, sqlite3.ErrNotADB:
		return damaged
	case sqlite3.ErrFull:
		return full
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return locked
	}
	return broken
}

// unfit says why a store cannot be opened. What SQLite itself calls damaged is
// for a backup to mend.
func unfit(path string, err error) error {
	err = fmt.Errorf("open store %s: %w", path, err)
	if IsDamage(err) {
		return problem.Newf(problem.Refused, "db", "the database %s is damaged", path).
			WithHint("Restore the newest sound backup with kerfside restore; phones bring back what came after it.").WithCause(err)
	}
	return err
}
