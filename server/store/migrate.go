package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"

	"kerfside/calc/problem"
)

// migrations are numbered SQL files, each run once. A released file is never
// edited: stores out there have run it as it was.
//
//go:embed migrations/*.sql
var migrations embed.FS

// migrate runs the files that the store has not run yet, each in a transaction
// with the number that says so.
func migrate(ctx context.Context, db *sql.DB) error {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return err
	}
	var done int
	if err := db.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&done); err != nil {
		return fmt.Errorf("read the schema's version: %w", err)
	}
	if done > len(names) {
		return problem.Newf(problem.OldApp, "db", "the database was written by a newer kerfside (form %d, this one knows %d)", done, len(names)).
			WithHint("Update this program, or start the newer one.")
	}
	for i, name := range names[done:] {
		if err := migrateOne(ctx, db, name, done+i+1); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

func migrateOne(ctx context.Context, db *sql.DB, name string, version int) error {
	statements, err := migrations.ReadFile(name)
	if err != nil {
		return err
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if _, err := tx.ExecContext(ctx, string(statements)); err != nil {
		return err
	}
	// A pragma takes no bound parameter; version is a number of ours.
	if _, err := tx.ExecContext(ctx, fmt.Sprintf(`PRAGMA user_version = %d`, version)); err != nil {
		return err
	}
	return tx.Commit()
}
