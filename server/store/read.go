package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
)

// Row is one arrival as it is stored, with the chain at it.
type Row struct {
	exchange.Arrival
	Chain event.Chain
}

// At returns the chain at arrival n of crew; false if the journal does not go
// that far. Arrival 0 is there always.
func (s *Store) At(ctx context.Context, crew string, n int64) (event.Chain, bool, error) {
	c, ok := s.State(crew)
	if !ok || n > c.Max || n < 0 {
		return event.Chain{}, false, nil
	}
	switch n {
	case 0:
		return event.Chain{}, true, nil
	case c.Max:
		return c.Head, true, nil
	}
	var chain []byte
	err := s.read.QueryRowContext(ctx, `SELECT chain FROM event WHERE crew = ? AND n = ?`, c.key, n).Scan(&chain)
	if errors.Is(err, sql.ErrNoRows) {
		return event.Chain{}, false, nil
	}
	if err != nil || len(chain) != len(event.Chain{}) {
		return event.Chain{}, false, fmt.Errorf("read the chain at %d: %w", n, errors.Join(err, errSize(chain)))
	}
	return event.Chain(chain), true, nil
}

// After returns the arrivals of crew after n, at most limit of them and at most
// size bytes of events, but one at least if there is one. It stops before a row
// whose bytes no longer fit their sum; Damaged names that row until a phone has
// brought it again. It also stops before a row that does not join on to the one
// before, which only a damaged file can have.
func (s *Store) After(ctx context.Context, crew string, n int64, limit, size int) ([]Row, error) {
	c, ok := s.State(crew)
	if !ok || n >= c.Max {
		return nil, nil
	}
	gone := s.gone.of(crew)
	if page, ok := s.remembered(crew, n, limit, size); ok && !slices.ContainsFunc(page, gone.touches) {
		return page, nil
	}
	chain, _, err := s.At(ctx, crew, n)
	if err != nil {
		return nil, err
	}
	rows, err := s.read.QueryContext(ctx,
		`SELECT n, id, o, sum, chain, raw FROM event WHERE crew = ? AND n > ? AND n <= ? ORDER BY n LIMIT ?`,
		c.key, n, c.Max, limit)
	if err != nil {
		return nil, fmt.Errorf("read arrivals after %d: %w", n, err)
	}
	defer rows.Close()
	var page []Row
	for rows.Next() {
		r, err := gone.scan(rows)
		next := n + int64(len(page)) + 1
		chain = chain.Next(r.ID, r.O, r.Sum)
		if (err == nil || errors.Is(err, errDamaged)) && (r.N != next || r.Chain != chain) {
			damage := s.Damage(fmt.Errorf("what stands as arrival %d does not join on to %d", r.N, next-1))
			if len(page) > 0 {
				break // what stands before the damage is sound
			}
			return nil, damage
		}
		if errors.Is(err, errDamaged) {
			s.noteBad(c.key, r)
			break
		}
		if err != nil {
			return nil, fmt.Errorf("read arrivals after %d: %w", n, err)
		}
		if size -= len(r.Raw); size < 0 && len(page) > 0 {
			break
		}
		page = append(page, r)
	}
	return page, rows.Err()
}

// errDamaged is the error of a row whose bytes no longer fit their sum.
var errDamaged = errors.New("the bytes do not fit their sum")

// noteBad has the phones asked for a row that was found damaged.
func (s *Store) noteBad(crew int64, r Row) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.bad[rowKey{crew, r.N}] = r.ID
}

func errSize(b []byte) error {
	if len(b) != len(event.Chain{}) {
		return fmt.Errorf("%d bytes where a chain has %d", len(b), len(event.Chain{}))
	}
	return nil
}

// scan reads one row and checks its bytes, but for those of an erased event.
func (x *erasures) scan(rows *sql.Rows) (Row, error) {
	r, err := scan(rows)
	if (err == nil || errors.Is(err, errDamaged)) && x.settle(&r) {
		return r, nil
	}
	return r, err
}

// scan reads one row and checks its bytes.
func scan(rows *sql.Rows) (Row, error) {
	var (
		r          Row
		o          string
		sum, chain []byte
	)
	if err := rows.Scan(&r.N, &r.ID, &o, &sum, &chain, &r.Raw); err != nil {
		return r, err
	}
	r.ID = entryID(r.ID)
	stamp, err := event.ParseStamp(o)
	if err != nil || len(sum) != len(r.Sum) || len(chain) != len(r.Chain) {
		return r, errDamaged
	}
	r.O, r.Sum, r.Chain = stamp, event.Sum(sum), event.Chain(chain)
	if event.SumOf(r.Raw) != r.Sum {
		return r, errDamaged
	}
	return r, nil
}

// Damaged returns the ids of rows of crew that were found damaged, at most 100,
// so that its phones can be asked for them.
func (s *Store) Damaged(crew string) []string {
	c, _ := s.State(crew)
	s.mu.RLock()
	defer s.mu.RUnlock()
	var ids []string
	for row, id := range s.bad {
		if row.crew != c.key {
			continue
		}
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids[:min(len(ids), 100)]
}

// Status is what the server tells about its store.
type Status struct {
	Crew    string `json:"crew"`
	Events  int64  `json:"events"`
	Bytes   int64  `json:"bytes"` // of the database file
	Damaged int    `json:"damaged"`
	Writing bool   `json:"writing"` // false after the disk failed and while the file is damaged
}

// Status returns how the store is. Its error is a problem.
func (s *Store) Status(ctx context.Context) (Status, error) {
	c, _ := s.State(s.crew)
	st := Status{Crew: s.crew, Events: c.Max}
	var pages, size int64
	err := errors.Join(
		s.read.QueryRowContext(ctx, `PRAGMA page_count`).Scan(&pages),
		s.read.QueryRowContext(ctx, `PRAGMA page_size`).Scan(&size))
	if err != nil {
		return st, problem.New(problem.Busy, "", "the store cannot be read", "See the server's log.").WithCause(err)
	}
	st.Bytes = pages * size
	s.mu.RLock()
	defer s.mu.RUnlock()
	st.Damaged, st.Writing = len(s.bad), s.fatal == nil && s.harm == nil
	return st, nil
}
