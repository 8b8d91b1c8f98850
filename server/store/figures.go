package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// Bytes is what the database and its log take on the disk.
func (s *Store) Bytes() (int64, error) {
	var all int64
	for _, end := range []string{"", "-wal"} {
		info, err := os.Stat(s.path + end)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return 0, fmt.Errorf("look at the size of the database: %w", err)
		}
		if err == nil {
			all += info.Size()
		}
	}
	return all, nil
}

// CountDevices returns how many phones are in the crews, and how many of them were
// there since that time, in ms since 1970 UTC. What was seen in the last minute may be missing.
func (a *Access) CountDevices(ctx context.Context, since int64) (all, seen int64, err error) {
	if err := a.read.QueryRowContext(ctx, `SELECT count(*), count(*) FILTER (WHERE seen >= ?) FROM device WHERE revoked = 0`, since).Scan(&all, &seen); err != nil {
		return 0, 0, fmt.Errorf("count devices: %w", err)
	}
	return all, seen, nil
}

// probeSize is a page of SQLite.
const probeSize = 4096

// TryWrite returns an error unless entries can be stored at this moment: nothing
// has failed so far, nobody keeps the database to himself, and its disk takes a
// page. The database itself is not changed.
func (s *Store) TryWrite(ctx context.Context) error {
	if err := s.writable(); err != nil {
		return err
	}
	if err := s.Present(); err != nil {
		return err
	}
	tx, err := s.write.BeginTx(ctx, nil) // which takes the lock for writing
	if err != nil {
		return Unfit(s.path, err)
	}
	if err := tx.Rollback(); err != nil {
		return Unfit(s.path, err)
	}
	if InMemory(s.path) {
		return nil
	}
	s.probing.Lock()
	defer s.probing.Unlock()
	if err := probe(s.path + ".probe"); err != nil {
		return Unfit(s.path, err)
	}
	return nil
}

// probe has the disk take a page in a file of that name, and removes it.
func probe(name string) (err error) {
	f, err := os.OpenFile(name, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	_, err = f.Write(make([]byte, probeSize))
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close(), os.Remove(name))
}
