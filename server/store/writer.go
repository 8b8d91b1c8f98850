package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"kerfside/calc/problem"
)

// maxGroup is how many batches may share one commit: enough for every phone of
// a busy yard, few enough that the first of them does not wait long.
const maxGroup = 64

// statements are the writer's, prepared once.
type statements struct{ insert, stand, find, crew *sql.Stmt }

// run is the writer. It ends when the store closes.
func (s *Store) run() {
	defer close(s.done)
	var st *statements
	for {
		var group []*job
		select {
		case j := <-s.jobs:
			group = append(group, j)
		case <-s.closing:
			return
		}
		for len(group) < maxGroup {
			select {
			case j := <-s.jobs:
				group = append(group, j)
				continue
			default:
			}
			break
		}
		err := s.writable()
		if err == nil && st == nil {
			st, err = s.prepare()
		}
		if err == nil {
			err = s.commit(st, group)
		}
		if err == nil {
			err = s.Present() // or it went into a file that nobody finds again
		}
		for _, j := range group {
			if err != nil && j.err == nil {
				j.err = s.explain(err)
			}
			if j.err != nil {
				j.acks = nil
			}
			close(j.done)
		}
	}
}

// prepare prepares the writer's statements.
func (s *Store) prepare() (*statements, error) {
	var st statements
	for _, one := range []struct {
		text string
		to   **sql.Stmt
	}{{insertEvent, &st.insert}, {insertStanding, &st.stand}, {selectEvent, &st.find}, {selectState + ` WHERE id = ?`, &st.crew}} {
		var err error
		if *one.to, err = s.write.Prepare(one.text); err != nil {
			return nil, errors.Join(err, st.close())
		}
	}
	return &st, nil
}

// close closes those that were prepared.
func (st *statements) close() error {
	var err error
	for _, one := range []*sql.Stmt{st.insert, st.stand, st.find, st.crew} {
		if one != nil {
			err = errors.Join(err, one.Close())
		}
	}
	return err
}

// commit stores a group in one transaction. Until it has returned from the
// commit, nothing outside has changed.
func (s *Store) commit(st *statements, group []*job) error {
	ctx := context.Background() // one phone hanging up must not undo the others
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return fmt.Errorf("begin: %w", err)
	}
	committed := false
	defer func() {
		if !committed {
			tx.Rollback()
			clear(s.stretched) // they may have gone ahead of what is on the disk
		}
	}()
	moved := map[string]*State{} // those of the group, to be told after the commit
	var done []stored
	for _, j := range group {
		c, ok := moved[j.batch.Crew]
		if !ok {
			now, err := s.stateIn(ctx, tx, st, j.batch.Crew)
			if problem.KindOf(err) != problem.Internal && err != nil {
				j.err = err
				continue
			}
			if err != nil {
				return err
			}
			c = &now
		}
		if j.err = j.ctx.Err(); j.err != nil {
			continue // nobody waits for it any more
		}
		next := *c
		ids, err := s.stretchesOf(ctx, tx, next.key)
		if err != nil {
			return err
		}
		to, err := appendBatch(ctx, tx, st, ids, &next, j.batch, s.gone.of(j.batch.Crew))
		if err != nil {
			return err
		}
		j.acks, moved[j.batch.Crew] = to.acks, &next
		done = append(done, to)
	}
	if err := tx.Commit(); err != nil {
		return fmt.Errorf("commit: %w", err)
	}
	committed = true
	defer func() { // when all of it can be seen
		for crew := range moved {
			s.bells.ring(crew)
		}
	}()
	s.mu.Lock()
	defer s.mu.Unlock()
	for crew, c := range moved {
		s.know(crew, c)
	}
	for _, to := range done {
		s.remember(to.crew, to.rows)
		for _, row := range to.mended {
			delete(s.bad, row)
		}
	}
	return nil
}

// explain turns an error of SQLite into the problem that a phone is told. After
// a failure of the disk nothing more is written: what the disk holds is known
// only after a fresh start.
func (s *Store) explain(err error) error {
	var p *problem.Error
	if errors.As(err, &p) {
		return err
	}
	switch trouble(err) {
	case damaged:
		return s.Damage(err)
	case full:
		return problem.New(problem.DiskFull, "", "the server's disk is full",
			"What you enter stays on this phone. Make room on the server.").WithCause(err)
	case locked:
		p = problem.New(problem.Busy, "", "the server is busy", "Kerfside tries again by itself.").WithCause(err)
		p.Retry = 5
		return p
	}
	s.fail(err)
	return failed(err)
}

// failed is the problem of a disk that failed.
func failed(err error) *problem.Error {
	p := problem.New(problem.Busy, "", "the server could not write to its disk",
		"What you enter stays on this phone. Whoever runs the server finds more in its log.").WithCause(err)
	p.Retry = 5
	return p
}

// fail remembers the first failure of the disk and reports it.
func (s *Store) fail(err error) {
	s.mu.Lock()
	first := s.fatal == nil
	if first {
		s.fatal = err
	}
	s.mu.Unlock()
	if first && s.options.OnFatal != nil {
		go s.options.OnFatal(err) // it may well close the store, which waits for this goroutine
	}
}
