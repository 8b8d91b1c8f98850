package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

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

// Unfit says why a store cannot be opened, and what to do. What SQLite itself
// calls damaged is for a backup to mend.
func Unfit(path string, err error) error {
	var p *problem.Error
	if errors.As(err, &p) {
		return err
	}
	err = fmt.Errorf("open store %s: %w", path, err)
	var e sqlite3.Error
	errors.As(err, &e)
	switch dir := filepath.Dir(path); {
	case IsDamage(err):
		p = problem.Newf(problem.Refused, "db", "the database %s is damaged", path).
			WithHint("Restore the newest sound backup with kerfside restore; phones bring back what came after it.")
	case errors.Is(err, fs.ErrNotExist):
		p = problem.Newf(problem.NotFound, "db", "there is no folder %s for the database", dir).WithHint("Make it, or name another file with -db.")
	case errors.Is(err, syscall.EISDIR):
		p = problem.Newf(problem.Refused, "db", "%s is a folder, not a database", path).WithHint("Name a file with -db.")
	case errors.Is(err, syscall.EROFS), e.Code == sqlite3.ErrReadonly && isReadOnly(dir), e.Code == sqlite3.ErrCantOpen && isReadOnly(dir):
		p = problem.Newf(problem.DiskFull, "db", "the disk of the database %s is read-only", path).
			WithHint("Have it mounted so that it can be written, or name a file on another disk with -db.")
	case errors.Is(err, fs.ErrPermission), e.Code == sqlite3.ErrReadonly, e.Code == sqlite3.ErrPerm, e.Code == sqlite3.ErrCantOpen:
		p = problem.Newf(problem.DiskFull, "db", "the database %s cannot be written", path).
			WithHint("Let the user who runs kerfside write in %s, and to the files there that begin with %s. Or name another file with -db.", dir, filepath.Base(path))
	case IsFull(err), e.Code == sqlite3.ErrFull, e.Code == sqlite3.ErrIoErr:
		p = problem.Newf(problem.DiskFull, "db", "the disk of the database %s is full or fails", path).WithHint("Make room on it, or look at the disk, then start again.")
	case e.Code == sqlite3.ErrBusy, e.Code == sqlite3.ErrLocked:
		p = problem.Newf(problem.Busy, "db", "another program works on the database %s", path).WithHint("Let it end, then start again.")
	default:
		return err
	}
	return p.WithCause(err)
}

// isReadOnly reports whether the disk of a folder takes no files at all. SQLite only
// says that it could not open its log.
func isReadOnly(dir string) bool {
	f, err := os.CreateTemp(dir, ".kerfside-*")
	if err != nil {
		return errors.Is(err, syscall.EROFS)
	}
	f.Close()
	os.Remove(f.Name()) // an empty file at worst
	return false
}

// unreadable says why a store could not be copied. Of a disk that takes no more, or
// that was mounted read-only because it fails, a copy is what is wanted most.
func unreadable(path string, err error) error {
	p := problem.From(Unfit(path, err))
	if p.Kind == problem.DiskFull {
		p.Hint = fmt.Sprintf("See that its disk can be written again. Or copy %s to another disk, with %s-wal and %s.photos if they are there. Then back up that copy with -db.", path, path, path)
	}
	return p
}

// IsFull reports whether a file could not be written for want of room: the disk
// is full, a quota is used up, or the disk or the file takes no more.
func IsFull(err error) bool {
	for _, no := range []error{syscall.ENOSPC, syscall.EDQUOT, syscall.EROFS, syscall.EFBIG} {
		if errors.Is(err, no) {
			return true
		}
	}
	return false
}
