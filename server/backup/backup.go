// Package backup makes copies of a store and brings one back: it checks a copy row
// by row before it counts, thins out old ones, and keeps the pictures beside
// them. What a row is and who may use a crew it leaves to package store, and
// speaks no SQL; it knows files, their names and their times.
package backup

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/disk"
	"kerfside/server/store"
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

// picturesName is what the folder of pictures in it is called.
const picturesName = "photos"

// Make copies the store at path and its pictures into dir, checks the copy
// row by row and only then gives it its name; a try that fails leaves nothing. It
// works beside a running server.
//
// Phones call entries backed up only if dir is on another file system: a copy on
// the same disk goes the way of the disk, and they are told that it lies there.
func Make(ctx context.Context, path, dir string, now time.Time) (b Backup, err error) {
	if store.InMemory(path) {
		return b, problem.New(problem.Refused, "db", "a store in memory has no backup", "Give the file of a database.")
	}
	if path, err = store.RealPath(path); err != nil {
		return b, err
	}
	if _, err := os.Stat(path); err != nil {
		return b, problem.Newf(problem.NotFound, "db", "there is no database %s", path).WithHint("Name it with -db.").WithCause(err)
	}
	if err := store.OneName(path); err != nil {
		return b, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return b, backupTrouble(dir, err)
	}
	if b.SameDisk, err = disk.Same(path, dir); err != nil {
		return b, backupTrouble(dir, err)
	}
	b.File = store.CopyFile(path, dir, now)
	if _, err := os.Stat(b.File); err == nil {
		return b, problem.Newf(problem.Busy, "dir", "%s is there already", b.File).WithHint("Try again in a second.")
	}
	if err := errors.Join(sweepHalf(path, dir, now), Tighten(path, dir)); err != nil {
		return b, backupTrouble(dir, err)
	}
	half := b.File + halfMade
	defer func() {
		err = errors.Join(err, store.RemoveLog(half)) // checking it may leave one
		if err == nil {
			return
		}
		if gone := os.Remove(half); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	if err := store.Readable(ctx, path); err != nil {
		return b, err
	}
	if err := store.WriteCopy(ctx, path, half); err != nil {
		return b, backupTrouble(dir, err)
	}
	v, err := verify(ctx, half, store.ListOfErasures(path))
	if err != nil {
		return b, problem.New(problem.Refused, "db", "the copy is not sound, so it was not kept", "The database may be damaged: kerfside restore brings an older backup back.").WithCause(err)
	}
	b.Events, b.Damaged = v.events, v.damaged
	if b.Pictures, b.Spoilt, err = copyPictures(path+".photos", filepath.Join(dir, picturesName)); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := store.MergeErasures(filepath.Join(dir, erasedName), store.ListOfErasures(path)); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := os.Rename(half, b.File); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := disk.SyncFolder(dir); err != nil {
		return b, backupTrouble(dir, err)
	}
	if err := store.NoteBackup(ctx, path, v.whole, b.SameDisk); err != nil {
		return b, problem.Newf(problem.DiskFull, "db", "the backup %s is whole, but could not be noted in the database", b.File).
			WithHint("Phones do not call their entries backed up yet. See that the disk of %s can be written and has room, then make another.", path).WithCause(err)
	}
	b.Removed, err = thinOut(path, dir)
	return b, err
}

// backupTrouble says that the folder of the backups is to blame.
func backupTrouble(dir string, err error) error {
	return problem.Newf(problem.DiskFull, "dir", "the backup could not be written to %s", dir).
		WithHint("Nothing half is left there. See that the folder can be written and has room for another copy.").WithCause(err)
}
