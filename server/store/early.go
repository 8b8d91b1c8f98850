package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
)

// Early arrivals are what a phone that joins a crew with a long journal is given
// before all the rest: what a screen shows of today depends on them. They come in
// stages, each from the newest back, and each bounded, so that what a phone waits for
// does not grow with the journal.

// EarlyLimits say how much that is. The zero value is what the server uses.
type EarlyLimits struct {
	Spare  int64 // a phone that lacks no more than this takes it all in order
	Recent int64 // how many of the newest arrivals are looked at
	Things int64 // how many of what things are called and set to
	Stands int64 // how many of what stands, and of openings and closings
	Open   int   // how many open sessions that began before that have their entries sent
	Page   int   // arrivals in a reply
	Size   int   // bytes of events in a reply
}

var earlyLimits = EarlyLimits{Spare: exchange.MaxPage, Recent: 20_000, Things: 4000, Stands: 6000, Open: 8, Page: exchange.MaxPage, Size: exchange.MaxBody}

// recentDays is how far back in time the newest arrivals are wanted.
const recentDays = 31

// Stages of the early arrivals, in their order.
const (
	earlyThings = iota
	earlyRecent
	earlyLasting
	earlyWork
	earlyOpen
	earlyNews // what came since the phone began, beside its pull
)

// EarlyAt is how far a phone has come with its early arrivals. What arrives while it
// goes on moves nothing: it is all about the arrivals up to Top.
type EarlyAt struct {
	Top   int64 // the newest arrival when the phone began
	stage int
	below int64 // the stage goes on with arrivals below this
}

// String returns the text that the phone brings back.
func (a EarlyAt) String() string { return fmt.Sprintf("%d.%d.%d", a.Top, a.stage, a.below) }

// ParseEarly reads such a text.
func ParseEarly(text string) (a EarlyAt, ok bool) {
	n, err := fmt.Sscanf(text, "%d.%d.%d", &a.Top, &a.stage, &a.below)
	return a, n == 3 && err == nil && a.String() == text && a.Top >= 0 && a.below >= 0 && a.stage >= earlyThings && a.stage <= earlyNews
}

// next is the beginning of the next stage.
func (a EarlyAt) next() EarlyAt { return EarlyAt{Top: a.Top, stage: a.stage + 1, below: math.MaxInt64} }

// IsOver reports whether only what came since the phone began is still to be told, for
// which its pull need not wait.
func (a EarlyAt) IsOver() bool { return a.stage == earlyNews }

// BeginEarly returns where a phone begins that holds all up to cursor; false if it
// lacks so little that it need not.
func (s *Store) BeginEarly(crew string, cursor int64, l EarlyLimits) (EarlyAt, bool) {
	c, ok := s.State(crew)
	return EarlyAt{Top: c.Max, below: math.MaxInt64}, ok && c.Max-cursor > l.or().Spare
}

// or returns the limits, or those of the server for the zero value.
func (l EarlyLimits) or() EarlyLimits {
	if l == (EarlyLimits{}) {
		return earlyLimits
	}
	return l
}

// Early returns the next of the early arrivals of a phone that holds all up to cursor,
// and where it goes on. Without a row it has had them all. A row whose bytes no longer
// fit their sum is passed over.
func (s *Store) Early(ctx context.Context, crew string, cursor int64, at EarlyAt, now time.Time, l EarlyLimits) ([]Row, EarlyAt, error) {
	c, ok := s.State(crew)
	if !ok {
		return nil, at, nil
	}
	l = l.or()
	at.Top = min(at.Top, c.Max) // a restored store has less
	e := earlyPage{s: s, crew: c.key, gone: s.gone.of(crew), limits: l, cursor: cursor, top: at.Top, floor: max(cursor, at.Top-l.Recent),
		since: event.StampOf(max(0, now.AddDate(0, 0, -recentDays).UnixMilli())).String()}
	for !at.IsOver() {
		rows, below, err := e.stage(ctx, at)
		if err != nil {
			return nil, at, fmt.Errorf("read early arrivals at %v: %w", at, err)
		}
		if below > 0 {
			return rows, EarlyAt{Top: at.Top, stage: at.stage, below: below}, nil
		}
		at = at.next()
	}
	from := max(at.Top, cursor)
	rows, err := s.After(ctx, crew, from, l.Page, l.Size)
	return rows, EarlyAt{Top: from + int64(len(rows)), stage: earlyNews, below: at.below}, err
}

// earlyPage reads one page.
type earlyPage struct {
	s      *Store
	crew   int64
	gone   *erasures
	limits EarlyLimits
	cursor int64  // what is up to it is not wanted
	top    int64  // nor what is above this
	floor  int64  // the newest arrivals are those above it
	since  string // that have an o of this or later
}

// columns of an event, as scan reads them.
const columns = `e.n, e.id, e.o, e.sum, e.chain, e.raw`

// stage returns a page of a stage and the lowest arrival that was looked at; 0 if the
// stage has no more.
func (e *earlyPage) stage(ctx context.Context, at EarlyAt) ([]Row, int64, error) {
	below := min(at.below, e.top+1)
	switch at.stage {
	case earlyThings: // newest ones too: all else is named after them
		return e.stands(ctx, event.OfThings, e.limits.Things, below, e.top)
	case earlyRecent:
		return e.read(ctx, `SELECT `+columns+` FROM event e
			WHERE e.crew = ? AND e.n > ? AND e.n < ? AND e.o >= ? ORDER BY e.n DESC LIMIT ?`,
			e.crew, e.floor, below, e.since, e.limits.Page)
	case earlyLasting:
		return e.stands(ctx, event.Lasting, e.limits.Stands, below, e.floor)
	case earlyWork:
		return e.stands(ctx, event.OfWork, e.limits.Stands, below, e.floor)
	}
	return e.open(ctx, below)
}

// stands reads the newest of what has that standing, without what is above had and
// of the last days, which the phone has had.
func (e *earlyPage) stands(ctx context.Context, standing event.Standing, most, below, had int64) ([]Row, int64, error) {
	lowest, err := e.lowest(ctx, standing, most)
	if err != nil {
		return nil, 0, err
	}
	return e.read(ctx, `SELECT `+columns+` FROM standing s JOIN event e ON e.crew = s.crew AND e.n = s.n
		WHERE s.crew = ? AND s.rank = ? AND s.n >= ? AND s.n < ? AND NOT (s.n > ? AND e.o >= ?) ORDER BY s.n DESC LIMIT ?`,
		e.crew, int(standing), lowest, below, had, e.since, e.limits.Page)
}

// lowest returns the arrival with which the newest of a standing end.
func (e *earlyPage) lowest(ctx context.Context, standing event.Standing, most int64) (int64, error) {
	var n int64
	err := e.s.read.QueryRowContext(ctx, `SELECT n FROM standing WHERE crew = ? AND rank = ? AND n <= ? ORDER BY n DESC LIMIT 1 OFFSET ?`,
		e.crew, int(standing), e.top, most-1).Scan(&n)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	return max(n, e.cursor+1), err
}

// read reads rows, newest first, as many as a reply may have bytes.
func (e *earlyPage) read(ctx context.Context, query string, args ...any) (page []Row, below int64, err error) {
	rows, err := e.s.read.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, 0, err
	}
	defer rows.Close()
	size := e.limits.Size
	for rows.Next() {
		r, err := e.gone.scan(rows)
		if err != nil && !errors.Is(err, errDamaged) {
			return nil, 0, err
		}
		if size -= len(r.Raw); size < 0 && below > 0 {
			break
		}
		if below = r.N; err != nil {
			e.s.noteBad(e.crew, r)
			continue
		}
		page = append(page, r)
	}
	return page, below, rows.Err()
}

// open reads the older entries of the next open session that has any. They stand near
// its opening; those of the last days the phone has had.
func (e *earlyPage) open(ctx context.Context, below int64) ([]Row, int64, error) {
	sessions, err := e.openSessions(ctx)
	if err != nil {
		return nil, 0, err
	}
	for _, x := range sessions {
		if x.n >= below {
			continue
		}
		page, lowest, err := e.read(ctx, `SELECT `+columns+` FROM event e
			WHERE e.crew = ? AND e.n > ? AND e.n <= ? AND NOT (e.n > ? AND e.o >= ?)
			AND (instr(e.raw, CAST(? AS BLOB)) > 0 OR instr(e.raw, CAST(? AS BLOB)) > 0) ORDER BY e.n DESC LIMIT ?`,
			e.crew, x.n, min(e.top, x.n+e.limits.Recent), e.floor, e.since, `"in":"`+x.id+`"`, `"about":"`+x.id+`"`, e.limits.Page)
		if err != nil || lowest > 0 {
			return page, x.n, err
		}
	}
	return nil, 0, nil
}

// opened is a session and the arrival that opened it.
type opened struct {
	id string
	n  int64
}

// openSessions returns the newest sessions that were opened and not closed since, of
// those that began before the newest arrivals.
func (e *earlyPage) openSessions(ctx context.Context) (list []opened, err error) {
	lowest, err := e.lowest(ctx, event.OfWork, e.limits.Stands)
	if err != nil {
		return nil, err
	}
	rows, err := e.s.read.QueryContext(ctx, `SELECT `+columns+` FROM standing s JOIN event e ON e.crew = s.crew AND e.n = s.n
		WHERE s.crew = ? AND s.rank = ? AND s.n >= ? AND s.n <= ? ORDER BY s.n DESC`, e.crew, int(event.OfWork), lowest, e.top)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	met := map[string]bool{}
	for rows.Next() && len(list) < e.limits.Open {
		r, err := e.gone.scan(rows)
		if errors.Is(err, errDamaged) {
			continue
		}
		if err != nil {
			return nil, err
		}
		event, err := event.Decode(r.Raw)
		if err != nil || met[event.About] {
			continue // of an erased one the stub says nothing
		}
		met[event.About] = true
		if event.Kind == "session.opened" && !(r.N > e.floor && r.O.String() >= e.since) {
			list = append(list, opened{event.About, r.N})
		}
	}
	return list, rows.Err()
}
