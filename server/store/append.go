package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
)

// Batch is what one request brings.
type Batch struct {
	Crew   string
	Relay  string // device that brings it, "" before enrolment
	Now    int64  // the server's wall clock, ms since 1970 UTC
	Events []exchange.Push
}

// job is a batch on its way through the writer.
type job struct {
	ctx   context.Context
	batch Batch
	acks  []exchange.Ack
	err   error
	done  chan struct{}
}

// Append stores a batch, all of it or nothing, and returns the number and the
// confirmed stamp of each of its events in their order. An event that is there
// already keeps the number and the stamp it got. When Append returns without
// error the batch is on the disk.
func (s *Store) Append(ctx context.Context, b Batch) ([]exchange.Ack, error) {
	if len(b.Events) == 0 {
		return nil, nil
	}
	j := &job{ctx: ctx, batch: b, done: make(chan struct{})}
	select {
	case s.jobs <- j:
		<-j.done
		return j.acks, j.err
	case <-s.closing:
		return nil, problem.New(problem.Busy, "", "the server is stopping", "Kerfside tries again by itself.")
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// statements of the writer.
const (
	insertEvent = `INSERT INTO event (crew, n, id, o, sum, chain, relay, raw) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (crew, id) DO NOTHING`
	insertStanding = `INSERT INTO standing (crew, rank, n) SELECT ?, value ->> 0, value ->> 1 FROM json_each(?)`
	selectEvent    = `SELECT n, o, sum, raw FROM event WHERE crew = ? AND id = ?`
	mendEvent      = `UPDATE event SET raw = ? WHERE crew = ? AND n = ?`
	updateCrew     = `UPDATE crew SET max = ?, head = ?, highest = ? WHERE key = ?`
)

// stored is what a batch came to. It counts only after the commit.
type stored struct {
	crew   string
	acks   []exchange.Ack
	rows   []Row    // that are new
	mended []rowKey // damaged rows whose bytes came again
}

// appendBatch stores b in tx and moves c, a copy, on.
func appendBatch(ctx context.Context, tx *sql.Tx, st *statements, ids *stretches, c *State, b Batch, gone *erasures) (to stored, err error) {
	now, _ := event.ServerNow(b.Now, c.Highest)
	to.crew, to.acks, to.rows = b.Crew, make([]exchange.Ack, 0, len(b.Events)), make([]Row, 0, len(b.Events))
	insert, find := tx.StmtContext(ctx, st.insert), tx.StmtContext(ctx, st.find)
	var standing [][2]int64 // of the new ones, each with its number
	for _, p := range b.Events {
		p = gone.instead(p)
		hash := hashOf(p.Event.ID)
		ack, damaged, found, err := heldBefore(ctx, find, ids, hash, p, gone)
		if err != nil {
			return to, fmt.Errorf("find event %s: %w", p.Event.ID, err)
		}
		if found {
			if err := to.answer(ctx, tx, c.key, p, ack, damaged); err != nil {
				return to, err
			}
			continue
		}
		o := event.Clamp(p.O, now)
		chain := c.Head.Next(p.Event.ID, o, p.Sum)
		result, err := insert.ExecContext(ctx, c.key, c.Max+1, ids.prefix+p.Event.ID, o.String(), p.Sum[:], chain[:], b.Relay, p.Event.Raw)
		if err != nil {
			return to, fmt.Errorf("append event %s: %w", p.Event.ID, err)
		}
		count, err := result.RowsAffected()
		if err != nil {
			return to, fmt.Errorf("append event %s: %w", p.Event.ID, err)
		}
		if count == 1 {
			c.Max, c.Head, c.Highest = c.Max+1, chain, max(c.Highest, o)
			to.acks = append(to.acks, exchange.Ack{ID: p.Event.ID, N: c.Max, O: o})
			row := Row{exchange.Arrival{N: c.Max, ID: p.Event.ID, O: o, Sum: p.Sum, Raw: bytes.Clone(p.Event.Raw)}, chain}
			gone.settle(&row)
			to.rows = append(to.rows, row)
			if rank := event.StandingOf(p.Event); rank != event.Passing {
				standing = append(standing, [2]int64{int64(rank), c.Max})
			}
			if err := ids.added(ctx, tx, hash); err != nil {
				return to, err
			}
			continue
		}
		ack, damaged, err = held(ctx, find, c.key, ids.prefix, p, gone)
		if err != nil {
			return to, fmt.Errorf("find event %s: %w", p.Event.ID, err)
		}
		if err := to.answer(ctx, tx, c.key, p, ack, damaged); err != nil {
			return to, err
		}
	}
	if err := noteStanding(ctx, tx, st, c.key, standing); err != nil {
		return to, err
	}
	_, err = tx.ExecContext(ctx, updateCrew, c.Max, c.Head[:], c.Highest.String(), c.key)
	return to, err
}

// noteStanding keeps which of the new arrivals stand, all in one statement: with one for
// each it costs half as much again.
func noteStanding(ctx context.Context, tx *sql.Tx, st *statements, crew int64, standing [][2]int64) error {
	if len(standing) == 0 {
		return nil
	}
	list, err := json.Marshal(standing)
	if err == nil {
		_, err = tx.StmtContext(ctx, st.stand).ExecContext(ctx, crew, string(list))
	}
	if err != nil {
		return fmt.Errorf("note what stands: %w", err)
	}
	return nil
}

// answer takes up what was found out of an event that is there already.
func (to *stored) answer(ctx context.Context, tx *sql.Tx, crew int64, p exchange.Push, ack exchange.Ack, damaged bool) error {
	if damaged && !ack.Conflict {
		if _, err := tx.ExecContext(ctx, mendEvent, p.Event.Raw, crew, ack.N); err != nil {
			return fmt.Errorf("mend event %s: %w", p.Event.ID, err)
		}
		to.mended = append(to.mended, rowKey{crew, ack.N})
	}
	to.acks = append(to.acks, ack)
	return nil
}

// heldBefore is held for an event that may be in a stretch that grows no more.
func heldBefore(ctx context.Context, find *sql.Stmt, ids *stretches, hash [2]uint64, p exchange.Push, gone *erasures) (ack exchange.Ack, damaged, found bool, err error) {
	for prefix := range ids.mayHold(hash) {
		ack, damaged, err = held(ctx, find, ids.crew, prefix, p, gone)
		if !errors.Is(err, sql.ErrNoRows) {
			return ack, damaged, true, err
		}
	}
	return ack, false, false, nil
}

// held answers for an event whose id is in that stretch of the store already.
// damaged says that the stored bytes no longer fit their sum.
func held(ctx context.Context, find *sql.Stmt, crew int64, prefix string, p exchange.Push, gone *erasures) (ack exchange.Ack, damaged bool, err error) {
	var (
		o        string
		sum, raw []byte
	)
	if err := find.QueryRowContext(ctx, crew, prefix+p.Event.ID).Scan(&ack.N, &o, &sum, &raw); err != nil {
		return ack, false, err
	}
	if ack.O, err = event.ParseStamp(o); err != nil || len(sum) != len(p.Sum) {
		return ack, false, errors.Join(errors.New("its row is damaged"), err)
	}
	ack.ID = p.Event.ID
	ack.Conflict = event.Sum(sum) != p.Sum
	if e, ok := gone.bySum[event.Sum(sum)]; ok {
		return ack, !bytes.Equal(raw, e.Stub), nil
	}
	return ack, event.SumOf(raw) != event.Sum(sum), nil
}
