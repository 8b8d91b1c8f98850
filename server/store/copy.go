package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"

	"kerfside/calc/problem"
)

// Readable tries to read the store at path by the kind of connection that copies
// it. Its error is a problem.
func Readable(ctx context.Context, path string) error {
	db := connect(path, writing)
	defer db.Close()
	var tables int
	if err := db.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema`).Scan(&tables); err != nil {
		return unreadable(path, err)
	}
	return nil
}

// WriteCopy writes a copy of the store, as one moment has it, into a new file
// and flushes it to the disk.
func WriteCopy(ctx context.Context, path, to string) error {
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

// Copy is the file of a store that nothing changes meanwhile: a backup, or one that
// is about to take a store's place.
type Copy struct {
	db   *sql.DB
	gone *erasedList
}

// CopiedCrew is where the journal of a crew ends by what a copy says of itself.
type CopiedCrew struct {
	ID   string
	Max  int64  // number of its newest arrival
	Head []byte // the chain at Max

	key int64
}

// OpenCopy opens the copy at path to be looked through. Events on the list of
// erasures need not fit their sums. Close it; a log may be left beside it, see
// RemoveLog.
func OpenCopy(path, erased string) (*Copy, error) {
	gone := newErasedList(erased)
	if _, err := gone.refresh(); err != nil {
		return nil, err
	}
	return &Copy{db: connect(path, reading), gone: gone}, nil
}

// Close ends it.
func (c *Copy) Close() error { return c.db.Close() }

// Sound lets SQLite look through the whole of it.
func (c *Copy) Sound(ctx context.Context) error {
	var verdict string
	if err := c.db.QueryRowContext(ctx, `PRAGMA integrity_check`).Scan(&verdict); err != nil || verdict != "ok" {
		return errors.Join(fmt.Errorf("integrity_check says %q", verdict), err)
	}
	return nil
}

// Crews lists its crews.
func (c *Copy) Crews(ctx context.Context) ([]CopiedCrew, error) {
	rows, err := c.db.QueryContext(ctx, `SELECT key, id, max, head FROM crew`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var list []CopiedCrew
	for rows.Next() {
		var crew CopiedCrew
		if err := rows.Scan(&crew.key, &crew.ID, &crew.Max, &crew.Head); err != nil {
			return nil, err
		}
		list = append(list, crew)
	}
	return list, rows.Err()
}

// Rows hands out the arrivals of a crew by their numbers; fits is false for bytes
// that do not fit their sum.
func (c *Copy) Rows(ctx context.Context, crew CopiedCrew, each func(r Row, fits bool) error) error {
	gone := c.gone.of(crew.ID)
	rows, err := c.db.QueryContext(ctx, `SELECT n, id, o, sum, chain, raw FROM event WHERE crew = ? ORDER BY n`, crew.key)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		r, err := gone.scan(rows)
		if err != nil && !errors.Is(err, errDamaged) {
			return err
		}
		if err := each(r, err == nil); err != nil {
			return err
		}
	}
	return rows.Err()
}

// CheckForm refuses the copy at path if a newer program made it.
func CheckForm(path string) error {
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
