package store

import (
	"context"
	"database/sql"
	"fmt"
)

// maxSeen is how many devices may be noted before they are written.
const maxSeen = 1000

// See notes that a device was there. The notes are kept in memory and written
// by Flush; due says that there are many.
func (a *Access) See(d Device, now int64) (due bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.seen[deviceKey{d.Crew, d.ID}] = now
	return len(a.seen) >= maxSeen
}

// freshen adds what has not been written yet.
func (a *Access) freshen(d Device) Device {
	a.mu.Lock()
	defer a.mu.Unlock()
	d.Seen = max(d.Seen, a.seen[deviceKey{d.Crew, d.ID}])
	return d
}

// Flush writes the notes of See. They wait while nothing can be written, which
// is told elsewhere.
func (a *Access) Flush() error {
	if a.writable() != nil {
		return nil
	}
	a.mu.Lock()
	seen := a.seen
	a.seen = map[deviceKey]int64{}
	a.mu.Unlock()
	if len(seen) == 0 {
		return nil
	}
	return a.change(func(ctx context.Context, tx *sql.Tx) error {
		for k, at := range seen {
			_, err := tx.ExecContext(ctx, `UPDATE device SET seen = max(seen, ?) WHERE crew = (SELECT key FROM crew WHERE id = ?) AND id = ?`, at, k.crew, k.id)
			if err != nil {
				return fmt.Errorf("note when a device was seen: %w", err)
			}
		}
		return nil
	})
}
