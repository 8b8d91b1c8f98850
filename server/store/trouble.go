package store

import (
	"errors"

	"github.com/mattn/go-sqlite3"
)

// Sorts of trouble that a write can run into.
const (
	broken = iota // the disk, the file, or the program itself
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
	case sqlite3.ErrFull:
		return full
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return locked
	}
	return broken
}
