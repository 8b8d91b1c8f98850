package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"kerfside/calc/problem"
)

// Restoration tells what a restore did.
type Restoration struct {
	Events   int64
	Pictures int
	Damaged  []string // as in Backup
	Access   bool     // who may use the crews is as the former database had it
	Aside    string   // where the former database is, "" if there was none
}

// Restore puts a checked copy of the backup file in the place of the store at
// path, which no server may have open, and keeps the former store aside. It
// brings back pictures from the folder photos beside the backup; who may use the
// crews stays as it was, see keepAccess. Phones bring what came after the backup.
func Restore(ctx context.Context, path, file string, now time.Time) (r Restoration, err error) {
	if inMemory(path) {
		return r, problem.New(problem.Refused, "db", "a store in memory cannot be restored", "Give the file of a database.")
	}
	if path, err = RealPath(path); err != nil {
		return r, err
	}
	lock, err := lockFor(path)
	if err != nil && !errors.Is(err, errInUse) {
		return r, unfit(path, err)
	}
	if err != nil {
		return r, problem.Newf(problem.Busy, "db", "%s is in use", path).WithHint("Stop the server first, then restore, then start it again.").WithCause(err)
	}
	defer func() {
		if err = errors.Join(err, lock.Close()); err != nil {
			err = unfit(path, err)
		}
	}()
	fresh := path + ".restoring"
	defer func() {
		err = errors.Join(err, removeLog(fresh)) // checking it may leave one
		if gone := os.Remove(fresh); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	if err := copyFile(file, fresh); err != nil {
		return r, problem.Newf(problem.Refused, "file", "%s could not be copied beside the database", file).
			WithHint("Nothing was changed. See that the file is there and the disk has room.").WithCause(err)
	}
	// What was erased since the backup, here or elsewhere, is not to come back.
	if err := mergeErasures(listBeside(path), filepath.Join(filepath.Dir(file), erasedName)); err != nil {
		return r, fmt.Errorf("bring the list of erasures back: %w", err)
	}
	v, err := verify(ctx, fresh, listBeside(path))
	if err != nil {
		return r, problem.Newf(problem.Refused, "file", "%s is no sound backup", file).WithHint("Nothing was changed. Take an older one.").WithCause(err)
	}
	if err := checkAge(fresh); err != nil {
		return r, err
	}
	r.Events, r.Damaged = v.events, v.damaged
	if r.Access, err = keepAccess(ctx, path, fresh); err != nil {
		return r, err
	}
	if r.Pictures, _, err = copyPictures(filepath.Join(filepath.Dir(file), "photos"), path+".photos"); err != nil {
		return r, fmt.Errorf("bring pictures back: %w", err)
	}
	if r.Aside, err = putAside(path, now); err != nil {
		return r, err
	}
	if err := os.Rename(fresh, path); err != nil {
		return r, fmt.Errorf("put the backup in place: %w", err)
	}
	return r, syncFolder(filepath.Dir(path))
}

// checkAge refuses a backup of a newer program.
func checkAge(path string) error {
	db := connect(path, reading)
	defer db.Close()
	var version int
	if err := db.QueryRow(`PRAGMA user_version`).Scan(&version); err != nil {
		return fmt.Errorf("read the backup's version: %w", err)
	}
	names, err := migrations.ReadDir("migrations")
	if err == nil && version > len(names) {
		return problem.New(problem.OldApp, "file", "the backup was made by a newer kerfside", "Nothing was changed. Update this program first.")
	}
	return err
}

// putAside moves the store away, with its log, which belongs to it alone. A log
// left beside another database would damage that one.
func putAside(path string, now time.Time) (string, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return "", removeLog(path)
	}
	aside := path + ".before-" + now.UTC().Format(backupTime)
	if _, err := os.Stat(aside); err == nil {
		return "", problem.Newf(problem.Conflict, "db", "%s is there already", aside).WithHint("Try again in a second.")
	}
	if err := copyFile(path, aside); err != nil {
		return "", fmt.Errorf("keep the former database: %w", errors.Join(err, os.Remove(aside)))
	}
	if err := copyFile(path+"-wal", aside+"-wal"); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", fmt.Errorf("keep the log of the former database: %w", err)
	}
	return aside, removeLog(path)
}

func removeLog(path string) error {
	for _, end := range []string{"-wal", "-shm"} {
		if err := os.Remove(path + end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// copyFile copies a file and flushes the copy to the disk.
func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Sync(), out.Close())
}
