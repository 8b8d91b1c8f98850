package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"kerfside/calc/journal/event"
)

// verified is what a copy holds.
type verified struct {
	events  int64
	damaged []string         // ids of rows whose bytes do not fit their sum
	whole   map[string]int64 // crew → n up to which no row is damaged
}

// verify checks the copy of a store: SQLite's own check, then of each crew that
// its arrivals are numbered without gap, that their chain ends where the crew
// says, and that bytes fit their sums, but for events on the list erased. Bytes that do not fit were so before the
// copy and are told; everything else is an error.
func verify(ctx context.Context, path, erased string) (verified, error) {
	v := verified{whole: map[string]int64{}}
	gone := newErasedList(erased)
	if _, err := gone.refresh(); err != nil {
		return v, err
	}
	db := connect(path, reading)
	defer db.Close()
	var verdict string
	if err := db.QueryRowContext(ctx, `PRAGMA integrity_check`).Scan(&verdict); err != nil || verdict != "ok" {
		return v, errors.Join(fmt.Errorf("integrity_check says %q", verdict), err)
	}
	rows, err := db.QueryContext(ctx, `SELECT key, id, max, head FROM crew`)
	if err != nil {
		return v, err
	}
	defer rows.Close()
	for rows.Next() {
		var key, most int64
		var id string
		var head []byte
		if err := rows.Scan(&key, &id, &most, &head); err != nil {
			return v, err
		}
		if err := v.crew(ctx, db, key, id, most, head, gone.of(id)); err != nil {
			return v, fmt.Errorf("crew %s: %w", id, err)
		}
	}
	return v, rows.Err()
}

// crew checks one crew.
func (v *verified) crew(ctx context.Context, db *sql.DB, key int64, id string, most int64, head []byte, gone *erasures) error {
	rows, err := db.QueryContext(ctx, `SELECT n, id, o, sum, chain, raw FROM event WHERE crew = ? ORDER BY n`, key)
	if err != nil {
		return err
	}
	defer rows.Close()
	var n int64
	var chain event.Chain
	whole := true
	for rows.Next() {
		n++
		r, err := gone.scan(rows)
		switch {
		case errors.Is(err, errDamaged):
			v.damaged = append(v.damaged, r.ID)
			whole = false
		case err != nil:
			return err
		}
		chain = chain.Next(r.ID, r.O, r.Sum)
		if r.N != n || chain != r.Chain {
			return fmt.Errorf("its history breaks at arrival %d", n)
		}
		if whole {
			v.whole[id] = n
		}
	}
	if n != most || string(head) != string(chain[:]) {
		return fmt.Errorf("%d entries are there of %d", n, most)
	}
	v.events += n
	return rows.Err()
}
