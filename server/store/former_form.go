package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/disk"
)

// Before a store is brought to a newer form, what it was is kept beside it as
// FILE.form-N, N being its form: the former program goes on with that, and so does
// this one if the migration has spoilt something. There is one of each form, the
// newest, so that a start that fails again and again does not fill the disk. It goes
// a week later, once a backup of the new form has been made and checked: see
// DropFormer.

// formerEnd begins the end of its name.
const formerEnd = ".form-"

// formerLife is how long it is kept at least.
const formerLife = 7 * 24 * time.Hour

// keepFormer copies the store at path, which has that form and which nobody else
// writes. The copy is checked before it gets its name.
func keepFormer(ctx context.Context, path string, form int) (err error) {
	if InMemory(path) {
		return nil
	}
	name := fmt.Sprintf("%s%s%d", path, formerEnd, form)
	half := name + ".half"
	defer func() {
		err = errors.Join(err, RemoveLog(half))
		if gone := os.Remove(half); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
		if err != nil {
			err = notKept(path, name, err)
		}
	}()
	if err := WriteCopy(ctx, path, half); err != nil {
		return err
	}
	if err := sameContent(ctx, path, half); err != nil {
		return err
	}
	return errors.Join(os.Rename(half, name), disk.SyncFolder(filepath.Dir(name)))
}

// sameContent returns an error unless the copy is sound and holds, by its counts
// and the ends of its chains, what the store at path holds.
func sameContent(ctx context.Context, path, copied string) error {
	var held [2]string
	for i, name := range []string{path, copied} {
		db := connect(name, reading)
		defer db.Close()
		err := db.QueryRowContext(ctx, `SELECT (SELECT user_version FROM pragma_user_version) || ' ' || (SELECT count(*) FROM event) || ' '
			|| (SELECT coalesce(group_concat(id || max || hex(head), ' '), '') FROM (SELECT * FROM crew ORDER BY key))`).Scan(&held[i])
		if err != nil {
			return fmt.Errorf("read %s: %w", name, err)
		}
		if i == 1 {
			if err := (&Copy{db: db}).Sound(ctx); err != nil {
				return err
			}
		}
	}
	if held[0] != held[1] {
		return errors.New("the copy does not hold what the database holds")
	}
	return nil
}

// notKept says why the store stays as it is.
func notKept(path, name string, err error) error {
	if trouble(err) == damaged {
		return problem.Newf(problem.Refused, "db", "the database %s was not brought to the form of this version: it is damaged", path).
			WithHint("Nothing was changed. Restore the newest sound backup with kerfside restore; phones bring back what came after it.").WithCause(err)
	}
	need := "as much room as the database takes"
	if info, gone := os.Stat(path); gone == nil {
		need = fmt.Sprintf("%d MB of room", 1+info.Size()/1e6)
	}
	return problem.Newf(problem.DiskFull, "db", "the database %s was not brought to the form of this version: it could not be copied to %s", path, name).
		WithHint("Nothing was changed. The copy needs %s: make room in that folder, see that it can be written, then start again. The former version still opens the database.", need).WithCause(err)
}

// Former lists the copies of the store at path that were kept in its former forms.
func Former(path string) []string {
	files, _ := filepath.Glob(escapeGlob(path) + formerEnd + "*") // the pattern is sound
	return slices.DeleteFunc(files, func(name string) bool { return filepath.Ext(name) == ".half" })
}

// DropFormer removes those that are a week old and returns their names. Call it when a
// backup was just made.
func DropFormer(path string, now time.Time) (dropped []string, err error) {
	for _, name := range Former(path) {
		info, gone := os.Stat(name)
		if gone == nil && now.Sub(info.ModTime()) < formerLife {
			continue
		}
		if gone == nil {
			gone = os.Remove(name)
		}
		if gone == nil {
			dropped = append(dropped, name)
		}
		err = errors.Join(err, gone)
	}
	return dropped, err
}

// formKept is what migrate is told of a store that is a copy itself.
func formKept(context.Context, int) error { return nil }

// bringUp migrates a store that is open, and keeps what it was.
func bringUp(ctx context.Context, db *sql.DB, path string) error {
	return migrate(ctx, db, func(ctx context.Context, form int) error { return keepFormer(ctx, path, form) })
}
