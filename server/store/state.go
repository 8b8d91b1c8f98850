package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// State is where a crew's journal stands.
type State struct {
	Max      int64       // number of the newest arrival
	Head     event.Chain // chain at Max
	Highest  event.Stamp // highest o
	BackedUp int64       // highest n in a checked backup on another disk
	SameDisk int64       // highest n in a checked backup on the database's own

	key  int64
	crew CrewState
}

const selectState = `SELECT key, id, state, max, head, highest, backed_up, same_disk FROM crew`

// scanState reads one of these rows.
func (s *Store) scanState(scan func(...any) error) (c State, id string, err error) {
	var highest string
	var head []byte
	if err := scan(&c.key, &id, &c.crew, &c.Max, &head, &highest, &c.BackedUp, &c.SameDisk); err != nil {
		return c, "", err
	}
	if c.Highest, err = event.ParseStamp(highest); err != nil || len(head) != len(c.Head) {
		return c, id, problem.Newf(problem.Refused, "db", "the database %s is damaged in the row of crew %s", s.path, id).
			WithHint("Restore the newest sound backup with kerfside restore; phones bring back what came after it.")
	}
	c.Head = event.Chain(head)
	return c, id, nil
}

// retire sees to it that no crew is served here that the list says has moved on: the
// database may be an older backup.
func (s *Store) retire(ctx context.Context) error {
	if _, err := s.gone.refresh(); err != nil {
		return err
	}
	defer s.gone.again() // whoever looks next takes out what was erased
	for crew, x := range s.gone.all() {
		if x.moved == 0 {
			continue
		}
		if _, err := s.write.ExecContext(ctx, `UPDATE crew SET state = ?, moves = ? WHERE id = ? AND state IN (?, ?) AND moves < ?`,
			CrewMoved, x.moved, crew, CrewHere, CrewFrozen, x.moved); err != nil {
			return fmt.Errorf("leave crew %s to its server: %w", crew, err)
		}
	}
	return nil
}

// loadCrews reads where each crew stands and returns how many there are. Those that
// are not served here may be changed by a command, and are read once they are.
func (s *Store) loadCrews(ctx context.Context) (found int, err error) {
	rows, err := s.write.QueryContext(ctx, selectState+` ORDER BY key`)
	if err != nil {
		return 0, fmt.Errorf("read crews: %w", err)
	}
	defer rows.Close()
	elsewhere := ""
	for rows.Next() {
		c, id, err := s.scanState(rows.Scan)
		if err != nil {
			return 0, fmt.Errorf("read crews: %w", err)
		}
		found++
		if c.crew != CrewHere {
			if elsewhere == "" {
				elsewhere = id
			}
			continue
		}
		if s.crew == "" {
			s.crew = id
		}
		s.crews[id] = &c
	}
	if s.crew == "" {
		s.crew = elsewhere
	}
	return found, rows.Err()
}

// State returns where the journal of crew stands; false if no such crew is served here.
func (s *Store) State(crew string) (State, bool) {
	s.mu.RLock()
	c, ok := s.crews[crew]
	s.mu.RUnlock()
	if !ok {
		if c, ok = s.newCrew(crew, 0); !ok {
			return State{}, false
		}
	}
	return *c, true
}

// newCrew reads where a crew stands that came since the store was opened, or came back
// under another key than known, 0 for none.
func (s *Store) newCrew(crew string, known int64) (*State, bool) {
	c, _, err := s.scanState(s.read.QueryRow(selectState+` WHERE id = ?`, crew).Scan)
	if err != nil || c.crew != CrewHere {
		return nil, false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if met, ok := s.crews[crew]; ok && met.key != known {
		return met, true // the writer was faster, and may have gone on
	}
	s.know(crew, &c)
	return &c, true
}

// know remembers where a crew stands; call it with mu held. What is remembered of one
// that went away and came back is of another time.
func (s *Store) know(crew string, c *State) {
	if was, ok := s.crews[crew]; ok && was.key != c.key {
		delete(s.recent, crew)
	}
	s.crews[crew] = c
}

// DeviceOf is that of Access. It sees to it that what is remembered of the crew is of
// the crew as it is here now: all that phones read of it begins here.
func (s *Store) DeviceOf(ctx context.Context, token string) (Device, error) {
	d, key, err := s.deviceOf(ctx, token)
	if err != nil {
		return d, err
	}
	s.mu.RLock()
	c, ok := s.crews[d.Crew]
	s.mu.RUnlock()
	if ok && c.key != key {
		s.newCrew(d.Crew, c.key)
	}
	return d, nil
}

// stateIn returns where a crew stands that is to be written to in tx. Its problem is
// that of the batch alone. A crew that is frozen in another process takes nothing from
// that commit on.
func (s *Store) stateIn(ctx context.Context, tx *sql.Tx, st *statements, crew string) (State, error) {
	c, _, err := s.scanState(tx.StmtContext(ctx, st.crew).QueryRowContext(ctx, crew).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return c, problem.New(problem.WrongCrew, "", "this server does not know that crew", "What you enter stays on this phone. Check the address.")
	}
	if err != nil {
		return c, fmt.Errorf("find crew %s: %w", crew, err)
	}
	return c, c.crew.away()
}
