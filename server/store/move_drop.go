package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"kerfside/calc/problem"
)

// dropAtOnce is how many arrivals are deleted in one transaction: other crews write in
// between.
const dropAtOnce = 5000

// Drop deletes what is left here of a crew that has moved, or a copy that was unpacked
// and is not to be taken up. Of one that has moved its id and by what its phones are
// known stay, so that a phone that comes late is sent on. What is on the list of
// erasures stays too.
func (a *Access) Drop(ctx context.Context, crew string) error {
	var key, moves int64
	err := a.withCrew(crew, func(ctx context.Context, tx *sql.Tx, row int64, state CrewState) error {
		key = row
		if state == CrewHere || state == CrewFrozen {
			return problem.Newf(problem.Refused, "crew", "the crew %s has not moved away", crew).WithHint("Only what another server has taken over is dropped.")
		}
		if err := tx.QueryRowContext(ctx, `SELECT moves FROM crew WHERE key = ?`, key).Scan(&moves); err != nil {
			return err
		}
		return setState(ctx, tx, key, CrewGone)
	})
	if err != nil {
		return err
	}
	if err := a.empty(ctx, key); err != nil {
		return err
	}
	if a.pictures != "" {
		if err := os.RemoveAll(filepath.Join(a.pictures, crew)); err != nil {
			return fmt.Errorf("delete the pictures: %w", err)
		}
	}
	err = a.change(func(ctx context.Context, tx *sql.Tx) error {
		statements := []string{`DELETE FROM invite WHERE crew = ?`, `DELETE FROM audit WHERE crew = ?`, `DELETE FROM move WHERE crew = ?`}
		if moves == 0 { // it was never served here
			statements = append(statements, `DELETE FROM device WHERE crew = ?`, `DELETE FROM crew WHERE key = ?`)
		} else {
			statements = append(statements, `UPDATE device SET name = '', retry = NULL WHERE crew = ?`, `UPDATE crew SET name = '' WHERE key = ?`)
		}
		for _, statement := range statements {
			if _, err := tx.ExecContext(ctx, statement, key); err != nil {
				return fmt.Errorf("drop the crew: %w", err)
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	_, err = a.write.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`) // the log still holds what was
	return err
}

// empty deletes the journal of a crew that is not served here, the newest part first,
// so that what is left is whole at any moment.
func (a *Access) empty(ctx context.Context, key int64) error {
	if _, err := a.write.ExecContext(ctx, `PRAGMA secure_delete = ON`); err != nil { // no bytes in free pages
		return fmt.Errorf("prepare to delete: %w", err)
	}
	for left := int64(1); left > 0; {
		err := a.change(func(ctx context.Context, tx *sql.Tx) error {
			if err := tx.QueryRowContext(ctx, `SELECT max FROM crew WHERE key = ?`, key).Scan(&left); err != nil {
				return err
			}
			left = max(0, left-dropAtOnce)
			head := make([]byte, 16)
			err := tx.QueryRowContext(ctx, `SELECT chain FROM event WHERE crew = ? AND n = ?`, key, left).Scan(&head)
			if err != nil && !errors.Is(err, sql.ErrNoRows) {
				return err
			}
			for _, statement := range []string{`DELETE FROM event WHERE crew = ? AND n > ?`, `DELETE FROM standing WHERE crew = ? AND rank IN (1, 2, 3) AND n > ?`} {
				if _, err := tx.ExecContext(ctx, statement, key, left); err != nil {
					return err
				}
			}
			if left == 0 {
				if _, err := tx.ExecContext(ctx, `DELETE FROM stretch WHERE crew = ?`, key); err != nil {
					return err
				}
				_, err = tx.ExecContext(ctx, `UPDATE crew SET max = 0, head = zeroblob(16), highest = '0000000000000000', backed_up = 0, same_disk = 0 WHERE key = ?`, key)
				return err
			}
			_, err = tx.ExecContext(ctx, `UPDATE crew SET max = ?, head = ? WHERE key = ?`, left, head, key)
			return err
		})
		if err != nil {
			return fmt.Errorf("empty the crew's journal: %w", err)
		}
	}
	return nil
}
