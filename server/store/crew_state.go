package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"kerfside/calc/problem"
)

// CrewState says where a crew stands on its way from one server to another. A server
// answers the phones of one that is here, and no other. The states of a move go
//
//	old server   here → frozen → moved → gone
//	new server   arriving → held → here
//
// and held becomes here only with a key that the old server makes as it turns frozen
// into moved, so that at no moment two servers answer.
type CrewState string

const (
	CrewHere     CrewState = "here"
	CrewFrozen   CrewState = "frozen"   // packed, to go: it changes no more, and may still be kept
	CrewMoved    CrewState = "moved"    // handed over; what it had is kept until it is dropped
	CrewGone     CrewState = "gone"     // dropped; its id and its phones are known, to be sent on
	CrewArriving CrewState = "arriving" // being unpacked
	CrewHeld     CrewState = "held"     // unpacked whole, and not taken up yet
)

// ErrAway is behind each problem of a crew that is not served here now. Phones ask
// again by themselves; logs need not repeat it.
var ErrAway = errors.New("the crew is not served here now")

// away returns why a crew in this state is not served, nil for one that is. Phones take
// the kind for one that passes: they keep what they have and try again.
func (c CrewState) away() error {
	p := problem.New(problem.Busy, "", "the crew is on its way to another server", "What you enter stays on this phone. It goes up by itself in a while.")
	switch c {
	case CrewHere:
		return nil
	case CrewMoved, CrewGone:
		p.Msg = "the crew has moved to another server"
	}
	p.Retry = 5
	return p.WithCause(ErrAway)
}

// withCrew is change for what concerns one crew, whatever state it is in.
func (a *Access) withCrew(crew string, f func(ctx context.Context, tx *sql.Tx, key int64, state CrewState) error) error {
	return a.change(func(ctx context.Context, tx *sql.Tx) error {
		var key int64
		var state CrewState
		err := tx.QueryRowContext(ctx, `SELECT key, state FROM crew WHERE id = ?`, crew).Scan(&key, &state)
		if errors.Is(err, sql.ErrNoRows) {
			return noCrew(crew)
		}
		if err != nil {
			return fmt.Errorf("find crew: %w", err)
		}
		return f(ctx, tx, key, state)
	})
}

// changeCrew is withCrew for one that is served here. The state is looked at in the
// transaction of the change: nothing is changed after a crew was frozen.
func (a *Access) changeCrew(crew string, f func(context.Context, *sql.Tx, int64) error) error {
	return a.withCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64, state CrewState) error {
		if err := state.away(); err != nil {
			return err
		}
		return f(ctx, tx, key)
	})
}

// IsHere returns nil if a crew is served here at this moment, else why not.
func (a *Access) IsHere(ctx context.Context, crew string) error {
	var state CrewState
	err := a.read.QueryRowContext(ctx, `SELECT state FROM crew WHERE id = ?`, crew).Scan(&state)
	if errors.Is(err, sql.ErrNoRows) {
		return noCrew(crew)
	}
	if err != nil {
		return fmt.Errorf("find crew: %w", err)
	}
	return state.away()
}
