package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"kerfside/calc/problem"
)

// Backup is a copy of a store that was made and checked.
type Backup struct {
	File     string
	Events   int64
	Pictures int      // copied now; those that were there already do not count
	Damaged  []string // ids of entries whose bytes do not fit their sum, also in the copy
	Spoilt   int      // pictures that could not be copied, for their bytes changed on the disk
	SameDisk bool     // the folder is on the file system of the store
	Removed  int      // older copies that were not to be kept
}

// erasedName is what the list of erasures is called in a folder of backups.
const erasedName = "erased"

// backupTime is how a backup's name says when it was made, UTC.
const backupTime = "20060102T150405Z"

// MakeBackup copies the store at path and its pictures into dir, checks the copy
// row by row and only then gives it its name; a try that fails leaves nothing. It
// works beside a running server.
//
// Phones call entries backed up only if dir is on another file system: a copy on
// the same disk goes the way of the disk, and they are told that it lies there.
func MakeBackup(ctx context.Context, path, dir string, now time.Time) (b Backup, err error) {
	if inMemory(path) {
		return b, problem.New(problem.Refused, "db", "a store in memory has no backup", "Give the file of a database.")
	}
	if path, err = RealPath(path); err != nil {
		return b, err
	}
	if _, err := os.Stat(path); err != nil {
		return b, problem.Newf(problem.NotFound, "db", "there is no database %s", path).WithHint("Name it with -db.").WithCause(err)
	}
	if err := oneName(path); err != nil {
		return b, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return b, backupTrouble(dir, err)
	}
	if b.SameDisk, err = sameDisk(path, dir); err != nil {
		return b, backupTrouble(dir, err)
	}
	b.File = backupFile(path, dir, now)
	if _, err := os.Stat(b.File); err == nil {
		return b, problem.Newf(problem.Conflict, "dir", "%s is there already", b.File).WithHint("Try again in a second.")
	}
	if err := errors.Join(sweepHalf(path, dir, now), TightenBackups(path, dir)); err != nil {
		return b, backupTrouble(dir, err)
	}
	half := b.File + halfMade
	defer func() {
		err = errors.Join(err, removeLog(half)) // checking it may leave one
		if err == nil {
			return
		}
		if gone := os.Remove(half); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	if err := readable(ctx, path); err != nil {
		return b, unreadable(path, err)
	}
	if err := copyStore(ctx, path, half); err != nil {
		return b, backupTrouble(dir, err)
	}
	v, err := verify(ctx, half, listBeside(path))
	if err != nil {
		return b, problem.New(problem.Refused, "db", "the copy is not sound, so it was not kept", "The database may be damaged: kerfside restore brings an older backup back.").WithCause(err)
	}
	b.Events, b.Damaged = v.events, v.damaged
	if b.Pictures, b.Spoilt, err = copyPictures(path+".photos", filepath.Join(dir, "photos")); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := mergeErasures(filepath.Join(dir, erasedName), listBeside(path)); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := os.Rename(half, b.File); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := syncFolder(dir); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := publish(ctx, path, v.whole, b.SameDisk); err != nil {
		return b, problem.Newf(problem.DiskFull, "db", "the backup %s is whole, but could not be noted in the database", b.File).
			WithHint("Phones do not call their entries backed up yet. See that the disk of %s can be written and has room, then make another.", path).WithCause(err)
	}
	b.Removed, err = thinOut(path, dir)
	return b, err
}

// readable tries to read the store at path by the kind of connection that copies it.
func readable(ctx context.Context, path string) error {
	db := connect(path, writing)
	defer db.Close()
	var tables int
	return db.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema`).Scan(&tables)
}

// copyStore writes a copy of the store, as one moment has it, into a new file
// and flushes it to the disk.
func copyStore(ctx context.Context, path, to string) error {
	f, err := os.OpenFile(to, os.O_CREATE|os.O_RDWR|os.O_TRUNC, 0o600) // SQLite would let others read it
	if err != nil {
		return err
	}
	defer f.Close()
	db := connect(path, writing) // one that only reads cannot write a copy either; the store itself is not touched
	defer db.Close()
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, to); err != nil {
		return err
	}
	return f.Sync()
}

// sameDiskSince is the migration that made the column same_disk.
const sameDiskSince = 3

// publish notes up to where each crew's entries are in a backup. It never goes
// back: an older backup still holds what it holds.
func publish(ctx context.Context, path string, whole map[string]int64, sameDisk bool) error {
	db := connect(path, writing)
	defer db.Close()
	statement := `UPDATE crew SET backed_up = max(backed_up, ?) WHERE id = ?`
	if sameDisk {
		statement = `UPDATE crew SET same_disk = max(same_disk, ?) WHERE id = ?`
		// A backup before an update meets a store that has no place for it yet.
		var version int
		if err := db.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&version); err != nil || version < sameDiskSince {
			return err
		}
	}
	for crew, n := range whole {
		if _, err := db.ExecContext(ctx, statement, n, crew); err != nil {
			return err
		}
	}
	return nil
}

// NoteBackups takes up what a backup noted in the database, whoever made it.
func (s *Store) NoteBackups(ctx context.Context) error {
	rows, err := s.read.QueryContext(ctx, `SELECT id, backed_up, same_disk FROM crew`)
	if err != nil {
		return fmt.Errorf("read backups: %w", err)
	}
	defer rows.Close()
	s.mu.Lock()
	defer s.mu.Unlock()
	for rows.Next() {
		var id string
		var n, same int64
		if err := rows.Scan(&id, &n, &same); err != nil {
			return fmt.Errorf("read backups: %w", err)
		}
		if c, ok := s.crews[id]; ok && (c.BackedUp != n || c.SameDisk != same) {
			moved := *c
			moved.BackedUp, moved.SameDisk = n, same
			s.crews[id] = &moved
		}
	}
	return rows.Err()
}

// backupTrouble says that the folder of the backups is to blame.
func backupTrouble(dir string, err error) error {
	return problem.Newf(problem.DiskFull, "dir", "the backup could not be written to %s", dir).
		WithHint("Nothing half is left there. See that the folder can be written and has room for another copy.").WithCause(err)
}
