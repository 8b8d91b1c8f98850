package store

import (
	"context"
	"fmt"
)

// sameDiskSince is the migration that made the column same_disk.
const sameDiskSince = 3

// NoteBackup notes in the store at path up to where the entries of each crew are
// in a backup. It never goes back: an older backup still holds what it holds.
func NoteBackup(ctx context.Context, path string, whole map[string]int64, sameDisk bool) error {
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
