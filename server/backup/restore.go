package backup

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/disk"
	"kerfside/server/store"
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
// crews stays as it was, see store.KeepAccess. Phones bring what came after the backup.
func Restore(ctx context.Context, path, file string, now time.Time) (r Restoration, err error) {
	if store.InMemory(path) {
		return r, problem.New(problem.Refused, "db", "a store in memory cannot be restored", "Give the file of a database.")
	}
	if path, err = store.RealPath(path); err != nil {
		return r, err
	}
	lock, err := store.Lock(path)
	if err != nil && !errors.Is(err, store.ErrInUse) {
		return r, store.Unfit(path, err)
	}
	if err != nil {
		return r, problem.Newf(problem.Busy, "db", "%s is in use", path).WithHint("Stop the server first, then restore, then start it again.").WithCause(err)
	}
	defer func() {
		if err = errors.Join(err, lock.Close()); err != nil {
			err = store.Unfit(path, err)
		}
	}()
	fresh := path + ".restoring"
	defer func() {
		err = errors.Join(err, store.RemoveLog(fresh)) // checking it may leave one
		if gone := os.Remove(fresh); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	if err := disk.Copy(file, fresh); err != nil {
		return r, problem.Newf(problem.Refused, "file", "%s could not be copied beside the database", file).
			WithHint("Nothing was changed. See that the file is there and the disk has room.").WithCause(err)
	}
	// What was erased since the backup, here or elsewhere, is not to come back.
	if err := store.MergeErasures(store.ListOfErasures(path), filepath.Join(filepath.Dir(file), erasedName)); err != nil {
		return r, fmt.Errorf("bring the list of erasures back: %w", err)
	}
	v, err := verify(ctx, fresh, store.ListOfErasures(path))
	if err != nil {
		return r, problem.Newf(problem.Refused, "file", "%s is no sound backup", file).WithHint("Nothing was changed. Take an older one.").WithCause(err)
	}
	if err := store.CheckForm(fresh); err != nil {
		return r, err
	}
	r.Events, r.Damaged = v.events, v.damaged
	if r.Access, err = store.KeepAccess(ctx, path, fresh); err != nil {
		return r, err
	}
	if r.Pictures, _, err = copyPictures(filepath.Join(filepath.Dir(file), picturesName), path+".photos"); err != nil {
		return r, fmt.Errorf("bring pictures back: %w", err)
	}
	if r.Aside, err = store.PutAside(path, now); err != nil {
		return r, err
	}
	if err := os.Rename(fresh, path); err != nil {
		return r, fmt.Errorf("put the backup in place: %w", err)
	}
	return r, disk.SyncFolder(filepath.Dir(path))
}
