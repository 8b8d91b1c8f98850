package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"kerfside/calc/problem"
)

// Crew is a crew as people know it.
type Crew struct {
	ID, Name string
	Devices  int // not revoked
	Owners   int // of them
	State    CrewState
}

const selectCrew = `SELECT id, name, state,
	(SELECT count(*) FROM device WHERE device.crew = crew.key AND revoked = 0),
	(SELECT count(*) FROM device WHERE device.crew = crew.key AND revoked = 0 AND role = 'owner')
	FROM crew`

// Crews lists all crews, oldest first.
func (a *Access) Crews(ctx context.Context) ([]Crew, error) {
	rows, err := a.read.QueryContext(ctx, selectCrew+` ORDER BY key`)
	if err != nil {
		return nil, fmt.Errorf("read crews: %w", err)
	}
	defer rows.Close()
	var list []Crew
	for rows.Next() {
		var c Crew
		if err := rows.Scan(&c.ID, &c.Name, &c.State, &c.Devices, &c.Owners); err != nil {
			return nil, fmt.Errorf("read crews: %w", err)
		}
		list = append(list, c)
	}
	return list, rows.Err()
}

// CrewByID returns one crew.
func (a *Access) CrewByID(ctx context.Context, id string) (Crew, error) {
	var c Crew
	err := a.read.QueryRowContext(ctx, selectCrew+` WHERE id = ?`, id).Scan(&c.ID, &c.Name, &c.State, &c.Devices, &c.Owners)
	if errors.Is(err, sql.ErrNoRows) {
		return c, noCrew(id)
	}
	return c, err
}

func noCrew(id string) error {
	return problem.Newf(problem.NotFound, "crew", "there is no crew %q here", id).WithHint("kerfside crew list names them.")
}

// AddCrew adds a crew and returns its id.
func (a *Access) AddCrew(name string, now int64) (string, error) {
	name, err := readName("name", name)
	if err != nil {
		return "", err
	}
	id, err := a.id()
	if err != nil {
		return "", err
	}
	return id, a.change(func(ctx context.Context, tx *sql.Tx) error {
		result, err := tx.ExecContext(ctx, `INSERT INTO crew (id, name) VALUES (?, ?)`, id, name)
		if err != nil {
			return fmt.Errorf("add crew: %w", err)
		}
		key, err := result.LastInsertId()
		if err != nil {
			return fmt.Errorf("add crew: %w", err)
		}
		return note(ctx, tx, key, AuditLine{At: now, What: CrewAdded})
	})
}

// RenameCrew gives a crew another name.
func (a *Access) RenameCrew(crew, name string, now int64) error {
	name, err := readName("name", name)
	if err != nil {
		return err
	}
	return a.changeCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64) error {
		if _, err := tx.ExecContext(ctx, `UPDATE crew SET name = ? WHERE key = ?`, name, key); err != nil {
			return fmt.Errorf("rename crew: %w", err)
		}
		return note(ctx, tx, key, AuditLine{At: now, What: Renamed})
	})
}
