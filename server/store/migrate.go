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

// Form is the number of the newest migration: the form of the databases that this
// program writes.
func Form() int {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		panic(err) // the pattern is a constant
	}
	return len(names)
}

// migrate runs the files that the store has not run yet, all in one transaction
// with the number that says so: whenever it is killed, the store has its former form
// or the new one. keep is called before anything is changed in a store of an
// earlier form, and what it refuses is not migrated.
func migrate(ctx context.Context, db *sql.DB, keep func(ctx context.Context, form int) error) error {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return err
	}
	form, err := formOf(ctx, db)
	if err != nil {
		return err
	}
	if form > len(names) {
		return problem.Newf(problem.OldApp, "db", "the database was written by a newer kerfside (form %d, this one knows %d)", form, len(names)).
			WithHint("Update this program, or start the newer one.")
	}
	if form == len(names) {
		return nil
	}
	if form > 0 {
		if err := keep(ctx, form); err != nil {
			return err
		}
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	for _, name := range names[form:] {
		if err := migrateOne(ctx, tx, name); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	// A pragma takes no bound parameter; it is a number of ours.
	if _, err := tx.ExecContext(ctx, fmt.Sprintf(`PRAGMA user_version = %d`, len(names))); err != nil {
		return err
	}
	return tx.Commit()
}

func migrateOne(ctx context.Context, tx *sql.Tx, name string) error {
	statements, err := migrations.ReadFile(name)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, string(statements))
	return err
}

// formOf returns how many files a store has run; 0 if it is empty.
func formOf(ctx context.Context, db *sql.DB) (form int, err error) {
	if err := db.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&form); err != nil {
		return 0, fmt.Errorf("read the schema's version: %w", err)
	}
	return form, nil
}
